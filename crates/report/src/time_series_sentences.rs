//! Every sentence that a trend can say, in both languages, for a person to read: `time_series_sentences.txt` holds
//! them, and a sentence that changes fails here until that page is read and kept anew.

use super::time_series::Told;
use super::time_series_tables::{sentence, steps_out, with_trend};
use assessment::series_of::{LeftOut, Point, Series};
use document::content::Cell;
use message::{Lang, with_language};
use quantity::Unit;
use series::kendall::PFrom;
use series::rows::date_of;
use series::survey::{self, Entry, Request};
use series::trend::{Answer, WithSteps};
use series::{Observation, Reading};
use std::fmt::Write as _;

/// Scatter between −1 and 1 without likeness of neighbours.
fn scatter(i: usize) -> f64 {
    ((i * 7919 + 31) % 101) as f64 / 50.0 - 1.0
}

/// So many quarterly values from 2001 on; the method changes at the second half where `steps` is set.
fn quarterly(n: usize, steps: bool, reading: impl Fn(usize) -> Reading) -> Vec<Observation> {
    let method = |i: usize| if steps && 2 * i >= n { "new" } else { "old" };
    (0..n)
        .map(|i| Observation { time_years: 2001.0 + 0.25 * i as f64, reading: reading(i), method: method(i).into() })
        .collect()
}

fn known(f: impl Fn(usize) -> f64) -> impl Fn(usize) -> Reading {
    move |i| Reading::Known(f(i))
}

/// What it is, and rows that bring it about.
fn cases() -> Vec<(&'static str, Vec<Observation>)> {
    // A wave of seven years: neighbours alike.
    let wave = |i: usize| (0.22 * i as f64).sin();
    let half = |i: usize, n: usize| if 2 * i >= n { 1.0 } else { 0.0 };
    let open = |i| if i == 0 { Reading::Known(3.0) } else { Reading::Below(9.0) };
    let falling_limits = |i: usize| {
        if i.is_multiple_of(3) { Reading::Known(2.0 + 0.1 * scatter(i)) } else { Reading::Below(9.0 - 0.1 * i as f64) }
    };
    vec![
        ("nine values that rise", quarterly(9, false, known(|i| 5.0 + i as f64 + 0.5 * scatter(i)))),
        ("nine values that do not", quarterly(9, false, known(|i| 5.0 + scatter(i)))),
        (
            "sixteen that rise under any correlation assumed",
            quarterly(16, false, known(|i| 5.0 + i as f64 + 0.2 * scatter(i))),
        ),
        ("sixteen that rise only without", quarterly(16, false, known(|i| 5.0 + 0.1 * i as f64 + scatter(i)))),
        ("forty that rise", quarterly(40, false, known(|i| 5.0 + 0.1 * i as f64 + scatter(i)))),
        ("forty that fall", quarterly(40, false, known(|i| 15.0 - 0.1 * i as f64 + scatter(i)))),
        (
            "forty on a wave: a change of chance",
            quarterly(40, false, known(|i| 5.0 + 2.0 * wave(i) + 0.2 * scatter(i))),
        ),
        (
            "forty up and down: neighbours unlike",
            quarterly(40, false, known(|i| 5.0 + 0.05 * i as f64 + f64::from(i as u32 % 2))),
        ),
        ("a step, nothing else", quarterly(40, true, known(|i| 5.0 + 3.0 * half(i, 40) + scatter(i)))),
        ("a rise and a step up", quarterly(40, true, known(|i| 5.0 + 0.2 * i as f64 + 3.0 * half(i, 40) + scatter(i)))),
        (
            "a rise that a step hides",
            quarterly(40, true, known(|i| 9.0 + 0.3 * i as f64 - 6.0 * half(i, 40) + scatter(i))),
        ),
        (
            "a fall within, a step up across",
            quarterly(40, true, known(|i| 12.0 - 0.2 * i as f64 + 12.0 * half(i, 40) + 0.5 * scatter(i))),
        ),
        ("a change of method, no change", quarterly(40, true, known(|i| 5.0 + scatter(i)))),
        ("values down to zero", quarterly(24, false, known(|i| (0.1 * i as f64 + scatter(i)).max(0.0)))),
        (
            "most alike, a few late ones higher",
            quarterly(40, false, known(|i| if i > 28 && i % 2 == 0 { 2.0 } else { 1.0 })),
        ),
        ("non-detects leave the slope open", quarterly(12, false, open)),
        ("limits that fall", quarterly(24, false, falling_limits)),
        (
            "few known among non-detects",
            quarterly(10, false, |i| {
                if i == 4 || i == 5 { Reading::Known(20.0 - 9.0 * (i as f64 - 4.0)) } else { Reading::Below(1.0) }
            }),
        ),
        ("never found", quarterly(12, false, |_| Reading::Below(1.0))),
        ("one value always", quarterly(12, false, |_| Reading::Known(1.0))),
    ]
}

