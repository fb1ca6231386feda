//! Names and short forms.

use assessment::results::WaterShare;
use message::{Digits, Message, Share, Shown, Spoken, path, word};
use quantity::{Check, Finding, Outcome, Stage};

/// Conditions of the water, not something dissolved in it.
pub const CONDITIONS: [&str; 5] = ["temperature", "pH", "Eh", "conductivity", "dissolved oxygen"];

/// What the blanks leave, numbers alone: `0.93 (0.89–0.97)`.
pub fn numbers_of_share(s: &WaterShare) -> String {
    let [share, low, high] = s.shown().map(|x| x.text());
    format!("{share} ({low}–{high})")
}

/// With its first letter large; a name such as pH stays as it is.
pub fn capital(text: impl AsRef<str>) -> String {
    let text = text.as_ref();
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

/// A finding in a few words, where it has such a form.
pub fn in_few_words(f: &Finding) -> Option<String> {
    short(f)
}

/// A finding in two or three words.
fn short(f: &Finding) -> Option<String> {
    let first = f.compared.first().and_then(|c| c.amount.value());
    let met = f.outcome == Outcome::Met;
    let said: Message = match (f.check, f.outcome) {
        (Check::WellContactTime, _) => path::Contact { contact: Shown::significant(first?, 2, "min") }.into(),
        (Check::WellFlow, Outcome::NotKnown) => path::FlowNotTimed.into(),
        (Check::WellFlowSteady, Outcome::NotMet) => path::FlowNotSteady.into(),
        (Check::AirClass, Outcome::Met) => path::ClassShown.into(),
        (Check::AirClass, Outcome::NotMet) => path::ClassNotReached.into(),
        (Check::AirClass, Outcome::NotKnown) => path::ClassNotShown.into(),
        (Check::BottleLotBlank, Outcome::Met) => path::LotBlanksLow.into(),
        (Check::BottleLotBlank, Outcome::NotMet) => path::LotBlanksHigh.into(),
        (Check::BottleLotBlank, Outcome::NotKnown) => path::NoLotBlank.into(),
        (Check::CoolBoxSeal, Outcome::Met) => path::SealsWhole.into(),
        (Check::CoolBoxSeal, Outcome::NotMet) => path::SealBroken.into(),
        (Check::CoolBoxSeal, Outcome::NotKnown) => path::NoCustody.into(),
        (Check::CoolBoxHoldingTime, Outcome::NotMet) => path::HeldTooLong.into(),
        (Check::CoolBoxAcidified, Outcome::NotMet) => path::AcidLate.into(),
        (Check::RunReferenceMaterial, _) if met => word::InControl.into(),
        (Check::RunReferenceMaterial, Outcome::NotMet) => path::NotInControl.into(),
        (Check::RunInterference, Outcome::NotMet) => path::OverlapCorrected.into(),
        (Check::RunIsotopesAgree, Outcome::NotMet) => path::IsotopesDisagree.into(),
        (Check::RunCalibrationLine, Outcome::NotMet) => path::LineMisfits.into(),
        (Check::NumberRecovery, Outcome::NotKnown) => path::NoSpikeHere.into(),
        (Check::NumberRecovery, _) => path::Recovery { recovery: Share::new(first?, Digits::Significant(2)) }.into(),
        (Check::NumberDuplicates, Outcome::NotMet) => path::BottlesDisagree.into(),
        (Check::NumberDuplicates, Outcome::NotKnown) => path::NoSecondBottle.into(),
        (Check::NumberDuplicates, Outcome::Met) => path::BottlesAgree.into(),
        _ => return None,
    };
    Some(said.text())
}
