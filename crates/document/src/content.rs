//! A report as data, before it is paper or page.
//!
//! In: what was asked and found, verdicts, tables, figures, findings, methods, where it all comes
//! from. Out: one list of [`Part`]s in reading order ([`Content::parts`]); paper ([`crate::paper`])
//! and page ([`crate::html`]) are two renderings of that same list, so that they cannot differ in
//! what they say. All text is plain: nothing in it is read as markup of any kind.
//!
//! The cautions are always there: no tests for microbes unless stated, only what was measured,
//! no advice on drinking. A report of invented data says so on every page.
//! Dates come from the data, never from a clock. Checked in `crates/report/tests/report.rs`.

use crate::printed::printed;
use cleanliness::share::Left;
use figure::Figure;
use figure::number::{Printed, after_point_in_words_em};
use message::{Message, Spoken, document as said, document_words as words, word};
use quantity::{Amount, Finding, Lang, Outcome, Stage};
use record::ResultId;
use std::borrow::Cow;

pub use figure::verdict::Word;

/// Outcome of a check as a shape.
pub fn sign(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Met => "✓",
        Outcome::NotMet => "✗",
        Outcome::NotKnown => "?",
    }
}

/// Outcome of a check as a word.
pub(crate) fn outcome(outcome: Outcome) -> String {
    match outcome {
        Outcome::Met => word::Met.text(),
        Outcome::NotMet => word::NotMet.text(),
        Outcome::NotKnown => word::NotKnown.text(),
    }
}

/// A stage of the path as a word.
pub(crate) fn stage(stage: Stage) -> String {
    match stage {
        Stage::Aquifer => word::Aquifer.text(),
        Stage::Well => word::Well.text(),
        Stage::CleanAir => word::CleanAir.text(),
        Stage::Bottle => word::Bottle.text(),
        Stage::CoolBox => word::CoolBox.text(),
        Stage::LabRun => word::LabRun.text(),
        Stage::Number => word::Number.text(),
        Stage::Meaning => said::Meaning.text(),
    }
}

/// The part of the measured metal that the blanks leave, and what it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// Share, 0 to 1.
    pub value: f64,
    /// Lower end of its 95 % interval.
    pub lo: f64,
    /// Upper end of its 95 % interval.
    pub hi: f64,
    /// What it is.
    pub is: Left,
}

impl Share {
    /// In words: "0.90 (0.84 to 0.95) the water’s, as it leaves the well".
    pub fn in_words(&self) -> String {
        let places = quantity::format::decimals_for((self.hi - self.lo) / 2.0, 1).clamp(2, 4);
        let [share, low, high] = [self.value, self.lo, self.hi].map(|x| message::Shown::decimals(x, places, ""));
        message::share::Called { share, low, high, left: self.is.says() }.text()
    }
}

/// Headings of the table of key results.
pub(crate) fn verdict_columns() -> [String; 4] {
    [said::Result.text(), said::Value.text(), said::Verdict.text(), said::Because.text()]
}

/// One result with its verdict and the reasons.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// "SL-2, lead, unfiltered".
    pub subject: String,
    /// The result.
    pub amount: Amount,
    /// Coverage factor of the expanded uncertainty.
    pub k: f64,
    /// What stands for the number, where the amount bounds something that was found: "at most 2.75".
    pub bound: Option<String>,
    /// The verdict.
    pub word: Word,
    /// What the blanks leave, where they allow a share.
    pub share: Option<Share>,
    /// Reasons, one sentence each.
    pub because: Vec<String>,
    /// Who signed, when, why; where somebody did.
    pub signed: Option<String>,
    /// The result's name, where it has a case.
    pub result: Option<ResultId>,
}

/// How a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Numbers, lined up at the decimal point.
    Number,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Heading.
    pub heading: String,
    /// Unit, shown under the heading; empty when the cells carry their own.
    pub unit: String,
    /// How it is set.
    pub align: Align,
}

