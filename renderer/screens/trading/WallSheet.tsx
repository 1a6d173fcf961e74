import type { Seconds } from "../../../engine/units/index.ts";
import type { RoundSheet } from "../../wall/wallPage.ts";
import { TurnRings } from "./TurnRings.tsx";

/** As large as two of them go below two lines on a screen of 1280 by 720. */
const RING_PIXELS = 448;
/** As all that is read from two metres. */
const LEAST_TEXT_PIXELS = 28;

/** Both rings; whose turn it is and how long stands above them. */
export function WallSheet({
  sheet: { rings, bar },
  now,
}: {
  readonly sheet: Extract<RoundSheet, { round: "trading" }>;
  readonly now: () => Seconds;
}) {
  return (
    <TurnRings rings={rings} bar={bar} size={RING_PIXELS} leastTextPixels={LEAST_TEXT_PIXELS} now={now} />
  );
}
