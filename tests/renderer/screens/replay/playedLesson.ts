/** A lesson as it could have been played: grooves demonstrated by seed, judged by the real judge, written as events. */
import { demonstrate, grooveById } from "../../../../engine/catalogue/index.ts";
import { type Hit, VOICES } from "../../../../engine/kit/index.ts";
import { lessonIdAt } from "../../../../engine/records/index.ts";
import { judgeTake } from "../../../../engine/rounds/index.ts";
import {
  hitsOfTake,
  instantAfter,
  itemId,
  lessonState,
  type SessionEvent,
  sessionEventSchema,
  summarised,
} from "../../../../engine/session/index.ts";
import { type Seconds, seededChance } from "../../../../engine/units/index.ts";

export interface TakePlayed {
  readonly styleId: string;
  readonly seed: number;
  readonly bars?: number;
  readonly tempoBpm?: number;
  readonly leanMs?: number;
  readonly spreadMs?: number;
  readonly leftOut?: number;
  /** Freely chosen: no call, no click. */
  readonly free?: boolean;
}

export interface LessonPlayed {
  readonly at: string;
  readonly studentId?: string;
  readonly takes: readonly TakePlayed[];
  readonly remarks?: readonly {
    readonly about: Seconds;
    readonly text: string;
    readonly flagged?: boolean;
  }[];
  readonly ended?: boolean;
  /** The kit, where it is not the first. */
  readonly lane?: number;
}

/** From one take to the next, for words. */
const BETWEEN: Seconds = 6;

/** The events of a lesson of one round, in order. */
export function playedLesson({
  at,
  studentId = "bram",
  takes,
  remarks = [],
  ended = true,
  lane = 0,
}: LessonPlayed): readonly SessionEvent[] {
  const lessonId = lessonIdAt(at, "t1");
  const events: SessionEvent[] = [];
  const add = (time: Seconds, event: Record<string, unknown> & { readonly kind: string }): void => {
    const placed = { seq: events.length + 1, time: Math.round(time * 1e6) / 1e6, lane, ...event };
    events.push(sessionEventSchema.parse(placed));
  };
  const roundId = `r${lane + 1}`;
  add(0, {
    kind: "lesson-began",
    lane: 0,
    lessonId,
    at,
    zone: "Europe/Vienna",
    studentIds: [studentId],
    lanes: [{ studentId, source: "kit" }],
  });
  add(2, { kind: "round-began", roundId, round: "call-a-style", studentIds: [studentId] });
  let now: Seconds = 4;
  takes.forEach((take, index) => {
    const takeId = takeIdOf(at, index, lane);
    now = addTake(events, add, now, { takeId, roundId, studentId, take }) + BETWEEN;
  });
  for (const [index, { about, text, flagged = false }] of remarks.entries())
    add(now, {
      kind: "remark",
      remarkId: `${lane === 0 ? "m" : `kit${lane + 1}-m`}${index + 1}`,
      text,
      flagged,
      about,
    });
  const tally = takes.map(({ styleId }, index) => ({
    item: itemId("style", styleId),
    outcome: "known",
    studentId,
    at: instantAfter(at, now),
    evidence: { words: "It held.", roundId, takeId: takeIdOf(at, index, lane) },
  }));
  add(now, { kind: "round-ended", roundId, tally });
  if (ended) add(now + 3, { kind: "lesson-ended", at: instantAfter(at, now + 3) });
  return events;
}

/** No two takes of the studio share an id. */
function takeIdOf(at: string, index: number, lane: number): string {
  return lane === 0 ? `${at}-t${index + 1}` : `${at}-kit${lane + 1}-t${index + 1}`;
}

/** Two students on two kits, each with a round of their own, at the same time. */
export function playedOnTwoKits(
  at: string,
  first: Omit<LessonPlayed, "at" | "lane" | "ended">,
  second: Omit<LessonPlayed, "at" | "lane" | "ended">,
): readonly SessionEvent[] {
  const logs = [first, second].map((each, lane) => playedLesson({ ...each, at, lane }));
  const ofTheWhole = ["lesson-began", "lesson-ended"];
  const events = logs
    .flatMap((log) => log.filter(({ kind }) => !ofTheWhole.includes(kind)))
    .sort((a, b) => a.time - b.time);
  const studentIds = [first, second].map(({ studentId = "bram" }) => studentId);
  const [began] = logs[0] ?? [];
  const last = logs.flatMap((log) => log.slice(-1)).sort((a, b) => b.time - a.time)[0];
  return [
    { ...began, studentIds, lanes: studentIds.map((studentId) => ({ studentId, source: "kit" })) },
    ...events,
    { ...last, lane: 0 },
  ].map((event, index) => sessionEventSchema.parse({ ...event, seq: index + 1 }));
}

function addTake(
  events: SessionEvent[],
  add: (time: Seconds, event: Record<string, unknown> & { readonly kind: string }) => void,
  now: Seconds,
  {
    takeId,
    roundId,
    studentId,
    take,
  }: {
    readonly takeId: string;
    readonly roundId: string;
    readonly studentId: string;
    readonly take: TakePlayed;
  },
): Seconds {
  const { styleId, seed, bars = 8, tempoBpm = 100, leanMs = 4, spreadMs = 12, leftOut = 0, free } = take;
  const groove = grooveById(styleId);
  if (!groove) throw new Error(`The catalogue has no groove called ${styleId}.`);
  const called = free ? null : { id: styleId, name: groove.name };
  const click = free ? null : { tempoBpm, from: now + 1 };
  add(now, { kind: "take-began", roundId, takeId, studentId, called, click, from: now });
  const chance = seededChance(seed);
  const strokes = demonstrate(groove, { tempoBpm, bars, leanMs, spreadMs, leftOut, added: 0, chance });
  let last = now;
  for (const { time, voice, velocity } of strokes) {
    const at = Math.round((now + 1 + time) * 1e6) / 1e6;
    const strength = Math.round(velocity * 127) / 127;
    const hit: Hit = { time: at, voice, zone: "whole", velocity: strength, pad: VOICES.indexOf(voice) };
    add(at, { kind: "hit", hit });
    last = at;
  }
  add(last + 1, { kind: "take-ended", takeId });
  const state = lessonState(events);
  const told = state.rounds.flatMap((round) => round.takes).find((each) => each.takeId === takeId);
  if (!told) throw new Error(`The log has no take ${takeId}.`);
  const judgement = judgeTake({ hits: hitsOfTake(events, told), styleId: free ? null : styleId, click });
  add(last + 1.5, { kind: "judgement", ...summarised(judgement, told, "call-a-style", state) });
  return last + 1.5;
}

export const AT = "2026-03-02T15:30:00.000Z";

/** Three takes: two of one groove with the click, the second with a worse kick; one free. */
export const LESSON = playedLesson({
  at: AT,
  takes: [
    { styleId: "rock-eighths", seed: 1 },
    { styleId: "rock-eighths", seed: 2, spreadMs: 20, leftOut: 0.08 },
    { styleId: "shuffle", seed: 3, free: true },
  ],
  remarks: [{ about: 9.5, text: "Shoulders up.", flagged: true }],
});
