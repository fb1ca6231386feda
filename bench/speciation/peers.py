"""The same equations solved by general-purpose libraries: scipy.optimize.root with an analytic
Jacobian, one water at a time, and a Newton vectorised with numpy over all waters at once.

Usage: peers.py PROBLEM.json [waters for root] [waters for numpy] [table to write]
Reads what `time_speciation` wrote: species, terms, ln K, activity classes, waters. Equations:
ln(sum nu m / T) = 0 for each component, ln(I) - ln(1/2 sum z^2 m) = 0. Tolerance 1e-12 relative,
as in the crate. Prints wall and CPU time; the first 20 answers are compared with the crate's.
"""
import json
import sys
import time

import numpy as np
from scipy.optimize import root

problem = json.load(open(sys.argv[1]))
n_root = int(sys.argv[2]) if len(sys.argv) > 2 else 300
n_numpy = int(sys.argv[3]) if len(sys.argv) > 3 else 5000
A, B = problem["A"], problem["B"]
LN10 = np.log(10.0)
species = problem["species"]
width = problem["width"]
nu = np.zeros((len(species), width))
for i, s in enumerate(species):
    for c, n in s["terms"]:
        nu[i, c] = n
z = np.array([s["charge"] for s in species], float)
ln_k = np.array([s["ln_k"] for s in species])
kind = np.array([s["class"][0] for s in species])
z2 = z * z
a = np.array([s["class"][2] if s["class"][0] == 3 else 0.0 for s in species])
b = np.array([s["class"][3] if s["class"][0] == 3 else 0.0 for s in species])
free = nu[:, 1:]


def gamma(ionic):
    """ln gamma and its slope by ln I; ionic may be an array (waters, 1)."""
    s = np.sqrt(ionic)
    davies = -A * z2 * (s / (1 + s) - 0.3 * ionic)
    d_davies = -A * z2 * (0.5 / (s * (1 + s) ** 2) - 0.3)
    q = 1 + B * a * s
    ext = -A * z2 * s / q + b * ionic
    d_ext = -A * z2 * 0.5 / (s * q * q) + b
    g = np.where(kind == 1, 0.1 * ionic, np.where(kind == 2, davies, np.where(kind == 3, ext, 0.0)))
    d = np.where(kind == 1, 0.1, np.where(kind == 2, d_davies, np.where(kind == 3, d_ext, 0.0)))
    return g * LN10, d * LN10 * ionic


def start(ln_h, totals):
    """The crate's own first guess: totals as free ions."""
    charges = z[np.array([next(i for i in range(len(species)) if nu[i, c] == 1 and nu[i].sum() == 1) for c in range(1, width)])]
    ionic = 1e-7 + 0.5 * np.exp(ln_h) + 0.5 * (charges**2 * totals).sum(-1)
    return np.log(totals), np.log(np.minimum(ionic, 0.4))


def residual_and_jacobian(u, ln_h, ln_t):
    x, ln_i = u[:-1], u[-1]
    g, slope = gamma(np.exp(ln_i))
    m = np.exp(np.clip(ln_k + nu[:, 0] * ln_h + free @ x - g, -600, 60))
    p = free.T @ m
    ionic = 0.5 * (z2 @ m)
    f = np.append(np.log(p) - ln_t, np.log(ionic) - ln_i)
    j = np.empty((len(u), len(u)))
    fm = free * m[:, None]
    j[:-1, :-1] = (fm.T @ free) / p[:, None]
    j[:-1, -1] = -(fm.T @ slope) / p
    j[-1, :-1] = 0.5 * ((z2 * m) @ free) / ionic
    j[-1, -1] = -0.5 * (z2 * m) @ slope / ionic - 1.0
    return f, j


