//! What an instrument's run counted, and the results. Declarations only: the words stand in [`schema`](super).

use super::Kind::{Integer, Json, Real, Row, Text, Time, Unit, Word};
use super::column::{CPS, MINUTES, PG, S};
use super::{BEARS, BLAME, PROFILES, Table, opt, req, since};
use crate::words::{
    AccountingPart, AccountingTold, Answer, AssignedSide, Bears, Censor, Mode, QualityKind, Resolution, State, VialRole,
};

pub(super) const RUN: Table = Table {
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
};

pub(super) const VIAL: Table = Table {
    name: "vial",
    key: &["run", "position"],
    index: &["bottle"],
    from_files: true,
    about: "Vials of a run in time order.",
    columns: &[
        req("run", Row("run"), "Run"),
        req("position", Integer, "Place in the sequence").above_zero(),
        req("name", Text, "Name as in the laboratory"),
        req("role", Word(VialRole::WORDS), "What it is for"),
        opt("bottle", Row("bottle"), "What is in it"),
        opt("aliquot", Row("aliquot"), "Or which part of a bottle"),
        req("minutes", Real, "Time since the start of the run").unit(MINUTES).zero_or_more(),
        opt("dilution", Real, "Mass after over mass before dilution; 1 where undiluted").dilution(),
        opt("u_dilution", Real, "Standard uncertainty").zero_or_more(),
        opt("session", Integer, "Day of a run of several days"),
    ],
};

pub(super) const ASSIGNED: Table = Table {
    name: "assigned",
    key: &["vial", "analyte"],
    index: &[],
    from_files: true,
    about: "Assigned values of standards, checks and reference materials.",
    columns: &[
        req("vial", Row("vial"), "Vial"),
        req("analyte", Text, "Element"),
        req("value", Real, "Value").unit_in("unit"),
        req("u", Real, "Standard uncertainty").unit_in("unit").zero_or_more(),
        req("unit", Unit, "Unit"),
        opt("source", Text, "Certificate, dilution record"),
        since(BEARS, opt("stock", Text, "Name of the stock that it was made of; values of one stock err together")),
        since(
            BEARS,
            opt(
                "assigned_side",
                Word(AssignedSide::WORDS),
                "Where the vial was diluted: whether the value stands before the dilution or after it",
            ),
        ),
    ],
};

pub(super) const READING: Table = Table {
    name: "reading",
    key: &["vial", "isotope", "resolution", "mode"],
    index: &[],
    from_files: true,
    about: "Counts: one row a vial, isotope, resolution and detector mode.",
    columns: &[
        req("vial", Row("vial"), "Vial"),
        req("isotope", Text, "As Pb208"),
        req("resolution", Word(Resolution::WORDS), "Mass resolution"),
        req("mode", Word(Mode::WORDS), "Detector"),
        req("rates_cps", Json, "Replicates, counts per second, as an array").unit(CPS),
        req("integration_s", Real, "Time on the mass per replicate").unit(S).above_zero(),
        opt("raw_file", Row("raw_file"), "File"),
        opt("file_row", Integer, "Row in it"),
    ],
};

pub(super) const SUBJECT: Table = Table {
    name: "subject",
    key: &["key"],
    index: &[],
    from_files: false,
    about: "What a verdict speaks of: one result, or all results that stand on the same evidence.",
    columns: &[req("key", Text, "Result identity, or analyte, fraction and state of a reported series")],
};

pub(super) const MEASURAND: Table = Table {
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
};

pub(super) const RESULT: Table = Table {
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
        req("censor", Word(Censor::WORDS), "A value, or below or above the limit"),
        opt("value", Real, "Net value, also where not detected").unit_in("unit"),
        opt("u", Real, "Standard uncertainty").unit_in("unit").zero_or_more(),
        opt("dof", Real, "Degrees of freedom; empty: infinite").above_zero(),
        opt("limit_value", Real, "The limit where censored").unit_in("unit"),
        req("unit", Unit, "Unit"),
        req("state", Word(State::WORDS), "Detection state"),
        opt("critical_value", Real, "L_C, net scale").unit_in("unit").zero_or_more(),
        opt("detection_limit", Real, "L_D, net scale").unit_in("unit").zero_or_more(),
        opt("quantification_limit", Real, "L_Q").unit_in("unit").zero_or_more(),
        opt("upper_bound", Real, "One-sided 95 % upper bound of a net value not detected").unit_in("unit"),
        opt("gross", Real, "Before the blank was subtracted").unit_in("unit"),
        opt("u_gross", Real, "Its standard uncertainty").unit_in("unit"),
        opt("blank", Real, "The blank subtracted").unit_in("unit"),
        opt("u_blank", Real, "Its standard uncertainty").unit_in("unit"),
        opt("reporting_limit", Real, "As the laboratory states it").unit_in("unit").zero_or_more(),
        opt("reporting_limit_kind", Text, "Its kind"),
        opt("remark", Text, "The laboratory's remark as written"),
        opt("laboratory", Text, "Who measured"),
        opt("method", Text, "Method as the laboratory names it"),
        opt("raw_file", Row("raw_file"), "File"),
        opt("file_row", Integer, "Row in it"),
        req("subject", Row("subject"), "What its verdict speaks of"),
        req("engine", Text, "Version of the program that derived it"),
        since(
            BEARS,
            opt("bears", Word(Bears::WORDS), "A value, or an upper bound: metal of a stage that no blank met is in it"),
        ),
    ],
};

pub(super) const DERIVATION: Table = Table {
    name: "derivation",
    key: &["result"],
    index: &[],
    from_files: false,
    about: "How a result came to be, down to the counts.",
    columns: &[
        req("result", Row("result"), "Result"),
        req("body", Json, "The graph: nodes with value, step, source, inputs; budget"),
    ],
};

