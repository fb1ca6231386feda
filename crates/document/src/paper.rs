//! The report for paper: text in the markup of the typesetting engine, and its figures as SVG.
//!
//! In: [`Content`]. Out: [`Paper`], and its PDF by the crate `typeset`. The look stands in
//! `paper.typ`; this module only calls it, and every text goes in as a string literal, so that no
//! character of the data can act as markup. Figures carry alternative text, tables a header row.
//! Letters beyond Latin, Greek and Cyrillic stand as □ on paper (the page shows them).
//! What it does not do: no fonts, no setting of type. Checked in `crates/report/tests/report.rs`.

use crate::content::{
    Align, Content, Form, Front, Illustration, Part, Shown, Table, Verdict, outcome, sign, stage, verdict_columns,
};
use crate::printed::printed;
use cleanliness::share::Left;
use figure::marks::colour_of;
use figure::number::Printed;
use message::{Spoken, document as said, document_words as words};
use quantity::Finding;
use std::collections::BTreeMap;
use std::fmt::Write as _;
pub use typeset::Attached;

/// A report ready for the typesetting engine.
#[derive(Debug, Clone, PartialEq)]
pub struct Paper {
    /// Text in engine markup.
    pub main: String,
    /// Figures: file name → SVG.
    pub files: BTreeMap<String, Vec<u8>>,
    /// Title for the document's properties.
    pub title: String,
    /// Author for the document's properties.
    pub author: String,
    /// Last date of the data: year, month, day.
    pub date: Option<(i32, u8, u8)>,
    /// Language.
    pub lang: String,
    /// By what name the record behind it is known; empty where there is none.
    pub record: String,
    /// Files that go with the document.
    pub attached: Vec<Attached>,
}

impl Paper {
    /// Sets it as PDF.
    ///
    /// # Errors
    /// The engine refuses it; every text of ours can be set, so that is a fault of this program.
    pub fn pdf(self) -> Result<Vec<u8>, typeset::TypesetError> {
        typeset::pdf(&typeset::TypesetInput {
            main: self.main,
            files: self.files,
            title: self.title,
            author: self.author,
            date: self.date.map(|(year, month, day)| typeset::Date { year, month, day }),
            lang: self.lang,
            record: self.record,
            attached: self.attached,
        })
    }
}

/// A string literal of the engine's language. A letter that the typeface does not have becomes □: the
/// PDF standard refuses a document with a letter that cannot be shown.
pub fn quoted(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            // Line breaks inside a text are spaces: a paragraph is one text.
            '\n' | '\r' | '\t' => out.push(' '),
            BREAK => out.push(BREAK),
            c if !figure::text::has_letter(c) => out.push('□'),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// Sets the report in markup.
pub fn to_markup(content: &Content) -> Paper {
    // One language: what is worded while it is set speaks the document's.
    message::with_language(content.language(), || set(content))
}

/// Where a line may break, and nothing is seen: ZERO WIDTH SPACE (Unicode standard annex 14).
const BREAK: char = '\u{200B}';
/// Letters of a word that a line holds everywhere, the narrow column of a table too.
const HELD_WHOLE: usize = 32;
/// Letters between two breaks of a longer one: what the narrowest column holds.
const BETWEEN_BREAKS: usize = 10;

/// With places to break in names of one word that no column holds: it runs on in the next line, and not over the margin.
fn breakable(text: &str) -> String {
    let joins = |c: char| c.is_alphanumeric() || c == '_';
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while !rest.is_empty() {
        let end = rest.find(|c: char| !joins(c)).unwrap_or(rest.len());
        let (word, after) = rest.split_at(end);
        // A sum of a file is copied whole: 64 digits, for which its column has room.
        let sum = word.len() <= 64 && word.bytes().all(|b| b.is_ascii_hexdigit());
        let long = word.chars().count() > HELD_WHOLE && !sum;
        for (i, c) in word.chars().enumerate() {
            if long && i > 0 && i % BETWEEN_BREAKS == 0 {
                out.push(BREAK);
            }
            out.push(c);
        }
        let other = after.chars().next();
        out.extend(other);
        rest = &after[other.map_or(0, char::len_utf8)..];
    }
    out
}

/// A text as a string literal, printed as the language writes it; a value, its ± and its unit stand in one line.
fn in_print(text: &str) -> String {
    quoted(&breakable(&held_together(&printed(text, message::language()))))
}

/// A drawing whose words are printed as those around it.
fn drawing(f: &figure::Figure) -> Vec<u8> {
    crate::printed::drawing(&f.for_paper(), message::language()).into_bytes()
}

/// Units that stay with their number.
const UNITS: [&str; 21] = [
    "ng/L", "µg/L", "mg/L", "meq/L", "mmol/L", "µS/cm", "%", "L", "mL", "L/min", "L/s", "m", "mm", "min", "h", "°C",
    "pg", "mV", "ppm", "Uhr", "µm",
];

/// With spaces that do not break around ± and between a number and its unit.
fn held_together(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        out.push_str(word);
        let Some(next) = words.peek() else { break };
        let unit = next.trim_end_matches([',', ';', '.', ':', ')', ']']);
        let number = word.ends_with(|c: char| c.is_ascii_digit());
        let held = word.ends_with('±') || *next == "±" || word == "<" || (number && UNITS.contains(&unit));
        out.push(if held { '\u{A0}' } else { ' ' });
    }
    out
}

