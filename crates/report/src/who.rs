//! Who filled the bottles, who measured them and by what: the line of the authority's sheet.
//!
//! In: the results of the report and the record. Out: sentences; what is not on record is told as not on record.
//! Checked in `crates/cli/tests/papers.rs`.

use assessment::results::Listed;
use message::{Arg, Message, Name, Spoken, count, paper as said};
use record::Error;
use record::model::{Answer, LaboratoryQuality, QualityKind};
use record::store::{Filter, Store};
use std::collections::{BTreeMap, BTreeSet};

/// Methods of a laboratory that a line names, at most.
const METHODS: usize = 4;

/// Who sampled, then each laboratory with its methods and whether they are accredited.
///
/// # Errors
/// The store cannot be read.
pub fn sentences(store: &Store, waters: &[&Listed]) -> Result<Vec<String>, Error> {
    let mut out = vec![sampled_by(store, waters)?.text()];
    let mut of: BTreeMap<&str, (BTreeSet<&str>, usize)> = BTreeMap::new();
    for r in waters.iter().filter(|r| r.laboratory.is_some() || r.gross.is_none()) {
        let known = of.entry(r.laboratory.as_deref().unwrap_or_default()).or_default();
        known.0.extend(r.method.as_deref());
        known.1 += 1;
    }
    let quality = store.laboratory_quality()?;
    let of_run = waters.iter().filter(|r| r.laboratory.is_none() && r.gross.is_some()).count();
    if of_run > 0 {
        out.push(said::OwnRun { results: count(of_run) }.text());
    }
    for (laboratory, (methods, results)) in of {
        let laboratory = if laboratory.is_empty() { said::LaboratoryNotNamed.text() } else { laboratory.to_string() };
        let accredited = accredited(&quality, &laboratory);
        let mut names: Vec<Arg> = methods.iter().take(METHODS).map(|m| Arg::Name((*m).into())).collect();
        if methods.len() > METHODS {
            names.push(Message::from(message::leaflet::More { n: count(methods.len() - METHODS) }).into());
        }
        let (laboratory, results) = (Name::from(laboratory), count(results));
        out.push(if names.is_empty() {
            said::LaboratoryWithoutMethod { laboratory, results, accredited }.text()
        } else {
            said::Laboratory { laboratory, results, methods: names, accredited }.text()
        });
    }
    Ok(out)
}

fn sampled_by(store: &Store, waters: &[&Listed]) -> Result<Message, Error> {
    let labels: BTreeSet<&str> = waters.iter().map(|r| r.bottle.as_str()).collect();
    let trips: BTreeSet<&str> = waters.iter().filter_map(|r| r.trip.as_deref()).collect();
    let bottles = store.bottles(&Filter::all())?;
    let mut people: BTreeSet<String> =
        bottles.into_iter().filter(|b| labels.contains(b.label.as_str())).filter_map(|b| b.sampler).collect();
    if people.is_empty() {
        people.extend(store.trips()?.into_iter().filter(|t| trips.contains(t.name.as_str())).filter_map(|t| t.persons));
    }
    if people.is_empty() {
        return Ok(said::SampledByNobodyNamed.into());
    }
    Ok(said::SampledBy { people: people.into_iter().map(|p| Arg::Name(p.into())).collect() }.into())
}

/// What the record says of a laboratory's accreditation; the last row counts, and of methods that differ both are said.
fn accredited(quality: &[LaboratoryQuality], laboratory: &str) -> Message {
    let of = quality.iter().filter(|q| q.kind == QualityKind::Accreditation && q.laboratory == laboratory);
    let answers: BTreeSet<bool> = of.filter_map(|q| q.answer).map(|a| a == Answer::Yes).collect();
    match (answers.contains(&true), answers.contains(&false)) {
        (true, false) => said::IsAccredited.into(),
        (false, true) => said::IsNotAccredited.into(),
        (true, true) => said::IsAccreditedInPart.into(),
        (false, false) => said::AccreditationNotOnRecord.into(),
    }
}
