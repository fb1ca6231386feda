//! Files that nobody here shaped: what other programs write (`strange/make.py` made them), each guessed, completed by a
//! person's answers, and read whole; and every question that a file leaves open, by its message.
//!
//! The expected values stand in the script beside the files; the factors are those of the units (1 mg/L = 1000 µg/L).

use crate::import_common::Desk;
use intake::import::guess::{Place, guess};
use intake::import::{ImportError, Imported, Input, Mapping, preview};
use message::{Arg, Message, expected, found, intake as said};
use quantity::Check;
use record::model::Censor;
use record::store::Filter;
use std::path::{Path, PathBuf};

fn strange(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/strange").join(name)
}

fn answers(said: &[&str]) -> Vec<String> {
    let always = ["bottle.kind=sample"];
    always.iter().chain(said).map(|s| (*s).to_string()).collect()
}

/// Guesses, answers, takes in: results as text, `bottle analyte sign value unit`.
#[track_caller]
fn taken(name: &str, said: &[&str]) -> (Vec<String>, Imported) {
    let path = strange(name);
    let g = guess(&path, &answers(said)).unwrap();
    assert!(g.questions.is_empty(), "{:?}: {}", g.questions, g.toml());
    let mapping = g.mapping().unwrap_or_else(|e| panic!("{e}\n{}", g.toml()));
    let mut desk = Desk::new();
    let taken = intake::import::import(&mut desk.store, &[Input { path, mapping }], "test", "2026-07-20T10:00:00Z")
        .unwrap_or_else(|e| panic!("{e}\n{}", g.toml()));
    let results = desk.store.results(&Filter::all()).unwrap();
    let line = |r: &record::model::ResultRow| {
        let sign = match r.censor {
            Censor::Equal => "",
            Censor::Below => "<",
            Censor::Above => ">",
        };
        let number = r.value.or(r.limit_value).map_or("?".to_string(), |x| format!("{x}"));
        let u = r.u.map_or(String::new(), |u| format!(" u {u:.4}"));
        format!("{} {} {sign}{number} {}{u}", r.bottle, r.analyte, r.unit)
    };
    (results.iter().map(line).collect(), taken)
}

/// The fault of a guessed file, whatever of it is answered.
#[track_caller]
fn refused(name: &str, said: &[&str]) -> Vec<(Check, Option<u64>, Message)> {
    let path = strange(name);
    let mapping = guess(&path, &answers(said)).unwrap().mapping().unwrap();
    refused_by(&path, mapping)
}

#[track_caller]
fn refused_by(path: &Path, mapping: Mapping) -> Vec<(Check, Option<u64>, Message)> {
    let mut desk = Desk::new();
    let input = Input { path: path.to_path_buf(), mapping };
    match intake::import::import(&mut desk.store, &[input], "test", "2026-07-20T10:00:00Z") {
        Err(ImportError::Refused(f)) => {
            f.shown.into_iter().map(|f| (f.check, f.place.and_then(|p| p.row), f.message.unwrap())).collect()
        }
        other => panic!("{other:?}"),
    }
}

/// One of the halves of a fault.
fn half(m: &Message, which: &str) -> Message {
    match m.arg(which) {
        Some(Arg::Message(m)) => m.clone(),
        other => panic!("{other:?}"),
    }
}

fn notes(taken: &Imported, is: impl Fn(&Message) -> bool) -> Vec<(Option<u64>, &Message)> {
    let all = taken.notes.iter().filter(|n| n.message.as_ref().is_some_and(&is));
    all.map(|n| (n.place.as_ref().and_then(|p| p.row), n.message.as_ref().unwrap())).collect()
}

#[test]
fn a_german_spreadsheet_with_title_words_groups_and_notes() {
    let (results, seen) = taken("german_excel.csv", &["result.fraction=unfiltered"]);
    assert_eq!(
        results,
        [
            "SL-1/26 Pb 1.25 ug/L",
            "SL-1/26 Cd <0.05 ug/L",
            "SL-1/26 As <0.1 ug/L",
            "SL-2/26 Pb 1234.5 ug/L",
            // Not detected: below the detection limit, as the report has no reporting limit.
            "SL-2/26 Cd <0.01 ug/L",
        ]
    );
    assert_eq!(seen.files[0].without, 1, "n.b. is not measured: the legend below the table says so");
    let left = notes(&seen, Message::is::<said::FooterLeft>);
    assert_eq!(left.iter().map(|(row, _)| *row).collect::<Vec<_>>(), [Some(11), Some(12)]);
}

