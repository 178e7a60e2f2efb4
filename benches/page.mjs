// SPDX-License-Identifier: MIT
// How long an edit takes at the table, in a real browser: from the key to the album's picture, to how it folds, to its sheets.
//
//   node benches/page.mjs target/outside-node BROWSER PROGRAM [EARLIER-PROGRAM]
//
// tests/run makes target/outside-node; HINGELEAF_EDITS says how many edits, 20 unless said (with sixty pages each waits some seconds
// for a longer look). Where an earlier program is given, both are asked in turn, so that whatever else the machine
// does is the same for both. Prints medians of many edits for albums of 4, 20 and 60 pages; each edit is another width of page. How
// busy the page's own thread was stands beside them: that says more where the machine has other work. Nothing is asserted.

import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";

const [, , modules, browserPath, ...programs] = process.argv;
const { chromium } = createRequire(join(resolve(modules), "package.json"))("playwright-core");
const EDITS = Number(process.env.HINGELEAF_EDITS ?? 20);

/** Pages of both kinds, panels on every face, a tag in every second pocket; sixty pages have hinge strips that no A4 sheet takes. */
const album = (pages) => JSON.stringify({
  format: "hingeleaf-album/1", title: `Of ${pages} pages`,
  stocks: { card: { sheet: pages > 20 ? "A2" : "A4", caliper: 0.35, grain: "long" }, paper: { sheet: "12x12in", caliper: 0.2 } },
  page: { width: 148, height: 190 },
  pages: Array.from({ length: pages }, (_, at) => (at % 2 ? { kind: "wallet", pocket: 110, overflap: 45 } : { kind: "pocket" })),
  spine: { kind: "flexi-hinge", tab: 12 }, panels: { reveal: 3, stock: "paper" },
  inserts: [{ kind: "tag", width: 90, height: 130, count: pages / 2 }],
});

/** A program with a window at its table. */
async function opened(program, browser) {
  const child = spawn(program, ["table", "--no-browser"], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((done) => child.stdout.once("data", (data) => done(String(data).split("\n")[0])));
  const page = await (await browser.newContext({ viewport: { width: 1200, height: 900 } })).newPage();
  const table = { child, page, open: 0 };
  const own = (request) => !request.url().startsWith("blob:");
  page.on("request", (request) => { table.open += own(request) ? 1 : 0; });
  for (const end of ["requestfinished", "requestfailed"]) page.on(end, (request) => { table.open -= own(request) ? 1 : 0; });
  await page.goto(address);
  await page.waitForSelector("input[type=file]", { state: "attached" });
  table.cdp = await page.context().newCDPSession(page);
  await table.cdp.send("Performance.enable");
  // The moment at which a picture in each section becomes another one.
  await page.evaluate(() => {
    globalThis.seen = {};
    new MutationObserver((changes) => {
      for (const { target } of changes) globalThis.seen[target.closest("section")?.id ?? "picture"] ??= performance.now();
    }).observe(document.body, { subtree: true, attributes: true, attributeFilter: ["src"] });
    document.addEventListener("input", () => { globalThis.seen = { typed: performance.now() }; }, true);
  });
  return table;
}

/** Waits until nothing more follows. */
async function still(table) {
  for (let calm = 0; calm < 10; calm = table.open ? 0 : calm + 1) await table.page.waitForTimeout(40);
}

const busy = async ({ cdp }) => (await cdp.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration").value * 1e3;

async function edit(table, width) {
  const before = await busy(table);
  // Written by the page itself: what a driver asks before it types takes longer than the answer.
  await table.page.evaluate((width) => {
    const field = document.getElementById("at-page-width");
    field.focus();
    field.value = width;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }, width);
  await still(table);
  const { typed, picture, folds, sheets } = await table.page.evaluate(() => globalThis.seen);
  return { picture: picture - typed, folds: folds - typed, sheets: sheets - typed, busy: (await busy(table)) - before };
}

const median = (all) => {
  const sorted = all.filter(Number.isFinite).sort((one, two) => one - two);
  return sorted.length ? `${sorted[sorted.length >> 1].toFixed(0).padStart(5)} ms` : "       –";
};

const browser = await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox", "--disable-gpu"] });
for (const pages of [4, 20, 60]) {
  const tables = [];
  for (const program of programs) tables.push(await opened(program, browser));
  for (const table of tables) {
    await table.page.locator("input[type=file]").first().setInputFiles({ name: `of-${pages}.json`, mimeType: "application/json", buffer: Buffer.from(album(pages)) });
    await table.page.locator("#album .result").waitFor();
    await still(table);
  }
  const seen = tables.map(() => []);
  for (let number = 0; number <= EDITS; number += 1) {
    for (const [at, table] of tables.entries()) {
      const one = await edit(table, String(140.05 + (number % 80) / 10));
      // The first one warms up.
      if (number) seen[at].push(one);
    }
  }
  for (const [at, all] of seen.entries()) {
    const of = (name) => median(all.map((one) => one[name]));
    console.log(`${String(pages).padStart(2)} pages, ${at ? "earlier" : "now    "}: picture ${of("picture")}, folds ${of("folds")}, sheets ${of("sheets")}; the page's thread busy ${of("busy")} an edit`);
  }
  for (const { child, page } of tables) {
    await page.context().close();
    child.kill();
  }
}
await browser.close();
