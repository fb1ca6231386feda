//! A recipe as a person writes it: a small TOML file that says how the counts of a run become
//! concentrations. Here is which keys there are, what each may hold, and which of them the program
//! never makes up: detector, dead time, internal standards, drift, blanks, unit.
//!
//! In: the text. Out: [`Recipe`], or every fault at its key ([`RecipeFault`]): an unknown key with
//! the nearest known one, a missing one, a value of another kind or out of its range.
//! Units stand in the keys (`dead_time.ns`, `dark_rates[].cps`) and in [`TEMPLATES`], which explain
//! every key in English and German.
//!
//! What it does not do: it does not hold the recipe beside a run (`programme::recipes::check`).
//! Checked in the tests below and in `crates/intake/tests/import_recipe.rs`.

pub mod asked;

use crate::import::fault::{Fault, fault};
use crate::import::units::unit_fits;
use measurement::run::{Error, Isotope, Recipe};
use message::{Message, expected, found, refusal};
use quantity::{Check, Unit};
use toml::{Table, Value};

/// A recipe to begin with, by the language of its comments.
pub const TEMPLATES: &[(&str, &str)] =
    &[("en", include_str!("template.en.toml")), ("de", include_str!("template.de.toml"))];

/// Bytes of a recipe's file at most: a hundred overlaps take a tenth of it.
// The programme's own choice.
pub const LARGEST_FILE: u64 = 1 << 20;

/// A fault of a recipe's file.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeFault {
    /// Form, for a text that is no TOML; else the value of a key.
    pub check: Check,
    /// Line, where the reader says one.
    pub line: Option<u64>,
    /// What stands there, and what could.
    pub says: Fault,
}

/// What a key may hold.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Text,
    Texts,
    Number,
    ZeroOrMore,
    AboveZero,
    /// 0 < p < 1.
    Probability,
    /// 0 < share < 1, of time.
    TimeShare,
    /// 0 ≤ share ≤ 1.
    Part,
    /// 0 ≤ share < 1.
    CarriedOver,
    Percent,
    Degree,
    Unit,
    Isotope,
    Isotopes,
    /// A mass number.
    Mass,
    Masses,
    Word(&'static [&'static str]),
}

/// A key: its path, `[]` after a list of tables; what it may hold; whether the file must say it.
#[derive(Debug, Clone, Copy)]
struct Key {
    path: &'static str,
    kind: Kind,
    required: bool,
}

const fn may(path: &'static str, kind: Kind) -> Key {
    Key { path, kind, required: false }
}

const fn must(path: &'static str, kind: Kind) -> Key {
    Key { path, kind, required: true }
}

/// Blanks that may be taken off, from the innermost to the outermost.
const BLANKS: &[&str] =
    &["calibration-blank", "procedural-blank", "bottle-blank", "trip-blank", "field-blank", "equipment-blank"];

/// All keys. Required at the top is what differs from laboratory to laboratory and enters every number.
const KEYS: &[Key] = &[
    must("name", Kind::Text),
    must("unit", Kind::Unit),
    may("alpha", Kind::Probability),
    may("beta", Kind::Probability),
    may("coverage", Kind::Probability),
    may("gas_background", Kind::Texts),
    may("between_vials", Kind::Part),
    may("intercept", Kind::Word(&["free", "blank", "zero"])),
    must("dead_time.ns", Kind::ZeroOrMore),
    must("dead_time.u_ns", Kind::ZeroOrMore),
    may("dead_time.model", Kind::Word(&["non-extending", "extending"])),
    may("dead_time.warn_share", Kind::TimeShare),
    may("dead_time.refuse_share", Kind::TimeShare),
    may("dark_rates[].isotope", Kind::Isotope),
    must("dark_rates[].cps", Kind::ZeroOrMore),
    may("dark_rates[].u_cps", Kind::ZeroOrMore),
    may("carry_over", Kind::CarriedOver),
    may("replicate_chance", Kind::Probability),
    must("analogue_factor.value", Kind::AboveZero),
    may("analogue_factor.u", Kind::ZeroOrMore),
    must("internal_standards.isotopes", Kind::Isotopes),
    may("internal_standards.by_mass", Kind::Word(&["nearest", "interpolate"])),
    must("internal_standards.named[].isotope", Kind::Isotope),
    may("internal_standards.named[].standard", Kind::Isotope),
    may("internal_standards.lowest_percent", Kind::Percent),
    may("internal_standards.highest_percent", Kind::Percent),
    must("drift.model", Kind::Word(&["none", "bracket", "smooth"])),
    may("drift.degree", Kind::Degree),
    must("blank.samples", Kind::Word(BLANKS)),
    must("blank.reference", Kind::Word(BLANKS)),
    may("blank.scale", Kind::Word(&["concentration", "mass-per-bottle"])),
    may("blank.centre", Kind::Word(&["mean", "robust"])),
    must("recovery.from", Kind::Word(&["not-applied", "field-spikes", "lab-spikes", "given"])),
    must("recovery.values[].element", Kind::Text),
    must("recovery.values[].value", Kind::AboveZero),
    must("recovery.values[].u", Kind::ZeroOrMore),
    must("quantification.rule", Kind::Word(&["ten-sigma", "relative-expanded"])),
    may("quantification.share", Kind::Part),
    may("interference_share", Kind::Part),
    may("published_equations", Kind::Text),
    must("interferences[].target", Kind::Isotope),
    must("interferences[].monitor", Kind::Isotope),
    must("interferences[].species", Kind::Text),
    must("interferences[].factor.from", Kind::Word(&["vials", "abundance", "given"])),
    may("interferences[].factor.vials", Kind::Texts),
    may("interferences[].factor.mass_bias", Kind::Number),
    may("interferences[].factor.u_mass_bias", Kind::ZeroOrMore),
    may("interferences[].factor.value", Kind::Number),
    may("interferences[].factor.u", Kind::ZeroOrMore),
    must("sums[].element", Kind::Text),
    must("sums[].masses", Kind::Masses),
    must("sums[].resolution", Kind::Text),
    may("monitors_only", Kind::Isotopes),
    must("lead_reference.vials", Kind::Texts),
    must("lead_reference.source", Kind::Text),
    must("lead_reference.ratios[].numerator", Kind::Mass),
    must("lead_reference.ratios[].denominator", Kind::Mass),
    must("lead_reference.ratios[].value", Kind::AboveZero),
    must("lead_reference.ratios[].u", Kind::ZeroOrMore),
];

