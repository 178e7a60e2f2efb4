// SPDX-License-Identifier: MIT
// What an element of the page is to be: its name, its attributes, what is inside it. Elements themselves become like it.

/**
 * An element with attributes and what is inside it; what is null or false is left out.
 * @param {string} tag
 * @param {Attributes} [has]
 * @param {...Inside} inside
 * @returns {Sketch}
 */
export function make(tag, has = {}, ...inside) {
  /** @type {Record<string, string>} */
  const all = {};
  for (const [name, value] of Object.entries(has)) {
    if (value !== null && value !== undefined && value !== false) all[name] = value === true ? "" : String(value);
  }
  /** @type {Sketch[]} */
  const holds = [];
  gather(inside, holds, tag === "textarea" || tag === "code" || tag === "option");
  return { tag, has: all, inside: holds, words: "", node: null, placed: false };
}

/**
 * A number and its fraction stay on one line: “7” at the end of one and “1/8” on the next are two numbers.
 * @param {string} words
 */
const whole = (words) => (words.includes("/") ? words.replace(/(\d) (?=\d+\/\d)/g, "$1\u00a0") : words);

/**
 * @param {Inside[]} from
 * @param {Sketch[]} to
 * @param {boolean} exact whether it is a file's own text, or what is chosen
 */
function gather(from, to, exact) {
  for (const one of from) {
    if (Array.isArray(one)) gather(one, to, exact);
    else if (one !== null && one !== undefined && one !== false) to.push(placed(typeof one === "object" ? one : { tag: "", has: {}, inside: [], words: exact ? String(one) : whole(String(one)), node: null, placed: false }));
  }
}

/**
 * What stands in two places is two.
 * @param {Sketch} one
 * @returns {Sketch}
 */
function placed(one) {
  if (one.placed) return { ...one, inside: one.inside.map(placed), node: null };
  one.placed = true;
  return one;
}

/**
 * A button that does something; what it is about is in its data.
 * @param {Inside} words
 * @param {string} does
 * @param {Attributes} [has]
 */
export function button(words, does, has = {}) {
  return make("button", { type: "button", "data-do": does, ...has }, words);
}
