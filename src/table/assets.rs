// SPDX-License-Identifier: MIT
//! The page's own files, which are part of the program.

/// A file that the page is made of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asset {
    /// Its name after the run's word; the page itself has none.
    pub name: &'static str,
    /// Its kind, as browsers name it.
    pub kind: &'static str,
    /// What it holds.
    pub text: &'static str,
}

const HTML: &str = "text/html; charset=utf-8";
const STYLE: &str = "text/css; charset=utf-8";
const SCRIPT: &str = "text/javascript; charset=utf-8";

/// Every file that can be asked for; there is no other.
const ASSETS: &[Asset] = &[
    Asset { name: "", kind: HTML, text: include_str!("page/index.html") },
    Asset { name: "look.css", kind: STYLE, text: include_str!("page/look.css") },
    Asset { name: "print.css", kind: STYLE, text: include_str!("page/print.css") },
    Asset { name: "main.js", kind: SCRIPT, text: include_str!("page/main.js") },
    Asset { name: "ask.js", kind: SCRIPT, text: include_str!("page/ask.js") },
    Asset { name: "keep.js", kind: SCRIPT, text: include_str!("page/keep.js") },
    Asset { name: "found.js", kind: SCRIPT, text: include_str!("page/found.js") },
    Asset { name: "machine.js", kind: SCRIPT, text: include_str!("page/machine.js") },
    Asset { name: "machines.js", kind: SCRIPT, text: include_str!("page/machines.js") },
    Asset { name: "make.js", kind: SCRIPT, text: include_str!("page/make.js") },
    Asset { name: "become.js", kind: SCRIPT, text: include_str!("page/become.js") },
    Asset { name: "at.js", kind: SCRIPT, text: include_str!("page/at.js") },
    Asset { name: "picture.js", kind: SCRIPT, text: include_str!("page/picture.js") },
    Asset { name: "save.js", kind: SCRIPT, text: include_str!("page/save.js") },
    Asset { name: "hand.js", kind: SCRIPT, text: include_str!("page/hand.js") },
    Asset { name: "album.js", kind: SCRIPT, text: include_str!("page/album.js") },
    Asset { name: "entry.js", kind: SCRIPT, text: include_str!("page/entry.js") },
    Asset { name: "fan.js", kind: SCRIPT, text: include_str!("page/fan.js") },
    Asset { name: "offers.js", kind: SCRIPT, text: include_str!("page/offers.js") },
    Asset { name: "run.js", kind: SCRIPT, text: include_str!("page/run.js") },
    Asset { name: "large.js", kind: SCRIPT, text: include_str!("page/large.js") },
    Asset { name: "line.js", kind: SCRIPT, text: include_str!("page/line.js") },
    Asset { name: "sized.js", kind: SCRIPT, text: include_str!("page/sized.js") },
    Asset { name: "past.js", kind: SCRIPT, text: include_str!("page/past.js") },
    Asset { name: "fields.js", kind: SCRIPT, text: include_str!("page/fields.js") },
    Asset { name: "results.js", kind: SCRIPT, text: include_str!("page/results.js") },
    Asset { name: "states.js", kind: SCRIPT, text: include_str!("page/states.js") },
    Asset { name: "bring.js", kind: SCRIPT, text: include_str!("page/bring.js") },
    Asset { name: "unzip.js", kind: SCRIPT, text: include_str!("page/unzip.js") },
    Asset { name: "batch.js", kind: SCRIPT, text: include_str!("page/batch.js") },
    Asset { name: "kits.js", kind: SCRIPT, text: include_str!("page/kits.js") },
    Asset { name: "compare.js", kind: SCRIPT, text: include_str!("page/compare.js") },
    Asset { name: "drawings.js", kind: SCRIPT, text: include_str!("page/drawings.js") },
    Asset { name: "drawn.js", kind: SCRIPT, text: include_str!("page/drawn.js") },
    Asset { name: "likeness.js", kind: SCRIPT, text: include_str!("page/likeness.js") },
    Asset { name: "class.js", kind: SCRIPT, text: include_str!("page/class.js") },
    Asset { name: "drawer.js", kind: SCRIPT, text: include_str!("page/drawer.js") },
    Asset { name: "drawers.js", kind: SCRIPT, text: include_str!("page/drawers.js") },
    Asset { name: "otherwise.js", kind: SCRIPT, text: include_str!("page/otherwise.js") },
    Asset { name: "asked.js", kind: SCRIPT, text: include_str!("page/asked.js") },
    Asset { name: "begins.js", kind: SCRIPT, text: include_str!("page/begins.js") },
    Asset { name: "beside.js", kind: SCRIPT, text: include_str!("page/beside.js") },
    Asset { name: "compares.js", kind: SCRIPT, text: include_str!("page/compares.js") },
    Asset { name: "first.js", kind: SCRIPT, text: include_str!("page/first.js") },
    Asset { name: "follow.js", kind: SCRIPT, text: include_str!("page/follow.js") },
    Asset { name: "kept.js", kind: SCRIPT, text: include_str!("page/kept.js") },
    Asset { name: "keys.js", kind: SCRIPT, text: include_str!("page/keys.js") },
    Asset { name: "opens.js", kind: SCRIPT, text: include_str!("page/opens.js") },
    Asset { name: "pages.js", kind: SCRIPT, text: include_str!("page/pages.js") },
    Asset { name: "queue.js", kind: SCRIPT, text: include_str!("page/queue.js") },
    Asset { name: "shown.js", kind: SCRIPT, text: include_str!("page/shown.js") },
    Asset { name: "takes.js", kind: SCRIPT, text: include_str!("page/takes.js") },
    Asset { name: "undo.js", kind: SCRIPT, text: include_str!("page/undo.js") },
    Asset { name: "waits.js", kind: SCRIPT, text: include_str!("page/waits.js") },
    Asset { name: "version.js", kind: SCRIPT, text: include_str!("page/version.js") },
    Asset { name: "versions.js", kind: SCRIPT, text: include_str!("page/versions.js") },
    Asset { name: "versionstore.js", kind: SCRIPT, text: include_str!("page/versionstore.js") },
    Asset { name: "broughtversions.js", kind: SCRIPT, text: include_str!("page/broughtversions.js") },
    Asset { name: "terms.js", kind: SCRIPT, text: include_str!("page/terms.js") },
];

/// The page's mark on its tab: a folded card; and a strip's gusset, which pages stand on.
const PICTURES: [Asset; 2] = [
    Asset { name: "icon.svg", kind: "image/svg+xml", text: include_str!("page/icon.svg") },
    Asset { name: "gusset.svg", kind: "image/svg+xml", text: include_str!("page/gusset.svg") },
];

/// The file of this name, if there is one.
pub(super) fn asset(name: &str) -> Option<&'static Asset> {
    ASSETS.iter().chain(&PICTURES).find(|asset| asset.name == name)
}
