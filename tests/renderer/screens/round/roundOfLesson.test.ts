import { expect, test } from "vitest";
import { MOST_PLAYERS } from "../../../../engine/rounds/index.ts";
import type { CommandActs } from "../../../../renderer/screens/round/framedRound.ts";
import { RoundOfLesson } from "../../../../renderer/screens/round/roundOfLesson.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";

class AnyRound extends RoundOfLesson<"spotting"> {
  begin(): void {
    this.round.begin(this.players());
  }
  stop(): void {
    this.round.stop();
  }
  protected acts(): CommandActs {
    return { next: () => {}, stop: () => this.stop() };
  }
}

test("its players are the students of the lesson that is on, as many as can play; without one nobody", () => {
  const log = new LessonLog();
  const book = { log, beginRound: () => "round", endRound: async () => {} };
  const round = new AnyRound(new SteppedRound("spotting", book, () => 0), book);
  expect(round.players()).toEqual([]);
  const studentIds = Array.from({ length: MOST_PLAYERS + 2 }, (_, at) => `student-${at}`);
  log.begin({ lessonId: "lesson", studentIds, lanes: [{ studentId: null, source: "kit" }], zone: "UTC" });
  expect(round.players()).toEqual(studentIds.slice(0, MOST_PLAYERS));
  log.end();
  expect(round.players()).toEqual([]);
});

test("it shows what its steps make of it, and tells of each", () => {
  const log = new LessonLog();
  const book = { log, beginRound: () => "round", endRound: async () => {} };
  const round = new AnyRound(new SteppedRound("spotting", book, () => 0), book);
  let told = 0;
  const stop = round.subscribe(() => {
    told += 1;
  });
  round.round.begin([]);
  expect(round.get().stage).toBe("running");
  expect(told).toBe(1);
  stop();
  round.round.pause();
  expect({ stage: round.get().stage, told }).toEqual({ stage: "paused", told: 1 });
});

test("paused it can only be ended, when it is over only begun again; before it begins no command does anything", () => {
  const log = new LessonLog();
  const book = { log, beginRound: () => "round", endRound: async () => {} };
  const round = new AnyRound(new SteppedRound("spotting", book, () => 0), book);
  const commands = (): readonly string[] => Object.keys(round.commands());
  expect(commands()).toEqual([]);
  round.round.begin([]);
  expect(commands()).toEqual(["next", "stop"]);
  round.round.pause();
  expect(commands()).toEqual(["stop"]);
  round.commands().stop?.();
  expect({ stage: round.get().stage, commands: commands() }).toEqual({ stage: "over", commands: ["again"] });
  round.commands().again?.();
  expect({ stage: round.get().stage, commands: commands() }).toEqual({
    stage: "running",
    commands: ["next", "stop"],
  });
  round.commands().stop?.();
  round.anew();
  expect(round.get().stage).toBe("ready");
});
