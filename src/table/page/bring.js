// SPDX-License-Identifier: MIT
// Files that are opened or dropped: albums, batches with their albums, drawings, zips that hold such.

import { ask } from "./ask.js";
import { isDrawing, names } from "./drawings.js";
import * as keep from "./keep.js";
import { isZip, unzip } from "./unzip.js";

const LARGEST = 1_000_000;
/** A report of a large order, or a drawing. */
const LARGEST_OTHER = 6_000_000;
const ZIP = 200_000_000;
/** What a zip of this page calls the settings of the machine. */
const SETTINGS = "my-cutter.json";

/** The machine's settings as the page keeps them. */
function settings(bytes) {
  try {
    const all = JSON.parse(new TextDecoder().decode(bytes));
    return Object.fromEntries(["kerf", "margin", "gap"].map((name) => [name, String(all[name] ?? "")]));
  } catch {
    return null;
  }
}

/** Every file, or what is in it, as { name, bytes }; what is refused is told in `refused`. */
async function unpacked(files, refused, report = false) {
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
      all.push(...inside.map((one) => ({ ...one, settings: one.name === SETTINGS })));
    } else if (file.size > (report || isDrawing(file.name) ? LARGEST_OTHER : LARGEST)) refused.push(`${file.name} is too large: an album file has some KB.`);
    else all.push({ name: file.name, bytes });
  }
  return all;
}

/** Drawings by name, with what they hold: letters that are no UTF-8 stand in names alone. */
const drawingsOf = (files) => files.filter((one) => isDrawing(one.name)).map(({ name, bytes }) => ({ name, text: new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes) }));
const named = (drawings, text) => drawings.filter((one) => names(text, one.name));

/** Keeps drawings with what lies on the table and names them; says which nobody names. */
function draw(drawings, refused) {
  const here = keep.current();
  const all = [here, ...(here?.batch ? keep.albums().filter((one) => !one.batch) : [])].filter(Boolean);
  let drawn = 0;
  for (const drawing of drawings) {
    const by = all.filter((one) => named([drawing], one.text).length);
    for (const one of by) keep.draw(one.id, drawing.name, drawing.text);
    drawn += by.length;
    if (!by.length) refused.push(`${drawing.name} is a drawing that nothing here names: choose it at an insert of the kind “Shape”.`);
  }
  return drawn;
}

const none = (name) => `${name} is no album file, and was not put on the table. An album file is a text that begins with {.`;

/** A file's text, and whether it is a batch; nothing where it is no such file. */
async function read({ name, bytes }) {
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
  const answer = await ask("work", { name, text });
  return answer.other ? null : { name, text, batch: Boolean(answer.batch) };
}

/**
 * Puts files on the table, the albums first; a batch lies uppermost, else the last one, unless `beside` wants the table left as it is.
 * Gives the names that the albums have there, what was refused, and the machine's settings that a batch came with.
 */
export async function bring(files, beside = false) {
  const refused = [];
  const known = [];
  let machine = null;
  const all = await unpacked(files, refused);
  const drawings = drawingsOf(all);
  for (const file of all.filter((one) => !isDrawing(one.name))) {
    if (file.settings) {
      machine = settings(file.bytes);
      continue;
    }
    const one = await read(file);
    if (!one) refused.push(none(file.name));
    else known.push(one);
  }
  const names = {};
  const left = keep.current()?.id;
  for (const one of known.filter((one) => !one.batch)) names[one.name] = keep.open(one.name, one.text, { drawn: named(drawings, one.text) }).name;
  const batches = known.filter((one) => one.batch);
  for (const one of batches) {
    let { text } = one;
    if (Object.entries(names).some(([name, own]) => name !== own)) {
      const answer = await ask("work", { name: one.name, text, change: { do: "call-albums", names } });
      text = answer.text ?? text;
    }
    keep.open(one.name, text, { batch: true, drawn: named(drawings, text) });
  }
  if ((beside || !known.length) && left && !batches.length) keep.choose(left);
  const drawn = known.length ? 0 : draw(drawings, refused);
  return { names: Object.values(names), refused, brought: known.length, drawn, machine: known.length ? machine : null };
}

/** Files as one thing to compare with, which is not put on the table: a batch with its albums, an album with its drawings, a report. */
export async function opened(files) {
  const refused = [];
  const all = await unpacked(files, refused, true);
  const drawings = drawingsOf(all);
  const sorts = { batch: [], album: [], report: [] };
  for (const { name, bytes } of all.filter((one) => !isDrawing(one.name) && !one.settings)) {
    const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
    const [, sort] = /"format"\s*:\s*"hingeleaf-(album|batch|report)\//.exec(text) ?? [];
    if (sort) sorts[sort].push({ name, text, drawings: named(drawings, text) });
  }
  const [one] = [...sorts.batch, ...sorts.album, ...sorts.report];
  if (!one) return { file: null, refused };
  if (!sorts.batch.length && sorts.album.length > 1) refused.push(`There are several albums among these files: ${one.name} is what is compared with.`);
  // A report lies beside every kit, under the same name.
  const called = sorts.report.includes(one) && files.length === 1 ? files[0].name : one.name;
  return { file: { ...one, called, ...(sorts.batch.includes(one) ? { albums: sorts.album } : {}) }, refused };
}
