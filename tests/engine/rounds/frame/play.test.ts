import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type BackTurnedEvent,
  dealtNext,
  type FrameEvent,
  frameEventSchema,
  freshPlay,
  type Play,
  playAfter,
  playerInTurn,
  playersAsked,
  playOf,
  ROUND_RULES,
  type RoundStep,
  roundStepSchema,
  stepByStep,
} from "../../../../engine/rounds/index.ts";

const rules = ROUND_RULES["back-turned"];
const ASKED: BackTurnedEvent = { kind: "asked", moments: [[{ surface: "ride" }]], rung: 1, of: ["bram"] };
const ANSWERED: BackTurnedEvent = {
  kind: "answered",
  by: "bram",
  moments: [[{ surface: "ride" }]],
  way: "named",
};

const anyEvent: fc.Arbitrary<FrameEvent | BackTurnedEvent> = fc.oneof(
  fc.record({
    kind: fc.constant("began" as const),
    players: fc.uniqueArray(fc.constantFrom("bram", "noor", "casimir"), { maxLength: 3 }),
    answering: fc.constantFrom("in-turn" as const, "all-at-once" as const),
  }),
  fc.constant({ kind: "paused" as const }),
  fc.constant({ kind: "resumed" as const }),
  fc.constant({ kind: "passed-on" as const }),
  fc.constant({ kind: "stopped" as const }),
  fc.constant(ASKED),
  fc.constant(ANSWERED),
);

const STAGES: Readonly<Record<Play<unknown>["stage"], readonly Play<unknown>["stage"][]>> = {
  ready: ["ready", "running"],
  running: ["running", "paused", "over"],
  paused: ["paused", "running", "over"],
  over: ["over"],
};

describe("any sequence of events", () => {
  test("goes from stage to stage as it may, and its own state changes only while it runs", () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 30 }), (events) => {
        let play = freshPlay(rules);
        for (const event of events) {
          const next = playAfter(rules, play, event);
          expect(STAGES[play.stage]).toContain(next.stage);
          if (play.stage !== "running") expect(next.own).toBe(play.own);
          expect(next.turn).toBeLessThan(Math.max(1, next.players.length));
          if (event.kind === "passed-on" && next !== play)
            expect(playerInTurn(next)).not.toBe(playerInTurn(play));
          play = next;
        }
      }),
    );
  });

  test("is the same when it is kept and folded again", () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 30 }), (events) => {
        let live = freshPlay(rules);
        for (const event of events) live = playAfter(rules, live, event);
        const steps = events.map((event): RoundStep => ({ round: "back-turned", event }));
        const kept = steps.map((step) => roundStepSchema.parse(JSON.parse(JSON.stringify(step))));
        expect(playOf("back-turned", kept)).toEqual(live);
        const stepped = stepByStep("back-turned", kept);
        expect(stepped.at(-1)?.play ?? freshPlay(rules)).toEqual(live);
        expect(stepped.flatMap(({ shown }) => shown)).toEqual(rules.shown(playOf("back-turned", kept).own));
      }),
    );
  });
});

test("players pass on in turn; one alone stays", () => {
  const begun = (players: readonly string[]) =>
    playAfter(rules, freshPlay(rules), { kind: "began", players, answering: "in-turn" });
  let play = begun(["bram", "noor"]);
  expect(playerInTurn(play)).toBe("bram");
  play = playAfter(rules, play, { kind: "passed-on" });
  expect(playerInTurn(play)).toBe("noor");
  play = playAfter(rules, play, { kind: "passed-on" });
  expect(playerInTurn(play)).toBe("bram");
  const alone = begun(["bram"]);
  expect(playAfter(rules, alone, { kind: "passed-on" })).toBe(alone);
  expect(playerInTurn(begun([]))).toBeNull();
});

test("steps are told in sentences, those that change nothing are not", () => {
  const steps: RoundStep[] = (
    [
      { kind: "began", players: ["bram"], answering: "in-turn" },
      ASKED,
      ASKED,
      { kind: "paused" },
      ANSWERED,
      { kind: "resumed" },
      ANSWERED,
      { kind: "stopped" },
    ] as const satisfies readonly (FrameEvent | BackTurnedEvent)[]
  ).map((event) => ({ round: "back-turned", event }));
  expect(stepByStep("back-turned", steps).map(({ words }) => words)).toEqual([
    "The round begins.",
    "Sounded: ride.",
    null,
    "A pause.",
    null,
    "It goes on.",
    "Answered: ride.",
    "The round is over.",
  ]);
});

test("more players than can be heard are refused, and ids are the Roster's", () => {
  const players = (count: number) => Array.from({ length: count }, (_, index) => `student${index}`);
  const began = (of: readonly string[]) =>
    frameEventSchema.safeParse({ kind: "began", players: of, answering: "in-turn" });
  expect(began(players(6)).success).toBe(true);
  expect(began(players(7)).success).toBe(false);
  expect(began(["not an id"]).success).toBe(false);
});

describe("what was dealt", () => {
  const items = ["sound:kick", "sound:ride"] as const;

  test("stands in the round from its beginning on", () => {
    const began: FrameEvent = {
      kind: "began",
      players: ["bram"],
      answering: "in-turn",
      dealt: { items: [...items], nothingElse: true },
    };
    expect(frameEventSchema.parse(began)).toEqual(began);
    expect(playAfter(rules, freshPlay(rules), began).dealt).toEqual({ items, nothingElse: true });
    expect(
      playAfter(rules, freshPlay(rules), { ...began, dealt: { items, nothingElse: false } }).dealt,
    ).not.toBe(null);
  });

  test.each([
    ["nothing was asked", [], false, "sound:kick"],
    ["the first was asked", ["sound:kick"], false, "sound:ride"],
    ["out of order", ["sound:ride"], false, "sound:kick"],
    ["all were asked", ["sound:kick", "sound:ride"], false, null],
    ["all were asked, and nothing else is to be", ["sound:kick", "sound:ride"], true, "sound:kick"],
    ["what was asked least comes again", ["sound:kick", "sound:ride", "sound:kick"], true, "sound:ride"],
  ] as const)("%s", (_, asked, nothingElse, next) => {
    expect(dealtNext({ items, nothingElse }, asked)).toBe(next);
  });

  test("nothing dealt, or nothing of it can be asked: the round goes on as it sees fit", () => {
    expect(dealtNext(null, [])).toBe(null);
    expect(dealtNext({ items, nothingElse: true }, [], () => false)).toBe(null);
    expect(dealtNext({ items, nothingElse: false }, [], (item) => item === "sound:ride")).toBe("sound:ride");
  });
});

test("everybody is asked at once, or the one whose turn it is; nobody in particular where nobody plays", () => {
  const players = ["ottilie", "bram"];
  expect(playersAsked({ players, turn: 1, answering: "all-at-once" })).toEqual(players);
  expect(playersAsked({ players, turn: 1, answering: "in-turn" })).toEqual(["bram"]);
  expect(playersAsked({ players: [], turn: 0, answering: "all-at-once" })).toEqual([null]);
  expect(playersAsked({ players: [], turn: 0, answering: "in-turn" })).toEqual([null]);
});
