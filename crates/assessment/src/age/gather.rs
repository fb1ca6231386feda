//! What the record knows of a well's tracers: rows made measurements in the units of the science, the chemistry beside
//! them, histories and facts of its site. A row that cannot be used is told with its reason and the others go on.

use super::observed;
use super::sentence::{Leans, LeansOn};
use crate::chemistry_checks::{Analysed, analyses};
use crate::results::amount;
use crate::wells::in_unit;
use aqueous::speciation::{Request, speciation};
use aquifer::age::carbon14::{Carbon, Reported};
use aquifer::age::gases::{Found, Redox, Use, admitted, mixing_ratio, within_air};
use aquifer::age::helium::{HeliumSample, helium_age};
use aquifer::age::noble::{self, Excess, Gas, Gases, MeasuredGas};
use aquifer::age::reported::{PMC_ABSOLUTE, mol_per_kg};
use aquifer::age::{
    Carbon14, History, Level, Measured, Observation, Point, Recharge, Side, Tracer, WithU, constants, tritium,
};
use message::{Message, Shown, well_age as told};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::error::Error;
use record::model::{FieldReading, HistoryRow, RechargeFactRow, ResultRow, State, TracerRow, Well};
use record::store::{Filter, Store};
use record::words::{DecayedTo, Normalised, RechargeFact};
use serde_json::{Value, json};
use series::rows::decimal_year;
use statistics::normal;

/// A tracer as the laboratory gave it.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// Its sign.
    pub sign: String,
    /// Value with u and unit, or the limit that it lies under.
    pub value: Message,
    /// Day of sampling, ISO 8601.
    pub day: String,
    /// Bottle, where one is named.
    pub bottle: Option<String>,
    /// Laboratory.
    pub laboratory: Option<String>,
}

/// A history that an answer rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct UsedHistory {
    /// Of which tracer.
    pub tracer: Tracer,
    /// Its name on record.
    pub name: String,
    /// Where it holds.
    pub region: String,
    /// Where its numbers are from.
    pub source: String,
}

/// Histories and facts, read once for all wells.
pub(super) struct Site {
    wells: Vec<Well>,
    tracers: Vec<TracerRow>,
    histories: Vec<HistoryRow>,
    facts: Vec<RechargeFactRow>,
}

/// What is known of one well.
pub(super) struct Known {
    pub well: String,
    pub day: String,
    pub year: f64,
    pub seen: Vec<Seen>,
    /// Tracers that date, but carbon-14, in the units of the science.
    pub measured: Vec<Measured>,
    pub histories: Vec<History>,
    pub used: Vec<UsedHistory>,
    /// Carbon-14 with its chemistry, and whether it is only bounded; or why it is not used.
    pub carbon: Option<Result<(Carbon, bool), Message>>,
    pub recharge: Option<Recharge>,
    pub redox: Redox,
    pub d18o: Option<WithU>,
    pub d2h: Option<WithU>,
    pub prices: Vec<(Tracer, f64)>,
    pub findings: Vec<Finding>,
    pub refused: Vec<Message>,
    facts: Facts,
}

/// Facts that hold for one well: its own before those of its site, those before all others.
#[derive(Default)]
pub(super) struct Facts(Vec<RechargeFactRow>);

impl Facts {
    /// A range as a value with the u of a flat one.
    pub fn of(&self, what: RechargeFact) -> Option<WithU> {
        let f = self.0.iter().find(|f| f.what == what)?;
        // A flat range has its half-width over √3 as standard uncertainty (JCGM 100:2008, 4.3.7).
        Some(WithU { value: f64::midpoint(f.low, f.high), u: 0.5 * (f.high - f.low) / 3f64.sqrt() })
    }
}

impl Site {
    pub fn of(store: &Store) -> Result<Self, Error> {
        Ok(Self {
            wells: store.wells()?,
            tracers: store.tracers()?,
            histories: store.input_histories()?,
            facts: store.recharge_facts()?,
        })
    }

