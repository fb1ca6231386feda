//! The two documents of one page: the leaflet for neighbours and the sheet for the authority, in each
//! language of the table of words. The same results and statements as in the full report.

use super::statements::{limit_in_words, nearest, printed, probability};
use super::{hex_head, last_day};
use assessment::engine::DERIVED_BY;
use assessment::organics;
use assessment::results::{self, Listed};
use document::content::{Block, Cell, Column, Content, Form, Provenance, Section, Table};
use limits::Answer;
use programme::limits_of::{Against, Asked, Row, against_of};
use programme::statement::{self, Stated};
use quantity::format::capital;
use quantity::{Amount, Lang, Unit};
use record::Error;
use record::model::{BottleKind, VerdictWord};
use record::store::Store;

/// Rows that the leaflet has room for.
const LEAFLET_ROWS: usize = 8;
/// Rows that the sheet has room for.
const SHEET_ROWS: usize = 11;
/// Statements that a page has room for.
const STATEMENTS: usize = 5;

/// Down here air, bottles and hands bring as much as the water holds, ng/L.
// Common practice of trace-metal work.
const TRACE_NG_L: f64 = 100.0;

/// More substances than this are a list.
const LONG: usize = 5;

/// What both pages are made of.
struct Page<'a> {
    store: &'a Store,
    lang: Lang,
    all: Vec<Listed>,
    against: Against,
    stated: Vec<Stated>,
}

/// The leaflet for neighbours.
///
/// # Errors
/// A record that is not what was written; the store cannot be read.
pub fn leaflet(store: &Store, name: &str, lang: Lang) -> Result<Content, Error> {
    let page = Page::of(store, lang)?;
    let say = |key: &str| lang.say(key, &[]);
    let rejected = page.count(VerdictWord::Rejected);
    let mut notes = vec![lang.say("leaflet.note", &[("rejected", &rejected.to_string())])];
    let near = nearest(&page.against.rows);
    let shown: Vec<&Row> = near.into_iter().take(LEAFLET_ROWS).collect();
    if shown.iter().any(|r| recalled(r)) {
        notes.push(say("leaflet.unseen"));
    }
    if shown.iter().any(|r| not_for_health(r)) {
        notes.push(say("leaflet.not_health"));
    }
    let mut sections = vec![];
    if !shown.is_empty() {
        let table = Table {
            caption: say("leaflet.caption"),
            columns: ["leaflet.substance", "leaflet.well", "leaflet.measured", "leaflet.limit", "leaflet.answer"]
                .map(|k| Column::words(&say(k)))
                .to_vec(),
            rows: shown.iter().map(|r| page.leaflet_row(r)).collect(),
            notes,
        };
        sections.push(Section {
            title: say("leaflet.numbers"),
            blocks: page.down_to()?.map(Block::Text).into_iter().chain([Block::Table(table)]).collect(),
        });
    }
    let said = page.said()?;
    if !said.is_empty() {
        sections.push(Section { title: say("leaflet.said"), blocks: vec![Block::List(said)] });
    }
    sections.push(Section { title: say("leaflet.not_tested"), blocks: vec![Block::Text(page.not_tested())] });
    sections.push(Section { title: say("leaflet.decides"), blocks: vec![Block::Text(say("leaflet.decides_text"))] });
    page.content(name, ["leaflet.title", "leaflet.title_any", "leaflet.subtitle"], sections)
}

/// The sheet for the authority.
///
/// # Errors
/// A record that is not what was written; the store cannot be read.
pub fn authority(store: &Store, name: &str, lang: Lang) -> Result<Content, Error> {
    let page = Page::of(store, lang)?;
    let say = |key: &str| lang.say(key, &[]);
    let count = |w| page.count(w).to_string();
    let water: Vec<&Listed> = page.all.iter().filter(|r| r.verdict.is_some()).collect();
    let distinct = |of: &dyn Fn(&Listed) -> Option<String>| {
        water.iter().filter_map(|r| of(r)).collect::<std::collections::BTreeSet<_>>().len().to_string()
    };
    let what = lang.say(
        "authority.what",
        &[
            ("wells", &distinct(&|r| r.well.clone())),
            ("bottles", &distinct(&|r| Some(r.bottle.clone()))),
            ("results", &water.len().to_string()),
            ("accepted", &count(VerdictWord::Accepted)),
            ("provisional", &count(VerdictWord::Provisional)),
            ("rejected", &count(VerdictWord::Rejected)),
            ("limits", &limits::limits().len().to_string()),
        ],
    );
    let mut blocks = vec![Block::Text(what)];
    let near = nearest(&page.against.rows);
    let below = near.iter().skip(SHEET_ROWS).filter(|r| r.comparison.answer == Answer::Below).count();
    // What is not below is shown, however many rows it takes.
    let rows: Vec<&Row> = near
        .iter()
        .enumerate()
        .filter(|(i, r)| *i < SHEET_ROWS || r.comparison.answer != Answer::Below)
        .map(|(_, r)| *r)
        .collect();
    if !rows.is_empty() {
        blocks.push(Block::Table(page.sheet(
            "authority.caption",
            &rows,
            vec![say("authority.recalled"), say("leaflet.not_health")],
        )));
    }
    if below > 0 {
        blocks.push(Block::Text(lang.say("authority.more", &[("n", &below.to_string())])));
    }
    let mut local: Vec<&Row> = vec![];
    for r in page.against.rows.iter().filter(|r| r.local && r.verdict != Some(VerdictWord::Rejected)) {
        match local.iter_mut().find(|l| l.analyte == r.analyte) {
            Some(l) if super::statements::share(r) > super::statements::share(l) => *l = r,
            Some(_) => {}
            None => local.push(r),
        }
    }
    if !local.is_empty() {
        blocks.push(Block::Table(page.sheet("authority.local_caption", &local, vec![])));
    }
    let mut sections = vec![Section { title: say("leaflet.numbers"), blocks }];
    let said = page.said()?;
    if !said.is_empty() {
        sections.push(Section { title: say("authority.statements"), blocks: vec![Block::List(said)] });
    }
    sections.push(Section { title: say("leaflet.not_tested"), blocks: vec![Block::Text(page.not_tested())] });
    page.content(name, ["authority.title", "authority.title_any", "authority.subtitle"], sections)
}

