"""Makes dist_scipy.csv: python3 dist_scipy.py > dist_scipy.csv (scipy 1.17.1, mpmath 1.3.0)."""
import mpmath
from scipy import stats, optimize

P = [1e-10, 1e-6, 1e-3, 0.01, 0.025, 0.05, 0.2, 0.4, 0.5, 0.7, 0.9, 0.95, 0.975, 0.99, 0.999]
U = [1e-10, 1e-6, 1e-4]
NU = [0.5, 1, 2, 3, 4.5, 6, 10, 19, 30, 100, 1e4, 1e6]


def row(name, x, a, b, value):
    print(f"{name},{float(x)!r},{float(a)!r},{float(b)!r},{float(value)!r}")


print("function,x,a,b,value")
for z in [-37, -20, -8, -3, -1.5, -0.1, 0, 0.3, 2, 5]:
    row("normal_cdf", z, 0, 0, stats.norm.cdf(z))
for p in P + [1e-100, 1e-300]:
    row("normal_quantile", p, 0, 0, stats.norm.ppf(p))
for nu in NU:
    for t in [-200, -12, -3, -1, -0.05, 0.4, 2, 6, 40]:
        row("t_cdf", t, nu, 0, stats.t.cdf(t, nu))
        row("t_sf", t, nu, 0, stats.t.sf(t, nu))
    for p in P:
        row("t_quantile", p, nu, 0, stats.t.ppf(p, nu))
    for q in U:
        row("t_upper_quantile", q, nu, 0, stats.t.isf(q, nu))
    for x in [1e-6, 0.01, 0.7, 1.0, 1.3, 3]:
        row("chi2_cdf", x * nu, nu, 0, stats.chi2.cdf(x * nu, nu))
        row("chi2_sf", x * nu, nu, 0, stats.chi2.sf(x * nu, nu))
    for p in P:
        row("chi2_quantile", p, nu, 0, stats.chi2.ppf(p, nu))
    for q in U:
        row("chi2_upper_quantile", q, nu, 0, stats.chi2.isf(q, nu))
for a in [0.5, 1, 2, 5, 9, 20, 120]:
    for b in [0.5, 1, 3, 10, 40, 500]:
        for x in [0.05, 0.5, 1, 2.5, 20]:
            row("f_cdf", x, a, b, stats.f.cdf(x, a, b))
            row("f_sf", x, a, b, stats.f.sf(x, a, b))
        for p in [1e-6, 0.01, 0.05, 0.5, 0.95, 0.99]:
            row("f_quantile", p, a, b, stats.f.ppf(p, a, b))
            row("beta_quantile", p, a, b, stats.beta.ppf(p, a, b))
        for x in [0.001, 0.2, 0.5, 0.9]:
            row("beta_cdf", x, a, b, stats.beta.cdf(x, a, b))
for a in [0.3, 1, 4, 33.5, 300, 5000]:
    for p in P:
        row("gamma_quantile", p, a, 0, stats.gamma.ppf(p, a))
for n, p in [(10, 0.5), (59, 0.95), (164, 0.99), (1000, 0.01)]:
    for k in sorted({0, n // 10, n // 2, int(n * p), n - 1}):
        row("binomial_pmf", k, n, p, stats.binom.pmf(k, n, p))
        row("binomial_cdf", k, n, p, stats.binom.cdf(k, n, p))
for m in [0.01, 1, 3.3, 108, 1e5]:
    for k in sorted({0, 1, 5, int(m), int(m + 3 * m**0.5)}):
        # scipy is 2e-10 off at m = 1e5, so mpmath with 40 digits.
        mpmath.mp.dps = 40
        pmf = mpmath.mpf(m) ** k * mpmath.exp(-mpmath.mpf(m)) / mpmath.factorial(k)
        row("poisson_pmf", k, m, 0, pmf)
        row("poisson_cdf", k, m, 0, stats.poisson.cdf(k, m))
for nu in [1, 2, 3, 4.5, 9, 19, 60, 1000]:
    for d in [-1, 0.5, 2, 5]:
        for t in [-1, 0.3, 1.8, 4, 9]:
            row("nct_cdf", t, nu, d, stats.nct.cdf(t, nu, d))
# P(T'(nu, delta) <= t(1 - alpha, nu)) = beta, solved for delta.
for nu in [1, 2, 3, 5, 9, 19, 60, 1000]:
    for alpha, beta in [(0.05, 0.05), (0.01, 0.05), (0.05, 0.01), (0.1, 0.2)]:
        crit = stats.t.isf(alpha, nu)
        hi = crit
        while stats.nct.cdf(crit, nu, hi) > beta:
            hi *= 1.1
        delta = optimize.brentq(
            lambda d: stats.nct.cdf(crit, nu, d) - beta, 0.1, hi, xtol=1e-13, rtol=1e-14
        )
        row("detection_delta", alpha, beta, nu, delta)
