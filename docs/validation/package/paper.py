"""Looks at a PDF of Limpid with pikepdf (on qpdf), poppler's programs, page-validation and pdfua.

    apt-get install poppler-utils
    validators/bin/pip install pikepdf page-validation pdfua
    validators/bin/python docs/validation/package/paper.py report.pdf

What the file says of itself (PDF/A-3a, PDF/UA-1, title, author, language, record), whether its structure is whole
(`qpdf --check` as pikepdf has it), by how many rules of PDF/UA-1 and PDF/A-3a two checkers find it so, its tags, headings of rows and columns, what is attached, whether poppler complains of
anything, and whether `pdftotext -layout` gives the rows of its tables back as lines.
"""
import collections
import importlib.metadata
import re
import subprocess
import sys

import page as conformance
import pikepdf

path = sys.argv[1]
faults = 0


def told(what, found, fault=False):
    global faults
    faults += bool(fault)
    print(f"{'FAULT' if fault else 'ok':5}  {what}: {found}")


pdf = pikepdf.open(path)
problems = pdf.check_pdf_syntax() if hasattr(pdf, "check_pdf_syntax") else pdf.check()
told(f"pikepdf {pikepdf.__version__}, qpdf's check", problems or "nothing", problems)
with pdf.open_metadata() as meta:
    says = {k: meta.get(k) for k in ("pdfaid:part", "pdfaid:conformance", "pdfuaid:part", "dc:title", "dc:creator", "dc:language", "pdf:Keywords")}
told("says of itself", says, (says["pdfaid:part"], says["pdfaid:conformance"], says["pdfuaid:part"]) != ("3", "A", "1") or not says["dc:title"])
root = pdf.Root
told("language, outline, output intent", (str(root.get("/Lang")), "/Outlines" in root, "/OutputIntents" in root), "/Lang" not in root)
told("MarkInfo", {str(k): v for k, v in root.MarkInfo.items()}, not root.MarkInfo.get("/Marked"))

tags, scopes = collections.Counter(), collections.Counter()
rows = []


def walk(node, row=None):
    if isinstance(node, pikepdf.Array):
        for k in node:
            walk(k, row)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        kind = str(node.S)
        tags[kind] += 1
        if kind == "/TR":
            row = []
            rows.append(row)
        elif kind in ("/TH", "/TD") and row is not None:
            row.append(kind)
        attributes = node.get("/A", [])
        for a in attributes if isinstance(attributes, pikepdf.Array) else [attributes]:
            if isinstance(a, pikepdf.Dictionary) and "/Scope" in a:
                scopes[str(a.Scope)] += 1
        if "/K" in node:
            walk(node.K, row)


sys.setrecursionlimit(100_000)
walk(root.StructTreeRoot.K)
told("tags", {k: tags[k] for k in sorted(tags)})
told("headings", dict(scopes), tags["/Table"] and not scopes["/Row"])
figures = []


def alt(node):
    if isinstance(node, pikepdf.Array):
        for k in node:
            alt(k)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        if str(node.S) == "/Figure":
            figures.append("/Alt" in node)
        if "/K" in node:
            alt(node.K)


alt(root.StructTreeRoot.K)
told("pictures with words", f"{sum(figures)} of {len(figures)}", not all(figures))
fonts = {}
for page in pdf.pages:
    for name, font in (page.get("/Resources", {}).get("/Font", {}) or {}).items():
        base = font.get("/DescendantFonts", [font])[0]
        fonts[str(base.get("/BaseFont"))] = any(k in base.get("/FontDescriptor", {}) for k in ("/FontFile", "/FontFile2", "/FontFile3"))
told("fonts inside", fonts, not all(fonts.values()))
told("attached", [(n, len(f.get_file().read_bytes())) for n, f in pdf.attachments.items()])

for profile in ("ua1", "3a"):
    r = conformance.validate_pdf(path, profile=profile)
    failed = [(f.rule_id, f.message) for f in r.failures]
    told(f"page-validation {importlib.metadata.version('page-validation')}, {profile}", f"{r.rules.passed} of {r.rules.total} rules {failed[:5]}", failed)
pdfua = subprocess.run([sys.executable.replace("python", "pdfua"), "check", path], capture_output=True, text=True)
told("pdfua", " ".join(pdfua.stdout.split("\n", 3)[1:3]).strip(), pdfua.returncode)
info = subprocess.run(["pdfinfo", path], capture_output=True, text=True)
told("pdfinfo complains of", info.stderr.strip() or "nothing", info.stderr.strip())
text = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True)
lines = [re.split(r"\s{2,}", line.strip()) for line in text.stdout.splitlines()]
told("pdftotext complains of", text.stderr.strip() or "nothing", text.stderr.strip())
told("pdftotext, lines with three cells and more", sum(len(c) >= 3 for c in lines), tags["/Table"] and not any(len(c) >= 3 for c in lines))
sys.exit(faults > 0)
