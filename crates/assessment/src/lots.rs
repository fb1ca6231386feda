//! May a lot of bottles go out? Its blanks against the target of each metal by a tolerance limit, and which bottles
//! are of the lot: days in acid, bags, openings.
//!
//! In: bottle blanks on record (pg per bottle before any blank was taken off), targets (`lot_target`, or the lot's own
//! for lead). Out: a sheet a lot. The share of the bottles that must stay under the target is the limit of the check
//! `bottle.lot`; confidence 90 %. Blanks that the laboratory censored cannot enter and are counted; blanks taken out by
//! a person do not count. The science is [`cleanliness::lots`]. Checked in `crates/programme/tests/forecast_and_plan.rs`.

use crate::results::{self, Listed};
use crate::verdict::Rules;
use cleanliness::lots::{LotLimit, LotRule, judge};
use message::{Sentence, bottle as said};
use quantity::{Check, Finding, Outcome, Unit};
use record::error::Error;
use record::model::{Bottle, BottleKind, Lot};
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::BTreeMap;

/// Confidence of the tolerance limit: the programme's own choice.
pub const CONFIDENCE: f64 = 0.9;

/// Share of the bottles where the table of checks sets none.
const CONTENT: f64 = 0.9;

/// One bottle blank of a lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LotBlank {
    /// Label of the bottle.
    pub bottle: String,
    /// Metal in it, pg, before any blank was taken off.
    pub pg: f64,
    /// Its standard uncertainty, pg; none where the record states none.
    pub u_pg: Option<f64>,
}

/// One metal of a lot.
#[derive(Debug, Clone, Serialize)]
pub struct LotMetal {
    /// Element with its isotopes, where the record says.
    pub analyte: String,
    /// Isotopes.
    pub isotopes: String,
    /// Mass resolution.
    pub resolution: String,
    /// Its blanks.
    pub blanks: Vec<LotBlank>,
    /// Blanks that could not enter: censored, no volume, another unit.
    pub left_out: usize,
    /// Highest mass a bottle may bring, pg.
    pub target_pg: Option<f64>,
    /// The limit, or what was refused.
    pub limit: Result<LotLimit, Sentence>,
    /// Accepted, refused, or not decided.
    pub outcome: Outcome,
}

/// A lot.
#[derive(Debug, Clone, Serialize)]
pub struct LotSheet {
    /// The lot.
    pub lot: Lot,
    /// Bottles of it by kind.
    pub bottles: BTreeMap<String, usize>,
    /// Bags around its bottles, fewest and most, where on record.
    pub bags: Option<(i64, i64)>,
    /// Openings, fewest and most, where on record.
    pub openings: Option<(i64, i64)>,
    /// Its metals.
    pub metals: Vec<LotMetal>,
    /// What is asked: share of bottles and confidence.
    pub content: f64,
    /// Confidence.
    pub confidence: f64,
    /// The worst of its metals that have a target; not known without any.
    pub outcome: Outcome,
}

/// All lots.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<LotSheet>, Error> {
    // Only its blanks say anything of a lot.
    let blank = |b: &Bottle| b.lot_id.is_some() && b.kind == BottleKind::BottleBlank;
    let bottles = store.bottles(&Filter::all().is("kind", BottleKind::BottleBlank.word()))?;
    let blanks: Vec<i64> = bottles.iter().filter(|b| blank(b)).map(|b| b.id).collect();
    let mut listed = vec![];
    results::each_of(store, &blanks, |r| listed.push(r))?;
    of(store, &listed)
}

/// All lots, by results already listed.
///
/// # Errors
/// The store cannot be read.
pub fn of(store: &Store, listed: &[Listed]) -> Result<Vec<LotSheet>, Error> {
    let content = Rules::new(store.check_rules()?).limit(Check::BottleLot, CONTENT);
    let bottles = store.bottles(&Filter::all())?;
    let excluded = crate::derive::Excluded::read(store)?;
    let targets = store.lot_targets()?;
    let sheet = |lot: Lot| {
        let own: Vec<&Bottle> = bottles.iter().filter(|b| b.lot_id == Some(lot.id)).collect();
        let blanks: Vec<&&Bottle> =
            own.iter().filter(|b| b.kind == BottleKind::BottleBlank && excluded.bottle(b.id).is_none()).collect();
        let target = |analyte: &str| {
            let stated = targets.iter().rev().find(|t| t.lot_id == lot.id && t.analyte == analyte).map(|t| t.target_pg);
            stated.or_else(|| lot.target_pg_Pb.filter(|_| analyte == "Pb"))
        };
        let metals = metals(&blanks, listed, content, target);
        let range = |of: fn(&Bottle) -> Option<i64>| {
            let all: Vec<i64> = own.iter().filter_map(|b| of(b)).collect();
            Some((*all.iter().min()?, *all.iter().max()?))
        };
        let mut kinds: BTreeMap<String, usize> = BTreeMap::new();
        for b in &own {
            *kinds.entry(b.kind.word().replace('-', " ")).or_default() += 1;
        }
        LotSheet {
            bottles: kinds,
            bags: range(|b| b.bags),
            openings: range(|b| b.openings),
            outcome: worst(&metals),
            metals,
            content,
            confidence: CONFIDENCE,
            lot,
        }
    };
    Ok(store.lots()?.into_iter().map(sheet).collect())
}

