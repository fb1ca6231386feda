//! `limpid request` and `limpid unblind`: bottles go to a laboratory under blind labels, and come back.

use super::{now, open};
use crate::args::{Request, Unblind};
use crate::failure::Failure;
use crate::out::{progress, say};
use crate::table::{Side, lay_out};
use anyhow::Context as _;
use programme::request::{self, Asked};
use programme::work;
use quantity::Lang;
use record::by::By;
use serde_json::json;
use std::fs;
use std::hash::{BuildHasher as _, RandomState};

/// Runs `limpid request`.
pub fn run(args: &Request) -> Result<(), Failure> {
    let lang =
        Lang::parse(&args.lang).ok_or_else(|| Failure::Usage(format!("--lang {}: there are en and de", args.lang)))?;
    let (mut store, at) = (open(&args.store)?, now());
    args.hand.may_act(&store)?;
    let by = By { person: args.hand.name(), at: &at };
    let asked = if args.analyte.is_empty() {
        request::measured_before(&store, &args.trip)?
    } else {
        args.analyte.iter().map(|a| asked(a)).collect::<Result<_, _>>()?
    };
    // Beneath the sign, so that the number reads as it is written on every line.
    let seed = args.seed.unwrap_or_else(|| (RandomState::new().hash_one(&at) >> 1).cast_signed());
    fs::create_dir_all(&args.out).with_context(|| format!("making the folder {}", args.out.display()))?;
    let made = request::make(&mut store, &args.trip, args.laboratory.as_deref(), asked, seed, by)?;
    args.hand.keep(&mut store)?;
    // Nothing follows from a request, but an act after which nothing was derived would be told as "not yet derived".
    work::follow(&mut store, by, &progress())?;
    let name = record::store::short_name(&args.store);
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let invented = store.sites()?.iter().any(|s| s.invented == Some(true));
    let (pdf, html) = quantity::with_language(lang, || {
        let content = report::request::content(&made, &name, head, invented);
        Ok::<_, Failure>((super::report::pdf(&content)?, document::html::to_html(&content).into_bytes()))
    })?;
    let files = [
        ("request.pdf", pdf),
        ("request.html", html),
        ("bottles.csv", request::sheet(&made).into_bytes()),
        ("results.csv", request::to_fill(&made).into_bytes()),
        ("quality.csv", request::quality_to_fill(&made).into_bytes()),
    ];
    for (file, bytes) in files {
        let path = args.out.join(file);
        fs::write(&path, bytes).with_context(|| format!("writing {}", path.display()))?;
        say!("{}", path.display());
    }
    say!("{}: {} bottles under blind labels (seed {})", made.name, made.bottles.len(), made.seed);
    if made.together > 0 {
        say!(
            "{} pairs that belong together stand side by side: with these bottles there was no order without",
            made.together
        );
    }
    say!(
        "results.csv comes back with --mapping laboratory-long, quality.csv with --mapping laboratory-quality; blind labels stand for their bottles, and that they were opened is kept. Who holds the programme or a package of it can read them: do not send either with the bottles"
    );
    Ok(())
}

/// `Pb`, `Pb:ng/L` or `Pb:ng/L:0.1`; a name may hold a colon where unit and limit follow.
fn asked(text: &str) -> Result<Asked, Failure> {
    let form = || Failure::Refused(format!("--analyte: found \"{text}\", expected NAME:UNIT or NAME:UNIT:LIMIT"));
    let (front, last) = text.rsplit_once(':').ok_or_else(form)?;
    if let Ok(limit) = last.trim().parse::<f64>() {
        let (name, unit) = front.rsplit_once(':').ok_or_else(form)?;
        if !(limit > 0.0 && limit.is_finite()) {
            return Err(Failure::Refused(format!("--analyte: found the limit {limit}, expected a number above zero")));
        }
        return Ok(Asked { analyte: name.trim().into(), unit: unit.trim().into(), down_to: Some(limit) });
    }
    Ok(Asked { analyte: front.trim().into(), unit: last.trim().into(), down_to: None })
}

/// Runs `limpid unblind`.
pub fn unblind(args: &Unblind) -> Result<(), Failure> {
    let mut store = open(&args.store)?;
    let Some(name) = &args.request else {
        return list(args);
    };
    let at = now();
    args.hand.may_act(&store)?;
    let by = By { person: args.hand.name(), at: &at };
    let why = args.why.as_deref().unwrap_or_default();
    let labels = request::open(&mut store, name, why, by)?;
    args.hand.keep(&mut store)?;
    work::follow(&mut store, by, &progress())?;
    if args.json {
        say!(
            "{}",
            json!({ "request": name, "labels": labels, "method": "as drawn and kept", "sources": [], "warnings": [] })
        );
        return Ok(());
    }
    let rows: Vec<Vec<String>> =
        labels.iter().map(|l| vec![l.position.to_string(), l.label.clone(), l.bottle.clone()]).collect();
    let headings = [("place", Side::Right), ("blind label", Side::Left), ("bottle", Side::Left)];
    crate::out::write(format_args!("{}", lay_out(&headings, &rows)));
    say!("that they were opened is kept ({}: {why})", by.person);
    Ok(())
}

fn list(args: &Unblind) -> Result<(), Failure> {
    let all = request::all(&open(&args.store)?)?;
    if args.json {
        say!("{}", json!({ "requests": all, "method": "as kept", "sources": [], "warnings": [] }));
        return Ok(());
    }
    if all.is_empty() {
        say!("no request was made (`limpid request`)");
        return Ok(());
    }
    let row = |r: &request::Listed| {
        let opened = match r.opened.first() {
            None => "not opened".into(),
            Some(u) => match (&u.person, u.raw_file_id) {
                (_, Some(_)) => "by a file that came back".to_string(),
                (Some(person), None) => format!("by {person}: {}", u.why.as_deref().unwrap_or_default()),
                (None, None) => "opened".into(),
            },
        };
        vec![r.request.name.clone(), r.request.laboratory.clone().unwrap_or_default(), r.labels.to_string(), opened]
    };
    let headings = [("request", Side::Left), ("to", Side::Left), ("labels", Side::Right), ("first opened", Side::Left)];
    crate::out::write(format_args!("{}", lay_out(&headings, &all.iter().map(row).collect::<Vec<_>>())));
    Ok(())
}
