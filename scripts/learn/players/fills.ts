/**
 * Fills: what players put in place of the end of a bar now and then.
 */
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import type { Chance } from "../../../engine/units/index.ts";

/** A fill of a bar of four, in beats from its downbeat. */
export type Fill = readonly { readonly beat: number; readonly voice: Voice; readonly velocity: number }[];

/** Human fills of a bar of four, as beats from its downbeat. */
export function humanFills(
  takes: readonly { readonly hits: readonly Hit[]; readonly bpm: number; readonly beatsInBar: number }[],
): readonly Fill[] {
  return takes.flatMap((take) => {
    const beats = take.hits.map((hit) => ({ ...hit, beat: (hit.time * take.bpm) / 60 }));
    const last = beats.at(-1)?.beat ?? 0;
    const ofOneBar = take.beatsInBar === 4 && last > 2.9 && last < 4.3 && beats.length >= 6;
    if (!ofOneBar) return [];
    return [
      beats
        .filter(({ beat }) => beat < 3.95)
        .map(({ beat, voice, velocity }) => ({ beat: Math.max(0, beat), voice, velocity })),
    ];
  });
}

/** Sixteenths down the toms, now and then one left out. */
export function tomsDown(chance: Chance): Fill {
  const voices: readonly Voice[] = ["snare", "high-tom", "mid-tom", "floor-tom"];
  return Array.from({ length: 16 }, (_, index) => index).flatMap((index) =>
    chance() < 0.2
      ? []
      : [
          {
            beat: index / 4,
            voice: voices[Math.floor(index / 4)] ?? "snare",
            velocity: index % 4 === 0 ? 0.8 : 0.6,
          },
        ],
  );
}
