//! Bottles of one water: do they agree, which is the odd one, and what weights give their common value?
//!
//! In: the values, and for each pair the variance of their difference with its degrees of freedom (what both share,
//! such as stock, line and mean blank, is not in a difference). Out: χ² of the group about its weighted mean, the chance
//! of one as large, the word on agreement, and the one bottle without which the others agree; weights by what each
//! bottle does not share.
//!
//! ```text
//! Q = dᵀ·S⁻¹·d     d_i = x_i − x_1     S_ij = (D_i1 + D_j1 − D_ij)/2     D_ij = u²(x_i − x_j)
//! F = Q/(n−1) / (1 + 2(n−2)/(n²−1)·A)      ν = (n²−1)/(3A)      A = Σ (1 − w_i/Σw)²/ν_i
//! ```
//!
//! F against F(n−1, ν): Welch 1951, Biometrika 38:330; for two bottles it is Student's t of their difference. v_i and ν_i
//! of a bottle follow from D and ν of its pairs, whether variances were estimated apart or together. One test speaks for the whole group, however many bottles it has, so that three bottles are
//! wrongly called different as seldom as two.
//! Valid for errors near the normal. It does not say what went wrong, and it takes no bottle out.
//! Checked in `tests/same_water.rs`.

use quantity::Measured;
use statistics::welch::welch_term;
use statistics::{chi2, f, t};

/// Two standard uncertainties warn, three act.
// ISO 7870-2: action limits at three, warning limits at two standard deviations (from memory).
const ACTION_OVER_WARNING: f64 = 1.5;
/// Chance of a warning about bottles that agree.
// 95 %: the coverage that all intervals of the programme use.
const WARNING: f64 = 0.05;

/// Whether bottles of one water agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agreement {
    /// Within what their uncertainties allow in nineteen cases of twenty.
    Agree,
    /// Beyond two standard uncertainties, within three: chance or the beginning of something.
    Nearly,
    /// Beyond three.
    Disagree,
}

/// What a group of bottles says of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// Weighted sum of squares about the weighted mean.
    pub chi_squared: f64,
    /// Probability of one as large by the stated uncertainties alone.
    pub p: f64,
    /// The word.
    pub agreement: Agreement,
    /// The one without which the others agree; none where they agree as they are, where there are two, and where it
    /// cannot be told.
    pub odd: Option<usize>,
    /// The two that lie farthest apart, lower first.
    pub farthest: [usize; 2],
}

/// Bottles of one water.
#[derive(Debug, Clone)]
pub struct Bottles {
    values: Vec<f64>,
    /// Variance of each difference, and its degrees of freedom, row by row.
    differences: Vec<(f64, f64)>,
}

impl Bottles {
    /// From the values and the difference of each pair of them. `difference` is asked once a pair, the lower place
    /// first.
    pub fn new(values: Vec<f64>, difference: impl Fn(usize, usize) -> Measured) -> Self {
        let n = values.len();
        let mut differences = vec![(0.0, f64::INFINITY); n * n];
        for i in 0..n {
            for j in i + 1..n {
                let d = difference(i, j);
                // Values that are stated without any spread still differ by rounding, a millionth of a millionth part; and
                // a variance has to be squared without vanishing.
                let least = (1e-12 * values[i].abs().max(values[j].abs())).powi(2).max(1e-100);
                let of_pair = ((d.u * d.u).max(least), d.dof);
                differences[i * n + j] = of_pair;
                differences[j * n + i] = of_pair;
            }
        }
        Self { values, differences }
    }

    fn variance(&self, i: usize, j: usize) -> f64 {
        self.differences[i * self.values.len() + j].0
    }

    /// What each bottle does not share with the others, as variance.
    pub fn own_variances(&self) -> Vec<f64> {
        self.of_each(|i, j| self.variance(i, j))
    }

    /// Parts x_i of bottles of which every pair holds x_i + x_j, solved in the mean. One that came out at next to nothing
    /// (its pairs contradict each other) gets a thousandth of the mean.
    fn of_each(&self, of_pair: impl Fn(usize, usize) -> f64) -> Vec<f64> {
        let n = self.values.len();
        let of_row = |i: usize| (0..n).filter(|j| *j != i).map(|j| of_pair(i, j)).sum::<f64>();
        let all: f64 = (0..n).map(of_row).sum::<f64>() / 2.0;
        if n < 3 {
            return vec![all / 2.0; n];
        }
        let count = n as f64;
        let sum = all / (count - 1.0);
        (0..n).map(|i| ((of_row(i) - sum) / (count - 2.0)).max(1e-3 * sum / count)).collect()
    }