fn worst(metals: &[LotMetal]) -> Outcome {
    let held = || metals.iter().filter(|m| m.target_pg.is_some()).map(|m| m.outcome);
    if held().any(|o| o == Outcome::NotMet) {
        Outcome::NotMet
    } else if held().count() > 0 && held().all(|o| o == Outcome::Met) {
        Outcome::Met
    } else {
        Outcome::NotKnown
    }
}

/// Analyte, isotopes, resolution.
type AnalyteKey<'a> = (&'a str, &'a str, &'a str);

fn metals(blanks: &[&&Bottle], listed: &[Listed], content: f64, target: impl Fn(&str) -> Option<f64>) -> Vec<LotMetal> {
    // Isotopes and resolutions apart: they measure the same bottles again, and together would count each blank twice.
    let mut by: BTreeMap<AnalyteKey, (Vec<LotBlank>, usize)> = BTreeMap::new();
    for r in listed {
        let Some(bottle) = blanks.iter().find(|b| b.label == r.bottle) else { continue };
        let entry = by.entry((&r.analyte, &r.isotopes, &r.resolution)).or_default();
        match measured_pg(r, bottle) {
            Some((pg, u_pg)) => entry.0.push(LotBlank { bottle: r.bottle.clone(), pg, u_pg }),
            None => entry.1 += 1,
        }
    }
    by.into_iter()
        .map(|((analyte, isotopes, resolution), (blanks, left_out))| {
            let target_pg = target(analyte);
            let values: Vec<f64> = blanks.iter().map(|b| b.pg).collect();
            let limit = match target_pg {
                Some(target_pg) => judge(&values, &LotRule { target_pg, content, confidence: CONFIDENCE })
                    .map_err(|e| e.message().into()),
                None => Err(said::LotNoTarget { analyte: analyte.into() }.into()),
            };
            let outcome = limit.as_ref().map_or(Outcome::NotKnown, |l| l.outcome);
            LotMetal {
                analyte: analyte.into(),
                isotopes: isotopes.into(),
                resolution: resolution.into(),
                blanks,
                left_out,
                target_pg,
                limit,
                outcome,
            }
        })
        .collect()
}

/// Metal in a bottle, pg, before any field blank; none for a limit or without a volume.
/// With its standard uncertainty, where the record states one; the volume counts as exact.
pub(crate) fn measured_pg(r: &Listed, bottle: &Bottle) -> Option<(f64, Option<f64>)> {
    let amount = r.gross.as_ref().or(r.net.as_ref()).or(r.amount.as_ref())?;
    // ng/L times mL is pg.
    let amount = amount.convert(&Unit::known("ng/L"), None, None).ok()?;
    let volume_ml = bottle.volume_mL.filter(|v| *v > 0.0)?;
    Some((amount.value()? * volume_ml, amount.u().map(|u| u * volume_ml)))
}

impl LotSheet {
    /// The finding of a bottle of this lot for a metal; none where the lot's blanks never had it.
    pub fn finding(&self, analyte: &str, isotopes: &str, resolution: &str) -> Option<Finding> {
        let m = (self.metals.iter()).find(|m| {
            (m.analyte.as_str(), m.isotopes.as_str(), m.resolution.as_str()) == (analyte, isotopes, resolution)
        })?;
        Some(match (&m.limit, m.target_pg) {
            (Ok(l), Some(target_pg)) => {
                l.finding(&self.lot.name, &LotRule { target_pg, content: self.content, confidence: self.confidence })
            }
            (Err(why), _) => {
                let (lot, why) = ((&self.lot.name).into(), (**why).clone());
                let says = said::LotNotJudged { lot, analyte: analyte.into(), why };
                Finding::new(Check::BottleLot, Outcome::NotKnown, says)
            }
            (Ok(_), None) => return None,
        })
    }
}
