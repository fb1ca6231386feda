//! The spread between blanks, learnt from earlier runs too: three blanks of one run tell it with two degrees of freedom
//! (a factor of 4.3 on every u), ten runs with twenty.
//!
//! Variances are pooled where they agree. Earlier runs among themselves: Bartlett's test at 5 %, the one that stands out
//! most left aside until they do. This run against them: it stands alone where it scatters more (F test at 20 %, one
//! side) or clearly less (at 2.5 %). The 20 % is not the usual 5 %: three blanks that truly scatter twice as much as the
//! earlier ones pass a test at 5 % more than half the time, and the pooled spread then gives 10 to 11 % false detections;
//! at 20 % it gives 7 %, and pooling blindly 17 %. Earlier runs of equal spread give 4 % (40 000 draws each; the table
//! stands in `docs/validation/bounds.md`). The programme's own choice.
//! Only earlier runs count, so that a later run changes no result that stands.
//! Bartlett 1937, Proc. R. Soc. A 160:268. Checked in `tests/earlier_blanks.rs`.

use super::input::{EarlierBlanks, Role};
use super::result::Analyte;
use statistics::{chi2, f};

/// Level of Bartlett's test among the earlier runs.
// Common practice.
pub(super) const EARLIER_AGREE: f64 = 0.05;
/// Level of the F test, one side, at which this run scatters more than the earlier ones.
// The programme's own choice, for the false detections that the head of this file gives.
pub(super) const SCATTERS_MORE: f64 = 0.20;
/// Level at which it scatters less.
// Common practice: half of 5 %.
pub(super) const SCATTERS_LESS: f64 = 0.025;

/// A pooled spread.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Pooled {
    /// Standard deviation.
    pub sd: f64,
    pub dof: f64,
    /// Earlier runs in it.
    pub runs: Vec<String>,
}

/// The spread of this run's blanks with that of the earlier runs that agree; none where it stands alone.
pub(super) fn pooled(sd: f64, n: usize, analyte: &Analyte, role: Role, earlier: &[EarlierBlanks]) -> Option<Pooled> {
    let mut of: Vec<&EarlierBlanks> = earlier
        .iter()
        .filter(|e| e.analyte == *analyte && e.role == role && e.n >= 2 && e.sd > 0.0 && e.sd.is_finite())
        .collect();
    of.sort_by(|a, b| a.run.cmp(&b.run).then(a.sd.total_cmp(&b.sd)).then(a.n.cmp(&b.n)));
    while of.len() > 1 && bartlett(&of) < EARLIER_AGREE {
        let k = farthest(&of);
        of.remove(k);
    }
    let dof: f64 = of.iter().map(|e| dof_of(e)).sum();
    if dof <= 0.0 {
        return None;
    }
    let variance = of.iter().map(|e| dof_of(e) * e.sd * e.sd).sum::<f64>() / dof;
    let own = n as f64 - 1.0;
    let tails = f::tails(sd * sd / variance, own, dof);
    if tails.upper < SCATTERS_MORE || tails.lower < SCATTERS_LESS {
        return None;
    }
    let all = own + dof;
    Some(Pooled {
        sd: ((own * sd * sd + dof * variance) / all).sqrt(),
        dof: all,
        runs: of.iter().map(|e| e.run.clone()).collect(),
    })
}

fn dof_of(e: &EarlierBlanks) -> f64 {
    e.n as f64 - 1.0
}

fn variance_of(all: &[&EarlierBlanks]) -> f64 {
    let dof: f64 = all.iter().map(|e| dof_of(e)).sum();
    all.iter().map(|e| dof_of(e) * e.sd * e.sd).sum::<f64>() / dof
}

