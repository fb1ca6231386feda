//! The two documents of one page: the leaflet for neighbours and the sheet for the authority, in each
//! language of the catalogues. The same results and statements as in the full report.

use super::statements::{
    Dated, ForHealth, Fractions, coming, conductivity_stands_at, for_health, is_above, limit_in_words, nearest,
    newest_and_extreme, order, printed, probability, rejected_higher,
};
use super::{hex_head, last_day};
use assessment::engine::DERIVED_BY;
use assessment::organics;
use assessment::results::{self, Listed};
use document::content::{Block, Cell, Column, Content, Form, Provenance, Section, Table};
use limits::claim::substance;
use limits::terms::Concern;
use limits::{Answer, Comparison};
use message::{Arg, Message, authority, count, leaflet};
use programme::limits_of::{Against, Asked, Row, against_of};
use programme::statement::{self, Stated};
use quantity::format::capital;
use quantity::{Amount, Lang, Spoken, Unit};
use record::Error;
use record::model::{BottleKind, VerdictWord};
use record::store::Store;

/// Rows that the leaflet has room for.
const LEAFLET_ROWS: usize = 8;
/// Rows that the sheet has room for, beside limits for health and limits still to come, in every language.
const SHEET_ROWS: usize = 7;
/// Substances that are named as not tested.
const NOT_TESTED: usize = 12;
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
    let rejected = count(page.count(VerdictWord::Rejected));
    let mut notes = vec![leaflet::Note { rejected }.in_language(lang)];
    notes.extend(rejected_higher(&page.against.rows, lang));
    // Nearest to a limit first: what has no room on the page lies farther from its limit than what is shown.
    let near = fitting(newest_and_extreme(&page.against.rows));
    let shown: Vec<&Row> = near.iter().flat_map(Dated::rows).collect();
    if near.iter().any(|d| d.extreme.is_some()) {
        notes.push(leaflet::Extreme.in_language(lang));
    }
    let fractions = Fractions::of(&shown);
    notes.extend(fractions.note(lang));
    notes.extend(conductivity_stands_at(&shown, lang));
    if shown.iter().any(|r| recalled(r)) {
        notes.push(leaflet::Recalled.in_language(lang));
    }
    if shown.iter().any(|r| not_for_health(r)) {
        notes.push(leaflet::NotForHealth.in_language(lang));
    }
    notes.extend(by_profile(&shown, lang));
    let mut sections = vec![];
    if !shown.is_empty() {
        let heads: [Message; 6] = [
            leaflet::Substance.into(),
            leaflet::Well.into(),
            leaflet::Day.into(),
            leaflet::Measured.into(),
            leaflet::Limit.into(),
            leaflet::ValueIs.into(),
        ];
        let table = Table {
            caption: leaflet::Caption.in_language(lang),
            columns: heads.map(|h| Column::words(h.in_language(lang))).to_vec(),
            rows: near.iter().flat_map(|d| page.leaflet_rows(d, &fractions)).collect(),
            notes,
        };
        let blocks = page.down_to()?.map(Block::Text).into_iter().chain([Block::Table(table)]).collect();
        sections.push(Section::of(leaflet::Numbers, blocks));
    } else if let Some(rejected) = rejected_higher(&page.against.rows, lang) {
        // A page without a number that stands names those that do not.
        sections.push(Section::of(leaflet::Numbers, vec![Block::Text(rejected)]));
    }
    let said = page.said()?;
    if !said.is_empty() {
        sections.push(Section::of(leaflet::Said, vec![Block::List(said)]));
    }
    sections.push(page.not_tested());
    let decides = Block::Text(leaflet::DecidesText.in_language(lang));
    sections.push(Section::of(leaflet::Decides, vec![decides]));
    let title = |site: Option<&str>| match site {
        Some(site) => leaflet::Title { site: site.into() }.in_language(lang),
        None => leaflet::TitleOfSeveral.in_language(lang),
    };
    page.content(name, title, &leaflet::Subtitle.in_language(lang), sections)
}

