import { expect, test } from "vitest";
import { NEW_ROUND, type Sitting } from "../../../../engine/rounds/index.ts";
import { obey, styleCommands } from "../../../../renderer/screens/desk/obey.ts";
import type { Command } from "../../../../renderer/session/commandStrike.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";

function at(stage: Sitting["at"]["stage"], isAgainAsked = false) {
  const done: string[] = [];
  const log = new LessonLog();
  log.begin({ lessonId: "l", studentIds: [], lanes: [{ studentId: null, source: "kit" }], zone: "UTC" });
  const round = {
    // Only the stage is asked for.
    get: () => ({ ...NEW_ROUND, at: { stage, isAgainAsked } }) as Sitting,
    again: () => void done.push("again"),
    stop: async () => void done.push("stop"),
    dispatch: ({ kind }: { readonly kind: string }) => void done.push(kind),
  };
  const book = { log, remark: () => void done.push("remark") };
  const written = () => log.events.flatMap((event) => (event.kind === "command" ? [event.command] : []));
  return { round, book, done, written, log };
}

test.each([
  ["stop", "playing", "stop"],
  ["again", "before", "again"],
  ["again", "judging", "again"],
  ["again", "after", "again"],
  ["again", "failed", "again"],
  ["next", "after", "another-style"],
  ["flag", "playing", "remark"],
] as const)("%s while %s: %s, written into the lesson", (command, stage, act) => {
  const { round, book, done, written } = at(stage);
  obey(command, styleCommands(round), book);
  expect(done).toEqual([act]);
  expect(written()).toEqual([command]);
});

test.each([
  ["stop", "before"],
  ["stop", "judging"],
  ["again", "playing"],
  ["next", "before"],
  ["next", "playing"],
  ["turn-round", "after"],
] as const satisfies readonly (readonly [Command, Sitting["at"]["stage"]])[])(
  "%s while %s does nothing, and nothing is written",
  (command, stage) => {
    const { round, book, done, written } = at(stage);
    obey(command, styleCommands(round), book);
    expect(done).toEqual([]);
    expect(written()).toEqual([]);
  },
);

test("again is asked for once while a take is thought over", () => {
  const { round, book, done, written } = at("judging", true);
  obey("again", styleCommands(round), book);
  expect(done).toEqual([]);
  expect(written()).toEqual([]);
});

test.each(["before", "after", "failed"] as const)(
  "where styles were dealt, next while %s calls the next of them",
  (stage) => {
    const { round, book, done, written } = at(stage);
    obey(
      "next",
      styleCommands(round, () => () => void done.push("next style")),
      book,
    );
    expect(done).toEqual(["next style"]);
    expect(written()).toEqual(["next"]);
  },
);

test("without a lesson there is no moment to flag, but a round obeys", () => {
  const { round, book, done, log } = at("playing");
  log.end();
  obey("flag", styleCommands(round), book);
  obey("stop", styleCommands(round), book);
  expect(done).toEqual(["stop"]);
});
