// SPDX-License-Identifier: MIT
// Looks at the table in a real browser as it is seen: what lies over what, what is cut off, what stands in a line; see browse.mjs.

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { check, says, start, still, tell, text, window } from "./browse.mjs";

const table = await start();
const fixture = (name) => readFileSync(fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url)));

/** A window at an album of fixtures/. */
async function at(album, viewport, has = {}) {
  const { context, page, complaints } = await window(table.address, { viewport, ...has });
  await page.locator(".examples button").first().waitFor();
  await page.locator("#file").setInputFiles([{ name: album.split("/").at(-1), mimeType: "application/json", buffer: fixture(album) }]);
  await page.locator("#line .verdict, .findings").first().waitFor();
  return { context, page, complaints };
}

const box = (page, where) => page.locator(where).first().evaluate((one) => one.getBoundingClientRect().toJSON());

await check("the run of pages keeps to its own place", async (must) => {
  for (const [width, album] of [[768, "tide-table.json"], [1440, "field-notes.json"], [1920, "field-notes.json"]]) {
    const { context, page } = await at(album, { width, height: 900 });
    await page.locator("#page-0").click();
    await says(page, "#chosen-title", "Page 1");
    const [leaf, add] = [await box(page, "#page-0"), await box(page, "#another")];
    must(leaf.bottom <= add.top, `at ${width} px the first page reaches ${leaf.bottom - add.top} px over what adds one`);
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    must(wider <= 0, `at ${width} px the page is ${wider} px wider than its window`);
    await context.close();
  }
});

await check("the run of pages is printed", async (must) => {
  const { context, page } = await at("tide-table.json", { width: 794, height: 1123 });
  await page.emulateMedia({ media: "print" });
  const shown = await page.locator(".fan img").evaluateAll((all) => all.filter((one) => one.checkVisibility() && one.getBoundingClientRect().height > 20).length);
  must(shown === 4, `${shown} of 4 pages are on the paper`);
  must(await page.locator(".place, #another").evaluateAll((all) => all.every((one) => !one.checkVisibility())), "what one presses is on the paper");
  await context.close();
});

await check("a picture over the whole window begins with something to see", async (must) => {
  const { context, page } = await at("towpath-year.json", { width: 360, height: 740 });
  await page.locator("#fit .plate").click();
  await page.locator("#large-picture").waitFor();
  await page.waitForTimeout(300);
  // How much of what the window shows is not blank.
  const { x, y, width, height } = await box(page, "#large-room");
  const shot = (await page.screenshot({ clip: { x: x + 15, y: y + 15, width: width - 30, height: height - 30 } })).toString("base64");
  const ink = await page.evaluate(async (shot) => {
    const bytes = Uint8Array.from(atob(shot), (one) => one.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes]));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
    canvas.drawImage(bitmap, 0, 0);
    const { data } = canvas.getImageData(0, 0, bitmap.width, bitmap.height);
    let dark = 0;
    for (let at = 0; at < data.length; at += 4) if (data[at] < 128) dark += 1;
    return dark;
  }, shot);
  must(ink > 200, `${ink} dark points are seen`);
  await context.close();
});

await check("the verdict is never cut off, and leaves room", async (must) => {
  for (const [width, height] of [[360, 740], [720, 450]]) {
    const { context, page } = await at("faulty/insert-snug.json", { width, height });
    await says(page, "#line .verdict", "may disappoint");
    if (height < 500) await page.evaluate(() => { document.documentElement.style.fontSize = "32px"; });
    const [cut, line] = [await page.locator("#line .verdict").evaluate((one) => one.scrollHeight - one.clientHeight), await box(page, "#line")];
    must(cut <= 1, `at ${width} px, ${cut} px of the verdict are cut off`);
    must(line.height < height * 0.45, `at ${width} px, it takes ${line.height} px of ${height}`);
    await context.close();
  }
});

await check("the chosen page is known by its frame where the reader's colours hold", async (must) => {
  const { context, page } = await at("tide-table.json", { width: 900, height: 900 }, { forcedColors: "active" });
  await page.locator("#page-0").click();
  await says(page, "#chosen-title", "Page 1");
  const frame = (where) => page.locator(where).evaluate((one) => getComputedStyle(one).borderTopColor);
  must(await frame("#page-0") !== await frame("#page-2"), "a chosen page and another have the same frame");
  await context.close();
});

await check("the album's name is read in full", async (must) => {
  const { context, page } = await at("field-notes.json", { width: 1440, height: 900 });
  const cut = (where) => page.locator(where).evaluate((one) => {
    const style = getComputedStyle(one);
    const canvas = document.createElement("canvas").getContext("2d");
    canvas.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const words = one.nodeName === "SELECT" ? one.selectedOptions[0].textContent : one.value;
    // A list's arrow takes some of it.
    return canvas.measureText(words).width + (one.nodeName === "SELECT" ? 16 : 0) - (one.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight));
  });
  for (const where of ["#which", "#at-title"]) must(await cut(where) <= 1, `${await cut(where)} px are missing in ${where}`);
  await context.close();
});

