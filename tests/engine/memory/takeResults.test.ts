import { describe, expect, test } from "vitest";
import { demonstrate, grooveById } from "../../../engine/catalogue/index.ts";
import { VOICES } from "../../../engine/kit/index.ts";
import { resultOfTake, resultsOfLesson, skillResults } from "../../../engine/memory/index.ts";
import { judgeTake } from "../../../engine/rounds/index.ts";
import {
  itemResultSchema,
  type LessonState,
  type SessionEvent,
  summarised,
  type TakeState,
  type TakeSummary,
} from "../../../engine/session/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { summaryOf } from "../session/lessons.ts";

const never = () => false;
const always = () => true;
const outcomeOf = (take: TakeSummary, wasMet = never) => resultOfTake(take, wasMet)?.outcome ?? null;

const BEGAN = {
  kind: "lesson-began",
  seq: 1,
  time: 0,
  lane: 0,
  lessonId: "lesson-1",
  // Half past eleven at night there, the next day already in UTC.
  at: "2026-03-02T04:30:00.000Z",
  zone: "America/New_York",
  studentIds: ["noor"],
  lanes: [{ studentId: "noor", source: "kit" }],
} as const satisfies SessionEvent;

/** A take as it is really played, heard, graded and summed up. */
function played(
  grooveId: string,
  calledId: string | null,
  how: { leftOut?: number; spreadMs?: number },
): TakeSummary {
  const groove = grooveById(grooveId);
  if (!groove) throw new Error(`There is no groove called ${grooveId}.`);
  const strokes = demonstrate(groove, {
    tempoBpm: Math.round((groove.tempoBpm.low + groove.tempoBpm.high) / 2),
    bars: 8,
    leanMs: 0,
    spreadMs: 8,
    leftOut: 0,
    added: 0,
    chance: seededChance(5),
    ...how,
  });
  const hits = strokes.map(({ time, voice, velocity }) => ({
    time,
    voice,
    velocity,
    zone: "whole" as const,
    pad: VOICES.indexOf(voice),
  }));
  const judgement = judgeTake({ hits, styleId: calledId, click: null });
  const called = calledId === null ? null : { id: calledId, name: grooveById(calledId)?.name ?? calledId };
  const take: TakeState = {
    takeId: "take-1",
    roundId: "round-1",
    studentId: "noor",
    lane: 0,
    called,
    click: null,
    from: 10,
    countsFrom: 10,
    to: 40,
    fromSeq: 2,
    toSeq: 300,
    hitCount: hits.length,
    judgement: null,
  };
  return summarised(judgement, take, "call-a-style", { began: BEGAN }).summary;
}

describe("a take that was really played", () => {
  test("as called and whole: the style is known, and the result can be logged", () => {
    const result = resultOfTake(played("bossa-nova", "bossa-nova", {}), never);
    expect(result).toMatchObject({ item: "style:bossa-nova", outcome: "known", studentId: "noor" });
    expect(result?.evidence.words).toMatch(/^Held at \d+ a minute\. /);
    expect(itemResultSchema.parse(result)).toEqual(result);
  });

  test("another groove than called: new where it was never met, else slipped, and what was heard is said", () => {
    const take = played("samba", "bossa-nova", {});
    expect(outcomeOf(take)).toBe("new");
    expect(outcomeOf(take, always)).toBe("slipped");
    expect(resultOfTake(take, always)?.evidence.words).toMatch(/^Samba was heard at \d+ a minute\.$/);
  });

  test("with a third of it left out it did not hold", () => {
    const take = played("rock-eighths", "rock-eighths", { leftOut: 0.35 });
    expect(outcomeOf(take, always)).toBe("slipped");
  });

  test("freely chosen and surely heard, it is known", () => {
    expect(resultOfTake(played("samba", null, {}), never)).toMatchObject({
      item: "style:samba",
      outcome: "known",
    });
  });

  test("skills: steady in the band of the level then; where that was not kept, in a wide band and not in a narrow one", () => {
    const take = played("rock-eighths", "rock-eighths", { spreadMs: 26 });
    const timeOf = (of: TakeSummary, level: "first-year" | "working") =>
      skillResults(of, { level, day: "2026-03-01" }).find(({ item }) => item === "skill:time")?.outcome;
    // Judged without a student's level it was laid against the steady band, and that is what counts whatever it is now.
    expect(take.level).toBe("steady");
    expect([timeOf(take, "first-year"), timeOf(take, "working")]).toEqual(["slipped", "slipped"]);
    const before = { ...take, level: null };
    expect([timeOf(before, "first-year"), timeOf(before, "working")]).toEqual(["known", "slipped"]);
  });
});

