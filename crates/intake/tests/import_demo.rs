//! The raw files of the invented trip, as its simulator writes them, through the shipped mappings.

use crate::import_common;
use import_common::{Desk, content};
use intake::import::{Input, Mapping, import};
use simulator::{Purpose, Trip, files::raw_files};

fn inputs(desk: &Desk, files: &[simulator::files::RawFile]) -> Vec<Input> {
    files
        .iter()
        .map(|f| Input { path: desk.file(f.name, &f.text), mapping: Mapping::shipped(f.mapping).unwrap() })
        .collect()
}

#[test]
fn the_whole_trip_in_one_act() {
    let trip = Trip::new(1, Purpose::Demo);
    let mut desk = Desk::new();
    let files = raw_files(&trip);
    let inputs = inputs(&desk, &files);
    let taken = import(&mut desk.store, &inputs, "test", "2026-07-22").unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(taken.files.len(), files.len());
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
    assert_eq!(desk.store.events().unwrap().len(), 1);
    let run = desk.store.runs().unwrap().remove(0);
    let vials = desk.store.vials(run.id).unwrap();
    assert_eq!(vials.len(), trip.vials.len());
    let readings = desk.store.readings(run.id).unwrap();
    assert_eq!(readings.len(), trip.readings.len());
    // Every rate is the simulator's, to the two decimals that the file carries.
    for want in &trip.readings {
        let vial = vials.iter().find(|v| v.position == i64::from(want.position)).unwrap();
        let isotope = format!("{}{}", want.element, want.mass);
        let got = readings
            .iter()
            .find(|r| r.vial_id == vial.id && r.isotope == isotope && r.resolution.word() == want.resolution)
            .unwrap();
        assert_eq!(got.rates_cps.len(), want.rates_cps.len());
        for (a, b) in got.rates_cps.iter().zip(&want.rates_cps) {
            assert!((a - b).abs() <= 0.005_000_1, "{a} {b}");
        }
    }
    let assigned: usize = trip.vials.iter().map(|v| v.assigned.len()).sum();
    assert_eq!(desk.store.assigned(run.id).unwrap().len(), assigned);

    // The same files again change nothing.
    let head = desk.store.head().unwrap();
    let again = import(&mut desk.store, &inputs, "test", "2026-07-23").unwrap();
    assert!(again.files.iter().all(|f| f.before), "{:?}", again.files);
    assert!(again.files[0].in_words().contains("nothing changed"));
    assert_eq!(again.head, None);
    assert_eq!(desk.store.head().unwrap(), head);
}

#[test]
fn the_order_of_vials_and_rows_does_not_matter() {
    let trip = Trip::new(1, Purpose::Demo);
    let mut straight = Desk::new();
    let mut turned = Desk::new();
    let files = raw_files(&trip);
    let list = inputs(&straight, &files);
    import(&mut straight.store, &list, "test", "2026-07-22").unwrap_or_else(|e| panic!("{e}"));
    let mut files = files;
    for f in &mut files {
        let text = f.text.clone();
        if f.mapping == "counts-blocks" {
            let mut blocks: Vec<&str> = text.split("\n\n").collect();
            blocks[1..].reverse();
            f.text = blocks.join("\n\n");
        } else if matches!(f.mapping, "sequence" | "bottles") {
            let mut lines: Vec<&str> = text.lines().collect();
            lines[1..].reverse();
            f.text = lines.join("\n");
        }
    }
    let list = inputs(&turned, &files);
    import(&mut turned.store, &list, "test", "2026-07-22").unwrap_or_else(|e| panic!("{e}"));
    let names = |d: &Desk| {
        let run = d.store.runs().unwrap().remove(0);
        let mut out: Vec<String> = d
            .store
            .readings(run.id)
            .unwrap()
            .iter()
            .map(|r| format!("{:?} {} {:?} {:?}", r.vial_id, r.isotope, r.resolution, r.rates_cps))
            .collect();
        out.extend(d.store.vials(run.id).unwrap().iter().map(|v| format!("{} {} {:?}", v.position, v.name, v.bottle)));
        out
    };
    assert_eq!(names(&straight), names(&turned));
    assert_eq!(content(&straight.store).len(), content(&turned.store).len());
}
