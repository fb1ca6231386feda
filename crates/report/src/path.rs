//! The path picture of one result.

use super::words::{capital, speaking};
use super::{Run, word};
use super::{strip, substance};
use assessment::attribution;
use assessment::forecast::{self, Expected, Knowledge, Moment};
use assessment::results;
use assessment::unmet;
use cleanliness::accounting::{Accounting, Source, Stands, Told};
use cleanliness::share::Left;
use document::content::Illustration;
use figure::path::{Mark, PathPicture, PathStage};
use figure::slug;
use message::word::{InventedData, Journey};
use message::{Arg, Message, Shown, Spoken, accounting as said_of, path as said};
use programme::case::Case;
use quantity::{Amount, Measured, Outcome, Stage};
use record::Error;
use record::model::Bears;
use record::store::{Filter, Store};

/// The picture under its strip of 100 parts, where the result has an accounting: its parts are all that is drawn as measured.
pub fn illustration(store: &Store, case: &Case, runs: &[Run], invented: bool) -> Result<Option<Illustration>, Error> {
    drawn(store, case, runs, (invented, true))
}

/// The picture without the strip, for a page where that stands by itself.
pub fn alone(store: &Store, case: &Case, run: &Run, invented: bool) -> Result<Option<Illustration>, Error> {
    drawn(store, case, std::slice::from_ref(run), (invented, false))
}

fn drawn(
    store: &Store,
    case: &Case,
    runs: &[Run],
    (invented, with_strip): (bool, bool),
) -> Result<Option<Illustration>, Error> {
    let row = results::row(store, &case.result.result)?;
    let Some(accounting) = &case.result.accounting else { return Ok(None) };
    let bottles = store.bottles(&Filter::all().is("id", row.bottle_id))?;
    let Some(bottle) = bottles.first() else { return Ok(None) };
    let of_run = |r: &&Run| r.prepared.vials().iter().any(|v| Some(v.id) == row.vial_id);
    let Some(run) = runs.iter().find(of_run) else { return Ok(None) };
    let expected = expected(store, case, (run, runs), bottle)?;
    let name = capital(substance(&row.analyte));
    let picture = PathPicture {
        id: slug(&format!("path-{}-{}", row.bottle, row.analyte)),
        title: said::Title { element: name.as_str().into(), bottle: row.bottle.as_str().into() }.text(),
        volume_ml: bottle.volume_mL.unwrap_or(f64::NAN),
        stages: stages(case, accounting, bottle, &expected),
        water: mark(accounting, Source::Aquifer),
        left: left(case),
        found: Some(Mark::Value {
            pg: accounting.found_pg,
            lo: accounting.found_pg - accounting.expanded_pg,
            hi: accounting.found_pg + accounting.expanded_pg,
        }),
        caption: caption(case, accounting, invented),
        strip: strip::of(case, bottle.volume_mL, of_hundred(case, accounting).unwrap_or_default())
            .filter(|_| with_strip),
    };
    let (name, bottle) = (name.into(), row.bottle.as_str().into());
    let mut caption = if left(case).is_bound() {
        said::CaptionLeft { element: name, bottle }.text()
    } else {
        said::Caption { element: name, bottle }.text()
    };
    if let Some(f) = case.findings.iter().find(|f| f.check == unmet::OPEN_AIR && f.outcome != Outcome::Met) {
        caption += &format!(" {}", f.text());
    }
    if let Some(stages) = bases(&expected) {
        caption += &format!(" {}", said::Forecast { stages }.text());
    }
    Ok(Some(Illustration { wide: picture.wide(), phone: Some(picture.phone()), caption }))
}

/// What the part is that came with the water.
pub(super) fn left(case: &Case) -> Left {
    case.result.water_share.map_or(Left::LeavesWell, |s| s.is)
}

/// What was known of the stages before the trip.
fn expected(
    store: &Store,
    case: &Case,
    (run, runs): (&Run, &[Run]),
    bottle: &record::model::Bottle,
) -> Result<Vec<Expected>, Error> {
    let r = &case.result;
    let analyte = measurement::run::Analyte {
        element: r.analyte.clone(),
        isotopes: r.isotopes.clone(),
        resolution: r.resolution.clone(),
    };
    let pairs: Vec<attribution::RunPair> = runs.iter().map(|r| (&r.prepared, &r.reduced)).collect();
    let measured_at = run.prepared.run.started_at.as_deref();
    let contact_min = attribution::contact_min(store, bottle)?;
    let at = Moment { measured_at, contact_min, earlier: forecast::earlier(&pairs, measured_at) };
    Ok(Knowledge::read(store)?.of_bottle(bottle, &analyte, &at))
}

/// Where the forecasts come from, stage by stage; none without a forecast.
fn bases(expected: &[Expected]) -> Option<Message> {
    let from = |e: &Expected| said::ForecastFrom { stage: e.stage.said(), basis: e.basis.clone() }.into();
    expected.iter().rev().map(from).reduce(|more: Message, one| said::Forecasts { one, more }.into())
}

