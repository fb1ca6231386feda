"""The non-negative fit beside a loop of scipy.optimize.nnls in one run, on the same 60 x 8 design and 64 right-hand sides.

Run from the project's root: python3 bench/attribution/run.py. Prints one JSON line. "nnls_ns" has the Gram matrix
of the design made once, as in a fit of many metals; "nnls_with_gram_ns" makes it anew each time.
"""
import json
import subprocess
import time

import numpy as np
from scipy.optimize import nnls

ours = json.loads(
    subprocess.run(
        ["cargo", "run", "--release", "-q", "-p", "cleanliness", "--example", "time_attribution"],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
)
entry = lambda i, j: ((i * 37 + j * 101 + i * j * 13) % 97) / 97
i = np.arange(60)
A = np.array([[entry(a, j) for j in range(8)] for a in range(60)])
sides = [entry(i, 0) - 0.3 * entry(i, 3) + 2 * entry(i, 6) + entry(i, k % 8) + ((17 * i + 5 * k) % 23) / 23 - 0.5 for k in range(64)]
start = time.perf_counter()
for _ in range(100):
    for b in sides:
        nnls(A, b)
peer = (time.perf_counter() - start) / 6400 * 1e9
print(json.dumps({**ours, "scipy_nnls_ns": round(peer), "times_faster": round(peer / ours["nnls_ns"], 1), "times_faster_with_gram": round(peer / ours["nnls_with_gram_ns"], 1)}))
