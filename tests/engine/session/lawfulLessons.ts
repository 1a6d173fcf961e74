/**
 * Lessons by chance that keep to the law of the program: one to three kits, each with its own rounds one after the other,
 * takes within them, judged soon or late, steps of a round that is kept step by step, pauses, commands, remarks written,
 * worded anew and withdrawn. A lesson may be broken off, its latest events lost, and taken up again; after its end only
 * remarks are written.
 *
 * Chance makes the moves of those in the room; the rules here leave out what the program would not let them do.
 */
import fc from "fast-check";
import type { RoundStep } from "../../../engine/rounds/index.ts";
import {
  type Lane,
  ROUND_KINDS,
  type RoundKind,
  type SessionEvent,
  sessionEventSchema,
} from "../../../engine/session/index.ts";
import { anyCommand, anyResult, anyStep, anySteps, anyStroke, STEPPED_KINDS, summaryOf } from "./lessons.ts";

/** A lesson, and where in it the program fell. */
export interface LawfulLesson {
  /** As it is kept in the end: in order, without a gap. */
  readonly events: readonly SessionEvent[];
  /** As each program that recorded it saw it: the events it began with, and those it added. Some of them were lost. */
  readonly sittings: readonly Sitting[];
}

export interface Sitting {
  readonly read: readonly SessionEvent[];
  readonly added: readonly SessionEvent[];
}

const lane = fc.nat();
const any = fc.nat();

/** What somebody does; how it falls out depends on what is going on. */
const move = fc.oneof(
  {
    weight: 10,
    arbitrary: fc.record({
      does: fc.constant("play" as const),
      lane,
      strokes: fc.array(anyStroke, { minLength: 1, maxLength: 8 }),
      /** A kit tells its strikes a little late; a millionth of a second each. */
      late: fc.integer({ min: 0, max: 20_000 }),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      does: fc.constant("begin a round" as const),
      lane,
      round: fc.constantFrom<RoundKind>("call-a-style", ...ROUND_KINDS),
      tally: fc.array(anyResult, { maxLength: 3 }),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      does: fc.constant("begin a take" as const),
      lane,
      called: fc.constantFrom(null, { id: "shuffle", name: "Shuffle" }),
      click: fc.boolean(),
      countIn: fc.integer({ min: 0, max: 3_000_000 }),
    }),
  },
  { weight: 3, arbitrary: fc.record({ does: fc.constant("end the take" as const), lane }) },
  { weight: 3, arbitrary: fc.record({ does: fc.constant("judge" as const), lane }) },
  {
    weight: 4,
    arbitrary: fc.record({ does: fc.constant("step" as const), lane, step: anyStep }),
  },
  {
    weight: 3,
    arbitrary: fc.record({ does: fc.constant("begin a round of steps" as const), lane, begun: anySteps }),
  },
  fc.record({
    does: fc.constant("end the round" as const),
    lane,
    tally: fc.array(anyResult, { maxLength: 3 }),
  }),
  fc.record({ does: fc.constant("command" as const), lane, command: anyCommand }),
  {
    weight: 2,
    arbitrary: fc.record({
      does: fc.constant("remark" as const),
      lane,
      text: fc.string({ maxLength: 20 }),
      flagged: fc.boolean(),
      /** Of an earlier remark that is worded anew, where there is one. */
      again: fc.option(any),
      /** Share of the lesson so far, where it is about another moment. */
      about: fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
    }),
  },
  fc.record({ does: fc.constant("withdraw" as const), lane, which: any }),
  { weight: 2, arbitrary: fc.record({ does: fc.constant("pause or go on" as const), lane }) },
  fc.record({
    does: fc.constant("break off" as const),
    lane,
    /** Events that were not written yet. */
    lost: fc.integer({ min: 0, max: 6 }),
    gone: fc.integer({ min: 0, max: 600_000_000 }),
  }),
  fc.record({ does: fc.constant("end" as const), lane }),
);
type Move = typeof move extends fc.Arbitrary<infer Made> ? Made : never;

