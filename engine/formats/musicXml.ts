/**
 * Written music out as MusicXML 4.0, partwise: what a drum-set staff shows, for any notation program.
 * Source: W3C Music Notation Community Group, MusicXML 4.0, June 2021. Its elements stand in a fixed order; a MIDI key is
 * written as key + 1 (`midi-unpitched`), channel 10 as 10; a note of a percussion staff is `unpitched`, placed as in the
 * treble clef.
 */
import { type KitMap, noteFor, type Voice, voiceName } from "../kit/index.ts";
import { type StaffBar, type StaffScore, type SwingMark, valueLength } from "../score/index.ts";
import { type Fraction, leastCommonMultiple, toNumber } from "../units/index.ts";

import { instrumentId, PART, TYPE_NAMES } from "./musicXmlNames.ts";
import { partNotes } from "./musicXmlNotes.ts";
import { NoKeyError } from "./scoreSmf.ts";
import { element, type XmlElement, xmlText } from "./xml.ts";

/** What stands at the head of the page, and what sounds. */
export interface MusicXmlHow {
  /** Keys of the voices; the first of a voice is taken. */
  readonly map: KitMap;
  /** Left out, the name of the first score. */
  readonly title?: string;
}

const PERCUSSION_CHANNEL = 10;

/**
 * A whole document.
 *
 * @param scores written music in a row, such as the sections of a part; each begins with a bar.
 * @throws NoKeyError when the map has no key for a voice.
 * @example
 * writeMusicXml([writeStaff(groove, { repeated: true })], { map }).startsWith("<?xml") // => true
 */
export function writeMusicXml(scores: readonly StaffScore[], how: MusicXmlHow): string {
  const title = how.title ?? scores[0]?.name ?? "";
  const divisions = divisionsFor(scores);
  let number = 0;
  const measures = scores.flatMap((score, index) =>
    score.bars.map((bar, at) => {
      number += 1;
      const before = scores[index - 1];
      return measureOf(score, bar, {
        number,
        first: at === 0,
        last: at === score.bars.length - 1,
        divisions,
        newMetre: at === 0 && !(before && sameMetre(before, score)),
        newClef: number === 1,
      });
    }),
  );
  const document = element(
    "score-partwise",
    [
      title !== "" && element("work", [element("work-title", title)]),
      element("identification", [element("encoding", [element("software", "Throneside")])]),
      partList(voicesOf(scores), how.map),
      element("part", measures, { id: PART }),
    ],
    { version: "4.0" },
  );
  return `<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n${DOCTYPE}\n${xmlText(document)}`;
}

const DOCTYPE =
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';

function sameMetre(a: StaffScore, b: StaffScore): boolean {
  return a.metre.numerator === b.metre.numerator && a.metre.denominator === b.metre.denominator;
}

