//! Bad input: each is refused with file, row, column, what was found and what was expected, and
//! the programme stays as it was (`Desk::refusal` checks that).

use crate::import_common;
use import_common::Desk;

const RESULTS: &str = "bottle,analyte,fraction,value,u,unit\n";

/// A mapping of our own that creates its bottles.
const OWN: &str = r#"
name = "own"
target = "results"

[columns.bottle]
label = "sample"
kind = { constant = "sample" }
filled_at = { heading = "date", optional = true }

[columns.result]
analyte = "analyte"
fraction = { constant = "unfiltered" }
value = "value"
unit = "unit"

[words]
"<" = "below"
"" = "missing"
"#;

const WIDE: &str = r#"
name = "wide"
target = "results-wide"

[columns.bottle]
label = "sample"
kind = { constant = "sample" }

[columns.result]
fraction = { constant = "unfiltered" }

[wide]
pattern = "{analyte} ({unit})"

[words]
"<" = "below"
"" = "missing"
"#;

#[track_caller]
fn check(mapping: &str, text: impl AsRef<[u8]>, parts: &[&str]) {
    let mut desk = Desk::new();
    let message = desk.refusal("lab.csv", mapping, text);
    for p in parts {
        assert!(message.contains(p), "{p:?} is not in:\n{message}");
    }
}

const SEQUENCE: &str = "run,position,name,role,minutes,dilution,analyte,value,u,unit\n";

#[test]
fn a_missing_column() {
    check(
        OWN,
        "sample,analyte,value\nA,Pb,1\n",
        &["lab.csv, row 1", "found the columns", "expected a column \"unit\""],
    );
    check("wells", "site,medium\nx,groundwater\n", &["expected a column \"name\"", "mapping wells"]);
}

#[test]
fn a_mapping_that_names_an_absent_column_or_a_file_with_more() {
    let mapping = OWN.replace("value = \"value\"", "value = { heading = [\"Result\", \"Conc\"] }");
    check(&mapping, "sample,analyte,value,unit\nA,Pb,1,ng/L\n", &["\"Result\", \"Conc\"", "result.value"]);
    check(OWN, "sample,analyte,value,unit,analyst\nA,Pb,1,ng/L,X\n", &["column \"analyst\"", "ignore"]);
}

#[test]
fn a_heading_twice() {
    check(OWN, "sample,analyte,value,value,unit\nA,Pb,1,2,ng/L\n", &["column \"value\"", "2 times", "once"]);
}

#[test]
fn a_doubled_vial() {
    let two = format!("{SEQUENCE}R,1,a,sample,0,1,,,,\nR,1,b,sample,5,1,,,,\n");
    check("sequence", two, &["row 3, column \"position\"", "position 1 a second time", "row 2"]);
    let same = format!("{SEQUENCE}R,1,a,sample,0,1,,,,\nR,1,a,sample,0,1,,,,\n");
    check("sequence", same, &["row 3", "position 1 a second time"]);
    let name = format!("{SEQUENCE}R,1,a,sample,0,1,,,,\nR,2,a,sample,5,1,,,,\n");
    check("sequence", name, &["row 3, column \"name\"", "vial \"a\" at position 2", "position 1"]);
}

#[test]
fn a_standard_without_value() {
    let bad = format!("{SEQUENCE}R,1,s,standard,0,1,,,,\n");
    check("sequence", bad, &["row 2, column \"role\"", "standard at position 1 without an assigned value"]);
    let half = format!("{SEQUENCE}R,1,s,standard,0,1,Pb,20,,ng/L\n");
    check("sequence", half, &["row 2, column \"u\"", "assigned.u is needed"]);
}

#[test]
fn a_negative_dilution() {
    let bad = format!("{SEQUENCE}R,1,s,sample,0,-2,,,,\n");
    check("sequence", bad, &["row 2, column \"dilution\"", "found \"-2\"", "above zero"]);
}

#[test]
fn units_that_differ_or_mean_two_things() {
    check(OWN, "sample,analyte,value,unit\nA,Pb,1,ppt\n", &["row 2, column \"unit\"", "\"ppt\"", "ng/L"]);
    check(OWN, "sample,analyte,value,unit\nA,Pb,1,furlong\n", &["row 2, column \"unit\"", "\"furlong\"", "[units]"]);
    check(OWN, "sample,analyte,value,unit\nA,Pb,1,mV\n", &["row 2", "mV for Pb", "concentration"]);
    check(WIDE, "sample,Pb (ppt)\nA,1\n", &["row 1, column \"Pb (ppt)\"", "ambiguous"]);
    let fixed = OWN
        .replace("value = \"value\"", "value = { heading = \"Pb\", unit = \"ng/L\" }")
        .replace("unit = \"unit\"\n", "")
        .replace("analyte = \"analyte\"", "analyte = { constant = \"Pb\" }");
    // A person's mapping holds over the heading; that the two differ is told (intake, `import_strange`).
    let mut desk = Desk::new();
    let taken = desk.text("lab.csv", &fixed, "sample,Pb (ug/L)\nA,1\n");
    assert!(
        taken
            .notes
            .iter()
            .any(|n| n.message.as_ref().is_some_and(message::Message::is::<message::intake::UnitOfMapping>))
    );
    check(
        "field-readings",
        "well,at,quantity,value,unit\nX,2026-07-01,temperature,9,mg/L\n",
        &["row 2, column \"unit\"", "mg/L for temperature"],
    );
}