fn set(content: &Content) -> Paper {
    let mut body = Writer { main: String::new(), files: BTreeMap::new(), in_annex: false };
    let parts = content.parts();
    if content.form == Form::Page {
        body.one_page(&parts, content);
    } else {
        body.in_order(&parts, content);
    }
    let title = figure::text::with_known_letters(&content.title);
    // Last, when it is known whether something stayed English.
    let mut w = Writer { main: String::new(), files: body.files, in_annex: false };
    w.opening(content);
    w.main.push_str(&body.main);
    Paper {
        main: w.main,
        files: w.files,
        title,
        author: content.author.clone(),
        date: content.date.map(|d| (d.year, d.month, d.day)),
        lang: content.lang.clone(),
        record: record_name(&content.provenance.head_hash),
        attached: vec![],
    }
}

/// A record by its head hash, as its data package names it too; nothing without one.
fn record_name(head: &str) -> String {
    if head.is_empty() { String::new() } else { format!("urn:limpid:record:{head}") }
}

/// Rows of a table that is not broken over two pages.
const UNBROKEN: usize = 12;
/// Rows that a longer table leaves on a page, and carries over, at least.
const KEPT: usize = 6;
/// Letters of a cell that may stand in a row that is not broken; a page holds some thousands.
const IN_A_ROW: usize = 900;

struct Writer {
    main: String,
    files: BTreeMap<String, Vec<u8>>,
    /// Within an annex a section is one level lower, letters and pictures are smaller.
    in_annex: bool,
}

impl Writer {
    fn put(&mut self, text: &str) {
        self.main.push_str(text);
        self.main.push_str("\n\n");
    }

    fn opening(&mut self, c: &Content) {
        let mark = c.invented_mark();
        let lang = c.language();
        self.put(&format!(
            "#let foot-text = {}\n#let foot-mark = {}\n#let page-word = {}\n#let of-word = {}\n#let one-page = {}",
            in_print(&c.foot()),
            in_print(&mark),
            in_print(&words::Page.in_language(lang)),
            in_print(&words::Of.in_language(lang)),
            c.form == Form::Page
        ));
        self.put(include_str!("paper.typ"));
        if c.front.is_some() {
            return;
        }
        let mut under: Vec<String> = vec![];
        under.extend([c.subtitle.clone(), c.author.clone()].into_iter().filter(|s| !s.is_empty()));
        under.extend(c.data_to());
        if c.form == Form::Page {
            self.put(&format!("#page-head({}, {})", in_print(&under.join(" · ")), in_print(&mark)));
        } else {
            self.put("#title()");
            if !under.is_empty() {
                self.put(&format!("#subtitle({})", in_print(&under.join(" · "))));
            }
            if c.invented {
                self.put(&format!("#mark({})", in_print(&mark)));
            }
        }
        if let Some(note) = c.untranslated() {
            self.put(&format!("#notes({})", array(&[note])));
        }
    }

