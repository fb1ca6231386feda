//! Profiles of checks: the ones that this version brings, those on record, which results a person has each judge.
//!
//! In: names, rules as a table, a reason. Out: [`listed`], [`table`], and acts: [`choose`], [`keep`], [`make`]. A
//! profile comes on record with its rules when it is chosen or edited; what a later version ships under its name changes
//! nothing then. Revisions count themselves. What a profile decides stands in `assessment::profiles`. Checked in
//! `tests/profiles.rs`.

use crate::hands::nearest;
use crate::table_of_checks::{self, Ruled};
use crate::work::{self, Recomputed};
use assessment::profiles::{METER_QUANTITIES, Profiles, SHIPPED};
use record::by::{By, said};
use record::error::Error;
use record::model::{CheckProfile, ProfileBasis, ProfileChoice, ProfileRule, ResultRow, Weight};
use record::store::{Act, ActInfo, Cell, Filter, NamedCells, Store, StoreError};
use serde::Serialize;
use serde_json::json;
use std::collections::BTreeSet;

/// A profile with its rules.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Profile {
    /// Name.
    pub name: String,
    /// Which results it may judge.
    pub basis: ProfileBasis,
    /// Whether it is on record; else only this version has it.
    pub on_record: bool,
    /// Reason for having it; none for one of this version alone.
    pub why: Option<String>,
    /// Its rules.
    pub rules: Vec<Ruled>,
}

/// Which results a profile is to judge.
#[derive(Debug, Clone, Copy, Default)]
pub struct Scope<'a> {
    /// Only this laboratory.
    pub laboratory: Option<&'a str>,
    /// Only this element or quantity.
    pub analyte: Option<&'a str>,
}

/// A choice that stands, and of how many results it is the one that counts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Standing {
    /// The choice.
    #[serde(flatten)]
    pub choice: ProfileChoice,
    /// Results (newest revisions, blanks too) that it judges.
    pub results: usize,
}

/// The profiles that this version brings.
///
/// # Errors
/// [`Error::Unfit`] for a table that cannot be read.
pub fn shipped() -> Result<Vec<Profile>, Error> {
    let unfit = |found: String| Error::Unfit {
        what: "the table of profiles".into(),
        found,
        expected: "seven columns: profile, basis, check_name, weight, limit_value, limit_unit, why".into(),
    };
    let mut out: Vec<Profile> = vec![];
    let mut rows = csv::Reader::from_reader(SHIPPED.as_bytes());
    for row in rows.records() {
        let row = row.map_err(|e| unfit(e.to_string()))?;
        let text = |i: usize| row.get(i).filter(|t| !t.is_empty());
        let (Some(name), Some(basis)) = (text(0), text(1).and_then(ProfileBasis::from_word)) else {
            return Err(unfit(format!("{row:?}")));
        };
        let rule = Ruled {
            check_name: text(2).map(String::from).ok_or_else(|| unfit(format!("{row:?}")))?,
            weight: text(3).and_then(Weight::from_word).ok_or_else(|| unfit(format!("{row:?}")))?,
            limit_value: text(4).map(str::parse).transpose().map_err(|_| unfit(format!("{row:?}")))?,
            limit_unit: text(5).map(Into::into),
            why: text(6).map(Into::into),
        };
        match out.iter_mut().find(|p| p.name == name) {
            Some(p) => p.rules.push(rule),
            None => {
                out.push(Profile { name: name.into(), basis, on_record: false, why: None, rules: vec![rule] });
            }
        }
    }
    Ok(out)
}

fn ruled(r: ProfileRule) -> Ruled {
    let ProfileRule { check_name, weight, limit_value, limit_unit, why, .. } = r;
    Ruled { check_name, weight, limit_value, limit_unit, why }
}

/// All profiles: those on record, then those that this version alone has.
///
/// # Errors
/// The store cannot be read.
pub fn listed(store: &Store) -> Result<Vec<Profile>, Error> {
    let rules = store.profile_rules()?;
    let of = |p: CheckProfile| Profile {
        rules: rules.iter().filter(|r| r.profile_id == p.id).cloned().map(ruled).collect(),
        name: p.name,
        basis: p.basis,
        on_record: true,
        why: Some(p.why),
    };
    let mut out: Vec<Profile> = store.check_profiles()?.into_iter().map(of).collect();
    for p in shipped()? {
        if out.iter().all(|known| known.name != p.name) {
            out.push(p);
        }
    }
    Ok(out)
}

/// A profile by name, on record or of this version.
///
/// # Errors
/// [`Error::Absent`] with the names nearest; the store.
pub fn named(store: &Store, name: &str) -> Result<Profile, Error> {
    let all = listed(store)?;
    if let Some(p) = all.iter().find(|p| p.name == name) {
        return Ok(p.clone());
    }
    let names = nearest(name, all.iter().map(|p| p.name.as_str()), 5);
    Err(Error::absent("profile", name, format!("; the nearest: {}", names.join(", "))))
}

