//! Results as people read them: one line each with value, uncertainty or limit, unit, verdict.
//! A non-detect with a net value shows its upper bound, one that a laboratory censored its limit;
//! neither is ever a zero or a half.

use crate::accounting;
use crate::attribution::Attributed;
use crate::derive::Excluded;
use crate::same_water::with_notes;
use crate::unmet::{self, Ways, outdoors};
use cleanliness::accounting::{Accounting, Source};
pub use cleanliness::share::Left;
use intake::one_name::made_one;
use message::{Message, Shown, Spoken, document as said, unfit};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use record::error::Error;
use record::identity::{self, ResultId};
use record::model::{
    AccountingRow, AttributedRow, Bears, Bottle, Censor, FindingRow, ResultRow, Share, State, VerdictText, VerdictWord,
};
use record::store::{Filter, Store};
use record::words::BottleKind;
use serde::Serialize;
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

/// The part of the measured metal that came with the water, with its 95 % interval for this bottle, and what that part
/// is: the water's own only where pipe and air were measured at this well. By the accounting; in records without one,
/// what the blanks leave.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WaterShare {
    /// Share, 0 to 1.
    pub share: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// What it is.
    pub is: Left,
}

impl WaterShare {
    /// `0.93 (0.89 to 0.97)`, to the digits that the interval supports.
    pub fn in_words(&self) -> String {
        let [share, low, high] = self.shown();
        said::ShareAlone { share, low, high }.text()
    }

    /// With what it is: `0.93 (0.89 to 0.97) the water's, as it leaves the well`.
    pub fn said(&self) -> String {
        self.says().text()
    }

    /// The same as a message.
    pub fn says(&self) -> Message {
        let [share, low, high] = self.shown();
        message::share::Called { share, low, high, left: self.is.says() }.into()
    }

    /// Share and interval to the digits that the interval supports.
    pub fn shown(&self) -> [Shown; 3] {
        let half = 0.5 * (self.high - self.low);
        let decimals = quantity::format::decimals_for(half, 1).clamp(2, 4);
        [self.share, self.low, self.high].map(|x| Shown::decimals(x, decimals, ""))
    }
}

/// One result as it is shown.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Listed {
    /// `bottle:analyte:isotope@resolution:fraction#revision`
    pub result: ResultId,
    /// Bottle label.
    pub bottle: String,
    /// What the bottle is.
    pub kind: BottleKind,
    /// Well.
    pub well: Option<String>,
    /// Trip.
    pub trip: Option<String>,
    /// When the bottle was filled.
    pub filled_at: Option<String>,
    /// What the field said of the bottle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Element or quantity.
    pub analyte: String,
    /// Isotopes.
    pub isotopes: String,
    /// Mass resolution.
    pub resolution: String,
    /// Fraction.
    pub fraction: String,
    /// Detection state.
    pub state: State,
    /// What may be said of the value: measured, stated, below, above; none where the report says
    /// "not detected" without saying below what.
    pub amount: Option<Amount>,
    /// Coverage factor of the 95 % interval of a measured amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coverage_k: Option<f64>,
    /// The net value with u, also where it was not detected; negative ones too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub net: Option<Amount>,
    /// Before the blank was subtracted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gross: Option<Amount>,
    /// The blank subtracted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub blank: Option<Amount>,
    /// L_C, net scale, in the unit of the amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub critical_value: Option<f64>,
    /// L_D, net scale.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub detection_limit: Option<f64>,
    /// L_Q.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantification_limit: Option<f64>,
    /// The laboratory's own reporting limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reporting_limit: Option<f64>,
    /// What the laboratory calls it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reporting_limit_kind: Option<String>,
    /// The laboratory's remark as written.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remark: Option<String>,
    /// Laboratory.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub laboratory: Option<String>,
    /// Method.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub method: Option<String>,
    /// The verdict; none for blanks, spikes and other evidence.
    pub verdict: Option<VerdictWord>,
    /// Checks that decided it.
    pub reasons: Vec<String>,
    /// The profile of checks that it was judged by; none: the programme's table alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub profile: Option<String>,
    /// What the blanks leave, and what that is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub water_share: Option<WaterShare>,
    /// Whether the number is a value or an upper bound: metal of a stage that no blank met is in it.
    pub bears: Bears,
    /// Whose metal is in the bottle: one sum of six parts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub accounting: Option<Accounting>,
    /// The water's own by all bottles fitted together: beside the result, never in its place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub attributed: Option<Attributed>,
    /// Version of the program that derived it.
    pub engine: String,
    /// Row of the record.
    #[serde(skip)]
    pub row: i64,
    /// File it came in.
    #[serde(skip)]
    pub raw_file: Option<i64>,
    /// Subject of its verdict.
    #[serde(skip)]
    pub subject: i64,
}

