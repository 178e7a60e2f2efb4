// SPDX-License-Identifier: MIT
// The file on the table beside an earlier edition of it: as it was opened, another one on the table, or a file or report brought in.

import { ask } from "./ask.js";
import { asked } from "./asked.js";
import { button, make } from "./make.js";
import * as keep from "./keep.js";
import { findings } from "./found.js";
import { laid } from "./results.js";
import { render, say } from "./shown.js";

/** @type {{ with: string, brought: GivenFile | null, text: string, answer: Compared | null, asking: boolean, failed: string }} */
const NONE = { with: "", brought: null, text: "", answer: null, asking: false, failed: "" };
/** What is compared with, and what came of it. */
export const held = { ...NONE };

/** What another file on the table is compared with is not what this one is. */
export const forget = () => Object.assign(held, NONE);

/** What is compared with, as the program takes it; nothing where nothing is chosen, or it is not there any more. */
export function against() {
  const one = keep.current();
  if (!one) return null;
  if (held.with === "origin") return { ...keep.origin(one), called: `${one.name} as it was opened` };
  if (held.with === "brought") return held.brought;
  const other = keep.album(Number(held.with));
  return other && other.id !== one.id ? keep.belongings(other) : null;
}

/**
 * Asks what changed, where something is chosen to compare with.
 * @param {AbortSignal} stop
 */
export async function compared(stop) {
  const old = against();
  if (!old) return;
  const { text } = keep.onTable();
  held.asking = true;
  render();
  try {
    const answer = await ask("compare", asked({ against: old }), stop);
    if (stop.aborted) return;
    Object.assign(held, { text, answer, failed: "" });
    say(answer.trouble ?? answer.told[0].text);
  } finally {
    held.asking = false;
  }
}

/**
 * The section.
 * @param {OfEither} state
 */
export function compare(state) {
  const { view } = state;
  const what = view.batch ? "batch" : "album";
  const one = keep.onTable();
  const others = keep.albums().filter((other) => other.id !== one.id);
  const options = [["", "nothing yet"], ["origin", `${one.name} as it was opened`],
    ...(held.brought ? [["brought", `${held.brought.called}, brought in`]] : []),
    ...others.map((other) => [String(other.id), other.title ? `${other.title} (${other.name})` : other.name])];
  return make("section", { id: "compare", "data-key": "compare", "aria-labelledby": "compare-title" },
    make("h2", { id: "compare-title", tabindex: "-1" }, "What changed since an earlier edition?"),
    make("div", { class: "more-kits" },
      make("div", { class: "field" },
        make("label", { for: "compare-with" }, `Compare this ${what} with`),
        make("select", { id: "compare-with" }, options.map(([value, label]) => make("option", { value, selected: value === held.with }, label)))),
      make("span", { class: "file" }, make("label", { for: "compare-file", class: "as-button" }, "Bring in an old file or report"), make("input", { type: "file", id: "compare-file", accept: ".json,.zip,.svg,.dxf,application/json,application/zip", multiple: true }))),
    make("p", { class: "about" }, "The report.json that lies beside every kit that was made will do, and so will a zip that was taken away. What is brought in here is not put on the table."),
    held.failed ? make("p", { class: "wrong" }, held.failed) : null,
    result(view));
}

/** @param {Shown} view */
function result(view) {
  if (!held.with) return null;
  if (view.fit.stopped) return make("p", { class: "calm" }, "Nothing is compared until what stops it is mended.");
  const { answer } = held;
  const old = held.text !== keep.onTable().text;
  if (!answer) return held.asking ? make("p", { class: "told" }, "Comparing …") : null;
  if (answer.trouble) return [make("p", { class: "result bad" }, `${answer.trouble}.`), findings(answer.findings)];
  const [first, ...rest] = answer.told;
  return make("div", { class: `compared${old ? " old" : ""}`, "data-key": "compared" },
    old ? make("p", { class: "told" }, "As it was before the last change: comparing again …") : null,
    make("p", { class: "result" }, first.text),
    list(rest),
    answer.sheets ? [
      make("h3", { class: "line" }, "Only what is cut again"),
      make("p", {}, `${answer.sheets.sentence} These sheets hold nothing else, and are numbered anew.`),
      answer.sheets.stocks.map((stock) => make("div", { class: "stock", "data-key": stock.name }, make("h4", {}, stock.name), laid(stock, false, false))),
      make("div", { class: "does" }, button("Only the sheets to cut again, in one zip", "recut", { class: "main", "aria-disabled": old ? "true" : null }))] : null,
    findings(answer.findings));
}

/**
 * Sentences, and what stands under each.
 * @param {Told[]} told
 * @returns {HTMLElement | null}
 */
const list = (told) => (told.length ? make("ul", { class: "told-all" }, told.map((one) => make("li", {}, one.under.length ? make("strong", {}, one.text) : one.text, list(one.under)))) : null);
