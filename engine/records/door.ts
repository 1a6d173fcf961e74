/**
 * What passes through the door between a page and the desktop shell, as both sides check it: the shell what it is
 * asked, the page what it is answered. No question names a place on the disk: places come from dialogs, which the
 * shell shows, and stay there.
 */
import { z } from "zod";
import type { DoorName } from "./doorNames.ts";

/** Bytes at once through the door, at most. Our choice: small beside the memory, long beside the way there. */
export const MOST_BYTES_AT_ONCE = 1 << 20;

/** By its tag: what came from another process or script world may have another world's constructor. */
const bytes = z.custom<Uint8Array>(
  (value) => Object.prototype.toString.call(value) === "[object Uint8Array]",
  "Bytes are needed here.",
);
const byteCount = z.int().min(0);
const fileName = z.string().min(1).max(255);
/** Without the full stop: "mid". */
const ending = z.string().regex(/^[a-z0-9]{1,16}$/);
/** It may have two parts: "jsonl.gz". */
const archiveEnding = z.string().regex(/^[a-z0-9]{1,8}(\.[a-z0-9]{1,8})?$/);
/** Made by the shell; a page only gives it back. */
const writingId = z.uuid();

/** The user closed the dialog. */
const putDown = z.object({ kind: z.literal("put-down") });
/** `reason` is a sentence for the user. */
const failed = z.object({ kind: z.literal("failed"), reason: z.string().min(1) });

/** An archive in the backup folder; the newest has the highest number, whatever the clock said. */
const archive = z.object({ name: fileName, number: z.int().min(0), day: z.iso.date(), bytes: byteCount });
const backupFolder = z.object({
  kind: z.literal("folder"),
  /** The folder's path, to be shown. */
  folder: z.string(),
  /** Newest first. */
  archives: z.array(archive),
});
const noFolder = z.object({ kind: z.literal("no-folder") });

/** Each function of the door: what it is asked and what it answers. */
export const doorSchemas = {
  /** Shows the dialog for MIDI files or for a folder of them, and gives what is in them. */
  openMidi: {
    asked: z.object({ from: z.enum(["files", "folder"]) }),
    answered: z.discriminatedUnion("kind", [
      z.object({
        kind: z.literal("chosen"),
        /** `path` is the name, with the folders below the chosen one before it, parted by "/". */
        files: z.array(z.object({ path: z.string(), bytes })),
        /** Files that were not read, each with a sentence that says why. */
        leftOut: z.array(z.object({ path: z.string(), reason: z.string() })),
        /** Files of the folder that are no MIDI files by their name. */
        passedOver: z.int().min(0),
      }),
      putDown,
      failed,
    ]),
  },
  /** Begins a file: where the user says in a dialog, or the next archive of the backup folder. */
  beginWriting: {
    asked: z.discriminatedUnion("place", [
      z.object({ place: z.literal("chosen"), name: fileName, kindName: z.string().max(80), ending }),
      z.object({ place: z.literal("backup"), ending: archiveEnding }),
    ]),
    answered: z.discriminatedUnion("kind", [
      z.object({ kind: z.literal("begun"), id: writingId, name: fileName }),
      noFolder,
      putDown,
      failed,
    ]),
  },
  addToWriting: {
    asked: z.object({
      id: writingId,
      bytes: bytes.refine(({ length }) => length <= MOST_BYTES_AT_ONCE, "Too much at once."),
    }),
    answered: z.discriminatedUnion("kind", [z.object({ kind: z.literal("added") }), failed]),
  },
  /** Puts the file in its place, whole, if it has as many bytes as the page has sent. */
  endWriting: {
    asked: z.object({ id: writingId, bytes: byteCount }),
    answered: z.discriminatedUnion("kind", [
      z.object({
        kind: z.literal("saved"),
        name: fileName,
        /** What went wrong after the file was in its place, as a sentence: an old archive that could not be removed. */
        trouble: z.string().nullable(),
      }),
      failed,
    ]),
  },
  giveUpWriting: {
    asked: z.object({ id: writingId }),
    answered: z.object({ kind: z.literal("given-up") }),
  },
  backups: {
    asked: z.object({}),
    answered: z.discriminatedUnion("kind", [backupFolder, noFolder, failed]),
  },
  chooseBackupFolder: {
    asked: z.object({}),
    answered: z.discriminatedUnion("kind", [backupFolder, putDown, failed]),
  },
  /** A piece of an archive of the backup folder. */
  readBackup: {
    asked: z.object({
      name: fileName,
      fromByte: byteCount,
      bytes: z.int().min(1).max(MOST_BYTES_AT_ONCE),
    }),
    answered: z.discriminatedUnion("kind", [
      z.object({ kind: z.literal("read"), bytes, totalBytes: byteCount }),
      noFolder,
      failed,
    ]),
  },
  /** Keeps the screen on while a lesson runs. */
  keepAwake: {
    asked: z.object({ on: z.boolean() }),
    answered: z.object({ kind: z.enum(["awake", "may-sleep"]) }),
  },
  /** Opens a room on this computer, or tells of the one that is open. */
  openRoom: {
    asked: z.object({ name: z.string().min(1).max(40) }),
    answered: z.discriminatedUnion("kind", [
      z.object({
        kind: z.literal("open"),
        name: z.string(),
        /** Where others find it, the nearest first. */
        addresses: z.array(z.string()).min(1),
        code: z.string(),
      }),
      failed,
    ]),
  },
  closeRoom: {
    asked: z.object({}),
    answered: z.object({ kind: z.literal("closed") }),
  },
  /** Lets the page reach the room at one address, and no other, until it asks for another. */
  reachRoom: {
    asked: z.object({
      address: z
        .string()
        .regex(/^wss?:\/\/[^\s/]+/)
        .max(300),
    }),
    answered: z.object({ kind: z.literal("may-reach") }),
  },
} as const satisfies Readonly<Record<DoorName, { readonly asked: z.ZodType; readonly answered: z.ZodType }>>;

export type DoorAsked<Name extends DoorName> = Readonly<z.infer<(typeof doorSchemas)[Name]["asked"]>>;
export type DoorAnswered<Name extends DoorName> = Readonly<z.infer<(typeof doorSchemas)[Name]["answered"]>>;

/** What the shell's menu tells the page to do. */
export const doorCommandSchema = z.enum(["open-midi", "show-backups"]);
export type DoorCommand = z.infer<typeof doorCommandSchema>;
