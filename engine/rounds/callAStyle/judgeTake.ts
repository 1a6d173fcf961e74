/**
 * From the hits of a take to all that is said of it: what it was, and how it compares with what is written.
 */
import { styleById } from "../../catalogue/index.ts";
import type { Report } from "../../grading/index.ts";
import { type Heard, hear, type Stock } from "../../listening/index.ts";
import type { Groove } from "../../score/index.ts";
import type { Bpm } from "../../units/index.ts";
import { barSeconds, besideGroove } from "./besideGroove.ts";
import { clickFromEntry } from "./cameIn.ts";
import type { Judgement, TakeToJudge } from "./judgement.ts";
import { driftsInSilences } from "./silences.ts";
import { calledStock, hearTake, STOCK } from "./takeListener.ts";

/** Enough bars to tell one variant of a style from another. Our choice. */
const BARS_TO_TELL_VARIANTS = 8;

/** @param stock the catalogue, as `stockOfPlayer` gives it. */
export function judgeTake(take: TakeToJudge, stock: Stock = STOCK): Judgement {
  const hearing = hearTake(take.hits, take.styleId, take.click ?? undefined, stock);
  const { compared, click } =
    hearing.kind === "heard" ? compare(take, hearing, stock) : { compared: null, click: take.click };
  return { hearing, compared, hitCount: take.hits.length, click };
}

function compare(take: TakeToJudge, heard: Heard, stock: Stock): Pick<Judgement, "compared" | "click"> {
  const tempoBpm = take.click?.tempoBpm ?? pulseTempo(take, heard, stock);
  const variants = written(take.styleId, heard, stock);
  const groove = closest(variants, take, tempoBpm);
  if (!groove) return { compared: null, click: take.click };
  const click = take.click && clickFromEntry(take.click, take.hits, groove.metre);
  const report = besideGroove(take.hits, groove, {
    tempoBpm,
    click,
    ...(take.level ? { level: take.level } : {}),
  });
  return { compared: { groove, report, gapDrifts: driftsInSilences(report, take.click, click) }, click };
}

/** The tempo at which the take is laid beside what is written. */
function pulseTempo(take: TakeToJudge, heard: Heard, stock: Stock): Bpm {
  const isAsCalled = take.styleId === null || heard.candidates[0]?.id === take.styleId;
  if (isAsCalled) return heard.pulse.tempoBpm;
  // Something else was heard: still laid beside the called style, at the pulse that style would have.
  const called = calledStock(stock, take.styleId);
  const alone = called && hear(take.hits, called);
  return alone?.kind === "heard" ? alone.pulse.tempoBpm : heard.pulse.tempoBpm;
}

/** The grooves the take can be compared with: the variants of the called style, else of the one that was heard. */
function written(styleId: string | null, heard: Heard, stock: Stock): readonly Groove[] {
  const id = styleId ?? (heard.known ? heard.candidates[0]?.id : undefined);
  return (id === undefined ? undefined : styleById(id))?.variants ?? writtenInStock(id, stock);
}

/** What is written of a groove that is no style: one of the Shelf. */
function writtenInStock(id: string | undefined, { grooves }: Stock): readonly Groove[] {
  const models = grooves.find((groove) => groove.id === id)?.models ?? [];
  return models.flatMap(({ written }) => written ?? []).slice(0, 1);
}

/** The variant whose strokes the first bars hold most of. */
function closest(variants: readonly Groove[], take: TakeToJudge, tempoBpm: Bpm): Groove | undefined {
  const [only, ...others] = variants;
  if (!only || others.length === 0) return only;
  const fits = variants.map((groove) => {
    const click = take.click && clickFromEntry(take.click, take.hits, groove.metre);
    const from = click?.from ?? take.hits[0]?.time ?? 0;
    const until = from + BARS_TO_TELL_VARIANTS * barSeconds(groove, tempoBpm);
    const hits = take.hits.filter(({ time }) => time < until);
    return { groove, fit: fitOf(besideGroove(hits, groove, { tempoBpm, click })) };
  });
  return fits.reduce((best, next) => (next.fit > best.fit ? next : best)).groove;
}

/** Strokes as written, as a share of all that were written or added. */
function fitOf(report: Report): number {
  const asWritten = report.voices.reduce((sum, voice) => sum + voice.asWritten, 0);
  const written = report.voices.reduce((sum, voice) => sum + voice.written, 0);
  const added = report.voices.reduce((sum, voice) => sum + voice.added, 0);
  return asWritten / Math.max(1, written + added);
}
