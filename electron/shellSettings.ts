/** What the shell itself remembers: the backup folder. One small file in the program's own folder. */
import { randomUUID } from "node:crypto";
import { readFile, rename } from "node:fs/promises";
import { z } from "zod";
import { codeOf } from "./files/fileTrouble.ts";
import { WholeFile } from "./files/wholeFile.ts";

const settingsSchema = z.object({
  version: z.literal(1),
  backupFolder: z.string().min(1).nullable(),
});

export type ShellSettings = Readonly<z.infer<typeof settingsSchema>>;

const FIRST: ShellSettings = { version: 1, backupFolder: null };

/**
 * The settings at `path`, the first ones where none are kept. A file that is not understood is put aside under
 * ".damaged", so that it is not written over; `tell` hears of it. Throws if the disk does not answer.
 */
export async function readShellSettings(
  path: string,
  tell: (sentence: string) => void,
): Promise<ShellSettings> {
  const text = await textAt(path);
  if (text === undefined) return FIRST;
  const settings = settingsSchema.safeParse(parsed(text));
  if (settings.success) return settings.data;
  await rename(path, `${path}.damaged`);
  tell(
    `What the shell kept was not understood and lies aside in ${path}.damaged; choose the backup folder again.`,
  );
  return FIRST;
}

export async function writeShellSettings(path: string, settings: ShellSettings): Promise<void> {
  const bytes = new TextEncoder().encode(`${JSON.stringify(settings)}\n`);
  const file = await WholeFile.begin(path, randomUUID());
  await file.add(bytes);
  await file.end(bytes.length);
}

async function textAt(path: string): Promise<string | undefined> {
  try {
    return await readFile(path, "utf8");
  } catch (error) {
    if (codeOf(error) === "ENOENT") return undefined;
    throw error;
  }
}

/** JSON or not: what is not has no shape, and the schema says so. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
