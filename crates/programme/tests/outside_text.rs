//! Readers of outside text against real inputs that were damaged: files of whole programmes under the mappings that
//! read them, the mappings themselves, workbooks damaged inside their parts, field sheets, recipes, questions of a
//! plan, sentences. Whatever comes: no panic, an end, and all of it or nothing in the record.
//!
//! `PROPTEST_CASES=5000 cargo test --release -p programme --test all outside_text::` tries more.

use ::fixtures::Fixture;
use ::fixtures::damage::{cases, damaged, damaged_text, strokes};
use assessment::derive;
use intake::field;
use intake::import::{self, Bundle, ImportError, Input, Mapping, SHIPPED};
use programme::plan;
use programme::statement::{self, New, Sentence};
use programme::work;
use proptest::prelude::*;
use record::by::By;
use record::store::Store;
use serde_json::{Value, json};
use std::io::{Cursor, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;
use std::time::{Duration, Instant};
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

const BY: By = By { person: "test", at: "2026-07-20T10:00:00Z" };

/// Longest time for one case: they take some 10 ms; a reader that hangs takes for ever.
const END: Duration = Duration::from_secs(20);

/// A programme of a fixture, to be copied for each case.
struct Base {
    fixture: Fixture,
    folder: tempfile::TempDir,
}

impl Base {
    fn new(name: &str) -> Self {
        let fixture = ::fixtures::all().into_iter().find(|f| f.name == name).unwrap();
        let folder = tempfile::tempdir().unwrap();
        let bundle = fixture.write(folder.path()).unwrap();
        let mut store = programme::start::start(folder.path().join("p.sqlite"), BY.person, BY.at).unwrap();
        let inputs = import::inputs(&store, &[bundle], "bundle").unwrap();
        import::import(&mut store, &inputs, BY.person, BY.at).unwrap();
        work::recompute(&mut store, None, BY).unwrap();
        drop(store);
        Self { fixture, folder }
    }

    fn copy(&self) -> Case {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("p.sqlite");
        std::fs::copy(self.folder.path().join("p.sqlite"), &path).unwrap();
        Case { store: Store::open(&path).unwrap(), folder, began: Instant::now() }
    }

    /// The TOML of the mapping of a file.
    fn mapping(&self, name: &str) -> String {
        let own =
            self.fixture.files.iter().find(|f| f.name == name).map(|f| String::from_utf8(f.bytes.clone()).unwrap());
        own.unwrap_or_else(|| SHIPPED.iter().find(|(n, _)| *n == name).unwrap().1.to_string())
    }

    /// A data file: its name, its mapping, its bytes.
    fn file(&self, which: usize) -> (&'static str, String, &[u8]) {
        let files: Vec<_> = self.fixture.files.iter().filter(|f| !f.mapping.is_empty()).collect();
        let f = files[which % files.len()];
        (f.name, self.mapping(f.mapping), &f.bytes)
    }
}

static BASES: LazyLock<Vec<Base>> =
    LazyLock::new(|| ["incomplete", "hostile", "laboratory"].map(Base::new).into_iter().collect());

/// One case: a copy of a programme.
struct Case {
    store: Store,
    folder: tempfile::TempDir,
    began: Instant,
}

impl Case {
    fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    }

    /// All or nothing, said or taken; what was taken is derived.
    fn take(&mut self, path: &Path, mapping: Mapping) {
        let bytes = std::fs::read(path).unwrap();
        let (head, events) = (self.store.head().unwrap(), self.store.events().unwrap().len());
        let files = self.store.raw_files().unwrap().len();
        let input = Input { path: path.to_path_buf(), mapping };
        match import::import(&mut self.store, &[input], BY.person, BY.at) {
            Ok(taken) if taken.head.is_some() => {
                assert_eq!(self.store.events().unwrap().len(), events + 1);
                let raw = self.store.raw_files().unwrap();
                let mut kept = vec![];
                self.store.write_raw_file(raw.last().unwrap().id, &mut kept).unwrap();
                assert!(raw.len() == files + 1 && kept == bytes, "the file is in the record whole");
                work::recompute(&mut self.store, None, BY).unwrap();
            }
            Ok(_) => assert_eq!(self.store.head().unwrap(), head),
            Err(e @ (ImportError::Refused(_) | ImportError::Mapping(_))) => {
                assert!(!e.to_string().is_empty());
                if let ImportError::Refused(faults) = &e {
                    assert!(faults.total > 0 && !faults.shown.is_empty(), "{e}");
                    assert!(faults.shown.iter().all(|f| f.place.is_some()), "a fault without a place: {e}");
                }
                assert_eq!(self.store.head().unwrap(), head, "{e}");
                assert_eq!(self.store.raw_files().unwrap().len(), files, "{e}");
            }
            Err(other) => panic!("{other}"),
        }
        self.sound();
    }

    fn sound(&self) {
        assert_eq!(self.store.verify(None).unwrap().differences, []);
        assert!(self.began.elapsed() < END, "it took {:?}", self.began.elapsed());
    }
}

