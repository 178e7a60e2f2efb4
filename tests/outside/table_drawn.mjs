// SPDX-License-Identifier: MIT
// Brings drawings to the table in a real browser as a person would, for test_table_drawn.py; see browse.mjs.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { check, download, file, lookAt, out, says, start, still, tell, text, until, window } from "./browse.mjs";

const table = await start();
const at = (name) => fileURLToPath(new URL(`../../fixtures/drawn/${name}`, import.meta.url));
const [album, kite, fish] = ["kite-day.json", "kite.svg", "fish.dxf"].map((name) => readFileSync(at(name)));

/** Drops files on the page. */
async function drop(page, files) {
  const data = await page.evaluateHandle((files) => {
    const data = new DataTransfer();
    for (const { name, bytes } of files) data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return data;
  }, files.map(({ name, bytes }) => ({ name, bytes: Buffer.from(bytes).toString("base64") })));
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
}

/** The album on the table, its inserts unfolded. */
async function kiteDay(page, drawn = true) {
  await page.locator(".examples button").first().waitFor();
  await page.locator("#file").setInputFiles(drawn ? ["kite-day.json", "kite.svg", "fish.dxf"].map(at) : [at("kite-day.json")]);
  await says(page, "#album .result", "3 pages");
  await page.locator("#part-inserts summary").first().click();
}

/** Waits until a part of the album has this size. */
const cut = (page, size) => page.waitForFunction((size) => document.querySelector("#folds .parts")?.textContent.includes(size), size);

const first = "#at-inserts-0-outline";
const group = (page, number = 0) => page.locator(`[data-key="inserts[${number}].outline"]`);

