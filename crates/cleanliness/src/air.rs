//! How clean was the air over the open bottle, and what can this count show?
//!
//! In: cumulative particle counts at sizes in µm (all particles of at least that size), the air
//! sampled in litres or cubic feet. Out: concentrations per m³ with exact one-sided 95 % bounds,
//! the class of ISO 14644-1:2015 whose limit the counts stay under, the class that this volume
//! can *show*, and the volume needed to show another.
//!
//! Method: Table 1 of ISO 14644-1:2015 (`reference/iso14644_table1_2015.csv`, most cells
//! recalled); between its sizes the standard's formula C = 10^N·(0.1/D)^2.08, to three digits.
//! Smallest single sample 20/C, at least 2 L and one minute (annex A of the standard).
//! Zero counted is not zero: the exact Poisson bound stands beside every reading.
//!
//! Valid for 0.1 to 5 µm and classes 1 to 9; other sizes keep their concentration and get no
//! class. One place and one count is a reading "equivalent to the class limit", never a
//! classification of a cabinet. Checked in `tests/validation_air.rs`.

use crate::Error;
use message::{Message, Name, Shown, air as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use serde::{Deserialize, Serialize};
use statistics::{binomial, poisson};
use std::sync::LazyLock;

/// Litres in a cubic foot.
// International foot of 1959: 0.3048³ m³, exact.
pub const LITRES_PER_CUBIC_FOOT: f64 = 28.316_846_592;

/// Particles that a sample must be able to hold at the class limit.
// ISO 14644-1:2015, A.4.4; recalled.
const PARTICLES_TO_SHOW: f64 = 20.0;

/// Smallest single sample, L.
// ISO 14644-1:2015, A.4.4; recalled.
const LEAST_VOLUME_L: f64 = 2.0;

/// Shortest single sample, min.
// ISO 14644-1:2015, A.4.4; recalled.
const LEAST_MINUTES: f64 = 1.0;

/// Exponent of particle size in the formula of the classes.
// ISO 14644-1:2015, formula (1); recalled.
const SIZE_EXPONENT: f64 = 2.08;

/// Particles of at least this size that the counter saw.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Count {
    /// Size, µm: every particle of at least this size is counted (cumulative).
    pub size_um: f64,
    /// Particles counted.
    pub count: u64,
}

/// One sample of air through a particle counter.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AirSample {
    /// Cumulative counts, any sizes.
    pub counts: Vec<Count>,
    /// Air drawn through the counter, L.
    pub volume_l: f64,
    /// How long it was drawn, min, where it was noted.
    pub minutes: Option<f64>,
}

/// What one size of a sample says.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SizeReading {
    /// Size, µm.
    pub size_um: f64,
    /// Particles counted.
    pub count: u64,
    /// Counted per m³.
    pub per_m3: f64,
    /// Exact lower bound, one-sided 95 %, per m³.
    pub lower_95_per_m3: f64,
    /// Exact upper bound, one-sided 95 %, per m³: 2.996/V after zero counts.
    pub upper_95_per_m3: f64,
    /// The strictest class whose limit at this size the count stays under.
    pub under_limit_of_class: Option<u8>,
    /// The strictest class that this volume can show at this size with this count.
    pub shown_class: Option<u8>,
    /// The strictest class whose limit the upper bound stays under.
    pub bounded_class: Option<u8>,
    /// N of the formula at the counted concentration; none after zero counts or outside 0.1–5 µm.
    pub equivalent_class: Option<f64>,
}

/// What a sample says.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AirReading {
    /// One entry a size, in rising size.
    pub readings: Vec<SizeReading>,
    /// Air sampled, L.
    pub volume_l: f64,
    /// The strictest class whose limits the counts stay under at every size that has a limit in it.
    pub under_limit_of_class: Option<u8>,
    /// The strictest class that the counts stay under and that the volume is large enough to show.
    pub shown_class: Option<u8>,
    /// The size at which it is shown, µm.
    pub shown_at_size_um: Option<f64>,
    /// The strictest class under whose limits all upper bounds stay.
    pub bounded_class: Option<u8>,
}

