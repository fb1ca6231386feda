//! The sheet on paper: the same fields in the same order, with room to write and what is needed to
//! reckon by hand.
//!
//! In: [`Data`]. Out: [`Paper`]; the look stands in `paper_sheet.typ`. Every text goes in as a
//! string literal. One page a trip, one a well, bottles in a table across the page, custody.

use super::data::{Data, Planned, Well};
use super::fields::{self, Words};
use aquifer::well::{Section, volume_m3};
use document::paper::{Paper, quoted};
use figure::text;
use quantity::factor::L_PER_M3;
use quantity::format::significant;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Empty rows for bottles that are added on the spot.
const SPARE_BOTTLES: usize = 4;

/// Day of a time of the record.
pub(super) fn date(time: &str) -> Option<(i32, u8, u8)> {
    Some((time.get(0..4)?.parse().ok()?, time.get(5..7)?.parse().ok()?, time.get(8..10)?.parse().ok()?))
}

/// Sets the sheet in markup.
pub fn paper(data: &Data) -> Paper {
    let mut w = Writer { out: String::new(), data };
    w.opening();
    w.trip();
    for well in &data.wells {
        w.well(well);
    }
    w.bottles();
    w.custody();
    Paper {
        main: w.out,
        files: BTreeMap::new(),
        title: text::with_known_letters(&format!("{}, field sheet", data.trip.name)),
        author: String::new(),
        date: date(&data.trip.starts),
        lang: "en".into(),
    }
}

struct Writer<'d> {
    out: String,
    data: &'d Data,
}

fn array(items: &[String]) -> String {
    // A trailing comma makes one item a list too.
    if items.is_empty() { "()".into() } else { format!("({},)", items.join(", ")) }
}

fn strings<T: AsRef<str>>(items: &[T]) -> String {
    array(&items.iter().map(|i| quoted(i.as_ref())).collect::<Vec<_>>())
}

fn choice(id: &str) -> Option<&'static [&'static str]> {
    fields::CHOICES.iter().find(|c| c.0 == id).map(|c| c.1)
}

