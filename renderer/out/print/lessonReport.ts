/** What a student takes home from a lesson, in words: plain data, ready to be set on one page. */

/** A groove that was played: of several takes the last one is told. */
export interface PlayedInLesson {
  readonly name: string;
  readonly takes: number;
  /** "96 a minute, with the click" */
  readonly how: string;
  /** "lean 8 ms behind, spread 14 ms"; `null` where nothing was measured. */
  readonly figures: string | null;
  /** The one thing to work on; `null` where nothing stands out. */
  readonly workOn: string | null;
}

/** What the rounds showed of what the student knows. */
export interface ShownInLesson {
  readonly held: readonly string[];
  readonly slipped: readonly string[];
  readonly met: readonly string[];
}

export interface LessonReport {
  /** "Ottilie" */
  readonly who: string;
  /** "2 March 2026" */
  readonly day: string;
  /** "16:30, 38 minutes, 4 rounds" */
  readonly when: string;
  readonly played: readonly PlayedInLesson[];
  readonly shown: ShownInLesson;
  /** The teacher's, where they shall be on it. */
  readonly remarks: readonly { readonly moment: string; readonly text: string }[];
  /** Made up, by the demo studio. */
  readonly isInvented: boolean;
}

/** So many fit on one page with the rest, whichever paper it is. Our choice, checked by printing. */
export const MOST_PLAYED = 4;
export const MOST_NAMES = 10;
export const MOST_REMARKS = 3;
const LONGEST_ON_PAPER = 160;
/** Letters of names that take two lines. */
const NAMES_ON_PAPER = 150;

/**
 * The first of more than fit, and how many are left out.
 *
 * @example
 * asManyAsFit(["a", "b", "c"], 2) // => { shown: ["a", "b"], more: 1 }
 */
export function asManyAsFit<Each>(
  all: readonly Each[],
  most: number,
): { readonly shown: readonly Each[]; readonly more: number } {
  return { shown: all.slice(0, most), more: Math.max(0, all.length - most) };
}

/** The first names of a list that take no more than two lines, at least one of them, and how many are left out. */
export function namesThatFit(names: readonly string[]): {
  readonly shown: readonly string[];
  readonly more: number;
} {
  let letters = 0;
  const fitting = names.filter((name, index) => {
    letters += name.length + 2;
    return index === 0 || letters <= NAMES_ON_PAPER;
  });
  return asManyAsFit(names.map(shortened), Math.min(MOST_NAMES, fitting.length));
}

/** A remark that fits; what was cut off is told by dots. */
export function shortened(text: string): string {
  return text.length <= LONGEST_ON_PAPER ? text : `${text.slice(0, LONGEST_ON_PAPER - 1).trimEnd()}…`;
}
