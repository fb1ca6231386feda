//! The methods that a report stands on, with their sources.

use document::content::Method;

fn method(name: &str, text: &str, sources: &[&str]) -> Method {
    Method { name: name.into(), text: text.into(), sources: sources.iter().map(ToString::to_string).collect() }
}

/// The methods of results from counts, of reported results, or of both.
pub fn of(measured: bool, reported: bool) -> Vec<Method> {
    let mut out = vec![];
    if measured {
        out.push(method(
            "From counts to a concentration",
            "Dead time, background, overlaps measured in the run, internal standard, drift between bracketing checks, weighted line with the covariance of slope and intercept, dilution, one blank. Each step is a node of the derivation that the record keeps.",
            &["JCGM 100:2008 (propagation with correlations, Welch–Satterthwaite)"],
        ));
        out.push(method(
            "Detected or not",
            "Critical value and detection limit from the field blanks on the net scale, with Student’s t and the non-central t; upper bound max(net, 0) + t·u, never under the critical value. Exactly one blank is subtracted: the field blank, which holds the inner ones.",
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
        out.push(method(
            "Whose metal it is",
            "All bottles of a trip fitted together: volume times water plus exposures times sources, none negative, weighted, spikes by a two-part error law; intervals by Student’s t of the fit without the bound, read on zero and up. Stands beside the plain result, never in its place. Forecasts: products of what is known of each source by Monte Carlo, else blanks of earlier runs.",
            &["Lawson & Hanson 1974", "Box & Tiao 1968, Biometrika 55:119", "Paule & Mandel 1982, J. Res. NBS 87:377", "JCGM 101:2008"],
        ));
        out.push(method(
            "Lots of bottles",
            "A one-sided tolerance limit of the bottle blanks, on logarithms where these are nearer to normal, against the target of each metal.",
            &["Owen 1958, Sandia SCR-13 (recalled)"],
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

/// What is said of runs beside their results.
pub fn of_runs() -> Vec<Method> {
    vec![
        method(
            "Other limits of detection",
            "Shown beside the one that decides: Huber’s robust scale, order statistics of the blanks, the US method detection limits of blanks and spikes, the calibration line. How often skewed blanks make clean water look detected was simulated; the table is in the project’s validation pages.",
            &[
                "ISO 11843-2",
                "DIN 32645",
                "US 40 CFR 136 App. B rev. 2",
                "Huber 1981, Robust Statistics",
                "Hahn & Meeker 1991, Statistical Intervals",
            ],
        ),
        method(
            "Lead isotope ratios",
            "Ratios of sums over the replicates, dead time and calibration blanks taken off; mass bias by a reference of the run with the exponential law, where the recipe names one. Mixing is a straight line over one common isotope.",
            &["Russell, Papanastassiou & Tombrello 1978, Geochim. Cosmochim. Acta 42:1075"],
        ),
        method(
            "Dust in the blanks",
            "What field blanks hold beyond trip blanks, by element, over the same in the upper crust, against a reference element; two or more crust tables side by side.",
            &["Rudnick & Gao 2003; Taylor & McLennan 1985; McLennan 2001; Hu & Gao 2008 (crust tables)"],
        ),
        method(
            "Quality over the runs",
            "Zeta scores and E_n numbers of reference materials, recoveries in their windows, duplicates against their predicted u; individual, CUSUM and EWMA charts once eight runs are on record.",
            &["ISO 13528:2015", "ISO 7870-2", "Montgomery, Introduction to Statistical Quality Control"],
        ),
    ]
}

/// The wells.
pub fn of_wells() -> Method {
    method(
        "The well",
        "Flow from timed fills; contact time is volume over flow, section by section; head from the shut well’s pressure. A flow test at constant head is fitted with the full well function, not its late-time line. Travel time and capture by Monte Carlo over what was measured and what a textbook gives, kept apart.",
        &[
            "Jacob & Lohman 1952, Trans. Am. Geophys. Union 33:559",
            "Puls & Barcelona 1996 (steady readings)",
            "Darcy 1856",
        ],
    )
}

/// The stream that takes the overflow.
pub fn of_overflow() -> Method {
    method(
        "Overflow and stream",
        "Mass balance of flows and amounts with full mixing; u by the partial derivatives. What falls out or reacts when the waters meet is marked, not computed.",
        &["JCGM 100:2008, 5.1"],
    )
}
