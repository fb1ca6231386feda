//! Long lists of compounds, none found: what such a list shows, and what it does not.
//!
//! In: compounds of one or more samples, each with a net value and u, or "below" its limit; detection
//! limits; CAS numbers. Out: an upper bound for each, the highest possible sum against the limit for
//! sums, the compounds whose detection limit is too high to answer, the bound on the frequency over n
//! samples, faults of names and numbers, and the honest sentence.
//!
//! Upper bound: max(net, 0) + U with U = 2u where there is a net value, never under its critical value
//! (`statistics::bound`). A value without u that stands at or under its critical value L_C is bounded by max(net, 0) + L_C:
//! L_C is what the scatter of nothing reaches with 95 %. Else the reporting limit. The highest possible sum adds them up within a sample; a compound under two names counts once, with its
//! higher bound. Not found in n of n samples: present in fewer than 1 − 0.05^(1/n) of such samples with
//! 95 % (Clopper & Pearson 1934, one-sided, zero of n). Samples must stand for the water of which it is
//! said. Checked in `tests/absence.rs`.

use crate::cas::{self, Fault};
use crate::claim::at_most;
use crate::local::holding;
use crate::table::Limit;
use message::{Arg, Message, Shown, absence as said, claim, count};
use quantity::{Amount, CalcError, Lang, Spoken, Unit};
use serde::Serialize;
use statistics::bound::{SIDE, reported_upper_bound};
use std::collections::{BTreeMap, BTreeSet};

/// One compound of one sample.
#[derive(Debug, Clone, PartialEq)]
pub struct Compound {
    /// Name as the laboratory writes it.
    pub name: String,
    /// CAS number as written.
    pub cas: Option<String>,
    /// The sample; one where none is named.
    pub sample: String,
    /// Net value with u, stated value, or below; none where only limits are stated.
    pub amount: Option<Amount>,
    /// Critical value, in the unit of the amount.
    pub critical_value: Option<f64>,
    /// Detection limit, in the unit of the amount.
    pub detection_limit: Option<f64>,
    /// Reporting limit, in the unit of the amount.
    pub reporting_limit: Option<f64>,
    /// Unit of the limits.
    pub unit: Unit,
    /// The limit it is to be held against, where one is stated, in `unit`.
    pub limit: Option<f64>,
}

/// Where an upper bound comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum How {
    /// max(net, 0) + 2u, or the critical value where that is higher.
    #[serde(rename = "net + U, k = 2")]
    NetPlusU,
    /// max(net, 0) + critical value, where the value comes without u.
    #[serde(rename = "net + critical value")]
    NetPlusCriticalValue,
    /// The laboratory's limit.
    #[serde(rename = "reporting limit")]
    ReportingLimit,
    /// The value stands without u: it is itself, not a bound.
    #[serde(rename = "value without u")]
    Value,
}

/// One compound, judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// Name as written.
    pub name: String,
    /// CAS number as written.
    pub cas: Option<String>,
    /// Sample.
    pub sample: String,
    /// Found over its critical value.
    pub found: bool,
    /// What was found, in the unit of the list.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// Upper bound, in the unit of the list.
    pub upper_bound: Option<f64>,
    /// How it was come by.
    pub how: Option<How>,
    /// Detection limit, in the unit of the list.
    pub detection_limit: Option<f64>,
    /// The limit it is held against.
    pub limit: Option<f64>,
    /// The detection limit (where none is stated, the bound) lies over that limit: nothing can be said.
    pub blind: bool,
}

/// A limit for one compound or a sum, with whose it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ListLimit {
    /// Figure, in the unit of the list.
    pub value: f64,
    /// Whose, with its mark, in English.
    pub authority: String,
    /// The same, to be said in any language.
    #[serde(skip)]
    pub whose: Message,
}

impl ListLimit {
    /// A figure with whose it is.
    pub fn new(value: f64, whose: impl Into<Message>) -> Self {
        let whose = whose.into();
        Self { value, authority: whose.in_english(), whose }
    }
}

