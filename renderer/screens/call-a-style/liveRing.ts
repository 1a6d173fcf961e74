/**
 * What the bar ring shows while a take is played: the latest bars, at their places in the bar that is heard.
 * No stroke is judged here.
 */
import { grooveById, styleById } from "../../../engine/catalogue/index.ts";
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

/** The ring before anything is heard: what is written for the called style. */
export function writtenRing({ styleId }: Pick<Asked, "styleId">): LiveRing {
  const groove = styleId === null ? undefined : grooveById(styleId);
  return { groove, beats: undefined, clock: undefined };
}

/** The ring of a take under way: whose written strokes it shows, and by which clock. */
export function liveRing(
  asked: Asked,
  { click, hearing }: Pick<Playing, "click" | "hearing">,
  hits: readonly Hit[],
): LiveRing {
  if (click) {
    const groove = writtenRing(asked).groove;
    const clock = clockOfClick(click, beatsOfCalled(asked.styleId), groove?.bars === 2 ? 2 : 1);
    return { groove, beats: clock.beatsPerTurn, clock };
  }
  if (hearing?.kind !== "heard") return writtenRing(asked);
  const beats = beatsPerBar(hearing.pulse.metre);
  const best = hearing.known ? hearing.candidates[0]?.id : undefined;
  const style = styleById(asked.styleId ?? best ?? "");
  const groove = style && likestVariant(style.variants, hits);
  // Of a groove of two bars the ear does not know which bar is the first: its written strokes come with the report.
  const fits = groove !== undefined && groove.bars !== 2 && beatsPerBar(groove.metre) === beats;
  return { groove: fits ? groove : undefined, beats, clock: clockOfPulse(hearing.pulse) };
}

/** The variant whose voices are most nearly those that were struck. */
function likestVariant(variants: readonly Groove[], hits: readonly Hit[]): Groove | undefined {
  const struck = new Set(hits.slice(-MOST_MARKS).map(({ voice }) => voice));
  const unlike = ({ voices }: Groove): number =>
    voices.filter((voice) => !struck.has(voice)).length +
    [...struck].filter((voice) => !voices.includes(voice)).length;
  return variants.reduce<Groove | undefined>(
    (best, next) => (best === undefined || unlike(next) < unlike(best) ? next : best),
    undefined,
  );
}

/** The latest strokes as marks on the ring. */
export function liveMarks(hits: readonly Hit[], clock: BarClock): readonly PlayedMark[] {
  const from = (hits.at(-1)?.time ?? 0) - TURNS_SHOWN * clock.turnSeconds;
  return hits
    .slice(-MOST_MARKS)
    .filter(({ time }) => time >= from)
    .map(({ voice, time }) => ({ voice, place: placeAt(clock, time), differs: false }));
}
