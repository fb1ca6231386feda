#!/usr/bin/env python3
"""Recomputes every derived result of this package from the counts on the detector.

    python3 recompute.py [FOLDER]

Needs Python 3.9 and numpy, nothing else. It reads record/derivation.csv (every step of every result: formula, inputs,
constants), record/reading.csv (the counts) and record/result.csv (what the record says), works each result out again and
prints the largest relative difference in value and in standard uncertainty. Exit status 1 where one is over 1e-9, or
where a derivation names other counts than the record holds. METHODS.md says what each function below is.
"""
import json, math, os, sys
import numpy as np
from quantities import Q, arithmetic, bracket, chi2_above, counts_of, mean_u, polynomial, rows

OWN = {"own", "between", "dilution", "volume", "acid"}  # errors of one vial or bottle alone

def counts(c, _, ident):
    r = np.array(c["rates_cps"])
    n = c.get("n", len(r))
    return Q(r, cell=dict(mean=float(r.mean()), time=c["time_s"] * n, n=n, sd=c.get("sd_cps"), single=len(r) == 1))

def formula(c, inputs, _):
    names = dict(zip(c["args"], inputs))
    if "r" in names and c.get("each_vial") == "r":  # the same spread for every vial, an error of each vial's own
        names["r"] = Q(1.0, {("between", c["position"]): names["r"].info["relative"]})
    out = arithmetic(c["f"], names)
    cell = inputs[0].info.get("cell")
    if cell:  # counting is that of the rate before a background is taken off
        out.info["cell"] = cell if "B" in names else dict(cell, mean=float(np.mean(out.v)))
    return out

def extending(c, inputs, _):
    """n = N exp(-N tau), the smaller N."""
    n, tau = inputs[0].v, inputs[1].v * 1e-9
    N = n.copy()
    for _ in range(200):
        N = N - (N * np.exp(-N * tau) - n) / (np.exp(-N * tau) * (1 - N * tau))
    row = {e: x * 1e-9 * N * N / (1 - N * tau) for e, x in inputs[1].row.items()}
    return Q(N, row, cell=dict(inputs[0].info["cell"], mean=float(N.mean())))
def poisson(cell):
    t = cell["time"]
    return max(cell["mean"] / t, 1 / t ** 2) if t > 0 else math.nan
def cell_u(q):
    c = q.info["cell"]
    if c["n"] > 1 and c["sd"] is not None: return c["sd"] / math.sqrt(c["n"])
    return math.sqrt(poisson(c)) if c["single"] else mean_u(q.v)[1]

def overlap(c, inputs, ident):
    nt = c["target_blanks"]
    t, m, tb, mb = inputs[0], inputs[1], inputs[2:2 + nt], inputs[2 + nt:2 + nt + c["monitor_blanks"]]
    level = lambda b: (0.0, 0.0) if not b else (
        (float(b[0].v.mean()), cell_u(b[0])) if len(b) == 1 else mean_u([x.v.mean() for x in b]))
    (t0, ut), (m0, um) = level(tb), level(mb)
    net = float(m.v.mean()) - m0
    f, own = mean_u((t.v - t0) / (m.v - m0))
    if len(t.v) < 2: own = math.hypot(cell_u(t) / net, f * cell_u(m) / net)
    u = math.sqrt(own ** 2 + (ut / net) ** 2 + (f * um / net) ** 2)
    return Q(f, {("interference", ident): u})

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
    tracks = [(w, take(len(w)), take(1)[0]) for w in c["factor_weights"]]
    standards = list(zip(c["standard_weights"], take(len(c["standard_weights"]))))
    top = sum(members[1:], members[0])
    factors = [sum(k * f.v for k, f in zip(w, fs)) for w, fs, _ in tracks]
    for f, (_, _, m) in zip(factors, tracks): top = top - m * f
    i = sum((q * w for w, q in standards), Q(0.0)) if standards else Q(np.ones(len(members[0].v)))
    r = top / i
    R, n, I = float(r.v.mean()), len(r.v), float(np.mean(i.v))
    row = {e: float(np.mean(x)) for e, x in r.row.items()}
    for w, fs, m in tracks:  # a factor's error: the mean monitor over the internal standard
        for k, f in zip(w, fs):
            for e, u in f.row.items(): row[e] = row.get(e, 0.0) - k * u * m.v.mean() * np.mean(1 / i.v)
    parts = [(m, 1.0) for m in members] + [(t[2], f) for f, t in zip(factors, tracks)] + [(q, w * R) for w, q in standards]
    C = sum((k / I) ** 2 * poisson(q.info["cell"]) for q, k in parts)
    if n > 1 and all(q.info["cell"]["sd"] is None for q, _ in parts): own = mean_u(r.v)[1]
    else: own = math.sqrt(sum((k / I * cell_u(q)) ** 2 for q, k in parts))
    n = min(max(m.info["cell"]["n"], n) for m in members)
    time = sum(m.info["cell"]["time"] for m in members)
    phi, kappa, fixed = 0.0, 0.0, own ** 2 if own > 0 or not C == C else C
    if c["noise"] == "all vials":
        s = left.pop(0).info
        phi, kappa, fixed = s["phi"], s["kappa"], 0.0
        if c["position"] in s["vials"]:  # what the scatter was learnt from, by these very counts
            for told, found in zip(s["vials"][c["position"]], (own ** 2 / C, R * R / (n * C))):
                SEEN["scatter"] = max(SEEN["scatter"], abs(told - found) / max(abs(told), 1e-12))
            SEEN["vials"].add((s["ident"], c["position"]))
        SEEN["of"][s["ident"]] = len(s["vials"])
    elif c["noise"] == "counting": phi, fixed = 1.0, 0.0
    variance = lambda C, R: (phi * C if phi > 0 else 0.0) + kappa * R * R / n + fixed
    u = math.sqrt(variance(C, R)) if c["noise"] != "counting" else math.sqrt(own ** 2 if own > 0 else C)
    row[("own", c["position"])] = u
    slope = len(members) / (time * I) if time > 0 else math.nan
    at = lambda e: variance(max(C + slope * (e - R), slope ** 2), e)
    return Q(R, row, R=R, noise_u=u, at=at, position=c["position"], g=1.0)