const AT = "2026-03-02T15:30:00.000Z";
const LESSON = `${AT}~a1`;

/** What goes on at one kit. */
interface AtKit {
  round: { readonly roundId: string; readonly kind: RoundKind } | undefined;
  take: string | undefined;
}

/** The room: what goes on in it, read from what is written, so that a lesson that was broken off goes on from there. */
function goingOn(events: readonly SessionEvent[], kits: number) {
  const atKits = Array.from({ length: kits }, (): AtKit => ({ round: undefined, take: undefined }));
  const unjudged: { readonly takeId: string; readonly lane: number }[] = [];
  const remarks = new Set<string>();
  let stage: "running" | "paused" | "ended" = "running";
  for (const event of events) {
    const here = atKits[event.lane];
    if (!here) continue;
    if (event.kind === "round-began") here.round = { roundId: event.roundId, kind: event.round };
    if (event.kind === "round-ended") here.round = undefined;
    if (event.kind === "take-began") here.take = event.takeId;
    const over = event.kind === "taken-up-again" ? atKits : [here];
    if (["take-ended", "round-ended", "taken-up-again"].includes(event.kind))
      for (const kit of over) {
        if (kit.take !== undefined) unjudged.push({ takeId: kit.take, lane: atKits.indexOf(kit) });
        kit.take = undefined;
      }
    if (event.kind === "judgement") {
      const at = unjudged.findIndex(({ takeId }) => takeId === event.summary.takeId);
      if (at >= 0) unjudged.splice(at, 1);
    }
    if (event.kind === "remark") remarks.add(event.remarkId);
    if (event.kind === "remark-withdrawn") remarks.delete(event.remarkId);
    if (event.kind === "paused") stage = "paused";
    if (event.kind === "resumed" || event.kind === "taken-up-again") stage = "running";
    if (event.kind === "lesson-ended") stage = "ended";
  }
  return { atKits, unjudged, remarks: [...remarks], stage };
}

const BEGAN = { kind: "began", players: ["student1", "student2"], answering: "in-turn" } as const;

function isStepped(kind: RoundKind): boolean {
  return STEPPED_KINDS.some((each) => each === kind);
}

type Unplaced = Record<string, unknown> & { readonly kind: string };

