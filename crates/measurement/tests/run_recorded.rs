//! What is recorded of bottles, stocks and dilutions is used: held against closed forms, against the change that a small
//! change of the input makes, and against runs whose truth is known.

use crate::common;

use common::*;
use measurement::run::{self, *};
use quantity::{Check, Outcome};

fn reduced(input: &RunInput, recipe: &Recipe) -> ReducedRun {
    run::reduce(input, recipe).expect("a simulated run")
}

fn sample<'a>(run: &'a ReducedRun, element: &str) -> &'a RunResult {
    run.results.iter().find(|r| r.role == Role::Sample && r.analyte.element == element).expect("a sample")
}

fn part(r: &RunResult, name: &str) -> f64 {
    r.budget.iter().find(|c| c.input == name).map_or(0.0, |c| c.u)
}

fn outcomes(run: &ReducedRun, check: Check, element: &str) -> Vec<Outcome> {
    let of = |f: &&RunFinding| f.finding.check == check && f.analyte.as_ref().is_none_or(|a| a.element == element);
    run.findings.iter().filter(of).map(|f| f.finding.outcome).collect()
}

/// Every bottle holds its water, acid and their u; no vial is diluted.
fn with_acid(input: &mut RunInput, acid_ml: f64) {
    for v in input.vials.iter_mut().filter(|v| matches!(v.role, Role::Sample | Role::FieldBlank | Role::FieldSpike)) {
        v.bottle = Some(v.name.clone());
        v.bottle_volume_ml = Some(BOTTLE_ML);
        v.acid_ml = Some(acid_ml);
    }
}

#[test]
fn acid_thins_water_and_blanks_alike() {
    let input = simulate(&Setting::default(), 31);
    let mut acid = input.clone();
    with_acid(&mut acid, 5.0);
    let (a, b) = (reduced(&input, &recipe(&Setting::default())), reduced(&acid, &recipe(&Setting::default())));
    for (x, y) in a.results.iter().zip(&b.results).filter(|(x, _)| x.role == Role::Sample) {
        // Volumes by hand: 255 mL of solution hold the metal of 250 mL of water, in sample and blank alike.
        assert!((y.net.value / x.net.value - 255.0 / 250.0).abs() < 1e-12);
        let (taken, was) = (y.blank.as_ref().unwrap(), x.blank.as_ref().unwrap());
        assert!((taken.mean.value / was.mean.value - 255.0 / 250.0).abs() < 1e-12);
    }
}

/// Share of intervals that hold the truth, over runs and samples.
fn coverage(setting: &Setting, runs: u64, forget: bool) -> f64 {
    let (mut inside, mut all) = (0, 0);
    for seed in 0..runs {
        let mut input = simulate(setting, 5000 + seed);
        if forget {
            input.vials.iter_mut().for_each(|v| v.acid_ml = None);
        }
        for r in reduced(&input, &recipe(setting)).results.iter().filter(|r| r.role == Role::Sample) {
            let truth = setting.truths.iter().find(|t| t.element == r.analyte.element).unwrap().water;
            all += 1;
            inside += i32::from((r.interval[0]..=r.interval[1]).contains(&truth));
        }
    }
    f64::from(inside) / f64::from(all)
}

#[test]
fn intervals_hold_the_water_where_acid_is_recorded_and_miss_it_where_it_is_not() {
    let setting = Setting {
        truths: vec![Truth { water: 5.0, ..lead() }],
        acid_ml: 5.0,
        between_vials: 0.003,
        ..Setting::default()
    };
    let (told, untold) = (coverage(&setting, 250, false), coverage(&setting, 250, true));
    // 1000 intervals that share a line four by four: a standard error near 0.01 for 0.95.
    assert!((0.92..=0.98).contains(&told), "{told}");
    assert!(untold < 0.75, "{untold}");
}