/// The laboratory's table as a workbook.
fn workbook(base: &Base) -> Vec<u8> {
    let (_, _, bytes) = base.file(0);
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    let text: String = bytes.iter().map(|b| char::from(*b)).collect();
    for (r, line) in text.lines().take(25).enumerate() {
        for (c, cell) in line.split(';').enumerate() {
            sheet.write(r as u32, c as u16, cell).unwrap();
        }
    }
    book.save_to_buffer().unwrap()
}

/// A workbook with one of its parts damaged, packed anew so that its sums are right.
fn damaged_inside(book: &[u8], which: usize, strokes: &[::fixtures::damage::Stroke]) -> Vec<u8> {
    let mut from = ZipArchive::new(Cursor::new(book)).unwrap();
    let mut to = ZipWriter::new(Cursor::new(vec![]));
    for i in 0..from.len() {
        let mut part = from.by_index(i).unwrap();
        let name = part.name().unwrap().to_string();
        let mut bytes = vec![];
        part.read_to_end(&mut bytes).unwrap();
        to.start_file(name, SimpleFileOptions::default()).unwrap();
        let bytes = if i == which { damaged(&bytes, strokes) } else { bytes };
        to.write_all(&bytes).unwrap();
    }
    to.finish().unwrap().into_inner()
}

/// A field sheet with an entry of every kind, for the hostile programme.
fn sheet(store: &Store) -> String {
    let id = field::programme_id(store).unwrap().unwrap();
    let at = |minute: u32| format!("2026-06-01T10:{minute:02}:20+02:00");
    let base = &BASES[1].fixture;
    let (well, bottle) = (&base.wells[1], &base.labels[0]);
    json!({
        "format": "limpid-field-sheet", "version": 1, "sheet": "0011223344556677", "trip": base.trips[0], "device": "one",
        "programme": {"id": id.to_string(), "name": "p", "head": store.head().unwrap().unwrap().to_string()},
        "exported_at": "2026-06-01T17:00:00+02:00",
        "entries": [
            {"n": 1, "at": at(1), "what": "condition", "field": "weather", "value": "dry"},
            {"n": 2, "at": at(2), "what": "well", "well": well, "state": "open", "since": at(1)},
            {"n": 3, "at": at(3), "what": "fill", "well": well, "volume_L": 10, "u_volume_L": 0.05, "seconds": 25.1},
            {"n": 4, "at": at(4), "what": "reading", "well": well, "quantity": "pH", "value": 7.6, "u": 0.05, "unit": "pH"},
            {"n": 5, "at": at(5), "what": "air", "well": well, "place": "open-air", "volume_L": 2.83, "counts": [{"size_um": 0.5, "count": 40}]},
            {"n": 6, "at": at(6), "what": "bottle", "bottle": bottle, "step": "tap", "sets": {"acid_mL": 0.7, "filled_at": at(6), "note": "a \"gust\""}},
            {"n": 7, "at": at(7), "what": "bottle", "bottle": "NEW", "sets": {"kind": "field-blank", "volume_mL": 250}},
            {"n": 8, "at": at(8), "what": "custody", "step": "sealed", "person": store.persons().unwrap()[0].name, "place": "car", "temperature_C": 5.1, "seal": "whole"},
            {"n": 9, "at": at(9), "what": "photo", "well": well, "name": "a.jpg", "type": "image/jpeg", "data": "/9j/4AAQ"},
            {"n": 10, "at": at(10), "what": "note", "text": "<b>"},
            {"n": 11, "at": at(11), "what": "strike", "strikes": 10},
        ],
    })
    .to_string()
}

