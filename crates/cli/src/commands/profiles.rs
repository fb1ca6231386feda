//! `limpid profiles`: profiles of checks, which of them judges what, and their tables printed, edited and kept.

use super::checks::limit_in_words;
use super::{now, open, upkeep};
use crate::args::Profiles;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use anyhow::Context as _;
use programme::profiles::{self, Profile, Scope, Standing};
use record::by::By;
use record::store::Store;
use serde_json::json;

/// What the accepted results of a profile bear.
const TOLD: &str = "A result that a profile accepts is told as accepted by it wherever its verdict is shown. A profile judges only results of its basis, and what was measured and is not met keeps the weight of the programme's table.";

/// Runs `limpid profiles`.
pub fn run(args: &Profiles) -> Result<(), Failure> {
    let mut store = open(&args.store)?;
    if args.choose.is_none() && !args.table && (args.laboratory.is_some() || args.analyte.is_some()) {
        return Err(Failure::Usage("--laboratory and --analyte go with --choose or --table".into()));
    }
    if let Some(name) = &args.show {
        return show(&store, name, args);
    }
    if args.choose.is_none() && !args.table && args.keep.is_none() && args.new.is_none() {
        return list(&store, args.json);
    }
    let (at, person) = (now(), args.hand.name());
    args.hand.may_act(&store)?;
    let (why, by) = (args.why.as_deref().unwrap_or_default(), By { person, at: &at });
    let done = if let Some([name, file]) = args.keep.as_deref() {
        let sheet = std::fs::read_to_string(file).with_context(|| format!("reading {file}"))?;
        let (changed, done) = profiles::keep(&mut store, name, &sheet, why, by)?;
        say!("changed in the profile \"{name}\": {} ({person}: {why})", changed.join(", "));
        Some(done)
    } else if let (Some(name), Some(like)) = (&args.new, &args.like) {
        profiles::make(&mut store, name, like, why, by)?;
        say!(
            "the profile \"{name}\" is on record, with the rules of \"{like}\"; --show with --csv prints them to be edited"
        );
        None
    } else {
        let scope = Scope { laboratory: args.laboratory.as_deref(), analyte: args.analyte.as_deref() };
        let done = profiles::choose(&mut store, args.choose.as_deref(), scope, why, by)?;
        let judge = args.choose.as_deref().map_or("the programme's table of checks".into(), |p| format!("\"{p}\""));
        say!("{judge} judges {} from now on ({person}: {why})", of(scope.laboratory, scope.analyte));
        Some(done)
    };
    args.hand.keep(&mut store)?;
    match done {
        Some(done) => {
            upkeep::say(&done);
            upkeep::derived(done)
        }
        None => Ok(()),
    }
}

/// Which results, in words.
fn of(laboratory: Option<&str>, analyte: Option<&str>) -> String {
    let parts: Vec<String> =
        [analyte.map(String::from), laboratory.map(|l| format!("of {l}"))].into_iter().flatten().collect();
    if parts.is_empty() { "all results of its basis".into() } else { parts.join(" ") }
}

fn list(store: &Store, json: bool) -> Result<(), Failure> {
    let (all, standing) = (profiles::listed(store)?, profiles::standing(store)?);
    if json {
        let method = "rules of a profile stand before those of the programme's table; the choice that says most of a result counts";
        say!(
            "{}",
            json!({ "profiles": all, "choices": standing, "method": method, "sources": [], "warnings": [TOLD] })
        );
        return Ok(());
    }
    let row = |p: &Profile| {
        let from = if p.on_record { "on record" } else { "of this version, not chosen" };
        vec![p.name.clone(), p.basis.word().into(), p.rules.len().to_string(), from.into()]
    };
    let headings = [("profile", Side::Left), ("judges", Side::Left), ("rules", Side::Right), ("", Side::Left)];
    crate::out::write(format_args!("{}", lay_out(&headings, &all.iter().map(row).collect::<Vec<_>>())));
    if standing.is_empty() {
        say!("\nNobody chose one: the programme's table of checks judges everything (`limpid checks`).");
        return Ok(());
    }
    let row = |s: &Standing| {
        let c = &s.choice;
        vec![
            c.profile.clone().unwrap_or_else(|| "the table of checks".into()),
            of(c.laboratory.as_deref(), c.analyte.as_deref()),
            s.results.to_string(),
            c.person.clone().unwrap_or_default(),
            c.why.clone(),
        ]
    };
    let headings = [
        ("judged by", Side::Left),
        ("what", Side::Left),
        ("results", Side::Right),
        ("chosen by", Side::Left),
        ("because", Side::Left),
    ];
    say!("");
    crate::out::write(format_args!("{}", lay_out(&headings, &standing.iter().map(row).collect::<Vec<_>>())));
    say!("\n{TOLD}");
    Ok(())
}

fn show(store: &Store, name: &str, args: &Profiles) -> Result<(), Failure> {
    let profile = profiles::named(store, name)?;
    if let Some(file) = &args.csv {
        std::fs::write(file, profiles::table(store, name)?).with_context(|| format!("writing {}", file.display()))?;
        say!("{}: edit it, then --keep \"{name}\" {}", file.display(), file.display());
        return Ok(());
    }
    if args.json {
        say!(
            "{}",
            json!({ "profile": profile, "method": "newest revision of each rule", "sources": [], "warnings": [TOLD] })
        );
        return Ok(());
    }
    let row = |r: &programme::table_of_checks::Ruled| {
        vec![
            r.check_name.clone(),
            r.weight.word().into(),
            limit_in_words(r.limit_value, r.limit_unit.as_deref()),
            r.why.clone().unwrap_or_default(),
        ]
    };
    let headings = [("check", Side::Left), ("weight", Side::Left), ("limit", Side::Right), ("why", Side::Left)];
    say!(
        "{name}: judges {}",
        match profile.basis.word() {
            "counts" => "results derived from the counts of a run",
            "meter" => "what a meter read, among reported results",
            _ => "results that a laboratory reported as concentrations",
        }
    );
    crate::out::write(format_args!("{}", lay_out(&headings, &profile.rules.iter().map(row).collect::<Vec<_>>())));
    say!("\nWhat it does not name the programme's table of checks decides. {TOLD}");
    Ok(())
}
