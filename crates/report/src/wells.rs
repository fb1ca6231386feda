//! A section a well: how it is built, what was measured there on each trip, what follows from it for the
//! water's way and for the pipe, and what is not known. Measured and textbook inputs stand apart.

use super::scope::Chosen;
use super::words::capital;
use super::{Caution, age, section};
use assessment::results::Listed;
use assessment::verdict::Rules;
use assessment::wells::{self, PipeChoice, Test, Travel, Visit, WellSheet};
use document::content::{Annex, Block, Cell, Column, Illustration, Section, Table};
use figure::choice::{self, ChoicePicture, FlowChoice};
use figure::flow_test::{self, FlowTestPicture, TestPoint};
use figure::section::{self as scheme, SectionPicture};
use figure::standing::{Standing, StandingPicture};
use figure::well::{self, LayerDrawn, PipeDrawn, PipeKind, WellPicture, material};
use figure::{Figure, Head, PHONE, WIDE, slug};
use message::{Arg, Date, Digits, Message, Name, Share, Shown, Spoken, chapter, paper as said_of, well as said, word};
use quantity::factor::{L_MIN_PER_M3_S, L_PER_M3, M_PER_KM, MM_PER_M, S_PER_D, S_PER_MIN};
use quantity::{Amount, Check, Outcome, Unit};
use record::Error;
use record::store::Store;
use record::words::BottleKind;

/// Coverage factor of the tables here.
const K: f64 = 2.0;

/// The wells of the report, each with its visits on the trips of the report.
fn sheets(store: &Store, chosen: &Chosen) -> Result<Vec<WellSheet>, Error> {
    if chosen.whole {
        return wells::sheets(store);
    }
    let mut out = vec![];
    for w in store.wells()?.into_iter().filter(|w| !w.is_stream() && chosen.has_well(&w.name)) {
        // The newest visit is the one of the newest trip; of an older trip all are looked through.
        for visits in [1, usize::MAX] {
            let Some(mut sheet) = wells::sheet(store, &w.name, visits)? else { break };
            let all = sheet.visits.len();
            sheet.visits.retain(|v| chosen.trips.iter().any(|t| t.name == v.trip));
            if visits == usize::MAX || (all == sheet.visits.len() && chosen.trips.len() == 1) {
                out.push(sheet);
                break;
            }
        }
    }
    Ok(out)
}

/// A chapter with the wells side by side, and one section of the annex for each well of which the record knows
/// construction or readings.
pub fn sections(store: &Store, chosen: &Chosen) -> Result<Vec<Section>, Error> {
    let rules = Rules::new(store.check_rules()?);
    let sheets = sheets(store, chosen)?;
    let names: Vec<&str> = sheets.iter().map(|s| s.well.name.as_str()).collect();
    let ages = assessment::age::of_wells(store, &names)?;
    let mut out = vec![];
    if !sheets.is_empty() {
        let mut blocks: Vec<Block> = standing(&sheets, WIDE).map(Block::Figure).into_iter().collect();
        blocks.extend([Block::Table(side_by_side(&sheets)), Block::Text(Caution::Well.sentence())]);
        let title: Message = if sheets.len() == 1 { chapter::Well.into() } else { chapter::Wells.into() };
        blocks.extend(age::in_short(&ages, &names));
        out.push(section(title, blocks));
    }
    for sheet in &sheets {
        let built = !sheet.construction.sections.is_empty() || !sheet.construction.layers.is_empty();
        if built || !sheet.visits.is_empty() {
            let title = said::Section { well: Name::from(&sheet.well.name) };
            // The caution stands in the chapter too.
            let mut blocks = blocks(sheet, &chosen.results, &rules);
            blocks.retain(|b| !matches!(b, Block::Text(t) if *t == Caution::Well.sentence()));
            let mut blocks = pictures_first(blocks);
            if let Some(a) = ages.iter().find(|a| a.well == sheet.well.name) {
                blocks.push(Block::Heading(message::well_age::HowOld.text()));
                blocks.extend(age::blocks(a, false));
            }
            out.push(section(title, blocks).within(Annex::Wells));
        }
    }
    Ok(out)
}

