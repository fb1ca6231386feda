//! What is wrong with a set of catalogues. Used by the build, which stops at any fault, and by the tests.

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use std::collections::{BTreeMap, BTreeSet};

/// Room to text.
pub type Catalogue = BTreeMap<String, String>;

/// The language that declares.
pub const DECLARING: &str = "en";

/// What a message may call: an argument with its first letter large.
pub const FUNCTION: &str = "CAPITAL";

/// Behind the name of an amount: the amount with its expanded uncertainty (`src/catalogue.rs`). It says the amount and
/// the `u-NAME`, or `u`, beside it.
pub const EXPANDED: &str = "-expanded";

/// Kinds of arguments: as the catalogue writes them, as Rust holds them.
pub const KINDS: &[(&str, &str)] = &[
    ("amount", "crate::Shown"),
    ("count", "i64"),
    ("share", "crate::Share"),
    ("name", "crate::Name"),
    ("date", "crate::Date"),
    ("message", "crate::Message"),
    ("list", "Vec<crate::Arg>"),
];

/// One argument.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Argument {
    /// As the catalogue names it.
    pub name: String,
    /// One of [`KINDS`].
    pub kind: &'static str,
    /// What it is.
    pub about: String,
}

impl Argument {
    /// Its field in Rust.
    pub fn field(&self) -> String {
        self.name.replace('-', "_")
    }

    /// Its type in Rust.
    pub fn rust_type(&self) -> &'static str {
        KINDS.iter().find(|(kind, _)| *kind == self.kind).map_or("", |(_, rust)| rust)
    }
}

/// One message, as the declaring language has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Declared {
    /// Its identity: `room-what`.
    pub id: String,
    /// Its file.
    pub room: String,
    /// What it is for.
    pub about: String,
    /// In the order of the catalogue.
    pub arguments: Vec<Argument>,
}

impl Declared {
    /// `well-contact-long` of `well` is `ContactLong`.
    pub fn type_name(&self) -> String {
        let own = self.id.strip_prefix(&format!("{}-", self.room)).unwrap_or(&self.id);
        let capital = |part: &str| {
            part.chars().next().map_or_else(String::new, |c| c.to_uppercase().to_string() + &part[c.len_utf8()..])
        };
        own.split('-').map(capital).collect()
    }
}

/// A message or term of one language.
struct Found {
    comment: Vec<String>,
    variables: BTreeSet<String>,
    references: BTreeSet<String>,
    /// Functions that it calls.
    functions: BTreeSet<String>,
    /// Nothing but one argument.
    bare: bool,
}

/// All messages, or all that is wrong.
///
/// # Errors
/// Faults in words, each with language, room and message.
pub fn all(languages: &BTreeMap<String, Catalogue>) -> Result<Vec<Declared>, Vec<String>> {
    let mut faults = vec![];
    let Some(own) = languages.get(DECLARING) else { return Err(vec![format!("{DECLARING}: no catalogue")]) };
    let mut declared = vec![];
    let mut declaring = BTreeMap::new();
    for (room, text) in own {
        for (id, found) in entries(DECLARING, room, text, &mut faults) {
            if !id.starts_with('-') {
                declared.push(declare(room, &id, &found, &mut faults));
            }
            declaring.insert(id, found);
        }
    }
    references(DECLARING, &declaring, &mut faults);
    for (language, rooms) in languages.iter().filter(|(l, _)| *l != DECLARING) {
        let mut there = BTreeMap::new();
        for (room, text) in rooms {
            there.extend(entries(language, room, text, &mut faults));
        }
        for d in &declared {
            match there.get(&d.id) {
                None => faults.push(format!("{language}: {} is missing", d.id)),
                Some(found) => same_arguments(language, d, found, &mut faults),
            }
        }
        for id in there.keys().filter(|id| !id.starts_with('-') && !declaring.contains_key(*id)) {
            faults.push(format!("{language}: {id} is no message of {DECLARING}"));
        }
        references(language, &there, &mut faults);
    }
    if faults.is_empty() { Ok(declared) } else { Err(faults) }
}

