//! Derivations with their steps apart: what stands in many of them is written once.
//!
//! A derivation says every step down to the counts, and results of one run share most of them: the line, the blank, the
//! drift checks. In `record/derivation.csv` a body has numbers where its `nodes` stood: rows of
//! `record/derivation_node.csv`, which holds each node once, as text. Put back in their place, they make the very bytes
//! that the record holds, and the row's digest is of these. Of the demo's 184,000 nodes 9,600 are different: 135 MB
//! become 10.
//!
//! A body without a list of objects under `nodes` is written as it is. Checked below and in `tests/round_trip.rs`.

use crate::folder::{Folder, Sink};
use crate::{Error, cell};
use std::borrow::Cow;
use std::collections::HashMap;

/// The table of nodes.
pub const TABLE: &str = "derivation_node";

/// What it holds.
pub const ABOUT: &str = "Each step of the derivations once, as the JSON that stands for it in their bodies.";

/// Bytes gathered before they go to the file.
const GATHER: usize = 1 << 16;

/// The list of nodes in a body: where its elements begin and end, each as text. In a text of JSON the quotes around the
/// name are never escaped, those inside of another text always are: a name after `{` or `,` is a name.
pub fn listed(body: &str) -> Option<(usize, usize, Vec<&str>)> {
    const NAME: &str = "\"nodes\":[";
    let bytes = body.as_bytes();
    let is_name = |at: &(usize, &str)| at.0 > 0 && matches!(bytes[at.0 - 1], b'{' | b',');
    let from = body.match_indices(NAME).find(is_name)?.0 + NAME.len();
    let (mut elements, mut begin, mut depth, mut text, mut at) = (vec![], from, 0_u32, false, from);
    loop {
        match *bytes.get(at)? {
            b'\\' if text => at += 1,
            b'"' => text = !text,
            _ if text => {}
            b'{' | b'[' => depth += 1,
            b']' if depth == 0 => break,
            b'}' | b']' => depth = depth.checked_sub(1)?,
            b',' if depth == 0 => {
                elements.push(body.get(begin..at)?);
                begin = at + 1;
            }
            _ => {}
        }
        at += 1;
    }
    if at > begin {
        elements.push(body.get(begin..at)?);
    }
    Some((from, at, elements))
}

/// The texts of nodes by number, as they come.
#[derive(Default)]
pub struct Known(HashMap<[u8; 32], usize>);

impl Known {
    /// The numbers of a body's nodes, from 1; `new` is told each text that had none yet. Nothing where the body has no
    /// list of objects.
    ///
    /// # Errors
    /// What `new` answers.
    pub fn numbers<E>(
        &mut self,
        body: &str,
        mut new: impl FnMut(usize, &str) -> Result<(), E>,
    ) -> Result<Option<Vec<usize>>, E> {
        let Some((_, _, nodes)) = listed(body) else { return Ok(None) };
        if nodes.is_empty() || !nodes.iter().all(|n| n.starts_with('{')) {
            return Ok(None);
        }
        let mut out = Vec::with_capacity(nodes.len());
        for node in nodes {
            let next = self.0.len() + 1;
            let number = *self.0.entry(*blake3::hash(node.as_bytes()).as_bytes()).or_insert(next);
            if number == next {
                new(number, node)?;
            }
            out.push(number);
        }
        Ok(Some(out))
    }
}

/// The file of the nodes in the making.
pub struct Apart {
    sink: Sink,
    out: Vec<u8>,
    known: Known,
}

