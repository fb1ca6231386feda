//! What is missing or unsafe on this machine and about a programme, each with what to do.
//!
//! In: the address of a programme, or none; the time. Out: [`Told`], sorted by how much it matters. Nothing is changed,
//! a file that cannot be read is told and ends nothing. It does not replace `verify`: it looks around the record, not
//! into it.

use assessment::engine;
use message::{Message, Name, doctor as says};
use record::error::Error;
use record::store::{self, Store};
use std::io::ErrorKind;
use std::os::unix::fs::PermissionsExt as _;
use std::path::{Path, PathBuf};

/// How much it matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// What is kept can be lost, or altered by others.
    Unsafe,
    /// Something cannot be done.
    Missing,
    /// Good to know.
    Known,
}

impl Weight {
    /// In a word.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::Unsafe => says::Unsafe.into(),
            Self::Missing => says::Missing.into(),
            Self::Known => says::Told.into(),
        }
    }

    /// As JSON names it.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Unsafe => "unsafe",
            Self::Missing => "missing",
            Self::Known => "known",
        }
    }
}

/// One thing that was found.
#[derive(Debug, Clone)]
pub struct Told {
    /// How much it matters.
    pub weight: Weight,
    /// What it is and what to do.
    pub message: Message,
}

fn told(weight: Weight, message: impl Into<Message>) -> Told {
    Told { weight, message: message.into() }
}

/// What was found around a programme, and on the machine. `now` is the time of the machine, as acts are dated.
///
/// # Errors
/// The record of a programme that opens cannot be read.
pub fn look(address: Option<&str>, now: &str) -> Result<Vec<Told>, Error> {
    let mut found = Vec::new();
    if let Some(address) = address {
        // A server keeps its files where nobody but it looks.
        if !store::is_server(Path::new(address)) {
            around(Path::new(address), &mut found);
        }
        inside(address, now, &mut found)?;
    }
    programs(&mut found);
    found.sort_by_key(|t| t.weight);
    Ok(found)
}

/// Ends of files that work makes beside a programme and takes away when it is done.
const UNDONE: [&str; 3] = [".unfinished", ".rebuilding", ".copying"];

/// Rights of others in a file's mode (POSIX, `<sys/stat.h>`): group and world.
const OTHERS_WRITE: u32 = 0o022;
const OTHERS_READ: u32 = 0o044;

/// The file, what lies beside it, and the disk.
fn around(path: &Path, found: &mut Vec<Told>) {
    let beside = |end: &str| {
        let mut name = path.as_os_str().to_owned();
        name.push(end);
        PathBuf::from(name)
    };
    let name = |path: &Path| Name(path.display().to_string());
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    for (file, secret) in [(path, false), (&beside(".accounts"), true), (folder, false)] {
        let Ok(metadata) = file.metadata() else { continue };
        let mode = metadata.permissions().mode();
        // In a folder with this bit only the owner takes a file away (POSIX, S_ISVTX).
        let kept_apart = metadata.is_dir() && mode & 0o1000 != 0;
        if mode & OTHERS_WRITE != 0 && !kept_apart {
            found.push(told(Weight::Unsafe, says::OthersChange { path: name(file) }));
        }
        if metadata.is_file() && mode & OTHERS_READ != 0 {
            let weight = if secret { Weight::Unsafe } else { Weight::Known };
            found.push(told(weight, says::OthersRead { path: name(file) }));
        }
    }
    let log = beside("-wal");
    if log.metadata().is_ok_and(|m| m.len() > 0) {
        let message =
            says::NewestBeside { path: name(path), beside: name(Path::new(log.file_name().unwrap_or_default())) };
        found.push(told(Weight::Known, message));
    }
    for end in UNDONE {
        let file = beside(end);
        if file.exists() {
            found.push(told(Weight::Missing, says::LeftOver { path: name(&file) }));
        }
    }
    disk(path, folder, found);
}

