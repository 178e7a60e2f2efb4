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
 * Asks for an answer in JSON; `first` gets what of it is known at once, where that comes before the rest.
 * @param {string} what
 * @param {object} question
 * @param {AbortSignal} [stop]
 * @param {(seen: any) => unknown} [first]
 */
export async function ask(what, question, stop, first) {
  const reply = await send(what, question, stop);
  let answer;
  try {
    answer = first ? await inLines(reply, first) : await reply.json();
  } catch (/** @type {any} */ error) {
    if (error.name === "AbortError") throw error;
    throw new Gone();
  }
  if (answer?.failed) throw new Refused(answer.failed);
  return answer;
}

/**
 * The last line of an answer; `first` gets the one before it as soon as it is there.
 * @param {Response} reply
 * @param {(seen: any) => unknown} first
 */
async function inLines(reply, first) {
  let text = "";
  if (reply.body) {
    const letters = new TextDecoder();
    const reader = reply.body.getReader();
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      text += letters.decode(read.value, { stream: true });
      const end = text.indexOf("\n");
      if (end < 0) continue;
      first(JSON.parse(text.slice(0, end)));
      text = text.slice(end + 1);
    }
    text += letters.decode();
  }
  return JSON.parse(text);
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
