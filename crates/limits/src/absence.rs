//! Long lists of compounds, found or not: what such a list shows, and what it does not.
//!
//! In: compounds of one or more samples, each with a net value and u, or "below" its limit; detection
//! limits; CAS numbers. Out: what was found with its value and limit, an upper bound for each other, the sums of
//! groups that limits name, the compounds whose detection limit is too high to answer or that have no limit here, the
//! bound on the frequency over n samples, faults of names and numbers, and the honest sentence.
//!
//! Upper bound: max(net, 0) + U with U = 2u where there is a net value, never under its critical value
//! (`statistics::bound`). A value without u that stands at or under its critical value L_C is bounded by max(net, 0) + L_C:
//! L_C is what the scatter of nothing reaches with 95 %. Else the reporting limit. The highest possible sum adds them up
//! within a sample; a compound under two names counts once, with its higher bound. A sum of a group lies between the sum
//! of what was found and that with the bounds of what was not: under its limit where the upper end is, every member of a
//! closed list was looked for and none stands without u; over it where the sum of what was found is with 95 % (normal).
//! Not found in n of n samples: present in fewer than 1 − 0.05^(1/n) of such samples with
//! 95 % (Clopper & Pearson 1934, one-sided, zero of n). Samples must stand for the water of which it is
//! said. Checked in `tests/absence.rs`, sums in `tests/compound_limits.rs`.

mod sums;

pub use sums::GroupSum;

use crate::cas::{self, Fault};
use crate::claim::words::{amount, in_a_row, none, then, word};
use crate::claim::{at_most, substance};
use crate::compare::Answer;
use crate::compound_limits::{self, Asked, single};
use crate::table::Limit;
use message::{Arg, Message, Name, Shown, absence as said, claim, count};
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
    /// Is the result rejected? Then it bounds nothing, and what was found is named as rejected.
    pub rejected: bool,
    /// Who measured it, where stated.
    pub laboratory: Option<String>,
    /// The day of the sample, `YYYY-MM-DD`: limits are those of that day.
    pub on: Option<String>,
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
    /// The amount as it came.
    #[serde(skip)]
    pub amount: Option<Amount>,
    /// Standard uncertainty of what was found, in the unit of the list; none where none is stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u: Option<f64>,
    /// Upper bound, in the unit of the list.
    pub upper_bound: Option<f64>,
    /// How it was come by.
    pub how: Option<How>,
    /// Detection limit, in the unit of the list.
    pub detection_limit: Option<f64>,
    /// The limit it is held against.
    pub limit: Option<f64>,
    /// Whose limit that is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub authority: Option<String>,
    /// The same, to be said in any language.
    #[serde(skip)]
    pub whose: Option<Message>,
    /// What was found beside that limit, by the value (simple acceptance); none where nothing was found or there is no limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answer: Option<Answer>,
    /// The result is rejected.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub rejected: bool,
    /// Who measured it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub laboratory: Option<String>,
    /// The detection limit (where none is stated, the bound) lies over that limit: nothing can be said.
    pub blind: bool,
}

/// A limit for one compound or a sum, with whose it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ListLimit {
    /// Figure, in the unit of the list.
    pub value: f64,
    /// Whose, with document and mark, in English.
    pub authority: String,
    /// In short, to be said in any language.
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
    /// Whose limits of the tables, for single compounds and for groups; none for none.
    pub authorities: Vec<String>,
    /// Stated by who asks: for each compound that has none of its own, in place of the tables.
    pub single: Option<ListLimit>,
    /// Stated by who asks: for the sum of the whole list.
    pub sum: Option<ListLimit>,
}

