"""Linear propagation of a run with the Python package `uncertainties`, for bench/reduction.

    pip install uncertainties numpy
    python3 bench/reduction/uncertainties_twin.py [VIALS] [ISOTOPES]

The same chain as the Rust example `reduce_time`: dead time, internal standard, straight drift through
the checks, weighted line, blank mean with its spread, net value with its budget (error_components).
Every replicate mean is a variable of its own, so all correlations are kept. Isotopes are independent
of each other, so a few are timed and the time is per isotope. Prints processor time.
"""

import sys
import time

import numpy as np
from uncertainties import ufloat

vials = int(sys.argv[1]) if len(sys.argv) > 1 else 481
isotopes = int(sys.argv[2]) if len(sys.argv) > 2 else 1
rng = np.random.default_rng(1)
TAU = 20e-9
BLANKS, STANDARDS, FIELD = 5, [0.5, 1.0, 2.0, 5.0, 10.0], 6
checks = [i for i in range(16, vials) if (i - 16) % 7 == 0]
level = np.full(vials, 1.08)
level[:BLANKS] = 0.0
level[BLANKS:10] = STANDARDS
level[10:16] = 0.08
level[checks] = 2.0
minutes = np.arange(vials) * 8.0


def isotope():
    tau = ufloat(TAU, 1e-9)
    stock = ufloat(1.0, 0.005)

    def mean(rate):
        x = rng.poisson(rate * 3.0, 5) / 3.0
        n = ufloat(x.mean(), x.std(ddof=1) / 5**0.5)
        return n / (1 - n * tau)

    y = [mean(5 + 1500 * (c + 0.02)) / (mean(40000.0) / 40000.0) for c in level]
    # straight line through the checks
    t = minutes[checks]
    t0 = t.mean()
    sxx = ((t - t0) ** 2).sum()
    scale = np.mean([y[i].nominal_value for i in checks])
    a = sum(y[i] for i in checks) / (len(checks) * scale)
    b = sum((minutes[i] - t0) * y[i] for i in checks) / (sxx * scale)
    y = [v / (a + b * (m - t0)) for v, m in zip(y, minutes)]
    # weighted line
    x = [0.0] * BLANKS + STANDARDS
    w = np.array([1 / v.std_dev**2 for v in y[:10]])
    xm = (w * x).sum() / w.sum()
    s = (w * (np.array(x) - xm) ** 2).sum()
    slope = sum(wi * (xi - xm) / s * (yi * 1) for wi, xi, yi in zip(w, x, y)) / stock
    ym = sum(wi / w.sum() * yi for wi, yi in zip(w, y))
    inter = ym - slope * xm * stock
    gross = [(v - inter) / slope for v in y[10:]]
    blank = gross[:6]
    spread = np.std([g.nominal_value for g in blank], ddof=1)
    middle = sum(g.nominal_value for g in blank) / 6 + ufloat(0, spread / 6**0.5)
    out = []
    for g in gross[6:]:
        net = g - middle + ufloat(0, spread)
        out.append((net.nominal_value, net.std_dev, net.error_components()))
    return out


isotope() if vials < 100 else None
start = time.process_time()
n = sum(len(isotope()) for _ in range(isotopes))
spent = time.process_time() - start
print(f"{vials} vials, {isotopes} isotopes: {n} results in {spent:.2f} s, {1e3 * spent / isotopes:.1f} ms per isotope")
