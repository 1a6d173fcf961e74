/** From the strikes of a take to what was played, written down, with the places that are unsure. */
import { familyOf, type Hit } from "../../../../engine/kit/index.ts";
import {
  asGroove,
  catalogueStock,
  type FileMap,
  type Heard,
  headingOfFile,
  hear,
  movedBeat,
  quantise,
  repeatingIn,
  type Unsure,
} from "../../../../engine/listening/index.ts";
import { beatsPerQuarter, type Groove, type PlayedClick } from "../../../../engine/score/index.ts";
import { toNumber } from "../../../../engine/units/index.ts";

/** A take as it was understood. */
export type WrittenDown =
  | {
      readonly kind: "written";
      /** All of it, as it was played once. */
      readonly whole: Groove;
      /** Of `whole`. */
      readonly unsure: readonly Unsure[];
      /** What is to be asked of the beat; nothing where a click or a count-in said it. */
      readonly unsureBeat: UnsureBeat;
      /** What comes round in it; `null` where nothing does. */
      readonly round: { readonly groove: Groove; readonly played: number; readonly outOf: number } | null;
    }
  | { readonly kind: "failed"; readonly reason: string };

/** What of the beat is not sure. */
export interface UnsureBeat {
  /** Whether it may lie half a beat off. */
  readonly between: boolean;
  /** Whether another of the beats may be the one. */
  readonly one: boolean;
}

const SURE_BEAT: UnsureBeat = { between: false, one: false };
/**
 * From this chance of being wrong on it is asked. Our choice. That the beat is half off is the worse mistake, and what is
 * heard is too sure of it: in cymbal grooves it is asked at one in ten, beat one at one in five.
 */
const ASK_BETWEEN = 0.1;
const ASK_ONE = 0.2;
/** With fewer strokes on hi-hat and cymbals than this, a beat, nobody keeps time, and beats and half beats look alike. Our choice. */
const KEEPS_TIME = 0.5;

const HEADS = { id: "heard", name: "heard" };
/** Pulse and metre are listened for; which groove it is, is not asked. */
const NO_GROOVES = catalogueStock([]);

/** A click, as it was played. */
export type TakeClick = Pick<PlayedClick, "tempoBpm" | "from" | "way">;

/**
 * @param click the click the take was played to, from the first beat that counts. Its bars are the take's; a take that did
 *   not keep to it has those that are heard in it.
 * @param later felt beats, whole or half, by which the one lies later than it was found; negative is earlier.
 */
export function writeDown(hits: readonly Hit[], click: TakeClick | null, later = 0): WrittenDown {
  const hearing = hear(hits, NO_GROOVES);
  if (hearing.kind === "nothing")
    return {
      kind: "failed",
      reason:
        hearing.reason === "no-hits"
          ? "Nothing was played. Check that the kit is connected, then play again."
          : "Too little was played to hear a pulse. Play two bars or more, or write it by hand.",
    };
  const clicked = click === null ? undefined : headingOfFile(hits, barsOf(click));
  // The click has counted in already: what sounds like it in the take is played.
  const counted = clicked ? undefined : hearing.countIn;
  const played = counted === undefined ? hits : hits.filter(({ time }) => time > counted.to);
  const quantised = quantise(played, movedBeat(played, clicked ?? hearing, later));
  const repeating = repeatingIn(quantised, clicked ? "file" : "listening");
  return {
    kind: "written",
    whole: asGroove(quantised, HEADS),
    unsure: quantised.unsure,
    unsureBeat: clicked ? SURE_BEAT : unsureBeatOf(played, hearing),
    round:
      repeating.kind === "found"
        ? { groove: asGroove(repeating.groove, HEADS), played: repeating.played, outOf: repeating.outOf }
        : null,
  };
}

function unsureBeatOf(played: readonly Hit[], { doubt, pulse, countIn }: Heard): UnsureBeat {
  const keeping = played.filter(({ voice }) => ["hats", "cymbals"].includes(familyOf(voice))).length;
  const isKept = keeping >= KEEPS_TIME * pulse.beats.length;
  // What was counted in settles both: then neither is in doubt at all.
  const isCounted = countIn !== undefined && doubt.between === 0 && doubt.one === 0;
  return {
    between: !isCounted && (doubt.between >= ASK_BETWEEN || !isKept),
    one: doubt.one >= ASK_ONE,
  };
}

/** Tempo and bar lines of a click, as a file would say them. */
function barsOf({ tempoBpm, from, way }: TakeClick): FileMap {
  const quarterBpm = tempoBpm / toNumber(beatsPerQuarter(way.metre));
  return { tempos: [{ time: from, tempoBpm: quarterBpm }], metres: [{ time: from, metre: way.metre }] };
}
