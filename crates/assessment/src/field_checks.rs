//! What a trip itself says of the bottles it brought home: flow and contact time at each well,
//! the air over the open bottle, the box on its way. One finding a check, as the sciences word
//! them; here is only who meets whom. Findings of trip and well are shared by all results of
//! that trip and well.

use crate::verdict::Rules;
use crate::wells;
use aquifer::purge::{self, Readings, Washout};
use aquifer::well::{self, Contact, Criteria, Flow};
use cleanliness::air;
use intake::field::{self, Conflict};
use intake::unfit::{self, Unfit};
use jiff::civil::DateTime;
use message::{Arg, Message, Shown, trip, verdict};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::error::Error;
use record::model::{AirCount, Bottle, Custody, FieldReading, Fill, WellSection};
use record::store::{Filter, Store};
use record::words::{AirPlace, Seal};
use std::collections::BTreeMap;

/// Flow and contact time of a well on a trip.
#[derive(Debug, Clone, Default)]
pub struct WellOnTrip {
    /// Flow, L/min, where fills were timed.
    pub flow: Option<Amount>,
    /// Contact time with the pipe, min, by material, where flow and casing are known.
    pub contact: Vec<(String, Amount)>,
    /// The flow with its fills, where fills were timed.
    pub timed: Option<Flow>,
    /// Volume and contact of each section, where flow and casing are known.
    pub held: Option<Contact>,
    /// Whether each reading of the water became steady.
    pub steady: Vec<SteadyReading>,
    /// When the valve of a well that was shut was last opened.
    pub opened: Option<String>,
    /// Fills because of which the flow is not known, though some were timed.
    pub unfit: Vec<Unfit>,
    /// What the readings after that say of the standing water: quantity, its unit, and the fit.
    pub washouts: Vec<(String, &'static str, Washout)>,
    /// Findings of the stage.
    pub findings: Vec<Finding>,
}

/// Whether a reading of the water became steady, and by which rule.
#[derive(Debug, Clone, PartialEq)]
pub struct SteadyReading {
    /// The quantity as the record names it.
    pub quantity: String,
    /// How many readings.
    pub readings: usize,
    /// The rule with its source; why it could not be applied.
    pub rule: Message,
    /// Steady since this time of the record; none when it is not, or cannot be told.
    pub since: Option<String>,
    /// Met, not met, or not known.
    pub outcome: Outcome,
    /// Largest distance from the mean over the last readings the rule asks for, and that mean, in the rule's unit.
    pub last: Option<(f64, f64)>,
}

/// What was measured at the wells of a trip, and on the way home.
#[derive(Debug, Clone, Default)]
pub struct FieldChecks {
    wells: BTreeMap<i64, WellOnTrip>,
    air: BTreeMap<(i64, &'static str), Vec<Finding>>,
    custody: Vec<Custody>,
    conflicts: Vec<Conflict>,
}

impl FieldChecks {
    /// Collects the evidence of a trip.
    ///
    /// # Errors
    /// The store cannot be read. A fill, count or section that cannot be is a finding.
    pub fn of(store: &Store, trip: i64, rules: &Rules) -> Result<Self, Error> {
        let on_trip = Filter::all().is("trip", trip);
        let mut wells = BTreeMap::new();
        let fills = store.fills(&on_trip)?;
        let readings = store.field_readings(&on_trip)?;
        for w in store.wells()? {
            let here: Vec<&Fill> = fills.iter().filter(|f| f.well_id == w.id).collect();
            let read: Vec<&FieldReading> = readings.iter().filter(|r| r.well_id == w.id).collect();
            if !here.is_empty() || !read.is_empty() {
                wells.insert(w.id, well_on_trip(&here, &read, &store.well_sections(w.id)?, rules));
            }
        }
        let name = store.trips()?.into_iter().find(|t| t.id == trip).map(|t| t.name).unwrap_or_default();
        Ok(Self {
            wells,
            air: air_findings(&store.air_counts(&on_trip)?, rules),
            custody: store.custody(&on_trip)?,
            conflicts: field::conflicts(store, Some(&name))?,
        })
    }

    /// What is known of a well on this trip.
    pub fn well(&self, well: i64) -> Option<&WellOnTrip> {
        self.wells.get(&well)
    }

