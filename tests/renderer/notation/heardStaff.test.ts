import { describe, expect, test } from "vitest";
import { grooveById, STYLES } from "../../../engine/catalogue/index.ts";
import { gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { type Groove, performed, writeStaff } from "../../../engine/score/index.ts";
import { heardRounds, mostTelling } from "../../../renderer/notation/heardStaff.ts";

const TEMPO_BPM = 100;
const BAND_MS = 30;
const BARS = 6;

function catalogued(id: string): Groove {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The catalogue has no groove "${id}".`);
  return groove;
}

const rock = catalogued("rock-eighths");

function strike(time: number, voice: Voice): Hit {
  return { time, voice, zone: "whole", velocity: 0.63, pad: 38 };
}

/** The groove as written, each stroke changed at will; `index` counts the groove's notes through all bars. */
function take(
  groove: Groove,
  change: (hit: Hit, index: number) => readonly Hit[] = (hit) => [hit],
): readonly Hit[] {
  return performed(groove, { tempoBpm: TEMPO_BPM, bars: BARS })
    .flatMap(({ time, note }, index) => change(strike(time, note.voice), index))
    .sort((a, b) => a.time - b.time);
}

function rounds(groove: Groove, hits: readonly Hit[]) {
  const target = grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars: BARS });
  return heardRounds(gradeTake(hits, target, { start: "shared" }), groove, BAND_MS);
}

describe.each(STYLES.map(({ variants }) => variants[0]).filter((groove) => groove !== undefined))(
  "$id played as written",
  (groove) => {
    test("is heard as written, in every round", () => {
      const heard = rounds(groove, take(groove));
      expect(heard).toHaveLength(BARS / groove.bars);
      for (const { source, differences } of heard) {
        expect(differences.size).toBe(0);
        expect(source.notes.map(({ position, voice }) => ({ position, voice }))).toEqual(
          groove.notes.map(({ position, voice }) => ({ position, voice })),
        );
        expect(writeStaff(source).bars).toHaveLength(groove.bars);
      }
    });
  },
);

const perBar = rock.notes.length;
/** The third bar's stroke of this voice: the place in the whole take of the first or second of them. */
function inThirdBar(voice: Voice, which = 0): number {
  const places = rock.notes.flatMap((note, index) => (note.voice === voice ? [index] : []));
  return 2 * perBar + (places[which] ?? Number.NaN);
}

describe("what differs is told in its own bar", () => {
  const only = (heard: ReturnType<typeof rounds>) =>
    heard.map(({ differences }) => [...differences.values()]);

  test("a stroke left out", () => {
    const heard = rounds(
      rock,
      take(rock, (hit, index) => (index === inThirdBar("snare") ? [] : [hit])),
    );
    expect(only(heard)).toEqual([[], [], [{ kind: "left-out" }], [], [], []]);
    const [[index]] = [...(heard[2]?.differences ?? [])] as [[number, unknown]];
    expect(heard[2]?.source.notes[index]).toMatchObject({ voice: "snare", position: { num: 1, den: 1 } });
  });

  test("a stroke added, on the nearest sixteenth", () => {
    const extra = strike((60 / TEMPO_BPM) * (2 * 4 + 2.76), "snare");
    const heard = rounds(
      rock,
      [...take(rock), extra].sort((a, b) => a.time - b.time),
    );
    expect(only(heard)).toEqual([[], [], [{ kind: "added" }], [], [], []]);
    const [[index]] = [...(heard[2]?.differences ?? [])] as [[number, unknown]];
    expect(heard[2]?.source.notes[index]).toMatchObject({ voice: "snare", position: { num: 11, den: 4 } });
  });

  test("another sound, with the written place", () => {
    const heard = rounds(
      rock,
      take(rock, (hit, index) => [index === inThirdBar("snare") ? { ...hit, voice: "cross-stick" } : hit]),
    );
    expect(only(heard)).toEqual([
      [],
      [],
      [{ kind: "other-sound", written: { step: "C", octave: 5, head: "normal" } }],
      [],
      [],
      [],
    ]);
  });

  test.each([
    ["ahead", -0.05],
    ["behind", 0.05],
  ] as const)("a stroke %s", (kind, seconds) => {
    const heard = rounds(
      rock,
      take(rock, (hit, index) => [
        index === inThirdBar("snare", 1) ? { ...hit, time: hit.time + seconds } : hit,
      ]),
    );
    expect(only(heard)).toEqual([[], [], [{ kind }], [], [], []]);
  });

  test("the round with the most that differs comes first to the eye", () => {
    const heard = rounds(
      rock,
      take(rock, (hit, index) => (Math.floor(index / perBar) === 4 && hit.voice === "snare" ? [] : [hit])),
    );
    expect(mostTelling(heard)?.round).toBe(4);
    expect(mostTelling([])).toBeUndefined();
  });
});

test("a take in which nothing met what is written has no rounds", () => {
  expect(rounds(rock, [strike(0.1, "cowbell")])).toEqual([]);
});
