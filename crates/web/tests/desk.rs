//! The desk and the frame of all pages: every count leads to exactly those results, the newest day is each well's own, a
//! trip ahead is planned, the language stays, an address that leads nowhere names the nearest, search finds every name.

use crate::common;

use common::{Client, Face};
use intake::entry::{TypedRow, enter};
use record::by::By;
use record::model::VerdictWord;
use std::collections::BTreeMap;

const BY: By = By { person: "Marit Osk", at: "2026-08-01T00:00:00Z" };

/// Links of a page with what they say.
fn links(page: &str) -> Vec<(String, String)> {
    let of = |piece: &str| {
        let (to, rest) = piece.split_once('"')?;
        let (_, words) = rest.split_once('>')?;
        Some((to.replace("&amp;", "&"), words.split('<').next()?.to_string()))
    };
    page.split("<a ").skip(1).filter_map(|a| of(a.split_once("href=\"")?.1)).collect()
}

fn rows_of_csv(c: &mut Client, address: &str) -> usize {
    let body = c.get(&format!("{address}&file=csv")).body;
    csv::Reader::from_reader(body.as_slice()).records().count()
}

/// Held against the record itself: the reasons of every verdict, read without the short list.
#[test]
fn every_count_leads_to_exactly_those_results() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let page = c.get("/").text();
    let counts: Vec<(String, usize)> = links(&page)
        .into_iter()
        .filter(|(to, _)| to.starts_with("/results?held-by="))
        .filter_map(|(to, words)| Some((to, words.parse().ok()?)))
        .collect();
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    for r in assessment::results::all(&face.store()).unwrap() {
        let Some(verdict) = r.verdict.filter(|v| *v != VerdictWord::Accepted) else { continue };
        for check in &r.reasons {
            *known.entry(format!("/results?held-by={check}&verdict={}", verdict.word())).or_default() += 1;
        }
    }
    assert!(counts.len() > 5 && counts.len() == known.len(), "{counts:?} {known:?}");
    for (to, n) in counts {
        assert_eq!(known.get(&to), Some(&n), "{to}");
        assert_eq!(rows_of_csv(&mut c, &to), n, "{to}");
    }
    // The bottles that disagree: the act of what waits leads to those of that well.
    let disagree = links(&page).into_iter().find(|(to, _)| to.contains("held-by") && to.contains("well=")).unwrap();
    let said: usize = disagree.1.chars().filter(char::is_ascii_digit).collect::<String>().parse().unwrap();
    assert_eq!(rows_of_csv(&mut c, &disagree.0), said, "{disagree:?}");
}

fn results_of(face: &Face, bottles: &[(&str, &str, &str)]) {
    let mut store = face.store();
    let mut rows: Vec<TypedRow> = vec![];
    let mut table = String::from("bottle,fraction,laboratory,Pb (ng/L)\n");
    let mut wells: Vec<&str> = bottles.iter().map(|b| b.1).collect();
    wells.sort_unstable();
    wells.dedup();
    rows.extend(wells.iter().map(|w| TypedRow::of("well").with("name", *w)));
    for (n, (label, well, day)) in bottles.iter().enumerate() {
        let bottle = TypedRow::of("bottle").with("label", *label).with("kind", "sample").with("well", *well);
        rows.push(bottle.with("filled_at", format!("{day} 10:00")).with("fraction", "unfiltered"));
        table += &format!("{label},unfiltered,Laboratory 1,{}.5\n", n + 1);
    }
    enter(&mut store, BY, "", &rows).unwrap();
    let path = face.dir.path().join("results.csv");
    std::fs::write(&path, table).unwrap();
    let inputs = intake::import::inputs(&store, &[path], "laboratory-wide").unwrap();
    intake::import::import(&mut store, &inputs, BY.person, BY.at).unwrap();
    programme::work::recompute(&mut store, None, BY).unwrap();
}

#[test]
fn the_newest_day_is_of_each_well_and_the_year_before_stands_beside_it() {
    let face = Face::empty();
    results_of(
        &face,
        &[
            ("N-1", "North", "2020-05-01"),
            ("S-1", "South", "2026-07-14"),
            ("S-0", "South", "2025-07-10"),
            ("W-1", "West", "2026-07-14"),
        ],
    );
    let page = face.client().get("/").text().replace('\u{A0}', " ");
    assert!(page.contains("Newest day: 14 July 2026"), "{page}");
    assert!(page.contains("1 May 2020"), "an older day is told at its well");
    assert!(page.contains("2025: no trip"), "of West nothing was taken the year before");
    let at = page.find("2025:</span>").or_else(|| page.find("2025: <a")).or_else(|| page.find("2025:"));
    assert!(at.is_some() && page.contains("/case/S-0:Pb:"), "South’s value of the year before opens its case");
    // By any of its names.
    let by_name = face.client().get("/?element=Blei").text();
    assert!(by_name.contains("/case/S-1:Pb:"));
}

