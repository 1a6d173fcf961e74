import { expect, test } from "vitest";
import { parseGrid, writeStaff } from "../../engine/score/index.ts";
import { staffSvg } from "../../engraving/index.ts";

const groove = parseGrid(
  "groove: g\nname: Ends & <odds>\nmetre: 7/8\nfeel: straight\ntempo: 80-140\nsnare | ..x...x |\nkick | x...x.. |",
);

test("an SVG is whole in itself: outlines, no font, no style, no script, nothing from elsewhere", () => {
  const svg = staffSvg(groove, { width: 500 });
  expect(svg).toMatch(
    /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="500" height="\d+" viewBox="0 0 500 \d+"/,
  );
  expect(svg.trimEnd()).toMatch(/<\/svg>$/);
  expect(svg).not.toMatch(/<(text|style|script|image|use|foreignObject)|href=|url\(/);
  expect(svg).not.toContain("NaN");
  expect(svg.match(/<path /g)?.length).toBeGreaterThan(2);
});

test("its title is the groove's name and metre, escaped", () => {
  expect(staffSvg(groove)).toContain("<title>Ends &amp; &lt;odds&gt;, 7/8</title>");
  expect(staffSvg([{ score: writeStaff(groove) }], { title: "Mine" })).toContain("<title>Mine</title>");
});

test("it is the same every time", () => {
  expect(staffSvg(groove, { width: 640, space: 7 })).toBe(staffSvg(groove, { width: 640, space: 7 }));
});
