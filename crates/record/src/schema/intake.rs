//! Files as they came, and how they are read. Declarations only: the words stand in [`schema`](super).

use super::Kind::{Blob, Integer, Row, Text};
use super::{Table, opt, req};

pub(super) const MAPPING: Table = Table {
    name: "mapping",
    key: &["name", "version"],
    index: &[],
    from_files: false,
    about: "How the columns of a laboratory's file are to be read.",
    columns: &[
        req("name", Text, "Name"),
        req("version", Integer, "Counts up with each change"),
        req("toml", Text, "The mapping as written"),
        req("hash", Blob, "BLAKE3 of the text"),
    ],
};

pub(super) const RAW_FILE: Table = Table {
    name: "raw_file",
    key: &["name", "hash", "mapping"],
    index: &["hash"],
    from_files: false,
    about: "Files as they came, whole.",
    columns: &[
        req("name", Text, "File name without folder"),
        req("hash", Blob, "BLAKE3 of the bytes"),
        req("size", Integer, "Bytes"),
        req("mapping", Row("mapping"), "How it was read"),
        opt("rows", Integer, "Data rows taken"),
    ],
};

pub(super) const RAW_PART: Table = Table {
    name: "raw_part",
    key: &["raw_file", "part"],
    index: &[],
    from_files: false,
    about: "The bytes of the files in order, in parts of at most 4 MiB.",
    columns: &[
        req("raw_file", Row("raw_file"), "File"),
        req("part", Integer, "Place in the file, from 0"),
        req("bytes", Blob, "The bytes"),
    ],
};

pub(super) const RECIPE: Table = Table {
    name: "recipe",
    key: &["name", "version"],
    index: &[],
    from_files: false,
    about: "How a run is reduced.",
    columns: &[
        req("name", Text, "Name"),
        req("version", Integer, "Counts up with each change"),
        req("toml", Text, "The recipe as written"),
        req("hash", Blob, "BLAKE3 of the text"),
    ],
};