impl Column {
    /// A column of words.
    pub fn words(heading: impl Into<String>) -> Self {
        Self { heading: heading.into(), unit: String::new(), align: Align::Left }
    }
    /// A column of numbers in one unit.
    pub fn numbers(heading: impl Into<String>, unit: &str) -> Self {
        Self { unit: unit.into(), align: Align::Number, ..Self::words(heading) }
    }
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words, or a number already in its final form.
    Text(String),
    /// A quantity with the coverage factor of its expanded uncertainty.
    Amount {
        /// The quantity.
        amount: Amount,
        /// Coverage factor.
        k: f64,
    },
    /// A verdict.
    Verdict(Word),
    /// The outcome of a check.
    Outcome(Outcome),
    /// Nothing to show, and why: "not measured".
    Missing(String),
    /// A cell that speaks of a result: where the document is served beside the cases, it opens that case.
    Of {
        /// The result's name.
        result: ResultId,
        /// What is shown.
        cell: Box<Cell>,
    },
}

impl Cell {
    /// This cell, speaking of a result.
    #[must_use]
    pub fn of(self, result: &ResultId) -> Self {
        Self::Of { result: result.clone(), cell: Box::new(self) }
    }

    /// What is shown.
    pub fn plain(&self) -> &Self {
        match self {
            Self::Of { cell, .. } => cell.plain(),
            other => other,
        }
    }
}

/// A cell as both renderings show it.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    /// Shape that stands before the words; may be empty.
    pub sign: &'static str,
    /// The words.
    pub words: String,
    /// Colour that repeats what sign and words say.
    pub colour: Option<&'static str>,
    /// Padding on the right that lines up the decimal points, em.
    pub pad_em: f64,
    /// Less than a result: muted.
    pub muted: bool,
    /// The result that it speaks of.
    pub result: Option<ResultId>,
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Caption, without number.
    pub caption: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows; a row shorter than the columns is filled with empty cells.
    pub rows: Vec<Vec<Cell>>,
    /// Notes under the table. What ± and † mean is added by itself.
    pub notes: Vec<String>,
}

