/** A part on the staff: section by section to be read, or stretch by stretch to be written out. */
import { add, type Bpm, fraction } from "../../units/index.ts";
import { beatsPerBar, metreName } from "../metre.ts";
import { type Part, type Stretch, unfolded } from "../part.ts";
import type { StaffScore } from "./staffScore.ts";
import { writeStaff } from "./writeStaff.ts";

/** Bars in a row that are read as one: a whole section, or as much of it as has one metre. */
export interface StaffSection {
  /** How often it is played; more than once between repeat signs. */
  readonly times: number;
  readonly score: StaffScore;
}

/**
 * The part as it is read: what a section repeats stands once, between repeat signs. A section whose metre changes within
 * it is written out each time.
 */
export function partOnStaff(part: Part): readonly StaffSection[] {
  const sections = part.sections.flatMap((section) => {
    const once = joined(unfolded({ ...part, sections: [{ ...section, times: 1 }] }));
    const [only, ...others] = once;
    if (only && others.length === 0) return [{ stretch: only, times: section.times }];
    return Array.from({ length: section.times }, () => once)
      .flat()
      .map((stretch) => ({ stretch, times: 1 }));
  });
  return sections.map(({ stretch, times }, at) => ({
    times,
    score: staffOf(stretch, {
      before: sections[at - 1]?.stretch,
      repeated: times > 1,
      goesOn: at < sections.length - 1,
    }),
  }));
}

/** The part with all of its bars, each written as often as it is played. */
export function unfoldedOnStaff(part: Part): readonly StaffScore[] {
  const stretches = joined(unfolded(part));
  return stretches.map((stretch, at) =>
    staffOf(stretch, {
      before: stretches[at - 1],
      repeated: false,
      goesOn: at < stretches.length - 1,
    }),
  );
}

/** The tempo is told where it is new, or counted in other beats. */
function staffOf(
  stretch: Stretch,
  how: { readonly before: Stretch | undefined; readonly repeated: boolean; readonly goesOn: boolean },
): StaffScore {
  const { metre, feel, bars, notes, section, tempoBpm } = stretch;
  const { before, repeated, goesOn } = how;
  const isNew = before?.tempoBpm !== tempoBpm || metreName(before.metre) !== metreName(metre);
  const tempo: { tempoBpm?: Bpm } = isNew ? { tempoBpm } : {};
  return writeStaff(
    { metre, feel, bars, notes },
    { repeated, goesOn, ...tempo, ...(section === undefined ? {} : { section }) },
  );
}

/** What has one metre, feel and tempo and follows within a section, as one stretch. */
function joined(stretches: readonly Stretch[]): readonly Stretch[] {
  const all: Stretch[] = [];
  for (const stretch of stretches) {
    const before = all.at(-1);
    if (before && stretch.section === undefined && isAlike(before, stretch))
      all[all.length - 1] = oneAfter(before, stretch);
    else all.push(stretch);
  }
  return all;
}

function isAlike(a: Stretch, b: Stretch): boolean {
  return (
    metreName(a.metre) === metreName(b.metre) &&
    a.tempoBpm === b.tempoBpm &&
    JSON.stringify(a.feel) === JSON.stringify(b.feel)
  );
}

function oneAfter(first: Stretch, second: Stretch): Stretch {
  const from = fraction(first.bars * beatsPerBar(first.metre));
  return {
    ...first,
    bars: first.bars + second.bars,
    voices: [...new Set([...first.voices, ...second.voices])],
    notes: [...first.notes, ...second.notes.map((note) => ({ ...note, position: add(note.position, from) }))],
  };
}
