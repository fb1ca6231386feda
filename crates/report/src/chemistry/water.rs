//! One water: the sentence, the table, the pictures.

use super::super::section as titled;
use super::words::{decimals, digits, solid, solid_alone};
use super::{Answered, air, metal};
use aqueous::balance::Balance;
use aqueous::pictures::{self, Columns};
use aqueous::speciation::{Saturation, Speciation};
use document::content::{Block, Cell, Column, Illustration, Section, Table};
use figure::equivalents::{self, EquivalentsPicture};
use figure::ladder::{self, LadderPicture, Rung};
use figure::saturation::{self, SaturationPicture, SolidRow};
use figure::stiff::{self, StiffPicture, StiffWater};
use figure::{Figure, Head, PHONE, WIDE};
use message::{Arg, Message, Name, Shown, Spoken, chemistry as said, word};
use quantity::formula::typeset;
use quantity::{Check, Finding};
use std::collections::BTreeSet;

/// The same among others in an annex: what stands there once for all waters is left out, a sentence that an earlier water
/// has said is not said again, and pictures stand beside each other.
pub fn in_annex(a: &Answered, told: &mut BTreeSet<String>) -> Section {
    let title = said::Title { water: Name::from(&a.name) };
    let Ok(s) = &a.answer else { return section(a) };
    let columns = pictures::columns(&s.equilibrium);
    let mut blocks = vec![Block::Text(sentence(a, s, &columns)), Block::Table(table(a, s))];
    let is_picture = |b: &Block| matches!(b, Block::Figure(_));
    let (mut shares, low): (Vec<Block>, Vec<Block>) = metal::in_annex(a, s, told).into_iter().partition(is_picture);
    // What is carried without the disputed bisulfides stands in the table; the couples, in words.
    shares.truncate(1);
    blocks.push(Block::Figure(ions(a, &columns)));
    blocks.extend(shares);
    blocks.push(Block::Heading(said::DissolveOrForm.text()));
    blocks.extend(solids(a, s));
    blocks.push(Block::Heading(said::Redox.text()));
    blocks.extend(redox(a, s).into_iter().filter(|b| !is_picture(b)));
    blocks.extend(air::in_words_alone(a, s));
    blocks.extend(low);
    blocks.push(Block::Heading(said::OfItself.text()));
    blocks.push(Block::Findings(findings(s)));
    titled(title, blocks)
}

/// The section of a water.
pub fn section(a: &Answered) -> Section {
    let title = said::Title { water: Name::from(&a.name) };
    let s = match &a.answer {
        Ok(s) => s,
        Err(e) => {
            let why = message::water::NotWorkedOut { why: e.message() };
            return titled(title, vec![Block::Text(why.text())]);
        }
    };
    let columns = pictures::columns(&s.equilibrium);
    let mut blocks = vec![Block::Text(sentence(a, s, &columns)), Block::Table(table(a, s))];
    blocks.push(Block::Figure(ions(a, &columns)));
    blocks.push(Block::Figure(shape(&[(a.name.clone(), columns)], &a.name)));
    blocks.push(Block::Heading(said::DissolveOrForm.text()));
    blocks.extend(solids(a, s));
    blocks.push(Block::Heading(said::Redox.text()));
    blocks.extend(redox(a, s));
    blocks.extend(air::blocks(a, s));
    blocks.extend(metal::blocks(a, s));
    blocks.push(Block::Heading(said::OfItself.text()));
    blocks.push(Block::Findings(findings(s)));
    titled(title, blocks)
}

fn both(draw: impl Fn(f64) -> Figure, caption: &impl Spoken) -> Illustration {
    Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption: caption.text() }
}

/// The ions that make up the kind of water: the largest, and the next where it holds a third.
fn kind(layers: &[pictures::Layer]) -> Option<Message> {
    let sum: f64 = layers.iter().map(|l| l.meq_l).sum();
    let mut sorted: Vec<&pictures::Layer> = layers.iter().collect();
    sorted.sort_by(|a, b| b.meq_l.total_cmp(&a.meq_l));
    let ion = |l: &pictures::Layer| {
        let symbol = if l.name == "HCO3 + CO3" { "HCO3" } else { &l.name };
        Message::from(said::Ion { symbol: Name::from(symbol) })
    };
    sorted
        .iter()
        .enumerate()
        .take_while(|(i, l)| *i == 0 || l.meq_l > sum / 3.0)
        .map(|(_, l)| ion(l))
        .reduce(|one, next| said::Ions { one, next }.into())
}

