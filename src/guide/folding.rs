// SPDX-License-Identifier: MIT
//! Score, then fold.

use super::bits::{Block, Figure, Section, Step};
use super::cutting::sense;
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use super::pictures;
use super::scoring::{self, Edge, Scored, Setting};
use crate::net::Sense;

/// So many distances go into one sentence: our choice.
const A_LINE: usize = 8;

/// Which edge lies at the fence, where to score, when to turn.
pub(super) fn scoring(desk: &Desk<'_>) -> Option<Section> {
    let order: Vec<usize> = desk.rows.iter().map(|row| row.part).collect();
    let settings = scoring::plan(desk.kit(), &order);
    let askew: Vec<usize> = order.into_iter().filter(|part| !scoring::slanted(desk.kit(), *part).is_empty()).collect();
    if settings.is_empty() && askew.is_empty() {
        return None;
    }
    let mut blocks = vec![Block::Words(desk.tell("score-words")), Block::Words(desk.tell("score-words-face"))];
    for setting in &settings {
        blocks.push(Block::Heading(heading(desk, setting)));
        if setting.at.iter().any(|at| scoring::between_grooves(*at)) {
            blocks.push(Block::Words(desk.tell("score-between-words")));
        }
        blocks.push(Block::Steps(setting.parts.iter().map(|scored| score(desk, setting, scored)).collect()));
    }
    if !askew.is_empty() {
        blocks.push(Block::Heading(desk.tell("score-slanted-heading")));
        let step = |part: &usize| {
            let shows = desk.say("shape-picture", vec![("part", desk.named(*part))]);
            let head = desk.say("score-slanted", vec![("part", desk.named(*part))]);
            Step { figure: Some(Figure { picture: pictures::flat(desk, *part), shows }), ..Step::new(head) }
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

fn score(desk: &Desk<'_>, setting: &Setting, scored: &Scored) -> Step {
    let id = desk.id(scored.part);
    let edge = match scored.edge {
        Edge::Left => "score-left-edge",
        Edge::Top => "score-top-edge",
    };
    let mut step = Step::new(desk.say(edge, vec![("part", desk.named(scored.part))]));
    let at = |across: bool| {
        setting.at.iter().map(|at| desk.length(*at, scored.edge.what(across), id)).collect::<Vec<Line>>()
    };
    step.lines.extend(by_lines(desk, "score-at", &at(false)));
    if scored.again {
        step.lines.extend(by_lines(desk, "score-again", &at(true)));
    }
    let count = desk.rows.iter().find(|row| row.part == scored.part).map_or(0, |row| row.count);
    if count > 1 {
        step.lines.push(desk.say("score-all", vec![("n", measure::count(count, What::Count, id))]));
    }
    let shows = desk.say("score-picture", vec![("part", desk.named(scored.part))]);
    step.figure = Some(Figure { picture: pictures::at_fence(desk, setting, scored), shows });
    step
}

/// Fold each part once, so that it knows the way.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let folded = desk.rows.iter().filter_map(|row| fold(desk, row.part, row.count));
    let steps: Vec<Step> = folded.collect();
    if steps.is_empty() {
        return None;
    }
    let figure = Figure { picture: pictures::key(desk), shows: desk.tell("key-shows") };
    let blocks = vec![
        Block::Words(desk.tell("fold-words")),
        Block::Words(desk.tell("fold-words-spring")),
        Block::Figure(figure),
        Block::Steps(steps),
    ];
    Some(Section { id: "fold", heading: desk.tell("fold-heading"), blocks })
}

fn fold(desk: &Desk<'_>, number: usize, count: u64) -> Option<Step> {
    let marks = scoring::marks(desk.kit(), number);
    let part = desk.part(number)?;
    let askew = scoring::slanted(desk.kit(), number);
    if marks.is_empty() && askew.is_empty() {
        return None;
    }
    let named = vec![("part", desk.named(number)), ("n", measure::count(count, What::Count, &part.id))];
    let mut step = Step::new(desk.say("fold-head", named));
    for kind in [Sense::Valley, Sense::Mountain, Sense::Both] {
        for edge in [Edge::Left, Edge::Top] {
            let here = marks.iter().filter(|mark| mark.edge == edge && mark.score.sense == kind);
            let at: Vec<Line> = here.map(|mark| desk.length(mark.at, edge.what(false), &part.id)).collect();
            if at.is_empty() {
                continue;
            }
            let from = if edge == Edge::Left { "left" } else { "top" };
            let key = format!("{}-at-{from}", sense(kind));
            step.lines.extend(by_lines(desk, &key, &at));
        }
        if askew.iter().any(|score| score.sense == kind) {
            step.lines.push(desk.tell(&format!("{}-askew", sense(kind))));
        }
    }
    if pictures::is_shown_over(desk, number) {
        step.lines.push(desk.tell("fold-over"));
    }
    let shows = desk.say("fold-picture", vec![("part", desk.named(number))]);
    step.figure = Some(Figure { picture: pictures::fold(desk, number), shows });
    Some(step)
}
