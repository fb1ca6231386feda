"""The same Monte Carlo in numpy: six normal inputs, one model, mean, sd, 95 % interval.

python3 numpy_twin.py DRAWS REPEATS prints one line of JSON, as the Rust example does.
"""

import json
import statistics
import sys
import time

import numpy as np


def once(rng, n):
    gross = rng.normal(2150.0, 28.0, n)
    blank = rng.normal(310.0, 22.0, n)
    slope = rng.normal(1840.0, 16.0, n)
    recovery = rng.normal(0.97, 0.02, n)
    dilution = rng.normal(1.05, 0.004, n)
    drift = rng.normal(1.0, 0.008, n)
    y = (gross - blank) / (slope * recovery) * dilution * drift
    mean, sd = y.mean(), y.std(ddof=1)
    # Symmetric and shortest 95 % intervals, both from one sort.
    y.sort()
    q = int(0.95 * n + 0.5)
    r = (n - q + 1) // 2
    k = np.argmin(y[q:] - y[: n - q])
    return mean, sd, y[r - 1], y[r + q - 1], y[k], y[k + q]


def main():
    n = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    repeats = int(sys.argv[2]) if len(sys.argv) > 2 else 9
    rng = np.random.default_rng(1)
    once(rng, n)
    times, cpu = [], []
    for _ in range(repeats):
        start, start_cpu = time.perf_counter(), time.process_time()
        mean, sd, low, high, *_ = once(rng, n)
        times.append(time.perf_counter() - start)
        cpu.append(time.process_time() - start_cpu)
    print(
        json.dumps(
            {
                "numpy": np.__version__,
                "smallest_s": round(min(times), 5),
                "cpu_s": round(min(cpu), 5),
                "median_s": round(statistics.median(times), 5),
                "value": float(mean),
                "u": float(sd),
                "low": float(low),
                "high": float(high),
            }
        )
    )


if __name__ == "__main__":
    main()
