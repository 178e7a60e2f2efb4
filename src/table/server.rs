// SPDX-License-Identifier: MIT
//! The server: one page and its answers, on the loopback address alone.
//!
//! Whatever comes in is bounded: how many connections, how long a head and a body may take and be, how much work goes on
//! at once, how long a connection lives. Bodies are read whole before any work begins.

use super::access::{self, Refusal};
use super::answer::Session;
use super::outgoing::{Asker, Outgoing};
use super::reply::Reply;
use http_body_util::{BodyExt, Limited};
use hyper::body::{Body, Bytes, Incoming};
use hyper::header::{self, HeaderValue};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use std::convert::Infallible;
use std::io;
use std::net::TcpListener;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;
use tokio::sync::{Notify, Semaphore, oneshot};
use tokio::task::{AbortHandle, JoinHandle};
use tokio::time::{sleep, timeout};

/// The largest body that is taken, bytes: an album file has some KB, its drawings hardly more.
const LARGEST: usize = 1 << 23;
/// A browser opens six connections; these are for several tabs. Where all are taken, whoever waits longest without
/// having asked for anything gives way.
const CONNECTIONS: usize = 64;
/// A head, or a silence between two requests, takes no longer than this.
const HEAD: Duration = Duration::from_secs(10);
/// A body takes no longer than this.
const BODY: Duration = Duration::from_secs(10);
/// A connection takes no new request after this time…
const LIFE: Duration = Duration::from_mins(2);
/// …and is cut after this one more, whatever it waits for.
const GRACE: Duration = Duration::from_mins(4);
/// So many pieces of quick work go on at once, and so many long searches besides.
const QUICK: usize = 2;
const LONG: usize = 1;

/// What a page may load and do: its own files, pictures that it was sent, and nothing else.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; \
    base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What all connections share.
struct Shared {
    session: Session,
    token: String,
    port: u16,
    quick: Arc<Semaphore>,
    long: Arc<Semaphore>,
    ended: Notify,
}

/// Serves the table on a listener that is bound to 127.0.0.1, to whoever knows `token`, until the page asks to end.
///
/// # Errors
/// The system's, and [`io::ErrorKind::InvalidInput`] for a listener that others could reach.
pub fn serve(listener: TcpListener, token: String, session: Session) -> io::Result<()> {
    let at = listener.local_addr()?;
    if at.ip() != std::net::Ipv4Addr::LOCALHOST {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "the table is for this machine alone"));
    }
    listener.set_nonblocking(true)?;
    let shared = Shared {
        session,
        token,
        port: at.port(),
        quick: Arc::new(Semaphore::new(QUICK)),
        long: Arc::new(Semaphore::new(LONG)),
        ended: Notify::new(),
    };
    let runtime = tokio::runtime::Builder::new_current_thread()
        .max_blocking_threads(QUICK + LONG)
        .enable_io()
        .enable_time()
        .build()?;
    runtime.block_on(accept(listener, Arc::new(shared)))
}

async fn accept(listener: TcpListener, shared: Arc<Shared>) -> io::Result<()> {
    let listener = tokio::net::TcpListener::from_std(listener)?;
    let mut guests: Vec<(Arc<Guest>, AbortHandle)> = Vec::new();
    loop {
        let taken = tokio::select! {
            taken = listener.accept() => taken,
            () = shared.ended.notified() => {
                // The last answer still goes out.
                sleep(Duration::from_millis(200)).await;
                return Ok(());
            }
        };
        let Ok((stream, _)) = taken else {
            // Out of handles, or the other side went away: neither ends the table.
            sleep(Duration::from_millis(20)).await;
            continue;
        };
        let _ = stream.set_nodelay(true);
        guests.retain(|(_, task)| !task.is_finished());
        // Who is being answered is let be: it knows the word. So many of them are no one's but the page's own.
        if guests.len() >= CONNECTIONS && !make_room(&mut guests) {
            continue;
        }
        let shared = Arc::clone(&shared);
        let guest = Arc::new(Guest::default());
        let itself = Arc::clone(&guest);
        let task = tokio::spawn(async move {
            let service = service_fn(move |request| answer(Arc::clone(&shared), Arc::clone(&itself), request));
            let connection = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(HEAD)
                .max_buf_size(16 * 1024)
                .max_headers(64)
                .serve_connection(TokioIo::new(stream), service);
            let mut connection = std::pin::pin!(connection);
            if timeout(LIFE, connection.as_mut()).await.is_err() {
                connection.as_mut().graceful_shutdown();
                let _ = timeout(GRACE, connection).await;
            }
        });
        guests.push((guest, task.abort_handle()));
    }
}