impl Listed {
    /// The verdict, with the profile that it was judged by; none for evidence.
    pub fn verdict_said(&self) -> Option<Message> {
        self.verdict.map(|word| crate::verdict::said_by(word, self.profile.as_deref()))
    }

    /// The profile by which the result is accepted; none where the programme's own table accepts it, or nothing does.
    pub fn accepted_by(&self) -> Option<&str> {
        self.profile.as_deref().filter(|_| self.verdict == Some(VerdictWord::Accepted))
    }

    /// A value that is an upper bound in words, with the value as it was found; none for others. The bound is rounded up.
    pub fn at_most(&self) -> Option<Message> {
        let (bound, value) = self.bound_and_value()?;
        Some(message::share::AtMost { bound, value }.into())
    }

    /// The bound alone and its unit: `at most 2.75`, `ng/L`.
    pub fn bound(&self) -> Option<(String, String)> {
        let (bound, _) = self.bound_and_value()?;
        let unit = bound.unit.clone();
        let bound = Shown { unit: String::new(), ..bound };
        Some((message::path::AtMost { limit: bound.text().into() }.text(), unit))
    }

    fn bound_and_value(&self) -> Option<(Shown, Shown)> {
        let Some(Amount::Below(bound)) = self.amount.as_ref().filter(|_| self.bears == Bears::AtMost) else {
            return None;
        };
        let net = self.net.as_ref().and_then(Amount::value).filter(|_| self.state != State::NotDetected)?;
        Some(bound_beside(bound.limit, net, &bound.unit))
    }
}

/// An upper bound, rounded up, and the value as it was found, to the digit that tells them apart.
pub(crate) fn bound_beside(limit: f64, found: f64, unit: &Unit) -> (Shown, Shown) {
    let decimals = quantity::format::decimals_for((limit - found).max(1e-3 * limit), 1);
    let up = message::number::raised(limit, decimals);
    let shown = |x: f64| Shown::decimals(x, decimals, unit.to_string());
    (shown(up), shown(found))
}

/// The check that a bottle, vial or reading taken out of the evidence does not meet.
pub const TAKEN_OUT: Check = Check::NumberExcluded;

/// The finding of what was taken out of the evidence, and why; with what the field said of the bottle.
pub fn taken_out(why: &str, bottle: &Bottle) -> Finding {
    let says = message::verdict::TakenOut { why: why.into() };
    Finding::new(TAKEN_OUT, Outcome::NotMet, with_notes(says.into(), std::iter::once(bottle)))
}

/// What may be said of a stored value; `None` for a non-detect whose report does not say below what, and for a row
/// that [`unread`] names.
pub fn amount(r: &ResultRow) -> Option<Amount> {
    let unit = Unit::parse(&r.unit).ok()?;
    let limit = r.limit_value.or(r.reporting_limit);
    if let (Some(Bears::AtMost), Some(bound)) = (r.bears, r.upper_bound) {
        return Some(Amount::below(bound, unit));
    }
    Some(match (r.censor, r.state, r.value, r.u) {
        (Censor::Below, ..) => return limit.map(|l| Amount::below(l, unit)),
        (Censor::Above, ..) => return limit.map(|l| Amount::above(l, unit)),
        (_, State::NotDetected, Some(net), Some(u)) => {
            // Reported without any spread and at zero: it is not said below what.
            let bound = Some(upper_bound(r, net, u)).filter(|b| *b > 0.0);
            return bound.map(|b| Amount::below(b, unit));
        }
        (.., Some(value), Some(u)) => {
            Amount::Measured(Measured::with_dof(value, u, r.dof.unwrap_or(f64::INFINITY), unit))
        }
        (.., Some(value), None) => Amount::stated(value, unit),
        (.., None, _) => return None,
    })
}

