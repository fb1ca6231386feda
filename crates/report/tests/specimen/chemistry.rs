//! Invented waters for looking at the figures of chemistry, and the cases that break them: nothing
//! at all, one ion, values that are no numbers, long names, many waters.

use figure::equivalents::{self, EquivalentsPicture};
use figure::histogram::{self, HistogramPicture};
use figure::ladder::{self, LadderPicture, Rung};
use figure::piper::{self, PiperPicture, PiperWater};
use figure::saturation::{self, SaturationPicture, SolidRow};
use figure::shares::{self, SharesPicture, SpeciesLine};
use figure::stiff::{self, StiffPicture, StiffWater};
use figure::{Figure, Head, PHONE, WIDE};

fn head(id: &str, title: &str) -> Head {
    Head { id: id.into(), title: title.into(), desc: "Invented.".into() }
}

fn layers(all: &[(&str, f64)]) -> Vec<(String, f64)> {
    all.iter().map(|(n, v)| ((*n).to_string(), *v)).collect()
}

pub fn equivalents_picture() -> EquivalentsPicture {
    EquivalentsPicture {
        head: head("equivalents", "Equivalents of SL-2"),
        under: "Invented data.".into(),
        cations: layers(&[("Ca", 2.6), ("Mg", 0.71), ("Na", 1.04), ("K", 0.05), ("Fe", 0.001), ("Mn", 0.002)]),
        anions: layers(&[("HCO₃ + CO₃", 3.78), ("SO₄", 0.11), ("Cl", 0.49), ("HS", 0.008), ("F", 0.01)]),
    }
}

fn no_numbers() -> EquivalentsPicture {
    EquivalentsPicture {
        head: head(
            "equivalents-hard",
            "Columns with values that are none, and a title that runs on and on over the width of the picture",
        ),
        under: String::new(),
        cations: layers(&[("Ca", f64::NAN), ("Na", -1.0), ("a name that is far too long for its room", 3e5)]),
        anions: vec![],
    }
}

fn thin_layers() -> EquivalentsPicture {
    let names = ["Ca", "Mg", "Na", "K", "NH₄", "Sr", "Fe", "Mn"];
    EquivalentsPicture {
        head: head("equivalents-thin", "Eight thin layers at the top"),
        under: String::new(),
        cations: names.iter().enumerate().map(|(i, n)| ((*n).to_string(), if i == 0 { 10.0 } else { 0.13 })).collect(),
        anions: names.iter().enumerate().map(|(i, n)| ((*n).to_string(), if i == 7 { 10.0 } else { 0.13 })).collect(),
    }
}

fn place(na: f64, mg: f64, cl: f64, so4: f64, name: &str) -> PiperWater {
    let root = 3f64.sqrt();
    let cation = (na + 0.5 * mg, mg * root / 2.0);
    let anion = (1.0 + piper::GAP + cl + 0.5 * so4, so4 * root / 2.0);
    let x = 0.5 * (cation.0 + anion.0) + (anion.1 - cation.1) / (2.0 * root);
    PiperWater { name: name.into(), cation, anion, diamond: (x, cation.1 + root * (x - cation.0)) }
}

pub fn piper_picture(n: usize) -> PiperPicture {
    let waters = (0..n)
        .map(|i| {
            let s = i as f64 / n.max(2) as f64;
            place(0.2 + 0.5 * s, 0.2 * (1.0 - s), 0.1 + 0.6 * s, 0.05, &format!("SL-{i}, 2026-07-14"))
        })
        .collect();
    PiperPicture {
        head: head(&format!("piper-{n}"), "The waters side by side"),
        under: "A line each 20 %.".into(),
        waters,
    }
}

pub fn stiff_picture() -> StiffPicture {
    let w = |name: &str, left, right| StiffWater { name: name.into(), left, right };
    StiffPicture {
        head: head("stiff", "Shapes of the waters"),
        under: String::new(),
        waters: vec![
            w("SL-1", [1.0, 2.7, 0.74], [0.53, 3.8, 0.12]),
            w("SL-2", [1.1, 2.6, 0.71], [0.49, 3.78, 0.11]),
            w("a farm well with a long name of its own", [0.0, f64::NAN, 1e-4], [12.5, 0.3, 1234.0]),
        ],
    }
}

