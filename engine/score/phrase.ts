/**
 * A phrase: written music played once, a call or the answer to one.
 *
 *     phrase: two-bars-on-the-snare
 *     name: Two bars on the snare
 *     role: call
 *     metre: 4/4
 *     tempo: 70-120
 *
 *     snare | x... x.x. x... x.x. | xxxx .... x... .... |
 */
import { GridError } from "./gridError.ts";
import { needed, readFeel, readHeads, readId, readMetre, readTempo } from "./gridHeads.ts";
import { readVoiceLines } from "./gridLines.ts";
import type { Groove } from "./groove.ts";
import { beatsPerBar } from "./metre.ts";
import { printGrid } from "./printGrid.ts";

export const PHRASE_ROLES = ["call", "answer"] as const;
export type PhraseRole = (typeof PHRASE_ROLES)[number];

/** Written as a groove is, and played once. */
export interface Phrase extends Groove {
  readonly role: PhraseRole;
}

const PHRASE_HEADS = ["phrase", "name", "role", "metre", "feel", "tempo"] as const;

/**
 * Reads one phrase.
 *
 * @throws GridError saying line, column, what is wrong there and what is expected.
 * @example
 * parsePhrase("phrase: a\nname: A\nrole: answer\nmetre: 4/4\ntempo: 60-90\nkick | x... |").role // => "answer"
 */
export function parsePhrase(text: string): Phrase {
  const lines = text.split(/\r?\n/);
  const heads = readHeads(lines, PHRASE_HEADS);
  const metre = readMetre(needed(heads, "metre", lines.length));
  const { voices, notes, bars } = readVoiceLines(lines, beatsPerBar(metre));
  const said = needed(heads, "role", lines.length);
  const role = PHRASE_ROLES.find((known) => known === said.value);
  if (!role) {
    throw new GridError(
      said.line,
      said.column,
      `"${said.value}" is not a role; a phrase is a ${PHRASE_ROLES.join(" or an ")}.`,
    );
  }
  return {
    id: readId(needed(heads, "phrase", lines.length)),
    name: needed(heads, "name", lines.length).value,
    role,
    metre,
    feel: readFeel(heads.get("feel")),
    tempoBpm: readTempo(needed(heads, "tempo", lines.length)),
    bars,
    voices,
    notes,
  };
}

/** Writes a phrase so that {@link parsePhrase} gives it back exactly. */
export function printPhrase(phrase: Phrase): string {
  const [, name = "", ...rest] = printGrid(phrase).split("\n");
  return [`phrase: ${phrase.id}`, name, `role: ${phrase.role}`, ...rest].join("\n");
}
