/** What is said of a phrase that was to be finished, in a teacher's words. */
import { numberWord } from "../grading/index.ts";
import { answerWords } from "./comparisonWords.ts";
import type { Finish } from "./finish.ts";

/** A stroke nearer to the line than this is on it; a call that stops nearer to it left nothing open. Our choice. */
const ON_THE_LINE_BEATS = 1 / 8;
/** Half a beat is room for a pick-up at most, not for an end. Our choice. */
const NOTHING_OPEN_BEATS = 0.5 + ON_THE_LINE_BEATS;

/** "Taken up on the one, two beats after the call stopped." And what the end is like, and whether the phrase is finished. */
export function finishWords(finish: Finish): readonly string[] {
  const { takenUpBeats, finished, end } = finish;
  if (takenUpBeats === null) return ["Nobody finished it: the whole turn was left empty."];
  return [
    takenUpWords(finish, takenUpBeats),
    answerWords(end),
    ...(finished === null ? [] : [finished ? "The phrase is finished." : "The phrase stays open."]),
  ];
}

function takenUpWords({ leftOpenBeats, takenUp }: Finish, takenUpBeats: number): string {
  const place =
    Math.abs(takenUpBeats) < ON_THE_LINE_BEATS
      ? "on the one"
      : `${beatsWords(Math.abs(takenUpBeats))} ${takenUpBeats < 0 ? "before" : "after"} the one`;
  const late = takenUp ? "" : ", late";
  if (leftOpenBeats === null) return `Nothing was called; begun ${place}.`;
  if (leftOpenBeats < NOTHING_OPEN_BEATS) return `The call left nothing open; taken up ${place}${late}.`;
  return `Taken up ${place}${late}, ${beatsWords(leftOpenBeats + takenUpBeats)} after the call stopped.`;
}

/** Parts of a beat that have a name, and the name; in order. */
const PARTS = [
  [0, ""],
  [1 / 4, "a quarter"],
  [1 / 3, "a third"],
  [1 / 2, "a half"],
  [2 / 3, "two thirds"],
  [3 / 4, "three quarters"],
  [1, ""],
] as const;

/** Both lean: what is a little more than a quarter is no third. Our choice. */
const THIRD_BEATS = 0.05;

/** A length in beats, by the nearest part that has a name: "two beats and a half", "a quarter of a beat". */
function beatsWords(beats: number): string {
  const part = beats - Math.floor(beats);
  const far = ([share]: (typeof PARTS)[number]): number =>
    Math.abs(share - part) + (share % (1 / 4) === 0 ? 0 : THIRD_BEATS);
  const [share, name] = PARTS.reduce((best, each) => (far(each) < far(best) ? each : best));
  const whole = Math.floor(beats) + (share === 1 ? 1 : 0);
  if (whole === 0) return name === "" ? "at once" : name === "a half" ? "half a beat" : `${name} of a beat`;
  const said = whole === 1 ? "a beat" : `${numberWord(whole)} beats`;
  return name === "" ? said : `${said} and ${name}`;
}
