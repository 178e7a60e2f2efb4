// SPDX-License-Identifier: MIT
//! Pages as a PDF: real text, a bookmark a section, tags from the tree.

use super::super::pdf::{FontFaces, draw, failed, made, paint, points, sound, stroke_with};
use super::placed::{PlacedContent, TaggedAs, TypesetContent, TypesetGuide, TypesetPage};
use super::tags::Tags;
use crate::guide::Guide;
use crate::picture::{Pen, Tint};
use krilla::Document;
use krilla::configure::Configuration;
use krilla::geom::{Path, PathBuilder, Point, Rect, Transform};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag};
use std::io;

/// Ink on paper, and a paler one; both print in black.
const BLACK: Tint = Tint([0; 3]);
const GREY: Tint = Tint([0x55; 3]);
/// Thin lines.
const PALE: Tint = Tint([0xBB; 3]);

pub(super) fn pdf(guide: &Guide, pages: &TypesetGuide<'_>, faces: &FontFaces) -> io::Result<Vec<u8>> {
    sound(|configuration| file(configuration, guide, pages, faces))
}

fn file(
    configuration: Configuration,
    guide: &Guide,
    pages: &TypesetGuide<'_>,
    faces: &FontFaces,
) -> io::Result<Vec<u8>> {
    let mut document = made(configuration);
    let mut tags = Tags::new(&pages.tree);
    for (number, page) in pages.pages.iter().enumerate() {
        one_page(&mut document, &mut tags, (number, page), pages.paper, faces)?;
    }
    document.set_outline(tags.outline());
    document.set_tag_tree(tags.finish());
    let metadata = Metadata::new().title(guide.title.clone()).language(guide.language.to_owned());
    document.set_metadata(match &guide.maker {
        Some(maker) => metadata.authors(vec![maker.clone()]),
        None => metadata,
    });
    document.finish().map_err(|error| failed(&format!("{error:?}")))
}

fn one_page(
    document: &mut Document,
    tags: &mut Tags<'_>,
    (number, page): (usize, &TypesetPage<'_>),
    paper: (f64, f64),
    faces: &FontFaces,
) -> io::Result<()> {
    let size = PageSettings::from_wh(points(paper.0), points(paper.1));
    let mut sheet = document.start_page_with(size.ok_or_else(|| failed("a page has no size"))?);
    let mut surface = sheet.surface();
    // What belongs to one thing and follows one another is tagged together.
    for run in page.placed.chunk_by(|one, next| one.of == next.of) {
        let Some(first) = run.first() else { continue };
        let identifier = surface.start_tagged(tag(first.of));
        for one in run {
            put(&mut surface, faces, one);
        }
        surface.end_tagged();
        if let TaggedAs::Node(node) = first.of {
            tags.drawn(node, identifier, number, boxed(first));
        }
    }
    surface.finish();
    sheet.finish();
    Ok(())
}

fn tag(of: TaggedAs) -> ContentTag<'static> {
    match of {
        TaggedAs::Node(_) => ContentTag::Other,
        TaggedAs::Artifact => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)),
        TaggedAs::Footer => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Footer)),
    }
}

fn boxed(one: &PlacedContent<'_>) -> Option<Rect> {
    Rect::from_xywh(points(one.x), points(one.y), points(one.width), points(one.height))
}

fn put(surface: &mut Surface<'_>, faces: &FontFaces, one: &PlacedContent<'_>) {
    match &one.what {
        TypesetContent::Words { text, size, bold, soft, .. } => {
            let face = if *bold { &faces.bold } else { &faces.plain };
            surface.set_stroke(None);
            surface.set_fill(Some(paint(if *soft { GREY } else { BLACK })));
            // The middle of capitals stands in the middle of the line.
            let base = Point::from_xy(points(one.x), points(one.y + one.height / 2.0 + size * 0.36));
            face.draw(surface, base, points(*size), text);
        }
        TypesetContent::Frame { line } => {
            stroke_with(surface, path(one), Pen { width: *line, colour: BLACK, dash: &[] });
        }
        TypesetContent::Bar { soft } => {
            surface.set_stroke(None);
            surface.set_fill(Some(paint(if *soft { PALE } else { BLACK })));
            if let Some(path) = path(one) {
                surface.draw_path(&path);
            }
        }
        TypesetContent::Picture { picture, scale } => {
            #[allow(clippy::cast_possible_truncation, reason = "a share of one")]
            let scale = *scale as f32;
            surface.push_transform(&Transform::from_row(scale, 0.0, 0.0, scale, points(one.x), points(one.y)));
            draw(surface, faces, picture);
            surface.pop();
        }
    }
}

fn path(one: &PlacedContent<'_>) -> Option<Path> {
    let mut path = PathBuilder::new();
    path.push_rect(boxed(one)?);
    path.finish()
}
