//! What a bottle was exposed to, as the record has it: the columns of the fit, and the words for what goes
//! together. Units stand in the names of the columns.

use super::Found;
use crate::field_checks::minutes_between;
use record::model::{Bottle, BottleKind};
use serde::Serialize;

/// A kind of exposure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Exposure {
    /// The bottle itself: 1 for every bottle.
    Bottle,
    /// Acid, mL.
    Acid,
    /// Days with the water in it.
    Days,
    /// The journey: 1 for what travelled.
    Journey,
    /// A filter: 1 where one was used.
    Filter,
    /// Openings.
    Openings,
    /// Minutes open in the cabinet.
    Cabinet,
    /// Minutes in the open.
    OpenAir,
    /// Minutes in the pipe times litres.
    Pipe,
}

impl Exposure {
    const ALL: [Self; 9] = [
        Self::Bottle,
        Self::Acid,
        Self::Days,
        Self::Journey,
        Self::Filter,
        Self::Openings,
        Self::Cabinet,
        Self::OpenAir,
        Self::Pipe,
    ];

    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Bottle => "bottle",
            Self::Acid => "acid",
            Self::Days => "days in the bottle",
            Self::Journey => "journey",
            Self::Filter => "filter",
            Self::Openings => "openings",
            Self::Cabinet => "minutes in the cabinet",
            Self::OpenAir => "minutes in the open air",
            Self::Pipe => "pipe",
        }
    }

    /// The unit of the exposure.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Bottle => "bottle",
            Self::Acid => "mL",
            Self::Days => "d",
            Self::Journey => "journey",
            Self::Filter => "filter",
            Self::Openings => "opening",
            Self::Cabinet | Self::OpenAir => "min",
            Self::Pipe => "min·L",
        }
    }

    /// The bottle that would tell it from the others.
    fn apart(self) -> &'static str {
        match self {
            Self::Bottle => "a blank in a bottle of another lot",
            Self::Acid => "a bottle blank with twice the acid",
            Self::Days => "a bottle blank filled some weeks earlier",
            Self::Journey => "a bottle blank that stays at home",
            Self::Filter => "a field blank without the filter",
            Self::Openings => "a field blank opened twice as often",
            Self::Cabinet => "a field blank left open twice as long in the cabinet",
            Self::OpenAir => "a field blank opened in the open air at that well",
            Self::Pipe => "a sample at another flow",
        }
    }

    /// The exposure of a bottle; none where the record does not say.
    fn of(self, f: &Found) -> Option<f64> {
        let b = f.bottle;
        // A bottle or trip blank is never opened on the way: that is what it is.
        let closed = matches!(b.kind, BottleKind::BottleBlank | BottleKind::TripBlank).then_some(0.0);
        match self {
            Self::Bottle => Some(1.0),
            Self::Acid => b.acid_mL.or_else(|| b.acid.is_none().then_some(0.0)),
            Self::Days => Some(minutes_between(b.filled_at.as_deref()?, f.measured_at?)? / 1440.0),
            Self::Journey => Some(f64::from(u8::from(b.trip.is_some()))),
            Self::Filter => Some(f64::from(u8::from(b.filter_id.is_some()))),
            Self::Openings => b.openings.map(|n| n as f64).or(closed),
            Self::Cabinet => b.cabinet_min.or(closed),
            Self::OpenAir => b.open_air_min.or(closed),
            Self::Pipe => {
                if b.kind.is_blank() {
                    Some(0.0)
                } else {
                    Some(f.contact_min? * b.volume_mL? * 1e-3)
                }
            }
        }
    }
}

/// A source asked about: one exposure, or several that went together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Asked {
    /// Its name: "acid", or "bottle and acid".
    pub name: String,
    /// Unit of its exposure: that of the first member.
    pub unit: String,
    /// The exposures in it.
    pub members: Vec<Exposure>,
}

/// Columns of the fit.
pub(super) struct Columns {
    pub asked: Vec<Asked>,
    pub values: Vec<Vec<f64>>,
    pub not_asked: Vec<String>,
    /// Sentences on members that went together.
    pub together: Vec<String>,
}

