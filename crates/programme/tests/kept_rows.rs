//! Rows that cannot be: refused by row before they are kept; where a programme holds one from before, the rest of the
//! programme goes on. Rows that are there already are not added again by a file that only looks different.

use crate::demo_common::{AT, BY, record};
use crate::import_common::Desk;
use intake::entry::{Correction, EntryError, TypedRow, correct, enter};
use intake::import::{Imported, Input, Mapping, import};
use programme::work;
use quantity::Outcome;
use record::by::By;
use record::store::{Act, ActInfo, Cell, Filter, Store, StoreError};
use simulator::files::{RawFile, raw_files};
use simulator::{Purpose, Trip};
use std::path::Path;

const INES: By = By { person: BY, at: AT };

fn demo_file(name: &str) -> RawFile {
    raw_files(&Trip::new(2611, Purpose::Demo)).into_iter().find(|f| f.name == name).unwrap()
}

/// The demo without its run: wells, trip, bottles, what was read at the wells.
fn wells_and_trip(dir: &Path) -> Store {
    record(dir, &Trip::new(2611, Purpose::Demo), |name, text| {
        (!matches!(name, "run-counts.csv" | "run-sequence.csv")).then_some(text)
    })
}

fn take(store: &mut Store, dir: &Path, name: &str, mapping: &str, text: &str) -> Result<Imported, String> {
    let path = dir.join(name);
    std::fs::write(&path, text).unwrap();
    let mapping = Mapping::shipped(mapping).unwrap();
    import(store, &[Input { path, mapping }], BY, AT).map_err(|e| e.to_string())
}

fn rows(store: &Store, table: &str) -> usize {
    store.as_typed(table, &Filter::all()).unwrap().len()
}

/// A raw file of the demo, changed, is refused by row and column, and nothing of it is kept.
#[track_caller]
fn refused(file: &str, change: impl Fn(&str) -> String, parts: &[&str]) {
    let dir = tempfile::tempdir().unwrap();
    let demo = demo_file(file);
    let mut store = record(dir.path(), &Trip::new(2611, Purpose::Demo), |name, text| {
        (!matches!(name, "run-counts.csv" | "run-sequence.csv") && name != file).then_some(text)
    });
    let head = store.head().unwrap();
    let changed = change(&demo.text);
    assert_ne!(changed, demo.text, "the change must change something");
    let said = take(&mut store, dir.path(), file, demo.mapping, &changed).expect_err("it was taken");
    for part in parts {
        assert!(said.contains(part), "{part:?} is not in:\n{said}");
    }
    assert_eq!(store.head().unwrap(), head);
    // As it is, the file is taken.
    take(&mut store, dir.path(), file, demo.mapping, &demo.text).unwrap();
}

#[test]
fn a_count_of_another_size_was_kept_and_stopped_the_programme() {
    // SL-2, cabinet, 11:40: row 5 of the file.
    refused(
        "air-counts.csv",
        |t| t.replace("11:40,0.5,1,28.3", "11:40,0.7,1,28.3"),
        &["air-counts.csv, row 5, column \"size_um\"", "0.7 µm", "0.5 µm"],
    );
}

#[test]
fn a_count_twice_in_one_sample_and_counts_that_rise_with_size() {
    refused(
        "air-counts.csv",
        |t| t.replace("open-air,2026-07-14 09:15,5,214", "open-air,2026-07-14 09:15,0.5,214"),
        &["row 3, column \"size_um\"", "0.5 µm"],
    );
    refused("air-counts.csv", |t| t.replace(",214,", ",61421,"), &["row 3, column \"count\"", "61421", "61420"]);
}

#[test]
fn well_sections_that_overlap_were_kept_and_stopped_the_programme() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = wells_and_trip(dir.path());
    let head = store.head().unwrap();
    let more = "well,from_m,to_m,radius_m,kind,material\nSL-2,10,20,0.05,casing,steel\n";
    let said = take(&mut store, dir.path(), "more.csv", "well-sections", more).expect_err("it was taken");
    for part in ["more.csv, row 2, column \"from_m\"", "10 to 20 m", "without overlap"] {
        assert!(said.contains(part), "{part:?} is not in:\n{said}");
    }
    assert_eq!(store.head().unwrap(), head);
}

