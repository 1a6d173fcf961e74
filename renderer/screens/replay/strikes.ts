/** All strikes of a lesson in order of time, in a form that is drawn and searched fast. */
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import type { EventOf, SessionEvent } from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { inRingOrder } from "../../charts/ringGeometry.ts";
import { countUpTo } from "./moments.ts";

export interface Strikes {
  readonly hits: readonly Hit[];
  /** On which kit each was. */
  readonly lanes: readonly number[];
  readonly times: Float64Array;
  /** Those that were struck or are written, from what rings above to what the feet play. */
  readonly voices: readonly Voice[];
  /** Of each strike, its voice's place among {@link voices}. */
  readonly rows: Uint8Array;
}

/** @param written voices that shall have a row even where nobody struck them. */
export function strikesOf(events: readonly SessionEvent[], written: Iterable<Voice> = []): Strikes {
  const struck = inOrder(events.filter((event) => event.kind === "hit"));
  return inRows(
    struck.map(({ hit }) => hit),
    struck.map(({ lane }) => lane),
    written,
  );
}

/** @param hits in order of time, each on the kit of the same place among `lanes`. */
function inRows(hits: readonly Hit[], lanes: readonly number[], written: Iterable<Voice>): Strikes {
  const voices = inRingOrder(new Set([...hits.map(({ voice }) => voice), ...written]));
  const rowOf = new Map(voices.map((voice, row) => [voice, row]));
  const times = new Float64Array(hits.length);
  const rows = new Uint8Array(hits.length);
  hits.forEach(({ time, voice }, index) => {
    times[index] = time;
    rows[index] = rowOf.get(voice) ?? 0;
  });
  return { hits, lanes, times, voices, rows };
}

/** By their moments. A log is nearly always in that order already; to sort an hour of it costs as much as to read it. */
function inOrder(struck: readonly EventOf<"hit">[]): readonly EventOf<"hit">[] {
  const isInOrder = struck.every(
    ({ hit }, index) => index === 0 || hit.time >= (struck[index - 1]?.hit.time ?? 0),
  );
  return isInOrder ? struck : struck.toSorted((a, b) => a.hit.time - b.hit.time || a.seq - b.seq);
}

/**
 * Those of one kit, with rows for what was struck or is written there.
 *
 * @param written voices that shall have a row even where nobody struck them.
 */
export function strikesOfLane(strikes: Strikes, lane: number, written: Iterable<Voice> = []): Strikes {
  const hits = strikes.hits.filter((_, index) => strikes.lanes[index] === lane);
  return inRows(
    hits,
    hits.map(() => lane),
    written,
  );
}

/** The strikes from one moment to another, both included: the first one's place, and the place after the last. */
export function strikesBetween(
  { times }: Strikes,
  from: Seconds,
  to: Seconds,
): { readonly first: number; readonly end: number } {
  const first = countUpTo(times, from - 1e-9);
  return { first, end: Math.max(first, countUpTo(times, to)) };
}

/** The place of the strike after a moment; `undefined` after the last. */
export function nextStrike({ times }: Strikes, time: Seconds): number | undefined {
  const next = countUpTo(times, time + MOMENT);
  return next < times.length ? next : undefined;
}

/** The place of the strike before a moment; `undefined` before the first. */
export function strikeBefore({ times }: Strikes, time: Seconds): number | undefined {
  const before = countUpTo(times, time - MOMENT) - 1;
  return before >= 0 ? before : undefined;
}

/** The strike at a moment, or shortly before it: the one that is heard there. */
export function strikeAt({ times }: Strikes, time: Seconds): number | undefined {
  const last = countUpTo(times, time + MOMENT) - 1;
  return last >= 0 && time - (times[last] ?? 0) <= STILL_HEARD ? last : undefined;
}

/** Nothing is nearer to another strike than this and yet not the same moment: addresses hold milliseconds. */
const MOMENT: Seconds = 0.0006;
/** A strike is looked at until so long after it. Our choice: about as long as a short drum sounds. */
const STILL_HEARD: Seconds = 0.15;

/** How many strikes fall into each of some even columns from one moment to another. */
export function densityOf(strikes: Strikes, from: Seconds, to: Seconds, columns: number): Uint32Array {
  const counts = new Uint32Array(columns);
  const { first, end } = strikesBetween(strikes, from, to);
  const perSecond = columns / Math.max(1e-9, to - from);
  for (let index = first; index < end; index += 1) {
    const column = Math.min(columns - 1, Math.floor(((strikes.times[index] ?? 0) - from) * perSecond));
    counts[column] = (counts[column] ?? 0) + 1;
  }
  return counts;
}
