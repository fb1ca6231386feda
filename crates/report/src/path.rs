//! The path picture of one result.

use super::substance;
use super::words::{capital, speaking};
use super::{Run, word};
use assessment::attribution;
use assessment::forecast::{self, Expected, Knowledge, Moment};
use assessment::path::{self, BottlePath};
use assessment::results;
use assessment::unmet;
use cleanliness::nested::Added;
use cleanliness::share::Left;
use document::content::Illustration;
use figure::path::{Mark, PathPicture, PathStage};
use figure::slug;
use message::word::{InventedData, Journey};
use message::{Message, Shown, Spoken, path as said};
use programme::case::Case;
use quantity::{Measured, Outcome, Stage};
use record::Error;
use record::store::{Cell, Filter, Store};

/// The picture, where the result came from one of the runs.
pub fn illustration(store: &Store, case: &Case, runs: &[Run], invented: bool) -> Result<Option<Illustration>, Error> {
    let row = results::row(store, &case.result.result)?;
    let bottles = store.bottles(&Filter::all().is("id", row.bottle_id))?;
    let Some(bottle) = bottles.first() else { return Ok(None) };
    let volume = bottle.volume_mL.unwrap_or(f64::NAN);
    let others = store.bottles(&Filter::all().is("trip", bottle.trip_id.map_or(Cell::Null, Cell::Integer)))?;
    let met_its_air = |label: Option<&str>| match others.iter().find(|o| Some(o.label.as_str()) == label) {
        Some(blank) => unmet::met_its_air(blank, bottle),
        // Nobody knows where it was opened: not in the open air at this well.
        None => bottle.open_air_min.unwrap_or(0.0) == 0.0,
    };
    let of_run = |r: &Run| path::of(&r.reduced, &row, (bottle.kind, volume), met_its_air);
    let Some((run, p)) = runs.iter().find_map(|r| Some((r, of_run(r)?))) else { return Ok(None) };
    let before = before(store, case, (run, runs), bottle)?;
    let name = capital(substance(&row.analyte));
    let picture = PathPicture {
        id: slug(&format!("path-{}-{}", row.bottle, row.analyte)),
        title: said::Title { element: name.as_str().into(), bottle: row.bottle.as_str().into() }.text(),
        volume_ml: volume,
        stages: stages(case, &p, bottle, &before),
        water: Some(p.water_upper.map_or_else(|| value(&p.water), |pg| Mark::Upper { pg })),
        left: left(case),
        found: Some(value(&p.found)),
        caption: caption(case, invented),
    };
    let (name, bottle) = (name.into(), row.bottle.as_str().into());
    let mut caption = match left(case) {
        Left::Water => said::Caption { element: name, bottle }.text(),
        _ => said::CaptionLeft { element: name, bottle }.text(),
    };
    if let Some(f) = case.findings.iter().find(|f| f.check == unmet::OPEN_AIR && f.outcome != Outcome::Met) {
        caption += &format!(" {}", f.text());
    }
    if let Some(stages) = bases(&before.expected) {
        caption += &format!(" {}", said::Forecast { stages }.text());
    }
    Ok(Some(Illustration { wide: picture.wide(), phone: Some(picture.phone()), caption }))
}

/// What the blanks leave of the result.
fn left(case: &Case) -> Left {
    case.result.water_share.map_or(Left::Water, |s| s.is)
}

/// What was known before, and what the flow series says of the pipe.
struct Before {
    expected: Vec<Expected>,
    pipe: Option<Mark>,
}

