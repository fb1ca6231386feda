//! Why the number is low: the solids of the metal with their alternative constants, what carries it,
//! and what the table of constants knows nothing of.

use super::Answered;
use super::words::{as_sentence, decimals, how_known, percent, solid_alone, substance, with_capital};
use aqueous::network::network;
use aqueous::speciation::{Alternative, Request, Saturation, Speciation, speciation};
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::bars::{self, Bar, BarsPicture, Group, Panel};
use figure::shares::{self, SharesPicture, SpeciesLine};
use figure::{Head, PHONE, WIDE, saturation};
use message::{Arg, Message, Name, Shown, Spoken, analysis, chemistry, metal as said, paper, word};
use quantity::Contribution;
use quantity::formula::typeset;
use std::collections::BTreeSet;

/// Metals of interest: component and element; the first one present is the key one.
const METALS: [(&str, &str); 9] = [
    ("Pb^2+", "Pb"),
    ("Cd^2+", "Cd"),
    ("Cu^2+", "Cu"),
    ("Zn^2+", "Zn"),
    ("Ni^2+", "Ni"),
    ("Co^2+", "Co"),
    ("UO2^2+", "U"),
    ("H2AsO4-", "As"),
    ("H3AsO3", "As"),
];

fn present(s: &Speciation) -> impl Iterator<Item = (usize, Metal)> + '_ {
    METALS
        .iter()
        .filter_map(|(c, symbol)| {
            let name = Message::named("substance", symbol)?;
            network().component(c).map(|c| (c, Metal { symbol, name }))
        })
        .filter(|(c, _)| s.equilibrium.total(*c) > 0.0)
}

/// A metal that is in the water.
struct Metal {
    symbol: &'static str,
    name: Message,
}

/// The blocks.
pub fn blocks(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out = vec![];
    if let Some((c, metal)) = present(s).next() {
        out.push(Block::Heading(said::WhyLow { metal: metal.name.clone() }.text()));
        let solids = solids_of(s, c);
        out.extend(solids.iter().find(|x| x.solid == "galena").map(|g| Block::Text(galena(s, g))));
        if !solids.is_empty() {
            out.push(Block::Table(solid_table(&metal.name, &solids)));
        }
        let bare = without_bisulfides(a, s);
        out.extend(against_ph(a, s, c, (&metal, Bisulfides::In)));
        // A second picture only where leaving them out changes who carries the metal.
        if let Some(bare) =
            bare.as_ref().filter(|b| forms(b, c).first().map(|f| &f.0) != forms(s, c).first().map(|f| &f.0))
        {
            out.extend(against_ph(a, bare, c, (&metal, Bisulfides::LeftOut)));
        }
        out.push(Block::Table(carriers(a, s, bare.as_ref())));
    }
    out.push(Block::Heading(said::NotKnown.text()));
    out.push(Block::Text(unknown(s).join(" ")));
    out
}

/// The same in an annex of several waters: what an earlier one has said of the table of constants is not said again.
pub fn in_annex(a: &Answered, s: &Speciation, told: &mut BTreeSet<String>) -> Vec<Block> {
    let mut out = blocks(a, s);
    out.truncate(out.len() - 2);
    let new: Vec<String> = unknown(s).into_iter().filter(|sentence| told.insert(sentence.clone())).collect();
    if !new.is_empty() {
        out.extend([Block::Heading(said::NotKnown.text()), Block::Text(new.join(" "))]);
    }
    out
}

