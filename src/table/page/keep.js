// SPDX-License-Identifier: MIT
// The files on the table: albums and batches, drawers and cutters beside them, the drawings that they name. They are kept in this
// browser after every change; what can be taken back stays with the window.
//
// All windows at this address share what is kept. Each change is made on what is kept just now, so that none overwrites
// what another window did. Each has a key, and an album's text is kept with the keys of the changes that are in it: a browser
// may tell a window late of what another one wrote, and by its key a change that got lost is noticed and made again, and one
// that is there already is not made twice. What is asked for and not answered yet is kept, too, by each window under its own
// name.

import * as drawings from "./drawings.js";
import * as pasts from "./past.js";
import { steps, took } from "./past.js";

const PLACE = "hingeleaf-table";
/** As many changes of this window are remembered, to be made again where they get lost. */
const MOST_MINE = 200;
/** As many keys of changes are kept with an album. */
const MOST_KEYS = 200;
/** What a window did so long ago, ms, every other one has been told of. */
const TOLD = 60_000;
/** This window, until it is closed or loaded anew. */
const ME = [...crypto.getRandomValues(new Uint32Array(4))].map((part) => part.toString(16)).join("-");
const WAITING = `${PLACE}-waiting-`;

/** What lies beside the albums and is shown with them. */
const KINDS = ["drawer", "cutter", "kind", "measured"];
/** The name of its cutter file, and whether it is a trimmer. */
const MACHINE = { name: "", trimmer: false };
const empty = () => ({ albums: [], current: 0, next: 1, machine: { ...MACHINE } });
const text = (value) => typeof value === "string";
/** The keys of drawings by the names that a file calls them by. */
const keysOf = (kept) => Object.fromEntries(Object.entries(kept ?? {}).filter(([, key]) => text(key)));

/** Albums with all that they need; of what was kept in another form the text is saved. */
function albumsOf(kept) {
  const albums = [];
  for (const one of Array.isArray(kept) ? kept : []) {
    if (!text(one?.text)) continue;
    const known = whole(one.id) && !albums.some((other) => other.id === one.id);
    albums.push({
      id: known ? one.id : 0,
      name: text(one.name) ? one.name : "album.json",
      origin: text(one.origin) ? one.origin : one.text,
      text: one.text,
      ...(text(one.title) ? { title: one.title } : {}),
      ...(one.batch === true ? { batch: true } : {}),
      drawings: keysOf(one.drawings),
      origins: keysOf(one.origins),
      ...(KINDS.includes(one.kind) ? { kind: one.kind } : {}),
      did: [one.did].flat().filter(text),
    });
  }
  for (const album of albums) album.id ||= after(albums);
  return albums;
}

const whole = (value) => (Number.isInteger(value) && value > 0 ? value : 0);
const after = (albums) => Math.max(0, ...albums.map((album) => album.id)) + 1;

/** Settings that were kept before they had a file, as one. */
function withSettings(albums, machine) {
  const said = ["kerf", "margin", "gap"].filter((name) => text(machine?.[name]) && machine[name].trim());
  if (!said.length) return machine;
  const name = "my-cutter.json";
  if (!albums.some((one) => one.name === name)) {
    const file = JSON.stringify({ format: "hingeleaf-cutter/1", ...Object.fromEntries(said.map((name) => [name, machine[name]])) }, null, 2);
    albums.push({ id: after(albums), name, origin: file, text: file, kind: "cutter", drawings: {}, origins: {}, did: [] });
  }
  return { ...machine, name };
}

/** Settings of another kind than they are count as not given. */
const machineOf = (kept) => Object.fromEntries(Object.entries(MACHINE).map(([name, none]) => [name, typeof kept?.[name] === typeof none ? kept[name] : none]));

const waitingOf = (kept) => (Array.isArray(kept) ? kept : []).filter((one) => text(one?.key) && Number.isInteger(one.album) && text(one.wanted?.do));

let held = empty();
/** The album that this window shows; another one may show another. */
let shown = 0;
/** What this window did to an album of late: the key of each change, when, and what was asked for. */
const mine = new Map();
/** What this window asked for and is not answered. */
let waiting = [];
/** Whether the browser takes what is to be kept. */
export let keeps = true;

/** What is kept just now; nothing where that can't be read. */
function kept() {
  const found = localStorage.getItem(PLACE);
  try {
    const all = JSON.parse(found);
    const albums = albumsOf(all?.albums);
    const machine = machineOf(withSettings(albums, all?.machine));
    return { albums, current: whole(all?.current), next: Math.max(whole(all?.next), after(albums)), machine };
  } catch {
    return empty();
  }
}

