// SPDX-License-Identifier: MIT
// Versions that lay in a zip, each in a folder of its own: kept with the album that came along with them.

import { ask } from "./ask.js";
import * as drawings from "./drawings.js";
import * as keep from "./keep.js";
import { small } from "./picture.js";
import * as store from "./versionstore.js";

/** Whether a file of a zip is of a version: its folder, and its name there. */
const OF_VERSION = /^versions\/([^/]+)\/([^/]+)$/;

/** @param {{ name: string }} file */
export const isOfVersion = ({ name }) => OF_VERSION.test(name);

/**
 * Keeps versions with their albums; says what could not be kept.
 * @param {NamedBytes[]} files
 * @param {Data} laid what the albums are called here, by their names in the zip
 * @param {string[]} refused
 */
export async function bringVersions(files, laid, refused) {
  /** @type {Map<string, GivenDrawing[]>} */
  const folders = new Map();
  for (const { name, bytes } of files) {
    const [, folder, own] = OF_VERSION.exec(name) ?? [];
    const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
    folders.set(folder, [...folders.get(folder) ?? [], { name: own, text }]);
  }
  for (const [folder, all] of folders) {
    const main = all.find((one) => laid[one.name]);
    const album = main && keep.albums().find((one) => one.name === laid[main.name]);
    const [, day, called] = /^(\d{4}-\d\d-\d\d) (.+)$/.exec(folder) ?? ["", new Date().toISOString().slice(0, 10), folder];
    // One that was brought before is there.
    if (!album || store.versions(album.id).some((one) => one.called === called && one.text === main.text)) continue;
    const drawn = all.filter((one) => drawings.isDrawing(one.name));
    const file = (/** @type {GivenDrawing} */ { name, text }) => ({ name, text, ...kindOf(text), drawings: Object.fromEntries(drawn.filter((one) => drawings.names(text, one.name)).map((one) => [one.name, drawings.lay(one.text).key])) });
    const files = all.filter((one) => one !== main && !drawn.includes(one)).map(file);
    const version = { ...file(main), name: album.name, files, called, when: day, picture: "" };
    const answer = await ask("work", store.belongings({ ...version, key: "", album: album.id }));
    const why = store.keep(album.id, { ...version, picture: await small(answer.album?.open) });
    if (why) refused.push(why);
  }
}

/** @param {string} text */
function kindOf(text) {
  const [, kind] = /"format"\s*:\s*"hingeleaf-(drawer|cutter|kind|measured)\//.exec(text) ?? [];
  return kind ? { kind } : {};
}
