// SPDX-License-Identifier: MIT
// The machine's settings: which cutter file it is, its fields, and the test piece that measures them.

import { field, rows } from "./fields.js";
import { findings, mark } from "./found.js";
import * as keep from "./keep.js";
import { button, make } from "./make.js";
import { asks } from "./states.js";

/**
 * What a cutter is called: its file's name without the ending.
 * @param {string} name
 */
const stem = (name) => name.replace(/\.json$/i, "");

/**
 * The machine’s settings.
 * @param {OfEither} state
 */
export function machine(state) {
  const { machine } = state.view;
  const { name, trimmer } = keep.machine();
  const told = { ...state.view, fit: { findings: [...machine.findings, ...machine.measured.findings] } };
  const [first, ...more] = machine.groups;
  const grave = machine.findings.filter((one) => !machine.groups.some((group) => group.rows.some((row) => row.path === one.path)));
  return make("details", { "data-key": "machine", id: "part-machine" },
    make("summary", {}, make("h3", {}, "Your machine, or your hand"), make("span", { class: "is" }, trimmer ? "edge-to-edge cuts" : "any layout", name ? `, ${stem(name)}` : ""), " ", mark(machine.findings)),
    make("div", { class: "inside" },
      which(state),
      findings(grave),
      make("div", { class: "fields" }, rows(first.rows, told)),
      make("p", { class: "tick" },
        make("input", { type: "checkbox", id: "trimmer", "data-trimmer": true, checked: trimmer }),
        make("label", { for: "trimmer" }, "I cut by hand on a trimmer: only cuts from edge to edge")),
      more.map((group) => make("details", { "data-key": group.key, id: group.key },
        make("summary", {}, make("h4", { class: "inline" }, group.title), " ", said(group), mark(machine.findings.filter((one) => group.rows.some((row) => row.path === one.path)))),
        make("div", { class: "inside" }, make("div", { class: "fields" }, rows(group.rows, told))))),
      piece(state, told)));
}

/**
 * What a group says besides what is usual.
 * @param {SettingGroup} group
 */
function said(group) {
  const count = group.rows.filter((row) => row.given).length;
  return make("span", { class: "is" }, count ? `${count} as you say` : "as usual");
}

/**
 * Which cutter file it is: one that is kept under its name, one that is opened, a new one.
 * @param {OfEither} state
 */
function which(state) {
  const { name } = keep.machine();
  const all = keep.cutters().map((one) => ({ value: one.name, label: stem(one.name) }));
  /** @type {Row} */
  const row = { path: "machine", label: "Its settings are kept as", about: "", value: name, given: Boolean(name), needed: false, usual: "nothing said", takes: "choice", choices: all };
  const starts = [...(name ? [{ value: "now", label: `${stem(name)} as it is now` }] : []), { value: "", label: "nothing said" }, ...state.start.cutters.map((one, at) => ({ value: String(at), label: one.about }))];
  return [
    make("div", { class: "fields" }, field(row, null, undefined, { "data-machine": true, "data-path": null })),
    make("div", { class: "does" },
      make("span", { class: "file" },
        make("label", { for: "cutter-file", class: "as-button" }, "Open a cutter file"),
        make("input", { type: "file", id: "cutter-file", accept: ".json,application/json", "data-side": "cutter", "data-for": "machine" })),
      name ? button("The cutter file, to keep", "keep-cutter") : null,
      name ? button([`Forget ${stem(name)}`], "forget-cutter") : null),
    asks(state, "cutter"),
    make("form", { class: "add", "data-do": "new-cutter" },
      make("label", { for: "new-cutter" }, "Another machine, by a name of yours"),
      make("input", { type: "text", id: "new-cutter", "data-stays": true, placeholder: "my laser, 300 g card", autocomplete: "off" }),
      make("button", { type: "submit" }, "Keep it so"),
      make("label", { for: "new-cutter-from" }, "It begins with"),
      make("select", { id: "new-cutter-from", "data-stays": true }, starts.map((one) => make("option", { value: one.value }, one.label))))];
}

/**
 * The test piece: taken, cut, read off, used.
 * @param {OfEither} state
 * @param {Judging} told
 */
function piece(state, told) {
  const { measured } = state.view.machine;
  const { name } = keep.machine();
  return make("details", { "data-key": "piece", id: "part-piece" },
    make("summary", {}, make("h4", { class: "inline" }, "Measure it with a test piece"), " ", mark(measured.findings)),
    make("div", { class: "inside" },
      make("p", { class: "about" }, "The zip holds the piece for your machine’s software, and its instructions. Cut it in your own card, then type in what you read off. What you did not read stays empty."),
      make("form", { class: "add", "data-do": "test-piece" },
        make("label", { for: "piece-sheet" }, "Sheet that it is cut from"),
        make("select", { id: "piece-sheet", "data-stays": true }, state.start.sheets.map((one) => make("option", { value: one.value, selected: one.value === "A4" }, one.label))),
        make("button", { type: "submit" }, "Take the test piece (zip)")),
      make("div", { class: "fields" }, rows(measured.rows, told)),
      findings(measured.findings.filter((one) => !measured.rows.some((row) => row.path === one.path))),
      measured.text ? make("div", { class: "does" },
        button(name ? `Put it into ${stem(name)}` : "Use it as my cutter", "use-measured", { class: "mend" }),
        button("The cutter file that it makes", "keep-measured")) : make("p", { class: "calm" }, "It makes a cutter file as soon as something is read off, and nothing is wrong with it.")));
}
