//! Standard output. A reader that has seen enough (`| head`) ends nothing and is no fault; a full
//! disk is told once, at the end, with exit status 4. Either way the command does its work whole.

use crate::secrets;
use std::fmt::Arguments;
use std::io::{self, ErrorKind, IsTerminal as _, Write as _};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

static FAULT: OnceLock<io::Error> = OnceLock::new();

/// `println!` that does not panic.
macro_rules! say {
    ($($words:tt)*) => { $crate::out::write(format_args!("{}\n", format_args!($($words)*))) };
}
pub(crate) use say;

/// Writes to standard output; after a fault nothing more.
pub fn write(words: Arguments) {
    let mut out = io::stdout().lock();
    let mut written = || {
        if secrets::none() {
            out.write_fmt(words)
        } else {
            out.write_all(secrets::hidden(&words.to_string()).as_bytes())
        }
    };
    if FAULT.get().is_none()
        && let Err(e) = written()
    {
        // The first fault is the one that is told.
        let _ = FAULT.set(e);
    }
}

/// What kept standard output from being written, if anything a person should hear of.
pub fn fault() -> Option<String> {
    if FAULT.get().is_none()
        && let Err(e) = io::stdout().lock().flush()
    {
        let _ = FAULT.set(e);
    }
    FAULT.get().filter(|e| e.kind() != ErrorKind::BrokenPipe).map(|e| format!("writing standard output: {e}"))
}

/// After how long a person asks whether anything still happens.
const SILENCE: Duration = Duration::from_secs(2);

/// Tells a person at a terminal, on standard error, which step long work has come to. Programs and files are told nothing.
pub fn progress() -> impl Fn(&str) -> bool {
    let (begun, person) = (Instant::now(), io::stderr().is_terminal());
    move |step| {
        if person && begun.elapsed() > SILENCE {
            eprintln!("{} s: {step}", begun.elapsed().as_secs());
        }
        true
    }
}