impl Writer<'_> {
    fn put(&mut self, text: &str) {
        self.out.push_str(text);
        self.out.push_str("\n\n");
    }

    fn field(&mut self, w: &Words, body: &str) {
        self.put(&format!("#field({}, {}, {body})", quoted(w.label), quoted(w.hint)));
    }

    fn opening(&mut self) {
        let d = self.data;
        let mark = if d.invented { "Invented data" } else { "" };
        let foot = format!(
            "{} · sheet {} · programme {} {}…",
            d.trip.name,
            d.sheet,
            d.programme.name,
            &d.programme.head[..12]
        );
        self.put(&format!("#let foot-text = {}\n#let foot-mark = {}", quoted(&foot), quoted(mark)));
        self.put(include_str!("paper_sheet.typ"));
        self.put("#title()");
        if let Some(q) = &d.trip.question {
            self.put(&format!("#emph({})", quoted(q)));
        }
        let dates = match &d.trip.ends {
            Some(e) => format!("{} to {}", d.trip.starts.replace('T', " "), e.replace('T', " ")),
            None => d.trip.starts.replace('T', " "),
        };
        self.put(&format!("#{}", quoted(&format!("Planned: {dates}. Times are local; write hours and minutes."))));
    }

    fn caution(&mut self, words: &str) {
        self.put(&format!("#caution({})", quoted(words)));
    }

    fn trip(&mut self) {
        let d = self.data;
        self.put("#heading(level: 1, \"Trip\")");
        for c in &d.cautions {
            self.caution(c);
        }
        let people: Vec<&str> = d.people.iter().map(|p| p.name.as_str()).collect();
        for w in fields::TRIP {
            let body = match (w.id, choice(w.id)) {
                ("who" | "persons", _) => format!("ticks({})", strings(&people)),
                (_, Some(words)) => format!("ticks({})", strings(words)),
                _ => "lines(2)".into(),
            };
            self.field(w, &body);
        }
    }

    fn well(&mut self, well: &Well) {
        let title = match &well.description {
            Some(about) => format!("Well {}: {about}", well.name),
            None => format!("Well {}", well.name),
        };
        self.put(&format!("#pagebreak()\n#heading(level: 1, {})", quoted(&title)));
        self.caution(&fields::well_caution());
        for w in fields::WELL {
            let body = match w.id {
                "state" => state_row(well),
                "fills" => format!(
                    "fills({})",
                    strings(&["fill", "litres to the mark", "seconds", "60 × litres / seconds = L/min"])
                ),
                "contact" => quoted(&contact_words(well)),
                "readings" => self.readings(),
                _ => self.air(),
            };
            self.field(w, &body);
        }
    }

    fn readings(&self) -> String {
        let head: Vec<String> =
            self.data.watched.iter().map(|q| format!("({}, {})", quoted(q.quantity), quoted(q.unit))).collect();
        let mut rules = vec![];
        for q in &self.data.watched {
            let all =
                self.data.criteria.iter().filter(|c| Some(c.rule.as_str()) == q.rule && c.parameter == q.parameter);
            for c in all {
                let width = match (c.absolute, c.relative_percent) {
                    (Some(a), Some(p)) => format!("{a} {} or {p} %", q.unit),
                    (Some(a), None) => format!("{a} {}", q.unit),
                    (None, Some(p)) => format!("{p} %"),
                    (None, None) => continue,
                };
                let part = match (c.applies_below, c.applies_above) {
                    (Some(b), _) => format!(" up to {b}"),
                    (_, Some(a)) => format!(" over {a}"),
                    _ => String::new(),
                };
                rules.push(format!("{}{part}: {} in a row within ± {width} of their mean", q.quantity, c.readings));
            }
        }
        format!("readings({}, {})", array(&head), quoted(&format!("Steady: {}.", rules.join("; "))))
    }

    fn air(&self) -> String {
        let sizes: Vec<String> = fields::SIZES_UM.iter().map(|s| format!("≥ {s} µm")).collect();
        let wanted = self.data.limits.air_class;
        let of = |c: &&(u8, f64, Option<f64>)| c.0 == wanted && fields::SIZES_UM.iter().any(|s| (s - c.1).abs() < 1e-9);
        let limits: Vec<String> =
            self.data.classes.iter().filter(of).filter_map(|c| Some(format!("{} at {} µm", c.2?, c.1))).collect();
        let words = format!(
            "Limit of class {wanted} (ISO 14644-1), per m³: {}. Zero counted is not zero: fewer than 3000 / litres per m³ (95 %).",
            limits.join(", ")
        );
        format!("air({}, {}, {})", strings(choice("air_place").unwrap_or_default()), strings(&sizes), quoted(&words))
    }

    fn bottles(&mut self) {
        self.put("#across[");
        self.put("#heading(level: 1, \"Bottles\")");
        self.caution(&fields::acid_caution());
        let d = self.data;
        let steps = "4 and 7: write the minute; out for outdoors, cab for the cabinet. Openings and minutes in cabinet and open follow from them. Bottles that travel closed: only code and note.";
        self.put(&format!("#quiet({})", quoted(steps)));
        let heads: Vec<String> = fields::BOTTLE.iter().map(|w| quoted(w.label)).collect();
        let volume_unit = &d.units["bottle.volume_mL"];
        let mut rows: Vec<String> = d.bottles.iter().map(|b| bottle_row(b, volume_unit)).collect();
        rows.extend(std::iter::repeat_n("(\"\", \"\", \"\", \"\")".to_string(), SPARE_BOTTLES));
        self.put(&format!("#bottles({}, {})", array(&heads), array(&rows)));
        self.put("]");
    }

    fn custody(&mut self) {
        self.put("#heading(level: 1, \"Box and custody\")");
        let heads: Vec<&str> = std::iter::once("When").chain(fields::BOX.iter().map(|w| w.label)).collect();
        let steps = choice("box_step").unwrap_or_default().join(", ");
        self.put(&format!(
            "#custody({}, {})",
            strings(&heads),
            quoted(&format!("Steps: {steps}. Seal: whole or broken."))
        ));
    }
}

fn state_row(well: &Well) -> String {
    let note = well.flow_note.as_ref().map_or_else(String::new, |n| format!("the programme says: {n}"));
    format!("state-row({}, {})", strings(&["open since", "shut since"]), quoted(&note))
}

fn bottle_row(b: &Planned, volume_unit: &str) -> String {
    let about: Vec<&str> = [Some(b.kind.as_str()), b.well.as_deref()].into_iter().flatten().collect();
    let volume = b.volume_mL.map_or_else(String::new, |v| format!("{v} {volume_unit}"));
    format!(
        "({}, {}, {}, {})",
        quoted(&b.label),
        quoted(&about.join(", ")),
        quoted(b.fraction.as_deref().unwrap_or("")),
        quoted(&volume)
    )
}

fn contact_words(well: &Well) -> String {
    if well.sections.is_empty() {
        return "Depth and radius of the casing are not in the programme.".into();
    }
    let litres = |s: &Section| L_PER_M3 * volume_m3(s);
    let total: f64 = well.sections.iter().map(litres).sum();
    let mut by: Vec<(&str, f64)> = vec![];
    for s in &well.sections {
        match by.iter_mut().find(|m| m.0 == s.material) {
            Some(m) => m.1 += litres(s),
            None => by.push((&s.material, litres(s))),
        }
    }
    let mut out = format!("The pipe holds {} L", significant(total, 3));
    if by.len() > 1 {
        let each: Vec<String> = by.iter().map(|(m, l)| format!("{m} {} L", significant(*l, 3))).collect();
        let _ = write!(out, " ({})", each.join(", "));
    }
    let _ = write!(
        out,
        ": divided by the flow in L/min it is the contact time in minutes = ______ min. Volumes renewed = flow × minutes open / {} = ______",
        significant(total, 3)
    );
    out
}
