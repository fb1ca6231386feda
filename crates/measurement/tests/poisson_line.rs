//! The line of a run against the line of highest Poisson likelihood.
//!
//! `data/poisson_line_scipy.csv` is made by `data/poisson_line_scipy.py` (scipy 1.17.1): counts of standards and blanks,
//! the maximum of the likelihood, and the line with weights 1/counts that falls short of it where counts are few.

use measurement::run::{Assigned, Intercept, Isotope, Reading, Recipe, Role, RunInput, Vial, reduce};
use quantity::{Measured, Unit};

struct Set {
    x: Vec<f64>,
    counts: Vec<f64>,
    intercept: f64,
    slope: f64,
}

fn sets() -> Vec<Set> {
    let mut table = csv::Reader::from_path("tests/data/poisson_line_scipy.csv").expect("the table");
    let mut sets: Vec<Set> = Vec::new();
    for record in table.records() {
        let r = record.expect("a row");
        let n = |i: usize| r[i].parse::<f64>().expect("a number");
        if n(0) as usize == sets.len() {
            sets.push(Set { x: vec![], counts: vec![], intercept: n(3), slope: n(4) });
        }
        let set = sets.last_mut().expect("just pushed");
        set.x.push(n(1));
        set.counts.push(n(2));
    }
    sets
}

/// One replicate of 1 s a vial, so that rates are counts; no internal standard, no drift, no scatter between vials.
fn run_of(set: &Set) -> RunInput {
    let mut input = RunInput { name: "counts".into(), ..RunInput::default() };
    for (k, (x, counts)) in set.x.iter().zip(&set.counts).enumerate() {
        let role = if *x > 0.0 { Role::Standard } else { Role::CalibrationBlank };
        let mut vial = Vial::new(k as u32 + 1, &format!("level {k}"), role, k as f64);
        if *x > 0.0 {
            vial.assigned = vec![Assigned::new("Cd", Measured::new(*x, 0.0, Unit::known("ng/L")))];
        }
        input.readings.push(Reading::new(vial.position, Isotope::counting("Cd", 111, "low"), vec![*counts], 1.0));
        input.vials.push(vial);
    }
    input
}

#[test]
fn the_line_of_a_run_is_that_of_the_highest_likelihood() {
    let recipe = Recipe { between_vials: Some(0.0), intercept: Intercept::Free, ..Recipe::default() };
    let sets = sets();
    assert_eq!(sets.len(), 7, "the table was cut short");
    for set in &sets {
        let run = reduce(&run_of(set), &recipe).expect("a run of standards alone");
        let line = &run.analytes[0].line;
        let off = (line.slope / set.slope - 1.0).abs();
        // Where a blank expects less than one count the run takes one (none in this time is not none ever), and its line
        // is not that of the likelihood any more.
        if set.intercept < 1.0 {
            continue;
        }
        // Weights from the fitted line, iterated, solve the equations of the likelihood; both stop at about 1e-8.
        assert!(off < 1e-6, "slope {} against {}", line.slope, set.slope);
        let a = (line.intercept - set.intercept).abs();
        assert!(a < 1e-6 * line.slope, "intercept {} against {}", line.intercept, set.intercept);
    }
}
