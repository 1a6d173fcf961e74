import { describe, expect, test } from "vitest";
import {
  type Demonstration,
  demonstrate,
  fillById,
  grooveById,
  type Orchestration,
  STYLES,
} from "../../../engine/catalogue/index.ts";
import { DYNAMIC_VELOCITY, type Groove, parseGrid } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

function exactly(how: Partial<Demonstration>): Demonstration {
  const still = { velocitySpread: { ghost: 0, plain: 0, accent: 0 } };
  return {
    tempoBpm: 120,
    bars: 4,
    leanMs: 0,
    spreadMs: 0,
    leftOut: 0,
    added: 0,
    ...still,
    chance: seededChance(1),
    ...how,
  };
}

function grid(lines: string): Groove {
  return parseGrid(`groove: g\nname: G\nmetre: 4/4\ntempo: 60-140\n${lines}`);
}

/** What is struck when: "0.5 ride", in order. */
function struck(groove: Groove, how: Partial<Demonstration>): readonly string[] {
  return demonstrate(groove, exactly({ tempoBpm: 60, bars: 1, ...how })).map(
    ({ time, voice }) => `${time} ${voice}`,
  );
}

function moments(values: readonly number[]): { mean: number; sd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

describe("orchestration", () => {
  const all = STYLES.flatMap(({ variants }) => variants);
  const HATS = ["hi-hat-closed", "hi-hat-open"];
  const RIDES = ["ride", "bell"];

  test.each(all)(
    "$id with its time on the ride, on the hi-hat: no stroke there is left on the other, the rest stays",
    (groove) => {
      for (const [timeOn, from] of [
        ["ride", HATS],
        ["hi-hat-closed", RIDES],
      ] as const) {
        const time = [...HATS, ...RIDES];
        const rest = (how: { orchestration?: Orchestration }) =>
          demonstrate(groove, exactly(how)).filter(({ voice }) => !time.includes(voice));
        const moved = demonstrate(groove, exactly({ orchestration: { timeOn } }));
        expect(moved.some(({ voice }) => from.includes(voice))).toBe(false);
        expect(rest({ orchestration: { timeOn } })).toEqual(rest({}));
        const places = (strokes: typeof moved) =>
          new Set(strokes.filter(({ voice }) => time.includes(voice)).map((stroke) => stroke.time));
        expect(places(moved)).toEqual(places(demonstrate(groove, exactly({}))));
        const doubled = moved.map((stroke) => `${stroke.time} ${stroke.voice}`);
        if (groove.notes.every(({ ornament }) => !ornament))
          expect(new Set(doubled).size).toBe(doubled.length);
      }
    },
  );

  test("there and back is the groove as written, where it keeps time on closed hi-hats alone", () => {
    const rock = grooveById("rock-eighths");
    if (!rock) throw new Error("The stock has no rock-eighths.");
    const onRide = struck(rock, { orchestration: { timeOn: "ride" } });
    expect(onRide.map((each) => each.replace("ride", "hi-hat-closed"))).toEqual(struck(rock, {}));
    expect(onRide).not.toEqual(struck(rock, {}));
  });

  test("the back-beat goes across the rim, ghosts stay on the head, and back", () => {
    const written = grid("snare | .Xgx |");
    expect(struck(written, { orchestration: { backBeatOn: "cross-stick" } })).toEqual([
      "1 cross-stick",
      "2 snare",
      "3 cross-stick",
    ]);
    const across = grid("cross-stick | .x.x |");
    expect(struck(across, { orchestration: { backBeatOn: "snare" } })).toEqual(["1 snare", "3 snare"]);
    expect(struck(across, { orchestration: { backBeatOn: "cross-stick" } })).toEqual(struck(across, {}));
  });

  test("two strokes that come together are one, the stronger", () => {
    const both = grid("ride | xx.. |\nbell | X... |\nhi-hat-pedal | .x.x |");
    const strokes = demonstrate(
      both,
      exactly({ tempoBpm: 60, bars: 1, orchestration: { timeOn: "hi-hat-closed" } }),
    );
    expect(strokes).toEqual([
      { time: 0, voice: "hi-hat-closed", velocity: DYNAMIC_VELOCITY.accent },
      { time: 1, voice: "hi-hat-closed", velocity: DYNAMIC_VELOCITY.plain },
      { time: 1, voice: "hi-hat-pedal", velocity: DYNAMIC_VELOCITY.plain },
      { time: 3, voice: "hi-hat-pedal", velocity: DYNAMIC_VELOCITY.plain },
    ]);
  });

  test("fills stay as written", () => {
    const fill = fillById("flams-on-three-and-four");
    if (!fill) throw new Error("The stock has no such fill.");
    const strokes = struck(grid("snare | .x.x |"), {
      orchestration: { backBeatOn: "cross-stick" },
      fills: [{ bar: 1, fill }],
    });
    expect(strokes).toEqual(["1 cross-stick", "1.974 snare", "2 snare", "2.974 snare", "3 snare"]);
  });

  test("strokes are added on the voices as they sound", () => {
    const strokes = demonstrate(
      grid("hi-hat-closed | xxxx |"),
      exactly({ bars: 50, leftOut: 1, added: 1, orchestration: { timeOn: "ride" } }),
    );
    expect(new Set(strokes.map(({ voice }) => voice))).toEqual(new Set(["ride"]));
    expect(strokes.length).toBe(200);
  });
});

describe.each([1, 2, 3])("seed %s", (seed) => {
  /** Each voice on a beat of its own. */
  const APART = grid("kick | x... |\nsnare | .x.. |\nride | ..x. |");
  const bars = 500;

  test("a voice leans and spreads in its own way, the others as all do", () => {
    const how = {
      ...{ bars, leanMs: 5, spreadMs: 8, tempoBpm: 60, chance: seededChance(seed), countIn: 1 },
      timingByVoice: { snare: { leanMs: 20 }, ride: { leanMs: -12, spreadMs: 3 } },
    };
    const strokes = demonstrate(APART, exactly(how));
    const figures = (voice: string, beat: number) =>
      moments(
        strokes
          .filter((stroke) => stroke.voice === voice)
          .map(({ time }, bar) => (time - 1 - beat - 4 * bar) * 1000),
      );
    for (const { voice, beat, leanMs, spreadMs } of [
      { voice: "kick", beat: 0, leanMs: 5, spreadMs: 8 },
      { voice: "snare", beat: 1, leanMs: 20, spreadMs: 8 },
      { voice: "ride", beat: 2, leanMs: -12, spreadMs: 3 },
    ]) {
      const { mean, sd } = figures(voice, beat);
      // Four standard errors.
      expect(Math.abs(mean - leanMs), voice).toBeLessThan((4 * spreadMs) / Math.sqrt(bars));
      expect(Math.abs(sd - spreadMs), voice).toBeLessThan((4 * spreadMs) / Math.sqrt(2 * bars));
    }
  });

  test("motor delay and spread add as variances", () => {
    const how = { bars, tempoBpm: 60, spreadMs: 6, motorMs: 8, countIn: 1, chance: seededChance(seed) };
    const strokes = demonstrate(grid("kick | x... |"), exactly(how)).slice(1);
    const { sd } = moments(strokes.map(({ time }, bar) => (time - 1 - 4 * bar) * 1000));
    expect(Math.abs(sd - 10)).toBeLessThan((4 * 10) / Math.sqrt(2 * bars));
  });

  test("strength scatters as much as asked for each dynamic", () => {
    const how = { bars, velocitySpread: { ghost: 0.02, accent: 0 }, chance: seededChance(seed) };
    const strokes = demonstrate(grid("kick | g... |\nsnare | .x.. |\nride | ..X. |"), exactly(how));
    const strengths = (voice: string) =>
      moments(strokes.filter((stroke) => stroke.voice === voice).map(({ velocity }) => velocity));
    expect(strengths("ride")).toEqual({
      mean: expect.closeTo(DYNAMIC_VELOCITY.accent, 9),
      sd: expect.closeTo(0, 9),
    });
    expect(Math.abs(strengths("kick").sd - 0.02)).toBeLessThan((4 * 0.02) / Math.sqrt(2 * bars));
    expect(Math.abs(strengths("snare").sd - 0.07)).toBeLessThan((4 * 0.07) / Math.sqrt(2 * bars));
  });
});
