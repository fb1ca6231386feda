//! The water's own and its share by attribution, kept beside each result; written only where it came out anew.

use super::{Fit, RunPair, TripAnalyte};
use crate::derive::as_kept;
use crate::engine::{DERIVED_BY, ENGINE};
use crate::verify::{Differs, Way};
use cleanliness::share::Left;
use message::{Message, Shown, Spoken, share as said};
use quantity::Unit;
use quantity::format::decimals_for;
use record::error::Error;
use record::model::{AttributedRow, ResultRow};
use record::store::NamedCells;
use record::store::{ActInfo, Cell, Filter, Store, StoreError};
use serde::Serialize;
use serde_json::json;
use std::collections::HashMap;

/// How: the word in the record.
const METHOD: &str = "all bottles fitted together: volume times water plus exposures times sources, none negative, spikes by a two-part error law; 95 % intervals by Student's t of the fit without the bound, read on zero and up; shares by Fieller";

/// The water's own metal beside the plain result.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Attributed {
    /// Do these bottles tell the water from the sources?
    pub identifiable: bool,
    /// The water's own concentration; none where it cannot be told.
    pub water: Option<f64>,
    /// Its standard uncertainty.
    pub u_water: Option<f64>,
    /// 95 % interval; where the water cannot be told, zero to the most that the bottles allow.
    pub water_interval_95: (f64, f64),
    /// Unit of the three.
    pub unit: String,
    /// The water's share of the metal in the bottle.
    pub share: Option<f64>,
    /// Its 95 % interval.
    pub share_interval_95: Option<(f64, f64)>,
    /// Which bottles were fitted.
    pub scope: String,
    /// How.
    pub method: String,
    /// What cannot be told apart, and the bottle that would tell.
    pub remark: Option<String>,
    /// What `water` and `share` are. Not kept: known where a result is listed with its bottle.
    pub is: Left,
}

/// What the bottles cannot tell apart and what belongs beside the numbers, as the record keeps it; none where there is
/// nothing to say.
fn remark(fit: &Fit) -> Option<String> {
    let beside = fit.beside();
    let all: Vec<String> = fit.cannot_tell.iter().map(|c| &c.says).chain(&beside).map(|s| s.in_english()).collect();
    (!all.is_empty()).then(|| all.join(" "))
}

impl Attributed {
    fn of(fit: &Fit, bottle: &str) -> Option<Self> {
        let water = fit.fit.waters.first()?;
        let part = fit.fit.bottles.iter().find(|b| b.name == bottle)?;
        let told = water.identifiable;
        let number = |x: f64| x.is_finite().then_some(x);
        Some(Self {
            identifiable: told,
            water: number(water.ng_l).filter(|_| told),
            u_water: water.u_ng_l.and_then(number).filter(|_| told),
            water_interval_95: water.interval_95,
            unit: "ng/L".into(),
            share: part.water_share.filter(|_| told && part.share_interval_95.is_some()),
            share_interval_95: part.share_interval_95.filter(|_| told),
            scope: fit.scope.in_english(),
            method: METHOD.into(),
            remark: remark(fit),
            is: Left::default(),
        })
    }

    /// From the record.
    pub fn from_row(r: &AttributedRow) -> Self {
        Self {
            identifiable: r.identifiable,
            water: r.water,
            u_water: r.u_water,
            water_interval_95: (r.water_low.unwrap_or(f64::NAN), r.water_high.unwrap_or(f64::NAN)),
            unit: Unit::parse(&r.unit).map_or_else(|_| r.unit.clone(), |u| u.to_string()),
            share: r.share,
            share_interval_95: r.low.zip(r.high),
            scope: r.scope.clone(),
            method: r.method.clone(),
            remark: r.remark.clone(),
            is: Left::default(),
        }
    }

    /// The annex to the accounting: what all bottles together give, and what that is. Of shares it does not speak: those
    /// of a bottle are the accounting's alone.
    pub fn said(&self) -> String {
        said::AllBottlesSay { own: self.says(), left: self.is.says() }.text()
    }

    /// "1.02 ng/L (0.94 to 1.10)", or what the bottles allow at most.
    pub fn in_words(&self) -> String {
        self.says().text()
    }

    fn says(&self) -> Message {
        let (low, high) = self.water_interval_95;
        let decimals = decimals_for((0.5 * (high - low)).max(1e-12), 2);
        match self.water {
            Some(water) => {
                let end = |x| Shown::decimals(x, decimals, "");
                said::Own { water: Shown::decimals(water, decimals, &self.unit), low: end(low), high: end(high) }.into()
            }
            None => said::OwnAtMost { most: Shown::bound(high, &self.unit) }.into(),
        }
    }

    fn same_as(&self, other: &Self) -> bool {
        self.same_value(other)
            && (&self.scope, &self.method, &self.remark) == (&other.scope, &other.method, &other.remark)
    }

