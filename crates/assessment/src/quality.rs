//! Quality over all runs of a programme: does the laboratory give the same answer year after year?
//!
//! In: every reduced run, in order of its start. Out: for each analyte the recovery of the control
//! water, of the drift checks and of the spikes (fractions) and the blanks that are subtracted
//! (recipe's unit), run by run, each on a Shewhart chart with run rules, a CUSUM and an EWMA
//! (`measurement::control`: ISO 7870-2, Page 1954, Roberts 1959); what the long-term figures say of
//! u ([`long_term`]); and what becomes of metal in a bottle that is measured again ([`stability`]).
//!
//! A point is the mean of a run, since the vials of one run share its line; blanks stand singly as
//! well. Centre and sd come from the first twelve points, at least eight; under eight the answer is
//! "cannot be given with this few". Charts move no value: a broken rule is a finding. A point is
//! taken out only by a person (`exclude`). Blanks are skewed, so a rule broken by a single blank
//! may be chance. Charts: handbook examples in `measurement`'s `tests/control.rs`; here
//! `crates/programme/tests/quality.rs`.

pub mod long_term;
pub mod stability;

use crate::derive::{Prepared, in_time};
use long_term::LongTerm;
use measurement::control::{Chart, ChartResult, Rule, Signal};
use measurement::run::{Analyte, ReducedRun, Role};
use message::{Message, Shown, quality};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use record::error::Error;
use record::store::Store;
use serde::Serialize;
use stability::Stability;

/// Fewest points of a chart.
// Mean moving range of fewer tells too little of sd; `measurement::control` refuses fewer.
pub const FEWEST: usize = 8;
/// Points, from the first, that set centre and sd where there are as many.
// The programme's own choice: later points then cannot hide their own shift.
pub const BASELINE: usize = 12;
/// Reference value and limit of the CUSUM, in sd.
// NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3 (from memory): 0.5 and 4 to 5.
const CUSUM: (f64, f64) = (0.5, 5.0);
/// Weight and width of the EWMA.
// NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4 (from memory): 0.2 to 0.3 and 3.
const EWMA: (f64, f64) = (0.2, 3.0);

/// What is followed from run to run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Mean recovery of the reference materials.
    ControlWater,
    /// Mean recovery of the drift checks.
    DriftCheck,
    /// Mean recovery of the spikes made in the field.
    FieldSpike,
    /// Mean recovery of the spikes made in the laboratory.
    LabSpike,
    /// Mean of the blanks that are subtracted.
    BlankMean,
    /// Each of those blanks.
    Blank,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 6] =
        [Self::ControlWater, Self::DriftCheck, Self::FieldSpike, Self::LabSpike, Self::BlankMean, Self::Blank];

    /// Its English word, for codes and data.
    pub fn word(self) -> &'static str {
        match self {
            Self::ControlWater => "control water",
            Self::DriftCheck => "drift checks",
            Self::FieldSpike => "field spikes",
            Self::LabSpike => "laboratory spikes",
            Self::BlankMean => "mean of the blanks",
            Self::Blank => "single blanks",
        }
    }

    /// As a document says it.
    pub fn said(self) -> Message {
        match self {
            Self::ControlWater => quality::ControlWater.into(),
            Self::DriftCheck => quality::DriftChecks.into(),
            Self::FieldSpike => quality::FieldSpikes.into(),
            Self::LabSpike => quality::LaboratorySpikes.into(),
            Self::BlankMean => quality::MeanOfTheBlanks.into(),
            Self::Blank => quality::SingleBlanks.into(),
        }
    }

    /// Is it a recovery (a fraction), or a blank (a concentration)?
    pub fn is_recovery(self) -> bool {
        !matches!(self, Self::BlankMean | Self::Blank)
    }
}

/// The rule as a message.
fn rule_said(rule: Rule) -> Message {
    match rule {
        Rule::BeyondThree => quality::BeyondThree.into(),
        Rule::TwoOfThreeBeyondTwo => quality::BeyondTwo.into(),
        Rule::FourOfFiveBeyondOne => quality::BeyondOne.into(),
        Rule::EightOnOneSide => quality::OnOneSide.into(),
        Rule::SixInARow => quality::InARow.into(),
        Rule::CumulativeSum => quality::CumulativeSum.into(),
        Rule::MovingAverage => quality::MovingAverage.into(),
        _ => quality::AnotherRule.into(),
    }
}

