import { beatsPerBar, type Groove, type Note, STRAIGHT } from "../../score/index.ts";
import { add, fraction, multiply } from "../../units/index.ts";
import type { Rudiment } from "./rudiment.ts";

/**
 * The rudiment as written music on the snare: its cycle as often as it takes to end with a bar, so that it can be
 * engraved, sounded and repeated as any groove.
 *
 * @example
 * rudimentGroove(rudimentById("flam-tap")).notes[0]?.hand // => "R"
 */
export function rudimentGroove(rudiment: Rudiment): Groove {
  const { id, name, metre, tempoBpm, beats, strokes } = rudiment;
  const bar = beatsPerBar(metre);
  // The cycle of n/d beats ends with a bar after the fewest times that make times·n/(d·bar) whole.
  let times = 1;
  while ((times * beats.num) % (beats.den * bar) !== 0) times += 1;
  const notes = Array.from({ length: times }, (_, time) =>
    strokes.map(
      ({ position, hand, graces, accent, bounced }): Note => ({
        position: add(multiply(beats, fraction(time)), position),
        voice: "snare",
        dynamic: accent ? "accent" : "plain",
        hand,
        ...(graces > 0 ? { ornament: graces === 1 ? "flam" : "drag" } : {}),
        ...(bounced ? { bounced: true as const } : {}),
      }),
    ),
  ).flat();
  return {
    id,
    name,
    metre,
    feel: STRAIGHT,
    tempoBpm,
    bars: (times * beats.num) / (beats.den * bar),
    voices: ["snare"],
    notes,
  };
}
