//! The smell, the open bottle and the air of a well house, in words and tables.

use super::super::Caution;
use super::Answered;
use super::words::{decimals, digits, how_known, percent};
use aqueous::odour::{self, AirLimit, HouseAir, Odour, Reach, WellHouse};
use aqueous::speciation::Speciation;
use document::content::{Block, Cell, Column, Table};
use message::{Message, Name, Shown, Spoken, odour as said};
use quantity::factor::{MIN_PER_H, NG_PER_UG};

/// Air of the yardstick house, m³: no record holds the true volume; time goes with it.
const HOUSE_M3: f64 = 10.0;

/// What the nose meets; nothing where no sulfide was measured.
pub fn blocks(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out = vec![Block::Heading(said::Smell.text())];
    let Some(m) = odour::odour(&s.equilibrium) else {
        out.push(Block::Text(said::NoSulfide.text()));
        out.extend(open_bottle(s));
        return out;
    };
    out.push(Block::Text(nose(&m, is_bound(s))));
    out.push(Block::Table(thresholds(&m)));
    out.extend(open_bottle(s));
    out.extend(house(a, s));
    out
}

/// Open bottle and well house in words; the tables of all waters stand together.
pub fn in_words_alone(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out: Vec<Block> = open_bottle(s);
    let words = house(a, s).into_iter().filter(|b| !matches!(b, Block::Table(_)));
    if odour::odour(&s.equilibrium).is_some() {
        out.extend(words.filter(|b| !matches!(b, Block::Text(t) if *t == Caution::Gas.sentence())));
    }
    out
}

/// Waters beside each other in a table, at most.
const ACROSS: usize = 4;

/// What the nose meets, and when the air of a well house reaches published limits: all waters of wells in two tables.
pub fn side_by_side(waters: &[(&Answered, &Speciation)]) -> Vec<Block> {
    let smells: Vec<(&Answered, &Speciation, Odour)> =
        waters.iter().filter_map(|(a, s)| Some((*a, *s, odour::odour(&s.equilibrium)?))).take(ACROSS).collect();
    let Some((_, _, first)) = smells.first() else { return vec![] };
    let names = || smells.iter().map(|(a, ..)| Column::words(a.name.clone()));
    let row = |(i, (t, _)): (usize, &(odour::Threshold, f64))| {
        let name = Message::named("odour", &t.key).map_or_else(|| t.what.clone(), |n| n.text());
        let times = |m: &Odour| {
            let of = m.times.get(i).map_or(f64::NAN, |(_, times)| *times);
            Cell::Text(said::Times { times: digits(of, 2, "") }.text())
        };
        let source = said::Source { source: Name::from(&t.source), known: how_known(&t.provenance) };
        let mut cells = vec![Cell::Text(name), Cell::Text(digits(t.threshold, 2, &t.unit).text())];
        cells.extend(smells.iter().map(|(_, _, m)| times(m)));
        cells.push(Cell::Text(source.text()));
        cells
    };
    let mut columns = vec![Column::words(said::Threshold.text()), Column::words(said::At.text())];
    columns.extend(names());
    columns.push(Column::words(said::SourceHeading.text()));
    let mut out = vec![
        Block::Heading(said::Smell.text()),
        Block::Table(Table {
            caption: said::AgainstThresholds.text(),
            columns,
            rows: first.times.iter().enumerate().map(row).collect(),
            notes: vec![said::NoseIsNoMeter.text()],
        }),
    ];
    out.extend(houses(&smells));
    out
}

fn houses(waters: &[(&Answered, &Speciation, Odour)]) -> Vec<Block> {
    let air = |(a, s, _): &(&Answered, &Speciation, Odour)| {
        let asked = WellHouse { flow_l_min: a.flow_l_min?, volume_m3: HOUSE_M3, air_changes_per_h: 0.0 };
        let air = odour::house_air(&s.equilibrium, &s.sulfide.unwrap_or_default(), &asked).ok()??;
        Some((a.name.clone(), air))
    };
    let all: Vec<(String, HouseAir)> = waters.iter().filter_map(air).collect();
    let Some((_, first)) = all.first() else { return vec![] };
    let row = |(i, l): (usize, &AirLimit)| {
        let mut cells = limit(l, first.at_rest_ppm);
        let known = cells.pop();
        cells.pop();
        cells.extend(all.iter().map(|(_, air)| {
            air.limits.get(i).map_or(Cell::Missing("–".into()), |l| Cell::Text(reached(l, air.at_rest_ppm)))
        }));
        cells.extend(known);
        cells
    };
    let mut columns = vec![Column::words(said::Limit.text()), Column::words(said::At.text())];
    columns.extend(all.iter().map(|(name, _)| Column::words(name.clone())));
    columns.push(Column::words(said::HowKnown.text()));
    vec![
        Block::Heading(said::WellHouse.text()),
        Block::Table(Table {
            caption: message::paper::ReachedAfter.text(),
            columns,
            rows: first.limits.iter().enumerate().map(row).collect(),
            notes: vec![said::AnotherDay.text(), Caution::Gas.sentence()],
        }),
    ]
}

