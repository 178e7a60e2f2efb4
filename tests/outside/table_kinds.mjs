// SPDX-License-Identifier: MIT
// Brings kinds of one's own to the table in a real browser as a person would, for test_table_kinds.py; see browse.mjs.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { check, download, file, lookAt, out, says, start, still, tell, until, window } from "./browse.mjs";

const table = await start();
const kind = readFileSync(fileURLToPath(new URL("../all/kinds/step-pocket.json", import.meta.url)));
/** An album of two of its pages, which names the kind in a folder. */
const album = `{
  "format": "hingeleaf-album/1",
  "title": "Steps",
  "kinds": ["own/step-pocket.json"],
  "stocks": { "card": { "sheet": "A3", "caliper": 0.3 }, "ochre": { "sheet": "A3", "caliper": 0.3 } },
  "page": { "width": 120, "height": 150 },
  "pages": [{ "kind": "step-pocket" }, { "kind": "step-pocket", "mouth": 60, "stock": "ochre" }]
}
`;
const json = (name, text) => ({ name, mimeType: "application/json", buffer: Buffer.from(text) });
const files = [json("steps.json", album), json("step-pocket.json", kind)];

/** Drops a file on the page. */
async function drop(page, { name, buffer }) {
  const data = await page.evaluateHandle(({ name, text }) => {
    const data = new DataTransfer();
    data.items.add(new File([text], name));
    return data;
  }, { name, text: buffer.toString() });
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
}

/** The album on the table with its kind. */
async function steps(page) {
  await page.locator(".examples button").first().waitFor();
  await page.locator("#file").setInputFiles(files);
  await says(page, "#album .result", "2 pages");
}

await check("an album with a kind of its own is changed and taken away", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await steps(page);
  must((await file(page)).kinds[0] === "step-pocket.json", "the file is not called by its name alone");
  await page.locator("#another").click();
  await page.locator(".offers [data-kind=step-pocket]").click();
  await says(page, "#album .result", "3 pages");
  await page.locator("#at-pages-2-mouth").fill("45");
  await until(page, ({ pages }) => pages[2].mouth === 45);
  await page.keyboard.press("Tab");
  await still(page);
  await download(page, "Everything in one zip", "steps.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a kind file that is missing is opened", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.locator(".examples button").first().waitFor();
  await page.locator("#file").setInputFiles([files[0]]);
  await says(page, ".findings", "there is no own/step-pocket.json on the table");
  await page.locator("#kit-file").setInputFiles([files[1]]);
  await says(page, "#album .result", "2 pages");
  await page.reload();
  await says(page, "#album .result", "2 pages");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a kind file is added to an album, and taken back", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await drop(page, files[1]);
  await until(page, ({ kinds }) => kinds?.[0] === "step-pocket.json");
  await page.locator("#another").click();
  await page.locator(".offers [data-kind=step-pocket] img").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await until(page, ({ kinds }) => !kinds);
  must(await page.locator(".offers [data-kind=step-pocket]").count() === 0, "its pages can be chosen still");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a kind and its drawing are brought, apart or together", async (must) => {
  const moon = { name: "moon.svg", mimeType: "image/svg+xml", buffer: Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20"><circle cx="9" cy="8" r="7"/></svg>') };
  const view = JSON.stringify({ format: "hingeleaf-kind/1", name: "view", is: "page", about: "a leaf to look through", pieces: { view: { height: "height", panels: [
    { name: "view", width: "width", holes: [{ outline: { file: "moon.svg", width: "width / 3" }, at: ["20 mm", "20 mm"] }] }] } } });
  const views = album.replace("own/step-pocket.json", "view.json").replace('{ "kind": "step-pocket" }, { "kind": "step-pocket", "mouth": 60, "stock": "ochre" }', '{ "kind": "view" }, { "kind": "view", "stock": "ochre" }');
  for (const together of [true, false]) {
    const { context, page, complaints } = await window(table.address);
    await page.locator(".examples button").first().waitFor();
    await page.locator("#file").setInputFiles([json("views.json", views), json("view.json", view), ...(together ? [moon] : [])]);
    if (!together) {
      await says(page, ".findings", "there is no moon.svg on the table");
      await drop(page, moon);
    }
    await says(page, "#album .result", "2 pages");
    await still(page);
    await download(page, "Everything in one zip", `views-${together ? "together" : "apart"}.zip`);
    must(complaints.length === 0, complaints.join("; "));
    await context.close();
  }
});

await check("a folder of kinds is brought with its album, or after it", async (must) => {
  const low = json("low.json", kind.toString().replace('"step-pocket"', '"low-pocket"'));
  const all = json("folder.json", album.replace('["own/step-pocket.json"]', '"kinds/"').replace('"Steps"', '"Folder"'));
  for (const together of [true, false]) {
    const { context, page, complaints } = await window(table.address);
    await page.locator(".examples button").first().waitFor();
    await page.locator("#file").setInputFiles([all, ...(together ? [files[1], low] : [])]);
    if (!together) {
      await says(page, ".findings", "there is no kinds/ on the table");
      await page.locator("#kit-file").setInputFiles([files[1], low]);
    }
    await says(page, "#album .result", "2 pages");
    must((await file(page)).kinds.join() === "step-pocket.json,low.json", "the files are not named one by one");
    await page.locator("#another").click();
    await page.locator(".offers [data-kind=low-pocket]").click();
    await says(page, "#album .result", "3 pages");
    await still(page);
    await download(page, "Everything in one zip", `folder-${together ? "together" : "apart"}.zip`);
    must(complaints.length === 0, complaints.join("; "));
    await context.close();
  }
});

await check("the zip brings the kind back", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.locator(".examples button").first().waitFor();
  await page.locator("#file").setInputFiles(join(out, "steps.zip"));
  await says(page, "#album .result", "3 pages");
  await still(page);
  await download(page, "Everything in one zip", "steps-again.zip");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await lookAt(table.address, "an album with a kind of its own", async (page) => {
  await steps(page);
  await page.locator("#page-0").click();
  await still(page);
});

table.child.kill();
await tell();
