//! A section a well: how it is built, what was measured there on each trip, what follows from it for the
//! water's way and for the pipe, and what is not known. Measured and textbook inputs stand apart.

use super::words::{capital, element};
use super::{Caution, section};
use assessment::results::Listed;
use assessment::verdict::Rules;
use assessment::wells::{self, PipeChoice, Test, Travel, Visit, WellSheet};
use document::content::{Block, Cell, Column, Illustration, Section, Table};
use figure::choice::{self, ChoicePicture, FlowChoice};
use figure::flow_test::{self, FlowTestPicture, TestPoint};
use figure::number::Printed;
use figure::section::{self as scheme, SectionPicture};
use figure::well::{self, LayerDrawn, PipeDrawn, PipeKind, WellPicture};
use figure::{Figure, Head, PHONE, WIDE, slug};
use language::as_written;
use message::Spoken;
use quantity::factor::{L_MIN_PER_M3_S, L_PER_M3, M_PER_KM, MM_PER_M, S_PER_D, S_PER_MIN};
use quantity::format::{percent, significant, significant_trimmed};
use quantity::{Amount, Check, Outcome, Unit};
use record::Error;
use record::store::Store;
use record::words::BottleKind;

/// Coverage factor of the tables here.
const K: f64 = 2.0;

/// One section for each well of which the record knows construction or readings.
pub fn sections(store: &Store, all: &[Listed]) -> Result<Vec<Section>, Error> {
    let rules = Rules::new(store.check_rules()?);
    let mut out = vec![];
    for sheet in wells::sheets(store)? {
        let built = !sheet.construction.sections.is_empty() || !sheet.construction.layers.is_empty();
        if built || !sheet.visits.is_empty() {
            out.push(section(&format!("The well {}", as_written(&sheet.well.name)), blocks(&sheet, all, &rules)));
        }
    }
    Ok(out)
}

pub(super) fn blocks(s: &WellSheet, all: &[Listed], rules: &Rules) -> Vec<Block> {
    let words = [&s.well.description, &s.well.flow_note];
    let told: Vec<String> = words.into_iter().flatten().map(|t| as_written(&format!("{}.", capital(t)))).collect();
    let mut out = vec![];
    if !told.is_empty() {
        out.push(Block::Text(as_written(&told.join(" "))));
    }
    out.push(Block::Text(Caution::Well.sentence()));
    if let Some(fault) = &s.fault {
        out.push(Block::Text(format!("The construction on record cannot be: {fault}. It is not drawn.")));
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
        out.push(Block::Heading(format!("On trip {}", as_written(&v.trip))));
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
        out.push(Block::Text(t.fit.model.sentence.clone()));
    }
    if let Some(t) = &v.travel {
        out.push(Block::Figure(scheme_of(s, v, t)));
        under_way(t, out);
    }
    if let Some((name, found, choice)) = pipe(s, v, all, rules) {
        out.push(Block::Figure(pipe_picture(s, v, (&name, found), &choice)));
    }
    if !v.lacking.is_empty() {
        let mut list = v.lacking.clone();
        list.sort();
        out.push(Block::Text("What the record does not tell of this well, and why:".into()));
        out.push(Block::List(list));
    }
}

fn both(draw: impl Fn(f64) -> Figure, caption: String) -> Illustration {
    Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption }
}

fn shown(a: &Amount) -> String {
    Printed::of(a, K).with_unit()
}

/// The last visit that knows something decides what the drawing shows.
fn drawing(s: &WellSheet) -> Illustration {
    let c = &s.construction;
    let kind = |from_m: f64, to_m: f64, material: &str| {
        let slotted = c.screens.iter().any(|x| (x.from_m - from_m).abs() < 1e-9 && (x.to_m - to_m).abs() < 1e-9);
        match (slotted, material) {
            (true, "open hole") => PipeKind::Open,
            (true, _) => PipeKind::Screen,
            (false, _) => PipeKind::Casing,
        }
    };
    let head = s.visits.iter().rev().find_map(|v| v.head.as_ref());
    let flow = s.visits.iter().rev().find_map(|v| v.known.flow.as_ref());
    let name = as_written(&s.well.name);
    let mut desc = format!("Section of the well {name}, depths to scale.");
    for l in &c.layers {
        desc += &format!(" {} from {} to {} m.", capital(&l.name), l.from_m, l.to_m);
    }
    for p in &c.sections {
        desc += &format!(" Pipe of {} from {} to {} m.", p.material, p.from_m, p.to_m);
    }
    let picture = WellPicture {
        head: Head { id: slug(&format!("well-{name}")), title: format!("The well {name}, depths to scale"), desc },
        layers: c.layers.iter().map(|l| LayerDrawn { from_m: l.from_m, to_m: l.to_m, name: l.name.clone() }).collect(),
        pipes: c
            .sections
            .iter()
            .map(|p| PipeDrawn {
                from_m: p.from_m,
                to_m: p.to_m,
                radius_m: p.radius_m,
                kind: kind(p.from_m, p.to_m, &p.material),
                material: p.material.clone(),
            })
            .collect(),
        static_head: head.and_then(|h| {
            let m = h.above_ground.value()?;
            Some((m, format!("head: the water of the shut well stands {} above ground", shown(&h.above_ground))))
        }),
        flow: flow.map(|f| format!("flows {}", shown(f))),
    };
    let caption = format!(
        "{name}: layers as the driller wrote them, casing and screen, and the level of the shut well where it was measured. Depths to scale."
    );
    both(|w| well::draw(&picture, w), caption)
}

