/**
 * A lesson as its events tell it so far. One fold, used live and in replay.
 *
 * The strikes themselves stay in the log; the state counts them and says between which events a take lies
 * ({@link hitsOfTake}), so that a strike costs next to nothing.
 */
import type { Hit } from "../kit/index.ts";
import type { RoundStep } from "../rounds/index.ts";
import type { Seconds } from "../units/index.ts";
import type { ItemResult } from "./itemResult.ts";
import type { RoundKind } from "./roundKind.ts";
import type { EventOf, LoggedClick, SessionEvent } from "./sessionEvent.ts";
import type { NamedGroove, TakeSummary } from "./takeSummary.ts";

export interface TakeState {
  readonly takeId: string;
  readonly roundId: string;
  readonly studentId: string | null;
  readonly lane: number;
  readonly called: NamedGroove | null;
  readonly calledGrid?: string;
  readonly click: LoggedClick | null;
  /** Where it began; strikes from `countsFrom` on belong to it. */
  readonly from: Seconds;
  readonly countsFrom: Seconds;
  /** Where it ended; `null` while it goes on. */
  readonly to: Seconds | null;
  /** Its events lie after the first and before the second; `null` while it goes on. */
  readonly fromSeq: number;
  readonly toSeq: number | null;
  readonly hitCount: number;
  /** It was going on when the program fell; nobody ended it. */
  readonly brokenOff?: true;
  readonly judgement: { readonly summary: TakeSummary; readonly comparedGrid: string | null } | null;
}

export interface RoundState {
  readonly roundId: string;
  readonly round: RoundKind;
  readonly lane: number;
  readonly studentIds: readonly string[];
  readonly from: Seconds;
  /** `null` while it goes on. */
  readonly to: Seconds | null;
  readonly takes: readonly TakeState[];
  /** Of a round that is kept step by step: its state is their fold. */
  readonly steps: readonly StepTaken[];
  readonly tally: readonly ItemResult[];
}

export interface StepTaken {
  readonly time: Seconds;
  readonly step: RoundStep;
}

export interface RemarkState {
  readonly remarkId: string;
  /** The moment it is about. */
  readonly time: Seconds;
  readonly lane: number;
  readonly text: string;
  readonly flagged: boolean;
}

export interface LessonState {
  readonly began: EventOf<"lesson-began"> | null;
  readonly stage: "to-come" | "running" | "paused" | "ended";
  /** The latest event's number, 0 before the first, and its moment. */
  readonly seq: number;
  readonly time: Seconds;
  readonly hitCount: number;
  readonly rounds: readonly RoundState[];
  /** In order of the moments they are about. */
  readonly remarks: readonly RemarkState[];
  readonly pauses: readonly { readonly from: Seconds; readonly to: Seconds | null }[];
  /** When it ended by the calendar; `null` before. */
  readonly endedAt: string | null;
}

export const NEW_LESSON: LessonState = {
  began: null,
  stage: "to-come",
  seq: 0,
  time: 0,
  hitCount: 0,
  rounds: [],
  remarks: [],
  pauses: [],
  endedAt: null,
};

/** The lesson after all of these events. */
export function lessonState(events: Iterable<SessionEvent>, from: LessonState = NEW_LESSON): LessonState {
  let state = from;
  let strikes: EventOf<"hit">[] = [];
  for (const event of events) {
    if (event.kind === "hit") {
      if (event.seq > (strikes.at(-1)?.seq ?? state.seq)) strikes.push(event);
      continue;
    }
    state = lessonAfter(struck(state, strikes), event);
    strikes = [];
  }
  return struck(state, strikes);
}

/**
 * The lesson after one more event. Events that come twice or too late change nothing but the place in the log; of a
 * lesson that has ended, remarks can still be written.
 */
export function lessonAfter(before: LessonState, event: SessionEvent): LessonState {
  if (event.seq <= before.seq) return before;
  if (event.kind === "hit") return struck(before, [event]);
  const state = { ...before, seq: event.seq, time: Math.max(before.time, event.time) };
  switch (event.kind) {
    case "lesson-began":
      return before.began ? state : { ...state, began: event, stage: "running" };
    case "round-began":
      return roundBegan(state, event);
    case "round-step":
      return roundStepped(state, event);
    case "take-began":
      return takeBegan(state, event);
    case "take-ended":
      return eachTake(state, (take) => (take.takeId === event.takeId ? ended(take, event) : take));
    case "judgement":
      return eachTake(state, (take) =>
        take.takeId === event.summary.takeId
          ? { ...take, judgement: { summary: event.summary, comparedGrid: event.comparedGrid } }
          : take,
      );
    case "round-ended":
      return roundEnded(state, event);
    case "command":
      return state;
    case "remark":
      return remarked(state, event);
    case "remark-withdrawn":
      return { ...state, remarks: state.remarks.filter(({ remarkId }) => remarkId !== event.remarkId) };
    case "paused":
      return state.stage === "running"
        ? { ...state, stage: "paused", pauses: [...state.pauses, { from: event.time, to: null }] }
        : state;
    case "resumed":
      return resumed(state, event.time);
    case "taken-up-again":
      return resumed(
        eachTake(state, (take) =>
          take.toSeq === null
            ? { ...ended(take, { seq: event.seq, time: before.time }), brokenOff: true }
            : take,
        ),
        event.time,
      );
    case "lesson-ended":
      return lessonEnded(state, event);
  }
}

