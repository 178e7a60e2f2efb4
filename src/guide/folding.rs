// SPDX-License-Identifier: MIT
//! Score, then fold.

use super::bits::{Block, Figure, Section, Step, Table};
use super::cutting::sense;
use super::desk::{A_LINE, Desk};
use super::line::{Line, What};
use super::list::Row;
use super::measure;
use super::pictures;
use super::scoring::{self, FenceEdge, Scored, Setting};
use super::told::Told;
use crate::net::Sense;

/// Which edge lies at the fence, where to score, when to turn.
pub(super) fn scoring(desk: &Desk<'_>) -> Option<Section> {
    let order: Vec<usize> = desk.rows.iter().map(|row| row.part).filter(|part| desk.scores(*part)).collect();
    let settings = scoring::plan(desk.kit(), &order);
    let askew: Vec<usize> = order.into_iter().filter(|part| !scoring::slanted(desk.kit(), *part).is_empty()).collect();
    if settings.is_empty() && askew.is_empty() {
        return None;
    }
    let words = ["score-words", "score-words-face"].map(|key| Block::Words(desk.tell(key)));
    let mut blocks = words.to_vec();
    if settings.iter().flat_map(|setting| &setting.at).any(|at| scoring::between_grooves(*at)) {
        blocks.push(Block::Words(desk.tell("score-between-words")));
    }
    for setting in &settings {
        blocks.push(Block::Heading(heading(desk, setting)));
        let mut alike: Vec<Vec<&Scored>> = Vec::new();
        for scored in &setting.parts {
            match alike.iter_mut().find(|some| (some[0].edge, some[0].again) == (scored.edge, scored.again)) {
                Some(some) => some.push(scored),
                None => alike.push(vec![scored]),
            }
        }
        blocks.push(Block::Steps(alike.iter().filter_map(|some| score(desk, setting, some)).collect()));
    }
    if !askew.is_empty() {
        blocks.push(Block::Heading(desk.tell("score-slanted-heading")));
        let step = |part: &usize| {
            let shows = desk.say("shape-picture", vec![("part", desk.named(*part))]);
            let head = desk.say("score-slanted", vec![("part", desk.named(*part))]);
            let of = scoring::slanted(desk.kit(), *part).into_iter().map(|score| Told::Score(*part, score)).collect();
            Step { of, figure: Some(Figure { picture: pictures::flat(desk, *part), shows }), ..Step::new(head) }
        };
        blocks.push(Block::Steps(askew.iter().map(step).collect()));
    }
    Some(Section { id: "score", heading: desk.tell("score-section"), blocks })
}

/// The distances, or how many there are where they would fill a line.
fn heading(desk: &Desk<'_>, setting: &Setting) -> Line {
    if setting.at.len() > A_LINE {
        let many = u64::try_from(setting.at.len()).unwrap_or(u64::MAX);
        return desk.say("score-heading-many", vec![("n", measure::count(many, What::Many, "fence"))]);
    }
    let at = setting.at.iter().map(|at| desk.length(*at, What::Length, "fence")).collect();
    desk.say("score-heading", vec![("at", desk.words.list(at))])
}

/// The same sentence for every few numbers, so that none is too long to keep in mind.
fn by_lines<'a>(desk: &'a Desk<'_>, key: &'a str, numbers: &'a [Line]) -> impl Iterator<Item = Line> + 'a {
    numbers.chunks(A_LINE).map(move |few| desk.say(key, vec![("at", desk.words.list(few.to_vec()))]))
}

/// Parts of which the same edge lies at the fence at one setting.
fn score(desk: &Desk<'_>, setting: &Setting, alike: &[&Scored]) -> Option<Step> {
    let scored = *alike.first()?;
    let id = desk.id(scored.part);
    let (one, many) = match scored.edge {
        FenceEdge::Left => ("score-left-edge", "score-left-edges"),
        FenceEdge::Top => ("score-top-edge", "score-top-edges"),
    };
    let rows: Vec<&Row> =
        alike.iter().filter_map(|scored| desk.rows.iter().find(|row| row.part == scored.part)).collect();
    let (head, lines) = desk.several(&rows, one, many);
    let mut step = Step { lines, ..Step::new(head) };
    let of_whole = setting.at.iter().zip(&setting.only).filter(|(_, only)| only.is_none());
    let whole: Vec<f64> = of_whole.map(|(at, _)| *at).collect();
    let at =
        |across: bool| whole.iter().map(|at| desk.length(*at, scored.edge.what(across), id)).collect::<Vec<Line>>();
    step.lines.extend(by_lines(desk, "score-at", &at(false)));
    for (at, only) in setting.at.iter().zip(&setting.only) {
        let Some([from, to]) = *only else { continue };
        let ends = [from, to].map(|mm| desk.length(mm, What::Length, id));
        let [from, to] = ends;
        let key = if scored.edge == FenceEdge::Left { "score-part-left" } else { "score-part-top" };
        let at = desk.length(*at, scored.edge.what(false), id);
        step.lines.push(desk.say(key, vec![("at", at), ("from", from), ("to", to)]));
    }
    if scored.again {
        step.lines.extend(by_lines(desk, "score-again", &at(true)));
    }
    if let [row] = rows[..]
        && row.count > 1
    {
        step.lines.push(desk.say("score-all", vec![("n", measure::count(row.count, What::Count, id))]));
    }
    for scored in alike {
        let marks = scoring::marks(desk.kit(), scored.part).into_iter().filter(|mark| mark.edge == scored.edge);
        step.of.extend(marks.flat_map(|mark| mark.scores).map(|score| Told::Score(scored.part, score)));
    }
    let shows = desk.say("score-picture", vec![("part", desk.named(scored.part))]);
    step.figure = Some(Figure { picture: pictures::at_fence(desk, setting, scored), shows });
    Some(step)
}

