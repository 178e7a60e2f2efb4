// SPDX-License-Identifier: MIT
// What is shown, and what is said of it: to eyes by drawing it anew, to listeners in a word.

import { Gone, Refused } from "./ask.js";
import { at } from "./at.js";

/**
 * Everything that is shown.
 * @type {State}
 */
export const state = {
  start: null,
  starting: false,
  view: null,
  /** What is seen of what is being asked for. */
  first: null,
  text: "",
  notes: [],
  chosen: -1,
  /** Whether all pages of the chosen one's kind are changed at once. */
  together: false,
  /** The page that Tab leads to. */
  at: 0,
  /** The last pictures of what could be made. */
  good: null,
  /** The drawing of the chosen page. */
  drawn: null,
  /** The drawings of the spine and the cover. */
  parts: {},
  /** The place for another page whose kinds are shown; below 0 there is none. */
  place: -1,
  newInsert: "",
  newChange: {},
  wrong: null,
  folds: null,
  oldSheets: null,
  sizes: null,
  looking: "",
  gone: false,
  asks: null,
  opened: "",
  failed: "",
  moved: "",
  waiting: 0,
};

/** What is shown while a control of its form is used: an album, a batch, either; and what there is to start from. */
export const album = () => /** @type {AlbumWork} */ (state.view);
export const batch = () => /** @type {BatchWork} */ (state.view);
export const shown = () => /** @type {Shown} */ (state.view);
export const start = () => /** @type {Start} */ (state.start);

let draws = () => {};

/**
 * Says what draws the page.
 * @param {() => void} does
 */
export const drawnBy = (does) => { draws = does; };

/** Shows the state. */
export const render = () => draws();

/** @type {ReturnType<typeof setTimeout> | undefined} */
let saying;
let saidLast = "";

/**
 * Tells listeners, once what is told has come to rest.
 * @param {string} words
 */
export function say(words) {
  clearTimeout(saying);
  saying = setTimeout(() => {
    if (words === saidLast) return;
    saidLast = words;
    at("said").textContent = words;
  }, 500);
}

/**
 * Says that something failed, or that it does no longer.
 * @param {any} error
 */
export function trouble(error) {
  if (error?.name === "AbortError") return;
  if (error instanceof Gone) state.gone = true;
  else if (error instanceof Refused) state.failed = error.message;
  else {
    state.failed = `Something went wrong on this page: ${error?.message ?? error}. Keep the album file, then load the page anew.`;
    console.error(error);
  }
  render();
}
