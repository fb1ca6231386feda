//! What was judged, taken out, signed, corrected and said. Declarations only: the words stand in [`schema`](super).

use super::Kind::{Blob, Integer, Json, Real, Row, Text, Unit, Word};
use super::{MESSAGES, ONE_NAME, PROFILES, SAYINGS, Table, UNDO, opt, req, since};
use crate::words::{ProfileBasis, VerdictWord, Weight};

pub(super) const CHECK_RULE: Table = Table {
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
            Word(Weight::WORDS),
            "decisive: not met means rejected; missing means provisional. warning: not met means provisional until signed",
        ),
        opt("limit_value", Real, "The programme's own limit for the check").unit_in("limit_unit"),
        opt("limit_unit", Unit, "Its unit"),
        opt("why", Text, "Reason for the choice"),
    ],
};

pub(super) const FINDING: Table = Table {
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
        since(MESSAGES, opt("message", Json, "Identity and arguments of what the sentence says")),
    ],
};

pub(super) const VERDICT: Table = Table {
    name: "verdict",
    key: &["subject", "revision"],
    index: &[],
    from_files: false,
    about: "What the findings add up to, with its history.",
    columns: &[
        req("subject", Row("subject"), "What it speaks of"),
        req("revision", Integer, "Counts up with each assessment"),
        req("verdict", Word(VerdictWord::WORDS), "The word"),
        req("reasons", Json, "Checks that decided"),
        req("engine", Text, "Version of the program"),
        since(
            PROFILES,
            opt("profile", Text, "Profile of checks that it was judged by; empty: the programme's table alone"),
        ),
    ],
};

pub(super) const EXCLUSION: Table = Table {
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
};

pub(super) const SIGN_OFF: Table = Table {
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
};

pub(super) const AMENDMENT: Table = Table {
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
};

pub(super) const COMPOUND: Table = Table {
    name: "compound",
    key: &["name"],
    index: &[],
    from_files: true,
    about: "Organic compounds as a laboratory names them, with the number it states.",
    columns: &[
        since(SAYINGS, req("name", Text, "Name, as in the results")),
        since(SAYINGS, opt("cas", Text, "CAS number as stated")),
    ],
};

