"""The joint fit of six tracers in numpy/scipy: the same histories, sample, models, grids, priors and draws.

Tables by one matrix product a shape over a fixed grid of ages; draws weighted by likelihood over the grid's own posterior.
Prints one JSON line with seconds and T (2.5, 50, 97.5 %) of each model.
"""
import json
import math
import pathlib
import sys
import time

import numpy as np
import scipy
from scipy.special import ndtr

DRAWS = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
DATA = pathlib.Path(__file__).resolve().parents[2] / "crates/aquifer/tests/data/age_tritium_invented.csv"
SAMPLED, LAMBDA, CARBON = 2026.5, math.log(2) / (4500 / 365.25), math.log(2) / 5730
start = time.perf_counter()

rows = np.array([[float(x) for x in l.split(",")] for l in DATA.read_text().splitlines() if l[0].isdigit()])
years = np.arange(1941, 2027) + 0.5


def grown(since, by):
    return by * np.maximum(years - since, 0) ** 2


# Ages: every twentieth of a year through the record, then a logarithmic grid; midpoints with their widths.
edges = np.concatenate([np.arange(0, 90, 0.05), np.exp(np.linspace(math.log(90), math.log(2e6), 3000))])
tau, width = 0.5 * (edges[1:] + edges[:-1]), np.diff(edges)
when = SAMPLED - tau
rain = np.where(when < rows[0, 0], 12.0, np.exp(np.interp(when, rows[:, 0], np.log(rows[:, 1]))))
decay = np.exp(-LAMBDA * tau)
inputs = np.stack([rain * decay, rain * (1 - decay), *(np.interp(when, years, g) for g in (grown(1960.5, 0.0026), grown(1944.5, 0.08), grown(1958.5, 0.018))), np.exp(-CARBON * tau)], axis=1)
# Solubility per ppt at 9 degrees, 120 m: dissolved and from 1 cm3 STP/kg of air; relative change a degree and a metre.
x = 2.8215
pw = math.exp(24.4543 - 67.4509 / x - 4.8489 * math.log(x))
pressure = (1 - 2.25577e-5 * 120) ** 5.25588
coefficients = [(-82.1639, 120.152, 30.6372, 0), (-220.212, 301.8695, 114.8533, -1.39165), (-231.902, 322.915, 119.111, -1.3917)]
dissolved = np.array([math.exp(a + b / x + c * math.log(x) + d * x * x) for a, b, c, d in coefficients]) * 1e3 * (pressure - pw) / (1 - pw)
air = 1e3 / 22413.97
per_degree = np.array([-0.043, -0.044, -0.049])
per_metre = -1.2e-4
value = np.array([5.0, 48.0, 2.1, 1400.0, 220.0, 0.7])
u = np.array([0.2, 2.5, 0.08, 50.0, 9.0, 0.004])
u_sol = np.array([0.02, 0.015, 0.015])
rng = np.random.default_rng(1)


def grid(fine, low=1.0, high=50_000.0):
    out = [math.log(low)]
    while out[-1] < math.log(high):
        out.append(min(out[-1] + (fine if out[-1] < math.log(160) else max(fine, 0.08)), math.log(high)))
    return np.array(out)