pub(super) const SHARE: Table = Table {
    name: "share",
    key: &["result"],
    index: &[],
    from_files: false,
    about: "The water's share of the measured metal.",
    columns: &[
        req("result", Row("result"), "Result"),
        req("share", Real, "Share"),
        req("u", Real, "Standard uncertainty").zero_or_more(),
        req("low", Real, "95 % interval"),
        req("high", Real, "95 % interval"),
        req("method", Text, "How"),
    ],
};

pub(super) const ATTRIBUTED: Table = Table {
    name: "attributed",
    key: &["result", "revision"],
    index: &[],
    from_files: false,
    about: "The water's own concentration and share by all bottles fitted together, beside the plain subtraction.",
    columns: &[
        since(BLAME, req("result", Row("result"), "Result")),
        since(BLAME, req("revision", Integer, "Counts up with each fit that came out anew")),
        since(BLAME, req("identifiable", Integer, "1: these bottles tell the water from the sources")),
        since(BLAME, opt("water", Real, "The water's own concentration").unit_in("unit")),
        since(BLAME, opt("u_water", Real, "Its standard uncertainty").unit_in("unit")),
        since(BLAME, opt("water_low", Real, "95 % interval").unit_in("unit")),
        since(
            BLAME,
            opt("water_high", Real, "95 % interval; where it cannot be told, the most that the bottles allow")
                .unit_in("unit"),
        ),
        since(BLAME, req("unit", Unit, "Unit of the four")),
        since(BLAME, opt("share", Real, "The water's share of the metal in the bottle")),
        since(BLAME, opt("low", Real, "95 % interval of the share")),
        since(BLAME, opt("high", Real, "95 % interval of the share")),
        since(BLAME, req("scope", Text, "Which bottles were fitted")),
        since(BLAME, req("method", Text, "How")),
        since(BLAME, opt("remark", Text, "What cannot be told apart, and the blank that would tell")),
        since(BLAME, req("engine", Text, "Version of the program")),
    ],
};

pub(super) const ACCOUNTING: Table = Table {
    name: "accounting",
    key: &["result", "part", "revision"],
    index: &[],
    from_files: false,
    about: "Whose metal is in a bottle: one sum, a row a part, and a row for what was found.",
    columns: &[
        since(BEARS, req("result", Row("result"), "Result")),
        since(BEARS, req("part", Word(AccountingPart::WORDS), "Part, or all that was found")),
        since(BEARS, req("revision", Integer, "Counts up with each accounting that came out anew")),
        since(
            BEARS,
            req("told", Word(AccountingTold::WORDS), "How the part is told; of all that was found how the sum stands"),
        ),
        since(
            BEARS,
            opt(
                "told_with",
                Word(AccountingPart::WORDS),
                "The part that holds its metal, where it is not told by itself",
            ),
        ),
        since(BEARS, opt("value_pg", Real, "Metal in the bottle").unit(PG)),
        since(
            BEARS,
            opt("u_pg", Real, "Its standard uncertainty; of all that was found U, 95 %").unit(PG).zero_or_more(),
        ),
        since(BEARS, opt("low_pg", Real, "95 % interval").unit(PG)),
        since(BEARS, opt("high_pg", Real, "95 % interval").unit(PG)),
        since(BEARS, opt("share", Real, "Share of what was found")),
        since(BEARS, opt("u_share", Real, "Its standard uncertainty").zero_or_more()),
        since(BEARS, opt("low", Real, "95 % interval of the share")),
        since(BEARS, opt("high", Real, "95 % interval of the share")),
        since(BEARS, opt("sentence", Text, "Why it is not told, and the blank or bottle that would tell")),
        since(BEARS, opt("message", Json, "What the sentence says, as identity and arguments")),
        since(BEARS, req("engine", Text, "Version of the program")),
    ],
};

pub(super) const LABORATORY_QUALITY: Table = Table {
    name: "laboratory_quality",
    key: &[],
    index: &[],
    from_files: true,
    about: "What a laboratory says of its own quality: accreditation, blanks, recoveries, duplicates, control charts; checks of a meter.",
    columns: &[
        since(PROFILES, req("laboratory", Text, "Laboratory, as its results name it; or the meter")),
        since(PROFILES, opt("method", Text, "Method as the laboratory names it; empty: all of its methods")),
        since(PROFILES, opt("analyte", Text, "Element or quantity; empty: all of the method")),
        since(PROFILES, req("kind", Word(QualityKind::WORDS), "What the row says")),
        since(PROFILES, opt("from_day", Text, "First day, YYYY-MM-DD, on which bottles were filled that it speaks of")),
        since(
            PROFILES,
            opt("until_day", Text, "Last such day; empty: that day alone, for accreditation and charts until now"),
        ),
        since(PROFILES, opt("bottle", Row("bottle"), "Or: it speaks of the results of this bottle")),
        since(PROFILES, opt("answer", Word(Answer::WORDS), "Accredited, in control")),
        since(PROFILES, opt("value", Real, "Blank, recovery, first of two, or what the meter read").unit_in("unit")),
        since(PROFILES, opt("below", Real, "Nothing was found above this").unit_in("unit").zero_or_more()),
        since(PROFILES, opt("second", Real, "Second of two values").unit_in("unit")),
        since(PROFILES, opt("expected", Real, "What should have been found").unit_in("unit")),
        since(PROFILES, opt("unit", Unit, "Unit of the numbers")),
        since(PROFILES, opt("note", Text, "Report, batch, certificate")),
    ],
};