/// File systems of another machine, by their magic numbers (Linux, `include/uapi/linux/magic.h`, from memory): NFS, SMB
/// in two editions, 9p.
const OF_ANOTHER_MACHINE: [u64; 4] = [0x6969, 0xff53_4d42, 0xfe53_4d42, 0x0102_1997];

/// What a report needs beside a copy of the programme, in bytes: page, paper and what the making of them needs. A choice.
const FOR_A_REPORT: u64 = 100_000_000;

fn disk(path: &Path, folder: &Path, found: &mut Vec<Told>) {
    let name = Name(folder.display().to_string());
    #[cfg(target_os = "linux")]
    if rustix::fs::statfs(folder).is_ok_and(|s| OF_ANOTHER_MACHINE.contains(&(s.f_type.cast_unsigned() & 0xffff_ffff)))
    {
        found.push(told(Weight::Unsafe, says::NetworkFolder { path: name.clone() }));
    }
    let Ok(space) = rustix::fs::statvfs(folder) else { return };
    let free = space.f_bavail.saturating_mul(space.f_frsize);
    let needed = path.metadata().map_or(0, |m| m.len()).saturating_add(FOR_A_REPORT);
    if free < needed {
        let megabytes = |bytes: u64| i64::try_from(bytes.div_ceil(1_000_000)).unwrap_or(i64::MAX);
        found.push(told(
            Weight::Missing,
            says::LittleSpace { path: name, free: megabytes(free), needed: megabytes(needed) },
        ));
    }
}

/// What the record itself says without being read through.
fn inside(address: &str, now: &str, found: &mut Vec<Told>) -> Result<(), Error> {
    let shown = Name(store::shown(address));
    let store = match Store::open(address) {
        Ok(store) => store,
        Err(e) => {
            found.push(told(Weight::Missing, says::NotOpen { address: shown, why: Name(e.to_string()) }));
            return Ok(());
        }
    };
    if !store::is_server(Path::new(address)) && only_read(Path::new(address)) {
        found.push(told(Weight::Missing, says::OnlyRead { path: shown.clone() }));
    }
    if let Some(newest) = store.events_last(1)?.pop() {
        if newest.at.as_str() > now {
            let message = says::ClockBehind { now: Name(now.into()), newest: Name(newest.at.clone()) };
            found.push(told(Weight::Unsafe, message));
        }
        let message =
            says::StandsAt { address: shown.clone(), events: newest.number, head: Name(newest.hash.to_string()) };
        found.push(told(Weight::Known, message));
    }
    if !engine::reach(&store).map_err(Error::from)?.is_current() {
        found.push(told(Weight::Missing, says::NotDerived { address: shown.clone() }));
    }
    if !crate::hands::anybody_may_sign(&store)? {
        found.push(told(Weight::Missing, says::NobodySigns { address: shown }));
    }
    Ok(())
}

/// Whether the file is there and nothing can be written to it.
fn only_read(path: &Path) -> bool {
    std::fs::OpenOptions::new()
        .append(true)
        .open(path)
        .is_err_and(|e| matches!(e.kind(), ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem))
}

/// Programs that a command starts, or that a person is told to use.
fn programs(found: &mut Vec<Told>) {
    let survey = "limpid-survey";
    let beside = std::env::current_exe().is_ok_and(|me| me.with_file_name(survey).is_file());
    let uses: [(&str, Message, bool); 3] = [
        ("ssh-keygen", says::UseKeys.into(), false),
        ("openssl", says::UseStamps.into(), false),
        (survey, says::UseSurvey.into(), beside),
    ];
    let path = std::env::var_os("PATH").unwrap_or_default();
    for (program, purpose, there) in uses {
        if !there && !std::env::split_paths(&path).any(|dir| dir.join(program).is_file()) {
            found.push(told(Weight::Known, says::NoProgram { program: Name(program.into()), purpose }));
        }
    }
}

/// What was looked at, and what was not.
#[must_use]
pub fn looked_at(address: Option<&str>) -> Message {
    match address {
        Some(address) => says::LookedAt { address: Name(store::shown(address)) }.into(),
        None => says::LookedAtMachine.into(),
    }
}
