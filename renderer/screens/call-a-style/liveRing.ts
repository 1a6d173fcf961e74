/**
 * What the bar ring shows while a take is played: the latest bars, at their places in the bar that is heard.
 * No stroke is judged here.
 */
import { grooveById, styleById } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import type { Asked, RoundStage } from "../../../engine/rounds/index.ts";
import { beatsPerBar, type Groove } from "../../../engine/score/index.ts";
import { beatSeconds } from "../../../engine/units/index.ts";
import type { PlayedMark } from "../../charts/BarRing.tsx";
import { type BarClock, clockOfClick, clockOfPulse, placeAt } from "./barClock.ts";
import { beatsOfCalled } from "./styleRound.ts";
import type { CountIn } from "./useCountIn.ts";

type Heard = Pick<Extract<RoundStage, { stage: "playing" }>, "click" | "hearing">;

/** Bars shown at once: more would hide what is played now under what was. Our choice. */
const TURNS_SHOWN = 4;
const MOST_MARKS = 240;

/** What is written for the called style; `undefined` for a free choice. */
export function writtenGroove({
  styleId,
  shelfGroove,
}: Pick<Asked, "styleId" | "shelfGroove">): Groove | undefined {
  return shelfGroove ?? (styleId === null ? undefined : grooveById(styleId));
}

/** By which clock the strokes of a take under way are placed; `undefined` while no bar is known. */
export function liveClock(asked: Asked, { click, hearing }: Heard): BarClock | undefined {
  if (click) {
    const isTwoBars = writtenGroove(asked)?.bars === 2;
    return clockOfClick(click, beatsOfCalled(asked.styleId, click, asked.shelfGroove), isTwoBars ? 2 : 1);
  }
  return hearing?.kind === "heard" ? clockOfPulse(hearing.pulse) : undefined;
}

/** The bar that is counted before a take; `undefined` where none is. */
export function countInOf(asked: Asked, { click }: Pick<Heard, "click">): CountIn | undefined {
  if (!click || !asked.countIn) return undefined;
  return {
    until: click.from,
    beatSeconds: beatSeconds(click.tempoBpm),
    beats: beatsOfCalled(asked.styleId, click, asked.shelfGroove),
  };
}

/** Whose written strokes the ring shows: of what was called, else of what is heard. */
export function liveGroove(
  asked: Asked,
  { click, hearing }: Heard,
  hits: readonly Hit[],
): Groove | undefined {
  if (click || hearing?.kind !== "heard") return writtenGroove(asked);
  const best = hearing.known ? hearing.candidates[0]?.id : undefined;
  const style = styleById(asked.styleId ?? best ?? "");
  const groove = asked.shelfGroove ?? (style && likestVariant(style.variants, hits));
  // Of a groove of two bars the ear does not know which bar is the first: its written strokes come with the report.
  const fits =
    groove !== undefined &&
    groove.bars !== 2 &&
    beatsPerBar(groove.metre) === beatsPerBar(hearing.pulse.metre);
  return fits ? groove : undefined;
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
