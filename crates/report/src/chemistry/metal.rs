//! Why the number is low: the solids of the metal with their alternative constants, what carries it,
//! and what the table of constants knows nothing of.

use super::super::words::{capital, element};
use super::Answered;
use super::words::{decimals, listed, species};
use aqueous::network::network;
use aqueous::speciation::{Request, Saturation, Speciation, speciation};
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::shares::{self, SharesPicture, SpeciesLine};
use figure::{Head, PHONE, WIDE};
use quantity::format::percent_whole;

/// Metals of interest: component and element; the first one present is the key one.
const METALS: [(&str, &str); 9] = [
    ("Pb++", "Pb"),
    ("Cd++", "Cd"),
    ("Cu++", "Cu"),
    ("Zn++", "Zn"),
    ("Ni++", "Ni"),
    ("Co++", "Co"),
    ("UO2++", "U"),
    ("H2AsO4-", "As"),
    ("H3AsO3", "As"),
];

fn present(s: &Speciation) -> impl Iterator<Item = (usize, &'static str)> + '_ {
    METALS
        .iter()
        .filter_map(|(c, e)| network().component(c).map(|c| (c, *e)))
        .filter(|(c, _)| s.equilibrium.total(*c) > 0.0)
}

/// The blocks.
pub fn blocks(a: &Answered, s: &Speciation) -> Vec<Block> {
    let mut out = vec![];
    if let Some((c, symbol)) = present(s).next() {
        out.push(Block::Heading(format!("Why the {} is low, or not", element(symbol))));
        let solids = solids_of(s, c);
        out.extend(solids.iter().find(|x| x.solid == "galena").map(|g| Block::Text(galena(s, g))));
        if !solids.is_empty() {
            out.push(Block::Table(solid_table(&element(symbol), &solids)));
        }
        let bare = without_bisulfides(a, s);
        out.extend(against_ph(a, s, c, (symbol, "")));
        // A second picture only where leaving them out changes who carries the metal.
        if let Some(bare) =
            bare.as_ref().filter(|b| forms(b, c).first().map(|f| &f.0) != forms(s, c).first().map(|f| &f.0))
        {
            out.extend(against_ph(a, bare, c, (symbol, ", metal bisulfides left out")));
        }
        out.push(Block::Table(carriers(a, s, bare.as_ref())));
    }
    out.push(Block::Heading("What the table of constants does not know".into()));
    out.push(Block::Text(unknown(s)));
    out
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
    let mut answers = vec![];
    for r in &s.alternatives {
        for (_, si) in r.moved.iter().filter(|(n, _)| n == "galena") {
            let what = if r.which == "left out" {
                format!("{} left out", r.constant)
            } else {
                format!("{} of {}", species(&r.constant), r.source)
            };
            answers.push(format!("{} with {what}", decimals(*si, 1)));
        }
    }
    let mut text = format!("Galena, PbS: saturation index {}", decimals(g.saturation_index, 1));
    text += &if g.upper_bound {
        format!(", an upper bound since one of its parts was not detected: at most {}.", decimals(g.high, 1))
    } else {
        format!(" (95 % {} to {}): {}.", decimals(g.low, 1), decimals(g.high, 1), g.word)
    };
    if !answers.is_empty() {
        text += &format!(" The alternative constants answer {}.", listed(&answers));
    }
    if g.word == "cannot tell" && !answers.is_empty() {
        text += " Published constants differ by more than what is asked, so nobody can say from this table whether galena holds the lead down.";
    }
    text
}

fn solid_table(metal: &str, solids: &[&Saturation]) -> Table {
    Table {
        caption: format!("Solids of {metal} against this water"),
        columns: vec![
            Column::words("solid"),
            Column::words("saturation index"),
            Column::words("95 % interval"),
            Column::words("word"),
            Column::words("what makes the doubt"),
            Column::words("constant"),
        ],
        rows: solids
            .iter()
            .map(|x| {
                let main: Vec<String> = x
                    .contributions
                    .iter()
                    .take(2)
                    .filter(|c| c.share >= 0.05)
                    .map(|c| format!("{} {} %", input(&c.input), percent_whole(c.share)))
                    .collect();
                vec![
                    Cell::Text(x.solid.clone()),
                    Cell::Text(decimals(x.saturation_index, 2)),
                    Cell::Text(if x.low.is_finite() {
                        format!("{} to {}", decimals(x.low, 1), decimals(x.high, 1))
                    } else {
                        format!("at most {}", decimals(x.high, 1))
                    }),
                    Cell::Text(x.word.into()),
                    Cell::Text(main.join(", ")),
                    Cell::Text(x.provenance.into()),
                ]
            })
            .collect(),
        notes: vec!["The last column says how the solid’s own constant is known: seen in its source, recalled (memory), or computed.".into()],
    }
}

/// `log K of PbCO3(aq)` with its species as a chemist writes it.
fn input(text: &str) -> String {
    text.strip_prefix("log K of ").map_or_else(|| text.to_string(), |n| format!("log K of {}", species(n)))
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
            (species(&sp.name), sp.count(component) * e.solution.molality[i] / total, interval)
        })
        .collect();
    out.sort_by(|a, b| b.1.total_cmp(&a.1));
    out
}

