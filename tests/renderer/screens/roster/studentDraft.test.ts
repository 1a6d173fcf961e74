import { expect, test } from "vitest";
import { BLANK, draftOf, fieldsOf, isSameDraft } from "../../../../renderer/screens/roster/studentDraft.ts";
import { BRAM, OTTILIE } from "./keptStudio.ts";

test("nothing is changed until a field is another, and again when it is put back", () => {
  const start = draftOf(BRAM);
  expect(isSameDraft(start, draftOf(BRAM))).toBe(true);
  for (const change of [{ nickname: "B." }, { minutes: 31 }, { consentOn: "2026-01-03" }, { weekday: "3" }])
    expect(isSameDraft(start, { ...start, ...change })).toBe(false);
  const changed = { ...start, notes: "x" };
  expect(isSameDraft(start, { ...changed, notes: start.notes })).toBe(true);
});

test("what is on the form is what is kept", () => {
  expect(fieldsOf(draftOf(BRAM))).toEqual({
    nickname: "Bram",
    level: "first-year",
    hand: "right",
    notes: "Louder than Ottilie.",
    consent: BRAM.consent,
  });
  expect(fieldsOf(draftOf(OTTILIE))).not.toHaveProperty("consent");
  expect(fieldsOf({ ...BLANK, nickname: " Noor ", weekday: "2" })).toMatchObject({
    nickname: "Noor",
    lessonDay: { weekday: 2, from: "15:00", minutes: 30 },
  });
});
