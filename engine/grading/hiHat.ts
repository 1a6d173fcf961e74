/**
 * Question: was the hi-hat open and shut where it is written so?
 *
 * Method: every hand stroke written for the hi-hat and answered on it. Heard is what the kit's key says, unless the
 * pedal speaks clearly against it: kits with one key for both tell open from shut by the pedal alone.
 */
import type { Hit } from "../kit/index.ts";
import { median } from "../units/index.ts";
import { placeOnPage } from "./limb.ts";
import type { Matched, Stroke } from "./matching.ts";
import type { HiHatFigures, HiHatPlace } from "./report.ts";
import type { Target, TargetNote } from "./target.ts";

/** From here up the pedal says open, whatever the key; from there down shut. Between, the key is believed. Our choice. */
const CLEARLY_OPEN = 0.7;
const CLEARLY_SHUT = 0.1;

const IS_OPEN = { "hi-hat-open": true, "hi-hat-closed": false } as const;

function isHand(voice: string): voice is keyof typeof IS_OPEN {
  return voice in IS_OPEN;
}

/**
 * Whether a strike on the hi-hat sounded open; `undefined` for a strike on anything else.
 *
 * @example
 * heardOpen({ voice: "hi-hat-closed", openness: 0.9 }) // => true
 */
export function heardOpen({ voice, openness }: Pick<Hit, "voice" | "openness">): boolean | undefined {
  if (!isHand(voice)) return undefined;
  if (openness !== undefined && openness >= CLEARLY_OPEN) return true;
  if (openness !== undefined && openness <= CLEARLY_SHUT) return false;
  return IS_OPEN[voice];
}

/** `null` when no hi-hat is written within the part that counts. */
export function hiHatFigures(
  { strokes }: Pick<Matched, "strokes">,
  counted: readonly TargetNote[],
  target: Target,
): HiHatFigures | null {
  const pedals = counted.filter(({ voice }) => voice === "hi-hat-pedal").length;
  if (pedals === 0 && !counted.some(({ voice }) => isHand(voice))) return null;
  const answered = strokes.flatMap((stroke) => {
    const heard = heardOpen(stroke.hit);
    const { voice } = stroke.note;
    return isHand(voice) && heard !== undefined ? [{ stroke, written: IS_OPEN[voice], heard }] : [];
  });
  const where = answered.flatMap(({ stroke: { note }, written, heard }): HiHatPlace[] =>
    written === heard
      ? []
      : [
          {
            targetIndex: note.index,
            ...placeOnPage(target, note.beat),
            was: written ? "open-as-closed" : "closed-as-open",
          },
        ],
  );
  const openness = (open: boolean) =>
    opennessOf(answered.filter(({ written }) => written === open).map(({ stroke }) => stroke));
  const pedalled = strokes.filter(
    ({ note, hit }) => note.voice === "hi-hat-pedal" && hit.voice === "hi-hat-pedal",
  ).length;
  return {
    open: answered.filter(({ written }) => written).length,
    closed: answered.filter(({ written }) => !written).length,
    openAsClosed: where.filter(({ was }) => was === "open-as-closed").length,
    closedAsOpen: where.filter(({ was }) => was === "closed-as-open").length,
    pedal: pedals,
    pedalMissing: pedals - pedalled,
    opennessOpen: openness(true),
    opennessClosed: openness(false),
    where,
  };
}

function opennessOf(strokes: readonly Stroke[]): number | null {
  const told = strokes.flatMap(({ hit }) => (hit.openness === undefined ? [] : [hit.openness]));
  return told.length === 0 ? null : median(told);
}
