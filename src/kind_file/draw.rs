// SPDX-License-Identifier: MIT
//! Reads the drawings that a kind names.

use super::known_shapes;
use super::model::KindFile;
use crate::fields::Source;
use crate::finding::{Arg, Finding, Said};
use crate::outline::read;
use std::sync::Arc;

/// Drawings are read this wide, mm, and scaled from there: what is made no larger keeps within 0.004 mm of what was drawn.
const READ_WIDE: f64 = 200.0;

impl KindFile {
    /// Reads the drawings that it names; `find` gives the file of a name, from the folder of this kind's file. All that is wrong
    /// with them is told, and what can't be read has no shape.
    pub fn draw(&mut self, find: &mut dyn FnMut(&str) -> Result<Source, Box<Finding>>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for drawing in &mut self.drawings {
            let place = drawing.asked.named.as_ref();
            let source = match find(&drawing.asked.file) {
                Ok(source) => source,
                Err(finding) => {
                    findings.push(finding.at(place));
                    continue;
                }
            };
            let shape = known_shapes::known(&drawing.asked, source.text()).or_else(|| {
                let read = read(&source, &drawing.asked.clone().wide(READ_WIDE));
                let shape = read.value.map(Arc::new);
                if let (Some(shape), []) = (&shape, read.findings.as_slice()) {
                    known_shapes::keep(&drawing.asked, source.text(), shape);
                }
                findings.extend(read.findings);
                shape
            });
            let Some(shape) = shape else { continue };
            if drawing.window && !shape.holes.is_empty() {
                let text = Said::new("drawn-island").with("file", Arg::quoted(&drawing.asked.file));
                findings.push(
                    Finding::stop("drawn-island", Said::NOTHING, text).help(Said::new("drawn-island-help")).at(place),
                );
                continue;
            }
            source.text().clone_into(&mut drawing.text);
            drawing.shape = Some(shape);
        }
        findings
    }
}
