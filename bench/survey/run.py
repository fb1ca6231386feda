"""The survey against pandas and scipy on rows with the shapes of real series, in one run.

    cargo build --release -p survey
    python3 bench/survey/run.py target/release/limpid-survey          # 20 million rows; needs some 2 GB of disk
    python3 bench/survey/run.py target/release/limpid-survey 2000000  # fewer

Ours: every series' summary (four methods) and trend, from the Parquet file to the answer's Parquet file, by
`/usr/bin/time -v`. The peer: 1 % of the series by pandas' groupby; for each the product limit (scipy.stats.ecdf on the
flipped values), a lognormal fit by likelihood with the non-detects (scipy.optimize on norm.logcdf and norm.logpdf, as
scipy.stats.lognorm.fit with CensoredData but without its slow start), Theil-Sen (scipy.stats.theilslopes) and Kendall
(scipy.stats.kendalltau) on the values with the limit in the place of a non-detect, which is not what one should do but
what the peer can; its time is scaled by 100. It does no gamma fit, no regression on order statistics, no steps, no
serial correlation: the peer does less.
"""
import pathlib
import re
import subprocess
import sys
import tempfile
import time
import warnings

import numpy
import pandas
import scipy
from scipy import optimize, stats

program = sys.argv[1]
rows = int(sys.argv[2]) if len(sys.argv) > 2 else 20_000_000
each = 100
warnings.filterwarnings("ignore")


def ours(table, out, *more):
    """Wall and processor seconds, peak in MB."""
    command = ["/usr/bin/time", "-v", program, "survey", str(table), "--out", str(out), *more]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stderr
    number = lambda what: re.search(what + r": (.*)", told).group(1)
    clock = [float(x) for x in number(r"Elapsed \(wall clock\) time \(h:mm:ss or m:ss\)").split(":")]
    wall = sum(x * 60**k for k, x in enumerate(reversed(clock)))
    processor = float(number(r"User time \(seconds\)")) + float(number(r"System time \(seconds\)"))
    return wall, processor, int(number(r"Maximum resident set size \(kbytes\)")) / 1024


def lognormal(value, below):
    """Maximum likelihood of mean and sd of ln with non-detects."""
    known, limits = numpy.log(value), numpy.log(below)

    def minus(p):
        s = numpy.exp(p[1])
        return -(stats.norm.logpdf(known, p[0], s).sum() + stats.norm.logcdf(limits, p[0], s).sum())

    start = [known.mean(), numpy.log(known.std() + 1e-3)]
    return optimize.minimize(minus, start, method="BFGS").x


def one(g):
    known = g.value.notna()
    value, below = g.value[known].to_numpy(), g.below[~known].to_numpy()
    bound = g.value.fillna(g.below).to_numpy()
    if len(value) < 2:
        return pandas.Series({"n": len(g)})
    # Left-censored values are right-censored after a flip.
    stats.ecdf(stats.CensoredData(uncensored=-value, right=-below)).cdf.quantiles
    mean, log_sd = lognormal(value, below)
    years = g.years.to_numpy()
    slope = stats.theilslopes(bound, years, 0.95)
    tau = stats.kendalltau(years, bound)
    return pandas.Series({"n": len(g), "mean": mean, "sd": numpy.exp(log_sd), "slope": slope[0], "low": slope[2], "high": slope[3], "tau": tau[0], "p": tau[1]})


def more(g):
    """What `one` does and what else the survey does, as far as scipy and numpy have it: regression on normal scores,
    rank-sum test and median of all differences at the change of method, slopes of the logarithms and within the
    stretches of one method, change point by rank sums with the median of all differences there, and Kendall's tau between
    neighbours. No interval by the profile of a likelihood."""
    out = one(g)
    known = g.value.notna()
    value, below = g.value[known].to_numpy(), g.below[~known].to_numpy()
    if len(value) < 2:
        return out
    n = len(g)
    scores = stats.norm.ppf((numpy.arange(len(below), n) + 0.625) / (n + 0.25))
    stats.linregress(scores, numpy.sort(numpy.log(value)))
    bound = g.value.fillna(g.below).to_numpy()
    before, after = bound[(g.method == "A").to_numpy()], bound[(g.method == "B").to_numpy()]
    stats.mannwhitneyu(before, after)
    numpy.median(numpy.subtract.outer(after, before))
    years = g.years.to_numpy()
    stats.theilslopes(numpy.log(bound), years, 0.95)
    for method in ["A", "B"]:
        of = (g.method == method).to_numpy()
        stats.theilslopes(bound[of], years[of], 0.95)
        stats.kendalltau(years[of], bound[of])
    ranks = stats.rankdata(bound)
    at = numpy.abs(2 * numpy.cumsum(ranks) - numpy.arange(1, n + 1) * (n + 1)).argmax()
    if at < n - 1:
        numpy.median(numpy.subtract.outer(bound[at + 1 :], bound[: at + 1]))
    stats.kendalltau(bound[1:], bound[:-1])
    return out


with tempfile.TemporaryDirectory() as folder:
    folder = pathlib.Path(folder)
    tables = {}
    for n in (rows // 10, rows):
        tables[n] = folder / f"{n}.parquet"
        subprocess.run([program, "generate", str(tables[n]), "--series", str(n // each), "--each", str(each)], check=True)
    print(f"table of {rows:,} rows, {rows // each:,} series: {tables[rows].stat().st_size / 1e6:.0f} MB")
    measured = {n: ours(table, folder / f"out-{n}") for n, table in tables.items()}
    for n, (wall, processor, peak) in measured.items():
        print(f"ours, {n:>11,} rows: {wall:7.1f} s wall, {processor:7.1f} s processor, peak {peak:6.0f} MB, {1e6 * processor / (n / each):6.1f} µs a series")
    small, large = measured[rows // 10], measured[rows]
    print(f"ten times the rows: {large[1] / small[1]:.2f} times the processor time, {large[0] / small[0]:.2f} times the wall time")
    wells = max(1, rows // each // 1000)
    frame = pandas.read_parquet(tables[rows], filters=[("well", "<", f"W{wells:06d}")])
    frame["years"] = pandas.to_datetime(frame.date).map(pandas.Timestamp.toordinal) / 365.25
    print(f"pandas {pandas.__version__}, scipy {scipy.__version__}")
    for what, by in [("the least", one), ("as much as they have", more)]:
        begun, worked = time.perf_counter(), time.process_time()
        answers = frame.groupby(["well", "analyte", "unit"]).apply(by)
        wall, worked = time.perf_counter() - begun, time.process_time() - worked
        scale = rows // each / len(answers)
        print(f"{what}: {len(answers):,} series in {wall:.1f} s wall, {worked:.1f} s processor; scaled {wall * scale:,.0f} s wall, {worked * scale:,.0f} s processor")
        print(f"times faster: {wall * scale / large[0]:.0f} by wall, {worked * scale / large[1]:.0f} by processor")
