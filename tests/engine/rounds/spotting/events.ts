/** Events of Spotting as they may come, lawful or not. */
import fc from "fast-check";
import type { SpottingAnswer, SpottingEvent, Thing } from "../../../../engine/rounds/index.ts";

export const SAMBA: Thing = { kind: "groove", id: "samba", name: "Samba" };
export const BOSSA: Thing = { kind: "groove", id: "bossa-nova", name: "Bossa nova" };
export const FILL: Thing = { kind: "fill", id: "two-quarters-snare", name: "Two quarters on the snare" };
const THINGS = [SAMBA, BOSSA, FILL] as const;

const thing = fc.constantFrom(...THINGS);
const answer: fc.Arbitrary<SpottingAnswer> = fc.oneof(
  fc.record({ way: fc.constant("named" as const), thing, said: fc.constant("bossa") }),
  fc.record({ way: fc.constant("other-name" as const), said: fc.constant("wobble") }),
  fc.record({ way: fc.constant("aloud" as const), isRight: fc.boolean() }),
  fc.record({ way: fc.constant("played" as const), thing }),
  fc.constant({ way: "knows-place" as const }),
  fc.constant({ way: "never-heard" as const }),
);

export function anySpottingEvent<Player extends string | null>(
  players: readonly Player[],
): fc.Arbitrary<SpottingEvent> {
  const player = fc.constantFrom(...players);
  const of = fc.array(player, { minLength: 1, maxLength: 6 });
  return fc.oneof(
    fc.record({
      kind: fc.constant("source-chosen" as const),
      source: fc.constantFrom("program" as const, "kit" as const),
      about: fc.constantFrom("grooves" as const, "fills" as const, "both" as const),
    }),
    {
      weight: 2,
      arbitrary: fc.record({
        kind: fc.constant("asked" as const),
        thing,
        performance: fc.constant({ way: 0, tempoBpm: 100, seed: 1 }),
        isNew: fc.boolean(),
        of,
      }),
    },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant("asked-by-kit" as const), of }) },
    {
      weight: 2,
      arbitrary: fc.record({
        kind: fc.constant("heard" as const),
        thing: fc.option(thing),
        confidence: fc.constant(0.5),
      }),
    },
    fc.record({ kind: fc.constant("overruled" as const), thing }),
    fc.constant({ kind: "heard-again" as const }),
    { weight: 5, arbitrary: fc.record({ kind: fc.constant("answered" as const), by: player, answer }) },
    { weight: 2, arbitrary: fc.constant({ kind: "settled" as const }) },
    fc.constant({ kind: "let-be" as const }),
    fc.constant({ kind: "turned-round" as const }),
  );
}
