//! How old the water of a well is: one paragraph a well beside the wells; its picture, tracers, corrections and reasons in
//! the annex of the well and on its page.
//!
//! A sentence is as strong as its weakest part: "decided" by every model that fits, "likely" by models with 95 % of the
//! weight, else it cannot be told. No age stands without model, history and half-life, no carbon-14 age without its A0.
//! Checked in `crates/report/tests/ages.rs`.

use aquifer::age::carbon14::CarbonAge;
use aquifer::age::isotopes::{Position, Season};
use aquifer::age::verdict::{Question, Standing};
use aquifer::age::{Level, Tracer};
use assessment::age::{ModelShown, Origin, WellAge, beside_every_age, is_against};
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::ages::{AgesPicture, ModelStrip, RainCurve, draw};
use figure::{Head, PHONE, WIDE, slug};
use message::{Arg, Digits, Message, Name, Share, Shown, Spoken, age as science, aquifer as part, well_age as said};
use quantity::Finding;

/// One sentence a well that has tracers, one for those that have none; where no well has any, that alone.
pub(super) fn in_short(ages: &[WellAge], wells: &[&str]) -> Vec<Block> {
    if ages.is_empty() {
        return vec![Block::Text(said::NoneMeasured.text())];
    }
    let mut out = vec![Block::Heading(said::HowOld.text())];
    for a in ages {
        let says = said::OfWell { well: a.well.as_str().into() }.text();
        out.push(Block::Text(format!("{says} {}", joined(&short(a)))));
    }
    let without: Vec<Arg> =
        wells.iter().filter(|w| ages.iter().all(|a| a.well != **w)).map(|w| Arg::Name(Name::from(*w))).collect();
    if !without.is_empty() {
        out.push(Block::Text(said::NoneMeasuredAt { wells: without }.text()));
    }
    out.push(Block::Text(beside(ages)));
    out
}

/// What stands beside every age: the histories, the prior, the half-lives, what an age does not prove.
fn beside(ages: &[WellAge]) -> String {
    let mut all: Vec<String> = ages.iter().flat_map(|a| &a.histories).map(used).collect();
    all.sort();
    all.dedup();
    all.extend(beside_every_age().iter().map(|m| said::Beside { says: m.clone() }.text()));
    all.join(" ")
}

/// Sentences one after the other.
fn joined(all: &[Message]) -> String {
    all.iter().map(Spoken::text).collect::<Vec<_>>().join(" ")
}

fn share(x: f64) -> Share {
    Share::new(x, Digits::Trimmed(2))
}

/// A bound from above is rounded up, and never shown smaller than a thousandth.
fn at_most(x: f64) -> Share {
    Share::new(x.max(1e-3), Digits::Up(2))
}

/// A bound from below is rounded down; less than a thousandth is nothing.
fn at_least(x: f64) -> Share {
    Share::new(if x < 1e-3 { 0.0 } else { x }, Digits::Down(2))
}