/** What a move writes. */
function writes(move: Move, events: readonly SessionEvent[], kits: number, parts: number): Unplaced[] {
  const { atKits, unjudged, remarks, stage } = goingOn(events, kits);
  const lane = move.lane % kits;
  const here = atKits[lane];
  if (!here) return [];
  // Ids are never given twice, also where what had them was lost.
  const id = (what: string): string => `${what}-${events.length + 1}-${parts}`;
  if (move.does === "remark") {
    const remarkId =
      move.again === null || remarks.length === 0 ? id("remark") : remarks[move.again % remarks.length];
    const about = move.about === null ? {} : { about: Math.round(move.about * parts) / 1e6 };
    return [{ kind: "remark", lane, remarkId, text: move.text, flagged: move.flagged, ...about }];
  }
  if (move.does === "withdraw")
    return remarks.length === 0
      ? []
      : [{ kind: "remark-withdrawn", lane, remarkId: remarks[move.which % remarks.length] }];
  if (stage === "ended") return [];
  const endOfRound = (tally: readonly unknown[]): Unplaced[] =>
    here.round ? [{ kind: "round-ended", lane, roundId: here.round.roundId, tally }] : [];
  switch (move.does) {
    case "play":
      return move.strokes.map((stroke, index) => ({
        kind: "hit",
        lane,
        time: Math.max(0, parts - move.late + 1000 * index) / 1e6,
        hit: { ...stroke, time: Math.max(0, parts - move.late + 1000 * index) / 1e6 },
      }));
    case "begin a round":
      return [
        ...endOfRound(move.tally),
        {
          kind: "round-began",
          lane,
          roundId: id("round"),
          round: move.round,
          studentIds: [`student${lane + 1}`],
        },
      ];
    case "begin a round of steps": {
      const { round, steps } = move.begun;
      const roundId = id("round");
      return [
        ...endOfRound([]),
        { kind: "round-began", lane, roundId, round, studentIds: [`student${lane + 1}`] },
        { kind: "round-step", lane, roundId, step: { round, event: BEGAN } },
        ...steps.map((step) => ({ kind: "round-step", lane, roundId, step })),
      ];
    }
    case "begin a take": {
      if (!here.round || isStepped(here.round.kind) || here.take !== undefined) return [];
      const from = (parts + move.countIn) / 1e6;
      const { called } = move;
      return [
        {
          kind: "take-began",
          lane,
          roundId: here.round.roundId,
          takeId: id("take"),
          studentId: lane === 2 ? null : `student${lane + 1}`,
          called,
          ...(called ? { calledGrid: "kick | x... |" } : {}),
          click: move.click ? { tempoBpm: 92, from, countInBars: 1 } : null,
          from,
        },
      ];
    }
    case "end the take":
      return here.take === undefined ? [] : [{ kind: "take-ended", lane, takeId: here.take }];
    case "judge": {
      const [take] = unjudged;
      if (!take) return [];
      return [
        {
          kind: "judgement",
          lane: take.lane,
          summary: summaryOf(take.takeId),
          comparedGrid: "kick | x... |",
        },
      ];
    }
    case "step":
      return here.round && here.round.kind === move.step.round
        ? [{ kind: "round-step", lane, roundId: here.round.roundId, step: move.step satisfies RoundStep }]
        : [];
    case "end the round":
      return endOfRound(move.tally);
    case "command":
      return [{ ...move.command, lane }];
    case "pause or go on":
      return [{ kind: stage === "paused" ? "resumed" : "paused", lane, at: AT }];
    case "end":
      return [
        ...atKits.flatMap(({ round }, at) =>
          round ? [{ kind: "round-ended", lane: at, roundId: round.roundId, tally: [] }] : [],
        ),
        { kind: "lesson-ended", lane: 0, at: AT },
      ];
    case "break off":
      return [{ kind: "taken-up-again", lane: 0, at: AT }];
  }
}

function placed(unplaced: Unplaced, seq: number, parts: number): SessionEvent {
  return sessionEventSchema.parse({ seq, time: parts / 1e6, ...unplaced });
}

function lawful(kits: number, moves: readonly (readonly [Move, number])[]): LawfulLesson {
  const lanes = Array.from(
    { length: kits },
    (_, at): Lane => ({
      studentId: at === 2 ? null : `student${at + 1}`,
      source: "kit",
      kit: `kit ${at + 1}`,
    }),
  );
  const studentIds = lanes.flatMap(({ studentId }) => studentId ?? []);
  const began = {
    kind: "lesson-began",
    lane: 0,
    lessonId: LESSON,
    at: AT,
    zone: "Europe/Vienna",
    studentIds,
    lanes,
  };
  let events: SessionEvent[] = [placed(began, 1, 0)];
  let read: readonly SessionEvent[] = [];
  const sittings: Sitting[] = [];
  let parts = 0;
  for (const [move, gap] of moves) {
    parts += gap;
    const written = writes(move, events, kits, parts);
    if (move.does === "break off" && written.length > 0) {
      sittings.push({ read, added: events.slice(read.length) });
      // The beginning, and what an earlier program had written, stays.
      events = events.slice(0, Math.max(1, read.length, events.length - move.lost));
      read = [...events];
      parts += move.gone;
      // Where the end was lost, the lesson is simply taken up; where it was written, there is nothing to take up.
      if (goingOn(events, kits).stage === "ended") continue;
    }
    for (const each of written) events.push(placed(each, events.length + 1, parts));
  }
  sittings.push({ read, added: events.slice(read.length) });
  return { events, sittings };
}

export const lawfulLesson: fc.Arbitrary<LawfulLesson> = fc
  .tuple(
    fc.integer({ min: 1, max: 3 }),
    fc.array(fc.tuple(move, fc.integer({ min: 0, max: 900_000 })), { maxLength: 90, size: "max" }),
  )
  .map(([kits, moves]) => lawful(kits, moves));
