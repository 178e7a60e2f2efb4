// SPDX-License-Identifier: MIT
//! A sheet as DXF: three layers, closed contours as polylines with bulges, plain ASCII, CR LF.
//!
//! Source of every group code: the published DXF Reference, HEADER, TABLES, BLOCKS, ENTITIES, OBJECTS.

use super::colour;
use super::frame::Frame;
use super::number::text;
use crate::contour::{Edge, Point, Rect, Vertex};
use crate::cutter::Cutter;
use crate::toolpath::{SheetPaths, Stroke, StrokePath};
use std::fmt::{Display, Write};

/// The versions that can be written, with the code that the file carries.
pub const DXF_BUILT: &[(&str, &str)] = &[
    ("R12", "AC1009"),
    ("R2000", "AC1015"),
    ("R2004", "AC1018"),
    ("R2007", "AC1021"),
    ("R2010", "AC1024"),
    ("R2013", "AC1027"),
    ("R2018", "AC1032"),
];

/// One sheet as a DXF file, in millimetres, y up.
#[must_use]
pub fn dxf(sheet: &SheetPaths, cutter: &Cutter) -> String {
    let (name, code) = DXF_BUILT.iter().copied().find(|(name, _)| *name == cutter.dxf_version).unwrap_or(DXF_BUILT[1]);
    let mut file = File {
        body: String::with_capacity(4096 + sheet.strokes.len() * 300),
        old: name == "R12",
        true_colour: name != "R2000",
        next: 1,
        space: 0,
    };
    file.tables(cutter);
    file.blocks();
    file.entities(sheet);
    if !file.old {
        file.objects();
    }
    let mut whole = File { body: String::new(), ..file };
    whole.header(code, sheet);
    whole.body + &file.body + "0\r\nEOF\r\n"
}

/// Millimetres to a thousandth of a micrometre, y up.
const FRAME: Frame = Frame { scale: 1.0, decimals: 6, down_from: None };

struct File {
    body: String,
    /// R12: no handles, no subclass markers, no objects.
    old: bool,
    /// From R2004 on a layer can carry its colour exactly.
    true_colour: bool,
    next: u32,
    /// Handle of the model space's block record.
    space: u32,
}

impl File {
    fn put(&mut self, code: u16, value: impl Display) {
        let _ = write!(self.body, "{code}\r\n{value}\r\n");
    }

    fn real(&mut self, code: u16, value: f64) {
        // Bulges to what tells apart a hair in a metre.
        let decimals = if code == 42 { 12 } else { FRAME.decimals };
        let number = text(value, decimals);
        self.put(code, number);
    }

    fn point(&mut self, code: u16, at: Point) {
        self.real(code, at.x);
        self.real(code + 10, at.y);
        self.real(code + 20, 0.0);
    }

    fn section(&mut self, name: &str, inside: impl FnOnce(&mut Self)) {
        self.put(0, "SECTION");
        self.put(2, name);
        inside(self);
        self.put(0, "ENDSEC");
    }

    /// A new handle, none in R12.
    fn handle(&mut self, code: u16) -> u32 {
        let handle = self.next;
        if !self.old {
            self.next += 1;
            self.put(code, format_args!("{handle:X}"));
        }
        handle
    }

    fn owner(&mut self, owner: u32) {
        if !self.old {
            self.put(330, format_args!("{owner:X}"));
        }
    }

    fn subclass(&mut self, name: &str) {
        if !self.old {
            self.put(100, name);
        }
    }

    fn header(&mut self, code: &str, sheet: &SheetPaths) {
        let drawn = drawn(sheet);
        let seed = self.next;
        let old = self.old;
        self.section("HEADER", |file| {
            file.put(9, "$ACADVER");
            file.put(1, code);
            file.put(9, "$DWGCODEPAGE");
            file.put(3, "ANSI_1252");
            for (name, at) in [("$EXTMIN", drawn.origin()), ("$EXTMAX", Point::new(drawn.x1, drawn.y1))] {
                file.put(9, name);
                file.point(10, at);
            }
            for (name, at) in [("$LIMMIN", (0.0, 0.0)), ("$LIMMAX", (sheet.width, sheet.height))] {
                file.put(9, name);
                file.real(10, at.0);
                file.real(20, at.1);
            }
            if !old {
                // Millimetres, metric.
                file.put(9, "$INSUNITS");
                file.put(70, 4);
                file.put(9, "$MEASUREMENT");
                file.put(70, 1);
                file.put(9, "$HANDSEED");
                file.put(5, format_args!("{seed:X}"));
            }
        });
    }

