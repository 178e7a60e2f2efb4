// SPDX-License-Identifier: MIT
// Rows of a form, as the library describes them: a field's name, what it holds, what it takes, what is wrong with it.

import { button, make } from "./make.js";

/**
 * What was typed and is not taken, by the field's way.
 * @type {Map<string, Draft>}
 */
export const drafts = new Map();
/**
 * What was typed or chosen and is not answered yet, by the field's way; a kind by `.kind` after it, the unit by `units`.
 * @type {Map<string, string>}
 */
export const waits = new Map();
/**
 * Fields that take a size of the maker's own instead of one in the list.
 * @type {Set<string>}
 */
export const own = new Set();

const OWN = "(own)";

/**
 * The id of a field's control.
 * @param {string} path
 */
export const idOf = (path) => `at-${path.replace(/[^a-z0-9]+/gi, "-")}`;

/**
 * What is known of the album, while something typed is not used: then nothing is to be made of what the album was before.
 * @param {Shown | null} view
 * @param {boolean} away
 * @returns {Shown | null}
 */
export function judged(view, away) {
  if (!view) return view;
  // What is said is of the album as it was before that.
  if (away && waits.size && !drafts.size) return { ...view, fit: { ...view.fit, stopped: true, sentence: "What is typed waits for the program: whether it goes together is not known yet." } };
  if (!drafts.size) return view;
  /** @type {Finding[]} */
  const typed = [...drafts].map(([path, { typed, field, findings }]) => ({
    level: "stop", path, about: field, letGo: path, text: `“${typed}” is not used${findings[0] ? `: ${findings[0].text}` : ""}`, help: findings[0]?.help ?? "",
  }));
  const sentence = typed.length === 1 ? `${typed[0].about}: “${[...drafts.values()][0].typed}” can’t be used. Mend it, or let it go.` : `${typed.length} things that are typed can’t be used. Mend them, or let them go.`;
  const fit = { ...view.fit, stopped: true, sentence, findings: [...typed, ...view.fit.findings] };
  return { ...view, fit, sheets: null, take: { ...view.take, withheld: true, sentence: "Nothing can be taken away until what is typed can be used, or is let go." } };
}

/**
 * The button that gives up what is typed.
 * @param {string} path
 * @param {string} field
 */
export const letGoButton = (path, field) => button(["Let it go", make("span", { class: "unseen" }, `: ${field}`)], "let-go", { "data-way": path });

/**
 * All rows of an object.
 * @param {Row[]} list
 * @param {Judging | null} view
 * @param {Option[]} [sheets]
 */
export function rows(list, view, sheets) {
  return list.map((row) => field(row, view, sheets));
}

/**
 * One row.
 * @param {Row} row
 * @param {Judging | null} view
 * @param {Option[]} [sheets]
 * @param {Attributes} [has]
 */
export function field(row, view, sheets, has = {}) {
  const id = has.id ?? idOf(row.path);
  const draft = drafts.get(row.path);
  /** @type {Finding[]} */
  const wrong = draft ? draft.findings : (view?.fit?.findings ?? []).filter((one) => one.path === row.path && one.level !== "note");
  const help = [];
  const usual = !row.given && isLong(row) ? ` Usual: ${row.usual}.` : "";
  if (row.about) help.push(make("span", { class: "about", id: `${id}-about` }, `${capital(row.about)}.${usual}`));
  if (row.exact) help.push(make("span", { class: "about" }, `The file says ${row.exact}.`));
  if (row.differs) help.push(make("span", { class: "about" }, row.differs));
  const said = wrong.map((one) => make("span", { class: one.level === "warn" ? "wrong warn" : "wrong" }, sentence(one.text), one.help ? ` ${sentence(one.help)}` : ""));
  const mends = draft ? letGoButton(row.path, draft.field) : wrong.filter((one) => one.mend).map((one) => mendButton(one, one.mend?.short));
  const describes = [row.about ? `${id}-about` : "", said.length ? `${id}-wrong` : ""].filter(Boolean).join(" ");
  const control = { id, "data-path": row.path, "aria-describedby": describes || null, "aria-invalid": draft || wrong.some((one) => one.level === "stop") ? "true" : null, ...has };
  const value = waits.get(row.path) ?? draft?.typed ?? row.value;
  const unit = row.takes === "length" && /^[\d\s./]*$/.test(value) ? row.units : null;
  return make("div", { class: "field", "data-key": row.path },
    make("label", { for: id }, row.label, unit ? make("span", { class: "unit" }, ` (${unit})`) : null),
    make("div", { class: "holds" },
      row.takes === "colour" ? colour(row, value, control, view) : row.takes === "choice" ? choice(row, value, control) : row.takes === "sheet" ? sheet(row, value, control, sheets) : make("input", { type: "text", autocomplete: "off", spellcheck: "false", value, placeholder: row.given ? null : row.about && isLong(row) ? "as usual" : row.usual, ...control }),
      said.length ? make("span", { class: "wrongs", id: `${id}-wrong` }, said) : null,
      mends,
      help));
}

