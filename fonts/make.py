"""Makes the fonts of this folder from Source Sans 3 (version 3.52, npm package `source-sans` 3.52.0).

    npm pack source-sans@3.52.0 && tar xzf source-sans-3.52.0.tgz
    pip install fonttools==4.68.0 brotli
    python fonts/make.py package/TTF fonts

Run once by hand; nothing in the build needs it. The licence (OFL 1.1) reserves the name "Source",
so the subsets carry a name of their own, "Limpid Text".

* `*.ttf`: Latin, Greek, Cyrillic, signs: for the PDF and for measuring text.
* `*.woff2`: Latin, Greek, signs: for the web page and for figures that stand alone.

Figures are tabular by default in this face (one width for 0 to 9), so no feature is asked for.
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

SIGNS = [
    *range(0x2010, 0x2028), 0x202F, 0x2030, 0x2032, 0x2033, 0x2039, 0x203A, 0x2044,
    *range(0x2070, 0x20A0), 0x20AC, 0x2113, 0x2116, 0x2122, 0x2126, 0x212E,
    *range(0x2150, 0x2160), *range(0x2190, 0x219A), 0x2202, 0x2206, 0x220F, 0x2211, 0x2212,
    0x2215, 0x2219, 0x221A, 0x221E, 0x222B, 0x2248, 0x2260, 0x2264, 0x2265,
    0x25A0, 0x25A1, 0x25B2, 0x25B3, 0x25BC, 0x25BD, 0x25C6, 0x25CA, 0x25CB, 0x25CF, 0x2610,
    0x2713, 0x2717,
]
WEB = [*range(0x20, 0x7F), *range(0xA0, 0x180), *range(0x370, 0x3FF), 0x2DA, 0x2D9, *SIGNS]
PAPER = [*WEB, *range(0x180, 0x250), *range(0x400, 0x530), *range(0x1E00, 0x1F00)]
STYLES = {"Regular": "Regular", "It": "Italic", "Semibold": "SemiBold"}


def make(source: Path, characters, target: Path, style: str, flavor=None):
    options = subset.Options()
    options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl", "liga", "case"]
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 13, 14, 16, 17]
    options.hinting = False
    options.notdef_outline = True
    font = TTFont(source, recalcTimestamp=False)
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=characters)
    subsetter.subset(font)
    # Family in IDs 1/2 with all three styles, so that every program finds them as one family.
    names = {1: "Limpid Text", 2: style, 4: f"Limpid Text {style}", 6: f"LimpidText-{style}",
             3: f"LimpidText-{style};subset of Source Sans 3.052", 16: "Limpid Text", 17: style}
    for record in list(font["name"].names):
        if record.nameID in names:
            record.string = names[record.nameID]
        elif record.nameID in (7, 8, 9, 11):
            font["name"].removeNames(nameID=record.nameID)
    for key, text in names.items():
        font["name"].setName(text, key, 3, 1, 0x409)
    font.flavor = flavor
    font.save(target)


def main():
    source, target = Path(sys.argv[1]), Path(sys.argv[2])
    for name, style in STYLES.items():
        file = source / f"SourceSans3-{name}.ttf"
        make(file, PAPER, target / f"LimpidText-{style}.ttf", style)
        make(file, WEB, target / f"LimpidText-{style}.woff2", style, "woff2")


main()
