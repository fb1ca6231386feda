//! Names and short forms.

use quantity::format::{percent, significant};
use quantity::{Finding, Outcome, Stage};

/// Names of what laboratories report.
const NAMES: &[(&str, &str)] = &[
    ("Ag", "silver"),
    ("Al", "aluminium"),
    ("As", "arsenic"),
    ("B", "boron"),
    ("Ba", "barium"),
    ("Be", "beryllium"),
    ("Br", "bromide"),
    ("Ca", "calcium"),
    ("Cd", "cadmium"),
    ("Cl", "chloride"),
    ("Co", "cobalt"),
    ("Cr", "chromium"),
    ("Cr(VI)", "chromium(VI)"),
    ("Cu", "copper"),
    ("F", "fluoride"),
    ("Fe", "iron"),
    ("Hg", "mercury"),
    ("K", "potassium"),
    ("Li", "lithium"),
    ("Mg", "magnesium"),
    ("Mn", "manganese"),
    ("Mo", "molybdenum"),
    ("Na", "sodium"),
    ("NH3", "ammonia"),
    ("NH4", "ammonium"),
    ("Ni", "nickel"),
    ("NO2", "nitrite"),
    ("NO3", "nitrate"),
    ("NO3+NO2", "nitrate and nitrite"),
    ("Pb", "lead"),
    ("PO4", "orthophosphate"),
    ("Sb", "antimony"),
    ("Se", "selenium"),
    ("SiO2", "silica"),
    ("SO4", "sulfate"),
    ("Sr", "strontium"),
    ("Sr-90", "strontium-90"),
    ("Tl", "thallium"),
    ("U", "uranium"),
    ("V", "vanadium"),
    ("W", "tungsten"),
    ("Zn", "zinc"),
];

/// Conditions of the water, not something dissolved in it.
pub const CONDITIONS: [&str; 5] = ["temperature", "pH", "Eh", "conductivity", "dissolved oxygen"];

/// An element's name, or the text itself.
pub fn element(symbol: &str) -> &str {
    NAMES.iter().find(|(s, _)| *s == symbol).map_or(symbol, |(_, name)| name)
}

/// With its first letter large; a name such as pH stays as it is.
pub fn capital(text: &str) -> String {
    if text.chars().nth(1).is_some_and(char::is_uppercase) { text.to_string() } else { programme::case::capital(text) }
}

/// The finding that speaks for a stage in a picture: one that is not met before one that is not
/// known before one that is met, and of those the first that has a short form.
pub fn speaking(findings: &[Finding], stage: Stage) -> Option<(Outcome, String)> {
    [Outcome::NotMet, Outcome::NotKnown, Outcome::Met].into_iter().find_map(|outcome| {
        findings
            .iter()
            .filter(|f| f.stage == stage && f.outcome == outcome && f.check != "number.detected")
            .find_map(|f| short(f).map(|words| (outcome, words)))
    })
}

/// A finding in two or three words.
fn short(f: &Finding) -> Option<String> {
    let first = f.compared.first().and_then(|c| c.amount.value());
    let number = |digits| first.map(|v| significant(v, digits));
    let met = f.outcome == Outcome::Met;
    Some(match (f.check.as_str(), f.outcome) {
        ("well.contact-time", _) => format!("contact {} min", number(2)?),
        ("well.flow", Outcome::NotKnown) => "flow not timed".into(),
        ("well.flow-steady", Outcome::NotMet) => "flow not steady".into(),
        ("air.class", Outcome::Met) => "class shown".into(),
        ("air.class", Outcome::NotMet) => "class not reached".into(),
        ("air.class", Outcome::NotKnown) => "class not shown".into(),
        ("bottle.lot-blank", Outcome::Met) => "lot blanks low".into(),
        ("bottle.lot-blank", Outcome::NotMet) => "lot blanks high".into(),
        ("bottle.lot-blank", Outcome::NotKnown) => "no lot blank".into(),
        ("cool-box.seal", Outcome::Met) => "seals whole".into(),
        ("cool-box.seal", Outcome::NotMet) => "seal broken".into(),
        ("cool-box.seal", Outcome::NotKnown) => "no custody".into(),
        ("cool-box.holding-time", Outcome::NotMet) => "held too long".into(),
        ("cool-box.acidified", Outcome::NotMet) => "acid late".into(),
        ("run.reference-material", _) if met => "in control".into(),
        ("run.reference-material", Outcome::NotMet) => "not in control".into(),
        ("run.interference", Outcome::NotMet) => "overlap corrected".into(),
        ("run.isotopes-agree", Outcome::NotMet) => "isotopes disagree".into(),
        ("run.calibration-line", Outcome::NotMet) => "line misfits".into(),
        ("number.recovery", Outcome::NotKnown) => "no spike here".into(),
        ("number.recovery", _) => format!("recovery {} %", percent(first?, 2)),
        ("number.duplicates", Outcome::NotMet) => "bottles disagree".into(),
        ("number.duplicates", Outcome::NotKnown) => "no second bottle".into(),
        ("number.duplicates", Outcome::Met) => "bottles agree".into(),
        _ => return None,
    })
}
