// SPDX-License-Identifier: MIT
// The files on the table: albums and batches, drawers and cutters beside them, the drawings that they name. They are kept in this
// browser after every change; what can be taken back stays with the window.
//
// All windows at this address share what is kept. Each change is made on what is kept just now, so that none overwrites
// what another window did. Each has a key, and an album's text is kept with the keys of the changes that are in it: a browser
// may tell a window late of what another one wrote, and by its key a change that got lost is noticed and made again, and one
// that is there already is not made twice. What is asked for and not answered yet is kept, too, by each window under its own
// name.

import { album, albums, besides, current, has } from "./beside.js";
import * as drawings from "./drawings.js";
import { KINDS, PLACE, on, reread, table, whole } from "./kept.js";
import * as pasts from "./past.js";
import { steps, took } from "./past.js";
import * as versions from "./versionstore.js";
import { claim, inherit, key, waitToo, waitsFor } from "./waits.js";

export { album, albums, belongings, beside, current, cutters, file, given, has, kinds, machine, measured, names, origin, told } from "./beside.js";
export { key, settle, wait } from "./waits.js";

/** What lies on the table, while a control of it is used. */
export const onTable = () => /** @type {KeptFile} */ (current());

/** Whether the browser takes what is to be kept. */
export const keeps = () => table.keeps;

/** As many changes of this window are remembered, to be made again where they get lost. */
const MOST_MINE = 200;
/** As many keys of changes are kept with an album. */
const MOST_KEYS = 200;
/** What a window did so long ago, ms, every other one has been told of. */
const TOLD = 60_000;
/** What this window did to an album of late: the key of each change, when, and what was asked for. */
/** @type {Map<number, { key: string, wanted: Wanted | null, when: number }[]>} */
const mine = new Map();

/**
 * Reads what was kept. `orphaned` is called when there is something that a window asked for which is closed now.
 * @param {Orphaned} orphaned
 */
export function load(orphaned) {
  reread();
  try {
    table.shown = whole(Number(sessionStorage.getItem(PLACE))) || table.held.current;
  } catch {
    table.keeps = false;
  }
  if (!current()) table.shown = albums()[0]?.id ?? 0;
  claim();
  inherit(orphaned);
  pasts.recall(album);
  addEventListener("pagehide", () => {
    const shows = current();
    if (shows) pasts.hold(shows);
  });
  tidy();
}

/** Lets go of drawings that no album names. */
const tidy = () => drawings.letGo(new Set(table.held.albums.flatMap((one) => [...Object.values(one.drawings), ...Object.values(one.origins)]).concat(pasts.drawn(), versions.drawn())));

/**
 * Takes in what other windows did. Says whether that changes what this one shows. `orphaned` is called with what is to be
 * asked for again: what a closed window asked for, and what of this one's own got lost because another wrote at the same
 * moment.
 * @param {Orphaned} orphaned
 */
export function refresh(orphaned) {
  const [album, { machine }, was] = [current(), table.held, besides()];
  reread();
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
  /** @param {string} path */
  const sets = (/** @type {string | undefined} */ path) => (/** @type {{ wanted: Wanted | null }} */ { wanted }) => wanted?.do === "set" && wanted.path === path;
  /** @param {number} index */
  const typedAnew = (/** @type {Wanted} */ { do: does, path }, /** @type {number} */ index) => does === "set" && [...late.slice(index + 1), ...waitsFor(now?.id ?? 0)].some(sets(path));
  const lost = late
    .flatMap(({ key, wanted }, index) => (now && wanted && !has(now.id, key) && !typedAnew(wanted, index) ? [{ key, album: now.id, wanted }] : []));
  if (now) mine.set(now.id, late.filter(({ key }) => has(now.id, key)));
  if (lost.length) {
    waitToo(lost);
    orphaned(lost, true);
  }
  return { gone: Boolean(album) && !now, other: !same, changed: !same || besides() !== was || JSON.stringify(machine) !== JSON.stringify(table.held.machine) };
}

/**
 * Calls back whenever another window changed what is kept.
 * @param {() => void} changed
 */
export const watch = (changed) => addEventListener("storage", (event) => {
  if (event.key === null || event.key.startsWith(PLACE)) changed();
});

/**
 * A name that no album on the table has.
 * @param {string} name
 * @returns {string}
 */
function fresh(name) {
  const [, stem, ending] = /^(.*?)(\.[^.]*)?$/.exec(name) ?? [];
  for (let number = 1; ; number += 1) {
    const one = number === 1 ? name : `${stem}-${number}${ending ?? ""}`;
    if (!table.held.albums.some((album) => album.name === one)) return one;
  }
}

/** @param {number} id */
function lay(id) {
  table.shown = id;
  table.held.current = id;
  pasts.pause();
  try {
    sessionStorage.setItem(PLACE, String(id));
  } catch {
    // Then a window that is loaded anew shows what was chosen last in any.
  }
}

/**
 * Puts a file on the table, with the drawings that it names. One that began with the same text is found again: as it was left where
 * the program was `opened` with it, else only if nothing was changed; or it is there as it is. Gives its name, and whether it was changed before.
 * @param {string} name
 * @param {string} text
 */