impl Table {
    /// As it is set: a table of one row reads better on its side, what stood at the head of each column before its cell.
    pub fn set(&self) -> Cow<'_, Self> {
        let ([row], [first, others @ ..]) = (&self.rows[..], &self.columns[..]) else { return Cow::Borrowed(self) };
        let Some((name, cells)) = row.split_first().filter(|_| others.len() > 1) else { return Cow::Borrowed(self) };
        let Cell::Text(name) = name.plain() else { return Cow::Borrowed(self) };
        let one = |(column, cell): (&Column, &Cell)| {
            // An amount brings its own unit.
            let bare = column.unit.is_empty() || matches!(cell.plain(), Cell::Amount { .. });
            let what = if bare { column.heading.clone() } else { format!("{}, {}", column.heading, column.unit) };
            vec![Cell::Text(what), cell.clone()]
        };
        Cow::Owned(Self {
            caption: self.caption.clone(),
            columns: vec![Column::words(first.heading.clone()), Column::words(name.clone())],
            rows: others.iter().zip(cells).map(one).collect(),
            notes: self.notes.clone(),
        })
    }

    /// The cells as shown, row by row, all rows of the same length.
    pub fn shown(&self) -> Vec<Vec<Shown>> {
        let many_k = self.one_k().is_none();
        let widest: Vec<f64> = (0..self.columns.len()).map(|j| self.widest_after_point(j)).collect();
        self.rows
            .iter()
            .map(|row| (0..self.columns.len()).map(|j| self.cell(row.get(j), j, many_k, widest[j])).collect())
            .collect()
    }

    fn widest_after_point(&self, j: usize) -> f64 {
        if self.columns[j].align == Align::Left {
            return 0.0;
        }
        self.rows
            .iter()
            .filter_map(|r| match r.get(j).map(Cell::plain) {
                Some(Cell::Amount { amount, k }) => Some(Printed::of(amount, *k).after_point_em()),
                _ => None,
            })
            .fold(0.0, f64::max)
    }

    fn cell(&self, cell: Option<&Cell>, j: usize, many_k: bool, widest: f64) -> Shown {
        let plain = |words: String| Shown { sign: "", words, colour: None, pad_em: 0.0, muted: false, result: None };
        match cell {
            None => plain(String::new()),
            Some(Cell::Text(t)) => plain(t.clone()),
            Some(Cell::Of { result, cell }) => {
                Shown { result: Some(result.clone()), ..self.cell(Some(cell), j, many_k, widest) }
            }
            Some(Cell::Missing(why)) => Shown { muted: true, ..plain(why.clone()) },
            Some(Cell::Verdict(w)) => Shown { sign: w.sign(), colour: Some(w.colour()), ..plain(w.said().text()) },
            Some(Cell::Outcome(o)) => {
                Shown { sign: sign(*o), colour: Some(figure::marks::colour_of(Some(*o))), ..plain(outcome(*o)) }
            }
            Some(Cell::Amount { amount, k }) => {
                let p = Printed::of(amount, *k);
                let mut words = if p.unit == self.columns[j].unit { p.number() } else { p.in_line() };
                if many_k && p.expanded.is_some() {
                    words.push_str("\u{A0}(k\u{A0}");
                    words.push_str(&message::Shown::significant(*k, 2, "").text());
                    words.push(')');
                }
                let pad =
                    if self.columns[j].align == Align::Number { (widest - p.after_point_em()).max(0.0) } else { 0.0 };
                Shown { pad_em: if words == p.number() { pad } else { 0.0 }, ..plain(words) }
            }
        }
    }

    fn amounts(&self) -> impl Iterator<Item = (&Amount, f64)> {
        self.rows.iter().flatten().filter_map(|c| match c.plain() {
            Cell::Amount { amount, k } => Some((amount, *k)),
            _ => None,
        })
    }

    /// The coverage factor, when all quantities with uncertainty share one; NaN when there is none.
    fn one_k(&self) -> Option<f64> {
        let mut ks = self.amounts().filter(|(a, _)| matches!(a, Amount::Measured(_))).map(|(_, k)| k);
        let first = ks.next().unwrap_or(f64::NAN);
        ks.all(|k| (k - first).abs() < 1e-9).then_some(first)
    }

    /// Notes with the explanation of the signs that occur.
    pub fn all_notes(&self) -> Vec<String> {
        let mut out = vec![];
        match self.one_k() {
            Some(k) if k.is_finite() => {
                out.push(said::Expanded { k: message::Shown::significant(k, 2, "") }.text());
            }
            None => out.push(said::ExpandedEach.text()),
            Some(_) => {}
        }
        if self.amounts().any(|(a, _)| matches!(a, Amount::Below(_))) {
            out.push(said::NotDetected.text());
        }
        if self.amounts().any(|(a, _)| matches!(a, Amount::Stated(_))) {
            out.push(said::NotStated.text());
        }
        out.extend(self.notes.iter().cloned());
        out
    }
}

/// A figure with its caption.
#[derive(Debug, Clone, PartialEq)]
pub struct Illustration {
    /// For paper and wide screens.
    pub wide: Figure,
    /// For a telephone, where the wide one would be too small to read.
    pub phone: Option<Figure>,
    /// Caption, without number.
    pub caption: String,
}

/// A piece of a section.
#[derive(Debug, Clone, PartialEq)]
#[allow(
    clippy::large_enum_variant,
    reason = "a report has some hundred pieces; a figure in a box would be unpacked everywhere"
)]
pub enum Block {
    /// A paragraph.
    Text(String),
    /// A heading inside the section.
    Heading(String),
    /// A list.
    List(Vec<String>),
    /// A table.
    Table(Table),
    /// A figure.
    Figure(Illustration),
    /// Findings, in the order of the path.
    Findings(Vec<Finding>),
}

/// A section between the verdicts and the methods.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Title.
    pub title: String,
    /// Its name for those who choose sections, the same in every language.
    pub name: String,
    /// What stands in it.
    pub blocks: Vec<Block>,
    /// The annex that it stands in; none for a chapter.
    pub annex: Option<Annex>,
}

impl Section {
    /// With its title in the language that is spoken.
    pub fn of(title: impl Into<Message>, blocks: Vec<Block>) -> Self {
        let title = title.into();
        Self { title: title.text(), name: figure::slug(&title.in_english()), blocks, annex: None }
    }

