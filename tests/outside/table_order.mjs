// SPDX-License-Identifier: MIT
// Drawers, classes and what is handed over in a real browser as a person would, for test_table_order.py; see browse.mjs.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { check, download, file, lookAt, out, says, start, still, tell, text, window } from "./browse.mjs";

const table = await start();
const fixture = (name) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
const held = (name) => ({ name: name.split("/").at(-1), mimeType: "application/json", buffer: readFileSync(fixture(name)) });
const example = (page, name = /Tide Table/) => page.getByRole("button", { name }).click();
/** What the file that is shown says now. */
/** Waits until a file says what is expected of it. */
async function until(page, where, expected) {
  for (let count = 0; count < 200; count += 1) {
    const said = await page.locator(where).evaluateAll(([area]) => area?.textContent ?? "");
    try {
      if (expected(JSON.parse(said))) return;
    } catch {
      // Not yet.
    }
    await page.waitForTimeout(100);
  }
  throw new Error(`the file never says ${expected}`);
}

/** Drops files on the page. */
async function drop(page, files) {
  const data = await page.evaluateHandle((files) => {
    const data = new DataTransfer();
    for (const { name, bytes } of files) data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return data;
  }, files.map(({ name, buffer }) => ({ name, bytes: buffer.toString("base64") })));
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
}

/** An album with an empty drawer, unfolded. */
async function withDrawer(page) {
  await example(page);
  await says(page, "#album .result", "4 pages");
  await page.locator("#part-drawer summary").first().click();
  await page.getByRole("button", { name: "A new drawer" }).click();
  await says(page, "#part-drawer summary", "0 sheets and offcuts");
}

async function lies(page, stock, sheet, count) {
  await page.locator("#lies-stock").selectOption(stock);
  await page.locator("#lies-sheet").fill(sheet);
  await page.locator("#lies-count").fill(count);
  await page.getByRole("button", { name: "Put it in the drawer" }).click();
}

/** A class of one group. */
async function begun(page) {
  await example(page);
  await page.getByRole("button", { name: "Make a class of it" }).click();
  await says(page, "#kits .result", "1 group of makers, 4 albums");
}

