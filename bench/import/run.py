"""The import of a large result table beside its general-purpose peer, in one run.

    cargo build --release -p programme --example import_speed
    python bench/import/run.py TARGET_DIR [ROWS] [TIMES]

Ours checks each cell, keeps the raw file with its hash, digests every row into the event chain
and fills all indexes; the peer is pandas.read_csv + to_sql with the same two indexes. Both are
run in turn, TIMES times; the best of each is compared.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent


def seconds(command, pattern):
    out = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return float(re.search(pattern, out).group(1))


def main(target, rows=1_000_000, times=3):
    ours_binary = pathlib.Path(target) / "release/examples/import_speed"
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        table = folder / "results.csv"
        with table.open("w") as out:
            subprocess.run([sys.executable, HERE / "make_csv.py", str(rows)], check=True, stdout=out)
        ours, peer = [], []
        for _ in range(times):
            store = folder / "programme.limpid"
            for old in folder.glob("programme*"):
                old.unlink()
            command = [ours_binary, store, HERE / "laboratory.toml", table]
            ours.append(seconds(command, r"([0-9.]+) s, peak"))
            twin = [sys.executable, HERE / "pandas_twin.py", table, folder / "twin.db"]
            peer.append(seconds(twin, r"all ([0-9.]+) s"))
            print(f"ours {ours[-1]:.2f} s, pandas {peer[-1]:.2f} s")
        print(f"{rows} rows: ours {min(ours):.2f} s, pandas {min(peer):.2f} s, {min(peer) / min(ours):.2f} x")


main(sys.argv[1], *map(int, sys.argv[2:]))
