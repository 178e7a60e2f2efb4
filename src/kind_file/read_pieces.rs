// SPDX-License-Identifier: MIT
//! Reads the pieces of a kind: rows of panels, rows that hang on these, what is cut out of them.

use super::formula::{Formula, Quantity, Term};
use super::kind_words::{CornersWord, EdgeWord, FoldWay, RowWay};
use super::model::{KindCorner, KindNotch, KindPanel, KindPiece};
use super::reading::KindReading;
use super::tables::{
    ACROSS, ALIKE, ANGLE, CALLED, CLIPPED, CORNER_FIELDS, CORNERS, CORNERS_AT, DRAWN, FOLD, HEIGHT, HOLES, MARKS,
    NOTCH_AT, NOTCH_FIELDS, NOTCHES, PANEL_FIELDS, PANEL_NAME, PANELS, PIECE_FIELDS, ROUNDED, ROW, SPINE_GRAIN, TAPER,
    TIMES, USE, WHEN, WIDTH, hung,
};
use crate::fields::{Node, Values, join};
use crate::finding::{Arg, Place, Said};
use crate::length::excerpt;

/// Rows that hang on rows: our choice.
const DEEPEST: usize = 4;

/// Most panels of a piece: our choice.
const MOST_PANELS: usize = 60;

/// Where a panel stands in its row.
#[derive(Clone, Copy)]
struct InRow {
    runs: RowWay,
    /// Whether one is before it, or carries it.
    follows: bool,
    depth: usize,
    /// Whether none follows it.
    last: bool,
}

impl KindReading<'_, '_> {
    pub(super) fn kind_pieces(&mut self, node: &Node, path: &str) -> Vec<KindPiece> {
        let mut pieces = Vec::new();
        let named = self.named(node, path);
        if named.is_empty() {
            let place = self.reader.place(&node.range, path);
            if matches!(&node.tree, crate::fields::Tree::Object(_)) {
                self.reader.problem("no-pieces", Said::new("no-pieces"), Said::new("no-pieces-help"), &place);
            }
        }
        self.alone = named.len() == 1;
        for (name, place, node) in named {
            let path = format!("{path}.{name}");
            self.plain_name(name, &place);
            if let Some(piece) = self.kind_piece(name, node, &path) {
                let mut names = Vec::new();
                all_names(&piece.panels, &mut names);
                self.pieces.push((name.to_owned(), names.into_iter().map(|(name, ..)| name).collect()));
                pieces.push(piece);
            }
        }
        pieces
    }

    /// Names of pieces and panels are printed, and stand before and behind a slash.
    fn plain_name(&mut self, name: &str, place: &Place) {
        let sound = !name.trim().is_empty()
            && name.trim() == name
            && name.chars().count() <= 40
            && name.chars().all(|c| c.is_alphanumeric() || c == ' ' || c == '-');
        if !sound {
            let text = Said::new("bad-panel-name").with("name", Arg::quoted(excerpt(name)));
            self.reader.problem("bad-name", text, Said::new("bad-panel-name-help"), place);
        }
    }

    fn kind_piece(&mut self, name: &str, node: &Node, path: &str) -> Option<KindPiece> {
        let values = self.reader.object(node, path, Said::new("a-piece"), &[PIECE_FIELDS])?;
        let runs = values.get(ROW);
        let breadth = self.side((&values, node), runs, false, path);
        let row = InRow { runs, follows: false, depth: 0, last: false };
        let panels = values.get(PANELS).map(|node| self.kind_panels(node, &join(path, "panels"), row));
        let panels = panels.unwrap_or_default();
        let mut names: Vec<(String, Place, bool)> = Vec::new();
        all_names(&panels, &mut names);
        if names.len() > MOST_PANELS {
            let place = values.whole()?;
            let text = Said::new("too-many-entries").with("field", Arg::field("panels")).with("count", names.len());
            self.reader.problem("too-many", text.with("most", MOST_PANELS), Said::NOTHING, place);
        }
        for (number, (panel, place, sometimes)) in names.iter().enumerate() {
            // Two that are never there together may share a name.
            if names[..number].iter().any(|(known, _, too)| known == panel && !(*sometimes && *too)) {
                let text = Said::new("twice-panel").with("name", Arg::quoted(excerpt(panel)));
                self.reader.problem("twice", text, Said::new("twice-panel-help"), place);
            }
        }
        let kind = self.kind.replace('-', " ");
        let own = if self.alone { kind } else { format!("{kind} {name}") };
        let called = values.get(CALLED).map_or(own, str::to_owned);
        Some(KindPiece {
            name: name.to_owned(),
            alike: values.get(ALIKE).unwrap_or(&called).to_owned(),
            called,
            runs,
            breadth,
            panels,
            grain: values.get(SPINE_GRAIN),
            place: values.whole()?.clone(),
        })
    }

