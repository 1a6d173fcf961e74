/** Lessons by chance, as a teacher and a kit could have made them, for laws that hold for all. */
import fc from "fast-check";
import { SURFACES } from "../../../engine/ear/index.ts";
import { VOICES, ZONES } from "../../../engine/kit/index.ts";
import {
  type BackTurnedEvent,
  type EventOfRound,
  type FrameEvent,
  ROUND_RULES,
  type RoundStep,
  type SteppedKind,
} from "../../../engine/rounds/index.ts";
import {
  ITEM_KINDS,
  itemId,
  OUTCOMES,
  ROUND_KINDS,
  type SessionEvent,
  type TakeSummary,
} from "../../../engine/session/index.ts";
import { anyCardTableEvent } from "../rounds/cardTable/events.ts";
import { anySayAndStrikeEvent } from "../rounds/sayAndStrike/events.ts";
import { anySpottingEvent } from "../rounds/spotting/events.ts";
import { anyTradingEvent } from "../rounds/trading/events.ts";
import { anyWallChartEvent } from "../rounds/wallChart/events.ts";

export const STEPPED_KINDS = Object.keys(ROUND_RULES) as readonly SteppedKind[];

const LESSON = "2026-03-02T15:30:00.000Z~a1";
const AT = "2026-03-02T15:30:00.000Z";
const few = (prefix: string) => fc.integer({ min: 1, max: 3 }).map((number) => `${prefix}${number}`);
const seconds = fc.integer({ min: 0, max: 3_600_000_000 }).map((parts) => parts / 1e6);
const share = fc.oneof(
  fc.integer({ min: 0, max: 127 }).map((value) => value / 127),
  fc.double({ min: 0, max: 1, noNaN: true }),
);

/** A strike without its moment. */
export const anyStroke = fc.record(
  {
    voice: fc.constantFrom(...VOICES),
    zone: fc.constantFrom(...ZONES),
    velocity: share,
    openness: share,
    pad: fc.integer({ min: 0, max: 127 }),
  },
  { requiredKeys: ["voice", "zone", "velocity", "pad"] },
);

export const anyResult = fc.record({
  item: fc.constantFrom(...ITEM_KINDS).map((kind) => itemId(kind, "shuffle")),
  outcome: fc.constantFrom(...OUTCOMES),
  studentId: few("student"),
  at: fc.constant(AT),
  evidence: fc.record({ words: fc.string({ maxLength: 20 }), roundId: few("round") }),
});

const surfaces = fc
  .uniqueArray(fc.constantFrom(...SURFACES), { minLength: 1, maxLength: 2 })
  .map((struck) => struck.map((surface) => ({ surface })));
const moments = fc.array(surfaces, { minLength: 1, maxLength: 3 });
const PLAYERS = [null, "student1", "student2"] as const;
const player = fc.constantFrom(...PLAYERS);

/** What all rounds have in common. */
const anyFrameEvent: fc.Arbitrary<FrameEvent> = fc.oneof(
  fc.record({
    kind: fc.constant("began" as const),
    players: fc.uniqueArray(few("student"), { maxLength: 3 }),
    answering: fc.constantFrom("in-turn" as const, "all-at-once" as const),
  }),
  fc.constantFrom(...(["paused", "resumed", "passed-on", "stopped"] as const)).map((kind) => ({ kind })),
);

const anyBackTurnedEvent: fc.Arbitrary<BackTurnedEvent> = fc.oneof(
  fc
    .constantFrom(...(["heard-again", "let-be", "contrasted", "turned-round"] as const))
    .map((kind) => ({ kind })),
  fc.record({
    kind: fc.constant("source-chosen" as const),
    source: fc.constantFrom("sampler" as const, "kit" as const),
  }),
  fc.record({ kind: fc.constant("refreshed" as const), surface: fc.constantFrom(...SURFACES) }),
  fc.record({
    kind: fc.constant("asked" as const),
    moments,
    rung: fc.constantFrom(null, 1, 4),
    of: fc.uniqueArray(player, { minLength: 1, maxLength: 2 }),
  }),
  fc.record({
    kind: fc.constant("answered" as const),
    by: player,
    moments,
    way: fc.constantFrom("named" as const, "typed" as const, "struck" as const),
  }),
);

/** A round's own events, those of its frame among them. */
function stepsOf<Kind extends SteppedKind>(
  round: Kind,
  own: fc.Arbitrary<EventOfRound<Kind>>,
): fc.Arbitrary<RoundStep> {
  return fc
    .oneof({ weight: 3, arbitrary: own }, { weight: 1, arbitrary: anyFrameEvent })
    .map((event) => ({ round, event }) as unknown as RoundStep);
}

/** Of each round that is kept step by step. */
const STEPS: Readonly<Record<SteppedKind, fc.Arbitrary<RoundStep>>> = {
  "back-turned": stepsOf("back-turned", anyBackTurnedEvent),
  spotting: stepsOf("spotting", anySpottingEvent(PLAYERS)),
  "say-and-strike": stepsOf("say-and-strike", anySayAndStrikeEvent(PLAYERS)),
  "card-table": stepsOf("card-table", anyCardTableEvent(PLAYERS)),
  "wall-chart": stepsOf("wall-chart", anyWallChartEvent(PLAYERS)),
  trading: stepsOf("trading", anyTradingEvent(PLAYERS)),
};
export const anyStep: fc.Arbitrary<RoundStep> = fc.oneof(...Object.values(STEPS));

