//! What findings add up to, by the programme's own table of checks.
//!
//! * rejected: a check that the programme calls decisive is not met;
//! * provisional: decisive evidence is missing, or a warning check is not met and nobody signed;
//! * accepted: all decisive checks are met.
//!
//! Where a person chose a profile for a result, its rules stand before those of the table ([`crate::profiles`]).
//!
//! There is no score. A check that the table does not name is a note. Where no decisive check was
//! made at all, nothing is accepted. Checked below.

use crate::profiles::Profile;
use message::Message;
use quantity::{Check, Finding, Outcome};
use record::model::{CheckRule, VerdictWord, Weight};
use std::collections::HashMap;

/// The checks a new programme starts with; a person changes them in the programme.
pub const DEFAULT_CHECKS: &str = include_str!("../../../reference/default_checks.csv");

/// The reason of a verdict where no decisive check was made.
pub const NO_DECISIVE_CHECK: &str = "no-decisive-check";

/// A verdict as it is said.
pub fn said(word: VerdictWord) -> Message {
    match word {
        VerdictWord::Accepted => message::word::Accepted.into(),
        VerdictWord::Provisional => message::word::Provisional.into(),
        VerdictWord::Rejected => message::word::Rejected.into(),
    }
}

/// A verdict as it is said, with the profile that it was judged by.
pub fn said_by(word: VerdictWord, profile: Option<&str>) -> Message {
    match profile {
        None => said(word),
        Some(profile) => message::laboratory::VerdictBy { verdict: said(word), profile: profile.into() }.into(),
    }
}

/// The programme's table of checks.
#[derive(Debug, Clone, Default)]
pub struct Rules {
    rules: HashMap<Check, CheckRule>,
    unknown: Vec<String>,
}

/// A verdict and the checks that brought it about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judged {
    /// The word.
    pub word: VerdictWord,
    /// Names of the checks that decided, in the order of the findings; empty for accepted.
    pub reasons: Vec<String>,
    /// The profile that judged; none: the programme's table alone.
    pub profile: Option<String>,
}

impl Judged {
    fn of(word: VerdictWord, reasons: Vec<String>, profile: Option<&Profile>) -> Self {
        Self { word, reasons, profile: profile.map(|p| p.name.clone()) }
    }
}

impl Rules {
    /// From the newest revision of each check.
    pub fn new(rules: Vec<CheckRule>) -> Self {
        let mut out = Self::default();
        for r in rules {
            match Check::from_text(&r.check_name).filter(|c| c.is_weighed()) {
                None => out.unknown.push(r.check_name),
                // A rule under the name of today goes before one under an earlier name.
                Some(c) if c.text() == r.check_name || !out.rules.contains_key(&c) => {
                    out.rules.insert(c, r);
                }
                Some(_) => {}
            }
        }
        out
    }

    /// Names in the table that no check of this program bears: what they say decides nothing.
    pub fn unknown(&self) -> &[String] {
        &self.unknown
    }

    /// What the programme says of a check.
    pub fn of(&self, check: Check) -> Option<&CheckRule> {
        self.rules.get(&check)
    }

    /// Checks of this version that the programme's table does not name, in the order of the path: notes, until a person
    /// takes them in.
    pub fn untaken(&self) -> Vec<Check> {
        Check::ALL.iter().copied().filter(|c| c.is_weighed() && !self.rules.contains_key(c)).collect()
    }

    /// What a check decides.
    pub fn weight(&self, check: Check) -> Weight {
        self.rules.get(&check).map_or(Weight::Note, |r| r.weight)
    }

    /// Checks of a weight, in the order of the path.
    pub fn of_weight(&self, weight: Weight) -> Vec<Check> {
        let weighed = Check::ALL.iter().copied().filter(|c| c.is_weighed());
        weighed.filter(|c| self.weight(*c) == weight).collect()
    }

    /// The programme's own limit for a check, or what the program takes where none is set.
    pub fn limit(&self, check: Check, otherwise: f64) -> f64 {
        self.rules.get(&check).and_then(|r| r.limit_value).unwrap_or(otherwise)
    }

    /// Longest contact of the water with the pipe, min.
    pub fn longest_contact_min(&self) -> f64 {
        self.limit(Check::WellContactTime, aquifer::well::LONGEST_CONTACT_MIN)
    }

    /// The verdict of findings; `signed` when a person stands for what the warnings say.
    pub fn judge(&self, findings: &[Finding], signed: bool) -> Judged {
        self.judge_by(None, findings, signed)
    }