    /// How broad a row is, or how deep one of its panels is; what its row says already must not stand there.
    fn side(&mut self, (values, node): (&Values, &Node), runs: RowWay, of_panel: bool, path: &str) -> Formula {
        let across = (runs == RowWay::Across) == of_panel;
        let (wanted, other) = if across { (WIDTH, HEIGHT) } else { (HEIGHT, WIDTH) };
        if let Some(place) = values.place(other).filter(|_| values.says(other)) {
            let text = Said::new(if of_panel { "side-of-row" } else { "side-of-panels" });
            let text = text.with("field", Arg::field(other.name())).with("row", Arg::quoted(runs.word()));
            let help = Said::new("side-help").with("field", Arg::field(other.name()));
            self.reader.problem("wrong-side", text.with("wanted", Arg::field(wanted.name())), help, place);
        }
        if let Some(found) = self.formula_or(values.get(wanted), values.place(wanted), Quantity::Length) {
            return found;
        }
        let whole = values.whole().cloned();
        let place = whole.unwrap_or_else(|| self.reader.place(&(0..0), path));
        if node.get(wanted.name()).is_none() {
            let text = Said::new("no-side").with("field", Arg::field(wanted.name()));
            let text = text.with("row", Arg::quoted(runs.word()));
            let help = Said::new("no-side-help").with("field", Arg::field(wanted.name()));
            self.reader.problem("missing", text, help, &place);
        }
        Formula { term: Term::Value(0.0), measure: Quantity::Length, text: String::new(), place }
    }

    fn kind_panels(&mut self, node: &Node, path: &str, row: InRow) -> Vec<KindPanel> {
        let mut panels = Vec::new();
        if row.depth > DEEPEST {
            let place = self.reader.place(&node.range, path);
            let text = Said::new("rows-too-deep").with("most", DEEPEST);
            self.reader.problem("rows-too-deep", text, Said::new("rows-too-deep-help"), &place);
            return panels;
        }
        let items = self.entries(node, path);
        if items.is_empty() && matches!(&node.tree, crate::fields::Tree::Array(_)) {
            let place = self.reader.place(&node.range, path);
            self.reader.problem("no-panels", Said::new("no-panels"), Said::new("no-panels-help"), &place);
        }
        for (number, item) in items.iter().enumerate() {
            let row = InRow { follows: row.follows || number > 0, last: number + 1 == items.len(), ..row };
            panels.extend(self.kind_panel(item, &format!("{path}[{number}]"), row));
        }
        panels
    }

    fn kind_panel(&mut self, node: &Node, path: &str, row: InRow) -> Option<KindPanel> {
        let values = self.reader.object(node, path, Said::new("a-panel"), &[PANEL_FIELDS])?;
        let place = values.whole()?.clone();
        if let Some(place) = values.place(PANEL_NAME).filter(|_| values.says(PANEL_NAME)) {
            self.plain_name(values.get(PANEL_NAME), place);
        }
        let fold = self.fold(&values, row, (node, &place));
        let angle = values.get(ANGLE).unwrap_or(180.0);
        if let Some(place) = values.place(ANGLE).filter(|_| !(0.0..=180.0).contains(&angle)) {
            let text = Said::new("bad-angle").with("found", angle.to_string());
            self.reader.problem("out-of-range", text, Said::new("bad-angle-help"), place);
        }
        let taper = values.get(TAPER).and_then(|node| self.formulas::<2>(node, &join(path, "taper")));
        let corners = values.get(CORNERS).map(|node| self.corners(node, &join(path, "corners"))).unwrap_or_default();
        let notches = values.get(NOTCHES).map(|node| self.notches(node, &join(path, "notches"))).unwrap_or_default();
        let holes = values.get(HOLES).map(|node| self.holes(node, &join(path, "holes"))).unwrap_or_default();
        let marks = values.get(MARKS).map(|node| self.marks(node, &join(path, "marks"))).unwrap_or_default();
        let outline = values.get(DRAWN).and_then(|node| {
            self.drawn_alone((&values, node), row, path);
            self.drawn_panel(node, &join(path, "outline"))
        });
        Some(KindPanel {
            name: values.get(PANEL_NAME).to_owned(),
            purpose: values.get(USE),
            depth: self.side((&values, node), row.runs, true, path),
            fold,
            angle,
            taper,
            when: self.condition(values.get(WHEN), values.place(WHEN)),
            times: self.formula_or(values.get(TIMES), values.place(TIMES), Quantity::Number),
            corners,
            notches,
            outline,
            holes,
            marks,
            hung: self.hung_rows(&values, path, row),
            place,
        })
    }

