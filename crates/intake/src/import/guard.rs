//! Is a workbook what it seems? A small file can unpack to more than any disk holds. Before a workbook is
//! read, its parts are unpacked to nowhere and counted; what is beyond any laboratory's table is refused.
//!
//! Limits (our own choice): 10,000 parts; 2 GiB in all, a sheet of a million rows is about 0.3 GiB; 256 MiB for a part
//! that is held in memory (all but the sheets); more than 200 times the packed size once 32 MiB are reached, where a
//! real sheet reaches some 20 times.
//!
//! Every part is counted. A part that cannot be unpacked here cannot be counted, and what cannot be counted is not read:
//! the workbook is refused by the name of that part. Checked in `crates/programme/tests/import_bad.rs`.

use super::fault::{fault, number};
use super::text::TextFault;
use message::{Message, expected, found};
use quantity::Check;
use std::fs::File;
use std::io::{BufReader, Read};
use std::path::Path;
use zip::ZipArchive;

const PARTS: usize = 10_000;
const ALL_BYTES: u64 = 2 << 30;
const HELD_BYTES: u64 = 256 << 20;
const SMALL_BYTES: u64 = 32 << 20;
const RATIO: u64 = 200;

/// Refuses a workbook that unpacks to too much.
pub fn check(path: &Path) -> Result<Result<(), TextFault>, std::io::Error> {
    let packed = path.metadata()?.len().max(1);
    let text_fault =
        |found: Message, expected: Message| Ok(Err(TextFault::of_file(Check::FileNotWorkbook, fault(found, expected))));
    let refused = |found: Message| text_fault(found, expected::OrdinaryWorkbook.into());
    let unread = |part: &str, why: &dyn std::fmt::Display| {
        let found = found::PartUnread { part: part.into(), why: why.to_string().into() };
        text_fault(found.into(), expected::SoundParts.into())
    };
    let Ok(mut archive) = ZipArchive::new(BufReader::new(File::open(path)?)) else {
        // The workbook's own reader says what is wrong with it.
        return Ok(Ok(()));
    };
    if archive.len() > PARTS {
        return refused(found::Parts { parts: message::count(archive.len()) }.into());
    }
    let mut all = 0;
    let mut buffer = vec![0; 1 << 16];
    for i in 0..archive.len() {
        let mut part = match archive.by_index(i) {
            Ok(part) => part,
            Err(e) => return unread(&(i + 1).to_string(), &e),
        };
        let name = part.name().map_or_else(|_| (i + 1).to_string(), |n| n.to_string());
        let sheet = name.starts_with("xl/worksheets/");
        let mut own = 0;
        loop {
            match part.read(&mut buffer) {
                Ok(0) => break,
                Ok(n) => {
                    own += n as u64;
                    all += n as u64;
                }
                Err(e) => return unread(&name, &e),
            }
            if all > ALL_BYTES || (!sheet && own > HELD_BYTES) || (all > SMALL_BYTES && all / packed > RATIO) {
                return refused(found::Unpacks { packed: number(packed), unpacked: number(all) }.into());
            }
        }
    }
    Ok(Ok(()))
}
