//! The results of a programme against limits: published ones and those that a person added.
//!
//! In: the record, a day, authorities, a guard. Out: for each result of water above, cannot tell or below, what lies
//! above a limit first, health before taste before operation; the strictest limit, the nearest one for health and the
//! local one marked; limits that are still to come, by name; what the tables of limits name and nobody measured,
//! microbes first. Sulfide is compared by its undissociated part too, where pH and temperature of the well were read on
//! the trip. A comparison, and no word on drinking: that is the health authority's.

use assessment::results::{self, Listed};
use limits::compound_limits::of_each;
use limits::local::{LocalRow, coming, for_health, holding, strictest};
use limits::{Answer, BelowIs, Comparison, Guard, Known, Limit, Options, Urgency, compare, rank};
use message::{Spoken, limit};
use quantity::Amount;
use record::error::Error;
use record::identity::ResultId;
use record::model::{FieldReading, LocalLimit, ResultRow, VerdictWord};
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::{BTreeSet, HashMap};

/// What is asked.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    /// Only these authorities and the person's own; all when empty.
    pub authorities: Vec<String>,
    /// How sure.
    pub guard: Guard,
    /// The day, `YYYY-MM-DD`; else that of each bottle.
    pub date: Option<String>,
    /// The day for bottles whose own is not on record, as an interface has it from its clock; without it no limit that has a
    /// first day decides about them.
    pub otherwise: Option<String>,
}

/// One result beside one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The result.
    pub result: ResultId,
    /// Well.
    pub well: Option<String>,
    /// Analyte.
    pub analyte: String,
    /// The result's verdict.
    pub verdict: Option<VerdictWord>,
    /// The profile of checks that gave it; none: the programme's table alone.
    pub profile: Option<String>,
    /// The day on which the limit holds, `YYYY-MM-DD`; none where nobody knows the bottle's.
    pub on: Option<String>,
    /// The comparison.
    pub comparison: Comparison,
    /// A limit that a person added.
    pub local: bool,
    /// The strictest limit of the analyte.
    pub strictest: bool,
    /// The strictest limit of the analyte that is set for health.
    pub nearest_health: bool,
}

impl Row {
    /// Does the result lie above a limit that it could keep, and stand?
    pub fn exceeds(&self) -> bool {
        let c = &self.comparison;
        c.answer == Answer::Above && !c.limit.is_goal_of_zero() && self.verdict != Some(VerdictWord::Rejected)
    }
}

/// A programme against limits.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Against {
    /// Results beside limits: what lies above first, health before taste before operation, then what cannot be told; of
    /// these the highest share of its limit first.
    pub rows: Vec<Row>,
    /// Limits of what was measured that are still to come on the day of a result.
    pub coming: Vec<Limit>,
    /// Analytes that the limits name and nobody measured here; "microbes" first.
    pub not_tested: Vec<String>,
    /// Analytes that were measured and have no limit here.
    pub without_limit: Vec<String>,
    /// What to bear in mind.
    pub warnings: Vec<String>,
}

#[derive(Serialize)]
#[allow(clippy::struct_excessive_bools, reason = "each is a column of its own")]
struct JsonRow<'a> {
    result: &'a ResultId,
    well: Option<&'a str>,
    analyte: &'a str,
    verdict: Option<VerdictWord>,
    #[serde(skip_serializing_if = "Option::is_none")]
    profile: Option<&'a str>,
    amount: &'a Amount,
    limit: &'a Limit,
    on: Option<&'a str>,
    answer: Answer,
    probability_under: Option<f64>,
    within_uncertainty: bool,
    sentence: &'a str,
    local: bool,
    strictest: bool,
    nearest_health: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    method_meets_demand: Option<&'a limits::method::MethodMet>,
}

impl Serialize for Row {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let c = &self.comparison;
        JsonRow {
            result: &self.result,
            well: self.well.as_deref(),
            analyte: &self.analyte,
            verdict: self.verdict,
            profile: self.profile.as_deref(),
            amount: &c.amount,
            limit: &c.limit,
            on: self.on.as_deref(),
            answer: c.answer,
            probability_under: c.probability_under,
            sentence: &c.sentence,
            within_uncertainty: c.within_uncertainty,
            local: self.local,
            strictest: self.strictest,
            nearest_health: self.nearest_health,
            method_meets_demand: c.method.as_ref(),
        }
        .serialize(s)
    }
}

/// Words of tests for microbes, as laboratories write them.
const MICROBES: &[&str] =
    &["coli", "coliform", "enterococ", "colony", "microb", "plate count", "clostrid", "pseudomonas"];

/// Was anything of this name a test for microbes?
fn of_microbes(analyte: &str) -> bool {
    let lower = analyte.to_lowercase();
    MICROBES.iter().any(|m| lower.contains(m))
}