/** The strikes of a take, in the log's order. Those of the count-in are left out. */
export function hitsOfTake(events: readonly SessionEvent[], take: TakeState): readonly Hit[] {
  const hits: Hit[] = [];
  for (let index = firstAfter(events, take.fromSeq); index < events.length; index += 1) {
    const event = events[index];
    if (!event || event.seq >= (take.toSeq ?? Number.POSITIVE_INFINITY)) break;
    if (event.kind === "hit" && belongs(event, take)) hits.push(event.hit);
  }
  return hits;
}

function firstAfter(events: readonly SessionEvent[], seq: number): number {
  let low = 0;
  let high = events.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((events[middle]?.seq ?? 0) <= seq) low = middle + 1;
    else high = middle;
  }
  return low;
}

function belongs({ lane, hit }: EventOf<"hit">, take: TakeState): boolean {
  return lane === take.lane && hit.time >= take.countsFrom;
}

/** Strikes are by far the most events: those in a row are counted together, and only what they change is copied. */
function struck(before: LessonState, strikes: readonly EventOf<"hit">[]): LessonState {
  const last = strikes.at(-1);
  if (!last) return before;
  const rounds = before.rounds.map((round) => {
    if (round.to !== null || !round.takes.some(isOpen)) return round;
    return { ...round, takes: round.takes.map((take) => (isOpen(take) ? counting(take, strikes) : take)) };
  });
  return {
    ...before,
    seq: last.seq,
    time: strikes.reduce((latest, { time }) => Math.max(latest, time), before.time),
    hitCount: before.hitCount + strikes.length,
    rounds,
  };
}

function isOpen({ toSeq }: TakeState): boolean {
  return toSeq === null;
}

function counting(take: TakeState, strikes: readonly EventOf<"hit">[]): TakeState {
  const count = strikes.reduce((sum, strike) => (belongs(strike, take) ? sum + 1 : sum), 0);
  return count === 0 ? take : { ...take, hitCount: take.hitCount + count };
}

function roundBegan(state: LessonState, event: EventOf<"round-began">): LessonState {
  if (state.stage === "ended" || state.rounds.some(({ roundId }) => roundId === event.roundId)) return state;
  const { roundId, round, lane, studentIds, time } = event;
  const begun: RoundState = {
    roundId,
    round,
    lane,
    studentIds,
    from: time,
    to: null,
    takes: [],
    steps: [],
    tally: [],
  };
  return { ...state, rounds: [...state.rounds, begun] };
}

/** A step of another kind of round than the one that was begun is none of its. */
function roundStepped(state: LessonState, { roundId, step, time }: EventOf<"round-step">): LessonState {
  const rounds = state.rounds.map((round) =>
    round.roundId === roundId && round.to === null && round.round === step.round
      ? { ...round, steps: [...round.steps, { time, step }] }
      : round,
  );
  return { ...state, rounds };
}

function takeBegan(state: LessonState, event: EventOf<"take-began">): LessonState {
  const { takeId, roundId, studentId, lane, called, calledGrid, click, time, seq } = event;
  const take: TakeState = {
    takeId,
    roundId,
    studentId,
    lane,
    called,
    ...(calledGrid === undefined ? {} : { calledGrid }),
    click,
    from: time,
    countsFrom: event.from,
    to: null,
    fromSeq: seq,
    toSeq: null,
    hitCount: 0,
    judgement: null,
  };
  const rounds = state.rounds.map((round) =>
    round.roundId === roundId && round.to === null && !round.takes.some((other) => other.takeId === takeId)
      ? { ...round, takes: [...round.takes, take] }
      : round,
  );
  return { ...state, rounds };
}

function eachTake(state: LessonState, change: (take: TakeState) => TakeState): LessonState {
  const rounds = state.rounds.map((round) => {
    const takes = round.takes.map(change);
    return takes.some((take, index) => take !== round.takes[index]) ? { ...round, takes } : round;
  });
  return { ...state, rounds };
}

function ended(take: TakeState, { seq, time }: { readonly seq: number; readonly time: Seconds }): TakeState {
  return take.toSeq === null ? { ...take, to: time, toSeq: seq } : take;
}

function roundEnded(state: LessonState, event: EventOf<"round-ended">): LessonState {
  const rounds = state.rounds.map((round) =>
    round.roundId === event.roundId && round.to === null
      ? {
          ...round,
          to: event.time,
          tally: event.tally,
          takes: round.takes.map((take) => ended(take, event)),
        }
      : round,
  );
  return { ...state, rounds };
}

function remarked(state: LessonState, event: EventOf<"remark">): LessonState {
  const { remarkId, lane, text, flagged } = event;
  const remark: RemarkState = { remarkId, time: event.about ?? event.time, lane, text, flagged };
  const others = state.remarks.filter((other) => other.remarkId !== remarkId);
  return { ...state, remarks: [...others, remark].sort((a, b) => a.time - b.time) };
}

function resumed(state: LessonState, time: Seconds): LessonState {
  if (state.stage !== "paused") return state;
  const pauses = state.pauses.map((pause) => (pause.to === null ? { ...pause, to: time } : pause));
  return { ...state, stage: "running", pauses };
}

function lessonEnded(state: LessonState, event: EventOf<"lesson-ended">): LessonState {
  if (state.stage === "ended") return state;
  const open = resumed(state, event.time);
  const rounds = open.rounds.map((round) => ({
    ...round,
    to: round.to ?? event.time,
    takes: round.takes.map((take) => ended(take, event)),
  }));
  return { ...open, stage: "ended", rounds, endedAt: event.at };
}