def by_root(waters):
    out, worst, failed = [], 0.0, 0
    for w in waters:
        totals = np.array(w["totals"][1:])
        x, ln_i = start(w["ln_h"], totals)
        ln_t = np.log(totals)
        u = np.append(x, ln_i)
        # Two sweeps as in the crate.
        for _ in range(2):
            f, _ = residual_and_jacobian(u, w["ln_h"], ln_t)
            u[:-1] -= 0.7 * f[:-1]
        r = root(residual_and_jacobian, u, args=(w["ln_h"], ln_t), jac=True, method="hybr", options={"xtol": 1e-13})
        f, _ = residual_and_jacobian(r.x, w["ln_h"], ln_t)
        if np.abs(f).max() > 1e-12:
            failed += 1
        else:
            worst = max(worst, np.abs(f).max())
        out.append(r.x)
    return out, worst, failed


def by_numpy(waters):
    ln_h = np.array([w["ln_h"] for w in waters])
    totals = np.array([w["totals"][1:] for w in waters])
    ln_t = np.log(totals)
    x, ln_i = start(ln_h, totals)
    base = ln_k + nu[:, 0] * ln_h[:, None]
    u = np.concatenate([x, ln_i[:, None]], axis=1)
    pairs = np.einsum("ij,ik->ijk", free, free).reshape(len(species), -1)
    n = width - 1
    steps = 0
    open_ = np.arange(len(waters))
    for it in range(60):
        v = u[open_]
        g, slope = gamma(np.exp(v[:, -1:]))
        m = np.exp(np.clip(base[open_] + v[:, :-1] @ free.T - g, -600, 60))
        p = m @ free
        ionic = 0.5 * (m @ z2)
        f = np.concatenate([np.log(p) - ln_t[open_], (np.log(ionic) - v[:, -1])[:, None]], axis=1)
        if it < 2:
            u[open_, :-1] -= 0.7 * f[:, :-1]
            continue
        left = np.abs(f).max(axis=1) > 5e-13
        if not left.any():
            break
        open_, m, p, ionic, f, slope = open_[left], m[left], p[left], ionic[left], f[left], slope[left]
        j = np.empty((len(open_), n + 1, n + 1))
        j[:, :-1, :-1] = (m @ pairs).reshape(-1, n, n) / p[:, :, None]
        ms = m * slope
        j[:, :-1, -1] = -(ms @ free) / p
        j[:, -1, :-1] = 0.5 * ((z2 * m) @ free) / ionic[:, None]
        j[:, -1, -1] = -0.5 * (ms @ z2) / ionic - 1.0
        d = np.linalg.solve(j, -f[:, :, None])[:, :, 0]
        t = np.minimum(1.0, 8.0 / np.abs(d[:, :-1]).max(axis=1))
        u[open_] += t[:, None] * d
        steps += len(open_)
    return u, steps / len(waters), len(open_) if left.any() else 0


def timed(name, work, count):
    wall, cpu = time.perf_counter(), time.process_time()
    result = work()
    wall, cpu = time.perf_counter() - wall, time.process_time() - cpu
    print(f"{name}: {wall * 1e6 / count:.0f} µs a water wall, {cpu * 1e6 / count:.0f} µs CPU ({count} waters)")
    return result


waters = problem["waters"]
found, worst, failed = timed("scipy.optimize.root (hybr, analytic Jacobian)", lambda: by_root(waters[:n_root]), n_root)
print(f"  worst residual {worst:.1e}; {failed} of {n_root} stopped short of 1e-12")
u, steps, left = timed("numpy, vectorised Newton", lambda: by_numpy(waters[:n_numpy]), n_numpy)
print(f"  {steps:.2f} steps a water, {left} left open")
apart = max(np.abs(np.array(x[1:]) - u[k, :-1]).max() for k, x in enumerate(problem["answers"]))
print(f"largest difference of ln activity to the crate's answers (20 waters): {apart:.1e}")
if len(sys.argv) > 4:
    # The table of crates/aqueous/tests/data/scipy_waters.csv: pH, totals, then ln a by root.
    with open(sys.argv[4], "w") as out:
        for w, x in list(zip(waters, found))[:12]:
            row = [-w["ln_h"] / LN10, *w["totals"][1:], *x]
            out.write(",".join(repr(float(v)) for v in row) + "\n")