/// The limits that a person added, and what is wrong with those that cannot be used.
///
/// # Errors
/// The store cannot be read.
pub fn own(store: &Store) -> Result<(Vec<Limit>, Vec<String>), Error> {
    let (mut out, mut faults) = (vec![], vec![]);
    for l in store.list::<LocalLimit>(&Filter::all())? {
        match row(&l).limit(&format!("local limit of {}", l.analyte)) {
            Ok(limit) => out.push(limit),
            Err(e) => faults.push(format!("{e}; this limit was left out")),
        }
    }
    Ok((out, faults))
}

fn row(l: &LocalLimit) -> LocalRow {
    let text = |t: &Option<String>| t.clone().unwrap_or_default();
    LocalRow {
        analyte: l.analyte.clone(),
        unit: l.unit.clone(),
        authority: l.authority.clone(),
        document: text(&l.document),
        edition: text(&l.edition),
        basis: text(&l.basis),
        kind: text(&l.kind),
        limit_low: l.limit_low,
        limit_high: Some(l.limit_high),
        valid_from: text(&l.valid_from),
        valid_until: text(&l.valid_until),
        provenance: text(&l.provenance),
        date_read: text(&l.date_read),
        note: text(&l.note),
        ..LocalRow::default()
    }
}

/// What the record knows of a result beside its amount.
fn known(r: &Listed, read: &Visits) -> Known {
    let below_is = match &r.amount {
        Some(Amount::Below(b)) => below_is(r, b.limit),
        _ => BelowIs::NotStated,
    };
    Known {
        below_is,
        detection_limit: r.detection_limit,
        quantification_limit: r.quantification_limit,
        // A laboratory's conductivity is one at 25 °C where it says nothing else.
        conductivity_at_degc: None,
        undissociated: if r.analyte == SULFIDE { read.undissociated(r) } else { None },
    }
}

/// Sulfide in all its forms.
const SULFIDE: &str = "S(-II)";

/// What the figure of a non-detect is. A net value with u is bounded here; else the laboratory's word for it counts, and
/// where it has none, the limit of the row that it equals.
fn below_is(r: &Listed, limit: f64) -> BelowIs {
    if r.net.as_ref().is_some_and(|net| net.u().is_some()) {
        return BelowIs::Bound;
    }
    let is = |l: Option<f64>| l == Some(limit);
    let called = r.reporting_limit_kind.as_deref().and_then(BelowIs::parse);
    match called {
        Some(kind) if is(r.reporting_limit) || r.reporting_limit.is_none() => kind,
        _ if is(r.detection_limit) => BelowIs::DetectionLimit,
        _ if is(r.quantification_limit) => BelowIs::QuantificationLimit,
        _ if is(r.critical_value) => BelowIs::CriticalValue,
        _ if is(r.reporting_limit) => BelowIs::ReportingLimit,
        _ => BelowIs::NotStated,
    }
}

/// What the undissociated part of sulfide hangs on.
const CONDITIONS: [&str; 2] = ["pH", "temperature"];

/// pH and temperature, by what they were read of.
struct Visits<'a> {
    /// The last reading of a quantity at a well on a trip.
    field: HashMap<(&'a str, &'a str, &'a str), &'a FieldReading>,
    /// What the first result of a quantity in a bottle says.
    results: HashMap<(String, String), Option<f64>>,
}

impl<'a> Visits<'a> {
    fn of(field: &'a [FieldReading]) -> Self {
        let mut out = Self { field: HashMap::new(), results: HashMap::new() };
        for f in field.iter().filter(|f| CONDITIONS.contains(&f.quantity.as_str())) {
            let Some(trip) = f.trip.as_deref() else { continue };
            let last = out.field.entry((&f.quantity, trip, &f.well)).or_insert(f);
            if f.at >= last.at {
                *last = f;
            }
        }
        out
    }

    /// A result that may be one of the conditions.
    fn add(&mut self, quantity: &str, bottle: &str, amount: Option<&Amount>) {
        if CONDITIONS.contains(&quantity) {
            self.results.entry((quantity.into(), bottle.into())).or_insert_with(|| amount.and_then(Amount::value));
        }
    }

    /// Share of the sulfide of a bottle that is undissociated H2S, by the last pH and temperature that were read at its
    /// well on its trip, or stand in the same bottle.
    fn undissociated(&self, r: &Listed) -> Option<f64> {
        let read = |quantity: &str| {
            let visit = r.trip.as_deref().zip(r.well.as_deref());
            let last = visit.and_then(|(trip, well)| self.field.get(&(quantity, trip, well))).map(|f| f.value);
            last.or_else(|| self.results.get(&(quantity.to_string(), r.bottle.clone())).copied().flatten())
        };
        aqueous::odour::undissociated_share(read("pH")?, read("temperature")?).ok()
    }
}