/// Fold each part once, so that it knows the way.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let mut folded: Vec<(Step, Vec<&Row>)> = Vec::new();
    for row in &desk.rows {
        let Some(step) = fold(desk, row.part) else { continue };
        let words = |step: &Step| step.lines.iter().map(Line::plain).collect::<Vec<_>>();
        // What its picture alone shows is like nothing else.
        let own = !scoring::slanted(desk.kit(), row.part).is_empty();
        match folded.iter_mut().find(|(one, _)| !own && words(one) == words(&step)) {
            Some((one, rows)) => {
                one.of.extend(step.of);
                rows.push(row);
            }
            None => folded.push((step, vec![row])),
        }
    }
    if folded.is_empty() {
        return None;
    }
    let named = |(mut step, rows): (Step, Vec<&Row>)| {
        let (head, more) = desk.several(&rows, "fold-head", "fold-heads");
        step.head = head;
        step.lines.splice(0..0, more);
        step
    };
    let told = |mut alike: Vec<(Step, Vec<&Row>)>| {
        if alike.len() < TABLED {
            return alike.into_iter().map(named).collect();
        }
        let rows = alike.iter().flat_map(|(_, rows)| rows.iter().copied()).collect::<Vec<_>>();
        let of = alike.iter().flat_map(|(step, _)| step.of.iter().copied()).collect();
        let figure = alike.first_mut().and_then(|(step, _)| step.figure.take());
        vec![Step { figure, of, ..tabled(desk, &rows) }]
    };
    let steps = by_places(desk, folded).into_iter().flat_map(told).collect();
    let figure = Figure { picture: pictures::key(desk), shows: desk.tell("key-shows") };
    let mut words = vec!["fold-words", "fold-words-spring"];
    // A hinge's outer folds bend either way: they are worked before anything holds them.
    if desk.kit().parts.iter().any(|part| part.flat.scores.iter().any(|score| score.sense == Sense::Both)) {
        words.extend(["work-how", "work-why"]);
    }
    let words = words.into_iter().map(|key| Block::Words(desk.tell(key)));
    let faces = desk.tell(if shows_backs(desk) { "key-faces-pictured" } else { "key-faces" });
    let blocks = words.chain([Block::Figure(figure), Block::Words(faces), Block::Steps(steps)]).collect();
    Some(Section { id: "fold", heading: desk.tell("fold-heading"), blocks })
}

/// Whether a stock that is cut from is shown as in a picture of its back, which need not be darker than its front.
fn shows_backs(desk: &Desk<'_>) -> bool {
    let stocks = desk.job.album.order().stocks;
    let pictured = |stock: usize| {
        stocks.get(stock).is_some_and(|stock| stock.pictures.back.as_ref().is_some_and(|back| back.raster.is_some()))
    };
    desk.kit().parts.iter().any(|part| part.count > 0 && pictured(part.stock))
}

/// So many parts that are folded alike but for the distances are told once, with a table of these: our choice.
const TABLED: usize = 3;

