import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { RUDIMENTS, rudimentById, stickingOf } from "../../../../engine/catalogue/index.ts";
import type { ChartSettings, ChartStage } from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import type { Planned } from "../../../../renderer/audio/strokePlayer.ts";
import { WallChartRound } from "../../../../renderer/screens/wall-chart/wallChartRound.ts";
import { HandPads } from "../../../../renderer/session/handPads.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import type { LessonBook } from "../../../../renderer/session/lessonBook.ts";
import { recordStrikes } from "../../../../renderer/session/recordRounds.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";
import { perform } from "../../../engine/recall/twoSurfaces.ts";
import { TestClock, testPlace } from "../../session/lessonPlace.ts";
import { opened } from "../../session/lessonsPlayed.ts";

const LEFT_PAD = 38;
const RIGHT_PAD = 43;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "performance"] });
});
afterEach(() => {
  vi.useRealTimers();
});

function roundOn(book: LessonBook, kit = new KitLog()) {
  const hands = new HandPads();
  hands.set("L", LEFT_PAD);
  hands.set("R", RIGHT_PAD);
  const sounded: (readonly Planned[])[] = [];
  const stopped = vi.fn();
  const round = new WallChartRound(new SteppedRound("wall-chart", book, () => 0), {
    book,
    hands,
    kit: () => kit,
    sound: {
      playStrokes: (strokes) => {
        sounded.push(strokes);
        return { from: 0, stop: stopped };
      },
    },
    chance: seededChance(3),
  });
  return { round, kit, hands, sounded, stopped };
}

async function hung(settings: Partial<ChartSettings> = {}, students: readonly string[] = []) {
  const { book, data } = await opened();
  if (students.length > 0) await book.begin(students);
  const at = roundOn(book);
  at.round.wanted.dispatch(settings);
  return { book, data, ...at };
}

function stageOf<At extends ChartStage["at"]>(
  { get }: WallChartRound,
  at: At,
): Extract<ChartStage, { readonly at: At }> {
  const { stage } = get().own;
  if (stage.at !== at) throw new Error(`The round is at ${stage.at}, not at ${at}.`);
  return stage as Extract<ChartStage, { readonly at: At }>;
}

function askedEntry(round: WallChartRound) {
  const rudiment = rudimentById(stageOf(round, "asked").entry);
  if (!rudiment) throw new Error("No rudiment was asked.");
  return rudiment;
}

/** Plays the rudiment that is asked on the two pads. */
function playIt(round: WallChartRound, kit: KitLog, { otherHand = 0, pads = true } = {}): number {
  const how = { tempoAt: () => 72, cycles: 8, spreadMs: 0, chance: seededChance(2), otherHand };
  const { strokes } = perform(askedEntry(round), how);
  for (const { time, hand, velocity } of strokes)
    kit.append([
      {
        source: "kit",
        live: true,
        event: {
          kind: "hit",
          hit: {
            time,
            velocity,
            voice: "snare",
            zone: "head",
            pad: pads ? (hand === "L" ? LEFT_PAD : RIGHT_PAD) : LEFT_PAD + 2,
          },
        },
      },
    ]);
  return strokes.length;
}

describe("a look", () => {
  test("goes by the clock: a long one, hidden when it is over; a shorter one after the naming", async () => {
    const { round } = await hung();
    round.begin();
    expect(stageOf(round, "looking").look.forSeconds).toBe(120);
    expect(round.beside.get().leftSeconds).toBe(120);
    vi.advanceTimersByTime(30_000);
    expect(round.beside.get().leftSeconds).toBe(90);
    vi.advanceTimersByTime(90_250);
    expect(stageOf(round, "naming").look.seconds).toBeCloseTo(120);
    round.next();
    round.again();
    expect(stageOf(round, "looking").look.forSeconds).toBe(30);
  });

  test("turns its pages so that each is open as long as the others, and leaves one that was turned to", async () => {
    const { round } = await hung();
    round.begin();
    expect(round.beside.get().page).toBe(0);
    vi.advanceTimersByTime(31_000);
    expect(round.beside.get().page).toBe(1);
    round.turnTo(3);
    vi.advanceTimersByTime(10_000);
    expect(round.beside.get().page).toBe(3);
    vi.advanceTimersByTime(20_000);
    expect(round.beside.get().page).toBe(2);
  });

  test("no time passes while it is paused", async () => {
    const { round } = await hung();
    round.begin();
    vi.advanceTimersByTime(20_000);
    round.pause();
    vi.advanceTimersByTime(600_000);
    round.resume();
    expect(stageOf(round, "looking").look.seconds).toBeCloseTo(20, 0);
    vi.advanceTimersByTime(1000);
    expect(round.beside.get().leftSeconds).toBe(99);
  });

  test("is written down as it goes, so that a program that is opened again has lost little of it", async () => {
    const { round, book } = await hung({}, ["ottilie"]);
    round.begin();
    vi.advanceTimersByTime(12_000);
    const looked = book.log.events.flatMap((event) =>
      event.kind === "round-step" && event.step.event.kind === "looked" ? [event.step.event.seconds] : [],
    );
    expect(looked.reduce((sum, seconds) => sum + seconds, 0)).toBeGreaterThanOrEqual(10);
  });
});

