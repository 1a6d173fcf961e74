import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isRight, type Moments, SURFACES, type Surface } from "../../../../engine/ear/index.ts";
import {
  type BackTurned,
  type BackTurnedEvent,
  backTurnedAfter,
  backTurnedEventSchema,
  backTurnedRules,
  heardAsBy,
  isOpen,
  NEW_BACK_TURNED,
  rungAnswersOf,
  stillToAnswer,
} from "../../../../engine/rounds/index.ts";

const PLAYERS = [null, "ottilie", "bram", "noor"] as const;

const moments: fc.Arbitrary<Moments> = fc.array(
  fc
    .uniqueArray(fc.constantFrom(...SURFACES.slice(0, 4)), { minLength: 1, maxLength: 2 })
    .map((surfaces) => surfaces.map((surface) => ({ surface }))),
  { minLength: 1, maxLength: 3 },
);
const player = fc.constantFrom(...PLAYERS);

const anyEvent: fc.Arbitrary<BackTurnedEvent> = fc.oneof(
  fc.record({
    kind: fc.constant("source-chosen" as const),
    source: fc.constantFrom("sampler" as const, "kit" as const),
  }),
  fc.record({ kind: fc.constant("refreshed" as const), surface: fc.constantFrom(...SURFACES) }),
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant("asked" as const),
      moments,
      rung: fc.option(fc.integer({ min: 1, max: 20 })),
      of: fc.array(player, { minLength: 1, maxLength: 6 }),
    }),
  },
  fc.constant({ kind: "heard-again" as const }),
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant("answered" as const),
      by: player,
      moments,
      way: fc.constantFrom("named" as const, "typed" as const, "struck" as const),
    }),
  },
  fc.constant({ kind: "let-be" as const }),
  fc.constant({ kind: "contrasted" as const }),
  fc.constant({ kind: "turned-round" as const }),
);

/** The round as plainly as it can be told: what is waited for, and how many answers were taken. */
interface Model {
  asked: Moments | null;
  waiting: (string | null)[];
  given: number;
  closed: number;
  answers: number;
  turned: boolean;
}

function modelAfter(model: Model, event: BackTurnedEvent): void {
  const isWaiting = model.asked !== null && model.waiting.length > 0;
  switch (event.kind) {
    case "asked":
      if (isWaiting) return;
      model.asked = event.moments;
      model.waiting = [...new Set(event.of)];
      model.given = 0;
      return;
    case "answered":
      if (!isWaiting || !model.waiting.includes(event.by)) return;
      model.waiting = model.waiting.filter((each) => each !== event.by);
      model.answers += 1;
      model.given += 1;
      if (model.waiting.length === 0) model.closed += 1;
      return;
    case "let-be":
    case "turned-round":
      if (event.kind === "turned-round") model.turned = !model.turned;
      if (!isWaiting) return;
      if (model.given > 0) model.closed += 1;
      model.asked = null;
      model.waiting = [];
      return;
    default:
      return;
  }
}

describe("any sequence of events", () => {
  test("keeps to the plain model, and what was shown only grows", () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 40 }), (events) => {
        const model: Model = { asked: null, waiting: [], given: 0, closed: 0, answers: 0, turned: false };
        let own: BackTurned = NEW_BACK_TURNED;
        for (const event of events) {
          const before = own;
          own = backTurnedAfter(before, event);
          modelAfter(model, event);
          expect(own.roles).toBe(model.turned ? "teacher-names" : "student-names");
          expect(own.question?.moments ?? null).toEqual(model.asked);
          expect(own.question ? stillToAnswer(own.question) : []).toEqual(model.waiting);
          expect(own.past).toHaveLength(model.closed);
          const open = own.question && isOpen(own.question) ? own.question.answers.length : 0;
          expect(own.past.reduce((sum, { answers }) => sum + answers.length, 0) + open).toBe(model.answers);
          const shown = backTurnedRules.shown(own);
          const shownBefore = backTurnedRules.shown(before);
          expect(shown.slice(0, shownBefore.length)).toEqual(shownBefore);
        }
        for (const { moments: asked, answers, roles } of own.past)
          for (const answer of answers) {
            expect(answer.right).toBe(isRight(asked, answer.moments));
            if (roles === "teacher-names") expect(answers.length).toBeGreaterThan(0);
          }
        expect(events.map((event) => backTurnedEventSchema.parse(event))).toEqual(events);
      }),
      { numRuns: 300 },
    );
  });

  test("what the teacher names shows nothing of a student", () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 30 }), (events) => {
        const turned = events.filter(({ kind }) => kind !== "turned-round");
        const own = [{ kind: "turned-round" as const }, ...turned].reduce(backTurnedAfter, NEW_BACK_TURNED);
        expect(backTurnedRules.shown(own)).toEqual([]);
        for (const each of PLAYERS) {
          expect(rungAnswersOf(own, each)).toEqual([]);
          expect(heardAsBy(own, each)).toEqual([]);
        }
      }),
      { numRuns: 60 },
    );
  });
});