/// A kind's name, whether the picture shows the back, and its scores.
type FoldedLike = (&'static str, bool, Vec<(FenceEdge, Sense, bool)>);

/// What parts that are folded alike share: their name, and of each score where it is measured from, how it is folded, and
/// whether it lies in the nearer half. Nothing where a picture tells more, or a sentence takes not all distances.
fn places(desk: &Desk<'_>, rows: &[&Row]) -> Option<FoldedLike> {
    let kind = desk.part(rows.first()?.part)?.kind;
    let of = |row: &&Row| {
        desk.part(row.part).filter(|part| part.kind == kind)?;
        let marks = scoring::marks(desk.kit(), row.part);
        if marks.len() > A_LINE || !scoring::slanted(desk.kit(), row.part).is_empty() {
            return None;
        }
        let over = pictures::is_shown_over(desk, row.part);
        let mut all: Vec<_> = marks.iter().map(|mark| (mark.edge, mark.sense, mark.at < mark.back)).collect();
        all.sort_by_key(|(edge, sense, near)| (*edge, *sense, !near));
        Some((kind, over, all))
    };
    let all: Option<Vec<_>> = rows.iter().map(of).collect();
    all?.into_iter().reduce(|one, other| if one == other { one } else { (kind, one.1, Vec::new()) })
}

/// Parts that are folded alike but for the distances, together where the first of them stands.
fn by_places<'a>(desk: &Desk<'_>, folded: Vec<(Step, Vec<&'a Row>)>) -> Vec<Vec<(Step, Vec<&'a Row>)>> {
    let mut groups: Vec<Vec<(Step, Vec<&Row>)>> = Vec::new();
    for one in folded {
        let own = places(desk, &one.1).filter(|(.., scores)| !scores.is_empty());
        let like = |group: &&mut Vec<(Step, Vec<&Row>)>| own.is_some() && places(desk, &group[0].1) == own;
        match groups.iter_mut().find(like) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
}

/// How parts are folded whose distances alone differ: a row of them for each part.
fn tabled(desk: &Desk<'_>, rows: &[&Row]) -> Step {
    let ways = [Sense::Valley, Sense::Mountain, Sense::Both]
        .into_iter()
        .flat_map(|sense| [FenceEdge::Left, FenceEdge::Top].map(|edge| (sense, edge)));
    let at = |part: usize, (kind, edge): (Sense, FenceEdge)| {
        let marks = scoring::marks(desk.kit(), part).into_iter();
        let here = marks.filter(|mark| mark.edge == edge && mark.sense == kind);
        here.map(|mark| desk.length(mark.at, edge.what(false), desk.id(part))).collect::<Vec<Line>>()
    };
    let first = rows.first().map_or(0, |row| row.part);
    let ways: Vec<(Sense, FenceEdge)> = ways.filter(|way| !at(first, *way).is_empty()).collect();
    let head = ways.iter().map(|(kind, edge)| {
        let from = if *edge == FenceEdge::Left { "left" } else { "top" };
        desk.tell(&format!("{}-head-{from}", sense(*kind)))
    });
    let row = |row: &&Row| {
        let places = ways.iter().map(|way| desk.words.list(at(row.part, *way)));
        std::iter::once(desk.times(row)).chain(places).collect()
    };
    let table = Table {
        caption: Line::default(),
        head: std::iter::once(desk.tell("cut-head-piece")).chain(head).collect(),
        rows: rows.iter().map(row).collect(),
    };
    let mut step = Step { table: Some(table), ..Step::new(desk.tell("fold-each")) };
    if pictures::is_shown_over(desk, first) {
        step.lines.push(desk.tell("fold-over"));
    }
    step
}

/// How a part is folded; its name is left open.
fn fold(desk: &Desk<'_>, number: usize) -> Option<Step> {
    let marks = scoring::marks(desk.kit(), number);
    let part = desk.part(number).filter(|part| !desk.job.album.is_ready(part.stock))?;
    let askew = scoring::slanted(desk.kit(), number);
    if marks.is_empty() && askew.is_empty() {
        return None;
    }
    let mut step = Step::default();
    for kind in [Sense::Valley, Sense::Mountain, Sense::Both] {
        for edge in [FenceEdge::Left, FenceEdge::Top] {
            let here = marks.iter().filter(|mark| mark.edge == edge && mark.sense == kind);
            let at: Vec<Line> = here.map(|mark| desk.length(mark.at, edge.what(false), &part.id)).collect();
            if at.is_empty() {
                continue;
            }
            let from = if edge == FenceEdge::Left { "left" } else { "top" };
            let key = format!("{}-at-{from}", sense(kind));
            step.lines.extend(by_lines(desk, &key, &at));
        }
        if askew.iter().any(|&score| part.flat.scores[score].sense == kind) {
            step.lines.push(desk.tell(&format!("{}-askew", sense(kind))));
        }
    }
    if pictures::is_shown_over(desk, number) {
        step.lines.push(desk.tell("fold-over"));
    }
    step.of = (0..part.flat.scores.len()).map(|score| Told::Fold(number, score)).collect();
    let shows = desk.say("fold-picture", vec![("part", desk.named(number))]);
    step.figure = Some(Figure { picture: pictures::fold(desk, number), shows });
    Some(step)
}