#[test]
fn what_r_writes_for_a_country_with_decimal_commas() {
    let (results, seen) = taken("r_csv2.csv", &[]);
    assert_eq!(results, ["A-1 Pb 1.25 ug/L", "A-2 Pb 0.5 ug/L"]);
    assert_eq!(seen.files[0].without, 1, "NA");
}

#[test]
fn one_table_as_text_and_as_three_kinds_of_workbook() {
    let want = ["SL-1/26 Pb 1.25 ug/L", "SL-1/26 Cd 0.05 ug/L", "SL-2/26 Pb 1234.5 ug/L"];
    for file in ["pandas.csv", "pandas.xlsx", "pandas.ods", "old.xls"] {
        let (results, seen) = taken(file, &["result.fraction=unfiltered"]);
        assert_eq!(results, want, "{file}");
        let unseen = notes(&seen, Message::is::<said::HiddenUnseen>).len();
        assert_eq!(unseen, usize::from(file == "old.xls"), "{file}");
    }
}

#[test]
fn units_and_methods_under_the_headings_of_the_one_sheet_with_a_table() {
    let (results, _) = taken("units.xlsx", &["result.fraction=unfiltered"]);
    assert_eq!(
        results,
        [
            "A-1 Pb 1.25 ug/L",
            "A-1 Cd <0.5 ng/L",
            "A-1 pH 7.1 [pH]",
            "A-2 Pb 1.5 ug/L",
            "A-2 Cd 12 ng/L",
            "A-2 pH 7.3 [pH]",
        ]
    );
    let path = strange("units.xlsx");
    let g = guess(&path, &answers(&["result.fraction=unfiltered"])).unwrap();
    assert_eq!((g.form.header_row, g.form.units_row, g.form.methods_row), (Some(3), Some(4), Some(5)));
    assert_eq!(g.form.sheet.as_deref(), Some("Metalle"));
    let mut desk = Desk::new();
    intake::import::import(
        &mut desk.store,
        &[Input { path, mapping: g.mapping().unwrap() }],
        "test",
        "2026-07-20T10:00:00Z",
    )
    .unwrap();
    let results = desk.store.results(&Filter::all()).unwrap();
    let ph = results.iter().find(|r| r.analyte == "pH").unwrap();
    assert_eq!(ph.method.as_deref(), Some("DIN EN ISO 10523"));
}

#[test]
fn hidden_rows_and_columns_are_asked_about_and_then_taken_or_left() {
    let faults = refused("hidden.xlsx", &["result.fraction=unfiltered"]);
    let [(check, None, says)] = &faults[..] else { panic!("{faults:?}") };
    assert_eq!(*check, Check::FileForm);
    assert_eq!(half(says, "found"), found::Hidden { rows: 1, columns: 1 }.into());
    assert_eq!(half(says, "expected"), expected::HiddenSaid.into());
    let (all, seen) = taken("hidden.xlsx", &["result.fraction=unfiltered", "file.hidden=take"]);
    assert_eq!(all, ["A-1 Pb 1.5 ng/L", "A-1 Cd 9.9 ng/L", "A-2 Pb 2.5 ng/L"]);
    assert_eq!(notes(&seen, Message::is::<said::HiddenTaken>).len(), 1);
    let path = strange("hidden.xlsx");
    let leave = guess(&path, &answers(&["result.fraction=unfiltered", "file.hidden=leave"])).unwrap();
    let text = leave.toml().replace("ignore = [\"intern\"]\n", "");
    let mut desk = Desk::new();
    let input = Input { path, mapping: Mapping::parse(&text).unwrap() };
    let seen = preview(&mut desk.store, &[input], "2026-07-20T10:00:00Z").unwrap();
    assert!(seen.faults.is_empty(), "{:?}", seen.faults);
    assert_eq!(seen.files[0].added["result"], 2);
}

