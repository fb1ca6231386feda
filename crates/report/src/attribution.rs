//! Section "Whose metal it is": sources by the blanks, the water's own beside the plain result, fills and flows with
//! their pictures, and patterns of metals beside known sources. Every number was computed in the rooms below.

use super::words::capital;
use super::{Run, section};
use assessment::attribution::{self, Asked, Fit, RunPair, SeriesLine, Sort, TripAnalyte, WaterFit, unseen};
use assessment::blanks;
use assessment::results::Listed;
use cleanliness::attribution::SourceStrength;
use cleanliness::patterns::Signature;
use document::content::{Annex, Block, Cell, Column, Content, Illustration, Table};
use figure::line::Fitted;
use figure::tell_line::{self, TellLine};
use figure::{Head, PHONE, WIDE, slug};
use message::{Arg, Message, Name, Shown, Spoken, attribution as said, word};
use quantity::format::decimals_for;
use quantity::{Amount, Unit};
use record::Error;
use record::store::Store;
use record::words::BottleKind;

/// Adds the tables of every metal to the annex where runs measured blanks and waters; answers what the bottles of these
/// trips say.
pub fn fill(
    store: &Store,
    runs: &[Run],
    trips: &dyn Fn(&str) -> bool,
    all: &[Listed],
    out: &mut Content,
) -> Result<Vec<TripAnalyte>, Error> {
    let pairs: Vec<RunPair> = runs.iter().map(|r| (&r.prepared, &r.reduced)).collect();
    let mut fits = attribution::all(store, &pairs)?;
    fits.retain(|t| trips(&t.trip));
    if fits.is_empty() {
        return Ok(vec![]);
    }
    let blocks = in_tables(store, &fits, all, Own::WhereTold)?;
    if !blocks.is_empty() {
        out.sections.push(section(said::Title, blocks).within(Annex::Runs));
    }
    Ok(fits)
}

/// What the bottles of the report say of one element, for the chapter on where it comes from.
pub(super) fn of_key(fits: &[TripAnalyte], key: &str, invented: bool) -> Vec<Block> {
    let of = fits.iter().filter(|t| t.analyte.element == key);
    // What belongs beside each water stands among the findings on its path.
    let mut blocks: Vec<Block> =
        of.flat_map(|t| sources(t, invented, Beside::Elsewhere).into_iter().chain(series_blocks(t))).collect();
    if !blocks.is_empty() {
        blocks.insert(0, Block::Text(said::How.text()));
    }
    blocks
}

/// The element told at length: lead where it was measured, else the first.
pub(super) fn key_of(fits: &[TripAnalyte]) -> Option<&str> {
    fits.iter().find(|t| t.analyte.element == "Pb").or(fits.first()).map(|t| t.analyte.element.as_str())
}

/// Sources and series of these elements at length, then every metal in tables.
pub(super) fn of(
    store: &Store,
    fits: &[TripAnalyte],
    all: &[Listed],
    at_length: &[&str],
    invented: bool,
) -> Result<Vec<Block>, Error> {
    let mut blocks = vec![Block::Text(said::How.text())];
    for t in fits.iter().filter(|t| at_length.contains(&t.analyte.element.as_str())) {
        blocks.extend(sources(t, invented, Beside::Here));
        blocks.extend(series_blocks(t));
    }
    blocks.extend(in_tables(store, fits, all, Own::All)?);
    Ok(blocks)
}

/// Which rows the table of the water's own metal has.
#[derive(Clone, Copy, PartialEq)]
enum Own {
    /// All.
    All,
    /// Those whose number or share may be called the water's; a note names how many are not.
    WhereTold,
}

/// Every metal in tables.
fn in_tables(store: &Store, fits: &[TripAnalyte], all: &[Listed], own: Own) -> Result<Vec<Block>, Error> {
    let mut blocks = own_table(all, own);
    blocks.extend(flows_table(fits));
    blocks.extend(pattern_blocks(store, all, fits)?);
    Ok(blocks)
}

