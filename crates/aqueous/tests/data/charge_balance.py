"""Charge balance of the 160 analyses beside this file, in plain Python: what tests/groundwater.rs compares with.

    python3 charge_balance.py > charge_balance_python.csv

Standard atomic weights 2021. Equivalents of what was analysed, alkalinity once; u is 5 % of each amount; a non-detect
lies between nought and its limit; a literal zero was not measured; of two alkalinities the first that was measured.
Vanadium as H2VO4-, molybdenum as MoO4^2-; chromium has no stated valence and is not counted.
"""
import csv
import math
import pathlib

here = pathlib.Path(__file__).parent
# column: grams of a mole, charge, divisor to g/L
CATIONS = {"Ca_mgL": (40.078, 2), "Mg_mgL": (24.305, 2), "Na_mgL": (22.98977, 1), "K_mgL": (39.0983, 1),
           "Li_ugL": (6.94, 1), "Sr_ugL": (87.62, 2), "Ba_ugL": (137.327, 2), "Fe_ugL": (55.845, 2),
           "Mn_ugL": (54.938, 2), "Al_ugL": (26.9815, 3), "U_ugL": (238.029, 2), "Pb_ugL": (207.2, 2),
           "Zn_ugL": (65.38, 2), "Cu_ugL": (63.546, 2), "Ni_ugL": (58.6934, 2)}
ANIONS = {"Cl_mgL": (35.45, 1), "SO4_mgL": (96.06, 2), "NO3NO2_mgL_N": (14.007, 1), "F_mgL": (18.9984, 1),
          "Br_mgL": (79.904, 1), "As_ugL": (74.9216, 1), "V_ugL": (50.942, 1), "Mo_ugL": (95.95, 2)}


def side(row, table):
    found = variance = limits = 0.0
    for column, (mass, charge) in table.items():
        text = row[column].strip().lstrip("E").strip()
        if not text or float(text.lstrip("<")) == 0:
            continue
        meq = float(text.lstrip("<")) * charge / mass / (1000 if column.endswith("ugL") else 1)
        if text.startswith("<"):
            limits += meq
        else:
            found += meq
            variance += (0.05 * meq) ** 2
    return found, variance, limits


print("sample_id,cations_meq_l,anions_meq_l,low_percent,high_percent,u_percent")
for row in csv.DictReader(open(here / "groundwater_majors.csv")):
    c, vc, oc = side(row, CATIONS)
    a, va, oa = side(row, ANIONS)
    alkalinity = float((row["ANC_field_mgL_CaCO3"] or row["ANC_lab_mgL_CaCO3"]).strip("E ")) * 2 / 100.086
    a, va = a + alkalinity, va + (0.05 * alkalinity) ** 2
    percent = lambda c, a: 100 * (c - a) / (c + a)
    u = 200 * math.sqrt(a * a * vc + c * c * va) / (c + a) ** 2
    print(f"{row['sample_id']},{c:.5f},{a:.5f},{percent(c, a + oa):.4f},{percent(c + oc, a):.4f},{u:.4f}")
