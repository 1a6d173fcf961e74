import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { NOTHING_OF_SHELF } from "../../../../engine/catalogue/index.ts";
import type { Hearing } from "../../../../engine/listening/index.ts";
import { hear } from "../../../../engine/listening/index.ts";
import { isNameDue, STOCK, STOCK_TO_SPOT, thingKey } from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import type { SpottingPlace } from "../../../../renderer/screens/spotting/spottingPlace.ts";
import { SpottingRound } from "../../../../renderer/screens/spotting/spottingRound.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";
import { opened, rock } from "../../session/lessonsPlayed.ts";

const ROCK = hear(rock(0), STOCK);
const NOTHING: Hearing = { kind: "nothing", reason: "no-hits" };

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "performance"] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** A round with one kit, or two, and a judge that hears what it is told to. */
async function sitDownTo(students: readonly string[] = [], place: Partial<SpottingPlace> = {}, kitCount = 1) {
  const { book } = await opened();
  if (students.length > 0) book.begin(students);
  const [first, second] = [new KitLog(), new KitLog()];
  const heard = { now: ROCK };
  const sounded: number[] = [];
  const round = new SpottingRound(new SteppedRound("spotting", book, () => 0), {
    sound: {
      playStrokes: (strokes) => {
        sounded.push(strokes.length);
        return { from: 0, stop: () => {} };
      },
    },
    book,
    kits: { answering: () => first, asking: () => (kitCount === 1 ? first : second) },
    judge: {
      begin: () => {},
      add: () => {},
      hear: async () => heard.now,
      judge: async ({ hits }) => ({ hearing: heard.now, compared: null, hitCount: hits.length, click: null }),
    },
    spottables: () => STOCK_TO_SPOT,
    listenedFor: () => NOTHING_OF_SHELF,
    standing: async () => () => 0.3,
    chance: seededChance(5),
    ...place,
  });
  const strike = (kit: KitLog): void =>
    kit.append(rock(0).map((hit) => ({ source: "kit", live: true, event: { kind: "hit", hit } })));
  const question = () => {
    const { question: open } = round.get().own;
    if (!open) throw new Error("Nothing is asked.");
    return open;
  };
  return { round, book, first, second, heard, sounded, strike, question };
}

/** Until everything that was promised has come. */
const comes = (ms = 0): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);

/** A judge that thinks a take over until it is told to answer. */
function slowJudge(): { readonly judge: SpottingPlace["judge"]; readonly answer: () => void } {
  const answers: (() => void)[] = [];
  return {
    judge: {
      begin: () => {},
      add: () => {},
      hear: async () => ROCK,
      judge: ({ hits }) =>
        new Promise((done) =>
          answers.push(() => done({ hearing: ROCK, compared: null, hitCount: hits.length, click: null })),
        ),
    },
    answer: () => {
      for (const each of answers) each();
    },
  };
}

test("the program plays, again the same, and takes the answer", async () => {
  const { round, sounded, question } = await sitDownTo();
  round.begin();
  await comes();
  expect(question().key).toMatchObject({ by: "program", isNew: false });
  round.again();
  expect(sounded).toEqual([sounded[0], sounded[0]]);
  round.answer({ way: "never-heard" });
  expect(question().isSettled).toBe(true);
  round.next();
  await comes();
  expect(isNameDue(question())).toBe(true);
});

test("what is asked of all at once is new where one of them never met it", async () => {
  const { round, question } = await sitDownTo(["ottilie", "bram"], {
    standing: async (student) =>
      student === "bram" ? () => null : (thing) => (thingKey(thing) === "groove:samba" ? 0.5 : null),
  });
  round.wanted.dispatch({ answering: "all-at-once" });
  round.begin();
  await comes();
  expect(question().of).toEqual(["ottilie", "bram"]);
  expect(question().key).toMatchObject({ isNew: true });
});

test("what cannot be read is told, and something is played all the same", async () => {
  const { round, question } = await sitDownTo(["bram"], {
    standing: async () => {
      throw new Error("The disk is full.");
    },
  });
  round.begin();
  await comes();
  expect(round.trouble.get()).toContain("The disk is full.");
  expect(question().key).toMatchObject({ by: "program", isNew: true });
});