    /// What is known of a well; none where it has no tracers.
    pub fn known(&self, store: &Store, name: &str) -> Result<Option<Known>, Error> {
        let Some(well) = self.wells.iter().find(|w| w.name == name) else { return Ok(None) };
        let rows = self.rows_of(well);
        let Some((_, day)) = rows.last().cloned() else { return Ok(None) };
        let Some(year) = year_of(&day) else { return Ok(None) };
        let facts = self.facts_of(well);
        let mut known = Known {
            well: well.name.clone(),
            day,
            year,
            seen: vec![],
            measured: vec![],
            histories: vec![],
            used: vec![],
            carbon: None,
            recharge: None,
            redox: Redox::default(),
            d18o: None,
            d2h: None,
            prices: prices(&facts),
            findings: vec![],
            refused: vec![],
            facts,
        };
        let rows = known.chosen(rows);
        self.histories_of(well, &mut known);
        let chemistry = Chemistry::of(store, well, &known.day)?;
        known.redox = chemistry.redox;
        known.read(&rows, &chemistry);
        Ok(Some(known))
    }

    /// A well by its name.
    pub fn well(&self, name: &str) -> Result<&Well, Error> {
        let found = self.wells.iter().find(|w| w.name == name && !w.is_stream());
        found.ok_or_else(|| {
            let there: Vec<&str> = self.wells.iter().filter(|w| !w.is_stream()).map(|w| w.name.as_str()).collect();
            let hint = if there.is_empty() { String::new() } else { format!("; there are {}", there.join(", ")) };
            Error::absent("well", name, hint)
        })
    }

    /// Its tracers with their days, the oldest first.
    fn rows_of(&self, well: &Well) -> Vec<(&TracerRow, String)> {
        let of_well = self.tracers.iter().filter(|t| t.bottle_well_id.or(t.well_id) == Some(well.id));
        let mut rows: Vec<(&TracerRow, String)> = of_well.filter_map(|t| Some((t, day_of(t)?))).collect();
        rows.sort_by(|a, b| a.1.cmp(&b.1));
        rows
    }

    /// Everything on record that an age of a well leans on; nothing where it has no tracers.
    pub fn leans(&self, store: &Store, name: &str) -> Result<Vec<Leans>, Error> {
        let well = self.well(name)?;
        let rows = self.rows_of(well);
        let Some((_, newest)) = rows.last() else { return Ok(vec![]) };
        let mut out: Vec<Leans> = rows.iter().map(|(t, day)| tracer_leans(t, day)).collect();
        let here = |h: &&HistoryRow| h.site_id.is_none() || h.site_id == well.site_id;
        let mut histories: Vec<(&str, &str)> =
            self.histories.iter().filter(here).map(|h| (h.tracer.as_str(), h.name.as_str())).collect();
        histories.sort_unstable();
        histories.dedup();
        for (tracer, name) in histories {
            let rows = self.histories.iter().filter(here).filter(|h| h.tracer == tracer && h.name == name);
            let rows: Vec<Value> = rows
                .map(|h| json!([h.region, h.source, h.site_id.is_some(), h.in_year, h.before, h.value, h.u, h.unit]))
                .collect();
            out.push(Leans::new(LeansOn::History, &format!("{name} ({tracer})"), "", &json!(rows)));
        }
        let facts = self.facts_of(well);
        let mut seen = vec![];
        // Prices change nothing of an age; of several facts of one kind the first counts.
        for f in facts.0.iter().filter(|f| f.what != RechargeFact::Price) {
            if !seen.contains(&f.what) {
                seen.push(f.what);
                out.push(Leans::new(LeansOn::Recharge, f.what.word(), "", &json!([f.low, f.high])));
            }
        }
        let chemistry = Chemistry::of(store, well, newest)?;
        out.push(Leans::new(LeansOn::Chemistry, "", "", &chemistry.says()));
        Ok(out)
    }

    fn facts_of(&self, well: &Well) -> Facts {
        let rank = |f: &RechargeFactRow| match (f.well_id, f.site_id) {
            (Some(w), _) => (w == well.id).then_some(0),
            (None, Some(s)) => (well.site_id == Some(s)).then_some(1),
            (None, None) => Some(2),
        };
        let mut all: Vec<(i32, &RechargeFactRow)> = self.facts.iter().filter_map(|f| Some((rank(f)?, f))).collect();
        // Of several of one rank the last on record counts.
        all.reverse();
        all.sort_by_key(|(r, _)| *r);
        Facts(all.into_iter().map(|(_, f)| f.clone()).collect())
    }

