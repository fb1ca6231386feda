"""A large import into a server beside bare COPY of the same rows, in one run.

    cargo build --release -p programme --example import_speed
    python bench/postgres/run.py TARGET_DIR [ROWS] [TIMES]

A throwaway cluster of the system's PostgreSQL, its settings as they come (fsync on), holds both.
Ours is the import as a person runs it: the file read, checked, mapped, hashed, kept whole, every
row digested into the event chain and filled into tables with all their indexes, in one act. Bare
COPY takes the very rows that the import left behind, as binary files of the server, into empty
tables with the same indexes, in one transaction. Both run in turn, TIMES times; best against best.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time

from cluster import Cluster

HERE = pathlib.Path(__file__).parent


def bare(cluster, schema):
    """Seconds of COPY of all rows of a programme into empty tables like its own."""
    tables = cluster.ask(f"SELECT tablename FROM pg_tables WHERE schemaname = '{schema}'").split()
    filled = [t for t in tables if cluster.ask(f'SELECT EXISTS (SELECT 1 FROM {schema}."{t}")').strip() == "t"]
    cluster.ask("DROP SCHEMA IF EXISTS bare CASCADE; CREATE SCHEMA bare")
    for t in filled:
        cluster.ask(f"""COPY {schema}."{t}" TO '{cluster.folder}/{t}.bin' (FORMAT binary)""")
        cluster.ask(f'CREATE TABLE bare."{t}" (LIKE {schema}."{t}" INCLUDING ALL)')
    cluster.ask(f"DROP SCHEMA {schema} CASCADE; CHECKPOINT")
    copies = "\n".join(f"""COPY bare."{t}" FROM '{cluster.folder}/{t}.bin' (FORMAT binary);""" for t in filled)
    begin = time.perf_counter()
    cluster.ask(f"BEGIN;\n{copies}\nCOMMIT;")
    taken = time.perf_counter() - begin
    cluster.ask("DROP SCHEMA bare CASCADE; CHECKPOINT")
    return taken


def main(target, rows=1_000_000, times=3):
    program = pathlib.Path(target) / "release/examples/import_speed"
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        inner = pathlib.Path(folder) / "cluster"
        inner.mkdir()
        table = pathlib.Path(folder) / "results.csv"
        with table.open("w") as out:
            subprocess.run([sys.executable, HERE / "../import/make_csv.py", str(rows)], check=True, stdout=out)
        cluster = Cluster(inner)
        try:
            ours, peer = [], []
            for n in range(times):
                address = f"postgres://limpid@127.0.0.1:{cluster.port}/postgres?schema=p{n}"
                command = [program, address, HERE / "../import/laboratory.toml", table]
                said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
                ours.append(float(re.search(r"([0-9.]+) s, peak", said).group(1)))
                peer.append(bare(cluster, f"p{n}"))
                print(f"import {ours[-1]:.2f} s, bare COPY {peer[-1]:.2f} s ({said.strip()})", flush=True)
            print(f"{rows} rows: import {min(ours):.2f} s, bare COPY {min(peer):.2f} s, {min(ours) / min(peer):.2f} x")
        finally:
            cluster.stop()


main(sys.argv[1], *map(int, sys.argv[2:]))
