/**
 * What the recorded kit consists of: `kit/kit.json`, written by `scripts/sounds.ts` beside the recordings.
 */
import { z } from "zod";

const soundSchema = z.strictObject({
  /** The percussion key the recording stands for. Source: General MIDI 1 (RP-003). */
  key: z.int().min(35).max(59),
  file: z.string().regex(/^[a-z0-9-]+\.flac$/, "lower-case letters, digits and hyphens, then .flac"),
  /** Of the file, in hexadecimal: a recording that was changed by hand is noticed. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  seconds: z.number().positive(),
  /** How loud the bank mixes it beside the loudest of the kit; recordings themselves are all equally loud. */
  levelDb: z.number().max(0),
  /** The rate of playing at which it sounds at `tunedTo`; 1 for drums of no pitch. */
  rate: z.number().positive(),
  /** Piano key number of its pitch (60 is middle C, 69 is 440 Hz), for toms. */
  tunedTo: z.int().optional(),
});

const manifestSchema = z.strictObject({
  source: z.string().min(1),
  sampleRateHz: z.int().positive(),
  sounds: z.array(soundSchema).min(1),
});

export type KitManifest = Readonly<z.infer<typeof manifestSchema>>;
export type KitSound = KitManifest["sounds"][number];

/**
 * Checks a manifest.
 *
 * @throws Error with the places that are wrong.
 */
export function parseKitManifest(data: unknown): KitManifest {
  const result = manifestSchema.safeParse(data);
  if (result.success) return result.data;
  throw new Error(
    `The list of recordings renderer/audio/kit/kit.json cannot be used. ${z.prettifyError(result.error)} ` +
      "Make it anew: npx vite build --mode sounds && node dist/scripts/sounds.js",
  );
}