await check("a drawer of an album", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await withDrawer(page);
  await lies(page, "card", "A4", "4");
  await says(page, "#part-drawer fieldset", "A4: 4 are taken, nothing is left");
  await lies(page, "card", "210x83mm", "2");
  await page.locator("#at-drawer-stocks-card-1-count").waitFor();
  // What lies there already is more then; a paper comes to the others.
  await lies(page, "card", "A4", "2");
  await until(page, "#drawer-text", (file) => file.stocks.card[0].count === 6);
  await lies(page, "paper", "140x200mm", "");
  await until(page, "#drawer-text", (file) => file.stocks.paper[0].count === 1);
  // What can't be a sheet is told at the form.
  await lies(page, "card", "A44", "1");
  await says(page, "#lies-wrong", "A44");
  await lies(page, "card", "", "1");
  await says(page, "#lies-wrong", "missing");
  await lies(page, "card", "A3", "some");
  await says(page, "#lies-wrong", "no count");
  await lies(page, "card", "A3", "1");
  await page.locator("#at-drawer-stocks-card-2-count").waitFor();
  // Changed, and taken out.
  await page.locator("#at-drawer-stocks-card-0-count").fill("3");
  await says(page, "#part-drawer fieldset", "A4: 3 are taken, nothing is left");
  await page.locator("#at-drawer-stocks-card-2-sheet").fill("A33");
  await page.locator("#at-drawer-stocks-card-2-sheet[aria-invalid=true]").waitFor();
  must((await text(page, "#fit .result")).includes("can’t be used"), "what can't be used is not told");
  await page.locator("#part-drawer").getByRole("button", { name: /Let it go/ }).click();
  await page.locator("#at-drawer-stocks-card-2-sheet:not([aria-invalid])").waitFor();
  await page.getByRole("button", { name: /Remove it ?: A3 of card/ }).click();
  await page.locator("#at-drawer-stocks-card-2-sheet").waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator("#at-drawer-stocks-card-2-sheet").waitFor();
  await page.getByRole("button", { name: "Redo" }).click();
  await page.locator("#at-drawer-stocks-card-2-sheet").waitFor({ state: "detached" });
  must((await file(page)).drawer === "drawer.json", "the album names no drawer");
  await still(page);
  await download(page, "Everything in one zip", "drawer.zip");
  await download(page, "The drawer file, to keep", "drawer-kept.json");
  await download(page, "Save the drawer as it is after the job", "drawer-after.json");
  must((await text(page, "#take code")) === "hingeleaf kit tide-table.json --out kit", "the command is another");
  // The text can be changed, too.
  const written = await page.locator("#part-drawer").evaluate((part) => part.querySelector("#drawer-text").textContent);
  await page.getByText("The drawer file’s own text").click();
  await page.locator("#drawer-text").fill(written.replace('"count": 3', '"count": 5'));
  await page.getByRole("button", { name: /Use this text ?: the drawer/ }).click();
  await page.waitForFunction(() => document.querySelector("#at-drawer-stocks-card-0-count").value === "5");
  // It is there when the page is loaded anew.
  await page.reload();
  await until(page, "#drawer-text", (file) => file.stocks.card[0].count === 5);
  // Another one, none, and off the table.
  await page.locator("#part-drawer summary").first().click();
  await page.getByRole("button", { name: "A new drawer" }).click();
  await until(page, "#text", (file) => file.drawer === "drawer-2.json");
  await page.getByRole("button", { name: "Take this drawer off the table" }).click();
  await page.getByRole("button", { name: "No", exact: true }).click();
  await page.getByRole("button", { name: "Take this drawer off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "#part-drawer summary", "no drawer is used");
  await page.locator("#at-drawer").selectOption("drawer.json");
  await says(page, "#part-drawer summary", "are taken");
  await page.locator("#at-drawer").selectOption("");
  await says(page, "#part-drawer summary", "no drawer is used");
  must((await file(page)).drawer === undefined, "a drawer that is not used is named");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a drawer from a file, for an album and for a batch", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await example(page);
  await says(page, "#album .result", "4 pages");
  await page.locator("#part-drawer summary").first().click();
  await page.locator("#drawer-file").setInputFiles(held("drawers/bottom-drawer.json"));
  await says(page, "#part-drawer summary", "of 7 sheets and offcuts are taken");
  must((await file(page)).drawer === "bottom-drawer.json", "the album does not name the drawer");
  // A batch takes its albums' drawer, or names one itself.
  await page.getByRole("button", { name: "Make a batch of it" }).click();
  await says(page, "#kits .result", "1 kind of kit");
  await says(page, "#part-drawer summary", "of 7 sheets and offcuts are taken");
  await page.locator("#part-drawer summary").first().click();
  must((await page.locator("#at-drawer").inputValue()) === "", "the batch names the drawer of its album");
  await page.locator("#at-drawer").selectOption("bottom-drawer.json");
  await until(page, "#text", (file) => file.drawer === "bottom-drawer.json");
  await lies(page, "card", "A4", "3");
  await says(page, "#part-drawer summary", "of 10 sheets and offcuts are taken");
  await still(page);
  await download(page, "Everything in one zip", "batch-drawer.zip");
  await download(page, "Save the drawer as it is after the job", "batch-after.json");
  // The zip brings all of it back, beside what was there.
  await page.getByRole("button", { name: "Take this batch off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "#album .result", "4 pages");
  await drop(page, [{ name: "batch-drawer.zip", buffer: readFileSync(join(out, "batch-drawer.zip")) }]);
  await says(page, "#kits .result", "1 kind of kit");
  await says(page, "#part-drawer summary", "of 10 sheets and offcuts are taken");
  await still(page);
  await download(page, "Everything in one zip", "batch-drawer-again.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("what is wrong with a drawer is told at its place", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await example(page);
  await says(page, "#album .result", "4 pages");
  // Dropped on an album, it is its drawer.
  await drop(page, [held("drawers/torn.json")]);
  await says(page, "#fit .result", "Does not go together yet");
  await page.locator("#part-drawer summary").first().click();
  await says(page, "#part-drawer summary", "can’t be used yet");
  await page.locator("#at-drawer-stocks-card-0-sheet[aria-invalid=true]").waitFor();
  await says(page, "#part-drawer .findings", "torn.json, line 6");
  must((await text(page, "#take .result")).includes("Nothing to cut yet"), "there is something to take away");
  must((await page.getByRole("button", { name: "Everything in one zip" }).count()) === 0, "a zip is offered");
  // Mended by hand, step by step.
  await page.locator("#at-drawer-stocks-card-0-sheet").fill("A4");
  await page.locator("#at-drawer-stocks-card-0-sheet:not([aria-invalid])").waitFor();
  await page.getByText("The drawer file’s own text").click();
  await page.locator("#drawer-text").fill("{ torn");
  await page.getByRole("button", { name: /Use this text ?: the drawer/ }).click();
  await says(page, "#part-drawer .findings", "torn.json, line 1");
  await page.locator("#lies-stock").waitFor({ state: "detached" });
  await page.locator("#drawer-text").fill('{ "format": "hingeleaf-drawer/1", "stocks": { "reed": [{ "sheet": "A4" }] } }');
  await page.getByRole("button", { name: /Use this text ?: the drawer/ }).click();
  await says(page, "#fit .result", /^Goes together/);
  // Of a paper that the album has not, nothing is used; that is no fault.
  await says(page, "#part-drawer", "not used: nothing is cut from reed here");
  // A drawer that is not on the table is asked for.
  const album = await page.locator("#text").evaluate((area) => area.textContent);
  await page.getByText("The album file’s own text").click();
  await page.locator("#text").fill(album.replace("torn.json", "attic.json"));
  await page.locator("#take form").getByRole("button", { name: "Use this text" }).click();
  await says(page, "#fit .findings", "there is no attic.json on the table");
  await page.locator("#drawer-file").setInputFiles({ ...held("drawers/bottom-drawer.json"), name: "attic.json" });
  await says(page, "#fit .result", /^Goes together/);
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a class is made and taken away", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await begun(page);
  await page.locator("#class-makers-0 summary").click();
  const first = page.locator("#class-makers-0");
  await page.locator("#at-class-makers-0-name").fill("window");
  await says(page, "#class-makers-0 summary", "window");
  await page.locator("#at-class-makers-0-count").fill("3");
  await says(page, "#kits .result", "3 albums");
  await page.locator("#at-class-makers-0-by").selectOption("trimmer");
  await until(page, "#text", (file) => file.class.makers[0].by === "trimmer");
  await page.getByRole("button", { name: "Add a group of makers" }).click();
  await page.waitForFunction(() => document.activeElement?.matches("#class-makers-1 summary"));
  await page.locator("#at-class-makers-1-name").fill("long");
  await page.locator("#at-class-makers-1-count").fill("2");
  await page.locator("#at-class-makers-1-sheet-card").selectOption("letter");
  await says(page, "#class-makers-1 summary", "letter");
  // A machine of their own, typed here; then one whose file is brought.
  await page.locator("#at-class-makers-1-cutter").selectOption("(own)");
  await page.locator("#at-class-makers-1-cutter-margin").fill("4");
  await until(page, "#text", (file) => file.class.makers[1].cutter.margin === 4);
  await page.locator("#at-class-makers-1-cutter-kerf").fill("wide");
  await page.locator("#at-class-makers-1-cutter-kerf[aria-invalid=true]").waitFor();
  await page.locator("#at-class-makers-1-cutter-kerf").fill("0.1");
  await until(page, "#text", (file) => file.class.makers[1].cutter.kerf === 0.1);
  await page.locator("#at-class-makers-1-cutter-gap").fill("1");
  await page.locator("#at-class-makers-1-cutter-shared-cuts").selectOption("false");
  await until(page, "#text", (file) => file.class.makers[1].cutter.shared_cuts === false);
  await page.locator("#class-makers-1-cutter-file").setInputFiles(held("cutters/blade-12in.json"));
  await until(page, "#text", (file) => file.class.makers[1].cutter === "blade-12in.json");
  // The same again, and what it is handed.
  await page.locator("#class-makers-1").getByRole("button", { name: /One more like it/ }).click();
  await page.locator("#class-makers-2").waitFor();
  await page.locator("#at-class-makers-2-name").fill("guests");
  await page.locator("#at-class-makers-2-cutter").selectOption("");
  await page.locator("#at-class-makers-2-sheet-card").selectOption("");
  await page.locator("#at-class-makers-2-handed-over-card").selectOption("scored");
  await until(page, "#text", (file) => file.class.makers[2].handed_over?.card === "scored");
  await page.locator("#at-class-makers-2-handed-over-paper").selectOption("scored");
  // What is the same of all is said in one word.
  await until(page, "#text", (file) => file.class.makers[2].handed_over === "scored");
  // Something else in a group, and a paper of its own.
  await page.locator("#class-makers-0-new").selectOption("pages[1].overflap");
  await first.getByRole("button", { name: /Add a change/ }).click();
  await page.keyboard.type("46");
  await until(page, "#text", (file) => file.class.makers[0].change["pages[1].overflap"] === 46);
  await first.getByRole("button", { name: /As in the album/ }).click();
  await until(page, "#text", (file) => file.class.makers[0].change === undefined);
  await page.locator("#class-makers-0-like").selectOption("paper");
  await page.locator("#class-makers-0-paper").fill("moss");
  await first.getByRole("button", { name: /Use that paper/ }).click();
  await first.getByText("Paper of this group: moss").waitFor();
  await first.getByRole("button", { name: /The album’s paper instead/ }).click();
  await first.getByText("Paper of this group: moss").waitFor({ state: "detached" });
  // What all groups share.
  await page.locator("#part-class summary").click();
  await page.locator("#at-class-shared-by").fill("3");
  await page.locator("#at-class-brings").fill("Aprons, all sizes; a kettle");
  await until(page, "#text", (file) => file.class.brings?.length === 2);
  await page.locator("#class-new").selectOption("page.seam");
  await page.locator("#part-class").getByRole("button", { name: /Add a change/ }).click();
  await page.keyboard.type("13");
  await until(page, "#text", (file) => file.class.change["page.seam"] === 13);
  await page.locator("#part-class").getByRole("button", { name: /As in the album/ }).click();
  await until(page, "#text", (file) => file.class.change === undefined);
  await page.getByLabel("Name of the class").fill("Paper Evening");
  await says(page, "#line .name", "Paper Evening");
  // What is told of it: the teacher's list.
  await says(page, "#fit .result", /^All kits go together/);
  await says(page, "#batch-class", "Bring this to the class");
  await says(page, "#batch-class table", "window");
  await still(page);
  must(JSON.stringify((await file(page)).class.makers.map((one) => [one.name, one.count])) === '[["window",3],["long",2],["guests",2]]', "the makers are others");
  await download(page, "Everything in one zip", "class.zip");
  await download(page, "The page for window, to print", "window.html");
  await download(page, "The job sheet, to print", "class-job.html");
  await download(page, "The class file, to keep", "class-kept.json");
  must((await text(page, "#take code")) === "hingeleaf kit tide-table-class.json --out kit", "the command is another");
  await page.locator("#class-makers-2").getByRole("button", { name: /Remove it/ }).click();
  await says(page, "#kits .result", "2 groups of makers, 5 albums");
  // Its album is changed for all of them.
  await first.getByRole("button", { name: /Open its album/ }).click();
  await says(page, "#album .result", "148 × 190");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

const other = await start(fixture("batches/paper-evening.json"));

await check("a class that is opened and brought back", async (must) => {
  const { context, page, complaints } = await window(other.address);
  // Makers' pages, guides and job sheet of three groups take their time.
  const patient = (context) => context.setDefaultTimeout(60_000);
  patient(context);
  await says(page, "#kits .result", "3 groups of makers, 18 albums");
  await page.locator("#class-makers-1 summary").click();
  must((await page.locator("#at-class-makers-1-sheet-card").inputValue()) === "letter", "the sheet of the group is not shown");
  must((await page.locator("#at-class-makers-1-sheet-paper").inputValue()) === "", "a sheet is shown for paper that comes in another");
  must((await page.locator("#at-class-makers-1-cutter").inputValue()) === "blade-12in.json", "the machine of the group is not shown");
  await page.locator("#class-makers-2 summary").click();
  must((await page.locator("#at-class-makers-2-handed-over-paper").inputValue()) === "scored", "what is handed over is not shown");
  must((await page.locator("#at-class-brings").inputValue()) === "Aprons, and a kettle for the break", "what the teacher brings is not shown");
  // Smaller, so that it is quick.
  for (const at of [0, 1, 2]) {
    await page.locator(`#class-makers-${at}`).evaluate((one) => { one.open = true; });
    await page.locator(`#at-class-makers-${at}-count`).fill("1");
  }
  await page.locator("#part-whole summary").click();
  await page.locator("#at-spares-kits").fill("");
  await says(page, "#kits .result", "3 albums");
  // A sheet that stood for several is said of each once one is another.
  await page.locator("#at-class-makers-0-sheet-paper").selectOption("12x12in");
  await until(page, "#text", (file) => file.class.makers[0].sheet.card === "A4" && file.class.makers[0].sheet.paper === "12x12in");
  await page.locator("#at-class-makers-0-sheet-card").selectOption("(own)");
  await page.locator("#at-class-makers-0-sheet-card").fill("A55");
  await page.locator("#at-class-makers-0-sheet-card[aria-invalid=true]").waitFor();
  await page.locator("#class-makers-0").getByRole("button", { name: /Let it go/ }).first().click();
  // A group whose sheets are too small is named, at its own field.
  await page.locator("#at-class-makers-1-sheet-card").selectOption("A5");
  await says(page, "#fit .findings .stop", "long-table");
  await page.locator("#at-class-makers-1-sheet-card").selectOption("letter");
  await says(page, "#fit .result", /^All kits go together/);
  await page.locator("#part-class summary").click();
  await page.locator("#at-class-album").selectOption("tide-table.json");
  await still(page);
  await download(page, "Everything in one zip", "class-opened.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
  // Its zip brings it back, with album and cutter.
  const back = await window(table.address);
  patient(back.context);
  await back.page.locator(".examples button").first().waitFor();
  await drop(back.page, [{ name: "class-opened.zip", buffer: readFileSync(join(out, "class-opened.zip")) }]);
  await says(back.page, "#kits .result", "3 groups of makers, 3 albums");
  await says(back.page, "#fit .result", /^All kits go together/);
  await still(back.page);
  await download(back.page, "Everything in one zip", "class-again.zip");
  // Alone, its album and its cutter are asked for; these may lie in other folders.
  const alone = await window(table.address);
  patient(alone.context);
  await alone.page.locator(".examples button").first().waitFor();
  // A maker each is enough.
  const few = readFileSync(fixture("batches/paper-evening.json"), "utf8").replace(/"count": \d+/g, '"count": 1').replace(/"spares".*\n/, "");
  await drop(alone.page, [{ name: "paper-evening.json", buffer: Buffer.from(few) }]);
  await says(alone.page, "h1", "paper-evening.json can’t be read yet");
  await alone.page.locator("#kit-file").setInputFiles(held("tide-table.json"));
  await says(alone.page, "#fit .findings", "blade-12in.json on the table");
  await drop(alone.page, [held("cutters/blade-12in.json")]);
  await says(alone.page, "#fit .result", /^All kits go together/);
  for (const one of [back, alone]) must(one.complaints.length === 0, one.complaints.join("; "));
  await back.context.close();
  await alone.context.close();
});

other.child.kill();

await check("what is handed over, and in which language", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await example(page);
  await says(page, "#album .result", "4 pages");
  await page.locator("#part-handed summary").click();
  await page.locator("#at-handed-over-card").selectOption("scored");
  await until(page, "#text", (file) => file.handed_over.card === "scored");
  await page.locator("#at-handed-over-card").selectOption("");
  await until(page, "#text", (file) => file.handed_over === undefined);
  await page.locator("#part-every summary").click();
  await page.locator("#at-language").selectOption("de");
  await until(page, "#text", (file) => file.language === "de");
  await page.locator("#at-language").selectOption("");
  await until(page, "#text", (file) => file.language === undefined);
  await page.getByRole("button", { name: "Make a batch of it" }).click();
  await says(page, "#kits .result", "1 kind of kit");
  await page.locator("#part-handed summary").click();
  await page.locator("#at-handed-over-card").selectOption("cut");
  await page.locator("#at-handed-over-paper").selectOption("scored");
  await until(page, "#text", (file) => file.handed_over.card === "cut" && file.handed_over.paper === "scored");
  await page.locator("#at-language").selectOption("de");
  await until(page, "#text", (file) => file.language === "de");
  // The page's own tables stay in its own language.
  await page.locator("#part-terms summary").click();
  await page.locator("#at-selling-packaging").fill("1.5");
  await says(page, "#batch-cost", "Price to ask");
  await still(page);
  await download(page, "Everything in one zip", "handed.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

/** The states that are looked at: what leads to each from the first visit. */
const STATES = {
  "a drawer with sheets": async (page) => {
    await withDrawer(page);
    await lies(page, "card", "A4", "4");
    await says(page, "#part-drawer fieldset", "A4");
    await lies(page, "card", "210x83mm", "2");
    await page.locator("#at-drawer-stocks-card-1-count").waitFor();
    await lies(page, "paper", "A44", "1");
    await page.locator("#lies-wrong").waitFor();
    await still(page);
  },
  "a torn drawer": async (page) => {
    await example(page);
    await says(page, "#album .result", "4 pages");
    await drop(page, [held("drawers/torn.json")]);
    await says(page, "#fit .result", "Does not go together yet");
    await page.locator("#part-drawer summary").first().click();
    await page.evaluate(() => { for (const one of document.querySelectorAll("#part-drawer details")) one.open = true; });
    await still(page);
  },
  "a class with everything unfolded": async (page) => {
    await begun(page);
    await page.getByRole("button", { name: "Add a group of makers" }).click();
    await page.locator("#at-class-makers-1-cutter").selectOption("(own)");
    await page.locator("#at-class-makers-1-cutter-kerf").fill("wide");
    await page.locator("#at-class-makers-1-cutter-kerf[aria-invalid=true]").waitFor();
    await page.evaluate(() => { for (const one of document.querySelectorAll("details")) one.open = true; });
    await still(page);
  },
};

for (const [name, lead] of Object.entries(STATES)) await lookAt(table.address, name, lead);

table.child.kill();
await tell();
