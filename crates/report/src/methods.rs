//! The methods that a report stands on, with their sources.
//!
//! Titles of sources are the same in every language; what a source is quoted for is not.

use document::content::Method;
use message::{Spoken, count, method as said};

fn method(name: &impl Spoken, text: &impl Spoken, sources: &[&str]) -> Method {
    Method { name: name.text(), text: text.text(), sources: sources.iter().map(ToString::to_string).collect() }
}

/// The methods of results from counts, of reported results, or of both; beside the verdict, how many checks of this
/// version the programme's table does not name.
pub fn of(measured: bool, reported: bool, untaken: usize) -> Vec<Method> {
    let mut out = if measured { of_counts() } else { vec![] };
    if reported {
        out.push(method(&said::Reported, &said::ReportedText, &[&said::ReportedSource.text()]));
    }
    out.push(verdict(untaken));
    out
}

fn verdict(untaken: usize) -> Method {
    let mut out = method(&said::Verdict, &said::VerdictText, &[]);
    if untaken > 0 {
        out.text = format!("{} {}", out.text, said::Untaken { checks: count(untaken) }.text());
    }
    out
}

fn of_counts() -> Vec<Method> {
    vec![
        method(&said::Counts, &said::CountsText, &[&said::CountsSource.text()]),
        method(
            &said::Detected,
            &said::DetectedText,
            &["Currie 1968, Anal. Chem. 40:586", "Currie 1995, Pure Appl. Chem. 67:1699 (IUPAC)", "ISO 11843-1"],
        ),
        method(&said::Share, &said::ShareText, &["Fieller 1954, J. R. Stat. Soc. B 16:175"]),
        method(&said::Stages, &said::StagesText, &["Welch 1947, Biometrika 34:28"]),
        method(
            &said::Attribution,
            &said::AttributionText,
            &[
                "Lawson & Hanson 1974",
                "Box & Tiao 1968, Biometrika 55:119",
                "Paule & Mandel 1982, J. Res. NBS 87:377",
                "JCGM 101:2008",
            ],
        ),
        method(&said::Lots, &said::LotsText, &[&said::LotsSource.text()]),
        method(&said::Air, &said::AirText, &[&said::AirSource.text()]),
    ]
}

/// What is said of runs beside their results.
pub fn of_runs() -> Vec<Method> {
    vec![
        method(
            &said::OtherLimits,
            &said::OtherLimitsText,
            &[
                "ISO 11843-2",
                "DIN 32645",
                "US 40 CFR 136 App. B rev. 2",
                "Huber 1981, Robust Statistics",
                "Hahn & Meeker 1991, Statistical Intervals",
            ],
        ),
        method(
            &said::Lead,
            &said::LeadText,
            &["Russell, Papanastassiou & Tombrello 1978, Geochim. Cosmochim. Acta 42:1075"],
        ),
        method(&said::Dust, &said::DustText, &[&said::DustSource.text()]),
        method(
            &said::Quality,
            &said::QualityText,
            &["ISO 13528:2015", "ISO 7870-2", "Montgomery, Introduction to Statistical Quality Control"],
        ),
    ]
}

/// The wells.
pub fn of_wells() -> Method {
    method(
        &said::Well,
        &said::WellText,
        &["Jacob & Lohman 1952, Trans. Am. Geophys. Union 33:559", &said::WellSource.text(), "Darcy 1856"],
    )
}

/// The stream that takes the overflow.
pub fn of_overflow() -> Method {
    method(&said::Overflow, &said::OverflowText, &["JCGM 100:2008, 5.1"])
}
