//! The record as tables: one declaration from which the store makes its tables, the importer
//! knows what a column may hold, `verify` knows what to digest, and the data dictionary of the
//! open data package is printed. Every table has `id` and `event` (the act that wrote the row)
//! beside what is declared here. Rows are only ever added: a correction is a new row of
//! `amendment`, an exclusion a row of `exclusion`, a newer result a higher `revision`.
//!
//! Identifiers are given by people (well `SL-2`, bottle label), never random. Units stand in the
//! column's name, or in a unit column beside the value.

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Text as written.
    Text,
    /// One of a few words.
    Word(&'static [&'static str]),
    /// Whole number.
    Integer,
    /// Number.
    Real,
    /// Date or date and time, ISO 8601, local time of the site unless an offset is given.
    Time,
    /// A unit, kept as its UCUM code.
    Unit,
    /// JSON text.
    Json,
    /// Bytes.
    Blob,
    /// Row of another table; people and files write its name (its `key` columns).
    Row(&'static str),
}

/// One column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Name; carries the unit where there is one.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Whether a row may leave it out.
    pub required: bool,
    /// What it means, for the data dictionary.
    pub about: &'static str,
    /// Version of the schema that brought it. Columns are only ever added, at the end of their
    /// table: a row's digest names its columns by place.
    pub since: u32,
}

/// One table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Table {
    /// Name.
    pub name: &'static str,
    /// Columns that name a row among people: unique together. Empty: rows have no name.
    pub key: &'static [&'static str],
    /// Columns with an index of their own.
    pub index: &'static [&'static str],
    /// Whether a raw file may bring rows of it (else the program derives them).
    pub from_files: bool,
    /// What it holds.
    pub about: &'static str,
    /// Columns.
    pub columns: &'static [Column],
}

const fn req(name: &'static str, kind: Kind, about: &'static str) -> Column {
    Column { name, kind, required: true, about, since: 1 }
}

const fn opt(name: &'static str, kind: Kind, about: &'static str) -> Column {
    Column { name, kind, required: false, about, since: 1 }
}

const fn req_since(name: &'static str, kind: Kind, about: &'static str, since: u32) -> Column {
    Column { name, kind, required: true, about, since }
}

const fn opt_since(name: &'static str, kind: Kind, about: &'static str, since: u32) -> Column {
    Column { name, kind, required: false, about, since }
}

/// Version that brought what is known of sources, and what the bottles say of them.
const BLAME: u32 = 5;

/// What is known of a source of metal before a trip; each has its own unit.
pub const SOURCE_FACTS: &[&str] = &[
    "metal in air, ng/m3",
    "metal in dust, ug/g",
    "deposition velocity, m/s",
    "bottle mouth, cm2",
    "bottle wall, cm2",
    "metal in acid, pg/mL",
    "leach rate of bottle, pg/(cm2.d)",
    "handling, pg per opening",
    "leach rate of pipe, ng/(m2.min)",
];

/// The version that brought statements, local limits and compounds.
const SAYINGS: u32 = 6;

use Kind::{Blob, Integer, Json, Real, Row, Text, Time, Unit, Word};

/// Kinds of bottles.
pub const BOTTLE_KINDS: &[&str] = &[
    "sample",
    "duplicate",
    "field-blank",
    "trip-blank",
    "bottle-blank",
    "equipment-blank",
    "field-spike",
    "lab-spike",
    "reference-material",
];

/// Roles of a vial in a run.
pub const VIAL_ROLES: &[&str] = &[
    "calibration-blank",
    "standard",
    "procedural-blank",
    "bottle-blank",
    "trip-blank",
    "field-blank",
    "equipment-blank",
    "reference-material",
    "drift-check",
    "interference-check",
    "sample",
    "duplicate",
    "field-spike",
    "lab-spike",
];

const fn since(version: u32, column: Column) -> Column {
    Column { since: version, ..column }
}

