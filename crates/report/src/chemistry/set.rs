//! The waters of a record side by side: Piper of all, shapes of a few, charge balances of many.

use super::super::section as titled;
use super::words::{decimals, digits, listed};
use super::{Answered, water};
use aqueous::analysis::{Interpreted, interpret};
use aqueous::checks::{self, Sums};
use aqueous::conductivity::conductivity_us_cm;
use aqueous::equilibrium::{Equilibrium, speciate};
use aqueous::pictures;
use aqueous::speciation::{Request, composition};
use assessment::chemistry_checks::Analysed;
use document::content::{Block, Cell, Column, Illustration, Section, Table};
use figure::histogram::{self, HistogramPicture};
use figure::piper::{self, PiperPicture, PiperWater};
use figure::{Head, PHONE, WIDE};
use language::as_written;
use quantity::{Check, Outcome};
use statistics::sample::between_ranks;

/// What a water adds to the set.
struct Member {
    name: String,
    equilibrium: Equilibrium,
    sums: Sums,
    conductivity25: f64,
    conductivity_measured: Option<f64>,
    /// Is the charge balance inside its window?
    balance: Outcome,
}

fn member(name: &str, known: &Analysed, e: Equilibrium, i: &Interpreted) -> Member {
    let sums = checks::sums(&e);
    let conductivity25 = conductivity_us_cm(&e, 25.0);
    let findings = checks::findings(&known.analysis, i, &e, &sums, conductivity25);
    let balance =
        findings.iter().find(|f| f.check == Check::MeaningChargeBalance).map_or(Outcome::NotKnown, |f| f.outcome);
    Member {
        name: name.into(),
        equilibrium: e,
        sums,
        conductivity25,
        conductivity_measured: known.analysis.conductivity_us_cm,
        balance,
    }
}

/// A few waters: table, Piper, shapes.
pub fn few(answered: &[Answered]) -> Section {
    let members: Vec<Member> = answered
        .iter()
        .filter_map(|a| a.answer.as_ref().ok().map(|s| (a, s)))
        .map(|(a, s)| member(&a.name, &a.known, s.equilibrium.clone(), &s.interpreted))
        .collect();
    let shapes = members.iter().map(|m| (m.name.clone(), pictures::columns(&m.equilibrium))).collect::<Vec<_>>();
    let blocks = vec![
        Block::Table(table(&members)),
        Block::Figure(diagram(&members)),
        Block::Figure(water::shape(&shapes, "all waters")),
    ];
    titled("The waters side by side", blocks)
}