/// A metal by its name, or by its symbol where the catalogues have no name.
pub(super) fn metal(symbol: &str) -> Vec<Arg> {
    vec![Message::named("substance", symbol).map_or_else(|| Name::from(symbol).into(), Arg::from)]
}

/// A value with its interval, both to the digits that the interval supports.
fn with_interval(value: Option<f64>, (low, high): (f64, f64)) -> String {
    let places = decimals_for((0.5 * (high - low)).abs().max(1e-12), 2);
    let shown = |x| Shown::decimals(x, places, "");
    match value {
        Some(v) => said::Interval { value: shown(v), low: shown(low), high: shown(high) }.text(),
        None => said::AtMost { most: Shown::bound(high, "") }.text(),
    }
}

/// Where the sentences stand that belong beside a water.
#[derive(Clone, Copy, PartialEq)]
enum Beside {
    Here,
    Elsewhere,
}

fn sources(t: &TripAnalyte, invented: bool, where_beside: Beside) -> Vec<Block> {
    let metal = metal(&t.analyte.element);
    let heading = said::OfTrip { metal: metal.clone(), trip: (&t.trip).into() };
    let mut out = vec![Block::Heading(capital(heading.text()))];
    match &t.blanks {
        Err(why) => out.push(Block::Text(said::BlanksNotFitted { why: (**why).clone() }.text())),
        Ok(f) => {
            let caption: Message =
                if invented { said::SourcesInvented { metal }.into() } else { said::Sources { metal }.into() };
            out.push(Block::Table(sources_table(f, capital(caption.text()))));
        }
    }
    let refused: Vec<String> = t.waters.iter().filter_map(refusal).collect();
    if !refused.is_empty() {
        out.push(Block::List(refused));
    }
    let beside: Vec<String> = t.waters.iter().filter_map(beside).collect();
    if !beside.is_empty() && where_beside == Beside::Here {
        out.push(Block::List(beside));
    }
    out
}

fn sources_table(f: &Fit, caption: String) -> Table {
    let row = |(s, a): (&SourceStrength, &Asked)| {
        let (unit, seen) = (said::PgPer { unit: (&a.unit).into() }, s.interval_95.0 > 0.0);
        vec![
            Cell::Text(a.says().text()),
            Cell::Text(with_interval(Some(s.per_unit_pg).filter(|_| s.identifiable), s.interval_95)),
            Cell::Text(unit.text()),
            Cell::Text(if seen { word::Seen.text() } else { said::NotSeen.text() }),
        ]
    };
    let mut notes = vec![said::By { scope: (*f.scope).clone() }.text()];
    notes.extend(f.not_asked.iter().map(|n| said::NotAsked { what: (**n).clone() }.text()));
    notes.extend(f.cannot_tell.iter().map(ToString::to_string));
    notes.extend(f.beside().iter().map(ToString::to_string));
    let headings = [word::Source.text(), said::Strength.text(), word::Unit.text(), word::Seen.text()];
    Table {
        caption,
        columns: headings.map(Column::words).to_vec(),
        rows: f.fit.sources.iter().zip(&f.asked).map(row).collect(),
        notes,
    }
}

/// Why a water could not be told, in words.
fn refusal(w: &WaterFit) -> Option<String> {
    let well = || Name::from(&w.well);
    match &w.fit {
        Err(why) => Some(said::WaterNotFitted { well: well(), why: (**why).clone() }.text()),
        Ok(f) if f.fit.waters.iter().any(|x| !x.identifiable) => {
            // What hides the water; what else went together stands under the table.
            let hidden = f.cannot_tell.iter().filter(|c| c.hides_water).map(ToString::to_string);
            let all: Vec<String> = std::iter::once(said::WaterNotTold { well: well() }.text()).chain(hidden).collect();
            Some(all.join(" "))
        }
        Ok(_) => None,
    }
}

/// What belongs beside a water that was fitted: a recovery divided out, what no blank met.
fn beside(w: &WaterFit) -> Option<String> {
    let f = w.fit.as_ref().ok()?;
    let unseen = unseen::says(w).map(|says| says.text());
    let all: Vec<String> = f.beside().iter().map(ToString::to_string).chain(unseen).collect();
    Some(format!("{}: {}", w.well, all.join(" ")))
}

