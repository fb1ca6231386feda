"""Writes age_convolution.csv: inputs of the past through lumped-parameter models, by scipy.integrate.quad piece by piece.

    python3 crates/aquifer/tests/data/age_convolution.py > crates/aquifer/tests/data/age_convolution.csv

The tritium curve is age_tritium_invented.csv beside this file (linear in the logarithm between years, background 12 TU
before the first year), sampled 2026.5. The gas curve is ours: 0.05 ppt until 1960.5, then + 0.002 (year - 1960.5)^2, by
straight lines between whole steps of two years. Half-life of tritium 4500 d of 365.25 d a year.
"""
import math
import pathlib

import numpy as np
import scipy
from scipy.integrate import quad

HERE = pathlib.Path(__file__).parent
SAMPLED = 2026.5
LAMBDA = math.log(2) / (4500 / 365.25)
lines = [l.split(",") for l in (HERE / "age_tritium_invented.csv").read_text().splitlines() if l[0].isdigit()]
TRITIUM = ([float(l[0]) for l in lines], [float(l[1]) for l in lines], 12.0)
GAS_YEARS = [1960.5 + 2 * k for k in range(34)]
GAS = (GAS_YEARS, [0.05 + 0.002 * (y - 1960.5) ** 2 for y in GAS_YEARS], 0.05)


def value(curve, log, tau):
    years, values, background = curve
    when = SAMPLED - tau
    if when < years[0]:
        return background
    if log:
        return math.exp(np.interp(when, years, np.log(values)))
    return float(np.interp(when, years, values))


def density(model, a, b, c):
    if model == "exponential":
        return lambda t: math.exp(-t / a) / a
    if model == "exponential-piston":
        return lambda t: b / a * math.exp(-b * t / a + b - 1) if t >= a * (1 - 1 / b) else 0.0
    if model == "dispersion":
        return lambda t: math.exp(-((1 - t / a) ** 2) / (4 * b * t / a)) / (t * math.sqrt(4 * math.pi * b * t / a)) if t > 0 else 0.0
    norm = math.exp(-b / a) - math.exp(-c / a)
    return lambda t: math.exp(-t / a) / a / norm if b <= t <= c else 0.0


def through(curve, log, lam, model, a, b, c):
    g = density(model, a, b, c)
    joints = sorted({0.0, *(SAMPLED - y for y in curve[0]), *({a * (1 - 1 / b)} if model == "exponential-piston" else set())})
    if model == "partial-exponential":
        joints = sorted({*joints, b, c})
    if model == "dispersion":
        joints = sorted({*joints, *(a * x for x in (0.3, 0.6, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 2, 3))})
    f = lambda t: value(curve, log, t) * g(t) * math.exp(-lam * t)
    total = sum(quad(f, x, y, epsabs=1e-13, epsrel=1e-12, limit=200)[0] for x, y in zip(joints, joints[1:]))
    return total + quad(f, joints[-1], joints[-1] + 80 * a, epsabs=1e-13, epsrel=1e-12, limit=500, points=[joints[-1] + a])[0]


print(f"# scipy {scipy.__version__}, numpy {np.__version__}; made by age_convolution.py")
print("input,model,a,b,c,value")
for model, sets in [
    ("exponential", [(3, 0, 0), (25, 0, 0), (200, 0, 0)]),
    ("exponential-piston", [(25, 1.5, 0), (60, 3, 0), (120, 1.2, 0)]),
    ("dispersion", [(10, 0.02, 0), (30, 0.1, 0), (62, 0.01, 0), (150, 0.5, 0)]),
    ("partial-exponential", [(30, 10, 60), (80, 2, 40)]),
]:
    for a, b, c in sets:
        print(f"tritium,{model},{a},{b},{c},{through(TRITIUM, True, LAMBDA, model, a, b, c):.12g}")
        print(f"gas,{model},{a},{b},{c},{through(GAS, False, 0.0, model, a, b, c):.12g}")
