// SPDX-License-Identifier: MIT
// The page's beginning, and its going on: with the program that is there again, with other windows, with what they did.

import { ask, isThere } from "./ask.js";
import * as keep from "./keep.js";
import { change, look, orphaned } from "./queue.js";
import { render, start, state, trouble } from "./shown.js";

/** Asks whether the program is there again, and goes on. */
export async function again() {
  const there = await isThere();
  if (state.gone !== !there) {
    state.gone = !there;
    render();
  }
  if (!there) return;
  if (!state.start) begins();
  else if (state.view) change();
  else look();
}

/** Another window changed what is kept. */
export function elsewhere() {
  const { gone, other, changed } = keep.refresh(orphaned);
  if (gone) {
    look();
    state.failed = "This album was taken off the table in another window.";
    render();
  } else if (changed) {
    if (other) state.opened = "It was changed in another window just now.";
    change();
  } else render();
}

// A program that was started again has another address; its page says so to the windows of the one before.
const between = new BroadcastChannel("hingeleaf-table");
between.addEventListener("message", async ({ data }) => {
  if (!/^\/[0-9a-f]{32}\/$/.test(data) || data === location.pathname || (await isThere())) return;
  const written = [...document.querySelectorAll("textarea")].some((one) => one.value !== one.textContent);
  if (!written) location.replace(data);
  else Object.assign(state, { gone: true, moved: data });
  render();
});

/** Lays the file that the program was opened with; says whether it was changed here before. */
async function opened(/** @type {NonNullable<Start["file"]>} */ { name, text, files, batch, drawings }) {
  const names = Object.fromEntries(files.map((one) => [one.name, keep.open(one.name, one.text, { opened: true, kind: one.kind, drawn: one.drawings }).name]));
  if (Object.entries(names).some(([was, now]) => was !== now)) {
    const answer = await ask("work", { name, text, change: { do: "call-files", names } });
    return keep.open(name, answer.text ?? text, { opened: true, batch, drawn: drawings }).changed;
  }
  return keep.open(name, text, { opened: true, batch, drawn: drawings }).changed;
}

/** Asks what there is to begin with, and shows what lies on the table. */
export async function begins() {
  try {
    state.start = await ask("open", {});
    between.postMessage(location.pathname);
    const { file } = start();
    const changed = file && (await opened(file));
    look();
    if (changed) state.opened = `You changed ${file.name} here before; this is how you left it. The file itself is as it was.`;
  } catch (error) {
    trouble(error);
  }
}
