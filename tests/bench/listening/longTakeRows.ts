/**
 * Question: is a groove known again from another stretch of the same human take, and is a stretch of another groove not
 * taken for it?
 * Long takes of the held-out drummers: three windows of eight bars are the reference, the others are asked at ×0.8 to
 * ×1.25 of the seconds. The takes of a shelf are of different grooves (see shelves.ts), and so are the unknown ones.
 */
import { hear, shelfStock } from "../../../engine/listening/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import { type DerivedGroove, derivedGroove } from "../../../scripts/learn/players/derivedGroove.ts";
import { distinct } from "../../../scripts/learn/players/shelves.ts";
import { barsOf, windowOf } from "../../../scripts/learn/players/windows.ts";
import { type Asked, askedOf, isRight, knownScore, toldOf } from "./asking.ts";
import { BACKGROUND, type HumanTake, heldOutTakes } from "./heldOut.ts";
import { reliabilityText } from "./reliabilityText.ts";
import { aurocRow, balancedRow, calibrationRow, type Row, shareRow } from "./row.ts";
import { sized } from "./size.ts";

const ON_A_SHELF = 10;
const WINDOW_BARS = 8;
/** Even windows are references, three at most; odd ones are asked. */
const FEWEST_WINDOWS = 4;

interface LongTake {
  readonly take: HumanTake;
  readonly groove: DerivedGroove;
  readonly windows: number;
}

export function longTakeRows(log: (text: string) => void): readonly Row[] {
  const long = heldOutTakes().flatMap((take): readonly LongTake[] => {
    const groove = derivedGroove(take);
    const windows = Math.floor(barsOf(take) / WINDOW_BARS);
    return groove && windows >= FEWEST_WINDOWS ? [{ take, groove, windows }] : [];
  });
  const byId = new Map(long.map((one) => [one.groove.id, one]));
  const known: Asked[] = [];
  const unknown: Asked[] = [];
  for (let shelf = 0; shelf < sized(90, 5); shelf += 1) {
    const chance = seededChance(8000 + shelf);
    const chosen = distinct(
      long.map(({ groove }) => groove),
      2 * ON_A_SHELF,
      chance,
    ).flatMap(({ id }) => byId.get(id) ?? []);
    const onShelf = chosen.slice(0, ON_A_SHELF);
    const stock = shelfStock(
      onShelf.map(({ take, windows }) => ({
        id: take.id,
        name: take.id,
        takes: [0, 2, 4]
          .filter((window) => window < windows)
          .map((window) => windowOf(take, window * WINDOW_BARS, WINDOW_BARS).hits),
      })),
      BACKGROUND,
    );
    const ask = (one: LongTake, truth: string | undefined): Asked =>
      askedOf(hear(anOddWindow(one, chance), stock), truth);
    known.push(...onShelf.map((one) => ask(one, one.take.id)));
    unknown.push(...chosen.slice(ON_A_SHELF).map((one) => ask(one, undefined)));
  }
  const told = [...known, ...unknown.filter((_, index) => index % 3 === 0)].map(toldOf);
  log(`${long.length} long takes by the held-out drummers have a groove of their own.`);
  log(reliabilityText("windows of long takes", told));
  return [
    shareRow("windows of long human takes, 3 references, 8 bars", known.map(isRight)),
    aurocRow(
      "none I know, windows of long human takes, AUROC",
      known.map(knownScore),
      unknown.map(knownScore),
      { atLeast: 0.98 },
    ),
    balancedRow(
      "known or not, windows of long human takes, balanced accuracy",
      known.map(({ named }) => named),
      unknown.map(({ named }) => !named),
      { atLeast: 0.92 },
    ),
    calibrationRow("chances, windows of long human takes, calibration error", told, seededChance(2), {
      atMost: 0.05,
    }),
  ];
}

function anOddWindow({ take, windows }: LongTake, chance: Chance) {
  const odd = Math.floor(windows / 2);
  const window = 2 * Math.floor(chance() * odd) + 1;
  return windowOf(take, window * WINDOW_BARS, WINDOW_BARS, 0.8 * 1.5625 ** chance()).hits;
}
