//! The keys of a recipe's file held beside the recipe itself, the templates, and what is refused by name.

use super::*;
use std::collections::BTreeSet;

/// A recipe with every key that there is, made of the three kinds of factor.
const WHOLE: &str = r#"
name = "whole"
unit = "ng/L"
alpha = 0.05
beta = 0.05
coverage = 0.95
gas_background = ["plasma only"]
between_vials = 0.005
intercept = "blank"
carry_over = 0.001
replicate_chance = 0.02
interference_share = 0.2
published_equations = "EPA 200.8"
monitors_only = ["Mo98@low"]
dead_time = { ns = 12, u_ns = 0.5, model = "extending", warn_share = 0.1, refuse_share = 0.5 }
dark_rates = [{ isotope = "Pb208@low", cps = 0.2, u_cps = 0.1 }]
analogue_factor = { value = 1.1, u = 0.01 }
drift = { model = "smooth", degree = 2 }
blank = { samples = "field-blank", reference = "procedural-blank", scale = "mass-per-bottle", centre = "robust" }
recovery = { from = "given", values = [{ element = "Cd", value = 0.95, u = 0.02 }] }
quantification = { rule = "relative-expanded", share = 0.3 }
sums = [{ element = "Pb", masses = [206, 207, 208], resolution = "low" }]

[internal_standards]
isotopes = ["In115@low"]
by_mass = "interpolate"
named = [{ isotope = "U238@low", standard = "Ir193@low" }]
lowest_percent = 60
highest_percent = 125

[[interferences]]
target = "Cd111@low"
monitor = "Mo98@low"
species = "95Mo16O"
factor = { from = "vials", vials = ["Mo alone"] }

[[interferences]]
target = "Cd114@low"
monitor = "Sn118@low"
species = "114Sn"
factor = { from = "abundance", mass_bias = 0.1, u_mass_bias = 0.2 }

[[interferences]]
target = "As75@low"
monitor = "Cl35@low"
species = "40Ar35Cl"
factor = { from = "given", value = 0.002, u = 0.0001 }

[lead_reference]
vials = ["lead reference"]
source = "certificate"
ratios = [{ numerator = 206, denominator = 207, value = 1.1, u = 0.0004 }]
"#;

/// Paths of all values, as [`KEYS`] have them.
fn paths(value: &serde_json::Value, at: &str, out: &mut BTreeSet<String>) {
    match value {
        serde_json::Value::Object(map) => {
            for (name, inner) in map {
                paths(inner, &if at.is_empty() { name.clone() } else { format!("{at}.{name}") }, out);
            }
        }
        serde_json::Value::Array(items) if items.iter().any(serde_json::Value::is_object) => {
            for item in items {
                paths(item, &format!("{at}[]"), out);
            }
        }
        _ => {
            out.insert(at.to_string());
        }
    }
}

/// The table of keys and the recipe itself know the same keys: one that is added to either alone fails here.
#[test]
fn the_keys_are_those_of_the_recipe() {
    let recipe = read(WHOLE).unwrap();
    let mut of_recipe = BTreeSet::new();
    paths(&serde_json::to_value(&recipe).unwrap(), "", &mut of_recipe);
    let keys: BTreeSet<String> = KEYS.iter().map(|k| k.path.to_string()).collect();
    assert_eq!(of_recipe, keys);
}

/// A template with every line that it shows as possible.
fn in_full(template: &str) -> String {
    let shown = |line: &str| {
        let Some(rest) = line.strip_prefix("# ") else { return line.to_string() };
        let key = rest.split_once(" = ").is_some_and(|(k, _)| k.chars().all(|c| c.is_ascii_lowercase() || c == '_'));
        if key || rest.starts_with('[') { rest.to_string() } else { line.to_string() }
    };
    template.lines().map(shown).collect::<Vec<_>>().join("\n")
}

#[test]
fn every_template_shows_every_key_and_is_a_recipe_as_it_stands() {
    for (language, template) in TEMPLATES {
        let recipe = read(template).unwrap_or_else(|f| panic!("{language}: {f:?}"));
        // What it shows as counting where it is left out does count.
        assert_eq!(Recipe { name: "default".into(), ..recipe }, Recipe::default(), "{language}");
        let full: serde_json::Value = toml::from_str(&in_full(template)).unwrap();
        let mut shown = BTreeSet::new();
        paths(&full, "", &mut shown);
        let keys: BTreeSet<String> = KEYS.iter().map(|k| k.path.to_string()).collect();
        assert_eq!(shown, keys, "{language}");
        let mut faults = vec![];
        walk(&toml::from_str(&in_full(template)).unwrap(), &At::default(), &mut faults);
        assert!(faults.is_empty(), "{language}: {faults:?}");
    }
}

