//! A server of one's own for the tests of one process: a cluster in a temporary folder, on a
//! socket there and a free loopback port, gone when the process ends, however it ends. Programs
//! are those of the system's PostgreSQL (Debian package `postgresql`, which `cargo xtask test`
//! installs where it is missing). Where this is root, they run as the user `postgres`.

use std::io::Write;
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};

/// A running server.
pub struct Cluster {
    folder: PathBuf,
    programs: PathBuf,
    pub port: u16,
    /// Waits for the end of this process, then stops the server and removes its folder.
    _guard: Child,
}

/// Where the server's programs are.
fn programs() -> PathBuf {
    let named = std::env::var_os("PATH").map(|p| std::env::split_paths(&p).collect::<Vec<_>>()).unwrap_or_default();
    let debian = std::fs::read_dir("/usr/lib/postgresql").into_iter().flatten().flatten().map(|e| e.path().join("bin"));
    let mut all: Vec<_> =
        debian.chain(named).filter(|d| d.join("initdb").is_file() && d.join("pg_ctl").is_file()).collect();
    all.sort();
    all.pop().expect("no PostgreSQL here: `cargo xtask test` installs the Debian package postgresql, or put initdb and pg_ctl on the PATH")
}

/// Whether this process is root, which the server refuses to be.
fn is_root() -> bool {
    use std::os::unix::fs::MetadataExt;
    std::fs::metadata("/proc/self").is_ok_and(|m| m.uid() == 0)
}

fn as_server_user(program: &Path) -> Command {
    if !is_root() {
        return Command::new(program);
    }
    let mut command = Command::new("setpriv");
    command.args(["--reuid=postgres", "--regid=postgres", "--clear-groups"]).arg(program).current_dir("/");
    command
}

fn done(mut command: Command) {
    let output = command.output().unwrap_or_else(|e| panic!("{command:?}: {e}"));
    let said = format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(output.status.success(), "{command:?}: {said}");
}

impl Cluster {
    /// The server of this process, started when first wanted.
    pub fn shared() -> &'static Cluster {
        static SHARED: OnceLock<Cluster> = OnceLock::new();
        SHARED.get_or_init(Self::start)
    }

    /// One more server, for a test that stops it.
    pub fn start() -> Self {
        let programs = programs();
        let folder = tempfile::Builder::new().prefix("limpid-pg-").tempdir().unwrap().keep();
        if is_root() {
            done({
                let mut chown = Command::new("chown");
                chown.arg("postgres:postgres").arg(&folder);
                chown
            });
        }
        let data = folder.join("data");
        let mut initdb = as_server_user(&programs.join("initdb"));
        initdb
            .args(["--no-sync", "--auth=trust", "--encoding=UTF8", "--locale=C", "--username=limpid", "-D"])
            .arg(&data);
        done(initdb);
        let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        let mut settings = std::fs::OpenOptions::new().append(true).open(data.join("postgresql.conf")).unwrap();
        write!(
            settings,
            "listen_addresses = '127.0.0.1'\nport = {port}\nunix_socket_directories = '{}'\nfsync = off\n\
             shared_buffers = 32MB\nmax_wal_size = 256MB\nautovacuum = off\nlog_min_messages = fatal\n",
            folder.display()
        )
        .unwrap();
        let guard = as_server_user(Path::new("/bin/sh"))
            .args(["-c", "cat >/dev/null; \"$1/pg_ctl\" -D \"$2/data\" -m immediate stop >/dev/null 2>&1; rm -rf \"$2\"/*; rmdir \"$2\" 2>/dev/null", "sh"])
            .arg(&programs)
            .arg(&folder)
            .stdin(Stdio::piped())
            .spawn()
            .unwrap();
        let out = Self { folder, programs, port, _guard: guard };
        out.control(&["-w", "-l"], Some("log"), "start");
        out
    }

    fn control(&self, before: &[&str], log: Option<&str>, what: &str) {
        let mut command = as_server_user(&self.programs.join("pg_ctl"));
        command.arg("-D").arg(self.folder.join("data")).args(before);
        if let Some(log) = log {
            command.arg(self.folder.join(log));
        }
        command.args(["-t", "60", what]).stdin(Stdio::null());
        // The server inherits what it is started with: no pipe that would stay open.
        command.stdout(Stdio::null()).stderr(Stdio::null());
        assert!(command.status().unwrap().success(), "pg_ctl {what}");
    }

    /// Speaks TLS from now on, with this certificate and key.
    #[allow(dead_code, reason = "other tests speak plainly")]
    pub fn seal(&self, cert: &Path, key: &Path) {
        let data = self.folder.join("data");
        for (from, to) in [(cert, "server.crt"), (key, "server.key")] {
            // Written by the server's own user, who alone may read the key.
            let mut child = as_server_user(Path::new("/bin/sh"))
                .args(["-c", "umask 077; cat > \"$1\"", "sh"])
                .arg(data.join(to))
                .stdin(Stdio::piped())
                .spawn()
                .unwrap();
            child.stdin.take().unwrap().write_all(&std::fs::read(from).unwrap()).unwrap();
            assert!(child.wait().unwrap().success(), "{to}");
        }
        let mut client = self.raw("");
        client.batch_execute("ALTER SYSTEM SET ssl = on").unwrap();
        client.batch_execute("SELECT pg_reload_conf()").unwrap();
        // The server reads its settings a moment later.
        for _ in 0..100 {
            let on: String = self.raw("").query_one("SHOW ssl", &[]).unwrap().get(0);
            if on == "on" {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(50));
        }
        panic!("the server speaks no TLS");
    }

    /// Stops as a power cut would and starts again.
    pub fn crash_and_restart(&self) {
        self.stop();
        self.control(&["-w", "-l"], Some("log"), "start");
    }

    /// Stops as a power cut would.
    pub fn stop(&self) {
        self.control(&["-w", "-m", "immediate"], None, "stop");
    }

    /// Starts again.
    pub fn start_again(&self) {
        self.control(&["-w", "-l"], Some("log"), "start");
    }

    /// The address of a schema that nobody has used.
    pub fn address(&self) -> PathBuf {
        static NEXT: AtomicU32 = AtomicU32::new(1);
        self.address_of(&format!("t{}", NEXT.fetch_add(1, Ordering::Relaxed)))
    }

    pub fn address_of(&self, schema: &str) -> PathBuf {
        format!("postgres://limpid@127.0.0.1:{}/postgres?schema={schema}", self.port).into()
    }

    /// A connection of the kind that the store does not know of.
    pub fn raw(&self, schema: &str) -> postgres::Client {
        let address = format!("postgres://limpid@127.0.0.1:{}/postgres", self.port);
        let mut client = postgres::Client::connect(&address, postgres::NoTls).unwrap();
        if !schema.is_empty() {
            client.batch_execute(&format!("SET search_path TO {schema}")).unwrap();
        }
        client
    }
}

/// The schema that an address names.
pub fn schema_of(address: &Path) -> String {
    address.to_string_lossy().rsplit_once("schema=").expect("an address of these tests").1.to_owned()
}
