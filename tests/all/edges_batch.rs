// SPDX-License-Identifier: MIT
//! Edges that are otherwise in a kit or in a group of a class: each is reckoned from an album that says the same by itself.

use crate::common::cutter;
use hingeleaf::batch::{self, Batch};
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::parts;
use serde_json::{Value, json};

/// A wallet with a scalloped mouth, a pocket, a card.
fn album() -> Value {
    json!({ "format": "hingeleaf-album/1", "stocks": { "card": { "sheet": "A2", "caliper": 0.3 } },
        "page": { "width": 150, "height": 190, "seam": 12 },
        "pages": [{ "kind": "wallet", "pocket": 110, "overflap": 50, "edges": [{ "on": "pocket/mouth", "finish": "scallop" }] },
                  { "kind": "pocket" }],
        "inserts": [{ "kind": "journal-card", "width": 90, "height": 130, "corner": 0, "pages": [2] }] })
}

fn read(batch: &Value) -> (Option<Batch>, Vec<Finding>) {
    let source = Source::new("order.json", batch.to_string().into()).unwrap();
    let mut albums = |name: &str| Source::new(name, album().to_string().into());
    let read = batch::read(&source, &parts::kinds(), &mut albums);
    (read.value, read.findings)
}

fn of(album: &hingeleaf::album::Album) -> Vec<(String, Vec<i64>, f64)> {
    let made = parts::kit(album, &cutter(0.1, 1.0, 3.0));
    let kit = made.value.unwrap_or_else(|| panic!("{:?}", made.findings));
    kit.parts.iter().map(|part| (part.id.clone(), part.flat.likeness(), part.flat.area())).collect()
}

/// What a kit may say of edges, and the same in its album.
fn ways() -> Vec<(Value, &'static str, Value)> {
    let finishes = ["scallop", "wave", "zigzag", "deckle", "notch", "perforated", "slits"];
    let mut ways: Vec<(Value, &'static str, Value)> = finishes
        .map(|finish| {
            let edges = json!([{ "on": "front/mouth", "finish": finish }]);
            (json!({ "pages[1].edges": edges }), "/pages/1/edges", edges)
        })
        .into();
    for corner in ["rounded", "clipped"] {
        let edges = json!([{ "on": "journal-card", "corners": corner, "size": 6 }]);
        ways.push((json!({ "inserts[0]": { "edges": edges } }), "/inserts/0/edges", edges));
    }
    // One value of one edge; another edge instead of it; one besides.
    let edge = |finish: &str, size: f64| json!({ "on": "pocket/mouth", "finish": finish, "size": size });
    ways.push((json!({ "pages[0].edges[0].size": 12 }), "/pages/0/edges", json!([edge("scallop", 12.0)])));
    ways.push((
        json!({ "pages[0].edges[0]": { "finish": "zigzag", "size": 9 } }),
        "/pages/0/edges",
        json!([edge("zigzag", 9.0)]),
    ));
    let two = json!([edge("wave", 10.0), { "on": "back/flap", "corners": "rounded", "size": 5 }]);
    ways.push((json!({ "pages[0].edges": two }), "/pages/0/edges", two));
    ways.push((json!({ "pages[0].edges": null }), "/pages/0/edges", json!([])));
    ways
}

fn read_alone(text: &Value) -> hingeleaf::album::Album {
    let source = Source::new("album.json", text.to_string().into()).unwrap();
    hingeleaf::album::read(&source, &parts::kinds()).value.unwrap()
}

/// Whatever a kit or a group says of edges, its parts are those of the album that says so; the kit beside it is as its album is.
#[test]
fn edges_are_otherwise_in_a_kit_and_in_a_group() {
    let plain = of(&read_alone(&album()));
    for (change, place, edges) in ways() {
        let mut own = album();
        let (entry, _) = place.rsplit_once('/').unwrap();
        own.pointer_mut(entry).unwrap()["edges"] = edges;
        let expected = of(&read_alone(&own));
        let kits = json!({ "format": "hingeleaf-batch/1", "kits": [
            { "name": "plain", "album": "album.json" }, { "name": "own", "album": "album.json", "change": change }] });
        let class = json!({ "format": "hingeleaf-batch/1", "class": { "album": "album.json", "makers": [
            { "name": "plain", "count": 2 }, { "name": "own", "count": 3, "change": change }] } });
        for order in [kits, class] {
            let (batch, findings) = read(&order);
            let batch = batch.unwrap_or_else(|| panic!("{change}: {findings:?}"));
            assert_eq!(of(&batch.kits[0].album), plain, "{change}");
            let found = of(&batch.kits[1].album);
            assert_eq!(found, expected, "{change}");
            assert_ne!(found, plain, "{change}");
        }
    }
}

/// An edge that is wrong in a kit is told at the batch's own line, and its neighbour stays quiet; there is no edge to change where
/// the album has none.
#[test]
fn an_edge_that_is_wrong_in_a_kit_is_told_there() {
    let order = |change: Value| {
        json!({ "format": "hingeleaf-batch/1", "kits": [
        { "name": "plain", "album": "album.json" }, { "name": "own", "album": "album.json", "change": change }] })
    };
    for (change, id, path) in [
        (json!({ "pages[0].edges[0].finish": "scalop" }), "unknown-word", "pages[0].edges[0].finish"),
        (json!({ "pages[0].edges[0].corners": "rounded" }), "edge-what", "pages[0].edges[0]"),
        (json!({ "pages[1].edges[0].size": 5 }), "change-no-place", "pages[1].edges[0].size"),
        (json!({ "pages[0].edges[1]": { "on": "head", "finish": "wave" } }), "change-no-place", "pages[0].edges[1]"),
    ] {
        let (_, findings) = read(&order(change.clone()));
        let told: Vec<(&str, String)> = findings
            .iter()
            .map(|finding| (finding.id, finding.place.as_ref().map(|place| place.path.clone()).unwrap_or_default()))
            .collect();
        assert_eq!(told, [(id, path.to_owned())], "{change}: {findings:?}");
        assert!(!findings[0].about.to_string().contains("plain"), "{findings:?}");
    }
    assert!(read(&order(json!({ "pages[0].edges[0].finish": "wave" }))).1.is_empty());
}
