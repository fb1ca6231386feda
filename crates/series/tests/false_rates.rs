//! How often do trends, steps and seasons "change" where nothing does, and how often is a true change seen? The
//! generator is this file's own: a normal series whose correlation falls off with time, bent into another law. With
//! `--nocapture` the tests print the tables of `docs/validation/series_correlation.md`; `LIMPID_RUNS` sets the series
//! of a cell (100 here).

use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use series::seasonal::Season;
use series::trend::{Answer, Request, Trend, trend};
use series::{Observation, Reading};
use statistics::normal;

fn runs() -> u64 {
    std::env::var("LIMPID_RUNS").map_or(100, |n| n.parse().expect("a number of runs"))
}

fn draw(rng: &mut ChaCha8Rng) -> f64 {
    normal::quantile(rng.random_range(1e-16..1.0))
}

/// What a normal series is bent into; trends and steps are laid on before, so that every law has the same order of values.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    Normal,
    /// sd of ln 1.
    Lognormal,
    /// sinh(1.5 z): a kurtosis of some 90.
    HeavyTails,
    /// Normal, gaps drawn from an exponential distribution.
    IrregularGaps,
    /// Lognormal, non-detects at three limits in turn, 30 % in all.
    Censored,
}

impl Law {
    const ALL: [Self; 5] = [Self::Normal, Self::Lognormal, Self::HeavyTails, Self::IrregularGaps, Self::Censored];

    fn name(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::Lognormal => "lognormal",
            Self::HeavyTails => "heavy tails",
            Self::IrregularGaps => "irregular gaps",
            Self::Censored => "30 % non-detects",
        }
    }

    fn reading(self, z: f64, i: usize) -> Reading {
        match self {
            Self::Normal | Self::IrregularGaps => Reading::Known(z),
            Self::Lognormal => Reading::Known(z.exp()),
            Self::HeavyTails => Reading::Known((1.5 * z).sinh()),
            Self::Censored => {
                // Quantiles 0.2, 0.3 and 0.4 of the standard normal: scipy 1.17.1, stats.norm.ppf.
                let limit = [-0.841_621_f64, -0.524_401, -0.253_347][i % 3];
                if z < limit { Reading::Below(limit.exp()) } else { Reading::Known(z.exp()) }
            }
        }
    }
}

/// n values, under every law from the same normal series, with a coefficient ρ at the median gap and `change` laid on, a function of the place from 0 to 1.
fn series(seed: u64, law: Law, n: usize, rho: f64, change: impl Fn(f64) -> f64) -> Vec<Observation> {
    let mut rng = ChaCha8Rng::seed_from_u64(if law == Law::IrregularGaps { 8 } else { 7 });
    rng.set_stream(seed << 16 | (n as u64) << 4 | (10.0 * rho) as u64);
    let (mut time, mut z) = (0.0, draw(&mut rng));
    let mut path = Vec::with_capacity(n);
    for i in 0..n {
        // The median of the exponential gaps is ln 2.
        let gap = if law == Law::IrregularGaps { -rng.random_range(1e-16..1.0_f64).ln() / 2_f64.ln() } else { 1.0 };
        if i > 0 {
            time += gap;
            let kept = if rho > 0.0 { rho.powf(gap) } else { 0.0 };
            z = kept * z + (1.0 - kept * kept).sqrt() * draw(&mut rng);
        }
        path.push((time, z));
    }
    // The change is laid on by place in time, then the law bends what comes of it.
    path.iter()
        .enumerate()
        .map(|(i, (at, z))| Observation::new(2000.0 + 0.25 * at, law.reading(z + change(at / time), i)))
        .collect()
}

/// Σ Σ ρ^|i − j| / n: how much wider sums of so many are.
fn inflation(n: usize, rho: f64) -> f64 {
    let length = n as f64;
    1.0 + 2.0 * (1..n).map(|k| (length - k as f64) * rho.powf(k as f64)).sum::<f64>() / length
}

/// A change from first to last that a normal test at 5 % would see in four of five series: 2.8 of its standard errors.
fn seen_change(n: usize, rho: f64) -> f64 {
    2.8 * (12.0 * inflation(n, rho) / n as f64).sqrt()
}

fn all<T: Send>(of: impl Fn(u64) -> Option<T> + Sync + Send) -> Vec<T> {
    (0..runs()).into_par_iter().filter_map(of).collect()
}

fn share<T>(of: &[T], what: impl Fn(&T) -> bool) -> f64 {
    of.iter().filter(|t| what(t)).count() as f64 / of.len().max(1) as f64
}

/// Three standard deviations of chance of a share of so many.
fn chance(share: f64) -> f64 {
    3.0 * (share * (1.0 - share) / runs() as f64).sqrt()
}