/// The columns that these bottles have on record, those of one direction joined.
pub(super) fn columns(found: &[&Found]) -> Columns {
    let mut out = Columns { asked: vec![], values: vec![], not_asked: vec![], together: vec![] };
    for e in Exposure::ALL {
        if e == Exposure::Pipe && !flows_differ(found) {
            continue;
        }
        let mut missing: Vec<&str> = vec![];
        let mut column = vec![];
        for f in found {
            match e.of(f) {
                Some(x) => column.push(x),
                None => missing.push(&f.bottle.label),
            }
        }
        if !missing.is_empty() {
            out.not_asked.push(format!("{}: not on record for {}", e.word(), few(&missing)));
        } else if column.iter().any(|x| *x != 0.0) {
            if let Some(at) = out.values.iter().position(|c| same_direction(c, &column)) {
                out.asked[at].members.push(e);
            } else {
                out.values.push(column);
                out.asked.push(Asked { name: String::new(), unit: e.unit().into(), members: vec![e] });
            }
        }
    }
    for a in &mut out.asked {
        let words: Vec<&str> = a.members.iter().map(|m| m.word()).collect();
        a.name = and(&words);
        if a.members.len() > 1 {
            let last = a.members[a.members.len() - 1];
            out.together.push(format!(
                "{} went together in every bottle and are fitted as one; {} would tell.",
                quantity::format::capital(&a.name),
                last.apart()
            ));
        }
    }
    out
}

/// Did the bottles of the well stand at different flows? Only then has the pipe a direction of its own.
fn flows_differ(found: &[&Found]) -> bool {
    let mut contacts = found.iter().filter(|f| !f.bottle.kind.is_blank()).map(|f| f.contact_min);
    let first = contacts.next().flatten();
    first.is_some_and(|c| contacts.any(|other| other.is_some_and(|o| (o - c).abs() > 0.01 * c)))
}

fn same_direction(a: &[f64], b: &[f64]) -> bool {
    let norm = |x: &[f64]| x.iter().map(|v| v * v).sum::<f64>().sqrt();
    let (na, nb) = (norm(a), norm(b));
    // Exposures are noted to three or four digits.
    a.iter().zip(b).all(|(x, y)| (x / na - y / nb).abs() < 1e-6)
}

fn few(labels: &[&str]) -> String {
    let n = labels.len();
    if n > 3 { format!("{}, {} and {} more", labels[0], labels[1], n - 2) } else { and(labels) }
}

/// Words joined by commas and "and".
pub fn and(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_string(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// A direction that the fit cannot tell, with the bottle that would.
pub(super) fn confounded_in_words(names: &[String], asked: &[Asked]) -> String {
    let last = names.iter().rev().find_map(|n| asked.iter().find(|a| a.name == *n)).and_then(|a| a.members.last());
    let words: Vec<&str> = names.iter().map(String::as_str).collect();
    let tell = last.map_or_else(String::new, |e| format!("; {} would tell", e.apart()));
    format!(
        "{} rose and fell together in these bottles and cannot be told apart{tell}.",
        quantity::format::capital(&and(&words))
    )
}

/// What a bottle met, in words: lot, days in acid, bags, openings, minutes.
pub fn in_words(b: &Bottle, acid_days: Option<f64>) -> String {
    let mut parts = vec![];
    let mut say = |text: Option<String>| parts.extend(text);
    say(b.lot.as_ref().map(|l| format!("lot {l}")));
    let day = |d: f64| format!("{} days in acid", quantity::format::significant_trimmed(d, 3));
    say(b.acid_days.or(acid_days).map(day));
    say(b.bags.map(|n| format!("{n} bag{}", if n == 1 { "" } else { "s" })));
    say(b.openings.map(|n| format!("opened {n} time{}", if n == 1 { "" } else { "s" })));
    say(b.cabinet_min.filter(|m| *m > 0.0).map(|m| format!("{m} min in the cabinet")));
    say(b.open_air_min.filter(|m| *m > 0.0).map(|m| format!("{m} min in the open air")));
    parts.join(", ")
}
