//! `limpid results`: every result with value, uncertainty, unit, verdict.

use super::open;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use assessment::results::{self, Listed};
use quantity::Amount;
use quantity::format::value_and_expanded;
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

/// The results as a table.
pub fn table(all: &[Listed]) -> String {
    let rows: Vec<Vec<String>> = all
        .iter()
        .map(|r| {
            let (value, unit) = value(r);
            vec![r.result.to_string(), value, unit, r.state.word().replace('-', " "), verdict(r), r.reasons.join(", ")]
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
