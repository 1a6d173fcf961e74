/** A rudiment as it sounds, with its grace strokes. */
import { type Rudiment, rudimentGroove } from "../../../engine/catalogue/index.ts";
import { DYNAMIC_VELOCITY, type Note, performed, usualTempo } from "../../../engine/score/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { PlannedStroke } from "../../audio/strokePlayer.ts";

/** How often it is sounded. */
const SOUNDED_TIMES = 2;
/** Graces of the first stroke sound before time 0 of what is played. */
const ROOM_SECONDS: Seconds = 0.1;

/** How long before the main stroke its graces sound. */
const GRACES: Readonly<Record<NonNullable<Note["ornament"]>, readonly Seconds[]>> = {
  flam: [0.03],
  drag: [0.09, 0.045],
};

export function rudimentStrokes(rudiment: Rudiment): readonly PlannedStroke[] {
  const groove = rudimentGroove(rudiment);
  const how = { tempoBpm: usualTempo(groove), bars: groove.bars * SOUNDED_TIMES };
  return performed(groove, how).flatMap(({ time, note: { voice, dynamic, ornament } }) => {
    const at = time + ROOM_SECONDS;
    const graces = ornament ? GRACES[ornament] : [];
    return [
      ...graces.map((before) => ({ voice, velocity: DYNAMIC_VELOCITY.ghost, time: at - before })),
      { voice, velocity: DYNAMIC_VELOCITY[dynamic], time: at },
    ];
  });
}
