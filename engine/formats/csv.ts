/**
 * Tables as comma-separated values.
 * Source: RFC 4180 (Shafranovich 2005): lines end in CR LF, the last one too; a field with a comma, a quote or a line break
 * stands between quotes, a quote in it is doubled. Numbers have a point, whatever the country.
 */
import type { Report } from "../grading/index.ts";
import { type Hit, voiceName } from "../kit/index.ts";
import { beatsPerBar, type Groove, metreName, type Note } from "../score/index.ts";
import { floor, fraction, subtract } from "../units/index.ts";

/** `null` is an empty field: what could not be told. */
export type Cell = string | number | boolean | null;

/** Numbers are written with so many decimals at most: times to a tenth of a millisecond. */
const DECIMALS = 4;

/**
 * A table with a head line.
 *
 * @throws RangeError for a line with more or fewer fields than the head, or a number that is none.
 * @example
 * csv(["voice", "count"], [["snare, rim", 2]]) // => 'voice,count\r\n"snare, rim",2\r\n'
 */
export function csv(head: readonly string[], lines: readonly (readonly Cell[])[]): string {
  return [head, ...lines]
    .map((line) => {
      if (line.length !== head.length)
        throw new RangeError(`A line of the table has ${line.length} fields, its head ${head.length}.`);
      return `${line.map(field).join(",")}\r\n`;
    })
    .join("");
}

function field(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell === "number") {
    if (!Number.isFinite(cell)) throw new RangeError(`${cell} is not a number that a table can hold.`);
    return String(Number(cell.toFixed(DECIMALS)) + 0);
  }
  if (typeof cell === "boolean") return cell ? "yes" : "no";
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** What is said of each hit of a take, beside the hit itself: its written place, when it was quantised. */
export interface WrittenHit {
  /** From 1. */
  readonly bar: number;
  /** From 1; 2.5 is the eighth after the second beat. */
  readonly beat: number;
  readonly dynamic: string;
}

/**
 * One line a hit, in order of time: seconds, voice, zone, velocity 0 to 1, hi-hat openness 0 to 1, MIDI key; then bar, beat
 * and touch where they are known.
 *
 * @param written for each hit where it was written down, or `undefined`.
 */
export function hitsCsv(hits: readonly Hit[], written: readonly (WrittenHit | undefined)[] = []): string {
  return csv(
    ["seconds", "voice", "zone", "velocity", "openness", "key", "bar", "beat", "touch"],
    hits.map(({ time, voice, zone, velocity, openness, pad }, index) => {
      const place = written[index];
      return [
        time,
        voiceName(voice),
        zone,
        velocity,
        openness ?? null,
        pad,
        place?.bar ?? null,
        place?.beat ?? null,
        place?.dynamic ?? null,
      ];
    }),
  );
}

/** Where a note stands: bar and beat from 1. */
export function placeOf(
  { metre }: Pick<Groove, "metre">,
  { position }: Pick<Note, "position">,
): { readonly bar: number; readonly beat: number } {
  const beats = beatsPerBar(metre);
  const bar = Math.floor(floor(position) / beats);
  const within = subtract(position, fraction(bar * beats));
  return { bar: bar + 1, beat: 1 + within.num / within.den };
}

/** One line a written stroke: bar and beat from 1, the beat's exact fraction, voice, touch, ornament, hand. */
export function notesCsv(written: Pick<Groove, "metre" | "notes">): string {
  return csv(
    ["metre", "bar", "beat", "position", "voice", "touch", "ornament", "hand"],
    written.notes.map((note) => {
      const { bar, beat } = placeOf(written, note);
      const { num, den } = note.position;
      return [
        metreName(written.metre),
        bar,
        beat,
        den === 1 ? String(num) : `${num}/${den}`,
        voiceName(note.voice),
        note.dynamic,
        note.ornament ?? null,
        note.hand ?? null,
      ];
    }),
  );
}

const REPORT_HEAD = [
  "of",
  "which",
  "strokes",
  "lean ms",
  "spread ms",
  "written",
  "as written",
  "other sound",
  "left out",
  "added",
  "ghosted",
  "heavy",
] as const;

/**
 * A report, one line for the take, one for each beat and each bar, one for each voice. A lean below 0 is ahead. What a line
 * does not tell is empty.
 */
export function reportCsv(report: Report): string {
  const nothing = new Array<null>(7).fill(null);
  const matched = report.hits.filter(({ state }) => state === "matched").length;
  return csv(REPORT_HEAD, [
    ["take", report.targetName, matched, report.leanMs, report.spreadMs, ...nothing],
    ...report.perBeat.map(({ beat, count, leanMs, spreadMs }) => [
      "beat",
      beat,
      count,
      leanMs,
      spreadMs,
      ...nothing,
    ]),
    ...report.perBar.map(({ bar, count, leanMs, spreadMs }) => [
      "bar",
      bar,
      count,
      leanMs,
      spreadMs,
      ...nothing,
    ]),
    ...report.voices.map((own) => [
      "voice",
      voiceName(own.voice),
      own.count,
      own.leanMs,
      own.spreadMs,
      own.written,
      own.asWritten,
      own.otherSound.reduce((sum, { count }) => sum + count, 0),
      own.leftOut,
      own.added,
      own.touch.ghosted,
      own.touch.heavy,
    ]),
  ]);
}
