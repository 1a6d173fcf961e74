/**
 * Question: are fills found in a groove, is none found where there is none, and is a count-in heard as one?
 * Every variant of the catalogue is asked; tempo ±25 %, lean ±20 ms, spread 15 ms, a twentieth left out, a twentieth added.
 */
import { FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { catalogueStock, type HeardFill, hear } from "../../../engine/listening/index.ts";
import { beatsPerBar, type Fill, fillBars, type Groove, metreName } from "../../../engine/score/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import { humanFills } from "../../../scripts/learn/players/fills.ts";
import { meanInterval } from "../../measures/meanInterval.ts";
import { developmentFills, developmentGrooves, strikesOfTake } from "../../reference/developmentTakes.ts";
import { type CatalogueCase, catalogueCases } from "./catalogueCases.ts";
import { type Row, shareRow } from "./row.ts";
import { FULL, sized } from "./size.ts";

const stock = catalogueStock(STYLES);
const BARS = 8;
const CASES = sized(600, 60);

interface Placed {
  readonly fill: Fill;
  readonly bar: number;
}

export function fillRows(log: (text: string) => void): readonly Row[] {
  return [...plainRows(log), ...filledRows(log), ...countInRows(log)];
}

/** Bars of `fills`, each counted as far as it is in one. */
function barsIn(fills: readonly HeardFill[], beatsInBar: number): number {
  return fills.reduce((sum, { beats }) => sum + Math.ceil(beats / beatsInBar), 0);
}

function plainRows(log: (text: string) => void): readonly Row[] {
  const cases = catalogueCases(sized(390, 130), BARS, 800);
  const bars = cases.flatMap(({ hits, groove }) => {
    const fills = fillsIn(hits);
    if (fills.length > 0) log(`A fill where there is none: ${groove.id}, ${fills.map(tell).join("; ")}.`);
    const wrong = Math.min(BARS, barsIn(fills, beatsPerBar(groove.metre)));
    return Array.from({ length: BARS }, (_, bar) => bar < wrong);
  });
  return [shareRow("fills, bars of a plain groove that are called fills", bars, { atMost: 0.02 })];
}

function tell({ bar, beats, id, confidence }: HeardFill): string {
  return `bar ${bar}, ${beats} beats, ${id ?? "unknown"}, ${confidence.toFixed(2)}`;
}

function fillsIn(hits: CatalogueCase["hits"]): readonly HeardFill[] {
  const hearing = hear(hits, stock);
  return hearing.kind === "heard" ? hearing.fills : [];
}

/** Fills of the metre whose tempos reach the groove's: nobody plays thirty-seconds at 200. */
function fillsFor({ metre, tempoBpm }: Groove): readonly Fill[] {
  return FILLS.filter(
    (fill) =>
      metreName(fill.metre) === metreName(metre) &&
      fill.tempoBpm.low <= tempoBpm.high &&
      fill.tempoBpm.high >= tempoBpm.low,
  );
}

interface Found {
  readonly found: boolean;
  readonly named: boolean;
  readonly right: boolean;
  readonly beats: number;
}

function filledRows(log: (text: string) => void): readonly Row[] {
  const placed: (Placed | undefined)[] = [];
  const cases = catalogueCases(
    CASES,
    BARS,
    810,
    (groove, chance) => {
      const one = aFill(groove, chance);
      placed.push(one);
      return one ? { fills: [{ ...one, thenCrash: chance() < 0.5 }] } : {};
    },
    (groove) => fillsFor(groove).length > 0,
  );
  const lost = new Map<string, number>();
  let beside = 0;
  const found = cases.flatMap((one, index): readonly Found[] => {
    const truth = placed[index];
    if (!truth) return [];
    const fills = fillsIn(one.hits);
    const { from, to } = timesOf(truth, one);
    const near = 60 / one.tempoBpm + 0.02;
    const heard = fills.find((fill) => Math.abs(fill.from - from) < near && Math.abs(fill.to - to) < near);
    beside += fills.length - (heard ? 1 : 0);
    const { id, beats } = truth.fill;
    if (!heard || (heard.id !== undefined && heard.id !== id)) {
      const told = `${id} in ${one.groove.id}: ${heard ? `heard as ${heard.id}` : fills.map(tell).join("; ") || "not found"}`;
      lost.set(told, (lost.get(told) ?? 0) + 1);
    }
    return [{ found: heard !== undefined, named: heard?.id !== undefined, right: heard?.id === id, beats }];
  });
  if (lost.size > 0) log(`Fills not found, or taken for another: ${[...lost.keys()].join("\n  ")}.`);
  log(`Fills heard beside the right ones: ${beside} in ${found.length} takes of ${BARS} bars.`);
  const longer = found.filter(({ beats }) => beats >= 2);
  return [
    shareRow(
      "fills of the catalogue, found within a beat",
      found.map((one) => one.found),
      { atLeast: 0.9 },
    ),
    shareRow(
      "fills of two beats and more, found within a beat",
      longer.map((one) => one.found),
    ),
    shareRow(
      "fills of two beats and more, which one is said rightly, of the found",
      longer.filter((one) => one.found).map((one) => one.right),
      { atLeast: 0.8 },
    ),
    shareRow(
      "fills, which one is right when one is said",
      found.filter((one) => one.named).map((one) => one.right),
    ),
  ];
}

function aFill(groove: Groove, chance: Chance): Placed | undefined {
  const suited = fillsFor(groove);
  const fill = suited[Math.floor(chance() * suited.length)];
  if (!fill) return undefined;
  const lastBar = chance() < 0.5 ? 4 : 8;
  return { fill, bar: lastBar + 1 - fillBars(fill) };
}

/** True times of a fill's first beat and of the one after it, that one within the take. */
function timesOf({ fill, bar }: Placed, { beats, groove, hits }: CatalogueCase) {
  const end = (bar - 1 + fillBars(fill)) * beatsPerBar(groove.metre);
  const last = hits.at(-1)?.time ?? 0;
  return { from: beats[end - fill.beats] ?? Number.NaN, to: Math.min(last, beats[end] ?? last) };
}

const COUNTED_ON = ["sticks", "hi-hat-closed", "cross-stick"] as const;

function countInRows(log: (text: string) => void): readonly Row[] {
  const counts: number[] = [];
  const cases = catalogueCases(CASES, BARS, 820, (groove, chance) => {
    const bars = chance() < 0.3 && beatsPerBar(groove.metre) <= 4 ? 2 : 1;
    const countIn = Math.max(2, bars * beatsPerBar(groove.metre));
    counts.push(countIn);
    return { countIn, countInOn: COUNTED_ON[Math.floor(chance() * COUNTED_ON.length)] ?? "sticks" };
  });
  const heard = cases.map(({ hits, groove }, index) => {
    const hearing = hear(hits, stock);
    const strokes = hearing.kind === "heard" ? hearing.countIn?.strokes : undefined;
    if (strokes !== counts[index])
      log(
        `Count-in of ${counts[index]} on the ${hits[0]?.voice} before ${groove.id}: heard ${strokes ?? "none"}.`,
      );
    return strokes === counts[index];
  });
  const without = catalogueCases(CASES, BARS, 830).map(({ hits, groove }) => {
    const hearing = hear(hits, stock);
    const countIn = hearing.kind === "heard" ? hearing.countIn : undefined;
    if (countIn) log(`A count-in of ${countIn.strokes} where there is none: ${groove.id}.`);
    return countIn !== undefined;
  });
  return [
    shareRow("count-in, its strokes heard", heard, { atLeast: 0.95 }),
    shareRow("count-in heard where there is none", without, { atMost: 0.01 }),
  ];
}

/**
 * What people play. Their grooves have fills without labels: only how much is called a fill can be told. Their fills of a bar
 * by themselves, set into grooves of the catalogue, are fills nobody wrote: whether they are found shows what is not learnt
 * by heart.
 */
export function humanFillRows(log: (text: string) => void): readonly Row[] {
  const takes = developmentGrooves().filter((_, index) => FULL || index % 24 === 0);
  const shares = takes.flatMap((take) => {
    const hearing = hear(strikesOfTake(take), stock);
    if (hearing.kind !== "heard" || hearing.span.bars < 8) return [];
    const inBar = beatsPerBar(hearing.pulse.metre);
    return [Math.min(1, barsIn(hearing.fills, inBar) / hearing.span.bars)];
  });
  // Neither better nor worse when it is more: told, and not held to what was recorded.
  const { mean, low, high } = meanInterval(shares);
  log(
    `Human takes, share of the bars that are called fills: ${mean.toFixed(3)} [${low.toFixed(3)}, ${high.toFixed(3)}] of ${shares.length} takes.`,
  );
  return [humanFillsFound()];
}

function humanFillsFound(): Row {
  const played = humanFills(developmentFills().map((take) => ({ ...take, hits: strikesOfTake(take) })));
  const cases = catalogueCases(
    CASES,
    BARS,
    840,
    () => ({}),
    ({ metre }) => metreName(metre) === "4/4",
  );
  const chance = seededChance(841);
  const found = cases.map(({ beats, hits, tempoBpm }) => {
    const fill = played[Math.floor(chance() * played.length)] ?? [];
    const firstBeat = chance() < 0.5 ? 12 : 28;
    const [from, to] = [beats[firstBeat] ?? 0, beats[firstBeat + 4] ?? Number.POSITIVE_INFINITY];
    const edge = 0.06;
    const around = hits.filter(({ time }) => time < from - edge || time >= to - edge);
    const own = fill.map(
      ({ beat, voice, velocity }): Hit => ({
        time: from + (beat * 60) / tempoBpm,
        voice,
        velocity,
        zone: "whole",
        pad: 0,
      }),
    );
    const take = [...around, ...own].sort((a, b) => a.time - b.time);
    const end = Math.min(to, take.at(-1)?.time ?? 0);
    // A human fill may go on with the groove for a while: what counts is that its end is found.
    return fillsIn(take).some((one) => Math.abs(one.to - end) < 60 / tempoBpm && one.from < end);
  });
  return shareRow("human fills of a bar in grooves of the catalogue, their end found", found);
}