    fn in_order(&mut self, parts: &[Part], content: &Content) {
        let mut rest = parts;
        let mut headed = true;
        while let Some(part) = rest.first() {
            let taken = match rest {
                [Part::Figure(a), Part::Figure(b), ..] if content.form != Form::Page && self.beside(a, b) => 2,
                // A drawing of an annex leaves its room to the text behind it where the page has none for it; one that a
                // heading stands over stays with its heading.
                [Part::Figure(f), ..] if self.in_annex && !headed => {
                    self.figure(f, ", placement: auto");
                    1
                }
                _ => {
                    self.part(part, content);
                    1
                }
            };
            headed = matches!(part, Part::Annex(_) | Part::Section(_) | Part::Heading(_));
            rest = &rest[taken..];
        }
    }

    /// A page that stands alone: a drawing beside the words of its section, and what follows the last table in two columns,
    /// the cautions on the left.
    fn one_page(&mut self, parts: &[Part], content: &Content) {
        let starts: Vec<usize> = (0..parts.len()).filter(|i| matches!(parts[*i], Part::Section(_))).collect();
        let ends = starts.iter().skip(1).copied().chain([parts.len()]);
        let sections: Vec<&[Part]> = starts.iter().zip(ends).map(|(from, to)| &parts[*from..to]).collect();
        let holds_table = |s: &&[Part]| s.iter().any(|p| matches!(p, Part::Table(_) | Part::Figure(_)));
        let across = sections.iter().rposition(holds_table).map_or(0, |i| i + 1);
        self.in_order(&parts[..starts.first().copied().unwrap_or(parts.len())], content);
        for section in &sections[..across] {
            match section.iter().position(|p| matches!(p, Part::Figure(_))) {
                Some(at) => {
                    let words: Vec<Part> = [&section[..at], &section[at + 1..]].concat();
                    let (words, drawing) = (self.captured(&words, content), self.captured(&section[at..=at], content));
                    self.put(&format!("#with-drawing[\n{words}\n][\n{drawing}\n]"));
                }
                None => self.in_order(section, content),
            }
        }
        let is_cautions = |s: &&&[Part]| s.iter().any(|p| matches!(p, Part::Cautions(_)));
        let cautions: Vec<&&[Part]> = sections[across..].iter().filter(|s| is_cautions(s)).collect();
        let others = sections[across..].iter().filter(|s| !is_cautions(s));
        let mut left: Vec<Part> = vec![];
        let mut last: Vec<Part> = vec![];
        for section in cautions {
            let end = section.iter().position(|p| matches!(p, Part::Cautions(_))).map_or(section.len(), |i| i + 1);
            left.extend_from_slice(&section[..end]);
            last.extend_from_slice(&section[end..]);
        }
        let right: Vec<Part> = others.flat_map(|s| s.iter().cloned()).collect();
        let (left, right) = (self.captured(&left, content), self.captured(&right, content));
        self.put(&format!("#two-columns[\n{left}\n][\n{right}\n]"));
        self.in_order(&last, content);
    }

    /// What these parts are in markup, without putting it.
    fn captured(&mut self, parts: &[Part], content: &Content) -> String {
        let before = std::mem::take(&mut self.main);
        self.in_order(parts, content);
        std::mem::replace(&mut self.main, before)
    }

    fn level(&self, level: u8) -> u8 {
        level + u8::from(self.in_annex)
    }

