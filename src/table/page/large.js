// SPDX-License-Identifier: MIT
// A picture over the whole window: as large as its words can be read, larger and smaller by keys, wheel and fingers.

import { at } from "./at.js";
import { build } from "./become.js";
import { button, make } from "./make.js";
import { extent, svgOf } from "./picture.js";

/** The least height of a letter, px. */
const READABLE = 11;
/** One step larger or smaller. */
const STEP = 1.25;
const MOST = 40;

let mm = { width: 1, height: 1 };
/** How many px a millimetre of the picture is. */
let scale = 1;
/** @type {Map<number, PointerEvent>} */
const fingers = new Map();

/**
 * A picture on its plate that opens over the whole window.
 * @param {Sketch | null} img
 */
export const plate = (img, has = {}) => (img ? make("button", { type: "button", class: "plate opens", "data-do": "large", ...has }, img, make("span", { class: "unseen" }, ": open it large")) : null);

/** The scale at which all of it is seen. */
function whole() {
  const { clientWidth, clientHeight } = at("large-room");
  return Math.min((clientWidth - 24) / mm.width, (clientHeight - 24) / mm.height);
}

/**
 * Draws it so large; the point of the window at x, y stays where it is.
 * @param {number} wanted
 */
function zoom(wanted, x = at("large-room").clientWidth / 2, y = at("large-room").clientHeight / 2) {
  const [room, img] = [at("large-room"), at("large-picture")];
  const held = [(room.scrollLeft + x) / scale, (room.scrollTop + y) / scale];
  scale = Math.min(Math.max(wanted, Math.min(whole(), 1)), MOST);
  img.style.width = `${mm.width * scale}px`;
  img.style.height = `${mm.height * scale}px`;
  room.scrollTo(held[0] * scale - x, held[1] * scale - y);
}

/**
 * Where all of it has no room, it begins at its first words: a corner may be blank.
 * @param {string} svg
 */
function begin(svg) {
  const room = at("large-room");
  const view = /viewBox="([^"]+)"/.exec(svg)?.[1].split(/[\s,]+/).map(Number);
  const words = /<text\b[^>]*>/.exec(svg)?.[0];
  const [x, y] = ["x", "y"].map((name) => Number(new RegExp(`\\s${name}="(-?[\\d.]+)"`).exec(words ?? "")?.[1] ?? NaN));
  if (!view || Number.isNaN(x + y)) return;
  const px = scale * (mm.width / view[2]);
  room.scrollTo(12 + (x - view[0]) * px - room.clientWidth / 2, 12 + (y - view[1]) * px - room.clientHeight / 4);
}

/**
 * Opens the picture of a plate.
 * @param {HTMLElement} control
 */
export function open(control) {
  const from = control.querySelector("img");
  if (!from) return;
  const svg = svgOf(from.src);
  if (!svg) return;
  mm = extent(svg);
  const letters = [...svg.matchAll(/font-size="([\d.]+)"/g)].map(([, size]) => Number(size));
  const dialog = /** @type {HTMLDialogElement} */ (build(make("dialog", { id: "large", "aria-labelledby": "large-title" },
    make("div", { class: "large-head" },
      make("h2", { id: "large-title" }, from.alt),
      button(["−", make("span", { class: "unseen" }, " smaller")], "smaller", { "aria-keyshortcuts": "-" }),
      button(["+", make("span", { class: "unseen" }, " larger")], "larger", { "aria-keyshortcuts": "+" }),
      button("All of it", "whole", { "aria-keyshortcuts": "0" }),
      button("Close", "close-large", { "aria-keyshortcuts": "Escape" })),
    make("div", { id: "large-room", tabindex: "0", role: "group", "aria-label": "The picture: arrow keys move it, + and - make it larger and smaller" },
      make("img", { id: "large-picture", src: from.src, alt: from.alt, draggable: "false" })))));
  // One that was closed a moment ago may still wait to be taken away: two would answer to one name.
  document.getElementById("large")?.remove();
  // The browser gives the focus back to what it was opened from.
  dialog.addEventListener("close", () => {
    dialog.remove();
    if (control.isConnected) control.focus();
  });
  document.body.append(dialog);
  dialog.showModal();
  const room = at("large-room");
  room.focus();
  scale = whole();
  zoom(Math.max(whole(), letters.length ? READABLE / Math.min(...letters) : 0), 0, 0);
  begin(svg);
  room.addEventListener("wheel", (event) => {
    event.preventDefault();
    const box = room.getBoundingClientRect();
    zoom(scale * STEP ** (-Math.sign(event.deltaY) / 2), event.clientX - box.left, event.clientY - box.top);
  }, { passive: false });
  dialog.addEventListener("keydown", (event) => {
    const by = { "+": STEP, "=": STEP, "-": 1 / STEP }[event.key];
    if (by && !event.ctrlKey && !event.metaKey) zoom(scale * by);
    else if (event.key === "0") zoom(whole());
  });
  for (const type of /** @type {const} */ (["pointerdown", "pointermove", "pointerup", "pointercancel"])) room.addEventListener(type, touch);
}

/**
 * One finger, or the pointer, moves it; two make it larger and smaller.
 * @param {PointerEvent} event
 */
function touch(event) {
  const room = at("large-room");
  const before = fingers.get(event.pointerId);
  if (event.type === "pointerdown") {
    if (/** @type {Element} */ (event.target).id === "large-picture") room.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, event);
  } else if (event.type !== "pointermove") fingers.delete(event.pointerId);
  if (event.type !== "pointermove" || !before) return;
  const other = [...fingers.values()].find((one) => one.pointerId !== event.pointerId);
  if (other) {
    /** @param {PointerEvent} one */
    const far = (one) => Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY);
    const box = room.getBoundingClientRect();
    zoom(scale * far(event) / Math.max(far(before), 1), (event.clientX + other.clientX) / 2 - box.left, (event.clientY + other.clientY) / 2 - box.top);
  } else room.scrollBy(before.clientX - event.clientX, before.clientY - event.clientY);
  fingers.set(event.pointerId, event);
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const LARGE = {
  larger: () => zoom(scale * STEP),
  smaller: () => zoom(scale / STEP),
  whole: () => zoom(whole()),
  "close-large": () => /** @type {HTMLDialogElement} */ (at("large")).close(),
};
