//! `limpid demo`: the invented programme, from raw files to the report. Everything is made up and
//! says so; dates are those of the scenario, so the same demo is the same bytes every time.

use super::{import, report, upkeep};
use crate::args::ReportKind;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use anyhow::{Context as _, anyhow};
use exchange::result_rows;
use programme::statement::{self, New, Sentence};
use programme::work;
use record::by::By;
use record::store::Store;
use simulator::{Purpose, Trip};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// The trip of the demo.
const SEED: u64 = 2611;
const SAMPLER: By = By { person: "Marit Osk", at: "2026-07-15T10:00:00+02:00" };
const ANALYST: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00+02:00" };

/// Whom the invented leaflet names.
const CONTACT: &str = "Marit Osk, Sallow Levels laboratory (invented), telephone 00 00 00 (invented)";

/// Runs `limpid demo`.
pub fn run(dir: &Path) -> Result<(), Failure> {
    let address = dir.join("sallow-levels.sqlite");
    if address.exists() {
        return Err(Failure::Refused(format!(
            "{} exists already: name another folder with --dir, or remove it",
            address.display()
        )));
    }
    let bundle = raw_files(dir)?;
    let mut store = programme::start::start(&address, SAMPLER.person, SAMPLER.at)?;
    upkeep::say(&import::bundle(&mut store, &bundle, ANALYST)?);
    let why = "field sheet: a gust lifted the curtain while the bottle stood open, and the cap touched the sleeve";
    say!("\n{} is taken out by {}: {why}", simulator::truth::BAD_BLANK, SAMPLER.person);
    let done = work::exclude(&mut store, simulator::truth::BAD_BLANK, true, why, By { at: ANALYST.at, ..SAMPLER })?;
    say!("{} values came out anew", done.changes.len());
    state(&mut store)?;
    let name = address.to_string_lossy().into_owned();
    for (kind, lang) in [(ReportKind::Leaflet, "en"), (ReportKind::Leaflet, "de"), (ReportKind::Authority, "en")] {
        // A sheet for an authority names nobody; a leaflet without anybody to ask is a draft.
        let contact = (kind == ReportKind::Leaflet).then(|| CONTACT.to_string());
        let wanted = report::Wanted { kind, lang: lang.into(), contact, ..report::Wanted::default() };
        report::write_as(&store, &name, &dir.join("report"), &wanted)?;
    }
    let files = report::write(&store, &name, &dir.join("report"))?;
    say!("\nLead (206 + 207 + 208), invented data\n");
    crate::out::write(format_args!("{}", lead(&assessment::results::all(&store)?)));
    say!("\nreport   {}", files[0].display());
    say!("web page {}", files[1].display());
    say!("record   {name}, head {}", store.head()?.map_or_else(String::new, |h| h.to_string()));
    say!("next     limpid case {name} SL2-26-07-A:Pb:206+207+208@low:unfiltered");
    Ok(())
}

/// What one would like to say of the demo's water, with the answers that the data give.
const SENTENCES: &[(&str, &str, Option<&str>)] = &[
    (
        "lead-sl2-below-sl1",
        r#"{"kind":"ratio","a":{"result":"SL1-26-07-A:Pb:206+207+208@low:unfiltered"},"b":{"result":"SL2-26-07-A:Pb:206+207+208@low:unfiltered"},"relation":"at least","factor":2}"#,
        Some("SL-1 is provisional for its air and its recovery; the sentence speaks of what was measured, and says so"),
    ),
    (
        "lead-sl2-under-2",
        r#"{"kind":"threshold","value":{"result":"SL2-26-07-A:Pb:206+207+208@low:unfiltered"},"relation":"below","level":{"value":2,"unit":"ng/L"}}"#,
        None,
    ),
    (
        "lead-sl2-old-ice",
        r#"{"kind":"reference","value":{"result":"SL2-26-07-A:Pb:206+207+208@low:unfiltered"},"reference":"Antarctic ice (Dome C), Holocene","relation":"about","factor":1}"#,
        None,
    ),
    (
        "pesticides-sl2",
        r#"{"kind":"absence","bottle":"SL2-26-07-O","of":"pesticides"}"#,
        Some(
            "another laboratory's list: its blanks and recoveries are not on record here, and the sentence says only what it reports",
        ),
    ),
];

fn state(store: &mut Store) -> Result<(), Failure> {
    for (name, fields, despite) in SENTENCES {
        let sentence = Sentence::parse(fields).context("reading the demo's sentences")?;
        let stated = statement::add(store, &New { name, sentence: &sentence, despite: *despite }, ANALYST)?;
        say!("asked: {}  {}: {}", stated.asked, stated.answer, stated.plain);
    }
    Ok(())
}

/// Writes the raw files and the bundle that lists them.
fn raw_files(dir: &Path) -> Result<std::path::PathBuf, Failure> {
    let raw = dir.join("raw");
    fs::create_dir_all(&raw).with_context(|| format!("making the folder {}", raw.display()))?;
    let mut bundle =
        String::from("# The raw files of the invented trip, in the order in which they refer to each other.\n");
    for file in simulator::files::raw_files(&Trip::new(SEED, Purpose::Demo)) {
        let path = raw.join(file.name);
        fs::write(&path, file.text).with_context(|| format!("writing {}", path.display()))?;
        let _ = write!(bundle, "\n[[file]]\npath = \"{}\"\nmapping = \"{}\"\n", file.name, file.mapping);
    }
    let path = raw.join("bundle.toml");
    fs::write(&path, bundle).with_context(|| format!("writing {}", path.display()))?;
    path.canonicalize().map_err(|e| Failure::Outside(anyhow!(e)))
}

/// Verdicts on lead, a line a bottle.
fn lead(all: &[assessment::results::Listed]) -> String {
    let rows: Vec<Vec<String>> = all
        .iter()
        .filter(|r| r.analyte == "Pb" && r.verdict.is_some())
        .map(|r| {
            let share = r.water_share.map_or_else(String::new, |s| s.in_words());
            let is = r.water_share.map_or("", |s| s.is.words());
            vec![
                r.well.clone().unwrap_or_default(),
                r.bottle.clone(),
                result_rows::value(r).0,
                result_rows::verdict(r),
                share,
                is.into(),
                r.reasons.join(", "),
            ]
        })
        .collect();
    let headings = [
        ("well", Side::Left),
        ("bottle", Side::Left),
        ("ng/L", Side::Right),
        ("verdict", Side::Left),
        ("came with the water", Side::Left),
        ("which is", Side::Left),
        ("because of", Side::Left),
    ];
    lay_out(&headings, &rows)
}