/// Tables that a file need not have; where it has one, its required keys must be there.
const OPTIONAL: &[&str] = &["analogue_factor", "recovery", "quantification", "lead_reference"];

/// Reads a recipe.
///
/// # Errors
/// Every fault, key by key.
pub fn read(text: &str) -> Result<Recipe, Vec<RecipeFault>> {
    let table: Table = toml::from_str(text).map_err(|e| vec![no_toml(text, &e)])?;
    let mut faults = vec![];
    walk(&table, &At::default(), &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let recipe: Recipe = toml::from_str(text).map_err(|e| vec![no_toml(text, &e)])?;
    match recipe.check() {
        Ok(()) => Ok(recipe),
        Err(Error::BadRecipe { field, found, expected }) => {
            Err(vec![at_key(found::RecipeValue { key: field.into(), text: found.into() }, expected)])
        }
        Err(other) => Err(vec![at_key(found::NoToml { why: other.to_string().into() }, expected::Toml)]),
    }
}

fn at_key(found: impl Into<Message>, expected: impl Into<Message>) -> RecipeFault {
    RecipeFault { check: Check::FileValue, line: None, says: fault(found, expected) }
}

fn no_toml(text: &str, e: &toml::de::Error) -> RecipeFault {
    let line = e.span().map(|s| 1 + text[..s.start].matches('\n').count() as u64);
    let says = fault(found::NoToml { why: e.message().into() }, expected::Toml);
    RecipeFault { check: Check::FileForm, line, says }
}

/// Where in the file: the path as [`KEYS`] have it, and as a person counts it (`interferences[2].target`).
#[derive(Debug, Clone, Default)]
struct At {
    path: String,
    shown: String,
}

impl At {
    fn key(&self, name: &str) -> Self {
        let join = |before: &str| if before.is_empty() { name.to_string() } else { format!("{before}.{name}") };
        Self { path: join(&self.path), shown: join(&self.shown) }
    }

    fn item(&self, place: usize) -> Self {
        Self { path: format!("{}[]", self.path), shown: format!("{}[{}]", self.shown, place + 1) }
    }

    fn kind(&self) -> Option<Kind> {
        KEYS.iter().find(|k| k.path == self.path).map(|k| k.kind)
    }

    /// Whether keys stand below it.
    fn leads_on(&self, by: &str) -> bool {
        let start = format!("{}{by}", self.path);
        KEYS.iter().any(|k| k.path.starts_with(&start))
    }
}

fn walk(table: &Table, at: &At, faults: &mut Vec<RecipeFault>) {
    for (name, value) in table {
        one(value, &at.key(name), faults);
    }
    for key in KEYS.iter().filter(|k| k.required) {
        let Some(rest) = below(&at.path, key.path) else { continue };
        // A table that is there tells its own; one that is not, and that no file may lack, is told from here.
        let missing = match rest.split_once('.') {
            None => !table.contains_key(rest),
            Some((inner, _)) => !rest.contains("[]") && !table.contains_key(inner) && !OPTIONAL.contains(&inner),
        };
        if missing {
            faults.push(at_key(found::RecipeLacks { key: at.key(rest).shown.into() }, expected::RecipeEntry));
        }
    }
}

/// What of a key's path stands below a table's.
fn below<'k>(table: &str, key: &'k str) -> Option<&'k str> {
    if table.is_empty() { Some(key) } else { key.strip_prefix(table)?.strip_prefix('.') }
}

