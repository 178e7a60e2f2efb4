// SPDX-License-Identifier: MIT
// Uses the table in a real browser as a person would, for test_table.py; see browse.mjs.

import { check, download, file, lookAt, says, settled, start, still, tell, text, until, window } from "./browse.mjs";

const table = await start();

await check("the whole job", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages of 148 × 190 mm");
  // A size in inches in an album in millimetres: 5 3/4 in = 146.05 mm.
  await page.locator("#at-page-width").fill("5 3/4 in");
  await says(page, "#album .result", "146.05 × 190 mm");
  await page.getByLabel("Measured in").selectOption("in");
  await says(page, "#album .result", "5 3/4");
  must((await page.locator("#at-page-width").inputValue()) === "5 3/4", "the width is not shown in inches");
  await page.getByLabel("Measured in").selectOption("mm");
  await says(page, "#album .result", "146.05 × 190 mm");
  // Page 2 is a wallet with its pocket on the back; it becomes page 1.
  await page.locator("#page-1").click();
  await page.getByRole("button", { name: "Move earlier" }).click();
  await says(page, "#chosen-title", "Page 1: Wallet");
  await page.locator("#page-0").dragTo(page.locator("#page-3"));
  await says(page, "#chosen-title", "Page 4: Wallet");
  await page.locator("#page-3").focus();
  await page.keyboard.press("Alt+ArrowLeft");
  await says(page, "#chosen-title", "Page 3: Wallet");
  // A flap of 30 mm does not reach over a pocket of 110 mm on a page of 146.05 mm: 146.05 - 110 = 36.05.
  await page.locator(".fields [data-path$=overflap]").fill("30");
  await says(page, "#fit .result", "Does not go together yet");
  await page.locator("#fit .findings .stop").first().waitFor();
  must((await text(page, "#sheets .result")).includes("No sheets"), "sheets are shown of an album that does not go together");
  await page.locator("#fit").getByRole("button", { name: /^Mend: Page 3, closing flap/ }).click();
  await says(page, "#fit .result", "Goes together");
  const mended = await page.locator(".fields [data-path$=overflap]").inputValue();
  must(Number(mended) >= 36.05, `the mended flap is ${mended}`);
  await page.getByLabel("Sheet of card").selectOption("12x12in");
  await says(page, "#sheets .told, #album .told", "price");
  await settled(page);
  must(/no layout can do it in fewer|not known/.test(await text(page, "#sheets .result")), "it is not said whether fewer is possible");
  // Each stock that takes more than one sheet says why not fewer do; one sheet needs no reason.
  const reasons = await page.locator("#sheets .stock .why").allTextContents();
  must(reasons.length === 2 && reasons.every((text) => /^Why not in fewer: .+\.$/.test(text)), `the reasons are: ${reasons}`);
  must(reasons.some((text) => /\d × [a-z]+-/.test(text)), `no part is named: ${reasons}`);
  await page.getByLabel("Sheet of paper").selectOption("SRA2");
  await says(page, "#sheets [data-key='stocks.paper']", "1 sheet,");
  must((await page.locator("#sheets [data-key='stocks.paper'] .why").count()) === 0, "one sheet of paper has a reason");
  must((await page.locator("#sheets [data-key='stocks.card'] .why").count()) === 1, "the card has lost its reason");
  await page.getByLabel("Sheet of paper").selectOption("12x12in");
  await settled(page);
  must((await download(page, "Everything in one zip", "kit.zip")) === "tide-table.zip", "the zip has another name");
  await download(page, "The album file, to keep");
  must((await download(page, "Templates at true size", "templates.pdf")) === "templates.pdf", "the templates have another name");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("edges of pages and inserts", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "148 × 190");
  await page.locator("#page-0").click();
  await says(page, "#chosen-title", "Page 1: Pocket");
  await page.locator("#chosen summary", { hasText: "Edges and corners" }).click();
  const add = page.locator("#chosen form[data-do='add-edge']");
  await add.getByLabel("Cut the edge").selectOption("front/mouth");
  await add.getByLabel("to a").selectOption("scallop");
  await add.getByRole("button", { name: "Cut it" }).click();
  await says(page, "#chosen .edges summary", "1 cut");
  await says(page, "#fit .result", "Goes together");
  // Repeats of 8 mm on 190 less two seams of 12 mm: 21 of 7.9 mm, of which two fifths are 3.16 mm.
  await page.locator("#chosen .edges").getByLabel("How deep").fill("6");
  await says(page, "#fit .result", "Does not go together yet");
  await page.locator("#chosen .edges .mend").first().click();
  await says(page, "#fit .result", "Goes together");
  const mended = Number(await page.locator("#chosen .edges").getByLabel("How deep").inputValue());
  must(mended > 2.5 && mended <= 3.17, `the mended depth is ${mended}`);
  await page.locator("#chosen .edges").getByRole("button", { name: /Leave it straight/ }).click();
  await page.locator("#chosen .edges summary").filter({ hasNotText: "cut" }).waitFor();
  await says(page, "#fit .result", "Goes together");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("undo, redo, several albums, kept", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "148 × 190");
  await page.locator("#at-page-height").fill("195");
  await says(page, "#album .result", "148 × 195");
  await page.getByRole("button", { name: "Undo" }).click();
  await says(page, "#album .result", "148 × 190");
  await page.getByRole("button", { name: "Redo" }).click();
  await says(page, "#album .result", "148 × 195");
  await page.getByLabel("On the table").selectOption("new");
  await page.getByRole("button", { name: /Seed Ledger/ }).click();
  await says(page, "#album .result", "in,");
  await page.getByLabel("On the table").selectOption({ index: 0 });
  await says(page, "#album .result", "148 × 195");
  await page.reload();
  await says(page, "#album .result", "148 × 195");
  // The example begins anew beside the album that was made from it.
  await page.getByLabel("On the table").selectOption("new");
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "148 × 190");
  must((await page.getByLabel("On the table").innerText()).includes("tide-table-2.json"), "the new album has no name of its own");
  await page.getByRole("button", { name: "Take this album off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(page, "#album .result", "148 × 195");
  must((await page.getByLabel("On the table").locator("option").count()) === 3, "an album got lost");
  // An answer that comes late, when another album lies on the table, is not put into that one.
  let late, asked;
  const held = new Promise((resolve) => { late = resolve; });
  const under_way = new Promise((resolve) => { asked = resolve; });
  await page.route("**/work", async (route) => { asked(); await held; await route.continue(); }, { times: 1 });
  await page.locator("#at-page-height").fill("205");
  // Else it may be the other album's question that is held.
  await under_way;
  await page.getByLabel("On the table").selectOption({ index: 1 });
  await says(page, "#album .result", "in,");
  late();
  await page.waitForTimeout(1000);
  must((await text(page, "#album .result")).includes("in,"), "a late answer was put into another album");
  must((await page.getByLabel("Name of the album").inputValue()) === "Seed Ledger", "a late answer renamed another album");
  // What is written into the album's own text stays while the page goes on.
  await page.getByText("The album file’s own text").click();
  await page.locator("#text").fill("{}");
  await page.locator("#at-page-height").focus();
  await page.waitForTimeout(1500);
  must((await page.locator("#text").inputValue()) === "{}", "what was written into the text is gone");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

/** Many pages: the fourth of them is like the first. */
const many = JSON.stringify({
  format: "hingeleaf-album/1", title: "Long Walk", stocks: { card: { sheet: "A3" } }, page: { width: 120, height: 150 },
  pages: Array.from({ length: 24 }, (_, at) => (at % 3 ? { kind: "pocket" } : { kind: "wallet", pocket: 90, overflap: 45, faces: at % 2 ? "back" : "front" })),
});
const put = (page, name, text) => page.locator("#file").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });

