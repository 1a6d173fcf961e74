/**
 * What else is known of a take, section by section: a sentence or two, and the figures as a table. Where a groove
 * does not ask for a thing, or too little of it was played, a sentence says so.
 */
import {
  type FormSlip,
  formWords,
  hiHatWords,
  type LimbSwing,
  limbName,
  limbSwingWords,
  numberWord,
  ornamentWords,
  type Report,
  type UnisonFigures,
  unisonWords,
  type Wander,
  wanderWords,
} from "../../../../engine/grading/index.ts";
import { voiceName } from "../../../../engine/kit/index.ts";
import type { Milliseconds } from "../../../../engine/units/index.ts";
import { formatCount, formatSpread, formatWholeMs } from "../../../charts/index.ts";

export interface MoreSection {
  readonly heading: string;
  readonly sentences: readonly string[];
  /** No table where the sentence says it all. */
  readonly table: MoreTable | null;
}

export interface MoreTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Places listed one by one; more are only counted. Our choice: what fits a page. */
export const MOST_PLACES = 12;

export function moreSections(report: Report): readonly MoreSection[] {
  return [
    formSection(report),
    wanderSection(report.wander),
    unisonSection(report.unisons),
    swingSection(report.swingByLimb),
    ornamentSection(report),
    hiHatSection(report),
    dynamicsSection(report),
  ];
}

function formSection({ form: { slips } }: Report): MoreSection {
  return {
    heading: "Form",
    sentences: slips.length === 0 ? ["The form held from beginning to end."] : slips.map(formWords),
    table: tableOf(
      ["where", "what", "strokes out of place"],
      slips.map((slip) => [placeWords(slip), SLIP_NAMES[slip.kind], String(slip.strokes)]),
    ),
  };
}

const SLIP_NAMES: Readonly<Record<FormSlip["kind"], string>> = {
  entry: "entry",
  "bars-dropped": "skipped",
  "bars-added": "added",
  "bars-silent": "left empty",
  stopped: "stopped",
  "turned-round": "turned round",
  "one-off-place": "one off its place",
};

/** "bar 5", "bar 5, beat 3.5": the first beat need not be said. */
function placeWords({ bar, beat }: { readonly bar: number; readonly beat: number }): string {
  return beat === 1 ? `bar ${bar}` : `bar ${bar}, beat ${Math.round(beat * 100) / 100}`;
}

function wanderSection(wander: Wander): MoreSection {
  const heading = "Clock and limbs";
  if (wander.kind === "too-few") {
    const sentence = `Too few even strokes in a row to tell the inner clock from the limbs: ${numberWord(wander.intervals)} so far.`;
    return { heading, sentences: [sentence], table: null };
  }
  const row = `Weighed on the even strokes of the ${limbName(wander.limb)}, ${formatWholeMs(wander.intervalMs)} apart.`;
  const correction =
    wander.correction === null
      ? []
      : [`Of each difference from the click, the next stroke makes good ${hundredWords(wander.correction)}.`];
  return {
    heading,
    sentences: [...sayable(wanderWords(wander)), row, ...correction],
    table: tableOf(
      ["figure", "value"],
      [
        ["intervals weighed", String(wander.intervals)],
        ["spread of the intervals", formatSpread(wander.intervalSpreadMs)],
        ...(wander.kind === "clock-and-limbs"
          ? [
              ["inner clock", formatSpread(wander.clockMs)],
              ["limb", formatSpread(wander.limbMs)],
            ]
          : []),
        ["correlation of neighbours", `${signed(wander.lag1)}, give or take ${wander.lag1Error.toFixed(2)}`],
      ],
    ),
  };
}

function unisonSection(unisons: readonly UnisonFigures[]): MoreSection {
  const sentences = unisons.map(unisonWords);
  return {
    heading: "Together",
    sentences: sentences.length > 0 ? sentences : ["No two limbs are written together often enough to tell."],
    table: tableOf(
      ["limbs", "gap", "spread", "pairs", "heard as two"],
      unisons.map((pair) => [
        `${limbName(pair.limb)} against ${limbName(pair.against)}`,
        gapWords(pair.gapMs),
        formatSpread(pair.spreadMs),
        String(pair.count),
        formatCount(pair.heardApart),
      ]),
    ),
  };
}

/** "9.3 ms before": a gap as a table has it. */
function gapWords(gapMs: Milliseconds): string {
  const gap = formatSpread(Math.abs(gapMs));
  return gap === formatSpread(0) ? gap : `${gap} ${gapMs < 0 ? "before" : "after"}`;
}