/// Compares all results of water.
///
/// # Errors
/// The store cannot be read.
pub fn against(store: &Store, asked: &Asked) -> Result<Against, Error> {
    Ok(in_order(store, asked)?.all())
}

/// As [`against`], in order and not yet in words: of a long record each row is made when it is asked for.
///
/// # Errors
/// The store cannot be read.
pub fn in_order(store: &Store, asked: &Asked) -> Result<InOrder, Error> {
    let field = store.field_readings(&Filter::all())?;
    let mut visits = Visits::of(&field);
    for quantity in CONDITIONS {
        store.each(&Filter::all().is("measurand.analyte", quantity).latest(), |r: ResultRow| {
            visits.add(quantity, &r.bottle, results::amount(&r).as_ref());
            Ok(())
        })?;
    }
    let (own, warnings) = own(store)?;
    let mut beside = Beside::new(asked, &own, visits);
    results::each(store, |r| beside.add(&r))?;
    Ok(beside.end(&field, warnings))
}

/// The same for results already listed.
///
/// # Errors
/// The store cannot be read.
pub fn against_of(store: &Store, all: &[Listed], asked: &Asked) -> Result<Against, Error> {
    let field = store.field_readings(&Filter::all())?;
    let mut visits = Visits::of(&field);
    for r in all {
        visits.add(&r.analyte, &r.bottle, r.amount.as_ref());
    }
    let (own, warnings) = own(store)?;
    let mut beside = Beside::new(asked, &own, visits);
    for r in all {
        beside.add(r);
    }
    Ok(beside.end(&field, warnings).all())
}

/// What of a result stands in its rows.
struct Kept {
    result: ResultId,
    well: Option<String>,
    analyte: String,
    verdict: Option<VerdictWord>,
    profile: Option<String>,
    on: Option<String>,
    amount: Amount,
    known: Known,
}

/// A result beside a limit, by their places.
struct Pair {
    urgency: Urgency,
    share: f64,
    result: u32,
    limit: u32,
    local: bool,
    strictest: bool,
    nearest_health: bool,
}

/// Results beside limits, in order.
pub struct InOrder {
    guard: Guard,
    results: Vec<Kept>,
    limits: Vec<Limit>,
    pairs: Vec<Pair>,
    /// What else is said; its rows are made by [`InOrder::rows`].
    pub rest: Against,
}

impl InOrder {
    /// Rows that a reader wants: `all`, or those of the strictest limit, the nearest for health and local ones.
    pub fn rows(&self, all: bool) -> impl Iterator<Item = Row> {
        self.pairs.iter().filter(move |p| all || p.strictest || p.local || p.nearest_health).map(|p| self.row(p))
    }

    fn row(&self, pair: &Pair) -> Row {
        let (kept, limit) = (&self.results[pair.result as usize], &self.limits[pair.limit as usize]);
        Row {
            result: kept.result.clone(),
            well: kept.well.clone(),
            analyte: kept.analyte.clone(),
            verdict: kept.verdict,
            profile: kept.profile.clone(),
            on: kept.on.clone(),
            comparison: compare(&kept.amount, limit, &Options { guard: self.guard, known: kept.known.clone() }),
            local: pair.local,
            strictest: pair.strictest,
            nearest_health: pair.nearest_health,
        }
    }

    /// All of it at once.
    pub fn all(self) -> Against {
        let rows = self.rows(true).collect();
        Against { rows, ..self.rest }
    }
}

/// Results beside limits, one after the other.
struct Beside<'a> {
    asked: &'a Asked,
    /// Limits that a person added.
    own: &'a [Limit],
    visits: Visits<'a>,
    out: InOrder,
    /// Place of each limit that was met, by where it stands in memory.
    places: HashMap<*const Limit, u32>,
    measured: BTreeSet<String>,
    without: BTreeSet<String>,
    microbes: bool,
}

impl<'a> Beside<'a> {
    fn new(asked: &'a Asked, own: &'a [Limit], visits: Visits<'a>) -> Self {
        let rest = Against::default();
        let out = InOrder { guard: asked.guard, results: vec![], limits: vec![], pairs: vec![], rest };
        let (measured, without) = (BTreeSet::new(), BTreeSet::new());
        Self { asked, own, visits, out, places: HashMap::new(), measured, without, microbes: false }
    }

