//! Invented numbers for looking at and for the checks of layout. They say nothing of any water.
#![allow(dead_code)] // the example and each test use their own part of it
#![allow(clippy::unnecessary_wraps)] // `value` and `upper` stand where the picture takes an option

pub mod chemistry;
pub mod hard;

use cleanliness::share::Left;
use document::content::{
    Block, Cell, Column, Content, Day, Illustration, Method, Provenance, RawFile, Section, Share, Table, Verdict, Word,
};
use figure::blanks::{self, Blank, BlankKind, BlanksPicture};
use figure::line::{self, Fitted, LinePicture, Standard};
use figure::overview::{self, OverviewPicture, OverviewRow};
use figure::pairs::{self, Pair, PairsPicture};
use figure::path::{Mark, PathPicture, PathStage};
use figure::sequence::{self, CheckReading, InternalReading, SequencePicture, VialKind};
use figure::strip::{Fill, StripPart, StripPicture};
use figure::{Figure, Head, PHONE, WIDE};
use quantity::{Amount, Check, Finding, Outcome, Unit};

pub fn ng() -> Unit {
    Unit::known("ng/L")
}

fn stage(
    name: &str,
    detail: &str,
    finding: Option<(Outcome, &str)>,
    forecast: Option<(f64, f64)>,
    measured: Option<Mark>,
) -> PathStage {
    PathStage {
        name: name.into(),
        detail: detail.into(),
        finding: finding.map(|(o, w)| (o, w.into())),
        forecast,
        measured,
        not_here: false,
    }
}

pub fn value(pg: f64, lo: f64, hi: f64) -> Option<Mark> {
    Some(Mark::Value { pg, lo, hi })
}

pub fn upper(pg: f64) -> Option<Mark> {
    Some(Mark::Upper { pg })
}

/// Of 100 parts: most the water's, four small ones enlarged.
fn strip_sl2() -> StripPicture {
    let part = |fill, share: f64, number: &str, name: &str, amount: &str| StripPart {
        fill,
        share,
        number: number.into(),
        name: name.into(),
        amount: amount.into(),
    };
    StripPicture {
        head: Head::default(),
        bottle: "SL2-26-07, 271 pg in 250 mL".into(),
        parts: vec![
            part(Fill::Water, 0.91, "91", "the water’s, as it leaves the well", "85 to 97"),
            part(Fill::Air, 0.05, "5", "air and hands", "13 pg"),
            part(Fill::Bottle, 0.02, "2", "bottle and acid", "5.4 pg"),
            part(Fill::Journey, 0.013, "1", "journey", "3.5 pg"),
            part(Fill::Laboratory, 0.007, "1", "laboratory", "1.9 pg"),
        ],
        by_model: false,
    }
}

pub fn path_sl2() -> PathPicture {
    use Outcome::{Met, NotKnown};
    PathPicture {
        id: "path-sl2-lead".into(),
        title: "Lead in bottle SL2-26-07, from the aquifer to the number".into(),
        volume_ml: 250.0,
        stages: vec![
            stage("aquifer", "Tamsin sandstone", None, None, None),
            stage("well", "SL-2, steel", Some((Met, "contact 41 min")), Some((0.02, 0.6)), upper(0.5)),
            stage("clean air", "cabinet", Some((Met, "class 5 shown")), Some((0.001, 0.02)), upper(0.4)),
            stage("bottle", "lot 14", Some((Met, "lot accepted")), Some((1.0, 9.0)), value(4.0, 3.1, 5.2)),
            stage(
                "cool box",
                "31 h",
                Some((NotKnown, "one seal not recorded")),
                Some((0.2, 2.0)),
                value(1.4, 0.9, 2.2),
            ),
            stage("lab run", "procedural blank", Some((Met, "recovery 98 %")), Some((2.0, 8.0)), value(4.1, 3.5, 4.9)),
            stage("number", "1.05 ng/L", Some((Met, "above the quantification limit")), None, None),
        ],
        water: value(246.0, 228.0, 266.0),
        left: Left::Water,
        found: value(271.0, 255.0, 288.0),
        caption: "Water’s share 0.91 (0.85 to 0.95). Invented data.".into(),
        strip: Some(strip_sl2()),
    }
}

