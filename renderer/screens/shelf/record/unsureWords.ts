/** What is asked where a take could be written otherwise. */
import { voiceName } from "../../../../engine/kit/index.ts";
import type { Unsure } from "../../../../engine/listening/index.ts";
import { beatsPerBar, type Dynamic, type Groove } from "../../../../engine/score/index.ts";
import { placeName, strokeWords } from "../placeWords.ts";

export interface Question {
  /** "Bar 2, beat 3: snare". */
  readonly where: string;
  readonly asWritten: string;
  readonly otherwise: string;
}

const PARTS: Readonly<Record<number, string>> = {
  1: "the beat alone",
  2: "eighths",
  3: "triplets",
  4: "sixteenths",
  6: "sextuplets",
  8: "thirty-seconds",
};

function partsWords(parts: number): string {
  return PARTS[parts] ?? `${parts} to the beat`;
}

/** @param groove the one whose notes are asked about, as it was first written down. */
export function questionOf(unsure: Unsure, groove: Groove): Question {
  const beats = beatsPerBar(groove.metre);
  const notes = unsure.notes.flatMap((index) => groove.notes[index] ?? []);
  const voices = [...new Set(notes.map(({ voice }) => voiceName(voice)))].join(" and ");
  const where = `Bar ${unsure.bar}, beat ${unsure.beat}: ${voices}`;
  switch (unsure.kind) {
    case "grid":
      return {
        where,
        asWritten: partsWords(unsure.parts),
        otherwise: partsWords(unsure.alternatives[0]?.parts ?? unsure.parts),
      };
    case "place": {
      const [note] = notes;
      const other = unsure.alternatives[0]?.position;
      return {
        where,
        asWritten: note ? placeName(note.position, beats) : "here",
        otherwise: other ? placeName(other, beats) : "elsewhere",
      };
    }
    case "touch": {
      const dynamic = (each: Dynamic | undefined): string => strokeWords(each && { dynamic: each });
      return {
        where,
        asWritten: dynamic(notes[0]?.dynamic),
        otherwise: dynamic(unsure.alternatives[0]?.dynamic),
      };
    }
  }
}
