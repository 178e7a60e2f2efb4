// SPDX-License-Identifier: MIT
// The album and batch files with their drawings in a zip that was taken away from here.

import { isOfVersion } from "./broughtversions.js";
import { isDrawing } from "./drawings.js";

const LARGEST = 1_000_000;
/** A drawing, and the report of a large order, may be larger. */
const LARGEST_OTHER = 8_000_000;
const MOST = 200;
const REPORT = "report.json";

/**
 * Whether bytes are a zip.
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
export const isZip = (bytes) => bytes.length > 22 && bytes[0] === 0x50 && bytes[1] === 0x4b;

/**
 * The JSON files and drawings that lie at its top, the report among them where it is wanted: [{ name, bytes }].
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
export async function unzip(bytes, report = false) {
  const at = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && at.getUint32(end, true) !== 0x06054b50) end -= 1;
  /** @type {NamedBytes[]} */
  const found = [];
  if (end < 0) return found;
  let entry = at.getUint32(end + 16, true);
  for (let count = at.getUint16(end + 10, true); count > 0 && found.length < MOST; count -= 1) {
    if (entry + 46 > bytes.length || at.getUint32(entry, true) !== 0x02014b50) break;
    const [method, packed, size] = [at.getUint16(entry + 10, true), at.getUint32(entry + 20, true), at.getUint32(entry + 24, true)];
    const [named, more, noted] = [28, 30, 32].map((field) => at.getUint16(entry + field, true));
    const from = at.getUint32(entry + 42, true);
    const name = new TextDecoder().decode(bytes.subarray(entry + 46, entry + 46 + named));
    entry += 46 + named + more + noted;
    const wanted = isDrawing(name) || (name === REPORT ? report : name.endsWith(".json"));
    const largest = isDrawing(name) || name === REPORT ? LARGEST_OTHER : LARGEST;
    if (!wanted || (name.includes("/") && (report || !isOfVersion({ name }))) || size > largest || from + 30 > bytes.length) continue;
    const start = from + 30 + at.getUint16(from + 26, true) + at.getUint16(from + 28, true);
    const held = bytes.subarray(start, start + packed);
    if (method === 0) found.push({ name, bytes: held });
    else if (method === 8) found.push({ name, bytes: await inflated(held, size) });
  }
  return found;
}

/**
 * @param {Uint8Array<ArrayBuffer>} bytes
 * @param {number} size
 */
async function inflated(bytes, size) {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  const reader = stream.getReader();
  const out = new Uint8Array(size);
  let filled = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return out.subarray(0, filled);
    // What is longer than it says is not read on.
    if (filled + value.length > size) throw new Error("the zip is not whole");
    out.set(value, filled);
    filled += value.length;
  }
}