pub fn path_sl3() -> PathPicture {
    use Outcome::{Met, NotKnown, NotMet};
    PathPicture {
        id: "path-sl3-lead".into(),
        title: "Lead in bottle SL3-26-07, from the aquifer to the number".into(),
        volume_ml: 250.0,
        stages: vec![
            stage("aquifer", "", None, None, None),
            stage(
                "well",
                "SL-3, galvanised pipe",
                Some((NotMet, "contact 19 h at 0.4 L/min")),
                Some((20.0, 3000.0)),
                value(1900.0, 900.0, 2900.0),
            ),
            stage(
                "clean air",
                "open air, road 12 m",
                Some((NotMet, "no class shown")),
                Some((5.0, 90.0)),
                value(38.0, 11.0, 95.0),
            ),
            stage("bottle", "lot 14", Some((Met, "lot accepted")), Some((1.0, 9.0)), value(4.0, 3.1, 5.2)),
            stage("cool box", "31 h", Some((NotKnown, "temperature not logged")), Some((0.2, 2.0)), upper(2.4)),
            stage("lab run", "procedural blank", Some((Met, "recovery 98 %")), Some((2.0, 8.0)), value(4.1, 3.5, 4.9)),
            stage("number", "8.9 ng/L", Some((NotMet, "rejected for the aquifer")), None, None),
        ],
        water: upper(420.0),
        left: Left::Water,
        found: value(2230.0, 2090.0, 2370.0),
        caption: "The pipe alone can account for all of it. Invented data.".into(),
        strip: None,
    }
}

pub fn calibration() -> LinePicture {
    let rows: [(&str, f64, f64, f64, bool); 11] = [
        ("cal 0 a", 0.0, 0.00021, 0.00006, false),
        ("cal 0 b", 0.0, 0.00029, 0.00006, false),
        ("cal 0.2", 0.2, 0.00064, 0.00007, false),
        ("cal 0.5 a", 0.5, 0.00128, 0.00008, false),
        ("cal 0.5 b", 0.5, 0.00119, 0.00008, false),
        ("cal 1", 1.0, 0.00233, 0.0001, false),
        ("cal 2", 2.0, 0.00436, 0.00014, false),
        ("cal 5 a", 5.0, 0.01058, 0.0003, false),
        ("cal 5 b", 5.0, 0.01192, 0.0003, true),
        ("cal 10", 10.0, 0.02072, 0.0006, false),
        ("cal 20", 20.0, 0.0419, 0.0011, false),
    ];
    LinePicture {
        head: Head {
            id: "line-lead".into(),
            title: "Calibration of lead (206 + 207 + 208), run SL-R12".into(),
            desc: "Response against assigned lead from 0 to 20 ng/L: ten standards lie on a straight line within their intervals, one of the two at 5 ng/L was taken out by a person.".into(),
        },
        under: "Response is the ratio to the internal standard, weighted by 1/u².".into(),
        x_name: "lead assigned, ng/L".into(),
        y_name: "ratio to the internal standard".into(),
        standards: rows.iter().map(|(n, x, y, u, e)| Standard { name: (*n).into(), x: *x, y: *y, u_y: *u, excluded: *e }).collect(),
        fitted: Fitted { slope: 0.00208, intercept: 0.00024, u_slope: 0.00002, u_intercept: 0.00003, covariance: -2e-10, k: 2.0 },
    }
}

/// 2026-07-16 09:00, as the clock on the wall showed it.
const START_S: f64 = 1_784_192_400.0;

