import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { readWav, WavError } from "../../engine/formats/index.ts";
import {
  type Enrolment,
  examplesIn,
  type HeardSyllable,
  hearSyllables,
  type Sound,
  SoundRefusal,
} from "../../engine/speech/index.ts";
import type { Outlet } from "../outlet.ts";
import { bytesOf, TakeError } from "../takes.ts";
import { readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `syllables`: what is said in each recording, with the syllables of an enrolment. */
export async function syllablesCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    enrol: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (values.enrol === undefined)
    throw new UsageError(
      "Name the folder of examples with --enrol: in it one folder a syllable, with WAV files.",
    );
  if (positionals.length === 0) throw new UsageError("Name at least one recording, a WAV file.");
  const enrolment = await readEnrolment(values.enrol, outlet);
  let allHeard = true;
  for (const path of positionals) {
    try {
      const heard = hearSyllables(await readSound(path), enrolment);
      await outlet.line(values.json ? JSON.stringify(heard.map(asJson)) : `${path}\n${asText(heard)}`);
    } catch (error) {
      const told = refusalOf(error);
      allHeard = false;
      outlet.complain(`${path}: ${told.error}`);
      if (values.json) await outlet.line(JSON.stringify({ take: path, ...told }));
    }
  }
  return allHeard;
}

/** @throws the error itself where it is not one of a file or of what is heard in it. */
function refusalOf(error: unknown): { readonly refused?: string; readonly error: string } {
  if (error instanceof SoundRefusal) return { refused: error.refusal.kind, error: error.message };
  if (error instanceof TakeError) return { error: error.message };
  throw error;
}

/**
 * The examples of a folder. One that cannot be used is said and passed over.
 *
 * @throws UsageError where a syllable has no example at all.
 */
async function readEnrolment(folder: string, outlet: Outlet): Promise<Enrolment> {
  const syllables = await foldersIn(folder);
  if (syllables.length === 0)
    throw new UsageError(
      `--enrol ${folder}: it holds no folder; make one for each syllable, with WAV files in it.`,
    );
  const enrolment: Enrolment[number][] = [];
  for (const syllable of syllables) {
    let count = 0;
    for (const path of await wavFilesIn(join(folder, syllable))) {
      try {
        const examples = examplesIn(syllable, await readSound(path));
        count += examples.length;
        enrolment.push(...examples);
      } catch (error) {
        outlet.complain(`${path}: ${refusalOf(error).error} This example is left out.`);
      }
    }
    if (count === 0)
      throw new UsageError(
        `--enrol ${folder}: "${syllable}" has no WAV file that can be used as an example.`,
      );
  }
  return enrolment;
}

async function foldersIn(folder: string): Promise<readonly string[]> {
  try {
    const entries = await readdir(folder, { withFileTypes: true });
    return entries
      .filter((entry) => entry.isDirectory() && !entry.name.startsWith("."))
      .map(({ name }) => name)
      .sort();
  } catch (cause) {
    throw new UsageError(`--enrol ${folder}: there is no such folder that can be read.`, { cause });
  }
}

async function wavFilesIn(folder: string): Promise<readonly string[]> {
  const names = await readdir(folder);
  return names
    .filter((name) => /\.wave?$/i.test(name))
    .sort()
    .map((name) => join(folder, name));
}

async function readSound(path: string): Promise<Sound> {
  try {
    return readWav(await bytesOf(path, "a WAV file"));
  } catch (cause) {
    if (cause instanceof WavError) throw new TakeError(cause.message, { cause });
    throw cause;
  }
}

function asJson({ time, syllable, confidence }: HeardSyllable): object {
  return { time: rounded(time), syllable, confidence: rounded(confidence) };
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

function asText(heard: readonly HeardSyllable[]): string {
  return heard
    .map(
      ({ time, syllable, confidence }) =>
        `  ${time.toFixed(3)} s  ${syllable}  (${Math.round(confidence * 100)} in 100)`,
    )
    .join("\n");
}