/// What the nose meets, in a sentence; nothing where no sulfide was measured.
pub fn in_short(a: &Answered, s: &Speciation) -> Option<Block> {
    let m = odour::odour(&s.equilibrium)?;
    Some(Block::Text(format!("{}: {}", a.name, nose(&m, is_bound(s)))))
}

/// Sulfide stands at its detection limit: everything from it is an upper bound.
fn is_bound(s: &Speciation) -> bool {
    aqueous::network::network().component("HS-").is_some_and(|c| s.interpreted.at_limit(c))
}

fn nose(m: &Odour, bound: bool) -> String {
    let sulfide = digits(m.sulfide_mg_l_as_s, 2, "mg/L");
    let share = percent(m.h2s_share, "%");
    let hydrogen_sulfide = digits(m.h2s_ng_l / NG_PER_UG, 2, "µg/L");
    let air = digits(m.air_ppm, 2, "ppm");
    if bound {
        said::NoseBound { sulfide, share, hydrogen_sulfide, air }.text()
    } else {
        said::Nose { sulfide, share, hydrogen_sulfide, air }.text()
    }
}

fn thresholds(m: &Odour) -> Table {
    // All of them: the published thresholds differ a thousandfold, and none is taken for the right one.
    let rows = m
        .times
        .iter()
        .map(|(t, times)| {
            let here = if t.medium == "water" { m.h2s_ng_l } else { m.air_ppm };
            let name = Message::named("odour", &t.key);
            let source = said::Source { source: Name::from(&t.source), known: how_known(&t.provenance) };
            [
                name.map_or_else(|| t.what.clone(), |n| n.text()),
                digits(t.threshold, 2, &t.unit).text(),
                digits(here, 2, &t.unit).text(),
                said::Times { times: digits(*times, 2, "") }.text(),
                source.text(),
            ]
            .map(Cell::Text)
            .into()
        })
        .collect();
    Table {
        caption: said::AgainstThresholds.text(),
        columns: [
            said::Threshold.text(),
            said::At.text(),
            said::ThisWater.text(),
            said::AboveIt.text(),
            said::SourceHeading.text(),
        ]
        .map(Column::words)
        .into(),
        rows,
        notes: vec![said::NoseIsNoMeter.text()],
    }
}

fn open_bottle(s: &Speciation) -> Vec<Block> {
    let mut out = vec![Block::Heading(said::OpenBottle.text())];
    let b = match odour::open_bottle(&s.equilibrium) {
        Ok(b) => b,
        Err(e) => {
            out.push(Block::Text(said::NotWorkedOut { why: e.message() }.text()));
            return out;
        }
    };
    let carbon_dioxide = digits(b.co2_leaves_mmol_l.abs(), 2, "mmol/L");
    let (before, after) = (Shown::decimals(b.ph_before, 2, ""), Shown::decimals(b.ph_after, 2, ""));
    let mut text = vec![if b.co2_leaves_mmol_l >= 0.0 {
        said::BottleLoses { carbon_dioxide, before, after }.text()
    } else {
        said::BottleTakesUp { carbon_dioxide, before, after }.text()
    }];
    if let (Some(before), Some(after)) = b.calcite {
        let (before, after) = (decimals(before, 2, ""), decimals(after, 2, ""));
        text.push(if b.calcite_mg_l > 0.0 {
            said::CalciteCouldForm { before, after, calcite: digits(b.calcite_mg_l, 2, "mg/L") }.text()
        } else {
            said::NoCalcite { before, after }.text()
        });
    }
    // With both ends: trace metals make it faster, so that a factor 3 either way is shown (`aqueous::odour`).
    if let Some((likely, short, long)) = b.half_time_h {
        let oxidises = said::SulfideOxidises {
            oxygen: digits(b.oxygen_mg_l, 2, "mg/L"),
            acid: digits(b.acid_mmol_l, 2, "mmol/L"),
            likely: digits(likely, 2, "h"),
            short: digits(short, 2, ""),
            long: digits(long, 2, "h"),
        };
        text.push(oxidises.text());
    }
    out.push(Block::Text(text.join(" ")));
    out
}

