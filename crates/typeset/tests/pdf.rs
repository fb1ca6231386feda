//! What comes out is a tagged PDF with title and language, the same bytes each time; what cannot be
//! set is refused with a message that leads to it.

use std::collections::BTreeMap;
use typeset::{Attached, Date, TypesetError, TypesetInput, pdf};

const FIGURE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 60" font-family="Limpid Text"><rect width="200" height="60" fill="#c3dbdb"/><text x="10" y="30">1.05 ng/L</text></svg>"##;

fn input(main: &str) -> TypesetInput {
    TypesetInput {
        main: main.into(),
        files: BTreeMap::from([("figure.svg".into(), FIGURE.as_bytes().to_vec())]),
        title: "Lead at SL-2: \"1 ng/L\" \\ #invented".into(),
        author: "Sallow Levels".into(),
        date: Some(Date { year: 2026, month: 7, day: 20 }),
        lang: "en-GB".into(),
        record: "urn:limpid:record:00ff".into(),
        attached: vec![],
    }
}

fn holds(bytes: &[u8], text: &str) -> bool {
    bytes.windows(text.len()).any(|w| w == text.as_bytes())
}

const GOOD: &str = "= What was found\nAbout 1 ng/L.\n#figure(image(\"figure.svg\", alt: \"One number\"), caption: [A number.])\n#table(columns: 2, table.header[Metal][ng/L], [lead], [1.05])\n";

#[test]
fn a_report_becomes_a_tagged_pdf_with_title_language_and_outline() {
    let bytes = pdf(&input(GOOD)).unwrap();
    assert!(bytes.starts_with(b"%PDF-1.7"));
    assert!(bytes.trim_ascii_end().ends_with(b"%%EOF"));
    for mark in ["/StructTreeRoot", "/MarkInfo", "/Lang", "/Outlines", "/DisplayDocTitle true", "pdfuaid"] {
        assert!(holds(&bytes, mark), "{mark} is missing");
    }
    assert!(holds(&bytes, "2026-07-20"), "the date of the data stands in the properties");
    assert!(holds(&bytes, "urn:limpid:record:00ff"), "and the record that it was made from");
}

#[test]
fn a_dated_document_says_both_standards_and_nothing_that_a_reader_stumbles_over() {
    let bytes = pdf(&input(GOOD)).unwrap();
    // ISO 19005-3, 6.6.4, and ISO 14289-1, 5: the identification in the metadata, as XML.
    for mark in ["<pdfaid:part>3<", "<pdfaid:conformance>A<", "<pdfuaid:part>1<", "/OutputIntents"] {
        assert!(holds(&bytes, mark), "{mark} is missing");
    }
    assert!(!holds(&bytes, "/Suspects"));
    let undated = pdf(&TypesetInput { date: None, ..input(GOOD) }).unwrap();
    assert!(holds(&undated, "<pdfuaid:part>1<") && !holds(&undated, "pdfaid:part"), "no date is invented");
}

#[test]
fn a_file_goes_with_a_document_byte_for_byte() {
    // The signature of a ZIP file: such bytes are not packed again, so they stand in the document as they are.
    let zip = [b"PK\x03\x04".as_slice(), &[7; 300]].concat();
    let attached = |name: &str| {
        let about = "The data \"whole\"".into();
        vec![Attached { name: name.into(), bytes: zip.clone(), media_type: "application/zip".into(), about }]
    };
    let bytes = pdf(&TypesetInput { attached: attached("package.zip"), ..input(GOOD) }).unwrap();
    assert!(bytes.windows(zip.len()).any(|w| w == zip), "the bytes of the file");
    // ISO 19005-3, 6.8: how it relates to the document, and that the document as a whole has it.
    for mark in ["/AFRelationship/Supplement", "/AF", "/EmbeddedFiles", "package.zip"] {
        assert!(holds(&bytes, mark) || holds(&bytes, &mark.replace("p/", "p /")), "{mark} is missing");
    }
    let undated = TypesetInput { attached: attached("package.zip"), date: None, ..input(GOOD) };
    assert!(matches!(pdf(&undated), Err(TypesetError::Undated { .. })));
}

#[test]
fn the_first_cell_of_a_row_may_be_its_heading() {
    let table = "= T\n#table(columns: 2, table.header[Metal][ng/L], pdf.header-cell(scope: \"row\")[lead], [1.05])\n";
    let bytes = pdf(&input(table)).unwrap();
    assert!(holds(&bytes, "/Scope/Row") || holds(&bytes, "/Scope /Row"));
}

#[test]
fn same_input_same_bytes() {
    assert_eq!(pdf(&input(GOOD)).unwrap(), pdf(&input(GOOD)).unwrap());
}

#[test]
fn faults_are_named_with_their_line() {
    let check = |main: &str, want: &str| match pdf(&input(main)) {
        Err(TypesetError::Refused(m)) => assert!(m.join("; ").contains(want), "{m:?}"),
        other => panic!("{other:?}"),
    };
    check("= One\n\n#no-such-thing", "line 3: unknown variable");
    check("= One\n#image(\"absent.svg\", alt: \"x\")", "line 2: file not found");
    check("= One\n#figure(image(\"figure.svg\"), caption: [x])", "alt");
    check("= One\n#read(\"/etc/hostname\")", "file not found");
}

#[test]
fn a_date_that_does_not_exist_is_refused() {
    let mut i = input(GOOD);
    i.date = Some(Date { year: 2026, month: 2, day: 30 });
    assert_eq!(pdf(&i).unwrap_err(), TypesetError::Date { year: 2026, month: 2, day: 30 });
}
