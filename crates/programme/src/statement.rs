//! Statements: sentences with their case in the record.
//!
//! A statement is a sentence as fields (`limits::claim`) in which a result stands by its name:
//! `{"kind":"ratio","a":{"result":"SL1-…"},"b":{"result":"SL2-…"},"factor":2}`. In absence a whole bottle
//! may stand: `"bottle":"SL2-…"` takes every organic compound measured in it; in change a whole series:
//! `"series":{"well":"SL-2","analyte":"Pb"}` takes the trend of all its results; in age a whole well: `"well":"SL-2"`
//! takes what its tracers say, model by model. In the place of an amount a well may stand, `{"well":"SL-2","analyte":"Pb"}`: the common value of its bottles, on all of which the sentence then stands.
//! A sentence speaks of the waters. Where a number is only an upper bound on the water the answer may be another of what
//! was found in the bottles: both are said, each by its subject; `"subject":"bottles"` asks of the bottles alone.
//!
//! [`add`] checks it, keeps answer, sentences, the results with revision, verdict and amount, and the
//! head of the record. A result that is provisional or rejected is not taken unless a person says why
//! (`despite`). [`all`] reads them back: where a result has a newer revision, another verdict, or was
//! taken out, the statement is marked, what changed is said, and the answer that the record gives today
//! stands beside the kept one. A sentence of age is marked when a row of a tracer, a history or a fact that it leans on came,
//! left or changed. [`again`] keeps that answer as the next revision. Checked in
//! `tests/statement.rs`.

use assessment::age::{Leans, LeansOn};
use assessment::results::{Listed, Lists};
use limits::claim::{Checked, Claim, check, tracer_sign};
use message::{Arg, Message, Said, Spoken, count, statement as said};
use quantity::{Amount, Lang};
use record::by::By;
use record::error::Error;
use record::identity::ResultId;
use record::model::{ResultRow, StatementRow, StatementUse, VerdictWord};
use record::store::NamedCells;
use record::store::{ActInfo, Cell, Filter, Store, StoreError};
use serde::{Deserialize, Serialize, Serializer};
use serde_json::{Value, json};
use std::collections::{BTreeSet, HashMap, HashSet};

mod resolve;
mod sentence;
pub mod workshop;
use resolve::Resolved;
use resolve::resolve;
pub use sentence::{Named, Sentence, SeriesName, Subject, WellName, Whole};

/// A sentence to be kept.
#[derive(Debug, Clone)]
pub struct New<'a> {
    /// Its name.
    pub name: &'a str,
    /// The sentence.
    pub sentence: &'a Sentence,
    /// Why provisional or rejected results are taken.
    pub despite: Option<&'a str>,
}

/// A result that a statement stands on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Used {
    /// Place in the fields: `a`, `items[2].amount`.
    pub role: String,
    /// The result with its revision.
    pub result: ResultId,
    /// Its verdict then.
    pub verdict: Option<VerdictWord>,
    /// What was taken of it.
    pub amount: Option<Amount>,
}

/// What is kept of a check, read from its row.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    /// The sentence as asked.
    pub asked: String,
    /// The nearest sentence that the data support, in plain words.
    pub plain: String,
    /// In scientific words.
    pub scientific: String,
    /// What to bear in mind.
    pub warnings: Vec<String>,
    /// The sentence with its amounts.
    pub input: Claim,
    /// The same of what was found in the bottles, where the numbers only bound the waters.
    pub input_of_bottles: Option<Claim>,
    /// Rows of tracers, histories and facts that it leaned on.
    pub leans: Vec<Leans>,
    /// Everything the check said, as it was written.
    written: Value,
}

impl Serialize for Kept {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        self.written.serialize(s)
    }
}

