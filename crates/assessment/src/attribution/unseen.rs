//! A source that nobody asked about, by the record: bottles told apart by kind, air, lot, acid, day and person, each group
//! held against the joint fit; and what no blank met, which counts as the water's. The science is [`cleanliness::unseen`].

use super::exposure::Exposure;
use super::{Found, WaterFit};
use crate::unmet::outdoors;
use cleanliness::attribution::{Attribution, Survey};
pub use cleanliness::unseen::LEVEL;
use cleanliness::unseen::{BY_KIND, Group, Grouping, SAMPLES, Unseen, unseen};
use message::{Arg, Message, Name, unseen as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::model::{Bottle, BottleKind};

/// The check of a source that nobody asked about.
pub const CHECK: Check = Check::NumberUnseenSource;

const AIR: &str = "air";
const LOT: &str = "lot";
const ACID: &str = "acid";
const DAY: &str = "day";
const PERSON: &str = "person";
const OPEN_AIR: &str = "open air";
const CABINET: &str = "cabinet";
const NEVER_OPENED: &str = "never opened";

/// How a bottle is put into a group.
type Put = fn(&Bottle) -> Option<String>;

#[allow(clippy::unnecessary_wraps, reason = "the other ways to put a bottle into a group may not know")]
fn kind(b: &Bottle) -> Option<String> {
    Some(if b.kind.is_water() { SAMPLES } else { b.kind.word() }.into())
}

/// By the dirtiest air that it was opened in, where the record says.
fn air(b: &Bottle) -> Option<String> {
    if outdoors(b) {
        return Some(OPEN_AIR.into());
    }
    if matches!(b.kind, BottleKind::BottleBlank | BottleKind::TripBlank) {
        return Some(NEVER_OPENED.into());
    }
    b.cabinet_min.filter(|m| *m > 0.0).map(|_| CABINET.into())
}

fn day(b: &Bottle) -> Option<String> {
    b.filled_at.as_deref()?.get(..10).map(String::from)
}

/// The groups of these bottles against their fit.
pub(super) fn compare(found: &[&Found], survey: &Survey, fit: &Attribution) -> Unseen {
    let by: [(&str, Put); 6] = [
        (BY_KIND, kind),
        (AIR, air),
        (LOT, |b| b.lot.clone()),
        (ACID, |b| b.acid.clone()),
        (DAY, day),
        (PERSON, |b| b.sampler.clone()),
    ];
    let grouping =
        |(by, put): (&str, Put)| Grouping { by: by.into(), groups: found.iter().map(|f| put(f.bottle)).collect() };
    unseen(survey, fit, &by.map(grouping))
}

/// Exposures that a sample had and no blank of the fit.
pub(super) fn not_met(found: &[&Found]) -> Vec<Exposure> {
    let had = |e: Exposure, blank: bool| {
        let mut of = found.iter().filter(|f| f.bottle.kind.is_blank() == blank);
        of.any(|f| e.of(f).is_some_and(|x| x > 0.0))
    };
    Exposure::ALL.into_iter().filter(|e| had(*e, false) && !had(*e, true)).collect()
}

/// The bottles of a group, as a sentence begins with them.
fn named(g: &Group) -> Message {
    let name = || Name::from(&g.group);
    match (g.by.as_str(), g.group.as_str()) {
        (BY_KIND, SAMPLES) => said::Samples.into(),
        (BY_KIND, "field-blank") => said::FieldBlanks.into(),
        (BY_KIND, "trip-blank") => said::TripBlanks.into(),
        (BY_KIND, "bottle-blank") => said::BottleBlanks.into(),
        (BY_KIND, _) => said::OtherKind { kind: name() }.into(),
        (AIR, OPEN_AIR) => said::InOpenAir.into(),
        (AIR, CABINET) => said::InCabinet.into(),
        (AIR, _) => said::NeverOpened.into(),
        (LOT, _) => said::Lot { lot: name() }.into(),
        (ACID, _) => said::Acid { acid: name() }.into(),
        (DAY, _) => said::Day { day: name() }.into(),
        (PERSON, _) => said::Person { person: name() }.into(),
        (by, _) => said::GroupNamed { by: by.into(), group: name() }.into(),
    }
}

/// What no blank met on the way of a bottle.
pub struct NotMet<'a> {
    /// Exposures that samples had and no blank of the fit.
    pub exposures: &'a [Exposure],
    /// The bottle came through a pipe of which no flows speak.
    pub pipe: bool,
    /// The place whose open air no blank met.
    pub open_air: Option<&'a str>,
}

impl NotMet<'_> {
    fn says(&self) -> Vec<Arg> {
        let pipe = self.pipe.then(|| Message::from(said::Pipe));
        let air = self.open_air.map(|place| said::OpenAir { place: place.into() }.into());
        // Pipe and open air are named by well and trip above.
        let others = self.exposures.iter().filter(|e| !matches!(e, Exposure::Pipe | Exposure::OpenAir));
        pipe.into_iter().chain(air).chain(others.map(|e| e.says())).map(Arg::from).collect()
    }
}

/// What the fit of a water says for itself: whether a kind of bottle stands out, and what no blank met; none where the
/// bottles were not fitted.
pub fn says(w: &WaterFit) -> Option<Message> {
    let fit = w.fit.as_ref().ok()?;
    let pipe = w.pipe && !fit.tells_pipe();
    let not_met = NotMet { exposures: &fit.not_met, pipe, open_air: w.open_air.as_deref() };
    Some(said::Finding { compared: fit.unseen.says(LEVEL, named), rule: fit.unseen.rule(not_met.says()) }.into())
}

/// The finding on a bottle of a water: whether a kind of bottle stands out of its fit, and what counts as the water's.
pub fn finding(fit: Result<&Unseen, Message>, not_met: &NotMet, level: f64) -> Finding {
    let none = Unseen::default();
    let (compared, unseen): (Message, &Unseen) = match fit {
        Ok(unseen) => (unseen.says(level, named), unseen),
        Err(why) => (said::NotFitted { why }.into(), &none),
    };
    let group = unseen.stands_out(level);
    let outcome = match (group, unseen.tested) {
        (_, 0) => Outcome::NotKnown,
        (Some(_), _) => Outcome::NotMet,
        (None, _) => Outcome::Met,
    };
    let rule = unseen.rule(not_met.says());
    let finding = Finding::new(CHECK, outcome, Message::from(said::Finding { compared, rule }));
    match group.and_then(|g| Some((g.more_pg?, g.u_pg?))) {
        Some((more, u)) => {
            finding.comparing(message::compared::BeyondTheFit, Amount::measured(more, u, Unit::known("pg")))
        }
        None => finding,
    }
}
