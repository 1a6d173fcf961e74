/**
 * The grid text: grooves and fills as a drummer would jot them, one line a voice.
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
 *
 * A fill is written in whole bars as well, silent before it begins, and says its level:
 *
 *     fill: two-beats-down-the-toms
 *     name: Two beats of sixteenths down the toms
 *     level: second-year
 *     metre: 4/4
 *     tempo: 60-110
 *
 *     high-tom  | .... .... xx.. .... |
 *     mid-tom   | .... .... ..xx .... |
 *     floor-tom | .... .... .... xxxx |
 *
 * It begins on the beat of its first stroke, here the third, and ends with its last bar. It has one or two bars.
 */
import { compare, floor, fraction, subtract } from "../units/index.ts";
import { type Fill, MOST_BARS_IN_A_FILL } from "./fill.ts";
import { GridError } from "./gridError.ts";
import { needed, readFeel, readHeads, readId, readLevel, readMetre, readTempo } from "./gridHeads.ts";
import { readVoiceLines, type VoiceLines } from "./gridLines.ts";
import type { Groove } from "./groove.ts";
import { beatsPerBar } from "./metre.ts";

const GROOVE_HEADS = ["groove", "name", "metre", "feel", "tempo"] as const;
const FILL_HEADS = ["fill", "name", "level", "metre", "feel", "tempo"] as const;

/**
 * Reads one groove.
 *
 * @throws GridError saying line, column, what is wrong there and what is expected.
 * @example
 * parseGrid("groove: pulse\nname: Pulse\nmetre: 4/4\nfeel: straight\ntempo: 60-90\nkick | x... |").notes.length // => 1
 */
export function parseGrid(text: string): Groove {
  const lines = text.split(/\r?\n/);
  const heads = readHeads(lines, GROOVE_HEADS);
  const metre = readMetre(needed(heads, "metre", lines.length));
  const { voices, notes, bars } = readVoiceLines(lines, beatsPerBar(metre));
  return {
    id: readId(needed(heads, "groove", lines.length)),
    name: needed(heads, "name", lines.length).value,
    metre,
    feel: readFeel(heads.get("feel")),
    tempoBpm: readTempo(needed(heads, "tempo", lines.length)),
    bars,
    voices,
    notes,
  };
}

/**
 * Reads one fill.
 *
 * @throws GridError saying line, column, what is wrong there and what is expected.
 * @example
 * parseFill("fill: end\nname: End\nlevel: steady\nmetre: 4/4\ntempo: 60-90\nsnare | ...x |").beats // => 1
 */
export function parseFill(text: string): Fill {
  const lines = text.split(/\r?\n/);
  const heads = readHeads(lines, FILL_HEADS);
  const metre = readMetre(needed(heads, "metre", lines.length));
  const beatsInBar = beatsPerBar(metre);
  const written = readVoiceLines(lines, beatsInBar);
  const silentBeats = beatsBefore(written, beatsInBar, lines.length);
  return {
    id: readId(needed(heads, "fill", lines.length)),
    name: needed(heads, "name", lines.length).value,
    level: readLevel(needed(heads, "level", lines.length)),
    metre,
    feel: readFeel(heads.get("feel")),
    tempoBpm: readTempo(needed(heads, "tempo", lines.length)),
    beats: written.bars * beatsInBar - silentBeats,
    voices: written.voices,
    notes: written.notes.map((note) => ({
      ...note,
      position: subtract(note.position, fraction(silentBeats)),
    })),
  };
}

/** Whole beats before the beat of the first stroke. @throws GridError when a fill cannot be written so. */
function beatsBefore({ bars, notes }: VoiceLines, beatsInBar: number, lastLine: number): number {
  if (bars > MOST_BARS_IN_A_FILL) {
    throw new GridError(lastLine, 1, `a fill has one or two bars; this has ${bars}.`);
  }
  const [first] = notes;
  if (!first) throw new GridError(lastLine, 1, "a fill needs a stroke.");
  if (compare(first.position, fraction(beatsInBar)) >= 0) {
    throw new GridError(lastLine, 1, "the fill’s first bar is silent; leave that bar out.");
  }
  return floor(first.position);
}
