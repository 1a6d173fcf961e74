import { describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import {
  asGroove,
  type FileMap,
  type FoundGroove,
  repeatingGroove,
} from "../../../engine/listening/index.ts";
import {
  beatsPerBar,
  beatsPerQuarter,
  type Groove,
  inWholeBars,
  parseGrid,
  performed,
  playedBeat,
  printGrid,
  usualTempo,
} from "../../../engine/score/index.ts";
import { normal, seededChance, toNumber } from "../../../engine/units/index.ts";
import { meantHits } from "./writtenDown.ts";

const grooves = STYLES.flatMap(({ variants }) => variants);

/** What a file says that begins when the strokes of `meantHits` do, a second in. */
function mapOf(groove: Pick<Groove, "metre">, tempoBpm: number): FileMap {
  const quarterBpm = tempoBpm / toNumber(beatsPerQuarter(groove.metre));
  return {
    // The second before the music is a bar of its own: at a tempo in which it is exactly one bar long.
    tempos: [
      { time: 0, tempoBpm: 60 * (beatsPerBar(groove.metre) / toNumber(beatsPerQuarter(groove.metre))) },
      { time: 1, tempoBpm: quarterBpm },
    ],
    metres: [{ time: 0, metre: groove.metre }],
  };
}

function found(hits: readonly Hit[], file?: FileMap): FoundGroove {
  const groove = repeatingGroove(hits, file);
  if (groove.kind === "none") throw new Error(`No groove is found: ${groove.reason}.`);
  return groove;
}

/** Places as played, with voice and touch. */
function sounding({ feel, notes }: Pick<Groove, "feel" | "notes">) {
  return notes
    .map(({ position, voice, dynamic, ornament }) => ({
      at: Math.round(playedBeat(feel, toNumber(position)) * 100) / 100,
      stroke: `${voice} ${dynamic} ${ornament ?? ""}`,
    }))
    .sort((a, b) => a.at - b.at || a.stroke.localeCompare(b.stroke));
}

/** Whether the second bar is as the first but for touch: that is found as one bar. */
function isOneBarTwice(groove: Groove): boolean {
  const beats = beatsPerBar(groove.metre);
  const bars = [0, 1].map((bar) =>
    sounding(groove)
      .filter(({ at }) => Math.floor(at / beats) === bar)
      .map(({ at, stroke }) => `${(at - bar * beats).toFixed(2)} ${stroke.split(" ")[0]}`)
      .join(),
  );
  return groove.bars === 2 && bars[0] === bars[1];
}

describe("a groove that is played over and over is found as it is written", () => {
  const cases = grooves
    .filter((groove) => groove.bars <= 2 && !isOneBarTwice(groove))
    .map((groove) => ({ id: groove.id, groove }));
  test.each(cases)("$id, on the file's bars", ({ groove }) => {
    const tempoBpm = usualTempo(groove);
    const chance = seededChance(8);
    const hits = meantHits(groove, { tempoBpm, bars: 16, slip: () => normal(chance) * 0.006 });
    const { groove: own, barsFrom, played, outOf } = found(hits, mapOf(groove, tempoBpm));
    expect(barsFrom).toBe("file");
    expect({ bars: own.bars, metre: own.metre, played, outOf }).toEqual({
      bars: groove.bars,
      metre: groove.metre,
      played: 16,
      outOf: 16,
    });
    expect(own.tempoBpm).toBeCloseTo(tempoBpm, 0);
    const meant = sounding(groove);
    const got = sounding(own);
    expect(got.map(({ stroke }) => stroke)).toEqual(meant.map(({ stroke }) => stroke));
    got.forEach(({ at }, index) => {
      expect(Math.abs(at - (meant[index]?.at ?? 0))).toBeLessThan(0.04);
    });
  });
});

test("fills and left-out strokes do not change it", () => {
  const groove = parseGrid(
    "groove: g\nname: G\nmetre: 4/4\ntempo: 80-120\nhi-hat-closed | x.x.x.x.x.x.x.x. |\nsnare | ....x.......x..g |\nkick | x......x..x..... |",
  );
  const fill =
    FILLS.find(({ id }) => id === "sixteenths-down-the-kit") ??
    FILLS.find(({ beats, metre }) => beats === 4 && metre.numerator === 4);
  if (!fill) throw new Error("There is no fill of a bar.");
  const chance = seededChance(3);
  const hits = meantHits(groove, { tempoBpm: 100, bars: 24, slip: () => normal(chance) * 0.008 }).filter(
    ({ time }) => Math.floor((time - 0.9) / 2.4) % 4 !== 3 && chance() > 0.04,
  );
  const fills = [3, 7, 11, 15, 19, 23].flatMap((bar) =>
    performed(inWholeBars(fill), { tempoBpm: 100, bars: 1 }).map(
      ({ time, note }): Hit => ({
        time: 1 + bar * 2.4 + time,
        voice: note.voice,
        zone: "whole",
        velocity: 0.7,
        pad: 0,
      }),
    ),
  );
  const all = [...hits, ...fills].sort((a, b) => a.time - b.time);
  const { groove: own, played, outOf } = found(all, mapOf(groove, 100));
  expect(outOf).toBe(24);
  expect(played).toBe(18);
  const kept = { ...asGroove(own, groove), voices: groove.voices, tempoBpm: groove.tempoBpm };
  expect(printGrid(parseGrid(printGrid(kept)))).toBe(printGrid(groove));
});

describe("whose bars they are", () => {
  const groove = grooves.find(({ id }) => id === "rock-eighths");
  if (!groove) throw new Error("There is no such groove.");
  const chance = seededChance(2);
  const hits = meantHits(groove, { tempoBpm: 97, bars: 16, slip: () => normal(chance) * 0.008 });

  test.each([60, 90, 104, 120, 133])("a file that says %s where 97 is played is not believed", (tempoBpm) => {
    const { barsFrom, groove: own } = found(hits, mapOf(groove, tempoBpm));
    expect(barsFrom).toBe("listening");
    expect(own.tempoBpm).toBeCloseTo(97, 0);
  });

  test("without a file they are heard", () => {
    const { barsFrom, barTimes } = found(hits);
    expect(barsFrom).toBe("listening");
    expect(Math.abs((barTimes[0] ?? 0) - 1)).toBeLessThan(0.05);
  });

  test("a tempo of no time at all and bars without end do no harm", () => {
    for (const tempoBpm of [1e-6, 6e7]) {
      const file = {
        tempos: [{ time: 0, tempoBpm }],
        metres: [{ time: 0, metre: { numerator: 255, denominator: 64 } }],
      };
      expect(found(hits, file).barsFrom).toBe("listening");
    }
  });
});

describe("nothing is found", () => {
  test("in too few strokes", () => {
    expect(repeatingGroove([])).toEqual({ kind: "none", reason: "too-few-hits" });
  });

  test("in a single bar", () => {
    const groove = parseGrid("groove: g\nname: G\nmetre: 4/4\ntempo: 60-90\nsnare | xxxxxxxx |");
    const hits = meantHits(groove, { tempoBpm: 90, bars: 1 });
    expect(repeatingGroove(hits, mapOf(groove, 90))).toEqual({ kind: "none", reason: "too-few-bars" });
  });

  test("where no bar is like another", () => {
    const chance = seededChance(6);
    const voices = ["snare", "kick", "high-tom", "ride", "floor-tom", "crash-left"] as const;
    const hits = Array.from({ length: 160 }, (_, step): Hit[] => {
      const voice = voices[Math.floor(chance() * voices.length)] ?? "snare";
      return chance() < 0.35 ? [{ time: 1 + step / 8, voice, zone: "whole", velocity: 0.6, pad: 0 }] : [];
    }).flat();
    expect(repeatingGroove(hits, mapOf({ metre: { numerator: 4, denominator: 4 } }, 120))).toEqual({
      kind: "none",
      reason: "nothing-repeats",
    });
  });
});
