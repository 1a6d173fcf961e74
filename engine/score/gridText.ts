/**
 * The grid text: grooves as a drummer would jot them, one line a voice.
 *
 *     groove: rock-eighths
 *     name: Rock eighths
 *     metre: 4/4
 *     feel: straight
 *     tempo: 80-140
 *
 *     hi-hat-closed | x.x. x.x. x.x. x.x. |
 *     snare         | .... x... .... x... |
 *     kick          | x... .... x.x. .... |
 *
 * Between two bar lines every mark has the same length, so each bar of each line chooses its own grid by how
 * many marks it has: 16 marks in 4/4 are sixteenths, 12 are triplet eighths. Spaces mean nothing.
 *
 * Marks: `.` silence, `x` plain, `X` accent, `g` ghost, `f` flam, `F` accented flam, `h` ghosted flam,
 * `d` drag, `D` accented drag, `e` ghosted drag. A line beginning with `hands` under a voice names the hand of
 * each stroke: `R`, `L`, or `.` for none. `#` starts a comment line.
 * Feel: `straight`, or `swung 2 eighths` (or `triplets`, `sixteenths`).
 */
import { VOICES, type Voice } from "../kit/index.ts";
import { add, compare, type Fraction, fraction } from "../units/index.ts";
import type { Feel } from "./feel.ts";
import { STRAIGHT } from "./feel.ts";
import { MOST_MARKS_IN_A_BAR, SILENCE, STROKES } from "./gridMarks.ts";
import { type Groove, type Hand, inOrder, type Note } from "./groove.ts";
import { beatsPerBar, type Metre } from "./metre.ts";

/** Thrown when a grid cannot be read. Line and column count from 1. */
export class GridError extends Error {
  override readonly name = "GridError";
  readonly line: number;
  readonly column: number;

  constructor(line: number, column: number, problem: string) {
    super(`Line ${line}, column ${column}: ${problem}`);
    this.line = line;
    this.column = column;
  }
}

const HEADS = ["groove", "name", "metre", "feel", "tempo"] as const;
type Head = (typeof HEADS)[number];
const HEADING = /^\s*([a-z]+)\s*:\s*(.*?)\s*$/;

interface Placed<T> {
  readonly value: T;
  readonly line: number;
  readonly column: number;
}

/**
 * Reads one groove.
 *
 * @throws GridError saying line, column, what is wrong there and what is expected.
 * @example
 * parseGrid("groove: pulse\nname: Pulse\nmetre: 4/4\nfeel: straight\ntempo: 60-90\nkick | x... |").notes.length // => 1
 */
export function parseGrid(text: string): Groove {
  const lines = text.split(/\r?\n/);
  const heads = readHeads(lines);
  const metre = readMetre(needed(heads, "metre", lines.length));
  const lineReader = new VoiceLines(beatsPerBar(metre));
  lines.forEach((line, index) => {
    if (HEADING.test(line)) return;
    if (line.includes("|")) lineReader.read(line, index + 1);
    else refuseStray(line, index + 1);
  });
  const { voices, notes, bars } = lineReader.finish(lines.length);
  return {
    id: readId(needed(heads, "groove", lines.length)),
    name: needed(heads, "name", lines.length).value,
    metre,
    feel: readFeel(heads.get("feel")),
    tempoBpm: readTempo(needed(heads, "tempo", lines.length)),
    bars,
    voices,
    notes: inOrder(notes, voices),
  };
}

function readHeads(lines: readonly string[]): ReadonlyMap<Head, Placed<string>> {
  const heads = new Map<Head, Placed<string>>();
  lines.forEach((line, index) => {
    const found = HEADING.exec(line);
    if (!found) return;
    const key = HEADS.find((head) => head === found[1]);
    if (!key) {
      throw new GridError(
        index + 1,
        1,
        `"${found[1]}" is not a heading; the headings are ${HEADS.join(", ")}.`,
      );
    }
    if (heads.has(key)) throw new GridError(index + 1, 1, `"${key}" is said twice.`);
    const value = found[2] ?? "";
    heads.set(key, { value, line: index + 1, column: line.trimEnd().length - value.length + 1 });
  });
  return heads;
}

function needed(heads: ReadonlyMap<Head, Placed<string>>, key: Head, lastLine: number): Placed<string> {
  const found = heads.get(key);
  if (!found || found.value === "") throw new GridError(found?.line ?? lastLine, 1, `"${key}:" is missing.`);
  return found;
}

function refuseStray(line: string, lineNumber: number): void {
  const meaning = line.trim();
  if (meaning === "" || meaning.startsWith("#")) return;
  throw new GridError(
    lineNumber,
    line.search(/\S/) + 1,
    `"${meaning}" is neither a heading nor a line of a voice with bar lines.`,
  );
}

function readId(head: Placed<string>): string {
  if (/^[a-z0-9]+([-/][a-z0-9]+)*$/.test(head.value)) return head.value;
  throw new GridError(
    head.line,
    head.column,
    `"${head.value}" is not an id: use lower-case letters, digits and hyphens.`,
  );
}

function readMetre(head: Placed<string>): Metre {
  const found = /^(\d{1,2})\/(1|2|4|8|16)$/.exec(head.value);
  const numerator = Number(found?.[1]);
  if (!found || numerator < 1) {
    throw new GridError(head.line, head.column, `"${head.value}" is not a metre such as 4/4 or 12/8.`);
  }
  return { numerator, denominator: Number(found[2]) };
}

