//! Long lists of organic compounds in the record: what they show, found or not.
//!
//! In: results of compounds. A compound is what the record's table of compounds or the project's own names; and, whether
//! or not anybody described it, what came by a mapping for lists of compounds or stands in a bottle beside a compound:
//! a list that dropped what nobody described would say "none found" over it. Elements, ions and sums that laboratories
//! write beside compounds are none. Out: `limits::absence` over them, samples kept apart by bottle, held to the limits of
//! `limits::compound_limits` that hold on the day of each bottle. A rejected result bounds
//! nothing, and what it found is named as rejected. Checked in `crates/programme/tests/compounds.rs`.

use crate::results::Listed;
use limits::absence::{Compound, ListLimits, Report, judge};
use quantity::{Amount, Lang, Unit};
use record::error::Error;
use record::model::{Compound as CompoundRow, VerdictWord};
use record::store::{Filter, Store};
use std::collections::{BTreeMap, BTreeSet, HashSet};

/// Mappings whose files hold compounds.
const LISTS: &[&str] = &["organics-long"];

/// What laboratories measure beside compounds as a mass per volume and that is none, as far as the analysis of a water does
/// not name it: sums, and elements and ions without a part in it.
const NO_COMPOUNDS: &str = "toc;doc;npoc;total organic carbon;dissolved organic carbon;organic carbon;aox;\
    bod;bod5;cod;biochemical oxygen demand;chemical oxygen demand;hardness;total hardness;\
    tds;total dissolved solids;dissolved solids;residue on evaporation;tss;total suspended solids;suspended solids;\
    total nitrogen;kjeldahl nitrogen;total phosphorus;\
    beryllium;bismuth;gallium;indium;molybdenum;rubidium;tellurium;thorium;tin;titanium;tungsten;vanadium;\
    bromate;bro3;chlorate;clo3;chlorite;clo2;perchlorate;clo4;cyanide;iodide";

/// Which analytes of a programme are organic compounds.
pub struct Compounds(BTreeMap<String, Option<String>>);

impl Compounds {
    /// Those that somebody described.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn described(store: &Store) -> Result<Self, Error> {
        Ok(Self(store.list::<CompoundRow>(&Filter::all())?.into_iter().map(|c| (c.name, c.cas)).collect()))
    }

    /// Those of the record, described or not: `all` are its results.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store, all: &[Listed]) -> Result<Self, Error> {
        let mut out = Self::described(store)?;
        let of_lists: HashSet<i64> =
            store.raw_files()?.into_iter().filter(|f| LISTS.contains(&f.mapping.as_str())).map(|f| f.id).collect();
        let open: Vec<&Listed> =
            all.iter().filter(|r| r.kind.is_water() && !out.holds(&r.analyte) && may_be_one(r)).collect();
        if open.is_empty() {
            return Ok(out);
        }
        let add = |out: &mut Self, wanted: &dyn Fn(&Listed) -> bool| {
            let names: BTreeSet<&str> = open.iter().filter(|r| wanted(r)).map(|r| r.analyte.as_str()).collect();
            out.0.extend(names.into_iter().map(|n| (n.to_string(), None)));
        };
        add(&mut out, &|r| r.raw_file.is_some_and(|f| of_lists.contains(&f)));
        let bottles: HashSet<&str> = all.iter().filter(|r| out.holds(&r.analyte)).map(|r| r.bottle.as_str()).collect();
        add(&mut out, &|r| bottles.contains(r.bottle.as_str()));
        Ok(out)
    }

    /// Is it one?
    pub fn holds(&self, analyte: &str) -> bool {
        self.0.contains_key(analyte) || limits::cas::by_name(analyte).is_some()
    }

    /// The number that the record gives for it.
    pub fn cas(&self, analyte: &str) -> Option<String> {
        self.0.get(analyte).cloned().flatten()
    }
}

/// May a result of a name that nobody described be of a compound? Not of an element or ion, nor of a sum, nor of a
/// quantity that is no mass per volume.
fn may_be_one(r: &Listed) -> bool {
    let mass = |a: &Amount| a.unit().basis().is_none() && a.convert(&Unit::known("ug/L"), None, None).is_ok();
    // Two letters at most: the symbol of an element, its valence in brackets. A formula alone proves nothing: PFOS reads as
    // one too.
    let symbol = |n: &str| n.split('(').next().is_some_and(|s| s.trim().len() <= 2);
    let inorganic = |n: &str| symbol(n) || aqueous::analysis::is_of_a_water(n);
    let name = r.analyte.trim();
    let known = NO_COMPOUNDS.split(';').any(|n| n == name.to_lowercase());
    !known && !inorganic(name) && !inorganic(&limits::table::analyte(name)) && r.amount.as_ref().is_none_or(mass)
}

/// The compounds among results of water, as `limits::absence` takes them.
pub fn list(compounds: &Compounds, all: &[Listed]) -> Vec<Compound> {
    let of_water = |r: &&Listed| r.kind.is_water() && compounds.holds(&r.analyte);
    // A zero without u says nothing, and the compound was looked for all the same.
    let says_something = |a: &Amount| !matches!(a, Amount::Stated(s) if s.value <= 0.0);
    all.iter()
        .filter(of_water)
        .map(|r| Compound {
            name: r.analyte.clone(),
            cas: compounds.cas(&r.analyte),
            sample: r.bottle.clone(),
            // A net value that was not found stands as what it is, not as the bound the list makes of it.
            amount: r.net.clone().or_else(|| r.amount.clone()).filter(says_something),
            critical_value: r.critical_value,
            detection_limit: r.detection_limit,
            reporting_limit: r.reporting_limit,
            unit: r.amount.as_ref().map_or_else(|| Unit::known("ug/L"), |a| a.unit().clone()),
            limit: None,
            rejected: r.verdict == Some(VerdictWord::Rejected),
            laboratory: r.laboratory.clone(),
            on: r.filled_at.as_deref().and_then(|d| d.get(..10)).map(String::from),
        })
        .collect()
}

/// What the lists of a programme say; none where it has none.
///
/// # Errors
/// The store cannot be read; a list whose units do not agree.
pub fn report(store: &Store, all: &[Listed], lang: Lang) -> Result<Option<Report>, Error> {
    let list = list(&Compounds::of(store, all)?, all);
    if list.is_empty() {
        return Ok(None);
    }
    let report = judge(&list, &ListLimits::of_all(), lang);
    report.map(Some).map_err(|e| Error::Science { what: "the list of compounds".into(), message: e.to_string() })
}
