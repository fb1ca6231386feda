//! Style and script of all pages, each one request that the browser keeps.

use axum::http::header;
use axum::response::{IntoResponse, Response};
use std::sync::LazyLock;

/// Style of all pages, the typeface inside: one request, kept by the browser.
static STYLE: LazyLock<String> = LazyLock::new(|| {
    let mut out = figure::fonts::font_faces(false) + include_str!("page.css");
    out += include_str!("page_forms.css");
    out += include_str!("page_results.css");
    out += include_str!("page_files.css");
    // Cells are padded on the right so that decimal points stand under each other: in steps of a twentieth em,
    // because a page of ours allows no style of its own.
    for n in 1..=PADS {
        out += &format!(".p{n}{{padding-right:{:.2}em}}", n as f64 / 20.0);
    }
    out
});

/// Steps of padding.
pub(crate) const PADS: usize = 200;

const SCRIPT: &str = concat!(include_str!("page.js"), include_str!("page_forms.js"));

static STYLE_ADDRESS: LazyLock<String> = LazyLock::new(|| versioned("/page.css", &STYLE));
static SCRIPT_ADDRESS: LazyLock<String> = LazyLock::new(|| versioned("/page.js", SCRIPT));

fn versioned(path: &str, text: &str) -> String {
    let hash = blake3::hash(text.as_bytes()).to_hex();
    format!("{path}?v={}", &hash[..12])
}

/// Where the style is.
pub(crate) fn style_address() -> &'static str {
    &STYLE_ADDRESS
}

/// Where the script is.
pub(crate) fn script_address() -> &'static str {
    &SCRIPT_ADDRESS
}

const KEPT: (header::HeaderName, &str) = (header::CACHE_CONTROL, "public, max-age=31536000, immutable");

/// The style.
pub(crate) async fn style() -> Response {
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8"), KEPT], STYLE.as_str()).into_response()
}

/// The script.
pub(crate) async fn script() -> Response {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8"), KEPT], SCRIPT).into_response()
}