fn percent(x: f64) -> String {
    format!("{:.1}", 100.0 * x)
}

struct Rates {
    plain: f64,
    serial: f64,
    /// Power at a level of the plain test that gives it 5 % false alarms, and of the answer.
    power: (f64, f64),
}

fn told(rows: &[Observation]) -> Option<Trend> {
    trend(rows, &Request::default()).ok()
}

fn rates(law: Law, n: usize, rho: f64) -> Rates {
    let change = seen_change(n, rho);
    let still = all(|i| told(&series(i, law, n, rho, |_| 0.0)));
    let moving = all(|i| told(&series(i, law, n, rho, |x| change * x)));
    let mut p: Vec<f64> = still.iter().map(Trend::p).collect();
    p.sort_unstable_by(f64::total_cmp);
    let level = p[p.len() / 20];
    Rates {
        plain: share(&still, |t| t.p() < 0.05),
        serial: share(&still, |t| t.answer() != Answer::NoChangeSeen),
        power: (share(&moving, |t| t.p() < level), share(&moving, |t| t.answer() == Answer::Rises)),
    }
}

/// All cells of the tables, or on every run of the tests the ones that fail first: they are dear.
fn long() -> bool {
    runs() >= 200
}

fn laws() -> impl Iterator<Item = Law> {
    Law::ALL.into_iter().filter(|law| long() || matches!(law, Law::IrregularGaps | Law::Censored))
}

#[test]
fn trends_keep_their_false_rate_from_twenty_values() {
    println!(
        "| values | rho | law | false, plain test | false, answer | power, plain test at a true 5 % | power, answer |"
    );
    println!("|---|---|---|---|---|---|---|");
    for n in [20, 30, 60, 120].into_iter().filter(|n| *n == 20 || long()) {
        for rho in [0.0, 0.3, 0.6] {
            for law in laws() {
                let r = rates(law, n, rho);
                println!(
                    "| {n} | {rho} | {} | {} | {} | {} | {} |",
                    law.name(),
                    percent(r.plain),
                    percent(r.serial),
                    percent(r.power.0),
                    percent(r.power.1)
                );
                let case = format!("{n} values, rho {rho}, {law:?}");
                assert!(r.serial <= 0.08 + chance(0.08), "{case}: false {}", r.serial);
                // Both powers and the level of the plain test are drawn: three deviations of each.
                let drawn = chance(0.8) + chance(0.7) + chance(0.05);
                assert!(r.power.1 >= 0.7 * r.power.0 - drawn, "{case}: power {:?}", r.power);
                if rho == 0.0 {
                    assert!(r.power.1 >= r.power.0 - 0.1 - drawn, "{case}: power {:?}", r.power);
                }
            }
        }
    }
}

#[test]
fn short_trends_are_held_against_assumed_correlation() {
    println!(
        "| values | rho | law | false, plain test | false, answer | power, plain test at a true 5 % | power, answer |"
    );
    println!("|---|---|---|---|---|---|---|");
    for n in [8, 11, 12, 15, 19].into_iter().filter(|n| [12, 19].contains(n) || long()) {
        for rho in [0.0, 0.3, 0.6] {
            for law in laws() {
                let r = rates(law, n, rho);
                println!(
                    "| {n} | {rho} | {} | {} | {} | {} | {} |",
                    law.name(),
                    percent(r.plain),
                    percent(r.serial),
                    percent(r.power.0),
                    percent(r.power.1)
                );
                if n >= 12 {
                    assert!(r.serial <= 0.11 + chance(0.11), "{n} values, rho {rho}, {law:?}: {}", r.serial);
                }
            }
        }
    }
}

/// A step in the middle that lifts the level by as much as is seen in four of five series at a known date.
fn step(n: usize, rho: f64) -> f64 {
    2.8 * (4.0 * inflation(n, rho) / n as f64).sqrt()
}