/// The answer in a few sentences: when, how much of it is young, how old on the mean, what it rests on.
pub(super) fn short(a: &WellAge) -> Vec<Message> {
    let Some(u) = &a.union else {
        let why = a.refused.first().cloned();
        return match why {
            Some(why) => vec![said::NoAgeBecause { why }.into()],
            None => vec![said::NoAge.into()],
        };
    };
    let (low, high) = (at_least(u.young.0), at_most(u.young.1));
    let of = |q: Question| a.answer(q).map(|v| (v.standing, v.answer));
    let when: Message = match [Question::BeforeBomb, Question::WhollyYoung, Question::PartYoung].map(of) {
        [Some((Standing::Decided, Some(true))), ..] => said::BeforeDecided { high }.into(),
        [Some((Standing::Likely, Some(true))), ..] => said::BeforeLikely { high }.into(),
        [_, Some((Standing::Decided, Some(true))), _] => said::YoungDecided { low }.into(),
        [_, Some((Standing::Likely, Some(true))), _] => said::YoungLikely { low }.into(),
        [_, _, Some((Standing::Decided, Some(true)))] => said::PartDecided { low, high }.into(),
        [_, _, Some((Standing::Likely, Some(true)))] => said::PartLikely { low, high }.into(),
        _ => said::CannotTell { low, high }.into(),
    };
    let mut out = vec![when];
    // What models exclude and the tracer itself does not is told beside it.
    if let Some(younger) = a.tritium.as_ref().and_then(|t| t.younger_at_most).filter(|y| *y > u.young.1) {
        out.push(said::WithoutModel { younger: at_most(younger) }.into());
    }
    if a.models.iter().any(|m| m.tested && !m.rejected) {
        out.push(science::MeanAge { ranges: ranges(&u.mean_age_years) }.into());
        if u.open {
            out.push(science::DeadPartFits.into());
        }
    } else {
        // What is not tested ranges over the prior: no age follows from it.
        out.push(said::NothingTested.into());
    }
    out.push(rests_on(a));
    out
}

fn ranges(all: &[(f64, f64)]) -> Vec<Arg> {
    let years = |x: f64| Shown::significant(x, 2, "");
    all.iter().map(|r| Arg::Message(part::Between { low: years(r.0), high: years(r.1) }.into())).collect()
}

/// Tracers and histories by name.
fn rests_on(a: &WellAge) -> Message {
    let tracers = a.seen.iter().map(|s| Arg::Name(Name::from(sign(&s.sign)))).collect();
    let histories: Vec<Arg> = a.histories.iter().map(|h| Arg::Name(Name::from(&h.name))).collect();
    if histories.is_empty() {
        said::RestsOn { tracers }.into()
    } else {
        said::RestsOnWithHistory { tracers, histories }.into()
    }
}

/// The sign as it is written by hand: ³H, δ¹⁸O.
pub(super) fn sign(sign: &str) -> &str {
    limits::claim::tracer_sign(sign)
}

/// All that is told of a well's age; `full` is a page of its own: with the answer, the
/// table of models, every finding, and what stands beside every age.
pub(super) fn blocks(a: &WellAge, full: bool) -> Vec<Block> {
    // On paper the answer and what stands beside it are in the chapter.
    let mut out = if full { vec![Block::Text(joined(&short(a)))] } else { vec![] };
    // Where nothing is tested the picture shows the prior, for which paper has no room.
    if a.models.iter().any(|m| !m.density.is_empty() && (full || m.tested)) {
        out.push(Block::Figure(picture(a)));
    }
    out.push(Block::Table(tracers(a)));
    if let Some(c) = &a.carbon {
        carbon(c, a.carbon_is_bound, &mut out);
    }
    if full && !a.models.is_empty() {
        out.push(Block::Table(models(a)));
    }
    if let Some(o) = &a.origin {
        out.push(Block::Text(joined(&origin(o))));
    }
    let darcy = a.darcy.as_ref().map(Finding::as_sentence);
    out.push(Block::Text(darcy.unwrap_or_else(|| said::NoDarcy.text())));
    if let Some(next) = next(a) {
        out.push(Block::Text(next));
    }
    let mut reasons: Vec<String> =
        a.findings.iter().filter(|f| full || is_against(f)).map(Finding::as_sentence).collect();
    reasons.extend(a.refused.iter().map(|why| said::NotUsedBecause { why: why.clone() }.text()));
    reasons.sort();
    reasons.dedup();
    if !reasons.is_empty() {
        out.push(Block::List(reasons));
    }
    if full {
        out.push(Block::Text(beside(std::slice::from_ref(a))));
    }
    out
}

fn used(h: &assessment::age::UsedHistory) -> String {
    said::HistoryUsed {
        tracer: sign(h.tracer.sign()).into(),
        name: h.name.as_str().into(),
        region: h.region.as_str().into(),
        source: h.source.as_str().into(),
    }
    .text()
}

