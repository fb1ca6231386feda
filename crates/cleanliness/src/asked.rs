//! A plan as a person asks for it, and its answer: what stands between a file, a form or a record and [`crate::plan`].
//!
//! In: the question with all that may be left out ([`Asked`]; concentrations in ng/L, blanks in pg per bottle, prices in
//! the person's own money). Out: [`Answer`], the designs that nothing beats, each with its packing list, and what was
//! assumed. What is left out is assumed here, each in words, or filled from a record by the caller. JSON is read once, by
//! [`crate::calc::read_plan`], and written once, by whoever prints the answer. Checked in `tests/calc.rs`.

use crate::needs::{Need, Part};
use crate::plan::{Choices, Past, Planning, Prices, Question, Ranked, packing_list, rank};
use message::{Arg, Message, Name, Sentence, Shown, plan as said};
use quantity::{CalcError, Check};
use serde::Serialize;
use statistics::sample::mean_sd;

/// The least recovery where nobody says: the programme's own window, 80 to 120 %.
const LEAST_RECOVERY: f64 = 0.8;

/// Most wells of one trip: bottles are counted in 32 bits.
pub const MOST_WELLS: usize = 10_000;

/// What can be asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Will a water of this level be detected?
    Detect,
    /// Will it be shown to lie on its side of a limit?
    Limit,
    /// Will one be shown to be lower than another?
    Lower,
    /// Will a change over the years be seen?
    Trend,
    /// Is a detection limit reached?
    DetectionLimit,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::Detect, Self::Limit, Self::Lower, Self::Trend, Self::DetectionLimit];

    /// As a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Detect => "detect",
            Self::Limit => "limit",
            Self::Lower => "lower",
            Self::Trend => "trend",
            Self::DetectionLimit => "detection-limit",
        }
    }

    /// The kind of a word.
    ///
    /// # Errors
    /// [`CalcError::Refused`] for another word.
    pub fn parse(word: &str) -> Result<Self, CalcError> {
        let kind = Self::ALL.into_iter().find(|k| k.word() == word);
        kind.ok_or_else(|| CalcError::refused("question.kind", word, "detect, limit, lower, trend or detection-limit"))
    }
}

/// A number of the question: what is computed with, and how it was asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// The number; a concentration in ng/L.
    pub value: f64,
    /// As it was written; a concentration with its unit.
    pub written: String,
}

impl Figure {
    /// A plain number.
    pub fn plain(value: f64) -> Self {
        Self { value, written: serde_json::json!(value).to_string() }
    }

    /// A concentration in ng/L.
    pub fn ng_l(value: f64) -> Self {
        Self { value, written: format!("{} ng/L", serde_json::json!(value)) }
    }
}

/// The question, with what is not said left open.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Wanted {
    /// What is asked.
    pub kind: Option<Kind>,
    /// ng/L expected.
    pub level: Option<Figure>,
    /// ng/L of the limit.
    pub limit: Option<Figure>,
    /// ng/L of the lower one.
    pub a: Option<Figure>,
    /// ng/L of the higher one.
    pub b: Option<Figure>,
    /// ng/L of the detection limit to be reached.
    pub target: Option<Figure>,
    /// Percent of the level a year.
    pub percent_per_year: Option<Figure>,
    /// Years.
    pub years: Option<Figure>,
    /// Visits a year; 1 where left out.
    pub visits_per_year: Option<f64>,
    /// Scatter of the water itself, a share of the level; 0 where left out.
    pub natural_share: Option<f64>,
}