await check("fields of a row stand in one line", async (must) => {
  const { context, page } = await at("tide-table.json", { width: 1440, height: 900 });
  await page.locator("#part-spine > summary").click();
  await page.locator("#part-drawer > summary").click();
  await page.getByRole("button", { name: "A new drawer" }).click();
  await page.locator("#lies-sheet").waitFor();
  await still(page);
  const off = await page.locator(".fields, .sold").evaluateAll((all) => all.filter((one) => one.checkVisibility()).flatMap((one) => {
    const fields = [...one.children].filter((field) => field.matches(".field")).map((field) => [field.getBoundingClientRect(), field.querySelector("input, select").getBoundingClientRect(), field.textContent.slice(0, 20)]);
    return fields.flatMap(([box, control, words], at) => fields.slice(at + 1).filter(([other, its]) => other.top < box.bottom && box.top < other.bottom && Math.abs(its.top - control.top) > 1).map(([, , others]) => `${words} and ${others}`));
  }));
  must(off.length === 0, off.join(", "));
  await context.close();
});

await check("the drawing is as large as there is room", async (must) => {
  for (const [width, least] of [[1440, 1.2], [360, 1]]) {
    const { context, page } = await at("tide-table.json", { width, height: 900 });
    await page.locator("#page-1").click();
    await page.locator(".sized .on-card").first().waitFor();
    await page.waitForTimeout(300);
    const field = await box(page, ".on-card input");
    must(field.height >= 40 * least - 0.1, `at ${width} px a size is ${field.height} px tall`);
    const rows = await page.locator(".sized > figure").evaluateAll((all) => new Set(all.map((one) => Math.round(one.getBoundingClientRect().bottom))).size);
    must(width < 900 || rows === 1, `at ${width} px the pieces stand in ${rows} rows`);
    // Fields stay on the lines that they measure: within their card.
    const out = await page.locator(".on-card").evaluateAll((all) => all.flatMap((card) => [...card.querySelectorAll("input")].filter((one) => {
      const [a, b] = [one.getBoundingClientRect(), card.getBoundingClientRect()];
      return a.left < b.left - 1 || a.right > b.right + 1 || a.top < b.top - 1 || a.bottom > b.bottom + 1;
    }).length));
    must(out.every((count) => count === 0), `at ${width} px fields lie beside their card: ${out}`);
    await context.close();
  }
  // With letters of twice the size, what is typed is read in full.
  const { context, page } = await at("seed-ledger.json", { width: 1440, height: 900 });
  await page.evaluate(() => { document.documentElement.style.fontSize = "32px"; });
  await page.locator("#page-1").click();
  await page.locator(".sized .on-card input").first().waitFor();
  await page.waitForTimeout(300);
  const label = await page.locator(".on-card .size span").first().evaluate((one) => one.getBoundingClientRect().height);
  must(label >= 24, `its name is ${label} px tall`);
  await context.close();
});

await check("no sentence ends twice, and no fraction breaks", async (must) => {
  const { context, page } = await at("broken/many-at-once.json", { width: 900, height: 900 });
  const said = await text(page, "#table");
  must(said.includes("Did you mean") && !/[?.]\./.test(said), said.match(/.{20}[?.]\./)?.[0] ?? "nothing is asked");
  await context.close();
  const other = await at("lighthouse-log.json", { width: 360, height: 740 });
  await says(other.page, "#sheets .laid", "Left over");
  const broken = await other.page.locator("p, span, li").evaluateAll((all) => all.flatMap((one) => [...one.childNodes].filter((node) => node.nodeType === 3).flatMap((node) => [...node.data.matchAll(/\d\s\d+\/\d+/g)].filter(({ 0: words, index }) => {
    const range = document.createRange();
    range.setStart(node, index);
    range.setEnd(node, index + words.length);
    return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1;
  }).map(([words]) => words))));
  must(broken.length === 0, `broken: ${broken.join(", ")}`);
  await other.context.close();
});

await check("a sheet is called as one says it", async (must) => {
  const { context, page } = await at("tide-table.json", { width: 900, height: 900 });
  const select = page.locator("#sheets select[data-path='stocks.paper.sheet']");
  const [value, words] = await select.evaluate((one) => [one.value, one.selectedOptions[0].textContent]);
  must(value === "12x12in" && words === "12 × 12 in", `the file's ${value} is called ${words}`);
  await context.close();
});

await check("nothing is known of what waits for the program", async (must) => {
  const { context, page } = await at("tide-table.json", { width: 1440, height: 900 });
  await says(page, "#line .takes", "6 sheets of card");
  await page.route("**/*", (route) => route.abort());
  await page.locator("#at-page-width").fill("150");
  await page.keyboard.press("Tab");
  await says(page, "#line .verdict", "not known yet");
  must((await page.locator("#line .takes").count()) === 0, "the sheets of the album before are told as this one's");
  await context.close();
});

await check("kinds are chosen two in a row on a phone", async (must) => {
  const { context, page } = await at("tide-table.json", { width: 360, height: 740 });
  await page.locator("#another").click();
  await page.locator(".offers img").nth(12).waitFor();
  const lefts = await page.locator(".offers li").evaluateAll((all) => new Set(all.map((one) => Math.round(one.getBoundingClientRect().left))).size);
  must(lefts === 2, `${lefts} kinds stand in a row`);
  must((await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)) <= 0, "it is wider than its window");
  await context.close();
});

table.child.kill();
await tell();