fn tracers(a: &WellAge) -> Table {
    let row = |s: &assessment::age::Seen| {
        vec![
            Cell::Text(sign(&s.sign).to_string()),
            Cell::Text(s.value.text()),
            Cell::Text(document::printed::printed(&s.day, message::language())),
            s.laboratory.clone().map_or_else(|| Cell::Missing(message::word::NotKnown.text()), Cell::Text),
        ]
    };
    Table {
        caption: said::TracersCaption { well: a.well.as_str().into() }.text(),
        columns: vec![
            Column::words(said::ColumnTracer.text()),
            Column::words(said::ColumnMeasured.text()),
            Column::words(said::ColumnSampled.text()),
            Column::words(said::ColumnLaboratory.text()),
        ],
        rows: a.seen.iter().map(row).collect(),
        notes: vec![],
    }
}

/// Carbon-14 alone: the band, and each correction with its A0.
fn carbon(c: &CarbonAge, bound: bool, out: &mut Vec<Block>) {
    let years = |x: f64| Shown::significant(x, 2, "");
    let half_life = Shown::as_given(c.half_life.value, "a");
    let of_band: Message = match c.band {
        Some((low, _)) if bound => said::CarbonOlder { low: years(low.max(0.0)), half_life }.into(),
        Some((low, Some(high))) => {
            said::CarbonBand { low: years(low.max(0.0)), high: years(high.max(0.0)), half_life }.into()
        }
        Some((low, None)) => said::CarbonOlder { low: years(low.max(0.0)), half_life }.into(),
        None => said::CarbonNone.into(),
    };
    out.push(Block::Text(of_band.text()));
    let in_band: Vec<_> = c.dated.iter().filter(|d| d.in_band).collect();
    if bound || in_band.is_empty() {
        return;
    }
    let row = |d: &&aquifer::age::carbon14::Dated| {
        let span = d.spread.map_or_else(
            || message::word::NotKnown.text(),
            |s| part::Between { low: years(s.low_95.max(0.0)), high: years(s.high_95.max(0.0)) }.text(),
        );
        vec![
            Cell::Text(d.correction.said().text()),
            Cell::Text(Shown::significant(d.a0_pmc, 2, "").said(message::language())),
            Cell::Text(span),
        ]
    };
    out.push(Block::Table(Table {
        caption: said::CarbonCaption.text(),
        columns: vec![
            Column::words(said::ColumnCorrection.text()),
            Column::numbers(said::ColumnStart.text(), "pMC"),
            Column::words(said::ColumnYears.text()),
        ],
        rows: in_band.iter().map(row).collect(),
        notes: vec![],
    }));
}

fn models(a: &WellAge) -> Table {
    let row = |m: &ModelShown| {
        let state = if m.rejected {
            said::StateRejected.text()
        } else if m.tested {
            said::StateFits.text()
        } else {
            said::StateUntested.text()
        };
        let all = said::Ranges { ranges: ranges(&m.ranges_years) }.text();
        let young = said::ShareRange { low: at_least(m.young.low_95), high: at_most(m.young.high_95) }.text();
        vec![Cell::Text(name(m)), Cell::Text(state), Cell::Text(all), Cell::Text(young)]
    };
    Table {
        caption: said::ModelsCaption.text(),
        columns: vec![
            Column::words(said::ColumnModel.text()),
            Column::words(said::ColumnState.text()),
            Column::words(said::ColumnAges.text()),
            Column::words(said::ColumnYoung.text()),
        ],
        rows: a.models.iter().map(row).collect(),
        notes: vec![],
    }
}

fn name(m: &ModelShown) -> String {
    science::ModelName { model: m.kind.name().into() }.text()
}