    fn fold(&mut self, values: &Values, row: InRow, (node, whole): (&Node, &Place)) -> FoldWay {
        let fold = values.get(FOLD);
        // Of several the second is folded on the first.
        let follows = row.follows || node.get(TIMES.name()).is_some();
        match (follows, fold, values.place(FOLD)) {
            // A word that there is not is told already.
            (true, None, _) if node.get(FOLD.name()).is_none() => {
                self.reader.problem("missing", Said::new("no-fold"), Said::new("no-fold-help"), whole);
            }
            (false, Some(_), Some(place)) => {
                self.reader.problem(
                    "fold-before-first",
                    Said::new("fold-before-first"),
                    Said::new("fold-before-first-help"),
                    place,
                );
            }
            _ => {}
        }
        fold.unwrap_or(FoldWay::Valley)
    }

    fn hung_rows(&mut self, values: &Values, path: &str, row: InRow) -> Vec<(EdgeWord, Vec<KindPanel>)> {
        let mut rows = Vec::new();
        for edge in EdgeWord::ALL {
            let Some(node) = values.get(hung(edge)) else { continue };
            let upright = matches!(edge, EdgeWord::Head | EdgeWord::Tail);
            let path = join(path, edge.word());
            // Along its row there is a free edge at either end of it alone, where nothing is repeated.
            let along = upright == (row.runs == RowWay::Up);
            let end = match edge {
                EdgeWord::Left | EdgeWord::Tail => !row.follows,
                EdgeWord::Right | EdgeWord::Head => row.last,
            };
            if along && (row.depth > 0 || !end || values.says(TIMES)) {
                let place = self.reader.place(&node.range, &path);
                let text = Said::new("hung-along-row").with("field", Arg::field(edge.word()));
                let text = text.with("row", Arg::quoted(row.runs.word()));
                self.reader.problem("hung-along-row", text, Said::new("hung-along-row-help"), &place);
                continue;
            }
            let runs = if upright { RowWay::Up } else { RowWay::Across };
            let row = InRow { runs, follows: true, depth: row.depth + 1, last: false };
            rows.push((edge, self.kind_panels(node, &path, row)));
        }
        rows
    }

    fn corners(&mut self, node: &Node, path: &str) -> Vec<KindCorner> {
        let mut corners = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-corner"), &[CORNER_FIELDS]) else {
                continue;
            };
            let clipped = self.formula_or(values.get(CLIPPED), values.place(CLIPPED), Quantity::Length);
            let round = self.formula_or(values.get(ROUNDED), values.place(ROUNDED), Quantity::Length);
            let at: CornersWord = values.get(CORNERS_AT);
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            match (clipped, round) {
                (Some(size), None) => corners.push(KindCorner { at, size, rounded: false, when }),
                (None, Some(size)) => corners.push(KindCorner { at, size, rounded: true, when }),
                _ => self.one_of_two(&values, &path, ["clipped", "rounded"]),
            }
        }
        corners
    }

    /// A drawn panel is the last of a row that hangs on another panel, and all that is cut of it is in its drawing.
    fn drawn_alone(&mut self, (values, node): (&Values, &Node), row: InRow, path: &str) {
        let place = self.reader.place(&node.range, &join(path, "outline"));
        if row.depth == 0 || !row.last {
            self.reader.problem(
                "drawn-panel-place",
                Said::new("drawn-panel-place"),
                Said::new("drawn-panel-place-help"),
                &place,
            );
        }
        let hung = EdgeWord::ALL.into_iter().map(hung);
        let others =
            hung.chain([CORNERS, NOTCHES, TAPER]).filter(|key| values.says(*key)).map(crate::fields::Key::name);
        let others: Vec<&'static str> = others.chain(values.says(TIMES).then(|| TIMES.name())).collect();
        for other in others {
            let text = Said::new("drawn-panel-more").with("field", Arg::field(other));
            self.reader.problem("drawn-panel-more", text, Said::new("drawn-panel-more-help"), &place);
        }
    }

    /// One of two fields must be there, and not both.
    pub(super) fn one_of_two(&mut self, values: &Values, path: &str, [one, other]: [&'static str; 2]) {
        let text = Said::new("one-of-two").with("one", Arg::field(one)).with("other", Arg::field(other));
        self.not_together(values, path, (text, Said::NOTHING));
    }

    fn notches(&mut self, node: &Node, path: &str) -> Vec<KindNotch> {
        let mut notches = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-notch"), &[NOTCH_FIELDS]) else { continue };
            let Some(place) = values.place(ACROSS).cloned().filter(|_| values.says(ACROSS)) else { continue };
            let across = self.formula(values.get(ACROSS), &place, Quantity::Length);
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            notches.push(KindNotch { at: values.get(NOTCH_AT), across, when });
        }
        notches
    }
}

/// The names of all panels of some rows, and whether each is there only at times.
fn all_names(panels: &[KindPanel], into: &mut Vec<(String, Place, bool)>) {
    for panel in panels {
        into.push((panel.name.clone(), panel.place.clone(), panel.when.is_some()));
        panel.hung.iter().for_each(|(_, row)| all_names(row, into));
    }
}
