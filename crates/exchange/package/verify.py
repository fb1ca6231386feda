#!/usr/bin/env python3
"""Whether this package is what was written, looked at without the program that wrote it.

    python3 verify.py [FOLDER] [--head HASH]    (HASH: a head hash, or the seal, noted elsewhere)

Needs Python 3.9 and nothing else; with the module `blake3` it is faster. In order: every file against its two sums, files
that are missing or too many, the event chain, every row against the digests in the chain, raw files, mappings and recipes
against their hashes, and the tables for people against the record. Each fault is named by file and row; exit status 1.

Sums protect against accident. Against somebody who rewrites a package with all its sums only a hash helps that was noted
elsewhere (on a report, say): the head of the record stands for all that the record holds, the seal (BLAKE3 of BLAKE3SUMS)
for every byte of this package, the licence too.
"""
import csv, decimal, hashlib, io, json, os, re, struct, sys
try:
    from blake3 import blake3
except ImportError:
    from blake3_plain import blake3

csv.field_size_limit(1 << 30)
P = (1 << 61) - 1
FAULTS = []
FORMULA = tuple("=+-@\t\r\n＝＋－＠")  # text that begins so has an apostrophe in front


def fault(*words): FAULTS.append(" ".join(str(w) for w in words))


def undefused(cell): return None if cell == "" else cell[1:] if cell.startswith("'") else cell


def of_file(path, *hashers):
    with open(path, "rb") as f:
        while part := f.read(1 << 20):
            for h in hashers: h.update(part)
    return [h.hexdigest() for h in hashers]


def sums(folder):
    """Every file against SHA256SUMS and BLAKE3SUMS."""
    lists = {}
    for name in ("SHA256SUMS", "BLAKE3SUMS"):
        with open(os.path.join(folder, name), encoding="utf-8") as f:
            lines = [line.rstrip("\n").split("  ", 1) for line in f if line.strip()]
        lists[name] = {p: h for h, p in lines}
        if len(lists[name]) != len(lines): fault(name, "names a file twice")
    there = set()
    for at, dirs, names in os.walk(folder):
        dirs[:] = [d for d in dirs if d != "__pycache__"]
        there |= {os.path.relpath(os.path.join(at, n), folder).replace(os.sep, "/") for n in names}
    listed = set(lists["SHA256SUMS"]) | set(lists["BLAKE3SUMS"])
    for path in sorted(there - listed - set(lists)): fault(path, "is in no list of sums: a file too many")
    for path in sorted(listed):
        if path not in there: fault(path, "is missing")
        else:
            found = of_file(os.path.join(folder, path), hashlib.sha256(), blake3())
            for name, hash in zip(("SHA256SUMS", "BLAKE3SUMS"), found):
                if lists[name].get(path) != hash: fault(path, "is not what", name, "says")
    return there


