// SPDX-License-Identifier: MIT
//! For whoever makes all the kits: what is made and handed over, the machine, the first kit that is looked at before the rest.

use super::bits::{Block, Section, Step, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::{beds, machine_times, measure};
use crate::album::Handed;
use crate::cutter::{
    BothWays, Curves, CutOrder, Cutter, Direction, DrawnText, DxfLayers, DxfLines, Forms, LayerOrder, Manner,
    MarkShape, Passes, ScoreMode, SheetsABed, Start, SvgLines, TextSide,
};
use crate::fit::Closed;
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::Part;
use crate::stock::{By, Stock};

/// What is made, and in what state it is handed over.
pub(super) fn order(desk: &Desk<'_>) -> Section {
    let kits = measure::count(u64::from(desk.kits), What::Kits, "");
    let mut blocks = vec![Block::Words(desk.say("order-words", vec![("n", kits)]))];
    let spare = desk.job.album.spares.map_or(0, |spares| spares.kits);
    if spare > 0 {
        blocks.push(Block::Words(
            desk.say("order-spare", vec![("n", measure::count(spare.into(), What::Kits, "spare"))]),
        ));
    }
    blocks.push(handed(desk).unwrap_or_else(|| Block::Words(desk.tell("order-unsaid"))));
    Section { id: "order", heading: desk.tell("order-made"), blocks }
}

/// In what state each stock is handed over, where that is said.
pub(super) fn handed(desk: &Desk<'_>) -> Option<Block> {
    let album = desk.job.album;
    album.handed_over.as_ref().map(|_| {
        let used = |stock: usize| {
            let of_stock = |part: &Part| part.stock == stock && part.count > 0;
            !album.is_ready(stock) && desk.kit().parts.iter().any(of_stock)
        };
        let line = |(number, stock): (usize, &Stock)| {
            let key = match album.handed_over(number).filter(|_| used(number))? {
                Handed::Sheets => "order-sheets",
                Handed::Cut => "order-cut",
                Handed::Scored => "order-scored",
            };
            Some(desk.say(key, vec![("stock", Line::text(stock.name.clone()))]))
        };
        Block::List(album.stocks.iter().enumerate().filter_map(line).collect())
    })
}

/// The settings of each machine, as the files are made for them; nothing where a trimmer cuts all.
pub(super) fn machine(desk: &Desk<'_>) -> Option<Section> {
    machine_of(desk, &desk.cut_by(By::Machine))
}

/// The same for these stocks.
pub(super) fn machine_of(desk: &Desk<'_>, stocks: &[&Stock]) -> Option<Section> {
    let mut machines: Vec<(&Cutter, Vec<&Stock>)> = Vec::new();
    for &stock in stocks {
        let cutter = stock.cutter(desk.job.cutter);
        match machines.iter_mut().find(|(known, _)| *known == cutter) {
            Some((_, stocks)) => stocks.push(stock),
            None => machines.push((cutter, vec![stock])),
        }
    }
    let times = machine_times::times(desk, stocks);
    let several = machines.len() > 1;
    let marked = desk.job.stocks.iter().flat_map(|laid| &laid.sheets).any(|sheet| !sheet.register.is_empty())
        && machines.iter().any(|(cutter, _)| cutter.marks.is_some());
    let mut blocks: Vec<Block> = machines
        .into_iter()
        .map(|(cutter, stocks)| {
            let names = || stocks.iter().map(|stock| Line::text(stock.name.clone())).collect();
            let of = several.then(|| desk.say("machine-caption-of", vec![("stocks", desk.words.list(names()))]));
            let caption = of.unwrap_or_else(|| desk.tell("machine-caption"));
            Block::Table(settings(desk, (cutter, desk.scored(&stocks)), caption))
        })
        .collect();
    if blocks.is_empty() {
        return None;
    }
    blocks.extend(beds::table(desk, stocks));
    blocks.extend(times);
    let first: &[&str] =
        if marked { &["machine-print-first", "machine-print-true", "machine-print-align"] } else { &[] };
    let backs: &[&str] = if beds::have_backs(desk, stocks) { &["machine-bed-backs"] } else { &[] };
    let last: &[&str] = if desk.scored(stocks) {
        &["machine-try", "machine-order"]
    } else {
        &["machine-try-unscored", "machine-order-unscored"]
    };
    let told = first.iter().chain(backs).chain(last);
    blocks.push(Block::List(told.map(|key| desk.tell(key)).collect()));
    Some(Section { id: "machine", heading: desk.tell("machine-heading"), blocks })
}

fn settings(desk: &Desk<'_>, (cutter, scored): (&Cutter, bool), caption: Line) -> Table {
    let length = |mm: f64| desk.fine(mm);
    let or_none = |mm: f64| if mm < SAME { desk.tell("machine-none") } else { length(mm) };
    let score = match cutter.score {
        ScoreMode::Line => desk.tell("machine-score-line"),
        ScoreMode::Dash { dash, gap } => {
            desk.say("machine-score-dash", vec![("dash", length(dash.mm())), ("gap", length(gap.mm()))])
        }
    };
    let mut rows = vec![
        ("machine-kerf", or_none(cutter.kerf.mm())),
        ("machine-margin", or_none(cutter.margin.mm())),
        ("machine-gap", or_none(cutter.gap.mm())),
    ];
    rows.extend(scored.then_some(("machine-score", score)));
    if let Some((width, height)) = cutter.bed {
        let size = vec![("width", length(width.mm())), ("height", length(height.mm()))];
        rows.insert(0, ("machine-bed", desk.say("cut-size", size)));
    }
    match &cutter.sheets_a_bed {
        Some(SheetsABed::Fill) => rows.insert(1, ("machine-sheets-a-bed", desk.tell("machine-bed-fill"))),
        Some(SheetsABed::Count(count)) => {
            rows.insert(1, ("machine-sheets-a-bed", measure::count((*count).into(), What::Many, "cutter")));
        }
        Some(SheetsABed::At(places)) => {
            let many = measure::count(places.len() as u64, What::Many, "cutter");
            rows.insert(1, ("machine-sheets-a-bed", desk.say("machine-bed-places", vec![("n", many)])));
        }
        None => {}
    }
    if cutter.shares_cuts() {
        rows.push(("machine-shared", desk.tell("machine-yes")));
    }
    rows.extend(manner(desk, (cutter, scored)));
    rows.extend(marks(desk, cutter));
    Table {
        caption,
        head: ["machine-head-what", "machine-head-is"].map(|key| desk.tell(key)).to_vec(),
        rows: rows.into_iter().map(|(key, is)| vec![desk.tell(key), is]).collect(),
    }
}

/// How strokes are made, as far as that is out of the usual.
fn manner(desk: &Desk<'_>, (cutter, scored): (&Cutter, bool)) -> Vec<(&'static str, Line)> {
    let (is, usual) = (&cutter.manner, Manner::default());
    let length = |length: Length| desk.fine(length.mm());
    let many = |n: u32| measure::count(n.into(), What::Many, "cutter");
    let mut rows = Vec::new();
    if is.passes != usual.passes {
        let Passes { cut, score, draw } = is.passes;
        let places = vec![("cut", many(cut)), ("score", many(score)), ("draw", many(draw))];
        rows.push(("machine-passes", desk.say("machine-passes-are", places)));
    }
    if let Some(nicks) = is.nicks {
        let places = vec![
            ("n", many(nicks.count)),
            ("length", length(nicks.length)),
            ("small", many(nicks.small_count)),
            ("under", length(nicks.small_under)),
        ];
        rows.push(("machine-nicks", desk.say("machine-nicks-are", places)));
    }
    if is.overrun != usual.overrun {
        rows.push(("machine-overrun", length(is.overrun)));
    }
    if is.trail != usual.trail {
        let key = if is.corner_help { "machine-trail-helped" } else { "machine-trail-plain" };
        rows.push(("machine-trail", desk.say(key, vec![("trail", length(is.trail))])));
    }
    if is.start == Start::Hidden {
        rows.push(("machine-start", desk.tell("machine-start-hidden")));
    }
    if is.order == CutOrder::SmallFirst {
        rows.push(("machine-first", desk.tell("machine-first-small")));
    }
    match is.direction {
        Direction::PartLeft => {}
        Direction::PartRight => rows.push(("machine-direction", desk.tell("machine-part-right"))),
        Direction::Clockwise => rows.push(("machine-direction", desk.tell("machine-clockwise"))),
        Direction::CounterClockwise => rows.push(("machine-direction", desk.tell("machine-counter-clockwise"))),
    }
    match is.curves {
        Curves::Arcs => {}
        Curves::Cubics => rows.push(("machine-curves", desk.tell("machine-cubics"))),
        Curves::Lines => {
            let places = vec![("off", length(is.curve_tolerance))];
            rows.push(("machine-curves", desk.say("machine-lines", places)));
        }
    }
    if scored && cutter.back.both_ways == BothWays::BothSides && cutter.score == ScoreMode::Line {
        rows.push(("machine-both-ways", desk.tell("machine-both-sides")));
    }
    rows.extend(writing(desk, cutter));
    rows.extend(forms(desk, cutter));
    rows
}

/// Which words are drawn, as far as that is out of the usual.
fn writing(desk: &Desk<'_>, cutter: &Cutter) -> Vec<(&'static str, Line)> {
    let is = &cutter.writing;
    let key = match is.text {
        DrawnText::Names => None,
        DrawnText::Sizes => Some("machine-text-sizes"),
        DrawnText::All => Some("machine-text-all"),
        DrawnText::Nothing => Some("machine-text-nothing"),
    };
    let text = key.map(|key| ("machine-text", desk.tell(key)));
    let back = is.side == TextSide::Back && is.text != DrawnText::Nothing;
    text.into_iter().chain(back.then(|| ("machine-text-side", desk.tell("machine-text-back")))).collect()
}

/// What the files are like, as far as that is out of the usual.
fn forms(desk: &Desk<'_>, cutter: &Cutter) -> Vec<(&'static str, Line)> {
    let (is, usual) = (&cutter.forms, Forms::default());
    let mut rows = Vec::new();
    if is.layer_order != usual.layer_order {
        let key = match is.layer_order {
            LayerOrder::DrawScoreCut => "machine-layers-draw-score-cut",
            LayerOrder::ScoreDrawCut => "machine-layers-score-draw-cut",
            LayerOrder::CutScoreDraw => "machine-layers-cut-score-draw",
            LayerOrder::CutDrawScore => "machine-layers-cut-draw-score",
            LayerOrder::DrawCutScore => "machine-layers-draw-cut-score",
            LayerOrder::ScoreCutDraw => "machine-layers-score-cut-draw",
        };
        rows.push(("machine-layers", desk.tell(key)));
    }
    if is.split_layers {
        rows.push(("machine-split", desk.tell("machine-yes")));
    }
    if is.svg_lines == SvgLines::Shapes {
        let wide = desk.fine(is.hairline.mm());
        rows.push(("machine-svg-lines", desk.say("machine-svg-shapes", vec![("wide", wide)])));
    }
    match is.dxf_layers {
        DxfLayers::Both => {}
        DxfLayers::Names => rows.push(("machine-dxf-layers", desk.tell("machine-dxf-names"))),
        DxfLayers::Colours => rows.push(("machine-dxf-layers", desk.tell("machine-dxf-colours"))),
    }
    if is.dxf_lines == DxfLines::Single {
        rows.push(("machine-dxf-lines", desk.tell("machine-dxf-single")));
    }
    rows
}

/// The register marks of sheets that are printed before they are cut.
fn marks(desk: &Desk<'_>, cutter: &Cutter) -> Vec<(&'static str, Line)> {
    let Some(marks) = cutter.marks else { return Vec::new() };
    let length = |length: Length| desk.fine(length.mm());
    let shape = match marks.shape {
        MarkShape::Corner => "machine-marks-corner",
        MarkShape::Ring => "machine-marks-ring",
        MarkShape::Square => "machine-marks-square",
        MarkShape::Cross => "machine-marks-cross",
    };
    let places = vec![
        ("n", measure::count(marks.number.into(), What::Many, "cutter")),
        ("shape", desk.tell(shape)),
        ("size", length(marks.size)),
        ("inset", length(marks.inset)),
    ];
    let mut rows = vec![("machine-marks", desk.say("machine-marks-are", places))];
    if marks.bleed.mm() > 0.0 {
        rows.push(("machine-bleed", length(marks.bleed)));
    }
    rows
}

/// One kit is made and looked at before the others are cut; where all kits are alike, how thick it is then.
pub(super) fn first(desk: &Desk<'_>, closed: Option<&Closed>) -> Section {
    let mut steps = vec![Step::new(desk.tell("first-cut")), Step::new(desk.tell("first-measure"))];
    if desk.kit().parts.iter().any(|part| !part.flat.scores.is_empty()) {
        steps.push(Step::new(desk.tell("first-fold")));
    }
    let mut made = Step::new(desk.tell("first-make"));
    if let Some(closed) = closed {
        let thick = desk.length(super::given::roughly(desk, closed.thickest), What::Length, "thickest");
        made.lines.push(desk.say("check-close", vec![("thick", thick)]));
    }
    steps.push(made);
    let mut signed = Step::new(desk.tell("first-sign"));
    signed.lines.push(desk.tell("first-signed"));
    steps.push(signed);
    let blocks = vec![Block::Words(desk.tell("first-words")), Block::Steps(steps)];
    Section { id: "first", heading: desk.tell("first-heading"), blocks }
}
