/**
 * What the bar ring shows while a take is played: the latest bars, at their places in the bar that is heard.
 * No stroke is judged here.
 */
import { grooveById } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove } from "../../../engine/score/index.ts";
import type { PlayedMark } from "../../charts/BarRing.tsx";
import { type BarClock, clockOfClick, clockOfPulse, placeAt } from "./barClock.ts";
import type { Asked, RoundStage } from "./round.ts";
import { beatsOfCalled } from "./styleRound.ts";

export interface LiveRing {
  readonly groove: Groove | undefined;
  readonly beats: number | undefined;
  readonly clock: BarClock | undefined;
}

type Playing = Extract<RoundStage, { stage: "playing" }>;

/** Bars shown at once: more would hide what is played now under what was. Our choice. */
const TURNS_SHOWN = 4;
const MOST_MARKS = 240;

/** The ring of a take under way: whose written strokes it shows, and by which clock. */
export function liveRing(asked: Asked, { click, hearing }: Pick<Playing, "click" | "hearing">): LiveRing {
  if (click) {
    const groove = asked.styleId === null ? undefined : grooveById(asked.styleId);
    const clock = clockOfClick(click, beatsOfCalled(asked.styleId), groove?.bars === 2 ? 2 : 1);
    return { groove, beats: clock.beatsPerTurn, clock };
  }
  if (hearing?.kind !== "heard") return { groove: undefined, beats: undefined, clock: undefined };
  const best = hearing.known ? hearing.candidates[0] : undefined;
  const groove = best ? grooveById(best.id) : undefined;
  return {
    // Of a groove of two bars the ear does not know which bar is the first: its written strokes come with the report.
    groove:
      groove && groove.bars !== 2 && beatsPerBar(groove.metre) === beatsPerBar(hearing.pulse.metre)
        ? groove
        : undefined,
    beats: beatsPerBar(hearing.pulse.metre),
    clock: clockOfPulse(hearing.pulse),
  };
}

/** The latest strokes as marks on the ring. */
export function liveMarks(hits: readonly Hit[], clock: BarClock): readonly PlayedMark[] {
  const from = (hits.at(-1)?.time ?? 0) - TURNS_SHOWN * clock.turnSeconds;
  return hits
    .slice(-MOST_MARKS)
    .filter(({ time }) => time >= from)
    .map(({ voice, time }) => ({ voice, place: placeAt(clock, time), differs: false }));
}
