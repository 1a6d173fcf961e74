import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { NOTHING_OF_SHELF } from "../../../../engine/catalogue/index.ts";
import { type Hearing, hear } from "../../../../engine/listening/index.ts";
import { STOCK } from "../../../../engine/rounds/index.ts";
import { SpottingEar } from "../../../../renderer/screens/spotting/spottingEar.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { rock } from "../../session/lessonsPlayed.ts";

const ROCK = hear(rock(0), STOCK);

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Until everything that was promised has come. */
const comes = (ms = 0): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);

/** An ear at a kit, with a judge that answers whole takes when it is told to. */
function listening({ isSounding = false } = {}) {
  const log = new KitLog();
  const told: string[] = [];
  const answers: { readonly with: (hearing: Hearing) => void; readonly fail: (error: Error) => void }[] = [];
  const ear = new SpottingEar({
    judge: {
      begin: () => void told.push("begun"),
      add: () => {},
      hear: async () => ROCK,
      judge: ({ hits }) =>
        new Promise((answered, fail) =>
          answers.push({
            with: (hearing) => answered({ hearing, compared: null, hitCount: hits.length, click: null }),
            fail,
          }),
        ),
    },
    listenedFor: () => NOTHING_OF_SHELF,
    about: () => "grooves",
    isSounding: () => isSounding,
    looked: (proposal) => void told.push(`looks like ${proposal?.thing.id}`),
    playedOut: (proposal) => void told.push(`was ${proposal?.thing.id}`),
    playedBack: (proposal) => void told.push(`back: ${proposal?.thing.id}`),
    again: () => void told.push("again"),
    trouble: (sentence) => void told.push(sentence),
  });
  const strike = (count = Number.POSITIVE_INFINITY): void =>
    log.append(
      rock(0)
        .slice(0, count)
        .map((hit) => ({ source: "kit", live: true, event: { kind: "hit", hit } })),
    );
  return { ear, log, told, answers, strike };
}

test("what is played is looked at once a second, and thought over when a silence has ended it", async () => {
  const { ear, log, told, answers, strike } = listening();
  ear.hear("question", log);
  strike();
  await comes(1000);
  expect(told).toEqual(["begun", "looks like rock-eighths"]);
  await comes(2000);
  expect(ear.now.get()).toMatchObject({ what: "question", isThoughtOver: true });
  // Said to be it meanwhile: it is thought over once.
  ear.playedOut();
  expect(answers).toHaveLength(1);
  answers[0]?.with(ROCK);
  await comes();
  expect(told.slice(2)).toEqual(["was rock-eighths"]);
});

test("again while it is thought over is kept, and comes when that is done", async () => {
  const { ear, log, told, answers, strike } = listening();
  ear.hear("answer", log);
  ear.askAgain();
  expect(ear.now.get().isAgainAsked).toBe(false);
  strike();
  await comes(3000);
  ear.askAgain();
  expect(ear.now.get()).toMatchObject({ isThoughtOver: true, isAgainAsked: true });
  answers[0]?.with(ROCK);
  await comes();
  expect(told).toEqual(["begun", "back: rock-eighths", "again"]);
});

test("what could not be thought over is told, may be asked for once more, and again comes all the same", async () => {
  const { ear, log, told, answers, strike } = listening();
  ear.hear("question", log);
  strike();
  ear.playedOut();
  ear.askAgain();
  answers[0]?.fail(new Error("the worker is gone"));
  await comes();
  expect(told).toEqual(["begun", "the worker is gone", "again"]);
  expect(ear.now.get()).toMatchObject({ what: "question", isThoughtOver: false, isAgainAsked: false });
  ear.playedOut();
  expect(answers).toHaveLength(2);
});

test("a drum that was tried is no answer; who drums along while it sounds does not answer", async () => {
  const trying = listening();
  trying.ear.hear("answer", trying.log);
  trying.strike(4);
  await comes(3000);
  expect(trying.ear.now.get()).toMatchObject({ what: "answer", strokes: 0, isThoughtOver: false });
  expect(trying.told).toEqual(["begun", "begun"]);
  const along = listening({ isSounding: true });
  along.ear.hear("answer", along.log);
  along.strike();
  expect(along.ear.now.get().strokes).toBe(0);
});

test("when something else is heard meanwhile, what was thought over belongs to nothing", async () => {
  const { ear, log, told, answers, strike } = listening();
  ear.hear("question", log);
  strike();
  ear.playedOut();
  ear.stop();
  answers[0]?.with(ROCK);
  await comes();
  expect(told).toEqual(["begun"]);
  strike();
  expect(ear.now.get()).toMatchObject({ what: null, strokes: 0 });
});