    /// One history a tracer: that of the site before one for all; of several the first by name, which is said.
    fn histories_of(&self, well: &Well, known: &mut Known) {
        for tracer in Tracer::ALL {
            let of = |site: Option<i64>| -> Vec<&HistoryRow> {
                self.histories.iter().filter(|h| h.tracer == tracer.sign() && h.site_id == site).collect()
            };
            let own = well.site_id.map(|s| of(Some(s))).unwrap_or_default();
            let rows = if own.is_empty() { of(None) } else { own };
            let mut names: Vec<&str> = rows.iter().map(|h| h.name.as_str()).collect();
            names.sort_unstable();
            names.dedup();
            let Some(name) = names.first() else { continue };
            if names.len() > 1 {
                let says = told::SeveralHistories { tracer: tracer.sign().into(), name: (*name).into() };
                known.findings.push(Finding::new(Check::AquiferAge, Outcome::NotMet, says));
            }
            let rows: Vec<&HistoryRow> = rows.into_iter().filter(|h| h.name == *name).collect();
            let history = history(tracer, &rows);
            // One that cannot be is told, and stands for nothing.
            if let Err(why) = history.check() {
                known.refused.push(why.said());
                continue;
            }
            known.used.push(UsedHistory {
                tracer,
                name: (*name).to_string(),
                region: history.region.clone(),
                source: history.source.clone(),
            });
            known.histories.push(history);
        }
    }
}

/// A tracer of a well with all that it says.
fn tracer_leans(t: &TracerRow, day: &str) -> Leans {
    let says = json!([
        t.value,
        t.below,
        t.uncertainty,
        t.k,
        t.unit,
        t.critical_value,
        t.detection_limit,
        t.measured_on,
        t.decayed_to.map(DecayedTo::word),
        t.half_life_a,
        t.normalised_to.map(Normalised::word),
    ]);
    Leans::new(LeansOn::Tracer, &t.tracer, day, &says)
}

fn history(tracer: Tracer, rows: &[&HistoryRow]) -> History {
    let mut points: Vec<Point> = rows
        .iter()
        .filter(|h| h.before != Some(true))
        .map(|h| Point { year: h.in_year, value: h.value, u: h.u })
        .collect();
    points.sort_by(|a, b| a.year.total_cmp(&b.year));
    let background = rows.iter().find(|h| h.before == Some(true)).map(|h| WithU { value: h.value, u: h.u });
    let first = rows.first();
    let text = |of: fn(&HistoryRow) -> &str| first.map_or_else(String::new, |h| of(h).to_string());
    History { tracer, region: text(|h| &h.region), source: text(|h| &h.source), points, background }
}

fn prices(facts: &Facts) -> Vec<(Tracer, f64)> {
    let mut out: Vec<(Tracer, f64)> = vec![];
    for f in facts.0.iter().filter(|f| f.what == RechargeFact::Price) {
        let tracer = match f.tracer.as_deref() {
            // Helium-3 of tritium is told by the isotopes of helium.
            Some("3He/4He") => Some(Tracer::Helium3),
            Some(sign) => Tracer::by_sign(sign),
            None => None,
        };
        if let Some(t) = tracer.filter(|t| out.iter().all(|(known, _)| known != t)) {
            out.push((t, f64::midpoint(f.low, f.high)));
        }
    }
    out
}

/// The day that a row was sampled on.
fn day_of(t: &TracerRow) -> Option<String> {
    let at =
        if t.bottle.is_some() { t.filled_at.as_deref().or(t.sampled_on.as_deref()) } else { t.sampled_on.as_deref() };
    at.and_then(|a| a.get(..10)).map(str::to_string)
}

fn year_of(day: &str) -> Option<f64> {
    day.parse::<jiff::civil::Date>().ok().map(decimal_year)
}

/// A row as a person reads it.
fn seen(t: &TracerRow, day: &str) -> Seen {
    let unit = if t.unit == aquifer::age::reported::RATIO { "" } else { &t.unit };
    let value = if t.below == Some(true) {
        message::age::BelowLimit { limit: Shown::as_given(t.value, unit).typeset() }.into()
    } else {
        let u = Shown::as_given(t.uncertainty / t.k.unwrap_or(1.0), "");
        message::age::ValueU { value: Shown::as_given(t.value, unit).typeset(), u }.into()
    };
    Seen {
        sign: t.tracer.clone(),
        value,
        day: day.to_string(),
        bottle: t.bottle.clone(),
        laboratory: t.laboratory.clone(),
    }
}

