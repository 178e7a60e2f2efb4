// SPDX-License-Identifier: MIT
// What hands do: typing, choosing, dragging, keys; each becomes a change of the album or of what is shown.

import { fetchFile } from "./ask.js";
import { bring } from "./bring.js";
import * as compare from "./compare.js";
import * as drawn from "./drawn.js";
import { asksOwn, drafts, idOf, own } from "./fields.js";
import { DRAWER, DRAWER_FORMS } from "./drawers.js";
import { BATCH, BATCH_FORMS } from "./kits.js";
import * as keep from "./keep.js";
import * as likeness from "./likeness.js";
import { LARGE, open as openLarge } from "./large.js";
import { MACHINE, MACHINE_FORMS, choose as chooseMachine, fileOfMachine } from "./machines.js";
import { save, typing } from "./make.js";
import { again, asked, callOff, change, drawPage, letGo, look, render, rest, say, state, trouble, unask } from "./main.js";

const focus = (id) => document.getElementById(id)?.focus();
const pages = () => state.view?.album?.pages?.length ?? 0;

function choosePage(at, key) {
  state.chosen = at;
  if (at >= 0) state.at = at;
  render();
  if (state.drawn?.way !== `pages[${at}]`) drawPage();
  if (key) focus(`page-${at}`);
}

/** Opens a page's form where it is seen, with the focus in it. */
function openPage(at) {
  choosePage(at);
  document.getElementById("chosen-title")?.focus({ preventScroll: true });
  bringIntoView(document.getElementById("chosen"));
}

/** Scrolls no further than it takes to see all of it, or else its beginning. */
function bringIntoView(what) {
  if (!what) return;
  const line = document.getElementById("line").getBoundingClientRect();
  const atFoot = line.top > innerHeight / 2;
  const [top, foot] = atFoot ? [0, line.top] : [Math.max(line.bottom, 0), innerHeight];
  const box = what.getBoundingClientRect();
  const by = Math.min(box.bottom + 12 - foot, box.top - 12 - top);
  if (box.top < top || box.bottom > foot) scrollBy(0, by);
}

function movePage(from, to, byKey) {
  if (to < 0 || to >= pages() || from === to) return;
  // At once, so that the next key already speaks of the new place.
  choosePage(to, byKey);
  change({ do: "move", list: "pages", from, to }, () => {
    say(`Page ${from + 1} is page ${to + 1} now. ${state.view.fit.sentence}`);
  });
}

function takePage(at) {
  change({ do: "take", path: `pages[${at}]` }, () => choosePage(Math.min(at, pages() - 1), true));
}

function undo(back) {
  if (!keep.current()) return;
  // What is not part of the album yet goes first.
  if (back && (unask() || drafts.size)) drafts.clear();
  else if (!keep.step(back)) return;
  callOff();
  drafts.clear();
  render();
  change(null, () => say(`${back ? "Undone" : "Done again"}. ${state.view.fit?.sentence ?? ""}`));
}

const albumFile = () => {
  const { name, text } = keep.current();
  save(text, name, "application/json");
};

async function takeAway(name, question, kind) {
  state.failed = "";
  say(`Making ${name} …`);
  // What is typed belongs to it, or is in the way.
  await rest();
  if (drafts.size || !state.view?.sheets) {
    say("Nothing can be taken away before that is mended.");
    return;
  }
  callOff();
  try {
    save(await fetchFile(question.file ? "file" : "kit", asked(question)), name, kind);
    say(`${name} is saved.`);
  } catch (error) {
    trouble(error);
  }
}

const stem = () => keep.current().name.replace(/\.json$/i, "") || "album";