/// The pictures of an annex stand before its tables, so that two of them find room beside each other; of several trips
/// each keeps its place.
pub(super) fn pictures_first(blocks: Vec<Block>) -> Vec<Block> {
    if blocks.iter().any(|b| matches!(b, Block::Heading(_))) {
        return blocks;
    }
    let (pictures, others): (Vec<Block>, Vec<Block>) = blocks.into_iter().partition(|b| matches!(b, Block::Figure(_)));
    let (mut words, rest): (Vec<Block>, Vec<Block>) = match others.split_first() {
        Some((Block::Text(_), _)) => {
            let mut others = others;
            let rest = others.split_off(1);
            (others, rest)
        }
        _ => (vec![], others),
    };
    words.extend(pictures);
    words.extend(rest);
    words
}

/// Wells beside each other in one picture, at most.
const STANDING: usize = 4;

/// Wells as they stand in the ground, to one scale, each with a person, its flow and the minutes in its pipe; none where
/// the record knows no pipe of any.
pub(super) fn standing(sheets: &[WellSheet], width: f64) -> Option<Illustration> {
    let known: Vec<&WellSheet> = sheets
        .iter()
        .filter(|s| s.fault.is_none() && !(s.construction.sections.is_empty() && s.construction.layers.is_empty()))
        .take(STANDING)
        .collect();
    if known.is_empty() {
        return None;
    }
    let alone = known.len() == 1;
    let one = |s: &&WellSheet| {
        let flow = s.visits.iter().rev().find_map(|v| v.known.flow.as_ref());
        let contact = s.visits.iter().rev().find_map(|v| v.known.held.as_ref().map(|h| h.total.clone()));
        let in_words = |a: &Amount| Shown { expanded: None, ..a.shown(K) };
        let mut beneath = vec![];
        beneath.extend(flow.map(|f| said_of::Flows { flow: in_words(f) }.text()));
        beneath.extend(contact.map(|t| said_of::Minutes { time: in_words(&t) }.text()));
        Standing {
            name: if alone { String::new() } else { s.well.name.clone() },
            layers: layers_of(s),
            pipes: pipes_of(s),
            flows: flow.is_some(),
            beneath,
        }
    };
    let wells: Vec<Standing> = known.iter().map(one).collect();
    let names: Vec<Arg> = known.iter().map(|s| Arg::Name(s.well.name.as_str().into())).collect();
    let told = known.iter().zip(&wells).map(|(s, w)| format!("{}: {}", s.well.name, w.beneath.join(" ")));
    let depth = known.iter().filter_map(|s| foot_m(s)).fold(0.0, f64::max);
    let depth = Shown::trimmed(depth, 3, "m");
    let picture = StandingPicture {
        head: Head {
            id: slug(&format!("standing-{}", known.iter().map(|s| s.well.name.as_str()).collect::<Vec<_>>().join("-"))),
            title: said_of::ToScale { wells: names }.text(),
            desc: said_of::ToScaleShows { depth, told: told.collect::<Vec<_>>().join(" ").into() }.text(),
        },
        under: String::new(),
        wells,
    };
    let phone = (width > BOTH_FROM).then(|| figure::standing::draw(&picture, PHONE));
    // Beside a text, on a page of its own, the drawing speaks by its title.
    let caption = if phone.is_some() { said_of::HeightsToScale.text() } else { String::new() };
    Some(Illustration { wide: figure::standing::draw(&picture, width), phone, caption })
}

/// A drawing that is narrow already has no narrow form, px.
const BOTH_FROM: f64 = 400.0;

fn layers_of(s: &WellSheet) -> Vec<LayerDrawn> {
    let of = s.construction.layers.iter();
    of.map(|l| LayerDrawn { from_m: l.from_m, to_m: l.to_m, name: l.name.clone() }).collect()
}