/// What is known of whoever holds a connection.
#[derive(Default)]
struct Guest {
    /// It has known the word.
    known: AtomicBool,
    /// It is being answered.
    asks: Arc<AtomicBool>,
}

/// Cuts the oldest connection that nothing is asked on, strangers' first; says whether there was one.
fn make_room(guests: &mut Vec<(Arc<Guest>, AbortHandle)>) -> bool {
    let idle = |known: bool| {
        guests.iter().position(|(guest, _)| {
            !guest.asks.load(Ordering::Relaxed) && (known || !guest.known.load(Ordering::Relaxed))
        })
    };
    let Some(at) = idle(false).or_else(|| idle(true)) else { return false };
    guests.remove(at).1.abort();
    true
}

async fn answer(
    shared: Arc<Shared>,
    guest: Arc<Guest>,
    request: Request<Incoming>,
) -> Result<Response<Outgoing>, Infallible> {
    let head = *request.method() == Method::HEAD;
    let asker = Asker { gone: Arc::default(), asks: Arc::clone(&guest.asks) };
    let (mut reply, rest) = reply(&shared, &guest, &asker.gone, request).await;
    let body = std::mem::take(&mut reply.body);
    let mut response = Response::new(match rest {
        Some(rest) => Outgoing::begun(body, rest, asker),
        None => Outgoing::whole(if head { Vec::new() } else { body }, asker),
    });
    *response.status_mut() = StatusCode::from_u16(reply.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_TYPE, reply.kind),
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (header::CACHE_CONTROL, "no-store"),
        (header::HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (header::HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if reply.status >= 400 {
        // What is left of a refused body is not read.
        headers.insert(header::CONNECTION, HeaderValue::from_static("close"));
    }
    if reply.ends {
        shared.ended.notify_one();
    }
    Ok(response)
}

/// What is answered; with it, where that is its first line alone, what the rest comes from.
type Begun = (Reply, Option<JoinHandle<Reply>>);

async fn reply(shared: &Arc<Shared>, guest: &Guest, gone: &Arc<AtomicBool>, request: Request<Incoming>) -> Begun {
    let (name, bytes) = match asked(shared, guest, request).await {
        Ok(asked) => asked,
        Err(reply) => return (reply, None),
    };
    let gate = if Session::is_long(&name) { &shared.long } else { &shared.quick };
    let Ok(turn) = Arc::clone(gate).acquire_owned().await else {
        return (Reply::word(503, "program-ends"), None);
    };
    let (worker, gone) = (Arc::clone(shared), Arc::clone(gone));
    let (first, line) = oneshot::channel();
    let work = move || {
        let mut first = Some(first);
        let mut tell = |line: String| {
            if let Some(first) = first.take() {
                let _ = first.send(line);
            }
        };
        let reply = worker.session.answer(&name, &bytes, &gone, &mut tell);
        // Work that nobody waits for any more keeps its turn until it is done.
        drop(turn);
        reply
    };
    let done = tokio::task::spawn_blocking(work);
    match line.await {
        Ok(line) => (Reply::first(line), Some(done)),
        // Everything is answered at once.
        Err(_) => (done.await.unwrap_or_else(|_| Reply::failed()), None),
    }
}

/// What is asked for, and the body; else why it is not answered.
async fn asked(shared: &Shared, guest: &Guest, request: Request<Incoming>) -> Result<(String, Bytes), Reply> {
    let uri = request.uri();
    let name = match access::check(request.headers(), uri.path(), shared.port, &shared.token) {
        // A request that names a host on its first line, too, is for a go-between, which this is not.
        _ if uri.authority().is_some() => return Err(Reply::refused(Refusal::Host)),
        Ok(name) => name.to_owned(),
        Err(refusal) => return Err(Reply::refused(refusal)),
    };
    guest.known.store(true, Ordering::Relaxed);
    guest.asks.store(true, Ordering::Relaxed);
    let body = match *request.method() {
        Method::GET | Method::HEAD => return Err(Reply::page(&name)),
        Method::POST => request.into_body(),
        _ => return Err(Reply::word(405, "not-done-here")),
    };
    let too_large = || Reply::word(413, "question-too-large");
    if body.size_hint().lower() > LARGEST as u64 {
        return Err(too_large());
    }
    match timeout(BODY, Limited::new(body, LARGEST).collect()).await {
        Ok(Ok(collected)) => Ok((name, collected.to_bytes())),
        Ok(Err(error)) if error.is::<http_body_util::LengthLimitError>() => Err(too_large()),
        Ok(Err(_)) => Err(Reply::word(400, "question-broke-off")),
        Err(_) => Err(Reply::word(408, "question-too-slow")),
    }
}
