import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Hit, Voice } from "../../../../engine/kit/index.ts";
import type { Hearing } from "../../../../engine/listening/index.ts";
import type { Person, Presence } from "../../../../engine/rooms/index.ts";
import { FIRST_SET, type TradingSet } from "../../../../engine/rounds/index.ts";
import { FOUR_FOUR } from "../../../../engine/score/index.ts";
import type { RoundKind } from "../../../../engine/session/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import type { Planned } from "../../../../renderer/audio/strokePlayer.ts";
import type { FarForm } from "../../../../renderer/room/formsBetween.ts";
import { PLAYER_NAMES } from "../../../../renderer/screens/trading/absentPlayers.ts";
import { ringMarks } from "../../../../renderer/screens/trading/ringMarks.ts";
import type { FarPlace } from "../../../../renderer/screens/trading/tradingPlace.ts";
import { TradingRound } from "../../../../renderer/screens/trading/tradingRound.ts";
import { HeardKit } from "../../../../renderer/session/heardKit.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";
import { endRound } from "../../../../renderer/session/recordRounds.ts";
import { SetUpStore } from "../../../../renderer/session/setUps.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const now = (): number => performance.now() / 1000;

/** A bar is two seconds. */
const BPM = 120;
const BAR = 2;
/** From the press to the first line: a second, and a bar that is counted. */
const TO_FIRST_LINE = 1 + BAR;

function sitDown(
  set: Partial<TradingSet>,
  { students = [] as readonly string[], hearing = null as Hearing | null, early = 0 } = {},
) {
  const log = new LessonLog();
  if (students.length > 0)
    log.begin({
      lessonId: "lesson",
      studentIds: students,
      lanes: students.map((studentId) => ({ studentId, source: "kit" as const })),
      zone: "UTC",
    });
  const book = {
    log,
    beginRound: (round: RoundKind, studentIds: readonly string[], lane: number): string => {
      log.add({ kind: "round-began", lane, roundId: "round", round, studentIds });
      return "round";
    },
    endRound: async (): Promise<void> => endRound(log, () => false, "round"),
  };
  const kept = new Map<string, string>();
  const keeping = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
  const kits = [0, 1].map(() => new HeardKit(keeping, new SetUpStore(keeping), () => {}));
  const [first, second] = kits;
  if (!first || !second) throw new Error("There are two kits.");
  const sounded: { readonly strokes: readonly Planned[]; readonly from: number | undefined }[] = [];
  const clicks = vi.fn(async () => {});
  const stopClick = vi.fn();
  const stopped = vi.fn();
  const round = new TradingRound(new SteppedRound("trading", book, () => 0), {
    sound: {
      playStrokes: (strokes, { from } = {}) => {
        sounded.push({ strokes, from });
        return { from: from ?? now(), stop: stopped };
      },
      startClick: clicks,
      stopClick,
    },
    book,
    kits: [first, second],
    judge: {
      begin: () => {},
      add: () => {},
      hear: async () => hearing ?? { kind: "nothing", reason: "no-hits" },
    },
    levelOf: () => "steady",
    nicknameOf: (id) => id.toUpperCase(),
    chance: seededChance(4),
    // A timer may wake before the clock has reached its moment.
    now: () => now() - early,
  });
  round.wanted.dispatch({ tempoBpm: BPM, form: "twos", time: "click", ...set });
  const reopened = () => new SteppedRound("trading", book, () => 0);
  return { round, log, first, second, sounded, clicks, stopClick, stopped, reopened };
}

/** Strikes at moments, in seconds from now; the clock stands at the last of them then. */
async function play(
  kit: HeardKit,
  from: number,
  strokes: readonly (readonly [number, Voice])[],
): Promise<void> {
  for (const [at, voice] of strokes) {
    const time = from + at;
    await vi.advanceTimersByTimeAsync(Math.max(0, (time - now()) * 1000));
    const hit: Hit = { time, voice, zone: "whole", velocity: 0.7, pad: 38 };
    kit.log.append([{ source: "kit", event: { kind: "hit", hit }, live: true }]);
  }
}

async function goTo(time: number): Promise<void> {
  await vi.advanceTimersByTimeAsync(Math.max(0, (time - now()) * 1000));
}

const PHRASE: readonly (readonly [number, Voice])[] = [
  [0, "snare"],
  [0.5, "snare"],
  [0.75, "high-tom"],
  [1, "floor-tom"],
  [1.5, "snare"],
];
const MOVED = PHRASE.map(([at, voice], index): readonly [number, Voice] => [
  at,
  index === 1 ? "ride" : voice,
]);