fn pipes_of(s: &WellSheet) -> Vec<PipeDrawn> {
    let c = &s.construction;
    let kind = |from_m: f64, to_m: f64, material: &str| {
        let slotted = c.screens.iter().any(|x| (x.from_m - from_m).abs() < 1e-9 && (x.to_m - to_m).abs() < 1e-9);
        match (slotted, material) {
            (true, "open hole") => PipeKind::Open,
            (true, _) => PipeKind::Screen,
            (false, _) => PipeKind::Casing,
        }
    };
    c.sections
        .iter()
        .map(|p| PipeDrawn {
            from_m: p.from_m,
            to_m: p.to_m,
            radius_m: p.radius_m,
            kind: kind(p.from_m, p.to_m, &p.material),
            material: p.material.clone(),
        })
        .collect()
}

/// How deep the well is known to reach.
fn foot_m(s: &WellSheet) -> Option<f64> {
    let c = &s.construction;
    let ends = c.sections.iter().map(|x| x.to_m).chain(c.screens.iter().map(|x| x.to_m)).chain(c.depth_m);
    ends.reduce(f64::max)
}

/// One row a well: depth, pipe, and what the last of its visits here found.
fn side_by_side(sheets: &[WellSheet]) -> Table {
    let known = |a: Option<Amount>| {
        a.map_or_else(|| Cell::Missing(word::NotKnown.text()), |amount| Cell::Amount { amount, k: K })
    };
    let row = |s: &WellSheet| {
        let v = s.visits.last();
        let depth = foot_m(s).map(|m| Amount::stated(m, Unit::known("m")));
        let total = v.and_then(|v| v.known.held.as_ref()).map(|h| h.total.clone());
        vec![
            Cell::Text(s.well.name.clone()),
            Cell::Text(
                s.well
                    .pipe_material
                    .as_deref()
                    .map_or_else(|| word::NotKnown.text(), |m| chapter::Material { material: material(m) }.text()),
            ),
            known(depth),
            known(v.and_then(|v| v.known.flow.clone())),
            known(total),
            known(v.and_then(|v| v.head.as_ref()).map(|h| h.above_ground.clone())),
            s.well
                .description
                .as_ref()
                .map_or(Cell::Missing("–".into()), |d| cell(said::Noted { words: Name::from(capital(d)) })),
        ]
    };
    Table {
        caption: chapter::WellsCaption.text(),
        columns: vec![
            Column::words(word::Well.text()),
            Column::words(chapter::Pipe.text()),
            Column::numbers(chapter::Depth.text(), "m"),
            Column::numbers(word::Flow.text(), "L/min"),
            Column::numbers(word::Contact.text(), "min"),
            Column::numbers(said_of::Head.text(), "m"),
            Column::words(message::trip::WhatItIs.text()),
        ],
        rows: sheets.iter().map(row).collect(),
        notes: vec![],
    }
}

pub(super) fn blocks(s: &WellSheet, all: &[Listed], rules: &Rules) -> Vec<Block> {
    let words = [&s.well.description, &s.well.flow_note];
    let noted = |t: &String| said::Noted { words: Name::from(capital(t)) }.text();
    let told: Vec<String> = words.into_iter().flatten().map(noted).collect();
    let mut out = vec![];
    if !told.is_empty() {
        out.push(Block::Text(told.join(" ")));
    }
    out.push(Block::Text(Caution::Well.sentence()));
    if let Some(fault) = &s.fault {
        out.push(Block::Text(said::ConstructionCannotBe { why: fault.clone() }.text()));
    } else {
        out.push(Block::Figure(drawing(s)));
    }
    if !s.findings.is_empty() {
        out.push(Block::Findings(s.findings.clone()));
    }
    for v in &s.visits {
        visit(s, v, all, rules, &mut out);
    }
    out
}