    /// The same in an annex.
    #[must_use]
    pub fn within(self, annex: Annex) -> Self {
        Self { annex: Some(annex), ..self }
    }
}

/// The annexes of a report, in their order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Annex {
    /// Every result, what the years say of it.
    Results,
    /// The runs in full.
    Runs,
    /// The waters, one by one.
    Waters,
    /// The wells, one by one.
    Wells,
    /// Lists of compounds.
    Compounds,
    /// Methods and their sources.
    Methods,
    /// The record and its files.
    Files,
}

impl Annex {
    /// All.
    pub const ALL: [Self; 7] =
        [Self::Results, Self::Runs, Self::Waters, Self::Wells, Self::Compounds, Self::Methods, Self::Files];

    /// Its letter and what it holds.
    fn title(self, letter: char, lang: Lang) -> String {
        let holds: Message = match self {
            Self::Results => words::AnnexResults.into(),
            Self::Runs => words::AnnexRuns.into(),
            Self::Waters => words::AnnexWaters.into(),
            Self::Wells => words::AnnexWells.into(),
            Self::Compounds => words::AnnexCompounds.into(),
            Self::Methods => words::Methods.into(),
            Self::Files => words::Origin.into(),
        };
        words::Annex { letter: letter.to_string().into(), holds }.in_language(lang)
    }
}

/// The first page: the question of the trip, and all that a reader must have who is handed this page alone.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Front {
    /// Place, trip and day, over the question.
    pub over: String,
    /// The verdict on the asked well.
    pub word: Option<Word>,
    /// The verdict in words.
    pub verdict: String,
    /// The answer for the asked well.
    pub answer: String,
    /// By what it was come by, and since when.
    pub method: String,
    /// Of 100 parts of the metal in a bottle; none where no parts are told.
    pub strip: Option<Illustration>,
    /// What belongs beneath the strip, or stands in its place.
    pub strip_note: String,
    /// What was done to be sure: clean air, blanks, nothing lost, bottles agree.
    pub marks: Vec<Sure>,
    /// The asked substance in every well that day.
    pub wells: Option<Table>,
    /// What lies above a limit.
    pub above: String,
    /// What cannot be told.
    pub untold: Vec<String>,
    /// The values of earlier trips.
    pub earlier: Option<Illustration>,
    /// What the time line says.
    pub earlier_note: String,
    /// What would decide what is open.
    pub decides: Vec<String>,
}

/// How a number came to be.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The result's name.
    pub result: ResultId,
    /// What it is of.
    pub title: String,
    /// From the number down to the counts, or to the place in a file: depth and words.
    pub lines: Vec<(usize, String)>,
}

/// One thing that was done to be sure, and what came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sure {
    /// What came of it.
    pub outcome: Outcome,
    /// What it is.
    pub name: String,
    /// With its numbers.
    pub text: String,
}

/// A method with the sources that a reader can check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Method {
    /// Name.
    pub name: String,
    /// What was done.
    pub text: String,
    /// Published sources.
    pub sources: Vec<String>,
}

/// A raw file and its hash.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RawFile {
    /// Name as given.
    pub name: String,
    /// BLAKE3 hash, hexadecimal.
    pub hash: String,
}

/// Where the report comes from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Provenance {
    /// Name of the programme.
    pub programme: String,
    /// Head hash of the record, hexadecimal.
    pub head_hash: String,
    /// Number of events in the record.
    pub events: u64,
    /// Version of the engine that derived the results.
    pub engine: String,
    /// Raw files.
    pub files: Vec<RawFile>,
    /// How far down its numbers can be opened.
    pub depth: Depth,
}

/// What stands under the numbers of a document.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Depth {
    /// Counts of a detector.
    #[default]
    Counts,
    /// What a laboratory reported.
    Reported,
    /// Counts of some, reports of others.
    Both,
}

/// A date of the data.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Day {
    /// Year.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day, 1 to 31.
    pub day: u8,
}

/// How long a document is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Form {
    /// A report of many pages.
    #[default]
    Full,
    /// One page: a leaflet, a sheet.
    Page,
}