/// All tables, in an order in which each refers to earlier ones only.
pub const TABLES: &[Table] = &[
    Table {
        name: "mapping",
        key: &["name", "version"],
        index: &[],
        from_files: false,
        about: "How the columns of a laboratory's file are to be read.",
        columns: &[
            req("name", Text, "Name"),
            req("version", Integer, "Counts up with each change"),
            req("toml", Text, "The mapping as written"),
            req("hash", Blob, "BLAKE3 of the text"),
        ],
    },
    Table {
        name: "raw_file",
        key: &["name", "hash", "mapping"],
        index: &["hash"],
        from_files: false,
        about: "Files as they came, whole.",
        columns: &[
            req("name", Text, "File name without folder"),
            req("hash", Blob, "BLAKE3 of the bytes"),
            req("size", Integer, "Bytes"),
            req("mapping", Row("mapping"), "How it was read"),
            opt("rows", Integer, "Data rows taken"),
        ],
    },
    Table {
        name: "raw_part",
        key: &["raw_file", "part"],
        index: &[],
        from_files: false,
        about: "The bytes of the files in order, in parts of at most 4 MiB.",
        columns: &[
            req("raw_file", Row("raw_file"), "File"),
            req("part", Integer, "Place in the file, from 0"),
            req("bytes", Blob, "The bytes"),
        ],
    },
    Table {
        name: "person",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Who samples, measures, signs.",
        columns: &[req("name", Text, "Name"), opt("role", Text, "Role in the programme")],
    },
    Table {
        name: "site",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "A place with wells.",
        columns: &[
            req("name", Text, "Name"),
            opt("description", Text, "In words"),
            opt("latitude_deg", Real, "WGS 84"),
            opt("longitude_deg", Real, "WGS 84"),
            opt("invented", Integer, "1: the site does not exist, its data are made up"),
        ],
    },
    Table {
        name: "well",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Wells, springs, spouts, river points.",
        columns: &[
            req("name", Text, "Name"),
            opt("site", Row("site"), "Where"),
            opt("description", Text, "In words"),
            opt("medium", Word(&["groundwater", "surface-water"]), "What it yields"),
            opt("pipe_material", Text, "Material the water meets last"),
            opt("flow_note", Text, "Flows always, shut between visits, pumped"),
            opt("elevation_m", Real, "Ground above sea level"),
            opt("latitude_deg", Real, "WGS 84"),
            opt("longitude_deg", Real, "WGS 84"),
            since(3, opt("overflows_to", Row("well"), "Stream that takes its overflow: a row of medium surface-water")),
        ],
    },
    Table {
        name: "well_section",
        key: &[],
        index: &["well"],
        from_files: true,
        about: "Casing and screen, from the mouth down.",
        columns: &[
            req("well", Row("well"), "Well"),
            req("from_m", Real, "Depth of its top"),
            req("to_m", Real, "Depth of its foot"),
            req("radius_m", Real, "Inner radius"),
            req("kind", Word(&["casing", "screen", "open"]), "What it is"),
            opt("material", Text, "Material"),
        ],
    },
    Table {
        name: "layer",
        key: &[],
        index: &["well"],
        from_files: true,
        about: "Layer log.",
        columns: &[
            req("well", Row("well"), "Well"),
            req("from_m", Real, "Depth of its top"),
            req("to_m", Real, "Depth of its foot"),
            req("material", Text, "Rock or soil"),
        ],
    },
    Table {
        name: "lot",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Bottles cleaned together.",
        columns: &[
            req("name", Text, "Name"),
            opt("material", Text, "Bottle material"),
            opt("volume_mL", Real, "Nominal volume"),
            opt("cleaned_on", Time, "Day"),
            opt("steps", Text, "Washing steps in order"),
            opt("acid_days", Real, "Days in acid"),
            opt("rinse", Text, "Last rinse"),
            opt("target_pg_Pb", Real, "Metal a blank of the lot may hold at most"),
        ],
    },
    Table {
        name: "acid",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Acid lots for preservation.",
        columns: &[req("name", Text, "Lot"), opt("kind", Text, "Acid and grade"), opt("opened_on", Time, "Day")],
    },
    Table {
        name: "filter",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Filter lots.",
        columns: &[req("name", Text, "Lot"), req("pore_um", Real, "Pore size"), opt("material", Text, "Material")],
    },
    Table {
        name: "trip",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "One sampling visit.",
        columns: &[
            req("name", Text, "Name"),
            req("starts", Time, "Start"),
            opt("ends", Time, "End"),
            opt("question", Text, "What the trip is to decide"),
            opt("weather", Text, "Weather"),
            opt("wind", Text, "Wind"),
            opt("dust", Text, "Dust"),
            opt("road_salt", Text, "Road salt"),
            opt("engines", Text, "Engines near by"),
            opt("persons", Text, "Who was there"),
        ],
    },
    Table {
        name: "bottle",
        key: &["label"],
        index: &["trip", "well"],
        from_files: true,
        about: "Every bottle, samples and blanks alike; for foreign data, every sample.",
        columns: &[
            req("label", Text, "Label"),
            req("kind", Word(BOTTLE_KINDS), "What it is"),
            opt("trip", Row("trip"), "Trip"),
            opt("well", Row("well"), "Well"),
            opt("lot", Row("lot"), "Lot"),
            opt(
                "fraction",
                Text,
                "unfiltered, or pore size as \"0.45 um\", or filtered where the pore size is not stated",
            ),
            opt("filter", Row("filter"), "Filter lot"),
            opt("volume_mL", Real, "Volume of water in the bottle"),
            opt("u_volume_mL", Real, "Its standard uncertainty"),
            opt("filled_at", Time, "When filled"),
            opt("sampler", Row("person"), "Who filled it"),
            opt("acid", Row("acid"), "Acid lot"),
            opt("acid_mL", Real, "Acid added"),
            opt("acidified_at", Time, "When"),
            opt("acidified_place", Text, "Where"),
            opt("openings", Integer, "Times opened"),
            opt("cabinet_min", Real, "Minutes open in the cabinet"),
            opt("open_air_min", Real, "Minutes open outdoors"),
            opt("parent", Row("bottle"), "The sample that this is a duplicate or a spike of"),
            opt("set_name", Text, "Replicate set, where the source names one"),
            opt("note", Text, "Remark of the field"),
            opt_since("acid_days", Real, "Days the bottle stood in acid, where it differs from its lot", BLAME),
            opt_since("bags", Integer, "Bags around it", BLAME),
            opt_since("cabinet", Text, "Cabinet or glove box that it was opened in", BLAME),
            opt_since(
                "flow_L_min",
                Real,
                "Flow of the well while it was filled, where it was set for this bottle",
                BLAME,
            ),
            opt_since("u_flow_L_min", Real, "Its standard uncertainty", BLAME),
        ],
    },
    Table {
        name: "spike",
        key: &[],
        index: &["bottle"],
        from_files: true,
        about: "Metal added on purpose.",
        columns: &[
            req("bottle", Row("bottle"), "Spiked bottle"),
            req("analyte", Text, "Element"),
            req("added_pg", Real, "Mass added"),
            req("u_pg", Real, "Its standard uncertainty"),
        ],
    },
    Table {
        name: "aliquot",
        key: &["name"],
        index: &["bottle"],
        from_files: true,
        about: "Parts of a bottle, as a tree.",
        columns: &[
            req("name", Text, "Name"),
            req("bottle", Row("bottle"), "Bottle"),
            opt("parent", Row("aliquot"), "Part of which aliquot"),
            opt("purpose", Text, "Split, archive, re-analysis"),
            opt("volume_mL", Real, "Volume"),
            opt("laboratory", Text, "Who received it"),
            opt("sent_at", Time, "Sent"),
            opt("received_at", Time, "Received"),
            opt("condition", Text, "As received"),
        ],
    },
    Table {
        name: "field_reading",
        key: &[],
        index: &["well", "trip"],
        from_files: true,
        about: "Readings at the well.",
        columns: &[
            opt("trip", Row("trip"), "Trip"),
            req("well", Row("well"), "Well"),
            opt("bottle", Row("bottle"), "Bottle filled at that moment"),
            req("at", Time, "When"),
            req("quantity", Text, "temperature, pH, Eh, dissolved oxygen, conductivity, pressure, head"),
            req("value", Real, "Value"),
            opt("u", Real, "Standard uncertainty"),
            req("unit", Unit, "Unit"),
        ],
    },
    Table {
        name: "fill",
        key: &[],
        index: &["well"],
        from_files: true,
        about: "Timed fills for the flow.",
        columns: &[
            opt("trip", Row("trip"), "Trip"),
            req("well", Row("well"), "Well"),
            opt("at", Time, "When"),
            req("volume_L", Real, "Volume to the mark"),
            opt("u_volume_L", Real, "Standard uncertainty of the mark"),
            req("seconds", Real, "Time"),
        ],
    },
    Table {
        name: "air_count",
        key: &[],
        index: &["trip"],
        from_files: true,
        about: "Particle counts.",
        columns: &[
            opt("trip", Row("trip"), "Trip"),
            opt("well", Row("well"), "At which well"),
            req("place", Word(&["cabinet", "open-air", "room"]), "Where"),
            opt("at", Time, "When"),
            req("size_um", Real, "Particles of at least this size"),
            req("count", Integer, "Counted"),
            req("volume_L", Real, "Air drawn"),
        ],
    },
    Table {
        name: "custody",
        key: &[],
        index: &["bottle", "trip"],
        from_files: true,
        about: "Where bottles were, and in whose hands.",
        columns: &[
            opt("bottle", Row("bottle"), "Bottle, or none for the whole box"),
            opt("trip", Row("trip"), "Trip"),
            req("at", Time, "When"),
            req("step", Text, "sealed, sent, received, acidified, opened"),
            opt("person", Row("person"), "Who"),
            opt("place", Text, "Where"),
            opt("temperature_C", Real, "In the box"),
            opt("seal", Word(&["whole", "broken"]), "Seal"),
        ],
    },
    Table {
        name: "recipe",
        key: &["name", "version"],
        index: &[],
        from_files: false,
        about: "How a run is reduced.",
        columns: &[
            req("name", Text, "Name"),
            req("version", Integer, "Counts up with each change"),
            req("toml", Text, "The recipe as written"),
            req("hash", Blob, "BLAKE3 of the text"),
        ],
    },
    Table {
        name: "run",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Instrument sessions.",
        columns: &[
            req("name", Text, "Name as in the laboratory"),
            opt("laboratory", Text, "Who measured"),
            opt("instrument", Text, "Kind of instrument"),
            opt("started_at", Time, "Start"),
            opt("recipe", Row("recipe"), "How it is reduced"),
        ],
    },
    Table {
        name: "vial",
        key: &["run", "position"],
        index: &["bottle"],
        from_files: true,
        about: "Vials of a run in time order.",
        columns: &[
            req("run", Row("run"), "Run"),
            req("position", Integer, "Place in the sequence"),
            req("name", Text, "Name as in the laboratory"),
            req("role", Word(VIAL_ROLES), "What it is for"),
            opt("bottle", Row("bottle"), "What is in it"),
            opt("aliquot", Row("aliquot"), "Or which part of a bottle"),
            req("minutes", Real, "Time since the start of the run"),
            opt("dilution", Real, "Mass after over mass before dilution; 1 where undiluted"),
            opt("u_dilution", Real, "Standard uncertainty"),
            opt("session", Integer, "Day of a run of several days"),
        ],
    },
    Table {
        name: "assigned",
        key: &["vial", "analyte"],
        index: &[],
        from_files: true,
        about: "Assigned values of standards, checks and reference materials.",
        columns: &[
            req("vial", Row("vial"), "Vial"),
            req("analyte", Text, "Element"),
            req("value", Real, "Value"),
            req("u", Real, "Standard uncertainty"),
            req("unit", Unit, "Unit"),
            opt("source", Text, "Certificate, dilution record"),
        ],
    },
    Table {
        name: "reading",
        key: &["vial", "isotope", "resolution", "mode"],
        index: &[],
        from_files: true,
        about: "Counts: one row a vial, isotope, resolution and detector mode.",
        columns: &[
            req("vial", Row("vial"), "Vial"),
            req("isotope", Text, "As Pb208"),
            req("resolution", Word(&["low", "medium", "high"]), "Mass resolution"),
            req("mode", Word(&["counting", "analogue"]), "Detector"),
            req("rates_cps", Json, "Replicates, counts per second, as an array"),
            req("integration_s", Real, "Time on the mass per replicate"),
            opt("raw_file", Row("raw_file"), "File"),
            opt("file_row", Integer, "Row in it"),
        ],
    },
    Table {
        name: "subject",
        key: &["key"],
        index: &[],
        from_files: false,
        about: "What a verdict speaks of: one result, or all results that stand on the same evidence.",
        columns: &[req("key", Text, "Result identity, or analyte, fraction and state of a foreign series")],
    },
    Table {
        name: "measurand",
        key: &["analyte", "isotopes", "resolution", "fraction"],
        index: &[],
        from_files: true,
        about: "What is measured: a result's identity is bottle, measurand and revision.",
        columns: &[
            req("analyte", Text, "Element or quantity"),
            req("isotopes", Text, "As 206+207+208; empty where the laboratory does not say"),
            req("resolution", Text, "low, medium, high; empty where it does not apply"),
            req("fraction", Text, "unfiltered, or pore size, or filtered"),
        ],
    },
    Table {
        name: "result",
        key: &["bottle", "measurand", "revision"],
        index: &[],
        from_files: true,
        about: "Every result. A laboratory's concentration and a reduced run stand here alike.",
        columns: &[
            req("bottle", Row("bottle"), "Bottle"),
            req("measurand", Row("measurand"), "What was measured"),
            req("revision", Integer, "Counts up when derived or reported anew"),
            opt("vial", Row("vial"), "Vial it was measured in"),
            req("censor", Word(&["=", "<", ">"]), "A value, or below or above the limit"),
            opt("value", Real, "Net value, also where not detected"),
            opt("u", Real, "Standard uncertainty"),
            opt("dof", Real, "Degrees of freedom; empty: infinite"),
            opt("limit_value", Real, "The limit where censored"),
            req("unit", Unit, "Unit"),
            req(
                "state",
                Word(&["quantified", "detected", "not-detected", "estimated", "above-range"]),
                "Detection state",
            ),
            opt("critical_value", Real, "L_C, net scale"),
            opt("detection_limit", Real, "L_D, net scale"),
            opt("quantification_limit", Real, "L_Q"),
            opt("upper_bound", Real, "One-sided 95 % upper bound of a net value not detected"),
            opt("gross", Real, "Before the blank was subtracted"),
            opt("u_gross", Real, "Its standard uncertainty"),
            opt("blank", Real, "The blank subtracted"),
            opt("u_blank", Real, "Its standard uncertainty"),
            opt("reporting_limit", Real, "As the laboratory states it"),
            opt("reporting_limit_kind", Text, "Its kind"),
            opt("remark", Text, "The laboratory's remark as written"),
            opt("laboratory", Text, "Who measured"),
            opt("method", Text, "Method as the laboratory names it"),
            opt("raw_file", Row("raw_file"), "File"),
            opt("file_row", Integer, "Row in it"),
            req("subject", Row("subject"), "What its verdict speaks of"),
            req("engine", Text, "Version of the program that derived it"),
        ],
    },
    Table {
        name: "derivation",
        key: &["result"],
        index: &[],
        from_files: false,
        about: "How a result came to be, down to the counts.",
        columns: &[
            req("result", Row("result"), "Result"),
            req("body", Json, "The graph: nodes with value, step, source, inputs; budget"),
        ],
    },
    Table {
        name: "share",
        key: &["result"],
        index: &[],
        from_files: false,
        about: "The water's share of the measured metal.",
        columns: &[
            req("result", Row("result"), "Result"),
            req("share", Real, "Share"),
            req("u", Real, "Standard uncertainty"),
            req("low", Real, "95 % interval"),
            req("high", Real, "95 % interval"),
            req("method", Text, "How"),
        ],
    },
    Table {
        name: "check_rule",
        key: &["check_name", "revision"],
        index: &[],
        from_files: true,
        about: "The programme's table of checks: which decide.",
        columns: &[
            req("check_name", Text, "As stage.what"),
            req("revision", Integer, "Counts up with each change"),
            req(
                "weight",
                Word(&["decisive", "warning", "note"]),
                "decisive: not met means rejected; missing means provisional. warning: not met means provisional until signed",
            ),
            opt("limit_value", Real, "The programme's own limit for the check"),
            opt("limit_unit", Unit, "Its unit"),
            opt("why", Text, "Reason for the choice"),
        ],
    },
    Table {
        name: "finding",
        key: &[],
        index: &["subject"],
        from_files: false,
        about: "Checks with their numbers.",
        columns: &[
            req("subject", Row("subject"), "What it speaks of"),
            req("revision", Integer, "Assessment that it belongs to"),
            req("check_name", Text, "As stage.what"),
            req("stage", Text, "Stage of the path"),
            req("outcome", Word(&["met", "not-met", "not-known"]), "What came of it"),
            req("sentence", Text, "In one plain sentence"),
            req("compared", Json, "The numbers"),
        ],
    },
    Table {
        name: "verdict",
        key: &["subject", "revision"],
        index: &[],
        from_files: false,
        about: "What the findings add up to, with its history.",
        columns: &[
            req("subject", Row("subject"), "What it speaks of"),
            req("revision", Integer, "Counts up with each assessment"),
            req("verdict", Word(&["accepted", "provisional", "rejected"]), "The word"),
            req("reasons", Json, "Checks that decided"),
            req("engine", Text, "Version of the program"),
        ],
    },
    Table {
        name: "exclusion",
        key: &[],
        index: &[],
        from_files: true,
        about: "Readings, vials or bottles that a person took out of the evidence, or back.",
        columns: &[
            opt("vial", Row("vial"), "Vial"),
            opt("bottle", Row("bottle"), "Bottle: all its vials"),
            opt("isotope", Text, "Only this isotope"),
            req("excluded", Integer, "1 out, 0 back in"),
            req("why", Text, "Reason"),
            req("person", Row("person"), "Who"),
        ],
    },
    Table {
        name: "sign_off",
        key: &[],
        index: &["subject"],
        from_files: true,
        about: "A person stands for a verdict.",
        columns: &[
            req("subject", Row("subject"), "Result or evidence"),
            req("person", Row("person"), "Who"),
            req("why", Text, "Reason"),
        ],
    },
    Table {
        name: "amendment",
        key: &[],
        index: &["table_name"],
        from_files: false,
        about: "Corrections: the row stays, its reading changes.",
        columns: &[
            req("table_name", Text, "Table"),
            req("row_id", Integer, "Row"),
            req("column_name", Text, "Column"),
            opt("old", Text, "As it stood"),
            opt("new", Text, "As it is read from now on"),
            req("why", Text, "Reason"),
            opt("person", Row("person"), "Who"),
        ],
    },
    Table {
        name: "lead_source",
        key: &["source", "ratio"],
        index: &[],
        from_files: true,
        about: "Isotope ratios of lead in known sources.",
        columns: &[
            since(3, req("source", Text, "The source: a pipe, gloves, road dust")),
            since(3, req("ratio", Text, "206/207 or 208/206, either way up")),
            since(3, req("value", Real, "The ratio")),
            since(3, opt("u", Real, "Its standard uncertainty, or the spread between pieces")),
            since(3, req("origin", Text, "Where the figure is from: own measurement, publication, certificate")),
        ],
    },
    Table {
        name: "field_sheet",
        key: &[],
        index: &["trip"],
        from_files: false,
        about: "Field sheets brought home, a row each file.",
        columns: &[
            since(FIELD, req("raw_file", Row("raw_file"), "The file as it came")),
            since(FIELD, req("trip", Row("trip"), "Trip")),
            since(FIELD, req("sheet", Text, "Which sheet")),
            since(FIELD, req("device", Text, "Which phone")),
            since(FIELD, req("exported_at", Text, "The phone's time when it was saved")),
            since(FIELD, req("utc_offset_min", Integer, "The phone's offset from UTC at its first entry")),
            since(FIELD, req("add_days", Real, "What was added to the phone's times")),
        ],
    },
    Table {
        name: "field_entry",
        key: &["sheet", "device", "n"],
        index: &["trip"],
        from_files: false,
        about: "Every entry of the field sheets as it was made, those taken back too.",
        columns: &[
            since(FIELD, req("sheet", Text, "Which sheet")),
            since(FIELD, req("device", Text, "Which phone")),
            since(FIELD, req("n", Integer, "The phone's counter")),
            since(FIELD, req("field_sheet", Row("field_sheet"), "The file that brought it first")),
            since(FIELD, req("trip", Row("trip"), "Trip")),
            since(FIELD, req("at", Text, "The phone's time with its offset from UTC")),
            since(FIELD, opt("who", Text, "Who held the phone")),
            since(FIELD, req("what", Text, "Kind of entry")),
            since(FIELD, req("body", Json, "The entry; of a photograph size and hash, its bytes stay in the file")),
        ],
    },
    Table {
        name: "lot_target",
        key: &["lot", "analyte"],
        index: &[],
        from_files: true,
        about: "What a bottle of a lot may bring at most, metal by metal.",
        columns: &[
            req_since("lot", Row("lot"), "Lot", BLAME),
            req_since("analyte", Text, "Element", BLAME),
            req_since("target_pg", Real, "Highest mass a bottle may bring", BLAME),
            opt_since("why", Text, "Reason for the choice", BLAME),
        ],
    },
    Table {
        name: "source_fact",
        key: &[],
        index: &[],
        from_files: true,
        about: "What is known of a source of metal before a trip: certificates, leach tests, dust, literature.",
        columns: &[
            req_since("what", Word(SOURCE_FACTS), "What it is, with its unit", BLAME),
            opt_since("analyte", Text, "Element; empty where it holds for all", BLAME),
            opt_since("lot", Row("lot"), "Only for this lot of bottles", BLAME),
            opt_since("acid", Row("acid"), "Only for this lot of acid", BLAME),
            opt_since("material", Text, "Only for this material of pipe", BLAME),
            opt_since("place", Text, "Only for this place: cabinet, open-air, room", BLAME),
            req_since("value", Real, "Value", BLAME),
            req_since("u", Real, "Its standard uncertainty", BLAME),
            req_since("source", Text, "Where it comes from", BLAME),
        ],
    },
    Table {
        name: "signature",
        key: &["name", "analyte"],
        index: &[],
        from_files: true,
        about: "What sources of metal look like: relative amounts by mass.",
        columns: &[
            req_since("name", Text, "Source: galvanised pipe, gloves", BLAME),
            req_since("analyte", Text, "Element", BLAME),
            req_since("amount", Real, "Relative amount by mass, any one unit for a signature", BLAME),
            req_since("source", Text, "Where it comes from", BLAME),
        ],
    },
    Table {
        name: "attributed",
        key: &["result", "revision"],
        index: &[],
        from_files: false,
        about: "The water's own concentration and share by all bottles fitted together, beside the plain subtraction.",
        columns: &[
            req_since("result", Row("result"), "Result", BLAME),
            req_since("revision", Integer, "Counts up with each fit that came out anew", BLAME),
            req_since("identifiable", Integer, "1: these bottles tell the water from the sources", BLAME),
            opt_since("water", Real, "The water's own concentration", BLAME),
            opt_since("u_water", Real, "Its standard uncertainty", BLAME),
            opt_since("water_low", Real, "95 % interval", BLAME),
            opt_since(
                "water_high",
                Real,
                "95 % interval; where it cannot be told, the most that the bottles allow",
                BLAME,
            ),
            req_since("unit", Unit, "Unit of the four", BLAME),
            opt_since("share", Real, "The water's share of the metal in the bottle", BLAME),
            opt_since("low", Real, "95 % interval of the share", BLAME),
            opt_since("high", Real, "95 % interval of the share", BLAME),
            req_since("scope", Text, "Which bottles were fitted", BLAME),
            req_since("method", Text, "How", BLAME),
            opt_since("remark", Text, "What cannot be told apart, and the blank that would tell", BLAME),
            req_since("engine", Text, "Version of the program", BLAME),
        ],
    },
    Table {
        name: "compound",
        key: &["name"],
        index: &[],
        from_files: true,
        about: "Organic compounds as a laboratory names them, with the number it states.",
        columns: &[
            since(SAYINGS, req("name", Text, "Name, as in the results")),
            since(SAYINGS, opt("cas", Text, "CAS number as stated")),
        ],
    },
    Table {
        name: "local_limit",
        key: &[],
        index: &[],
        from_files: true,
        about: "Limits that a person adds beside the published table.",
        columns: &[
            since(SAYINGS, req("analyte", Text, "Element or compound")),
            since(SAYINGS, req("unit", Text, "Unit with its basis: mg/L as N")),
            since(SAYINGS, req("authority", Text, "Who set it")),
            since(SAYINGS, req("limit_high", Real, "Upper end")),
            since(SAYINGS, opt("limit_low", Real, "Lower end of a range")),
            since(SAYINGS, opt("document", Text, "Where it stands")),
            since(SAYINGS, opt("edition", Text, "Which edition")),
            since(SAYINGS, opt("basis", Text, "as N, as NO3")),
            since(SAYINGS, opt("kind", Text, "Kind of limit")),
            since(SAYINGS, opt("valid_from", Text, "First day, YYYY-MM-DD")),
            since(SAYINGS, opt("valid_until", Text, "Last day")),
            since(SAYINGS, opt("provenance", Text, "seen or recalled")),
            since(SAYINGS, opt("date_read", Text, "The day it was read")),
            since(SAYINGS, opt("note", Text, "What else")),
        ],
    },
    Table {
        name: "statement",
        key: &["name", "revision"],
        index: &[],
        from_files: false,
        about: "Sentences with their answer, as they stood when they were checked.",
        columns: &[
            since(SAYINGS, req("name", Text, "Name")),
            since(SAYINGS, req("revision", Integer, "Counts up when it is checked anew")),
            since(SAYINGS, req("kind", Text, "ratio, analogy, absence, reference, ranking, change")),
            since(SAYINGS, req("fields", Json, "The sentence as fields; a result stands by its name")),
            since(SAYINGS, req("answer", Word(&["supported", "contradicted", "cannot tell"]), "The answer")),
            since(SAYINGS, req("checked", Json, "Answer, interval, sentences, warnings, sources")),
            since(SAYINGS, opt("despite", Text, "Why provisional or rejected results were taken")),
            since(SAYINGS, req("head", Text, "Head of the record when it was checked")),
            since(SAYINGS, req("person", Row("person"), "Who")),
            since(SAYINGS, req("engine", Text, "Version of the program")),
        ],
    },
    Table {
        name: "statement_use",
        key: &[],
        index: &["statement"],
        from_files: false,
        about: "The results that a statement stands on, as they stood.",
        columns: &[
            since(SAYINGS, req("statement", Row("statement"), "Statement")),
            since(SAYINGS, req("role", Text, "Place in the fields")),
            since(SAYINGS, req("result", Row("result"), "Result, with its revision")),
            since(SAYINGS, opt("verdict", Word(&["accepted", "provisional", "rejected"]), "Its verdict then")),
            since(SAYINGS, req("amount", Json, "What was taken of it")),
        ],
    },
];

/// Version of the schema that brought the field sheets.
const FIELD: u32 = 4;

impl Table {
    /// Version of the schema that brought the table.
    pub fn since(&self) -> u32 {
        self.columns.iter().map(|c| c.since).min().unwrap_or(1)
    }

    /// Place of a column.
    pub fn place(&self, column: &str) -> Option<usize> {
        self.columns.iter().position(|c| c.name == column)
    }
}

/// A table by name.
pub fn table(name: &str) -> Option<&'static Table> {
    TABLES.iter().find(|t| t.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_refer_to_earlier_tables_or_themselves() {
        for (i, t) in TABLES.iter().enumerate() {
            for c in t.columns {
                if let Kind::Row(other) = c.kind {
                    assert!(TABLES[..=i].iter().any(|e| e.name == other), "{}.{} → {other}", t.name, c.name);
                }
            }
            for k in t.key.iter().chain(t.index) {
                assert!(t.columns.iter().any(|c| c.name == *k), "{}.{k}", t.name);
            }
            assert!(t.columns.is_sorted_by_key(|c| c.since), "{}: a new column stands at the end", t.name);
            assert!(t.columns.len() < 250, "{}", t.name);
        }
    }
}