/// The level that a result reaches, in its unit and in ng/L: what could just be told from nothing, else the value itself.
/// None where it is no concentration.
fn level(r: &Listed) -> Option<(f64, f64)> {
    let amount = r.amount.as_ref()?;
    let below = if let Amount::Below(b) = amount { Some(b.limit) } else { None };
    let level = r.detection_limit.or(below).or(r.reporting_limit).or(amount.value()).filter(|x| *x > 0.0)?;
    Some((level, amount.unit().conversion(&Unit::known("ng/L"), None, None).ok()?.apply(level)))
}

/// A limit set for taste, colour or operation.
fn not_for_health(r: &Row) -> bool {
    let kind = &r.comparison.limit.kind;
    ["aesthetic", "acceptability", "taste", "odour", "indicator", "secondary", "operational"]
        .iter()
        .any(|w| kind.contains(w))
}

fn recalled(r: &Row) -> bool {
    r.comparison.limit.provenance == "recalled"
}

impl<'a> Page<'a> {
    fn of(store: &'a Store, lang: Lang) -> Result<Self, Error> {
        store.as_written()?;
        let all = results::all(store)?;
        let mut against = against_of(store, &all, &Asked::default())?;
        // Compounds have a sentence of their own.
        let compounds = organics::Compounds::of(store, &all)?;
        against.rows.retain(|r| !compounds.holds(&r.analyte));
        Ok(Self { against, stated: statement::all(store)?.stated, store, lang, all })
    }

    /// How far down this programme measured, and why there are blanks: only what its own results bear.
    fn down_to(&self) -> Result<Option<String>, Error> {
        let compounds = organics::Compounds::of(self.store, &self.all)?;
        let water = |r: &&Listed| r.kind.is_water() && !compounds.holds(&r.analyte);
        let levels = self.all.iter().filter(water).filter_map(|r| Some((r, level(r)?)));
        let Some((r, (level, ng_l))) = levels.min_by(|a, b| a.1.1.total_cmp(&b.1.1)) else { return Ok(None) };
        let unit = r.amount.as_ref().map(|a| a.unit().to_string()).unwrap_or_default();
        let level = format!("{} {unit}", self.lang.number(&limits::claim::at_most_text(level)));
        let what = capital(&self.lang.substance(&r.analyte));
        let gaps = [("what", what.as_str()), ("level", &level)];
        let blanks = self.all.iter().any(|r| matches!(r.kind, BottleKind::FieldBlank | BottleKind::TripBlank));
        Ok(Some(if blanks && ng_l <= TRACE_NG_L {
            self.lang.say("leaflet.why_blanks", &gaps)
        } else {
            self.lang.say("leaflet.down_to", &gaps)
        }))
    }

    fn count(&self, word: VerdictWord) -> usize {
        self.all.iter().filter(|r| r.verdict == Some(word)).count()
    }

    /// An amount in the language: numbers with its decimal sign, a bound in words.
    fn amount(&self, a: &Amount) -> String {
        match a {
            Amount::Measured(_) => self.lang.number(&printed(a)),
            other => limits::claim::amount_in_words(self.lang, other),
        }
    }

    fn limit(&self, r: &Row) -> String {
        let mark = format!("{}{}", if recalled(r) { " *" } else { "" }, if not_for_health(r) { " †" } else { "" });
        format!("{} ({}){mark}", self.lang.number(&limit_in_words(&r.comparison.limit)), r.comparison.limit.authority)
    }

    fn answer(&self, a: Answer) -> String {
        match a {
            Answer::Below => self.lang.say("leaflet.below", &[]),
            Answer::Above => self.lang.say("leaflet.above", &[]),
            Answer::CannotTell => self.lang.say("leaflet.cannot", &[]),
        }
    }