#[test]
fn acid_that_nobody_wrote_down_is_told_with_what_it_would_move() {
    let setting = Setting::default();
    let mut input = simulate(&setting, 32);
    with_acid(&mut input, 0.5);
    let told = reduced(&input, &recipe(&setting));
    assert!(outcomes(&told, Check::BottleAcid, "Pb").iter().all(|o| *o == Outcome::Met));
    for v in &mut input.vials {
        v.acid_ml = None;
    }
    let untold = reduced(&input, &recipe(&setting));
    let found = sample(&untold, "Pb");
    let f = untold.findings_of(untold.find(found.position, &found.analyte).unwrap());
    let f: Vec<_> = f.filter(|f| f.finding.check == Check::BottleAcid).collect();
    assert_eq!(f.len(), 1);
    assert_eq!(f[0].finding.outcome, Outcome::NotKnown);
    let one = quantity::format::significant(0.01 * found.gross.value, 2);
    assert!(f[0].finding.sentence.contains(&one), "{} holds {one}", f[0].finding.sentence);
    // Water and acid, and nobody knows how much water.
    for v in input.vials.iter_mut().filter(|v| v.bottle.is_some()) {
        (v.acid_ml, v.bottle_volume_ml) = (Some(0.5), None);
    }
    let lost = outcomes(&reduced(&input, &recipe(&setting)), Check::BottleAcid, "Pb");
    assert!(!lost.is_empty() && lost.iter().all(|o| *o == Outcome::NotKnown));
}

/// The budget's part against half the change of the result when one bottle's record moves by ± u.
fn moves(input: &RunInput, recipe: &Recipe, name: &str, change: &dyn Fn(&mut Vial, f64)) {
    let base = reduced(input, recipe);
    let first = sample(&base, "Pb").clone();
    let at = |sign: f64| {
        let mut i = input.clone();
        i.vials.iter_mut().filter(|v| v.bottle.is_some() && v.bottle == first.bottle).for_each(|v| change(v, sign));
        sample(&reduced(&i, recipe), "Pb").net.value
    };
    let (moved, budget) = ((at(1.0) - at(-1.0)).abs() / 2.0, part(&first, name));
    // First order in changes of a percent or two of a volume: the rest is of third order.
    assert!((budget / moved - 1.0).abs() < 2e-3, "{name}: {budget} against {moved}");
}

#[test]
fn u_of_volume_and_acid_is_what_a_change_of_each_does() {
    let setting = Setting::default();
    let mut input = simulate(&setting, 33);
    with_acid(&mut input, 5.0);
    for v in input.vials.iter_mut().filter(|v| v.bottle.is_some()) {
        (v.u_bottle_volume_ml, v.u_acid_ml) = (2.5, Some(0.1));
    }
    let acid = |v: &mut Vial, sign: f64| v.acid_ml = v.acid_ml.map(|x| x + sign * 0.1);
    let volume = |v: &mut Vial, sign: f64| v.bottle_volume_ml = v.bottle_volume_ml.map(|x| x + sign * 2.5);
    for scale in [BlankScale::Concentration, BlankScale::MassPerBottle] {
        let mut r = recipe(&setting);
        r.blank.scale = scale;
        moves(&input, &r, "acid in the bottle", &acid);
        moves(&input, &r, "volume of water in the bottle", &volume);
    }
    // Without a u of its own a twentieth of the acid is taken: 0.25 mL of 5 mL in 250 mL is 0.1 % of the solution.
    input.vials.iter_mut().for_each(|v| v.u_acid_ml = None);
    let run = reduced(&input, &recipe(&setting));
    let r = sample(&run, "Pb");
    assert!((part(r, "acid in the bottle") / (r.gross.value / 1.02 * 0.001) - 1.0).abs() < 1e-9);
}

#[test]
fn a_dilution_by_mass_of_dense_water_is_reckoned_by_volume() {
    let setting = Setting::default();
    let mut input = simulate(&setting, 34);
    let position = sample(&reduced(&input, &recipe(&setting)), "Pb").position;
    let at = |density: Option<f64>, input: &mut RunInput| {
        let v = input.vials.iter_mut().find(|v| v.position == position).unwrap();
        (v.dilution, v.density_kg_l) = (Factor::new(10.0, 0.0), density);
        sample(&reduced(input, &recipe(&setting)), "Pb").gross.value
    };
    let by_mass = at(None, &mut input);
    let by_volume = at(Some(1.2), &mut input);
    // By hand: 1 g of brine of 1.2 kg/L is 0.8333 mL, 9 g of diluent of 1.003 kg/L are 8.9731 mL; together 11.767 times
    // the brine.
    assert!((by_volume / by_mass - (0.833_333 + 8.973_081) / 0.833_333 / 10.0).abs() < 1e-5);
}