impl Apart {
    /// Begins it.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn begin(folder: &Folder) -> Result<Self, Error> {
        let sink = folder.file(&crate::whole_record::path(TABLE))?;
        Ok(Self { sink, out: b"id,node\r\n".to_vec(), known: Known::default() })
    }

    /// A body with numbers where its nodes stood.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn short<'a>(&mut self, body: &'a str) -> Result<Cow<'a, str>, Error> {
        let Self { sink, out, known } = self;
        let numbers = known.numbers(body, |number, node| {
            cell::push_whole(out, i64::try_from(number).unwrap_or(i64::MAX));
            out.push(b',');
            cell::push_text(out, node);
            out.extend(b"\r\n");
            if out.len() > GATHER {
                sink.all(out)?;
                out.clear();
            }
            Ok::<(), Error>(())
        })?;
        let (Some(numbers), Some((from, to, _))) = (numbers, listed(body)) else { return Ok(body.into()) };
        let numbers: Vec<String> = numbers.iter().map(usize::to_string).collect();
        Ok([&body[..from], &numbers.join(","), &body[to..]].concat().into())
    }

    /// Ends it.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn end(mut self, folder: &Folder) -> Result<(), Error> {
        self.sink.all(&self.out)?;
        folder.keep(self.sink, "text/csv", ABOUT)
    }
}

/// A body with its nodes put back; nothing where a number is of no node.
pub fn whole<'a>(short: &'a str, nodes: &[String]) -> Option<Cow<'a, str>> {
    let Some((from, to, numbers)) = listed(short) else { return Some(short.into()) };
    let is_number = |n: &&str| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit());
    if numbers.is_empty() || !numbers.iter().all(is_number) {
        return Some(short.into());
    }
    let mut out = short[..from].to_owned();
    for (i, number) in numbers.iter().enumerate() {
        if i > 0 {
            out.push(',');
        }
        out += nodes.get(number.parse::<usize>().ok()?.checked_sub(1)?)?;
    }
    out += &short[to..];
    Some(out.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bodies as they are, one after the other, and what they become with nodes known before.
    fn check(bodies: &[(&str, &str)], nodes: &[&str]) {
        let (mut known, mut kept) = (Known::default(), vec![]);
        for (body, expected) in bodies {
            let numbers = known.numbers(body, |_, node| {
                kept.push(node.to_owned());
                Ok::<(), ()>(())
            });
            let short = match (numbers.unwrap(), listed(body)) {
                (Some(n), Some((from, to, _))) => {
                    let n: Vec<String> = n.iter().map(usize::to_string).collect();
                    [&body[..from], &n.join(","), &body[to..]].concat()
                }
                _ => (*body).to_owned(),
            };
            assert_eq!(&short, expected);
            assert_eq!(whole(&short, &kept).as_deref(), Some(*body));
        }
        assert_eq!(kept, nodes);
    }

    #[test]
    fn a_node_stands_once_and_comes_back_to_the_byte() {
        check(
            &[
                (r#"{"a":1,"nodes":[{"n":"x"},{"n":[1,2]}],"b":[]}"#, r#"{"a":1,"nodes":[1,2],"b":[]}"#),
                (r#"{"nodes":[{"n":[1,2]},{"n":"]},{"},{"n":"x"}]}"#, r#"{"nodes":[2,3,1]}"#),
                // The name inside of a text, and one that ends in an escape.
                (
                    r#"{"t":",\"nodes\":[{}]","u":"\\","nodes":[{"n":"x"}]}"#,
                    r#"{"t":",\"nodes\":[{}]","u":"\\","nodes":[1]}"#,
                ),
            ],
            &[r#"{"n":"x"}"#, r#"{"n":[1,2]}"#, r#"{"n":"]},{"}"#],
        );
    }

    #[test]
    fn what_has_no_list_of_objects_stays_as_it_is() {
        for body in
            [r#"{"nodes":[]}"#, "{}", "", "x", r#"{"nodes":[{"n":"#, r#"{"nodes":["a",{}]}"#, r#"{"nodes":[{},}]"#]
        {
            check(&[(body, body)], &[]);
        }
        assert_eq!(whole(r#"{"nodes":[2]}"#, &["{}".into()]), None);
        assert_eq!(whole(r#"{"nodes":[0]}"#, &["{}".into()]), None);
    }
}
