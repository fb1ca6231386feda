"""Makes the table of the import bench: results of a large invented laboratory file.

    python make_csv.py ROWS > results.csv

One row a result: 40 analytes for each sample, about a third below the reporting limit. Same
seed, same bytes.
"""
import random
import sys

ANALYTES = (
    "Ag Al As B Ba Be Bi Br Ca Cd Ce Cl Co Cr Cs Cu F Fe Hg K La Li Mg Mn Mo Na Ni P Pb Rb "
    "Sb Se Si Sn Sr Th Tl U V Zn"
).split()


def main(rows):
    draw = random.Random(20261125)
    out = sys.stdout
    out.write("sample,well,date,analyte,fraction,result,unit,remark,reporting_limit,laboratory,method\n")
    for i in range(rows):
        sample, place = divmod(i, len(ANALYTES))
        value = draw.lognormvariate(0.0, 1.5)
        limit = 0.5
        remark, number = ("<", limit) if value < limit else ("", round(value, 4))
        day = sample % 28 + 1
        month = sample // 28 % 12 + 1
        year = 1990 + sample // 336 % 35
        out.write(
            f"S{sample:06d},W-{sample % 1500:04d},{year}-{month:02d}-{day:02d},{ANALYTES[place]},"
            f"{'0.45 um' if place % 2 else 'unfiltered'},{number},ng/L,{remark},{limit},"
            f"Lab {sample % 7},M{place % 5:03d}\n"
        )


main(int(sys.argv[1]))
