/**
 * The notes and rests of one part in one bar as MusicXML. In a note the order of elements is fixed: grace or chord, the
 * place, duration, instrument, voice, type, dots, time modification, stem, notehead, beams, notations, words.
 */
import {
  DYNAMIC_VELOCITY,
  type Hand,
  type HeadShape,
  type Note,
  type NoteBase,
  type Ornament,
  type StaffChord,
  type StaffHead,
  type StaffPart,
  type StaffPartBar,
  type StaffRest,
  type StaffTuplet,
} from "../score/index.ts";
import type { Fraction } from "../units/index.ts";
import { instrumentId, TYPE_NAMES } from "./musicXmlNames.ts";
import { element, type XmlElement } from "./xml.ts";

const VOICE_NUMBERS: Readonly<Record<StaffPart, number>> = { hands: 1, feet: 2 };
const STEMS: Readonly<Record<StaffPart, string>> = { hands: "up", feet: "down" };
const NOTEHEADS: Readonly<Record<HeadShape, string>> = {
  normal: "normal",
  x: "x",
  "circle-x": "circle-x",
  diamond: "diamond",
  "triangle-up": "triangle",
  "triangle-down": "inverted triangle",
  slash: "slash",
  square: "square",
};
/** MusicXML gives strength in percent of a MIDI velocity of 90. */
const FULL_STRENGTH = 90 / 127;
const GRACES: Readonly<Record<Ornament, { readonly count: number; readonly base: NoteBase }>> = {
  flam: { count: 1, base: 8 },
  drag: { count: 2, base: 16 },
};

/** All of a part in a bar, in order; together as long as the bar. */
export function partNotes(bar: StaffPartBar, inTicks: (length: Fraction) => number): readonly XmlElement[] {
  return bar.symbols.flatMap((symbol, index) => {
    const tuplet = bar.tuplets.find(({ first, last }) => first <= index && index <= last);
    const ticks = inTicks(symbol.length);
    if (symbol.kind === "rest") return [restOf(symbol, { index, part: bar.part, tuplet, ticks })];
    const beams = beamsAt(bar, index);
    return chordNotes(symbol, { index, part: bar.part, tuplet, ticks, beams });
  });
}

interface SymbolHow {
  readonly index: number;
  readonly part: StaffPart;
  readonly tuplet: StaffTuplet | undefined;
  readonly ticks: number;
}

function restOf({ value, wholeBar }: StaffRest, { index, part, tuplet, ticks }: SymbolHow): XmlElement {
  return element("note", [
    element("rest", [], wholeBar ? { measure: "yes" } : {}),
    element("duration", ticks),
    element("voice", VOICE_NUMBERS[part]),
    !wholeBar && element("type", TYPE_NAMES[value.base]),
    !wholeBar && value.dots === 1 && element("dot"),
    tuplet && timeModification(tuplet),
    tuplet && notations(tupletEnds(tuplet, index)),
  ]);
}

function chordNotes(
  chord: StaffChord,
  how: SymbolHow & { readonly beams: readonly XmlElement[] },
): readonly XmlElement[] {
  const accented = chord.heads.find(({ note }) => note.dynamic === "accent");
  const graces = chord.heads.flatMap((head) => graceNotes(head, how.part));
  const heads = chord.heads.map((head, at) => {
    const { tuplet } = how;
    return element(
      "note",
      [
        at > 0 && element("chord"),
        unpitched(head),
        element("duration", how.ticks),
        element("instrument", [], { id: instrumentId(head.note.voice) }),
        element("voice", VOICE_NUMBERS[how.part]),
        element("type", TYPE_NAMES[chord.value.base]),
        chord.value.dots === 1 && element("dot"),
        tuplet && timeModification(tuplet),
        element("stem", STEMS[how.part]),
        notehead(head),
        ...(at === 0 ? how.beams : []),
        notations([
          ...(at === 0 && tuplet ? tupletEnds(tuplet, how.index) : []),
          ...technical(head),
          head === accented && element("articulations", [element("accent")]),
        ]),
        head.note.hand && sticking(head.note.hand),
      ],
      { dynamics: strengthOf(head.note) },
    );
  });
  return [...graces, ...heads];
}

