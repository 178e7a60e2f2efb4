// SPDX-License-Identifier: MIT
// Files that are opened or dropped: albums, batches with their albums, drawers, cutters, own kinds, drawings, zips that hold such.

import { ask } from "./ask.js";
import { bringVersions, isOfVersion } from "./broughtversions.js";
import { isDrawing, isPicture, kept, names } from "./drawings.js";
import * as keep from "./keep.js";
import { isZip, unzip } from "./unzip.js";

const LARGEST = 1_000_000;
/** A report of a large order, or a drawing. */
const LARGEST_OTHER = 8_000_000;
/** Kinds of files that lie beside albums. */
const SIDE = ["drawer", "cutter", "kind", "measured"];
const ZIP = 200_000_000;
/**
 * Every file, or what is in it, as { name, bytes }; what is refused is told in `refused`.
 * @param {File[]} files
 * @param {string[]} refused
 */
async function unpacked(files, refused, report = false) {
  /** @type {NamedBytes[]} */
  const all = [];
  for (const file of files) {
    if (file.size > ZIP) {
      refused.push(`${file.name} is too large: an album file has some KB.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (isZip(bytes)) {
      const inside = await unzip(bytes, report).catch(() => []);
      if (!inside.some((one) => !isDrawing(one.name))) refused.push(`${file.name} holds no album and no batch file.`);
      all.push(...inside.map((one) => ({ ...one, zipped: true })));
    } else if (file.size > (report || isDrawing(file.name) ? LARGEST_OTHER : LARGEST)) refused.push(`${file.name} is too large: an album file has some KB.`);
    else all.push({ name: file.name, bytes });
  }
  return all;
}

/**
 * Drawings and pictures by name, with what they are kept as.
 * @param {NamedBytes[]} files
 * @returns {Promise<GivenDrawing[]>}
 */
const drawingsOf = (files) => Promise.all(files.filter((one) => isDrawing(one.name)).map(async ({ name, bytes }) => ({ name, text: await kept(name, bytes) })));
/**
 * @param {GivenDrawing[]} drawings
 * @param {string} text
 */
const named = (drawings, text) => drawings.filter((one) => names(text, one.name));

/**
 * Keeps drawings with what lies on the table and names them; says which nobody names.
 * @param {GivenDrawing[]} drawings
 * @param {string[]} refused
 */
function draw(drawings, refused) {
  const here = keep.current();
  const all = [...(here ? [here] : []), ...(here?.batch ? keep.albums().filter((one) => !one.batch) : []), ...keep.kinds()];
  let drawn = 0;
  for (const drawing of drawings) {
    const by = all.filter((one) => named([drawing], one.text).length);
    for (const one of by) keep.draw(one.id, drawing.name, drawing.text);
    drawn += by.length;
    if (!by.length) refused.push(`${drawing.name} is a ${isPicture(drawing.name) ? "picture that nothing here names: choose it at its stock, under “Card, paper and board”" : "drawing that nothing here names: choose it at an insert of the kind “Shape”"}.`);
  }
  return drawn;
}

/** @param {string} name */
const none = (name) => `${name} is no album file, and was not put on the table. An album file is a text that begins with {.`;

/**
 * A file's text, and what kind of file it is; nothing where it is no such file.
 * @returns {Promise<ReadFile | null>}
 */
async function read(/** @type {NamedBytes} */ { name, bytes }) {
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
  const answer = await ask("work", { name, text });
  return answer.other ? null : { name, text, batch: Boolean(answer.batch), kind: SIDE.includes(answer.kind) ? answer.kind : null };
}

/**
 * Puts files on the table, what others name first; a batch lies uppermost, else the last album, unless `beside` wants the table left as
 * it is. `as` says what files are that can't be told by what they say. Gives the names that the albums have there, drawers and cutters,
 * what was refused, and the machine's settings that lay in a zip.
 * @param {File[]} files
 * @param {boolean} [beside]
 * @param {string | null} [as]
 */
export async function bring(files, beside = false, as = null) {
  /** @type {string[]} */
  const refused = [];
  /** @type {(ReadFile & { zipped?: boolean })[]} */
  const known = [];
  const inside = await unpacked(files, refused);
  const all = inside.filter((one) => !isOfVersion(one));
  const drawings = await drawingsOf(all);
  for (const file of all.filter((one) => !isDrawing(one.name))) {
    const one = await read(file);
    if (one) known.push({ ...one, zipped: file.zipped, kind: one.kind ?? (one.batch ? null : as) });
    else refused.push(none(file.name));
  }
  const left = keep.current()?.id;
  /** @type {Data} */
  const names = {};
  /** @type {Data} */
  const laid = {};
  for (const one of known.filter((one) => one.kind)) names[one.name] = keep.open(one.name, one.text, { kind: one.kind, drawn: named(drawings, one.text) }).name;
  // In a zip the cutter that nothing names is the machine's own.
  const own = known.findLast((one) => one.zipped && one.kind === "cutter" && !known.some((other) => other !== one && other.text.includes(JSON.stringify(one.name))));
  const machine = own ? names[own.name] : null;
  const brought = { albums: /** @type {string[]} */ ([]), batches: /** @type {string[]} */ ([]) };
  for (const one of known.filter((one) => !one.kind).sort((one, other) => Number(one.batch) - Number(other.batch))) {
    // What lay in another folder is called by its name alone here.
    const answer = await ask("work", { name: one.name, text: one.text, change: { do: "call-files", names: { ...keep.names(), ...names }, folder: known.filter((side) => side.kind === "kind").map((side) => names[side.name]) } });
    const text = answer.text ?? one.text;
    const { name } = keep.open(one.name, text, { batch: one.batch, drawn: named(drawings, text) });
    if (!one.batch) names[one.name] = name;
    laid[one.name] = name;
    brought[one.batch ? "batches" : "albums"].push(name);
  }
  const count = brought.albums.length + brought.batches.length;
  await bringVersions(inside.filter(isOfVersion), laid, refused);
  if ((beside || !count) && left && !brought.batches.length) keep.choose(left);
  /** @param {string} kind */
  const of = (kind) => known.filter((one) => one.kind === kind).map((one) => names[one.name]);
  const drawn = count ? 0 : draw(drawings, refused);
  return { names: brought.albums, drawers: of("drawer"), cutters: of("cutter"), measured: of("measured"), kinds: of("kind"), refused, brought: count, drawn, machine };
}

/**
 * Files as one thing to compare with, which is not put on the table: a batch, an album, a report, with the files that belong to it.
 * @param {File[]} files
 */
export async function opened(files) {
  /** @type {string[]} */
  const refused = [];
  const all = await unpacked(files, refused, true);
  const drawings = await drawingsOf(all);
  /** @type {Record<string, (GivenFile & { text: string })[]>} */
  const sorts = { batch: [], album: [], report: [], drawer: [], cutter: [], kind: [], measured: [] };
  for (const { name, bytes } of all.filter((one) => !isDrawing(one.name))) {
    const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
    const [, sort] = /"format"\s*:\s*"hingeleaf-(album|batch|report|drawer|cutter|kind|measured)\//.exec(text) ?? [];
    if (sort) sorts[sort].push({ name, text, drawings: named(drawings, text), ...(SIDE.includes(sort) ? { kind: sort } : {}) });
  }
  const [one] = [...sorts.batch, ...sorts.album, ...sorts.report];
  if (!one) return { file: null, refused };
  if (!sorts.batch.length && sorts.album.length > 1) refused.push(`There are several albums among these files: ${one.name} is what is compared with.`);
  // A report lies beside every kit, under the same name.
  const called = sorts.report.includes(one) && files.length === 1 ? files[0].name : one.name;
  const albums = sorts.batch.includes(one) ? sorts.album : [];
  return { file: { ...one, called, files: [...albums, ...SIDE.flatMap((kind) => sorts[kind])] }, refused };
}