    fn leaflet_row(&self, r: &Row) -> Vec<Cell> {
        let mut measured = self.amount(&r.comparison.amount);
        if r.verdict == Some(VerdictWord::Provisional) {
            measured = format!("{measured} {}", self.lang.say("leaflet.mark_provisional", &[]));
        }
        vec![
            Cell::Text(quantity::format::capital(&self.lang.substance(&r.analyte))),
            Cell::Text(r.well.clone().unwrap_or_default()),
            Cell::Text(measured),
            Cell::Text(self.limit(r)),
            Cell::Text(self.answer(r.comparison.answer)),
        ]
    }

    fn sheet(&self, caption: &str, rows: &[&Row], notes: Vec<String>) -> Table {
        let say = |key: &str| self.lang.say(key, &[]);
        let verdict = |v: Option<VerdictWord>| match v {
            Some(VerdictWord::Accepted) => say("authority.accepted"),
            Some(VerdictWord::Provisional) => say("authority.provisional"),
            Some(VerdictWord::Rejected) => say("authority.rejected"),
            None => String::new(),
        };
        let row = |r: &&Row| {
            let c = &r.comparison;
            vec![
                Cell::Text(self.lang.substance(&r.analyte)),
                Cell::Text(r.well.clone().unwrap_or_default()),
                Cell::Text(self.amount(&c.amount)),
                Cell::Text(self.limit(r)),
                Cell::Text(self.answer(c.answer)),
                Cell::Text(c.probability_under.map_or_else(|| "–".into(), |p| self.lang.number(&probability(p)))),
                Cell::Text(verdict(r.verdict)),
            ]
        };
        let heads = [
            "leaflet.substance",
            "leaflet.well",
            "authority.result",
            "authority.limit",
            "leaflet.answer",
            "authority.p",
            "authority.verdict",
        ];
        Table {
            caption: say(caption),
            columns: heads.map(|k| Column::words(&say(k))).to_vec(),
            rows: rows.iter().map(row).collect(),
            notes,
        }
    }

    /// Sentences that the data support, those of lists of compounds last; none whose results changed.
    fn said(&self) -> Result<Vec<String>, Error> {
        let mut out = vec![];
        let list = match organics::report(self.store, &self.all, self.lang) {
            // A list that cannot be summed up has no sentence; the full report says why.
            Err(Error::Science { .. }) => None,
            told => told?,
        };
        // The sentence on the whole list says more than a statement on one bottle of it.
        let said_by_list = |s: &Stated| list.is_some() && s.kind == "absence" && s.uses.len() > LONG;
        for s in self.stated.iter().filter(|s| s.stands() && !said_by_list(s)).take(STATEMENTS) {
            let mut plain = statement::in_language(s, self.lang)?.plain;
            if s.uses.iter().any(|u| u.verdict != Some(VerdictWord::Accepted)) {
                plain = format!("{plain} {}", self.lang.say("leaflet.mark_provisional", &[]));
            }
            out.push(plain);
        }
        out.extend(list.map(|r| r.plain));
        let changed: Vec<&str> = self.stated.iter().filter(|s| !s.stands()).map(|s| s.name.as_str()).collect();
        if !changed.is_empty() {
            out.push(self.lang.say("authority.changed", &[("list", &changed.join(", "))]));
        }
        Ok(out)
    }

    fn not_tested(&self) -> String {
        let lang = self.lang;
        let microbes = self.against.not_tested.first().is_some_and(|n| n == "microbes");
        let others: Vec<String> =
            self.against.not_tested.iter().filter(|n| *n != "microbes").map(|n| lang.substance(n)).collect();
        let list = if others.len() > 12 {
            let more = (others.len() - 12).to_string();
            lang.say("leaflet.and_more", &[("list", &others[..12].join(", ")), ("n", &more)])
        } else {
            others.join(", ")
        };
        let first = if microbes { quantity::format::capital(&lang.say("leaflet.microbes", &[])) } else { "–".into() };
        lang.say("leaflet.not_tested_text", &[("first", &first), ("list", &list)])
    }

    fn content(&self, name: &str, words: [&str; 3], sections: Vec<Section>) -> Result<Content, Error> {
        let lang = self.lang;
        let sites = self.store.sites()?;
        let title = match sites.as_slice() {
            [site] => lang.say(words[0], &[("site", &site.name)]),
            _ => lang.say(words[1], &[]),
        };
        let mut cautions = vec![];
        if self.all.iter().any(|r| matches!(r.analyte.as_str(), "S(-II)" | "H2S" | "sulfide")) {
            cautions.push(lang.say("caution.h2s", &[]));
        }
        if !self.store.wells()?.is_empty() {
            cautions.push(lang.say("caution.pressure", &[]));
        }
        Ok(Content {
            title,
            subtitle: lang.say(words[2], &[]),
            lang: lang.code().into(),
            date: last_day(&self.all),
            invented: sites.iter().any(|s| s.invented == Some(true)),
            sections,
            cautions,
            provenance: Provenance {
                programme: name.to_string(),
                head_hash: hex_head(self.store)?,
                events: self.store.events()?.len() as u64,
                engine: DERIVED_BY.to_string(),
                files: vec![],
                depth: super::depth(&self.all),
            },
            form: Form::Page,
            ..Content::default()
        })
    }
}