#[test]
fn volumes_that_no_bottle_has_are_refused_by_name() {
    let setting = Setting::default();
    let mut input = simulate(&setting, 35);
    with_acid(&mut input, 0.5);
    let k = input.vials.iter().position(|v| v.role == Role::Sample).unwrap();
    #[allow(clippy::type_complexity, reason = "a table of this test alone")]
    let changes: [(&str, fn(&mut Vial)); 5] = [
        ("acid_mL", |v| v.acid_ml = Some(-0.5)),
        ("volume_mL", |v| v.bottle_volume_ml = Some(0.0)),
        ("density_kg_L", |v| v.density_kg_l = Some(f64::NAN)),
        ("u_volume_mL", |v| v.u_bottle_volume_ml = -1.0),
        ("u_acid_mL", |v| v.u_acid_ml = Some(f64::INFINITY)),
    ];
    for (name, change) in changes {
        let mut wrong = input.clone();
        change(&mut wrong.vials[k]);
        let e = run::reduce(&wrong, &recipe(&setting)).unwrap_err();
        let says = e.to_string();
        assert!(says.contains(name) && says.contains(&input.vials[k].name), "{says}");
    }
}

#[test]
fn two_metals_of_one_vial_share_its_dilution() {
    let setting = Setting { truths: vec![lead(), cadmium()], ..Setting::default() };
    let ratio_u = |u_dilution: f64| {
        let mut input = simulate(&setting, 36);
        for v in input.vials.iter_mut().filter(|v| v.role == Role::Sample) {
            v.dilution = Factor::new(1.5, 1.5 * u_dilution);
        }
        let run = reduced(&input, &recipe(&setting));
        let (a, b) = (sample(&run, "Pb").clone(), sample(&run, "Cd").clone());
        let of = |r: &RunResult| run.find(r.position, &r.analyte).unwrap();
        let shared = run.covariance(of(&a), of(&b));
        assert!((shared - run.covariance(of(&b), of(&a))).abs() <= 1e-15 * shared.abs());
        let relative = |x: &RunResult| x.net.u / x.net.value;
        let alone = relative(&a).hypot(relative(&b));
        (alone, (alone * alone - 2.0 * shared / (a.net.value * b.net.value)).sqrt())
    };
    let (_, exact) = ratio_u(0.0);
    let (alone, together) = ratio_u(0.02);
    // Taken as independent, 2 % of dilution enters twice; together it cancels but for the blanks, a twelfth of the gross
    // value, which were not diluted: (0.02·0.08)² beside what is left.
    assert!(alone > (exact * exact + 2.0 * 0.02 * 0.02).sqrt());
    assert!((together / exact - 1.0).abs() < 0.03, "{together} against {exact}");
}

#[test]
fn metals_share_the_dead_time_and_the_internal_standard() {
    let setting = Setting { truths: vec![cadmium(), molybdenum()], dead_time_ns: 50.0, ..Setting::default() };
    let input = simulate(&setting, 45);
    let mut r = recipe(&setting);
    r.dead_time.u_ns = 5.0;
    let base = reduced(&input, &r);
    let of = |run: &ReducedRun, element: &str, skip: usize| {
        let samples = run.results.iter().enumerate();
        let mut samples = samples.filter(|(_, x)| x.role == Role::Sample && x.analyte.element == element);
        samples.nth(skip).expect("a sample").0
    };
    // In two vials the dead time alone: the product of what it does to each, which `run_invariance` holds against moving it.
    let (a, b) = (of(&base, "Cd", 0), of(&base, "Mo", 1));
    let want = part(&base.results[a], "dead time") * part(&base.results[b], "dead time");
    assert!(want > 0.0 && (base.covariance(a, b).abs() / want - 1.0).abs() < 1e-9);

    // In one vial, dead time known: both are divided by the same counts of indium, whose relative variance is one over
    // their number (Poisson).
    r.dead_time.u_ns = 0.0;
    let run = reduced(&input, &r);
    let (a, b) = (of(&run, "Cd", 0), of(&run, "Mo", 0));
    let (cd, mo) = (&run.results[a], &run.results[b]);
    assert_eq!(cd.position, mo.position);
    let indium = input.readings.iter().find(|x| x.position == cd.position && x.isotope.element == "In").unwrap();
    let counts: f64 = indium.rates_cps.iter().map(|x| x * indium.integration_s).sum();
    let whole = |x: &RunResult| {
        let line = &run.analytes.iter().find(|s| s.analyte == x.analyte).unwrap().line;
        x.gross.value + line.intercept / line.slope
    };
    let want = whole(cd) * whole(mo) / counts;
    // Drift beyond the internal standard is a few percent of the sensitivity; dead time takes 0.3 % of the indium.
    assert!((run.covariance(a, b) / want - 1.0).abs() < 0.01, "{} against {want}", run.covariance(a, b));
}

