"""The open data package of a large programme, written and read back, beside a general-purpose peer.

    cargo build --release -p limpid
    python bench/package/run.py TARGET_DIR [RESULTS] [TIMES]

Ours writes results.csv, results.parquet, observations, provenance, the whole record, raw file, and the
SHA-256 and BLAKE3 sums of all. The peer is pandas with pyarrow: it reads the result table of the same
SQLite file and writes it as one CSV and one Parquet file, nothing else. Both run in turn; the best of
TIMES counts.
"""
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).parent
PEER = """
import sqlite3, sys, pandas
table = pandas.read_sql_query("SELECT * FROM results_readable", sqlite3.connect(sys.argv[1]))
table.to_csv("peer.csv", index=False)
table.to_parquet("peer.parquet")
"""


def seconds(command, folder):
    begin = time.monotonic()
    subprocess.run(command, check=True, capture_output=True, cwd=folder)
    return time.monotonic() - begin


def main(target, results=200_000, times=3):
    limpid = (pathlib.Path(target) / "release/limpid").resolve()
    mapping = (HERE / "../import/laboratory.toml").resolve()
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        with (folder / "results.csv").open("w") as out:
            subprocess.run([sys.executable, HERE / "../import/make_csv.py", str(results)], check=True, stdout=out)
        seconds([limpid, "import", "p.sqlite", "results.csv", "--mapping", mapping, "--new"], folder)
        best = {}
        for _ in range(times):
            shutil.rmtree(folder / "package", ignore_errors=True)
            (folder / "copy.sqlite").unlink(missing_ok=True)
            for what, command in [
                ("package written", [limpid, "export", "p.sqlite", "--out", "package"]),
                ("package read back", [limpid, "new", "copy.sqlite", "--from", "package"]),
                ("pandas, CSV and Parquet alone", [sys.executable, "-c", PEER, "p.sqlite"]),
            ]:
                best[what] = min(best.get(what, 1e9), seconds(command, folder))
        size = sum(f.stat().st_size for f in (folder / "package").rglob("*") if f.is_file()) / 1e6
        print(f"{results} results, package of {size:.0f} MB, best of {times}")
        for what, s in best.items():
            print(f"{what:32} {s:.2f} s")


main(sys.argv[1], *map(int, sys.argv[2:]))