def with_spread(q, relative):
    """A response that others stand on: its own errors are theirs too."""
    row, p = q.renamed("own", "line or drift"), q.info["position"]
    if relative > 0: row.setdefault(("between, line or drift", p), relative * abs(q.info["R"]) / q.info["g"])
    return Q(q.v, row, **q.info)

def between(c, inputs, ident):
    ch, r = c["checks"], [q.info["R"] for q in inputs]
    mean = sum(r) / len(r)
    if c["polynomial_terms"] is None:  # each check against its two neighbours
        e = []
        for i in range(1, len(ch) - 1):
            (_, s0, t0), (_, _, t1), (_, s2, t2) = ch[i - 1:i + 2]
            if s0 != s2: continue
            b = (t1 - t0) / (t2 - t0) if t2 > t0 else 0.5
            e.append(((r[i] - (1 - b) * r[i - 1] - b * r[i + 1]) / mean) ** 2 / (1 + b * b + (1 - b) ** 2))
        square = sum(e) / len(e)
    else:
        fit = polynomial(c, [x / mean for x in r])
        dof = len(ch) - c["polynomial_terms"] * len({x[1] for x in ch})
        square = sum((x / mean / f - 1) ** 2 for x, f in zip(r, fit)) / dof
    own = sum((q.info["noise_u"] / q.info["R"]) ** 2 for q in inputs) / len(inputs)
    return Q(1.0, relative=math.sqrt(max(square - own, 0.0)))

def drift(c, inputs, _):
    ch, rest = c["checks"], list(inputs[1:])
    relative = rest.pop().info["relative"] if c["reproducibility"] else 0.0
    first = inputs[0]
    mine = with_spread(first, relative) if any(x[0] == c["position"] for x in ch) else first
    checks = [mine if x[0] == c["position"] else with_spread(rest.pop(0), relative) for x in ch]
    r = [q.v for q in checks]
    scale = sum(r) / len(r)  # a constant: the line cancels it
    poly = c["polynomial_terms"] is not None
    weights = lambda at: polynomial(c, r, at) if poly else bracket(ch, at)
    g = sum((checks[k] * (w / scale) for k, w in weights(c["at"]).items()), Q(0.0))
    y = mine / g
    if "beyond" in c:
        expected = polynomial(c, [x / scale for x in r]) if poly else [1.0] * len(r)
        step, noise, span = [], 0.0, 0.0
        for a, b in zip(range(len(ch)), range(1, len(ch))):
            if ch[a][1] != ch[b][1]: continue
            step.append((r[b] / scale - expected[b]) - (r[a] / scale - expected[a]))
            noise += sum((checks[k].info["noise_u"] / scale) ** 2 + (relative * r[k] / scale) ** 2 for k in (a, b))
            span += ch[b][2] - ch[a][2]
        if step and span > 0:
            n, m = len(step), sum(step) / len(step)
            walk = max((float(np.var(step, ddof=1)) if n > 1 else 0.0) - noise / n, 0.0)
            edge = c["beyond"]["check_min"]
            d = (c["at"][1] - edge) / (span / n)
            moved = (g.v - sum(r[k] * w / scale for k, w in weights([c["at"][0], edge]).items())) / g.v
            y.row[("drift open", "line")] = y.v * math.sqrt(m * m + noise / n ** 3) * d
            y.row[("drift open", c["at"][0], c["beyond"]["after"])] = y.v * math.sqrt(walk * abs(d) + moved ** 2 / 3)
    return Q(y.v, y.row, **{**first.info, "g": g.v})

