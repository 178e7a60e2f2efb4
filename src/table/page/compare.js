// SPDX-License-Identifier: MIT
// The file on the table beside an earlier edition of it: as it was opened, another one on the table, or a file or report brought in.

import { ask, fetchFile } from "./ask.js";
import { opened } from "./bring.js";
import { button, make, save } from "./make.js";
import * as keep from "./keep.js";
import { asked, follow, render, rest, say, state, trouble } from "./main.js";
import { findings } from "./found.js";
import { laid } from "./results.js";

const NONE = { with: "", brought: null, text: "", answer: null, asking: false, failed: "" };
const held = { ...NONE };

/** What another file on the table is compared with is not what this one is. */
export const forget = () => Object.assign(held, NONE);

/** What is compared with, as the program takes it; nothing where nothing is chosen, or it is not there any more. */
function against() {
  const one = keep.current();
  if (!one) return null;
  if (held.with === "origin") return { ...keep.origin(one), called: `${one.name} as it was opened` };
  if (held.with === "brought") return held.brought;
  const other = keep.album(Number(held.with));
  return other && other.id !== one.id ? keep.belongings(other) : null;
}

/** Asks what changed, where something is chosen to compare with. */
export async function compared(stop) {
  const old = against();
  if (!old) return;
  const { text } = keep.current();
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

/** The section. */
export function compare(state) {
  const { view } = state;
  const what = view.batch ? "batch" : "album";
  const one = keep.current();
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

function result(view) {
  if (!held.with) return null;
  if (view.fit.stopped) return make("p", { class: "calm" }, "Nothing is compared until what stops it is mended.");
  const { answer } = held;
  const old = held.text !== keep.current().text;
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

/** Sentences, and what stands under each. */
const list = (told) => (told.length ? make("ul", { class: "told-all" }, told.map((one) => make("li", {}, one.under.length ? make("strong", {}, one.text) : one.text, list(one.under)))) : null);

/** Compares with what was chosen. */
export function choose(value) {
  Object.assign(held, { with: value, answer: null, failed: "" });
  render();
  if (value && state.view && !state.view.fit.stopped) follow();
}

/** Compares with files that were brought in. */
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

/** What buttons do. */
export const COMPARED = {
  recut: async () => {
    const name = `${keep.current().name.replace(/\.json$/i, "")}-again.zip`;
    say(`Making ${name} …`);
    await rest();
    const old = against();
    if (!old || held.text !== keep.current().text) return;
    try {
      save(await fetchFile("recut", asked({ against: old })), name, "application/zip");
      say(`${name} is saved.`);
    } catch (error) {
      trouble(error);
    }
  },
};