/// At most how much a net value that was not detected leaves room for, in the unit of the row. A run knows the degrees
/// of freedom of its u; a laboratory's report is bounded as in the lists of compounds, with U = 2u.
pub(crate) fn upper_bound(r: &ResultRow, net: f64, u: f64) -> f64 {
    let dof = r.dof.unwrap_or(f64::INFINITY);
    let bound =
        if r.vial_id.is_some() { statistics::bound::upper_bound } else { statistics::bound::reported_upper_bound };
    bound(net, u, dof, r.critical_value)
}

/// Why a row says nothing that can be told: a unit that this program does not know, neither value nor limit.
pub fn unread(r: &ResultRow) -> Option<Message> {
    let (found, expected): (Message, Message) = match Unit::parse(&r.unit) {
        Err(e) => (unfit::Unit { unit: r.unit.as_str().into() }.into(), unfit::UnitKnown { why: e.message() }.into()),
        Ok(_) if r.censor == Censor::Equal && r.value.is_none() && amount(r).is_none() => {
            (unfit::NoValue.into(), unfit::OneOfThem.into())
        }
        Ok(_) => return None,
    };
    Some(unfit::Result { row: r.id.to_string().into(), found, expected }.into())
}

/// Two-sided 95 % coverage factor for degrees of freedom.
pub fn coverage_k(dof: f64) -> f64 {
    statistics::t::upper_quantile(0.025, dof)
}

/// The verdict that stands.
#[derive(Clone)]
struct Standing {
    word: VerdictWord,
    reasons: Arc<[String]>,
    profile: Option<Arc<str>>,
}

/// The newest verdict of each subject. Few reasons and profiles are different ones: of a long record each is held once.
#[derive(Default)]
struct Verdicts {
    of: HashMap<i64, Standing>,
    reasons: HashMap<String, Arc<[String]>>,
    profiles: HashMap<String, Arc<str>>,
}

impl Verdicts {
    fn add(&mut self, v: VerdictText) {
        let reasons = if let Some(known) = self.reasons.get(&v.reasons) {
            known.clone()
        } else {
            let read: Vec<String> = serde_json::from_str(&v.reasons).unwrap_or_default();
            self.reasons.entry(v.reasons).or_insert(read.into()).clone()
        };
        let profile = v.profile.map(|name| {
            let shared: Arc<str> = name.as_str().into();
            self.profiles.entry(name).or_insert(shared).clone()
        });
        self.of.insert(v.subject_id, Standing { word: v.verdict, reasons, profile });
    }
}

/// Everything that results are listed with.
pub struct Lists {
    bottles: HashMap<i64, Bottle>,
    verdicts: Verdicts,
    shares: HashMap<i64, Share>,
    attributed: HashMap<i64, Attributed>,
    accountings: HashMap<i64, Accounting>,
    /// What bottles at different flow say of the pipe, by the subject of the verdict.
    by_flow: HashMap<i64, Outcome>,
    ways: Ways,
    excluded: Excluded,
}

