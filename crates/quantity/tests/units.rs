//! Units against handbook equivalents and UCUM codes; round trips as properties.

use ::fixtures::damage::{cases, damaged_text, strokes};
use proptest::prelude::*;
use quantity::{Amount, Substance, Unit, UnitError};

fn convert(value: f64, from: &str, to: &str, formula: Option<&str>, density: Option<f64>) -> f64 {
    let s = formula.map(|f| Substance::parse(f).unwrap());
    let a = Amount::stated(value, Unit::known(from)).convert(&Unit::known(to), s.as_ref(), density).unwrap();
    a.value().unwrap()
}

fn check(value: f64, from: &str, to: &str, formula: Option<&str>, want: f64, relative: f64) {
    let got = convert(value, from, to, formula, None);
    assert!((got - want).abs() <= relative * want.abs(), "{value} {from} in {to}: {got}, want {want}");
}

#[test]
fn exact_equivalents() {
    // By definition (international foot 1959; US gallon 231 in³; imperial gallon 4.54609 L; UCUM).
    for (v, from, to, want) in [
        (1.0, "ft", "m", 0.3048),
        (1.0, "US gal", "L", 3.785411784),
        (1.0, "imp gal", "L", 4.54609),
        (1.0, "bar", "kPa", 100.0),
        (1.0, "atm", "Pa", 101325.0),
        (1.0, "m3/d", "L/min", 1000.0 / 1440.0),
        (1.0, "µg/L", "ng/L", 1000.0),
        (1.0, "pg/mL", "ng/L", 1.0),
        (25.0, "°C", "K", 298.15),
        (1.0, "kg/m3", "g/L", 1.0),
        (28.316846592, "L", "ft3", 1.0),
        (52.5, "°", "deg", 52.5),
    ] {
        check(v, from, to, None, want, 1e-12);
    }
    // 1 psi = 6.894757 kPa (NIST SP 811, appendix B; from memory, seven digits).
    check(1.0, "psi", "kPa", None, 6.894757, 1e-7);
}

#[test]
fn equivalents_of_the_water_trade() {
    // Standard water-chemistry factors to the digits of the handbooks (from memory): 50.04 mg CaCO3 per meq,
    // NO3/N 4.4268, HCO3 from alkalinity as CaCO3 1.2192, Ca hardness as CaCO3 2.497.
    for (v, from, to, formula, want) in [
        (50.04, "mg/L as CaCO3", "meq/L", None, 1.0),
        (10.0, "mg/L as N", "mg/L", Some("NO3-"), 44.268),
        (44.268, "mg/L as NO3", "mg/L as N", None, 10.0),
        (100.0, "mg/L as CaCO3", "mg/L", Some("HCO3-"), 121.92),
        (1.0, "mg/L", "mg/L as CaCO3", Some("Ca++"), 2.497),
        (20.04, "mg/L", "meq/L", Some("Ca++"), 1.0),
        (96.06, "mg/L", "mmol/L", Some("SO4--"), 1.0),
        (60.08, "mg/L as SiO2", "mmol/L", Some("H4SiO4"), 1.0),
        (141.94, "mg/L as P2O5", "mmol/L", Some("HPO4--"), 2.0),
        (40.078, "mg/kg", "mmol/kg", Some("Ca++"), 1.0),
    ] {
        check(v, from, to, formula, want, 3e-4);
    }
}

#[test]
fn litres_and_kilograms_meet_by_density() {
    let at_9_degrees = 0.99978;
    let got = convert(1.0, "ng/L", "ng/kg", None, Some(at_9_degrees));
    assert!((got - 1.0 / at_9_degrees).abs() < 1e-12);
    let pb = Substance::parse("Pb").unwrap();
    let molal =
        Amount::stated(207.2, Unit::known("ng/L")).convert(&Unit::known("nmol/kg"), Some(&pb), Some(1.0)).unwrap();
    assert!((molal.value().unwrap() - 1.0).abs() < 1e-12);
}

#[test]
fn what_is_refused_and_how_it_is_said() {
    for (text, word) in [
        ("ppt", "ng/L"),
        ("ppb", "µg/L"),
        ("ppm (mass)", "mg/L"),
        ("ng L-1", "slash"),
        ("furlong", "not known"),
        ("mg/L as Xq", "Xq"),
    ] {
        let said = Unit::parse(text).unwrap_err().to_string();
        assert!(said.contains(word), "{text}: {said}");
    }
    let wrong = Amount::stated(1.0, Unit::known("mg/L")).convert(&Unit::known("m"), None, None);
    assert!(matches!(wrong, Err(UnitError::Different { .. })));
    let no_substance =
        Amount::stated(1.0, Unit::known("mg/L as N")).convert(&Unit::known("mg/L"), None, None).unwrap_err();
    assert!(no_substance.to_string().contains("substance is not given"), "{no_substance}");
    let neutral = Substance::parse("SiO2").unwrap();
    let no_charge =
        Amount::stated(1.0, Unit::known("mg/L")).convert(&Unit::known("meq/L"), Some(&neutral), None).unwrap_err();
    assert!(no_charge.to_string().contains("charge"), "{no_charge}");
}

