/**
 * Question: is a groove known again when somebody else plays it?
 * Shelves of ten different grooves of the held-out drummers; reference takes of 16 bars by three other players (or by
 * one), asked takes by yet others, at ×0.8 to ×1.25 of the seconds, cut out anywhere. Unknown takes are of ten further
 * grooves, none of them near any on the shelf.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import { hear, type Stock, shelfStock } from "../../../engine/listening/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import { type DerivedGroove, derivedGroove } from "../../../scripts/learn/players/derivedGroove.ts";
import { type Fill, humanFills } from "../../../scripts/learn/players/fills.ts";
import { anotherPlayer } from "../../../scripts/learn/players/otherPlayers.ts";
import { type Performance, perform } from "../../../scripts/learn/players/performance.ts";
import { distinct } from "../../../scripts/learn/players/shelves.ts";
import { type Asked, askedOf, isRight, knownScore, surest, toldOf } from "./asking.ts";
import { BACKGROUND, heldOutFills, heldOutTakes } from "./heldOut.ts";
import { reliabilityText } from "./reliabilityText.ts";
import { aurocRow, balancedRow, calibrationRow, type Row, shareRow } from "./row.ts";
import { sized } from "./size.ts";

const ON_A_SHELF = 10;
const REFERENCE_BARS = 16;

/** How a take is asked: its length, and what is done to it. */
const ASKED = {
  "16 bars": { bars: 16 },
  "8 bars": { bars: 8 },
  "4 bars": { bars: 4 },
  "2 bars": { bars: 2 },
  "8 bars, 10 % left out, 5 % added, 12 ms jitter": { bars: 8, leftOut: 0.1, added: 0.05, jitterMs: 12 },
} satisfies Record<string, Omit<Performance, "slower">>;
type Way = keyof typeof ASKED;
const WAYS: readonly Way[] = [
  "16 bars",
  "8 bars",
  "4 bars",
  "2 bars",
  "8 bars, 10 % left out, 5 % added, 12 ms jitter",
];

interface Answers {
  readonly known: Map<Way, Asked[]>;
  readonly unknown: Map<Way, Asked[]>;
  readonly oneReference: Asked[];
}

export function otherPlayersRows(log: (text: string) => void): readonly Row[] {
  const grooves = heldOutTakes().flatMap((take) => derivedGroove(take) ?? []);
  const fills = humanFills(heldOutFills());
  const answers: Answers = { known: new Map(), unknown: new Map(), oneReference: [] };
  for (let shelf = 0; shelf < sized(24, 4); shelf += 1) {
    askShelf(grooves, fills, seededChance(7000 + shelf), answers);
  }
  log(`Known again from three other players' takes: ${mistakes(answers.known.get("8 bars") ?? [])}`);
  return rowsOf(answers, log);
}

function askShelf(
  grooves: readonly DerivedGroove[],
  fills: readonly Fill[],
  chance: Chance,
  answers: Answers,
): void {
  const chosen = distinct(grooves, 2 * ON_A_SHELF, chance);
  const onShelf = chosen.slice(0, ON_A_SHELF);
  const others = chosen.slice(ON_A_SHELF);
  const takeBy = (groove: DerivedGroove, how: Performance): readonly Hit[] =>
    perform(groove, anotherPlayer(groove, fills, chance), how, chance).hits;
  const shelfOf = (references: number): Stock =>
    shelfStock(
      onShelf.map((groove) => ({
        id: groove.id,
        name: groove.id,
        takes: Array.from({ length: references }, () =>
          takeBy(groove, { bars: REFERENCE_BARS, slower: stretch(chance) }),
        ),
      })),
      BACKGROUND,
    );
  const three = shelfOf(3);
  const one = shelfOf(1);
  for (let time = 0; time < sized(3, 1); time += 1) {
    for (const way of WAYS) {
      const ask = (groove: DerivedGroove, stock: Stock, truth: string | undefined): Asked =>
        askedOf(hear(takeBy(groove, { ...ASKED[way], slower: stretch(chance) }), stock), truth);
      put(
        answers.known,
        way,
        onShelf.map((groove) => ask(groove, three, groove.id)),
      );
      put(
        answers.unknown,
        way,
        others.map((groove) => ask(groove, three, undefined)),
      );
      if (way === "8 bars")
        answers.oneReference.push(...onShelf.map((groove) => ask(groove, one, groove.id)));
    }
  }
}

/** From ×0.8 to ×1.25, ratios alike. */
function stretch(chance: Chance): number {
  return 0.8 * 1.5625 ** chance();
}

function put(into: Map<Way, Asked[]>, way: Way, asked: readonly Asked[]): void {
  into.set(way, [...(into.get(way) ?? []), ...asked]);
}

function mistakes(asked: readonly Asked[]): string {
  const wrong = asked.filter((one) => !isRight(one)).map(({ truth, answer }) => `${truth} as ${answer}`);
  return wrong.length === 0 ? "no mistake at 8 bars." : `mistakes at 8 bars: ${wrong.join("; ")}.`;
}

function rowsOf(answers: Answers, log: (text: string) => void): readonly Row[] {
  const known = (way: Way): readonly Asked[] => answers.known.get(way) ?? [];
  const unknown = (way: Way): readonly Asked[] => answers.unknown.get(way) ?? [];
  const right = (asked: readonly Asked[]): readonly boolean[] => asked.map(isRight);
  const told = (["8 bars", "4 bars", "2 bars"] as const).flatMap((way) => [
    ...known(way).map(toldOf),
    // Three known to one unknown, as in lessons: our assumption.
    ...unknown(way)
      .filter((_, index) => index % 3 === 0)
      .map(toldOf),
  ]);
  log(reliabilityText("other players", told));
  const calls = (asked: readonly Asked[], named: boolean): readonly boolean[] =>
    asked.map((one) => one.named === named);
  return [
    shareRow("other players, 3 references, whole take of 16 bars", right(known("16 bars")), {
      atLeast: 0.975,
    }),
    shareRow("other players, 3 references, 8 bars", right(known("8 bars")), { atLeast: 0.975 }),
    shareRow("other players, 3 references, 4 bars", right(known("4 bars")), { atLeast: 0.95 }),
    shareRow("other players, 3 references, 2 bars", right(known("2 bars")), { atLeast: 0.92 }),
    shareRow("other players, 1 reference, 8 bars", right(answers.oneReference), { atLeast: 0.93 }),
    shareRow(
      "other players, 3 references, 8 bars, 10 % left out, 5 % added, 12 ms jitter",
      right(known("8 bars, 10 % left out, 5 % added, 12 ms jitter")),
      { atLeast: 0.95 },
    ),
    aurocRow(
      "none I know, other players, 8 bars, AUROC",
      known("8 bars").map(knownScore),
      unknown("8 bars").map(knownScore),
      { atLeast: 0.98 },
    ),
    balancedRow(
      "known or not, other players, 8 bars, balanced accuracy",
      calls(known("8 bars"), true),
      calls(unknown("8 bars"), false),
      { atLeast: 0.92 },
    ),
    shareRow("other players, 8 bars, the 80 % it is surest of", right(surest(known("8 bars"), 0.8)), {
      atLeast: 0.98,
    }),
    calibrationRow("chances, other players, calibration error", told, seededChance(1), { atMost: 0.05 }),
  ];
}
