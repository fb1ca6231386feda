//! The programme's table of checks beside the table that this version of the program brings. A programme keeps its
//! own: a check that is new is a note in it, and moves no verdict, until a person takes its rule in.
//! Checked in `tests/checks.rs`.

use crate::hands::nearest;
use crate::table_of_checks::{self, Ruled};
use crate::work::{self, Recomputed};
use assessment::verdict::{DEFAULT_CHECKS, Rules};
use quantity::Check;
use record::by::{By, said};
use record::error::Error;
use record::model::{CheckRule, Weight};
use record::store::{Act, ActInfo, NamedCells, Store, StoreError};
use serde::Serialize;
use serde_json::json;

/// What a table says of one check.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Rule {
    /// What the check decides.
    #[serde(serialize_with = "word")]
    pub weight: Weight,
    /// The limit; none where the table sets none.
    pub limit: Option<f64>,
    /// Unit of the limit, UCUM.
    pub unit: Option<String>,
    /// Why.
    pub why: Option<String>,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature that serde asks for
fn word<S: serde::Serializer>(weight: &Weight, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(weight.word())
}

impl Rule {
    fn of(r: &CheckRule) -> Self {
        Self { weight: r.weight, limit: r.limit_value, unit: r.limit_unit.clone(), why: r.why.clone() }
    }
}

/// How the programme's rule stands to the one of this version.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stand {
    /// Both say the same.
    Same,
    /// Not in the programme's table: a note.
    Untaken,
    /// Another weight, limit or unit.
    Differs,
    /// In the programme's table under a name that no check of this version bears: it decides nothing.
    Unknown,
}

/// One check in both tables.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Entry {
    /// As stage.what.
    pub check: String,
    /// How both stand to each other.
    pub stand: Stand,
    /// What the programme says.
    pub programme: Option<Rule>,
    /// What this version of the program would start with.
    pub default: Option<Rule>,
}

/// The table that a new programme starts with, in its order.
///
/// # Errors
/// [`Error::Unfit`] for a row that is no rule.
pub fn defaults() -> Result<Vec<CheckRule>, Error> {
    let unfit = |found: String| Error::Unfit {
        what: "the table of default checks".into(),
        found,
        expected: "five columns: check, weight, limit, its unit, why".into(),
    };
    let mut rows = csv::Reader::from_reader(DEFAULT_CHECKS.as_bytes());
    let mut out = vec![];
    for row in rows.records() {
        let row = row.map_err(|e| unfit(e.to_string()))?;
        let text = |i: usize| row.get(i).filter(|t| !t.is_empty());
        let limit = match text(2).map(str::parse) {
            None => None,
            Some(Ok(limit)) => Some(limit),
            Some(Err(_)) => return Err(unfit(format!("limit {:?}", text(2)))),
        };
        let check = text(0).and_then(Check::from_text).ok_or_else(|| unfit(format!("check {:?}", text(0))))?;
        out.push(CheckRule {
            id: 0,
            check_name: check.text().into(),
            revision: 1,
            weight: text(1).and_then(Weight::from_word).ok_or_else(|| unfit(format!("weight {:?}", text(1))))?,
            limit_value: limit,
            limit_unit: text(3).map(Into::into),
            why: text(4).map(Into::into),
        });
    }
    Ok(out)
}

pub(crate) fn keep(act: &mut Act, rule: &CheckRule) -> Result<(), StoreError> {
    let mut cells = NamedCells::new("check_rule");
    cells.text("check_name", &rule.check_name).integer("revision", rule.revision).text("weight", rule.weight.word());
    cells.real("limit_value", rule.limit_value);
    for (column, value) in [("limit_unit", &rule.limit_unit), ("why", &rule.why)] {
        if let Some(value) = value {
            cells.text(column, value);
        }
    }
    cells.insert(act).map(|_| ())
}

/// Both tables, by the order of this version's, then the names that it does not know.
///
/// # Errors
/// The store cannot be read.
pub fn beside(store: &Store) -> Result<Vec<Entry>, Error> {
    let kept = store.check_rules()?;
    let rules = Rules::new(kept.clone());
    let mut out = vec![];
    for default in defaults()? {
        let own = Check::from_text(&default.check_name).and_then(|c| rules.of(c)).map(Rule::of);
        let theirs = Rule::of(&default);
        let same = |own: &Rule| (own.weight, own.limit, &own.unit) == (theirs.weight, theirs.limit, &theirs.unit);
        let stand = match &own {
            None => Stand::Untaken,
            Some(own) if same(own) => Stand::Same,
            Some(_) => Stand::Differs,
        };
        out.push(Entry { check: default.check_name, stand, programme: own, default: Some(theirs) });
    }
    for r in kept.iter().filter(|r| rules.unknown().contains(&r.check_name)) {
        let programme = Some(Rule::of(r));
        out.push(Entry { check: r.check_name.clone(), stand: Stand::Unknown, programme, default: None });
    }
    Ok(out)
}

/// Which rules a person takes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted<'a> {
    /// These checks, by name, also where the programme has a rule of its own for them.
    Named(&'a [String]),
    /// Every check that is not in the programme's table.
    Untaken,
}