impl Kept {
    fn read(statement: &str, written: Value) -> Result<Self, Error> {
        #[derive(Deserialize)]
        struct Words {
            asked: String,
            plain: String,
            scientific: String,
            #[serde(default)]
            warnings: Vec<String>,
            input: Value,
            #[serde(default)]
            input_of_bottles: Option<Value>,
            #[serde(default)]
            leans_on: Vec<Leans>,
        }
        let of = |e: &dyn std::fmt::Display| Error::Unfit {
            what: format!("what is kept of statement {statement}"),
            found: e.to_string(),
            expected: "the answer of a check with its sentences".into(),
        };
        let words = Words::deserialize(&written).map_err(|e| of(&e))?;
        let input = Claim::read(&words.input).map_err(|e| of(&e))?;
        let of_bottles = words.input_of_bottles.as_ref().map(Claim::read);
        let input_of_bottles = of_bottles.transpose().map_err(|e| of(&e))?;
        let Words { asked, plain, scientific, warnings, leans_on: leans, .. } = words;
        Ok(Self { asked, plain, scientific, warnings, input, input_of_bottles, leans, written })
    }
}

/// The answer that the record gives today.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Today {
    /// The answer; none where the sentence can no longer be checked.
    pub answer: Option<String>,
    /// The nearest sentence, or why there is none.
    pub plain: String,
    /// The nearest sentence, to be said in any language.
    #[serde(skip)]
    pub message: Option<Message>,
}

/// A statement on record.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stated {
    /// Name.
    pub name: String,
    /// Revision.
    pub revision: i64,
    /// Kind.
    pub kind: String,
    /// The sentence.
    #[serde(rename = "fields")]
    pub sentence: Sentence,
    /// The answer.
    pub answer: String,
    /// The sentence as asked.
    pub asked: String,
    /// The nearest sentence that the data support, in plain words.
    pub plain: String,
    /// In scientific words.
    pub scientific: String,
    /// What to bear in mind.
    pub warnings: Vec<String>,
    /// Everything the check said.
    #[serde(rename = "checked")]
    pub kept: Kept,
    /// Results it stands on.
    pub uses: Vec<Used>,
    /// Why provisional or rejected results were taken.
    pub despite: Option<String>,
    /// Head of the record when it was checked.
    pub head: String,
    /// Who.
    pub person: String,
    /// What changed since, in English; empty: it stands.
    pub changed: Vec<String>,
    /// The same, to be said in any language.
    #[serde(skip)]
    pub changes: Vec<Said>,
    /// The answer today, where something changed.
    pub today: Option<Today>,
}

impl Stated {
    /// Whether nothing under it has changed.
    pub fn stands(&self) -> bool {
        self.changed.is_empty()
    }
}

/// Checks a sentence and keeps it.
///
/// # Errors
/// [`Error::Unfit`] for a name that is taken, a sentence that cannot be checked, a result that is
/// provisional or rejected without `despite`; [`Error::Absent`]; the store.
pub fn add(store: &mut Store, new: &New, by: By) -> Result<Stated, Error> {
    if new.name.trim().is_empty() || !rows(store, new.name)?.is_empty() {
        return Err(Error::Unfit {
            what: "the name of the statement".into(),
            found: format!("\"{}\"", new.name),
            expected: "a name that no statement has yet; `again` checks one anew".into(),
        });
    }
    keep(store, new, by)
}

/// Checks a statement anew and keeps the answer as its next revision.
///
/// # Errors
/// As [`add`]; [`Error::Absent`].
pub fn again(store: &mut Store, name: &str, despite: Option<&str>, by: By) -> Result<Stated, Error> {
    let last = rows(store, name)?.pop().ok_or_else(|| absent(store, name))?;
    let why = despite.map(String::from).or(last.despite);
    let sentence = sentence_of(name, &last.fields)?;
    keep(store, &New { name, sentence: &sentence, despite: why.as_deref() }, by)
}

fn absent(store: &Store, name: &str) -> Error {
    let mut names: Vec<String> =
        store.list::<StatementRow>(&Filter::all().latest()).unwrap_or_default().into_iter().map(|s| s.name).collect();
    names.dedup();
    let hint =
        if names.is_empty() { "; none is kept yet".to_string() } else { format!("; there are {}", names.join(", ")) };
    Error::absent("statement", name, hint)
}

fn rows(store: &Store, name: &str) -> Result<Vec<StatementRow>, Error> {
    let mut rows = store.list::<StatementRow>(&Filter::all().is("name", name))?;
    rows.sort_by_key(|r| r.revision);
    Ok(rows)
}

/// The sentence of a stored row.
fn sentence_of(name: &str, fields: &Value) -> Result<Sentence, Error> {
    Sentence::read(fields).map_err(|e| unfit(name, &e))
}

