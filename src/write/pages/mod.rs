// SPDX-License-Identifier: MIT
//! A guide on paper: pages whose ends are chosen, and the PDF of them.
//!
//! In: a finished [`Guide`]. Out: [`TypesetGuide`], and from them the file. Never: a word or a number of its own, but the pages'.

mod flow;
mod lines;
mod look;
mod placed;
mod print;
mod section;
mod setter;
mod step;
mod table;
mod tags;
mod tree;
mod words;

pub use look::GuideForm;
pub use placed::{PlacedContent, TaggedAs, TypesetContent, TypesetGuide, TypesetPage};
pub use tree::{StructureNode, StructureRole, StructureTree};

use super::pdf::FontFaces;
use crate::guide::{Guide, Line};
use flow::paginate;
use look::Look;
use placed::FlowBlock;
use section::Sections;
use setter::Setter;
use std::io;

/// How small a card may be set to stand on one page: in steps, as shares of the usual size.
const SMALLER: [f64; 9] = [1.0, 0.95, 0.9, 0.86, 0.82, 0.78, 0.74, 0.7, 0.66];
/// Of a card that takes more pages in any case.
const READABLE: f64 = 0.86;

/// The pages of a guide, or of a card.
///
/// # Errors
/// The bundled font can't be read.
pub fn guide_pages(guide: &Guide, form: GuideForm) -> io::Result<TypesetGuide<'_>> {
    let faces = FontFaces::bundled()?;
    let at = |scale: f64| set(guide, faces, Look::of(form, guide.paper, scale));
    if form == GuideForm::Guide {
        return Ok(at(1.0));
    }
    let one_page = SMALLER.iter().map(|scale| at(*scale)).find(|pages| pages.pages.len() == 1);
    Ok(one_page.unwrap_or_else(|| at(READABLE)))
}

/// The same as a PDF; the same bytes each time. It keeps to PDF/UA-1, but for letters that the bundled font has not.
///
/// # Errors
/// The file can't be made.
pub fn guide_pdf(guide: &Guide, form: GuideForm) -> io::Result<Vec<u8>> {
    let pages = guide_pages(guide, form)?;
    print::pdf(guide, &pages, FontFaces::bundled()?)
}

fn set<'a>(guide: &'a Guide, faces: &'static FontFaces, look: Look) -> TypesetGuide<'a> {
    let setter = Setter { guide, faces, look, tree: StructureTree::default() };
    let mut sections = Sections { setter, flow: Vec::new(), heads: Vec::new(), steps: 0 };
    title(&mut sections, guide);
    if !guide.notes.is_empty() {
        let node = sections.open(&Line::text(guide.word("page-notes")));
        for line in guide.notes.iter().flat_map(|note| note.lines()) {
            sections.words(&Line::text(line), node);
        }
    }
    for section in &guide.sections {
        sections.section(section);
    }
    let Sections { setter, flow, heads, .. } = sections;
    let mut pages = paginate(flow, &heads, look.room().1);
    if pages.is_empty() {
        pages.push(TypesetPage { placed: Vec::new() });
    }
    let count = pages.len();
    for (number, page) in (1..).zip(&mut pages) {
        for one in &mut page.placed {
            (one.x, one.y) = (one.x + look.margin, one.y + look.margin);
        }
        page.placed.extend(foot(&setter, &format!("{number} / {count}")));
    }
    TypesetGuide { pages, tree: setter.tree, paper: look.paper, margin: look.margin }
}

/// What it is called, who made it, which edition it is.
fn title<'a>(sections: &mut Sections<'a>, guide: &'a Guide) {
    let wide = sections.setter.look.room().0;
    let setter = &mut sections.setter;
    let mut block = setter.heading(&Line::text(guide.title.as_str()), 1, wide, None);
    let maker = guide.maker.as_ref().map(|maker| format!("{} {maker}", guide.word("page-maker")));
    for line in maker.iter().chain(&guide.edition) {
        let node = setter.tree.add(None, StructureRole::Words);
        block.below(setter.words(&Line::text(line.as_str()), setter.look.by(), wide, node), 0.0, 0.6);
    }
    sections.push(FlowBlock::new(block, 0.0));
}

/// The title at the left, the page's number at the right.
fn foot<'a>(setter: &Setter<'a>, number: &str) -> Vec<PlacedContent<'a>> {
    let (look, style) = (setter.look, Look::foot_words());
    let (wide, y) = (look.room().0, look.foot() - style.leading / 2.0);
    let words =
        |text: &str, wide: f64| lines::set(setter.faces, &Line::text(text), style, wide, TaggedAs::Footer).placed;
    let own = setter.faces.plain.width(number, style.size);
    let mut placed = Vec::new();
    placed.extend(words(&shortened(setter, wide - own - 8.0), wide).into_iter().map(|one| (0.0, one)));
    placed.extend(words(number, wide).into_iter().map(|one| (wide - own, one)));
    placed.into_iter().map(|(x, one)| PlacedContent { x: one.x + x + look.margin, y: one.y + y, ..one }).collect()
}

/// As much of the title as stands on a line.
fn shortened(setter: &Setter<'_>, wide: f64) -> String {
    let (title, size) = (setter.guide.title.as_str(), Look::foot_words().size);
    let fits = |text: &str| setter.faces.plain.width(text, size) <= wide;
    if fits(title) {
        return title.to_owned();
    }
    let mut text = String::new();
    for letter in title.chars() {
        text.push(letter);
        if !fits(&format!("{text}…")) {
            text.pop();
            break;
        }
    }
    text + "…"
}
