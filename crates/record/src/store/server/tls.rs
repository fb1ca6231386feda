//! TLS to a server of PostgreSQL, proved as `sslmode=verify-full` of PostgreSQL's own clients proves it: the certificate
//! is vouched for by who is trusted, and names the host that was asked for.
//!
//! Who is trusted, in the order of those clients (PostgreSQL documentation, libpq, "SSL Support"; from memory): the file of
//! `sslrootcert`, of `PGSSLROOTCERT`, `~/.postgresql/root.crt`; where there is none, or `system` is named, those whom this
//! system trusts. A certificate of one's own: `sslcert` and `sslkey`, or `~/.postgresql/postgresql.crt` and `.key`.

use super::ServerError;
use message::{Spoken as _, server as says};
use postgres::Socket;
use postgres::tls::{ChannelBinding, MakeTlsConnect, TlsConnect, TlsStream};
use std::error::Error;
use std::io;
use std::path::{Path, PathBuf};
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio_rustls::TlsConnector;
use tokio_rustls::client::TlsStream as Sealed;
use tokio_rustls::rustls::crypto::ring::default_provider;
use tokio_rustls::rustls::pki_types::pem::PemObject as _;
use tokio_rustls::rustls::pki_types::{CertificateDer, PrivateKeyDer, ServerName};
use tokio_rustls::rustls::{self, ClientConfig, RootCertStore};

/// What an address says of TLS.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct TlsWanted {
    /// Whom to trust.
    pub roots: Option<PathBuf>,
    /// A certificate of one's own, and its key.
    pub cert: Option<PathBuf>,
    pub key: Option<PathBuf>,
}

/// Where systems keep those whom they trust: Debian and its kin, Fedora and its kin, Alpine and the BSDs.
const OF_THE_SYSTEM: [&str; 3] =
    ["/etc/ssl/certs/ca-certificates.crt", "/etc/pki/tls/certs/ca-bundle.crt", "/etc/ssl/cert.pem"];

/// A file in the folder where PostgreSQL's clients keep theirs, where it is there.
fn of_the_person(name: &str) -> Option<PathBuf> {
    let path = Path::new(&std::env::var_os("HOME")?).join(".postgresql").join(name);
    path.is_file().then_some(path)
}

/// What seals a connection; of none where the address wants none, and then never asked.
#[derive(Clone)]
pub(crate) struct Seal(Option<TlsConnector>);

