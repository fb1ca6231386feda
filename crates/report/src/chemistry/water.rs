//! One water: the sentence, the table, the pictures.

use super::super::section as titled;
use super::words::{decimals, digits, listed, species};
use super::{Answered, air, metal};
use aqueous::pictures::{self, Columns};
use aqueous::speciation::{Saturation, Speciation};
use document::content::{Block, Cell, Column, Illustration, Section, Table};
use figure::equivalents::{self, EquivalentsPicture};
use figure::ladder::{self, LadderPicture, Rung};
use figure::saturation::{self, SaturationPicture, SolidRow};
use figure::stiff::{self, StiffPicture, StiffWater};
use figure::{Figure, Head, PHONE, WIDE};
use quantity::{Check, Finding};

/// The section of a water.
pub fn section(a: &Answered) -> Section {
    let title = format!("What the water of {} is", a.name);
    let s = match &a.answer {
        Ok(s) => s,
        Err(e) => {
            let text = format!("The analysis could not be worked out: {e}.");
            return titled(&title, vec![Block::Text(text)]);
        }
    };
    let columns = pictures::columns(&s.equilibrium);
    let mut blocks = vec![Block::Text(sentence(a, s, &columns)), Block::Table(table(a, s))];
    blocks.push(Block::Figure(ions(a, &columns)));
    blocks.push(Block::Figure(shape(&[(a.name.clone(), columns)], &a.name)));
    blocks.push(Block::Heading("What it could dissolve or form".into()));
    blocks.extend(solids(a, s));
    blocks.push(Block::Heading("Redox".into()));
    blocks.extend(redox(a, s));
    blocks.extend(air::blocks(a, s));
    blocks.extend(metal::blocks(a, s));
    blocks.push(Block::Heading("What the analysis says of itself".into()));
    blocks.push(Block::Findings(findings(s)));
    titled(&title, blocks)
}

fn both(draw: impl Fn(f64) -> Figure, caption: String) -> Illustration {
    Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption }
}

const NAMES: [(&str, &str); 8] = [
    ("Ca", "calcium"),
    ("Mg", "magnesium"),
    ("Na", "sodium"),
    ("K", "potassium"),
    ("HCO3 + CO3", "bicarbonate"),
    ("Cl", "chloride"),
    ("SO4", "sulfate"),
    ("NO3", "nitrate"),
];

/// The ions that make up the kind of water: the largest, and the next where it holds a third.
fn kind(layers: &[pictures::Layer]) -> String {
    let sum: f64 = layers.iter().map(|l| l.meq_l).sum();
    let mut sorted: Vec<&pictures::Layer> = layers.iter().collect();
    sorted.sort_by(|a, b| b.meq_l.total_cmp(&a.meq_l));
    sorted
        .iter()
        .enumerate()
        .take_while(|(i, l)| *i == 0 || l.meq_l > sum / 3.0)
        .map(|(_, l)| NAMES.iter().find(|n| n.0 == l.name).map_or(l.name.as_str(), |n| n.1))
        .collect::<Vec<_>>()
        .join("-")
}

fn sentence(a: &Answered, s: &Speciation, c: &Columns) -> String {
    let e = &s.equilibrium;
    let mut text = format!(
        "A {}-{} water of pH {:.2} at {:.1} °C with {} mg/L of dissolved matter and a hardness of {} mg/L as CaCO₃.",
        kind(&c.cations),
        kind(&c.anions),
        e.ph(),
        e.temperature_c,
        digits(s.sums.solids_mg_l, 2),
        digits(s.sums.hardness_mg_l_as_caco3, 2)
    );
    let measured = |name: &str| s.interpreted.value(name).is_some();
    if measured("HS-") {
        text += " It carries sulfide: the water had lost its oxygen and part of its sulfate before it came up.";
    } else if measured("O2") && measured("NO3-") {
        text += " It holds oxygen and nitrate.";
    }
    if !a.known.from_run.is_empty() {
        text += &format!(
            " The laboratory’s report, the readings at the well and {} results of the run of trace metals stand together here as one analysis.",
            a.known.from_run.len()
        );
    }
    for assumed in &a.known.assumed {
        text += &format!(" {}.", super::super::words::capital(assumed));
    }
    text
}

