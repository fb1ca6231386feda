//! Whose hands are on the record: a name that an act is to bear is one that is on record, or is said to be new; who
//! signs has a role that may.
//!
//! In: the name as typed. Out: nothing where it may stand, else a refusal that names whom it may have meant. A name
//! mistyped once would be a person of its own for good: rows are never taken away. Accounts, passwords and what each
//! role may do beyond this machine are the web interface's.
//! Checked below and in `crates/cli/tests/hands.rs`.

use intake::entry::{EntryError, TypedRow, enter};
use intake::one_name::made_one;
use record::by::By;
use record::error::Error;
use record::model::Person;
use record::near::apart;
use record::store::{Filter, Store, named};

/// What stands as the author of an act for which nobody is named.
pub const NOT_NAMED: &str = "not named";

/// Beginnings of the words of a role that may stand for a verdict, in the languages of the catalogue: those who lead a
/// programme and those who answer for its analyses.
const MAY_SIGN: &[&str] = &["lead", "analyst", "leit", "analyti"];

/// Names that a refusal lists, at most.
const LISTED: usize = 5;

/// Whether this name may stand under an act: it is on record, or said to be new.
///
/// # Errors
/// [`Error::Absent`] with the nearest names on record; a name without a letter or digit; [`Error::Unfit`] where
/// somebody said to be new is on record; the store.
pub fn known(store: &Store, person: &str, new: bool) -> Result<(), Error> {
    named(person)?;
    if let Some(now) = made_one(store, "person", person)? {
        return Err(Error::Unfit {
            what: "the person".into(),
            found: format!("{person}, a name that was made one with {now}"),
            expected: now,
        });
    }
    let people: Vec<String> = store.list::<Person>(&Filter::all())?.into_iter().map(|p| p.name).collect();
    match (people.iter().any(|p| p == person), new) {
        (true, false) | (false, true) => Ok(()),
        (true, true) => Err(Error::Unfit {
            what: "the person".into(),
            found: format!("{person}, who is on record"),
            expected: "a new name, or no --new-person".into(),
        }),
        (false, false) => Err(Error::absent("person", person, hint(&people, person))),
    }
}

fn hint(people: &[String], person: &str) -> String {
    let mut near: Vec<&String> = people.iter().filter(|p| *p != NOT_NAMED).collect();
    near.sort_by_key(|p| apart(&p.to_lowercase(), &person.to_lowercase()));
    near.truncate(LISTED);
    if near.is_empty() {
        return "; nobody is on record yet: --new-person puts the name on record".into();
    }
    let names = near.iter().map(|p| p.as_str()).collect::<Vec<_>>().join(", ");
    format!("; the nearest on record: {names}. Somebody new comes with --new-person")
}

/// Of some names those nearest to a text, at most so many, the nearest first: few letters apart, or one within the other
/// (`recovery` in `number.recovery`).
pub fn nearest<'a>(text: &str, names: impl Iterator<Item = &'a str>, most: usize) -> Vec<&'a str> {
    let asked = text.to_lowercase();
    let far = |name: &str| {
        let name = name.to_lowercase();
        let within = !asked.is_empty() && (name.contains(&asked) || (name.len() > 2 && asked.contains(&name)));
        (!within, apart(&name, &asked))
    };
    let mut out: Vec<&str> = names.collect();
    out.sort_by_cached_key(|n| far(n));
    out.truncate(most);
    out
}

/// Puts a person on record who is not yet: an act of its own. Somebody who is there stays as they are; answers whether
/// anything was written.
///
/// # Errors
/// The store.
pub fn put_on_record(store: &mut Store, by: By) -> Result<bool, EntryError> {
    let row = TypedRow::of("person").with("name", by.person);
    let there = !store.list::<Person>(&Filter::all().is("name", by.person))?.is_empty();
    Ok(!there && enter(store, by, "", &[row])?.head.is_some())
}

/// Whether this person may stand for a verdict: by the role on record.
///
/// # Errors
/// [`Error::Unfit`] with the role as it is; [`Error::Absent`]; the store.
pub fn may_sign(store: &Store, person: &str) -> Result<(), Error> {
    known(store, person, false)?;
    let role = store.list::<Person>(&Filter::all().is("name", person))?.into_iter().find_map(|p| p.role);
    if signs(role.as_deref()) {
        return Ok(());
    }
    Err(Error::Unfit {
        what: format!("the role of {person}"),
        found: role.unwrap_or_else(|| "none on record".into()),
        expected: "lead or analyst, to stand for a verdict (`limpid correct STORE person NAME role ROLE`)".into(),
    })
}

/// Whether a role, in the words of the programme, lets somebody stand for a verdict.
fn signs(role: Option<&str>) -> bool {
    let lowered = role.unwrap_or_default().to_lowercase();
    let mut words = lowered.split(|c: char| !c.is_alphanumeric());
    words.any(|word| MAY_SIGN.iter().any(|begin| word.starts_with(begin)))
}

/// Whether anybody on record may stand for a verdict.
///
/// # Errors
/// The store cannot be read.
pub fn anybody_may_sign(store: &Store) -> Result<bool, Error> {
    Ok(store.list::<Person>(&Filter::all())?.iter().any(|p| signs(p.role.as_deref())))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_of_a_name_is_nearer_than_a_name_of_like_letters() {
        let names = ["well.flow", "number.recovery", "number.replicates", "air.class"];
        assert_eq!(nearest("recovery", names.into_iter(), 2)[0], "number.recovery");
        assert_eq!(nearest("number.recovry", names.into_iter(), 1), ["number.recovery"]);
        assert_eq!(nearest("", names.into_iter(), 9).len(), 4);
    }

    #[test]
    fn the_nearest_name_stands_first() {
        let people = ["Tobin Rell", "not named", "Marit Osk"].map(String::from);
        assert!(hint(&people, "marit os").starts_with("; the nearest on record: Marit Osk, Tobin Rell."));
        assert!(!hint(&people, "marit os").contains("not named"));
    }
}