/// The main species in words.
fn main_forms(s: &Speciation, component: usize) -> String {
    let main: Vec<String> = forms(s, component)
        .into_iter()
        .take(4)
        .filter(|f| f.1 >= 0.02)
        .map(|(name, share, interval)| match interval {
            Some((lo, hi)) => {
                format!("{name} {} % ({} to {})", percent_whole(share), percent_whole(lo), percent_whole(hi))
            }
            None => format!("{name} {} %", percent_whole(share)),
        })
        .collect();
    main.join(", ")
}

fn carriers(a: &Answered, s: &Speciation, bare: Option<&Speciation>) -> Table {
    let rows = present(s)
        .map(|(c, symbol)| {
            let found = a.known.analysis.analytes.iter().find(|x| x.name == symbol);
            let mut row = vec![
                Cell::Text(capital(element(symbol))),
                found.map_or(Cell::Missing("–".into()), |x| Cell::Text(x.amount.in_words())),
                Cell::Text(main_forms(s, c)),
            ];
            row.extend(bare.map(|b| Cell::Text(main_forms(b, c))));
            row
        })
        .collect();
    let mut columns =
        vec![Column::words("metal"), Column::words("found"), Column::words("species, share and 95 % interval")];
    let mut notes = vec!["Unfiltered bottles hold particles too; shares are those of dissolved matter.".to_string()];
    if bare.is_some() {
        columns.push(Column::words("with metal bisulfides left out"));
        notes.push("The constants of metal bisulfides are in dispute: they are in half of the draws, so the intervals span both answers.".into());
    }
    Table { caption: "What carries each metal in this water".into(), columns, rows, notes }
}

fn against_ph(a: &Answered, s: &Speciation, component: usize, (symbol, which): (&str, &str)) -> Option<Block> {
    let e = &s.equilibrium;
    // pH of natural waters, one point each tenth.
    let d = aqueous::pictures::against_ph(e, component, (4.0, 12.0), 81).ok()?;
    let here = forms(s, component);
    let mut lines: Vec<SpeciesLine> = d
        .shares
        .iter()
        .filter(|(_, shares)| shares.iter().any(|x| *x >= 0.03))
        .map(|(name, shares)| {
            let name = if name == "others" { name.clone() } else { species(name) };
            let share = here.iter().find(|f| f.0 == name).map_or(0.0, |f| f.1);
            SpeciesLine { name, shares: shares.clone(), here: share }
        })
        .collect();
    lines.sort_by(|x, y| y.here.total_cmp(&x.here));
    lines.truncate(8);
    let metal = element(symbol);
    let said: Vec<String> = lines.iter().take(3).map(|l| format!("{} {} %", l.name, percent_whole(l.here))).collect();
    let picture = SharesPicture {
        head: Head {
            id: format!("shares-{symbol}-{}{which}", a.name),
            title: format!("{} of {} over its species{which}", capital(&metal), a.name),
            desc: format!(
                "Share of each species of {metal} against pH 4 to 12; at this water’s pH {:.2}: {}.",
                d.here,
                listed(&said)
            ),
        },
        under: "All totals held as they are in this water; only pH changes.".into(),
        ph: d.ph,
        here: d.here,
        lines,
    };
    Some(Block::Figure(Illustration {
        wide: shares::draw(&picture, WIDE),
        phone: Some(shares::draw(&picture, PHONE)),
        caption: format!(
            "Species of {metal} against pH, with the default constants{which}; their doubt stands in the table."
        ),
    }))
}

/// Elements measured and absent, species without a temperature term, what was assumed.
fn unknown(s: &Speciation) -> String {
    let absent: Vec<String> = s.interpreted.not_in_table.iter().map(|n| element(n)).collect();
    let mut text = if absent.is_empty() {
        "Every element measured here has species in the table.".to_string()
    } else {
        format!(
            "Measured, but the table holds no species of: {}. Nothing is said of what form they take or which solid holds them.",
            listed(&absent)
        )
    };
    for w in s.warnings.iter().filter(|w| !w.starts_with("measured, but")) {
        text += &format!(" {}.", capital(&with_species(w.trim_end_matches('.'))));
    }
    text
}

/// A warning whose list after the colon is of species, with those as a chemist writes them.
fn with_species(warning: &str) -> String {
    match warning.split_once("wider u): ") {
        Some((before, names)) => {
            format!("{before}wider u): {}", names.split(", ").map(species).collect::<Vec<_>>().join(", "))
        }
        None => warning.into(),
    }
}
