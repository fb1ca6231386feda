//! Reads the catalogues and writes one type a message, so that a message with a missing or misnamed argument does not
//! compile, and a catalogue that lacks a message or an argument does not build.
//!
//! In: `catalogue/LANGUAGE/ROOM.ftl` in the form of Project Fluent. The English ones declare: above each message stand
//! its arguments with their types,
//!
//! ```text
//! # How long the water touched the pipe.
//! # $contact (amount): minutes in the pipe
//! well-contact = The water touched the pipe for { $contact }.
//! ```
//!
//! Out: `ROOM` as a module with `Contact { contact: Shown }`. Every other language has the same messages with the same
//! arguments. A message that is nothing but one argument would let a finished sentence through: refused. The check
//! itself is `check.rs`, which the tests of this crate try too.

mod check;

use check::{Catalogue, Declared};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

fn main() {
    println!("cargo::rerun-if-changed=catalogue");
    println!("cargo::rerun-if-changed=build");
    let root = Path::new(&std::env::var("CARGO_MANIFEST_DIR").expect("cargo says where it builds")).join("catalogue");
    let languages = read(&root);
    let declared = match check::all(&languages) {
        Ok(declared) => declared,
        Err(faults) => panic!("the catalogues are at fault:\n{}", faults.join("\n")),
    };
    let out = std::env::var("OUT_DIR").expect("cargo says where to write");
    let write = |name: &str, text| std::fs::write(Path::new(&out).join(name), text).expect("the folder is cargo's");
    write("messages.rs", written(&languages, &declared));
    write("languages.rs", all_languages(&languages));
}

/// Language and room to text, sorted, so that the same catalogues make the same code.
fn read(root: &Path) -> BTreeMap<String, Catalogue> {
    let names = |dir: &Path| {
        let entries = std::fs::read_dir(dir).unwrap_or_else(|e| panic!("reading {}: {e}", dir.display()));
        let mut names: Vec<String> =
            entries.map(|e| e.expect("a folder lists").file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    };
    let mut out = BTreeMap::new();
    for language in names(root) {
        let dir = root.join(&language);
        let rooms = names(&dir).into_iter().filter_map(|file| {
            let room = file.strip_suffix(".ftl")?.to_string();
            let path = dir.join(&file);
            let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("reading {}: {e}", path.display()));
            Some((room, text))
        });
        out.insert(language, rooms.collect());
    }
    out
}

fn written(languages: &BTreeMap<String, Catalogue>, declared: &[Declared]) -> String {
    let mut out = String::from("/// Language, room, text.\npub(crate) const CATALOGUES: &[(&str, &str, &str)] = &[\n");
    for (language, rooms) in languages {
        for (room, text) in rooms {
            let _ = writeln!(out, "    ({language:?}, {room:?}, {text:?}),");
        }
    }
    out += "];\n\n/// Every message with the names and kinds of its arguments, in the order of the catalogues.\n";
    out += "pub const DECLARED: &[(&str, &[(&str, &str)])] = &[\n";
    for d in declared {
        let _ = writeln!(
            out,
            "    ({:?}, &{:?}),",
            d.id,
            d.arguments.iter().map(|a| (&a.name, a.kind)).collect::<Vec<_>>()
        );
    }
    out += "];\n";
    let mut by_room: BTreeMap<&str, Vec<&Declared>> = BTreeMap::new();
    for d in declared {
        by_room.entry(&d.room).or_default().push(d);
    }
    for (room, messages) in by_room {
        let _ = writeln!(out, "\n/// What `{room}` says.\npub mod {} {{", room.replace('-', "_"));
        for m in messages {
            one(&mut out, m);
        }
        out += "}\n";
    }
    out
}

/// The languages by their folders, the declaring one first.
fn all_languages(languages: &BTreeMap<String, Catalogue>) -> String {
    let mut codes: Vec<&str> = languages.keys().map(String::as_str).filter(|c| *c != check::DECLARING).collect();
    codes.insert(0, check::DECLARING);
    let variant = |code: &str| code[..1].to_uppercase() + &code[1..].replace('-', "");
    let mut out = String::from(
        "/// A language.\n#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, PartialOrd, Ord, Hash, Serialize, Deserialize)]\n\
         #[serde(rename_all = \"lowercase\")]\npub enum Lang {\n",
    );
    for code in &codes {
        let first = if *code == check::DECLARING { "    #[default]\n" } else { "" };
        let _ = writeln!(out, "    /// `{code}`\n{first}    {},", variant(code));
    }
    let all: Vec<String> = codes.iter().map(|c| format!("Self::{}", variant(c))).collect();
    let _ = writeln!(
        out,
        "}}\n\nimpl Lang {{\n    /// All languages.\n    pub const ALL: [Self; {}] = [{}];\n",
        all.len(),
        all.join(", ")
    );
    out += "    /// Its code (BCP 47), the name of its folder of catalogues.\n    pub fn code(self) -> &'static str {\n        match self {\n";
    for code in &codes {
        let _ = writeln!(out, "            Self::{} => {code:?},", variant(code));
    }
    out + "        }\n    }\n}\n"
}

fn one(out: &mut String, m: &Declared) {
    let name = m.type_name();
    let about = if m.about.is_empty() { format!("`{}`", m.id) } else { m.about.clone() };
    let _ = writeln!(out, "    /// {about}\n    #[derive(Debug, Clone, PartialEq)]");
    if m.arguments.is_empty() {
        let _ = writeln!(out, "    pub struct {name};");
    } else {
        let _ = writeln!(out, "    pub struct {name} {{");
        for a in &m.arguments {
            let about = if a.about.is_empty() { &a.name } else { &a.about };
            let _ = writeln!(out, "        /// {about}\n        pub {}: {},", a.field(), a.rust_type());
        }
        out.push_str("    }\n");
    }
    let _ = writeln!(out, "    impl ::core::convert::From<{name}> for crate::Message {{");
    let given = if m.arguments.is_empty() { "_" } else { "m" };
    let _ = writeln!(out, "        fn from({given}: {name}) -> Self {{\n            Self::of({:?}, [", m.id);
    for a in &m.arguments {
        let _ = writeln!(out, "                ({:?}, crate::Arg::from(m.{})),", a.name, a.field());
    }
    out.push_str("            ])\n        }\n    }\n");
    let _ =
        writeln!(out, "    impl crate::Declared for {name} {{\n        const ID: &'static str = {:?};\n    }}", m.id);
    let _ = writeln!(
        out,
        "    impl ::core::convert::From<{name}> for crate::Said {{\n        fn from(m: {name}) -> Self {{ Self::Message(m.into()) }}\n    }}"
    );
}
