// SPDX-License-Identifier: MIT
// The page's other states: the first visit, a file that can't be read, the program gone; and the head.

import { capital, sentence, waits } from "./fields.js";
import { button, make } from "./make.js";
import { picture } from "./picture.js";

/**
 * The head: which album, and the unit.
 * @param {State} state
 * @param {Keep} keep
 */
export function head(state, keep) {
  const { view } = state;
  const album = keep.current();
  const shown = view?.unread ? null : view?.album ?? view?.batch;
  const units = waits.get("units") ?? shown?.units;
  /** @param {KeptFile} one */
  const called = (one) => `${one.batch ? "Batch: " : ""}${one.title || one.name}`;
  // Its file's name where another one is called so, too.
  /** @param {KeptFile} one */
  const title = (one) => (one.title && keep.albums().some((other) => other.id !== one.id && called(other) === called(one)) ? `${called(one)} (${one.name})` : called(one));
  const which = keep.albums().length ? make("span", { class: "which" },
    make("label", { for: "which" }, "On the table"),
    make("select", { id: "which" },
      keep.albums().map((one) => make("option", { value: one.id, selected: one.id === album?.id && !state.starting }, title(one))),
      make("option", { value: "new", selected: state.starting }, "another one …"))) : null;
  if (state.starting || !shown?.units) return [make("p", { class: "name" }, "Hingeleaf"), which];
  return [
    make("p", { class: "name" }, "Hingeleaf"),
    which,
    make("span", { class: "units" },
      make("label", { for: "units" }, "Measured in"),
      make("select", { id: "units" }, ["mm", "cm", "in"].map((unit) => make("option", { value: unit, selected: unit === units }, unit === "in" ? "inches" : unit)))),
  ];
}

/**
 * The first visit, and whenever another album is wanted.
 * @param {State} state
 * @param {Keep} keep
 */
export function begin(state, keep) {
  return [
    make("h1", {}, "Albums to begin with"),
    make("p", { class: "result" }, "Take one and make it yours. Nothing leaves this machine."),
    make("ul", { class: "examples" }, state.start?.examples.map((example, at) => make("li", {},
      button([picture(example.picture, ""), make("strong", {}, example.title), make("span", {}, example.about)], "example", { "data-at": at })))),
    make("h2", {}, "Or"),
    make("div", { class: "does" },
      make("span", { class: "file" }, make("label", { for: "file", class: "as-button" }, "Open an album or batch file"), make("input", { type: "file", id: "file", accept: ".json,.zip,.svg,.dxf,application/json,application/zip", multiple: true })),
      button("A plain album in millimetres", "starter", { "data-units": "mm" }),
      button("A plain album in inches", "starter", { "data-units": "in" }),
      keep.current() ? button("Back to the album on the table", "back") : null),
    make("p", { class: "about" }, "Album and batch files with the drawings and kind files that they name, or a zip that was taken away, can be dropped anywhere on this page, too. What you make is kept in this browser under this page’s address; keep the album file to have it anywhere."),
  ];
}

/**
 * A file that can't be read: what, where, and its text to put it right.
 * @param {State} state
 * @param {Keep} keep
 */
export function unread(state, keep) {
  const name = keep.current()?.name ?? "This file";
  const { findings, missing } = /** @type {Unread} */ (state.view);
  return [
    make("h1", {}, `${name} can’t be read yet`),
    make("p", { class: "result bad" }, findings.length === 1 ? "One thing is in the way." : `${findings.length} things are in the way.`),
    make("ul", { class: "findings" }, findings.map((one) => make("li", { class: "stop" },
      make("p", {}, make("span", { class: "mark stop" }, "Stops"), ` ${capital(one.text)}.`),
      one.line ? make("p", {}, `${one.file ? `${one.file}, line` : "Line"} ${one.line}, column ${one.column}: `, one.written ? make("code", {}, one.written.trim()) : null) : null,
      one.help ? make("p", { class: "about" }, sentence(one.help)) : null))),
    missing?.length ? make("div", { class: "does" },
      make("span", { class: "file" }, make("label", { for: "kit-file", class: "as-button" }, `Open ${missing[0]}`), make("input", { type: "file", id: "kit-file", accept: ".json,application/json", multiple: true }))) : null,
    make("form", { class: "text", "data-do": "use-text" },
      make("label", { for: "text" }, "The file’s text; the file itself is left alone"),
      make("textarea", { id: "text", rows: "18", spellcheck: "false" }, state.text),
      make("div", { class: "does" }, make("button", { type: "submit", class: "main" }, "Read it again"), button("Keep this text as a file", "keep"), button("Take it off the table", "forget")),
      asks(state, "album")),
  ];
}

/**
 * The program does not answer.
 * @param {State} state
 * @param {Keep} keep
 */
export function gone(state, keep) {
  const port = location.port;
  const count = state.waiting;
  const waits = count ? ` ${count === 1 ? "One change waits" : `${count} changes wait`} until it is there again.` : "";
  if (state.moved) {
    return make("div", { class: "gone" },
      make("p", {}, make("strong", {}, "The program was started again, at another address."), " What you wrote into the album’s text is on this page alone: copy it first."),
      make("p", {}, make("a", { class: "as-button", href: state.moved }, "Go on there")));
  }
  return make("div", { class: "gone" },
    make("p", {}, make("strong", {}, "The program does not answer any more."), keep.keeps() ? ` Your albums are kept in this browser, and what you type or choose in fields is, too.${waits}` : ` This browser keeps nothing: what you do is on this page alone.${waits}`),
    make("p", {}, "Start it again with ", make("code", {}, `hingeleaf table --port ${port}`), " and open the address that it prints. Your albums will be there, and what waits is done then."),
    count ? make("p", {}, "The album file that you can keep here is without what waits.") : null,
    make("div", { class: "does" }, button("Ask again", "again"), button("Keep the album file", "keep")));
}

/**
 * A question before something is lost, at the place where it was asked for.
 * @param {State} state
 * @param {string} where
 */
export function asks(state, where) {
  if (state.asks?.where !== where) return null;
  const { words, yes, does } = state.asks;
  return make("div", { class: "asks", role: "group", "aria-label": words }, make("p", {}, words), make("div", { class: "does" }, button(yes, does), button("No", "no")));
}
