//! "Free of": no measurement shows that nothing is there.
//!
//! One found substance contradicts the sentence. When nothing was found the answer is "cannot tell",
//! unless the sentence says what it means by free (`means_below`): then the upper bound decides.

use super::core::bounds;
use super::words::{amount_in_words, at_most_text};
use super::{Answer, Checked, sound, to_unit};
use quantity::{Amount, CalcError, Lang};
use serde::Deserialize;
use serde_json::{Map, json};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Fields {
    value: Option<Amount>,
    #[serde(default)]
    results: Vec<Item>,
    analyte: Option<String>,
    /// The water the sentence speaks of.
    name: Option<String>,
    /// What the sentence says the water is free of.
    of: Option<String>,
    means_below: Option<Amount>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Item {
    analyte: String,
    amount: Amount,
}

pub(super) fn check(f: &Fields, lang: Lang) -> Result<Checked, CalcError> {
    let mut items: Vec<(String, Amount)> = f.results.iter().map(|i| (i.analyte.clone(), i.amount.clone())).collect();
    if let Some(v) = &f.value {
        items.insert(0, (f.analyte.clone().unwrap_or_default(), v.clone()));
    }
    if items.is_empty() {
        return Err(CalcError::refused("value", "none", "value of one substance, or results of several"));
    }
    for (i, (name, a)) in items.iter().enumerate() {
        sound(&format!("results[{i}]"), a)?;
        if matches!(a, Amount::Stated(s) if s.value == 0.0) {
            return Err(CalcError::refused(
                format!("results[{i}]"),
                format!("{name} 0"),
                "a value with u, or below with the limit: a zero says nothing",
            ));
        }
    }
    let name = f.name.clone().unwrap_or_else(|| lang.say("reference.this_water", &[]));
    let of = lang.substance(f.of.as_deref().or(f.analyte.as_deref()).unwrap_or(&items[0].0));
    let found: Vec<&(String, Amount)> = items.iter().filter(|(_, a)| is_found(a)).collect();
    let level = f.means_below.as_ref();
    let mut answer = Answer::Supported;
    for (i, (analyte, a)) in items.iter().enumerate() {
        answer = answer.and(one(a, level, analyte, &format!("results[{i}]"))?);
    }
    let asked = match level {
        Some(l) => lang.say("absence.asked_level", &[("name", &name), ("of", &of), ("level", &amount_plain(lang, l))]),
        None => lang.say("absence.asked", &[("name", &name), ("of", &of)]),
    };
    let highest = highest(&items);
    let told = Told { lang, name: &name, of: &of, items: &items, found: &found, highest: highest.as_ref() };
    let plain = if answer == Answer::Supported { asked.clone() } else { told.plain() };
    let mut warnings = vec![];
    if level.is_none() && found.is_empty() {
        warnings.push(lang.say("trouble.absence", &[]));
    }
    if items.iter().any(|(_, a)| matches!(a, Amount::Stated(_))) {
        warnings.push(lang.say("trouble.no_u", &[("name", &of)]));
    }
    warnings.push(lang.say("note.only_tested", &[]));
    let mut figures = Map::new();
    figures.insert("substances".into(), json!(items.len()));
    figures.insert("found".into(), json!(found.iter().map(|(n, _)| n).collect::<Vec<_>>()));
    figures.insert("highest_upper_bound".into(), json!(highest));
    let interval = match &items[..] {
        [(_, a)] => [bounds(a).0, bounds(a).1],
        _ => [None, highest.as_ref().and_then(|a| bounds(a).1)],
    };
    Ok(Checked {
        kind: "absence".into(),
        interval_of: lang.say("absence.interval_of", &[("of", &of)]),
        scientific: told.scientific(),
        sources: vec!["ISO 11843-1".into(), "Currie 1968, Anal. Chem. 40:586".into()],
        asked,
        answer,
        interval,
        probability: None,
        plain,
        warnings,
        figures,
    })
}

/// Found: the value is over zero with 95 %, or stated, or over range.
fn is_found(a: &Amount) -> bool {
    match a {
        Amount::Measured(_) => bounds(a).0.is_some_and(|l| l > 0.0),
        Amount::Stated(s) => s.value > 0.0,
        Amount::Above(_) => true,
        Amount::Below(_) => false,
    }
}

fn one(a: &Amount, level: Option<&Amount>, analyte: &str, field: &str) -> Result<Answer, CalcError> {
    let Some(level) = level else {
        return Ok(if is_found(a) { Answer::Contradicted } else { Answer::CannotTell });
    };
    let (Amount::Stated(_) | Amount::Measured(_)) = level else {
        return Err(CalcError::refused("means_below", level.in_words(), "a value with its unit"));
    };
    let level = to_unit("means_below", level, a.unit(), Some(analyte), 1.0).map_err(|e| match e {
        CalcError::Refused { found, expected, .. } => CalcError::Refused { field: field.into(), found, expected },
        other => other,
    })?;
    let level = level.value().unwrap_or(f64::NAN);
    Ok(match bounds(a) {
        (_, Some(high)) if high <= level => Answer::Supported,
        (Some(low), _) if low > level => Answer::Contradicted,
        _ => Answer::CannotTell,
    })
}

/// The highest upper bound, in the unit of the first.
fn highest(items: &[(String, Amount)]) -> Option<Amount> {
    let unit = items.first()?.1.unit().clone();
    let mut high: Option<f64> = None;
    for (_, a) in items {
        let converted = a.convert(&unit, None, Some(1.0)).ok()?;
        let h = bounds(&converted).1?;
        high = Some(high.map_or(h, |x: f64| x.max(h)));
    }
    high.map(|h| Amount::below(h, unit))
}

fn amount_plain(lang: Lang, a: &Amount) -> String {
    let unit = a.unit().to_string();
    format!("{} {unit}", lang.number(&super::words::plain(a.value().unwrap_or(f64::NAN), 3)))
}

struct Told<'a> {
    lang: Lang,
    name: &'a str,
    of: &'a str,
    items: &'a [(String, Amount)],
    found: &'a [&'a (String, Amount)],
    highest: Option<&'a Amount>,
}