/// A point of a chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Point {
    /// Index into [`Quality::runs`].
    pub run: usize,
    /// Name of the run, or of the vial.
    pub name: String,
    /// Recovery as a fraction, or concentration.
    pub value: f64,
    /// Standard uncertainty; of a mean the mean of the single u, since vials of a run share most.
    pub u: f64,
    /// How many vials it stands for.
    pub n: usize,
}

/// The three charts of a series.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Charts {
    /// Centre line, from the baseline.
    pub centre: f64,
    /// sd of single points, from the moving range of the baseline.
    pub sd: f64,
    /// Points of the baseline.
    pub baseline: usize,
    /// Values with limits and run rules.
    pub shewhart: ChartResult,
    /// Cumulative sums.
    pub cusum: ChartResult,
    /// Moving average.
    pub ewma: ChartResult,
}

impl Charts {
    fn new(values: &[f64]) -> Result<Self, measurement::error::Error> {
        let baseline = values.len().min(BASELINE);
        let chart = Chart::from_period(&values[..baseline])?;
        Ok(Self {
            centre: chart.centre,
            sd: chart.sd,
            baseline,
            shewhart: chart.shewhart(values)?,
            cusum: chart.cusum(values, CUSUM.0, CUSUM.1)?,
            ewma: chart.ewma(values, EWMA.0, EWMA.1)?,
        })
    }

    /// Rules that are broken at a point, in the order of the charts, with the side.
    pub fn broken_at(&self, at: usize) -> Vec<(Rule, bool)> {
        [&self.shewhart, &self.cusum, &self.ewma]
            .into_iter()
            .flat_map(|c| &c.signals)
            .filter(|s| s.holds_at(at))
            .map(|s| (s.rule, s.high))
            .collect()
    }

    /// Patterns that a point completes first, in the order of the charts: each is told there, with its length.
    pub fn begun_at(&self, at: usize) -> Vec<&Signal> {
        let all = [&self.shewhart, &self.cusum, &self.ewma].into_iter().flat_map(|c| &c.signals);
        all.filter(|s| s.at == at).collect()
    }
}

/// The charts, or why there are none.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Charted {
    /// Drawn.
    Drawn(Box<Charts>),
    /// Cannot be given with this few.
    TooFew {
        /// Points there are.
        found: usize,
        /// Points needed.
        needed: usize,
    },
    /// The values do not let one draw a chart; why.
    Unfit(String),
}

/// One thing followed for one analyte.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Series {
    /// What was measured.
    pub analyte: Analyte,
    /// What is followed.
    pub kind: Kind,
    /// 1 for recoveries, else the recipe's unit.
    pub unit: Unit,
    /// The points in time order.
    pub points: Vec<Point>,
    /// The charts.
    pub charted: Charted,
}

impl Series {
    fn new(analyte: Analyte, kind: Kind, unit: Unit, points: Vec<Point>) -> Self {
        let values: Vec<f64> = points.iter().map(|p| p.value).collect();
        let charted = if points.len() < FEWEST {
            Charted::TooFew { found: points.len(), needed: FEWEST }
        } else {
            Charts::new(&values).map_or_else(|e| Charted::Unfit(e.to_string()), |c| Charted::Drawn(Box::new(c)))
        };
        Self { analyte, kind, unit, points, charted }
    }

    /// The state of the series.
    pub fn says(&self) -> Message {
        match &self.charted {
            Charted::TooFew { found, needed } => {
                quality::PointsFew { found: message::count(*found), needed: message::count(*needed) }.into()
            }
            Charted::Unfit(_) => quality::NotDrawn.into(),
            Charted::Drawn(c) => {
                let places = self.points.iter().enumerate().filter_map(|(i, p)| {
                    let rules = patterns_said(&c.begun_at(i))?;
                    Some(quality::Place { point: p.name.as_str().into(), rules }.into())
                });
                match places.rev().reduce(|more: Message, one| quality::Places { one, more }.into()) {
                    None => quality::NoneBroken { points: message::count(self.points.len()) }.into(),
                    Some(places) => quality::BrokenAt { places }.into(),
                }
            }
        }
    }
}

/// `two of three beyond 2 sd, low`; none where no rule is broken.
pub fn rules_said(broken: &[(Rule, bool)]) -> Option<Message> {
    crate::say::joined(broken.iter().map(|(rule, high)| side_said(*rule, *high)))
}

