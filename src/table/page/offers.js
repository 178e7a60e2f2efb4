// SPDX-License-Identifier: MIT
// The kinds that another page may be of, each as it would stand in this album.

import { ask } from "./ask.js";
import { asked } from "./asked.js";
import { at, focus } from "./at.js";
import { capital } from "./fields.js";
import { whereIs } from "./fan.js";
import { button, make } from "./make.js";
import { openInView, choosePage } from "./pages.js";
import { picture } from "./picture.js";
import { change } from "./queue.js";
import { album, render, state, trouble } from "./shown.js";

/** What the pictures are of, and the pictures by kind. */
const known = { of: "", pictures: /** @type {Record<string, string>} */ ({}) };

/**
 * The kinds to choose from for the place that is chosen.
 * @param {OfAlbum} state
 */
export function offers(state) {
  const { pages, kinds } = state.view.album;
  return make("div", { class: "chosen", id: "chosen", role: "group", "aria-labelledby": "chosen-title", "data-key": "offers" },
    make("h4", { id: "chosen-title", tabindex: "-1" }, pages.length ? `Another page ${whereIs(state.place, pages.length)}` : "The first page"),
    make("ul", { class: "offers" }, kinds.page.map((kind) => make("li", { "data-key": kind.kind },
      make("button", { type: "button", "data-do": "add-page", "data-kind": kind.kind, "aria-describedby": `offer-${kind.kind}` },
        picture(known.pictures[kind.kind], ""), make("strong", {}, kind.label)),
      make("p", { class: "about", id: `offer-${kind.kind}` }, `${capital(kind.about)}.`)))),
    button("Cancel", "no-place"));
}

/**
 * Opens a place for another page.
 * @param {number} place
 */
function openPlace(place) {
  choosePage(-1);
  state.place = place;
  render();
  openInView();
  draw();
}

/** Draws the kinds for the album as it stands; those of another place are none of this one. */
async function draw() {
  const question = asked({ page: state.place });
  const of = JSON.stringify(question);
  if (known.of === of || state.gone) return;
  Object.assign(known, { of, pictures: {} });
  render();
  try {
    const { pictures } = await ask("kinds", question);
    // Another place may have been opened meanwhile.
    if (known.of === of) known.pictures = pictures;
    render();
  } catch (error) {
    if (known.of === of) known.of = "";
    trouble(error);
  }
}

/** Closes it, and gives the focus back. */
export function closePlace() {
  const from = state.place;
  state.place = -1;
  render();
  focus(document.getElementById(`place-${from}`) ? `place-${from}` : "another");
}

/** @type {Doing} */
export const OFFERED = {
  place: (data) => (Number(data.at) === state.place ? closePlace() : openPlace(Number(data.at))),
  another: () => (state.place >= 0 ? closePlace() : openPlace(state.chosen >= 0 ? state.chosen + 1 : album().album.pages.length)),
  "no-place": closePlace,
  "add-page": (data) => {
    const place = state.place;
    // Closed at once: who presses twice wants one page.
    closePlace();
    change({ do: "add", list: "pages", at: place, kind: data.kind }, () => choosePage(place, true));
  },
};
