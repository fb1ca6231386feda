//! What no blank met is not called the water's: the pipe, which no blank ever sees, and the open air where every blank
//! was opened in a cabinet. In the demo SL-3 stands 333 min in galvanised pipe, SL-1 was filled in the open air, and all
//! field blanks were opened in the cabinet at SL-2.

use crate::desk::{Desk, demo, demo_words};
use serde_json::Value;
use std::fs;

fn lead(bottle: &str) -> String {
    format!("{bottle}:Pb:206+207+208@low:unfiltered")
}

fn case(desk: &Desk, bottle: &str) -> Value {
    desk.run(&["case", "p.sqlite", &lead(bottle), "--json"]).json()
}

#[track_caller]
fn finding<'a>(case: &'a Value, check: &str) -> &'a Value {
    let all = case["findings"].as_array().unwrap();
    all.iter().find(|f| f["check"] == check).unwrap_or_else(|| panic!("no finding {check} in {all:#?}"))
}

/// The words of the picture of a bottle's path, without its markup: an SVG of the report.
fn picture(bottle: &str) -> String {
    let name = format!("report/figures/path-{}-pb.svg", bottle.to_lowercase());
    let svg = fs::read_to_string(demo().join(name)).unwrap();
    svg[svg.find("<desc").unwrap()..svg.find("</desc>").unwrap()].to_string()
}

#[test]
fn lead_of_the_pipe_was_told_as_the_waters_share() {
    let desk = Desk::with_programme();
    let all = desk.run(&["results", "p.sqlite", "--json"]).json();
    let share = |bottle: &str| {
        let of = |r: &&Value| r["bottle"] == bottle && r["analyte"] == "Pb";
        all["results"].as_array().unwrap().iter().find(of).unwrap()["water_share"].clone()
    };
    // The keys stay; what they are is said beside them. The pipe's part, told by four flows, is not the water's.
    assert!(share("SL3-26-07-A")["high"].as_f64().unwrap() < 0.5);
    assert_eq!(share("SL3-26-07-A")["is"], "the water and the open air: not told apart");
    assert_eq!(share("SL2-26-07-A")["is"], "the water's, as it leaves the well");
    // A bottle of the flow series stands under the limit of contact; its lead is the pipe's all the same.
    assert_eq!(share("SL3-26-07-Q4")["is"], share("SL3-26-07-A")["is"]);

    let case = case(&desk, "SL3-26-07-A");
    let whose = finding(&case, "number.water-share");
    assert_eq!(whose["outcome"], "not-met", "{whose:#}");
    assert_eq!(finding(&case, "well.pipe-by-flow")["outcome"], "not-met");
    assert!(
        case["reasons"].as_array().unwrap().iter().all(|r| r != "number.water-share"),
        "rejected by decisive checks"
    );
}

#[test]
fn nothing_says_that_the_aquifer_gives_what_stood_in_the_pipe() {
    let desk = Desk::with_programme();
    let words = desk.run(&["case", "p.sqlite", &lead("SL3-26-07-A")]).done();
    assert!(!words.contains("water's share"), "{words}");
    for line in demo_words().lines().filter(|l| l.starts_with("SL-3")) {
        // A bottle whose parts do not add up has no share.
        assert!(line.contains("the water and the open air: not told apart") || !line.contains("told apart"), "{line}");
        assert!(!line.contains("water's,") && !line.contains("water's own"), "{line}");
    }
    let at = |bottle: &str| {
        let words = picture(bottle);
        let from = words.find(" aquifer, ").expect("the first station");
        words[from..from + words[from..].find(':').unwrap()].to_string()
    };
    assert!(!at("SL3-26-07-A").contains("44"), "{}", at("SL3-26-07-A"));
    assert!(!picture("SL3-26-07-A").contains("water’s own"), "{}", picture("SL3-26-07-A"));
    assert!(at("SL2-26-07-A").contains("1.050 ng/L"), "{}", at("SL2-26-07-A"));
    let page = fs::read_to_string(demo().join("report/report.html")).unwrap();
    assert!(!page.contains("water’s share 0.998") && !page.contains("water's share 0.998"));
}

#[test]
fn blanks_of_the_cabinet_measured_the_open_air() {
    let desk = Desk::with_programme();
    let open = case(&desk, "SL1-26-07-A");
    let air = finding(&open, "air.open-air-blank");
    assert_eq!((&air["outcome"], &air["stage"]), (&"not-known".into(), &"clean-air".into()), "{air:#}");
    assert!(air["sentence"].as_str().unwrap().contains("SL-1"), "which blank would tell: {air:#}");
    assert_eq!(open["water_share"]["is"], "the water, the pipe and the open air: not told apart");
    assert_eq!(finding(&open, "number.water-share")["outcome"], "not-known");
    // In the cabinet the same blanks do tell.
    let cabinet = case(&desk, "SL2-26-07-A");
    assert!(cabinet["findings"].as_array().unwrap().iter().all(|f| f["check"] != "air.open-air-blank"));
    assert_eq!(finding(&cabinet, "number.water-share")["outcome"], "met");
    // In the picture the stage has a forecast and no measured mark.
    let stage = |bottle: &str| {
        let words = picture(bottle);
        let from = words.find("clean air, ").unwrap();
        words[from..from + words[from..].find(" bottle, ").unwrap()].to_string()
    };
    let marked = |words: &str| ["; measured ", "; nothing found", "; at most "].iter().any(|m| words.contains(m));
    assert!(marked(&stage("SL2-26-07-A")), "{}", stage("SL2-26-07-A"));
    assert!(!marked(&stage("SL1-26-07-A")), "{}", stage("SL1-26-07-A"));
    assert!(stage("SL1-26-07-A").contains("not measured here"), "{}", stage("SL1-26-07-A"));
}
