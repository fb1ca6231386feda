//! Random damage: whatever the bytes, an import neither panics nor leaves half a file behind.
//! Either all rows of a file are in the record (one event, the raw file whole, as many results as
//! the reader counted) or none is, and the head of the chain stays.

use crate::import_common;
use import_common::Desk;
use intake::import::ImportError;
use proptest::prelude::*;
use record::store::Filter;

const LONG: &str = "bottle,analyte,fraction,value,u,unit,remark\nA,Pb,unfiltered,1.5,0.1,ng/L,\nA,Cd,unfiltered,<0.2,,ng/L,\nB,Pb,unfiltered,\"2.5\",0.1,ng/L,E\nB,Cd,unfiltered,ND,,ng/L,\n";
const BLOCKS: &str = "x run R; counts per second; 0,5 s per replicate\n\nVial;1;blank\nReplicate;Pb208@low;Cr52@medium\n1;1;2\n2;1,5;2,5\n\nVial;2;w\nReplicate;Pb208@low;Cr52@medium\n1;10,5;20\n2;11;21\n";
const SEQUENCE: &str = "run,position,name,role,minutes,dilution,analyte,value,u,unit\nR,1,blank,calibration-blank,0,1,,,,\nR,2,w,standard,5,1,Pb,20,0.1,ng/L\nR,2,w,standard,5,1,Cd,5,0.1,ng/L\n";
const WELLS: &str = "name,medium,elevation_m\nW1,groundwater,1.5\nW2,surface-water,\n";

fn desk() -> Desk {
    let mut desk = Desk::new();
    desk.text("bottles.csv", "bottles", "label,kind\nA,sample\nB,sample\n");
    desk
}

/// All or nothing, said or taken.
fn check(mapping: &str, name: &str, bytes: &[u8]) {
    let mut desk = desk();
    if mapping == "counts-blocks" {
        desk.text("seq.csv", "sequence", SEQUENCE);
    }
    let (head, events) = (desk.store.head().unwrap(), desk.store.events().unwrap().len());
    let files = desk.store.raw_files().unwrap().len();
    let path = desk.file(name, bytes);
    match desk.take(&path, mapping) {
        Ok(taken) => {
            assert_eq!(desk.store.events().unwrap().len(), events + 1);
            let raw = desk.store.raw_files().unwrap();
            assert_eq!(raw.len(), files + 1);
            let mut kept = vec![];
            desk.store.write_raw_file(raw[files].id, &mut kept).unwrap();
            assert_eq!(kept, bytes);
            if mapping == "laboratory-long" {
                let results = desk.store.results(&Filter::all()).unwrap().len() as u64;
                assert_eq!(results + taken.files[0].without, taken.files[0].rows);
            }
        }
        Err(ImportError::Refused(faults)) => {
            assert!(faults.total > 0 && !faults.shown.is_empty());
            assert!(faults.shown.iter().all(|f| f.place.as_ref().is_some_and(|p| p.file == name)));
            assert_eq!(desk.store.head().unwrap(), head);
            assert!(desk.store.results(&Filter::all()).unwrap().is_empty());
            assert_eq!(desk.store.raw_files().unwrap().len(), files);
        }
        Err(other) => panic!("{other}"),
    }
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
}

/// One stroke of damage.
#[derive(Debug, Clone)]
enum Stroke {
    Change(usize, u8),
    Insert(usize, u8),
    Remove(usize, usize),
    Repeat(usize, usize),
    Cut(usize),
}

fn stroke() -> impl Strategy<Value = Stroke> {
    let sign = prop_oneof![
        Just(b','),
        Just(b';'),
        Just(b'"'),
        Just(b'\n'),
        Just(b'\r'),
        Just(b'.'),
        Just(b'-'),
        Just(b'<'),
        Just(0u8),
        Just(0xB5u8),
        Just(b'0'),
        any::<u8>()
    ];
    let at = 0..100_000usize;
    prop_oneof![
        (at.clone(), sign.clone()).prop_map(|(a, b)| Stroke::Change(a, b)),
        (at.clone(), sign).prop_map(|(a, b)| Stroke::Insert(a, b)),
        (at.clone(), 1..30usize).prop_map(|(a, n)| Stroke::Remove(a, n)),
        (at.clone(), 1..60usize).prop_map(|(a, n)| Stroke::Repeat(a, n)),
        at.prop_map(Stroke::Cut),
    ]
}