fn series_blocks(t: &TripAnalyte) -> Vec<Block> {
    let mut out = vec![];
    for w in &t.waters {
        for s in &w.series {
            if s.line.is_some() {
                out.push(Block::Figure(picture(t, w, s)));
            } else {
                let why = (*s.sentence).clone();
                out.push(Block::Text(said::NoLine { well: (&w.well).into(), why }.text()));
            }
        }
    }
    out
}

fn picture(t: &TripAnalyte, w: &WaterFit, s: &SeriesLine) -> Illustration {
    let (metal, well) = (metal(&t.analyte.element), Name::from(&w.well));
    let line = s.line.as_ref();
    let (title, under, x_name, y_name, at_zero): (Message, Message, Message, Message, Message) = match s.sort {
        Sort::Fills => (
            said::Fills { metal, well }.into(),
            said::FillsUnder.into(),
            said::FillVolume.into(),
            said::MetalInBottle.into(),
            said::AtZeroBottle.into(),
        ),
        Sort::Flows => (
            said::Flows { metal, well }.into(),
            said::FlowsUnder.into(),
            said::InverseFlow.into(),
            said::Concentration.into(),
            said::AtZeroAquifer.into(),
        ),
    };
    let x = |q: f64| if s.sort == Sort::Flows { 1.0 / q } else { q };
    let bend = line.and_then(|l| l.bend_p).map(|p| said::Bend { p: quantity::format::p_value(p) }.text());
    let title = capital(title.text());
    let told = std::iter::once(s.sentence.to_string()).chain(bend).collect::<Vec<_>>().join(" ");
    let caption = format!("{title}. {told}");
    let p = TellLine {
        head: Head {
            // One name of the picture in every language.
            id: slug(&format!("{}-{}-{}-{}", t.trip, w.well, t.analyte.element, x_name.in_english())),
            desc: caption.clone(),
            title,
        },
        under: under.text(),
        x_name: x_name.text(),
        y_name: y_name.text(),
        points: s.bottles.iter().zip(&s.points).map(|(b, p)| (b.clone(), x(p.0), p.1, p.2)).collect(),
        fitted: line.map(|l| Fitted {
            slope: l.slope,
            intercept: l.intercept,
            u_slope: l.u_slope,
            u_intercept: l.u_intercept,
            covariance: l.covariance,
            k: assessment::results::coverage_k(l.dof),
        }),
        at_zero: at_zero.text(),
        caption: told,
    };
    Illustration { wide: tell_line::draw(&p, WIDE), phone: Some(tell_line::draw(&p, PHONE)), caption }
}

/// The water's own beside the plain result, first sample of each water.
fn own_table(all: &[Listed], which: Own) -> Vec<Block> {
    let with = all.iter().filter(|r| r.kind == BottleKind::Sample && r.verdict.is_some() && r.attributed.is_some());
    let (mut rows, mut left_out) = (vec![], 0);
    for r in with {
        let Some(a) = &r.attributed else { continue };
        let told = !a.is.is_bound() || r.water_share.is_some_and(|s| !s.is.is_bound());
        if which == Own::WhereTold && !told {
            left_out += 1;
            continue;
        }
        rows.push(vec![
            Cell::Text(r.bottle.clone()),
            // A sum over isotopes stands for the element; a single isotope is named.
            Cell::Text(if r.isotopes.contains('+') || r.isotopes.is_empty() {
                r.analyte.clone()
            } else {
                format!("{} {}", r.analyte, r.isotopes)
            }),
            r.net
                .clone()
                .map_or(Cell::Missing("–".into()), |amount| Cell::Amount { amount, k: r.coverage_k.unwrap_or(2.0) })
                .of(&r.result),
            // With metal in it that nothing tells from the water's, the number may not be called the water's.
            if a.is.is_bound() { not_alone() } else { Cell::Text(with_interval(a.water, a.water_interval_95)) },
            // Of shares there is one, the accounting's: the fit stands beside it as what all bottles together say.
            match r.water_share {
                Some(s) if !s.is.is_bound() => Cell::Text(s.in_words()),
                Some(_) => not_alone(),
                None => Cell::Missing("–".into()),
            },
        ]);
    }
    if rows.is_empty() {
        return vec![];
    }
    vec![
        Block::Heading(said::Own.text()),
        Block::Table(Table {
            caption: said::OwnAndPlain.text(),
            columns: vec![
                Column::words(word::Bottle.text()),
                Column::words(word::Metal.text()),
                Column::numbers(said::Plain.text(), "ng/L"),
                Column::words(said::OwnByAll.text()),
                Column::words(said::ShareByBlank.text()),
            ],
            rows,
            notes: [said::OwnNote.text(), said::NotAloneNote.text()]
                .into_iter()
                .chain((left_out > 0).then(|| message::paper::OwnNotTold { n: message::count(left_out) }.text()))
                .collect(),
        }),
    ]
}

