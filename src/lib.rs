// SPDX-License-Identifier: MIT
//! From the description of one folded-card photo album to every sheet, cut and score it needs.
//!
//! The way goes in one direction, each stage taking the value before it: [`album`] (the file, checked) →
//! [`parts`] (nets of panels and folds) → [`fit`] (does it go together?) → [`sheets`] and [`layout`] (the
//! fewest sheets) → [`toolpath`] (draw, score, cut) → [`mod@write`] (files); [`sizes`] tries other sizes of page. [`work`]
//! does it all in two calls:
//!
//! ```
//! use hingeleaf::{album, cutter::Cutter, fields::Source, layout, parts, sheets::Search, toolpath::Labels, work::{Files, Work}, write::Memory};
//!
//! let text = r#"{
//!     "format": "hingeleaf-album/1",
//!     "page": { "width": "148 mm", "height": "190 mm" },
//!     "pages": [{ "kind": "pocket" }, { "kind": "pocket" }]
//! }"#;
//! let source = Source::new("two-pages.json", text.into()).unwrap();
//! let album = album::read(&source, &parts::kinds()).value.ok_or("the file has problems")?;
//!
//! let search = Search { effort: layout::Effort::Low, trimmer: false, threads: 1 };
//! let work = Work::new(album, Cutter::default(), Labels::Hidden, search, &layout::Unwatched);
//! assert!(!work.stopped());
//! assert_eq!(work.kit.parts[0].flat.height, 190.0 + 12.0); // a page piece and its seam
//!
//! let mut files = Memory::default();
//! work.write(&Files::of(&["svg", "csv"]), &mut files)?;
//! assert!(files.files.contains_key("sheets/card-01.svg"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! [`layout`] and [`net`] are of use by themselves, and show so in examples of their own. Findings say what is wrong as data;
//! [`words`] puts them into sentences.
//!
//! Inside the geometry a length is an `f64` in millimetres; the outside world meets [`length::Length`].

pub mod album;
pub mod batch;
pub mod contour;
pub mod cost;
pub mod coupon;
pub mod cutter;
pub mod drawer;
pub mod editions;
pub mod exact;
pub mod fields;
pub mod finding;
pub mod fit;
pub mod folded;
pub mod guide;
pub mod kind_file;
pub mod kind_trial;
pub mod labels;
pub mod layout;
pub mod length;
pub mod mend;
pub mod net;
pub mod outline;
pub mod paper;
pub mod parts;
pub mod picture;
pub mod prepress;
pub mod raster;
pub mod selling;
pub mod sheets;
pub mod sizes;
pub mod stock;
pub mod table;
pub mod templates;
pub mod toolpath;
pub mod trial;
pub mod usable;
pub mod words;
pub mod work;
pub mod write;