fn sentence(a: &Answered, s: &Speciation, c: &Columns) -> String {
    let e = &s.equilibrium;
    let mut text: Vec<String> = vec![];
    if let (Some(cations), Some(anions)) = (kind(&c.cations), kind(&c.anions)) {
        let kind = said::Kind {
            cations,
            anions,
            ph: Shown::decimals(e.ph(), 2, ""),
            temperature: Shown::decimals(e.temperature_c, 1, "°C"),
            solids: digits(s.sums.solids_mg_l, 2, "mg/L"),
            hardness: digits(s.sums.hardness_mg_l_as_caco3, 2, "mg/L"),
        };
        text.push(kind.text());
    }
    let measured = |name: &str| s.interpreted.value(name).is_some();
    if measured("HS-") {
        text.push(said::CarriesSulfide.text());
    } else if measured("O2") && measured("NO3-") {
        text.push(said::HoldsOxygen.text());
    }
    if !a.known.from_run.is_empty() {
        text.push(said::OneAnalysis { results: message::count(a.known.from_run.len()) }.text());
    }
    text.extend(a.known.assumed.iter().map(Spoken::text));
    text.join(" ")
}

fn table(a: &Answered, s: &Speciation) -> Table {
    let analysis = &a.known.analysis;
    let e = &s.equilibrium;
    let mut rows: Vec<Vec<Cell>> = vec![];
    let mut row = |what: String, value: String, unit: String, how: String| {
        rows.push([what, value, unit, how].map(Cell::Text).into());
    };
    let plain = |unit: &str| unit.to_string();
    let ph = Shown { expanded: analysis.u_ph.map(|u| 2.0 * u), ..Shown::decimals(e.ph(), 2, "") };
    let how = if analysis.ph.is_some() { said::MeasuredAtTheWell.text() } else { said::FromChargeBalance.text() };
    row(plain("pH"), ph.text(), String::new(), how);
    // The temperature is the only thing that is ever assumed (`assessment::chemistry_checks`).
    let how = if a.known.assumed.is_empty() { word::Measured.text() } else { said::Assumed.text() };
    row(word::Temperature.text(), Shown::decimals(e.temperature_c, 1, "").text(), plain("°C"), how);
    let ionic = digits(e.solution.ionic_strength, 3, "");
    row(said::IonicStrength.text(), ionic.text(), plain("mol/kg"), said::Calculated.text());
    let sums = &s.sums;
    if let Some(b) = &s.balance {
        let sides =
            said::Sides { cations: decimals(b.cations.meq_l, 2, ""), anions: decimals(b.anions.meq_l, 2, "meq/L") };
        row(word::ChargeBalance.text(), balance_percent(b, true), plain("%"), sides.text());
    }
    let charges = said::SidesOfSpecies {
        cations: decimals(sums.species_cations_meq_l, 2, ""),
        anions: decimals(sums.species_anions_meq_l, 2, "meq/L"),
    };
    let percent = decimals(sums.species_charge_percent, 1, "").text();
    row(said::ChargeOfSpecies.text(), percent, plain("%"), charges.text());
    let conductivity = |x: f64| digits(x, 3, "").text();
    let calculated = conductivity(s.conductivity25_us_cm);
    row(said::Conductivity.text(), calculated, plain("µS/cm"), said::CalculatedFromIons.text());
    if let Some(m) = analysis.conductivity_us_cm {
        let ratio = said::CalculatedOverMeasured { ratio: decimals(s.conductivity25_us_cm / m, 2, "") };
        row(said::Conductivity.text(), conductivity(m), plain("µS/cm"), ratio.text());
    }
    let carbonate = said::CarbonateHardness { carbonate: digits(sums.carbonate_hardness_mg_l_as_caco3, 3, "") };
    let hardness = digits(sums.hardness_mg_l_as_caco3, 3, "");
    row(word::Hardness.text(), hardness.text(), said::AsCaco3.text(), carbonate.text());
    let share = said::CarbonateShare { share: decimals(sums.carbonate_share_percent, 1, "%") };
    row(word::Alkalinity.text(), decimals(sums.alkalinity_mmol_l, 2, "").text(), plain("mmol/L"), share.text());
    let solids = digits(sums.solids_mg_l, 3, "");
    row(said::DissolvedSolids.text(), solids.text(), plain("mg/L"), said::AsDried.text());
    for (_, p, upper) in s.gases.iter().filter(|g| g.0 == "CO2") {
        let air = decimals(aqueous::odour::AIR_LOG_P_CO2, 2, "");
        let how = if *upper { said::UpperBound.text() } else { said::OutdoorAir { air }.text() };
        row(said::Pressure.text(), decimals(*p, 2, "").text(), plain("atm"), how);
    }
    Table {
        caption: said::InNumbers { water: Name::from(&a.name) }.text(),
        columns: [word::What.text(), word::Value.text(), word::Unit.text(), word::How.text()].map(Column::words).into(),
        rows,
        notes: vec![said::TwoU.text()],
    }
}

