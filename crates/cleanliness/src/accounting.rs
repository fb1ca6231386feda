//! One accounting of the metal in a bottle: aquifer + well and pipe + air and hands + bottle and acid + journey +
//! laboratory. What is reported, drawn and compared of these parts comes from here.
//!
//! In: the metal found in a bottle (pg, before any blank was taken off), the nested blanks that met its stages (mean,
//! spread and number, pg a bottle), and what is known of pipe and air. Out: six parts ([`Part`]), each with value, u and
//! 95 % interval in pg and with how it is told, that add up to the metal found; or why they do not.
//!
//! Estimators, one for each part. Laboratory, bottle, journey, air and hands: differences of the means of neighbouring
//! kinds of blank from the inside out; the outermost stands, the inner ones are fitted rising and never over it
//! (isotonic least squares, pool adjacent violators: Barlow, Bartholomew, Bremner & Brunk 1972, recalled), so that no
//! part is negative. A kind with fewer than two blanks is not told apart from the next. Well and pipe: the fit of
//! bottles at different flow, where there is one; else pipe and aquifer are one part, the water as it leaves the well:
//! a value while the contact is within the programme's limit, an upper bound beyond. A stage that no blank met is in
//! that part too, which then is a bound. What is left to the water is found less the outermost blanks, its interval by
//! Fieller's set ([`water_share`]). Intervals are for this bottle: the scatter between bottles is in them.
//!
//! Parts are scaled to their own sum; where that sum and the bottle differ by more than U of the bottle, the parts do
//! not add up and no shares are given. Valid for near-normal blanks; what skewed blanks do to the coverage stands in
//! docs/validation/accounting.md. Checked in `tests/validation_accounting.rs`.

use crate::Error;
use crate::share::{GrossAndBlank, Left, water_share};
use message::{Message, Name, Sentence, Shown, accounting as said, count};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use serde::Serialize;
use statistics::sample::Moments;
use statistics::t;
use statistics::welch::effective_dof;

/// Where metal in a bottle can come from, in the order of its way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Source {
    /// The water itself.
    Aquifer,
    /// Pipe and casing.
    WellAndPipe,
    /// Air over the open bottle, gloves and hands.
    AirAndHands,
    /// The bottle and its acid.
    BottleAndAcid,
    /// The way to the laboratory.
    Journey,
    /// The laboratory's procedure.
    Laboratory,
}

impl Source {
    /// All in the order of the way.
    pub const ALL: [Self; 6] =
        [Self::Aquifer, Self::WellAndPipe, Self::AirAndHands, Self::BottleAndAcid, Self::Journey, Self::Laboratory];

    /// Those that blanks see, from the inside out.
    const HANDLING: [Self; 4] = [Self::Laboratory, Self::BottleAndAcid, Self::Journey, Self::AirAndHands];

    /// The word in the record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Aquifer => "aquifer",
            Self::WellAndPipe => "well-and-pipe",
            Self::AirAndHands => "air-and-hands",
            Self::BottleAndAcid => "bottle-and-acid",
            Self::Journey => "journey",
            Self::Laboratory => "laboratory",
        }
    }

    /// From the word in the record.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.word() == word)
    }

    /// Its name.
    pub fn says(self) -> Message {
        match self {
            Self::Aquifer => said::Aquifer.into(),
            Self::WellAndPipe => said::WellAndPipe.into(),
            Self::AirAndHands => said::AirAndHands.into(),
            Self::BottleAndAcid => said::BottleAndAcid.into(),
            Self::Journey => said::Journey.into(),
            Self::Laboratory => said::Laboratory.into(),
        }
    }
}

/// How a part is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Told {
    /// By blanks that met it, or bottles that tell it.
    Measured,
    /// No blank met it: its metal is in the part [`Part::with`].
    NotMeasured,
    /// Nothing tells it from the part [`Part::with`], where its metal is.
    NotToldApart,
    /// An upper bound: others that nothing tells from it are in it.
    AtMost,
}

impl Told {
    /// All.
    pub const ALL: [Self; 4] = [Self::Measured, Self::NotMeasured, Self::NotToldApart, Self::AtMost];

    /// The word in the record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::NotMeasured => "not-measured",
            Self::NotToldApart => "not-told-apart",
            Self::AtMost => "at-most",
        }
    }
}