fn table(a: &Answered, s: &Speciation) -> Table {
    let analysis = &a.known.analysis;
    let e = &s.equilibrium;
    let mut rows: Vec<Vec<Cell>> = vec![];
    let mut row = |what: &str, value: String, unit: &str, how: &str| {
        rows.push(vec![Cell::Text(what.into()), Cell::Text(value), Cell::Text(unit.into()), Cell::Text(how.into())]);
    };
    let ph = analysis.u_ph.map_or(format!("{:.2}", e.ph()), |u| format!("{:.2} ± {:.2}", e.ph(), 2.0 * u));
    row("pH", ph, "", if analysis.ph.is_some() { "measured at the well" } else { "from the charge balance" });
    row(
        "temperature",
        format!("{:.1}", e.temperature_c),
        "°C",
        if a.known.assumed.is_empty() { "measured" } else { "assumed" },
    );
    row("ionic strength", digits(e.solution.ionic_strength, 3), "mol/kg", "calculated");
    let sums = &s.sums;
    let sides =
        format!("cations {} and anions {} meq/L", decimals(sums.cations_meq_l, 2), decimals(sums.anions_meq_l, 2));
    row("charge balance", decimals(sums.charge_balance_percent, 1), "%", &sides);
    row("conductivity at 25 °C", digits(s.conductivity25_us_cm, 3), "µS/cm", "calculated from the ions");
    if let Some(m) = analysis.conductivity_us_cm {
        let ratio = format!("measured; calculated is {} times it", decimals(s.conductivity25_us_cm / m, 2));
        row("conductivity at 25 °C", digits(m, 3), "µS/cm", &ratio);
    }
    let carbonate =
        format!("calculated; {} of it balanced by alkalinity", digits(sums.carbonate_hardness_mg_l_as_caco3, 3));
    row("hardness", digits(sums.hardness_mg_l_as_caco3, 3), "mg/L as CaCO₃", &carbonate);
    let share = format!("{} % of it carbonate", decimals(sums.carbonate_share_percent, 1));
    row("alkalinity", decimals(sums.alkalinity_mmol_l, 2), "mmol/L", &share);
    row("dissolved solids", digits(sums.solids_mg_l, 3), "mg/L", "calculated, as weighed after drying");
    for (gas, p, upper) in s.gases.iter().filter(|g| g.0 == "CO2") {
        let how = if *upper { "upper bound" } else { "calculated; outdoor air −3.38" };
        row(&format!("log₁₀ pressure of {}", species(gas)), decimals(*p, 2), "atm", how);
    }
    row(
        "largest residual of a mole balance",
        format!("{:.0e}", e.solution.residual),
        "relative",
        &format!("{} iterations", e.solution.iterations),
    );
    Table {
        caption: format!("The water of {} in numbers", a.name),
        columns: ["what", "value", "unit", "how"].iter().map(|h| Column::words(*h)).collect(),
        rows,
        notes: vec!["± is two standard uncertainties.".into()],
    }
}

fn ions(a: &Answered, c: &Columns) -> Illustration {
    let layers = |l: &[pictures::Layer]| l.iter().map(|l| (species(&l.name), l.meq_l)).collect::<Vec<_>>();
    let said = |l: &[pictures::Layer]| {
        listed(&l.iter().map(|l| format!("{} {}", species(&l.name), digits(l.meq_l, 3))).collect::<Vec<_>>())
    };
    let picture = EquivalentsPicture {
        head: Head {
            id: format!("equivalents-{}", a.name),
            title: format!("Equivalents of {}", a.name),
            desc: format!("meq/L. Cations: {}. Anions: {}.", said(&c.cations), said(&c.anions)),
        },
        under: "What the columns differ by is the charge that the analysis leaves open.".into(),
        cations: layers(&c.cations),
        anions: layers(&c.anions),
    };
    both(
        |w| equivalents::draw(&picture, w),
        "Cations and anions on one scale, complexes counted with their ion.".into(),
    )
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
    let said: Vec<String> = waters
        .iter()
        .map(|w| {
            let n = |v: f64| digits(v, 2);
            format!(
                "{}: Na + K {}, Ca {}, Mg {} against Cl {}, HCO₃ + CO₃ {}, SO₄ {} meq/L",
                w.name,
                n(w.left[0]),
                n(w.left[1]),
                n(w.left[2]),
                n(w.right[0]),
                n(w.right[1]),
                n(w.right[2])
            )
        })
        .collect();
    let title = if waters.len() == 1 { format!("Shape of {id}") } else { "Shapes of the waters".into() };
    let picture = StiffPicture {
        head: Head { id: format!("stiff-{id}"), title, desc: format!("{}.", said.join("; ")) },
        under: String::new(),
        waters,
    };
    both(
        |w| stiff::draw(&picture, w),
        "Cations to the left, anions to the right; size is concentration, shape is kind.".into(),
    )
}