    fn part(&mut self, part: &Part, content: &Content) {
        match part {
            Part::Front(f) => self.front(f, content),
            Part::Contents => self.put(&format!("#contents({})", in_print(&words::Contents.text()))),
            Part::Annex(t) => {
                if !self.in_annex {
                    self.put("#pagebreak(weak: true)\n#set text(size: 8.2pt)\n#show heading.where(level: 2): set text(size: 10.5pt)\n#set table(inset: (x: 4pt, y: 2.2pt))");
                    self.in_annex = true;
                }
                self.put(&format!("#heading(level: 1, {})", in_print(t)));
            }
            Part::Section(t) => self.put(&format!("#heading(level: {}, {})", self.level(1), in_print(t))),
            Part::Heading(t) => self.put(&format!("#heading(level: {}, {})", self.level(2), in_print(t))),
            Part::Text(t) => self.put(&format!("#{}", in_print(t))),
            Part::List(items) => self.put(&format!("#list({})", arguments(items))),
            Part::Verdicts(v) => self.verdicts(v),
            Part::Table(t) => self.table(t),
            Part::Figure(f) => self.figure(f, ""),
            Part::Findings(f) => self.findings(f),
            Part::Cautions(items) => self.put(&format!("#cautions({})", array(items))),
            Part::Pairs(pairs) => {
                let items: Vec<String> =
                    pairs.iter().map(|(n, v)| format!("({}, {})", in_print(n), quoted(&breakable(v)))).collect();
                self.put(&format!("#origin(({},))", items.join(", ")));
            }
        }
    }

    /// The first page: set at the largest size at which it fits on one page.
    fn front(&mut self, f: &Front, c: &Content) {
        let image = |writer: &mut Self, i: &Illustration, width: &str| {
            let name = format!("{}.svg", i.wide.id);
            writer.files.insert(name.clone(), drawing(&i.wide));
            format!("image({}, alt: {}, width: {width})", quoted(&name), in_print(&i.wide.desc))
        };
        let mut out = String::from("#front-page(size => {\nset text(size: size)\n");
        let mut line = |text: String| {
            out += &text;
            out.push('\n');
        };
        line(format!("front-over({}, {})", in_print(&f.over), in_print(&c.invented_mark())));
        line(format!("front-question({})", in_print(&words::Question.text())));
        if let Some(note) = c.untranslated() {
            line(format!("front-note({})", in_print(&note)));
        }
        let verdict = f.word.map_or_else(
            || "none".into(),
            |w| format!("state({}, {}, {})", quoted(w.sign()), in_print(&f.verdict), quoted(w.colour())),
        );
        line(format!(
            "front-answer({}, {verdict}, {}, {})",
            in_print(&words::Answer.text()),
            in_print(&f.answer),
            in_print(&f.method)
        ));
        let strip = f.strip.as_ref().map_or_else(|| "none".into(), |i| image(self, i, "100%"));
        line(format!("front-strip({strip}, {})", in_print(&f.strip_note)));
        let mark = |m: &crate::content::Sure| {
            let colour = colour_of(Some(m.outcome));
            let (sign, word) = (sign(m.outcome), outcome(m.outcome));
            format!(
                "({}, {}, {}, {}, {})",
                quoted(sign),
                in_print(&word),
                quoted(colour),
                in_print(&m.name),
                in_print(&m.text)
            )
        };
        let marks: Vec<String> = f.marks.iter().map(mark).collect();
        line(format!("front-sure({}, ({},))", in_print(&words::DoneToBeSure.text()), marks.join(", ")));
        if let Some(t) = &f.wells {
            line(format!(
                "front-wells({}, {}, {})",
                in_print(&t.caption),
                table_markup(t),
                in_print(&t.all_notes().join(" "))
            ));
        }
        line(format!("front-above({})", in_print(&f.above)));
        let earlier = f.earlier.as_ref().map_or_else(|| "none".into(), |i| image(self, i, "100%"));
        line(format!(
            "front-untold({}, {}, {}, {earlier}, {})",
            in_print(&words::CannotBeTold.text()),
            array(&f.untold),
            in_print(&words::EarlierTrips.text()),
            in_print(&f.earlier_note)
        ));
        line(format!("front-decides({}, {})", in_print(&words::WouldDecide.text()), in_print(&f.decides.join(" "))));
        line("front-contents()".into());
        out += "})";
        self.put(&out);
    }

