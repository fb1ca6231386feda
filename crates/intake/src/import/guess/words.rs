//! The words by which a guess knows a file: headings by field, words in a value's cell, signs before a number, names of
//! what is measured. Words of the trade in English and German as laboratories print them (from memory); names of
//! substances are those of the catalogues.

/// Headings in lower case without signs, by field, the likelier first.
pub(super) const HEADINGS: &[(&str, &[&str])] = &[
    (
        "bottle.label",
        &[
            "bottle",
            "bottle label",
            "label",
            "flasche",
            "probe",
            "probenbezeichnung",
            "probebezeichnung",
            "probenname",
            "proben nr",
            "probennr",
            "probe nr",
            "probennummer",
            "proben id",
            "probenid",
            "sample",
            "sample id",
            "sampleid",
            "sample name",
            "sample no",
            "sample number",
            "client sample id",
            "field id",
            "bezeichnung",
            "labornummer",
            "labor nr",
            "lab id",
        ],
    ),
    ("bottle.kind", &["kind", "bottle kind", "sample kind", "probenart"]),
    (
        "bottle.filled_at",
        &[
            "filled at",
            "entnahme",
            "entnahmedatum",
            "probenahme",
            "probenahmedatum",
            "probenahmezeitpunkt",
            "datum der probenahme",
            "sampling date",
            "sample date",
            "date sampled",
            "date collected",
            "collected",
            "collection date",
            "sampled",
            "datum",
            "date",
        ],
    ),
    (
        "well.name",
        &[
            "well",
            "brunnen",
            "messstelle",
            "quelle",
            "entnahmestelle",
            "probenahmestelle",
            "bohrung",
            "station",
            "location",
        ],
    ),
    (
        "result.analyte",
        &[
            "analyte",
            "analyt",
            "parameter",
            "element",
            "stoff",
            "substanz",
            "messgröße",
            "kenngröße",
            "komponente",
            "constituent",
            "parm short nm",
            "parm nm",
            "determinand",
            "compound",
            "isotope",
            "isotop",
        ],
    ),
    (
        "result.value",
        &[
            "value",
            "messwert",
            "ergebnis",
            "wert",
            "result",
            "messergebnis",
            "analysenwert",
            "result va",
            "konzentration",
            "concentration",
            "conc",
            "gehalt",
        ],
    ),
    ("result.unit", &["unit", "units", "einheit", "einh", "maßeinheit", "unit cd", "dimension"]),
    ("result.fraction", &["fraction", "fraktion"]),
    ("result.remark", &["remark", "qualifier", "flag", "qual", "vorzeichen", "remark cd", "kennzeichen", "kennung"]),
    (
        "result.u",
        &[
            "u",
            "uncertainty",
            "standard uncertainty",
            "standardunsicherheit",
            "messunsicherheit",
            "unsicherheit",
            "mu",
            "erweiterte messunsicherheit",
            "erw messunsicherheit",
            "expanded uncertainty",
            "u95",
            "±",
        ],
    ),
    (
        "result.quantification_limit",
        &[
            "quantification limit",
            "bg",
            "bestimmungsgrenze",
            "loq",
            "lq",
            "limit of quantification",
            "limit of quantitation",
            "pql",
        ],
    ),
    (
        "result.detection_limit",
        &[
            "detection limit",
            "nwg",
            "nachweisgrenze",
            "lod",
            "mdl",
            "dl",
            "ld",
            "limit of detection",
            "method detection limit",
        ],
    ),
    ("result.critical_value", &["critical value", "erkennungsgrenze", "lc"]),
    ("result.reporting_limit", &["reporting limit", "berichtsgrenze", "rl", "mrl", "reporting level"]),
    (
        "result.method",
        &[
            "method",
            "verfahren",
            "methode",
            "analysenverfahren",
            "prüfverfahren",
            "norm",
            "analytical method",
            "method code",
            "meth cd",
        ],
    ),
    ("result.laboratory", &["laboratory", "labor", "lab", "prüflabor", "untersuchungsstelle"]),
    ("result.isotopes", &["isotopes"]),
    ("result.resolution", &["resolution", "auflösung"]),
];

/// Headings of the time beside a date.
pub(super) const CLOCKS: [&str; 6] = ["time", "uhrzeit", "zeit", "entnahmezeit", "sampling time", "probenahmezeit"];

