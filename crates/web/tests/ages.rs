//! The page "how old": what tracers say stands there with its picture and reasons, a well without tracers says so once, a
//! name that nobody has leads to a page that says so; both languages. The demo's truth is in `simulator::tracers`.

use crate::common::Face;
use message::{Lang, Message, Spoken, well_age as says};

#[test]
fn a_well_with_tracers_has_answer_picture_and_reasons() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    assert!(c.get("/wells/SL-2").text().contains("/wells/SL-2/age"), "no way to it from the well");
    let page = c.get("/wells/SL-2/age").text();
    for shown in
        [says::TracersCaption { well: "SL-2".into() }.text(), says::CarbonCaption.text(), says::ModelsCaption.text()]
    {
        assert!(page.contains(&shown), "{shown}");
    }
    let id = figure::slug("ages-SL-2");
    assert!(page.contains(&format!("id=\"{id}")), "no picture");
    // Asked a second time it stands there at once, and as before.
    let frame = |page: &str| page.split_once("<main").map(|(_, main)| main.to_string());
    assert_eq!(frame(&c.get("/wells/SL-2/age").text()), frame(&page));
}

#[test]
fn a_well_without_tracers_says_so_and_nothing_else() {
    let face = Face::filled(|store| {
        let by = record::by::By { person: "Marit Osk", at: "2026-08-01T00:00:00Z" };
        let row = |name: &str| intake::entry::TypedRow::of("well").with("name", name);
        intake::entry::enter(store, by, "", &[row("<b>W</b> & \"1/2\"")]).unwrap();
    });
    let mut c = face.client();
    let page = c.get("/wells/%3Cb%3EW%3C%2Fb%3E%20%26%20%221%2F2%22/age").text();
    assert!(!page.contains("<b>W</b>") && page.contains("&lt;b&gt;W&lt;/b&gt;"), "{page}");
    assert!(!page.contains("<figure") && !page.contains("<table"), "an empty heading or table");
    assert_eq!(c.get("/wells/nowhere/age").status, 404);
}

#[test]
fn sentences_have_a_german_of_their_own() {
    let all: [Message; 3] =
        [says::NoneMeasured.into(), says::BeforeNeedsTritium.into(), says::PageNone { well: "SL-3".into() }.into()];
    for m in all {
        assert_ne!(m.said(Lang::De), m.said(Lang::En));
        assert!(message::with_language(Lang::De, || m.text()).contains("nicht"));
    }
}
