//! What each stage was to bring before the bottle went out: from physics where the record knows the source (acid
//! certificate, leach test, dust and counts, glove test, the pipe and its contact time), else from blanks of earlier
//! runs, else nothing; and which of these, in words.
//!
//! In: source facts, counts and construction of the record, a bottle, earlier runs. Out: for each stage picograms in
//! that bottle with a 95 % range. Physics wins over past blanks, stage by stage. Counts become metal by spheres of the
//! geometric mean diameter of their channel (the coarsest channel: twice its size), density of quartz; none counted
//! stands as half a particle. Gravity settling is a floor: moving air, clothes and gloves bring more, so the glove
//! test, where there is one, is added. The science is [`cleanliness::forecast`]. Checked in `crates/programme/tests/forecast_and_plan.rs`.

use crate::air;
use crate::attribution::RunPair;
use cleanliness::air::AirSample;
use cleanliness::forecast::{About, Setting, Source, Stage, StageForecast, forecast, metal_in_air_ng_m3};
use measurement::run::{Analyte, Role};
use message::{Arg, Message, path, verdict};
use quantity::Stage as PathStage;
use record::error::Error;
use record::model::{Bottle, SourceFact, WellSection};
use record::store::{Filter, Store};
use record::words::AirPlace;
use statistics::sample::{Moments, mean_sd};
use std::collections::{BTreeMap, HashMap};

/// Density of mineral dust, kg/m³.
// Quartz, 2650 kg/m³: handbook value, from memory.
const DUST_KG_M3: f64 = 2650.0;

/// Draws of a forecast: the ends of a 95 % range to about 3 %.
const DRAWS: usize = 4000;

/// What a stage is to bring.
#[derive(Debug, Clone, PartialEq)]
pub struct Expected {
    /// Stage of the path.
    pub stage: PathStage,
    /// pg with u and range.
    pub forecast: StageForecast,
    /// From what: sources as a person wrote them, counts, blanks of earlier runs.
    pub basis: Vec<Arg>,
}

/// What the record knows before a trip.
#[derive(Debug, Clone, Default)]
pub struct Knowledge {
    facts: Vec<SourceFact>,
    air: HashMap<i64, BTreeMap<(i64, intake::site::Place), AirSample>>,
    sections: HashMap<i64, Vec<WellSection>>,
}

