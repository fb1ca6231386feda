//! What the record knows of each well: how it is built, and on each trip flow, contact, head,
//! flow test, travel time, capture width. The sciences answer; here is only who meets whom.
//!
//! In: well, sections, layers, timed fills, and readings at the well of these quantities: `pressure`
//! (bar, shut well) with `gauge height` (m above ground), `outlet height` (m above ground), `valve`
//! (0 shut, 1 open), `flow` in time after the valve was opened, `distance to recharge area` (m),
//! `level of recharge area` (m above sea level), `age by …` (years). Any unit of the same kind will do.
//! Out: a [`WellSheet`] a well. What an answer lacks is said in words ([`Visit::lacking`]); what
//! cannot be (a gauge without height, a flow that rises) is named there too, and the rest goes on.
//!
//! What each input of the travel time stands on, a measurement or a textbook, is kept beside it.
//! It does not guess a conductivity, a porosity or a gradient that nobody measured or tabulated.
//! Checked in `crates/programme/tests/demo_wells.rs`.

use crate::field_checks::{FieldChecks, WellOnTrip, minutes_between};
use crate::verdict::Rules;
use aquifer::Reason;
use aquifer::pipe::{self, Added, LeachRate};
use aquifer::travel::{self, Age, Capture, Draws, Formation, Known, Simulated};
use aquifer::well::{self, Construction, Gauge, Head};
use aquifer::welltest::{self, Bootstrap, FlowingTest, Reading, TestFit};
use intake::site::{construction, said_before};
use intake::unfit;
use message::{Digits, Message, Name, Shown, amount, aquifer as reason, trip, well as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::error::Error;
use record::model::{FieldReading, Trip, Well, WellSection};
use record::store::{Filter, Store};

/// Quantities that speak of the well and its surroundings, not of the water.
const OF_THE_WELL: [&str; 7] = [
    "pressure",
    "gauge height",
    "outlet height",
    "valve",
    "flow",
    "distance to recharge area",
    "level of recharge area",
];

/// Does a reading of this quantity speak of the well, not of the water that came out?
pub fn is_of_the_well(quantity: &str) -> bool {
    OF_THE_WELL.contains(&quantity) || quantity.starts_with("age by ")
}

/// A well as the record has it.
#[derive(Debug, Clone)]
pub struct WellSheet {
    /// The well.
    pub well: Well,
    /// Casing, screens, layers.
    pub construction: Construction,
    /// Why the construction cannot be, where it cannot.
    pub fault: Option<Message>,
    /// What the construction leaves open.
    pub findings: Vec<Finding>,
    /// One a trip on which something was read here.
    pub visits: Vec<Visit>,
}

/// What one trip found at a well.
#[derive(Debug, Clone)]
pub struct Visit {
    /// Name of the trip.
    pub trip: String,
    /// Flow, contact, steadiness.
    pub known: WellOnTrip,
    /// Head, where the shut well's pressure was read.
    pub head: Option<Head>,
    /// When the valve was shut and opened, where the record has both.
    pub shut: Option<(String, String)>,
    /// Flow test, where one was made.
    pub test: Option<Test>,
    /// Travel time and capture, where their inputs are on record.
    pub travel: Option<Travel>,
    /// What the record lacks for head, test, travel time: a sentence each.
    pub lacking: Vec<Message>,
}

/// A flow test at constant head.
#[derive(Debug, Clone)]
pub struct Test {
    /// What was measured.
    pub input: FlowingTest,
    /// The fit.
    pub fit: TestFit,
}

/// Name of an input.
const CONDUCTIVITY: &str = "hydraulic conductivity";

/// An input of the travel time with what it stands on.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// What it is.
    pub name: &'static str,
    /// Value, or range.
    pub known: Known,
    /// Its unit; empty for a share.
    pub unit: &'static str,
    /// Where it comes from: a reading, or table and author.
    pub origin: Message,
}

impl Input {
    /// Measured here, not taken from a textbook.
    pub fn is_measured(&self) -> bool {
        matches!(self.known, Known::Measured(..))
    }

