// SPDX-License-Identifier: MIT
//! The draw layer: names, head arrows, centre lines and glue corners, where they will not show; what kinds draw themselves.

use super::caption::{Caption, roomiest};
use super::letters::lettering;
use crate::contour::{Contour, Point, Rect, within};
use crate::cutter::{DrawnText, TextSide, Writing};
use crate::finding::{Arg, Finding, Said};
use crate::length::{Length, Units};
use crate::parts::{Hidden, Kit, Part};

/// Where parts may be marked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum Labels {
    /// On seams, tabs and faces that are glued over.
    #[default]
    Hidden,
    /// On every part, where it shows too.
    Everywhere,
    /// Nowhere.
    None,
}

/// So many parts without a name are named.
const MOST_NAMED: usize = 3;

/// How far marks keep from a panel's edges, mm.
const CLEAR: f64 = 1.0;

/// What is asked of marks.
#[derive(Clone, Copy)]
pub(super) struct Marking<'a> {
    /// Where parts may be marked.
    pub labels: Labels,
    /// What the whole is called.
    pub title: &'a str,
    /// What its maker measures in.
    pub units: Units,
}

/// What is marked on one part, in its frame.
#[derive(Clone, Debug, Default)]
pub(super) struct Marks {
    /// Lines that are the same on every copy.
    lines: Vec<Vec<Point>>,
    /// The words, and what stands beside them.
    caption: Caption,
    /// Whether all words went in that were asked for.
    whole: bool,
}

/// The marks of every part, whose copies go up to the numbers given, nought where no machine cuts it, and what could not be drawn as it
/// was asked for. `writing` is that of a stock's cutter.
pub(super) fn marks(
    kit: &Kit,
    copies: &[u32],
    asked: Marking<'_>,
    writing: impl Fn(usize) -> Writing,
) -> (Vec<Marks>, Vec<Finding>) {
    if asked.labels == Labels::None {
        return (vec![Marks::default(); kit.parts.len()], Vec::new());
    }
    let hidden = kit.hidden();
    let marks: Vec<Marks> = hidden
        .iter()
        .zip(copies)
        .enumerate()
        .map(|(number, (hidden, copies))| one(kit, number, (hidden, *copies), asked, writing(kit.parts[number].stock)))
        .collect();
    let which = |wrong: &dyn Fn(&Part, &Marks) -> bool| -> Vec<&str> {
        let all = kit.parts.iter().zip(copies.iter().zip(&marks));
        let cut = all.filter(|(part, (copies, _))| part.count > 0 && **copies > 0);
        cut.filter(|(part, (_, marks))| wrong(part, marks)).map(|(part, _)| part.id.as_str()).collect()
    };
    let words = |part: &Part| writing(part.stock).text != DrawnText::Nothing;
    let unnamed = which(&|part, marks| words(part) && marks.caption.space.is_none());
    let short = which(&|part, marks| words(part) && marks.caption.space.is_some() && !marks.whole);
    let titled = !which(&|part, _| writing(part.stock).text == DrawnText::All).is_empty();
    let told = [note(&unnamed, asked.labels), shortened(&short), letters(if titled { asked.title } else { "" })];
    (marks, told.into_iter().flatten().collect())
}

/// Words that were left out for want of room.
fn shortened(short: &[&str]) -> Option<Finding> {
    let about = Said::new("about-parts").with("count", short.len());
    let text = Said::new("shortened-words").with("parts", few(short));
    (!short.is_empty()).then(|| Finding::note("shortened-words", about, text).help(Said::new("shortened-words-help")))
}

/// Letters of the title for which there are no strokes.
fn letters(title: &str) -> Option<Finding> {
    let missing = lettering(title, 1.0).missing;
    let letters = Arg::Row(missing.iter().map(|letter| Arg::quoted(letter.to_string())).collect());
    let text = Said::new("undrawn-letters").with("letters", letters);
    (!missing.is_empty())
        .then(|| Finding::note("undrawn-letters", Said::NOTHING, text).help(Said::new("undrawn-letters-help")))
}

/// The first of several names.
fn few(names: &[&str]) -> Arg {
    let shown = names.iter().take(MOST_NAMED);
    let rest = (names.len() > MOST_NAMED).then_some(&"…");
    Arg::Row(shown.chain(rest).copied().map(Arg::from).collect())
}