#[test]
fn a_fill_in_no_time_was_kept_and_stopped_the_programme() {
    refused(
        "fills.csv",
        |t| t.replace("0.05,24.9", "0.05,1e-310"),
        &["fills.csv, row 7, column \"seconds\"", "\"1e-310\""],
    );
    refused(
        "fills.csv",
        |t| t.replace("2026-07-14 10:45,10,0.05,24.9", "2026-07-14 10:45,10,1e300,24.9"),
        &["fills.csv, row 7, column \"u_volume_L\""],
    );
}

#[test]
fn what_derivation_refuses_is_refused_from_a_form_and_as_a_correction_too() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = wells_and_trip(dir.path());
    let head = store.head().unwrap();
    let count = TypedRow::of("air_count")
        .with("trip", "SL-2026-07")
        .with("well", "SL-2")
        .with("place", "cabinet")
        .with("at", "2026-07-14 12:40")
        .with("size_um", "0.7")
        .with("count", "0")
        .with("volume_L", "28.3");
    match enter(&mut store, INES, "", &[count]) {
        Err(EntryError::Faults(f)) => assert_eq!((f.len(), f[0].column.as_deref()), (1, Some("size_um")), "{f:?}"),
        other => panic!("{other:?}"),
    }
    let section = store.well_sections(store.wells().unwrap().iter().find(|w| w.name == "SL-2").unwrap().id).unwrap();
    let deeper = [Correction { column: "to_m", seen: None, new: "58" }];
    let screen = section.iter().find(|s| s.kind == "casing").unwrap();
    match correct(&mut store, INES, "a slip", ("well_section", screen.id), &deeper) {
        Err(EntryError::Faults(f)) => assert!(f[0].found().contains("58 m"), "{f:?}"),
        other => panic!("{other:?}"),
    }
    assert_eq!(store.head().unwrap(), head);
}

/// Tables whose rows have no name, with the demo's file of each.
const NAMELESS: [(&str, &str); 8] = [
    ("fills.csv", "fill"),
    ("field-readings.csv", "field_reading"),
    ("air-counts.csv", "air_count"),
    ("custody.csv", "custody"),
    ("well-sections.csv", "well_section"),
    ("layers.csv", "layer"),
    ("spikes.csv", "spike"),
    ("source-facts.csv", "source_fact"),
];

#[test]
fn a_file_that_differs_only_in_blank_lines_doubled_its_rows() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = wells_and_trip(dir.path());
    for (file, table) in NAMELESS {
        let demo = demo_file(file);
        let before = rows(&store, table);
        assert!(before > 1, "{table}");
        let commas = demo.text.lines().next().unwrap().matches(',').count();
        let (head, body) = demo.text.split_once('\n').unwrap();
        for (how, text) in [
            ("a blank line at the end", format!("{}\n", demo.text)),
            ("a blank line between", format!("{head}\n\n{body}")),
            ("a line of delimiters", format!("{}{}\n", demo.text, ",".repeat(commas))),
            ("a line of quotes and blanks", format!("{head}\n\"\",\"  \"\n{body}")),
            ("a line of hard blanks", format!("{head}\n\u{a0} \u{a0}\n{body}")),
            ("line ends of another system", demo.text.replace('\n', "\r\n")),
            ("no line end at the end", demo.text.trim_end().to_string()),
        ] {
            let taken =
                take(&mut store, dir.path(), file, demo.mapping, &text).unwrap_or_else(|e| panic!("{how}: {e}"));
            let f = &taken.files[0];
            assert_eq!((rows(&store, table), f.already), (before, before as u64), "{file}, {how}");
            assert_eq!(f.rows, before as u64, "blank lines are no rows: {file}, {how}");
        }
    }
}

#[test]
fn blank_rows_of_a_workbook_are_no_rows() {
    let mut desk = Desk::new();
    desk.text("wells.csv", "wells", "name\nSL-2\n");
    desk.text("fills.csv", "fills", "well,volume_L,seconds\nSL-2,10,25.1\nSL-2,10,24.9\n");
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (c, h) in ["well", "volume_L", "seconds"].iter().enumerate() {
        sheet.write(0, c as u16, *h).unwrap();
    }
    for (row, seconds) in [(2, 25.1), (5, 24.9)] {
        sheet.write(row, 0, "SL-2").unwrap();
        sheet.write(row, 1, 10).unwrap();
        sheet.write(row, 2, seconds).unwrap();
    }
    // Cells that hold blanks only, one of them hard, and cells without a value.
    sheet.write(3, 0, "  ").unwrap();
    sheet.write(3, 1, "\u{a0}").unwrap();
    sheet.write_blank(4, 2, &rust_xlsxwriter::Format::new().set_bold()).unwrap();
    let path = desk.file("fills.xlsx", book.save_to_buffer().unwrap());
    let taken = desk.take(&path, "fills").unwrap();
    assert_eq!((taken.files[0].rows, taken.files[0].already), (2, 2), "{:?}", taken.files);
    assert_eq!(desk.store.fills(&Filter::all()).unwrap().len(), 2);
}

