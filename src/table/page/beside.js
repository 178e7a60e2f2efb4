// SPDX-License-Identifier: MIT
// What lies on the table, by its sorts; and what belongs to one file: all that comes with a question about it.

import * as drawings from "./drawings.js";
import { table } from "./kept.js";

/** What can be shown by itself: albums and batches. */
export const albums = () => table.held.albums.filter((one) => !one.kind);
/** @param {number} id */
export const album = (id) => table.held.albums.find((one) => one.id === id) ?? null;
/** The files of kinds. */
export const kinds = () => table.held.albums.filter((one) => one.kind === "kind");
/**
 * A drawer or a cutter by its name.
 * @param {string} name
 */
export const file = (name) => table.held.albums.find((one) => one.kind && one.name === name) ?? null;
/** What files are called that a file may name, each by its name. */
export const names = () => Object.fromEntries(table.held.albums.filter((one) => !one.batch).map(({ name }) => [name, name]));
export const current = () => albums().find((one) => one.id === table.shown) ?? null;
/**
 * Whether the change of this key is in an album's text.
 * @param {number} id
 * @param {string} key
 */
export const has = (id, key) => Boolean(album(id)?.did.includes(key));
/** The machine; a file of it that is off the table is none. */
export const machine = () => ({ ...table.held.machine, name: file(table.held.machine.name)?.kind === "cutter" ? table.held.machine.name : "" });
/** The cutter files, each a machine's settings by its name. */
export const cutters = () => table.held.albums.filter((one) => one.kind === "cutter");
/** What was read off a test piece. */
export const measured = () => table.held.albums.find((one) => one.kind === "measured") ?? null;
/** The machine as the program is told of it. */
export function told() {
  const { name, trimmer } = machine();
  return { name, text: file(name)?.text ?? "", measured: measured()?.text ?? "", trimmer };
}

/**
 * The files that lie beside one: a batch's albums, drawers, cutters; those that it names, or that what is wanted does, or that these
 * name in turn, with what they hold. Which these are is for the program to say: here it is enough that no other's text is sent along.
 * @param {KeptFile} one
 * @param {Wanted | null} [wanted]
 */
export function beside(one, wanted = null) {
  const { others, needed } = needs(one, one.text + JSON.stringify(wanted ?? ""), "text");
  return others.map((other) => ({ ...called(other), ...(needed.has(other) ? { text: other.text, drawings: given(other) } : {}) }));
}

const called = (/** @type {Pick<KeptFile, "name" | "kind">} */ { name, kind }) => ({ name, ...(kind ? { kind } : {}) });

/**
 * The files that may lie beside one, and those of them that are named in what is `said`, or that these name in turn.
 * @param {KeptFile} one
 * @param {string} said
 * @param {"text" | "origin"} what
 */
export function needs(one, said, what) {
  const others = table.held.albums.filter((other) => other !== one && !other.batch && (one.batch || other.kind));
  /** @type {Set<KeptFile>} */
  const needed = new Set();
  for (let deep = 0; deep < 2; deep += 1) {
    for (const other of others.filter((other) => !needed.has(other) && said.includes(JSON.stringify(other.name)))) {
      needed.add(other);
      said += other[what];
    }
  }
  return { others, needed };
}

/**
 * @param {Data} keys
 * @param {string} file
 */
const listed = (keys, file) => Object.entries(keys)
  .map(([name, key]) => ({ name, text: drawings.text(key) ?? null }))
  .filter(/** @returns {one is GivenDrawing} */ (one) => one.text !== null && drawings.names(file, one.name));

/**
 * The drawings that a file names, or that what is wanted does.
 * @param {KeptFile} one
 * @param {Wanted | null} [wanted]
 */
export const given = (one, wanted = null) => listed(one.drawings, one.text + JSON.stringify(wanted ?? ""));

/**
 * A file on the table with all that belongs to it, as it is now.
 * @param {KeptFile} one
 */
export const belongings = (one) => ({ name: one.name, text: one.text, drawings: given(one), files: beside(one) });

/**
 * The same as it was when it was put on the table.
 * @param {KeptFile} one
 */
export function origin(one) {
  /** @param {KeptFile} other */
  const was = (other) => ({ ...called(other), text: other.origin, drawings: listed(other.origins, other.origin) });
  return { ...was(one), files: [...needs(one, one.origin, "origin").needed].map(was) };
}

/** What the answers about what is shown depend on besides its own text. */
export function besides() {
  const one = current();
  return one ? JSON.stringify([beside(one), told()]) : "";
}
