/**
 * The single figures in a teacher's words: what was heard, no marks. `null` or an empty list where there is nothing to say.
 */
import { voiceName } from "../kit/index.ts";
import type { Milliseconds } from "../units/index.ts";
import { capital, limbName, milliseconds, numberWord, the, times } from "./phrases.ts";
import type {
  DynamicsFigures,
  HiHatFigures,
  LimbSwing,
  OrnamentFigures,
  UnisonFigures,
  Wander,
  WorkOn,
} from "./report.ts";
import type { FormSlip } from "./slip.ts";
import { HEARD_APART_MS } from "./unison.ts";

/**
 * One slip of the form.
 *
 * @example
 * formWords({ kind: "bars-dropped", bar: 5, beat: 1, bars: 1, strokes: 12 }) // => "A bar was skipped at bar 5."
 */
export function formWords(slip: FormSlip): string {
  switch (slip.kind) {
    case "entry":
      return `The entry came ${beats(slip.byBeats)} ${lateOrEarly(slip.byBeats)}.`;
    case "bars-dropped":
      return `${capital(bars(slip.bars))} ${wasOrWere(slip.bars)} skipped at bar ${slip.bar}.`;
    case "bars-added":
      return `${capital(bars(slip.bars))} ${wasOrWere(slip.bars)} added at bar ${slip.bar}.`;
    case "bars-silent":
      return slip.bars === 1
        ? `Bar ${slip.bar} was left empty.`
        : `Bars ${slip.bar} to ${slip.bar + slip.bars - 1} were left empty.`;
    case "stopped":
      return `It stopped in bar ${slip.bar}, and went on from beat ${slip.onBeat} of bar ${slip.onBar}.`;
    case "turned-round": {
      const moved = `From bar ${slip.bar}, beat ${slip.beat}, the groove lies ${beats(slip.byBeats)} ${lateOrEarly(slip.byBeats)}`;
      return slip.untilBar === null
        ? `${moved}, to the end.`
        : `${moved}; from bar ${slip.untilBar} it is in place.`;
    }
    case "one-off-place": {
      const after = slip.afterFill ? "after the fill" : "of the new phrase";
      return `The one ${after}, bar ${slip.bar}, came ${milliseconds(slip.byMs)} ${lateOrEarly(slip.byMs)}.`;
    }
  }
}

/**
 * Where the wander comes from; `null` where it cannot be told.
 *
 * @example
 * wanderWords({ kind: "too-few", intervals: 3 }) // => null
 */
export function wanderWords(wander: Wander): string | null {
  switch (wander.kind) {
    case "too-few":
      return null;
    case "clock-and-limbs": {
      const share = `inner clock ${milliseconds(wander.clockMs)}, limb ${milliseconds(wander.limbMs)}`;
      return `What wanders on the ${limbName(wander.limb)}: ${share}.`;
    }
    case "model-does-not-hold":
      return `What wanders on the ${limbName(wander.limb)} cannot be split between clock and limb in this take.`;
  }
}

/**
 * How two limbs fall together.
 *
 * @example
 * unisonWords({ limb: "kick", against: "hats", count: 9, gapMs: -4, spreadMs: 6, heardApart: 0 })
 * // => "Kick and hi-hat fall together."
 */
export function unisonWords({ limb, against, gapMs, heardApart, count }: UnisonFigures): string {
  const both = `${capital(limbName(limb))} and ${limbName(against)}`;
  if (Math.abs(gapMs) > HEARD_APART_MS) {
    return `${both}: the ${limbName(limb)} comes ${milliseconds(gapMs)} ${gapMs < 0 ? "before" : "after"}.`;
  }
  return heardApart === 0
    ? `${both} fall together.`
    : `${both} fall together, but for ${heardApart === count ? "all" : numberWord(heardApart)} of ${numberWord(count)}.`;
}

/**
 * Flams or drags of a take.
 *
 * @example
 * ornamentWords({ ornament: "flam", asWritten: 3, tooTight: 1, tooOpen: 0, noGrace: 0, gapMs: 24, each: [] })
 * // => "Flams: 3 as written, 1 too tight; 24 ms on average."
 */
export function ornamentWords({
  ornament,
  asWritten,
  tooTight,
  tooOpen,
  noGrace,
  gapMs,
}: OrnamentFigures): string {
  const counts = [
    [asWritten, "as written"],
    [tooTight, "too tight"],
    [tooOpen, "too open"],
    [noGrace, "without a grace stroke"],
  ] as const;
  const told = counts.filter(([count]) => count > 0).map(([count, what]) => `${count} ${what}`);
  const average = gapMs === null ? "" : `; ${milliseconds(gapMs)} on average`;
  return `${capital(ornament)}s: ${told.join(", ")}${average}.`;
}

