// SPDX-License-Identifier: MIT
//! Reads what holds the pieces of a kind together: joins, pockets, what takes paper, what the spine's tab meets.

use super::formula::{Formula, Quantity, Term};
use super::kind_words::{FaceWord, PocketSide};
use super::model::{KindFlap, KindJoin, KindPaper, KindPocket, KindSize, PanelAt};
use super::reading::KindReading;
use super::tables::{
    AT, BETWEEN, FACE, FACE_CALLED, FACES, FLAP, FLAP_FIELDS, FLAP_SIZE, JOIN_FIELDS, ONTO, OPEN, OVER, OVER_SIZE,
    PAPER_FIELDS, PAPER_ON, POCKET_FIELDS, POCKET_HEIGHT, POCKET_WIDTH, RISER, STICK, WHEN,
};
use crate::fields::{Node, Tree, join};
use crate::finding::Said;

impl KindReading<'_, '_> {
    pub(super) fn joins(&mut self, node: &Node, path: &str) -> Vec<KindJoin> {
        let mut joins = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-join"), &[JOIN_FIELDS]) else { continue };
            let stick = values.get(STICK).and_then(|node| self.panel(node, &join(&path, "stick")));
            let onto = values.get(ONTO).and_then(|node| self.panel(node, &join(&path, "onto")));
            let faces = self.faces(values.get(FACES), &join(&path, "faces"), [FaceWord::Front; 2]);
            let at = match values.get(AT) {
                Some(node) => self.formulas::<2>(node, &join(&path, "at")),
                None => values.whole().map(|place| {
                    let none = || Formula {
                        term: Term::Value(0.0),
                        measure: Quantity::Length,
                        text: "0".into(),
                        place: place.clone(),
                    };
                    [none(), none()]
                }),
            };
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            if let (Some(stick), Some(onto), Some(at), Some(place)) = (stick, onto, at, values.whole().cloned()) {
                joins.push(KindJoin { stick, onto, faces, at, when, place });
            }
        }
        joins
    }

    pub(super) fn pockets(&mut self, node: &Node, path: &str) -> Vec<KindPocket> {
        let mut pockets = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-pocket"), &[POCKET_FIELDS]) else {
                continue;
            };
            let between = values.get(BETWEEN).and_then(|node| self.two_panels(node, &join(&path, "between")));
            let faces = self.faces(values.get(FACES), &join(&path, "faces"), [FaceWord::Front, FaceWord::Back]);
            let open = values.get(OPEN).map(|node| self.open(node, &join(&path, "open"))).unwrap_or_default();
            let sides = [POCKET_WIDTH, POCKET_HEIGHT].map(|key| {
                let place = values.place(key).filter(|_| values.says(key)).cloned()?;
                Some(self.formula(values.get(key), &place, Quantity::Length))
            });
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            if let (Some(between), [Some(width), Some(height)], Some(place)) = (between, sides, values.whole().cloned())
            {
                pockets.push(KindPocket { between, faces, width, height, open, when, place });
            }
        }
        pockets
    }

    fn open(&mut self, node: &Node, path: &str) -> Vec<PocketSide> {
        if let Tree::Text(_) = node.tree {
            return self.word(node, path, &PocketSide::ALL, PocketSide::word).into_iter().collect();
        }
        let items = self.entries(node, path);
        if items.is_empty() && matches!(node.tree, Tree::Array(_)) {
            let place = self.reader.place(&node.range, path);
            self.reader.problem("pocket-shut", Said::new("pocket-shut"), Said::new("pocket-shut-help"), &place);
        }
        let mut sides = Vec::new();
        for (number, item) in items.iter().enumerate() {
            sides.extend(self.word(item, &format!("{path}[{number}]"), &PocketSide::ALL, PocketSide::word));
        }
        sides
    }

    pub(super) fn flaps(&mut self, node: &Node, path: &str, sizes: &[KindSize]) -> Vec<KindFlap> {
        let mut flaps = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-flap"), &[FLAP_FIELDS]) else { continue };
            let [flap, over, riser] = [FLAP, OVER, RISER]
                .map(|key| values.get(key).and_then(|node| self.panel(node, &join(&path, key.name()))));
            let [size, pocket_size] = [FLAP_SIZE, OVER_SIZE]
                .map(|key| values.get(key).and_then(|name| self.size_called(name, values.place(key), sizes)));
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            if let (Some(flap), Some(over), Some(place)) = (flap, over, values.whole().cloned()) {
                flaps.push(KindFlap { flap, riser, over, size, pocket_size, when, place });
            }
        }
        flaps
    }

    pub(super) fn papers(&mut self, node: &Node, path: &str) -> Vec<KindPaper> {
        let mut papers = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-face"), &[PAPER_FIELDS]) else { continue };
            let on = values.get(PAPER_ON).and_then(|node| self.panel(node, &join(&path, "on")));
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            let called = values.get(FACE_CALLED).map(str::to_owned);
            if let (Some(on), Some(place)) = (on, values.whole().cloned()) {
                papers.push(KindPaper { on, face: values.get(FACE), called, when, place });
            }
        }
        papers
    }

    pub(super) fn hangs(&mut self, node: &Node, path: &str) -> Vec<PanelAt> {
        if matches!(node.tree, Tree::Text(_)) {
            return self.panel(node, path).into_iter().collect();
        }
        self.two_panels(node, path).map(Vec::from).unwrap_or_default()
    }

    fn two_panels(&mut self, node: &Node, path: &str) -> Option<[PanelAt; 2]> {
        let items = self.some(node, path, 2)?;
        let read: Vec<_> =
            items.iter().enumerate().map(|(number, item)| self.panel(item, &format!("{path}[{number}]"))).collect();
        let read: Option<Vec<PanelAt>> = read.into_iter().collect();
        read?.try_into().ok()
    }
}