const DOES = {
  choose: (data) => {
    const at = Number(data.at);
    if (at === state.chosen) choosePage(-1);
    else openPage(at);
  },
  "other-sheet": ({ way }) => {
    const all = document.querySelectorAll("#sheets .stock [data-path]");
    ([...all].find((one) => one.dataset.path === way) ?? all[0])?.focus();
  },
  "show-fit": () => focus("fit-title"),
  ...LARGE,
  earlier: () => movePage(state.chosen, state.chosen - 1),
  later: () => movePage(state.chosen, state.chosen + 1),
  copy: () => change({ do: "copy", list: "pages", at: state.chosen }, () => choosePage(state.chosen + 1)),
  "take-page": () => takePage(state.chosen),
  take: (data) => change({ do: "take", path: data.way }, () => document.querySelector(`#part-${data.way.startsWith("stocks") ? "papers" : data.way.split("[")[0]} summary`)?.focus()),
  panels: () => change({ do: "panels" }),
  ...BATCH,
  ...drawn.DRAWN,
  ...likeness.LIKENESS,
  ...compare.COMPARED,
  ...DRAWER,
  ...MACHINE,
  mend: (data) => change(data.typed ? { do: "set", path: data.way, typed: data.typed } : { do: "mend", path: data.way, eighths: Number(data.eighths) }, () => {
    // What was pressed is gone: on to the field that was mended, or to what is said now.
    const field = document.getElementById(idOf(data.way));
    (field?.checkVisibility() ? field : document.getElementById("fit-title"))?.focus();
  }),
  "let-go": (data) => {
    letGo(data.way);
    state.failed = "";
    render();
    say(`Let go. ${state.view.fit.sentence}`);
    focus(idOf(data.way));
  },
  "mend-all": () => change({ do: "mend-all" }, () => focus("fit-title")),
  "page-size": (data) => change({ do: "page-size", width: Number(data.width), height: Number(data.height) }),
  undo: () => undo(true),
  redo: () => undo(false),
  example: (data) => {
    const example = state.start.examples[Number(data.at)];
    keep.open(example.name, example.text);
    look();
  },
  starter: (data) => {
    keep.open("my-album.json", state.start.starters[data.units]);
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
  file: (data) => takeAway(data.file.split("/").at(-1), { file: data.file }, "application/octet-stream"),
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

function ask(where, words, yes, does) {
  state.asks = { where, words, yes, does };
  render();
  document.querySelector(".asks button")?.focus();
}

const SUBMITS = {
  ...BATCH_FORMS,
  ...DRAWER_FORMS,
  ...MACHINE_FORMS,
  "add-page": (form) => {
    const kind = form.querySelector("select").value;
    const at = state.chosen >= 0 ? state.chosen + 1 : pages();
    change({ do: "add", list: "pages", at, kind }, () => choosePage(at, true));
  },
  "add-insert": (form) => change({ do: "add", list: "inserts", at: state.view.album.inserts.length, kind: form.querySelector("select").value }),
  "add-edge": (form) => {
    const [on, cut] = [...form.querySelectorAll("select")].map((select) => select.value);
    change({ do: "add-edge", path: form.dataset.way, on, cut });
  },
  "add-stock": (form) => {
    const name = form.querySelector("input");
    if (name.value.trim()) change({ do: "stock", name: name.value.trim() }, () => { name.value = ""; });
    else name.focus();
  },
  "use-text": (form) => {
    const { id, text } = keep.current();
    keep.put(id, keep.key(), text, form.querySelector("textarea").value, "text");
    drafts.clear();
    change();
  },
};

/** The file that a field is of: the drawer's and the machine's own lie beside the album. */
const fileOf = (path) => (path.startsWith("drawer.") ? keep.file(state.view.drawer.name) : /^(cutter|measured)\./.test(path) ? fileOfMachine(path) : keep.current());

/** A field's new value. */
function set(control) {
  const path = control.dataset.path;
  typing.path = path;
  change({ do: "set", path, typed: control.value }, null, fileOf(path));
}

/** Puts files on the table; to be kits, where it is a batch that lies there. */
async function openFiles(files, asKits = false) {
  if (!files.length) return;
  const before = keep.current();
  try {
    const { names, drawers, cutters, measured, kinds, refused, brought, drawn, machine } = await bring([...files], asKits);
    const other = machine !== null && keep.machine().name !== machine;
    if (other) keep.setMachine("name", machine);
    if (other) state.opened = "The machine’s settings are those that this zip was taken away with.";
    if (brought && (!asKits || keep.current()?.id !== before?.id)) look();
    else if (brought && state.view?.batch && !state.view.unread) for (const album of names) change({ do: "add-kit", album });
    // What was missing may have been in another folder.
    else if (brought || (state.view?.unread && before)) change({ do: "call-files", names: keep.names(), folder: kinds });
    else if (kinds.length && before && !state.view?.batch) for (const name of kinds) change({ do: "add-kind-file", name });
    else if (drawers.length && before) change({ do: "set", path: "drawer", typed: drawers.at(-1) });
    else if (cutters.length && before) {
      state.opened = `${cutters.join(", ")} is on the table now, and can be chosen as your machine or a group’s.`;
      change({ do: "call-files", names: keep.names() });
    } else if (drawn || measured.length) change();
    const waits = before || brought ? [] : [...drawers, ...cutters, ...kinds].map((name) => `${name} is on the table now, for albums that name it: open one, too.`);
    state.failed = [...refused, ...waits].join(" ");
    render();
  } catch (error) {
    trouble(error);
  }
}

/** A cutter's file for a group of makers, a drawer's for what is shown: it is what is named then. */
async function openSide(files, kind, path) {
  try {
    const found = await bring([...files], true, kind);
    const name = found[`${kind}s`].at(-1);
    if (name && path === "machine") chooseMachine(name);
    else if (name) change({ do: "set", path, typed: name }, () => focus(idOf(path)));
    state.failed = [...found.refused, ...(name ? [] : [`There is no ${kind} file among these.`])].join(" ");
    render();
  } catch (error) {
    trouble(error);
  }
}

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
  else if (control.id === "new-page" || control.id === "new-insert") {
    state[control.id === "new-page" ? "newPage" : "newInsert"] = control.value;
    render();
  }
  else if (control.dataset.drawing) drawn.choose(control.dataset.drawing, control.files[0]).then(() => { control.value = ""; });
  else if (control.dataset.likeness) likeness.choose(control.dataset.likeness, control.files[0]).then(() => { control.value = ""; });
  else if (control.id === "compare-with") compare.choose(control.value);
  else if (control.id === "compare-file") compare.chooseFiles(control.files).then(() => { control.value = ""; });
  else if (control.id === "file") openFiles(control.files);
  else if (control.id === "kit-file") openFiles(control.files, true);
  else if (control.dataset.side) openSide(control.files, control.dataset.side, control.dataset.for);
}

function keys(event) {
  const inText = event.target.closest?.("input:not([type=checkbox]), textarea");
  if ((event.ctrlKey || event.metaKey) && !inText && !event.altKey) {
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      undo(key === "z" && !event.shiftKey);
    }
  }
  const onTitle = event.target.id === "chosen-title";
  if (event.key === "Escape" && event.target.closest?.("#chosen") && !event.target.matches("select")) {
    const at = state.chosen;
    choosePage(-1);
    focus(`page-${at}`);
    return;
  }
  const page = event.target.closest?.(".strip button");
  if (!page && !(onTitle && (event.altKey || event.key === "Delete"))) return;
  const at = page ? Number(page.dataset.at) : state.chosen;
  const by = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
  if (by) {
    event.preventDefault();
    if (event.altKey) movePage(at, at + by, true);
    else focus(`page-${Math.min(Math.max(at + by, 0), pages() - 1)}`);
  } else if (event.key === "Delete") {
    event.preventDefault();
    takePage(at);
  }
}