/** The hi-hat open and shut; `null` where all of it was as written. */
export function hiHatWords({ open, closed, openAsClosed, closedAsOpen }: HiHatFigures): string | null {
  const slips = [
    ...(openAsClosed > 0 ? [`${openAsClosed} of ${open} open strokes sounded closed`] : []),
    ...(closedAsOpen > 0 ? [`${closedAsOpen} of ${closed} closed strokes sounded open`] : []),
  ];
  return slips.length === 0 ? null : `Hi-hat: ${slips.join(", ")}.`;
}

/** Accents and ghost notes of one voice; `null` where none are written or nothing could be told. */
export function dynamicsWords({ voice, accents, ghosts }: DynamicsFigures): string | null {
  const told: string[] = [];
  if (accents && accents.written > 0) {
    told.push(`${accents.standOut} of ${accents.written} accents stand out`);
    if (accents.unwritten > 0) told.push(`so ${doOrDoes(accents.unwritten)} ${accents.unwritten} unwritten`);
  }
  if (ghosts && ghosts.written > 0) {
    told.push(`${ghosts.asGhosts} of ${ghosts.written} ghost notes stay low`);
    if (ghosts.added > 0) told.push(`${ghosts.added} added`);
  }
  return told.length === 0 ? null : `${capital(voiceName(voice))}: ${told.join(", ")}.`;
}

function doOrDoes(count: number): string {
  return count === 1 ? "does" : "do";
}

/** Long to short of one limb; `null` where too few pairs were played. */
export function limbSwingWords({ limb, ratio }: LimbSwing): string | null {
  return ratio === null ? null : `${capital(limbName(limb))}: ${ratio.toFixed(1)} to 1, long to short.`;
}

type FigureWork = Extract<WorkOn, { readonly kind: "form" | "unison" | "ornament" | "hi-hat" | "accents" }>;

/** The one thing to work on where a figure of its own shows it. */
export function figureWorkWords(workOn: FigureWork): string {
  switch (workOn.kind) {
    case "form":
      return `${formWords(workOn.slip)} ${formAdvice(workOn.slip)}`;
    case "unison": {
      const where = workOn.gapMs < 0 ? "before" : "after";
      return `The ${limbName(workOn.limb)} comes ${milliseconds(workOn.gapMs)} ${where} the ${limbName(workOn.against)} where both are written. Let them land as one.`;
    }
    case "ornament":
      return ornamentAdvice(workOn.ornament, workOn.was, workOn.count);
    case "hi-hat":
      return workOn.was === "open-as-closed"
        ? `The open hi-hat sounded closed ${times(workOn.count)}. Let the foot come up.`
        : `The hi-hat sounded open ${times(workOn.count)} where it is written closed. Keep the foot down.`;
    case "accents":
      return `${the(workOn.voice)} had ${workOn.count === 1 ? "an accent" : `${numberWord(workOn.count)} accents`} that did not stand out. Bring them out, or play the rest lower.`;
  }
}

function ornamentAdvice(
  ornament: string,
  was: Extract<WorkOn, { readonly kind: "ornament" }>["was"],
  count: number,
): string {
  switch (was) {
    case "too-tight":
      return `The ${ornament} was too tight ${times(count)}. Give the grace stroke room.`;
    case "too-open":
      return `The ${ornament} was too open ${times(count)}. Let the two hands fall closer.`;
    case "no-grace":
      return `The ${ornament} came without its grace stroke ${times(count)}. Start the low hand lower.`;
  }
}

function formAdvice(slip: FormSlip): string {
  switch (slip.kind) {
    case "entry":
      return "Count in aloud, and come in on the one.";
    case "bars-dropped":
    case "bars-added":
      return "Count the bars aloud.";
    case "bars-silent":
    case "stopped":
      return "When it stops, breathe, and come in on the next one.";
    case "turned-round":
      return "Sing the one, and lay the groove on it.";
    case "one-off-place":
      return "Play the bar before it and the one, and nothing else, until the one lands.";
  }
}

function beats(count: number): string {
  const size = Math.abs(count);
  if (size === 1) return "one beat";
  return `${Number.isInteger(size) ? numberWord(size) : size.toFixed(1)} beats`;
}

function bars(count: number): string {
  return count === 1 ? "a bar" : `${numberWord(count)} bars`;
}

function wasOrWere(count: number): string {
  return count === 1 ? "was" : "were";
}

function lateOrEarly(by: Milliseconds): string {
  return by < 0 ? "early" : "late";
}
