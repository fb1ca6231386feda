"""Quantities with correlated uncertainty, formulas and tables, for recompute.py.

A quantity carries, beside its value, its sensitivity to each independent error times that error's standard uncertainty
(`row`): u^2 is the sum of squares, and what two quantities share is correlated by itself (JCGM 100, 5.2 and annex H).
"""
import ast, csv, json, math, operator, os
import numpy as np

csv.field_size_limit(1 << 30)


class Q:
    """A value (a number, or one a replicate) with its row; `info` is what later steps need of it."""

    def __init__(self, v, row=None, **info):
        self.v, self.row, self.info = v, row or {}, info

    def combined(self, value, own, other, k):
        row = {e: own * x for e, x in self.row.items()}
        for e, x in (other.row.items() if isinstance(other, Q) else ()):
            row[e] = row.get(e, 0.0) + k * x
        return Q(value, row)

    def __add__(self, o): return self.combined(self.v + val(o), 1.0, o, 1.0)
    def __sub__(self, o): return self.combined(self.v - val(o), 1.0, o, -1.0)
    def __mul__(self, o): return self.combined(self.v * val(o), val(o), o, self.v)
    def __truediv__(self, o): return self.combined(self.v / val(o), 1.0 / val(o), o, -self.v / val(o) ** 2)
    def __radd__(self, o): return Q(o) + self
    def __rsub__(self, o): return Q(o) - self
    def __rmul__(self, o): return self * o
    def __rtruediv__(self, o): return Q(o) / self

    def u(self): return math.sqrt(sum(x * x for x in self.row.values()))
    def renamed(self, old, new): return {((new, *e[1:]) if e[0] == old else e): x for e, x in self.row.items()}


def val(x): return x.v if isinstance(x, Q) else x


def arithmetic(text, names):
    """A formula of names, numbers, + - * / and brackets, and nothing else."""
    ops = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}

    def of(n):
        if isinstance(n, ast.BinOp) and type(n.op) in ops: return ops[type(n.op)](of(n.left), of(n.right))
        if isinstance(n, ast.Name): return names[n.id]
        if isinstance(n, ast.Constant) and isinstance(n.value, (int, float)): return n.value
        raise ValueError(f"{text!r} is no formula of this package")
    return of(ast.parse(text, mode="eval").body)


def mean_u(x):
    x = np.asarray(x, float)
    return float(x.mean()), (float(x.std(ddof=1)) / math.sqrt(len(x)) if len(x) > 1 else 0.0)


def chi2_above(x, k):
    """Probability that chi squared with k degrees of freedom is over x."""
    if k % 2 == 0: return math.exp(-x / 2) * sum((x / 2) ** i / math.factorial(i) for i in range(k // 2))
    tail = sum((x / 2) ** (i - 0.5) / math.gamma(i + 0.5) for i in range(1, (k + 1) // 2))
    return math.erfc(math.sqrt(x / 2)) + math.exp(-x / 2) * tail


def rows(folder, name):
    with open(os.path.join(folder, "record", name + ".csv"), newline="", encoding="utf-8") as f:
        text = lambda s: s[1:] if s.startswith("'") else s
        return [{k: text(v) for k, v in r.items()} for r in csv.DictReader(f)]


def counts_of(folder):
    run = {r["id"]: r["name"] for r in rows(folder, "run")}
    vial = {r["id"]: (run[r["run"]], int(r["position"])) for r in rows(folder, "vial")}
    return {(*vial[r["vial"]], f"{r['isotope']}@{r['resolution']}" if r["resolution"] else r["isotope"]):
            json.loads(r["rates_cps"]) for r in rows(folder, "reading")}


def polynomial(c, values, at=None):
    """Least squares a session, values over their mean; fitted at the checks, or as weights of the checks at one time."""
    terms, ch, out, weights = c["polynomial_terms"], c["checks"], [0.0] * len(values), None
    first = ch[0][1]
    for s in dict.fromkeys(x[1] for x in ch):
        k = [i for i, x in enumerate(ch) if x[1] == s]
        t = np.array([ch[i][2] for i in k])
        mid, half = (t.min() + t.max()) / 2, max((t.max() - t.min()) / 2, 1e-9)
        X = ((t - mid) / half)[:, None] ** np.arange(terms)
        hat = np.linalg.inv(X.T @ X) @ X.T
        for i, y in zip(k, X @ (hat @ np.array([values[i] for i in k]))): out[i] = float(y)
        if at and (s == at[0] or weights is None and s == first):
            weights = dict(zip(k, ((at[1] - mid) / half) ** np.arange(terms) @ hat))
    return weights if at else out


def bracket(ch, at):
    k = [i for i, x in enumerate(ch) if x[1] == at[0]] or [0]
    after = next((i for i in k if ch[i][2] > at[1]), None)
    if after is None or after == k[0]: return {k[-1] if after is None else after: 1.0}
    w = (at[1] - ch[after - 1][2]) / (ch[after][2] - ch[after - 1][2])
    return {after - 1: 1 - w, after: w}