await check("what is seen comes first, and goes again where it is taken back", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await put(page, "walk.json", many);
  await says(page, "#album .result", "120 × 150");
  // The second line of an answer comes late, as that of a large album does.
  await page.evaluate(() => {
    const ask = globalThis.fetch;
    globalThis.fetch = async (what, options) => {
      const reply = await ask(what, options);
      if (what !== "work") return reply;
      const [first, rest] = (await reply.text()).split("\n");
      const letters = new TextEncoder();
      return new Response(new ReadableStream({
        start(lines) {
          lines.enqueue(letters.encode(rest ? `${first}\n` : first));
          const later = setTimeout(() => { if (rest) lines.enqueue(letters.encode(rest)); lines.close(); }, 3000);
          options.signal?.addEventListener("abort", () => { clearTimeout(later); lines.error(new DOMException("", "AbortError")); });
        },
      }));
    };
  });
  const pictures = () => page.evaluate(() => [...document.querySelectorAll("aside img, .fan img")].map((img) => img.src));
  const comes = async (so, words) => {
    for (let count = 0; count < 400; count += 1) {
      if (so(await pictures())) return;
      await page.waitForTimeout(25);
    }
    must(false, words);
  };
  const before = await pictures();
  must(before.length === 25, `${before.length} pictures instead of 25`);
  await page.locator("#at-page-width").fill("135");
  await comes(([album]) => album !== before[0], "there is no other picture");
  const seen = await pictures();
  must(seen.every((src, at) => src !== before[at]), "not every page is seen as it will be");
  must((await text(page, "#album .result")).includes("120 × 150"), "it is said before it is known");
  must((await page.locator("#at-page-width").inputValue()) === "135", "what was typed is gone");
  await says(page, "#album .result", "135 × 150");
  must(JSON.stringify(await pictures()) === JSON.stringify(seen), "the pictures change twice");
  // Taken back before it is answered, nothing of it stays.
  await page.locator("#at-page-width").fill("128");
  await comes(([album]) => album !== seen[0], "there is no other picture");
  await page.getByRole("button", { name: "Undo" }).click();
  await comes((now) => JSON.stringify(now) === JSON.stringify(seen), "what was taken back is still seen");
  must((await text(page, "#album .result")).includes("135 × 150"), "undo took back more");
  must((await page.locator("#at-page-width").inputValue()) === "135", "the field shows what was taken back");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a page that is chosen comes into view", async (must) => {
  for (const width of [360, 1200]) {
    const { context, page } = await window(table.address, { viewport: { width, height: 800 } });
    await put(page, "long-walk.json", many);
    await says(page, "#album .result", "24 pages");
    must((await page.locator(".leaf:not([tabindex='-1'])").count()) === 1, "the run is more than one stop for Tab");
    await page.locator("#page-3").click();
    await says(page, "#chosen-title", "Page 4: Wallet");
    const [title, line] = [await page.locator("#chosen-title").boundingBox(), await page.locator("#line").boundingBox()];
    const [top, foot] = line.y > 400 ? [0, line.y] : [line.y + line.height, 800];
    must(title.y >= top && title.y + title.height <= foot, `at ${width} px the form begins at ${title.y} of ${top} to ${foot}`);
    must(await page.evaluate(() => document.activeElement.id === "chosen-title"), "the focus is not in the form");
    must((await page.locator(".leaf:not([tabindex='-1'])").getAttribute("id")) === "page-3", "Tab leads to another page than the chosen one");
    await page.keyboard.press("Escape");
    must(await page.evaluate(() => document.activeElement.id === "page-3"), "Escape does not lead back to the page");
    must((await page.locator("#chosen").count()) === 0, "Escape leaves the form open");
    await page.keyboard.press("ArrowRight");
    must((await page.locator(".leaf:not([tabindex='-1'])").getAttribute("id")) === "page-4", "an arrow key does not take the stop along");
    await context.close();
  }
});

