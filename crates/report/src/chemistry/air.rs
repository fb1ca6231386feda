//! The smell, the open bottle and the air of a well house, in words and tables.

use super::super::Caution;
use super::Answered;
use super::words::digits;
use aqueous::odour::{self, AirLimit, Odour, WellHouse};
use aqueous::speciation::Speciation;
use document::content::{Block, Cell, Column, Table};
use quantity::factor::{MIN_PER_H, NG_PER_UG};
use quantity::format::percent_whole;

/// Air of the yardstick house, m³: no record holds the true volume; time goes with it.
const HOUSE_M3: f64 = 10.0;

/// What the nose meets; nothing where no sulfide was measured.
pub fn blocks(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out = vec![Block::Heading("The smell".into())];
    let Some(m) = odour::odour(&s.equilibrium) else {
        out.push(Block::Text("No sulfide was measured in this water; nothing is said of its smell.".into()));
        out.extend(open_bottle(s));
        return out;
    };
    out.push(Block::Text(nose(&m, bound(s))));
    out.push(Block::Table(thresholds(&m)));
    out.extend(open_bottle(s));
    out.extend(house(a, s));
    out
}

/// Sulfide stands at its detection limit: everything from it is an upper bound.
fn bound(s: &Speciation) -> &'static str {
    let hs = aqueous::network::network().component("HS-");
    if hs.is_some_and(|c| s.interpreted.at_limit(c)) { "at most " } else { "" }
}

fn nose(m: &Odour, bound: &str) -> String {
    format!(
        "Of {bound}{} mg/L sulfide (as S) {} % is H₂S at this pH: {} µg/L. Air at rest over the water holds {bound}{} ppm. The published odour thresholds differ a thousandfold; all are shown.",
        digits(m.sulfide_mg_l_as_s, 2),
        percent_whole(m.h2s_share),
        digits(m.h2s_ng_l / NG_PER_UG, 2),
        digits(m.air_ppm, 2),
    )
}

fn thresholds(m: &Odour) -> Table {
    let rows = m
        .times
        .iter()
        .map(|(t, times)| {
            let here = if t.medium == "water" { m.h2s_ng_l } else { m.air_ppm };
            vec![
                Cell::Text(format!("{}, {}", t.medium, t.what)),
                Cell::Text(format!("{} {}", digits(t.threshold, 2), t.unit)),
                Cell::Text(format!("{} {}", digits(here, 2), t.unit)),
                Cell::Text(format!("{} times", digits(*times, 2))),
                Cell::Text(format!("{} ({})", t.source, t.provenance)),
            ]
        })
        .collect();
    Table {
        caption: "H₂S of this water against published odour thresholds".into(),
        columns: ["threshold", "at", "this water", "above it", "source (how known)"]
            .iter()
            .map(|h| Column::words(*h))
            .collect(),
        rows,
        notes: vec!["A nose is no meter: it tires within minutes and fails where H₂S is dangerous.".into()],
    }
}

fn open_bottle(s: &Speciation) -> Vec<Block> {
    let mut out = vec![Block::Heading("The open bottle".into())];
    let b = match odour::open_bottle(&s.equilibrium) {
        Ok(b) => b,
        Err(e) => {
            out.push(Block::Text(format!("Not worked out: {e}.")));
            return out;
        }
    };
    let mut text = format!(
        "Left open until its CO₂ is that of outdoor air the water {} {} mmol/L CO₂ and its pH goes from {:.2} to {:.2}.",
        if b.co2_leaves_mmol_l >= 0.0 { "loses" } else { "takes up" },
        digits(b.co2_leaves_mmol_l.abs(), 2),
        b.ph_before,
        b.ph_after
    );
    if let (Some(before), Some(after)) = b.calcite {
        text += &format!(
            " The saturation index of calcite goes from {} to {}",
            super::words::decimals(before, 2),
            super::words::decimals(after, 2)
        );
        text += &if b.calcite_mg_l > 0.0 {
            format!("; up to {} mg/L could form.", digits(b.calcite_mg_l, 2))
        } else {
            "; none can form.".into()
        };
    }
    if let Some((likely, short, long)) = b.half_time_h {
        text += &format!(
            " Sulfide goes to sulfate with {} mg/L of oxygen and {} mmol/L of acid; that much is sure. How fast is not: half of it in about {} h, with a factor three either way for traces of metal ({} to {} h; Millero et al. 1987, from memory).",
            digits(b.oxygen_mg_l, 2),
            digits(b.acid_mmol_l, 2),
            digits(likely, 2),
            digits(short, 2),
            digits(long, 2)
        );
    }
    out.push(Block::Text(text));
    out
}

fn house(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out = vec![Block::Heading("The air of a well house".into())];
    let Some(flow_l_min) = a.flow_l_min else {
        out.push(Block::Text(
            "No flow was timed on that trip, so what it could bring into the air is not known.".into(),
        ));
        out.push(Block::Text(Caution::Gas.sentence()));
        return out;
    };
    let asked = WellHouse { flow_l_min, volume_m3: HOUSE_M3, air_changes_per_h: 0.0 };
    let air = match odour::house_air(&s.equilibrium, &asked) {
        Ok(air) => air,
        Err(e) => {
            out.push(Block::Text(format!("Not worked out: {e}.")));
            out.push(Block::Text(Caution::Gas.sentence()));
            return out;
        }
    };
    out.push(Block::Text(format!(
        "If all its sulfide left the water as H₂S, {} L/min would bring {} mg of H₂S a minute into an enclosed house. The air can come to {} ppm, what it holds at rest over this water, no further. The times are those of {HOUSE_M3:.0} m³ of still air: a yardstick, no measured house; twice the air takes twice the time.",
        digits(flow_l_min, 2), digits(air.brought_mg_min, 2), digits(air.ceiling_ppm, 2)
    )));
    out.push(Block::Table(Table {
        caption: "H₂S in still air against published occupational limits".into(),
        columns: ["limit", "at", "reached after", "how known"].iter().map(|h| Column::words(*h)).collect(),
        rows: air.limits.iter().map(limit).collect(),
        notes: vec![
            "“Not reached” is said of this analysis alone; the water of another day may carry more.".into(),
            Caution::Gas.sentence(),
        ],
    }));
    out
}

fn limit(l: &AirLimit) -> Vec<Cell> {
    // The graded guides are named by their grade: ERPG-2, AEGL-2.
    let grade = l.level.rsplit_once(' ').map_or("", |(_, last)| last);
    let name = match l.body.as_str() {
        "AIHA" => format!("AIHA, ERPG-{}", grade.trim_start_matches("ERPG-")),
        body if body.starts_with("AEGL") => format!("AEGL-{grade}, {}", body.trim_start_matches("AEGL ")),
        body => format!("{body}, {}", l.level),
    };
    vec![
        Cell::Text(name),
        Cell::Text(format!("{} ppm", digits(l.ppm, 2))),
        Cell::Text(match l.minutes {
            None => "not reached".into(),
            Some(m) if m < 1.0 => "under a minute".into(),
            Some(m) if m < 120.0 => format!("{} min", digits(m, 2)),
            Some(m) => format!("{} h", digits(m / MIN_PER_H, 2)),
        }),
        Cell::Text(if l.provenance == "S" { "seen".into() } else { l.provenance.clone() }),
    ]
}
