//! The unit of a column is declared once: a heading that carries a unit is turned into it, or refused where it measures
//! something else. Expected figures are definitions: 1 min = 60 s, 1 d = 24 h, 1 ft = 0.3048 m (international foot, 1959),
//! 0 °C = 273.15 K.

use crate::import_common::Desk;
use quantity::Unit;
use record::bounds;
use record::schema::{self, Kind, TABLES, UnitOf};

/// What the end of a name could mean as a unit: parts joined by a line are a quotient, and a few words and letters.
fn unit_like(end: &str) -> Option<Unit> {
    let code = match end {
        "seconds" => "s".to_string(),
        "minutes" => "min".to_string(),
        "hours" => "h".to_string(),
        "days" => "d".to_string(),
        "cps" => "counts/s".to_string(),
        end => end.replacen('_', "/", 1),
    };
    Unit::parse(&code).ok()
}

/// Ends of names that read as a unit and are none.
// `from_day` and `until_day` hold the day itself, not how many; `in_year` the year.
const NO_UNIT: &[(&str, &str)] = &[
    ("air_count", "count"),
    ("laboratory_quality", "from_day"),
    ("laboratory_quality", "until_day"),
    ("input_history", "in_year"),
];

#[test]
fn a_column_whose_name_ends_in_a_unit_declares_it() {
    for t in TABLES {
        for c in t.columns {
            let name = c.name.strip_suffix("_Pb").unwrap_or(c.name);
            // The longest end is what the name says: L_min, not min.
            let mut starts = [0].into_iter().chain(name.match_indices('_').map(|(k, _)| k + 1));
            let said = starts.find_map(|k| unit_like(&name[k..]));
            if NO_UNIT.contains(&(t.name, c.name)) {
                assert!(said.is_some() && c.unit == UnitOf::None, "{}.{}: no exception is needed", t.name, c.name);
            } else {
                assert_eq!(c.fixed_unit(), said, "{}.{}", t.name, c.name);
            }
        }
    }
}

#[test]
fn a_declared_unit_is_one_that_the_program_knows_and_stands_where_the_name_says() {
    for t in TABLES {
        for c in t.columns {
            match c.unit {
                UnitOf::Fixed(u) => {
                    assert_eq!(u.unit().ucum(), u.ucum, "{}.{}", t.name, c.name);
                    assert!(c.name.ends_with(u.ending), "{}.{}: {}", t.name, c.name, u.ending);
                    assert!(matches!(c.kind, Kind::Real | Kind::Integer | Kind::Json), "{}.{}", t.name, c.name);
                }
                UnitOf::Column(name) => {
                    let unit = t.column(name).unwrap_or_else(|| panic!("{}.{}: no column {name}", t.name, c.name));
                    assert!(
                        unit.kind == Kind::Unit || (t.name, name) == ("local_limit", "unit"),
                        "{}.{}",
                        t.name,
                        c.name
                    );
                }
                UnitOf::None => {}
            }
        }
    }
    // A column of units is the unit of some number.
    for t in TABLES {
        for u in t.columns.iter().filter(|c| c.kind == Kind::Unit) {
            assert!(t.columns.iter().any(|c| c.unit == UnitOf::Column(u.name)), "{}.{}", t.name, u.name);
        }
    }
}

#[test]
fn a_bound_stands_once_in_the_unit_of_its_column() {
    let mut named = vec!["pH", "temperature"];
    for t in TABLES {
        for c in t.columns {
            let Some(name) = c.range.bound else { continue };
            let bound = bounds::of(name).unwrap_or_else(|| panic!("{}.{}: no bound {name}", t.name, c.name));
            assert_eq!(Some(Unit::known(&bound.unit)), c.fixed_unit(), "{}.{}", t.name, c.name);
            for (x, inside) in
                [(bound.lower, true), (bound.upper, true), (bound.lower - 1.0, false), (bound.upper * 2.0, false)]
            {
                assert_eq!(c.check(x).is_ok(), inside, "{}.{} {x}", t.name, c.name);
            }
            named.push(name);
        }
    }
    for b in bounds::table() {
        assert!(named.contains(&&*b.quantity), "{}: of no column and no reading", b.quantity);
    }
}

#[test]
fn what_cannot_be_less_than_nothing_was_taken() {
    for (column, value) in [("flow_L_min", "-2.4"), ("u_flow_L_min", "-0.1"), ("bags", "-1"), ("acid_days", "-3")] {
        let said = desk().refusal("b.csv", "bottles", format!("label,kind,{column}\nA,sample,{value}\n"));
        assert!(said.contains(&format!("column \"{column}\"")) && said.contains("zero or more"), "{said}");
    }
}