/**
 * What is usual in so many words that they would be cut off in the field itself.
 * @param {Row} row
 */
const isLong = (row) => row.usual.length > (row.takes === "choice" ? 14 : 22);

/**
 * The button that mends a finding.
 * @param {Finding} one
 */
export const mendButton = (one, words = `Mend: ${one.mend?.words}`) => button(words, "mend", { class: "mend", "data-way": one.mend?.path, "data-eighths": one.mend?.eighths, "data-typed": one.mend?.typed });

/**
 * Findings that none of these rows stands for.
 * @param {Finding[]} list
 * @param {...(Row | Row[])} rows
 */
export const elsewhere = (list, ...rows) => list.filter((one) => one.level === "note" || !rows.flat().some((row) => row.path === one.path));

/**
 * @param {Option[]} list
 * @param {string} value
 * @param {string | null} first
 */
function options(list, value, first) {
  const known = list.some((one) => one.value === value);
  return [
    first === null ? null : make("option", { value: "", selected: value === "" }, first),
    known || value === "" ? null : make("option", { value, selected: true }, sheetWords(value)),
    list.map((one) => make("option", { value: one.value, selected: one.value === value }, one.label)),
  ];
}

/**
 * @param {Row} row
 * @param {string} value
 * @param {Attributes} control
 */
function choice(row, value, control) {
  return make("select", control, options(row.choices ?? [], value, row.differs ? row.usual : row.needed ? null : isLong(row) ? "as usual" : `usual: ${row.usual}`));
}

/**
 * @param {Row} row
 * @param {string} value
 * @param {Attributes} control
 * @param {Option[]} [sheets]
 */
function sheet(row, value, control, sheets) {
  if (own.has(row.path)) return make("input", { type: "text", value, placeholder: "12x12in, 300x200mm", ...control });
  return make("select", { "data-own": OWN, ...control },
    options((sheets ?? []).map((one) => ({ ...one, label: sheetWords(one.label) })), value, row.given && !row.frees ? null : `usual: ${sheetWords(row.usual)}`),
    make("option", { value: OWN }, "another size …"));
}

/**
 * A colour is typed, or picked: then the browser shows what it has for that.
 * @param {Row} row
 * @param {string} value
 * @param {Attributes} control
 * @param {Judging | null} view
 */
function colour(row, value, control, view) {
  const usual = /^#[\da-f]{6}$/i.test(row.usual) ? row.usual : undefined;
  const shown = view?.album?.stocks.find((stock) => row.path === `${stock.way}.colour`)?.colour ?? usual;
  return make("span", { class: "picks" },
    make("input", { type: "text", autocomplete: "off", spellcheck: "false", value, placeholder: shown ?? "#8FA3B0", ...control }),
    make("input", { type: "color", "aria-label": `Pick it: ${row.label}`, "data-picks": row.path, value: /^#[\da-f]{6}$/i.test(value) ? value : shown ?? "#8fa3b0" }));
}

/**
 * A sheet that is called by its size, as one says it: “12x12in” is how a file does.
 * @param {string} words
 */
export const sheetWords = (words) => words.replace(/\b(\d[\d./]*)x(\d[\d./]*)(mm|cm|in)\b/g, "$1 × $2 $3");

/**
 * Whether a select's choice asks for a size of the maker's own.
 * @param {HTMLInputElement} control
 */
export const asksOwn = (control) => control.dataset.own === OWN && control.value === OWN;

/**
 * What is said, with its end; a question has one.
 * @param {string} text
 */
export const sentence = (text) => `${capital(text)}${/[.?!…]$/.test(text) ? "" : "."}`;

/** @param {string} text */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