#[test]
fn what_is_damaged_below_is_taken_where_it_is_whole() {
    for base in &*BASES {
        let mut case = base.copy();
        let (name, mapping, bytes) = base.file(0);
        // Another file by one line end more.
        let path = case.file(name, &[bytes, b"\n"].concat());
        case.take(&path, Mapping::parse(&mapping).unwrap());
        assert_eq!(
            case.store.raw_files().unwrap().len(),
            base.fixture.files.iter().filter(|f| !f.mapping.is_empty()).count() + 1
        );
    }
    let mut case = BASES[1].copy();
    let path = case.file("s.json", sheet(&case.store).as_bytes());
    let sheet = Input { path, mapping: Mapping::shipped("field-sheet").unwrap() };
    import::import(&mut case.store, &[sheet], BY.person, BY.at).unwrap();
    assert_eq!(case.store.field_entries(&record::store::Filter::all()).unwrap().len(), 11);
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn tables(base in 0..3usize, which in 0..40usize, strokes in strokes(5)) {
        let base = &BASES[base];
        let (name, mapping, bytes) = base.file(which);
        let mut case = base.copy();
        let path = case.file(name, &damaged(bytes, &strokes));
        case.take(&path, Mapping::parse(&mapping).unwrap());
    }

    #[test]
    fn mappings(base in 0..3usize, which in 0..40usize, strokes in strokes(3)) {
        let base = &BASES[base];
        let (name, mapping, bytes) = base.file(which);
        match Mapping::parse(&damaged_text(&mapping, &strokes)) {
            Err(e) => prop_assert!(!e.to_string().is_empty()),
            Ok(mapping) => {
                let mut case = base.copy();
                let path = case.file(name, &[bytes, b"\n"].concat());
                case.take(&path, mapping);
            }
        }
    }

    #[test]
    fn workbooks(inside in 0..12usize, strokes in strokes(3)) {
        let base = &BASES[2];
        let mut case = base.copy();
        let book = workbook(base);
        let path = case.file("book.xlsx", &damaged_inside(&book, inside, &strokes));
        case.take(&path, Mapping::parse(&base.mapping("labor.toml")).unwrap());
    }

    #[test]
    fn field_sheets(strokes in strokes(4)) {
        let mut case = BASES[1].copy();
        let text = damaged(sheet(&case.store).as_bytes(), &strokes);
        let path = case.file("s.json", &text);
        case.take(&path, Mapping::shipped("field-sheet").unwrap());
    }
}

proptest! {
    #![proptest_config(cases(1500))]

    #[test]
    fn bundles(strokes in strokes(4)) {
        let text = damaged_text(&BASES[1].fixture.bundle(), &strokes);
        if let Err(e) = Bundle::parse("bundle.toml", &text, Path::new("folder")) {
            prop_assert!(e.to_string().contains("bundle.toml"));
        }
    }
}

/// The run of the incomplete programme, read once.
static PREPARED: LazyLock<PathBuf> = LazyLock::new(|| BASES[0].folder.path().join("p.sqlite"));

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn recipes(strokes in strokes(3)) {
        let began = Instant::now();
        let text = damaged_text(simulator::files::RECIPE, &strokes);
        if let Ok(recipe) = toml::from_str(&text) {
            let store = Store::open(&*PREPARED).unwrap();
            let run = store.runs().unwrap().remove(0);
            let mut prepared = derive::prepare(&store, run).unwrap();
            prepared.recipe = recipe;
            match derive::reduce(&prepared) {
                Err(e) => prop_assert!(!e.to_string().is_empty()),
                Ok(reduced) => for r in &reduced.results {
                    prop_assert!(r.net.value.is_finite() && r.net.u.is_finite(), "{:?}", r.net);
                },
            }
        }
        prop_assert!(began.elapsed() < END);
    }

    #[test]
    fn questions_of_a_plan(strokes in strokes(4)) {
        let began = Instant::now();
        let example = plan::EXAMPLE.replace("SL-2", "FN-1");
        if let Ok(question) = plan::read(&damaged_text(&example, &strokes)) {
            let store = Store::open(&*PREPARED).unwrap();
            let runs = derive::reduce_all(&store).unwrap().runs;
            let pairs: Vec<_> = runs.iter().map(|(p, r)| (p, r)).collect();
            plan::in_words(&question);
            if let Ok(done) = plan::complete(&store, &pairs, question)
                && let Ok(answer) = done.asked.answer()
            {
                plan::first_choice(&answer);
            }
        }
        prop_assert!(began.elapsed() < END, "{:?}", began.elapsed());
    }

    #[test]
    fn sentences(which in 0..3usize, strokes in strokes(3)) {
        let fields = [
            r#"{"kind":"ratio","a":{"result":"FN1-A:Pb:206+207+208@low:unfiltered"},"b":{"result":"FN2-A:Pb:206+207+208@low:unfiltered"},"relation":"at least","factor":2}"#,
            r#"{"kind":"analogy","value":{"result":"FN1-A:Pb:206+207+208@low:unfiltered"},"body":"Loch Ness","litres":1}"#,
            r#"{"kind":"change","series":{"well":"FN-1","analyte":"Pb"},"direction":"rising","since":"2020-01-01"}"#,
        ][which];
        if let Ok(sentence) = Sentence::parse(&damaged_text(fields, &strokes)) {
            let mut case = BASES[0].copy();
            let head = case.store.head().unwrap();
            let kept = statement::add(&mut case.store, &New { name: "s", sentence: &sentence, despite: Some("a trial") }, BY);
            if let Err(e) = &kept {
                prop_assert!(!e.to_string().is_empty());
                prop_assert_eq!(case.store.head().unwrap(), head);
            }
            case.sound();
        }
    }
}

