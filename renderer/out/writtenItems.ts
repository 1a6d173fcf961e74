import type { Written } from "../../engine/catalogue/index.ts";
import type { OutItem } from "./OutMenu.tsx";
import type { OutFile } from "./saveFile.ts";
import type { Origin } from "./TakenFrom.ts";

// The writers of files come with the first file that is taken along.
const files = () => import("./writtenFiles.ts");

/** Makes an act of a list out of the making of a file. */
export type Saves = (make: () => Promise<OutFile>) => () => void;

/** What can be taken along of written music. */
export function writtenItems(written: Written, origin: Origin, saves: Saves): readonly OutItem[] {
  return [
    {
      id: "written-mid",
      name: "MIDI file",
      remark: "as written, to be heard",
      act: saves(async () => (await files()).writtenMidi(written, origin)),
    },
    {
      id: "written-musicxml",
      name: "MusicXML",
      remark: "for notation programs",
      act: saves(async () => (await files()).writtenMusicXml(written, origin)),
    },
    {
      id: "written-svg",
      name: "Staff, SVG",
      remark: "a picture, sharp at any size",
      act: saves(async () => (await files()).staffPicture(written, origin, "svg")),
    },
    {
      id: "written-png",
      name: "Staff, PNG",
      remark: "a picture for messages and slides",
      act: saves(async () => (await files()).staffPicture(written, origin, "png")),
    },
  ];
}
