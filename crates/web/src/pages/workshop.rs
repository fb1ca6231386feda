//! A new sentence: built from lists that show the value and verdict of each choice, answered while one chooses, kept with a
//! name. Script asks for the answer as a piece of the page; without it the same lists have a button.
//!
//! In: what was chosen, in the address. Out: the lists of the substance, and what the record says to the sentence. The
//! sentences and their answers are `programme::statement::workshop`; the page's pieces are `workshop_page`. Checked in
//! `crates/web/tests/workshop.rs`.

use super::workshop_page;
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::forms::{Done, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, decoded, encoded};
use crate::typed::{self, older, say, shown};
use crate::worked;
use assessment::organics::Compounds;
use assessment::results::{self, Listed};
use assessment::well_value::WellValue;
use axum::Form;
use axum::extract::{Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use limits::table::{Limit, limits};
use message::{Spoken as _, web_statements as said};
use programme::index::Wanted;
use programme::limits_of::own;
use programme::statement::workshop::{Draft, Kind, Offer, Stands, Told, ask, offers, sentences};
use programme::statement::{self, New, Sentence, Subject, Whole};
use quantity::Unit;
use record::identity::ResultId;
use record::store::Store;
use std::collections::BTreeSet;

/// Results of one substance that lists are made of, the newest.
const LISTED: usize = 400;

/// The substance that a new sentence begins with, where the programme measured it.
const FIRST: &str = "Pb";

/// All that the page is made of.
pub(super) struct Ready {
    pub filled: Filled,
    pub kind: Kind,
    pub analytes: Vec<String>,
    pub analyte: String,
    pub offers: Vec<Offer>,
    pub limits: Vec<Limit>,
    pub bottles: Vec<String>,
    /// Wells whose age may be asked.
    pub wells: Vec<String>,
    /// A well has two days: something may have changed.
    pub two_days: bool,
    pub faults: Vec<(String, String)>,
    pub answer: Answered,
    /// Names of statements that are there.
    pub names: BTreeSet<String>,
}

/// What came of asking.
#[derive(Default)]
pub(super) enum Answered {
    /// Something is still to be chosen.
    #[default]
    Open,
    /// What the record says to each sentence.
    Told(Vec<Told>),
    /// It cannot be asked; why.
    Refused(String),
}

/// The address of a limit in the list.
pub(super) fn limit_key(l: &Limit) -> String {
    [l.authority.as_str(), &l.kind, &l.high.to_string(), &l.unit.to_string()].map(encoded).join("/")
}

fn ready(store: &Store, app: &App, filled: Filled) -> Result<Ready, HttpError> {
    let kind = Kind::parse(filled.get("kind")).unwrap_or_default();
    let analytes: Vec<String> = app.record.index(store, |i| i.analytes().into_iter().map(str::to_string).collect())?;
    let asked = filled.get("analyte").trim();
    let first = || analytes.iter().find(|a| *a == FIRST).or_else(|| analytes.first());
    let analyte = analytes.iter().find(|a| *a == asked).or_else(first).cloned().unwrap_or_default();
    let offers = offers_of(store, app, &analyte)?;
    let today = now()[..10].to_string();
    let fits = |l: &&Limit| l.analyte == limits::table::analyte(&analyte) && l.low.is_none() && !l.is_goal_of_zero();
    let mut of_analyte: Vec<Limit> = own(store)?.0.iter().filter(fits).cloned().collect();
    of_analyte.extend(limits().iter().filter(fits).filter(|l| l.decides_on(Some(&today))).cloned());
    let two_days = offers.iter().any(|a| offers.iter().any(|b| a.place == b.place && a.day != b.day));
    let bottles = if kind == Kind::None { bottles_of_compounds(store, &analytes)? } else { vec![] };
    let wells = (store.wells()?.into_iter()).filter(|w| !w.is_stream()).map(|w| w.name).collect();
    let names = statement::all(store)?.stated.into_iter().map(|s| s.name).collect();
    let mut out = Ready {
        filled,
        kind,
        analytes,
        analyte,
        offers,
        limits: of_analyte,
        bottles,
        wells,
        two_days,
        faults: vec![],
        answer: Answered::Open,
        names,
    };
    out.begin();
    let draft = out.draft();
    if out.faults.is_empty() {
        out.answer = answered(store, app, &draft)?;
    }
    Ok(out)
}

/// What can stand in a sentence about a substance: values of its wells, and results that no run on record measured.
fn offers_of(store: &Store, app: &App, analyte: &str) -> Result<Vec<Offer>, HttpError> {
    let wanted = Wanted { analyte: Some(analyte.into()), ..Wanted::default() };
    let rows = app.record.index(store, |i| i.select(&wanted, 0, LISTED).rows)?;
    let listed = results::listed(store, &rows)?;
    let wells: BTreeSet<&str> = listed.iter().filter_map(|r| r.well.as_deref()).collect();
    let mut values: Vec<WellValue> = vec![];
    for well in wells {
        values.extend(worked::well_values(store, app, well)?.iter().filter(|v| v.analyte == analyte).cloned());
    }
    let in_values: BTreeSet<String> =
        values.iter().flat_map(|v| v.bottles.iter().chain(&v.left_out)).map(|p| p.bottle.clone()).collect();
    let reported: Vec<Listed> = listed.iter().filter(|r| !in_values.contains(&r.bottle)).cloned().collect();
    Ok(offers(&values, &reported))
}

/// Bottles in which organic compounds were looked for; nothing is read where the programme has none.
fn bottles_of_compounds(store: &Store, analytes: &[String]) -> Result<Vec<String>, HttpError> {
    let described = Compounds::described(store)?;
    if !analytes.iter().any(|a| described.holds(a)) {
        return Ok(vec![]);
    }
    let all = results::all(store)?;
    let compounds = Compounds::of(store, &all)?;
    let of_compounds = all.iter().filter(|r| r.kind.is_water() && compounds.holds(&r.analyte));
    let bottles: BTreeSet<String> = of_compounds.map(|r| r.bottle.clone()).collect();
    Ok(bottles.into_iter().collect())
}

fn answered(store: &Store, app: &App, draft: &Draft) -> Result<Answered, HttpError> {
    let sentences = match sentences(draft) {
        Ok(all) if all.is_empty() => return Ok(Answered::Open),
        Ok(all) => all,
        Err(why) => return Ok(Answered::Refused(older(&why.to_string()))),
    };
    let mut told = vec![];
    for sentence in &sentences {
        match asked(store, app, sentence) {
            Ok(one) => told.push(one),
            Err(record::Error::Store(e)) => return Err(e.into()),
            Err(why) => return Ok(Answered::Refused(older(&why.to_string()))),
        }
    }
    Ok(Answered::Told(told))
}

/// What the record says to a sentence; that of an age is worked out once for a head of the record, since its models are
/// held against the tracers again for each question.
fn asked(store: &Store, app: &App, sentence: &Sentence) -> Result<Told, record::Error> {
    let Some(Whole::Age(well)) = &sentence.whole else { return ask(store, sentence) };
    let text = serde_json::to_string(sentence).unwrap_or_default();
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let name = format!("sentence of the age of {well}");
    // What is said beside the answer is said in a language.
    let state = format!("{head} {:?} {text}", message::language());
    let told = worked::kept(app, &name, state, || Ok(ask(store, sentence).ok())).ok();
    match told.as_deref() {
        Some(Some(told)) => Ok(told.clone()),
        // A refusal is no copy of another: it is asked for again, and comes at once.
        _ => ask(store, sentence),
    }
}

impl Ready {
    /// Chooses what nobody chose yet: the first of each list, so that there is an answer at once.
    fn begin(&mut self) {
        if self.kind == Kind::Changed && !self.two_days {
            self.kind = Kind::default();
        }
        let key = |n: usize| self.offers.get(n).map(|o| o.key.clone()).unwrap_or_default();
        let first = key(0);
        let place = self.offers.first().map(|o| o.place.clone());
        let day = self.offers.first().map(|o| o.day.clone());
        let is_pair = |o: &&Offer| match self.kind {
            Kind::Changed => Some(&o.place) == place.as_ref() && Some(&o.day) != day.as_ref(),
            _ => Some(&o.place) != place.as_ref(),
        };
        let second = self.offers.iter().find(is_pair).map(|o| o.key.clone()).unwrap_or_default();
        // The earlier day stands first.
        let (of, with) = if self.kind == Kind::Changed { (second, first) } else { (first, second) };
        let limit = self.limits.first().map(limit_key).unwrap_or_default();
        let bottle = self.bottles.first().cloned().unwrap_or_default();
        let relation = relations(self.kind)[0].to_string();
        let begin =
            [("of", of.clone()), ("with", with.clone()), ("limit", limit), ("bottle", bottle), ("relation", relation)];
        for (name, value) in begin {
            if !self.filled.0.iter().any(|(n, _)| n == name) {
                self.filled.0.push((name.into(), value));
            }
        }
        if !relations(self.kind).contains(&self.filled.get("relation")) {
            self.set("relation", relations(self.kind)[0]);
        }
        if self.kind == Kind::Age {
            let well = self.wells.first().cloned().unwrap_or_default();
            if !self.wells.iter().any(|w| w == self.filled.get("well")) {
                self.set("well", &well);
            }
            if self.filled.get("relation") == "before" && self.filled.get("year").trim().is_empty() {
                self.set("year", "1953");
            }
        }
        if self.kind == Kind::Times && self.filled.get("number").trim().is_empty() {
            self.set("number", "1");
        }
        // A choice of another substance is none of this one's.
        if self.stands("of").is_none() {
            self.set("of", &of);
        }
        if self.stands("with").is_none() && self.reference().is_none() {
            self.set("with", &with);
        }
    }

    fn set(&mut self, name: &str, value: &str) {
        self.filled.0.retain(|(n, _)| n != name);
        self.filled.0.push((name.into(), value.into()));
    }

    /// What stands at a place of the sentence: of the list, or a result by its name.
    fn stands(&self, name: &str) -> Option<Stands> {
        let key = self.filled.get(name);
        let offered = self.offers.iter().find(|o| o.key == key).map(|o| o.stands.clone());
        let by_name = || decoded(key.strip_prefix("bottle/")?)?.parse::<ResultId>().ok().map(Stands::Result);
        offered.or_else(by_name)
    }

    fn reference(&self) -> Option<String> {
        decoded(self.filled.get("with").strip_prefix("water/")?)
    }

    fn draft(&mut self) -> Draft {
        // Of fields that another relation of an age left behind nothing is read.
        let is_age = self.kind == Kind::Age;
        let is_share = !matches!(self.filled.get("relation"), "before" | "older");
        let (year, years, number) = match (is_age, is_share) {
            (false, _) => (None, None, self.number("number")),
            (true, true) => (None, self.number("years"), self.number("share")),
            (true, false) if self.filled.get("relation") == "older" => (None, self.number("years"), None),
            (true, false) => (self.number("year"), None, None),
        };
        let level = match self.kind {
            Kind::Limit => {
                let chosen = self.filled.get("limit");
                self.limits.iter().find(|l| limit_key(l) == chosen).map(|l| (l.high, l.unit.clone()))
            }
            _ => self.number("level").zip(self.unit()),
        };
        let some = |name: &str| Some(self.filled.get(name).to_string()).filter(|t| !t.is_empty());
        let whole_bottle = some("bottle").filter(|b| self.kind == Kind::None && self.bottles.contains(b));
        Draft {
            kind: self.kind,
            analyte: self.analyte.clone(),
            of: self.stands("of"),
            with: self.stands("with"),
            reference: self.reference(),
            relation: self.filled.get("relation").into(),
            number,
            less: self.filled.get("way") != "more",
            level,
            well: some("well").filter(|w| is_age && self.wells.contains(w)),
            year,
            years,
            body: some("body"),
            whole_bottle,
            subject: if self.filled.get("subject") == "bottles" { Subject::Bottles } else { Subject::Waters },
        }
    }

    fn number(&mut self, name: &str) -> Option<f64> {
        let text = self.filled.get(name).trim().to_string();
        if text.is_empty() {
            return None;
        }
        match typed::number(&text) {
            Ok(x) if x > 0.0 => Some(x),
            Ok(_) => {
                self.faults.push((name.into(), say(said::AboveZero)));
                None
            }
            Err(why) => {
                self.faults.push((name.into(), say(why)));
                None
            }
        }
    }

    /// The unit of a level of one's own; that of the first value where none is typed.
    fn unit(&mut self) -> Option<Unit> {
        let text = self.filled.get("unit").trim().to_string();
        if text.is_empty() {
            return self.offers.iter().find_map(|o| o.amounts.first().map(|a| a.unit().clone()));
        }
        let unit = Unit::parse(&text).ok();
        if unit.is_none() {
            self.faults.push(("unit".into(), say(said::NoUnit { text: text.into() })));
        }
        unit
    }

    /// A name for the sentence that nobody gave another yet.
    pub fn proposed_name(&self) -> String {
        let offer = self.offers.iter().find(|o| o.key == self.filled.get("of"));
        let of_age = self.kind == Kind::Age;
        let (place, day) = offer.map_or((self.filled.get("bottle"), ""), |o| (o.place.as_str(), o.day.as_str()));
        let day = shown(day);
        let parts = if of_age {
            [self.filled.get("well").to_string(), said::AgeName.text(), String::new()]
        } else {
            [place.to_string(), super::statements::element(&self.analyte), day]
        };
        let stem = parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join(", ");
        let more = (2..1000).map(|n| format!("{stem} ({n})"));
        std::iter::once(stem.clone()).chain(more).find(|n| !self.names.contains(n)).unwrap_or(stem)
    }
}

/// The words of a kind's relation, as `limits::claim` takes them; the first is proposed.
pub(super) fn relations(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::Limit | Kind::Level => &["below", "above"],
        Kind::Times => &["at least", "about", "at most"],
        Kind::Picture => &["about", "at least", "at most"],
        Kind::None => &[""],
        Kind::Changed => &["fallen", "risen", "unchanged"],
        Kind::Age => &["before", "older", "at most", "at least"],
    }
}

