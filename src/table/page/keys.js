// SPDX-License-Identifier: MIT
// Keys and dragging: undo and redo, the run of pages, files that are dropped.

import { focus } from "./at.js";
import * as keep from "./keep.js";
import { closePlace } from "./offers.js";
import { openFiles } from "./opens.js";
import { choosePage, movePage, pages, takePage } from "./pages.js";
import { state } from "./shown.js";
import { undo } from "./undo.js";


/**
 * What a key does.
 * @param {any} event
 */
export function keys(event) {
  const inText = event.target.closest?.("input:not([type=checkbox]), textarea");
  if ((event.ctrlKey || event.metaKey) && !inText && !event.altKey) {
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      undo(key === "z" && !event.shiftKey);
    }
  }
  const onTitle = event.target.id === "chosen-title";
  if (event.key === "Escape" && event.target.closest?.("#chosen") && !event.target.matches("select")) {
    if (state.place >= 0) {
      closePlace();
      return;
    }
    const at = state.chosen;
    choosePage(-1);
    focus(`page-${at}`);
    return;
  }
  if (event.target.closest?.(".place") && onPlace(event)) return;
  const page = event.target.closest?.(".leaf");
  if (!page && !(onTitle && (event.altKey || event.key === "Delete"))) return;
  const at = page ? Number(page.dataset.at) : state.chosen;
  const by = /** @type {Record<string, number>} */ ({ ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 })[event.key];
  if (page && event.key === "ArrowDown" && !event.altKey) {
    event.preventDefault();
    focus(`place-${at + 1}`);
  } else if (by) {
    event.preventDefault();
    if (event.altKey) movePage(at, at + by, true);
    else focus(`page-${Math.min(Math.max(at + by, 0), pages() - 1)}`);
  } else if (event.key === "Delete") {
    event.preventDefault();
    takePage(at);
  }
}

/**
 * Keys on a place between pages: along the places, and up to the page before it.
 * @param {any} event
 */
function onPlace(event) {
  const at = Number(event.target.closest(".place").dataset.at);
  const by = /** @type {Record<string, number>} */ ({ ArrowLeft: -1, ArrowRight: 1 })[event.key];
  if (by) focus(`place-${Math.min(Math.max(at + by, 0), pages())}`);
  else if (event.key === "ArrowUp") focus(`page-${Math.max(at - 1, 0)}`);
  else return false;
  event.preventDefault();
  return true;
}

let dragged = -1;

/**
 * What dragging does.
 * @param {any} event
 */
export function drag(event) {
  const place = event.target.closest?.(".fan li");
  const between = event.target.closest?.(".place");
  const own = dragged >= 0;
  if (event.type === "dragstart" && place) {
    dragged = Number(place.dataset.at);
    event.dataTransfer.effectAllowed = "move";
    event.dataTransfer.setData("text/plain", `Page ${dragged + 1}`);
  } else if (event.type === "dragover") {
    if (own ? place : event.dataTransfer.types.includes("Files")) event.preventDefault();
    for (const one of document.querySelectorAll(".fan .over")) if (one !== place) one.classList.remove("over");
    if (own) place?.classList.add("over");
    else document.body.classList.add("dropping");
  } else if (event.type === "drop") {
    event.preventDefault();
    if (own && between) movePage(dragged, Number(between.dataset.at) - (Number(between.dataset.at) > dragged ? 1 : 0));
    else if (own && place) movePage(dragged, Number(place.dataset.at));
    else if (!own) openFiles(event.dataTransfer.files, Boolean(keep.current()?.batch));
  }
  if (event.type === "drop" || event.type === "dragend" || (event.type === "dragleave" && !event.relatedTarget)) {
    if (event.type !== "dragleave") dragged = -1;
    document.body.classList.remove("dropping");
    for (const one of document.querySelectorAll(".fan .over")) one.classList.remove("over");
  }
}
