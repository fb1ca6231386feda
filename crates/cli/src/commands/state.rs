//! `limpid state`: sentences with their case.

use super::{now, open};
use crate::args::StateAction;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use programme::statement::{self, New, Sentence, Stated};
use record::by::By;
use record::store::Store;
use serde_json::{Value, json};
use std::io::Read as _;

/// Runs `limpid state`.
pub fn run(address: &str, action: Option<StateAction>) -> Result<(), Failure> {
    let mut store = open(address)?;
    match action.unwrap_or(StateAction::List { json: false }) {
        StateAction::List { json } => list(&store, json),
        StateAction::Show { name, json } => show(&store, &statement::find(&store, &name)?, json),
        StateAction::Add { name, fields, file, despite, hand, json } => {
            hand.may_act(&store)?;
            let sentence = read(fields, file.as_deref())?;
            let new = New { name: &name, sentence: &sentence, despite: despite.as_deref() };
            let stated = statement::add(&mut store, &new, By { person: hand.name(), at: &now() })?;
            hand.keep(&mut store)?;
            show(&store, &stated, json)
        }
        StateAction::Again { name, despite, hand, json } => {
            hand.may_act(&store)?;
            let by = By { person: hand.name(), at: &now() };
            let stated = statement::again(&mut store, &name, despite.as_deref(), by)?;
            hand.keep(&mut store)?;
            show(&store, &stated, json)
        }
    }
}

fn read(fields: Option<String>, file: Option<&str>) -> Result<Sentence, Failure> {
    let (source, text) = match (fields, file) {
        (Some(text), _) => ("--fields".to_string(), text),
        (None, Some("-")) => {
            let mut text = String::new();
            std::io::stdin().read_to_string(&mut text).context("reading standard input")?;
            ("standard input".into(), text)
        }
        (None, path) => {
            let path = path.unwrap_or_default();
            (path.to_string(), std::fs::read_to_string(path).with_context(|| format!("reading {path}"))?)
        }
    };
    Sentence::parse(&text).map_err(|e| Failure::Refused(format!("{source}: {e}")))
}

fn document(store: &Store, body: (&str, Value)) -> Result<Value, Failure> {
    let mut out = json!({
        "head": store.head()?.map(|h| h.to_string()),
        "method": "sentences checked by one-sided 95 % bounds; marked where a result under them changed",
        "sources": ["Fieller 1954, J. R. Stat. Soc. B 16:175", "JCGM 106:2012"],
        "warnings": ["a supported sentence is no advice on drinking; microbes and what else was not tested are not spoken of"],
    });
    out[body.0] = body.1;
    Ok(out)
}

fn list(store: &Store, json: bool) -> Result<(), Failure> {
    let statement::All { stated: all, unread } = statement::all(store)?;
    if json {
        let all = serde_json::to_value(&all).context("writing the statements as JSON")?;
        let mut out = document(store, ("statements", all))?;
        if let Some(warnings) = out["warnings"].as_array_mut() {
            warnings.extend(unread.into_iter().map(Into::into));
        }
        say!("{out}");
        return Ok(());
    }
    for why in &unread {
        say!("cannot be read: {why}");
    }
    if all.is_empty() && unread.is_empty() {
        say!("no statement is kept yet; `limpid state STORE add NAME --fields JSON --as PERSON` adds one");
    }
    for s in &all {
        say!("{}  {}{}", s.name, s.answer, if s.stands() { "" } else { "  CHANGED SINCE" });
        say!("  asked        {}", s.asked);
        say!("  may be said  {}", s.plain);
        changes(s);
    }
    Ok(())
}

fn changes(s: &Stated) {
    for c in &s.changed {
        say!("  changed      {c}");
    }
    if let Some(t) = &s.today {
        say!("  today        {}: {}", t.answer.as_deref().unwrap_or("cannot be checked"), t.plain);
    }
}

fn show(store: &Store, s: &Stated, json: bool) -> Result<(), Failure> {
    if json {
        let one = serde_json::to_value(s).context("writing the statement as JSON")?;
        say!("{}", document(store, ("statement", one))?);
        return Ok(());
    }
    say!("{}, revision {}, {}: {}", s.name, s.revision, s.kind, s.answer);
    say!("  asked        {}", s.asked);
    say!("  may be said  {}", s.plain);
    say!("  in numbers   {}", s.scientific);
    for u in &s.uses {
        say!("  stands on    {}{}", u.result, u.verdict.map_or_else(String::new, |v| format!(", {}", v.word())));
    }
    for l in &s.kept.leans {
        say!("  stands on    {}", statement::leans_on(l).in_english());
    }
    if let Some(why) = &s.despite {
        say!("  despite      {why}");
    }
    for w in &s.warnings {
        say!("  mind         {w}");
    }
    changes(s);
    say!("  checked      by {} at head {}", s.person, s.head);
    Ok(())
}
