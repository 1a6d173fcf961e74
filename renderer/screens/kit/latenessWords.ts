/** What the Kit screen says of a set-up's delay. */

import { numberWord, setUpMs } from "../../../engine/grading/index.ts";
import { type Calibration, outputName, type SetUp, STRIKES_ASKED } from "../../../engine/kit/index.ts";
import type { Milliseconds } from "../../../engine/units/index.ts";
import type { Hearing } from "./measureByMicrophone.ts";
import { SOUNDS_ASKED } from "./measureByMicrophone.ts";
import type { Striking } from "./measureByStriking.ts";

/**
 * "12 ms late (±3 ms)": a delay as it is shown.
 *
 * @example
 * lateWords({ lateMs: -8.2, giveOrTakeMs: 1.5, how: "strikes" }) // => "8 ms early (±1.5 ms)"
 */
export function lateWords({ lateMs, giveOrTakeMs }: Calibration): string {
  const size = Math.round(Math.abs(lateMs));
  const late = size === 0 ? "not late" : `${size} ms ${lateMs < 0 ? "early" : "late"}`;
  return giveOrTakeMs === null ? late : `${late} (±${setUpMs(giveOrTakeMs)} ms)`;
}

const HOW: Readonly<Record<Calibration["how"], string>> = {
  strikes: "measured by striking",
  microphone: "measured by microphone",
  "by-hand": "entered by hand",
};

/** What is known of a set-up. */
export function latenessWords(setUp: SetUp, calibration: Calibration): string {
  const name = `${capital(setUp.input)}, heard through ${outputName(setUp.output)}`;
  return calibration.giveOrTakeMs === null
    ? `${name}: never measured.`
    : `${name}: ${lateWords(calibration)}, ${HOW[calibration.how]}.`;
}

/** What striking with the click has come to; `undefined` where it has not begun. */
export function strikingWords(striking: Striking): string | undefined {
  switch (striking.stage) {
    case "before":
      return undefined;
    case "striking":
      return striking.counted === 0
        ? "Strike any one pad with each click. Four clicks to fall in, then it counts."
        : `${striking.counted} of ${STRIKES_ASKED} strikes.`;
    case "struck":
      return struckWords(striking.measured);
  }
}

function struckWords(measured: Extract<Striking, { stage: "struck" }>["measured"]): string {
  switch (measured.kind) {
    case "measured": {
      const { middleMs, giveOrTakeMs, kept, slips } = measured.middle;
      const leftOut = slips === 0 ? "" : `, ${numberWord(slips)} left out`;
      return `Your strikes came ${againstClick(middleMs)} (±${setUpMs(giveOrTakeMs)} ms): the middle of ${kept}${leftOut}.`;
    }
    case "too-few":
      return `Only ${numberWord(measured.kept)} strikes lay near one another: too few to tell. Strike again, one pad, with each click.`;
    case "too-wide":
      return `The strikes lay ${Math.round(measured.spreadMs)} ms to either side: too far apart to tell. Strike again, with the click and not between.`;
  }
}

function againstClick(ms: Milliseconds): string {
  const size = Math.round(Math.abs(ms));
  return size === 0 ? "with the click" : `${size} ms ${ms < 0 ? "before" : "after"} the click`;
}

/** What the microphone has come to; `undefined` where it was not asked. */
export function microphoneWords(hearing: Hearing): string | undefined {
  switch (hearing.stage) {
    case "before":
      return undefined;
    case "asking":
      return "Waiting for the browser: it may be asking you to allow the microphone.";
    case "clicks":
      return `Keep still: the microphone listens to the click. ${hearing.heard} of ${SOUNDS_ASKED} heard.`;
    case "sticks":
      return hearing.heard === 0
        ? "Now strike one pad, hard, again and again, a second apart. The microphone listens to the stick."
        : `Strike on: ${hearing.heard} of ${SOUNDS_ASKED} heard.`;
    case "heard": {
      const { middleMs, giveOrTakeMs } = hearing.middle;
      const calibration: Calibration = { lateMs: middleMs, giveOrTakeMs, how: "microphone" };
      return `This set-up is ${lateWords(calibration)}.`;
    }
    case "trouble":
      return hearing.reason;
  }
}

/** What a measured figure holds, said before it is kept. */
export function measuredWords({ how }: Pick<Calibration, "how">): string {
  return how === "microphone"
    ? "This is the set-up alone: the click’s way out, the pad, the module and the cable. Neither you nor the microphone’s own delay is in it. What it heard is forgotten."
    : "This holds the set-up and you: the click’s way to your ear, the pad, the module, the cable, and your own habit. Most people strike some milliseconds ahead of a click without knowing it. Keep it, and leans are told from your usual place; for the set-up alone let the microphone listen.";
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