/// Patterns of a chart in words, as [`rules_said`], with the number of points of those that go on.
pub fn patterns_said(begun: &[&Signal]) -> Option<Message> {
    crate::say::joined(begun.iter().map(|s| -> Message {
        let rule = side_said(s.rule, s.high);
        if s.goes_on() { quality::Long { rule, points: message::count(s.points) }.into() } else { rule }
    }))
}

fn side_said(rule: Rule, high: bool) -> Message {
    let rule = rule_said(rule);
    if high { quality::High { rule }.into() } else { quality::Low { rule }.into() }
}

/// A run, by name and start.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RunAt {
    /// Name.
    pub name: String,
    /// Start, ISO 8601, where it is on record.
    pub started_at: Option<String>,
}

/// Quality over all runs.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Quality {
    /// The runs in order of their start; without a date by name, last.
    pub runs: Vec<RunAt>,
    /// What is followed, by analyte and kind.
    pub series: Vec<Series>,
    /// What the years say of u, by analyte.
    pub long_term: Vec<LongTerm>,
    /// Bottles that were measured in more than one run.
    pub stability: Vec<Stability>,
}

impl Quality {
    /// Collects it. `runs` are the reduced runs of the programme, in any order.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of<'a>(
        store: &Store,
        runs: impl IntoIterator<Item = (&'a Prepared, &'a ReducedRun)>,
    ) -> Result<Self, Error> {
        let mut runs: Vec<(&Prepared, &ReducedRun)> = runs.into_iter().collect();
        runs.sort_by_key(|(p, _)| in_time(&p.run));
        let mut analytes: Vec<Analyte> =
            runs.iter().flat_map(|(_, r)| r.analytes.iter().map(|a| a.analyte.clone())).collect();
        analytes.sort();
        analytes.dedup();
        let mut series = Vec::new();
        for a in &analytes {
            for kind in Kind::ALL {
                // All runs in the unit of the first that measured this: another run's recipe may name another.
                let first = runs.iter().find(|(_, r)| r.analytes.iter().any(|s| s.analyte == *a));
                let unit = match first {
                    Some((_, r)) if !kind.is_recovery() => r.recipe.unit.clone(),
                    _ => Unit::one(),
                };
                let points: Vec<Point> =
                    runs.iter().enumerate().flat_map(|(i, (_, r))| points(r, i, a, kind, &unit)).collect();
                if !points.is_empty() {
                    series.push(Series::new(a.clone(), kind, unit, points));
                }
            }
        }
        let reduced: Vec<&ReducedRun> = runs.iter().map(|(_, r)| *r).collect();
        Ok(Self {
            runs: runs
                .iter()
                .map(|(p, _)| RunAt { name: p.run.name.clone(), started_at: p.run.started_at.clone() })
                .collect(),
            series,
            long_term: analytes.iter().map(|a| LongTerm::of(&reduced, a)).collect(),
            stability: if runs.len() > 1 { stability::all(store)? } else { vec![] },
        })
    }

    /// One series.
    pub fn series_of(&self, analyte: &Analyte, kind: Kind) -> Option<&Series> {
        self.series.iter().find(|s| s.analyte == *analyte && s.kind == kind)
    }

    /// Findings on a result of a run: charts, long-term u, and the bottle's own earlier values. None
    /// where the programme has one run only.
    pub fn findings(&self, run: &str, bottle: &str, analyte: &Analyte, net: &Measured) -> Vec<Finding> {
        if self.runs.len() < 2 {
            return vec![];
        }
        let mut out = self.chart_findings(run, analyte);
        if let Some(l) = self.long_term.iter().find(|l| l.analyte == *analyte) {
            out.push(l.finding(net));
        }
        out.extend(self.stability.iter().filter(|s| s.is_of(bottle, analyte)).map(Stability::finding));
        out
    }

    /// One finding for each chart that the run breaks, one for those it keeps, one for those that
    /// cannot be given.
    fn chart_findings(&self, run: &str, analyte: &Analyte) -> Vec<Finding> {
        let mut out = Vec::new();
        let (mut kept, mut few, mut found) = (vec![], vec![], 0);
        for s in self.series.iter().filter(|s| s.analyte == *analyte && s.kind != Kind::Blank) {
            let Some(at) = s.points.iter().position(|p| self.runs[p.run].name == run) else { continue };
            match &s.charted {
                Charted::Drawn(c) => match rules_said(&c.broken_at(at)) {
                    Some(rules) => out.push(broken(s, c, at, rules, self.runs.len())),
                    None => kept.push(s.kind.said()),
                },
                Charted::TooFew { found: n, .. } => {
                    few.push(s.kind.said());
                    found = found.max(*n);
                }
                Charted::Unfit(_) => few.push(s.kind.said()),
            }
        }
        if let Some(charts) = crate::say::joined(kept) {
            let says = quality::Kept { charts, runs: message::count(self.runs.len()) };
            out.push(Finding::new(Check::RunControlChart, Outcome::Met, Message::from(says)));
        }
        if let Some(charts) = crate::say::joined(few) {
            let says = quality::Few { charts, runs: message::count(found), needed: message::count(FEWEST) };
            out.push(Finding::new(Check::RunControlChart, Outcome::NotKnown, Message::from(says)));
        }
        out
    }
}