#[test]
fn a_formula_without_its_result_is_a_fault_of_its_cell() {
    let faults = refused("formula.xlsx", &["result.fraction=unfiltered"]);
    let [(check, Some(3), says)] = &faults[..] else { panic!("{faults:?}") };
    assert_eq!(*check, Check::FileValue);
    assert_eq!(half(says, "found"), found::FormulaWithoutResult.into());
    assert_eq!(half(says, "expected"), expected::StoredResult.into());
}

#[test]
fn a_table_on_its_side_in_utf_16() {
    let (results, seen) = taken("on_its_side.txt", &["result.fraction=unfiltered"]);
    assert_eq!(
        results,
        [
            "SL-1/26 Pb 1.25 ug/L",
            "SL-1/26 Cd 12.5 ng/L",
            "SL-1/26 As 0.8 ug/L",
            "SL-2/26 Pb <0.5 ug/L",
            "SL-2/26 Cd 7 ng/L",
            "SL-2/26 As 0.9 ug/L",
        ]
    );
    assert_eq!(notes(&seen, Message::is::<said::LiesOnItsSide>).len(), 1);
}

#[test]
fn blocks_one_under_the_other() {
    let (results, seen) = taken("blocks.csv", &["result.fraction=unfiltered"]);
    assert_eq!(
        results,
        [
            "SL-1/26 Pb 1.25 ug/L",
            "SL-1/26 Cd 12.5 ng/L",
            "SL-2/26 Pb 2.5 ug/L",
            "SL-2/26 Cd 7 ng/L",
            "SL-1/26 Cl 31.5 mg/L",
            "SL-1/26 SO4 48 mg/L",
            "SL-2/26 Cl 33 mg/L",
            "SL-2/26 SO4 <1 mg/L",
        ]
    );
    assert_eq!(seen.files[0].without, 0, "a column that a block does not have is no empty cell");
    let begins = notes(&seen, Message::is::<said::BlockBegins>);
    assert_eq!(begins.iter().map(|(row, _)| *row).collect::<Vec<_>>(), [Some(5)]);
}

#[test]
fn isotopes_and_resolutions_in_the_headings() {
    let path = strange("isotopes.csv");
    let g = guess(&path, &answers(&["result.fraction=filtered"])).unwrap();
    let mut desk = Desk::new();
    let mapping = g.mapping().unwrap_or_else(|e| panic!("{e}\n{}", g.toml()));
    intake::import::import(&mut desk.store, &[Input { path, mapping }], "test", "2026-07-20T10:00:00Z").unwrap();
    let results = desk.store.results(&Filter::all()).unwrap();
    let all: Vec<String> = results
        .iter()
        .take(3)
        .map(|r| format!("{} {} {} {} {:?} {}", r.bottle, r.analyte, r.isotopes, r.resolution, r.value, r.unit))
        .collect();
    assert_eq!(
        all,
        ["A-1 Pb Pb208 low Some(1.5) ng/L", "A-1 Cd Cd111 low Some(0.25) ng/L", "A-1 Fe Fe56 medium Some(12.0) ug/L"]
    );
}

#[test]
fn alkalinity_and_hardness_stay_what_they_are() {
    let (results, _) = taken("water.csv", &["result.fraction=unfiltered"]);
    assert_eq!(
        results,
        [
            "A-1 alkalinity (KS4.3) 4.85 mmol/L",
            "A-1 HCO3 296 mg/L",
            "A-1 hardness 15.7 [dH]",
            "A-1 carbonate hardness 13.6 [dH]",
            "A-1 NO3 12.5 mg/L",
            "A-2 alkalinity (KS4.3) 4.9 meq/L",
            "A-2 hardness 280 mg/L{as CaCO3}",
            "A-2 alkalinity 243 mg/L{as CaCO3}",
        ]
    );
}

