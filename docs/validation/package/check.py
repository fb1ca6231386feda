"""Validates a data package of Limpid with the standard validators of the formats it speaks.

    python3 -m venv validators
    validators/bin/pip install frictionless roc-validator prov pyarrow pandas jsonschema
    limpid export sallow-levels/sallow-levels.sqlite --out exported
    npm pack ro-crate && tar xzf ro-crate-*.tgz package/lib/context.json    # the crate's words, for work without network
    validators/bin/python docs/validation/package/check.py exported package/lib/context.json

Frictionless Data Package and Table Schema: frictionless (structure, types, constraints, primary and
foreign keys, sizes and hashes). RO-Crate 1.2: roc-validator. PROV-JSON: prov. Parquet: pyarrow,
compared cell by cell with results.csv. Sums: hashlib. SensorThings: every entity by `sensorthings.py`
beside this file. Needs network only to install the validators; no test of the project runs this.
"""
import hashlib
import json
import pathlib
import sys

import frictionless
import pandas
import prov
import prov.model
import pyarrow
import pyarrow.parquet
import rdflib

import rocrate
import sensorthings

package = pathlib.Path(sys.argv[1])
faults = 0


def told(what, version, figures, fault=False):
    global faults
    faults += fault
    print(f"{'FAULT' if fault else 'ok':5}  {what}, {version}: {figures}")


report = frictionless.validate(str(package / "datapackage.json"))
errors = [(t.name, e.type, e.note) for t in report.tasks for e in t.errors] + [("package", e.type, e.note) for e in report.errors]
rows = sum(t.stats.get("rows") or 0 for t in report.tasks)
told("Data Package", f"frictionless {frictionless.__version__}", f"{len(report.tasks)} resources, {rows} rows, {len(errors)} errors {errors[:5]}", bool(errors))

rocrate_faults, skipped = rocrate.check(package, sys.argv[2] if len(sys.argv) > 2 else None)
told("RO-Crate 1.2", f"roc-validator {rocrate.VERSION}", f"requirements: {len(rocrate_faults)} faults {rocrate_faults[:3]}{skipped}", bool(rocrate_faults))
if len(sys.argv) > 2:
    # The specification wants the published words referred to; those enclosed say the same without network.
    enclosed, both = rocrate.statements(package, sys.argv[2])
    told("RO-Crate without network", f"rdflib {rdflib.__version__}", f"{len(enclosed)} statements by the enclosed words, {len(enclosed ^ both)} otherwise by the published ones", enclosed != both)

document = prov.model.ProvDocument.deserialize(str(package / "provenance.json"), format="json")
records = list(document.get_records())
kinds = {}
for r in records:
    kinds[r.get_type().localpart] = kinds.get(r.get_type().localpart, 0) + 1
ids = {str(r.identifier) for r in records if r.is_element()}
dangling = {str(v) for r in records if r.is_relation() for _, v in r.formal_attributes if v is not None and str(v) not in ids}
told("PROV-JSON", f"prov {prov.__version__}", f"{kinds}, {len(dangling)} names without an element {sorted(dangling)[:3]}", bool(dangling))

table = pyarrow.parquet.read_table(package / "parquet/results.parquet").to_pandas()
text = pandas.read_csv(package / "results.csv", keep_default_na=False, na_values=[], dtype=str)
differs = 0
for name in text.columns:
    for a, b in zip(text[name], table[name]):
        if a == "":
            same = b is None or b != b
        elif isinstance(b, str):
            same = (a[1:] if a.startswith("'") else a) == b
        else:
            same = float(a) == float(b)
        differs += not same
told("Parquet", f"pyarrow {pyarrow.__version__}", f"{table.shape[0]} rows, {table.shape[1]} columns, {differs} cells differ from results.csv", differs > 0)

wrong = 0
lines = (package / "SHA256SUMS").read_text().splitlines()
for line in lines:
    listed, path = line.split("  ", 1)
    wrong += hashlib.sha256((package / path).read_bytes()).hexdigest() != listed
told("Sums", "hashlib", f"{len(lines)} files, {wrong} differ from SHA256SUMS", wrong > 0)

counts, wrong = sensorthings.check(json.loads((package / "observations.json").read_text()))
told("SensorThings", "JSON Schema of this folder", f"{counts}, {len(wrong)} faults {wrong[:3]}", bool(wrong))
sys.exit(faults > 0)