/// One part of the metal in a bottle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// Which.
    pub part: Source,
    /// How it is told.
    pub told: Told,
    /// The part that holds its metal, where it is not told by itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub with: Option<Source>,
    /// pg; none where it is not told by itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value_pg: Option<f64>,
    /// Its standard uncertainty, pg.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u_pg: Option<f64>,
    /// Its 95 % interval for this bottle, pg. Of a bound that of all that is in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub interval_pg: Option<(f64, f64)>,
    /// The same as a share of the metal found; none where no shares are given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub share: Option<PartShare>,
    /// Why it is not told, and the blank or bottle that would tell.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<Sentence>,
}

/// How the sum stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stands {
    /// The parts add up to what was found.
    AddsUp,
    /// The same by the model; the bottles of this water disagree by more than U, so that no part bears a number.
    BottlesDisagree,
    /// The parts and what was found differ by more than U of the bottle: no shares.
    DoesNotAddUp,
    /// Nothing was found above the blanks: no parts.
    NothingAbove,
}

impl Stands {
    /// All.
    pub const ALL: [Self; 4] = [Self::AddsUp, Self::BottlesDisagree, Self::DoesNotAddUp, Self::NothingAbove];

    /// The word in the record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::AddsUp => "adds-up",
            Self::BottlesDisagree => "bottles-disagree",
            Self::DoesNotAddUp => "does-not-add-up",
            Self::NothingAbove => "nothing-above",
        }
    }
}

/// The accounting of one bottle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Accounting {
    /// How the sum stands.
    pub stands: Stands,
    /// The metal found, pg.
    pub found_pg: f64,
    /// Its expanded uncertainty U, 95 %, pg.
    pub expanded_pg: f64,
    /// What is to be said of the sum: numbers that do not add up, bottles that disagree, nothing found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub says: Option<Sentence>,
    /// The parts in the order of the way; none where nothing was found.
    pub parts: Vec<Part>,
}

/// Blanks of one kind, pg a bottle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlankSet {
    /// Mean.
    pub mean_pg: f64,
    /// Standard deviation between bottles.
    pub sd_pg: f64,
    /// Number, two at least.
    pub n: usize,
}

impl BlankSet {
    /// Of single blanks; none under two.
    pub fn of(masses_pg: &[f64]) -> Option<Self> {
        let m = Moments::of(masses_pg)?;
        Some(Self { mean_pg: m.mean, sd_pg: m.variance()?.sqrt(), n: m.n })
    }

    fn dof(&self) -> f64 {
        self.n as f64 - 1.0
    }

    fn variance(&self) -> f64 {
        self.sd_pg * self.sd_pg
    }

    fn variance_of_mean(&self) -> f64 {
        self.variance() / self.n as f64
    }
}

/// A part that bottles at different flow tell, for this bottle, pg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Best value.
    pub value_pg: f64,
    /// Standard uncertainty for one more bottle.
    pub u_pg: f64,
    /// 95 % interval for one more bottle.
    pub interval_pg: (f64, f64),
}

/// What is known of the pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pipe {
    /// Surface water: there is none.
    Absent,
    /// Bottles at different flow tell it: its metal in this bottle, and the aquifer's with what these bottles do not tell
    /// from it.
    ByFlow {
        /// The pipe's.
        pipe: Estimate,
        /// The rest that came with the water.
        rest: Estimate,
    },
    /// The water touched it within the programme's limit.
    Short,
    /// The water touched it longer than the programme allows, both in minutes.
    Long {
        /// Contact, min.
        contact_min: f64,
        /// The programme's limit, min.
        longest_min: f64,
    },
    /// Nobody knows how long the water touched it.
    NotKnown,
}

/// Where the bottle stood open, and whether blanks met that air.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Air {
    /// Two blanks or more met it.
    #[default]
    Met,
    /// It stood in the open air at this place, and no two blanks did.
    Open(String),
    /// It stood at this place, and no two blanks did, nor at a well whose air was shown to be alike.
    Elsewhere(String),
}

/// What is known of a bottle.
#[derive(Debug, Clone, PartialEq)]
pub struct BottleSeen {
    /// The metal found before any blank was taken off, pg.
    pub found: Measured,
    /// Covariance of the metal found and one more bottle's blank, pg² (shared calibration).
    pub covariance_pg2: f64,
    /// Whether anything was found above the blanks.
    pub detected: bool,
    /// Procedural blanks.
    pub laboratory: Option<BlankSet>,
    /// Bottle blanks.
    pub bottle: Option<BlankSet>,
    /// Trip blanks.
    pub journey: Option<BlankSet>,
    /// Field blanks that met its air.
    pub air: Option<BlankSet>,
    /// The air; [`Air::Met`] wherever `air` has blanks.
    pub stood: Air,
    /// The pipe.
    pub pipe: Pipe,
    /// Standard deviation between the bottles of this water, pg, where there are two.
    pub between_pg: Option<f64>,
}

