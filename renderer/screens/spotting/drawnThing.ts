/** What the program plays next: what was dealt, or what the students who are asked have met, drawn by lot. */
import {
  type About,
  type DrawnThing,
  dealtNext,
  isSameThing,
  nameItem,
  nextThing,
  type Play,
  type PlayerId,
  playItem,
  type ShownItem,
  type Spottable,
  type Spotting,
  type SpottingQuestion,
  type Thing,
} from "../../../engine/rounds/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import type { Standing } from "./spottingPlace.ts";

export interface ToDrawFrom {
  readonly spottables: readonly Spottable[];
  /** Who is asked. */
  readonly of: readonly (PlayerId | null)[];
  /** What each of them has met. */
  readonly standings: readonly Standing[];
}

/** Draws it; `null` where there is nothing at all. */
export function drawnThing(
  { dealt, own }: Pick<Play<Spotting>, "dealt" | "own">,
  from: ToDrawFrom,
  chance: Chance,
): DrawnThing | null {
  const { spottables, of, standings } = from;
  const askable = spottables
    .filter(({ thing }) => isAbout(thing, own.about))
    .map((spottable) => ({ spottable, chanceForgotten: standingOfAll(standings, spottable.thing) }));
  return (
    dealtThing(dealt, own, from) ??
    nextThing(
      askable.filter(({ spottable }) => askable.length === 1 || !isOf(own.question, spottable.thing)),
      own.past.filter((each) => each.of.some((id) => of.includes(id))),
      chance,
    )
  );
}

/** What was dealt and comes next. */
function dealtThing(
  dealt: Play<Spotting>["dealt"],
  own: Spotting,
  { spottables, standings }: ToDrawFrom,
): DrawnThing | null {
  const named = (item: ShownItem): Spottable | undefined =>
    spottables.find(({ thing }) => item === nameItem(thing) || item === playItem(thing));
  const asked = own.past.flatMap(({ key }) =>
    key.by === "program" ? [nameItem(key.thing), playItem(key.thing)] : [],
  );
  const item = dealtNext(dealt, asked, (each) => named(each) !== undefined);
  const spottable = item === null ? undefined : named(item);
  if (!spottable) return null;
  return { spottable, isNew: standingOfAll(standings, spottable.thing) === null };
}

/** Whether a round about these asks for it. */
export function isAbout({ kind }: Thing, about: About): boolean {
  if (about === "both") return true;
  return about === "fills" ? kind === "fill" : kind !== "fill";
}

/** Of several who answer the same question, what not all have met is new, and who forgot it likeliest decides. */
function standingOfAll(standings: readonly Standing[], thing: Thing): number | null {
  const each = standings.map((standing) => standing(thing));
  const met = each.filter((chance) => chance !== null);
  return met.length < each.length ? null : Math.max(...met);
}

/** Whether it is what was played just now, to somebody else perhaps. */
function isOf(question: SpottingQuestion | null, thing: Thing): boolean {
  return question !== null && question.key.thing !== null && isSameThing(question.key.thing, thing);
}