/// What may hold the first of the metals down, all waters beside each other: its solids, what carries it by the constants
/// of the table and without the disputed metal bisulfides, and galena with what each constant makes of it.
pub fn side_by_side(waters: &[(&Answered, &Speciation)]) -> Vec<Block> {
    let of: Vec<(&Answered, &Speciation, usize, Metal)> =
        waters.iter().filter_map(|(a, s)| present(s).next().map(|(c, metal)| (*a, *s, c, metal))).collect();
    let Some((_, first, component, metal)) = of.first() else { return vec![] };
    // One metal for all: the waters that do not hold it have no column.
    let same: Vec<_> = of.iter().filter(|(_, _, c, _)| c == component).collect();
    let mut out = vec![];
    let mut order: Vec<&Saturation> = solids_of(first, *component);
    order.sort_by(|x, y| y.saturation_index.total_cmp(&x.saturation_index));
    if !order.is_empty() {
        let row = |x: &&Saturation| {
            let word = |s: &Speciation| s.saturation.iter().find(|o| o.solid == x.solid).map(|o| may(o.word).text());
            let mut cells = vec![Cell::Text(solid_alone(&x.solid))];
            let of_wells = same.iter().map(|(_, s, ..)| word(s).map_or(Cell::Missing("–".into()), Cell::Text));
            cells.extend(of_wells);
            cells
        };
        let mut columns = vec![Column::words(said::Solid.text())];
        columns.extend(same.iter().map(|(a, ..)| Column::words(a.name.clone())));
        let caption = paper::WhatHoldsDown { metal: metal.name.clone() }.text();
        out.push(Block::Table(Table { caption, columns, rows: order.iter().map(row).collect(), notes: vec![] }));
    }
    let carried: Vec<Carried> = same.iter().map(|(a, s, c, _)| carried(a, s, *c)).collect();
    match &carried[..] {
        [one] => {
            let without = one.without.as_deref().map_or_else(|| paper::NoneInIt.text(), in_words);
            out.push(Block::Text(
                paper::Carried { with: in_words(&one.with).into(), without: without.as_str().into() }.text(),
            ));
        }
        several => out.push(Block::Figure(carrier_bars(metal, several))),
    }
    let galenas: Vec<String> = same
        .iter()
        .filter_map(|(a, s, c, _)| {
            let of = solids_of(s, *c);
            let g = of.iter().find(|x| x.solid == "galena")?;
            Some(format!("{}: {}", a.name, galena(s, g)))
        })
        .collect();
    if !galenas.is_empty() {
        out.push(Block::List(galenas));
    }
    out
}

/// What a saturation means for the metal.
fn may(word: &str) -> Message {
    match word {
        "over" => paper::MayForm.into(),
        "under" => paper::Dissolves.into(),
        other => saturation::said(other),
    }
}

/// The same water with the disputed metal bisulfides left out; `None` where none are in it.
fn without_bisulfides(a: &Answered, s: &Speciation) -> Option<Speciation> {
    if !aqueous::uncertainty::touches_bisulfides(&s.equilibrium) {
        return None;
    }
    let request = Request { analysis: a.known.analysis.clone(), without_bisulfides: true, ..Request::default() };
    speciation(&request).ok()
}

fn solids_of(s: &Speciation, component: usize) -> Vec<&Saturation> {
    let holds = |name: &str| {
        network().solids.iter().find(|e| e.name == name).is_some_and(|e| e.terms.iter().any(|(c, _)| *c == component))
    };
    s.saturation.iter().filter(|x| holds(&x.solid)).collect()
}

/// Galena and what each rival constant makes of it.
fn galena(s: &Speciation, g: &Saturation) -> String {
    let mut answers: Vec<Arg> = vec![];
    for r in &s.alternatives {
        answers.extend(r.moved.iter().filter(|(n, _)| n == "galena").map(|(_, si)| answer(r, *si).into()));
    }
    let contested = g.word == "cannot tell" && !answers.is_empty();
    let index = decimals(g.saturation_index, 1, "");
    let mut text = vec![if g.upper_bound {
        said::GalenaBound { index, most: decimals(g.high, 1, "") }.text()
    } else {
        let (low, high) = (decimals(g.low, 1, ""), decimals(g.high, 1, ""));
        said::Galena { index, low, high, word: saturation::said(g.word) }.text()
    }];
    if !answers.is_empty() {
        text.push(said::Alternatives { answers }.text());
    }
    if contested {
        text.push(said::NobodyCanSay.text());
    }
    text.join(" ")
}

fn answer(r: &Alternative, index: f64) -> Message {
    let index = decimals(index, 1, "");
    if r.which == "left out" {
        return said::AnswerWithoutBisulfides { index }.into();
    }
    let source = vec![cited(&r.source)];
    match Message::named("mineral", &r.constant) {
        Some(solid) => said::AnswerOfSolid { index, solid, source }.into(),
        None => said::AnswerOfSpecies { index, species: typeset(&r.constant).into(), source }.into(),
    }
}

