// SPDX-License-Identifier: MIT
// The page: asks the program what follows from the album's text, and shows it. What an album is, the program knows.

import { ask, Gone, isThere, Refused } from "./ask.js";
import { album } from "./album.js";
import { batch } from "./batch.js";
import { compare, compared, forget } from "./compare.js";
import { capital, drafts, judged, waits } from "./fields.js";
import { watch } from "./hand.js";
import * as keep from "./keep.js";
import { line } from "./line.js";
import { button, liken, make, picture, show, typing } from "./make.js";
import { fit, folds, sheets, take } from "./results.js";
import { tables } from "./terms.js";
import { place } from "./sized.js";
import { asks, begin, gone, head, unread } from "./states.js";

/** Everything that is shown. */
export const state = {
  start: null,
  starting: false,
  view: null,
  text: "",
  notes: [],
  chosen: -1,
  /** The page that Tab leads to. */
  at: 0,
  /** The last pictures of what could be made. */
  good: null,
  /** The drawing of the chosen page. */
  drawn: null,
  newPage: "",
  newInsert: "",
  newChange: {},
  wrong: null,
  folds: null,
  oldSheets: null,
  sizes: null,
  looking: "",
  gone: false,
  asks: null,
  opened: "",
  failed: "",
  moved: "",
  waiting: 0,
};

const at = (id) => document.getElementById(id);

/** Shows the state. */
export function render() {
  state.waiting = queue.filter((item) => item.wanted).length;
  gather();
  const view = state.view?.unread ? state.view : judged(state.view, state.gone);
  const seen = { ...state, view };
  show(at("head"), head(seen, keep));
  show(at("line"), state.start && !view?.unread ? line(seen, keep) : null);
  show(at("word"), state.gone ? gone(state, keep) : null, state.failed ? make("p", { class: "gone" }, state.failed) : null, keep.keeps ? null : make("p", { class: "gone" }, "This browser keeps nothing: keep the album file before you close the page."));
  show(at("end"), state.gone ? null : button("End the program", "quit"), asks(state, "end"));
  if (!state.start) return;
  if (state.starting || !keep.current()) {
    document.title = "Hingeleaf";
    show(at("table"), make("div", { class: "begin", "data-key": "begin" }, begin(state, keep)));
  } else if (view?.unread) {
    document.title = "Hingeleaf: a file to mend";
    show(at("table"), make("div", { class: "begin", "data-key": "unread" }, unread(state, keep)));
  } else if (view) {
    const { title } = view.album ?? view.batch;
    document.title = `${title}: Hingeleaf`;
    show(at("table"),
      make("h1", { class: "unseen" }, title),
      make("div", { class: `page${view.batch ? " alone" : ""}`, "data-key": view.batch ? "batch" : "album" },
        aside(view, title),
        make("div", { class: "sections" }, sections(seen))));
    place();
  }
}

function sections(seen) {
  const { view } = seen;
  const all = view.batch ? batch(seen, keep) : [album(seen), fit(seen), folds(seen), sheets(seen), tables(view.tables, "album"), take(seen)];
  return all.toSpliced(-1, 0, compare(seen));
}

/** What is typed and not answered yet stands in its field. */
function gather() {
  waits.clear();
  const id = keep.current()?.id;
  for (const { album, wanted } of queue) if ((album === id || keep.album(album)?.kind) && wanted?.do === "set") waits.set(wanted.path, wanted.typed);
}