/// The charge balance as it is shown wherever it is: a number, with two u where asked for, or two where non-detects
/// leave a range.
pub fn balance_percent(b: &Balance, with_u: bool) -> String {
    let shown = |x: f64| decimals(x, 1, "");
    if let Some(x) = b.percent() {
        return Shown { expanded: with_u.then_some(2.0 * b.u_percent()), ..shown(x) }.text();
    }
    let (low, high) = b.range_percent();
    said::Between { low: shown(low), high: shown(high) }.text()
}

fn ions(a: &Answered, c: &Columns) -> Illustration {
    let layers = |l: &[pictures::Layer]| l.iter().map(|l| (typeset(&l.name), l.meq_l)).collect::<Vec<_>>();
    let each = |l: &[pictures::Layer]| -> Vec<Arg> {
        l.iter()
            .map(|l| said::Layer { ion: typeset(&l.name).into(), equivalents: digits(l.meq_l, 3, "") })
            .map(|l| Message::from(l).into())
            .collect()
    };
    let picture = EquivalentsPicture {
        head: Head {
            id: format!("equivalents-{}", a.name),
            title: said::Equivalents { water: Name::from(&a.name) }.text(),
            desc: said::EquivalentsSaid { cations: each(&c.cations), anions: each(&c.anions) }.text(),
        },
        under: said::ColumnsDiffer.text(),
        cations: layers(&c.cations),
        anions: layers(&c.anions),
    };
    both(|w| equivalents::draw(&picture, w), &said::OneScale)
}

/// The polygon of each water, all on one scale.
pub fn shape(waters: &[(String, Columns)], id: &str) -> Illustration {
    let waters: Vec<StiffWater> = waters
        .iter()
        .map(|(name, c)| {
            let (left, right) = pictures::stiff(c);
            StiffWater { name: name.clone(), left, right }
        })
        .collect();
    let each: Vec<String> = waters
        .iter()
        .map(|w| {
            let n = |v: f64| digits(v, 2, "");
            let shape = said::ShapeSaid {
                water: Name::from(&w.name),
                sodium: n(w.left[0]),
                calcium: n(w.left[1]),
                magnesium: n(w.left[2]),
                chloride: n(w.right[0]),
                carbonate: n(w.right[1]),
                sulfate: digits(w.right[2], 2, "meq/L"),
            };
            shape.text()
        })
        .collect();
    let title = match &waters[..] {
        [one] => said::Shape { water: Name::from(&one.name) }.text(),
        _ => said::Shapes.text(),
    };
    let picture = StiffPicture {
        head: Head { id: format!("stiff-{id}"), title, desc: format!("{}.", each.join("; ")) },
        under: String::new(),
        waters,
    };
    both(|w| stiff::draw(&picture, w), &said::ShapeReads)
}

/// An index that needs no picture: surely under, by more than three decades.
// Chosen here: a thousandfold undersaturation is decided whatever the constants.
const FAR_UNDER: f64 = -3.0;

