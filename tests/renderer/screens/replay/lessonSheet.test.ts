import { expect, test } from "vitest";
import type { Student } from "../../../../engine/records/index.ts";
import { asManyAsFit, namesThatFit, shortened } from "../../../../renderer/out/print/lessonReport.ts";
import { lanesSeen } from "../../../../renderer/screens/replay/lanes.ts";
import { lessonSheet } from "../../../../renderer/screens/replay/lessonSheet.ts";
import { Moments } from "../../../../renderer/screens/replay/moments.ts";
import type { OpenLesson } from "../../../../renderer/screens/replay/replayDesk.ts";
import { strikesOf } from "../../../../renderer/screens/replay/strikes.ts";
import { LESSON } from "./playedLesson.ts";

const BRAM = { nickname: "Bram" } as Student;
const moments = new Moments(LESSON);
const strikes = strikesOf(LESSON);
const open: OpenLesson = {
  on: null,
  notFollowed: null,
  lessonId: "l",
  moments,
  strikes,
  lanes: lanesSeen(moments.whole, strikes, []),
  students: [BRAM],
  setAside: 0,
  newer: 0,
  undo: [],
  trouble: null,
};

test("tells each groove once, how its last take went, and what held; in the studio's own time", () => {
  const sheet = lessonSheet(open, { withRemarks: false });
  if (sheet?.kind !== "lesson") throw new Error("It is no lesson report.");
  const { lesson } = sheet;
  expect(lesson).toMatchObject({ who: "Bram", day: "2 March 2026", remarks: [], isInvented: false });
  expect(lesson.when).toMatch(/^16:30, \d+ \w+, 1 round$/);
  expect(lesson.played.map(({ name, takes }) => [name, takes])).toEqual([
    ["Rock eighths", 2],
    ["Shuffle", 1],
  ]);
  expect(lesson.played[0]?.how).toBe("100 a minute, with the click");
  expect(lesson.played[0]?.figures).toMatch(/^lean .*, spread \d+ ms$/);
  // Free playing has no click to lean against.
  expect(lesson.played[1]?.figures).toMatch(/^spread \d+ ms$/);
  expect(lesson.shown).toEqual({ held: ["Rock eighths", "Shuffle"], slipped: [], met: [] });
});

test("has the remarks only where they are asked for", () => {
  const sheet = lessonSheet(open, { withRemarks: true });
  expect(sheet?.kind === "lesson" && sheet.lesson.remarks).toEqual([
    { moment: "0:09", text: "Shoulders up." },
  ]);
});

test("more than fits is counted, and a letter of a remark is cut with dots", () => {
  expect(asManyAsFit([1, 2, 3], 5)).toEqual({ shown: [1, 2, 3], more: 0 });
  expect(asManyAsFit([1, 2, 3], 2)).toEqual({ shown: [1, 2], more: 1 });
  expect(shortened("x".repeat(400))).toHaveLength(160);
  expect(shortened("short")).toBe("short");
});

test("names take two lines at the most, and at least one of them is there", () => {
  expect(namesThatFit(["Shuffle", "Samba"])).toEqual({ shown: ["Shuffle", "Samba"], more: 0 });
  const many = namesThatFit(Array.from({ length: 20 }, (_, index) => `Groove number ${index}`));
  expect([many.shown.length, many.more]).toEqual([8, 12]);
  expect(namesThatFit(["x".repeat(300), "y"])).toEqual({ shown: [`${"x".repeat(159)}…`], more: 1 });
});
