//! What laboratories write, and what is refused.

use aqueous::Error;
use aqueous::analysis::{Analysis, Analyte, Bound, Fraction, interpret};
use aqueous::network::network;
use message::{Arg, Lang, Name, analysis as said};
use quantity::{Amount, Check, Outcome, Unit};

fn analyte(name: &str, value: f64, unit: &str) -> Analyte {
    Analyte { name: name.into(), amount: Amount::stated(value, Unit::known(unit)), fraction: None }
}

fn analysis(analytes: Vec<Analyte>) -> Analysis {
    Analysis { temperature_c: 25.0, ph: Some(7.0), analytes, ..Analysis::default() }
}

/// mmol/kg of one component from one analyte.
fn check(name: &str, value: f64, unit: &str, component: &str, want_mmol_kg: f64) {
    let i = interpret(&analysis(vec![analyte(name, value, unit)])).unwrap();
    let got = i.molality(component) * 1e3;
    // 2e-4 relative: atomic weights to five figures.
    assert!((got / want_mmol_kg - 1.0).abs() < 2e-4, "{name} {value} {unit}: {got} mmol/kg, expected {want_mmol_kg}");
}

#[test]
fn units_and_bases() {
    // Water at 25 °C weighs 0.99705 kg/L (Kell 1975), so 1 mmol/L is 1.00296 mmol/kg.
    let per_kg = 1.0 / 0.99705;
    check("Ca", 40.078, "mg/L", "Ca^2+", per_kg);
    check("calcium", 40078.0, "ug/L", "Ca^2+", per_kg);
    check("Ca", 2.0, "meq/L", "Ca^2+", per_kg);
    check("Ca", 1.0, "mmol/L", "Ca^2+", per_kg);
    check("Ca", 1.0, "mmol/kg", "Ca^2+", 1.0);
    check("Ca", 40.078, "mg/kg", "Ca^2+", 1.0);
    check("Ca", 100.086, "mg/L as CaCO3", "Ca^2+", per_kg);
    check("Pb", 207.2, "ng/L", "Pb^2+", 1e-6 * per_kg);
    check("nitrate", 14.007, "mg/L as N", "NO3-", per_kg);
    check("nitrate", 62.004, "mg/L as NO3", "NO3-", per_kg);
    check("nitrate", 1.0, "mmol/L", "NO3-", per_kg);
    check("SO4", 96.056, "mg/L", "SO4^2-", per_kg);
    check("sulfate", 32.06, "mg/L as S", "SO4^2-", per_kg);
    check("S(-II)", 32.06, "mg/L", "HS-", per_kg);
    check("sulfide", 34.076, "mg/L as H2S", "HS-", per_kg);
    check("silica", 60.083, "mg/L as SiO2", "H4SiO4", per_kg);
    check("Si", 28.085, "mg/L", "H4SiO4", per_kg);
    check("B", 10.81, "mg/L", "B(OH)3", per_kg);
    check("P", 30.974, "mg/L", "PO4^3-", per_kg);
    check("DIC", 12.011, "mg/L", "CO3^2-", per_kg);
}

#[test]
fn alkalinity_in_every_form() {
    let per_kg = 1e-3 / 0.99705;
    for (name, value, unit) in [
        ("alkalinity", 50.043, "mg/L as CaCO3"),
        ("alkalinity", 61.017, "mg/L as HCO3"),
        ("alkalinity", 1.0, "meq/L"),
        ("alkalinity", 1.0, "mmol/L"),
        ("alkalinity", 0.5, "mmol/L as CaCO3"),
        ("bicarbonate", 61.017, "mg/L"),
        ("HCO3", 61.017, "mg/L"),
    ] {
        let i = interpret(&analysis(vec![analyte(name, value, unit)])).unwrap();
        let got = i.alkalinity.unwrap().eq_kg;
        assert!((got / per_kg - 1.0).abs() < 2e-4, "{name} {value} {unit}: {got}");
    }
}

