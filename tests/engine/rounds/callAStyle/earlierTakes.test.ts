import { expect, test } from "vitest";
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Heard, Hearing } from "../../../../engine/listening/index.ts";
import { type JudgedTake, ownTakesOf, takesTogether } from "../../../../engine/rounds/index.ts";

const NOTHING: Hearing = { kind: "nothing", reason: "too-few-hits" };

function heardAs(id: string, confidence: number, known = true): Heard {
  return {
    kind: "heard",
    pulse: {
      tempoBpm: 100,
      metre: { numerator: 4, denominator: 4 },
      beats: [],
      downbeats: [],
      confidence: 1,
    },
    doubt: { between: 0, one: 0 },
    span: { from: 0, to: 20, bars: 8 },
    swing: null,
    candidates: [
      { id, name: id, confidence },
      { id: "another", name: "another", confidence: 0.01 },
    ],
    noneConfidence: 0.99 - confidence,
    known,
    fills: [],
    fillCandidates: [],
  };
}

function hitsFrom(time: number): readonly Hit[] {
  return [{ time, voice: "snare", zone: "head", velocity: 0.6, pad: 38 }];
}

function take(number: number, styleId: string | null, hearing: Hearing): JudgedTake {
  const judgement = { hearing, compared: null, hitCount: 1, click: null };
  return { number, styleId, hits: hitsFrom(number), judgement };
}

test.each<[string, string | null, Hearing, string | undefined]>([
  ["called and heard as called", "samba", heardAs("samba", 0.6), "samba"],
  ["called, but surely another", "samba", heardAs("bossa-nova", 0.9), "bossa-nova"],
  ["called, and rather another", "samba", heardAs("bossa-nova", 0.89), undefined],
  ["called, but none that is known", "samba", heardAs("samba", 0.3, false), undefined],
  ["called, and nothing heard", "samba", NOTHING, undefined],
  ["a free choice, surely heard", null, heardAs("samba", 0.9), "samba"],
  ["a free choice, less surely heard", null, heardAs("samba", 0.89), undefined],
])("%s", (_, called, hearing, styleId) => {
  const own = styleId === undefined ? [] : [{ styleId, takes: [hitsFrom(1)] }];
  expect(ownTakesOf([take(1, called, hearing)])).toEqual(own);
});

test("takes of one style are together, in the order played, however they came to be known", () => {
  const takes = [
    take(1, "samba", heardAs("samba", 0.6)),
    take(2, null, heardAs("shuffle", 0.95)),
    take(3, null, heardAs("samba", 0.95)),
    take(4, null, heardAs("samba", 0.5)),
  ];
  expect(ownTakesOf(takes)).toEqual([
    { styleId: "samba", takes: [hitsFrom(1), hitsFrom(3)] },
    { styleId: "shuffle", takes: [hitsFrom(2)] },
  ]);
});

test("takes of earlier lessons come before those of the sitting, by style", () => {
  const hit = (time: number) => ({ time, voice: "snare", zone: "head", velocity: 0.5, pad: 38 }) as const;
  const earlier = [{ styleId: "samba", takes: [[hit(1)]] }];
  const sitting = [
    { styleId: "swing", takes: [[hit(2)]] },
    { styleId: "samba", takes: [[hit(3)]] },
  ];
  expect(takesTogether(earlier, sitting)).toEqual([
    { styleId: "samba", takes: [[hit(1)], [hit(3)]] },
    { styleId: "swing", takes: [[hit(2)]] },
  ]);
});