impl BottleSeen {
    /// The outermost blanks that met the bottle: these are taken off.
    pub fn outermost(&self) -> Option<BlankSet> {
        [self.air, self.journey, self.bottle, self.laboratory].into_iter().flatten().next()
    }
}

/// Fewer blanks do not show whether they are skewed.
// The programme's own choice: with lognormal blanks of cv 1 the intervals still hold the truth in under 93 % at 8
// (docs/validation/accounting.md).
const SEES_A_SKEW: usize = 20;

/// Confidence of all intervals of the accounting.
const CONFIDENCE: f64 = 0.95;

/// Accounts for the metal in a bottle.
///
/// # Errors
/// [`Error::OutOfRange`] for a metal found or blanks that are no finite numbers, a u under zero, or two bottles without
/// any u.
pub fn account(b: &BottleSeen) -> Result<Accounting, Error> {
    let found = b.found.value;
    let expanded = t::quantile(0.5 + 0.5 * CONFIDENCE, b.found.dof) * b.found.u;
    if !found.is_finite() || !expanded.is_finite() || expanded < 0.0 {
        let what = format!("{found} pg with u {} pg", b.found.u);
        return Err(Error::out_of_range("metal found", what, "a finite value, u of at least 0"));
    }
    let mut out = Accounting {
        stands: Stands::AddsUp,
        found_pg: found,
        expanded_pg: expanded,
        says: None,
        parts: Source::ALL.map(Part::open).into(),
    };
    if !b.detected || found <= 0.0 {
        out.stands = Stands::NothingAbove;
        out.says = Some(said::NothingAbove.into());
        out.parts.clear();
        return Ok(out);
    }
    let disagree = b.between_pg.filter(|s| *s > expanded);
    handling(b, &mut out.parts);
    water(b, disagree, &mut out.parts)?;
    let sum: f64 = out.parts.iter().filter_map(|p| p.value_pg).sum();
    let pg = |x: f64| Shown::significant(x, 4, "pg");
    if (sum - found).abs() > expanded || sum <= 0.0 {
        out.stands = Stands::DoesNotAddUp;
        out.parts.iter_mut().for_each(|p| p.share = None);
        let expanded = Shown::significant(expanded, 2, "pg");
        out.says = Some(said::DoesNotAddUp { sum: pg(sum), found: pg(found), expanded }.into());
        return Ok(out);
    }
    for p in &mut out.parts {
        p.scale(found / sum, found);
    }
    if let Some(between) = disagree {
        out.stands = Stands::BottlesDisagree;
        let two = |x: f64| Shown::significant(x, 2, "pg");
        out.says = Some(said::BottlesDisagree { between: two(between), expanded: two(expanded) }.into());
    }
    Ok(out)
}

impl Part {
    fn open(part: Source) -> Self {
        let (value_pg, u_pg, interval_pg) = (None, None, None);
        Self { part, told: Told::Measured, with: None, value_pg, u_pg, interval_pg, share: None, why: None }
    }

    fn set(&mut self, e: Estimate) {
        self.value_pg = Some(e.value_pg);
        self.u_pg = Some(e.u_pg);
        self.interval_pg = Some((e.interval_pg.0.min(e.value_pg), e.interval_pg.1.max(e.value_pg)));
    }

    fn joined(&mut self, told: Told, with: Source, why: Message) {
        (self.told, self.with, self.why) = (told, Some(with), Some(why.into()));
    }

    /// To the sum of all parts; no part is less than nothing, no share more than all that was found.
    fn scale(&mut self, factor: f64, found: f64) {
        self.value_pg = self.value_pg.map(|x| (factor * x).clamp(0.0, found));
        self.u_pg = self.u_pg.map(|u| factor * u);
        self.interval_pg = self.interval_pg.map(|(low, high)| ((factor * low).max(0.0), (factor * high).max(0.0)));
        let (Some(value), Some(u), Some((low, high))) = (self.value_pg, self.u_pg, self.interval_pg) else { return };
        let of_found = |pg: f64| (pg / found).clamp(0.0, 1.0);
        let by_mass = PartShare { share: of_found(value), u: u / found, low: of_found(low), high: of_found(high) };
        // The share of what the blanks leave has an interval of its own: metal found is in both its parts.
        self.share = Some(match self.share {
            Some(s) => {
                PartShare { share: by_mass.share, low: s.low.min(by_mass.share), high: s.high.max(by_mass.share), ..s }
            }
            None => by_mass,
        });
    }
}