function readFeel(head: Placed<string> | undefined): Feel {
  if (!head || head.value === "straight") return STRAIGHT;
  const found = /^swung (\d+(?:\.\d+)?) (eighths|triplets|sixteenths)$/.exec(head.value);
  const ratio = Number(found?.[1]);
  const written = found?.[2];
  if (written !== "eighths" && written !== "triplets" && written !== "sixteenths") {
    throw new GridError(
      head.line,
      head.column,
      `"${head.value}" is not a feel: say "straight" or, say, "swung 2 eighths".`,
    );
  }
  if (ratio < 1 || ratio > 4) {
    throw new GridError(head.line, head.column, `a swing ratio of ${ratio} is outside 1 (straight) to 4.`);
  }
  return { kind: "swung", ratio, written };
}

function readTempo(head: Placed<string>): { low: number; high: number } {
  const found = /^(\d{2,3})-(\d{2,3})$/.exec(head.value);
  const low = Number(found?.[1]);
  const high = Number(found?.[2]);
  if (!found || low > high || low < 20 || high > 400) {
    throw new GridError(head.line, head.column, `"${head.value}" is not a range of tempos such as 80-140.`);
  }
  return { low, high };
}

/** Reads the voice lines one after the other; a voice may go on over several lines, which are joined. */
class VoiceLines {
  readonly #beatsInBar: number;
  readonly #notes: Note[] = [];
  readonly #barsOf = new Map<Voice, number>();
  #current: { voice: Voice; firstBar: number; firstNote: number } | undefined;

  constructor(beatsInBar: number) {
    this.#beatsInBar = beatsInBar;
  }

  read(line: string, lineNumber: number): void {
    const firstBarLine = line.indexOf("|");
    const label = line.slice(0, firstBarLine).trim();
    const column = line.search(/\S/) + 1;
    if (line.trim().startsWith("#")) return;
    if (label === "hands") this.#readHands(line, lineNumber, column);
    else this.#readVoice(label, line, lineNumber, column);
  }

  finish(lastLine: number): { voices: Voice[]; notes: Note[]; bars: number } {
    const [bars] = this.#barsOf.values();
    if (bars === undefined) throw new GridError(lastLine, 1, "there is no line of a voice.");
    for (const [voice, count] of this.#barsOf) {
      if (count !== bars) {
        throw new GridError(lastLine, 1, `${voice} has ${count} bars where the first voice has ${bars}.`);
      }
    }
    return { voices: [...this.#barsOf.keys()], notes: this.#notes, bars };
  }

  #readVoice(label: string, line: string, lineNumber: number, column: number): void {
    const voice = VOICES.find((known) => known === label);
    if (!voice) {
      throw new GridError(lineNumber, column, `"${label}" is not a voice of the kit.`);
    }
    const firstBar = this.#barsOf.get(voice) ?? 0;
    this.#current = { voice, firstBar, firstNote: this.#notes.length };
    let bar = firstBar;
    for (const marks of barsOf(line, lineNumber)) {
      marks.forEach((mark, step) => {
        if (mark.value === SILENCE) return;
        const stroke = STROKES[mark.value];
        if (!stroke) {
          throw new GridError(
            lineNumber,
            mark.column,
            `"${mark.value}" is not a mark; use . x X g f F h d D e.`,
          );
        }
        this.#notes.push({ position: this.#position(bar, step, marks.length), voice, ...stroke });
      });
      bar += 1;
    }
    this.#barsOf.set(voice, bar);
  }

  #readHands(line: string, lineNumber: number, column: number): void {
    const current = this.#current;
    if (!current) throw new GridError(lineNumber, column, `"hands" must stand under the line of a voice.`);
    let bar = current.firstBar;
    for (const marks of barsOf(line, lineNumber)) {
      marks.forEach((mark, step) => {
        if (mark.value === SILENCE) return;
        if (mark.value !== "R" && mark.value !== "L") {
          throw new GridError(
            lineNumber,
            mark.column,
            `"${mark.value}" is not a hand; use R, L or . for none.`,
          );
        }
        this.#giveHand(
          current.firstNote,
          this.#position(bar, step, marks.length),
          mark.value,
          lineNumber,
          mark.column,
        );
      });
      bar += 1;
    }
    if (bar !== this.#barsOf.get(current.voice)) {
      throw new GridError(
        lineNumber,
        column,
        `the hands have another number of bars than ${current.voice} above them.`,
      );
    }
  }

  #giveHand(firstNote: number, position: Fraction, hand: Hand, lineNumber: number, column: number): void {
    const index = this.#notes.findIndex(
      (note, at) => at >= firstNote && compare(note.position, position) === 0,
    );
    const note = this.#notes[index];
    if (!note)
      throw new GridError(lineNumber, column, "a hand is named where the voice above has no stroke.");
    this.#notes[index] = { ...note, hand };
  }

  #position(bar: number, step: number, marksInBar: number): Fraction {
    return add(fraction(bar * this.#beatsInBar), fraction(step * this.#beatsInBar, marksInBar));
  }
}

/** The marks of each bar of a line, with their columns. */
function barsOf(line: string, lineNumber: number): Placed<string>[][] {
  const bars: Placed<string>[][] = [];
  let marks: Placed<string>[] | undefined;
  [...line].forEach((value, index) => {
    const column = index + 1;
    if (value === "|") {
      if (marks && marks.length === 0) throw new GridError(lineNumber, column, "a bar has no marks.");
      if (marks && marks.length > MOST_MARKS_IN_A_BAR) {
        throw new GridError(
          lineNumber,
          column,
          `a bar has ${marks.length} marks; at most ${MOST_MARKS_IN_A_BAR} can be read.`,
        );
      }
      if (marks) bars.push(marks);
      marks = [];
    } else if (value.trim() !== "") marks?.push({ value, line: lineNumber, column });
  });
  if (marks && marks.length > 0)
    throw new GridError(lineNumber, line.length, "the last bar is not closed with a bar line.");
  if (bars.length === 0) throw new GridError(lineNumber, line.length, "there is no bar between bar lines.");
  return bars;
}
