//! The report as one web page that needs nothing else: no script, no other file, no network.
//!
//! In: [`Content`]. Out: HTML 5 with style, fonts (base64) and figures inside. Works at the width of
//! a telephone (tables scroll inside their own frame, the path picture changes to its upright form)
//! and prints. Contrast 4.5 : 1 or better; state is sign and word; figures carry title and
//! description. A content policy in the page forbids it to load anything.
//! What it does not do: no words of its own beyond those of [`Content::parts`].
//! Checked in `crates/report/tests/report.rs`.

use crate::content::{
    Align, Content, Front, Illustration, Opened, Part, Shown, Table, Verdict, outcome, sign, stage, verdict_columns,
};
use crate::paper::compared;
use crate::paper::verdict_notes;
use crate::printed::printed;
use figure::number::Printed;
use figure::{escape, marks::colour_of, slug};
use message::{Spoken, document as said, document_words as words};
use quantity::{Finding, Lang};
use record::ResultId;
use std::collections::HashMap;
use std::fmt::Write as _;

const STYLE: &str = include_str!("page.css");
/// Sets the report as a page.
pub fn to_html(content: &Content) -> String {
    // One language: what is worded while it is set speaks the document's.
    message::with_language(content.language(), || set(content))
}

/// A text, printed as the language writes it.
fn in_print(text: &str) -> String {
    escape(&printed(text, message::language()))
}

fn set(content: &Content) -> String {
    let language = content.language();
    let mut w = Writer {
        lang: language,
        out: String::new(),
        tables: 0,
        figures: 0,
        sections: vec![],
        open: false,
        in_annex: false,
        cases_at: &content.cases_at,
        opened: content.opened.iter().enumerate().map(|(i, o)| (&o.result, i)).collect(),
    };
    for part in content.parts() {
        w.part(&part);
    }
    w.derivations(&content.opened);
    w.close_section();
    let lang = if content.lang.is_empty() { "en" } else { &content.lang };
    let mark = if content.invented {
        format!("<p class=\"mark\">{}</p>", in_print(&content.invented_mark()))
    } else {
        String::new()
    };
    let mut nav = String::new();
    for (id, title) in &w.sections {
        let _ = write!(nav, "<li><a href=\"#{id}\">{}</a></li>", in_print(title));
    }
    let (title, under) = (in_print(&content.title), under(content));
    // Last, when it is known whether something stayed English.
    let note = |n: String| format!("<p class=\"under\">{}</p>\n", in_print(&n));
    let untranslated = content.untranslated().map_or_else(String::new, note);
    format!(
        "<!DOCTYPE html>\n<html lang=\"{lang}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:\">\n\
         <title>{title}</title>\n<style>{fonts}{STYLE}</style>\n</head>\n<body>\n\
         <a class=\"skip\" href=\"#report\">{skip}</a>\n\
         <header>\n<h1>{title}</h1>\n{under}{mark}{untranslated}</header>\n\
         <nav aria-label=\"{contents}\"><ul>{nav}</ul></nav>\n\
         <main id=\"report\">\n{body}</main>\n<footer><p>{foot}</p>{mark}</footer>\n</body>\n</html>\n",
        lang = escape(lang),
        fonts = figure::fonts::font_faces(true),
        body = w.out,
        foot = in_print(&content.foot()),
        skip = in_print(&words::Skip.in_language(language)),
        contents = in_print(&words::Contents.in_language(language)),
    )
}

fn under(c: &Content) -> String {
    let mut items: Vec<String> = [c.subtitle.clone(), c.author.clone()].into_iter().filter(|s| !s.is_empty()).collect();
    items.extend(c.data_to());
    if items.is_empty() {
        return String::new();
    }
    format!("<p class=\"under\">{}</p>\n", in_print(&items.join(" · ")))
}

struct Writer<'a> {
    lang: Lang,
    out: String,
    tables: usize,
    figures: usize,
    sections: Vec<(String, String)>,
    open: bool,
    /// Within an annex a section is one level lower.
    in_annex: bool,
    cases_at: &'a str,
    /// Numbers that open at the foot of the page.
    opened: HashMap<&'a ResultId, usize>,
}