await check("numbers on the drawing are fields", async (must) => {
  for (const width of [360, 1440]) {
    const { context, page, complaints } = await window(table.address, { viewport: { width, height: 800 } });
    await page.getByRole("button", { name: /Tide Table/ }).click();
    await settled(page);
    await page.locator("#page-1").click();
    const flap = page.getByLabel("On the drawing: flap, across");
    await flap.waitFor();
    must((await flap.inputValue()) === "45", `the flap's number is ${await flap.inputValue()}`);
    // By keys alone, from the form's beginning.
    for (let count = 0; count < 12 && !(await flap.evaluate((one) => one === document.activeElement)); count += 1) await page.keyboard.press("Tab");
    must(await flap.evaluate((one) => one === document.activeElement), "no Tab leads to the flap's number");
    const box = await flap.boundingBox();
    must(box.width >= 40 && box.height >= 40 && box.x >= 0 && box.x + box.width <= width, `the number lies at ${JSON.stringify(box)}`);
    const before = await page.locator(".sized img").nth(1).getAttribute("src");
    await flap.fill("70");
    await page.waitForFunction((before) => document.querySelectorAll(".sized img")[1].src !== before, before);
    must((await page.locator(".fields [data-path$=overflap]").inputValue()) === "70", "the list has another number");
    must(await flap.evaluate((one) => one === document.activeElement && one.value === "70"), "the number lost the focus, or what was typed");
    await flap.fill("many");
    await says(page, "#line .verdict", "can’t be used");
    must((await flap.getAttribute("aria-invalid")) === "true", "the number is not marked");
    must((await page.locator(".fields [data-path$=overflap]").inputValue()) === "many", "the list does not show what is typed");
    await page.locator(".fields [data-path$=overflap]").fill("50");
    await page.waitForFunction(() => document.querySelector(".sized [data-path$=overflap]").value === "50");
    await says(page, "#line .verdict", "Goes together");
    // The spine has its sizes on its drawing, too, once its form is unfolded.
    await page.locator("#part-spine > summary").click();
    const tab = page.locator("#on-spine-at-spine-tab");
    await tab.waitFor();
    const at = await tab.boundingBox();
    must(at.width >= 40 && at.height >= 40 && at.x >= 0 && at.x + at.width <= width, `the tab's number lies at ${JSON.stringify(at)}`);
    const strip = await page.locator("#part-spine .sized img").first().getAttribute("src");
    await tab.fill("14");
    await page.waitForFunction((strip) => document.querySelector("#part-spine .sized img").src !== strip, strip);
    must((await page.locator("#at-spine-tab").inputValue()) === "14", "the spine's list has another number");
    must(await tab.evaluate((one) => one === document.activeElement && one.value === "14"), "the tab's number lost the focus, or what was typed");
    must(complaints.length === 0, complaints.join("; "));
    await context.close();
  }
});

