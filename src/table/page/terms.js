// SPDX-License-Identifier: MIT
// Buying and selling: what the maker says of it, and what the job sheet says then.

import { plate } from "./large.js";
import { elsewhere, rows } from "./fields.js";
import { findings, mark } from "./found.js";
import { button, make } from "./make.js";
import { picture } from "./picture.js";

/** @param {string} words */
const unseen = (words) => make("span", { class: "unseen" }, words);

/**
 * What the maker says of buying and selling.
 * @param {OfEither} state
 */
export function terms(state) {
  const { view } = state;
  const { terms } = view.batch ?? view;
  const wrong = view.fit.findings.filter((one) => /^(selling|packs|supplies)\b/.test(one.path ?? ""));
  const currency = terms.selling.find((row) => row.path === "selling.currency")?.value;
  const own = [...terms.selling, ...terms.packs.flatMap((one) => one.rows), ...terms.supplies.flatMap((one) => one.rows)];
  return make("details", { "data-key": "terms", id: "part-terms" },
    make("summary", {}, make("h3", {}, "Buying and selling"), make("span", { class: "is" }, currency ? `in ${currency}` : own.some((row) => row.given) ? "" : "nothing said yet"), " ", mark(wrong)),
    make("div", { class: "inside" },
      findings(elsewhere(wrong, own)),
      make("div", { class: "fields" }, rows(terms.selling, view)),
      list(state, "packs", "Sheets in packs", terms.packs, terms.unpacked.length ? [
        make("label", { for: "packs-name" }, "Sheets of"),
        make("select", { id: "packs-name", "data-stays": true }, terms.unpacked.map((name) => make("option", { value: name }, name)))] : null, "25", "Sheets in a pack"),
      list(state, "supplies", "Tape, glue and the like", terms.supplies, [
        make("label", { for: "supplies-name" }, "What it is"),
        make("input", { type: "text", id: "supplies-name", "data-stays": true, placeholder: "tape 6 mm", autocomplete: "off", list: "unpriced" }),
        make("datalist", { id: "unpriced" }, terms.unpriced.map((name) => make("option", { value: name })))], "25 m", "How much is sold together")));
}

/**
 * A list of what is bought, and a form for more of it.
 * @param {OfEither} state
 * @param {string} which
 * @param {string} title
 * @param {Sold[]} entries
 * @param {Inside} name
 * @param {string} of
 * @param {string} about
 */
function list(state, which, title, entries, name, of, about) {
  const wrong = state.wrong?.where === which ? state.wrong.words : "";
  const marks = { "aria-invalid": wrong ? "true" : null, "aria-describedby": wrong ? `${which}-wrong` : null };
  return make("div", { class: "group", role: "group", "aria-labelledby": `${which}-title` },
    make("h4", { id: `${which}-title`, tabindex: "-1" }, title),
    entries.map((one) => make("fieldset", { "data-key": one.way },
      make("legend", {}, one.name),
      make("div", { class: "fields" }, rows(one.rows, state.view)),
      button(["Remove it", unseen(`: ${one.name}`)], "take-term", { "data-way": one.way }))),
    name ? make("form", { class: "sold", "data-do": "sold", "data-list": which },
      make("div", { class: "field" }, name),
      make("div", { class: "field" }, make("label", { for: `${which}-of` }, about), make("input", { type: "text", id: `${which}-of`, "data-stays": true, placeholder: of, autocomplete: "off", ...marks })),
      make("div", { class: "field" }, make("label", { for: `${which}-price` }, "What that costs"), make("input", { type: "text", id: `${which}-price`, "data-stays": true, placeholder: "9.50", autocomplete: "off", ...marks })),
      make("button", { type: "submit" }, "Add it", unseen(`: ${title}`)),
      wrong ? make("span", { class: "wrong", id: `${which}-wrong` }, wrong) : null) : null);
}

/**
 * Sections of the job sheet: the mixes, what is packed, cost and price.
 * @param {Section[] | null} list
 * @param {string} key
 */
export function tables(list, key) {
  return (list ?? []).map((section) => make("section", { id: `${key}-${section.id}`, class: "sheet-tables", "data-key": section.id, "aria-labelledby": `${key}-${section.id}-title` },
    make("h2", { id: `${key}-${section.id}-title` }, section.heading),
    section.id === "pack" ? make("details", { "data-key": "pack" }, make("summary", {}, make("h3", {}, "What goes into each bag")), make("div", { class: "inside" }, section.blocks.map(block))) : section.blocks.map(block)));
}

/** @param {Block} block */
function block(block) {
  if (block.words) return make("p", {}, block.words);
  if (block.heading) return make("h3", { class: "line" }, block.heading);
  if (block.list) return make("ul", { class: "listed" }, block.list.map((line) => make("li", {}, line)));
  if (block.picture) return make("figure", {}, plate(picture(block.picture, block.shows ?? "")));
  return block.rows ? table(/** @type {Table} */ (block)) : null;
}

const FIGURE = /^-?[\d.,\s\u202f]+%?$/;

/**
 * A table.
 * @param {Table} block
 */
export function table(block) {
  // A column of nothing but figures stands at the right, one under the other.
  const figures = block.head.map((_, at) => at > 0 && block.rows.every((row) => !row[at] || FIGURE.test(row[at])));
  /** @param {number} at */
  const has = (at) => (figures[at] ? { class: "figure" } : {});
  // What is wider than a small screen moves by itself, by keys, too.
  return make("div", { class: "table", tabindex: "0", role: "group", "aria-label": block.caption },
    make("table", {},
      make("caption", {}, block.caption),
      make("thead", {}, make("tr", {}, block.head.map((cell, at) => (cell ? make("th", { scope: "col", ...has(at) }, cell) : make("td", {}))))),
      make("tbody", {}, block.rows.map((row) => make("tr", {}, row.map((cell, at) => make(at === 0 && cell ? "th" : "td", at === 0 && cell ? { scope: "row" } : has(at), cell)))))));
}