fn visit(s: &WellSheet, v: &Visit, all: &[Listed], rules: &Rules, out: &mut Vec<Block>) {
    if s.visits.len() > 1 {
        out.push(Block::Heading(said::OnTrip { trip: Name::from(&v.trip) }.text()));
    }
    out.push(Block::Table(measured(s, v)));
    if v.known.held.is_some() {
        out.push(Block::Table(contact(s, v)));
    }
    if !v.known.steady.is_empty() {
        out.push(Block::Table(steady(s, v)));
    }
    if !v.known.washouts.is_empty() {
        out.push(Block::Table(washout(s, v)));
    }
    out.push(Block::Findings(v.known.findings.clone()));
    if let Some(t) = &v.test {
        out.push(Block::Figure(test(s, v, t)));
        out.push(Block::Text(t.fit.model.says.iter().map(Spoken::text).collect::<Vec<_>>().join(" ")));
    }
    if let Some(t) = &v.travel {
        out.push(Block::Figure(scheme_of(s, v, t)));
        under_way(t, out);
    }
    if let Some((symbol, found, choice)) = pipe(s, v, all, rules) {
        out.push(Block::Figure(pipe_picture(s, v, (&symbol, found), &choice)));
    }
    if !v.lacking.is_empty() {
        let mut list: Vec<String> = v.lacking.iter().map(Spoken::text).collect();
        list.sort();
        out.push(Block::Text(said::NotTold.text()));
        out.push(Block::List(list));
    }
}

fn both(draw: impl Fn(f64) -> Figure, caption: String) -> Illustration {
    Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption }
}

/// With its expanded uncertainty, as the SI brochure writes it.
fn shown(a: &Amount) -> Message {
    let whole = a.shown(K);
    match a {
        Amount::Measured(_) if whole.expanded.is_some() => {
            let unit = Name::from(&whole.unit);
            said::PlusMinus { number: Shown { unit: String::new(), ..whole }, unit }.into()
        }
        Amount::Stated(_) => said::WithoutU { amount: whole }.into(),
        _ => a.with_u(),
    }
}

/// The same as words of a cell.
fn cell(m: impl Into<Message>) -> Cell {
    Cell::Text(m.into().text())
}

/// The last visit that knows something decides what the drawing shows.
fn drawing(s: &WellSheet) -> Illustration {
    let c = &s.construction;
    let head = s.visits.iter().rev().find_map(|v| v.head.as_ref());
    let flow = s.visits.iter().rev().find_map(|v| v.known.flow.as_ref());
    let name = || Name::from(&s.well.name);
    let ends = |from_m: f64, to_m: f64| (Shown::as_given(from_m, ""), Shown::as_given(to_m, "m"));
    let mut shows = vec![said::DrawingShows { well: name() }.text()];
    for l in &c.layers {
        let (from, to) = ends(l.from_m, l.to_m);
        shows.push(said::DrawingLayer { layer: capital(&l.name).into(), from, to }.text());
    }
    for p in &c.sections {
        let (from, to) = ends(p.from_m, p.to_m);
        shows.push(said::DrawingPipe { material: material(&p.material), from, to }.text());
    }
    let picture = WellPicture {
        head: Head {
            id: slug(&format!("well-{}", s.well.name)),
            title: said::Drawing { well: name() }.text(),
            desc: shows.join(" "),
        },
        layers: layers_of(s),
        pipes: pipes_of(s),
        static_head: head.and_then(|h| {
            let m = h.above_ground.value()?;
            Some((m, said::HeadStands { head: shown(&h.above_ground) }.text()))
        }),
        flow: flow.map(|f| said::Flows { flow: shown(f) }.text()),
    };
    let caption = said::DrawingCaption { well: name() }.text();
    both(|w| well::draw(&picture, w), caption)
}

