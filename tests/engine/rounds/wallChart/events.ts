/** Events of Wall Chart as they may come, lawful or not. */
import fc from "fast-check";
import { RUDIMENTS } from "../../../../engine/catalogue/index.ts";
import { CHART_TASKS, type WallChartEvent } from "../../../../engine/rounds/index.ts";

const ENTRIES = [
  ...RUDIMENTS.slice(0, 12).map(({ id }) => id),
  "family/roll",
  "family/flam",
  "no-such-thing",
];
const entry = fc.constantFrom(...ENTRIES);

export function anyWallChartEvent<Player extends string | null>(
  players: readonly Player[],
): fc.Arbitrary<WallChartEvent> {
  const player = fc.constantFrom(...players);
  const of = fc.array(player, { minLength: 1, maxLength: 4 });
  return fc.oneof(
    fc.record({
      kind: fc.constant("set" as const),
      settings: fc.record({
        task: fc.constantFrom(...CHART_TASKS),
        from: fc.integer({ min: 1, max: 12 }),
        to: fc.integer({ min: 1, max: 40 }),
        longSeconds: fc.constantFrom(10, 120),
        shortSeconds: fc.constantFrom(5, 30),
      }),
    }),
    { weight: 3, arbitrary: fc.record({ kind: fc.constant("look-began" as const), of }) },
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constant("looked" as const),
        seconds: fc.integer({ min: 1, max: 60 }),
      }),
    },
    { weight: 2, arbitrary: fc.constant({ kind: "hidden" as const }) },
    {
      weight: 5,
      arbitrary: fc.record({
        kind: fc.constant("named" as const),
        entry,
        way: fc.constantFrom("typed" as const, "ticked" as const),
      }),
    },
    fc.record({ kind: fc.constant("taken-back" as const), entry }),
    fc.record({
      kind: fc.constant("strayed" as const),
      given: fc.string({ maxLength: 10 }),
      as: fc.constantFrom("elsewhere" as const, "none" as const, "unclear" as const),
    }),
    { weight: 2, arbitrary: fc.constant({ kind: "named-all" as const }) },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant("asked" as const), entry, of }) },
    {
      weight: 2,
      arbitrary: fc.record({
        kind: fc.constant("answered" as const),
        way: fc.constantFrom("said" as const, "chosen" as const, "typed" as const, "played" as const),
        held: fc.boolean(),
        words: fc.constant("The third stroke was by the other hand."),
      }),
    },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant("turned-to" as const), by: player }) },
    fc.constant({ kind: "let-be" as const }),
    fc.constant({ kind: "turned-round" as const }),
  );
}
