// SPDX-License-Identifier: MIT
// The machine's settings on the page, for table_faults.mjs: kept by their names, exported, brought in, measured; see browse.mjs.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { check, download, out, says, settled, still, text, window } from "./browse.mjs";

const held = (name) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
const kept = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("hingeleaf-table")));
const fileOf = async (page, name) => JSON.parse((await kept(page)).albums.find((one) => one.name === name).text);
const machine = (page) => page.locator("#part-machine > summary").click();

/** Asks until what is kept is so; what is kept last is said otherwise. */
async function until(page, name, is) {
  let file = null;
  for (let count = 0; count < 100; count += 1) {
    file = await fileOf(page, name).catch(() => null);
    if (file && is(file)) return;
    await page.waitForTimeout(100);
  }
  throw new Error(`${name} is ${JSON.stringify(file)}`);
}

async function open(address) {
  const at = await window(address);
  await at.page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(at.page);
  await machine(at.page);
  return at;
}

async function named(page) {
  await page.locator("#at-cutter-kerf").fill("0.13");
  await until(page, "my-cutter.json", (file) => file.kerf === 0.13);
  await page.getByLabel("Another machine, by a name of yours").fill("Barn laser");
  await page.getByLabel("It begins with").selectOption("now");
  await page.getByRole("button", { name: "Keep it so" }).click();
  await says(page, "#part-machine > summary .is", "Barn laser");
  await page.locator("#at-cutter-kerf").fill("0.2");
  await until(page, "Barn laser.json", (file) => file.kerf === 0.2);
  await page.getByLabel("Its settings are kept as").selectOption("my-cutter.json");
  await page.waitForFunction(() => document.getElementById("at-cutter-kerf").value === "0.13");
  await page.reload();
  await settled(page);
  await machine(page);
  await page.getByLabel("Its settings are kept as").selectOption("Barn laser.json");
  await page.waitForFunction(() => document.getElementById("at-cutter-kerf").value === "0.2");
}

async function manner(page, must) {
  await page.locator("#machine-strokes > summary").click();
  await page.locator("#at-cutter-passes-cut").fill("3");
  await until(page, "Barn laser.json", (file) => file.passes?.cut === 3);
  // Nicks want a gap: that is told at the gap, and nothing can be cut until it is there.
  await page.locator("#at-cutter-nicks").selectOption("more");
  await page.locator("#at-cutter-gap-wrong").waitFor();
  must((await page.getByRole("button", { name: "Everything in one zip" }).count()) === 0, "there is a zip although nicks lack their gap");
  await page.locator("#at-cutter-nicks-count").fill("4");
  await until(page, "Barn laser.json", (file) => file.nicks?.count === 4);
  await page.locator("#at-cutter-gap").fill("1");
  await page.getByRole("button", { name: "Everything in one zip" }).waitFor();
  must((await page.locator("#at-cutter-gap-wrong").count()) === 0, "the gap is still marked");
  await page.locator("#machine-way > summary").click();
  await page.locator("#at-cutter-order").selectOption("small-first");
  await page.locator("#at-cutter-overrun").fill("1/16 in");
  await until(page, "Barn laser.json", (file) => file.order === "small-first" && file.overrun === "1/16 in");
  await says(page, "#take code", "--cutter \"Barn laser.json\"");
}

/** What is printed first, several sheets on a bed, both faces, what files are like: each is chosen, and seen in what is taken away. */
async function prints(page, must) {
  const print = page.getByRole("button", { name: "Sheets to print first (PDF)" });
  must((await print.count()) === 0, "there is something to print first without marks");
  await page.locator("#machine-print > summary").click();
  await page.locator("#at-cutter-marks").selectOption("more");
  await page.locator("#at-cutter-marks-shape").selectOption("ring");
  await page.locator("#at-cutter-marks-number").fill("9");
  await page.locator("#at-cutter-marks-number-wrong").waitFor();
  await page.locator("#at-cutter-marks-number").fill("3");
  await until(page, "Barn laser.json", (file) => file.marks?.number === 3 && file.marks.shape === "ring");
  await print.waitFor();
  must((await download(page, "Sheets to print first (PDF)", "print-first.pdf")) === "print-first.pdf", "what is printed first has another name");
  must(readFileSync(join(out, "print-first.pdf")).subarray(0, 5).toString() === "%PDF-", "what is printed first is no PDF");
  await page.locator("#at-cutter-both-ways").selectOption("both-sides");
  await page.locator("#at-cutter-text").selectOption("names-and-sizes");
  await page.locator("#at-cutter-text-side").selectOption("back");
  await until(page, "Barn laser.json", (file) => file.text === "names-and-sizes" && file.text_side === "back");
  await page.locator("#at-cutter-pen").fill("9");
  await page.locator("#at-cutter-pen-wrong").waitFor();
  await page.locator("#at-cutter-pen").fill("0.5");
  await until(page, "Barn laser.json", (file) => file.pen === 0.5);
  await page.locator("#machine-files > summary").click();
  await page.locator("#at-cutter-layer-order").selectOption("score-draw-cut");
  await until(page, "Barn laser.json", (file) => file.both_ways === "both-sides" && file.layer_order === "score-draw-cut");
  // Several sheets on a bed want to know how large that is.
  await page.locator("#at-cutter-sheets-a-bed").selectOption("fill");
  await page.locator("#part-machine .wrong, #fit .findings .stop").first().waitFor();
  await page.locator("#at-cutter-bed").fill("600x430mm");
  await until(page, "Barn laser.json", (file) => file.sheets_a_bed === "fill" && file.bed === "600x430mm");
  await says(page, "#take", "card-bed-01");
  await says(page, "#take", "card-bed-01.back");
}