class Package:
    def __init__(self, folder):
        self.folder = folder
        with open(os.path.join(folder, "datapackage.json"), encoding="utf-8") as f: self.about = json.load(f)
        self.seal = of_file(os.path.join(folder, "BLAKE3SUMS"), blake3())[0]
        self.tables = {r["path"]: r for r in self.about["resources"] if "schema" in r}

    def rows(self, path):
        """Rows of a table as lists; what is wrong with its form is a fault."""
        want, texts = zip(*((f["name"], f["type"] == "string") for f in self.tables[path]["schema"]["fields"]))
        with open(os.path.join(self.folder, path), "rb") as f: raw = f.read()
        if raw.startswith(b"\xef\xbb\xbf"): fault(path, "begins with a byte order mark: saved by another program")
        try: text = raw.decode("utf-8-sig")
        except UnicodeDecodeError as e:
            fault(path, "row", raw.count(b"\n", 0, e.start), "is not UTF-8")
            text = raw.decode("latin-1")
        lines = csv.reader(io.StringIO(text, newline=""))
        found = next(lines, [])
        if tuple(found) != want: fault(path, "row 0: headings are", found[:8], "and not", want[:8])
        if "\r\n" not in text[:1 << 16] and len(text) > 1: fault(path, "has line ends of another program, not CR LF")
        for n, row in enumerate(lines, 1):
            if not row: continue
            if len(row) != len(want): fault(path, "row", n, "has", len(row), "cells and not", len(want))
            else:
                for cell, text, name in zip(row, texts, want):
                    if text and cell[:1] in FORMULA: fault(path, "row", n, "column", name, ": no apostrophe in front, as a spreadsheet saves it:", cell[:40])
                yield n, row

    def nodes(self):
        """The texts of the derivations' nodes, by number."""
        return {row[0]: undefused(row[1]) for _, row in self.rows("record/derivation_node.csv")}

    def record(self, table): return self.rows(f"record/{table}.csv")

    def named(self, path):
        names = [f["name"] for f in self.tables[path]["schema"]["fields"]]
        kinds = [f["type"] for f in self.tables[path]["schema"]["fields"]]
        for n, row in self.rows(path):
            try: yield n, {k: (undefused(c) if t == "string" else float(c) if c and t == "number" else int(c) if c else None)
                           for k, t, c in zip(names, kinds, row)}
            except ValueError as e: fault(path, "row", n, ":", e)


def chain(p, head):
    """hash(n) = BLAKE3(hash(n-1), body); before the first stand 32 zero bytes. Answers the blocks of rows of each table."""
    before, blocks, seen = bytes(32), {}, []
    for n, (id, body, hash) in p.record("event"):
        body, now = undefused(body), bytes.fromhex(hash)
        made = blake3(before + body.encode()).digest()
        if made != now: fault("record/event.csv row", n, "does not follow from the event before it")
        before, event = now, json.loads(body)
        if event.get("number") != n or int(id) != n: fault("record/event.csv row", n, "has another number")
        seen.append(now.hex())
        for table, t in event.get("tables", {}).items():
            for i, digest in enumerate(t["digests"]):
                first = t["first"] + 4096 * i
                last = min(first + 4096, t["first"] + t["rows"]) - 1
                blocks.setdefault(table, []).append((first, last, digest, (t.get("traces") or [])[i:i + 1], n))
    if p.about["limpid"]["head"] != before.hex(): fault("datapackage.json: its head is not that of record/event.csv")
    if head and head not in seen and head != p.seal: fault("the hash", head, "is not in the chain, nor the seal: something was cut off or rewritten")
    return blocks


def with_nodes(body, nodes):
    """A derivation's body with the text of each node in the place of its number."""
    text = lambda m: m[1] + ",".join(nodes[n] for n in m[2].split(",")) + "]"
    return re.sub(r'([{,]"nodes":\[)([0-9,]+)\]', text, body, count=1)


def encoded(row, kinds, p, n, parts):
    """The bytes of a row that its digest is made of."""
    out = [struct.pack("<qq", int(row[0]), int(row[1]))]
    for place, (cell, kind) in enumerate(zip(row[2:], kinds)):
        if cell == "": continue
        if kind in ("integer", "row"): out.append(struct.pack("<BBq", place, 1, int(cell)))
        elif kind == "real": out.append(struct.pack("<BBd", place, 2, float(cell)))
        else:
            if kind == "raw bytes":
                value = parts.read(int(cell))
                if len(value) != int(cell): raise ValueError(f"says {cell} bytes, the file in raw/ has {len(value)} left")
            elif kind != "bytes": value = undefused(cell).encode()
            elif cell.startswith("bytes/"): value = open(os.path.join(p.folder, cell), "rb").read()
            else: value = b"" if cell == "'" else bytes.fromhex(cell)
            out.append(struct.pack("<BBQ", place, 3 if kind not in ("bytes", "raw bytes") else 4, len(value)) + value)
    return b"".join(out) + b"\xff"


