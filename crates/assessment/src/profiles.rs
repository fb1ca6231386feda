//! Profiles of checks: rules that stand in place of the programme's table for results that were come by in another way
//! than by counts at ng/L. A person chooses which profile judges which results; where nobody chose, the programme's
//! table judges alone.
//!
//! What a profile cannot do:
//!
//! * judge results of another basis than its own: one for laboratories judges nothing that was derived from counts;
//! * lighten what was measured and is not met: such a finding keeps the weight of the programme's table where that is
//!   the heavier one ([`Rules::judge_by`](crate::verdict::Rules::judge_by));
//! * go unseen: the verdict bears its name.
//!
//! In: the record's profiles, their rules and choices. Out: [`Profiles`]. Checked in `crates/programme/tests/profiles.rs`.

use message::laboratory as said;
use quantity::{Check, Finding, Outcome};
use record::error::Error;
use record::model::{ProfileBasis, ProfileChoice, ProfileRule, ResultRow, Weight};
use record::store::Store;
use std::collections::HashMap;

/// The profiles that this version brings, a row a rule; a person takes them in by choosing one.
pub const SHIPPED: &str = include_str!("../../../reference/check_profiles.csv");

/// What a meter reads, by the names of the record.
pub const METER_QUANTITIES: [&str; 6] = ["temperature", "pH", "Eh", "conductivity", "dissolved oxygen", "turbidity"];

/// A profile with the newest revision of each of its rules.
#[derive(Debug, Clone)]
pub struct Profile {
    /// Its name.
    pub name: String,
    /// Which results it may judge.
    pub basis: ProfileBasis,
    rules: HashMap<Check, ProfileRule>,
}

impl Profile {
    /// One of these rules, for tests.
    #[cfg(test)]
    pub(crate) fn with(name: &str, rules: &[(Check, Weight)]) -> Self {
        let rule = |(check, weight): &(Check, Weight)| {
            let rule = ProfileRule {
                id: 0,
                profile_id: 0,
                profile: name.into(),
                check_name: check.text().into(),
                revision: 1,
                weight: *weight,
                limit_value: None,
                limit_unit: None,
                why: None,
            };
            (*check, rule)
        };
        Self { name: name.into(), basis: ProfileBasis::Reported, rules: rules.iter().map(rule).collect() }
    }

    /// What it says of a check; none where it leaves it to the programme's table.
    pub fn weight(&self, check: Check) -> Option<Weight> {
        self.rules.get(&check).map(|r| r.weight)
    }

    /// Its limit for a check, or what is taken where it sets none.
    pub fn limit(&self, check: Check, otherwise: f64) -> f64 {
        self.rules.get(&check).and_then(|r| r.limit_value).unwrap_or(otherwise)
    }
}

/// All profiles on record, and which judges what.
#[derive(Debug, Clone, Default)]
pub struct Profiles {
    all: HashMap<String, Profile>,
    /// For each set of results the last choice.
    choices: Vec<ProfileChoice>,
}

impl Profiles {
    /// From the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let mut all: HashMap<String, Profile> = HashMap::new();
        for p in store.check_profiles()? {
            all.insert(p.name.clone(), Profile { name: p.name, basis: p.basis, rules: HashMap::new() });
        }
        if all.is_empty() {
            return Ok(Self::default());
        }
        for rule in store.profile_rules()? {
            let check = Check::from_text(&rule.check_name).filter(|c| c.is_weighed());
            if let (Some(profile), Some(check)) = (all.get_mut(&rule.profile), check) {
                profile.rules.insert(check, rule);
            }
        }
        let mut out = Self { all, choices: vec![] };
        for c in store.profile_choices()? {
            out.choose(c);
        }
        Ok(out)
    }

    fn basis(&self, choice: &ProfileChoice) -> Option<ProfileBasis> {
        choice.profile.as_ref().and_then(|name| self.all.get(name)).map(|p| p.basis)
    }

    /// A choice takes the place of an earlier one of the same results; the table again takes the place of all of them.
    fn choose(&mut self, choice: ProfileChoice) {
        let basis = self.basis(&choice);
        let same = |c: &ProfileChoice| {
            (&c.laboratory, &c.analyte) == (&choice.laboratory, &choice.analyte)
                && (choice.profile.is_none() || self.basis(c) == basis || c.profile.is_none())
        };
        let kept = self.choices.iter().filter(|c| !same(c)).cloned().collect();
        self.choices = kept;
        self.choices.push(choice);
    }

    /// The choices that stand, in the order in which they were made.
    pub fn standing(&self) -> &[ProfileChoice] {
        &self.choices
    }

    /// Whether nobody chose any.
    pub fn is_empty(&self) -> bool {
        self.choices.is_empty()
    }

    /// A profile by name.
    pub fn get(&self, name: &str) -> Option<&Profile> {
        self.all.get(name)
    }

    /// Which profile judges an element or quantity that a laboratory measured, and the choice that says so; the choice
    /// that says most of the result counts: laboratory and analyte, laboratory, analyte, neither.
    pub fn of_result(
        &self,
        laboratory: Option<&str>,
        analyte: &str,
        from_counts: bool,
    ) -> Option<(&Profile, &ProfileChoice)> {
        let fits = |basis: ProfileBasis| match basis {
            ProfileBasis::Counts => from_counts,
            ProfileBasis::Reported => !from_counts,
            ProfileBasis::Meter => !from_counts && METER_QUANTITIES.contains(&analyte),
        };
        let of = |c: &&ProfileChoice| {
            c.laboratory.as_deref().is_none_or(|l| Some(l) == laboratory)
                && c.analyte.as_deref().is_none_or(|a| a == analyte)
                && self.basis(c).is_none_or(fits)
        };
        // A profile for meters says more of a pH than one for all that laboratories report; later choices before earlier.
        let says = |c: &&ProfileChoice| {
            let meter = self.basis(c) == Some(ProfileBasis::Meter);
            (c.laboratory.is_some(), c.analyte.is_some(), meter)
        };
        let choice = self.choices.iter().filter(of).max_by_key(says)?;
        Some((self.all.get(choice.profile.as_ref()?)?, choice))
    }

    /// As [`Self::of_result`], of a row.
    pub fn of_row(&self, r: &ResultRow) -> Option<(&Profile, &ProfileChoice)> {
        self.of_result(r.laboratory.as_deref(), &r.analyte, r.vial_id.is_some())
    }

    /// The one profile that judges all results of a verdict; none where they would be judged by different ones: then
    /// the programme's table judges, which asks no less.
    pub fn of_all<'r>(&self, rows: impl Iterator<Item = &'r ResultRow>) -> Option<(&Profile, &ProfileChoice)> {
        let mut one = None;
        for r in rows {
            let (profile, choice) = self.of_row(r)?;
            match one {
                None => one = Some((profile, choice)),
                Some((first, _)) if first.name == profile.name => {}
                Some(_) => return None,
            }
        }
        one
    }
}