fn stages(
    case: &Case,
    accounting: &Accounting,
    bottle: &record::model::Bottle,
    expected: &[Expected],
) -> Vec<PathStage> {
    let stage = |at: Stage, detail: String, part: Option<Source>| PathStage {
        name: at.said().text(),
        detail,
        finding: speaking(&case.findings, at),
        forecast: expected.iter().find(|e| e.stage == at).map(|e| e.forecast.range_95),
        measured: part.and_then(|p| mark(accounting, p)),
        not_here: part.is_some_and(|p| accounting.part(p).is_some_and(|p| p.told == Told::NotMeasured)),
    };
    let air =
        if bottle.open_air_min.unwrap_or(0.0) > 0.0 { said::OpenAirHands.text() } else { said::CabinetHands.text() };
    let lot = bottle.lot.as_deref().map(|lot| said::Lot { lot: lot.into() }.text());
    let well = bottle.well.as_deref().map(str::to_string).unwrap_or_default();
    vec![
        PathStage {
            name: Stage::Aquifer.said().text(),
            detail: aquifer(case, accounting, bottle.volume_mL),
            ..PathStage::default()
        },
        stage(Stage::Well, well, Some(Source::WellAndPipe)),
        stage(Stage::CleanAir, air, Some(Source::AirAndHands)),
        stage(Stage::Bottle, lot.unwrap_or_default(), Some(Source::BottleAndAcid)),
        stage(Stage::CoolBox, Journey.text(), Some(Source::Journey)),
        stage(Stage::LabRun, said::ProcedureAcid.text(), Some(Source::Laboratory)),
        stage(Stage::Number, String::new(), None),
    ]
}

/// What the aquifer gives, in ng/L: its value where the pipe was measured, as it leaves the well where the pipe is within
/// the programme's contact, else at most.
fn aquifer(case: &Case, accounting: &Accounting, volume_ml: Option<f64>) -> String {
    let part = accounting.part(Source::Aquifer).filter(|_| accounting.has_shares());
    let (Some(part), Some(ml)) = (part, volume_ml) else { return said::NoParts.text() };
    let (Some(pg), Some(u_pg), Some((_, high))) = (part.value_pg, part.u_pg, part.interval_pg) else {
        return said::NoParts.text();
    };
    let is = left(case);
    if is.is_bound() {
        // The bound that is reported, where it is one of the same part; by flows the pipe's metal is not in it.
        let reported = match &case.result.amount {
            Some(Amount::Below(b)) if is.holds_pipe() && case.result.bears == Bears::AtMost => Some(b.limit),
            _ => None,
        };
        let most = reported.unwrap_or(high / ml);
        return said::AquiferAtMost { most: rounded_up(most) }.text();
    }
    let ng_l = Measured::new(pg / ml, u_pg / ml, quantity::Unit::known("ng/L"));
    // To the digits of its own u, which the picture shows as an interval.
    let value = Shown { expanded: None, ..ng_l.shown(1.0) };
    if is == Left::Water { value.text() } else { said::LeavesWell { value }.text() }
}

/// A bound in ng/L to three digits, rounded up.
fn rounded_up(ng_l: f64) -> Shown {
    let decimals = quantity::format::decimals_for(ng_l, 3);
    Shown::decimals(message::number::raised(ng_l, decimals), decimals, "ng/L")
}

/// A part as it is drawn: with its interval, as a bound where something else is in it or the bottles disagree, and not at
/// all where it is not told by itself.
fn mark(accounting: &Accounting, of: Source) -> Option<Mark> {
    let p = accounting.part(of).filter(|_| accounting.has_shares())?;
    let (pg, (lo, hi)) = (p.value_pg?, p.interval_pg?);
    let disagree = accounting.stands == Stands::BottlesDisagree;
    let told_by_water = matches!(of, Source::Aquifer | Source::WellAndPipe);
    Some(if p.told == Told::AtMost || (disagree && told_by_water) {
        Mark::AtMost { pg: hi }
    } else if lo <= 0.0 {
        Mark::AtMost { pg: hi.max(0.0) }
    } else {
        Mark::Value { pg, lo, hi }
    })
}

fn caption(case: &Case, accounting: &Accounting, invented: bool) -> String {
    let without_stop = |text: String| text.trim_end_matches('.').to_string();
    let mut parts = vec![];
    parts.extend(accounting.says.as_ref().map(|s| without_stop(s.text())));
    parts.extend(of_hundred(case, accounting).map(without_stop));
    if let Some(s) = &case.result.water_share {
        parts.push(document::content::Share { value: s.share, lo: s.low, hi: s.high, is: s.is }.in_words());
    }
    if let Some(a) = &case.result.attributed {
        parts.push(a.said().replace('\'', "’"));
    }
    if let Some(w) = word(&case.result) {
        parts.push(said::Verdict { verdict: w.said() }.text());
    }
    if invented {
        parts.push(InventedData.text());
    }
    capital(format!("{}.", parts.join("; ")))
}

/// "Of 100 parts of the lead in this bottle: 91 the water's, as it leaves the well, 5 air and hands, …"; none where no
/// shares are given.
pub fn of_hundred(case: &Case, accounting: &Accounting) -> Option<String> {
    let is = left(case);
    let part = |(of, n): (Source, u32)| -> Option<Arg> {
        let name = if of == Source::Aquifer { is.says() } else { of.says() };
        let whole = |x: f64| Shown::decimals(x, 0, "");
        let high = accounting.share(of)?.high;
        let bound = of == Source::Aquifer && is.is_bound() && !is.holds_pipe();
        let said: Message = match n {
            0 => said_of::PartsUnderOne { part: name }.into(),
            n if bound => {
                let most = whole((100.0 * high).ceil());
                said_of::PartsAtMost { number: whole(f64::from(n)), part: name, most }.into()
            }
            n => said_of::PartsOf { number: whole(f64::from(n)), part: name }.into(),
        };
        Some(said.into())
    };
    let told: Vec<(Source, u32)> = accounting.of_hundred();
    let parts: Vec<Arg> = told.into_iter().filter_map(part).collect();
    let element = substance(&case.result.analyte).into();
    match accounting.stands {
        _ if parts.is_empty() => None,
        Stands::BottlesDisagree => Some(said_of::OfHundredByModel { element, parts }.text()),
        _ => Some(said_of::OfHundred { element, parts }.text()),
    }
}