fn keep(store: &mut Store, new: &New, by: By) -> Result<Stated, Error> {
    let resolved = resolve(store, new.sentence)?;
    fit(&resolved.uses, new.despite)?;
    let of = resolved.uses.iter().map(|(_, r)| r.fraction.as_str());
    let told = answered(new.name, &resolved, new.sentence)?;
    let checked = of_fractions(told, new.sentence.lang(), of);
    // Before the act, which moves the head: this is the record that the sentence was checked against.
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let mut body = serde_json::to_value(&checked).map_err(|e| unfit(new.name, &e))?;
    body["input"] = new.sentence.with_amounts(&resolved.claim).map_err(|e| unfit(new.name, &e))?;
    if let Some(bottles) = &resolved.bottles {
        body["input_of_bottles"] = new.sentence.with_amounts(bottles).map_err(|e| unfit(new.name, &e))?;
    }
    if !resolved.leans.is_empty() {
        body["leans_on"] = serde_json::to_value(&resolved.leans).map_err(|e| unfit(new.name, &e))?;
    }
    let body = body.to_string();
    let fields = serde_json::to_string(new.sentence).map_err(|e| unfit(new.name, &e))?;
    let info = ActInfo {
        kind: "statement".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "statement": new.name, "answer": checked.answer }),
    };
    store.act::<_, StoreError>(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let revision = act.next_revision("statement", &[Cell::Text(new.name)])?;
        let mut cells = NamedCells::new("statement");
        cells.text("name", new.name).integer("revision", revision).text("kind", &checked.kind);
        cells.text("fields", &fields).text("answer", checked.answer.word()).text("checked", &body);
        if let Some(why) = new.despite {
            cells.text("despite", why);
        }
        cells.text("head", &head).integer("person", person).text("engine", assessment::engine::DERIVED_BY);
        let statement = cells.insert(act)?;
        for (role, r) in &resolved.uses {
            let amount = serde_json::to_string(&r.amount).unwrap_or_else(|_| "null".into());
            let mut cells = NamedCells::new("statement_use");
            cells.integer("statement", statement).text("role", role).integer("result", r.row);
            if let Some(v) = r.verdict {
                cells.text("verdict", v.word());
            }
            cells.text("amount", &amount).insert(act)?;
        }
        Ok(())
    })?;
    find(store, new.name)
}

fn unfit(name: &str, e: &dyn std::fmt::Display) -> Error {
    Error::Unfit {
        what: format!("statement {name}"),
        found: e.to_string(),
        expected: "a sentence that can be checked".into(),
    }
}

fn checked(name: &str, claim: &Claim) -> Result<Checked, Error> {
    check(claim).map_err(|e| Error::Science { what: format!("statement {name}"), message: e.to_string() })
}

/// The answer on the waters and, where their numbers are only bounds, on the bottles.
fn answered(name: &str, resolved: &Resolved, sentence: &Sentence) -> Result<Checked, Error> {
    let mut told = of_subject(name, (&resolved.claim, resolved.bottles.as_ref()), sentence.subject, sentence.lang())?;
    if !resolved.bounds.is_empty() {
        let results = resolved.bounds.iter().map(|r| Arg::Name(r.to_string().as_str().into())).collect();
        let says: Message = said::UpperBounds { results }.into();
        told.warnings.push(says.in_language(sentence.lang()));
        told.sentences.warnings.push(says);
    }
    Ok(told)
}

/// A claim, and the same of the bottles where there is one: where the two answers differ both are said, by their subject.
fn of_subject(
    name: &str,
    (claim, bottles): (&Claim, Option<&Claim>),
    subject: Subject,
    lang: Lang,
) -> Result<Checked, Error> {
    let mut told = checked(name, claim)?;
    if subject == Subject::Bottles {
        let of_bottles = |sentence: &Message| Message::from(said::OfBottles { sentence: sentence.clone() });
        told.sentences.asked = of_bottles(&told.sentences.asked);
        told.sentences.plain = of_bottles(&told.sentences.plain);
    }
    if let Some(bottles) = bottles {
        let of_bottles = checked(name, bottles)?;
        if of_bottles.answer != told.answer {
            let (waters, bottles) = (told.sentences.plain.clone(), of_bottles.sentences.plain.clone());
            told.sentences.plain = said::OfWatersAndBottles { waters, bottles }.into();
        }
        let figures = json!({
            "answer": of_bottles.answer,
            "interval": of_bottles.interval,
            "plain": of_bottles.plain,
            "scientific": of_bottles.scientific,
        });
        told.figures.insert("of_bottles".into(), figures);
    }
    told.asked = told.sentences.asked.in_language(lang);
    told.plain = told.sentences.plain.in_language(lang);
    Ok(told)
}

