import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  isNameDue,
  isSpotted,
  NEW_SPOTTING,
  type Spotting,
  type SpottingAnswer,
  type SpottingEvent,
  spottingAfter,
  spottingEventSchema,
  spottingRules,
  stillToName,
  type Thing,
} from "../../../../engine/rounds/index.ts";
import { anySpottingEvent, BOSSA, FILL, SAMBA } from "./events.ts";

const anyEvent = anySpottingEvent([null, "ottilie", "bram", "noor"]);

/** The round as plainly as it can be told: what is asked, who is waited for, whether anything of it can still change. */
interface Model {
  key: Thing | null;
  isAsked: boolean;
  isByProgram: boolean;
  isOverruled: boolean;
  isOpen: boolean;
  waiting: (string | null)[];
  given: number;
  settled: number;
  turned: boolean;
}

const BEFORE: Model = {
  key: null,
  isAsked: false,
  isByProgram: false,
  isOverruled: false,
  isOpen: false,
  waiting: [],
  given: 0,
  settled: 0,
  turned: false,
};

function modelAfter(model: Model, event: SpottingEvent): void {
  const close = (): void => {
    model.isOpen = false;
    model.settled += 1;
  };
  switch (event.kind) {
    case "asked":
    case "asked-by-kit":
      if (model.isOpen) return;
      Object.assign(model, {
        isAsked: true,
        isOpen: true,
        isByProgram: event.kind === "asked",
        isOverruled: false,
        key: event.kind === "asked" ? event.thing : null,
        waiting: [...new Set(event.of)],
        given: 0,
      });
      return;
    case "heard":
      if (model.isOpen && !model.isByProgram && !model.isOverruled) model.key = event.thing;
      return;
    case "overruled":
      if (!model.isOpen || model.isByProgram) return;
      model.key = event.thing;
      model.isOverruled = true;
      return;
    case "answered":
      if (!model.isOpen || !model.waiting.includes(event.by)) return;
      model.waiting = model.waiting.filter((each) => each !== event.by);
      model.given += 1;
      if (model.waiting.length === 0 && model.isByProgram) close();
      return;
    case "settled":
      if (model.isOpen && model.waiting.length === 0 && model.key !== null) close();
      return;
    case "let-be":
    case "turned-round":
      if (event.kind === "turned-round") model.turned = !model.turned;
      if (!model.isOpen) return;
      if (model.given > 0 && model.key !== null) model.settled += 1;
      Object.assign(model, { isAsked: false, isOpen: false, key: null, waiting: [] });
      return;
    default:
      return;
  }
}

