/**
 * Strikes as they are kept: many in one row, each in a few bytes. A chunk names its own voices and zones, so that the
 * lists of the program may grow and change their order.
 *
 * One strike, little-endian: time (float64, seconds on the lesson's clock), seq (uint32), lane, voice, zone, pad (uint8
 * each), then velocity and openness: as MIDI sends them, in hundred-and-twenty-sevenths (uint8; 255: no openness), or,
 * where one of the chunk's is no such number, as float64 (NaN: no openness).
 */
import { z } from "zod";
import { type Hit, VOICES, type Voice, ZONES, type Zone } from "../kit/index.ts";
import { type EventOf, idSchema } from "../session/index.ts";

const MIDI_BYTES = 18;
const EXACT_BYTES = 32;
const NO_OPENNESS = 255;
/** MIDI 1.0: seven bits. */
const MIDI_MOST = 127;

export const hitChunkSchema = z
  .object({
    version: z.literal(1),
    lessonId: idSchema,
    /** Of the first and the last strike in it. Other events, kept apart, may lie between. */
    fromSeq: z.int().min(1),
    toSeq: z.int().min(1),
    fromTime: z.number(),
    toTime: z.number(),
    exact: z.boolean(),
    voices: z.array(z.enum(VOICES)).readonly(),
    zones: z.array(z.enum(ZONES)).readonly(),
    bytes: z.custom<Uint8Array<ArrayBuffer>>((value) => value instanceof Uint8Array, "expected bytes"),
  })
  .refine(
    ({ bytes, exact }) => bytes.length > 0 && bytes.length % bytesOf(exact) === 0,
    "expected a whole number of strikes",
  )
  .readonly();
export type HitChunk = z.infer<typeof hitChunkSchema>;

export type HitEvent = EventOf<"hit">;

/** How many strikes a chunk holds. */
export function hitCount({ bytes, exact }: Pick<HitChunk, "bytes" | "exact">): number {
  return bytes.length / bytesOf(exact);
}

/**
 * Strikes packed into a chunk; {@link unpackHits} gives the same ones back.
 *
 * @param hits at least one, in order of `seq`; each event's `time` is its strike's.
 * @throws RangeError for no strikes.
 */
export function packHits(lessonId: string, hits: readonly HitEvent[]): HitChunk {
  const [first] = hits;
  const last = hits.at(-1);
  if (!first || !last)
    throw new RangeError("A chunk holds at least one strike; write none instead of an empty one.");
  const voices = [...new Set(hits.map(({ hit }) => hit.voice))];
  const zones = [...new Set(hits.map(({ hit }) => hit.zone))];
  const exact = hits.some(({ hit }) => !isMidi(hit.velocity) || !isMidi(hit.openness ?? 0));
  const bytes = new Uint8Array(hits.length * bytesOf(exact));
  const view = new DataView(bytes.buffer);
  hits.forEach(({ seq, lane, hit }, index) => {
    const at = index * bytesOf(exact);
    view.setFloat64(at, hit.time, true);
    view.setUint32(at + 8, seq, true);
    view.setUint8(at + 12, lane);
    view.setUint8(at + 13, voices.indexOf(hit.voice));
    view.setUint8(at + 14, zones.indexOf(hit.zone));
    view.setUint8(at + 15, hit.pad);
    if (exact) {
      view.setFloat64(at + 16, hit.velocity, true);
      view.setFloat64(at + 24, hit.openness ?? Number.NaN, true);
    } else {
      view.setUint8(at + 16, Math.round(hit.velocity * MIDI_MOST));
      view.setUint8(at + 17, hit.openness === undefined ? NO_OPENNESS : Math.round(hit.openness * MIDI_MOST));
    }
  });
  const times = hits.map(({ hit }) => hit.time);
  return {
    version: 1,
    lessonId,
    fromSeq: first.seq,
    toSeq: last.seq,
    fromTime: times.reduce((least, time) => Math.min(least, time)),
    toTime: times.reduce((most, time) => Math.max(most, time)),
    exact,
    voices,
    zones,
    bytes,
  };
}

/**
 * The strikes of a chunk, as events.
 *
 * @throws RangeError when its bytes name a voice or a zone it does not list, or hold a number that cannot be.
 */
export function unpackHits({ bytes, exact, voices, zones, lessonId }: HitChunk): readonly HitEvent[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const width = bytesOf(exact);
  const events: HitEvent[] = [];
  for (let at = 0; at + width <= bytes.length; at += width) {
    const time = view.getFloat64(at, true);
    const seq = view.getUint32(at + 8, true);
    const velocity = exact ? view.getFloat64(at + 16, true) : view.getUint8(at + 16) / MIDI_MOST;
    const openness = exact ? view.getFloat64(at + 24, true) : view.getUint8(at + 17) / MIDI_MOST;
    const voice: Voice | undefined = voices[view.getUint8(at + 13)];
    const zone: Zone | undefined = zones[view.getUint8(at + 14)];
    const pad = view.getUint8(at + 15);
    const isWell = Number.isFinite(time) && seq > 0 && velocity >= 0 && velocity <= 1 && pad <= MIDI_MOST;
    if (!isWell || !voice || !zone)
      throw new RangeError(`Strike ${at / width + 1} in a row of lesson ${lessonId} cannot be read.`);
    const hit: Hit =
      openness <= 1 ? { time, voice, zone, velocity, openness, pad } : { time, voice, zone, velocity, pad };
    events.push({ kind: "hit", seq, time, lane: view.getUint8(at + 12), hit });
  }
  return events;
}

function bytesOf(exact: boolean): number {
  return exact ? EXACT_BYTES : MIDI_BYTES;
}

function isMidi(value: number): boolean {
  return Math.round(value * MIDI_MOST) / MIDI_MOST === value;
}
