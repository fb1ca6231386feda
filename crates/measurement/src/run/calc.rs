//! The steps of a run as a machine reads them: formula or function, what the inputs are called in it, and the constants
//! that stand in no other node. With them a program that knows the functions comes to the same digits from the counts.
//!
//! `f` is an arithmetic formula over `args`, the names of the inputs in their order (the last name stands for all that
//! are left), or a function by its name; `error` names what an input's own error is, so that errors that are the same
//! one are known as such. Times min, counting times s, rates counts/s, volumes mL; positions are those of the run.
//! The functions are told in the METHODS of a data package, and one program for them goes with it.
//! Checked in `crates/cli/tests/strangers.rs`, by that program.

use super::analyte_reduction::{self, AnalyteReduction};
use super::input::Mode;
use super::net::Blanks;
use super::recipe::{Intercept, Recovery};
use super::scatter::Scatter;
use super::signal::{Response, Signal};
use super::table::{Cell, Table, When};
use super::{DeadTimeModel, ReducedRun};
use serde_json::{Value, json};

/// A formula over named inputs.
pub(super) fn formula(f: &str, args: &[&str]) -> Value {
    json!({"f": f, "args": args})
}

/// A given number whose error is one of its own, or the same as that of all numbers so named.
pub(super) fn given(error: &str) -> Value {
    json!({"error": error})
}

/// Counts of one isotope in one vial.
pub(super) fn counts(table: &Table, c: Cell, (run, v, i): (&str, usize, usize)) -> Value {
    let mut out = json!({
        "f": "counts", "run": run, "position": table.vials[v].position, "isotope": table.isotopes[i].to_string(),
        "rates_cps": table.raw(c), "time_s": c.integration_s,
    });
    if c.summary_n > 0 {
        // The sd is that after dead time, as the program takes it.
        out["n"] = json!(c.summary_n);
        out["sd_cps"] = json!(c.summary_sd);
    }
    out
}

/// What the detector brings off a rate.
pub(super) fn detector(mode: Mode, model: DeadTimeModel) -> Value {
    match (mode, model) {
        (Mode::Counting, DeadTimeModel::NonExtending) => formula("n / (1 - n * tau * 1e-9)", &["n", "tau"]),
        (Mode::Counting, DeadTimeModel::Extending) => json!({"f": "extending", "args": ["n", "tau"]}),
        (Mode::Analogue, _) => formula("n * X", &["n", "X"]),
    }
}

/// The factor of an overlap measured in a vial; inputs: target, monitor, then both in the calibration blanks.
pub(super) fn overlap(target_blanks: usize, monitor_blanks: usize) -> Value {
    json!({"f": "overlap", "target_blanks": target_blanks, "monitor_blanks": monitor_blanks, "error": "interference"})
}

/// The scatter of all vials; u of its value stands nowhere, so its two parts are given in full.
pub(super) fn scatter(table: &Table, s: &Scatter) -> Value {
    let position = |v: usize| table.vials[v].position;
    let vials: Vec<Value> = s.members.iter().map(|m| json!([position(m.vial), m.ratio, m.x, m.dof])).collect();
    let alone: Vec<u32> = s.alone.iter().map(|v| position(*v)).collect();
    json!({"f": "scatter", "phi": s.fit.phi, "kappa": s.fit.kappa, "covariance": s.fit.covariance,
        "vials": vials, "alone": alone})
}

/// The response of a vial; inputs: rates of the isotopes, then for each overlap its factors and the monitor, then the
/// internal standards, then the scatter of all vials where that is its u.
pub(super) fn response(
    position: u32,
    members: usize,
    overlaps: &[Vec<f64>],
    signal: &Signal,
    (r, scatter): (&Response, bool),
) -> Value {
    let noise = if scatter {
        "all vials"
    } else if r.noise.fixed > 0.0 || r.dof.is_finite() {
        "own"
    } else {
        "counting"
    };
    json!({"f": "response", "position": position, "isotopes": members, "factor_weights": overlaps,
        "standard_weights": signal.standard_weights(), "noise": noise})
}

/// Shape and times of the drift checks, in the order of the inputs.
fn checks(table: &Table, vials: &[usize], terms: Option<usize>) -> Value {
    let at = |v: &usize| {
        let t = When::of(&table.vials[*v]);
        json!([table.vials[*v].position, t.session, t.minutes])
    };
    json!({"polynomial_terms": terms, "checks": vials.iter().map(at).collect::<Vec<_>>()})
}

/// What the checks scatter beyond their replicates; inputs: their responses.
pub(super) fn between(reduction: &AnalyteReduction, table: &Table) -> Value {
    let terms = reduction.drift.as_ref().map_or(Some(1), super::drift::Model::polynomial_terms);
    let mut out = checks(table, &reduction.checks, terms);
    out["f"] = json!("between vials");
    out["error"] = json!("between vials");
    out
}