    /// "8.4e-6 m/s (u 6.1e-7)", "0.05 to 0.3".
    pub fn value(&self) -> Message {
        let shown = |x: f64, unit: &str| {
            let small = x != 0.0 && x.abs() < 1e-2;
            Shown::new(x, if small { Digits::Exponent(1) } else { Digits::Trimmed(3) }, unit)
        };
        match self.known {
            Known::Measured(v, u) if u > 0.0 => amount::WithU { amount: shown(v, self.unit), u: shown(u, "") }.into(),
            Known::Measured(v, _) => amount::WithoutU { amount: shown(v, self.unit) }.into(),
            Known::Range(a, b) | Known::Decades(a, b) => {
                said::Range { low: shown(a, ""), high: shown(b, self.unit) }.into()
            }
        }
    }

    /// "Effective porosity: 0.05 to 0.3, sandstone, …".
    pub fn said(&self) -> Message {
        let (value, origin) = (self.value(), self.origin.clone());
        match self.name {
            "distance" => said::InputDistance { value, origin }.into(),
            "gradient" => said::InputGradient { value, origin }.into(),
            CONDUCTIVITY => said::InputConductivity { value, origin }.into(),
            _ => said::InputPorosity { value, origin }.into(),
        }
    }
}

/// Water on its way to the well.
#[derive(Debug, Clone)]
pub struct Travel {
    /// What it rests on.
    pub inputs: Vec<Input>,
    /// Travel time, years.
    pub years: Simulated,
    /// Capture width and stagnation distance; needs a measured T.
    pub capture: Option<Capture>,
    /// Hydraulic gradient, m/m.
    pub gradient: Known,
    /// Distance of the recharge area, m.
    pub distance_m: f64,
    /// Level of the recharge area, m above the datum.
    pub recharge_level_m: f64,
    /// Tracers' ages beside it.
    pub ages: Vec<Finding>,
}

/// All wells of the record; streams that take their overflow are not among them.
///
/// # Errors
/// The store cannot be read.
pub fn sheets(store: &Store) -> Result<Vec<WellSheet>, Error> {
    let rules = Rules::new(store.check_rules()?);
    let trips = store.trips()?;
    let evidence = trips.iter().map(|t| FieldChecks::of(store, t.id, &rules)).collect::<Result<Vec<_>, Error>>()?;
    let readings = store.field_readings(&Filter::all())?;
    let mut out = vec![];
    for w in store.wells()?.into_iter().filter(|w| !w.is_stream()) {
        let (sections, layers) = (store.well_sections(w.id)?, store.layers(w.id)?);
        let construction = construction(&sections, &layers, w.elevation_m);
        let visits = trips
            .iter()
            .zip(&evidence)
            .filter_map(|(t, e)| e.well(w.id).map(|known| visit(t, known, &construction, &here(&readings, t, &w))))
            .collect();
        let (fault, findings) = (fault(&construction, &sections), findings(&construction, &sections));
        out.push(WellSheet { findings, fault, construction, visits, well: w });
    }
    Ok(out)
}

/// One well with its newest visits, at most `visits` of them, oldest first; none where there is no such well.
///
/// # Errors
/// As [`sheets`].
pub fn sheet(store: &Store, name: &str, visits: usize) -> Result<Option<WellSheet>, Error> {
    let Some(w) = store.wells()?.into_iter().find(|w| w.name == name) else { return Ok(None) };
    let rules = Rules::new(store.check_rules()?);
    let readings = store.field_readings(&Filter::all().is("well", w.id))?;
    let fills = store.fills(&Filter::all().is("well", w.id))?;
    let mut trips = store.trips()?;
    trips.retain(|t| {
        let here = |trip: Option<i64>| trip == Some(t.id);
        readings.iter().any(|r| here(r.trip_id)) || fills.iter().any(|f| here(f.trip_id))
    });
    trips.sort_by(|a, b| a.starts.cmp(&b.starts));
    let (sections, layers) = (store.well_sections(w.id)?, store.layers(w.id)?);
    let construction = construction(&sections, &layers, w.elevation_m);
    let mut seen = vec![];
    for t in &trips[trips.len().saturating_sub(visits)..] {
        let evidence = FieldChecks::of(store, t.id, &rules)?;
        let known = evidence.well(w.id).map(|k| visit(t, k, &construction, &here(&readings, t, &w)));
        seen.extend(known);
    }
    let (fault, findings) = (fault(&construction, &sections), findings(&construction, &sections));
    Ok(Some(WellSheet { findings, fault, construction, visits: seen, well: w }))
}

