import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import type { DynamicsFigures, VoiceFigures } from "../../../engine/grading/index.ts";
import { LeanAlong, LeanBeside, LeanByBeat, TouchTable, VoiceTable } from "../../../renderer/charts/index.ts";

const against = { leanMs: 9, bandMs: 30, limitMs: 14 } as const;
const held = { driftPercent: 0.1, start: { time: 0, stretch: 1 }, barSeconds: 2 } as const;

/** A cell's words; what only a screen reader reads counts, what is hidden from it does not. */
function wordsOf(cell: string): string {
  return cell.replace(/<span aria-hidden="true".*?<\/span>/gs, "").replace(/<[^>]*>/g, "");
}

/** What a reader reads: the text without the marks. */
function textOf(markup: string): string {
  return markup
    .replace(/<[^>]*>/g, " ")
    .replace(/\s+/g, " ")
    .trim();
}

/** The cells of every row of the only table, head first. */
function tableOf(markup: string): readonly (readonly string[])[] {
  const table = /<table.*?<\/table>/s.exec(markup)?.[0] ?? "";
  return [...table.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row]) =>
    [...(row ?? "").matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell]) => wordsOf(cell ?? "")),
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
      {...against}
    />,
  );
  expect(tableOf(markup)).toEqual([
    ["beat", "lean", "spread", "strokes", "place"],
    ["beat 1", "6.2 ms behind", "9.2 ms", "36", "inside the band"],
    ["beat 2", "3.1 ms ahead", "12.1 ms", "35", "inside the band"],
    ["beat 3", "too few strokes", "too few strokes", "0", "too few strokes"],
    ["beat 4", "42.3 ms behind", "33.7 ms", "36", "outside the band"],
  ]);
  expect(markup).toContain("Band: 30 ms either side of the take’s own lean. Not heard: up to 14 ms.");
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
      drift={{ ...held, driftPercent: -0.75 }}
      {...against}
      leanMs={4}
    />,
  );
  // Half a bar's worth of 7.5 ms a second before and after the middle, about the lean.
  expect(tableOf(markup)).toEqual([
    ["bars", "lean", "spread", "drift", "strokes"],
    ["bar 1", "4.4 ms ahead", "8.0 ms", "10.3 ms ahead", "12"],
    ["bar 2", "too few strokes", "too few strokes", "4.7 ms behind", "0"],
    ["bar 3", "12.0 ms behind", "7.8 ms", "19.7 ms behind", "11"],
  ]);
  expect(markup).toContain("Dashed: the fitted drift. Lost 1 in 100 over the take.");
  expect(markup).not.toContain("taken together");
});

test("a long take is joined evenly, and it is said", () => {
  const perBar = Array.from({ length: 300 }, (_, bar) => ({
    bar: bar + 1,
    count: 8,
    leanMs: 5,
    spreadMs: 5,
  }));
  const markup = renderToStaticMarkup(<LeanAlong perBar={perBar} drift={held} {...against} />);
  expect(markup).toContain("Each point is three bars taken together.");
  const rows = tableOf(markup);
  expect(rows).toHaveLength(1 + 100);
  expect(rows.at(-1)?.[0]).toBe("bars 298 to 300");
});

test("a take too short to tell its drift says so, and draws none", () => {
  const perBar = [
    { bar: 1, count: 4, leanMs: 2, spreadMs: 3 },
    { bar: 2, count: 4, leanMs: -2, spreadMs: 3 },
  ];
  const markup = renderToStaticMarkup(
    <LeanAlong perBar={perBar} drift={{ ...held, driftPercent: null }} {...against} />,
  );
  expect(tableOf(markup)[1]).toEqual(["bar 1", "2.0 ms behind", "3.0 ms", "not told", "4"]);
  expect(markup).not.toContain("Dashed");
  expect(markup).toContain("Too short a take to say whether the tempo held.");
});