    fn table(&mut self, name: &str, count: usize, rows: impl FnOnce(&mut Self, u32)) {
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

    fn row(&mut self, table: &str, owner: u32, class: &str, name: &str) -> u32 {
        self.put(0, table);
        // The one table whose rows carry their handle under another code.
        let handle = self.handle(if table == "DIMSTYLE" { 105 } else { 5 });
        self.owner(owner);
        self.subclass("AcDbSymbolTableRecord");
        self.subclass(class);
        self.put(2, name);
        handle
    }

    fn tables(&mut self, cutter: &Cutter) {
        self.section("TABLES", |file| {
            if !file.old {
                file.table("VPORT", 0, |_, _| {});
            }
            file.line_types();
            file.layers(cutter);
            file.table("STYLE", 1, |file, owner| {
                file.row("STYLE", owner, "AcDbTextStyleTableRecord", "STANDARD");
                file.put(70, 0);
                for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
                    file.real(code, value);
                }
                file.put(71, 0);
                file.real(42, 2.5);
                file.put(3, "txt");
                file.put(4, "");
            });
            if file.old {
                return;
            }
            file.table("VIEW", 0, |_, _| {});
            file.table("UCS", 0, |_, _| {});
            file.table("APPID", 1, |file, owner| {
                file.row("APPID", owner, "AcDbRegAppTableRecord", "ACAD");
                file.put(70, 0);
            });
            file.table("DIMSTYLE", 1, |file, owner| {
                file.row("DIMSTYLE", owner, "AcDbDimStyleTableRecord", "STANDARD");
                file.put(70, 0);
            });
            file.table("BLOCK_RECORD", 2, |file, owner| {
                file.space = file.row("BLOCK_RECORD", owner, "AcDbBlockTableRecord", "*Model_Space");
                file.row("BLOCK_RECORD", owner, "AcDbBlockTableRecord", "*Paper_Space");
            });
        });
    }

    fn line_types(&mut self) {
        let names: &[(&str, &str, &[f64])] = if self.old {
            &[("CONTINUOUS", "Solid line", &[]), ("DASHED", "Dashed __ __ __", &[3.0, -1.5])]
        } else {
            &[
                ("ByBlock", "", &[]),
                ("ByLayer", "", &[]),
                ("CONTINUOUS", "Solid line", &[]),
                ("DASHED", "Dashed __ __ __", &[3.0, -1.5]),
            ]
        };
        self.table("LTYPE", names.len(), |file, owner| {
            for (name, words, dashes) in names {
                file.row("LTYPE", owner, "AcDbLinetypeTableRecord", name);
                file.put(70, 0);
                file.put(3, words);
                file.put(72, 65);
                file.put(73, dashes.len());
                file.real(40, dashes.iter().map(|dash| dash.abs()).sum());
                for &dash in *dashes {
                    file.real(49, dash);
                    if !file.old {
                        file.put(74, 0);
                    }
                }
            }
        });
    }

    fn layers(&mut self, cutter: &Cutter) {
        // The numbered colours nearest to the layers' own; the exact ones go along where the version knows them.
        let colours = &cutter.colours;
        let layers = [
            ("0", "#000000", "CONTINUOUS"),
            ("draw", &colours.draw, "CONTINUOUS"),
            ("score", &colours.score, "DASHED"),
            ("cut", &colours.cut, "CONTINUOUS"),
        ];
        self.table("LAYER", layers.len(), |file, owner| {
            for (name, colour, dash) in layers {
                file.row("LAYER", owner, "AcDbLayerTableRecord", name);
                file.put(70, 0);
                file.put(62, colour::nearest_index(colour));
                if let (true, false, Some([red, green, blue])) = (file.true_colour, file.old, colour::parts(colour))
                    && name != "0"
                {
                    file.put(420, u32::from_be_bytes([0, red, green, blue]));
                }
                file.put(6, dash);
            }
        });
    }

    fn blocks(&mut self) {
        if self.old {
            self.section("BLOCKS", |_| {});
            return;
        }
        let records = [("*Model_Space", self.space), ("*Paper_Space", self.space + 1)];
        self.section("BLOCKS", |file| {
            for (name, record) in records {
                file.entity("BLOCK", "0", record);
                file.put(100, "AcDbBlockBegin");
                file.put(2, name);
                file.put(70, 0);
                file.point(10, Point::ZERO);
                file.put(3, name);
                file.put(1, "");
                file.entity("ENDBLK", "0", record);
                file.put(100, "AcDbBlockEnd");
            }
        });
    }

    fn entity(&mut self, kind: &str, layer: &str, owner: u32) {
        self.put(0, kind);
        self.handle(5);
        self.owner(owner);
        self.subclass("AcDbEntity");
        self.put(8, layer);
    }

    fn entities(&mut self, sheet: &SheetPaths) {
        self.section("ENTITIES", |file| {
            for stroke in &sheet.strokes {
                file.stroke(stroke);
            }
        });
    }

