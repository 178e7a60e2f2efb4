// SPDX-License-Identifier: MIT
// Places on the page, and who has the focus.

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
