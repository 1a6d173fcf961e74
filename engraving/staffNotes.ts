/** The notes and rests of a bar, as VexFlow takes them. */
import {
  Beam,
  Dot,
  GraceNote,
  GraceNoteGroup,
  ModifierPosition,
  Parenthesis,
  StaveNote,
  Stem,
  type Note as VexNote,
  Voice,
} from "vexflow/core";
import {
  type HeadShape,
  type Metre,
  type StaffChord,
  type StaffHead,
  type StaffPart,
  type StaffPartBar,
  type StaffRest,
  stepsAboveBottomLine,
} from "../engine/score/index.ts";
import { compare, fraction, multiply, subtract } from "../engine/units/index.ts";
import { headLefts } from "./headColumns.ts";

/** A symbol with the note VexFlow made of it. */
export interface SetSymbol {
  readonly symbol: StaffChord | StaffRest;
  readonly note: DrumNote;
  /** Whether it is a rest that the other part has written for both. */
  readonly shared: boolean;
}

/** One part of one bar, ready to be laid out. A whole bar's rest has no voice: it stands in the middle by itself. */
export interface SetPart {
  readonly written: StaffPartBar;
  readonly symbols: readonly SetSymbol[];
  readonly beams: readonly Beam[];
  readonly voice: Voice | undefined;
  /** Whether its whole bar's rest is written by the other part for both. */
  readonly shared: boolean;
}

const UP = 1;
const DOWN = -1;

/** Stems of the hands go up, those of the feet down. */
export function stemOf(part: StaffPart): typeof UP | typeof DOWN {
  return part === "hands" ? UP : DOWN;
}

/** VexFlow's names for the shapes of heads; it picks the black, half or whole form itself. */
const HEAD_CODES: Readonly<Record<HeadShape, string>> = {
  normal: "n",
  x: "x",
  "circle-x": "cx",
  diamond: "h",
  "triangle-up": "tu",
  "triangle-down": "td",
  slash: "s",
  square: "sq",
};

/** Where the rests of a part stand, as keys of the staff: in the middle when the part is alone. */
interface RestPlaces {
  readonly short: string;
  readonly half: string;
}

const ALONE: RestPlaces = { short: "b/4", half: "b/4" };
const HANDS_ABOVE: RestPlaces = { short: "d/5", half: "d/5" };
const FEET_BELOW: RestPlaces = { short: "e/4", half: "e/4" };
/** Where the hands go down to the floor tom, the rests of the feet make way. */
const FEET_WELL_BELOW: RestPlaces = { short: "c/4", half: "e/4" };

/** Where rests of the part stand so that they touch neither the other part's heads nor its stems. */
function restPlaces(part: StaffPart, parts: readonly StaffPartBar[]): RestPlaces {
  if (parts.length === 1) return ALONE;
  if (part === "hands") return HANDS_ABOVE;
  const lowest = Math.min(
    ...parts.flatMap(({ part, symbols }) =>
      part === "feet"
        ? []
        : symbols.flatMap((symbol) => headsOf(symbol).map(({ place }) => stepsAboveBottomLine(place))),
    ),
  );
  return lowest < 4 ? FEET_WELL_BELOW : FEET_BELOW;
}

function headsOf(symbol: StaffChord | StaffRest): readonly StaffHead[] {
  return symbol.kind === "chord" ? symbol.heads : [];
}

/** A chord some of whose heads are not drawn: what was left out keeps its place and stem. */
export class DrumNote extends StaveNote {
  hidden: ReadonlySet<number> = new Set();

  override drawNoteHeads(): void {
    const context = this.checkContext();
    const lefts = headLefts(this);
    this.noteHeads.forEach((head, index) => {
      if (this.hidden.has(index)) return;
      // Where a head is drawn is where it is told to be, and by VexFlow one width aside if it is displaced.
      const aside = head.isDisplaced() ? (head.getWidth() - Stem.WIDTH / 2) * this.getStemDirection() : 0;
      head.setX(this.getNoteHeadBeginX() + (lefts[index] ?? 0) - aside);
      head.setContext(context).drawWithStyle();
    });
  }
}

/** VexFlow's own dots and parentheses would read the note's font back through the page; theirs is the same anyway. */
class AugmentationDot extends Dot {
  override setNote(note: VexNote): this {
    this.note = note;
    return this;
  }
}

class GhostParenthesis extends Parenthesis {
  override setNote(note: VexNote): this {
    this.note = note;
    return this;
  }
}

/**
 * Sets a part of a bar. Where all parts rest alike, the rest is written once, in the middle, by the first of them.
 *
 * @param hidden which heads (places in the source) are not drawn.
 */
