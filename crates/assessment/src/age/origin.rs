//! Where the water fell, by its stable isotopes: beside the line of rain, and three readings of one δ18O.

use super::gather::Known;
use aquifer::Reason;
use aquifer::age::isotopes::{BesideLine, Line, Readings, Slope, Todays, Water, beside_line, readings};
use record::words::RechargeFact;

/// What δ18O and δ2H say.
#[derive(Debug, Clone, PartialEq)]
pub struct Origin {
    /// Beside the global line of rain: no rain of the site is on record.
    pub beside: Option<BesideLine>,
    /// Season, height, climate: each alone would explain the δ18O.
    pub readings: Option<Readings>,
}

/// None where no δ18O was measured.
pub(super) fn of(known: &Known) -> Result<Option<Origin>, Reason> {
    let Some(d18o) = known.d18o else { return Ok(None) };
    let beside = known.d2h.map(|d2h| beside_line(&Water { d18o, d2h }, &Line::global())).transpose()?;
    let fact = |what| known.fact(what);
    // A range given as one number still has the spread of rain from year to year.
    let rain = |what| fact(what).map(|r| aquifer::age::WithU { u: r.u.max(LEAST_U), ..r });
    let todays = Todays {
        seasons: rain(RechargeFact::WinterRain).zip(rain(RechargeFact::SummerRain)),
        slope: fact(RechargeFact::StationHeight).zip(rain(RechargeFact::YearRain)).map(|(h, d18o)| Slope {
            height_m: h.value,
            d18o,
            per_100_m: None,
        }),
        mean: rain(RechargeFact::YearRain),
    };
    let readings = (todays != Todays::default()).then(|| readings(d18o, &todays)).transpose()?;
    Ok(Some(Origin { beside, readings }))
}

/// Least u of a mean δ18O of rain, ‰: what a single measurement is known to.
const LEAST_U: f64 = 0.1;
