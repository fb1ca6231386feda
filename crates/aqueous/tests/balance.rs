//! The charge balance of an analysis: by hand, by each rule, with non-detects, with what is missing.

use aqueous::analysis::{Analysis, Analyte};
use aqueous::balance::{Answer, Balance, Rule};
use aqueous::speciation::{Request, speciation};
use quantity::{Amount, Unit};

fn a(name: &str, amount: Amount) -> Analyte {
    Analyte { name: name.into(), amount, fraction: None }
}

fn meq(name: &str, value: f64, u: f64) -> Analyte {
    a(name, Amount::measured(value, u, Unit::known("meq/L")))
}

fn of(rule: Rule, analytes: Vec<Analyte>) -> Balance {
    let analysis = Analysis { temperature_c: 10.0, ph: Some(7.4), balance_rule: rule, analytes, ..Analysis::default() };
    speciation(&Request { analysis, ..Request::default() }).unwrap().balance.unwrap()
}

/// Ca 6, Mg 2, Na 1.5, K 0.1 against alkalinity `alkalinity`, Cl 1, SO4 3 meq/L, each with u 1 %.
fn hard(rule: Rule, alkalinity: f64) -> Balance {
    let one_percent = |n: &str, x: f64| meq(n, x, 0.01 * x);
    of(
        rule,
        vec![
            one_percent("Ca", 6.0),
            one_percent("Mg", 2.0),
            one_percent("Na", 1.5),
            one_percent("K", 0.1),
            one_percent("Cl", 1.0),
            one_percent("SO4", 3.0),
            one_percent("alkalinity", alkalinity),
        ],
    )
}

fn named(key: &str) -> Rule {
    Rule::named(key).unwrap()
}

#[test]
fn sums_difference_and_u_by_hand() {
    let b = hard(Rule::default(), 5.4);
    // 9.6 against 9.4 meq/L: 100·0.2/19.0. 1e-9: no rounding but that of doubles.
    assert!((b.cations.meq_l - 9.6).abs() < 1e-9 && (b.anions.meq_l - 9.4).abs() < 1e-9, "{b:?}");
    assert!((b.percent().unwrap() - 20.0 / 19.0).abs() < 1e-9);
    // u of the sums: 0.01·√(36 + 4 + 2.25 + 0.01) and 0.01·√(29.16 + 1 + 9); of the percent by both derivatives.
    let (uc, ua) = (0.01 * 42.26f64.sqrt(), 0.01 * 39.16f64.sqrt());
    assert!((b.cations.u - uc).abs() < 1e-12 && (b.anions.u - ua).abs() < 1e-12);
    let u = 200.0 / 361.0 * (9.4 * uc).hypot(9.6 * ua);
    assert!((b.u_percent() - u).abs() < 1e-9 && (0.4..0.6).contains(&u), "{u}");
    assert!(!b.u_assumed && b.judged().answer == Answer::Inside);
}

#[test]
fn complexes_do_not_move_it() {
    let s = |so4: f64| {
        let b = vec![
            meq("Ca", 30.0, 0.1),
            meq("Mg", 20.0, 0.1),
            meq("Na", 1.0, 0.1),
            meq("K", 0.1, 0.01),
            meq("Cl", 1.0, 0.1),
            meq("SO4", so4, 0.1),
            meq("alkalinity", 4.0, 0.1),
        ];
        let analysis = Analysis { temperature_c: 10.0, ph: Some(7.4), analytes: b, ..Analysis::default() };
        speciation(&Request { analysis, ..Request::default() }).unwrap()
    };
    // A gypsum water, 51.1 against 48.6 meq/L: 2.5 % as a sheet has it. A third of its charges stand in CaSO4 and MgSO4,
    // which have none, so that the same difference is a larger part of those of the species.
    let water = s(43.6);
    let b = water.balance.unwrap();
    assert!((b.percent().unwrap() - 250.0 / 99.7).abs() < 1e-9);
    assert!(water.sums.species_charge_percent > 1.2 * b.percent().unwrap(), "{:?}", water.sums);
    // What is left over is the same charge by either way: nothing stands in both sums.
    let species = water.sums.species_cations_meq_l - water.sums.species_anions_meq_l;
    assert!((species - 2.5).abs() < 1e-6, "{species}");
}

