/** The lines of the voices in the grid text, with the hands under them. */
import { VOICES, type Voice } from "../kit/index.ts";
import { add, compare, type Fraction, fraction } from "../units/index.ts";
import { GridError, type Placed } from "./gridError.ts";
import { isHeading } from "./gridHeads.ts";
import { MOST_MARKS_IN_A_BAR, SILENCE, STROKES } from "./gridMarks.ts";
import { type Hand, inOrder, type Note } from "./groove.ts";

/** What the lines of the voices say together. */
export interface VoiceLines {
  readonly bars: number;
  readonly voices: readonly Voice[];
  readonly notes: readonly Note[];
}

/** Reads all lines that are not headings. @throws GridError on one that cannot be read, or when no voice is there. */
export function readVoiceLines(lines: readonly string[], beatsInBar: number): VoiceLines {
  const reader = new LineReader(beatsInBar);
  lines.forEach((line, index) => {
    if (isHeading(line)) return;
    if (line.includes("|")) reader.read(line, index + 1);
    else refuseStray(line, index + 1);
  });
  const { voices, notes, bars } = reader.finish(lines.length);
  return { voices, notes: inOrder(notes, voices), bars };
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

/** Reads the voice lines one after the other; a voice may go on over several lines, which are joined. */
class LineReader {
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
