//! Words: no code of the record on the sheet, in either language, on any programme; what is kept stays in the record's
//! words whatever language showed it; the cautions.

use crate::phone::{Phone, programme, sheet};
use field_sheet::{Data, LabelGrid, fields, gather, html, labels, paper};
use message::{Lang, with_language};
use programme::start::start;
use record::schema;
use record::store::Store;
use record::words::BottleKind;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Every fixture with its store.
fn every_programme() -> Vec<(String, Store, Vec<String>, tempfile::TempDir)> {
    let mut out = vec![];
    for fixture in fixtures::all() {
        let dir = tempfile::tempdir().unwrap();
        let mut store =
            start(dir.path().join("p.sqlite").to_str().unwrap(), "Marit Osk", "2026-01-01T00:00:00Z").unwrap();
        let bundle = fixture.write(&dir.path().join("files")).unwrap();
        let inputs = intake::import::inputs(&store, &[bundle], "bundle").unwrap();
        intake::import::import(&mut store, &inputs, "Marit Osk", "2026-09-01T00:00:00Z").unwrap();
        out.push((fixture.name.to_string(), store, fixture.trips.clone(), dir));
    }
    out
}

/// What nobody should have to read: words of the record that are no words of a person.
fn codes() -> BTreeSet<String> {
    let kinds = BottleKind::ALL.iter().map(|k| k.word()).chain(["open-air"]).filter(|w| w.contains('-'));
    let columns = schema::TABLES.iter().flat_map(|t| t.columns).map(|c| c.name).filter(|c| c.contains('_'));
    let others = ["Cel", "degC", "uS/cm", "um", "S(-II)", "undefined", "null", "NaN", "[object"];
    kinds.chain(columns).chain(others).map(str::to_string).collect()
}

/// Everything that people wrote: it stays as it is, whatever it looks like.
fn written(data: &Data) -> Vec<String> {
    let mut out: Vec<Option<String>> =
        vec![Some(data.trip.name.clone()), data.trip.question.clone(), Some(data.programme.name.clone())];
    out.extend(data.people.iter().map(|p| Some(p.name.clone())));
    for w in &data.wells {
        out.extend([Some(w.name.clone()), w.description.clone(), w.flow_note.clone()]);
        out.extend(w.sections.iter().map(|s| Some(s.material.clone())));
    }
    for b in &data.bottles {
        out.extend([Some(b.label.clone()), b.lot.clone(), b.filter.clone()]);
    }
    out.extend(data.lots.iter().map(|l| Some(l.name.clone())));
    out.extend(data.acids.iter().map(|a| Some(a.name.clone())));
    out.extend(data.filters.iter().map(|f| Some(f.name.clone())));
    let mut out: Vec<String> = out.into_iter().flatten().filter(|t| !t.is_empty()).collect();
    // The longest first: a name may hold another.
    out.sort_by_key(|t| std::cmp::Reverse(t.len()));
    out.dedup();
    out
}

/// Every text that a person sees or hears at a place.
const TEXTS: &str = "(() => { const out = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) out.push(walk.currentNode.data);
    for (const e of document.querySelectorAll('body *')) for (const a of ['aria-label', 'placeholder', 'title', 'alt']) if (e.getAttribute(a)) out.push(e.getAttribute(a));
    return out.filter((t) => t.trim()); })()";

/// An entry of every kind with every word that it can hold, as taps would make them.
const EVERY_ENTRY: &str = "(() => {
    const w = S.wells[0]?.name, b = S.bottles[0]?.label ?? 'X-1', now = keep.stamp();
    for (const f of ['weather', 'wind', 'dust', 'road_salt', 'engines']) for (const value of S.choices[f]) keep.add({ what: 'condition', field: f, value });
    if (w) {
      for (const q of S.watched) keep.add({ what: 'reading', well: w, quantity: q.quantity, value: 7.5, unit: q.unit, u: 0.1 });
      keep.add({ what: 'fill', well: w, volume_L: 10, seconds: 25.5, u_volume_L: 0.05 });
      for (const place of S.choices.air_place) keep.add({ what: 'air', well: w, place, volume_L: 28.3, counts: [{ size_um: 0.5, count: 3 }] });
      for (const state of ['open', 'shut', 'open']) keep.add({ what: 'well', well: w, state, since: now });
    }
    for (const step of ['added', 'code read', 'clean hands', 'bags open', 'opened in the cabinet', 'rinsed', 'filled', 'closed', 'bags closed', 'opened outdoors', 'closed', 'travelled closed', 'corrected'])
      keep.add({ what: 'bottle', bottle: b, step, sets: { openings: 1, cabinet_min: 2.5, open_air_min: 0 } });
    for (const kind of S.choices.kind) keep.add({ what: 'bottle', bottle: `K-${kind.length}-${kind.charCodeAt(0)}`, step: 'added', sets: { kind, fraction: '0.45 um' } });
    keep.add({ what: 'bottle', bottle: b, step: 'acid in', sets: { acid_mL: 0.5, acidified_at: now, acidified_place: 'at the well', fraction: 'unfiltered', volume_mL: 250 } });
    for (const step of S.choices.box_step) for (const place of S.choices.box_place) for (const seal of S.choices.box_seal)
      keep.add({ what: 'custody', step, person: S.people[0]?.name ?? 'X', place, seal, temperature_C: 4.5 });
    keep.add({ what: 'photo', bottle: b, name: 'x.jpg', type: 'image/jpeg', data: '' });
    keep.add({ what: 'strike', strikes: 1 });
    return true; })()";