fn series(rows: &[Observation]) -> Series {
    Series {
        of: "SL-2".into(),
        analyte: "Pb".into(),
        fraction: "filtered".into(),
        unit: Unit::known("ng/L"),
        rows: rows
            .iter()
            .map(|o| Point {
                observation: o.clone(),
                date: date_of(o.time_years),
                row: 1,
                bottle: String::new(),
                verdict: None,
                expanded: None,
            })
            .collect(),
        left_out: LeftOut::default(),
    }
}

/// Sentence, cautions and row of the table of one series among the others.
fn page() -> String {
    let cases = cases();
    let mut entries: Vec<Entry> =
        cases.iter().map(|(name, rows)| survey::one(name, rows, &Request::default())).collect();
    survey::among_all(&mut entries);
    let mut out = String::new();
    for ((name, rows), entry) in cases.iter().zip(&entries) {
        let _ = writeln!(out, "# {name}");
        for lang in [Lang::En, Lang::De] {
            with_language(lang, || {
                let series = series(rows);
                let told = Told { series: &series, entry, blanks_rise: false };
                let _ = writeln!(out, "{}", sentence(&told));
                for f in told.trend().into_iter().flat_map(|t| &t.findings) {
                    let _ = writeln!(out, "  ! {}", f.as_sentence());
                }
                for row in with_trend(std::slice::from_ref(&told)).into_iter().flat_map(|t| t.rows) {
                    let cells: Vec<String> = row
                        .into_iter()
                        .skip(2)
                        .map(|c| match c {
                            Cell::Text(t) | Cell::Missing(t) => t,
                            _ => String::new(),
                        })
                        .collect();
                    let _ = writeln!(out, "  | {}", cells.join(" | "));
                }
            });
        }
    }
    out
}

#[test]
fn every_sentence_of_a_trend_has_been_read() {
    let page = page();
    assert!(page == include_str!("time_series_sentences.txt"), "read, and keep as time_series_sentences.txt:\n{page}");
}

/// A change is "not seen any more" only where one was seen: each pair of answers has its own message.
#[test]
fn steps_taken_out_do_not_speak_against_the_answer_across_them() {
    let within = |answer: Answer| {
        let (s, p) = match answer {
            Answer::Rises => (9, 0.01),
            Answer::Falls => (-9, 0.01),
            Answer::NoChangeSeen => (9, 0.4),
        };
        WithSteps { stretches: 2, s, p, p_from: PFrom::Normal, p_serial: None, slope: None }
    };
    let all = [Answer::Rises, Answer::Falls, Answer::NoChangeSeen];
    let said = all.map(|across| all.map(|a| steps_out(across, &within(a)).id().to_string()));
    let [stays, turns, vanishes, appears, none] =
        ["stays", "turns", "vanishes", "appears", "none"].map(|s| format!("time_series-steps-out-{s}"));
    assert_eq!(said[0], [stays.clone(), turns.clone(), vanishes.clone()]);
    assert_eq!(said[1], [turns, stays, vanishes]);
    assert_eq!(said[2], [appears.clone(), appears, none]);
}
