import { describe, expect, test } from "vitest";
import type { Heard } from "../../../engine/listening/index.ts";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import { alsoTold, whyTold } from "../../../renderer/screens/call-a-style/report/evidenceWords.ts";

const HEARD: Heard = {
  kind: "heard",
  pulse: { tempoBpm: 112, metre: FOUR_FOUR, beats: [0, 0.5], downbeats: [0], confidence: 0.9 },
  doubt: { between: 0, one: 0 },
  span: { from: 0, to: 20, bars: 8 },
  swing: null,
  fills: [],
  fillCandidates: [],
  candidates: [
    {
      ...{ id: "shuffle", name: "Shuffle", variant: "shuffle-2", confidence: 0.9 },
      why: {
        rather: [{ than: "swing", because: "the snare holds two and four" }],
        but: "the kick on two is not its own",
      },
    },
    {
      ...{ id: "swing", name: "Swing", variant: "swing", confidence: 0.05 },
      why: { rather: [], but: "the snare on two and four is not its own" },
    },
    {
      ...{ id: "samba", name: "Samba", variant: "samba", confidence: 0 },
      why: { rather: [], but: "its floor tom on two is not there" },
    },
  ],
  noneConfidence: 0.05,
  known: true,
};

describe("why", () => {
  test("this groove and not its neighbour", () => {
    expect(whyTold(HEARD)).toEqual({
      heading: "Why shuffle",
      sentences: ["Shuffle rather than swing: the snare holds two and four."],
    });
  });

  test("nor what was called, unless that is told already", () => {
    expect(whyTold(HEARD, "Samba").sentences).toEqual([
      "Shuffle rather than swing: the snare holds two and four.",
      "Nor is it samba: its floor tom on two is not there.",
    ]);
    expect(whyTold(HEARD, "Swing")).toEqual(whyTold(HEARD));
    expect(whyTold(HEARD, "Shuffle")).toEqual(whyTold(HEARD));
  });

  test("none I know: the nearest two, and what is not theirs", () => {
    expect(whyTold({ ...HEARD, known: false })).toEqual({
      heading: "Why none I know",
      sentences: [
        "None I know; nearest is shuffle, but the kick on two is not its own.",
        "Nor is it swing: the snare on two and four is not its own.",
      ],
    });
  });

  test("without candidates there is nothing to tell", () => {
    expect(whyTold({ ...HEARD, candidates: [], known: false })).toEqual({
      heading: "Why none I know",
      sentences: [],
    });
  });
});

describe("also heard", () => {
  const told = (heard: Partial<Heard>, swingIsGraded = false): readonly string[] =>
    alsoTold({ ...HEARD, ...heard }, { swingIsGraded }).sentences;

  test.each([
    [2.04, "eighths", "Long to short in eighths: 2.0 : 1."],
    [1.4, "sixteenths", "Long to short in sixteenths: 1.4 : 1."],
    [1.04, "eighths", "Straight eighths."],
    [0.92, "sixteenths", "Straight sixteenths."],
    [0.6, "eighths", "Long to short in eighths: 0.6 : 1."],
  ] as const)("swing %f of %s: %s", (ratio, of, words) => {
    expect(told({ swing: { ratio, of } })).toEqual([words]);
    expect(told({ swing: { ratio, of } }, true)).toEqual([]);
  });

  const fill = { from: 6, to: 7, bar: 4, beats: 2, confidence: 0.9 };

  test("fills, by name or by length; the fourth and later are counted", () => {
    const fills = [
      { ...fill, id: "two-quarters", name: "Two quarters on the snare" },
      { ...fill, bar: 8 },
      { ...fill, bar: 12, beats: 1 },
      { ...fill, bar: 16, beats: 1.5 },
      { ...fill, bar: 20 },
    ];
    expect(told({ fills })).toEqual([
      "A fill in bar 4: two quarters on the snare.",
      "A fill in bar 8: two beats.",
      "A fill in bar 12: one beat.",
      "And two more.",
    ]);
  });

  test("the drum part of the Shelf that it is", () => {
    const part = { id: "own/river-road", name: "River road", confidence: 0.9 };
    expect(told({ part })).toEqual(["As in the drum part River road, which is on the Shelf."]);
  });

  test("what was counted in; nothing where there was nothing", () => {
    const countIn = { strokes: 4, from: 0, to: 1.5, beatSeconds: 0.5 };
    expect(told({ countIn })).toEqual(["Counted in with four strokes."]);
    expect(told({})).toEqual([]);
  });
});
