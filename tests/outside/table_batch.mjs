// SPDX-License-Identifier: MIT
// Makes batches in a real browser as a person would, for test_table_batch.py; see browse.mjs.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { check, download, file, lookAt, out, says, start, still, tell, text, window } from "./browse.mjs";

const table = await start();
const example = (page, name = /Tide Table/) => page.getByRole("button", { name }).click();
/** What the batch file says now. */

/** A batch of one kit. */
async function batch(page) {
  await example(page);
  await page.getByRole("button", { name: "Make a batch of it" }).click();
  await says(page, "#kits .result", "1 kind of kit");
}

/** Drops files on the page. */
async function drop(page, files) {
  const data = await page.evaluateHandle((files) => {
    const data = new DataTransfer();
    for (const { name, bytes } of files) data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return data;
  }, files.map(({ name, bytes }) => ({ name, bytes: Buffer.from(bytes).toString("base64") })));
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
}

await check("two colourways by keys alone", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.locator(".examples button").first().waitFor();
  const { keyboard } = page;
  /** Goes on with Tab until a control has the focus. */
  const tabTo = async (where, key = "Tab", most = 400) => {
    for (let count = 0; count < most; count += 1) {
      if (await page.evaluate((where) => document.activeElement?.matches(where), where)) return;
      await keyboard.press(key);
    }
    throw new Error(`no ${key} leads to ${where}`);
  };
  const write = async (where, words) => {
    await tabTo(where);
    await keyboard.press("Control+a");
    await keyboard.type(words);
  };
  await tabTo(".examples button");
  await keyboard.press("Enter");
  await says(page, "#album .result", "4 pages");
  await tabTo("[data-do=make-batch]");
  await keyboard.press("Enter");
  await says(page, "#kits .result", "1 kind of kit");
  await tabTo("#kits-0 summary");
  await keyboard.press("Enter");
  await write("#at-kits-0-name", "grey");
  await says(page, "#kits-0 summary", "grey");
  await write("#at-kits-0-copies", "3");
  await says(page, "#kits .result", "3 kits");
  await tabTo("#kits-0 [data-do=copy-kit]");
  await keyboard.press("Enter");
  // The new kit is unfolded and has the focus.
  await says(page, "#kits .result", "2 kinds of kit, 6 kits");
  await page.waitForFunction(() => document.activeElement?.matches("#kits-1 summary"));
  await write("#at-kits-1-name", "ochre");
  await says(page, "#kits-1 summary", "ochre");
  await write("#at-kits-1-copies", "2");
  await says(page, "#kits .result", "5 kits");
  await tabTo("#kits-1-like");
  await keyboard.press("ArrowDown");
  await write("#kits-1-paper", "ochre-paper");
  await keyboard.press("Enter");
  await page.getByText("Paper of this kit: ochre-paper").waitFor();
  await tabTo("#at-kits-1-change-stocks-ochre-paper-price", "Shift+Tab");
  await keyboard.press("Control+a");
  await keyboard.type("1.1");
  // One value more: the flap of page 2.
  await tabTo("#kits-1-new");
  await keyboard.type("Page 2, closing");
  await keyboard.press("Tab");
  await keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement?.id === "at-kits-1-change-pages-1-overflap");
  await keyboard.type("48");
  await says(page, "#kits-1 summary", "with ochre-paper, 2 changes");
  // A price for it.
  await tabTo("#part-terms summary");
  await keyboard.press("Enter");
  await write("#at-selling-currency", "EUR");
  await write("#at-selling-hour", "18");
  await write("#at-selling-profit", "40");
  await page.locator("#at-selling-profit[aria-invalid=true]").waitFor();
  await keyboard.type(" %");
  await page.locator("#at-selling-profit:not([aria-invalid])").waitFor();
  await says(page, "#batch-cost", "Price to ask");
  await write("#supplies-name", "glue");
  await write("#supplies-of", "100 ml");
  await write("#supplies-price", "4");
  await keyboard.press("Enter");
  await page.locator("#at-supplies-glue-price").waitFor();
  // Undo takes it back, and it is done again.
  await tabTo("#supplies-title, [data-do=take-term]", "Shift+Tab");
  await keyboard.press("Control+z");
  await page.locator("#at-supplies-glue-price").waitFor({ state: "detached" });
  await keyboard.press("Control+Shift+z");
  await page.locator("#at-supplies-glue-price").waitFor();
  await still(page);
  const said = await file(page);
  must(said.kits[1].change["panels.stock"] === "ochre-paper", `the panels are cut from ${said.kits[1].change["panels.stock"]}`);
  must(said.kits[1].change["stocks.ochre-paper"].price === 1.1 && said.kits[1].change["pages[1].overflap"] === 48, "a change is not in the file");
  // Loaded anew, it is all there.
  await page.reload();
  await says(page, "#kits .result", "5 kits");
  must(JSON.stringify(await file(page)) === JSON.stringify(said), "a page that is loaded anew has another batch");
  await still(page);
  await tabTo("[data-do=kit]");
  const [taken] = await Promise.all([page.waitForEvent("download"), keyboard.press("Enter")]);
  await taken.saveAs(join(out, "colourways.zip"));
  must(taken.suggestedFilename() === "tide-table-batch.zip", `the zip is called ${taken.suggestedFilename()}`);
  must((await download(page, "The batch file, to keep", "kept.json")) === "tide-table-batch.json", "the batch file has another name");
  must((await text(page, "#take code")) === "hingeleaf kit tide-table-batch.json --out kit", "the command is another");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a zip brings its batch back", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.locator(".examples button").first().waitFor();
  await drop(page, [{ name: "tide-table-batch.zip", bytes: readFileSync(join(out, "colourways.zip")) }]);
  await says(page, "#kits .result", "5 kits");
  await says(page, "#fit .result", /^All kits go together/);
  const kept = readFileSync(join(out, "kept.json"), "utf8");
  must((await page.locator("#text").evaluate((area) => area.textContent)) === kept, "it is another batch");
  await still(page);
  await download(page, "Everything in one zip", "again.zip");
  // Where an album of that name is another one on the table, the batch keeps to its own.
  await page.locator("#which").selectOption("new");
  await page.getByRole("button", { name: "Back to the album on the table" }).click();
  await page.locator("#kits-0 summary").click();
  await page.locator("#kits-0").getByRole("button", { name: /Open its album/ }).click();
  await says(page, "#album .result", "148 × 190");
  await page.locator("#at-page-height").fill("195");
  await says(page, "#album .result", "148 × 195");
  await drop(page, [{ name: "tide-table-batch.zip", bytes: readFileSync(join(out, "colourways.zip")) }]);
  await says(page, "#kits .result", "5 kits");
  must((await file(page)).kits.every((kit) => kit.album === "tide-table-2.json"), "the batch took another album of its album's name");
  // A zip of something else holds nothing.
  await drop(page, [{ name: "other.zip", bytes: Buffer.concat([Buffer.from("PK\x03\x04"), Buffer.alloc(60)]) }]);
  await says(page, "#word", "holds no album and no batch file");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("kits of several albums", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await example(page, /Garden Year/);
  await says(page, "#album .result", "5 pages");
  await page.locator("#which").selectOption("new");
  await batch(page);
  await page.getByLabel("Another kit, from an album on the table").selectOption("garden-year.json");
  await page.getByRole("button", { name: "Add a kit" }).click();
  await says(page, "#kits-1 summary", "garden-year");
  // From a file, and dropped.
  const plain = (title) => Buffer.from(JSON.stringify({ format: "hingeleaf-album/1", title, page: { width: 148, height: 190 }, pages: [{ kind: "pocket" }, { kind: "pocket" }] }));
  await page.locator("#kit-file").setInputFiles({ name: "reed.json", mimeType: "application/json", buffer: plain("Reed") });
  await says(page, "#kits-2 summary", "reed");
  await drop(page, [{ name: "sedge.json", bytes: plain("Sedge") }]);
  await says(page, "#kits-3 summary", "sedge");
  await page.locator("#kits-3 summary").click();
  await page.locator("#at-kits-3-album").selectOption("reed.json");
  await says(page, "#kits-3 summary", "Reed");
  await page.locator("#kits-3").getByRole("button", { name: /Remove it/ }).click();
  await says(page, "#kits .result", "3 kinds of kit");
  // What an album is changed to, its kits are.
  await page.locator("#kits-2 summary").click();
  await page.locator("#kits-2").getByRole("button", { name: /Open its album/ }).click();
  await says(page, "#album .result", "2 pages");
  await page.locator("#at-page-height").fill("180");
  await says(page, "#album .result", "148 × 180");
  await page.getByLabel("Name of the album").fill("Rushes");
  await page.locator("#which").selectOption({ label: "Batch: Tide Table" });
  await says(page, "#kits-2 summary", "Rushes");
  // What holds for all of them.
  await page.locator("#part-whole summary").click();
  await page.locator("#at-together").selectOption("kit");
  await says(page, "#sheets", "card.tide-table");
  await page.locator("#at-spares-kits").fill("1");
  await says(page, "#kits .result", "6 kits");
  await page.locator("#at-spares-parts").fill("lots");
  await page.locator("#at-spares-parts[aria-invalid=true]").waitFor();
  must((await text(page, "#fit .result")).includes("can’t be used"), "what can't be used is not told");
  must((await text(page, "#sheets .result")).includes("No sheets"), "sheets are shown while something can't be used");
  await page.locator("#at-spares-parts").fill("2 %");
  await page.locator("#at-spares-parts:not([aria-invalid])").waitFor();
  await page.getByLabel("Name of the batch").fill("Autumn");
  await says(page, "#line .name", "Autumn");
  await page.getByLabel("Measured in").selectOption("in");
  await page.waitForFunction(() => JSON.parse(document.querySelector("#text").textContent).units === "in");
  const said = await file(page);
  must(said.together === "kit" && said.spares.kits === 1 && said.spares.parts === "2 %", "what holds for all is not in the file");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("papers, changes and what is wrong with them", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await batch(page);
  await page.locator("#kits-0 summary").click();
  const kit = page.locator("#kits-0");
  await page.locator("#kits-0-new").selectOption("pages[1].overflap");
  await kit.getByRole("button", { name: /Add a change/ }).click();
  // Typed at a person's pace: the page is drawn anew after each figure, and the field stays under the caret.
  await page.keyboard.type("30", { delay: 400 });
  // The fault is told with the kit's name, and stands at its field.
  await says(page, "#fit .result", "Not all kits go together yet");
  await says(page, "#fit .findings .stop", "tide-table, page 2");
  await page.locator("#at-kits-0-change-pages-1-overflap[aria-invalid=true]").waitFor();
  await says(page, "#kits-0 summary", "Stops");
  must((await text(page, "#take .result")).includes("Nothing to cut yet"), "there is something to take away of what does not go together");
  // It is mended in this kit; the album stays as it is.
  await page.locator("#fit").getByRole("button", { name: /^Mend: Page 2, closing flap/ }).click();
  await says(page, "#fit .result", /^All kits go together/);
  must(Number(await page.locator("#at-kits-0-change-pages-1-overflap").inputValue()) >= 38, "the flap is mended too short");
  await kit.getByRole("button", { name: /As in the album/ }).click();
  await says(page, "#fit .result", /^All kits go together/);
  await page.locator("#kits-0-like").selectOption("paper");
  await page.locator("#kits-0-paper").fill("Ochre!");
  await kit.getByRole("button", { name: /Use that paper/ }).click();
  await page.locator("#kits-0-paper[aria-invalid=true]").waitFor();
  await page.locator("#kits-0-paper").fill("ochre");
  await kit.getByRole("button", { name: /Use that paper/ }).click();
  await kit.getByText("Paper of this kit: ochre").waitFor();
  // It is cut by hand, on a trimmer.
  await page.locator("#at-kits-0-change-stocks-ochre-by").selectOption("trimmer");
  await page.waitForFunction(() => JSON.parse(document.querySelector("#text").textContent).kits[0].change["stocks.ochre"].by === "trimmer");
  await kit.getByRole("button", { name: /The album’s paper instead/ }).click();
  await kit.getByText("Nothing: the album as it is.").waitFor();
  // A name that can't be one is marked at its field, and let go.
  await page.locator("#at-kits-0-name").fill("Ochre!");
  await page.locator("#at-kits-0-name[aria-invalid=true]").waitFor();
  await kit.getByRole("button", { name: /Let it go/ }).click();
  await page.locator("#at-kits-0-name:not([aria-invalid])").waitFor();
  must((await page.locator("#at-kits-0-name").inputValue()) === "tide-table", "what is let go stays");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("pages of the buyer's choice", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await batch(page);
  await page.locator("#kits-0 summary").click();
  const kit = page.locator("#kits-0");
  await kit.getByRole("button", { name: /Let the buyer choose/ }).click();
  await says(page, "#kits-0 summary", "4 pages of the buyer’s choice");
  // A pocket and two wallets: 15 mixes of 4 pages, C(4 + 2, 2).
  await page.waitForFunction(() => document.querySelectorAll("#batch-mixes tbody tr").length === 15);
  await kit.getByRole("button", { name: /Remove it ?: Wallet/ }).last().click();
  await page.waitForFunction(() => document.querySelectorAll("#batch-mixes tbody tr").length === 5);
  // Its tags want a fourth page.
  await page.locator("#at-kits-0-choice-pages").fill("3");
  await page.locator("#at-kits-0-choice-pages[aria-invalid=true]").waitFor();
  await page.locator("#at-kits-0-choice-pages").fill("5");
  await page.waitForFunction(() => document.querySelectorAll("#batch-mixes tbody tr").length === 6);
  await page.locator("#kits-0-new-kind").selectOption("frame");
  await kit.getByRole("button", { name: /Add the kind/ }).click();
  await kit.getByText("To choose from, 3: Frame").waitFor();
  await page.locator("#kits-0-kind-2").selectOption("pocket");
  await kit.getByText("To choose from, 3: Pocket").waitFor();
  await page.locator("#at-kits-0-choice-of-1-overflap").fill("30");
  await page.locator("#at-kits-0-choice-of-1-overflap[aria-invalid=true]").waitFor();
  await page.locator("#at-kits-0-choice-of-1-overflap").fill("45");
  await says(page, "#fit .result", /^All kits go together/);
  await page.locator("#batch-pack summary").click();
  await says(page, "#batch-pack", "In each bag");
  await kit.getByRole("button", { name: /The album’s own pages/ }).click();
  await kit.getByText("Its pages are the album’s.").waitFor();
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("buying and selling", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await batch(page);
  await page.locator("#part-terms summary").click();
  await page.getByLabel("Currency").fill("EUR");
  await says(page, "#part-terms summary", "in EUR");
  for (const [field, typed] of [["hour", "18"], ["machine-hour", "6"], ["minutes-a-kit", "35"], ["packaging", "1.2"], ["overhead", "15 %"], ["profit", "40 %"], ["fees", "6 %"], ["tax", "19 %"]]) await page.locator(`#at-selling-${field}`).fill(typed);
  await says(page, "#batch-cost", "Tax, out of the price");
  const packs = page.locator("form[data-list=packs]");
  await page.locator("#packs-name").selectOption("card");
  await page.locator("#packs-of").fill("25");
  await packs.getByRole("button").click();
  // Half of a pack is none, and that stands at its place.
  await page.locator("#packs-price[aria-invalid=true]").waitFor();
  await page.locator("#packs-price").fill("9.5");
  await packs.getByRole("button").click();
  await page.locator("#at-packs-card-of").fill("50");
  await says(page, "#batch-cost", "1 × 50");
  await says(page, "#batch-cost", "no price");
  await page.locator("#supplies-name").fill("tape 6.4 mm");
  await page.locator("#supplies-of").fill("25 m");
  await page.locator("#supplies-price").fill("3.2");
  await page.locator("form[data-list=supplies]").getByRole("button").click();
  await page.locator("#at-supplies-tape-6-4-mm-price").fill("3.3");
  await page.waitForFunction(() => JSON.parse(document.querySelector("#text").textContent).supplies["tape 6.4 mm"].price === 3.3);
  await page.getByRole("button", { name: /Remove it ?: tape 6.4 mm/ }).click();
  await page.locator("#at-supplies-tape-6-4-mm-price").waitFor({ state: "detached" });
  await page.getByRole("button", { name: /Remove it ?: card/ }).click();
  await page.locator("#at-packs-card-of").waitFor({ state: "detached" });
  must(complaints.length === 0, complaints.join("; "));
  // An album by itself may have its prices, too.
  await page.locator("#kits-0 summary").click();
  await page.locator("#kits-0").getByRole("button", { name: /Open its album/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.locator("#part-terms summary").click();
  await page.locator("#at-selling-packaging").fill("1.5");
  await says(page, "#album-cost", "Packaging");
  await context.close();
});

await check("what is taken away, and what is missing", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await batch(page);
  // With a machine, its settings are in the zip.
  await page.getByText("Your machine, or your hand").click();
  await page.locator("#at-cutter-margin").fill("3");
  await page.locator("#at-cutter-gap").fill("1");
  await page.locator("#trimmer").check();
  await says(page, "#take code", "--cutter my-cutter.json --trimmer");
  await still(page);
  for (const [name, as] of [["Everything in one zip", "machine.zip"], ["All SVG sheets", "svg.zip"], ["All DXF sheets", "dxf.zip"], ["The job sheet, to print", "job.html"], ["Templates at true size", "templates.pdf"], ["The cutting list", "cutting-list.csv"]]) await download(page, name, as);
  await page.getByText("Single sheets").click();
  await download(page, "card-01.svg", "card-01.svg");
  // Its album goes: what is missing is asked for, and brings it back.
  const album = await page.evaluate(() => JSON.parse(localStorage.getItem("hingeleaf-table")).albums.find((one) => one.name === "tide-table.json").text);
  await page.locator("#kits-0 summary").click();
  await page.locator("#kits-0").getByRole("button", { name: /Open its album/ }).click();
  await page.getByRole("button", { name: "Take this album off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "h1", "tide-table-batch.json can’t be read yet");
  await says(page, ".findings", "there is no tide-table.json on the table");
  await page.locator("#kit-file").setInputFiles({ name: "tide-table.json", mimeType: "application/json", buffer: Buffer.from(album) });
  await says(page, "#fit .result", /^All kits go together/);
  must((await file(page)).kits.length === 1, "an album that was missing became a kit more");
  await page.getByRole("button", { name: "Take this batch off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "#album .result", "4 pages");
  await page.getByText("Your machine, or your hand").click();
  await page.locator("#at-cutter-margin").fill("");
  // The zip brings the machine's settings along, and its batch has what it had.
  await drop(page, [{ name: "machine.zip", bytes: readFileSync(join(out, "machine.zip")) }]);
  await says(page, "#kits .told", "The machine’s settings are those");
  must((await page.locator("#at-cutter-margin").inputValue()) === "3" && (await page.locator("#at-cutter-gap").inputValue()) === "1", "the machine has other settings");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a batch that the program is opened with", async (must) => {
  const other = await start(fileURLToPath(new URL("../../fixtures/batches/spring-fair.json", import.meta.url)));
  const { context, page, complaints } = await window(other.address);
  await says(page, "#kits .result", "3 kinds of kit, 21 kits");
  await says(page, "#batch-cost", "Price to ask");
  await page.locator("#kits-2 summary").click();
  await says(page, "#kits-2", "Page 2, pocket");
  await page.locator("#at-kits-2-change-pages-1-pocket").fill("118");
  await still(page);
  await page.reload();
  await says(page, "#album .result, #kits .result", "3 kinds of kit");
  must((await file(page)).kits[2].change["pages[1].pocket"] === 118, "a change is lost on reload");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
  other.child.kill();
});

/** The states that are looked at: what leads to each from the first visit. */
const STATES = {
  "a batch": async (page) => {
    await batch(page);
    await still(page);
  },
  "a batch with everything unfolded": async (page) => {
    await batch(page);
    await page.locator("#kits-0 summary").click();
    await page.locator("#kits-0").getByRole("button", { name: /One more like it/ }).click();
    await page.locator("#kits-1").getByRole("button", { name: /Let the buyer choose/ }).click();
    await says(page, "#kits-1 summary", "choice");
    await page.locator("#kits-0-paper").fill("ochre");
    await page.locator("#kits-0").getByRole("button", { name: /Use that paper/ }).click();
    await page.locator("#kits-0").getByText("Paper of this kit").waitFor();
    await page.locator("#part-terms summary").click();
    await page.getByLabel("Currency").fill("EUR");
    await says(page, "#batch-cost", "Price to ask");
    await page.locator("#packs-of").fill("25");
    await page.locator("form[data-list=packs]").getByRole("button").click();
    await page.locator("#packs-wrong").waitFor();
    await page.evaluate(() => { for (const one of document.querySelectorAll("details")) one.open = true; });
    await still(page);
  },
  "a batch that does not go together": async (page) => {
    await batch(page);
    await page.locator("#kits-0 summary").click();
    await page.locator("#kits-0-new").selectOption("pages[1].overflap");
    await page.locator("#kits-0").getByRole("button", { name: /Add a change/ }).click();
    await page.keyboard.type("30");
    await says(page, "#fit .result", "Not all kits go together yet");
  },
  "a batch without its album": async (page) => {
    await page.locator(".examples button").first().waitFor();
    await page.locator("#file").setInputFiles({ name: "b.json", mimeType: "application/json", buffer: Buffer.from('{ "format": "hingeleaf-batch/1", "kits": [{ "name": "a", "album": "a.json" }] }') });
    await says(page, "h1", "can’t be read yet");
  },
};

for (const [name, lead] of Object.entries(STATES)) await lookAt(table.address, name, lead);

table.child.kill();
await tell();
