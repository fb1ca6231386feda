//! "Free of": no measurement shows that nothing is there.
//!
//! One found substance contradicts the sentence, whatever level it calls none. When nothing was found the
//! answer is "cannot tell", unless the sentence says what it means by free (`means_below`): then the upper
//! bound decides. Found is what lies over its critical value, or over zero with 95 % where none is given, as
//! in the lists of compounds; a compound under two names is one substance, as there. What was found is told with its
//! amount, and with the level that it lies under, where it does. Where a number is only a bound on the water because the
//! metal of a stage that no blank met is in it (`found_in_bottle`), nothing is shown either way.

use super::core::{bounds, bounds_above};
use super::words::{Word, amount, at_most, in_a_row, named_or, none, said, substance, then, word};
use super::{Answer, Found, Sentences, sound, to_unit};
use crate::absence::is_found;
use crate::cas;
use message::{Message, Shown, claim};
use quantity::{Amount, CalcError};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};
use statistics::bound::SIDE;
use statistics::t;
use std::collections::BTreeSet;

/// "Free of", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Absence<A = Amount> {
    /// One substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<A>,
    /// Critical value of `value`, in its unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub critical_value: Option<f64>,
    /// Several substances.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub results: Option<Vec<Item<A>>>,
    /// Something was found in the bottle, and `value` bounds what of it is the water's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub found_in_bottle: Option<bool>,
    /// Symbol or name of the substance of `value`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// The water the sentence speaks of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What the sentence says the water is free of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// What the sentence means by free: less than this.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub means_below: Option<A>,
}

/// One of several substances.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item<A = Amount> {
    /// Symbol or name.
    pub analyte: String,
    /// Its amount.
    pub amount: A,
    /// In the unit of the amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub critical_value: Option<f64>,
    /// Something was found in the bottle, and the amount bounds what of it is the water's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub found_in_bottle: Option<bool>,
    /// CAS number as written.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cas: Option<String>,
}

impl<A> Absence<A> {
    /// The same with other amounts, by their places in the order of their names.
    pub(super) fn with_amounts<B, E>(self, mut put: impl FnMut(&str, A) -> Result<B, E>) -> Result<Absence<B>, E> {
        let means_below = self.means_below.map(|a| put("means_below", a)).transpose()?;
        let mut item = |(i, item): (usize, Item<A>)| {
            Ok::<_, E>(Item {
                amount: put(&format!("results[{i}].amount"), item.amount)?,
                analyte: item.analyte,
                critical_value: item.critical_value,
                found_in_bottle: item.found_in_bottle,
                cas: item.cas,
            })
        };
        let results = self.results.map(|all| all.into_iter().enumerate().map(&mut item).collect()).transpose()?;
        Ok(Absence {
            value: self.value.map(|a| put("value", a)).transpose()?,
            critical_value: self.critical_value,
            found_in_bottle: self.found_in_bottle,
            results,
            analyte: self.analyte,
            name: self.name,
            of: self.of,
            means_below,
        })
    }
}

impl Item {
    fn is_found(&self) -> bool {
        is_found(&self.amount, self.critical_value)
    }

    /// Lower and upper bound in the unit of the amount.
    fn bounds(&self) -> (Option<f64>, Option<f64>) {
        bounds_above(&self.amount, self.critical_value)
    }

    /// Whether what was found may be the water's, or may be not.
    fn is_in_bottle(&self) -> bool {
        self.found_in_bottle == Some(true) && !self.is_found()
    }

    /// The level in the unit of the amount, where the upper bound lies under it.
    fn under(&self, level: &Amount) -> bool {
        let level = to_unit("means_below", level, self.amount.unit(), Some(&self.analyte), 1.0);
        level.ok().and_then(|l| l.value()).zip(self.bounds().1).is_some_and(|(level, high)| high <= level)
    }

    fn check(&self, field: &str) -> Result<(), CalcError> {
        sound(field, &self.amount)?;
        if matches!(&self.amount, Amount::Stated(s) if s.value == 0.0) {
            return Err(CalcError::refused(
                field,
                format!("{} 0", self.analyte),
                "a value with u, or below with the limit: a zero says nothing",
            ));
        }
        match self.critical_value.filter(|c| !(c.is_finite() && *c >= 0.0)) {
            Some(c) => Err(CalcError::refused(format!("{field}.critical_value"), c, "a finite number, not negative")),
            None => Ok(()),
        }
    }
}