    fn verdicts(&mut self, verdicts: &[Verdict]) {
        let pads = Verdict::pads(verdicts);
        let mut out = format!(
            "#figure(table(columns: (1.15fr, auto, auto, 2.2fr), align: (left, right, left, left), stroke: rules({}),\n\
             table.header({}),\n",
            verdicts.len(),
            verdict_columns().map(|h| format!("head({}, \"\")", in_print(&h))).join(", ")
        );
        for (v, pad) in verdicts.iter().zip(pads) {
            let printed = Printed::of(&v.amount, v.k);
            let subject = match v.share {
                Some(s) => format!("[#{} \\ #quiet({})]", in_print(&v.subject), in_print(&s.in_words())),
                None => in_print(&v.subject),
            };
            let mut because = v.because.join(" ");
            if let Some(s) = &v.signed {
                because.push(' ');
                because += s;
            }
            let _ = writeln!(
                out,
                "{}, [#number({}, {pad:.3}) \\ #quiet({})], {}, {},",
                row_head(&subject),
                in_print(&v.number()),
                in_print(&printed.unit),
                state(v.word.sign(), &v.word.said().text(), v.word.colour()),
                in_print(&because)
            );
        }
        let _ = write!(out, ") , caption: {})", in_print(&said::KeyResults.text()));
        self.put(&out);
        self.put(&format!("#notes({})", array(&verdict_notes(verdicts))));
    }

    fn table(&mut self, t: &Table) {
        let t = &*t.set();
        let table = format!("figure({}, caption: {})", table_markup(t), in_print(&t.caption));
        let notes = t.all_notes();
        let notes = if notes.is_empty() { String::new() } else { format!("notes({})", array(&notes)) };
        if t.rows.len() <= UNBROKEN && !has_long_cell(t) {
            self.put(&format!("#whole({{\n{table}\n{notes}\n}})"));
            return;
        }
        self.put(&format!("#{table}"));
        if !notes.is_empty() {
            self.put(&format!("#{notes}"));
        }
    }

    /// Two drawings beside each other in their narrow forms; false where one has none.
    fn beside(&mut self, a: &Illustration, b: &Illustration) -> bool {
        let (Some(left), Some(right)) = (&a.phone, &b.phone) else { return false };
        let mut one = |narrow: &figure::Figure, caption: &str| {
            let name = format!("{}-narrow.svg", narrow.id);
            self.files.insert(name.clone(), drawing(narrow));
            format!(
                "figure(image({}, alt: {}, width: 100%), caption: {})",
                quoted(&name),
                in_print(&narrow.desc),
                in_print(caption)
            )
        };
        let (left, right) = (one(left, &a.caption), one(right, &b.caption));
        self.put(&format!("#beside({left}, {right})"));
        true
    }

    fn figure(&mut self, f: &Illustration, placed: &str) {
        let name = format!("{}.svg", f.wide.id);
        // A wide picture keeps its letters readable; a narrow one is not blown up.
        let share = (f.wide.width / figure::WIDE).min(1.0) * 100.0;
        if f.caption.is_empty() {
            let share = if share < 50.0 { 100.0 } else { share };
            let (file, alt) = (quoted(&name), in_print(&f.wide.desc));
            self.put(&format!("#figure(image({file}, alt: {alt}, width: {share:.0}%), caption: none)"));
            self.files.insert(name, drawing(&f.wide));
            return;
        }
        self.put(&format!(
            "#figure(image({}, alt: {}, width: {share:.0}%), caption: {}{placed})",
            quoted(&name),
            in_print(&f.wide.desc),
            in_print(&f.caption)
        ));
        self.files.insert(name, drawing(&f.wide));
    }

    fn findings(&mut self, findings: &[Finding]) {
        let mut out = String::new();
        for f in findings {
            let colour = colour_of(Some(f.outcome));
            let _ = writeln!(
                out,
                "#finding({}, {}, {}, {}, {}, {})",
                in_print(sign(f.outcome)),
                in_print(&outcome(f.outcome)),
                in_print(colour),
                in_print(&stage(f.stage)),
                in_print(&f.text()),
                in_print(&compared(f))
            );
        }
        self.put(&out);
    }
}

/// The numbers of a finding in one line.
pub(crate) fn compared(f: &Finding) -> String {
    let items: Vec<String> =
        f.compared.iter().map(|c| format!("{} {}", c.text(), c.amount.with_expanded().text())).collect();
    items.join("; ")
}

