// SPDX-License-Identifier: MIT
//! What size should my page be? The same album at many page sizes, with the sheets that each takes.
//!
//! In: an album, the cutter, which sizes to try. Out: a [`Survey`]: sheets and cost at each size, the sizes where they jump,
//! sizes that have a name of their own. Never: changes anything but the page's width and height.
//!
//! Every size is worked out from the album anew: all parts, whether they go together, their sheets. All sizes get a quick
//! look; those that would be named get as long a look as is asked for (unless there are very many pieces), so that what is
//! said of them holds when their sheets are laid. Steps and looks are counted, so the work is bounded.

mod jumps;
mod named;
mod note;
mod print_sizes;
mod range;
mod rays;
mod size;
mod survey;
mod tries;

pub use jumps::{Jump, jumps};
pub use named::{NamedSize, Why};
pub use note::note;
pub use print_sizes::{PRINTS, PrintSize, print};
pub use range::{MOST_STEPS, Range, steps};
pub use size::Size;
pub use survey::Survey;

use crate::album::Album;
use crate::cutter::Cutter;
use crate::layout::{Effort, Watch};
use crate::length::Length;
use crate::sheets::Search;
use crate::trial::Trial;
use range::{LARGEST, SMALLEST};
use tries::Tries;

/// So many times the sizes that would be named are looked at again: our choice. Each look may bring others to the fore.
const LOOKS: usize = 4;

/// So many pieces are laid in all these looks together, beyond the album's own size: our choice, some seconds' work.
const MOST_LAID: usize = 800;

/// Tries all sizes of a range. Where the album goes together at none of them they are taken about the nearest one at which it
/// does, however far that is.
#[must_use]
pub fn survey(album: &Album, cutter: &Cutter, search: Search, range: &Range, watch: &dyn Watch) -> Survey {
    let about_own = about(album, cutter, search, range, watch);
    if !about_own.sizes.is_empty() || about_own.cut_short {
        return about_own;
    }
    let quick = Search { effort: Effort::Low, ..search };
    let rays = rays::nearest(Tries { album, cutter, search: quick, watch }, range.step);
    let tried = about_own.tried + rays.tried;
    let left_out = about_own.left_out + rays.left_out;
    let Some((width, height)) = rays.nearest else {
        return Survey { tried, left_out, cut_short: rays.cut_short, ..about_own };
    };
    let there = about(&album.with_page(width, height), cutter, search, range, watch);
    Survey {
        page: about_own.page,
        nearest: there.own.clone(),
        own: None,
        tried: tried + there.tried,
        left_out: left_out + there.left_out,
        ..there
    }
}

/// Tries all sizes of a range about the album's own.
fn about(album: &Album, cutter: &Cutter, search: Search, range: &Range, watch: &dyn Watch) -> Survey {
    let tries = Tries { album, cutter, search: Search { effort: Effort::Low, ..search }, watch };
    let page = &album.page;
    let steps = i32::try_from(range.steps.min(MOST_STEPS)).unwrap_or(0);
    let side = |from: Length, step: i32| {
        Some(from + range.step * f64::from(step)).filter(|side| (SMALLEST..=LARGEST).contains(&side.mm()))
    };
    let mut wanted = Vec::new();
    for across in -steps..=steps {
        for up in -steps..=steps {
            wanted.extend(side(page.width, across).zip(side(page.height, up)));
        }
    }
    let names = named::candidates(album, cutter, range);
    let on_grid = wanted.len();
    for name in &names {
        if !wanted.iter().any(|&(width, height)| name.is(width, height)) {
            wanted.push((name.width, name.height));
        }
    }
    let (results, mut cut_short) = tries.all(&wanted);
    let tried = results.len();
    let left_out = results.iter().filter(|(_, size)| size.is_none()).count();
    let mut sizes: Vec<Size> = Vec::new();
    let mut beside: Vec<Size> = Vec::new();
    for (number, size) in results {
        if number < on_grid { &mut sizes } else { &mut beside }.extend(size);
    }
    let find = |sizes: &[Size], width, height| sizes.iter().find(|size| size.is(width, height)).cloned();
    let (page, named) = ([page.width, page.height], Vec::new());
    let mut survey = Survey { page, own: None, nearest: None, sizes, named, tried, left_out, cut_short };
    survey.own = find(&survey.sizes, page[0], page[1]);
    survey.nearest = nearest(&survey);
    if search.effort > Effort::Low {
        cut_short |= look_again(&mut survey, &mut beside, Tries { search, ..tries });
    }
    survey.own = find(&survey.sizes, page[0], page[1]);
    survey.nearest = nearest(&survey);
    survey.named = names
        .into_iter()
        .map(|name| {
            let (width, height) = (name.width, name.height);
            let size = find(&survey.sizes, width, height).or_else(|| find(&beside, width, height));
            NamedSize { width, height, size, why: name.why }
        })
        .collect();
    survey.cut_short = cut_short;
    survey
}

/// Of the sizes at which the album goes together the nearest one, where its own is none of them; of those as near the larger
/// page.
fn nearest(survey: &Survey) -> Option<Size> {
    let [width, height] = survey.page;
    let key = |size: &Size| ((size.width - width).abs() + (size.height - height).abs()).eighths();
    let area = |size: &Size| size.width.mm() * size.height.mm();
    let nearer = |one: &&Size, two: &&Size| key(one).cmp(&key(two)).then(area(two).total_cmp(&area(one)));
    survey.sizes.iter().filter(|_| survey.own.is_none()).min_by(nearer).cloned()
}

/// Looks longer at the album's own size, those beside the steps, and the jumps; says whether that was stopped.
fn look_again(survey: &mut Survey, beside: &mut [Size], tries: Tries<'_>) -> bool {
    let pieces = Trial::of(tries.album.clone(), tries.cutter).kit().map_or(0, |kit| kit.pieces.len());
    let copies = usize::try_from(tries.album.made()).unwrap_or(usize::MAX);
    let most = 1 + MOST_LAID / pieces.saturating_mul(copies).max(1);
    let mut known: Vec<Size> = Vec::new();
    for look in 0..LOOKS {
        let jumps = jumps(survey);
        let own = survey.base().into_iter();
        let beside_steps = beside.iter().filter(|_| look == 0);
        let wanted: Vec<(Length, Length)> = own
            .chain(jumps.iter().map(Jump::size))
            .chain(beside_steps)
            .filter(|size| !known.iter().any(|known| known.is(size.width, size.height)))
            .map(|size| (size.width, size.height))
            .take(most.saturating_sub(known.len()))
            .collect();
        if wanted.is_empty() {
            return false;
        }
        let (found, cut_short) = tries.all(&wanted);
        for size in found.into_iter().filter_map(|(_, size)| size) {
            let all =
                survey.sizes.iter_mut().chain(beside.iter_mut()).chain(&mut survey.own).chain(&mut survey.nearest);
            all.filter(|old| old.is(size.width, size.height)).for_each(|old| *old = size.clone());
            known.push(size);
        }
        if cut_short {
            return true;
        }
    }
    false
}