fn note(unnamed: &[&str], labels: Labels) -> Option<Finding> {
    if unnamed.is_empty() {
        return None;
    }
    let (text, help) = match labels {
        Labels::Everywhere => ("unnamed-parts-everywhere", "unnamed-parts-everywhere-help"),
        _ => ("unnamed-parts", "unnamed-parts-help"),
    };
    let text = Said::new(text).with("parts", few(unnamed));
    let about = Said::new("about-parts").with("count", unnamed.len());
    Some(Finding::note("unnamed-parts", about, text).help(Said::new(help)))
}

fn one(kit: &Kit, number: usize, (hidden, copies): (&Hidden, u32), asked: Marking<'_>, writing: Writing) -> Marks {
    let part = &kit.parts[number];
    let free = |rect: &&Rect| part.flat.holes.iter().all(|hole| hole.bounds().intersect(**rect).area() <= 0.0);
    let mut marks = Marks::default();
    // What the kind itself draws.
    marks.lines.extend(part.flat.marks.iter().map(|mark| mark.to_vec()));
    let base = part.net.panels.iter().find(|panel| panel.purpose.is_base()).map(|panel| panel.outline.bounds());
    for &cover in hidden.covered.iter().filter(free) {
        match base {
            // A narrower strip goes on the middle of this one; one just as wide needs no line.
            Some(base) if cover.width() > base.width() - CLEAR => {}
            Some(base) if base.center().x - cover.x0 > CLEAR && cover.x1 - base.center().x > CLEAR => {
                marks.centre_line(base.center().x, cover);
            }
            Some(_) => {}
            None => marks.corners(cover),
        }
    }
    let behind = writing.side == TextSide::Back;
    let spaces = spaces(part, hidden, asked.labels, behind);
    // What is drawn on the front is no matter behind.
    let clear = |rect: &&Rect| behind || part.flat.marks.iter().all(|mark| within(*mark, **rect).is_none());
    for (fewer, lines) in words(part, asked, writing.text).into_iter().enumerate() {
        let caption = Caption::of(lines, writing.pen.mm());
        // The name with the longest number that a copy of this part has.
        let longest = caption.lines(copies);
        let most = |rects: &Vec<Rect>, clear: &dyn Fn(&&Rect) -> bool| {
            roomiest(rects.iter().filter(free).filter(clear), &longest, caption.clear)
        };
        // A name over a mark is better than none.
        let space = spaces.iter().find_map(|rects| most(rects, &clear));
        let space = space.or_else(|| spaces.iter().find_map(|rects| most(rects, &|_| true)));
        marks.whole = fewer == 0;
        marks.caption = caption;
        marks.caption.space = space;
        marks.caption.mirror = space.filter(|_| behind).map(|space| space.center().x);
        if space.is_some() {
            break;
        }
    }
    // Upside down is the same for some parts, and for some it is another piece: no arrow can be right there.
    // Bound at the top, the head is at the part's left.
    let upside_down = part.sideways
        || part.flat.likeness() == part.flat.turned(2).likeness()
        || kit.pieces.iter().any(|piece| piece.part == number && piece.turned);
    if !upside_down {
        marks.caption.add_arrow(copies);
    }
    marks
}

/// The words of a part, with less of them each time; none where none are wanted.
fn words(part: &Part, asked: Marking<'_>, text: DrawnText) -> Vec<[Option<String>; 3]> {
    let mm = |mm: f64| Length::from_mm(mm).plain(asked.units);
    let size = || format!("{} x {} {}", mm(part.flat.width), mm(part.flat.height), asked.units.name());
    let name = || Some(part.id.clone());
    let title = || Some(asked.title.to_owned()).filter(|title| !title.trim().is_empty());
    let of = |count: usize| match count {
        0 => [title(), name(), Some(size())],
        1 => [None, name(), Some(size())],
        _ => [None, name(), None],
    };
    match text {
        DrawnText::All => (0..3).map(of).collect(),
        DrawnText::Sizes => (1..3).map(of).collect(),
        DrawnText::Names => vec![of(2)],
        DrawnText::Nothing => Vec::new(),
    }
}