fn entries(language: &str, room: &str, text: &str, faults: &mut Vec<String>) -> Vec<(String, Found)> {
    let parsed = match fluent_syntax::parser::parse(text) {
        Ok(parsed) => parsed,
        Err((parsed, errors)) => {
            faults.extend(errors.iter().map(|e| {
                let line = text[..e.pos.start.min(text.len())].lines().count();
                format!("{language}/{room}.ftl, line {line}: {e}")
            }));
            parsed
        }
    };
    let mut out: Vec<(String, Found)> = vec![];
    for entry in parsed.body {
        let (id, pattern, comment) = match entry {
            Entry::Message(m) => {
                if !m.id.name.starts_with(&format!("{room}-")) {
                    faults.push(format!("{language}/{room}.ftl: {} does not begin with {room}-", m.id.name));
                }
                (m.id.name.to_string(), m.value, m.comment)
            }
            Entry::Term(t) => (format!("-{}", t.id.name), Some(t.value), t.comment),
            _ => continue,
        };
        let Some(pattern) = pattern else {
            faults.push(format!("{language}: {id} says nothing"));
            continue;
        };
        if out.iter().any(|(there, _)| *there == id) {
            faults.push(format!("{language}: {id} stands twice"));
        }
        let mut found = Found {
            comment: comment.map_or_else(Vec::new, |c| c.content.iter().map(ToString::to_string).collect()),
            variables: BTreeSet::new(),
            references: BTreeSet::new(),
            functions: BTreeSet::new(),
            bare: false,
        };
        look(&pattern, &mut found);
        found.bare = matches!(
            &pattern.elements[..],
            [PatternElement::Placeable {
                expression: Expression::Inline(
                    InlineExpression::VariableReference { .. } | InlineExpression::FunctionReference { .. }
                )
            }]
        );
        for name in found.functions.iter().filter(|name| *name != FUNCTION) {
            faults.push(format!("{language}: {id} calls {name}, expected {FUNCTION}"));
        }
        out.push((id, found));
    }
    out
}

fn look(pattern: &Pattern<&str>, found: &mut Found) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            expression_in(expression, found);
        }
    }
}

fn expression_in(expression: &Expression<&str>, found: &mut Found) {
    match expression {
        Expression::Inline(inline) => inline_in(inline, found),
        Expression::Select { selector, variants } => {
            inline_in(selector, found);
            for v in variants {
                look(&v.value, found);
            }
        }
    }
}

fn inline_in(inline: &InlineExpression<&str>, found: &mut Found) {
    match inline {
        InlineExpression::VariableReference { id } => {
            found.variables.insert(id.name.to_string());
        }
        InlineExpression::TermReference { id, .. } => {
            found.references.insert(format!("-{}", id.name));
        }
        InlineExpression::MessageReference { id, .. } => {
            found.references.insert(id.name.to_string());
        }
        InlineExpression::FunctionReference { id, arguments } => {
            found.functions.insert(id.name.to_string());
            for given in &arguments.positional {
                inline_in(given, found);
            }
        }
        InlineExpression::Placeable { expression } => expression_in(expression, found),
        _ => {}
    }
}

/// Reads the arguments off the comment, and holds them against what the message uses.
fn declare(room: &str, id: &str, found: &Found, faults: &mut Vec<String>) -> Declared {
    let mut out = Declared { id: id.into(), room: room.into(), about: String::new(), arguments: vec![] };
    for line in &found.comment {
        let Some(rest) = line.trim().strip_prefix('$') else {
            let gap = if out.about.is_empty() { "" } else { " " };
            out.about += gap;
            out.about += line.trim();
            continue;
        };
        let (name, rest) = rest.split_once(' ').unwrap_or((rest, ""));
        let (kind, about) = rest.split_once(':').unwrap_or((rest, ""));
        let kind = kind.trim().trim_matches(['(', ')']);
        if let Some((kind, _)) = KINDS.iter().find(|(k, _)| *k == kind) {
            out.arguments.push(Argument { name: name.into(), kind, about: about.trim().into() });
        } else {
            let kinds: Vec<&str> = KINDS.iter().map(|k| k.0).collect();
            faults.push(format!("{DECLARING}: {id}: ${name} is a {kind:?}, expected one of {}", kinds.join(", ")));
        }
    }
    same_arguments(DECLARING, &out, found, faults);
    if found.bare {
        faults.push(format!("{DECLARING}: {id} is nothing but an argument: a sentence would pass through it"));
    }
    out
}

fn same_arguments(language: &str, declared: &Declared, found: &Found, faults: &mut Vec<String>) {
    let told: BTreeSet<&str> = declared.arguments.iter().map(|a| a.name.as_str()).collect();
    let mut says: BTreeSet<String> = BTreeSet::new();
    for name in &found.variables {
        match name.strip_suffix(EXPANDED).filter(|stem| told.contains(stem)) {
            None => {
                says.insert(name.clone());
            }
            Some(stem) => {
                let own = format!("u-{stem}");
                says.insert(if told.contains(own.as_str()) { own } else { "u".into() });
                says.insert(stem.into());
            }
        }
    }
    for name in told.iter().filter(|n| !says.contains(**n)) {
        faults.push(format!("{language}: {} does not say ${name}", declared.id));
    }
    for name in says.iter().filter(|n| !told.contains(n.as_str())) {
        faults.push(format!("{language}: {} says ${name}, which it does not have", declared.id));
    }
}

fn references(language: &str, there: &BTreeMap<String, Found>, faults: &mut Vec<String>) {
    for (id, found) in there {
        for to in found.references.iter().filter(|to| !there.contains_key(*to)) {
            faults.push(format!("{language}: {id} speaks of {to}, which is not there"));
        }
    }
}
