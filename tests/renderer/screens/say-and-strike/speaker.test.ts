import { expect, test } from "vitest";
import { freshPlay, sayAndStrikeRules } from "../../../../engine/rounds/index.ts";
import { speakerNow, TEACHERS_VOICE } from "../../../../renderer/screens/say-and-strike/speaker.ts";

const PLAY = { ...freshPlay(sayAndStrikeRules), players: ["bram", "noor"], turn: 1 };

test("where the student strikes the teacher says; turned round it is whose turn it is, or a student", () => {
  expect(speakerNow(PLAY, null)).toBe(TEACHERS_VOICE);
  const turned = { ...PLAY, own: { ...PLAY.own, roles: "student-says" as const } };
  expect(speakerNow(turned, null)).toBe("noor");
  expect(speakerNow({ ...turned, players: [] }, null)).toBe("student");
});