fn measured(s: &WellSheet, v: &Visit) -> Table {
    let mut rows: Vec<Vec<Cell>> = vec![];
    let mut row = |what: Message, amount: Option<Amount>, how: Message| {
        let value = amount.map_or_else(|| Cell::Missing(word::NotKnown.text()), |amount| Cell::Amount { amount, k: K });
        rows.push(vec![cell(what), value, cell(how)]);
    };
    let how = match &v.known.timed {
        Some(f) => said::TimedFills { fills: message::count(f.fills) }.into(),
        None if v.known.unfit.is_empty() => said::NoFillTimed.into(),
        None => said::FillCannotBe.into(),
    };
    row(word::Flow.into(), v.known.flow.clone(), how);
    if let Some(held) = &v.known.held {
        // Stated, because the depths and radii on record have no u; the contact time has that of the flow.
        let litres = Amount::stated(L_PER_M3 * held.volume_m3, Unit::known("L"));
        row(said::WaterInWell.into(), Some(litres), said::DepthsAndRadii.into());
        row(said::ContactInAll.into(), Some(held.total.clone()), said::VolumeOverFlow.into());
    }
    if let Some(h) = &v.head {
        let time = |at: &str| Date::from(at.replace('T', " "));
        let how = match &v.shut {
            Some((shut, opened)) => said::ShutPressureBetween { shut: time(shut), opened: time(opened) }.into(),
            None => said::ShutPressure.into(),
        };
        row(said::HeadAboveGround.into(), Some(h.above_ground.clone()), how);
        if let Some(e) = &h.elevation {
            row(said::HeadAboveSeaLevel.into(), Some(e.clone()), said::GroundTakenExact.into());
        }
    }
    if let Some(t) = &v.test {
        let e = &t.fit.transmissivity_m2_s;
        let per_day = |x: f64| Shown::significant(x * S_PER_D, 2, "");
        // The interval stands beside the u, because the fit is on logarithms and its interval is not symmetric.
        let (low, high) = (per_day(e.interval_95.0), per_day(e.interval_95.1));
        let amount = Amount::measured(e.value * S_PER_D, e.u * S_PER_D, Unit::known("m2/d"));
        row(said::Transmissivity.into(), Some(amount), said::ConstantHeadTest { low, high }.into());
        let st = &t.fit.storage;
        let (low, high) = (one_digit(st.interval_95.0), one_digit(st.interval_95.1));
        let amount = Amount::measured(st.value, st.u, Unit::one());
        row(said::Storage.into(), Some(amount), said::SameTest { low, high }.into());
    }
    Table {
        caption: said::Measured { well: Name::from(&s.well.name), trip: Name::from(&v.trip) }.text(),
        columns: vec![
            Column::words(word::What.text()),
            Column::numbers(word::Value.text(), ""),
            Column::words(word::How.text()),
        ],
        rows,
        notes: vec![],
    }
}

/// A storage coefficient: a power of ten and one digit after the point.
fn one_digit(x: f64) -> Shown {
    Shown::new(x, Digits::Exponent(1), "")
}

/// What was read, by its key in the catalogues.
pub(super) fn quantity_of(name: &str) -> Message {
    let quantity = if name == "dissolved oxygen" { "dissolved-oxygen" } else { name };
    said::Quantity { quantity: quantity.into() }.into()
}

/// What the readings after the opening say of the standing water.
fn washout(s: &WellSheet, v: &Visit) -> Table {
    let rows = v
        .known
        .washouts
        .iter()
        .map(|(quantity, unit, w)| {
            let amount = |x: f64, u: f64| Cell::Amount { amount: Amount::measured(x, u, Unit::known(unit)), k: K };
            // The fit gives a rate; a volume follows only where the flow is known (Q/k).
            let volume = w.mixed_volume_l.zip(w.u_mixed_volume_l).map_or(Cell::Missing("–".into()), |(x, u)| {
                Cell::Amount { amount: Amount::measured(x, u, Unit::known("L")), k: K }
            });
            let state = if w.still_falling { said::StillChanging.text() } else { said::AtItsEnd.text() };
            vec![
                cell(quantity_of(quantity)),
                amount(w.standing, w.u_standing),
                amount(w.aquifer, w.u_aquifer),
                Cell::Amount {
                    amount: Amount::measured(w.minutes_to_1_percent, w.u_minutes_to_1_percent, Unit::known("min")),
                    k: K,
                },
                volume,
                Cell::Text(state),
            ]
        })
        .collect();
    Table {
        caption: said::Washout { well: Name::from(&s.well.name) }.text(),
        columns: vec![
            Column::words(word::Reading.text()),
            Column::numbers(said::StoodInWell.text(), ""),
            Column::numbers(said::AquiferGives.text(), ""),
            Column::numbers(said::OnePercentAfter.text(), "min"),
            Column::numbers(said::VolumeTakingPart.text(), "L"),
            Column::words(said::State.text()),
        ],
        rows,
        notes: vec![said::WashoutFitted.text()],
    }
}

