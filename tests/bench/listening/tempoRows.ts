/**
 * Question: is the pulse kept when the tempo does not keep still?
 * Rubato: ±10 % as one wave over eight bars; each true beat is found or not. A sudden change by a tenth to a quarter
 * after eight bars: live, what is heard when two bars of the new tempo have been played; and of the whole take
 * afterwards, the beats from two bars after the change on.
 */
import { rubato, STYLES, suddenChange } from "../../../engine/catalogue/index.ts";
import { catalogueStock, hear, Listener } from "../../../engine/listening/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { BEAT_WINDOW, countMatches } from "../../measures/eventMatching.ts";
import { accuracy1 } from "../../measures/tempoAccuracy.ts";
import { type CatalogueCase, catalogueCases } from "./catalogueCases.ts";
import { meanRow, type Row, shareRow } from "./row.ts";
import { sized } from "./size.ts";

const stock = catalogueStock(STYLES);
const CASES = sized(300, 24);
const CHANGE_AFTER_BARS = 8;
const BARS_TO_LOCK = 2;

/** Each with its control: what is heard the same way of the same grooves when the tempo keeps still. */
export function tempoRows(): readonly Row[] {
  return [
    ...rubatoRows("rubato ±10 % over 8 bars", 0.1),
    ...rubatoRows("steady tempo, 8 bars", 0),
    ...suddenRows(),
  ];
}

function rubatoRows(what: string, share: number): readonly Row[] {
  const cases = catalogueCases(CASES, 8, 600, (groove) => ({
    tempoCourse: rubato(share, 8 * beatsPerBar(groove.metre)),
  }));
  const heard = cases.map(({ hits, beats, styleId }) => {
    const hearing = hear(hits, stock);
    if (hearing.kind !== "heard") return { found: 0, right: false };
    return {
      found: countMatches(beats, hearing.pulse.beats, BEAT_WINDOW) / beats.length,
      right: hearing.candidates[0]?.id === styleId,
    };
  });
  return [
    meanRow(
      `${what}, share of beats within 70 ms`,
      heard.map(({ found }) => found),
    ),
    shareRow(
      `${what}, named rightly`,
      heard.map(({ right }) => right),
    ),
  ];
}

function suddenRows(): readonly Row[] {
  const { cases, ratios } = changing(CASES);
  const steady = catalogueCases(CASES, CHANGE_AFTER_BARS + 8, 620);
  return [
    shareRow(
      `sudden change of tempo by 10 to 25 %, live, locked after ${BARS_TO_LOCK} bars`,
      cases.map((one, index) => isLockedLive(one, ratios[index] ?? 1)),
    ),
    shareRow(
      "steady tempo, live, locked",
      steady.map((one) => isLockedLive(one, 1)),
    ),
    meanRow(
      `sudden change of tempo, the whole take, share of beats within 70 ms from ${BARS_TO_LOCK} bars after it`,
      cases.map(foundAfterwards),
    ),
  ];
}

function changing(count: number): {
  readonly cases: readonly CatalogueCase[];
  readonly ratios: readonly number[];
} {
  const ratios: number[] = [];
  const cases = catalogueCases(count, CHANGE_AFTER_BARS + 8, 610, (groove, chance) => {
    const by = 0.1 + 0.15 * chance();
    const ratio = chance() < 0.5 ? 1 + by : 1 - by;
    ratios.push(ratio);
    return { tempoCourse: suddenChange(CHANGE_AFTER_BARS * beatsPerBar(groove.metre), ratio) };
  });
  return { cases, ratios };
}

/** Tempo within 4 % and the newest beat within 70 ms, when two bars have been played at the new tempo. */
function isLockedLive({ hits, beats, groove, tempoBpm }: CatalogueCase, ratio: number): boolean {
  const now = beats[(CHANGE_AFTER_BARS + BARS_TO_LOCK) * beatsPerBar(groove.metre)] ?? 0;
  const listener = new Listener(stock);
  for (const hit of hits) if (hit.time <= now + BEAT_WINDOW) listener.add(hit);
  const hearing = listener.hearing();
  if (hearing.kind !== "heard") return false;
  const newest = hearing.pulse.beats.at(-1) ?? Number.NaN;
  const onBeat = beats.some((time) => Math.abs(time - newest) <= BEAT_WINDOW);
  const lately = hearing.pulse.beats.slice(-5);
  const interval = ((lately.at(-1) ?? 0) - (lately[0] ?? 0)) / (lately.length - 1);
  return onBeat && accuracy1(60 / interval, tempoBpm * ratio);
}

function foundAfterwards({ hits, beats, groove }: CatalogueCase): number {
  const from = (CHANGE_AFTER_BARS + BARS_TO_LOCK) * beatsPerBar(groove.metre);
  const hearing = hear(hits, stock);
  if (hearing.kind !== "heard") return 0;
  const due = beats.slice(from);
  return countMatches(due, hearing.pulse.beats, BEAT_WINDOW) / due.length;
}
