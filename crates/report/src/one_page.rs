//! The two documents of one page: the leaflet for neighbours and the sheet for the authority, in each
//! language of the catalogues. The same results and statements as in the full report.

use super::exceedances::{by_profile, exceedances, in_unit, limit_number, readable_unit};
use super::front::{self, Known};
use super::scope::{Chosen, Scope};
use super::statements::{
    ForHealth, Fractions, by_place, coming, conductivity_stands_at, for_health, is_above, nearest, newest_and_extreme,
    order, printed, rejected_higher,
};
use super::{hex_head, last_day};
use assessment::engine::DERIVED_BY;
use assessment::organics;
use assessment::results::{self, Listed};
use document::content::{Block, Cell, Column, Content, Form, Illustration, Provenance, Section, Table};
use limits::Answer;
use limits::claim::substance;
use limits::terms::Concern;
use message::{Arg, Message, authority, count, leaflet, paper};
use programme::limits_of::{Against, Asked, Row, against_of};
use programme::statement::{self, Stated};
use quantity::format::capital;
use quantity::{Amount, Lang, Spoken, Unit};
use record::Error;
use record::model::{BottleKind, VerdictWord};
use record::store::Store;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// Rows that the leaflet has room for.
const LEAFLET_ROWS: usize = 8;
/// Wells across the leaflet.
const LEAFLET_WELLS: usize = 4;
/// Rows that the sheet has room for in every language: above a limit, not to be told, of the question.
const SHEET_ABOVE: usize = 10;
const SHEET_OPEN: usize = 6;
const SHEET_KEY: usize = 4;
/// Names of substances below their limits.
const SHEET_BELOW: usize = 30;
/// Substances that are named as not tested.
const NOT_TESTED: usize = 12;
/// Statements that a page has room for.
const STATEMENTS: usize = 4;
/// Width of the drawing of a well beside a text, px: its letters are then as large as those of the text.
const BESIDE: f64 = 250.0;

/// Down here air, bottles and hands bring as much as the water holds, ng/L.
// Common practice of trace-metal work.
const TRACE_NG_L: f64 = 100.0;

/// What the newest trip asks about.
#[derive(Default)]
struct AskedOf {
    /// The substance.
    key: String,
    /// The well.
    well: Option<String>,
    /// The answer for each well.
    answers: Vec<String>,
    /// The value that stands for a well, without its unit, and the unit.
    common: BTreeMap<String, (String, String)>,
}

/// A number without its unit, which stands at the head of its row.
fn number_alone(text: &str, unit: &str) -> String {
    text.strip_suffix(unit).map_or_else(|| text.to_string(), |n| n.trim_end().to_string())
}

/// What both pages are made of.
struct Page<'a> {
    store: &'a Store,
    lang: Lang,
    all: Vec<Listed>,
    /// Places in `all` by the names of results.
    by_result: HashMap<String, usize>,
    against: Against,
    stated: Vec<Stated>,
}

/// The leaflet for neighbours; without anybody to ask it is a draft.
///
/// # Errors
/// A record that is not what was written; the store cannot be read.
pub fn leaflet(store: &Store, name: &str, lang: Lang) -> Result<Content, Error> {
    leaflet_with(store, name, lang, None)
}