test("two takes beside one another: both figures of every beat, and the takes told apart", () => {
  const beats = (leans: readonly (number | null)[], spreadMs: number) => ({
    leanMs: 5,
    perBeat: leans.map((leanMs, beat) => ({
      beat: beat + 1,
      count: leanMs === null ? 0 : 12,
      leanMs,
      spreadMs: leanMs === null ? null : spreadMs,
    })),
  });
  const markup = (sameClock: boolean) =>
    renderToStaticMarkup(
      <LeanBeside
        before={beats([20, null], 21)}
        now={beats([-6, 4], 14)}
        beforeName="take 2"
        nowName="this take"
        sameClock={sameClock}
        bandMs={30}
        limitMs={14}
      />,
    );
  expect(tableOf(markup(true))).toEqual([
    ["beat", "lean, take 2", "lean, this take", "spread, take 2", "spread, this take"],
    ["beat 1", "20.0 ms behind", "6.0 ms ahead", "21.0 ms", "14.0 ms"],
    ["beat 2", "too few strokes", "4.0 ms behind", "too few strokes", "14.0 ms"],
  ]);
  expect(markup(true)).not.toContain("about its own lean");
  expect(markup(false)).toContain("here each is drawn about its own lean");
  // The key tells an open mark from a filled one, and both by name.
  expect(textOf(markup(true))).toMatch(/^take 2 this take /);
  expect(markup(true).match(/<circle[^>]*fill="var\(--sheet\)"/g)).toHaveLength(1);
  expect(markup(true).match(/<circle[^>]*fill="var\(--teal\)"/g)).toHaveLength(1);
});

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

test("written against heard: a row a written voice, a column a heard one, from the hands to the feet", () => {
  const [, ...rows] = tableOf(renderToStaticMarkup(<VoiceTable voices={voices} />));
  expect(rows).toEqual([
    ["written", "ride", "cowbell", "snare", "cross-stick", "kick", "left out"],
    ["ride, 72", "70", "none", "none", "none", "none", "2"],
    ["snare, 24", "none", "none", "22", "1", "none", "1"],
    ["kick, 24", "none", "none", "none", "none", "24", "none"],
    ["added", "none", "2", "none", "none", "none", ""],
  ]);
  // Every written stroke is somewhere in its row.
  for (const row of rows.slice(1, 4)) {
    const [name = "", ...counts] = row;
    const sum = counts.reduce((total, count) => total + (count === "none" ? 0 : Number(count)), 0);
    expect(sum).toBe(Number(name.split(", ")[1]));
  }
});

test("a take as written has no row of added strokes, and says that all is as written", () => {
  const markup = renderToStaticMarkup(<VoiceTable voices={voices.filter(({ voice }) => voice === "kick")} />);
  expect(tableOf(markup).slice(2)).toEqual([["kick, 24", "24", "none"]]);
  expect(markup).toContain("Every stroke is where it is written, and nothing was added.");
  expect(renderToStaticMarkup(<VoiceTable voices={voices} />)).toContain("Framed: another sound");
});

test("touch by voice: strokes, accents, ghost notes and the player’s own range", () => {
  const dynamics: readonly DynamicsFigures[] = [
    {
      voice: "snare",
      range: { soft: 0.2, middle: 0.5, loud: 0.9 },
      plain: 0.6,
      accents: { written: 8, standOut: 7, unwritten: 1 },
      ghosts: { written: 12, asGhosts: 10, tooLoud: 1, leftOut: 1, added: 0 },
      where: [],
    },
    { voice: "kick", range: null, plain: null, accents: null, ghosts: null, where: [] },
  ];
  const markup = renderToStaticMarkup(<TouchTable voices={voices} dynamics={dynamics} />);
  expect(tableOf(markup)).toEqual([
    ["voice", "touch", "accents", "ghost notes", "own range, of 127"],
    ["ride", "60 as written, 10 heavy", "nothing to compare", "nothing to compare", "too few strokes"],
    [
      "snare",
      "as written",
      "7 of 8 stand out, 1 not written",
      "10 of 12, 1 too loud, 1 left out",
      "25 to 114",
    ],
    ["kick", "as written", "nothing to compare", "nothing to compare", "too few strokes"],
  ]);
  expect(markup.match(/<svg/g)).toHaveLength(1);
});