impl Known {
    pub fn history(&self, tracer: Tracer) -> Option<&History> {
        self.histories.iter().find(|h| h.tracer == tracer)
    }

    pub fn fact(&self, what: RechargeFact) -> Option<WithU> {
        self.facts.of(what)
    }

    /// One row a tracer: the newest; rows more than a year older than the newest are left out. Both are said.
    fn chosen<'a>(&mut self, rows: Vec<(&'a TracerRow, String)>) -> Vec<(&'a TracerRow, String)> {
        let mut out: Vec<(&TracerRow, String)> = vec![];
        for (t, day) in rows.into_iter().rev() {
            let near = year_of(&day).is_some_and(|y| (self.year - y).abs() <= 1.0);
            if !near {
                let says = told::OlderLeftOut { tracer: t.tracer.as_str().into(), day: day.as_str().into() };
                self.findings.push(Finding::new(Check::AquiferAge, Outcome::NotKnown, says));
            } else if out.iter().any(|(o, _)| o.tracer == t.tracer) {
                let says = told::SeveralValues { tracer: t.tracer.as_str().into() };
                let again = Finding::new(Check::AquiferAge, Outcome::NotKnown, says);
                if !self.findings.contains(&again) {
                    self.findings.push(again);
                }
            } else {
                self.seen.push(seen(t, &day));
                out.push((t, day));
            }
        }
        self.seen.reverse();
        out
    }

    fn read(&mut self, rows: &[(&TracerRow, String)], chemistry: &Chemistry) {
        let of = |sign: &str| rows.iter().find(|(t, _)| t.tracer == sign);
        self.recharge = self.recharge(rows);
        let delta = |sign: &str| of(sign).map(|(t, _)| with_u(t)).filter(|d| d.value.is_finite() && d.u > 0.0);
        (self.d18o, self.d2h) = (delta("d18O"), delta("d2H"));
        for (t, day) in rows {
            let Some(tracer) = Tracer::by_sign(&t.tracer).filter(|t| *t != Tracer::Carbon14) else { continue };
            match measured(tracer, t, day) {
                Ok(m) => self.measured.push(m),
                Err(why) => self.refused.push(why),
            }
        }
        self.helium(&of);
        let methane = chemistry.redox.methane;
        let tritium = self.measured.iter().find(|m| m.tracer == Tracer::Tritium);
        let tritium =
            tritium.map_or(Found::NotMeasured, |m| if m.detected() { Found::Detected } else { Found::NotDetected });
        let temperature = self.recharge.map(|r| r.temperature_c);
        self.carbon = of("14C").map(|(t, day)| {
            let (reported, bound) = carbon14(t, day)?;
            let mut c = Carbon::new(reported);
            c.d13c = delta("d13C");
            (c.co2, c.hco3, c.sulfide) = (chemistry.co2, chemistry.hco3, chemistry.sulfide);
            (c.temperature_c, c.methane, c.tritium) = (temperature, methane, tritium);
            Ok((c, bound))
        });
    }

    /// Temperature, height and excess air at recharge: by noble gases where they were measured and fit, else as the
    /// person gave them.
    fn recharge(&mut self, rows: &[(&TracerRow, String)]) -> Option<Recharge> {
        let given = (self.fact(RechargeFact::Temperature), self.fact(RechargeFact::Height));
        let air = self.fact(RechargeFact::ExcessAir);
        let measured: Vec<MeasuredGas> = rows
            .iter()
            .filter_map(|(t, _)| {
                let gas = Gas::ALL.into_iter().find(|g| g.symbol() == t.tracer)?;
                let (factor, x) = (mol_per_kg(gas, &t.unit)?, with_u(t));
                (t.below != Some(true)).then_some(MeasuredGas { gas, mol_kg: x.value * factor, u_mol_kg: x.u * factor })
            })
            .collect();
        let as_given =
            given.0.zip(given.1).map(|(t, h)| Recharge { temperature_c: t, height_m: h, excess_air_cm3_kg: air });
        if measured.is_empty() {
            return as_given;
        }
        let Some(height_m) = given.1 else {
            self.refused.push(told::GasesWithoutHeight.into());
            return as_given;
        };
        let found = match noble::recharge(&Gases { measured, bubbles: false }, height_m.value) {
            Ok(found) => found,
            Err(why) => {
                self.refused.push(why.said());
                return as_given;
            }
        };
        let say = |m: &Message| Finding::new(Check::AquiferAge, Outcome::NotMet, m.clone());
        self.findings.extend(found.findings.iter().map(say));
        let (fit, band) = found.first().zip(found.band_c)?;
        // The band holds 95 % over the models that stand.
        let u = ((band.1 - band.0) / (2.0 * normal::TWO_SIDED_95)).max(fit.u_temperature_k.unwrap_or(0.0));
        let Excess::Unfractionated { air_mol_kg } = fit.excess else {
            return Some(Recharge {
                temperature_c: WithU { value: fit.temperature_c, u },
                height_m,
                excess_air_cm3_kg: air,
            });
        };
        let litre = constants::number("molarvol.air");
        // u of the excess air: a tenth, what neon to 1 % leaves of it (the design's figure).
        let by_gases = WithU { value: air_mol_kg * litre, u: (0.1 * air_mol_kg * litre).abs().max(0.1) };
        Some(Recharge {
            temperature_c: WithU { value: fit.temperature_c, u },
            height_m,
            excess_air_cm3_kg: Some(by_gases),
        })
    }

    /// Helium-3 of tritium from the copper tube.
    fn helium<'a>(&mut self, of: &dyn Fn(&str) -> Option<&'a (&'a TracerRow, String)>) {
        let (Some((he, _)), Some((ratio, _))) = (of("He"), of("3He/4He")) else { return };
        let Some((ne, _)) = of("Ne") else {
            self.refused.push(told::HeliumWithoutNeon.into());
            return;
        };
        let tritium = self.measured.iter().find(|m| m.tracer == Tracer::Tritium);
        let Some((tritium, recharge)) = tritium.zip(self.recharge) else {
            self.refused.push(told::HeliumWithoutOthers.into());
            return;
        };
        let tube = |t: &TracerRow, gas: Gas| {
            let factor = mol_per_kg(gas, &t.unit).map_or(f64::NAN, |f| gas.cm3_stp_per_g(f));
            let x = with_u(t);
            WithU { value: x.value * factor, u: x.u * factor }
        };
        let sample = HeliumSample {
            helium: tube(he, Gas::He),
            neon: tube(ne, Gas::Ne),
            ratio: with_u(ratio),
            temperature_c: recharge.temperature_c,
            height_m: recharge.height_m,
            terrigenic_ratio: None,
            bubbles: false,
            half_life_years: Some(tritium::half_life_years()),
        };
        let found = helium_age(&sample, tritium).and_then(|a| {
            let (value, u) = (a.tritiogenic_tu.value, a.tritiogenic_tu.u);
            Measured::new(Tracer::Helium3, Level::Value { value, u }, "TU", Some(tritium.sampled_year))
        });
        match found {
            Ok(m) => self.measured.push(m),
            Err(why) => self.refused.push(why.said()),
        }
    }

    /// What the fit may use: with a history, admitted by the chemistry, not above any air.
    pub fn observations(&self, a0: Option<Carbon14>, refused: &mut Vec<Message>) -> Vec<Observation> {
        let mut out = vec![];
        for m in &self.measured {
            let of = if m.tracer == Tracer::Helium3 { Tracer::Tritium } else { m.tracer };
            let Some(history) = self.history(of) else {
                refused.push(told::NoHistory { tracer: m.tracer.sign().into() }.into());
                continue;
            };
            match self.side_of(m, history) {
                Ok(side) => out.push(observed(m.clone(), side)),
                Err(why) => refused.push(why),
            }
        }
        let bound = matches!(&self.carbon, Some(Ok((_, true))));
        if let Some(c) = a0 {
            let level =
                if bound { Level::Below { limit: c.f14c, u: c.u } } else { Level::Value { value: c.f14c, u: c.u } };
            match Measured::new(Tracer::Carbon14, level, "F14C", Some(self.year)) {
                Ok(m) => out.push(observed(m, Side::Both)),
                Err(why) => refused.push(why.said()),
            }
        }
        out
    }

    /// Which side of a value the truth can lie on, or why the tracer says nothing here.
    fn side_of(&self, m: &Measured, history: &History) -> Result<Side, Message> {
        let (use_, why) = admitted(m.tracer, &self.redox);
        let why = why.and_then(|f| f.message);
        let side = match use_ {
            Use::Refused => return Err(why.unwrap_or_else(|| told::NotUsed { tracer: m.tracer.sign().into() }.into())),
            Use::NotOlderThan if !m.detected() => {
                return Err(why.unwrap_or_else(|| told::NotUsed { tracer: m.tracer.sign().into() }.into()));
            }
            Use::NotOlderThan => Side::AtLeast,
            Use::Age => Side::Both,
        };
        if !m.tracer.is_gas() {
            return Ok(side);
        }
        let Some(recharge) = &self.recharge else {
            return Err(told::GasWithoutRecharge { tracer: m.tracer.sign().into() }.into());
        };
        let air = mixing_ratio(m.tracer, m.number(), m.u(), recharge).map_err(|e| e.said())?;
        within_air(m.tracer, air, history).map_err(|e| e.said())?;
        Ok(side)
    }
}