impl Lists {
    /// Reads it from the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let mut out = Self {
            bottles: store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect(),
            shares: store.shares()?.into_iter().map(|s| (s.result_id, s)).collect(),
            attributed: store.attributed()?.iter().map(|a| (a.result_id, Attributed::from_row(a))).collect(),
            accountings: accounting::standing(&store.accounting(&Filter::all())?),
            by_flow: HashMap::new(),
            ways: Ways::default(),
            excluded: Excluded::read(store)?,
            verdicts: Verdicts::default(),
        };
        let mut newest: HashMap<i64, i64> = HashMap::new();
        let asks_the_pipe = !out.shares.is_empty() || !out.attributed.is_empty();
        store.each(&Filter::all().latest(), |v: VerdictText| {
            if asks_the_pipe {
                newest.insert(v.subject_id, v.revision);
            }
            out.verdicts.add(v);
            Ok(())
        })?;
        if asks_the_pipe {
            out.ways = Ways::of(store, out.bottles.values())?;
            let found = store.list::<FindingRow>(&Filter::all().is("check_name", unmet::PIPE.text()))?;
            let stands = found.into_iter().filter(|f| newest.get(&f.subject_id) == Some(&f.revision));
            out.by_flow = stands.map(|f| (f.subject_id, f.outcome)).collect();
        }
        Ok(out)
    }

    /// Only what these rows are listed with: for a page of few of many results.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn for_rows(store: &Store, rows: &[ResultRow]) -> Result<Self, Error> {
        let mut out = Self {
            bottles: HashMap::new(),
            verdicts: Verdicts::default(),
            shares: HashMap::new(),
            attributed: HashMap::new(),
            accountings: HashMap::new(),
            by_flow: HashMap::new(),
            ways: Ways::default(),
            excluded: Excluded::read(store)?,
        };
        for r in rows {
            if !out.bottles.contains_key(&r.bottle_id) {
                let of = store.bottles(&Filter::all().is("id", r.bottle_id))?;
                out.bottles.extend(of.into_iter().map(|b| (b.id, b)));
            }
            // Only results of counts have a share of water.
            let derived = r.vial_id.is_some();
            if !out.verdicts.of.contains_key(&r.subject_id) {
                for v in store.list::<VerdictText>(&Filter::all().is("subject", r.subject_id).latest())? {
                    if derived {
                        let by_flow = Filter::all().is("subject", r.subject_id).is("check_name", unmet::PIPE.text());
                        let found = store.list::<FindingRow>(&by_flow)?;
                        let stands = found.into_iter().filter(|f| f.revision == v.revision);
                        out.by_flow.extend(stands.map(|f| (f.subject_id, f.outcome)));
                    }
                    out.verdicts.add(v);
                }
            }
            if !derived {
                continue;
            }
            let of = store.list::<Share>(&Filter::all().is("result", r.id))?;
            out.shares.extend(of.into_iter().map(|s| (s.result_id, s)));
            let of = store.list::<AttributedRow>(&Filter::all().is("result", r.id).latest())?;
            out.attributed.extend(of.iter().map(|a| (a.result_id, Attributed::from_row(a))));
            let parts: Vec<AccountingRow> = store.accounting(&Filter::all().is("result", r.id))?;
            out.accountings.extend(accounting::standing(&parts));
        }
        // Only a share asks what the blanks never met: results without one need not read it.
        if !out.shares.is_empty() || !out.attributed.is_empty() {
            out.ways = Ways::of(store, out.bottles.values())?;
        }
        Ok(out)
    }

    /// The part of a result's metal that came with the water.
    fn share(&self, r: &ResultRow) -> Option<WaterShare> {
        if let Some(a) = self.accountings.get(&r.id) {
            let s = a.share(Source::Aquifer)?;
            let is = a.left(self.bottle(r).is_some_and(outdoors));
            return Some(WaterShare { share: s.share, u: s.u, low: s.low, high: s.high, is });
        }
        let s = self.shares.get(&r.id)?;
        Some(WaterShare { share: s.share, u: s.u, low: s.low, high: s.high, is: self.left(r) })
    }

    /// What all bottles together leave. Where they told the pipe, it is not in it.
    fn attributed(&self, r: &ResultRow) -> Option<Attributed> {
        let mut out = self.attributed.get(&r.id)?.clone();
        out.is = match self.accountings.get(&r.id).filter(|a| !a.parts.is_empty()) {
            Some(a) => a.left(self.bottle(r).is_some_and(outdoors)),
            None => self.left(r),
        };
        Some(out)
    }

    fn left(&self, r: &ResultRow) -> Left {
        let by_flow = self.by_flow.contains_key(&r.subject_id);
        self.bottle(r).map_or_else(Left::default, |b| self.ways.left(b, by_flow))
    }

    /// Why the bottle of a result is out of the evidence as a whole.
    pub fn taken_out(&self, r: &ResultRow) -> Option<&str> {
        self.excluded.bottle(r.bottle_id)
    }

    /// The bottle of a result.
    pub fn bottle(&self, r: &ResultRow) -> Option<&Bottle> {
        self.bottles.get(&r.bottle_id)
    }

    /// One result.
    pub fn listed(&self, r: ResultRow) -> Listed {
        let amount = amount(&r);
        let unit = Unit::parse(&r.unit).ok();
        let of = |value: Option<f64>, u: Option<f64>| {
            let (value, unit) = (value?, unit.clone()?);
            Some(u.map_or_else(|| Amount::stated(value, unit.clone()), |u| Amount::measured(value, u, unit.clone())))
        };
        let bottle = self.bottle(&r);
        let kind = bottle.map_or(BottleKind::Sample, |b| b.kind);
        let standing = match self.verdicts.of.get(&r.subject_id) {
            // Results of one series share a verdict; a bottle that is out stands alone.
            Some(_) if self.taken_out(&r).is_some() && kind.is_water() => Some(Standing {
                word: VerdictWord::Rejected,
                reasons: [TAKEN_OUT.text().to_string()].into(),
                profile: None,
            }),
            Some(standing) if kind.is_water() => Some(standing.clone()),
            _ => None,
        };
        let verdict = standing.as_ref().map(|s| s.word);
        let reasons = standing.as_ref().map(|s| s.reasons.to_vec()).unwrap_or_default();
        let profile = standing.and_then(|s| s.profile).map(|name| name.to_string());
        let told_state = crate::laboratory::state(&r);
        Listed {
            result: r.identity(),
            kind,
            well: bottle.and_then(|b| b.well.clone()),
            trip: bottle.and_then(|b| b.trip.clone()),
            filled_at: bottle.and_then(|b| b.filled_at.clone()),
            note: bottle.and_then(|b| b.note.clone()).filter(|n| !n.trim().is_empty()),
            coverage_k: matches!(amount, Some(Amount::Measured(_))).then(|| coverage_k(r.dof.unwrap_or(f64::INFINITY))),
            net: of(r.value, r.u).filter(|_| r.gross.is_some() || r.state == State::NotDetected),
            gross: of(r.gross, r.u_gross),
            blank: of(r.blank, r.u_blank),
            amount,
            verdict,
            reasons,
            profile,
            water_share: self.share(&r),
            bears: r.bears.unwrap_or(Bears::Value),
            accounting: self.accountings.get(&r.id).cloned(),
            attributed: self.attributed(&r),
            row: r.id,
            raw_file: r.raw_file_id,
            subject: r.subject_id,
            bottle: r.bottle,
            analyte: r.analyte,
            isotopes: r.isotopes,
            resolution: r.resolution,
            fraction: r.fraction,
            state: told_state,
            critical_value: r.critical_value,
            detection_limit: r.detection_limit,
            quantification_limit: r.quantification_limit,
            reporting_limit: r.reporting_limit,
            reporting_limit_kind: r.reporting_limit_kind,
            remark: r.remark,
            laboratory: r.laboratory,
            method: r.method,
            engine: r.engine,
        }
    }
}