def line(c, inputs, _):
    relative = inputs[-1].info["relative"] if c["reproducibility"] else 0.0
    P = []
    for x, y, factor, u_dilution, stock, position in c["points"]:
        q = with_spread(inputs[y], relative)
        X, U = (0.0, 0.0) if x is None else (inputs[x].v * factor, inputs[x].info["given_u"] * factor)
        rows = {("stock", stock): U, ("standard dilution", position): X * u_dilution}
        P.append(dict(x=X, u=math.hypot(*rows.values()), rows=rows, q=q, y=q.v, blank=x is None, p=position))
    x, y, ux = (np.array([p[k] for p in P]) for k in ("x", "y", "u"))
    blank = np.array([p["blank"] for p in P])

    def variance(p, at):
        g = p["q"].info["g"]
        return max(p["q"].info["at"](at * g) / g ** 2, (1e-6 * at) ** 2, 1e-12) + (relative * at) ** 2
    var = np.array([variance(p, p["y"]) for p in P])
    extra = max(float(np.var(y[blank], ddof=1)) - float(var[blank].mean()), 0.0) if blank.sum() > 1 else 0.0
    var = var + extra * blank
    for p in P:
        if p["blank"] and extra > 0:
            e = ("line or drift", p["p"])
            p["q"].row[e] = math.sqrt(p["q"].row[e] ** 2 + extra)

    def solve(w):
        if c["intercept"] == "free":
            mx = (w * x).sum() / w.sum()
            db = w * (x - mx) / (w * (x - mx) ** 2).sum()
            da = w / w.sum() - mx * db
        else:
            da = blank / max(blank.sum(), 1) if c["intercept"] != "zero" else np.zeros(len(x))
            db = (w * x - (w * x).sum() * da) / (w * x * x).sum()
        return float(da @ y), float(db @ y), da, db
    a, b, da, db = solve(1 / var)
    w = 1 / (var + (b * ux) ** 2)
    for _ in range(100):
        var = np.array([variance(p, a + b * p["x"]) + extra * p["blank"] for p in P])
        w = 1 / (var + (b * ux) ** 2)
        old = (a, b)
        a, b, da, db = solve(w)
        if abs(a - old[0]) + abs(b - old[1]) * x.max() <= 1e-12 * abs(old[1]) * x.max(): break
    chi2 = float((w * (y - a - b * x) ** 2).sum())
    dof = len(P) - (1 if c["intercept"] == "zero" else 2)
    wide = math.sqrt(chi2 / dof) if dof > 0 and chi2_above(chi2, dof) < 0.05 else 1.0
    SEEN["line"] = max(SEEN["line"], abs(chi2 - c["chi_squared"]) / max(chi2, 1e-9))
    of_points, row = {p["p"] for p in P}, {}
    for p, k in zip(P, da if c["part"] == "a" else db):
        for e, s in list(p["q"].row.items()) + [(e, -b * s) for e, s in p["rows"].items()]:
            row[e] = row.get(e, 0.0) + k * s
    row = {e: s * (wide if e[0].endswith("line or drift") and e[1] in of_points else 1.0) for e, s in row.items()}
    return Q(a if c["part"] == "a" else b, row)

def blank(c, inputs, ident):
    n = c["blanks"]
    m = [q * v / 1000.0 for q, v in zip(inputs, inputs[n:])] if c["per_bottle"] else inputs[:n]
    values = np.array([q.v for q in m])
    robust = c.get("robust")
    w = robust["weights"] if robust else [1 / n] * n
    row = {}
    for q, k in zip(m, w):
        for e, s in q.row.items():
            if e[0] not in OWN: row[e] = row.get(e, 0.0) + k * s
    measured = sum(s * s for q in m for e, s in q.row.items() if e[0] in OWN and e[0] != "dilution") / n
    mean, sd = (robust["mean"], robust["sd"]) if robust else (float(values.mean()), float(values.std(ddof=1)))
    if sd == 0.0: sd = math.sqrt(measured)
    u = robust["u"] if robust else 0.0
    if "earlier_runs" in c: sd = c["earlier_runs"]["sd"]
    row[("blank mean", ident)] = max(u or sd / math.sqrt(n), math.sqrt(measured / n))
    return Q(mean, row, caught=math.sqrt(max(sd * sd - measured, 0.0)))
