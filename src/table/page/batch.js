// SPDX-License-Identifier: MIT
// A batch: its kits, each with what is otherwise in it than in its album, and what follows from all of them.

import { groups } from "./class.js";
import { drawer } from "./drawer.js";
import { capital, elsewhere, field, rows, sheetWords } from "./fields.js";
import { button, make } from "./make.js";
import { changes, idOf, unseen, within } from "./otherwise.js";
import { findings, mark } from "./found.js";
import { machine } from "./machine.js";
import { fit, laid, take } from "./results.js";
import { tables, terms } from "./terms.js";

/**
 * All sections of a batch.
 * @param {OfBatch} state
 * @param {Keep} keep
 */
export function batch(state, keep) {
  const { view } = state;
  return [kits(state, keep), fit(state), sheets(state), tables(view.tables, "batch"), take(state)];
}

/**
 * @param {OfBatch} state
 * @param {Keep} keep
 */
function kits(state, keep) {
  const { view } = state;
  const { batch } = view;
  const title = batch.top.find((row) => row.path === "title");
  return make("section", { id: "kits", "aria-labelledby": "kits-title" },
    make("h2", { id: "kits-title", tabindex: "-1" }, batch.class ? "Class" : "Kits"),
    make("p", { class: "result" }, batch.sentence),
    state.notes.map((note) => make("p", { class: "told" }, note)),
    make("div", { class: "fields" }, title && field({ ...title, label: `Name of the ${batch.class ? "class" : "batch"}`, about: "" }, view)),
    batch.class ? groups(state) : [
      make("ol", { class: "kits" }, batch.kits.map((one, at) => make("li", { "data-key": `kit-${at}` }, kit(state, one)))),
      another(keep)],
    whole(state),
    drawer(state),
    terms(state));
}

/**
 * @param {OfBatch} state
 * @param {KitForm} one
 */
function kit(state, one) {
  const { view } = state;
  const id = idOf(one.way);
  const last = view.batch.kits.length === 1;
  return make("details", { id, "data-key": one.way },
    make("summary", {}, make("h3", {}, one.name), make("span", { class: "is" }, one.sentence), " ", mark(within(state, one.way))),
    make("div", { class: "inside" },
      make("div", { class: "fields" }, rows(one.rows, view)),
      make("div", { class: "does" },
        button(["One more like it", unseen(`: ${one.name}`)], "copy-kit", { "data-way": one.way }),
        button(["Remove it", unseen(`: ${one.name}`)], "take-kit", { "data-way": one.way, "aria-disabled": last ? "true" : null }),
        button(["Open its album", unseen(`: ${one.name}`)], "open-album", { "data-name": one.album })),
      findings(elsewhere(within(state, one.way), one.rows, one.changes, one.papers.flatMap((paper) => paper.rows), choiceRows(one))),
      changes(state, one),
      choice(state, one)));
}

/** @param {KitForm} one */
const choiceRows = (one) => (one.choice ? [...one.choice.rows, ...one.choice.of.flatMap((kind) => [...kind.rows, ...kind.more])] : []);

/**
 * Pages that the buyer chooses.
 * @param {OfBatch} state
 * @param {KitForm} one
 */
