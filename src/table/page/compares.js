// SPDX-License-Identifier: MIT
// What hands do about comparing: choosing what with, bringing in files, taking the sheets to cut again.

import { fetchFile } from "./ask.js";
import { opened } from "./bring.js";
import { against, compares, held, isOfVersion } from "./compare.js";
import { follow } from "./follow.js";
import * as keep from "./keep.js";
import { rest } from "./queue.js";
import { save } from "./save.js";
import { render, say, state, trouble } from "./shown.js";

/**
 * Compares with what was chosen.
 * @param {string} value
 */
export function choose(value) {
  // What is compared with itself is compared with nothing.
  Object.assign(held, { with: value, of: value === held.of ? "" : held.of, answer: null, done: "", failed: "" });
  begin();
}

/**
 * Compares this: the album as it stands, or a version.
 * @param {string} value
 */
export function chooseOf(value) {
  Object.assign(held, { of: value, with: value && value === held.with ? "" : held.with, answer: null, done: "", failed: "" });
  begin();
}

function begin() {
  render();
  if (held.with && state.view && (isOfVersion() || !state.view.fit?.stopped)) follow();
}

/**
 * Compares with files that were brought in.
 * @param {File[]} files
 */
export async function chooseFiles(files) {
  if (!files.length) return;
  const { file, refused } = await opened([...files]);
  if (!file) {
    held.failed = refused.join(" ") || "There is no album, batch or report among these files.";
    say(held.failed);
    render();
    return;
  }
  held.brought = file;
  choose("brought");
  held.failed = refused.join(" ");
  render();
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const COMPARED = {
  recut: async () => {
    const name = `${keep.onTable().name.replace(/\.json$/i, "")}-again.zip`;
    say(`Making ${name} …`);
    await rest();
    const old = against();
    const question = compares({ against: old });
    if (!old || held.text !== question.text) return;
    try {
      save(await fetchFile("recut", question), name, "application/zip");
      say(`${name} is saved.`);
    } catch (error) {
      trouble(error);
    }
  },
};
