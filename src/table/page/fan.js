// SPDX-License-Identifier: MIT
// The run as the album stands with its pages fanned out: each page with the face that is worked on it, on the spine, and between two
// pages the place where another one goes.

import { of } from "./entry.js";
import { mark } from "./found.js";
import { make } from "./make.js";
import { picture } from "./picture.js";

/**
 * @param {OfAlbum} state
 * @param {number[]} group the pages that are changed at once with the chosen one
 */
export function fan(state, group) {
  const { album } = state.view;
  // One stop for Tab, however many pages there are: the arrow keys go from page to page.
  const stop = Math.min(Math.max(state.at, 0), album.pages.length - 1);
  const drawn = album.drawn ? album : state.good;
  return make("ol", { class: "fan", "aria-labelledby": "run-title" }, album.pages.map((page, at) => make("li", { draggable: "true", "data-at": at, "data-key": `page-${at}` },
    place(state, at),
    make("button", { type: "button", id: `page-${at}`, class: `leaf${group.includes(at) ? " with" : ""}`, "data-do": "choose", "data-at": at, "aria-expanded": String(at === state.chosen), "aria-controls": at === state.chosen ? "chosen" : null, "aria-describedby": "run-help", tabindex: at === stop ? null : "-1" },
      picture(drawn?.pictures?.[drawn.pages?.[at]?.picture ?? -1], "", album.drawn ? {} : { class: "before" }),
      make("span", { class: "number" }, String(at + 1)), " ",
      make("span", { class: "kind" }, page.label, page.shows === "back" ? make("span", { class: "from" }, ", from behind") : null),
      mark(of(state, page.way))),
    at + 1 === album.pages.length ? place(state, at + 1) : null)));
}

/**
 * A place for another page.
 * @param {OfAlbum} state
 * @param {number} at the number, from 0, that the page would get
 */
const place = (state, at) => make("button", { type: "button", id: `place-${at}`, class: `place${at && at === state.view.album.pages.length ? " last" : ""}`, "data-do": "place", "data-at": at, "data-key": `place-${at}`, "aria-label": `Another page ${whereIs(at, state.view.album.pages.length)}`, "aria-expanded": String(at === state.place), "aria-controls": at === state.place ? "chosen" : null, tabindex: "-1" }, make("span", {}, "+"));

/**
 * Where a place is among so many pages, in words.
 * @param {number} at
 * @param {number} pages
 */
export function whereIs(at, pages) {
  if (!pages) return "in the album";
  if (at === 0) return "before page 1";
  return at === pages ? `after page ${at}` : `between pages ${at} and ${at + 1}`;
}

/** The least and the most that a page takes of the run's width, and how far the outermost ones are turned: px, degrees. */
const [LEAST, MOST, TURN] = [80, 210, 9];
/** Fewer pages than fill this are turned less, px. */
const WIDE = 1000;

/** Fans the pages out over the width that there is: a page's own policy lets no text say how. */
export function spread() {
  const fan = /** @type {HTMLElement | null} */ (document.querySelector(".fan"));
  if (!fan) return;
  if (watched !== fan) {
    watcher.disconnect();
    watcher.observe(fan);
    watched = fan;
  } else if (width && count !== fan.children.length) turn(fan);
}

let width = 0;
let count = 0;
/** @type {HTMLElement | null} */
let watched = null;
const watcher = new ResizeObserver(([{ contentRect, target }]) => {
  width = contentRect.width;
  turn(/** @type {HTMLElement} */ (target));
});

/**
 * As few rows as there can be, as equal as they can be, each a piece of a wide circle.
 * @param {HTMLElement} fan
 */
function turn(fan) {
  count = fan.children.length;
  const rows = Math.ceil(count / Math.max(Math.floor(width / LEAST), 1));
  const columns = Math.ceil(count / Math.max(rows, 1));
  const slot = Math.min(width / Math.max(columns, 1), MOST);
  fan.style.setProperty("--columns", String(columns));
  fan.style.setProperty("--slot", `${slot}px`);
  const half = Math.max(columns * slot, WIDE) / 2;
  const far = half / Math.sin(TURN * Math.PI / 180);
  let low = 0;
  for (const [at, one] of [.../** @type {HTMLCollectionOf<HTMLElement>} */ (fan.children)].entries()) {
    const inRow = Math.min(columns, count - Math.floor(at / columns) * columns);
    const aside = (at % columns - (inRow - 1) / 2) * slot;
    const angle = Math.asin(aside / far);
    one.style.setProperty("--turn", `${angle}rad`);
    const lower = far * (1 - Math.cos(angle));
    one.style.setProperty("--lower", `${lower}px`);
    // A corner of what is turned is lower still.
    low = Math.max(low, lower + (slot / 2) * Math.sin(Math.abs(angle)));
  }
  fan.style.setProperty("--low", `${low}px`);
}
