/** Takes of a sitting for the tests: a groove played by the demonstration, judged as a round judges it. */
import { demonstrate, grooveById } from "../../../../../engine/catalogue/index.ts";
import type { Hit } from "../../../../../engine/kit/index.ts";
import {
  judgeTake,
  NEW_ROUND,
  type RoundEvent,
  roundAfter,
  type Sitting,
} from "../../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../../engine/units/index.ts";

export interface PlayedTake {
  readonly styleId: string | null;
  readonly grooveId: string;
  readonly tempoBpm?: number;
  readonly spreadMs?: number;
  readonly leanMs?: number;
  readonly leftOut?: number;
  readonly clicked?: boolean;
  readonly seed?: number;
}

const BARS = 8;

function hitsOf(take: PlayedTake): readonly Hit[] {
  const groove = grooveById(take.grooveId);
  if (!groove) throw new Error(`The catalogue has no groove "${take.grooveId}".`);
  const how = {
    tempoBpm: take.tempoBpm ?? 104,
    bars: BARS,
    leanMs: take.leanMs ?? 0,
    spreadMs: take.spreadMs ?? 12,
    leftOut: take.leftOut ?? 0,
    added: 0,
    chance: seededChance(take.seed ?? 5),
  };
  return demonstrate(groove, how)
    .map(({ time, voice, velocity }): Hit => ({ time: time + 1, voice, velocity, zone: "whole", pad: 38 }))
    .sort((a, b) => a.time - b.time);
}

/** A sitting in which these takes were played, one after the other. */
export function sittingOf(...takes: readonly PlayedTake[]): Sitting {
  return takes.reduce((sitting, take) => {
    const click = take.clicked ? { tempoBpm: take.tempoBpm ?? 104, from: 1 } : null;
    const hits = hitsOf(take);
    const events: readonly RoundEvent[] = [
      { kind: "another-style" },
      { kind: "called", styleId: take.styleId },
      { kind: "started", click },
      { kind: "stopped", hits },
      { kind: "judged", judgement: judgeTake({ hits, styleId: take.styleId, click }) },
    ];
    return events.reduce(roundAfter, sitting);
  }, NEW_ROUND);
}
