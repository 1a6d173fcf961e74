/**
 * Question: are the styles of the catalogue named from hard cases, and do the chances come true?
 */
import { FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import { catalogueStock, type Hearing, hear } from "../../../engine/listening/index.ts";
import { beatsPerBar, type Fill, fillBars, type Groove, metreName } from "../../../engine/score/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import { BEAT_WINDOW } from "../../measures/eventMatching.ts";
import { type Asked, askedOf, isRight, toldOf } from "./asking.ts";
import { type CatalogueCase, catalogueCases, otherCymbal } from "./catalogueCases.ts";
import { reliabilityText } from "./reliabilityText.ts";
import { calibrationRow, type Row, shareRow } from "./row.ts";
import { sized } from "./size.ts";

const stock = catalogueStock(STYLES);
const CASES = sized(600, 40);

export function catalogueRows(log: (text: string) => void): readonly Row[] {
  const moved = (bars: number): readonly Asked[] =>
    named(
      log,
      `${bars} bars, the time on the other cymbal`,
      catalogueCases(CASES, bars, 500 + bars, otherCymbal),
    );
  const eight = moved(8);
  const four = moved(4);
  const two = moved(2);
  const plain = named(log, "8 bars, as written", catalogueCases(CASES, 8, 510));
  const told = [
    ...[...eight, ...four, ...two].map(toldOf),
    ...[8, 4, 2].flatMap((bars) => unknownOf(bars).map(toldOf)),
  ];
  log(reliabilityText("catalogue", told));
  const right = (asked: readonly Asked[]): readonly boolean[] => asked.map(isRight);
  return [
    shareRow("catalogue, the time on the other cymbal, 8 bars", right(eight), { atLeast: 0.98 }),
    shareRow("catalogue, the time on the other cymbal, 4 bars", right(four), { atLeast: 0.95 }),
    shareRow("catalogue, the time on the other cymbal, 2 bars", right(two)),
    shareRow("catalogue, as written, 8 bars", right(plain), { atLeast: 0.98 }),
    calibrationRow("chances, catalogue, calibration error", told, seededChance(3), { atMost: 0.05 }),
    ...withFills(log),
    ...countedIn(log),
  ];
}

function named(log: (text: string) => void, name: string, cases: readonly CatalogueCase[]): readonly Asked[] {
  const asked = cases.map(({ hits, styleId }) => askedOf(hear(hits, stock), styleId));
  tellMistakes(log, name, asked);
  return asked;
}

function tellMistakes(log: (text: string) => void, name: string, asked: readonly Asked[]): void {
  const wrong = asked.filter((one) => !isRight(one)).map(({ truth, answer }) => `${truth} as ${answer}`);
  if (wrong.length > 0) log(`Catalogue, ${name}: ${wrong.join("; ")}.`);
}

/** A third as many takes of a style that is not in the stock: three of four are from it, as in lessons. */
function unknownOf(bars: number): readonly Asked[] {
  return catalogueCases(Math.round(CASES / 3), bars, 520 + bars, otherCymbal).map(({ hits, styleId }) =>
    askedOf(hear(hits, { ...stock, grooves: stock.grooves.filter(({ id }) => id !== styleId) }), undefined),
  );
}

function withFills(log: (text: string) => void): readonly Row[] {
  const cases = catalogueCases(
    CASES,
    8,
    530,
    (groove, chance) => {
      const fill = aFillFor(groove, chance);
      const bar = chance() < 0.5 ? 4 : 8;
      return fill ? { fills: [{ fill, bar, thenCrash: chance() < 0.5 }] } : {};
    },
    (groove) => fillsFor(groove).length > 0,
  );
  return [
    shareRow("catalogue, 8 bars with a fill in bar 4 or 8", named(log, "with a fill", cases).map(isRight)),
  ];
}

function fillsFor(groove: Groove): readonly Fill[] {
  return FILLS.filter((fill) => metreName(fill.metre) === metreName(groove.metre) && fillBars(fill) === 1);
}

function aFillFor(groove: Groove, chance: Chance): Fill | undefined {
  const suited = fillsFor(groove);
  return suited[Math.floor(chance() * suited.length)];
}

function countedIn(log: (text: string) => void): readonly Row[] {
  const on = ["sticks", "hi-hat-closed", "cross-stick"] as const;
  const cases = catalogueCases(CASES, 8, 540, (groove, chance) => ({
    countIn: beatsPerBar(groove.metre),
    countInOn: on[Math.floor(chance() * on.length)] ?? "sticks",
  }));
  const heard = cases.map((one) => ({ ...one, hearing: hear(one.hits, stock) }));
  const asked = heard.map(({ hearing, styleId }) => askedOf(hearing, styleId));
  tellMistakes(log, "counted in", asked);
  return [
    shareRow("catalogue, counted in, 8 bars", asked.map(isRight)),
    shareRow(
      "catalogue, counted in, 8 bars, downbeat within 70 ms",
      heard.map(({ hearing, downbeats }) => isDownbeatRight(hearing, downbeats)),
    ),
  ];
}

function isDownbeatRight(hearing: Hearing, truth: readonly number[]): boolean {
  if (hearing.kind !== "heard") return false;
  const { downbeats } = hearing.pulse;
  const middle = downbeats[Math.floor(downbeats.length / 2)] ?? Number.NaN;
  return truth.some((time) => Math.abs(time - middle) <= BEAT_WINDOW);
}