/// The newest revision of every result, in the order of the record.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<Listed>, Error> {
    let mut out = vec![];
    each(store, |r| out.push(r))?;
    Ok(out)
}

/// As [`all`], one after the other: of a long record one result is held at a time, beside what all are listed with.
///
/// # Errors
/// The store cannot be read.
pub fn each(store: &Store, mut told: impl FnMut(Listed)) -> Result<(), Error> {
    let lists = Lists::of(store)?;
    store.each(&Filter::all().latest(), |r| {
        told(lists.listed(r));
        Ok(())
    })?;
    Ok(())
}

/// As [`each`], of some bottles alone: read by the bottles, whatever else the record holds.
///
/// # Errors
/// The store cannot be read.
pub fn each_of(store: &Store, bottles: &[i64], mut told: impl FnMut(Listed)) -> Result<(), Error> {
    let mut rows: Vec<ResultRow> = vec![];
    for id in bottles {
        rows.extend(store.results(&Filter::all().is("bottle", *id).latest())?);
    }
    rows.sort_unstable_by_key(|r| r.id);
    let lists = Lists::for_rows(store, &rows)?;
    for r in rows {
        told(lists.listed(r));
    }
    Ok(())
}

/// Results by their rows, in the order given; a row that is not there is passed over.
///
/// # Errors
/// The store cannot be read.
pub fn listed(store: &Store, rows: &[i64]) -> Result<Vec<Listed>, Error> {
    let mut found = vec![];
    for id in rows {
        found.extend(store.results(&Filter::all().is("id", *id))?);
    }
    let lists = Lists::for_rows(store, &found)?;
    Ok(found.into_iter().map(|r| lists.listed(r)).collect())
}

