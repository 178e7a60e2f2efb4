// SPDX-License-Identifier: MIT
// The albums on the table: kept in this browser after every change, with undo and redo while the page is open.

const PLACE = "hingeleaf-table";
const MOST_STEPS = 200;
/** Typing in one field within this time is one step, ms. */
const ONE_STEP = 1500;

const empty = () => ({ albums: [], current: 0, next: 1, machine: { kerf: "", margin: "", gap: "", trimmer: false } });

const good = (album) => ["name", "text", "origin"].every((field) => typeof album?.[field] === "string") && Number.isInteger(album.id);

let held = empty();
/** Albums that were taken off the table here. */
const gone = new Set();
const pasts = new Map();
let last = { what: "", when: 0 };
/** Whether the browser takes what is to be kept. */
export let keeps = true;

/** Reads what was kept; whatever is wrong with it is not taken. */
export function load() {
  try {
    const kept = JSON.parse(localStorage.getItem(PLACE));
    if (Array.isArray(kept?.albums)) {
      held = { ...empty(), ...kept, albums: kept.albums.filter(good) };
      held.machine = { ...empty().machine, ...kept.machine };
    }
  } catch {
    held = empty();
  }
  if (!current() && held.albums.length) held.current = held.albums[0].id;
}

function store() {
  try {
    others();
    localStorage.setItem(PLACE, JSON.stringify(held));
    keeps = true;
  } catch {
    keeps = false;
  }
}

/** Albums that another tab put on the table since; what this tab holds is its own. */
function others() {
  const kept = JSON.parse(localStorage.getItem(PLACE));
  const known = new Set([...held.albums.map((album) => album.id), ...gone]);
  const more = (Array.isArray(kept?.albums) ? kept.albums : []).filter((album) => good(album) && !known.has(album.id));
  held.albums.push(...more);
  held.next = Math.max(held.next, ...held.albums.map((album) => album.id + 1));
}

export const albums = () => held.albums;
export const current = () => held.albums.find((album) => album.id === held.current) ?? null;
export const machine = () => held.machine;

/** A name that no album on the table has. */
function fresh(name) {
  const [, stem, ending] = /^(.*?)(\.[^.]*)?$/.exec(name);
  for (let number = 1; ; number += 1) {
    const one = number === 1 ? name : `${stem}-${number}${ending ?? ""}`;
    if (!held.albums.some((album) => album.name === one)) return one;
  }
}

/**
 * Puts an album on the table. One that began with the same text is found again: as it was left where the program was
 * opened `with` it, else only if nothing was changed. Says whether it was changed before.
 */
export function open(name, text, opened = false) {
  const known = held.albums.find((album) => album.origin === text && (opened ? album.name === name : album.text === text));
  if (known) held.current = known.id;
  else {
    held.albums.push({ id: held.next, name: fresh(name), origin: text, text });
    held.current = held.next;
    held.next += 1;
  }
  last = { what: "", when: 0 };
  store();
  return Boolean(known) && known.text !== text;
}

/** What the current album is called in the list. */
export function entitle(title) {
  const album = current();
  if (album && album.title !== title) {
    album.title = title;
    store();
  }
}

export function choose(id) {
  held.current = id;
  last = { what: "", when: 0 };
  store();
}

/** Takes the current album off the table. */
export function forget() {
  gone.add(held.current);
  held.albums = held.albums.filter((album) => album.id !== held.current);
  pasts.delete(held.current);
  held.current = held.albums[0]?.id ?? 0;
  store();
}

const steps = () => {
  if (!pasts.has(held.current)) pasts.set(held.current, { past: [], future: [] });
  return pasts.get(held.current);
};

/** The current album's text becomes another; `what` tells steps apart. */
export function put(text, what) {
  const album = current();
  if (!album || album.text === text) return;
  const now = Date.now();
  const { past } = steps();
  const goesOn = what.startsWith("set ") && last.what === what && now - last.when < ONE_STEP;
  if (!goesOn) past.push(album.text);
  if (past.length > MOST_STEPS) past.shift();
  steps().future = [];
  last = { what, when: now };
  album.text = text;
  store();
}

export const canUndo = () => Boolean(current() && steps().past.length);
export const canRedo = () => Boolean(current() && steps().future.length);

/** One step back, or forth again. */
export function step(back) {
  const [from, to] = back ? [steps().past, steps().future] : [steps().future, steps().past];
  if (!from.length) return false;
  to.push(current().text);
  current().text = from.pop();
  last = { what: "", when: 0 };
  store();
  return true;
}

export function setMachine(name, value) {
  held.machine = { ...held.machine, [name]: value };
  store();
}