#[test]
fn equal_rows_of_one_file_are_each_a_measurement_and_are_not_lost() {
    let mut desk = Desk::new();
    desk.text("wells.csv", "wells", "name\nSL-2\n");
    let head = "well,at,volume_L,seconds\n";
    let twice = format!("{head}SL-2,2026-07-14 10:45,10,25.1\nSL-2,2026-07-14 10:45,10,25.1\n");
    let fills = |desk: &Desk| desk.store.fills(&Filter::all()).unwrap().len();
    desk.text("a.csv", "fills", &twice);
    assert_eq!(fills(&desk), 2, "a watch that shows the same twice");
    desk.text("b.csv", "fills", &format!("{twice}\n"));
    assert_eq!(fills(&desk), 2);
    let more = desk.text("c.csv", "fills", &format!("{twice}SL-2,2026-07-14 10:45,10,25.1\n"));
    assert_eq!((fills(&desk), more.files[0].added["fill"], more.files[0].already), (3, 1, 2));
}

#[test]
fn a_row_corrected_since_does_not_come_back_with_its_old_file_or_its_new() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = wells_and_trip(dir.path());
    let demo = demo_file("fills.csv");
    let fill = store.fills(&Filter::all()).unwrap().into_iter().find(|f| (f.seconds - 24.9).abs() < 1e-9).unwrap();
    let why = "read off the film of the watch";
    correct(&mut store, INES, why, ("fill", fill.id), &[Correction { column: "seconds", seen: None, new: "24.7" }])
        .unwrap();
    let before = rows(&store, "fill");
    take(&mut store, dir.path(), "fills.csv", demo.mapping, &format!("{}\n", demo.text)).unwrap();
    assert_eq!(rows(&store, "fill"), before, "the file as it was");
    let right = demo.text.replace(",24.9\n", ",24.7\n");
    take(&mut store, dir.path(), "fills.csv", demo.mapping, &right).unwrap();
    assert_eq!(rows(&store, "fill"), before, "the file put right as the record was");
}

/// The demo, derived, and then rows that an older importer kept, put in by an act so that the chain fits; their numbers.
fn holding(dir: &Path, rows: impl Fn(&Store) -> Vec<Row<'static>>) -> (Store, Vec<i64>) {
    let mut store = record(dir, &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    work::recompute(&mut store, None, INES).unwrap();
    let rows = rows(&store);
    let info = ActInfo { kind: "import".into(), author: BY.into(), at: AT.into(), body: serde_json::json!({}) };
    let (ids, _) = store.act(&info, |act| rows.iter().map(|r| insert(act, r)).collect::<Result<_, _>>()).unwrap();
    (store, ids)
}

/// Table, and values by column; the rest is empty.
type Row<'a> = (&'a str, Vec<(&'a str, Cell<'a>)>);

fn insert(act: &mut Act, (table, values): &Row) -> Result<i64, StoreError> {
    let table = record::schema::table(table).unwrap();
    let mut cells = vec![Cell::Null; table.columns.len()];
    for (column, cell) in values {
        cells[table.place(column).unwrap()] = *cell;
    }
    act.insert(table.name, &cells)
}

fn well(store: &Store, name: &str) -> Cell<'static> {
    Cell::Integer(store.wells().unwrap().iter().find(|w| w.name == name).unwrap().id)
}

fn lead(store: &Store, well: &str) -> String {
    let all = assessment::results::all(store).unwrap();
    let of =
        |r: &&assessment::results::Listed| r.well.as_deref() == Some(well) && r.analyte == "Pb" && r.verdict.is_some();
    all.iter().find(of).unwrap().result.to_string()
}

