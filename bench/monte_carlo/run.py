"""Runs the Rust example and the numpy twin in turn and prints the comparison.

    cargo build --release -p measurement --example monte_carlo
    python3 bench/monte_carlo/run.py [DRAWS] [ROUNDS]

Each round runs numpy, then Limpid on all threads, then Limpid on one thread. The smallest wall
time of each over all rounds is compared, so that other load on the machine counts little; beside
it stands the smallest processor time of one evaluation, all threads together.
"""

import json
import os
import pathlib
import resource
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
TARGET = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", HERE.parents[1] / "target"))
RUST = TARGET / "release" / "examples" / "monte_carlo"


def spent():
    r = resource.getrusage(resource.RUSAGE_CHILDREN)
    return r.ru_utime + r.ru_stime


def run(command, repeats, **more):
    before = spent()
    out = subprocess.run(
        [*command, str(repeats)],
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, **more},
    )
    result = json.loads(out.stdout)
    # The Rust example does one more run than it times; its start takes no time to speak of.
    result.setdefault("cpu_s", (spent() - before) / (repeats + 1))
    return result


def main():
    draws = sys.argv[1] if len(sys.argv) > 1 else "1000000"
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 8
    best = {}
    cpu = {}
    answers = {}
    for _ in range(rounds):
        for name, command, more in [
            ("numpy", [sys.executable, str(HERE / "numpy_twin.py"), draws], {}),
            ("limpid, all threads", [str(RUST), draws], {}),
            ("limpid, one thread", [str(RUST), draws], {"RAYON_NUM_THREADS": "1"}),
        ]:
            r = run(command, 15, **more)
            cpu[name] = min(cpu.get(name, 1e9), r["cpu_s"])
            best[name] = min(best.get(name, 1e9), r["smallest_s"])
            answers[name] = r
    for name, seconds in best.items():
        a = answers[name]
        print(
            f"{name:20s} {1000 * seconds:7.1f} ms   x {best['numpy'] / seconds:4.1f}"
            f"   cpu {1000 * cpu[name]:6.1f} ms"
            f"   value {a['value']:.5f} u {a['u']:.5f} [{a['low']:.4f}, {a['high']:.4f}]"
        )
    print("numpy", answers["numpy"]["numpy"], "threads", answers["limpid, all threads"]["threads"])


if __name__ == "__main__":
    main()