def contamination(c, inputs, ident): return Q(0.0, {("bottle", ident): inputs[0].info["caught"]})

FUNCTIONS = {"counts": counts, "extending": extending, "overlap": overlap, "scatter": scatter, "response": response,
             "between vials": between, "drift": drift, "line": line, "blank": blank, "contamination": contamination}
SEEN = {"scatter": 0.0, "line": 0.0, "vials": set(), "of": {}, "counts": {}}
KNOWN, VALUES = {}, []

def node(n, inputs):
    """The place of a node's value among all; what stands in several derivations is worked out once."""
    c, a = n.get("calc") or {}, n["amount"]
    key = (json.dumps([n["name"], a, c, n.get("source")], sort_keys=True), tuple(inputs))
    if key not in KNOWN:
        KNOWN[key] = ident = len(VALUES)
        below = [VALUES[i] for i in inputs]
        if any(q is None for q in below) or not (c or "value" in a): value = None
        elif c.get("f") in FUNCTIONS: value = FUNCTIONS[c["f"]](c, below, ident)
        elif "f" in c: value = formula(c, below, ident)
        elif below: value = None  # a step that no formula is given for
        else:
            u, error = a.get("u", 0.0), c.get("error", "given")
            e = (error,) if "dark rate" in error else (error, ident)
            value = Q(a["value"], {e: u} if u else {}, given_u=u, relative=u)
        if c.get("f") == "counts": SEEN["counts"][(c["run"], c["position"], c["isotope"])] = c["rates_cps"]
        VALUES.append(value)
    return KNOWN[key]

def main(folder):
    results = {r["id"]: r for r in rows(folder, "result")}
    gone = {(u["table_name"], i) for u in rows(folder, "undone_rows")
            for i in map(str, range(int(u["first_row"]), int(u["last_row"]) + 1))}
    newest = {}
    for r in results.values():
        k = (r["bottle"], r["measurand"])
        if ("result", r["id"]) not in gone and int(r["revision"]) > int(newest.get(k, r)["revision"]) - (k not in newest):
            newest[k] = r
    newest = {r["id"] for r in newest.values()}
    worst, done, left = {"value": (0.0, ""), "u": (0.0, "")}, [0, 0], []
    for d in rows(folder, "derivation"):
        if ("derivation", d["id"]) in gone: continue
        body, r, ids = json.loads(d["body"]), results[d["result"]], []
        for n in body["nodes"]: ids.append(node(n, [ids[i] for i in n.get("inputs", [])]))
        last = len(ids) - 1
        if "value" not in body["nodes"][last]["amount"]: last = body["nodes"][last]["inputs"][0]  # "at most" such a value
        q = VALUES[ids[last]]
        if q is None or any(e[0] == "recovery from spikes" for e in q.row):
            left.append(d["result"])
            continue
        done[0] += 1
        done[1] += r["id"] in newest
        for what, found in (("value", float(q.v)), ("u", q.u())):
            told = float(r[what])
            off = abs(found - told) / max(abs(told), 1e-300)
            if not off <= worst[what][0]: worst[what] = (off, f"row {d['result']} of record/result.csv")
    print(f"{done[0]} results recomputed from counts, {done[1]} of them newest revisions")
    for what, (off, where) in worst.items(): print(f"largest relative difference in {what}: {off:.1e} {where}")
    print(f"chi squared of the lines: {SEEN['line']:.1e}; scatter of {len(SEEN['vials'])} of {sum(SEEN['of'].values())} vials: {SEEN['scatter']:.1e}")
    kept = counts_of(folder)
    wrong = [k for k, v in SEEN["counts"].items() if kept.get(k) != v]
    print(f"{len(SEEN['counts'])} sets of counts used, {len(SEEN['counts']) - len(wrong)} stand so in record/reading.csv")
    for k in wrong[:5]: print("  other counts:", *k)
    if left: print(f"{len(left)} not recomputed (no formula, or a recovery from spikes): rows {', '.join(left[:10])} of record/result.csv")
    return 1 if wrong or any(not off <= 1e-9 for off, _ in worst.values()) else 0

if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__))))
