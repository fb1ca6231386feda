"""Times `series` against general libraries on the same data in the same run.

    pip install numpy scipy pandas lifelines statsmodels
    cargo build --release -p series --example timing
    python3 bench/series/bench.py TARGET_DIR/release/examples/timing [--survey]

Each figure is the best of several repeats on both sides, in processor time (both run on one
thread); the survey runs on all threads and is timed on the wall. Data from numpy's default_rng(1).
"""
import json, subprocess, sys, tempfile, time, warnings
from pathlib import Path

import numpy as np
import pandas as pd
import scipy
from scipy import stats

warnings.filterwarnings("ignore")
BINARY = sys.argv[1]
TMP = Path(tempfile.mkdtemp())
rng = np.random.default_rng(1)


def ours(task, table):
    file = TMP / f"{task}-{len(table)}.csv"
    table.to_csv(file, index=False)
    out = subprocess.run([BINARY, task, str(file)], capture_output=True, text=True, check=True)
    return json.loads(out.stdout)


def best(repeats, f):
    seconds = float("inf")
    for _ in range(repeats):
        start = time.process_time()
        answer = f()
        seconds = min(seconds, time.process_time() - start)
    return seconds, answer


def report(what, theirs, mine, note):
    print(f"{what:34s} {theirs * 1e3:12.3f} ms {mine * 1e3:10.4f} ms {theirs / mine:9.0f} x   {note}")


def slope(n, peer):
    x = 1990 + np.arange(n) / 365.25
    y = np.round(5 + 0.02 * (x - 1990) + rng.standard_normal(n), 3)
    a = ours("slope", pd.DataFrame({"x": x, "y": y}))
    if peer:
        t, b = best(7, lambda: stats.theilslopes(y, x, 0.95))
        note = f"slope {b[0]:.9g} / {a['slope']:.9g}; interval [{b[2]:.6g}, {b[3]:.6g}] / [{a['low']:.6g}, {a['high']:.6g}]"
        report(f"slope with interval, n = {n}", t, a["seconds"], note)
    return a["seconds"]


def censored(n):
    value = np.exp(rng.standard_normal(n))
    limit = np.array([0.5, 0.8, 1.2])[rng.integers(0, 3, n)]
    below = value < limit
    return pd.DataFrame({"value": np.where(below, limit, value), "nondetect": below.astype(int)})


def product_limit(n):
    from lifelines import KaplanMeierFitter
    from statsmodels.duration.survfunc import SurvfuncRight

    d = censored(n)
    a = ours("product-limit", d)
    k = KaplanMeierFitter()
    t, fit = best(20, lambda: k.fit_left_censoring(d.value, 1 - d.nondetect))
    lowest = d.value[d.nondetect == 0].min()
    f = float(np.ravel(fit.cumulative_density_at_times([lowest]))[0])
    report(f"product limit, n = {n}", t, a["seconds"], f"lifelines; F at the lowest {f:.9f} / {a['share_at_lowest']:.9f}")
    top = d.value.max() + 1
    t, s = best(20, lambda: SurvfuncRight(top - d.value, 1 - d.nondetect))
    i = np.searchsorted(s.surv_times, top - lowest - 1e-9)
    report(f"product limit, n = {n}", t, a["seconds"], f"statsmodels; F at the lowest {s.surv_prob[i - 1]:.9f}")


def lognormal(n):
    d = censored(n)
    a = ours("lognormal", d)
    data = stats.CensoredData(uncensored=d.value[d.nondetect == 0].to_numpy(), left=d.value[d.nondetect == 1].to_numpy())
    t, (s, _, scale) = best(5, lambda: stats.lognorm.fit(data, floc=0))
    note = f"sigma {s:.6f} / {a['sigma']:.6f}; mu {np.log(scale):.6f} / {a['mu']:.6f}"
    report(f"censored lognormal fit, n = {n}", t, a["seconds"], note)


def survey(series, n):
    parts = []
    for i in range(series):
        d = censored(n)
        d.insert(0, "year", 1990 + 30 * np.sort(rng.random(n)))
        d.insert(0, "group", f"w{i:06d}")
        parts.append(d)
    file = TMP / "survey.csv"
    pd.concat(parts).to_csv(file, index=False)
    out = subprocess.run(["/usr/bin/time", "-v", BINARY, "survey", str(file)], capture_output=True, text=True, check=True)
    user = [l for l in out.stderr.splitlines() if "User time" in l][0].split()[-1]
    peak = [l for l in out.stderr.splitlines() if "Maximum resident" in l][0].split()[-1]
    a = json.loads(out.stdout)
    print(f"{series} series x {n} values, everything: {a['seconds']:.2f} s on the wall, {user} s of processor with reading the file, peak memory {int(peak) / 1024:.0f} MB")


print(f"scipy {scipy.__version__}, pandas {pd.__version__}, numpy {np.__version__}")
print(f"{'what':34s} {'peer':>15s} {'series':>13s} {'ratio':>11s}   answers peer / series")
short = slope(3000, True)
long = slope(30000, False)
print(f"slope with interval, n = 30000: {long * 1e3:.2f} ms, {long / short:.1f} x the time of n = 3000")
product_limit(300)
lognormal(100)
if "--survey" in sys.argv:
    for count in (2000, 10000):
        survey(count, 100)