function store(place, what) {
  try {
    if (what) localStorage.setItem(place, JSON.stringify(what));
    else localStorage.removeItem(place);
    keeps = true;
  } catch {
    keeps = false;
  }
}

/** Does something to what is kept just now. */
function on(does) {
  try {
    // What the browser did not take is here alone.
    if (keeps) held = kept();
  } catch {
    keeps = false;
  }
  const before = JSON.stringify(held);
  const result = does();
  // Nothing is written where nothing is another: it might be older than what another window writes.
  if (!keeps || JSON.stringify(held) !== before) store(PLACE, held);
  return result;
}

/** Reads what was kept. `orphaned` is called when there is something that a window asked for which is closed now. */
export function load(orphaned) {
  try {
    held = kept();
    shown = whole(Number(sessionStorage.getItem(PLACE))) || held.current;
  } catch {
    keeps = false;
  }
  if (!current()) shown = albums()[0]?.id ?? 0;
  // Nobody else takes what this window asks for while it is open.
  navigator.locks?.request(WAITING + ME, () => new Promise(() => {}));
  inherit(orphaned);
  pasts.recall(album);
  addEventListener("pagehide", () => {
    const shows = current();
    if (shows) pasts.hold(shows);
  });
  tidy();
}

/** Lets go of drawings that no album names. */
const tidy = () => drawings.letGo(new Set(held.albums.flatMap((one) => [...Object.values(one.drawings), ...Object.values(one.origins)]).concat(pasts.drawn())));

const inherits = new Set([WAITING + ME]);
let started = false;

/** Waits for the end of every window that has something waiting, and takes that over. */
function inherit(orphaned) {
  for (const place of keeps ? Object.keys(localStorage) : []) {
    if (!place.startsWith(WAITING) || inherits.has(place)) continue;
    inherits.add(place);
    const take = () => {
      let taken = [];
      try {
        taken = waitingOf(JSON.parse(localStorage.getItem(place)));
      } catch {
        // What can't be read was not written by a page like this.
      }
      // The browser may have ended between an answer and the note that it came.
      taken = taken.filter((one) => album(one.album) && !has(one.album, one.key));
      waiting.push(...taken);
      if (taken.length) store(WAITING + ME, waiting);
      store(place, null);
      if (taken.length) orphaned(taken);
    };
    // Where the browser can't tell which windows are open, what is found at the start is taken for a closed one's.
    if (navigator.locks) navigator.locks.request(place, take);
    else if (!started) take();
  }
  started = true;
}

/**
 * Takes in what other windows did. Says whether that changes what this one shows. `orphaned` is called with what is to be
 * asked for again: what a closed window asked for, and what of this one's own got lost because another wrote at the same
 * moment.
 */
export function refresh(orphaned) {
  const [album, { machine }, was] = [current(), held, besides()];
  try {
    if (keeps) held = kept();
  } catch {
    keeps = false;
  }
  inherit(orphaned);
  const now = current();
  const same = now?.text === album?.text && JSON.stringify(now?.drawings) === JSON.stringify(album?.drawings);
  // Going back leads to what stood here before.
  if (album && now && !same) {
    past(album.id).push({ text: album.text, drawings: album.drawings });
    pasts.pause();
  }
  const late = (now && mine.get(now.id)?.filter(({ when }) => Date.now() - when < TOLD)) ?? [];
  // What was typed anew since stays as it is.
  const sets = (path) => ({ wanted }) => wanted?.do === "set" && wanted.path === path;
  const typedAnew = ({ do: does, path }, index) => does === "set" && [...late.slice(index + 1), ...waiting.filter((one) => one.album === now.id)].some(sets(path));
  const lost = late
    .filter(({ key, wanted }, index) => wanted && !has(now.id, key) && !typedAnew(wanted, index))
    .map(({ key, wanted }) => ({ key, album: now.id, wanted }));
  if (now) mine.set(now.id, late.filter(({ key }) => has(now.id, key)));
  if (lost.length) {
    waiting.push(...lost);
    store(WAITING + ME, waiting);
    orphaned(lost, true);
  }
  return { gone: Boolean(album) && !now, other: !same, changed: !same || besides() !== was || JSON.stringify(machine) !== JSON.stringify(held.machine) };
}

/** Calls back whenever another window changed what is kept. */
export const watch = (changed) => addEventListener("storage", (event) => {
  if (event.key === null || event.key.startsWith(PLACE)) changed();
});

