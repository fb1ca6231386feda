"""Joint fit of six tracers beside a numpy/scipy twin, in turn; prints seconds and the ages of both.

    cargo build --release -p aquifer --example time_age
    python3 bench/age/run.py [ROUNDS]

Each round runs numpy, then Limpid on all threads, then on one; the smallest wall time of each counts.
"""
import json
import os
import pathlib
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
TARGET = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", HERE.parents[1] / "target"))
RUST = str(TARGET / "release" / "examples" / "time_age")
rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 3
best, answers = {}, {}
for _ in range(rounds):
    for name, command, more in [
        ("numpy", [sys.executable, str(HERE / "numpy_twin.py")], {}),
        ("limpid, all threads", [RUST], {}),
        ("limpid, one thread", [RUST], {"RAYON_NUM_THREADS": "1"}),
    ]:
        out = subprocess.run(command, check=True, capture_output=True, text=True, env={**os.environ, **more})
        answers[name] = json.loads(out.stdout)
        best[name] = min(best.get(name, 1e9), answers[name]["all_s"])
for name, seconds in best.items():
    print(f"{name:20s} {seconds:7.3f} s   x {best['numpy'] / seconds:4.1f}")
for m in answers["limpid, all threads"]["models"]:
    print(f"{m['model']:20s} T {m['T']}  numpy {[round(x, 1) for x in answers['numpy']['models'].get(m['model'], [])]}  rejected {m['rejected']}  effective {m['effective']}")