/** Parts of a quarter note in which every length is whole. */
function divisionsFor(scores: readonly StaffScore[]): number {
  let divisions = 1;
  const hold = ({ num, den }: Fraction): void => {
    const quarters = { num: num * 4, den };
    divisions = leastCommonMultiple(divisions, quarters.den / greatestDivisor(quarters.num, quarters.den));
  };
  for (const { bars } of scores) {
    for (const { parts } of bars)
      for (const { symbols } of parts) for (const { length } of symbols) hold(length);
  }
  return divisions;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

function voicesOf(scores: readonly StaffScore[]): readonly Voice[] {
  const voices = new Set<Voice>();
  for (const { bars } of scores) {
    for (const { parts } of bars) {
      for (const { symbols } of parts) {
        for (const symbol of symbols) {
          if (symbol.kind === "chord") for (const { note } of symbol.heads) voices.add(note.voice);
        }
      }
    }
  }
  return [...voices];
}

function partList(voices: readonly Voice[], map: KitMap): XmlElement {
  const keys = voices.map((voice) => {
    const key = noteFor(map, voice);
    if (key === undefined)
      throw new NoKeyError(`The map ${map.name} has no key for the ${voiceName(voice)}.`);
    return { voice, key };
  });
  return element("part-list", [
    element(
      "score-part",
      [
        element("part-name", "Drum set"),
        ...keys.map(({ voice }) =>
          element("score-instrument", [element("instrument-name", voiceName(voice))], {
            id: instrumentId(voice),
          }),
        ),
        ...keys.map(({ voice, key }) =>
          element(
            "midi-instrument",
            [
              element("midi-channel", PERCUSSION_CHANNEL),
              element("midi-program", 1),
              element("midi-unpitched", key + 1),
            ],
            { id: instrumentId(voice) },
          ),
        ),
      ],
      { id: PART },
    ),
  ]);
}

interface MeasureHow {
  readonly number: number;
  /** Of its score. */
  readonly first: boolean;
  readonly last: boolean;
  readonly divisions: number;
  readonly newMetre: boolean;
  readonly newClef: boolean;
}

function measureOf(score: StaffScore, bar: StaffBar, how: MeasureHow): XmlElement {
  const inTicks = (length: Fraction): number => Math.round(toNumber(length) * 4 * how.divisions);
  const barTicks = inTicks({ num: score.metre.numerator, den: score.metre.denominator });
  return element(
    "measure",
    [
      how.first && score.repeated && repeatSign("left"),
      (how.newMetre || how.newClef) && attributes(score, how),
      ...(how.first ? directions(score) : []),
      ...bar.parts.flatMap((part, index) => [
        index > 0 && element("backup", [element("duration", barTicks)]),
        ...partNotes(part, inTicks),
      ]),
      how.last && (score.repeated ? repeatSign("right") : endSign(how)),
    ],
    { number: how.number },
  );
}

function repeatSign(location: "left" | "right"): XmlElement {
  return element(
    "barline",
    [
      element("bar-style", location === "left" ? "heavy-light" : "light-heavy"),
      element("repeat", [], { direction: location === "left" ? "forward" : "backward" }),
    ],
    { location },
  );
}

function endSign({ last }: MeasureHow): XmlElement | false {
  return last && element("barline", [element("bar-style", "light-light")], { location: "right" });
}

function attributes({ metre }: StaffScore, { divisions, newClef, newMetre }: MeasureHow): XmlElement {
  return element("attributes", [
    newClef && element("divisions", divisions),
    newClef && element("key", [element("fifths", 0)]),
    newMetre && element("time", [element("beats", metre.numerator), element("beat-type", metre.denominator)]),
    newClef && element("clef", [element("sign", "percussion")]),
  ]);
}

/** Name of the section, tempo and swing, above the first bar. */
function directions({ section, tempo, swing }: StaffScore): readonly XmlElement[] {
  const marks: XmlElement[] = [];
  if (section !== undefined) marks.push(direction(element("rehearsal", section)));
  if (tempo) {
    const { beat, low, high } = tempo;
    const quarters = toNumber(valueLength(beat)) * 4;
    const bpm = Math.round(Math.sqrt(low * high) * 100) / 100;
    marks.push(
      direction(
        element("metronome", [
          element("beat-unit", TYPE_NAMES[beat.base]),
          beat.dots === 1 && element("beat-unit-dot"),
          element("per-minute", low === high ? `${low}` : `${low}-${high}`),
        ]),
        element("sound", [], { tempo: Math.round(bpm * quarters * 100) / 100 }),
      ),
    );
  }
  if (swing) marks.push(direction(element("words", "Swing"), element("sound", [swingOf(swing)])));
  return marks;
}

function direction(type: XmlElement, sound?: XmlElement): XmlElement {
  return element("direction", [element("direction-type", [type]), ...(sound ? [sound] : [])], {
    placement: "above",
  });
}

/** MusicXML 4.0: whole numbers, long to short. */
function swingOf({ ratio, unit }: SwingMark): XmlElement {
  const long = Math.round(ratio * 100);
  const common = greatestDivisor(long, 100);
  return element("swing", [
    element("first", long / common),
    element("second", 100 / common),
    element("swing-type", unit === "eighths" ? "eighth" : "16th"),
  ]);
}