function of(...surfaces: readonly Surface[]): Moments {
  return surfaces.map((surface) => [{ surface }]);
}

/** What one question and its answer show. */
function shownAfter(asked: Moments, said: Moments) {
  const own = (
    [
      { kind: "asked", moments: asked, rung: 3, of: ["bram"] },
      { kind: "answered", by: "bram", moments: said, way: "named" },
    ] as const satisfies readonly BackTurnedEvent[]
  ).reduce(backTurnedAfter, NEW_BACK_TURNED);
  return backTurnedRules.shown(own).map(({ item, outcome, words }) => [item, outcome, words]);
}

describe("what is shown", () => {
  test("a sound that is named", () => {
    expect(shownAfter(of("ride"), of("ride"))).toEqual([["sound:ride", "held", ""]]);
  });

  test("a sound that is taken for another", () => {
    expect(shownAfter(of("ride"), of("bell"))).toEqual([["sound:ride", "missed", "Named as ride bell."]]);
  });

  test("a row in another order: its sounds held, the row did not", () => {
    expect(shownAfter(of("kick", "snare"), of("snare", "kick"))).toEqual([
      ["sound:sequence-2", "missed", "snare, then kick was said for kick, then snare."],
      ["sound:kick", "held", ""],
      ["sound:snare", "held", ""],
    ]);
  });

  test("two at once, one of them missed", () => {
    expect(
      shownAfter([[{ surface: "kick" }, { surface: "ride" }]], [[{ surface: "kick" }, { surface: "bell" }]]),
    ).toEqual([
      ["sound:two-at-once", "missed", "kick and ride bell together was said for kick and ride together."],
      ["sound:kick", "held", ""],
      ["sound:ride", "missed", "Named as ride bell."],
    ]);
  });

  test.each([
    ["soft", "held", ""],
    ["loud", "missed", "Not heard as soft."],
  ] as const)("a soft stroke named as %s", (touch, outcome, words) => {
    expect(shownAfter([[{ surface: "snare", touch: "soft" }]], [[{ surface: "snare", touch }]])).toEqual([
      ["sound:soft-stroke", outcome, words],
      ["sound:snare", "held", ""],
    ]);
  });
});

test("answers of one player only, with how hard each was; what a kit asked has no rung", () => {
  const own = (
    [
      { kind: "asked", moments: of("ride"), rung: 3, of: ["bram", "noor"] },
      { kind: "answered", by: "noor", moments: of("bell"), way: "struck" },
      { kind: "answered", by: "bram", moments: of("ride"), way: "named" },
      { kind: "asked", moments: of("kick"), rung: null, of: ["bram"] },
      { kind: "answered", by: "bram", moments: of("kick"), way: "named" },
    ] as const satisfies readonly BackTurnedEvent[]
  ).reduce(backTurnedAfter, NEW_BACK_TURNED);
  expect(rungAnswersOf(own, "bram")).toEqual([{ rung: 3, right: true }]);
  expect(rungAnswersOf(own, "noor")).toEqual([{ rung: 3, right: false }]);
  expect(heardAsBy(own, "noor")).toEqual([{ sounded: "ride", named: "bell" }]);
  expect(heardAsBy(own, "bram")).toEqual([
    { sounded: "ride", named: "ride" },
    { sounded: "kick", named: "kick" },
  ]);
});