export function setPart(
  written: StaffPartBar,
  parts: readonly StaffPartBar[],
  metre: Metre,
  hidden: (index: number) => boolean,
): SetPart {
  const isFirst = written === parts[0];
  const inAll = (rest: StaffRest) =>
    parts.length > 1 && parts.every(({ symbols }) => symbols.some((symbol) => isSameRest(symbol, rest)));
  const wholeBar = written.symbols.find(isWholeBarRest);
  if (wholeBar) {
    return { written, symbols: [], beams: [], voice: undefined, shared: !isFirst && inAll(wholeBar) };
  }
  const rests = restPlaces(written.part, parts);
  const symbols = written.symbols.map((symbol): SetSymbol => {
    if (symbol.kind === "chord") {
      return { symbol, note: chordNote(symbol, written.part, hidden), shared: false };
    }
    const alike = inAll(symbol);
    return { symbol, note: restNote(symbol, written.part, alike ? ALONE : rests), shared: alike && !isFirst };
  });
  for (const { actual, normal, first, last } of written.tuplets) {
    for (const { note } of symbols.slice(first, last + 1)) note.applyTickMultiplier(normal, actual);
  }
  const beams = written.beams.map(({ first, last }) => beamOver(symbols.slice(first, last + 1)));
  const voice = new Voice({ numBeats: metre.numerator, beatValue: metre.denominator })
    .setStrict(false)
    .addTickables(symbols.map(({ note }) => note));
  return { written, symbols, beams, voice, shared: false };
}

function isWholeBarRest(symbol: StaffChord | StaffRest): symbol is StaffRest {
  return symbol.kind === "rest" && symbol.wholeBar;
}

function isSameRest(symbol: StaffChord | StaffRest, rest: StaffRest): boolean {
  return (
    symbol.kind === "rest" &&
    compare(symbol.start, rest.start) === 0 &&
    compare(symbol.length, rest.length) === 0 &&
    symbol.value.base === rest.value.base
  );
}

function restNote({ value }: StaffRest, part: StaffPart, rests: RestPlaces): DrumNote {
  const note = new DrumNote({
    clef: "percussion",
    keys: [value.base <= 2 ? rests.half : rests.short],
    duration: String(value.base),
    dots: value.dots,
    type: "r",
    stemDirection: stemOf(part),
  });
  if (value.dots === 1) note.addModifier(new AugmentationDot(), 0);
  return note;
}

function keyOf({ place }: StaffHead): string {
  return `${place.step.toLowerCase()}/${place.octave}/${HEAD_CODES[place.head]}`;
}

function chordNote(chord: StaffChord, part: StaffPart, hidden: (index: number) => boolean): DrumNote {
  const { value, heads } = chord;
  const note = new DrumNote({
    clef: "percussion",
    keys: heads.map(keyOf),
    duration: String(value.base),
    dots: value.dots,
    stemDirection: stemOf(part),
  });
  note.hidden = new Set(heads.flatMap((head, at) => (hidden(head.index) ? [at] : [])));
  heads.forEach((head, at) => {
    if (value.dots === 1) note.addModifier(new AugmentationDot(), at);
    if (head.note.dynamic === "ghost") {
      note.addModifier(new GhostParenthesis(ModifierPosition.LEFT), at);
      note.addModifier(new GhostParenthesis(ModifierPosition.RIGHT), at);
    }
    if (head.note.ornament) note.addModifier(graceNotes(head), at);
  });
  return note;
}

/** One small slashed note for a flam, two beamed ones for a drag; struck, so without a slur. */
function graceNotes(head: StaffHead): GraceNoteGroup {
  const drag = head.note.ornament === "drag";
  const notes = Array.from(
    { length: drag ? 2 : 1 },
    () =>
      new GraceNote({
        clef: "percussion",
        keys: [keyOf(head)],
        duration: drag ? "16" : "8",
        slash: !drag,
        stemDirection: UP,
      }),
  );
  const group = new GraceNoteGroup(notes, false);
  return drag ? group.beamNotes() : group;
}

/** A level beam over the chords among the symbols: places on a drum staff are sounds, not a line that rises or falls. */
function beamOver(symbols: readonly SetSymbol[]): Beam {
  const chords = symbols.filter(({ symbol }) => symbol.kind === "chord");
  const beam = new Beam(chords.map(({ note }) => note));
  beam.renderOptions.flatBeams = true;
  beam.renderOptions.minFlatBeamOffset = 25;
  const shortest = Math.max(...chords.map(({ symbol }) => symbol.value.base));
  if (shortest >= 32) {
    // Inner beams break at each eighth, so that eight thirty-seconds are seen as two times four.
    beam.breakSecondaryAt(
      chords.flatMap((_, at) => {
        const next = chords[at + 1]?.symbol;
        const first = chords[0]?.symbol;
        if (!next || !first) return [];
        const inEighths = multiply(subtract(next.start, first.start), fraction(8));
        return inEighths.den === 1 ? [at] : [];
      }),
    );
  }
  return beam;
}
