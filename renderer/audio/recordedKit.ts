/**
 * The recordings of the kit, fetched and decoded.
 */
import type { NoteNumber } from "../../engine/units/index.ts";
import kitJson from "./kit/kit.json";
import { type KitSound, parseKitManifest } from "./kitManifest.ts";

export const KIT_MANIFEST = parseKitManifest(kitJson);

export interface Recording extends KitSound {
  readonly buffer: AudioBuffer;
}

/** By percussion key. */
export type RecordedKit = ReadonlyMap<NoteNumber, Recording>;

/** Where each file is found once the pages are built, by its path here. */
const ADDRESSES: Readonly<Record<string, string>> = import.meta.glob("./kit/*.flac", {
  query: "?url",
  import: "default",
  eager: true,
});

/** Most sound devices run at this rate; at another the recordings are brought to it while they play. */
const USUAL_RATE_HZ = 48_000;

/**
 * Fetches and decodes all recordings. Needs no permission to sound, so it can be done before the user asks for any.
 *
 * @throws Error that names the recording that could not be had.
 */
export async function loadKit(): Promise<RecordedKit> {
  const decoder = new OfflineAudioContext(1, 1, USUAL_RATE_HZ);
  const recordings = await Promise.all(
    KIT_MANIFEST.sounds.map(
      async (sound): Promise<Recording> => ({
        ...sound,
        buffer: await decoded(decoder, sound.file),
      }),
    ),
  );
  return new Map(recordings.map((recording) => [recording.key, recording]));
}

async function decoded(decoder: OfflineAudioContext, file: string): Promise<AudioBuffer> {
  const address = ADDRESSES[`./kit/${file}`];
  if (address === undefined) throw new Error(`The recording ${file} is not among the built files.`);
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The recording ${file} could not be fetched (${response.status}).`);
  return decoder.decodeAudioData(await response.arrayBuffer());
}
