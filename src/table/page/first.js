// SPDX-License-Identifier: MIT
// What is seen of an album after a change: it comes first, and is shown until the rest is known, or nobody wants it any more.

import { ask } from "./ask.js";
import { liken } from "./picture.js";
import { render, state, trouble } from "./shown.js";

/**
 * Asks for everything that follows from a change; its pictures are shown as soon as they are there, where they are `wanted` still.
 * @param {object} question
 * @param {AbortSignal} stop
 * @param {() => boolean} wanted
 */
export async function askFirst(question, stop, wanted) {
  /** @type {FirstSeen | null} */
  let seen = null;
  const see = (/** @type {FirstSeen} */ first) => {
    seen = first;
    if (!wanted()) return;
    try {
      liken(first.likenesses);
      state.first = first;
      render();
    } catch (error) {
      trouble(error);
    }
  };
  let holds = false;
  try {
    const answer = completed(await ask("work", { ...question, first: true }, stop, see), seen);
    holds = wanted();
    return answer;
  } finally {
    const shown = state.first;
    state.first = null;
    // What was seen is not to be.
    if (shown && !holds) render();
  }
}

/**
 * An answer with what of it came first.
 * @param {any} answer
 * @param {FirstSeen | null} seen
 */
function completed(answer, seen) {
  if (!seen || !answer.album) return answer;
  const { album, likenesses } = seen;
  const pages = answer.album.pages.map((/** @type {Entry} */ page, /** @type {number} */ at) => ({ ...page, ...album.pages[at] }));
  return { ...answer, likenesses, album: { ...answer.album, ...album, pages } };
}

/**
 * What is shown, with the pictures of what is being asked for where they are there.
 * @param {Shown | null} view
 * @returns {Shown | null}
 */
export function foreseen(view) {
  const { first } = state;
  if (!first || !view?.album?.drawn) return view;
  const { open, pictures, pages } = first.album;
  const before = view.album.pages;
  // Other pages are shown with all that is said of them.
  const same = before.length === pages.length && before.every(({ kind }, at) => kind === pages[at].kind);
  const run = same ? { pictures, pages: before.map((page, at) => ({ ...page, ...pages[at] })) } : {};
  return { ...view, album: { ...view.album, open, ...run } };
}
