//! Who does something, when and why; and who watches long work.

use crate::Error;

/// Who does something, and when (ISO 8601); both are kept in the event.
#[derive(Debug, Clone, Copy)]
pub struct By<'a> {
    /// Who.
    pub person: &'a str,
    /// When.
    pub at: &'a str,
}

/// Who watches long work: told what comes next, answers whether it may begin.
pub type Watch<'a> = &'a dyn Fn(&str) -> bool;

/// Tells the next step; refuses where the watcher says no.
///
/// # Errors
/// [`Error::Stopped`].
pub fn go_on(watch: Watch, step: &str) -> Result<(), Error> {
    if watch(step) { Ok(()) } else { Err(Error::Stopped { step: step.into() }) }
}

/// Refuses a reason that says nothing.
///
/// # Errors
/// [`Error::Unfit`].
pub fn said(why: &str) -> Result<(), Error> {
    if why.trim().is_empty() {
        return Err(Error::Unfit {
            what: "the reason".into(),
            found: "nothing".into(),
            expected: "a sentence that someone can weigh years from now".into(),
        });
    }
    Ok(())
}
