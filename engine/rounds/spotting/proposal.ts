/** Question: what was played, by what listening says of it? */
import type { Hearing } from "../../listening/index.ts";
import type { About } from "./round.ts";
import type { Thing } from "./thing.ts";

export interface Proposal {
  readonly thing: Thing;
  /** Chance that it is right, 0 to 1. */
  readonly confidence: number;
}

/**
 * What is proposed to the teacher; `null` where nothing that is known was heard.
 *
 * @param about what is asked: the groove, or the drum part it is a passage of; the fill, whichever is likeliest, since one was played; or the fill where one is
 *   heard by name, and else the groove.
 */
export function proposalOf(hearing: Hearing, about: About): Proposal | null {
  if (hearing.kind !== "heard") return null;
  if (about !== "grooves") {
    const [fill] = hearing.fillCandidates;
    const isNamed = hearing.fills.some(({ id }) => id !== undefined && id === fill?.id);
    if (fill && (about === "fills" || isNamed))
      return { thing: { kind: "fill", id: fill.id, name: fill.name }, confidence: fill.confidence };
    if (about === "fills") return null;
  }
  if (hearing.part) {
    const { id, name, confidence } = hearing.part;
    return { thing: { kind: "part", id, name }, confidence };
  }
  const [groove] = hearing.candidates;
  if (!hearing.known || !groove) return null;
  const { id, name, confidence } = groove;
  return { thing: { kind: "groove", id, name }, confidence };
}
