//! The fields of the sheet: their order, the same on the phone and on paper, and all its words in every language.
//!
//! The words are the room `sheet` of the catalogues. The phone carries them all, and a person changes the language on it;
//! what is kept stays in the words of the record ("dry", "trip-blank"), whatever language showed it.

use message::{DECLARED, Lang, Message, Spoken, caution, language};
use record::model::BottleKind;
use serde_json::json;
use std::collections::BTreeMap;

/// Once a trip.
pub const TRIP: &[&str] = &["who", "persons", "weather", "wind", "dust", "road_salt", "engines", "trip_note"];

/// Once a well.
pub const WELL: &[&str] = &["state", "fills", "contact", "readings", "meter", "air"];

/// Once a bottle: at most twelve entries.
pub const BOTTLE: &[&str] = &[
    "code",
    "sampler",
    "bags_open",
    "opened",
    "rinsed",
    "filled",
    "closed",
    "bags_closed",
    "filter",
    "volume",
    "acid",
    "note",
];

/// Custody.
pub const BOX: &[&str] = &["box_step", "box_person", "box_place", "box_temperature", "box_seal"];

/// What can be chosen by a tap, by field, in the words that are kept.
pub const CHOICES: &[(&str, &[&str])] = &[
    ("weather", &["dry", "cloud", "drizzle", "rain", "snow", "fog"]),
    ("wind", &["calm", "1 to 2", "3 to 4", "5 and more"]),
    ("dust", &["none", "some", "much"]),
    ("road_salt", &["none", "old", "fresh"]),
    ("engines", &["none", "car parked", "cars passing", "lorries", "tractor", "generator"]),
    ("box_step", &["sealed", "handed over", "received", "opened", "acidified"]),
    ("box_place", &["at the car", "on the way", "laboratory"]),
    ("box_seal", &["whole", "broken"]),
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

/// What a person reads over a field, in the language that is spoken now.
pub fn label(field: &str) -> String {
    Message::named("sheet", &format!("field-{field}")).expect("every field has its words").text()
}

/// What to think of at a field; may be empty.
pub fn hint(field: &str) -> String {
    Message::named("sheet", &format!("hint-{field}")).map_or_else(String::new, |m| m.text())
}

/// A code of the record in words: a kind of bottle, a quantity read at the well, a choice of [`CHOICES`]; what a person
/// wrote stays as it is.
pub fn word(code: &str) -> String {
    let rooms = [("kind", code.to_string()), ("condition", code.to_string()), ("sheet", format!("word-{code}"))];
    rooms.into_iter().find_map(|(room, key)| Message::named(room, &key)).map_or_else(|| code.to_string(), |m| m.text())
}

/// Which part of the water: "unfiltered", or the pore size that the record writes as "0.45 um".
pub fn fraction(text: &str) -> String {
    match text.strip_suffix(" um").and_then(|pore| pore.parse::<f64>().ok()) {
        Some(pore) => format!("{} µm", number(pore)),
        None => word(text),
    }
}

/// All digits of a number that a person or a table gave, with the decimal sign of the language that is spoken now.
pub fn number(x: f64) -> String {
    language().number(&x.to_string())
}

/// Everything that the phone says, by language and key: the messages of the room `sheet` but those of paper, where an
/// argument stands as `{name}`; kinds of bottles, quantities and cautions beside them.
pub fn on_the_phone() -> BTreeMap<&'static str, BTreeMap<String, String>> {
    Lang::ALL.map(|l| (l.code(), message::with_language(l, || spoken(l)))).into_iter().collect()
}

fn spoken(language: Lang) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    for (id, arguments) in DECLARED {
        let Some(key) = id.strip_prefix("sheet-").filter(|k| !k.starts_with("paper-")) else { continue };
        let args: BTreeMap<_, _> =
            arguments.iter().map(|(name, kind)| (*name, json!({ (*kind): format!("{{{name}}}") }))).collect();
        let made: Message = serde_json::from_value(json!({ "id": id, "args": args })).expect("all arguments are names");
        out.insert(key.to_string(), made.in_language(language));
    }
    let codes = BottleKind::ALL.iter().map(|k| k.word());
    for code in codes.chain(assessment::field_checks::WATCHED.map(|w| w.0)) {
        out.insert(format!("word-{}", key_of(code)), word(code));
    }
    for (key, text) in [("trip", cautions().remove(0)), ("well", well_caution()), ("acid", acid_caution())] {
        out.insert(format!("caution-{key}"), text);
    }
    out.insert("name".into(), language.name());
    out.insert("decimal-sign".into(), language.number("."));
    out
}

/// A code as a key of the catalogues writes it.
fn key_of(code: &str) -> String {
    code.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect()
}

/// All fields.
pub fn all() -> impl Iterator<Item = &'static str> {
    [TRIP, WELL, BOTTLE, BOX].into_iter().flatten().copied()
}
