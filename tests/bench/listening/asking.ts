/**
 * One hearing with what was true of it.
 */
import type { Hearing } from "../../../engine/listening/index.ts";
import type { Told } from "../../measures/calibrationError.ts";

export interface Asked {
  /** Id of the groove that was played, where it is one of the stock's. */
  readonly truth: string | undefined;
  readonly answer: string | undefined;
  /** Chance given to the answer. */
  readonly confidence: number;
  /** Chance given to none of the known. */
  readonly none: number;
  /** Whether a groove was named at all. */
  readonly named: boolean;
}

export function askedOf(hearing: Hearing, truth: string | undefined): Asked {
  if (hearing.kind !== "heard") {
    return { truth, answer: undefined, confidence: 0, none: 1, named: false };
  }
  const best = hearing.candidates[0];
  return {
    truth,
    answer: best?.id,
    confidence: best?.confidence ?? 0,
    none: hearing.noneConfidence,
    named: hearing.known,
  };
}

/** Whether the best candidate is the right one, whatever chance it has. */
export function isRight({ truth, answer }: Asked): boolean {
  return truth !== undefined && truth === answer;
}

/** The likelihood of being known, for ranking known before unknown. */
export function knownScore({ none }: Asked): number {
  return 1 - none;
}

/** What the player is told, and whether it came true. */
export function toldOf(asked: Asked): Told {
  return asked.named
    ? { chance: asked.confidence, right: isRight(asked) }
    : { chance: asked.none, right: asked.truth === undefined };
}

/** The part of the cases of which listening is surest. */
export function surest(asked: readonly Asked[], share: number): readonly Asked[] {
  return [...asked].sort((a, b) => b.confidence - a.confidence).slice(0, Math.round(asked.length * share));
}
