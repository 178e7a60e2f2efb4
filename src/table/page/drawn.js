// SPDX-License-Identifier: MIT
// The drawing of an insert that is cut along one: chosen, kept with the album, its faults told beside it.

import { bare, isDrawing } from "./drawings.js";
import { elsewhere, idOf, rows } from "./fields.js";
import * as keep from "./keep.js";
import { findings } from "./found.js";
import { button, make } from "./make.js";
import { change } from "./queue.js";
import { save } from "./save.js";
import { render, say, state } from "./shown.js";

const LARGEST = 2_000_000;

/**
 * Findings that the drawing's own part of the form shows.
 * @param {Entry} insert
 */
export const isOfDrawing = (insert) => (/** @type {Finding} */ one) => Boolean(insert.outline && (one.path === insert.outline.way || one.path?.startsWith(`${insert.outline.way}.`)));

/**
 * The part of an insert's form that is about its drawing; nothing for a kind that takes none.
 * @param {AlbumWork} view
 * @param {Entry} insert
 * @param {number} at
 */
export function drawing(view, insert, at) {
  const { outline } = insert;
  if (!outline) return null;
  const { way, file, there, used } = outline;
  const id = idOf(way);
  const name = file ? bare(file) : "";
  const said = file ? (used ? `It is cut along ${name}.` : there ? `Nothing can be cut along ${name} yet:` : `${name} is not on the table: choose it here.`) : "It is a cloud of our own until you choose a drawing: one outline, and the holes in it, as SVG or DXF.";
  const of = make("span", { class: "unseen" }, `: insert ${at + 1}`);
  return make("div", { class: "group", role: "group", "aria-labelledby": `${id}-title`, "data-key": way },
    make("h4", { id: `${id}-title`, tabindex: "-1" }, "Its drawing"),
    make("p", { class: used || !file ? "calm" : "wrong" }, said),
    findings(elsewhere(view.fit.findings.filter(isOfDrawing(insert)), outline.rows)),
    make("div", { class: "does" },
      make("span", { class: "file" },
        make("label", { for: `${id}-file`, class: "as-button" }, there ? "Another drawing" : file ? `Choose ${name}` : "Choose a drawing", of),
        make("input", { type: "file", id: `${id}-file`, accept: ".svg,.dxf", "data-drawing": way })),
      there ? button([`Keep ${name} as a file`, of], "keep-drawing", { "data-file": file }) : null,
      file ? button(["The cloud instead", of], "no-drawing", { "data-way": way }) : null),
    outline.rows.length ? make("div", { class: "fields" }, rows(outline.rows, view)) : null);
}

/**
 * Takes a chosen file for the drawing of an entry.
 * @param {string} way
 * @param {File | undefined} file
 */
export async function choose(way, file) {
  if (!file) return;
  if (!isDrawing(file.name) || file.size > LARGEST) {
    state.failed = isDrawing(file.name) ? `${file.name} is too large: a drawing has some KB.` : `${file.name} is no drawing: choose an SVG or DXF file.`;
    say(state.failed);
    render();
    return;
  }
  // Letters that are no UTF-8 stand in names alone.
  const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(await file.arrayBuffer());
  const album = keep.onTable();
  const { stored, replaces } = keep.draw(album.id, file.name, text);
  state.failed = stored ? "" : `This browser has no room for ${file.name}: it is here until the page is closed. Take everything away in one zip.`;
  if (replaces) state.opened = `${file.name} is another drawing now, wherever the album names it.`;
  change({ do: "set", path: `${way}.file`, typed: file.name }, () => document.getElementById(`${idOf(way)}-title`)?.focus());
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const DRAWN = {
  "keep-drawing": ({ file }) => {
    const one = keep.given(keep.onTable()).find(({ name }) => name === file || bare(name) === bare(file));
    if (one) save(one.text, bare(one.name), isSvg(one.text) ? "image/svg+xml" : "application/octet-stream");
  },
  "no-drawing": ({ way }) => change({ do: "take", path: way }, () => document.getElementById(`${idOf(way)}-title`)?.focus()),
};

/** @param {string} text */
const isSvg = (text) => text.trimStart().startsWith("<");
