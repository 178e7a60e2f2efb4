// SPDX-License-Identifier: MIT
//! Whether card is too thick to be folded, or too thin to carry pages.
//!
//! Common practice, no source: up to 0.5 mm a score by hand does; up to 1.5 mm a fold wants a half cut or a groove on its outer
//! face and then goes one way only; thicker board is hinged with another sheet. Pages and strips under 0.2 mm are limp (our
//! choice).

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use crate::net::Sense;
use crate::parts::{Kit, Owner, Part};

/// Up to here a score by hand takes a fold, mm.
pub(super) const BY_HAND: f64 = 0.5;

/// Up to here it can be folded at all, mm.
const FOLDS: f64 = 1.5;

/// Below this pages and strips are limp, mm.
const LIMP: f64 = 0.2;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    (0..album.stocks.len()).flat_map(|stock| [thick(album, kit, stock), thin(album, kit, stock)]).flatten().collect()
}

/// A caliper is shown in mm whatever the file's units are.
fn caliper(mm: f64) -> Arg {
    Arg::Length(Length::from_mm(mm), Units::Mm)
}

/// The first of some parts by its use, and how many more there are.
pub(super) fn named(first: &Part, more: usize) -> Said {
    Said::new("folded-part").with("part", first.called()).with("more", more)
}

/// The parts of a stock that are folded. Paper that only goes round an edge is bent, not folded.
fn thick(album: &Album, kit: &Kit, number: usize) -> Option<Finding> {
    let stock = album.stocks.get(number).filter(|stock| !stock.ready)?;
    let mm = stock.caliper.mm();
    if mm <= BY_HAND + SAME {
        return None;
    }
    let folded = |part: &&Part| part.stock == number && part.flat.scores.iter().any(|score| score.sense != Sense::Bent);
    let turns = |part: &&Part| part.flat.scores.iter().any(|score| score.sense == Sense::Both);
    let parts: Vec<&Part> = kit.parts.iter().filter(folded).collect();
    // What bends either way again and again comes first: it is what breaks.
    let first = parts.iter().copied().find(|part| turns(part)).or_else(|| parts.first().copied())?;
    let who = named(first, parts.len() - 1);
    let text = |key| Said::new(key).with("stock", Arg::quoted(&stock.name)).with("caliper", caliper(mm));
    let hinge = turns(&first);
    let finding = if mm > FOLDS + SAME {
        let help = if hinge { "fold-too-thick-help-hinge" } else { "fold-too-thick-help" };
        Finding::stop("fold-too-thick", who, text("fold-too-thick")).help(Said::new(help))
    } else {
        let help = if hinge { "fold-thick-help-hinge" } else { "fold-thick-help" };
        Finding::warn("fold-thick", who, text("fold-thick")).help(Said::new(help))
    };
    let allowed = if mm > FOLDS + SAME { FOLDS } else { BY_HAND };
    Some(finding.measured(stock.caliper, Length::from_mm(allowed)).at(first.place.as_ref()))
}

/// What carries or is carried: pages and strips, not the panels that are stuck on them.
fn thin(album: &Album, kit: &Kit, number: usize) -> Option<Finding> {
    let stock = album.stocks.get(number)?;
    let mm = stock.caliper.mm();
    let carries = |part: &usize| {
        let of = kit.parts.get(*part).filter(|part| part.stock == number && part.kind != "panel");
        let holds = |owner: Owner| matches!(owner, Owner::Page(_) | Owner::Spine);
        of.is_some() && kit.pieces.iter().any(|piece| piece.part == *part && holds(piece.owner))
    };
    if mm >= LIMP - SAME {
        return None;
    }
    let mut parts = (0..kit.parts.len()).filter(carries);
    let first = kit.parts.get(parts.next()?)?;
    let text = Said::new("card-thin").with("stock", Arg::quoted(&stock.name)).with("caliper", caliper(mm));
    Some(
        Finding::note("card-thin", named(first, parts.count()), text)
            .measured(stock.caliper, Length::from_mm(LIMP))
            .help(Said::new("card-thin-help"))
            .at(first.place.as_ref()),
    )
}
