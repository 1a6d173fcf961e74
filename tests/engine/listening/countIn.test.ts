import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  demonstrate,
  demonstratedDownbeats,
  type Intention,
  STYLES,
} from "../../../engine/catalogue/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { countedIn } from "../../../engine/listening/countIn.ts";
import { catalogueStock, type Heard, hear } from "../../../engine/listening/index.ts";
import { type Groove, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

function struck(voice: Voice, times: readonly number[]): readonly Hit[] {
  return times.map((time) => ({ time, voice, zone: "whole", velocity: 0.7, pad: 0 }));
}

/** A groove from a moment on. */
function from(start: number, hits: readonly Hit[]): readonly Hit[] {
  return hits.map((hit) => ({ ...hit, time: hit.time + start }));
}

const ROCK = played(writtenGrooveOf("rock-eighths"), { tempoBpm: 120, bars: 8, spreadMs: 8 });

function countedBefore(groove: string, how: Pick<Intention, "countIn" | "countInOn" | "tempoBpm">) {
  const spread = { bars: 8, leanMs: 5, spreadMs: 10, leftOut: 0, added: 0 };
  const written = writtenGrooveOf(groove);
  const strokes = demonstrate(written, { ...how, ...spread, chance: seededChance(7) });
  return {
    hits: strokes.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 })),
    downbeats: demonstratedDownbeats(written, { ...how, bars: 8, chance: seededChance(7) }),
  };
}

function heard(hits: readonly Hit[]): Heard {
  const hearing = hear(hits, stock);
  if (hearing.kind !== "heard") throw new Error(`Nothing was heard: ${hearing.reason}.`);
  return hearing;
}

describe("a count-in", () => {
  const cases = (["sticks", "cross-stick", "hi-hat-closed"] as const).flatMap((countInOn) =>
    [2, 3, 4, 8].flatMap((countIn) => [
      { groove: "rock-eighths", countIn, countInOn, tempoBpm: 96 },
      { groove: "bossa-nova", countIn, countInOn, tempoBpm: 132 },
      { groove: "shuffle", countIn, countInOn, tempoBpm: 118 },
    ]),
  );
  test.each(cases)(
    "of $countIn on $countInOn before $groove: how many, how fast, where the one is",
    (how) => {
      const { hits, downbeats } = countedBefore(how.groove, how);
      const counted = countedIn(hits);
      expect(counted?.countIn.strokes).toBe(how.countIn);
      expect(Math.abs((counted?.countIn.beatSeconds ?? 0) * how.tempoBpm - 60)).toBeLessThan(3.5);
      expect(Math.abs((counted?.one ?? 0) - (downbeats[0] ?? 0))).toBeLessThan(0.06);
      expect(counted?.groove.length).toBe(hits.length - how.countIn);
    },
  );

  test.each(["hi-hat-pedal", "snare"] as const)("on the %s", (voice) => {
    const hits = [...struck(voice, [0, 0.5, 1, 1.5]), ...from(2, ROCK)];
    expect(countedIn(hits)?.countIn).toEqual({ strokes: 4, from: 0, to: 1.5, beatSeconds: 0.5 });
  });

  test("“one, two, one two three four” is six strokes, and the beat is that of the last four", () => {
    const hits = [...struck("sticks", [0, 1, 2, 2.5, 3, 3.5]), ...from(4, ROCK)];
    const counted = countedIn(hits);
    expect(counted?.countIn).toEqual({ strokes: 6, from: 0, to: 3.5, beatSeconds: 0.5 });
    expect(counted?.one).toBe(4);
  });

  test("“one, two, three” and a silent four", () => {
    expect(countedIn([...struck("sticks", [0, 0.5, 1]), ...from(2, ROCK)])?.one).toBe(2);
  });

  test("a pick-up before the one does not move it", () => {
    const hits = [...struck("sticks", [0, 0.5, 1, 1.5]), ...struck("snare", [1.75]), ...from(2, ROCK)];
    const counted = countedIn(hits);
    expect(counted?.countIn.strokes).toBe(4);
    expect(counted?.one).toBe(2);
    expect(counted?.groove[0]?.voice).toBe("snare");
  });

  test("on the hi-hat before a groove that begins on the hi-hat alone", () => {
    const alone = ROCK.filter(({ time, voice }) => time > 0.4 || voice === "hi-hat-closed");
    const hits = [...struck("hi-hat-closed", [0, 0.5, 1, 1.5]), ...from(2, alone)];
    expect(countedIn(hits)?.countIn.strokes).toBe(4);
  });
});

describe("no count-in", () => {
  test.each(STYLES.flatMap(({ variants }) => variants.map((groove) => ({ groove, id: groove.id }))))(
    "$id as it begins",
    ({ groove }) => {
      const hits = played(groove, { tempoBpm: 100, bars: 4, spreadMs: 10 });
      expect(countedIn(hits)).toBeUndefined();
    },
  );

  test("a bar of eighths on the hi-hat that goes on with them is the groove's own", () => {
    const intro = struck(
      "hi-hat-closed",
      Array.from({ length: 8 }, (_, index) => index / 4),
    );
    expect(countedIn([...intro, ...from(2, ROCK)])).toBeUndefined();
  });

  test.each<[string, readonly number[]]>([
    ["uneven strokes", [0, 0.5, 1.3, 1.5]],
    ["one stroke", [1.5]],
    ["strokes long before", [-6, -5.5, -5, -4.5]],
    ["more than eight", [-3, -2.5, -2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5]],
    ["too quick for beats", [1.4, 1.5, 1.6, 1.7, 1.8, 1.9]],
  ])("%s", (_, times) => {
    expect(countedIn([...struck("sticks", times), ...from(2, ROCK)])).toBeUndefined();
  });

  test("sticks alone, or nothing", () => {
    expect(countedIn(struck("sticks", [0, 0.5, 1, 1.5]))).toBeUndefined();
    expect(countedIn([])).toBeUndefined();
  });
});

