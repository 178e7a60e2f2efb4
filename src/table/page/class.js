// SPDX-License-Identifier: MIT
// A class: groups of makers, each with the sheets that it has, what it cuts with and what it is handed.

import { elsewhere, field, rows } from "./fields.js";
import { button, make } from "./make.js";
import { changes, idOf, unseen, within } from "./otherwise.js";
import { findings, mark } from "./found.js";

/**
 * All groups, and what holds for the whole class.
 * @param {OfBatch} state
 */
export function groups(state) {
  const { batch } = state.view;
  return [
    make("ol", { class: "kits" }, batch.kits.map((one, at) => make("li", { "data-key": `group-${at}` }, group(state, /** @type {GroupForm} */ (one))))),
    make("div", { class: "does" }, button("Add a group of makers", "add-group")),
    batch.class && whole(state, batch.class)];
}

/** @param {Row} row */
const isTool = (row) => row.path.endsWith(".by");

/**
 * @param {OfBatch} state
 * @param {GroupForm} one
 */
function group(state, one) {
  const { view, start } = state;
  const id = idOf(one.way);
  const last = view.batch.kits.length === 1;
  const { row, rows: settings } = one.machine;
  const own = [...one.rows, ...one.sheets, row, ...settings, ...one.handed, ...one.changes, ...one.papers.flatMap((paper) => paper.rows)];
  /**
   * @param {string} key
   * @param {string} title
   * @param {...Inside} inside
   */
  const part = (key, title, ...inside) => make("div", { class: "group", role: "group", "aria-labelledby": `${id}-${key}` },
    make("h4", { id: `${id}-${key}` }, title), inside);
  return make("details", { id, "data-key": one.way },
    make("summary", {}, make("h3", {}, one.name), make("span", { class: "is" }, one.sentence), " ", mark(within(state, one.way))),
    make("div", { class: "inside" },
      make("div", { class: "fields" }, rows(one.rows.filter((row) => !isTool(row)), view)),
      make("div", { class: "does" },
        button(["One more like it", unseen(`: ${one.name}`)], "copy-kit", { "data-way": one.way }),
        button(["Remove it", unseen(`: ${one.name}`)], "take-kit", { "data-way": one.way, "aria-disabled": last ? "true" : null }),
        button(["Open its album", unseen(`: ${one.name}`)], "open-album", { "data-name": one.album })),
      findings(elsewhere(within(state, one.way), own)),
      part("sheets", "The sheets that they have", make("div", { class: "fields" }, rows(one.sheets, view, start.sheets))),
      part("machine", "What they cut with",
        make("div", { class: "fields" }, rows(one.rows.filter(isTool), view), field(row, view), rows(settings, view)),
        make("div", { class: "does" }, make("span", { class: "file" },
          make("label", { for: `${id}-cutter-file`, class: "as-button" }, "Open a cutter file", unseen(`: ${one.name}`)),
          make("input", { type: "file", id: `${id}-cutter-file`, accept: ".json,application/json", "data-side": "cutter", "data-for": row.path })))),
      part("handed", "What they are handed", make("div", { class: "fields" }, rows(one.handed, view))),
      changes(state, one)));
}

/**
 * What is the same for all groups.
 * @param {OfBatch} state
 * @param {ClassForm} one
 */
function whole(state, one) {
  const { view } = state;
  const found = [...within(state, "class.album"), ...within(state, "class.shared_by"), ...within(state, "class.brings"), ...within(state, "class.change")];
  return make("details", { "data-key": "class", id: "part-class" },
    make("summary", {}, make("h3", {}, "What all groups share"), " ", mark(found)),
    make("div", { class: "inside" },
      make("div", { class: "fields" }, rows(one.rows, view)),
      findings(elsewhere(found, one.rows, one.changes, one.papers.flatMap((paper) => paper.rows))),
      changes(state, one, "Otherwise in this class than in its album")));
}
