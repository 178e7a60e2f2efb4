// SPDX-License-Identifier: MIT
//! The body of an answer on its way out: whole, or a first line and the rest as soon as it is known.

use super::reply::Reply;
use hyper::body::{Body, Bytes, Frame, SizeHint};
use std::convert::Infallible;
use std::future::Future;
use std::pin::Pin;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::task::{Context, Poll};
use tokio::task::JoinHandle;

/// Tells, once it is gone, work that nobody waits for it, and whoever counts guests that this one is answered.
#[derive(Debug)]
pub(super) struct Asker {
    /// That the asker went away.
    pub gone: Arc<AtomicBool>,
    /// That it is being answered.
    pub asks: Arc<AtomicBool>,
}

impl Drop for Asker {
    fn drop(&mut self) {
        self.gone.store(true, Ordering::Relaxed);
        self.asks.store(false, Ordering::Relaxed);
    }
}

/// What goes out.
#[derive(Debug)]
pub(super) struct Outgoing {
    /// What is there to be sent.
    ready: Option<Bytes>,
    /// What follows it.
    rest: Option<JoinHandle<Reply>>,
    /// Whoever it goes to waits as long as it goes out.
    _asker: Asker,
}

impl Outgoing {
    pub(super) fn whole(body: Vec<u8>, asker: Asker) -> Self {
        Self { ready: Some(body.into()).filter(|bytes: &Bytes| !bytes.is_empty()), rest: None, _asker: asker }
    }

    /// A first line, and a second one when it is known.
    pub(super) fn begun(mut line: Vec<u8>, rest: JoinHandle<Reply>, asker: Asker) -> Self {
        line.push(b'\n');
        Self { ready: Some(line.into()), rest: Some(rest), _asker: asker }
    }
}

impl Body for Outgoing {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        if let Some(ready) = self.ready.take() {
            return Poll::Ready(Some(Ok(Frame::data(ready))));
        }
        let Some(rest) = &mut self.rest else { return Poll::Ready(None) };
        let Poll::Ready(done) = Pin::new(rest).poll(context) else { return Poll::Pending };
        self.rest = None;
        let reply = done.unwrap_or_else(|_| Reply::failed());
        Poll::Ready(Some(Ok(Frame::data(reply.second().into()))))
    }

    fn is_end_stream(&self) -> bool {
        self.ready.is_none() && self.rest.is_none()
    }

    fn size_hint(&self) -> SizeHint {
        match &self.rest {
            Some(_) => SizeHint::new(),
            None => SizeHint::with_exact(self.ready.as_ref().map_or(0, Bytes::len) as u64),
        }
    }
}