pub fn sequence_picture() -> SequencePicture {
    let kinds = [
        VialKind::Calibration,
        VialKind::Calibration,
        VialKind::Blank,
        VialKind::Sample,
        VialKind::Sample,
        VialKind::Sample,
        VialKind::Blank,
        VialKind::Check,
    ];
    let internal = (0..60)
        .map(|i| {
            let t = f64::from(i) / 59.0;
            let wobble = f64::from((i * 37) % 11 - 5) * 0.45;
            InternalReading {
                time_s: START_S + t * 36000.0,
                percent: 100.0 - 14.0 * t * (1.6 - 0.6 * t) + wobble,
                kind: kinds[i as usize % 8],
            }
        })
        .collect();
    let checks = (0..8)
        .map(|i| {
            let percent = 100.5 + f64::from((i * 5) % 7 - 3) * 1.1 - if i == 6 { 9.5 } else { 0.0 };
            CheckReading {
                time_s: START_S + (f64::from(i) + 0.9) * 4300.0,
                percent,
                lo: percent - 3.1,
                hi: percent + 3.1,
                name: format!("check {}", i + 1),
            }
        })
        .collect();
    SequencePicture {
        head: Head {
            id: "sequence-r12".into(),
            title: "Run SL-R12 from start to end".into(),
            desc: "The internal standard falls from 100 to 86 % in ten hours inside its limits; seven of eight checks lie within 90 to 110 %, check 7 at about 91 %.".into(),
        },
        under: "2026-07-16, 60 vials.".into(),
        internal,
        internal_limits: Some((80.0, 120.0)),
        drift: (0..=20).map(|i| f64::from(i) / 20.0).map(|t| (START_S + t * 36000.0, 100.0 - 14.0 * t * (1.6 - 0.6 * t))).collect(),
        checks,
        check_limits: Some((95.0, 105.0)),
    }
}

pub fn blanks_picture() -> BlanksPicture {
    let kind = |name: &str, values: &[f64]| BlankKind {
        name: name.into(),
        blanks: values
            .iter()
            .enumerate()
            .map(|(i, v)| Blank {
                name: format!("{} {}", name.split(' ').next().unwrap_or("b"), i + 1),
                value: *v,
                excluded: false,
                noted: *v > 100.0,
            })
            .collect(),
    };
    BlanksPicture {
        head: Head {
            id: "blanks-lead".into(),
            title: "Blanks of lead, bottle by bottle".into(),
            desc: "Bottle and trip blanks lie between 2 and 11 pg per bottle, below the critical value of 12 pg; one of four field blanks stands at 240 pg.".into(),
        },
        under: "Net of the calibration blank; bottles of 250 mL.".into(),
        unit: "pg lead per bottle".into(),
        kinds: vec![
            kind("procedural blank", &[0.4, 1.9, -1.2, 2.2, 0.9, 1.1, -0.3, 3.0]),
            kind("bottle blank", &[2.1, 4.0, 3.4, 5.1, 4.4, 6.2, 3.3, 4.1, 5.0, 3.9]),
            kind("trip blank", &[5.2, 6.4, 11.0]),
            kind("field blank", &[9.1, 15.0, 240.0, 12.4]),
        ],
        critical: Some(12.0),
        detection: Some(26.0),
    }
}

pub fn overview_picture() -> OverviewPicture {
    let row = |group: &str, name: &str, amount: Amount, word: Word| OverviewRow {
        group: group.into(),
        name: name.into(),
        amount,
        k: 2.0,
        bound: None,
        word: Some(word),
    };
    OverviewPicture {
        head: Head {
            id: "overview-lead".into(),
            title: "Lead in three wells".into(),
            desc:
                "SL-1: not detected, below 0.2 ng/L; SL-2: about 1 ng/L in two bottles; SL-3: about 9 ng/L, rejected."
                    .into(),
        },
        under: "Unfiltered water, trip SL-2026-07.".into(),
        unit: "ng/L".into(),
        rows: vec![
            row("SL-1, roadside spout", "SL1-26-07", Amount::below(0.21, ng()), Word::Provisional),
            row("SL-1, roadside spout", "SL1-26-08, duplicate", Amount::below(0.19, ng()), Word::Provisional),
            row("SL-2, steel sampling well", "SL2-26-07", Amount::measured(1.05, 0.06, ng()), Word::Accepted),
            row(
                "SL-2, steel sampling well",
                "SL2-26-08, duplicate",
                Amount::measured(0.98, 0.07, ng()),
                Word::Accepted,
            ),
            row("SL-3, old farm well", "SL3-26-07", Amount::measured(8.9, 0.32, ng()), Word::Rejected),
        ],
        limit: None,
    }
}

