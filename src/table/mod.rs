// SPDX-License-Identifier: MIT
//! The table: the same tool as a page that this program serves on its own machine.
//!
//! In: an album's text from the browser, or none. Out: answers in JSON and files, over the loopback address alone.
//! Never: reads or writes a file, asks anything of another machine, holds a rule about albums: it puts into words for the
//! page what the library's calls say, and changes the album's text as the page asks for.

mod access;
mod album;
mod answer;
mod assets;
mod batch;
mod beside;
mod change;
mod compare;
mod drawer;
mod drawn;
mod edges;
mod edit;
mod example;
mod form;
mod groups;
mod hand;
mod handed;
mod kinds;
mod likeness;
mod machine;
mod named;
mod numbers;
mod on_table;
mod open;
mod outgoing;
mod parts_list;
mod pictures;
mod question;
mod read;
mod reply;
mod said;
mod server;
mod sheets;
mod sizes;
mod tables;
mod taken;
mod terms;
mod units;
mod words;

pub use access::token;
pub use answer::Session;
pub use likeness::text_of;
pub use named::{beside_of, brought, drawings, names, unfolded};
pub use open::{LaidFile, Opened};
pub use server::serve;