fn house(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out = vec![Block::Heading(said::WellHouse.text())];
    // The caution stands with and without figures: H₂S dulls the nose before it kills, no figure replaces a meter.
    let Some(flow_l_min) = a.flow_l_min else {
        out.push(Block::Text(said::NoFlow.text()));
        out.push(Block::Text(Caution::Gas.sentence()));
        return out;
    };
    // Without air change, where the limits are reached soonest: the worst case, as in all of `house_air`.
    let asked = WellHouse { flow_l_min, volume_m3: HOUSE_M3, air_changes_per_h: 0.0 };
    let air = match odour::house_air(&s.equilibrium, &s.sulfide.unwrap_or_default(), &asked) {
        Ok(Some(air)) => air,
        Ok(None) => {
            out.push(Block::Text(said::NoSulfide.text()));
            out.push(Block::Text(Caution::Gas.sentence()));
            return out;
        }
        Err(e) => {
            out.push(Block::Text(said::NotWorkedOut { why: e.message() }.text()));
            out.push(Block::Text(Caution::Gas.sentence()));
            return out;
        }
    };
    out.push(Block::Text(in_words(&air, flow_l_min)));
    out.push(Block::Table(Table {
        caption: said::AgainstLimits.text(),
        columns: [said::Limit.text(), said::At.text(), said::ReachedAfter.text(), said::HowKnown.text()]
            .map(Column::words)
            .into(),
        rows: air.limits.iter().map(|l| limit(l, air.at_rest_ppm)).collect(),
        notes: vec![said::AnotherDay.text(), Caution::Gas.sentence()],
    }));
    out
}

fn in_words(air: &HouseAir, flow_l_min: f64) -> String {
    let flow = digits(flow_l_min, 2, "L/min");
    let house = Shown::decimals(HOUSE_M3, 0, "m³");
    // A bound is printed upwards.
    let highest = Shown::bound(air.highest_ppm, "ppm");
    if air.upper_bound {
        let brought = Shown::bound(air.brought_mg_min, "mg");
        let ceiling = Shown::bound(air.ceiling_ppm, "ppm");
        return said::HouseBound { flow, brought, ceiling, highest, house }.text();
    }
    let doubtful = |x: f64, u: f64, unit: &str| Shown { expanded: Some(2.0 * u), ..digits(x, 2, unit) };
    said::House {
        flow,
        brought: doubtful(air.brought_mg_min, air.u_brought_mg_min, "mg"),
        ceiling: doubtful(air.ceiling_ppm, air.u_ceiling_ppm, "ppm"),
        acid: digits(air.all_as_h2s_ppm, 2, "ppm"),
        temperature: Shown::as_given(odour::WARM_C, "°C"),
        warm: digits(air.warm_ppm, 2, "ppm"),
        highest,
        house,
    }
    .text()
}

/// `at_most_ppm`: what the air comes to with all doubt on its side.
fn limit(l: &AirLimit, at_most_ppm: f64) -> Vec<Cell> {
    [
        Message::named("air_limit", &format!("{} {}", l.body, l.level)).map_or_else(|| abbreviated(l), |m| m.text()),
        digits(l.ppm, 2, "ppm").text(),
        reached(l, at_most_ppm),
        how_known(&l.provenance).text(),
    ]
    .map(Cell::Text)
    .into()
}

fn reached(l: &AirLimit, at_most_ppm: f64) -> String {
    let Some(minutes) = l.minutes else {
        return said::NotReached { highest: Shown::bound(at_most_ppm, "ppm") }.text();
    };
    // Two hours: over them minutes are read as hours.
    let time = if minutes < 120.0 { digits(minutes, 2, "min") } else { digits(minutes / MIN_PER_H, 2, "h") };
    match (l.reach, minutes < 1.0) {
        (Reach::CannotTell, true) => said::PerhapsReachedAtOnce.text(),
        (Reach::CannotTell, false) => said::PerhapsReached { time }.text(),
        (_, true) => said::UnderAMinute.text(),
        (_, false) => time.text(),
    }
}

/// Authority and level where both are abbreviations, the same in every language. The graded guides are named by their
/// grade: ERPG-2, AEGL-2.
fn abbreviated(l: &AirLimit) -> String {
    let grade = l.level.rsplit_once(' ').map_or("", |(_, last)| last);
    match l.body.as_str() {
        "AIHA" => format!("AIHA, ERPG-{}", grade.trim_start_matches("ERPG-")),
        body if body.starts_with("AEGL") => format!("AEGL-{grade}, {}", body.trim_start_matches("AEGL ")),
        body => format!("{body}, {}", l.level),
    }
}
