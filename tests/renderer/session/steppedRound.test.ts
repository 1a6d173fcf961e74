import { expect, test, vi } from "vitest";
import type { BackTurnedEvent } from "../../../engine/rounds/index.ts";
import { lessonState } from "../../../engine/session/index.ts";
import { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { SteppedRound } from "../../../renderer/session/steppedRound.ts";
import { Store } from "../../../renderer/session/store.ts";
import { readLesson, resultsOfStudent } from "../../../renderer/store/index.ts";
import { testPlace } from "./lessonPlace.ts";
import { opened } from "./lessonsPlayed.ts";

const ASKED: BackTurnedEvent = { kind: "asked", moments: [[{ surface: "ride" }]], rung: 4, of: ["bram"] };
const MISSED: BackTurnedEvent = {
  kind: "answered",
  by: "bram",
  moments: [[{ surface: "bell" }]],
  way: "named",
};
const HELD: BackTurnedEvent = {
  kind: "answered",
  by: "bram",
  moments: [[{ surface: "ride" }]],
  way: "struck",
};

function roundOn(book: LessonBook, lane = () => 0) {
  return new SteppedRound("back-turned", book, lane);
}

test("without a lesson it is played all the same, and kept of nobody", async () => {
  const { book } = await opened();
  const round = roundOn(book);
  round.begin([]);
  expect(round.add({ ...ASKED, of: [null] })).toBe(true);
  expect(round.add({ ...HELD, by: null })).toBe(true);
  round.stop();
  expect(round.get()).toMatchObject({ stage: "over", own: { past: [{ answers: [{ right: true }] }] } });
  expect(book.log.events).toEqual([]);
  round.begin([]);
  expect(round.get()).toMatchObject({ stage: "running", own: { past: [] } });
});

test("what was played of nobody ends where a lesson begins", async () => {
  const { book } = await opened();
  const round = roundOn(book);
  round.begin([]);
  round.add({ ...ASKED, of: [null] });
  await book.begin(["bram"]);
  expect(round.get().stage).toBe("over");
  round.begin(["bram"]);
  round.add(ASKED);
  expect(book.log.get().rounds[0]?.steps).toHaveLength(2);
});

test("in a lesson its steps are in the log, those that change nothing are not, and its tally is kept when it ends", async () => {
  const { book, data } = await opened();
  book.begin(["bram"]);
  const round = roundOn(book);
  round.begin(["bram"]);
  expect(round.add(HELD)).toBe(false);
  round.add(ASKED);
  round.add(MISSED);
  round.add(ASKED);
  round.add(HELD);
  round.stop();
  expect(book.log.events.map(({ kind }) => kind)).toEqual([
    "lesson-began",
    "round-began",
    "round-step",
    "round-step",
    "round-step",
    "round-step",
    "round-step",
    "round-step",
    "round-ended",
  ]);
  const [ended] = book.log.get().rounds;
  expect(ended).toMatchObject({ round: "back-turned", to: expect.any(Number), studentIds: ["bram"] });
  expect(ended?.tally).toMatchObject([
    { item: "sound:ride", outcome: "new", studentId: "bram", evidence: { words: "Named as ride bell." } },
    { item: "sound:ride", outcome: "known", studentId: "bram" },
  ]);
  expect(round.get().stage).toBe("over");
  await book.writer.write();
  const kept = await resultsOfStudent(data, "bram");
  expect(kept.map(({ item }) => item)).toEqual(["sound:ride", "sound:ride"]);
});

test("a program that is opened again goes on with it where it was", async () => {
  const { book, data, place } = await opened();
  book.begin(["bram"]);
  const round = roundOn(book);
  round.begin(["bram"]);
  round.add(ASKED);
  round.add(MISSED);
  round.add(ASKED);
  await book.writer.write();
  const lessonId = book.log.get().began?.lessonId ?? "";
  const again = new LessonBook(data, testPlace(place.clock));
  const roundAgain = roundOn(again);
  expect(roundAgain.get().stage).toBe("ready");
  await again.goOn(lessonId);
  expect(roundAgain.get()).toEqual(round.get());
  roundAgain.add(HELD);
  expect(roundAgain.get().own.past).toHaveLength(2);
  const { events } = await readLesson(data, lessonId);
  expect(lessonState(events).rounds[0]?.steps).toHaveLength(4);
});

test("ended from elsewhere it is over; another round at the kit ends it with its tally", async () => {
  const { book } = await opened();
  book.begin(["bram"]);
  const round = roundOn(book);
  const told = vi.fn();
  round.subscribe(told);
  round.begin(["bram"]);
  round.add(ASKED);
  round.add(HELD);
  book.beginRound("call-a-style", ["bram"], 0);
  expect(round.get().stage).toBe("over");
  expect(round.get().own.past).toHaveLength(1);
  expect(told).toHaveBeenCalled();
  expect(book.log.get().rounds.map(({ to, tally }) => [to === null, tally.length])).toEqual([
    [false, 1],
    [true, 0],
  ]);
  round.begin(["bram"]);
  book.end();
  expect(round.get().stage).toBe("over");
  expect(round.add(ASKED)).toBe(false);
});

test("each kit has its own, and it follows whose turn it is", async () => {
  const { book } = await opened();
  book.begin(
    ["bram", "noor"],
    [
      { studentId: "bram", source: "kit" },
      { studentId: "noor", source: "kit" },
    ],
  );
  const turn = new Store<number, number>(0, (_, lane) => lane);
  const round = new SteppedRound("back-turned", book, turn.get, turn);
  round.begin(["bram"]);
  round.add(ASKED);
  turn.dispatch(1);
  expect(round.get().stage).not.toBe("running");
  turn.dispatch(0);
  expect(round.get()).toMatchObject({ stage: "running", own: { question: { rung: 4 } } });
});