def located(rows, trace, first):
    """The one row that makes the two sums beside a digest differ; several changed rows hardly ever give one."""
    s0 = s1 = 0
    for id, data in rows.items():
        tag = int.from_bytes(blake3(data).digest()[:8], "little") % P
        s0, s1 = (s0 + tag) % P, (s1 + (id - first + 1) * tag) % P
    d0, d1 = (s0 - int(trace[:16], 16)) % P, (s1 - int(trace[16:], 16)) % P
    return first + d1 * pow(d0, P - 2, P) % P - 1 if d0 else None


def digests(p, blocks):
    """Every row of every table against the digest of its 4096 rows."""
    raw = {int(r[0]): r for _, r in p.record("raw_file")}
    total = 0
    nodes = p.nodes()
    for path in sorted(t for t in p.tables if t.startswith("record/") and t[7:-4] not in ("event", "derivation_node")):
        table = path[7:-4]
        fields = p.tables[path]["schema"]["fields"][2:]
        kinds = [f.get("kind") for f in fields if f.get("kind")]
        left, rows, last_id = list(blocks.get(table, [])), {}, 0
        parts = open(os.devnull, "rb")

        def close(upto):
            while left and left[0][1] < upto:
                first, last, digest, trace, event = left.pop(0)
                h = blake3()
                for id in sorted(rows): h.update(rows[id])
                if h.hexdigest() != digest:
                    row = located(rows, trace[0], first) if trace else None
                    where = f"row {row}" if row and first <= row <= last else f"rows {first} to {last}"
                    fault(path, where, f"of event {event}: altered, added or removed ({len(rows)} of {last - first + 1} are there)")
                rows.clear()
        for n, row in p.rows(path):
            try:
                id, total = int(row[0]), total + 1
                if table == "derivation": row[3] = with_nodes(row[3], nodes)
                if id <= last_id: fault(path, "row", n, ": its id stands twice or out of order")
                last_id = id
                if table == "raw_part" and row[3] == "0":
                    parts = open(os.path.join(p.folder, raw[int(row[2])][-1]), "rb")
                close(id)
                if not left or id < left[0][0]: fault(path, "row", n, ": no event wrote it")
                else: rows[id] = encoded(row[:2 + len(kinds)], kinds, p, n, parts)
            except (ValueError, OSError, KeyError) as e: fault(path, "row", n, ":", e)
        close(float("inf"))
    return total


def contents(p):
    """Raw files, mappings and recipes against the hashes in their rows."""
    for n, row in p.named("record/raw_file.csv"):
        try: found = of_file(os.path.join(p.folder, row["path"]), blake3())[0]
        except OSError as e:
            fault("record/raw_file.csv row", n, ":", e)
            continue
        if found != row["hash"]: fault(row["path"], "is not the file that row", n, "of record/raw_file.csv speaks of")
    for table in ("mapping", "recipe"):
        for n, row in p.named(f"record/{table}.csv"):
            if blake3((row["toml"] or "").encode()).hexdigest() != row["hash"]: fault(f"record/{table}.csv row", n, ": its text is not what its hash says")


