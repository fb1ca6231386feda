//! The report as one web page that needs nothing else: no script, no other file, no network.
//!
//! In: [`Content`]. Out: HTML 5 with style, fonts (base64) and figures inside. Works at the width of
//! a telephone (tables scroll inside their own frame, the path picture changes to its upright form)
//! and prints. Contrast 4.5 : 1 or better; state is sign and word; figures carry title and
//! description. A content policy in the page forbids it to load anything.
//! What it does not do: no words of its own beyond those of [`Content::parts`].
//! Checked in `crates/report/tests/report.rs`.

use crate::content::{
    Align, Content, Illustration, Part, Shown, Table, Verdict, outcome, sign, stage, verdict_columns,
};
use crate::paper::compared;
use crate::paper::verdict_notes;
use figure::number::Printed;
use figure::{escape, marks::colour_of, slug};
use message::{Spoken, document as said, document_words as words};
use quantity::{Finding, Lang};
use record::ResultId;
use std::fmt::Write as _;

const STYLE: &str = include_str!("page.css");
/// Sets the report as a page.
pub fn to_html(content: &Content) -> String {
    let language = content.language();
    let mut w = Writer {
        lang: language,
        out: String::new(),
        tables: 0,
        figures: 0,
        sections: vec![],
        open: false,
        cases_at: &content.cases_at,
    };
    for part in content.parts() {
        w.part(&part);
    }
    w.close_section();
    let lang = if content.lang.is_empty() { "en" } else { &content.lang };
    let mark = if content.invented {
        format!("<p class=\"mark\">{}</p>", escape(&content.invented_mark()))
    } else {
        String::new()
    };
    let mut nav = String::new();
    for (id, title) in &w.sections {
        let _ = write!(nav, "<li><a href=\"#{id}\">{}</a></li>", escape(title));
    }
    let (title, under) = (escape(&content.title), under(content));
    // Last, when it is known whether something stayed English.
    let note = |n: String| format!("<p class=\"under\">{}</p>\n", escape(&n));
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
        foot = escape(&content.foot()),
        skip = escape(&words::Skip.in_language(language)),
        contents = escape(&words::Contents.in_language(language)),
    )
}

fn under(c: &Content) -> String {
    let mut items: Vec<String> = [c.subtitle.clone(), c.author.clone()].into_iter().filter(|s| !s.is_empty()).collect();
    items.extend(c.data_to());
    if items.is_empty() {
        return String::new();
    }
    format!("<p class=\"under\">{}</p>\n", escape(&items.join(" · ")))
}

struct Writer<'a> {
    lang: Lang,
    out: String,
    tables: usize,
    figures: usize,
    sections: Vec<(String, String)>,
    open: bool,
    cases_at: &'a str,
}

