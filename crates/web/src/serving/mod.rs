//! Connections: taken, held to their limits, and ended.
//!
//! In: a listener, the pages, [`Limits`]. A head, a body and an answer have their times; who says nothing is closed. Where
//! all places are taken, whoever asks for nothing makes room for who comes new, those of the address with most connections
//! first: idle or half-spoken connections keep nobody out. TLS stands here too ([`crate::tls`]), and the end: asked to stop,
//! nothing new is taken, what is being answered may end, and after [`Limits::stop`] all is closed.
//!
//! Checked in `tests/serving.rs`.

mod body;
mod places;
mod stream;

use crate::tls::Tls;
use axum::Router;
use axum::body::Body;
use axum::extract::ConnectInfo;
use body::{Held, Timed};
use hyper::body::Incoming;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use places::{Place, Places};
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use stream::Prompt;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::TcpListener;
use tokio::sync::watch;
use tower_service::Service as _;

/// How long, how many. The first set is for people; tests take shorter ones.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// For the head of a request, from the connection or the answer before on; also for a handshake.
    pub head: Duration,
    /// Between two pieces of a body that comes up.
    pub piece: Duration,
    /// Bytes a second that a body comes with at least, over all of it, after [`Limits::piece`] has passed once: below this a
    /// telephone in the field would not show a page either.
    pub least_rate: u64,
    /// For a piece of an answer to be taken.
    pub taken: Duration,
    /// Connections in all.
    pub connections: usize,
    /// Connections of one address. A proxy is one address for all: behind it only the number in all counts.
    pub connections_of_one: usize,
    /// Requests of one person answered at once; more wait.
    pub requests_of_one: usize,
    /// Jobs at work in all.
    pub jobs: usize,
    /// Jobs of one person that wait besides the one at work.
    pub waiting_of_one: usize,
    /// From the word to stop to the end.
    pub stop: Duration,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            head: Duration::from_secs(15),
            piece: Duration::from_secs(20),
            least_rate: 500,
            taken: Duration::from_secs(30),
            connections: 400,
            connections_of_one: 100,
            requests_of_one: 8,
            // Two cores: one person's work never takes both.
            jobs: 2,
            waiting_of_one: 8,
            stop: Duration::from_secs(4),
        }
    }
}

/// Longest head of a request, bytes: cookies and the longest address of our own pages are a tenth of it.
const HEAD_BYTES: usize = 64 * 1024;

/// How connections are served.
pub(crate) struct Serving {
    pub router: Router,
    pub limits: Limits,
    pub tls: Option<Arc<Tls>>,
    /// All requests come from one proxy.
    pub proxy: bool,
}

impl Serving {
    /// Takes connections until `stop` is there, then ends them.
    pub async fn run(self, listener: TcpListener, stop: impl Future<Output = ()>) {
        let of_one = if self.proxy { self.limits.connections } else { self.limits.connections_of_one };
        let places = Places::new(self.limits.connections, of_one);
        let (ending, ended) = watch::channel(false);
        let serving = Arc::new(self);
        let mut stop = std::pin::pin!(stop);
        loop {
            let taken = tokio::select! {
                () = &mut stop => break,
                taken = listener.accept() => taken,
            };
            match taken {
                Ok((stream, peer)) => {
                    // A small answer is not held back for more of it.
                    let _ = stream.set_nodelay(true);
                    let Some(place) = places.take(peer.ip()) else { continue };
                    let (serving, ended) = (serving.clone(), ended.clone());
                    tokio::spawn(async move { serving.connection(stream, peer, place, ended).await });
                }
                // No file numbers left, or one who went again: taking goes on, not in a hurry.
                Err(_) => tokio::time::sleep(Duration::from_millis(50)).await,
            }
        }
        drop(listener);
        let _ = ending.send(true);
        let limits = serving.limits;
        let _ = tokio::time::timeout(limits.stop.mul_f64(0.5), places.empty()).await;
        places.close_all();
    }

    /// One connection, to its end.
    async fn connection(
        &self,
        stream: tokio::net::TcpStream,
        peer: SocketAddr,
        place: Place,
        ended: watch::Receiver<bool>,
    ) {
        let place = Arc::new(place);
        let closed = place.closed();
        let work = async {
            match &self.tls {
                None => self.speak(stream, peer, place, ended).await,
                Some(tls) => {
                    let hands = tokio::time::timeout(self.limits.head, tls.acceptor().accept(stream));
                    if let Ok(Ok(stream)) = hands.await {
                        self.speak(stream, peer, place, ended).await;
                    }
                }
            }
        };
        tokio::select! {
            () = work => {}
            () = closed => {}
        }
    }

    async fn speak<S>(&self, stream: S, peer: SocketAddr, place: Arc<Place>, mut ended: watch::Receiver<bool>)
    where
        S: AsyncRead + AsyncWrite + Unpin + Send + 'static,
    {
        let (router, limits) = (self.router.clone(), self.limits);
        let answer = service_fn(move |request: hyper::Request<Incoming>| {
            // Kept until the last piece of the answer has left.
            let at_work = place.begin();
            let mut request = request.map(|body| Body::new(Timed::new(body, &limits)));
            request.extensions_mut().insert(ConnectInfo(peer));
            let answered = router.clone().call(request);
            async move { answered.await.map(|answer| answer.map(|body| Held::new(body, at_work))) }
        });
        let mut http = hyper::server::conn::http1::Builder::new();
        http.timer(TokioTimer::new()).header_read_timeout(limits.head).max_buf_size(HEAD_BYTES);
        let stream = TokioIo::new(Prompt::new(stream, limits.taken));
        let mut connection = std::pin::pin!(http.serve_connection(stream, answer));
        let told = async move {
            let _ = ended.wait_for(|ended| *ended).await;
        };
        // What goes wrong with a connection is its other end's affair: nobody is there to be told.
        let ending = tokio::select! {
            _ = connection.as_mut() => false,
            () = told => true,
        };
        if ending {
            connection.as_mut().graceful_shutdown();
            let _ = connection.await;
        }
    }
}