impl Wanted {
    /// The question with all it needs.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming what is missing.
    pub fn question(&self) -> Result<Question, CalcError> {
        let given = |f: &Option<Figure>, key: &str, expected: &str| {
            let missing = || CalcError::refused(format!("question.{key}"), "nothing", expected);
            f.as_ref().map(|f| f.value).ok_or_else(missing)
        };
        let level = |f: &Option<Figure>, key: &str| given(f, key, "a concentration");
        let plain = |f: &Option<Figure>, key: &str| given(f, key, "a number");
        let Some(kind) = self.kind else { return Err(Kind::parse("nothing").expect_err("nothing is no kind")) };
        Ok(match kind {
            Kind::Detect => Question::Detect { level: level(&self.level, "level")? },
            Kind::Limit => Question::Limit { level: level(&self.level, "level")?, limit: level(&self.limit, "limit")? },
            Kind::Lower => Question::Lower { a: level(&self.a, "a")?, b: level(&self.b, "b")? },
            Kind::Trend => Question::Trend {
                level: level(&self.level, "level")?,
                percent_per_year: plain(&self.percent_per_year, "percent_per_year")?,
                years: plain(&self.years, "years")?,
                visits_per_year: self.visits_per_year.unwrap_or(1.0),
                natural_share: self.natural_share.unwrap_or(0.0),
            },
            Kind::DetectionLimit => {
                let target = level(&self.target, "target")?;
                Question::DetectionLimit { target, level: self.level.as_ref().map_or(target, |l| l.value) }
            }
        })
    }

    /// The question as a sentence about a metal; none where nothing is asked.
    pub fn says(&self, metal: Option<&str>) -> Option<Message> {
        let metal = metal.map_or_else(|| missing(said::TheMetal), as_written);
        let given = |f: &Option<Figure>, none: Vec<Arg>| f.as_ref().map_or(none, |f| as_written(&f.written));
        let level = |f: &Option<Figure>| given(f, missing(said::NoLevel));
        let plain = |f: &Option<Figure>| given(f, missing(said::NoNumber));
        Some(match self.kind? {
            Kind::Detect => said::Detect { metal, level: level(&self.level) }.into(),
            Kind::Limit => said::Limit { metal, level: level(&self.level), limit: level(&self.limit) }.into(),
            Kind::Lower => said::Lower { metal, lower: level(&self.a), higher: level(&self.b) }.into(),
            Kind::Trend => {
                let (percent, years) = (plain(&self.percent_per_year), plain(&self.years));
                said::Trend { metal, percent, years }.into()
            }
            Kind::DetectionLimit => said::DetectionLimit { metal, limit: level(&self.target) }.into(),
        })
    }
}

/// What the person gave, as it was written.
fn as_written(text: &str) -> Vec<Arg> {
    vec![Name::from(text).into()]
}

/// In place of what was not given.
fn missing(says: impl Into<Message>) -> Vec<Arg> {
    vec![says.into().into()]
}

/// A source of the metal in a blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// Its name; one that ends in `_min` and has no exposure counts by the minutes open of the design.
    pub name: String,
    /// pg for each unit of exposure.
    pub per_unit_pg: f64,
    /// Units of exposure; 1 where left out.
    pub exposure: Option<f64>,
    /// Its scatter between bottles, pg.
    pub u_pg: Option<f64>,
}

/// Prices as far as they are given.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct AskedPrices {
    /// A bottle; 1 where left out.
    pub bottle: Option<f64>,
    /// A spiked bottle; as a bottle where left out.
    pub spike: Option<f64>,
    /// A minute less open; 0 where left out.
    pub minute_saved: Option<f64>,
    /// A litre carried; 0 where left out.
    pub litre: Option<f64>,
    /// The trip; 0 where left out.
    pub trip: Option<f64>,
    /// A vial of the run; 0 where left out.
    pub vial: Option<f64>,
}

impl AskedPrices {
    fn filled(&self) -> Prices {
        let bottle = self.bottle.unwrap_or(1.0);
        Prices {
            bottle,
            spike: self.spike.unwrap_or(bottle),
            minute_saved: self.minute_saved.unwrap_or(0.0),
            litre: self.litre.unwrap_or(0.0),
            trip: self.trip.unwrap_or(0.0),
            vial: self.vial.unwrap_or(0.0),
        }
    }
}

/// The wells of the trip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wells {
    /// By name.
    Named(Vec<String>),
    /// How many.
    Count(usize),
}

impl Wells {
    fn names(&self) -> Vec<String> {
        match self {
            Self::Named(names) => names.clone(),
            Self::Count(n) => (1..=(*n).max(1)).map(|i| format!("well {i}")).collect(),
        }
    }
}

