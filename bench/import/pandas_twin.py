"""The peer of the import bench: pandas.read_csv, DataFrame.to_sql into SQLite, same index.

The record's table of results has one index beside its row numbers, the unique one over what
names a result; here that is sample, analyte and fraction.

    python pandas_twin.py results.csv STORE
"""
import os
import resource
import sqlite3
import sys
import time

import pandas


def main(csv, store):
    if os.path.exists(store):
        os.remove(store)
    begin = time.perf_counter()
    frame = pandas.read_csv(csv)
    read = time.perf_counter()
    with sqlite3.connect(store) as connection:
        frame.to_sql("result", connection, index=False)
        written = time.perf_counter()
        connection.execute("CREATE UNIQUE INDEX result_name ON result (sample, analyte, fraction)")
    connection.close()
    end = time.perf_counter()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"pandas {pandas.__version__}: read {read - begin:.2f} s, to_sql {written - read:.2f} s, "
        f"index {end - written:.2f} s, all {end - begin:.2f} s, peak {peak:.0f} MB, "
        f"{len(frame) / (end - begin):.0f} rows/s"
    )


main(sys.argv[1], sys.argv[2])
