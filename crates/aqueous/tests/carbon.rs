//! Carbon as laboratories report it: HCO3, CO3, CO2, alkalinity, acidity, told apart.

use aqueous::analysis::{Analysis, Analyte, Interpreted, interpret};
use aqueous::speciation::{Request, Speciation, speciation};
use aqueous::water::density_kg_l;
use message::{Message, analysis as text};
use quantity::{Amount, Check, Outcome, Unit};

fn analysis(ph: Option<f64>, analytes: &[(&str, f64, &str)]) -> Analysis {
    let one = |(name, value, unit): &(&str, f64, &str)| Analyte {
        name: (*name).into(),
        amount: Amount::measured(*value, 0.02 * value.abs(), Unit::known(unit)),
        fraction: None,
    };
    Analysis { temperature_c: 10.0, ph, analytes: analytes.iter().map(one).collect(), ..Analysis::default() }
}

fn read(ph: f64, analytes: &[(&str, f64, &str)]) -> Interpreted {
    interpret(&analysis(Some(ph), analytes)).unwrap()
}

fn solved(ph: Option<f64>, analytes: &[(&str, f64, &str)]) -> Speciation {
    speciation(&Request { analysis: analysis(ph, analytes), ..Request::default() }).unwrap()
}

/// Alkalinity, meq/L.
fn meq_l(i: &Interpreted) -> f64 {
    i.alkalinity.as_ref().unwrap().eq_kg * density_kg_l(10.0) * 1e3
}

fn outcome(s: &[quantity::Finding], check: Check) -> Option<Outcome> {
    s.iter().find(|f| f.check == check).map(|f| f.outcome)
}

#[test]
fn bicarbonate_and_carbonate_make_an_alkalinity() {
    // HCO3 61.017 and CO3 60.009 g/mol: 4 mmol and 0.5 mmol are 5 meq/L. 1e-3: atomic weights.
    let both = read(8.9, &[("HCO3", 244.07, "mg/L"), ("CO3", 30.005, "mg/L")]);
    assert!((meq_l(&both) - 5.0).abs() < 1e-3, "{}", meq_l(&both));
    assert!(both.warnings.iter().all(|w| !w.is::<text::BicarbonateAlone>()));
    let alone = read(7.5, &[("HCO3", 244.07, "mg/L")]);
    assert!((meq_l(&alone) - 4.0).abs() < 1e-3);
    assert!(alone.warnings.iter().any(Message::is::<text::BicarbonateAlone>));
    // CO3 not found adds nothing but doubt: 6 mg/L is 0.2 meq/L, over the root of three.
    let a = Analysis {
        analytes: vec![
            Analyte {
                name: "HCO3-".into(),
                amount: Amount::measured(244.07, 0.0, Unit::known("mg/L")),
                fraction: None,
            },
            Analyte { name: "CO3^2-".into(), amount: Amount::below(6.0, Unit::known("mg/L")), fraction: None },
        ],
        ..analysis(Some(7.5), &[])
    };
    let i = interpret(&a).unwrap();
    assert!((meq_l(&i) - 4.0).abs() < 1e-3);
    let u = i.alkalinity.as_ref().unwrap().u * density_kg_l(10.0) * 1e3;
    assert!((u - 0.2 / libm::sqrt(3.0)).abs() < 1e-3, "{u}");
    // As a laboratory in German writes it.
    assert!((meq_l(&read(7.5, &[("Hydrogencarbonat", 244.07, "mg/L")])) - 4.0).abs() < 1e-3);
    assert!((meq_l(&read(7.5, &[("Säurekapazität bis pH 4,3", 4.0, "mmol/L")])) - 4.0).abs() < 1e-9);
    // One half of a report is refused with what it lacks.
    let e = interpret(&analysis(Some(9.0), &[("Ca", 40.0, "mg/L"), ("CO3", 30.0, "mg/L")])).unwrap_err().message();
    assert!(e.is::<text::Unclear>(), "{e:?}");
}

