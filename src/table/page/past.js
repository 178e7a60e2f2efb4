// SPDX-License-Identifier: MIT
// What can be taken back: the steps of each file, back and forth. They outlast a reload of this window, no longer.

const PLACE = "hingeleaf-table-past";
const MOST_STEPS = 200;
/** So many letters of them are kept past a reload, the latest steps first: a browser gives a window some megabytes. */
const MOST_KEPT = 1_500_000;
/** Typing in one field within this time is one step, ms. */
const ONE_STEP = 1500;

const pasts = new Map();
let last = { what: "", when: 0 };

/**
 * The steps of a file: those that were taken, and those that were taken back.
 * @param {number} id
 */
export const steps = (id) => {
  if (!pasts.has(id)) pasts.set(id, { past: [], future: [] });
  return pasts.get(id);
};

/**
 * A step that can be taken back; `what` tells steps apart.
 * @param {number} id
 * @param {string} what
 * @param {Step} step
 */
export function took(id, what, step) {
  const now = Date.now();
  const { past } = steps(id);
  const goesOn = /^(set|machine) /.test(what) && last.what === `${id} ${what}` && now - last.when < ONE_STEP;
  if (!goesOn) past.push(step);
  if (past.length > MOST_STEPS) past.shift();
  steps(id).future = [];
  last = { what: `${id} ${what}`, when: now };
}

/** Whatever comes next is a step of its own. */
export const pause = () => { last = { what: "", when: 0 }; };

/**
 * A file is off the table.
 * @param {number} id
 */
export const forget = (id) => pasts.delete(id);

const listed = () => [...pasts.values()].flatMap(({ past, future }) => [...past, ...future]);

/** The keys of all drawings that a step leads back to. */
export const drawn = () => listed().flatMap((step) => Object.values(step.drawings ?? {}));

/** @param {unknown} value */
const text = (value) => typeof value === "string";
/** @param {any} one */
const isStep = (one) => (text(one?.setting) ? "value" in one : text(one?.text) && (Number.isInteger(one.file) || (one.drawings !== null && typeof one.drawings === "object")));

/**
 * The last of these that there is room for.
 * @param {Step[]} list
 * @param {number} room
 */
function fitting(list, room) {
  let left = room;
  const from = list.findLastIndex((step) => (left -= (step.text ?? "").length + 200) < 0);
  return list.slice(from + 1);
}

/** Keeps the steps of what is shown, with what they lead back from. */
export function hold(/** @type {Pick<KeptFile, "id" | "text" | "drawings">} */ { id, text, drawings }) {
  const { past, future } = steps(id);
  const kept = { id, text, drawings, past: fitting(past, MOST_KEPT), future: fitting(future, MOST_KEPT / 3) };
  try {
    sessionStorage.setItem(PLACE, JSON.stringify(kept));
  } catch {
    // Then they end with this page.
  }
}

/**
 * Takes up the steps that were kept before a reload; what another window did meanwhile is a step, too.
 * @param {(id: number) => KeptFile | null} find
 */
export function recall(find) {
  try {
    const kept = JSON.parse(sessionStorage.getItem(PLACE) ?? "null");
    const file = find(kept?.id);
    if (!file || !text(kept.text) || !Array.isArray(kept.past) || !Array.isArray(kept.future)) return;
    const own = { past: kept.past.filter(isStep), future: kept.future.filter(isStep) };
    if (file.text !== kept.text) Object.assign(own, { past: [...own.past, { text: kept.text, drawings: kept.drawings ?? {} }], future: [] });
    pasts.set(kept.id, own);
  } catch {
    // What can't be read was not written by a page like this.
  }
}
