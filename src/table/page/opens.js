// SPDX-License-Identifier: MIT
// Files that are opened or dropped, and what is done with them once they lie on the table.

import { focus } from "./at.js";
import { bring } from "./bring.js";
import { idOf } from "./fields.js";
import * as keep from "./keep.js";
import { choose as chooseMachine } from "./machines.js";
import { change, look } from "./queue.js";
import { render, state, trouble } from "./shown.js";


/**
 * Puts files on the table; to be kits, where it is a batch that lies there.
 * @param {FileList | File[]} files
 */
export async function openFiles(files, asKits = false) {
  if (!files.length) return;
  const before = keep.current();
  try {
    const { names, drawers, cutters, measured, kinds, refused, brought, drawn, machine } = await bring([...files], asKits);
    const other = machine !== null && keep.machine().name !== machine;
    if (other) keep.setMachine("name", machine);
    if (other) state.opened = "The machine’s settings are those that this zip was taken away with.";
    if (brought && (!asKits || keep.current()?.id !== before?.id)) look();
    else if (brought && state.view?.batch && !state.view.unread) for (const album of names) change({ do: "add-kit", album });
    // What was missing may have been in another folder.
    else if (brought || (state.view?.unread && before)) change({ do: "call-files", names: keep.names(), folder: kinds });
    else if (kinds.length && before && !state.view?.batch) for (const name of kinds) change({ do: "add-kind-file", name });
    else if (drawers.length && before) change({ do: "set", path: "drawer", typed: drawers.at(-1) });
    else if (cutters.length && before) {
      state.opened = `${cutters.join(", ")} is on the table now, and can be chosen as your machine or a group’s.`;
      change({ do: "call-files", names: keep.names() });
    } else if (drawn || measured.length) change();
    const waits = before || brought ? [] : [...drawers, ...cutters, ...kinds].map((name) => `${name} is on the table now, for albums that name it: open one, too.`);
    state.failed = [...refused, ...waits].join(" ");
    render();
  } catch (error) {
    trouble(error);
  }
}

/**
 * A cutter's file for a group of makers, a drawer's for what is shown: it is what is named then.
 * @param {FileList | File[]} files
 * @param {string} kind
 * @param {string} path
 */
export async function openSide(files, kind, path) {
  try {
    const found = await bring([...files], true, kind);
    const name = (kind === "cutter" ? found.cutters : found.drawers).at(-1);
    if (name && path === "machine") chooseMachine(name);
    else if (name) change({ do: "set", path, typed: name }, () => focus(idOf(path)));
    state.failed = [...found.refused, ...(name ? [] : [`There is no ${kind} file among these.`])].join(" ");
    render();
  } catch (error) {
    trouble(error);
  }
}