/// A whole report.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Content {
    /// Title.
    pub title: String,
    /// Line under the title: place, trip.
    pub subtitle: String,
    /// Who is responsible for it; may be empty.
    pub author: String,
    /// Language, BCP 47.
    pub lang: String,
    /// Last date in the data.
    pub date: Option<Day>,
    /// The data are invented; every page says so.
    pub invented: bool,
    /// What was asked, in paragraphs.
    pub asked: Vec<String>,
    /// What was found, in paragraphs.
    pub found: Vec<String>,
    /// Verdicts on the key results.
    pub verdicts: Vec<Verdict>,
    /// The first page, where the document is of a question.
    pub front: Option<Box<Front>>,
    /// The body.
    pub sections: Vec<Section>,
    /// Methods.
    pub methods: Vec<Method>,
    /// What is known of tests for microbes; empty: never tested, and the report says so.
    pub microbes: String,
    /// Further cautions, beside those that always stand.
    pub cautions: Vec<String>,
    /// Where it comes from.
    pub provenance: Provenance,
    /// How long it is.
    pub form: Form,
    /// How numbers of the document came to be: its web page opens them without a server.
    pub opened: Vec<Opened>,
    /// What stands before the identity of a result in the address of its case, where the document is served beside
    /// the cases; empty: its numbers lead nowhere.
    pub cases_at: String,
}

