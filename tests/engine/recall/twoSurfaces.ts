/** Rudiments as somebody might play them on two surfaces, with the slips that were made. Written apart from the check. */
import type { Rudiment } from "../../../engine/catalogue/index.ts";
import type { PlayedStroke } from "../../../engine/recall/index.ts";
import { type Chance, normal, toNumber } from "../../../engine/units/index.ts";

export interface TwoSurfaces {
  /** Felt beats a minute, by the share of the performance that is over. */
  readonly tempoAt: (share: number) => number;
  readonly cycles: number;
  readonly spreadMs: number;
  /** Chance of each kind of slip, for each stroke. */
  readonly otherHand: number;
  readonly leftOut?: number;
  readonly added?: number;
  readonly flamGapMs?: number;
  readonly dragGapMs?: number;
  readonly mirrored?: boolean;
  readonly chance: Chance;
}

export interface PlayedTruly {
  readonly strokes: readonly (PlayedStroke & { readonly slip: "none" | "other hand" | "added" })[];
  /** Where strokes were left out. */
  readonly leftOut: readonly number[];
}

export function perform(rudiment: Rudiment, how: TwoSurfaces): PlayedTruly {
  const { chance, cycles } = how;
  const strokes: PlayedTruly["strokes"][number][] = [];
  const leftOut: number[] = [];
  const beats = toNumber(rudiment.beats);
  const other = { R: "L", L: "R" } as const;
  const strike = (time: number, hand: "R" | "L", velocity: number) => {
    const at = time + (normal(chance) * how.spreadMs) / 1000;
    if (chance() < (how.leftOut ?? 0)) {
      leftOut.push(at);
      return;
    }
    const slipped = chance() < how.otherHand;
    const meant = how.mirrored ? other[hand] : hand;
    strokes.push({
      time: at,
      hand: slipped ? other[meant] : meant,
      velocity: Math.min(1, Math.max(0.05, velocity + 0.04 * normal(chance))),
      slip: slipped ? "other hand" : "none",
    });
    if (chance() < (how.added ?? 0)) {
      const seconds = 60 / how.tempoAt(0.5) / 16;
      strokes.push({ time: at + seconds, hand: chance() < 0.5 ? "R" : "L", velocity: 0.5, slip: "added" });
    }
  };
  let start = 1;
  for (let cycle = 0; cycle < cycles; cycle += 1) {
    for (const { position, length, hand, graces, accent } of rudiment.strokes) {
      const share = (cycle * beats + toNumber(position)) / (cycles * beats);
      const gapMs = graces === 2 ? (how.dragGapMs ?? 45) : (how.flamGapMs ?? 30);
      for (let grace = graces; grace > 0; grace -= 1)
        strike(start - (grace * gapMs) / 1000, other[hand], 0.25);
      strike(start, hand, accent ? 0.85 : 0.55);
      start += (toNumber(length) * 60) / how.tempoAt(share);
    }
  }
  return { strokes: strokes.sort((a, b) => a.time - b.time), leftOut };
}
