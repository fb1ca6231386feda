//! Passwords in addresses among the arguments. Messages repeat arguments: a file that is not there, a word that does not
//! fit. An address of a server that a message repeats is replaced there by what may be shown of it, wherever it stood.

use clap::error::ContextKind;
use std::os::unix::process::CommandExt as _;
use std::process::{Command, ExitCode};
use std::sync::LazyLock;

/// Addresses among the arguments of which not all may be shown, and what may be.
static HIDING: LazyLock<Vec<(String, String)>> = LazyLock::new(|| {
    let all = std::env::args_os().skip(1).map(|a| a.to_string_lossy().into_owned());
    let mut hiding: Vec<(String, String)> = all.filter_map(|a| hides(&a)).collect();
    // The longest first: one address may begin as another does.
    hiding.sort_by_key(|(address, _)| std::cmp::Reverse(address.len()));
    hiding
});

/// The address in an argument (`--out=ADDRESS` names one too), where not all of it may be shown.
fn hides(argument: &str) -> Option<(String, String)> {
    let value = argument.strip_prefix("--").and_then(|a| a.split_once('=')).map_or(argument, |(_, value)| value);
    let small = value.to_lowercase();
    // Other words have colons and an @ as well (an identity of a result), and a reason or a licence may name a page of the web.
    let web = ["http://", "https://"].iter().any(|s| small.trim_start().starts_with(s)) && value.contains('@');
    let scheme = small.replace("https://", "").replace("http://", "").contains("://");
    let named = small.find("passw").is_some_and(|at| small[at..].contains('='));
    let address = web || scheme || named || small.contains("postgres:") || small.contains("postgresql:");
    let shown = record::store::shown(value);
    (address && shown != value).then(|| (value.to_owned(), shown))
}

/// Takes passwords out of addresses among the arguments, where others on the machine can read them, and starts the program
/// anew without them; comes back where there is none, or it cannot be started anew.
pub fn withdraw() {
    let mut taken = std::collections::BTreeMap::new();
    let mut one = |argument: std::ffi::OsString| {
        let Some(text) = argument.to_str() else { return argument };
        let (option, value) = match text.strip_prefix("--").and_then(|a| a.split_once('=')) {
            Some((name, value)) => (format!("--{name}="), value),
            None => (String::new(), text),
        };
        let Some((address, password)) = record::store::without_password(value) else { return argument };
        let without = format!("{option}{address}");
        taken.insert(address, password);
        without.into()
    };
    let arguments: Vec<_> = std::env::args_os().skip(1).map(&mut one).collect();
    if taken.is_empty() {
        return;
    }
    if let (Ok(program), Ok(taken)) = (std::env::current_exe(), serde_json::to_string(&taken)) {
        // Comes back only where it failed; then the program goes on as it was called.
        let _ = Command::new(program).args(arguments).env(record::store::WITHDRAWN, taken).exec();
    }
}

/// Whether all may be shown as it is.
pub fn none() -> bool {
    HIDING.is_empty()
}

/// The text as it may be shown.
pub fn hidden(text: &str) -> String {
    HIDING.iter().fold(text.to_owned(), |text, (address, shown)| {
        let written: String = address.escape_debug().collect();
        text.replace(address, shown).replace(&written, shown)
    })
}

/// Tells why the words of the command do not fit. Where an address among them may hold a password, none of them is
/// repeated: what the shell parted at a space or `&` is a piece of it.
pub fn unfit(error: &clap::Error) -> ExitCode {
    if none() || !error.use_stderr() {
        error.exit();
    }
    let usage = error.get(ContextKind::Usage).map_or_else(String::new, |u| format!("\n\n{u}"));
    eprintln!("error: {} (not repeated: an address among the words may hold a password){usage}", error.kind());
    ExitCode::from(2)
}

#[cfg(test)]
mod tests {
    use super::hides;

    #[test]
    fn words_that_are_no_address_are_hidden() {
        for word in [
            "SL2-26-07-A:Pb:206+207+208@low:unfiltered",
            r#"{"kind":"analogy","value":{"result":"SL2-26-07-A:Pb:206+207+208@low:unfiltered"}}"#,
            "--licence=https://creativecommons.org/licenses/by/4.0/",
            "https://creativecommons.org/licenses/by/4.0/",
            "wells.sqlite",
            "postgres://ann@localhost/wells?schema=north",
            "--why=cap was loose: seen by two",
            "as https://example.org/method: says",
        ] {
            assert_eq!(hides(word), None);
        }
        for word in
            ["--out=postgres://ann:s3cr3t@h/db", "mysql://ann:s3cr3t@h", " postgres:ann:s3cr3t", "password=s3cr3t"]
        {
            let (address, shown) = hides(word).unwrap();
            assert!(word.contains(&address) && !shown.contains("s3cr3t"), "{word}: {shown}");
        }
    }
}