pub fn pairs_picture() -> PairsPicture {
    let pairs = (0..140)
        .map(|i| {
            let level = 0.05 * 10f64.powf(f64::from(i * 29 % 140) / 36.0);
            if level < 0.35 && i % 3 == 0 {
                return Pair::WithNonDetect { level };
            }
            let spread = f64::from((i * 53) % 41 - 20) / 20.0;
            let expected = 6.0 + 12.0 / level.sqrt().max(0.4);
            let percent = spread * expected * if i % 31 == 7 { 2.2 } else { 0.9 };
            Pair::Both { level, percent, expected_percent: (i % 5 != 0).then_some(expected) }
        })
        .collect();
    PairsPicture {
        head: Head {
            id: "pairs-all".into(),
            title: "Field duplicates, all metals".into(),
            desc: "Relative difference of 140 pairs against their level: within 20 % above 1 ng/L, up to 40 % below; four pairs differ by more than their uncertainty predicts.".into(),
        },
        under: "Two bottles filled one after the other.".into(),
        unit: "ng/L".into(),
        pairs,
        limit_percent: Some(20.0),
    }
}

/// The figures of the specimen report.
pub fn figures() -> Vec<Figure> {
    let mut out = vec![path_sl2().wide(), path_sl2().phone(), path_sl3().wide(), path_sl3().phone()];
    for width in [WIDE, PHONE] {
        out.push(line::draw(&calibration(), width));
        out.push(sequence::draw(&sequence_picture(), width));
        out.push(blanks::draw(&blanks_picture(), width));
        out.push(overview::draw(&overview_picture(), width));
        out.push(pairs::draw(&pairs_picture(), width));
    }
    out.extend(chemistry::figures());
    out
}

fn path_block(p: &PathPicture, caption: &str) -> Block {
    Block::Figure(Illustration { wide: p.wide(), phone: Some(p.phone()), caption: caption.into() })
}

fn figure_block(draw: impl Fn(f64) -> Figure, caption: &str) -> Block {
    Block::Figure(Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption: caption.into() })
}

fn results_table() -> Table {
    let m = |v: f64, u: f64| Cell::Amount { amount: Amount::measured(v, u, ng()), k: 2.0 };
    let b = |v: f64| Cell::Amount { amount: Amount::below(v, ng()), k: 2.0 };
    let t = |s: &str| Cell::Text(s.into());
    let row = |name: &str, a: Cell, b: Cell, c: Cell| vec![t(name), a, b, c];
    Table {
        caption: "Metals in the water of the three wells, unfiltered.".into(),
        columns: vec![
            Column::words("Metal"),
            Column::numbers("SL-1, roadside spout", "ng/L"),
            Column::numbers("SL-2, steel well", "ng/L"),
            Column::numbers("SL-3, farm well", "ng/L"),
        ],
        rows: vec![
            row("lead", b(0.21), m(1.05, 0.06), m(8.9, 0.32)),
            row("cadmium", b(0.05), m(0.27, 0.05), m(1.32, 0.07)),
            row("antimony", m(1.9, 0.11), m(2.1, 0.12), m(1.8, 0.11)),
            row("thallium", m(0.31, 0.02), m(0.28, 0.02), b(0.06)),
            row("uranium", m(4.7, 0.2), m(5.2, 0.2), m(3.9, 0.2)),
            row("molybdenum", m(480.0, 17.0), m(512.0, 18.0), m(455.0, 16.0)),
            row("vanadium", m(7.7, 0.5), m(8.3, 0.5), Cell::Missing("not measured".into())),
            row("nickel", m(39.0, 3.0), m(42.0, 3.0), m(160.0, 9.0)),
            row("zinc", m(96.0, 11.0), m(110.0, 12.0), m(48300.0, 1900.0)),
        ],
        notes: vec!["Every number here is invented.".into()],
    }
}