describe("hearing a take that was counted in", () => {
  test("tells it, and pulse, span and downbeats are the groove's", () => {
    const { hits, downbeats } = countedBefore("bossa-nova", {
      countIn: 4,
      countInOn: "cross-stick",
      tempoBpm: 132,
    });
    const { countIn, pulse, span, candidates } = heard(hits);
    expect(countIn?.strokes).toBe(4);
    expect(candidates[0]?.id).toBe("bossa-nova");
    expect(span.from).toBeGreaterThan(countIn?.to ?? Number.POSITIVE_INFINITY);
    expect(pulse.beats[0]).toBeGreaterThan(countIn?.to ?? Number.POSITIVE_INFINITY);
    expect(Math.abs((pulse.downbeats[0] ?? 0) - (downbeats[0] ?? 0))).toBeLessThan(0.05);
  });

  test("where the groove alone would be read half a bar off, the count-in decides", () => {
    // Every kick and snare half a bar later: by itself it is the plain groove, begun on three.
    const turned = ROCK.filter(({ time }) => time >= 1);
    const alone = heard(turned);
    const counted = heard([...struck("sticks", [-1, -0.5, 0, 0.5]), ...turned]);
    const onFirst = ({ pulse }: Heard): boolean => pulse.downbeats.some((time) => Math.abs(time - 1) < 0.05);
    expect(onFirst(counted)).toBe(true);
    expect(counted.countIn?.strokes).toBe(4);
    expect(counted.candidates[0]?.id).toBe("rock-eighths");
    expect(Math.abs(counted.pulse.tempoBpm - alone.pulse.tempoBpm)).toBeLessThan(0.5);
  });

  test("without one says nothing of one", () => {
    expect(heard(ROCK)).not.toHaveProperty("countIn");
  });
});

test("whatever is struck: a count-in is the take's beginning, of one sound, and the groove is the rest", () => {
  const voices: readonly Voice[] = ["sticks", "hi-hat-closed", "snare", "kick"];
  const anyHit = fc.record({ step: fc.integer({ min: 0, max: 40 }), voice: fc.constantFrom(...voices) });
  let counted = 0;
  fc.assert(
    fc.property(fc.array(anyHit, { maxLength: 40 }), fc.integer({ min: 0, max: 8 }), (strokes, sticks) => {
      const before = struck(
        "sticks",
        Array.from({ length: sticks }, (_, index) => (index - sticks) / 2),
      );
      const after = strokes.flatMap(({ step, voice }) => struck(voice, [step / 4]));
      const hits = [...before, ...after].sort((a, b) => a.time - b.time);
      const found = countedIn(hits);
      if (!found) return;
      counted += 1;
      const { strokes: count, from: first, to, beatSeconds } = found.countIn;
      expect(found.groove).toEqual(hits.slice(count));
      expect(new Set(hits.slice(0, count).map(({ voice }) => voice)).size).toBe(1);
      expect(count).toBeGreaterThanOrEqual(2);
      expect(count).toBeLessThanOrEqual(8);
      expect(first).toBe(hits[0]?.time);
      expect(to).toBe(hits[count - 1]?.time);
      expect(found.one).toBeGreaterThan(to);
      expect(beatSeconds).toBeGreaterThan(0.2);
    }),
    { numRuns: 300 },
  );
  expect(counted).toBeGreaterThan(20);
});

describe("what was counted holds where the strokes say little of the beat", () => {
  const CYMBAL = /^(hi-hat|ride|bell|crash|splash|china|cowbell|cross|clave|wood)/;
  const withoutCymbals = (id: string): Groove => {
    const groove = writtenGrooveOf(id);
    return {
      ...groove,
      notes: groove.notes.filter(({ voice }) => !CYMBAL.test(voice)),
      voices: groove.voices.filter((voice) => !CYMBAL.test(voice)),
    };
  };
  // Heard half or a quarter of a beat off, or at another tempo, when nobody counts.
  test.each(["cha-cha", "songo", "songo-2", "rumba", "half-time", "trap-half-time"])(
    "in %s without cymbals",
    (id) => {
      const groove = withoutCymbals(id);
      const tempoBpm = usualTempo(groove);
      const counts = [-4, -3, -2, -1].map((beat) => (beat * 60) / tempoBpm);
      const hits = [...struck("sticks", counts), ...played(groove, { tempoBpm, bars: 6, spreadMs: 8 })];
      const hearing = hear(hits, catalogueStock([]));
      if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
      expect(hearing.doubt).toEqual({ between: 0, one: 0 });
      expect(hearing.pulse.tempoBpm).toBeGreaterThan(tempoBpm * 0.98);
      expect(hearing.pulse.tempoBpm).toBeLessThan(tempoBpm * 1.02);
      for (const time of hearing.pulse.downbeats) {
        const bars = (time * tempoBpm) / 240;
        expect(Math.abs(bars - Math.round(bars))).toBeLessThan(0.02);
      }
    },
  );

  test("without a count the beat is in doubt there, by what the other readings have to say", () => {
    const hearing = hear(
      played(withoutCymbals("cha-cha"), { tempoBpm: 114, bars: 6, spreadMs: 8 }),
      catalogueStock([]),
    );
    expect(hearing.kind === "heard" && hearing.doubt.between).toBeGreaterThan(0.1);
    const plain = hear(ROCK, catalogueStock([]));
    expect(plain.kind === "heard" && plain.doubt.between).toBeLessThan(0.1);
  });
});