fn places(phone: &Phone) -> Vec<String> {
    let made = phone.json(
        "['trip', 'wells', 'bottles', 'bottle-new', 'box', 'save', ...S.wells.slice(0, 3).map((w) => `well/${encodeURIComponent(w.name)}`), ...bottles().slice(0, 12).map((b) => `bottle/${encodeURIComponent(b.label)}`)]",
    );
    serde_json::from_value(made).unwrap()
}

fn without(text: &str, written: &[String]) -> String {
    written.iter().fold(text.to_string(), |t, w| t.replace(w.as_str(), " "))
}

fn holds(text: &str, code: &str) -> bool {
    let edge = |c: Option<char>| !c.is_some_and(|c| c.is_alphanumeric() || c == '_');
    text.match_indices(code)
        .any(|(at, _)| edge(text[..at].chars().next_back()) && edge(text[at + code.len()..].chars().next()))
}

#[test]
fn a_code_stood_on_the_sheet() {
    let codes = codes();
    // Codes that are words of German: "null" is zero, "um" is at or around.
    let german = ["null", "um"];
    // The switch names a language in that language.
    let own_name = "English";
    assert!(codes.len() > 30, "{codes:?}");
    let mut faults = vec![];
    for (name, store, trips, _folder) in every_programme() {
        // A laboratory's tables alone make no trip, and no sheet.
        let Some(trip) = trips.first() else { continue };
        let data = gather(&store, trip, "levels").unwrap();
        let page = html(&data);
        println!("{name}: a sheet of {} bytes", page.len());
        assert!(page.len() <= 250_000, "{name}: {} bytes", page.len());
        let mine = written(&data);
        let phone = Phone::open(&page, &format!("words-{name}"));
        phone.json(EVERY_ENTRY);
        // Words that stand alone in English and read otherwise in German: none of them stands in the German.
        let english: BTreeSet<String> = serde_json::from_value(phone.json(
            "Object.entries(S.words.en).filter(([k, t]) => !t.includes('{') && t.length > 2 && S.words.de[k].toLowerCase() !== t.toLowerCase() && !Object.values(S.words.de).includes(t)).map(([, t]) => t)",
        ))
        .unwrap();
        assert!(english.len() > 150, "{}", english.len());
        for language in ["en", "de"] {
            phone.json(&format!("(look({{language: '{language}'}}), true)"));
            for hash in places(&phone) {
                phone.place(&hash);
                let texts: Vec<String> = serde_json::from_value(phone.json(TEXTS)).unwrap();
                assert!(texts.len() > 15, "{name} {hash}: {texts:?}");
                for text in texts {
                    let rest = without(&text, &mine);
                    let found: Vec<&String> = codes.iter().filter(|c| holds(&rest, c)).collect();
                    if !found.is_empty() {
                        faults.push(format!("{name} {language} {hash}: {found:?} in {text:?}"));
                    }
                    if language == "de"
                        && rest.trim() != own_name
                        && english.contains(rest.trim())
                        && !mine.contains(&rest.trim().to_string())
                    {
                        faults.push(format!("{name} {hash}: {text:?} in the German"));
                    }
                }
            }
            phone.place("save");
            phone.shoot(&format!("save-{language}"));
        }
        // Paper and labels.
        for language in Lang::ALL {
            for markup in with_language(language, || {
                [paper(&data).main, labels(&data, &LabelGrid::default()).map(|p| p.main).unwrap_or_default()]
            }) {
                for literal in literals(&markup) {
                    let rest = without(&literal, &mine);
                    faults.extend(
                        codes
                            .iter()
                            .filter(|c| language == Lang::En || !german.contains(&c.as_str()))
                            .filter(|c| holds(&rest, c))
                            .map(|c| format!("{name} paper {}: {c} in {literal:?}", language.code())),
                    );
                }
            }
        }
    }
    faults.sort();
    faults.dedup();
    assert!(faults.is_empty(), "{} faults: {:#?}", faults.len(), &faults[..faults.len().min(30)]);
}