/// A plan as it is asked for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Asked {
    /// The metal: a name for the sentence, and for whoever fills in what a record knows of it.
    pub analyte: Option<String>,
    /// The question.
    pub question: Wanted,
    /// Where the metal of a blank comes from.
    pub sources: Option<Vec<Source>>,
    /// Blanks so far, pg per bottle.
    pub past_blanks_pg: Option<Vec<f64>>,
    /// Standard deviation between blanks, even part, pg.
    pub between_bottles_pg: Option<f64>,
    /// The same as a share of the blank.
    pub between_bottles_share: Option<f64>,
    /// Standard deviation of the laboratory for one bottle, pg.
    pub laboratory_pg: Option<f64>,
    /// Relative standard deviation of one sample bottle.
    pub relative_sd: Option<f64>,
    /// Degrees of freedom behind the deviation between blanks.
    pub past_dof: Option<f64>,
    /// Relative standard deviation of one spike recovery.
    pub spike_sd: Option<f64>,
    /// Relative u of the recovery without any spike.
    pub recovery_u: Option<f64>,
    /// Prices.
    pub prices: AskedPrices,
    /// Choices.
    pub choices: Choices,
    /// Wells; one where left out.
    pub wells: Option<Wells>,
    /// Checks that decide whether a bottle is accepted: a design without what answers them is not offered.
    pub required: Vec<Check>,
    /// Checks that warn: vials of the run that answer them are part of every design.
    pub warned: Vec<Check>,
    /// The least recovery that the programme accepts, a share; 0.8 where left out.
    pub least_recovery: Option<f64>,
}

/// A design that nothing beats, ready to pack.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Offered {
    /// The design and what it gives.
    #[serde(flatten)]
    pub ranked: Ranked,
    /// Blanks of all kinds.
    pub blanks: u32,
    /// Unit of critical value and detection limit.
    pub unit: &'static str,
    /// What to pack, line by line.
    pub pack: Vec<Sentence>,
}

/// The answer to a plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer {
    /// The designs that nothing beats, cheapest first.
    pub designs: Vec<Offered>,
    /// What every design contains, and for which check.
    pub requires: Vec<Sentence>,
    /// How they were found.
    pub method: &'static str,
    /// Published sources.
    pub sources: [&'static str; 2],
    /// What was assumed, and what to bear in mind.
    pub warnings: Vec<Sentence>,
}

impl Asked {
    /// The designs that nothing beats.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming the field, what was found and what is needed.
    pub fn answer(&self) -> Result<Answer, CalcError> {
        let mut warnings = vec![Sentence::from(said::CleanWork)];
        let wells = self.wells.as_ref().map_or_else(|| Wells::Count(1).names(), Wells::names);
        let needs = self.needs();
        let planning = Planning {
            question: self.question.question()?,
            past: self.past(&mut warnings)?,
            prices: self.prices.filled(),
            choices: self.choices.clone(),
            wells: u32::try_from(wells.len()).unwrap_or(u32::MAX),
            needs,
        };
        self.caution(&planning, &mut warnings);
        let front = rank(&planning)?;
        if front.last().is_some_and(|d| d.power < 0.8) {
            warnings.push(said::NoneDecides.into());
        }
        let offered = |ranked: Ranked| {
            let d = ranked.design;
            Offered {
                blanks: d.field_blanks + d.trip_blanks + d.bottle_blanks,
                unit: "ng/L",
                pack: packing_list(&d, &wells),
                ranked,
            }
        };
        Ok(Answer {
            designs: front.into_iter().map(offered).collect(),
            requires: planning.needs.iter().map(Need::says).collect(),
            method: "every combination of the choices; variance of the net value, critical value and detection limit by Student's t and the non-central t; chance averaged over the estimated deviation; those that none beats in price and chance",
            sources: ["Currie 1968, Anal. Chem. 40:586", "Currie 1995, Pure Appl. Chem. 67:1699"],
            warnings,
        })
    }

