//! What was typed, and that each act happens once.
//!
//! Each form carries a token: a random number with its mark, bound to the person's session. A token that is sent
//! again (a double click, the back button, a reload) does not act again: it leads to the page that the act led to.
//! Where something was wrong the form comes back with what was typed and the same token.

use crate::app::{App, Shared};
use crate::auth::random;
use crate::auth::who::Who;
use crate::http_error::HttpError;
use crate::lock::lock;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use message::{Spoken as _, count, web_door as door, web_forms as said, web_frame};
use quantity::format::capital;
use std::collections::HashMap;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// Fields of a form as they came.
#[derive(Debug, Clone, Default)]
pub(crate) struct Filled(pub Vec<(String, String)>);

impl Filled {
    /// A field; empty where it did not come.
    pub fn get(&self, name: &str) -> &str {
        self.0.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v.as_str())
    }
}

/// What a list of people sends where the name is typed beside it.
pub(crate) const ANOTHER: &str = "+";

impl Filled {
    /// With each name that was typed beside a list of people in the place of the choice "another name".
    pub fn with_other_names(mut self) -> Self {
        let typed: Vec<(String, String)> =
            self.0.iter().filter_map(|(n, v)| Some((n.strip_prefix("other.")?.to_string(), v.clone()))).collect();
        for (name, value) in self.0.iter_mut().filter(|(_, v)| v == ANOTHER) {
            if let Some((_, other)) = typed.iter().find(|(n, _)| n == name) {
                *value = other.trim().to_string();
            }
        }
        self
    }
}

/// A list of the people of the programme, the last choice another name; works without script.
pub(crate) fn people(
    (id, name): (&str, &str),
    chosen: &str,
    people: &[String],
    (described, invalid): (Option<&str>, bool),
) -> Markup {
    let other = format!("other.{name}");
    let mut known: Vec<&str> = people.iter().map(String::as_str).collect();
    known.sort_unstable();
    html! {
        select #(id) name=(name) aria-describedby=[described] aria-invalid=[invalid.then_some("true")] {
            option value="" { "–" }
            @for p in &known { option value=(p) selected[*p == chosen] { (p) } }
            @if !chosen.is_empty() && chosen != ANOTHER && !known.contains(&chosen) { option value=(chosen) selected { (chosen) } }
            option value=(ANOTHER) selected[chosen == ANOTHER] { (web_frame::AnotherName.text()) }
        }
        span.other {
            label for=(format!("other.{id}")) { (capital(&web_frame::AnotherName.text())) }
            input #(format!("other.{id}")) name=(other) autocomplete="off";
        }
    }
}

/// A field that cannot be taken as typed: its name, and found and expected in words.
pub(crate) type Fault = (String, String);

/// A form on its way to the page: what was typed, and what is wrong with it.
#[derive(Clone, Copy)]
pub(crate) struct Asking<'a> {
    pub filled: &'a Filled,
    pub faults: &'a [Fault],
}

/// A field of such a form: its name, its words, and what is said under it.
#[derive(Clone, Copy)]
pub(crate) struct Field<'a> {
    pub name: &'a str,
    pub words: &'a str,
    pub hint: &'a str,
}

