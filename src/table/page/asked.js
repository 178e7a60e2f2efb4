// SPDX-License-Identifier: MIT
// What the program is asked about: a file on the table with all that the answer depends on.

import * as keep from "./keep.js";

/**
 * A question about this album or batch.
 * @param {KeptFile} one
 */
export const about = (one, /** @type {Asking} */ more = {}) => ({ name: one.name, text: one.text, machine: keep.told(), drawings: keep.given(one, more.change), files: keep.beside(one, more.change), ...more });
/** A question about the album as it stands. */
export const asked = (/** @type {Asking} */ more = {}) => about(keep.onTable(), more);
