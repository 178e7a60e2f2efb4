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
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const PATIENCE = 20000;
/** Whether a picture of each state is kept, for people to look at: drawing them takes longer than all that is checked. */
const LOOK = Boolean(process.env.HINGELEAF_LOOK);
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

/** How many answers a window waits for. */
const open = new WeakMap();

/** Waits until a window has asked for nothing for a while. */
export async function still(page) {
  for (let calm = 0; calm < 8; calm = open.get(page) ? 0 : calm + 1) await page.waitForTimeout(100);
}

/** A fresh browser window at the table, and all that its page complains about. */
export async function window(address, has = {}) {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, acceptDownloads: true, ...has });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(`script: ${error.message}`));
  page.on("console", (said) => { if (said.type() === "error") complaints.push(`console: ${said.text()}`); });
  page.on("request", (request) => { if (!/^(blob:)?http:\/\/127\.0\.0\.1:/.test(request.url())) complaints.push(`asked elsewhere: ${request.url()}`); });
  open.set(page, 0);
  page.on("request", () => open.set(page, open.get(page) + 1));
  for (const end of ["requestfinished", "requestfailed"]) page.on(end, () => open.set(page, open.get(page) - 1));
  await page.goto(address);
  return { context, page, complaints };
}

/** The album's or the batch's file, as it stands on the table. */
export const file = async (page) => JSON.parse(await page.locator("#text").evaluate((area) => area.textContent));

/** Waits for the file to be so. */
export async function until(page, so) {
  for (let count = 0; count < 200; count += 1) {
    if (so(await file(page))) return;
    await page.waitForTimeout(100);
  }
  throw new Error(`the file is not so: ${so}`);
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

/**
 * A state of the page, which `lead` leads to from the first visit: at three widths in both themes, with the checker's word on each.
 * It is led to on a phone and on a wide screen; from there the window is made another one, as people do.
 */
export async function lookAt(address, name, lead) {
  for (const widths of [[360], [1440, 900]]) {
    let led = null;
    for (const width of widths) {
      for (const colorScheme of ["light", "dark"]) {
        await check(`${name}, ${width} px, ${colorScheme}`, async (must) => {
          if (led) {
            await led.page.setViewportSize({ width, height: 900 });
            await led.page.emulateMedia({ colorScheme });
            await led.page.waitForTimeout(150);
          } else {
            const opened = await window(address, { viewport: { width, height: 900 }, colorScheme });
            await lead(opened.page);
            led = opened;
          }
          await seenAt(led, `${name.replaceAll(" ", "-").replace("'", "")}-${width}-${colorScheme}`, must);
        });
      }
    }
    await led?.context.close();
  }
}

/** What is wrong with a page as it is. */
async function seenAt({ context, page }, picture, must) {
  if (LOOK) await page.screenshot({ path: join(out, `${picture}.png`), fullPage: true });
  const wider = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  must(wider <= 0, `the page is ${wider} px wider than its window`);
  // WCAG 2.2 asks for 24 px; what is pressed here is at least 40 (text fields and ticks inside labels, too).
  const small = await page.evaluate(() => [...document.querySelectorAll("button, select, input[type=text], summary, .as-button")]
    .filter((one) => one.checkVisibility() && Math.min(one.getBoundingClientRect().height, one.getBoundingClientRect().width) < 39.9)
    .map((one) => `${one.nodeName} ${one.textContent.slice(0, 30)} ${Math.round(one.getBoundingClientRect().width)}x${Math.round(one.getBoundingClientRect().height)}`));
  must(small.length === 0, `too small to press: ${small.join(", ")}`);
  // The checker is a script from elsewhere, which the page's own policy keeps out; it is brought in by the driver.
  const frame = await context.newCDPSession(page);
  const run = `${(await page.evaluate(() => "axe" in globalThis)) ? "" : `${axe};`} axe.run(document, { resultTypes: ["violations"] }).then((all) => JSON.stringify(all))`;
  const told = await frame.send("Runtime.evaluate", { expression: run, awaitPromise: true, returnByValue: true });
  await frame.detach();
  const result = JSON.parse(told.result.value);
  must(result.passes.length >= 10, `the checker looked at ${result.passes.length} rules only`);
  for (const one of result.violations) must(false, `${one.id}: ${one.help}: ${one.nodes.map((node) => node.target.join(" ")).slice(0, 4).join(", ")}`);
}

/** Ends the browser and tells what was seen. */
export async function tell() {
  await browser.close();
  writeFileSync(join(out, "seen.json"), JSON.stringify(seen));
}
