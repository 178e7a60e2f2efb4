// SPDX-License-Identifier: MIT
// Files that are opened or dropped: albums, batches with their albums, drawers, cutters, zips that hold such.

import { ask } from "./ask.js";
import * as keep from "./keep.js";
import { isZip, unzip } from "./unzip.js";

const LARGEST = 1_000_000;
/** Kinds of files that lie beside albums. */
const SIDE = ["drawer", "cutter"];
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
async function unpacked(files, refused) {
  const all = [];
  for (const file of files) {
    if (file.size > ZIP) {
      refused.push(`${file.name} is too large: an album file has some KB.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (isZip(bytes)) {
      const inside = await unzip(bytes).catch(() => []);
      if (!inside.length) refused.push(`${file.name} holds no album and no batch file.`);
      all.push(...inside.map((one) => ({ ...one, settings: one.name === SETTINGS })));
    } else if (file.size > LARGEST) refused.push(`${file.name} is too large: an album file has some KB.`);
    else all.push({ name: file.name, bytes });
  }
  return all;
}

const none = (name) => `${name} is no album file, and was not put on the table. An album file is a text that begins with {.`;

/** A file's text, and what kind of file it is; nothing where it is no such file. */
async function read({ name, bytes }) {
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
 */
export async function bring(files, beside = false, as = null) {
  const refused = [];
  const known = [];
  let machine = null;
  for (const file of await unpacked(files, refused)) {
    if (file.settings) {
      machine = settings(file.bytes);
      continue;
    }
    const one = await read(file);
    if (one) known.push({ ...one, kind: one.kind ?? (one.batch ? null : as) });
    else refused.push(none(file.name));
  }
  const left = keep.current()?.id;
  const names = {};
  for (const one of known.filter((one) => one.kind)) names[one.name] = keep.open(one.name, one.text, { kind: one.kind }).name;
  const brought = { albums: [], batches: [] };
  for (const one of known.filter((one) => !one.kind).sort((one, other) => one.batch - other.batch)) {
    // What lay in another folder is called by its name alone here.
    const answer = await ask("work", { name: one.name, text: one.text, change: { do: "call-files", names: { ...keep.names(), ...names } } });
    const { name } = keep.open(one.name, answer.text ?? one.text, { batch: one.batch });
    if (!one.batch) names[one.name] = name;
    brought[one.batch ? "batches" : "albums"].push(name);
  }
  const count = brought.albums.length + brought.batches.length;
  if ((beside || !count) && left && !brought.batches.length) keep.choose(left);
  const of = (kind) => known.filter((one) => one.kind === kind).map((one) => names[one.name]);
  return { names: brought.albums, drawers: of("drawer"), cutters: of("cutter"), refused, brought: count, machine };
}