    /// Whether they agree; none for fewer than two.
    pub fn compare(&self) -> Option<Compared> {
        let (chi_squared, p, nu) = self.test()?;
        let agreement = word(p, nu);
        let mut odd = vec![];
        if agreement != Agreement::Agree && self.values.len() > 2 {
            odd = (0..self.values.len()).filter(|i| self.without(*i).agree()).collect();
        }
        Some(Compared {
            chi_squared,
            p,
            agreement,
            // Of two that could each be the odd one neither is named.
            odd: if let [one] = odd[..] { Some(one) } else { None },
            farthest: self.farthest(),
        })
    }

    fn agree(&self) -> bool {
        self.test().is_none_or(|(_, p, nu)| word(p, nu) == Agreement::Agree)
    }

    fn without(&self, out: usize) -> Self {
        let n = self.values.len();
        let kept: Vec<usize> = (0..n).filter(|i| *i != out).collect();
        Self {
            values: kept.iter().map(|i| self.values[*i]).collect(),
            differences: kept.iter().flat_map(|i| kept.iter().map(move |j| self.differences[i * n + j])).collect(),
        }
    }

    /// Q, its probability, and the degrees of freedom that the uncertainties were known with.
    fn test(&self) -> Option<(f64, f64, f64)> {
        let n = self.values.len();
        if n < 2 {
            return None;
        }
        let chi_squared = self.chi_squared();
        let own = self.own_variances();
        let all: f64 = own.iter().map(|v| 1.0 / v).sum();
        // v²/ν of a pair is that of both bottles together (Welch and Satterthwaite).
        let doubts = self.of_each(|i, j| welch_term(self.variance(i, j), self.differences[i * n + j].1));
        let part = |i: usize| (1.0 - 1.0 / (own[i] * all)).powi(2) * doubts[i] / (own[i] * own[i]);
        let a: f64 = (0..n).map(part).sum();
        let (count, over) = (n as f64, (n - 1) as f64);
        if a == 0.0 {
            return Some((chi_squared, chi2::sf(chi_squared, over), f64::INFINITY));
        }
        let squares = count * count - 1.0;
        let nu = squares / (3.0 * a);
        let statistic = chi_squared / over / (1.0 + 2.0 * (count - 2.0) / squares * a);
        Some((chi_squared, f::sf(statistic, over, nu), nu))
    }

    /// dᵀ·S⁻¹·d by Cholesky's factor of S: the squares of L⁻¹·d.
    fn chi_squared(&self) -> f64 {
        let m = self.values.len() - 1;
        let s = |i: usize, j: usize| {
            let both = if i == j { 0.0 } else { self.variance(i + 1, j + 1) };
            0.5 * (self.variance(i + 1, 0) + self.variance(j + 1, 0) - both)
        };
        let mut l = vec![0.0; m * m];
        let mut y = vec![0.0; m];
        for i in 0..m {
            for j in 0..=i {
                let known: f64 = (0..j).map(|k| l[i * m + k] * l[j * m + k]).sum();
                let left = s(i, j) - known;
                // Pairs that contradict each other leave nothing: a billionth keeps the root real.
                l[i * m + j] = if i == j { left.max(1e-9 * s(i, i)).sqrt() } else { left / l[j * m + j] };
            }
            let known: f64 = (0..i).map(|k| l[i * m + k] * y[k]).sum();
            y[i] = (self.values[i + 1] - self.values[0] - known) / l[i * m + i];
        }
        y.iter().map(|y| y * y).sum()
    }

    fn farthest(&self) -> [usize; 2] {
        let places = 0..self.values.len();
        let by_value = |a: &usize, b: &usize| self.values[*a].total_cmp(&self.values[*b]);
        [places.clone().min_by(by_value).unwrap_or(0), places.max_by(by_value).unwrap_or(0)]
    }

    /// Weights of the common value, which add up to one: 1/v_i of what each bottle does not share.
    pub fn weights(&self) -> Vec<f64> {
        if self.values.len() == 1 {
            return vec![1.0];
        }
        let of: Vec<f64> = self.own_variances().iter().map(|v| 1.0 / v).collect();
        let all: f64 = of.iter().sum();
        of.iter().map(|w| w / all).collect()
    }

    /// By how much the variance that the bottles do not share is too small for their scatter (Birge 1932, Phys. Rev.
    /// 40:207): Q/(n−1), never under one.
    pub fn widening(&self) -> f64 {
        match self.values.len() {
            0 | 1 => 1.0,
            n => (self.chi_squared() / (n - 1) as f64).max(1.0),
        }
    }
}

/// By the level of two and of three standard uncertainties at these degrees of freedom.
fn word(p: f64, nu: f64) -> Agreement {
    let act = 2.0 * t::sf(ACTION_OVER_WARNING * t::upper_quantile(0.5 * WARNING, nu), nu);
    if p > WARNING {
        Agreement::Agree
    } else if p > act {
        Agreement::Nearly
    } else {
        Agreement::Disagree
    }
}