    /// What a check decides by what came of it, where a profile judges. What was measured and is not met keeps the
    /// table's weight where that is the heavier one: a profile asks for other evidence, it does not unsay what there is.
    fn weight_by(&self, profile: Option<&Profile>, (check, outcome): (Check, Outcome)) -> Weight {
        let table = self.weight(check);
        match profile.and_then(|p| p.weight(check)) {
            None => table,
            // The words stand in the order of their weight, the heaviest first.
            Some(own) if outcome == Outcome::NotMet => own.min(table),
            Some(own) => own,
        }
    }

    /// As [`Self::judge`], with the rules of a profile before those of the table.
    pub fn judge_by(&self, profile: Option<&Profile>, findings: &[Finding], signed: bool) -> Judged {
        let found: Vec<(Check, Outcome)> = findings.iter().map(|f| (f.check, f.outcome)).collect();
        self.judge_outcomes(profile, &found, signed)
    }

    /// The same of checks with what came of them: no sentence moves a verdict.
    pub fn judge_outcomes(&self, profile: Option<&Profile>, found: &[(Check, Outcome)], signed: bool) -> Judged {
        let weight = |of: &(Check, Outcome)| self.weight_by(profile, *of);
        let named = |wanted: fn(Weight, Outcome) -> bool| -> Vec<String> {
            let decides = |of: &&(Check, Outcome)| wanted(weight(of), of.1);
            let mut names: Vec<String> =
                found.iter().filter(decides).map(|(check, _)| check.text().to_string()).collect();
            names.dedup();
            names
        };
        if !found.iter().any(|of| weight(of) == Weight::Decisive) {
            return Judged::of(VerdictWord::Provisional, vec![NO_DECISIVE_CHECK.into()], profile);
        }
        let rejected = named(|w, o| w == Weight::Decisive && o == Outcome::NotMet);
        if !rejected.is_empty() {
            return Judged::of(VerdictWord::Rejected, rejected, profile);
        }
        let open = if signed {
            named(|w, o| w == Weight::Decisive && o == Outcome::NotKnown)
        } else {
            named(|w, o| {
                (w == Weight::Decisive && o == Outcome::NotKnown) || (w == Weight::Warning && o == Outcome::NotMet)
            })
        };
        if !open.is_empty() {
            return Judged::of(VerdictWord::Provisional, open, profile);
        }
        Judged::of(VerdictWord::Accepted, vec![], profile)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn rule(name: &str, weight: Weight) -> CheckRule {
        CheckRule {
            id: 0,
            check_name: name.into(),
            revision: 1,
            weight,
            limit_value: None,
            limit_unit: None,
            why: None,
        }
    }

    const DECIDES: Check = Check::NumberRecovery;
    const WARNS: Check = Check::AirClass;
    /// In the table of no programme of this test.
    const UNSAID: Check = Check::WellOxygen;

    fn rules() -> Rules {
        Rules::new(vec![rule(DECIDES.text(), Weight::Decisive), rule(WARNS.text(), Weight::Warning)])
    }

    #[track_caller]
    fn check(findings: &[(Check, Outcome)], signed: bool, word: VerdictWord, reasons: &[&str]) {
        let findings: Vec<Finding> =
            findings.iter().map(|(c, o)| Finding::kept(*c, *o, quantity::Lang::En, "")).collect();
        let judged = rules().judge(&findings, signed);
        assert_eq!((judged.word, judged.reasons), (word, reasons.iter().map(ToString::to_string).collect()));
    }

    #[test]
    fn the_three_words() {
        use Outcome::{Met, NotKnown, NotMet};
        use VerdictWord::{Accepted, Provisional, Rejected};
        let (decides, warns) = (DECIDES.text(), WARNS.text());
        check(&[(DECIDES, Met), (WARNS, Met)], false, Accepted, &[]);
        check(&[(DECIDES, NotMet), (WARNS, NotMet)], false, Rejected, &[decides]);
        check(&[(DECIDES, NotKnown)], false, Provisional, &[decides]);
        check(&[(DECIDES, Met), (WARNS, NotMet)], false, Provisional, &[warns]);
        check(&[(DECIDES, Met), (WARNS, NotMet)], true, Accepted, &[]);
        check(&[(DECIDES, NotKnown)], true, Provisional, &[decides]);
        check(&[(DECIDES, NotMet)], true, Rejected, &[decides]);
        check(&[(DECIDES, Met), (WARNS, NotKnown), (UNSAID, NotMet)], false, Accepted, &[]);
        check(&[(WARNS, Met)], true, Provisional, &[NO_DECISIVE_CHECK]);
        check(&[], false, Provisional, &[NO_DECISIVE_CHECK]);
    }

    #[test]
    fn a_profile_asks_for_other_evidence_and_unsays_nothing() {
        use Outcome::{Met, NotKnown, NotMet};
        use VerdictWord::{Accepted, Provisional, Rejected};
        const OWN: Check = Check::LabBlank;
        let profile = Profile::with("lab", &[(DECIDES, Weight::Note), (OWN, Weight::Decisive)]);
        let judge = |findings: &[(Check, Outcome)]| {
            let findings: Vec<Finding> =
                findings.iter().map(|(c, o)| Finding::kept(*c, *o, quantity::Lang::En, "")).collect();
            let judged = rules().judge_by(Some(&profile), &findings, false);
            assert_eq!(judged.profile.as_deref(), Some("lab"));
            (judged.word, judged.reasons)
        };
        // What the table asks for and nobody measured, the profile does without; its own takes the place.
        assert_eq!(judge(&[(DECIDES, NotKnown), (OWN, Met)]), (Accepted, vec![]));
        assert_eq!(judge(&[(DECIDES, NotKnown), (OWN, NotKnown)]), (Provisional, vec![OWN.text().into()]));
        // What was measured and is not met, it does not lighten.
        assert_eq!(judge(&[(DECIDES, NotMet), (OWN, Met)]), (Rejected, vec![DECIDES.text().into()]));
        assert_eq!(judge(&[(WARNS, NotMet), (OWN, Met)]), (Provisional, vec![WARNS.text().into()]));
        assert_eq!(judge(&[(DECIDES, Met)]), (Provisional, vec![NO_DECISIVE_CHECK.into()]));
    }

    #[test]
    fn the_table_of_a_new_programme_has_every_check_once_and_no_other() {
        let mut rows = csv::Reader::from_reader(DEFAULT_CHECKS.as_bytes());
        let mut named = BTreeSet::new();
        for row in rows.records() {
            let row = row.unwrap();
            assert!(Weight::from_word(&row[1]).is_some(), "{row:?}");
            assert!(named.insert(row[0].to_string()), "{} stands twice", &row[0]);
        }
        let weighed = Check::ALL.iter().filter(|c| c.is_weighed()).map(|c| c.text().to_string());
        assert_eq!(named, weighed.collect());
    }

    /// One number wherever a contact is held against the longest: with and without a row of the programme.
    #[test]
    fn the_longest_contact_is_one_number() {
        let mut rows = csv::Reader::from_reader(DEFAULT_CHECKS.as_bytes());
        let row = rows.records().map(Result::unwrap).find(|r| &r[0] == Check::WellContactTime.text()).unwrap();
        assert_eq!((row[2].parse(), &row[3]), (Ok(Rules::default().longest_contact_min()), "min"));
        let own = CheckRule { limit_value: Some(45.0), ..rule(Check::WellContactTime.text(), Weight::Warning) };
        assert!((Rules::new(vec![own]).longest_contact_min() - 45.0).abs() < f64::EPSILON);
    }

    #[test]
    fn a_rule_of_a_check_that_nobody_makes_is_told_by_its_name() {
        let rules = Rules::new(vec![
            rule("number.water-shore", Weight::Decisive),
            rule("file.value", Weight::Decisive),
            rule(WARNS.text(), Weight::Warning),
        ]);
        assert_eq!(rules.unknown(), ["number.water-shore", "file.value"]);
        assert_eq!(rules.weight(Check::NumberWaterShare), Weight::Note);
    }

    #[test]
    fn a_rule_under_an_earlier_name_speaks_of_the_check_of_today() {
        let old = || rule("meaning.oxygen-sulfide", Weight::Warning);
        let new = || rule(Check::MeaningOxygenBesideSulfide.text(), Weight::Decisive);
        assert_eq!(Rules::new(vec![old()]).weight(Check::MeaningOxygenBesideSulfide), Weight::Warning);
        for rules in [vec![old(), new()], vec![new(), old()]] {
            let rules = Rules::new(rules);
            assert_eq!(rules.weight(Check::MeaningOxygenBesideSulfide), Weight::Decisive);
            assert!(rules.unknown().is_empty());
        }
    }
}
