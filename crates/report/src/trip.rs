//! Sections on the trip: flow, contact and air at each well, readings, custody in short.

use super::section;
use assessment::field_checks::FieldChecks;
use assessment::verdict::Rules;
use document::content::{Block, Cell, Column, Section, Table};
use language::as_written;
use record::Error;
use record::store::{Filter, Store};

/// One section a trip.
pub fn sections(store: &Store) -> Result<Vec<Section>, Error> {
    let rules = Rules::new(store.check_rules()?);
    let mut out = vec![];
    for trip in store.trips()? {
        let evidence = FieldChecks::of(store, trip.id, &rules)?;
        let mut rows = vec![];
        for w in store.wells()?.into_iter().filter(|w| !w.is_stream()) {
            let Some(known) = evidence.well(w.id) else { continue };
            let amount = |a: Option<quantity::Amount>| {
                a.map_or(Cell::Missing("not known".into()), |amount| Cell::Amount { amount, k: 2.0 })
            };
            let contact = known
                .contact
                .iter()
                .map(|(m, t)| format!("{} in {m}", t.in_words().split(" (").next().unwrap_or_default()))
                .collect::<Vec<_>>();
            rows.push(vec![
                Cell::Text(w.name.clone()),
                Cell::Text(w.description.as_deref().map(as_written).unwrap_or_default()),
                amount(known.flow.clone()),
                Cell::Text(contact.join(", ")),
            ]);
        }
        let mut blocks = vec![];
        let weather: Vec<String> = [
            ("weather", &trip.weather),
            ("wind", &trip.wind),
            ("dust", &trip.dust),
            ("road salt", &trip.road_salt),
            ("engines", &trip.engines),
            ("persons", &trip.persons),
        ]
        .into_iter()
        .filter_map(|(name, text)| text.as_ref().map(|t| format!("{name}: {}", as_written(t))))
        .collect();
        if !weather.is_empty() {
            blocks.push(Block::List(weather));
        }
        if !rows.is_empty() {
            blocks.push(Block::Table(Table {
                caption: "Flow by timed fills, and how long the water touches the pipe".into(),
                columns: vec![
                    Column::names("well"),
                    Column::words("what it is"),
                    Column::numbers("flow", "L/min"),
                    Column::words("contact"),
                ],
                rows,
                notes: vec![],
            }));
        }
        blocks.extend(super::air::blocks(store, &trip, &rules)?);
        // Pressure, valve and flow in time stand in the sections on the wells.
        let mut readings = store.field_readings(&Filter::all().is("trip", trip.id))?;
        readings.retain(|r| !assessment::wells::is_of_the_well(&r.quantity));
        if !readings.is_empty() {
            blocks.push(Block::Table(readings_table(&readings)));
        }
        if !blocks.is_empty() {
            out.push(section(&format!("The trip {}", as_written(&trip.name)), blocks));
        }
    }
    Ok(out)
}

/// The last reading of each quantity at each well, quantities across.
fn readings_table(readings: &[record::model::FieldReading]) -> Table {
    let mut wells: Vec<&str> = vec![];
    let mut quantities: Vec<&str> = vec![];
    for r in readings {
        if !wells.contains(&r.well.as_str()) {
            wells.push(&r.well);
        }
        if !quantities.contains(&r.quantity.as_str()) {
            quantities.push(&r.quantity);
        }
    }
    let unit = |q: &str| {
        readings
            .iter()
            .find(|r| r.quantity == q)
            .and_then(|r| quantity::Unit::parse(&r.unit).ok())
            .map_or_else(String::new, |u| u.to_string())
    };
    let cell = |well: &str, q: &str| {
        let last = readings.iter().filter(|r| r.well == well && r.quantity == q).max_by(|a, b| a.at.cmp(&b.at));
        match last.and_then(|r| quantity::Unit::parse(&r.unit).ok().map(|u| (r, u))) {
            Some((r, unit)) => Cell::Amount {
                amount: r.u.map_or_else(
                    || quantity::Amount::stated(r.value, unit.clone()),
                    |u| quantity::Amount::measured(r.value, u, unit.clone()),
                ),
                k: 2.0,
            },
            None => Cell::Missing("–".into()),
        }
    };
    let rows = wells
        .iter()
        .map(|w| std::iter::once(Cell::Text((*w).to_string())).chain(quantities.iter().map(|q| cell(w, q))).collect())
        .collect();
    let mut columns = vec![Column::names("well")];
    columns.extend(quantities.iter().map(|q| Column::numbers(*q, &unit(q))));
    Table { caption: "Last readings at the wells before the bottles".into(), columns, rows, notes: vec![] }
}