/** A round that is kept step by step, with steps of its own from its beginning on. */
export const anySteps = fc
  .constantFrom(...STEPPED_KINDS)
  .chain((round) =>
    fc.record({ round: fc.constant(round), steps: fc.array(STEPS[round], { minLength: 1, maxLength: 12 }) }),
  );

export const anyCommand = fc.record({
  kind: fc.constant("command" as const),
  command: fc.constantFrom(...(["next", "again", "turn-round", "stop", "flag"] as const)),
  by: fc.constantFrom(...(["strike", "key", "button"] as const)),
});

export function summaryOf(takeId: string, about: Partial<TakeSummary> = {}): TakeSummary {
  return {
    takeId,
    lessonId: LESSON,
    roundId: "round1",
    studentId: "student1",
    at: AT,
    round: "call-a-style",
    fromSeconds: 12.5,
    seconds: 20,
    hitCount: 96,
    called: { id: "shuffle", name: "Shuffle" },
    groove: { id: "shuffle", name: "Shuffle" },
    heard: { id: "shuffle", name: "Shuffle", confidence: 0.93 },
    level: "first-year",
    clicked: true,
    tempoBpm: 92,
    leanMs: -4.2,
    spreadMs: 17.5,
    driftPercent: 0.3,
    swingRatio: 1.9,
    voiceAccuracy: 0.98,
    workOn: { kind: "nothing", words: "Nothing stands out." },
    beats: [{ beat: 1, count: 8, leanMs: -3, spreadMs: 12 }],
    voices: [
      {
        voice: "snare",
        written: 16,
        asWritten: 15,
        otherSound: 1,
        leftOut: 0,
        added: 0,
        leanMs: 2,
        spreadMs: 14,
      },
    ],
    ...about,
  };
}

/** What happens next: an event without its place in the log. */
const happening = fc.oneof(
  { weight: 12, arbitrary: anyStroke.map((struck) => ({ kind: "hit" as const, hit: struck })) },
  fc.record({
    kind: fc.constant("round-began" as const),
    roundId: few("round"),
    round: fc.constantFrom("call-a-style" as const, ...ROUND_KINDS),
    studentIds: fc.constant(["student1"]),
  }),
  fc.record({
    kind: fc.constant("take-began" as const),
    roundId: few("round"),
    takeId: few("take"),
    studentId: fc.constantFrom(null, "student1"),
    called: fc.constantFrom(null, { id: "shuffle", name: "Shuffle" }),
    click: fc.constantFrom(null, { tempoBpm: 92, from: 3 }),
    from: seconds,
  }),
  fc.record({ kind: fc.constant("round-step" as const), roundId: few("round"), step: anyStep }),
  fc.record({ kind: fc.constant("take-ended" as const), takeId: few("take") }),
  few("take").map((takeId) => ({
    kind: "judgement" as const,
    summary: summaryOf(takeId),
    comparedGrid: "kick | x... |",
  })),
  fc.record({
    kind: fc.constant("round-ended" as const),
    roundId: few("round"),
    tally: fc.array(anyResult, { maxLength: 3 }),
  }),
  anyCommand,
  fc.record({
    kind: fc.constant("remark" as const),
    remarkId: few("remark"),
    text: fc.string({ maxLength: 20 }),
    flagged: fc.boolean(),
  }),
  fc.record({ kind: fc.constant("remark-withdrawn" as const), remarkId: few("remark") }),
  fc.constant({ kind: "paused" as const, at: AT }),
  fc.constant({ kind: "resumed" as const, at: AT }),
  fc.constant({ kind: "taken-up-again" as const, at: AT }),
  { weight: 1, arbitrary: fc.constant({ kind: "lesson-ended" as const, at: AT }) },
);

/** A lesson's events, two kits in it. Moments mostly go forward; a kit's strikes may come a little late. */
export const anyLesson: fc.Arbitrary<readonly SessionEvent[]> = fc
  .array(fc.tuple(happening, fc.integer({ min: -20_000, max: 900_000 }), fc.integer({ min: 0, max: 1 })), {
    maxLength: 120,
    size: "max",
  })
  .map((happenings) => {
    const events: SessionEvent[] = [
      {
        kind: "lesson-began",
        seq: 1,
        time: 0,
        lane: 0,
        lessonId: LESSON,
        at: AT,
        zone: "Europe/Vienna",
        studentIds: ["student1", "student2"],
        lanes: [
          { studentId: "student1", source: "kit" },
          { studentId: "student2", source: "kit" },
        ],
      },
    ];
    let parts = 0;
    for (const [what, step, lane] of happenings) {
      parts = Math.max(0, parts + step);
      const placed = { seq: events.length + 1, time: parts / 1e6, lane };
      events.push(
        what.kind === "hit"
          ? { kind: "hit", ...placed, hit: { ...what.hit, time: placed.time } }
          : { ...what, ...placed },
      );
    }
    return events;
  });
