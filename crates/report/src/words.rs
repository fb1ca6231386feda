//! Names and short forms.

use quantity::format::{percent, significant};
use quantity::{Check, Finding, Outcome, Stage};

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
    if text.chars().nth(1).is_some_and(char::is_uppercase) { text.to_string() } else { quantity::format::capital(text) }
}

/// The finding that speaks for a stage in a picture: one that is not met before one that is not
/// known before one that is met, and of those the first that has a short form.
pub fn speaking(findings: &[Finding], stage: Stage) -> Option<(Outcome, String)> {
    [Outcome::NotMet, Outcome::NotKnown, Outcome::Met].into_iter().find_map(|outcome| {
        findings
            .iter()
            .filter(|f| f.stage == stage && f.outcome == outcome && f.check != Check::NumberDetected)
            .find_map(|f| short(f).map(|words| (outcome, words)))
    })
}

/// A finding in two or three words.
fn short(f: &Finding) -> Option<String> {
    let first = f.compared.first().and_then(|c| c.amount.value());
    let number = |digits| first.map(|v| significant(v, digits));
    let met = f.outcome == Outcome::Met;
    Some(match (f.check, f.outcome) {
        (Check::WellContactTime, _) => format!("contact {} min", number(2)?),
        (Check::WellFlow, Outcome::NotKnown) => "flow not timed".into(),
        (Check::WellFlowSteady, Outcome::NotMet) => "flow not steady".into(),
        (Check::AirClass, Outcome::Met) => "class shown".into(),
        (Check::AirClass, Outcome::NotMet) => "class not reached".into(),
        (Check::AirClass, Outcome::NotKnown) => "class not shown".into(),
        (Check::BottleLotBlank, Outcome::Met) => "lot blanks low".into(),
        (Check::BottleLotBlank, Outcome::NotMet) => "lot blanks high".into(),
        (Check::BottleLotBlank, Outcome::NotKnown) => "no lot blank".into(),
        (Check::CoolBoxSeal, Outcome::Met) => "seals whole".into(),
        (Check::CoolBoxSeal, Outcome::NotMet) => "seal broken".into(),
        (Check::CoolBoxSeal, Outcome::NotKnown) => "no custody".into(),
        (Check::CoolBoxHoldingTime, Outcome::NotMet) => "held too long".into(),
        (Check::CoolBoxAcidified, Outcome::NotMet) => "acid late".into(),
        (Check::RunReferenceMaterial, _) if met => "in control".into(),
        (Check::RunReferenceMaterial, Outcome::NotMet) => "not in control".into(),
        (Check::RunInterference, Outcome::NotMet) => "overlap corrected".into(),
        (Check::RunIsotopesAgree, Outcome::NotMet) => "isotopes disagree".into(),
        (Check::RunCalibrationLine, Outcome::NotMet) => "line misfits".into(),
        (Check::NumberRecovery, Outcome::NotKnown) => "no spike here".into(),
        (Check::NumberRecovery, _) => format!("recovery {} %", percent(first?, 2)),
        (Check::NumberDuplicates, Outcome::NotMet) => "bottles disagree".into(),
        (Check::NumberDuplicates, Outcome::NotKnown) => "no second bottle".into(),
        (Check::NumberDuplicates, Outcome::Met) => "bottles agree".into(),
        _ => return None,
    })
}