let dragged = -1;

function drag(event) {
  const place = event.target.closest?.(".strip li");
  const own = dragged >= 0;
  if (event.type === "dragstart" && place) {
    dragged = Number(place.dataset.at);
    event.dataTransfer.effectAllowed = "move";
    event.dataTransfer.setData("text/plain", `Page ${dragged + 1}`);
  } else if (event.type === "dragover") {
    if (own ? place : event.dataTransfer.types.includes("Files")) event.preventDefault();
    for (const one of document.querySelectorAll(".strip .over")) if (one !== place) one.classList.remove("over");
    if (own) place?.classList.add("over");
    else document.body.classList.add("dropping");
  } else if (event.type === "drop") {
    event.preventDefault();
    if (own && place) movePage(dragged, Number(place.dataset.at));
    else if (!own) openFiles(event.dataTransfer.files, Boolean(keep.current()?.batch));
  }
  if (event.type === "drop" || event.type === "dragend" || (event.type === "dragleave" && !event.relatedTarget)) {
    if (event.type !== "dragleave") dragged = -1;
    document.body.classList.remove("dropping");
    for (const one of document.querySelectorAll(".strip .over")) one.classList.remove("over");
  }
}

/** Listens to everything on the page. */
export function watch() {
  document.addEventListener("click", (event) => {
    const control = event.target.closest("button[data-do]");
    if (!control || control.getAttribute("aria-disabled") === "true") return;
    if (control.dataset.do === "large") openLarge(control);
    else DOES[control.dataset.do]?.(control.dataset);
  });
  document.addEventListener("submit", (event) => {
    event.preventDefault();
    SUBMITS[event.target.dataset.do]?.(event.target);
  });
  document.addEventListener("input", (event) => {
    if (event.target.matches("input[type=text][data-path]")) set(event.target);
  });
  document.addEventListener("change", (event) => {
    if (!event.target.matches("input[type=text]")) chosen(event.target);
  });
  // A field that is left shows what the file says; what is not taken stays with what is wrong with it.
  document.addEventListener("focusout", (event) => {
    typing.path = null;
    if (event.target.matches("input[data-path]") && !drafts.has(event.target.dataset.path)) setTimeout(render, 0);
  });
  document.addEventListener("focusin", (event) => {
    const page = event.target.closest?.(".strip button");
    if (!page || Number(page.dataset.at) === state.at) return;
    state.at = Number(page.dataset.at);
    for (const one of document.querySelectorAll(".strip button")) {
      if (one === page) one.removeAttribute("tabindex");
      else one.tabIndex = -1;
    }
  });
  document.addEventListener("keydown", keys);
  for (const type of ["dragstart", "dragover", "dragleave", "drop", "dragend"]) document.addEventListener(type, drag);
}