/// What the record holds of one column, row by row.
fn kept(desk: &Desk, table: &str, column: &str) -> Vec<f64> {
    let place = schema::table(table).unwrap().place(column).unwrap();
    let mut out = vec![];
    desk.store
        .dump(table, |_, _, cells| {
            out.push(cells[place].describe().parse().unwrap());
            Ok(())
        })
        .unwrap();
    out
}

/// A mapping that names the given columns by the given words, and all else of a table by the record's own headings.
fn mapping(table: &str, named: &[(&str, &str)]) -> String {
    let lines =
        named.iter().map(|(column, heading)| format!("{column} = \"{heading}\"")).collect::<Vec<_>>().join("\n");
    format!("name = \"own\"\ntarget = \"{table}\"\nheadings = \"own\"\n[columns]\n{lines}")
}

fn desk() -> Desk {
    let mut desk = Desk::new();
    desk.text("wells.csv", "wells", "name\nSL-2\n");
    desk
}

/// `file`: other headings of the row and their values.
#[track_caller]
fn taken(table: &str, column: &str, heading: (&str, &str), value: &str, others: [&str; 2], expected: f64) {
    let (word, written) = heading;
    let mut desk = desk();
    desk.text(
        "rows.csv",
        &mapping(table, &[(column, word)]),
        &format!("{},{written}\n{},{value}\n", others[0], others[1]),
    );
    let found = kept(&desk, table, column);
    // One multiplication and one addition of doubles.
    assert!(found.len() == 1 && (found[0] - expected).abs() <= 1e-12 * expected.abs(), "{written}: {found:?}");
}

#[track_caller]
fn refused(table: &str, column: &str, heading: (&str, &str), others: [&str; 2]) {
    let (word, written) = heading;
    let text = format!("{},{written}\n{},1\n", others[0], others[1]);
    let said = desk().refusal("rows.csv", &mapping(table, &[(column, word)]), text);
    assert!(said.contains(&format!("column \"{written}\"")), "{said}");
}

const BOTTLE: [&str; 2] = ["label,kind", "A,sample"];
const FILL: [&str; 2] = ["well,volume_L", "SL-2,10"];
const LOT: [&str; 2] = ["name", "15"];
const SITE: [&str; 2] = ["name", "Sallow Levels"];

#[test]
fn a_flow_headed_in_litres_a_minute_was_refused() {
    taken("bottle", "flow_L_min", ("Flow", "Flow (L/min)"), "2.4", BOTTLE, 2.4);
    taken("bottle", "u_flow_L_min", ("u of flow", "u of flow (L/min)"), "0.1", BOTTLE, 0.1);
    taken("bottle", "flow_L_min", ("Flow", "Flow [mL/s]"), "40", BOTTLE, 2.4);
    // It was taken for a time.
    refused("bottle", "flow_L_min", ("Flow", "Flow (min)"), BOTTLE);
}

#[test]
fn times_headed_in_another_unit_were_kept_as_they_stood() {
    taken("fill", "seconds", ("Time", "Time (s)"), "25.1", FILL, 25.1);
    taken("fill", "seconds", ("Time", "Time (min)"), "0.5", FILL, 30.0);
    taken("lot", "acid_days", ("In acid", "In acid (h)"), "36", LOT, 1.5);
    taken("bottle", "acid_days", ("In acid", "In acid (h)"), "36", BOTTLE, 1.5);
    refused("fill", "seconds", ("Time", "Time (mL)"), FILL);
    refused("lot", "acid_days", ("In acid", "In acid (mL)"), LOT);
}

#[test]
fn a_sequence_headed_in_seconds_was_taken_for_minutes() {
    let sequence = "name = \"own\"\ntarget = \"sequence\"\n[columns.run]\nname = \"run\"\n[columns.vial]\nposition = \"position\"\nname = \"name\"\nrole = \"role\"\nminutes = \"Time\"\n";
    let mut desk = desk();
    desk.text("sequence.csv", sequence, "run,position,name,role,Time (s)\nR,1,a,sample,90\n");
    assert_eq!(kept(&desk, "vial", "minutes"), [1.5]);
    let said = desk.refusal("later.csv", sequence, "run,position,name,role,Time (mL)\nS,1,a,sample,90\n");
    assert!(said.contains("column \"Time (mL)\""), "{said}");
}

