//! Bodies: what comes up in good time or not at all, and an answer that holds its place until it has left.

use super::Limits;
use super::places::AtWork;
use axum::body::Body;
use hyper::body::{Body as HttpBody, Bytes, Frame, Incoming, SizeHint};
use std::io::{Error, ErrorKind};
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::time::{Instant, Sleep};

/// The body of a request. It breaks off where the next piece does not come, or all of it comes too slowly.
pub(crate) struct Timed {
    body: Incoming,
    piece: Duration,
    least_rate: u64,
    begun: Instant,
    bytes: u64,
    patience: Pin<Box<Sleep>>,
}

impl Timed {
    pub fn new(body: Incoming, limits: &Limits) -> Self {
        let (piece, least_rate) = (limits.piece, limits.least_rate);
        let patience = Box::pin(tokio::time::sleep(piece));
        Self { body, piece, least_rate, begun: Instant::now(), bytes: 0, patience }
    }

    fn is_slow(&self) -> bool {
        slow(self.begun.elapsed(), self.bytes, self.piece, self.least_rate)
    }
}

fn slow(took: Duration, bytes: u64, grace: Duration, least_rate: u64) -> bool {
    took > grace && (bytes as f64) < (took - grace).as_secs_f64() * least_rate as f64
}

type Fault = Box<dyn std::error::Error + Send + Sync>;

impl HttpBody for Timed {
    type Data = Bytes;
    type Error = Fault;

    fn poll_frame(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Option<Result<Frame<Bytes>, Fault>>> {
        let late = || Poll::Ready(Some(Err(Error::from(ErrorKind::TimedOut).into())));
        match Pin::new(&mut self.body).poll_frame(cx) {
            Poll::Ready(Some(Ok(frame))) => {
                self.bytes += frame.data_ref().map_or(0, |d| d.len() as u64);
                if self.is_slow() {
                    return late();
                }
                let next = Instant::now() + self.piece;
                self.patience.as_mut().reset(next);
                Poll::Ready(Some(Ok(frame)))
            }
            Poll::Ready(end) => Poll::Ready(end.map(|e| e.map_err(Into::into))),
            Poll::Pending if self.patience.as_mut().poll(cx).is_ready() => late(),
            Poll::Pending => Poll::Pending,
        }
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

/// The body of an answer.
pub(crate) struct Held {
    body: Body,
    _at_work: AtWork,
}

impl Held {
    pub fn new(body: Body, at_work: AtWork) -> Self {
        Self { body, _at_work: at_work }
    }
}

impl HttpBody for Held {
    type Data = Bytes;
    type Error = axum::Error;

    fn poll_frame(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Option<Result<Frame<Bytes>, axum::Error>>> {
        Pin::new(&mut self.body).poll_frame(cx)
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_byte_a_second_is_no_body() {
        let s = Duration::from_secs;
        assert!(!slow(s(19), 0, s(20), 500), "the first moments are free");
        assert!(slow(s(30), 30, s(20), 500));
        assert!(!slow(s(30), 6000, s(20), 500));
        assert!(slow(s(3600), 100_000, s(20), 500));
    }
}
