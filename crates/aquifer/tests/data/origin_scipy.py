"""What the checks of noble gases, isotope lines, waves and carbon-14 expect: run with scipy 1.17.1, numpy 2.4.6.

    python3 crates/aquifer/tests/data/origin_scipy.py

writes origin_scipy.csv beside itself. Constants are read from the reference tables of the project; the formulas are
written here a second time, with scipy's own optimisers.
"""
import csv
import math
import pathlib

import numpy as np
from scipy import optimize, stats

HERE = pathlib.Path(__file__).resolve().parent
TABLES = HERE.parents[3] / "reference"
K = {}
for name in ("tracers.csv", "tracers_origin.csv"):
    for row in csv.DictReader(open(TABLES / name, encoding="utf-8")):
        K[row["key"]] = float(row["value"])

OUT = []


def put(key, value):
    OUT.append((key, repr(float(value))))


# Noble gases ---------------------------------------------------------------------------------------------------------
GASES = ["Ne", "Ar", "Kr", "Xe"]


def pw(t):
    x = (t + 273.15) / 100
    return math.exp(K["pw.a"] + K["pw.b"] / x + K["pw.c"] * math.log(x))


def ceq(g, t, p=1.0):
    x = (t + 273.15) / 100
    a = [K[f"{g}.Ceq.A{i}"] for i in (1, 2, 3, 4)]
    return math.exp(a[0] + a[1] / x + a[2] * math.log(x) + a[3] * x) * (p - pw(t)) / (1 - pw(t))


def model(kind, q, g, p):
    e, z = ceq(g, q[0], p), K[f"air.x.{g}"]
    if kind == "ua":
        return e + q[1] * 1e-4 * z
    a = math.exp(q[1]) * z
    if kind == "ce":
        return e + (1 - q[2]) * a / (1 + q[2] * a / e)
    return e + a * math.exp(-q[2] * K[f"diffusion.{g}"])


def fit(tag, kind, c, rel, p, start):
    u = np.array([math.hypot(rel, K["noble.u_sol"] / 100) * x for x in c])
    f = lambda q: (np.array([model(kind, q, g, p) for g in GASES]) - c) / u
    bounds = {
        "ua": ([0, -50], [35, 1000]),
        "ce": ([0, math.log(1e-6), 0], [35, math.log(0.1), 3]),
        "pr": ([0, math.log(1e-6), 0], [35, math.log(0.1), 10]),
    }[kind]
    best = None
    for s in start:
        r = optimize.least_squares(f, s, bounds=bounds, x_scale="jac", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=5000)
        if best is None or r.cost < best.cost:
            best = r
    cov = np.linalg.inv(best.jac.T @ best.jac)
    put(f"{tag}.{kind}.t", best.x[0])
    put(f"{tag}.{kind}.u_t", math.sqrt(cov[0, 0]))
    put(f"{tag}.{kind}.chi2", 2 * best.cost)
    nu = len(GASES) - len(best.x)
    put(f"{tag}.{kind}.p", stats.chi2.sf(2 * best.cost, nu))
    if len(best.x) == 3:
        put(f"{tag}.{kind}.correlation", cov[1, 2] / math.sqrt(cov[1, 1] * cov[2, 2]))
    return best.x, cov


rng = np.random.default_rng(7)
for n, (kind, q, h) in enumerate(
    [("ua", [8.5, 2.0], 100.0), ("ce", [6.0, math.log(9e-4), 0.45], 420.0), ("pr", [11.0, math.log(5e-4), 0.8], 0.0)]
):
    p = (1 - K["P.elevation.per_m"] * h) ** K["P.elevation.power"]
    c = np.array([model(kind, q, g, p) * (1 + 0.01 * rng.standard_normal()) for g in GASES])
    for g, x in zip(GASES, c):
        put(f"sample{n}.{g}", x)
    put(f"sample{n}.height", h)
    fit(f"sample{n}", "ua", c, 0.01, p, [[12, 2]])
    fit(f"sample{n}", "ce", c, 0.01, p, [[12, math.log(a), f] for a in (2e-4, 2e-3) for f in (0.1, 0.5, 1.3)])
    fit(f"sample{n}", "pr", c, 0.01, p, [[12, math.log(a), f] for a in (2e-4, 2e-3) for f in (0.1, 1.0)])