#[test]
fn alkalinity_counts_once_for_all_that_it_holds() {
    // Sulfide, borate, phosphate, silicate and ammonia of the alkalinity: the difference is that of all species.
    let analysis = Analysis {
        temperature_c: 12.0,
        ph: Some(9.2),
        analytes: vec![
            meq("Na", 8.0, 0.1),
            meq("Ca", 0.2, 0.1),
            meq("Mg", 0.1, 0.1),
            meq("K", 0.1, 0.01),
            meq("Cl", 1.0, 0.1),
            meq("SO4", 0.5, 0.1),
            meq("alkalinity", 6.5, 0.1),
            a("S(-II)", Amount::stated(0.5, Unit::known("mmol/L"))),
            a("B", Amount::stated(0.4, Unit::known("mmol/L"))),
            a("silica", Amount::stated(0.5, Unit::known("mmol/L"))),
            a("ammonia", Amount::stated(0.3, Unit::known("mmol/L"))),
            a("phosphate", Amount::stated(0.1, Unit::known("mmol/L"))),
        ],
        ..Analysis::default()
    };
    let s = speciation(&Request { analysis, ..Request::default() }).unwrap();
    let b = s.balance.unwrap();
    // Cations 8.4 and NH4 0.3; anions 8.0 and H2PO4 0.1.
    assert!((b.cations.meq_l - 8.7).abs() < 1e-9 && (b.anions.meq_l - 8.1).abs() < 1e-9, "{b:?}");
    // The solver's own balance holds to 1e-12 of the alkalinity.
    let species = s.sums.species_cations_meq_l - s.sums.species_anions_meq_l;
    assert!((species - 0.6).abs() < 1e-6, "{species}");
}

#[test]
fn each_rule_has_its_formula_and_gate() {
    // 9.6 against 9.0 meq/L: 3.2 % of the sum, 6.5 % of half of it.
    let answer = |key: &str, alkalinity: f64| {
        let b = hard(named(key), alkalinity);
        (b.percent().unwrap(), b.judged().gate.width, b.judged().answer)
    };
    let (p, gate, told) = answer("freeze-cherry", 5.0);
    assert!((p - 60.0 / 18.6).abs() < 1e-9 && told == Answer::Inside && (gate - 5.0).abs() < 1e-12);
    let (p, gate, told) = answer("standard-methods-1030-e", 5.0);
    assert!((p - 60.0 / 18.6).abs() < 1e-9 && told == Answer::Beyond && (gate - 2.0).abs() < 1e-12);
    let (p, gate, told) = answer("din-38402-62", 5.0);
    assert!((p - 120.0 / 18.6).abs() < 1e-9 && told == Answer::Beyond && (gate - 2.0).abs() < 1e-12);
    // Over 10 meq/L of anions Standard Methods allow 5 %, to 3 meq/L two tenths of a meq/L.
    assert!((answer("standard-methods-1030-e", 6.5).1 - 5.0).abs() < 1e-12);
    let dilute = of(
        named("standard-methods-1030-e"),
        [("Ca", 1.0), ("Mg", 0.5), ("Na", 0.3), ("K", 0.02), ("Cl", 0.3), ("SO4", 0.4), ("alkalinity", 1.0)]
            .map(|(n, x)| meq(n, x, 0.005 * x))
            .into(),
    );
    let j = dilute.judged();
    // 1.82 against 1.70 meq/L.
    assert!(j.gate.in_meq_l && (j.low - 0.12).abs() < 1e-9 && j.answer == Answer::Inside, "{j:?}");
    assert!(Rule::named("a rule of nobody").is_none());
    assert_eq!(Rule::with_gate(5.0), Rule::default());
    let own = hard(Rule::with_gate(3.0), 5.0);
    assert_eq!((own.judged().answer, own.rule.key.as_str()), (Answer::CannotTell, "programme"));
}

#[test]
fn within_u_of_the_gate_it_cannot_be_told() {
    // u is 0.5 %: alkalinity moves the difference over 5 %.
    let told = |alkalinity: f64| hard(Rule::default(), alkalinity).judged();
    for (alkalinity, want) in
        [(4.8, Answer::Inside), (4.72, Answer::CannotTell), (4.65, Answer::CannotTell), (4.4, Answer::Beyond)]
    {
        let j = told(alkalinity);
        assert_eq!(j.answer, want, "{alkalinity}: {j:?}");
        assert_eq!((j.low.abs() - 5.0).abs() <= j.u, want == Answer::CannotTell);
    }
}