/// All that a programme is kept for still works, and settles: deriving a second time writes nothing.
#[track_caller]
fn goes_on(store: &mut Store) {
    work::recompute(store, None, INES).unwrap();
    let again = work::recompute(store, None, INES).unwrap();
    assert_eq!((again.results, again.attributed, again.verdicts), (0, 0, 0), "{again:?}");
    for r in assessment::results::all(store).unwrap() {
        programme::case::of(store, &r.result).unwrap().in_words();
    }
    assert!(store.verify(None).unwrap().differences.is_empty());
    assert_eq!(work::underivable(store).unwrap(), Vec::<String>::new());
    assessment::wells::sheets(store).unwrap();
    assessment::lots::all(store).unwrap();
    assessment::air::of_trip(store, 1).unwrap();
    work::exclude(store, "SL1-26-07-B", true, "a cracked cap", INES).unwrap();
    let one = lead(store, "SL-3");
    work::sign(store, &one, "seen by the lead", INES).unwrap();
}

/// As [`goes_on`]; the check is not met and names the row at SL-2, and at no other well.
#[track_caller]
fn named_at_sl2(rows: impl Fn(&Store) -> Vec<Row<'static>>, check: &str, table: &str) {
    let dir = tempfile::tempdir().unwrap();
    let (mut store, ids) = holding(dir.path(), rows);
    goes_on(&mut store);
    let row = format!("{table}, row {}, ", ids.last().unwrap());
    let case = programme::case::case(&store, &lead(&store, "SL-2")).unwrap();
    let told = case.findings.iter().find(|f| f.check.text() == check && f.sentence.contains(&row));
    let told = told.unwrap_or_else(|| panic!("{check} with {row} is not among {:#?}", case.findings));
    // What a row hides must not make a verdict better.
    assert_eq!(told.outcome, Outcome::NotMet);
    assert!(told.sentence.contains("Correct it with a reason"), "{told:?}");
    for other in ["SL-1", "SL-3"] {
        let case = programme::case::case(&store, &lead(&store, other)).unwrap();
        assert!(case.findings.iter().all(|f| !f.sentence.contains(&row)), "{other} does not stand on it");
    }
}

fn count(store: &Store, at: &'static str, size: f64, volume: f64) -> Row<'static> {
    let head = [("trip", Cell::Integer(1)), ("well", well(store, "SL-2"))];
    let words = [("place", Cell::Text("cabinet")), ("at", Cell::Text(at))];
    let numbers = [("size_um", size.into()), ("count", Cell::Integer(1)), ("volume_L", volume.into())];
    ("air_count", head.into_iter().chain(words).chain(numbers).collect())
}

fn fill(store: &Store, volume: f64, u: f64, seconds: f64) -> Row<'static> {
    let numbers = [("volume_L", volume.into()), ("u_volume_L", u.into()), ("seconds", seconds.into())];
    ("fill", [("trip", Cell::Integer(1)), ("well", well(store, "SL-2"))].into_iter().chain(numbers).collect())
}

fn section(store: &Store, from: f64, to: f64, radius: f64) -> Row<'static> {
    let numbers = [("from_m", from.into()), ("to_m", to.into()), ("radius_m", radius.into())];
    let words = [("well", well(store, "SL-2")), ("kind", Cell::Text("casing")), ("material", Cell::Text("steel"))];
    ("well_section", words.into_iter().chain(numbers).collect())
}

#[test]
fn an_old_count_of_another_size_stopped_the_programme() {
    named_at_sl2(|s| vec![count(s, "2026-07-14T12:40", 0.7, 28.3)], "air.class", "air_count");
}

#[test]
fn an_old_count_taken_in_twice_stopped_the_programme() {
    named_at_sl2(|s| vec![count(s, "2026-07-14T11:40", 0.5, 28.3)], "air.class", "air_count");
}

#[test]
fn old_sections_that_overlap_stopped_the_programme() {
    named_at_sl2(|s| vec![section(s, 10.0, 20.0, 0.05)], "well.contact-time", "well_section");
}

#[test]
fn an_old_fill_in_no_time_stopped_the_programme() {
    named_at_sl2(|s| vec![fill(s, 10.0, 0.05, 1e-310)], "well.contact-time", "fill");
}

#[test]
fn a_section_taken_in_twice_is_one_and_is_told_at_the_well() {
    let dir = tempfile::tempdir().unwrap();
    let (mut store, ids) = holding(dir.path(), |s| {
        let Cell::Integer(id) = well(s, "SL-2") else { unreachable!() };
        let one = s.well_sections(id).unwrap().into_iter().find(|s| s.kind == "casing").unwrap();
        let material: &'static str = one.material.unwrap().leak();
        let numbers = [("from_m", one.from_m.into()), ("to_m", one.to_m.into()), ("radius_m", one.radius_m.into())];
        let words = [("kind", Cell::Text("casing")), ("material", Cell::Text(material)), ("well", well(s, "SL-2"))];
        vec![("well_section", words.into_iter().chain(numbers).collect())]
    });
    goes_on(&mut store);
    let sheet = assessment::wells::sheet(&store, "SL-2", 1).unwrap().unwrap();
    assert_eq!((sheet.fault, sheet.construction.sections.len()), (None, 2));
    assert!(sheet.findings.iter().any(|f| f.sentence.contains(&format!("Row {} of well_section", ids[0]))));
}