/// A value with its standard uncertainty.
fn with_u(t: &TracerRow) -> WithU {
    WithU { value: t.value, u: t.uncertainty / t.k.unwrap_or(1.0) }
}

/// A tracer that dates, in the unit of the science, tritium as of the day of sampling.
fn measured(tracer: Tracer, t: &TracerRow, day: &str) -> Result<Measured, Message> {
    let factor = if tracer == Tracer::Tritium { to_sampling(t, day)? } else { 1.0 };
    let x = with_u(t);
    let level = if t.below == Some(true) {
        Level::Below { limit: x.value * factor, u: x.u * factor }
    } else {
        Level::Value { value: x.value * factor, u: x.u * factor }
    };
    let mut out = Measured::new(tracer, level, &t.unit, year_of(day)).map_err(|e| e.said())?;
    let unit = tracer.units().into_iter().find(|(u, _)| *u == t.unit).map_or(1.0, |(_, f)| f) * factor;
    out.critical = t.critical_value.map(|c| c * unit);
    out.detection_limit = t.detection_limit.map(|c| c * unit);
    Ok(out)
}

/// What makes a value of tritium one of the day of sampling by today's half-life: of one that was measured later the
/// decay since, of one that was reckoned back with another half-life the difference.
fn to_sampling(t: &TracerRow, day: &str) -> Result<f64, Message> {
    let days = t
        .measured_on
        .as_deref()
        .and_then(|m| m.get(..10))
        .and_then(year_of)
        .zip(year_of(day))
        .map(|(measured, sampled)| (measured - sampled).max(0.0));
    match (t.decayed_to, t.half_life_a, days) {
        (Some(DecayedTo::Measurement), _, Some(years)) => Ok(tritium::to_sampling(years, None)),
        (Some(DecayedTo::Measurement), _, None) => Err(told::DecayNotKnown.into()),
        (_, Some(used), Some(years)) if used > 0.0 => Ok(tritium::to_sampling(years, Some(used))),
        (_, Some(_), None) => Ok(1.0),
        _ => Err(told::HalfLifeNotSaid.into()),
    }
}

