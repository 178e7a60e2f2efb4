// SPDX-License-Identifier: MIT
// What hands do to a drawer: each becomes a change of its file, or of which drawer it is.

import { drafts } from "./fields.js";
import * as keep from "./keep.js";
import { save } from "./make.js";
import { asked, change, letGo, render, rest, say, state, trouble } from "./main.js";
import { fetchFile } from "./ask.js";

const focus = (id) => document.getElementById(id)?.focus();
const file = () => keep.file(state.view.drawer.name);
const summary = () => document.querySelector("#part-drawer summary")?.focus();

/** What buttons do. */
export const DRAWER = {
  "new-drawer": () => {
    const { name } = keep.open("drawer.json", state.start.drawer, { kind: "drawer", fresh: true });
    change({ do: "set", path: "drawer", typed: name }, () => focus("lies-stock"));
  },
  "take-lying": ({ way }) => change({ do: "take", path: way }, () => focus("lies-stock"), file()),
  "keep-drawer": () => save(file().text, file().name, "application/json"),
  "drawer-after": async () => {
    const { name } = state.view.drawer;
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
    document.querySelector(".asks button")?.focus();
  },
  "forget-drawer-it": () => {
    state.asks = null;
    const { name, own } = state.view.drawer;
    letGo("drawer");
    keep.forgetFile(name);
    if (own) change({ do: "set", path: "drawer", typed: "" }, summary);
    else change(null, summary);
  },
};

/** What forms do. */
export const DRAWER_FORMS = {
  lies: () => {
    const [stock, sheet, count] = ["stock", "sheet", "count"].map((field) => document.getElementById(`lies-${field}`));
    change({ do: "lies", stock: stock.value, sheet: sheet.value, count: count.value }, () => {
      sheet.value = "";
      count.value = "";
      sheet.focus();
    }, file());
  },
  "use-drawer-text": (form) => {
    const { id, text } = file();
    letGo("drawer");
    keep.put(id, keep.key(), text, form.querySelector("textarea").value, "text");
    change();
  },
};
