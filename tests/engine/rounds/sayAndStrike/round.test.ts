import fc from "fast-check";
import { expect, test } from "vitest";
import {
  isCalled,
  misheardBy,
  NEW_SAY_AND_STRIKE,
  rungResultsOf,
  type SayAndStrike,
  type SayAndStrikeEvent,
  sayAndStrikeAfter,
  sayAndStrikeEventSchema,
  sayAndStrikeRules,
  stillToStrike,
} from "../../../../engine/rounds/index.ts";
import { comparisonWords } from "../../../../engine/trading/index.ts";
import { anySayAndStrikeEvent } from "./events.ts";

const PLAYERS = [null, "ottilie", "bram"] as const;

/** The round as plainly as it can be told. */
interface Model {
  waiting: (string | null)[] | null;
  given: number;
  closed: number;
  turned: boolean;
}

function modelAfter(model: Model, event: SayAndStrikeEvent): void {
  const isWaiting = model.waiting !== null && model.waiting.length > 0;
  switch (event.kind) {
    case "called":
      if (isWaiting || event.strokes.length === 0) return;
      model.waiting = [...new Set(event.of)];
      model.given = 0;
      return;
    case "answered":
      if (!isWaiting || !model.waiting?.includes(event.by)) return;
      model.waiting = model.waiting.filter((each) => each !== event.by);
      model.given += 1;
      if (model.waiting.length === 0) model.closed += 1;
      return;
    case "let-be":
      if (!isWaiting) return;
      if (model.given > 0) model.closed += 1;
      model.waiting = null;
      return;
    case "turned-round":
      model.turned = !model.turned;
      if (isWaiting && model.given > 0) model.closed += 1;
      model.waiting = null;
      return;
    default:
      return;
  }
}

test("law: any sequence of events keeps to the plain model, and what was shown only grows", () => {
  fc.assert(
    fc.property(fc.array(anySayAndStrikeEvent(PLAYERS), { maxLength: 30 }), (events) => {
      const model: Model = { waiting: null, given: 0, closed: 0, turned: false };
      let own: SayAndStrike = NEW_SAY_AND_STRIKE;
      for (const event of events) {
        expect(sayAndStrikeEventSchema.parse(event)).toEqual(event);
        const before = own;
        own = sayAndStrikeAfter(before, event);
        modelAfter(model, event);
        expect(own.roles).toBe(model.turned ? "student-says" : "student-strikes");
        expect(own.call ? stillToStrike(own.call) : null).toEqual(model.waiting);
        expect(own.past.length).toBe(model.closed);
        const shownBefore = sayAndStrikeRules.shown(before);
        expect(sayAndStrikeRules.shown(own).slice(0, shownBefore.length)).toEqual(shownBefore);
      }
    }),
  );
});

function called(
  voices: readonly ("kick" | "snare" | "high-tom")[],
  rung: number | null = 3,
): SayAndStrikeEvent {
  return {
    kind: "called",
    strokes: voices.map((voice, at) => ({ time: at * 0.5, voice })),
    text: "as it was said",
    tempoBpm: 120,
    source: "program",
    rung,
    of: [null],
  };
}

function answered(
  voices: readonly ("kick" | "snare" | "high-tom")[],
  times: readonly number[] = voices.map((_, at) => at * 0.5),
): SayAndStrikeEvent {
  return {
    kind: "answered",
    by: null,
    strokes: voices.map((voice, at) => ({ time: 7 + (times[at] ?? 0), voice })),
    way: "struck",
    level: "steady",
  };
}

function after(...events: readonly SayAndStrikeEvent[]): SayAndStrike {
  return events.reduce(sayAndStrikeAfter, NEW_SAY_AND_STRIKE);
}

test.each([
  ["as it was said", answered(["kick", "snare", "kick", "snare"]), "Rhythm holds; sound holds."],
  [
    "slower by a third",
    answered(["kick", "snare", "kick", "snare"], [0, 0.65, 1.3, 1.95]),
    "Rhythm holds; sound holds.",
  ],
  [
    "another sound",
    answered(["kick", "high-tom", "kick", "snare"]),
    "Rhythm holds; the second sound moved from snare to high tom.",
  ],
  [
    "one stroke late",
    answered(["kick", "snare", "kick", "snare"], [0, 0.5, 1.14, 1.5]),
    expect.stringMatching(/^Rhythm moved: the third stroke came \d+ ms late; sound holds\.$/),
  ],
  ["nothing", answered([]), "No answer was heard."],
])("%s is told, rhythm and sound apart", (_, answer, words) => {
  const own = after(called(["kick", "snare", "kick", "snare"]), answer);
  expect(own.call && isCalled(own.call)).toBe(false);
  expect(own.past[0]?.answers.map(({ comparison }) => comparisonWords(comparison))).toEqual([words]);
});

test("each voice once: held where it was never taken for another; what was left out shows nothing", () => {
  const own = after(
    called(["kick", "snare", "kick", "snare"]),
    answered(["kick", "high-tom", "kick", "snare"]),
  );
  expect(sayAndStrikeRules.shown(own)).toEqual([
    { by: null, item: "syllable:kick", outcome: "held", words: "" },
    { by: null, item: "syllable:snare", outcome: "missed", words: "Taken for high tom." },
  ]);
  expect(misheardBy(own, null)).toEqual({ sounds: 4, misheard: 1 });
  expect(sayAndStrikeRules.shown(after(called(["kick", "snare"]), answered([])))).toEqual([]);
});

test("phrases of the program say how hard the next may be; what a person chose does not", () => {
  const four = ["kick", "snare", "kick", "snare"] as const;
  const own = after(
    called(four, 3),
    answered(four),
    called(four, null),
    answered(four),
    called(four, 4),
    answered(["kick", "kick", "kick", "snare"]),
  );
  expect(rungResultsOf(own, null)).toEqual([
    { rung: 3, held: true },
    { rung: 4, held: false },
  ]);
});

test("what is said back is measured in the widest band: its beat is known less exactly", () => {
  const four = ["kick", "snare", "kick", "snare"] as const;
  const struck = answered(four, [0, 0.535, 0.965, 1.535]);
  const said: SayAndStrikeEvent = { ...struck, kind: "answered", way: "said" } as SayAndStrikeEvent;
  const rhythm = (event: SayAndStrikeEvent) =>
    after(called(four), event).past[0]?.answers[0]?.comparison.rhythm.holds;
  expect(rhythm(struck)).toBe(false);
  expect(rhythm(said)).toBe(true);
});

test("steps in words", () => {
  const call = called(["kick", "snare"]);
  expect(sayAndStrikeRules.words(NEW_SAY_AND_STRIKE, call, "us")).toBe(
    "Said by the program: as it was said.",
  );
  expect(sayAndStrikeRules.words(after(call), answered(["kick", "kick"]), "us")).toBe(
    "Rhythm holds; the second sound moved from snare to kick.",
  );
  expect(sayAndStrikeRules.words(NEW_SAY_AND_STRIKE, { kind: "turned-round" }, "us")).toBe(
    "Turned round: one strikes, the other says it.",
  );
});
