// SPDX-License-Identifier: MIT
// What was asked for and is not answered: kept by each window under its own name, and taken over when that is closed.

import { album, has } from "./beside.js";
import { PLACE, store, table, text } from "./kept.js";

/** This window, until it is closed or loaded anew. */
const ME = [...crypto.getRandomValues(new Uint32Array(4))].map((part) => part.toString(16)).join("-");
const WAITING = `${PLACE}-waiting-`;
/** @param {any} kept */
const waitingOf = (kept) => (Array.isArray(kept) ? kept : []).filter((one) => text(one?.key) && Number.isInteger(one.album) && text(one.wanted?.do));

/** What this window asked for and is not answered. */
/** @type {Waiting[]} */
let waiting = [];

const inherits = new Set([WAITING + ME]);
let started = false;

/**
 * Waits for the end of every window that has something waiting, and takes that over.
 * @param {Orphaned} orphaned
 */
export function inherit(orphaned) {
  for (const place of table.keeps ? Object.keys(localStorage) : []) {
    if (!place.startsWith(WAITING) || inherits.has(place)) continue;
    inherits.add(place);
    const take = () => {
      /** @type {Waiting[]} */
      let taken = [];
      try {
        taken = waitingOf(JSON.parse(localStorage.getItem(place) ?? "null"));
      } catch {
        // What can't be read was not written by a page like this.
      }
      // The browser may have ended between an answer and the note that it came.
      taken = taken.filter((one) => album(one.album) && !has(one.album, one.key));
      waiting.push(...taken);
      if (taken.length) store(WAITING + ME, waiting);
      store(place, null);
      if (taken.length) orphaned(taken);
    };
    // Where the browser can't tell which windows are open, what is found at the start is taken for a closed one's.
    if (navigator.locks) navigator.locks.request(place, take);
    else if (!started) take();
  }
  started = true;
}

/**
 * Keeps what is asked for until it is answered.
 * @param {string} key
 * @param {number} album
 * @param {Wanted} wanted
 */
export function wait(key, album, wanted) {
  const known = waiting.find((one) => one.key === key);
  if (known) known.wanted = wanted;
  else waiting.push({ key, album, wanted });
  store(WAITING + ME, waiting);
}

/**
 * What was asked for is settled.
 * @param {string} key
 */
export function settle(key) {
  if (!waiting.some((one) => one.key === key)) return;
  waiting = waiting.filter((one) => one.key !== key);
  store(WAITING + ME, waiting.length ? waiting : null);
}

let asked = 0;
/** A name for something that is asked for. */
export const key = () => `${ME}-${(asked += 1)}`;

/** Nobody else takes what this window asks for while it is open. */
export const claim = () => navigator.locks?.request(WAITING + ME, () => new Promise(() => {}));

/**
 * What waits for an album.
 * @param {number} id
 */
export const waitsFor = (id) => waiting.filter((one) => one.album === id);

/**
 * Keeps more that is asked for.
 * @param {Waiting[]} more
 */
export function waitToo(more) {
  waiting.push(...more);
  store(WAITING + ME, waiting);
}
