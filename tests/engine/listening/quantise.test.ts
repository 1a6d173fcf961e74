import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { asGroove, catalogueStock, hear, quantise, type Unsure } from "../../../engine/listening/index.ts";
import { FOUR_FOUR, parseGrid, printGrid, usualTempo } from "../../../engine/score/index.ts";
import { normal, seededChance, toNumber } from "../../../engine/units/index.ts";
import { meantHeading, meantHits, type Tally, tallied } from "./writtenDown.ts";

const grooves = STYLES.flatMap(({ variants }) => variants);
const BARS = 8;

describe("played without noise, a groove of the stock is written as it is", () => {
  const cases = grooves.flatMap((groove) =>
    [groove.tempoBpm.low, usualTempo(groove), groove.tempoBpm.high].map((tempoBpm) => ({
      groove,
      tempoBpm,
      id: groove.id,
    })),
  );
  test.each(cases)("$id at $tempoBpm: places, touch and ornaments", ({ groove, tempoBpm }) => {
    const hits = meantHits(groove, { tempoBpm, bars: BARS });
    const written = quantise(hits, meantHeading(groove, tempoBpm, BARS));
    const meant = hits.filter(({ meant }) => meant).length;
    expect(tallied(groove, hits, written)).toEqual({
      meant,
      inPlace: meant,
      touched: meant,
      ornamented: meant,
    });
    expect(written.bars).toBe(BARS);
    expect(written.unsure).toEqual([]);
  });

  test("also when nobody says the pulse", () => {
    const stock = catalogueStock(STYLES);
    for (const { variants } of STYLES) {
      const [groove] = variants;
      if (!groove) throw new Error("A style has no groove.");
      const hits = meantHits(groove, { tempoBpm: usualTempo(groove), bars: BARS });
      const heard = hear(hits, stock);
      if (heard.kind === "nothing") throw new Error(`${groove.id}: nothing is heard.`);
      const { meant, inPlace } = tallied(groove, hits, quantise(hits, heard), 0.045);
      expect(inPlace, groove.id).toBe(meant);
    }
  }, 180_000);

  test("straight grooves come back as the same grid text", () => {
    const straight = grooves.filter(({ feel }) => feel.kind === "straight");
    for (const groove of straight) {
      const tempoBpm = usualTempo(groove);
      const hits = meantHits(groove, { tempoBpm, bars: groove.bars });
      const written = asGroove(quantise(hits, meantHeading(groove, tempoBpm, groove.bars)), groove);
      const inOrder = { ...written, voices: groove.voices, tempoBpm: groove.tempoBpm };
      expect(printGrid(parseGrid(printGrid(inOrder))), groove.id).toBe(printGrid(groove));
    }
  });
});

/** All grooves of the stock with this slip, by what is heard. */
function noisy(slip: (chance: () => number) => number): Tally {
  const stock = catalogueStock(STYLES);
  const sum = { meant: 0, inPlace: 0, touched: 0, ornamented: 0 };
  for (const groove of grooves) {
    const chance = seededChance(41);
    const hits = meantHits(groove, {
      tempoBpm: usualTempo(groove),
      bars: BARS,
      slip: () => slip(chance),
      louder: () => 0.05 * normal(chance),
    });
    const heard = hear(hits, stock);
    if (heard.kind === "nothing") throw new Error(`${groove.id}: nothing is heard.`);
    const tally = tallied(groove, hits, quantise(hits, heard), 0.045);
    for (const key of ["meant", "inPlace", "touched", "ornamented"] as const) sum[key] += tally[key];
  }
  return sum;
}

test.each([
  { name: "anywhere within 20 ms", slip: (chance: () => number) => (chance() * 2 - 1) * 0.02 },
  { name: "by a bell of 10 ms", slip: (chance: () => number) => normal(chance) * 0.01 },
])(
  "with noise $name 98 of 100 strokes stand in their place",
  ({ name, slip }) => {
    const { meant, inPlace, touched, ornamented } = noisy(slip);
    const share = (part: number): string => `${((100 * part) / meant).toFixed(2)} %`;
    console.info(
      `${name}: ${meant} strokes, in place ${share(inPlace)}, touch ${share(touched)}, ornament ${share(ornamented)}`,
    );
    expect(inPlace / meant).toBeGreaterThanOrEqual(0.98);
    expect(touched / meant).toBeGreaterThanOrEqual(0.97);
    expect(ornamented / meant).toBeGreaterThanOrEqual(0.98);
  },
  120_000,
);