/// Words in a value's cell and what they mean wherever they are used. "n.b." is none of them: it is "nicht bestimmt" to
/// one laboratory and "nicht bestimmbar" to another.
pub(super) const KNOWN_WORDS: &[(&str, &[&str])] = &[
    (
        "not-detected",
        &[
            "n.n.",
            "n. n.",
            "n.n",
            "nn",
            "N.N.",
            "ND",
            "nd",
            "n.d.",
            "N.D.",
            "n. d.",
            "not detected",
            "nicht nachgewiesen",
            "nicht nachweisbar",
            "<RL",
            "< RL",
            "<MRL",
            "< MRL",
        ],
    ),
    (
        "below-quantification-limit",
        &["<BG", "< BG", "<LOQ", "< LOQ", "<Bestimmungsgrenze", "< Bestimmungsgrenze", "u.d.B."],
    ),
    ("below-detection-limit", &["<NWG", "< NWG", "<LOD", "< LOD", "<MDL", "< MDL", "<DL", "< DL", "BDL", "u.d.N."]),
    ("missing", &["", "-", "--", "–", "n.a.", "n. a.", "N/A", "NA", "n/a", "k.A.", "k. A.", "nicht beauftragt"]),
];

/// Signs before a number.
pub(super) const SIGNS: [(&str, &str); 5] =
    [("<", "below"), (">", "above"), ("~", "estimated"), ("ca.", "estimated"), ("E", "estimated")];

/// Substances with their names in the catalogues.
pub(super) const SUBSTANCES: [&str; 42] = [
    "Ag", "Al", "As", "B", "Ba", "Be", "Br", "Ca", "Cd", "Cl", "Co", "Cr", "Cr-VI", "Cu", "F", "Fe", "Hg", "K", "Li",
    "Mg", "Mn", "Mo", "NH3", "NH4", "NO2", "NO3", "Na", "Ni", "PO4", "Pb", "S--II", "SO4", "Sb", "Se", "SiO2", "Sr",
    "Tl", "U", "V", "W", "Zn", "atrazine",
];

/// What else is measured in water, as laboratories name it, in lower case; what an acid capacity is measured to stays in
/// the name, and a hardness of carbonate is no alkalinity: its degree counts alkaline earths.
pub(super) const QUANTITIES: &[(&str, &[&str])] = &[
    ("pH", &["ph", "ph wert", "ph value"]),
    ("temperature", &["temperatur", "temperature", "wassertemperatur", "water temperature"]),
    (
        "conductivity",
        &["leitfähigkeit", "elektrische leitfähigkeit", "el leitfähigkeit", "conductivity", "electrical conductivity"],
    ),
    ("dissolved oxygen", &["sauerstoff", "gelöster sauerstoff", "dissolved oxygen", "oxygen, dissolved"]),
    (
        "alkalinity (KS4.3)",
        &[
            "säurekapazität bis ph 4,3",
            "säurekapazität bis ph 4.3",
            "säurekapazität ph 4,3",
            "säurekapazität (ks 4,3)",
            "säurekapazität ks 4,3",
            "säurekapazität ks4,3",
            "säurekapazität",
            "ks 4,3",
            "ks4,3",
            "ks 4.3",
            "ks4.3",
        ],
    ),
    ("alkalinity", &["alkalinity", "alkalität", "total alkalinity", "gesamtalkalität", "m wert", "m-wert"]),
    ("HCO3", &["hydrogencarbonat", "hydrogenkarbonat", "bicarbonate", "hydrogen carbonate", "hco3-"]),
    ("CO3", &["carbonat", "karbonat", "carbonate", "co3--"]),
    ("hardness", &["gesamthärte", "härte", "hardness", "total hardness", "summe erdalkalien"]),
    ("carbonate hardness", &["karbonathärte", "carbonathärte", "carbonate hardness"]),
];

/// What stands beside a name without changing the substance: the part of the water, the form that was measured.
pub(super) const BESIDE: [&str; 12] = [
    "gesamt",
    "total",
    "gelöst",
    "geloest",
    "dissolved",
    "filtriert",
    "filtered",
    "unfiltriert",
    "unfiltered",
    "ges",
    "diss",
    "tot",
];