describe("what a summary says", () => {
  const heardAs = (id: string, confidence = 0.95): TakeSummary["heard"] => ({ id, name: id, confidence });

  test.each<[string, Partial<TakeSummary>, string | null]>([
    ["nobody's take", { studentId: null }, null],
    ["nothing played", { hitCount: 0 }, null],
    ["a free choice of nothing known", { called: null, heard: null }, null],
    ["a free choice not surely heard", { called: null, heard: heardAs("shuffle", 0.7) }, null],
    ["none of the known grooves", { heard: null }, "new"],
    ["as called", {}, "known"],
  ])("%s", (_, about, outcome) => {
    expect(outcomeOf(summaryOf("take-1", about))).toBe(outcome);
  });

  const skillsOf = (about: Partial<TakeSummary>) =>
    Object.fromEntries(
      skillResults(summaryOf("take-1", about), { level: "steady", day: "2026-03-02" }).map(
        ({ item, outcome }) => [item, outcome],
      ),
    );

  test("skills are measured where the summary measures them", () => {
    expect(skillsOf({})).toEqual({ "skill:time": "known", "skill:tempo": "known", "skill:voices": "known" });
    expect(skillsOf({ spreadMs: 60, driftPercent: -2, voiceAccuracy: 0.7 })).toEqual({
      "skill:time": "slipped",
      "skill:tempo": "slipped",
      "skill:voices": "slipped",
    });
    expect(skillsOf({ spreadMs: null, driftPercent: null, voiceAccuracy: null })).toEqual({});
  });

  test("touch and form slip when they are the one thing to work on, and never hold by silence", () => {
    expect(skillsOf({ workOn: { kind: "accents", words: "Louder." } })).toMatchObject({
      "skill:touch": "slipped",
    });
    expect(skillsOf({ workOn: { kind: "form", words: "A bar went missing." } })).toMatchObject({
      "skill:form": "slipped",
    });
  });

  test("too little, nobody's, or compared with nothing shows no skill", () => {
    expect(skillsOf({ studentId: null })).toEqual({});
    expect(skillsOf({ groove: null })).toEqual({});
    expect(skillsOf({ voices: [] })).toEqual({});
  });
});

test("a lesson's results: its tally and its skills, all on the day it began there", () => {
  const summary = summaryOf("take-1", { studentId: "noor" });
  const tally = resultOfTake(summary, never);
  if (!tally) throw new Error("The take gave no result.");
  const take: TakeState = {
    takeId: "take-1",
    roundId: "round-1",
    studentId: "noor",
    lane: 0,
    called: null,
    click: null,
    from: 0,
    countsFrom: 0,
    to: 9,
    fromSeq: 2,
    toSeq: 3,
    hitCount: 9,
    judgement: { summary, comparedGrid: null },
  };
  const state: Pick<LessonState, "began" | "rounds"> = {
    began: BEGAN,
    rounds: [
      {
        roundId: "round-1",
        round: "call-a-style",
        lane: 0,
        studentIds: ["noor"],
        from: 0,
        to: 9,
        takes: [take, { ...take, takeId: "take-2", judgement: null }],
        steps: [],
        tally: [tally],
      },
    ],
  };
  const results = resultsOfLesson(state, () => "steady");
  expect(results.map(({ item }) => item)).toEqual([
    "style:shuffle",
    "skill:time",
    "skill:tempo",
    "skill:voices",
  ]);
  expect(new Set(results.map(({ day }) => day))).toEqual(new Set(["2026-03-01"]));
  expect(resultsOfLesson({ ...state, began: null }, () => "steady")).toEqual([]);
});
