/**
 * Question: what became of every hit and every written stroke?
 * Hits are heard one at a time. Each family of voices is aligned by itself (a kick is never a late snare), then
 * flams and drags are picked out, then what is left over is paired across families as "other sound".
 */
import { familyOf, type Hit, RetriggerFilter, type VoiceFamily } from "../kit/index.ts";
import type { Milliseconds, Seconds } from "../units/index.ts";
import { Aligner, align } from "./align.ts";
import { TakeClock } from "./clock.ts";
import { grouped } from "./grouped.ts";
import { type Grace, type HeardHit, ornamented } from "./ornaments.ts";
import type { JudgedHit } from "./report.ts";
import { ACROSS_FAMILIES, type Slot, WITHIN_FAMILY } from "./slot.ts";
import type { TargetNote } from "./target.ts";

/** Where the target's time 0 lies on the take's clock, and how much longer the take's seconds are. */
export interface StartPoint {
  readonly time: Seconds;
  readonly stretch: number;
}

/** Take and target share one clock. */
export const SHARED_START: StartPoint = { time: 0, stretch: 1 };

/** A written stroke that was answered. */
export interface Stroke {
  readonly note: TargetNote;
  readonly hit: Hit;
  /** Played minus written, in the take's milliseconds: negative ahead, positive behind. */
  readonly offsetMs: Milliseconds;
}

export interface Matched {
  /** In the order heard. */
  readonly hits: readonly JudgedHit[];
  /** In order of the target. */
  readonly strokes: readonly Stroke[];
  /** In order of the target. */
  readonly unanswered: readonly TargetNote[];
  /** Passed over by a slip of the form, and so neither answered nor left out; in order of the target. */
  readonly skipped: readonly TargetNote[];
  /** For each hit the moment of the target at which the player's own clock stood. */
  readonly heardAt: readonly Seconds[];
}

/** Pairs a take with written strokes, one hit at a time; the cost of a hit does not grow with the take. */
export class Matching {
  readonly #start: StartPoint;
  readonly #clock = new TakeClock();
  readonly #retriggers = new RetriggerFilter();
  readonly #hits: Hit[] = [];
  readonly #doubled = new Set<number>();
  readonly #heardAt: Seconds[] = [];
  readonly #families = new Map<VoiceFamily, Aligner<TargetNote, HeardHit>>();

  /**
   * @param start what offsets are counted from.
   * @param opening the place and tempo at which the take begins, where that is another: a take that gains tempo begins
   * behind the straight line through the whole of it.
   */
  constructor(
    notes: readonly TargetNote[],
    start: StartPoint,
    opening?: { readonly at: Seconds; readonly from: StartPoint },
  ) {
    this.#start = start;
    if (opening) {
      const { at, from } = opening;
      const written = (at - from.time) / from.stretch;
      this.#clock.set(this.#onTarget(at), this.#onTarget(at) - written, 1 - start.stretch / from.stretch);
    }
    const written = grouped(notes, ({ voice }) => familyOf(voice));
    for (const [family, its] of written) this.#families.set(family, new Aligner(its, WITHIN_FAMILY));
  }

  /** Hears the next hit, in order of time. */
  hear(hit: Hit): void {
    const index = this.#hits.length;
    this.#hits.push(hit);
    const time = this.writtenTime(hit.time);
    this.#heardAt.push(time);
    if (this.#retriggers.isRetrigger(hit)) {
      this.#doubled.add(index);
      return;
    }
    const onTarget = this.#onTarget(hit.time);
    const note = this.#aligner(hit).hear({ hit, index, time, voice: hit.voice });
    if (note?.voice === hit.voice) this.#clock.learn(onTarget, onTarget - note.time);
  }

  #onTarget(time: Seconds): Seconds {
    return (time - this.#start.time) / this.#start.stretch;
  }

  /** The moment of the target at which the player's own clock stands at a moment of the take. */
  writtenTime(time: Seconds): Seconds {
    const onTarget = this.#onTarget(time);
    return onTarget - this.#clock.expectedOffset(onTarget);
  }

  /** What became of everything, if no more hits come. */
  matched(): Matched {
    const pairs: Slot<TargetNote, HeardHit>[] = [];
    const graces: Grace[] = [];
    for (const aligner of this.#families.values()) {
      const family = ornamented(aligner.finish());
      pairs.push(...family.slots);
      graces.push(...family.graces);
    }
    return this.#told(acrossFamilies(pairs), graces);
  }

  #aligner(hit: Hit): Aligner<TargetNote, HeardHit> {
    const family = familyOf(hit.voice);
    const known = this.#families.get(family);
    if (known) return known;
    const nothingWritten = new Aligner<TargetNote, HeardHit>([], WITHIN_FAMILY);
    this.#families.set(family, nothingWritten);
    return nothingWritten;
  }

  #told(slots: readonly Slot<TargetNote, HeardHit>[], graces: readonly Grace[]): Matched {
    const judged = this.#hits.map(
      (hit, index): JudgedHit => ({ state: this.#doubled.has(index) ? "retrigger" : "extra", hit }),
    );
    for (const { heard, note } of graces) {
      judged[heard.index] = { state: "grace", hit: heard.hit, targetIndex: note.index };
    }
    const strokes: Stroke[] = [];
    const unanswered: TargetNote[] = [];
    for (const { hit: heard, note } of slots) {
      if (!note) continue;
      if (!heard) {
        unanswered.push(note);
        continue;
      }
      const { hit } = heard;
      const offsetMs = (hit.time - this.#start.time - this.#start.stretch * note.time) * 1000;
      strokes.push({ note, hit, offsetMs });
      judged[heard.index] = {
        state: "matched",
        hit,
        targetIndex: note.index,
        targetTime: note.time,
        targetVoice: note.voice,
        offsetMs,
      };
    }
    strokes.sort((a, b) => a.note.index - b.note.index);
    unanswered.sort((a, b) => a.index - b.index);
    return { hits: judged, strokes, unanswered, skipped: [], heardAt: [...this.#heardAt] };
  }
}

/** A pair of one family this far apart gives way to another sound that is this near to its note. Our choice. */
const LOOSE_SECONDS: Seconds = 0.05;
const NEAR_SECONDS: Seconds = 0.025;

/** A tom where the snare was written: pairs what every family left over. */
function acrossFamilies(slots: readonly Slot<TargetNote, HeardHit>[]): readonly Slot<TargetNote, HeardHit>[] {
  const left = slots.flatMap(({ hit, note }) => (hit && !note ? [hit] : [])).sort((a, b) => a.time - b.time);
  const hits: HeardHit[] = [];
  const notes: TargetNote[] = [];
  const pairs = slots.filter(({ hit, note }) => {
    const isLoose = hit && note && Math.abs(hit.time - note.time) > LOOSE_SECONDS;
    if (hit && note && !(isLoose && isOneNear(left, note.time))) return true;
    if (hit) hits.push(hit);
    if (note) notes.push(note);
    return false;
  });
  hits.sort((a, b) => a.time - b.time);
  notes.sort((a, b) => a.time - b.time);
  return [...pairs, ...align(notes, hits, ACROSS_FAMILIES)];
}

/** Whether one of the hits, in order of time, is near a moment. */
function isOneNear(hits: readonly HeardHit[], time: Seconds): boolean {
  let low = 0;
  let high = hits.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((hits[middle]?.time ?? 0) < time - NEAR_SECONDS) low = middle + 1;
    else high = middle;
  }
  const first = hits[low];
  return first !== undefined && first.time <= time + NEAR_SECONDS;
}
