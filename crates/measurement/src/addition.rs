//! Standard addition: the concentration in a sample from its own calibration line.
//!
//! In: amounts added (concentration in the measured solution), signals with or without u, a blank
//! signal, a dilution factor; out: the concentration in the sample with u and degrees of freedom,
//! an interval that keeps the covariance of slope and intercept (Fieller), and the derivation.
//! c = F·(a − y_b)/b; with an exact blank u(c) = F·(s/b)·√(1/n + ȳ²/(b²·S_xx)) (IUPAC terms;
//! Bruce & Gill 1999, J. Chem. Educ. 76:805 on why the covariance belongs in). It corrects
//! effects of the matrix on the slope, not a background on the signal: that needs the blank. The
//! line must be straight from zero through the last addition. Checked in `tests/addition.rs`.

// A flat line is exactly flat.
#![allow(clippy::float_cmp)]

use crate::error::{Error, all_finite};
use crate::line::{EXACT, Estimate, Intercept, Line, Options, Points, Scale};
use crate::ratio::{FiellerInterval, Quotient};
use message::{Message, step, step_measurement as said};
use quantity::{Amount, Contribution, Derivation, Measured, Unit};
use statistics::welch::effective_dof;

/// What was measured.
#[derive(Debug, Clone)]
pub struct Additions<'a> {
    /// Added concentrations in the measured solution, n.
    pub added: &'a [f64],
    /// Signals, n.
    pub signal: &'a [f64],
    /// Standard uncertainties of the signals, n.
    pub u_signal: Option<&'a [f64]>,
    /// Signal of a blank treated like the sample, without analyte; 0 ± 0 where there is none.
    pub blank_signal: Estimate,
    /// Sample concentration over concentration in the measured solution; 1 ± 0 if undiluted.
    pub dilution: Estimate,
    /// Unit of the concentrations.
    pub unit: Unit,
}

/// The result.
#[derive(Debug, Clone, PartialEq)]
pub struct AdditionResult {
    /// Concentration in the sample.
    pub concentration: Measured,
    /// Limits by Fieller at 95 %, of the measured solution times the dilution factor.
    pub interval_95: FiellerInterval,
    /// The line.
    pub line: Line,
    /// How it came to be, with the budget.
    pub derivation: Derivation,
    /// What a reader has to know.
    pub warnings: Vec<String>,
}