#[test]
fn a_result_twice_in_one_file() {
    check(
        OWN,
        "sample,analyte,value,unit\nA,Pb,1,ng/L\nA,Cd,1,ng/L\nA,Pb,2,ng/L\n",
        &["row 4, column \"value\"", "second result of Pb", "row 2"],
    );
}

#[test]
fn numbers_that_cannot_be_told() {
    check(
        OWN,
        "sample,analyte,value,unit\nA,Pb,\"1,5\",ng/L\n",
        &["row 2, column \"value\"", "\"1,5\"", "decimal point"],
    );
    check(OWN, "sample,analyte,value,unit\nA,Pb,0,ng/L\n", &["row 2", "literal zero"]);
    check(OWN, "sample,analyte,value,unit\nA,Pb,ND,ng/L\n", &["\"ND\"", "a word that the mapping explains"]);
    check(OWN, "sample,analyte,value,unit\nA,Pb,-1,ng/L\n", &["\"-1\"", "negative"]);
    let comma = OWN.replace("[columns.bottle]", "[file]\ndelimiter = \";\"\ndecimal = \",\"\n\n[columns.bottle]");
    check(
        &comma,
        "sample;analyte;value;unit\nA;Pb;1,5;ng/L\nB;Pb;1.5;ng/L\n",
        &["row 3, column \"value\"", "\"1.5\"", "decimal comma"],
    );
}

#[test]
fn a_day_that_does_not_exist() {
    check(
        OWN,
        "sample,analyte,value,unit,date\nA,Pb,1,ng/L,2023-02-29\n",
        &["row 2, column \"date\"", "\"2023-02-29\"", "a day that exists"],
    );
}

#[test]
fn something_that_is_no_table() {
    let mut desk = Desk::new();
    let m = desk.refusal("lab.xlsx", OWN, b"%PDF-1.7 ...");
    assert!(m.contains("lab.xlsx") && m.contains("a PDF document under the name of an XLSX workbook"), "{m}");
    let m = desk.refusal("lab.csv", OWN, b"%PDF-1.7 ...");
    assert!(m.contains("a PDF document") && m.contains("delimited text"), "{m}");
    let m = desk.refusal("old.xlsx", OWN, [0xD0, 0xCF, 0x11, 0xE0, 1, 2]);
    assert!(m.contains("old binary Office file"), "{m}");
    let m = desk.refusal("lab.xlsx", OWN, b"sample,analyte\n");
    assert!(m.contains("no workbook"), "{m}");
    check(OWN, b"sample,analyte,value,unit\nA\0B,Pb,1,ng/L\n", &["zero byte"]);
}

#[test]
fn an_empty_file_or_headings_only() {
    check(OWN, "", &["lab.csv", "an empty file"]);
    check(OWN, "\n\n", &["no row of headings"]);
    check(OWN, "sample,analyte,value,unit\n", &["headings and no row of data"]);
}

#[test]
fn a_file_cut_off() {
    check(OWN, "sample,analyte,value,unit\nA,Pb,1,ng/L\nB,\"Pb,1,ng/", &["row 3", "never closed", "cut off"]);
    check(OWN, "sample,analyte,value,unit\nA,Pb,1,ng/L\nB,Pb", &["row 3", "2 cells", "4"]);
    check(
        "counts-blocks",
        "x run R; counts per second; 2 s per replicate\n\nVial;1;a\nReplicate;Pb208@low\n1;2,0\n\nVial;2;b\nReplicate;Pb208@low\n",
        &["row 7", "a block without replicates", "cut off"],
    );
}

#[test]
fn an_isotope_of_a_block_that_cannot_be_read() {
    // Found by random damage: a heading that is no isotope moved the columns after it.
    check(
        "counts-blocks",
        "x run R; counts per second; 2 s per replicate\nVial;1;a\nReplicate;lead;Pb208@low\n1;1,0;2,0\n",
        &["row 3, column \"2\"", "\"lead\"", "an isotope"],
    );
}