impl Asking<'_> {
    /// All that is wrong, each with a link to its field.
    pub fn all_faults(&self) -> Markup {
        html! {
            @if !self.faults.is_empty() {
                div.fault role="alert" tabindex="-1" #faults {
                    p { strong { (said::NothingDone.text()) } " " (said::CannotBeTaken { fields: count(self.faults.len()) }.text()) }
                    ul { @for (name, words) in self.faults { li { a href=(format!("#{name}")) { (name.replace(['_', '.'], " ")) } ": " (words) } } }
                }
            }
        }
    }

    /// The fault of a field.
    fn fault(&self, name: &str) -> Option<&str> {
        self.faults.iter().find(|f| f.0 == name).map(|f| f.1.as_str())
    }

    /// Words over, fault and hint under what is asked.
    fn around(&self, f: Field, control: &dyn Fn(Option<&str>, &str) -> Markup) -> Markup {
        let fault = self.fault(f.name);
        let described =
            if fault.is_some() { format!("{0}-fault {0}-hint", f.name) } else { format!("{}-hint", f.name) };
        html! {
            div class=(if fault.is_some() { "field wrong" } else { "field" }) {
                label for=(f.name) { (f.words) }
                (control(fault.map(|_| "true"), &described))
                @if let Some(words) = fault { p.why #(format!("{}-fault", f.name)) { (words) } }
                p.hint #(format!("{}-hint", f.name)) { (f.hint) }
            }
        }
    }

    /// A line.
    pub fn line(&self, f: Field) -> Markup {
        self.line_of(f, None)
    }

    /// A line that offers names.
    pub fn line_of(&self, f: Field, list: Option<&str>) -> Markup {
        self.around(f, &|invalid, described| {
            html! { input #(f.name) name=(f.name) value=(self.filled.get(f.name)) list=[list] autocomplete="off" aria-invalid=[invalid] aria-describedby=(described); }
        })
    }

    /// A secret: never sent back.
    pub fn secret(&self, f: Field) -> Markup {
        self.around(f, &|invalid, described| {
            html! { input #(f.name) name=(f.name) type="password" autocomplete="new-password" aria-invalid=[invalid] aria-describedby=(described); }
        })
    }

    /// A number.
    pub fn number(&self, f: Field) -> Markup {
        self.around(f, &|invalid, described| {
            html! { input #(f.name) name=(f.name) value=(self.filled.get(f.name)) inputmode="decimal" autocomplete="off" aria-invalid=[invalid] aria-describedby=(described); }
        })
    }

    /// A sentence.
    pub fn prose(&self, f: Field) -> Markup {
        self.around(f, &|invalid, described| {
            html! { textarea #(f.name) name=(f.name) rows="2" aria-invalid=[invalid] aria-describedby=(described) { (self.filled.get(f.name)) } }
        })
    }

    /// A text of so many lines, as it stands.
    pub fn long(&self, f: Field, lines: u32) -> Markup {
        self.around(f, &|invalid, described| {
            html! { textarea.text #(f.name) name=(f.name) rows=(lines) spellcheck="false" aria-invalid=[invalid] aria-describedby=(described) { (self.filled.get(f.name)) } }
        })
    }

    /// One of a few words.
    pub fn choice(&self, f: Field, all: &[(&str, &str)]) -> Markup {
        self.around(f, &|invalid, described| {
            html! { select #(f.name) name=(f.name) aria-invalid=[invalid] aria-describedby=(described) {
                @for (value, words) in all { option value=(value) selected[self.filled.get(f.name) == *value] { (words) } }
            } }
        })
    }
}

/// How long a form may lie open.
const OPEN: Duration = Duration::from_hours(24);

/// Acts remembered at most.
const MOST: usize = 50_000;

type Slot = Arc<tokio::sync::Mutex<Option<String>>>;

/// The tokens.
pub(crate) struct Tokens {
    key: [u8; 32],
    used: Mutex<HashMap<String, (Instant, Slot)>>,
}

impl Tokens {
    /// With a key of its own: tokens of an earlier start of the program are not known any more.
    pub fn new() -> Self {
        Self { key: *blake3::hash((random() + &random()).as_bytes()).as_bytes(), used: Mutex::default() }
    }

    fn mark(&self, number: &str, bound: &str) -> blake3::Hash {
        blake3::keyed_hash(&self.key, format!("{number}\n{bound}").as_bytes())
    }

    /// A new one.
    pub fn new_token(&self, bound: &str) -> String {
        let number = random();
        let mark = self.mark(&number, bound);
        format!("{number}.{}", mark.to_hex())
    }

    /// Whether it is one of ours, given to this person.
    pub fn check(&self, token: &str, bound: &str) -> Result<(), HttpError> {
        let known = token.split_once('.').is_some_and(|(number, mark)| {
            // Hashes compare in constant time.
            blake3::Hash::from_hex(mark).is_ok_and(|m| m == self.mark(number, bound))
        });
        if known {
            return Ok(());
        }
        Err(HttpError::new(StatusCode::FORBIDDEN, door::FormStrange.text()))
    }

    /// The mark of a text that a form of this person's carries and nobody else may have chosen.
    pub fn seal(&self, bound: &str, text: &str) -> String {
        self.mark(text, &format!("seal {bound}")).to_hex().to_string()
    }

    /// Whether the text is one that was sealed for this person.
    pub fn sealed(&self, bound: &str, text: &str, mark: &str) -> bool {
        blake3::Hash::from_hex(mark).is_ok_and(|m| m == self.mark(text, &format!("seal {bound}")))
    }

    fn slot(&self, token: &str) -> Slot {
        let now = Instant::now();
        let mut used = lock(&self.used);
        if used.len() >= MOST {
            used.retain(|_, (at, _)| now.duration_since(*at) < OPEN / 24);
        }
        used.entry(token.to_string()).or_insert_with(|| (now, Slot::default())).1.clone()
    }
}

/// The hidden field.
pub(crate) fn token_field(app: &App, who: &Who) -> Markup {
    html! { input type="hidden" name="token" value=(app.tokens.new_token(&who.bound)); }
}

/// The hidden field of a form that came back: the same token as before.
pub(crate) fn same_token(filled: &Filled) -> Markup {
    html! { input type="hidden" name="token" value=(filled.get("token")); }
}

/// What was done, with a mark, and where to go from here: the script gives it the focus.
pub(crate) fn strip(done: &str, ways: &[(String, String)]) -> Markup {
    html! {
        div.done #done role="status" tabindex="-1" {
            span.tick aria-hidden="true" { "✓" } " " strong { (done) }
            @for (to, words) in ways { " " a href=(to) { (words) } }
        }
    }
}

/// What came of an act: where to go, or the page that says what was wrong.
pub(crate) enum Done {
    To(String),
    /// It is done, and the page tells what is worth a second look before it leads on.
    Told {
        to: String,
        page: Markup,
    },
    Again(Markup),
}

/// Does an act once for its token, and leads to its page (post, redirect, get).
pub(crate) async fn once<F>(app: &Shared, who: &Who, filled: &Filled, act: F) -> Result<Response, HttpError>
where
    F: Future<Output = Result<Done, HttpError>>,
{
    let token = filled.get("token");
    app.tokens.check(token, &who.bound)?;
    let slot = app.tokens.slot(token);
    // Held while the act is done: the same form sent twice at once waits here, and then finds it done.
    let mut done = slot.lock().await;
    if let Some(to) = done.as_ref() {
        return Ok(Redirect::to(to).into_response());
    }
    match act.await? {
        Done::To(to) => {
            *done = Some(to.clone());
            Ok(Redirect::to(&to).into_response())
        }
        Done::Told { to, page } => {
            *done = Some(to);
            Ok(page.into_response())
        }
        Done::Again(page) => Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_name_is_the_one_typed_beside_its_list() {
        let of = |fields: &[(&str, &str)]| {
            let all = fields.iter().map(|(n, v)| ((*n).to_string(), (*v).to_string())).collect();
            Filled(all).with_other_names()
        };
        let check = |fields: &[(&str, &str)], is: &str| assert_eq!(of(fields).get("r0.person"), is, "{fields:?}");
        check(&[("r0.person", "+"), ("other.r0.person", " Ina Moor ")], "Ina Moor");
        check(&[("r0.person", "+"), ("other.r0.person", "")], "");
        check(&[("r0.person", "Marit Osk"), ("other.r0.person", "Ina Moor")], "Marit Osk");
        check(&[("r0.person", "Marit Osk")], "Marit Osk");
    }

    #[test]
    fn a_token_is_bound_to_a_person_and_to_this_start() {
        let tokens = Tokens::new();
        let t = tokens.new_token("a");
        assert!(tokens.check(&t, "a").is_ok());
        assert!(tokens.check(&t, "b").is_err());
        assert!(Tokens::new().check(&t, "a").is_err());
        assert!(tokens.check("", "a").is_err());
        assert!(tokens.check("x.y", "a").is_err());
        let seal = tokens.seal("a", "secret");
        assert!(tokens.sealed("a", "secret", &seal));
        assert!(!tokens.sealed("b", "secret", &seal) && !tokens.sealed("a", "another", &seal));
        assert!(tokens.check(&format!("secret.{seal}"), "a").is_err(), "a seal is no token");
    }
}
