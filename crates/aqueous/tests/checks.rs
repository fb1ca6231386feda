//! Findings: each with the water that should and the water that should not raise it.

use aqueous::analysis::{Analysis, Analyte, Fraction};
use aqueous::speciation::{Request, Speciation, speciation};
use quantity::{Amount, Check, Outcome, Unit};

fn a(name: &str, value: f64, unit: &str) -> Analyte {
    Analyte { name: name.into(), amount: Amount::stated(value, Unit::known(unit)), fraction: None }
}

fn base() -> Analysis {
    Analysis {
        temperature_c: 10.0,
        ph: Some(7.6),
        analytes: vec![
            a("Ca", 52.0, "mg/L"),
            a("Mg", 11.4, "mg/L"),
            a("Na", 17.0, "mg/L"),
            a("K", 2.4, "mg/L"),
            a("Cl", 12.6, "mg/L"),
            a("SO4", 15.0, "mg/L"),
            a("alkalinity", 187.0, "mg/L as CaCO3"),
        ],
        ..Analysis::default()
    }
}

fn run(x: Analysis) -> Speciation {
    speciation(&Request { analysis: x, ..Request::default() }).unwrap()
}

fn outcome(s: &Speciation, check: Check) -> Option<Outcome> {
    s.findings.iter().find(|f| f.check == check).map(|f| f.outcome)
}

fn expect(x: Analysis, check: Check, want: Option<Outcome>) {
    let s = run(x);
    assert_eq!(outcome(&s, check), want, "{check}: {:#?}", s.findings);
}

#[test]
fn charge_balance() {
    expect(base(), Check::MeaningChargeBalance, Some(Outcome::Met));
    let mut x = base();
    x.analytes[2] = a("Na", 60.0, "mg/L");
    expect(x, Check::MeaningChargeBalance, Some(Outcome::NotMet));
    // Within u of the gate, without an ion, with one that was not detected: it cannot be told.
    let mut x = base();
    x.analytes[2] = a("Na", 28.0, "mg/L");
    expect(x, Check::MeaningChargeBalance, Some(Outcome::NotKnown));
    let mut x = base();
    x.analytes.remove(1);
    expect(x, Check::MeaningChargeBalance, Some(Outcome::NotKnown));
    let mut x = base();
    x.analytes[5] = Analyte { amount: Amount::below(60.0, Unit::known("mg/L")), ..x.analytes[5].clone() };
    expect(x, Check::MeaningChargeBalance, Some(Outcome::NotKnown));
    let mut x = Analysis { ph: None, ..base() };
    x.analytes[6] = a("DIC", 47.0, "mg/L");
    expect(x, Check::MeaningChargeBalance, Some(Outcome::NotKnown));
}

#[test]
fn conductivity_and_solids() {
    let with = |c: f64| Analysis { conductivity_us_cm: Some(c), ..base() };
    expect(with(405.0), Check::MeaningConductivity, Some(Outcome::Met));
    expect(with(600.0), Check::MeaningConductivity, Some(Outcome::NotMet));
    let with = |d: f64| Analysis { dissolved_solids_mg_l: Some(d), ..base() };
    expect(with(230.0), Check::MeaningDissolvedSolids, Some(Outcome::Met));
    expect(with(400.0), Check::MeaningDissolvedSolids, Some(Outcome::NotMet));
    expect(base(), Check::MeaningConductivity, None);
    // The meter stood in the water as it came: what it dissolves afterwards changes nothing of the comparison.
    let held = Request {
        analysis: Analysis { conductivity_us_cm: Some(405.0), ..base() },
        hold: vec![aqueous::equilibrium::Hold::plenty("gypsum", 0.0)],
        ..Request::default()
    };
    let s = speciation(&held).unwrap();
    assert_eq!(outcome(&s, Check::MeaningConductivity), Some(Outcome::Met));
    assert!(s.conductivity25_us_cm > 1000.0, "{}", s.conductivity25_us_cm);
}

#[test]
fn laboratory_ph_and_carbon() {
    let with = |p: f64| Analysis { laboratory_ph: Some(p), ..base() };
    expect(with(7.7), Check::MeaningFieldAndLaboratoryPh, Some(Outcome::Met));
    expect(with(8.2), Check::MeaningFieldAndLaboratoryPh, Some(Outcome::NotMet));
    let mut x = base();
    x.analytes.push(a("DIC", 20.0, "mg/L"));
    expect(x, Check::MeaningCarbonTwice, Some(Outcome::NotMet));
    let mut x = base();
    x.analytes.push(a("DIC", 47.0, "mg/L"));
    expect(x, Check::MeaningCarbonTwice, Some(Outcome::Met));
}

#[test]
fn oxygen_and_nitrate_beside_sulfide() {
    let mut x = base();
    x.analytes.push(a("S(-II)", 0.3, "mg/L"));
    x.analytes.push(a("O2", 0.06, "mg/L"));
    expect(x.clone(), Check::MeaningOxygenBesideSulfide, Some(Outcome::Met));
    // The programme's own probe reads less in water without oxygen.
    expect(
        Analysis { oxygen_floor_mg_l: Some(0.03), ..x.clone() },
        Check::MeaningOxygenBesideSulfide,
        Some(Outcome::NotMet),
    );
    // State and sentence agree: what is met names no fault, what is not met says more.
    let said = |floor: f64| {
        let s = run(Analysis { oxygen_floor_mg_l: Some(floor), ..x.clone() });
        s.findings.into_iter().find(|f| f.check == Check::MeaningOxygenBesideSulfide).unwrap().sentence
    };
    let (met, not) = (said(0.1), said(0.03));
    assert!(met.contains("0.06 mg/L") && met.contains("0.1 mg/L"), "{met}");
    assert!(not.contains("0.06 mg/L") && not.contains("0.03 mg/L"), "{not}");
    assert_ne!(met.replace("0.1 mg/L", "0.03 mg/L"), not, "one sentence for two states");
    expect(x.clone(), Check::MeaningNitrateBesideSulfide, None);
    x.analytes.push(a("nitrate", 1.0, "mg/L as N"));
    expect(x, Check::MeaningNitrateBesideSulfide, Some(Outcome::NotMet));
}

#[test]
fn dissolved_above_total() {
    let bottles = |filtered: f64| {
        let mut x = base();
        let mut whole = a("Zn", 100.0, "ng/L");
        whole.fraction = Some(Fraction::Unfiltered);
        let mut part = a("Zn", filtered, "ng/L");
        part.fraction = Some(Fraction::FilteredUm(0.45));
        x.analytes.extend([whole, part]);
        x
    };
    expect(bottles(150.0), Check::MeaningDissolvedAboveTotal, Some(Outcome::NotMet));
    expect(bottles(104.0), Check::MeaningDissolvedAboveTotal, Some(Outcome::Met));
}

#[test]
fn hardness() {
    // 2.497·Ca + 4.118·Mg mg/L as CaCO3 (Standard Methods 2340 B, from memory).
    let s = run(base());
    let want = 2.497 * 52.0 + 4.118 * 11.4;
    assert!((s.sums.hardness_mg_l_as_caco3 - want).abs() < 0.1);
}
