//! The waters of a record side by side: Piper of all, shapes of a few, charge balances of many.

use super::super::section as titled;
use super::words::{decimals, digits};
use super::{Answered, water};
use aqueous::analysis::{Interpreted, interpret};
use aqueous::balance::{Answer, Balance, balance};
use aqueous::checks::{self, Sums};
use aqueous::conductivity::conductivity_us_cm;
use aqueous::equilibrium::{Equilibrium, speciate};
use aqueous::pictures;
use aqueous::speciation::{Request, composition};
use assessment::chemistry_checks::Analysed;
use document::content::{Block, Cell, Column, Illustration, Section, Table};
use figure::bars::{self, Bar, BarsPicture, Group, Panel};
use figure::histogram::{self, HistogramPicture};
use figure::piper::{self, PiperPicture, PiperWater};
use figure::{Head, PHONE, WIDE};
use message::{Arg, Name, Shown, Spoken, chemistry as said, mineral, paper, word};
use statistics::sample::between_ranks;

/// What a water adds to the set.
struct Member {
    name: String,
    equilibrium: Equilibrium,
    sums: Sums,
    conductivity25: f64,
    conductivity_measured: Option<f64>,
    balance: Balance,
}

fn member(name: &str, known: &Analysed, e: Equilibrium, i: &Interpreted) -> Member {
    let sums = checks::sums(&e);
    let conductivity25 = conductivity_us_cm(&e, 25.0);
    let balance = balance(&known.analysis, i, &e);
    Member {
        name: name.into(),
        equilibrium: e,
        sums,
        conductivity25,
        conductivity_measured: known.analysis.conductivity_us_cm,
        balance,
    }
}

/// A few waters: their numbers and shapes for the chapter; the two triangles with their diamond for the annex.
pub fn few(answered: &[Answered]) -> (Vec<Block>, Section) {
    let members: Vec<Member> = answered
        .iter()
        .filter_map(|a| a.answer.as_ref().ok().map(|s| (a, s)))
        .map(|(a, s)| member(&a.name, &a.known, s.equilibrium.clone(), &s.interpreted))
        .collect();
    let shapes = members.iter().map(|m| (m.name.clone(), pictures::columns(&m.equilibrium))).collect::<Vec<_>>();
    let mut short: Vec<Block> = kinship(&shapes).map(Block::Figure).into_iter().collect();
    short.extend([Block::Table(ions(&shapes)), Block::Table(table(&members))]);
    let pictures = vec![Block::Figure(diagram(&members)), Block::Figure(water::shape(&shapes, "all waters"))];
    (short, titled(said::SideBySide, pictures))
}

/// The six equivalents of a water: Na + K, Ca, Mg, Cl, HCO3 + CO3, SO4, meq/L.
fn six(c: &pictures::Columns) -> [f64; 6] {
    let (left, right) = pictures::stiff(c);
    let mut out = [left[0], left[1], left[2], right[0], right[1], right[2]];
    for x in &mut out {
        *x = if x.is_finite() { x.max(0.0) } else { 0.0 };
    }
    out
}

/// Of a hundred equivalents how many two waters have in common: the sum over the six of the smaller share, %.
///
/// Shares and not amounts: a water and the same water diluted are one kind. None where a water has no ions.
fn in_common(a: [f64; 6], b: [f64; 6]) -> Option<f64> {
    let (of_a, of_b): (f64, f64) = (a.iter().sum(), b.iter().sum());
    let common = a.iter().zip(&b).map(|(x, y)| (x / of_a).min(y / of_b)).sum::<f64>();
    (of_a > 0.0 && of_b > 0.0).then_some(100.0 * common)
}

/// How near the waters are to each other in kind, the nearest two first; none of fewer than three, where there would be
/// one bar.
fn kinship(waters: &[(String, pictures::Columns)]) -> Option<Illustration> {
    if waters.len() < 3 {
        return None;
    }
    let mut pairs: Vec<(f64, String)> = vec![];
    for (i, (one, a)) in waters.iter().enumerate() {
        for (other, b) in &waters[i + 1..] {
            let both = paper::Pair { one: one.as_str().into(), other: other.as_str().into() }.text();
            pairs.extend(in_common(six(a), six(b)).map(|common| (common, both)));
        }
    }
    pairs.sort_by(|a, b| b.0.total_cmp(&a.0));
    let bar = |(common, name): (f64, String)| Bar {
        name,
        share: common / 100.0,
        interval: None,
        words: decimals(common, 0, "").text(),
    };
    let group = Group { bars: pairs.into_iter().map(bar).collect(), ..Group::default() };
    let panels = vec![Panel { groups: vec![group], ..Panel::default() }];
    let head = Head { id: "kinship".into(), title: paper::Kinship.text(), desc: BarsPicture::in_words(&panels) };
    let picture = BarsPicture { head, under: String::new(), panels };
    Some(Illustration {
        wide: bars::draw(&picture, WIDE),
        phone: Some(bars::draw(&picture, PHONE)),
        caption: paper::KinshipNote.text(),
    })
}