/// Sentences of each kind, whole.
const SENTENCES: [&str; 11] = [
    r#"{"kind":"ratio","lang":"de","a":{"value":20,"u":1.6,"unit":"ng/L"},"b":{"value":4.1,"u":0.3,"dof":9,"unit":"ng/L"},"a_name":"x","analyte":"Pb","relation":"at least","factor":4,"within":1.5,"covariance":0.1}"#,
    r#"{"kind":"analogy","value":{"value":1.05,"u":0.06,"unit":"ng/L"},"analyte":"Pb","body":"Loch Ness","litres":1,"relation":"about"}"#,
    r#"{"kind":"analogy","value":{"below":1,"unit":"ng/L"},"drops":1,"drop_mL":0.05,"pools":2,"pool_m3":2500,"within":2}"#,
    r#"{"kind":"absence","results":[{"analyte":"atrazine","cas":"1912-24-9","amount":{"below":0.01,"unit":"ug/L"}},{"analyte":"simazine","critical_value":0.001,"amount":{"value":0.0004,"u":0.001,"unit":"ug/L"}}],"of":"pesticides","means_below":{"value":0.1,"unit":"ug/L"}}"#,
    r#"{"kind":"reference","value":{"value":1.05,"u":0.06,"unit":"ng/L"},"analyte":"Pb","reference":{"name":"rain","value":20,"u":2,"low":10,"high":40,"unit":"ng/L","source":"invented"},"factor":10,"as_published":true}"#,
    r#"{"kind":"ranking","items":[{"name":"a","amount":{"value":1,"u":0.1,"unit":"ng/L"}},{"name":"b","amount":{"value":0.002,"u":0.0001,"unit":"ug/L"}}],"order":["a","b"],"covariances":[{"a":"a","b":"b","covariance":0.001}]}"#,
    r#"{"kind":"change","relation":"unchanged","before":{"value":20,"u":1,"unit":"ng/L"},"after":{"above":10,"unit":"ng/L"},"within_percent":20,"methods":["one","two"],"methods_compared":true}"#,
    r#"{"kind":"change","relation":"fallen","percent":5,"slope":{"per_year":-2,"interval_95":[-3,-1],"unit":"ng/L","from":"2010","to":"2019"}}"#,
    r#"{"kind":"difference","a":{"value":20,"u":1.6,"unit":"ng/L"},"b":{"value":4.1,"u":0.3,"dof":9,"unit":"ng/L"},"a_name":"x","analyte":"Pb","relation":"at least","by":{"value":0.01,"unit":"ug/L"},"covariance":0.1}"#,
    r#"{"kind":"threshold","value":{"value":1.05,"u":0.06,"unit":"ng/L"},"relation":"below","level":{"value":2,"unit":"ng/L"},"critical_value":0.05,"analyte":"Pb","name":"the well"}"#,
    r#"{"kind":"age","relation":"at most","share":0.05,"year":1953,"name":"the well","tracers":{"counted_from":2026.5,"day":"2026-07-01","by":["3H","14C"],"tritium":"before","models":[{"model":"piston","younger":[0,0.01],"tested":true}],"carbon_years":[900,null],"not_used":[{"id":"well_age-decay-not-known"}]}}"#,
];

