// SPDX-License-Identifier: MIT
// What hands do: typing, choosing, dragging, keys; each becomes a change of the album or of what is shown.

import { firstOf, focus, focusOn } from "./at.js";
import { typing } from "./become.js";
import { again } from "./begins.js";
import * as compare from "./compares.js";
import * as drawn from "./drawn.js";
import { DRAWER, DRAWER_FORMS } from "./drawers.js";
import { asksOwn, drafts, idOf, own } from "./fields.js";
import { drawPart } from "./follow.js";
import { drag, keys } from "./keys.js";
import { BATCH, BATCH_FORMS } from "./kits.js";
import * as keep from "./keep.js";
import * as likeness from "./likeness.js";
import { LARGE, open as openLarge } from "./large.js";
import { MACHINE, MACHINE_FORMS, choose as chooseMachine, fileOfMachine } from "./machines.js";
import { openFiles, openSide } from "./opens.js";
import { OFFERED } from "./offers.js";
import { choosePage, movePage, openPage, takePage } from "./pages.js";
import { change, letGo, look } from "./queue.js";
import { album, render, say, shown, start, state } from "./shown.js";
import { albumFile, stem, takeAway } from "./takes.js";
import { undo } from "./undo.js";
import { VERSIONS, VERSION_FORMS } from "./versions.js";
import { pack } from "./versionstore.js";


/** @type {Doing} */
const DOES = {
  choose: (data) => {
    const at = Number(data.at);
    if (at === state.chosen) choosePage(-1);
    else openPage(at);
  },
  "other-sheet": ({ way }) => {
    const all = /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("#sheets .stock [data-path]"));
    ([...all].find((one) => one.dataset.path === way) ?? all[0])?.focus();
  },
  "show-fit": () => focus("fit-title"),
  ...LARGE,
  ...OFFERED,
  together: () => {
    state.together = !state.together;
    render();
    const { pages: all, groups } = album().album;
    const group = groups.find((one) => one.kind === all[state.chosen].kind);
    if (group && state.together) say(`${group.label}. ${group.sentence}`);
  },
  earlier: () => movePage(state.chosen, state.chosen - 1),
  later: () => movePage(state.chosen, state.chosen + 1),
  copy: () => change({ do: "copy", list: "pages", at: state.chosen }, () => choosePage(state.chosen + 1)),
  "take-page": () => takePage(state.chosen),
  take: (data) => change({ do: "take", path: data.way }, () => focusOn(`#part-${data.way.startsWith("stocks") ? "papers" : data.way.split("[")[0]} summary`)),
  panels: () => change({ do: "panels" }),
  ...BATCH,
  ...drawn.DRAWN,
  ...likeness.LIKENESS,
  ...compare.COMPARED,
  ...DRAWER,
  ...MACHINE,
  ...VERSIONS,
  mend: (data) => change(data.typed ? { do: "set", path: data.way, typed: data.typed } : { do: "mend", path: data.way, eighths: Number(data.eighths) }, () => {
    // What was pressed is gone: on to the field that was mended, or to what is said now.
    const field = document.getElementById(idOf(data.way));
    (field?.checkVisibility() ? field : document.getElementById("fit-title"))?.focus();
  }),
  "let-go": (data) => {
    letGo(data.way);
    state.failed = "";
    render();
    say(`Let go. ${shown().fit.sentence}`);
    focus(idOf(data.way));
  },
  "mend-all": () => change({ do: "mend-all" }, () => focus("fit-title")),
  "page-size": (data) => change({ do: "page-size", width: Number(data.width), height: Number(data.height) }),
  undo: () => undo(true),
  redo: () => undo(false),
  example: (data) => {
    const example = start().examples[Number(data.at)];
    keep.open(example.name, example.text);
    look();
  },
  starter: (data) => {
    keep.open("my-album.json", start().starters[data.units]);
    look();
  },
  back: () => {
    state.starting = false;
    render();
  },
  again,
  keep: albumFile,
  print: () => window.print(),
  kit: (data) => takeAway(data.formats ? `${stem()}-${data.formats}.zip` : `${stem()}.zip`, data.formats ? { formats: [data.formats] } : {}, "application/zip"),
  file: (data) => takeAway(data.file.split("/").at(-1) ?? "", { file: data.file }, "application/octet-stream"),
  forget: () => ask("album", `Take this ${keep.current()?.batch ? "batch" : "album"} off the table? What is not kept as a file is lost.`, "Take it off", "forget-it"),
  "forget-it": () => {
    state.asks = null;
    keep.forget();
    look();
  },
  quit: () => ask("end", "End the program? This browser keeps the albums for this address only: keep the album file to have it anywhere.", "End it", "quit-it"),
  "quit-it": async () => {
    state.asks = null;
    await fetch("quit", { method: "POST", body: "{}" }).catch(() => {});
    state.gone = true;
    render();
  },
  no: () => {
    state.asks = null;
    render();
  },
};

/**
 * @param {string} where
 * @param {string} words
 * @param {string} yes
 * @param {string} does
 */
function ask(where, words, yes, does) {
  state.asks = { where, words, yes, does };
  render();
  focusOn(".asks button");
}

