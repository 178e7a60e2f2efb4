// SPDX-License-Identifier: MIT
// Pictures of a stock, front and back: chosen, kept with the album, taken away again.

import { bare, bytesOf, isPicture, kept } from "./drawings.js";
import { idOf } from "./fields.js";
import * as keep from "./keep.js";
import { button, make } from "./make.js";
import { change } from "./queue.js";
import { save } from "./save.js";
import { render, say, state } from "./shown.js";

/** What a camera makes has some MB; it is kept smaller. */
const LARGEST = 40_000_000;

const SAYS = {
  front: { title: "Its picture", none: "It is shown in its colour until you choose a picture of it: a photograph or scan of the sheet, edge to edge." },
  back: { title: "A picture of its back", none: "For paper that is printed on both sides." },
};

/**
 * The part of a stock's form that is about its pictures.
 * @param {StockForm} stock
 */
export function pictures(stock) {
  return (stock.pictures ?? []).map((one, at) => {
    const { way, file, there, used } = one;
    const { title, none } = at ? SAYS.back : SAYS.front;
    const id = idOf(way);
    const name = file ? bare(file) : "";
    const said = !file ? none : used ? `It is shown as in ${name}.` : there ? `${name} can't be shown: choose another one.` : `${name} is not on the table: choose it here, or go on without.`;
    const of = make("span", { class: "unseen" }, `: ${title.toLowerCase()}, ${stock.name}`);
    return make("div", { class: "group", role: "group", "aria-labelledby": `${id}-title`, "data-key": way },
      make("h4", { id: `${id}-title`, tabindex: "-1" }, title),
      make("p", { class: used || !file ? "calm" : "wrong" }, said),
      make("div", { class: "does" },
        make("span", { class: "file" },
          make("label", { for: `${id}-file`, class: "as-button" }, there ? "Another picture" : file ? `Choose ${name}` : "Choose a picture", of),
          make("input", { type: "file", id: `${id}-file`, accept: ".png,.jpg,.jpeg,image/png,image/jpeg", "data-likeness": way })),
        there ? button([`Keep ${name} as a file`, of], "keep-likeness", { "data-file": file }) : null,
        file ? button(["No picture", of], "no-likeness", { "data-way": way }) : null));
  });
}

const refuse = (/** @type {string} */ words) => {
  state.failed = words;
  say(words);
  render();
};

/**
 * Takes a chosen file for a picture of a stock.
 * @param {string} way
 * @param {File | undefined} file
 */
export async function choose(way, file) {
  if (!file) return;
  if (!isPicture(file.name)) return refuse(`${file.name} is no picture: choose a PNG or JPEG file.`);
  if (file.size > LARGEST) return refuse(`${file.name} is too large: a photograph has some MB.`);
  const text = await kept(file.name, new Uint8Array(await file.arrayBuffer()));
  const album = keep.onTable();
  const { stored, replaces } = keep.draw(album.id, file.name, text);
  state.failed = stored ? "" : `This browser has no room for ${file.name}: it is here until the page is closed. Take everything away in one zip.`;
  if (replaces) state.opened = `${file.name} is another picture now, wherever the album names it.`;
  change({ do: "set", path: way, typed: file.name }, () => document.getElementById(`${idOf(way)}-title`)?.focus());
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const LIKENESS = {
  "keep-likeness": ({ file }) => {
    const one = keep.given(keep.onTable()).find(({ name }) => name === file || bare(name) === bare(file));
    if (one) save(bytesOf(one.text), bare(one.name), one.text.startsWith("data:image/png") ? "image/png" : "image/jpeg");
  },
  "no-likeness": ({ way }) => change({ do: "take", path: way }, () => document.getElementById(`${idOf(way)}-title`)?.focus()),
};
