// SPDX-License-Identifier: MIT
//! Who is answered: this machine's own page, which knows the word of this run, and nobody else.
//!
//! A page from elsewhere can send requests to a server on this machine through its visitor's browser, under a name of its
//! own that leads here. So the host that was asked for, the page that asks, and a word that changes with every run must
//! all be right before anything else is looked at.

use hyper::HeaderMap;
use hyper::header::{HOST, ORIGIN};
use std::fmt::Write;
use std::io;

/// Why a request is refused; the words go to whoever sent it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Refusal {
    /// It was sent to another name than ours.
    Host,
    /// Another page sent it.
    Origin,
    /// It does not know the word of this run.
    Token,
}

/// A word for one run: 128 bits from the system's randomness, as 32 hexadecimal digits.
///
/// # Errors
/// The system's, where it has none to give.
pub fn token() -> io::Result<String> {
    let mut bytes = [0_u8; 16];
    getrandom::fill(&mut bytes).map_err(|error| io::Error::other(error.to_string()))?;
    Ok(bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    }))
}

/// Takes a request's path apart: what is asked for, where the request may be answered.
pub(super) fn check<'p>(headers: &HeaderMap, path: &'p str, port: u16, token: &str) -> Result<&'p str, Refusal> {
    let ours = format!("127.0.0.1:{port}");
    let all = |name| headers.get_all(name).iter().map(|value| value.to_str().unwrap_or_default());
    if !all(HOST).eq([ours.as_str()]) {
        return Err(Refusal::Host);
    }
    let here = format!("http://{ours}");
    // Browsers say so of every request that a page makes, and of each link that is followed from one.
    let sites = all(hyper::header::HeaderName::from_static("sec-fetch-site"));
    if !all(ORIGIN).all(|origin| origin == here)
        || !sites.into_iter().all(|site| matches!(site, "same-origin" | "none"))
    {
        return Err(Refusal::Origin);
    }
    let (said, rest) = path.strip_prefix('/').and_then(|path| path.split_once('/')).ok_or(Refusal::Token)?;
    if same(said.as_bytes(), token.as_bytes()) { Ok(rest) } else { Err(Refusal::Token) }
}

/// Whether two words are the same, in a time that does not tell how much of them is.
fn same(one: &[u8], other: &[u8]) -> bool {
    one.len() == other.len() && one.iter().zip(other).fold(0, |apart, (a, b)| apart | (a ^ b)) == 0
}
