// SPDX-License-Identifier: MIT
// One step back, or forth again.

import { drafts } from "./fields.js";
import { callOff } from "./follow.js";
import * as keep from "./keep.js";
import { change, unask } from "./queue.js";
import { render, say, state } from "./shown.js";

/**
 * Takes back the last step, or does it again.
 * @param {boolean} back
 */
export function undo(back) {
  if (!keep.current()) return;
  // What is not part of the album yet goes first.
  if (back && (unask() || drafts.size)) drafts.clear();
  else if (!keep.step(back)) return;
  callOff();
  drafts.clear();
  render();
  change(null, () => say(`${back ? "Undone" : "Done again"}. ${state.view?.fit?.sentence ?? ""}`));
}
