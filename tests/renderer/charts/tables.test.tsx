import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import type { VoiceFigures } from "../../../engine/grading/index.ts";
import { LeanAlong, LeanByBeat, VoiceTable } from "../../../renderer/charts/index.ts";

/** The cells of every row of the only table, head first. */
function tableOf(markup: string): readonly (readonly string[])[] {
  const table = /<table.*?<\/table>/s.exec(markup)?.[0] ?? "";
  return [...table.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row]) =>
    [...(row ?? "").matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell]) => cell ?? ""),
  );
}

test("the table of lean by beat says every figure of the chart", () => {
  const markup = renderToStaticMarkup(
    <LeanByBeat
      perBeat={[
        { beat: 1, count: 36, leanMs: 6.24, spreadMs: 9.2 },
        { beat: 2, count: 35, leanMs: -3.05, spreadMs: 12.06 },
        { beat: 3, count: 0, leanMs: null, spreadMs: null },
        { beat: 4, count: 36, leanMs: 42.3, spreadMs: 33.7 },
      ]}
      leanMs={9}
      bandMs={30}
    />,
  );
  expect(tableOf(markup)).toEqual([
    ["beat", "lean", "spread", "strokes", "place"],
    ["beat 1", "6.2 ms behind", "9.2 ms", "36", "inside the band"],
    ["beat 2", "3.1 ms ahead", "12.1 ms", "35", "inside the band"],
    ["beat 3", "too few strokes", "too few strokes", "0", "too few strokes"],
    ["beat 4", "42.3 ms behind", "33.7 ms", "36", "outside the band"],
  ]);
  expect(markup).toContain("Shaded: 30 ms either side of the take’s own lean.");
  expect(markup).toContain('aria-label="Lean and spread by beat of the bar"');
});

test("the table along the take has a row a bar", () => {
  const markup = renderToStaticMarkup(
    <LeanAlong
      perBar={[
        { bar: 1, count: 12, leanMs: -4.4, spreadMs: 8 },
        { bar: 2, count: 0, leanMs: null, spreadMs: null },
        { bar: 3, count: 11, leanMs: 12, spreadMs: 7.77 },
      ]}
    />,
  );
  expect(tableOf(markup)).toEqual([
    ["bars", "lean", "spread", "strokes"],
    ["bar 1", "4.4 ms ahead", "8.0 ms", "12"],
    ["bar 2", "too few strokes", "too few strokes", "0"],
    ["bar 3", "12.0 ms behind", "7.8 ms", "11"],
  ]);
  expect(markup).not.toContain("taken together");
});

test("a long take is joined evenly, and it is said", () => {
  const perBar = Array.from({ length: 300 }, (_, bar) => ({
    bar: bar + 1,
    count: 8,
    leanMs: 5,
    spreadMs: 5,
  }));
  const markup = renderToStaticMarkup(<LeanAlong perBar={perBar} />);
  expect(markup).toContain("Each point is three bars taken together.");
  const rows = tableOf(markup);
  expect(rows).toHaveLength(1 + 100);
  expect(rows.at(-1)?.[0]).toBe("bars 298 to 300");
});

test("the voice table is in the words of a lesson, from the hands to the feet", () => {
  const figures = { count: 20, leanMs: 3, spreadMs: 9, leftOut: 0, added: 0, otherSound: [] };
  const voices: readonly VoiceFigures[] = [
    { ...figures, voice: "kick", written: 24, asWritten: 24, touch: { asWritten: 24, ghosted: 0, heavy: 0 } },
    {
      ...figures,
      voice: "snare",
      written: 24,
      asWritten: 22,
      otherSound: [{ voice: "cross-stick", count: 1 }],
      leftOut: 1,
      touch: { asWritten: 22, ghosted: 0, heavy: 0 },
    },
    {
      ...figures,
      voice: "ride",
      written: 72,
      asWritten: 70,
      leftOut: 2,
      touch: { asWritten: 60, ghosted: 0, heavy: 10 },
    },
    {
      ...figures,
      voice: "cowbell",
      written: 0,
      asWritten: 0,
      added: 2,
      touch: { asWritten: 0, ghosted: 0, heavy: 0 },
    },
  ];
  expect(tableOf(renderToStaticMarkup(<VoiceTable voices={voices} />))).toEqual([
    ["written", "as written", "other sound", "left out", "added", "touch"],
    ["ride, 72", "70", "none", "2", "none", "60 as written, 10 heavy"],
    ["cowbell, none", "none", "none", "none", "2", "nothing to compare"],
    ["snare, 24", "22", "1 cross-stick", "1", "none", "as written"],
    ["kick, 24", "24", "none", "none", "none", "as written"],
  ]);
});