export function open(name, text, /** @type {Opening} */ { opened = false, batch = false, kind = null, drawn = [], fresh: anew = false } = {}) {
  const laid = Object.fromEntries(drawn.map((one) => [one.name, drawings.lay(one.text).key]));
  return on(() => {
    /** @param {KeptFile} one */
    const same = (one) => one.name === name && one.text === text;
    const known = anew ? null : table.held.albums.find((album) => album.origin === text && (opened ? album.name === name : album.text === text)) ?? table.held.albums.find(same);
    const album = known ?? { id: table.held.next, name: fresh(name), origin: text, text, ...(batch ? { batch } : {}), ...(kind && KINDS.includes(kind) ? { kind } : {}), drawings: laid, origins: laid, did: [] };
    if (!known) {
      table.held.albums.push(album);
      table.held.next += 1;
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
 * @param {number} id
 * @param {string} name
 * @param {string} what
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

/** @param {number} id */
export function choose(id) {
  on(() => lay(id));
}

/** Takes the current album off the table. */
export function forget() {
  on(() => {
    table.held.albums = table.held.albums.filter((album) => album.id !== table.shown);
    pasts.forget(table.shown);
    versions.forget(table.shown);
    lay(albums()[0]?.id ?? 0);
  });
  tidy();
}

/** The album on the table once more, under a name of its own, which lies uppermost then. Gives both names. */
export function duplicate() {
  return on(() => {
    const { name, text, title, batch, drawings: keys } = onTable();
    const twin = { id: table.held.next, name: fresh(name), origin: text, text, ...(title ? { title } : {}), ...(batch ? { batch } : {}), drawings: keys, origins: keys, did: [] };
    table.held.albums.push(twin);
    table.held.next += 1;
    lay(twin.id);
    return [name, twin.name];
  });
}

/**
 * The album on the table becomes what it was in a version: a step that can be taken back. Gives the names of files beside it that are
 * others than they were.
 * @param {KeptVersion} version
 */
export function openVersion(version) {
  return on(() => {
    const one = onTable();
    took(one.id, `version ${version.key}`, { text: one.text, drawings: one.drawings });
    one.drawings = version.drawings;
    write(one, version.text, key());
    pasts.pause();
    return version.files.filter((was) => table.held.albums.some((now) => now.name === was.name && now.text !== was.text)).map((was) => was.name);
  });
}

/**
 * Takes what lies beside the albums off the table.
 * @param {string} name
 */
export function forgetFile(name) {
  on(() => {
    table.held.albums = table.held.albums.filter((one) => !(one.kind && one.name === name));
  });
}

/** @param {number} id */
const past = (id) => steps(id).past;

/**
 * @param {KeptFile} album
 * @param {string} text
 * @param {string} key
 * @param {Wanted | null} [wanted]
 */
function write(album, text, key, wanted = null) {
  album.text = text;
  album.did = [...album.did, key].slice(-MOST_KEYS);
  mine.set(album.id, [...(mine.get(album.id) ?? []), { key, wanted, when: Date.now() }].slice(-MOST_MINE));
}

/**
 * An album's text, which `was` this, becomes another, called `title`; with that what was asked for under `key` is done. Does
 * nothing, and says so, if the album has become another meanwhile.
 * @param {number} id
 * @param {string} key
 * @param {string} was
 * @param {string} now
 * @param {string} what
 * @param {{ title?: string, batch?: boolean, wanted?: Wanted | null }} [more]
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
      if (one.kind) took(table.shown, what, { file: id, text: was });
      else took(id, what, { text: was, drawings: one.drawings });
      write(one, now, key, wanted);
    }
    return true;
  });
}

export const canUndo = () => Boolean(current() && past(table.shown).length);
export const canRedo = () => Boolean(current() && steps(table.shown).future.length);

/**
 * @param {keyof Machine} setting
 * @param {string | boolean} value
 */
const setTo = (setting, value) => { Object.assign(table.held.machine, { [setting]: value }); };

/**
 * One step back, or forth again: of the album's text, or of the machine's settings.
 * @param {boolean} back
 */
export function step(back) {
  return on(() => {
    const [from, to] = back ? [past(table.shown), steps(table.shown).future] : [steps(table.shown).future, past(table.shown)];
    /** @type {Step | undefined} */
    const step = from.pop();
    const album = current();
    if (!step || !album) return false;
    if (step.setting) {
      to.push({ setting: step.setting, value: table.held.machine[step.setting] });
      setTo(step.setting, step.value);
    } else if (step.file) {
      const file = table.held.albums.find((one) => one.id === step.file);
      if (!file) return false;
      to.push({ file: step.file, text: file.text });
      write(file, step.text, key());
    } else {
      to.push({ text: album.text, drawings: album.drawings });
      album.drawings = step.drawings ?? {};
      write(album, step.text, key());
    }
    pasts.pause();
    return true;
  });
}

/**
 * @param {keyof Machine} setting
 * @param {string | boolean} value
 */
export function setMachine(setting, value) {
  on(() => {
    if (table.shown) took(table.shown, `machine ${setting}`, { setting, value: table.held.machine[setting] });
    setTo(setting, value);
  });
}

/**
 * What is first said of a machine begins a file: that is no step of its own.
 * @param {string} name
 */
export function useCutter(name) {
  on(() => { table.held.machine.name = name; });
}
