//! Long lists of organic compounds in the record: what they show when nothing was found.
//!
//! In: results of compounds (named in the record's table of compounds, or known to the project's own).
//! Out: `limits::absence` over them, samples kept apart by bottle. The limits are those of the EU for
//! pesticides, single and total, where nothing else is asked for.

use crate::error::Error;
use crate::model::Compound as CompoundRow;
use crate::results::Listed;
use crate::store::{Filter, Store};
use limits::absence::{Compound, ListLimits, Report, judge, pesticide_limits};
use quantity::{Amount, Lang, Unit};
use std::collections::BTreeMap;

/// Whose limits for pesticides are taken where nothing else is asked for.
pub const AUTHORITY: &str = "EU";

/// Which analytes of a programme are organic compounds.
pub struct Compounds(BTreeMap<String, Option<String>>);

impl Compounds {
    /// From the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        Ok(Self(store.list::<CompoundRow>(&Filter::all())?.into_iter().map(|c| (c.name, c.cas)).collect()))
    }

    /// Is it one?
    pub fn holds(&self, analyte: &str) -> bool {
        self.0.contains_key(analyte) || limits::cas::by_name(analyte).is_some()
    }

    fn cas(&self, analyte: &str) -> Option<String> {
        self.0.get(analyte).cloned().flatten()
    }
}

/// The compounds among results of water, as `limits::absence` takes them.
pub fn list(compounds: &Compounds, all: &[Listed]) -> Vec<Compound> {
    let of_water = |r: &&Listed| matches!(r.kind.as_str(), "sample" | "duplicate") && compounds.holds(&r.analyte);
    all.iter()
        .filter(of_water)
        .map(|r| Compound {
            name: r.analyte.clone(),
            cas: compounds.cas(&r.analyte),
            sample: r.bottle.clone(),
            // A net value that was not found stands as what it is, not as the bound the list makes of it.
            amount: r.net.clone().or_else(|| r.amount.clone()),
            critical_value: r.critical_value,
            detection_limit: r.detection_limit,
            reporting_limit: r.reporting_limit,
            unit: r.amount.as_ref().map_or_else(|| Unit::known("ug/L"), |a| a.unit().clone()),
            limit: None,
        })
        .filter(|c| !matches!(&c.amount, Some(Amount::Stated(s)) if s.value <= 0.0))
        .collect()
}

/// What the lists of a programme say; none where it has none.
///
/// # Errors
/// The store cannot be read; a list whose units do not agree.
pub fn report(store: &Store, all: &[Listed], lang: Lang) -> Result<Option<Report>, Error> {
    let list = list(&Compounds::of(store)?, all);
    let Some(first) = list.first() else { return Ok(None) };
    let limits: ListLimits = pesticide_limits(AUTHORITY, &first.unit);
    let report = judge(&list, &limits, lang);
    report.map(Some).map_err(|e| Error::Science { what: "the list of compounds".into(), message: e.to_string() })
}