fn measured(s: &WellSheet, v: &Visit) -> Table {
    let mut rows: Vec<Vec<Cell>> = vec![];
    let mut row = |what: &str, amount: Option<Amount>, how: String| {
        let cell = amount.map_or(Cell::Missing("not known".into()), |amount| Cell::Amount { amount, k: K });
        rows.push(vec![Cell::Text(what.into()), cell, Cell::Text(how)]);
    };
    let flow = v.known.timed.as_ref();
    row(
        "flow",
        v.known.flow.clone(),
        match flow {
            Some(f) => format!("{} timed fills", f.fills),
            None if v.known.unfit.is_empty() => "no fill was timed".into(),
            None => "a timed fill cannot be: see the findings".into(),
        },
    );
    if let Some(held) = &v.known.held {
        let litres = Amount::stated(L_PER_M3 * held.volume_m3, Unit::known("L"));
        row("water in the well", Some(litres), "depths and radii of the record".into());
        row("contact with the pipe, in all", Some(held.total.clone()), "volume over flow".into());
    }
    if let Some(h) = &v.head {
        let when = v.shut.as_ref().map_or_else(String::new, |(a, b)| {
            format!(", shut from {} to {}", a.replace('T', " "), b.replace('T', " "))
        });
        row("head above ground", Some(h.above_ground.clone()), format!("pressure of the shut well{when}"));
        if let Some(e) = &h.elevation {
            row("head above sea level", Some(e.clone()), "with the elevation of the ground, taken as exact".into());
        }
    }
    if let Some(t) = &v.test {
        let e = &t.fit.transmissivity_m2_s;
        let range =
            |(a, b): (f64, f64), f: f64| format!("95 %: {} to {}", significant(a * f, 2), significant(b * f, 2));
        let amount = Amount::measured(e.value * S_PER_D, e.u * S_PER_D, Unit::known("m2/d"));
        row(
            "transmissivity T",
            Some(amount),
            format!("constant-head test, full function; {}", range(e.interval_95, S_PER_D)),
        );
        let st = &t.fit.storage;
        let digits = |x: f64| format!("{x:.1e}");
        row(
            "storage coefficient S",
            Some(Amount::measured(st.value, st.u, Unit::one())),
            format!("the same test; 95 %: {} to {}", digits(st.interval_95.0), digits(st.interval_95.1)),
        );
    }
    Table {
        caption: format!("What was measured at {}, trip {}", as_written(&s.well.name), as_written(&v.trip)),
        columns: vec![Column::words("what"), Column::numbers("value", ""), Column::words("how")],
        rows,
        notes: vec![],
    }
}

/// What the readings after the opening say of the standing water.
fn washout(s: &WellSheet, v: &Visit) -> Table {
    let rows = v
        .known
        .washouts
        .iter()
        .map(|(quantity, unit, w)| {
            let amount = |x: f64, u: f64| Cell::Amount { amount: Amount::measured(x, u, Unit::known(unit)), k: K };
            let volume = w.mixed_volume_l.zip(w.u_mixed_volume_l).map_or(Cell::Missing("–".into()), |(x, u)| {
                Cell::Amount { amount: Amount::measured(x, u, Unit::known("L")), k: K }
            });
            let word = if w.still_falling { "still changing at the last reading" } else { "at its end" };
            vec![
                Cell::Text(quantity.clone()),
                amount(w.standing, w.u_standing),
                amount(w.aquifer, w.u_aquifer),
                Cell::Amount {
                    amount: Amount::measured(w.minutes_to_1_percent, w.u_minutes_to_1_percent, Unit::known("min")),
                    k: K,
                },
                volume,
                Cell::Text(word.into()),
            ]
        })
        .collect();
    Table {
        caption: format!("Washout of the standing water of {} after the valve was opened", as_written(&s.well.name)),
        columns: vec![
            Column::words("reading"),
            Column::numbers("stood in the well", ""),
            Column::numbers("the aquifer gives", ""),
            Column::numbers("1 % left after", "min"),
            Column::numbers("volume that takes part", "L"),
            Column::words("state"),
        ],
        rows,
        notes: vec![
            "An exponential from the standing water to the aquifer's; a reading that does not bend is not fitted. The u of the volume is that of the rate, the flow’s own is not in it."
                .into(),
        ],
    }
}