fn contact(s: &WellSheet, v: &Visit) -> Table {
    let held = v.known.held.as_ref();
    let n = |x: f64| Cell::Text(Shown::trimmed(x, 3, "").text());
    let of = |written: &str| Message::from(said::Material { material: material(written) });
    let mut rows: Vec<Vec<Cell>> = held
        .iter()
        .flat_map(|h| &h.sections)
        .map(|p| {
            vec![
                cell(of(&p.material)),
                n(p.length_m),
                n(2.0 * MM_PER_M * p.radius_m),
                n(L_PER_M3 * p.volume_m3),
                n(p.wall_m2),
                Cell::Amount { amount: p.contact.clone(), k: K },
            ]
        })
        .collect();
    for (written, t) in held.iter().flat_map(|h| &h.by_material) {
        rows.push(vec![
            cell(said::AllOfMaterial { material: of(written) }),
            Cell::Text(String::new()),
            Cell::Text(String::new()),
            Cell::Text(String::new()),
            Cell::Text(String::new()),
            Cell::Amount { amount: t.clone(), k: K },
        ]);
    }
    Table {
        caption: said::Contact { well: Name::from(&s.well.name) }.text(),
        columns: vec![
            Column::words(word::Material.text()),
            Column::numbers(said::Length.text(), "m"),
            Column::numbers(said::InnerWidth.text(), "mm"),
            Column::numbers(said::WaterHeld.text(), "L"),
            Column::numbers(said::Wall.text(), "m²"),
            Column::numbers(word::Contact.text(), "min"),
        ],
        rows,
        notes: vec![said::ContactAsPlug.text()],
    }
}

fn steady(s: &WellSheet, v: &Visit) -> Table {
    let rows = v
        .known
        .steady
        .iter()
        .map(|r| {
            vec![
                cell(quantity_of(&r.quantity)),
                Cell::Text(r.readings.to_string()),
                Cell::Outcome(r.outcome),
                match (&r.since, r.outcome) {
                    (Some(t), _) => Cell::Text(t.clone()),
                    (None, Outcome::NotMet) => Cell::Missing(said::NotSteady.text()),
                    (None, _) => Cell::Missing(word::CannotBeTold.text()),
                },
                cell(r.rule.clone()),
            ]
        })
        .collect();
    Table {
        caption: said::WereReadingsSteady { well: Name::from(&s.well.name) }.text(),
        columns: vec![
            Column::words(word::Reading.text()),
            Column::words(said::TimesRead.text()),
            Column::words(said::Steady.text()),
            Column::words(said::Since.text()),
            Column::words(word::Rule.text()),
        ],
        rows,
        notes: vec![said::WhatSteadyShows.text()],
    }
}