fn solid(name: &str, index: f64, interval: (f64, f64), word: &str, alternatives: &[f64]) -> SolidRow {
    SolidRow { name: name.into(), index, interval, word: word.into(), alternatives: alternatives.to_vec() }
}

pub fn saturation_picture() -> SaturationPicture {
    SaturationPicture {
        head: head("saturation", "Solids against the water of SL-2"),
        under: "Invented data.".into(),
        rows: vec![
            solid("calcite", 0.02, (-0.15, 0.19), "at saturation", &[]),
            solid("galena", 2.1, (-0.4, 5.8), "cannot tell", &[-0.3, 5.8]),
            solid("quartz", 0.7, (0.5, 0.9), "over", &[]),
            solid("cerussite", -8.4, (f64::NEG_INFINITY, -4.5), "under", &[]),
            solid("a solid whose name does not end before its room", -30.0, (-40.0, 50.0), "cannot tell", &[f64::NAN]),
        ],
    }
}

pub fn ladder_picture() -> LadderPicture {
    let rung = |name: &str, eh_mv, u_mv, bound| Rung { name: name.into(), eh_mv, u_mv, bound };
    LadderPicture {
        head: head("ladder", "Redox couples of SL-2"),
        under: String::new(),
        rungs: vec![
            rung("SO₄²⁻ / HS⁻", -219.0, 3.0, false),
            rung("O₂ / H₂O", 760.0, 9.0, false),
            rung("NO₃⁻ / NH₄⁺", 410.0, 4.0, true),
        ],
        measured: Some((-180.0, Some(15.0))),
    }
}

pub fn shares_picture() -> SharesPicture {
    let ph: Vec<f64> = (0..=70).map(|k| 4.0 + 0.1 * f64::from(k)).collect();
    let rise = |mid: f64| ph.iter().map(|p| 1.0 / (1.0 + 10f64.powf(mid - p))).collect::<Vec<_>>();
    let line = |name: &str, shares: Vec<f64>, here| SpeciesLine { name: name.into(), shares, here };
    let high = rise(8.5);
    let mid: Vec<f64> = rise(6.2).iter().zip(&high).map(|(a, b)| a - b).collect();
    let low: Vec<f64> = rise(6.2).iter().map(|a| 1.0 - a).collect();
    SharesPicture {
        head: head("shares", "Lead over its species"),
        under: String::new(),
        lines: vec![
            line("PbCO₃(aq)", mid, 0.9),
            line("Pb²⁺", low, 0.04),
            line("Pb(CO₃)₂²⁻", high, 0.06),
            line("others", vec![f64::NAN; ph.len()], 0.001),
        ],
        here: 7.62,
        ph,
    }
}

pub fn histogram_picture() -> HistogramPicture {
    HistogramPicture {
        head: head("histogram", "Charge balance of 160 waters"),
        under: String::new(),
        axis: "charge balance, %".into(),
        values: (0..160)
            .map(|k| f64::from(k * 37 % 160) / 16.0 - 5.0 + f64::from(k % 7))
            .chain([f64::NAN, 900.0])
            .collect(),
        window: Some(((-5.0, 5.0), "5 %".into())),
        reach: 10.0,
        bins: 40,
    }
}

/// All figures of chemistry, the hard ones too.
pub fn figures() -> Vec<Figure> {
    let mut out = vec![];
    for width in [WIDE, PHONE] {
        for p in [equivalents_picture(), no_numbers(), thin_layers()] {
            out.push(equivalents::draw(&p, width));
        }
        for n in [0, 3, 160] {
            out.push(piper::draw(&piper_picture(n), width));
        }
        for p in [stiff_picture(), StiffPicture { head: head("stiff-none", "None"), ..Default::default() }] {
            out.push(stiff::draw(&p, width));
        }
        for p in
            [saturation_picture(), SaturationPicture { head: head("saturation-none", "None"), ..Default::default() }]
        {
            out.push(saturation::draw(&p, width));
        }
        for p in [ladder_picture(), LadderPicture { head: head("ladder-none", "None"), ..Default::default() }] {
            out.push(ladder::draw(&p, width));
        }
        for p in [shares_picture(), SharesPicture { head: head("shares-none", "None"), ..Default::default() }] {
            out.push(shares::draw(&p, width));
        }
        for p in [histogram_picture(), HistogramPicture { head: head("histogram-none", "None"), ..Default::default() }]
        {
            out.push(histogram::draw(&p, width));
        }
    }
    out
}
