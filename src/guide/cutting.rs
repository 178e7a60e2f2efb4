// SPDX-License-Identifier: MIT
//! Cut the pieces: the list, then sheet by sheet, on the trimmer or as the machine's files have it.

use super::bits::{Block, Figure, Section, Step, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::list::{self, Lies, Row, TRIMMER};
use super::scoring::{self, FenceEdge, ScoreMark};
use super::trimmer::{self, Lying, PieceTurn, Plan, Thing};
use super::windows::{in_pairs, in_windows};
use super::words::Words;
use super::{backs, beds, cautions, measure, pictures, ways};
use crate::length::Units;
use crate::net::Sense;
use crate::picture::{self, SheetWords};
use crate::sheets::Sheet;
use crate::stock::Pattern;

/// More names than this on the back of a piece say less: our choice.
const MOST_USES: usize = 4;

/// Columns of the list.
const HEADS: [&str; 7] = ["mark", "piece", "count", "size", "scores", "lies", "back"];

/// Cut what comes in sheets.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let mine = |row: &Row| desk.cuts(row.part);
    if !desk.rows.iter().any(mine) {
        return None;
    }
    let mut blocks = vec![cautions::cutting(desk), Block::Words(desk.tell("cut-words"))];
    blocks.extend(tables(desk, &mine, &HEADS));
    blocks.push(Block::List(notes(desk)));
    blocks.extend(sheets(desk));
    Some(Section { id: "cut", heading: desk.tell("cut-heading"), blocks })
}

/// The list of some rows, a table for each stock.
pub(super) fn tables(desk: &Desk<'_>, which: &dyn Fn(&Row) -> bool, heads: &[&str]) -> Vec<Block> {
    let heads = with_other_system(desk, heads);
    let table = |(number, stock): (usize, &crate::stock::Stock)| {
        let of_stock = |row: &&Row| desk.part(row.part).is_some_and(|part| part.stock == number) && which(row);
        let rows: Vec<Vec<Line>> = desk.rows.iter().filter(of_stock).map(|row| cells(desk, row, &heads)).collect();
        (!rows.is_empty()).then(|| {
            Block::Table(Table {
                caption: desk.say("cut-caption", vec![("stock", Line::text(desk.called(stock)))]),
                head: heads.iter().map(|head| desk.tell(&format!("cut-head-{head}"))).collect(),
                rows,
            })
        })
    };
    desk.job.album.stocks.iter().enumerate().filter_map(table).collect()
}

/// Where lengths are told in both systems, sizes in the other one have a column of their own: rows stay on one line.
fn with_other_system<'a>(desk: &Desk<'_>, heads: &[&'a str]) -> Vec<&'a str> {
    let other = if desk.measure.units == Units::In { "size-mm" } else { "size-in" };
    let more = |head: &&'a str| [*head].into_iter().chain((*head == "size" && desk.measure.both).then_some(other));
    heads.iter().flat_map(more).collect()
}

fn cells(desk: &Desk<'_>, row: &Row, heads: &[&str]) -> Vec<Line> {
    let Some(part) = desk.part(row.part) else { return Vec::new() };
    let cell = |head: &&str| match *head {
        "mark" => Line::mark(row.mark.clone()),
        "piece" => desk.say(
            "cut-piece",
            vec![("kind", Line::text(desk.words.term(part.kind))), ("id", Line::text(part.id.as_str()))],
        ),
        "size" => desk.sides_in(&desk.measure.alone(), part, if row.long { "cut-size-long" } else { "cut-size" }),
        "size-mm" | "size-in" => desk.sides_in(&desk.measure.other(), part, "cut-size"),
        // Who is handed pieces knows them by letter, name and size: files are the maker's.
        "name" => Line::text(desk.words.term(part.kind)),
        "scores" => scores(desk, row.part),
        "lies" => desk.tell(lies(row.lies)),
        "back" => back(desk, row),
        _ => measure::count(row.count, What::Count, &part.id),
    };
    heads.iter().map(cell).collect()
}

/// The entry for how a piece lies on its stock.
pub(super) const fn lies(lies: Lies) -> &'static str {
    match lies {
        Lies::Any => "lies-any",
        Lies::Grain => "lies-grain",
        Lies::Pattern => "lies-pattern",
        Lies::Sideways => "lies-sideways",
    }
}