struct Cell {
    class: u8,
    size_um: f64,
    limit: Option<f64>,
    provenance: &'static str,
}

static TABLE: LazyLock<Vec<Cell>> = LazyLock::new(|| {
    include_str!("../../../reference/iso14644_table1_2015.csv")
        .lines()
        .filter(|l| !l.starts_with('#'))
        .skip(1)
        .map(|line| {
            let f: Vec<&'static str> = line.split(',').collect();
            Cell {
                class: f[0].parse().expect("the table's class is a number"),
                size_um: f[1].parse().expect("the table's size is a number"),
                limit: f[2].parse().ok(),
                provenance: f[4],
            }
        })
        .collect()
});

/// Highest concentration of a class at a size, particles per m³.
///
/// At the sizes of Table 1 (0.1, 0.2, 0.3, 0.5, 1, 5 µm) the printed value; between them
/// C = 10^N·(0.1/D)^2.08 to three digits, where the class has printed limits on both sides.
/// None where the table gives no limit: the class cannot be judged by that size.
pub fn class_limit(class: u8, size_um: f64) -> Option<f64> {
    let cell = |size: f64| TABLE.iter().find(|c| c.class == class && c.size_um == size);
    if let Some(c) = cell(size_um) {
        return c.limit;
    }
    let sizes = || TABLE.iter().filter(|c| c.class == class);
    let below = sizes().rfind(|c| c.size_um < size_um)?;
    let above = sizes().find(|c| c.size_um > size_um)?;
    below.limit.and(above.limit)?;
    Some(three_digits(formula_limit(f64::from(class), size_um)))
}

/// How the limit of a class at a size is known: the provenance mark of the table.
pub fn class_limit_provenance(class: u8, size_um: f64) -> &'static str {
    TABLE
        .iter()
        .find(|c| c.class == class && c.size_um == size_um)
        .map_or("computed by the standard's formula", |c| c.provenance)
}

/// The formula of the classes, C = 10^N·(0.1/D)^2.08 per m³, D in µm, not rounded.
pub fn formula_limit(class: f64, size_um: f64) -> f64 {
    libm::pow(10.0, class) * libm::pow(0.1 / size_um, SIZE_EXPONENT)
}

fn three_digits(x: f64) -> f64 {
    let scale = libm::pow(10.0, libm::floor(libm::log10(x)) - 2.0);
    (x / scale).round() * scale
}

/// Smallest single sample that can show a class at a size, L: 20/C, at least 2 L.
/// None where the class has no limit at that size.
pub fn volume_to_show_l(class: u8, size_um: f64) -> Option<f64> {
    class_limit(class, size_um).map(|c| (PARTICLES_TO_SHOW / c * 1000.0).max(LEAST_VOLUME_L))
}

/// Reads a sample.
///
/// # Errors
/// [`Error::OutOfRange`] for a volume or size that is not positive, a size given twice, counts
/// that rise with size; [`Error::TooFew`] without counts.
///
/// ```
/// use cleanliness::air::{AirSample, Count, read};
/// // No particle in a cubic foot: class 5 is shown; class 4 is not, the sample was too small for it.
/// let sample = AirSample { counts: vec![Count { size_um: 0.5, count: 0 }], volume_l: 28.3, minutes: Some(1.0) };
/// let air = read(&sample)?;
/// assert_eq!(air.shown_class, Some(5));
/// // Not "none": with 95 % up to 106 per m³.
/// assert!((air.readings[0].upper_95_per_m3 - 105.9).abs() < 0.1);
/// # Ok::<(), cleanliness::Error>(())
/// ```
pub fn read(sample: &AirSample) -> Result<AirReading, Error> {
    let counts = checked(sample)?;
    let readings: Vec<SizeReading> = counts.iter().map(|c| one_size(*c, sample.volume_l)).collect();
    let under = strictest(|class| fits(&readings, class, |r| r.per_m3));
    let bounded = strictest(|class| fits(&readings, class, |r| r.upper_95_per_m3));
    let shown = strictest(|class| fits(&readings, class, |r| r.per_m3) && shown_at(&readings, class, sample).is_some());
    Ok(AirReading {
        shown_at_size_um: shown.and_then(|class| shown_at(&readings, class, sample)),
        under_limit_of_class: under,
        shown_class: shown,
        bounded_class: bounded,
        readings,
        volume_l: sample.volume_l,
    })
}