describe("names", () => {
  async function naming(settings: Partial<ChartSettings> = {}) {
    const at = await hung(settings);
    at.round.begin();
    at.round.next();
    return at;
  }

  test.each([
    ["flam taps", { as: "named", entry: "flam-tap" }],
    ["quadruple paradiddle", { as: "none" }],
    ["drag paradiddle", { as: "unclear", perhaps: ["drag-paradiddle-1", "drag-paradiddle-2"] }],
  ])("%s is taken as %o", async (given, typed) => {
    const { round } = await naming();
    round.type(given);
    expect(round.beside.get().typed).toMatchObject(typed);
    expect(stageOf(round, "naming").look.named).toEqual("entry" in typed ? [typed.entry] : []);
    expect(stageOf(round, "naming").look.stray).toHaveLength(typed.as === "named" ? 0 : 1);
  });

  test("one that was named already, and one of another part of the chart", async () => {
    const { round } = await naming({ from: 1, to: 10 });
    round.type("single stroke four");
    round.type("single stroke four");
    expect(round.beside.get().typed.as).toBe("repeated");
    round.type("flam");
    expect(round.beside.get().typed).toMatchObject({ as: "elsewhere", entry: "flam" });
    expect(stageOf(round, "naming").look).toMatchObject({
      named: ["single-stroke-four"],
      stray: [{ given: "flam", as: "elsewhere" }],
    });
  });

  test("nothing that is typed is no name", async () => {
    const { round } = await naming();
    round.type("  ");
    expect(stageOf(round, "naming").look.stray).toEqual([]);
  });

  test("ticked off, and taken back", async () => {
    const { round } = await naming();
    round.name("flam", "ticked");
    round.name("drag-ruff", "ticked");
    round.takeBack("flam");
    expect(stageOf(round, "naming").look.named).not.toContain("flam");
  });

  test("families, for beginners", async () => {
    const { round } = await naming({ task: "families" });
    round.type("flam rudiments");
    expect(stageOf(round, "naming").look.named).toEqual(["family/flam"]);
  });

  test("a round that ends meanwhile counts what was named", async () => {
    const { round } = await naming();
    round.type("flam");
    round.stop();
    expect(round.get()).toMatchObject({ stage: "over", own: { past: [{ look: { named: ["flam"] } }] } });
  });

  test("and where nothing was named yet, it shows nothing", async () => {
    const { round } = await naming();
    round.stop();
    expect(round.get()).toMatchObject({ stage: "over", own: { past: [] } });
  });
});

describe("a group", () => {
  const STUDENTS = ["ottilie", "bram"];

  test("in turn: each has a long look of their own, then the next one", async () => {
    const { round } = await hung({}, STUDENTS);
    round.begin();
    expect(stageOf(round, "looking").of).toEqual(["ottilie"]);
    round.next();
    round.next();
    round.next();
    expect(stageOf(round, "looking")).toMatchObject({ of: ["bram"], look: { forSeconds: 120 } });
  });

  test("all at once: one look, then each list is taken in by itself, and nobody's stands on the wall", async () => {
    const { round } = await hung({}, STUDENTS);
    round.answering.dispatch("all-at-once");
    round.begin();
    expect(stageOf(round, "looking").of).toEqual(STUDENTS);
    round.next();
    round.type("flam");
    expect(round.still()).toEqual(["ottilie", "bram"]);
    round.turnToPlayer("bram");
    expect(round.still()).toEqual(["bram", "ottilie"]);
    round.type("drag ruff");
    expect(round.onWall()).not.toHaveProperty("sheet");
    expect(JSON.stringify(round.onWall())).not.toMatch(/drag|flam/i);
    round.next();
    expect(stageOf(round, "naming").look).toMatchObject({ by: "ottilie", named: ["flam"] });
    round.next();
    expect(stageOf(round, "told").of).toEqual(STUDENTS);
    round.next();
    expect(stageOf(round, "looking")).toMatchObject({ of: STUDENTS, look: { forSeconds: 30 } });
  });

  test("of the hands all answer the same rudiment; turned round the teacher answers alone", async () => {
    const { round } = await hung({ task: "said" }, STUDENTS);
    round.answering.dispatch("all-at-once");
    round.begin();
    const rudiment = askedEntry(round);
    round.choose(stickingOf(rudiment));
    expect(stageOf(round, "asked")).toMatchObject({ entry: rudiment.id, by: "bram" });
    round.heardSaid(false);
    expect(round.get().own.past).toMatchObject([
      { asked: { by: "ottilie", held: true } },
      { asked: { by: "bram", held: false } },
    ]);
    round.turnRound();
    expect(stageOf(round, "asked").of).toEqual([null]);
  });
});

