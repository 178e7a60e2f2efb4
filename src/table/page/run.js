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
    make("p", { class: "about", id: "run-help" }, "Choose a page to change it; drag it to move it; a plus brings in another one there.", make("span", { class: "by-keys" }, " By keys: Alt with an arrow moves it, Delete removes it, the arrow down leads to the plus behind it.")),
    fan(state, group?.pages ?? []),
    button(chosen ? `Add a page after page ${state.chosen + 1}` : album.pages.length ? "Add a page at the end" : "Add the first page", "another", { id: "another", "aria-expanded": String(state.place >= 0) }),
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
      button("Move earlier", "earlier", { "aria-disabled": at === 0 ? "true" : null }),
      button("Move later", "later", { "aria-disabled": at === last ? "true" : null }),
      button("One more like it", "copy"),
      button("Remove this page", "take-page")),
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
const atOnce = (state, page) => button(state.together ? `Page ${state.chosen + 1} alone` : `Change all ${groupOf(state, page)?.pages.length} of this kind at once`, "together", { "data-key": "together" });

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