/// Carbon-14 as reported, and whether it is only bounded.
fn carbon14(t: &TracerRow, day: &str) -> Result<(Reported, bool), Message> {
    if t.normalised_to == Some(Normalised::Not) {
        return Err(told::NotNormalised.into());
    }
    let x = with_u(t);
    let reported = match t.unit.as_str() {
        "F14C" => Reported::F14c(x),
        PMC_ABSOLUTE => {
            let year = t.measured_on.as_deref().and_then(|m| m.get(..10)).and_then(year_of).or_else(|| year_of(day));
            Reported::Absolute { pmc: x, year: year.unwrap_or(f64::NAN) }
        }
        "pMC (100 F14C)" => Reported::PercentOfF14c(x),
        _ => return Err(aquifer::age::carbon14::percent_modern_alone().said()),
    };
    Ok((reported, t.below == Some(true)))
}

/// What the analysis and the field say of the same well, nearest to the day of its tracers.
#[derive(Default)]
struct Chemistry {
    redox: Redox,
    co2: Option<WithU>,
    hco3: Option<WithU>,
    sulfide: Option<WithU>,
}

/// Relative u of bicarbonate by titration, and u of pH: what a field laboratory keeps (the programme's own choice), since
/// the speciation takes both as they are.
const U_ALKALINITY: f64 = 0.02;
const U_PH: f64 = 0.05;
/// Molar mass of sulfur, g/mol (IUPAC 2021, conventional).
const SULFUR_G_MOL: f64 = 32.06;

