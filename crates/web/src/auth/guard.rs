//! Before every request: is it meant for this web interface, does it come from this web interface where it changes something, and
//! who asks? After every request: the headers that keep a browser from doing what no page of ours asks for.
//!
//! * On loopback the request must name loopback as its host: a page elsewhere cannot reach in under its own name.
//! * What changes something must come from this very origin (`Sec-Fetch-Site`, else `Origin`), besides the token
//!   of its form.
//! * Where there are accounts, or were since the start, everything but the login page and the style needs a session.

use super::accounts::Role;
use super::cookies::cookie;
use super::who::Who;
use crate::app::Shared;
use crate::http_error::{HttpError, Told};
use crate::page;
use crate::pages::search;
use axum::extract::{ConnectInfo, Request, State};
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use message::{Lang, Spoken as _, web_door as says, with_language};
use std::net::{IpAddr, SocketAddr};
use std::pin::Pin;
use std::task::{Context, Poll};

/// What chooses it in an address.
const LANGUAGE: &str = "language";

/// A year in seconds.
const YEAR_S: i64 = 365 * 24 * 3600;

/// The language that an address asks for.
fn asked_language(request: &Request) -> Option<Lang> {
    let query = request.uri().query().unwrap_or_default();
    let asked = form_urlencoded::parse(query.as_bytes()).find(|(name, _)| name == LANGUAGE);
    asked.and_then(|(_, code)| Lang::parse(&code))
}

/// The language of who asks: the one the address names, else the one this browser was last asked to speak, else English.
fn spoken_by(app: &Shared, headers: &HeaderMap, asked: Option<Lang>) -> Lang {
    let kept = || cookie(headers, &app.cookies.language).and_then(|code| Lang::parse(&code));
    asked.or_else(kept).unwrap_or(Lang::En)
}

/// The guard.
pub(crate) async fn guard(
    State(app): State<Shared>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    mut request: Request,
    next: Next,
) -> Response {
    let own = request.uri().path().starts_with("/report/file/");
    let language = asked_language(&request);
    let headers = request.headers().clone();
    let mut response = match admit(&app, peer, &request) {
        Ok(Some(who)) => {
            let spoken = who.language;
            let page = *request.method() == Method::GET;
            request.extensions_mut().insert(who.clone());
            let answer = async {
                // Of one person so much at once, so that nobody's many pages stand before another's one.
                let turn = if who.session { app.people.turn(&who.person).await } else { None };
                let answer = if who.session && turn.is_none() {
                    HttpError::new(StatusCode::TOO_MANY_REQUESTS, says::Busy.text()).into_response()
                } else {
                    next.run(request).await
                };
                if page { framed(&app, &who, answer).await } else { answer }
            };
            Speaking { spoken, answer: Box::pin(answer) }.await
        }
        Ok(None) => {
            let to = request.uri().path_and_query().map_or("/", |p| p.as_str());
            let to = if request.method() == Method::GET { to } else { "/" };
            Redirect::to(&format!("/login?to={}", crate::page::encoded(to))).into_response()
        }
        Err(trouble) => with_language(spoken_by(&app, &headers, language), || trouble.into_response()),
    };
    close(response.headers_mut(), own);
    if let Some(language) = language {
        let (name, value) = app.cookies.set(&app.cookies.language, language.code(), YEAR_S);
        // Its code is of letters alone, and another cookie may be set beside it.
        if let Ok(value) = HeaderValue::from_str(&value) {
            response.headers_mut().append(name, value);
        }
    }
    if app.options.secure() {
        // A year: what browsers ask for at least to remember it (RFC 6797 sets no least; from memory).
        let always = HeaderValue::from_static("max-age=31536000");
        response.headers_mut().insert(header::STRICT_TRANSPORT_SECURITY, always);
    }
    response
}

/// What went wrong with a page, told in the frame of all pages; where there is none of it, with what was looked for and
/// what is nearest. Who has not come in sees no frame.
async fn framed(app: &Shared, who: &Who, answer: Response) -> Response {
    let Some(told) = answer.extensions().get::<Told>().cloned().filter(|_| !who.person.is_empty()) else {
        return answer;
    };
    let near = if answer.status() == StatusCode::NOT_FOUND { search::nearest(app, who).await } else { None };
    let body = maud::html! { (told.said()) @if let Some(near) = near { (near) } };
    let page = page::page(app, who, page::Place::of("", &told.title), &body);
    let mut framed = (answer.status(), page).into_response();
    if let Some(wait) = answer.headers().get(header::RETRY_AFTER) {
        framed.headers_mut().insert(header::RETRY_AFTER, wait.clone());
    }
    framed
}

/// An answer in the making: whichever thread goes on with it speaks the language of who asked.
struct Speaking<F> {
    spoken: Lang,
    answer: Pin<Box<F>>,
}

impl<F: Future> Future for Speaking<F> {
    type Output = F::Output;