/// Notes under the verdicts.
pub(crate) fn verdict_notes(verdicts: &[Verdict]) -> Vec<String> {
    use crate::content::{Cell, Column};
    let signs = verdicts.iter().filter(|v| v.bound.is_none());
    let rows = signs.map(|v| vec![Cell::Amount { amount: v.amount.clone(), k: v.k }]).collect();
    let mut notes =
        Table { caption: String::new(), columns: vec![Column::numbers("", "")], rows, notes: vec![] }.all_notes();
    let is = |wanted: fn(Left) -> bool| verdicts.iter().filter_map(|v| v.share).any(|s| wanted(s.is));
    if is(|l| !l.holds_pipe()) {
        notes.push(said::WaterShare.text());
    }
    if is(Left::holds_pipe) {
        notes.push(said::LeftWithPipe.text());
    }
    if is(Left::holds_air) {
        notes.push(said::LeftWithAir.text());
    }
    notes
}

/// A table without its caption.
fn table_markup(t: &Table) -> String {
    let columns: Vec<&str> =
        t.columns.iter().map(|c| if c.align == Align::Left && is_wide(t, c) { "1fr" } else { "auto" }).collect();
    let align: Vec<&str> = t.columns.iter().map(|c| if c.align == Align::Left { "left" } else { "right" }).collect();
    // A column without width holds the first and the last rows together, so that no few of them stand alone.
    let held = t.rows.len() > UNBROKEN && !has_long_cell(t);
    let [no_width, no_align, no_head] = if held { ["0pt, ", "left, ", "table.cell(inset: 0pt)[], "] } else { [""; 3] };
    let mut out = format!(
        "table(columns: ({no_width}{},), align: ({no_align}{},), stroke: rules({}),\ntable.header({no_head}",
        columns.join(", "),
        align.join(", "),
        t.rows.len()
    );
    for c in &t.columns {
        let _ = write!(out, "head({}, {}), ", in_print(&c.heading), in_print(&c.unit));
    }
    out += "),\n";
    let together =
        |rows: usize, broken: bool| format!("table.cell(rowspan: {rows}, breakable: {broken}, inset: 0pt)[], ");
    for (i, row) in t.shown().into_iter().enumerate() {
        if held && (i == 0 || i == t.rows.len() - KEPT) {
            out += &together(KEPT, false);
        } else if held && i == KEPT && t.rows.len() > 2 * KEPT {
            out += &together(t.rows.len() - 2 * KEPT, true);
        }
        for (j, cell) in row.into_iter().enumerate() {
            let cell = cell_markup(&cell);
            // What a row is of stands first in it: read aloud, it is said with each of its values.
            out += &if j == 0 { row_head(&cell) } else { cell };
            out += ", ";
        }
        out += "\n";
    }
    out.push(')');
    out
}

/// A cell that names its row.
fn row_head(cell: &str) -> String {
    format!("pdf.header-cell(scope: \"row\", {cell})")
}

/// Is there a cell that may need a page of its own?
fn has_long_cell(t: &Table) -> bool {
    t.shown().iter().flatten().any(|c| c.words.chars().count() > IN_A_ROW)
}

/// Does a column of words need the room that is left?
fn is_wide(t: &Table, column: &crate::content::Column) -> bool {
    let j = t.columns.iter().position(|c| std::ptr::eq(c, column)).unwrap_or(0);
    t.shown().iter().any(|r| r[j].words.chars().count() > 22)
}

fn cell_markup(cell: &Shown) -> String {
    let words = in_print(&cell.words);
    if let Some(colour) = cell.colour {
        return state(cell.sign, &cell.words, colour);
    }
    if cell.muted {
        return format!("quiet({words})");
    }
    if cell.pad_em > 0.0 {
        return format!("number({words}, {:.3})", cell.pad_em);
    }
    words
}

fn state(sign: &str, word: &str, colour: &str) -> String {
    format!("state({}, {}, {})", in_print(sign), in_print(word), in_print(colour))
}

fn arguments(items: &[String]) -> String {
    items.iter().map(|i| in_print(i)).collect::<Vec<_>>().join(", ")
}

fn array(items: &[String]) -> String {
    format!("({},)", arguments(items))
}
