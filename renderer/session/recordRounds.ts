/**
 * Writes a round of Call a Style into the lesson's log: the strikes as they come, where its takes begin and end, what was
 * said of them. Nothing of it is asked of the player, and nothing happens while no lesson is on.
 */
import type { Hit } from "../../engine/kit/index.ts";
import { tallyOfRound, type WasMet } from "../../engine/records/index.ts";
import type { Sitting, TakeClick } from "../../engine/rounds/index.ts";
import { isPlayedClick, printGrid } from "../../engine/score/index.ts";
import {
  calledGroove,
  type EventOf,
  type RoundKind,
  type RoundState,
  summarised,
} from "../../engine/session/index.ts";
import { beatSeconds } from "../../engine/units/index.ts";
import type { KitLog } from "./kitLog.ts";
import type { LessonLog } from "./lessonLog.ts";
import type { Watched } from "./store.ts";

/** All of a kit's strikes go into the log of the lesson that is on. Returns the way to stop. */
export function recordStrikes(kit: KitLog, lesson: LessonLog, lane = 0): () => void {
  let seen = kit.get();
  return kit.subscribe(() => {
    const from = seen;
    seen = kit.get();
    const fresh = kit.entries.slice(from);
    const strikes = (isLive: boolean): readonly Hit[] =>
      fresh.flatMap(({ event, live }) => (event.kind === "hit" && live === isLive ? [event.hit] : []));
    lesson.addHits(strikes(true), lane);
    lesson.addHitsReadAtOnce(strikes(false), lane);
  });
}

/**
 * The takes of a round of Call a Style go into the log of the lesson that is on. Returns the way to stop.
 *
 * @param begin begins a round at a kit, and says its id: see {@link beginRound}.
 */
export function recordRound(
  round: Watched<Sitting>,
  lesson: LessonLog,
  newId: () => string,
  begin: BeginRound,
  lane = 0,
): () => void {
  let stage = round.get().at.stage;
  return round.subscribe(() => {
    const sitting = round.get();
    if (sitting.at.stage === stage) return;
    stage = sitting.at.stage;
    if (lesson.isOn) recordStage(sitting, lesson, newId, begin, lane);
  });
}

/** Begins a round of this kind at a kit, with these students, and gives its id. */
export type BeginRound = (kind: RoundKind, studentIds: readonly string[], lane: number) => string;

function recordStage(
  { at, asked }: Sitting,
  lesson: LessonLog,
  newId: () => string,
  begin: BeginRound,
  lane: number,
): void {
  if (at.stage === "playing") {
    const studentId = lesson.get().began?.lanes[lane]?.studentId ?? null;
    lesson.add({
      kind: "take-began",
      lane,
      roundId:
        openRound(lesson, lane, "call-a-style")?.roundId ??
        begin("call-a-style", studentId === null ? [] : [studentId], lane),
      takeId: newId(),
      studentId,
      called: calledGroove(asked.styleId, asked.shelfGroove),
      ...(asked.shelfGroove ? { calledGrid: printGrid(asked.shelfGroove) } : {}),
      ...loggedClick(at.click, lesson),
    });
    return;
  }
  const take = openRound(lesson, lane, "call-a-style")?.takes.at(-1);
  if (!take) return;
  if (at.stage === "judging") lesson.add({ kind: "take-ended", lane, takeId: take.takeId });
  if (at.stage === "after" && take.judgement === null)
    lesson.add({ kind: "judgement", lane, ...summarised(at.judgement, take, "call-a-style", lesson.get()) });
}

/** Ends a round, with its tally; nothing where it has ended. */
export function endRound(lesson: LessonLog, wasMet: WasMet, wantedId: string): void {
  const { began, rounds } = lesson.get();
  const round = rounds.find(({ roundId }) => roundId === wantedId);
  if (!began || !round || round.to !== null) return;
  const { roundId, lane } = round;
  lesson.add({ kind: "round-ended", lane, roundId, tally: tallyOfRound(round, wasMet, began.at) });
}

/** The round that goes on at a kit, of this kind where one is given. */
export function openRound(lesson: LessonLog, lane: number, kind?: RoundKind): RoundState | undefined {
  return lesson
    .get()
    .rounds.findLast(
      (round) => round.lane === lane && round.to === null && (kind === undefined || round.round === kind),
    );
}

/** A first stroke half a beat ahead of the first beat that counts still belongs to the take, as in the round itself. */
function loggedClick(
  click: TakeClick | null,
  lesson: LessonLog,
): Pick<EventOf<"take-began">, "click" | "from"> {
  if (!click) return { click: null, from: lesson.now };
  const { tempoBpm } = click;
  const from = lesson.timeOf(click.from);
  const way = isPlayedClick(click) ? { way: click.way, countInBars: click.countInBars } : {};
  return { click: { tempoBpm, from, ...way }, from: from - beatSeconds(tempoBpm) / 2 };
}