#[test]
fn a_trip_that_lies_ahead_is_planned_and_its_bottles_are_not_late() {
    let face = Face::empty();
    let ahead = jiff::Timestamp::now().strftime("%Y").to_string().parse::<i32>().unwrap() + 2;
    let rows = [
        TypedRow::of("well").with("name", "North"),
        TypedRow::of("trip").with("name", "next").with("starts", format!("{ahead}-05-11 08:00")),
        TypedRow::of("trip").with("name", "last").with("starts", "2024-05-11 08:00"),
        TypedRow::of("bottle")
            .with("label", "B-ahead")
            .with("kind", "sample")
            .with("well", "North")
            .with("trip", "next"),
        TypedRow::of("bottle")
            .with("label", "B-gone")
            .with("kind", "sample")
            .with("well", "North")
            .with("trip", "last"),
    ];
    enter(&mut face.store(), BY, "", &rows).unwrap();
    let mut c = face.client();
    let page = c.get("/").text();
    assert!(page.contains("Trip next is planned") && !page.contains("next: 1 bottle without a result"), "{page}");
    assert!(page.contains("last: 1 bottle without a result") && page.contains("B-gone"), "{page}");
    let trips = c.get("/trips").text();
    assert!(trips.contains("planned") && trips.contains("on the way"), "{trips}");
    let wells = c.get("/wells").text().replace('\u{A0}', " ");
    assert!(wells.contains(&format!("11 May {ahead}")), "the next visit of a well: {wells}");
}

#[test]
fn the_language_is_kept_on_every_page_also_where_there_is_none() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    assert!(c.get("/").text().contains("<html lang=\"en\""));
    assert!(c.get("/lots?language=de").text().contains("Flaschenchargen"));
    for path in ["/", "/wells", "/trips", "/keys", "/nowhere", "/wells/SL-9"] {
        let page = c.get(path).text();
        assert!(page.contains("<html lang=\"de\"") && page.contains("Probenahmetage"), "{path}: {page}");
        assert!(page.contains("language=en"), "{path}: the way back");
    }
    // Addresses keep the rest of what was asked.
    let page = c.get("/?element=Zn").text();
    assert!(page.contains("/?element=Zn&amp;language=en"), "{page}");
    assert!(c.get("/wells?language=en").text().contains("<html lang=\"en\""));
}

#[test]
fn an_address_that_leads_nowhere_has_the_menu_and_names_the_nearest() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    for (path, near) in
        [("/wells/SL-22", "/wells/SL-2"), ("/trips/SL-2026-70", "/trips/SL-2026-07"), ("/resultss", "/results")]
    {
        let page = c.get(path);
        let text = page.text();
        assert_eq!(page.status, 404, "{path}");
        assert!(text.contains("href=\"/statements\"") && text.contains("Looked for: "), "{path}: {text}");
        let near_line =
            text.split("class=\"near\"").nth(1).unwrap_or_default().split("</p>").next().unwrap().to_string();
        assert!(near_line.contains(&format!("href=\"{near}\"")), "{path}: {near_line}");
    }
}

#[test]
fn search_finds_bottles_wells_elements_and_pages_in_both_languages() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    for (asked, to) in [
        ("sl2 26 07 a", "/results?bottle=SL2-26-07-A"),
        ("Blei", "/results?analyte=Pb"),
        ("pb", "/results?analyte=Pb"),
        ("SL-3", "/wells/SL-3"),
        ("lots", "/lots"),
    ] {
        let found = c.get(&format!("/search?q={}", common::coded(asked)));
        assert_eq!((found.status, found.header("location")), (303, Some(to)), "{asked}: {}", found.text());
    }
    let several = c.get("/search?q=SL2-26").text();
    assert!(several.contains("SL2-26-07-A") && several.contains("SL2-26-07-B"), "{several}");
    let none = c.get("/search?q=SL2-26-07-X9").text();
    assert!(none.contains("class=\"near\"") && none.contains("SL2-26-07-"), "{none}");
    assert!(c.get("/search?q=%3Cb%3E").text().contains("&lt;b&gt;"), "what was asked is text");
}

#[test]
fn a_programme_is_called_by_its_site_and_before_by_its_file() {
    let face = Face::empty();
    let mut c = face.client();
    assert!(c.get("/").text().contains("<a href=\"/\">sallow-levels</a>"));
    enter(&mut face.store(), BY, "", &[TypedRow::of("site").with("name", "Reed <End>")]).unwrap();
    c.get("/wells");
    assert!(c.get("/").text().contains("<a href=\"/\">Reed &lt;End&gt;</a>"));
}

/// The parts of a trip are links that work without script, each a page of its own.
#[test]
fn a_trip_has_four_parts_and_one_word_for_a_lot() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let mut bottles = String::new();
    for part in ["readings", "air", "bottles", "journey"] {
        let page = c.get(&format!("/trips/SL-2026-07?show={part}"));
        assert_eq!(page.status, 200, "{part}");
        let tab = format!("/trips/SL-2026-07?show={part}\" aria-current=\"page\"");
        assert!(page.text().contains(&tab), "{part}");
        if part == "bottles" {
            bottles = page.text();
        }
    }
    assert!(
        bottles.contains("Open in cabinet") && bottles.contains("SL2-26-07-A"),
        "exposures stand with their bottle"
    );
    let lots = c.get("/lots").text();
    assert!(lots.contains("not decided") && !lots.contains("wash again"), "{lots}");
}