impl Knowledge {
    /// Reads it from the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn read(store: &Store) -> Result<Self, Error> {
        let mut out = Self { facts: store.source_facts()?, ..Self::default() };
        for t in store.trips()? {
            let counts = store.air_counts(&Filter::all().is("trip", t.id))?;
            let sums = air::pooled(&counts).into_iter().filter_map(|(place, sum)| Some((place, sum.ok()?)));
            out.air.insert(t.id, sums.collect());
        }
        for w in store.wells()? {
            out.sections.insert(w.id, store.well_sections(w.id)?);
        }
        Ok(out)
    }

    /// The fact that fits best: the one with the most conditions met, of equals the last on record.
    fn fact(&self, what: &str, analyte: &str, of: &Circumstances) -> Option<&SourceFact> {
        let fits = |f: &&SourceFact| {
            f.what.starts_with(what)
                && f.analyte.as_deref().is_none_or(|a| a == analyte)
                && f.lot_id.is_none_or(|l| of.lot == Some(l))
                && f.acid_id.is_none_or(|a| of.acid == Some(a))
                && f.material.as_deref().is_none_or(|m| of.material == Some(m))
                && f.place.as_deref().is_none_or(|p| of.place == Some(p))
        };
        let conditions = |f: &&SourceFact| {
            [f.lot_id.is_some(), f.acid_id.is_some(), f.material.is_some(), f.place.is_some(), f.analyte.is_some()]
                .iter()
                .filter(|met| **met)
                .count()
        };
        self.facts.iter().filter(fits).max_by_key(|f| (conditions(f), f.id))
    }

    /// What each stage was to bring into a bottle measured in a run; stages of which nothing is known are left out.
    /// `contact_min`: minutes in the whole pipe; `earlier`: runs before this one.
    pub fn of_bottle(&self, bottle: &Bottle, analyte: &Analyte, at: &Moment) -> Vec<Expected> {
        let volume = bottle.volume_mL.filter(|v| *v > 0.0);
        let Some(bottle_ml) = volume else { return vec![] };
        let setting = Setting { bottle_ml, water_ng_l: None, draws: DRAWS, seed: 1 };
        let past = Past { analyte, bottle_ml, runs: &at.earlier };
        let element = analyte.element.as_str();
        let stages = [
            (PathStage::Well, self.pipe(bottle, element, at.contact_min), None),
            (PathStage::CleanAir, self.clean_air(bottle, element), Some((Role::FieldBlank, Role::TripBlank))),
            (
                PathStage::Bottle,
                self.wall(bottle, element, at.measured_at),
                Some((Role::BottleBlank, Role::ProceduralBlank)),
            ),
            (PathStage::CoolBox, vec![], Some((Role::TripBlank, Role::BottleBlank))),
            (PathStage::LabRun, self.acid(bottle, element), None),
        ];
        let mut out = vec![];
        for (stage, mut known, nested) in stages {
            if known.is_empty() {
                known.extend(match (stage, nested) {
                    (_, Some((outer, inner))) => past.added(outer, inner),
                    (PathStage::LabRun, None) => past.procedure(),
                    _ => None,
                });
            }
            if known.is_empty() {
                continue;
            }
            let basis = known.iter().filter_map(|k| k.1.clone()).collect();
            let name = stage.word();
            let parts: Vec<Stage> = known.into_iter().map(|(source, _)| Stage { name: name.into(), source }).collect();
            // A fact that cannot be (negative, without end) forecasts nothing.
            if let Ok(f) = forecast(&parts, &setting) {
                out.push(Expected { stage, forecast: f.total, basis });
            }
        }
        out
    }

    fn acid(&self, b: &Bottle, element: &str) -> Known {
        let of = Circumstances { acid: b.acid_id, ..Circumstances::default() };
        let Some((f, ml)) = self.fact("metal in acid", element, &of).zip(b.acid_mL) else { return vec![] };
        vec![(Source::Acid { pg_per_ml: about(f), ml: About::new(ml, 0.0) }, as_written(f))]
    }

    fn wall(&self, b: &Bottle, element: &str, measured_at: Option<&str>) -> Known {
        let of = Circumstances { lot: b.lot_id, ..Circumstances::default() };
        let rate = self.fact("leach rate of bottle", element, &of);
        let wall = self.fact("bottle wall", element, &of);
        let minutes =
            b.filled_at.as_deref().zip(measured_at).and_then(|(f, m)| crate::field_checks::minutes_between(f, m));
        let (Some(rate), Some(wall), Some(minutes)) = (rate, wall, minutes) else { return vec![] };
        let days = About::new(minutes / 1440.0, 0.0);
        vec![(Source::Wall { pg_cm2_day: about(rate), wall_cm2: wall.value, days }, as_written(rate))]
    }

    fn clean_air(&self, b: &Bottle, element: &str) -> Known {
        let mut out = vec![];
        for (place, minutes) in [(AirPlace::Cabinet.word(), b.cabinet_min), (AirPlace::OpenAir.word(), b.open_air_min)]
        {
            let Some(minutes) = minutes.filter(|m| *m > 0.0) else { continue };
            out.extend(self.falls(b, element, place, minutes));
        }
        let of = Circumstances { lot: b.lot_id, ..Circumstances::default() };
        if let Some((f, n)) = self.fact("handling", element, &of).zip(b.openings.filter(|n| *n > 0)) {
            out.push((Source::Handling { pg_per_opening: about(f), openings: n as f64 }, as_written(f)));
        }
        out
    }

    /// What falls into the open mouth.
    fn falls(&self, b: &Bottle, element: &str, place: intake::site::Place, minutes: f64) -> Option<Of> {
        let of = Circumstances { place: Some(place), lot: b.lot_id, ..Circumstances::default() };
        let speed = self.fact("deposition velocity", element, &of)?;
        let mouth = self.fact("bottle mouth", element, &of)?;
        let (metal_ng_m3, basis) = if let Some(f) = self.fact("metal in air", element, &of) {
            (about(f), as_written(f))
        } else {
            let dust = self.fact("metal in dust", element, &of)?;
            let sample = self.air.get(&b.trip_id?)?.get(&(b.well_id?, place))?;
            let metal = dust_in_air(sample, dust.value)?;
            let relative_u = (relative(dust).powi(2) + metal.1 * metal.1).sqrt();
            let counts: Message = path::CountsAndDust { source: dust.source.as_str().into() }.into();
            (About::new(metal.0, relative_u), Some(counts.into()))
        };
        let (deposition_m_s, minutes) = (about(speed), About::new(minutes, 0.1));
        Some((Source::Air { metal_ng_m3, deposition_m_s, mouth_cm2: mouth.value, minutes }, basis))
    }

    fn pipe(&self, b: &Bottle, element: &str, contact_min: Option<f64>) -> Known {
        let (Some(well), Some(contact)) = (b.well_id, contact_min) else { return vec![] };
        let Some(sections) = self.sections.get(&well) else { return vec![] };
        // Contact splits over the sections as their volumes do.
        let volume = |s: &WellSection| (s.to_m - s.from_m) * s.radius_m * s.radius_m;
        let all: f64 = sections.iter().map(volume).sum();
        let mut out: Known = vec![];
        for s in sections {
            let of = Circumstances { material: s.material.as_deref(), ..Circumstances::default() };
            // Of an unknown material nothing is known: then the whole pipe is not.
            let Some(f) = self.fact("leach rate of pipe", element, &of) else { return vec![] };
            let contact_min = About::new(contact * volume(s) / all, 0.05);
            let basis = as_written(f).filter(|b| out.iter().all(|o| o.1.as_ref() != Some(b)));
            let source = Source::Pipe { ng_m2_min: about(f), radius_m: s.radius_m, contact_min };
            out.push((source, basis));
        }
        // One leach test is one error for all sections: they are summed into the first by contact over radius.
        one_rate(out)
    }
}

