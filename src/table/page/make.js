// SPDX-License-Identifier: MIT
// Elements, and letting the page become like them while focus, carets and scrolling stay where they are.

/**
 * An element with attributes and what is inside it; what is null or false is left out.
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Attributes} has
 * @param {...Inside} inside
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function make(tag, has = {}, ...inside) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(has)) {
    if (value !== null && value !== undefined && value !== false) node.setAttribute(name, value === true ? "" : String(value));
  }
  /** @type {any[]} */
  const all = /** @type {any[]} */ (inside).flat(Infinity);
  node.append(...all.filter((one) => one !== null && one !== undefined && one !== false));
  return node;
}

/** The element of this id, which the page holds whenever it is asked for. */
export const at = (/** @type {string} */ id) => /** @type {HTMLElement} */ (document.getElementById(id));
/** The field of this id. */
export const control = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (document.getElementById(id));
/** The first element of this kind in a form, which has one. */
export const firstOf = (/** @type {Element} */ form, /** @type {string} */ tag) => /** @type {HTMLInputElement} */ (form.querySelector(tag));
/** Gives the focus to the first element of this selector, where there is one. */
export const focusOn = (/** @type {string} */ what) => /** @type {HTMLElement | null} */ (document.querySelector(what))?.focus();
/** Gives the focus to the element of this id, where it is there. */
export const focus = (/** @type {string} */ id) => document.getElementById(id)?.focus();

/** The way of the field that is being typed into: what stands there is the writer's until it is left. */
export const typing = { path: /** @type {string | null} */ (null) };

/**
 * Lets an element hold these, changing no more than differs.
 * @param {HTMLElement} place
 * @param {...Inside} fresh
 */
export function show(place, ...fresh) {
  const held = /** @type {HTMLElement | null} */ (document.activeElement);
  children(place, make("div", {}, ...fresh));
  // An element that changed its place has lost the focus on the way.
  if (held && held !== document.activeElement && held.isConnected && place.contains(held)) held.focus();
}

/**
 * The one that can become a node: this one, else the next one of its look; others that have keys are someone's own.
 * @param {any} at
 * @param {any} node
 */
function like(at, node) {
  if (at && !at.dataset?.key && at.nodeName === node.nodeName) return at;
  while (at && (at.dataset?.key || at.nodeName !== node.nodeName || at.className !== node.className)) at = at.nextSibling;
  return at;
}

/**
 * @param {any} old
 * @param {any} fresh
 */
function children(old, fresh) {
  /** @type {Map<string, any>} */
  const known = new Map();
  for (const child of old.children) if (child.dataset.key) known.set(child.dataset.key, child);
  let at = old.firstChild;
  for (const node of [...fresh.childNodes]) {
    const key = node.dataset?.key;
    const twin = key ? known.get(key) : like(at, node);
    if (!twin || twin.nodeName !== node.nodeName) {
      old.insertBefore(node, at);
      continue;
    }
    // What stood before it and has no key goes first, such as findings that are mended: then nothing is moved that has the focus.
    while (!key && at && at !== twin && !at.dataset?.key) {
      const next = at.nextSibling;
      at.remove();
      at = next;
    }
    if (twin === at) at = at.nextSibling;
    else old.insertBefore(twin, at);
    become(twin, node);
  }
  while (at) {
    const next = at.nextSibling;
    at.remove();
    at = next;
  }
}

/**
 * @param {any} old
 * @param {any} fresh
 */