/// One item of each substance, in their order.
fn substances<'a>(items: impl Iterator<Item = &'a Item>) -> Vec<&'a Item> {
    let mut seen = BTreeSet::new();
    items.filter(|i| seen.insert(cas::identity(&i.analyte, i.cas.as_deref()))).collect()
}

pub(super) fn check(f: &Absence) -> Result<Found, CalcError> {
    let mut items = f.results.clone().unwrap_or_default();
    if let Some(v) = &f.value {
        let analyte = f.analyte.clone().unwrap_or_default();
        let (amount, critical_value, found_in_bottle) = (v.clone(), f.critical_value, f.found_in_bottle);
        items.insert(0, Item { analyte, amount, critical_value, found_in_bottle, cas: None });
    }
    if items.is_empty() {
        return Err(CalcError::refused("value", "none", "value of one substance, or results of several"));
    }
    for (i, item) in items.iter().enumerate() {
        item.check(&format!("results[{i}]"))?;
    }
    let name = named_or(f.name.as_deref(), claim::ThisWater);
    let of = substance(f.of.as_deref().or(f.analyte.as_deref()).unwrap_or(&items[0].analyte));
    let found = substances(items.iter().filter(|i| i.is_found()));
    let level = f.means_below.as_ref();
    let mut answer = Answer::Supported;
    for (i, item) in items.iter().enumerate() {
        answer = answer.and(one(item, level, &format!("results[{i}]"))?);
    }
    let asked: Message = match level {
        Some(l) => claim::FreeOfMeaning { name: name.clone(), of: of.clone(), level: shown(l) }.into(),
        None => claim::FreeOf { name: name.clone(), of: of.clone() }.into(),
    };
    let highest = highest(&items);
    let different = substances(items.iter());
    let in_bottle = substances(items.iter().filter(|i| i.is_in_bottle()));
    let told =
        Told { name, of, items: &different, found: &found, in_bottle: &in_bottle, level, highest: highest.as_ref() };
    let plain = if answer == Answer::Supported { asked.clone() } else { told.plain() };
    let mut warnings: Vec<Message> = vec![];
    if level.is_none() && found.is_empty() {
        warnings.push(claim::AbsenceWithoutLevel.into());
    }
    let unnamed = told.of == none();
    if items.iter().any(|i| matches!(i.amount, Amount::Stated(_))) {
        let name = if unnamed { said(claim::Value) } else { told.of.clone() };
        warnings.push(claim::NoU { name }.into());
    }
    warnings.push(claim::OnlyTested.into());
    let mut figures = Map::new();
    figures.insert("substances".into(), json!(different.len()));
    figures.insert("found".into(), json!(found.iter().map(|i| &i.analyte).collect::<Vec<_>>()));
    figures.insert("highest_upper_bound".into(), json!(highest));
    // Of several substances the sentence turns on the highest upper bound alone.
    let interval = match &items[..] {
        [item] => <[_; 2]>::from(item.bounds()),
        _ => [None, highest.as_ref().and_then(|a| bounds(a).1)],
    };
    Ok(Found {
        kind: "absence",
        answer,
        interval,
        probability: None,
        sources: vec!["ISO 11843-1".into(), "Currie 1968, Anal. Chem. 40:586".into()],
        figures,
        sentences: Sentences {
            asked,
            scientific: told.scientific(),
            interval_of: if unnamed { vec![] } else { told.of },
            plain,
            warnings,
        },
    })
}

