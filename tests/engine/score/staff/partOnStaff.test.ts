import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Part,
  parsePart,
  partOnStaff,
  unfolded,
  unfoldedOnStaff,
} from "../../../../engine/score/index.ts";

const PART = parsePart(`part: river-road
name: River road

section: Verse
tempo: 92
play: eighths, 3 bars
play: eighths, 1 bar, ending toms

section: Chorus
tempo: 96
times: 3
play: eighths, 2 bars

section: Bridge
tempo: 96
times: 2
play: eighths, 1 bar
play: waltz, 2 bars

groove: eighths
name: Eighths
metre: 4/4
tempo: 80-140
hi-hat-closed | xxxx xxxx |
kick          | x... x... |

groove: waltz
name: Waltz
metre: 3/4
tempo: 80-140
kick | x.. |

fill: toms
name: Toms
level: steady
metre: 4/4
tempo: 60-110
high-tom | .... .... xxxx xxxx |
`);

describe("a part on the staff", () => {
  test("has what a section repeats once, and is written out where the metre changes", () => {
    const told = partOnStaff(PART).map(({ times, score }) => [
      score.section,
      times,
      score.metre.numerator,
      score.bars.length,
      score.repeated,
      score.tempo?.low,
      score.goesOn,
    ]);
    expect(told).toEqual([
      ["Verse", 1, 4, 4, false, 92, true],
      ["Chorus", 3, 4, 2, true, 96, true],
      ["Bridge", 1, 4, 1, false, undefined, true],
      [undefined, 1, 3, 2, false, 96, true],
      ["Bridge", 1, 4, 1, false, 96, true],
      [undefined, 1, 3, 2, false, 96, false],
    ]);
  });

  test("written out has every bar as often as it is played, and every stroke", () => {
    const scores = unfoldedOnStaff(PART);
    expect(scores.every(({ repeated }) => !repeated)).toBe(true);
    expect(headsIn(scores)).toBe(strokesOf(PART));
    expect(scores.reduce((sum, { bars }) => sum + bars.length, 0)).toBe(16);
  });

  test("any repeats of any sections keep all their bars and strokes", () => {
    const parts = fc
      .array(
        fc.record({ section: fc.constantFrom(...PART.sections), times: fc.integer({ min: 1, max: 4 }) }),
        {
          minLength: 1,
          maxLength: 6,
        },
      )
      .map(
        (chosen): Part => ({
          ...PART,
          sections: chosen.map(({ section, times }) => ({ ...section, times })),
        }),
      );
    fc.assert(
      fc.property(parts, (part) => {
        expect(headsIn(unfoldedOnStaff(part))).toBe(strokesOf(part));
        const read = partOnStaff(part).reduce((sum, { score, times }) => sum + headsIn([score]) * times, 0);
        expect(read).toBe(strokesOf(part));
      }),
      { numRuns: 40 },
    );
  });
});

function strokesOf(part: Part): number {
  return unfolded(part).reduce((sum, { notes }) => sum + notes.length, 0);
}

function headsIn(scores: ReturnType<typeof unfoldedOnStaff>): number {
  const chords = scores.flatMap(({ bars }) =>
    bars.flatMap(({ parts }) => parts.flatMap(({ symbols }) => symbols)),
  );
  return chords.reduce((sum, symbol) => sum + (symbol.kind === "chord" ? symbol.heads.length : 0), 0);
}
