// SPDX-License-Identifier: MIT
// The run of pages, each with the face that is worked on it, and the form of the one that is chosen.

import { elsewhere, rows } from "./fields.js";
import { about, cutRows, edges, kinds, of } from "./entry.js";
import { findings, mark } from "./found.js";
import { button, make } from "./make.js";
import { picture } from "./picture.js";
import { sized } from "./sized.js";

/**
 * The run, and the page that is chosen.
 * @param {OfAlbum} state
 */
export function run(state) {
  const { album } = state.view;
  const chosen = album.pages[state.chosen];
  const group = state.together ? groupOf(state, chosen) : null;
  // One stop for Tab, however many pages there are: the arrow keys go from page to page.
  const stop = Math.min(Math.max(state.at, 0), album.pages.length - 1);
  const drawn = album.drawn ? album : state.good;
  return make("div", { class: "run" },
    make("h3", { id: "run-title" }, "The run of pages"),
    make("p", { class: "about", id: "run-help" }, "Choose a page to change it. Drag it to another place, or hold Alt and press an arrow key; Delete takes it out."),
    make("ol", { class: "strip", "aria-labelledby": "run-title" }, album.pages.map((page, at) => make("li", { draggable: "true", "data-at": at, "data-key": `page-${at}` },
      make("button", { type: "button", id: `page-${at}`, class: group?.pages.includes(at) ? "with" : null, "data-do": "choose", "data-at": at, "aria-expanded": String(at === state.chosen), "aria-controls": at === state.chosen ? "chosen" : null, "aria-describedby": "run-help", tabindex: at === stop ? null : "-1" },
        picture(drawn?.pictures?.[drawn.pages?.[at]?.picture ?? -1], "", album.drawn ? {} : { class: "before" }),
        make("span", { class: "number" }, String(at + 1)), " ",
        make("span", { class: "kind" }, page.label, page.shows === "back" ? make("span", { class: "from" }, ", from behind") : null),
        mark(of(state, page.way)))))),
    state.wrong?.where === "pages" ? make("p", { class: "wrong" }, state.wrong.words) : null,
    group ? together(state, group) : chosen ? page(state, chosen) : null,
    make("form", { class: "add", "data-do": "add-page" },
      make("label", { for: "new-page" }, "Another page"),
      make("select", { id: "new-page", "data-stays": true, "aria-describedby": "new-page-about" }, album.kinds.page.map((kind) => make("option", { value: kind.kind, selected: kind.kind === state.newPage }, kind.label))),
      make("button", { type: "submit" }, chosen ? `Add it after page ${state.chosen + 1}` : "Add it at the end"),
      make("p", { class: "about", id: "new-page-about" }, about(album.kinds.page, state.newPage))));
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
