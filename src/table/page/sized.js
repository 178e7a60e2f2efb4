// SPDX-License-Identifier: MIT
// The chosen page as a drawing: as it lies, and its pieces flat (the pieces of the spine and the cover, too), with their sizes as fields on the lines that they measure.

import { capital, drafts, idOf, waits } from "./fields.js";
import { make } from "./make.js";
import { extent, picture } from "./picture.js";

/**
 * The drawing; nothing until it is there.
 * @param {OfAlbum} state
 * @param {Entry} page
 * @param {Group | null} [group] all pages of its kind, where its numbers are theirs
 * @param {PageDrawn | null} [drawn]
 */
export function sized(state, page, group = null, drawn = state.drawn) {
  const { view, chosen } = state;
  if (drawn?.way !== page.way) return null;
  const { rows, more } = group ?? page;
  const all = [...view.album.page, ...rows, ...more];
  const own = `${page.way}.`;
  const wayOf = (/** @type {string} */ path) => (group && path.startsWith(own) ? `pages[${group.kind}].${path.slice(own.length)}` : path);
  return make("div", { class: `sized${drawn.old ? " old" : ""}`, "data-key": "sized" },
    drawn.old ? make("p", { class: "told" }, "This is how it was before.") : null,
    drawn.folded ? make("figure", { class: "loose", "data-key": "folded", ...told(drawn.folded) }, picture(drawn.folded, `Page ${chosen + 1} as it lies`), make("figcaption", {}, "as it lies")) : null,
    drawn.pieces.map((piece, at) => make("figure", { "data-key": `piece-${at}` },
      make("div", { class: "on-card", ...told(piece.picture) },
        picture(piece.picture, `${piece.name}, flat`),
        piece.numbers.map((number) => ({ ...number, path: wayOf(number.path) })).map((number) => size(number, all.find((row) => row.path === number.path), view, page.way))),
      make("figcaption", {}, piece.name))));
}

/**
 * A size on its line: the same field as the one of that name in the list.
 * @param {Row | undefined} row
 * @param {Shown} view
 * @param {string} way of what the drawing is: two drawings may have the same field
 */
function size(/** @type {NumberAt} */ { path, name, size, x, y }, row, view, way) {
  if (!row) return null;
  const draft = drafts.get(path);
  const stops = draft || view.fit.findings.some((one) => one.path === path && one.level === "stop");
  // What is usual stands there without the words about it; where it is said in words alone, as large as it is drawn.
  const usual = row.given ? null : row.differs || /^\d/.test(row.usual) ? row.usual.split(" (")[0] : size;
  // Where the trade has a word for it, that is short enough.
  const words = capital(/\((.+)\)$/.exec(row.label)?.[1] ?? row.label);
  return make("label", { class: "size", "data-key": path, "data-x": x, "data-y": y },
    make("span", {}, words),
    make("input", {
      type: "text", autocomplete: "off", spellcheck: "false", id: `on-${way.startsWith("pages[") ? "" : `${way}-`}${idOf(path)}`, "data-path": path,
      value: waits.get(path) ?? draft?.typed ?? row.value, placeholder: usual, title: row.label, "aria-label": `${words}: ${name}`, "aria-invalid": stops ? "true" : null,
    }));
}

/** @param {string} svg */
const told = (svg) => {
  const { width, height } = extent(svg);
  return { "data-width": width, "data-height": height };
};

/** Puts the fields where the drawing has their numbers: a page's own policy lets no text say that. */
export function place() {
  for (const one of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-x]"))) {
    one.style.left = `${one.dataset.x}mm`;
    one.style.top = `${one.dataset.y}mm`;
  }
  for (const one of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".sized"))) enlarge(one);
}

/** The most that a drawing is larger than it is drawn, the part of the window's height that it takes at most, and px of a mm. */
const [MOST, TALL, MM] = [1.6, 0.62, 96 / 25.4];
/** The height of the page as it lies, and what lies between two pieces, px. */
const [LIES, GAP] = [208, 40];

/**
 * As large as there is room for in one row, and at least as large as the letters that the reader chose.
 * @param {HTMLElement} drawing
 */
function enlarge(drawing) {
  const { paddingLeft, fontSize } = getComputedStyle(drawing);
  const room = drawing.clientWidth - 2 * parseFloat(paddingLeft);
  const cards = /** @type {HTMLElement[]} */ ([...drawing.querySelectorAll(".on-card")]);
  // What is folded away has no room yet.
  if (room <= 0 || !cards.length) return;
  const sizes = cards.map((one) => [Number(one.dataset.width) * MM, Number(one.dataset.height) * MM]);
  const folded = /** @type {HTMLElement | null} */ (drawing.querySelector("[data-key=folded]"));
  const lies = folded ? LIES * Number(folded.dataset.width) / Number(folded.dataset.height) : 0;
  const row = sizes.reduce((sum, [width]) => sum + width, lies);
  const letters = parseFloat(fontSize) / 16;
  const gaps = GAP * letters * (cards.length - (lies ? 0 : 1));
  const tallest = Math.max(...sizes.map(([, height]) => height));
  const wanted = Math.max(letters, Math.min(MOST, (room - gaps) / row, (innerHeight * TALL) / tallest));
  const most = room / Math.max(...sizes.map(([width]) => width));
  drawing.style.setProperty("--as-large", String(Math.max(1, Math.min(wanted, most))));
}

addEventListener("resize", place);
document.addEventListener("toggle", place, true);