/// Says of which fractions the amounts are.
fn of_fractions<'a>(mut checked: Checked, lang: Lang, of: impl Iterator<Item = &'a str>) -> Checked {
    let names: std::collections::BTreeSet<&str> = of.filter(|f| !f.is_empty()).collect();
    if !names.is_empty() {
        let named = |f: &&str| Arg::from(Message::from(message::run::Fraction { fraction: (*f).into() }));
        let says: Message = said::OfFractions { fractions: names.iter().map(named).collect() }.into();
        checked.warnings.push(says.in_language(lang));
        checked.sentences.warnings.push(says);
    }
    checked
}

/// Results that no person stood up for are not taken.
fn fit(uses: &[(String, Listed)], despite: Option<&str>) -> Result<(), Error> {
    if despite.is_some_and(|d| !d.trim().is_empty()) {
        return Ok(());
    }
    let held: Vec<String> = uses
        .iter()
        .filter(|(_, r)| r.verdict != Some(VerdictWord::Accepted))
        .map(|(_, r)| {
            let word = r.verdict.map_or("evidence only", VerdictWord::word);
            format!("{} is {word} ({})", r.result, r.reasons.join(", "))
        })
        .collect();
    if held.is_empty() {
        return Ok(());
    }
    let more = if held.len() > 3 { format!(" and {} more", held.len() - 3) } else { String::new() };
    Err(Error::Unfit {
        what: "the results of the statement".into(),
        found: format!("{}{more}", held[..held.len().min(3)].join("; ")),
        expected: "accepted results, or the reason why these are taken all the same (--despite)".into(),
    })
}

/// The newest revision of each statement, with what changed since it was checked.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<All, Error> {
    let rows = store.list::<StatementRow>(&Filter::all().latest())?;
    let mut out = All::default();
    for read in read(store, rows)? {
        match read {
            Ok(stated) => out.stated.push(stated),
            // Another version's, or altered: told beside the others, which stand.
            Err(e @ Error::Unfit { .. }) => out.unread.push(e.to_string()),
            Err(other) => return Err(other),
        }
    }
    Ok(out)
}

/// Every statement.
#[derive(Debug, Clone, Default)]
pub struct All {
    /// Those that can be read.
    pub stated: Vec<Stated>,
    /// The others, by name and why.
    pub unread: Vec<String>,
}

/// A statement by its name, newest revision.
///
/// # Errors
/// [`Error::Absent`]; the store cannot be read.
pub fn find(store: &Store, name: &str) -> Result<Stated, Error> {
    let row = rows(store, name)?.pop().ok_or_else(|| absent(store, name))?;
    read(store, vec![row])?.pop().unwrap_or_else(|| Err(absent(store, name)))
}

fn read(store: &Store, rows: Vec<StatementRow>) -> Result<Vec<Result<Stated, Error>>, Error> {
    if rows.is_empty() {
        return Ok(vec![]);
    }
    let lists = Lists::of(store)?;
    let mut uses: HashMap<i64, Vec<StatementUse>> = HashMap::new();
    for u in store.list::<StatementUse>(&Filter::all())? {
        uses.entry(u.statement_id).or_default().push(u);
    }
    let mut known: HashMap<i64, ResultRow> = HashMap::new();
    let mut newest: HashMap<(i64, i64), ResultRow> = HashMap::new();
    for id in uses.values().flatten().map(|u| u.result_id).collect::<BTreeSet<_>>() {
        for r in store.results(&Filter::all().is("id", id))? {
            let key = (r.bottle_id, r.measurand_id);
            for n in store.results(&Filter::all().is("bottle", key.0).is("measurand", key.1))? {
                if newest.get(&key).is_none_or(|known| known.revision < n.revision) {
                    newest.insert(key, n);
                }
            }
            known.insert(id, r);
        }
    }
    let now = Now { store, lists, known, newest };
    Ok(rows.into_iter().map(|row| now.stated(uses.remove(&row.id).unwrap_or_default(), row)).collect())
}

