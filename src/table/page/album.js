// SPDX-License-Identifier: MIT
// The first section: the album's size, its run of pages, spine, cover, papers, panels and inserts.

import { drawer } from "./drawer.js";
import { capital, elsewhere, field, rows, sheetWords } from "./fields.js";
import { drawing, isOfDrawing } from "./drawn.js";
import { about, cutRows, edges, kinds, of } from "./entry.js";
import { findings, mark } from "./found.js";
import { pictures } from "./likeness.js";
import { button, make } from "./make.js";
import { picture } from "./picture.js";
import { run } from "./run.js";
import { sized } from "./sized.js";
import { terms } from "./terms.js";

/**
 * The section of the album.
 * @param {OfAlbum} state
 */
export function album(state) {
  const { view, start } = state;
  const { album } = view;
  const title = album.top.find((row) => row.path === "title");
  const others = album.top.filter((row) => row !== title);
  return make("section", { id: "album", "aria-labelledby": "album-title" },
    make("h2", { id: "album-title" }, "Album"),
    make("p", { class: "result" }, album.sentence),
    state.notes.map((note) => make("p", { class: "told" }, note)),
    make("div", { class: "fields" }, title ? field(title, view) : null, rows(album.page.filter(isSize), view)),
    run(state),
    unfolds("every", "More about every page", "", of(state, "page").filter((one) => !album.page.some((row) => isSize(row) && row.path === one.path)), make("div", { class: "fields" }, rows(album.page.filter((row) => !isSize(row)), view, start.sheets), rows(others, view))),
    one(state, "spine", "Spine", album.spine, start.kinds.spine, false),
    one(state, "cover", "Cover", album.cover, start.kinds.cover, true),
    panels(state),
    inserts(state),
    papers(state),
    drawer(state),
    unfolds("handed", "What is handed over", "", [...of(state, "handed_over")], make("p", { class: "about" }, "The guide speaks to the maker of one kit, and leaves out what comes done."), make("div", { class: "fields" }, rows(album.handed, view))),
    terms(state));
}

/** @param {Row} row */
const isSize = (row) => row.path === "page.width" || row.path === "page.height";

/**
 * @param {string} key
 * @param {string} title
 * @param {string} said
 * @param {Finding[]} wrong
 * @param {...Inside} inside
 */
function unfolds(key, title, said, wrong, ...inside) {
  return make("details", { "data-key": key, id: `part-${key}` },
    make("summary", {}, make("h3", {}, title), said ? make("span", { class: "is" }, said) : null, " ", mark(wrong)),
    make("div", { class: "inside" }, inside));
}

/**
 * @param {OfAlbum} state
 * @param {string} way
 * @param {string} title
 * @param {Entry | null} entry
 * @param {KindOffer[]} list
 * @param {boolean} may
 */
function one(state, way, title, entry, list, may) {
  return unfolds(way, title, entry ? entry.label : "none", of(state, way),
    findings(elsewhere(of(state, way), entry?.rows ?? [], entry?.more ?? [])),
    kinds(way, `Kind of ${way}`, entry?.kind, list, may ? "none" : null),
    entry && state.parts[way] ? sized(state, entry, null, state.parts[way]) : null,
    entry ? make("div", { class: "fields" }, rows(entry.rows, state.view), rows(entry.more, state.view)) : null);
}

/** @param {OfAlbum} state */
function panels(state) {
  const list = state.view.album.panels;
  return unfolds("panels", "Panels of patterned paper", list ? "on every face" : "none", of(state, "panels"),
    findings(elsewhere(of(state, "panels"), list ?? [])),
    list ? make("div", { class: "fields" }, rows(list, state.view)) : null,
    list ? button("No panels", "take", { "data-way": "panels" }) : button("Panels on the faces", "panels"));
}

/** @param {OfAlbum} state */
function inserts(state) {
  const list = state.view.album.inserts;
  const said = list.length ? list.map((one) => one.label.toLowerCase()).join(", ") : "none";
  return unfolds("inserts", "Inserts", said, list.flatMap((insert) => of(state, insert.way)),
    list.map((insert, at) => make("fieldset", { "data-key": insert.way },
      make("legend", {}, `Insert ${at + 1}: ${insert.label}`),
      make("p", { class: "about" }, `${capital(insert.about)}.`),
      findings(elsewhere(of(state, insert.way), insert.rows, insert.more, cutRows(insert)).filter((one) => !isOfDrawing(insert)(one))),
      make("div", { class: "fields" }, rows(insert.rows, state.view), rows(insert.more, state.view)),
      drawing(state.view, insert, at),
      edges(state, insert),
      button(["Remove it", make("span", { class: "unseen" }, `: insert ${at + 1}`)], "take", { "data-way": insert.way }))),
    make("form", { class: "add", "data-do": "add-insert" },
      make("label", { for: "new-insert" }, "Another insert"),
      make("select", { id: "new-insert", "data-stays": true, "aria-describedby": "new-insert-about" }, state.view.album.kinds.insert.map((kind) => make("option", { value: kind.kind, selected: kind.kind === state.newInsert }, kind.label))),
      make("button", { type: "submit" }, "Add it"),
      make("p", { class: "about", id: "new-insert-about" }, about(state.view.album.kinds.insert, state.newInsert))));
}

/** @param {OfAlbum} state */
function papers(state) {
  const list = state.view.album.stocks;
  return unfolds("papers", "Card, paper and board", list.map((stock) => stock.name).join(", "), list.flatMap((stock) => of(state, stock.way)),
    list.map((stock) => make("fieldset", { "data-key": stock.way },
      make("legend", {}, picture(stock.looks, "", { class: "swatch" }), stock.name),
      make("p", { class: "about" }, `${sheetWords(stock.sentence)}${stock.used ? "" : "; nothing is cut from it"}.`),
      findings(elsewhere(of(state, stock.way), stock.rows)),
      make("div", { class: "fields" }, rows(stock.rows, state.view, state.start.sheets)),
      pictures(stock),
      stock.used ? null : button(["Remove it", make("span", { class: "unseen" }, `: ${stock.name}`)], "take", { "data-way": stock.way }))),
    make("form", { class: "add", "data-do": "add-stock" },
      make("label", { for: "new-stock" }, "Another card or paper, by a short name"),
      make("input", { type: "text", id: "new-stock", "data-stays": true, placeholder: "kraft-card", autocomplete: "off" }),
      make("button", { type: "submit" }, "Add it")));
}
