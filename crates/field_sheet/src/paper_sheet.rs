//! The sheet on paper: the same fields in the same order, with room to write and what is needed to
//! reckon by hand; on its last page what earlier trips found, to be looked at after writing.
//!
//! In: [`Data`]; the language that is spoken. Out: [`Paper`]; the look stands in `paper_sheet.typ`. Every text goes in as
//! a string literal. One page a trip, one a well, bottles in a table across the page, custody, the last visit.

use super::data::{Data, Planned, UsualRange, Watched, Well};
use super::fields::{self, label, number, word};
use super::past::{FLOW, Past};
use aquifer::purge::Criterion;
use aquifer::well::{Section, volume_m3};
use document::paper::{Paper, quoted};
use document::printed::printed;
use figure::text;
use message::{Spoken, sheet};
use quantity::factor::L_PER_M3;
use quantity::format::{significant, significant_trimmed};
use std::collections::BTreeMap;

/// Empty rows for bottles that are added on the spot.
const SPARE_BOTTLES: usize = 4;

/// Day of a time of the record.
pub(super) fn date(time: &str) -> Option<(i32, u8, u8)> {
    Some((time.get(0..4)?.parse().ok()?, time.get(5..7)?.parse().ok()?, time.get(8..10)?.parse().ok()?))
}

/// A day or a moment of the record, as the language that is spoken now writes it.
fn in_words(time: &str) -> String {
    printed(time, message::language())
}

