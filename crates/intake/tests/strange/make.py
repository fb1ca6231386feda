"""Makes the sheets beside this file: `python3 make.py` (pandas, openpyxl, odfpy, xlwt).

The workbooks are what these libraries write. Of the texts, pandas writes `pandas.csv`; the others follow from memory
what Excel in German ("CSV (Trennzeichen-getrennt)", "Unicode-Text"), R's write.csv2 and laboratories' export programs
write. All places and values are invented.
"""
import datetime as dt

import openpyxl
import pandas as pd
import xlwt

LONG = [
    ("SL-1/26", dt.date(2026, 7, 14), "Blei", 1.25, "µg/l"),
    ("SL-1/26", dt.date(2026, 7, 14), "Cadmium", 0.05, "µg/l"),
    ("SL-2/26", dt.date(2026, 7, 15), "Blei", 1234.5, "µg/l"),
]
HEAD = ["Probenbezeichnung", "Datum", "Parameter", "Messwert", "Einheit"]


def text(name, lines, encoding, end="\r\n"):
    with open(name, "wb") as f:
        f.write((end.join(lines) + end).encode(encoding))


def german_excel():
    """Windows-1252, semicolons, decimal comma, points between groups, a title, notes below with a legend."""
    text("german_excel.csv", [
        "Prüfbericht 26-0815;;;;;;;;",
        ";;;;;;;;",
        "Probenbezeichnung;Datum;Parameter;Messwert;Einheit;BG;NWG;Verfahren;Labor",
        "SL-1/26;14.07.2026;Blei;1,25;µg/l;0,5;0,1;DIN EN ISO 17294-2;Labor Muster (erfunden)",
        "SL-1/26;14.07.2026;Cadmium;<BG;µg/l;0,05;0,01;DIN EN ISO 17294-2;Labor Muster (erfunden)",
        "SL-1/26;14.07.2026;Arsen;< NWG;µg/l;0,5;0,1;DIN EN ISO 17294-2;Labor Muster (erfunden)",
        "SL-2/26;03.07.2026;Blei;1.234,5;µg/l;0,5;0,1;DIN EN ISO 17294-2;Labor Muster (erfunden)",
        "SL-2/26;03.07.2026;Cadmium;n.n.;µg/l;0,05;0,01;DIN EN ISO 17294-2;Labor Muster (erfunden)",
        "SL-2/26;03.07.2026;Arsen;n.b.;µg/l;0,5;0,1;DIN EN ISO 17294-2;Labor Muster (erfunden)",
        ";;;;;;;;",
        "n.n. = nicht nachweisbar, n.b. = nicht bestimmt;;;;;;;;",
        "Seite 1 von 1;;;;;;;;",
    ], "cp1252")


def r_csv2():
    """write.csv2 with its row names: quoted texts, semicolons, decimal comma, NA."""
    text("r_csv2.csv", [
        '"";"sample";"analyte";"value";"unit";"fraction"',
        '"1";"A-1";"Pb";1,25;"ug/L";"filtered"',
        '"2";"A-1";"Cd";NA;"ug/L";"filtered"',
        '"3";"A-2";"Pb";0,5;"ug/L";"filtered"',
    ], "utf-8", "\n")


def pandas_files():
    frame = pd.DataFrame(LONG, columns=HEAD)
    frame.to_csv("pandas.csv", index=False, encoding="utf-8-sig")
    frame.to_excel("pandas.xlsx", index=False, sheet_name="Ergebnisse")
    frame.to_excel("pandas.ods", index=False, engine="odf", sheet_name="Ergebnisse")


def old_xls():
    book = xlwt.Workbook(encoding="utf-8")
    sheet = book.add_sheet("Ergebnisse")
    day = xlwt.easyxf(num_format_str="DD.MM.YYYY")
    for c, h in enumerate(HEAD):
        sheet.write(0, c, h)
    for r, row in enumerate(LONG, 1):
        for c, cell in enumerate(row):
            sheet.write(r, c, cell, day) if c == 1 else sheet.write(r, c, cell)
    book.save("old.xls")