/// The leaflet for neighbours, with whom to ask.
///
/// # Errors
/// As [`leaflet()`].
pub fn leaflet_with(store: &Store, name: &str, lang: Lang, contact: Option<&str>) -> Result<Content, Error> {
    message::with_language(lang, || {
        let page = Page::of(store, lang)?;
        let asked = page.asked()?;
        let mut answer: Vec<Block> = asked.answers.iter().cloned().map(Block::Text).collect();
        answer.extend(page.down_to()?.map(Block::Text));
        let mut sections = vec![];
        let said = page.said()?;
        if !said.is_empty() {
            answer.extend([Block::Heading(leaflet::Said.text()), Block::List(said)]);
        }
        if !answer.is_empty() {
            answer.extend(page.well_drawn(&asked)?.map(Block::Figure));
            sections.push(Section::of(leaflet::Answer, answer));
        }
        if let Some(table) = page.wells_and_substances(&asked) {
            sections.push(Section::of(leaflet::Numbers, vec![Block::Table(table)]));
        } else {
            // A page without a number that stands names those that do not.
            let rejected = rejected_higher(&page.against.rows, lang).map(Block::Text);
            sections.extend(rejected.map(|text| Section::of(leaflet::Numbers, vec![text])));
        }
        sections.push(page.not_tested());
        let contact = contact.map(str::trim).filter(|c| !c.is_empty());
        let whom = contact.map(|c| leaflet::Contact { contact: c.into() }.text());
        let decides = [Some(leaflet::DecidesText.text()), Some(leaflet::OwnWell.text()), whom];
        let decides = decides.into_iter().flatten().collect::<Vec<_>>().join(" ");
        sections.push(Section::of(leaflet::Decides, vec![Block::Text(decides)]));
        let title = |site: Option<&str>| match site {
            Some(site) => leaflet::Title { site: site.into() }.text(),
            None => leaflet::TitleOfSeveral.text(),
        };
        let draft = if contact.is_some() { String::new() } else { format!(" · {}", leaflet::Draft.text()) };
        page.content(name, title, &format!("{}{draft}", leaflet::Subtitle.text()), sections)
    })
}

