#!/usr/bin/env python3
"""Recomputes every derived result of this package from the counts on the detector.

    python3 recompute.py [FOLDER]

Needs Python 3.9 and numpy. Reads record/derivation.csv and derivation_node.csv (every step of every result: formula,
inputs, constants), works each result out again, and prints the largest relative difference in value and in u from
record/result.csv. Exit status 1 where one is over 1e-9, where a result could not be worked out, or where counts are not
those of record/reading.csv. METHODS.md says what each function below is.
"""
import csv, json, math, os, re, sys
import numpy as np

csv.field_size_limit(1 << 30)
OWN = {"own", "between", "dilution", "volume", "acid"}  # errors of one vial or bottle alone
SEEN = {"scatter": 0.0, "vials": set(), "counts": {}}

class Q:
    """A value (a number, or one a replicate), and its sensitivity to each independent error times u of that error: row.
    u^2 is the sum of squares, and what two quantities share is correlated by itself (JCGM 100, 5.2 and annex H)."""
    def __init__(self, v, row=None, **info): self.v, self.row, self.info = v, row or {}, info
    def joined(a, b, value, da, db):  # da, db: the derivatives of the value
        row = {e: da * x for e, x in a.row.items()}
        for e, x in b.row.items(): row[e] = row.get(e, 0.0) + db * x
        return Q(value, row)
    def __add__(a, b): return a.joined(q(b), a.v + q(b).v, 1.0, 1.0)
    def __sub__(a, b): return a.joined(q(b), a.v - q(b).v, 1.0, -1.0)
    def __mul__(a, b): return a.joined(q(b), a.v * q(b).v, q(b).v, a.v)
    def __truediv__(a, b): return a.joined(q(b), a.v / q(b).v, 1.0 / q(b).v, -a.v / q(b).v ** 2)
    def __radd__(a, b): return q(b) + a
    def __rsub__(a, b): return q(b) - a
    def __rmul__(a, b): return q(b) * a
    def u(self): return math.sqrt(sum(x * x for x in self.row.values()))
def q(x): return x if isinstance(x, Q) else Q(x)
def mean_u(x): return float(np.mean(x)), (float(np.std(x, ddof=1)) / math.sqrt(len(x)) if len(x) > 1 else 0.0)
def chi2_above(x, k):
    """Probability that chi squared with k degrees of freedom is over x."""
    tail = sum((x / 2) ** s / math.gamma(s + 1) for s in np.arange(k % 2 / 2, k / 2)) * math.exp(-x / 2)
    return tail + (math.erfc(math.sqrt(x / 2)) if k % 2 else 0.0)

def counts(c, _, ident):
    r, n = np.array(c["rates_cps"]), c.get("n", len(c["rates_cps"]))
    SEEN["counts"][(c["run"], c["position"], c["isotope"])] = c["rates_cps"]
    return Q(r, cell=dict(mean=float(r.mean()), time=c["time_s"] * n, n=n, sd=c.get("sd_cps"), single=len(r) == 1))
def formula(c, inputs, _):
    names = dict(zip(c["args"], inputs))
    if c.get("each_vial") in names:  # the same spread for every vial, an error of each vial's own
        names["r"] = Q(1.0, {("between", c["position"]): names["r"].info["relative"]})
    if "R" in names and "position" in c: names["n"] = own_bottle(names["n"], c["position"])
    assert re.fullmatch(r"(\w|[ .+/()-]|\*(?!\*))+", c["f"]) and "__" not in c["f"], f"{c['f']!r} is no formula"
    out = eval(c["f"], {"__builtins__": {}}, names)
    if cell := inputs[0].info.get("cell"):  # counting is that of the rate before a background is taken off
        out.info["cell"] = cell if "B" in names else dict(cell, mean=float(np.mean(out.v)))
    return out
def extending(c, inputs, _):
    """n = N exp(-N tau), the smaller N."""
    n, tau = inputs[0].v, inputs[1].v * 1e-9
    N = n.copy()
    for _ in range(200): N = N - (N * np.exp(-N * tau) - n) / (np.exp(-N * tau) * (1 - N * tau))
    row = {e: x * 1e-9 * N * N / (1 - N * tau) for e, x in inputs[1].row.items()}
    return Q(N, row, cell=dict(inputs[0].info["cell"], mean=float(N.mean())))
