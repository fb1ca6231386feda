//! What dissolved organic carbon can hold: words and sentences, and that no number comes with them.

use aqueous::organic::{Binding, bindings, sentence};
use aqueous::speciation::{Request, speciation};
use message::{Arg, Message, analysis as said};
use serde_json::json;

fn request(metals: &[&str], doc: bool, sulfide: bool) -> Request {
    let mut analytes = vec![
        json!({"name": "Ca", "value": 50, "unit": "mg/L"}),
        json!({"name": "alkalinity", "value": 130, "unit": "mg/L as CaCO3"}),
    ];
    analytes.extend(metals.iter().map(|m| json!({"name": m, "value": 5, "unit": "ng/L"})));
    if doc {
        analytes.push(json!({"name": "DOC", "value": 1.4, "unit": "mg/L"}));
    }
    if sulfide {
        analytes.push(json!({"name": "S(-II)", "value": 0.4, "unit": "mg/L"}));
    }
    aqueous::calc::request(&json!({"temperature_C": 9, "pH": 7.6, "analytes": analytes})).unwrap()
}

fn said_of(metals: &[&str], doc: bool, sulfide: bool) -> Option<Message> {
    let s = speciation(&request(metals, doc, sulfide)).unwrap();
    let m = sentence(&s.equilibrium, &s.interpreted);
    assert_eq!(s.warnings.iter().find(|w| Some(*w) == m.as_ref()), m.as_ref());
    m
}

#[test]
fn the_sentence_names_the_metals_that_are_there() {
    let m = said_of(&["Pb", "Zn", "Ni"], true, false).unwrap();
    assert!(m.is::<said::OrganicMostAndPart>());
    let names = |key: &str| match m.arg(key) {
        Some(Arg::List(all)) => all.iter().map(|a| format!("{a:?}")).collect::<Vec<_>>().join(" "),
        other => panic!("{other:?}"),
    };
    assert!(names("most").contains("Pb") && names("part").contains("Zn") && names("part").contains("Ni"));
    let Some(Arg::Message(doc)) = m.arg("doc") else { panic!("{m:?}") };
    assert!(doc.is::<said::DocStated>());
    let without = said_of(&["Pb"], false, false).unwrap();
    assert!(without.is::<said::OrganicMost>());
    let Some(Arg::Message(doc)) = without.arg("doc") else { panic!("{without:?}") };
    assert!(doc.is::<said::DocNotStated>());
    assert!(said_of(&["Co"], false, false).unwrap().is::<said::OrganicPart>());
    assert!(said_of(&["Mn"], true, false).unwrap().is::<said::OrganicSmall>());
    assert_eq!(said_of(&[], true, false), None);
}

#[test]
fn each_metal_has_its_word() {
    for (component, sulfide, want) in [
        ("Cu^2+", 0.0, Some(Binding::Most)),
        ("Al^3+", 0.0, Some(Binding::Most)),
        ("Zn^2+", 0.0, Some(Binding::UnknownPart)),
        ("Cd^2+", 0.0, Some(Binding::UnknownPart)),
        // Wang & Tessier 1999 (abstract seen): from 1 µmol/L of sulfide on it goes before humics.
        ("Cd^2+", 2e-6, Some(Binding::UnderSulfide)),
        ("Ni^2+", 0.0, Some(Binding::UpToAFifth)),
        ("UO2^2+", 0.0, Some(Binding::Small)),
        ("H3AsO3", 0.0, Some(Binding::None)),
        // Nobody looked.
        ("MoO4^2-", 0.0, None),
    ] {
        assert_eq!(Binding::of(component, sulfide), want, "{component}");
    }
    let s = speciation(&request(&["Pb", "Cd"], true, true)).unwrap();
    let all = bindings(&s.equilibrium);
    assert!(all.contains(&("Pb", Binding::Most)) && all.contains(&("Cd", Binding::UnderSulfide)), "{all:?}");
    for (_, b) in all {
        assert!(message::Lang::ALL.iter().all(|l| b.says().said(*l).is_some()));
    }
}

#[test]
fn organic_carbon_changes_no_number() {
    let total = |doc: bool| speciation(&request(&["Pb", "Zn"], doc, false)).unwrap().equilibrium.solution.molality;
    assert_eq!(total(true), total(false));
}
