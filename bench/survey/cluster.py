"""One executor of one slot against two, the same survey, in one run on one machine.

    cargo build --release -p survey
    python3 bench/survey/cluster.py target/release/limpid-survey [ROWS] [TIMES]

Scheduler and executors are processes on loopback. Turn by turn; best against best. Also told: the bytes that lie between
the stages, which executors on several machines would send each other, and that all answers have the same bytes.
"""
import json
import pathlib
import socket
import subprocess
import sys
import tempfile
import threading
import time

program = sys.argv[1]
rows = int(sys.argv[2]) if len(sys.argv) > 2 else 2_000_000
times = int(sys.argv[3]) if len(sys.argv) > 3 else 2


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


def reached(port):
    for _ in range(600):
        with socket.socket() as s:
            if s.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.05)
    sys.exit(f"nobody listens on {port}")


def survey(table, out, *more):
    begun = time.perf_counter()
    told = subprocess.run([program, "survey", table, "--out", out, "--json", *more], capture_output=True, text=True)
    if told.returncode:
        sys.exit(told.stderr)
    return time.perf_counter() - begun, json.loads(told.stdout)["done"]["blake3"]


def bytes_in(folder):
    total = 0
    for f in folder.rglob("*"):
        try:
            total += f.stat().st_size if f.is_file() else 0
        except OSError:
            pass
    return total


def with_executors(folder, table, n):
    """Seconds, BLAKE3 of the answer, most bytes between stages."""
    folder.mkdir()
    port = free_port()
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    running = [subprocess.Popen([program, "worker", "scheduler", "--bind", f"127.0.0.1:{port}"], **quiet)]
    reached(port)
    for k in range(n):
        own, grpc = free_port(), free_port()
        command = ["worker", "executor", "--slots", "1", "--scheduler", f"127.0.0.1:{port}"]
        command += ["--bind", f"127.0.0.1:{own}", "--grpc-port", str(grpc), "--work", folder / f"work-{k}"]
        running.append(subprocess.Popen([program, *map(str, command)], **quiet))
        reached(own)
    most, over = [0], threading.Event()

    def watch():
        while not over.wait(0.3):
            most[0] = max(most[0], sum(bytes_in(folder / f"work-{k}") for k in range(n)))

    watcher = threading.Thread(target=watch)
    watcher.start()
    try:
        seconds, hash = survey(table, folder / "out", "--cluster", f"http://127.0.0.1:{port}")
    finally:
        over.set()
        watcher.join()
        for p in running:
            p.kill()
            p.wait()
    return seconds, hash, most[0]


with tempfile.TemporaryDirectory() as folder:
    folder = pathlib.Path(folder)
    table = folder / "table.parquet"
    subprocess.run([program, "generate", table, "--series", str(rows // 100), "--each", "100"], check=True)
    alone, hash = survey(table, folder / "alone", "--threads", "1")
    print(f"{rows:,} rows, {table.stat().st_size / 1e6:.1f} MB; one process, one thread: {alone:.1f} s")
    best = {1: float("inf"), 2: float("inf")}
    for turn in range(times):
        for n in best:
            seconds, other, between = with_executors(folder / f"{turn}-{n}", table, n)
            same = "the same bytes" if other == hash else "OTHER BYTES"
            print(f"{n} executors of one slot: {seconds:.1f} s, {between / 1e6:.0f} MB between the stages, {same}")
            best[n] = min(best[n], seconds)
    print(f"two against one: {best[1] / best[2]:.2f} times")