impl Chemistry {
    /// What of it counts, to the digits of a laboratory: a rounding is no change.
    fn says(&self) -> Value {
        let value = |x: Option<WithU>| x.map(|x| message::number::significant(x.value, 4));
        let found = |f: Found| match f {
            Found::Detected => "detected",
            Found::NotDetected => "not detected",
            Found::NotMeasured => "not measured",
        };
        let r = &self.redox;
        let oxygen = r.oxygen_mg_l.map(|x| message::number::significant(x, 4));
        json!([oxygen, found(r.sulfide), found(r.methane), value(self.co2), value(self.hco3), value(self.sulfide)])
    }

    fn of(store: &Store, well: &Well, day: &str) -> Result<Self, Error> {
        let rows = store.results(&Filter::all().is("bottle.well", well.id).latest())?;
        let rows: Vec<ResultRow> = rows.into_iter().filter(|r| r.vial_id.is_none()).collect();
        let readings = store.field_readings(&Filter::all().is("well", well.id))?;
        let mut out = Self {
            redox: Redox {
                oxygen_mg_l: oxygen(&readings),
                sulfide: found(&rows, "S(-II)"),
                methane: found(&rows, "CH4"),
            },
            sulfide: sulfide(&rows),
            ..Self::default()
        };
        let near = |day_of_bottle: &str| {
            year_of(day_of_bottle.get(..10).unwrap_or_default())
                .zip(year_of(day))
                .map_or(f64::INFINITY, |(a, b)| (a - b).abs())
        };
        let waters = analyses(store, &rows)?;
        let nearest = waters.into_iter().min_by(|a, b| {
            let of = |w: &Analysed| near(w.bottle.filled_at.as_deref().unwrap_or_default());
            of(a).total_cmp(&of(b))
        });
        if let Some(w) = nearest
            && let Ok(s) = speciation(&Request { analysis: w.analysis, ..Request::default() })
        {
            let of = |name: &str| 1e3 * s.equilibrium.molality(name);
            let (hco3, co2) = (of("HCO3-"), of("CO2(aq)"));
            out.hco3 = (hco3 > 0.0).then_some(WithU { value: hco3, u: U_ALKALINITY * hco3 });
            let relative = U_ALKALINITY.hypot(std::f64::consts::LN_10 * U_PH);
            out.co2 = (co2 > 0.0).then_some(WithU { value: co2, u: relative * co2 });
        }
        Ok(out)
    }
}

/// Whether an analyte was found in the newest result that looked for it.
fn found(rows: &[ResultRow], analyte: &str) -> Found {
    rows.iter().rev().find(|r| r.analyte == analyte).map_or(Found::NotMeasured, |r| match r.state {
        State::NotDetected | State::NotDecided => Found::NotDetected,
        _ if matches!(amount(r), Some(Amount::Below(_))) => Found::NotDetected,
        _ => Found::Detected,
    })
}

/// Sulfide, mmol/kg; of a non-detect a flat range from nought to its limit.
fn sulfide(rows: &[ResultRow]) -> Option<WithU> {
    let row = rows.iter().rev().find(|r| r.analyte == "S(-II)")?;
    let there = amount(row)?.convert(&Unit::known("mg/L"), None, None).ok()?;
    Some(match &there {
        Amount::Below(b) => {
            let half = 0.5 * b.limit / SULFUR_G_MOL;
            WithU { value: half, u: half / 3f64.sqrt() }
        }
        a => {
            let value = a.value()? / SULFUR_G_MOL;
            // Without a stated u a tenth: usual of the field method (the programme's own choice).
            WithU { value, u: a.u().map_or(0.1 * value, |u| u / SULFUR_G_MOL) }
        }
    })
}

/// Dissolved oxygen of the last reading, mg/L.
fn oxygen(readings: &[FieldReading]) -> Option<f64> {
    let mut of: Vec<&FieldReading> = readings.iter().filter(|r| r.quantity == "dissolved oxygen").collect();
    of.sort_by(|a, b| a.at.cmp(&b.at));
    of.iter().rev().find_map(|r| in_unit(r, "mg/L")).map(|o| o.0)
}
