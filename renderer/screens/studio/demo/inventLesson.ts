/** One invented lesson, as its events: simulated playing, judged as any other. The same seed gives the same lesson. */
import { demonstrate, STYLES, styleById } from "../../../../engine/catalogue/index.ts";
import { type Hit, VOICES } from "../../../../engine/kit/index.ts";
import { catalogueStock, type Stock } from "../../../../engine/listening/index.ts";
import { resultOfTake } from "../../../../engine/memory/index.ts";
import { tallyOfRound } from "../../../../engine/records/index.ts";
import { judgeTake } from "../../../../engine/rounds/index.ts";
import { type Groove, usualTempo } from "../../../../engine/score/index.ts";
import {
  type ItemId,
  type ItemResult,
  instantAfter,
  type LessonState,
  lessonAfter,
  NEW_LESSON,
  type SessionEvent,
  summarised,
} from "../../../../engine/session/index.ts";
import type { Chance, Seconds } from "../../../../engine/units/index.ts";
import { inventSteps } from "./inventSteps.ts";
import type { AskedRound, InventedStudent } from "./millrace.ts";

/** Our choice: enough to be judged, short enough to be made quickly. */
const BARS = 8;
const TAKES_A_LESSON = 2;
/** A new style or item is taken up every so many lessons. Our choice. */
const LESSONS_TO_A_STYLE = 6;
/** How often a lesson has room for a second of the other rounds. Our choice. */
const SECOND_ROUND = 0.4;

export interface InventedLesson {
  readonly lessonId: string;
  /** ISO 8601 in UTC. */
  readonly at: string;
  /** IANA name. */
  readonly zone: string;
  /** Which lesson of the student it is, from 0, of so many. */
  readonly number: number;
  readonly of: number;
  readonly chance: Chance;
  /** What was met in the lessons before; it grows. */
  readonly met: Set<ItemId>;
}

/** The events, and the lesson after them. */
export function inventLesson(
  who: InventedStudent,
  lesson: InventedLesson,
): { readonly events: readonly SessionEvent[]; readonly state: LessonState } {
  const log = new InventedLog(lesson.lessonId);
  const { id } = who.student;
  log.add({
    kind: "lesson-began",
    lessonId: lesson.lessonId,
    at: lesson.at,
    zone: lesson.zone,
    studentIds: [id],
    lanes: [{ studentId: id, source: "demonstration" }],
    invented: true,
  });
  log.time = 90;
  playRound(log, who, lesson);
  askRounds(log, who, lesson);
  if (lesson.chance() < 0.4) {
    const text = REMARKS[Math.floor(lesson.chance() * REMARKS.length)] ?? "";
    log.add({ kind: "remark", remarkId: log.id("remark"), text, flagged: lesson.chance() < 0.3 });
  }
  log.time = Math.max(log.time, who.minutes * 60);
  log.add({ kind: "lesson-ended", at: instantAfter(lesson.at, log.time) });
  return { events: log.events, state: log.state };
}

const REMARKS = [
  "Sing the short note.",
  "Shoulders down, and it swings.",
  "Count the rest out loud.",
  "Slower next week, then with the click.",
  "Left foot keeps time by itself now.",
];

/** A log that is written by itself. */
class InventedLog {
  readonly events: SessionEvent[] = [];
  state: LessonState = NEW_LESSON;
  time: Seconds = 0;
  readonly #lessonId: string;

  constructor(lessonId: string) {
    this.#lessonId = lessonId;
  }

  id(kind: string): string {
    return `${this.#lessonId}/${kind}-${this.events.length}`;
  }

  add(
    event: SessionEvent extends infer Event
      ? Event extends SessionEvent
        ? Omit<Event, "seq" | "time" | "lane">
        : never
      : never,
  ): void {
    const placed = { ...event, seq: this.state.seq + 1, time: this.time, lane: 0 } as SessionEvent;
    this.events.push(placed);
    this.state = lessonAfter(this.state, placed);
  }

  strike(hit: Hit): void {
    this.time = hit.time;
    this.add({ kind: "hit", hit });
  }
}

function playRound(log: InventedLog, who: InventedStudent, lesson: InventedLesson): void {
  const roundId = log.id("round");
  const studentId = who.student.id;
  log.add({ kind: "round-began", roundId, round: "call-a-style", studentIds: [studentId] });
  for (let number = 0; number < TAKES_A_LESSON; number += 1) {
    const style = styleById(styleFor(who, lesson));
    const groove = style?.variants[0];
    if (!style || !groove) continue;
    playTake(log, who, lesson, { roundId, groove, styleId: style.id, styleName: style.name });
    log.time += 45;
  }
  const tally: ItemResult[] = [];
  for (const { judgement } of log.state.rounds.at(-1)?.takes ?? []) {
    const result = judgement && resultOfTake(judgement.summary, (item) => lesson.met.has(item as ItemId));
    if (!result) continue;
    tally.push(result);
    lesson.met.add(result.item);
  }
  log.add({ kind: "round-ended", roundId, tally });
}