/// The strictest class that meets a condition.
fn strictest(condition: impl Fn(u8) -> bool) -> Option<u8> {
    (1..=9).find(|c| condition(*c))
}

/// Do all sizes that have a limit in the class stay under it, one at least having a limit?
fn fits(readings: &[SizeReading], class: u8, of: impl Fn(&SizeReading) -> f64) -> bool {
    let mut judged =
        readings.iter().filter_map(|r| class_limit(class, r.size_um).map(|limit| of(r) <= limit)).peekable();
    judged.peek().is_some() && judged.all(|under| under)
}

/// The smallest counted size at which the volume is large enough for the class.
fn shown_at(readings: &[SizeReading], class: u8, sample: &AirSample) -> Option<f64> {
    if sample.minutes.is_some_and(|m| m < LEAST_MINUTES) {
        return None;
    }
    readings
        .iter()
        .find(|r| volume_to_show_l(class, r.size_um).is_some_and(|v| large_enough(sample.volume_l, v)))
        .map(|r| r.size_um)
}

/// Is the volume enough? A volume noted to three digits (28.3 L, 5.68 L) counts as what it names.
fn large_enough(volume_l: f64, needed_l: f64) -> bool {
    volume_l >= needed_l * (1.0 - 1e-3)
}

fn one_size(c: Count, volume_l: f64) -> SizeReading {
    let per_m3 = 1000.0 / volume_l;
    let counted = c.count as f64 * per_m3;
    let upper = poisson::upper_limit(c.count, 0.05) * per_m3;
    let class_of = |x: f64| strictest(|n| class_limit(n, c.size_um).is_some_and(|l| x <= l));
    let shown = strictest(|n| {
        class_limit(n, c.size_um).is_some_and(|l| counted <= l)
            && volume_to_show_l(n, c.size_um).is_some_and(|v| large_enough(volume_l, v))
    });
    let in_range = (0.1..=5.0).contains(&c.size_um);
    SizeReading {
        size_um: c.size_um,
        count: c.count,
        per_m3: counted,
        lower_95_per_m3: poisson::lower_limit(c.count, 0.05) * per_m3,
        upper_95_per_m3: upper,
        under_limit_of_class: class_of(counted),
        shown_class: shown,
        bounded_class: class_of(upper),
        equivalent_class: (in_range && c.count > 0)
            .then(|| libm::log10(counted) + SIZE_EXPONENT * libm::log10(c.size_um / 0.1)),
    }
}

/// Most particles of a sample.
// The programme's own choice: a counter at its fastest, 1e6 particles per s, takes thirty years to them.
const MOST_COUNTS: u64 = 1_000_000_000_000_000;

