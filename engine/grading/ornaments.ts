/**
 * Question: which soft strokes before a main one belong to a written flam or drag?
 */
import type { Hit } from "../kit/index.ts";
import type { Ornament } from "../score/index.ts";
import type { Milliseconds } from "../units/index.ts";
import { type Slot, type Sounded, slotTime, WITHIN_FAMILY } from "./slot.ts";
import type { TargetNote } from "./target.ts";

/**
 * Gap from grace to main stroke. A flam's gap is about 20–40 ms and each of a drag's two strokes takes about
 * 30–60 ms (common practice, no source), so a drag's first stroke may stand some 90 ms ahead.
 */
export const SHORTEST_GRACE_MS: Milliseconds = 10;
export const LONGEST_GRACE_MS: Milliseconds = 90;

/** Bounds are included; differences of seconds are not exact. */
const ROUNDING_MS: Milliseconds = 1e-6;

const MOST_GRACES: Readonly<Record<Ornament, number>> = { flam: 1, drag: 2 };

/** A hit with its moment on the target's clock, the player's drift taken out. */
export interface HeardHit extends Sounded {
  readonly hit: Hit;
  /** Place among all hits heard. */
  readonly index: number;
}

export type FamilySlot = Slot<TargetNote, HeardHit>;

/** A grace stroke and the note it belongs to. */
export interface Grace {
  readonly heard: HeardHit;
  readonly note: TargetNote;
}

/**
 * An unwritten flam: up to this gap, and the first stroke softer than this share of the second. The gap is that of
 * nine flams in ten on the Groove MIDI Dataset; the share is our choice, so that two even strokes are never taken
 * for a flam.
 */
const LONGEST_UNWRITTEN_MS: Milliseconds = 51;
const UNWRITTEN_GRACE_SHARE = 0.6;

/**
 * Takes the grace strokes out of one family's slots.
 * When a late flam's soft stroke stood nearer to the note than its main stroke, the two change places first. That goes
 * for flams that are not written as well: the main stroke answers the note, and the soft one was added.
 */
export function ornamented(slots: readonly FamilySlot[]): {
  readonly slots: readonly FamilySlot[];
  readonly graces: readonly Grace[];
} {
  const settled: FamilySlot[] = [...slots];
  const graces: Grace[] = [];
  const taken = new Set<number>();
  settled.forEach((slot, at) => {
    if (!slot.note || !slot.hit) return;
    const { note, hit: main } = mainStrokeFirst(settled, at, slot.note, slot.hit);
    if (!note.ornament) return;
    const before = leftOverNear(settled, at)
      .filter(({ heard }) => isGrace(heard, main) && !taken.has(heard.index))
      .sort((a, b) => b.heard.time - a.heard.time)
      .slice(0, MOST_GRACES[note.ornament]);
    for (const { heard } of before) {
      taken.add(heard.index);
      graces.push({ heard, note });
    }
  });
  return { slots: settled.filter((slot) => slot.note ?? !taken.has(slot.hit?.index ?? -1)), graces };
}

/** A louder hit left over just after the one that was paired is the main stroke: pair it instead. */
function mainStrokeFirst(settled: FamilySlot[], at: number, note: TargetNote, paired: HeardHit) {
  const reach = 2 * WITHIN_FAMILY.scaleSeconds;
  const main = leftOverNear(settled, at).find(
    ({ heard }) =>
      (note.ornament ? isGrace(paired, heard) : isUnwrittenGrace(paired, heard)) &&
      heard.voice === note.voice &&
      Math.abs(heard.time - note.time) < reach,
  );
  if (!main) return { note, hit: paired };
  settled[at] = { note, hit: main.heard };
  settled[main.at] = { note: undefined, hit: paired };
  return { note, hit: main.heard };
}

function isGrace(soft: HeardHit, main: HeardHit): boolean {
  const gapMs = (main.hit.time - soft.hit.time) * 1000;
  const isNear = gapMs >= SHORTEST_GRACE_MS - ROUNDING_MS && gapMs <= LONGEST_GRACE_MS + ROUNDING_MS;
  return isNear && soft.hit.velocity < main.hit.velocity;
}

function isUnwrittenGrace(soft: HeardHit, main: HeardHit): boolean {
  return (
    isGrace(soft, main) &&
    (main.hit.time - soft.hit.time) * 1000 <= LONGEST_UNWRITTEN_MS &&
    soft.hit.velocity < UNWRITTEN_GRACE_SHARE * main.hit.velocity
  );
}

/** Hits left over around a slot, near enough to be part of an ornament. */
function leftOverNear(
  slots: readonly FamilySlot[],
  at: number,
): { readonly heard: HeardHit; readonly at: number }[] {
  const centre = slots[at];
  if (!centre) return [];
  const found: { heard: HeardHit; at: number }[] = [];
  for (const step of [-1, 1]) {
    for (let i = at + step; i >= 0 && i < slots.length; i += step) {
      const slot = slots[i];
      // Slots are in order of time only roughly, hence twice the longest gap.
      if (!slot || Math.abs(slotTime(slot) - slotTime(centre)) * 1000 > 2 * LONGEST_GRACE_MS) break;
      if (slot.hit && !slot.note) found.push({ heard: slot.hit, at: i });
    }
  }
  return found;
}