describe("two kits", () => {
  test("the form counts in, tells whose turn it is, and each exchange", async () => {
    const { round, first, second, clicks } = sitDown({ kits: "two" }, { students: ["ann", "bob"] });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    expect(clicks).toHaveBeenCalledWith(
      expect.objectContaining({ tempoBpm: BPM, from: line, countInBars: 1 }),
    );
    expect(round.onWall()).toMatchObject({ title: expect.stringMatching(/^ANN in /), sub: "Counting in" });
    await play(first, line, PHRASE);
    expect(round.onWall()).toMatchObject({ title: "ANN", sub: "two bars left" });
    await play(second, line + 2 * BAR, PHRASE);
    expect(round.onWall()).toMatchObject({
      title: "BOB",
      says: [],
      sheet: { rings: [{ isOn: false }, { isOn: true }] },
    });
    expect(ringMarks(round.on.get(), 0).length).toBe(PHRASE.length);
    expect(ringMarks(round.on.get(), 1).length).toBe(PHRASE.length);
    await play(first, line + 4 * BAR, PHRASE);
    await play(second, line + 6 * BAR, MOVED);
    await goTo(line + 8 * BAR + 0.5);
    expect(round.get().own.exchanges).toMatchObject([
      {
        by: "bob",
        met: true,
        rhythm: true,
        sound: true,
        says: ["Rhythm holds; sound holds.", "An echo.", "Time was kept through the change."],
      },
      { by: "bob", met: false, rhythm: true, sound: false },
    ]);
    await goTo(line + 16 * BAR + 1);
    expect(round.get().own).toMatchObject({
      stage: "told",
      says: [/^ANN: 10 strokes/, /^BOB: 10 strokes/].map((said) => expect.stringMatching(said)),
    });
    expect(round.isOn).toBe(false);
    expect(round.get().own.exchanges.flatMap(({ timeline }) => timeline.turns).length).toBe(8);
  });

  test("a timer that wakes half a millisecond too soon does not cost a beat", async () => {
    const { round } = sitDown({ kits: "two" }, { early: 0.0005 });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await goTo(line + 0.01);
    expect(round.onWall()).toMatchObject({ title: "First kit", sub: "two bars left" });
    await goTo(line + 2 * BAR + 0.01);
    expect(round.onWall()).toMatchObject({ title: "Second kit", sub: "two bars left" });
  });

  test("with the groove kept in between", async () => {
    const { round, first, second } = sitDown({ kits: "two", groove: true });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await play(first, line, PHRASE);
    await play(second, line + 2 * BAR, PHRASE);
    await goTo(line + 4 * BAR + 0.1);
    expect(round.onWall()).toMatchObject({
      title: "Both keep the groove.",
      sheet: { rings: [{ isOn: true }, { isOn: true }] },
    });
    await play(first, line + 6 * BAR, PHRASE);
    await play(second, line + 8 * BAR, PHRASE);
    await goTo(line + 10 * BAR + 0.5);
    expect(round.get().own.exchanges.map(({ met }) => met)).toEqual([true, true]);
  });

  test("free: whoever plays has the turn, and next passes it on", async () => {
    const { round, first, second } = sitDown({ kits: "two", form: "free" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    expect(round.onWall()).toMatchObject({ title: "First kit in 6", sub: "Counting in" });
    await play(first, line, PHRASE);
    expect(round.onWall()).toMatchObject({ title: "First kit", sub: "calls" });
    await play(second, line + 2.25, MOVED);
    expect(round.onWall()).toMatchObject({ title: "Second kit", sub: "answers" });
    await goTo(line + 5);
    round.commands().next?.();
    expect(round.onWall()).toMatchObject({ title: "First kit", sub: "calls" });
    await goTo(now() + 0.5);
    expect(round.get().own.exchanges).toMatchObject([{ met: false, rhythm: true, sound: false }]);
  });

  test("free: how the time went over is told, a landing passes no turn, and at its end the whole is told", async () => {
    const { round, first, second } = sitDown({ kits: "two", form: "free", aim: "finish" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    const late = 0.045;
    await play(first, line, PHRASE);
    await play(
      second,
      line + BAR,
      PHRASE.map(([at, voice]) => [at + late, voice]),
    );
    // The next call begins on the one, and the answer lands there, a moment later.
    await play(first, line + 2 * BAR, PHRASE.slice(0, 1));
    await play(second, line + 2 * BAR, [[0.02, "kick"]]);
    expect(round.onWall()).toMatchObject({ title: "First kit", sub: "calls" });
    await play(first, line + 2 * BAR, PHRASE.slice(1));
    const { exchanges } = round.get().own;
    expect(exchanges).toMatchObject([{ aim: "finish", met: true, handOverMs: 45 }]);
    expect(exchanges[0]?.says.at(-1)).toBe("The answer came in 45 ms behind where the call left the time.");
    await goTo(line + 4 * BAR);
    round.commands().again?.();
    expect(round.isOn).toBe(false);
    expect(round.get().own).toMatchObject({
      stage: "told",
      says: [
        /^First kit: 10 strokes on .*, on the pulse, spread 0 ms\.$/,
        /^Second kit: 5 strokes on .*, 45 ms behind/,
      ].map((said) => expect.stringMatching(said)),
    });
  });

  test("free: passed on by hand right after a stroke, that stroke is not lost", async () => {
    const { round, first, second } = sitDown({ kits: "two", form: "free" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await play(first, line, PHRASE);
    await goTo(line + 1.53);
    round.commands().next?.();
    expect(round.onWall()).toMatchObject({ title: "Second kit", sub: "answers" });
    await play(second, line + BAR, PHRASE);
    await goTo(line + BAR + 1.9);
    round.commands().again?.();
    expect(round.get().own.exchanges).toMatchObject([
      { met: true, timeline: { strokes: { length: 2 * PHRASE.length } } },
    ]);
  });

  test("free: nothing is passed on while it is counted in", () => {
    const { round } = sitDown({ kits: "two", form: "free" });
    round.begin();
    expect(round.commands().next).toBeUndefined();
  });

  test("free: one that is left before anything was struck leaves nothing", () => {
    const { round } = sitDown({ kits: "two", form: "free" });
    round.begin();
    round.pause();
    expect(round.get().own).toMatchObject({ stage: "between", exchanges: [] });
  });

  test("a program that is opened again has the timeline of the last form", async () => {
    const { round, first, second, reopened } = sitDown({ kits: "two" }, { students: ["ann", "bob"] });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await play(first, line, PHRASE);
    await play(second, line + 2 * BAR, PHRASE);
    await goTo(line + 16 * BAR + 1);
    const { exchanges, says } = reopened().get().own;
    expect(says).toEqual(round.get().own.says);
    expect(exchanges.map(({ timeline }) => timeline.turns.map(({ from, side }) => [side, from]))).toEqual(
      [0, 1, 2, 3].map((exchange) => [
        [0, exchange * 4 * BAR],
        [1, (exchange * 4 + 2) * BAR],
      ]),
    );
    expect(exchanges[0]?.timeline.strokes).toMatchObject([
      ...PHRASE.map(([at, voice]) => ({ side: 0, voice, time: at })),
      ...PHRASE.map(([at, voice]) => ({ side: 1, voice, time: at + 2 * BAR })),
    ]);
    expect(exchanges.slice(1).every(({ timeline }) => timeline.strokes.length === 0)).toBe(true);
  });

  test("turned round, the other one calls", async () => {
    const { round, second } = sitDown({ kits: "two" });
    round.begin();
    round.commands().again?.();
    round.pause();
    round.resume();
    round.commands()["turn-round"]?.();
    round.commands().next?.();
    const line = now() + TO_FIRST_LINE;
    await play(second, line, PHRASE);
    expect(round.onWall().title).toBe("Second kit");
  });
});

test("one kit by turns: the line decides whose stroke it is", async () => {
  const { round, first } = sitDown({ kits: "shared" }, { students: ["ann"] });
  round.begin();
  const line = now() + TO_FIRST_LINE;
  await play(first, line, PHRASE);
  await play(first, line + 2 * BAR, PHRASE);
  await goTo(line + 4 * BAR + 0.5);
  expect(round.get().own.exchanges).toMatchObject([{ by: "ann", met: true }]);
});

describe("a player who is not there", () => {
  test("gives the call back on the second kit, sounded ahead of time", async () => {
    const { round, first, second, sounded } = sitDown({ kits: "with-player", time: "time-keeper" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    expect(sounded[0]?.from).toBeCloseTo(line - BAR, 6);
    await play(first, line, PHRASE);
    await goTo(line + 2 * BAR - 0.01);
    expect(sounded[1]?.from).toBeCloseTo(line + 2 * BAR, 6);
    expect(sounded[1]?.strokes.length).toBe(PHRASE.length);
    await goTo(line + 4 * BAR + 0.5);
    expect(second.log.hitsSince(0).map(({ voice }) => voice)).toEqual(PHRASE.map(([, voice]) => voice));
    expect(round.get().own.exchanges).toMatchObject([{ by: null, met: true }]);
    expect(round.names()[1]).toBe(PLAYER_NAMES.sparse);
  });

  test("in a free form begins with the next bar, plays as long as was called, and passes the turn back", async () => {
    const { round, first, second } = sitDown({ kits: "with-player", form: "free" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await play(first, line, PHRASE);
    await goTo(line + 0.9 * BAR);
    round.commands().next?.();
    await goTo(line + 2 * BAR + 0.1);
    expect(second.log.hitsSince(0).map(({ voice }) => voice)).toEqual(PHRASE.map(([, voice]) => voice));
    expect(round.onWall()).toMatchObject({ title: "You", sub: "calls" });
    await goTo(line + 2 * BAR + 0.5);
    expect(round.get().own.exchanges).toMatchObject([{ rhythm: true, sound: true, met: true }]);
  });

  test("in a free form answers all that was called before its bar, and keeps its turn until its own line", async () => {
    const { round, first, second } = sitDown({ kits: "with-player", form: "free" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    // A bar of silence, then a call of a bar and a half that begins with a pick-up; passed on before its last two strokes.
    const call: readonly (readonly [number, Voice])[] = [
      [-0.25, "snare"],
      [0, "snare"],
      [1, "high-tom"],
      [2, "floor-tom"],
      [2.5, "snare"],
      [3, "snare"],
    ];
    await play(first, line + BAR, call.slice(0, 4));
    expect(round.onWall()).toMatchObject({ title: "You", sub: "calls" });
    round.commands().next?.();
    expect(round.commands().next).toBeUndefined();
    await play(first, line + BAR, call.slice(4));
    expect(round.onWall()).toMatchObject({ title: "You", sub: "the last bar" });
    await goTo(line + 3 * BAR + 0.1);
    expect(round.onWall()).toMatchObject({ title: PLAYER_NAMES.sparse, sub: "two bars left" });
    // What is played into it, and a pick-up to the next call, do not take the turn away; nor can it be passed on.
    await play(first, line + 3 * BAR, [[1.2, "kick"]]);
    expect(round.commands().next).toBeUndefined();
    expect(round.onWall()).toMatchObject({ title: PLAYER_NAMES.sparse });
    await play(first, line + 5 * BAR, [[-0.2, "snare"]]);
    expect(round.onWall()).toMatchObject({ title: PLAYER_NAMES.sparse, sub: "the last bar" });
    await goTo(line + 5 * BAR + 0.5);
    expect(round.onWall()).toMatchObject({ title: "You", sub: "calls" });
    expect(second.log.hitsSince(0).map(({ voice }) => voice)).toEqual(call.map(([, voice]) => voice));
    expect(round.get().own.exchanges).toMatchObject([
      { met: true, timeline: { turns: [{ side: 0 }, { side: 1, from: 3 * BAR, until: 5 * BAR }] } },
    ]);
  });

  test("in a free form a call that lands on the next one, and is passed on after, is given back whole", async () => {
    const { round, first, second } = sitDown({ kits: "with-player", form: "free" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    const call = [...PHRASE, [BAR, "crash-right"] as const];
    await play(first, line, call);
    await goTo(line + 1.3 * BAR);
    round.commands().next?.();
    await goTo(line + 4 * BAR + 0.5);
    expect(second.log.hitsSince(0).map(({ voice }) => voice)).toEqual(call.map(([, voice]) => voice));
    expect(round.get().own.exchanges).toMatchObject([{ met: true }]);
  });

  test("two of them in a free form call two bars and answer two bars", async () => {
    const { round } = sitDown({ kits: "demonstration", form: "free" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await goTo(line + 16 * BAR + 0.5);
    expect(round.get().own.exchanges.map(({ aim, met }) => [aim, met])).toEqual([
      ["echo", true],
      ["move-one", true],
      ["finish", true],
      ["answer", null],
    ]);
    expect(round.on.get().began).toEqual(
      [0, 2, 4, 6, 8, 10, 12, 14, 16].map((bar) => expect.closeTo(line + bar * BAR, 6)),
    );
  });

  test("two of them show how it goes to its end, and then do not stay", async () => {
    const { round } = sitDown({});
    round.show();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(round.get().own.exchanges.map(({ aim, met }) => [aim, met])).toEqual([
      ["echo", true],
      ["move-one", true],
      ["finish", true],
      ["answer", null],
    ]);
    round.commands().stop?.();
    round.anew();
    expect(round.wanted.get().kits).toBe("with-player");
  });
});

describe("the first player's own pulse", () => {
  const heardAt = (from: number, tempoBpm = BPM): Hearing => {
    const beat = 60 / tempoBpm;
    const pulse = {
      tempoBpm,
      metre: FOUR_FOUR,
      beats: [0, 1, 2, 3, 4].map((at) => from + at * beat),
      downbeats: [from, from + 4 * beat],
      confidence: 0.9,
    };
    return { kind: "heard", pulse, doubt: { one: 0.05, between: 0 } } as unknown as Hearing;
  };

  test.each([BPM, 2 * BPM, BPM / 2])(
    "heard as %i a minute, is waited for; from then on bars are counted from the first stroke",
    async (tempoBpm) => {
      const first = now() + 3;
      const {
        round,
        first: kit,
        second,
        clicks,
      } = sitDown({ kits: "two", time: "first-player" }, { hearing: heardAt(first, tempoBpm) });
      round.begin();
      expect(round.onWall()).toMatchObject({
        title: "First kit begins.",
        sub: "The pulse is the first player’s.",
      });
      const bars = [...PHRASE, ...PHRASE.map(([at, voice]) => [at + BAR, voice] as const)];
      await play(kit, first, bars);
      expect(clicks).not.toHaveBeenCalled();
      expect(round.on.get().pulse?.from).toBeCloseTo(first, 6);
      expect(round.onWall()).toMatchObject({ title: "First kit", sub: "the last bar" });
      await play(second, first + 2 * BAR, bars);
      await goTo(first + 4 * BAR + 0.5);
      expect(round.get().own.exchanges).toMatchObject([{ met: true }]);
    },
  );
});

describe("a first player who does not begin in four-four on the one", () => {
  const WALTZ = { numerator: 3, denominator: 4 };
  const waltz = (from: number, confidence: number): Hearing =>
    ({
      kind: "heard",
      pulse: { tempoBpm: BPM, metre: WALTZ, beats: [], downbeats: [from, from + 1.5], confidence },
      doubt: { one: 0.1, between: 0 },
    }) as unknown as Hearing;
  /** A beat before the one, and two bars of three. */
  const strokes = [-0.5, 0, 0.5, 1, 1.5, 2, 2.5].map((at): readonly [number, Voice] => [at, "snare"]);

  test("the metre is heard, and the upbeat told from the one", async () => {
    const line = now() + 3;
    const { round, first, second } = sitDown(
      { kits: "two", time: "first-player", metre: "heard" },
      { hearing: waltz(line, 0.9) },
    );
    round.begin();
    await play(first, line, strokes);
    await goTo(line + 2.9);
    expect(round.on.get().pulse).toMatchObject({ metre: WALTZ, tempoBpm: BPM });
    expect(round.on.get().pulse?.from).toBeCloseTo(line, 6);
    expect(round.trouble.get()).toEqual([]);
    await goTo(line + 3.1);
    expect(round.onWall()).toMatchObject({ title: "Second kit", sub: "two bars left" });
    await play(second, line + 3, strokes.slice(1));
    await goTo(line + 6.5);
    expect(round.get().own.exchanges.length).toBe(1);
  });

  test("what is not clear is said, and the first stroke is taken for the one", async () => {
    const line = now() + 3;
    const { round, first } = sitDown(
      { kits: "two", time: "first-player", metre: "heard", form: "fours" },
      { hearing: waltz(line, 0.4) },
    );
    round.begin();
    await play(first, line, strokes);
    expect(round.on.get().pulse).toBeNull();
    // The player has stopped; it is told all the same.
    await goTo(line + 4);
    expect(round.on.get().pulse).toMatchObject({ metre: FOUR_FOUR });
    expect(round.on.get().pulse?.from).toBeCloseTo(line - 0.5, 6);
    expect(round.trouble.get()).toEqual([
      expect.stringMatching(/^The metre is not clear/),
      expect.stringMatching(/^Which beat is the one is not clear/),
    ]);
  });

  test("where the metre is said, only the one is to be heard", async () => {
    const line = now() + 3;
    const { round, first } = sitDown(
      { kits: "two", time: "first-player", metre: "3/4" },
      { hearing: waltz(line, 0.4) },
    );
    round.begin();
    await play(first, line, strokes);
    await goTo(line + 2.9);
    expect(round.on.get().pulse).toMatchObject({ metre: WALTZ });
    expect(round.on.get().pulse?.from).toBeCloseTo(line, 6);
    expect(round.trouble.get()).toEqual([]);
  });
});

test("a click in six-eight has bars of two felt beats", async () => {
  const { round, clicks } = sitDown({ kits: "two", metre: "6/8" });
  round.begin();
  const line = now() + 1 + 1;
  expect(clicks).toHaveBeenCalledWith(expect.objectContaining({ from: line, countInBars: 1 }));
  await goTo(line + 2 + 0.1);
  expect(round.onWall()).toMatchObject({ title: "Second kit", sub: "two bars left" });
});

describe("a kit far away", () => {
  const partner = {
    shownName: "Bram",
    clock: { uncertainty: 0.02, offset: 0, oneWay: 0.03, worstOneWay: 0.05 },
  };
  function room(delaySeconds: number) {
    const said: { readonly beginsAt: number; readonly calls: boolean }[] = [];
    const held: (number | null)[] = [];
    let begun: (form: FarForm) => void = () => {};
    let formLeft: () => void = () => {};
    let presence: Presence = { kind: "there", quietSeconds: 0 };
    const leaveForm = vi.fn();
    const far: FarPlace = {
      get presence() {
        return presence;
      },
      leaveForm,
      onFormLeft: (listener) => {
        formLeft = listener;
        return () => {};
      },
      partner: partner as unknown as Person,
      delayFor: () => ({ kind: "half-bar", seconds: delaySeconds, distance: "city" }),
      holdDelay: (seconds) => held.push(seconds),
      sayForm: (form) => said.push(form),
      onForm: (listener) => {
        begun = listener;
        return () => {};
      },
    };
    const be = (next: Presence): void => {
      presence = next;
    };
    return {
      far,
      said,
      held,
      leaveForm,
      be,
      begin: (form: FarForm) => begun(form),
      leaveThere: () => formLeft(),
    };
  }
  const SET: TradingSet = { ...FIRST_SET, kits: "far", tempoBpm: BPM };

  test("who calls waits while the call is on its way, and the answer back; the exchange is told", async () => {
    const { round, first, second } = sitDown({ kits: "far" });
    const { far, said, held } = room(BAR / 2);
    round.meet(far);
    round.begin();
    expect(round.isOn).toBe(false);
    round.next();
    const line = said[0]?.beginsAt ?? Number.NaN;
    expect(said).toMatchObject([{ calls: true, delaySeconds: BAR / 2 }]);
    expect(line).toBeCloseTo(now() + 2 + BAR, 6);
    await play(first, line, PHRASE);
    await goTo(line + 2 * BAR + 0.1);
    expect(round.onWall()).toMatchObject({
      title: "On its way to Bram",
      sub: "a bar to wait",
      sheet: { rings: [{ isOn: false }, { isOn: false }] },
    });
    await play(second, line + 3 * BAR, PHRASE);
    expect(round.onWall()).toMatchObject({ title: "Bram" });
    await goTo(line + 5 * BAR + 0.5);
    expect(round.get().own.exchanges).toMatchObject([{ met: true, by: null }]);
    // Known to some 40 ms only, which the sentence owns.
    expect(round.get().own.exchanges[0]?.says.at(-1)).toMatch(/is known to 40 ms only/);
    await goTo(line + 20 * BAR + 1);
    expect(round.get().own.says.at(-1)).toMatch(/^The clocks of the two places are known to some 40 ms/);
    expect(held).toEqual([BAR / 2, null]);
  });

  test("a form that is begun there begins here, and who sits here answers what comes", async () => {
    const { round, first, second } = sitDown({ kits: "far", tempoBpm: 60 }, { students: ["ann"] });
    const { far, said, begin } = room(BAR / 2);
    round.meet(far);
    round.begin();
    const line = now() + 5;
    begin({ set: SET, calls: true, delaySeconds: BAR / 2, line });
    expect(said).toEqual([]);
    expect(round.get().own).toMatchObject({ stage: "on", calls: 1, set: { tempoBpm: BPM } });
    await play(second, line, PHRASE);
    await play(first, line + 2 * BAR, PHRASE);
    expect(round.onWall()).toMatchObject({ title: "ANN" });
    await goTo(line + 4 * BAR + 0.8);
    expect(round.onWall()).toMatchObject({ title: "On its way to Bram" });
    expect(round.get().own.exchanges).toMatchObject([{ met: true, by: "ann" }]);
  });

  describe("that is gone", () => {
    const BROKEN: Presence = { kind: "gone", why: "broken-off", quietSeconds: 0.1 };
    const THERE: Presence = { kind: "there", quietSeconds: 0.1 };
    /** Twos with a bar on the way: an exchange is six bars. */
    async function firstExchange(students: readonly string[] = []) {
      const seat = sitDown({ kits: "far" }, { students });
      const place = room(BAR / 2);
      seat.round.meet(place.far);
      seat.round.begin();
      seat.round.next();
      const line = place.said[0]?.beginsAt ?? Number.NaN;
      await play(seat.first, line, PHRASE);
      await play(seat.second, line + 3 * BAR, PHRASE);
      await goTo(line + 5 * BAR + 0.5);
      expect(seat.round.get().own.exchanges).toMatchObject([{ met: true }]);
      return { ...seat, ...place, line };
    }

    test("is told at once; back in time, the form goes on, and what was held back is told with what came late", async () => {
      const { round, first, second, be, line } = await firstExchange();
      await play(first, line + 5 * BAR, PHRASE);
      be(BROKEN);
      await goTo(line + 8 * BAR);
      expect(round.on.get().gone?.sentence).toBe(
        "The kit of Bram is gone. The connection there broke off, and is tried again by itself while the program there is " +
          "open. If it is back within 20 seconds the form goes on; else it ends with what was heard so far.",
      );
      expect(round.onWall()).toMatchObject({ title: "Bram", sub: "The kit of Bram is gone" });
      // The answer's turn is over: nothing is told of what could not be heard.
      await goTo(line + 11 * BAR);
      expect(round.get().own.exchanges.length).toBe(1);
      be(THERE);
      await goTo(line + 11 * BAR + 0.5);
      expect(round.on.get().gone).toBeNull();
      expect(round.trouble.get()).toEqual(["The kit of Bram was gone for 11 s, and is back."]);
      const late = PHRASE.map(([at, voice]): Hit => {
        const time = line + 8 * BAR + at;
        return { time, voice, zone: "whole", velocity: 0.7, pad: 38 };
      });
      second.log.append(
        late.map((hit) => ({ source: "kit" as const, event: { kind: "hit" as const, hit }, live: true })),
      );
      expect(round.get().own.exchanges.length).toBe(1);
      await goTo(line + 11 * BAR + 3);
      expect(round.get().own.exchanges).toMatchObject([{ met: true }, { met: true }]);
      expect(round.isOn).toBe(true);
    });

    test("and does not come back in twenty seconds, the form ends with what was heard so far", async () => {
      const { round, first, be, line, held, leaveForm } = await firstExchange(["ann"]);
      await play(first, line + 5 * BAR, PHRASE);
      be(BROKEN);
      const gone = now();
      await goTo(gone + 19);
      expect(round.isOn).toBe(true);
      // Its own turns go on meanwhile.
      expect(round.onWall()).toMatchObject({ sub: "The kit of Bram is gone" });
      await goTo(gone + 21);
      expect(round.isOn).toBe(false);
      expect(round.get().own).toMatchObject({
        stage: "told",
        exchanges: [{ met: true }],
        says: [
          "The kit of Bram did not come back within 20 seconds. This is what was heard until then.",
          expect.stringMatching(/^ANN: 10 strokes/),
          expect.stringMatching(/^Bram: 5 strokes/),
          expect.stringMatching(/^The clocks/),
        ],
      });
      expect(held.at(-1)).toBeNull();
      expect(leaveForm).not.toHaveBeenCalled();
    });

    test("a key ends the form before the wait is over", async () => {
      const { round, be } = await firstExchange();
      be({ kind: "gone", why: "here", quietSeconds: 2 });
      await goTo(now() + 1);
      expect(round.on.get().gone?.sentence).toMatch(
        /The room broke off here, and is tried again by itself\./,
      );
      round.commands().again?.();
      expect(round.isOn).toBe(false);
      expect(round.get().own.says[0]).toBe(
        "The form was ended while the kit of Bram was gone. This is what was heard until then.",
      );
      expect(round.get().own.exchanges.length).toBe(1);
    });

    test("a silence that is not yet long enough to be told holds an exchange back", async () => {
      const { round, first, second, be, line } = await firstExchange();
      await play(first, line + 5 * BAR, PHRASE);
      await play(second, line + 8 * BAR, PHRASE);
      await goTo(line + 10 * BAR - 0.1);
      be({ kind: "there", quietSeconds: 3.5 });
      await goTo(line + 10 * BAR + 1);
      expect(round.on.get().gone).toBeNull();
      expect(round.get().own.exchanges.length).toBe(1);
      be(THERE);
      await goTo(line + 10 * BAR + 1.5);
      expect(round.get().own.exchanges).toMatchObject([{ met: true }, { met: true }]);
    });

    test("who has left the room, or the form there, ends it here, and it is said which", async () => {
      const one = await firstExchange();
      one.be({ kind: "gone", why: "left", quietSeconds: 0 });
      await goTo(now() + 0.5);
      expect(one.round.get().own.says[0]).toBe("Bram has left the room. This is what was heard until then.");
      const anew = await firstExchange();
      anew.be({ kind: "gone", why: "anew", quietSeconds: 5 });
      await goTo(now() + 0.5);
      expect(anew.round.get().own.says[0]).toBe(
        "Bram opened the program anew, and cannot come back into this form. This is what was heard until then.",
      );
      const other = await firstExchange();
      other.leaveThere();
      expect(other.round.get().own.says[0]).toBe(
        "Bram has left the form. This is what was heard until then.",
      );
      expect(other.round.isOn).toBe(false);
      expect(other.leaveForm).not.toHaveBeenCalled();
    });

    test("before anything was played there is nothing to tell but that", async () => {
      const { round } = sitDown({ kits: "far" });
      const { far, leaveThere } = room(BAR / 2);
      round.meet(far);
      round.begin();
      round.next();
      leaveThere();
      expect(round.get().own.stage).toBe("between");
      expect(round.trouble.get()).toEqual(["Bram has left the form."]);
    });

    test("gone when the last turn is over, the whole waits for it", async () => {
      const { round, first, be, line } = await firstExchange();
      for (const exchange of [1, 2, 3]) await play(first, line + exchange * 5 * BAR, PHRASE);
      await goTo(line + 18 * BAR);
      be(BROKEN);
      await goTo(line + 20 * BAR + 1);
      expect(round.get().own).toMatchObject({ stage: "on", exchanges: { length: 3 } });
      be(THERE);
      await goTo(line + 20 * BAR + 4);
      expect(round.get().own).toMatchObject({ stage: "told", exchanges: { length: 4 } });
    });

    test("left here, the other place is told; played to its end, it is not", async () => {
      const { round, leaveForm } = await firstExchange();
      round.pause();
      expect(leaveForm).toHaveBeenCalledTimes(1);
      // A free form is over when it is ended, at both places.
      const free = sitDown({ kits: "far", form: "free" });
      const there = room(0);
      free.round.meet(there.far);
      free.round.begin();
      free.round.next();
      await play(free.first, there.said[0]?.beginsAt ?? Number.NaN, PHRASE);
      free.round.commands().again?.();
      expect(free.round.get().own.stage).toBe("told");
      expect(there.leaveForm).toHaveBeenCalledTimes(1);
      const whole = sitDown({ kits: "far" });
      const place = room(0);
      whole.round.meet(place.far);
      whole.round.begin();
      whole.round.next();
      await goTo(now() + 40 * BAR);
      expect(whole.round.get().own.stage).toBe("told");
      expect(place.leaveForm).not.toHaveBeenCalled();
    });
  });

  test("who has not begun the round is told how to take part", () => {
    const { round } = sitDown({ kits: "far" });
    const { far, begin } = room(0);
    round.meet(far);
    begin({ set: SET, calls: true, delaySeconds: 0, line: now() + 5 });
    expect(round.isOn).toBe(false);
    expect(round.trouble.get()).toEqual([expect.stringMatching(/^A form was begun at the other place/)]);
  });
});

describe("what breaks it off", () => {
  test.each([
    ["a pause", (round: TradingRound) => round.pause()],
    ["leaving the page", (round: TradingRound) => round.leavePage()],
    ["its end", (round: TradingRound) => round.stop()],
  ] as const)("%s silences it, and what comes later changes nothing", async (_, act) => {
    const { round, first, second, stopClick } = sitDown({ kits: "two" });
    round.begin();
    const line = now() + TO_FIRST_LINE;
    await play(first, line, PHRASE);
    stopClick.mockClear();
    act(round);
    expect(stopClick).toHaveBeenCalled();
    expect(round.isOn).toBe(false);
    await play(second, line + 2 * BAR, PHRASE);
    await goTo(line + 8 * BAR);
    expect(round.get().own.past).toEqual([]);
  });
});