/// A source and where what is known of it is from; none where one before it names the same.
type Of = (Source, Option<Arg>);

type Known = Vec<Of>;

/// Where a fact is from, as a person wrote it; none where nobody wrote anything.
fn as_written(f: &SourceFact) -> Option<Arg> {
    (!f.source.is_empty()).then(|| Message::from(path::AsWritten { words: f.source.as_str().into() }).into())
}

/// Sections of one material by one leach test fail together: their sum stands as one source.
fn one_rate(sections: Known) -> Known {
    let mut out: Known = vec![];
    for (source, basis) in sections {
        let Source::Pipe { ng_m2_min, radius_m, contact_min } = source else { continue };
        match out.last_mut() {
            Some((Source::Pipe { ng_m2_min: rate, radius_m: r, contact_min: c }, _))
                if *rate == ng_m2_min && basis.is_none() =>
            {
                c.value += contact_min.value * *r / radius_m;
            }
            _ => out.push((Source::Pipe { ng_m2_min, radius_m, contact_min }, basis)),
        }
    }
    out
}

/// What a bottle is held to.
#[derive(Debug, Clone, Copy, Default)]
struct Circumstances<'a> {
    lot: Option<i64>,
    acid: Option<i64>,
    material: Option<&'a str>,
    place: Option<&'a str>,
}

/// When and how a bottle was measured.
#[derive(Clone, Default)]
pub struct Moment<'a> {
    /// Start of the run, as the record writes it.
    pub measured_at: Option<&'a str>,
    /// Minutes of the water in the pipe.
    pub contact_min: Option<f64>,
    /// Runs before this one.
    pub earlier: Vec<RunPair<'a>>,
}

fn relative(f: &SourceFact) -> f64 {
    if f.value > 0.0 { f.u / f.value } else { 0.0 }
}

fn about(f: &SourceFact) -> About {
    About::new(f.value, relative(f))
}

/// Metal in air of counts with dust of so many µg/g: ng/m³ and the relative u of counting.
fn dust_in_air(sample: &AirSample, metal_ug_g: f64) -> Option<(f64, f64)> {
    let (mut metal, mut variance) = (0.0, 0.0);
    for (i, c) in sample.counts.iter().enumerate() {
        let (diameter, coarser) = match sample.counts.get(i + 1) {
            Some(next) => ((c.size_um * next.size_um).sqrt(), next.count),
            None => (2.0 * c.size_um, 0),
        };
        let particles = c.count.saturating_sub(coarser) as f64 + 0.5;
        let one = metal_in_air_ng_m3(1000.0 / sample.volume_l, diameter, DUST_KG_M3, metal_ug_g).ok()?;
        metal += particles * one;
        variance += particles * one * one;
    }
    Some((metal, if metal > 0.0 { variance.sqrt() / metal } else { 0.0 }))
}