    fn same_value(&self, other: &Self) -> bool {
        let pair = |x: Option<(f64, f64)>| [as_kept(x.map(|p| p.0)), as_kept(x.map(|p| p.1))];
        self.identifiable == other.identifiable
            && as_kept(self.water) == as_kept(other.water)
            && as_kept(self.u_water) == as_kept(other.u_water)
            && pair(Some(self.water_interval_95)) == pair(Some(other.water_interval_95))
            && as_kept(self.share) == as_kept(other.share)
            && pair(self.share_interval_95) == pair(other.share_interval_95)
    }
}

/// What every newest result should carry: result row, its identity, the attribution.
fn wanted(store: &Store, fits: &[TripAnalyte], runs: &[RunPair]) -> Result<Vec<(ResultRow, Attributed)>, Error> {
    let mut run_of: HashMap<i64, &str> = HashMap::new();
    for (prepared, run) in runs {
        run_of.extend(prepared.vials().iter().map(|v| (v.id, run.name.as_str())));
    }
    let mut out = vec![];
    // Of a record without counts no result is asked.
    let derived = Filter::all().has("vial").latest();
    for row in store.results(&derived)? {
        let Some(run) = row.vial_id.and_then(|v| run_of.get(&v)) else { continue };
        let of_row = |t: &&TripAnalyte| {
            t.run == *run
                && t.analyte.element == row.analyte
                && t.analyte.isotopes == row.isotopes
                && t.analyte.resolution == row.resolution
        };
        let mut waters = fits.iter().filter(of_row).flat_map(|t| &t.waters);
        let found = waters.find_map(|w| Attributed::of(w.fit.as_ref().ok()?, &row.bottle));
        if let Some(a) = found {
            out.push((row, a));
        }
    }
    Ok(out)
}

/// Keeps what came out anew; answers how many rows were written.
///
/// # Errors
/// The store cannot be read or written.
pub fn keep(store: &mut Store, fits: &[TripAnalyte], runs: &[RunPair], author: &str, at: &str) -> Result<usize, Error> {
    let standing = standing(store)?;
    let fresh: Vec<(i64, Attributed)> = wanted(store, fits, runs)?
        .into_iter()
        .filter(|(row, a)| standing.get(&row.id).is_none_or(|old| !old.same_as(a)))
        .map(|(row, a)| (row.id, a))
        .collect();
    if fresh.is_empty() {
        return Ok(0);
    }
    let info = ActInfo {
        kind: "attribution".into(),
        author: author.into(),
        at: at.into(),
        body: json!({ "results": fresh.len(), "engine": ENGINE }),
    };
    store.act::<_, StoreError>(&info, |act| {
        for (result, a) in &fresh {
            let revision = act.next_revision("attributed", &[Cell::Integer(*result)])?;
            let mut cells = NamedCells::new("attributed");
            cells.integer("result", *result).integer("revision", revision);
            cells.integer("identifiable", i64::from(a.identifiable));
            cells.real("water", a.water).real("u_water", a.u_water);
            cells.real("water_low", Some(a.water_interval_95.0)).real("water_high", Some(a.water_interval_95.1));
            cells.text("unit", "ng/L").real("share", a.share);
            cells.real("low", a.share_interval_95.map(|s| s.0)).real("high", a.share_interval_95.map(|s| s.1));
            cells.text("scope", &a.scope).text("method", &a.method);
            if let Some(remark) = &a.remark {
                cells.text("remark", remark);
            }
            cells.text("engine", DERIVED_BY);
            cells.insert(act)?;
        }
        Ok(())
    })?;
    Ok(fresh.len())
}

fn standing(store: &Store) -> Result<HashMap<i64, Attributed>, Error> {
    Ok(store.attributed()?.iter().map(|r| (r.result_id, Attributed::from_row(r))).collect())
}

/// Attributions that do not come out as they stand.
///
/// # Errors
/// The store cannot be read.
pub fn differences(store: &Store, fits: &[TripAnalyte], runs: &[RunPair]) -> Result<Vec<Differs>, Error> {
    let mut standing = standing(store)?;
    let mut out = vec![];
    for (row, now) in wanted(store, fits, runs)? {
        let identity = row.identity();
        let (sentence, way) = match standing.remove(&row.id) {
            Some(old) if old.same_as(&now) => continue,
            Some(old) => {
                let way = if old.same_value(&now) { Way::Wording } else { Way::Value };
                let (old, now) = (old.in_words(), now.in_words());
                (format!("the attribution of {identity}: stands as {old}, comes out as {now}"), way)
            }
            None => (format!("{identity} was never attributed"), Way::Missing),
        };
        out.push(Differs { sentence, way });
    }
    Ok(out)
}