/// In place of a share that holds more than the water's.
fn not_alone() -> Cell {
    Cell::Missing(said::NotAlone.text())
}

/// Aquifer and pipe of every metal with a flow series.
fn flows_table(fits: &[TripAnalyte]) -> Vec<Block> {
    let mut rows = vec![];
    for t in fits {
        for w in &t.waters {
            let Some(s) = w.series.iter().find(|s| s.sort == Sort::Flows) else { continue };
            let Some(l) = &s.line else { continue };
            let amount = |value: f64, u: f64, unit: &str| Cell::Amount {
                amount: Amount::measured(value, u, Unit::known(unit)),
                k: assessment::results::coverage_k(l.dof),
            };
            rows.push(vec![
                Cell::Text(w.well.clone()),
                Cell::Text(format!("{} {}", t.analyte.element, t.analyte.isotopes)),
                amount(l.intercept, l.u_intercept, "ng/L"),
                amount(l.slope, l.u_slope, "ng/min"),
                // Three points give no p of a bend, and nothing then speaks against the line.
                Cell::Text(l.bend_p.map_or_else(|| "–".into(), |p| Shown::significant(p, 2, "").text())),
                Cell::Text(if l.is_a_line() { said::ALine.text() } else { said::Bends.text() }),
            ]);
        }
    }
    if rows.is_empty() {
        return vec![];
    }
    vec![Block::Table(Table {
        caption: said::AquiferAndPipe.text(),
        columns: vec![
            Column::words(word::Well.text()),
            Column::words(word::Metal.text()),
            Column::numbers(word::Aquifer.text(), "ng/L"),
            Column::numbers(word::Pipe.text(), "ng/min"),
            Column::words(said::POfBend.text()),
            Column::words(said::InInverseFlow.text()),
        ],
        rows,
        notes: vec![said::Particles.text()],
    })]
}

fn pattern_blocks(store: &Store, all: &[Listed], fits: &[TripAnalyte]) -> Result<Vec<Block>, Error> {
    let signatures = blanks::signatures(store)?;
    let found = blanks::of(store, all)?;
    let patterns = blanks::patterns_of(&found, fits, &signatures);
    if patterns.is_empty() {
        return Ok(vec![]);
    }
    Ok(vec![
        Block::Heading(said::Patterns.text()),
        Block::List(patterns.iter().map(|p| p.finding().text()).collect()),
        Block::Text(said::PatternsNote.text()),
        Block::List(signatures.iter().map(signature).collect()),
    ])
}

fn signature(s: &Signature) -> String {
    let metals: Vec<&str> = s.amounts.iter().map(|a| a.0.as_str()).collect();
    // A programme's own signature may have the name of one of the table; where it comes from is its own.
    let of_table = Message::named("source", &s.name).filter(|m| m.in_english() == s.source);
    let from = vec![of_table.map_or_else(|| Name::from(&s.source).into(), Arg::from)];
    said::Signature { name: s.says(), metals: metals.join(", ").into(), from }.text()
}
