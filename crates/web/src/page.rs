//! The frame of every page: where one is, under which name one acts, the cautions; and small pieces that many
//! pages use.

use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::forms::{people, token_field};
use crate::http_error::HttpError;
use crate::style;
use maud::{DOCTYPE, Markup, html};
use message::{Lang, Message, Spoken, language, web_frame as says, with_language};
use percent_encoding::percent_decode_str;
use record::ResultId;
use record::store::Store;

/// The places, in the order of the path of a number: where each is, and what it is called.
pub(crate) fn places() -> [(&'static str, String); 12] {
    [
        ("/", says::Desk.text()),
        ("/wells", says::Wells.text()),
        ("/trips", says::Trips.text()),
        ("/lots", says::Lots.text()),
        ("/runs", says::Runs.text()),
        ("/results", says::Results.text()),
        ("/attribution", says::Sources.text()),
        ("/water", says::Water.text()),
        ("/time", says::Time.text()),
        ("/statements", says::Statements.text()),
        ("/report", says::Report.text()),
        ("/record", says::Record.text()),
    ]
}

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
    let called = app.called();
    let own = place.language.filter(|l| *l != language()).map(Lang::code);
    html! {
        (DOCTYPE)
        html lang=(language().code()) {
            (head(&called.name, place))
            body {
                a.skip href="#main" { (says::Skip.text()) }
                header.top {
                    p.name { a href="/" { (called.name) } }
                    @if called.invented { p.mark { (says::Invented.text()) } }
                    input.menu #menu type="checkbox";
                    label.menu for="menu" { (says::Menu.text()) }
                    div.tools {
                        form.find method="get" action="/search" role="search" {
                            input #find name="q" type="search" aria-label=(says::SearchLabel.text()) placeholder=(says::SearchLabel.text());
                            button.second type="submit" { (says::Search.text()) }
                        }
                        (identity(app, who))
                        p.language { (languages(who)) }
                    }
                    nav aria-label=(says::Places.text()) {
                        ul {
                            @for (path, name) in places() {
                                li { a href=(path) aria-current=[(path == place.nav).then_some("page")] { (name) } }
                            }
                        }
                    }
                }
                main #main tabindex="-1" lang=[own] data-columns=(says::MoreColumns { n: "#".into() }.text()) { (body) }
                footer {
                    p { (says::Footer.text()) }
                    p { a href="/keys" #keys { (says::Keys.text()) } }
                }
            }
        }
    }
}

/// A page for who has not come in yet.
pub(crate) fn bare(app: &App, who: &Who, title: &str, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang=(language().code()) {
            (head(&app.called().name, Place { title, ..Place::default() }))
            body.plain { p.language { (languages(who)) } main { (body) } }
        }
    }
}

fn head(name: &str, place: Place) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            @if let Some(seconds) = place.refresh { noscript { meta http-equiv="refresh" content=(seconds); } }
            title { (place.title) " – " (name) }
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
                a href="/account" { (who.person) ", " (who.role.called()) } " "
                button.plain type="submit" { (says::LogOut.text()) }
            }
        };
    }
    html! {
        details.who {
            summary { @if who.is_named() { (says::ActingAs { who: who.person.as_str().into() }.text()) } @else { (says::Nobody.text()) } }
            form method="post" action="/name" {
                (token_field(app, who))
                input type="hidden" name="to" value=(encoded(&who.here));
                label for="acting-as" { (says::WhoActs.text()) }
                (people(("acting-as", "name"), if who.is_named() { &who.person } else { "" }, &app.called().people, (Some("acting-as-hint"), false)))
                p.hint #acting-as-hint { (says::NameField.text()) }
                button type="submit" { (says::NameAct.text()) }
            }
        }
    }
}

/// The languages, each as a link to this page in it; the one that is spoken stands as such.
fn languages(who: &Who) -> Markup {
    html! {
        span.quiet { (says::Language.text()) ":" }
        @for lang in Lang::ALL {
            " "
            @if lang == language() { strong lang=(lang.code()) aria-current="true" title=(lang.name()) { (lang.code().to_uppercase()) } }
            @else { a lang=(lang.code()) hreflang=(lang.code()) title=(lang.name()) href=(in_language(who, lang)) { (lang.code().to_uppercase()) } }
        }
    }
}

/// This page in a language.
fn in_language(who: &Who, lang: Lang) -> String {
    let (path, query) = who.here.split_once('?').unwrap_or((&who.here, ""));
    let kept = query.split('&').filter(|part| !part.is_empty() && !part.starts_with("language="));
    let query: Vec<&str> = kept.collect();
    let before = if query.is_empty() { String::new() } else { format!("{}&", query.join("&")) };
    format!("{path}?{before}language={}", lang.code())
}

/// What is said in the language of who asks; on a page that speaks several.
pub(crate) fn said(who: &Who, what: impl Into<Message>) -> String {
    what.into().said(who.language).unwrap_or_default()
}

/// A link to the same page in the other language.
pub(crate) fn other_language(who: &Who) -> Markup {
    let other = Lang::ALL.into_iter().find(|l| *l != who.language).unwrap_or(who.language);
    html! { a lang=(other.code()) hreflang=(other.code()) href=(in_language(who, other)) { (other.name()) } }
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

/// The moment of an act or a reading, as the language writes it: "14 July 2026, 12:10".
pub(crate) fn moment(iso: &str) -> String {
    document::printed::printed(iso, language())
}

/// The day of a moment: "14 July 2026"; empty where nobody wrote one.
pub(crate) fn day(iso: &str) -> String {
    moment(iso.get(..10).unwrap_or(iso))
}

/// Reads the record on a thread of its own and answers with what was made of it.
pub(crate) async fn read<T: Send + 'static>(
    app: &Shared,
    make: impl FnOnce(&Store, &Shared) -> Result<T, HttpError> + Send + 'static,
) -> Result<T, HttpError> {
    let _turn = app.record.turn().await?;
    let (shared, spoken) = (app.clone(), language());
    tokio::task::spawn_blocking(move || {
        with_language(spoken, || {
            shared.record.read_now(|store| {
                shared.look_at_its_name(store);
                make(store, &shared)
            })
        })
    })
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
