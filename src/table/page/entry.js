// SPDX-License-Identifier: MIT
// What pages, spine, cover and inserts share on the page: the choice of their kind, their edges, what is found of them.

import { capital, elsewhere, rows, waits } from "./fields.js";
import { findings, mark } from "./found.js";
import { button, make } from "./make.js";

/**
 * What is found of an entry, or within it.
 * @param {OfAlbum} state
 * @param {string} way
 */
export const of = (state, way) => state.view.fit.findings.filter((one) => one.path === way || one.path?.startsWith(`${way}.`));

/**
 * The rows of what is done to its edges.
 * @param {Entry} entry
 */
export const cutRows = (entry) => entry.edges?.list.flatMap((one) => one.rows) ?? [];

/**
 * What is done to the edges of a page or an insert.
 * @param {OfAlbum} state
 * @param {Entry} entry
 */
export function edges(state, entry) {
  const { edges, way } = entry;
  if (!edges) return null;
  const id = `edge-${way.replace(/[^a-z0-9]+/gi, "-")}`;
  /** @param {Option[]} list */
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

/**
 * What the kind is that would be added; what is said in the list itself would be cut off.
 * @param {KindOffer[]} list
 * @param {string | undefined} kind
 */
export const about = (list, kind) => `${capital((list.find((one) => one.kind === kind) ?? list[0])?.about ?? "")}.`;

/**
 * The choice of its kind.
 * @param {string} way
 * @param {string} label
 * @param {string | undefined} kind
 * @param {KindOffer[]} list
 * @param {string | null} [none]
 */
export function kinds(way, label, kind, list, none) {
  const id = `kind-${way.replace(/[^a-z0-9]+/gi, "-")}`;
  const about = list.find((one) => one.kind === kind)?.about;
  const shown = waits.get(`${way}.kind`) ?? kind;
  return make("div", { class: "field wide" },
    make("label", { for: id }, label),
    make("select", { id, "data-kind": way },
      none ? make("option", { value: "", selected: !shown }, none) : null,
      list.map((one) => make("option", { value: one.kind, selected: one.kind === shown }, one.label))),
    about ? make("span", { class: "about" }, `${capital(about)}.`) : null);
}