/// The string literals of markup, which hold all that is said.
fn literals(markup: &str) -> Vec<String> {
    let mut out = vec![];
    let mut chars = markup.chars();
    while let Some(c) = chars.next() {
        if c != '"' {
            continue;
        }
        let mut text = String::new();
        while let Some(c) = chars.next() {
            match c {
                '\\' => text.extend(chars.next()),
                '"' => break,
                c => text.push(c),
            }
        }
        out.push(text);
    }
    out
}

#[test]
fn a_german_sheet_keeps_the_words_of_the_record() {
    let p = programme();
    let page = with_language(Lang::De, || sheet(&p));
    let phone = Phone::open(&page, "german");
    assert_eq!(phone.json("document.documentElement.lang"), json!("de"));
    phone.tap("#c-weather-drizzle");
    assert!(phone.text("#status").contains("Nieselregen"), "{}", phone.text("#status"));
    phone.shoot("trip");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.write("#r-sl-2-ph", "7,71");
    phone.tap("#r-sl-2-ph-take");
    assert!(phone.text("main").contains("7,71"));
    // The other language is one tap away, and stays.
    phone.tap("#language");
    assert!(phone.text("main").contains("7.71") && phone.text("main").contains("Readings"));
    phone.reload();
    assert_eq!(phone.json("document.documentElement.lang"), json!("en"));
    let kept = phone.json("keep.state.entries.map((e) => e.value)");
    assert_eq!(kept, json!(["drizzle", 7.71]));
}

#[test]
fn every_key_that_the_script_speaks_has_its_words() {
    let all = fields::on_the_phone();
    let (english, german) = (&all["en"], &all["de"]);
    assert_eq!(english.keys().collect::<Vec<_>>(), german.keys().collect::<Vec<_>>());
    let script = sheet(&programme());
    let mut spoken = 0;
    for call in ["T(\"", "TX(\"", "[\"why-", "[\"resume-"] {
        for (at, _) in script.match_indices(call) {
            let from = at + call.find('"').unwrap() + 1;
            let key = &script[from..from + script[from..].find('"').unwrap()];
            assert!(english.contains_key(key), "{key}");
            spoken += 1;
        }
    }
    assert!(spoken > 200, "{spoken}");
    // What can be chosen, and what a bottle is, has words that are not the code, or are the same on purpose.
    for (field, codes) in fields::CHOICES {
        for code in *codes {
            let of = |l| with_language(l, || fields::word(code));
            assert!(!of(Lang::De).is_empty() && of(Lang::De) != *code, "{field}: {code}");
        }
    }
}

/// What may hurt is said where it may, in both languages: by the messages, on the phone and on paper.
#[test]
fn a_danger_was_not_named_where_it_is() {
    let p = programme();
    let data = gather(&p.store, &p.trip, "levels").unwrap();
    let phone = Phone::open(&html(&data), "cautions");
    for language in Lang::ALL {
        phone.json(&format!("(look({{language: '{}'}}), true)", language.code()));
        let (trip, well, acid) =
            with_language(language, || (fields::cautions().remove(0), fields::well_caution(), fields::acid_caution()));
        for (place, caution) in [("trip", &trip), ("well/SL-2", &well), ("well/SL-3", &well), ("bottle/A-1", &acid)] {
            phone.place(place);
            let there: Vec<Value> = phone
                .json("[...document.querySelectorAll('.caution')].map((e) => e.innerText)")
                .as_array()
                .unwrap()
                .clone();
            assert!(there.iter().any(|t| t.as_str().unwrap().contains(caution.as_str())), "{place}: {there:?}");
        }
        let main = with_language(language, || paper(&data)).main;
        assert!([trip, well, acid].iter().all(|c| main.contains(c.as_str())), "{}", language.code());
    }
    let dangers = [
        (
            Lang::En,
            [
                "Do not enter",
                "No flame",
                "do not follow",
                "goggles",
                "gloves",
                "open air",
                "hydrogen sulfide when acid",
                "pressure",
                "never tested",
                "leave to drink",
            ],
        ),
        (
            Lang::De,
            [
                "nicht betreten",
                "Keine Flamme",
                "nicht hinterhergehen",
                "Schutzbrille",
                "Handschuhe",
                "im Freien",
                "Schwefelwasserstoff ab",
                "unter Druck",
                "nie geprüft",
                "erlaubt das Trinken",
            ],
        ),
    ];
    for (language, all) in dangers {
        let said = with_language(language, || {
            format!("{} {} {}", fields::cautions().join(" "), fields::well_caution(), fields::acid_caution())
        });
        for danger in all {
            assert!(said.contains(danger), "{danger}");
        }
    }
}
