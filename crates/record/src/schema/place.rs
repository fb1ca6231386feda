//! Who, where, and what was prepared: people, wells, lots of bottles, acids, filters; what is known of sources. Declarations only: the words stand in [`schema`](super).

use super::Kind::{Integer, Real, Row, Text, Time, Word};
use super::column::{DAYS, DEG, M, ML, PG, PG_PB, UM};
use super::{BLAME, SOURCE_FACTS, Table, opt, req, since};
use crate::words::{Medium, SectionKind};

pub(super) const PERSON: Table = Table {
    name: "person",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "Who samples, measures, signs.",
    columns: &[req("name", Text, "Name"), opt("role", Text, "Role in the programme")],
};

pub(super) const SITE: Table = Table {
    name: "site",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "A place with wells.",
    columns: &[
        req("name", Text, "Name"),
        opt("description", Text, "In words"),
        opt("latitude_deg", Real, "WGS 84").unit(DEG).bound("latitude"),
        opt("longitude_deg", Real, "WGS 84").unit(DEG).bound("longitude"),
        opt("invented", Integer, "1: the site does not exist, its data are made up"),
    ],
};

pub(super) const WELL: Table = Table {
    name: "well",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "Wells, springs, spouts, river points.",
    columns: &[
        req("name", Text, "Name"),
        opt("site", Row("site"), "Where"),
        opt("description", Text, "In words"),
        opt("medium", Word(Medium::WORDS), "What it yields"),
        opt("pipe_material", Text, "Material the water meets last"),
        opt("flow_note", Text, "Flows always, shut between visits, pumped"),
        opt("elevation_m", Real, "Ground above sea level").unit(M),
        opt("latitude_deg", Real, "WGS 84").unit(DEG).bound("latitude"),
        opt("longitude_deg", Real, "WGS 84").unit(DEG).bound("longitude"),
        since(3, opt("overflows_to", Row("well"), "Stream that takes its overflow: a row of medium surface-water")),
    ],
};

pub(super) const WELL_SECTION: Table = Table {
    name: "well_section",
    key: &[],
    index: &["well"],
    from_files: true,
    about: "Casing and screen, from the mouth down.",
    columns: &[
        req("well", Row("well"), "Well"),
        req("from_m", Real, "Depth of its top").unit(M).zero_or_more(),
        req("to_m", Real, "Depth of its foot").unit(M).zero_or_more(),
        req("radius_m", Real, "Inner radius").unit(M).above_zero(),
        req("kind", Word(SectionKind::WORDS), "What it is"),
        opt("material", Text, "Material"),
    ],
};

pub(super) const LAYER: Table = Table {
    name: "layer",
    key: &[],
    index: &["well"],
    from_files: true,
    about: "Layer log.",
    columns: &[
        req("well", Row("well"), "Well"),
        req("from_m", Real, "Depth of its top").unit(M).zero_or_more(),
        req("to_m", Real, "Depth of its foot").unit(M).zero_or_more(),
        req("material", Text, "Rock or soil"),
    ],
};

pub(super) const LOT: Table = Table {
    name: "lot",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "Bottles cleaned together.",
    columns: &[
        req("name", Text, "Name"),
        opt("material", Text, "Bottle material"),
        opt("volume_mL", Real, "Nominal volume").unit(ML).above_zero().bound("bottle volume"),
        opt("cleaned_on", Time, "Day"),
        opt("steps", Text, "Washing steps in order"),
        opt("acid_days", Real, "Days in acid").unit(DAYS).zero_or_more(),
        opt("rinse", Text, "Last rinse"),
        opt("target_pg_Pb", Real, "Metal a blank of the lot may hold at most").unit(PG_PB),
    ],
};

pub(super) const ACID: Table = Table {
    name: "acid",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "Acid lots for preservation.",
    columns: &[req("name", Text, "Lot"), opt("kind", Text, "Acid and grade"), opt("opened_on", Time, "Day")],
};

pub(super) const FILTER: Table = Table {
    name: "filter",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "Filter lots.",
    columns: &[
        req("name", Text, "Lot"),
        req("pore_um", Real, "Pore size").unit(UM).above_zero(),
        opt("material", Text, "Material"),
    ],
};

pub(super) const LEAD_SOURCE: Table = Table {
    name: "lead_source",
    key: &["source", "ratio"],
    index: &[],
    from_files: true,
    about: "Isotope ratios of lead in known sources.",
    columns: &[
        since(3, req("source", Text, "The source: a pipe, gloves, road dust")),
        since(3, req("ratio", Text, "206/207 or 208/206, either way up")),
        since(3, req("value", Real, "The ratio")),
        since(3, opt("u", Real, "Its standard uncertainty, or the spread between pieces").zero_or_more()),
        since(3, req("origin", Text, "Where the figure is from: own measurement, publication, certificate")),
    ],
};

pub(super) const LOT_TARGET: Table = Table {
    name: "lot_target",
    key: &["lot", "analyte"],
    index: &[],
    from_files: true,
    about: "What a bottle of a lot may bring at most, metal by metal.",
    columns: &[
        since(BLAME, req("lot", Row("lot"), "Lot")),
        since(BLAME, req("analyte", Text, "Element")),
        since(BLAME, req("target_pg", Real, "Highest mass a bottle may bring").unit(PG)),
        since(BLAME, opt("why", Text, "Reason for the choice")),
    ],
};

pub(super) const SOURCE_FACT: Table = Table {
    name: "source_fact",
    key: &[],
    index: &[],
    from_files: true,
    about: "What is known of a source of metal before a trip: certificates, leach tests, dust, literature.",
    columns: &[
        since(BLAME, req("what", Word(SOURCE_FACTS), "What it is, with its unit")),
        since(BLAME, opt("analyte", Text, "Element; empty where it holds for all")),
        since(BLAME, opt("lot", Row("lot"), "Only for this lot of bottles")),
        since(BLAME, opt("acid", Row("acid"), "Only for this lot of acid")),
        since(BLAME, opt("material", Text, "Only for this material of pipe")),
        since(BLAME, opt("place", Text, "Only for this place: cabinet, open-air, room")),
        since(BLAME, req("value", Real, "Value")),
        since(BLAME, req("u", Real, "Its standard uncertainty").zero_or_more()),
        since(BLAME, req("source", Text, "Where it comes from")),
    ],
};

pub(super) const SIGNATURE: Table = Table {
    name: "signature",
    key: &["name", "analyte"],
    index: &[],
    from_files: true,
    about: "What sources of metal look like: relative amounts by mass.",
    columns: &[
        since(BLAME, req("name", Text, "Source: galvanised pipe, gloves")),
        since(BLAME, req("analyte", Text, "Element")),
        since(BLAME, req("amount", Real, "Relative amount by mass, any one unit for a signature")),
        since(BLAME, req("source", Text, "Where it comes from")),
    ],
};
