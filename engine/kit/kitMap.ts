/**
 * From what a kit sends to what a listener names: the key map, the hi-hat controller, and their schema.
 */
import { z } from "zod";
import type { NoteNumber } from "../units/index.ts";
import { ZONES } from "./hit.ts";
import { VOICES, type Voice } from "./voice.ts";

const sevenBits = z.int().min(0).max(127);

const padSchema = z.strictObject({
  note: sevenBits,
  voice: z.enum(VOICES),
  zone: z.enum(ZONES).default("whole"),
  /** The name the map's source gives the key, kept so that the map can be checked against it. */
  label: z.string().optional(),
});

/** The schema of a file in `kit-maps/`, and of a map the program has learnt. */
export const kitMapSchema = z
  .strictObject({
    $schema: z.string().optional(),
    id: z.string().regex(/^[a-z0-9-]+$/, "lower-case letters, digits and hyphens only"),
    name: z.string().min(1),
    source: z.string().min(1),
    /** Which controller says how far the hi-hat is open, and its value when shut and when wide open. */
    hiHat: z.strictObject({ controller: sevenBits, shutAt: sevenBits, openAt: sevenBits }),
    pads: z.array(padSchema).min(1),
  })
  .superRefine((map, context) => {
    const seen = new Set<number>();
    map.pads.forEach((pad, index) => {
      if (seen.has(pad.note)) {
        context.addIssue({
          code: "custom",
          path: ["pads", index, "note"],
          message: `key ${pad.note} is named twice`,
        });
      }
      seen.add(pad.note);
    });
  });

export type KitMap = Readonly<z.infer<typeof kitMapSchema>>;
export type KitPad = KitMap["pads"][number];

/** Thrown when a map file does not follow the schema. The message says where, and what is wrong there. */
export class KitMapError extends Error {
  override readonly name = "KitMapError";
}

/**
 * Checks a map.
 *
 * @param source what the map was read from, for the message.
 * @throws KitMapError naming every place that is wrong.
 */
export function parseKitMap(data: unknown, source: string): KitMap {
  const result = kitMapSchema.safeParse(data);
  if (result.success) return result.data;
  const faults = result.error.issues.map(
    (issue) => `${issue.path.join(".") || "the file"}: ${issue.message}`,
  );
  throw new KitMapError(`The kit map ${source} cannot be used. ${faults.join("; ")}.`);
}

/** The pad a key number belongs to, or `undefined` where the map names none. */
export function padFor(map: KitMap, note: NoteNumber): KitPad | undefined {
  return map.pads.find((pad) => pad.note === note);
}

/** The first key the map gives a voice, or `undefined`. The first is the plain way to strike it. */
export function noteFor(map: KitMap, voice: Voice): NoteNumber | undefined {
  return map.pads.find((pad) => pad.voice === voice)?.note;
}