#[test]
fn parts_stand_beside_the_whole() {
    let check = |hco3: f64, co3: f64| {
        let i = read(8.6, &[("alkalinity", 250.2, "mg/L as CaCO3"), ("HCO3", hco3, "mg/L"), ("CO3", co3, "mg/L")]);
        assert!((meq_l(&i) - 5.0).abs() < 1e-2, "the alkalinity is used");
        outcome(&i.findings, Check::MeaningAlkalinityTwice)
    };
    assert_eq!(check(244.0, 30.0), Some(Outcome::Met));
    assert_eq!(check(244.0, 90.0), Some(Outcome::NotMet));
    // More bicarbonate than alkalinity cannot be; less may be, borate or carbonate hold the rest.
    let alone = |hco3: f64| {
        let i = read(8.6, &[("alkalinity", 250.2, "mg/L as CaCO3"), ("HCO3", hco3, "mg/L")]);
        outcome(&i.findings, Check::MeaningAlkalinityTwice)
    };
    assert_eq!(alone(200.0), Some(Outcome::Met));
    assert_eq!(alone(400.0), Some(Outcome::NotMet));
}

#[test]
fn free_carbon_dioxide_is_compared_or_finds_the_ph() {
    let ions = [("Ca", 80.16, "mg/L"), ("HCO3", 244.07, "mg/L")];
    let s = solved(Some(7.0), &ions);
    let co2 = s.equilibrium.molality("CO2(aq)") * density_kg_l(10.0) * 44.009e3;
    let beside = |x: f64| {
        let s = solved(Some(7.0), &[ions[0], ions[1], ("free CO2", x, "mg/L")]);
        let carbon = s.findings.iter().find(|f| f.check == Check::MeaningCarbonTwice).unwrap().outcome;
        (carbon, s.equilibrium.molality("CO2(aq)"))
    };
    assert_eq!(beside(co2).0, Outcome::Met);
    let (off, unchanged) = beside(0.3 * co2);
    assert_eq!(off, Outcome::NotMet);
    assert!((unchanged - s.equilibrium.molality("CO2(aq)")).abs() < 1e-15);
    // Without pH the two give it back. 0.02: calcium and bicarbonate of round numbers balance to a thousandth.
    let found = solved(None, &[ions[0], ions[1], ("CO2", co2, "mg/L")]);
    assert!((found.equilibrium.ph() - 7.0).abs() < 0.02, "{}", found.equilibrium.ph());
}

#[test]
fn negative_alkalinity_is_acidity() {
    // Mine water: 2 meq/L of acid, pH 2.7.
    let salts = [("SO4", 480.3, "mg/L"), ("Ca", 160.3, "mg/L")];
    for acid in [("alkalinity", -100.09, "mg/L as CaCO3"), ("acidity", 100.09, "mg/L as CaCO3")] {
        let s = solved(Some(2.7), &[salts[0], salts[1], acid]);
        assert!(s.interpreted.warnings.iter().any(Message::is::<text::Acidity>));
        let balance = s.balance.as_ref().unwrap();
        // Ca 8 and acid 2 meq/L against SO4 10 meq/L, by hand.
        assert!(
            (balance.cations.meq_l - 10.0).abs() < 0.02 && (balance.anions.meq_l - 10.0).abs() < 0.02,
            "{balance:?}"
        );
        assert!(s.equilibrium.molality("HCO3-").abs() < 1e-300, "no carbon follows from acid");
    }
    // A pH of 2 is 10 mmol of acid: five times what was titrated.
    let off = solved(Some(2.0), &[salts[0], salts[1], ("acidity", 100.09, "mg/L as CaCO3")]);
    let finding = off.findings.iter().find(|f| f.check == Check::MeaningCarbonateAlkalinity).unwrap();
    assert_eq!(finding.outcome, Outcome::NotMet);
}

#[test]
fn carbonate_over_the_whole_alkalinity_is_a_finding() {
    // At pH 4.6 the free acid stands against bicarbonate: by hand HCO3 = alkalinity + H+ = 0.02 + 0.025 mmol, 230 %.
    let s = solved(Some(4.6), &[("Na", 10.0, "mg/L"), ("Cl", 15.0, "mg/L"), ("alkalinity", 0.02, "meq/L")]);
    let finding = s.findings.iter().find(|f| f.check == Check::MeaningCarbonateAlkalinity).unwrap();
    assert!(s.sums.carbonate_share_percent > 150.0 && finding.outcome == Outcome::NotMet, "{finding:?}");
}