#[test]
fn a_workbook_cut_off() {
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (c, h) in ["sample", "analyte", "value", "unit"].iter().enumerate() {
        sheet.write(0, c as u16, *h).unwrap();
    }
    let bytes = book.save_to_buffer().unwrap();
    let mut desk = Desk::new();
    let m = desk.refusal("lab.xlsx", OWN, &bytes[..bytes.len() * 2 / 3]);
    assert!(m.contains("lab.xlsx") && m.contains("cannot be read as a workbook") && m.contains("cut off"), "{m}");
}

#[test]
fn a_workbook_with_several_sheets() {
    let mut book = rust_xlsxwriter::Workbook::new();
    book.add_worksheet().set_name("July").unwrap();
    book.add_worksheet().set_name("August").unwrap();
    let bytes = book.save_to_buffer().unwrap();
    let m = Desk::new().refusal("lab.xlsx", OWN, &bytes);
    assert!(m.contains("July, August") && m.contains("sheet ="), "{m}");
}

#[test]
fn a_line_of_two_hundred_megabytes() {
    // Written in pieces; the reader gives up after its longest record, long before the end.
    use std::io::Write as _;
    let mut desk = Desk::new();
    let path = desk.file("long.csv", "sample,analyte,value,unit\nA,Pb,1,ng/L\n");
    let mut file = std::fs::OpenOptions::new().append(true).open(&path).unwrap();
    let piece = vec![b'x'; 1 << 20];
    for _ in 0..200 {
        file.write_all(&piece).unwrap();
    }
    drop(file);
    let message = desk.take(&path, OWN).unwrap_err().to_string();
    assert!(message.contains("long.csv, row 3") && message.contains("a line longer than 1024 kB"), "{message}");
    assert!(desk.store.events().unwrap().is_empty());
}

#[test]
fn bytes_of_another_encoding() {
    // A mapping that fixes the encoding holds against the file; one that leaves it open is filled by it.
    let utf = OWN.replace("[columns.bottle]", "[file]\nencoding = \"utf-8\"\n\n[columns.bottle]");
    check(&utf, b"sample,analyte,value,unit\nA,Pb,1,\xB5g/L\n", &["row 2, column \"unit\"", "0xB5", "latin-1"]);
    // A file in which both occur was damaged: it is refused at its row, whatever is left open.
    check(OWN, b"sample,analyte,value,unit\n\xC2\xB5,Pb,1,\xB5g/L\n", &["row 2, column \"unit\"", "0xB5"]);
    let latin = OWN.replace("[columns.bottle]", "[file]\nencoding = \"latin-1\"\n\n[columns.bottle]");
    check(&latin, "sample,analyte,value,unit\nA,Pb,1,µg/L\n", &["row 2, column \"unit\"", "UTF-8", "utf-8"]);
}

#[test]
fn a_reference_to_nothing() {
    check("wells", "name,site\nSL-9,Nowhere\n", &["row 2, column \"site\"", "site \"Nowhere\"", "in the programme"]);
    check(
        "laboratory-long",
        format!("{RESULTS}X,Pb,unfiltered,1,0.1,ng/L\n"),
        &["row 2", "bottle \"X\"", "take in the bottles first"],
    );
    check(
        "counts-blocks",
        "x run R; counts per second; 2 s per replicate\nVial;1;a\nReplicate;Pb208@low\n1;2,0\n",
        &["position 1 of run \"R\"", "sequence first"],
    );
    check("bottles", "label,kind,parent\nB,duplicate,A\n", &["row 2, column \"parent\"", "bottle \"A\""]);
}

#[test]
fn a_row_that_differs_from_the_record() {
    let mut desk = Desk::new();
    desk.text("a.csv", "acids", "name,kind\nHN-1,nitric\n");
    let m = desk.refusal("b.csv", "acids", "name,kind\nHN-1,hydrochloric\n");
    assert!(m.contains("row 2, column \"kind\"") && m.contains("nitric") && m.contains("amendment"), "{m}");
    // The same again in another file is no contradiction.
    let again = desk.text("c.csv", "acids", "name,kind\nHN-1,nitric\nHN-2,nitric\n");
    assert_eq!((again.files[0].already, again.files[0].added["acid"]), (1, 1));
}

#[test]
fn every_fault_is_listed_and_many_are_counted() {
    let mut text = String::from("sample,analyte,value,unit\n");
    for i in 0..2500 {
        text += &["S", &i.to_string(), ",Pb,x,ng/L\n"].concat();
    }
    let mut desk = Desk::new();
    let path = desk.file("lab.csv", &text);
    let seen = desk.look(&path, OWN);
    assert_eq!((seen.faults.total, seen.faults.shown.len()), (2500, 1000));
    let message = desk.take(&path, OWN).unwrap_err().to_string();
    assert!(message.starts_with("nothing was taken: 2500 faults"), "{}", &message[..80]);
    assert!(message.ends_with("the first 1000 are shown"));
}

