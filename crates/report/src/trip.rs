//! Sections on the trip: flow, contact and air at each well, readings, custody in short.

use super::scope::Chosen;
use super::section;
use super::wells::quantity_of;
use assessment::field_checks::FieldChecks;
use assessment::verdict::Rules;
use document::content::{Annex, Block, Cell, Column, Section, Table};
use figure::well::material;
use message::{Message, Name, Shown, Spoken, chapter, trip as said, word};
use record::Error;
use record::model::Trip;
use record::store::{Filter, Store};

/// One section a trip: of one trip a chapter, of several the annex.
pub fn sections(store: &Store, chosen: &Chosen) -> Result<Vec<Section>, Error> {
    let rules = Rules::new(store.check_rules()?);
    let mut out = vec![];
    for trip in chosen.trips.clone() {
        let evidence = FieldChecks::of(store, trip.id, &rules)?;
        let mut rows = vec![];
        for w in store.wells()?.into_iter().filter(|w| !w.is_stream() && chosen.has_well(&w.name)) {
            let Some(known) = evidence.well(w.id) else { continue };
            let amount = |a: Option<quantity::Amount>| {
                a.map_or_else(|| Cell::Missing(word::NotKnown.text()), |amount| Cell::Amount { amount, k: 2.0 })
            };
            let contact = known
                .contact
                .iter()
                .map(|(written, t)| {
                    let time = Shown { expanded: None, ..t.shown(1.0) };
                    said::ContactIn { time, material: material(written) }.text()
                })
                .collect::<Vec<_>>();
            rows.push(vec![
                Cell::Text(w.name.clone()),
                Cell::Text(w.description.as_deref().map(str::to_string).unwrap_or_default()),
                amount(known.flow.clone()),
                Cell::Text(contact.join(", ")),
            ]);
        }
        let mut blocks = vec![];
        let weather = noted(&trip);
        if !weather.is_empty() {
            blocks.push(Block::List(weather));
        }
        // Of one trip the wells have a chapter of their own, with flow and contact.
        if !rows.is_empty() && chosen.trips.len() > 1 {
            blocks.push(Block::Table(Table {
                caption: said::Flows.text(),
                columns: vec![
                    Column::words(word::Well.text()),
                    Column::words(said::WhatItIs.text()),
                    Column::numbers(word::Flow.text(), "L/min"),
                    Column::words(word::Contact.text()),
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
        if blocks.is_empty() {
            continue;
        }
        let title = said::Section { trip: Name::from(&trip.name) };
        if chosen.trips.len() > 1 {
            out.push(section(title, blocks).within(Annex::Wells));
            continue;
        }
        // The pictures of the day stand in the annex, its numbers in the chapter.
        let (pictures, numbers): (Vec<Block>, Vec<Block>) =
            blocks.into_iter().partition(|b| matches!(b, Block::Figure(_)));
        out.push(section(chapter::Day, numbers));
        if !pictures.is_empty() {
            out.push(section(title, pictures).within(Annex::Wells));
        }
    }
    Ok(out)
}

/// What the person noted of weather and surroundings.
fn noted(trip: &Trip) -> Vec<String> {
    let told = |text: &Option<String>, says: fn(Name) -> Message| text.as_ref().map(|t| says(Name::from(t)).text());
    [
        told(&trip.weather, |noted| said::Weather { noted }.into()),
        told(&trip.wind, |noted| said::Wind { noted }.into()),
        told(&trip.dust, |noted| said::Dust { noted }.into()),
        told(&trip.road_salt, |noted| said::RoadSalt { noted }.into()),
        told(&trip.engines, |noted| said::Engines { noted }.into()),
        told(&trip.persons, |noted| said::Persons { noted }.into()),
    ]
    .into_iter()
    .flatten()
    .collect()
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
    // The first unit heads the column; a reading in another one carries its own (`Table::shown`).
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
    let mut columns = vec![Column::words(word::Well.text())];
    columns.extend(quantities.iter().map(|q| Column::numbers(quantity_of(q).text(), &unit(q))));
    Table { caption: said::LastReadings.text(), columns, rows, notes: vec![] }
}