await check("all pages of a kind at once", async (must) => {
  for (const width of [360]) {
    const { context, page, complaints } = await window(table.address, { viewport: { width, height: 800 } });
    await page.getByRole("button", { name: /Tide Table/ }).click();
    await says(page, "#album .result", "148 × 190");
    await page.locator("#page-1").click();
    // By keys alone: the button is the first thing in the form.
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await says(page, "#chosen-title", "All 2 pages of the kind wallet");
    await says(page, "#chosen", "Pages 2 and 3: what is changed here is changed in each of them.");
    must(await page.evaluate(() => document.activeElement.dataset.do === "together"), "the focus is lost");
    must((await page.locator(".leaf.with").count()) === 2, "the run does not show which pages they are");
    await says(page, "#chosen", "They differ: page 2 has back, page 3 has front.");
    const flap = page.locator("#at-pages-wallet-overflap");
    /** Waits until the wallets have these sizes. */
    const wallets = (field, ...sizes) => page.waitForFunction(([field, sizes]) => JSON.stringify(JSON.parse(document.querySelector("#text").textContent).pages.slice(1, 3).map((one) => one[field])) === sizes, [field, JSON.stringify(sizes)]);
    await page.locator("#at-pages-wallet-pocket").fill("108");
    await wallets("pocket", 108, 108);
    // The drawing has the same numbers, for all of them, too.
    const drawn = page.getByLabel("On the drawing: flap, across");
    await drawn.waitFor();
    const box = await drawn.boundingBox();
    must(box.width >= 40 && box.height >= 40 && box.x >= 0 && box.x + box.width <= width, `the number lies at ${JSON.stringify(box)}`);
    await drawn.fill("52");
    await wallets("overflap", 52, 52);
    must((await flap.inputValue()) === "52", "the list has another number");
    // What can't be used is used in none, and is let go at its place.
    await flap.fill("many");
    await says(page, "#line .verdict", "All pages of the kind wallet");
    await page.locator("#chosen .field").getByRole("button", { name: /^Let it go/ }).click();
    await says(page, "#line .verdict", "oes together");
    // Each is one step back, for both pages.
    await page.getByRole("button", { name: "Undo" }).click();
    await wallets("overflap", 45, 45);
    await wallets("pocket", 108, 108);
    await page.getByRole("button", { name: "Undo" }).click();
    await wallets("pocket", 110, 110);
    await page.getByRole("button", { name: "Page 2 alone" }).click();
    await says(page, "#chosen-title", "Page 2: Wallet");
    await page.locator(".fields [data-path$=overflap]").fill("48");
    await wallets("overflap", 48, 45);
    await page.getByRole("button", { name: "Change all 2 of this kind at once" }).click();
    await says(page, "#chosen", "They differ: page 2 has 48, page 3 has 45.");
    must((await flap.inputValue()) === "", "one of two sizes stands for both");
    // Another window, and this one loaded anew, show the same album.
    await page.reload();
    await says(page, "#album .result", "148 × 190");
    await wallets("overflap", 48, 45);
    must(complaints.length === 0, complaints.join("; "));
    await context.close();
  }
});

await check("no fault empties the pictures", async (must) => {
  const { context, page } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(page);
  const images = () => page.evaluate(() => Object.fromEntries(["aside", ".fan", "#fit", ".steps", ".parts", ".laid"].map((where) => [where, document.querySelectorAll(`${where} img`).length])));
  const before = await images();
  must(Object.values(before).every((count) => count > 0), `there are pictures missing from the start: ${JSON.stringify(before)}`);
  // Twice the lead-in is more than the strip is tall: nothing can be made of it.
  await page.locator("#at-page-height").fill("5");
  await says(page, "#fit .result", "Does not go together yet");
  await page.waitForTimeout(1500);
  const after = await images();
  must(JSON.stringify(after) === JSON.stringify(before), `${JSON.stringify(after)} instead of ${JSON.stringify(before)}`);
  must(!(await text(page, "#folds .result")).includes("0 pieces"), "it is said to be of no pieces");
  const bright = await page.evaluate(() => [...document.querySelectorAll("aside img, .fan img, .steps img, .laid img")].filter((one) => !one.closest(".before, .old")).length);
  must(bright === 0, `${bright} pictures of before look like those of now`);
  await page.locator("#at-page-height").fill("190");
  await says(page, "#fit .result", "Goes together");
  await settled(page);
  must((await page.locator(".before").count()) === 0, "what is of now is dimmed");
  await context.close();
});

await check("another sheet is a button, and the last page stays", async (must) => {
  const { context, page } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(page);
  await page.locator("#page-1").click();
  // A pocket of 110 and a flap of 180 over it are too wide for A4, not for A3 (420 mm).
  await page.locator("#at-page-height").fill("280");
  await says(page, "#fit .findings", "too tall");
  await page.locator("#fit").getByRole("button", { name: "Choose another sheet" }).first().click();
  must(await page.evaluate(() => document.activeElement.id === "sheet-of-card"), "the focus is not on the sheet");
  await page.locator("#fit").getByRole("button", { name: /^Take .* for card$/ }).first().click();
  await says(page, "#fit .result", "Goes together");
  must(await page.evaluate(() => document.activeElement !== document.body), "the focus is lost");
  for (let left = 3; left > 0; left -= 1) {
    await page.locator("#page-0").focus();
    await page.keyboard.press("Delete");
    await says(page, "#album .result", `${left} page`);
  }
  await page.locator("#page-0").focus();
  await page.keyboard.press("Delete");
  await says(page, ".run .wrong", "An album needs at least one page: put another page in first.");
  must(!(await text(page, "#word")).length, "it is said twice");
  await context.close();
});

