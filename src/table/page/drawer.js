// SPDX-License-Identifier: MIT
// The drawer: what lies there, what the job takes of it, what is left.

import { elsewhere, field, rows } from "./fields.js";
import { button, make } from "./make.js";
import { unseen, within } from "./otherwise.js";
import { findings, mark } from "./found.js";
import { asks } from "./states.js";
import { table } from "./terms.js";

/**
 * The drawer of an album or a batch.
 * @param {OfEither} state
 */
export function drawer(state) {
  const { view } = state;
  const { drawer } = view;
  const found = within(state, "drawer");
  const own = drawer.stocks.flatMap((stock) => stock.sheets.flatMap((sheet) => sheet.rows));
  const missing = drawer.name && drawer.text === null;
  return make("details", { "data-key": "drawer", id: "part-drawer" },
    make("summary", {}, make("h3", { id: "drawer-title", tabindex: "-1" }, "What lies in the drawer"), make("span", { class: "is" }, drawer.sentence), " ", mark(found)),
    make("div", { class: "inside" },
      make("p", { class: "about" }, "Sheets and offcuts that you have are used before new ones: offcuts first. The drawer’s file changes by your hand alone."),
      make("div", { class: "fields" }, field(which(drawer), view)),
      make("div", { class: "does" },
        button("A new drawer", "new-drawer"),
        make("span", { class: "file" },
          make("label", { for: "drawer-file", class: "as-button" }, missing ? `Open ${drawer.name}` : "Open a drawer file"),
          make("input", { type: "file", id: "drawer-file", accept: ".json,application/json", "data-side": "drawer", "data-for": "drawer" }))),
      findings(elsewhere(found, [which(drawer)], own)),
      drawer.editable ? [
        drawer.stocks.map((stock) => lies(stock, view)),
        more(state)] : null,
      drawer.left ? left(drawer.left) : null,
      drawer.text === null ? null : keeping(state)));
}

/**
 * Which drawer it is.
 * @returns {Row}
 */
function which(/** @type {DrawerForm} */ { name, own, names }) {
  const usual = name && !own ? `${name}, as its album says` : "none";
  return { path: "drawer", label: "Drawer", about: "", value: own ? name : "", given: own, needed: false, usual, takes: "choice", choices: names.map((one) => ({ value: one, label: one })) };
}

/**
 * @param {DrawerForm["stocks"][number]} stock
 * @param {Shown} view
 */
function lies(stock, view) {
  return make("fieldset", { "data-key": stock.way },
    make("legend", {}, stock.name),
    stock.sheets.length ? null : button(["Remove it", unseen(`: ${stock.name}`)], "take-lying", { "data-way": stock.way }),
    make("ul", { class: "lies" }, stock.sheets.map((sheet) => make("li", { "data-key": sheet.way },
      make("div", { class: "fields" }, rows(sheet.rows, view)),
      sheet.said ? make("p", { class: "taken" }, `${sheet.name}: ${sheet.said}.`) : null,
      button(["Remove it", unseen(`: ${sheet.name} of ${stock.name}`)], "take-lying", { "data-way": sheet.way })))));
}

/**
 * A form for more sheets.
 * @param {OfEither} state
 */
function more(state) {
  const { may, as } = state.view.drawer;
  const wrong = state.wrong?.where === "lies" ? state.wrong.words : "";
  const marks = { "aria-invalid": wrong ? "true" : null, "aria-describedby": wrong ? "lies-wrong" : null };
  /**
   * @param {string} id
   * @param {string} label
   * @param {string} placeholder
   */
  const typed = (id, label, placeholder, about = "") => make("div", { class: "field" },
    make("label", { for: id }, label),
    make("input", { type: "text", id, "data-stays": true, placeholder, autocomplete: "off", spellcheck: "false", ...marks }),
    about ? make("span", { class: "about" }, about) : null);
  return make("form", { class: "sold", "data-do": "lies" },
    make("div", { class: "field" },
      make("label", { for: "lies-stock" }, "More sheets of"),
      make("select", { id: "lies-stock", "data-stays": true }, may.map((name) => make("option", { value: name }, name)))),
    typed("lies-sheet", "Sheet, or offcut as it lies", "210x83mm", `${as}.`),
    typed("lies-count", "How many", "1"),
    make("button", { type: "submit" }, "Put it in the drawer"),
    wrong ? make("span", { class: "wrong", id: "lies-wrong" }, wrong) : null);
}

/** @param {Table} left */
function left(left) {
  return make("div", { class: "group" },
    left.rows.length ? table(left) : make("p", {}, `${left.caption}: nothing.`),
    make("p", { class: "about" }, "Offcuts of 40 mm and more on each side are worth keeping."),
    button("Save the drawer as it is after the job", "drawer-after"));
}

/**
 * The drawer's file.
 * @param {OfEither} state
 */
function keeping(state) {
  const { name, text } = state.view.drawer;
  return [
    make("div", { class: "does" },
      button("The drawer file, to keep", "keep-drawer"),
      button(["Take this drawer off the table", unseen(`: ${name}`)], "forget-drawer")),
    asks(state, "drawer"),
    make("details", { "data-key": "drawer-text" }, make("summary", {}, make("h3", {}, "The drawer file’s own text")),
      make("form", { class: "text inside", "data-do": "use-drawer-text" },
        make("label", { for: "drawer-text" }, "What is entered above stands in this text."),
        make("textarea", { id: "drawer-text", rows: "10", spellcheck: "false" }, text),
        make("button", { type: "submit" }, "Use this text", unseen(": the drawer")))),
  ];
}
