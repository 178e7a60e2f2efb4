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
 * Whether a file is a drawing or a picture, by its name: what lies beside the file that names it and is kept with that.
 * @param {string} name
 */
export const isDrawing = (name) => /\.(svg|dxf)$/i.test(name) || isPicture(name);

/**
 * Whether a file is a picture of points, by its name.
 * @param {string} name
 */
export const isPicture = (name) => /\.(png|jpe?g)$/i.test(name);

/** Pictures of more bytes than this are made smaller: a browser keeps some MB in all. */
const LARGE = 600_000;
/** Their longest side is then so many points. */
const SIDE = 1600;

/**
 * What a drawing or picture is kept as: its letters, or an address that holds it. Letters that are no UTF-8 stand in names alone.
 * @param {string} name
 * @param {Uint8Array<ArrayBuffer>} bytes
 * @returns {Promise<string>}
 */
export async function kept(name, bytes) {
  if (!isPicture(name)) return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
  return address((bytes.length > LARGE ? await smaller(bytes).catch(() => null) : null) ?? new Blob([bytes], { type: bytes[0] === 0x89 ? "image/png" : "image/jpeg" }));
}

/**
 * A picture no larger than is seen, upright.
 * @param {Uint8Array<ArrayBuffer>} bytes
 * @returns {Promise<Blob | null>}
 */
async function smaller(bytes) {
  const whole = await createImageBitmap(new Blob([bytes]));
  const scale = Math.min(1, SIDE / Math.max(whole.width, whole.height));
  const canvas = Object.assign(document.createElement("canvas"), { width: Math.round(whole.width * scale), height: Math.round(whole.height * scale) });
  const drawn = canvas.getContext("2d");
  if (!drawn) return null;
  drawn.fillStyle = "#FFFFFF";
  drawn.fillRect(0, 0, canvas.width, canvas.height);
  drawn.drawImage(whole, 0, 0, canvas.width, canvas.height);
  return new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.86));
}

/**
 * @param {Blob} blob
 * @returns {Promise<string>}
 */
const address = (blob) => new Promise((done, fail) => {
  const reader = new FileReader();
  reader.onload = () => done(String(reader.result));
  reader.onerror = () => fail(reader.error);
  reader.readAsDataURL(blob);
});

/**
 * The bytes of what is kept, to be taken away.
 * @param {string} text
 */
export function bytesOf(text) {
  const held = /^data:image\/[a-z]+;base64,(.*)$/.exec(text);
  return held ? Uint8Array.from(atob(held[1]), (letter) => letter.charCodeAt(0)) : text;
}

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