fn refused(a: &Analysis, words: &[&str]) {
    let e = interpret(a).unwrap_err().to_string();
    for w in words {
        assert!(e.contains(w), "{e:?} lacks {w:?}");
    }
}

#[test]
fn a_basis_that_is_not_stated_is_asked_for() {
    for (name, hint) in [
        ("alkalinity", "mg/L as CaCO3"),
        ("nitrate", "as N or as NO3"),
        ("NO3", "as N or as NO3"),
        ("ammonium", "as N or as NH4"),
        ("phosphate", "as P or as PO4"),
        ("silica", "as SiO2"),
        ("sulfide", "as S or as H2S"),
    ] {
        refused(&analysis(vec![analyte(name, 3.0, "mg/L")]), &[name, hint]);
    }
    refused(&analysis(vec![analyte("S", 3.0, "mg/L")]), &["SO4 or S(-II)"]);
    refused(&analysis(vec![analyte("nitrate", 3.0, "mg/L as Ca")]), &["holds N"]);
}

#[test]
fn impossible_numbers_are_named_with_their_range() {
    refused(&Analysis { ph: Some(15.0), ..analysis(vec![]) }, &["pH is 15", "0 to 14"]);
    refused(&Analysis { temperature_c: 80.0, ..analysis(vec![]) }, &["temperature is 80 °C", "0 to 60 °C"]);
    refused(&analysis(vec![analyte("Ca", -3.0, "mg/L")]), &["Ca is -3 mg/L", "0 and above"]);
    refused(&analysis(vec![analyte("Ca", 3.0, "m")]), &["unit m"]);
    refused(&analysis(vec![analyte("Xx", 3.0, "mg/L")]), &["Xx"]);
    let only = Analyte { name: "Pb".into(), amount: Amount::below(1.0, Unit::known("ng/L")), fraction: None };
    refused(&analysis(vec![only]), &["below their limits"]);
}

#[test]
fn two_forms_of_one_element() {
    let twice = |b: f64| analysis(vec![analyte("Ca", 40.0, "mg/L"), analyte("calcium", b, "mg/L")]);
    assert!(matches!(interpret(&twice(80.0)), Err(Error::Contradiction { .. })));
    let close = interpret(&twice(41.0)).unwrap();
    assert_eq!(close.entries.len(), 1);
    assert!(close.findings.iter().any(|f| f.check == Check::MeaningStatedTwice));
    // Filtered and unfiltered are two bottles, not a contradiction; the filtered one is used.
    let mut a = twice(10.0);
    a.analytes[0].fraction = Some(Fraction::Unfiltered);
    a.analytes[1].fraction = Some(Fraction::FilteredUm(0.45));
    let i = interpret(&a).unwrap();
    assert!((i.molality("Ca^2+") * 40.078 * 0.99705 - 10e-3).abs() < 1e-5);
}

#[test]
fn a_total_fills_the_form_that_was_not_measured() {
    let iron = |total: f64| analysis(vec![analyte("Fe", total, "ug/L"), analyte("Fe(II)", 60.0, "ug/L")]);
    let i = interpret(&iron(100.0)).unwrap();
    assert!((i.molality("Fe^3+") / i.molality("Fe^2+") - 40.0 / 60.0).abs() < 1e-9);
    // Within both uncertainties there is nothing left to give away.
    assert!(interpret(&iron(61.0)).unwrap().molality("Fe^3+").abs() < 1e-300);
    refused(&iron(30.0), &["Fe", "in its forms"]);
}

