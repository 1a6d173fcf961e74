/** Metre and feel of written music, as they stand under a title on paper; the tempo stands on the staff. */
import { type Feel, type Groove, metreName } from "../../../engine/score/index.ts";

/**
 * @example
 * writtenWords(groove) // => "4/4, swung about 2 to 1"
 */
export function writtenWords({ metre, feel }: Pick<Groove, "metre" | "feel">): string {
  return `${metreName(metre)}, ${feelWords(feel)}`;
}

function feelWords(feel: Feel): string {
  if (feel.kind === "straight") return "straight";
  const ratio = Math.round(feel.ratio * 10) / 10;
  return `${feel.written === "sixteenths" ? "sixteenths " : ""}swung about ${ratio} to 1`;
}