/// Many waters: how many could be worked out, Piper, the distribution of the charge balance.
pub fn many(names: &[String], waters: &[Analysed]) -> Section {
    let mut members = vec![];
    let mut failed = vec![];
    for (name, known) in names.iter().zip(waters) {
        match solve(known) {
            Ok((e, i)) => members.push(member(name, known, e, &i)),
            Err(e) => failed.push(format!("{name}: {e}")),
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
    titled("The waters of the record", blocks)
}

fn solve(known: &Analysed) -> Result<(Equilibrium, Interpreted), aqueous::Error> {
    let i = interpret(&known.analysis)?;
    let request = Request { analysis: known.analysis.clone(), ..Request::default() };
    Ok((speciate(&composition(&request, &i)?)?, i))
}

fn summary(all: usize, members: &[Member], failed: &[String]) -> String {
    let mut text = format!("{all} analyses hold the major ions; {} could be worked out", members.len());
    text += &if failed.is_empty() { ", all of them.".into() } else { format!(", {} not:", failed.len()) };
    if members.is_empty() {
        return text;
    }
    let mut b: Vec<f64> = members.iter().map(|m| m.sums.charge_balance_percent).collect();
    b.sort_by(f64::total_cmp);
    let inside = members.iter().filter(|m| m.balance == Outcome::Met).count();
    text += &format!(
        " Charge balance: median {} %, the middle nine tenths from {} to {} %; {inside} of {} stand within the window for their anions (0.2 meq/L to 3 meq/L, 2 % to 10 meq/L, 5 % above).",
        decimals(between_ranks(&b, 0.5), 1),
        decimals(between_ranks(&b, 0.05), 1),
        decimals(between_ranks(&b, 0.95), 1),
        members.len()
    );
    let mut ratios: Vec<f64> = members
        .iter()
        .filter_map(|m| m.conductivity_measured.map(|x| m.conductivity25 / x))
        .filter(|r| r.is_finite())
        .collect();
    ratios.sort_by(f64::total_cmp);
    if !ratios.is_empty() {
        let inside = ratios.iter().filter(|r| (0.9..=1.1).contains(*r)).count();
        text += &format!(
            " Calculated conductivity is {} times the measured one in the middle; {inside} of {} lie between 0.9 and 1.1.",
            decimals(between_ranks(&ratios, 0.5), 2),
            ratios.len()
        );
    }
    text
}

fn balances(members: &[Member]) -> Illustration {
    let values: Vec<f64> = members.iter().map(|m| m.sums.charge_balance_percent).collect();
    let beyond = values.iter().filter(|v| v.abs() > 10.0).count();
    let inside = values.iter().filter(|v| v.abs() <= 5.0).count();
    let under =
        if beyond == 0 { String::new() } else { format!("{beyond} beyond ±10 % stand in the outermost bars.") };
    let picture = HistogramPicture {
        head: Head {
            id: "charge-balance".into(),
            title: format!("Charge balance of {} waters", values.len()),
            desc: format!("{inside} of {} lie within 5 %. {under}", values.len()),
        },
        under,
        axis: "(cations − anions) / (cations + anions), %".into(),
        values,
        window: Some(((-5.0, 5.0), "5 % either way".into())),
        reach: 10.0,
        bins: 40,
    };
    Illustration {
        wide: histogram::draw(&picture, WIDE),
        phone: Some(histogram::draw(&picture, PHONE)),
        caption: "What the analyses leave unbalanced.".into(),
    }
}

fn table(members: &[Member]) -> Table {
    let calcite = aqueous::network::network().solids.iter().find(|s| s.name == "calcite");
    let rows = members
        .iter()
        .map(|m| {
            let e = &m.equilibrium;
            vec![
                Cell::Text(as_written(&m.name)),
                Cell::Text(format!("{:.2}", e.ph())),
                Cell::Text(format!("{:.1}", e.temperature_c)),
                Cell::Text(decimals(m.sums.charge_balance_percent, 1)),
                m.conductivity_measured
                    .map_or(Cell::Missing("–".into()), |x| Cell::Text(decimals(m.conductivity25 / x, 2))),
                Cell::Text(digits(m.sums.hardness_mg_l_as_caco3, 3)),
                Cell::Text(decimals(m.sums.alkalinity_mmol_l, 2)),
                calcite
                    .and_then(|c| e.saturation_index(c))
                    .map_or(Cell::Missing("–".into()), |si| Cell::Text(decimals(si, 2))),
            ]
        })
        .collect();
    Table {
        caption: "The waters in numbers".into(),
        columns: vec![
            Column::words("water"),
            Column::numbers("pH", ""),
            Column::numbers("temperature", "°C"),
            Column::numbers("charge balance", "%"),
            Column::numbers("conductivity ratio", ""),
            Column::numbers("hardness", "mg/L as CaCO₃"),
            Column::numbers("alkalinity", "mmol/L"),
            Column::numbers("calcite", "index"),
        ],
        rows,
        notes: vec!["Conductivity ratio: calculated over measured, both at 25 °C.".into()],
    }
}

fn diagram(members: &[Member]) -> Illustration {
    let mut said = vec![];
    let waters: Vec<PiperWater> = members
        .iter()
        .filter_map(|m| {
            let p = pictures::piper(&pictures::columns(&m.equilibrium))?;
            let [ca, mg, na] = p.cations_percent.map(|v| decimals(v, 0));
            let [hco3, cl, so4] = p.anions_percent.map(|v| decimals(v, 0));
            said.push(format!("{}: Ca {ca}, Mg {mg}, Na + K {na} %; HCO₃ + CO₃ {hco3}, Cl {cl}, SO₄ {so4} %", m.name));
            Some(PiperWater { name: m.name.clone(), cation: p.cation, anion: p.anion, diamond: p.diamond })
        })
        .collect();
    let desc = if said.len() <= super::PAGES {
        format!("Shares of the equivalents. {}.", said.join("; "))
    } else {
        format!(
            "Shares of the equivalents of {} waters as a cloud; the table of results holds the numbers.",
            said.len()
        )
    };
    let left_out: Vec<String> = members
        .iter()
        .filter(|m| pictures::piper(&pictures::columns(&m.equilibrium)).is_none())
        .map(|m| m.name.clone())
        .collect();
    let mut caption =
        "Shares of the equivalents: cations to the left, anions to the right, both together above; a line each 20 %."
            .to_string();
    if !left_out.is_empty() {
        caption += &format!(" Without a place in it: {}.", listed(&left_out));
    }
    let picture = PiperPicture {
        head: Head { id: "piper".into(), title: "The waters by the shares of their ions".into(), desc },
        under: String::new(),
        waters,
    };
    Illustration { wide: piper::draw(&picture, WIDE), phone: Some(piper::draw(&picture, PHONE)), caption }
}