impl Writer<'_> {
    /// Words, as a link to the case of a result where the cases are at hand.
    fn case(&self, result: Option<&ResultId>, inner: String) -> String {
        match result.filter(|_| !self.cases_at.is_empty()) {
            Some(r) => format!("<a href=\"{}{}\">{inner}</a>", escape(self.cases_at), r.in_address()),
            None => inner,
        }
    }

    fn close_section(&mut self) {
        if self.open {
            self.out.push_str("</section>\n");
            self.open = false;
        }
    }

    fn section(&mut self, title: &str) {
        self.close_section();
        let mut id = format!("s-{}", slug(title));
        while self.sections.iter().any(|(known, _)| *known == id) {
            id.push_str("-2");
        }
        let _ = writeln!(self.out, "<section aria-labelledby=\"{id}\">\n<h2 id=\"{id}\">{}</h2>", escape(title));
        self.sections.push((id, title.into()));
        self.open = true;
    }

    fn part(&mut self, part: &Part) {
        match part {
            Part::Section(t) => self.section(t),
            Part::Heading(t) => {
                let _ = writeln!(self.out, "<h3>{}</h3>", escape(t));
            }
            Part::Text(t) => {
                let _ = writeln!(self.out, "<p>{}</p>", escape(t));
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
                    let _ = write!(self.out, "<div><dt>{}</dt><dd>{}</dd></div>", escape(name), escape(value));
                }
                self.out.push_str("</dl>\n");
            }
        }
    }

    fn list(&mut self, class: &str, items: &[String]) {
        let _ = write!(self.out, "<ul{class}>");
        for i in items {
            let _ = write!(self.out, "<li>{}</li>", escape(i));
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
            escape(&words::Table.in_language(self.lang)),
            escape(caption)
        );
    }

    fn close_table(&mut self, notes: &[String]) {
        self.out.push_str("</tbody></table></div>\n");
        if !notes.is_empty() {
            let notes: Vec<String> = notes.iter().map(|n| escape(n)).collect();
            let _ = writeln!(self.out, "<p class=\"notes\">{}</p>", notes.join(" "));
        }
    }

    fn verdicts(&mut self, verdicts: &[Verdict]) {
        // Roles are spelled out: on a telephone the rows are set as blocks and would lose them.
        self.open_table(&said::KeyResults.text(), " class=\"verdicts\" role=\"table\"");
        for (k, heading) in verdict_columns().iter().enumerate() {
            let class = if k == 1 { " class=\"n\"" } else { "" };
            let _ = write!(self.out, "<th scope=\"col\" role=\"columnheader\"{class}>{}</th>", escape(heading));
        }
        self.out.push_str("</tr></thead><tbody>");
        for (v, pad) in verdicts.iter().zip(Verdict::pads(verdicts)) {
            let p = Printed::of(&v.amount, v.k);
            let share = v.share.map_or(String::new(), |s| format!("<br><small>{}</small>", escape(&s.in_words())));
            let mut because = v.because.join(" ");
            if let Some(s) = &v.signed {
                because.push(' ');
                because += s;
            }
            let _ = write!(
                self.out,
                "<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">{}{share}</th><td role=\"cell\" class=\"n\"><span style=\"padding-right:{pad:.3}em\">{}</span> <br><small>{}</small></td><td role=\"cell\">{}</td><td role=\"cell\" class=\"long\">{}</td></tr>",
                self.case(v.result.as_ref(), escape(&v.subject)),
                escape(&v.number()),
                escape(&p.unit),
                state(v.word.sign(), &v.word.said().text(), v.word.colour()),
                escape(&because)
            );
        }
        self.close_table(&verdict_notes(verdicts));
    }

    fn table(&mut self, t: &Table) {
        self.open_table(&t.caption, "");
        for c in &t.columns {
            let class = if c.align == Align::Number { " class=\"n\"" } else { "" };
            let unit =
                if c.unit.is_empty() { String::new() } else { format!("<br><small>{}</small>", escape(&c.unit)) };
            let _ = write!(self.out, "<th scope=\"col\"{class}>{}{unit}</th>", escape(&c.heading));
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
                    escape(&words::Figure.in_language(self.lang)),
                    self.figures,
                    f.wide.inline()
                );
            }
        }
        let _ = writeln!(
            self.out,
            "<figcaption><b>{} {}.</b> {}</figcaption>\n</figure>",
            escape(&words::Figure.in_language(self.lang)),
            self.figures,
            escape(&f.caption)
        );
    }

    fn findings(&mut self, findings: &[Finding]) {
        self.out.push_str("<ul class=\"findings\">");
        for f in findings {
            let numbers = compared(f);
            let numbers = if numbers.is_empty() { numbers } else { format!("<br><small>{}</small>", escape(&numbers)) };
            let _ = write!(
                self.out,
                "<li>{}<span><span class=\"quiet\">{}:</span> {}{numbers}</span></li>",
                state(sign(f.outcome), &outcome(f.outcome), colour_of(Some(f.outcome))),
                escape(&stage(f.stage)),
                escape(&f.text())
            );
        }
        self.out.push_str("</ul>\n");
    }
}

fn cell_words(cell: &Shown) -> String {
    let words = escape(&cell.words);
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
        escape(word)
    )
}