/// The scores of a part from its left, then from its top.
fn scores(desk: &Desk<'_>, part: usize) -> Line {
    let marks = scoring::marks(desk.kit(), part);
    let of_edge = |edge: FenceEdge| {
        let items: Vec<Line> =
            marks.iter().filter(|mark| mark.edge == edge).map(|mark| score(desk, part, mark)).collect();
        let key = if edge == FenceEdge::Left { "scores-left" } else { "scores-top" };
        (!items.is_empty()).then(|| desk.say(key, vec![("scores", desk.words.list(items))]))
    };
    let mut lines: Vec<Line> = [FenceEdge::Left, FenceEdge::Top].into_iter().filter_map(of_edge).collect();
    if !scoring::slanted(desk.kit(), part).is_empty() {
        lines.push(desk.tell("scores-slanted"));
    }
    if lines.is_empty() { desk.tell("scores-none") } else { Words::joined(lines) }
}

/// One score: where it is, whether a board has a groove there, which way it folds.
fn score(desk: &Desk<'_>, part: usize, mark: &ScoreMark) -> Line {
    let at = desk.length(mark.at, mark.edge.what(false), desk.id(part));
    let fold = Line::text(desk.words.text(sense(mark.sense)));
    let key = match (scoring::between_grooves(mark.at), mark.only.is_some()) {
        (true, false) => "score-between",
        (true, true) => "score-between-part",
        (false, false) => "score-groove",
        (false, true) => "score-groove-part",
    };
    desk.say(key, vec![("at", at), ("fold", fold)])
}

pub(super) const fn sense(sense: Sense) -> &'static str {
    match sense {
        Sense::Valley => "fold-valley",
        Sense::Mountain => "fold-mountain",
        Sense::Both | Sense::Bent => "fold-both",
    }
}

/// What to write on the back of a piece: of many alike the letter alone, for the steps say where each one goes.
fn back(desk: &Desk<'_>, row: &Row) -> Line {
    let uses = desk.part(row.part).map_or(&[][..], |part| &part.used_in);
    let mark = ("mark", Line::mark(row.mark.clone()));
    if uses.len() > MOST_USES {
        return desk.say("cut-back-alike", vec![mark]);
    }
    desk.say(
        "cut-back",
        vec![mark, ("uses", desk.words.row(uses.iter().map(|name| desk.words.name(name).into()).collect()))],
    )
}

/// What the marks in the list mean, where there are any.
pub(super) fn notes(desk: &Desk<'_>) -> Vec<Line> {
    let kit = desk.kit();
    let all = || (0..kit.parts.len()).flat_map(|part| scoring::marks(kit, part));
    let mut notes = vec![desk.tell("cut-note-edges")];
    if all().any(|mark| scoring::between_grooves(mark.at)) {
        notes.push(desk.tell("cut-note-between"));
    }
    let cut = |which: &dyn Fn(&Row) -> bool| desk.rows.iter().any(|row| which(row) && desk.cuts(row.part));
    if cut(&|row| row.long) {
        let trimmer = measure::number(desk.measure.show_both(TRIMMER), TRIMMER, What::Length, "trimmer");
        notes.push(desk.say("cut-note-long", vec![("trimmer", trimmer)]));
    }
    if cut(&|row| row.shaped) {
        notes.push(desk.tell("cut-note-shaped"));
    }
    if desk.job.album.units == Units::In {
        let sizes = kit.parts.iter().flat_map(|part| [part.flat.width, part.flat.height]);
        if sizes.chain(all().map(|mark| mark.at)).any(|mm| !measure::on_ruler(mm)) {
            notes.push(desk.tell("cut-note-ruler"));
        }
    }
    notes
}