/// The sheet for the authority.
///
/// # Errors
/// A record that is not what was written; the store cannot be read.
pub fn authority(store: &Store, name: &str, lang: Lang) -> Result<Content, Error> {
    let page = Page::of(store, lang)?;
    let of_verdict = |w| count(page.count(w));
    let water: Vec<&Listed> = page.all.iter().filter(|r| r.verdict.is_some()).collect();
    let distinct = |of: &dyn Fn(&Listed) -> Option<String>| {
        count(water.iter().filter_map(|r| of(r)).collect::<std::collections::BTreeSet<_>>().len())
    };
    let what = authority::What {
        wells: distinct(&|r| r.well.clone()),
        bottles: distinct(&|r| Some(r.bottle.clone())),
        results: count(water.len()),
        accepted: of_verdict(VerdictWord::Accepted),
        provisional: of_verdict(VerdictWord::Provisional),
        rejected: of_verdict(VerdictWord::Rejected),
        limits: count(limits::limits().len()),
    };
    let mut blocks = vec![Block::Text(what.in_language(lang))];
    let near = nearest(&page.against.rows);
    let below = near.iter().skip(SHEET_ROWS).filter(|r| r.comparison.answer == Answer::Below).count();
    // What is not below is shown, however many rows it takes.
    let rows: Vec<&Row> = near
        .iter()
        .enumerate()
        .filter(|(i, r)| *i < SHEET_ROWS || r.comparison.answer != Answer::Below)
        .map(|(_, r)| *r)
        .collect();
    if rows.is_empty() {
        blocks.extend(rejected_higher(&page.against.rows, lang).map(Block::Text));
    } else {
        let mut notes = vec![authority::Notes.in_language(lang), leaflet::NotForHealth.in_language(lang)];
        notes.extend(rejected_higher(&page.against.rows, lang));
        notes.extend(conductivity_stands_at(&rows, lang));
        notes.extend(by_profile(&rows, lang));
        blocks.push(Block::Table(page.sheet(authority::Caption.in_language(lang), &rows, notes)));
    }
    if below > 0 {
        blocks.push(Block::Text(authority::More { n: count(below) }.in_language(lang)));
    }
    blocks.extend(coming(&page.against).map(|m| Block::Text(m.in_language(lang))));
    let mut local: Vec<&Row> = vec![];
    // What the first table has, with the same limit, stands once.
    let told = |r: &Row| rows.iter().any(|shown| shown.strictest && r.strictest && shown.analyte == r.analyte);
    for r in page.against.rows.iter().filter(|r| r.local && r.verdict != Some(VerdictWord::Rejected) && !told(r)) {
        match local.iter_mut().find(|l| l.analyte == r.analyte) {
            Some(l) if order(r, l).is_lt() => *l = r,
            Some(_) => {}
            None => local.push(r),
        }
    }
    if !local.is_empty() {
        let notes = by_profile(&local, lang);
        blocks.push(Block::Table(page.sheet(authority::LocalCaption.in_language(lang), &local, notes)));
    }
    let mut sections = vec![Section::of(leaflet::Numbers, blocks)];
    let said = page.said()?;
    if !said.is_empty() {
        sections.push(Section::of(authority::Statements, vec![Block::List(said)]));
    }
    sections.push(page.not_tested());
    let title = |site: Option<&str>| match site {
        Some(site) => authority::Title { site: site.into() }.in_language(lang),
        None => authority::TitleOfSeveral.in_language(lang),
    };
    page.content(name, title, &authority::Subtitle.in_language(lang), sections)
}

/// Which of the rows shown a profile of checks accepts.
fn by_profile(rows: &[&Row], lang: Lang) -> Vec<String> {
    let accepted = rows.iter().filter(|r| r.verdict == Some(VerdictWord::Accepted));
    let mut by: std::collections::BTreeMap<&str, std::collections::BTreeSet<String>> =
        std::collections::BTreeMap::new();
    for r in accepted {
        if let Some(profile) = &r.profile {
            by.entry(profile).or_default().insert(r.result.to_string());
        }
    }
    by.into_iter().map(|(profile, of)| super::accepted_of(of.len(), profile).in_language(lang)).collect()
}

/// As many as the page has rows for.
fn fitting(all: Vec<Dated>) -> Vec<Dated> {
    let mut rows = 0;
    let fits = |d: &Dated| {
        rows += d.rows().count();
        rows <= LEAFLET_ROWS
    };
    all.into_iter().take_while(fits).collect()
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
    r.comparison.limit.terms.concern != Concern::Health
}

fn recalled(r: &Row) -> bool {
    r.comparison.limit.provenance == "recalled"
}

impl<'a> Page<'a> {
    fn of(store: &'a Store, lang: Lang) -> Result<Self, Error> {
        store.as_written()?;
        let all = results::all(store)?;
        let mut against = against_of(store, &all, &Asked::default())?;
        // Compounds have a sentence of their own; one that lies above a limit stands in the table too.
        let compounds = organics::Compounds::of(store, &all)?;
        against.rows.retain(|r| r.local || is_above(r) || !compounds.holds(&r.analyte));
        Ok(Self { against, stated: statement::all(store)?.stated, store, lang, all })
    }