/// The record as it stands.
struct Now<'a> {
    store: &'a Store,
    lists: Lists,
    known: HashMap<i64, ResultRow>,
    newest: HashMap<(i64, i64), ResultRow>,
}

impl Now<'_> {
    fn stated(&self, uses: Vec<StatementUse>, row: StatementRow) -> Result<Stated, Error> {
        let sentence = sentence_of(&row.name, &row.fields)?;
        let kept = Kept::read(&row.name, row.checked)?;
        let mut changes = vec![];
        let mut used = vec![];
        for u in uses {
            let Some(then) = self.known.get(&u.result_id) else { continue };
            let newest = self.newest.get(&(then.bottle_id, then.measurand_id)).unwrap_or(then);
            let taken = Used {
                role: u.role,
                result: then.identity(),
                verdict: u.verdict,
                amount: serde_json::from_value(u.amount).map_err(|e| unfit(&row.name, &e))?,
            };
            changes.extend(self.change(&taken, then, newest));
            used.push(taken);
        }
        if let Some(Whole::Age(well)) = &sentence.whole {
            changes.extend(self.leans_changed(well, &kept.leans));
        } else if sentence.whole.is_some() || sentence.names_a_well() {
            changes.extend(self.come_since(&sentence, &used));
        }
        // On the same evidence the answer is the same: only what changed is checked anew.
        let today = if changes.is_empty() { None } else { Some(self.today(&row.name, &sentence)) };
        if let Some(t) = today.as_ref().filter(|t| t.answer.as_deref() != Some(row.answer.as_str())) {
            let now = t.answer.as_deref().map_or_else(|| said::CannotBeChecked.into(), answer);
            changes.push(said::AnswerChanged { before: answer(&row.answer), now }.into());
        }
        Ok(Stated {
            asked: kept.asked.clone(),
            plain: kept.plain.clone(),
            scientific: kept.scientific.clone(),
            warnings: kept.warnings.clone(),
            uses: used,
            changed: changes.iter().map(in_english).collect(),
            changes,
            today,
            name: row.name,
            revision: row.revision,
            kind: row.kind,
            sentence,
            answer: row.answer,
            kept,
            despite: row.despite,
            head: row.head,
            person: row.person,
        })
    }

    /// Results that came to the statement's series, bottle or well after it was checked, or left it.
    fn come_since(&self, sentence: &Sentence, used: &[Used]) -> Option<Said> {
        let today = match resolve(self.store, sentence) {
            Ok(resolved) => resolved.uses,
            // A well that no number can be given of: the answer of today says why.
            Err(_) if sentence.names_a_well() => vec![],
            // Why is a refusal, which speaks English alone.
            Err(why) => {
                let what = if matches!(sentence.whole, Some(Whole::Bottle(_))) { "bottle" } else { "series" };
                return Some(format!("the {what} can no longer be followed: {why}").into());
            }
        };
        let then: HashSet<ResultId> = used.iter().map(|u| u.result.newest()).collect();
        let now: HashSet<ResultId> = today.iter().map(|(_, r)| r.result.newest()).collect();
        let (came, left) = (now.difference(&then).count(), then.difference(&now).count());
        let (came, left) = (count(came), count(left));
        (came + left > 0).then(|| {
            if sentence.names_a_well() {
                said::WellChanged { came, left }.into()
            } else if matches!(sentence.whole, Some(Whole::Bottle(_))) {
                said::BottleChanged { came, left }.into()
            } else {
                said::SeriesChanged { came, left }.into()
            }
        })
    }

    /// What an age leans on that came, left or is another now: the rows are compared, nothing is worked out.
    fn leans_changed(&self, well: &str, then: &[Leans]) -> Option<Said> {
        let now = match assessment::age::leans(self.store, well) {
            Ok(now) => now,
            Err(why) => return Some(format!("the tracers of the well can no longer be followed: {why}").into()),
        };
        let mut what: Vec<Arg> = vec![];
        for l in then.iter().filter(|l| !now.contains(l)).chain(now.iter().filter(|l| !then.contains(l))) {
            let named = Arg::from(leans_on(l));
            if !what.contains(&named) {
                what.push(named);
            }
        }
        (!what.is_empty()).then(|| said::LeansChanged { what }.into())
    }

    /// What changed of one result.
    fn change(&self, u: &Used, then: &ResultRow, newest: &ResultRow) -> Vec<Said> {
        let mut out: Vec<Said> = vec![];
        let now = self.lists.listed(newest.clone());
        let named = |r: &ResultRow| r.identity().to_string().into();
        if newest.id != then.id {
            let amount = |a: &Option<Amount>| a.as_ref().map_or_else(|| said::NoValue.into(), Amount::with_u);
            let (before, now) = (amount(&u.amount), amount(&now.amount));
            out.push(said::ResultRevised { result: named(then), revision: newest.revision, before, now }.into());
        }
        if let Some(why) = self.lists.taken_out(newest).filter(|_| u.verdict != Some(VerdictWord::Rejected)) {
            out.push(said::TakenOut { result: named(then), why: why.into() }.into());
        } else if now.verdict != u.verdict {
            let (result, before, verdict) = (named(newest), verdict(u.verdict), verdict(now.verdict));
            out.push(if now.reasons.is_empty() {
                said::VerdictChanged { result, before, now: verdict }.into()
            } else {
                let checks = now.reasons.join(", ").into();
                said::VerdictChangedBy { result, before, now: verdict, checks }.into()
            });
        }
        out
    }

    fn today(&self, name: &str, sentence: &Sentence) -> Today {
        match resolve(self.store, &sentence.of_newest()).and_then(|r| answered(name, &r, sentence)) {
            Ok(c) => Today { answer: Some(c.answer.word().into()), plain: c.plain, message: Some(c.sentences.plain) },
            Err(e) => Today { answer: None, plain: e.to_string(), message: None },
        }
    }
}

