//! Programmes that hold rows from before which no derivation can use: they open, derive, verify, report; the row and what
//! to do are named at the results that stand on it, and nowhere else. The rows are put in by acts, so that the chain fits.

use crate::desk::{Desk, LEAD};
use record::schema;
use record::store::{Act, ActInfo, Cell, Filter, Store, StoreError};
use serde_json::json;

/// Lead of the other wells, which the rows at SL-2 do not touch.
const OTHERS: [&str; 2] = ["SL1-26-07-A:Pb:206+207+208@low:unfiltered", "SL3-26-07-A:Pb:206+207+208@low:unfiltered"];

/// A row as columns and values; the rest is empty.
type Row<'a> = (&'a str, Vec<(&'a str, Cell<'a>)>);

fn insert(act: &mut Act, (table, values): &Row) -> Result<i64, StoreError> {
    let table = schema::table(table).unwrap();
    let mut cells = vec![Cell::Null; table.columns.len()];
    for (column, cell) in values {
        cells[table.place(column).unwrap()] = *cell;
    }
    act.insert(table.name, &cells)
}

/// The demo with rows that an older importer kept; answers their numbers.
fn holding(rows: impl Fn(&Store) -> Vec<Row<'static>>) -> (Desk, Vec<i64>) {
    let desk = Desk::with_programme();
    let mut store = Store::open(desk.path("p.sqlite")).unwrap();
    let rows = rows(&store);
    let at = "2026-07-24T08:00:00Z";
    let info = ActInfo { kind: "import".into(), author: "Ines Varga".into(), at: at.into(), body: json!({}) };
    let (ids, _) = store.act(&info, |act| rows.iter().map(|r| insert(act, r)).collect::<Result<_, _>>()).unwrap();
    (desk, ids)
}

fn well(store: &Store, name: &str) -> Cell<'static> {
    Cell::Integer(store.wells().unwrap().iter().find(|w| w.name == name).unwrap().id)
}

/// Every command that a programme is kept for works, and its answers are words of the record.
#[track_caller]
fn goes_on(desk: &Desk) {
    let recomputed = desk.run(&["recompute", "p.sqlite"]).done();
    assert!(recomputed.contains("verdicts written"), "{recomputed}");
    let again = desk.run(&["recompute", "p.sqlite"]).done();
    assert!(again.contains("0 written") && again.contains("verdicts written: 0"), "settled at once: {again}");
    desk.run(&["verify", "p.sqlite"]).done();
    let results = desk.run(&["results", "p.sqlite", "--json"]).json();
    assert!(results["results"].as_array().unwrap().len() > 300);
    desk.run(&["case", "p.sqlite", LEAD, "--json"]).json();
    desk.run(&["report", "p.sqlite", "--out", "r"]).done();
    desk.run(&["lots", "p.sqlite"]).done();
    desk.run(&["attribution", "p.sqlite"]).done();
    let by = ["--as", "Marit Osk", "--why", "seen by the lead"];
    desk.run(&[&["exclude", "p.sqlite", "SL1-26-07-B"][..], &by].concat()).done();
    desk.run(&[&["sign", "p.sqlite", LEAD][..], &by].concat()).done();
    desk.file("people.csv", "name\nA new hand\n");
    desk.run(&["import", "p.sqlite", "people.csv", "--mapping", "people"]).done();
    desk.run(&["verify", "p.sqlite"]).done();
}

/// As [`goes_on`]; the check is not met and names the row at SL-2, and at no other well.
#[track_caller]
fn named_at_sl2(rows: impl Fn(&Store) -> Vec<Row<'static>>, check: &str, table: &str) {
    let (desk, ids) = holding(rows);
    let id = *ids.last().unwrap();
    goes_on(&desk);
    let row = format!("{table}, row {id}, ");
    let case = desk.run(&["case", "p.sqlite", LEAD, "--json"]).json();
    let findings = case["findings"].as_array().unwrap();
    let told = findings.iter().find(|f| f["check"] == check && f["sentence"].as_str().unwrap().contains(&row));
    let told = told.unwrap_or_else(|| panic!("{check} with {row} is not among {findings:#?}"));
    assert_eq!(told["outcome"], "not-met", "a row that hides something makes no verdict better");
    assert!(told["sentence"].as_str().unwrap().contains("Correct it with a reason"), "{told}");
    for other in OTHERS {
        let words = desk.run(&["case", "p.sqlite", other]).done();
        assert!(!words.contains(&row), "{other} does not stand on it: {words}");
    }
    let page = std::fs::read_to_string(desk.path("r/report.html")).unwrap();
    assert!(page.contains(&row), "the report names it");
}

