import fc from "fast-check";
import { KITS_USED, TIMES, type TradingEvent } from "../../../../engine/rounds/index.ts";
import { AIMS, FORMS, TURN_PARTS } from "../../../../engine/trading/index.ts";

const side = fc.constantFrom(0 as const, 1 as const);
const moment = fc.integer({ min: 0, max: 60_000 }).map((ms) => ms / 1000);
const anyTimeline = fc.record({
  turns: fc.array(fc.record({ part: fc.constantFrom(...TURN_PARTS), side, from: moment, until: moment }), {
    maxLength: 3,
  }),
  strokes: fc.array(
    fc.record({
      time: moment,
      side,
      voice: fc.constantFrom("snare" as const, "kick" as const),
      velocity: fc.constantFrom(0.25, 0.7),
    }),
    { maxLength: 3 },
  ),
});

/** Any of the round's own events, answered by these players. */
export function anyTradingEvent(players: readonly (string | null)[]): fc.Arbitrary<TradingEvent> {
  const says = fc.array(fc.string({ maxLength: 20 }), { maxLength: 3 });
  return fc.oneof(
    { weight: 2, arbitrary: fc.constant({ kind: "form-began" as const }) },
    fc.constantFrom(...(["form-left", "turned-round"] as const)).map((kind) => ({ kind })),
    fc.record({ kind: fc.constant("form-over" as const), says }),
    fc.record({
      kind: fc.constant("set-out" as const),
      set: fc.record({
        form: fc.constantFrom(...FORMS),
        aim: fc.constantFrom(...AIMS),
        time: fc.constantFrom(...TIMES),
        kits: fc.constantFrom(...KITS_USED),
        metre: fc.constantFrom("4/4" as const, "6/8" as const, "heard" as const),
        groove: fc.boolean(),
        tempoBpm: fc.integer({ min: 40, max: 240 }),
      }),
    }),
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constant("exchanged" as const),
        aim: fc.constantFrom(...AIMS),
        calls: fc.constantFrom(0 as const, 1 as const),
        by: fc.constantFrom(...players),
        met: fc.constantFrom(null, true, false),
        rhythm: fc.boolean(),
        sound: fc.boolean(),
        handOverMs: fc.constantFrom(null, -12.5, 0, 30),
        says,
        timeline: anyTimeline,
      }),
    },
  );
}