await check("what can be taken back outlasts a reload", async (must) => {
  const { context, page } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "148 × 190");
  for (const height of ["195", "200"]) {
    await page.locator("#at-page-height").fill(height);
    await says(page, "#album .result", `148 × ${height}`);
    await page.locator("#at-page-height").blur();
    await page.waitForTimeout(1600);
  }
  await page.getByRole("button", { name: "Undo" }).click();
  await says(page, "#album .result", "148 × 195");
  await page.reload();
  await says(page, "#album .result", "148 × 195");
  await page.getByRole("button", { name: "Redo" }).click();
  await says(page, "#album .result", "148 × 200");
  for (const height of ["195", "190"]) {
    await page.getByRole("button", { name: "Undo" }).click();
    await says(page, "#album .result", `148 × ${height}`);
  }
  must((await page.getByRole("button", { name: "Undo" }).getAttribute("aria-disabled")) === "true", "there are more steps than were made");
  await context.close();
});

await check("a sheet opens over the whole window", async (must) => {
  for (const width of [360, 1440]) {
    const { context, page } = await window(table.address, { viewport: { width, height: 800 } });
    await page.getByRole("button", { name: /Tide Table/ }).click();
    await settled(page);
    const sheet = page.locator("#sheets .plate").first();
    await sheet.focus();
    await page.keyboard.press("Enter");
    const seen = () => page.evaluate(() => {
      const [dialog, room, img] = ["large", "large-room", "large-picture"].map((id) => document.getElementById(id).getBoundingClientRect());
      return { window: dialog.width === innerWidth && Math.abs(dialog.height - innerHeight) < 1, room: [room.width, room.height], img: [img.width, img.height] };
    });
    const first = await seen();
    must(first.window, "it does not take the whole window");
    await page.keyboard.press("+");
    must((await seen()).img[0] > first.img[0] * 1.2, "+ does not make it larger");
    await page.keyboard.press("-");
    await page.mouse.move(width / 2, 500);
    await page.mouse.wheel(0, -100);
    await page.waitForFunction((before) => document.getElementById("large-picture").getBoundingClientRect().width > before * 1.05, first.img[0]);
    await page.keyboard.press("0");
    const all = await seen();
    must(all.img[0] <= all.room[0] && all.img[1] <= all.room[1], "0 does not show all of it");
    await page.keyboard.press("Escape");
    await page.locator("#large").waitFor({ state: "detached" });
    must(await sheet.evaluate((one) => one === document.activeElement), "the focus does not go back to the sheet");
    // Letters stand in mm of the picture, so its px to a mm say how tall they are.
    await page.evaluate(() => { for (const one of document.querySelectorAll("details")) one.open = true; });
    await page.locator(".parts .plate").first().waitFor();
    const small = await page.evaluate(async () => {
      const { svgOf } = await import(new URL("picture.js", location.href));
      const found = [];
      for (const plate of document.querySelectorAll(".plate")) {
        const svg = svgOf(plate.querySelector("img").src);
        const letters = Math.min(...[...svg.matchAll(/font-size="([\d.]+)"/g)].map(([, size]) => Number(size)));
        plate.click();
        const large = document.getElementById("large-picture").getBoundingClientRect();
        found.push({ plate: plate.innerText, letters, px: letters * large.width / Number(/width="([\d.]+)mm"/.exec(svg)[1]) });
        document.getElementById("large").close();
        await new Promise((done) => setTimeout(done, 20));
      }
      return found;
    });
    must(small.some(({ letters }) => letters * 3 < 11), `no picture needs more room for its letters: ${small.map(({ letters }) => letters)}`);
    for (const { plate, letters, px } of small) must(px >= 10.99, `letters of ${letters} mm are ${px} px in ${plate}`);
    await context.close();
  }
});

