//! Workbooks are read in a process of their own: a strange file that makes its reader take all memory, run for ever or
//! break off takes that process with it and nothing else.
//!
//! The program starts itself with a word of its own ([`WORD`], [`child`]); which program, its first line says
//! ([`reads_in`]). Where that was not said (in tests of the rooms below) the same work is done on a thread. The request goes
//! over standard input, what was read comes back over standard output in frames: a letter, a length, the content. The other
//! process sets its own limits of memory, time and files before it opens the file (setrlimit(2)), has nothing of our
//! environment, and is ended when nobody listens any more or its time is over. What it sends is looked at like a file's
//! content: it may be what the file made of it.
//!
//! Covered: whatever is packed or binary (XLSX, ODS, XLS): counting what it unpacks to, its list of sheets, its rows. Not
//! covered, and read in the program itself: text tables, a phone's sheets, recipes, mappings and packages (a folder of CSV
//! and JSON); their readers hold no more than the file is large. The other process may still read what this user may read:
//! it is bounded, not walled in. Checked in `crates/cli/tests/apart.rs`.

use super::sheet::{self, Ask, Sent};
use rustix::process::{Resource, Rlimit, setrlimit};
use std::io::{Read as _, Write as _};
use std::path::PathBuf;
use std::process::{Child, Command, ExitCode, Stdio};
use std::sync::OnceLock;
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::time::Duration;

/// The word with which the program is started to read a workbook.
pub const WORD: &str = "read-apart";

/// Address space of the other process, bytes: a sheet of a million rows takes 0.6 GiB (measured). Our own choice.
const MEMORY: u64 = 2 << 30;

/// Time on a processor, s: a sheet of a million rows takes some 20 (measured on one of 2026). Our own choice.
const PROCESSOR_S: u64 = 240;

/// In all; a disk or a busy machine may make it wait.
const IN_ALL: Duration = Duration::from_mins(15);

/// Files that it may hold open: its three streams, the workbook, and some to spare for the system's own.
const FILES: u64 = 16;

/// Longest content of a frame, bytes; rows come in batches far below.
const FRAME: usize = 256 << 20;

static PROGRAM: OnceLock<PathBuf> = OnceLock::new();

/// Says which program is started to read workbooks: one that answers [`WORD`] with [`child`]. The first word counts.
pub fn reads_in(program: PathBuf) {
    let _ = PROGRAM.set(program);
}