    /// The needs of the checks, those that decide first.
    fn needs(&self) -> Vec<Need> {
        let mut out: Vec<Need> = self.required.iter().filter_map(|c| Need::of(*c)).collect();
        out.extend(self.warned.iter().filter(|c| !self.required.contains(c)).filter_map(|c| Need::of_warning(*c)));
        out
    }

    /// What the needs leave open: checks that no number answers, spikes that scatter too much, vials without a price.
    fn caution(&self, p: &Planning, warnings: &mut Vec<Sentence>) {
        let by_care = self.required.iter().filter(|c| Need::of(**c).is_none());
        let checks: Vec<Arg> = by_care.map(|c| Name::from(c.text()).into()).collect();
        if !checks.is_empty() {
            warnings.push(said::MetByCare { checks }.into());
        }
        let window = 1.0 - self.least_recovery.unwrap_or(LEAST_RECOVERY);
        // The check decides nothing where the expanded u of the recovery is wider than the window on both sides.
        if p.needs.iter().any(|n| n.decides && n.part == Part::Spikes) && p.past.spike_sd > window {
            let shown = |x: f64| Shown::significant(x, 2, "");
            warnings.push(said::SpikesTooWide { sd: shown(p.past.spike_sd), most: shown(window) }.into());
        }
        let vials = p.needs.iter().any(|n| Need::of_warning(n.check).is_some());
        if (vials || p.choices.laboratory.vials() > 0) && self.prices.vial.is_none() {
            warnings.push(said::VialNotPriced.into());
        }
    }

    /// Blank and deviations from sources and past blanks; what was assumed goes to the warnings.
    fn past(&self, warnings: &mut Vec<Sentence>) -> Result<Past, CalcError> {
        let (mut blank_pg, mut pg_per_minute, mut variance) = (0.0, 0.0, 0.0);
        for s in self.sources.iter().flatten() {
            // Minutes that are not fixed are what the designs vary: their source stays a rate.
            if s.name.ends_with("_min") && s.exposure.is_none() {
                pg_per_minute += s.per_unit_pg;
            } else {
                blank_pg += s.per_unit_pg * s.exposure.unwrap_or(1.0);
            }
            variance += s.u_pg.unwrap_or(0.0).powi(2);
        }
        let mut dof = self.past_dof;
        let mut between_pg = self.between_bottles_pg;
        if let Some(blanks) = &self.past_blanks_pg {
            let Some((mean, sd)) = mean_sd(blanks) else {
                return Err(CalcError::refused("past_blanks_pg", format!("{} blanks", blanks.len()), "at least 2"));
            };
            // Past blanks met all the sources already: added to them they would count twice.
            if blank_pg + pg_per_minute == 0.0 {
                blank_pg = mean;
            }
            between_pg = between_pg.or(Some(sd));
            dof = dof.or(Some(blanks.len() as f64 - 1.0));
        }
        let between_pg = match (between_pg, self.between_bottles_share) {
            (Some(b), _) => b,
            (None, _) if variance > 0.0 => variance.sqrt(),
            (None, Some(_)) => 0.0,
            (None, None) => {
                return Err(CalcError::refused(
                    "between_bottles_pg",
                    "nothing",
                    "how much blanks differ among themselves, in pg: or past_blanks_pg, between_bottles_share, u_pg of the sources",
                ));
            }
        };
        let mut assume = |given: Option<f64>, default: f64, says: fn(Shown) -> Message| {
            given.unwrap_or_else(|| {
                warnings.push(says(Shown::as_given(default, "")).into());
                default
            })
        };
        Ok(Past {
            blank_pg,
            pg_per_minute,
            between_pg,
            between_share: self.between_bottles_share.unwrap_or(0.0),
            laboratory_pg: assume(self.laboratory_pg, 1.0, |assumed| said::LaboratoryAssumed { assumed }.into()),
            relative_sd: assume(self.relative_sd, 0.05, |assumed| said::ScatterAssumed { assumed }.into()),
            dof: dof.unwrap_or(0.0),
            spike_sd: assume(self.spike_sd, 0.05, |assumed| said::SpikeAssumed { assumed }.into()),
            recovery_u: assume(self.recovery_u, 0.1, |assumed| said::RecoveryAssumed { assumed }.into()),
        })
    }
}