# A line with errors in both coordinates -------------------------------------------------------------------------------
# Least squares over slope, intercept and the true abscissae, all free: the definition, not the iteration of York.
n = 24
x0 = rng.uniform(-16, -4, n)
x = x0 + 0.1 * rng.standard_normal(n)
y = 7.7 * x0 + 6.5 + 1.0 * rng.standard_normal(n) + 0.8 * rng.standard_normal(n)
w = rng.uniform(10, 140, n).round(0)
x, y = x.round(2), y.round(1)
for i in range(n):
    put(f"rain.{i}.x", x[i])
    put(f"rain.{i}.y", y[i])
    put(f"rain.{i}.mm", w[i])
for tag, ww in (("line", np.ones(n)), ("weighted", w / w.mean())):
    s = np.sqrt(ww)
    f = lambda q: np.concatenate([s * (q[2:] - x) / 0.1, s * (q[0] * q[2:] + q[1] - y) / 1.0])
    r = optimize.least_squares(f, np.concatenate([[8, 10], x]), x_scale="jac", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    cov = np.linalg.inv(r.jac.T @ r.jac)
    k = max(1.0, 2 * r.cost / (n - 2))
    put(f"{tag}.slope", r.x[0])
    put(f"{tag}.intercept", r.x[1])
    put(f"{tag}.scatter", math.sqrt(2 * r.cost / (n - 2)))
    put(f"{tag}.u_slope", math.sqrt(k * cov[0, 0]))
    put(f"{tag}.u_intercept", math.sqrt(k * cov[1, 1]))

# A year's wave --------------------------------------------------------------------------------------------------------
t = 2024 + (np.arange(14) + 0.3) / 12
d = (-9.5 + 2.4 * np.cos(2 * math.pi * (t - 0.55)) + 0.5 * rng.standard_normal(14)).round(2)
a = np.column_stack([np.ones(14), np.cos(2 * math.pi * t), np.sin(2 * math.pi * t)])
sol, res, *_ = np.linalg.lstsq(a, d, rcond=None)
cov = np.linalg.inv(a.T @ a) * res[0] / 11
amp = math.hypot(sol[1], sol[2])
g = np.array([0, sol[1] / amp, sol[2] / amp])
for i in range(14):
    put(f"wave.{i}.t", t[i])
    put(f"wave.{i}.d", d[i])
put("wave.mean", sol[0])
put("wave.amplitude", amp)
put("wave.u", math.sqrt(g @ cov @ g))

# Carbon-14: numpy's draws, 2 000 000 ----------------------------------------------------------------------------------
N = 2_000_000
life = rng.normal(5730, 40, N) / math.log(2)
f14c, dic13 = rng.normal(0.10, 0.003, N), rng.normal(-14, 0.2, N)
soil, rock = rng.normal(-23, 3, N), rng.normal(0, 2, N)
co2, hco3, tc = rng.normal(0.4, 0.04, N), rng.normal(4.0, 0.1, N), rng.normal(10, 1, N)
eps = K["eps13C.bicarbonate.a"] / (tc + 273.15) + K["eps13C.bicarbonate.b"]
q = {
    "fixed": rng.normal(0.85, 0.05, N),
    "stoichiometric": (co2 + hco3 / 2) / (co2 + hco3),
    "mixing": (dic13 - rock) / (soil - rock),
    "equilibrium": (dic13 - rock) / (soil - eps - rock),
}
for k, v in q.items():
    age = life * np.log(np.where(v > 0, v, np.nan) / f14c)
    for name, p in (("low", 2.5), ("median", 50), ("high", 97.5)):
        put(f"c14.{k}.{name}", np.nanpercentile(age, p))

with open(HERE / "origin_scipy.csv", "w", encoding="utf-8", newline="") as out:
    out.write("key,value\n")
    out.writelines(f"{k},{v}\n" for k, v in OUT)
