/** Names that the parts of a MusicXML document share. */
import type { Voice } from "../kit/index.ts";
import type { NoteBase } from "../score/index.ts";

/** The one part of the document. */
export const PART = "P1";

/** The name by which a note says which instrument of the part it is. */
export function instrumentId(voice: Voice): string {
  return `${PART}-${voice}`;
}

/** Note values as MusicXML calls them. */
export const TYPE_NAMES: Readonly<Record<NoteBase, string>> = {
  1: "whole",
  2: "half",
  4: "quarter",
  8: "eighth",
  16: "16th",
  32: "32nd",
  64: "64th",
  128: "128th",
};