fn wells_table() -> Table {
    let t = |s: &str| Cell::Text(s.into());
    Table {
        caption: "The wells on the day.".into(),
        columns: vec![
            Column::words("Well"),
            Column::words("Construction"),
            Column::numbers("Flow", "L/min"),
            Column::numbers("Contact with the pipe", "min"),
            Column::words("Flow steady"),
        ],
        rows: vec![
            vec![
                t("SL-1"),
                t("roadside spout, 22 m, stoneware and lead-free brass"),
                Cell::Amount { amount: Amount::stated(5.7, Unit::known("L/min")), k: 2.0 },
                Cell::Amount { amount: Amount::measured(78.0, 4.0, Unit::known("min")), k: 2.0 },
                Cell::Outcome(Outcome::Met),
            ],
            vec![
                t("SL-2"),
                t("stainless steel, 60 m, screen 54 to 60 m"),
                Cell::Amount { amount: Amount::stated(26.6, Unit::known("L/min")), k: 2.0 },
                Cell::Amount { amount: Amount::measured(41.0, 2.0, Unit::known("min")), k: 2.0 },
                Cell::Outcome(Outcome::Met),
            ],
            vec![
                t("SL-3"),
                t("galvanised iron, depth not known"),
                Cell::Amount { amount: Amount::stated(0.41, Unit::known("L/min")), k: 2.0 },
                Cell::Missing("depth not known".into()),
                Cell::Outcome(Outcome::NotKnown),
            ],
        ],
        notes: vec![],
    }
}

fn verdicts() -> Vec<Verdict> {
    vec![
        Verdict {
            subject: "SL-2, lead".into(),
            amount: Amount::measured(1.05, 0.06, ng()),
            k: 2.0,
            bound: None,
            word: Word::Accepted,
            share: Some(Share { value: 0.91, lo: 0.85, hi: 0.95, is: Left::Water }),
            because: vec!["All decisive checks are met: field spike 97 %, laboratory spike 98 %, lot, trip and three of four field blanks below the critical value.".into()],
            signed: Some("Signed by M. Orrin, 2026-07-20: the one open seal is explained in the trip notes.".into()),
            result: None,
        },
        Verdict {
            subject: "SL-1, lead".into(),
            amount: Amount::below(0.21, ng()),
            k: 2.0,
            bound: None,
            word: Word::Provisional,
            share: None,
            because: vec!["Not detected, but no spike at this level was measured in this water, so that a loss cannot be excluded.".into()],
            signed: None,
            result: None,
        },
        Verdict {
            subject: "SL-3, lead".into(),
            amount: Amount::measured(8.9, 0.32, ng()),
            k: 2.0,
            bound: None,
            word: Word::Rejected,
            share: None,
            because: vec!["The water stood 19 h in a galvanised pipe, the field blank holds 240 pg, and no air class was shown.".into()],
            signed: None,
            result: None,
        },
        Verdict {
            subject: "SL-2, cadmium".into(),
            amount: Amount::measured(0.27, 0.05, ng()),
            k: 2.0,
            bound: None,
            word: Word::Provisional,
            share: Some(Share { value: 0.66, lo: 0.4, hi: 0.84, is: Left::Water }),
            because: vec!["A third of the signal is molybdenum oxide (0.10 ng/L at 0.02 %); it is subtracted with its uncertainty.".into()],
            signed: None,
            result: None,
        },
    ]
}

fn findings() -> Vec<Finding> {
    vec![
        Finding::kept(
            Check::WellContactTime,
            Outcome::Met,
            quantity::Lang::En,
            "The water met the pipe for 41 min, less than the 60 min of the programme.",
        )
        .comparing_named("contact", Amount::measured(41.0, 1.0, Unit::known("min"))),
        Finding::kept(
            Check::AirClass,
            Outcome::Met,
            quantity::Lang::En,
            "No particle in 28.3 L at 0.5 µm and above; class 5 is shown at 95 %.",
        ),
        Finding::kept(
            Check::AirZeroCount,
            Outcome::NotMet,
            quantity::Lang::En,
            "One of four field blanks holds twenty times the others; it was filled downwind of the road.",
        )
        .comparing_named("field blank FB-3", Amount::measured(0.96, 0.04, ng()))
        .comparing_named("critical value", Amount::stated(0.048, ng())),
        Finding::kept(
            Check::CoolBoxSeal,
            Outcome::NotKnown,
            quantity::Lang::En,
            "The seal of bottle SL2-26-07 was not recorded on arrival.",
        ),
        Finding::kept(
            Check::RunInterference,
            Outcome::NotMet,
            quantity::Lang::En,
            "Molybdenum oxide makes up a third of the cadmium signal at masses 111 and 114.",
        ),
        Finding::kept(
            Check::RunReferenceMaterial,
            Outcome::Met,
            quantity::Lang::En,
            "The reference water agrees with its certificate, zeta score 0.6.",
        ),
    ]
}