impl Told<'_> {
    fn plain(&self) -> String {
        let lang = self.lang;
        if !self.found.is_empty() {
            let list: Vec<String> = self
                .found
                .iter()
                .take(5)
                .map(|(n, a)| format!("{} {}", lang.substance(n), amount_in_words(lang, a)))
                .collect();
            return lang.say("absence.found", &[("name", self.name), ("list", list.join("; ").trim())]);
        }
        let bound = match self.highest {
            Some(Amount::Below(b)) => format!("{} {}", lang.number(&at_most_text(b.limit)), b.unit),
            _ => return lang.say("absence.none_without_bound", &[("name", self.name), ("of", self.of)]),
        };
        if self.items.len() == 1 {
            return lang.say("absence.none", &[("name", self.name), ("of", self.of), ("bound", &bound)]);
        }
        let n = self.items.len().to_string();
        lang.say("absence.none_of_many", &[("name", self.name), ("n", &n), ("of", self.of), ("bound", &bound)])
    }

    fn scientific(&self) -> String {
        let lang = self.lang;
        let list: Vec<String> = self
            .items
            .iter()
            .take(5)
            .map(|(n, a)| format!("{} {}", lang.substance(n), amount_in_words(lang, a)).trim().to_string())
            .collect();
        let more = if self.items.len() > 5 { format!("; … ({})", self.items.len()) } else { String::new() };
        let n = (self.found.len().to_string(), self.items.len().to_string());
        lang.say("absence.scientific", &[("list", &format!("{}{more}", list.join("; "))), ("found", &n.0), ("n", &n.1)])
    }
}
