//! Duplicates, splits and blanks against scores worked out by hand from ISO 13528's formulas (right-angled triangles of
//! 3, 4 and 5, so that the roots are whole).

use intake::import::{Input, Mapping, import};
use programme::pairs::{self, Signal};
use programme::start;
use record::store::Store;
use std::path::Path;

const BOTTLES: &str = "label,kind,parent,fraction,trip
A,sample,,unfiltered,T
B,duplicate,A,unfiltered,T
C,sample,,unfiltered,T
D,duplicate,C,unfiltered,T
FB,field-blank,,unfiltered,T
";
const RESULTS: &str = "bottle,analyte,fraction,value,u,unit,reporting_limit,laboratory,method
A,Pb,unfiltered,10.0,0.3,ng/L,1,X,
B,Pb,unfiltered,10.9,0.4,ng/L,1,X,
A,Zn,unfiltered,10,,ng/L,1,X,
B,Zn,unfiltered,0.0125,0.001,ug/L,0.001,X,
A,Cd,unfiltered,<2,,ng/L,2,X,
B,Cd,unfiltered,1.5,0.1,ng/L,1,X,
C,Pb,unfiltered,50,3,ng/L,1,X,
D,Pb,unfiltered,70,4,ng/L,1,Y,
FB,Pb,unfiltered,2,0.2,ng/L,1,X,
FB,Zn,unfiltered,<0.5,,ng/L,1,X,
";

fn programme(dir: &Path) -> Store {
    let mut store = start::start(dir.join("p.sqlite"), "Ann", "2026-09-01T10:00:00Z").unwrap();
    for (name, mapping, text) in [
        ("t.csv", "trips", "name,starts\nT,2026-06-01 09:00\n"),
        ("b.csv", "bottles", BOTTLES),
        ("r.csv", "laboratory-long", RESULTS),
    ] {
        std::fs::write(dir.join(name), text).unwrap();
        let input = Input { path: dir.join(name), mapping: Mapping::shipped(mapping).unwrap() };
        import(&mut store, &[input], "Ann", "2026-09-01T10:00:00Z").unwrap_or_else(|e| panic!("{e}"));
    }
    store
}

#[test]
fn scores_where_both_state_a_u_and_none_where_one_does_not() {
    let dir = tempfile::tempdir().unwrap();
    let all = pairs::all(&programme(dir.path())).unwrap();
    let of = |analyte: &str| all.duplicates.iter().find(|p| p.analyte == analyte).unwrap();
    let close = |x: Option<f64>, to: f64| assert!((x.unwrap() - to).abs() < 1e-9, "{x:?} {to}");
    // √(0.3² + 0.4²) = 0.5; d = −0.9: ζ = −1.8; of the mean 10.45: −8.61 %.
    let lead = of("Pb");
    close(lead.zeta, -1.8);
    close(lead.relative_percent, -90.0 / 10.45);
    assert_eq!((lead.signal, lead.e_n), (Some(Signal::Acceptable), None));
    // 10 ng/L and 0.0125 µg/L = 12.5 ng/L; the first has no u.
    let zinc = of("Zn");
    close(zinc.difference, -2.5);
    assert!(zinc.zeta.is_none() && zinc.signal.is_none());
    assert!(zinc.note.as_deref().unwrap().contains("no uncertainty"));
    assert!(of("Cd").zeta.is_none() && of("Cd").note.as_deref().unwrap().contains("no contradiction"));
    // √(3² + 4²) = 5; d = −20: ζ = −4, E_n = −20/10 = −2.
    assert_eq!(all.splits.len(), 1);
    close(all.splits[0].zeta, -4.0);
    close(all.splits[0].e_n, -2.0);
    assert_eq!(all.splits[0].signal, Some(Signal::Action));
    // The blank of lead lies over its limit of 1, and is a fifth of the smallest water; that of zinc lies under it.
    let blank = |analyte: &str| all.blanks.iter().find(|b| b.result.analyte == analyte).unwrap();
    assert_eq!((blank("Pb").above_limit, blank("Zn").above_limit), (Some(true), Some(false)));
    close(blank("Pb").of_smallest_percent, 20.0);
}

#[test]
fn a_second_laboratory_on_the_same_bottle_is_a_split_too() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path());
    let text =
        "bottle,analyte,fraction,value,u,unit,laboratory\nFB,Pb,unfiltered,2,0.2,ng/L,X\nC,U,unfiltered,5,0.3,ng/L,X\n";
    let later = "bottle,analyte,fraction,value,u,unit,laboratory\nC,U,unfiltered,6,0.4,ng/L,Z\n";
    for (name, text) in [("one.csv", text), ("two.csv", later)] {
        std::fs::write(dir.path().join(name), text).unwrap();
        let input = Input { path: dir.path().join(name), mapping: Mapping::shipped("laboratory-long").unwrap() };
        import(&mut store, &[input], "Ann", "2026-09-02T10:00:00Z").unwrap_or_else(|e| panic!("{e}"));
    }
    let all = pairs::all(&store).unwrap();
    let split = all.splits.iter().find(|p| p.analyte == "U").expect("X and Z measured C");
    assert!((split.zeta.unwrap() + 2.0).abs() < 1e-9);
    assert_eq!(split.signal, Some(Signal::Acceptable));
}
