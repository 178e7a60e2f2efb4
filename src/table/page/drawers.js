// SPDX-License-Identifier: MIT
// What hands do to a drawer: each becomes a change of its file, or of which drawer it is.

import { fetchFile } from "./ask.js";
import { asked } from "./asked.js";
import { control, firstOf, focus, focusOn } from "./at.js";
import { drafts } from "./fields.js";
import * as keep from "./keep.js";
import { change, letGo, rest } from "./queue.js";
import { save } from "./save.js";
import { render, say, shown, start, state, trouble } from "./shown.js";

const file = () => /** @type {KeptFile} */ (keep.file(shown().drawer.name));
const summary = () => focusOn("#part-drawer summary");

/**
 * What buttons do.
 * @type {Doing}
 */
export const DRAWER = {
  "new-drawer": () => {
    const { name } = keep.open("drawer.json", start().drawer, { kind: "drawer", fresh: true });
    change({ do: "set", path: "drawer", typed: name }, () => focus("lies-stock"));
  },
  "take-lying": ({ way }) => change({ do: "take", path: way }, () => focus("lies-stock"), file()),
  "keep-drawer": () => save(file().text, file().name, "application/json"),
  "drawer-after": async () => {
    const { name } = shown().drawer;
    say(`Making ${name} …`);
    // What is typed belongs to it, or is in the way.
    await rest();
    if (drafts.size || !state.view?.sheets) return;
    try {
      save(await fetchFile("file", asked({ file: "drawer-after.json" })), name, "application/json");
      say(`${name} is saved as it is after the job.`);
    } catch (error) {
      trouble(error);
    }
  },
  "forget-drawer": () => {
    state.asks = { where: "drawer", words: "Take this drawer off the table? What is not kept as a file is lost.", yes: "Take it off", does: "forget-drawer-it" };
    render();
    focusOn(".asks button");
  },
  "forget-drawer-it": () => {
    state.asks = null;
    const { name, own } = shown().drawer;
    letGo("drawer");
    keep.forgetFile(name);
    if (own) change({ do: "set", path: "drawer", typed: "" }, summary);
    else change(null, summary);
  },
};

/**
 * What forms do.
 * @type {Submitting}
 */
export const DRAWER_FORMS = {
  lies: () => {
    const [stock, sheet, count] = ["stock", "sheet", "count"].map((field) => control(`lies-${field}`));
    change({ do: "lies", stock: stock.value, sheet: sheet.value, count: count.value }, () => {
      sheet.value = "";
      count.value = "";
      sheet.focus();
    }, file());
  },
  "use-drawer-text": (form) => {
    const { id, text } = file();
    letGo("drawer");
    keep.put(id, keep.key(), text, firstOf(form, "textarea").value, "text");
    change();
  },
};