fn place(part: Source) -> usize {
    Source::ALL.iter().position(|s| *s == part).expect("one of all")
}

/// What blanks see, from the inside out.
fn handling(b: &BottleSeen, parts: &mut [Part]) {
    let kinds = [b.laboratory, b.bottle, b.journey, b.air];
    let met: Vec<(Source, BlankSet)> =
        Source::HANDLING.into_iter().zip(kinds).filter_map(|(s, k)| Some((s, k?))).collect();
    let levels = rising(&met.iter().map(|m| m.1).collect::<Vec<_>>());
    let mut inner: Option<(f64, BlankSet)> = None;
    for ((part, set), level) in met.iter().zip(levels) {
        parts[place(*part)].set(stage(level, *set, inner));
        inner = Some((level, *set));
    }
    for (i, (part, kind)) in Source::HANDLING.into_iter().zip(kinds).enumerate() {
        if kind.is_some() {
            continue;
        }
        let next = met.iter().map(|m| m.0).find(|s| Source::HANDLING[i..].contains(s));
        let why = unseen(part, &b.stood);
        match next {
            Some(next) => parts[place(part)].joined(Told::NotToldApart, next, why),
            None => parts[place(part)].joined(Told::NotMeasured, Source::Aquifer, why),
        }
    }
}

/// The blanks that would tell a stage.
fn unseen(part: Source, stood: &Air) -> Message {
    match (part, stood) {
        (Source::Laboratory, _) => said::NoProceduralBlanks.into(),
        (Source::BottleAndAcid, _) => said::NoBottleBlanks.into(),
        (Source::Journey, _) => said::NoTripBlanks.into(),
        (_, Air::Open(place)) => said::NoBlanksInOpenAir { place: place.as_str().into() }.into(),
        (_, Air::Elsewhere(place)) => said::NoBlanksInThisAir { place: Name::from(place.as_str()) }.into(),
        (_, Air::Met) => said::NoFieldBlanks.into(),
    }
}

/// Means of nested kinds, rising from the inside out, none under zero, the outermost as it is (zero where it is less).
fn rising(sets: &[BlankSet]) -> Vec<f64> {
    let Some((outermost, inner)) = sets.split_last() else { return vec![] };
    let most = outermost.mean_pg.max(0.0);
    // Pool adjacent violators: blocks of mean, weight, members.
    let mut blocks: Vec<(f64, f64, usize)> = vec![];
    for s in inner {
        let mut block = (s.mean_pg, s.n as f64, 1);
        while let Some(last) = blocks.last().filter(|last| last.0 > block.0).copied() {
            blocks.pop();
            let weight = last.1 + block.1;
            block = ((last.0 * last.1 + block.0 * block.1) / weight, weight, last.2 + block.2);
        }
        blocks.push(block);
    }
    let mut out: Vec<f64> =
        blocks.iter().flat_map(|(mean, _, n)| std::iter::repeat_n(mean.clamp(0.0, most), *n)).collect();
    out.push(most);
    out
}

/// What a stage brings to one more bottle: its kind of blank less the next inner one.
fn stage(level: f64, outer: BlankSet, inner: Option<(f64, BlankSet)>) -> Estimate {
    let value = level - inner.map_or(0.0, |i| i.0);
    let mut means = vec![(outer.variance_of_mean(), outer.dof())];
    let mut scatter = outer.variance();
    if let Some((_, inner)) = inner {
        means.push((inner.variance_of_mean(), inner.dof()));
        scatter = (scatter - inner.variance()).max(0.0);
    }
    means.push((scatter, outer.dof()));
    let u = means.iter().map(|m| m.0).sum::<f64>().sqrt();
    let dof = effective_dof(&means).unwrap_or(outer.dof());
    around(value, u, dof)
}