/// What the other process does: reads the request, keeps to its limits, answers. It may be given less memory, MiB.
pub fn child(memory_mib: Option<u64>) -> ExitCode {
    for (what, most) in [
        (Resource::As, memory_mib.map_or(MEMORY, |m| m.saturating_mul(1 << 20).min(MEMORY))),
        (Resource::Cpu, PROCESSOR_S),
        (Resource::Nofile, FILES),
        // It writes no file, and leaves none behind.
        (Resource::Fsize, 0),
        (Resource::Core, 0),
    ] {
        if setrlimit(what, Rlimit { current: Some(most), maximum: Some(most) }).is_err() {
            return ExitCode::FAILURE;
        }
    }
    let mut text = String::new();
    let Ok(ask) = std::io::stdin().read_to_string(&mut text).map_err(|_| ()).and_then(|_| asked(&text)) else {
        return ExitCode::from(2);
    };
    let mut out = std::io::BufWriter::with_capacity(1 << 16, std::io::stdout().lock());
    sheet::answer(&ask, &mut |sent| write(&mut out, &sent).is_ok());
    if out.flush().is_ok() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn asked(text: &str) -> Result<Ask, ()> {
    serde_json::from_str(text).map_err(|_| ())
}

/// Reads what is asked and hands it over as it comes, until there is no more or nobody wants it. Where the other process
/// ends before it has said so, nothing is handed over in place of its last word.
pub(crate) fn read(ask: &Ask, hand_over: &mut dyn FnMut(Sent) -> bool) {
    let Some(program) = PROGRAM.get() else {
        sheet::answer(ask, hand_over);
        return;
    };
    // A process that cannot be started, or broke off, says nothing: the caller tells it of the file.
    let _ = read_by(program, ask, hand_over);
}

fn read_by(program: &PathBuf, ask: &Ask, hand_over: &mut dyn FnMut(Sent) -> bool) -> std::io::Result<()> {
    let started = Command::new(program)
        .arg(WORD)
        .env_clear()
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()?;
    let mut other = Ended(started);
    let broken = || std::io::Error::from(std::io::ErrorKind::BrokenPipe);
    let request = serde_json::to_vec(ask)?;
    other.0.stdin.take().ok_or_else(broken)?.write_all(&request)?;
    let mut from = other.0.stdout.take().ok_or_else(broken)?;
    let alarm = Alarm::after(IN_ALL, other.0.id());
    while let Some(sent) = next(&mut from)? {
        let last = matches!(sent, Sent::End);
        if !hand_over(sent) || last {
            break;
        }
    }
    drop(alarm);
    Ok(())
}

/// The other process, which ends with the wish to hear it.
struct Ended(Child);

impl Drop for Ended {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// Ends a process after a time, unless it is dropped before.
struct Alarm {
    /// Dropped with it, which tells.
    _stop: Sender<()>,
}

impl Alarm {
    fn after(time: Duration, process: u32) -> Self {
        let (stop, stopped) = channel();
        std::thread::spawn(move || {
            if stopped.recv_timeout(time) == Err(RecvTimeoutError::Timeout)
                && let Some(process) = i32::try_from(process).ok().and_then(rustix::process::Pid::from_raw)
            {
                let _ = rustix::process::kill_process(process, rustix::process::Signal::KILL);
            }
        });
        Self { _stop: stop }
    }
}

fn write(out: &mut impl std::io::Write, sent: &Sent) -> std::io::Result<()> {
    let (letter, content) = match sent {
        Sent::Head(head) => (b'H', serde_json::to_vec(head)?),
        Sent::Names(names) => (b'N', serde_json::to_vec(names)?),
        Sent::Fault(fault) => (b'F', serde_json::to_vec(fault)?),
        Sent::Rows(rows) => (b'R', sheet::packed(rows)?),
        Sent::End => (b'E', vec![]),
    };
    out.write_all(&[letter])?;
    out.write_all(&(content.len() as u64).to_le_bytes())?;
    out.write_all(&content)
}

/// The next frame; none where the other end has closed.
fn next(from: &mut impl std::io::Read) -> std::io::Result<Option<Sent>> {
    let mut head = [0_u8; 9];
    if from.read(&mut head[..1])? == 0 {
        return Ok(None);
    }
    from.read_exact(&mut head[1..])?;
    let unfit = || std::io::Error::from(std::io::ErrorKind::InvalidData);
    let [letter, length @ ..] = head;
    let length = usize::try_from(u64::from_le_bytes(length)).ok().filter(|n| *n <= FRAME).ok_or_else(unfit)?;
    // Grows with what comes, not with what was said to come.
    let mut content = vec![];
    if from.take(length as u64).read_to_end(&mut content)? != length {
        return Err(unfit());
    }
    Ok(Some(match letter {
        b'H' => Sent::Head(serde_json::from_slice(&content)?),
        b'N' => Sent::Names(serde_json::from_slice(&content)?),
        b'F' => Sent::Fault(serde_json::from_slice(&content)?),
        b'R' => Sent::Rows(sheet::unpacked(&content).ok_or_else(unfit)?),
        b'E' => Sent::End,
        _ => return Err(unfit()),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Whatever comes over the pipe: it is read to its end or refused, and nothing is held that did not come.
        #[test]
        fn a_frame_of_any_bytes_is_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200), letter in "[HNFREx]") {
            let mut framed = letter.as_bytes().to_vec();
            framed.extend((bytes.len() as u64).to_le_bytes());
            framed.extend(&bytes);
            let _ = next(&mut framed.as_slice());
            let _ = next(&mut bytes.as_slice());
        }
    }

    #[test]
    fn a_length_that_is_a_lie_takes_no_memory() {
        for length in [u64::MAX, 1 << 40, 1 << 20] {
            let mut framed = vec![b'R'];
            framed.extend(length.to_le_bytes());
            framed.extend([0; 40]);
            assert!(next(&mut framed.as_slice()).is_err(), "{length}");
        }
    }
}