/// The six equivalents of each water.
fn ions(waters: &[(String, pictures::Columns)]) -> Table {
    let row = |(name, c): &(String, pictures::Columns)| {
        std::iter::once(Cell::Text(name.clone())).chain(six(c).iter().map(|x| number(&digits(*x, 3, "")))).collect()
    };
    let heads = ["Na + K", "Ca", "Mg", "Cl", "HCO₃ + CO₃", "SO₄"];
    let mut columns = vec![Column::words(word::Water.text())];
    columns.extend(heads.map(|h| Column::numbers(h, "meq/L")));
    // Of one water nothing stands beside it.
    let caption = match waters {
        [(name, _)] => said::Equivalents { water: name.as_str().into() }.text(),
        _ => paper::Equivalents.text(),
    };
    Table { caption, columns, rows: waters.iter().map(row).collect(), notes: vec![] }
}

/// Many waters: how many could be worked out, Piper, the distribution of the charge balance.
pub fn many(names: &[String], waters: &[Analysed]) -> Section {
    let mut members = vec![];
    let mut failed = vec![];
    for (name, known) in names.iter().zip(waters) {
        match solve(known) {
            Ok((e, i)) => members.push(member(name, known, e, &i)),
            Err(e) => failed.push(said::Failed { water: Name::from(name), why: e.message() }.text()),
        }
    }
    let mut blocks = vec![Block::Text(summary(waters.len(), &members, &failed))];
    if !failed.is_empty() {
        blocks.push(Block::List(failed));
    }
    if !members.is_empty() {
        blocks.push(Block::Figure(balances(&members)));
        blocks.push(Block::Figure(diagram(&members)));
    }
    titled(said::OfTheRecord, blocks)
}

fn solve(known: &Analysed) -> Result<(Equilibrium, Interpreted), aqueous::Error> {
    let i = interpret(&known.analysis)?;
    let request = Request { analysis: known.analysis.clone(), ..Request::default() };
    Ok((speciate(&composition(&request, &i)?)?, i))
}

fn summary(all: usize, members: &[Member], failed: &[String]) -> String {
    let (analyses, solved) = (message::count(all), message::count(members.len()));
    let mut text = vec![if failed.is_empty() {
        said::AllSolved { analyses, solved }.text()
    } else {
        said::SomeSolved { analyses, solved, failed: message::count(failed.len()) }.text()
    }];
    if members.is_empty() {
        return text.join(" ");
    }
    let mut b: Vec<f64> = members.iter().filter_map(|m| m.balance.percent()).collect();
    b.sort_by(f64::total_cmp);
    let told = |answer: Answer| message::count(members.iter().filter(|m| m.balance.judged().answer == answer).count());
    if !b.is_empty() {
        let balances = said::Balances {
            median: decimals(between_ranks(&b, 0.5), 1, "%"),
            low: decimals(between_ranks(&b, 0.05), 1, ""),
            high: decimals(between_ranks(&b, 0.95), 1, "%"),
            inside: told(Answer::Inside),
            waters: solved,
            open: told(Answer::CannotTell),
        };
        text.push(balances.text());
    }
    let mut ratios: Vec<f64> = members
        .iter()
        .filter_map(|m| m.conductivity_measured.map(|x| m.conductivity25 / x))
        .filter(|r| r.is_finite())
        .collect();
    ratios.sort_by(f64::total_cmp);
    if !ratios.is_empty() {
        let conductivities = said::Conductivities {
            ratio: decimals(between_ranks(&ratios, 0.5), 2, ""),
            // Standard Methods 1030 E (from memory), as in `aqueous::checks`.
            inside: message::count(ratios.iter().filter(|r| (0.9..=1.1).contains(*r)).count()),
            waters: message::count(ratios.len()),
        };
        text.push(conductivities.text());
    }
    text.join(" ")
}