def poisson(cell): return max(cell["mean"] / cell["time"], 1 / cell["time"] ** 2) if cell["time"] > 0 else math.nan
def cell_u(x):
    c = x.info["cell"]
    if c["n"] > 1 and c["sd"] is not None: return c["sd"] / math.sqrt(c["n"])
    return math.sqrt(poisson(c)) if c["single"] else mean_u(x.v)[1]

def overlap(c, inputs, ident):
    t, m, *blanks = inputs
    def level(b):
        if len(b) == 1: return float(b[0].v.mean()), cell_u(b[0])
        return mean_u([x.v.mean() for x in b]) if b else (0.0, 0.0)
    (t0, ut), (m0, um) = level(blanks[:c["target_blanks"]]), level(blanks[c["target_blanks"]:])
    net = float(m.v.mean()) - m0
    f, own = mean_u((t.v - t0) / (m.v - m0))
    if len(t.v) < 2: own = math.hypot(cell_u(t) / net, f * cell_u(m) / net)
    return Q(f, {("interference", ident): math.sqrt(own ** 2 + (ut / net) ** 2 + (f * um / net) ** 2)})

def scatter(c, _, ident):
    """phi and kappa by gamma regression with identity link, neither under zero."""
    _, ratio, x, d = np.array(c["vials"], float).T
    pooled = (d * ratio).sum() / d.sum()
    phi, kappa = pooled, 0.0
    for _ in range(60 if pooled > 0 else 0):
        w = d / np.maximum(phi + kappa * x, 1e-6 * pooled) ** 2
        s, sx, sxx, sr, sxr = w.sum(), (w * x).sum(), (w * x * x).sum(), (w * ratio).sum(), (w * x * ratio).sum()
        det, old = s * sxx - sx * sx, (phi, kappa)
        phi, kappa = sr / s, 0.0
        if det > 1e-9 * s * sxx:
            p, k = (sxx * sr - sx * sxr) / det, (s * sxr - sx * sr) / det
            if k > 0: phi, kappa = (0.0, sxr / sxx) if p <= 0 else (p, k)
        if abs(phi - old[0]) + abs(kappa - old[1]) <= 1e-12 * (abs(old[0]) + abs(old[1])): break
    return Q(phi, phi=phi, kappa=kappa, vials={v[0]: v[1:3] for v in c["vials"]}, ident=ident)

def response(c, inputs, _):
    left = list(inputs)
    take = lambda n: [left.pop(0) for _ in range(n)]
    members = take(c["isotopes"])
    tracks = [(sum(k * f for k, f in zip(w, take(len(w)))), take(1)[0]) for w in c["factor_weights"]]
    standards = list(zip(c["standard_weights"], take(len(c["standard_weights"]))))
    i = sum(s * w for w, s in standards) if standards else Q(np.ones(len(members[0].v)))
    r = (sum(members) - sum(m * f.v for f, m in tracks)) / i
    R, n, I = float(r.v.mean()), len(r.v), float(np.mean(i.v))
    row = {e: float(np.mean(x)) for e, x in r.row.items()}
    for f, m in tracks:  # a factor's error: the mean monitor over the internal standard
        for e, u in f.row.items(): row[e] = row.get(e, 0.0) - u * m.v.mean() * np.mean(1 / i.v)
    parts = [(m, 1.0) for m in members] + [(m, f.v) for f, m in tracks] + [(s, w * R) for w, s in standards]
    C = sum((k / I) ** 2 * poisson(x.info["cell"]) for x, k in parts)
    if n > 1 and all(x.info["cell"]["sd"] is None for x, _ in parts): own = mean_u(r.v)[1]
    else: own = math.sqrt(sum((k / I * cell_u(x)) ** 2 for x, k in parts))
    n = min(max(m.info["cell"]["n"], n) for m in members)
    time = sum(m.info["cell"]["time"] for m in members)
    phi, kappa, fixed = 0.0, 0.0, own ** 2 if own > 0 or math.isnan(C) else C
    if c["noise"] == "all vials":
        s = left.pop(0).info
        phi, kappa, fixed = s["phi"], s["kappa"], 0.0
        if c["position"] in s["vials"]:  # what the scatter was learnt from, by these very counts
            pairs = zip(s["vials"][c["position"]], (own ** 2 / C, R * R / (n * C)))
            SEEN["scatter"] = max(SEEN["scatter"], *(abs(a - b) / max(abs(a), 1e-12) for a, b in pairs))
            SEEN["vials"].add((s["ident"], c["position"]))
    variance = lambda C, R: (phi * C if phi else 0.0) + kappa * R * R / n + fixed
    u = math.sqrt(variance(C, R)) if c["noise"] != "counting" else own or math.sqrt(C)
    if c["noise"] == "counting": phi, fixed = 1.0, 0.0
    row[("own", c["position"])] = u
    slope = len(members) / (time * I) if time > 0 else math.nan
    at = lambda e: variance(max(C + slope * (e - R), slope ** 2), e)
    return Q(R, row, R=R, noise_u=u, at=at, position=c["position"], g=1.0)

