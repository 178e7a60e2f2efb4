// SPDX-License-Identifier: MIT
// Reads SVG files through saxes and svg-path-commander, DXF files through dxf-parser, for readers.py.
//
//   node readers.mjs FOLDER < files.json > seen.json
//
// FOLDER holds node_modules; files.json is a list of file names. What is seen is told as it stands in the file.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const { resolve } = createRequire(join(process.argv[2], "package.json"));
const load = async (name) => (await import(pathToFileURL(resolve(name)))).default;
const { SaxesParser } = await load("saxes");
const DxfParser = await load("dxf-parser");
const PathCommander = await load("svg-path-commander");

/** Root attributes, and for each group its paths: strokes, length and box as svg-path-commander has them. */
function svg(text) {
  const seen = { root: null, title: null, groups: {} };
  const open = [];
  const parser = new SaxesParser({ xmlns: true });
  parser.on("error", (error) => { throw error; });
  parser.on("text", (words) => {
    if (open.map((tag) => tag.name).join("/") === "svg/title") seen.title = (seen.title ?? "") + words;
  });
  parser.on("opentag", (tag) => {
    const of = (name) => tag.attributes[name]?.value ?? null;
    if (open.length === 0) seen.root = { width: of("width"), height: of("height"), viewBox: of("viewBox") };
    if (tag.name === "g") seen.groups[of("id")] = [];
    if (tag.name === "path") {
      const path = new PathCommander(of("d"), { round: "off" });
      const strokes = path.segments.filter(([letter]) => letter.toUpperCase() === "M").length;
      const box = PathCommander.getPathBBox(path.segments);
      const group = seen.groups[open.at(-1).attributes.id?.value];
      group.push({ strokes, length: path.getTotalLength(), box: [box.x, box.y, box.x2, box.y2] });
    }
    open.push(tag);
  });
  parser.on("closetag", () => open.pop());
  parser.write(text).close();
  return seen;
}

/** The places of an entity, each with the bulge of what leaves it; curves in short lines. */
function places(entity) {
  if (entity.type === "ARC") {
    const { center, radius, startAngle, endAngle } = entity;
    const end = (angle, bulge) => [center.x + radius * Math.cos(angle), center.y + radius * Math.sin(angle), bulge];
    const turn = (endAngle - startAngle + 2 * Math.PI) % (2 * Math.PI);
    return [end(startAngle, Math.tan(turn / 4)), end(endAngle, 0)];
  }
  if (entity.type !== "SPLINE") return (entity.vertices ?? []).map(({ x, y, bulge }) => [x, y, bulge ?? 0]);
  const ends = entity.controlPoints;
  const found = [[ends[0].x, ends[0].y, 0]];
  for (let at = 0; at + 3 < ends.length; at += 3) {
    for (let step = 1; step <= 32; step += 1) {
      const t = step / 32;
      const weights = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
      const sum = (axis) => weights.reduce((all, weight, index) => all + weight * ends[at + index][axis], 0);
      found.push([sum("x"), sum("y"), 0]);
    }
  }
  return found;
}

/** The unit, and every entity: layer, kind, places with bulges, whether it is closed. */
function dxf(text) {
  const drawing = new (DxfParser.default ?? DxfParser)().parseSync(text);
  const entities = drawing.entities.map((entity) => ({
    layer: entity.layer,
    kind: entity.type,
    points: places(entity),
    closed: entity.shape === true || entity.closed === true,
  }));
  return { unit: drawing.header.$INSUNITS ?? null, entities };
}

const seen = {};
for (const file of JSON.parse(readFileSync(0, "utf8"))) {
  seen[file] = (file.endsWith(".svg") ? svg : dxf)(readFileSync(file, "utf8"));
}
process.stdout.write(JSON.stringify(seen));
