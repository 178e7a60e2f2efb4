// SPDX-License-Identifier: MIT
//! The files that the chapters speak of, as they lie in the handbook's own folder.

macro_rules! files {
    ($($name:literal)*) => {
        /// By name within `files/`.
        pub(super) const FILES: &[(&str, &str)] = &[$(($name, include_str!(concat!("../../../fixtures/", $name)))),*];
    };
}

files! {
    "tide-table.json"
    "own-kinds.json"
    "kinds/folded-mat.json" "kinds/folded-mat.svg" "kinds/loft-door.json" "kinds/loft-door.svg" "kinds/print-jacket.json" "kinds/print-jacket.svg" "kinds/scroll-letter.json"
    "kinds/scroll-letter.svg" "kinds/seed-bag.json" "kinds/seed-bag.svg" "kinds/two-shelves.json" "kinds/two-shelves.svg"
    "batches/harvest-swap.json" "batches/paper-evening.json" "batches/rainy-day.json" "batches/spring-fair.json"
    "drawers/bottom-drawer.json"
    "drawn/fish.dxf" "drawn/kite-day.json" "drawn/kite.svg"
    "cutters/blade-12in.json" "cutters/blade-on-card.json" "cutters/blade-on-printed-card.json" "cutters/hand-trimmer.json" "cutters/laser-on-board.json"
    "cutters/laser-on-card.json" "cutters/laser.json" "cutters/pen-alone.json"
}

/// Whether a file lies there.
pub(super) fn has(name: &str) -> bool {
    FILES.iter().any(|(known, _)| *known == name)
}