fn balances(members: &[Member]) -> Illustration {
    let values: Vec<f64> = members.iter().filter_map(|m| m.balance.percent()).collect();
    let count = |kept: &dyn Fn(f64) -> bool| message::count(values.iter().filter(|v| kept(v.abs())).count());
    let beyond = count(&|v| v > 10.0);
    let waters = message::count(values.len());
    // One gate for all waters of a programme; a rule of several has no one window to draw.
    let gate = members.first().and_then(|m| m.balance.rule.gate_percent());
    let shown = |gate: f64| Shown::trimmed(gate, 2, "%");
    let within = gate.map(|g| said::WithinGate { inside: count(&|v| v <= g), waters, gate: shown(g) }.text());
    let under = if beyond == 0 { String::new() } else { said::BeyondTen { beyond }.text() };
    let picture = HistogramPicture {
        head: Head {
            id: "charge-balance".into(),
            title: said::BalanceOf { waters }.text(),
            desc: within.into_iter().chain((beyond > 0).then(|| under.clone())).collect::<Vec<_>>().join(" "),
        },
        under,
        axis: said::BalanceAxis.text(),
        values,
        window: gate.map(|g| ((-g, g), said::GateEitherWay { gate: shown(g) }.text())),
        reach: 10.0,
        bins: 40,
    };
    Illustration {
        wide: histogram::draw(&picture, WIDE),
        phone: Some(histogram::draw(&picture, PHONE)),
        caption: said::Unbalanced.text(),
    }
}

fn number(of: &Shown) -> Cell {
    Cell::Text(of.text())
}

fn table(members: &[Member]) -> Table {
    let calcite = aqueous::network::network().solids.iter().find(|s| s.name == "calcite");
    let rows = members
        .iter()
        .map(|m| {
            let e = &m.equilibrium;
            vec![
                Cell::Text(m.name.clone()),
                number(&Shown::decimals(e.ph(), 2, "")),
                number(&Shown::decimals(e.temperature_c, 1, "")),
                Cell::Text(water::balance_percent(&m.balance, false)),
                m.conductivity_measured
                    .map_or(Cell::Missing("–".into()), |x| number(&decimals(m.conductivity25 / x, 2, ""))),
                number(&digits(m.sums.hardness_mg_l_as_caco3, 3, "")),
                number(&decimals(m.sums.alkalinity_mmol_l, 2, "")),
                calcite
                    .and_then(|c| e.saturation_index(c))
                    .map_or(Cell::Missing("–".into()), |si| number(&decimals(si, 2, ""))),
            ]
        })
        .collect();
    let caption = match members {
        [one] => said::InNumbers { water: one.name.as_str().into() }.text(),
        _ => said::WatersInNumbers.text(),
    };
    Table {
        caption,
        columns: vec![
            Column::words(word::Water.text()),
            Column::numbers("pH", ""),
            Column::numbers(word::Temperature.text(), "°C"),
            Column::numbers(word::ChargeBalance.text(), "%"),
            Column::numbers(said::ConductivityRatio.text(), ""),
            Column::numbers(word::Hardness.text(), &said::AsCaco3.text()),
            Column::numbers(word::Alkalinity.text(), "mmol/L"),
            Column::numbers(mineral::Calcite.text(), &word::Index.text()),
        ],
        rows,
        notes: vec![said::ConductivityRatioIs.text()],
    }
}

fn diagram(members: &[Member]) -> Illustration {
    let mut each = vec![];
    let waters: Vec<PiperWater> = members
        .iter()
        .filter_map(|m| {
            let p = pictures::piper(&pictures::columns(&m.equilibrium))?;
            let ([ca, mg, na], [hco3, cl, so4]) = (p.cations_percent, p.anions_percent);
            let shares = said::SharesSaid {
                water: Name::from(&m.name),
                calcium: decimals(ca, 0, ""),
                magnesium: decimals(mg, 0, ""),
                sodium: decimals(na, 0, "%"),
                carbonate: decimals(hco3, 0, ""),
                chloride: decimals(cl, 0, ""),
                sulfate: decimals(so4, 0, "%"),
            };
            each.push(shares.text());
            Some(PiperWater { name: m.name.clone(), cation: p.cation, anion: p.anion, diamond: p.diamond })
        })
        .collect();
    let desc = if each.len() <= super::PAGES {
        format!("{} {}.", said::SharesOfEquivalents.text(), each.join("; "))
    } else {
        said::SharesOfMany { waters: message::count(each.len()) }.text()
    };
    // Without cations or anions of the three kinds a water has no point: it is named, not dropped in silence.
    let left_out: Vec<Arg> = members
        .iter()
        .filter(|m| pictures::piper(&pictures::columns(&m.equilibrium)).is_none())
        .map(|m| Name::from(&m.name).into())
        .collect();
    let mut caption = said::SharesRead.text();
    if !left_out.is_empty() {
        caption = format!("{caption} {}", said::WithoutAPlace { waters: left_out }.text());
    }
    let picture = PiperPicture {
        head: Head { id: "piper".into(), title: said::ByShares.text(), desc },
        under: String::new(),
        waters,
    };
    Illustration { wide: piper::draw(&picture, WIDE), phone: Some(piper::draw(&picture, PHONE)), caption }
}
