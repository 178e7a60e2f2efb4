// SPDX-License-Identifier: MIT
// What is taken away: the album's file, the kit's, all of it in one zip.

import { fetchFile } from "./ask.js";
import { asked } from "./asked.js";
import { drafts } from "./fields.js";
import { callOff } from "./follow.js";
import * as keep from "./keep.js";
import { rest } from "./queue.js";
import { save } from "./save.js";
import { say, state, trouble } from "./shown.js";
import { packed } from "./versionstore.js";

/** The file of what lies on the table. */
export const albumFile = () => {
  const { name, text } = keep.onTable();
  save(text, name, "application/json");
};

/**
 * One file or a zip of them, as the command line makes it.
 * @param {string} name
 * @param {{ file?: string; formats?: string[] }} question
 * @param {string} kind
 */
export async function takeAway(name, question, kind) {
  state.failed = "";
  say(`Making ${name} …`);
  // What is typed belongs to it, or is in the way.
  await rest();
  if (drafts.size || !state.view?.sheets) {
    say("Nothing can be taken away before that is mended.");
    return;
  }
  callOff();
  try {
    // Versions are no part of the kit: they lie in the zip of everything, where that is wanted.
    const versions = question.file || question.formats ? [] : packed(keep.onTable().id);
    save(await fetchFile(question.file ? "file" : "kit", asked({ ...question, ...(versions.length ? { versions } : {}) })), name, kind);
    say(`${name} is saved.`);
  } catch (error) {
    trouble(error);
  }
}

/** What it is called without the ending. */
export const stem = () => keep.onTable().name.replace(/\.json$/i, "") || "album";
