//! When a page cannot be shown or an act not done: the status and clear words. The one place where errors turn to
//! status codes; what failed outside is also written to standard error, once.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use intake::import::ImportError;
use maud::{DOCTYPE, Markup, html};
use message::{Spoken, language, web_frame as says};
use record::store::StoreError;

/// What went wrong.
#[derive(Debug)]
pub(crate) struct HttpError {
    pub status: StatusCode,
    pub words: String,
}

impl HttpError {
    /// With a status of its own.
    pub fn new(status: StatusCode, words: impl Into<String>) -> Self {
        Self { status, words: words.into() }
    }

    /// There is no such page or thing.
    pub fn absent(words: impl Into<String>) -> Self {
        Self::new(StatusCode::NOT_FOUND, words)
    }

    /// What was asked cannot be done as it was asked.
    pub fn refused(words: impl Into<String>) -> Self {
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, words)
    }

    /// Disk, thread, store.
    pub fn outside(words: impl Into<String>) -> Self {
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, words)
    }
}

impl From<StoreError> for HttpError {
    fn from(e: StoreError) -> Self {
        match e {
            StoreError::Busy { .. }
            | StoreError::WriteConflict
            | StoreError::Full { .. }
            | StoreError::ReadOnly { .. } => Self::new(StatusCode::SERVICE_UNAVAILABLE, e.to_string()),
            StoreError::NoRow { .. } | StoreError::UnknownTable { .. } => Self::absent(e.to_string()),
            other => Self::outside(other.to_string()),
        }
    }
}

impl From<record::identity::NoName> for HttpError {
    fn from(e: record::identity::NoName) -> Self {
        record::Error::from(e).into()
    }
}

impl From<record::Error> for HttpError {
    fn from(e: record::Error) -> Self {
        match e {
            record::Error::Store(e) => e.into(),
            record::Error::Absent { .. } => Self::absent(e.to_string()),
            record::Error::NotDerived { .. } => Self::new(StatusCode::SERVICE_UNAVAILABLE, e.to_string()),
            record::Error::Stopped { .. } => {
                Self::refused(format!("{}. Nothing of it was kept.", quantity::format::capital(&e.to_string())))
            }
            other => Self::refused(other.to_string()),
        }
    }
}

impl From<EntryError> for HttpError {
    fn from(e: EntryError) -> Self {
        match e {
            EntryError::Store(e) => e.into(),
            EntryError::Programme(e) => e.into(),
            other => Self::refused(other.to_string()),
        }
    }
}

impl From<ImportError> for HttpError {
    fn from(e: ImportError) -> Self {
        match e {
            ImportError::Store(e) => e.into(),
            ImportError::Io { .. } => Self::outside(e.to_string()),
            ImportError::Stopped { .. } => Self::refused(format!("{}.", quantity::format::capital(&e.to_string()))),
            other => Self::refused(other.to_string()),
        }
    }
}

impl From<std::io::Error> for HttpError {
    fn from(e: std::io::Error) -> Self {
        Self::outside(e.to_string())
    }
}

/// What went wrong, beside the bare page: who asked for a page gets it in the frame (`auth::guard`).
#[derive(Debug, Clone)]
pub(crate) struct Told {
    pub title: String,
    pub words: String,
}

impl IntoResponse for HttpError {
    fn into_response(self) -> Response {
        if self.status.is_server_error() {
            eprintln!("web: {}: {}", self.status, self.words);
        }
        let title = match self.status {
            StatusCode::NOT_FOUND => says::NotFound.text(),
            StatusCode::FORBIDDEN => says::NobodysName.text(),
            StatusCode::PAYLOAD_TOO_LARGE => says::TooLarge.text(),
            StatusCode::TOO_MANY_REQUESTS => says::TooMany.text(),
            s if s.is_server_error() => says::Outside.text(),
            _ => says::Refused.text(),
        };
        let told = Told { title, words: self.words };
        let page = html! {
            (DOCTYPE)
            html lang=(language().code()) {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { (told.title) " – Limpid" }
                    link rel="stylesheet" href=(crate::style::style_address());
                }
                body class="plain" { main { (told.said()) } }
            }
        };
        let mut response = (self.status, page).into_response();
        response.extensions_mut().insert(told);
        response
    }
}

impl Told {
    /// What went wrong, and that nothing was changed.
    pub fn said(&self) -> Markup {
        html! {
            h1 { (self.title) }
            p { (self.words) }
            p { (says::NothingChanged.text()) " " a href="/" { (says::ToDesk.text()) } }
        }
    }
}
