/**
 * Question: how has this player played the styles, in this sitting and before?
 */
import type { Hit } from "../../kit/index.ts";
import type { Hearing } from "../../listening/index.ts";
import type { Level } from "../../score/index.ts";
import type { JudgedTake } from "./round.ts";

/** Earlier takes of one style of the catalogue, the latest last. */
export interface OwnTakes {
  readonly styleId: string;
  readonly takes: readonly (readonly Hit[])[];
}

/** Who plays a round. */
export interface Player {
  /** `null`: nobody in particular. */
  readonly studentId: string | null;
  /** Sets the band. */
  readonly level: Level;
  /** Takes of earlier lessons. */
  readonly own: readonly OwnTakes[];
}

/** Takes of earlier lessons and of this sitting by their styles, the latest last. */
export function takesTogether(
  earlier: readonly OwnTakes[],
  sitting: readonly OwnTakes[],
): readonly OwnTakes[] {
  const styleIds = new Set([...earlier, ...sitting].map(({ styleId }) => styleId));
  return [...styleIds].map((styleId) => ({
    styleId,
    takes: [...earlier, ...sitting].flatMap((own) => (own.styleId === styleId ? own.takes : [])),
  }));
}

/** From this chance on a take is of the style that was heard, whatever was called. Our choice: one in ten may be wrong. */
const SURE = 0.9;

/**
 * The takes of a sitting by their styles. A take is of the style that was called when it was heard as that, else of the one
 * that was surely heard; the others are of none, so that what was called and not played is not learnt.
 */
export function ownTakesOf(takes: readonly JudgedTake[]): readonly OwnTakes[] {
  const ofStyle = new Map<string, (readonly Hit[])[]>();
  for (const take of takes) {
    const styleId = styleOf(take.judgement.hearing, take.styleId);
    if (styleId !== undefined) ofStyle.set(styleId, [...(ofStyle.get(styleId) ?? []), take.hits]);
  }
  return [...ofStyle].map(([styleId, own]) => ({ styleId, takes: own }));
}

function styleOf(hearing: Hearing, calledId: string | null): string | undefined {
  if (hearing.kind !== "heard" || !hearing.known) return undefined;
  const [best] = hearing.candidates;
  return best && (best.id === calledId || best.confidence >= SURE) ? best.id : undefined;
}
