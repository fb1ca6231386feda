//! The frame of every page: where one is, under which name one acts, the cautions; and small pieces that many
//! pages use.

use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::forms::token_field;
use crate::http_error::HttpError;
use crate::style;
use maud::{DOCTYPE, Markup, html};
use message::{Lang, Message, language, with_language};
use percent_encoding::percent_decode_str;
use record::ResultId;
use record::store::Store;

/// The line that marks invented data, on every page.
const INVENTED: &str = "Invented data: no real well, no real water.";

/// The places, in the order of the path of a number.
pub(crate) const PLACES: &[(&str, &str)] = &[
    ("/", "Home"),
    ("/wells", "Wells"),
    ("/trips", "Trips"),
    ("/runs", "Runs"),
    ("/results", "Results"),
    ("/water", "Water"),
    ("/time", "Over time"),
    ("/statements", "Statements"),
    ("/report", "Report"),
    ("/record", "Record"),
];

/// A page's own title and place.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Place<'a> {
    pub title: &'a str,
    /// Path of the place in the head line that it belongs to.
    pub nav: &'a str,
    /// Look again after so many seconds.
    pub refresh: Option<u32>,
    /// The language of the page itself, where it is another than the frame's.
    pub language: Option<Lang>,
}

impl<'a> Place<'a> {
    /// A page of a place.
    pub fn of(nav: &'a str, title: &'a str) -> Self {
        Self { title, nav, ..Self::default() }
    }

    /// Of a page that speaks the language of who asks.
    pub fn spoken(self, who: &Who) -> Self {
        Self { language: Some(who.language), ..self }
    }
}

/// A page in its frame.
pub(crate) fn page(app: &App, who: &Who, place: Place, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            (head(app, place))
            body {
                a.skip href="#main" { "To the page itself" }
                header.top {
                    p.name { a href="/" { (app.name) } }
                    @if app.invented { p.mark { (INVENTED) } }
                    nav aria-label="Places" {
                        ul {
                            @for (path, name) in PLACES {
                                li { a href=(path) aria-current=[(*path == place.nav).then_some("page")] { (name) } }
                            }
                        }
                    }
                    (identity(app, who))
                }
                main #main tabindex="-1" lang=[place.language.map(Lang::code)] { (body) }
                footer {
                    p { "Limpid compares numbers and never says that water may be drunk: advice belongs to the local health authority. What was not tested, microbes first, is not spoken of." }
                }
            }
        }
    }
}

/// A page for who has not come in yet.
pub(crate) fn bare(app: &App, title: &str, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            (head(app, Place { title, ..Place::default() }))
            body.plain { main { (body) } }
        }
    }
}

fn head(app: &App, place: Place) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            @if let Some(seconds) = place.refresh { noscript { meta http-equiv="refresh" content=(seconds); } }
            title { (place.title) " – " (app.name) }
            link rel="stylesheet" href=(style::style_address());
            link rel="icon" href="data:,";
            script type="module" src=(style::script_address()) {}
        }
    }
}

fn identity(app: &App, who: &Who) -> Markup {
    if who.session {
        return html! {
            form.who method="post" action="/leave" {
                (token_field(app, who))
                span { (who.person) ", " (who.role.word()) } " "
                button.plain type="submit" { "Log out" }
            }
        };
    }
    html! {
        details.who {
            summary { @if who.is_named() { "Acting as " (who.person) } @else { "Nobody is named: say who acts" } }
            form method="post" action="/name" {
                (token_field(app, who))
                input type="hidden" name="to" value=(encoded(&who.here));
                label for="acting-as" { "Name that stands as author in the record" }
                input #acting-as name="name" value=(if who.is_named() { who.person.as_str() } else { "" }) required;
                button type="submit" { "Act under this name" }
            }
        }
    }
}

/// What is said in the language of who asks; on a page that speaks several.
pub(crate) fn said(who: &Who, what: impl Into<Message>) -> String {
    what.into().said(who.language).unwrap_or_default()
}

