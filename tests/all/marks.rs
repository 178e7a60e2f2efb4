// SPDX-License-Identifier: MIT
//! Marks on the draw layer lie only where they do not show, unless asked otherwise.

use hingeleaf::contour::{Edge, Point, Rect, turned};
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::net::Use;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::{Labels, Layer, StrokePath};
use hingeleaf::work::Work;
use hingeleaf::{album, parts};

fn work(text: &str, labels: Labels) -> Work {
    let source = Source::new("test.json", text.into()).unwrap();
    let album = album::read(&source, &parts::kinds()).value.unwrap();
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    Work::new(album, Cutter::default(), labels, search, &Unwatched)
}

/// Two pocket pages and a wallet page on card, without panels: nothing of the faces is covered.
const PLAIN: &str = r#"{
    "format": "hingeleaf-album/1",
    "page": { "width": 120, "height": 160, "seam": 12 },
    "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 90, "overflap": 40 }, { "kind": "pocket" }, { "kind": "pocket" }],
    "inserts": [{ "kind": "tag", "width": 70, "height": 100 }]
}"#;

/// The marks of each placement in the frame of its part, with the part's number.
fn marks(work: &Work) -> Vec<(usize, Vec<Edge>)> {
    let mut all = Vec::new();
    for (sheet, paths) in work.stocks.iter().flat_map(|stock| &stock.sheets).zip(&work.paths) {
        for stroke in paths.strokes.iter().filter(|stroke| stroke.layer == Layer::Draw) {
            let placed = sheet
                .placements
                .iter()
                .find(|placed| (placed.part, placed.copy) == (stroke.part, stroke.copy))
                .unwrap();
            let flat = &work.kit.parts[stroke.part].flat;
            let size = if placed.quarters % 2 == 0 { (flat.width, flat.height) } else { (flat.height, flat.width) };
            let back =
                |point: Point| turned(Point::new(point.x - placed.x, point.y - placed.y), 4 - placed.quarters, size);
            let StrokePath::Open(edges) = &stroke.run else { panic!("a mark that is no open line") };
            let edges = edges.iter().map(|edge| Edge { from: back(edge.from), to: back(edge.to), bulge: edge.bulge });
            all.push((stroke.part, edges.collect()));
        }
    }
    all
}

fn holds(rect: Rect, edge: &Edge) -> bool {
    [edge.from, edge.to].iter().all(|point| rect.inflate(1e-6, 1e-6).contains(*point))
}

#[test]
fn marks_lie_on_seams_tabs_and_what_is_glued_over() {
    let work = work(PLAIN, Labels::Hidden);
    let (marks, seam) = (marks(&work), 12.0);
    assert!(marks.len() > 40, "only {} marks", marks.len());
    for (number, edges) in marks {
        let part = &work.kit.parts[number];
        // Seams and tabs by their panels; on the wallet's back the two strips that its pocket's seams are glued on,
        // at head and tail, and on the wide hinge strip the middle that the narrow one covers.
        let mut hidden: Vec<Rect> = part
            .net
            .panels
            .iter()
            .filter(|panel| matches!(panel.purpose, Use::Seam | Use::Tab))
            .map(|panel| panel.outline.bounds())
            .collect();
        match part.kind {
            "wallet back" => {
                hidden.extend([Rect::new(0.0, 0.0, 90.0, seam), Rect::new(0.0, 160.0 - seam, 90.0, 160.0)]);
            }
            "hinge strip" if part.id == "hinge-2" => {
                let middle = part.flat.width / 2.0;
                hidden.push(Rect::new(middle - 3.0, 0.0, middle + 3.0, part.flat.height));
            }
            _ => {}
        }
        assert!(
            edges.iter().all(|edge| hidden.iter().any(|rect| holds(*rect, edge))),
            "{} is marked where it shows: {edges:?}",
            part.id
        );
    }
}

#[test]
fn a_tag_is_named_only_when_asked() {
    let named = |work: &Work| marks(work).iter().any(|(number, _)| work.kit.parts[*number].kind == "tag");
    let hidden = work(PLAIN, Labels::Hidden);
    assert!(!named(&hidden));
    assert!(
        hidden
            .findings
            .iter()
            .any(|finding| finding.id == "unnamed-parts" && finding.text.to_string().contains("tag-1"))
    );
    assert!(named(&work(PLAIN, Labels::Everywhere)));
    assert!(marks(&work(PLAIN, Labels::None)).is_empty());
}

#[test]
fn marks_stay_inside_their_part_and_off_its_scores() {
    let work = work(PLAIN, Labels::Everywhere);
    for (number, edges) in marks(&work) {
        let flat = &work.kit.parts[number].flat;
        for edge in edges {
            for point in [edge.from, edge.to] {
                assert!(flat.outline.contains(point) && flat.outline.distance(point) > 0.2, "{point:?}");
                assert!(flat.holes.iter().all(|hole| !hole.contains(point)));
                let off = |from: Point, to: Point| Edge { from, to, bulge: 0.0 }.distance(point);
                assert!(flat.scores.iter().all(|score| off(score.from, score.to) > 0.2));
            }
        }
    }
}