#[test]
fn ucum_out_and_in() {
    // Codes of the UCUM tables, case-sensitive form.
    for (text, code) in [
        ("ng/L", "ng/L"),
        ("µg/l", "ug/L"),
        ("mg/L as N", "mg/L{as N}"),
        ("°C", "Cel"),
        ("US gal", "[gal_us]"),
        ("m²/d", "m2/d"),
        ("µS/cm", "uS/cm"),
        ("ft", "[ft_i]"),
        ("%", "%"),
        ("1/m3", "/m3"),
    ] {
        let unit = Unit::known(text);
        assert_eq!(unit.ucum(), code);
        assert_eq!(Unit::known(unit.ucum()), unit, "{code} read back");
        assert_eq!(Unit::known(&unit.to_string()), unit, "{unit} read back");
    }
}

#[test]
fn json_follows_the_contract() {
    for text in [
        r#"{"value":52.1,"u":0.6,"unit":"mg/L"}"#,
        r#"{"below":1.0,"unit":"ng/L"}"#,
        r#"{"above":5000.0,"unit":"ng/L"}"#,
        r#"{"value":3.2,"unit":"µg/L as Cr"}"#,
        r#"{"value":1.0,"u":0.1,"dof":7.0,"unit":"ng/L"}"#,
    ] {
        let a: Amount = serde_json::from_str(text).unwrap();
        assert_eq!(serde_json::to_string(&a).unwrap(), text);
    }
    for bad in [
        r#"{"value":1,"below":2,"unit":"ng/L"}"#,
        r#"{"below":1.0,"u":0.1,"unit":"ng/L"}"#,
        r#"{"value":1.0,"u":-0.1,"unit":"ng/L"}"#,
        r#"{"value":1.0}"#,
        r#"{"value":1.0,"unit":"ppt"}"#,
        r#"{"value":1.0,"unit":"ng/L","flag":"<"}"#,
    ] {
        assert!(serde_json::from_str::<Amount>(bad).is_err(), "{bad}");
    }
}

proptest! {
    #[test]
    fn there_and_back(value in -1e6f64..1e6, pair in 0usize..8) {
        let (a, b, formula) = [
            ("ng/L", "µg/L", None), ("ft", "m", None), ("psi", "bar", None), ("°C", "K", None),
            ("mg/L", "mmol/L", Some("SO4--")), ("mg/L", "meq/L", Some("Mg++")),
            ("mg/L as CaCO3", "meq/L", None), ("mg/L as N", "mg/L", Some("NH4+")),
        ][pair];
        let there = convert(value, a, b, formula, None);
        let back = convert(there, b, a, formula, None);
        // Twice a rounding of the offset 273.15 is the coarsest step.
        prop_assert!((back - value).abs() <= 1e-12 * value.abs().max(300.0), "{value} {a} → {there} {b} → {back}");
    }

    #[test]
    fn relative_uncertainty_survives_conversion(value in 1e-6f64..1e6, rel in 1e-4f64..1.0) {
        let a = Amount::measured(value, rel * value, Unit::known("ng/L"));
        let b = a.convert(&Unit::known("pmol/kg"), Some(&Substance::parse("Pb").unwrap()), Some(0.9997)).unwrap();
        let Amount::Measured(m) = b else { panic!("stays measured") };
        prop_assert!((m.relative_u() - rel).abs() < 1e-12);
    }

    #[test]
    fn any_text_is_read_or_refused_without_panic(text in "\\PC{0,24}") {
        if let Ok(unit) = Unit::parse(&text) {
            prop_assert!(unit.si_factor().is_finite());
        }
    }
}

/// Units as laboratories write them.
const WRITTEN: &[&str] = &[
    "ng/L",
    "µg/L as Cr",
    "mg/L as CaCO3",
    "mmol/kg",
    "pCi/L",
    "µS/cm",
    "10*-6.kg/m3",
    "m3/d",
    "L/(min.m2)",
    "°C",
    "meq/L",
];

proptest! {
    #![proptest_config(cases(3000))]

    #[test]
    fn a_damaged_unit_is_read_or_refused_and_reads_back_as_it_is_shown(which in 0..WRITTEN.len(), strokes in strokes(3)) {
        let text = damaged_text(WRITTEN[which], &strokes);
        match Unit::parse(&text) {
            Err(e) => prop_assert!(!e.to_string().is_empty()),
            Ok(unit) => {
                prop_assert!(unit.si_factor().is_finite() && unit.si_factor() > 0.0, "{:?}: {}", text, unit.si_factor());
                prop_assert_eq!(Unit::parse(&unit.to_string()).unwrap(), unit, "{}", text);
            }
        }
    }

    #[test]
    fn a_damaged_formula_is_read_or_refused(which in 0..4usize, strokes in strokes(3)) {
        let text = damaged_text(["SO4--", "Ca(HCO3)2", "NH4+", "Al2Si2O5(OH)4"][which], &strokes);
        if let Err(e) = Substance::parse(&text) {
            prop_assert!(!e.to_string().is_empty());
        }
    }
}
