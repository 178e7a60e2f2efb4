// SPDX-License-Identifier: MIT
// The page: asks the program what follows from the album's text, and shows it. What an album is, the program knows.

import { ask, Gone, isThere, Refused } from "./ask.js";
import { album } from "./album.js";
import { drafts } from "./fields.js";
import { watch } from "./hand.js";
import * as keep from "./keep.js";
import { button, make, picture, show, typing } from "./make.js";
import { fit, folds, sheets, take } from "./results.js";
import { asks, begin, gone, head, unread } from "./states.js";

/** Everything that is shown. */
export const state = {
  start: null,
  starting: false,
  view: null,
  text: "",
  notes: [],
  machine: keep.machine(),
  chosen: -1,
  newPage: "",
  newInsert: "",
  folds: null,
  oldSheets: null,
  sizes: null,
  looking: "",
  gone: false,
  asks: null,
  opened: "",
  failed: "",
};

const at = (id) => document.getElementById(id);

/** Shows the state. */
export function render() {
  state.machine = keep.machine();
  const { view } = state;
  show(at("head"), head(state, keep));
  show(at("word"), state.gone ? gone() : null, state.failed ? make("p", { class: "gone" }, state.failed) : null, keep.keeps ? null : make("p", { class: "gone" }, "This browser keeps nothing: keep the album file before you close the page."));
  show(at("end"), state.gone ? null : button("End the program", "quit"), asks(state, "end"));
  if (!state.start) return;
  if (state.starting || !keep.current()) {
    document.title = "Hingeleaf";
    show(at("table"), make("div", { class: "begin", "data-key": "begin" }, begin(state, keep)));
  } else if (view?.unread) {
    document.title = "Hingeleaf: a file to mend";
    show(at("table"), make("div", { class: "begin", "data-key": "unread" }, unread(state, keep)));
  } else if (view) {
    document.title = `${view.album.title}: Hingeleaf`;
    show(at("table"),
      make("h1", { class: "unseen" }, view.album.title),
      make("div", { class: "page", "data-key": "album" },
        aside(),
        make("div", { class: "sections" }, album(state), fit(state), folds(state), sheets(state), take(state))));
  }
}

function aside() {
  const { view } = state;
  const sentences = [view.fit.sentence, view.sheets?.sentence];
  return make("aside", { "aria-label": "The album at a glance" },
    make("figure", { class: "loose" }, picture(view.album.open, `${view.album.title}, standing open`)),
    make("p", { class: "name" }, view.album.title),
    sentences.map((sentence) => (sentence ? make("p", { class: view.fit.stopped ? "bad" : null }, sentence) : null)));
}

let saying = 0;
let saidLast = "";

/** Tells listeners, once what is told has come to rest. */
export function say(words) {
  clearTimeout(saying);
  saying = setTimeout(() => {
    if (words === saidLast) return;
    saidLast = words;
    at("said").textContent = words;
  }, 500);
}

/** Says that something failed, or that it does no longer. */
export function trouble(error) {
  if (error?.name === "AbortError") return;
  if (error instanceof Gone) state.gone = true;
  else if (error instanceof Refused) state.failed = error.message;
  else {
    state.failed = `Something went wrong on this page: ${error?.message ?? error}. Keep the album file, then load the page anew.`;
    console.error(error);
  }
  render();
}

const question = (more) => ({ name: keep.current().name, text: keep.current().text, machine: keep.machine(), ...more });

/** A question about the album as it stands. */
export const asked = (more = {}) => question(more);

let later = null;

/** What takes longer follows, and is called off by the next change. */
async function follow() {
  later?.abort();
  later = new AbortController();
  const stop = later.signal;
  const now = () => !stop.aborted;
  try {
    const drawn = await ask("folds", question(), stop);
    if (now()) state.folds = drawn;
    render();
    if (state.view.fit.stopped) return;
    const before = state.view.sheets.counts;
    const quick = state.view.sheets.proven;
    state.looking = quick ? "" : "Looking longer for fewer sheets …";
    render();
    const better = await ask("better", question(), stop);
    if (!now()) return;
    Object.assign(state.view, { fit: better.fit, sheets: better.sheets ?? state.view.sheets, take: better.take });
    const after = state.view.sheets.counts;
    if (after < before) state.looking = `A longer look found ${after} sheets instead of ${before}.`;
    else state.looking = quick ? "" : "A longer look found nothing better.";
    if (state.looking) say(state.looking);
    render();
    const sizes = await ask("sizes", question(), stop);
    if (now()) state.sizes = sizes;
    render();
  } catch (error) {
    trouble(error);
  }
}