fn one(item: &Item, level: Option<&Amount>, field: &str) -> Result<Answer, CalcError> {
    let Some(level) = level else {
        return Ok(if item.is_found() { Answer::Contradicted } else { Answer::CannotTell });
    };
    let (Amount::Stated(_) | Amount::Measured(_)) = level else {
        return Err(CalcError::refused("means_below", level.in_words(), "a value with its unit"));
    };
    let level = to_unit("means_below", level, item.amount.unit(), Some(&item.analyte), 1.0).map_err(|e| match e {
        CalcError::Refused { found, expected, .. } => CalcError::Refused { field: field.into(), found, expected },
        other => other,
    })?;
    let level = level.value().unwrap_or(f64::NAN);
    // What was detected is there: calling a level none does not take it out of the water.
    Ok(match item.bounds() {
        _ if item.is_found() => Answer::Contradicted,
        // It may be the water's: not called free of it, however little that is.
        _ if item.is_in_bottle() => Answer::CannotTell,
        (_, Some(high)) if high <= level => Answer::Supported,
        (Some(low), _) if low > level => Answer::Contradicted,
        _ => Answer::CannotTell,
    })
}

/// The highest upper bound, in the unit of the first.
fn highest(items: &[Item]) -> Option<Amount> {
    let unit = items.first()?.amount.unit().clone();
    let mut high: Option<f64> = None;
    for item in items {
        let h = item.amount.unit().conversion(&unit, None, Some(1.0)).ok()?.apply(item.bounds().1?);
        high = Some(high.map_or(h, |x: f64| x.max(h)));
    }
    high.map(|h| Amount::below(h, unit))
}

fn shown(a: &Amount) -> Shown {
    Shown::trimmed(a.value().unwrap_or(f64::NAN), 3, a.unit().to_string())
}

struct Told<'a> {
    name: Word,
    of: Word,
    items: &'a [&'a Item],
    found: &'a [&'a Item],
    /// Found in the bottle, perhaps not the water's.
    in_bottle: &'a [&'a Item],
    level: Option<&'a Amount>,
    highest: Option<&'a Amount>,
}

/// What was found, in plain words: to the digits that its uncertainty supports, without it.
fn contained(a: &Amount) -> Word {
    match a {
        Amount::Measured(m) => word(Shown { expanded: None, ..m.shown(t::upper_quantile(SIDE / 2.0, m.dof)) }),
        other => amount(other),
    }
}

/// Substances that a sentence names.
const NAMED: usize = 5;

/// Substances with their amounts, the first of them.
fn listed(items: &[&Item]) -> Option<Message> {
    let with_amount = |i: &&Item| -> Message {
        let name = if i.analyte.is_empty() { said(claim::Value) } else { substance(&i.analyte) };
        claim::WithAmount { name, x: amount(&i.amount) }.into()
    };
    in_a_row(&items.iter().take(NAMED).map(with_amount).collect::<Vec<_>>(), then)
}

impl Told<'_> {
    fn plain(&self) -> Message {
        let (name, of) = (self.name.clone(), self.of.clone());
        // The level is said where all that was found lies under it.
        let level = self.level.filter(|l| self.found.iter().all(|i| i.under(l))).map(shown);
        if let [one] = self.found
            && self.items.len() == 1
        {
            let of = if one.analyte.is_empty() { of } else { substance(&one.analyte) };
            let x = contained(&one.amount);
            return match level {
                Some(level) => claim::ContainsUnder { name, of, x, level }.into(),
                None => claim::Contains { name, of, x }.into(),
            };
        }
        if let Some(found) = listed(self.found) {
            return match level {
                Some(level) => claim::FoundInUnder { name, found, level }.into(),
                None => claim::FoundIn { name, found }.into(),
            };
        }
        if let Some(found) = listed(self.in_bottle) {
            return claim::FoundInBottle { name, found }.into();
        }
        let bound = match self.highest {
            Some(Amount::Below(b)) => at_most(b.limit, b.unit.to_string()),
            _ => return claim::NoneWithoutBound { name, of }.into(),
        };
        match self.items.len() {
            1 => claim::NoneFound { name, of, bound }.into(),
            n => claim::NoneOfMany { name, n: message::count(n), of, bound }.into(),
        }
    }

    fn scientific(&self) -> Message {
        let n = message::count(self.items.len());
        let items = listed(self.items).expect("a sentence of absence has an item");
        let items = if self.items.len() > NAMED { claim::AndSoOn { items, n }.into() } else { items };
        claim::AbsenceScientific { items, found: message::count(self.found.len()), n }.into()
    }
}
