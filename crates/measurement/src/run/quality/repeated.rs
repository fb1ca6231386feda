//! Readings that are the same in two vials: a block copied, or one vial written twice.
//!
//! Two Poisson counts of mean λ are equal with probability about 1/√(4πλ) (their difference is near normal with
//! variance 2λ), so n replicates of k isotopes repeat by chance with Π (4πλ)^(−n/2). Multiplied by the number of pairs
//! of vials, and by the number of isotopes for each that is the same, that bounds the chance over the run.

use super::super::result::RunFinding;
use super::super::table::Cell;
use super::{ReducedRun, finding, name, others_stand_on};
use message::{count, measurement as say};
use quantity::Check;
use std::collections::BTreeMap;

// Chance over a run at which a repeated block is no chance: the programme's own choice.
const CHANCE: f64 = 1e-6;
// Time that a rate is counted for where it was not recorded, s: the programme's own choice, short, so that few counts
// are taken to stand behind a rate.
const SHORT_TIME_S: f64 = 0.1;

/// Pairs of vials whose readings repeat, told at both.
pub(super) fn repeated_readings(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    let table = &run.table;
    let (vials, isotopes) = (table.vials.len(), table.isotopes.len());
    // ln of the chance, and the isotopes that repeat, of each pair of vials.
    let mut pairs: BTreeMap<(usize, usize), (f64, Vec<usize>)> = BTreeMap::new();
    for i in 0..isotopes {
        let mut blocks: BTreeMap<Vec<u64>, Vec<usize>> = BTreeMap::new();
        for v in 0..vials {
            if let Ok(cell) = table.cell(i, v) {
                blocks.entry(block(run, cell)).or_default().push(v);
            }
        }
        for same in blocks.values().filter(|b| b.len() > 1) {
            for (k, a) in same.iter().enumerate() {
                for b in &same[k + 1..] {
                    let cell = table.cell(i, *a).expect("a block is a cell");
                    let pair = pairs.entry((*a, *b)).or_default();
                    let chance = ln_chance(run, cell) + (isotopes as f64).ln();
                    if chance < 0.0 {
                        pair.0 += chance;
                        pair.1.push(i);
                    }
                }
            }
        }
    }
    let all = (vials as f64 * (vials as f64 - 1.0) / 2.0).max(1.0).ln();
    let mut none = true;
    for ((a, b), (chance, same)) in &pairs {
        if chance + all >= CHANCE.ln() {
            continue;
        }
        none = false;
        tell(run, (*a, *b), same, out);
    }
    if none {
        out.push(RunFinding {
            finding: finding(Check::RunRepeatedReadings, true, say::NoRepeatedReadings { vials: count(vials) }),
            analyte: None,
            position: None,
        });
    }
}

fn tell(run: &ReducedRun, (a, b): (usize, usize), same: &[usize], out: &mut Vec<RunFinding>) {
    let (one, other) = (&run.table.vials[a], &run.table.vials[b]);
    let isotopes: Vec<String> = same.iter().map(|i| run.table.isotopes[*i].to_string()).collect();
    let says =
        say::RepeatedReadings { vial: name(&one.name), other: name(&other.name), isotopes: name(&isotopes.join(", ")) };
    let all = [one, other].iter().any(|v| others_stand_on(&run.recipe, v.role));
    let places = if all { vec![None] } else { vec![Some(one.position), Some(other.position)] };
    out.extend(places.into_iter().map(|position| RunFinding {
        finding: finding(Check::RunRepeatedReadings, false, says.clone()),
        analyte: None,
        position,
    }));
}

/// What is compared, to the last bit: the replicates, or mean and standard deviation of a summary.
fn block(run: &ReducedRun, cell: Cell) -> Vec<u64> {
    let mut bits: Vec<u64> = run.table.raw(cell).iter().map(|x| x.to_bits()).collect();
    if cell.summary_n > 0 {
        bits.push(cell.summary_sd.to_bits());
    }
    bits
}

/// ln of the chance that another vial of the same level gives the same block.
fn ln_chance(run: &ReducedRun, cell: Cell) -> f64 {
    let rates = run.table.raw(cell);
    let time = if cell.integration_s > 0.0 { cell.integration_s } else { SHORT_TIME_S };
    let counts = time * rates.iter().sum::<f64>() / rates.len() as f64;
    let numbers = if cell.summary_n > 0 { 2.0 } else { rates.len() as f64 };
    (-0.5 * numbers * (4.0 * std::f64::consts::PI * counts).ln()).min(0.0)
}
