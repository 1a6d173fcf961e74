/**
 * Question: which stroke of the rudiment is each strike, when a hand slips, a stroke is left out or one too many is struck?
 *
 * Method: the cheapest alignment of the strikes with the rudiment repeated without end (dynamic programming after
 * Needleman & Wunsch 1970, free at the end), so that one slip is told where it is and shifts nothing after it. A hand that
 * differs, a stroke left out and one added have their price; so has, from the second pass on, a strike that comes sooner
 * or later after the one before than the tempo there would have it. The tempo is that of the pass before, taken
 * from a few strokes around, so that it may rise and fall. Prices are negative logarithms of rough chances; our choice.
 */
import type { Rudiment } from "../../catalogue/index.ts";
import type { Seconds } from "../../units/index.ts";
import { type BeatLengths, roughBeatLengths } from "./beatLengths.ts";
import { Contacts } from "./contacts.ts";
import type { PlaceOfStroke, PlayedStroke } from "./playedStroke.ts";

/** A hand slips once in fifty strokes. */
const OTHER_HAND = 4;
const LEFT_OUT = 4.6;
/** Grace strokes go missing more easily. */
const GRACE_LEFT_OUT = 3.4;
const ADDED = 4.6;
/** Another bounce of a stroke that is meant to bounce. */
const BOUNCE = 0.3;
const LONGEST_BOUNCE_SECONDS: Seconds = 0.15;
/** A grace stroke that fell together with its neighbour and was told after it. */
const CHANGED_PLACES = 0.5;
const TOGETHER_SECONDS: Seconds = 0.045;
/** Begun with another lead than the first; begun in the middle; begun with the other hand than written. */
const OTHER_LEAD = 0.5;
const IN_THE_MIDDLE = 3;
const MIRRORED = 1;
/** However far a strike is from its moment, it costs no more. */
const MOST_OFF = 9;
const LEAST_SPREAD_SECONDS: Seconds = 0.014;
const SPREAD_OF_INTERVAL = 0.08;
const GRACE_SPREAD_SECONDS: Seconds = 0.02;

/** Strokes left out or added in a row that are looked for. */
const MOST_IN_A_ROW = 3;
/** Places of the rudiment on both sides of the cheapest one that are kept at each strike. */
const REACH = 14;
const PASSES = 3;

export interface AlignedHands {
  readonly contacts: Contacts;
  /** Begun with the other hand than written. */
  readonly mirrored: boolean;
  /** By strike. */
  readonly places: readonly PlaceOfStroke[];
  readonly cost: number;
}

/** The cheapest alignment, with the rudiment as written or with the hands changed: the first pass decides which. */
export function alignHands(rudiment: Rudiment, played: readonly PlayedStroke[]): AlignedHands {
  const [asWritten, changed] = [false, true].map((mirrored) => {
    const contacts = new Contacts(rudiment, mirrored);
    return { contacts, mirrored, ...cheapestPath(contacts, played, undefined) };
  });
  const first = changed && asWritten && changed.cost + MIRRORED < asWritten.cost ? changed : asWritten;
  if (!first) throw new RangeError("A rudiment begins with the one hand or the other.");
  const { contacts } = first;
  let path: Path = first;
  for (let pass = 1; pass < PASSES; pass += 1)
    path = cheapestPath(contacts, played, roughBeatLengths(contacts, played, path.places));
  return { ...first, ...path };
}

interface Path {
  readonly places: readonly PlaceOfStroke[];
  readonly cost: number;
}

/** How a strike came to be the stroke at a place. */
interface Step {
  readonly cost: number;
  /** The matched strike before, −1 at the start, and its place. */
  readonly from: number;
  readonly place: number;
  /** This strike and the one before have changed places. */
  readonly changed: boolean;
}

function cheapestPath(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  lengths: BeatLengths | undefined,
): Path {
  const rows: Row[] = [];
  let centre = 0;
  played.forEach((_, hit) => {
    const first = Math.max(0, centre - REACH);
    const steps: (Step | undefined)[] = [];
    for (let place = first; place <= centre + REACH; place += 1)
      steps.push(cheapestStep(contacts, played, lengths, rows, hit, place));
    const row = { first, steps };
    rows.push(row);
    const best = cheapest(row);
    if (best) centre = best[0] + 1;
  });
  return traced(contacts, played, rows);
}

/** What one strike may be: the cheapest step to each place from `first` on. */
interface Row {
  readonly first: number;
  readonly steps: readonly (Step | undefined)[];
}

function stepAt(row: Row | undefined, place: number): Step | undefined {
  return row?.steps[place - row.first];
}

function cheapest({ first, steps }: Row): readonly [number, Step] | undefined {
  let best: readonly [number, Step] | undefined;
  steps.forEach((step, at) => {
    if (step && (!best || step.cost < best[1].cost)) best = [first + at, step];
  });
  return best;
}

