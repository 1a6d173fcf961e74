/**
 * Question: what was heard, given what was called?
 * The ear's chances hold for a player who may play anything. A style that was called tells more: the same
 * strokes can be eighths at one tempo and sixteenths at half of it, and then the call decides. By Bayes' rule
 * the chances are weighed again with the call as what was known before.
 */
import type { Candidate, Heard } from "../../listening/index.ts";

/** How often a player plays what was called. Our choice: a plain mistake of styles stays easy to hear. */
const PLAYED_AS_CALLED = 0.8;

/**
 * The hearing with the call taken into account. Where the called style comes out first, its own pulse is the
 * one that counts.
 *
 * @param heard what was heard among all styles.
 * @param alone the same take, heard with the called style as the only one known.
 * @param styleId the style that was called.
 */
export function heardAsCalled(heard: Heard, alone: Heard, styleId: string): Heard {
  const possible = heard.candidates.length + 1;
  const called = PLAYED_AS_CALLED * possible;
  const other = ((1 - PLAYED_AS_CALLED) * possible) / (possible - 1);
  const weighed = heard.candidates.map((candidate) => ({
    ...candidate,
    confidence: candidate.confidence * (candidate.id === styleId ? called : other),
  }));
  const whole = weighed.reduce((sum, { confidence }) => sum + confidence, heard.noneConfidence * other);
  const candidates = weighed
    .map((candidate) => ({ ...candidate, confidence: candidate.confidence / whole }))
    .map((candidate) => (candidate.id === styleId ? explained(candidate, alone) : candidate))
    .sort((a, b) => b.confidence - a.confidence);
  const noneConfidence = (heard.noneConfidence * other) / whole;
  const [best] = candidates;
  const known = best !== undefined && noneConfidence < 0.5;
  if (!known || best.id !== styleId) return { ...heard, candidates, noneConfidence, known };
  return { ...alone, known, noneConfidence, candidates };
}

/** What is not the called style's own is known in any case: it was heard alone too. */
function explained(candidate: Candidate, alone: Heard): Candidate {
  const own = alone.candidates.find(({ id }) => id === candidate.id)?.why;
  return own ? { ...candidate, why: { rather: candidate.why?.rather ?? [], but: own.but } } : candidate;
}
