//! Time stamps of others (RFC 3161): a request for one, as a file that goes to an authority by whatever way, and the
//! answer that comes back. The authority signs that it has seen a digest at a moment; it sees nothing else of the record.
//!
//! Read here: whether a stamp was granted, of which digest (SHA-256), when, by which policy and number. Not checked
//! here: the authority's signature. `openssl ts -verify -digest … -in ANSWER -CAfile CERTIFICATES` does.

use crate::der::{BOOLEAN, CONTEXT_0, Elements, INTEGER, NULL, OCTETS, OID, SEQUENCE, SET, TIME, element};
use crate::line::hex;

// 2.16.840.1.101.3.4.2.1, id-sha256 (RFC 5754, section 2.2)
const SHA256: &[u8] = &[0x60, 0x86, 0x48, 0x01, 0x65, 0x03, 0x04, 0x02, 0x01];
// 1.2.840.113549.1.7.2, id-signedData (RFC 5652, section 5.1)
const SIGNED_DATA: &[u8] = &[0x2A, 0x86, 0x48, 0x86, 0xF7, 0x0D, 0x01, 0x07, 0x02];
// 1.2.840.113549.1.9.16.1.4, id-ct-TSTInfo (RFC 3161, section 2.4.2)
const TST_INFO: &[u8] = &[0x2A, 0x86, 0x48, 0x86, 0xF7, 0x0D, 0x01, 0x09, 0x10, 0x01, 0x04];

/// Why an answer is no stamp.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum StampError {
    /// The authority refused.
    #[error("the authority granted no stamp: status {status} (RFC 3161, section 2.4.2)")]
    NotGranted {
        /// Its status; 0 and 1 grant.
        status: u64,
    },
    /// Not an answer of this form.
    #[error(
        "expected the answer of a time-stamp authority (RFC 3161, a file that ends in .tsr): {part} could not be read"
    )]
    Form {
        /// What was not there.
        part: &'static str,
    },
    /// A digest of another kind.
    #[error("the stamp is of a digest of another kind than SHA-256")]
    OtherDigest,
}

/// What an authority says that it has seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    /// SHA-256 of what it was shown.
    pub imprint: [u8; 32],
    /// When, in universal time: 2026-07-23T12:20:00Z, with the fraction of a second that it gives.
    pub at: String,
    /// Its number for the stamp, in hexadecimal digits.
    pub number: String,
}

/// A request for a stamp on a digest; its answer is to carry the authority's certificate. `nonce` comes back with the
/// answer, where the caller wants one.
pub fn request(imprint: &[u8; 32], nonce: Option<u64>) -> Vec<u8> {
    let algorithm = element(SEQUENCE, &[element(OID, SHA256), element(NULL, &[])].concat());
    let mut parts = vec![
        // version 1
        element(INTEGER, &[1]),
        element(SEQUENCE, &[algorithm, element(OCTETS, imprint)].concat()),
    ];
    if let Some(nonce) = nonce {
        parts.push(element(INTEGER, &unsigned(nonce)));
    }
    parts.push(element(BOOLEAN, &[0xFF]));
    element(SEQUENCE, &parts.concat())
}

/// A whole number as its content bytes: the fewest, the first bit being the sign (X.690, section 8.3).
fn unsigned(n: u64) -> Vec<u8> {
    let mut bytes: Vec<u8> = n.to_be_bytes().into_iter().skip_while(|b| *b == 0).collect();
    if bytes.first().is_none_or(|b| b & 0x80 != 0) {
        bytes.insert(0, 0);
    }
    bytes
}

/// Reads the answer of an authority.
///
/// # Errors
/// [`StampError`].
pub fn read(answer: &[u8]) -> Result<Stamp, StampError> {
    let form = |part| StampError::Form { part };
    let mut response = Elements(answer).within(SEQUENCE).ok_or(form("the answer"))?;
    let mut status = response.within(SEQUENCE).ok_or(form("its status"))?;
    let status = status.next(INTEGER).and_then(small).ok_or(form("its status"))?;
    // 0 granted, 1 granted with changes (section 2.4.2).
    if status > 1 {
        return Err(StampError::NotGranted { status });
    }
    let mut token = response.within(SEQUENCE).ok_or(form("its token"))?;
    if token.next(OID) != Some(SIGNED_DATA) {
        return Err(form("its token"));
    }
    let mut signed = token.within(CONTEXT_0).and_then(|mut e| e.within(SEQUENCE)).ok_or(form("what is signed"))?;
    signed.next(INTEGER).and_then(|_| signed.next(SET)).ok_or(form("what is signed"))?;
    let mut content = signed.within(SEQUENCE).ok_or(form("what is signed"))?;
    if content.next(OID) != Some(TST_INFO) {
        return Err(form("the stamp"));
    }
    let info = content.within(CONTEXT_0).and_then(|mut e| e.next(OCTETS)).ok_or(form("the stamp"))?;
    let mut info = Elements(info).within(SEQUENCE).ok_or(form("the stamp"))?;
    info.next(INTEGER).and_then(|_| info.next(OID)).ok_or(form("its policy"))?;
    let mut imprint = info.within(SEQUENCE).ok_or(form("its digest"))?;
    let algorithm = imprint.within(SEQUENCE).and_then(|mut a| a.next(OID));
    if algorithm != Some(SHA256) {
        return Err(StampError::OtherDigest);
    }
    let digest = imprint.next(OCTETS).and_then(|d| d.try_into().ok()).ok_or(form("its digest"))?;
    let number = info.next(INTEGER).map(hex).ok_or(form("its number"))?;
    let at = info.next(TIME).and_then(moment).ok_or(form("its time"))?;
    Ok(Stamp { imprint: digest, at, number })
}

/// A small whole number, not negative.
fn small(content: &[u8]) -> Option<u64> {
    let fits = (1..=8).contains(&content.len()) && content[0] & 0x80 == 0;
    fits.then(|| content.iter().fold(0, |n, b| n << 8 | u64::from(*b)))
}

/// `20260723122000.5Z` as ISO 8601. RFC 3161 (section 2.4.2) has it in universal time and with seconds.
fn moment(content: &[u8]) -> Option<String> {
    let text = std::str::from_utf8(content).ok()?.strip_suffix('Z')?;
    let (whole, fraction) = text.split_once('.').map_or((text, None), |(w, f)| (w, Some(f)));
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    if whole.len() != 14 || !digits(whole) || !fraction.is_none_or(digits) {
        return None;
    }
    let part = |from: usize, to: usize| &whole[from..to];
    let fraction = fraction.map_or_else(String::new, |f| format!(".{f}"));
    Some(format!(
        "{}-{}-{}T{}:{}:{}{fraction}Z",
        part(0, 4),
        part(4, 6),
        part(6, 8),
        part(8, 10),
        part(10, 12),
        part(12, 14)
    ))
}
