//! What a visit did and read: bottles, readings, fills, counts, custody, field sheets. Declarations only: the words stand in [`schema`](super).

use super::Kind::{Integer, Json, Real, Row, Text, Time, Unit, Word};
use super::column::{CELSIUS, DAYS, KG_L, L, L_MIN, MIN, ML, PG, SECONDS, UM};
use super::{BEARS, BLAME, FIELD, PROFILES, Table, opt, req, since};
use crate::words::{AirPlace, BottleKind, Seal};

pub(super) const TRIP: Table = Table {
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
};

pub(super) const BOTTLE: Table = Table {
    name: "bottle",
    key: &["label"],
    index: &["trip", "well"],
    from_files: true,
    about: "Every bottle, samples and blanks alike; for reported results, every sample.",
    columns: &[
        req("label", Text, "Label"),
        req("kind", Word(BottleKind::WORDS), "What it is"),
        opt("trip", Row("trip"), "Trip"),
        opt("well", Row("well"), "Well"),
        opt("lot", Row("lot"), "Lot"),
        opt("fraction", Text, "unfiltered, or pore size as \"0.45 um\", or filtered where the pore size is not stated"),
        opt("filter", Row("filter"), "Filter lot"),
        opt("volume_mL", Real, "Volume of water in the bottle").unit(ML).above_zero().bound("bottle volume"),
        opt("u_volume_mL", Real, "Its standard uncertainty").unit(ML).zero_or_more(),
        opt("filled_at", Time, "When filled"),
        opt("sampler", Row("person"), "Who filled it"),
        opt("acid", Row("acid"), "Acid lot"),
        opt("acid_mL", Real, "Acid added").unit(ML).zero_or_more(),
        opt("acidified_at", Time, "When"),
        opt("acidified_place", Text, "Where"),
        opt("openings", Integer, "Times opened").zero_or_more(),
        opt("cabinet_min", Real, "Minutes open in the cabinet").unit(MIN).zero_or_more(),
        opt("open_air_min", Real, "Minutes open outdoors").unit(MIN).zero_or_more(),
        opt("parent", Row("bottle"), "The sample that this is a duplicate or a spike of"),
        opt("set_name", Text, "Replicate set, where the source names one"),
        opt("note", Text, "Remark of the field"),
        since(
            BLAME,
            opt("acid_days", Real, "Days the bottle stood in acid, where it differs from its lot")
                .unit(DAYS)
                .zero_or_more(),
        ),
        since(BLAME, opt("bags", Integer, "Bags around it").zero_or_more()),
        since(BLAME, opt("cabinet", Text, "Cabinet or glove box that it was opened in")),
        since(
            BLAME,
            opt("flow_L_min", Real, "Flow of the well while it was filled, where it was set for this bottle")
                .unit(L_MIN)
                .zero_or_more(),
        ),
        since(BLAME, opt("u_flow_L_min", Real, "Its standard uncertainty").unit(L_MIN).zero_or_more()),
        since(
            BEARS,
            opt("u_acid_mL", Real, "Standard uncertainty of the acid added; empty: a twentieth of it")
                .unit(ML)
                .zero_or_more(),
        ),
        since(
            BEARS,
            opt("density_kg_L", Real, "Density of the water, where it was measured")
                .unit(KG_L)
                .above_zero()
                .bound("density"),
        ),
        since(BEARS, opt("u_density_kg_L", Real, "Its standard uncertainty").unit(KG_L).zero_or_more()),
    ],
};

pub(super) const SPIKE: Table = Table {
    name: "spike",
    key: &[],
    index: &["bottle"],
    from_files: true,
    about: "Metal added on purpose.",
    columns: &[
        req("bottle", Row("bottle"), "Spiked bottle"),
        req("analyte", Text, "Element"),
        req("added_pg", Real, "Mass added").unit(PG).zero_or_more(),
        req("u_pg", Real, "Its standard uncertainty").unit(PG).zero_or_more(),
    ],
};

