/** Grooves played with a known slip at each stroke, and how many of their strokes are written in their place again. */
import type { Hit } from "../../../engine/kit/index.ts";
import type { Heading, Quantised } from "../../../engine/listening/index.ts";
import {
  beatsPerBar,
  DYNAMIC_VELOCITY,
  type Groove,
  type Note,
  performed,
  playedBeat,
} from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";

/** A hit with the stroke that was meant; grace strokes have none. */
export interface MeantHit extends Hit {
  readonly meant?: { readonly note: Note; readonly beat: number };
}

const GRACE_SECONDS = 0.026;
const GRACES = { none: 0, flam: 1, drag: 2 } as const;
const START = 1;

/** Strokes of a groove from one second on, each moved by what `slip` says, in seconds. */
export function meantHits(
  groove: Groove,
  how: {
    readonly tempoBpm: number;
    readonly bars: number;
    readonly slip?: () => number;
    readonly louder?: () => number;
  },
): readonly MeantHit[] {
  const hits = performed(groove, how).flatMap(({ time, note, beat }): MeantHit[] => {
    const at = START + time + (how.slip?.() ?? 0);
    const velocity = Math.min(1, Math.max(0.02, DYNAMIC_VELOCITY[note.dynamic] + (how.louder?.() ?? 0)));
    const stroke = { voice: note.voice, zone: "whole" as const, pad: 0 };
    const graces = GRACES[note.ornament ?? "none"];
    return [
      ...Array.from({ length: graces }, (_, index) => ({
        ...stroke,
        time: at - (graces - index) * GRACE_SECONDS,
        velocity: DYNAMIC_VELOCITY.ghost,
      })),
      { ...stroke, time: at, velocity, meant: { note, beat } },
    ];
  });
  return hits.sort((a, b) => a.time - b.time);
}

/** The pulse that was meant, so that nothing is left to be heard. */
export function meantHeading(groove: Groove, tempoBpm: number, bars: number): Heading {
  const beatsInBar = beatsPerBar(groove.metre);
  const beats = Array.from({ length: bars * beatsInBar }, (_, beat) => START + (beat * 60) / tempoBpm);
  const { feel } = groove;
  return {
    pulse: {
      tempoBpm,
      metre: groove.metre,
      beats,
      downbeats: beats.filter((_, beat) => beat % beatsInBar === 0),
      confidence: 1,
    },
    swing:
      feel.kind === "straight"
        ? null
        : { ratio: feel.ratio, of: feel.written === "sixteenths" ? "sixteenths" : "eighths" },
  };
}

export interface Tally {
  readonly meant: number;
  readonly inPlace: number;
  readonly touched: number;
  readonly ornamented: number;
}

/** A place is the same when it is played within this, in beats: less than half of a 24th. */
const SAME_PLACE = 0.02;

/** How many meant strokes are written where they are played, with their touch and ornament. Whole beats at the start may differ. */
export function tallied(
  groove: Groove,
  hits: readonly MeantHit[],
  { notes, hitOf, feel }: Quantised,
  samePlace = SAME_PLACE,
): Tally {
  const noteOf = new Map(hitOf.map((hit, index) => [hit, notes[index]]));
  const strokes = hits.flatMap((hit, index) =>
    hit.meant ? [{ meant: hit.meant, written: noteOf.get(index) }] : [],
  );
  const apart = strokes.map(({ meant, written }) =>
    written
      ? playedBeat(feel, toNumber(written.position)) - playedBeat(groove.feel, meant.beat)
      : Number.POSITIVE_INFINITY,
  );
  const shifts = apart.filter(Number.isFinite).map(Math.round);
  const shift = [...new Set(shifts)].sort(
    (a, b) => shifts.filter((one) => one === b).length - shifts.filter((one) => one === a).length,
  )[0];
  return {
    meant: strokes.length,
    inPlace: apart.filter((off) => Math.abs(off - (shift ?? 0)) < samePlace).length,
    touched: strokes.filter(({ meant, written }) => meant.note.dynamic === written?.dynamic).length,
    ornamented: strokes.filter(({ meant, written }) => written && meant.note.ornament === written.ornament)
      .length,
  };
}
