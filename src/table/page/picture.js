// SPDX-License-Identifier: MIT
// Pictures that come as letters, each at one address.

import { make } from "./make.js";

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
export const picture = (svg, alt, has = {}) => (svg ? make("img", { src: addressOf(svg), alt, ...has }) : null);

/** @param {string} svg */
function addressOf(svg) {
  let at = drawn.get(svg);
  if (at) drawn.delete(svg);
  else at = URL.createObjectURL(new Blob([likened(svg)], { type: "image/svg+xml" }));
  drawn.set(svg, at);
  if (drawn.size > MOST) {
    const [[oldest, address]] = drawn;
    drawn.delete(oldest);
    URL.revokeObjectURL(address);
  }
  return at;
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
  if (!svg) return "";
  try {
    const img = new Image();
    img.src = addressOf(svg);
    await img.decode();
    const scale = SMALL / Math.max(img.naturalWidth, img.naturalHeight, 1);
    const canvas = Object.assign(document.createElement("canvas"), { width: Math.round(img.naturalWidth * scale), height: Math.round(img.naturalHeight * scale) });
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
 * How large a picture is, mm; one where it does not say so.
 * @param {string} svg
 */
export function extent(svg) {
  const [width, height] = ["width", "height"].map((name) => Number(new RegExp(`\\b${name}="([\\d.]+)mm"`).exec(svg)?.[1] ?? 1));
  return { width, height };
}
