/**
 * Question: what is sounded to ask one thing that a listener may know: a surface, a row of so many, two at once, loud or
 * soft?
 *
 * Method: of the rungs that can ask it, the one nearest to where the listener stands, the easier of two; where several
 * surfaces may sound there, the one that is asked does.
 */
import type { Chance } from "../units/index.ts";
import type { Moments, Touch } from "./question.ts";
import { TOUCHES } from "./question.ts";
import { drawQuestion, RUNGS, type Rung } from "./rungs.ts";
import { SURFACES, type Surface } from "./surface.ts";

export interface DrawnOf {
  readonly moments: Moments;
  readonly rung: number;
}

/** So much likelier than all others together that the others do not come. */
const SURELY = 1e12;

/**
 * @param subject as results name it: `floor-tom`, `sequence-3`, `two-at-once`, `soft-stroke`.
 * @param standing the rung where the listener stands.
 * @returns `null` where no rung asks it.
 */
export function questionOf(
  subject: string,
  standing: number,
  chance: Chance,
  weightOf?: (surface: Surface) => number,
): DrawnOf | null {
  const rung = rungOf(subject, standing);
  if (rung === null) return null;
  const at = RUNGS[rung - 1];
  if (!at) return null;
  const surface = SURFACES.find((each) => each === subject);
  if (surface) return { rung, moments: drawQuestion(at, chance, (each) => (each === surface ? SURELY : 1)) };
  const moments = drawQuestion(at, chance, weightOf);
  const touch = touchOf(subject);
  return {
    rung,
    moments: touch ? moments.map((moment) => moment.map((sounded) => ({ ...sounded, touch }))) : moments,
  };
}

/** The rung that asks it, from 1; `null` where none does. */
export function rungOf(subject: string, standing: number): number | null {
  const asks = (rung: Rung): boolean => asking(subject, rung);
  const fitting = RUNGS.flatMap((rung, place) => (asks(rung) ? [place + 1] : []));
  const far = (rung: number): number => Math.abs(rung - standing);
  return fitting.reduce<number | null>(
    (nearest, each) => (nearest === null || far(each) < far(nearest) ? each : nearest),
    null,
  );
}

function asking(subject: string, { pool, length, together, touch }: Rung): boolean {
  if (subject === "two-at-once") return length === 1 && together === true;
  if (touchOf(subject)) return touch === true;
  const row = /^sequence-(\d)$/.exec(subject)?.[1];
  if (row !== undefined) return length === Number(row) && !together;
  return length === 1 && !together && !touch && pool.some((each) => each === subject);
}

function touchOf(subject: string): Touch | undefined {
  return TOUCHES.find((touch) => subject === `${touch}-stroke`);
}
