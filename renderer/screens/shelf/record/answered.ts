/** What was understood of a take, with what the player said where it was unsure. */
import type { Unsure } from "../../../../engine/listening/index.ts";
import { type Groove, inOrder, type Note } from "../../../../engine/score/index.ts";

/**
 * The groove with the alternative taken wherever it was said to be right.
 *
 * @param unsure the places that are unsure, by index of the groove's notes.
 * @param otherwise indices of `unsure` that were meant otherwise than written.
 */
export function answered(groove: Groove, unsure: readonly Unsure[], otherwise: ReadonlySet<number>): Groove {
  const notes: (Note | undefined)[] = [...groove.notes];
  unsure.forEach((place, index) => {
    if (otherwise.has(index)) change(notes, place);
  });
  return {
    ...groove,
    notes: withoutTwins(
      inOrder(
        notes.flatMap((note) => note ?? []),
        groove.voices,
      ),
    ),
  };
}

function change(notes: (Note | undefined)[], place: Unsure): void {
  place.notes.forEach((index, at) => {
    const note = notes[index];
    if (note) notes[index] = { ...note, ...alternative(place, at) };
  });
}

function alternative(place: Unsure, at: number): Partial<Note> {
  switch (place.kind) {
    case "grid": {
      const position = place.alternatives[0]?.positions[at];
      return position ? { position } : {};
    }
    case "place": {
      const [other] = place.alternatives;
      return other ? { position: other.position } : {};
    }
    case "touch": {
      const [other] = place.alternatives;
      return other ? { dynamic: other.dynamic } : {};
    }
  }
}

/** A stroke that was moved onto another of its voice is one with it. */
function withoutTwins(notes: readonly Note[]): readonly Note[] {
  return notes.filter((note, index) =>
    notes
      .slice(0, index)
      .every(
        ({ voice, position }) =>
          voice !== note.voice || position.num !== note.position.num || position.den !== note.position.den,
      ),
  );
}
