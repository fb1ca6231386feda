//! `limpid results`: every result with value, uncertainty, unit, verdict; or one value a well and day.

use super::open;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use assessment::results::{self, Listed};
use assessment::well_value::{self, Part, WellValue};
use quantity::Amount;
use quantity::format::value_and_expanded;
use record::model::VerdictWord;
use serde_json::json;

/// Runs `limpid results`.
pub fn run(address: &str, json: bool) -> Result<(), Failure> {
    let store = open(address)?;
    let all = results::all(&store)?;
    if json {
        let mut warnings =
            vec!["What was not tested, microbes first, is not spoken of; advice on drinking is the local health authority's.".to_string()];
        warnings.extend(assessment::engine::reach(&store)?.in_words());
        let document = json!({
            "results": all,
            "head": store.head()?.map(|h| h.to_string()),
            "method": "newest revision of every result; amounts that were not detected stand as \"below\" with their upper bound or limit",
            "sources": ["Currie 1968, Anal. Chem. 40:586", "JCGM 100:2008"],
            "warnings": warnings,
        });
        say!("{document}");
    } else {
        crate::out::write(format_args!("{}", table(&all)));
        say!(
            "\n± is the 95 % interval. < is an upper bound or a limit, not a value. Evidence (blanks, spikes) gets no verdict."
        );
    }
    Ok(())
}

/// Runs `limpid results --wells`.
pub fn wells(address: &str, json: bool) -> Result<(), Failure> {
    let store = open(address)?;
    let all = well_value::all(&store)?;
    if json {
        let document = json!({
            "wells": all,
            "head": store.head()?.map(|h| h.to_string()),
            "method": "one value a well, day, element and fraction: weighted mean of the bottles that agree, what they share in it once and in full; none where they disagree",
            "sources": ["JCGM 100:2008", "Welch 1951, Biometrika 38:330", "Birge 1932, Phys. Rev. 40:207"],
            "warnings": assessment::engine::reach(&store)?.in_words(),
        });
        say!("{document}");
    } else {
        crate::out::write(format_args!("{}", table_of_wells(&all)));
        say!(
            "\n± is the 95 % interval; what the bottles share is in it once and in full. < is an upper bound. Where bottles disagree no number is given: their values stand side by side."
        );
    }
    Ok(())
}

/// The values of wells as a table.
fn table_of_wells(all: &[WellValue]) -> String {
    let labels = |parts: &[Part]| parts.iter().map(|p| p.bottle.as_str()).collect::<Vec<_>>().join(", ");
    let row = |w: &WellValue| {
        vec![
            w.water.well.clone().unwrap_or_default(),
            w.water.day.clone(),
            format!("{} {}@{}", w.analyte, w.isotopes, w.resolution),
            w.water.fraction.clone(),
            w.number(),
            w.verdict.map_or("", VerdictWord::word).to_string(),
            labels(&w.bottles),
            w.number_with_all_back().unwrap_or_default(),
            w.reasons.join(", "),
        ]
    };
    let headings = [
        ("well", Side::Left),
        ("day", Side::Left),
        ("element", Side::Left),
        ("fraction", Side::Left),
        ("value", Side::Left),
        ("verdict", Side::Left),
        ("bottles", Side::Left),
        ("with everything put back", Side::Left),
        ("because of", Side::Left),
    ];
    lay_out(&headings, &all.iter().map(row).collect::<Vec<_>>())
}

/// The results as a table.
pub fn table(all: &[Listed]) -> String {
    let rows: Vec<Vec<String>> = all
        .iter()
        .map(|r| {
            let (value, unit) = value(r);
            let mut because = r.reasons.join(", ");
            // What the field said stands where a verdict holds a result back.
            if let (Some(note), false) = (&r.note, r.reasons.is_empty()) {
                because += &format!("; field note: {note}");
            }
            vec![r.result.to_string(), value, unit, r.state.word().replace('-', " "), verdict(r), because]
        })
        .collect();
    let headings = [
        ("result", Side::Left),
        ("value", Side::Right),
        ("unit", Side::Left),
        ("state", Side::Left),
        ("verdict", Side::Left),
        ("because of", Side::Left),
    ];
    lay_out(&headings, &rows)
}

/// The verdict as a word, or what the bottle is where it gets none.
pub fn verdict(r: &Listed) -> String {
    r.verdict.map_or_else(|| r.kind.word().replace('-', " "), |v| v.word().to_string())
}

/// The number with its expanded uncertainty, and the unit.
pub fn value(r: &Listed) -> (String, String) {
    if let Some((bound, unit)) = r.bound() {
        return (bound, unit);
    }
    match (&r.amount, r.coverage_k) {
        (None, _) => ("< not stated".into(), String::new()),
        (Some(Amount::Measured(m)), Some(k)) => {
            let (v, u) = value_and_expanded(m, k);
            (format!("{v} ± {u}"), m.unit.to_string())
        }
        (Some(other), _) => {
            let unit = other.unit().to_string();
            let words = other.in_words().replace(&format!(" {unit}"), "").replace("(u not stated)", "(no u)");
            (words, unit)
        }
    }
}
