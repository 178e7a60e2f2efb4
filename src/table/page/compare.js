// SPDX-License-Identifier: MIT
// The file on the table beside an earlier edition of it: as it was opened, another one on the table, or a file or report brought in.

import { ask, Refused } from "./ask.js";
import { asked } from "./asked.js";
import * as keep from "./keep.js";
import { findings } from "./found.js";
import { button, make } from "./make.js";
import { laid } from "./results.js";
import { render, say } from "./shown.js";
import { listed } from "./version.js";
import * as store from "./versionstore.js";

/** @type {{ of: string, done: string, with: string, brought: GivenFile | null, text: string, answer: Compared | null, asking: boolean, failed: string }} */
const NONE = { of: "", done: "", with: "", brought: null, text: "", answer: null, asking: false, failed: "" };
/** What is compared with, and what came of it. */
export const held = { ...NONE };

/** What another file on the table is compared with is not what this one is. */
export const forget = () => Object.assign(held, NONE);

/** The version that a choice is; none where it is something else, or is not there any more. */
const versionOf = (/** @type {string} */ choice) => (choice.startsWith("version ") ? store.version(choice.slice("version ".length)) : null);

/** Whether it is a version that is compared, and not what lies on the table. */
export const isOfVersion = () => Boolean(versionOf(held.of));

/** A question about what is compared. */
export const compares = (/** @type {Asking} */ more) => {
  const version = versionOf(held.of);
  return version ? { ...store.belongings(version), machine: keep.told(), ...more } : asked(more);
};

/** What is compared with, as the program takes it; nothing where nothing is chosen, or it is not there any more. */
export function against() {
  const one = keep.current();
  if (!one) return null;
  if (held.with === "origin") return { ...keep.origin(one), called: `${one.name} as it was opened` };
  if (held.with === "brought") return held.brought;
  const version = versionOf(held.with);
  if (version) return { ...store.belongings(version), called: `the version “${version.called}”` };
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
  const question = compares({ against: old });
  // Two versions are what they were, whatever is changed meanwhile.
  const done = versionOf(held.of) ? JSON.stringify([question.text, old, question.machine]) : "";
  if (done && done === held.done) return;
  held.asking = true;
  render();
  try {
    const answer = await ask("compare", question, stop);
    if (stop.aborted) return;
    Object.assign(held, { text: question.text, answer, done, failed: "" });
    say(answer.trouble ?? answer.told[0].text);
  } catch (error) {
    if (!(error instanceof Refused) || !versionOf(held.of)) throw error;
    Object.assign(held, { answer: null, done: "", failed: `${listed(/** @type {KeptVersion} */ (versionOf(held.of)))}: ${error.message}` });
    say(held.failed);
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
  const versions = store.versions(one.id).toReversed();
  const options = [["", "nothing yet"], ["origin", `${one.name} as it was opened`],
    ...(held.brought ? [["brought", `${held.brought.called}, brought in`]] : []),
    ...versions.filter((version) => `version ${version.key}` !== held.of).map((version) => [`version ${version.key}`, listed(version)]),
    ...others.map((other) => [String(other.id), other.title ? `${other.title} (${other.name})` : other.name])];
  return make("section", { id: "compare", "data-key": "compare", "aria-labelledby": "compare-title" },
    make("h2", { id: "compare-title", tabindex: "-1" }, "What changed since an earlier edition?"),
    make("div", { class: "more-kits" },
      versions.length ? make("div", { class: "field" },
        make("label", { for: "compare-of" }, "Compare"),
        make("select", { id: "compare-of" }, [["", `this ${what} as it stands`], ...versions.map((version) => [`version ${version.key}`, listed(version)])].map(([value, label]) => make("option", { value, selected: value === held.of }, label)))) : null,
      make("div", { class: "field" },
        make("label", { for: "compare-with" }, versions.length ? "with" : `Compare this ${what} with`),
        make("select", { id: "compare-with" }, options.map(([value, label]) => make("option", { value, selected: value === held.with }, label)))),
      make("span", { class: "file" }, make("label", { for: "compare-file", class: "as-button" }, "Bring in an old file or report"), make("input", { type: "file", id: "compare-file", accept: ".json,.zip,.svg,.dxf,application/json,application/zip", multiple: true }))),
    make("p", { class: "about" }, "The report.json that lies beside every kit that was made will do, and so will a zip that was taken away. What is brought in here is not put on the table."),
    held.failed ? make("p", { class: "wrong" }, held.failed) : null,
    result(view));
}

/** @param {Shown} view */
function result(view) {
  if (!held.with) return null;
  const version = versionOf(held.of);
  if (view.fit.stopped && !version) return make("p", { class: "calm" }, "Nothing is compared until what stops it is mended.");
  const { answer } = held;
  const old = held.text !== (version ?? keep.onTable()).text;
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
 * @returns {Sketch | null}
 */
const list = (told) => (told.length ? make("ul", { class: "told-all" }, told.map((one) => make("li", {}, one.under.length ? make("strong", {}, one.text) : one.text, list(one.under)))) : null);