impl Writer<'_> {
    /// Words, as a link to the case of a result where the cases are at hand.
    fn case(&self, result: Option<&ResultId>, inner: String) -> String {
        match result {
            Some(r) if !self.cases_at.is_empty() => {
                format!("<a href=\"{}{}\">{inner}</a>", escape(self.cases_at), r.in_address())
            }
            Some(r) => match self.opened.get(r) {
                Some(place) => format!("<a href=\"#{}\">{inner}</a>", anchor(*place)),
                None => inner,
            },
            None => inner,
        }
    }

    fn close_section(&mut self) {
        if self.open {
            self.out.push_str("</section>\n");
            self.open = false;
        }
    }

    fn level(&self, level: u8) -> u8 {
        level + u8::from(self.in_annex)
    }

    /// The first page: the question is the title of the whole.
    fn front(&mut self, f: &Front) {
        let heading = |t: String| format!("<h2>{}</h2>", in_print(&t));
        let paragraph = |class: &str, t: &str| {
            if t.is_empty() { String::new() } else { format!("<p class=\"{class}\">{}</p>\n", in_print(t)) }
        };
        self.out.push_str("<section class=\"front\">\n");
        self.out += &heading(words::Answer.text());
        if let Some(w) = f.word {
            let _ = writeln!(self.out, "<p>{}</p>", state(w.sign(), &f.verdict, w.colour()));
        }
        self.out += &paragraph("answer", &f.answer);
        self.out += &paragraph("quiet", &f.method);
        if let Some(strip) = &f.strip {
            self.out += &drawn(strip);
        }
        self.out += &paragraph("quiet", &f.strip_note);
        self.out += &heading(words::DoneToBeSure.text());
        self.out.push_str("<ul class=\"sure\">");
        for m in &f.marks {
            let word = outcome(m.outcome);
            let _ = write!(
                self.out,
                "<li>{}<br><b>{}</b><br>{}</li>",
                state(sign(m.outcome), &word, colour_of(Some(m.outcome))),
                in_print(&m.name),
                in_print(&m.text)
            );
        }
        self.out.push_str("</ul>\n");
        if let Some(t) = &f.wells {
            self.table(t);
        }
        self.out += &paragraph("above", &f.above);
        self.out += &heading(words::CannotBeTold.text());
        self.list("", &f.untold);
        self.out += &heading(words::EarlierTrips.text());
        if let Some(earlier) = &f.earlier {
            self.out += &drawn(earlier);
        }
        self.out += &paragraph("", &f.earlier_note);
        if !f.decides.is_empty() {
            self.out += &heading(words::WouldDecide.text());
            self.out += &paragraph("", &f.decides.join(" "));
        }
        self.out.push_str("</section>\n");
    }

    fn annex(&mut self, title: &str) {
        self.in_annex = false;
        self.section(title);
        self.in_annex = true;
    }

    fn section(&mut self, title: &str) {
        self.close_section();
        let level = self.level(2);
        let mut id = format!("s-{}", slug(title));
        while self.sections.iter().any(|(known, _)| *known == id) {
            id.push_str("-2");
        }
        let _ = writeln!(
            self.out,
            "<section aria-labelledby=\"{id}\">\n<h{level} id=\"{id}\">{}</h{level}>",
            in_print(title)
        );
        self.sections.push((id, title.into()));
        self.open = true;
    }

    fn part(&mut self, part: &Part) {
        match part {
            Part::Front(f) => self.front(f),
            // The list of contents stands over the whole page.
            Part::Contents => {}
            Part::Annex(t) => self.annex(t),
            Part::Section(t) => self.section(t),
            Part::Heading(t) => {
                let level = self.level(3);
                let _ = writeln!(self.out, "<h{level}>{}</h{level}>", in_print(t));
            }
            Part::Text(t) => {
                let _ = writeln!(self.out, "<p>{}</p>", in_print(t));
            }
            Part::List(items) => self.list("", items),
            Part::Cautions(items) => self.list(" class=\"cautions\"", items),
            Part::Verdicts(v) => self.verdicts(v),
            Part::Table(t) => self.table(t),
            Part::Figure(f) => self.figure(f),
            Part::Findings(f) => self.findings(f),
            Part::Pairs(pairs) => {
                self.out.push_str("<dl>");
                for (name, value) in pairs {
                    let _ = write!(self.out, "<div><dt>{}</dt><dd>{}</dd></div>", in_print(name), escape(value));
                }
                self.out.push_str("</dl>\n");
            }
        }
    }

    /// How each number came to be, folded; where the cases are served, they say it.
    fn derivations(&mut self, opened: &[Opened]) {
        if opened.is_empty() || !self.cases_at.is_empty() {
            return;
        }
        self.in_annex = false;
        self.section(&words::Opened.text());
        for (place, o) in opened.iter().enumerate() {
            // Opened by a link to what stands in it.
            let _ = write!(
                self.out,
                "<details><summary>{}</summary><ol class=\"opened\" id=\"{}\">",
                in_print(&o.title),
                anchor(place)
            );
            for (depth, line) in &o.lines {
                let _ = write!(self.out, "<li style=\"margin-left:{depth}em\">{}</li>", in_print(line));
            }
            self.out.push_str("</ol></details>\n");
        }
    }

    fn list(&mut self, class: &str, items: &[String]) {
        let _ = write!(self.out, "<ul{class}>");
        for i in items {
            let _ = write!(self.out, "<li>{}</li>", in_print(i));
        }
        self.out.push_str("</ul>\n");
    }

    /// Opens a frame that scrolls by itself on a narrow screen, and the table in it.
    fn open_table(&mut self, caption: &str, class: &str) {
        self.tables += 1;
        let n = self.tables;
        let _ = write!(
            self.out,
            "<div class=\"frame\" role=\"region\" tabindex=\"0\" aria-labelledby=\"t{n}\"><table{class}><caption id=\"t{n}\"><span><b>{} {n}.</b> {}</span></caption><thead><tr>",
            in_print(&words::Table.in_language(self.lang)),
            in_print(caption)
        );
    }

    fn close_table(&mut self, notes: &[String]) {
        self.out.push_str("</tbody></table></div>\n");
        if !notes.is_empty() {
            let notes: Vec<String> = notes.iter().map(|n| in_print(n)).collect();
            let _ = writeln!(self.out, "<p class=\"notes\">{}</p>", notes.join(" "));
        }
    }

    fn verdicts(&mut self, verdicts: &[Verdict]) {
        // Roles are spelled out: on a telephone the rows are set as blocks and would lose them.
        self.open_table(&said::KeyResults.text(), " class=\"verdicts\" role=\"table\"");
        for (k, heading) in verdict_columns().iter().enumerate() {
            let class = if k == 1 { " class=\"n\"" } else { "" };
            let _ = write!(self.out, "<th scope=\"col\" role=\"columnheader\"{class}>{}</th>", in_print(heading));
        }
        self.out.push_str("</tr></thead><tbody>");
        for (v, pad) in verdicts.iter().zip(Verdict::pads(verdicts)) {
            let p = Printed::of(&v.amount, v.k);
            let share = v.share.map_or(String::new(), |s| format!("<br><small>{}</small>", in_print(&s.in_words())));
            let mut because = v.because.join(" ");
            if let Some(s) = &v.signed {
                because.push(' ');
                because += s;
            }
            let _ = write!(
                self.out,
                "<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">{}{share}</th><td role=\"cell\" class=\"n\"><span style=\"padding-right:{pad:.3}em\">{}</span> <br><small>{}</small></td><td role=\"cell\">{}</td><td role=\"cell\" class=\"long\">{}</td></tr>",
                self.case(v.result.as_ref(), in_print(&v.subject)),
                in_print(&v.number()),
                in_print(&p.unit),
                state(v.word.sign(), &v.word.said().text(), v.word.colour()),
                in_print(&because)
            );
        }
        self.close_table(&verdict_notes(verdicts));
    }

    fn table(&mut self, t: &Table) {
        let t = &*t.set();
        self.open_table(&t.caption, "");
        for c in &t.columns {
            let class = if c.align == Align::Number { " class=\"n\"" } else { "" };
            let unit =
                if c.unit.is_empty() { String::new() } else { format!("<br><small>{}</small>", in_print(&c.unit)) };
            let _ = write!(self.out, "<th scope=\"col\"{class}>{}{unit}</th>", in_print(&c.heading));
        }
        self.out.push_str("</tr></thead><tbody>");
        for row in t.shown() {
            self.out.push_str("<tr>");
            for (j, cell) in row.iter().enumerate() {
                let words = self.case(cell.result.as_ref(), cell_words(cell));
                self.out.push_str(&cell_html(cell, &words, j == 0, t.columns[j].align));
            }
            self.out.push_str("</tr>");
        }
        self.close_table(&t.all_notes());
    }

    fn figure(&mut self, f: &Illustration) {
        self.figures += 1;
        self.out.push_str("<figure>\n");
        match &f.phone {
            Some(phone) => {
                let _ = write!(
                    self.out,
                    "<div class=\"wide\">{}</div><div class=\"phone\">{}</div>",
                    f.wide.inline(),
                    phone.inline()
                );
            }
            None => {
                let _ = write!(
                    self.out,
                    "<div class=\"frame\" role=\"region\" tabindex=\"0\" aria-label=\"{} {}\">{}</div>",
                    in_print(&words::Figure.in_language(self.lang)),
                    self.figures,
                    f.wide.inline()
                );
            }
        }
        if f.caption.is_empty() {
            self.out += "</figure>\n";
            return;
        }
        let _ = writeln!(
            self.out,
            "<figcaption><b>{} {}.</b> {}</figcaption>\n</figure>",
            in_print(&words::Figure.in_language(self.lang)),
            self.figures,
            in_print(&f.caption)
        );
    }

    fn findings(&mut self, findings: &[Finding]) {
        self.out.push_str("<ul class=\"findings\">");
        for f in findings {
            let numbers = compared(f);
            let numbers =
                if numbers.is_empty() { numbers } else { format!("<br><small>{}</small>", in_print(&numbers)) };
            let _ = write!(
                self.out,
                "<li>{}<span><span class=\"quiet\">{}:</span> {}{numbers}</span></li>",
                state(sign(f.outcome), &outcome(f.outcome), colour_of(Some(f.outcome))),
                in_print(&stage(f.stage)),
                in_print(&f.text())
            );
        }
        self.out.push_str("</ul>\n");
    }
}