#[test]
fn expanded_uncertainties_in_per_cent_and_limits_in_another_unit() {
    let g = guess(&strange("uncertain.csv"), &answers(&["result.fraction=filtered"])).unwrap();
    assert_eq!(g.questions.len(), 1, "{:?}", g.questions);
    assert!(g.questions[0].to_string().contains("result.u.k"), "{:?}", g.questions);
    // Unanswered, the heading is refused with the question.
    let faults = refused("uncertain.csv", &["result.fraction=filtered"]);
    let [(check, Some(1), says)] = &faults[..] else { panic!("{faults:?}") };
    assert_eq!(*check, Check::FileUnit);
    assert_eq!(half(says, "found"), found::CoverageUnsaid { heading: "U (%)".into() }.into());
    assert_eq!(half(says, "expected"), expected::Coverage.into());
    // 10 % of 1.5 by k = 2 is 0.075; 8 % of 2.5 is 0.1. 5 ng/L is 0.005 µg/L.
    let (results, _) = taken("uncertain.csv", &["result.fraction=filtered", "result.u.k=2"]);
    assert_eq!(results, ["A-1 Pb 1.5 ug/L u 0.0750", "A-1 Cd <0.005 ug/L", "A-2 Pb 2.5 ug/L u 0.1000"]);
    // JCGM 100:2008, table G.1: 1.960 at 95 %.
    let (results, _) = taken("uncertain.csv", &["result.fraction=filtered", "result.u.level=95 %"]);
    assert_eq!(results[0], "A-1 Pb 1.5 ug/L u 0.0765");
}

#[test]
fn uncertainties_in_per_cent_without_a_word_were_taken_in_the_unit_of_the_value() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("u.csv");
    std::fs::write(&path, "Probe;Parameter;Messwert;Einheit;Messunsicherheit\nA;Blei;1,5;µg/l;15\n").unwrap();
    let asked = |more: &[&str]| {
        let said = [&["result.fraction=unfiltered", "result.u.k=2"], more].concat();
        guess(&path, &answers(&said)).unwrap()
    };
    let [question] = &asked(&[]).questions[..] else { panic!("one question") };
    assert!(question.to_string().contains("result.u.unit=%"), "{question}");
    let g = asked(&["result.u.unit=%"]);
    assert!(g.questions.is_empty() && g.toml().contains("k = 2.0, unit = \"%\""), "{}", g.toml());
    let g = asked(&["result.u.unit=value"]);
    assert!(g.questions.is_empty() && !g.toml().contains('%'), "{}", g.toml());
    assert!(guess(&path, &answers(&["result.u.unit=mg"])).is_err());
}

#[test]
fn what_stands_behind_plus_and_minus_is_asked() {
    let mapping =
        Mapping::parse(&guess(&strange("plus_minus.csv"), &answers(&["result.fraction=filtered"])).unwrap().toml());
    let faults = refused_by(&strange("plus_minus.csv"), mapping.unwrap());
    assert_eq!(faults.len(), 2);
    assert!(
        faults.iter().all(|(c, _, m)| *c == Check::FileValue && half(m, "expected") == expected::CoverageOfCell.into())
    );
    let (results, _) = taken("plus_minus.csv", &["result.fraction=filtered", "plus_minus.k=2"]);
    assert_eq!(results, ["A-1 Pb 1.5 ug/L u 0.1000", "A-2 Pb 2 ug/L u 0.1000"]);
}

const LONG: &str = "name = \"x\"\ntarget = \"results\"\n[columns.bottle]\nlabel = \"Probe\"\nkind = { constant = \"sample\" }\nfilled_at = { heading = \"Datum\", optional = true }\n[columns.result]\nanalyte = \"Parameter\"\nfraction = { constant = \"unfiltered\" }\nvalue = \"Wert\"\nunit = \"Einheit\"\n[words]\n\"<\" = \"below\"\n\"\" = \"missing\"\n";