/// A source of the table of constants as a sentence names it: its title, without what the table remarks in English
/// behind it, or the word for what has none.
fn cited(source: &str) -> Arg {
    let title = source.split(" (").next().unwrap_or(source);
    let title = title.split(": ").next().unwrap_or(title);
    Message::named("constant_source", title).map_or_else(|| Name::from(title).into(), Arg::from)
}

fn solid_table(metal: &Message, solids: &[&Saturation]) -> Table {
    Table {
        caption: said::Solids { metal: metal.clone() }.text(),
        columns: [
            said::Solid.text(),
            said::SaturationIndex.text(),
            said::Interval.text(),
            said::Word.text(),
            said::WhatMakesTheDoubt.text(),
            said::Constant.text(),
        ]
        .map(Column::words)
        .into(),
        rows: solids
            .iter()
            .map(|x| {
                let main: Vec<String> =
                    x.contributions.iter().take(2).filter(|c| c.share >= 0.05).map(|c| part(c).text()).collect();
                let high = decimals(x.high, 1, "");
                [
                    solid_alone(&x.solid),
                    decimals(x.saturation_index, 2, "").text(),
                    // Where a part of the solid stands at its detection limit, the index has an upper end only.
                    if x.low.is_finite() {
                        said::FromTo { low: decimals(x.low, 1, ""), high }.text()
                    } else {
                        said::AtMost { most: high }.text()
                    },
                    saturation::said(x.word).text(),
                    main.join(", "),
                    how_known(x.provenance).text(),
                ]
                .map(Cell::Text)
                .into()
            })
            .collect(),
        notes: vec![said::HowConstantsAreKnown.text()],
    }
}

/// A part of an uncertainty, its species as a chemist writes them.
fn part(c: &Contribution) -> Message {
    let share = percent(c.share, "%");
    let Some(constant) = c.input.strip_prefix("log K of ") else {
        return if c.input == "alkalinity" {
            said::PartOfAlkalinity { share }.into()
        } else {
            said::PartOfMeasured { measured: Name::from(&c.input), share }.into()
        };
    };
    match Message::named("mineral", constant) {
        Some(solid) => said::PartOfSolid { solid, share }.into(),
        None => said::PartOfSpecies { species: typeset(constant).into(), share }.into(),
    }
}

/// Name, share and interval of a species.
type Form = (String, f64, Option<(f64, f64)>);

/// Species of a component with share and interval, the largest first.
fn forms(s: &Speciation, component: usize) -> Vec<Form> {
    let e = &s.equilibrium;
    let total = e.total(component);
    let mut out: Vec<_> = e
        .system
        .species
        .iter()
        .enumerate()
        .filter(|(_, sp)| sp.count(component) != 0.0)
        .map(|(i, sp)| {
            let interval = s
                .draws
                .as_ref()
                .and_then(|d| d.shares.get(i)?.iter().find(|(c, _)| *c == component))
                .map(|(_, v)| (v.low, v.high));
            (typeset(&sp.name), sp.count(component) * e.solution.molality[i] / total, interval)
        })
        .collect();
    out.sort_by(|a, b| b.1.total_cmp(&a.1));
    out
}

/// The main species.
fn main_of(s: &Speciation, component: usize) -> Vec<Form> {
    forms(s, component).into_iter().take(4).filter(|f| f.1 >= 0.02).collect()
}

/// Share and interval of a species.
fn share_in_words((_, share, interval): &Form) -> String {
    let share = percent(*share, "%");
    match interval {
        Some((low, high)) => {
            paper::ShareWithInterval { share, low: percent(*low, ""), high: percent(*high, "") }.text()
        }
        None => share.text(),
    }
}