/** What can be shown by itself: albums and batches. */
export const albums = () => held.albums.filter((one) => !one.kind);
export const album = (id) => held.albums.find((one) => one.id === id) ?? null;
/** The files of kinds. */
export const kinds = () => held.albums.filter((one) => one.kind === "kind");
/** A drawer or a cutter by its name. */
export const file = (name) => held.albums.find((one) => one.kind && one.name === name) ?? null;
/** What files are called that a file may name, each by its name. */
export const names = () => Object.fromEntries(held.albums.filter((one) => !one.batch).map(({ name }) => [name, name]));
export const current = () => albums().find((one) => one.id === shown) ?? null;
/** Whether the change of this key is in an album's text. */
export const has = (id, key) => Boolean(album(id)?.did.includes(key));
/** The machine; a file of it that is off the table is none. */
export const machine = () => ({ ...held.machine, name: file(held.machine.name)?.kind === "cutter" ? held.machine.name : "" });
/** The cutter files, each a machine's settings by its name. */
export const cutters = () => held.albums.filter((one) => one.kind === "cutter");
/** What was read off a test piece. */
export const measured = () => held.albums.find((one) => one.kind === "measured") ?? null;
/** The machine as the program is told of it. */
export function told() {
  const { name, trimmer } = machine();
  return { name, text: file(name)?.text ?? "", measured: measured()?.text ?? "", trimmer };
}

/**
 * The files that lie beside one: a batch's albums, drawers, cutters; those that it names, or that what is wanted does, or that these
 * name in turn, with what they hold. Which these are is for the program to say: here it is enough that no other's text is sent along.
 */
export function beside(one, wanted = null) {
  const { others, needed } = needs(one, one.text + JSON.stringify(wanted ?? ""), "text");
  return others.map((other) => ({ ...called(other), ...(needed.has(other) ? { text: other.text, drawings: given(other) } : {}) }));
}

const called = ({ name, kind }) => ({ name, ...(kind ? { kind } : {}) });

/** The files that may lie beside one, and those of them that are named in what is `said`, or that these name in turn. */
function needs(one, said, what) {
  const others = held.albums.filter((other) => other !== one && !other.batch && (one.batch || other.kind));
  const needed = new Set();
  for (let deep = 0; deep < 2; deep += 1) {
    for (const other of others.filter((other) => !needed.has(other) && said.includes(JSON.stringify(other.name)))) {
      needed.add(other);
      said += other[what];
    }
  }
  return { others, needed };
}

const listed = (keys, file) => Object.entries(keys)
  .map(([name, key]) => ({ name, text: drawings.text(key) }))
  .filter((one) => one.text !== null && drawings.names(file, one.name));

/** The drawings that a file names, or that what is wanted does. */
export const given = (one, wanted = null) => listed(one.drawings, one.text + JSON.stringify(wanted ?? ""));

/** A file on the table with all that belongs to it, as it is now. */
export const belongings = (one) => ({ name: one.name, text: one.text, drawings: given(one), files: beside(one) });

/** The same as it was when it was put on the table. */
export function origin(one) {
  const was = (other) => ({ ...called(other), text: other.origin, drawings: listed(other.origins, other.origin) });
  return { ...was(one), files: [...needs(one, one.origin, "origin").needed].map(was) };
}

/** What the answers about what is shown depend on besides its own text. */
function besides() {
  const one = current();
  return one ? JSON.stringify([beside(one), told()]) : "";
}

/** A name that no album on the table has. */
function fresh(name) {
  const [, stem, ending] = /^(.*?)(\.[^.]*)?$/.exec(name);
  for (let number = 1; ; number += 1) {
    const one = number === 1 ? name : `${stem}-${number}${ending ?? ""}`;
    if (!held.albums.some((album) => album.name === one)) return one;
  }
}

function lay(id) {
  shown = id;
  held.current = id;
  pasts.pause();
  try {
    sessionStorage.setItem(PLACE, id);
  } catch {
    // Then a window that is loaded anew shows what was chosen last in any.
  }
}

/**
 * Puts a file on the table, with the drawings that it names. One that began with the same text is found again: as it was left where
 * the program was `opened` with it, else only if nothing was changed; or it is there as it is. Gives its name, and whether it was changed before.
 */
export function open(name, text, { opened = false, batch = false, kind = null, drawn = [], fresh: anew = false } = {}) {
  const laid = Object.fromEntries(drawn.map((one) => [one.name, drawings.lay(one.text).key]));
  return on(() => {
    const same = (one) => one.name === name && one.text === text;
    const known = anew ? null : held.albums.find((album) => album.origin === text && (opened ? album.name === name : album.text === text)) ?? held.albums.find(same);
    const album = known ?? { id: held.next, name: fresh(name), origin: text, text, ...(batch ? { batch } : {}), ...(KINDS.includes(kind) ? { kind } : {}), drawings: laid, origins: laid, did: [] };
    if (!known) {
      held.albums.push(album);
      held.next += 1;
    }
    // A drawing that is another one than it was at first was changed outside of this page.
    const other = Object.entries(laid).filter(([one, key]) => album.origins[one] !== key);
    if (other.length) [album.drawings, album.origins] = [album.drawings, album.origins].map((keys) => ({ ...keys, ...Object.fromEntries(other) }));
    if (!album.kind) lay(album.id);
    return { name: album.name, changed: album.text !== text };
  });
}