/// Blanks of runs before.
struct Past<'a> {
    analyte: &'a Analyte,
    bottle_ml: f64,
    runs: &'a [RunPair<'a>],
}

impl Past<'_> {
    fn pg(&self, run: &RunPair, role: Role) -> Vec<f64> {
        let of = run.1.results.iter().filter(|r| r.role == role && r.analyte == *self.analyte);
        of.map(|r| r.gross.value * self.bottle_ml).collect()
    }

    /// Outer blanks less the mean of the inner ones, run by run.
    fn added(&self, outer: Role, inner: Role) -> Option<Of> {
        let mut all = vec![];
        for run in self.runs {
            if let Some(inner) = Moments::of(&self.pg(run, inner)) {
                all.extend(self.pg(run, outer).into_iter().map(|b| b - inner.mean));
            }
        }
        Self::said(all)
    }

    fn procedure(&self) -> Option<Of> {
        Self::said(self.runs.iter().flat_map(|r| self.pg(r, Role::ProceduralBlank)).collect())
    }

    fn said(all: Vec<f64>) -> Option<Of> {
        let basis: Message = path::EarlierBlanks { blanks: message::count(all.len()) }.into();
        (all.len() > 1).then(|| (Source::PastBlanks(all), Some(basis.into())))
    }
}

/// The runs that began before a moment; a run without a start is before nothing.
pub fn earlier<'a>(runs: &[RunPair<'a>], started_at: Option<&str>) -> Vec<RunPair<'a>> {
    let before = |r: &&RunPair| r.0.run.started_at.as_deref().zip(started_at).is_some_and(|(a, b)| a < b);
    runs.iter().filter(before).copied().collect()
}

/// The field blanks of a run against what the stages they passed were to bring, and the stages of which nothing was
/// known. None without blanks or without any forecast.
pub fn field_blank_finding(expected: &[Expected], blanks_pg: &[f64]) -> Option<quantity::Finding> {
    const PASSED: [PathStage; 4] = [PathStage::CleanAir, PathStage::Bottle, PathStage::CoolBox, PathStage::LabRun];
    let passed: Vec<&Expected> = expected.iter().filter(|e| PASSED.contains(&e.stage)).collect();
    let (mean, sd) = mean_sd(blanks_pg).filter(|_| !passed.is_empty())?;
    // Ranges of independent stages add as the distances of their ends from the middle do.
    let pg: f64 = passed.iter().map(|e| e.forecast.pg).sum();
    let end = |f: &dyn Fn(&StageForecast) -> f64| {
        passed.iter().map(|e| (f(&e.forecast) - e.forecast.pg).powi(2)).sum::<f64>().sqrt()
    };
    let total = StageForecast {
        stage: "all stages".into(),
        pg,
        u: passed.iter().map(|e| e.forecast.u.powi(2)).sum::<f64>().sqrt(),
        range_95: ((pg - end(&|f| f.range_95.0)).max(0.0), pg + end(&|f| f.range_95.1)),
        share_of_water: None,
    };
    let missing = PASSED.iter().filter(|s| !passed.iter().any(|e| e.stage == **s)).map(|s| -> Message {
        match s {
            PathStage::CleanAir => verdict::StageCleanAir.into(),
            PathStage::Bottle => verdict::StageBottle.into(),
            PathStage::CoolBox => verdict::StageCoolBox.into(),
            _ => verdict::StageLabRun.into(),
        }
    });
    let mut finding = cleanliness::forecast::blank_against_forecast(mean, sd / (blanks_pg.len() as f64).sqrt(), &total);
    if let Some(stages) = crate::say::joined(missing) {
        let text = format!(" Nothing was known before of: {}.", stages.in_english());
        let longer = |finding| verdict::ForecastLacks { finding, stages };
        crate::say::more(&mut finding, longer, |said| said.to_owned() + &text);
    }
    Some(finding)
}