fn contact(s: &WellSheet, v: &Visit) -> Table {
    let held = v.known.held.as_ref();
    let n = |x: f64, digits| Cell::Text(significant_trimmed(x, digits));
    let mut rows: Vec<Vec<Cell>> = held
        .iter()
        .flat_map(|h| &h.sections)
        .map(|p| {
            vec![
                Cell::Text(p.material.clone()),
                n(p.length_m, 3),
                n(2.0 * MM_PER_M * p.radius_m, 3),
                n(L_PER_M3 * p.volume_m3, 3),
                n(p.wall_m2, 3),
                Cell::Amount { amount: p.contact.clone(), k: K },
            ]
        })
        .collect();
    for (material, t) in held.iter().flat_map(|h| &h.by_material) {
        rows.push(vec![
            Cell::Text(format!("all {material}")),
            Cell::Text(String::new()),
            Cell::Text(String::new()),
            Cell::Text(String::new()),
            Cell::Text(String::new()),
            Cell::Amount { amount: t.clone(), k: K },
        ]);
    }
    Table {
        caption: format!("How long the water touches each stretch of {}, from the top down", as_written(&s.well.name)),
        columns: vec![
            Column::words("material"),
            Column::numbers("length", "m"),
            Column::numbers("inner width", "mm"),
            Column::numbers("water held", "L"),
            Column::numbers("wall", "m²"),
            Column::numbers("contact", "min"),
        ],
        rows,
        notes: vec!["Volume over flow, as a plug; the u is that of the flow.".into()],
    }
}

fn steady(s: &WellSheet, v: &Visit) -> Table {
    let rows = v
        .known
        .steady
        .iter()
        .map(|r| {
            vec![
                Cell::Text(r.quantity.clone()),
                Cell::Text(r.readings.to_string()),
                Cell::Outcome(r.outcome),
                match (&r.since, r.outcome) {
                    (Some(t), _) => Cell::Text(t.clone()),
                    (None, Outcome::NotMet) => Cell::Missing("not steady".into()),
                    (None, _) => Cell::Missing("cannot be told".into()),
                },
                Cell::Text(r.rule.text()),
            ]
        })
        .collect();
    Table {
        caption: format!("Were the readings at {} steady before the bottles?", as_written(&s.well.name)),
        columns: vec![
            Column::words("reading"),
            Column::words("times read"),
            Column::words("steady"),
            Column::words("since"),
            Column::words("rule"),
        ],
        rows,
        notes: vec![
            "A steady reading shows that nothing changes any more, not that the water is the aquifer’s. Temperature, conductivity and pH decide; redox and oxygen are told.".into(),
        ],
    }
}