/// What came with the water: aquifer and pipe.
fn water(b: &BottleSeen, disagree: Option<f64>, parts: &mut [Part]) -> Result<(), Error> {
    let unseen = parts.iter().any(|p| p.with == Some(Source::Aquifer));
    let (aquifer, well) = (place(Source::Aquifer), place(Source::WellAndPipe));
    let mut bound = unseen;
    let apart = match b.pipe {
        Pipe::ByFlow { pipe, rest } => {
            parts[well].set(pipe);
            parts[aquifer].set(rest);
            None
        }
        Pipe::Absent => {
            parts[well].set(Estimate { value_pg: 0.0, u_pg: 0.0, interval_pg: (0.0, 0.0) });
            None
        }
        Pipe::Short => Some(said::PipeShort.into()),
        Pipe::Long { contact_min, longest_min } => {
            let min = |x| Shown::significant(x, 3, "min");
            Some(said::PipeLong { contact: min(contact_min), longest: min(longest_min) }.into())
        }
        Pipe::NotKnown => Some(said::PipeNotKnown.into()),
    };
    if let Some(why) = apart {
        parts[well].joined(Told::NotToldApart, Source::Aquifer, why);
        bound |= b.pipe != Pipe::Short;
    }
    if !matches!(b.pipe, Pipe::ByFlow { .. }) {
        let (left, share) = left_by_blanks(b, disagree)?;
        parts[aquifer].set(left);
        parts[aquifer].share = share;
    }
    if bound {
        parts[aquifer].told = Told::AtMost;
    }
    Ok(())
}

/// Found less the outermost blanks that met the bottle.
fn left_by_blanks(b: &BottleSeen, disagree: Option<f64>) -> Result<(Estimate, Option<PartShare>), Error> {
    let found = b.found.value;
    // Bottles of one water that disagree: what is found in one of them stands for the water only so far.
    let gross = Measured { u: b.found.u.hypot(disagree.unwrap_or(0.0)), ..b.found.clone() };
    let Some(outer) = b.outermost() else {
        return Ok((around(found, gross.u, gross.dof), None));
    };
    let n = outer.n as f64;
    // What the blanks say of one more bottle: its own spread beside that of the mean.
    let u = outer.sd_pg * (1.0 + 1.0 / n).sqrt();
    let blank = Measured::with_dof(outer.mean_pg, u, outer.dof(), Unit::known("pg"));
    let bound = gross.u * u;
    let covariance = b.covariance_pg2.clamp(-bound, bound);
    let parts = [(gross.u * gross.u, gross.dof), (u * u, outer.dof())];
    let u_left = (gross.u * gross.u + u * u - 2.0 * covariance).max(0.0).sqrt();
    let dof = effective_dof(&parts).unwrap_or(f64::INFINITY);
    let left = around((found - outer.mean_pg.max(0.0)).max(0.0), u_left, dof);
    let s = water_share(&GrossAndBlank { gross, blank, covariance }, CONFIDENCE)?;
    let share = s.value.zip(s.u).map(|(share, u)| PartShare { share, u, low: s.interval.0, high: s.interval.1 });
    Ok((left, share))
}

fn around(value: f64, u: f64, dof: f64) -> Estimate {
    let half = t::quantile(0.5 + 0.5 * CONFIDENCE, dof) * u;
    Estimate { value_pg: value, u_pg: u, interval_pg: ((value - half).max(0.0), value + half) }
}

