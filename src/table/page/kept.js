// SPDX-License-Identifier: MIT
// What this browser keeps, and the form that it has: files, which of them lies uppermost, the machine's settings. Read anew before every
// change, as all windows at this address share it.

/** The name that all of it is kept under. */
export const PLACE = "hingeleaf-table";

/** What lies beside the albums and is shown with them. */
export const KINDS = ["drawer", "cutter", "kind", "measured"];
/** The name of its cutter file, and whether it is a trimmer. */
const MACHINE = { name: "", trimmer: false };
/** @returns {Kept} */
const empty = () => ({ albums: [], current: 0, next: 1, machine: { ...MACHINE } });
/**
 * Whether something is a text.
 * @param {unknown} value
 */
export const text = (value) => typeof value === "string";
/**
 * The keys of drawings by the names that a file calls them by.
 * @param {any} kept
 */
const keysOf = (kept) => Object.fromEntries(Object.entries(kept ?? {}).filter(([, key]) => text(key)));

/**
 * Albums with all that they need; of what was kept in another form the text is saved.
 * @param {any} kept
 */
function albumsOf(kept) {
  /** @type {KeptFile[]} */
  const albums = [];
  for (const one of Array.isArray(kept) ? kept : []) {
    if (!text(one?.text)) continue;
    const known = whole(one.id) && !albums.some((other) => other.id === one.id);
    albums.push({
      id: known ? one.id : 0,
      name: text(one.name) ? one.name : "album.json",
      origin: text(one.origin) ? one.origin : one.text,
      text: one.text,
      ...(text(one.title) ? { title: one.title } : {}),
      ...(one.batch === true ? { batch: true } : {}),
      drawings: keysOf(one.drawings),
      origins: keysOf(one.origins),
      ...(KINDS.includes(one.kind) ? { kind: one.kind } : {}),
      did: [one.did].flat().filter(text),
    });
  }
  for (const album of albums) album.id ||= after(albums);
  return albums;
}

/**
 * A number of an album; 0 for what is none.
 * @param {unknown} value
 */
export const whole = (value) => (Number.isInteger(value) && Number(value) > 0 ? Number(value) : 0);
/** @param {KeptFile[]} albums */
const after = (albums) => Math.max(0, ...albums.map((album) => album.id)) + 1;

/**
 * Settings that were kept before they had a file, as one.
 * @param {KeptFile[]} albums
 * @param {any} machine
 */
function withSettings(albums, machine) {
  const said = ["kerf", "margin", "gap"].filter((name) => text(machine?.[name]) && machine[name].trim());
  if (!said.length) return machine;
  const name = "my-cutter.json";
  if (!albums.some((one) => one.name === name)) {
    const file = JSON.stringify({ format: "hingeleaf-cutter/1", ...Object.fromEntries(said.map((name) => [name, machine[name]])) }, null, 2);
    albums.push({ id: after(albums), name, origin: file, text: file, kind: "cutter", drawings: {}, origins: {}, did: [] });
  }
  return { ...machine, name };
}

/**
 * Settings of another kind than they are count as not given.
 * @param {any} kept
 * @returns {Machine}
 */
const machineOf = (kept) => /** @type {any} */ (Object.fromEntries(Object.entries(MACHINE).map(([name, none]) => [name, typeof kept?.[name] === typeof none ? kept[name] : none])));

/** What is held of it here: all of it, the album that this window shows (another one may show another), and whether the browser takes it. */
export const table = { held: empty(), shown: 0, keeps: true };

/**
 * What is kept just now; nothing where that can't be read.
 * @returns {Kept}
 */
function kept() {
  const found = localStorage.getItem(PLACE);
  try {
    const all = JSON.parse(found ?? "null");
    const albums = albumsOf(all?.albums);
    const machine = machineOf(withSettings(albums, all?.machine));
    return { albums, current: whole(all?.current), next: Math.max(whole(all?.next), after(albums)), machine };
  } catch {
    return empty();
  }
}

/**
 * Lets the browser keep something; nothing takes it away.
 * @param {string} place
 * @param {object | null} what
 */
export function store(place, what) {
  try {
    if (what) localStorage.setItem(place, JSON.stringify(what));
    else localStorage.removeItem(place);
    table.keeps = true;
  } catch {
    table.keeps = false;
  }
}

/** Takes in what is kept just now; what the browser did not take is here alone. */
export function reread() {
  try {
    if (table.keeps) table.held = kept();
  } catch {
    table.keeps = false;
  }
}

/**
 * Does something to what is kept just now.
 * @template Result
 * @param {() => Result} does
 */
export function on(does) {
  reread();
  const before = JSON.stringify(table.held);
  const result = does();
  // Nothing is written where nothing is another: it might be older than what another window writes.
  if (!table.keeps || JSON.stringify(table.held) !== before) store(PLACE, table.held);
  return result;
}
