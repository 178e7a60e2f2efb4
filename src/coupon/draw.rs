// SPDX-License-Identifier: MIT
//! What of the test piece is drawn, scored and cut. Its paths are at their true size: no kerf is taken into account.

use super::{NICKS, OVERRUNS, ROW, SCORES, STRIPS, TRAILS};
use crate::contour::{Contour, Edge, Point};
use crate::cutter::{Cutter, Manner, Nicks, ScoreMode};
use crate::finding::{Arg, Finding, Said};
use crate::length::{Length, MM_PER_INCH, Units};
use crate::net::{Net, Sense};
use crate::parts::{Part, Purpose};
use crate::toolpath::{Hints, Layer, SheetPaths, Stroke, StrokePath, ToolEffort, dashes, lettering, made};

/// What the piece takes of a sheet, mm.
const WIDTH: f64 = 178.0;
const HEIGHT: f64 = 170.0;

/// It keeps so far from the sheet's edges at least, mm.
const EDGE: f64 = 6.0;

/// How tall the letters and numbers are that tell one thing from the next, mm.
const LETTER: f64 = 4.0;
const NUMBER: f64 = 2.5;

/// What is on the piece, by the letters drawn beside it.
const NAMES: [&str; 10] =
    ["scale", "strips", "square", "scores-across", "scores-up", "overrun", "trail", "nicks", "words", "plain"];

/// The test piece.
#[derive(Clone, Debug)]
pub struct Coupon {
    /// What stands on it, so that strokes have names.
    pub parts: Vec<Part>,
    /// Its strokes.
    pub sheet: SheetPaths,
    /// What it takes of the sheet from the lower left, mm.
    pub size: (f64, f64),
}

/// The test piece on a sheet of these sides, for a cutter whose passes, curves and direction it is made with.
///
/// # Errors
/// The sheet is too small, or does not go into the machine.
pub fn coupon(cutter: &Cutter, (width, height): (Length, Length)) -> Result<Coupon, Box<Finding>> {
    let edge = cutter.margin.mm().max(EDGE);
    let least = (WIDTH + 2.0 * edge, HEIGHT + 2.0 * edge);
    let mm = |mm: f64| Arg::Length(Length::from_mm(mm), Units::Mm);
    if width.mm() < least.0 || height.mm() < least.1 {
        let text = Said::new("coupon-sheet-small").with("width", mm(least.0)).with("height", mm(least.1));
        let finding = Finding::stop("coupon-sheet", Said::NOTHING, text);
        return Err(Box::new(finding.help(Said::new("coupon-sheet-small-help"))));
    }
    if !cutter.takes(width, height) {
        let text = Said::new("coupon-sheet-bed");
        let finding = Finding::stop("coupon-sheet", Said::NOTHING, text);
        return Err(Box::new(finding.help(Said::new("coupon-sheet-small-help"))));
    }
    let mut draft = Draft { cutter, at: Point::new(edge, edge), groups: Default::default() };
    draft.scale();
    draft.strips();
    draft.square();
    draft.gauge(3, Point::new(0.0, 48.0), false);
    draft.gauge(4, Point::new(118.0, 50.0), true);
    draft.corners();
    draft.ladder();
    draft.words();
    draft.plain();
    let strokes: Vec<Stroke> = draft.groups.into_iter().flatten().collect();
    let mut sheet = SheetPaths {
        name: "coupon".into(),
        stock: 0,
        times: 1,
        width: width.mm(),
        height: height.mm(),
        seconds: None,
        behind: Vec::new(),
        register: Vec::new(),
        strokes,
    };
    sheet.seconds = ToolEffort::of(&sheet).seconds(cutter);
    Ok(Coupon {
        parts: NAMES.iter().filter_map(part).collect(),
        sheet,
        size: (WIDTH + 2.0 * edge, HEIGHT + 2.0 * edge),
    })
}

/// A name for strokes; nothing else of it is ever asked.
fn part(name: &&str) -> Option<Part> {
    let net = Net::single("coupon", Contour::rectangle(0.0, 0.0, ROW, ROW));
    Some(Part {
        id: (*name).into(),
        kind: "coupon",
        purpose: Purpose::Body,
        flat: net.flat().ok()?,
        net,
        stock: 0,
        count: 1,
        along_grain: false,
        sideways: false,
        used_in: Vec::new(),
        patterns: Vec::new(),
        place: None,
        cut: None,
    })
}