function choice(state, one) {
  const { view } = state;
  const id = idOf(one.way);
  const all = one.choice?.kinds ?? [];
  if (!one.choice) {
    return make("div", { class: "group" },
      make("p", {}, "Its pages are the album’s."),
      button(["Let the buyer choose the pages", unseen(`: ${one.name}`)], "choose-pages", { "data-way": one.way }));
  }
  return make("div", { class: "group", role: "group", "aria-labelledby": `${id}-choice` },
    make("h4", { id: `${id}-choice`, tabindex: "-1" }, "The buyer chooses the pages"),
    make("div", { class: "fields" }, rows(one.choice.rows, view)),
    one.choice.of.map((kind, at) => make("fieldset", { "data-key": kind.way },
      make("legend", {}, `To choose from, ${at + 1}: ${kind.label}`),
      make("div", { class: "field wide" },
        make("label", { for: `${id}-kind-${at}` }, "Kind of page"),
        make("select", { id: `${id}-kind-${at}`, "data-kind": kind.way }, all.map((other) => make("option", { value: other.kind, selected: other.kind === kind.kind }, other.label))),
        make("span", { class: "about" }, `${capital(kind.about)}.`)),
      make("div", { class: "fields" }, rows(kind.rows, view), rows(kind.more, view)),
      button(["Remove it", unseen(`: ${kind.label}`)], "take-kind", { "data-way": kind.way, "data-kit": one.way, "aria-disabled": one.choice?.of.length === 1 ? "true" : null }))),
    make("form", { class: "add", "data-do": "add-kind", "data-way": one.way, "data-at": one.choice.of.length },
      make("label", { for: `${id}-new-kind` }, "Another kind to choose"),
      make("select", { id: `${id}-new-kind`, "data-stays": true }, all.map((kind) => make("option", { value: kind.kind }, `${kind.label}: ${kind.about}`))),
      make("button", { type: "submit" }, "Add the kind", unseen(`: ${one.name}`))),
    button(["The album’s own pages instead", unseen(`: ${one.name}`)], "album-pages", { "data-way": one.way }));
}

/**
 * Another kit, from an album that lies on the table or from a file.
 * @param {Keep} keep
 */
function another(keep) {
  const albums = keep.albums().filter((one) => !one.batch);
  return make("div", { class: "more-kits" },
    albums.length ? make("form", { class: "add", "data-do": "add-kit" },
      make("label", { for: "new-kit" }, "Another kit, from an album on the table"),
      make("select", { id: "new-kit", "data-stays": true }, albums.map((one) => make("option", { value: one.name }, one.title ? `${one.title} (${one.name})` : one.name))),
      make("button", { type: "submit" }, "Add a kit")) : null,
    make("span", { class: "file" }, make("label", { for: "kit-file", class: "as-button" }, "Add an album file as a kit"), make("input", { type: "file", id: "kit-file", accept: ".json,application/json", multiple: true })));
}

/**
 * What holds for the whole batch.
 * @param {OfBatch} state
 */
function whole(state) {
  const { view } = state;
  const { batch } = view;
  const [title, language] = ["title", "language"].map((path) => batch.top.find((row) => row.path === path));
  const together = batch.top.filter((row) => row !== title && row !== language);
  const handed = [...batch.handed, ...(language ? [language] : [])];
  return [
    make("details", { "data-key": "handed", id: "part-handed" },
      make("summary", {}, make("h3", {}, "What is handed over"), " ", mark([...within(state, "handed_over"), ...within(state, "language")])),
      make("div", { class: "inside" },
        make("p", { class: "about" }, "Guides speak to the maker of one kit, and leave out what comes done."),
        make("div", { class: "fields" }, rows(handed, view)))),
    make("details", { "data-key": "whole", id: "part-whole" },
      make("summary", {}, make("h3", {}, `Sheets and spares of the whole ${batch.class ? "class" : "batch"}`), " ", mark([...within(state, "together"), ...within(state, "spares")])),
      make("div", { class: "inside" },
        make("div", { class: "fields" }, rows(together, view), rows(batch.spares, view))))];
}

/** @param {OfBatch} state */
function sheets(state) {
  const { view } = state;
  const shown = view.sheets ?? state.oldSheets;
  const ways = view.fit.findings.filter((one) => one.path === "together" && one.level === "note");
  return make("section", { id: "sheets", "aria-labelledby": "sheets-title" },
    make("h2", { id: "sheets-title" }, `Sheets of all ${view.batch.class ? "groups" : "kits"}`),
    make("p", { class: "result" }, view.sheets ? view.sheets.sentence : "No sheets until what stops it is mended."),
    ways.map((one) => make("p", {}, `${capital(one.text)}.`)),
    state.looking ? make("p", { class: "told" }, state.looking) : null,
    (shown?.stocks ?? []).map((stock) => make("div", { class: `stock${view.sheets ? "" : " old"}`, "data-key": stock.name }, make("h3", {}, capital(stock.name)), make("p", { class: "about" }, sheetWords(stock.sheet)), laid(stock, !view.sheets, false))),
    machine(state));
}
