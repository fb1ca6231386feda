//! A wire between a store and its server that breaks where a test says.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex};

/// Where the wire breaks; once, then it is whole again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// After so many bytes towards the server.
    Up(u64),
    /// After so many bytes from the server.
    Down(u64),
    /// When the server has been told to commit and has not answered yet.
    AtCommit,
}

#[derive(Default)]
struct State {
    cut: Mutex<Option<Cut>>,
    up: AtomicU64,
    down: AtomicU64,
    /// Nobody gets through any more.
    closed: AtomicBool,
    close_after_cut: AtomicBool,
    /// Bytes from the server that are exchanged for others of the same length.
    exchange: Mutex<Option<(Vec<u8>, Vec<u8>)>>,
}

pub struct Proxy {
    pub port: u16,
    state: Arc<State>,
}

impl Proxy {
    pub fn before(server: u16) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = listener.local_addr().unwrap().port();
        let state = Arc::new(State::default());
        let shared = state.clone();
        std::thread::spawn(move || {
            for client in listener.incoming() {
                let Ok(client) = client else { return };
                if shared.closed.load(Ordering::SeqCst) {
                    continue;
                }
                let Ok(server) = TcpStream::connect(("127.0.0.1", server)) else { continue };
                let up = (client.try_clone().unwrap(), server.try_clone().unwrap(), shared.clone());
                let down = (server, client, shared.clone());
                std::thread::spawn(move || pass(up.0, up.1, &up.2, true));
                std::thread::spawn(move || pass(down.0, down.1, &down.2, false));
            }
        });
        Self { port, state }
    }

    /// Counts from here, and breaks once as told.
    pub fn arm(&self, cut: Option<Cut>) {
        self.state.up.store(0, Ordering::SeqCst);
        self.state.down.store(0, Ordering::SeqCst);
        *self.state.cut.lock().unwrap() = cut;
    }

    pub fn close_after_cut(&self) {
        self.state.close_after_cut.store(true, Ordering::SeqCst);
    }

    pub fn open_again(&self) {
        self.state.close_after_cut.store(false, Ordering::SeqCst);
        self.state.closed.store(false, Ordering::SeqCst);
    }

    /// Bytes up and down since it was armed.
    pub fn counted(&self) -> (u64, u64) {
        (self.state.up.load(Ordering::SeqCst), self.state.down.load(Ordering::SeqCst))
    }

    pub fn exchange(&self, from: &[u8], to: &[u8]) {
        *self.state.exchange.lock().unwrap() = Some((from.to_vec(), to.to_vec()));
    }
}

fn pass(mut from: TcpStream, mut to: TcpStream, state: &State, up: bool) {
    let mut buffer = vec![0; 1 << 16];
    while let Ok(n) = from.read(&mut buffer) {
        if n == 0 {
            break;
        }
        let bytes = &mut buffer[..n];
        if !up && let Some((a, b)) = &*state.exchange.lock().unwrap() {
            for at in 0..bytes.len().saturating_sub(a.len() - 1) {
                if bytes[at..at + a.len()] == a[..] {
                    bytes[at..at + a.len()].copy_from_slice(b);
                }
            }
        }
        let counter = if up { &state.up } else { &state.down };
        let before = counter.fetch_add(n as u64, Ordering::SeqCst);
        let mut kept = n;
        let mut cut = state.cut.lock().unwrap();
        let breaks = match *cut {
            Some(Cut::Up(limit)) if up => before + n as u64 > limit,
            Some(Cut::Down(limit)) if !up => before + n as u64 > limit,
            Some(Cut::AtCommit) => up && bytes.windows(7).any(|w| w == b"COMMIT\0"),
            _ => false,
        };
        if breaks {
            if let Some(Cut::Up(limit) | Cut::Down(limit)) = *cut {
                kept = usize::try_from(limit.saturating_sub(before)).unwrap().min(n);
            } else {
                // The answer is not let through.
                let _ = from.shutdown(Shutdown::Write);
            }
            if state.close_after_cut.load(Ordering::SeqCst) {
                state.closed.store(true, Ordering::SeqCst);
            }
            *cut = None;
        }
        drop(cut);
        if to.write_all(&bytes[..kept]).is_err() || breaks {
            break;
        }
    }
    let _ = from.shutdown(Shutdown::Both);
    let _ = to.shutdown(Shutdown::Both);
}
