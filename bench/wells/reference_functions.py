"""Reference values of the well functions, made with mpmath 1.3.0 (a general-purpose library).

G by numerical inversion of its Laplace transform K1(sqrt p)/(sqrt p K0(sqrt p)) with Talbot's contour
at 40 digits; W = E1. Writes crates/aquifer/tests/data/{g_mpmath,w_mpmath}.csv. Run from the project's root.
"""
from mpmath import mp, mpf, besselk, e1, invertlaplace, nstr, sqrt

mp.dps = 40


def transform(p):
    s = sqrt(p)
    return besselk(1, s) / (s * besselk(0, s))


with open("crates/aquifer/tests/data/g_mpmath.csv", "w") as out:
    out.write("alpha,G\n")
    for k in range(-16, 49):
        alpha = mpf(10) ** (mpf(k) / 4)
        out.write(f"{nstr(alpha, 17)},{nstr(invertlaplace(transform, alpha, method='talbot'), 16)}\n")

with open("crates/aquifer/tests/data/w_mpmath.csv", "w") as out:
    out.write("u,W\n")
    values = [10.0 ** (k / 4) for k in range(-48, 1)] + [0.9, 1.01, 1.5, 1.9, 2.0, 2.1, 3.0, 5.0, 10.0, 30.0, 100.0, 500.0]
    for u in values:
        out.write(f"{u!r},{nstr(e1(mpf(u)), 17)}\n")
