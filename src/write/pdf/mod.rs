// SPDX-License-Identifier: MIT
//! Pictures as the pages of a PDF: true size, real text, a bookmark a page, tagged for those who do not see it (PDF/UA-1).

mod face;
mod ink;
mod pictured;
mod points;
mod sound;

pub(super) use face::FontFaces;
pub(super) use ink::{draw, paint, stroke_with};
pub(super) use points::points;
pub(super) use sound::{failed, made, sound};

use crate::picture::{Picture, PrintedPage};
use krilla::Document;
use krilla::configure::Configuration;
use krilla::destination::XyzDestination;
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::tagging::{ContentTag, Tag, TagGroup, TagTree};
use std::io;

/// A PDF of these pages; the same bytes each time. It keeps to PDF/UA-1, but for letters that the bundled font has not: a
/// maker's own names may be in any script, and these are boxes in it.
///
/// # Errors
/// A page without a size.
pub fn pdf(title: &str, language: &str, pages: &[PrintedPage]) -> io::Result<Vec<u8>> {
    let faces = FontFaces::bundled()?;
    sound(|configuration| document(configuration, faces, title, language, pages))
}

fn document(
    configuration: Configuration,
    faces: &FontFaces,
    title: &str,
    language: &str,
    pages: &[PrintedPage],
) -> io::Result<Vec<u8>> {
    let mut document = made(configuration);
    let (mut outline, mut tags) = (Outline::new(), TagTree::new());
    for (number, one) in pages.iter().enumerate() {
        let drawn = page(&mut document, faces, &one.picture)?;
        let mut figure = TagGroup::new(Tag::Figure(Some(one.shows.clone())));
        figure.push(drawn);
        tags.push(figure);
        let top = XyzDestination::new(number, krilla::geom::Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(one.name.clone(), top));
    }
    document.set_outline(outline);
    document.set_tag_tree(tags);
    document.set_metadata(Metadata::new().title(title.to_owned()).language(language.to_owned()));
    document.finish().map_err(|error| failed(&format!("{error:?}")))
}

fn page(document: &mut Document, faces: &FontFaces, picture: &Picture) -> io::Result<krilla::tagging::Identifier> {
    let size = PageSettings::from_wh(points(picture.width), points(picture.height));
    let mut page = document.start_page_with(size.ok_or_else(|| failed("a page has no size"))?);
    let mut surface = page.surface();
    let drawn = surface.start_tagged(ContentTag::Other);
    draw(&mut surface, faces, picture);
    surface.end_tagged();
    surface.finish();
    page.finish();
    Ok(drawn)
}