/// A part as a share of the metal found.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PartShare {
    /// 0 to 1.
    pub share: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Accounting {
    /// Whether shares may be given.
    pub fn has_shares(&self) -> bool {
        matches!(self.stands, Stands::AddsUp | Stands::BottlesDisagree)
    }

    /// A part.
    pub fn part(&self, of: Source) -> Option<&Part> {
        self.parts.iter().find(|p| p.part == of)
    }

    /// A part as a share; none where it is not told by itself, or no shares are given.
    pub fn share(&self, of: Source) -> Option<PartShare> {
        self.part(of).filter(|_| self.has_shares())?.share
    }

    /// What the part of the aquifer is: the words for it. `outdoors`: did the bottle stand in the open air?
    pub fn left(&self, outdoors: bool) -> Left {
        let with = |s: Source| self.part(s).is_some_and(|p| p.with == Some(Source::Aquifer));
        let bound = self.part(Source::Aquifer).is_some_and(|p| p.told == Told::AtMost);
        Left::of(Holds {
            pipe: with(Source::WellAndPipe),
            bound,
            air: with(Source::AirAndHands),
            outdoors,
            way: with(Source::Journey) || with(Source::BottleAndAcid) || with(Source::Laboratory),
        })
    }

    /// Of a hundred parts how many each has, by the largest remainder, so that they add up to a hundred; 0 reads
    /// "under 1". Only parts that are told by themselves; none where no shares are given.
    pub fn of_hundred(&self) -> Vec<(Source, u32)> {
        let shares: Vec<(Source, f64)> =
            self.parts.iter().filter_map(|p| Some((p.part, 100.0 * self.share(p.part)?.share))).collect();
        let mut out: Vec<(Source, u32)> = shares.iter().map(|(s, x)| (*s, x.floor() as u32)).collect();
        let given: u32 = out.iter().map(|o| o.1).sum();
        let mut by_rest: Vec<usize> = (0..shares.len()).collect();
        let rest = |i: usize| shares[i].1 - shares[i].1.floor();
        by_rest.sort_by(|a, b| rest(*b).total_cmp(&rest(*a)).then(a.cmp(b)));
        for i in by_rest.into_iter().take(100_u32.saturating_sub(given) as usize) {
            out[i].1 += 1;
        }
        out
    }

    /// The finding: is the lower end of the water's share at least what the programme asks? A bound has no lower end: under
    /// what is asked it is not met, at or over it not known.
    pub fn finding(&self, asked: f64, seen: &BottleSeen, outdoors: bool) -> Finding {
        let check = Check::NumberWaterShare;
        let Some(s) = self.share(Source::Aquifer) else {
            let says = self.says.as_deref().cloned().unwrap_or_else(|| said::NothingAbove.into());
            return Finding::new(check, Outcome::NotKnown, says);
        };
        let aquifer = self.part(Source::Aquifer).expect("it has a share");
        let bound = aquifer.told == Told::AtMost;
        let (low, high) = (if bound { 0.0 } else { s.low }, s.high);
        let least = Shown::as_given(asked, "");
        let (outcome, why): (_, Message) = if low >= asked {
            (Outcome::Met, message::share::Enough { least }.into())
        } else if high < asked {
            (Outcome::NotMet, message::share::TooLittle { least }.into())
        } else if bound {
            (Outcome::NotKnown, message::share::NoLowerEnd { least }.into())
        } else {
            (Outcome::NotKnown, message::share::Undecided { least }.into())
        };
        let (share, left) = (in_words(&s), self.left(outdoors).says());
        let unseen = self.parts.iter().filter(|p| bound && p.with == Some(Source::Aquifer));
        let mut reasons: Vec<Message> = unseen.filter_map(|p| p.why.as_deref().cloned()).collect();
        reasons
            .extend(seen.outermost().filter(|o| o.n < SEES_A_SKEW).map(|o| said::EvenBlanks { n: count(o.n) }.into()));
        let says: Message = if bound {
            said::WaterAtMost { share, left, why }.into()
        } else {
            said::OfWater { share, left, why }.into()
        };
        let says = reasons.into_iter().fold(says, |one, more| said::And { one, more }.into());
        let finding = Finding::new(check, outcome, says)
            .comparing(message::compared::WatersPart, Amount::Measured(Measured::new(s.share, s.u, Unit::one())))
            .comparing(message::compared::LeastShare, Amount::stated(asked, Unit::one()));
        match &seen.pipe {
            Pipe::Long { contact_min, longest_min } => finding
                .comparing(message::compared::ContactWithPipe, Amount::stated(*contact_min, Unit::known("min")))
                .comparing(message::compared::LongestContact, Amount::stated(*longest_min, Unit::known("min"))),
            _ => finding,
        }
    }
}

/// "0.91 (95 % interval 0.85 to 0.95)", to two digits of the interval's half-width.
fn in_words(s: &PartShare) -> Message {
    let decimals = quantity::format::decimals_for((0.5 * (s.high - s.low)).max(1e-3), 2).clamp(1, 3);
    let show = |x: f64| Shown::decimals(x, decimals, "");
    let confidence = Shown::trimmed(100.0 * CONFIDENCE, 3, "");
    message::share::WithInterval { share: show(s.share), confidence, low: show(s.low), high: show(s.high) }.into()
}

/// What is in the part that came with the water, beside the aquifer's.
#[allow(clippy::struct_excessive_bools, reason = "each is a question of its own, asked apart")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Holds {
    /// The pipe's metal.
    pub pipe: bool,
    /// It is an upper bound only.
    pub bound: bool,
    /// That of air and hands.
    pub air: bool,
    /// The bottle stood in the open air.
    pub outdoors: bool,
    /// That of bottle, journey or laboratory.
    pub way: bool,
}