impl Seal {
    /// As the address wants it.
    ///
    /// # Errors
    /// Who is trusted, or one's own certificate, cannot be read.
    pub fn of(wanted: Option<&TlsWanted>, address: &str) -> Result<Self, ServerError> {
        let Some(wanted) = wanted else { return Ok(Self(None)) };
        let unfit = |file: &Path, why: String| ServerError::Certificates {
            address: address.into(),
            detail: says::CertificatesUnfit { file: file.display().to_string().into(), why: why.into() }.text(),
        };
        let named = wanted.roots.clone().or_else(|| std::env::var_os("PGSSLROOTCERT").map(PathBuf::from));
        let named = named.filter(|p| p != Path::new("system")).or_else(|| {
            // Where `system` is named, no file of the person's stands before it.
            wanted.roots.is_none().then(|| of_the_person("root.crt")).flatten()
        });
        let file = named.or_else(|| OF_THE_SYSTEM.iter().map(PathBuf::from).find(|p| p.is_file()));
        let file = file
            .ok_or_else(|| ServerError::Certificates { address: address.into(), detail: says::NobodyTrusted.text() })?;
        let mut roots = RootCertStore::empty();
        // A list of the system may hold some that are too old to be read; a file of one's own holds what it holds.
        let (taken, _) = roots.add_parsable_certificates(certificates(&file).map_err(|e| unfit(&file, e))?);
        if taken == 0 {
            return Err(unfit(&file, says::NoCertificate.text()));
        }
        let builder = ClientConfig::builder_with_provider(Arc::new(default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(|e| unfit(&file, e.to_string()))?
            .with_root_certificates(roots);
        let cert = wanted.cert.clone().or_else(|| of_the_person("postgresql.crt"));
        let key = wanted.key.clone().or_else(|| of_the_person("postgresql.key"));
        let config = match cert.zip(key) {
            None => builder.with_no_client_auth(),
            Some((cert, key)) => {
                let own = certificates(&cert).map_err(|e| unfit(&cert, e))?;
                let secret = PrivateKeyDer::from_pem_file(&key).map_err(|e| unfit(&key, e.to_string()))?;
                builder.with_client_auth_cert(own, secret).map_err(|e| unfit(&cert, e.to_string()))?
            }
        };
        Ok(Self(Some(TlsConnector::from(Arc::new(config)))))
    }
}

fn certificates(file: &Path) -> Result<Vec<CertificateDer<'static>>, String> {
    CertificateDer::pem_file_iter(file).and_then(Iterator::collect).map_err(|e| e.to_string())
}

/// Why a connection could not be sealed.
#[derive(Debug, thiserror::Error)]
pub(crate) enum SealError {
    /// The certificate proves nothing, or another host.
    #[error(transparent)]
    Untrusted(rustls::Error),
    /// The name of the host is none that a certificate can have.
    #[error(transparent)]
    Name(#[from] rustls::pki_types::InvalidDnsNameError),
    /// The other end went away.
    #[error(transparent)]
    Io(io::Error),
}

/// Why a server was not trusted, where that is what an error says.
pub(crate) fn untrusted(error: &postgres::Error) -> Option<String> {
    let mut under = error.source();
    while let Some(e) = under {
        match e.downcast_ref::<SealError>() {
            Some(SealError::Untrusted(why)) => return Some(why.to_string()),
            Some(SealError::Name(why)) => return Some(why.to_string()),
            Some(SealError::Io(_)) | None => under = e.source(),
        }
    }
    None
}

impl MakeTlsConnect<Socket> for Seal {
    type Stream = Stream;
    type TlsConnect = ToHost;
    type Error = SealError;

    fn make_tls_connect(&mut self, host: &str) -> Result<ToHost, SealError> {
        // Asked for also where the connection stays plain: a socket has no name that a certificate could have.
        let to = self.0.clone().map(|seal| Ok::<_, SealError>((seal, ServerName::try_from(host)?.to_owned())));
        Ok(ToHost(to.transpose()?))
    }
}

/// A connection to a host, about to be sealed.
pub(crate) struct ToHost(Option<(TlsConnector, ServerName<'static>)>);

impl TlsConnect<Socket> for ToHost {
    type Stream = Stream;
    type Error = SealError;
    type Future = Pin<Box<dyn Future<Output = Result<Stream, SealError>> + Send>>;

    fn connect(self, socket: Socket) -> Self::Future {
        Box::pin(async move {
            let (seal, name) = self.0.ok_or_else(|| SealError::Io(io::ErrorKind::Unsupported.into()))?;
            let sealed = seal.connect(name, socket).await;
            sealed.map(|s| Stream(Box::new(s))).map_err(|e| {
                let why = e.get_ref().and_then(|e| e.downcast_ref::<rustls::Error>()).cloned();
                why.map_or(SealError::Io(e), SealError::Untrusted)
            })
        })
    }
}

/// A sealed connection.
pub(crate) struct Stream(Box<Sealed<Socket>>);

impl TlsStream for Stream {
    fn channel_binding(&self) -> ChannelBinding {
        // The certificate was proved to be the host's: a binding would prove it once more.
        ChannelBinding::none()
    }
}

impl AsyncRead for Stream {
    fn poll_read(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &mut ReadBuf<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.0).poll_read(cx, buf)
    }
}

impl AsyncWrite for Stream {
    fn poll_write(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &[u8]) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.0).poll_write(cx, buf)
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.0).poll_flush(cx)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.0).poll_shutdown(cx)
    }
}
