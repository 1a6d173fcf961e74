import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { rhythmById } from "../../../../engine/catalogue/index.ts";
import type { CardId } from "../../../../engine/rounds/index.ts";
import type { PlayedClick } from "../../../../engine/score/index.ts";
import { seededChance, toNumber } from "../../../../engine/units/index.ts";
import { CardTableRound } from "../../../../renderer/screens/card-table/cardTableRound.ts";
import { NOTHING_REMEMBERED } from "../../../../renderer/screens/card-table/studentDeck.ts";
import { CardSettings } from "../../../../renderer/session/cardSettings.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";
import { StoreError } from "../../../../renderer/store/index.ts";
import { opened } from "../../session/lessonsPlayed.ts";

const RHYTHM: CardId = "symbol:rhythm-eighths-on-two";

const startClick = vi.fn(async (_: PlayedClick) => {});
const stopClick = vi.fn();

async function table(about: { remembered?: () => Promise<typeof NOTHING_REMEMBERED> } = {}) {
  const { book } = await opened();
  const kept = new Map<string, string>();
  const settings = new CardSettings({
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => kept.set(key, value),
  });
  settings.set({ jokersInTen: 0, rhythms: false });
  const kit = new KitLog();
  const round = new CardTableRound(new SteppedRound("card-table", book, () => 0), {
    book,
    kit: () => kit,
    levelOf: () => "steady",
    remembered: about.remembered ?? (async () => NOTHING_REMEMBERED),
    settings,
    sound: { startClick, stopClick },
    chance: seededChance(5),
  });
  round.begin();
  await vi.waitFor(() => expect(round.get().own.open).not.toBeNull());
  return { round, kit, settings };
}

function strikeAt(kit: KitLog, times: readonly number[]): void {
  for (const time of times)
    kit.append([
      {
        source: "kit",
        live: true,
        event: { kind: "hit", hit: { time, voice: "snare", zone: "head", velocity: 0.6, pad: 38 } },
      },
    ]);
}

/** Felt beats of the bar at which strokes are written. */
const PLACES =
  rhythmById("rhythm-eighths-on-two")?.groove.notes.map(({ position }) => toNumber(position)) ?? [];

/** Lays this card on the table. */
function turnUp(round: CardTableRound, card: CardId): void {
  round.slipIn(card);
  round.next();
}

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"], shouldAdvanceTime: true });
});
afterEach(() => {
  vi.useRealTimers();
});

describe("a card", () => {
  test("is named by either usage, spelt nearly right", async () => {
    const { round } = await table();
    turnUp(round, "symbol:quarter-note");
    round.name("crochet");
    expect(round.get().own.open?.answers).toMatchObject([{ outcome: "known", answer: { given: "crochet" } }]);
  });

  test("is not answered by what is no name", async () => {
    const { round } = await table();
    turnUp(round, "symbol:quarter-note");
    round.name("teapot");
    expect(round.atHand.get().unknown).toBe("teapot");
    expect(round.get().own.open?.answers).toEqual([]);
    round.next();
    expect(round.atHand.get().unknown).toBeNull();
  });

  test("that was not answered is laid away by the next one and shows nothing", async () => {
    const { round } = await table();
    turnUp(round, "symbol:coda");
    expect(round.get().own.open?.card).toBe("symbol:coda");
    round.next();
    expect(round.get().own.shown).toEqual([]);
    expect(round.get().own.open?.card).not.toBe("symbol:coda");
  });

  test("that was missed last shows when the round is ended", async () => {
    const { round } = await table();
    turnUp(round, "symbol:coda");
    round.judge("slipped");
    round.stop();
    expect(round.get().stage).toBe("over");
    expect(round.get().own.shown).toMatchObject([{ item: "symbol:coda", outcome: "missed" }]);
  });

  test("is overruled after it was answered", async () => {
    const { round } = await table();
    turnUp(round, "symbol:coda");
    round.name("segno");
    round.judge("known");
    expect(round.get().own.shown).toMatchObject([{ item: "symbol:coda", outcome: "held" }]);
  });

  test("of hands is named as a rudiment", async () => {
    const { round } = await table();
    turnUp(round, "sticking:flam-tap");
    round.name("flamtap");
    expect(round.get().own.open?.answers[0]?.outcome).toBe("known");
  });
});

