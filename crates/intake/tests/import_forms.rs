//! One table in many forms gives the same rows: text and workbook, encodings, decimal signs,
//! delimiters, layouts of counts. And a result reported again follows the stated rule.

use crate::import_common;
use import_common::{Desk, content};
use record::model::{Censor, State};
use record::store::Filter;

const MAPPING: &str = r#"
name = "form"
target = "results"

[file]
FORM

[columns.bottle]
label = "sample"
kind = { constant = "sample" }
filled_at = { template = "{date} {time}" }

[columns.result]
analyte = "analyte"
fraction = { constant = "unfiltered" }
value = "value"
unit = "unit"
remark = "remark"

[words]
"<" = "below"
"E" = "estimated"
"ND" = "not-detected"
"" = "missing"

[remarks]
"" = "value"
"J" = "estimated"
"#;

const ROWS: [[&str; 7]; 6] = [
    ["A", "2026-07-01", "09:30", "Pb", "1.25", "µg/L", ""],
    ["A", "2026-07-01", "09:30", "Cd", "<0.5", "ng/L", ""],
    ["B", "2026-07-02", "10:05", "Pb", "E 0.3", "ng/L", ""],
    ["B", "2026-07-02", "10:05", "Cd", "ND", "ng/L", ""],
    ["C", "2026-07-03", "23:59", "Pb", "12345.678", "ng/L", "J"],
    ["C", "2026-07-03", "23:59", "Cd", "", "ng/L", ""],
];
const HEAD: [&str; 7] = ["sample", "date", "time", "analyte", "value", "unit", "remark"];

fn table(delimiter: &str, decimal: &str) -> String {
    let mut out = HEAD.join(delimiter) + "\r\n";
    for row in ROWS {
        let mut row = row.map(str::to_string);
        row[4] = row[4].replace('.', decimal);
        out += &(row.join(delimiter) + "\r\n");
    }
    out
}

fn rows(form: &str, name: &str, bytes: impl AsRef<[u8]>) -> Vec<String> {
    let mut desk = Desk::new();
    let path = desk.file(name, bytes);
    desk.take(&path, &MAPPING.replace("FORM", form)).unwrap_or_else(|e| panic!("{form}: {e}"));
    content(&desk.store)
}

#[test]
fn one_table_in_many_forms() {
    let plain = rows("", "lab.csv", table(",", "."));
    assert_eq!(plain.iter().filter(|r| r.starts_with("result ")).count(), 5);
    let latin: Vec<u8> = table(",", ".").chars().map(|c| if c == 'µ' { 0xB5 } else { c as u8 }).collect();
    assert_eq!(rows("encoding = \"latin-1\"", "lab.csv", latin), plain);
    assert_eq!(rows("", "lab.csv", format!("\u{feff}{}", table(",", "."))), plain);
    assert_eq!(rows("delimiter = \"auto\"", "lab.csv", table("\t", ".")), plain);
    assert_eq!(rows("delimiter = \";\"\ndecimal = \",\"", "lab.csv", table(";", ",")), plain);
    let mut wide: Vec<u8> = vec![0xFF, 0xFE];
    wide.extend(table(",", ".").encode_utf16().flat_map(u16::to_le_bytes));
    assert_eq!(rows("", "lab.csv", wide), plain);
    let title = format!("Report of July\n\n{}", table(",", "."));
    assert_eq!(rows("header_row = 3", "lab.csv", title), plain);
}

#[test]
fn a_workbook_gives_what_the_text_gives() {
    let mut book = rust_xlsxwriter::Workbook::new();
    book.add_worksheet().set_name("Notes").unwrap();
    let sheet = book.add_worksheet().set_name("Results").unwrap();
    let day = rust_xlsxwriter::Format::new().set_num_format("yyyy-mm-dd");
    let clock = rust_xlsxwriter::Format::new().set_num_format("hh:mm");
    for (c, h) in HEAD.iter().enumerate() {
        sheet.write(0, c as u16, *h).unwrap();
    }
    for (r, row) in ROWS.iter().enumerate() {
        let r = r as u32 + 1;
        for (c, text) in row.iter().enumerate() {
            let c = c as u16;
            match (c, text.parse::<f64>()) {
                (_, Ok(x)) => sheet.write(r, c, x).unwrap(),
                (1, _) => {
                    let date = rust_xlsxwriter::ExcelDateTime::parse_from_str(text).unwrap();
                    sheet.write_with_format(r, c, &date, &day).unwrap()
                }
                (2, _) => {
                    let time = rust_xlsxwriter::ExcelDateTime::parse_from_str(text).unwrap();
                    sheet.write_with_format(r, c, &time, &clock).unwrap()
                }
                _ if text.is_empty() => sheet,
                _ => sheet.write(r, c, *text).unwrap(),
            };
        }
    }
    let bytes = book.save_to_buffer().unwrap();
    let plain = rows("", "lab.csv", table(",", "."));
    assert_eq!(rows("sheet = \"Results\"", "lab.xlsx", &bytes), plain);
}

