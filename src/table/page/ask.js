// SPDX-License-Identifier: MIT
// Questions to the program that serves this page.

/** The program does not answer any more. */
export class Gone extends Error {}

/** The program answers, but not this; the words say why. */
export class Refused extends Error {}

/**
 * Asks; gives the response.
 * @param {string} what
 * @param {object} question
 * @param {AbortSignal} [stop]
 */
async function send(what, question, stop) {
  let reply;
  try {
    reply = await fetch(what, { method: "POST", body: JSON.stringify(question), signal: stop, cache: "no-store" });
  } catch (/** @type {any} */ error) {
    if (error.name === "AbortError") throw error;
    throw new Gone();
  }
  // Another run of the program is at this port: this page's address is not its own.
  if (reply.status === 403) throw new Gone();
  if (!reply.ok) throw new Refused((await reply.text()).trim());
  return reply;
}

/**
 * Asks for an answer in JSON.
 * @param {string} what
 * @param {object} question
 * @param {AbortSignal} [stop]
 */
export async function ask(what, question, stop) {
  const reply = await send(what, question, stop);
  try {
    return await reply.json();
  } catch (/** @type {any} */ error) {
    if (error.name === "AbortError") throw error;
    throw new Gone();
  }
}

/**
 * Asks for a file.
 * @param {string} what
 * @param {object} question
 */
export async function fetchFile(what, question) {
  return (await send(what, question)).arrayBuffer();
}

/** Whether the program is still there. */
export async function isThere() {
  try {
    return (await fetch("icon.svg", { method: "HEAD", cache: "no-store" })).ok;
  } catch {
    return false;
  }
}