/// The workshop.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let ready = page::read(&app, move |store, app| ready(store, app, Filled(q.into_iter().collect()))).await?;
    let token = token_field(&app, &who);
    Ok(framed(&app, &who, &ready, &token).into_response())
}

fn framed(app: &App, who: &Who, ready: &Ready, token: &maud::Markup) -> maud::Markup {
    let body = workshop_page::whole(ready, who, token);
    page::page(app, who, Place::of("/statements", &said::NewSentence.text()).spoken(who), &body)
}

/// The answer alone, for the script.
pub(crate) async fn answer(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let ready = page::read(&app, move |store, app| ready(store, app, Filled(q.into_iter().collect()))).await?;
    Ok(workshop_page::answer(&ready, &who, &token_field(&app, &who)).into_response())
}

/// Keeps the sentence; of one that is said of each bottle, one statement a bottle.
pub(crate) async fn add(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let sent = filled.clone();
        let mut ready = page::read(&app, move |store, app| ready(store, app, sent)).await?;
        let Answered::Told(told) = &ready.answer else {
            if ready.faults.is_empty() {
                ready.faults.push(("of".into(), say(said::StillToChoose)));
            }
            return Ok(Done::Again(framed(&app, &who, &ready, &same_token(&filled))));
        };
        let (name, despite) = (filled.get("name").trim().to_string(), filled.get("despite").trim().to_string());
        let mut faults = vec![];
        if name.is_empty() {
            faults.push(("name".to_string(), say(message::web_forms::Lacking)));
        } else if ready.names.contains(&name) {
            faults.push(("name".to_string(), say(said::NameTaken)));
        }
        if told.iter().any(|t| t.held().next().is_some())
            && let Err(why) = typed::reason(&despite)
        {
            faults.push(("despite".to_string(), say(why)));
        }
        if faults.is_empty() {
            let new: Vec<(String, statement::Sentence)> = told
                .iter()
                .map(|t| {
                    let bottle = t.uses.first().map_or("", |u| u.bottle.as_str());
                    let name = if told.len() > 1 { format!("{name} ({bottle})") } else { name.clone() };
                    (name, t.sentence.clone())
                })
                .collect();
            let several = new.len() > 1;
            let (person, at) = (who.clone(), now());
            let kept = page::write(&app, move |store| {
                for (name, sentence) in &new {
                    let despite = Some(despite.as_str()).filter(|d| !d.is_empty());
                    statement::add(store, &New { name, sentence, despite }, person.by(&at))?;
                }
                Ok::<_, record::Error>(())
            })
            .await?;
            match kept {
                Ok(()) if several => return Ok(Done::To("/statements".into())),
                Ok(()) => return Ok(Done::To(format!("/statements/{}", encoded(&name)))),
                Err(record::Error::Store(e)) => return Err(e.into()),
                Err(why) => faults.push(("name".into(), older(&why.to_string()))),
            }
        }
        ready.faults = faults;
        Ok(Done::Again(framed(&app, &who, &ready, &same_token(&filled))))
    })
    .await
}