def with_spread(x, relative):
    """A response that others stand on: its own errors are theirs too."""
    p = x.info["position"]
    row = {(("line or drift", *e[1:]) if e[0] == "own" else e): s for e, s in x.row.items()}
    if relative > 0: row.setdefault(("between, line or drift", p), relative * abs(x.info["R"]) / x.info["g"])
    return Q(x.v, row, **x.info)

def weights(c, at):
    """What each drift check counts at [session, min]: linear between neighbours, or a polynomial of the session."""
    terms, of = c["polynomial_terms"], lambda s: [i for i, x in enumerate(c["checks"]) if x[1] == s]
    k = of(at[0]) or ([0] if terms is None else of(c["checks"][0][1]))
    t = np.array([c["checks"][i][2] for i in k], float)
    if terms is None: return {i: w for i, e in zip(k, np.eye(len(k))) if (w := float(np.interp(at[1], t, e)))}
    mid, half = (t.min() + t.max()) / 2, max((t.max() - t.min()) / 2, 1e-9)
    X = ((t - mid) / half)[:, None] ** np.arange(terms)
    return dict(zip(k, ((at[1] - mid) / half) ** np.arange(terms) @ (np.linalg.inv(X.T @ X) @ X.T)))
def fitted(c, values, at): return sum(w * values[k] for k, w in weights(c, at).items())

def between(c, inputs, ident):
    ch, r = c["checks"], np.array([x.info["R"] for x in inputs])
    r, e = r / r.mean(), []
    if c["polynomial_terms"] is None:  # each check against its two neighbours
        for i in range(1, len(ch) - 1):
            (_, s0, t0), (_, _, t1), (_, s2, t2) = ch[i - 1:i + 2]
            b = (t1 - t0) / (t2 - t0) if t2 > t0 else 0.5
            off = r[i] - (1 - b) * r[i - 1] - b * r[i + 1]
            if s0 == s2: e.append(off ** 2 / (1 + b * b + (1 - b) ** 2))
        dof = len(e)
    else:
        e = [(x / fitted(c, r, at[1:]) - 1) ** 2 for x, at in zip(r, ch)]
        dof = len(ch) - c["polynomial_terms"] * len({x[1] for x in ch})
    own = sum((x.info["noise_u"] / x.info["R"]) ** 2 for x in inputs) / len(inputs)
    return Q(1.0, relative=math.sqrt(max(sum(e) / dof - own, 0.0)))

def drift(c, inputs, _):
    first, *rest = inputs
    ch, at, beyond = c["checks"], c["at"], c.get("beyond")
    relative = rest.pop().info["relative"] if c["reproducibility"] else 0.0
    mine = with_spread(first, relative) if any(x[0] == c["position"] for x in ch) else first
    checks = [mine if x[0] == c["position"] else with_spread(rest.pop(0), relative) for x in ch]
    scale = sum(x.v for x in checks) / len(checks)  # a constant: the line cancels it
    r = np.array([x.v for x in checks]) / scale
    g = sum(checks[k] * (w / scale) for k, w in weights(c, at).items())
    y = mine / g
    pairs = [(i, i + 1) for i in range(len(ch) - 1) if ch[i][1] == ch[i + 1][1]]
    span = sum(ch[b][2] - ch[a][2] for a, b in pairs)
    if beyond and span > 0:  # how far the run may have drifted since the last check, or before the first
        flat = np.ones(len(r)) if c["polynomial_terms"] is None else np.array([fitted(c, r, x[1:]) for x in ch])
        step, n = [(r - flat)[b] - (r - flat)[a] for a, b in pairs], len(pairs)
        noise = sum((checks[k].info["noise_u"] / scale) ** 2 + (relative * r[k]) ** 2 for p in pairs for k in p)
        walk = max((float(np.var(step, ddof=1)) if n > 1 else 0.0) - noise / n, 0.0)
        d = (at[1] - beyond["check_min"]) / (span / n)
        moved = (g.v - fitted(c, r, [at[0], beyond["check_min"]])) / g.v
        y.row[("drift open", "line")] = y.v * math.sqrt((sum(step) / n) ** 2 + noise / n ** 3) * d
        y.row[("drift open", at[0], beyond["after"])] = y.v * math.sqrt(walk * abs(d) + moved ** 2 / 3)
    return Q(y.v, y.row, **{**first.info, "g": g.v})