fn damaged(bytes: &[u8], strokes: &[Stroke]) -> Vec<u8> {
    let mut out = bytes.to_vec();
    for s in strokes {
        let len = out.len().max(1);
        match s {
            Stroke::Change(a, b) if !out.is_empty() => out[a % len] = *b,
            Stroke::Insert(a, b) => out.insert((a % len).min(out.len()), *b),
            Stroke::Remove(a, n) => {
                let a = (a % len).min(out.len());
                let end = (a + n).min(out.len());
                out.drain(a..end);
            }
            Stroke::Repeat(a, n) => {
                let a = (a % len).min(out.len());
                let again = out[a..(a + n).min(out.len())].to_vec();
                out.splice(a..a, again);
            }
            Stroke::Cut(a) => out.truncate(a % len),
            Stroke::Change(..) => {}
        }
    }
    out
}

/// A workbook with the long table.
fn workbook() -> Vec<u8> {
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (r, line) in LONG.lines().enumerate() {
        for (c, text) in line.split(',').enumerate() {
            sheet.write(r as u32, c as u16, text.trim_matches('"')).unwrap();
        }
    }
    book.save_to_buffer().unwrap()
}

proptest! {
    // Each case makes a store of its own (some 10 ms); more cases run in bench.
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_tables(
        which in 0..4usize,
        strokes in prop::collection::vec(stroke(), 0..6),
    ) {
        let (mapping, text) = [
            ("laboratory-long", LONG), ("counts-blocks", BLOCKS), ("sequence", SEQUENCE), ("wells", WELLS),
        ][which];
        check(mapping, "x.csv", &damaged(text.as_bytes(), &strokes));
    }

    #[test]
    fn random_bytes(
        which in 0..4usize,
        bytes in prop::collection::vec(any::<u8>(), 0..400),
    ) {
        let mapping = ["laboratory-long", "counts-blocks", "sequence", "wells"][which];
        check(mapping, "x.csv", &bytes);
    }

    #[test]
    fn a_guess_of_damaged_files(
        which in 0..4usize,
        strokes in prop::collection::vec(stroke(), 0..6),
        said in prop::sample::select(vec!["", "file.transposed=true", "file.blocks=true", "file.units_row=2", "layout=results-wide"]),
    ) {
        let desk = Desk::new();
        let bytes = match which {
            0 => damaged(LONG.as_bytes(), &strokes),
            1 => damaged(b"Probe;Blei (\xB5g/l);Cd [ng/l]\n;;\nA;1,5;<0,2\nProbe;Zn;Cu\nA;1;2\n", &strokes),
            2 => damaged("Parameter\tEinheit\tA\tB\nBlei\tng/l\t1\t2\nZink\tng/l\t3\t4\nArsen\tng/l\t3\t4\n".as_bytes(), &strokes),
            _ => damaged(&workbook(), &strokes),
        };
        let path = desk.file("x.dat", &bytes);
        let said: Vec<String> = if said.is_empty() { vec![] } else { vec![said.to_string()] };
        let g = intake::import::guess::guess(&path, &said).unwrap();
        // Whatever it is: its text is TOML, and where no mapping comes of it, something is asked.
        let mapping = g.mapping();
        prop_assert!(mapping.is_ok() || !g.questions.is_empty(), "{:?}\n{}", mapping.err(), g.toml());
    }

    #[test]
    fn damaged_workbooks(strokes in prop::collection::vec(stroke(), 0..4)) {
        check("laboratory-long", "x.xlsx", &damaged(&workbook(), &strokes));
    }
}