/// Questions of each kind, whole.
const QUESTIONS: [&str; 5] = [
    r#"{"question":{"kind":"detect","level":{"value":0.05,"unit":"ng/L"}},"sources":[{"name":"acid","per_unit_pg":3,"exposure":1,"u_pg":1},{"name":"open_min","per_unit_pg":2}],"wells":["SL-1","SL-2"],"choices":{"samples":[1,2],"field_blanks":[2,3],"trip_blanks":[1],"bottle_blanks":[1],"spikes":[0,1],"volume_ml":[125],"minutes":[1,5]}}"#,
    r#"{"question":{"kind":"limit","level":1,"limit":2},"past_blanks_pg":[3,5,4],"prices":{"bottle":40,"spike":60,"minute_saved":2,"litre":1,"trip":300},"choices":{"samples":[1,2],"spikes":[1],"minutes":[2]},"wells":3}"#,
    r#"{"question":{"kind":"lower","a":1,"b":2},"between_bottles_pg":2,"between_bottles_share":0.2,"laboratory_pg":1.5,"relative_sd":0.03,"past_dof":4,"spike_sd":0.04,"recovery_u":0.1,"choices":{"samples":[2],"volume_ml":[250]}}"#,
    r#"{"question":{"kind":"trend","level":1,"percent_per_year":5,"years":10,"visits_per_year":2,"natural_share":0.1},"past_blanks_pg":[3,5,4],"choices":{"samples":[2],"spikes":[1]}}"#,
    r#"{"question":{"kind":"detection-limit","target":0.05},"past_blanks_pg":[3,5,4],"choices":{"samples":[2],"spikes":[1]}}"#,
];

/// Any JSON, with the words that a sentence or a question is made of among its own.
fn any_json() -> impl Strategy<Value = Value> {
    const WORDS: [&str; 14] = [
        "kind",
        "ratio",
        "value",
        "unit",
        "ng/L",
        "result",
        "lang",
        "amount",
        "items",
        "level",
        "wells",
        "choices",
        "",
        "\u{0}ä\u{1f6b0}",
    ];
    let word = proptest::sample::select(WORDS.to_vec());
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(|x| json!(x)),
        any::<i64>().prop_map(Value::from),
        (-3..4i64).prop_map(Value::from),
        word.clone().prop_map(Value::from),
        ".{0,12}".prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 24, 5, move |inner| {
        prop_oneof![
            proptest::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            proptest::collection::vec((word.clone(), inner), 0..5)
                .prop_map(|members| Value::Object(members.into_iter().map(|(k, v)| (k.to_string(), v)).collect())),
        ]
    })
}

/// Puts a value in the place of the n-th below `v`, and tells how many are left to pass.
fn replace(v: &mut Value, n: usize, new: &Value) -> Result<(), usize> {
    if n == 0 {
        *v = new.clone();
        return Ok(());
    }
    let mut left = n - 1;
    let below: Vec<&mut Value> = match v {
        Value::Array(items) => items.iter_mut().collect(),
        Value::Object(members) => members.values_mut().collect(),
        _ => return Err(left),
    };
    for child in below {
        match replace(child, left, new) {
            Ok(()) => return Ok(()),
            Err(n) => left = n,
        }
    }
    Err(left)
}

/// A refusal says where, what was found and what is expected.
fn refused(e: &quantity::CalcError) {
    let quantity::CalcError::Refused { field, found, expected } = e else { panic!("{e}") };
    assert!(!field.is_empty() && !found.is_empty() && !expected.is_empty(), "{e:?}");
}

/// Read, and where it can be read, answered.
fn asked(text: &str) {
    let began = Instant::now();
    match Sentence::parse(text) {
        Ok(sentence) => {
            assert_eq!(serde_json::to_value(&sentence).unwrap(), serde_json::from_str::<Value>(text).unwrap());
        }
        Err(e) => refused(&e),
    }
    if let Ok(v) = serde_json::from_str::<Value>(text) {
        match limits::claim::Claim::read(&v).and_then(|claim| limits::claim::check(&claim)) {
            Ok(checked) => assert!(!checked.asked.is_empty() && !checked.plain.is_empty()),
            Err(e) => refused(&e),
        }
    }
    match plan::read(text) {
        Ok(question) => {
            plan::in_words(&question);
            match question.answer() {
                Ok(answer) => assert!(plan::first_choice(&answer) < answer.designs.len()),
                Err(e) => refused(&e),
            }
        }
        Err(record::Error::Unfit { what, found, expected }) => {
            assert!(!what.is_empty() && !found.is_empty() && !expected.is_empty());
        }
        Err(other) => panic!("{other}"),
    }
    assert!(began.elapsed() < END, "{text} took {:?}", began.elapsed());
}