fn test(s: &WellSheet, v: &Visit, t: &Test) -> Illustration {
    let (e, storage) = (&t.fit.transmissivity_m2_s, &t.fit.storage);
    // More than its u: a point on which the answer hangs. One without which no fit is found is such a point as well.
    let moves = |p: f64| (p - e.value).abs() > e.u;
    let amount = Amount::measured(e.value * S_PER_D, e.u * S_PER_D, Unit::known("m2/d"));
    let name = || Name::from(&s.well.name);
    let (transmissivity, best) = (shown(&amount), one_digit(storage.value));
    let (low, high) = (one_digit(storage.interval_95.0), one_digit(storage.interval_95.1));
    let under = if t.fit.model.holds {
        said::FlowTestHolds { transmissivity, storage: best, low, high }.text()
    } else {
        said::FlowTestBends { transmissivity, storage: best, low, high }.text()
    };
    // As it is printed before its lines are broken: a power of ten takes more room so.
    let under = document::printed::printed(&under, message::language());
    let drawdown = Shown::significant(t.input.drawdown_m, 3, "m");
    let picture = FlowTestPicture {
        head: Head {
            id: slug(&format!("test-{}-{}", s.well.name, v.trip)),
            title: said::FlowTest { well: name(), drawdown }.text(),
            desc: said::FlowTestShows { well: name() }.text(),
        },
        under,
        y_name: said::FlowAxis.text(),
        points: t
            .fit
            .points
            .iter()
            .map(|p| TestPoint {
                minutes: p.t_s / S_PER_MIN,
                observed: L_MIN_PER_M3_S * p.observed,
                fitted: L_MIN_PER_M3_S * p.fitted,
                residual: p.standard_residual,
                moves_the_answer: p.transmissivity_without_m2_s.is_none_or(moves),
            })
            .collect(),
    };
    let caption = said::FlowTestCaption { well: name() }.text();
    both(|w| flow_test::draw(&picture, w), caption)
}

fn years(t: &Travel) -> Message {
    let p = &t.years.percentiles;
    let years = |x: f64| Shown::significant(x, 2, "");
    said::Years { low: years(p.low_95), high: years(p.high_95), middle: years(p.median) }.into()
}

fn scheme_of(s: &WellSheet, v: &Visit, t: &Travel) -> Illustration {
    let c = &s.construction;
    let layer = wells::feeding_layer(c);
    // A layer that ends where the aquifer begins is cover, whatever rounding left in the last digit of a depth.
    let cover: Vec<&str> =
        c.layers.iter().filter(|l| layer.is_some_and(|a| l.to_m <= a.from_m + 1e-9)).map(|l| l.name.as_str()).collect();
    let name = || Name::from(&s.well.name);
    let gradient = t.inputs.iter().find(|i| i.name == "gradient").map(wells::Input::value);
    let head = v.head.as_ref().and_then(|h| h.elevation.as_ref()).map(shown);
    let picture = SectionPicture {
        head: Head {
            id: slug(&format!("section-{}-{}", s.well.name, v.trip)),
            title: said::Scheme { well: name() }.text(),
            desc: said::SchemeShows {
                level: Shown::as_given(t.recharge_level_m, "m"),
                distance: Shown::as_given(t.distance_m, "m"),
                well: name(),
            }
            .text(),
        },
        recharge: said::RechargeArea { level: Shown::trimmed(t.recharge_level_m, 3, "m") }.text(),
        well: match s.well.elevation_m {
            Some(e) => said::Ground { well: name(), level: Shown::as_given(e, "m") }.text(),
            None => s.well.name.clone(),
        },
        distance: Some(Shown::trimmed(t.distance_m / M_PER_KM, 3, "km").text()),
        gradient: head.zip(gradient).map(|(head, gradient)| said::HeadAlong { head, gradient }.text()),
        rises_above_ground: v.head.as_ref().and_then(|h| h.above_ground.value()).map(|m| m > 0.0),
        aquifer: layer.map(|l| l.name.clone()),
        cover: (!cover.is_empty()).then(|| cover.join(", ")),
        travel: Some(said::WayOfWater { years: years(t) }.text()),
    };
    let caption = said::SchemeCaption { well: name() }.text();
    both(|w| scheme::draw(&picture, w), caption)
}

