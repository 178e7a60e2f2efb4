// SPDX-License-Identifier: MIT
// The run of pages with what is chosen in it: the form of a page, of all of its kind, or the kinds that another one may be of.

import { elsewhere, rows } from "./fields.js";
import { cutRows, edges, kinds, of } from "./entry.js";
import { fan } from "./fan.js";
import { findings } from "./found.js";
import { button, make } from "./make.js";
import { offers } from "./offers.js";
import { sized } from "./sized.js";

/**
 * The run, and what is chosen in it: a page, or a place for another one.
 * @param {OfAlbum} state
 */
export function run(state) {
  const { album } = state.view;
  const chosen = album.pages[state.chosen];
  const group = state.together ? groupOf(state, chosen) : null;
  return make("div", { class: "run" },
    make("h3", { id: "run-title" }, "The run of pages"),
    make("p", { class: "about", id: "run-help" }, "Choose a page to change it. Drag it to another place, or hold Alt and press an arrow key; Delete takes it out. A plus between two pages brings in another one: the arrow down leads there."),
    fan(state, group?.pages ?? []),
    button(album.pages.length ? "Another page" : "The first page", "another", { id: "another", "aria-expanded": String(state.place >= 0) }),
    state.wrong?.where === "pages" ? make("p", { class: "wrong" }, state.wrong.words) : null,
    state.place >= 0 ? offers(state) : group ? together(state, group) : chosen ? page(state, chosen) : null);
}

/**
 * @param {OfAlbum} state
 * @param {Entry} page
 */
function page(state, page) {
  const at = state.chosen;
  const last = state.view.album.pages.length - 1;
  return make("div", { class: "chosen", id: "chosen", role: "group", "aria-labelledby": "chosen-title", "data-key": "chosen" },
    make("h4", { id: "chosen-title", tabindex: "-1" }, `Page ${at + 1}: ${page.label}`),
    findings(elsewhere(of(state, page.way), page.rows, page.more, cutRows(page))),
    make("div", { class: "does" },
      groupOf(state, page) ? atOnce(state, page) : null,
      button("Earlier", "earlier", { "aria-disabled": at === 0 ? "true" : null }),
      button("Later", "later", { "aria-disabled": at === last ? "true" : null }),
      button("The same again", "copy"),
      button("Take it out", "take-page")),
    sized(state, page),
    kinds(page.way, "Kind of page", page.kind, state.view.album.kinds.page),
    make("div", { class: "fields" }, rows(page.rows, state.view), rows(page.more, state.view)),
    edges(state, page));
}

/**
 * All pages of a page's kind; none where it is the only one.
 * @param {OfAlbum} state
 * @param {Entry | undefined} page
 */
const groupOf = (state, page) => state.view.album.groups.find((group) => group.kind === page?.kind) ?? null;

/**
 * The button that leads to all pages of a kind, and back to the one.
 * @param {OfAlbum} state
 * @param {Entry} page
 */
const atOnce = (state, page) => button(state.together ? `Page ${state.chosen + 1} alone` : `All ${groupOf(state, page)?.pages.length} of this kind at once`, "together", { "data-key": "together" });

/**
 * The form of all pages of a kind: what is changed in it is changed in each of them.
 * @param {OfAlbum} state
 * @param {Group} group
 */
function together(state, group) {
  const { view, chosen } = state;
  const page = view.album.pages[chosen];
  return make("div", { class: "chosen", id: "chosen", role: "group", "aria-labelledby": "chosen-title", "data-key": "chosen" },
    make("h4", { id: "chosen-title", tabindex: "-1" }, group.label),
    make("p", { class: "about" }, group.sentence),
    findings(group.pages.flatMap((at) => of(state, `pages[${at}]`))),
    make("div", { class: "does" }, atOnce(state, page)),
    sized(state, page, group),
    make("div", { class: "fields" }, rows(group.rows, view), rows(group.more, view)));
}