/// The sheet for the authority.
///
/// # Errors
/// A record that is not what was written; the store cannot be read.
pub fn authority(store: &Store, name: &str, lang: Lang) -> Result<Content, Error> {
    message::with_language(lang, || {
        let page = Page::of(store, lang)?;
        let asked = page.asked()?;
        let waters: Vec<&Listed> = page.all.iter().filter(|r| r.verdict.is_some() && r.kind.is_water()).collect();
        let sections = vec![
            Section::of(leaflet::Numbers, page.sheet(&asked)?),
            Section::of(paper::WhoAndHow, vec![Block::List(super::who::sentences(store, &waters)?)]),
            page.not_tested(),
        ];
        let title = |site: Option<&str>| match site {
            Some(site) => authority::Title { site: site.into() }.text(),
            None => authority::TitleOfSeveral.text(),
        };
        page.content(name, title, &authority::Subtitle.text(), sections)
    })
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
        let by_result = all.iter().enumerate().map(|(i, r)| (r.result.to_string(), i)).collect();
        Ok(Self { against, stated: statement::all(store)?.stated, store, lang, by_result, all })
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

    /// What the newest trip asks about, with the answer for each well.
    fn asked(&self) -> Result<AskedOf, Error> {
        let chosen = Chosen::of(self.store, &Scope::default())?;
        let waters: Vec<&Listed> = chosen.results.iter().filter(|r| r.verdict.is_some() && r.kind.is_water()).collect();
        let question = chosen.trips.iter().rev().find_map(|t| t.question.as_deref());
        let Some(key) = front::key(question, &waters, &self.against) else { return Ok(AskedOf::default()) };
        let (runs, _) = super::reduced(self.store)?;
        let of_trip = chosen.runs(self.store)?;
        let pairs: Vec<_> =
            runs.iter().filter(|r| of_trip.contains(&r.prepared.run.id)).map(|r| (&r.prepared, &r.reduced)).collect();
        let wells = if pairs.is_empty() {
            vec![]
        } else {
            assessment::well_value::of_runs(self.store, &pairs, &chosen.results)?
        };
        let known = Known {
            store: self.store,
            chosen: &chosen,
            place: "",
            key: &key,
            runs: &runs,
            wells: &wells,
            cases: &[],
            years: &[],
            against: &self.against,
        };
        let (answers, well) = known.answers();
        let of_key = wells.iter().filter(|w| w.analyte == key);
        let common = of_key
            .filter_map(|w| match (&w.told, &w.water.well) {
                (assessment::well_value::Told::Value { amount, coverage_k, .. }, Some(well)) => {
                    let printed = figure::number::Printed::of(amount, *coverage_k);
                    Some((well.clone(), (printed.number(), printed.unit)))
                }
                _ => None,
            })
            .collect();
        Ok(AskedOf { key, well, answers, common })
    }

    /// The asked well as it stands in the ground; none where the record knows no pipe of it.
    fn well_drawn(&self, asked: &AskedOf) -> Result<Option<Illustration>, Error> {
        let Some(well) = &asked.well else { return Ok(None) };
        if !self.store.wells()?.iter().any(|w| w.name == *well && !w.is_stream()) {
            return Ok(None);
        }
        let sheet = assessment::wells::sheet(self.store, well, 1)?;
        Ok(sheet.and_then(|s| super::wells::standing(&[s], BESIDE)))
    }

    /// Of each well its newest trip: what is older is not shown beside it.
    fn newest(&self) -> Vec<&Row> {
        let place = |r: &Row| r.well.clone().unwrap_or_else(|| r.result.bottle.clone());
        let mut last: BTreeMap<String, (&str, Option<&str>)> = BTreeMap::new();
        for r in &self.against.rows {
            let Some(day) = r.on.as_deref() else { continue };
            let newest = last.entry(place(r)).or_insert((day, None));
            if day > newest.0 {
                *newest = (day, None);
            }
            if day == newest.0 {
                newest.1 = newest.1.or(self.trip_of(r));
            }
        }
        // A trip can last some days: what is of the same trip as the newest day stands, and so does what has no day.
        let of = |r: &&Row| match (last.get(&place(r)), r.on.as_deref()) {
            (Some((day, trip)), Some(on)) => on == *day || (trip.is_some() && self.trip_of(r) == *trip),
            (known, on) => known.is_none() && on.is_none(),
        };
        self.against.rows.iter().filter(of).collect()
    }

    fn listed(&self, r: &Row) -> Option<&Listed> {
        self.by_result.get(&r.result.to_string()).map(|i| &self.all[*i])
    }

    fn trip_of(&self, r: &Row) -> Option<&str> {
        self.listed(r)?.trip.as_deref()
    }

    /// One table: substances down, wells across, each with its day.
    fn wells_and_substances(&self, asked: &AskedOf) -> Option<Table> {
        let lang = self.lang;
        let rows = self.newest();
        let streams = self.store.wells().ok()?.into_iter().filter(record::model::Well::is_stream);
        let streams: Vec<String> = streams.map(|w| w.name).collect();
        let of_wells: Vec<&Row> = rows
            .into_iter()
            // A goal of zero cannot be shown by any measurement: it stands in the full report, with that word.
            .filter(|r| (r.strictest || is_above(r)) && !r.comparison.limit.is_goal_of_zero())
            .filter(|r| r.well.as_ref().is_some_and(|w| !streams.contains(w)))
            .collect();
        let mut wells: Vec<&str> = of_wells.iter().filter_map(|r| r.well.as_deref()).collect();
        wells.sort_unstable();
        wells.dedup();
        if wells.is_empty() {
            return None;
        }
        let above = |w: &str| of_wells.iter().any(|r| r.well.as_deref() == Some(w) && is_above(r));
        if wells.len() > LEAFLET_WELLS {
            // The asked well, then those with something above a limit.
            wells.sort_by_key(|w| (asked.well.as_deref() != Some(*w), !above(w), w.to_string()));
        }
        let more = wells.len().saturating_sub(LEAFLET_WELLS);
        wells.truncate(LEAFLET_WELLS);
        wells.sort_unstable();
        let day =
            |w: &str| of_wells.iter().filter(|r| r.well.as_deref() == Some(w)).filter_map(|r| r.on.as_deref()).max();
        let near = nearest(&self.against.rows);
        let mut substances: Vec<&str> = vec![];
        let ordered = [Answer::Above, Answer::CannotTell, Answer::Below];
        let key = of_wells.iter().find(|r| r.analyte == asked.key).map(|r| r.analyte.as_str());
        let by_answer = ordered.iter().flat_map(|answer| {
            let is = |r: &&&Row| r.comparison.answer == *answer;
            let shown = of_wells.iter().filter(is).map(|r| r.analyte.as_str()).collect::<Vec<_>>();
            near.iter().map(|r| r.analyte.as_str()).filter(move |a| shown.contains(a)).collect::<Vec<_>>()
        });
        let rejected_alone = of_wells.iter().map(|r| r.analyte.as_str());
        for analyte in key.into_iter().chain(by_answer).chain(rejected_alone) {
            if !substances.contains(&analyte) {
                substances.push(analyte);
            }
        }
        let left = substances.len().saturating_sub(LEAFLET_ROWS);
        substances.truncate(LEAFLET_ROWS);
        let mut columns = vec![Column::words(leaflet::Substance.text())];
        columns.extend(wells.iter().map(|w| Column { unit: day(w).unwrap_or("–").into(), ..Column::words(*w) }));
        columns.push(Column::words(leaflet::Limit.text()));
        let mut shown: Vec<&Row> = vec![];
        let mut cells: Vec<Vec<Cell>> = vec![];
        for analyte in substances {
            let of: Vec<&Row> = of_wells.iter().copied().filter(|r| r.analyte == analyte).collect();
            let limit = of.iter().copied().min_by(|a, b| order(a, b))?;
            let unit = readable_unit(&of);
            let mut row = vec![Cell::Text(format!("{}, {unit}", capital(&self.substance(limit))))];
            for w in &wells {
                let here: Vec<&Row> = of.iter().copied().filter(|r| r.well.as_deref() == Some(*w)).collect();
                // The value that stands for a well, where the page shows the asked substance in its unit.
                let common =
                    asked.common.get(*w).filter(|(_, u)| analyte == asked.key && *u == unit && !here.is_empty());
                row.push(match common {
                    Some((value, _)) => Cell::Text(value.clone()),
                    None => self.cell(&here, &unit, day(w)),
                });
                shown.extend(here);
            }
            row.push(Cell::Text(self.limit_and_health_exceeded(limit, &unit)));
            cells.push(row);
        }
        if self.against.not_tested.first().is_some_and(|n| n == "microbes") {
            let mut row = vec![Cell::Text(leaflet::MicrobesRow.text())];
            row.extend(wells.iter().map(|_| Cell::Missing(leaflet::NotTestedCell.text())));
            row.push(Cell::Text("–".into()));
            cells.push(row);
        }
        let fractions = Fractions::of(&shown);
        let mut notes = vec![leaflet::Signs.text()];
        notes.extend(self.verdicts_named(&shown));
        notes.extend(by_profile(&shown));
        notes.extend(self.earlier_extremes());
        notes.extend(fractions.note(lang));
        notes.extend(conductivity_stands_at(&shown, lang));
        if shown.iter().any(|r| recalled(r)) {
            notes.push(leaflet::Recalled.text());
        }
        if shown.iter().any(|r| not_for_health(r)) {
            notes.push(leaflet::NotForHealth.text());
        }
        if left > 0 {
            notes.push(leaflet::MoreSubstances { n: count(left) }.text());
        }
        if more > 0 {
            notes.push(leaflet::MoreWells { n: count(more) }.text());
        }
        Some(Table { caption: leaflet::CaptionByWell.text(), columns, rows: cells, notes })
    }

    /// The newest values of a substance at a well: of bottles that agree the one nearest to its limit, of those that
    /// disagree each; with its sign, and with its day where that is not the day over the column.
    fn cell(&self, here: &[&Row], unit: &str, day: Option<&str>) -> Cell {
        let mut each: Vec<&Row> = vec![];
        for r in here.iter().copied() {
            match each.iter_mut().find(|e| e.result == r.result) {
                Some(e) if order(r, e).is_lt() => *e = r,
                Some(_) => {}
                None => each.push(r),
            }
        }
        each.sort_by(|a, b| order(a, b));
        let apart = each.iter().filter(|r| self.disagrees(r)).count() > 1;
        let Some(first) = each.first().copied() else { return Cell::Missing(leaflet::NotTestedCell.text()) };
        let shown: Vec<String> = each
            .iter()
            .filter(|r| !apart || self.disagrees(r))
            .take(if apart { 2 } else { 1 })
            .map(|r| number_alone(&self.amount(&in_unit(&r.comparison.amount, unit)), unit))
            .collect();
        let sign = match first.comparison.answer {
            _ if first.verdict == Some(VerdictWord::Rejected) => "✗ ",
            Answer::Above => "▲ ",
            Answer::CannotTell => "? ",
            Answer::Below => "",
        };
        let sign = if first.comparison.answer == Answer::Above && sign == "✗ " { "✗ ▲ " } else { sign };
        let on = first.on.as_deref().filter(|on| Some(*on) != day).map_or_else(String::new, |on| format!(" ({on})"));
        Cell::Text(format!("{sign}{}{on}", shown.join("; ")))
    }

    fn disagrees(&self, r: &Row) -> bool {
        let check = quantity::Check::NumberDuplicates.text();
        r.verdict == Some(VerdictWord::Rejected)
            && self.listed(r).is_some_and(|l| l.reasons.iter().any(|reason| reason == check))
    }

    /// Which of the values shown are accepted and which rejected; all others are provisional.
    fn verdicts_named(&self, shown: &[&Row]) -> Vec<String> {
        let named = |word: VerdictWord| -> Vec<Arg> {
            let mut of: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
            for r in shown.iter().filter(|r| r.verdict == Some(word)) {
                of.entry(self.substance(r)).or_default().insert(r.well.as_deref().unwrap_or(&r.result.bottle));
            }
            let one = |(substance, wells): (String, BTreeSet<&str>)| -> Arg {
                let places = wells.into_iter().map(|w| Arg::Name(w.into())).collect();
                Message::from(message::front::AboveIn { substance: substance.into(), places }).into()
            };
            of.into_iter().map(one).collect()
        };
        let mut out = vec![];
        let (accepted, rejected) = (named(VerdictWord::Accepted), named(VerdictWord::Rejected));
        if !accepted.is_empty() {
            out.push(leaflet::AcceptedNamed { names: accepted }.text());
        }
        if !rejected.is_empty() {
            out.push(leaflet::RejectedNamed { names: rejected }.text());
        }
        if shown.iter().any(|r| r.verdict == Some(VerdictWord::Provisional)) {
            out.push(leaflet::OthersProvisional.text());
        }
        out
    }

    /// What earlier years hold nearer to a limit, or farther over it, than what is shown: named, with its day.
    fn earlier_extremes(&self) -> Option<String> {
        let told = |r: &Row| -> Arg {
            let x = vec![Arg::Name(self.amount(&r.comparison.amount).into())];
            let (substance, place) = (substance(&r.analyte), r.well.as_deref().unwrap_or(&r.result.bottle).into());
            let says: Message = match &r.on {
                Some(day) => leaflet::RejectedOne { substance, x, place, day: day.as_str().into() }.into(),
                None => leaflet::RejectedOneUndated { substance, x, place }.into(),
            };
            says.into()
        };
        let names: Vec<Arg> =
            newest_and_extreme(&self.against.rows).iter().filter_map(|d| d.extreme).take(4).map(told).collect();
        (!names.is_empty()).then(|| leaflet::EarlierExtremes { names }.text())
    }

    /// An amount in the language: numbers with its decimal sign, a bound in words.
    fn amount(&self, a: &Amount) -> String {
        match a {
            Amount::Measured(_) => printed(a, self.lang),
            other => limits::claim::amount_in_words(self.lang, other),
        }
    }

    /// A limit with whose it is; its unit only where the row has another.
    fn limit(&self, r: &Row, unit: &str) -> String {
        let mark =
            format!("{}{}", if recalled(r) { "\u{A0}*" } else { "" }, if not_for_health(r) { "\u{A0}†" } else { "" });
        let limit = &r.comparison.limit;
        let number = limit_number(limit, unit, self.lang);
        format!("{number} ({}){mark}", limit.authority)
    }

    /// The limit of a row; where a limit set for health is exceeded too, both: a mark "not for health" alone would mislead.
    fn limit_and_health_exceeded(&self, r: &Row, unit: &str) -> String {
        let exceeded =
            |h: &Row| h.nearest_health && h.result == r.result && is_above(h) && !h.comparison.limit.is_goal_of_zero();
        if !self.against.rows.iter().any(exceeded) {
            return self.limit(r, unit);
        }
        match for_health(r, &self.against.rows, self.lang) {
            ForHealth::Said(health) => format!("{}; {}", self.limit(r, unit), health.in_language(self.lang)),
            ForHealth::Itself | ForHealth::None => self.limit(r, unit),
        }
    }

    /// The name of its substance.
    fn substance(&self, r: &Row) -> String {
        let condition =
            Message::named("condition", &r.analyte).filter(|_| Message::named("substance", &r.analyte).is_none());
        condition.map_or_else(|| Arg::from(substance(&r.analyte)).in_language(self.lang), |c| c.in_language(self.lang))
    }

    /// The sheet: how much was measured, above, cannot be told, the question of the trip, below as names.
    fn sheet(&self, asked: &AskedOf) -> Result<Vec<Block>, Error> {
        let of_verdict = |w| count(self.count(w));
        let water: Vec<&Listed> = self.all.iter().filter(|r| r.verdict.is_some()).collect();
        let streams: Vec<String> =
            self.store.wells()?.into_iter().filter(record::model::Well::is_stream).map(|w| w.name).collect();
        let places: BTreeSet<&str> = water.iter().filter_map(|r| r.well.as_deref()).collect();
        let bottles: BTreeSet<&str> = water.iter().map(|r| r.bottle.as_str()).collect();
        let of_streams = places.iter().filter(|p| streams.iter().any(|s| s.as_str() == **p)).count();
        let what = authority::What {
            wells: count(places.len() - of_streams),
            streams: count(of_streams),
            bottles: count(bottles.len()),
            results: count(water.len()),
            accepted: of_verdict(VerdictWord::Accepted),
            provisional: of_verdict(VerdictWord::Provisional),
            rejected: of_verdict(VerdictWord::Rejected),
            limits: count(limits::limits().len()),
        };
        let mut blocks = vec![Block::Text(what.text())];
        let newest: Vec<Row> = self.newest().into_iter().cloned().collect();
        let above = by_place(&newest, Answer::Above);
        let told = |r: &&Row| above.iter().any(|a| a.analyte == r.analyte && a.well == r.well);
        let mut open = by_place(&newest, Answer::CannotTell);
        open.retain(|r| !told(r));
        if above.is_empty() {
            blocks.push(Block::Text(message::chapter::NoneAbove.text()));
        } else {
            blocks.extend(exceedances(message::chapter::Above.text(), &above, &self.all, SHEET_ABOVE));
        }
        if !open.is_empty() {
            blocks.extend(exceedances(message::chapter::CannotTell.text(), &open, &self.all, SHEET_OPEN));
        }
        let key: Vec<&Row> = by_place(&newest, Answer::Below).into_iter().filter(|r| r.analyte == asked.key).collect();
        if !key.is_empty() {
            let caption = authority::Asked { element: capital(&super::substance(&asked.key)).into() };
            blocks.extend(exceedances(caption.text(), &key, &self.all, SHEET_KEY));
        }
        let below: BTreeSet<String> = newest
            .iter()
            .filter(|r| r.strictest && r.comparison.answer == Answer::Below && r.analyte != asked.key)
            .filter(|r| !above.iter().chain(&open).any(|a| a.analyte == r.analyte))
            .map(|r| self.substance(r))
            .collect();
        if !below.is_empty() {
            let mut substances: Vec<Arg> = below.iter().take(SHEET_BELOW).map(|n| Arg::Name(n.into())).collect();
            if below.len() > SHEET_BELOW {
                substances.push(Message::from(leaflet::More { n: count(below.len() - SHEET_BELOW) }).into());
            }
            blocks.push(Block::Text(message::chapter::Below { substances }.text()));
        }
        blocks.extend(rejected_higher(&newest, self.lang).map(Block::Text));
        blocks.extend(self.earlier_extremes().map(Block::Text));
        blocks.extend(coming(&self.against).map(|m| Block::Text(m.text())));
        let said = self.said()?;
        if !said.is_empty() {
            blocks.push(Block::Heading(authority::Statements.text()));
            blocks.push(Block::List(said));
        }
        Ok(blocks)
    }

    /// Sentences that the data support, those of lists of compounds last; none whose results changed.
    fn said(&self) -> Result<Vec<String>, Error> {
        let mut out = vec![];
        let list = match organics::report(self.store, &self.all, self.lang) {
            // A list that cannot be summed up has no sentence; the full report says why.
            Err(Error::Science { .. }) => None,
            told => told?,
        };
        for s in self.stated.iter().filter(|s| s.stands()).take(STATEMENTS) {
            let mut plain = statement::in_language(s, self.lang)?.plain;
            if s.uses.iter().any(|u| u.verdict != Some(VerdictWord::Accepted)) {
                plain = format!("{plain} {}", leaflet::ProvisionalMark.in_language(self.lang));
            }
            out.push(plain);
        }
        let of_absence = |s: &&Stated| s.stands() && s.kind == "absence";
        // One sentence of a list of compounds: that on which people agreed, else that of the list.
        if let Some(list) = list.filter(|_| !self.stated.iter().any(|s| of_absence(&s))) {
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
