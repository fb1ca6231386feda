//! What a bottle was exposed to, as the record has it: the columns of the fit, and the words for what goes
//! together. Units stand in the names of the columns.

use super::Found;
use crate::field_checks::minutes_between;
use crate::say::joined;
use message::{Arg, Message, Name, Sentence, Shown, attribution as said, count};
use record::model::BottleKind;
use serde::Serialize;
use std::fmt;

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
    pub(super) const ALL: [Self; 9] = [
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

    /// Its words.
    pub(super) fn says(self) -> Message {
        match self {
            Self::Bottle => said::Bottle.into(),
            Self::Acid => said::Acid.into(),
            Self::Days => said::Days.into(),
            Self::Journey => said::Journey.into(),
            Self::Filter => said::Filter.into(),
            Self::Openings => said::Openings.into(),
            Self::Cabinet => said::Cabinet.into(),
            Self::OpenAir => said::OpenAir.into(),
            Self::Pipe => said::Pipe.into(),
        }
    }

    /// Its words where a sentence begins with them.
    fn begins(self) -> Message {
        match self {
            Self::Bottle => said::BeginsBottle.into(),
            Self::Acid => said::BeginsAcid.into(),
            Self::Days => said::BeginsDays.into(),
            Self::Journey => said::BeginsJourney.into(),
            Self::Filter => said::BeginsFilter.into(),
            Self::Openings => said::BeginsOpenings.into(),
            Self::Cabinet => said::BeginsCabinet.into(),
            Self::OpenAir => said::BeginsOpenAir.into(),
            Self::Pipe => said::BeginsPipe.into(),
        }
    }

    /// The bottle that would tell it from the others.
    fn apart(self) -> Message {
        match self {
            Self::Bottle => said::ApartBottle.into(),
            Self::Acid => said::ApartAcid.into(),
            Self::Days => said::ApartDays.into(),
            Self::Journey => said::ApartJourney.into(),
            Self::Filter => said::ApartFilter.into(),
            Self::Openings => said::ApartOpenings.into(),
            Self::Cabinet => said::ApartCabinet.into(),
            Self::OpenAir => said::ApartOpenAir.into(),
            Self::Pipe => said::ApartPipe.into(),
        }
    }

    /// The exposure of a bottle; none where the record does not say.
    pub(super) fn of(self, f: &Found) -> Option<f64> {
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
    /// Its name in the fit: "acid", or "bottle and acid".
    pub name: String,
    /// Unit of its exposure: that of the first member.
    pub unit: String,
    /// The exposures in it.
    pub members: Vec<Exposure>,
}

impl Asked {
    /// Its exposures in words.
    pub fn says(&self) -> Message {
        together(self.members.iter().map(|m| m.says()).collect())
    }

    /// The same where a sentence begins with them.
    fn begins(&self) -> Message {
        let mut words: Vec<Message> = self.members.iter().map(|m| m.says()).collect();
        words[0] = self.members[0].begins();
        together(words)
    }
}

/// Exposures that went together; there is one at least.
fn together(mut words: Vec<Message>) -> Message {
    let last = words.pop().expect("a source has an exposure");
    match joined(words) {
        Some(before) => said::And { before, last }.into(),
        None => last,
    }
}

/// What these bottles cannot tell apart, and the bottle that would.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(transparent)]
pub struct CannotTell {
    /// In words.
    pub says: Sentence,
    /// The water is among it.
    #[serde(skip)]
    pub hides_water: bool,
}

impl fmt::Display for CannotTell {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.says.fmt(f)
    }
}

/// Columns of the fit.
pub(super) struct Columns {
    pub asked: Vec<Asked>,
    pub values: Vec<Vec<f64>>,
    pub not_asked: Vec<Sentence>,
    /// Members that went together.
    pub together: Vec<CannotTell>,
}

impl Columns {
    /// The first exposure that cannot be; none where all can.
    pub fn impossible(&self, found: &[&Found]) -> Option<Message> {
        let columns = self.asked.iter().zip(&self.values);
        let mut all = columns.flat_map(|(a, column)| column.iter().zip(found).map(move |(x, f)| (a, *x, f)));
        let (asked, x, f) = all.find(|(_, x, _)| !x.is_finite() || *x < 0.0)?;
        let exposure = asked.members.first()?.says();
        Some(said::Exposure { exposure, bottle: (&f.bottle.label).into(), found: Shown::as_given(x, "") }.into())
    }
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
        // A gap is no zero: taken for one it would lay this source's metal on the others.
        if !missing.is_empty() {
            out.not_asked.push(not_on_record(e, &missing).into());
        } else if column.iter().any(|x| *x != 0.0) {
            // Of two columns of one direction the fit could tell the sum alone.
            if let Some(at) = out.values.iter().position(|c| same_direction(c, &column)) {
                out.asked[at].members.push(e);
            } else {
                out.values.push(column);
                out.asked.push(Asked { name: String::new(), unit: e.unit().into(), members: vec![e] });
            }
        }
    }
    for a in &mut out.asked {
        a.name = a.says().in_english();
        if let [_, .., last] = &a.members[..] {
            let says = said::Together { sources: a.begins(), apart: last.apart() }.into();
            out.together.push(CannotTell { says, hides_water: false });
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

fn not_on_record(e: Exposure, bottles: &[&str]) -> Message {
    let exposure = e.says();
    match bottles {
        [first, second, more @ ..] if more.len() > 1 => {
            let (first, second) = (Name::from(*first), Name::from(*second));
            said::NotOnRecordForMany { exposure, first, second, more: count(more.len()) }.into()
        }
        few => said::NotOnRecord { exposure, bottles: few.iter().map(|b| Name::from(*b).into()).collect() }.into(),
    }
}

/// Words joined by commas and "and".
pub fn and(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_string(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// A direction that the fit cannot tell, by the names in the fit, with the bottle that would; what is no source asked
/// about is the water of the well.
pub(super) fn confounded(names: &[String], asked: &[Asked], well: &str) -> CannotTell {
    let of = |name: &String| asked.iter().find(|a| a.name == *name);
    let words = |(i, name): (usize, &String)| -> Arg {
        match of(name) {
            Some(a) if i == 0 => a.begins().into(),
            Some(a) => a.says().into(),
            None if i == 0 => Message::from(said::BeginsWaterOf { well: well.into() }).into(),
            None => Message::from(said::WaterOf { well: well.into() }).into(),
        }
    };
    let sources = names.iter().enumerate().map(words).collect();
    let says = match names.iter().rev().find_map(of).and_then(|a| a.members.last()) {
        Some(last) => said::RoseTogether { sources, apart: last.apart() }.into(),
        None => said::RoseTogetherForGood { sources }.into(),
    };
    CannotTell { says, hides_water: names.iter().any(|n| of(n).is_none()) }
}
