// SPDX-License-Identifier: MIT
// The page: shows what the program answers about the album's text. What an album is, the program knows.

import { isThere } from "./ask.js";
import { album } from "./album.js";
import { at } from "./at.js";
import { batch } from "./batch.js";
import { show } from "./become.js";
import { again, begins, elsewhere } from "./begins.js";
import { compare } from "./compare.js";
import { spread } from "./fan.js";
import { judged } from "./fields.js";
import { foreseen } from "./first.js";
import { watch } from "./hand.js";
import * as keep from "./keep.js";
import { line } from "./line.js";
import { button, make } from "./make.js";
import { picture } from "./picture.js";
import { gather, isBusy, orphaned } from "./queue.js";
import { fit, folds, sheets, take } from "./results.js";
import { drawnBy, render, state } from "./shown.js";
import { place } from "./sized.js";
import { asks, begin, gone, head, unread } from "./states.js";
import { tables } from "./terms.js";
import { versions } from "./version.js";

/** Draws the page as things stand. */
function draw() {
  gather();
  const view = state.view?.unread ? state.view : judged(foreseen(state.view), state.gone);
  const seen = { ...state, view };
  show(at("head"), head(seen, keep));
  show(at("line"), state.start && !view?.unread ? line(seen, keep) : null);
  show(at("word"), state.gone ? gone(state, keep) : null, state.failed ? make("p", { class: "gone" }, state.failed) : null, keep.keeps() ? null : make("p", { class: "gone" }, "This browser keeps nothing: keep the album file before you close the page."));
  show(at("end"), state.gone ? null : button("End the program", "quit"), asks(state, "end"));
  if (!state.start) return;
  if (state.starting || !keep.current()) {
    document.title = "Hingeleaf";
    show(at("table"), make("div", { class: "begin", "data-key": "begin" }, begin(state, keep)));
  } else if (view?.unread) {
    document.title = "Hingeleaf: a file to mend";
    show(at("table"), make("div", { class: "begin", "data-key": "unread" }, unread(state, keep)));
  } else if (view) {
    const { title } = view.album ?? view.batch;
    document.title = `${title}: Hingeleaf`;
    show(at("table"),
      make("h1", { class: "unseen" }, title),
      make("div", { class: `page${view.batch ? " alone" : ""}`, "data-key": view.batch ? "batch" : "album" },
        aside(view, title),
        make("div", { class: "sections" }, sections(/** @type {OfEither} */ (seen)))));
    place();
    spread();
  }
}

/** @param {OfEither} seen */
function sections(seen) {
  const { view } = seen;
  const one = /** @type {OfAlbum} */ (seen);
  const all = view.batch ? batch(/** @type {OfBatch} */ (seen), keep) : [album(one), fit(seen), folds(one), sheets(one), tables(view.tables, "album"), take(seen)];
  return all.toSpliced(-1, 0, versions(seen), compare(seen));
}

/** The sections, and what they are about. */
const WAYS = [["album", "Album"], ["fit", "Does it go together?"], ["folds", "How it folds"], ["sheets", "Sheets"], ["take", "Take away"]];

/** @param {string} title */
function aside(/** @type {Shown} */ { album }, title) {
  if (!album) return null;
  const whole = album.open ?? state.good?.open;
  return make("aside", { "aria-label": "The album, standing open" },
    whole ? make("figure", { class: `loose${album.open ? "" : " before"}` }, picture(whole, `${title}, standing open${album.open ? "" : ", as it was before"}`)) : null,
    make("nav", { "aria-label": "On this page" }, make("ul", { class: "ways" }, WAYS.map(([id, words]) => make("li", {}, make("a", { href: `#${id}` }, words))))),
    album.drawn ? null : make("p", { class: "calm" }, state.good ? "As it was before." : "Nothing of it can be drawn until what stops it is mended."));
}

drawnBy(draw);
watch();
keep.load(orphaned);
keep.watch(elsewhere);
begins();
// A program that was ended is noticed before the next change is, and one that is there again goes on by itself.
let tick = 0;
setInterval(async () => {
  tick += 1;
  if (document.visibilityState !== "visible" || isBusy() || state.moved) return;
  if (state.gone) await again();
  else if (tick % 8 === 0 && !(await isThere())) {
    state.gone = true;
    render();
  }
}, 2000);