def derived(p):
    """The tables for people against the record: every number and word that stands in both."""
    def table(name):
        out = {r["id"]: r for _, r in p.named(f"record/{name}.csv")}
        kinds = {f["name"]: f["type"] for f in p.tables[f"record/{name}.csv"]["schema"]["fields"]}
        for a in amended:
            if a["table_name"] == name and a["row_id"] in out and ("amendment", a["id"]) not in gone:
                new = a["new"]
                out[a["row_id"]][a["column_name"]] = new if new is None or kinds[a["column_name"]] == "string" else float(new)
        return {i: r for i, r in out.items() if (name, i) not in gone}
    gone = {(u["table_name"], i) for _, u in p.named("record/undone_rows.csv") for i in range(u["first_row"], u["last_row"] + 1)}
    amended = [a for _, a in p.named("record/amendment.csv")]
    names = lambda t, c="name": {i: r[c] for i, r in table(t).items()}
    spoken = lambda word: word.replace("-", " ")  # `not-known` in the record is "not known" for people
    differs = lambda a, b: a != b and not (isinstance(a, (int, float)) and isinstance(b, (int, float)) and float(a) == float(b))

    def same(path, n, row, pairs):
        for column, want in pairs.items():
            if differs(row[column], want): fault(path, "row", n, f"column {column}: {row[column]!r}, the record has {want!r}")

    events = {i: (json.loads(r["body"]), r["hash"]) for _, r in p.named("record/event.csv") for i in [r["id"]]}
    for n, row in p.named("events.csv"):
        e, hash = events.get(row["number"], ({}, None))
        same("events.csv", n, row, {"at": e.get("at"), "act": e.get("act"), "author": e.get("author"), "hash_blake3": hash})
    bottles, wells, trips, persons = table("bottle"), names("well"), names("trip"), names("person")
    lots, acids, results = names("lot"), names("acid"), table("result")
    by_label, label = {b["label"]: b for b in bottles.values()}, {i: b["label"] for i, b in bottles.items()}
    told = {n: row for n, row in p.named("bottles.csv")}
    if len(told) != len(bottles): fault("bottles.csv has", len(told), "rows, the record", len(bottles))
    for n, row in told.items():
        b = by_label.get(row["label"])
        if b is None: fault("bottles.csv row", n, ": no such bottle is on record")
        else: same("bottles.csv", n, row, {**{c: b[c] for c in row if c in b and c not in ("lot", "acid", "trip", "well", "sampler", "parent")},
                   "lot": lots.get(b["lot"]), "acid": acids.get(b["acid"]), "trip": trips.get(b["trip"]), "well": wells.get(b["well"]),
                   "sampler": persons.get(b["sampler"]), "parent": label.get(b["parent"])})
    verdicts, subjects = {}, names("subject", "key")
    for v in table("verdict").values():
        if v["revision"] >= verdicts.get(v["subject"], v)["revision"]: verdicts[v["subject"]] = v
    measurands, derivations = table("measurand"), {d["result"] for d in table("derivation").values()}
    newest = {}
    for r in results.values():
        k = (r["bottle"], r["measurand"])
        if k not in newest or r["revision"] > newest[k]["revision"]: newest[k] = r
    def when(event, who=None):
        e = events[event][0]
        return f"by {who or e['author']}, {e['at']} (act {event}, {e['act']})"
    out = {"bottle": {}, "vial": {}}
    for x in table("exclusion").values():
        of = "vial" if x["vial"] is not None else "bottle"
        if x["isotope"] is not None or x[of] is None: continue
        out[of].pop(x[of], None)
        if x["excluded"]: out[of][x[of]] = f"taken out {when(x['event'], persons.get(x['person']))}: {x['why']}"
    plain = lambda x: "none" if x is None else f"{decimal.Decimal(repr(float(x))):f}".removesuffix(".0")
    before, superseded, corrected, counted = {}, {}, {}, {}
    for r in results.values():
        of = (r["bottle"], r["measurand"])
        old = before.get(of)
        if old and old["revision"] < r["revision"]:
            words = f"revision {old['revision']} (net {plain(old['value'])}, u {plain(old['u'])} {old['unit']}, {old['state']})"
            superseded.setdefault(of, []).append(f"{words} until the next {when(r['event'])}")
        before[of] = r
    for a in amended:
        if ("amendment", a["id"]) not in gone:
            old, new = (x if x is not None else "nothing" for x in (a["old"], a["new"]))
            words = f"{a['column_name']} {old} → {new}, {when(a['event'], persons.get(a['person']))}: {a['why']}"
            corrected.setdefault((a["table_name"], a["row_id"]), []).append(words)
    for x in table("reading").values(): counted.setdefault(x["vial"], set()).add(x["raw_file"])
    files = names("raw_file", "path")
    def origin(r):
        if r["raw_file"] is not None: return files.get(r["raw_file"])
        return "; ".join(files[f] for f in sorted(x for x in counted.get(r["vial"], ()) if x in files)) or None
    newest, seen = {r["id"]: r for r in newest.values()}, set()
    for n, row in p.named("results.csv"):
        r = newest.get(row["row"])
        if r is None or row["row"] in seen:
            fault("results.csv row", n, ": row", row["row"], "of record/result.csv is no newest revision, or stands here twice")
            continue
        seen.add(row["row"])
        m, b = measurands[r["measurand"]], bottles[r["bottle"]]
        want = {"bottle": b["label"], "kind": b["kind"], "filled_at": b["filled_at"], "well": wells.get(b["well"]), "trip": trips.get(b["trip"]),
                **{c: m[c] for c in ("analyte", "isotopes", "resolution", "fraction")},
                **{c: r[c] for c in ("event", "engine", "file_row", "remark", "laboratory", "method", "reporting_limit", "revision")},
                "subject": subjects[r["subject"]]}
        if r["id"] in derivations:
            net = r["gross"] is not None or r["state"] == "not-detected"
            want |= {"net": r["value"] if net else None, "u_net": r["u"] if net else None, "dof": r["dof"], "state": r["state"],
                     "unit_ucum": r["unit"].replace(" ", "_"), "bears": r["bears"] or "value",
                     **{c: r[c] for c in ("gross", "u_gross", "blank", "u_blank", "critical_value", "detection_limit", "quantification_limit")}}
        want["counts_as"] = ("excluded" if r["bottle"] in out["bottle"] or r["vial"] in out["vial"] else
                             "evidence" if b["kind"] not in ("sample", "duplicate") else "rejected" if row["verdict"] == "rejected" else
                             "upper bound" if r["bears"] == "at-most" else "result")
        if row["value"] is not None: want["value"] = r["value"]
        if row["value"] is not None and row["u"] is not None: want["u"] = r["u"]
        of_bottle, of_result = corrected.get(("bottle", r["bottle"])), corrected.get(("result", r["id"]))
        said = [f"{of}: {'; '.join(w)}" for of, w in (("result", of_result), ("bottle", of_bottle)) if w]
        want |= {"excluded": out["bottle"].get(r["bottle"]) or out["vial"].get(r["vial"]), "raw_file": origin(r),
                 "amended": "; ".join(said) or None, "superseded": "; ".join(superseded.get((r["bottle"], r["measurand"]), [])) or None}
        if row["verdict"] is not None and row["counts_as"] != "excluded":
            verdict = verdicts.get(r["subject"], {"verdict": None, "reasons": "[]"})
            want |= {"verdict": verdict["verdict"], "reasons": "; ".join(json.loads(verdict["reasons"])) or None}
        same("results.csv", n, row, want)
        if row["limit"] is not None:
            bounds = [x for x in (r["limit_value"], r["upper_bound"], r["reporting_limit"], r["critical_value"], r["detection_limit"], r["quantification_limit"]) if x is not None]
            two_u = max(r["value"] or 0.0, 0.0) + 2 * (r["u"] or 0.0)
            if not any(row["limit"] == x for x in bounds + [two_u]) and not (bounds and row["limit"] == max(two_u, *bounds)):
                fault("results.csv row", n, "column limit:", row["limit"], "is none of the limits on record")
    for i in sorted(set(newest) - seen)[:20]: fault("results.csv: row", i, "of record/result.csv is missing")
    kept = {}
    for f in table("finding").values():
        v = verdicts.get(f["subject"])
        if v and v["revision"] == f["revision"]:
            k = (subjects[f["subject"]], v["revision"], v["verdict"], f["check_name"], spoken(f["stage"]), spoken(f["outcome"]), f["sentence"],
                 v["profile"])
            kept[k] = kept.get(k, 0) + 1
    for n, row in p.named("findings.csv"):
        if row["check"] == "record.former-check": row["check"], row["sentence"] = row["sentence"].split(": ", 1)
        row |= {c: spoken(row[c]) for c in ("stage", "outcome")}
        k = tuple(row[c] for c in ("subject", "assessment", "verdict", "check", "stage", "outcome", "sentence", "profile"))
        kept[k] = kept.get(k, 0) - 1
        if kept[k] < 0: fault("findings.csv row", n, ": the record has no such finding of", row["subject"])
    for k in [k for k, n in kept.items() if n > 0][:20]: fault("findings.csv: a finding of", k[0], "is missing:", k[3])