def line(c, inputs, _):
    relative = inputs[-1].info["relative"] if c["reproducibility"] else 0.0
    P, of_x = [with_spread(inputs[p[1]], relative) for p in c["points"]], []
    for place, _, factor, u_dilution, stock, position in c["points"]:
        X, U = (0.0, 0.0) if place is None else (inputs[place].v * factor, inputs[place].info["given_u"] * factor)
        of_x.append(Q(X, {("stock", stock): U, ("standard dilution", position): X * u_dilution}))
    x, ux, y = np.array([p.v for p in of_x]), np.array([p.u() for p in of_x]), np.array([p.v for p in P])
    blank = np.array([p[0] is None for p in c["points"]])
    def variances(level):
        noise = [max(p.info["at"](v * (g := p.info["g"])) / g ** 2, (1e-6 * v) ** 2, 1e-12) for p, v in zip(P, level)]
        return np.array(noise) + (relative * level) ** 2
    extra = max(float(np.var(y[blank], ddof=1) - variances(y)[blank].mean()), 0.0) if blank.sum() > 1 else 0.0
    for p in np.flatnonzero(blank * extra):
        e = ("line or drift", P[p].info["position"])
        P[p].row[e] = math.sqrt(P[p].row[e] ** 2 + extra)
    def solve(w):
        if c["intercept"] == "free":
            mx = (w * x).sum() / w.sum()
            db = w * (x - mx) / (w * (x - mx) ** 2).sum()
            da = w / w.sum() - mx * db
        else:
            da = blank / max(blank.sum(), 1) if c["intercept"] != "zero" else np.zeros(len(x))
            db = (w * x - (w * x).sum() * da) / (w * x * x).sum()
        return float(da @ y), float(db @ y), da, db
    a, b, da, db = solve(1 / (variances(y) + extra * blank))
    for _ in range(100):
        w, old = 1 / (variances(a + b * x) + extra * blank + (b * ux) ** 2), (a, b)
        a, b, da, db = solve(w)
        if abs(a - old[0]) + abs(b - old[1]) * x.max() <= 1e-12 * abs(old[1]) * x.max(): break
    chi2, dof = float((w * (y - a - b * x) ** 2).sum()), len(P) - (1 if c["intercept"] == "zero" else 2)
    wide = math.sqrt(chi2 / dof) if dof > 0 and chi2_above(chi2, dof) < 0.05 else 1.0
    out = sum((p - b * px) * k for p, px, k in zip(P, of_x, da if c["part"] == "a" else db))
    wider = lambda e: wide if e[0].endswith("line or drift") and e[1] in {p[5] for p in c["points"]} else 1.0
    return Q(a if c["part"] == "a" else b, {e: s * wider(e) for e, s in out.row.items()})

def blank(c, inputs, ident):
    n, robust = c["blanks"], c.get("robust")
    m = [x * v / 1000.0 for x, v in zip(inputs, inputs[n:])] if c["per_bottle"] else inputs[:n]
    out = sum(x * k for x, k in zip(m, robust["weights"] if robust else [1 / n] * n))
    row = {e: s for e, s in out.row.items() if e[0] not in OWN}
    measured = sum(s * s for x in m for e, s in x.row.items() if e[0] in OWN and e[0] != "dilution") / n
    mean, sd = (robust["mean"], robust["sd"]) if robust else (out.v, float(np.std([x.v for x in m], ddof=1)))
    sd = c["earlier_runs"]["sd"] if "earlier_runs" in c else sd or math.sqrt(measured)
    u = robust["u"] if robust and robust["u"] else sd / math.sqrt(n)
    row[("blank mean", ident)] = max(u, math.sqrt(measured / n))
    return Q(mean, row, caught=math.sqrt(max(sd * sd - measured, 0.0)))
def contamination(c, inputs, ident): return Q(0.0, {("bottle", ident): inputs[0].info["caught"]})
def own_bottle(x, position, without=()):
    """What a bottle catches is an error of its own, whichever blanks tell how much."""
    row = {(("bottle", position) if e[0] == "bottle" else e): s for e, s in x.row.items() if e[0] not in without}
    return Q(x.v, row)