#[test]
fn a_major_ion_that_was_not_detected_gives_a_range() {
    let with = |so4: Amount| {
        let amounts = [("Ca", 3.0), ("Mg", 1.0), ("Na", 1.0), ("K", 0.1), ("Cl", 1.0), ("alkalinity", 4.0)];
        let mut list: Vec<Analyte> = amounts.map(|(n, x)| meq(n, x, 0.01 * x)).into();
        list.push(a("SO4", so4));
        of(Rule::default(), list)
    };
    // 5.1 against 5.0 to 5.8 meq/L: from 1.0 to −6.4 %, on both sides of the gate.
    let b = with(Amount::below(0.8, Unit::known("meq/L")));
    let (low, high) = b.range_percent();
    assert!((low + 70.0 / 10.9).abs() < 1e-9 && (high - 10.0 / 10.1).abs() < 1e-9, "{low} {high}");
    assert_eq!((b.percent(), b.judged().answer), (None, Answer::CannotTell));
    // A limit that decides nothing leaves the answer, and is no part of the sum.
    let b = with(Amount::below(0.01, Unit::known("meq/L")));
    assert!((b.anions.meq_l - 5.0).abs() < 1e-9 && b.percent().is_some());
    assert_eq!(b.judged().answer, Answer::Inside);
    // Both ends beyond the gate: what was not detected cannot mend it.
    let b = of(
        Rule::default(),
        [("Ca", 6.0), ("Mg", 1.0), ("Na", 1.0), ("K", 0.1), ("Cl", 1.0), ("alkalinity", 4.0)]
            .map(|(n, x)| meq(n, x, 0.01 * x))
            .into_iter()
            .chain([a("SO4", Amount::below(0.8, Unit::known("meq/L")))])
            .collect(),
    );
    assert_eq!((b.percent(), b.judged().answer), (None, Answer::Beyond));
    // More than can be measured has no end.
    let b = with(Amount::above(0.5, Unit::known("meq/L")));
    assert!((b.range_percent().0 + 100.0).abs() < 1e-12 && b.judged().answer == Answer::CannotTell);
}

#[test]
fn without_a_major_ion_it_cannot_be_told() {
    let list = |names: &[&str]| -> Vec<Analyte> { names.iter().map(|n| meq(n, 1.0, 0.01)).collect() };
    let b = of(Rule::default(), list(&["Ca", "Mg", "Na", "K", "Cl", "SO4"]));
    assert_eq!((b.lacks_carbon, b.judged().answer), (true, Answer::CannotTell));
    let b = of(Rule::default(), list(&["Ca", "Mg", "Na", "K", "Cl", "alkalinity"]));
    assert_eq!((b.lacking.clone(), b.judged().answer), (vec!["SO4"], Answer::CannotTell));
    // An acid water holds no alkalinity; its acid is a cation.
    let acid = Analysis {
        temperature_c: 10.0,
        ph: Some(3.0),
        analytes: list(&["Ca", "Mg", "Na", "K", "Cl", "SO4"]),
        ..Analysis::default()
    };
    let b = speciation(&Request { analysis: acid, ..Request::default() }).unwrap().balance.unwrap();
    // 4 meq/L and what is free of 1 mmol/L of H+ at pH 3 (activity coefficient 0.93 and HSO4− aside): 5.0 to 5.1.
    assert!(!b.lacks_carbon && (5.0..5.15).contains(&b.cations.meq_l), "{b:?}");
}

#[test]
fn a_sheet_in_mg_l_by_equivalent_weights() {
    // Invented figures, reckoned as a sheet does: mg/L over the mass of an equivalent (20.04, 12.15, 22.99, 39.10, 50.04,
    // 35.45, 48.03, 14.01 mg; Standard Methods 1030 E, from memory).
    let mg_l = |n: &str, x: f64, unit: &str| a(n, Amount::stated(x, Unit::known(unit)));
    let b = of(
        named("standard-methods-1030-e"),
        vec![
            mg_l("Ca", 53.0, "mg/L"),
            mg_l("Mg", 12.0, "mg/L"),
            mg_l("Na", 22.0, "mg/L"),
            mg_l("K", 2.4, "mg/L"),
            mg_l("alkalinity", 185.0, "mg/L as CaCO3"),
            mg_l("Cl", 20.0, "mg/L"),
            mg_l("SO4", 20.0, "mg/L"),
            mg_l("nitrate", 2.3, "mg/L as N"),
        ],
    );
    let cations = 53.0 / 20.04 + 12.0 / 12.15 + 22.0 / 22.99 + 2.4 / 39.10;
    let anions = 185.0 / 50.04 + 20.0 / 35.45 + 20.0 / 48.03 + 2.3 / 14.01;
    // Half a thousandth: equivalents to four digits.
    assert!((b.cations.meq_l / cations - 1.0).abs() < 5e-4 && (b.anions.meq_l / anions - 1.0).abs() < 5e-4, "{b:?}");
    assert!(b.u_assumed);
}
