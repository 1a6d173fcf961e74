/**
 * A take of the log, listened to and judged once more: the same strikes, the same click, the same question. What it is
 * compared with is what it was compared with then, whatever has become of the catalogue and the Shelf since.
 */
import type { JudgedHit } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { besideGroove, type Judgement, type TakeClick } from "../../../engine/rounds/index.ts";
import { type Groove, type Level, parseGrid, printGrid } from "../../../engine/score/index.ts";
import { hitsOfTake, type TakeState } from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { Judge } from "../../judging/judge.ts";
import { shelfOfThen } from "../../session/shelfOfThen.ts";
import type { Moments } from "./moments.ts";

export interface TakeAgain {
  readonly take: TakeState;
  readonly hits: readonly Hit[];
  readonly judgement: Judgement;
  /** What became of each strike, by the moment and voice it has in the log. */
  readonly judgedOf: (hit: Hit) => JudgedHit | undefined;
  /** Written strokes that nobody played, on the lesson's clock. */
  readonly leftOut: readonly { readonly time: Seconds; readonly voice: Hit["voice"] }[];
}

/** Judges takes as they are looked at, of this lesson and of others, each once. */
export class TakesAgain {
  readonly #judge: Pick<Judge, "begin" | "judge">;
  readonly #levelOf: (studentId: string | null) => Level;
  readonly #made = new Map<string, Promise<TakeAgain>>();
  /** The judge has one take in hand at a time. */
  #last: Promise<unknown> = Promise.resolve();

  constructor(judge: Pick<Judge, "begin" | "judge">, levelOf: (studentId: string | null) => Level) {
    this.#judge = judge;
    this.#levelOf = levelOf;
  }

  /**
   * Fails with a JudgeError where it cannot be thought over; asked again, it is tried again.
   *
   * @param take one that has ended.
   * @param moments of its lesson.
   */
  of(take: TakeState, moments: Pick<Moments, "events">): Promise<TakeAgain> {
    // What it was compared with is known only once it was judged in the lesson.
    const key = `${take.takeId} ${take.judgement ? "judged" : ""}`;
    const made = this.#made.get(key);
    if (made) return made;
    const judged = this.#last.then(() => this.#judged(take, moments));
    this.#last = judged.catch(() => this.#made.delete(key));
    this.#made.set(key, judged);
    return judged;
  }

  async #judged(take: TakeState, { events }: Pick<Moments, "events">): Promise<TakeAgain> {
    const hits = [...hitsOfTake(events, take)].sort((a, b) => a.time - b.time);
    const click = clickOf(take);
    const styleId = take.called?.id ?? null;
    this.#judge.begin(styleId, [], shelfOfThen(take));
    const heard = await this.#judge.judge({ hits, styleId, click });
    const level = take.judgement?.summary.level ?? this.#levelOf(take.studentId);
    const judgement = asComparedThen(heard, take, hits, level);
    return { take, hits, judgement, judgedOf: judgedOf(judgement), leftOut: leftOutOf(judgement) };
  }
}

function clickOf({ click }: TakeState): TakeClick | null {
  if (!click) return null;
  const { way, countInBars, tempoBpm, from } = click;
  return way && countInBars !== undefined ? { way, countInBars, tempoBpm, from } : { tempoBpm, from };
}

/** The groove of then is graded against, at the tempo of then; where that is what it was compared with anyhow, nothing changes. */
function asComparedThen(
  judgement: Judgement,
  take: TakeState,
  hits: readonly Hit[],
  level: Level,
): Judgement {
  const grid = take.judgement?.comparedGrid;
  const tempoBpm = judgement.click?.tempoBpm ?? take.judgement?.summary.tempoBpm;
  if (!grid || tempoBpm === undefined || tempoBpm === null) return judgement;
  const { compared } = judgement;
  const isSame = compared !== null && printGrid(compared.groove) === grid;
  if (isSame && compared.report.band.level === level) return judgement;
  const groove: Groove = isSame ? compared.groove : parseGrid(grid);
  const report = besideGroove(hits, groove, { tempoBpm, click: judgement.click, level });
  return { ...judgement, compared: { groove, report, gapDrifts: isSame ? compared.gapDrifts : [] } };
}

/** A report's strikes stand on the click's clock where there is one, else on that of the log. */
function reportShift({ click }: Judgement): Seconds {
  return click?.from ?? 0;
}

function judgedOf(judgement: Judgement): (hit: Hit) => JudgedHit | undefined {
  const shift = reportShift(judgement);
  const judged = new Map(
    judgement.compared?.report.hits.map((each) => [keyOf(each.hit, shift), each] as const) ?? [],
  );
  return (hit) => judged.get(keyOf(hit, 0));
}

/** The log keeps moments to a millionth of a second: so far they can be told apart, and found again after a shift. */
function keyOf({ time, voice }: Hit, shift: Seconds): string {
  return `${Math.round((time + shift) * 1e6)} ${voice}`;
}

function leftOutOf(judgement: Judgement): TakeAgain["leftOut"] {
  const report = judgement.compared?.report;
  if (!report) return [];
  const { time: from, stretch } = report.start;
  const shift = reportShift(judgement);
  return report.missed.flatMap(({ time, voice, skipped }) =>
    skipped ? [] : [{ time: shift + from + time * stretch, voice }],
  );
}