/// Where a number is opened in the page.
fn anchor(place: usize) -> String {
    format!("n-{}", place + 1)
}

/// A drawing without a number.
fn drawn(f: &Illustration) -> String {
    match &f.phone {
        Some(phone) => {
            format!("<div class=\"wide\">{}</div><div class=\"phone\">{}</div>\n", f.wide.inline(), phone.inline())
        }
        None => format!("<div class=\"alone\">{}</div>\n", f.wide.inline()),
    }
}

fn cell_words(cell: &Shown) -> String {
    let words = in_print(&cell.words);
    match cell.colour {
        Some(colour) => state(cell.sign, &cell.words, colour),
        None if cell.muted => format!("<span class=\"quiet\">{words}</span>"),
        None if cell.pad_em > 0.0 => format!("<span style=\"padding-right:{:.3}em\">{words}</span>", cell.pad_em),
        None => words,
    }
}

fn cell_html(cell: &Shown, inner: &str, first: bool, align: Align) -> String {
    let class = match align {
        Align::Number => " class=\"n\"",
        Align::Left if cell.words.chars().count() > 40 => " class=\"long\"",
        // A label or a name is not broken at its hyphens.
        Align::Left if cell.words.chars().count() <= 20 && !cell.words.contains(' ') => " class=\"name\"",
        Align::Left => "",
    };
    if first { format!("<th scope=\"row\"{class}>{inner}</th>") } else { format!("<td{class}>{inner}</td>") }
}

fn state(sign: &str, word: &str, colour: &str) -> String {
    format!(
        "<span class=\"state\" style=\"color:{colour}\"><span aria-hidden=\"true\">{sign}</span> {}</span>",
        in_print(word)
    )
}
