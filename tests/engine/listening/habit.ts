import type { Voice } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Dynamic, type Groove, inOrder, type Note } from "../../../engine/score/index.ts";
import { add, type Chance, fraction, toNumber } from "../../../engine/units/index.ts";

/** Strokes a player adds in every bar. */
const HABIT: readonly { readonly voice: Voice; readonly dynamic: Dynamic; readonly parts: number }[] = [
  { voice: "kick", dynamic: "plain", parts: 2 },
  { voice: "kick", dynamic: "plain", parts: 4 },
  { voice: "snare", dynamic: "ghost", parts: 4 },
  { voice: "snare", dynamic: "ghost", parts: 4 },
];

/**
 * A groove as one player always has it: in every bar two more kicks, one of them on a sixteenth, two ghost strokes, and one
 * of its own kicks left out where it has several.
 */
export function withHabit(groove: Groove, chance: Chance): Groove {
  const inBar = beatsPerBar(groove.metre);
  const places = HABIT.map(({ parts }) => {
    const between = 1 + Math.floor((parts - 1) * chance());
    return fraction(Math.floor(inBar * chance()) * parts + between, parts);
  });
  const bars = Array.from({ length: groove.bars }, (_, bar) => fraction(bar * inBar));
  const added = bars.flatMap((from) =>
    HABIT.map(({ voice, dynamic }, index) => ({
      voice,
      dynamic,
      position: add(from, places[index] ?? fraction(0)),
    })),
  );
  const kicks = groove.notes.filter(({ voice }) => voice === "kick");
  const dropped = kicks.length > 1 ? kicks[Math.floor(kicks.length * chance())] : undefined;
  const notes: Note[] = groove.notes.filter((note) => note !== dropped);
  for (const stroke of added) {
    const at = toNumber(stroke.position);
    const isFree = notes.every(({ voice, position }) => voice !== stroke.voice || toNumber(position) !== at);
    if (isFree) notes.push(stroke);
  }
  const voices = [...new Set([...groove.voices, ...HABIT.map(({ voice }) => voice)])];
  return { ...groove, voices, notes: inOrder(notes, voices) };
}
