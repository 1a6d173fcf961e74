/** What the main process does for a page, behind the door. */
import type { DoorAnswered } from "../engine/records/index.ts";
import type { Awake } from "./awake.ts";
import { BackupFolder } from "./backup/backupFolder.ts";
import type { Answers } from "./door/answerAt.ts";
import { chosenPlace } from "./files/chosenPlace.ts";
import type { FileDialogs } from "./files/dialogs.ts";
import { fileTrouble } from "./files/fileTrouble.ts";
import { openMidi } from "./files/openMidi.ts";
import type { Writings } from "./files/writings.ts";
import type { RoomReach } from "./network.ts";
import type { RoomHere } from "./roomHere.ts";
import { readShellSettings, writeShellSettings } from "./shellSettings.ts";

export interface AnswersPlace {
  readonly dialogs: FileDialogs;
  readonly writings: Writings;
  readonly awake: Awake;
  readonly room: RoomHere;
  readonly reach: RoomReach;
  /** Where the shell keeps its settings. */
  readonly settingsPath: string;
  /** Where a dialog for saving begins. */
  readonly documents: string;
  readonly now: () => Date;
  readonly tell: (sentence: string) => void;
}

type Failed = Extract<DoorAnswered<"backups">, { kind: "failed" }>;
type WithFolder = Exclude<DoorAnswered<"backups">, Failed>;

const noFolder = { kind: "no-folder" } as const;

export function answersOf(place: AnswersPlace): Answers {
  const { dialogs, writings, awake, room, reach, documents } = place;
  return {
    openMidi: (asked) => openMidi(asked, dialogs),
    beginWriting: async (asked) => {
      if (asked.place === "backup") return beginArchive(place, asked.ending);
      const chosen = await chosenPlace(asked, documents, dialogs);
      return chosen.kind === "chosen" ? writings.begin(chosen.path) : chosen;
    },
    addToWriting: ({ id, bytes }) => writings.add(id, bytes),
    endWriting: ({ id, bytes }) => writings.end(id, bytes),
    giveUpWriting: async ({ id }) => {
      await writings.giveUp(id);
      return { kind: "given-up" };
    },
    backups: () => inFolder(place, listed),
    chooseBackupFolder: () => chooseFolder(place),
    readBackup: (asked) => inFolder(place, (folder) => folder.read(asked)),
    keepAwake: async ({ on }) => awake.set(on),
    openRoom: ({ name }) => room.open(name),
    closeRoom: () => room.close(),
    reachRoom: async ({ address }) => {
      reach.allow(address);
      return { kind: "may-reach" };
    },
  };
}

function beginArchive(place: AnswersPlace, ending: string): Promise<DoorAnswered<"beginWriting">> {
  return inFolder<DoorAnswered<"beginWriting">>(place, async (folder) =>
    place.writings.begin(await folder.nextPath(ending), () => folder.rotate()),
  );
}

async function listed(folder: BackupFolder): Promise<WithFolder> {
  return { kind: "folder", folder: folder.path, archives: await folder.archives() };
}

/** Nothing is kept of a folder that cannot be read. */
async function chooseFolder(place: AnswersPlace): Promise<DoorAnswered<"chooseBackupFolder">> {
  const [path] = (await place.dialogs.open({ properties: ["openDirectory", "createDirectory"] })) ?? [];
  if (path === undefined) return { kind: "put-down" };
  try {
    const folder = new BackupFolder(path, place.now);
    const archives = await folder.archives();
    await writeShellSettings(place.settingsPath, { version: 1, backupFolder: path });
    return { kind: "folder", folder: path, archives };
  } catch (error) {
    return { kind: "failed", reason: fileTrouble(`${path} was not made the backup folder`, error) };
  }
}

async function inFolder<Answer>(
  { settingsPath, now, tell }: AnswersPlace,
  answer: (folder: BackupFolder) => Promise<Answer>,
): Promise<Answer | typeof noFolder | Failed> {
  try {
    const { backupFolder } = await readShellSettings(settingsPath, tell);
    return backupFolder === null ? noFolder : await answer(new BackupFolder(backupFolder, now));
  } catch (error) {
    return { kind: "failed", reason: fileTrouble("The backup folder could not be used", error) };
  }
}