#[test]
fn numbers_of_a_workbook_have_no_decimal_sign() {
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (c, h) in HEAD.iter().enumerate() {
        sheet.write(0, c as u16, *h).unwrap();
    }
    for (c, text) in ROWS[0].iter().enumerate() {
        match text.parse::<f64>() {
            Ok(x) => sheet.write(1, c as u16, x).unwrap(),
            _ => sheet.write(1, c as u16, *text).unwrap(),
        };
    }
    let bytes = book.save_to_buffer().unwrap();
    assert_eq!(rows("decimal = \",\"", "lab.xlsx", &bytes), rows("decimal = \".\"", "lab.xlsx", &bytes));
}

#[test]
fn states_and_limits_of_a_laboratory() {
    let mut desk = Desk::new();
    let path = desk.file("lab.csv", table(",", "."));
    desk.take(&path, &MAPPING.replace("FORM", "")).unwrap();
    let results = desk.store.results(&Filter::all()).unwrap();
    let says: Vec<_> = results.iter().map(|r| (r.censor, r.value, r.limit_value, r.state)).collect();
    assert_eq!(
        says,
        [
            (Censor::Equal, Some(1.25), None, State::Quantified),
            (Censor::Below, None, Some(0.5), State::NotDetected),
            (Censor::Equal, Some(0.3), None, State::Estimated),
            (Censor::Below, None, None, State::NotDetected),
            (Censor::Equal, Some(12345.678), None, State::Estimated),
        ]
    );
    assert_eq!(results[1].file_row, Some(3));
    assert_eq!(results[0].identity().to_string(), "A:Pb:@:unfiltered#1");
    assert_eq!(results[0].subject, results[0].identity().to_string());
}

#[test]
fn reported_again_the_same_is_kept_once_and_another_is_a_revision() {
    let mapping = MAPPING.replace("FORM", "");
    let mut desk = Desk::new();
    let path = desk.file("a.csv", table(",", "."));
    desk.take(&path, &mapping).unwrap();
    let text = table(",", ".").replace("1.25,µg/L", "1250,ng/L").replace("<0.5", "<0.4");
    let path = desk.file("b.csv", text);
    let taken = desk.take(&path, &mapping).unwrap();
    assert_eq!((taken.files[0].kept, taken.files[0].revised), (4, 1));
    let newest = desk.store.results(&Filter::all().latest()).unwrap();
    let cadmium = newest.iter().find(|r| r.bottle == "A" && r.analyte == "Cd").unwrap();
    assert_eq!((cadmium.revision, cadmium.limit_value), (2, Some(0.4)));
}

#[test]
fn counts_in_rows_across_and_in_blocks_are_the_same() {
    let sequence = "run,position,name,role,minutes\nR,1,blank,calibration-blank,0\nR,2,w,sample,5\n";
    let blocks = "x run R; counts per second; 0,5 s per replicate\n\nVial;2;w\nReplicate;Pb208@low;Cr52@medium\n1;10,5;20\n2;11;21\n\nVial;1;blank\nReplicate;Pb208@low;Cr52@medium\n1;1;2\n2;1,5;2,5\nMean;1,25;2,25\n";
    let wide = "run,position,replicate,integration_s,Pb208@low,Cr52@medium\nR,1,2,0.5,1.5,2.5\nR,1,1,0.5,1,2\nR,2,1,0.5,10.5,20\nR,2,2,0.5,11,21\n";
    let tidy = "run,position,name,role,minutes,isotope,resolution,integration_s,rate_1_cps,rate_2_cps\n\
        R,2,w,sample,5,Cr52,medium,0.5,20,21\nR,1,blank,calibration-blank,0,208Pb,low,0.5,1,1.5\n\
        R,1,blank,calibration-blank,0,Cr52,medium,0.5,2,2.5\nR,2,w,sample,5,Pb208,low,0.5,10.5,11\n";
    let of = |files: &[(&str, &str)]| {
        let mut desk = Desk::new();
        for (mapping, text) in files {
            desk.text(&format!("{mapping}.csv"), mapping, text);
        }
        content(&desk.store)
    };
    let one = of(&[("sequence", sequence), ("counts-blocks", blocks)]);
    assert_eq!(one.iter().filter(|r| r.starts_with("reading ")).count(), 4);
    assert_eq!(one, of(&[("sequence", sequence), ("counts-wide", wide)]));
    assert_eq!(one, of(&[("counts-tidy", tidy)]));
}