await check("green is for what may not disappoint, and signs keep their shapes", async (must) => {
  const { context, page } = await window(table.address, { forcedColors: "active" });
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(page);
  must((await page.locator("#fit .result.good, #line .verdict.good").count()) === 2, "what goes together without a warning is not green");
  // Six mm of the spine's base between two pages are enough, three are few.
  await page.locator("#part-spine summary").click();
  await page.locator("#at-spine-pitch").fill("3");
  await says(page, "#line .verdict", "may disappoint");
  must((await page.locator("#fit .result.may, #line .verdict.may").count()) === 2, "what may disappoint is said in another colour");
  must((await page.locator("#fit .result.good, #line .verdict.good").count()) === 0, "what may disappoint is green");
  const signs = await page.evaluate(() => ["#fit .mark.warn", "#fit .result", "#line .verdict"].map((where) => {
    const { backgroundColor, clipPath } = getComputedStyle(document.querySelector(where), "::before");
    return { where, backgroundColor, clipPath, ground: getComputedStyle(document.body).backgroundColor };
  }));
  for (const { where, backgroundColor, clipPath, ground } of signs) {
    must(clipPath.startsWith("polygon"), `the sign of ${where} is no triangle`);
    must(backgroundColor !== ground && backgroundColor !== "rgba(0, 0, 0, 0)", `the sign of ${where} is ${backgroundColor} on ${ground}`);
  }
  await context.close();
});

await check("what can't be read is said at once", async (must) => {
  const { context, page } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  const width = page.locator("#at-page-width");
  await width.fill("14 furlongs");
  await page.locator(".field .wrong").first().waitFor();
  must((await width.getAttribute("aria-invalid")) === "true", "the field is not marked");
  must((await text(page, "#album .result")).includes("148 × 190"), "what can't be read changed the album");
  await width.fill("150");
  await says(page, "#album .result", "150 × 190");
  must((await page.locator(".field .wrong").count()) === 0, "the field is still marked");
  // A file that is dropped on the page.
  const data = await page.evaluateHandle(() => {
    const data = new DataTransfer();
    data.items.add(new File(['{ "format": "hingeleaf-album/1",\n  "page": { "width": 6 1/2 } }'], "torn.json", { type: "application/json" }));
    return data;
  });
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
  await says(page, "h1", "torn.json can’t be read yet");
  must((await text(page, ".findings")).includes("Line 2"), "it is not said where");
  await page.getByLabel(/The file’s text/).fill('{ "format": "hingeleaf-album/1", "page": { "width": 140, "height": 180 }, "pages": [{ "kind": "pocket" }] }');
  await page.getByRole("button", { name: "Read it again" }).click();
  await says(page, "#album .result", "1 page of 140 × 180 mm");
  await context.close();
});

