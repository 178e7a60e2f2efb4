// SPDX-License-Identifier: MIT
// The page becomes like what it is to be, while focus, carets and scrolling stay where they are. What it was to be last is
// remembered: only what differs is touched.

import { make } from "./make.js";

/** The way of the field that is being typed into: what stands there is the writer's until it is left. */
export const typing = { path: /** @type {string | null} */ (null) };

/**
 * What places hold now.
 * @type {WeakMap<Element, Sketch[]>}
 */
const holds = new WeakMap();

/** @type {Element | null} */
let held = null;

/**
 * Lets an element hold these, changing no more than differs.
 * @param {HTMLElement} place
 * @param {...Inside} fresh
 */
export function show(place, ...fresh) {
  held = document.activeElement;
  const before = holds.get(place);
  // What stands there from the beginning is nobody's.
  if (!before) place.replaceChildren();
  const { inside } = make("div", {}, ...fresh);
  children(place, before ?? [], inside);
  holds.set(place, inside);
  // An element that changed its place has lost the focus on the way.
  if (held && held !== document.activeElement && held.isConnected && place.contains(held)) /** @type {HTMLElement} */ (held).focus();
}

/**
 * The element itself.
 * @param {Sketch} sketch
 * @returns {any}
 */
export function build(sketch) {
  if (!sketch.tag) return (sketch.node = document.createTextNode(sketch.words));
  const node = document.createElement(sketch.tag);
  for (const name in sketch.has) node.setAttribute(name, sketch.has[name]);
  for (const one of sketch.inside) node.append(build(one));
  return (sketch.node = node);
}

/**
 * @param {any} node
 * @param {Sketch[]} old
 * @param {Sketch[]} fresh
 */
function children(node, old, fresh) {
  const twins = paired(old, fresh);
  const stay = new Set(twins);
  for (const one of old) if (!stay.has(one)) one.node.remove();
  let at = node.firstChild;
  for (const [index, one] of fresh.entries()) {
    const twin = twins[index];
    if (twin) become(twin, one);
    else build(one);
    if (one.node === at) at = at.nextSibling;
    else node.insertBefore(one.node, at);
  }
}

/**
 * For each that is to be, the one that becomes it: of its key, else the next without a key; where that is of another name, the next of
 * its look. Others that have keys are someone's own.
 * @param {Sketch[]} old
 * @param {Sketch[]} fresh
 * @returns {(Sketch | undefined)[]}
 */
function paired(old, fresh) {
  /** @type {Map<string, Sketch>} */
  const known = new Map();
  /** @type {Sketch[]} */
  const plain = [];
  for (const one of old) {
    const key = one.has["data-key"];
    if (key) known.set(key, one);
    else plain.push(one);
  }
  let next = 0;
  return fresh.map((one) => {
    const key = one.has["data-key"];
    if (key) {
      const twin = known.get(key);
      known.delete(key);
      return twin?.tag === one.tag ? twin : undefined;
    }
    let at = next;
    if (plain[at]?.tag !== one.tag) while (at < plain.length && !(plain[at].tag === one.tag && plain[at].has.class === one.has.class)) at += 1;
    if (at >= plain.length) return undefined;
    next = at + 1;
    return plain[at];
  });
}

/**
 * @param {Sketch} old
 * @param {Sketch} fresh
 */
function become(old, fresh) {
  const { node } = old;
  fresh.node = node;
  if (!fresh.tag) {
    if (old.words !== fresh.words) node.data = fresh.words;
    return;
  }
  for (const name in old.has) if (!(name in fresh.has)) node.removeAttribute(name);
  for (const name in fresh.has) if (old.has[name] !== fresh.has[name]) node.setAttribute(name, fresh.has[name]);
  children(node, old.inside, fresh.inside);
  value(node, old, fresh);
}

/**
 * What a control holds. What was written into a text or a field for something new stays until it is used.
 * @param {any} node
 * @param {Sketch} old
 * @param {Sketch} fresh
 */
function value(node, old, { tag, has, inside }) {
  if (tag !== "input" && tag !== "select" && tag !== "textarea") return;
  if (has.type === "checkbox") {
    if (node.checked !== "checked" in has) node.checked = "checked" in has;
    return;
  }
  if ("data-stays" in has) return;
  const written = node === held && (!has["data-path"] || has["data-path"] === typing.path);
  const wanted = tag === "input" ? has.value ?? "" : tag === "select" ? chosen(inside) : words(inside);
  if (tag !== "select" && written && has.type !== "color") return;
  if (tag === "textarea" && words(old.inside) === wanted) return;
  if (node.value !== wanted) node.value = wanted;
}

/** @param {Sketch[]} inside */
const words = (inside) => inside.map((one) => one.words).join("");

/**
 * What a list of options stands at: the last that is chosen, else the first.
 * @param {Sketch[]} inside
 */
function chosen(inside) {
  const options = inside.flatMap((one) => (one.tag === "optgroup" ? one.inside : one)).filter((one) => one.tag === "option");
  const one = options.findLast((option) => "selected" in option.has) ?? options[0];
  return one ? one.has.value ?? words(one.inside) : "";
}