pub(super) const LOCAL_LIMIT: Table = Table {
    name: "local_limit",
    key: &[],
    index: &[],
    from_files: true,
    about: "Limits that a person adds beside the published table.",
    columns: &[
        since(SAYINGS, req("analyte", Text, "Element or compound")),
        since(SAYINGS, req("unit", Text, "Unit with its basis: mg/L as N")),
        since(SAYINGS, req("authority", Text, "Who set it")),
        since(SAYINGS, req("limit_high", Real, "Upper end").unit_in("unit")),
        since(SAYINGS, opt("limit_low", Real, "Lower end of a range").unit_in("unit")),
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
};

pub(super) const STATEMENT: Table = Table {
    name: "statement",
    key: &["name", "revision"],
    index: &[],
    from_files: false,
    about: "Sentences with their answer, as they stood when they were checked.",
    columns: &[
        since(SAYINGS, req("name", Text, "Name")),
        since(SAYINGS, req("revision", Integer, "Counts up when it is checked anew")),
        since(
            SAYINGS,
            req("kind", Text, "ratio, difference, threshold, absence, reference, ranking, change, analogy, age"),
        ),
        since(SAYINGS, req("fields", Json, "The sentence as fields; a result stands by its name")),
        since(SAYINGS, req("answer", Word(&["supported", "contradicted", "cannot tell"]), "The answer")),
        since(SAYINGS, req("checked", Json, "Answer, interval, sentences, warnings, sources")),
        since(SAYINGS, opt("despite", Text, "Why provisional or rejected results were taken")),
        since(SAYINGS, req("head", Text, "Head of the record when it was checked")),
        since(SAYINGS, req("person", Row("person"), "Who")),
        since(SAYINGS, req("engine", Text, "Version of the program")),
    ],
};

pub(super) const STATEMENT_USE: Table = Table {
    name: "statement_use",
    key: &[],
    index: &["statement"],
    from_files: false,
    about: "The results that a statement stands on, as they stood.",
    columns: &[
        since(SAYINGS, req("statement", Row("statement"), "Statement")),
        since(SAYINGS, req("role", Text, "Place in the fields")),
        since(SAYINGS, req("result", Row("result"), "Result, with its revision")),
        since(SAYINGS, opt("verdict", Word(VerdictWord::WORDS), "Its verdict then")),
        since(SAYINGS, req("amount", Json, "What was taken of it")),
    ],
};

pub(super) const CHECK_PROFILE: Table = Table {
    name: "check_profile",
    key: &["name"],
    index: &[],
    from_files: false,
    about: "Profiles of checks that a person chose or made: rules that stand in place of the programme's table.",
    columns: &[
        since(PROFILES, req("name", Text, "Name")),
        since(
            PROFILES,
            req("basis", Word(ProfileBasis::WORDS), "Which results it may judge, by how they were come by"),
        ),
        since(PROFILES, req("why", Text, "Reason for having it")),
        since(PROFILES, opt("person", Row("person"), "Who")),
    ],
};

pub(super) const PROFILE_RULE: Table = Table {
    name: "profile_rule",
    key: &["profile", "check_name", "revision"],
    index: &[],
    from_files: false,
    about: "Rules of the profiles; what a profile does not name the programme's table decides.",
    columns: &[
        since(PROFILES, req("profile", Row("check_profile"), "Profile")),
        since(PROFILES, req("check_name", Text, "As stage.what")),
        since(PROFILES, req("revision", Integer, "Counts up with each change")),
        since(PROFILES, req("weight", Word(Weight::WORDS), "As in the programme's table")),
        since(PROFILES, opt("limit_value", Real, "The limit of the check").unit_in("limit_unit")),
        since(PROFILES, opt("limit_unit", Unit, "Its unit")),
        since(PROFILES, opt("why", Text, "Reason for the rule")),
    ],
};

pub(super) const PROFILE_CHOICE: Table = Table {
    name: "profile_choice",
    key: &[],
    index: &[],
    from_files: false,
    about: "Which profile judges which results; of several rows for the same results the last counts.",
    columns: &[
        since(PROFILES, opt("profile", Row("check_profile"), "Profile; empty: the programme's table again")),
        since(PROFILES, opt("laboratory", Text, "Only results of this laboratory")),
        since(PROFILES, opt("analyte", Text, "Only this element or quantity")),
        since(PROFILES, req("why", Text, "Reason")),
        since(PROFILES, opt("person", Row("person"), "Who")),
    ],
};

pub(super) const UNDONE: Table = Table {
    name: "undone",
    key: &["undone_event"],
    index: &[],
    from_files: false,
    about: "Acts that were taken back: the rows that they brought stay here and no longer count.",
    columns: &[
        since(UNDO, req("undone_event", Integer, "Number of the act that was taken back")),
        since(UNDO, req("hash", Blob, "Hash of its event")),
        since(UNDO, req("why", Text, "Reason")),
        since(UNDO, req("person", Row("person"), "Who")),
    ],
};

pub(super) const UNDONE_ROWS: Table = Table {
    name: "undone_rows",
    key: &["table_name", "first_row"],
    index: &[],
    from_files: false,
    about: "Which rows no longer count: those that the act brought and those that only speak of them.",
    columns: &[
        since(UNDO, req("undone", Row("undone"), "The act that was taken back")),
        since(UNDO, req("table_name", Text, "Table")),
        since(UNDO, req("first_row", Integer, "First row")),
        since(UNDO, req("last_row", Integer, "Last row; those between count no longer either")),
    ],
};

pub(super) const SAME_NAME: Table = Table {
    name: "same_name",
    key: &[],
    index: &[],
    from_files: false,
    about: "Names that a person said to be one: how a file's name is read, or two names on record made one.",
    columns: &[
        since(ONE_NAME, req("kind", Text, "What it is a name of: analyte, fraction, quantity, or a table")),
        since(ONE_NAME, req("written", Text, "The name as written, or the old one")),
        since(ONE_NAME, req("stands_for", Text, "The name that it is read as")),
        since(ONE_NAME, opt("mapping", Text, "Only in files read by this mapping; empty: everywhere")),
        since(ONE_NAME, opt("why", Text, "Reason")),
        since(ONE_NAME, opt("person", Row("person"), "Who")),
    ],
};
