/** Events of Card Table as they may come, lawful or not. */
import fc from "fast-check";
import {
  CARD_OUTCOMES,
  CARD_REASONS,
  type CardId,
  type CardTableEvent,
} from "../../../../engine/rounds/index.ts";

export const CARDS: readonly CardId[] = [
  "symbol:quarter-note",
  "symbol:eighth-note",
  "symbol:eighth-rest",
  "symbol:rhythm-triplet-on-two",
  "sticking:flam-tap",
  "joker:teapot",
];

const card = fc.constantFrom(...CARDS);

export function anyCardTableEvent<Player extends string | null>(
  players: readonly Player[],
): fc.Arbitrary<CardTableEvent> {
  const player = fc.constantFrom(...players);
  const outcome = fc.constantFrom(...CARD_OUTCOMES);
  const answer = fc.oneof(
    fc.record({
      way: fc.constant("word" as const),
      given: fc.string({ maxLength: 12 }),
      meant: fc.option(card),
    }),
    fc.record({ way: fc.constant("choice" as const), meant: card }),
    fc.record({
      way: fc.constant("struck" as const),
      held: fc.boolean(),
      words: fc.constant("One stroke left out."),
    }),
    fc.record({ way: fc.constant("said" as const), outcome }),
  );
  return fc.oneof(
    fc.record({
      kind: fc.constant("deck-laid" as const),
      // A joker is one by its card and its reason, as decks are laid.
      cards: fc.array(
        fc.oneof(
          fc.record({
            card: fc.constantFrom(...CARDS.slice(0, -1)),
            reason: fc.constantFrom(...CARD_REASONS.filter((each) => each !== "joker")),
          }),
          fc.record({ card: fc.constant("joker:teapot" as CardId), reason: fc.constant("joker" as const) }),
        ),
        { maxLength: 8 },
      ),
    }),
    fc.record({ kind: fc.constant("slipped-in" as const), card: fc.constantFrom(...CARDS.slice(0, -1)) }),
    {
      weight: 5,
      arbitrary: fc.record({
        kind: fc.constant("turned-up" as const),
        choices: fc.uniqueArray(card, { maxLength: 4 }),
        of: fc.array(player, { minLength: 1, maxLength: 3 }),
      }),
    },
    {
      weight: 5,
      arbitrary: fc.record({ kind: fc.constant("card-answered" as const), by: player, answer }),
    },
    fc.record({ kind: fc.constant("overruled" as const), by: player, outcome }),
    fc.constant({ kind: "put-back" as const }),
    fc.constant({ kind: "laid-away" as const }),
    fc.constant({ kind: "cards-turned-round" as const }),
  );
}
