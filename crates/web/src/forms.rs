//! What was typed, and that each act happens once.
//!
//! Each form carries a token: a random number with its mark, bound to the person's session. A token that is sent
//! again (a double click, the back button, a reload) does not act again: it leads to the page that the act led to.
//! Where something was wrong the form comes back with what was typed and the same token.

use crate::app::{App, Shared};
use crate::door::guard::Who;
use crate::door::random;
use crate::record::lock;
use crate::trouble::Trouble;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
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
    pub fn check(&self, token: &str, bound: &str) -> Result<(), Trouble> {
        let known = token.split_once('.').is_some_and(|(number, mark)| {
            // Hashes compare in constant time.
            blake3::Hash::from_hex(mark).is_ok_and(|m| m == self.mark(number, bound))
        });
        if known {
            return Ok(());
        }
        Err(Trouble::new(
            StatusCode::FORBIDDEN,
            "This form was opened before the program was started again, or by somebody else. Go back, copy what you typed, open the page anew and send it again.",
        ))
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

/// What came of an act: where to go, or the page that says what was wrong.
pub(crate) enum Done {
    To(String),
    Again(Markup),
}

/// Does an act once for its token, and leads to its page (post, redirect, get).
pub(crate) async fn once<F>(app: &Shared, who: &Who, filled: &Filled, act: F) -> Result<Response, Trouble>
where
    F: Future<Output = Result<Done, Trouble>>,
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
        Done::Again(page) => Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_token_is_bound_to_a_person_and_to_this_start() {
        let tokens = Tokens::new();
        let t = tokens.new_token("a");
        assert!(tokens.check(&t, "a").is_ok());
        assert!(tokens.check(&t, "b").is_err());
        assert!(Tokens::new().check(&t, "a").is_err());
        assert!(tokens.check("", "a").is_err());
        assert!(tokens.check("x.y", "a").is_err());
    }
}