/// Readings of a well on a trip, and those of the well that belong to no trip, in time order.
fn here<'a>(readings: &'a [FieldReading], trip: &Trip, well: &Well) -> Vec<&'a FieldReading> {
    let mut out: Vec<&FieldReading> =
        readings.iter().filter(|r| r.well_id == well.id && r.trip_id.is_none_or(|t| t == trip.id)).collect();
    out.sort_by(|a, b| a.at.cmp(&b.at));
    out
}

/// What the construction leaves open, and the rows that say a stretch a second time.
fn findings(construction: &Construction, sections: &[WellSection]) -> Vec<Finding> {
    let mut out = construction.findings();
    let again = said_before(sections);
    if !again.is_empty() {
        let rows = again.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
        let says: Message = if again.len() == 1 {
            trip::SectionTwice { row: rows.into() }.into()
        } else {
            trip::SectionsTwice { rows: rows.into() }.into()
        };
        out.push(Finding::new(Check::WellSectionTwice, Outcome::NotKnown, says));
    }
    out
}

/// Why the construction cannot be, with the rows of the record.
fn fault(construction: &Construction, sections: &[WellSection]) -> Option<Message> {
    let why = construction.check().err()?.said();
    let rows: Vec<String> = unfit::sections(sections).iter().map(|r| r.row.to_string()).collect();
    if rows.is_empty() { Some(why) } else { Some(reason::InRows { why, rows: rows.join(", ").into() }.into()) }
}

/// The last reading of a quantity, in a unit.
fn last(readings: &[&FieldReading], quantity: &str, unit: &str) -> Option<(f64, Option<f64>)> {
    readings.iter().rev().find(|r| r.quantity == quantity).and_then(|r| in_unit(r, unit))
}

/// A reading in a unit; none where the units do not fit.
pub fn in_unit(r: &FieldReading, unit: &str) -> Option<(f64, Option<f64>)> {
    let own = Unit::parse(&r.unit).ok()?;
    let amount = match r.u {
        Some(u) => Amount::measured(r.value, u, own),
        None => Amount::stated(r.value, own),
    };
    let there = amount.convert(&Unit::known(unit), None, None).ok()?;
    Some((there.value()?, there.u()))
}

fn visit(trip: &Trip, known: &WellOnTrip, c: &Construction, readings: &[&FieldReading]) -> Visit {
    let mut out = Visit {
        trip: trip.name.clone(),
        known: known.clone(),
        head: None,
        shut: shut(readings),
        test: None,
        travel: None,
        lacking: vec![],
    };
    match head(c, readings) {
        Ok(h) => out.head = Some(h),
        Err(why) => out.lacking.push(why),
    }
    if let Some(h) = &out.head {
        match test(c, h, readings) {
            Ok(t) => out.test = t,
            Err(why) => out.lacking.push(why),
        }
    }
    match travel_to(&out, c, readings) {
        Ok(t) => out.travel = Some(t),
        Err(why) => out.lacking.push(why),
    }
    out
}

/// When the valve was last shut, and opened after that.
pub fn shut(readings: &[&FieldReading]) -> Option<(String, String)> {
    let valve: Vec<&&FieldReading> = readings.iter().filter(|r| r.quantity == "valve").collect();
    let opened = valve.iter().rposition(|r| r.value > 0.0)?;
    let closed = valve[..opened].iter().rfind(|r| r.value <= 0.0)?;
    Some((closed.at.clone(), valve[opened].at.clone()))
}

fn head(c: &Construction, readings: &[&FieldReading]) -> Result<Head, Message> {
    let Some((bar, u_bar)) = last(readings, "pressure", "bar") else {
        return Err(said::HeadWithoutPressure.into());
    };
    let Some((height_m, u_height_m)) = last(readings, "gauge height", "m") else {
        return Err(said::HeadWithoutGauge.into());
    };
    // A groundwater's temperature changes its density by parts in ten thousand: 10 °C where none was read.
    let temperature_c = last(readings, "temperature", "°C").map_or(10.0, |t| t.0);
    // 1 bar = 1e5 Pa (SI brochure, 9th ed., table 8 of the 8th ed.).
    let gauge =
        Gauge { pressure_pa: bar * 1e5, u_pressure_pa: u_bar.map(|u| u * 1e5), height_m, u_height_m, temperature_c };
    well::head(&gauge, c.ground_elevation_m).map_err(|e| said::HeadNotKnown { why: e.said() }.into())
}

