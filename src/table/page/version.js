// SPDX-License-Identifier: MIT
// The section of versions: the album as it stood, each with its name, its day and a small picture.

import { capital } from "./fields.js";
import * as keep from "./keep.js";
import { button, make } from "./make.js";
import { pictureOf } from "./picture.js";
import { asks } from "./states.js";
import * as store from "./versionstore.js";

/** @param {string} when */
function day(when) {
  const has = when.length > 10;
  const told = new Intl.DateTimeFormat(navigator.language.startsWith("en") ? navigator.language : "en-GB", { dateStyle: "long", ...(has ? { timeStyle: "short" } : {}) });
  const time = new Date(has ? when : `${when}T12:00`);
  return Number.isNaN(time.getTime()) ? when : told.format(time);
}

/**
 * What a version is called in a list of several things.
 * @param {KeptVersion} one
 */
export const listed = (one) => `“${one.called}”, ${day(one.when)}`;

/**
 * The section.
 * @param {OfEither} state
 */
export function versions(state) {
  const what = state.view.batch ? "batch" : "album";
  const { id, text } = keep.onTable();
  const all = store.versions(id);
  const wrong = state.wrong?.where === "version" ? state.wrong.words : "";
  return make("section", { id: "versions", "data-key": "versions", "aria-labelledby": "versions-title" },
    make("h2", { id: "versions-title", tabindex: "-1" }, `Versions of this ${what}`),
    make("p", { class: "result" }, all.length ? `${all.length} of at most ${store.MOST} are kept.` : "None is kept yet."),
    make("p", { class: "about" }, `Keep the ${what} as it stands before you try something. Versions stay in this browser, with the ${what}; they go with it when it is taken off the table.`),
    make("form", { class: "add", "data-do": "keep-version" },
      make("label", { for: "version-name" }, `Keep the ${what} as it stands, under a name`),
      make("input", { type: "text", id: "version-name", "data-stays": true, maxlength: store.LONGEST, placeholder: "before the wider spine", autocomplete: "off", "aria-describedby": wrong ? "version-wrong" : null, "aria-invalid": wrong ? "true" : null }),
      make("button", { type: "submit" }, "Keep this version"),
      wrong ? make("span", { class: "wrong", id: "version-wrong" }, wrong) : null),
    make("ul", { class: "versions" }, all.toReversed().map((one) => row(one, one.text === text))),
    asks(state, "version"),
    all.length ? make("p", { class: "tick" },
      make("input", { type: "checkbox", id: "pack-versions", checked: store.isPacked(id) }),
      make("label", { for: "pack-versions" }, "Put these versions into the zip, too")) : null);
}

/**
 * @param {KeptVersion} one
 * @param {boolean} same
 */
function row(one, same) {
  const of = () => make("span", { class: "unseen" }, `: ${one.called}`);
  return make("li", { "data-key": one.key },
    one.picture ? pictureOf(one.picture, "") : make("span", { class: "no-picture" }),
    make("div", {},
      make("h3", { class: "line" }, one.called),
      make("p", { class: "about" }, capital(`${day(one.when)}${same ? "; this is how it stands now" : ""}.`)),
      make("div", { class: "does" },
        button(["Open it again", of()], "open-version", { "data-version": one.key, "aria-disabled": same ? "true" : null }),
        button(["What changed since?", of()], "since-version", { "data-version": one.key }),
        button(["Take it away", of()], "take-version", { "data-version": one.key }))));
}
