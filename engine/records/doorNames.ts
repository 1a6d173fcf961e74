/** What a page of the desktop shell may ask the computer for, by name. The door has these functions and no others. */
export const DOOR_NAMES = [
  "openMidi",
  "beginWriting",
  "addToWriting",
  "endWriting",
  "giveUpWriting",
  "backups",
  "chooseBackupFolder",
  "readBackup",
  "keepAwake",
  "openRoom",
  "closeRoom",
  "reachRoom",
] as const;

export type DoorName = (typeof DOOR_NAMES)[number];