fn solids(a: &Answered, s: &Speciation) -> Vec<Block> {
    let far = |x: &&Saturation| x.word == "under" && x.high < FAR_UNDER;
    let mut near: Vec<&Saturation> = s.saturation.iter().filter(|x| !far(x)).collect();
    near.sort_by(|x, y| y.saturation_index.total_cmp(&x.saturation_index));
    let away: Vec<Arg> = s.saturation.iter().filter(far).map(|x| solid(&x.solid)).collect();
    let of = |word: &str| near.iter().filter(|x| x.word == word).map(|x| solid(&x.solid)).collect::<Vec<Arg>>();
    let line = |word: &str| {
        let solids = of(word);
        let some = !solids.is_empty();
        let says: Message = match word {
            "over" => said::SolidsOver { solids }.into(),
            "at saturation" => said::SolidsAtSaturation { solids }.into(),
            "under" => said::SolidsUnder { solids }.into(),
            _ => said::SolidsCannotTell { solids }.into(),
        };
        some.then(|| says.text())
    };
    let text: Vec<String> = ["over", "at saturation", "under", "cannot tell"].into_iter().filter_map(line).collect();
    let rows = near
        .iter()
        .map(|x| SolidRow {
            name: solid_alone(&x.solid),
            index: x.saturation_index,
            interval: (x.low, x.high),
            word: x.word.into(),
            // What the alternative constants would give: the default set takes one, the others are shown beside it.
            alternatives: s
                .alternatives
                .iter()
                .flat_map(|r| &r.moved)
                .filter(|(n, _)| *n == x.solid)
                .map(|(_, si)| *si)
                .collect(),
        })
        .collect();
    let picture = SaturationPicture {
        head: Head {
            id: format!("saturation-{}", a.name),
            title: said::SolidsAgainst { water: Name::from(&a.name) }.text(),
            desc: text.join(" "),
        },
        under: said::NeedNotForm.text(),
        rows,
    };
    let mut out =
        vec![Block::Text(text.join(" ")), Block::Figure(both(|w| saturation::draw(&picture, w), &said::Indices))];
    if !away.is_empty() {
        out.push(Block::Text(said::SolidsFarUnder { solids: away }.text()));
    }
    out
}

/// Oxygen that the probe cannot tell from none: its couple is a bound.
fn oxygen_at_floor(a: &Answered, s: &Speciation) -> Option<f64> {
    // Optical probes read 0.02 to 0.1 mg/L in water without oxygen (makers' statements; common practice).
    let floor = a.known.analysis.oxygen_floor_mg_l.unwrap_or(0.1);
    // 31.998 g/mol of O2 from the standard atomic weights.
    let mg_l =
        s.interpreted.value("O2")?.molality * aqueous::water::density_kg_l(s.equilibrium.temperature_c) * 31.998e3;
    (mg_l <= floor).then_some(floor)
}

fn redox(a: &Answered, s: &Speciation) -> Vec<Block> {
    if s.redox.is_empty() {
        return vec![Block::Text(said::NoCouple.text())];
    }
    let mv = |x: f64| decimals(x, 0, "mV");
    let floor = oxygen_at_floor(a, s);
    let bound = |c: &aqueous::redox::Couple| c.at_limit || (floor.is_some() && c.name.starts_with("O2"));
    let each = s.redox.iter().map(|c| {
        let (couple, eh) = (Name::from(typeset(&c.name)), mv(c.eh_mv));
        Arg::from(if bound(c) {
            Message::from(said::CoupleBound { couple, eh })
        } else {
            said::Couple { couple, eh }.into()
        })
    });
    let mut text = vec![said::Couples { couples: each.collect() }.text()];
    // The span and no mean: couples that disagree have no Eh in common.
    let ends = s.redox.iter().map(|c| c.eh_mv);
    let spread = ends.clone().fold(f64::NEG_INFINITY, f64::max) - ends.fold(f64::INFINITY, f64::min);
    if s.redox.len() > 1 {
        text.push(said::CouplesDisagree { spread: mv(spread) }.text());
    }
    if let Some(floor) = floor {
        text.push(said::OxygenAtFloor { floor: digits(floor, 1, "mg/L") }.text());
    }
    if let Some(eh) = s.eh_measured_mv {
        text.push(said::ElectrodeRead { eh: mv(eh) }.text());
    }
    let text = text.join(" ");
    let picture = LadderPicture {
        head: Head {
            id: format!("ladder-{}", a.name),
            title: said::RedoxCouples { water: Name::from(&a.name) }.text(),
            desc: text.clone(),
        },
        under: String::new(),
        rungs: s
            .redox
            .iter()
            .map(|c| Rung { name: typeset(&c.name), eh_mv: c.eh_mv, u_mv: c.u_mv, bound: bound(c) })
            .collect(),
        measured: s.eh_measured_mv.map(|eh| (eh, a.known.u_eh_mv)),
    };
    vec![Block::Text(text), Block::Figure(both(|w| ladder::draw(&picture, w), &said::CouplesDown))]
}

fn findings(s: &Speciation) -> Vec<Finding> {
    s.findings.iter().filter(|f| f.check != Check::MeaningStatedTwice).cloned().collect()
}
