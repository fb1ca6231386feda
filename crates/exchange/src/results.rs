//! The results as people use them: the newest revision of each, with what may be said of it, its
//! uncertainty and unit, limits, blank, method, verdict, and the raw file that it came from. Written
//! as CSV and as Parquet with the same columns.
//!
//! A non-detect has no `value`: `censor` says `below` and `limit` below what. Where the program
//! derived it, `net` keeps the net value, negative ones too.

use crate::Error;
use crate::standing::{COUNTS_AS, Standing, ucum};
use crate::tables::{Field, Readable, RowOut};
use assessment::results::{Left, Listed, Lists};
use quantity::Amount;
use record::model::{Bears, ResultRow, VerdictWord};
use record::store::{Filter, Store, StoreError};
use record::words::State;

/// The table.
pub const RESULTS: Readable = Readable {
    name: "results",
    key: "result",
    about: "Every result, newest revision, with value or limit, uncertainty, unit, blank, verdict and origin.",
    fields: &[
        Field::text("result", "bottle:analyte:isotope@resolution:fraction#revision").always(),
        Field::text("bottle", "Label of the bottle").always(),
        Field::text("kind", "What the bottle is").always(),
        Field::text("well", "Well"),
        Field::text("trip", "Trip"),
        Field::text("filled_at", "When the bottle was filled, local time of the site unless an offset is given"),
        Field::text("analyte", "Element or quantity").always(),
        Field::text("isotopes", "As 206+207+208; an empty text where the laboratory does not say").always(),
        Field::text("resolution", "Mass resolution: low, medium, high; an empty text where it does not apply").always(),
        Field::text("fraction", "unfiltered, a pore size, or filtered").always(),
        Field::word("state", State::WORDS, "Detection state").always(),
        Field::word("censor", &["equal", "below", "above"], "Whether `value` holds, or `limit` below or above which")
            .always(),
        Field::in_unit("value", "Value, where one may be said"),
        Field::in_unit("u", "Its standard uncertainty"),
        Field::number("k", "1", "Coverage factor of the 95 % interval value ± k·u"),
        Field::number("dof", "1", "Degrees of freedom of u; nothing where infinite or not said"),
        Field::in_unit("limit", "Where censored: the limit, or the upper bound of what was not detected"),
        Field::text(
            "unit_ucum",
            "UCUM code of the unit of value, u, limit, blank and all limits; what stands in braces says as what it is told",
        ),
        Field::in_unit("net", "Net value of a derived result, also where not detected"),
        Field::in_unit("u_net", "Its standard uncertainty"),
        Field::in_unit("gross", "Before the blank was taken off"),
        Field::in_unit("u_gross", "Its standard uncertainty"),
        Field::in_unit("blank", "The blank taken off"),
        Field::in_unit("u_blank", "Its standard uncertainty"),
        Field::in_unit("critical_value", "L_C, net scale: detected above"),
        Field::in_unit("detection_limit", "L_D, net scale"),
        Field::in_unit("quantification_limit", "L_Q"),
        Field::in_unit("reporting_limit", "The laboratory's own"),
        Field::number(
            "water_share",
            "1",
            "The part of the measured metal that came with the water; `water_share_is` says what that is",
        ),
        Field::number("water_share_low", "1", "Lower end of its 95 % interval"),
        Field::number("water_share_high", "1", "Upper end of its 95 % interval"),
        Field::word(
            "water_share_is",
            LEFT,
            "Whose it is: no blank sees the pipe, and the air only where it was opened",
        ),
        Field::word(
            "verdict",
            VerdictWord::WORDS,
            "What the findings add up to; nothing for blanks and other evidence",
        ),
        Field::text("reasons", "Checks that decided it, with semicolons"),
        Field::text("laboratory", "Who measured"),
        Field::text("method", "Method as the laboratory names it"),
        Field::text("remark", "The laboratory's remark as written"),
        Field::text(
            "raw_file",
            "Path in this package of the raw file that it was read from, or of those that its counts came in",
        ),
        Field::whole("file_row", "Row in it"),
        Field::whole("event", "Act that wrote it: `events.number`").always(),
        Field::text("engine", "Version of the program that derived it").always(),
        Field::word(
            "bears",
            Bears::WORDS,
            "A value, or an upper bound (`limit`): metal of a stage that no blank met is in it",
        )
        .always(),
        Field::text("profile", "Profile of checks that gave the verdict; nothing: the programme's table of checks"),
        Field::whole(
            "row",
            "Row (`id`) of `record/result.csv`; a derived result's steps: `record/derivation.csv`, `result`",
        )
        .always(),
        Field::text("subject", "What its verdict and findings speak of: `findings.subject`").always(),
        Field::whole("revision", "Counts up with each value that took the place of an earlier one").always(),
        Field::word(
            "counts_as",
            COUNTS_AS,
            "Whether it may stand in a mean of the water: result; else an upper bound, evidence, excluded or rejected",
        )
        .always(),
        Field::text("excluded", "Its bottle or vial was taken out: by whom, when, why"),
        Field::text("amended", "What was corrected in it or its bottle: from, to, by whom, when, why"),
        Field::text("superseded", "Earlier revisions that it takes the place of: value, by which act, by whom, when"),
    ],
    refers: &[("bottle", "bottles", "label"), ("event", "events", "number")],
};