/// What is said of a change to a whole recipe.
#[track_caller]
fn said(from: &str, to: &str) -> Vec<Fault> {
    assert_eq!(WHOLE.matches(from).count(), 1, "{from}");
    read(&WHOLE.replace(from, to)).unwrap_err().into_iter().map(|f| f.says).collect()
}

fn value(key: &str, text: &str) -> found::RecipeValue {
    found::RecipeValue { key: key.into(), text: text.into() }
}

#[test]
fn an_unknown_key_is_named_with_the_nearest() {
    let unknown = |key: &str, nearest: &str| {
        fault(found::RecipeKey { key: key.into() }, expected::RecipeKey { nearest: nearest.into() })
    };
    assert_eq!(said("alpha = 0.05", "alfa = 0.05"), [unknown("alfa", "alpha")]);
    assert_eq!(said("warn_share = 0.1", "warnshare = 0.1"), [unknown("dead_time.warnshare", "dead_time.warn_share")]);
    assert_eq!(
        said("species = \"114Sn\"", "species = \"114Sn\"\nspecie = \"114Sn\""),
        [unknown("interferences[2].specie", "interferences[].species")]
    );
    assert_eq!(said("[lead_reference]", "[lead_referenz]"), [unknown("lead_referenz", "lead_reference")]);
}

#[test]
fn a_value_of_another_kind_or_out_of_range_is_told_at_its_key() {
    let of = |key: &str, text: &str, kind: Kind| fault(value(key, text), kind.expected());
    assert_eq!(said("alpha = 0.05", "alpha = \"5 %\""), [of("alpha", "\"5 %\"", Kind::Probability)]);
    assert_eq!(said("alpha = 0.05", "alpha = 1.5"), [of("alpha", "1.5", Kind::Probability)]);
    assert_eq!(said("ns = 12,", "ns = -12,"), [of("dead_time.ns", "-12", Kind::ZeroOrMore)]);
    assert_eq!(said("\"extending\"", "\"paralysed\"").len(), 1);
    assert_eq!(said("unit = \"ng/L\"", "unit = \"drops\""), [of("unit", "\"drops\"", Kind::Unit)]);
    assert_eq!(
        said("target = \"Cd111@low\"", "target = \"lead\""),
        [of("interferences[1].target", "\"lead\"", Kind::Isotope)]
    );
    assert_eq!(said("degree = 2", "degree = 4"), [of("drift.degree", "4", Kind::Degree)]);
    // Two faults are two, and neither hides the other.
    assert_eq!(said("beta = 0.05\ncoverage = 0.95", "beta = 2\ncoverage = 2").len(), 2);
}

#[test]
fn what_differs_from_laboratory_to_laboratory_must_be_said() {
    let lacks = |key: &str| fault(found::RecipeLacks { key: key.into() }, expected::RecipeEntry);
    assert_eq!(said("ns = 12, ", ""), [lacks("dead_time.ns")]);
    assert_eq!(said("cps = 0.2, ", ""), [lacks("dark_rates[1].cps")]);
    let empty: Vec<Fault> = read("").unwrap_err().into_iter().map(|f| f.says).collect();
    let asked = [
        "name",
        "unit",
        "dead_time.ns",
        "dead_time.u_ns",
        "internal_standards.isotopes",
        "drift.model",
        "blank.samples",
        "blank.reference",
    ];
    assert_eq!(empty, asked.map(lacks));
}

#[test]
fn what_keys_say_together_is_refused_as_the_reduction_would() {
    assert_eq!(
        said("alpha = 0.05\nbeta = 0.05", "alpha = 0.6\nbeta = 0.6"),
        [fault(value("alpha + beta", "1.2"), refusal::RecipeRisks)]
    );
    let faults = read("name = \"x\"\nunit = ").unwrap_err();
    assert_eq!((faults.len(), faults[0].check, faults[0].line), (1, Check::FileForm, Some(2)));
}
