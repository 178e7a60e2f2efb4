// SPDX-License-Identifier: MIT
// What hands do to the machine's settings: each becomes a change of its cutter file, or of which file that is.

import { fetchFile } from "./ask.js";
import { asked } from "./asked.js";
import { firstOf, focus, focusOn } from "./at.js";
import { drafts } from "./fields.js";
import * as keep from "./keep.js";
import { change, rest } from "./queue.js";
import { save } from "./save.js";
import { render, say, shown, start, state, trouble } from "./shown.js";

const USUAL = "my-cutter.json";
const READINGS = "measured.json";
const cutter = () => keep.file(keep.machine().name);

/** The machine's cutter file; what is first said of a machine begins one. */
function begun() {
  if (!cutter()) keep.useCutter(keep.open(USUAL, start().cutter, { kind: "cutter", fresh: true }).name);
  return /** @type {KeptFile} */ (cutter());
}

/**
 * The file that a setting, or a reading, is kept in.
 * @param {string} path
 */
export const fileOfMachine = (path) => (path.startsWith("measured.")
  ? keep.measured() ?? /** @type {KeptFile} */ (keep.file(keep.open(READINGS, start().measured, { kind: "measured", fresh: true }).name))
  : begun());

/**
 * Another cutter file is the machine's.
 * @param {string} name
 */
export function choose(name) {
  keep.setMachine("name", name);
  change();
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const MACHINE = {
  "keep-cutter": () => {
    const one = cutter();
    if (one) save(one.text, one.name, "application/json");
  },
  "forget-cutter": () => {
    state.asks = { where: "cutter", words: "Forget this machine? What is not kept as a file is lost.", yes: "Forget it", does: "forget-cutter-it" };
    render();
    focusOn(".asks button");
  },
  "forget-cutter-it": () => {
    state.asks = null;
    const { name } = keep.machine();
    keep.setMachine("name", "");
    keep.forgetFile(name);
    change(null, () => focus("new-cutter"));
  },
  "use-measured": async () => {
    // What is typed belongs to it.
    await rest();
    const { text } = shown().machine.measured;
    if (drafts.size || !text) return;
    const file = begun();
    keep.put(file.id, keep.key(), file.text, text, "measured");
    say(`${file.name} has what was measured.`);
    change(null, () => focus("cutter-file"));
  },
  "keep-measured": () => save(shown().machine.measured.text ?? "", cutter()?.name ?? USUAL, "application/json"),
};

/**
 * What forms do.
 * @type {Submitting}
 */
export const MACHINE_FORMS = {
  "new-cutter": (form) => {
    const [name, from] = [firstOf(form, "input"), firstOf(form, "select").value];
    const called = name.value.trim().replace(/[\\/:*?"<>|.\u0000-\u001f]/g, "-").slice(0, 60);
    if (!called) {
      name.focus();
      return;
    }
    const text = from === "now" ? cutter()?.text : start().cutters[Number(from || -1)]?.text;
    const made = keep.open(`${called}.json`, text ?? start().cutter, { kind: "cutter", fresh: true });
    name.value = "";
    choose(made.name);
  },
  "test-piece": async (form) => {
    const name = "test-piece.zip";
    say(`Making ${name} …`);
    await rest();
    try {
      save(await fetchFile("coupon", asked({ sheet: firstOf(form, "select").value })), name, "application/zip");
      say(`${name} is saved.`);
    } catch (error) {
      trouble(error);
    }
  },
};