#[test]
fn what_a_mapping_leaves_open_is_told_by_the_file_and_shown() {
    let mut desk = Desk::new();
    let text: Vec<u8> =
        "Bericht;;;;\n\nProbe;Datum;Parameter;Wert;Einheit\nA;25.06.2026;Pb;<0,5;µg/l\nB;03.07.2026;Pb;1.234,5;µg/l\n"
            .chars()
            .map(|c| if c == 'µ' { 0xB5 } else { c as u8 })
            .collect();
    let path = desk.file("lab.csv", text);
    let seen = desk.look(&path, LONG);
    assert!(seen.faults.is_empty(), "{:?}", seen.faults);
    let told: Vec<(&str, &str)> =
        seen.files[0].form.iter().filter(|t| t.guessed).map(|t| (t.key, t.value.as_str())).collect();
    assert_eq!(
        told,
        [
            ("encoding", "windows-1252"),
            ("delimiter", ";"),
            ("decimal", ","),
            ("dates", "day-month-year"),
            ("thousands", "."),
            ("header_row", "3")
        ]
    );
    let rows = &seen.files[0].shown;
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0].row, 4);
    assert_eq!(rows[0].read[3], ("Wert".to_string(), "<0,5".to_string()));
    assert_eq!(rows[0].kept, ["A: Pb < 0.5 µg/L, unfiltered"]);
    assert_eq!(rows[1].kept, ["B: Pb 1234.5 µg/L, unfiltered"]);
}

#[test]
fn a_mapping_s_keys_hold_against_the_file() {
    let mapping = LONG.replace(
        "[columns.bottle]",
        "[file]\ndecimal = \".\"\nthousands = \",\"\ndates = \"month-day-year\"\n[columns.bottle]",
    );
    let mut desk = Desk::new();
    let path = desk.file("lab.csv", "Probe;Datum;Parameter;Wert;Einheit\nA;03/04/2026;Pb;1,234;ng/L\n");
    desk.take(&path, &mapping).unwrap();
    let [r] = &desk.store.results(&Filter::all()).unwrap()[..] else { panic!() };
    assert_eq!(r.value, Some(1234.0));
}

#[test]
fn what_nothing_in_the_file_tells_is_asked_at_its_cell() {
    let desk = Desk::new();
    for (cell, date, want) in [
        ("1.234", "2026-07-03", Message::from(expected::DecimalAsked)),
        ("1,5", "03/04/2026", expected::DateOrderAsked.into()),
    ] {
        let path = desk.file("lab.csv", format!("Probe;Datum;Parameter;Wert;Einheit\nA;{date};Pb;{cell};ng/L\n"));
        let faults = refused_by(&path, Mapping::parse(LONG).unwrap());
        let [(check, Some(2), says)] = &faults[..] else { panic!("{faults:?}") };
        assert_eq!((*check, half(says, "expected")), (Check::FileValue, want));
    }
}

#[test]
fn the_mapping_s_unit_holds_over_the_heading_s_and_is_told() {
    let mapping =
        LONG.replace("value = \"Wert\"\nunit = \"Einheit\"", "value = { heading = \"Wert\", unit = \"ng/L\" }");
    let mut desk = Desk::new();
    let path = desk.file("lab.csv", "Probe,Parameter,Wert (µg/l)\nA,Pb,5\n");
    let taken = desk.take(&path, &mapping).unwrap();
    let told = notes(&taken, Message::is::<said::UnitOfMapping>);
    let [(Some(1), says)] = told[..] else { panic!("{told:?}") };
    assert_eq!(says.arg("carried"), Some(&Arg::Name("µg/L".into())));
    assert_eq!(says.arg("unit"), Some(&Arg::Name("ng/L".into())));
    assert_eq!(desk.store.results(&Filter::all()).unwrap()[0].unit, "ng/L");
}

#[test]
fn a_limit_in_a_unit_of_something_else_is_refused() {
    let mapping = LONG.replace("unit = \"Einheit\"", "unit = \"Einheit\"\ndetection_limit = \"NWG\"");
    let desk = Desk::new();
    let path = desk.file("lab.csv", "Probe,Parameter,Wert,Einheit,NWG (mV)\nA,Pb,5,ng/L,1\n");
    let faults = refused_by(&path, Mapping::parse(&mapping).unwrap());
    let [(Check::FileUnit, Some(2), says)] = &faults[..] else { panic!("{faults:?}") };
    assert_eq!(half(says, "found"), found::UnitBeside { unit: "mV".into(), other: "ng/L".into() }.into());
}