/** The style taken up last half of the time, else an earlier one. */
function styleFor({ styles }: InventedStudent, { number, chance }: InventedLesson): string {
  const taken = Math.min(styles.length, 1 + Math.floor(number / LESSONS_TO_A_STYLE));
  const index = chance() < 0.5 ? taken - 1 : Math.floor(chance() * taken);
  return styles[index] ?? styles[0] ?? "rock-eighths";
}

function playTake(
  log: InventedLog,
  who: InventedStudent,
  { number, of, chance }: InventedLesson,
  called: {
    readonly roundId: string;
    readonly groove: Groove;
    readonly styleId: string;
    readonly styleName: string;
  },
): void {
  const { roundId, groove, styleId, styleName } = called;
  const along = of > 1 ? number / (of - 1) : 1;
  const { first, last } = who.spreadMs;
  // It gets better unevenly: a good week, a bad one.
  const spreadMs = (first + (last - first) * along) * (0.85 + 0.3 * chance());
  const tempoBpm = Math.round(usualTempo(groove) * who.tempo * (0.95 + 0.1 * chance()));
  const studentId = who.student.id;
  const takeId = log.id("take");
  const clicked = chance() < 0.5;
  const from = log.time + 4;
  const click = clicked ? { tempoBpm, from } : null;
  log.add({
    kind: "take-began",
    roundId,
    takeId,
    studentId,
    called: { id: styleId, name: styleName },
    click,
    from: log.time,
  });
  const strokes = demonstrate(groove, {
    tempoBpm,
    bars: BARS,
    leanMs: who.leanMs * (0.7 + 0.6 * chance()),
    spreadMs,
    leftOut: who.leftOut * (1 - 0.75 * along),
    added: 0.01,
    clockMs: 4,
    chance,
  });
  const hits = strokes.map(
    ({ time, voice, velocity }): Hit => ({
      time: Math.round((from + time) * 1e6) / 1e6,
      voice,
      zone: "whole",
      velocity: Math.max(1, Math.round(velocity * 127)) / 127,
      // A pad each: on one, a soft stroke beside a loud one would be the same stroke reported twice.
      pad: VOICES.indexOf(voice),
    }),
  );
  for (const hit of hits) log.strike(hit);
  log.time += 1;
  log.add({ kind: "take-ended", takeId });
  const take = log.state.rounds.at(-1)?.takes.at(-1);
  if (!take) return;
  const judgement = judgeTake({ hits, styleId, click, level: who.student.level }, stockOf(who));
  log.add({ kind: "judgement", ...summarised(judgement, take, "call-a-style", log.state) });
}

const stocks = new WeakMap<InventedStudent, Stock>();

/** Listening among the styles the student has been taught: quicker than among all, and as honest. */
function stockOf(who: InventedStudent): Stock {
  const stock = stocks.get(who) ?? catalogueStock(STYLES.filter(({ id }) => who.styles.includes(id)));
  stocks.set(who, stock);
  return stock;
}

/** A round or two besides, of those this student is asked in, the liked ones oftener. */
function askRounds(log: InventedLog, who: InventedStudent, lesson: InventedLesson): void {
  const { chance } = lesson;
  const first = drawnRound(who.rounds, chance);
  askRound(log, first, who, lesson);
  if (chance() < SECOND_ROUND) {
    const { [first]: _, ...others } = who.rounds;
    askRound(log, drawnRound(others, chance), who, lesson);
  }
}

function drawnRound(weights: Partial<Readonly<Record<AskedRound, number>>>, chance: Chance): AskedRound {
  const all = Object.entries(weights) as [AskedRound, number][];
  let left = chance() * all.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [kind, weight] of all) {
    left -= weight;
    if (left < 0) return kind;
  }
  return "back-turned";
}

function askRound(log: InventedLog, round: AskedRound, who: InventedStudent, lesson: InventedLesson): void {
  const { met, chance, number, of } = lesson;
  log.time += 60;
  const roundId = log.id("round");
  log.add({ kind: "round-began", roundId, round, studentIds: [who.student.id] });
  const along = of > 1 ? number / (of - 1) : 1;
  for (const { after, step } of inventSteps(round, { who, along, met, chance })) {
    log.time = Math.round((log.time + after) * 1000) / 1000;
    log.add({ kind: "round-step", roundId, step });
  }
  const asked = log.state.rounds.at(-1);
  if (!asked) return;
  const tally = tallyOfRound(asked, (_, item) => met.has(item), lesson.at);
  for (const { item } of tally) met.add(item);
  log.add({ kind: "round-ended", roundId, tally });
}