    /// Findings that hold for a bottle.
    pub fn findings(&self, bottle: &Bottle, analysed_at: Option<&str>, rules: &Rules) -> Vec<Finding> {
        let mut out = Vec::new();
        if let Some(well) = bottle.well_id {
            match self.wells.get(&well) {
                Some(w) => {
                    out.extend(w.findings.iter().cloned());
                    out.extend(renewed(w, bottle, rules));
                }
                None => out.push(Finding::new(Check::WellFlow, Outcome::NotKnown, Message::from(trip::NoFillAtWell))),
            }
            out.extend(self.air_over(bottle, well));
        }
        out.extend(self.conflicts.iter().filter(|c| c.subject == bottle.label).map(Conflict::finding));
        out.extend(acidified(bottle, rules));
        out.extend(self.box_findings(bottle, rules));
        out.extend(holding(bottle, analysed_at, rules));
        out
    }

    /// The air that the bottle stood open in: the cabinet's where it was used, else outdoors.
    fn air_over(&self, bottle: &Bottle, well: i64) -> Vec<Finding> {
        let outdoors = bottle.open_air_min.unwrap_or(0.0) > 0.0;
        let place = if outdoors { AirPlace::OpenAir.word() } else { AirPlace::Cabinet.word() };
        self.air.get(&(well, place)).cloned().unwrap_or_else(|| vec![air::not_counted()])
    }