/// The rules of a profile as a sheet.
///
/// # Errors
/// As [`named`].
pub fn table(store: &Store, name: &str) -> Result<String, Error> {
    Ok(table_of_checks::write(&named(store, name)?.rules))
}

/// The choices that stand, with the results that each judges.
///
/// # Errors
/// The store cannot be read.
pub fn standing(store: &Store) -> Result<Vec<Standing>, Error> {
    let profiles = Profiles::of(store)?;
    let choices = profiles.standing();
    let mut out: Vec<Standing> = choices.iter().map(|c| Standing { choice: c.clone(), results: 0 }).collect();
    if !out.is_empty() {
        store.each(&Filter::all().latest(), |r: ResultRow| {
            if let Some((_, choice)) = profiles.of_row(&r)
                && let Some(s) = out.iter_mut().find(|s| s.choice.id == choice.id)
            {
                s.results += 1;
            }
            Ok(())
        })?;
    }
    Ok(out)
}

fn act_info(kind: &str, by: By, body: serde_json::Value) -> ActInfo {
    ActInfo { kind: kind.into(), author: by.person.into(), at: by.at.into(), body }
}

/// The row of a profile: on record, or put there with its rules.
fn ensure(act: &mut Act, p: &Profile, why: &str, person: i64) -> Result<i64, StoreError> {
    if let Some(id) = act.find("check_profile", &[Cell::Text(&p.name)])? {
        return Ok(id);
    }
    let mut cells = NamedCells::new("check_profile");
    cells.text("name", &p.name).text("basis", p.basis.word()).text("why", why).integer("person", person);
    let id = cells.insert(act)?;
    for rule in &p.rules {
        write(act, id, rule, rule.why.as_deref().unwrap_or(why))?;
    }
    Ok(id)
}

fn write(act: &mut Act, profile: i64, rule: &Ruled, why: &str) -> Result<(), StoreError> {
    let revision = act.next_revision("profile_rule", &[Cell::Integer(profile), Cell::Text(&rule.check_name)])?;
    let mut cells = NamedCells::new("profile_rule");
    cells.integer("profile", profile).text("check_name", &rule.check_name).integer("revision", revision);
    cells.text("weight", rule.weight.word()).real("limit_value", rule.limit_value).text("why", why);
    if let Some(unit) = &rule.limit_unit {
        cells.text("limit_unit", unit);
    }
    cells.insert(act).map(|_| ())
}

/// Has a profile judge results from now on, or the programme's table again where none is named; then everything is
/// judged anew.
///
/// # Errors
/// A reason that says nothing; a profile, laboratory or analyte that is not there; a profile that can judge none of
/// these results; what is chosen already; the store; [`Error::NotDerived`].
pub fn choose(store: &mut Store, name: Option<&str>, scope: Scope, why: &str, by: By) -> Result<Recomputed, Error> {
    said(why)?;
    let profile = name.map(|n| named(store, n)).transpose()?;
    reaches(store, profile.as_ref(), scope)?;
    let same = |c: &ProfileChoice| {
        (c.profile.as_deref(), c.laboratory.as_deref(), c.analyte.as_deref()) == (name, scope.laboratory, scope.analyte)
    };
    let choices = Profiles::of(store)?;
    if choices.standing().iter().any(same) || (name.is_none() && choices.is_empty()) {
        return Err(Error::Unfit {
            what: "the profile".into(),
            found: format!("{}, which judges these results already", name.unwrap_or("the programme's table")),
            expected: "another profile, or other results".into(),
        });
    }
    let body = json!({ "profile": name, "laboratory": scope.laboratory, "analyte": scope.analyte, "why": why });
    store.act::<_, StoreError>(&act_info("profile of checks chosen", by, body), |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let mut cells = NamedCells::new("profile_choice");
        if let Some(p) = &profile {
            let id = ensure(act, p, why, person)?;
            cells.integer("profile", id);
        }
        for (column, value) in [("laboratory", scope.laboratory), ("analyte", scope.analyte)] {
            if let Some(value) = value {
                cells.text(column, value);
            }
        }
        cells.text("why", why).integer("person", person);
        cells.insert(act).map(|_| ())
    })?;
    work::follow(store, by, &|_| true)
}

