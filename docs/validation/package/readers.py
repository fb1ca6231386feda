"""Reads a data package with programs that know nothing of Limpid, and counts what each finds.

    validators/bin/pip install pandas polars duckdb pyarrow blake3
    validators/bin/python docs/validation/package/readers.py exported [copy.sqlite]

pandas, polars and duckdb read results and findings, as CSV and as Parquet, and join them by `subject`; the derivations'
nodes and edges are walked by duckdb from a result to its counts. sha256sum and the module blake3 hold every file against
its sum. SQLite opens a copy of the programme (`limpid backup`) in a folder that cannot be written, and reads its views.
"""
import csv
import os
import pathlib
import sqlite3
import subprocess
import sys

import blake3
import duckdb
import pandas
import polars

package = pathlib.Path(sys.argv[1])
faults = 0


def told(what, figures, wanted=None):
    global faults
    wrong = wanted is not None and figures != wanted
    faults += wrong
    print(f"{'FAULT' if wrong else 'ok':5}  {what}: {figures}{f', not {wanted}' if wrong else ''}")


with open(package / "results.csv", newline="", encoding="utf-8") as f:
    rows = list(csv.DictReader(f))
values = [float(r["value"]) for r in rows if r["value"]]
counts = [r for r in rows if r["counts_as"] == "result"]
told("csv (standard library), rows, values, rows that may be averaged", (len(rows), len(values), len(counts)))

p = pandas.read_csv(package / "results.csv", keep_default_na=False, na_values=[""])
told(f"pandas {pandas.__version__}, CSV", (len(p), int(p["value"].notna().sum()), int((p["counts_as"] == "result").sum())), (len(rows), len(values), len(counts)))
q = pandas.read_parquet(package / "parquet/results.parquet")
told("pandas, Parquet: sum of values", float(q["value"].sum()), float(p["value"].sum()))
findings = pandas.read_csv(package / "findings.csv", keep_default_na=False, na_values=[""])
joined = p.merge(findings, on="subject", suffixes=("", "_finding"))
told("pandas, results with findings by `subject`", int(joined["row"].nunique()), sum(r["verdict"] != "" for r in rows if r["subject"] in set(findings["subject"])))

pl = polars.read_parquet(package / "parquet/results.parquet")
told(f"polars {polars.__version__}, Parquet", (pl.height, pl["value"].count(), (pl["counts_as"] == "result").sum()), (len(rows), len(values), len(counts)))
text = polars.read_csv(package / "results.csv", infer_schema_length=None)
told("polars, CSV", (text.height, text["value"].count()), (len(rows), len(values)))

d = duckdb.connect()
at = package.as_posix()
told(
    f"duckdb {duckdb.__version__}, Parquet",
    d.execute(f"SELECT count(*), count(value) FROM '{at}/parquet/results.parquet'").fetchone(),
    (len(rows), len(values)),
)
walk = f"""
WITH RECURSIVE last AS (
    SELECT r.result_row, r.node FROM '{at}/parquet/derivation-results.parquet' r
    JOIN '{at}/parquet/results.parquet' w ON w."row" = r.result_row
), down(result_row, node) AS (
    SELECT * FROM last UNION SELECT down.result_row, e.input FROM down JOIN '{at}/parquet/derivation-edges.parquet' e USING (node)
)
SELECT count(DISTINCT down.result_row) FROM down JOIN '{at}/parquet/derivation-nodes.parquet' n USING (node) WHERE n.formula = 'counts'
"""
derived = d.execute(f"""SELECT count(*) FROM '{at}/parquet/derivation-results.parquet' r JOIN '{at}/parquet/results.parquet' w ON w."row" = r.result_row""").fetchone()[0]
told("duckdb, derived results whose edges lead to counts", d.execute(walk).fetchone()[0], derived)

sums = subprocess.run(["sha256sum", "--check", "--strict", "--quiet", "SHA256SUMS"], cwd=package, capture_output=True, text=True)
told("sha256sum --check --strict", sums.returncode, 0)
listed = [line.split("  ", 1) for line in (package / "BLAKE3SUMS").read_text().splitlines()]
told("blake3, files that differ", sum(blake3.blake3((package / path).read_bytes()).hexdigest() != h for h, path in listed), 0)

if len(sys.argv) > 2:
    copy = pathlib.Path(sys.argv[2]).resolve()
    s = sqlite3.connect(f"file:{copy}?mode=ro", uri=True)
    told("SQLite, folder that cannot be written", not os.access(copy.parent, os.W_OK) or "root may write everywhere")
    told(f"SQLite {sqlite3.sqlite_version}, journal", s.execute("PRAGMA journal_mode").fetchone()[0], "delete")
    for view in ("results_current", "exclusions_readable", "dictionary"):
        told(f"SQLite, view {view}", s.execute(f"SELECT count(*) FROM {view}").fetchone()[0])
    told("SQLite, results_current", s.execute("SELECT count(*) FROM results_current").fetchone()[0], len(rows))
sys.exit(faults > 0)