pub(super) const ALIQUOT: Table = Table {
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
        opt("volume_mL", Real, "Volume").unit(ML).above_zero().bound("bottle volume"),
        opt("laboratory", Text, "Who received it"),
        opt("sent_at", Time, "Sent"),
        opt("received_at", Time, "Received"),
        opt("condition", Text, "As received"),
    ],
};

pub(super) const FIELD_READING: Table = Table {
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
        req("value", Real, "Value").unit_in("unit"),
        opt("u", Real, "Standard uncertainty").unit_in("unit").zero_or_more(),
        req("unit", Unit, "Unit"),
    ],
};

pub(super) const FILL: Table = Table {
    name: "fill",
    key: &[],
    index: &["well"],
    from_files: true,
    about: "Timed fills for the flow.",
    columns: &[
        opt("trip", Row("trip"), "Trip"),
        req("well", Row("well"), "Well"),
        opt("at", Time, "When"),
        req("volume_L", Real, "Volume to the mark").unit(L).above_zero().bound("fill volume"),
        opt("u_volume_L", Real, "Standard uncertainty of the mark").unit(L).zero_or_more(),
        req("seconds", Real, "Time").unit(SECONDS).above_zero().bound("fill time"),
    ],
};

pub(super) const AIR_COUNT: Table = Table {
    name: "air_count",
    key: &[],
    index: &["trip"],
    from_files: true,
    about: "Particle counts.",
    columns: &[
        opt("trip", Row("trip"), "Trip"),
        opt("well", Row("well"), "At which well"),
        req("place", Word(AirPlace::WORDS), "Where"),
        opt("at", Time, "When"),
        req("size_um", Real, "Particles of at least this size").unit(UM).above_zero(),
        req("count", Integer, "Counted").zero_or_more(),
        req("volume_L", Real, "Air drawn").unit(L).above_zero().bound("air volume"),
    ],
};

pub(super) const CUSTODY: Table = Table {
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
        opt("temperature_C", Real, "In the box").unit(CELSIUS).bound("box temperature"),
        opt("seal", Word(Seal::WORDS), "Seal"),
    ],
};

pub(super) const FIELD_SHEET: Table = Table {
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
        since(FIELD, req("utc_offset_min", Integer, "The phone's offset from UTC at its first entry").unit(MIN)),
        since(FIELD, req("add_days", Real, "What was added to the phone's times").unit(DAYS)),
    ],
};

pub(super) const FIELD_ENTRY: Table = Table {
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
};

pub(super) const LAB_REQUEST: Table = Table {
    name: "lab_request",
    key: &["name"],
    index: &["trip"],
    from_files: false,
    about: "Requests that went to a laboratory with the bottles of a trip under blind labels.",
    columns: &[
        since(PROFILES, req("name", Text, "Name")),
        since(PROFILES, req("trip", Row("trip"), "Trip")),
        since(PROFILES, opt("laboratory", Text, "To whom")),
        since(PROFILES, req("seed", Integer, "Where the random labels and the order were drawn from")),
        since(PROFILES, opt("person", Row("person"), "Who drew them")),
    ],
};

pub(super) const BLIND_LABEL: Table = Table {
    name: "blind_label",
    key: &["label"],
    index: &["request"],
    from_files: false,
    about: "Labels that say nothing of the bottle, in the order asked of the run.",
    columns: &[
        since(PROFILES, req("label", Text, "Blind label")),
        since(PROFILES, req("request", Row("lab_request"), "Request")),
        since(PROFILES, req("bottle", Row("bottle"), "Bottle that it stands for")),
        since(PROFILES, req("position", Integer, "Place in the order").above_zero()),
    ],
};

pub(super) const UNBLINDING: Table = Table {
    name: "unblinding",
    key: &[],
    index: &["request"],
    from_files: false,
    about: "When a request's labels were opened: by a person, or by a file that came back with them.",
    columns: &[
        since(PROFILES, req("request", Row("lab_request"), "Request")),
        since(PROFILES, opt("raw_file", Row("raw_file"), "File that came back with blind labels")),
        since(PROFILES, opt("why", Text, "Reason, where a person opened them")),
        since(PROFILES, opt("person", Row("person"), "Who")),
    ],
};