/// Sets the sheet in markup, in the language that is spoken now.
pub fn paper(data: &Data) -> Paper {
    let mut w = Writer { out: String::new(), data };
    w.opening();
    w.trip();
    for well in &data.wells {
        w.well(well);
    }
    w.bottles();
    w.custody();
    w.past();
    Paper {
        main: w.out,
        files: BTreeMap::new(),
        title: text::with_known_letters(&sheet::PaperTitle { trip: data.trip.name.as_str().into() }.text()),
        author: String::new(),
        date: date(&data.trip.starts),
        lang: message::language().code().into(),
        record: String::new(),
        attached: vec![],
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

/// What can be ticked at a field, in words.
fn choice(id: &str) -> Option<Vec<String>> {
    fields::CHOICES.iter().find(|c| c.0 == id).map(|c| c.1.iter().map(|w| word(w)).collect())
}

/// A number of the reckoning with its digits, in the language that is spoken now.
fn spoken(digits: &str) -> String {
    message::language().number(digits)
}

impl Writer<'_> {
    fn put(&mut self, text: &str) {
        self.out.push_str(text);
        self.out.push_str("\n\n");
    }

    fn field(&mut self, id: &str, body: &str) {
        self.put(&format!("#field({}, {}, {body})", quoted(&label(id)), quoted(&fields::hint(id))));
    }

    fn heading(&mut self, words: &str) {
        self.put(&format!("#heading(level: 1, {})", quoted(words)));
    }

    fn opening(&mut self) {
        let d = self.data;
        let mark = if d.invented { sheet::Invented.text() } else { String::new() };
        let foot = sheet::PaperFoot {
            trip: d.trip.name.as_str().into(),
            sheet: d.sheet.as_str().into(),
            programme: d.programme.name.as_str().into(),
            head: (&d.programme.head[..12]).into(),
        };
        self.put(&format!("#let foot-text = {}\n#let foot-mark = {}", quoted(&foot.text()), quoted(&mark)));
        self.put(&look_words());
        self.put(include_str!("paper_sheet.typ"));
        self.put("#title()");
        if let Some(q) = &d.trip.question {
            self.put(&format!("#emph({})", quoted(q)));
        }
        let from = in_words(&d.trip.starts).into();
        let dates = match &d.trip.ends {
            Some(e) => sheet::PaperPlannedTo { from, to: in_words(e).into() }.text(),
            None => sheet::PaperPlanned { from }.text(),
        };
        self.put(&format!("#{}", quoted(&dates)));
    }

    fn caution(&mut self, words: &str) {
        self.put(&format!("#caution({})", quoted(words)));
    }

    fn trip(&mut self) {
        self.heading(&sheet::PlaceTrip.text());
        for c in fields::cautions() {
            self.caution(&c);
        }
        let people: Vec<&str> = self.data.people.iter().map(|p| p.name.as_str()).collect();
        for id in fields::TRIP {
            let body = match (*id, choice(id)) {
                ("who" | "persons", _) => format!("ticks({})", strings(&people)),
                (_, Some(words)) => format!("ticks({})", strings(&words)),
                _ => "lines(2)".into(),
            };
            self.field(id, &body);
        }
    }

    fn well(&mut self, well: &Well) {
        let name = || well.name.as_str().into();
        let title = match &well.description {
            Some(about) => sheet::PaperWellAbout { well: name(), about: about.as_str().into() }.text(),
            None => sheet::PaperWell { well: name() }.text(),
        };
        self.put("#pagebreak()");
        self.heading(&title);
        self.caution(&fields::well_caution());
        for id in fields::WELL {
            let body = match *id {
                "state" => state_row(well),
                "fills" => format!(
                    "fills({})",
                    strings(&[
                        sheet::PaperFill.text(),
                        sheet::PaperLitresToMark.text(),
                        sheet::Seconds.text(),
                        sheet::PaperFormula.text()
                    ])
                ),
                "contact" => quoted(&contact_words(well)),
                "readings" => self.readings(),
                "meter" => self.meter(),
                _ => self.air(),
            };
            self.field(id, &body);
        }
    }

    fn heads(&self) -> Vec<String> {
        let head = |q: &Watched| format!("({}, {})", quoted(&word(q.quantity)), quoted(q.shown_unit));
        self.data.watched.iter().map(head).collect()
    }

    fn readings(&self) -> String {
        let of = |q: &Watched, c: &&Criterion| Some(c.rule.as_str()) == q.rule && c.parameter == q.parameter;
        let rules: Vec<String> = (self.data.watched.iter())
            .flat_map(|q| self.data.criteria.iter().filter(move |c| of(q, c)).filter_map(|c| rule_words(q, c)))
            .collect();
        let steady = sheet::PaperSteady { rules: rules.join("; ").into() }.text();
        format!("readings({}, {})", array(&self.heads()), quoted(&steady))
    }

    fn meter(&self) -> String {
        let kinds = [sheet::MeterExpanded.text(), sheet::MeterStandard.text(), sheet::MeterLimits.text()];
        format!("meter({}, {}, {})", array(&self.heads()), quoted(&sheet::PaperMeterWhat.text()), strings(&kinds))
    }

    fn air(&self) -> String {
        let sizes: Vec<String> = fields::SIZES_UM.iter().map(|s| format!("≥ {} µm", number(*s))).collect();
        let wanted = self.data.limits.air_class;
        let of = |c: &&(u8, f64, Option<f64>)| c.0 == wanted && fields::SIZES_UM.iter().any(|s| (s - c.1).abs() < 1e-9);
        let limits: Vec<String> = (self.data.classes.iter().filter(of))
            .filter_map(|c| Some(sheet::PaperLimitAt { limit: number(c.2?).into(), size: number(c.1).into() }.text()))
            .collect();
        let words = sheet::PaperClass { class: wanted.to_string().into(), limits: limits.join("; ").into() }.text();
        format!("air({}, {}, {})", strings(&choice("air_place").unwrap_or_default()), strings(&sizes), quoted(&words))
    }

    fn bottles(&mut self) {
        self.put("#across[");
        self.heading(&sheet::PlaceBottles.text());
        self.caution(&fields::acid_caution());
        let d = self.data;
        self.put(&format!("#quiet({})", quoted(&sheet::PaperSteps.text())));
        let heads: Vec<String> = fields::BOTTLE.iter().map(|id| quoted(&label(id))).collect();
        let volume_unit = &d.units["bottle.volume_mL"];
        let mut rows: Vec<String> = d.bottles.iter().map(|b| bottle_row(b, volume_unit)).collect();
        rows.extend(std::iter::repeat_n("(\"\", \"\", \"\", \"\")".to_string(), SPARE_BOTTLES));
        self.put(&format!("#bottles({}, {})", array(&heads), array(&rows)));
        self.put("]");
    }

    fn custody(&mut self) {
        self.heading(&sheet::BoxTitle.text());
        let heads: Vec<String> =
            std::iter::once(sheet::PaperWhen.text()).chain(fields::BOX.iter().map(|id| label(id))).collect();
        let steps = choice("box_step").unwrap_or_default().join(", ");
        let words = sheet::PaperBoxSteps { steps: steps.into() }.text();
        self.put(&format!("#custody({}, {})", strings(&heads), quoted(&words)));
    }

    /// What earlier trips found, on a page of its own: it is looked at after the own reading is written.
    fn past(&mut self) {
        if self.data.wells.iter().all(|w| w.past.is_empty()) {
            return;
        }
        self.put("#pagebreak()");
        self.heading(&sheet::PaperPast.text());
        self.put(&format!("#quiet({})", quoted(&sheet::PaperPastWhy.text())));
        let heads = [
            sheet::PaperQuantity.text(),
            sheet::PaperLast.text(),
            sheet::PaperLowest.text(),
            sheet::PaperHighest.text(),
            sheet::PaperDays.text(),
            sheet::PaperUsual.text(),
        ];
        for well in self.data.wells.iter().filter(|w| !w.past.is_empty()) {
            let rows: Vec<String> = well.past.iter().map(|p| past_row(p, &self.data.usual)).collect();
            self.put(&format!("#past({}, {}, {})", quoted(&well.name), strings(&heads), array(&rows)));
        }
    }
}

/// The words that the look itself sets beside fields.
fn look_words() -> String {
    let page = sheet::PaperPage { page: "#".into(), pages: "##".into() }.text();
    let words = [
        ("caution", sheet::Caution.text()),
        ("page", page),
        ("time", sheet::PaperTime.text()),
        ("where", sheet::PaperWhere.text()),
        ("litres", sheet::PaperLitres.text()),
        ("bottle", sheet::PaperBottle.text()),
        ("out", sheet::PaperOut.text()),
        ("cab", sheet::PaperCab.text()),
        ("lot", sheet::PaperLot.text()),
        ("at", sheet::PaperAt.text()),
    ];
    let pairs: Vec<String> = words.iter().map(|(key, text)| format!("{key}: {}", quoted(text))).collect();
    format!("#let words = ({})", pairs.join(", "))
}

/// A criterion in words; none where it names no width.
fn rule_words(q: &Watched, c: &Criterion) -> Option<String> {
    let unit = if q.shown_unit.is_empty() { String::new() } else { format!(" {}", q.shown_unit) };
    let width = match (c.absolute, c.relative_percent) {
        (Some(a), Some(p)) => {
            sheet::PaperWidthOr { absolute: format!("{}{unit}", number(a)).into(), percent: number(p).into() }.text()
        }
        (Some(a), None) => format!("{}{unit}", number(a)),
        (None, Some(p)) => format!("{} %", number(p)),
        (None, None) => return None,
    };
    let (quantity, readings, width) = (word(q.quantity).into(), c.readings.to_string().into(), width.into());
    Some(match (c.applies_below, c.applies_above) {
        (Some(b), _) => sheet::PaperRuleBelow { quantity, edge: number(b).into(), readings, width }.text(),
        (_, Some(a)) => sheet::PaperRuleAbove { quantity, edge: number(a).into(), readings, width }.text(),
        _ => sheet::PaperRule { quantity, readings, width }.text(),
    })
}

fn state_row(well: &Well) -> String {
    let says = |n: &String| sheet::PaperProgrammeSays { note: n.as_str().into() }.text();
    let note = well.flow_note.as_ref().map_or_else(String::new, says);
    format!("state-row({}, {})", strings(&[sheet::PaperOpenSince.text(), sheet::PaperShutSince.text()]), quoted(&note))
}

fn bottle_row(b: &Planned, volume_unit: &str) -> String {
    let about: Vec<String> = [Some(word(&b.kind)), b.well.clone()].into_iter().flatten().collect();
    let volume = b.volume_mL.map_or_else(String::new, |v| format!("{} {volume_unit}", number(v)));
    format!(
        "({}, {}, {}, {})",
        quoted(&b.label),
        quoted(&about.join(", ")),
        quoted(&b.fraction.as_deref().map(fields::fraction).unwrap_or_default()),
        quoted(&volume)
    )
}

fn past_row(p: &Past, usual: &[UsualRange]) -> String {
    let with_unit = |digits: String| if p.unit.is_empty() { digits } else { format!("{digits} {}", p.unit) };
    let figure = |x: f64| with_unit(spoken(&significant_trimmed(x, 6)));
    let name = if p.quantity == FLOW { sheet::PaperFlow.text() } else { word(p.quantity) };
    let range = usual.iter().find(|u| u.quantity == p.quantity && u.shown_unit == p.unit);
    let usual = range.map_or_else(String::new, |u| with_unit(format!("{} … {}", number(u.lower), number(u.upper))));
    let last = format!("{}, {}", figure(p.last), in_words(&p.day));
    strings(&[name, last, figure(p.low), figure(p.high), p.days.to_string(), usual])
}

fn contact_words(well: &Well) -> String {
    if well.sections.is_empty() {
        return sheet::NoCasing.text();
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
    let total = spoken(&significant(total, 3)).into();
    if by.len() < 2 {
        return sheet::PaperPipeHolds { total }.text();
    }
    let each: Vec<String> = by.iter().map(|(m, l)| format!("{} {} L", word(m), spoken(&significant(*l, 3)))).collect();
    sheet::PaperPipeHoldsEach { total, each: each.join("; ").into() }.text()
}