    fn stroke(&mut self, stroke: &Stroke) {
        let (layer, space) = (stroke.layer.name(), self.space);
        match &stroke.run {
            StrokePath::Straight(pieces) => {
                for &(from, to) in pieces.iter().filter(|(from, to)| !FRAME.meet(*from, *to)) {
                    self.entity("LINE", layer, space);
                    self.subclass("AcDbLine");
                    self.point(10, from);
                    self.point(11, to);
                }
            }
            StrokePath::Closed(contour) => {
                self.polyline(layer, &corners(contour.edges(), true), true);
            }
            StrokePath::Open(edges) => {
                self.polyline(layer, &corners(edges.iter().copied(), false), false);
            }
        }
    }

    fn polyline(&mut self, layer: &str, corners: &[Vertex], closed: bool) {
        if corners.is_empty() {
            return;
        }
        let (space, closed) = (self.space, u8::from(closed));
        if !self.old {
            self.entity("LWPOLYLINE", layer, space);
            self.subclass("AcDbPolyline");
            self.put(90, corners.len());
            self.put(70, closed);
            for corner in corners {
                self.real(10, corner.at.x);
                self.real(20, corner.at.y);
                self.real(42, corner.bulge);
            }
            return;
        }
        self.entity("POLYLINE", layer, space);
        self.put(66, 1);
        self.point(10, Point::ZERO);
        self.put(70, closed);
        for corner in corners {
            self.entity("VERTEX", layer, space);
            self.point(10, corner.at);
            self.real(42, corner.bulge);
        }
        self.entity("SEQEND", layer, space);
    }

    fn objects(&mut self) {
        let (model, paper) = (self.space, self.space + 1);
        self.section("OBJECTS", |file| {
            let first = file.next;
            let [root, group, layouts, styles, one, two, normal] = [0, 1, 2, 3, 4, 5, 6].map(|step| first + step);
            file.dictionary(
                root,
                0,
                &[("ACAD_GROUP", group), ("ACAD_LAYOUT", layouts), ("ACAD_PLOTSTYLENAME", styles)],
            );
            file.dictionary(group, root, &[]);
            file.dictionary(layouts, root, &[("Model", one), ("Layout1", two)]);
            file.put(0, "ACDBDICTIONARYWDFLT");
            file.handle(5);
            file.owner(root);
            file.put(100, "AcDbDictionary");
            file.put(281, 1);
            file.put(3, "Normal");
            file.put(350, format_args!("{normal:X}"));
            file.put(100, "AcDbDictionaryWithDefault");
            file.put(340, format_args!("{normal:X}"));
            for (name, order, record) in [("Model", 0, model), ("Layout1", 1, paper)] {
                file.layout(name, order, record, layouts);
            }
            file.put(0, "ACDBPLACEHOLDER");
            file.handle(5);
            file.owner(styles);
        });
    }

    fn dictionary(&mut self, expected: u32, owner: u32, entries: &[(&str, u32)]) {
        self.put(0, "DICTIONARY");
        let handle = self.handle(5);
        debug_assert_eq!(handle, expected);
        self.owner(owner);
        self.put(100, "AcDbDictionary");
        self.put(281, 1);
        for (name, handle) in entries {
            self.put(3, name);
            self.put(350, format_args!("{handle:X}"));
        }
    }

    fn layout(&mut self, name: &str, order: u8, record: u32, owner: u32) {
        self.put(0, "LAYOUT");
        self.handle(5);
        self.owner(owner);
        self.put(100, "AcDbPlotSettings");
        self.put(1, "");
        self.put(100, "AcDbLayout");
        self.put(1, name);
        self.put(70, 1);
        self.put(71, order);
        self.put(330, format_args!("{record:X}"));
    }
}

/// The corners of a polyline, each with the bulge of the edge that leaves it.
fn corners(edges: impl Iterator<Item = Edge>, closed: bool) -> Vec<Vertex> {
    let edges: Vec<Edge> = FRAME.edges(edges).collect();
    let end = edges.last().filter(|_| !closed).map(|edge| Vertex { at: edge.to, bulge: 0.0 });
    edges.iter().map(|edge| Vertex { at: edge.from, bulge: edge.bulge }).chain(end).collect()
}

/// The box around everything that is drawn; the sheet where nothing is.
fn drawn(sheet: &SheetPaths) -> Rect {
    let boxes = sheet.strokes.iter().flat_map(|stroke| match &stroke.run {
        StrokePath::Straight(pieces) => pieces.iter().map(|&(from, to)| Rect::from_points(from, to)).collect(),
        StrokePath::Closed(contour) => vec![contour.bounds()],
        StrokePath::Open(edges) => edges.iter().map(|edge| edge.bounds()).collect(),
    });
    boxes.reduce(|all, one| all.union(one)).unwrap_or_else(|| Rect::new(0.0, 0.0, sheet.width, sheet.height))
}
