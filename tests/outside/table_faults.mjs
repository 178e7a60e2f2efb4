// SPDX-License-Identifier: MIT
// What a person does amiss at the table, in a real browser: nothing is lost, nothing wrong is handed out; see browse.mjs.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { machineOnPage } from "./on_machine.mjs";
import { check, download, out, says, settled, start, tell, text, window } from "./browse.mjs";

const table = await start();
const kept = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("hingeleaf-table")));
const zip = (page) => page.getByRole("button", { name: "Everything in one zip" });
const open = async (has) => {
  const at = await window(table.address, has);
  await at.page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(at.page);
  return at;
};
const machine = (page) => page.getByText("Your machine, or your hand").click();

await check("the tick for a trimmer does what it says", async (must) => {
  const { context, page, complaints } = await open();
  await machine(page);
  await page.getByLabel(/I cut by hand on a trimmer/).check();
  await says(page, "#sheets summary .is", "edge-to-edge cuts");
  must((await kept(page)).machine.trimmer === true, "the tick is not kept");
  // What is taken away now is cut from edge to edge, as the command line does it when it is told so.
  await download(page, "Everything in one zip", "trimmer.zip");
  await page.reload();
  await machine(page);
  must(await page.getByLabel(/I cut by hand on a trimmer/).isChecked(), "the tick is gone after loading anew");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

for (const typed of ["500", "x", "-1"]) {
  await check(`a margin of ${typed} is refused at its field`, async (must) => {
    const { context, page, complaints } = await open();
    await machine(page);
    const margin = page.locator("#at-cutter-margin");
    await margin.fill(typed);
    await page.locator("#at-cutter-margin-wrong").waitFor();
    must((await margin.getAttribute("aria-invalid")) === "true", "the field is not marked");
    must((await text(page, "#fit .result")).includes("a size of your machine can’t be used"), "the verdict does not say so");
    must((await text(page, "#fit .findings")).includes("Your machine, margin"), "it is not among what stops it");
    must((await zip(page).count()) === 0, "there is a zip to take");
    must((await page.locator("#take button[data-do=file], #take button[data-do=kit]").count()) === 0, "there are files to take");
    must(!(await text(page, "#sheets .result")).includes("fewer"), "sheets are spoken of");
    // Unseen fields say so, too.
    await page.reload();
    await says(page, "#sheets summary", "Stops");
    await machine(page);
    await margin.fill("5");
    await zip(page).waitFor();
    must((await page.locator("#at-cutter-margin-wrong").count()) === 0, "the field is still marked");
    must(complaints.length === 0, complaints.join("; "));
    await context.close();
  });
}

await check("a width that can't be read holds everything back", async (must) => {
  const { context, page, complaints } = await open();
  const width = page.locator("#at-page-width");
  await width.fill("abc");
  await says(page, "#fit .result", "“abc” can’t be used");
  must(!(await text(page, "#fit .result")).includes("Goes together"), "it is said to go together");
  must((await text(page, "#line .verdict")).includes("“abc” can’t be used"), "the verdict at the side is another");
  must((await page.locator("#take button[data-do=file], #take button[data-do=kit]").count()) === 0, "there are files to take");
  must((await page.getByRole("button", { name: "The album file, to keep" }).getAttribute("aria-disabled")) === "true", "the album file is without what is typed");
  // Leaving the field alters nothing; letting go does.
  await page.locator("#at-page-height").focus();
  must((await width.inputValue()) === "abc", "what was typed is gone");
  await page.locator(".field").getByRole("button", { name: "Let it go" }).click();
  await says(page, "#fit .result", "Goes together");
  must((await width.inputValue()) === "148", "the field does not show what holds");
  await zip(page).waitFor();
  // A press that is quicker than the answer gives nothing of the old size.
  let given = false;
  page.on("download", () => { given = true; });
  await page.route("**/work", async (route) => { await new Promise((done) => setTimeout(done, 700)); await route.continue(); }, { times: 1 });
  await width.fill("abc");
  await zip(page).click();
  await says(page, "#fit .result", "“abc” can’t be used");
  await page.waitForTimeout(1500);
  must(!given, "a zip of the old size was given");
  // Undo takes it back as well.
  await page.getByRole("button", { name: "Undo" }).click();
  await says(page, "#fit .result", "Goes together");
  must((await width.inputValue()) === "148", "undo leaves what was typed");
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("a new size is in the zip however soon it is pressed", async (must) => {
  const { context, page } = await open();
  await page.route("**/work", async (route) => { await new Promise((done) => setTimeout(done, 700)); await route.continue(); }, { times: 1 });
  await page.locator("#at-page-width").fill("140");
  await download(page, "The cutting list", "soon.csv");
  must(/\b140\b/.test(readFileSync(join(out, "soon.csv"), "utf8")), "what is taken away is of the old size");
  await says(page, "#album .result", "140 × 190");
  await context.close();
});

await check("what is not used keeps its page while others would move", async (must) => {
  const { context, page } = await open();
  await page.locator("#page-1").click();
  await page.locator(".fields [data-path$=overflap]").fill("much");
  await says(page, "#fit .result", "can’t be used");
  await page.getByRole("button", { name: "Move earlier" }).click();
  await says(page, "#word", "First mend or let go");
  await page.locator("#fit").getByRole("button", { name: "Let it go" }).click();
  await says(page, "#fit .result", "Goes together");
  await context.close();
});

await check("the maker's own names stay as they are", async (must) => {
  const { context, page } = await open();
  await page.getByText("Card, paper and board").click();
  for (const name of ["pitch", "grain"]) {
    await page.locator("#new-stock").fill(name);
    await page.getByRole("button", { name: "Add it" }).last().click();
    await says(page, "#part-papers .is", name);
  }
  await page.locator("#new-stock").fill("pitch");
  await page.getByRole("button", { name: "Add it" }).last().click();
  await says(page, "#word", "there is a paper called “pitch” already");
  // The page's own field of that name is still called as the page calls it.
  await page.getByText("Spine", { exact: true }).click();
  await page.locator(".fields [data-path$=overflap]").or(page.getByLabel(/Lead-in/)).first().fill("spine.tab");
  await says(page, "#part-spine .wrongs", "“spine.tab”");
  must((await text(page, "#part-spine .wrongs")).includes("lead-in"), "the field is not called as on the page");
  await context.close();
});

await check("undo takes the machine's settings back", async (must) => {
  const { context, page, complaints } = await open();
  await machine(page);
  const margin = page.locator("#at-cutter-margin");
  await margin.fill("7");
  // Steps stand in the order in which they were done: this one first.
  await page.waitForFunction(() => JSON.parse(localStorage.getItem("hingeleaf-table")).albums.some((one) => one.kind === "cutter" && JSON.parse(one.text).margin === 7));
  await page.getByLabel(/I cut by hand on a trimmer/).check();
  await page.locator("#at-page-height").fill("185");
  await says(page, "#album .result", "148 × 185");
  const undo = page.getByRole("button", { name: "Undo" });
  await undo.click();
  await says(page, "#album .result", "148 × 190");
  must((await kept(page)).machine.trimmer, "undo took two steps");
  await undo.click();
  await says(page, "#sheets summary .is", "any layout");
  must((await margin.inputValue()) === "7", "the margin went with the tick");
  await undo.click();
  await page.waitForFunction(() => document.getElementById("at-cutter-margin").value === "");
  must((await undo.getAttribute("aria-disabled")) === "true", "there is more to undo");
  for (let count = 0; count < 3; count += 1) await page.getByRole("button", { name: "Redo" }).click();
  await says(page, "#album .result", "148 × 185");
  const { machine: { trimmer, name }, albums } = await kept(page);
  const again = JSON.parse(albums.find((one) => one.name === name).text).margin;
  must(trimmer && again === 7, `redo gives ${trimmer} and ${again}`);
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("two windows of one album lose nothing of either", async (must) => {
  const { context, page } = await open();
  const other = await context.newPage();
  await other.goto(table.address);
  await says(other, "#album .result", "148 × 190");
  await page.locator("#at-page-width").fill("150");
  await says(page, "#album .result", "150 × 190");
  await says(other, "#album .result", "150 × 190");
  must((await text(other, "#album")).includes("changed in another window"), "it is not said that another window changed it");
  await other.locator("#at-page-height").fill("180");
  await says(other, "#album .result", "150 × 180");
  await says(page, "#album .result", "150 × 180");
  // Both ask before either is answered.
  for (const one of [page, other]) await one.route("**/work", async (route) => { await new Promise((done) => setTimeout(done, 600)); await route.continue(); }, { times: 1 });
  await Promise.all([page.locator("#at-page-width").fill("141"), other.locator("#at-page-height").fill("171")]);
  for (const one of [page, other]) await says(one, "#album .result", "141 × 171");
  // An album and a setting of one window are there when the other writes.
  await page.getByLabel("On the table").selectOption("new");
  await page.getByRole("button", { name: /Seed Ledger/ }).click();
  await says(page, "#album .result", "in,");
  await machine(page);
  await page.locator("#at-cutter-gap").fill("2");
  await page.waitForTimeout(500);
  await other.locator("#at-page-height").fill("172");
  await says(other, "#album .result", "141 × 172");
  const { albums: files, machine: { name } } = await kept(page);
  const albums = files.filter((one) => !one.kind);
  const { gap } = JSON.parse(files.find((one) => one.name === name).text);
  must(albums.length === 2 && gap === 2, `${albums.length} albums are kept, and a gap of ${gap}`);
  must((await text(page, "#album .result")).includes("in,"), "the other window's album came onto this table");
  must(JSON.parse(albums[0].text).page.height === 172 && JSON.parse(albums[0].text).page.width === 141, "a size is lost");
  // What another window took off the table is not shown on.
  await page.getByLabel("On the table").selectOption({ index: 0 });
  await says(page, "#album .result", "141 × 172");
  await page.getByRole("button", { name: "Take this album off the table" }).click();
  await page.getByRole("button", { name: "Take it off", exact: true }).click();
  await says(other, "#word", "taken off the table in another window");
  await context.close();
});

await check("what is no album does not come onto the table", async (must) => {
  const { context, page, complaints } = await open();
  const drop = async (name, bytes) => {
    const data = await page.evaluateHandle(([name, bytes]) => {
      const data = new DataTransfer();
      data.items.add(new File([new Uint8Array(bytes)], name));
      return data;
    }, [name, [...bytes]]);
    await page.dispatchEvent("main", "drop", { dataTransfer: data });
  };
  const picture = await page.screenshot();
  for (const [name, bytes] of [["photo.heic", picture.subarray(0, 20000)], ["photo.png", picture.subarray(0, 20000)], ["drawing.svg", Buffer.from("<svg/>")], ["list.csv", Buffer.from("a,b")], ["list.json", Buffer.from("[1, 2]")], ["empty.json", Buffer.from("")]]) {
    await drop(name, bytes);
    // A drawing belongs to an insert, a picture to a stock, and none here names it.
    const told = { "drawing.svg": "is a drawing that nothing here names", "photo.png": "is a picture that nothing here names" };
    await says(page, "#word", `${name} ${told[name] ?? "is no album file"}`);
    must((await kept(page)).albums.length === 1, `${name} is on the table`);
    must((await text(page, "#album .result")).includes("148 × 190"), `${name} covers the album`);
  }
  must(complaints.length === 0, complaints.join("; "));
  await context.close();
});

await check("what was kept in another form hides no album", async (must) => {
  const { context, page } = await open();
  const good = await kept(page);
  for (const [name, bad] of [
    ["a number for a margin", { ...good, machine: { kerf: 3, margin: null, gap: [], trimmer: "yes" } }],
    ["a setting that there is not", { ...good, machine: { ...good.machine, speed: 9 } }],
    ["no settings", { ...good, machine: 5 }],
    ["an album with a number for its name", { ...good, albums: [{ ...good.albums[0], name: 5, id: "1", title: {} }] }],
    ["no place for the next", { ...good, next: null, current: "x", waiting: 7 }],
  ]) {
    // After the page itself has gone, so that it does not write over it.
    await page.goto("about:blank");
    const side = await context.newPage();
    await side.goto(new URL("icon.svg", table.address).href);
    await side.evaluate((bad) => localStorage.setItem("hingeleaf-table", JSON.stringify(bad)), bad);
    await side.close();
    await page.goto(table.address);
    await page.locator("#album .result").waitFor({ timeout: 5000 }).catch(() => must(false, `${name}: the album is hidden`));
    if (!(await page.locator("#album .result").count())) continue;
    await settled(page).catch(() => must(false, `${name}: nothing can be taken away`));
  }
  await context.close();
});

await check("a change of a closed window is made once, whoever made it", async (must) => {
  const { context, page } = await open();
  const before = await kept(page);
  const count = JSON.parse(before.albums[0].text).pages.length;
  const wanted = { do: "add", list: "pages", at: 0, kind: "pocket" };
  for (const [name, did, pages] of [
    ["is not there", ["another-1"], count + 1],
    ["is there, with later ones upon it", ["closed-1", "another-1"], count],
    ["is there, as an earlier page kept it", "closed-1", count],
  ]) {
    await page.goto("about:blank");
    const side = await context.newPage();
    await side.goto(new URL("icon.svg", table.address).href);
    await side.evaluate(([all, waits]) => {
      localStorage.setItem("hingeleaf-table", JSON.stringify(all));
      localStorage.setItem("hingeleaf-table-waiting-closed", JSON.stringify(waits));
    }, [{ ...before, albums: [{ ...before.albums[0], did }] }, [{ key: "closed-1", album: before.albums[0].id, wanted }]]);
    await side.close();
    await page.goto(table.address);
    await settled(page);
    await page.waitForFunction(() => !Object.keys(localStorage).some((name) => name.includes("-waiting-")));
    const after = JSON.parse((await kept(page)).albums[0].text).pages.length;
    must(after === pages, `where it ${name} there are ${after} pages, and were to be ${pages}`);
  }
  await context.close();
});

await check("what another window wrote over is made again, and once", async (must) => {
  const { context, page } = await open();
  const before = await kept(page);
  const count = JSON.parse(before.albums[0].text).pages.length;
  await page.locator("#another").click();
  await page.locator(".offers [data-kind=pocket]").click();
  await page.waitForFunction((count) => JSON.parse(JSON.parse(localStorage.getItem("hingeleaf-table")).albums[0].text).pages.length > count, count);
  // The other one had not been told of the page yet, and typed thrice.
  const side = await context.newPage();
  await side.goto(new URL("icon.svg", table.address).href);
  await side.evaluate((before) => {
    const album = { ...before.albums[0], turn: 9, by: "another", did: ["another-1", "another-2", "another-3"] };
    album.text = album.text.replace(/"width": *148/, '"width": 147');
    localStorage.setItem("hingeleaf-table", JSON.stringify({ ...before, albums: [album] }));
  }, before);
  await says(page, "#album .result", "147 × 190");
  const pages = await page.waitForFunction((count) => {
    const { pages } = JSON.parse(JSON.parse(localStorage.getItem("hingeleaf-table")).albums[0].text);
    return pages.length > count && pages.length;
  }, count, { timeout: 5000 }).then((found) => found.jsonValue(), () => count);
  must(pages === count + 1, `there are ${pages} pages, and were to be ${count + 1}`);
  await settled(page);
  const { page: size, pages: last } = JSON.parse((await kept(page)).albums[0].text);
  must(size.width === 147 && last.length === count + 1, `a page ${size.width} wide is kept, and ${last.length} pages`);
  await context.close();
});

await check("the verdict is in sight on a small screen", async (must) => {
  const { context, page } = await open({ viewport: { width: 360, height: 740 } });
  const inSight = async (words) => {
    const verdict = page.locator("#line .verdict");
    await verdict.filter({ hasText: words }).waitFor({ timeout: 5000 });
    const box = await verdict.boundingBox();
    must(box && box.y >= 0 && box.y + box.height <= 740, `the verdict lies at ${JSON.stringify(box)}`);
    must(box && box.height < 740 / 5, `the verdict covers ${box?.height} px of 740`);
  };
  await page.locator("#at-page-width").scrollIntoViewIfNeeded();
  await page.locator("#page-1").click();
  await page.locator(".fields [data-path$=overflap]").fill("30");
  await inSight("Does not go together yet");
  await page.locator(".fields [data-path$=overflap]").fill("many");
  await inSight("“many” can’t be used");
  await page.locator(".fields [data-path$=overflap]").fill("45");
  await inSight("Goes together");
  await page.locator("#take").scrollIntoViewIfNeeded();
  await inSight("Goes together");
  // What has the focus is not covered by it.
  await page.locator("#at-page-width").focus();
  const [field, verdict] = [await page.locator("#at-page-width").boundingBox(), await page.locator("#line .verdict").boundingBox()];
  must(field.y >= verdict.y + verdict.height || field.y + field.height <= verdict.y, "the verdict covers the field that has the focus");
  await context.close();
});

await check("what is typed while the program is away is done when it is back", async (must) => {
  const one = await start();
  const port = new URL(one.address).port;
  const { context, page } = await window(one.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(page);
  one.child.kill("SIGKILL");
  await page.locator("#at-page-width").fill("143");
  await page.locator("#at-page-height").fill("183");
  await says(page, "#word", "2 changes wait");
  must((await page.locator("#at-page-height").inputValue()) === "183", "what is typed is not shown");
  must((await text(page, "#line .verdict")).includes("not known yet"), "the verdict is of the sizes before");
  // The program again, at the same port; its page is opened in another window, and the old one goes there, too.
  const two = await start("--port", port);
  const fresh = await context.newPage();
  await fresh.goto(two.address);
  await says(fresh, "#album .result", "143 × 183");
  await says(page, "#album .result", "143 × 183");
  must(page.url() === two.address, `the old window is still at ${page.url()}`);
  must((await page.locator("#word .gone").count()) === 0, "the old window says that the program is away");
  // The window is closed while something waits.
  two.child.kill("SIGKILL");
  await fresh.locator("#at-page-width").fill("144");
  await says(fresh, "#word", "One change waits");
  await page.close();
  await fresh.close();
  const three = await start("--port", port);
  const last = await context.newPage();
  await last.goto(three.address);
  await says(last, "#album .result", "144 × 183");
  must(await last.evaluate(() => localStorage.length === 1), "something waits still");
  three.child.kill();
  await context.close();
});

await check("what is typed upon a change that is made meanwhile is no part of it", async (must) => {
  const one = await start();
  const port = new URL(one.address).port;
  const { context, page } = await window(one.address);
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await settled(page);
  const side = await context.newPage();
  await side.goto(new URL("icon.svg", one.address).href);
  one.child.kill("SIGKILL");
  // A window was closed with 135 typed into it, which this one takes over; and another one has settled that already.
  const id = (await kept(page)).albums[0].id;
  await side.evaluate((waits) => localStorage.setItem("hingeleaf-table-waiting-closed", JSON.stringify(waits)), [
    { key: "closed-1", album: id, wanted: { do: "set", path: "page.height", typed: "181" } },
    { key: "closed-2", album: id, wanted: { do: "set", path: "page.width", typed: "135" } },
  ]);
  await says(page, "#word", "2 changes wait");
  await side.evaluate(() => {
    const all = JSON.parse(localStorage.getItem("hingeleaf-table"));
    all.albums[0].did = [...all.albums[0].did, "closed-2"];
    localStorage.setItem("hingeleaf-table", JSON.stringify(all));
  });
  await page.waitForFunction(() => JSON.parse(localStorage.getItem("hingeleaf-table")).albums[0].did.includes("closed-2"));
  await page.locator("#at-page-width").fill("146");
  await says(page, "#word", "2 changes wait");
  const two = await start("--port", port);
  const fresh = await context.newPage();
  await fresh.goto(two.address);
  await says(fresh, "#album .result", "146 × 181");
  await fresh.waitForFunction(() => !Object.keys(localStorage).some((name) => name.includes("-waiting-")));
  must(JSON.parse((await kept(fresh)).albums[0].text).page.width === 146, "the width that was typed last is lost");
  two.child.kill();
  await context.close();
});

await machineOnPage(table.address);

table.child.kill();
await tell();
