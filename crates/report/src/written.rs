//! The names of a programme and what people wrote in it, gathered for a report in another language: sentences kept with
//! the record hold them, and they stay as they are there. What names a material, a rock or a kind is a word of the trade
//! and is put into the language like any other.

use language::{keep_names, spoken};
use quantity::Lang;
use record::Error;
use record::store::{Filter, Store};

/// Tells the language what is never put into it.
pub fn keep(store: &Store) -> Result<(), Error> {
    if spoken() == Lang::En {
        return Ok(());
    }
    let mut all: Vec<String> = vec![];
    let mut some = |of: Vec<Option<String>>| all.extend(of.into_iter().flatten());
    for x in store.persons()? {
        some(vec![Some(x.name)]);
    }
    for x in store.sites()? {
        some(vec![Some(x.name), x.description]);
    }
    for x in store.wells()? {
        some(vec![Some(x.name), x.description, x.flow_note]);
    }
    for x in store.lots()? {
        some(vec![Some(x.name), x.steps, x.rinse]);
    }
    for x in store.acids()? {
        some(vec![Some(x.name), x.kind]);
    }
    some(store.filters()?.into_iter().map(|x| Some(x.name)).collect());
    for x in store.trips()? {
        some(vec![Some(x.name), x.question, x.weather, x.wind, x.dust, x.road_salt, x.engines, x.persons]);
    }
    for x in store.bottles(&Filter::all())? {
        some(vec![Some(x.label), x.set_name.filter(|s| !is_ours(s)), x.note, x.cabinet, x.acidified_place]);
    }
    some(store.aliquots(&Filter::all())?.into_iter().map(|x| Some(x.name)).collect());
    for x in store.custody(&Filter::all())? {
        some(vec![x.place]);
    }
    for x in store.runs()? {
        some(vec![Some(x.name), x.laboratory, x.instrument, x.recipe]);
        some(store.vials(x.id)?.into_iter().map(|v| Some(v.name)).collect());
        some(store.assigned(x.id)?.into_iter().map(|a| a.source).collect());
    }
    some(store.source_facts()?.into_iter().map(|x| Some(x.source)).collect());
    some(store.raw_files()?.into_iter().map(|x| Some(x.name)).collect());
    some(store.exclusions()?.into_iter().map(|x| Some(x.why)).collect());
    some(store.sign_offs()?.into_iter().map(|x| Some(x.why)).collect());
    keep_names(all.iter().map(String::as_str));
    Ok(())
}

/// A name of a set of bottles that the programme itself gives.
fn is_ours(set: &str) -> bool {
    use record::model::{FILL_SERIES, FLOW_SERIES, TRAINING};
    [FILL_SERIES, FLOW_SERIES, TRAINING].contains(&set)
}