/// The limits of a list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ListLimits {
    /// For each compound that has none of its own.
    pub single: Option<ListLimit>,
    /// For the sum.
    pub sum: Option<ListLimit>,
}

/// What a list says.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// Unit of all figures.
    pub unit: Unit,
    /// Compounds, each sample's apart.
    pub rows: Vec<Row>,
    /// Different compounds.
    pub compounds: usize,
    /// Samples.
    pub samples: usize,
    /// Names of what was found.
    pub found: Vec<String>,
    /// Highest sum of upper bounds in a sample; none where a bound is missing.
    pub highest_sum: Option<f64>,
    /// Limit for the sum.
    pub sum_limit: Option<ListLimit>,
    /// Whether the highest possible sum keeps to it.
    pub sum_under_limit: Option<bool>,
    /// Compounds whose detection limit is over their limit.
    pub blind: Vec<String>,
    /// Their share of the compounds that have a limit.
    pub blind_share: Option<f64>,
    /// Compounds without any bound.
    pub open: Vec<String>,
    /// Compounds are present in fewer than this share of such samples (95 %); where nothing was found.
    pub frequency_upper_95: Option<f64>,
    /// One compound under two names: the names.
    pub doubles: Vec<Vec<String>>,
    /// Faults of numbers and names.
    pub faults: Vec<String>,
    /// The same, to be said in any language.
    #[serde(skip)]
    pub told: Vec<Message>,
    /// In plain words.
    pub plain: String,
    /// With the figures.
    pub scientific: String,
}

/// Limits of an authority for pesticides, as the table of limits has them.
pub fn pesticide_limits(authority: &str, unit: &Unit) -> ListLimits {
    let find = |name: &str| {
        let l = holding(&[], None).find(|l| l.authority == authority && l.analyte == name)?;
        Some(ListLimit::new(in_unit(l, unit)?, whose(l)))
    };
    ListLimits { single: find("pesticide, single"), sum: find("pesticides, total") }
}

fn in_unit(l: &Limit, unit: &Unit) -> Option<f64> {
    l.unit.conversion(unit, None, None).ok().map(|c| c.apply(l.high))
}

fn whose(l: &Limit) -> Message {
    let (authority, document) = (l.authority.as_str().into(), l.document.as_str().into());
    match l.provenance.as_str() {
        "seen" => said::Whose { authority, document }.into(),
        _ => said::WhoseRecalled { authority, document }.into(),
    }
}

/// Compounds that the EU directive holds to a lower figure than other pesticides, in µg/L.
// Directive (EU) 2020/2184, annex I part B, note to "pesticides": 0.030 µg/L; from memory.
const STRICTER: &[(&str, f64)] = &[("309-00-2", 0.03), ("60-57-1", 0.03), ("76-44-8", 0.03), ("1024-57-3", 0.03)];

/// The share of samples that may hold a compound that was not found in any of `n`, 95 % one-sided.
///
/// ```
/// use limits::absence::frequency_bound;
/// // Never found in three samples: more than half of all samples may hold it.
/// assert!((frequency_bound(3) - 0.632).abs() < 1e-3);
/// // 59 samples bound it to a twentieth.
/// assert!(frequency_bound(59) < 0.05);
/// ```
pub fn frequency_bound(n: u64) -> f64 {
    1.0 - libm::pow(0.05, 1.0 / n as f64)
}

/// Was it found? Over the edge (critical value, or the limit that a laboratory reports by); without one, over zero with
/// 95 % where there is a u.
pub(crate) fn is_found(amount: &Amount, edge: Option<f64>) -> bool {
    match amount {
        Amount::Measured(m) => m.value > edge.unwrap_or_else(|| statistics::t::upper_quantile(SIDE, m.dof) * m.u),
        Amount::Stated(s) => s.value > edge.unwrap_or(0.0),
        Amount::Above(_) => true,
        Amount::Below(_) => false,
    }
}