/// Standards made by diluting one stock ten times and more; the line takes each value over its dilution.
fn diluted_standards(input: &mut RunInput, u_dilution: f64, u_stock: f64, stock: Option<&str>) {
    for v in input.vials.iter_mut().filter(|v| v.role == Role::Standard) {
        v.dilution = Factor::new(10.0, 10.0 * u_dilution);
        for a in &mut v.assigned {
            a.amount.value *= 10.0;
            a.amount.u = a.amount.value * u_stock;
            (a.stock, a.side) = (stock.map(Into::into), Some(AssignedSide::InTheBottle));
        }
    }
}

const ASSIGNED: &str = "assigned values of the standards";

#[test]
fn a_dilution_is_each_standards_own_and_the_stock_is_one_for_all() {
    let setting = Setting::default();
    let mut input = simulate(&setting, 37);
    diluted_standards(&mut input, 0.01, 0.0, Some("A"));
    let run = reduced(&input, &recipe(&setting));
    let budget = part(sample(&run, "Pb"), ASSIGNED);
    // Each dilution moved by its u alone: the squares of what that does to the result add up. The weights stay, since
    // they come from u, not from the value.
    let mut sum = 0.0;
    for position in input.vials.iter().filter(|v| v.role == Role::Standard).map(|v| v.position) {
        let at = |sign: f64| {
            let mut i = input.clone();
            let v = i.vials.iter_mut().find(|v| v.position == position).unwrap();
            v.dilution.value += sign * 0.1;
            sample(&reduced(&i, &recipe(&setting)), "Pb").net.value
        };
        sum += ((at(1.0) - at(-1.0)) / 2.0).powi(2);
    }
    // A percent of x moves the weights a little as well.
    assert!((budget / sum.sqrt() - 1.0).abs() < 0.05, "{budget} against {}", sum.sqrt());

    // The stock moves all levels together: 1 % of it is 1 % of every result, however many levels there are.
    let mut one = simulate(&setting, 37);
    diluted_standards(&mut one, 0.0, 0.01, Some("A"));
    let run = reduced(&one, &recipe(&setting));
    let r = sample(&run, "Pb");
    assert!((part(r, ASSIGNED) / (0.01 * r.net.value) - 1.0).abs() < 0.01);
}

#[test]
fn standards_that_name_no_stock_are_taken_as_of_one() {
    let setting = Setting::default();
    let at = |stock: Option<&str>| {
        let mut input = simulate(&setting, 38);
        diluted_standards(&mut input, 0.0, 0.02, stock);
        let run = reduced(&input, &recipe(&setting));
        (sample(&run, "Pb").net.clone(), outcomes(&run, Check::RunStock, "Pb"))
    };
    let (named, met) = at(Some("A"));
    let (unnamed, told) = at(None);
    assert_eq!(named, unnamed);
    assert_eq!((met, told), (vec![Outcome::Met], vec![Outcome::NotKnown]));
}