await check("the run stands fanned out, with places between its pages", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  const turns = () => page.evaluate(() => [...document.querySelectorAll(".fan li")].map((one) => parseFloat(one.style.getPropertyValue("--turn"))));
  await page.waitForFunction(() => document.querySelector(".fan li")?.style.getPropertyValue("--turn"));
  const four = await turns();
  must(four[0] < four[1] && four[1] < 0 && four[2] > 0 && Math.abs(four[0] + four[3]) < 1e-9, `turned by ${four}`);
  // Each kind as it would stand in this album; each picture another one.
  await page.locator("#place-2").click();
  await says(page, "#chosen-title", "Another page between pages 2 and 3");
  await page.waitForFunction(() => [...document.querySelectorAll(".offers button")].every((one) => one.querySelector("img")?.complete));
  const { kinds, pictures } = await page.evaluate(() => ({ kinds: document.querySelectorAll(".offers li").length, pictures: new Set([...document.querySelectorAll(".offers img")].map((one) => one.src)).size }));
  must(kinds > 10 && pictures === kinds, `${kinds} kinds have ${pictures} pictures`);
  await page.locator(".offers [data-kind=waterfall]").click();
  await until(page, ({ pages }) => pages.length === 5 && pages[2].kind === "waterfall");
  must((await page.locator(".offers").count()) === 0, "the kinds are still there");
  await page.waitForFunction(() => document.querySelector("#page-2 img")?.naturalWidth > 0);
  // The drawing is the new page's, though another one was drawn in its place before.
  await says(page, ".sized figcaption", "step pocket");
  must((await page.locator(".sized figcaption").filter({ hasText: "wallet" }).count()) === 0, "the drawing is of the page that was there before");
  // Dropped between two pages it comes to lie there, from before it or from behind it.
  await page.locator("#page-2").dragTo(page.locator("#place-5"));
  await until(page, ({ pages }) => pages[4].kind === "waterfall");
  await page.locator("#page-4").dragTo(page.locator("#place-1"));
  await until(page, ({ pages }) => pages[1].kind === "waterfall");
  await page.locator("#place-0").click();
  await says(page, "#chosen-title", "Another page before page 1");
  await page.getByRole("button", { name: "Cancel" }).click();
  must((await file(page)).pages.length === 5, "no page was wanted, and one came");
  // Sixty stand in rows that are full but for the last, none too small for a finger, in no window out of view.
  const sixty = await file(page);
  sixty.pages = Array.from({ length: 60 }, () => sixty.pages[0]);
  await page.evaluate(async (text) => {
    const [keep, queue] = await Promise.all(["keep.js", "queue.js"].map((name) => import(new URL(name, location.href))));
    keep.open("sixty.json", text);
    queue.look();
  }, JSON.stringify(sixty));
  await until(page, ({ pages }) => pages.length === 60);
  for (const width of [360, 768, 1440]) {
    await page.setViewportSize({ width, height: 800 });
    await page.waitForFunction(() => document.querySelectorAll(".fan li").length === 60);
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    const boxes = await page.evaluate(() => [...document.querySelectorAll(".fan button")].map((one) => ({ id: one.id, ...one.getBoundingClientRect().toJSON() })));
    const bad = boxes.filter((one) => one.width < 39.9 || one.height < 39.9 || one.left < 0 || one.right > width);
    must(bad.length === 0, `at ${width} px ${JSON.stringify(bad.slice(0, 3))}`);
    must((await page.evaluate(() => document.documentElement.scrollWidth)) <= width, `wider than ${width} px`);
  }
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("every size on a drawing says what it is, in full", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  await page.locator("#page-0").click();
  const kinds = await page.locator("#kind-pages-0- option").evaluateAll((all) => all.map((one) => one.value));
  let named = 0;
  for (const kind of kinds.concat("spine", "cover", "inches")) {
    if (kind === "inches") {
      // A waterfall's numbers are usual ones, which are longer in inches.
      await page.locator("#kind-pages-0-").selectOption("waterfall");
      await page.locator("#units").selectOption("in");
      await says(page, "#album .result", "53/64");
    } else if (kind === "spine") await page.locator("#part-spine > summary").click();
    else if (kind === "cover") {
      await page.locator("#part-cover > summary").click();
      await page.locator("#kind-cover").selectOption("case");
      await page.locator("#part-cover .size").first().waitFor();
    } else {
      await page.locator("#kind-pages-0-").selectOption(kind);
      await until(page, ({ pages }) => pages[0].kind === kind);
    }
    await still(page);
    const sizes = await page.evaluate(() => [...document.querySelectorAll(".size")].map((one) => {
      const [span, input] = one.children;
      return { words: span.textContent, wide: span.scrollWidth, room: one.clientWidth, says: input.value || input.placeholder, name: input.getAttribute("aria-label"), cut: input.scrollWidth > input.clientWidth };
    }));
    for (const one of sizes) must(one.words && one.wide <= one.room && /^\d/.test(one.says) && !one.cut && one.name.startsWith(one.words), `${kind}: ${JSON.stringify(one)}`);
    named += sizes.length;
  }
  must(kinds.length > 12 && named > 40, `${kinds.length} kinds, ${named} sizes`);
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("what a button did is done with what it said", async (must) => {
  const { context, page, complaints } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "4 pages");
  // Taken out, the panels can be put on again by the button that stands there then.
  await page.locator("#part-panels summary").click();
  await page.getByRole("button", { name: "No panels" }).click();
  await until(page, ({ panels }) => !panels);
  await page.getByRole("button", { name: "Panels on the faces" }).click();
  await until(page, ({ panels }) => panels);
  must((await page.locator(".gone").count()) === 0, "something went wrong on the page");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("by keys alone", async (must) => {
  const { context, page } = await window(table.address);
  await page.locator(".examples button").first().waitFor();
  /** Goes on with Tab until a control has the focus. */
  const tabTo = async (where, most = 150) => {
    for (let count = 0; count < most; count += 1) {
      if (await page.evaluate((where) => document.activeElement?.matches(where), where)) return;
      await page.keyboard.press("Tab");
    }
    throw new Error(`no Tab leads to ${where}`);
  };
  await tabTo(".examples button");
  await page.keyboard.press("Enter");
  await says(page, "#album .result", "4 pages");
  await tabTo("#page-0");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await says(page, "#chosen-title", "Page 2: Wallet");
  await page.keyboard.press("Alt+ArrowRight");
  await page.keyboard.press("Alt+ArrowRight");
  await says(page, "#chosen-title", "Page 4: Wallet");
  must(await page.evaluate(() => document.activeElement?.id === "page-3"), "the moved page lost the focus");
  await page.keyboard.press("Delete");
  await says(page, "#album .result", "3 pages");
  await page.keyboard.press("Control+z");
  await says(page, "#album .result", "4 pages");
  await tabTo("#another");
  await page.keyboard.press("Enter");
  await says(page, "#chosen-title", "Another page");
  await tabTo(".offers [data-kind=pocket]", 20);
  await page.keyboard.press("Enter");
  await says(page, "#album .result", "5 pages");
  // Between pages: down from a page to the place behind it, along the places, and up again.
  await page.locator("#page-0").focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await says(page, "#chosen-title", "Another page between pages 2 and 3");
  must(await page.evaluate(() => document.activeElement?.id === "chosen-title"), "what was opened has not the focus");
  await page.keyboard.press("Escape");
  must(await page.evaluate(() => document.activeElement?.id === "place-2"), "the place lost the focus when it was closed");
  must((await page.locator(".offers").count()) === 0, "the kinds are still there");
  await page.keyboard.press("ArrowUp");
  must(await page.evaluate(() => document.activeElement?.id === "page-1"), "up from a place does not lead to the page before it");
  await tabTo("#part-cover summary");
  await page.keyboard.press("Enter");
  await tabTo("#kind-cover");
  // Whoever is faster than the program goes on from what was chosen, whatever is drawn meanwhile.
  await page.route("**/work", (route) => setTimeout(() => route.continue(), 400));
  await page.keyboard.press("ArrowDown");
  await page.evaluate(async () => (await import(new URL("shown.js", location.href))).render());
  must((await page.locator("#kind-cover").inputValue()) === "case", "what was chosen is not shown while it waits");
  await page.keyboard.press("ArrowDown");
  await says(page, "#album .result", "a wrap cover");
  // The same of the unit: from mm over cm to inches.
  await page.locator("#units").focus();
  await page.keyboard.press("ArrowDown");
  await page.evaluate(async () => (await import(new URL("shown.js", location.href))).render());
  must((await page.locator("#units").inputValue()) === "cm", "the unit that was chosen is not shown while it waits");
  await page.keyboard.press("ArrowDown");
  await says(page, "#album .result", "5 53/64");
  await page.unroute("**/work");
  await page.locator("#units").selectOption("mm");
  await says(page, "#album .result", "mm");
  await page.locator("#kind-cover").focus();
  // A cover that is bought has sizes of its own; what is chosen after it does not take them over.
  await page.keyboard.press("ArrowDown");
  await says(page, "#part-cover", "bought or made before");
  await page.keyboard.press("ArrowUp");
  await says(page, "#album .result", "a wrap cover");
  await tabTo("#sheet-of-card");
  await tabTo("#take button");
  // Focus can be seen: what has it has an outline.
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineWidth);
  must(parseFloat(outline) >= 2, `what has the focus has an outline of ${outline}`);
  await context.close();
});

/** The states that are looked at: what leads to each from the first visit. */
const STATES = {
  "the first visit": async (page) => page.locator(".examples button").first().waitFor(),
  "an album": async (page) => {
    await page.getByRole("button", { name: /Tide Table/ }).click();
    await settled(page);
  },
  "everything unfolded": async (page) => {
    await page.getByRole("button", { name: /Garden Year/ }).click();
    await settled(page);
    await page.locator("#page-1").click();
    await page.evaluate(() => { for (const one of document.querySelectorAll("details")) one.open = true; });
    await page.locator(".parts img").first().waitFor();
  },
  "an album that does not go together": async (page) => {
    await STATES["an album"](page);
    await page.locator("#page-1").click();
    await page.locator(".fields [data-path$=overflap]").fill("30");
    await says(page, "#fit .result", "Does not go together yet");
  },
  "a field that can't be read": async (page) => {
    await STATES["an album"](page);
    await page.locator("#page-1").click();
    await page.getByRole("button", { name: "Change all 2 of this kind at once" }).click();
    await says(page, "#chosen", "They differ");
    await page.locator("#at-page-width").fill("wide");
    await page.locator(".field .wrong").first().waitFor();
  },
  "a file that can't be read": async (page) => {
    await STATES["the first visit"](page);
    await page.locator("#file").setInputFiles({ name: "torn.json", mimeType: "application/json", buffer: Buffer.from("{ \"format\": ") });
    await says(page, "h1", "can’t be read yet");
  },
  "a size of the machine that can't be read": async (page) => {
    await STATES["an album"](page);
    await page.getByText("Your machine, or your hand").click();
    await page.locator("#at-cutter-margin").fill("500");
    await says(page, "#fit .result", "Nothing can be cut");
  },
  "the program gone": async (page) => {
    await STATES["an album"](page);
    await page.route("**", (route) => route.abort());
    await page.locator("#at-page-height").fill("191");
    await says(page, "#word", "One change waits");
  },
  "before the program is ended": async (page) => {
    await STATES["an album"](page);
    await page.getByRole("button", { name: "End the program" }).click();
    await page.getByRole("button", { name: "End it" }).waitFor();
  },
};

for (const [name, lead] of Object.entries(STATES)) await lookAt(table.address, name, lead);

await check("the program ends when it is asked to", async (must) => {
  const ended = new Promise((done) => table.child.once("exit", done));
  const { context, page } = await window(table.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  // The page's foot moves down while the album comes in.
  await settled(page);
  await page.getByRole("button", { name: "End the program" }).click();
  await page.getByRole("button", { name: "End it" }).click();
  await says(page, "#word", "does not answer any more");
  must((await ended) === 0, "it did not end well");
  await download(page, "Keep the album file", "after-the-end.json");
  // The same port again: the albums are still there.
  const port = new URL(table.address).port;
  const other = await start("--port", port);
  await page.goto(other.address);
  await says(page, "#album .result", "4 pages");
  // The old address is of another run, and says so.
  await page.goto(table.address);
  await says(page, "h1", "not of this run");
  other.child.kill();
  await context.close();
});

table.child.kill();
await tell();