/** Strokes at beats of 4/4 at 120, from one second on. */
function strokes(voice: Voice, beats: readonly number[], velocity = 0.63): readonly Hit[] {
  return beats.map((beat) => ({ time: 1 + beat / 2, voice, zone: "whole", velocity, pad: 0 }));
}
const heading = {
  pulse: {
    tempoBpm: 120,
    metre: FOUR_FOUR,
    beats: Array.from({ length: 17 }, (_, beat) => 1 + beat / 2),
    downbeats: [0, 4, 8, 12, 16].map((beat) => 1 + beat / 2),
    confidence: 1,
  },
  swing: null,
};
const eighths = Array.from({ length: 32 }, (_, step) => step / 2);

function written(...hits: readonly (readonly Hit[])[]) {
  return quantise(
    hits.flat().sort((a, b) => a.time - b.time),
    heading,
  );
}

function positions(voice: Voice, ...hits: readonly (readonly Hit[])[]): readonly number[] {
  return written(...hits)
    .notes.filter((note) => note.voice === voice)
    .map(({ position }) => toNumber(position));
}

describe("a beat gets the grid that fits it", () => {
  test.each([
    { grid: "eighths", beats: [0, 0.5] },
    { grid: "triplets", beats: [0, 1 / 3, 2 / 3] },
    { grid: "sixteenths", beats: [0, 0.25, 0.5, 0.75] },
    { grid: "triplets of sixteenths", beats: [0, 1 / 6, 2 / 6, 3 / 6, 4 / 6, 5 / 6] },
    { grid: "thirty-seconds", beats: [0, 1 / 8, 2 / 8, 3 / 8, 4 / 8, 5 / 8, 6 / 8, 7 / 8] },
  ])("$grid between eighths", ({ beats }) => {
    const snare = beats.map((beat) => beat + 6);
    expect(positions("snare", strokes("hi-hat-closed", eighths), strokes("snare", snare))).toEqual(
      snare.map((beat) => expect.closeTo(beat, 9)),
    );
  });

  test("an early stroke belongs to the beat it was meant for, also the very first", () => {
    expect(positions("kick", strokes("kick", [-0.03, 3.96, 8]))).toEqual([0, 4, 8]);
  });

  test("a pickup stands in a bar of its own", () => {
    const { notes, bars, barTimes } = written(strokes("snare", [-1, -0.5]), strokes("kick", [0, 2, 4]));
    expect(notes.map(({ position }) => toNumber(position))).toEqual([3, 3.5, 4, 6, 8]);
    expect(bars).toBe(3);
    expect(barTimes).toEqual([-1, 1, 3, 5].map((time) => expect.closeTo(time, 9)));
  });
});

describe("grace strokes", () => {
  test("of flams and drags are folded into the stroke after them", () => {
    const { notes, hitOf } = written(
      strokes("hi-hat-closed", eighths),
      strokes("snare", [1.95], 0.3),
      strokes("snare", [2]),
      strokes("snare", [5.9, 5.95], 0.3),
      strokes("snare", [6]),
    );
    const snare = notes.flatMap((note, index) =>
      note.voice === "snare" ? [{ ...note, hit: hitOf[index] }] : [],
    );
    expect(snare.map(({ position, ornament }) => [toNumber(position), ornament])).toEqual([
      [2, "flam"],
      [6, "drag"],
    ]);
  });

  test("as loud as their stroke and wide are a flam still: nobody writes two strokes on one place", () => {
    const { notes } = written(strokes("hi-hat-closed", eighths), strokes("snare", [1.9, 2], 0.9));
    expect(notes.filter(({ voice }) => voice === "snare").map(({ ornament }) => ornament)).toEqual(["flam"]);
  });

  test("are no sixteenths of a fast player", () => {
    // 62 ms apart: sixteenths at 240 a minute, soft and loud in turn.
    const hits = Array.from(
      { length: 32 },
      (_, step): Hit => ({
        time: 1 + step / 16,
        voice: "snare",
        zone: "head",
        velocity: step % 2 === 0 ? 0.9 : 0.3,
        pad: 38,
      }),
    );
    const pulse = {
      ...heading.pulse,
      tempoBpm: 240,
      beats: Array.from({ length: 9 }, (_, beat) => 1 + beat / 4),
      downbeats: [1, 2, 3],
    };
    const { notes } = quantise(hits, { pulse, swing: null });
    expect(notes.length).toBe(32);
    expect(notes.every(({ ornament }) => ornament === undefined)).toBe(true);
  });
});

