import fc from "fast-check";
import { CALL_SOURCES, type SaidStroke, type SayAndStrikeEvent } from "../../../../engine/rounds/index.ts";

const strokes: fc.Arbitrary<readonly SaidStroke[]> = fc
  .array(
    fc.record({
      gap: fc.constantFrom(0.25, 0.5, 0.75),
      voice: fc.constantFrom("kick" as const, "snare" as const, "high-tom" as const),
    }),
    { maxLength: 6 },
  )
  .map((all) => {
    let time = 0;
    return all.map(({ gap, voice }) => {
      const stroke = { time, voice };
      time += gap;
      return stroke;
    });
  });

/** Any event of the round, of these players. */
export function anySayAndStrikeEvent(players: readonly (string | null)[]): fc.Arbitrary<SayAndStrikeEvent> {
  const player = fc.constantFrom(...players);
  return fc.oneof(
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constant("called" as const),
        strokes,
        text: fc.constantFrom(null, "doo ka"),
        tempoBpm: fc.constantFrom(72, 96),
        source: fc.constantFrom(...CALL_SOURCES),
        rung: fc.constantFrom(null, 1, 4),
        of: fc.uniqueArray(player, { minLength: 1, maxLength: 2 }),
      }),
    },
    {
      weight: 4,
      arbitrary: fc.record({
        kind: fc.constant("answered" as const),
        by: player,
        strokes,
        way: fc.constantFrom("struck" as const, "said" as const, "typed" as const),
        level: fc.constantFrom("first-year" as const, "steady" as const),
      }),
    },
    fc.constantFrom(...(["heard-again", "let-be", "turned-round"] as const)).map((kind) => ({ kind })),
  );
}