/// An index that needs no picture: surely under, by more than three decades.
// Chosen here: a thousandfold undersaturation is decided whatever the constants.
const FAR_UNDER: f64 = -3.0;

fn solids(a: &Answered, s: &Speciation) -> Vec<Block> {
    let far = |x: &&Saturation| x.word == "under" && x.high < FAR_UNDER;
    let mut near: Vec<&Saturation> = s.saturation.iter().filter(|x| !far(x)).collect();
    near.sort_by(|x, y| y.saturation_index.total_cmp(&x.saturation_index));
    let away: Vec<String> = s.saturation.iter().filter(far).map(|x| x.solid.clone()).collect();
    let of = |word: &str| near.iter().filter(|x| x.word == word).map(|x| x.solid.clone()).collect::<Vec<_>>();
    let mut text = vec![];
    for (word, say) in
        [("over", "Over"), ("at saturation", "At saturation"), ("under", "Under"), ("cannot tell", "Cannot tell")]
    {
        let names = of(word);
        if !names.is_empty() {
            text.push(format!("{say}: {}.", listed(&names)));
        }
    }
    let rows = near
        .iter()
        .map(|x| SolidRow {
            name: x.solid.clone(),
            index: x.saturation_index,
            interval: (x.low, x.high),
            word: x.word.into(),
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
            title: format!("Solids against the water of {}", a.name),
            desc: text.join(" "),
        },
        under: "A solid over saturation may form, it need not: quartz seldom does in the cold.".into(),
        rows,
    };
    let mut out = vec![
        Block::Text(text.join(" ")),
        Block::Figure(both(
            |w| saturation::draw(&picture, w),
            "Saturation indices with their 95 % intervals over analysis and constants.".into(),
        )),
    ];
    if !away.is_empty() {
        out.push(Block::Text(format!("Far under, by more than three decades: {}.", listed(&away))));
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
        return vec![Block::Text("No couple was measured at both ends.".into())];
    }
    let mv = |x: f64| format!("{} mV", decimals(x, 0));
    let floor = oxygen_at_floor(a, s);
    let bound = |c: &aqueous::redox::Couple| c.at_limit || (floor.is_some() && c.name.starts_with("O2"));
    let said: Vec<String> = s
        .redox
        .iter()
        .map(|c| format!("{} {}{}", species(&c.name), mv(c.eh_mv), if bound(c) { " (a bound)" } else { "" }))
        .collect();
    let mut text = format!("Each couple gives an Eh of its own: {}.", listed(&said));
    let ends = s.redox.iter().map(|c| c.eh_mv);
    let spread = ends.clone().fold(f64::NEG_INFINITY, f64::max) - ends.fold(f64::INFINITY, f64::min);
    if s.redox.len() > 1 {
        text += &format!(
            " They disagree by {}: a cold groundwater has no single redox state, and none is computed here.",
            mv(spread)
        );
    }
    if let Some(floor) = floor {
        text += &format!(
            " Oxygen reads no more than a probe may read in water without any ({} mg/L): its couple is the highest Eh that it allows.",
            digits(floor, 1)
        );
    }
    if let Some(eh) = s.eh_measured_mv {
        text += &format!(" The electrode read {}; it answers to whatever couple is fast on platinum.", mv(eh));
    }
    let picture = LadderPicture {
        head: Head {
            id: format!("ladder-{}", a.name),
            title: format!("Redox couples of {}", a.name),
            desc: text.clone(),
        },
        under: String::new(),
        rungs: s
            .redox
            .iter()
            .map(|c| Rung { name: species(&c.name), eh_mv: c.eh_mv, u_mv: c.u_mv, bound: bound(c) })
            .collect(),
        measured: s.eh_measured_mv.map(|eh| (eh, a.known.u_eh_mv)),
    };
    vec![
        Block::Text(text),
        Block::Figure(both(
            |w| ladder::draw(&picture, w),
            "Couples from the most oxidised down, with the electrode’s reading.".into(),
        )),
    ]
}

fn findings(s: &Speciation) -> Vec<Finding> {
    s.findings.iter().filter(|f| f.check != Check::MeaningStatedTwice).cloned().collect()
}
