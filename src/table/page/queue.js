// SPDX-License-Identifier: MIT
// Changes that were asked for, one after the other: each is made on the text that the last one made.

import { ask, Gone } from "./ask.js";
import { about } from "./asked.js";
import { typing } from "./become.js";
import { forget } from "./compare.js";
import { capital, drafts, waits } from "./fields.js";
import { askFirst } from "./first.js";
import { adopt, callOff } from "./follow.js";
import * as keep from "./keep.js";
import { render, say, state, trouble } from "./shown.js";

/**
 * What was asked for and is not answered; the first is being asked.
 * @type {Queued[]}
 */
const queue = [];
let busy = false;
/** @type {AbortController | null} */
let asking = null;
/** @type {(() => void)[]} */
let resting = [];

/**
 * Changes the album, or a file beside it, or only asks anew; one change after the other, each on the text that the last one made.
 * @param {Wanted | null} [wanted]
 * @param {(() => unknown) | null} [then] what is done once it is answered
 * @param {KeptFile | null} [album]
 */
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
function shifts(/** @type {Wanted} */ { do: does, list, path }) {
  if (!["move", "add", "copy", "take"].includes(does)) return null;
  const way = list ?? (path?.includes("[") ? path.split("[")[0] : null);
  const [, draft] = [...drafts].find(([at]) => way && at.startsWith(`${way}[`) && !(does === "take" && (at === path || at.startsWith(`${path}.`)))) ?? [];
  return draft ?? null;
}

/**
 * Asks for what another window asked for and could not wait for, or, `before` all that this one asks for still, for what got
 * lost between two windows.
 * @param {Waiting[]} taken
 */
export function orphaned(taken, before = false) {
  queue.splice(before ? Math.min(queue.length, busy ? 1 : 0) : queue.length, 0, ...taken.map(({ key, album, wanted }) => ({ key, album, wanted, what: `${wanted.do} ${wanted.path ?? ""}`, then: null })));
  work();
}

/** Asks for what waits, one after the other. */
export async function work() {
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
export const rest = () => /** @type {Promise<void>} */ (new Promise((rested) => {
  if (queue.length) resting.push(rested);
  else rested();
}));

async function next() {
  const item = queue[0];
  const { album, wanted, what, then, key } = item;
  callOff();
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
    const waited = () => queue.includes(item) && keep.current()?.id === album;
    const answer = side ? await ask("work", { name: before.name, text, change: wanted }, asking.signal) : await askFirst(about(before, wanted ? { change: wanted } : {}), asking.signal, waited);
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
  } catch (/** @type {any} */ error) {
    // What was called off made room for something else, and is asked again after that.
    if (error?.name === "AbortError") return;
    if (!(error instanceof Gone)) done(item);
    trouble(error);
  }
}

/** @param {Queued} item */
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

/**
 * What was typed at a way, or within it, is not wanted any more.
 * @param {string} way
 */
export function letGo(way) {
  for (const path of drafts.keys()) if (path === way || path.startsWith(`${way}.`) || path.startsWith(`${way}[`)) drafts.delete(path);
}

/** @param {Wanted | null} wanted */
function refused(wanted, /** @type {Refusal} */ { findings, field }) {
  const where = placeOf(wanted);
  if (wanted?.do === "set") {
    drafts.set(wanted.path ?? "", { typed: wanted.typed ?? "", field, findings });
    say(findings.map((one) => `${one.text}. ${one.help}`).join(" "));
  } else if (where) {
    state.wrong = { where, words: findings.map((one) => `${capital(one.text)}${one.help ? `: ${one.help}` : ""}.`).join(" ") };
    say(state.wrong.words);
  } else {
    state.failed = findings.map((one) => `${one.text}${one.help ? `: ${one.help}` : ""}`).join(" ");
  }
  render();
}

/**
 * The form that something was asked for with, where it says at its own place what is wrong.
 * @param {Wanted | null} wanted
 */
const placeOf = (wanted) => (wanted?.do === "take" && wanted.path?.startsWith("pages[") ? "pages" : /** @type {Record<string, string | undefined>} */ ({ sold: wanted?.list, lies: "lies", "own-paper": `${wanted?.path} paper` })[wanted?.do ?? ""] ?? null);

/** Shows the album that is on the table now. */
export function look() {
  callOff();
  Object.assign(state, { starting: false, view: null, folds: null, good: null, drawn: null, parts: {}, oldSheets: null, sizes: null, notes: [], looking: "", failed: "", chosen: -1, place: -1, together: false, at: 0, newChange: {}, wrong: null });
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

/** What is typed or chosen and not answered yet stands in its field. */
export function gather() {
  state.waiting = queue.filter((item) => item.wanted).length;
  waits.clear();
  const id = keep.current()?.id;
  for (const { album, wanted } of queue) {
    if (!wanted || (album !== id && !keep.album(album)?.kind)) continue;
    const { do: does, path = "", typed = "", kind = "", units = "" } = wanted;
    if (does === "set") waits.set(path, typed);
    else if (does === "units") waits.set(does, units);
    // Without it, whoever goes on with an arrow key would go on from what was there before.
    else if (does === "kind" || (does === "take" && !path.includes("["))) waits.set(`${path}.kind`, kind);
  }
}

/** Whether something is being asked for. */
export const isBusy = () => busy;
