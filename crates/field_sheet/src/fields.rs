//! The fields of the sheet: their order and words, the same on the phone and on paper.

use message::{Spoken, caution};
use serde::Serialize;

/// A field's words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Words {
    /// Name of the field in script and page.
    pub id: &'static str,
    /// What the person reads.
    pub label: &'static str,
    /// What to think of; may be empty.
    pub hint: &'static str,
}

const fn words(id: &'static str, label: &'static str, hint: &'static str) -> Words {
    Words { id, label, hint }
}

/// Once a trip.
pub const TRIP: &[Words] = &[
    words("who", "Who holds the phone", ""),
    words("persons", "Who is there", ""),
    words("weather", "Weather", ""),
    words("wind", "Wind", "Beaufort"),
    words("dust", "Dust", ""),
    words("road_salt", "Road salt", ""),
    words("engines", "Engines near by", ""),
    words("trip_note", "Note", ""),
];

/// Once a well.
pub const WELL: &[Words] = &[
    words("state", "Open or shut", "since when"),
    words("fills", "Timed fills", "three or more"),
    words("contact", "Contact with the pipe", ""),
    words("readings", "Readings", "3 to 5 min apart, until steady"),
    words("air", "Particle count", "all particles of at least the size"),
];

/// Once a bottle: at most twelve entries.
pub const BOTTLE: &[Words] = &[
    words("code", "1 Code", ""),
    words("sampler", "2 Clean hands", ""),
    words("bags_open", "3 Bags open", ""),
    words("opened", "4 Opened", ""),
    words("rinsed", "5 Rinsed", ""),
    words("filled", "6 Filled", ""),
    words("closed", "7 Closed", ""),
    words("bags_closed", "8 Bags closed", ""),
    words("filter", "9 Filter", ""),
    words("volume", "10 Volume", "where not the bottle's own"),
    words("acid", "11 Acid", ""),
    words("note", "12 Note", "what went otherwise"),
];

/// Custody.
pub const BOX: &[Words] = &[
    words("box_step", "Step", ""),
    words("box_person", "In whose hands", ""),
    words("box_place", "Place", ""),
    words("box_temperature", "Temperature in the box, °C", ""),
    words("box_seal", "Seal", ""),
];

/// What can be chosen by a tap, by field.
pub const CHOICES: &[(&str, &[&str])] = &[
    ("weather", &["dry", "cloud", "drizzle", "rain", "snow", "fog"]),
    ("wind", &["calm", "1 to 2", "3 to 4", "5 and more"]),
    ("dust", &["none", "some", "much"]),
    ("road_salt", &["none", "old", "fresh"]),
    ("engines", &["none", "car parked", "cars passing", "lorries", "tractor", "generator"]),
    ("box_step", &["sealed", "handed over", "received", "opened", "acidified"]),
    ("box_place", &["at the car", "on the way", "laboratory"]),
    ("acid_place", &["laboratory", "at the well"]),
    ("air_place", &["cabinet", "open-air", "room"]),
];

/// Volumes of the containers of timed fills, L.
pub const CONTAINERS_L: &[f64] = &[0.5, 1.0, 2.0, 5.0, 10.0, 20.0];
/// Volumes of air that common counters draw, L: a tenth of a cubic foot, a cubic foot, and round ones.
pub const AIR_VOLUMES_L: &[f64] = &[2.83, 28.3, 56.6, 100.0];
/// Sizes that common counters tell apart, µm.
pub const SIZES_UM: &[f64] = &[0.3, 0.5, 1.0, 5.0];

/// On every sheet.
pub fn cautions() -> Vec<String> {
    vec![caution::Sheet.text()]
}

/// At a well.
pub fn well_caution() -> String {
    caution::SheetWell.text()
}

/// At the acid.
pub fn acid_caution() -> String {
    caution::SheetAcid.text()
}

/// Words by id.
pub fn all() -> impl Iterator<Item = &'static Words> {
    [TRIP, WELL, BOTTLE, BOX].into_iter().flatten()
}