fn checked(sample: &AirSample) -> Result<Vec<Count>, Error> {
    if !(sample.volume_l > 0.0 && sample.volume_l.is_finite()) {
        return Err(Error::out_of_range(
            "sampled volume",
            format!("{} L", sample.volume_l),
            "more than 0 L; a count without its volume has no concentration",
        ));
    }
    if let Some(m) = sample.minutes.filter(|m| *m <= 0.0 || !m.is_finite()) {
        return Err(Error::out_of_range("sampling time", format!("{m} min"), "more than 0 min"));
    }
    if sample.counts.is_empty() {
        return Err(Error::TooFew {
            what: "particle counts".into(),
            have: 0,
            need: 1,
            hint: "give size in µm and particles counted".into(),
        });
    }
    let mut counts = sample.counts.clone();
    counts.sort_by(|a, b| a.size_um.total_cmp(&b.size_um));
    for c in &counts {
        if c.count > MOST_COUNTS {
            return Err(Error::out_of_range(
                format!("count at {} µm", c.size_um),
                c.count,
                format!("at most {MOST_COUNTS} particles"),
            ));
        }
        if !(c.size_um > 0.0 && c.size_um.is_finite()) {
            return Err(Error::out_of_range("particle size", format!("{} µm", c.size_um), "more than 0 µm"));
        }
    }
    for w in counts.windows(2) {
        if w[0].size_um == w[1].size_um {
            return Err(Error::out_of_range(
                "particle size",
                format!("{} µm twice", w[0].size_um),
                "each size once; add the counts and the volumes of repeated samples",
            ));
        }
        if w[1].count > w[0].count {
            return Err(Error::out_of_range(
                format!("count at {} µm", w[1].size_um),
                w[1].count,
                format!(
                    "at most {}, the count at {} µm: counts are cumulative, all particles of at least the size; add up the channels of a counter that lists them apart",
                    w[0].count, w[0].size_um
                ),
            ));
        }
    }
    Ok(counts)
}

/// Adds repeated samples of one place: counts and volumes are summed size by size.
///
/// # Errors
/// [`Error::TooFew`] without samples, [`Error::OutOfRange`] when the samples were counted at different sizes.
pub fn pool(samples: &[AirSample]) -> Result<AirSample, Error> {
    let Some(first) = samples.first() else {
        return Err(Error::TooFew {
            what: "air samples".into(),
            have: 0,
            need: 1,
            hint: "count the air at least once".into(),
        });
    };
    let mut counts = checked(first)?;
    let mut volume_l = first.volume_l;
    let mut minutes = first.minutes;
    for s in &samples[1..] {
        let more = checked(s)?;
        if more.len() != counts.len() || more.iter().zip(&counts).any(|(a, b)| a.size_um != b.size_um) {
            return Err(Error::out_of_range(
                "particle sizes of repeated samples",
                "different sizes",
                "the same sizes in every sample that is added up",
            ));
        }
        for (c, m) in counts.iter_mut().zip(&more) {
            c.count += m.count;
        }
        volume_l += s.volume_l;
        minutes = minutes.zip(s.minutes).map(|(a, b)| a + b);
    }
    Ok(AirSample { counts, volume_l, minutes })
}

/// How much cleaner one air is than another at one size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Reduction {
    /// Size, µm.
    pub size_um: f64,
    /// Ambient over cabinet; infinite when nothing was counted in the cabinet.
    pub factor: f64,
    /// Exact two-sided 95 % interval of the factor; the upper end may be infinite.
    pub interval_95: (f64, f64),
}

/// Compares cabinet and ambient air at a size that both counted: given the sum of the two counts,
/// the cabinet's part is binomial, and Clopper & Pearson's interval of that part gives the ratio
/// (the conditional test of two Poisson means, Przyborowski & Wilenski 1940, Biometrika 31:313).
///
/// # Errors
/// [`Error::OutOfRange`] when the size is missing in one of them or nothing was counted in either.
pub fn reduction(cabinet: &AirSample, ambient: &AirSample, size_um: f64) -> Result<Reduction, Error> {
    let find = |s: &AirSample, name: &str| {
        checked(s)?.into_iter().find(|c| c.size_um == size_um).map(|c| c.count).ok_or_else(|| {
            Error::out_of_range(
                format!("{name} air"),
                format!("no count at {size_um} µm"),
                "a size that both samples counted",
            )
        })
    };
    let (inside, outside) = (find(cabinet, "cabinet")?, find(ambient, "ambient")?);
    if inside + outside == 0 {
        return Err(Error::out_of_range(
            "counts of cabinet and ambient air",
            "0 and 0",
            "at least one particle in one of them",
        ));
    }
    let tail = |limit: fn(u64, u64, f64) -> f64| limit(inside, inside + outside, 0.025);
    let (low, high) = (tail(binomial::lower_limit), tail(binomial::upper_limit));
    let factor = |p: f64| (1.0 - p) / p * cabinet.volume_l / ambient.volume_l;
    Ok(Reduction {
        size_um,
        factor: factor(inside as f64 / (inside + outside) as f64),
        interval_95: (factor(high), factor(low)),
    })
}

