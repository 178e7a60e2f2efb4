// SPDX-License-Identifier: MIT
// What follows from the album: whether it goes together, how it folds, its sheets, what to take away.

import { plate } from "./large.js";
import { standing } from "./line.js";
import { capital, field } from "./fields.js";
import { findings } from "./found.js";
import { machine } from "./machine.js";
import { button, make } from "./make.js";
import { picture } from "./picture.js";
import { asks } from "./states.js";

/**
 * Whether it goes together.
 * @param {OfEither} state
 */
export function fit(state) {
  const { fit } = state.view;
  const grave = fit.findings.filter((one) => one.level !== "note");
  const notes = fit.findings.filter((one) => one.level === "note");
  const mends = grave.filter((one) => one.mend).length;
  const section = fit.section ?? state.good?.section;
  return make("section", { id: "fit", "aria-labelledby": "fit-title" },
    make("h2", { id: "fit-title", tabindex: "-1" }, "Does it go together?"),
    make("p", { class: `result ${standing(fit)}` }, fit.sentence),
    grave.length ? findings(grave) : make("p", { class: "calm" }, "Nothing to mend."),
    mends > 1 ? button(`Mend all ${mends} that a changed size mends`, "mend-all") : null,
    fit.more.map((sentence) => make("p", {}, sentence)),
    section ? make("figure", { class: fit.section ? null : "before" }, plate(picture(section, `The album’s cross-section${fit.section ? "" : " as it was before"}: closed, and laid open where it lies least flat.`))) : null,
    notes.length ? make("details", { "data-key": "notes" }, make("summary", {}, make("h3", {}, notes.length === 1 ? "One more thing worth knowing" : `${notes.length} more things worth knowing`)), make("div", { class: "inside" }, findings(notes))) : null);
}

/**
 * How it folds.
 * @param {OfAlbum} state
 */
export function folds(state) {
  const { album, fit } = state.view;
  const folds = album.drawn ? state.view.folds : state.good?.parts ?? state.view.folds;
  // What it is made of may be another number by now.
  const old = Boolean(fit.stopped && state.good?.folds && !state.folds?.steps?.length);
  const drawn = old ? { ...state.good?.folds, parts: album.drawn ? state.folds?.parts : state.good?.folds?.parts } : state.folds;
  return make("section", { id: "folds", "aria-labelledby": "folds-title" },
    make("h2", { id: "folds-title" }, "How it folds"),
    make("p", { class: "result" }, album.drawn ? folds.sentence : "Nothing of it can be made until what stops it is mended."),
    old ? make("p", { class: "told" }, "This is how it was before.") : null,
    drawn?.steps?.length ? make("ol", { class: `steps${old ? " before" : ""}` }, drawn.steps.map((step, at) => make("li", { "data-key": `step-${at}` },
      step.picture ? picture(step.picture, "") : null,
      make("div", {}, make("h3", {}, `${at + 1}. ${step.words}`), make("p", { class: "about" }, step.about))))) : null,
    drawn?.laid ? make("figure", { class: `loose${old ? " before" : ""}` }, picture(drawn.laid.picture, `The finished album, ${drawn.laid.words.toLowerCase()}`), make("figcaption", {}, drawn.laid.words)) : null,
    drawn?.closed ? make("figure", { class: `loose${old ? " before" : ""}` }, picture(drawn.closed, "The finished album, closed."), make("figcaption", {}, "The finished album, closed.")) : null,
    make("details", { "data-key": "parts" }, make("summary", {}, make("h3", {}, "Every part with its sizes and scores")),
      make("ul", { class: "parts" }, folds.parts.map((part, at) => make("li", { "data-key": part.id },
        drawn?.parts?.[at] ? plate(picture(drawn.parts[at], `${part.id}: ${part.kind}, flat, with its sizes`), album.drawn ? {} : { class: "plate opens before" }) : null,
        make("p", {}, make("strong", {}, part.id), `: ${part.count} × ${part.kind}, ${part.size}, from ${part.stock}`, part.scores ? `, ${part.scores} score${part.scores === 1 ? "" : "s"}` : "", "."))))));
}

/**
 * The sheets.
 * @param {OfAlbum} state
 */
export function sheets(state) {
  const { view, start } = state;
  const { sheets } = view;
  const old = !sheets && state.oldSheets;
  const shown = sheets ?? state.oldSheets;
  const sentence = sheets ? sheets.sentence : "No sheets until what stops it is mended.";
  return make("section", { id: "sheets", "aria-labelledby": "sheets-title" },
    make("h2", { id: "sheets-title" }, "Sheets"),
    make("p", { class: "result" }, sentence),
    state.looking ? make("p", { class: "told" }, state.looking) : null,
    view.album.stocks.filter((stock) => stock.used).map((stock) => {
      // What is cut otherwise than the rest of its stock has sheets of its own.
      const all = (shown?.stocks ?? []).filter((one) => one.way === stock.way);
      const row = stock.rows.find((one) => one.path.endsWith(".sheet"));
      return make("div", { class: `stock${old ? " old" : ""}`, "data-key": stock.way },
        make("h3", {}, picture(stock.looks, "", { class: "swatch" }), `${capital(stock.name)}`),
        row && field({ ...row, label: `Sheet of ${stock.name}`, about: "", path: row.path }, view, start.sheets, { id: `sheet-of-${stock.name}` }),
        all.map((one) => laid(one, Boolean(old), all.length > 1)));
    }),
    sizes(state),
    machine(state));
}

