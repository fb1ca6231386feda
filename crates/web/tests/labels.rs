//! A bottle's label may hold any sign: its page is found, signed and taken out like any other.

use crate::common::{Face, raw_files};

const LABEL: &str = "A:1#x@y/ü 100%";

/// The invented programme with one bottle and the run under other names.
fn face() -> Face {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("sallow-levels.sqlite");
    let mut store = programme::start::start(&path, "test", "2026-07-01T00:00:00Z").unwrap();
    let raw = tempfile::tempdir().unwrap();
    let mut inputs = vec![];
    for (path, mapping) in raw_files(raw.path()) {
        let text = std::fs::read_to_string(&path).unwrap();
        // The end of the cell goes along: other labels begin with the same letters.
        let text = text
            .replace("SL2-26-07-A,", &format!("{LABEL},"))
            .replace("SL2-26-07-A\n", &format!("{LABEL}\n"))
            .replace("SL-R-2607", "R/26");
        std::fs::write(&path, text).unwrap();
        inputs.extend(intake::import::inputs(&store, &[path], mapping).unwrap());
    }
    intake::import::import(&mut store, &inputs, "Ines Varga", "2026-07-23T14:20:00Z").unwrap();
    let by = record::by::By { person: "Ines Varga", at: "2026-07-23T14:21:00Z" };
    programme::work::recompute(&mut store, None, by).unwrap();
    drop(store);
    Face::serve(dir, &[])
}

#[test]
fn the_pages_of_a_bottle_are_found_under_a_label_of_any_signs() {
    let face = face();
    let mut c = face.client();
    // The name of the result, A%3A1#x@y/ü 100%:Pb:…, percent-encoded once more as every address is.
    let address = "/case/A%253A1%23x%40y%2F%C3%BC%20100%25:Pb:206%2B207%2B208%40low:unfiltered";
    let list = c.get(&format!("/results?bottle={}", crate::common::coded(LABEL))).text();
    assert!(list.contains(&format!("href=\"{address}%231\"")), "{list}");
    let page = c.get(address);
    let text = page.text();
    assert_eq!(page.status, 200, "{text}");
    assert!(text.contains("value=\"A%3A1#x@y/ü 100%:Pb:206+207+208@low:unfiltered#1\""), "{text}");
    assert!(text.contains("name=\"what\" value=\"A:1#x@y%2Fü 100%\""), "{text}");
    assert_eq!(c.get(&format!("{address}%231?json=1")).status, 200);

    let result = "A%3A1#x@y/ü 100%:Pb:206+207+208@low:unfiltered#1";
    let token = page.token();
    let done = c.post("/sign", &[("token", &token), ("result", result), ("why", "looked at every blank")]);
    let to = c.retrying(&done);
    assert!(to == address || c.get(&to).text().contains(address), "{to}");
    assert!(c.get(address).text().contains("looked at every blank"));

    // The place in a run whose name holds the sign before the place.
    let run = c.get("/runs/R%2F26?vial=36").text();
    assert!(run.contains("value=\"R%2F26/36\""), "{run}");
    let taken_out = || {
        let all = assessment::results::all(&face.store()).unwrap();
        let lead = all.into_iter().find(|r| r.bottle == LABEL && r.analyte == "Pb").unwrap();
        lead.reasons.iter().any(|why| why == "number.excluded")
    };
    for what in ["A:1#x@y%2Fü 100%", "R%2F26/36"] {
        let token = c.get(address).token();
        let out = [("token", token.as_str()), ("result", result), ("what", what), ("why", "a loose cap")];
        let done = c.post("/take-out", &out);
        c.retrying(&done);
        assert!(taken_out(), "{what}");
        let token = c.get(address).token();
        let back = [("token", token.as_str()), ("result", result), ("what", what), ("why", "the cap was whole")];
        let done = c.post("/take-back", &back);
        c.retrying(&done);
        assert!(!taken_out(), "{what}");
    }
}

#[test]
fn what_is_no_name_of_a_result_is_refused_with_what_one_is() {
    let face = Face::empty();
    let mut c = face.client();
    let token = c.get("/results").token();
    let done = c.post("/sign", &[("token", &token), ("result", "no name"), ("why", "looked at every blank")]);
    assert_eq!(done.status, 422, "{}", done.text());
    assert!(done.text().contains("bottle:analyte:isotope@resolution:fraction#revision"), "{}", done.text());
}
