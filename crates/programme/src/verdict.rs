//! What findings add up to, by the programme's own table of checks.
//!
//! * rejected: a check that the programme calls decisive is not met;
//! * provisional: decisive evidence is missing, or a warning check is not met and nobody signed;
//! * accepted: all decisive checks are met.
//!
//! There is no score. A check that the table does not name is a note. Where no decisive check was
//! made at all, nothing is accepted. Checked below.

use crate::model::{CheckRule, VerdictWord, Weight};
use quantity::{Finding, Outcome};
use std::collections::HashMap;

/// The checks a new programme starts with; a person changes them in the programme.
pub const DEFAULT_CHECKS: &str = include_str!("../../../reference/default_checks.csv");

/// The reason of a verdict where no decisive check was made.
pub const NO_DECISIVE_CHECK: &str = "no-decisive-check";

/// The programme's table of checks.
#[derive(Debug, Clone, Default)]
pub struct Rules(HashMap<String, CheckRule>);

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
        Self(rules.into_iter().map(|r| (r.check_name.clone(), r)).collect())
    }

    /// What a check decides.
    pub fn weight(&self, check: &str) -> Weight {
        self.0.get(check).map_or(Weight::Note, |r| r.weight)
    }

    /// The programme's own limit for a check, or what the program takes where none is set.
    pub fn limit(&self, check: &str, otherwise: f64) -> f64 {
        self.0.get(check).and_then(|r| r.limit_value).unwrap_or(otherwise)
    }

    /// The verdict of findings; `signed` when a person stands for what the warnings say.
    pub fn judge(&self, findings: &[Finding], signed: bool) -> Judged {
        let named = |wanted: fn(Weight, Outcome) -> bool| -> Vec<String> {
            let mut names: Vec<String> =
                findings.iter().filter(|f| wanted(self.weight(&f.check), f.outcome)).map(|f| f.check.clone()).collect();
            names.dedup();
            names
        };
        if !findings.iter().any(|f| self.weight(&f.check) == Weight::Decisive) {
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
    use quantity::Stage;

    fn rules() -> Rules {
        let rule = |name: &str, weight| CheckRule {
            id: 0,
            check_name: name.into(),
            revision: 1,
            weight,
            limit_value: None,
            limit_unit: None,
            why: None,
        };
        Rules::new(vec![rule("a.decides", Weight::Decisive), rule("a.warns", Weight::Warning)])
    }

    #[track_caller]
    fn check(findings: &[(&str, Outcome)], signed: bool, word: VerdictWord, reasons: &[&str]) {
        let findings: Vec<Finding> = findings.iter().map(|(n, o)| Finding::new(n, Stage::Number, *o, "")).collect();
        let judged = rules().judge(&findings, signed);
        assert_eq!((judged.word, judged.reasons), (word, reasons.iter().map(ToString::to_string).collect()));
    }

    #[test]
    fn the_three_words() {
        use Outcome::{Met, NotKnown, NotMet};
        use VerdictWord::{Accepted, Provisional, Rejected};
        check(&[("a.decides", Met), ("a.warns", Met)], false, Accepted, &[]);
        check(&[("a.decides", NotMet), ("a.warns", NotMet)], false, Rejected, &["a.decides"]);
        check(&[("a.decides", NotKnown)], false, Provisional, &["a.decides"]);
        check(&[("a.decides", Met), ("a.warns", NotMet)], false, Provisional, &["a.warns"]);
        check(&[("a.decides", Met), ("a.warns", NotMet)], true, Accepted, &[]);
        check(&[("a.decides", NotKnown)], true, Provisional, &["a.decides"]);
        check(&[("a.decides", NotMet)], true, Rejected, &["a.decides"]);
        check(&[("a.decides", Met), ("a.warns", NotKnown), ("nobody.knows", NotMet)], false, Accepted, &[]);
        check(&[("a.warns", Met)], true, Provisional, &[NO_DECISIVE_CHECK]);
        check(&[], false, Provisional, &[NO_DECISIVE_CHECK]);
    }
}
