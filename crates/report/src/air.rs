//! The air of a trip: cabinet against open air in one picture, and what each count can show.

use assessment::air::{PlaceAir, TripAir};
use assessment::verdict::Rules;
use cleanliness::air::{Reduction, SizeReading, class_limit};
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::air::{self, AirPanel, AirPicture, AirRow};
use figure::{Head, PHONE, WIDE, slug};
use intake::unfit::{self, Unfit};
use message::{Message, Name, Shown, Spoken, air as said, word};
use quantity::Check;
use record::Error;
use record::model::Trip;
use record::store::Store;
use record::words::AirPlace;

/// Table and picture, and the counts that cannot be used; none where nobody counted.
pub fn blocks(store: &Store, trip: &Trip, rules: &Rules) -> Result<Vec<Block>, Error> {
    let found = assessment::air::of_trip(store, trip.id)?;
    if found.places.is_empty() && found.unfit.is_empty() {
        return Ok(vec![]);
    }
    let wanted = rules.limit(Check::AirClass, 5.0) as u8;
    let mut out = vec![Block::Heading(said::OverBottles.text())];
    if !found.places.is_empty() {
        out.push(Block::Table(table(&found, wanted)));
        out.push(Block::Figure(picture(&found, trip)));
    }
    if !found.unfit.is_empty() {
        let told = |(well, p, rows): &(String, intake::site::Place, Vec<Unfit>)| {
            let well = Name::from(well);
            let why = unfit::message(rows);
            if is_cabinet(p) {
                said::CountsInCabinet { well, why }.text()
            } else {
                said::CountsInOpenAir { well, why }.text()
            }
        };
        out.push(Block::List(found.unfit.iter().map(told).collect()));
    }
    Ok(out)
}

fn is_cabinet(p: &str) -> bool {
    p == AirPlace::Cabinet.word()
}

/// Well and place.
fn place(p: &PlaceAir) -> Message {
    let well = Name::from(&p.well);
    if is_cabinet(p.place) { said::CabinetAt { well }.into() } else { said::OpenAirAt { well }.into() }
}

fn minutes(p: &PlaceAir) -> String {
    let Some((bottles, low, high)) = p.open else { return String::new() };
    let (bottles, all, high) = (message::count(bottles), (high - low).abs() < 1e-9, Shown::trimmed(high, 2, "min"));
    if all {
        said::OpenFor { minutes: Shown::trimmed(low, 2, "min"), bottles }.text()
    } else {
        said::OpenBetween { low: Shown::trimmed(low, 2, ""), high, bottles }.text()
    }
}

fn table(found: &TripAir, wanted: u8) -> Table {
    let class = |c: Option<u8>| c.map_or_else(|| word::None.text(), |c| c.to_string());
    let rows = found
        .places
        .iter()
        .map(|p| {
            let r = &p.reading;
            // More air helps only where the counts stay under the limit and the volume was too small to show it.
            let needed = match (r.shown_class, r.under_limit_of_class) {
                (Some(shown), _) if shown <= wanted => said::Enough.text(),
                (_, Some(under)) if under <= wanted => {
                    let needed = r.volume_to_show_l(wanted).map(|(v, _)| Shown::significant(v, 3, "").text());
                    needed.unwrap_or_else(|| said::NoSuchSize.text())
                }
                _ => said::TooMany.text(),
            };
            vec![
                Cell::Text(place(p).text()),
                Cell::Text(minutes(p)),
                Cell::Text(Shown::trimmed(r.volume_l, 3, "").text()),
                Cell::Text(class(r.under_limit_of_class)),
                Cell::Text(class(r.shown_class)),
                Cell::Text(class(r.bounded_class)),
                Cell::Text(needed),
            ]
        })
        .collect();
    let mut notes = vec![said::Columns { class: wanted.to_string().into() }.text()];
    notes.extend(found.reductions.iter().map(|(well, r)| reduction(well, r).text()));
    notes.extend(found.uncounted.iter().map(|(well, p)| {
        let well = Name::from(well);
        if is_cabinet(p) { said::CabinetUncounted { well }.text() } else { said::OpenAirUncounted { well }.text() }
    }));
    let columns = [
        word::Place.text(),
        said::BottlesOpen.text(),
        said::Litres.text(),
        word::Under.text(),
        said::Shown.text(),
        said::Bounded.text(),
        said::Needed.text(),
    ];
    Table { caption: said::Counts.text(), columns: columns.into_iter().map(Column::words).collect(), rows, notes }
}

/// How much cleaner the cabinet was.
fn reduction(well: &str, r: &Reduction) -> Message {
    let times = |x: f64| Shown::significant(x, 2, "");
    let (well, size, low) = (Name::from(well), Shown::trimmed(r.size_um, 3, "µm"), times(r.interval_95.0));
    if !r.factor.is_finite() {
        return said::ReductionAtLeast { well, size, low }.into();
    }
    let (factor, high) = (times(r.factor), r.interval_95.1);
    if high.is_finite() {
        said::Reduction { well, size, factor, low, high: times(high) }.into()
    } else {
        said::ReductionWithoutEnd { well, size, factor, low }.into()
    }
}

/// A count in words.
fn counted(p: &PlaceAir, size_um: f64) -> Option<Message> {
    let r = of_size(p, size_um)?;
    let (place, size) = (place(p), Shown::trimmed(size_um, 3, "µm"));
    Some(if r.per_m3 > 0.0 {
        said::ParticlesCounted { place, size, number: Shown::significant(r.per_m3, 2, "") }.into()
    } else {
        said::ParticlesNotCounted { place, size, upper: Shown::bound(r.upper_95_per_m3, "") }.into()
    })
}

fn of_size(p: &PlaceAir, size_um: f64) -> Option<&SizeReading> {
    p.reading.readings.iter().find(|r| (r.size_um - size_um).abs() < 1e-9)
}

fn picture(found: &TripAir, trip: &Trip) -> Illustration {
    let mut sizes: Vec<f64> = found.places.iter().flat_map(|p| p.reading.readings.iter().map(|r| r.size_um)).collect();
    sizes.sort_by(f64::total_cmp);
    sizes.dedup();
    let panels: Vec<AirPanel> = sizes
        .into_iter()
        .map(|size_um| AirPanel {
            size_um,
            rows: found
                .places
                .iter()
                .filter_map(|p| {
                    let r = of_size(p, size_um)?;
                    Some(AirRow {
                        name: place(p).text(),
                        detail: minutes(p),
                        per_m3: r.per_m3,
                        bounds: (r.lower_95_per_m3, r.upper_95_per_m3),
                    })
                })
                .collect(),
            limits: (1..=9).filter_map(|c| class_limit(c, size_um).map(|l| (c, l))).collect(),
        })
        .collect();
    let counts: Vec<String> =
        panels.iter().flat_map(|q| found.places.iter().filter_map(|p| Some(counted(p, q.size_um)?.text()))).collect();
    let title = said::Particles { trip: Name::from(&trip.name) }.text();
    let p = AirPicture {
        head: Head {
            id: slug(&format!("air-{}", trip.name)),
            desc: format!("{title}. {}.", counts.join("; ")),
            title: title.clone(),
        },
        under: said::OneAxis.text(),
        panels,
        caption: said::BoundsExact.text(),
    };
    Illustration { wide: air::draw(&p, WIDE), phone: Some(air::draw(&p, PHONE)), caption: format!("{title}.") }
}