impl Additions<'_> {
    /// Evaluates.
    ///
    /// # Errors
    /// As [`Line::fit`]; [`Error::FlatLine`]; [`Error::OutOfRange`] for a line that falls, a negative addition or a
    /// dilution factor at or below zero.
    ///
    /// ```
    /// use measurement::{addition::Additions, line::Estimate};
    /// // A sample with nothing in it: the line starts at the blank's signal, the result is about zero with its u.
    /// let nothing = Additions {
    ///     added: &[0.0, 1.0, 2.0, 3.0],
    ///     signal: &[10.2, 109.0, 211.0, 309.5],
    ///     u_signal: None,
    ///     blank_signal: Estimate { value: 10.0, u: 0.5 },
    ///     dilution: Estimate { value: 1.0, u: 0.0 },
    ///     unit: quantity::Unit::known("ng/L"),
    /// };
    /// let found = nothing.evaluate()?.concentration;
    /// assert!(found.value.abs() < 2.0 * found.u);
    /// # Ok::<(), measurement::error::Error>(())
    /// ```
    pub fn evaluate(&self) -> Result<AdditionResult, Error> {
        if let Some(x) = self.added.iter().find(|x| **x < 0.0) {
            return Err(Error::OutOfRange { what: "added".into(), value: *x, range: "0 or more" });
        }
        all_finite("blank signal", &[self.blank_signal.value, self.blank_signal.u])?;
        if !(self.dilution.value > 0.0 && self.dilution.u >= 0.0) {
            return Err(Error::OutOfRange {
                what: "dilution".into(),
                value: self.dilution.value,
                range: "more than 0",
            });
        }
        let points = Points { x: self.added, y: self.signal, u_y: self.u_signal };
        let line = Line::fit(&points, &Options { intercept: Intercept::Fitted, scale: Scale::Larger })?;
        if line.slope == 0.0 {
            return Err(Error::FlatLine { slope: 0.0 });
        }
        if line.slope < 0.0 {
            return Err(Error::OutOfRange {
                what: "slope of the additions".into(),
                value: line.slope,
                range: "more than 0: the signal rises with what is added",
            });
        }
        let quotient = Quotient {
            numerator: line.intercept - self.blank_signal.value,
            u_numerator: line.u_intercept.hypot(self.blank_signal.u),
            denominator: line.slope,
            u_denominator: line.u_slope,
            covariance: line.covariance,
        };
        let in_solution = quotient.first_order()?;
        let f = self.dilution;
        let value = in_solution.value * f.value;
        let parts: [(Message, f64); 3] = [
            (said::PartAdditionLine.into(), line_part(&line, in_solution.value) * f.value),
            (said::AdditionBlank.into(), self.blank_signal.u / line.slope.abs() * f.value),
            (said::PartDilution.into(), in_solution.value.abs() * f.u),
        ];
        let variance: f64 = parts.iter().map(|p| p.1 * p.1).sum();
        // Only the line brings degrees of freedom.
        let freedom = [line.dof, f64::INFINITY, f64::INFINITY];
        let squares: Vec<_> = parts.iter().zip(freedom).map(|(p, dof)| (p.1 * p.1, dof)).collect();
        let dof = effective_dof(&squares).unwrap_or(f64::INFINITY);
        let concentration = Measured::with_dof(value, variance.sqrt(), dof, self.unit.clone());
        let t = statistics::t::upper_quantile(0.025, line.dof);
        let interval = quotient.fieller(t)?.times(f.value);
        let warnings = self.warnings(&line, in_solution.value, interval);
        let derivation = self.derive(&line, in_solution, &concentration, &parts, variance);
        Ok(AdditionResult { concentration, interval_95: interval, line, derivation, warnings })
    }

    fn warnings(&self, line: &Line, x: f64, interval: FiellerInterval) -> Vec<String> {
        let mut out = Vec::new();
        let points = Points { x: self.added, y: self.signal, u_y: self.u_signal };
        if line.is_exact(&points) {
            out.push(EXACT.into());
        }
        let most = self.added.iter().copied().fold(0.0, f64::max);
        if x > most {
            out.push(format!(
                "the sample holds more ({x:.3}) than the largest addition ({most:.3}): the line is read further out than it was measured; add more"
            ));
        }
        if !matches!(interval, FiellerInterval::Bounded { .. }) {
            out.push("the slope is not distinct from zero: there is no upper limit".into());
        }
        if let Some(fit) = line.lack_of_fit(&points)
            && fit.p < 0.05
        {
            out.push(format!("the additions do not lie on a straight line (lack of fit, p = {:.3})", fit.p));
        }
        out
    }

    fn derive(
        &self,
        line: &Line,
        in_solution: Estimate,
        result: &Measured,
        parts: &[(Message, f64)],
        variance: f64,
    ) -> Derivation {
        let per = Unit::one();
        let mut d = Derivation::new(said::Addition, &["IUPAC terms 1.150", "Bruce & Gill 1999, J. Chem. Educ. 76:805"]);
        let a = d.given(
            said::AdditionIntercept,
            Amount::measured(line.intercept, line.u_intercept, per.clone()),
            said::AdditionFit,
        );
        let b = d.given(
            said::AdditionSlope,
            Amount::measured(line.slope, line.u_slope, per.clone()),
            said::AdditionFitSlope,
        );
        let y = d.given(
            said::AdditionBlank,
            Amount::measured(self.blank_signal.value, self.blank_signal.u, per.clone()),
            step::Input,
        );
        let x = d.step(
            said::AdditionInSolution,
            Amount::measured(in_solution.value, in_solution.u, self.unit.clone()),
            said::AdditionInSolutionFormula,
            "",
            &[a, b, y],
        );
        let f =
            d.given(said::AdditionDilution, Amount::measured(self.dilution.value, self.dilution.u, per), step::Input);
        d.step(said::AdditionInSample, Amount::Measured(result.clone()), said::AdditionInSampleFormula, "", &[x, f]);
        d.budget = parts
            .iter()
            .map(|(name, u)| {
                let share = if variance > 0.0 { u * u / variance } else { 0.0 };
                Contribution::new(name.clone(), *u, share)
            })
            .collect();
        d
    }
}

/// u of a/b by the line alone.
fn line_part(line: &Line, x: f64) -> f64 {
    let variance = line.u_intercept.powi(2) - 2.0 * x * line.covariance + (x * line.u_slope).powi(2);
    variance.max(0.0).sqrt() / line.slope.abs()
}