test("a kit plays: a silence ends it, and who plays on does not answer by it", async () => {
  const { round, first, strike, question } = await sitDownTo();
  round.wanted.dispatch({ source: "kit" });
  round.begin();
  expect(round.hearing.get().what).toBe("question");
  strike(first);
  expect(round.commands().next).toBeDefined();
  await comes(5000);
  expect(question().key).toMatchObject({ by: "ear", thing: { id: "rock-eighths" } });
  expect(round.hearing.get().what).toBeNull();
  strike(first);
  await comes(5000);
  expect(isNameDue(question())).toBe(true);
  round.playBack();
  strike(first);
  await comes(5000);
  expect(question().answers).toMatchObject([{ answer: { way: "played", thing: { id: "rock-eighths" } } }]);
});

test("with two kits it is played back on the other at once; what cannot be told is no answer", async () => {
  const { round, first, second, heard, strike, question } = await sitDownTo([], {}, 2);
  round.wanted.dispatch({ source: "kit" });
  round.begin();
  strike(second);
  await comes(5000);
  expect(round.hearing.get().what).toBe("answer");
  heard.now = NOTHING;
  strike(first);
  await comes(5000);
  expect(round.hearing.get().note).toContain("I cannot tell");
  heard.now = ROCK;
  strike(first);
  await comes(5000);
  expect(isNameDue(question())).toBe(false);
});

test("again while an answer is thought over keeps the answer, and sounds it once more after", async () => {
  const { judge, answer } = slowJudge();
  const { round, first, strike, sounded, question } = await sitDownTo([], { judge });
  round.begin();
  // Until it has sounded.
  await comes(60_000);
  strike(first);
  await comes(3000);
  round.commands().again?.();
  expect(round.hearing.get()).toMatchObject({ isThoughtOver: true, isAgainAsked: true });
  expect(round.commands().again).toBeUndefined();
  expect(sounded).toHaveLength(1);
  answer();
  await comes();
  expect(question().answers).toMatchObject([{ answer: { way: "played", thing: { id: "rock-eighths" } } }]);
  expect(sounded).toHaveLength(2);
});

test("again while what a kit asked is thought over: it is played anew when that is done", async () => {
  const { judge, answer } = slowJudge();
  const { round, first, strike } = await sitDownTo([], { judge });
  round.wanted.dispatch({ source: "kit" });
  round.begin();
  strike(first);
  round.commands().next?.();
  expect(Object.keys(round.commands())).toEqual(["turn-round", "stop", "again"]);
  round.commands().again?.();
  answer();
  await comes();
  expect(round.hearing.get()).toMatchObject({ what: "question", strokes: 0, isThoughtOver: false });
});

test("named before the silence that ends it, the key is all that was played until then", async () => {
  const { round, first, strike, question } = await sitDownTo([], {
    judge: {
      begin: () => {},
      add: () => {},
      hear: async () => NOTHING,
      judge: async ({ hits }) => ({ hearing: ROCK, compared: null, hitCount: hits.length, click: null }),
    },
  });
  round.wanted.dispatch({ source: "kit" });
  round.begin();
  strike(first);
  await comes(1500);
  expect(question().key).toMatchObject({ by: "ear", thing: null });
  round.answer({ way: "never-heard" });
  await comes();
  expect(question().key).toMatchObject({ by: "ear", thing: { id: "rock-eighths" } });
  expect(round.hearing.get().what).toBeNull();
});

test("an answer of the judge that comes too late belongs to nothing", async () => {
  const answers: ((hearing: Hearing) => void)[] = [];
  const { round, first, strike, question } = await sitDownTo([], {
    judge: {
      begin: () => {},
      add: () => {},
      hear: () => new Promise<Hearing>((answered) => answers.push(answered)),
      judge: async () => ({ hearing: NOTHING, compared: null, hitCount: 0, click: null }),
    },
  });
  round.wanted.dispatch({ source: "kit" });
  round.begin();
  strike(first);
  await comes(1500);
  round.turnRound();
  for (const answered of answers) answered(ROCK);
  await comes();
  expect(answers.length).toBeGreaterThan(0);
  expect(question().key).toMatchObject({ by: "ear", thing: null });
});

test("what a kit played counts when the round is stopped after the answer", async () => {
  const { round, book, first, strike } = await sitDownTo(["bram"]);
  round.wanted.dispatch({ source: "kit" });
  round.begin();
  strike(first);
  await comes(5000);
  round.answer({ way: "knows-place" });
  round.stop();
  expect(book.log.get().rounds[0]?.tally).toMatchObject([
    { item: "style-name:rock-eighths", outcome: "slipped", studentId: "bram" },
  ]);
});
