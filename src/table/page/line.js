// SPDX-License-Identifier: MIT
// The line that is always there: the album's name, whether it goes together, sheets and cost, undo.

import { drafts, waits } from "./fields.js";
import { button, make } from "./make.js";

/**
 * How it stands: `bad` where something stops it, `may` where something may disappoint, else `good`.
 * @param {Fit} fit
 */
export const standing = (fit) => (fit.stopped ? "bad" : fit.findings.some((one) => one.level === "warn") ? "may" : "good");

/**
 * The line; nothing where no album or batch is shown.
 * @param {State} state
 * @param {Keep} keep
 */
export function line(state, keep) {
  const { view } = state;
  if (!view || view.unread || state.starting) return null;
  const shown = view.album ?? view.batch;
  const { fit, sheets } = view;
  return [
    make("p", { class: "name" }, shown.title),
    make("p", { class: `verdict ${standing(fit)}` }, fit.sentence),
    // Of what waits for the program, nothing is known.
    sheets && !(state.gone && waits.size) ? make("p", { class: "takes" }, sheets.line) : null,
    make("div", { class: "steps-back" },
      fit.findings.some((one) => one.level !== "note") ? button(["Show me", make("span", { class: "unseen" }, " what it is")], "show-fit") : null,
      button("Undo", "undo", { "aria-disabled": keep.canUndo() || state.waiting || drafts.size ? null : "true", "aria-keyshortcuts": "Control+Z" }),
      button("Redo", "redo", { "aria-disabled": keep.canRedo() ? null : "true", "aria-keyshortcuts": "Control+Shift+Z" })),
  ];
}
