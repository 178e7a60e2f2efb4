// SPDX-License-Identifier: MIT
//! What a file asks of a drawing: `"outline": { "file": "cloud.svg", "width": "80 mm" }`.

use super::DrawnShape;
use crate::fields::{Fallback, Field, Key, Nested, Node, Reader, Source, Text, needed, object_schema, rule, words};
use crate::finding::{Arg, Finding, Place};
use crate::length::{Length, MM_PER_INCH, Units};
use std::sync::Arc;

words! {
    /// The unit of a drawing's numbers.
    pub enum DrawnUnit {
        /// Millimetres.
        Mm = "mm",
        /// Centimetres.
        Cm = "cm",
        /// Inches.
        In = "in",
        /// 96 of them are an inch.
        Px = "px",
    }
}

words! {
    /// Which way the scores of a drawing are folded, seen from the front.
    pub enum ScoredAs {
        /// Its sides rise towards you.
        Valley = "valley",
        /// They fall away.
        Mountain = "mountain",
        /// It works both ways.
        Both = "both",
    }
}

const FILE: Key<Text> = Key::text("file", needed(), "the drawing, SVG or DXF");
const UNIT: Key<Option<DrawnUnit>> = Key::choice("unit", rule("as the drawing says"), "the unit of its numbers");
/// The width that a drawing is to have.
pub const WIDTH: Key<Option<Length>> =
    Key::size("width", rule("as it is drawn"), "how wide it is to be; it is scaled to that");
/// The height that a drawing is to have.
pub const HEIGHT: Key<Option<Length>> =
    Key::size("height", rule("as it is drawn"), "how tall it is to be; it is scaled to that");
const LAYER: Key<Option<Text>> =
    Key::text("layer", rule("all that is drawn"), "the layer or group that the outline and its holes stand in");
const SCORES: Key<Option<Text>> = Key::text("scores", rule("none"), "the layer or group that its scores stand in");
const FOLD: Key<ScoredAs> = Key::choice("fold", ScoredAs::Valley.usual(), "which way its scores are folded");

/// The fields of such an object.
pub(crate) const OUTLINE_FIELDS: &[Field] =
    &[FILE.field, UNIT.field, WIDTH.field, HEIGHT.field, LAYER.field, SCORES.field, FOLD.field];

/// The field of an entry that is as a drawing shows it.
pub const OUTLINE: Key<Nested> = Key::nested(
    "outline",
    "{ … } with file, and width or unit",
    Fallback::Rule("a cloud of 80 mm or 3 in"),
    "the drawing, SVG or DXF, that shows its outline",
);

/// An outline of an entry: what is asked of its drawing, and the shape once that is read.
#[derive(Clone, Debug)]
pub struct Outlined {
    /// What is asked.
    pub asked: AskedOutline,
    /// The shape; none as long as nobody read the drawing.
    pub shape: Option<Arc<DrawnShape>>,
    /// The drawing that it was read from.
    pub drawing: Option<Arc<Source>>,
}

/// What is asked of a drawing.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct AskedOutline {
    /// The drawing's name, to be found from the folder of the file that asks.
    pub file: String,
    /// The unit of its numbers, where it is not to be as the drawing says.
    pub unit: Option<DrawnUnit>,
    /// How wide it is to be.
    pub width: Option<Length>,
    /// How tall it is to be.
    pub height: Option<Length>,
    /// The layer that it stands in.
    pub layer: Option<String>,
    /// The layer that its scores stand in.
    pub scores: Option<String>,
    /// Which way they are folded.
    pub fold: ScoredAs,
    /// The units of the file that asks; findings speak in them.
    pub units: Units,
    /// Where it asks; nothing where no file does.
    pub place: Option<Place>,
    /// Where it names the drawing, which is found from there: a batch may change that alone.
    pub named: Option<Place>,
    /// Where it asks for a width, and for a height; its own place where it doesn't.
    pub sizes: [Option<Place>; 2],
}

impl DrawnUnit {
    pub(super) const fn mm(self) -> f64 {
        match self {
            Self::Mm => 1.0,
            Self::Cm => 10.0,
            Self::In => MM_PER_INCH,
            Self::Px => MM_PER_INCH / 96.0,
        }
    }
}

impl AskedOutline {
    /// A drawing of this name, as it says itself.
    pub fn of(file: impl Into<String>) -> Self {
        Self {
            file: file.into(),
            unit: None,
            width: None,
            height: None,
            layer: None,
            scores: None,
            fold: ScoredAs::Valley,
            units: Units::Mm,
            place: None,
            named: None,
            sizes: [None, None],
        }
    }

    /// The width or height that it is to have, by the field's name.
    #[must_use]
    pub fn side(&self, field: &str) -> Option<Length> {
        if field == WIDTH.name() { self.width } else { self.height.filter(|_| field == HEIGHT.name()) }
    }

    /// The same in a unit.
    #[must_use]
    pub const fn in_unit(mut self, unit: DrawnUnit) -> Self {
        self.unit = Some(unit);
        self
    }

    /// The same so many mm wide.
    #[must_use]
    pub fn wide(mut self, mm: f64) -> Self {
        self.width = Some(Length::from_mm(mm));
        self
    }

    /// The same with its scores in a layer.
    #[must_use]
    pub fn scored(mut self, layer: impl Into<String>) -> Self {
        self.scores = Some(layer.into());
        self
    }

    /// The same with its outline in a layer.
    #[must_use]
    pub fn on_layer(mut self, layer: impl Into<String>) -> Self {
        self.layer = Some(layer.into());
        self
    }
}

impl Outlined {
    /// Reads the shape from its drawing; all that there is to say of that comes back.
    pub fn draw(&mut self, drawing: Arc<Source>) -> Vec<Finding> {
        let found = super::read(&drawing, &self.asked);
        self.shape = found.value.map(Arc::new);
        self.drawing = Some(drawing);
        found.findings
    }

    /// Whether the same is asked of the same drawing.
    #[must_use]
    pub fn asks_like(&self, other: &Self) -> bool {
        let all = |one: &Self| {
            let AskedOutline { file, unit, width, height, layer, scores, .. } = one.asked.clone();
            (file, unit, width, height, layer, scores)
        };
        all(self) == all(other)
    }
}

/// Reads such an object; every problem is told by the reader.
pub fn asked(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<AskedOutline> {
    let values = reader.object(node, path, Arg::field("outline"), &[OUTLINE_FIELDS])?;
    Some(AskedOutline {
        file: values.get(FILE).to_owned(),
        unit: values.get(UNIT),
        width: values.get(WIDTH),
        height: values.get(HEIGHT),
        layer: values.get(LAYER).map(str::to_owned),
        scores: values.get(SCORES).map(str::to_owned),
        fold: values.get(FOLD),
        units: reader.units,
        place: values.whole().cloned(),
        named: values.place(FILE).cloned(),
        sizes: [values.place(WIDTH).cloned(), values.place(HEIGHT).cloned()],
    })
}

/// What a file may say, as a JSON Schema.
pub(crate) fn schema() -> serde_json::Value {
    object_schema(&[OUTLINE_FIELDS], &[])
}