#[test]
fn assigned_values_in_tidy_counts_belong_to_the_vial_once() {
    let tidy = "run,position,name,role,minutes,isotope,resolution,integration_s,rate_1_cps,assigned,u_assigned,unit\n\
        R,1,s,standard,0,Pb206,low,0.5,1,20,0.1,ng/L\nR,1,s,standard,0,Pb208,low,0.5,2,20,0.1,ng/L\nR,1,s,standard,0,In115,low,0.5,2,,,\n";
    let mut desk = Desk::new();
    desk.text("run.csv", "counts-tidy", tidy);
    let run = desk.store.runs().unwrap()[0].id;
    let assigned = desk.store.assigned(run).unwrap();
    assert_eq!(assigned.iter().map(|a| (a.analyte.as_str(), a.value)).collect::<Vec<_>>(), [("Pb", 20.0)]);
    let other = tidy.replace("2,20,0.1", "2,30,0.1");
    let m = Desk::new().refusal("run.csv", "counts-tidy", other);
    assert!(m.contains("row 3") && m.contains("position 1 with Pb a second time"), "{m}");
}

#[test]
fn units_of_headings_are_turned_into_the_record_s() {
    let mapping = "name = \"x\"\ntarget = \"fill\"\n[columns]\nwell = \"well\"\nvolume_L = { heading = \"Volume\", unit = \"heading\" }\nseconds = \"seconds\"\n";
    let mut desk = Desk::new();
    desk.text("wells.csv", "wells", "name\nW\n");
    desk.text("fills.csv", mapping, "well,Volume (mL),seconds\nW,750,7.9\n");
    assert!((desk.store.fills(&Filter::all()).unwrap()[0].volume_L - 0.75).abs() < 1e-12);
}

#[test]
fn a_mapping_of_one_s_own_is_kept_and_found_again() {
    let mut desk = Desk::new();
    let text = MAPPING.replace("FORM", "");
    let path = desk.file("own.toml", &text);
    let file = desk.file("lab.csv", table(",", "."));
    let files = intake::import::inputs(&desk.store, &[file], path.to_str().unwrap()).unwrap();
    intake::import::import(&mut desk.store, &files, "test", "2026-07-20").unwrap();
    let again = intake::import::find_mapping(&desk.store, "form").unwrap();
    assert_eq!(again.toml, text);
}

#[test]
fn another_uncertainty_of_the_same_value_was_told_as_the_same() {
    const OWN: &str = "name = \"own\"\ntarget = \"results\"\n[columns.bottle]\nlabel = \"sample\"\nkind = { constant = \"sample\" }\n[columns.result]\nanalyte = \"analyte\"\nfraction = { constant = \"unfiltered\" }\nvalue = \"value\"\nunit = \"unit\"\nu = { heading = \"u\", optional = true }\nreporting_limit = { heading = \"limit\", optional = true }\n";
    let mut d = Desk::new();
    let mut take = |text: &str| {
        let taken = d.text("lab.csv", OWN, text);
        (taken.files[0].added.get("result").copied().unwrap_or(0), taken.files[0].revised, taken.files[0].kept)
    };
    assert_eq!(take("sample,analyte,value,unit,u\nX,Pb,0.021,ug/L,7.5\n"), (1, 0, 0));
    // The same in another unit, and without a word of the uncertainty: nothing new.
    assert_eq!(take("sample,analyte,value,unit,u\nX,Pb,21,ng/L,7500\n"), (0, 0, 1));
    assert_eq!(take("sample,analyte,value,unit\nX,Pb,0.021,ug/L\n"), (0, 0, 1));
    assert_eq!(take("sample,analyte,value,unit,u\nX,Pb,0.021,ug/L,0.001575\n"), (1, 1, 0));
    assert_eq!(take("sample,analyte,value,unit,u,limit\nX,Pb,0.021,ug/L,0.001575,0.02\n"), (1, 1, 0));
}