def recovery(c, inputs, _):
    """Mean of (spiked - unspiked) / added. The mean of the blanks is in both; a laboratory spike shares its bottle."""
    without = ("blank mean", "bottle") if c["same_bottle"] else ("blank mean",)
    of = lambda place, position: own_bottle(inputs[place], position, without)
    added = lambda m, V, mL: inputs[m] if V is None else inputs[m] * mL / inputs[V]
    return sum((of(*p[:2]) - of(*p[2:4])) / added(*p[4:]) for p in c["spikes"]) / len(c["spikes"])

FUNCTIONS = {"counts": counts, "extending": extending, "overlap": overlap, "scatter": scatter, "response": response,
             "between vials": between, "drift": drift, "line": line, "blank": blank, "contamination": contamination,
             "recovery": recovery}
KNOWN, VALUES = {}, []
def node(n, inputs):
    """The place of a node's value among all; what stands in several derivations is worked out once."""
    c, a = n.get("calc") or {}, n["amount"]
    if (key := (n["same"], tuple(inputs))) not in KNOWN:
        KNOWN[key] = ident = len(VALUES)
        below = [VALUES[i] for i in inputs]
        if any(x is None for x in below) or "value" not in a or inputs and not c: value = None  # no formula is given
        elif "f" in c: value = FUNCTIONS.get(c["f"], formula)(c, below, ident)
        else:
            u, e = a.get("u", 0.0), c.get("error", "given")
            value = Q(a["value"], {((e,) if "dark rate" in e else (e, ident)): u} if u else {}, given_u=u, relative=u)
        VALUES.append(value)
    return KNOWN[key]
def rows(folder, name):
    with open(os.path.join(folder, "record", name + ".csv"), newline="", encoding="utf-8") as f:
        return [{k: v[1:] if v.startswith("'") else v for k, v in r.items()} for r in csv.DictReader(f)]
def main(folder):
    results, worst = {r["id"]: r for r in rows(folder, "result")}, {"value": (0.0, ""), "u": (0.0, "")}
    done, left = 0, []
    undone = [u for u in rows(folder, "undone_rows") if u["table_name"] == "derivation"]
    gone = {i for u in undone for i in range(int(u["first_row"]), int(u["last_row"]) + 1)}
    steps = {int(r["id"]): json.loads(r["node"]) for r in rows(folder, "derivation_node")}
    for n in steps.values():  # the same step may have its inputs at other places
        n["same"] = json.dumps([n["name"], n["amount"], n.get("calc"), n.get("source")], sort_keys=True)
    for d in rows(folder, "derivation"):
        if int(d["id"]) in gone: continue
        nodes, told, ids = [steps[i] for i in json.loads(d["body"])["nodes"]], results[d["result"]], []
        for n in nodes: ids.append(node(n, [ids[i] for i in n.get("inputs", [])]))
        # The last node is the result; of one that is "at most" a value, the value stands before it.
        last = VALUES[ids[-1] if "value" in nodes[-1]["amount"] else ids[nodes[-1]["inputs"][0]]]
        if last is None: left.append(d["result"])
        else:
            done += 1
            for what, found in (("value", float(last.v)), ("u", last.u())):
                off = abs(found - float(told[what])) / max(abs(float(told[what])), 1e-300)
                if not off <= worst[what][0]: worst[what] = (off, f"row {d['result']} of record/result.csv")
    print(f"{done} results recomputed from counts")
    for what, (off, where) in worst.items(): print(f"largest relative difference in {what}: {off:.1e} {where}")
    print(f"scatter of {len(SEEN['vials'])} vials, as it was learnt from: {SEEN['scatter']:.1e}")
    run = {r["id"]: r["name"] for r in rows(folder, "run")}
    vial = {r["id"]: (run[r["run"]], int(r["position"])) for r in rows(folder, "vial")}
    name = lambda r: (*vial[r["vial"]], r["isotope"] + ("@" + r["resolution"] if r["resolution"] else ""))
    kept = {name(r): json.loads(r["rates_cps"]) for r in rows(folder, "reading")}
    wrong = [k for k, v in SEEN["counts"].items() if kept.get(k) != v]
    used = len(SEEN["counts"])
    print(f"{used} sets of counts used, {used - len(wrong)} stand so in record/reading.csv", *wrong[:5])
    if left: print(f"{len(left)} not recomputed (no formula): rows {', '.join(left[:10])} of record/result.csv")
    return 1 if left or wrong or any(not off <= 1e-9 for off, _ in worst.values()) else 0

if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__))))
