//! As much of the Distinguished Encoding Rules (ITU-T X.690) as a time-stamp request and its answer need.

pub(crate) const BOOLEAN: u8 = 0x01;
pub(crate) const INTEGER: u8 = 0x02;
pub(crate) const OCTETS: u8 = 0x04;
pub(crate) const NULL: u8 = 0x05;
pub(crate) const OID: u8 = 0x06;
pub(crate) const TIME: u8 = 0x18;
pub(crate) const SEQUENCE: u8 = 0x30;
pub(crate) const SET: u8 = 0x31;
/// `[0] EXPLICIT`.
pub(crate) const CONTEXT_0: u8 = 0xA0;

/// One element: tag, length, content (X.690, section 8.1).
pub(crate) fn element(tag: u8, content: &[u8]) -> Vec<u8> {
    let mut out = vec![tag];
    let length = content.len();
    // Section 8.1.3: up to 127 in one byte, beyond that the number of bytes first.
    if let Ok(short @ 0..=127) = u8::try_from(length) {
        out.push(short);
    } else {
        let bytes: Vec<u8> = length.to_be_bytes().into_iter().skip_while(|b| *b == 0).collect();
        out.push(0x80 | bytes.len() as u8);
        out.extend(bytes);
    }
    out.extend_from_slice(content);
    out
}

/// Elements one after the other.
#[derive(Clone, Copy)]
pub(crate) struct Elements<'a>(pub(crate) &'a [u8]);

impl<'a> Elements<'a> {
    /// The next element, whatever it is; none at the end, or where its length is not of this form or beyond the end.
    pub(crate) fn any(&mut self) -> Option<(u8, &'a [u8])> {
        let (&tag, rest) = self.0.split_first()?;
        let (&first, rest) = rest.split_first()?;
        let (length, rest) = match first {
            0..=127 => (usize::from(first), rest),
            // 0x80 alone is the indefinite length of BER, which DER does not have.
            0x81..=0x84 => {
                let (bytes, rest) = rest.split_at_checked(usize::from(first & 0x7F))?;
                (bytes.iter().fold(0usize, |n, b| n << 8 | usize::from(*b)), rest)
            }
            _ => return None,
        };
        let (content, rest) = rest.split_at_checked(length)?;
        self.0 = rest;
        Some((tag, content))
    }

    /// The next element, where it has this tag.
    pub(crate) fn next(&mut self, tag: u8) -> Option<&'a [u8]> {
        let mut ahead = *self;
        let (found, content) = ahead.any()?;
        (found == tag).then(|| {
            *self = ahead;
            content
        })
    }

    /// The elements within the next one.
    pub(crate) fn within(&mut self, tag: u8) -> Option<Self> {
        self.next(tag).map(Elements)
    }
}
