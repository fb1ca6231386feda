//! A programme of 10 wells × 60 analytes × 25 years: 300 monthly trips, on each a sample of every well and a field
//! blank, 198,000 results, with readings and timed fills at each well. All invented, from a counter-based generator: the
//! same programme each time.

use intake::entry::{TypedRow, enter};
use programme::work;
use record::by::By;
use record::store::Store;
use std::fmt::Write as _;
use std::path::Path;

/// Wells.
pub const WELLS: usize = 10;
/// Monthly trips of 25 years.
pub const TRIPS: usize = 300;

/// 52 trace elements in ng/L, 7 major constituents in mg/L, and alkalinity.
const TRACE: &[&str] = &[
    "Li", "Be", "B", "Al", "Ti", "V", "Cr", "Mn", "Fe", "Co", "Ni", "Cu", "Zn", "Ga", "Ge", "As", "Se", "Rb", "Sr",
    "Y", "Zr", "Nb", "Mo", "Ag", "Cd", "In", "Sn", "Sb", "Te", "Cs", "Ba", "La", "Ce", "Pr", "Nd", "Sm", "Eu", "Gd",
    "Tb", "Dy", "Ho", "Er", "Tm", "Yb", "Lu", "Hf", "W", "Tl", "Pb", "Bi", "Th", "U",
];
const MAJOR: &[(&str, f64)] =
    &[("Ca", 52.0), ("Mg", 11.0), ("Na", 23.0), ("K", 2.1), ("Cl", 31.0), ("SO4", 24.0), ("Si", 7.0)];
const ALKALINITY: f64 = 150.0;

/// Splitmix64 (Steele, Lea, Flood 2014, from memory): a number for a place, whatever came before.
fn mixed(place: u64) -> f64 {
    let mut z = place.wrapping_add(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
}

fn day(trip: usize) -> String {
    format!("{:04}-{:02}-15", 2001 + trip / 12, trip % 12 + 1)
}

fn wells() -> Vec<TypedRow> {
    let mut rows = vec![TypedRow::of("person").with("name", "Marit Osk")];
    rows.push(TypedRow::of("site").with("name", "Large levels").with("invented", "1"));
    for w in 0..WELLS {
        let name = format!("W-{w}");
        rows.push(TypedRow::of("well").with("name", &name).with("site", "Large levels").with("medium", "groundwater"));
        for (from, to, kind) in [(0, 60, "casing"), (60, 70, "screen")] {
            let at = TypedRow::of("well_section").with("well", &name).with("from_m", from.to_string());
            rows.push(
                at.with("to_m", to.to_string()).with("radius_m", "0.05").with("kind", kind).with("material", "steel"),
            );
        }
    }
    rows
}

/// Trips, bottles, readings and fills.
fn visits() -> Vec<TypedRow> {
    let (mut trips, mut bottles, mut readings, mut fills) = (vec![], vec![], vec![], vec![]);
    for t in 0..TRIPS {
        let (trip, day) = (format!("T-{}", &day(t)[..7]), day(t));
        trips.push(TypedRow::of("trip").with("name", &trip).with("starts", format!("{day} 08:00")));
        let blank = TypedRow::of("bottle").with("label", format!("{trip}-FB")).with("kind", "field-blank");
        bottles
            .push(blank.with("trip", &trip).with("filled_at", format!("{day} 08:30")).with("fraction", "unfiltered"));
        for w in 0..WELLS {
            let (well, at) = (format!("W-{w}"), format!("{day} {:02}:00", 9 + w % 8));
            let bottle = TypedRow::of("bottle").with("label", format!("{trip}-{w}")).with("kind", "sample");
            bottles.push(
                bottle.with("trip", &trip).with("well", &well).with("filled_at", &at).with("fraction", "unfiltered"),
            );
            for (n, (quantity, value, unit)) in [("temperature", 9.5, "°C"), ("pH", 7.6, "pH")].into_iter().enumerate()
            {
                let x = value + 0.2 * (mixed((t * 1000 + w * 10 + n) as u64) - 0.5);
                let row = TypedRow::of("field_reading").with("trip", &trip).with("well", &well).with("at", &at);
                readings.push(row.with("quantity", quantity).with("value", format!("{x:.2}")).with("unit", unit));
            }
            for n in 0..2 {
                let s = 25.0 + mixed((t * 77 + w * 7 + n) as u64);
                let row = TypedRow::of("fill").with("trip", &trip).with("well", &well).with("at", &at);
                fills.push(row.with("volume_L", "10").with("seconds", format!("{s:.1}")));
            }
        }
    }
    trips.into_iter().chain(bottles).chain(readings).chain(fills).collect()
}

/// The laboratory's table: a row a bottle, analytes across.
fn table() -> String {
    let mut out = String::from("bottle,fraction,laboratory");
    for a in TRACE {
        let _ = write!(out, ",{a} (ng/L)");
    }
    for (a, _) in MAJOR {
        let _ = write!(out, ",{a} (mg/L)");
    }
    out += ",alkalinity (mg/L as CaCO3)";
    out.push('\n');
    for t in 0..TRIPS {
        let trip = format!("T-{}", &day(t)[..7]);
        for w in 0..=WELLS {
            let blank = w == WELLS;
            let label = if blank { format!("{trip}-FB") } else { format!("{trip}-{w}") };
            let _ = write!(out, "{label},unfiltered,Laboratory {}", t / 120 + 1);
            for n in 0..=TRACE.len() + MAJOR.len() {
                out.push(',');
                let r = mixed((t * 100_000 + w * 1000 + n) as u64);
                let major = |n: usize| MAJOR.get(n).map_or(ALKALINITY, |m| m.1);
                let level = if n < TRACE.len() { 0.5 * 1.11f64.powf(n as f64) } else { major(n - TRACE.len()) };
                let x = level * (1.0 + 0.1 * w as f64) * (0.8 + 0.4 * r) * if blank { 0.02 } else { 1.0 };
                // The limit fell twice in the years.
                let limit = if n < TRACE.len() { [1.5, 0.8, 0.3][t / 120] } else { 0.02 };
                let _ = if x < limit { write!(out, "<{limit}") } else { write!(out, "{x:.3}") };
            }
            out.push('\n');
        }
    }
    out
}

/// Builds it.
pub fn build(path: &Path) -> Store {
    let by = By { person: "Marit Osk", at: "2026-01-15T12:00:00Z" };
    let mut store = programme::start::start(path, by.person, by.at).unwrap();
    let rows: Vec<TypedRow> = wells().into_iter().chain(visits()).collect();
    enter(&mut store, by, "an invented programme of 25 years", &rows).unwrap();
    let csv = path.with_extension("csv");
    std::fs::write(&csv, table()).unwrap();
    let inputs = intake::import::inputs(&store, std::slice::from_ref(&csv), "laboratory-wide").unwrap();
    intake::import::import(&mut store, &inputs, by.person, by.at).unwrap();
    work::recompute(&mut store, None, by).unwrap();
    std::fs::remove_file(&csv).unwrap();
    store
}