function adopt(answer, what) {
  state.gone = false;
  state.failed = "";
  keep.put(answer.text ?? keep.current().text, what);
  const stopped = answer.unread || answer.fit.stopped;
  if (!stopped) state.oldSheets = answer.sheets;
  const same = state.view && !state.view.unread && state.text === keep.current().text;
  state.view = answer;
  state.text = keep.current().text;
  state.notes = [state.opened, ...(answer.notes ?? [])].filter(Boolean);
  state.opened = "";
  if (answer.album) keep.entitle(answer.album.title);
  state.looking = "";
  if (!same) state.sizes = null;
  if (answer.unread) {
    say("This file can’t be read yet.");
  } else {
    if (state.chosen >= answer.album.pages.length) state.chosen = answer.album.pages.length - 1;
    say([...state.notes, answer.fit.sentence, answer.sheets?.sentence ?? ""].join(" "));
  }
  render();
  if (answer.unread) later?.abort();
  else follow();
}

const queue = [];
let busy = false;
let asking = null;

/** Changes the album, or only asks anew; one change after the other, each on the text that the last one made. */
export function change(wanted = null, then = null) {
  const what = wanted ? `${wanted.do} ${wanted.path ?? ""}` : "look";
  const last = queue.at(-1);
  if (wanted?.do !== "set") typing.path = null;
  // Of what is typed faster than it is answered only the last counts.
  if (last && last.what === what && what.startsWith("set ")) queue.pop();
  queue.push({ wanted, what, then });
  if (!busy) work();
}

async function work() {
  busy = true;
  try {
    while (queue.length) await next();
  } finally {
    busy = false;
  }
}

async function next() {
  const { wanted, what, then } = queue.shift();
  later?.abort();
  const before = keep.current();
  if (!before) return;
  const { id, text } = before;
  try {
    asking = new AbortController();
    const answer = await ask("work", question(wanted ? { change: wanted } : {}), asking.signal);
    // Another album, or an older state of this one, may lie on the table by now: the answer is not about that.
    if (keep.current()?.id !== id || keep.current().text !== text) return;
    if (answer.refused) refused(wanted, answer.findings);
    else {
      if (wanted?.path) drafts.delete(wanted.path);
      adopt(answer, what);
      then?.();
    }
  } catch (error) {
    // What was called off made room for what is in the queue now.
    if (error?.name === "AbortError") return;
    queue.length = 0;
    trouble(error);
  }
}

/** Calls off what was asked for and not answered yet. */
export function callOff() {
  queue.length = 0;
  asking?.abort();
  later?.abort();
}

function refused(wanted, findings) {
  if (wanted?.do === "set") {
    drafts.set(wanted.path, { typed: wanted.typed, findings });
    say(findings.map((one) => `${one.text}. ${one.help}`).join(" "));
  } else {
    state.failed = findings.map((one) => `${one.text}${one.help ? `: ${one.help}` : ""}`).join(" ");
  }
  render();
}

/** Shows the album that is on the table now. */
export function look() {
  callOff();
  Object.assign(state, { starting: false, view: null, folds: null, oldSheets: null, sizes: null, notes: [], looking: "", failed: "", chosen: -1 });
  drafts.clear();
  if (keep.current()) change();
  else render();
}

/** Asks whether the program is there again. */
export async function again() {
  state.gone = !(await isThere());
  if (state.gone) render();
  else if (state.start) look();
  else begins();
}

async function begins() {
  keep.load();
  try {
    state.start = await ask("open", {});
    const { file } = state.start;
    const changed = file && keep.open(file.name, file.text, true);
    look();
    if (changed) state.opened = `You changed ${file.name} here before; this is how you left it. The file itself is as it was.`;
  } catch (error) {
    trouble(error);
  }
}

watch();
begins();
// A program that was ended is noticed before the next change is.
setInterval(async () => {
  if (document.visibilityState === "visible" && !busy && !state.gone && !(await isThere())) {
    state.gone = true;
    render();
  }
}, 15000);