#[test]
fn the_side_of_an_assigned_value_is_said_or_told() {
    let setting = Setting::default();
    let at = |side: Option<AssignedSide>, factor: f64| {
        let mut input = simulate(&setting, 39);
        diluted_standards(&mut input, 0.0, 0.01, Some("A"));
        for a in input.vials.iter_mut().filter(|v| v.role == Role::Standard).flat_map(|v| &mut v.assigned) {
            a.amount.value /= factor;
            a.amount.u /= factor;
            a.side = side;
        }
        let run = reduced(&input, &recipe(&setting));
        (sample(&run, "Pb").net.value, outcomes(&run, Check::RunAssignedSide, "Pb"))
    };
    let (before, said) = at(Some(AssignedSide::InTheBottle), 1.0);
    let (after, also_said) = at(Some(AssignedSide::AsMeasured), 10.0);
    let (unsaid, told) = at(None, 1.0);
    // The same solutions said in two ways; unsaid is taken as in the bottle.
    assert!((before / after - 1.0).abs() < 1e-12 && before.total_cmp(&unsaid).is_eq());
    assert!(said.is_empty() && also_said.is_empty());
    assert_eq!(told, [Outcome::NotKnown]);
    let words = serde_json::to_string(&AssignedSide::AsMeasured).unwrap();
    assert_eq!(words, "\"as measured\"");
}

#[test]
fn another_source_shows_a_stock_that_errs_and_leaves_a_good_one_alone() {
    let setting = Setting { truths: vec![lead()], references: 3, ..Setting::default() };
    assert_eq!(
        outcomes(&reduced(&simulate(&Setting::default(), 40), &recipe(&setting)), Check::RunSecondSource, "Pb"),
        [Outcome::NotKnown]
    );
    let runs = 300;
    let (mut false_alarms, mut seen) = (0, 0);
    for seed in 0..runs {
        let mut input = simulate(&setting, 7000 + seed);
        // Its certificate errs by its own u of half a percent.
        let certificate = 1.0 + 0.005 * Random::new(90_000 + seed).normal();
        for a in input.vials.iter_mut().filter(|v| v.role == Role::ReferenceMaterial).flat_map(|v| &mut v.assigned) {
            a.amount.value *= certificate;
            a.amount.u = 0.005 * a.amount.value;
        }
        let differs =
            |i: &RunInput| outcomes(&reduced(i, &recipe(&setting)), Check::RunSecondSource, "Pb") == [Outcome::NotMet];
        false_alarms += i32::from(differs(&input));
        for a in input.vials.iter_mut().filter(|v| v.role == Role::Standard).flat_map(|v| &mut v.assigned) {
            a.amount.value *= 1.05;
            a.amount.u *= 1.05;
        }
        seen += i32::from(differs(&input));
    }
    let share = |n: i32| f64::from(n) / runs as f64;
    // 5 % by design (95 % coverage); 300 runs have a standard error of 1.3 %.
    assert!(share(false_alarms) <= 0.08, "{}", share(false_alarms));
    // Some four times the u of the difference (stock and certificate half a percent each, vials, drift and counts as
    // much again): a normal law would miss 2 %, the few degrees of freedom of drift and vials a few more.
    assert!(share(seen) > 0.9, "{}", share(seen));
}

#[test]
fn a_material_of_the_standards_own_stock_is_no_second_source() {
    let setting = Setting { truths: vec![lead()], references: 2, ..Setting::default() };
    let mut input = simulate(&setting, 41);
    for a in input.vials.iter_mut().flat_map(|v| &mut v.assigned) {
        a.stock = Some("mixed".into());
    }
    assert_eq!(outcomes(&reduced(&input, &recipe(&setting)), Check::RunSecondSource, "Pb"), [Outcome::NotKnown]);
}

#[test]
fn spikes_of_one_water_share_the_unspiked_bottle() {
    let setting = Setting { truths: vec![lead()], spikes: 3, u_standards: 0.0, ..Setting::default() };
    let mut r = recipe(&setting);
    r.recovery = Recovery::FieldSpikes;
    let (mut values, mut stated) = (vec![], 0.0);
    let runs = 400;
    for seed in 0..runs {
        let mut input = simulate(&setting, 8000 + seed);
        for v in input.vials.iter_mut().filter(|v| v.role == Role::FieldSpike) {
            v.of = Some("sample 0".into());
        }
        let run = reduced(&input, &r);
        let recovery = sample(&run, "Pb").recovery.clone().unwrap();
        values.push(recovery.value);
        stated += recovery.u.powi(2) / runs as f64;
    }
    let mean = values.iter().sum::<f64>() / runs as f64;
    let variance = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (runs as f64 - 1.0);
    // The unspiked bottle errs in all three: σ²(1/3 + 1), not σ²(1/3 + 1/3). Taken as independent u would be 30 % too
    // small; 400 runs tell a standard deviation to 3.5 %, and estimates of u from six blanks widen that.
    let ratio = stated.sqrt() / variance.sqrt();
    assert!((0.88..1.15).contains(&ratio), "{ratio}");
}

