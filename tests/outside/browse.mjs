// SPDX-License-Identifier: MIT
// What the runs of the table in a real browser share: the program, the browser's windows, what checks found.
//
// Each is called as `node FILE MODULES PROGRAM BROWSER OUT`. MODULES holds node_modules. What was seen goes to
// OUT/seen.json: { name: [fault, …] } for each check.

import { spawn } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

export const [, , modules, program, browserPath, out] = process.argv;
const require = createRequire(join(modules, "package.json"));
const { chromium } = require("playwright-core");
export const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const PATIENCE = 20000;
const seen = {};

/** What a check found wrong: what is said to it, and where it broke off. */
export async function check(name, does) {
  const faults = [];
  seen[name] = faults;
  try {
    await does((good, words) => good || faults.push(words));
  } catch (error) {
    faults.push(`broke off: ${error.message.split("\n").slice(0, 4).join(" ")}`);
  }
}

/** Starts the program; gives its address and what ends it. */
export async function start(...more) {
  const child = spawn(program, ["table", "--no-browser", ...more], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((done, broke) => {
    child.stdout.once("data", (data) => done(String(data).split("\n")[0]));
    child.once("exit", () => broke(new Error("the program ended")));
  });
  return { address, child };
}

export const browser = await chromium.launch({
  executablePath: browserPath,
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});

/** A fresh browser window at the table, and all that its page complains about. */
export async function window(address, has = {}) {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, acceptDownloads: true, ...has });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(`script: ${error.message}`));
  page.on("console", (said) => { if (said.type() === "error") complaints.push(`console: ${said.text()}`); });
  page.on("request", (request) => { if (!/^(blob:)?http:\/\/127\.0\.0\.1:/.test(request.url())) complaints.push(`asked elsewhere: ${request.url()}`); });
  await page.goto(address);
  return { context, page, complaints };
}

export const text = (page, where) => page.locator(where).innerText();
/** Waits until an element says something. */
export const says = (page, where, words) => page.locator(where).filter({ hasText: words }).first().waitFor();
/** Waits until nothing more follows from the last change. */
export const settled = (page) => page.locator(".saves").waitFor();

export async function download(page, button, name) {
  const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: button }).click()]);
  await file.saveAs(join(out, name ?? file.suggestedFilename()));
  return file.suggestedFilename();
}

/** Ends the browser and tells what was seen. */
export async function tell() {
  await browser.close();
  writeFileSync(join(out, "seen.json"), JSON.stringify(seen));
}
