//! `limpid lots`: may each lot of bottles go out?

use super::open;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use assessment::lots::{self, LotSheet};
use quantity::Outcome;
use quantity::format::significant;
use serde_json::json;

/// Runs `limpid lots`.
pub fn run(address: &str, json: bool) -> Result<(), Failure> {
    let store = open(address)?;
    let sheets = lots::all(&store)?;
    if json {
        let document = json!({
            "lots": sheets,
            "method": "one-sided tolerance limit of the bottle blanks, on logarithms where these are nearer to normal; refused where the lower bound of the same percentile lies above the target",
            "sources": ["Owen 1958, Sandia SCR-13 (recalled)", "Filliben 1975, Technometrics 17:111"],
            "warnings": ["blanks must be drawn at random from the lot and handled like it"],
        });
        say!("{document}");
        return Ok(());
    }
    if sheets.is_empty() {
        say!("No lot of bottles is on record.");
    }
    for s in &sheets {
        say!("lot {}: {}", s.lot.name, word(s.outcome));
        if let Some(line) = about(s) {
            say!("{line}");
        }
        crate::out::write(format_args!("{}\n", table(s)));
    }
    Ok(())
}

fn word(o: Outcome) -> &'static str {
    match o {
        Outcome::Met => "may go out",
        Outcome::NotMet => "wash again",
        Outcome::NotKnown => "not decided",
    }
}

fn about(s: &LotSheet) -> Option<String> {
    let mut parts = vec![];
    parts.extend(s.lot.acid_days.map(|d| format!("{d} days in acid")));
    let range = |(a, b): (i64, i64)| if a == b { a.to_string() } else { format!("{a} to {b}") };
    parts.extend(s.bags.map(|r| format!("bags {}", range(r))));
    parts.extend(s.openings.map(|r| format!("opened {} times", range(r))));
    parts.extend(s.bottles.iter().map(|(k, n)| format!("{n} {k}")));
    (!parts.is_empty()).then(|| parts.join(", "))
}

fn table(s: &LotSheet) -> String {
    let rows: Vec<Vec<String>> = s
        .metals
        .iter()
        .map(|m| {
            let limit = |f: fn(&cleanliness::lots::LotLimit) -> f64| {
                m.limit.as_ref().map_or_else(|_| "–".into(), |l| significant(f(l), 2))
            };
            vec![
                format!("{} {}", m.analyte, m.isotopes),
                m.blanks.len().to_string(),
                limit(|l| l.mean_pg),
                limit(|l| l.upper_pg),
                m.target_pg.map_or_else(|| "–".into(), |t| significant(t, 2)),
                m.limit.as_ref().err().map_or_else(|| word(m.outcome).into(), ToString::to_string),
            ]
        })
        .collect();
    let headings = [
        ("metal", Side::Left),
        ("blanks", Side::Right),
        ("mean pg", Side::Right),
        ("limit pg", Side::Right),
        ("target pg", Side::Right),
        ("", Side::Left),
    ];
    lay_out(&headings, &rows)
}
