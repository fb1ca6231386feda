//! `limpid correct`: a value of a row as it is read from now on, as the forms of the web interface correct it.

use super::{now, of_entry, open, upkeep};
use crate::args::Correct;
use crate::failure::Failure;
use crate::out::{progress, say};
use intake::entry::{self, Correction};
use programme::work;
use record::by::By;
use record::error::Error;
use record::schema::{self, Table};
use record::store::{Filter, Store};

/// Names that a refusal lists, at most.
const LISTED: usize = 5;

/// Runs `limpid correct`.
pub fn run(args: &Correct) -> Result<(), Failure> {
    let table = table(&args.table)?;
    let (mut store, at) = (open(&args.store)?, now());
    args.hand.may_act(&store)?;
    let row = row(&store, table, &args.row)?;
    let by = By { person: args.hand.name(), at: &at };
    let correction = Correction { column: &args.column, seen: None, new: &args.value };
    let place = format!("{} {}, {}", table.name, args.row, args.column);
    if entry::correct(&mut store, by, &args.why, (table.name, row), &[correction]).map_err(of_entry)?.is_none() {
        say!("{place} reads so already; nothing was written");
        return Ok(());
    }
    args.hand.keep(&mut store)?;
    let reads = if args.value.is_empty() { "nothing" } else { &args.value };
    say!("{place}: {reads} from now on: {} ({})", args.why, args.hand.name());
    let done = work::follow(&mut store, by, &progress())?;
    upkeep::say(&done);
    upkeep::derived(done)
}

/// A table that people correct by hand.
fn table(name: &str) -> Result<&'static Table, Failure> {
    let known = || web::tables_with_forms().find(|known| *known == name).and_then(schema::table);
    known().ok_or_else(|| {
        let all = web::tables_with_forms().collect::<Vec<_>>().join(", ");
        Failure::Refused(format!("there is no table \"{name}\" that people correct; there are {all}"))
    })
}

/// The row of that name: the cells of its name joined by `/`; else of that number.
fn row(store: &Store, table: &'static Table, name: &str) -> Result<i64, Failure> {
    let places: Vec<usize> = table.key.iter().filter_map(|column| table.place(column)).collect();
    let rows = store.as_typed(table.name, &Filter::all())?;
    let named = |cells: &[String]| places.iter().map(|p| cells[*p].as_str()).collect::<Vec<_>>().join("/");
    if let Some((id, _)) = rows.iter().find(|(_, cells)| !places.is_empty() && named(cells) == name) {
        return Ok(*id);
    }
    let number = name.parse::<i64>().ok();
    if let Some((id, _)) = rows.iter().find(|(id, _)| Some(*id) == number) {
        return Ok(*id);
    }
    let some: Vec<String> = if places.is_empty() {
        rows.iter().map(|(id, cells)| format!("{id} ({})", filled(cells))).take(LISTED).collect()
    } else {
        rows.iter().map(|(_, cells)| named(cells)).take(LISTED).collect()
    };
    let hint = if some.is_empty() {
        "; the table is empty".into()
    } else {
        format!("; of {} there are {}", rows.len(), some.join(", "))
    };
    Err(Error::absent("row", format!("{} {name}", table.name), hint).into())
}

/// The first cells of a row that say something, so that a person knows which one it is.
fn filled(cells: &[String]) -> String {
    let said: Vec<&str> = cells.iter().map(String::as_str).filter(|c| !c.is_empty()).take(4).collect();
    said.join(", ")
}