fn under_way(t: &Travel, out: &mut Vec<Block>) {
    let list = |measured: bool| -> Vec<String> {
        t.inputs.iter().filter(|i| i.is_measured() == measured).map(|i| i.said().text()).collect()
    };
    let most = &t.years.parts[0];
    let (input, part) = (most.input.replace(' ', "-").into(), Share::new(most.share, Digits::Significant(2)));
    out.push(Block::Text(said::TravelTime { years: years(t), input, part }.text()));
    out.push(Block::Text(said::KnownByMeasurement.text()));
    out.push(Block::List(list(true)));
    out.push(Block::Text(said::TakenFromTextbook.text()));
    let book = list(false);
    out.push(Block::List(if book.is_empty() { vec![said::Nothing.text()] } else { book }));
    if let Some(c) = &t.capture {
        let (w, s) = (&c.width_m.percentiles, &c.stagnation_m.percentiles);
        let metres = |x: f64, unit: &str| Shown::significant(x, 2, unit);
        let capture = said::Capture {
            width: metres(w.median, "m"),
            low: metres(w.low_95, ""),
            high: metres(w.high_95, "m"),
            stagnation: metres(s.median, "m"),
        };
        out.push(Block::Text(capture.text()));
    }
    if !t.ages.is_empty() {
        out.push(Block::Findings(t.ages.clone()));
    }
}

/// The metal whose pipe part is asked for: lead where it was measured, else the first; first sample of the visit.
fn pipe(s: &WellSheet, v: &Visit, all: &[Listed], rules: &Rules) -> Option<(String, f64, PipeChoice)> {
    let of_visit = |r: &&Listed| {
        r.well.as_deref() == Some(s.well.name.as_str())
            && r.trip.as_deref() == Some(v.trip.as_str())
            && r.kind == BottleKind::Sample
            && r.gross.is_some()
    };
    let here: Vec<&Listed> = all.iter().filter(of_visit).collect();
    let r = here.iter().find(|r| r.analyte == "Pb").or(here.first())?;
    let flow = v.known.flow.as_ref()?;
    let Amount::Measured(found) = r.amount.as_ref()?.convert(&Unit::known("ng/L"), None, None).ok()? else {
        return None;
    };
    let most = aquifer::pipe::most_added(&found);
    let choice = wells::pipe_choice(&s.construction, flow, most, rules.limit(Check::WellPipe, 0.5)).ok()?;
    Some((r.analyte.clone(), most, choice))
}

/// A metal by its word, or by its symbol where the catalogues have none.
fn metal(symbol: &str) -> Vec<Arg> {
    vec![Message::named("substance", symbol).map_or_else(|| Name::from(symbol).into(), Arg::from)]
}

fn pipe_picture(s: &WellSheet, v: &Visit, (symbol, most): (&str, f64), p: &PipeChoice) -> Illustration {
    let (metal, well) = (|| metal(symbol), || Name::from(&s.well.name));
    let place = |a: (f64, f64, f64)| FlowChoice { flow_l_min: a.0, ng_l: a.1, water_m3_year: a.2 };
    let picture = ChoicePicture {
        head: Head {
            id: slug(&format!("choice-{}-{}", s.well.name, v.trip)),
            title: capital(said::Choice { metal: metal(), well: well() }.text()),
            desc: said::ChoiceShows { metal: metal(), well: well() }.text(),
        },
        under: said::ChoiceBound { metal: metal(), most: Shown::bound(most, "ng/L") }.text(),
        y_name: said::ChoiceAxis { metal: metal() }.text(),
        curve: p.curve.iter().map(|a| place((a.flow_l_min, a.ng_l, a.water_m3_year))).collect(),
        target_ng_l: p.target_ng_l,
        now: place((p.now.flow_l_min, p.now.ng_l, p.now.water_m3_year)),
        enough: place((p.enough.flow_l_min, p.enough.ng_l, p.enough.water_m3_year)),
    };
    let caption = said::ChoiceCaption { well: well(), metal: metal() }.text();
    both(|w| choice::draw(&picture, w), caption)
}