describe("any sequence of events", () => {
  test("keeps to the plain model; what was shown only grows, and what is settled never changes", () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 40 }), (events) => {
        const model = { ...BEFORE };
        let own: Spotting = NEW_SPOTTING;
        for (const event of events) {
          const before = own;
          own = spottingAfter(before, event);
          modelAfter(model, event);
          expect(own.roles).toBe(model.turned ? "teacher-names" : "student-names");
          expect(own.question !== null).toBe(model.isAsked);
          expect(own.question?.key.thing ?? null).toEqual(model.key);
          expect(own.question !== null && !own.question.isSettled).toBe(model.isOpen);
          expect(own.question && isNameDue(own.question) ? stillToName(own.question) : []).toEqual(
            model.waiting,
          );
          expect(own.past).toHaveLength(model.settled);
          expect(own.past.slice(0, before.past.length)).toEqual(before.past);
          const shown = spottingRules.shown(own);
          const shownBefore = spottingRules.shown(before);
          expect(shown.slice(0, shownBefore.length)).toEqual(shownBefore);
        }
        for (const question of own.past) {
          expect(question.isSettled).toBe(true);
          expect(isNameDue(question)).toBe(false);
          expect(question.key.thing).not.toBeNull();
        }
        expect(events.map((event) => spottingEventSchema.parse(event))).toEqual(events);
      }),
      { numRuns: 300 },
    );
  });

  test("what the teacher names shows nothing of a student", () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 30 }), (events) => {
        const turned = events.filter(({ kind }) => kind !== "turned-round");
        const own = [{ kind: "turned-round" as const }, ...turned].reduce(spottingAfter, NEW_SPOTTING);
        expect(spottingRules.shown(own)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

function played(...events: readonly SpottingEvent[]): Spotting {
  return events.reduce(spottingAfter, NEW_SPOTTING);
}

function asked(what: Thing): SpottingEvent {
  const performance = { way: 0, tempoBpm: 100, seed: 1 };
  return { kind: "asked", thing: what, performance, isNew: false, of: ["bram"] };
}

function answered(given: SpottingAnswer): SpottingEvent {
  return { kind: "answered", by: "bram", answer: given };
}

const NAMED_BOSSA: SpottingAnswer = { way: "named", thing: BOSSA, said: "bosa nova" };

describe("what an answer shows", () => {
  test.each<[string, Thing, SpottingAnswer, string, string, string]>([
    ["its name", BOSSA, NAMED_BOSSA, "style-name:bossa-nova", "held", ""],
    ["another name", SAMBA, NAMED_BOSSA, "style-name:samba", "missed", "Taken for Bossa nova."],
    [
      "a name of nothing",
      SAMBA,
      { way: "other-name", said: "wobble" },
      "style-name:samba",
      "missed",
      "Called “wobble”.",
    ],
    ["aloud, rightly", FILL, { way: "aloud", isRight: true }, "fill-name:two-quarters-snare", "held", ""],
    [
      "aloud, wrongly",
      FILL,
      { way: "aloud", isRight: false },
      "fill-name:two-quarters-snare",
      "missed",
      "Another name was said.",
    ],
    // Who plays it back shows that it can be played: its name was not said.
    ["played back", SAMBA, { way: "played", thing: SAMBA }, "style:samba", "held", "Played back."],
    [
      "another played back",
      FILL,
      { way: "played", thing: SAMBA },
      "fill:two-quarters-snare",
      "missed",
      "Samba was played back.",
    ],
    [
      "known from somewhere",
      SAMBA,
      { way: "knows-place" },
      "style-name:samba",
      "faded",
      "Known from somewhere, but not by name.",
    ],
    ["never heard", SAMBA, { way: "never-heard" }, "style-name:samba", "not-met", "Never heard before."],
  ])("%s", (_, what, given, item, outcome, words) => {
    expect(spottingRules.shown(played(asked(what), answered(given)))).toEqual([
      { by: "bram", item, outcome, words },
    ]);
  });
});

describe("a kit plays", () => {
  const byKit: SpottingEvent = { kind: "asked-by-kit", of: ["bram"] };
  const heardSamba: SpottingEvent = { kind: "heard", thing: SAMBA, confidence: 0.8 };

  test("the key is what was heard; nothing is shown until it is settled", () => {
    const open = played(byKit, answered(NAMED_BOSSA), heardSamba);
    expect(spottingRules.shown(open)).toEqual([]);
    expect(open.question && isSpotted(open.question, NAMED_BOSSA)).toBe(false);
    expect(spottingRules.shown(spottingAfter(open, { kind: "settled" }))).toMatchObject([
      { item: "style-name:samba", outcome: "missed" },
    ]);
  });

  test("who played it knows better, before the answer or after it", () => {
    const overruled: SpottingEvent = { kind: "overruled", thing: BOSSA };
    for (const order of [
      [byKit, heardSamba, overruled, answered(NAMED_BOSSA)],
      [byKit, heardSamba, answered(NAMED_BOSSA), overruled, heardSamba],
    ]) {
      const own = played(...order, { kind: "settled" });
      expect(spottingRules.shown(own)).toMatchObject([{ item: "style-name:bossa-nova", outcome: "held" }]);
    }
  });

  test("what nobody knows is not settled, and shows nothing", () => {
    const own = played(byKit, answered(NAMED_BOSSA), { kind: "settled" });
    expect(own.question?.isSettled).toBe(false);
    expect(own.question && isSpotted(own.question, NAMED_BOSSA)).toBeNull();
    const left = spottingAfter(own, { kind: "let-be" });
    expect(left.past).toEqual([]);
    expect(spottingRules.shown(left)).toEqual([]);
  });
});