#[test]
fn a_row_nearly_empty_within_the_table_is_no_footer() {
    let mut desk = Desk::new();
    let table = "Probe;Datum;Parameter;Wert;Einheit\nA;;Pb;1,5;ng/L\n\nB;;;;\nC;;Pb;1,5;ng/L\n";
    let path = desk.file("lab.csv", table);
    let faults = refused_by(&path, Mapping::parse(LONG).unwrap());
    assert!(!faults.is_empty() && faults.iter().all(|(_, row, _)| *row == Some(4)), "{faults:?}");
    // The same at the end of the file is a note below the table; a line that was cut off is none.
    let end = desk.file("end.csv", "Probe;Datum;Parameter;Wert;Einheit\nA;;Pb;1,5;ng/L\n\nB;;;;\n");
    let taken = desk.take(&end, LONG).unwrap();
    assert_eq!(notes(&taken, Message::is::<said::FooterLeft>).len(), 1);
    let cut = desk.file("cut.csv", "Probe;Datum;Parameter;Wert;Einheit\nA;;Pb;1,5;ng/L\nB");
    let faults = refused_by(&cut, Mapping::parse(LONG).unwrap());
    assert_eq!(faults[0].0, Check::FileRowLength);
}

#[test]
fn headings_that_stand_again_are_left_out_and_told() {
    let mut desk = Desk::new();
    let head = "Probe;Datum;Parameter;Wert;Einheit\n";
    let path = desk.file("lab.csv", format!("{head}A;;Pb;1,5;ng/L\n{head}B;;Pb;2,5;ng/L\n"));
    let taken = desk.take(&path, LONG).unwrap();
    assert_eq!(taken.files[0].added["result"], 2);
    assert_eq!(notes(&taken, Message::is::<said::HeadingsAgain>), [(Some(3), &said::HeadingsAgain.into())]);
}

#[test]
fn a_word_without_a_certain_meaning_is_asked_and_its_answer_taken() {
    let desk = Desk::new();
    let path = desk.file("lab.csv", "Probe;Parameter;Messwert;Einheit\nA;Pb;1,5;ng/L\nB;Pb;n.b.;ng/L\n");
    let g = guess(&path, &answers(&["result.fraction=unfiltered"])).unwrap();
    assert!(g.questions.len() == 1 && g.questions[0].to_string().contains("words.n.b.="), "{:?}", g.questions);
    assert!(g.mapping().unwrap().rules.words.keys().all(|w| w != "n.b."));
    let g = guess(&path, &answers(&["result.fraction=unfiltered", "words.n.b.=not-detected"])).unwrap();
    assert!(g.questions.is_empty(), "{:?}", g.questions);
    assert!(g.mapping().unwrap().rules.words.contains_key("n.b."));
    for bad in ["nothing", "result.u.k=two", "file.decimal=;"] {
        assert!(guess(&path, &[bad.to_string()]).is_err(), "{bad}");
    }
}

#[test]
fn the_public_tables_are_guessed_as_what_they_are() {
    // Only the columns: their words and labels are explained by the mappings that come with them.
    let file = |name: &str| Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/real").join(name);
    let g = guess(&file("majors.csv"), &[]).unwrap();
    assert!(g.wide && g.form.delimiter == Some(b','), "{}", g.toml());
    let of = |h: &str| g.analytes.iter().find(|(x, ..)| x == h).map(|(_, a, _)| a.as_str());
    assert_eq!((of("Ca_mgL"), of("Pb_ugL"), of("SO4_mgL")), (Some("Ca"), Some("Pb"), Some("SO4")));
    assert_eq!(g.words.get("<").map(String::as_str), Some("below"));
    assert_eq!(g.words.get("E").map(String::as_str), Some("estimated"));
    let g = guess(&file("trace.csv"), &[]).unwrap();
    let of = |f: &str| g.columns.get(f).cloned();
    for (field, heading) in [
        ("result.analyte", "parm_short_nm"),
        ("result.value", "result_va"),
        ("result.unit", "unit_cd"),
        ("result.remark", "remark_cd"),
    ] {
        assert_eq!(of(field), Some(Place::Heading(heading.into())), "{}", g.toml());
    }
    // A literal zero among its values means what only the laboratory knows.
    assert!(g.questions.iter().any(|q| q.to_string().contains("words.0=")), "{:?}", g.questions);
}