/**
 * Keeps a drawing with an album, under the name that it calls it by; says whether the browser took it, and whether it takes the place of
 * another one.
 */
export function draw(id, name, what) {
  const { key: at, stored } = drawings.lay(what);
  return on(() => {
    const one = album(id);
    if (!one) return { stored, replaces: false };
    // What lay in a folder has that in its name.
    const named = Object.keys(one.drawings);
    const own = named.find((known) => known === name) ?? named.find((known) => drawings.bare(known) === drawings.bare(name)) ?? name;
    const was = one.drawings[own];
    if (was === at) return { stored, replaces: false };
    if (was) took(id, `draw ${own}`, { text: one.text, drawings: one.drawings });
    one.drawings = { ...one.drawings, [own]: at };
    write(one, one.text, key());
    return { stored, replaces: Boolean(was) };
  });
}

export function choose(id) {
  on(() => lay(id));
}

/** Takes the current album off the table. */
export function forget() {
  on(() => {
    held.albums = held.albums.filter((album) => album.id !== shown);
    pasts.forget(shown);
    lay(albums()[0]?.id ?? 0);
  });
  tidy();
}

/** Takes what lies beside the albums off the table. */
export function forgetFile(name) {
  on(() => {
    held.albums = held.albums.filter((one) => !(one.kind && one.name === name));
  });
}

const past = (id) => steps(id).past;

function write(album, text, key, wanted = null) {
  album.text = text;
  album.did = [...album.did, key].slice(-MOST_KEYS);
  mine.set(album.id, [...(mine.get(album.id) ?? []), { key, wanted, when: Date.now() }].slice(-MOST_MINE));
}

/**
 * An album's text, which `was` this, becomes another, called `title`; with that what was asked for under `key` is done. Does
 * nothing, and says so, if the album has become another meanwhile.
 */
export function put(id, key, was, now, what, { title, batch, wanted = null } = {}) {
  return on(() => {
    const one = album(id);
    if (!one || one.text !== was || has(id, key)) return false;
    if (title) one.title = title;
    if (batch === true) one.batch = true;
    else if (batch === false) delete one.batch;
    if (now !== was) {
      // What is shown is where it is taken back, too.
      if (one.kind) took(shown, what, { file: id, text: was });
      else took(id, what, { text: was, drawings: one.drawings });
      write(one, now, key, wanted);
    }
    return true;
  });
}

/** Keeps what is asked for until it is answered. */
export function wait(key, album, wanted) {
  const known = waiting.find((one) => one.key === key);
  if (known) known.wanted = wanted;
  else waiting.push({ key, album, wanted });
  store(WAITING + ME, waiting);
}

/** What was asked for is settled. */
export function settle(key) {
  if (!waiting.some((one) => one.key === key)) return;
  waiting = waiting.filter((one) => one.key !== key);
  store(WAITING + ME, waiting.length ? waiting : null);
}

let asked = 0;
/** A name for something that is asked for. */
export const key = () => `${ME}-${(asked += 1)}`;

export const canUndo = () => Boolean(current() && past(shown).length);
export const canRedo = () => Boolean(current() && steps(shown).future.length);

/** One step back, or forth again: of the album's text, or of the machine's settings. */
export function step(back) {
  return on(() => {
    const [from, to] = back ? [past(shown), steps(shown).future] : [steps(shown).future, past(shown)];
    const step = from.pop();
    const album = current();
    if (!step || !album) return false;
    if (step.setting) {
      to.push({ setting: step.setting, value: held.machine[step.setting] });
      held.machine[step.setting] = step.value;
    } else if (step.file) {
      const file = held.albums.find((one) => one.id === step.file);
      if (!file) return false;
      to.push({ file: step.file, text: file.text });
      write(file, step.text, key());
    } else {
      to.push({ text: album.text, drawings: album.drawings });
      album.drawings = step.drawings;
      write(album, step.text, key());
    }
    pasts.pause();
    return true;
  });
}

export function setMachine(setting, value) {
  on(() => {
    if (shown) took(shown, `machine ${setting}`, { setting, value: held.machine[setting] });
    held.machine[setting] = value;
  });
}

/** What is first said of a machine begins a file: that is no step of its own. */
export function useCutter(name) {
  on(() => { held.machine.name = name; });
}
