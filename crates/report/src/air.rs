//! The air of a trip: cabinet against open air in one picture, and what each count can show.

use assessment::air::{PlaceAir, TripAir};
use assessment::verdict::Rules;
use cleanliness::air::class_limit;
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::air::{self, AirPanel, AirPicture, AirRow};
use figure::{Head, PHONE, WIDE, slug};
use intake::unfit::{self, Unfit};
use language::as_written;
use message::Spoken;
use quantity::Check;
use quantity::format::{significant, significant_trimmed};
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
    let mut out = vec![Block::Heading("The air over the open bottles".into())];
    if !found.places.is_empty() {
        out.push(Block::Table(table(&found, wanted)));
        out.push(Block::Figure(picture(&found, trip)));
    }
    if !found.unfit.is_empty() {
        let told = |(well, p, rows): &(String, intake::site::Place, Vec<Unfit>)| {
            format!("{well}, {}: the counts cannot be used: {}.", place(p), unfit::message(rows).text())
        };
        out.push(Block::List(found.unfit.iter().map(told).collect()));
    }
    Ok(out)
}

fn place(p: &str) -> &str {
    if p == AirPlace::Cabinet.word() { "cabinet" } else { "open air" }
}

fn minutes(p: &PlaceAir) -> String {
    let m = |x: f64| significant_trimmed(x, 2);
    match p.open {
        Some((n, low, high)) if (high - low).abs() < 1e-9 => format!("{} min, {n} bottles", m(low)),
        Some((n, low, high)) => format!("{} to {} min, {n} bottles", m(low), m(high)),
        None => String::new(),
    }
}

fn table(found: &TripAir, wanted: u8) -> Table {
    let class = |c: Option<u8>| c.map_or_else(|| "none".into(), |c| c.to_string());
    let rows = found
        .places
        .iter()
        .map(|p| {
            let r = &p.reading;
            let needed = match (r.shown_class, r.under_limit_of_class) {
                (Some(shown), _) if shown <= wanted => "enough".into(),
                (_, Some(under)) if under <= wanted => {
                    r.volume_to_show_l(wanted).map_or_else(|| "no size".into(), |(v, _)| significant(v, 3))
                }
                _ => "too many counted".to_string(),
            };
            vec![
                Cell::Text(format!("{}, {}", as_written(&p.well), place(p.place))),
                Cell::Text(minutes(p)),
                Cell::Text(significant_trimmed(r.volume_l, 3)),
                Cell::Text(class(r.under_limit_of_class)),
                Cell::Text(class(r.shown_class)),
                Cell::Text(class(r.bounded_class)),
                Cell::Text(needed),
            ]
        })
        .collect();
    let mut notes = vec![format!(
        "Under: the strictest class of ISO 14644-1 whose limits the counts stay under. Shown: that this volume is large enough to show. Bounded: whose limits the upper 95 % bounds stay under. Needed: litres that would show class {wanted}, which the programme asks for. One count at one place is a reading equivalent to a class limit, no classification."
    )];
    for (well, r) in &found.reductions {
        let most = if r.interval_95.1.is_finite() { significant(r.interval_95.1, 2) } else { "any number".into() };
        notes.push(format!(
            "{well}: at {} µm the cabinet held {} times fewer particles than the open air (95 % interval {} to {most}).",
            significant_trimmed(r.size_um, 3),
            if r.factor.is_finite() { significant(r.factor, 2) } else { "at least ".to_string() + &significant(r.interval_95.0, 2) },
            significant(r.interval_95.0, 2)
        ));
    }
    notes.extend(
        found
            .uncounted
            .iter()
            .map(|(w, p)| format!("{w}: bottles stood open in the {}, and nobody counted it.", place(p))),
    );
    Table {
        caption: "Air over the open bottles: what the counts say, and what they can show".into(),
        columns: ["place", "bottles open", "litres", "under", "shown", "bounded", "needed"].map(Column::words).to_vec(),
        rows,
        notes,
    }
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
                    let r = p.reading.readings.iter().find(|r| (r.size_um - size_um).abs() < 1e-9)?;
                    Some(AirRow {
                        name: format!("{}, {}", as_written(&p.well), place(p.place)),
                        detail: minutes(p),
                        per_m3: r.per_m3,
                        bounds: (r.lower_95_per_m3, r.upper_95_per_m3),
                    })
                })
                .collect(),
            limits: (1..=9).filter_map(|c| class_limit(c, size_um).map(|l| (c, l))).collect(),
        })
        .collect();
    let said: Vec<String> = panels
        .iter()
        .flat_map(|q| {
            q.rows.iter().map(|r| {
                let size = significant_trimmed(q.size_um, 3);
                if r.per_m3 > 0.0 {
                    format!("{}, {size} µm: {} per m³", r.name, significant(r.per_m3, 2))
                } else {
                    format!("{}, {size} µm: none counted, fewer than {} per m³", r.name, significant(r.bounds.1, 2))
                }
            })
        })
        .collect();
    let title = format!("Particles in the air over the bottles, trip {}", as_written(&trip.name));
    let p = AirPicture {
        head: Head {
            id: slug(&format!("air-{}", trip.name)),
            desc: format!("{title}. {}.", said.join("; ")),
            title: title.clone(),
        },
        under: "Cabinet and open air on one axis.".into(),
        panels,
        caption: "Bounds are exact, one-sided 95 % each. The time is that of the bottles open there.".into(),
    };
    Illustration { wide: air::draw(&p, WIDE), phone: Some(air::draw(&p, PHONE)), caption: format!("{title}.") }
}