fn test(s: &WellSheet, v: &Visit, t: &Test) -> Illustration {
    let (e, storage) = (&t.fit.transmissivity_m2_s, &t.fit.storage);
    let moves = |p: f64| (p - e.value).abs() > e.u;
    let amount = Amount::measured(e.value * S_PER_D, e.u * S_PER_D, Unit::known("m2/d"));
    let picture = FlowTestPicture {
        head: Head {
            id: slug(&format!("test-{}-{}", s.well.name, v.trip)),
            title: format!(
                "Flow test of {}, {} m of drawdown held",
                as_written(&s.well.name),
                significant(t.input.drawdown_m, 3)
            ),
            desc: format!(
                "Flow of {} in time after opening, with the fitted curve and its residuals.",
                as_written(&s.well.name)
            ),
        },
        under: format!(
            "T {}, S {:.1e} (95 %: {:.1e} to {:.1e}); {}.",
            shown(&amount),
            storage.value,
            storage.interval_95.0,
            storage.interval_95.1,
            if t.fit.model.holds { "the model is not contradicted" } else { "the data bend away from the model" }
        ),
        y_name: "flow, L/min".into(),
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
    let caption = format!(
        "Flow of {} after it was opened, held at constant head: measured, fitted on the full function of Jacob & Lohman 1952, and what is left over.",
        as_written(&s.well.name)
    );
    both(|w| flow_test::draw(&picture, w), caption)
}

fn years(t: &Travel) -> String {
    let p = &t.years.percentiles;
    format!(
        "{} to {} years (95 %), middle {}",
        significant(p.low_95, 2),
        significant(p.high_95, 2),
        significant(p.median, 2)
    )
}

fn scheme_of(s: &WellSheet, v: &Visit, t: &Travel) -> Illustration {
    let c = &s.construction;
    let layer = wells::feeding_layer(c);
    let cover: Vec<&str> =
        c.layers.iter().filter(|l| layer.is_some_and(|a| l.to_m <= a.from_m + 1e-9)).map(|l| l.name.as_str()).collect();
    let gradient = t.inputs.iter().find(|i| i.name == "gradient").map(wells::Input::value_in_words);
    let head = v.head.as_ref().and_then(|h| h.elevation.as_ref()).map(shown);
    let ground = s.well.elevation_m.map_or_else(String::new, |e| format!(", ground {e} m above sea level"));
    let picture = SectionPicture {
        head: Head {
            id: slug(&format!("section-{}-{}", s.well.name, v.trip)),
            title: format!("From the recharge area to {}", as_written(&s.well.name)),
            desc: format!(
                "Scheme of the way of the water from its recharge area, {} m above sea level and {} m away, to {}.",
                t.recharge_level_m,
                t.distance_m,
                as_written(&s.well.name)
            ),
        },
        recharge: format!("recharge area, {} m above sea level", significant_trimmed(t.recharge_level_m, 3)),
        well: format!("{}{ground}", as_written(&s.well.name)),
        distance: Some(format!("{} km", significant_trimmed(t.distance_m / M_PER_KM, 3))),
        gradient: head
            .zip(gradient)
            .map(|(h, i)| format!("from the recharge area’s level to {h} above sea level at the well, gradient {i}")),
        rises_above_ground: v.head.as_ref().and_then(|h| h.above_ground.value()).map(|m| m > 0.0),
        aquifer: layer.map(|l| l.name.clone()),
        cover: (!cover.is_empty()).then(|| cover.join(", ")),
        travel: Some(years(t)),
    };
    let caption = format!("Where the water of {} comes from: a scheme, not to scale.", as_written(&s.well.name));
    both(|w| scheme::draw(&picture, w), caption)
}

fn under_way(t: &Travel, out: &mut Vec<Block>) {
    let list = |measured: bool| -> Vec<String> {
        t.inputs.iter().filter(|i| i.is_measured() == measured).map(|i| capital(&i.in_words())).collect()
    };
    out.push(Block::Text(format!(
        "Travel time by Darcy: {}. Most of the spread comes from the {} ({} % of it). No dispersion, no change of gradient in time: the range is the honest answer.",
        years(t),
        t.years.parts[0].input,
        percent(t.years.parts[0].share, 2)
    )));
    out.push(Block::Text("Known by measurement at this well or on the map:".into()));
    out.push(Block::List(list(true)));
    out.push(Block::Text("Taken from a textbook:".into()));
    let book = list(false);
    out.push(Block::List(if book.is_empty() { vec!["Nothing".into()] } else { book }));
    if let Some(c) = &t.capture {
        let (w, s) = (&c.width_m.percentiles, &c.stagnation_m.percentiles);
        out.push(Block::Text(format!(
            "In a uniform flow field the well draws from a strip {} m wide far upstream (95 %: {} to {} m); water up to {} m downstream still turns back to it.",
            significant(w.median, 2),
            significant(w.low_95, 2),
            significant(w.high_95, 2),
            significant(s.median, 2)
        )));
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

fn pipe_picture(s: &WellSheet, v: &Visit, (analyte, most): (&str, f64), p: &PipeChoice) -> Illustration {
    let metal = element(analyte);
    let place = |a: (f64, f64, f64)| FlowChoice { flow_l_min: a.0, ng_l: a.1, water_m3_year: a.2 };
    let picture = ChoicePicture {
        head: Head {
            id: slug(&format!("choice-{}-{}", s.well.name, v.trip)),
            title: format!("{} from the pipe of {} against the water spent", capital(&metal), as_written(&s.well.name)),
            desc: format!(
                "The {metal} that the pipe of {} adds at most, over the flow and the water spent in a year.",
                as_written(&s.well.name)
            ),
        },
        under: format!(
            "An upper bound: as if all {metal} found, at most {} ng/L, were the pipe’s. The aquifer’s own part makes it less.",
            significant(most, 2)
        ),
        y_name: format!("{metal} at most, ng/L"),
        curve: p.curve.iter().map(|a| place((a.flow_l_min, a.ng_l, a.water_m3_year))).collect(),
        target_ng_l: p.target_ng_l,
        now: place((p.now.flow_l_min, p.now.ng_l, p.now.water_m3_year)),
        enough: place((p.enough.flow_l_min, p.enough.ng_l, p.enough.water_m3_year)),
    };
    let caption = format!(
        "{}: a faster flow leaves less of the pipe’s {metal} in each litre and spends more water. The target is the programme’s own choice.",
        as_written(&s.well.name)
    );
    both(|w| choice::draw(&picture, w), caption)
}