fn sheets(desk: &Desk<'_>) -> Vec<Block> {
    let mut blocks = ways::told(desk);
    for laid in &desk.stocks {
        for sheet in &laid.sheets {
            let heading = vec![
                ("sheet", Line::text(sheet.name.clone())),
                ("n", measure::count(u64::from(sheet.times), What::Sheets, &sheet.name)),
                ("width", desk.length(sheet.width, What::SheetWidth, &sheet.name)),
                ("height", desk.length(sheet.height, What::SheetHeight, &sheet.name)),
            ];
            blocks.push(Block::Heading(desk.say("sheet-heading", heading)));
            if desk.job.album.order().lies(laid.stock, sheet.size).is_some() {
                blocks.push(Block::Words(desk.tell("sheet-from-drawer")));
            }
            if let Some(plan) = desk.plan(&sheet.name) {
                blocks.push(Block::Words(stands(desk, laid.stock, sheet)));
                if sheet.times > 1 {
                    blocks.push(Block::Words(desk.tell("cut-stack")));
                }
                blocks.push(Block::Steps(plan.steps.iter().map(|step| cut(desk, plan, step)).collect()));
            } else {
                let letter = |part: usize| list::mark(&desk.rows, part).to_owned();
                let offcut = desk.words.text("sheet-offcut");
                let times = |sheet: &Sheet| {
                    let times = measure::count(u64::from(sheet.times), What::Many, "");
                    desk.say("sheet-times", vec![("sheet", Line::text(sheet.name.clone())), ("n", times)]).plain()
                };
                let size = |size: &str| desk.measure.notation.write(size);
                let words = SheetWords { letter: &letter, offcut: &offcut, times: &times, size: &size };
                let picture = picture::sheet_worded(desk.job.album.order(), desk.kit(), laid.stock, sheet, words);
                let shows = desk.say("machine-picture", vec![("sheet", Line::text(sheet.name.clone()))]);
                let mut steps = backs::first(desk, laid.stock, sheet);
                steps.push(Step::new(beds::cut(desk, &sheet.name)));
                blocks.push(Block::Steps(steps));
                blocks.extend(in_windows(desk, sheet).into_iter().chain(in_pairs(desk, sheet)).map(Block::Words));
                blocks.push(Block::Figure(Figure { picture, shows }));
            }
        }
    }
    let offcuts: Vec<Line> =
        desk.plans.iter().flat_map(|plan| plan.offcuts().into_iter().map(|one| kept(desk, plan, &one))).collect();
    if !offcuts.is_empty() {
        blocks.push(Block::Heading(desk.tell("offcuts-heading")));
        blocks.push(Block::List(offcuts));
    }
    blocks
}

/// How the sheet lies before the first cut.
fn stands(desk: &Desk<'_>, stock: usize, sheet: &Sheet) -> Line {
    let Some(stock) = desk.stock(stock) else { return Line::default() };
    let size = vec![
        ("width", desk.length(sheet.width, What::SheetWidth, &sheet.name)),
        ("height", desk.length(sheet.height, What::SheetHeight, &sheet.name)),
    ];
    let grain = stock.sheets.get(sheet.size).and_then(|size| stock.stood(size).grain_upright);
    let key = match (stock.pattern, grain) {
        (Pattern::OneWay, _) => "sheet-stands-pattern",
        (_, Some(true)) => "sheet-stands-grain",
        (_, Some(false)) => "sheet-stands-across",
        _ => "sheet-stands",
    };
    desk.say(key, size)
}

/// An offcut, and the largest part that could still be cut from it.
fn kept(desk: &Desk<'_>, plan: &Plan, lying: &Lying) -> Line {
    let [width, height] = lying.size;
    let fits = |row: &&Row| {
        desk.part(row.part).filter(|part| part.stock == plan.stock).is_some_and(|part| {
            let (wide, tall) = (part.flat.width, part.flat.height);
            let upright = wide <= width && tall <= height;
            upright || (row.lies == Lies::Any && tall <= width && wide <= height)
        })
    };
    let mut places = vec![
        ("what", thing(desk, lying)),
        ("stock", Line::text(desk.stock(plan.stock).map_or("", |stock| desk.called(stock)))),
        ("width", desk.length(width, What::SheetWidth, &plan.sheet)),
        ("height", desk.length(height, What::SheetHeight, &plan.sheet)),
    ];
    // The list has the largest part first.
    if let Some(row) = desk.rows.iter().find(fits) {
        places.push(("part", desk.named(row.part)));
        desk.say("offcut-spare", places)
    } else {
        desk.say("offcut-try", places)
    }
}