#[test]
fn degrees_are_a_unit_and_metres_are_no_degrees() {
    for table in ["site", "well"] {
        let row = if table == "site" { SITE } else { ["name", "SL-9"] };
        for written in ["Latitude (°)", "Latitude (deg)", "Latitude"] {
            let mut desk = Desk::new();
            desk.text(
                "rows.csv",
                &mapping(table, &[("latitude_deg", "Latitude")]),
                &format!("name,{written}\n{},52.5\n", row[1]),
            );
            assert_eq!(kept(&desk, table, "latitude_deg"), [52.5], "{table} {written}");
        }
        for column in ["latitude_deg", "longitude_deg"] {
            for wrong in ["Place (m)", "Place (%)", "Place (°C)"] {
                refused(table, column, ("Place", wrong), row);
            }
        }
    }
}

#[test]
fn headings_that_were_read_are_read_as_before() {
    let section = ["well,to_m,radius_m,kind", "SL-2,90,0.05,casing"];
    taken("well_section", "from_m", ("Depth", "Depth [m]"), "12", section, 12.0);
    taken("well_section", "from_m", ("Depth", "Depth [ft]"), "100", section, 30.48);
    taken("custody", "temperature_C", ("Temp.", "Temp. (°C)"), "4.5", ["at,step", "2026-07-15,sealed"], 4.5);
    taken("custody", "temperature_C", ("Temp.", "Temp. (K)"), "277.65", ["at,step", "2026-07-15,sealed"], 4.5);
    taken("bottle", "volume_mL", ("Volume", "\"Volume, L\""), "0.25", BOTTLE, 250.0);
    refused("bottle", "volume_mL", ("Volume", "Volume (m)"), BOTTLE);
}

#[test]
fn a_laboratory_s_headings_in_german_carry_their_units() {
    let wide = "name = \"own\"\ntarget = \"results-wide\"\n[columns.bottle]\nlabel = \"Probe\"\nkind = { constant = \"sample\" }\n[columns.result]\nfraction = { constant = \"unfiltered\" }\n[wide.analytes]\n\"Leitfähigkeit\" = { analyte = \"conductivity\" }\n\"Temp.\" = { analyte = \"temperature\" }\npH = { analyte = \"pH\", unit = \"pH\" }\n";
    let mut desk = desk();
    desk.text("labor.csv", wide, "Probe,pH,Temp. (°C),Leitfähigkeit (µS/cm)\nA,7.41,9.6,412\n");
    let mut found = kept(&desk, "result", "value");
    found.sort_by(f64::total_cmp);
    assert_eq!(found, [7.41, 9.6, 412.0]);
    let said = desk.refusal("labor-2.csv", wide, "Probe,pH,Temp. (°C),Leitfähigkeit (mg/L)\nB,7.41,9.6,412\n");
    assert!(said.contains("row 2, column \"Leitfähigkeit (mg/L)\""), "{said}");
}

#[test]
fn one_replicate_a_row_is_in_the_unit_of_them_all() {
    let counts = "name = \"own\"\ntarget = \"counts\"\n[columns.run]\nname = \"run\"\n[columns.vial]\nposition = \"position\"\nname = \"name\"\nrole = \"role\"\nminutes = \"minutes\"\n[columns.reading]\nisotope = \"isotope\"\nresolution = \"resolution\"\nmode = { constant = \"counting\" }\nintegration_s = \"Time\"\nreplicate = \"replicate\"\nrate_cps = \"Rate\"\n[counts]\nlayout = \"rows\"\n";
    let mut desk = desk();
    let head = "run,position,name,role,minutes,isotope,resolution,Time (min),replicate,Rate (counts/min)\n";
    let row = "R,1,a,sample,0,Pb208,low,0.5";
    desk.text("counts.csv", counts, &format!("{head}{row},1,600\n{row},2,1200\n"));
    assert_eq!(kept(&desk, "reading", "integration_s"), [30.0]);
    let mut rates = vec![];
    let place = schema::table("reading").unwrap().place("rates_cps").unwrap();
    desk.store
        .dump("reading", |_, _, cells| {
            rates.push(cells[place].describe());
            Ok(())
        })
        .unwrap();
    let numbers: Vec<f64> = rates[0].trim_matches(['"', '[', ']']).split(',').map(|x| x.parse().unwrap()).collect();
    // 600 counts a minute are 10 a second.
    assert_eq!(numbers, [10.0, 20.0]);
}