describe("touch is the player's own", () => {
  test.each([0.65, 0.8, 1])("plain strokes at %s, ghosts and accents beside them", (scale) => {
    const { notes } = written(
      strokes("snare", [0, 2, 4, 6, 8, 10], 0.63 * scale),
      strokes("snare", [0.75, 2.75, 4.75], 0.25 * scale),
      strokes("snare", [12, 14], 0.9 * scale),
    );
    expect(notes.map(({ dynamic }) => dynamic).sort()).toEqual([
      "accent",
      "accent",
      ...new Array(3).fill("ghost"),
      ...new Array(6).fill("plain"),
    ]);
  });
});

describe("where it is unsure", () => {
  function asked(...hits: readonly (readonly Hit[])[]): readonly Unsure[] {
    return written(...hits).unsure;
  }

  test("nowhere in a plain take", () => {
    expect(asked(strokes("hi-hat-closed", eighths), strokes("snare", [1, 3, 5, 7, 9, 11, 13, 15]))).toEqual(
      [],
    );
  });

  test("a stroke between two grids: both are offered", () => {
    const hits = [
      strokes("hi-hat-closed", eighths.map((_, beat) => beat).slice(0, 16)),
      strokes("snare", [6.293]),
    ];
    const [place, ...more] = asked(...hits);
    expect(more).toEqual([]);
    expect(place).toMatchObject({ bar: 2, beat: 3 });
    if (!place || place.kind === "touch") throw new Error("A place or a grid should be asked for.");
    const { notes } = written(...hits);
    const note = place.notes.find((index) => notes[index]?.voice === "snare") ?? -1;
    const at = toNumber(notes[note]?.position ?? { num: -1, den: 1 });
    const other =
      place.kind === "grid"
        ? place.alternatives[0]?.positions[place.notes.indexOf(note)]
        : place.alternatives[0]?.position;
    const offered = [at, toNumber(other ?? { num: -1, den: 1 })].sort();
    expect(offered).toEqual([6.25, expect.closeTo(6 + 1 / 3, 9)]);
    expect(place.chance).toBeGreaterThanOrEqual(0.5);
    expect(place.chance).toBeLessThan(0.8);
  });

  test("a strength between ghost and plain", () => {
    // Where a ghost note and a plain stroke are equally likely.
    const found = asked(strokes("snare", [1, 3, 5, 7, 9, 11, 13, 15]), strokes("snare", [4.5], 0.415));
    expect(found).toEqual([expect.objectContaining({ kind: "touch", bar: 2, beat: 1 })]);
  });
});

test("the lines of the voices stand as on a staff: cymbals above, feet below", () => {
  const { voices } = written(
    strokes("kick", [0]),
    strokes("crash-left", [0]),
    strokes("snare", [1]),
    strokes("hi-hat-pedal", [2]),
    strokes("clap", [3]),
  );
  expect(voices).toEqual(["crash-left", "snare", "clap", "kick", "hi-hat-pedal"]);
});

test("swing is written straight, with a feel; with its middle triplets, as triplets", () => {
  const shuffle = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((beat) => [beat, beat + 0.66]);
  const hits = strokes("ride", shuffle);
  const swung = quantise(hits, { ...heading, swing: { ratio: 0.66 / 0.34, of: "eighths" } });
  expect(swung.feel).toEqual({ kind: "swung", ratio: 1.94, written: "eighths" });
  expect(swung.notes.map(({ position }) => toNumber(position))).toEqual(eighths.slice(0, 16));
  const withMiddles = [...hits, ...strokes("snare", [1.33, 3.33, 5.33], 0.25)].sort(
    (a, b) => a.time - b.time,
  );
  const triplets = quantise(withMiddles, { ...heading, swing: { ratio: 0.66 / 0.34, of: "eighths" } });
  expect(triplets.feel).toEqual({ kind: "straight" });
  expect(triplets.notes.filter(({ voice }) => voice === "snare").map(({ position }) => position)).toEqual([
    { num: 4, den: 3 },
    { num: 10, den: 3 },
    { num: 16, den: 3 },
  ]);
});
