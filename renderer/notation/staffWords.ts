/** A score in words, for those who do not see the staff. The grid is its table; this is its caption. */
import { voiceName } from "../../engine/kit/index.ts";
import { isCompound, metreName, type StaffScore } from "../../engine/score/index.ts";
import { type Fraction, floor, fraction, subtract } from "../../engine/units/index.ts";

/** Longer scores are told by their number of bars alone. */
const MOST_BARS = 2;

/**
 * What is written, voice by voice, by the places of the bar as they are counted.
 *
 * @example
 * staffWords(writeStaff(groove)) // => "1 bar of 4/4. hi-hat on 1, 1 and, 2, 2 and; snare on 2, 4; kick on 1, 3."
 */
export function staffWords(score: StaffScore): string {
  const count = score.bars.length;
  const head = `${count === 1 ? "1 bar" : `${count} bars`} of ${metreName(score.metre)}`;
  const swing = score.swing ? ", swung" : "";
  if (count > MOST_BARS) return `${head}${swing}.`;
  const bars = score.bars.map((_, bar) => barWords(score, bar));
  return `${head}${swing}. ${bars.map((words, bar) => (count === 1 ? words : `Bar ${bar + 1}: ${words}`)).join(" ")}`;
}

function barWords(score: StaffScore, bar: number): string {
  const places = new Map<string, string[]>();
  const beats = score.metre.numerator / (isCompound(score.metre) ? 3 : 1);
  for (const { symbols } of score.bars[bar]?.parts ?? []) {
    for (const symbol of symbols) {
      if (symbol.kind === "rest") continue;
      for (const { note } of symbol.heads) {
        const name = voiceName(note.voice);
        const place = counted(subtract(note.position, fraction(bar * beats)), isCompound(score.metre));
        places.set(name, [...(places.get(name) ?? []), place]);
      }
    }
  }
  if (places.size === 0) return "Silent.";
  return `${[...places].map(([name, counts]) => `${name} on ${counts.join(", ")}`).join("; ")}.`;
}

const SIMPLE: Readonly<Record<string, string>> = { "1/4": "e", "1/2": "and", "3/4": "a" };
const THIRDS: Readonly<Record<string, string>> = { "1/3": "second third", "2/3": "last third" };

/** A place as drummers count it: "2", "2 and", "3 e"; a place without a name by its share of the beat. */
function counted(position: Fraction, compound: boolean): string {
  const beat = floor(position);
  const within = subtract(position, fraction(beat));
  if (within.num === 0) return String(beat + 1);
  const key = `${within.num}/${within.den}`;
  const name = compound ? THIRDS[key] : (SIMPLE[key] ?? THIRDS[key]);
  return `${beat + 1} ${name ?? `and ${key}`}`;
}