/// Judges a list.
///
/// # Errors
/// [`CalcError::Refused`]: no compound, a unit that does not convert, a literal zero without u.
pub fn judge(list: &[Compound], given: &ListLimits, lang: Lang) -> Result<Report, CalcError> {
    let Some(first) = list.first() else {
        return Err(CalcError::refused("compounds", "none", "a list of compounds"));
    };
    let unit = first.unit.clone();
    let mut names = Names::default();
    let mut rows = vec![];
    for (i, c) in list.iter().enumerate() {
        names.add(c);
        rows.push(row(i, c, &unit, given)?);
    }
    let mut per_sample: BTreeMap<&str, BTreeMap<String, Option<f64>>> = BTreeMap::new();
    for (c, r) in list.iter().zip(&rows) {
        let same = per_sample.entry(&c.sample).or_default().entry(identity(c)).or_insert(Some(0.0));
        // Under two names: once, with the higher bound.
        *same = same.zip(r.upper_bound).map(|(a, b)| a.max(b));
    }
    let sums: Vec<Option<f64>> = per_sample.values().map(|s| s.values().copied().sum()).collect();
    let highest_sum = sums.iter().copied().collect::<Option<Vec<f64>>>().and_then(|s| s.into_iter().reduce(f64::max));
    // A compound under two names counts once, by the first of them.
    let distinct = |wanted: &dyn Fn(&Row) -> bool| -> Vec<String> {
        let mut seen = BTreeSet::new();
        let of = list.iter().zip(&rows).filter(|(c, r)| wanted(r) && seen.insert(identity(c)));
        of.map(|(_, r)| r.name.clone()).collect()
    };
    let found = distinct(&|r| r.found);
    let blind = distinct(&|r| r.blind);
    let with_limit = distinct(&|r| r.limit.is_some()).len();
    let samples = per_sample.len();
    let compounds = per_sample.values().flat_map(BTreeMap::keys).collect::<BTreeSet<_>>().len();
    let sum_under_limit = highest_sum.zip(given.sum.as_ref()).map(|(s, l)| s <= l.value);
    let mut report = Report {
        open: distinct(&|r| r.upper_bound.is_none()),
        frequency_upper_95: found.is_empty().then(|| frequency_bound(samples as u64)),
        blind_share: (with_limit > 0).then(|| blind.len() as f64 / with_limit as f64),
        sum_limit: given.sum.clone(),
        doubles: names.doubles(),
        faults: names.faults.iter().map(|f| f.in_language(lang)).collect(),
        told: names.faults,
        unit,
        rows,
        compounds,
        samples,
        found,
        highest_sum,
        sum_under_limit,
        blind,
        plain: String::new(),
        scientific: String::new(),
    };
    report.plain = report.plain(lang);
    report.scientific = report.scientific(lang);
    Ok(report)
}

fn identity(c: &Compound) -> String {
    cas::identity(&c.name, c.cas.as_deref())
}

