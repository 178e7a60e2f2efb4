// SPDX-License-Identifier: MIT
//! Whether the card takes its folds: scores apart, grain along the hinge.

use super::caliper::named;
use crate::album::{Album, GRAIN};
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::{PARALLEL, SAME};
use crate::length::{Length, Units};
use crate::net::Sense;
use crate::net::bend::{RULE, channel};
use crate::parts::{Kit, Owner, Part};

/// Card from here on, mm, folds visibly cleaner towards its bead: our choice.
const THICK: f64 = 0.5;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut findings: Vec<Finding> = kit.parts.iter().filter_map(|part| too_close(album, part)).collect();
    // One finding tells it: the tightest.
    findings.sort_by(|one, two| spare(one).total_cmp(&spare(two)));
    findings.truncate(1);
    findings.extend(across_the_grain(album));
    findings.extend(cover_across(album, kit));
    findings.extend((0..album.stocks.len()).filter_map(|stock| wants_the_back(album, kit, stock)));
    findings
}

fn spare(finding: &Finding) -> f64 {
    let mm = |length: Option<Length>| length.map_or(0.0, Length::mm);
    mm(finding.measured) - mm(finding.allowed)
}

/// Two creases run into each other when they are nearer than the channel that one is pressed into (F3).
fn too_close(album: &Album, part: &Part) -> Option<Finding> {
    let caliper = album.stocks.get(part.stock).filter(|stock| !stock.ready)?.caliper.mm();
    let [least, ..] = channel(caliper, RULE);
    let scores = &part.flat.scores;
    let mut nearest = f64::INFINITY;
    for (index, one) in scores.iter().enumerate() {
        let along = one.to - one.from;
        for two in &scores[index + 1..] {
            let other = two.to - two.from;
            // Only scores side by side: parallel, and reaching along each other.
            if along.cross(other).abs() > PARALLEL * along.hypot() * other.hypot() {
                continue;
            }
            let spots = [two.from, two.to].map(|point| (point - one.from).dot(along) / along.hypot2());
            if spots[0].max(spots[1]) > PARALLEL && spots[0].min(spots[1]) < 1.0 - PARALLEL {
                nearest = nearest.min((along.cross(two.from - one.from) / along.hypot()).abs());
            }
        }
    }
    // A score that is split by a hole lies in line with itself.
    if nearest >= least || nearest < SAME {
        return None;
    }
    let text = Said::new("scores-too-close")
        .with("apart", album.length(nearest))
        .with("caliper", Arg::Length(Length::from_mm(caliper), Units::Mm))
        .with("crease", album.rough(least));
    Some(
        Finding::warn("scores-too-close", named(part, 0), text)
            .measured(Length::from_mm(nearest), Length::from_mm(least))
            .help(Said::new("scores-too-close-help"))
            .at(part.place.as_ref()),
    )
}

/// Hinges fold again and again: along the grain they last, across it they crack (F1; Roberts & Etherington 1982).
fn across_the_grain(album: &Album) -> Option<Finding> {
    let free = album.spine.grain_along_spine == Some(false);
    let stated = album.stocks.get(album.spine.stock).is_some_and(|stock| stock.grain.is_some());
    (free && stated).then(|| {
        Finding::note("across-the-grain", Said::new("about-spine"), Said::new("across-the-grain"))
            .help(Said::new("across-the-grain-help").with("field", Arg::field("grain")))
            .at(album.spine.values.place(GRAIN))
    })
}

/// Paper grows more across its grain than along it, 0.2 to 0.4 % for 30 points of humidity, and what is glued wet on one side
/// of a board pulls it; grain along the spine in every layer keeps them from pulling against each other (H16; bookbinders'
/// rule).
fn cover_across(album: &Album, kit: &Kit) -> Option<Finding> {
    let cover = album.cover.as_ref().filter(|cover| cover.grain_along_spine == Some(false))?;
    let of_cover = kit.pieces.iter().filter(|piece| piece.owner == Owner::Cover);
    let mut stocks: Vec<usize> =
        of_cover.filter_map(|piece| kit.parts.get(piece.part)).map(|part| part.stock).collect();
    stocks.sort_unstable();
    stocks.dedup();
    let stated = stocks.iter().any(|&stock| album.stocks.get(stock).is_some_and(|stock| stock.grain.is_some()));
    // One sheet of card has nothing that pulls at it; that its folds crack is told of hinges alone.
    (stated && stocks.len() > 1 && cover.kind.name == "case").then(|| {
        Finding::note("across-the-grain", Said::new("about-cover"), Said::new("cover-across-the-grain"))
            .help(Said::new("cover-across-the-grain-help").with("field", Arg::field("cover.grain")))
            .at(cover.values.place(GRAIN))
    })
}

/// The groove belongs on the outside of a fold, the bead inside (F5; Bean & Brodhead 1914). The sheets are scored on the
/// front, which is the inside of a valley; thin card forgives it.
fn wants_the_back(album: &Album, kit: &Kit, number: usize) -> Option<Finding> {
    let stock = album.stocks.get(number).filter(|stock| !stock.ready)?;
    if stock.caliper.mm() < THICK {
        return None;
    }
    let valley =
        |part: &&Part| part.stock == number && part.flat.scores.iter().any(|score| score.sense == Sense::Valley);
    let mut parts = kit.parts.iter().filter(valley);
    let first = parts.next()?;
    let text = Said::new("score-behind").with("who", named(first, parts.count()));
    let finding = Finding::note("score-behind", Said::new("about-stock").with("stock", &stock.name), text);
    let finding = finding.measured(stock.caliper, Length::from_mm(THICK)).help(Said::new("score-behind-help"));
    Some(finding.at(stock.place.as_ref()))
}
