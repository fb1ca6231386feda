//! What findings add up to, by the programme's own table of checks.
//!
//! * rejected: a check that the programme calls decisive is not met;
//! * provisional: decisive evidence is missing, or a warning check is not met and nobody signed;
//! * accepted: all decisive checks are met.
//!
//! There is no score. A check that the table does not name is a note. Where no decisive check was
//! made at all, nothing is accepted. Checked below.

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
        let found: Vec<(Check, Outcome)> = findings.iter().map(|f| (f.check, f.outcome)).collect();
        self.judge_outcomes(&found, signed)
    }

    /// The same of checks with what came of them: no sentence moves a verdict.
    pub fn judge_outcomes(&self, found: &[(Check, Outcome)], signed: bool) -> Judged {
        let named = |wanted: fn(Weight, Outcome) -> bool| -> Vec<String> {
            let decides = |(check, outcome): &&(Check, Outcome)| wanted(self.weight(*check), *outcome);
            let mut names: Vec<String> =
                found.iter().filter(decides).map(|(check, _)| check.text().to_string()).collect();
            names.dedup();
            names
        };
        if !found.iter().any(|(check, _)| self.weight(*check) == Weight::Decisive) {
            return Judged { word: VerdictWord::Provisional, reasons: vec![NO_DECISIVE_CHECK.into()] };
        }
        let rejected = named(|w, o| w == Weight::Decisive && o == Outcome::NotMet);
        if !rejected.is_empty() {
            return Judged { word: VerdictWord::Rejected, reasons: rejected };
        }
        let open = if signed {
            named(|w, o| w == Weight::Decisive && o == Outcome::NotKnown)
        } else {
            named(|w, o| {
                (w == Weight::Decisive && o == Outcome::NotKnown) || (w == Weight::Warning && o == Outcome::NotMet)
            })
        };
        if !open.is_empty() {
            return Judged { word: VerdictWord::Provisional, reasons: open };
        }
        Judged { word: VerdictWord::Accepted, reasons: vec![] }
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
