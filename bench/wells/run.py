"""Well functions beside scipy in one run: G by scipy.integrate.quad a value, W by a loop of scipy.special.exp1.

Run from the project's root: python3 bench/wells/run.py. Prints one JSON line with both sides and the ratios.
"""
import json
import subprocess
import time

import numpy as np
from scipy.integrate import quad
from scipy.special import exp1, j0, y0

ours = json.loads(
    subprocess.run(
        ["cargo", "run", "--release", "-q", "-p", "aquifer", "--example", "time_wells"],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
)


def g_quad(alpha):
    """4/pi^2 * integral of exp(-alpha x^2) / (x (J0^2 + Y0^2)) over ln x, the smooth form of the integral."""
    def f(v):
        x = np.exp(v)
        return np.exp(-alpha * x * x) / (j0(x) ** 2 + y0(x) ** 2)

    top = 0.5 * np.log(42 / alpha)
    low = min(-18.5, -0.5 * np.log(alpha) - 18.5)
    body = quad(f, low, top, epsrel=1e-8, limit=200)[0]
    tail = np.pi / 2 * (np.pi / 2 + np.arctan((low + np.euler_gamma - np.log(2)) * 2 / np.pi))
    return 4 / np.pi**2 * (body + tail)


alphas = np.logspace(-4, 12, 400)
start = time.perf_counter()
for a in alphas:
    g_quad(a)
g_ns = (time.perf_counter() - start) / len(alphas) * 1e9

us = np.logspace(-12, 0.7, 200_000).tolist()
start = time.perf_counter()
for u in us:
    exp1(u)
w_ns = (time.perf_counter() - start) / len(us) * 1e9

print(json.dumps({
    **ours,
    "scipy_quad_g_ns": round(g_ns, 1),
    "scipy_exp1_loop_ns": round(w_ns, 1),
    "g_times_faster": round(g_ns / ours["g_ns"], 1),
    "g_quadrature_times_faster": round(g_ns / ours["g_quadrature_ns"], 1),
    "w_times_faster": round(w_ns / ours["w_ns"], 1),
}))