    fn add(&mut self, r: &Listed) {
        let (asked, own) = (self.asked, self.own);
        // A bottle without a verdict is evidence only: one of a series that tells where metal comes from.
        if !r.kind.is_water() || r.verdict.is_none() {
            return;
        }
        let name = limits::table::analyte(&r.analyte);
        self.microbes |= of_microbes(&r.analyte);
        let Some(amount) = &r.amount else { return };
        let own_day = || r.filled_at.as_deref().and_then(|d| d.get(..10)).map(String::from);
        let day = asked.date.clone().or_else(own_day).or_else(|| asked.otherwise.clone());
        let is_own = |l: &Limit| own.iter().any(|o| std::ptr::eq(o, l));
        let of_whom =
            |l: &&Limit| asked.authorities.is_empty() || is_own(l) || asked.authorities.contains(&l.authority);
        let wanted = |l: &&Limit| l.analyte == name && of_whom(l);
        let of_group = of_each(&r.analyte).filter(|l| l.decides_on(day.as_deref())).filter(of_whom);
        let mut of: Vec<&Limit> = holding(own, day.as_deref()).filter(wanted).collect();
        for l in of_group {
            of.push(l);
        }
        for l in coming(own, day.as_deref()).filter(wanted) {
            if !self.out.rest.coming.contains(l) {
                self.out.rest.coming.push(l.clone());
            }
        }
        if of.is_empty() {
            self.without.insert(name.clone());
        }
        self.measured.insert(name);
        if of.is_empty() {
            return;
        }
        let is = |marked: Option<&Limit>, l: &Limit| marked.is_some_and(|m| std::ptr::eq(m, l));
        let lowest = strictest(of.iter().copied());
        let health = strictest(of.iter().copied().filter(for_health));
        let options = Options { guard: asked.guard, known: known(r, &self.visits) };
        let result = u32::try_from(self.out.results.len()).unwrap_or(u32::MAX);
        for l in of {
            let (urgency, share) = rank(amount, l, &options);
            let limits = &mut self.out.limits;
            let limit = *self.places.entry(std::ptr::from_ref(l)).or_insert_with(|| {
                limits.push(l.clone());
                u32::try_from(limits.len() - 1).unwrap_or(u32::MAX)
            });
            let (local, strictest, nearest_health) = (is_own(l), is(lowest, l), is(health, l));
            self.out.pairs.push(Pair { urgency, share, result, limit, local, strictest, nearest_health });
        }
        self.out.results.push(Kept {
            result: r.result.clone(),
            well: r.well.clone(),
            analyte: r.analyte.clone(),
            verdict: r.verdict,
            profile: r.profile.clone(),
            on: day,
            amount: amount.clone(),
            known: options.known,
        });
    }

    fn end(self, field: &[FieldReading], mut warnings: Vec<String>) -> InOrder {
        let Self { asked, own, mut out, mut measured, without, microbes, .. } = self;
        out.pairs.sort_by(|a, b| a.urgency.cmp(&b.urgency).then_with(|| b.share.total_cmp(&a.share)));
        for f in field {
            measured.insert(limits::table::analyte(&f.quantity));
        }
        let mut not_tested: Vec<String> = if microbes { vec![] } else { vec!["microbes".into()] };
        for l in holding(own, asked.date.as_deref().or(asked.otherwise.as_deref())) {
            if !measured.contains(&l.analyte) && !not_tested.contains(&l.analyte) && !l.analyte.starts_with("pesticide")
            {
                not_tested.push(l.analyte.clone());
            }
        }
        if out.limits.iter().any(|l| l.provenance == "recalled") {
            warnings.push(limit::RecalledYet.text());
        }
        warnings.push(limit::Comparison.text());
        out.rest.not_tested = not_tested;
        out.rest.without_limit = without.into_iter().collect();
        out.rest.warnings = warnings;
        out
    }
}

/// Of many results by their rows those that may lie above a limit: a first look by amount alone, whatever the day, for
/// interfaces that look at many at a time. [`against_of`] decides about what is left.
///
/// # Errors
/// The store cannot be read.
pub fn may_exceed(store: &Store, rows: &[i64]) -> Result<Vec<i64>, Error> {
    let (own, _) = own(store)?;
    let above = |amount: &Amount, l: &Limit| compare(amount, l, &Options::default()).answer == Answer::Above;
    let mut out = vec![];
    for row in rows {
        for r in store.results(&Filter::all().is("id", *row))? {
            let name = limits::table::analyte(&r.analyte);
            let Some(amount) = results::amount(&r) else { continue };
            let mut of = limits::limits().iter().chain(&own).filter(|l| l.analyte == name && !l.is_goal_of_zero());
            if of.any(|l| above(&amount, l)) || of_each(&r.analyte).any(|l| above(&amount, l)) {
                out.push(*row);
            }
        }
    }
    Ok(out)
}

/// What lies above a limit, one row a result: the most serious of its limits, then the one it exceeds most.
pub fn exceedances(rows: &[Row]) -> Vec<&Row> {
    let mut out: Vec<&Row> = vec![];
    for r in rows.iter().filter(|r| r.exceeds()) {
        if !out.iter().any(|o| o.result == r.result) {
            out.push(r);
        }
    }
    out
}
