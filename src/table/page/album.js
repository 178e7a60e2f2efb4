// SPDX-License-Identifier: MIT
// The first section: the album's size, its run of pages, spine, cover, papers, panels and inserts.

import { button, make, picture } from "./make.js";
import { drawer } from "./drawer.js";
import { capital, elsewhere, field, rows } from "./fields.js";
import { drawing, isOfDrawing } from "./drawn.js";
import { findings, mark } from "./results.js";
import { terms } from "./terms.js";

/** The section of the album. */
export function album(state) {
  const { view, start } = state;
  const { album } = view;
  const title = album.top.find((row) => row.path === "title");
  const others = album.top.filter((row) => row !== title);
  return make("section", { id: "album", "aria-labelledby": "album-title" },
    make("h2", { id: "album-title" }, "Album"),
    make("p", { class: "result" }, album.sentence),
    state.notes.map((note) => make("p", { class: "told" }, note)),
    make("div", { class: "fields" }, field(title, view), rows(album.page.filter(isSize), view)),
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

const isSize = (row) => row.path === "page.width" || row.path === "page.height";

function unfolds(key, title, said, wrong, ...inside) {
  return make("details", { "data-key": key, id: `part-${key}` },
    make("summary", {}, make("h3", {}, title), said ? make("span", { class: "is" }, said) : null, " ", mark(wrong)),
    make("div", { class: "inside" }, inside));
}

const of = (state, way) => state.view.fit.findings.filter((one) => one.path === way || one.path?.startsWith(`${way}.`));

function run(state) {
  const { album } = state.view;
  const chosen = album.pages[state.chosen];
  return make("div", { class: "run" },
    make("h3", { id: "run-title" }, "The run of pages"),
    make("p", { class: "about", id: "run-help" }, "Choose a page to change it. Drag it to another place, or hold Alt and press an arrow key; Delete takes it out."),
    make("ol", { class: "strip", "aria-labelledby": "run-title" }, album.pages.map((page, at) => make("li", { draggable: "true", "data-at": at, "data-key": `page-${at}` },
      make("button", { type: "button", id: `page-${at}`, "data-do": "choose", "data-at": at, "aria-expanded": String(at === state.chosen), "aria-controls": at === state.chosen ? "chosen" : null, "aria-describedby": "run-help" },
        picture(album.pictures[page.picture], ""),
        make("span", { class: "number" }, String(at + 1)), " ",
        make("span", { class: "kind" }, page.label),
        mark(of(state, page.way)))))),
    chosen ? page(state, chosen) : null,
    make("form", { class: "add", "data-do": "add-page" },
      make("label", { for: "new-page" }, "Another page"),
      make("select", { id: "new-page", "data-stays": true }, state.view.album.kinds.page.map((kind) => make("option", { value: kind.kind, selected: kind.kind === state.newPage }, `${kind.label}: ${kind.about}`))),
      make("button", { type: "submit" }, chosen ? `Add it after page ${state.chosen + 1}` : "Add it at the end")));
}

function page(state, page) {
  const at = state.chosen;
  const last = state.view.album.pages.length - 1;
  return make("div", { class: "chosen", id: "chosen", role: "group", "aria-labelledby": "chosen-title", "data-key": "chosen" },
    make("h4", { id: "chosen-title" }, `Page ${at + 1}: ${page.label}`),
    findings(elsewhere(of(state, page.way), page.rows, page.more, cutRows(page))),
    make("div", { class: "does" },
      button("Earlier", "earlier", { "aria-disabled": at === 0 ? "true" : null }),
      button("Later", "later", { "aria-disabled": at === last ? "true" : null }),
      button("The same again", "copy"),
      button("Take it out", "take-page")),
    kinds(page.way, "Kind of page", page.kind, state.view.album.kinds.page),
    make("div", { class: "fields" }, rows(page.rows, state.view), rows(page.more, state.view)),
    edges(state, page));
}

const cutRows = (entry) => entry.edges?.list.flatMap((one) => one.rows) ?? [];

/** What is done to the edges of a page or an insert. */
function edges(state, entry) {
  const { edges, way } = entry;
  if (!edges) return null;
  const id = `edge-${way.replace(/[^a-z0-9]+/gi, "-")}`;
  const options = (list) => list.map((one) => make("option", { value: one.value }, one.label));
  return make("details", { class: "edges", "data-key": `edges-${way}` },
    make("summary", {}, "Edges and corners", edges.list.length ? ` (${edges.list.length} cut)` : "", " ", mark(state.view.fit.findings.filter((one) => one.path?.startsWith(`${way}.edges`)))),
    edges.list.map((one, at) => make("fieldset", { "data-key": one.way },
      make("legend", {}, `Edge ${at + 1}`),
      findings(elsewhere(of(state, one.way), one.rows)),
      make("div", { class: "fields" }, rows(one.rows, state.view)),
      button(["Leave it straight", make("span", { class: "unseen" }, `: edge ${at + 1}`)], "take", { "data-way": one.way }))),
    edges.free.length ? make("form", { class: "add", "data-do": "add-edge", "data-way": way },
      make("label", { for: `${id}-on` }, "Cut the edge"),
      make("select", { id: `${id}-on`, "data-stays": true }, options(edges.free)),
      make("label", { for: `${id}-cut` }, "to a"),
      make("select", { id: `${id}-cut`, "data-stays": true }, options(edges.cuts)),
      make("button", { type: "submit" }, "Cut it")) : null);
}

function kinds(way, label, kind, list, none) {
  const id = `kind-${way.replace(/[^a-z0-9]+/gi, "-")}`;
  const about = list.find((one) => one.kind === kind)?.about;
  return make("div", { class: "field wide" },
    make("label", { for: id }, label),
    make("select", { id, "data-kind": way },
      none ? make("option", { value: "", selected: !kind }, none) : null,
      list.map((one) => make("option", { value: one.kind, selected: one.kind === kind }, one.label))),
    about ? make("span", { class: "about" }, `${capital(about)}.`) : null);
}

function one(state, way, title, entry, list, may) {
  return unfolds(way, title, entry ? entry.label : "none", of(state, way),
    findings(elsewhere(of(state, way), entry?.rows ?? [], entry?.more ?? [])),
    kinds(way, `Kind of ${way}`, entry?.kind, list, may ? "none" : null),
    entry ? make("div", { class: "fields" }, rows(entry.rows, state.view), rows(entry.more, state.view)) : null);
}

function panels(state) {
  const list = state.view.album.panels;
  return unfolds("panels", "Panels of patterned paper", list ? "on every face" : "none", of(state, "panels"),
    findings(elsewhere(of(state, "panels"), list ?? [])),
    list ? make("div", { class: "fields" }, rows(list, state.view)) : null,
    list ? button("No panels", "take", { "data-way": "panels" }) : button("Panels on the faces", "panels"));
}

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
      button(["Take it out", make("span", { class: "unseen" }, `: insert ${at + 1}`)], "take", { "data-way": insert.way }))),
    make("form", { class: "add", "data-do": "add-insert" },
      make("label", { for: "new-insert" }, "Another insert"),
      make("select", { id: "new-insert", "data-stays": true }, state.view.album.kinds.insert.map((kind) => make("option", { value: kind.kind, selected: kind.kind === state.newInsert }, `${kind.label}: ${kind.about}`))),
      make("button", { type: "submit" }, "Add it")));
}

function papers(state) {
  const list = state.view.album.stocks;
  return unfolds("papers", "Card, paper and board", list.map((stock) => stock.name).join(", "), list.flatMap((stock) => of(state, stock.way)),
    list.map((stock) => make("fieldset", { "data-key": stock.way },
      make("legend", {}, stock.name),
      make("p", { class: "about" }, `${stock.sentence}${stock.used ? "" : "; nothing is cut from it"}.`),
      findings(elsewhere(of(state, stock.way), stock.rows)),
      make("div", { class: "fields" }, rows(stock.rows, state.view, state.start.sheets)),
      stock.used ? null : button(["Take it away", make("span", { class: "unseen" }, `: ${stock.name}`)], "take", { "data-way": stock.way }))),
    make("form", { class: "add", "data-do": "add-stock" },
      make("label", { for: "new-stock" }, "Another card or paper, by a short name"),
      make("input", { type: "text", id: "new-stock", "data-stays": true, placeholder: "kraft-card", autocomplete: "off" }),
      make("button", { type: "submit" }, "Add it")));
}