impl AirReading {
    /// The volume needed to show a class at the sizes counted, L, and the size it is for: the
    /// smallest such volume. None where no counted size has a limit in the class.
    pub fn volume_to_show_l(&self, class: u8) -> Option<(f64, f64)> {
        self.readings
            .iter()
            .filter_map(|r| volume_to_show_l(class, r.size_um).map(|v| (v, r.size_um)))
            .min_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// What the count says of the class a programme asks for, as findings of the path.
    pub fn findings(&self, wanted_class: u8) -> Vec<Finding> {
        let mut out = vec![self.class_finding(wanted_class)];
        if let Some(r) = self.readings.iter().find(|r| r.count == 0) {
            out.push(
                Finding::new(
                    Check::AirZeroCount,
                    Outcome::Met,
                    said::NoParticle {
                        size: Shown::as_given(r.size_um, "µm"),
                        volume: Shown::significant(self.volume_l, 3, "L"),
                        upper: Shown::significant(r.upper_95_per_m3, 2, ""),
                    },
                )
                .comparing(message::compared::UpperBound, Amount::below(r.upper_95_per_m3, per_m3())),
            );
        }
        out
    }

    fn of_class(&self, wanted_class: u8) -> (Outcome, Message) {
        let litres = |v| Shown::significant(v, 3, "L");
        let class = |c: u8| Name::from(c.to_string());
        let (wanted, volume) = (class(wanted_class), litres(self.volume_l));
        match (self.under_limit_of_class, self.shown_class) {
            (_, Some(shown)) if shown <= wanted_class => {
                (Outcome::Met, said::ClassShown { wanted, volume, shown: class(shown) }.into())
            }
            (Some(under), _) if under <= wanted_class => match self.volume_to_show_l(wanted_class) {
                Some((needed, size)) => {
                    let (needed, size) = (litres(needed), Shown::as_given(size, "µm"));
                    (Outcome::NotKnown, said::ClassMoreVolume { wanted, volume, needed, size }.into())
                }
                None => (Outcome::NotKnown, said::ClassWithoutLimit { wanted }.into()),
            },
            (Some(under), _) => (Outcome::NotMet, said::ClassExceeded { wanted, under: class(under) }.into()),
            (None, _) if self.readings.iter().any(|r| class_limit(9, r.size_um).is_some()) => {
                (Outcome::NotMet, said::ClassNineExceeded { wanted }.into())
            }
            (None, _) => (Outcome::NotKnown, said::NoSize.into()),
        }
    }

    fn class_finding(&self, wanted: u8) -> Finding {
        let (outcome, says) = self.of_class(wanted);
        let mut finding = Finding::new(Check::AirClass, outcome, says);
        for r in &self.readings {
            finding = finding.comparing(
                message::compared::Particles { size: Shown::as_given(r.size_um, "µm") },
                if r.count == 0 {
                    Amount::below(r.upper_95_per_m3, per_m3())
                } else {
                    let u = (r.count as f64).sqrt() * 1000.0 / self.volume_l;
                    Amount::measured(r.per_m3, u, per_m3())
                },
            );
            if let Some(limit) = class_limit(wanted, r.size_um) {
                finding = finding.comparing(
                    message::compared::LimitOfClass {
                        class: wanted.to_string().into(),
                        size: Shown::as_given(r.size_um, "µm"),
                        known: class_limit_provenance(wanted, r.size_um).into(),
                    },
                    Amount::stated(limit, per_m3()),
                );
            }
        }
        finding
    }
}

fn per_m3() -> Unit {
    Unit::parse("1/m3").expect("a unit of the vocabulary")
}

/// The finding of a bottle whose air was never counted.
pub fn not_counted() -> Finding {
    Finding::new(Check::AirClass, Outcome::NotKnown, said::NotCounted)
}