/// A response with drift removed; inputs: the response, those of all checks but the vial itself, the reproducibility.
pub(super) fn drift(run: &ReducedRun, reduction: &AnalyteReduction, v: usize) -> Value {
    let terms = reduction.drift.as_ref().and_then(super::drift::Model::polynomial_terms);
    let mut out = checks(&run.table, &reduction.checks, terms);
    let when = When::of(&run.table.vials[v]);
    out["f"] = json!("drift");
    out["position"] = json!(run.table.vials[v].position);
    out["at"] = json!([when.session, when.minutes]);
    out["reproducibility"] = json!(reduction.between_vials.is_some());
    if let Some((edge, after)) = reduction.open.edge(when) {
        out["beyond"] = json!({"check_min": edge.minutes, "after": after});
    }
    out
}

/// The weights of the line's points, in their order.
pub(super) fn weights(reduction: &AnalyteReduction) -> Value {
    reduction.fitted.line.points.iter().map(|p| 1.0 / (p.u * p.u)).collect()
}

/// The line: points as place of x among the inputs (none at zero), place of y, factor from the assigned value to x,
/// share of the dilution's u, stock, position.
pub(super) fn line(run: &ReducedRun, reduction: &AnalyteReduction, places: &[(Option<usize>, usize, usize)]) -> Value {
    let line = &reduction.fitted.line;
    let element = &reduction.plan.analyte.element;
    let points = places.iter().map(|(x, y, v)| {
        let vial = &run.table.vials[*v];
        let (factor, u_dilution) = analyte_reduction::to_line(vial, element, &run.recipe).unwrap_or((1.0, 0.0));
        let stock = vial.assigned.iter().find(|a| a.element == *element).and_then(|a| a.stock.as_deref());
        json!([x, y, factor, u_dilution, stock, vial.position])
    });
    json!({
        "f": "line", "points": points.collect::<Vec<_>>(),
        "intercept": match run.recipe.intercept {
            Intercept::Free => "free",
            Intercept::Blank => "mean of the calibration blanks",
            Intercept::Zero => "zero",
        },
        "covariance": line.covariance, "chi_squared": line.chi_squared, "dof": line.dof, "widened": line.widened,
        "reproducibility": reduction.between_vials.is_some(),
    })
}

/// Gross concentration: which factors it has.
pub(super) fn gross(position: u32, (dilution, acid, between): (bool, bool, bool)) -> Value {
    let y = if between { "y * r" } else { "y" };
    let mut f = format!("({y} - a) / b");
    let mut args = vec!["y", "a", "b"];
    for (there, letter) in [(dilution, "D"), (acid, "A")] {
        if there {
            f.push_str(" * ");
            f.push_str(letter);
            args.push(letter);
        }
    }
    if between {
        args.push("r");
    }
    json!({"f": f, "args": args, "position": position, "each_vial": "r"})
}

/// The mean of blanks; inputs: their gross concentrations, then the volumes of their bottles where it is a mass per
/// bottle.
pub(super) fn blank(b: &Blanks, per_bottle: bool) -> Value {
    let mut out = json!({"f": "blank", "blanks": b.n, "per_bottle": per_bottle, "sd": b.sd, "dof": finite(b.sd_dof),
        "measurement": b.measurement});
    if !b.earlier.is_empty() {
        out["earlier_runs"] = json!({"sd": b.sd, "dof": b.sd_dof, "runs": b.earlier});
    }
    if b.robust {
        out["robust"] = json!({"mean": b.mean, "sd": b.own_sd, "u": b.u_mean, "weights": b.weights});
    }
    out
}

/// Net of a blank; `covariance` of gross and blank, both as concentrations.
pub(super) fn net(per_bottle: bool, covariance: f64) -> Value {
    let (f, args): (&str, &[&str]) =
        if per_bottle { ("c - (b + e) * 1000 / V", &["c", "b", "e", "V"]) } else { ("c - b - e", &["c", "b", "e"]) };
    json!({"f": f, "args": args, "covariance_gross_blank": covariance})
}

/// A spike in a recovery: place of its net value and its position, the same of its water, place of what was added, place
/// of the volume that a mass was divided by (none where a concentration was added) and that volume in mL.
pub(super) fn spike(table: &Table, (vial, of): (usize, usize), first: usize, by_volume: bool) -> Value {
    let position = |v: usize| table.vials[v].position;
    let volume = by_volume.then_some(first + 3);
    let ml = table.vials[vial].bottle_volume_ml.filter(|_| by_volume);
    json!([first, position(vial), first + 1, position(of), first + 2, volume, ml])
}

/// The mean recovery of spikes.
pub(super) fn recovery(spikes: Vec<Value>, same_bottle: bool) -> Value {
    json!({"f": "recovery", "spikes": spikes, "same_bottle": same_bottle})
}

/// A net value over a recovery; where that is of spikes, the vial itself may stand in it.
pub(super) fn over_recovery(run: &ReducedRun, v: usize) -> Value {
    let mut out = formula("n / R", &["n", "R"]);
    if !matches!(run.recipe.recovery, Recovery::Given { .. }) {
        out["position"] = json!(run.table.vials[v].position);
    }
    out
}

fn finite(x: f64) -> Option<f64> {
    Some(x).filter(|x| x.is_finite())
}
