// SPDX-License-Identifier: MIT
// What drawings hold: each text once, kept in this browser under a key of its own, so that no change of an album writes it anew.

const PLACE = "hingeleaf-table-drawing-";
/** What this window had to do with; it stays while the window is open, whatever the browser keeps. */
/** @type {Map<string, string | null>} */
const known = new Map();

/**
 * A number of 53 bits from a text.
 * @param {string} text
 */
function digest(text) {
  let [one, two] = [0xdeadbeef, 0x41c6ce57];
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    one = Math.imul(one ^ code, 2654435761);
    two = Math.imul(two ^ code, 1597334677);
  }
  one = Math.imul(one ^ (one >>> 16), 2246822507) ^ Math.imul(two ^ (two >>> 13), 3266489909);
  two = Math.imul(two ^ (two >>> 16), 2246822507) ^ Math.imul(one ^ (one >>> 13), 3266489909);
  return 4294967296 * (2097151 & two) + (one >>> 0);
}

/**
 * What is kept under a key; nothing where it is not there.
 * @param {string} key
 */
export function text(key) {
  if (!known.has(key)) {
    try {
      known.set(key, localStorage.getItem(PLACE + key));
    } catch {
      return null;
    }
  }
  return known.get(key) ?? null;
}

/**
 * Keeps a text. Gives its key, and whether the browser took it.
 * @param {string} what
 */
export function lay(what) {
  const stem = `${digest(what).toString(36)}-${what.length}`;
  let key = stem;
  for (let number = 2; (text(key) ?? what) !== what; number += 1) key = `${stem}-${number}`;
  known.set(key, what);
  try {
    localStorage.setItem(PLACE + key, what);
    return { key, stored: true };
  } catch {
    return { key, stored: false };
  }
}

/**
 * Lets go of what nobody names any more.
 * @param {Set<string>} named
 */
export function letGo(named) {
  try {
    for (const place of Object.keys(localStorage)) if (place.startsWith(PLACE) && !named.has(place.slice(PLACE.length))) localStorage.removeItem(place);
  } catch {
    // Then nothing is kept anyway.
  }
}

/**
 * Whether a file is a drawing, by its name.
 * @param {string} name
 */
export const isDrawing = (name) => /\.(svg|dxf)$/i.test(name);

/**
 * A name without the folders before it.
 * @param {string} name
 */
export const bare = (name) => name.split(/[/\\]/).at(-1) ?? name;

/**
 * Whether a file's text may name a drawing; letters may stand in it as numbers.
 * @param {string} file
 * @param {string} name
 */
export const names = (file, name) => file.includes(`${bare(name)}"`) || file.includes("\\u");