#[test]
fn steps_keep_their_false_rate() {
    println!(
        "| values | rho | law | false, Pettitt plain | false, Pettitt | seen, Pettitt | false, known date plain | false, known date | seen, known date |"
    );
    println!("|---|---|---|---|---|---|---|---|---|");
    let known = |rows: &[Observation]| {
        let middle = rows[rows.len() / 2].time_years;
        trend(rows, &Request { steps: vec![middle], ..Request::default() }).ok()
    };
    for n in [12, 20, 40, 80].into_iter().filter(|n| *n == 20 || long()) {
        for rho in [0.0, 0.3, 0.6] {
            for law in laws().filter(|law| *law != Law::Lognormal && *law != Law::HeavyTails) {
                let lift = step(n, rho);
                let still = all(|i| known(&series(i, law, n, rho, |_| 0.0)));
                let lifted = all(|i| known(&series(i, law, n, rho, |x| if x >= 0.5 { lift } else { 0.0 })));
                let chosen = |t: &Trend| t.change_point.as_ref().is_some_and(|c| c.deciding_p() < 0.05);
                let given = |t: &Trend| t.given_steps.iter().any(|g| g.deciding_p() < 0.05);
                let (pettitt, at_date) = (share(&still, chosen), share(&still, given));
                println!(
                    "| {n} | {rho} | {} | {} | {} | {} | {} | {} | {} |",
                    law.name(),
                    percent(share(&still, |t| t.change_point.as_ref().is_some_and(|c| c.p < 0.05))),
                    percent(pettitt),
                    percent(share(&lifted, chosen)),
                    percent(share(&still, |t| t.given_steps.iter().any(|g| g.p < 0.05))),
                    percent(at_date),
                    percent(share(&lifted, given)),
                );
                // Under 20 values the worst of three assumed coefficients decides, as with trends.
                let most = if n < 20 { 0.11 } else { 0.08 };
                let case = format!("{n} values, rho {rho}, {law:?}");
                assert!(pettitt <= most + chance(most), "{case}: {pettitt}");
                assert!(at_date <= most + chance(most), "{case}: {at_date}");
            }
        }
    }
}

/// What makes the seasons of some years alike.
#[derive(Debug, Clone, Copy)]
enum Alike {
    /// From row to row.
    Rows(f64),
    /// Whole years: this share of the variance is common to a year.
    Years(f64),
}

fn years_of_seasons(seed: u64, per_year: usize, years: usize, alike: Alike, change: f64) -> Vec<Observation> {
    let mut rng = ChaCha8Rng::seed_from_u64(30);
    rng.set_stream(seed << 16 | (years * 100 + per_year) as u64);
    let (mut z, mut common) = (draw(&mut rng), 0.0);
    (0..years * per_year)
        .map(|i| {
            let own = draw(&mut rng);
            let value = match alike {
                Alike::Rows(rho) => {
                    z = rho * z + (1.0 - rho * rho).sqrt() * own;
                    z
                }
                Alike::Years(share) => {
                    if i % per_year == 0 {
                        common = draw(&mut rng);
                    }
                    share.sqrt() * common + (1.0 - share).sqrt() * own
                }
            };
            let season = (std::f64::consts::TAU * i as f64 / per_year as f64).sin();
            let time = (i as f64 + 0.5) / per_year as f64;
            Observation::new(2000.0 + time, Reading::Known(value + 3.0 * season + change * time / years as f64))
        })
        .collect()
}

#[test]
fn seasons_keep_their_false_rate() {
    println!(
        "| seasons | years | alike | false, as if independent | false, orders of years | false, rows | false, answer | seen, as if independent | seen, orders of years | seen, answer |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|");
    let alike = [Alike::Rows(0.0), Alike::Rows(0.3), Alike::Rows(0.6), Alike::Years(0.3), Alike::Years(0.6)];
    for (season, per_year) in [(Season::Quarter, 4), (Season::Month, 12)] {
        for years in [4, 6, 8, 12, 20].into_iter().filter(|y| *y == 6 || long()) {
            for alike in alike {
                let request = Request { season, ..Request::default() };
                let of =
                    |change: f64| all(|i| trend(&years_of_seasons(i, per_year, years, alike, change), &request).ok());
                let (still, moving) = (of(0.0), of(seen_change(per_year * years, 0.0)));
                let independent = |t: &Trend| t.seasonal.as_ref().is_some_and(|s| s.p_independent < 0.05);
                let by_years = |t: &Trend| t.p() < 0.05;
                let by_rows = |t: &Trend| rows_alone(t) < 0.05;
                let answer = share(&still, |t| t.answer() != Answer::NoChangeSeen);
                println!(
                    "| {per_year} | {years} | {} | {} | {} | {} | {} | {} | {} | {} |",
                    match alike {
                        Alike::Rows(rho) => format!("rows, rho {rho}"),
                        Alike::Years(share) => format!("years, share {share}"),
                    },
                    percent(share(&still, independent)),
                    percent(share(&still, by_years)),
                    percent(share(&still, by_rows)),
                    percent(answer),
                    percent(share(&moving, independent)),
                    percent(share(&moving, by_years)),
                    percent(share(&moving, |t| t.answer() == Answer::Rises)),
                );
                assert!(answer <= 0.08 + chance(0.08), "{per_year} seasons, {years} years, {alike:?}: {answer}");
            }
        }
    }
}

/// The largest p of the rows' correlation alone, without that of the orders of the years.
fn rows_alone(t: &Trend) -> f64 {
    let variance = t.seasonal.as_ref().map_or(t.test.variance, |s| s.variance_independent);
    t.correlation.factors.iter().map(|f| f.p(t.s() as f64, variance)).fold(0.0, f64::max)
}