#[test]
fn whole_sentences_and_questions_are_answered() {
    for text in SENTENCES {
        let claim = limits::claim::Claim::read(&serde_json::from_str(text).unwrap());
        claim.and_then(|c| limits::claim::check(&c)).unwrap_or_else(|e| panic!("{text}: {e}"));
        asked(text);
    }
    for text in QUESTIONS {
        plan::read(text).unwrap().answer().unwrap_or_else(|e| panic!("{text}: {e}"));
        asked(text);
    }
}

#[test]
fn a_wrong_field_is_refused_by_its_name() {
    for (text, field) in [
        (r#"{"kind":"ratio","a":{"value":"20","unit":"ng/L"},"b":{"below":1,"unit":"ng/L"}}"#, "a"),
        (r#"{"kind":"ratio","a":{"result":"A1:Pb:@:unfiltered"},"b":{"result":"B"},"factor":"two"}"#, "factor"),
        (
            r#"{"kind":"ranking","items":[{"name":"a","amount":{"result":"A"}},{"name":7,"amount":{"result":"B"}}]}"#,
            "items[1].name",
        ),
        (r#"{"kind":"ratio","a":{"result":"A","u":1},"b":{"result":"B"}}"#, "a"),
        (r#"{"kind":"change","relation":"fallen","series":{"well":"A"}}"#, "series"),
        (r#"{"kind":"absence","bottle":7}"#, "bottle"),
        (r#"{"kind":"age","relation":"before","well":7}"#, "well"),
        (r#"{"kind":"age","relation":"before","tracers":{"models":[{"younger":[0,1]}]}}"#, "tracers.models[0]"),
        (r#"{"kind":"wish"}"#, "kind"),
    ] {
        let quantity::CalcError::Refused { field: at, .. } = Sentence::parse(text).unwrap_err() else {
            panic!("{text}")
        };
        assert_eq!(at, field, "{text}");
    }
    // A field that no sentence of the kind has, by its name.
    let unknown = Sentence::parse(r#"{"kind":"ratio","a":{"result":"A"},"b":{"result":"B"},"factr":2}"#).unwrap_err();
    assert!(unknown.to_string().contains("factr"), "{unknown}");
    for (text, field) in [
        (r#"{"question":{"kind":"detect","level":"low"}}"#, "question.level"),
        (r#"{"question":{"kind":"trend","level":1,"years":"ten"}}"#, "question.years"),
        (r#"{"sources":[{"per_unit_pg":1},{"per_unit_pg":"x"}]}"#, "sources[1].per_unit_pg"),
        (r#"{"choices":{"samples":[1,-2]}}"#, "choices.samples"),
        (r#"{"choices":{"sample":[1]}}"#, "choices.sample"),
        (r#"{"wells":["SL-1",2]}"#, "wells[1]"),
        (r#"{"prices":7}"#, "prices"),
    ] {
        let record::Error::Unfit { what, .. } = plan::read(text).unwrap_err() else { panic!("{text}") };
        assert_eq!(what, field, "{text}");
    }
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn any_text_given_as_sentence_or_question(text in ".{0,60}") {
        asked(&text);
    }

    #[test]
    fn any_json_given_as_sentence_or_question(v in any_json()) {
        asked(&v.to_string());
    }

    #[test]
    fn whole_ones_with_one_place_replaced(which in 0..14usize, at in 0..40usize, new in any_json()) {
        let text = SENTENCES.iter().chain(&QUESTIONS).nth(which).unwrap();
        let mut v = serde_json::from_str::<Value>(text).unwrap();
        let _ = replace(&mut v, at, &new);
        asked(&v.to_string());
    }

    #[test]
    fn whole_ones_damaged(which in 0..14usize, strokes in strokes(3)) {
        asked(&damaged_text(SENTENCES.iter().chain(&QUESTIONS).nth(which).unwrap(), &strokes));
    }
}
