import { type Heard, type Hearing, whyWords } from "../engine/listening/index.ts";
import { metreName } from "../engine/score/index.ts";
import { rounded } from "./heard.ts";

/** A hearing as the contract of `identify --json` has it. */
export function heardJson(heard: Heard): object {
  const { known, candidates, pulse, span, swing, fills, countIn } = heard;
  return {
    known,
    candidates: candidates.map(({ id, name, confidence }) => ({
      id,
      name,
      confidence: rounded(confidence),
    })),
    tempo: rounded(pulse.tempoBpm),
    metre: metreName(pulse.metre),
    downbeat: rounded(pulse.downbeats[0] ?? span.from),
    why: whyWords(heard),
    swing: swing === null ? null : rounded(swing.ratio),
    fills: fills.map(({ from, to, id, name }) => ({
      from: rounded(from),
      to: rounded(to),
      ...(id === undefined ? {} : { id }),
      ...(name === undefined ? {} : { name }),
    })),
    countIn:
      countIn === undefined
        ? null
        : { from: rounded(countIn.from), to: rounded(countIn.to), strokes: countIn.strokes },
  };
}

/** The same where nothing may have been heard yet: the fields are there, empty. */
export function hearingJson(hearing: Hearing): object {
  if (hearing.kind === "heard") return heardJson(hearing);
  return {
    known: false,
    candidates: [],
    tempo: null,
    metre: null,
    downbeat: null,
    why: [],
    swing: null,
    fills: [],
    countIn: null,
  };
}