    fn poll(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<F::Output> {
        with_language(self.spoken, || self.answer.as_mut().poll(cx))
    }
}

/// Who asks; nobody where a login is wanted.
fn admit(app: &Shared, peer: SocketAddr, request: &Request) -> Result<Option<Who>, HttpError> {
    let headers = request.headers();
    let language = spoken_by(app, headers, asked_language(request));
    with_language(language, || meant_for_us(app, request))?;
    let here = request.uri().path_and_query().map_or_else(String::new, ToString::to_string);
    let open = matches!(request.uri().path(), "/login" | "/page.css" | "/page.js");
    if !app.accounts.wanted() {
        let kept = cookie(headers, &app.cookies.name).and_then(|n| crate::page::decoded(&n));
        let named = kept.filter(|n| record::store::named(n).is_ok());
        let person = named.unwrap_or_else(|| app.options.person.clone());
        if !peer.ip().is_loopback() {
            return Err(HttpError::new(StatusCode::FORBIDDEN, with_language(language, || says::NobodyHere.text())));
        }
        return Ok(Some(Who { person, role: Role::Lead, bound: "loopback".into(), session: false, here, language }));
    }
    let number = cookie(headers, &app.cookies.session).unwrap_or_default();
    match app.sessions.account(&number, &app.accounts) {
        Some(a) => Ok(Some(Who { person: a.name, role: a.role, bound: number, session: true, here, language })),
        None if open => Ok(Some(Who {
            person: String::new(),
            role: Role::Reader,
            bound: format!("login {}", address(app, peer, headers)),
            session: false,
            here,
            language,
        })),
        None => Ok(None),
    }
}

/// Refuses what was meant for another host, came past the proxy, or was sent by a page of somebody else's.
fn meant_for_us(app: &Shared, request: &Request) -> Result<(), HttpError> {
    let headers = request.headers();
    let host = host(request).unwrap_or_default();
    if app.options.behind_tls {
        // The scheme that the proxy names; a request that came to the web interface past it, or without TLS, says none or http.
        let scheme = headers.get(FORWARDED_PROTO).and_then(|v| v.to_str().ok()).unwrap_or("–");
        if scheme != "https" {
            let words = says::ProxyOnly { found: scheme.into() }.text();
            return Err(HttpError::new(StatusCode::MISDIRECTED_REQUEST, words));
        }
    } else if app.options.address.ip().is_loopback() && !is_loopback_name(&host) {
        let words = says::LoopbackOnly { host: host.into() }.text();
        return Err(HttpError::new(StatusCode::MISDIRECTED_REQUEST, words));
    }
    if !matches!(*request.method(), Method::GET | Method::HEAD) && !same_origin(headers, &host) {
        return Err(HttpError::new(StatusCode::FORBIDDEN, says::NotFromHere.text()));
    }
    Ok(())
}

/// Whether the request came by TLS, as the proxy before the web interface says.
const FORWARDED_PROTO: HeaderName = HeaderName::from_static("x-forwarded-proto");

/// Whose request the proxy passed on; each proxy adds the address it was asked from at the end.
const FORWARDED_FOR: HeaderName = HeaderName::from_static("x-forwarded-for");

/// The address of who asks: the one that the proxy names last, where one was said to stand before the web interface.
pub(crate) fn address(app: &Shared, peer: SocketAddr, headers: &HeaderMap) -> IpAddr {
    let told = || {
        let last = headers.get_all(FORWARDED_FOR).iter().next_back()?.to_str().ok()?.rsplit(',').next()?;
        last.trim().parse().ok()
    };
    app.options.behind_tls.then(told).flatten().unwrap_or_else(|| peer.ip())
}

fn host(request: &Request) -> Option<String> {
    request.headers().get(header::HOST)?.to_str().ok().map(str::to_string)
}

fn is_loopback_name(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) => name,
        _ => host,
    };
    name == "localhost" || name.trim_matches(['[', ']']).parse::<std::net::IpAddr>().is_ok_and(|a| a.is_loopback())
}

fn same_origin(headers: &HeaderMap, host: &str) -> bool {
    let text = |name: HeaderName| headers.get(name).and_then(|v| v.to_str().ok());
    let origin = text(header::ORIGIN).map(|o| o.split_once("://").map_or("", |(_, h)| h) == host);
    let site = text(HeaderName::from_static("sec-fetch-site")).map(|s| s == "same-origin");
    match (origin, site) {
        (None, None) => false,
        (a, b) => a.unwrap_or(true) && b.unwrap_or(true),
    }
}

/// What a page of ours may do in a browser: load style, script, pictures from here, send forms here, no more. The
/// report's own page carries its style inside, and may not do anything else at all.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";
const REPORT_POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; sandbox; frame-ancestors 'none'";

fn close(headers: &mut HeaderMap, report: bool) {
    let html = headers.get(header::CONTENT_TYPE).is_some_and(|t| t.as_bytes().starts_with(b"text/html"));
    let kept = headers.contains_key(header::CONTENT_SECURITY_POLICY);
    if !kept {
        let policy = if report && html { REPORT_POLICY } else { POLICY };
        headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(policy));
    }
    for (name, value) in [
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "same-origin"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
        (header::X_FRAME_OPTIONS, "DENY"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if !headers.contains_key(header::CACHE_CONTROL) {
        headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_loopback_has_the_names_of_loopback() {
        for (host, is) in [
            ("localhost:8080", true),
            ("127.0.0.1:8080", true),
            ("[::1]:8080", true),
            ("localhost", true),
            ("127.0.0.1.example.org:8080", false),
            ("example.org", false),
            ("", false),
        ] {
            assert_eq!(is_loopback_name(host), is, "{host}");
        }
    }

    #[test]
    fn what_changes_something_comes_from_here() {
        let check = |pairs: &[(&'static str, &'static str)], is: bool| {
            let mut h = HeaderMap::new();
            for (n, v) in pairs {
                h.insert(*n, HeaderValue::from_static(v));
            }
            assert_eq!(same_origin(&h, "localhost:1"), is, "{pairs:?}");
        };
        check(&[("origin", "http://localhost:1")], true);
        check(&[("origin", "http://localhost:1"), ("sec-fetch-site", "same-origin")], true);
        check(&[("origin", "http://localhost:2")], false);
        check(&[("origin", "null")], false);
        check(&[("sec-fetch-site", "cross-site")], false);
        check(&[("origin", "http://localhost:1"), ("sec-fetch-site", "same-site")], false);
        check(&[], false);
    }
}
