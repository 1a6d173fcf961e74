import { floor, fraction, leastCommonMultiple, multiply, subtract } from "../units/index.ts";
import type { Feel } from "./feel.ts";
import { type Fill, inWholeBars } from "./fill.ts";
import { MOST_MARKS_IN_A_BAR, SILENCE, STROKES } from "./gridMarks.ts";
import type { Groove, Note } from "./groove.ts";
import { beatsPerBar, metreName } from "./metre.ts";

/**
 * Writes a groove so that {@link parseGrid} gives it back exactly: each bar of each voice on the coarsest grid
 * that holds its strokes and whole beats, or its strokes alone where that would be more marks than can be read.
 *
 * @example
 * parseGrid(printGrid(groove)) // => groove
 */
export function printGrid(groove: Groove): string {
  return [`groove: ${groove.id}`, `name: ${groove.name}`, ...printRest(groove)].join("\n");
}

/** Writes a fill so that {@link parseFill} gives it back exactly, as {@link printGrid} does a groove. */
export function printFill(fill: Fill): string {
  return [
    `fill: ${fill.id}`,
    `name: ${fill.name}`,
    `level: ${fill.level}`,
    ...printRest(inWholeBars(fill)),
  ].join("\n");
}

/** The headings that grooves and fills share, and the lines of the voices. */
function printRest(groove: Groove): readonly string[] {
  return [
    `metre: ${metreName(groove.metre)}`,
    `feel: ${printFeel(groove.feel)}`,
    `tempo: ${groove.tempoBpm.low}-${groove.tempoBpm.high}`,
    "",
    ...printVoices(groove),
    "",
  ];
}

function printVoices(groove: Groove): readonly string[] {
  const width = Math.max(...groove.voices.map((voice) => voice.length));
  return groove.voices.flatMap((voice) => {
    const notes = groove.notes.filter((note) => note.voice === voice);
    const strokes = `${voice.padEnd(width)} ${printBars(groove, notes, markOf)}`;
    if (notes.every((note) => note.hand === undefined)) return [strokes];
    return [strokes, `${"hands".padEnd(width)} ${printBars(groove, notes, (note) => note.hand ?? SILENCE)}`];
  });
}

function printFeel(feel: Feel): string {
  return feel.kind === "straight" ? "straight" : `swung ${feel.ratio} ${feel.written}`;
}

function markOf(note: Note): string {
  const mark = Object.entries(STROKES).find(
    ([, stroke]) => stroke.dynamic === note.dynamic && stroke.ornament === note.ornament,
  );
  return mark?.[0] ?? SILENCE;
}

function printBars(groove: Groove, notes: readonly Note[], mark: (note: Note) => string): string {
  const beatsInBar = beatsPerBar(groove.metre);
  let text = "|";
  for (let bar = 0; bar < groove.bars; bar += 1) {
    const places = notes.flatMap((note) => {
      const inBars = multiply(note.position, fraction(1, beatsInBar));
      return floor(inBars) === bar ? [{ place: subtract(inBars, fraction(bar)), mark: mark(note) }] : [];
    });
    const steps = places.reduce((grid, { place }) => leastCommonMultiple(grid, place.den), 1);
    const inWholeBeats = leastCommonMultiple(steps, beatsInBar);
    const grid = inWholeBeats <= MOST_MARKS_IN_A_BAR ? inWholeBeats : steps;
    const marks: string[] = new Array(grid).fill(SILENCE);
    for (const { place, mark } of places) marks[(place.num * grid) / place.den] = mark;
    text += ` ${grouped(marks, grid === inWholeBeats ? grid / beatsInBar : grid)} |`;
  }
  return text;
}

/** Marks with a space after every `size` of them. */
function grouped(marks: readonly string[], size: number): string {
  return marks.map((mark, step) => (step > 0 && step % size === 0 ? ` ${mark}` : mark)).join("");
}
