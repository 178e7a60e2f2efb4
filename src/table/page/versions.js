// SPDX-License-Identifier: MIT
// What hands do with versions: keep one, open it again, ask what changed since, take it away; and an album that is duplicated.

import { at, control, focus, focusOn } from "./at.js";
import { choose } from "./compares.js";
import { drafts } from "./fields.js";
import { callOff } from "./follow.js";
import * as keep from "./keep.js";
import { small } from "./picture.js";
import { change, look, rest } from "./queue.js";
import { render, say, shown, state } from "./shown.js";
import * as store from "./versionstore.js";

/** Why nothing can be kept or opened just now; nothing where it can. */
function hindrance() {
  if (state.gone) return "The program does not answer: until it does, no version is kept or opened.";
  const [held] = drafts.values();
  return held ? `First mend or let go what can’t be used: ${held.field}, “${held.typed}”.` : "";
}

/** @param {string} words */
function refuse(words) {
  state.wrong = { where: "version", words };
  say(words);
  render();
  focus("version-name");
}

/** The present time, as a clock on the wall shows it. */
function now() {
  const time = new Date();
  return new Date(time.getTime() - time.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}

/** The picture of what lies on the table. */
function pictured() {
  const { album, sheets } = shown();
  return small(album?.open ?? state.good?.open ?? sheets?.stocks[0]?.sheets[0]?.picture);
}

/** Keeps the album as it stands. */
async function keepOne() {
  const name = control("version-name");
  const called = name.value.trim().slice(0, store.LONGEST);
  if (!called) {
    refuse("Give it a name, such as “before the wider spine”.");
    return;
  }
  const { id } = keep.onTable();
  // What is typed belongs to it, or is in the way.
  if (!hindrance()) await rest();
  if (keep.current()?.id !== id) return;
  const hinders = hindrance();
  const picture = hinders ? "" : await pictured();
  const one = keep.album(id);
  if (!one) return;
  const why = hinders || store.keep(id, { ...store.standing(one), called, when: now(), picture });
  if (why) {
    refuse(why);
    return;
  }
  state.wrong = null;
  // What was typed meanwhile is another name.
  if (name.value.trim() === called) name.value = "";
  render();
  say(`“${called}” is kept.`);
}

/** @param {KeptVersion} one */
async function openAgain(one) {
  const hinders = hindrance();
  if (hinders) {
    refuse(hinders);
    return;
  }
  const { id } = keep.onTable();
  await rest();
  if (keep.current()?.id !== id) return;
  const others = keep.openVersion(one);
  callOff();
  drafts.clear();
  const besides = others.length ? ` ${others.join(", ")}, which ${others.length === 1 ? "lies" : "lie"} beside it, ${others.length === 1 ? "stays" : "stay"} as now.` : "";
  state.opened = `“${one.called}” is open again. Undo leads back to what was here.${besides}`;
  change(null, () => focus("versions-title"));
}

/**
 * What buttons do.
 * @type {Doing}
 */
export const VERSIONS = {
  "open-version": ({ version }) => {
    const one = store.version(version);
    if (one) openAgain(one);
  },
  "since-version": ({ version }) => {
    choose(`version ${version}`);
    focus("compare-title");
    at("compare-title").scrollIntoView();
  },
  "take-version": ({ version }) => {
    const one = store.version(version);
    if (!one) return;
    state.asks = { where: "version", words: `Take the version “${one.called}” away? It is kept nowhere else.`, yes: "Take it away", does: "take-version-it", of: version };
    render();
    focusOn(".asks button");
  },
  "take-version-it": () => {
    const one = store.version(state.asks?.of ?? "");
    state.asks = null;
    if (one) store.takeAway(one.key);
    render();
    focus("versions-title");
    if (one) say(`“${one.called}” is taken away.`);
  },
  duplicate: () => {
    const { batch } = keep.onTable();
    const [was, name] = keep.duplicate();
    look();
    state.opened = `This is ${name}, the same ${batch ? "batch" : "album"} again; ${was} is as it was.`;
    scrollTo(0, 0);
  },
};

/**
 * What forms do.
 * @type {Submitting}
 */
export const VERSION_FORMS = { "keep-version": keepOne };