/// The flow test, where flow was read in time after the valve was opened.
fn test(c: &Construction, head: &Head, readings: &[&FieldReading]) -> Result<Option<Test>, Message> {
    let flows: Vec<&&FieldReading> = readings.iter().filter(|r| r.quantity == "flow").collect();
    if flows.is_empty() {
        return Ok(None);
    }
    let (_, opened) = shut(readings).ok_or(said::TestWithoutOpening)?;
    let (outlet, _) = last(readings, "outlet height", "m").ok_or(said::TestWithoutOutlet)?;
    // The test draws on the aquifer at the foot: the deepest section is the well there.
    let foot = c.sections.iter().max_by(|a, b| a.to_m.total_cmp(&b.to_m));
    let radius_m = foot.map(|s| s.radius_m).ok_or(said::TestWithoutRadius)?;
    let mut series = vec![];
    for r in flows.iter().filter(|r| r.at > opened) {
        let minutes = minutes_between(&opened, &r.at).ok_or(said::TestTimeCannotBeRead)?;
        let other_unit = || said::TestFlowInOtherUnit { at: r.at.as_str().into(), unit: Name::from(&r.unit) };
        let (l_min, _) = in_unit(r, "L/min").ok_or_else(other_unit)?;
        series.push(Reading { t_s: 60.0 * minutes, value: l_min / 60_000.0 });
    }
    let input = FlowingTest { drawdown_m: head.above_ground.value().unwrap_or(f64::NAN) - outlet, radius_m, series };
    let fit = welltest::fit_flowing(&input, Bootstrap::default()).map_err(|e| said::TestNotFitted { why: e.said() })?;
    Ok(Some(Test { input, fit }))
}

/// The layer that feeds the well, by the middle of its deepest screen.
pub fn feeding_layer(c: &Construction) -> Option<&well::Layer> {
    let screen = c.screens.iter().max_by(|a, b| a.to_m.total_cmp(&b.to_m))?;
    let middle = f64::midpoint(screen.from_m, screen.to_m);
    c.layers.iter().find(|l| l.from_m <= middle && middle <= l.to_m)
}

fn formation(layer: &well::Layer) -> Option<&'static Formation> {
    travel::formations().iter().find(|f| f.material.eq_ignore_ascii_case(layer.name.trim()))
}

fn travel_to(v: &Visit, c: &Construction, readings: &[&FieldReading]) -> Result<Travel, Message> {
    let metres = |quantity: &str| last(readings, quantity, "m").map(|(x, u)| (x, u.unwrap_or(0.0)));
    let not_told = |e: Reason| said::TravelNotTold { why: e.said() };
    let distance = metres("distance to recharge area").ok_or(said::TravelWithoutDistance)?;
    let level = metres("level of recharge area").ok_or(said::TravelWithoutLevel)?;
    let head = v.head.as_ref().and_then(|h| h.elevation.as_ref()).ok_or(said::TravelWithoutHead)?;
    let at = (head.value().unwrap_or(f64::NAN), head.u().unwrap_or(0.0));
    let gradient = travel::gradient(level, at, distance).map_err(not_told)?;
    let layer = feeding_layer(c).ok_or(said::TravelWithoutLayer)?;
    let book = formation(layer);
    let named = || Name::from(&layer.name);
    let conductivity =
        conductivity(v, layer, book).ok_or_else(|| said::TravelWithoutConductivity { layer: named() })?;
    // By the textbook alone: the record has no place for a porosity.
    let porosity =
        book.and_then(|f| f.porosity.map(|p| (f, p))).ok_or_else(|| said::TravelWithoutPorosity { layer: named() })?;
    let inputs = vec![
        Input {
            name: "distance",
            known: Known::Measured(distance.0, distance.1),
            unit: "m",
            origin: said::OriginRecord.into(),
        },
        Input { name: "gradient", known: gradient, unit: "", origin: said::OriginHeadAndLevel.into() },
        conductivity,
        Input {
            name: "effective porosity",
            known: Known::Range(porosity.1.0, porosity.1.1),
            unit: "",
            origin: by_textbook(porosity.0),
        },
    ];
    let path = travel::Path {
        distance_m: inputs[0].known,
        gradient,
        conductivity_m_s: inputs[2].known,
        porosity: inputs[3].known,
    };
    let years = travel::travel_time_years(&path, Draws::default()).map_err(not_told)?;
    let ages = ages(readings, &years);
    Ok(Travel {
        capture: capture(v, gradient),
        inputs,
        years,
        gradient,
        distance_m: distance.0,
        recharge_level_m: level.0,
        ages,
    })
}