/// The specimen report.
pub fn content() -> Content {
    Content {
        title: "What is in the water of the Sallow Levels".into(),
        subtitle: "Three flowing wells, trip SL-2026-07".into(),
        author: "Sallow Levels programme".into(),
        lang: "en-GB".into(),
        cases_at: String::new(),
        form: document::content::Form::default(),
        date: Some(Day { year: 2026, month: 7, day: 20 }),
        invented: true,
        front: None,
        opened: vec![],
        asked: vec!["How much lead and cadmium does the water of the three wells hold of its own, and can a number near one part in 10¹² be believed?".into()],
        found: vec![
            "At SL-2 the water holds about 1 ng/L of lead. Bottle, acid, air and laboratory together add a tenth of what was found; the number is accepted.".into(),
            "At SL-1 no lead was found: less than 0.21 ng/L. At SL-3 the number speaks of the pipe, not of the water, and is rejected.".into(),
        ],
        verdicts: verdicts(),
        sections: vec![
            Section {
                name: String::new(),
                annex: None,
                title: "Lead at SL-2: the path of the bottle".into(),
                blocks: vec![
                    Block::Text("Each stage between the aquifer and the number can add lead. The picture sets what was measured at each stage beside the water’s own lead.".into()),
                    path_block(&path_sl2(), "Path of bottle SL2-26-07. The stages together stay a factor of twenty under the water’s own lead."),
                    Block::Heading("Findings along the path".into()),
                    Block::Findings(findings()),
                ],
            },
            Section {
                name: String::new(),
                annex: None,
                title: "Lead at SL-3: why the number is rejected".into(),
                blocks: vec![path_block(&path_sl3(), "Path of bottle SL3-26-07. The pipe can account for all of the lead that was found; the water’s own stays an upper bound.")],
            },
            Section {
                name: String::new(),
                annex: None,
                title: "Results".into(),
                blocks: vec![
                    Block::Table(results_table()),
                    figure_block(|w| overview::draw(&overview_picture(), w), "Lead in all bottles of the trip."),
                    Block::Table(wells_table()),
                ],
            },
            Section {
                name: String::new(),
                annex: None,
                title: "The run".into(),
                blocks: vec![
                    figure_block(|w| sequence::draw(&sequence_picture(), w), "Internal standard and checks of run SL-R12."),
                    figure_block(|w| line::draw(&calibration(), w), "Calibration line of lead and what it leaves over."),
                    figure_block(|w| blanks::draw(&blanks_picture(), w), "Blanks of lead by kind."),
                    figure_block(|w| pairs::draw(&pairs_picture(), w), "Field duplicates."),
                ],
            },
        ],
        methods: vec![
            Method {
                name: "Detection".into(),
                text: "A result counts as detected when its net value is above the critical value L_C, from the field blanks at α = 0.05. A result that is not detected shows its upper bound, max(net, 0) + t·u and never under L_C.".into(),
                sources: vec!["Currie 1968, Anal. Chem. 40, 586.".into(), "ISO 11843-1.".into()],
            },
            Method {
                name: "Uncertainty".into(),
                text: "Linear propagation with correlations, effective degrees of freedom by Welch and Satterthwaite, coverage factor from t.".into(),
                sources: vec!["JCGM 100:2008.".into()],
            },
        ],
        microbes: String::new(),
        cautions: vec!["The well house of SL-3 is closed and the water smells of hydrogen sulfide: air it and measure before going in, after local rules.".into()],
        provenance: Provenance {
            programme: "Sallow Levels".into(),
            head_hash: "5f0c1d2e9ab34c77d1e0a6b2c3d4e5f60718293a4b5c6d7e8f90a1b2c3d4e5f6".into(),
            events: 214,
            engine: "limpid 0.1.0".into(),
            files: vec![RawFile { name: "run-SL-R12.csv".into(), hash: "0a1b2c3d4e5f60718293a4b5c6d7e8f90a1b2c3d4e5f60718293a4b5c6d7e8f9".into() }],
            ..Provenance::default()
        },
    }
}
