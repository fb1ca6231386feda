//! The tables of `docs/validation/second_simulator.md`.

use super::cells::Cell;
use super::generator::ASKED;
use super::judge::{Goal, Part, Runs, Seen, always, beside_samples, met, part, told_by};
use quantity::Check;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Runs of all cells, by name.
pub type All = BTreeMap<&'static str, Runs>;

/// Chance that the table forgives a goal, standard deviations.
const FORGIVEN: f64 = 2.0;

/// A check that stands beside a value this much more often with the fault than without is worth a line.
const WORTH_A_LINE: f64 = 0.2;

pub fn page(cells: &[Cell], all: &All) -> String {
    let mut out = String::new();
    values(cells, all, &mut out);
    unmet(cells, all, &mut out);
    checks(cells, all, &mut out);
    others(cells, all, &mut out);
    out
}

fn percent(p: Option<Part>) -> String {
    p.map_or("–".into(), |p| format!("{:.1}", 100.0 * p.share()))
}

fn values(cells: &[Cell], all: &All, out: &mut String) {
    out.push_str("| case | interval, water | interval, near | bound, near | bound, not detected | false detection | told: water, near, nothing | told without the fault |\n");
    out.push_str("|---|---|---|---|---|---|---|---|\n");
    for cell in cells {
        let (runs, clean) = (&all[cell.name], &all[cell.clean]);
        let told = |of: &Runs| {
            let each: Vec<String> = (0..3).map(|k| percent(told_by(of, k, cell.told_by))).collect();
            if cell.told_by.is_empty() { "–".into() } else { each.join(", ") }
        };
        let refused = runs.iter().filter(|r| r.is_err()).count();
        let name = if refused > 0 { format!("{} ({refused} refused)", cell.name) } else { cell.name.into() };
        let mark = |goal: Goal, text: String| {
            if met(goal, cell, runs, clean, FORGIVEN) == Some(false) { format!("**{text}**") } else { text }
        };
        let columns = [
            name,
            mark(Goal::Level, percent(part(runs, 0, always, |s| s.inside))),
            mark(Goal::Near, percent(part(runs, 1, always, |s| s.inside))),
            mark(Goal::Bound, percent(part(runs, 1, always, |s| s.under_bound))),
            mark(Goal::NonDetects, percent(part(runs, 1, Seen::not_detected, |s| s.under_bound))),
            mark(Goal::Nothing, percent(part(runs, 2, always, Seen::detected))),
            mark(Goal::Told, told(runs)),
            mark(Goal::Quiet, told(clean)),
        ];
        writeln!(out, "| {} |", columns.join(" | ")).expect("a string takes all");
    }
}

fn unmet(cells: &[Cell], all: &All, out: &mut String) {
    out.push_str("\nGoals not met:\n\n");
    for cell in cells {
        let goals: Vec<String> = Goal::ALL
            .iter()
            .filter(|g| met(**g, cell, &all[cell.name], &all[cell.clean], FORGIVEN) == Some(false))
            .map(|g| format!("{g:?}"))
            .collect();
        if !goals.is_empty() {
            writeln!(out, "- {}: {}", cell.name, goals.join(", ")).expect("a string takes all");
        }
    }
    if let Some(why) = all.values().flatten().find_map(|r| r.as_ref().err()) {
        writeln!(out, "\nA refusal: {why}").expect("a string takes all");
    }
}

fn checks(cells: &[Cell], all: &All, out: &mut String) {
    out.push_str("\n| case without fault | any check, % of samples | each |\n|---|---|---|\n");
    for cell in cells.iter().filter(|c| c.told_by.is_empty()) {
        let (each, any) = beside_samples(cell, &all[cell.name]);
        let each: Vec<String> = each.iter().map(|(c, p)| format!("{} {:.1}", c.text(), 100.0 * p.share())).collect();
        writeln!(out, "| {} | {:.1} | {} |", cell.name, 100.0 * any.share(), each.join(", "))
            .expect("a string takes all");
    }
}

/// Checks that speak with the fault although the cell does not name them.
fn others(cells: &[Cell], all: &All, out: &mut String) {
    out.push_str("\nOther checks that stand beside the value more often with the fault than without:\n\n");
    for cell in cells.iter().filter(|c| !c.told_by.is_empty()) {
        for (k, value) in ASKED.iter().enumerate() {
            let share = |runs: &Runs, c: Check| told_by(runs, k, &[c]).map_or(0.0, Part::share);
            let more: Vec<String> = Check::ALL
                .iter()
                .filter(|c| !cell.told_by.contains(c))
                .map(|c| (c, share(&all[cell.name], *c), share(&all[cell.clean], *c)))
                .filter(|(_, with, without)| with - without > WORTH_A_LINE)
                .map(|(c, with, without)| format!("{} {:.0} % ({:.0} %)", c.text(), 100.0 * with, 100.0 * without))
                .collect();
            if !more.is_empty() {
                writeln!(out, "- {}, {value}: {}", cell.name, more.join(", ")).expect("a string takes all");
            }
        }
    }
}