describe("a bar", () => {
  test("is struck, and judged after a silence", async () => {
    const { round, kit } = await table();
    turnUp(round, RHYTHM);
    strikeAt(kit, [...PLACES.map((place) => 2 + place * 0.7), 2 + 4 * 0.7]);
    expect(round.atHand.get().struck).toBe(PLACES.length + 1);
    expect(round.get().own.open?.answers).toEqual([]);
    vi.advanceTimersByTime(600);
    expect(round.get().own.open?.answers).toMatchObject([
      { outcome: "known", answer: { way: "struck", words: "As written." } },
    ]);
    expect(round.atHand.get().struck).toBe(0);
  });

  test("begun again is judged by what is struck from there", async () => {
    const { round, kit } = await table();
    turnUp(round, RHYTHM);
    strikeAt(kit, [2, 2.1]);
    round.commands().again?.();
    expect(round.atHand.get().struck).toBe(0);
    strikeAt(kit, [...PLACES.map((place) => 5 + place * 0.6), 5 + 4 * 0.6]);
    vi.advanceTimersByTime(600);
    expect(round.get().own.open?.answers[0]?.outcome).toBe("known");
  });

  test("strikes while a sign lies open answer nothing", async () => {
    const { round, kit } = await table();
    turnUp(round, "symbol:coda");
    strikeAt(kit, [2, 2.5, 3, 3.5, 4]);
    vi.advanceTimersByTime(5000);
    expect(round.get().own.open?.answers).toEqual([]);
  });
});

describe("a bar to a click", () => {
  const BEAT = 60 / 80;
  async function counted() {
    const at = await table();
    at.settings.set({ toClick: true, clickBpm: 80 });
    startClick.mockClear();
    stopClick.mockClear();
    turnUp(at.round, RHYTHM);
    const click = startClick.mock.calls[0]?.[0];
    if (!click) throw new Error("The click has not begun.");
    return { ...at, click };
  }

  test("is counted in by a bar of its own metre, from the one clock", async () => {
    const { click } = await counted();
    expect(click).toMatchObject({ tempoBpm: 80, countInBars: 1, way: { metre: { numerator: 4 } } });
    const untilCountIn = click.from - 4 * BEAT - performance.now() / 1000;
    expect(untilCountIn).toBeGreaterThan(0.2);
    expect(untilCountIn).toBeLessThanOrEqual(0.5);
  });

  test.each([
    ["in its first bar", 0, 0, "known", "As written."],
    ["two bars later, since nothing was struck before", 2, 0, "known", "As written."],
    ["a beat late: the click says where the bar begins", 0, 1, "never-met", /left out/],
    ["all a little behind: a lean is no fault", 0, 0.03, "known", "As written."],
  ] as const)("struck %s", async (_, bars, beatsLate, outcome, words) => {
    const { round, kit, click } = await counted();
    const from = click.from + (4 * bars + beatsLate) * BEAT;
    // Along with the count-in: it does not count.
    strikeAt(kit, [click.from - 3 * BEAT, click.from - 2 * BEAT]);
    expect(round.atHand.get().struck).toBe(0);
    strikeAt(
      kit,
      PLACES.map((place) => from + place * BEAT),
    );
    expect(round.atHand.get().struck).toBe(PLACES.length);
    expect(round.get().own.open?.answers).toEqual([]);
    vi.advanceTimersByTime((click.from - performance.now() / 1000 + (4 * bars + 4) * BEAT + 0.6) * 1000);
    expect(round.get().own.open?.answers[0]).toMatchObject({
      outcome,
      answer: { way: "struck", words: typeof words === "string" ? words : expect.stringMatching(words) },
    });
    expect(stopClick).toHaveBeenCalled();
  });

  test("the click is silent once the bar is laid away, and while it is paused; it is counted in anew after", async () => {
    const { round } = await counted();
    round.pause();
    expect(stopClick).toHaveBeenCalledTimes(1);
    round.resume();
    expect(startClick).toHaveBeenCalledTimes(2);
    round.next();
    expect(stopClick).toHaveBeenCalledTimes(2);
  });

  test("a sign has none", async () => {
    const { round } = await counted();
    startClick.mockClear();
    turnUp(round, "symbol:coda");
    expect(startClick).not.toHaveBeenCalled();
  });
});

test("where what is remembered cannot be read, that is told, and the deck is laid all the same", async () => {
  const { round } = await table({ remembered: () => Promise.reject(new StoreError("The disk is full.")) });
  expect(round.atHand.get().trouble).not.toBeNull();
  expect(round.get().own.open).not.toBeNull();
});

test("after the last card comes the tally", async () => {
  const { round } = await table();
  for (let card = 0; card < 12; card += 1) round.next();
  expect(round.get().stage).toBe("over");
});

test("the wall does not say what the card is before it is answered", async () => {
  const { round } = await table();
  turnUp(round, "symbol:coda");
  const before = round.onWall();
  expect([before.title, ...before.says].join(" ")).not.toMatch(/coda/i);
  expect(before.sheet).toMatchObject({ card: "symbol:coda", names: expect.arrayContaining(["Coda"]) });
  round.judge("known");
  expect(round.onWall()).toMatchObject({ title: "Coda", sheet: { names: [] } });
});