await check("a drawing is chosen for an insert", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.locator("#part-inserts summary").first().click();
  await page.locator("#new-insert").selectOption("shape");
  await page.locator("form[data-do=add-insert] button").click();
  const drawing = group(page, 1);
  await drawing.getByText("It is a cloud of our own").waitFor();
  // Not every file is a drawing.
  await page.locator("#at-inserts-1-outline-file").setInputFiles({ name: "letter.txt", mimeType: "text/plain", buffer: Buffer.from("no") });
  await says(page, "#word", "letter.txt is no drawing");
  await page.locator("#at-inserts-1-outline-file").setInputFiles(at("fish.dxf"));
  await drawing.getByText("It is cut along fish.dxf.").waitFor();
  await cut(page, "104 × 44 mm");
  must((await file(page)).inserts[1].outline.file === "fish.dxf", "the file does not name it");
  // A width scales it.
  await page.locator("#at-inserts-1-outline-width").fill("78");
  await cut(page, "78 × 33 mm");
  // Too large for its sheet: one length mends it.
  await page.locator("#at-inserts-1-outline-width").fill("400");
  await page.locator("#at-inserts-1-outline-width[aria-invalid=true]").waitFor();
  await page.locator("#fit").getByRole("button", { name: /^Mend: Insert 2, width/ }).first().click();
  await page.waitForFunction(() => Number(document.querySelector("#at-inserts-1-outline-width").value) < 400);
  for (let more = 0; more < 4 && await page.locator("#fit").getByRole("button", { name: /^Mend: Insert 2, width/ }).count(); more += 1) {
    await page.locator("#fit").getByRole("button", { name: /^Mend: Insert 2, width/ }).first().click();
    await still(page);
  }
  await says(page, "#fit .result", /^Goes together/);
  await page.locator("#at-inserts-1-outline-width").fill("78");
  // Its scores and their way, its layer, its unit.
  await page.locator("#at-inserts-1-outline-layer").fill("edge");
  await until(page, (file) => file.inserts[1].outline.layer === "edge");
  await page.locator("#at-inserts-1-outline-scores").fill("creases");
  await says(page, '[data-key="inserts[1].outline"] .findings', "creases");
  await page.locator("#at-inserts-1-outline-scores").fill("");
  await says(page, "#fit .result", /^Goes together/);
  await page.locator("#at-inserts-1-outline-fold").selectOption("mountain");
  await until(page, (file) => file.inserts[1].outline.fold === "mountain");
  await page.locator("#at-inserts-1-outline-unit").selectOption("mm");
  await until(page, (file) => file.inserts[1].outline.unit === "mm");
  await page.locator("#at-inserts-1-outline-height").fill("33");
  await until(page, (file) => file.inserts[1].outline.height === 33);
  must((await download(page, "Keep fish.dxf as a file", "kept.dxf")) === "fish.dxf", "the drawing has another name");
  must(readFileSync(join(out, "kept.dxf")).equals(fish), "the drawing is another one");
  // Loaded anew, it is all there; undo leads back to the cloud, step by step.
  await page.reload();
  await cut(page, "78 × 33 mm");
  await page.locator("#part-inserts summary").first().click();
  await group(page, 1).getByRole("button", { name: /The cloud instead/ }).click();
  await group(page, 1).getByText("It is a cloud of our own").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await group(page, 1).getByText("It is cut along fish.dxf.").waitFor();
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("another drawing of the same name, and back", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await kiteDay(page);
  await group(page).getByText("It is cut along kite.svg.").waitFor();
  await cut(page, "90 × 123.75 mm");
  const square = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0 H10 V10 H0 Z"/><g id="fold"><path d="M5 0 V10"/></g></svg>';
  await page.locator(`${first}-file`).setInputFiles({ name: "kite.svg", mimeType: "image/svg+xml", buffer: Buffer.from(square) });
  await cut(page, "90 × 90 mm");
  await says(page, "#album .told", "kite.svg is another drawing now");
  await page.getByRole("button", { name: "Undo" }).click();
  await cut(page, "90 × 123.75 mm");
  await page.getByRole("button", { name: "Redo" }).click();
  await cut(page, "90 × 90 mm");
  // Dropped alone, a drawing goes to whoever names it; what nobody names is told.
  await drop(page, [{ name: "kite.svg", bytes: kite }]);
  await cut(page, "90 × 123.75 mm");
  await drop(page, [{ name: "whale.svg", bytes: Buffer.from(square) }]);
  await says(page, "#word", "whale.svg is a drawing that nothing here names");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("faults of a drawing stand beside the form", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await kiteDay(page, false);
  // Both are missing, and each is asked for at its place.
  await says(page, "#fit .result", /2 things stop it/);
  await group(page).getByText("kite.svg is not on the table: choose it here.").waitFor();
  await says(page, "#take .result", "Nothing to cut yet");
  await drop(page, [{ name: "fish.dxf", bytes: fish }]);
  await says(page, "#fit .result", "one thing stops it");
  const open = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 90">\n  <path id="wing" d="M0 0 H90 V90"/>\n  <g id="fold"><path d="M0 0 V9"/></g>\n</svg>';
  await page.locator(`${first}-file`).setInputFiles({ name: "kite.svg", mimeType: "image/svg+xml", buffer: Buffer.from(open) });
  await says(page, '[data-key="inserts[0].outline"] .findings', "kite.svg, line 2, column 3");
  await group(page).getByText("Nothing can be cut along kite.svg yet:").waitFor();
  must((await group(page).locator("code").first().textContent()).includes('<path id="wing"'), "the place is not shown");
  await page.locator(`${first}-file`).setInputFiles(at("kite.svg"));
  await says(page, "#fit .result", /^Goes together/);
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("the zip brings album and drawings back", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await kiteDay(page);
  await says(page, "#fit .result", /^Goes together/);
  await page.getByText("Your machine, or your hand").click();
  await page.locator("#at-cutter-margin").fill("3");
  await says(page, "#take code", "hingeleaf kit kite-day.json --out kit --cutter my-cutter.json");
  await still(page);
  must((await download(page, "Everything in one zip", "kite-day.zip")) === "kite-day.zip", "the zip has another name");
  // Two windows share what is kept.
  const other = await context.newPage();
  await other.goto(table.address);
  await cut(other, "90 × 123.75 mm");
  await other.close();
  await page.getByRole("button", { name: "Take this album off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "h1", "Albums to begin with");
  const left = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("hingeleaf-table-drawing-")));
  must(left.length === 0, `drawings are left behind: ${left}`);
  await drop(page, [{ name: "kite-day.zip", bytes: readFileSync(join(out, "kite-day.zip")) }]);
  await says(page, "#fit .result", /^Goes together/);
  await cut(page, "90 × 123.75 mm");
  must((await page.locator("#text").evaluate((area) => area.textContent)) === album.toString(), "it is another album");
  await still(page);
  await download(page, "Everything in one zip", "kite-day-again.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a batch of an album with drawings", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await kiteDay(page);
  await page.getByRole("button", { name: "Make a batch of it" }).click();
  await says(page, "#kits .result", "1 kind of kit");
  await says(page, "#fit .result", /^All kits go together/);
  // In this kit the kite is smaller.
  await page.locator("#kits-0 summary").click();
  await page.locator("#kits-0-new").selectOption("inserts[0].outline.width");
  await page.locator("#kits-0").getByRole("button", { name: /Add a change/ }).click();
  await page.keyboard.type("64");
  await until(page, (file) => file.kits[0].change?.["inserts[0].outline.width"] === 64);
  await still(page);
  await download(page, "Everything in one zip", "batch.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("an album with drawings that the program is opened with", async (must) => {
  const other = await start(at("kite-day.json"));
  const { context, page, complaints } = await window(other.address);
  await says(page, "#fit .result", /^Goes together/);
  await cut(page, "90 × 123.75 mm");
  await page.reload();
  await cut(page, "90 × 123.75 mm");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
  other.child.kill();
});

/** A picture made in the browser, so many points wide and tall: green above, yellow below; or of many colours. */
const painted = async (page, size, kind) => Buffer.from((await page.evaluate(([width, height, kind]) => {
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const drawn = canvas.getContext("2d");
  for (const [at, colour] of ["rgb(150, 220, 150)", "rgb(240, 220, 130)"].entries()) {
    drawn.fillStyle = colour;
    drawn.fillRect(0, at * height / 2, width, height / 2);
  }
  if (kind === "image/jpeg") {
    const all = drawn.getImageData(0, 0, width, height);
    for (let at = 0; at < all.data.length; at += 1) all.data[at] = all.data[at] - (Math.imul(at, 2654435761) >>> 27);
    drawn.putImageData(all, 0, 0);
  }
  return canvas.toDataURL(kind, 0.95);
}, [...size, kind])).split(",")[1], "base64");

/** Whether a picture there shows green and yellow as they are, the green above the yellow. */
const shows = (page, where) => page.waitForFunction((where) => [...document.querySelectorAll(where)].some((img) => {
  if (!img.complete || !img.naturalWidth) return false;
  const canvas = Object.assign(document.createElement("canvas"), { width: 300, height: 300 });
  const drawn = canvas.getContext("2d");
  drawn.drawImage(img, 0, 0, 300, 300);
  const { data } = drawn.getImageData(0, 0, 300, 300);
  const heights = [[150, 220, 150], [240, 220, 130]].map((colour) => {
    const at = [];
    for (let point = 0; point < data.length; point += 4) if (colour.every((part, index) => Math.abs(part - data[point + index]) < 6)) at.push(Math.floor(point / 1200));
    return at.length > 200 ? at.reduce((sum, one) => sum + one, 0) / at.length : NaN;
  });
  return heights[0] < heights[1];
}), where);

await check("a stock is shown as in a picture", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.locator("#part-papers summary").first().click();
  const reeds = await painted(page, [400, 400], "image/png");
  const front = page.locator('[data-key="stocks.paper.picture"]');
  await front.getByText("It is shown in its colour").waitFor();
  await page.locator("#at-stocks-paper-picture-file").setInputFiles({ name: "letter.txt", mimeType: "text/plain", buffer: Buffer.from("no") });
  await says(page, "#word", "letter.txt is no picture");
  await page.locator("#at-stocks-paper-picture-file").setInputFiles({ name: "reeds.png", mimeType: "image/png", buffer: reeds });
  await front.getByText("It is shown as in reeds.png.").waitFor();
  must((await file(page)).stocks.paper.picture === "reeds.png", "the file does not name it");
  await shows(page, "#sheets img");
  await shows(page, ".fan img");
  await page.screenshot({ path: join(out, "likeness.png"), fullPage: true });
  must((await download(page, "Keep reeds.png as a file", "kept.png")) === "reeds.png", "it has another name");
  must(readFileSync(join(out, "kept.png")).equals(reeds), "it is another picture");
  // Loaded anew, it is all there; let go and taken back, too.
  await page.reload();
  await shows(page, "#sheets img");
  await page.locator("#part-papers summary").first().click();
  await front.getByRole("button", { name: /No picture/ }).click();
  await front.getByText("It is shown in its colour").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await front.getByText("It is shown as in reeds.png.").waitFor();
  await shows(page, "#sheets img");
  await still(page);
  await download(page, "Everything in one zip", "reeds.zip");
  // It comes back with the zip; without it, it is missed and can be given.
  const album = await page.locator("#text").evaluate((area) => area.textContent);
  for (const files of [[{ name: "reeds.zip", bytes: readFileSync(join(out, "reeds.zip")) }], [{ name: "tide-table.json", bytes: Buffer.from(album) }]]) {
    await page.getByRole("button", { name: "Take this album off the table" }).click();
    await page.getByRole("button", { name: "Take it off", exact: true }).click();
    await says(page, "h1", "Albums to begin with");
    await drop(page, files);
    if (files[0].name === "reeds.zip") await shows(page, "#sheets img");
  }
  await says(page, "#fit .result", /may disappoint/);
  await page.locator("#part-papers summary").first().click();
  await front.getByText("reeds.png is not on the table: choose it here, or go on without.").waitFor();
  await drop(page, [{ name: "reeds.png", bytes: reeds }]);
  await shows(page, "#sheets img");
  // What a camera makes is kept smaller, and upright as it is.
  await page.locator("#at-stocks-paper-picture-file").setInputFiles({ name: "photograph.jpg", mimeType: "image/jpeg", buffer: await painted(page, [3000, 3000], "image/jpeg") });
  await front.getByText("It is shown as in photograph.jpg.").waitFor();
  const longest = await page.evaluate(() => Math.max(...Object.values(localStorage).map((text) => text.length)));
  must(longest < 1_500_000, `a photograph takes ${longest} letters`);
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

/** The states that are looked at: what leads to each from the first visit. */
const STATES = {
  "an album with drawings": async (page) => {
    await kiteDay(page);
    await says(page, "#fit .result", /^Goes together/);
    await page.evaluate(() => { for (const one of document.querySelectorAll("details")) one.open = true; });
    await still(page);
  },
  "drawings with faults": async (page) => {
    await kiteDay(page, false);
    await page.locator(`${first}-file`).setInputFiles({ name: "kite.svg", mimeType: "image/svg+xml", buffer: Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 90">\n  <path id="wing" d="M0 0 H90 V90"/>\n  <g id="fold"><path d="M0 0 V9"/></g>\n</svg>') });
    await says(page, '[data-key="inserts[0].outline"] .findings', "line 2");
  },
};

for (const [name, lead] of Object.entries(STATES)) await lookAt(table.address, name, lead);

table.child.kill();
await tell();