function become(old, fresh) {
  if (old.nodeType !== Node.ELEMENT_NODE) {
    if (old.data !== fresh.data) old.data = fresh.data;
    return;
  }
  for (const { name } of [...old.attributes]) {
    // Whether something is unfolded is the reader's business.
    if (!fresh.hasAttribute(name) && !(name === "open" && old.nodeName === "DETAILS")) old.removeAttribute(name);
  }
  for (const { name, value } of [...fresh.attributes]) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  // What was written into a text or a field for something new stays until it is used.
  const source = old.nodeName === "TEXTAREA" ? old.textContent : null;
  children(old, fresh);
  const written = old === document.activeElement && (!old.dataset.path || old.dataset.path === typing.path);
  if (old.nodeName === "INPUT" && old.type === "checkbox") old.checked = fresh.hasAttribute("checked");
  else if ("stays" in old.dataset) return;
  else if (old.nodeName === "INPUT" && (!written || old.type === "color")) old.value = fresh.getAttribute("value") ?? "";
  else if (old.nodeName === "TEXTAREA" && !written && source !== fresh.textContent) old.value = fresh.textContent;
  else if (old.nodeName === "SELECT") old.value = fresh.value;
}

/** @type {Map<string, string>} */
const drawn = new Map();
const MOST = 600;

/**
 * Pictures of stocks, by the names that other pictures call them by.
 * @type {Map<string, string>}
 */
const likenesses = new Map();

/**
 * Takes in the pictures of stocks that came with an answer.
 * @param {Record<string, string> | undefined} all
 */
export function liken(all) {
  for (const [name, address] of Object.entries(all ?? {})) likenesses.set(name, address);
}

/**
 * A picture with those of stocks in their places.
 * @param {string} svg
 */
const likened = (svg) => svg.replace(/href="(stock-[0-9a-f]{16}):"/g, (_, name) => `href="${likenesses.get(name) ?? ""}"`);

/**
 * A picture that came as SVG; the same picture is the same address, so that it does not flicker.
 * @param {string | null | undefined} svg
 * @param {string} alt
 * @param {Attributes} [has]
 */
export function picture(svg, alt, has = {}) {
  if (!svg) return null;
  let at = drawn.get(svg);
  if (at) drawn.delete(svg);
  else at = URL.createObjectURL(new Blob([likened(svg)], { type: "image/svg+xml" }));
  drawn.set(svg, at);
  if (drawn.size > MOST) {
    const [[oldest, address]] = drawn;
    drawn.delete(oldest);
    URL.revokeObjectURL(address);
  }
  return make("img", { src: at, alt, ...has });
}

/** @type {Map<string, string>} */
const held = new Map();

/**
 * A picture that is kept as letters: a PNG, at the same address each time.
 * @param {string} letters
 * @param {string} alt
 */
export function pictureOf(letters, alt) {
  let at = held.get(letters);
  if (!at) {
    try {
      at = URL.createObjectURL(new Blob([Uint8Array.from(atob(letters), (letter) => letter.charCodeAt(0))], { type: "image/png" }));
    } catch {
      return null;
    }
    held.set(letters, at);
  }
  return make("img", { src: at, alt });
}

/** So wide and so tall is a small picture at most, px. */
const SMALL = 240;

/**
 * A picture as a small PNG in letters; none where it can't be drawn.
 * @param {string | null | undefined} svg
 */
export async function small(svg) {
  const img = picture(svg, "");
  if (!img) return "";
  try {
    await img.decode();
    const scale = SMALL / Math.max(img.naturalWidth, img.naturalHeight, 1);
    const canvas = make("canvas", { width: Math.round(img.naturalWidth * scale), height: Math.round(img.naturalHeight * scale) });
    canvas.getContext("2d")?.drawImage(img, 0, 0, canvas.width, canvas.height);
    return canvas.toDataURL("image/png").split(",")[1] ?? "";
  } catch {
    return "";
  }
}

/**
 * The SVG of a picture's address, as long as it is at hand.
 * @param {string} address
 */
export const svgOf = (address) => [...drawn].find(([, at]) => at === address)?.[0];

/**
 * A button that does something; what it is about is in its data.
 * @param {Inside} words
 * @param {string} does
 * @param {Attributes} [has]
 */
export function button(words, does, has = {}) {
  return make("button", { type: "button", "data-do": does, ...has }, words);
}

/**
 * Lets the browser keep a file.
 * @param {BlobPart} bytes
 * @param {string} name
 * @param {string} kind
 */
export function save(bytes, name, kind) {
  const address = URL.createObjectURL(new Blob([bytes], { type: kind }));
  const link = make("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