function strengthOf({ dynamic }: Note): number {
  return Math.round((DYNAMIC_VELOCITY[dynamic] / FULL_STRENGTH) * 100);
}

/** A flam's one small note with a stroke through it, a drag's two under a beam; the hand is the other than the main stroke's. */
function graceNotes(head: StaffHead, part: StaffPart): readonly XmlElement[] {
  const { ornament } = head.note;
  if (!ornament) return [];
  const { count, base } = GRACES[ornament];
  return Array.from({ length: count }, (_, at) =>
    element("note", [
      element("grace", [], count === 1 ? { slash: "yes" } : {}),
      unpitched(head),
      element("instrument", [], { id: instrumentId(head.note.voice) }),
      element("voice", VOICE_NUMBERS[part]),
      element("type", TYPE_NAMES[base]),
      element("stem", STEMS[part]),
      element("notehead", NOTEHEADS[head.place.head]),
      ...(count === 1 ? [] : [1, 2].map((number) => element("beam", at === 0 ? "begin" : "end", { number }))),
    ]),
  );
}

function unpitched({ place }: StaffHead): XmlElement {
  return element("unpitched", [element("display-step", place.step), element("display-octave", place.octave)]);
}

function notehead({ note, place }: StaffHead): XmlElement | false {
  const ghost = note.dynamic === "ghost";
  if (!ghost && place.head === "normal") return false;
  return element("notehead", NOTEHEADS[place.head], ghost ? { parentheses: "yes" } : {});
}

/** An open hi-hat's small circle. */
function technical({ place }: StaffHead): readonly XmlElement[] {
  return place.open ? [element("technical", [element("open-string")])] : [];
}

/** The hand, below the note. Programs take fingerings for numbers; letters they show where words are sung. */
function sticking(hand: Hand): XmlElement {
  return element("lyric", [element("syllabic", "single"), element("text", hand)], { placement: "below" });
}

function notations(content: readonly (XmlElement | false)[]): XmlElement | false {
  const said = content.filter((each) => each !== false);
  return said.length > 0 && element("notations", said);
}

function timeModification({ actual, normal, unit }: StaffTuplet): XmlElement {
  return element("time-modification", [
    element("actual-notes", actual),
    element("normal-notes", normal),
    element("normal-type", TYPE_NAMES[unit]),
  ]);
}

function tupletEnds({ first, last }: StaffTuplet, index: number): readonly XmlElement[] {
  const end = (type: string): XmlElement => element("tuplet", [], { type, number: 1, bracket: "yes" });
  return [...(index === first ? [end("start")] : []), ...(index === last ? [end("stop")] : [])];
}

/** Beams at a chord, one an eighth's flag: each begins, goes on or ends, or is a hook beside a longer note. */
function beamsAt({ symbols, beams }: StaffPartBar, index: number): readonly XmlElement[] {
  const beam = beams.find(({ first, last }) => first <= index && index <= last);
  if (!beam) return [];
  const joined = symbols
    .slice(beam.first, beam.last + 1)
    .flatMap((symbol, at) =>
      symbol.kind === "chord" ? [{ at: beam.first + at, flags: flagsOf(symbol) }] : [],
    );
  const place = joined.findIndex(({ at }) => at === index);
  const own = joined[place]?.flags ?? 0;
  return Array.from({ length: own }, (_, level) => {
    const has = (other: number): boolean => (joined[other]?.flags ?? 0) > level;
    return element("beam", beamWord(has(place - 1), has(place + 1), place === 0), { number: level + 1 });
  });
}

function flagsOf({ value }: StaffChord): number {
  return Math.max(0, Math.log2(value.base) - 2);
}

function beamWord(before: boolean, after: boolean, first: boolean): string {
  if (before && after) return "continue";
  if (after) return "begin";
  if (before) return "end";
  return first ? "forward hook" : "backward hook";
}