fn broken(s: &Series, c: &Charts, at: usize, rules: Message, runs: usize) -> Finding {
    let p = &s.points[at];
    let [now, centre, sd] = [p.value, c.centre, c.sd].map(|x| {
        if s.kind.is_recovery() {
            Shown::significant(100.0 * x, 3, "%")
        } else {
            Shown::significant(x, 3, s.unit.to_string())
        }
    });
    let says = quality::Broken {
        chart: s.kind.said(),
        element: s.analyte.element.as_str().into(),
        runs: message::count(runs),
        now,
        baseline: message::count(c.baseline),
        centre,
        sd,
        rules,
    };
    Finding::new(Check::RunControlChart, Outcome::NotMet, Message::from(says))
        .comparing(message::compared::ThisRun, Amount::stated(p.value, s.unit.clone()))
        .comparing(message::compared::Centre, Amount::stated(c.centre, s.unit.clone()))
        .comparing(message::compared::StandardDeviationBetweenRuns, Amount::stated(c.sd, s.unit.clone()))
}

/// The points that a run gives, blanks in `unit`; a blank whose unit does not turn into it (mass per bottle beside mass
/// per litre) has no place on the chart.
fn points(r: &ReducedRun, run: usize, a: &Analyte, kind: Kind, unit: &Unit) -> Vec<Point> {
    let role_of = |position: u32| r.find(position, a).map(|i| r.results[i].role);
    let reference = |role: Role| -> Vec<&Measured> {
        let all = r.references.iter().filter(|c| c.analyte == *a && role_of(c.position) == Some(role));
        all.map(|c| &c.recovery).collect()
    };
    let spikes = |role: Role| -> Vec<&Measured> {
        r.spikes.iter().filter(|s| s.analyte == *a && s.role == role).map(|s| &s.recovery).collect()
    };
    let blanks: Vec<(&str, Measured)> = (r.results.iter())
        .filter(|x| x.analyte == *a && x.role == r.recipe.blank.samples)
        .filter_map(|b| Some((b.vial.as_str(), in_unit(&b.gross, unit)?)))
        .collect();
    let values: Vec<&Measured> = match kind {
        Kind::ControlWater => reference(Role::ReferenceMaterial),
        Kind::DriftCheck => reference(Role::DriftCheck),
        Kind::FieldSpike => spikes(Role::FieldSpike),
        Kind::LabSpike => spikes(Role::LabSpike),
        Kind::BlankMean => blanks.iter().map(|b| &b.1).collect(),
        Kind::Blank => {
            let one = |(name, m): &(&str, Measured)| Point { run, name: (*name).into(), value: m.value, u: m.u, n: 1 };
            return blanks.iter().map(one).collect();
        }
    };
    if values.is_empty() {
        return vec![];
    }
    let n = values.len() as f64;
    let mean = |f: fn(&Measured) -> f64| values.iter().map(|m| f(m)).sum::<f64>() / n;
    vec![Point { run, name: r.name.clone(), value: mean(|m| m.value), u: mean(|m| m.u), n: values.len() }]
}

fn in_unit(m: &Measured, unit: &Unit) -> Option<Measured> {
    if m.unit == *unit {
        return Some(m.clone());
    }
    match Amount::Measured(m.clone()).convert(unit, None, None) {
        Ok(Amount::Measured(m)) => Some(m),
        _ => None,
    }
}
