//! The tables of the open data package: results with everything beside them, findings, bottles,
//! events, and the data dictionary of the whole record.

use crate::package::{ExportCell, ExportColumn, ExportTable, csv};
use programme::Error;
use programme::results;
use programme::schema::TABLES;
use programme::store::{Filter, Store};
use quantity::Amount;

/// Files of the package: name and bytes.
///
/// # Errors
/// The store cannot be read.
pub fn export(store: &Store) -> Result<Vec<(String, Vec<u8>)>, Error> {
    let tables =
        [results_table(store)?, findings_table(store)?, bottles_table(store)?, events_table(store)?, dictionary()];
    tables
        .iter()
        .map(|t| {
            let text = csv(t).map_err(|e| Error::Unfit {
                what: format!("table {}", t.name),
                found: e.to_string(),
                expected: "as many cells as columns".into(),
            })?;
            Ok((format!("{}.csv", t.name), text.into_bytes()))
        })
        .collect()
}

fn column(name: &str, unit: &str) -> ExportColumn {
    ExportColumn { name: name.into(), unit: unit.into() }
}

fn text(t: impl Into<String>) -> ExportCell {
    ExportCell::Text(t.into())
}

fn maybe(t: Option<&String>) -> ExportCell {
    t.map_or(ExportCell::Empty, |t| text(t.clone()))
}

fn number(x: Option<f64>) -> ExportCell {
    x.filter(|v| v.is_finite()).map_or(ExportCell::Empty, ExportCell::Number)
}

fn results_table(store: &Store) -> Result<ExportTable, Error> {
    let names = [
        "result",
        "bottle",
        "kind",
        "well",
        "trip",
        "filled_at",
        "analyte",
        "isotopes",
        "resolution",
        "fraction",
        "state",
        "censor",
        "value",
        "u",
        "k",
        "limit",
        "unit_ucum",
        "net",
        "u_net",
        "gross",
        "blank",
        "critical_value",
        "detection_limit",
        "quantification_limit",
        "reporting_limit",
        "water_share",
        "water_share_low",
        "water_share_high",
        "verdict",
        "reasons",
        "laboratory",
        "method",
        "remark",
        "engine",
    ];
    let rows = results::all(store)?
        .iter()
        .map(|r| {
            let (censor, limit) = match &r.amount {
                None => ("below", None),
                Some(Amount::Below(b)) => ("below", Some(b.limit)),
                Some(Amount::Above(b)) => ("above", Some(b.limit)),
                Some(_) => ("equal", None),
            };
            let of = |a: &Option<Amount>| a.as_ref().and_then(Amount::value);
            vec![
                text(&r.result),
                text(&r.bottle),
                text(&r.kind),
                maybe(r.well.as_ref()),
                maybe(r.trip.as_ref()),
                maybe(r.filled_at.as_ref()),
                text(&r.analyte),
                text(&r.isotopes),
                text(&r.resolution),
                text(&r.fraction),
                text(r.state.word()),
                text(censor),
                number(of(&r.amount)),
                number(r.amount.as_ref().and_then(Amount::u)),
                number(r.coverage_k),
                number(limit),
                r.amount.as_ref().map_or(ExportCell::Empty, |a| text(a.unit().ucum())),
                number(of(&r.net)),
                number(r.net.as_ref().and_then(Amount::u)),
                number(of(&r.gross)),
                number(of(&r.blank)),
                number(r.critical_value),
                number(r.detection_limit),
                number(r.quantification_limit),
                number(r.reporting_limit),
                number(r.water_share.map(|s| s.share)),
                number(r.water_share.map(|s| s.low)),
                number(r.water_share.map(|s| s.high)),
                r.verdict.map_or(ExportCell::Empty, |v| text(v.word())),
                text(r.reasons.join("; ")),
                maybe(r.laboratory.as_ref()),
                maybe(r.method.as_ref()),
                maybe(r.remark.as_ref()),
                text(&r.engine),
            ]
        })
        .collect();
    Ok(ExportTable { name: "results".into(), columns: names.iter().map(|n| column(n, "")).collect(), rows })
}

fn findings_table(store: &Store) -> Result<ExportTable, Error> {
    let mut rows = vec![];
    for v in store.verdicts()? {
        for f in programme::assess::findings_of(store, &v)? {
            rows.push(vec![
                text(&v.subject),
                ExportCell::Whole(v.revision),
                text(v.verdict.word()),
                text(f.check),
                text(f.stage.word()),
                text(f.outcome.word()),
                text(f.sentence),
            ]);
        }
    }
    let columns = ["subject", "assessment", "verdict", "check", "stage", "outcome", "sentence"]
        .iter()
        .map(|n| column(n, ""))
        .collect();
    Ok(ExportTable { name: "findings".into(), columns, rows })
}

fn bottles_table(store: &Store) -> Result<ExportTable, Error> {
    let rows = store
        .bottles(&Filter::all())?
        .iter()
        .map(|b| {
            vec![
                text(&b.label),
                text(b.kind.word()),
                maybe(b.trip.as_ref()),
                maybe(b.well.as_ref()),
                maybe(b.lot.as_ref()),
                maybe(b.fraction.as_ref()),
                number(b.volume_mL),
                maybe(b.filled_at.as_ref()),
                maybe(b.acid.as_ref()),
                number(b.acid_mL),
                maybe(b.acidified_at.as_ref()),
                number(b.cabinet_min),
                number(b.open_air_min),
                maybe(b.parent.as_ref()),
                maybe(b.set_name.as_ref()),
                maybe(b.note.as_ref()),
            ]
        })
        .collect();
    let columns = [
        ("label", ""),
        ("kind", ""),
        ("trip", ""),
        ("well", ""),
        ("lot", ""),
        ("fraction", ""),
        ("volume", "mL"),
        ("filled_at", ""),
        ("acid", ""),
        ("acid_added", "mL"),
        ("acidified_at", ""),
        ("open_in_cabinet", "min"),
        ("open_outdoors", "min"),
        ("parent", ""),
        ("set_name", ""),
        ("note", ""),
    ];
    Ok(ExportTable { name: "bottles".into(), columns: columns.iter().map(|(n, u)| column(n, u)).collect(), rows })
}

/// The event chain: the last hash is the head of the record.
fn events_table(store: &Store) -> Result<ExportTable, Error> {
    let rows = store
        .events()?
        .into_iter()
        .map(|e| vec![ExportCell::Whole(e.number), text(e.at), text(e.kind), text(e.author), text(e.hash.to_string())])
        .collect();
    Ok(ExportTable {
        name: "events".into(),
        columns: ["number", "at", "act", "author", "hash_blake3"].iter().map(|n| column(n, "")).collect(),
        rows,
    })
}

/// Every column of the record and what it means.
fn dictionary() -> ExportTable {
    let rows = TABLES
        .iter()
        .flat_map(|t| {
            t.columns.iter().map(|c| {
                vec![
                    text(t.name),
                    text(c.name),
                    text(format!("{:?}", c.kind)),
                    text(if c.required { "yes" } else { "no" }),
                    text(c.about),
                ]
            })
        })
        .collect();
    ExportTable {
        name: "data-dictionary".into(),
        columns: ["table", "column", "holds", "required", "about"].iter().map(|n| column(n, "")).collect(),
        rows,
    }
}