function aside({ album }, title) {
  if (!album) return null;
  const whole = album.open ?? state.good?.open;
  return make("aside", { "aria-label": "The album, standing open" },
    whole ? make("figure", { class: `loose${album.open ? "" : " before"}` }, picture(whole, `${title}, standing open${album.open ? "" : ", as it was before"}`)) : null,
    album.drawn ? null : make("p", { class: "calm" }, state.good ? "As it was before." : "Nothing of it can be drawn until what stops it is mended."));
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

const about = (one, more = {}) => ({ name: one.name, text: one.text, machine: keep.told(), drawings: keep.given(one, more.change), files: keep.beside(one, more.change), ...more });
const question = (more) => about(keep.current(), more);

/** A question about the album as it stands. */
export const asked = (more = {}) => question(more);

let drawing = null;

/** Draws the chosen page; where nothing can be made of it, the last drawing stays. */
export async function drawPage() {
  drawing?.abort();
  if (state.chosen < 0 || !state.view?.album || state.gone) return;
  drawing = new AbortController();
  try {
    const drawn = await ask("page", question({ page: state.chosen }), drawing.signal);
    if (drawn?.pieces.length) state.drawn = drawn;
    else if (state.drawn) state.drawn = { ...state.drawn, old: true };
    render();
  } catch (error) {
    trouble(error);
  }
}

let later = null;

/** What takes longer follows, and is called off by the next change. */
export async function follow() {
  later?.abort();
  later = new AbortController();
  const stop = later.signal;
  const now = () => !stop.aborted;
  const { batch } = state.view;
  drawPage();
  try {
    if (!batch) {
      const drawn = await ask("folds", question(), stop);
      if (now()) state.folds = drawn;
      if (now() && drawn.steps.length) state.good = { ...state.good, folds: drawn };
      render();
    }
    if (state.view.fit.stopped) return;
    const before = state.view.sheets.counts;
    const quick = state.view.sheets.proven;
    state.looking = quick ? "" : "Looking longer for fewer sheets …";
    render();
    const better = await ask("better", question(), stop);
    if (!now()) return;
    Object.assign(state.view, { fit: better.fit, sheets: better.sheets ?? state.view.sheets, tables: better.tables, take: better.take, drawer: better.drawer });
    const after = state.view.sheets.counts;
    if (after < before) state.looking = `A longer look found ${after} sheets instead of ${before}.`;
    else state.looking = quick ? "" : "A longer look found nothing better.";
    if (state.looking) say(state.looking);
    render();
    await compared(stop);
    render();
    if (batch) return;
    const sizes = await ask("sizes", question(), stop);
    if (now()) state.sizes = sizes;
    render();
  } catch (error) {
    trouble(error);
  }
}

function adopt(answer) {
  const stopped = answer.unread || answer.fit.stopped;
  if (!stopped) state.oldSheets = answer.sheets;
  const same = state.view && !state.view.unread && state.text === keep.current().text;
  liken(answer.likenesses);
  state.view = answer;
  if (answer.album?.drawn) {
    const { open, pictures, pages } = answer.album;
    state.good = { ...state.good, open, pictures, pages, parts: answer.folds, section: answer.fit.section ?? state.good?.section };
  }
  state.text = keep.current().text;
  state.notes = [state.opened, ...(answer.notes ?? [])].filter(Boolean);
  state.opened = "";
  state.looking = "";
  state.wrong = null;
  if (!same) state.sizes = null;
  if (answer.unread) {
    say("This file can’t be read yet.");
  } else {
    if (answer.album && state.chosen >= answer.album.pages.length) state.chosen = answer.album.pages.length - 1;
    say([...state.notes, answer.fit.sentence, answer.sheets?.sentence ?? ""].join(" "));
  }
  render();
  if (answer.unread) later?.abort();
  else follow();
}

/** What was asked for and is not answered: { key, album, wanted, what, then }; the first is being asked. */
const queue = [];
let busy = false;
let asking = null;
let resting = [];

/** Changes the album, or a file beside it, or only asks anew; one change after the other, each on the text that the last one made. */
export function change(wanted = null, then = null, album = keep.current()) {
  if (!album) return;
  if (state.gone && wanted && wanted.do !== "set") {
    say("The program does not answer: until it does, only what is typed or chosen in fields is kept.");
    render();
    return;
  }
  const held = wanted && shifts(wanted);
  if (held) {
    state.failed = `First mend or let go what can’t be used: ${held.field}, “${held.typed}”.`;
    say(state.failed);
    render();
    return;
  }
  const what = wanted ? `${wanted.do} ${wanted.path ?? ""}` : "look";
  if (wanted?.do !== "set") typing.path = null;
  // Of what is typed faster than it is answered only the last counts.
  const last = queue.length > 1 || !busy ? queue.at(-1) : null;
  const key = keep.key();
  if (wanted) keep.wait(key, album.id, wanted);
  if (last?.album === album.id && last.what === what && (!wanted || wanted.do === "set")) {
    keep.settle(last.key);
    // Under a key of its own: what was to be done before may be done by now.
    Object.assign(last, { key, wanted, then });
  } else queue.push({ key, album: album.id, wanted, what, then });
  if (state.gone) render();
  work();
}

/** What is typed and not used in a list whose entries get other numbers by a change. */
function shifts({ do: does, list, path }) {
  if (!["move", "add", "copy", "take"].includes(does)) return null;
  const way = list ?? (path.includes("[") ? path.split("[")[0] : null);
  const [, draft] = [...drafts].find(([at]) => way && at.startsWith(`${way}[`) && !(does === "take" && (at === path || at.startsWith(`${path}.`)))) ?? [];
  return draft ?? null;
}

/**
 * Asks for what another window asked for and could not wait for, or, `before` all that this one asks for still, for what got
 * lost between two windows.
 */
function orphaned(taken, before = false) {
  queue.splice(before ? Math.min(queue.length, busy ? 1 : 0) : queue.length, 0, ...taken.map(({ key, album, wanted }) => ({ key, album, wanted, what: `${wanted.do} ${wanted.path ?? ""}`, then: null })));
  work();
}

async function work() {
  if (busy || !state.start) return;
  busy = true;
  try {
    while (queue.length && !state.gone) await next();
  } finally {
    busy = false;
  }
  if (!queue.length) for (const rested of resting.splice(0)) rested();
}

/** Waits until everything that was asked for is answered. */
export const rest = () => new Promise((rested) => {
  if (queue.length) resting.push(rested);
  else rested();
});

async function next() {
  const item = queue[0];
  const { album, wanted, what, then, key } = item;
  later?.abort();
  const before = keep.album(album);
  // Another window may have taken over what this one asked for, and it is there.
  if (!before || keep.has(album, key)) {
    done(item);
    if (before) change();
    return;
  }
  try {
    asking = new AbortController();
    const { text } = before;
    // What lies beside the album is shown with it.
    const side = Boolean(before.kind);
    const answer = await ask("work", side ? { name: before.name, text, change: wanted } : about(before, wanted ? { change: wanted } : {}), asking.signal);
    // It was taken back meanwhile.
    if (!queue.includes(item)) return;
    state.gone = false;
    state.failed = "";
    const here = side || keep.current()?.id === album;
    if (answer.refused) {
      done(item);
      if (here) refused(wanted, answer);
      return;
    }
    // Where an album became another meanwhile, the same is asked of that.
    if (!keep.put(album, key, text, answer.text ?? text, what, { title: answer.album?.title ?? answer.batch?.title, batch: side || answer.other ? undefined : Boolean(answer.batch), wanted })) return;
    for (const way of wanted?.do === "page-size" ? ["page.width", "page.height"] : [wanted?.path]) if (way) letGo(way);
    done(item);
    if (side) change(null, then);
    else if (here) {
      adopt(answer);
      then?.();
    } else change();
  } catch (error) {
    // What was called off made room for something else, and is asked again after that.
    if (error?.name === "AbortError") return;
    if (!(error instanceof Gone)) done(item);
    trouble(error);
  }
}

function done(item) {
  if (queue.includes(item)) queue.splice(queue.indexOf(item), 1);
  keep.settle(item.key);
}

/** Takes back the last change that is not answered yet. */
export function unask() {
  const item = queue.findLast((one) => one.wanted && (one.album === keep.current()?.id || keep.album(one.album)?.kind));
  if (!item) return false;
  if (item === queue[0]) asking?.abort();
  done(item);
  return true;
}

/** What was typed at a way, or within it, is not wanted any more. */
export function letGo(way) {
  for (const path of drafts.keys()) if (path === way || path.startsWith(`${way}.`) || path.startsWith(`${way}[`)) drafts.delete(path);
}

/** Calls off what follows from what is shown. */
export const callOff = () => later?.abort();

function refused(wanted, { findings, field }) {
  if (wanted?.do === "set") {
    drafts.set(wanted.path, { typed: wanted.typed, field, findings });
    say(findings.map((one) => `${one.text}. ${one.help}`).join(" "));
  } else if (placeOf(wanted)) {
    state.wrong = { where: placeOf(wanted), words: findings.map((one) => `${capital(one.text)}${one.help ? `: ${one.help}` : ""}.`).join(" ") };
    say(state.wrong.words);
  } else {
    state.failed = findings.map((one) => `${one.text}${one.help ? `: ${one.help}` : ""}`).join(" ");
  }
  render();
}

/** The form that something was asked for with, where it says at its own place what is wrong. */
const placeOf = (wanted) => (wanted?.do === "take" && wanted.path.startsWith("pages[") ? "pages" : { sold: wanted?.list, lies: "lies", "own-paper": `${wanted?.path} paper` }[wanted?.do] ?? null);

/** Shows the album that is on the table now. */
export function look() {
  callOff();
  Object.assign(state, { starting: false, view: null, folds: null, good: null, drawn: null, oldSheets: null, sizes: null, notes: [], looking: "", failed: "", chosen: -1, at: 0, newChange: {}, wrong: null });
  drafts.clear();
  forget();
  const album = keep.current();
  if (album) {
    // What is asked just now may be of another album: it waits.
    queue.unshift({ key: keep.key(), album: album.id, wanted: null, what: "look", then: null });
    asking?.abort();
    work();
  } else render();
}

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
function elsewhere() {
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
async function opened({ name, text, files, batch, drawings }) {
  const names = Object.fromEntries(files.map((one) => [one.name, keep.open(one.name, one.text, { opened: true, kind: one.kind, drawn: one.drawings }).name]));
  if (Object.entries(names).some(([was, now]) => was !== now)) {
    const answer = await ask("work", { name, text, change: { do: "call-files", names } });
    return keep.open(name, answer.text ?? text, { opened: true, batch, drawn: drawings }).changed;
  }
  return keep.open(name, text, { opened: true, batch, drawn: drawings }).changed;
}

async function begins() {
  try {
    state.start = await ask("open", {});
    between.postMessage(location.pathname);
    const { file } = state.start;
    const changed = file && (await opened(file));
    look();
    if (changed) state.opened = `You changed ${file.name} here before; this is how you left it. The file itself is as it was.`;
  } catch (error) {
    trouble(error);
  }
}

watch();
keep.load(orphaned);
keep.watch(elsewhere);
begins();
// A program that was ended is noticed before the next change is, and one that is there again goes on by itself.
let tick = 0;
setInterval(async () => {
  tick += 1;
  if (document.visibilityState !== "visible" || busy || state.moved) return;
  if (state.gone) await again();
  else if (tick % 8 === 0 && !(await isThere())) {
    state.gone = true;
    render();
  }
}, 2000);