/// Words for the part that came with the water.
const LEFT: &[&str] = &[
    Left::ALL[0].words(),
    Left::ALL[1].words(),
    Left::ALL[2].words(),
    Left::ALL[3].words(),
    Left::ALL[4].words(),
    Left::ALL[5].words(),
    Left::ALL[6].words(),
    Left::ALL[7].words(),
];

/// One result with what the listing leaves out.
pub struct One {
    /// As listed.
    pub listed: Listed,
    /// Row of the record.
    pub id: i64,
    /// Act that wrote it.
    pub event: i64,
    /// Bottle.
    pub bottle: i64,
    /// Measurand.
    pub measurand: i64,
    /// Vial, where it was derived from counts.
    pub vial: Option<i64>,
    /// Raw file.
    pub file: Option<i64>,
    /// What its verdict speaks of.
    pub subject: String,
    file_row: Option<i64>,
    dof: Option<f64>,
    revision: i64,
}

/// Calls `each` with the newest revision of every result.
///
/// # Errors
/// The store cannot be read; what `each` answers.
pub fn each(store: &Store, mut each: impl FnMut(One) -> Result<(), Error>) -> Result<(), Error> {
    let lists = Lists::of(store)?;
    let mut failed = None;
    let read = store.each(&Filter::all().latest(), |r: ResultRow| {
        each(one(&lists, r)).map_err(|e| {
            failed = Some(e);
            StoreError::UnknownTable { table: "result".into() }
        })
    });
    match failed {
        Some(e) => Err(e),
        None => Ok(read?),
    }
}

fn one(lists: &Lists, r: ResultRow) -> One {
    let (id, event, bottle, measurand, vial) = (r.id, r.event, r.bottle_id, r.measurand_id, r.vial_id);
    let (file, file_row, dof, revision) = (r.raw_file_id, r.file_row, r.dof, r.revision);
    let subject = r.subject.clone();
    One { listed: lists.listed(r), id, event, bottle, measurand, vial, file, subject, file_row, dof, revision }
}

/// Writes a result as a row.
///
/// # Errors
/// What takes it fails.
pub fn row(out: &mut impl RowOut, one: &One, standing: &Standing) -> Result<(), Error> {
    let r = &one.listed;
    out.text(r.result.to_string().as_str())?;
    out.text(r.bottle.as_str())?;
    out.text(r.kind.word())?;
    out.text(r.well.as_deref())?;
    out.text(r.trip.as_deref())?;
    out.text(r.filled_at.as_deref())?;
    out.text(r.analyte.as_str())?;
    out.text(r.isotopes.as_str())?;
    out.text(r.resolution.as_str())?;
    out.text(r.fraction.as_str())?;
    out.text(r.state.word())?;
    let (censor, limit) = match &r.amount {
        // A laboratory that reports a non-detect without saying below what leaves no number at all, not even a limit.
        None => ("below", None),
        Some(Amount::Below(b)) => ("below", Some(b.limit)),
        Some(Amount::Above(b)) => ("above", Some(b.limit)),
        Some(_) => ("equal", None),
    };
    let value = |a: &Option<Amount>| a.as_ref().and_then(Amount::value);
    let u = |a: &Option<Amount>| a.as_ref().and_then(Amount::u);
    out.text(censor)?;
    out.number(value(&r.amount))?;
    out.number(u(&r.amount))?;
    out.number(r.coverage_k)?;
    out.number(one.dof)?;
    out.number(limit)?;
    out.text(r.amount.as_ref().map(|a| ucum(a.unit().ucum())).as_deref())?;
    for a in [&r.net, &r.gross, &r.blank] {
        out.number(value(a))?;
        out.number(u(a))?;
    }
    out.number(r.critical_value)?;
    out.number(r.detection_limit)?;
    out.number(r.quantification_limit)?;
    out.number(r.reporting_limit)?;
    let share = r.water_share;
    out.number(share.map(|s| s.share))?;
    out.number(share.map(|s| s.low))?;
    out.number(share.map(|s| s.high))?;
    out.text(share.map(|s| s.is.words()))?;
    out.text(r.verdict.map(VerdictWord::word))?;
    match r.reasons.as_slice() {
        [] => out.text(None)?,
        [reason] => out.text(reason.as_str())?,
        reasons => out.text(reasons.join("; ").as_str())?,
    }
    out.text(r.laboratory.as_deref())?;
    out.text(r.method.as_deref())?;
    out.text(r.remark.as_deref())?;
    out.text(standing.file(one))?;
    out.whole(one.file_row)?;
    out.whole(one.event)?;
    out.text(r.engine.as_str())?;
    out.text(r.bears.word())?;
    out.text(r.profile.as_deref())?;
    out.whole(one.id)?;
    out.text(one.subject.as_str())?;
    out.whole(one.revision)?;
    out.text(standing.counts_as(one))?;
    out.text(standing.excluded(one))?;
    out.text(standing.amended(one).as_deref())?;
    out.text(standing.superseded(one).as_deref())?;
    out.end()
}