/// Refuses names that no result bears, and a profile that can judge none of the results named.
fn reaches(store: &Store, profile: Option<&Profile>, scope: Scope) -> Result<(), Error> {
    let (mut laboratories, mut analytes) = (BTreeSet::new(), BTreeSet::new());
    let (mut here, mut fits) = (0, 0);
    let runs: std::collections::HashMap<i64, Option<String>> =
        store.runs()?.into_iter().map(|r| (r.id, r.laboratory)).collect();
    laboratories.extend(runs.into_values().flatten());
    store.each(&Filter::all().latest(), |r: ResultRow| {
        let of_laboratory = scope.laboratory.is_none_or(|l| r.vial_id.is_some() || r.laboratory.as_deref() == Some(l));
        if of_laboratory && scope.analyte.is_none_or(|a| r.analyte == a) {
            here += 1;
            fits += usize::from(profile.is_none_or(|p| may_judge(p.basis, &r)));
        }
        laboratories.extend(r.laboratory);
        analytes.insert(r.analyte);
        Ok(())
    })?;
    for (what, asked, known) in [("laboratory", scope.laboratory, &laboratories), ("analyte", scope.analyte, &analytes)]
    {
        if let Some(asked) = asked.filter(|a| !known.contains(*a)) {
            let near = nearest(asked, known.iter().map(String::as_str), 5);
            let hint = if near.is_empty() { String::new() } else { format!("; the nearest: {}", near.join(", ")) };
            return Err(Error::absent(what, asked, hint));
        }
    }
    match profile {
        // Before the first results a programme may say by what they will be judged.
        Some(p) if here > 0 && fits == 0 => Err(Error::Unfit {
            what: format!("the profile \"{}\"", p.name),
            found: match p.basis {
                ProfileBasis::Counts => "results that were reported as concentrations".into(),
                ProfileBasis::Reported => "results that were derived from counts".to_string(),
                ProfileBasis::Meter => "results that no meter read".into(),
            },
            expected: match p.basis {
                ProfileBasis::Counts => "results derived from the counts of a run".into(),
                ProfileBasis::Reported => "results that a laboratory reported".to_string(),
                ProfileBasis::Meter => format!("reported results of {}", METER_QUANTITIES.join(", ")),
            },
        }),
        _ => Ok(()),
    }
}

fn may_judge(basis: ProfileBasis, r: &ResultRow) -> bool {
    match basis {
        ProfileBasis::Counts => r.vial_id.is_some(),
        ProfileBasis::Reported => r.vial_id.is_none(),
        ProfileBasis::Meter => r.vial_id.is_none() && METER_QUANTITIES.contains(&r.analyte.as_str()),
    }
}

/// A profile of the programme's own, with the rules of another to begin with.
///
/// # Errors
/// A reason that says nothing; a name that is taken or says nothing; the other is not there; the store.
pub fn make(store: &mut Store, name: &str, like: &str, why: &str, by: By) -> Result<(), Error> {
    said(why)?;
    let unfit = |found: String, expected: &str| Error::Unfit {
        what: "the name of a profile".into(),
        found,
        expected: expected.into(),
    };
    record::identity::fits(name).map_err(|e| unfit(format!("\"{name}\""), &e.in_english()))?;
    if !name.chars().any(char::is_alphanumeric) {
        return Err(unfit(format!("\"{name}\""), "a name with a letter or digit"));
    }
    if listed(store)?.iter().any(|p| p.name == name) {
        return Err(unfit(format!("\"{name}\", which is there"), "a new one"));
    }
    let profile = Profile { name: name.into(), on_record: false, why: None, ..named(store, like)? };
    let body = json!({ "profile": name, "like": like, "why": why });
    store.act::<_, StoreError>(&act_info("profile of checks made", by, body), |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        ensure(act, &profile, why, person).map(|_| ())
    })?;
    work::follow(store, by, &|_| true).map(|_| ())
}

/// Keeps an edited table of a profile: each rule that decides otherwise than it stands, as its next revision, in one
/// act; then everything is judged anew. A rule that the sheet leaves out stays as it is. Answers which changed.
///
/// # Errors
/// A reason that says nothing; a profile that is not there; a sheet that cannot be read; nothing that differs; the
/// store; [`Error::NotDerived`].
pub fn keep(store: &mut Store, name: &str, sheet: &str, why: &str, by: By) -> Result<(Vec<String>, Recomputed), Error> {
    said(why)?;
    let profile = named(store, name)?;
    let stands = |r: &Ruled| profile.rules.iter().any(|s| s.check_name == r.check_name && s.decides_as(r));
    let changed: Vec<Ruled> = table_of_checks::read(sheet)?.into_iter().filter(|r| !stands(r)).collect();
    if changed.is_empty() {
        return Err(nothing_differs(&format!("the profile \"{name}\"")));
    }
    let names: Vec<String> = changed.iter().map(|r| r.check_name.clone()).collect();
    let body = json!({ "profile": name, "checks": names, "why": why });
    store.act::<_, StoreError>(&act_info("profile of checks changed", by, body), |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let id = ensure(act, &profile, why, person)?;
        changed.iter().try_for_each(|rule| {
            let stands = profile.rules.iter().find(|s| s.check_name == rule.check_name);
            write(act, id, rule, table_of_checks::reason(rule, stands, why))
        })
    })?;
    Ok((names, work::follow(store, by, &|_| true)?))
}

/// The refusal of a sheet that says what stands.
pub(crate) fn nothing_differs(what: &str) -> Error {
    Error::Unfit {
        what: "the table of checks".into(),
        found: format!("what {what} says already"),
        expected: "a rule with another weight, limit or unit".into(),
    }
}