#[test]
fn a_recovery_is_divided_out_of_waters_alone_and_what_stood_before_it_is_kept() {
    let setting = Setting { references: 2, ..Setting::default() };
    let mut r = recipe(&setting);
    // Waters and materials share a blank.
    (r.blank.samples, r.blank.reference) = (Role::FieldBlank, Role::FieldBlank);
    let input = simulate(&setting, 42);
    let plain = reduced(&input, &r);
    r.recovery = Recovery::Given { values: vec![GivenRecovery { element: "Pb".into(), value: 0.9, u: 0.01 }] };
    let divided = reduced(&input, &r);
    for (x, y) in plain.results.iter().zip(&divided.results).filter(|(x, _)| x.analyte.element == "Pb") {
        match x.role {
            Role::Sample => {
                assert_eq!(y.net_before_recovery.as_ref(), Some(&x.net));
                assert!((y.net.value - x.net.value / 0.9).abs() < 1e-12 * x.net.value.abs());
            }
            Role::ReferenceMaterial => {
                assert_eq!((&y.recovery, &y.net_before_recovery), (&None, &None));
                assert_eq!((y.net.clone(), y.limits), (x.net.clone(), x.limits));
            }
            _ => {}
        }
    }
    // The derivation shows it with its u.
    let k = (0..divided.results.len()).find(|k| divided.results[*k].net_before_recovery.is_some()).unwrap();
    let before = divided.results[k].net_before_recovery.clone().unwrap();
    let nodes = divided.derivation(k);
    assert!(nodes.nodes.iter().any(|n| n.amount.u() == Some(before.u) && n.amount.value() == Some(before.value)));
}

#[test]
fn a_blank_as_mass_does_not_cancel_between_bottles_of_different_volume() {
    let setting = Setting { truths: vec![lead()], ..Setting::default() };
    let mut input = simulate(&setting, 43);
    with_acid(&mut input, 0.0);
    for v in &mut input.vials {
        if v.name == "sample 1" {
            (v.role, v.of, v.bottle_volume_ml) = (Role::Duplicate, Some("sample 0".into()), Some(BOTTLE_ML / 2.0));
        }
    }
    let mut r = recipe(&setting);
    r.blank.scale = BlankScale::MassPerBottle;
    let run = reduced(&input, &r);
    let at = |name: &str| run.results.iter().find(|x| x.vial == name).unwrap().clone();
    let (a, b) = (at("sample 0"), at("sample 1"));
    let shared = run.covariance(run.find(a.position, &a.analyte).unwrap(), run.find(b.position, &b.analyte).unwrap());
    // u of a difference by the covariance of both, which holds the mean of the blanks, divided by each volume.
    let want = (a.net.u.powi(2) + b.net.u.powi(2) - 2.0 * shared).sqrt();
    assert!((run.duplicates[0].difference.u / want - 1.0).abs() < 1e-9);
}

#[test]
fn the_derivation_names_acid_volume_and_reproducibility() {
    let setting = Setting::default();
    let mut input = simulate(&setting, 44);
    with_acid(&mut input, 5.0);
    for v in input.vials.iter_mut().filter(|v| v.role == Role::Sample) {
        (v.dilution, v.density_kg_l) = (Factor::new(2.0, 0.002), Some(1.01));
    }
    let run = reduced(&input, &recipe(&setting));
    let r = sample(&run, "Pb");
    let d = run.derivation(run.find(r.position, &r.analyte).unwrap());
    let node =
        |words: &str| d.nodes.iter().find(|n| n.name.starts_with(words)).unwrap_or_else(|| panic!("no node {words}"));
    let acid = node("acid in the bottle");
    assert!((acid.amount.value().unwrap() - 1.02).abs() < 1e-12);
    assert!((node("volume V of water").amount.value().unwrap() - BOTTLE_ML).abs() < 1e-12);
    assert!(node("density ρ").amount.value() == Some(1.01));
    assert!(node("reproducibility between vials").amount.u().unwrap() > 0.0);
}