fn row(i: usize, c: &Compound, unit: &Unit, given: &ListLimits) -> Result<Row, CalcError> {
    let refused = |found: String, expected: &str| CalcError::refused(format!("compounds[{i}]"), found, expected);
    let factor = c.unit.conversion(unit, None, Some(1.0));
    let factor = factor.map_err(|e| refused(format!("{} in {}", c.name, c.unit), &e.to_string()))?;
    let (found, bound, how) = match &c.amount {
        Some(a @ Amount::Measured(m)) => {
            let bound = reported_upper_bound(m.value, m.u, m.dof, c.critical_value);
            (is_found(a, c.critical_value), Some(bound), Some(How::NetPlusU))
        }
        Some(Amount::Stated(s)) if s.value > 0.0 => without_u(s.value, c),
        Some(Amount::Stated(s)) => {
            return Err(refused(
                format!("{} {}", c.name, s.value),
                "a net value with its u, or below with the limit: a zero says nothing",
            ));
        }
        Some(Amount::Below(b)) => (false, Some(b.limit), Some(How::ReportingLimit)),
        Some(Amount::Above(_)) => (true, None, None),
        None => (false, c.reporting_limit, c.reporting_limit.map(|_| How::ReportingLimit)),
    };
    let convert = |x: f64| factor.apply(x);
    let stricter = cas_of(c).and_then(|n| STRICTER.iter().find(|s| s.0 == n)).map(|s| s.1);
    let to_micro = unit.conversion(&Unit::known("ug/L"), None, Some(1.0)).map(|f| f.factor);
    let eu = given.single.as_ref().is_some_and(|l| l.authority.starts_with("EU"));
    let single = match (stricter, to_micro) {
        (Some(s), Ok(f)) if eu => Some(s / f),
        _ => given.single.as_ref().map(|l| l.value),
    };
    let limit = c.limit.map(convert).or(single);
    let detection = c.detection_limit.map(convert);
    let upper_bound = bound.map(convert);
    // The bound of what was found is no measure of what the method can see.
    let reach = detection.or(if found { None } else { upper_bound });
    Ok(Row {
        name: c.name.clone(),
        cas: c.cas.clone(),
        sample: c.sample.clone(),
        found,
        value: c.amount.as_ref().filter(|_| found).and_then(Amount::value).map(convert),
        upper_bound,
        how,
        detection_limit: detection,
        limit,
        blind: !found && reach.zip(limit).is_some_and(|(r, l)| r > l * (1.0 + 1e-12)),
    })
}

fn cas_of(c: &Compound) -> Option<String> {
    c.cas.as_deref().and_then(|n| cas::parse(n).ok()).or_else(|| cas::by_name(&c.name).map(|k| k.cas.clone()))
}

/// A value without u: found, with its bound, and how that was come by. At or under the edge that its laboratory holds it
/// to it was not found.
fn without_u(value: f64, c: &Compound) -> (bool, Option<f64>, Option<How>) {
    match (c.critical_value, c.reporting_limit) {
        (Some(critical), limit) if value <= critical => match limit {
            // What the laboratory reports by, unless the blanks alone reach further.
            Some(limit) if value <= limit && critical <= limit => (false, Some(limit), Some(How::ReportingLimit)),
            _ => (false, Some(value + critical), Some(How::NetPlusCriticalValue)),
        },
        (None, Some(limit)) if value <= limit => (false, Some(limit), Some(How::ReportingLimit)),
        _ => (true, Some(value), Some(How::Value)),
    }
}

/// Names and numbers, checked against each other.
#[derive(Default)]
struct Names {
    by_identity: BTreeMap<String, BTreeMap<String, Vec<String>>>,
    faults: Vec<Message>,
    seen: BTreeSet<(String, Option<String>)>,
}

impl Names {
    fn add(&mut self, c: &Compound) {
        let of_sample = self.by_identity.entry(identity(c)).or_default().entry(c.sample.clone()).or_default();
        of_sample.push(c.name.clone());
        // A fault is told once, however many samples repeat it.
        if !self.seen.insert((c.name.clone(), c.cas.clone())) {
            return;
        }
        let Some(number) = c.cas.as_deref().filter(|n| !n.trim().is_empty()) else { return };
        let name = || c.name.as_str().into();
        let as_written = || number.into();
        let fault: Message = match cas::parse(number) {
            Err(Fault::Form) => said::NumberForm { name: name(), number: as_written() }.into(),
            Err(Fault::CheckDigit { expected }) => {
                let (name, number, digit) = (name(), as_written(), expected.into());
                match cas::by_name(&c.name) {
                    Some(k) => said::CheckDigitKnown { name, number, digit, known: k.cas.as_str().into() }.into(),
                    None => said::CheckDigit { name, number, digit }.into(),
                }
            }
            Ok(parsed) => match (cas::by_name(&c.name), cas::by_cas(&parsed)) {
                (Some(k), _) if k.cas != parsed => {
                    said::OtherNumber { name: name(), number: parsed.into(), known: k.cas.as_str().into() }.into()
                }
                (None, Some(k)) => {
                    said::NumberOfAnother { name: name(), number: parsed.into(), known: k.name.as_str().into() }.into()
                }
                _ => return,
            },
        };
        self.faults.push(fault);
    }

