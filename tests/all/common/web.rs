// SPDX-License-Identifier: MIT
//! The table as a program of its own, and requests to it written byte by byte.
#![allow(dead_code, reason = "every test file uses its own share of this")]

use super::TempDir;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Cursor, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// A running table.
#[derive(Debug)]
pub(crate) struct Table {
    pub child: Child,
    pub port: u16,
    pub token: String,
    /// Where it runs; it is to stay empty.
    pub folder: TempDir,
}

/// An answer.
#[derive(Debug)]
pub(crate) struct Reply {
    pub status: u16,
    /// The head, in small letters.
    pub head: String,
    pub body: Vec<u8>,
}

/// The files of a zip.
pub(crate) fn unzipped(bytes: &[u8]) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut taken = BTreeMap::new();
    for number in 0..zip.len() {
        let mut file = zip.by_index(number).unwrap();
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).unwrap();
        taken.insert(PathBuf::from(file.name().unwrap().into_owned()), bytes);
    }
    taken
}

impl Reply {
    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    /// The files of a zip.
    #[track_caller]
    pub(crate) fn unzipped(&self) -> BTreeMap<PathBuf, Vec<u8>> {
        assert_eq!(self.status, 200, "{}", self.text());
        unzipped(&self.body)
    }

    #[track_caller]
    pub(crate) fn json(&self) -> Value {
        assert_eq!(self.status, 200, "{}", self.text());
        serde_json::from_slice(&self.body).unwrap_or_else(|error| panic!("{error}: {}", self.text()))
    }
}

impl Table {
    pub(crate) fn start() -> Self {
        Self::start_with(&[])
    }

    pub(crate) fn start_with(words: &[&str]) -> Self {
        let folder = TempDir::new("table");
        let mut child = Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
            .args(["table", "--no-browser"])
            .args(words)
            .current_dir(folder.path())
            .env("HOME", folder.path())
            .env("TMPDIR", folder.path())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let rest = line.trim().strip_prefix("http://127.0.0.1:").unwrap_or_else(|| panic!("no address: {line}"));
        let (port, token) = rest.trim_end_matches('/').split_once('/').unwrap();
        let (port, token) = (port.parse().unwrap(), token.to_owned());
        Self { child, port, token, folder }
    }

    pub(crate) fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream.set_read_timeout(Some(Duration::from_mins(1))).unwrap();
        stream
    }

    /// Sends bytes as they are, and reads whatever comes until the other side ends.
    pub(crate) fn send(&self, bytes: &[u8]) -> Reply {
        let mut stream = self.connect();
        // Who is refused may find the line closed before all is sent.
        let _ = stream.write_all(bytes);
        reply(&mut stream)
    }

    /// The host that the program is asked for.
    pub(crate) fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port)
    }

    pub(crate) fn get(&self, path: &str) -> Reply {
        let host = self.host();
        self.send(format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").as_bytes())
    }

    pub(crate) fn post(&self, name: &str, body: &[u8]) -> Reply {
        let (host, token) = (self.host(), &self.token);
        let head = format!(
            "POST /{token}/{name} HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nConnection: close\r\nContent-Length: {}\r\n\r\n",
            body.len()
        );
        self.send(&[head.as_bytes(), body].concat())
    }

    /// What follows from a text with a change.
    pub(crate) fn work(&self, text: &str, change: &Value) -> Value {
        let mut question = json!({ "name": "a.json", "text": text });
        if !change.is_null() {
            question["change"] = change.clone();
        }
        self.post("work", question.to_string().as_bytes()).json()
    }

    /// Memory that the program holds, MiB; none where the system does not tell.
    pub(crate) fn memory(&self) -> Option<f64> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).ok()?;
        let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
        line.split_whitespace().nth(1)?.parse::<f64>().ok().map(|kilobytes| kilobytes / 1024.0)
    }

    pub(crate) fn is_alive(&mut self) -> bool {
        self.child.try_wait().unwrap().is_none()
    }
}

impl Drop for Table {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Reads one answer to the end of the connection.
pub(crate) fn reply(stream: &mut TcpStream) -> Reply {
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes);
    let end = bytes.windows(4).position(|four| four == b"\r\n\r\n").map_or(bytes.len(), |at| at + 4);
    let head = String::from_utf8_lossy(&bytes[..end]).to_lowercase();
    let status = head.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0);
    let body =
        if head.contains("\r\ntransfer-encoding: chunked\r\n") { whole(&bytes[end..]) } else { bytes[end..].to_vec() };
    Reply { status, head, body }
}

/// A body that came in chunks (RFC 9112, 7.1).
fn whole(mut chunks: &[u8]) -> Vec<u8> {
    let mut body = Vec::new();
    while let Some(end) = chunks.windows(2).position(|two| two == b"\r\n") {
        let size = usize::from_str_radix(&String::from_utf8_lossy(&chunks[..end]), 16).unwrap();
        body.extend(&chunks[end + 2..end + 2 + size]);
        chunks = &chunks[end + 2 + size + 2..];
        if size == 0 {
            break;
        }
    }
    body
}