/// That a profile judged, and why it was chosen.
pub fn finding(profile: &Profile, choice: &ProfileChoice) -> Finding {
    let says = said::Profile { profile: profile.name.as_str().into(), why: choice.why.as_str().into() };
    Finding::new(Check::NumberProfile, Outcome::Met, says)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn choice(n: i64, profile: Option<&str>, laboratory: Option<&str>, analyte: Option<&str>) -> ProfileChoice {
        let text = |t: Option<&str>| t.map(String::from);
        let (profile, laboratory, analyte) = (text(profile), text(laboratory), text(analyte));
        ProfileChoice { id: n, profile, laboratory, analyte, why: "x".into(), person: None, event: n }
    }

    fn profiles(choices: Vec<ProfileChoice>) -> Profiles {
        let of = |(name, basis): (&str, ProfileBasis)| {
            (name.to_string(), Profile { name: name.into(), basis, rules: HashMap::new() })
        };
        let all = [
            ("lab", ProfileBasis::Reported),
            ("strict", ProfileBasis::Reported),
            ("meter", ProfileBasis::Meter),
            ("counts", ProfileBasis::Counts),
        ];
        let mut out = Profiles { all: all.map(of).into(), choices: vec![] };
        for c in choices {
            out.choose(c);
        }
        out
    }

    #[track_caller]
    fn check(p: &Profiles, laboratory: Option<&str>, analyte: &str, from_counts: bool, expected: Option<&str>) {
        assert_eq!(p.of_result(laboratory, analyte, from_counts).map(|(p, _)| p.name.as_str()), expected);
    }

    #[test]
    fn the_choice_that_says_most_of_a_result_counts_and_none_reaches_another_basis() {
        let p = profiles(vec![
            choice(1, Some("lab"), None, None),
            choice(2, Some("strict"), Some("A"), Some("Pb")),
            choice(3, Some("meter"), None, None),
        ]);
        check(&p, Some("A"), "Ca", false, Some("lab"));
        check(&p, Some("A"), "Pb", false, Some("strict"));
        check(&p, Some("B"), "Pb", false, Some("lab"));
        check(&p, None, "pH", false, Some("meter"));
        // No profile for laboratories or meters judges what was counted.
        check(&p, Some("A"), "Pb", true, None);
        check(&p, None, "pH", true, None);
    }

    #[test]
    fn the_last_choice_of_the_same_results_counts_and_the_table_comes_back() {
        let p = profiles(vec![choice(1, Some("lab"), None, None), choice(2, Some("strict"), None, None)]);
        check(&p, None, "Ca", false, Some("strict"));
        let p = profiles(vec![
            choice(1, Some("lab"), None, None),
            choice(2, Some("counts"), None, None),
            choice(3, None, None, Some("Ca")),
        ]);
        check(&p, None, "Ca", false, None);
        check(&p, None, "Mg", false, Some("lab"));
        check(&p, None, "Mg", true, Some("counts"));
        let p = profiles(vec![choice(1, Some("lab"), None, None), choice(2, None, None, None)]);
        assert!(!p.is_empty());
        check(&p, None, "Mg", false, None);
        let again = profiles(vec![choice(1, None, None, None), choice(2, Some("lab"), None, None)]);
        check(&again, None, "Mg", false, Some("lab"));
    }

    #[test]
    fn the_shipped_profiles_name_checks_of_this_version_once_each() {
        let mut rows = csv::Reader::from_reader(SHIPPED.as_bytes());
        let mut seen = BTreeSet::new();
        for row in rows.records() {
            let row = row.unwrap();
            assert!(ProfileBasis::from_word(&row[1]).is_some(), "{row:?}");
            let check = Check::from_text(&row[2]).unwrap_or_else(|| panic!("{row:?}"));
            assert!(check.is_weighed() && Weight::from_word(&row[3]).is_some(), "{row:?}");
            assert!(seen.insert((row[0].to_string(), check)), "{row:?} stands twice");
            assert!(!row[6].is_empty(), "a rule has its reason: {row:?}");
        }
        // Each has something that decides: where nothing does, nothing is accepted.
        let names: BTreeSet<&String> = seen.iter().map(|(name, _)| name).collect();
        assert_eq!(names.len(), 3);
    }
}