#[test]
fn an_old_run_without_a_recipe_stopped_the_programme() {
    let dir = tempfile::tempdir().unwrap();
    let (mut store, _) = holding(dir.path(), |_| vec![("run", vec![("name", Cell::Text("R-0"))])]);
    let run = store.runs().unwrap().iter().find(|r| r.name == "R-0").unwrap().id;
    let info = ActInfo { kind: "import".into(), author: BY.into(), at: AT.into(), body: serde_json::json!({}) };
    store
        .act(&info, |act| {
            let words = [("name", Cell::Text("a")), ("role", Cell::Text("sample"))];
            let numbers = [("run", Cell::Integer(run)), ("position", Cell::Integer(1)), ("minutes", Cell::Real(0.0))];
            let vial = insert(act, &("vial", words.into_iter().chain(numbers).collect()))?;
            let words = [("isotope", "Pb208"), ("resolution", "low"), ("mode", "counting"), ("rates_cps", "[1.0,2.0]")];
            let numbers = [("vial", Cell::Integer(vial)), ("integration_s", Cell::Real(1.0))];
            insert(act, &("reading", words.into_iter().map(|(c, t)| (c, Cell::Text(t))).chain(numbers).collect()))
        })
        .unwrap();
    let done = work::recompute(&mut store, None, INES).unwrap();
    assert!(done.underived.len() == 1 && done.underived[0].contains("run R-0"), "{:?}", done.underived);
    let reduced = assessment::derive::reduce_all(&store).unwrap();
    assert_eq!((reduced.runs.len(), reduced.left_out[0].0.as_str()), (1, "R-0"));
    goes_on(&mut store);
}

/// Rows that an older importer took without a word: numbers far out of this world in every table that people fill.
fn far_out(s: &Store) -> Vec<Row<'static>> {
    let (trip, sl2) = (("trip", Cell::Integer(1)), ("well", well(s, "SL-2")));
    let reading = |quantity: &'static str, value: f64, unit: &'static str| -> Row<'static> {
        let words = [("at", "2026-07-14T10:59"), ("quantity", quantity), ("unit", unit)];
        let words = words.into_iter().map(|(c, t)| (c, Cell::Text(t)));
        ("field_reading", words.chain([trip, sl2, ("value", value.into())]).collect())
    };
    let bottle = |label: &'static str, more: [(&'static str, Cell<'static>); 2]| -> Row<'static> {
        let words = [("label", Cell::Text(label)), ("kind", Cell::Text("sample"))];
        ("bottle", words.into_iter().chain([trip, sl2]).chain(more).collect())
    };
    let of = |table: &'static str,
              words: &[(&'static str, &'static str)],
              numbers: &[(&'static str, f64)]|
     -> Row<'static> {
        let words = words.iter().map(|(c, t)| (*c, Cell::Text(t)));
        (table, words.chain(numbers.iter().map(|(c, x)| (*c, Cell::Real(*x)))).collect())
    };
    let with = |row: Row<'static>, more: (&'static str, Cell<'static>)| -> Row<'static> {
        (row.0, row.1.into_iter().chain([more]).collect())
    };
    vec![
        reading("pH", 78.0, "pH"),
        reading("temperature", 412.0, "Cel"),
        reading("temperature", 1e308, "Cel"),
        reading("Eh", -1e308, "mV"),
        reading("conductivity", -5.0, "uS/cm"),
        reading("dissolved oxygen", 1e308, "mg/L"),
        reading("pressure", 1e308, "bar"),
        reading("flow", 1e-310, "L/min"),
        reading("gauge height", -1e308, "m"),
        reading("distance to recharge area", 1e-310, "m"),
        bottle("X-1", [("volume_mL", 1e-310.into()), ("filled_at", Cell::Text("2062-07-14T09:00"))]),
        bottle("X-2", [("volume_mL", 1e308.into()), ("openings", Cell::Integer(i64::MAX))]),
        bottle("X-3", [("cabinet_min", 1e308.into()), ("open_air_min", 1e-310.into())]),
        bottle("X-4", [("flow_L_min", 1e-310.into()), ("bags", Cell::Integer(i64::MIN))]),
        with(of("custody", &[("at", "2062-01-01"), ("step", "sent")], &[("temperature_C", 1e308)]), trip),
        count(s, "2026-07-14T13:00", 1e-310, 1e-310),
        fill(s, 1e308, 1e308, 1e-310),
        section(s, -1e308, 1e308, 1e-310),
        with(of("layer", &[("material", "sandstone")], &[("from_m", -1e308), ("to_m", 1e308)]), sl2),
        with(of("spike", &[("analyte", "Pb")], &[("added_pg", 1e308), ("u_pg", 1e308)]), ("bottle", Cell::Integer(1))),
        of("lot", &[("name", "L-0")], &[("volume_mL", 1e-310), ("target_pg_Pb", -1.0)]),
        of(
            "source_fact",
            &[("what", "deposition velocity, m/s"), ("source", "a slip")],
            &[("value", 1e308), ("u", 1e308)],
        ),
        of("local_limit", &[("analyte", "Pb"), ("unit", "ug/L"), ("authority", "nobody")], &[("limit_high", -1e308)]),
        of("trip", &[("name", "T-0"), ("starts", "9999-12-31T23:59")], &[]),
        of("trip", &[("name", "T-1"), ("starts", "2026-07-14"), ("ends", "2026-07-01")], &[]),
        with(of("layer", &[("material", "clay")], &[("from_m", 10.0), ("to_m", 20.0)]), sl2),
        of("well", &[("name", "W-0")], &[("elevation_m", 1e308), ("latitude_deg", 1e308)]),
    ]
}

