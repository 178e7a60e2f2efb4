// SPDX-License-Identifier: MIT
// The program is ended again and again while somebody types at the table: what its page says then is true; see browse.mjs.
//
// HINGELEAF_LONG asks for 100 ends instead of 10. How many there were, and what came of them, goes to OUT/ends.json.

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { check, out, says, start, tell, text, window } from "./browse.mjs";

const ENDS = process.env.HINGELEAF_LONG ? 100 : 10;
const tally = { ends: 0, waited: 0, closed: 0, typed: 0, pages: 0, lost: 0 };

/** The same numbers each time: which moment, which field. */
let seed = 20240229;
const random = (below) => {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return Math.floor((seed / 2 ** 32) * below);
};

/** What the album file that this browser keeps holds once all that waits is done. */
const kept = (page) => page.evaluate(() => {
  const { albums } = JSON.parse(localStorage.getItem("hingeleaf-table"));
  const waiting = Object.keys(localStorage).filter((name) => name.includes("-waiting-")).flatMap((name) => JSON.parse(localStorage.getItem(name)));
  const { page, pages } = JSON.parse(albums[0].text);
  // What is done just now may stand among what waits for a moment more.
  const count = (does) => waiting.filter(({ key, wanted }) => wanted.do === does && !albums[0].did.includes(key)).length;
  return { page, pages: pages.length + count("add") - count("take"), waiting: waiting.map(({ wanted }) => wanted) };
});

let program;
await check("the ends", async (must) => {
  program = await start();
  const port = new URL(program.address).port;
  const { context, page: first } = await window(program.address);
  let page = first;
  await page.getByRole("button", { name: /Tide Table/ }).click();
  await says(page, "#album .result", "148 × 190");
  for (let number = 0; number < ENDS; number += 1) {
    /** What a person typed: the last of each field is what they want. */
    const wants = {};
    let over = false;
    const ended = new Promise((done) => program.child.once("exit", done));
    setTimeout(() => program.child.kill("SIGKILL"), random(1500));
    ended.then(() => { over = true; });
    // Typing goes on for a moment after the end.
    for (let more = 3 + random(4); more > 0 || !over;) {
      // What can't be done twice or half: a page more or less.
      if (random(6) === 0) {
        if ((await kept(page)).pages < 6) {
          if (!(await page.locator(".offers").count())) await page.locator("#another").click();
          await page.locator(".offers [data-kind=pocket]").click();
        }
        else {
          await page.locator(".leaf").last().focus();
          await page.keyboard.press("Delete");
        }
        tally.pages += 1;
      }
      const [name, value] = random(2) ? ["width", 130 + random(20)] : ["height", 170 + random(30)];
      await page.locator(`#at-page-${name}`).fill(String(value));
      wants[name] = value;
      tally.typed += 1;
      if (over) more -= 1;
      await page.waitForTimeout(random(200));
    }
    await says(page, "#word", "does not answer any more");
    tally.ends += 1;
    // What the banner says is what is kept, to the number.
    const { page: size, pages, waiting } = await kept(page);
    const banner = await text(page, "#word");
    const said = /One change waits/.test(banner) ? 1 : Number(/(\d+) changes wait/.exec(banner)?.[1] ?? 0);
    must(said === waiting.length, `end ${number}: ${said} changes are said to wait, and ${waiting.length} do`);
    tally.waited += waiting.length ? 1 : 0;
    for (const [name, value] of Object.entries(wants)) {
      const last = waiting.findLast((wanted) => wanted.path === `page.${name}`)?.typed ?? String(size[name]);
      if (last !== String(value)) tally.lost += 1;
      must(last === String(value), `end ${number}: the ${name} ${value} is lost, ${last} is kept`);
    }
    // Every third time the window is closed as well; else it goes to the program's new address by itself.
    program = await start("--port", port);
    const fresh = await context.newPage();
    const close = number % 3 === 2;
    if (close) await page.close();
    await fresh.goto(program.address);
    tally.closed += close ? 1 : 0;
    for (const one of close ? [fresh] : [fresh, page]) {
      await one.waitForURL(program.address);
      for (const [name, value] of Object.entries(wants)) await says(one, "#album .result", name === "width" ? `${value} ×` : `× ${value} mm`);
      must((await one.locator("#word .gone").count()) === 0, `end ${number}: a window says that the program is away`);
    }
    // What shows already may have been typed again, and wait behind a page.
    await fresh.waitForFunction(() => !Object.keys(localStorage).some((name) => name.includes("-waiting-"))).catch(() => {});
    const after = await kept(fresh);
    must(after.pages === pages, `end ${number}: there are ${after.pages} pages, and were to be ${pages}`);
    must(after.waiting.length === 0, `end ${number}: ${after.waiting.length} changes wait still`);
    for (const [name, value] of Object.entries(wants)) must(after.page[name] === value, `end ${number}: the ${name} became ${after.page[name]}, not ${value}`);
    if (close) page = fresh;
    else await fresh.close();
  }
  await context.close();
});

program?.child.kill("SIGKILL");
writeFileSync(join(out, "ends.json"), JSON.stringify(tally));
await tell();