#[test]
fn one_bad_file_keeps_the_whole_bundle_out() {
    let mut desk = Desk::new();
    desk.file("a.csv", "name\nAnn\n");
    desk.file("b.csv", "name\n");
    let bundle = desk.file(
        "all.toml",
        "[[file]]\npath = \"a.csv\"\nmapping = \"people\"\n[[file]]\npath = \"b.csv\"\nmapping = \"sites\"\n",
    );
    let files = intake::import::inputs(&desk.store, &[bundle], "bundle").unwrap();
    let e = intake::import::import(&mut desk.store, &files, "test", "2026-07-01").unwrap_err().to_string();
    assert!(e.contains("b.csv"), "{e}");
    assert!(desk.store.persons().unwrap().is_empty());
}

#[test]
fn a_workbook_that_unpacks_without_end_is_refused_early() {
    use std::io::Write as _;
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("bottles.xlsx");
    let mut zip = zip::ZipWriter::new(std::fs::File::create(&path).unwrap());
    zip.start_file("xl/worksheets/sheet1.xml", zip::write::SimpleFileOptions::default()).unwrap();
    let zeros = vec![b' '; 1 << 20];
    for _ in 0..600 {
        zip.write_all(&zeros).unwrap();
    }
    zip.finish().unwrap();
    assert!(path.metadata().unwrap().len() < 1 << 20, "the bomb is small");
    let mut store = programme::start::start(dir.path().join("a.sqlite"), "test", "2026-07-01").unwrap();
    let inputs = intake::import::inputs(&store, &[path], "bottles").unwrap();
    let seen = intake::import::preview(&mut store, &inputs, "2026-07-01").unwrap();
    assert!(seen.faults.shown[0].sentence.contains("unpacks to"), "{:?}", seen.faults.shown);
}

/// A workbook in parts: the first cannot be read (its sum is wrong), the sheet is sound and unpacks to `blanks` MiB.
fn with_a_first_part_that_cannot_be_read(path: &std::path::Path, blanks: usize) {
    use std::io::{Read as _, Write as _};
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (c, (heading, value)) in
        [("sample", "A"), ("analyte", "Pb"), ("value", "1"), ("unit", "ng/L")].iter().enumerate()
    {
        sheet.write(0, c as u16, *heading).unwrap();
        sheet.write(1, c as u16, *value).unwrap();
    }
    let whole = std::io::Cursor::new(book.save_to_buffer().unwrap());
    let mut parts = zip::ZipArchive::new(whole).unwrap();
    let mut zip = zip::ZipWriter::new(std::fs::File::create(path).unwrap());
    let stored = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    zip.start_file("a-picture.bin", stored).unwrap();
    zip.write_all(b"what nobody reads").unwrap();
    for i in 0..parts.len() {
        let mut part = parts.by_index(i).unwrap();
        let name = part.name().unwrap().to_string();
        let mut text = vec![];
        part.read_to_end(&mut text).unwrap();
        zip.start_file(&*name, zip::write::SimpleFileOptions::default()).unwrap();
        if name == "xl/worksheets/sheet1.xml" {
            let text = String::from_utf8(text).unwrap();
            let (rows, end) = text.split_once("</sheetData>").unwrap();
            zip.write_all(rows.as_bytes()).unwrap();
            let mib = vec![b' '; 1 << 20];
            for _ in 0..blanks {
                zip.write_all(&mib).unwrap();
            }
            zip.write_all(format!("</sheetData>{end}").as_bytes()).unwrap();
        } else {
            zip.write_all(&text).unwrap();
        }
    }
    zip.finish().unwrap();
    let mut bytes = std::fs::read(path).unwrap();
    let at = bytes.windows(17).position(|w| w == b"what nobody reads").unwrap();
    bytes[at] = b'W';
    std::fs::write(path, bytes).unwrap();
}

#[test]
fn a_first_part_that_cannot_be_read_switched_the_guard_off() {
    for blanks in [0, 200] {
        let mut desk = Desk::new();
        let path = desk.file("lab.xlsx", "");
        with_a_first_part_that_cannot_be_read(&path, blanks);
        assert!(path.metadata().unwrap().len() < 1 << 20);
        let e = desk.take(&path, OWN).map(|t| t.files).expect_err("it was taken").to_string();
        assert!(e.contains("lab.xlsx") && e.contains("a-picture.bin"), "{e}");
        assert!(desk.store.events().unwrap().is_empty());
    }
}
