// SPDX-License-Identifier: MIT
// Versions: an album or a batch as it stood once, under a name. Each is kept in this browser under a key of its own, so that two windows
// never write over each other's; so many, and so much of them, and no more.

import { needs } from "./beside.js";
import * as drawings from "./drawings.js";
import { PLACE, table, text } from "./kept.js";
import { key } from "./waits.js";

const VERSION = `${PLACE}-version-`;
/** So many of one album. */
export const MOST = 20;
/** So many letters of all that are kept: a browser keeps some millions, and the albums themselves come first. */
const MOST_LETTERS = 1_500_000;
/** So many letters of a name. */
export const LONGEST = 80;

const laid = (/** @type {unknown} */ value) => typeof value === "object" && value !== null && Object.values(value).every(text);
const isFile = (/** @type {any} */ one) => text(one?.name) && text(one.text) && laid(one.drawings);
const isVersion = (/** @type {any} */ one) => isFile(one) && Number.isInteger(one.album) && text(one.called) && text(one.when) && text(one.picture) && Array.isArray(one.files) && one.files.every(isFile);

/**
 * All that are kept, the oldest first; read anew when something is another.
 * @type {KeptVersion[] | null}
 */
let known = null;
addEventListener("storage", ({ key: place }) => {
  if (place === null || place.startsWith(VERSION)) known = null;
});

/** @returns {KeptVersion[]} */
function all() {
  if (known) return known;
  known = [];
  try {
    for (const place of Object.keys(localStorage).filter((one) => one.startsWith(VERSION))) {
      const one = read(place);
      if (one) known.push({ ...one, key: place.slice(VERSION.length) });
    }
  } catch {
    // Then this browser keeps nothing.
  }
  known.sort((one, other) => (one.when < other.when || (one.when === other.when && one.key < other.key) ? -1 : 1));
  return known;
}

/** @param {string} place */
function read(place) {
  try {
    const one = JSON.parse(localStorage.getItem(place) ?? "null");
    return isVersion(one) ? one : null;
  } catch {
    // What can't be read was not written by a page like this.
    return null;
  }
}

/**
 * The versions of an album, the oldest first.
 * @param {number} id
 */
export const versions = (id) => all().filter((one) => one.album === id);

/**
 * One version, by its key.
 * @param {string} named
 */
export const version = (named) => all().find((one) => one.key === named) ?? null;

/** The keys of all drawings that a version names. */
export const drawn = () => all().flatMap((one) => [one, ...one.files].flatMap((file) => Object.values(file.drawings)));

/**
 * An album as it stands, to be kept.
 * @param {KeptFile} one
 */
export function standing(one) {
  const plain = (/** @type {KeptFile} */ { name, kind, text: says, drawings: keys }) => ({ name, ...(kind ? { kind } : {}), text: says, drawings: keys });
  return { ...plain(one), files: [...needs(one, one.text, "text").needed].map(plain) };
}

/**
 * Keeps a version of an album. Says why not, where it is not kept.
 * @param {number} album
 * @param {Omit<KeptVersion, "key" | "album">} what
 */
export function keep(album, what) {
  const written = JSON.stringify({ album, ...what });
  const of = versions(album);
  if (of.some((one) => one.called === what.called)) return `There is a version called “${what.called}”: give this one another name, or take that one away.`;
  if (of.length >= MOST) return `${MOST} versions of one album are kept at most: take one away first.`;
  const letters = all().reduce((sum, one) => sum + JSON.stringify(one).length, written.length);
  if (letters > MOST_LETTERS) return "There is no room for another version: take one away first, of this album or of another, or keep the album file.";
  try {
    if (!table.keeps) throw new Error();
    localStorage.setItem(VERSION + key(), written);
  } catch {
    return "This browser has no room for another version: take one away first, or keep the album file.";
  } finally {
    known = null;
  }
  return "";
}

/**
 * Takes one away.
 * @param {string} named
 */
export function takeAway(named) {
  try {
    localStorage.removeItem(VERSION + named);
  } catch {
    // Then nothing is kept anyway.
  }
  known = null;
}

/**
 * Takes all away that are of an album which is off the table.
 * @param {number} id
 */
export const forget = (id) => { for (const one of versions(id)) takeAway(one.key); };

const given = (/** @type {Data} */ keys) => Object.entries(keys).flatMap(([name, at]) => {
  const says = drawings.text(at);
  return says === null ? [] : [{ name, text: says }];
});

/**
 * A version with all that belongs to it, as a question takes it.
 * @param {KeptVersion} one
 */
export const belongings = ({ name, text: says, drawings: keys, files }) => ({
  name, text: says, drawings: given(keys), files: files.map((file) => ({ ...file, drawings: given(file.drawings) })),
});

/** The albums whose versions go into the zip. */
const packs = new Set();

/** @param {number} id */
export const isPacked = (id) => packs.has(id);

/**
 * Whether an album's versions go into its zip.
 * @param {number} id
 * @param {boolean} wanted
 */
export function pack(id, wanted) {
  if (wanted) packs.add(id);
  else packs.delete(id);
}

/**
 * The versions that go into an album's zip, each called by its day and its name.
 * @param {number} id
 */
export const packed = (id) => (isPacked(id) ? versions(id).map((one) => ({ ...belongings(one), called: `${one.when.slice(0, 10)} ${one.called}` })) : []);
