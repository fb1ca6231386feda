//! Does the method meet what a limit demands of it?
//!
//! In: the result in the limit's unit, the limit, the quantification limit where it is known. Out: met, not met, not
//! known for the expanded uncertainty (U = 2u) and for the quantification limit. The demand on U holds near the limit,
//! while a result has its u at its own level: taking that u grows with the level and u/level falls, U at the limit lies
//! between the result's own U and its relative U times the limit. What that does not decide is not known.
//! Checked in `tests/limits.rs`.

use crate::compare::Known;
use crate::table::Limit;
use message::{Digits, Message, Share, Shown, limit as said};
use quantity::{Amount, Measured, Outcome};
use serde::Serialize;

/// One demand and what came of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Met {
    /// Met, not met, not known.
    pub outcome: Outcome,
    /// In English.
    pub sentence: String,
    /// The same as a message.
    #[serde(skip)]
    pub message: Message,
}

/// What came of the demands of a limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MethodMet {
    /// On the expanded uncertainty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<Met>,
    /// On the quantification limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantification: Option<Met>,
    /// Where the demands stand.
    pub source: String,
    /// seen or recalled.
    pub provenance: String,
}

impl MethodMet {
    /// Demands that are not met.
    pub fn not_met(&self) -> impl Iterator<Item = &Met> {
        [&self.uncertainty, &self.quantification].into_iter().flatten().filter(|m| m.outcome == Outcome::NotMet)
    }
}

impl Met {
    fn of(outcome: Outcome, message: impl Into<Message>) -> Self {
        let message = message.into();
        Self { outcome, sentence: message.in_english(), message }
    }
}

/// Holds a result (in the limit's unit) to the demands of the limit; none where it makes none.
pub fn method_met(amount: &Amount, limit: &Limit, known: &Known) -> Option<MethodMet> {
    let demand = limit.terms.method_demand.as_ref()?;
    let unit = || limit.unit.to_string();
    let most_u = demand.u_percent.map(|p| 0.01 * p * limit.high).or(demand.u_absolute);
    let uncertainty = most_u.map(|most| {
        let most_u = Shown::as_given(most, unit());
        match amount {
            Amount::Measured(m) => {
                let u = Shown::significant(2.0 * m.u, 2, unit());
                let outcome = match demand.u_percent {
                    Some(_) => u_at_limit(m, limit.high, most),
                    // One that is stated in the unit holds at every level.
                    None if 2.0 * m.u <= most => Outcome::Met,
                    None => Outcome::NotMet,
                };
                match outcome {
                    Outcome::Met => Met::of(Outcome::Met, said::DemandUMet { u, most: most_u }),
                    Outcome::NotMet => Met::of(Outcome::NotMet, said::DemandUNotMet { u, most: most_u }),
                    Outcome::NotKnown => Met::of(Outcome::NotKnown, said::DemandUOpen { u, most: most_u }),
                }
            }
            _ => Met::of(Outcome::NotKnown, said::DemandUNotStated { most: most_u }),
        }
    });
    let quantification = demand.quantification_percent.map(|percent| {
        let share = Share::new(0.01 * percent, Digits::Trimmed(3));
        let most = 0.01 * percent * limit.high;
        match known.quantification_limit {
            None => Met::of(Outcome::NotKnown, said::DemandQuantificationNotStated { share }),
            Some(lq) => {
                let quantified = Shown::significant(lq, 2, unit());
                // What was written down as 30 % of the limit is 30 % of it, to the last digit of a conversion.
                if lq <= most * (1.0 + 1e-9) {
                    Met::of(Outcome::Met, said::DemandQuantificationMet { quantified, share })
                } else {
                    Met::of(Outcome::NotMet, said::DemandQuantificationNotMet { quantified, share })
                }
            }
        }
    });
    Some(MethodMet {
        uncertainty,
        quantification,
        source: demand.source.clone(),
        provenance: demand.provenance.clone(),
    })
}

/// Whether U at the limit is at most `most`, from U at the result's own level.
fn u_at_limit(m: &Measured, limit: f64, most: f64) -> Outcome {
    let own = 2.0 * m.u;
    let scaled = own * limit / m.value.abs();
    let (least, highest) = if own < scaled { (own, scaled) } else { (scaled, own) };
    if highest <= most {
        Outcome::Met
    } else if least > most {
        Outcome::NotMet
    } else {
        Outcome::NotKnown
    }
}