/// Species with their shares in words.
fn in_words(main: &[Form]) -> String {
    let form = |f: &Form| {
        let (species, share) = (Name::from(&f.0), percent(f.1, "%"));
        match f.2 {
            Some((low, high)) => {
                let (low, high) = (percent(low, ""), percent(high, ""));
                said::FormWithInterval { species, share, low, high }.text()
            }
            None => said::Form { species, share }.text(),
        }
    };
    main.iter().map(form).collect::<Vec<_>>().join(", ")
}

/// The main species in words.
fn main_forms(s: &Speciation, component: usize) -> String {
    in_words(&main_of(s, component))
}

/// What carries a metal in a water, with the metal bisulfides and without them.
struct Carried {
    water: String,
    with: Vec<Form>,
    /// None where there are none to be left out.
    without: Option<Vec<Form>>,
}

fn carried(a: &Answered, s: &Speciation, component: usize) -> Carried {
    let without = without_bisulfides(a, s).map(|b| main_of(&b, component));
    Carried { water: a.name.clone(), with: main_of(s, component), without }
}

/// What carries a metal in several waters, both rival answers beside each other.
fn carrier_bars(metal: &Metal, waters: &[Carried]) -> Illustration {
    let bar = |f: &Form| Bar { name: f.0.clone(), share: f.1, interval: f.2, words: share_in_words(f) };
    let group = |water: &str, forms: Option<&[Form]>| Group {
        name: water.into(),
        bars: forms.unwrap_or_default().iter().map(bar).collect(),
        instead: forms.map_or_else(|| paper::NoneInIt.text(), |_| String::new()),
    };
    let with = waters.iter().map(|w| group(&w.water, Some(&w.with)));
    let without = waters.iter().map(|w| group(&w.water, w.without.as_deref()));
    let panels = vec![
        Panel { heading: paper::WithBisulfides.text(), groups: with.collect() },
        Panel { heading: said::WithoutBisulfides.text(), groups: without.collect() },
    ];
    let head = Head {
        id: format!("carriers-{}", metal.symbol),
        title: paper::WhatCarries { metal: metal.name.clone() }.text(),
        desc: BarsPicture::in_words(&panels),
    };
    let picture = BarsPicture { head, under: String::new(), panels };
    Illustration {
        wide: bars::draw(&picture, WIDE),
        phone: Some(bars::draw(&picture, PHONE)),
        caption: said::BisulfidesInDispute.text(),
    }
}

fn carriers(a: &Answered, s: &Speciation, bare: Option<&Speciation>) -> Table {
    let rows = present(s)
        .map(|(c, metal)| {
            let found = a.known.analysis.analytes.iter().find(|x| x.name == metal.symbol);
            let mut row = vec![
                Cell::Text(with_capital(&metal.name)),
                found.map_or(Cell::Missing("–".into()), |x| Cell::Text(x.amount.with_expanded().text())),
                Cell::Text(main_forms(s, c)),
            ];
            row.extend(bare.map(|b| Cell::Text(main_forms(b, c))));
            row
        })
        .collect();
    let mut columns =
        vec![Column::words(word::Metal.text()), Column::words(word::Found.text()), Column::words(said::Species.text())];
    let mut notes = vec![said::Unfiltered.text()];
    if bare.is_some() {
        columns.push(Column::words(said::WithoutBisulfides.text()));
        notes.push(said::BisulfidesInDispute.text());
    }
    Table { caption: said::Carriers.text(), columns, rows, notes }
}

/// Whether a picture is of the water with its metal bisulfides.
#[derive(Clone, Copy, PartialEq)]
enum Bisulfides {
    In,
    LeftOut,
}

