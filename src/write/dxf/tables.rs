// SPDX-License-Identifier: MIT
//! The sections before what is drawn: the header, with units and extents, and the tables, with line types and layers.

use super::entities::drawn;
use super::tags::DxfFile;
use crate::contour::Point;
use crate::cutter::{Cutter, DxfLayers, colour_parts, nearest_index};
use crate::toolpath::{REGISTER, SheetPaths};

impl DxfFile {
    pub(super) fn header(&mut self, code: &str, sheet: &SheetPaths) {
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

    pub(super) fn tables(&mut self, cutter: &Cutter, marked: bool) {
        self.section("TABLES", |file| {
            if !file.old {
                file.table("VPORT", 0, |_, _| {});
            }
            file.line_types();
            file.layers(cutter, marked);
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

    fn layers(&mut self, cutter: &Cutter, marked: bool) {
        // The numbered colours nearest to the layers' own; the exact ones go along where the version knows them.
        let colours = &cutter.colours;
        let apart = self.forms.dxf_layers;
        let mut layers = vec![
            ("0", "#000000", "CONTINUOUS"),
            ("draw", &colours.draw, "CONTINUOUS"),
            ("score", &colours.score, "DASHED"),
            ("cut", &colours.cut, "CONTINUOUS"),
        ];
        if marked {
            layers.insert(1, (REGISTER, &colours.register, "CONTINUOUS"));
        }
        let layers = &layers[..if apart == DxfLayers::Colours { 1 } else { layers.len() }];
        self.table("LAYER", layers.len(), |file, owner| {
            for &(name, colour, dash) in layers {
                file.row("LAYER", owner, "AcDbLayerTableRecord", name);
                file.put(70, 0);
                let own = apart == DxfLayers::Both && name != "0";
                let colour = if apart == DxfLayers::Both { colour } else { "#000000" };
                file.colour(nearest_index(colour), colour_parts(colour).filter(|_| own));
                file.put(6, dash);
            }
        });
    }
}
