//! Which blank is taken off which vial: only blanks that met the stages of a bottle say what these brought.
//!
//! A vial names its choices ([`BlankChoice`](super::BlankChoice)), the outermost first. The first of which two blanks
//! were measured is taken off; where it did not meet all that the bottle met, the value is an upper bound, and the
//! value by the recipe's rule stands beside it under its own name. A vial without choices follows the recipe.
//! A kind of which the recipe asks and the run has none is refused before, as ever.
//! Checked in `tests/blank_choice.rs`.

use super::analyte_reduction::AnalyteReduction;
use super::error::Error;
use super::input::{EarlierBlanks, Role};
use super::net::{self, Blanks, Net};
use super::quality::{FEWEST_BLANKS, kind};
use super::recipe::Recipe;
use super::result::{Bears, ByRecipe, RunFinding};
use super::table::Table;
use super::{ReducedRun, has_result};
use message::{Name, Shown, count, measurement as say};
use quantity::{Check, Finding, Measured, Outcome};
use std::collections::BTreeMap;

/// The set of blanks that is taken off, and what is then left.
pub(super) struct Taken {
    /// Index of the set; none where nothing is taken off.
    pub set: Option<usize>,
    /// Value or upper bound.
    pub bears: Bears,
}

/// Chooses for a vial; `(wanted, set)`: kind and set by the recipe. A new part of a kind is put behind the sets.
pub(super) fn of_vial(
    table: &Table,
    recipe: &Recipe,
    reduction: &AnalyteReduction,
    v: usize,
    (wanted, set): (Option<Role>, Option<usize>),
    (earlier, sets): (&[EarlierBlanks], &mut Vec<Blanks>),
) -> Result<Taken, Error> {
    let choices = &table.vials[v].blank_choices;
    // Without a blank by the recipe (a reference material of a run that has none) there is nothing to choose from.
    if choices.is_empty() || wanted.is_none() || set.is_none() {
        return Ok(Taken { set, bears: Bears::Value });
    }
    for choice in choices {
        let of = (choice.role, Some(choice.blanks.as_slice()));
        let Some(found) = net::blanks(table, recipe, reduction, of, earlier)? else { continue };
        let same = sets.iter().position(|b| b.role == found.role && b.vials == found.vials);
        let set = same.unwrap_or_else(|| {
            sets.push(found);
            sets.len() - 1
        });
        let bears = if choice.met_all { Bears::Value } else { Bears::AtMost };
        return Ok(Taken { set: Some(set), bears });
    }
    Ok(Taken { set: None, bears: Bears::AtMost })
}

/// What two net values share by their blanks' means, in the square of the unit. Of two sets the common blanks count.
pub(super) fn shared(sets: &[Blanks], a: &Net, b: &Net) -> f64 {
    let of = |n: &Net| sets.get(n.blank_set);
    let (Some(x), Some(y)) = (of(a), of(b)) else { return 0.0 };
    let common = x.vials.iter().filter(|v| y.vials.contains(v)).count();
    if common == 0 || x.role != y.role {
        return 0.0;
    }
    // cov of the means of n and m blanks of one spread s, c of them in both: c·s²/(n·m).
    a.blank_mean * b.blank_mean * common as f64 / ((x.n * y.n) as f64).sqrt()
}

/// The value by the recipe's rule as a result shows it.
pub(super) fn by_recipe(recipe: &Recipe, reduction: &AnalyteReduction, net: &Net, sets: &[Blanks]) -> ByRecipe {
    let tally = net.tally(reduction);
    let b = &sets[net.blank_set];
    let net = Measured::with_dof(net.value, tally.u(), tally.dof(), recipe.unit.clone());
    ByRecipe { role: b.role, n: b.n, net }
}

/// Results that stand on fewer blanks than a batch should have, where these are not those of the recipe's rule.
pub(super) fn findings(run: &mut ReducedRun) {
    let mut out = vec![];
    for c in 0..run.reductions.len() {
        let analyte = &run.reductions[c].plan.analyte;
        let whole = run.blanks[c].iter().position(|b| b.role == run.recipe.blank.samples && !b.part);
        let mut few: BTreeMap<usize, Vec<u32>> = BTreeMap::new();
        for (r, (_, net)) in run.results.iter().zip(&run.nets).filter(|(_, n)| n.0 == c) {
            let other = has_result(r.role) && !run.table.vials[net.vial].blank_choices.is_empty();
            if other && Some(net.blank_set) != whole && run.blanks[c].get(net.blank_set).is_some_and(too_few) {
                few.entry(net.blank_set).or_default().push(r.position);
            }
        }
        for (set, positions) in few {
            let b = &run.blanks[c][set];
            let says = say::BlankCount {
                role: kind(b.role),
                count: count(b.n),
                analyte: Name::from(analyte.to_string()),
                mean: Shown::trimmed(b.mean * b.as_concentration, 3, run.recipe.unit.to_string()),
                sd: Shown::trimmed(b.sd * b.as_concentration, 3, ""),
                least: count(FEWEST_BLANKS),
            };
            let finding = Finding::new(Check::RunBlankCount, Outcome::NotMet, says);
            out.extend(positions.into_iter().map(|position| RunFinding {
                finding: finding.clone(),
                analyte: Some(analyte.clone()),
                position: Some(position),
            }));
        }
    }
    run.findings.extend(out);
}

fn too_few(b: &Blanks) -> bool {
    b.n < FEWEST_BLANKS
}
