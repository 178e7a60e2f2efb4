// SPDX-License-Identifier: MIT
// Opens pages from disk in headless Chromium, for test_guide.py and the handbook's pages there: what the console says, what axe-core finds, what sticks out,
// whether ticks stay, what the print view cuts off.
//
//   node page.mjs FOLDER CHROMIUM OUT < pages.json > seen.json
//
// FOLDER holds node_modules; pages.json is a list of file names; printed pages go to OUT, and with HINGELEAF_LOOK pictures of
// what is seen. Of { "glance": file } only what the console and axe-core say is told, of one window that is a wide light one first
// and, where "all" is asked for, a small dark one.

import { readFileSync, mkdirSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, dirname, join } from "node:path";
import { pathToFileURL } from "node:url";

const [modules, program, out] = process.argv.slice(2);
const require = createRequire(join(modules, "package.json"));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

mkdirSync(out, { recursive: true });
const options = ["--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
const browser = await chromium.launch({ executablePath: program, args: ["--no-sandbox", "--disable-gpu", ...options] });

/** Everything that reaches beyond the page's width, by its own words. */
const beyond = () => {
  const width = document.documentElement.clientWidth;
  const out = [...document.querySelectorAll("body *")].filter((one) => {
    const box = one.getBoundingClientRect();
    // Typed text scrolls within itself.
    const hidden = getComputedStyle(one).clipPath !== "none" || one.closest("thead, pre code");
    return box.width > 0 && !hidden && (box.right > width + 1 || box.left < -1);
  });
  const sideways = document.documentElement.scrollWidth > width + 1 ? ["it scrolls sideways"] : [];
  return [...sideways, ...out.slice(0, 5).map((one) => `${one.tagName} ${one.textContent.slice(0, 40)}`)];
};

/** Steps, rows and figures that are taller than a printed page. */
const tall = (limit) => [...document.querySelectorAll(".step, tr, figure, .caution")]
  .filter((one) => one.getBoundingClientRect().height > limit)
  .map((one) => `${one.className || one.tagName} ${Math.round(one.getBoundingClientRect().height)}`);

async function look(file) {
  const told = { file, console: [], requests: [], axe: [], beyond: [], tall: [], ticks: null };
  const url = pathToFileURL(file).href;
  const name = `${basename(dirname(file))}-${basename(file, ".html")}`;
  for (const [device, width, height] of [["phone", 390, 844], ["desktop", 1280, 900]]) {
    for (const theme of ["light", "dark"]) {
      const where = `${device} ${theme}`;
      const context = await browser.newContext({ viewport: { width, height }, colorScheme: theme, bypassCSP: false });
      const page = await context.newPage();
      page.on("console", (message) => told.console.push(`${where}: ${message.text()}`));
      page.on("pageerror", (error) => told.console.push(`${where}: ${error}`));
      page.on("request", (request) => { if (request.url() !== url) told.requests.push(request.url()); });
      await page.goto(url);
      told.beyond.push(...(await page.evaluate(beyond)).map((one) => `${where}: ${one}`));
      if (process.env.HINGELEAF_LOOK) await page.screenshot({ path: join(out, `${name}-${device}-${theme}.png`), fullPage: true });
      // Evaluated by the browser itself, so the page's policy stays as it is.
      await page.evaluate(axe);
      const found = await page.evaluate(() => globalThis.axe.run(document));
      const nodes = (one) => one.nodes.slice(0, 3).map((node) => `${node.html.slice(0, 120)} ${node.failureSummary}`);
      told.axe.push(...found.violations.map((one) => `${where}: ${one.id}: ${nodes(one).join(" | ")}`));
      if (device === "phone" && theme === "light") {
        told.passes = found.passes.length;
        const box = page.locator("input[type=checkbox]");
        if (await box.count()) {
          await box.nth(1).check();
          // A browser writes what a page keeps in its own time: some seconds are its, not the page's.
          for (let tries = 0; tries < 20 && !told.ticks?.[1]; tries += 1) {
            await page.waitForTimeout(tries * 50);
            await page.reload();
            told.ticks = [await box.nth(0).isChecked(), await box.nth(1).isChecked()];
          }
        }
      }
      await context.close();
    }
  }
  // The print view: a sheet less its margins of 14 mm, at 96 pixels to the inch.
  const context = await browser.newContext({ viewport: { width: 688, height: 1017 } });
  const page = await context.newPage();
  await page.goto(url);
  await page.emulateMedia({ media: "print" });
  told.beyond.push(...(await page.evaluate(beyond)).map((one) => `print: ${one}`));
  told.tall.push(...(await page.evaluate(tall, 1017)));
  told.words = await page.evaluate(() => document.querySelector("main").innerText);
  const pdf = join(out, `${name}.pdf`);
  await page.pdf({ path: pdf, preferCSSPageSize: true, printBackground: true });
  told.pdf = pdf;
  await context.close();
  return told;
}

/** A page of many, looked at with less. */
async function glance(file, all) {
  const told = { file, console: [], requests: [], axe: [], beyond: [], tall: [], ticks: null };
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, colorScheme: "light" });
  const page = await context.newPage();
  page.on("console", (message) => told.console.push(message.text()));
  page.on("pageerror", (error) => told.console.push(`${error}`));
  page.on("request", (request) => { if (!request.url().startsWith("file:")) told.requests.push(request.url()); });
  await page.goto(pathToFileURL(file).href);
  await page.evaluate(axe);
  for (const [where, width, colorScheme] of [["wide light", 1280, "light"], ["small dark", 390, "dark"]]) {
    await page.setViewportSize({ width, height: 900 });
    await page.emulateMedia({ colorScheme });
    // What was found is a part of the page like others.
    await page.getByRole("searchbox").fill(width === 390 ? "kerf" : "");
    told.beyond.push(...(await page.evaluate(beyond)).map((one) => `${where}: ${one}`));
    // Small and dark, the style is everywhere the same.
    if (width === 390 && !all) break;
    const found = await page.evaluate(() => globalThis.axe.run(document, { preload: false, resultTypes: ["violations"] }));
    told.axe.push(...found.violations.map((one) => `${where}: ${one.id}: ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(" | ")}`));
    told.passes = found.passes.length;
  }
  told.found = await page.locator("#found a").count();
  await context.close();
  return told;
}

const seen = [];
for (const file of JSON.parse(readFileSync(0, "utf8"))) seen.push(await (file.glance ? glance(file.glance, file.all) : look(file)));
await browser.close();
process.stdout.write(JSON.stringify(seen));
