// SPDX-License-Identifier: MIT
// What is found of the album or the batch: signs, and sentences with the buttons that mend them.

import { capital, letGoButton, mendButton, sentence } from "./fields.js";
import { button, make } from "./make.js";

const WORDS = { stop: "Stops", warn: "Warning", note: "Note" };

/**
 * A sign of the gravest finding, with its word.
 * @param {Finding[]} list
 */
export function mark(list) {
  const gravest = /** @type {const} */ (["stop", "warn"]).find((level) => list.some((one) => one.level === level));
  return gravest ? make("span", { class: `mark ${gravest}` }, WORDS[gravest]) : null;
}

/**
 * Findings as a list, each with the button that mends it.
 * @param {Finding[]} list
 */
export function findings(list) {
  if (!list.length) return null;
  return make("ul", { class: "findings" }, list.map((one) => make("li", { class: one.level },
    make("p", {},
      make("span", { class: `mark ${one.level}` }, WORDS[one.level]), " ",
      one.about ? make("strong", {}, `${one.named ? one.about : capital(one.about)}: `) : null, `${one.text}.`),
    one.file && one.line ? make("p", {}, `${one.file}, line ${one.line}, column ${one.column}: `, one.written ? make("code", {}, one.written.trim()) : null) : null,
    one.measured && one.allowed ? make("p", { class: "sizes" }, `Measured ${one.measured}, allowed ${one.allowed}.`) : null,
    one.help && !one.mend ? make("p", { class: "about" }, sentence(one.help)) : null,
    one.id === "too-big" ? make("div", { class: "does" },
      one.sheet ? button(one.sheet.words, "mend", { class: "mend", "data-way": one.sheet.path, "data-typed": one.sheet.typed }) : null,
      button("Choose another sheet", "other-sheet", { "data-way": one.sheet?.path })) : null,
    one.letGo ? make("p", {}, letGoButton(one.letGo, one.about ?? "")) : null,
    one.mend ? make("p", {}, mendButton(one)) : null)));
}
