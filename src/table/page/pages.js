// SPDX-License-Identifier: MIT
// What hands do in the run of pages: one is chosen, gets another place, is taken out; by the pointer and by keys.

import { at, focus } from "./at.js";
import { drawPage } from "./follow.js";
import { change } from "./queue.js";
import { render, say, shown, state } from "./shown.js";

/** How many pages there are. */
export const pages = () => state.view?.album?.pages?.length ?? 0;

/**
 * Chooses a page, or none; by a `key` it keeps the focus.
 * @param {number} at
 * @param {boolean} [key]
 */
export function choosePage(at, key) {
  if (at !== state.chosen) state.together = false;
  state.chosen = at;
  state.place = -1;
  if (at >= 0) state.at = at;
  render();
  if (state.drawn?.way !== `pages[${at}]`) drawPage();
  if (key) focus(`page-${at}`);
}

/**
 * Opens a page's form where it is seen, with the focus in it.
 * @param {number} at
 */
export function openPage(at) {
  choosePage(at);
  openInView();
}

/** Brings what is open below the run into view, with the focus on its title. */
export function openInView() {
  document.getElementById("chosen-title")?.focus({ preventScroll: true });
  bringIntoView(document.getElementById("chosen"));
}

/**
 * Scrolls no further than it takes to see all of it, or else its beginning.
 * @param {HTMLElement | null} what
 */
function bringIntoView(what) {
  if (!what) return;
  const line = at("line").getBoundingClientRect();
  const atFoot = line.top > innerHeight / 2;
  const [top, foot] = atFoot ? [0, line.top] : [Math.max(line.bottom, 0), innerHeight];
  const box = what.getBoundingClientRect();
  const by = Math.min(box.bottom + 12 - foot, box.top - 12 - top);
  if (box.top < top || box.bottom > foot) scrollBy(0, by);
}

/**
 * A page gets another place.
 * @param {number} from
 * @param {number} to
 * @param {boolean} [byKey]
 */
export function movePage(from, to, byKey) {
  if (to < 0 || to >= pages() || from === to) return;
  // At once, so that the next key already speaks of the new place.
  choosePage(to, byKey);
  change({ do: "move", list: "pages", from, to }, () => {
    say(`Page ${from + 1} is page ${to + 1} now. ${shown().fit.sentence}`);
  });
}

/**
 * A page is taken out.
 * @param {number} at
 */
export function takePage(at) {
  change({ do: "take", path: `pages[${at}]` }, () => choosePage(Math.min(at, pages() - 1), true));
}