#[test]
fn what_is_missing_and_what_the_table_lacks_is_said() {
    let i = interpret(&analysis(vec![
        analyte("Ca", 40.0, "mg/L"),
        analyte("Tl", 0.2, "ug/L"),
        analyte("Cr", 1.0, "ug/L as Cr"),
        analyte("vanadium", 1.0, "ug/L"),
        analyte("selenium", 1.0, "ug/L"),
    ]))
    .unwrap();
    assert_eq!(i.not_in_table, ["Tl", "selenium"]);
    // Chromium is in the table, but nobody said in which valence this one is.
    assert_eq!(i.refused, ["Cr"]);
    assert!(i.warnings.iter().any(message::Message::is::<said::ChromiumRefused>));
    assert!(i.molality("H2VO4-") > 0.0);
    let f = i.findings.iter().find(|f| f.check == Check::MeaningMajorIons).unwrap();
    assert_eq!(f.outcome, Outcome::NotKnown);
    for missing in ["Mg", "Na", "alkalinity"] {
        assert!(f.sentence.contains(missing), "{}", f.sentence);
    }
    assert!(i.findings.iter().any(|f| f.check == Check::MeaningRedoxMeasured));
    assert!(i.warnings.iter().any(|w| w.in_english().contains("no uncertainty stated for Ca")));
}

#[test]
fn a_non_detect_stays_a_limit() {
    let i = interpret(&analysis(vec![
        analyte("Ca", 40.0, "mg/L"),
        Analyte { name: "Pb".into(), amount: Amount::below(1.1, Unit::known("ng/L")), fraction: None },
    ]))
    .unwrap();
    let pb = i.entries.iter().find(|e| e.name == "Pb").unwrap();
    assert_eq!(pb.bound, Bound::Below);
    assert!(i.at_limit(pb.component));
}

#[test]
fn a_refusal_is_a_message_with_its_parts() {
    let e = interpret(&analysis(vec![analyte("Ca", 3.0, "m")])).unwrap_err().message();
    assert!(e.is::<said::Unclear>());
    assert_eq!(e.arg("quantity"), Some(&Arg::List(vec![Name::from("Ca").into()])));
    let unit = message::Message::from(said::Unit { unit: "m".into() });
    assert_eq!(e.arg("found"), Some(&Arg::List(vec![unit.into()])));
    let e = interpret(&Analysis { ph: Some(15.0), ..analysis(vec![]) }).unwrap_err().message();
    assert!(e.is::<said::OutOfRange>() && Lang::ALL.iter().all(|l| e.said(*l).is_some()));
}

#[test]
fn elements_whose_valence_sulfide_decides() {
    let beside = |name: &str, sulfide: bool| {
        let mut all = vec![analyte("Ca", 40.0, "mg/L"), analyte(name, 1.0, "ug/L")];
        if sulfide {
            all.push(analyte("S(-II)", 0.4, "mg/L"));
        }
        interpret(&analysis(all)).unwrap()
    };
    // With sulfide copper is Cu(I), antimony a thioantimonite, vanadium of no stated valence: no answer, by name.
    for name in ["Cu", "copper", "Sb", "Sb(III)", "V"] {
        let i = beside(name, true);
        assert_eq!(i.refused, [name]);
        assert!(i.entries.iter().all(|e| e.name != name), "{name}");
    }
    for (name, sulfide, component) in [
        ("Cu", false, "Cu^2+"),
        ("Sb", false, "Sb(OH)6-"),
        ("V", false, "H2VO4-"),
        ("Cr", true, "Cr^3+"),
        ("Mo", true, "MoO4^2-"),
    ] {
        let i = beside(name, sulfide);
        assert!(i.refused.is_empty() && i.molality(component) > 0.0, "{name}");
    }
    // A stated valence stands.
    assert!(beside("Cu(II)", true).molality("Cu^2+") > 0.0 && beside("Cr(VI)", false).molality("CrO4^2-") > 0.0);
}

/// The note of the table of components and what is said of an analysis are the same.
#[test]
fn a_valence_is_taken_as_the_table_notes_it() {
    for (name, element) in [("Mn", "Mn"), ("Cu", "Cu"), ("U", "U")] {
        let i = interpret(&analysis(vec![analyte("Ca", 40.0, "mg/L"), analyte(name, 1.0, "ug/L")])).unwrap();
        let component = &network().components[i.entries[1].component];
        assert_eq!(component.element, element);
        assert!(i.warnings.iter().any(|w| w.in_english() == component.note), "{:?}", i.warnings);
    }
}