/// A row that an age leans on, in words.
pub fn leans_on(l: &Leans) -> Message {
    let name = || l.name.as_str().into();
    match l.on {
        LeansOn::Tracer => {
            said::LeansOnTracer { tracer: tracer_sign(&l.name).into(), day: l.day.as_str().into() }.into()
        }
        LeansOn::History => said::LeansOnHistory { name: name() }.into(),
        LeansOn::Recharge => match Message::named("web_forms", &format!("word-{}", l.name)) {
            Some(what) => what,
            None => said::LeansOnRecharge { name: name() }.into(),
        },
        LeansOn::Chemistry => said::LeansOnChemistry.into(),
    }
}

/// An answer as it is kept; one that this version does not know decides nothing.
pub fn answer(kept: &str) -> Message {
    match limits::claim::Answer::ALL.into_iter().find(|a| a.word() == kept) {
        Some(known) => known.message(),
        None => message::word::CannotTell.into(),
    }
}

/// A verdict as it was kept with a statement.
pub fn verdict(word: Option<VerdictWord>) -> Message {
    word.map_or_else(|| said::NoVerdict.into(), assessment::verdict::said)
}

fn in_english(said: &Said) -> String {
    match said {
        Said::Message(m) => m.in_english(),
        Said::Text(text) => text.clone(),
    }
}

/// The language a statement speaks.
pub fn language(s: &Stated) -> Lang {
    s.sentence.lang()
}

/// The sentences of a statement in another language, from what was kept of its results.
///
/// # Errors
/// [`Error::Science`] where the kept fields cannot be checked.
pub fn in_language(s: &Stated, lang: Lang) -> Result<Checked, Error> {
    let input = Claim { lang: Some(lang), ..s.kept.input.clone() };
    let of_bottles = s.kept.input_of_bottles.clone().map(|claim| Claim { lang: Some(lang), ..claim });
    let said = of_subject(&s.name, (&input, of_bottles.as_ref()), s.sentence.subject, lang)?;
    Ok(of_fractions(said, lang, s.uses.iter().map(|u| u.result.fraction.as_str())))
}