fn origin(o: &Origin) -> Vec<Message> {
    let mut out: Vec<Message> = vec![];
    let permil = |x: f64| Shown::significant(x, 2, "‰").typeset();
    if let Some(b) = &o.beside {
        if b.position == Position::OnTheLine {
            out.push(said::OnTheLine.into());
        }
        out.extend(b.findings.iter().cloned());
    }
    let Some(r) = &o.readings else { return out };
    if let Some(Season::WinterShare(s)) = r.season
        && (-0.1..=1.1).contains(&s.value)
    {
        out.push(said::WinterShare { share: share(s.value.clamp(0.0, 1.0)), expanded: share(2.0 * s.u) }.into());
    }
    if let Some((low, high)) = r.height_m {
        let metres = |x: f64, unit: &str| Shown::significant(x, 2, unit);
        out.push(said::HeightReading { low: metres(low, ""), high: metres(high, "m") }.into());
    }
    if let Some(d) = r.from_todays_rain {
        out.push(said::FromTodaysRain { difference: permil(d.value), u: permil(d.u) }.into());
    }
    out.extend(r.findings.iter().cloned());
    out
}

fn next(a: &WellAge) -> Option<String> {
    let ranking = a.next.as_ref()?;
    let best = ranking.single.first()?;
    if ranking.no_preference {
        return Some(said::NextNoPreference.text());
    }
    let tracer = best.tracers.first()?.sign();
    let (left, decided) = (share(best.left()), share(best.decided.max(0.0)));
    Some(said::Next { tracer: sign(tracer).into(), left, decided }.text())
}

/// The models' ages, and the measured tritium on the rain.
fn picture(a: &WellAge) -> Illustration {
    let strip = |m: &ModelShown| ModelStrip {
        name: if m.rejected {
            said::StripRejected { model: name(m).into() }.text()
        } else {
            said::StripName { model: name(m).into(), weight: share(m.weight) }.text()
        },
        rejected: m.rejected,
        density: m.density.clone(),
    };
    let told: Vec<Arg> = a
        .models
        .iter()
        .filter(|m| !m.rejected)
        .map(|m| {
            let range = said::Ranges { ranges: ranges(&m.ranges_years) };
            Arg::Message(said::ModelAges { model: name(m).into(), ages: range.into() }.into())
        })
        .collect();
    let well = || Name::from(&a.well);
    let picture = AgesPicture {
        head: Head {
            id: slug(&format!("ages-{}", a.well)),
            title: said::FigureTitle { well: well() }.text(),
            desc: if told.is_empty() {
                said::FigureShowsNone { well: well() }.text()
            } else {
                said::FigureShows { well: well(), models: told }.text()
            },
        },
        under: said::FigureUnder.text(),
        models: a.models.iter().map(strip).collect(),
        rain: rain(a),
        darcy: a.darcy_years,
    };
    let caption = said::FigureCaption { well: well() }.text();
    Illustration { wide: draw(&picture, WIDE), phone: Some(draw(&picture, PHONE)), caption }
}

fn rain(a: &WellAge) -> Option<RainCurve> {
    let m = a.tritium_measured.as_ref().filter(|m| m.tracer == Tracer::Tritium && !a.rain.is_empty())?;
    let (measured, words) = match m.level {
        // 95 %: twice the standard uncertainty.
        Level::Value { value, u } => {
            let (number, u) = (Shown::significant(value, 2, "TU"), Shown::significant(u, 2, ""));
            let value: Message = science::ValueU { value: number, u }.into();
            ((value_end(m, -2.0), value_end(m, 2.0)), said::RainMeasured { value }.text())
        }
        Level::Below { limit, .. } => {
            let value: Message = science::BelowLimit { limit: Shown::significant(limit, 2, "TU") }.into();
            ((0.0, limit), said::RainMeasured { value }.text())
        }
    };
    Some(RainCurve { curve: a.rain.clone(), measured, words })
}

fn value_end(m: &aquifer::age::Measured, k: f64) -> f64 {
    (m.number() + k * m.u()).max(0.0)
}