fn by_textbook(f: &Formation) -> Message {
    // What the table adds to a row stands behind its source.
    let source = f.source.split("; ").next().unwrap_or_default();
    let (formation, source, seen) = (f.named(), source.into(), Name::from(&f.provenance));
    match f.note() {
        Some(note) => said::OriginTextbookNoted { formation, source, note, seen }.into(),
        None => said::OriginTextbook { formation, source, seen }.into(),
    }
}

/// K = T/thickness of the feeding layer where a test was made, else the textbook's decades.
fn conductivity(v: &Visit, layer: &well::Layer, book: Option<&Formation>) -> Option<Input> {
    let thickness = layer.to_m - layer.from_m;
    let name = CONDUCTIVITY;
    if let Some(t) = &v.test {
        let e = &t.fit.transmissivity_m2_s;
        let thickness_m = Shown::significant(thickness, 3, "m");
        let origin = said::OriginFlowTest { thickness: thickness_m, layer: Name::from(&layer.name) }.into();
        return Some(Input { name, known: Known::Measured(e.value / thickness, e.u / thickness), unit: "m/s", origin });
    }
    let f = book?;
    let (a, b) = f.conductivity_m_s;
    Some(Input { name, known: Known::Decades(a, b), unit: "m/s", origin: by_textbook(f) })
}

fn capture(v: &Visit, gradient: Known) -> Option<Capture> {
    let t = &v.test.as_ref()?.fit.transmissivity_m2_s;
    let flow = v.known.flow.as_ref()?;
    let q = Known::Measured(flow.value()? / 60_000.0, flow.u()? / 60_000.0);
    travel::capture(q, Known::Measured(t.value, t.u), gradient, Draws::default()).ok()
}

fn ages(readings: &[&FieldReading], years: &Simulated) -> Vec<Finding> {
    readings
        .iter()
        .filter_map(|r| {
            let tracer = r.quantity.strip_prefix("age by ")?;
            let (v, u) = in_unit(r, "a")?;
            Some(travel::age_finding(tracer, &Age::Measured(v, u?), years))
        })
        .collect()
}

/// What the pipe adds at most, against the water it costs to have less.
#[derive(Debug, Clone)]
pub struct PipeChoice {
    /// Metal added at most at a row of flows, slow to fast.
    pub curve: Vec<Added>,
    /// At the flow of the trip.
    pub now: Added,
    /// The lowest flow at which the pipe adds less than the target for certain.
    pub enough: Added,
    /// The target, ng/L.
    pub target_ng_l: f64,
}

/// The pipe's part at other flows, if all the metal found were the pipe's: an upper bound, because the aquifer
/// brought some of it. `found_ng_l` was found at `flow` (L/min).
///
/// # Errors
/// What [`pipe::added`] and [`pipe::lowest_flow`] refuse.
pub fn pipe_choice(
    c: &Construction,
    flow: &Amount,
    found_ng_l: f64,
    target_ng_l: f64,
) -> Result<PipeChoice, aquifer::Error> {
    let q = flow.value().unwrap_or(f64::NAN);
    let contact = well::contact(c, flow)?;
    let wall_m2: f64 = contact.sections.iter().map(|s| s.wall_m2).sum();
    let rates: Vec<LeachRate> = contact
        .by_material
        .iter()
        .map(|(m, _)| LeachRate { material: m.clone(), ng_m2_min: found_ng_l * q / wall_m2, u_ng_m2_min: 0.0 })
        .collect();
    let enough = pipe::lowest_flow(c, &rates, target_ng_l)?;
    let (low, high) = (0.3 * q.min(enough.flow_l_min), 3.0 * q.max(enough.flow_l_min));
    // Geometric steps by repeated multiplication: the same bytes on every machine.
    let step = (high / low).sqrt().sqrt().sqrt().sqrt().sqrt();
    let flows: Vec<f64> = std::iter::successors(Some(low), |x| Some(x * step)).take(33).collect();
    Ok(PipeChoice {
        curve: pipe::added(c, &rates, &flows)?,
        now: pipe::added(c, &rates, &[q])?[0],
        enough,
        target_ng_l,
    })
}