def observations(p):
    """observations.json against results.csv: every value, limit and uncertainty."""
    told = {row["row"]: row for _, row in p.named("results.csv")}
    with open(os.path.join(p.folder, "observations.json"), encoding="utf-8") as f: doc = json.load(f)
    for o in doc["Observations"]:
        row = told.get(o["@iot.id"])
        if row is None:
            fault("observations.json, observation", o["@iot.id"], ": results.csv has no such row")
            continue
        result, quality = o["result"], o["resultQuality"]
        if isinstance(result, dict): result = result.get("below", result.get("above"))
        pairs = {"value" if isinstance(o["result"], (int, float)) else "limit": result, "u": quality.get("u"), "k": quality.get("k"),
                 "state": quality["state"], "verdict": quality.get("verdict"), "critical_value": quality.get("criticalValue"),
                 "detection_limit": quality.get("detectionLimit"), "quantification_limit": quality.get("quantificationLimit"),
                 "reporting_limit": quality.get("reportingLimit"), "blank": quality.get("blank"), "u_blank": quality.get("uBlank")}
        for column, found in pairs.items():
            if found != row[column]: fault("observations.json, observation", o["@iot.id"], f": {column} {found!r}, results.csv has {row[column]!r}")


def licence(p):
    """One licence in all three places. No chain covers it: it is what the person said who made the package."""
    stated = [(x.get("path") or x.get("name")) for x in p.about.get("licenses", [])]
    with open(os.path.join(p.folder, "LICENCE.txt"), encoding="utf-8") as f: text = f.read()
    with open(os.path.join(p.folder, "ro-crate-metadata.json"), encoding="utf-8") as f: crate = f.read()
    for s in stated:
        for path, held in (("LICENCE.txt", text), ("ro-crate-metadata.json", crate)):
            if s not in held and json.dumps(s, ensure_ascii=False)[1:-1] not in held: fault(path, "does not state the licence of datapackage.json")
    if not stated and "no licence" not in text: fault("LICENCE.txt states a licence that datapackage.json does not")


def main(args):
    head = args.pop(args.index("--head") + 1) if "--head" in args else None
    args = [a for a in args if a != "--head"]
    folder = args[0] if args else os.path.dirname(os.path.abspath(__file__))
    try:
        there = sums(folder)
        p = Package(folder)
        for path in sorted(set(p.tables) - there): fault(path, "is missing")
        if not set(p.tables) - there:
            rows = digests(p, chain(p, head))
            contents(p)
            derived(p)
            observations(p)
            licence(p)
            print(f"{len(there)} files, {rows} rows, seal {p.seal}, head {p.about['limpid']['head']}")
    except Exception as e: fault("the package cannot be read on:", type(e).__name__, e)
    for words in FAULTS: print("FAULT", words)
    print("nothing differs" if not FAULTS else f"{len(FAULTS)} faults")
    return 1 if FAULTS else 0


if __name__ == "__main__":
    sys.dont_write_bytecode = True
    sys.exit(main(sys.argv[1:]))