    fn box_findings(&self, bottle: &Bottle, rules: &Rules) -> Vec<Finding> {
        // A step without a bottle is one of the whole box, and so of every bottle in it.
        let steps: Vec<&Custody> = self.custody.iter().filter(|c| c.bottle_id.is_none_or(|b| b == bottle.id)).collect();
        if steps.is_empty() {
            return vec![Finding::new(Check::CoolBoxSeal, Outcome::NotKnown, Message::from(trip::NoCustody))];
        }
        let mut out = Vec::new();
        let broken = steps.iter().find(|c| c.seal.as_deref() == Some(Seal::Broken.word()));
        out.push(match broken {
            Some(c) => Finding::new(
                Check::CoolBoxSeal,
                Outcome::NotMet,
                Message::from(trip::SealBroken { step: c.step.as_str().into(), at: c.at.as_str().into() }),
            ),
            None => seals_whole(&steps),
        });
        let limit = rules.limit(Check::CoolBoxTemperature, 10.0);
        if let Some(warmest) = steps.iter().filter_map(|c| c.temperature_C).max_by(f64::total_cmp) {
            let shown = |celsius: f64| Shown::significant(celsius, 2, "°C");
            let (outcome, says): (_, Message) = if warmest <= limit {
                (Outcome::Met, trip::BoxWithin { warmest: shown(warmest), limit: shown(limit) }.into())
            } else {
                (Outcome::NotMet, trip::BoxAbove { warmest: shown(warmest), limit: shown(limit) }.into())
            };
            out.push(
                Finding::new(Check::CoolBoxTemperature, outcome, says)
                    .comparing(message::compared::Warmest, Amount::stated(warmest, Unit::known("°C"))),
            );
        }
        out
    }
}

fn well_on_trip(fills: &[&Fill], readings: &[&FieldReading], sections: &[WellSection], rules: &Rules) -> WellOnTrip {
    let mut out = WellOnTrip::default();
    flow_and_contact(fills, sections, rules, &mut out);
    out.steady = steady_readings(readings);
    out.opened = wells::shut(readings).map(|(_, opened)| opened);
    out.washouts = out.opened.as_deref().map_or_else(Vec::new, |o| washouts(o, readings, out.flow.as_ref()));
    out.findings.extend(steady_finding(&out.steady));
    out.findings.extend(oxygen_beside_sulfide(readings));
    out
}

/// Flow by the fills, contact by the flow and the casing. A row of either that cannot be leaves both unknown, and
/// that is not met rather than not known: what the row hides must not make a verdict better.
fn flow_and_contact(fills: &[&Fill], sections: &[WellSection], rules: &Rules, out: &mut WellOnTrip) {
    let mut told = |check: Check, outcome, says: Message| {
        out.findings.push(Finding::new(check, outcome, says));
    };
    if fills.is_empty() {
        return told(Check::WellFlow, Outcome::NotKnown, message::well::NoFill.into());
    }
    let bad = unfit::fills(fills);
    let flow = match unfit::flow_of(fills) {
        Ok(flow) if bad.is_empty() => flow,
        _ => {
            told(Check::WellFlow, Outcome::NotMet, verdict::FlowNotKnown { why: unfit::message(&bad) }.into());
            told(
                Check::WellContactTime,
                Outcome::NotMet,
                verdict::ContactNotKnown { why: unfit::message(&bad) }.into(),
            );
            out.unfit = bad;
            return;
        }
    };
    let criteria = Criteria { longest_contact_min: rules.longest_contact_min(), ..Criteria::default() };
    out.findings.extend(flow.findings(&criteria));
    let mut told = |outcome, says: Message| {
        out.findings.push(Finding::new(Check::WellContactTime, outcome, says));
    };
    let casing = intake::site::construction(sections, &[], None);
    if sections.is_empty() {
        told(Outcome::NotKnown, trip::NoCasing.into());
    } else {
        match well::contact(&casing, &flow.amount) {
            Ok(contact) => {
                out.findings.push(contact.finding(&criteria));
                out.contact.clone_from(&contact.by_material);
                out.held = Some(contact);
            }
            Err(e) => {
                let bad = unfit::sections(sections);
                let why = if bad.is_empty() { e.message() } else { unfit::message(&bad) };
                told(Outcome::NotMet, verdict::ContactNotKnown { why }.into());
            }
        }
    }
    out.flow = Some(flow.amount.clone());
    out.timed = Some(flow);
}

/// How often a well that had been shut was renewed before this bottle; none for one that flowed all the time, or
/// for a bottle filled before it was shut.
fn renewed(w: &WellOnTrip, bottle: &Bottle, rules: &Rules) -> Option<Finding> {
    let opened = w.opened.as_deref()?;
    let filled = bottle.filled_at.as_deref()?;
    let minutes = minutes_between(opened, filled).filter(|m| *m >= 0.0)?;
    let known =
        w.held.as_ref().zip(w.flow.as_ref().and_then(|f| f.convert(&Unit::known("L/min"), None, None).ok()?.value()));
    let told = known.map(|(held, flow)| {
        purge::renewed_finding(1000.0 * held.volume_m3, flow, minutes, rules.limit(Check::WellRenewed, 3.0))
    });
    Some(match told {
        Some(Ok(finding)) => finding,
        _ => Finding::new(Check::WellRenewed, Outcome::NotKnown, Message::from(trip::ShutUnknown)),
    })
}

/// Fits of the washout to the readings after the opening; those that do not bend, or are too few, tell nothing.
fn washouts(opened: &str, readings: &[&FieldReading], flow: Option<&Amount>) -> Vec<(String, &'static str, Washout)> {
    let flow = flow.and_then(|f| f.convert(&Unit::known("L/min"), None, None).ok()?.value());
    WATCHED
        .iter()
        .filter_map(|(quantity, _, unit)| {
            let mut points: Vec<(f64, f64)> = readings
                .iter()
                .filter(|r| r.quantity == *quantity)
                .filter_map(|r| Some((minutes_between(opened, &r.at).filter(|m| *m >= 0.0)?, value_in(r, unit)?)))
                .collect();
            points.sort_by(|a, b| a.0.total_cmp(&b.0));
            Some(((*quantity).to_owned(), *unit, purge::fit_washout(&points, flow).ok()?))
        })
        .collect()
}

/// The set of criteria that a parameter is held against: low flow, else the national field manual.
pub fn rule_of(parameter: &str) -> Option<&'static str> {
    ["low-flow", "usgs"]
        .into_iter()
        .find(|r| purge::criteria().iter().any(|c| c.rule == *r && c.parameter == parameter))
}

/// Quantity of the record, parameter of the criteria, its unit.
pub const WATCHED: [(&str, &str, &str); 6] = [
    ("temperature", "temperature", "°C"),
    ("conductivity", "conductivity", "µS/cm"),
    ("pH", "pH", "pH"),
    ("Eh", "redox", "mV"),
    ("dissolved oxygen", "dissolved oxygen", "mg/L"),
    ("turbidity", "turbidity", "NTU"),
];

/// Those that decide. Redox and oxygen are told only: at a few hundredths of a mg/L a tenth of the reading is less
/// than a probe resolves, and an electrode settles for longer than the water does.
const DECIDING: [&str; 3] = ["temperature", "conductivity", "pH"];

/// The quantities that were read more than once, each against the criteria for low flow, or those of the
/// national field manual where low flow has none.
pub fn steady_readings(readings: &[&FieldReading]) -> Vec<SteadyReading> {
    WATCHED
        .iter()
        .filter_map(|(quantity, parameter, unit)| {
            let mut of: Vec<&&FieldReading> = readings.iter().filter(|r| r.quantity == *quantity).collect();
            of.sort_by(|a, b| a.at.cmp(&b.at));
            let first = of.first().filter(|_| of.len() > 1)?;
            // A reading without a time or in another unit leaves a gap, and the criteria ask for readings in a row.
            let points = of
                .iter()
                .map(|r| Some((minutes_between(&first.at, &r.at)?, value_in(r, unit)?)))
                .collect::<Option<Vec<_>>>()?;
            let rule = rule_of(parameter)?;
            let told = purge::steady(&Readings { parameter: (*parameter).into(), points: points.clone() }, rule);
            let out = |rule: Message, since: Option<f64>, outcome, last| SteadyReading {
                quantity: (*quantity).into(),
                readings: of.len(),
                rule,
                since: since
                    .and_then(|t| of.iter().zip(&points).find(|(_, p)| p.0 >= t).map(|(r, _)| r.at.replace('T', " "))),
                outcome,
                last,
            };
            Some(match told {
                Ok(s) => {
                    let outcome = if s.since_min.is_some() { Outcome::Met } else { Outcome::NotMet };
                    out(s.rule_said, s.since_min, outcome, Some((s.last_spread, s.last_mean)))
                }
                Err(e) => out(e.said(), None, Outcome::NotKnown, None),
            })
        })
        .collect()
}

fn value_in(r: &FieldReading, unit: &str) -> Option<f64> {
    // pH has no unit to turn into.
    if r.quantity == "pH" { Some(r.value) } else { wells::in_unit(r, unit).map(|v| v.0) }
}

/// The name of a quantity that is watched ([`WATCHED`]).
pub fn quantity(name: &str) -> Message {
    Message::named("condition", name).expect("every quantity that is watched has a name")
}

/// What steps say of a seal that none calls broken: a step that notes nothing of it says nothing.
fn seals_whole(steps: &[&Custody]) -> Finding {
    let noted = steps.iter().filter(|c| c.seal.as_deref() == Some(Seal::Whole.word())).count();
    let [noted, all] = [noted, steps.len()].map(message::count);
    let (outcome, says): (_, Message) = match noted {
        0 => (Outcome::NotKnown, trip::SealsNotNoted { steps: all }.into()),
        n if n == all => (Outcome::Met, trip::SealsWhole { steps: all }.into()),
        noted => (Outcome::Met, trip::SealsWholeWhereNoted { noted, steps: all }.into()),
    };
    Finding::new(Check::CoolBoxSeal, outcome, says)
}

/// One finding a well: temperature, conductivity and pH by their criteria.
fn steady_finding(steady: &[SteadyReading]) -> Option<Finding> {
    let of = |outcome: Outcome| -> Vec<&SteadyReading> {
        steady.iter().filter(|s| DECIDING.contains(&s.quantity.as_str()) && s.outcome == outcome).collect()
    };
    let names = |s: &[&SteadyReading]| s.iter().map(|s| Arg::from(quantity(&s.quantity))).collect::<Vec<_>>();
    let (met, not, unknown) = (of(Outcome::Met), of(Outcome::NotMet), of(Outcome::NotKnown));
    let missing: Vec<&str> = DECIDING.into_iter().filter(|d| !steady.iter().any(|s| s.quantity == *d)).collect();
    let since = met.iter().filter_map(|s| s.since.as_deref()).max().unwrap_or_default();
    let (outcome, says): (_, Message) = if let Some(first) = not.first() {
        let (spread, mean) = first.last.unwrap_or_default();
        let finding = verdict::NotSteady {
            quantity: quantity(&first.quantity),
            spread: Shown::significant(spread, 2, ""),
            mean: Shown::significant(mean, 3, ""),
            rule: first.rule.clone(),
        }
        .into();
        let others = names(&not[1..]);
        let says = if others.is_empty() { finding } else { verdict::NotSteadyEither { finding, others }.into() };
        (Outcome::NotMet, says)
    } else if !unknown.is_empty() || !missing.is_empty() {
        let lacking = unknown.iter().map(|s| s.quantity.as_str()).chain(missing);
        let quantities = lacking.map(|q| Arg::from(quantity(q))).collect();
        if met.is_empty() && unknown.is_empty() {
            return None;
        }
        let says = match unknown.first() {
            None => verdict::SteadyFew { quantities }.into(),
            Some(s) => verdict::SteadyFewBecause { quantities, why: s.rule.clone() }.into(),
        };
        (Outcome::NotKnown, says)
    } else {
        // All that decide.
        (Outcome::Met, trip::Steady { since: since.into() }.into())
    };
    Some(Finding::new(Check::WellSteady, outcome, says))
}

/// Oxygen is told here; the sulfide beside it comes with the laboratory's table.
fn oxygen_beside_sulfide(readings: &[&FieldReading]) -> Option<Finding> {
    let last = readings.iter().filter(|r| r.quantity == "dissolved oxygen").max_by(|a, b| a.at.cmp(&b.at))?;
    let amount = match last.u {
        Some(u) => Amount::measured(last.value, u, Unit::parse(&last.unit).ok()?),
        None => Amount::stated(last.value, Unit::parse(&last.unit).ok()?),
    };
    let says: Message = match &amount {
        Amount::Measured(m) => {
            let shown = m.shown(1.0);
            let u = Shown::new(m.u, shown.digits, "");
            trip::Oxygen { oxygen: Shown { expanded: None, ..shown }, u }.into()
        }
        stated => trip::OxygenStated { oxygen: stated.shown(1.0) }.into(),
    };
    Some(Finding::new(Check::WellOxygen, Outcome::Met, says).comparing(message::compared::DissolvedOxygen, amount))
}

/// Pools repeated counts of one place and asks for the programme's class. A count that cannot be leaves the air of its
/// place unjudged, which is not met: it must not make a verdict better.
fn air_findings(counts: &[AirCount], rules: &Rules) -> BTreeMap<(i64, &'static str), Vec<Finding>> {
    let class = rules.limit(Check::AirClass, 5.0) as u8;
    let of = |(key, sample): ((i64, intake::site::Place), Result<_, Vec<Unfit>>)| {
        let findings = match sample.map(|s| air::read(&s)) {
            Ok(Ok(reading)) => reading.findings(class),
            Ok(Err(e)) => vec![unjudged(e.message())],
            Err(rows) => vec![unjudged(unfit::message(&rows))],
        };
        (key, findings)
    };
    crate::air::pooled(counts).into_iter().map(of).collect()
}

fn unjudged(why: Message) -> Finding {
    Finding::new(Check::AirClass, Outcome::NotMet, verdict::CountsUnusable { why })
}

fn hours_between(from: &str, to: &str) -> Option<f64> {
    let parse =
        |t: &str| t.parse::<DateTime>().ok().or_else(|| t.parse::<jiff::civil::Date>().ok().map(|d| d.at(0, 0, 0, 0)));
    let span = parse(to)? - parse(from)?;
    span.total((jiff::Unit::Hour, parse(from)?)).ok()
}

/// Minutes from one time of the record to another.
pub(crate) fn minutes_between(from: &str, to: &str) -> Option<f64> {
    hours_between(from, to).map(|h| 60.0 * h)
}

fn acidified(bottle: &Bottle, rules: &Rules) -> Option<Finding> {
    bottle.acid.as_ref()?;
    let limit = rules.limit(Check::CoolBoxAcidified, 48.0);
    let name = Check::CoolBoxAcidified;
    let Some(hours) =
        bottle.filled_at.as_deref().zip(bottle.acidified_at.as_deref()).and_then(|(f, a)| hours_between(f, a))
    else {
        return Some(Finding::new(name, Outcome::NotKnown, Message::from(trip::AcidNotTimed)));
    };
    let shown = |hours: f64| Shown::significant(hours, 2, "h");
    let (outcome, says): (_, Message) = if hours <= limit {
        (Outcome::Met, trip::AcidWithin { hours: shown(hours), limit: shown(limit) }.into())
    } else {
        (Outcome::NotMet, trip::AcidBeyond { hours: shown(hours), limit: shown(limit) }.into())
    };
    Some(
        Finding::new(name, outcome, says)
            .comparing(message::compared::HoursToAcid, Amount::stated(hours, Unit::known("h"))),
    )
}

fn holding(bottle: &Bottle, analysed_at: Option<&str>, rules: &Rules) -> Option<Finding> {
    let days = hours_between(bottle.filled_at.as_deref()?, analysed_at?)? / 24.0;
    let limit = rules.limit(Check::CoolBoxHoldingTime, 180.0);
    let (held, longest) = (Shown::significant(days, 2, "d"), Shown::significant(limit, 3, "d"));
    let (outcome, says): (_, Message) = if days <= limit {
        (Outcome::Met, trip::HeldWithin { days: held, limit: longest }.into())
    } else {
        (Outcome::NotMet, trip::HeldBeyond { days: held, limit: longest }.into())
    };
    Some(
        Finding::new(Check::CoolBoxHoldingTime, outcome, says)
            .comparing(message::compared::DaysHeld, Amount::stated(days, Unit::known("d"))),
    )
}
