export { type BeatGroup, barLength, beatLength, groupingName } from "./beatGroups.ts";
export { NOTE_BASES, type NoteBase, type NoteValue, valueLength } from "./noteValue.ts";
export { partOnStaff, type StaffSection, unfoldedOnStaff } from "./partOnStaff.ts";
export * from "./staffPlace.ts";
export * from "./staffScore.ts";
export type { SwingMark } from "./swingMark.ts";
export { StaffError, type StaffSource, type StaffWriting, writeStaff } from "./writeStaff.ts";
