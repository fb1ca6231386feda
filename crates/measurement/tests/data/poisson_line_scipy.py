"""Makes poisson_line_scipy.csv: python3 poisson_line_scipy.py > poisson_line_scipy.csv (scipy 1.17.1, numpy 2.4.6).

Counts k_i of standards x_i, mean a + b*x: the maximum of the Poisson likelihood (a, b >= 0) by scipy.optimize.minimize
on the negative log-likelihood, polished by Newton on the score until it is below 1e-12; and, to show what counts as
weights do, the line of weights 1/max(k, 1)."""
import numpy as np
from scipy import optimize
rng = np.random.default_rng(20)
X = np.array([0, 0.5, 1, 2, 5, 10])
def ml(x, k):
    nll = lambda p: np.sum(p[0] + p[1] * x - k * np.log(np.maximum(p[0] + p[1] * x, 1e-300)))
    start = np.array([max(k[x == 0].mean(), 0.1), max(k[-1] / x[-1], 0.1)])
    p = optimize.minimize(nll, start, method="Nelder-Mead", options=dict(xatol=1e-10, fatol=1e-14, maxiter=20000)).x
    for _ in range(50):
        m = p[0] + p[1] * x
        score = np.array([np.sum(k / m - 1), np.sum((k / m - 1) * x)])
        h = np.array([[np.sum(k / m**2), np.sum(k * x / m**2)], [np.sum(k * x / m**2), np.sum(k * x * x / m**2)]])
        p = p + np.linalg.solve(h, score)
    assert np.all(np.abs(score) < 1e-9), score
    return p
def weighted(x, k):
    w = 1 / np.maximum(k, 1)
    b, a = np.polyfit(x, k, 1, w=np.sqrt(w))
    return a, b
print("set,x,counts,intercept,slope,intercept_by_counts,slope_by_counts")
for s, (a, b) in enumerate([(2, 3), (2, 3), (5, 8), (5, 8), (30, 40), (400, 1000), (20000, 80000)]):
    k = rng.poisson(a + b * X).astype(float)
    p, q = ml(X, k), weighted(X, k)
    for x, c in zip(X, k):
        print(f"{s},{x!r},{int(c)},{p[0]!r},{p[1]!r},{q[0]!r},{q[1]!r}".replace("np.float64(", "").replace(")", ""))