fn one(value: &Value, at: &At, faults: &mut Vec<RecipeFault>) {
    let wrong = |expected: Message| {
        at_key(found::RecipeValue { key: at.shown.as_str().into(), text: short(value).into() }, expected)
    };
    if let Some(kind) = at.kind() {
        if !kind.fits(value) {
            faults.push(wrong(kind.expected()));
        }
        return;
    }
    if at.leads_on(".") {
        match value {
            Value::Table(inner) => walk(inner, at, faults),
            _ => faults.push(wrong(expected::Keys.into())),
        }
    } else if at.leads_on("[]") {
        let Value::Array(items) = value else { return faults.push(wrong(expected::ListOfTables.into())) };
        for (place, item) in items.iter().enumerate() {
            match item {
                Value::Table(inner) => walk(inner, &at.item(place), faults),
                _ => faults.push(wrong(expected::ListOfTables.into())),
            }
        }
    } else {
        let nearest = nearest(&at.path);
        let key = at.shown.as_str();
        faults.push(at_key(found::RecipeKey { key: key.into() }, expected::RecipeKey { nearest: nearest.into() }));
    }
}

/// A value as it stands in the file, at most 60 characters.
fn short(value: &Value) -> String {
    let text = value.to_string();
    match text.char_indices().nth(60) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text,
    }
}

/// The key or table that takes the fewest letters changed.
fn nearest(path: &str) -> &'static str {
    let tables =
        KEYS.iter().flat_map(|k| k.path.match_indices('.').map(|(end, _)| k.path[..end].trim_end_matches("[]")));
    let all = KEYS.iter().map(|k| k.path).chain(tables);
    all.min_by_key(|known| letters_changed(path, known)).unwrap_or_default()
}

/// Letters to put in, take out or exchange between two texts (V. I. Levenshtein, Soviet Physics Doklady 10, 1966).
fn letters_changed(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, letter) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, other) in b.iter().enumerate() {
            let exchanged = diagonal + usize::from(letter != *other);
            diagonal = row[j + 1];
            row[j + 1] = exchanged.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

impl Kind {
    fn fits(self, value: &Value) -> bool {
        let number = || match value {
            Value::Integer(i) => Some(*i as f64),
            Value::Float(x) => Some(*x).filter(|x| x.is_finite()),
            _ => None,
        };
        let is = |test: &dyn Fn(f64) -> bool| number().is_some_and(test);
        let all = |test: &dyn Fn(&Value) -> bool| value.as_array().is_some_and(|items| items.iter().all(test));
        let text = |v: &Value| v.as_str().is_some_and(|t| !t.trim().is_empty());
        let unit = || value.as_str().and_then(|t| Unit::parse(t).ok());
        let isotope = |v: &Value| v.as_str().is_some_and(|t| t.parse::<Isotope>().is_ok());
        // Heavier than any nuclide that a spectrometer meets.
        let mass = |v: &Value| v.as_integer().is_some_and(|m| (1..=300).contains(&m));
        match self {
            Self::Text => text(value),
            Self::Texts => all(&text),
            Self::Number => number().is_some(),
            Self::ZeroOrMore => is(&|x| x >= 0.0),
            Self::AboveZero | Self::Percent => is(&|x| x > 0.0),
            Self::Probability | Self::TimeShare => is(&|x| x > 0.0 && x < 1.0),
            Self::Part => is(&|x| (0.0..=1.0).contains(&x)),
            Self::CarriedOver => is(&|x| (0.0..1.0).contains(&x)),
            Self::Degree => value.as_integer().is_some_and(|d| (0..=3).contains(&d)),
            // Any concentration in water, as it would be of lead.
            Self::Unit => unit().is_some_and(|u| unit_fits("Pb", &u).is_ok()),
            Self::Isotope => isotope(value),
            Self::Isotopes => all(&isotope),
            Self::Mass => mass(value),
            Self::Masses => all(&mass) && value.as_array().is_some_and(|m| !m.is_empty()),
            Self::Word(words) => value.as_str().is_some_and(|t| words.contains(&t)),
        }
    }

    fn expected(self) -> Message {
        match self {
            Self::Text => expected::SomeText.into(),
            Self::Texts => expected::ListOfTexts.into(),
            Self::Number => expected::Number.into(),
            Self::ZeroOrMore => expected::ZeroOrMore.into(),
            Self::AboveZero => expected::AboveZero.into(),
            Self::Percent => expected::Percent.into(),
            Self::Probability => refusal::RecipeProbability.into(),
            Self::TimeShare => refusal::RecipeShare.into(),
            Self::Part => refusal::RecipePart.into(),
            Self::CarriedOver => refusal::RecipeCarryOver.into(),
            Self::Degree => refusal::RecipeDegree.into(),
            Self::Unit => expected::UnitOfConcentration.into(),
            Self::Isotope => expected::IsotopeResolution.into(),
            Self::Isotopes => expected::ListOfIsotopes.into(),
            Self::Mass | Self::Masses => expected::WholeNumbers.into(),
            Self::Word(words) => expected::WordOf { words: words.join(", ").into() }.into(),
        }
    }
}

#[cfg(test)]
mod tests;