    /// How far down this programme measured, and why there are blanks: only what its own results bear.
    fn down_to(&self) -> Result<Option<String>, Error> {
        let compounds = organics::Compounds::of(self.store, &self.all)?;
        let stands = |r: &&Listed| r.verdict != Some(VerdictWord::Rejected);
        let water = |r: &&Listed| r.kind.is_water() && stands(r) && !compounds.holds(&r.analyte);
        let levels = self.all.iter().filter(water).filter_map(|r| Some((r, level(r)?)));
        let Some((r, (level, ng_l))) = levels.min_by(|a, b| a.1.1.total_cmp(&b.1.1)) else { return Ok(None) };
        let unit = r.amount.as_ref().map(|a| a.unit().to_string()).unwrap_or_default();
        let level = limits::claim::at_most(level, unit);
        let what = substance(&r.analyte);
        let blanks = self.all.iter().any(|r| matches!(r.kind, BottleKind::FieldBlank | BottleKind::TripBlank));
        Ok(Some(if blanks && ng_l <= TRACE_NG_L {
            leaflet::WhyBlanks { what, level }.in_language(self.lang)
        } else {
            leaflet::DownTo { what, level }.in_language(self.lang)
        }))
    }

    fn count(&self, word: VerdictWord) -> usize {
        self.all.iter().filter(|r| r.verdict == Some(word)).count()
    }

    /// An amount in the language: numbers with its decimal sign, a bound in words.
    fn amount(&self, a: &Amount) -> String {
        match a {
            Amount::Measured(_) => printed(a, self.lang),
            other => limits::claim::amount_in_words(self.lang, other),
        }
    }

    fn limit(&self, r: &Row) -> String {
        let mark = format!("{}{}", if recalled(r) { " *" } else { "" }, if not_for_health(r) { " †" } else { "" });
        let limit = &r.comparison.limit;
        format!("{} ({}){mark}", limit_in_words(limit, self.lang), limit.authority)
    }

    /// The limit of a row and, where it is not set for health, the nearest one that is.
    fn limit_and_health(&self, r: &Row) -> String {
        match for_health(r, &self.against.rows, self.lang) {
            ForHealth::Said(health) => format!("{}; {}", self.limit(r), health.in_language(self.lang)),
            ForHealth::Itself | ForHealth::None => self.limit(r),
        }
    }

    /// The limit of a row; where a limit set for health is exceeded too, both: a mark "not for health" alone would mislead.
    fn limit_and_health_exceeded(&self, r: &Row) -> String {
        let exceeded = |h: &Row| h.nearest_health && h.result == r.result && is_above(h);
        if self.against.rows.iter().any(exceeded) { self.limit_and_health(r) } else { self.limit(r) }
    }

    fn answer(&self, c: &Comparison) -> String {
        let answer: Message = match c.answer {
            Answer::Below => leaflet::Below.into(),
            Answer::Above => leaflet::Above.into(),
            Answer::CannotTell => leaflet::CannotTell.into(),
        };
        c.with_uncertainty(answer).in_language(self.lang)
    }

    /// The name of its substance.
    fn substance(&self, r: &Row) -> String {
        let condition =
            Message::named("condition", &r.analyte).filter(|_| Message::named("substance", &r.analyte).is_none());
        condition.map_or_else(|| Arg::from(substance(&r.analyte)).in_language(self.lang), |c| c.in_language(self.lang))
    }

    /// The newest value, then the extreme of its history, named as such.
    fn leaflet_rows(&self, of: &Dated, fractions: &Fractions) -> Vec<Vec<Cell>> {
        let mut out = vec![self.leaflet_row(of.newest, "", fractions)];
        if let Some(r) = of.extreme {
            out.push(self.leaflet_row(r, &leaflet::ExtremeMark.in_language(self.lang), fractions));
        }
        out
    }

    /// The day of a row's bottle; a dash where none is on record.
    fn day(r: &Row) -> Cell {
        Cell::Text(r.on.clone().unwrap_or_else(|| "–".into()))
    }

    fn leaflet_row(&self, r: &Row, mark: &str, fractions: &Fractions) -> Vec<Cell> {
        let mut measured = self.amount(&r.comparison.amount);
        if r.verdict == Some(VerdictWord::Provisional) {
            measured = format!("{measured} {}", leaflet::ProvisionalMark.in_language(self.lang));
        }
        if !mark.is_empty() {
            measured = format!("{measured} {mark}");
        }
        vec![
            Cell::Text(fractions.behind(capital(&self.substance(r)), r, self.lang)),
            Cell::Text(r.well.clone().unwrap_or_default()),
            Self::day(r),
            Cell::Text(measured),
            Cell::Text(self.limit_and_health_exceeded(r)),
            Cell::Text(self.answer(&r.comparison)),
        ]
    }