/// A result by its name; without a revision the newest one.
///
/// # Errors
/// [`Error::Absent`].
pub fn row(store: &Store, id: &ResultId) -> Result<ResultRow, Error> {
    find(store, &id.to_string())
}

/// A result by its name as text; without `#revision` the newest one. A beginning of the name that ends before a `:` is
/// enough where one result alone begins with it: `SL2-26-07-A:Pb`.
///
/// # Errors
/// [`Error::Absent`], with the results of the same bottle where there are some; of a beginning, all that begin with it.
pub fn find(store: &Store, text: &str) -> Result<ResultRow, Error> {
    let asked = text.parse::<ResultId>().ok();
    let label = asked.as_ref().map_or_else(|| identity::bottle_of(text), |id| id.bottle.clone());
    let of_bottle = store.results(&Filter::all().is("bottle.label", label.as_str()))?;
    let is_asked = |r: &&ResultRow| {
        let id = r.identity();
        asked.as_ref().is_some_and(|a| if a.revision.is_some() { *a == id } else { *a == id.newest() })
    };
    if let Some(r) = of_bottle.iter().filter(is_asked).max_by_key(|r| r.revision) {
        return Ok(r.clone());
    }
    if let Some(now) = asked.as_ref().map(|id| by_names_of_today(store, id)).transpose()?.flatten() {
        return find(store, &now.to_string());
    }
    let begins = format!("{text}:");
    let begun = of_bottle.iter().filter(|r| r.identity().newest().to_string().starts_with(&begins));
    let mut newest: BTreeMap<String, &ResultRow> = BTreeMap::new();
    for r in begun {
        let known = newest.entry(r.identity().newest().to_string()).or_insert(r);
        if r.revision > known.revision {
            *known = r;
        }
    }
    match newest.len() {
        0 => {}
        1 => return Ok(newest.into_values().next().expect("one is there").clone()),
        n => {
            let named = newest.into_keys().collect::<Vec<_>>().join(", ");
            return Err(Error::absent("one result", text, format!("; {n} begin so: {named}")));
        }
    }
    let mut near: Vec<String> = of_bottle.iter().map(|r| r.identity().to_string()).collect();
    near.sort_by_key(|known| std::cmp::Reverse(alike(known, text)));
    near.truncate(5);
    let hint = if near.is_empty() {
        format!("; no result of a bottle \"{label}\" is on record (`limpid results` lists all)")
    } else {
        format!("; of this bottle there are {} results, among them {}", of_bottle.len(), near.join(", "))
    };
    Err(Error::absent("result", text, hint))
}

/// The identity by the names that its own were made one with; none where they were with none.
fn by_names_of_today(store: &Store, id: &ResultId) -> Result<Option<ResultId>, Error> {
    let analyte = made_one(store, "analyte", &id.analyte)?;
    let fraction = made_one(store, "fraction", &id.fraction)?;
    if analyte.is_none() && fraction.is_none() {
        return Ok(None);
    }
    let mut now = id.clone();
    now.analyte = analyte.unwrap_or(now.analyte);
    now.fraction = fraction.unwrap_or(now.fraction);
    Ok(Some(now))
}

/// Length of the common beginning of two identities.
fn alike(a: &str, b: &str) -> usize {
    a.bytes().zip(b.bytes()).take_while(|(x, y)| x == y).count()
}