#[test]
fn numbers_far_out_of_this_world_stop_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let (mut store, _) = holding(dir.path(), far_out);
    goes_on(&mut store);
}

/// The same rates over another time are another reading: told, not counted as there already.
#[test]
fn the_same_counts_over_another_time_are_not_there_already() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = record(dir.path(), &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    let counts = demo_file("run-counts.csv");
    let again = take(&mut store, dir.path(), "again.csv", counts.mapping, &format!("{}\n", counts.text)).unwrap();
    let file = &again.files[0];
    assert!(file.added.is_empty() && file.already > 0, "all of it is there already: {again:?}");
    let mapping = Mapping::shipped(counts.mapping).unwrap();
    // The head of each block: "… counts per second; 1.2 s per replicate".
    let (_, rest) = counts.text.split_once("counts per second; ").unwrap();
    let (time, _) = rest.split_once(" s per replicate").unwrap();
    let changed = counts.text.replace(&format!("; {time} s per replicate"), "; 77 s per replicate");
    assert_ne!(changed, counts.text);
    let path = dir.path().join("other.csv");
    std::fs::write(&path, &changed).unwrap();
    let said = import(&mut store, &[Input { path, mapping }], BY, AT).expect_err("it was taken").to_string();
    assert!(said.contains("another integration time of"), "{said}");
}

/// A step of custody that notes no seal says nothing of it.
#[test]
fn a_step_without_a_seal_is_no_whole_seal() {
    use quantity::Check;
    let seal = |change: fn(&str) -> String| {
        let dir = tempfile::tempdir().unwrap();
        let mut store = record(dir.path(), &Trip::new(2611, Purpose::Demo), |name, text| {
            Some(if name == "custody.csv" { change(&text) } else { text })
        });
        work::recompute(&mut store, None, INES).unwrap();
        let told = programme::case::case(&store, "SL2-26-07-A:Pb:206+207+208@low:unfiltered").unwrap();
        let f = told.findings.iter().find(|f| f.check == Check::CoolBoxSeal).unwrap().clone();
        (f.outcome, f.text())
    };
    let (outcome, says) = seal(str::to_string);
    assert_eq!((outcome, says.contains("at all 3 steps")), (Outcome::Met, true), "{says}");
    let (outcome, says) = seal(|text| text.replacen(",whole", ",", 1));
    assert_eq!((outcome, says.contains("at 2 of 3 steps")), (Outcome::Met, true), "{says}");
    let (outcome, says) = seal(|text| text.replace(",whole", ","));
    assert_eq!((outcome, says.contains("None of the 3 steps")), (Outcome::NotKnown, true), "{says}");
    let (outcome, _) = seal(|text| text.replacen(",whole", ",broken", 1));
    assert_eq!(outcome, Outcome::NotMet);
}
