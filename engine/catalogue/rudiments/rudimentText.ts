import type { Bpm } from "../../units/index.ts";
import type { RollPart, Rudiment, RudimentFamily } from "./rudiment.ts";
import { readSticking } from "./stickingText.ts";

/** What a family's file holds of one rudiment. Its id is its name in small letters. */
export interface RudimentText {
  readonly number: number;
  readonly name: string;
  readonly otherNames?: readonly string[];
  readonly rollPart?: RollPart;
  readonly metre: "2/4" | "3/4" | "4/4" | "6/8";
  readonly sticking: string;
  readonly tempoBpm?: readonly [low: Bpm, high: Bpm];
}

/** Where none is said. Common practice, no source. */
const USUAL_TEMPO: readonly [Bpm, Bpm] = [60, 120];

/** Reads a rudiment. @throws StickingTextError when its sticking cannot be read. */
export function readRudiment(text: RudimentText, family: RudimentFamily): Rudiment {
  const [numerator = 4, denominator = 4] = text.metre.split("/").map(Number);
  const metre = { numerator, denominator };
  const [low, high] = text.tempoBpm ?? USUAL_TEMPO;
  return {
    id: text.name.toLowerCase().replaceAll("#", "").replaceAll(" ", "-"),
    number: text.number,
    name: text.name,
    otherNames: text.otherNames ?? [],
    family,
    ...(text.rollPart ? { rollPart: text.rollPart } : {}),
    metre,
    tempoBpm: { low, high },
    ...readSticking(text.sticking, metre),
  };
}
