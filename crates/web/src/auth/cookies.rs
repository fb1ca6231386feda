//! Cookies: named by programme, so that two programmes served from one host do not take each other's; never sent to
//! another site, never read by script, with TLS by TLS alone and for this host alone (`__Host-`, RFC 6265bis section
//! 4.1.3.2, from memory).

use axum::http::header::{self, HeaderMap, HeaderName};
use cookie::{Cookie, SameSite};
use std::path::Path;

/// Names of the cookies of a programme.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Cookies {
    secure: bool,
    /// Of the session.
    pub session: String,
    /// Of the name under which one acts where nobody logs in.
    pub name: String,
    /// Of the names that came in with this browser ([`super::known`]).
    pub known: String,
    /// Of the language: one's own in all programmes.
    pub language: String,
}

impl Cookies {
    /// Of the programme at an address or path; secure: served with TLS.
    pub fn of(store: &Path, secure: bool) -> Self {
        let whole = if record::store::is_server(store) { Ok(store.into()) } else { std::path::absolute(store) };
        let whole = whole.unwrap_or_else(|_| store.into());
        // A digest tells no address.
        let digest = blake3::hash(whole.as_os_str().as_encoded_bytes()).to_hex();
        let before = if secure { "__Host-" } else { "" };
        let named = |what: &str| format!("{before}limpid-{what}-{}", &digest[..8]);
        Self {
            secure,
            session: named("session"),
            name: named("name"),
            known: named("known"),
            language: format!("{before}limpid-language"),
        }
    }

    /// A cookie to be kept for some seconds.
    pub fn set(&self, name: &str, value: &str, seconds: i64) -> (HeaderName, String) {
        let mut cookie = self.bare(name, value);
        cookie.set_max_age(cookie::time::Duration::seconds(seconds));
        (header::SET_COOKIE, cookie.to_string())
    }

    /// A cookie that goes when the browser is closed.
    pub fn until_closed(&self, name: &str, value: &str) -> (HeaderName, String) {
        (header::SET_COOKIE, self.bare(name, value).to_string())
    }

    fn bare<'c>(&self, name: &'c str, value: &'c str) -> Cookie<'c> {
        Cookie::build((name, value)).path("/").http_only(true).same_site(SameSite::Lax).secure(self.secure).build()
    }
}

/// The value of a cookie.
pub(crate) fn cookie(headers: &HeaderMap, name: &str) -> Option<String> {
    let all = headers.get_all(header::COOKIE).iter().filter_map(|v| v.to_str().ok());
    let mut cookies = all.flat_map(Cookie::split_parse).filter_map(Result::ok);
    cookies.find(|c| c.name() == name).map(|c| c.value().to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::HeaderValue;

    #[test]
    fn a_cookie_goes_where_it_came_from_and_nowhere_else() {
        // RFC 6265 section 4.1: the value first, then attributes in any order; and SameSite of its successor.
        let check = |secure, value: &str, seconds, expected: &[&str]| {
            let cookies = Cookies::of(Path::new("/a/wells.sqlite"), secure);
            let (name, set) = cookies.set("x", value, seconds);
            let mut parts: Vec<&str> = set.split("; ").collect();
            parts[1..].sort_unstable();
            assert_eq!((name, &parts[..]), (header::SET_COOKIE, expected));
        };
        check(false, "1", 7, &["x=1", "HttpOnly", "Max-Age=7", "Path=/", "SameSite=Lax"]);
        check(true, "", 0, &["x=", "HttpOnly", "Max-Age=0", "Path=/", "SameSite=Lax", "Secure"]);
    }

    #[test]
    fn two_programmes_have_cookies_of_their_own() {
        let of = |path: &str, secure| Cookies::of(Path::new(path), secure);
        let (a, b) = (of("/a/wells.sqlite", false), of("/b/wells.sqlite", false));
        assert_ne!(a.session, b.session);
        assert_ne!(a.session, a.name);
        assert_eq!(a, of("/a/wells.sqlite", false));
        assert!(of("/a/wells.sqlite", true).session.starts_with("__Host-limpid-session-"));
    }

    #[test]
    fn a_cookie_is_found_among_others() {
        let find = |lines: &[&'static str]| {
            let mut h = HeaderMap::new();
            for line in lines {
                h.append(header::COOKIE, HeaderValue::from_static(line));
            }
            cookie(&h, "limpid-name")
        };
        assert_eq!(find(&["limpid-name=Marit%20Osk"]).as_deref(), Some("Marit%20Osk"));
        assert_eq!(find(&["a=1; limpid-name=x=y; b"]).as_deref(), Some("x=y"));
        assert_eq!(find(&["; =; nonsense;limpid-name=1;limpid-name=2"]).as_deref(), Some("1"), "the first counts");
        assert_eq!(find(&["a=1", "limpid-name="]).as_deref(), Some(""), "on a line of its own");
        assert_eq!(find(&["limpid-names=1; Limpid-Name=1; xlimpid-name=1"]), None);
        assert_eq!(find(&[]), None);
    }
}
