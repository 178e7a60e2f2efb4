// SPDX-License-Identifier: MIT
//! Tags: pairs of a group code and a value, of which all of a DXF file is made; and what many of them share: handles, owners,
//! classes, which R12 has not.

use crate::contour::Point;
use crate::cutter::{Colours, DxfLayers, Forms, colour_parts, nearest_index};
use crate::toolpath::Layer;
use crate::write::frame::Frame;
use crate::write::layers::{layer_colour, layer_name};
use crate::write::number::text;
use std::fmt::{Display, Write};

/// Millimetres to a thousandth of a micrometre, y up.
pub(super) const FRAME: Frame = Frame { scale: 1.0, decimals: 6, down_from: None };

/// A file that is being written.
pub(super) struct DxfFile {
    pub(super) body: String,
    /// R12: no handles, no subclass markers, no objects.
    pub(super) old: bool,
    /// From R2004 on a layer can carry its colour exactly.
    pub(super) true_colour: bool,
    pub(super) next: u32,
    /// Handle of the model space's block record.
    pub(super) space: u32,
    /// What tells layers apart, and what lines are.
    pub(super) forms: Forms,
    /// The colours of what is drawn, by layer.
    pub(super) colours: Colours,
    /// Arcs as cubic curves, which R12 has not.
    pub(super) cubics: bool,
}

impl DxfFile {
    pub(super) fn put(&mut self, code: u16, value: impl Display) {
        let _ = write!(self.body, "{code}\r\n{value}\r\n");
    }

    pub(super) fn real(&mut self, code: u16, value: f64) {
        // Bulges to what tells apart a hair in a metre.
        let decimals = if code == 42 { 12 } else { FRAME.decimals };
        self.fine(code, value, decimals);
    }

    /// A number with so many decimals.
    pub(super) fn fine(&mut self, code: u16, value: f64, decimals: u32) {
        let number = text(value, decimals);
        self.put(code, number);
    }

    pub(super) fn point(&mut self, code: u16, at: Point) {
        self.real(code, at.x);
        self.real(code + 10, at.y);
        self.real(code + 20, 0.0);
    }

    pub(super) fn section(&mut self, name: &str, inside: impl FnOnce(&mut Self)) {
        self.put(0, "SECTION");
        self.put(2, name);
        inside(self);
        self.put(0, "ENDSEC");
    }

    /// A new handle, none in R12.
    pub(super) fn handle(&mut self, code: u16) -> u32 {
        let handle = self.next;
        if !self.old {
            self.next += 1;
            self.put(code, format_args!("{handle:X}"));
        }
        handle
    }

    pub(super) fn owner(&mut self, owner: u32) {
        if !self.old {
            self.put(330, format_args!("{owner:X}"));
        }
    }

    pub(super) fn subclass(&mut self, name: &str) {
        if !self.old {
            self.put(100, name);
        }
    }

    pub(super) fn table(&mut self, name: &str, count: usize, rows: impl FnOnce(&mut Self, u32)) {
        self.put(0, "TABLE");
        self.put(2, name);
        let handle = self.handle(5);
        self.owner(0);
        self.subclass("AcDbSymbolTable");
        self.put(70, count);
        if name == "DIMSTYLE" {
            self.subclass("AcDbDimStyleTable");
            if !self.old {
                self.put(71, 0);
            }
        }
        rows(self, handle);
        self.put(0, "ENDTAB");
    }

    pub(super) fn row(&mut self, table: &str, owner: u32, class: &str, name: &str) -> u32 {
        self.put(0, table);
        // The one table whose rows carry their handle under another code.
        let handle = self.handle(if table == "DIMSTYLE" { 105 } else { 5 });
        self.owner(owner);
        self.subclass("AcDbSymbolTableRecord");
        self.subclass(class);
        self.put(2, name);
        handle
    }

    pub(super) fn entity(&mut self, kind: &str, layer: &str, owner: u32) {
        self.put(0, kind);
        self.handle(5);
        self.owner(owner);
        self.subclass("AcDbEntity");
        self.put(8, layer);
    }

    /// What is drawn: on the layer of its name, or on the only one, in its layer's colour.
    pub(super) fn drawn(&mut self, kind: &str, layer: Option<Layer>) {
        let space = self.space;
        if self.forms.dxf_layers != DxfLayers::Colours {
            self.entity(kind, layer_name(layer), space);
            return;
        }
        self.entity(kind, "0", space);
        let colour = layer_colour(layer, &self.colours);
        let (number, exact) = (nearest_index(colour), colour_parts(colour));
        self.colour(number, exact);
    }

    /// A numbered colour, and the exact one where the version knows it.
    pub(super) fn colour(&mut self, number: u8, exact: Option<[u8; 3]>) {
        self.put(62, number);
        if let (true, Some([red, green, blue])) = (self.true_colour && !self.old, exact) {
            self.put(420, u32::from_be_bytes([0, red, green, blue]));
        }
    }
}
