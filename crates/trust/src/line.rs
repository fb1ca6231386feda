//! The lines that are signed or sent: a word that says what the line is, its version, then `name=value` with one space
//! between. A value is percent-encoded (RFC 3986, section 2.1) where it has a space, a `%` or a control sign; other
//! letters stand as they are, whatever the language. Nothing in a line depends on a clock: whoever has the record makes
//! the same line again.

use std::fmt::{self, Write as _};
use std::str::FromStr;

/// Why a text is no such line.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("found {found:?}, expected a line as `limpid-head 1 programme=… events=12 head=…`: {detail}")]
pub struct LineError {
    /// What was found.
    pub found: String,
    /// What is wrong with it.
    pub detail: String,
}

/// The word of a head's line.
const HEAD: &str = "limpid-head";

/// The version of all lines.
const VERSION: &str = "1";

/// What stands for the identity of a programme that has none: made before programmes had one.
pub const NO_IDENTITY: &str = "none";

/// A head of a programme: how many events it has had, and the hash of the last, which stands for all of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Head {
    /// Identity of the programme; none where it was made before programmes had one.
    pub programme: Option<String>,
    /// Events.
    pub events: u64,
    /// Hash of the last of them, BLAKE3.
    pub head: [u8; 32],
}

impl Head {
    /// SHA-256 of the line, without an end of line: what a time-stamp authority is asked to stamp.
    pub fn imprint(&self) -> [u8; 32] {
        use sha2::Digest as _;
        sha2::Sha256::digest(self.to_string().as_bytes()).into()
    }

    /// All lines of heads in a text, a mail that was quoted or forwarded for example; what stands around them is passed
    /// over.
    pub fn all_in(text: &str) -> Vec<Self> {
        let lines = text.lines().filter_map(|l| l.find(HEAD).map(|at| &l[at..]));
        // Mail may break a long line, or end it with a sign of its own.
        let own = |l: &str| l.split_whitespace().take(5).collect::<Vec<_>>().join(" ");
        lines.filter_map(|l| own(l).parse().ok()).collect()
    }
}

impl fmt::Display for Head {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let programme = self.programme.as_deref().unwrap_or(NO_IDENTITY);
        write!(f, "{HEAD} {VERSION} programme={} events={} head={}", coded(programme), self.events, hex(&self.head))
    }
}

impl FromStr for Head {
    type Err = LineError;

    fn from_str(text: &str) -> Result<Self, LineError> {
        let wrong = |detail: &str| LineError { found: text.into(), detail: detail.into() };
        let parts: Vec<&str> = text.trim().split(' ').collect();
        let [word, version, programme, events, head] = parts[..] else {
            return Err(wrong("it has not five parts"));
        };
        if word != HEAD || version != VERSION {
            return Err(wrong("it does not begin with the words of a head"));
        }
        let value = |part: &str, name: &'static str| {
            let value = part.strip_prefix(name).and_then(|p| p.strip_prefix('='));
            value.map(str::to_owned).ok_or_else(|| wrong(name))
        };
        let programme = decoded(&value(programme, "programme")?).ok_or_else(|| wrong("programme"))?;
        let events = value(events, "events")?.parse().map_err(|_| wrong("events is not a number"))?;
        let head = unhex(&value(head, "head")?).ok_or_else(|| wrong("head has not 64 hexadecimal digits"))?;
        Ok(Self { programme: Some(programme).filter(|p| p != NO_IDENTITY), events, head })
    }
}

/// A person stands for a verdict.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignOffLine<'a> {
    /// Programme, number of the event that holds the sign-off, and its hash: all that the person could see.
    pub upon: Head,
    /// What the verdict speaks of.
    pub subject: &'a str,
    /// Who.
    pub person: &'a str,
    /// The reason given.
    pub why: &'a str,
}

impl fmt::Display for SignOffLine<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Head { programme, events, head } = &self.upon;
        let programme = programme.as_deref().unwrap_or(NO_IDENTITY);
        write!(
            f,
            "limpid-sign-off {VERSION} programme={} event={events} hash={} subject={} person={} why={}",
            coded(programme),
            hex(head),
            coded(self.subject),
            coded(self.person),
            coded(self.why)
        )
    }
}

/// A person holds a key: signed with that key, so that nobody puts the key of another on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyHeld<'a> {
    /// Identity of the programme.
    pub programme: Option<&'a str>,
    /// Who.
    pub person: &'a str,
    /// Fingerprint of the key.
    pub fingerprint: &'a str,
}

impl fmt::Display for KeyHeld<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let programme = self.programme.unwrap_or(NO_IDENTITY);
        let (programme, person) = (coded(programme), coded(self.person));
        write!(f, "limpid-key {VERSION} programme={programme} person={person} key={}", coded(self.fingerprint))
    }
}

/// A value in a line.
fn coded(value: &str) -> String {
    let mut out = String::with_capacity(value.len());
    for c in value.chars() {
        if c == '%' || c.is_whitespace() || c.is_control() {
            let mut bytes = [0; 4];
            for b in c.encode_utf8(&mut bytes).bytes() {
                write!(out, "%{b:02X}").expect("a string takes all that is written");
            }
        } else {
            out.push(c);
        }
    }
    out
}

fn decoded(value: &str) -> Option<String> {
    let mut out = vec![];
    let mut bytes = value.bytes();
    while let Some(b) = bytes.next() {
        out.push(if b == b'%' { digit(bytes.next()?)? << 4 | digit(bytes.next()?)? } else { b });
    }
    String::from_utf8(out).ok()
}

/// Bytes as lower-case hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |out, b| out + &format!("{b:02x}"))
}

fn unhex(text: &str) -> Option<[u8; 32]> {
    let digits = text.as_bytes();
    if digits.len() != 64 {
        return None;
    }
    let mut out = [0; 32];
    for (byte, pair) in out.iter_mut().zip(digits.chunks(2)) {
        *byte = digit(pair[0])? << 4 | digit(pair[1])?;
    }
    Some(out)
}

fn digit(b: u8) -> Option<u8> {
    char::from(b).to_digit(16).and_then(|d| u8::try_from(d).ok())
}