fn before(
    store: &Store,
    case: &Case,
    (run, runs): (&Run, &[Run]),
    bottle: &record::model::Bottle,
) -> Result<Before, Error> {
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
    let expected = Knowledge::read(store)?.of_bottle(bottle, &analyte, &at);
    let flow = attribution::flow(store, bottle)?;
    let fits = attribution::all(store, &[(&run.prepared, &run.reduced)])?;
    let waters = fits.iter().filter(|t| t.analyte == analyte).flat_map(|t| &t.waters);
    let line = waters
        .filter(|w| Some(&w.well) == bottle.well.as_ref())
        .flat_map(|w| &w.series)
        .find(|s| s.sort == attribution::Sort::Flows)
        .and_then(|s| s.line.as_ref());
    // Slope in ng/min over L/min, times mL: pg.
    let pipe = line.zip(flow).zip(bottle.volume_mL).map(|((l, q), ml)| {
        let pg = |slope: f64| slope / q * ml;
        Mark::Value { pg: pg(l.slope), lo: pg(l.slope_95.0), hi: pg(l.slope_95.1) }
    });
    Ok(Before { expected, pipe })
}

/// Where the forecasts come from, stage by stage; none without a forecast.
fn bases(expected: &[Expected]) -> Option<Message> {
    let from = |e: &Expected| said::ForecastFrom { stage: e.stage.said(), basis: e.basis.clone() }.into();
    expected.iter().rev().map(from).reduce(|more: Message, one| said::Forecasts { one, more }.into())
}

fn stages(case: &Case, p: &BottlePath, bottle: &record::model::Bottle, before: &Before) -> Vec<PathStage> {
    let stage = |at: Stage, detail: String, measured: Option<Mark>| PathStage {
        name: at.said().text(),
        detail,
        finding: speaking(&case.findings, at),
        forecast: before.expected.iter().find(|e| e.stage == at).map(|e| e.forecast.range_95),
        measured,
    };
    let open = bottle.open_air_min.unwrap_or(0.0) > 0.0;
    let air = match (open, p.clean_air.is_some()) {
        (true, true) => said::OpenAirHands.text(),
        (true, false) => said::OpenAirHandsNotMeasured.text(),
        (false, _) => said::CabinetHands.text(),
    };
    let lot = bottle.lot.as_deref().map(|lot| said::Lot { lot: lot.into() }.text());
    vec![
        PathStage { name: Stage::Aquifer.said().text(), detail: aquifer(case, p), ..PathStage::default() },
        stage(Stage::Well, bottle.well.as_deref().map(str::to_string).unwrap_or_default(), before.pipe),
        stage(Stage::CleanAir, air, p.clean_air.map(mark)),
        stage(Stage::Bottle, lot.unwrap_or_default(), p.bottle.map(mark)),
        stage(Stage::CoolBox, Journey.text(), p.cool_box.map(mark)),
        stage(Stage::LabRun, said::ProcedureAcid.text(), p.lab_run.map(mark)),
        stage(Stage::Number, String::new(), None),
    ]
}

/// What the aquifer gives, where nothing but its water can be in what the blanks leave; else what it was not told from.
fn aquifer(case: &Case, p: &BottlePath) -> String {
    match left(case) {
        Left::Water => {
            let ng_l = Measured {
                unit: quantity::Unit::known("ng/L"),
                value: p.water.value / p.volume_ml,
                u: p.water.u / p.volume_ml,
                dof: p.water.dof,
            };
            // To the digits of its own u, which the picture shows as an interval.
            Shown { expanded: None, ..ng_l.shown(1.0) }.text()
        }
        Left::WaterAndOpenAir => said::NotToldFromOpenAir.text(),
        Left::WaterAndPipe => said::NotToldFromPipe.text(),
        Left::WaterPipeAndOpenAir => said::NotToldFromPipeAndOpenAir.text(),
    }
}

/// What a stage added where it can be seen, else its upper bound.
fn mark(a: Added) -> Mark {
    if a.is_seen() {
        Mark::Value { pg: a.value, lo: a.interval.0, hi: a.interval.1 }
    } else {
        Mark::Upper { pg: a.upper.max(0.0) }
    }
}

fn value(m: &Measured) -> Mark {
    let k = results::coverage_k(m.dof);
    Mark::Value { pg: m.value, lo: m.value - k * m.u, hi: m.value + k * m.u }
}

fn caption(case: &Case, invented: bool) -> String {
    let mut parts = vec![];
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