/// The piece while it is drawn: marks, scores, inner cuts, outer cuts.
struct Draft<'a> {
    cutter: &'a Cutter,
    /// Its lower left on the sheet.
    at: Point,
    groups: [Vec<Stroke>; 4],
}

impl Draft<'_> {
    fn place(&self, x: f64, y: f64) -> Point {
        self.at + (x, y)
    }

    /// Adds a stroke, made as the machine makes it or as `manner` says instead.
    fn add(&mut self, group: usize, part: usize, run: StrokePath, manner: Option<(Manner, Hints)>) {
        let layer = [Layer::Draw, Layer::Score, Layer::Cut, Layer::Cut][group];
        let fold = (layer == Layer::Score).then_some(Sense::Valley);
        let stroke = Stroke { layer, part, copy: 1, fold, run };
        let usual = || (Manner { nicks: None, ..self.cutter.manner.clone() }, Hints::default());
        let (manner, hints) = manner.unwrap_or_else(usual);
        // Paths are where they are drawn: what the kerf does is what is measured.
        let cutter = Cutter { kerf: Length::ZERO, manner, ..self.cutter.clone() };
        self.groups[group].extend(made(vec![stroke], &cutter, |_| hints.clone()));
    }

    fn line(&mut self, group: usize, part: usize, ends: [(f64, f64); 2]) {
        let [from, to] = ends.map(|(x, y)| self.place(x, y));
        let run = match group {
            0 | 2 => StrokePath::Open(vec![Edge { from, to, bulge: 0.0 }]),
            _ => StrokePath::Straight(vec![(from, to)]),
        };
        self.add(group, part, run, None);
    }

    fn rectangle(&mut self, group: usize, part: usize, (x, y): (f64, f64), (width, height): (f64, f64)) {
        let at = self.place(x, y);
        self.add(group, part, StrokePath::Closed(Contour::rectangle(at.x, at.y, width, height)), None);
    }

    fn text(&mut self, part: usize, text: &str, height: f64, (x, y): (f64, f64)) {
        let at = self.place(x, y).to_vec2();
        for line in lettering(text, height).strokes {
            let edges = line.windows(2).map(|pair| Edge { from: pair[0] + at, to: pair[1] + at, bulge: 0.0 });
            self.add(0, part, StrokePath::Open(edges.collect()), None);
        }
    }

    /// 100 mm and 4 in, both ways, by fine marks.
    fn scale(&mut self) {
        let inches = 4.0 * MM_PER_INCH;
        self.text(0, "A", LETTER, (inches + 3.0, 0.0));
        for upright in [false, true] {
            let turn = |along: f64, aside: f64| if upright { (WIDTH - aside, along) } else { (along, aside) };
            self.line(0, 0, [turn(0.0, 0.0), turn(inches, 0.0)]);
            for (along, long) in [(0.0, 5.0), (ROW, 5.0), (inches, 3.0)] {
                self.line(0, 0, [turn(along, 0.0), turn(along, long)]);
            }
        }
    }

    /// Ten strips that fill a slot: the slot grows by the kerf, each strip shrinks by it.
    fn strips(&mut self) {
        self.text(1, "B", LETTER, (ROW + 3.0, 22.0));
        let step = ROW / f64::from(STRIPS);
        for strip in 1..STRIPS {
            let x = f64::from(strip) * step;
            self.line(2, 1, [(x, 10.0), (x, 40.0)]);
        }
        self.rectangle(3, 1, (0.0, 10.0), (ROW, 30.0));
    }

    /// A square hole in a square: what falls out of the hole fits in it with the kerf to spare on each side.
    fn square(&mut self) {
        self.text(2, "C", LETTER, (148.0, 22.0));
        self.rectangle(2, 2, (122.0, 17.0), (16.0, 16.0));
        self.rectangle(3, 2, (114.0, 10.0), (30.0, 30.0));
    }

    /// Every score twice, one to be folded each way.
    fn gauge(&mut self, part: usize, at: Point, upright: bool) {
        let turn = |along: f64, aside: f64| {
            if upright { (at.x + aside, at.y + along) } else { (at.x + along, at.y + aside) }
        };
        let letter = if upright { "E" } else { "D" };
        self.text(part, letter, LETTER, turn(ROW + 3.0, 8.0));
        for number in 0..2 * SCORES.len() {
            #[allow(clippy::cast_precision_loss, reason = "ten scores")]
            let along = 9.5 * (number as f64 + 1.0) - 2.0;
            let [from, to] = [turn(along, 0.0), turn(along, 20.0)].map(|(x, y)| self.place(x, y));
            let pieces = match SCORES[number / 2] {
                None => vec![(from, to)],
                Some(dash) => dashes(from, to, dash.cut, dash.tie),
            };
            self.add(1, part, StrokePath::Straight(pieces), None);
            let way = ["V", "M"][number % 2];
            let named = format!("{}{way}", number / 2 + 1);
            self.text(part, &named, NUMBER, turn(along + if upright { 1.0 } else { 1.2 }, 1.5));
        }
        let size = if upright { (20.0, ROW) } else { (ROW, 20.0) };
        self.rectangle(3, part, (at.x, at.y), size);
    }

    /// Squares that run on past their start, and squares for blades that trail.
    fn corners(&mut self) {
        let usual = self.cutter.manner.clone();
        let overrun = |mm: f64| Manner { overrun: Length::from_mm(mm), nicks: None, ..usual.clone() };
        let trail = |mm: f64| Manner { trail: Length::from_mm(mm), corner_help: mm > 0.0, ..overrun(1.0) };
        for (part, letter, y, all) in
            [(5, "F", 76.0, OVERRUNS.map(overrun).to_vec()), (6, "G", 94.0, TRAILS.map(trail).to_vec())]
        {
            for (number, manner) in all.into_iter().enumerate() {
                #[allow(clippy::cast_precision_loss, reason = "a few squares")]
                let x = 16.0 * number as f64;
                self.text(part, &format!("{}", number + 1), NUMBER, (x + 5.0, y + 5.0));
                let at = self.place(x, y);
                let run = StrokePath::Closed(Contour::rectangle(at.x, at.y, 12.0, 12.0));
                self.add(3, part, run, Some((manner, Hints::default())));
            }
            self.text(part, letter, LETTER, (ROW + 3.0, y + 4.0));
        }
    }

    /// Pieces that hang by two nicks each, short to long.
    fn ladder(&mut self) {
        for (number, long) in NICKS.into_iter().enumerate() {
            #[allow(clippy::cast_precision_loss, reason = "a few pieces")]
            let (x, y) = (20.0 * number as f64, 112.0);
            self.text(7, &format!("{}", number + 1), NUMBER, (x + 6.0, y + 5.0));
            let at = self.place(x, y);
            let run = StrokePath::Closed(Contour::rectangle(at.x, at.y, 15.0, 12.0));
            let length = Length::from_mm(long);
            let nicks = Nicks { length, count: 2, small_count: 2, small_under: Length::ZERO };
            let manner = Manner { nicks: Some(nicks), ..self.cutter.manner.clone() };
            let middles = vec![self.place(x + 7.5, y), self.place(x + 7.5, y + 12.0)];
            self.add(3, 7, run, Some((manner, Hints { hidden: Vec::new(), nicks: middles })));
        }
        self.text(7, "H", LETTER, (ROW + 3.0, 116.0));
    }

    /// Two equal strips without a score, one each way: the one along the grain is stiffer.
    fn plain(&mut self) {
        for (letter, at, size) in [("K", (0.0, 158.0), (110.0, 12.0)), ("L", (148.0, 50.0), (12.0, 110.0))] {
            self.rectangle(3, 9, at, size);
            self.text(9, letter, LETTER, (at.0 + 4.0, at.1 + 4.0));
        }
    }

    /// Words, small to large.
    fn words(&mut self) {
        let mut y = 130.0;
        for height in [1.5, 2.0, 3.0, 4.0] {
            self.text(8, "abc ABC 123", height, (0.0, y));
            y += 2.0 * height;
        }
        self.text(8, "I", LETTER, (ROW + 3.0, 138.0));
    }
}

/// The scores that a gauge has under a number from 1.
pub(super) fn score(number: u32) -> Option<ScoreMode> {
    let index = usize::try_from(number).ok()?.checked_sub(1)?;
    Some(SCORES.get(index)?.map_or(ScoreMode::Line, |dash| ScoreMode::Dash {
        dash: Length::from_mm(dash.cut),
        gap: Length::from_mm(dash.tie),
    }))
}