/// Where words may go, first the best: a seam or tab; what is glued over else; a face that shows, and only when asked. No score runs
/// through them, and they lie in the part's outline.
fn spaces(part: &Part, hidden: &Hidden, labels: Labels, behind: bool) -> Vec<Vec<Rect>> {
    let panels: Vec<Rect> =
        part.net.panels.iter().map(|panel| below_holes(panel.outline.bounds(), &part.flat.holes)).collect();
    let shown = if labels == Labels::Everywhere { panels.clone() } else { Vec::new() };
    let spaces = if behind {
        vec![hidden.backs.clone(), shown]
    } else {
        vec![hidden.panels.clone(), hidden.covered.clone(), shown]
    };
    let scored = |rect: Rect| {
        let inner = rect.inset(-CLEAR / 2.0);
        part.flat.scores.iter().any(|score| within([score.from, score.to], inner).is_some())
    };
    let unscored = |rect: Rect| -> Vec<Rect> {
        if scored(rect) {
            let pieces = panels.iter().map(|panel| panel.intersect(rect));
            pieces.filter(|piece| piece.width() > 0.0 && piece.height() > 0.0 && !scored(*piece)).collect()
        } else {
            vec![rect]
        }
    };
    let inside = |rect: Rect| within_outline(&part.flat.outline, rect);
    spaces.into_iter().map(|rects| rects.into_iter().flat_map(unscored).filter_map(inside).collect()).collect()
}

/// What of a rectangle is asked for until it lies in an outline: all of it, then ever less about its middle.
const SHARES: [f64; 5] = [1.0, 0.85, 0.7, 0.5, 0.3];

/// The rectangle, or the largest about its middle that lies in the outline; none where none of them does.
fn within_outline(outline: &Contour, rect: Rect) -> Option<Rect> {
    let inside = |rect: &Rect| {
        let inner = rect.inset(-CLEAR / 2.0);
        let (width, height) = (inner.width(), inner.height());
        if width <= 0.0 || height <= 0.0 {
            return false;
        }
        let inner = Contour::rectangle(inner.x0, inner.y0, width, height);
        !outline.meets(&inner) && outline.encloses(&inner)
    };
    if inside(&rect) {
        return Some(rect);
    }
    let (middle, half) = (rect.center(), (rect.width() / 2.0, rect.height() / 2.0));
    let shares = SHARES.into_iter().flat_map(|wide| SHARES.map(|tall| (wide, tall)));
    let some = shares.map(|(wide, tall)| {
        let (x, y) = (half.0 * wide, half.1 * tall);
        Rect::new(middle.x - x, middle.y - y, middle.x + x, middle.y + y)
    });
    some.filter(inside).max_by(|one, two| one.area().total_cmp(&two.area()))
}

impl Marks {
    /// The lines of one copy on the front, those of every copy and its words, and those on the back.
    pub(super) fn of_copy(&self, copy: u32) -> [Vec<Vec<Point>>; 2] {
        let words = self.caption.drawn(copy);
        let mut front = self.lines.clone();
        match self.caption.mirror {
            None => {
                front.extend(words);
                [front, Vec::new()]
            }
            Some(axis) => {
                let turned = |point: Point| Point::new(2.0 * axis - point.x, point.y);
                [front, words.into_iter().map(|line| line.into_iter().map(turned).collect()).collect()]
            }
        }
    }

    /// Short lines at both ends of a strip's middle.
    fn centre_line(&mut self, x: f64, cover: Rect) {
        let long = (cover.height() / 4.0).min(15.0);
        for (from, to) in [(cover.y0 + CLEAR, cover.y0 + CLEAR + long), (cover.y1 - CLEAR, cover.y1 - CLEAR - long)] {
            self.lines.push(vec![Point::new(x, from), Point::new(x, to)]);
        }
    }

    /// The four corners of what is stuck on, just inside it.
    fn corners(&mut self, cover: Rect) {
        let inner = cover.inset(-CLEAR / 2.0);
        let arm = (inner.width().min(inner.height()) / 3.0).min(4.0);
        if arm < 1.0 {
            return;
        }
        for (x, y, right, up) in [
            (inner.x0, inner.y0, 1.0, 1.0),
            (inner.x1, inner.y0, -1.0, 1.0),
            (inner.x1, inner.y1, -1.0, -1.0),
            (inner.x0, inner.y1, 1.0, -1.0),
        ] {
            self.lines.push(vec![Point::new(x + right * arm, y), Point::new(x, y), Point::new(x, y + up * arm)]);
        }
    }
}

/// What of a panel lies below its holes.
fn below_holes(panel: Rect, holes: &[Contour]) -> Rect {
    let lowest = holes.iter().map(|hole| hole.bounds().y0).fold(panel.y1, f64::min);
    Rect { y1: lowest.max(panel.y0), ..panel }
}
