/**
 * A hit as one line of JSON: `{"time": 1.25, "note": 38, "velocity": 96}`, or with a voice in place of the note. Time is
 * in seconds and never goes back; strength is MIDI's, a whole number from 1 to 127, and nothing else.
 */
import { z } from "zod";
import { type Hit, type KitMap, noteFor, padFor, VOICES } from "../engine/kit/index.ts";

const FULL_VELOCITY = 127;

const common = {
  time: z.number("time must be a number of seconds").min(0, "time must not be negative"),
  velocity: z
    .int("velocity must be a whole number from 1 to 127, as MIDI has it")
    .min(1, "velocity must be from 1 to 127; with 0 a key is let go")
    .max(FULL_VELOCITY, "velocity must be from 1 to 127"),
};
const note = z
  .int("note must be a whole number from 0 to 127")
  .min(0, "note must be from 0 to 127")
  .max(127, "note must be from 0 to 127");
const voice = z.enum(VOICES, `voice must be one of ${VOICES.join(", ")}`);

const hitLine = z
  .object({ ...common, note: note.optional(), voice: voice.optional() }, "a hit must be an object")
  .refine((hit) => (hit.note === undefined) !== (hit.voice === undefined), {
    error: "a hit must have either a note or a voice",
  });

/** Thrown for a line that is no hit. The message says what is wrong with it. */
export class HitLineError extends Error {
  override readonly name = "HitLineError";
}

/**
 * Reads one line.
 *
 * @param notBefore the time of the hit before it.
 * @throws HitLineError when it is no hit, or comes before the one before it.
 */
export function readHitLine(line: string, map: KitMap, notBefore: number): Hit {
  const result = hitLine.safeParse(jsonOf(line));
  if (!result.success) throw new HitLineError(result.error.issues.map(({ message }) => message).join("; "));
  const { time, velocity, ...struck } = result.data;
  if (time < notBefore)
    throw new HitLineError(
      `time ${time} is before ${notBefore}, the hit before it; hits come in order of time`,
    );
  const pad = struck.note ?? noteFor(map, struck.voice ?? "unknown") ?? 0;
  const named = struck.voice ?? padFor(map, pad)?.voice ?? "unknown";
  return { time, voice: named, zone: "whole", velocity: velocity / FULL_VELOCITY, pad };
}

function jsonOf(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch (cause) {
    throw new HitLineError("this is not JSON", { cause });
  }
}
