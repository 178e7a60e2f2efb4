// SPDX-License-Identifier: MIT
// What is otherwise in a kit, a group of makers or a class than in its album: values, and papers of its own.

import { field, rows } from "./fields.js";
import { button, make } from "./make.js";

/**
 * What is found at a way, or within it.
 * @param {OfEither} state
 * @param {string} way
 */
export const within = (state, way) => state.view.fit.findings.filter((one) => one.path === way || one.path?.startsWith(`${way}.`));
/**
 * The id of what stands at a way.
 * @param {string} way
 */
export const idOf = (way) => way.replace(/[^a-z0-9]+/gi, "-").replace(/-$/, "");
/** @param {string} words */
export const unseen = (words) => make("span", { class: "unseen" }, words);

const whatIs = (/** @type {{ way: string }} */ { way }) => (way === "class" ? "class" : way.startsWith("class") ? "group" : "kit");

/**
 * What is otherwise in a kit than in its album.
 * @param {OfBatch} state
 * @param {KitForm | ClassForm} one
 */
export function changes(state, one, title = "Otherwise than in its album") {
  const { view, start } = state;
  const id = idOf(one.way);
  const offers = view.batch.offers[one.album] ?? [];
  const fresh = state.newChange[one.way];
  const row = fresh && !one.changes.some((row) => row.path === `${one.way}.change.${fresh}`) ? offers.flatMap((group) => group.rows).find((row) => row.path === fresh) : null;
  const what = whatIs(one);
  const papers = offers.filter((group) => group.paper);
  return make("div", { class: "group", role: "group", "aria-labelledby": `${id}-otherwise` },
    make("h4", { id: `${id}-otherwise`, tabindex: "-1" }, title),
    one.changes.length || one.papers.length || row ? null : make("p", { class: "calm" }, "Nothing: the album as it is."),
    make("div", { class: "fields" }, one.changes.map((row) => make("div", { class: "change", "data-key": row.path },
      field(row, view, start.sheets),
      button(["As in the album", unseen(`: ${row.label}`)], "take-change", { "data-way": row.path, "data-kit": one.way }))),
    // It has the key that it will go by once it says something: who types in it goes on typing.
    row ? make("div", { class: "change", "data-key": `${one.way}.change.${fresh}` }, field({ ...row, path: `${one.way}.change.${fresh}` }, view, start.sheets)) : null),
    one.papers.map((paper) => make("fieldset", { "data-key": paper.way },
      make("legend", {}, `Paper of this ${what}: ${paper.name}`),
      make("div", { class: "fields" }, rows(paper.rows, view, start.sheets)),
      button(["The album’s paper instead", unseen(`: ${paper.name}`)], "take-change", { "data-way": paper.way, "data-kit": one.way }))),
    offers.length ? make("form", { class: "add", "data-do": "add-change", "data-way": one.way },
      make("label", { for: `${id}-new` }, `Something else in this ${what}`),
      make("select", { id: `${id}-new`, "data-stays": true }, offers.map((group) => make("optgroup", { label: group.label }, group.rows.map((row) => make("option", { value: row.path }, row.label))))),
      make("button", { type: "submit" }, "Add a change", unseen(`: ${one.name}`))) : null,
    papers.length ? ownPaper(state, one, papers) : null);
}

/**
 * A colourway: another paper wherever the album names this one.
 * @param {OfBatch} state
 * @param {KitForm | ClassForm} one
 * @param {Offer[]} papers
 */
function ownPaper(state, one, papers) {
  const id = idOf(one.way);
  const wrong = state.wrong?.where === `${one.way} paper` ? state.wrong.words : "";
  return make("form", { class: "sold", "data-do": "own-paper", "data-way": one.way },
    make("div", { class: "field" },
      make("label", { for: `${id}-like` }, "Another paper instead of"),
      make("select", { id: `${id}-like`, "data-stays": true }, papers.map((group) => make("option", { value: group.paper }, group.paper)))),
    make("div", { class: "field" },
      make("label", { for: `${id}-paper` }, "by a short name"),
      make("input", { type: "text", id: `${id}-paper`, "data-stays": true, placeholder: "ochre", autocomplete: "off", spellcheck: "false", "aria-describedby": wrong ? `${id}-paper-wrong` : null, "aria-invalid": wrong ? "true" : null })),
    make("button", { type: "submit" }, "Use that paper", unseen(`: ${one.name}`)),
    wrong ? make("span", { class: "wrong", id: `${id}-paper-wrong` }, wrong) : null);
}