impl ListLimits {
    /// Those of all authorities that have limits of compounds.
    pub fn of_all() -> Self {
        let authorities = compound_limits::authorities().into_iter().map(String::from).collect();
        Self { authorities, ..Self::default() }
    }
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
    /// Sums of the groups that limits name, each in the sample that comes nearest to its limit or over it.
    pub groups: Vec<GroupSum>,
    /// Compounds that neither a limit of their own nor one of a group names.
    pub without_limit: Vec<String>,
    /// Limit for the sum of the whole list, where one was stated.
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

/// Whose limit, with its document.
fn whose(l: &Limit) -> Message {
    let (authority, document) = (l.authority.as_str().into(), l.document.as_str().into());
    match l.provenance.as_str() {
        "seen" => said::Whose { authority, document }.into(),
        _ => said::WhoseRecalled { authority, document }.into(),
    }
}

/// Whose limit, in short: a sentence has no room for the document.
fn whose_short(l: &Limit) -> Message {
    let authority = l.authority.as_str().into();
    match l.provenance.as_str() {
        "seen" => said::WhoseShort { authority }.into(),
        _ => said::WhoseShortRecalled { authority }.into(),
    }
}

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
    let per_sample = sums::by_sample(list, &rows);
    let sums: Vec<Option<f64>> = per_sample.values().map(sums::Sample::highest).collect();
    let highest_sum = sums.iter().copied().collect::<Option<Vec<f64>>>().and_then(|s| s.into_iter().reduce(f64::max));
    let groups = sums::groups(&per_sample, &given.authorities, &unit);
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
    let compounds = per_sample.values().flat_map(|s| s.compounds.keys()).collect::<BTreeSet<_>>().len();
    let of_no_group = |c: &Compound| !sums::in_a_group(&identity(c), &given.authorities);
    let mut held: BTreeSet<String> =
        list.iter().zip(&rows).filter(|(_, r)| r.limit.is_some()).map(|(c, _)| identity(c)).collect();
    let bare = list.iter().filter(|c| of_no_group(c) && held.insert(identity(c)));
    let without_limit = bare.map(|c| c.name.clone()).collect();
    let sum_under_limit = highest_sum.zip(given.sum.as_ref()).map(|(s, l)| s <= l.value);
    let mut report = Report {
        open: distinct(&|r| r.upper_bound.is_none()),
        frequency_upper_95: found.is_empty().then(|| frequency_bound(samples as u64)),
        blind_share: (with_limit > 0).then(|| blind.len() as f64 / with_limit as f64),
        groups,
        without_limit,
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
    let limit = limit_of(c, c.limit.map(convert), unit, given);
    let detection = c.detection_limit.filter(|_| !c.rejected).map(convert);
    // A rejected result bounds nothing, whatever it says.
    let (upper_bound, how) = if c.rejected { (None, None) } else { (bound.map(convert), how) };
    // The bound of what was found is no measure of what the method can see.
    let reach = detection.or(if found { None } else { upper_bound });
    let shown = c.amount.as_ref().filter(|_| found);
    let value = shown.and_then(Amount::value).map(convert);
    // A u is a difference: an offset of the unit is not in it.
    let u = shown.filter(|_| !c.rejected).and_then(Amount::u).map(|u| factor.factor * u);
    Ok(Row {
        name: c.name.clone(),
        cas: c.cas.clone(),
        sample: c.sample.clone(),
        found,
        value,
        amount: c.amount.as_ref().map(|a| a.convert(unit, None, Some(1.0)).unwrap_or_else(|_| a.clone())),
        u,
        upper_bound,
        how,
        detection_limit: detection,
        rejected: c.rejected,
        answer: limit
            .as_ref()
            .filter(|_| found && !c.rejected)
            .map(|l| beside(c.amount.as_ref(), value, convert, l.value)),
        authority: limit.as_ref().map(|l| l.authority.clone()),
        laboratory: c.laboratory.clone(),
        blind: !found && reach.zip(limit.as_ref()).is_some_and(|(r, l)| r > l.value * (1.0 + 1e-12)),
        limit: limit.as_ref().map(|l| l.value),
        whose: limit.map(|l| l.whose),
    })
}

/// The limit of a compound: the one stated with it, the one stated for each, else that of the tables.
fn limit_of(c: &Compound, own: Option<f64>, unit: &Unit, given: &ListLimits) -> Option<ListLimit> {
    if let Some(own) = own {
        return Some(ListLimit::new(own, said::WhoseStated));
    }
    if given.single.is_some() {
        return given.single.clone();
    }
    let asked = Asked { authorities: &given.authorities, on: c.on.as_deref() };
    let (value, l) = single(&c.name, &identity(c), &asked, unit)?;
    Some(ListLimit { value, authority: whose(l).in_english(), whose: whose_short(l) })
}

/// What was found beside its limit, by the value: simple acceptance, as the tables of limits have it.
fn beside(amount: Option<&Amount>, value: Option<f64>, convert: impl Fn(f64) -> f64, limit: f64) -> Answer {
    match (amount, value) {
        (Some(Amount::Above(b)), _) if convert(b.limit) >= limit => Answer::Above,
        (_, Some(x)) if x > limit => Answer::Above,
        (_, Some(_)) => Answer::Below,
        _ => Answer::CannotTell,
    }
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

/// Names that a sentence has room for.
const NAMED: usize = 8;

/// The first of them.
fn some(names: &[String]) -> String {
    let shown = names.iter().take(NAMED).map(String::as_str).collect::<Vec<_>>().join(", ");
    if names.len() > NAMED { format!("{shown}, …") } else { shown }
}

impl Row {
    /// What makes it one compound with another.
    pub fn identity(&self) -> String {
        cas::identity(&self.name, self.cas.as_deref())
    }

    /// What was found, with limit and laboratory.
    fn told(&self) -> Message {
        let x = self.amount.as_ref().map_or_else(none, amount);
        let laboratory: Vec<Arg> = match self.laboratory.as_deref().filter(|l| !l.is_empty()) {
            Some(name) => word(Name::from(name)),
            None => word(Message::from(said::LaboratoryNotStated)),
        };
        said::FoundOne { name: substance(&self.name), x, beside: self.told_limit(), laboratory }.into()
    }

    /// What was found beside its limit.
    pub fn told_limit(&self) -> Message {
        if self.rejected {
            return said::FoundRejected.into();
        }
        let (Some(limit), Some(whose)) = (self.limit, &self.whose) else { return said::NoLimit.into() };
        // Limits are shown as they were given, in the unit of the list.
        let unit = self.amount.as_ref().map(|a| a.unit().to_string()).unwrap_or_default();
        let (limit, whose) = (Shown::trimmed(limit, 3, unit), whose.clone());
        match self.answer {
            Some(Answer::Above) => said::OverLimit { limit, whose }.into(),
            Some(Answer::Below) => said::UnderLimit { limit, whose }.into(),
            _ => said::BesideLimit { limit, whose }.into(),
        }
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

    /// The honest sentences, in plain words: what was found first.
    fn plain(&self, lang: Lang) -> String {
        let (n, samples) = (count(self.compounds), count(self.samples));
        let mut out: Vec<Message> = vec![];
        if let Some(items) = self.told_found() {
            out.push(said::Found { n, samples, k: count(self.found.len()), items }.into());
            out.extend(self.told_not_found());
        } else if let Some(sum) = self.highest_sum {
            out.push(said::NoneFound { n, samples, sum: at_most(sum, self.unit.to_string()) }.into());
        } else {
            out.push(said::NoneWithoutSum { n, samples, open: count(self.open.len()) }.into());
        }
        if let (Some(under), Some(l)) = (self.sum_under_limit, &self.sum_limit) {
            let (limit, whose) = (Shown::trimmed(l.value, 3, self.unit.to_string()), l.whose.clone());
            out.push(if under {
                said::SumUnder { limit, whose }.into()
            } else {
                said::SumOver { limit, whose }.into()
            });
        }
        out.extend(self.groups.iter().map(|g| g.told(&self.unit)));
        if !self.blind.is_empty() {
            out.push(said::Blind { n: count(self.blind.len()), total: n, names: some(&self.blind).into() }.into());
        }
        if !self.without_limit.is_empty() {
            let names = some(&self.without_limit).into();
            out.push(said::WithoutLimit { n: count(self.without_limit.len()), names }.into());
        }
        out.push(claim::OnlyTested.into());
        out.iter().map(|m| m.in_language(lang)).collect::<Vec<_>>().join(" ")
    }

    /// What was found, each once with the sample where it is highest: value, limit, laboratory.
    fn told_found(&self) -> Option<Message> {
        let told: Vec<Message> = self.found_rows().into_iter().map(Row::told).collect();
        in_a_row(&told, then)
    }

    /// The rows of what was found, each compound once, where it is highest.
    pub fn found_rows(&self) -> Vec<&Row> {
        self.once(|r| r.found, |r| r.value.or(r.upper_bound))
    }

    /// The rows of what was found in no sample, each compound once, with its highest bound; one without any bound goes
    /// before.
    pub fn not_found_rows(&self) -> Vec<&Row> {
        let found: BTreeSet<String> = self.rows.iter().filter(|r| r.found).map(Row::identity).collect();
        self.once(|r| !found.contains(&r.identity()), |r| Some(r.upper_bound.unwrap_or(f64::INFINITY)))
    }

    /// Rows, each compound once in the order of the list: the highest by `size`, under its first name.
    fn once(&self, wanted: impl Fn(&Row) -> bool, size: impl Fn(&Row) -> Option<f64>) -> Vec<&Row> {
        let mut place: BTreeMap<String, usize> = BTreeMap::new();
        let mut out: Vec<&Row> = vec![];
        for r in self.rows.iter().filter(|r| wanted(r)) {
            match place.get(&r.identity()) {
                Some(i) if size(r) > size(out[*i]) => out[*i] = r,
                Some(_) => {}
                None => {
                    place.insert(r.identity(), out.len());
                    out.push(r);
                }
            }
        }
        out
    }

    /// What the others are at most; none where all were found.
    fn told_not_found(&self) -> Option<Message> {
        let rest = self.not_found_rows();
        let n = count(rest.len());
        let bounds: Option<Vec<f64>> = rest.iter().map(|r| r.upper_bound).collect();
        match bounds {
            _ if rest.is_empty() => None,
            Some(bounds) => {
                let high = at_most(bounds.into_iter().fold(0.0, f64::max), self.unit.to_string());
                Some(said::OthersNotFound { n, high }.into())
            }
            None => {
                let open = count(rest.iter().filter(|r| r.upper_bound.is_none()).count());
                Some(said::OthersWithoutBound { n, open }.into())
            }
        }
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
