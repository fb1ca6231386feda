//! A connection whose other end takes what it is sent, or is closed.

use std::io::{Error, ErrorKind, Result};
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::time::{Instant, Sleep};

/// A stream that waits so long for a piece to be taken, and no longer.
pub(crate) struct Prompt<S> {
    stream: S,
    taken: Duration,
    patience: Pin<Box<Sleep>>,
    /// A piece waits.
    waits: bool,
}

impl<S> Prompt<S> {
    pub fn new(stream: S, taken: Duration) -> Self {
        Self { stream, taken, patience: Box::pin(tokio::time::sleep(taken)), waits: false }
    }

    /// What came of a piece; late where it has waited too long.
    fn within<T>(&mut self, cx: &mut Context<'_>, came: Poll<Result<T>>) -> Poll<Result<T>> {
        if came.is_ready() {
            self.waits = false;
            return came;
        }
        if !self.waits {
            self.waits = true;
            let until = Instant::now() + self.taken;
            self.patience.as_mut().reset(until);
        }
        match self.patience.as_mut().poll(cx) {
            Poll::Ready(()) => Poll::Ready(Err(Error::from(ErrorKind::TimedOut))),
            Poll::Pending => Poll::Pending,
        }
    }
}

impl<S: AsyncRead + Unpin> AsyncRead for Prompt<S> {
    fn poll_read(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &mut ReadBuf<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_read(cx, buf)
    }
}

impl<S: AsyncWrite + Unpin> AsyncWrite for Prompt<S> {
    fn poll_write(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &[u8]) -> Poll<Result<usize>> {
        let came = Pin::new(&mut self.stream).poll_write(cx, buf);
        self.within(cx, came)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bufs: &[std::io::IoSlice<'_>],
    ) -> Poll<Result<usize>> {
        let came = Pin::new(&mut self.stream).poll_write_vectored(cx, bufs);
        self.within(cx, came)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Result<()>> {
        let came = Pin::new(&mut self.stream).poll_flush(cx);
        self.within(cx, came)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Result<()>> {
        let came = Pin::new(&mut self.stream).poll_shutdown(cx);
        self.within(cx, came)
    }
}
