//! `limpid attribution`: whose metal it is, trip by trip.

use super::open;
use crate::failure::Failure;
use crate::out::say;
use assessment::attribution::{self, Fit, TripAnalyte, unseen};
use assessment::derive::{self, Prepared};
use message::Spoken;
use quantity::format::{at_decimals, decimals_for, significant};
use record::store::Store;
use serde_json::json;

/// The runs of a programme, reduced. A run that cannot be reduced is told on stderr and left out.
pub fn runs(store: &Store) -> Result<Vec<(Prepared, measurement::run::ReducedRun)>, Failure> {
    let all = derive::reduce_all(store)?;
    for (_, why) in all.left_out {
        eprintln!("left out: {why}");
    }
    Ok(all.runs)
}

/// Runs `limpid attribution`.
pub fn run(address: &str, analyte: Option<&str>, json: bool) -> Result<(), Failure> {
    let store = open(address)?;
    let runs = runs(&store)?;
    let pairs: Vec<attribution::RunPair> = runs.iter().map(|(p, r)| (p, r)).collect();
    let mut all = attribution::all(&store, &pairs)?;
    all.retain(|t| analyte.is_none_or(|a| t.analyte.element == a));
    if let (Some(a), true) = (analyte, all.is_empty()) {
        return Err(Failure::Refused(format!("no run on record measured \"{a}\" in bottles of a trip")));
    }
    if json {
        let document = json!({
            "trips": all,
            "method": "all bottles of a trip fitted together: volume times water plus exposures times sources, none negative, weighted, spikes by a two-part error law; intervals by Student's t of the fit without the bound, read on zero and up; shares by Fieller",
            "sources": ["Lawson & Hanson 1974", "Box & Tiao 1968, Biometrika 55:119", "Paule & Mandel 1982, J. Res. NBS 87:377", "Fieller 1954, J. R. Stat. Soc. B 16:175"],
            "warnings": ["the plain result, net of the blank, stays the one that is reported", "an annex to the accounting of a bottle: what all bottles together say; the shares of a bottle are those of its case"],
        });
        say!("{document}");
        return Ok(());
    }
    if all.is_empty() {
        say!("no run on record measured metals in bottles of a trip: there is nothing to attribute");
    }
    for t in &all {
        crate::out::write(format_args!("{}", in_words(t)));
    }
    Ok(())
}

fn in_words(t: &TripAnalyte) -> String {
    let mut out = format!("{}, trip {}, run {}\n", t.analyte, t.trip, t.run);
    match &t.blanks {
        Ok(f) => {
            out += &format!("  by the {}\n", f.scope);
            for (s, a) in f.fit.sources.iter().zip(&f.asked) {
                // Of sources that the bottles do not tell apart only the upper bound holds: any split fits.
                let value = Some(s.per_unit_pg).filter(|_| s.identifiable);
                out += &format!("    {:<40} {} pg per {}\n", s.name, interval(value, s.interval_95), a.unit);
            }
            out += &remarks(f);
        }
        Err(why) => out += &format!("  blanks alone: not fitted: {why}\n"),
    }
    for w in &t.waters {
        match &w.fit {
            Ok(f) => {
                for x in &f.fit.waters {
                    let value = Some(x.ng_l).filter(|_| x.identifiable);
                    let plain = x.plain_subtraction_ng_l.map_or_else(|| "–".into(), |p| significant(p, 3));
                    let is = format!(" {}", w.is.words());
                    out += &format!(
                        "  {} ({}): {} ng/L{is}; plain subtraction of all blanks {plain} ng/L\n",
                        w.well,
                        f.scope,
                        interval(value, x.interval_95)
                    );
                }
                if f.fit.waters.iter().any(|x| !x.identifiable) {
                    out += &remarks(f);
                } else {
                    out += &beside(f);
                }
                out += &unseen::says(w).map_or_else(String::new, |says| format!("    {}\n", says.text()));
            }
            Err(why) => out += &format!("  {}: not fitted: {why}\n", w.well),
        }
        for s in &w.series {
            out += &format!("  {}, {} bottles: {}\n", w.well, s.bottles.len(), s.sentence);
        }
    }
    out
}

fn remarks(f: &Fit) -> String {
    let asked = f.not_asked.iter().map(|n| format!("    not asked: {n}\n"));
    let told = f.cannot_tell.iter().map(|n| format!("    {n}\n"));
    asked.chain(told).chain([beside(f)]).collect()
}

/// A recovery that was divided out, weights that did not settle.
fn beside(f: &Fit) -> String {
    f.beside().iter().fold(String::new(), |all, n| all + "    " + n.to_string().as_str() + "\n")
}

fn interval(value: Option<f64>, (low, high): (f64, f64)) -> String {
    let places = decimals_for((0.5 * (high - low)).abs().max(1e-12), 2);
    let show = |x: f64| at_decimals(x, places);
    match value {
        Some(v) => format!("{} ({} to {})", show(v), show(low), show(high)),
        None => format!("cannot be told, at most {}", message::number::up(high, 2)),
    }
}
