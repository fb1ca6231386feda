//! `limpid recipes`: the programme's recipes, one of them beside a run, a run under another; the beginning of one.

use super::{now, of_entry, open, upkeep};
use crate::args::{RecipeLanguage, Recipes};
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use intake::recipe::TEMPLATES;
use message::Lang;
use programme::recipes::{self, Listed};
use record::by::By;
use serde_json::json;

/// Runs `limpid recipes`.
pub fn run(args: &Recipes) -> Result<(), Failure> {
    if args.template {
        template(args.lang);
        return Ok(());
    }
    let address = args.store.as_deref().unwrap_or_default();
    match (&args.show, args.check.as_deref(), args.give.as_deref()) {
        (Some(name), ..) => show(address, name, args.version),
        (_, Some([name, run]), _) => check(address, (name, run), args.lang),
        (.., Some([name, run])) => give(args, address, (name, run)),
        _ => list(address, args.json),
    }
}

fn template(language: RecipeLanguage) {
    let text = TEMPLATES.iter().find(|(of, _)| *of == language.code()).map(|(_, text)| *text);
    crate::out::write(format_args!("{}", text.unwrap_or_default()));
}

fn list(address: &str, json: bool) -> Result<(), Failure> {
    let all = recipes::all(&open(address)?)?;
    if json {
        say!(
            "{}",
            json!({ "recipes": all, "method": "every version of every recipe on record", "sources": [], "warnings": [] })
        );
        return Ok(());
    }
    if all.is_empty() {
        say!("no recipe is on record; `limpid recipes --template` makes the beginning of one");
        return Ok(());
    }
    let row = |r: &Listed| {
        let runs = if r.runs.is_empty() { "–".into() } else { r.runs.join(", ") };
        vec![r.name.clone(), r.version.to_string(), r.at.clone(), r.person.clone(), runs, r.why.clone()]
    };
    let headings = [
        ("recipe", Side::Left),
        ("version", Side::Right),
        ("since", Side::Left),
        ("by", Side::Left),
        ("runs", Side::Left),
        ("why", Side::Left),
    ];
    crate::out::write(format_args!("{}", lay_out(&headings, &all.iter().map(row).collect::<Vec<_>>())));
    Ok(())
}

fn show(address: &str, name: &str, version: Option<i64>) -> Result<(), Failure> {
    let store = open(address)?;
    let newest = recipes::newest(&store, name)?;
    let wanted = version.unwrap_or(newest.version);
    let all = recipes::all(&store)?;
    let Some(recipe) = all.iter().find(|r| r.name == name && r.version == wanted) else {
        return Err(Failure::Refused(format!("recipe \"{name}\" has versions 1 to {}, not {wanted}", newest.version)));
    };
    crate::out::write(format_args!("{}", recipe.toml));
    Ok(())
}

fn check(address: &str, (name, run): (&str, &str), language: RecipeLanguage) -> Result<(), Failure> {
    let missing = recipes::check(&open(address)?, name, run)?;
    if missing.is_empty() {
        say!("run {run} can be reduced by recipe \"{name}\"");
        return Ok(());
    }
    let lines: Vec<String> = missing.iter().filter_map(|m| m.said(language.of_messages())).collect();
    Err(Failure::Refused(format!("recipe \"{name}\" and run {run} do not meet\n  {}", lines.join("\n  "))))
}

fn give(args: &Recipes, address: &str, (name, run): (&str, &str)) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), args.hand.name());
    args.hand.may_act(&store)?;
    let why = args.why.as_deref().unwrap_or_default();
    let done = recipes::give(&mut store, name, run, why, By { person, at: &at }).map_err(of_entry)?;
    let Some(done) = done else {
        say!("run {run} has that version already; nothing was written");
        return Ok(());
    };
    args.hand.keep(&mut store)?;
    say!("run {run} is reduced by the newest version of recipe \"{name}\": {why} ({person})");
    upkeep::say(&done);
    upkeep::derived(done)
}

impl RecipeLanguage {
    fn code(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::De => "de",
        }
    }

    /// As the catalogues have it.
    pub fn of_messages(self) -> Lang {
        match self {
            Self::En => Lang::En,
            Self::De => Lang::De,
        }
    }
}