def table(ln_t, g):
    return np.concatenate([(g(np.exp(part)[:, None]) * width) @ inputs for part in np.array_split(ln_t, max(1, len(ln_t) // 100))])


def piston(ln_t):
    return np.stack([np.interp(np.exp(ln_t), tau, inputs[:, k]) for k in range(6)], axis=1)


def predicted(c, n):
    """Values of the six tracers, and the variance of what is not drawn; n: degrees, metres, air, tritium's history."""
    water = dissolved * np.exp(per_degree * n[:, :1] + per_metre * n[:, 1:2])
    per = water + air * n[:, 2:3]
    out = c.copy()
    out[:, :2] *= 1 + 0.05 * n[:, 3:4]
    out[:, 2:5] = per * c[:, 2:5]
    s2 = np.zeros_like(c)
    s2[:, 2:5] = (0.02 * out[:, 2:5]) ** 2 + (u_sol * water * c[:, 2:5]) ** 2
    return out, s2


def ln_likelihood(c, n, wider=0.0):
    p, s2 = predicted(c, n)
    s = np.sqrt(u**2 + s2 + wider)
    out = (-0.5 * ((value - p) / s) ** 2 - np.log(s))[:, :5].sum(axis=1)
    low, high = (value[5] - 0.85 * p[:, 5]) / u[5], (value[5] - 0.55 * p[:, 5]) / u[5]
    band = np.where(low > 0, ndtr(-low) - ndtr(-high), ndtr(high) - ndtr(low))
    return out + np.log(np.maximum(band, 1e-300)) - np.log(np.maximum(0.3 * p[:, 5], 1e-300))


def nuisances(n):
    z = rng.standard_normal((n, 4))
    return np.stack([0.5 * z[:, 0], 30 * z[:, 1], np.maximum(2 + 0.3 * z[:, 2], 0), z[:, 3]], axis=1)


def fit(ln_t, tables, shares=1, second=None):
    """Tables are (shape, T, tracer); places of the grid are drawn by their posterior, T and share within the cell."""
    width_t = np.diff(ln_t)
    middle = 0.5 * (tables[:, 1:] + tables[:, :-1])
    shape, cell = (a.ravel() for a in np.meshgrid(np.arange(len(tables)), np.arange(len(width_t)), indexing="ij"))
    share = np.zeros(len(shape))
    old = np.zeros(len(shape), dtype=int)
    if shares > 1:
        olds = 1 if second is None else len(second[0]) - 1
        shape, cell = np.repeat(shape, shares * olds), np.repeat(cell, shares * olds)
        share = np.tile(np.repeat(np.arange(shares) / shares, olds), len(shape) // (shares * olds))
        old = np.tile(np.arange(olds), len(shape) // olds)
    prior = width_t[cell] * (1 if second is None else np.diff(second[0])[old])
    c = middle[shape, cell]
    if shares > 1:
        f = (share + 0.5 / shares)[:, None]
        rest = 0 if second is None else 0.5 * (second[1][1:] + second[1][:-1])[old]
        c = f * c + (1 - f) * rest
    p = predicted(c, np.array([[0, 0, 2.0, 0]]))[0]
    wider = np.zeros_like(c)
    wider[:, :2] = (0.05 * p[:, :2]) ** 2
    wider[:, 2:5] = (p[:, 2:5] * np.abs(per_degree) * 0.5) ** 2 + (air * 0.3 * c[:, 2:5]) ** 2
    score = np.log(prior / prior.sum()) + 0.8 * ln_likelihood(c, np.array([[0, 0, 2.0, 0]]), wider)
    q = 0.95 * np.exp(score - score.max()) / np.exp(score - score.max()).sum() + 0.05 * prior / prior.sum()
    k = rng.choice(len(q), DRAWS, p=q / q.sum())
    s = rng.random((DRAWS, 1))
    c = tables[shape[k], cell[k]] * (1 - s) + tables[shape[k], cell[k] + 1] * s
    if shares > 1:
        f = (share[k] + rng.random(DRAWS) / shares)[:, None]
        s2 = rng.random((DRAWS, 1))
        rest = 0 if second is None else second[1][old[k]] * (1 - s2) + second[1][old[k] + 1] * s2
        c = f * c + (1 - f) * rest
    w = ln_likelihood(c, nuisances(DRAWS)) + np.log(prior[k] / prior.sum()) - np.log(q[k])
    w = np.exp(w - w.max())
    t = np.exp(ln_t[cell[k]] + s[:, 0] * width_t[cell[k]])
    order = np.argsort(t)
    cumulative = np.cumsum(w[order]) / w.sum()
    return [float(t[order][np.searchsorted(cumulative, p)]) for p in (0.025, 0.5, 0.975)]


def exponential(t):
    return np.exp(-tau / t) / t


def exponential_piston(eta):
    return lambda t: np.where(tau >= t * (1 - 1 / eta), eta / t * np.exp(np.minimum(-eta * tau / t + eta - 1, 0)), 0)


def dispersion(d):
    return lambda t: np.exp(-((1 - tau / t) ** 2) / (4 * d * tau / t)) / (tau * np.sqrt(4 * math.pi * d * tau / t))


fine, wide, coarse = grid(0.005), grid(0.03), grid(0.12, 1.0, 500.0)
pistons, exponentials = piston(fine)[None], table(wide, exponential)[None]
answers = {
    "piston": fit(fine, pistons),
    "exponential": fit(wide, exponentials),
    "exponential-piston": fit(wide, np.stack([table(wide, exponential_piston(e)) for e in (1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.5, 3.3, 5.0, 10.0)])),
    "dispersion": fit(wide, np.stack([table(wide, dispersion(d)) for d in (0.01, 0.025, 0.06, 0.12, 0.25, 0.5, 1.0)])),
    "piston-dead": fit(fine, pistons, 20),
    "exponential-dead": fit(wide, exponentials, 20),
}
olds = grid(0.1, SAMPLED - 1953)
answers["two"] = fit(coarse, table(coarse, exponential)[None], 20, (olds, piston(olds)))
print(json.dumps({"numpy": np.__version__, "scipy": scipy.__version__, "all_s": round(time.perf_counter() - start, 3), "models": answers}))