    fn doubles(&self) -> Vec<Vec<String>> {
        let mut out: Vec<Vec<String>> = vec![];
        for names in self.by_identity.values().flat_map(BTreeMap::values).filter(|n| n.len() > 1) {
            if !out.contains(names) {
                out.push(names.clone());
            }
        }
        out
    }
}

impl Report {
    /// The list stands for `n` samples with the same outcome.
    pub fn stands_for(&mut self, n: u64, lang: Lang) {
        self.samples = usize::try_from(n).unwrap_or(usize::MAX);
        self.frequency_upper_95 = self.found.is_empty().then(|| frequency_bound(n));
        self.plain = self.plain(lang);
        self.scientific = self.scientific(lang);
    }

    /// The honest sentences, in plain words.
    fn plain(&self, lang: Lang) -> String {
        let (n, samples) = (count(self.compounds), count(self.samples));
        let first: Message = if !self.found.is_empty() {
            let names = self.found.join(", ").into();
            said::Found { n, samples, k: count(self.found.len()), names }.into()
        } else if let Some(sum) = self.highest_sum {
            said::NoneFound { n, samples, sum: at_most(sum, self.unit.to_string()) }.into()
        } else {
            said::NoneWithoutSum { n, samples, open: count(self.open.len()) }.into()
        };
        let mut out = vec![first];
        if let (Some(under), Some(l)) = (self.sum_under_limit, &self.sum_limit) {
            let (limit, whose) = (Shown::trimmed(l.value, 3, self.unit.to_string()), l.whose.clone());
            out.push(if under {
                said::SumUnder { limit, whose }.into()
            } else {
                said::SumOver { limit, whose }.into()
            });
        }
        if !self.blind.is_empty() {
            let names: Vec<&str> = self.blind.iter().take(8).map(String::as_str).collect();
            let more = if self.blind.len() > 8 { ", …" } else { "" };
            let names = format!("{}{more}", names.join(", ")).into();
            out.push(said::Blind { n: count(self.blind.len()), total: n, names }.into());
        }
        out.push(claim::OnlyTested.into());
        out.iter().map(|m| m.in_language(lang)).collect::<Vec<_>>().join(" ")
    }

    fn scientific(&self, lang: Lang) -> String {
        let bounds: Vec<f64> = self.rows.iter().filter_map(|r| r.upper_bound).collect();
        let shown = |x: Option<Shown>| vec![x.map_or_else(|| Arg::Name("–".into()), Arg::from)];
        let bound = |x: Option<f64>| shown(x.map(|x| Shown::bound(x, "")));
        // A compound under two names, or in several samples, counts once, by its highest bound.
        let mut highest: BTreeMap<String, &Row> = BTreeMap::new();
        for r in &self.rows {
            let of = highest.entry(cas::identity(&r.name, r.cas.as_deref())).or_insert(r);
            if r.upper_bound > of.upper_bound {
                *of = r;
            }
        }
        let by = |how: How| count(highest.values().filter(|r| r.how == Some(how)).count());
        let Some(frequency) = self.frequency_upper_95 else { return self.plain(lang) };
        let scientific = said::Scientific {
            n: count(self.compounds),
            low: bound(bounds.iter().copied().reduce(f64::min)),
            high: bound(bounds.iter().copied().reduce(f64::max)),
            unit: self.unit.to_string().into(),
            net: by(How::NetPlusU),
            critical: match by(How::NetPlusCriticalValue) {
                0 => vec![Arg::Name("none".into())],
                n => vec![Message::from(said::ByCriticalValue { n }).into()],
            },
            limit: by(How::ReportingLimit),
            sum: shown(self.highest_sum.map(|sum| at_most(sum, ""))),
            samples: count(self.samples),
            frequency: at_most(100.0 * frequency, "%"),
        };
        scientific.in_language(lang)
    }
}
