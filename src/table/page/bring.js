// SPDX-License-Identifier: MIT
// Files that are opened or dropped: albums, batches with their albums, zips that hold such.

import { ask } from "./ask.js";
import * as keep from "./keep.js";
import { isZip, unzip } from "./unzip.js";

const LARGEST = 1_000_000;
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
  for (const file of await unpacked(files, refused)) {
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
  for (const one of known.filter((one) => !one.batch)) names[one.name] = keep.open(one.name, one.text).name;
  const batches = known.filter((one) => one.batch);
  for (const one of batches) {
    let { text } = one;
    if (Object.entries(names).some(([name, own]) => name !== own)) {
      const answer = await ask("work", { name: one.name, text, change: { do: "call-albums", names } });
      text = answer.text ?? text;
    }
    keep.open(one.name, text, { batch: true });
  }
  if ((beside || !known.length) && left && !batches.length) keep.choose(left);
  return { names: Object.values(names), refused, brought: known.length, machine: batches.length ? machine : null };
}