/**
 * The sheets of one stock.
 * @param {StockLaid} stock
 * @param {boolean} old
 * @param {boolean} named
 */
export const laid = (stock, old, named) => [
  make("p", {}, old ? "As it was before: " : "", named ? `${stock.name}: ` : "", stock.sentence),
  stock.why ? make("p", { class: "about why" }, stock.why) : null,
  make("ul", { class: "laid", "data-key": stock.name }, stock.sheets.map((sheet) => make("li", { "data-key": sheet.name },
    plate(picture(sheet.picture, `Sheet ${sheet.name} with its parts in place`)),
    make("p", {}, make("strong", {}, sheet.name), `: ${sheet.words}.`, sheet.offcuts.length ? ` Left over: ${sheet.offcuts.join(", ")}.` : ""))))];

/** @param {OfAlbum} state */
function sizes(state) {
  if (!state.sizes?.sentence || !state.view.sheets) return null;
  return make("div", { class: "saves" },
    make("h3", {}, "Would another page size take fewer sheets?"),
    make("p", {}, state.sizes.sentence),
    state.sizes.sizes.length ? make("ul", {}, state.sizes.sizes.map((size) => make("li", { "data-key": size.words },
      make("p", {}, make("strong", {}, size.words), `: ${size.counts}.`),
      button(["Take this size", make("span", { class: "unseen" }, `: ${size.words}`)], "page-size", { "data-width": size.width, "data-height": size.height })))) : null);
}

/**
 * What to take away.
 * @param {OfEither} state
 */
export function take(state) {
  const { take, sheets, batch } = state.view;
  const what = batch ? (batch.class ? "class" : "batch") : "album";
  /**
   * @param {string} name
   * @param {string} format
   */
  const one = (name, format) => button(`${name}.${format}`, "file", { "data-file": `sheets/${name}.${format}` });
  return make("section", { id: "take", "aria-labelledby": "take-title" },
    make("h2", { id: "take-title" }, "Take away"),
    make("p", { class: "result" }, take.sentence),
    make("div", { class: "does" },
      sheets ? button("Everything in one zip", "kit", { class: "main" }) : null,
      sheets && take.names.length ? button("All SVG sheets", "kit", { "data-formats": "svg" }) : null,
      sheets && take.names.length ? button("All DXF sheets", "kit", { "data-formats": "dxf" }) : null,
      sheets && take.formats.includes("html") ? button(batch ? "The job sheet, to print" : "The guide, to print", "file", { "data-file": batch ? "job.html" : "guide.html" }) : null,
      sheets && take.formats.includes("pdf") ? button("Templates at true size (PDF)", "file", { "data-file": "templates.pdf" }) : null,
      sheets?.printed_first && take.formats.includes("pdf") ? button("Sheets to print first (PDF)", "file", { "data-file": "print-first.pdf" }) : null,
      sheets && take.formats.includes("html") ? (take.makers ?? []).map((name) => button(`The page for ${name}, to print`, "file", { "data-file": `makers/${name}.html` })) : null,
      sheets ? button("The cutting list (CSV)", "file", { "data-file": "cutting-list.csv" }) : null,
      button(`The ${what} file, to keep`, "keep", { "aria-disabled": take.withheld ? "true" : null }),
      button("Print this page", "print"),
      batch ? null : button("Make a batch of it", "make-batch", { "aria-describedby": "make-batch-about" }),
      batch ? null : button("Make a class of it", "make-class", { "aria-describedby": "make-batch-about" }),
      button(`Duplicate this ${what}`, "duplicate"),
      button(`Take this ${what} off the table`, "forget")),
    asks(state, "album"),
    batch ? null : make("p", { class: "about", id: "make-batch-about" }, "A batch is several kits in one order: colourways, other albums, pages of the buyer’s choice; with one price list and one job sheet. A class is groups of makers who make this album, each from the sheets and with the tool that it has."),
    take.command ? make("p", { class: "about" }, "The command line makes the same from what is in the zip: ", make("code", {}, take.command)) : null,
    sheets && take.names.length ? make("details", { "data-key": "single" }, make("summary", {}, make("h3", {}, "Single sheets")),
      make("ul", { class: "single" }, take.names.map((name) => make("li", { "data-key": name }, one(name, "svg"), " ", one(name, "dxf"))))) : null,
    make("p", { class: "about" }, "Cut one album in cheap card first, and measure a part. Check the size that your cutter’s software shows against the sheet’s before the first cut."),
    make("details", { "data-key": "text" }, make("summary", {}, make("h3", {}, `The ${what} file’s own text`)),
      make("form", { class: "text inside", "data-do": "use-text" },
        make("label", { for: "text" }, "Everything on this page is in this text; what is changed above changes it there."),
        make("textarea", { id: "text", rows: "14", spellcheck: "false" }, state.text),
        make("button", { type: "submit" }, "Use this text"))));
}