function swingSection(limbs: readonly LimbSwing[]): MoreSection {
  const told = limbs.flatMap((limb) => sayable(limbSwingWords(limb)));
  const untold =
    limbs.length === 0
      ? "Nothing is written on both halves of a beat."
      : "Too few pairs of beat and off-beat to tell the swing of a limb.";
  return {
    heading: "Swing by limb",
    sentences: told.length > 0 ? told : [untold],
    table: tableOf(
      ["limb", "long to short", "pairs", "measured from"],
      limbs.map(({ limb, ratio, pairs, ownBeats }) => [
        limbName(limb),
        ratio === null ? "too few pairs" : `${ratio.toFixed(2)} : 1`,
        String(pairs),
        ownBeats ? "its own beats" : "the beats of the others",
      ]),
    ),
  };
}

function ornamentSection({ ornaments }: Report): MoreSection {
  const sentences = ornaments.map(ornamentWords);
  return {
    heading: "Flams and drags",
    sentences: sentences.length > 0 ? sentences : ["None are written here."],
    table: tableOf(
      ["ornament", "as written", "too tight", "too open", "no grace", "mean gap"],
      ornaments.map(({ ornament, asWritten, tooTight, tooOpen, noGrace, gapMs }) => [
        ornament,
        formatCount(asWritten),
        formatCount(tooTight),
        formatCount(tooOpen),
        formatCount(noGrace),
        gapMs === null ? "none heard" : formatSpread(gapMs),
      ]),
    ),
  };
}

function hiHatSection({ hiHat }: Report): MoreSection {
  const heading = "Hi-hat";
  if (hiHat === null) return { heading, sentences: ["No hi-hat is written here."], table: null };
  const { open, closed, openAsClosed, closedAsOpen, pedal, pedalMissing } = hiHat;
  const hand = open + closed === 0 ? [] : [hiHatWords(hiHat) ?? "Open and closed as written."];
  const foot =
    pedal === 0
      ? []
      : [
          pedalMissing === 0
            ? "The foot closed it as written."
            : `The foot is missing ${pedalMissing} of ${pedal} times.`,
        ];
  return {
    heading,
    sentences: [...hand, ...foot],
    table: tableOf(
      ["written", "strokes", "sounded otherwise", "how far open, by the pedal"],
      [
        ...(open > 0
          ? [["open", String(open), formatCount(openAsClosed), opennessWords(hiHat.opennessOpen)]]
          : []),
        ...(closed > 0
          ? [["closed", String(closed), formatCount(closedAsOpen), opennessWords(hiHat.opennessClosed)]]
          : []),
        ...(pedal > 0 ? [["foot", String(pedal), formatCount(pedalMissing), "not asked"]] : []),
      ],
    ),
  };
}

function opennessWords(openness: number | null): string {
  return openness === null ? "the kit does not say" : `${Math.round(openness * 100)} in 100`;
}

function dynamicsSection({ dynamics }: Report): MoreSection {
  const places = dynamics.flatMap(({ voice, where }) => where.map((place) => ({ voice, ...place })));
  places.sort((a, b) => a.targetIndex - b.targetIndex);
  const more = places.length - MOST_PLACES;
  const told = dynamics.some(({ plain }) => plain !== null);
  return {
    heading: "Where the touch differs",
    sentences: [
      places.length > 0
        ? `${places.length === 1 ? "One stroke" : `${places.length} strokes`} of another strength than written${more > 0 ? `; the first ${numberWord(MOST_PLACES)} are listed` : ""}.`
        : told
          ? "Every stroke is as strong as it is written."
          : "Too few plain strokes to hold others against.",
    ],
    table: tableOf(
      ["where", "voice", "written", "heard"],
      places
        .slice(0, MOST_PLACES)
        .map(({ bar, beat, voice, written, heard }) => [
          `bar ${bar}, beat ${beat}`,
          voiceName(voice),
          written,
          heard,
        ]),
    ),
  };
}

function tableOf(columns: MoreTable["columns"], rows: MoreTable["rows"]): MoreTable | null {
  return rows.length === 0 ? null : { columns, rows };
}

/** The engine has no words where there is nothing to say. */
function sayable(words: string | null): readonly string[] {
  return words === null ? [] : [words];
}

function hundredWords(share: number): string {
  return `${Math.round(share * 100)} in 100`;
}

/** With the sign that print uses. */
function signed(value: number): string {
  return `${value < 0 ? "−" : ""}${Math.abs(value).toFixed(2)}`;
}