def units_under_headings():
    """A cover sheet, a title, headings with units and methods under them."""
    book = openpyxl.Workbook()
    book.active.title = "Deckblatt"
    book.active["A1"] = "Prüfbericht"
    sheet = book.create_sheet("Metalle")
    for row in [
        ["Prüfbericht 26-0816"],
        [],
        ["Probe", "Entnahmedatum", "Blei", "Cadmium", "pH-Wert"],
        [None, None, "µg/l", "ng/l", "-"],
        ["Verfahren", None, "DIN EN ISO 17294-2", "DIN EN ISO 17294-2", "DIN EN ISO 10523"],
        ["A-1", dt.date(2026, 7, 14), 1.25, "<0,5", 7.1],
        ["A-2", dt.date(2026, 7, 15), "1,5", 12, 7.3],
    ]:
        sheet.append(row)
    book.save("units.xlsx")


def hidden():
    book = openpyxl.Workbook()
    sheet = book.active
    for row in [["Probe", "intern", "Parameter", "Messwert", "Einheit"], ["A-1", "x", "Pb", 1.5, "ng/L"],
                ["A-1", "x", "Cd", 9.9, "ng/L"], ["A-2", "x", "Pb", 2.5, "ng/L"]]:
        sheet.append(row)
    sheet.row_dimensions[3].hidden = True
    sheet.column_dimensions["B"].hidden = True
    book.save("hidden.xlsx")


def formula():
    """openpyxl stores formulas without results."""
    book = openpyxl.Workbook()
    sheet = book.active
    for row in [["Probe", "Parameter", "Messwert", "Einheit"], ["A-1", "Pb", 1.5, "ng/L"], ["A-1", "Cd", "=C2*2", "ng/L"]]:
        sheet.append(row)
    book.save("formula.xlsx")


def unicode_text():
    """Excel's "Unicode-Text": UTF-16 with mark, tabs; parameters down, samples across."""
    text("on_its_side.txt", [
        "Parameter\tEinheit\tSL-1/26\tSL-2/26",
        "Blei\tµg/l\t1,25\t<0,5",
        "Cadmium\tng/l\t12,5\t7",
        "Arsen\tµg/l\t0,8\t0,9",
    ], "utf-16")


def blocks():
    text("blocks.csv", [
        "Probe;Blei (µg/l);Cadmium (ng/l)",
        "SL-1/26;1,25;12,5",
        "SL-2/26;2,5;7",
        ";;",
        "Probe;Chlorid (mg/l);Sulfat (mg/l)",
        "SL-1/26;31,5;48",
        "SL-2/26;33;<1",
    ], "utf-8")


def isotopes():
    text("isotopes.csv", ["Sample;208Pb (LR);111Cd (LR);56Fe (MR)", ";ng/L;ng/L;ug/L", "A-1;1,5;0,25;12", "A-2;2,5;0,5;13"], "utf-8")


def water():
    """Alkalinity and hardness in the forms of the trade."""
    text("water.csv", [
        "Probe;Parameter;Ergebnis;Einheit",
        "A-1;Säurekapazität bis pH 4,3;4,85;mmol/l",
        "A-1;Hydrogencarbonat;296;mg/l",
        "A-1;Gesamthärte;15,7;°dH",
        "A-1;Karbonathärte;13,6;°dH",
        "A-1;Nitrat;12,5;mg/l",
        "A-2;Säurekapazität bis pH 4,3;4,9;mval/l",
        "A-2;Gesamthärte;280;mg/l CaCO3",
        "A-2;Alkalität;243;mg/l CaCO3",
    ], "utf-8")


def uncertain():
    text("uncertain.csv", [
        "Sample,Analyte,Result,Unit,U (%),MDL (ng/L),Date",
        "A-1,Pb,1.5,ug/L,10,50,07/14/2026",
        "A-1,Cd,ND,ug/L,,5,07/14/2026",
        "A-2,Pb,2.5,ug/L,8,50,07/03/2026",
    ], "utf-8")
    text("plus_minus.csv", ["Sample,Analyte,Result,Unit", "A-1,Pb,1.5 ± 0.2,ug/L", "A-2,Pb,2.0 ± 10 %,ug/L"], "utf-8")


for make in [german_excel, r_csv2, pandas_files, old_xls, units_under_headings, hidden, formula, unicode_text, blocks,
             isotopes, water, uncertain]:
    make()