fn count(store: &Store, at: &'static str, size: f64, volume: f64) -> Row<'static> {
    let (trip, well) = (Cell::Integer(1), well(store, "SL-2"));
    let (place, at) = (Cell::Text("cabinet"), Cell::Text(at));
    let numbers = [("size_um", size.into()), ("count", 1.into()), ("volume_L", volume.into())];
    let head = [("trip", trip), ("well", well), ("place", place), ("at", at)];
    ("air_count", head.into_iter().chain(numbers).collect())
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
fn a_count_of_another_size_stopped_the_programme() {
    named_at_sl2(|s| vec![count(s, "2026-07-14T12:40", 0.7, 28.3)], "air.class", "air_count");
}

#[test]
fn a_count_taken_in_twice_stopped_the_programme() {
    named_at_sl2(|s| vec![count(s, "2026-07-14T11:40", 0.5, 28.3)], "air.class", "air_count");
}

#[test]
fn sections_that_overlap_stopped_the_programme() {
    named_at_sl2(|s| vec![section(s, 10.0, 20.0, 0.05)], "well.contact-time", "well_section");
}

#[test]
fn a_fill_in_no_time_stopped_the_programme() {
    named_at_sl2(|s| vec![fill(s, 10.0, 0.05, 1e-310)], "well.contact-time", "fill");
}

#[test]
fn a_section_taken_in_twice_is_one_and_is_told_at_the_well() {
    let (desk, ids) = holding(|s| {
        let sections = s.well_sections(s.wells().unwrap().iter().find(|w| w.name == "SL-2").unwrap().id).unwrap();
        let one = &sections[0];
        let (kind, material) = (Cell::Text("casing"), Cell::Text("stainless steel"));
        assert_eq!((one.kind.as_str(), one.material.as_deref()), ("casing", Some("stainless steel")));
        let numbers =
            [("from_m", one.from_m.into()), ("to_m", one.to_m.into()), ("radius_m", one.radius_m.into())];
        let words = [("well", Cell::Integer(one.well_id)), ("kind", kind), ("material", material)];
        vec![("well_section", words.into_iter().chain(numbers).collect())]
    });
    let before = Desk::with_programme().run(&["case", "p.sqlite", LEAD]).done();
    goes_on(&desk);
    let contact = |text: &str| text.lines().find(|l| l.contains("touches the well")).unwrap().to_string();
    assert_eq!(contact(&desk.run(&["case", "p.sqlite", LEAD]).done()), contact(&before));
    let page = std::fs::read_to_string(desk.path("r/report.html")).unwrap();
    assert!(page.contains(&format!("Rows {} of well_section", ids[0])));
}

#[test]
fn a_run_without_a_recipe_stopped_the_programme() {
    let (desk, _) = holding(|_| vec![("run", vec![("name", Cell::Text("R-0"))])]);
    let mut store = Store::open(desk.path("p.sqlite")).unwrap();
    let run = store.runs().unwrap().iter().find(|r| r.name == "R-0").unwrap().id;
    let info =
        ActInfo { kind: "import".into(), author: "Ines Varga".into(), at: "2026-07-24".into(), body: json!({}) };
    let (vial, _) = store
        .act(&info, |act| {
            let vial = insert(
                act,
                &(
                    "vial",
                    vec![
                        ("run", run.into()),
                        ("position", 1.into()),
                        ("name", Cell::Text("a")),
                        ("role", Cell::Text("sample")),
                        ("minutes", 0.0.into()),
                    ],
                ),
            )?;
            let words = [("isotope", "Pb208"), ("resolution", "low"), ("mode", "counting"), ("rates_cps", "[1.0,2.0]")];
            let cells = words.into_iter().map(|(c, t)| (c, Cell::Text(t)));
            let numbers = [("vial", vial.into()), ("integration_s", 1.0.into())];
            insert(act, &("reading", cells.chain(numbers).collect()))
        })
        .unwrap();
    assert!(vial > 0);
    drop(store);
    // What `recompute` says of a run that it cannot derive is told with its name; everything else is done.
    let ran = desk.run(&["recompute", "p.sqlite"]);
    assert!(ran.err.contains("R-0") && ran.err.contains("recipe"), "{ran:?}");
    desk.run(&["results", "p.sqlite"]).done();
    desk.run(&["report", "p.sqlite", "--out", "r"]).done();
    desk.run(&["case", "p.sqlite", LEAD]).done();
    let page = std::fs::read_to_string(desk.path("r/report.html")).unwrap();
    assert!(page.contains("R-0"), "the report names the run that is left out");
}

/// Rows that an older importer took without a word, each beside what it should have been.
fn far_out(s: &Store) -> Vec<Row<'static>> {
    let (trip, sl2) = (Cell::Integer(1), well(s, "SL-2"));
    let reading = |quantity: &'static str, value: f64, unit: &'static str| -> Row<'static> {
        let words = [("at", "2026-07-14T10:59"), ("quantity", quantity), ("unit", unit)];
        let words = words.into_iter().map(|(c, t)| (c, Cell::Text(t)));
        ("field_reading", [("trip", trip), ("well", sl2), ("value", value.into())].into_iter().chain(words).collect())
    };
    let bottle = |label: &'static str, more: Vec<(&'static str, Cell<'static>)>| -> Row<'static> {
        let words = [("label", label), ("kind", "sample")].map(|(c, t)| (c, Cell::Text(t)));
        ("bottle", words.into_iter().chain([("trip", trip), ("well", sl2)]).chain(more).collect())
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
        bottle("X-1", vec![("volume_mL", 1e-310.into()), ("filled_at", Cell::Text("2062-07-14T09:00"))]),
        bottle("X-2", vec![("volume_mL", 1e308.into()), ("acid_mL", 1e308.into()), ("openings", i64::MAX.into())]),
        bottle("X-3", vec![("cabinet_min", 1e308.into()), ("open_air_min", 1e-310.into())]),
        bottle("X-4", vec![("flow_L_min", 1e-310.into()), ("acid_days", 1e308.into()), ("bags", i64::MIN.into())]),
        ("custody", vec![("trip", trip), ("at", Cell::Text("2062-01-01")), ("step", Cell::Text("sent")), ("temperature_C", 1e308.into())]),
        count(s, "2026-07-14T13:00", 1e-310, 1e-310),
        fill(s, 1e308, 1e308, 1e-310),
        section(s, -1e308, 1e308, 1e-310),
        ("layer", vec![("well", sl2), ("from_m", (-1e308).into()), ("to_m", 1e308.into()), ("material", Cell::Text("sandstone"))]),
        ("spike", vec![("bottle", Cell::Integer(1)), ("analyte", Cell::Text("Pb")), ("added_pg", 1e308.into()), ("u_pg", 1e308.into())]),
        ("lot", vec![("name", Cell::Text("L-0")), ("volume_mL", 1e-310.into()), ("target_pg_Pb", (-1.0).into())]),
        ("source_fact", vec![("what", Cell::Text("deposition velocity, m/s")), ("value", 1e308.into()), ("u", 1e308.into()), ("source", Cell::Text("a slip"))]),
        ("local_limit", vec![("analyte", Cell::Text("Pb")), ("unit", Cell::Text("ug/L")), ("authority", Cell::Text("nobody")), ("limit_high", (-1e308).into())]),
        ("trip", vec![("name", Cell::Text("T-0")), ("starts", Cell::Text("9999-12-31T23:59"))]),
        ("trip", vec![("name", Cell::Text("T-1")), ("starts", Cell::Text("2026-07-14")), ("ends", Cell::Text("2026-07-01"))]),
        ("layer", vec![("well", sl2), ("from_m", 10.0.into()), ("to_m", 20.0.into()), ("material", Cell::Text("clay"))]),
        ("well", vec![("name", Cell::Text("W-0")), ("elevation_m", 1e308.into()), ("latitude_deg", 1e308.into())]),
    ]
}

#[test]
fn numbers_far_out_of_this_world_stop_nothing() {
    let (desk, _) = holding(far_out);
    goes_on(&desk);
}