/// One step at the trimmer.
fn cut(desk: &Desk<'_>, plan: &Plan, step: &trimmer::TrimStep) -> Step {
    let stop = desk.length(step.stop, What::Stop, &plan.sheet);
    let head = if step.moves { "plan-set" } else { "plan-leave" };
    let mut made = Step::new(desk.say(head, vec![("stop", stop)]));
    let piece = thing(desk, &step.piece);
    let turn = match (step.turn, step.upright) {
        (PieceTurn::Clockwise, _) => "plan-turn",
        (PieceTurn::Back, _) => "plan-turn-back",
        (PieceTurn::Keep, true) => "plan-left",
        (PieceTurn::Keep, false) => "plan-lower",
    };
    let several = if step.piece.many > 1 { "-each" } else { "" };
    made.lines.push(desk.say(&format!("{turn}{several}"), vec![("piece", piece)]));
    for off in &step.off {
        let each = off.many / step.piece.many.max(1);
        let names = vec![("n", measure::count(u64::from(each), What::Many, "")), ("what", thing(desk, off))];
        made.lines.push(desk.say(if off.is == Thing::Waste { "plan-trim" } else { "plan-cut" }, names));
    }
    let what = thing(desk, &step.rest);
    let rest = match step.rest.is {
        Thing::Sheet | Thing::Strip(_) if step.rest.is == step.piece.is => "plan-rest-more",
        Thing::Sheet | Thing::Strip(_) => "plan-rest-strip",
        Thing::Part(..) => "plan-rest-part",
        Thing::Offcut(_) => "plan-rest-offcut",
        Thing::Waste => "plan-rest-waste",
    };
    let size = step.rest.size;
    let size = vec![
        ("what", what),
        ("width", desk.length(size[0], What::SheetWidth, &plan.sheet)),
        ("height", desk.length(size[1], What::SheetHeight, &plan.sheet)),
    ];
    made.lines.push(desk.say(rest, size));
    if step.length() > TRIMMER + 0.05 {
        made.warn
            .push(desk.say("plan-long", vec![("length", desk.length(step.length(), What::SheetHeight, &plan.sheet))]));
    }
    let shows = desk.say("plan-picture", vec![("piece", thing(desk, &step.piece))]);
    made.figure = Some(Figure { picture: pictures::trim(desk, step), shows });
    made.data = data(plan, step);
    made
}

/// What programs may want to know of a cut, so that they can try it.
fn data(plan: &Plan, step: &trimmer::TrimStep) -> Vec<(&'static str, String)> {
    let word = |lying: &Lying| match lying.is {
        Thing::Sheet => "sheet".to_owned(),
        Thing::Strip(number) => format!("strip-{number}"),
        Thing::Part(number, quarters) => format!("part-{number}-{quarters}"),
        Thing::Offcut(number) => format!("offcut-{number}"),
        Thing::Waste => "waste".to_owned(),
    };
    let off: Vec<String> = step.off.iter().map(|off| format!("{}x{}", off.many, word(off))).collect();
    let turn = match step.turn {
        PieceTurn::Keep => "keep",
        PieceTurn::Clockwise => "clockwise",
        PieceTurn::Back => "back",
    };
    vec![
        ("turn", turn.to_owned()),
        ("sheet", plan.sheet.clone()),
        ("times", plan.times.to_string()),
        ("piece", word(&step.piece)),
        ("stop", format!("{:.4}", step.stop)),
        ("from", if step.upright { "left" } else { "lower" }.to_owned()),
        ("off", off.join(" ")),
        ("rest", word(&step.rest)),
    ]
}

/// The name of something on the table.
pub(super) fn thing(desk: &Desk<'_>, lying: &Lying) -> Line {
    let number = |number: usize| Line::text(number.to_string());
    match lying.is {
        Thing::Sheet => desk.tell("thing-sheet"),
        Thing::Strip(strip) => desk.say("thing-strip", vec![("n", number(strip))]),
        Thing::Part(part, _) => desk.named(part),
        Thing::Offcut(offcut) => desk.say("thing-offcut", vec![("n", number(offcut))]),
        Thing::Waste => desk.tell("thing-waste"),
    }
}