describe("the hands", () => {
  test("none is asked again before all have been", async () => {
    const { round } = await hung({ task: "said", from: 1, to: 10 });
    round.begin();
    const asked: string[] = [];
    for (let turn = 0; turn < 10; turn += 1) {
      asked.push(stageOf(round, "asked").entry);
      round.heardSaid(true);
      round.next();
    }
    expect(new Set(asked)).toEqual(new Set(RUDIMENTS.slice(0, 10).map(({ id }) => id)));
  });

  test("chosen, typed or said; the same again; sounded once they are answered", async () => {
    const { round, sounded } = await hung({ task: "said" });
    round.begin();
    const rudiment = askedEntry(round);
    round.hear();
    expect(sounded).toEqual([]);
    expect(round.beside.get().offered).toContain(stickingOf(rudiment));
    round.typeSticking(stickingOf(rudiment));
    expect(round.get().own.past).toMatchObject([{ asked: { way: "typed", held: true } }]);
    round.hear();
    expect(sounded[0]?.length).toBeGreaterThan(rudiment.strokes.length);
    round.again();
    expect(stageOf(round, "asked").entry).toBe(rudiment.id);
    const wrong = round.beside.get().offered.find((each) => each !== stickingOf(rudiment)) ?? "";
    round.choose(wrong);
    expect(round.get().own.past[1]).toMatchObject({
      asked: { way: "chosen", held: false, words: `${wrong} was chosen.` },
    });
  });

  test("one that is let be shows nothing", async () => {
    const { round } = await hung({ task: "said" });
    round.begin();
    round.next();
    expect(round.get().own.past).toEqual([]);
  });
});

describe("the hands, played", () => {
  test("each pad is a hand; what was struck is judged; other pads do not count", async () => {
    const { round, kit } = await hung({ task: "played" });
    round.begin();
    playIt(round, kit, { pads: false });
    expect(round.beside.get().played).toEqual([]);
    const count = playIt(round, kit);
    expect(round.beside.get().played).toHaveLength(count);
    round.next();
    expect(round.get().own.past).toMatchObject([{ asked: { way: "played", held: true } }]);
    expect(round.beside.get().reports).toMatchObject([{ by: null }]);
  });

  test("too little is told, and judged again when there is more", async () => {
    const { round, kit } = await hung({ task: "played" });
    round.begin();
    round.next();
    expect(round.beside.get().trouble).toContain("too few to tell");
    playIt(round, kit);
    expect(round.beside.get().trouble).toBeNull();
    round.next();
    expect(round.get().own.past).toHaveLength(1);
  });

  test("from its beginning: what was struck so far is left out", async () => {
    const { round, kit } = await hung({ task: "played" });
    round.begin();
    playIt(round, kit, { otherHand: 0.5 });
    round.commands().again?.();
    expect(round.beside.get().played).toEqual([]);
    playIt(round, kit);
    round.next();
    expect(round.get().own.past).toMatchObject([{ asked: { held: true } }]);
  });

  test("hands that slip are told in a clause", async () => {
    const { round, kit } = await hung({ task: "played" });
    round.begin();
    playIt(round, kit, { otherHand: 0.2 });
    round.next();
    const [first] = round.get().own.past;
    expect(first).toMatchObject({ asked: { held: false } });
    expect(first?.kind === "sticking" && first.asked.words).toMatch(/by the other hand/);
  });

  test("a program that is opened again finds what was struck and not yet judged, and says so", async () => {
    const clock = new TestClock();
    const { book, data } = await opened(testPlace(clock));
    await book.begin(["ottilie"]);
    const kit = new KitLog();
    const before = roundOn(book, kit);
    before.round.wanted.dispatch({ task: "played" });
    const stop = recordStrikes(kit, book.log);
    before.round.begin();
    const { entry } = stageOf(before.round, "asked");
    const count = playIt(before.round, kit);
    await book.writer.write();
    stop();

    clock.pass(60);
    const again = await opened(testPlace(clock), data);
    expect(again.found.kind).toBe("open");
    const after = roundOn(again.book);
    if (again.found.kind === "open") await again.book.goOn(again.found.lessonId);
    expect(stageOf(after.round, "asked").entry).toBe(entry);
    expect(after.round.beside.get()).toMatchObject({ earlier: count });
    expect(after.round.beside.get().played).toEqual(before.round.beside.get().played);
    after.round.next();
    expect(after.round.get().own.past).toMatchObject([{ asked: { entry, way: "played", held: true } }]);
  });
});

test("on the wall: the page of the chart while it is looked at, the names while they are named, nothing before its time", async () => {
  const { round } = await hung();
  round.begin();
  expect(round.onWall()).toMatchObject({
    title: "Look: 2:00",
    sheet: { entries: RUDIMENTS.slice(0, 10).map(({ id }) => id) },
  });
  round.next();
  expect(round.onWall()).toMatchObject({ sheet: { entries: [], named: [] } });
  round.type("flam");
  expect(round.onWall()).toMatchObject({ sheet: { named: ["Flam"] } });
  round.stop();
  round.anew();
  round.wanted.dispatch({ task: "said" });
  round.begin();
  const rudiment = askedEntry(round);
  expect(round.onWall().title).toBe(rudiment.name);
  expect(JSON.stringify(round.onWall())).not.toContain(stickingOf(rudiment));
  round.heardSaid(true);
  expect(round.onWall().says).toEqual([stickingOf(rudiment)]);
});
