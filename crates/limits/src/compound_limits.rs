//! Limits of organic compounds: of one compound, of each of a group, of the sum of a group.
//!
//! In: `reference/compound_limits.csv` (group, `each` or `sum`, unit, limit, authority, document, days between which it is
//! valid, `seen` or `recalled`), `reference/compound_groups.csv` (members of each group by CAS number) and, of
//! `reference/drinking_water_limits.csv`, what it has of single compounds and of pesticides. Out: the limit that one
//! compound is held to, the limits of sums, the members of a group. Which groups a sum is made of is the law's word: a
//! list of twenty PFAS, a list of four. Pesticides are an open group: whatever `reference/compounds.csv` calls a
//! herbicide, insecticide, fungicide or a metabolite of one (whether a metabolite is relevant is for the authority to
//! say: all are counted); a repellent is none. What no row names has no limit here. Checked in `tests/compound_limits.rs`.

use crate::cas;
use crate::table::{Limit, limits};
use quantity::Unit;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

/// The group of pesticides.
pub const PESTICIDES: &str = "pesticides";

/// Kinds of `reference/compounds.csv` that are pesticides or metabolites of them.
const PESTICIDE_KINDS: [&str; 4] = ["herbicide", "insecticide", "fungicide", "metabolite"];

/// Rows of `reference/drinking_water_limits.csv` for pesticides: of each, of their sum.
const PESTICIDE_ROWS: [(&str, Of); 2] = [("pesticide, single", Of::Each), ("pesticides, total", Of::Sum)];

/// What a limit is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// Of each member of its group.
    Each,
    /// Of the sum of its group.
    Sum,
}

/// A limit of a group.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupLimit {
    /// The group, as `reference/compound_groups.csv` calls it.
    pub group: String,
    /// Each or sum.
    pub of: Of,
    /// Figure, unit, whose, since when; its analyte is the group.
    pub limit: Limit,
}

static MEMBERS: LazyLock<BTreeMap<String, BTreeSet<String>>> = LazyLock::new(|| {
    let mut out: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for member in cas::group_rows() {
        out.entry(member.group).or_default().insert(member.cas);
    }
    let pesticides = cas::compounds().iter().filter(|c| PESTICIDE_KINDS.contains(&c.group.as_str()));
    out.insert(PESTICIDES.into(), pesticides.map(|c| c.cas.clone()).collect());
    out
});

static GROUP_LIMITS: LazyLock<Vec<GroupLimit>> = LazyLock::new(|| {
    let text = include_str!("../../../reference/compound_limits.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows = reader.records().map(|r| r.expect("the table of limits of compounds is well-formed"));
    let of_table = rows.map(|r| GroupLimit {
        group: r[0].to_string(),
        of: if &r[1] == "sum" { Of::Sum } else { Of::Each },
        limit: Limit {
            analyte: r[0].to_string(),
            unit: Unit::known(&r[2]),
            authority: r[3].to_string(),
            document: r[4].to_string(),
            edition: r[5].to_string(),
            basis: String::new(),
            kind: r[6].to_string(),
            low: None,
            high: r[7].parse().expect("a limit is a number"),
            valid_from: r[8].to_string(),
            valid_until: r[9].to_string(),
            provenance: r[10].to_string(),
            date_read: r[11].to_string(),
            note: r[12].to_string(),
            terms: crate::terms::Terms::of(&r[3], &r[6], &r[0]),
        },
    });
    let of_pesticides = limits().iter().filter_map(|l| {
        let (_, of) = PESTICIDE_ROWS.into_iter().find(|(analyte, _)| *analyte == l.analyte)?;
        Some(GroupLimit { group: PESTICIDES.into(), of, limit: l.clone() })
    });
    of_pesticides.chain(of_table).collect()
});

/// All limits of groups, pesticides first.
pub fn group_limits() -> &'static [GroupLimit] {
    &GROUP_LIMITS
}

/// CAS numbers of a group; none of a group that no table names.
pub fn members(group: &str) -> Option<&'static BTreeSet<String>> {
    MEMBERS.get(group)
}

/// Is a compound of a group? By its number, or by what makes its names one (`cas::identity`).
pub fn is_member(group: &str, identity: &str) -> bool {
    members(group).is_some_and(|m| m.contains(identity))
}

/// Is the list of its members closed? Pesticides are whatever is one.
pub fn is_closed(group: &str) -> bool {
    group != PESTICIDES
}

/// The authorities that have limits of compounds, each once.
pub fn authorities() -> Vec<&'static str> {
    let mut out: Vec<&str> = vec![];
    for l in group_limits() {
        if !out.contains(&l.limit.authority.as_str()) {
            out.push(&l.limit.authority);
        }
    }
    out
}

/// The limit that a compound is held to on a day (`YYYY-MM-DD`), in a unit: the lowest of those authorities, its own or of
/// each of its group.
pub fn single(name: &str, identity: &str, asked: &Asked, unit: &Unit) -> Option<(f64, &'static Limit)> {
    let known = cas::by_name(name).or_else(|| cas::by_cas(identity)).map_or(name, |k| &k.name);
    let of_groups =
        group_limits().iter().filter(|l| l.of == Of::Each && is_member(&l.group, identity)).map(|l| &l.limit);
    let own = limits().iter().filter(|l| l.analyte.eq_ignore_ascii_case(known));
    let holding = of_groups.chain(own).filter(|l| asked.takes(l) && l.decides_on(asked.on));
    holding
        .filter_map(|l| Some((in_unit(l, unit)?, l)))
        .reduce(|lowest, next| if next.0 < lowest.0 { next } else { lowest })
}

/// Limits of each compound of a group that a compound is of by its name. Those of each pesticide stand in the table of
/// drinking water by name, and are not among them.
pub fn of_each(name: &str) -> impl Iterator<Item = &'static Limit> {
    let identity = cas::identity(name, None);
    let of_it = move |l: &&GroupLimit| l.of == Of::Each && l.group != PESTICIDES && is_member(&l.group, &identity);
    group_limits().iter().filter(of_it).map(|l| &l.limit)
}

/// A limit in a unit; none where the unit cannot be brought to it.
pub fn in_unit(l: &Limit, unit: &Unit) -> Option<f64> {
    l.unit.conversion(unit, None, None).ok().map(|c| c.apply(l.high))
}

/// Whose limits are asked for, and for which day.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// Authorities.
    pub authorities: &'a [String],
    /// The day, `YYYY-MM-DD`; without one no limit that has a first day decides.
    pub on: Option<&'a str>,
}

impl Asked<'_> {
    /// Is it one of theirs?
    pub fn takes(&self, l: &Limit) -> bool {
        self.authorities.contains(&l.authority)
    }
}
