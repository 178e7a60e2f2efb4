// SPDX-License-Identifier: MIT
//! `"edges"` of a page or an insert: free edges cut in a pattern, corners rounded or clipped, rows of cuts.
//!
//! ```json
//! "edges": [
//!   { "on": "pocket/mouth", "finish": "scallop", "size": "8 mm", "depth": "3 mm" },
//!   { "on": "front", "corners": "rounded", "size": "5 mm" }
//! ]
//! ```
//!
//! Which edges there are is known once the parts are: `parts` takes the name apart.

use crate::fields::{Fallback, Field, Key, Nested, Node, Reader, Text, Values, needed, object_schema, rule, words};
use crate::finding::{Arg, Said};
use crate::length::{Length, Units};
use serde_json::{Value, json};

words! {
    /// What becomes of a straight edge.
    pub enum FinishWord {
        /// Half-round tongues side by side.
        Scallop = "scallop",
        /// Arcs that run into each other.
        Wave = "wave",
        /// Teeth.
        Zigzag = "zigzag",
        /// As if torn.
        Deckle = "deckle",
        /// One notch in its middle.
        Notch = "notch",
        /// It stays straight, with a row of cuts along it.
        Perforated = "perforated",
        /// It stays straight, with a row of cuts square to it.
        Slits = "slits",
    }
}

words! {
    /// What becomes of a corner.
    pub enum CornerWord {
        /// An arc that runs into both edges.
        Rounded = "rounded",
        /// Cut straight across.
        Clipped = "clipped",
    }
}

const ON: Key<Text> =
    Key::text("on", needed(), "the edge: piece, panel and side, as in \"pocket/mouth\"; with corners, the piece");
const FINISH: Key<Option<FinishWord>> = Key::choice("finish", rule("none"), "what the edge is cut to");
const CORNERS: Key<Option<CornerWord>> =
    Key::choice("corners", rule("left as they are"), "what its corners are cut to");
/// Length of a repeat, or what a corner loses along either edge.
pub(crate) const EDGE_SIZE: Key<Option<Length>> = Key::length(
    "size",
    rule("what is usual: 8 mm or 5/16 in for a scallop, 20 mm or 3/4 in for a notch, 5 mm or 3/16 in for a corner"),
    "length of one repeat, which is fitted to the edge; width of a notch; what a corner loses along either edge",
)
.within(1.0, 200.0);
/// How deep a pattern is cut.
pub(crate) const EDGE_DEPTH: Key<Option<Length>> = Key::length(
    "depth",
    rule("what suits the size"),
    "how far the pattern is cut into the card; how far a row of cuts is from the edge",
)
.within(0.2, 100.0);

/// The fields of one of them.
pub(crate) const EDGE_FIELDS: &[Field] = &[ON.field, FINISH.field, CORNERS.field, EDGE_SIZE.field, EDGE_DEPTH.field];

/// The field of a page or an insert.
pub(crate) const EDGES: Key<Nested> = Key::nested(
    "edges",
    "a list of objects with on, and finish or corners",
    Fallback::Rule("straight, as they are"),
    "how its free edges and corners are cut",
);

/// What is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgeDone {
    /// To an edge.
    Edge(FinishWord),
    /// To corners.
    Corners(CornerWord),
}

/// One entry of `edges`.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct AskedEdge {
    /// Where, as the file says it.
    pub on: String,
    /// What.
    pub done: EdgeDone,
    /// Length of a repeat, or what a corner loses.
    pub size: Length,
    /// How deep; none where it is to suit the size.
    pub depth: Option<Length>,
    /// The way to it in the file: `pages[1].edges[0]`.
    pub path: String,
    /// Where the file says so.
    pub values: Values,
}

impl EdgeDone {
    /// The size that holds where none is said: common practice for notches, else our choice.
    const fn usual(self) -> (f64, f64) {
        match self {
            Self::Edge(FinishWord::Scallop) => (8.0, 0.3125),
            Self::Edge(FinishWord::Wave) => (12.0, 0.5),
            Self::Edge(FinishWord::Zigzag) => (6.0, 0.25),
            Self::Edge(FinishWord::Notch) => (20.0, 0.75),
            Self::Edge(FinishWord::Deckle | FinishWord::Perforated) => (3.0, 0.125),
            Self::Edge(FinishWord::Slits) | Self::Corners(_) => (5.0, 0.1875),
        }
    }
}

impl AskedEdge {
    /// Where the file says which edge it is.
    #[must_use]
    pub fn place(&self) -> Option<&crate::finding::Place> {
        self.values.place(ON)
    }
}

/// Reads the list; every problem is told by the reader.
pub(super) fn read(reader: &mut Reader<'_>, node: &Node, path: &str) -> Vec<AskedEdge> {
    let path = format!("{path}.{}", EDGES.name());
    let list = reader.list(node, &path, EDGES.name());
    list.iter().enumerate().filter_map(|(index, node)| one(reader, node, format!("{path}[{index}]"))).collect()
}

fn one(reader: &mut Reader<'_>, node: &Node, path: String) -> Option<AskedEdge> {
    let values = reader.object(node, &path, Said::new("an-edge"), &[EDGE_FIELDS])?;
    let place = values.whole().cloned()?;
    let done = match (values.get(FINISH), values.get(CORNERS)) {
        (Some(finish), None) => EdgeDone::Edge(finish),
        (None, Some(corners)) => EdgeDone::Corners(corners),
        // A word that can't be read is told already.
        _ if [FINISH.name(), CORNERS.name()]
            .iter()
            .any(|name| node.get(name).is_some() && values.value(name).is_none()) =>
        {
            return None;
        }
        (finish, _) => {
            let key = if finish.is_some() { "edge-two-things" } else { "edge-nothing" };
            let field = |name: &'static str| Arg::field(name);
            let help = Said::new("edge-what-help");
            let help = help.with("finish", field(FINISH.name())).with("corners", field(CORNERS.name()));
            reader.problem("edge-what", Said::new(key), help, &place);
            return None;
        }
    };
    if matches!(done, EdgeDone::Corners(_)) && values.says(EDGE_DEPTH) {
        let place = values.place(EDGE_DEPTH).cloned().unwrap_or(place);
        reader.problem("edge-what", Said::new("corner-depth"), Said::new("corner-depth-help"), &place);
    }
    let (mm, inch) = done.usual();
    let usual = if reader.units == Units::In { Length::from_inches(inch) } else { Length::from_mm(mm) };
    let size = values.get(EDGE_SIZE).unwrap_or(usual);
    let (on, depth) = (values.get(ON).to_owned(), values.get(EDGE_DEPTH));
    Some(AskedEdge { on, done, size, depth, path, values })
}

/// What a file may say, as a JSON Schema.
pub(crate) fn schema() -> Value {
    json!({ "type": "array", "items": object_schema(&[EDGE_FIELDS], &[]) })
}
