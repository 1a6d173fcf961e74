import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { z } from "zod";

const fontSchema = z.object({
  unitsPerEm: z.number(),
  glyphs: z.record(
    z.string(),
    z.tuple([z.number(), z.number(), z.number(), z.number(), z.number(), z.string()]),
  ),
});
const read = (name: string) =>
  fontSchema.parse(JSON.parse(readFileSync(`engraving/glyphs/${name}.json`, "utf8")));
const metadata = z
  .object({
    glyphAdvanceWidths: z.record(z.string(), z.number()),
    glyphBBoxes: z.record(
      z.string(),
      z.object({ bBoxNE: z.tuple([z.number(), z.number()]), bBoxSW: z.tuple([z.number(), z.number()]) }),
    ),
  })
  .parse(JSON.parse(readFileSync("node_modules/@vexflow-fonts/bravura/metadata.json", "utf8")));

// SMuFL 1.4: an em is four staff spaces; the font's own metadata gives widths and boxes in staff spaces.
test.each([
  ["e0a4", "noteheadBlack"],
  ["e0a9", "noteheadXBlack"],
  ["e069", "unpitchedPercussionClef1"],
  ["e4e5", "restQuarter"],
  ["e240", "flag8thUp"],
  ["e4a0", "articAccentAbove"],
  ["e883", "tuplet3"],
])("%s is %s, as the font's metadata has it", (code, name) => {
  const { unitsPerEm, glyphs } = read("music");
  const [advance = 0, left = 0, bottom = 0, right = 0, top = 0] = glyphs[code] ?? [];
  const spaces = (value: number) => (Number(value) / unitsPerEm) * 4;
  const box = metadata.glyphBBoxes[name];
  expect(spaces(advance)).toBeCloseTo(metadata.glyphAdvanceWidths[name] ?? Number.NaN, 2);
  expect([left, bottom].map(spaces)[0]).toBeCloseTo(box?.bBoxSW[0] ?? Number.NaN, 1);
  expect([left, bottom].map(spaces)[1]).toBeCloseTo(box?.bBoxSW[1] ?? Number.NaN, 1);
  expect([right, top].map(spaces)[0]).toBeCloseTo(box?.bBoxNE[0] ?? Number.NaN, 1);
  expect([right, top].map(spaces)[1]).toBeCloseTo(box?.bBoxNE[1] ?? Number.NaN, 1);
});

test.each(["music", "lettering"])("the licence of the outlines of %s stands beside them", (name) => {
  expect(readFileSync(`engraving/glyphs/${name}.licence.txt`, "utf8")).toMatch(
    /SIL OPEN FONT LICENSE Version 1\.1/i,
  );
});
