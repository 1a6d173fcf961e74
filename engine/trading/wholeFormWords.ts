/** What is said of a whole form, in a teacher's words. */
import { HEARD_APART_MS } from "../grading/index.ts";
import { voiceName } from "../kit/index.ts";
import type { Side } from "./form.ts";
import type { PlayerInForm, WholeForm } from "./wholeForm.ts";

/** Sounds named of each player: what is remembered of a phrase. Our choice. */
const MOST_VOICES = 4;

/**
 * A sentence for each player, and one about who follows, where that can be told.
 *
 * @param names of the two.
 */
export function wholeFormWords(form: WholeForm, names: readonly [string, string]): readonly string[] {
  const { players, follows } = form;
  return [
    ...players.map((player) => playerWords(player, names[player.side])),
    ...(follows === null ? [] : [`${names[follows]} follows the time of ${names[other(follows)]}.`]),
  ];
}

function playerWords({ strokes, voices, leanMs, spreadMs }: PlayerInForm, name: string): string {
  if (strokes === 0) return `${name} played nothing.`;
  const used = voices.slice(0, MOST_VOICES).map(({ voice }) => voiceName(voice));
  const sounds = used.length > 1 ? `${used.slice(0, -1).join(", ")} and ${used.at(-1)}` : used.join("");
  const count = strokes === 1 ? "one stroke" : `${strokes} strokes`;
  if (leanMs === null || spreadMs === null) return `${name}: ${count} on ${sounds}.`;
  const stands =
    Math.abs(leanMs) < HEARD_APART_MS / 2
      ? "on the pulse"
      : `${Math.round(Math.abs(leanMs))} ms ${leanMs < 0 ? "ahead" : "behind"}`;
  return `${name}: ${count} on ${sounds}, ${stands}, spread ${Math.round(spreadMs)} ms.`;
}

function other(side: Side): Side {
  return side === 0 ? 1 : 0;
}
