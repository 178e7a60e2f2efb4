// SPDX-License-Identifier: MIT
// Compares editions at the table in a real browser as a person would, for test_table_compare.py; see browse.mjs.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { check, download, lookAt, out, says, start, still, tell, text, window } from "./browse.mjs";

const table = await start();
const fixture = (name) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
const tide = readFileSync(fixture("tide-table.json"), "utf8");
const json = (name, text) => ({ name, mimeType: "application/json", buffer: Buffer.from(text) });
const all = (page) => page.locator("#compare .compared").innerText();

/** An album that is compared with what it was when it was opened. */
async function longer(page) {
  await page.locator(".examples button").first().waitFor();
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.locator("#compare-with").selectOption("origin");
  await says(page, "#compare .result", "All 9 parts");
  await page.locator("#page-1").click();
  await page.locator("#at-pages-1-overflap").fill("48");
  await says(page, "#compare .result", "7 of 11 parts");
}

await check("an album and what it was when it was opened", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await longer(page);
  const said = await all(page);
  for (const words of ["tide-table.json as it was opened", "Changed:", "To turn an old kit into a new one, cut for each kit:", "Sheets of the new edition that hold it", "Pages of the album that are made of other pieces: 2.", "Chapters of the guide to print again:", "Only what is cut again"]) must(said.includes(words), `it does not say ${words}`);
  await still(page);
  writeFileSync(join(out, "new.json"), await page.locator("#text").evaluate((area) => area.textContent));
  writeFileSync(join(out, "said.txt"), said);
  must((await download(page, "Only the sheets to cut again, in one zip", "again.zip")) === "tide-table-again.zip", "the zip has another name");
  // What stops the album stops the comparing; undone, all is as it was.
  await page.locator("#at-pages-1-overflap").fill("30");
  await says(page, "#compare", "Nothing is compared until what stops it is mended.");
  await page.getByRole("button", { name: "Undo" }).click();
  await says(page, "#compare .result", "7 of 11 parts");
  await page.locator("#at-pages-1-overflap").fill("45");
  await says(page, "#compare .result", "All 9 parts");
  must((await page.getByRole("button", { name: /Only the sheets to cut again/ }).count()) === 0, "there are sheets of nothing");
  await page.locator("#compare-with").selectOption("");
  must((await page.locator("#compare .result").count()) === 0, "it compares with nothing");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("another album on the table, a file, a report, a zip", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.locator(".examples button").first().waitFor();
  const garden = tide.replace("Tide Table", "Ebb Table").replace('"overflap": 45, "faces": "back"', '"overflap": 48, "faces": "back"');
  await page.locator("#file").setInputFiles([json("ebb.json", garden)]);
  await says(page, "#album .result", "4 pages");
  await still(page);
  await download(page, "Everything in one zip", "ebb.zip");
  await page.locator("#which").selectOption("new");
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.locator("#compare-with").selectOption({ label: "Ebb Table (ebb.json)" });
  await says(page, "#compare .result", "in ebb.json");
  const first = await all(page);
  // From a file that is not put on the table.
  const before = await page.locator("#which option").count();
  await page.locator("#compare-file").setInputFiles([json("earlier.json", garden)]);
  await says(page, "#compare .result", "in earlier.json");
  must((await page.locator("#which option").count()) === before, "what is brought in is put on the table");
  must((await all(page)).replaceAll("earlier.json", "ebb.json") === first, "a file says something else than the same album on the table");
  must((await page.locator("#compare-with").inputValue()) === "brought", "what was brought in is not chosen");
  // The zip holds the album; a report by itself does as well.
  await page.locator("#compare-file").setInputFiles(join(out, "ebb.zip"));
  await says(page, "#compare .result", "in ebb.json");
  must((await all(page)) === first, "the zip says something else than its album");
  const report = process.env.HINGELEAF_REPORT ?? join(out, "report.json");
  await page.locator("#compare-file").setInputFiles(report);
  await says(page, "#compare .result", "in report.json");
  must((await all(page)).includes("Sheets of the new edition that hold it"), "a report tells nothing of sheets");
  // What is no edition says so, and what was there goes on.
  await page.locator("#compare-file").setInputFiles([json("letter.json", '{ "dear": "reader" }')]);
  await says(page, "#compare .wrong", "no album, batch or report");
  await page.locator("#compare-file").setInputFiles([json("torn.json", garden.replace('"overflap": 48', '"overflap": 30'))]);
  await says(page, "#compare .result", "torn.json can’t be compared with: it does not go together");
  await page.locator("#compare-file").setInputFiles([json("torn.json", garden.replace('"width"', '"widht"'))]);
  await says(page, "#compare .result", "torn.json can’t be compared with: it can’t be read");
  await says(page, "#compare .findings", "widht");
  // Another album on the table is compared with nothing yet.
  await page.locator("#which").selectOption({ label: "Ebb Table" });
  await says(page, "#line .name", "Ebb Table");
  must((await page.locator("#compare-with").inputValue()) === "", "another album is compared unasked");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a batch and an earlier one", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.getByRole("button", { name: "Make a batch of it" }).click();
  await says(page, "#kits .result", "1 kind of kit");
  await still(page);
  await download(page, "Everything in one zip", "batch.zip");
  await page.locator("#kits-0 summary").click();
  await page.locator("#at-kits-0-copies").fill("3");
  await says(page, "#kits .result", "3 kits");
  await page.locator("#compare-with").selectOption("origin");
  await says(page, "#compare", "tide-table: 3 instead of 1 are made");
  await page.locator("#compare-file").setInputFiles(join(out, "batch.zip"));
  await says(page, "#compare .result", "in tide-table-batch.json");
  await says(page, "#compare", "tide-table: 3 instead of 1 are made");
  // What its album becomes, the kit becomes: the batch as it was opened had the album as that was.
  await page.locator("#kits-0-new").selectOption("pages[1].overflap");
  await page.locator("#kits-0").getByRole("button", { name: /Add a change/ }).click();
  await page.keyboard.type("48");
  await says(page, "#compare", "Changed:");
  await still(page);
  await download(page, "Only the sheets to cut again, in one zip", "batch-again.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("by keys alone", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  const { keyboard } = page;
  for (let count = 0; count < 200 && !(await page.evaluate(() => document.activeElement?.id === "compare-with")); count += 1) await keyboard.press("Tab");
  await keyboard.type("tide-table.json as");
  await says(page, "#compare .result", "All 9 parts");
  must(await page.evaluate(() => document.activeElement?.id === "compare-with"), "the focus is lost");
  must((await text(page, "#compare")).includes("Whoever has an old kit has every piece of the new one"), "it does not say that nothing is cut again");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

/** Keeps what lies on the table as a version. */
async function keepAs(page, name) {
  await page.locator("#version-name").fill(name);
  await page.keyboard.press("Enter");
  await page.locator(".versions h3").getByText(name, { exact: true }).waitFor();
}

await check("versions of an album", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "148 × 190");
  await keepAs(page, "before the wider spine");
  await says(page, ".versions", "this is how it stands now");
  must((await page.locator(".versions img").evaluate((img) => img.decode().then(() => img.naturalWidth))) > 100, "a version has no picture");
  // What is typed belongs to it, however soon it is kept.
  await page.locator("#at-page-width").fill("150");
  await keepAs(page, "wider");
  await page.locator("#version-name").fill("wider");
  await page.getByRole("button", { name: "Keep this version" }).click();
  await says(page, "#version-wrong", "There is a version called “wider”");
  must((await page.locator(".versions li").count()) === 2, "a name is there twice");
  await page.locator("#version-name").fill("");
  await page.getByRole("button", { name: "Keep this version" }).click();
  await says(page, "#version-wrong", "Give it a name");
  await page.locator("#at-page-width").fill("152");
  await says(page, "#album .result", "152 × 190");
  // What changed since it, and between two.
  await page.getByRole("button", { name: /^What changed since\?.*before the wider spine/ }).click();
  await says(page, "#compare .result", "the version “before the wider spine”");
  const now = await all(page);
  await page.locator("#compare-of").selectOption({ index: 1 });
  await page.waitForFunction((now) => document.querySelector("#compare .compared")?.innerText !== now && !document.querySelector("#compare .told"), now);
  const between = await all(page);
  must(now.includes("152") && !between.includes("152") && between.includes("150"), "two versions are compared by what lies on the table");
  must((await page.locator("#compare-with option").allInnerTexts()).every((one) => !one.includes("“wider”")), "a version can be compared with itself");
  await page.locator("#compare-of").selectOption("");
  // Opened again, undone, done again; past a reload, too.
  await page.getByRole("button", { name: /^Open it again.*before the wider spine/ }).click();
  await says(page, "#album .result", "148 × 190");
  await says(page, "#album .told", "is open again");
  await page.getByRole("button", { name: "Undo" }).click();
  await says(page, "#album .result", "152 × 190");
  await page.getByRole("button", { name: "Redo" }).click();
  await says(page, "#album .result", "148 × 190");
  await page.reload();
  await says(page, "#album .result", "148 × 190");
  must((await page.locator(".versions li").count()) === 2, "a reload loses versions");
  await page.getByRole("button", { name: "Undo" }).click();
  await says(page, "#album .result", "152 × 190");
  // Two windows keep one each, and neither is lost; what one takes away, the other shows no more.
  const other = await context.newPage();
  await other.goto(table.address);
  await other.locator(".versions li").nth(1).waitFor();
  await Promise.all([keepAs(page, "mine"), keepAs(other, "yours")]);
  await says(page, ".versions", "yours");
  await says(other, ".versions", "mine");
  await other.getByRole("button", { name: /^Take it away.*mine/ }).click();
  await other.locator("#versions .asks button").first().click();
  await page.waitForFunction(() => document.querySelectorAll(".versions li").length === 3);
  await other.close();
  // In the zip where it is asked for, and back from there.
  await page.getByLabel("Put these versions into the zip, too").check();
  await download(page, "Everything in one zip", "versions.zip");
  // A second one of the same lies beside it, without the versions.
  await page.getByRole("button", { name: "Duplicate this album" }).click();
  await says(page, "#album .told", "This is tide-table-2.json");
  await says(page, "#album .result", "152 × 190");
  must((await page.locator(".versions li").count()) === 0, "a duplicate has the other's versions");
  await page.locator("#at-page-width").fill("140");
  await says(page, "#album .result", "140 × 190");
  await page.locator("#which").selectOption({ index: 0 });
  await says(page, "#album .result", "152 × 190");
  await page.getByRole("button", { name: "Take this album off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "#album .result", "140 × 190");
  must((await page.evaluate(() => Object.keys(localStorage).filter((name) => name.includes("-version-")).length)) === 0, "versions stay that nobody can see");
  await page.locator("#which").selectOption("new");
  await page.locator("#file").setInputFiles(join(out, "versions.zip"));
  await says(page, ".versions", "before the wider spine");
  must((await page.locator(".versions li").count()) === 3, "versions do not come back from the zip");
  must((await page.locator(".versions img").count()) === 3, "versions come back without their pictures");
  await page.getByRole("button", { name: /^Open it again.*before the wider spine/ }).click();
  await says(page, "#album .result", "148 × 190");
  // Full, in number and in letters: it is told, and nothing is lost.
  await page.evaluate(() => {
    const [place] = Object.keys(localStorage).filter((name) => name.includes("-version-"));
    const one = JSON.parse(localStorage.getItem(place));
    for (let number = 0; number < 17; number += 1) localStorage.setItem(`${place}-filler${number}`, JSON.stringify({ ...one, called: `filler ${number}` }));
    localStorage.setItem(`${place}-torn`, "{");
  });
  await page.reload();
  await says(page, "#versions .result", "20 of at most 20");
  await page.locator("#version-name").fill("one more");
  await page.keyboard.press("Enter");
  await says(page, "#version-wrong", "20 versions of one album are kept at most");
  await page.evaluate(() => {
    for (const name of Object.keys(localStorage).filter((name) => /-filler\d+$/.test(name))) localStorage.removeItem(name);
    // The browser lists them in any order, and the torn one is none.
    const [place] = Object.keys(localStorage).filter((name) => name.includes("-version-") && !name.endsWith("-torn"));
    const one = JSON.parse(localStorage.getItem(place));
    localStorage.setItem(`${place}-large`, JSON.stringify({ ...one, album: 999, called: "large", text: " ".repeat(1_490_000) }));
  });
  await page.reload();
  await page.locator("#version-name").fill("one more");
  await page.keyboard.press("Enter");
  await says(page, "#version-wrong", "There is no room for another version");
  must((await page.locator("#version-name").inputValue()) === "one more", "the name that was typed is gone");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

/** The states that are looked at: what leads to each from the first visit. */
const STATES = {
  "two editions": async (page) => {
    await longer(page);
    await keepAs(page, "a name that takes more than one line where the page is narrow");
    await keepAs(page, "longer flaps");
    await still(page);
  },
  "an edition that can not be read": async (page) => {
    await page.getByRole("button", { name: /Tide Table/ }).click();
    await says(page, "#album .result", "4 pages");
    await page.locator("#compare-file").setInputFiles([json("torn.json", tide.replace('"width"', '"widht"'))]);
    await says(page, "#compare .findings", "widht");
  },
};

for (const [name, lead] of Object.entries(STATES)) await lookAt(table.address, name, lead);

table.child.kill();
await tell();