/** @type {Submitting} */
const SUBMITS = {
  ...BATCH_FORMS,
  ...DRAWER_FORMS,
  ...MACHINE_FORMS,
  ...VERSION_FORMS,
  "add-insert": (form) => change({ do: "add", list: "inserts", at: album().album.inserts.length, kind: firstOf(form, "select").value }),
  "add-edge": (form) => {
    const [on, cut] = [...form.querySelectorAll("select")].map((select) => select.value);
    change({ do: "add-edge", path: form.dataset.way, on, cut });
  },
  "add-stock": (form) => {
    const name = firstOf(form, "input");
    if (name.value.trim()) change({ do: "stock", name: name.value.trim() }, () => { name.value = ""; });
    else name.focus();
  },
  "use-text": (form) => {
    const { id, text } = keep.onTable();
    keep.put(id, keep.key(), text, firstOf(form, "textarea").value, "text");
    drafts.clear();
    change();
  },
};

/**
 * The file that a field is of: the drawer's and the machine's own lie beside the album.
 * @param {string} path
 */
const fileOf = (path) => (path.startsWith("drawer.") ? keep.file(shown().drawer.name) : /^(cutter|measured)\./.test(path) ? fileOfMachine(path) : keep.current());

/**
 * A field's new value.
 * @param {HTMLInputElement} control
 */
function set(control) {
  const path = control.dataset.path ?? "";
  typing.path = path;
  change({ do: "set", path, typed: control.value }, null, fileOf(path));
}

const filesOf = (/** @type {HTMLInputElement} */ control) => [...control.files ?? []];

/** @param {HTMLInputElement} control */
function chosen(control) {
  if (control.dataset.path) {
    if (asksOwn(control)) {
      own.add(control.dataset.path);
      render();
      focus(control.id);
    } else set(control);
  } else if (control.dataset.kind) {
    const path = control.dataset.kind;
    change(control.value ? { do: "kind", path, kind: control.value } : { do: "take", path });
  } else if (control.dataset.picks) {
    change({ do: "set", path: control.dataset.picks, typed: control.value.toUpperCase() }, null, fileOf(control.dataset.picks));
  } else if ("machine" in control.dataset) {
    chooseMachine(control.value);
  } else if ("trimmer" in control.dataset) {
    keep.setMachine("trimmer", control.checked);
    change();
  } else if (control.id === "which") {
    if (control.value === "new") {
      state.starting = true;
      render();
    } else {
      keep.choose(Number(control.value));
      look();
    }
  } else if (control.id === "units") change({ do: "units", units: control.value });
  else if (control.id === "new-insert") {
    state.newInsert = control.value;
    render();
  }
  else if (control.dataset.drawing) drawn.choose(control.dataset.drawing, control.files?.[0]).then(() => { control.value = ""; });
  else if (control.dataset.likeness) likeness.choose(control.dataset.likeness, control.files?.[0]).then(() => { control.value = ""; });
  else if (control.id === "compare-of") compare.chooseOf(control.value);
  else if (control.id === "pack-versions") pack(keep.onTable().id, control.checked);
  else if (control.id === "compare-with") compare.choose(control.value);
  else if (control.id === "compare-file") compare.chooseFiles(filesOf(control)).then(() => { control.value = ""; });
  else if (control.id === "file") openFiles(filesOf(control));
  else if (control.id === "kit-file") openFiles(filesOf(control), true);
  else if (control.dataset.side) openSide(filesOf(control), control.dataset.side, control.dataset.for ?? "");
}

/** What something happened to: a control, or what lies about it. */
const on = (/** @type {Event} */ event) => /** @type {HTMLInputElement} */ (event.target);

/** Listens to everything on the page. */
export function watch() {
  document.addEventListener("click", (event) => {
    const control = /** @type {HTMLElement | null} */ (on(event).closest("button[data-do]"));
    if (!control || control.getAttribute("aria-disabled") === "true") return;
    if (control.dataset.do === "large") openLarge(control);
    // As it says now: while the answer is on its way, the button may become another one.
    else DOES[control.dataset.do ?? ""]?.(/** @type {Data} */ ({ ...control.dataset }));
  });
  document.addEventListener("submit", (event) => {
    event.preventDefault();
    const form = /** @type {HTMLFormElement} */ (event.target);
    SUBMITS[form.dataset.do ?? ""]?.(form);
  });
  document.addEventListener("input", (event) => {
    if (on(event).matches("input[type=text][data-path]")) set(on(event));
  });
  document.addEventListener("change", (event) => {
    if (!on(event).matches("input[type=text]")) chosen(on(event));
  });
  // A field that is left shows what the file says; what is not taken stays with what is wrong with it.
  document.addEventListener("focusout", (event) => {
    typing.path = null;
    if (on(event).matches("input[data-path]") && !drafts.has(on(event).dataset.path ?? "")) setTimeout(render, 0);
  });
  document.addEventListener("focusin", (event) => {
    const page = /** @type {HTMLElement | null} */ (on(event).closest?.(".leaf"));
    if (!page || Number(page.dataset.at) === state.at) return;
    state.at = Number(page.dataset.at);
    for (const one of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".leaf"))) {
      if (one === page) one.removeAttribute("tabindex");
      else one.tabIndex = -1;
    }
  });
  // What is unfolded is drawn; the event goes to the part alone.
  document.addEventListener("toggle", (event) => {
    const part = /^part-(spine|cover)$/.exec(on(event).id)?.[1];
    if (part) drawPart(part);
  }, true);
  document.addEventListener("keydown", keys);
  for (const type of ["dragstart", "dragover", "dragleave", "drop", "dragend"]) document.addEventListener(type, drag);
}