fn against_ph(
    a: &Answered,
    s: &Speciation,
    component: usize,
    (metal, bisulfides): (&Metal, Bisulfides),
) -> Option<Block> {
    let e = &s.equilibrium;
    // pH of natural waters, one point each tenth.
    let d = aqueous::pictures::against_ph(e, component, (4.0, 12.0), 81).ok()?;
    let here = forms(s, component);
    let others = chemistry::Others.text();
    let mut lines: Vec<SpeciesLine> = d
        .shares
        .iter()
        .filter(|(_, shares)| shares.iter().any(|x| *x >= 0.03))
        .map(|(name, shares)| {
            let name = if name == "others" { others.clone() } else { typeset(name) };
            let share = here.iter().find(|f| f.0 == name).map_or(0.0, |f| f.1);
            SpeciesLine { name, shares: shares.clone(), here: share }
        })
        .collect();
    lines.sort_by(|x, y| y.here.total_cmp(&x.here));
    lines.truncate(8);
    let name = &metal.name;
    let main = lines
        .iter()
        .filter(|l| l.name != others)
        .take(3)
        .map(|l| Message::from(said::Form { species: Name::from(&l.name), share: percent(l.here, "%") }).into());
    let desc = said::Shares { metal: name.clone(), ph: Shown::decimals(d.here, 2, ""), forms: main.collect() };
    let (title, caption, suffix): (Message, Message, &str) = {
        let (metal, water) = (name.clone(), Name::from(&a.name));
        match bisulfides {
            Bisulfides::In => {
                (said::OverSpecies { metal, water }.into(), said::AgainstPh { metal: name.clone() }.into(), "")
            }
            Bisulfides::LeftOut => (
                said::OverSpeciesWithoutBisulfides { metal, water }.into(),
                said::AgainstPhWithoutBisulfides { metal: name.clone() }.into(),
                ", metal bisulfides left out",
            ),
        }
    };
    let picture = SharesPicture {
        head: Head {
            id: format!("shares-{}-{}{suffix}", metal.symbol, a.name),
            title: with_capital(&title),
            desc: desc.text(),
        },
        under: said::OnlyPhChanges.text(),
        ph: d.ph,
        here: d.here,
        lines,
    };
    Some(Block::Figure(Illustration {
        wide: shares::draw(&picture, WIDE),
        phone: Some(shares::draw(&picture, PHONE)),
        caption: caption.text(),
    }))
}

/// Elements measured and absent, species without a temperature term, what was assumed, each a sentence.
fn unknown(s: &Speciation) -> Vec<String> {
    let absent: Vec<Arg> = s.interpreted.not_in_table.iter().map(|n| substance(n)).collect();
    let mut text =
        vec![if absent.is_empty() { said::AllInTable.text() } else { said::NotInTable { elements: absent }.text() }];
    let others = s.warnings.iter().filter(|w| !w.is::<analysis::NotInTable>());
    text.extend(others.map(|w| as_sentence(&with_species(w))));
    text
}

/// A warning that lists species, with those as a chemist writes them.
fn with_species(warning: &Message) -> Message {
    let (Some(Arg::Amount(temperature)), Some(Arg::Name(names))) = (warning.arg("temperature"), warning.arg("species"))
    else {
        return warning.clone();
    };
    let temperature = temperature.clone();
    let species = Name::from(names.0.split(", ").map(typeset).collect::<Vec<_>>().join(", "));
    if warning.is::<analysis::WithoutTemperatureTerm>() {
        analysis::WithoutTemperatureTerm { temperature, species }.into()
    } else if warning.is::<analysis::TemperatureTermEstimated>() {
        analysis::TemperatureTermEstimated { temperature, species }.into()
    } else {
        warning.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rival_constant_is_cited_by_its_title_or_a_word_of_the_language() {
        let said = |source: &str| cited(source).in_language(message::Lang::De);
        assert_eq!(said("compilation"), "einer Zusammenstellung, aus dem Gedächtnis");
        assert_eq!(said("Byrne & Miller 1985 GCA 49 (abstract)"), "Byrne & Miller 1985 GCA 49");
        assert_eq!(said("King 1998 ES&T 32:2997: 9.97 with OH-, recalled"), "King 1998 ES&T 32:2997");
        // Each rival of the table: by its authors, or its word is in the catalogues.
        for row in aqueous::constants::table().iter().filter(|c| !c.is_default()) {
            // A work that was seen without its year is cited by its authors.
            let titled = |text: &str| {
                text.starts_with(['\u{201C}', 'P', 'F'])
                    || text.contains(|c: char| c.is_ascii_digit())
                    || text.contains(" et al.")
            };
            let known = matches!(cited(&row.source), Arg::Message(_)) || titled(&said(&row.source));
            assert!(known, "{}: {}", row.name, row.source);
        }
    }
}
