//! TLS of our own: certificate and key from two files of PEM, read again when they change on the disk.
//!
//! Protocols are TLS 1.3 and 1.2, ciphers the ones that `rustls` takes with `ring`: all of them agree on a key anew for
//! each connection and seal what is sent. Checked from outside in `tests/tls.rs`.

use crate::ServeError;
use crate::lock::lock;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant, SystemTime};
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::crypto::ring::default_provider;
use tokio_rustls::rustls::pki_types::pem::PemObject as _;
use tokio_rustls::rustls::pki_types::{CertificateDer, PrivateKeyDer};
use tokio_rustls::rustls::{self, ServerConfig};

/// Where certificate and key stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TlsFiles {
    /// The certificate, then those that vouch for it.
    pub cert: PathBuf,
    /// Its key.
    pub key: PathBuf,
}

/// How often the files are looked at, at most.
const LOOK: Duration = Duration::from_secs(2);

/// Certificate and key as they stand on the disk.
pub(crate) struct Tls {
    files: TlsFiles,
    now: Mutex<Now>,
}

struct Now {
    acceptor: TlsAcceptor,
    changed: [Option<SystemTime>; 2],
    looked: Instant,
}

impl Tls {
    /// Reads them.
    pub fn open(files: &TlsFiles) -> Result<Self, ServeError> {
        let changed = changed(files);
        let acceptor = read(files)?;
        Ok(Self { files: files.clone(), now: Mutex::new(Now { acceptor, changed, looked: Instant::now() }) })
    }

    /// For the next connection. Files that cannot be read leave what was read before, and are told once.
    pub fn acceptor(&self) -> TlsAcceptor {
        let mut now = lock(&self.now);
        if now.looked.elapsed() >= LOOK {
            now.looked = Instant::now();
            let changed = changed(&self.files);
            if changed != now.changed {
                now.changed = changed;
                match read(&self.files) {
                    Ok(acceptor) => now.acceptor = acceptor,
                    Err(e) => eprintln!("web: {e}"),
                }
            }
        }
        now.acceptor.clone()
    }
}

fn changed(files: &TlsFiles) -> [Option<SystemTime>; 2] {
    [&files.cert, &files.key].map(|f| f.metadata().and_then(|m| m.modified()).ok())
}

fn read(files: &TlsFiles) -> Result<TlsAcceptor, ServeError> {
    let unfit = |file: &Path, detail: String| ServeError::Tls { file: file.into(), detail };
    let certs = CertificateDer::pem_file_iter(&files.cert)
        .and_then(Iterator::collect::<Result<Vec<_>, _>>)
        .map_err(|e| unfit(&files.cert, e.to_string()))?;
    let key = PrivateKeyDer::from_pem_file(&files.key).map_err(|e| unfit(&files.key, e.to_string()))?;
    let fits = |e: rustls::Error| unfit(&files.cert, e.to_string());
    let mut config = ServerConfig::builder_with_provider(Arc::new(default_provider()))
        .with_safe_default_protocol_versions()
        .map_err(fits)?
        .with_no_client_auth()
        .with_single_cert(certs, key)
        .map_err(fits)?;
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok(TlsAcceptor::from(Arc::new(config)))
}
