"""Makes tails_mpmath.csv: python3 tails_mpmath.py > tails_mpmath.csv (mpmath 1.3.0, 40 digits)."""
import mpmath as mp
mp.mp.dps = 40
def t_sf(t, nu):
    t, nu = mp.mpf(t), mp.mpf(nu)
    x = nu / (nu + t * t)
    half = mp.betainc(nu / 2, mp.mpf(1) / 2, 0, x, regularized=True) / 2
    return half if t >= 0 else 1 - half
def nct_sf(t, nu, d):
    # P(T' > t) = int_0^inf Phi(d - t*s) f(s) ds, s = sqrt(chi2/nu): no series, no subtraction.
    t, nu, d = mp.mpf(t), mp.mpf(nu), mp.mpf(d)
    c = 2 * (nu / 2) ** (nu / 2) / mp.gamma(nu / 2)
    f = lambda s: c * s ** (nu - 1) * mp.exp(-nu * s * s / 2) * mp.erfc((t * s - d) / mp.sqrt(2)) / 2
    # The hump: the top of the log of f is found by halving, its width from the second difference; pieces of one width
    # about it, long ones outside.
    log_f = lambda s: mp.log(f(s))
    lo, hi = mp.mpf(10) ** -12, 3 + 40 / mp.sqrt(nu)
    for _ in range(400):
        a, b = lo + (hi - lo) * mp.mpf("0.382"), lo + (hi - lo) * mp.mpf("0.618")
        lo, hi = (a, hi) if log_f(a) < log_f(b) else (lo, b)
        if hi - lo < mp.mpf(10) ** -25:
            break
    top = (lo + hi) / 2
    h = max(top, mp.mpf(10) ** -6) * mp.mpf(10) ** -8
    bend = (log_f(top + h) - 2 * log_f(top) + log_f(max(top - h, h / 2))) / h**2
    width = 1 / mp.sqrt(-bend) if bend < 0 else top
    end = top + 40 * width + 40 / mp.sqrt(nu)
    cuts = sorted({mp.mpf(0), end} | {cut for k in range(-24, 41, 2) if 0 < (cut := top + k * width) < end})
    # Over its top, since quad stops at an absolute error.
    height = f(top)
    return height * mp.quad(lambda s: f(s) / height, cuts)
if __name__ == "__main__":
    print("function,x,nu,delta,value")
    for nu in [1, 2, 3, 5, 9.5, 30, 200, 1e4]:
        for t in [5, 12, 40, 300, 1e4, 1e8]:
            v = t_sf(t, nu)
            if v > mp.mpf(10) ** -290:
                print(f"t_sf,{float(t)!r},{float(nu)!r},0.0,{mp.nstr(v, 17)}")
    for q in ["1e-15", "1e-30", "1e-100"]:
        for nu in [1, 2, 3, 9, 100]:
            f = lambda lt: mp.log(t_sf(mp.exp(lt), nu)) - mp.log(mp.mpf(q))
            lo, hi = mp.mpf(0), mp.mpf(400)
            for _ in range(250):
                m = (lo + hi) / 2
                lo, hi = (m, hi) if f(m) > 0 else (lo, m)
            print(f"t_upper_quantile,{q},{float(nu)!r},0.0,{mp.nstr(mp.exp(lo), 17)}")
    for nu in [1, 2, 3, 5, 9, 30, 200]:
        for d in [0.5, 2, 6, 15, 40]:
            for t in [0.3, 2, 8, 30, 200]:
                v = nct_sf(t, nu, d)
                print(f"nct_sf,{float(t)!r},{float(nu)!r},{float(d)!r},{mp.nstr(v, 17)}")
