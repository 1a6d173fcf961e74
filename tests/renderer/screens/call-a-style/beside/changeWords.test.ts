import { describe, expect, test } from "vitest";
import type { Report, VoiceFigures } from "../../../../../engine/grading/index.ts";
import { changeWords } from "../../../../../renderer/screens/call-a-style/beside/changeWords.ts";
import { takesBeside } from "../../../../../renderer/screens/call-a-style/beside/takesBeside.ts";
import { sittingOf } from "./sitting.ts";

/** A judged take with the click; the cases below change its figures one at a time. */
const base: Report = (() => {
  const take = { styleId: "shuffle", grooveId: "shuffle", clicked: true };
  const takes = takesBeside(sittingOf(take, take));
  if (!takes) throw new Error("The two takes cannot be laid beside one another.");
  return takes.now.report;
})();

const free: Report["start"] = { time: 1.01, stretch: 1.002 };

function wordsFor(before: Partial<Report>, now: Partial<Report>): string {
  return changeWords({ ...base, ...before }, { ...base, ...now }).join(" ");
}

describe("spread", () => {
  test.each<[number | null, number | null, string]>([
    [21, 14, "Spread went from 21 ms to 14 ms."],
    [14, 21, "Spread went from 14 ms to 21 ms."],
    [14.2, 14.4, "Spread stayed at 14 ms."],
    [14, 15, "Spread was 14 ms and is 15 ms; so small a difference comes by chance."],
    [null, 14, "Too few strokes to lay the spreads beside one another."],
  ])("from %s to %s", (from, to, sentence) => {
    expect(changeWords({ ...base, spreadMs: from }, { ...base, spreadMs: to })[0]).toBe(sentence);
  });

  test("with few strokes a larger difference is still chance", () => {
    const hits = base.hits.slice(0, 8);
    expect(wordsFor({ spreadMs: 21, hits }, { spreadMs: 14, hits })).toContain("comes by chance");
  });
});

describe("lean", () => {
  test("is told against a click, and as staying where nobody hears the difference", () => {
    expect(wordsFor({ leanMs: 30 }, { leanMs: 9 })).toContain("Lean went from 30 ms behind to 9 ms behind.");
    expect(wordsFor({ leanMs: 9 }, { leanMs: -2 })).toContain(
      "Lean stayed, to the ear: 9 ms behind, then 2 ms ahead.",
    );
  });

  test("is not told where either take came in freely: it is nought by construction", () => {
    expect(wordsFor({ leanMs: 30, start: free }, { leanMs: 0 })).not.toContain("Lean");
    expect(wordsFor({ leanMs: 30 }, { leanMs: 0, start: free })).not.toContain("Lean");
  });
});

test("tempo and drift, only where they differ", () => {
  expect(wordsFor({}, {})).not.toContain("empo");
  const words = wordsFor({ tempoBpm: 104, driftPercent: -2 }, { tempoBpm: 112.2, driftPercent: 0.1 });
  expect(words).toContain("The tempo went from 104 a minute to 112 a minute.");
  expect(words).toContain("Before: lost 2 in 100 over the take. Now: the tempo held.");
});

test("a beat that moved against the rest by more than can be heard, the take’s own lean left out", () => {
  const beats = (late: number, leanMs: number): Partial<Report> => ({
    leanMs,
    perBeat: [1, 2, 3, 4].map((beat) => ({
      beat,
      count: 16,
      leanMs: leanMs + (beat === 4 ? late : 0),
      spreadMs: 9,
    })),
  });
  expect(wordsFor(beats(34, 0), beats(12, 5))).toContain(
    "Beat 4 went from 34 ms behind to 12 ms behind against the rest.",
  );
  expect(wordsFor(beats(34, 0), beats(30, 20))).not.toContain("Beat");
  expect(wordsFor(beats(20, 0), beats(0, 0))).toContain(
    "Beat 4 went from 20 ms behind to 0 ms against the rest.",
  );
});

test("voices: what slipped before and now, out of what was written, the furthest first", () => {
  const voice = (name: VoiceFigures["voice"], slips: Partial<VoiceFigures>): VoiceFigures => ({
    voice: name,
    count: 20,
    leanMs: 0,
    spreadMs: 9,
    written: 24,
    asWritten: 20,
    otherSound: [],
    leftOut: 0,
    added: 0,
    touch: { asWritten: 20, ghosted: 0, heavy: 0 },
    ...slips,
  });
  const words = changeWords(
    { ...base, voices: [voice("kick", { leftOut: 1 }), voice("snare", { leftOut: 4, added: 2 })] },
    {
      ...base,
      voices: [
        voice("kick", {}),
        voice("snare", { written: 48, otherSound: [{ voice: "cross-stick", count: 6 }] }),
      ],
    },
  );
  expect(words.slice(-3)).toEqual([
    "Snare on another sound: none of 24 before, 6 of 48 now.",
    "Snare left out: 4 of 24 before, none of 48 now.",
    "Snare added: 2 before, none now.",
  ]);
  expect(words.join(" ")).not.toContain("Kick");
});

test("no word of praise, blame or marks, whatever changed", () => {
  const words = [
    wordsFor({ spreadMs: 40, leanMs: 30 }, { spreadMs: 10, leanMs: 0 }),
    wordsFor({ spreadMs: 10, leanMs: 0, driftPercent: 0 }, { spreadMs: 40, leanMs: -30, driftPercent: 3 }),
  ].join(" ");
  expect(words).not.toMatch(/better|worse|improv|good|well done|great|bad|poor|progress|[↑↓▲▼+]/i);
});