/// A link to the same page in the other language.
pub(crate) fn other_language(who: &Who) -> Markup {
    let other = Lang::ALL.into_iter().find(|l| *l != who.language).unwrap_or(who.language);
    let (path, query) = who.here.split_once('?').unwrap_or((&who.here, ""));
    let kept = query.split('&').filter(|part| !part.is_empty() && !part.starts_with("language="));
    let query: Vec<&str> = kept.collect();
    let before = if query.is_empty() { String::new() } else { format!("{}&", query.join("&")) };
    html! { a lang=(other.code()) hreflang=(other.code()) href=(format!("{path}?{before}language={}", other.code())) { (other.name()) } }
}

/// A text for a query or a path: letters, digits and `-._~:` stay.
pub(crate) use record::identity::in_address as encoded;

/// Back from [`encoded`]; none where a `%` is followed by no byte, or the bytes are no text.
pub(crate) fn decoded(text: &str) -> Option<String> {
    let is_byte = |after: &str| after.as_bytes().get(..2).is_some_and(|two| two.iter().all(u8::is_ascii_hexdigit));
    let whole = text.split('%').skip(1).all(is_byte);
    let decoded = percent_decode_str(text).decode_utf8().ok().filter(|_| whole)?;
    Some(decoded.into_owned())
}

/// A path of this web interface, where it is one and nothing else: signs that stand in an address as they are (RFC 3986), so no
/// space, tab or line end that a browser leaves out; one slash before the rest, no backslash, no host, no scheme.
pub(crate) fn own_path(to: &str) -> Option<&str> {
    let plain = to.bytes().all(|b| b.is_ascii_graphic() && b != b'\\');
    (plain && to.starts_with('/') && !to.starts_with("//")).then_some(to)
}

/// The address of a result's case.
pub(crate) fn case_address(result: &ResultId) -> String {
    format!("/case/{}", result.in_address())
}

/// The moment of an act or a reading, easy to read.
pub(crate) fn moment(iso: &str) -> String {
    iso.replace('T', " ").trim_end_matches('Z').to_string()
}

/// Reads the record on a thread of its own and answers with what was made of it.
pub(crate) async fn read<T: Send + 'static>(
    app: &Shared,
    make: impl FnOnce(&Store, &Shared) -> Result<T, HttpError> + Send + 'static,
) -> Result<T, HttpError> {
    let _turn = app.record.turn().await?;
    let (shared, spoken) = (app.clone(), language());
    tokio::task::spawn_blocking(move || with_language(spoken, || shared.record.read_now(|store| make(store, &shared))))
        .await
        .map_err(|e| HttpError::outside(format!("a page broke off: {e}")))?
}

/// Writes on a thread of its own.
pub(crate) async fn write<T: Send + 'static>(
    app: &Shared,
    act: impl FnOnce(&mut Store) -> T + Send + 'static,
) -> Result<T, HttpError> {
    let (shared, spoken) = (app.clone(), language());
    tokio::task::spawn_blocking(move || with_language(spoken, || shared.record.write_now(act)))
        .await
        .map_err(|e| HttpError::outside(format!("an act broke off: {e}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_is_sent_elsewhere() {
        for to in ["/", "/wells?x=1", "/case/a:b%40c#top", "/wells?to=//x", "/a//b"] {
            assert_eq!(own_path(to), Some(to));
        }
        for to in
            ["", "wells", "//x/", "https://x/", "/\\x", "/\t/x", "/\n/x", "/ /x", "/\u{0}/x", "/\u{a0}/x", "/wells?ü"]
        {
            assert_eq!(own_path(to), None, "{to:?}");
        }
    }

    #[test]
    fn identities_survive_an_address() {
        for text in ["SL2-26-07-A:Pb:206+207+208@low:unfiltered#1", "a/b c?d&e=ü%", ""] {
            assert_eq!(decoded(&encoded(text)).as_deref(), Some(text));
        }
        for text in ["%zz", "%4", "%", "a%", "%+f", "%ff", "%c3", "%%41"] {
            assert_eq!(decoded(text), None, "{text}");
        }
        assert_eq!(decoded("a%2fb%2F%c3%bc+ü").as_deref(), Some("a/b/ü+ü"));
    }
}
