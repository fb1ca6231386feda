//! Who asks, once the guard has let them in.

use super::accounts::Role;
use crate::http_error::HttpError;
use axum::extract::FromRequestParts;
use axum::http::StatusCode;
use axum::http::request::Parts;
use message::{Lang, Spoken as _, web_door as says};
use programme::hands::NOT_NAMED;
use record::by::By;

/// Who asks.
#[derive(Debug, Clone)]
pub(crate) struct Who {
    /// Name, as it will stand as author.
    pub person: String,
    pub role: Role,
    /// What the tokens of this person's forms are bound to.
    pub bound: String,
    /// Whether one logged in.
    pub session: bool,
    /// The path with its query, for links to the same page.
    pub here: String,
    /// The language of pages that speak several.
    pub language: Lang,
}

impl Who {
    /// Whether anybody is named: acts of nobody stand as such, and a verdict is signed by somebody.
    pub fn is_named(&self) -> bool {
        self.person != NOT_NAMED
    }

    /// As the author of an act now.
    pub fn by<'a>(&'a self, at: &'a str) -> By<'a> {
        By { person: &self.person, at }
    }

    /// Whether one may.
    pub fn may(&self, role: Role) -> bool {
        self.role >= role
    }

    /// Refuses those who may not.
    pub fn must_be(&self, role: Role) -> Result<(), HttpError> {
        if self.may(role) {
            return Ok(());
        }
        let (own, needed) = (self.role.called(), role.called());
        let who = self.person.as_str().into();
        let words = says::NeedsRole { who, role: own.into(), needed: needed.into() }.text();
        Err(HttpError::new(StatusCode::FORBIDDEN, words))
    }
}

impl<S: Send + Sync> FromRequestParts<S> for Who {
    type Rejection = HttpError;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, HttpError> {
        parts.extensions.get::<Who>().cloned().ok_or_else(|| HttpError::outside("the guard was passed by"))
    }
}
