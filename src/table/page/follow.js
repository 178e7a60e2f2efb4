// SPDX-License-Identifier: MIT
// What follows from an answer: it is shown at once, and what takes longer is asked for after it.

import { ask } from "./ask.js";
import { asked } from "./asked.js";
import { compared, isOfVersion } from "./compare.js";
import * as keep from "./keep.js";
import { liken } from "./picture.js";
import { render, say, state, trouble } from "./shown.js";

/** @type {AbortController | null} */
let drawing = null;

/** Draws the chosen page; where nothing can be made of it, the last drawing stays. */
export async function drawPage() {
  drawing?.abort();
  if (state.chosen < 0 || !state.view?.album || state.gone) return;
  drawing = new AbortController();
  try {
    const drawn = await ask("page", asked({ page: state.chosen }), drawing.signal);
    if (drawn?.pieces.length) state.drawn = drawn;
    else if (state.drawn) state.drawn = { ...state.drawn, old: true };
    render();
  } catch (error) {
    trouble(error);
  }
}

/** @type {Record<string, AbortController>} */
const partly = {};

/**
 * Draws the spine or the cover, where its form is unfolded; where nothing can be made of it, the last drawing stays.
 * @param {string} part
 */
export async function drawPart(part) {
  partly[part]?.abort();
  const unfolds = /** @type {HTMLDetailsElement | null} */ (document.getElementById(`part-${part}`));
  if (!unfolds?.open || !state.view?.album || state.gone) return;
  partly[part] = new AbortController();
  try {
    const drawn = await ask("page", asked({ part }), partly[part].signal);
    if (drawn?.pieces.length) state.parts[part] = drawn;
    else if (state.parts[part]) state.parts[part] = { ...state.parts[part], old: true };
    render();
  } catch (error) {
    trouble(error);
  }
}

/** @type {AbortController | null} */
let later = null;

/** What takes longer follows, and is called off by the next change. */
export async function follow() {
  later?.abort();
  later = new AbortController();
  const stop = later.signal;
  const now = () => !stop.aborted;
  const view = /** @type {Shown} */ (state.view);
  const { batch } = view;
  drawPage();
  for (const part of ["spine", "cover"]) drawPart(part);
  try {
    if (!batch) {
      const drawn = await ask("folds", asked(), stop);
      if (now()) state.folds = drawn;
      if (now() && drawn.steps.length) state.good = { ...state.good, folds: drawn };
      render();
    }
    if (view.fit.stopped) {
      // Two versions can be compared whatever becomes of the album meanwhile.
      if (isOfVersion()) await compared(stop);
      render();
      return;
    }
    const before = view.sheets?.counts ?? 0;
    const quick = view.sheets?.proven;
    state.looking = quick ? "" : "Looking longer for fewer sheets …";
    render();
    const better = await ask("better", asked(), stop);
    if (!now()) return;
    Object.assign(view, { fit: better.fit, sheets: better.sheets ?? view.sheets, tables: better.tables, take: better.take, drawer: better.drawer });
    const after = view.sheets?.counts ?? 0;
    if (after < before) state.looking = `A longer look found ${after} sheets instead of ${before}.`;
    else state.looking = quick ? "" : "A longer look found nothing better.";
    if (state.looking) say(state.looking);
    render();
    await compared(stop);
    render();
    if (batch) return;
    const sizes = await ask("sizes", asked(), stop);
    if (now()) state.sizes = sizes;
    render();
  } catch (error) {
    trouble(error);
  }
}

/**
 * Takes in the answer to what was asked.
 * @param {View} answer
 */
export function adopt(answer) {
  if (!answer.unread && !answer.fit.stopped) state.oldSheets = answer.sheets;
  const same = state.view && !state.view.unread && state.text === keep.onTable().text;
  liken(answer.likenesses);
  state.view = answer;
  if (answer.album?.drawn) {
    const { open, pictures, pages } = answer.album;
    state.good = { ...state.good, open, pictures, pages, parts: answer.folds, section: answer.fit.section ?? state.good?.section };
  }
  // What was drawn is of an earlier text; the page that is chosen is drawn anew.
  if (state.chosen < 0) state.drawn = null;
  state.text = keep.onTable().text;
  state.notes = [state.opened, ...(answer.notes ?? [])].filter(Boolean);
  state.opened = "";
  state.looking = "";
  state.wrong = null;
  if (!same) state.sizes = null;
  if (answer.unread) {
    say("This file can’t be read yet.");
  } else {
    if (answer.album && state.chosen >= answer.album.pages.length) state.chosen = answer.album.pages.length - 1;
    if (answer.album && state.place > answer.album.pages.length) state.place = -1;
    say([...state.notes, answer.fit.sentence, answer.sheets?.sentence ?? ""].join(" "));
  }
  render();
  if (answer.unread) later?.abort();
  else follow();
}

/** Calls off what follows from what is shown. */
export const callOff = () => later?.abort();