    fn sheet(&self, caption: String, rows: &[&Row], mut notes: Vec<String>) -> Table {
        let lang = self.lang;
        let fractions = Fractions::of(rows);
        notes.extend(fractions.note(lang));
        let verdict = |r: &Row| {
            let word: Message = match r.verdict {
                Some(VerdictWord::Accepted) => authority::Accepted.into(),
                Some(VerdictWord::Provisional) => authority::Provisional.into(),
                Some(VerdictWord::Rejected) => authority::Rejected.into(),
                None => return String::new(),
            };
            match &r.profile {
                Some(profile) => {
                    message::laboratory::VerdictBy { verdict: word, profile: profile.as_str().into() }.in_language(lang)
                }
                None => word.in_language(lang),
            }
        };
        let row = |r: &&Row| {
            let c = &r.comparison;
            vec![
                Cell::Text(fractions.behind(self.substance(r), r, lang)),
                Cell::Text(r.well.clone().unwrap_or_default()),
                Self::day(r),
                Cell::Text(self.amount(&c.amount)),
                Cell::Text(self.limit_and_health(r)),
                Cell::Text(self.answer(c)),
                Cell::Text(c.probability_under.map_or_else(|| "–".into(), |p| probability(p, lang))),
                Cell::Text(verdict(r)),
            ]
        };
        let heads: [Message; 8] = [
            leaflet::Substance.into(),
            leaflet::Well.into(),
            leaflet::Day.into(),
            authority::Result.into(),
            authority::Limit.into(),
            leaflet::ValueIs.into(),
            authority::ProbabilityUnder.into(),
            authority::Verdict.into(),
        ];
        Table {
            caption,
            columns: heads.map(|h| Column::words(h.in_language(lang))).to_vec(),
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
                plain = format!("{plain} {}", leaflet::ProvisionalMark.in_language(self.lang));
            }
            out.push(plain);
        }
        if let Some(list) = list {
            let compounds = organics::Compounds::of(self.store, &self.all)?;
            let of_list = |r: &&Listed| r.kind.is_water() && compounds.holds(&r.analyte);
            // As strong as the weakest of its results.
            let accepted = self.all.iter().filter(of_list).all(|r| r.verdict == Some(VerdictWord::Accepted));
            let mark = leaflet::ProvisionalMark.in_language(self.lang);
            out.push(if accepted { list.plain } else { format!("{} {mark}", list.plain) });
        }
        let changed: Vec<&str> = self.stated.iter().filter(|s| !s.stands()).map(|s| s.name.as_str()).collect();
        if !changed.is_empty() {
            out.push(leaflet::Changed { names: changed.join(", ").into() }.in_language(self.lang));
        }
        Ok(out)
    }

    fn not_tested(&self) -> Section {
        let lang = self.lang;
        let microbes = self.against.not_tested.first().is_some_and(|n| n == "microbes");
        let others: Vec<&String> = self.against.not_tested.iter().filter(|n| *n != "microbes").collect();
        let mut names: Vec<Arg> = others.iter().take(NOT_TESTED).flat_map(|n| substance(n)).collect();
        if others.len() > NOT_TESTED {
            names.push(Message::from(leaflet::More { n: count(others.len() - NOT_TESTED) }).into());
        }
        let text = match (microbes, names.is_empty()) {
            (true, true) => leaflet::Microbes.in_language(lang),
            (true, false) => leaflet::MicrobesAndOthers { names }.in_language(lang),
            (false, true) => "–".into(),
            (false, false) => leaflet::Others { names }.in_language(lang),
        };
        Section::of(leaflet::NotTested, vec![Block::Text(text)])
    }

    /// `title` is asked with the place, where there is one.
    fn content(
        &self,
        name: &str,
        title: impl Fn(Option<&str>) -> String,
        subtitle: &str,
        sections: Vec<Section>,
    ) -> Result<Content, Error> {
        let lang = self.lang;
        let sites = self.store.sites()?;
        let title = match sites.as_slice() {
            [site] => title(Some(&site.name)),
            _ => title(None),
        };
        let mut cautions = vec![];
        if self.all.iter().any(|r| matches!(r.analyte.as_str(), "S(-II)" | "H2S" | "sulfide")) {
            cautions.push(leaflet::CautionGas.in_language(lang));
        }
        if !self.store.wells()?.is_empty() {
            cautions.push(leaflet::CautionPressure.in_language(lang));
        }
        Ok(Content {
            title,
            subtitle: subtitle.into(),
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
                // A page tells its origin in one line, where files have no place (`Content::parts`).
                files: vec![],
                depth: super::depth(&self.all),
            },
            form: Form::Page,
            ..Content::default()
        })
    }
}
