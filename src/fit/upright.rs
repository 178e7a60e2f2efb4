// SPDX-License-Identifier: MIT
//! Parts on which a pattern with an up and a down can't stand upright everywhere.
//!
//! Sheets are laid with the pattern up, and every part is drawn as it stands on the finished album. A panel that is folded
//! back over the head or up from the tail, its front outside, then shows the pattern on its head: one piece of paper can't
//! be upright on both its sides. Flaps from the fore-edge, and what is folded over to the inside, show nothing of the kind.

use super::caliper::named;
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::net::{Sense, Use};
use crate::parts::{Kit, Part};
use crate::stock::Pattern;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    kit.parts.iter().filter_map(|part| upside_down(album, part)).collect()
}

fn upside_down(album: &Album, part: &Part) -> Option<Finding> {
    let stock = album.stocks.get(part.stock).filter(|stock| stock.pattern == Pattern::OneWay)?;
    let stands = part.net.folded(0.0);
    let turned = |&(number, purpose): &(usize, Use)| {
        let shows = matches!(purpose, Use::Plain | Use::Flap);
        let back = part
            .net
            .folds
            .iter()
            .any(|fold| fold.between[1] == number && fold.sense == Sense::Mountain && fold.angle.abs() > 90.0);
        // Seen as the part lies, its up then points down.
        shows && back && stands.get(number).is_some_and(|stand| stand.matrix3.y_axis.y < -0.5)
    };
    let panels = part.net.panels.iter().enumerate().map(|(number, panel)| (number, panel.purpose));
    let names: Vec<&str> = panels.filter(turned).map(|(number, _)| part.net.panels[number].name).collect();
    if names.is_empty() {
        return None;
    }
    let panel = |name: &str| Arg::from(Said::new("its-panel").with("panel", Arg::term(name)));
    let text = Said::new("pattern-upside-down")
        .with("stock", Arg::quoted(&stock.name))
        .with("panels", Arg::All(names.into_iter().map(panel).collect()));
    let finding = Finding::note("pattern-upside-down", named(part, 0), text);
    Some(finding.help(Said::new("pattern-upside-down-help")).at(part.place.as_ref()))
}
