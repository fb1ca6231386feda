//! A folder of its own for each test, the binary run in it, and one demo built for all.

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

pub const LIMPID: &str = env!("CARGO_BIN_EXE_limpid");

/// The result that the demo ends with.
pub const LEAD: &str = "SL2-26-07-A:Pb:206+207+208@low:unfiltered";

/// What a command did.
#[derive(Debug)]
pub struct Ran {
    pub status: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    pub fn of(output: Output) -> Self {
        let text = |bytes| String::from_utf8(bytes).expect("the tool writes UTF-8");
        Self {
            status: output.status.code().expect("ended by itself"),
            out: text(output.stdout),
            err: text(output.stderr),
        }
    }

    /// Standard output, of a command that must succeed.
    #[track_caller]
    pub fn done(self) -> String {
        assert_eq!(self.status, 0, "{}{}", self.out, self.err);
        self.out
    }

    /// Standard error of a command that must end with `status`, holding each of `parts`.
    #[track_caller]
    pub fn fails(self, status: i32, parts: &[&str]) -> String {
        assert_eq!(self.status, status, "{}{}", self.out, self.err);
        for part in parts {
            assert!(self.err.contains(part), "{part:?} is not in:\n{}", self.err);
        }
        self.err
    }

    /// The one JSON document on standard output, of a command that must succeed. A second
    /// document, or any word beside it, is an error of the parser.
    #[track_caller]
    pub fn json(self) -> Value {
        serde_json::from_str(&self.done()).unwrap()
    }
}

pub struct Desk {
    folder: tempfile::TempDir,
}

impl Desk {
    pub fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// With the raw files of the demo in `raw/`.
    pub fn with_raw() -> Self {
        let desk = Self::new();
        copy_folder(&demo().join("raw"), &desk.path("raw"));
        desk
    }

    /// With the demo's programme as `p.sqlite`.
    pub fn with_programme() -> Self {
        let desk = Self::new();
        fs::copy(demo().join("sallow-levels.sqlite"), desk.path("p.sqlite")).unwrap();
        desk
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn file(&self, name: &str, content: impl AsRef<[u8]>) {
        fs::write(self.path(name), content).unwrap();
    }

    /// Changes the text of a file; a change that changes nothing is a broken test.
    #[track_caller]
    pub fn edit(&self, name: &str, change: impl Fn(&str) -> String) {
        let before = fs::read_to_string(self.path(name)).unwrap();
        let after = change(&before);
        assert_ne!(before, after);
        self.file(name, after);
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        command_in(self.folder.path(), arguments)
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        Ran::of(self.command(arguments).output().unwrap())
    }

    /// `limpid calc NAME` with the input on standard input.
    pub fn calc(&self, name: &str, input: &str) -> Ran {
        self.file("input.json", input);
        self.run(&["calc", name, "--input", "input.json"])
    }

    /// The head hash as `verify` tells it.
    #[track_caller]
    pub fn head(&self, store: &str) -> String {
        let out = self.run(&["verify", store]).done();
        out.split_whitespace().last().unwrap().to_string()
    }
}

fn command_in(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(LIMPID);
    command.args(arguments).current_dir(folder).env("USER", "tester").env_remove("RUST_BACKTRACE");
    command
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
    }
}

/// Where the demo that all tests share was written.
pub fn demo() -> &'static Path {
    &shared().0
}

/// What `limpid demo` said when it wrote it.
pub fn demo_words() -> &'static str {
    &shared().1
}

/// Made once for each build of the program, also where every test is a process of its own: the first makes it while the
/// others wait for the lock.
fn shared() -> &'static (PathBuf, String) {
    static SHARED: OnceLock<(PathBuf, String)> = OnceLock::new();
    SHARED.get_or_init(|| {
        let parent = Path::new(env!("CARGO_TARGET_TMPDIR")).join("limpid-command-line");
        fs::create_dir_all(&parent).unwrap();
        let lock = fs::File::create(parent.join("lock")).unwrap();
        lock.lock().unwrap();
        let program = format!("{:?}", fs::metadata(LIMPID).unwrap().modified().unwrap());
        let (made_by, words) = (parent.join("made-by"), parent.join("words"));
        if fs::read_to_string(&made_by).ok().as_deref() != Some(&program) {
            let _ = fs::remove_dir_all(parent.join("demo"));
            let out = Ran::of(command_in(&parent, &["demo", "--dir", "demo"]).output().unwrap()).done();
            fs::write(&words, out).unwrap();
            fs::write(&made_by, program).unwrap();
        }
        (parent.join("demo"), fs::read_to_string(&words).unwrap())
    })
}

/// Hashes of 64 hexadecimal digits as a word, so that a snapshot speaks of what a person reads.
pub fn masked(text: &str) -> String {
    let is_hash = |word: &str| word.len() == 64 && word.bytes().all(|b| b.is_ascii_hexdigit());
    let word = |w: &str| {
        let (hash, after) = w.split_at(w.trim_end_matches([';', ',']).len());
        if is_hash(hash) { format!("[hash]{after}") } else { w.to_owned() }
    };
    let line = |l: &str| l.split(' ').map(word).collect::<Vec<_>>().join(" ");
    text.lines().map(|l| line(l) + "\n").collect()
}