async function travels(page, must) {
  await still(page);
  await download(page, "Everything in one zip", "barn.zip");
  await download(page, "The cutter file, to keep", "barn-laser.json");
  const before = await fileOf(page, "Barn laser.json");
  must(JSON.stringify(JSON.parse(readFileSync(join(out, "barn-laser.json"), "utf8"))) === JSON.stringify(before), "what is kept as a file is another one");
  await page.getByRole("button", { name: "Forget Barn laser" }).click();
  await page.getByRole("button", { name: "Forget it" }).click();
  await page.waitForFunction(() => document.getElementById("at-cutter-kerf").value === "");
  // The zip brings the machine back with its name, and so does its own file.
  await page.locator("#which").selectOption("new");
  await page.locator("#file").setInputFiles(join(out, "barn.zip"));
  await says(page, "#album .told", "The machine’s settings are those");
  must(JSON.stringify(await fileOf(page, "Barn laser.json")) === JSON.stringify(before), "the zip holds other settings");
  await machine(page);
  await page.locator("#cutter-file").setInputFiles(held("cutters/blade-12in.json"));
  await says(page, "#part-machine > summary .is", "blade-12in");
  await page.waitForFunction(() => document.getElementById("at-cutter-bed").value === "12x24in");
}

async function measured(page, must) {
  await page.getByLabel("Its settings are kept as").selectOption("");
  await page.locator("#part-piece > summary").click();
  await download(page, "Take the test piece (zip)", "test-piece.zip");
  // A kerf of 0.2: the scale reads 100, ten strips 98, their slot 100.2.
  await page.locator("#at-measured-scale-across").fill("100");
  await page.locator("#at-measured-strips").fill("98");
  await page.locator("#at-measured-slots").fill("300");
  await page.locator("#at-measured-slots-wrong").waitFor();
  must((await page.getByRole("button", { name: "Use it as my cutter" }).count()) === 0, "a slot of 300 mm is taken");
  await page.locator("#at-measured-slots").fill("100.2");
  await says(page, "#part-piece .findings", "0.20 mm");
  // The third score is the first that folds clean everywhere; strip L hangs less, so the grain runs along it.
  for (const [reading, number] of [["folds-d-valley", 1], ["folds-d-mountain", 2], ["folds-e-valley", 3], ["folds-e-mountain", 3], ["hang-k", 12], ["hang-l", 6]]) {
    await page.locator(`#at-measured-${reading}`).fill(`${number}`);
  }
  await says(page, "#part-piece .findings", "score 3 is the least");
  await says(page, "#part-piece .findings", "runs from bottom to top");
  await page.getByRole("button", { name: /Use it as my cutter|Put it into/ }).click();
  await page.waitForFunction(() => document.getElementById("at-cutter-kerf").value === "0.2");
  await page.waitForFunction(() => document.getElementById("at-cutter-score-dash")?.value === "1");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.waitForFunction(() => document.getElementById("at-cutter-kerf").value === "");
}

/** The whole of it, in one window. */
export const machineOnPage = (address) => check("a machine is named, kept, exported, brought in and measured", async (must) => {
  const { context, page, complaints } = await open(address);
  await named(page);
  await manner(page, must);
  await prints(page, must);
  await travels(page, must);
  await measured(page, must);
  must(!(await text(page, "#word")), `it is said: ${await text(page, "#word")}`);
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});