/// A piece of the report in reading order.
#[derive(Debug, Clone, PartialEq)]
pub enum Part<'a> {
    /// The first page.
    Front(&'a Front),
    /// Where the annexes begin: the contents of the whole.
    Contents,
    /// An annex.
    Annex(String),
    /// Title of a section.
    Section(String),
    /// Heading inside a section.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// A list.
    List(Vec<String>),
    /// Verdicts.
    Verdicts(&'a [Verdict]),
    /// A table.
    Table(&'a Table),
    /// A figure.
    Figure(&'a Illustration),
    /// Findings.
    Findings(&'a [Finding]),
    /// Cautions: set apart.
    Cautions(Vec<String>),
    /// Names and values: hashes and the like.
    Pairs(Vec<(String, String)>),
}

impl Part<'_> {
    /// Does a text of this part hold this?
    fn says(&self, what: &str) -> bool {
        match self {
            Self::Annex(t) | Self::Section(t) | Self::Heading(t) | Self::Text(t) => t.contains(what),
            Self::Front(f) => f.texts().iter().any(|t| t.contains(what)),
            Self::List(all) | Self::Cautions(all) => all.iter().any(|t| t.contains(what)),
            Self::Verdicts(all) => all.iter().flat_map(|v| &v.because).any(|t| t.contains(what)),
            Self::Table(t) => t.shown().iter().flatten().any(|c| c.words.contains(what)),
            Self::Figure(f) => f.caption.contains(what),
            Self::Findings(all) => all.iter().any(|f| f.text().contains(what)),
            Self::Pairs(_) | Self::Contents => false,
        }
    }
}

impl Front {
    /// Its texts in reading order.
    pub fn texts(&self) -> Vec<&str> {
        let mut out: Vec<&str> = vec![&self.over, &self.verdict, &self.answer, &self.method, &self.strip_note];
        out.extend(self.marks.iter().flat_map(|m| [m.name.as_str(), m.text.as_str()]));
        out.push(&self.above);
        out.extend(self.untold.iter().chain(&self.decides).map(String::as_str));
        out.push(&self.earlier_note);
        out
    }
}

impl Content {
    /// The line that marks invented data, in English.
    pub const INVENTED: &str = "Invented data: no real well, no real water.";

    /// The line that marks invented data, in the report's language; stands on every page.
    pub fn invented_mark(&self) -> String {
        if self.invented { words::Invented.in_language(self.language()) } else { String::new() }
    }

    /// What the mark behind an English text means, where one that an older program kept stands in the document.
    pub(crate) fn untranslated(&self) -> Option<String> {
        let say = || words::Untranslated { mark: message::IN_ENGLISH.into() }.in_language(self.language());
        self.parts().iter().any(|p| p.says(message::IN_ENGLISH)).then(say)
    }

    /// The language; English where none is named.
    pub fn language(&self) -> Lang {
        Lang::parse(&self.lang).unwrap_or_default()
    }

    /// "data to 2026-07-14"; nothing without a date.
    pub(crate) fn data_to(&self) -> Option<String> {
        self.date.map(|d| words::DataTo { date: d.iso().into() }.in_language(self.language()))
    }

    /// The whole report in reading order.
    pub fn parts(&self) -> Vec<Part<'_>> {
        match &self.front {
            Some(front) => self.of_a_question(front),
            None => self.plain(),
        }
    }

    /// A report of a question: the first page, chapters, cautions, and the annexes behind their contents.
    fn of_a_question<'a>(&'a self, front: &'a Front) -> Vec<Part<'a>> {
        let lang = self.language();
        let mut out = vec![Part::Front(front)];
        let sections = |of: Option<Annex>| {
            let these = self.sections.iter().filter(move |s| s.annex == of);
            these.flat_map(|s| std::iter::once(Part::Section(s.title.clone())).chain(s.blocks.iter().map(Block::part)))
        };
        out.extend(sections(None));
        self.cautions(&mut out);
        out.push(Part::Text(self.origin_in_short()));
        out.push(Part::Contents);
        let mut letters = 'A'..='Z';
        for annex in Annex::ALL {
            let mut within: Vec<Part> = vec![];
            if annex == Annex::Results {
                self.asked_and_found(&mut within);
            }
            within.extend(sections(Some(annex)));
            match annex {
                Annex::Methods => self.methods_told(&mut within, Part::Section),
                Annex::Files => self.origin_told(&mut within),
                _ => {}
            }
            if !within.is_empty() {
                out.push(Part::Annex(annex.title(letters.next().unwrap_or('Z'), lang)));
                out.extend(within);
            }
        }
        out
    }

    /// Any other document.
    fn plain(&self) -> Vec<Part<'_>> {
        let mut out = vec![];
        let lang = self.language();
        self.asked_and_found(&mut out);
        for s in &self.sections {
            out.push(Part::Section(s.title.clone()));
            out.extend(s.blocks.iter().map(Block::part));
        }
        self.cautions(&mut out);
        if !self.methods.is_empty() {
            out.push(Part::Section(words::Methods.in_language(lang)));
            self.methods_told(&mut out, Part::Heading);
        }
        // One page has no room for the table of hashes and files: its origin is a line with the head of the hash.
        if self.form == Form::Page {
            out.push(Part::Text(self.origin_in_short()));
            return out;
        }
        out.push(Part::Section(words::Origin.in_language(lang)));
        self.origin_told(&mut out);
        out
    }

    fn asked_and_found<'a>(&'a self, out: &mut Vec<Part<'a>>) {
        let lang = self.language();
        let mut section = |title: String, texts: &[String]| {
            if !texts.is_empty() {
                out.push(Part::Section(title));
                out.extend(texts.iter().cloned().map(Part::Text));
            }
        };
        section(words::Asked.in_language(lang), &self.asked);
        section(words::Found.in_language(lang), &self.found);
        if !self.verdicts.is_empty() {
            out.push(Part::Verdicts(&self.verdicts));
        }
    }

    fn cautions(&self, out: &mut Vec<Part>) {
        // Without a condition, unlike the sections around them: no document leaves its cautions out.
        out.push(Part::Section(words::Cautions.in_language(self.language())));
        out.push(Part::Cautions(self.all_cautions()));
    }

    fn methods_told<'a>(&'a self, out: &mut Vec<Part<'a>>, heading: fn(String) -> Part<'a>) {
        for m in &self.methods {
            out.push(heading(m.name.clone()));
            out.push(Part::Text(m.text.clone()));
            if !m.sources.is_empty() {
                out.push(Part::List(m.sources.clone()));
            }
        }
    }

    fn origin_in_short(&self) -> String {
        let (p, lang) = (&self.provenance, self.language());
        let hash: String = p.head_hash.chars().take(12).collect();
        let date = self.date.map(Day::iso).unwrap_or_default();
        let (programme, date, hash) = (p.programme.as_str().into(), date.into(), hash.into());
        match p.depth {
            Depth::Counts => words::OriginShortCounts { programme, date, hash }.in_language(lang),
            Depth::Reported => words::OriginShortReported { programme, date, hash }.in_language(lang),
            Depth::Both => words::OriginShortBoth { programme, date, hash }.in_language(lang),
        }
    }

    fn origin_told(&self, out: &mut Vec<Part>) {
        let lang = self.language();
        out.push(Part::Text(match self.provenance.depth {
            Depth::Counts => words::OriginCounts.in_language(lang),
            Depth::Reported => words::OriginReported.in_language(lang),
            Depth::Both => words::OriginBoth.in_language(lang),
        }));
        out.push(Part::Pairs(self.origin()));
    }

    /// All figures, wide forms, in reading order.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        let front = self.front.iter().flat_map(|f| f.strip.iter().chain(&f.earlier)).map(|i| &i.wide);
        let within = self.sections.iter().flat_map(|s| &s.blocks).filter_map(|b| match b {
            Block::Figure(i) => Some(&i.wide),
            _ => None,
        });
        front.chain(within)
    }

    /// The cautions that always stand, then the report's own.
    pub fn all_cautions(&self) -> Vec<String> {
        let lang = self.language();
        let microbes =
            if self.microbes.is_empty() { words::CautionMicrobes.in_language(lang) } else { self.microbes.clone() };
        let mut out = vec![
            words::CautionCompares.in_language(lang),
            microbes,
            words::CautionOnly.in_language(lang),
            words::CautionBottle.in_language(lang),
        ];
        out.extend(self.cautions.iter().cloned());
        out
    }

    fn origin(&self) -> Vec<(String, String)> {
        let p = &self.provenance;
        let mut out = vec![(said::Programme.text(), p.programme.clone())];
        let mut add = |name: String, value: String| {
            if !value.is_empty() {
                out.push((name, value));
            }
        };
        add(said::Head.text(), p.head_hash.clone());
        add(said::Events.text(), if p.events == 0 { String::new() } else { p.events.to_string() });
        add(said::DerivedBy.text(), p.engine.clone());
        add(said::LastDate.text(), self.date.map(|d| printed(&d.iso(), message::language())).unwrap_or_default());
        for f in &p.files {
            add(said::File { file: f.name.as_str().into() }.text(), f.hash.clone());
        }
        out
    }

    /// The foot of every page: programme and the beginning of the head hash.
    pub fn foot(&self) -> String {
        let hash: String = self.provenance.head_hash.chars().take(12).collect();
        match (self.provenance.programme.as_str(), hash.as_str()) {
            ("", "") => String::new(),
            (name, "") => name.to_string(),
            (name, hash) => said::Foot { programme: name.into(), head: hash.into() }.text(),
        }
    }
}

impl Day {
    /// As ISO 8601 writes it.
    pub fn iso(self) -> String {
        format!("{}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Block {
    fn part(&self) -> Part<'_> {
        match self {
            Self::Text(t) => Part::Text(t.clone()),
            Self::Heading(t) => Part::Heading(t.clone()),
            Self::List(items) => Part::List(items.clone()),
            Self::Table(t) => Part::Table(t),
            Self::Figure(f) => Part::Figure(f),
            Self::Findings(f) => Part::Findings(f),
        }
    }
}

impl Verdict {
    /// Its number, without the unit.
    pub fn number(&self) -> String {
        self.bound.clone().unwrap_or_else(|| Printed::of(&self.amount, self.k).number())
    }

    /// The verdicts as a table's head and rows would show them: padding for the decimal points.
    pub fn pads(verdicts: &[Self]) -> Vec<f64> {
        let after = |v: &Self| match &v.bound {
            Some(words) => after_point_in_words_em(words),
            None => Printed::of(&v.amount, v.k).after_point_em(),
        };
        let widest = verdicts.iter().map(after).fold(0.0, f64::max);
        verdicts.iter().map(|v| widest - after(v)).collect()
    }
}