function cheapestStep(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  lengths: BeatLengths | undefined,
  rows: readonly Row[],
  hit: number,
  place: number,
): Step | undefined {
  const strike = played[hit];
  if (!strike) return undefined;
  const contact = contacts.at(place);
  const slip = contact.hand === strike.hand ? 0 : OTHER_HAND;
  let best: Step | undefined = changedStep(contacts, played, rows, hit, place);
  let least = best?.cost ?? Number.POSITIVE_INFINITY;
  if (hit <= MOST_IN_A_ROW) {
    const cost = hit * ADDED + startCost(contacts, place) + slip;
    if (cost < least) best = { cost, from: -1, place: -1, changed: false };
    least = Math.min(least, cost);
  }
  for (let from = hit - 1; from >= Math.max(0, hit - 1 - MOST_IN_A_ROW); from -= 1) {
    let leftOut = 0;
    const row = rows[from];
    for (let before = place - 1; before >= Math.max(0, place - 1 - MOST_IN_A_ROW); before -= 1) {
      const step = stepAt(row, before);
      if (step && step.cost + leftOut + slip < least) {
        const between = addedCost(contacts, played, from, hit, before);
        const off = lengths ? offCost(contacts, played, lengths, { from, hit, before, place }) : 0;
        const cost = step.cost + between + leftOut + off + slip;
        if (cost < least) {
          least = cost;
          best = { cost, from, place: before, changed: false };
        }
      }
      leftOut += contacts.isGrace(before) ? GRACE_LEFT_OUT : LEFT_OUT;
    }
  }
  return best;
}

function startCost(contacts: Contacts, place: number): number {
  if (place === 0) return 0;
  if (place >= contacts.perCycle) return Number.POSITIVE_INFINITY;
  return contacts.leads.includes(place) ? OTHER_LEAD : IN_THE_MIDDLE;
}

/** Strikes between two matched ones are one too many, or bounces. */
function addedCost(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  from: number,
  to: number,
  place: number,
): number {
  let cost = 0;
  for (let at = from + 1; at < to; at += 1) cost += isBounce(contacts, played, at, place) ? BOUNCE : ADDED;
  return cost;
}

function isBounce(contacts: Contacts, played: readonly PlayedStroke[], at: number, place: number): boolean {
  const { bounced, hand } = contacts.at(place);
  const strike = played[at];
  const before = played[at - 1];
  if (!bounced || !strike || !before || strike.hand !== hand || before.hand !== hand) return false;
  return strike.time - before.time <= LONGEST_BOUNCE_SECONDS;
}

/** The price of coming sooner or later after the stroke before than the tempo has it. */
function offCost(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  lengths: BeatLengths,
  { from, hit, before, place }: Readonly<Record<"from" | "hit" | "before" | "place", number>>,
): number {
  const [a, b] = [contacts.at(before), contacts.at(place)];
  const written = (b.beat - a.beat) * lengths.at(hit);
  const expected = written + (a.aheadMs - b.aheadMs) / 1000;
  const passed = (played[hit]?.time ?? 0) - (played[from]?.time ?? 0);
  const graces = (a.role === "grace" ? 1 : 0) + (b.role === "grace" ? 1 : 0);
  const spread = Math.hypot(
    LEAST_SPREAD_SECONDS,
    SPREAD_OF_INTERVAL * written,
    graces * GRACE_SPREAD_SECONDS,
  );
  return Math.min(MOST_OFF, ((passed - expected) / spread) ** 2 / 2);
}

/** Two strikes nearly together, a grace stroke one of them, that were told the other way round. */
function changedStep(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  rows: readonly Row[],
  hit: number,
  place: number,
): Step | undefined {
  const [late, early] = [played[hit], played[hit - 1]];
  if (!late || !early || place < 1 || late.time - early.time > TOGETHER_SECONDS) return undefined;
  if (!contacts.isGrace(place - 1)) return undefined;
  if (late.hand !== contacts.at(place - 1).hand || early.hand !== contacts.at(place).hand) return undefined;
  if (late.hand === early.hand) return undefined;
  if (hit === 1)
    return place === 1 ? { cost: CHANGED_PLACES, from: -1, place: -1, changed: true } : undefined;
  const step = stepAt(rows[hit - 2], place - 2);
  return step && { cost: step.cost + CHANGED_PLACES, from: hit - 2, place: place - 2, changed: true };
}

/** From the cheapest end back to the start. Strikes after the last matched one are one too many. */
function traced(contacts: Contacts, played: readonly PlayedStroke[], rows: readonly Row[]): Path {
  const places = new Array<PlaceOfStroke>(played.length).fill("added");
  let end: { readonly hit: number; readonly place: number; readonly cost: number } | undefined;
  for (let hit = played.length - 1; hit >= Math.max(0, played.length - 1 - MOST_IN_A_ROW); hit -= 1) {
    const row = rows[hit];
    const best = row && cheapest(row);
    if (!best) continue;
    const cost = best[1].cost + addedCost(contacts, played, hit, played.length, best[0]);
    if (!end || cost < end.cost) end = { hit, place: best[0], cost };
  }
  if (!end) return { places, cost: played.length * ADDED };
  let { hit, place } = end;
  for (let at = hit + 1; at < played.length; at += 1)
    if (isBounce(contacts, played, at, place)) places[at] = "bounce";
  while (hit >= 0) {
    const step = stepAt(rows[hit], place);
    if (!step) break;
    places[hit] = step.changed ? place - 1 : place;
    if (step.changed) places[hit - 1] = place;
    for (let at = step.from + 1; at < hit && step.from >= 0 && !step.changed; at += 1)
      if (isBounce(contacts, played, at, step.place)) places[at] = "bounce";
    hit = step.from;
    place = step.place;
  }
  return { places, cost: end.cost };
}