/// Takes rules of this version into the programme's table, in one act, each as the next revision of its name; then
/// everything is judged anew. Answers which were taken.
///
/// # Errors
/// A reason that says nothing; a name that no check bears; a rule that the programme has as it is; nothing to take;
/// the store; [`Error::NotDerived`].
pub fn take(store: &mut Store, wanted: Wanted, why: &str, by: By) -> Result<(Vec<String>, Recomputed), Error> {
    said(why)?;
    let chosen = chosen(store, wanted)?;
    let names: Vec<String> = chosen.iter().map(|r| r.check_name.clone()).collect();
    let info = ActInfo {
        kind: "checks taken in".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "checks": names, "why": why }),
    };
    store.act::<_, StoreError>(&info, |act| chosen.iter().try_for_each(|rule| keep(act, rule)))?;
    Ok((names, work::follow(store, by, &|_| true)?))
}

/// The rules to be kept, with their next revision.
fn chosen(store: &Store, wanted: Wanted) -> Result<Vec<CheckRule>, Error> {
    let entries = beside(store)?;
    let names: Vec<&str> = match wanted {
        Wanted::Untaken => entries.iter().filter(|e| e.stand == Stand::Untaken).map(|e| e.check.as_str()).collect(),
        Wanted::Named(names) => names.iter().map(String::as_str).collect(),
    };
    let unfit = |found: String, expected: String| Error::Unfit { what: "checks to take in".into(), found, expected };
    if names.is_empty() {
        return Err(unfit("none".into(), "a check that is not in the programme’s table, or one by its name".into()));
    }
    for (i, name) in names.iter().enumerate() {
        let entry = entries.iter().find(|e| e.check == *name && e.default.is_some());
        let entry = entry.ok_or_else(|| {
            let near = nearest(name, entries.iter().filter(|e| e.default.is_some()).map(|e| e.check.as_str()), 3);
            unfit(format!("{name:?}"), format!("one like {}", near.join(", ")))
        })?;
        if names[..i].contains(name) {
            return Err(unfit(format!("{name} twice"), "each once".into()));
        }
        if entry.stand == Stand::Same {
            return Err(unfit(
                format!("{name}, which the programme has as it is"),
                "a check whose rule differs".into(),
            ));
        }
    }
    let kept = store.check_rules()?;
    let newest = |name: &str| kept.iter().filter(|r| r.check_name == name).map(|r| r.revision).max().unwrap_or(0);
    let taken = defaults()?.into_iter().filter(|r| names.contains(&r.check_name.as_str()));
    Ok(taken.map(|r| CheckRule { revision: newest(&r.check_name) + 1, ..r }).collect())
}

/// The programme's table as a sheet that a person edits and brings back.
///
/// # Errors
/// The store cannot be read.
pub fn table(store: &Store) -> Result<String, Error> {
    let rules = store.check_rules()?;
    let known = Rules::new(rules.clone());
    let kept = rules.into_iter().filter(|r| !known.unknown().contains(&r.check_name));
    Ok(table_of_checks::write(&kept.map(ruled).collect::<Vec<_>>()))
}

fn ruled(r: CheckRule) -> Ruled {
    let CheckRule { check_name, weight, limit_value, limit_unit, why, .. } = r;
    Ruled { check_name, weight, limit_value, limit_unit, why }
}

/// Keeps an edited sheet: each rule that decides otherwise than it stands, as its next revision, in one act; then
/// everything is judged anew. A rule that the sheet leaves out stays as it is. Answers which changed.
///
/// # Errors
/// A reason that says nothing; a sheet that cannot be read; nothing that differs; the store; [`Error::NotDerived`].
pub fn keep_table(store: &mut Store, sheet: &str, why: &str, by: By) -> Result<(Vec<String>, Recomputed), Error> {
    said(why)?;
    let kept = store.check_rules()?;
    let known = Rules::new(kept.clone());
    let own = |r: &Ruled| Check::from_text(&r.check_name).and_then(|c| known.of(c)).cloned().map(ruled);
    let stands = |r: &Ruled| own(r).is_some_and(|own| own.decides_as(r));
    let changed: Vec<Ruled> = table_of_checks::read(sheet)?.into_iter().filter(|r| !stands(r)).collect();
    if changed.is_empty() {
        return Err(crate::profiles::nothing_differs("the programme's table"));
    }
    let newest = |name: &str| kept.iter().filter(|r| r.check_name == name).map(|r| r.revision).max().unwrap_or(0);
    let rules: Vec<CheckRule> = changed
        .into_iter()
        .map(|r| CheckRule {
            why: Some(table_of_checks::reason(&r, own(&r).as_ref(), why).into()),
            id: 0,
            revision: newest(&r.check_name) + 1,
            check_name: r.check_name,
            weight: r.weight,
            limit_value: r.limit_value,
            limit_unit: r.limit_unit,
        })
        .collect();
    let names: Vec<String> = rules.iter().map(|r| r.check_name.clone()).collect();
    let info = ActInfo {
        kind: "table of checks changed".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "checks": names, "why": why }),
    };
    store.act::<_, StoreError>(&info, |act| rules.iter().try_for_each(|rule| keep(act, rule)))?;
    Ok((names, work::follow(store, by, &|_| true)?))
}
