//! The methods that a report stands on, with their sources.

use crate::content::Method;

/// The methods of results from counts, of reported results, or of both.
pub fn of(measured: bool, reported: bool) -> Vec<Method> {
    let method = |name: &str, text: &str, sources: &[&str]| Method {
        name: name.into(),
        text: text.into(),
        sources: sources.iter().map(ToString::to_string).collect(),
    };
    let mut out = vec![];
    if measured {
        out.push(method(
            "From counts to a concentration",
            "Dead time, background, overlaps measured in the run, internal standard, drift between bracketing checks, weighted line with the covariance of slope and intercept, dilution, one blank. Each step is a node of the derivation that the record keeps.",
            &["JCGM 100:2008 (propagation with correlations, Welch–Satterthwaite)"],
        ));
        out.push(method(
            "Detected or not",
            "Critical value and detection limit from the field blanks on the net scale, with Student’s t and the non-central t; upper bound net + t·u. Exactly one blank is subtracted: the field blank, which holds the inner ones.",
            &["Currie 1968, Anal. Chem. 40:586", "Currie 1995, Pure Appl. Chem. 67:1699 (IUPAC)", "ISO 11843-1"],
        ));
        out.push(method(
            "Water’s share",
            "1 − blank/gross, its interval by Fieller’s set with the covariance that the shared calibration brings, held to 0…1.",
            &["Fieller 1954, J. R. Stat. Soc. B 16:175"],
        ));
        out.push(method(
            "Stages of the path",
            "Differences of nested blanks of the same run: bottle less procedural, trip less bottle, field less trip; intervals after Welch.",
            &["Welch 1947, Biometrika 34:28"],
        ));
        out.push(method("Air", "Particle counts with their exact Poisson bound against the class limits: one reading at one place, no classification of the cabinet.", &["ISO 14644-1:2015, Table 1"]));
    }
    if reported {
        out.push(method(
            "Reported concentrations",
            "Values, limits and remarks stand as the laboratory wrote them; a censored value is never a zero and never a half. Blanks of the same analyte bound what comes from elsewhere by order statistics; replicate sets give the spread of a single value.",
            &["Hahn & Meeker 1991, Statistical Intervals (order-statistic limits)"],
        ));
    }
    out.push(method(
        "Verdict",
        "Rejected: a decisive check is not met. Provisional: decisive evidence is missing, or a warning is open. Accepted: all decisive checks are met. Which checks decide stands in the programme’s own table.",
        &[],
    ));
    out
}
