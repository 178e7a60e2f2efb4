// SPDX-License-Identifier: MIT
// What hands do to a batch: each becomes a change of it.

import { ask } from "./ask.js";
import { control, firstOf, focus } from "./at.js";
import * as keep from "./keep.js";
import { change, look } from "./queue.js";
import { batch, render, state, trouble } from "./shown.js";

/** @param {string} way */
const idOf = (way) => way.replace(/[^a-z0-9]+/gi, "-").replace(/-$/, "");
/** @param {string} way */
const numberOf = (way) => Number(/\[(\d+)\]/.exec(way)?.[1]);

/** @param {string} way */
const listOf = (way) => way.split("[")[0];

/**
 * Unfolds a kit or a group, and goes to it.
 * @param {string} list
 * @param {number} at
 */
function toKit(list, at) {
  const kit = /** @type {HTMLDetailsElement | null} */ (document.getElementById(idOf(`${list}[${at}]`)));
  if (!kit) return;
  kit.open = true;
  firstOf(kit, "summary").focus();
}

/**
 * Begins a batch, or a class, of the album.
 * @param {boolean} isClass
 */
async function begin(isClass) {
  try {
    const { name, text } = keep.onTable();
    const begun = await ask("batch", { name, text, class: isClass });
    keep.open(begun.name, begun.text, { batch: true });
    look();
    scrollTo(0, 0);
  } catch (error) {
    trouble(error);
  }
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const BATCH = {
  "make-batch": () => begin(false),
  "make-class": () => begin(true),
  "add-group": () => {
    const at = batch().batch.kits.length;
    change({ do: "add-group" }, () => toKit("class.makers", at));
  },
  "copy-kit": ({ way }) => {
    state.newChange = {};
    change({ do: "copy", list: listOf(way), at: numberOf(way) }, () => toKit(listOf(way), numberOf(way) + 1));
  },
  "take-kit": ({ way }) => {
    state.newChange = {};
    change({ do: "take", path: way }, () => focus("kits-title"));
  },
  "open-album": ({ name }) => {
    const album = keep.albums().find((one) => one.name === name);
    if (!album) return;
    keep.choose(album.id);
    look();
    scrollTo(0, 0);
  },
  "take-change": ({ way, kit }) => {
    delete state.newChange[kit];
    change({ do: "take", path: way }, () => focus(`${idOf(kit)}-otherwise`));
  },
  "choose-pages": ({ way }) => change({ do: "choose", path: way }, () => focus(`${idOf(way)}-choice`)),
  "album-pages": ({ way }) => change({ do: "take", path: `${way}.choice` }, () => toKit("kits", numberOf(way))),
  "take-kind": ({ way, kit }) => change({ do: "take", path: way }, () => focus(`${idOf(kit)}-choice`)),
  "take-term": ({ way }) => change({ do: "take", path: way }, () => focus(`${way.split(".")[0]}-title`)),
};

/**
 * What forms do.
 * @type {Submitting}
 */
export const BATCH_FORMS = {
  "add-kit": (form) => {
    const at = batch().batch.kits.length;
    change({ do: "add-kit", album: firstOf(form, "select").value }, () => toKit("kits", at));
  },
  "add-change": (form) => {
    const way = form.dataset.way ?? "";
    const within = firstOf(form, "select").value;
    state.newChange[way] = within;
    render();
    /** @type {HTMLElement | null} */ (document.querySelector(`[data-path="${CSS.escape(`${way}.change.${within}`)}"]`))?.focus();
  },
  "own-paper": (form) => {
    const name = firstOf(form, "input");
    if (name.value.trim()) change({ do: "own-paper", path: form.dataset.way, like: firstOf(form, "select").value, name: name.value.trim() }, () => { name.value = ""; });
    else name.focus();
  },
  "add-kind": (form) => {
    const { way, at } = form.dataset;
    change({ do: "add", list: `${way}.choice.of`, at: Number(at), kind: firstOf(form, "select").value });
  },
  sold: (form) => {
    const { list } = form.dataset;
    const [name, of, price] = ["name", "of", "price"].map((field) => control(`${list}-${field}`));
    change({ do: "sold", list, name: name.value, of: of.value, price: price.value }, () => {
      for (const one of [name, of, price]) if (one.nodeName === "INPUT") one.value = "";
    });
  },
};
