/**
 * What becomes of a lesson that was broken off: whatever its strikes can still tell is told, and it ends where it was last
 * heard.
 */
import type { ListenedFor } from "../../engine/catalogue/index.ts";
import { endingEvents } from "../../engine/records/index.ts";
import type { Judgement, TakeToJudge } from "../../engine/rounds/index.ts";
import type { Level } from "../../engine/score/index.ts";
import {
  type EventOf,
  hitsOfTake,
  instantAfter,
  type LessonState,
  lessonState,
  type RoundState,
  type SessionEvent,
  summarised,
  type TakeState,
} from "../../engine/session/index.ts";
import {
  joinChunks,
  lessonOf,
  metBefore,
  readLesson,
  type StudioDatabase,
  studentsOf,
  told,
  writeEvents,
} from "../store/index.ts";
import { shelfOfThen } from "./shelfOfThen.ts";

/** Thinks a take over; `shelf`: the groove of the Shelf that was called, as it was then. Fails with an Error that says why. */
export type JudgeTake = (take: TakeToJudge, shelf: ListenedFor) => Promise<Judgement>;

/** What a take that was not judged says after all. */
export type LateJudgement = Omit<EventOf<"judgement">, "seq" | "time">;

/** The take of an open round that is being played or thought over, with strikes in it. */
export function takeLeft({ to, takes }: Pick<RoundState, "to" | "takes">): TakeState | undefined {
  // Only the latest take of a round can be; an earlier one without a judgement was dropped.
  const take = takes.at(-1);
  return to === null && take?.judgement === null && take.hitCount > 0 ? take : undefined;
}

/**
 * Judges, from their strikes, the takes of open rounds that are being played or thought over when the lesson is broken off,
 * or ended.
 *
 * @param events of the lesson, and its state after them.
 */
export async function judgeTakesLeft(
  database: StudioDatabase,
  events: readonly SessionEvent[],
  state: LessonState,
  judge: JudgeTake,
): Promise<readonly LateJudgement[]> {
  const left = state.rounds.flatMap((round) => {
    const take = takeLeft(round);
    return take ? [{ round, take }] : [];
  });
  if (left.length === 0) return [];
  const students = await studentsOf(database);
  const late: LateJudgement[] = [];
  for (const { round, take } of left) {
    const level = students.find(({ id }) => id === take.studentId)?.level ?? "steady";
    late.push(await judgedLate(events, state, round, take, level, judge));
  }
  return late;
}

async function judgedLate(
  events: readonly SessionEvent[],
  state: LessonState,
  round: RoundState,
  take: TakeState,
  level: Level,
  judge: JudgeTake,
): Promise<LateJudgement> {
  const hits = [...hitsOfTake(events, take)].sort((a, b) => a.time - b.time);
  const shelf = shelfOfThen(take);
  const { click, called } = take;
  const judgement = await judge({ hits, styleId: called?.id ?? null, click, level }, shelf);
  const whole = { ...take, to: take.to ?? state.time };
  return { kind: "judgement", lane: take.lane, ...summarised(judgement, whole, round.round, state) };
}

/**
 * Ends a lesson that was broken off where it was last heard: its takes are judged, its rounds tallied.
 *
 * @throws StoreError, and then the lesson is as it was. What the judge throws, after the lesson was ended without those
 * takes' judgements.
 */
export async function endAsItWas(
  database: StudioDatabase,
  lessonId: string,
  judge: JudgeTake,
): Promise<void> {
  const { events } = await readLesson(database, lessonId);
  const state = lessonState(events);
  if (!state.began) return endRecord(database, lessonId);
  let trouble: unknown = null;
  const late: readonly LateJudgement[] = await judgeTakesLeft(database, events, state, judge).catch(
    (error: unknown) => {
      trouble = error;
      return [];
    },
  );
  const judged = late.map(
    (each, index): SessionEvent => ({ ...each, seq: state.seq + 1 + index, time: state.time }),
  );
  const wasMet = await metBefore(database, lessonId, state.began.studentIds);
  const after = lessonState(judged, state);
  const ending = endingEvents(after, wasMet);
  await writeEvents(database, lessonState(ending, after), [...judged, ...ending]);
  await joinChunks(database, lessonId);
  if (trouble !== null) throw trouble;
}

/** A lesson whose beginning cannot be read any more: it is not begun anew, and not found open again. */
async function endRecord(database: StudioDatabase, lessonId: string): Promise<void> {
  const record = await lessonOf(database, lessonId);
  if (!record) return;
  await told(() => database.lessons.put({ ...record, endedAt: instantAfter(record.at, record.seconds) }));
}