/// Probability that variances of one spread differ as much.
fn bartlett(all: &[&EarlierBlanks]) -> f64 {
    let k = all.len() as f64;
    let dof: f64 = all.iter().map(|e| dof_of(e)).sum();
    let logs: f64 = all.iter().map(|e| dof_of(e) * libm::log(e.sd * e.sd)).sum();
    let inverse: f64 = all.iter().map(|e| 1.0 / dof_of(e)).sum();
    let c = 1.0 + (inverse - 1.0 / dof) / (3.0 * (k - 1.0));
    chi2::sf((dof * libm::log(variance_of(all)) - logs) / c, k - 1.0)
}

/// The one whose variance is least like that of the others.
fn farthest(all: &[&EarlierBlanks]) -> usize {
    let p = |k: usize| {
        let others: Vec<&EarlierBlanks> = all.iter().enumerate().filter(|(i, _)| *i != k).map(|(_, e)| *e).collect();
        let dof: f64 = others.iter().map(|e| dof_of(e)).sum();
        let tails = f::tails(all[k].sd.powi(2) / variance_of(&others), dof_of(all[k]), dof);
        tails.upper.min(tails.lower)
    };
    (0..all.len()).min_by(|a, b| p(*a).total_cmp(&p(*b)).then(a.cmp(b))).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lead() -> Analyte {
        Analyte { element: "Pb".into(), isotopes: "208".into(), resolution: "low".into() }
    }

    fn runs(all: &[(f64, usize)]) -> Vec<EarlierBlanks> {
        let one = |(i, (sd, n)): (usize, &(f64, usize))| EarlierBlanks {
            run: format!("run {i}"),
            analyte: lead(),
            role: Role::FieldBlank,
            sd: *sd,
            n: *n,
        };
        all.iter().enumerate().map(one).collect()
    }

    fn of(sd: f64, n: usize, all: &[EarlierBlanks]) -> Option<Pooled> {
        pooled(sd, n, &lead(), Role::FieldBlank, all)
    }

    /// scipy 1.17.1: `stats.bartlett` of samples with these standard deviations, to all its digits.
    #[test]
    fn bartlett_is_that_of_scipy() {
        for (all, want) in [
            (&[(1.0, 3), (1.5, 4), (0.7, 6)][..], 0.374_928_570_536_361_75),
            (&[(1.0, 5), (6.0, 5), (1.2, 5)][..], 0.001_273_566_175_174_091),
        ] {
            let all = runs(all);
            let got = bartlett(&all.iter().collect::<Vec<_>>());
            assert!((got - want).abs() < 1e-12, "{got} against {want}");
        }
    }

    /// The pooled spread by hand; the tails of F by scipy 1.17.1: at sd 1.3 0.267 above, at 1.6 0.152, at 0.15 0.0199
    /// below, at 0.2 0.0350.
    #[test]
    fn spreads_that_agree_are_pooled_and_a_run_that_scatters_more_stands_alone() {
        let earlier = runs(&[(1.0, 3), (1.5, 4), (0.7, 6)]);
        let p = of(1.3, 3, &earlier).expect("they agree");
        assert!((p.sd - 1.102_270_384_252_430_2).abs() < 1e-12 && (p.dof - 12.0).abs() < 1e-12, "{p:?}");
        assert_eq!(p.runs, ["run 0", "run 1", "run 2"]);
        assert_eq!(of(1.6, 3, &earlier), None);
        assert_eq!(of(0.15, 3, &earlier), None);
        assert!(of(0.2, 3, &earlier).is_some());
        // Of earlier runs that disagree the one that stands out is left aside.
        let p = of(1.1, 5, &runs(&[(1.0, 5), (6.0, 5), (1.2, 5)])).expect("two agree");
        assert_eq!(p.runs, ["run 0", "run 2"]);
    }

    #[test]
    fn other_metals_other_blanks_and_single_blanks_have_no_say() {
        let mut all = runs(&[(1.0, 5), (1.0, 5), (1.0, 1)]);
        all[0].role = Role::BottleBlank;
        all[1].analyte.element = "Cd".into();
        assert_eq!(of(1.0, 5, &all), None);
    }
}
