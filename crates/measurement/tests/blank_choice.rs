//! Only blanks that met what a bottle met are taken off it; where no kind met all, the value is an upper bound.

use crate::common;

use common::*;
use measurement::run::{self, *};
use quantity::{Amount, Check, Outcome};

fn positions(input: &RunInput, role: Role) -> Vec<u32> {
    input.vials.iter().filter(|v| v.role == role).map(|v| v.position).collect()
}

/// A run with three trip blanks and three field blanks of six, and its recipe.
fn run_with_trip_blanks() -> (RunInput, Recipe) {
    let s = Setting { truths: vec![lead()], dead_time_ns: 0.0, ..Setting::default() };
    let mut input = simulate(&s, 11);
    let blanks = positions(&input, Role::FieldBlank);
    for v in input.vials.iter_mut().filter(|v| blanks[..3].contains(&v.position)) {
        v.role = Role::TripBlank;
    }
    (input, recipe(&s))
}

fn choose(input: &mut RunInput, sample: usize, choices: Vec<BlankChoice>) -> u32 {
    let position = positions(input, Role::Sample)[sample];
    let vial = input.vials.iter_mut().find(|v| v.position == position).unwrap();
    vial.blank_choices = choices;
    position
}

fn choice(role: Role, blanks: &[u32], met_all: bool) -> BlankChoice {
    BlankChoice { role, blanks: blanks.to_vec(), met_all }
}

fn at(run: &ReducedRun, position: u32) -> usize {
    run.results.iter().position(|r| r.position == position).unwrap()
}

fn mean_gross(run: &ReducedRun, positions: &[u32]) -> f64 {
    positions.iter().map(|p| run.results[at(run, *p)].gross.value).sum::<f64>() / positions.len() as f64
}

#[test]
fn all_blanks_of_the_recipe_are_the_recipe() {
    let (mut input, recipe) = run_with_trip_blanks();
    let plain = reduce(&input, &recipe).unwrap();
    let field = positions(&input, Role::FieldBlank);
    choose(&mut input, 0, vec![choice(Role::FieldBlank, &field, true)]);
    let chosen = reduce(&input, &recipe).unwrap();
    assert_eq!((plain.results, plain.findings), (chosen.results, chosen.findings));
}

#[test]
fn without_a_blank_of_its_air_the_value_is_a_bound() {
    let (mut input, recipe) = run_with_trip_blanks();
    let (field, trip) = (positions(&input, Role::FieldBlank), positions(&input, Role::TripBlank));
    let open = vec![choice(Role::FieldBlank, &[], true), choice(Role::TripBlank, &trip, false)];
    let position = choose(&mut input, 0, open);
    let run = reduce(&input, &recipe).unwrap();
    let r = &run.results[at(&run, position)];
    let by = |blanks: &[u32]| r.gross.value - mean_gross(&run, blanks);
    // Rounding of a mean and a difference.
    assert!((r.net.value - by(&trip)).abs() < 1e-12 && r.bears == Bears::AtMost, "{r:?}");
    let other = r.by_recipe.as_ref().unwrap();
    assert!((other.net.value - by(&field)).abs() < 1e-12 && (other.role, other.n) == (Role::FieldBlank, 3));
    // One-sided: net + t(0.95, ν)·u, with the quantile of the project's own tables, checked elsewhere against scipy.
    let t = statistics::t::upper_quantile(0.05, r.net.dof);
    assert!((r.upper_bound - (r.net.value + t * r.net.u)).abs() < 1e-12);
    assert_eq!(r.blank.as_ref().map(|b| (b.role, b.n)), Some((Role::TripBlank, 3)));
    // The derivation ends in the bound, and both values stand in it under names of their own.
    let d = run.derivation(at(&run, position));
    let last = d.nodes.last().unwrap();
    assert!(matches!(last.amount, Amount::Below(_)) && last.inputs.len() == 2, "{last:?}");
    let names: Vec<String> = d.nodes.iter().map(|n| n.name.clone()).collect();
    assert!(names.iter().any(|n| n.contains("3 field blanks")), "{names:?}");
    // The others stand on the recipe's rule as ever.
    let next = &run.results[at(&run, positions(&input, Role::Sample)[1])];
    assert_eq!((next.bears, next.by_recipe.is_none()), (Bears::Value, true));
}

#[test]
fn a_part_of_a_kind_is_a_set_of_its_own() {
    let (mut input, recipe) = run_with_trip_blanks();
    let field = positions(&input, Role::FieldBlank);
    let position = choose(&mut input, 0, vec![choice(Role::FieldBlank, &field[..2], true)]);
    let next = choose(&mut input, 1, vec![choice(Role::FieldBlank, &field[1..], true)]);
    let run = reduce(&input, &recipe).unwrap();
    let (a, b) = (at(&run, position), at(&run, next));
    let r = &run.results[a];
    assert!((r.net.value - (r.gross.value - mean_gross(&run, &field[..2]))).abs() < 1e-12);
    assert_eq!((r.bears, r.blank.as_ref().unwrap().n), (Bears::Value, 2));
    let few = |i: usize| {
        run.findings_of(i).any(|f| f.finding.check == Check::RunBlankCount && f.finding.outcome == Outcome::NotMet)
    };
    assert!(few(a) && few(b));
    // One blank in both sets: they share less than with one set, and more than with none in common.
    let mut same = input.clone();
    choose(&mut same, 1, vec![choice(Role::FieldBlank, &field[..2], true)]);
    let same = reduce(&same, &recipe).unwrap();
    let mut none = input.clone();
    let trip = positions(&none, Role::TripBlank);
    choose(&mut none, 1, vec![choice(Role::TripBlank, &trip, false)]);
    let none = reduce(&none, &recipe).unwrap();
    let shared = |run: &ReducedRun| run.covariance(a, b);
    assert!(
        shared(&same) > shared(&run) && shared(&run) > shared(&none),
        "{} {} {}",
        shared(&same),
        shared(&run),
        shared(&none)
    );
}

#[test]
fn where_nothing_met_it_nothing_is_taken_off() {
    let (mut input, recipe) = run_with_trip_blanks();
    let position =
        choose(&mut input, 0, vec![choice(Role::FieldBlank, &[], true), choice(Role::TripBlank, &[], false)]);
    let run = reduce(&input, &recipe).unwrap();
    let r = &run.results[at(&run, position)];
    assert_eq!((r.net.value, r.bears, r.blank.is_none()), (r.gross.value, Bears::AtMost, true));
}

#[test]
fn a_kind_that_the_run_has_not_is_refused_as_ever() {
    let (mut input, recipe) = run_with_trip_blanks();
    let trip = positions(&input, Role::TripBlank);
    choose(&mut input, 0, vec![choice(Role::TripBlank, &trip, false)]);
    for v in input.vials.iter_mut().filter(|v| v.role == Role::FieldBlank) {
        v.role = Role::ProceduralBlank;
    }
    assert!(matches!(run::reduce(&input, &recipe), Err(Error::TooFewBlanks { .. })));
}
