import { type Heard, type Hearing, hear, type Stock } from "../engine/listening/index.ts";
import { TakeError, type TakeFile, withoutRetriggers } from "./takes.ts";

/** What a take sounds like. @throws TakeError when too little was played to hear anything in it. */
export function hearTake(take: TakeFile, stock: Stock, clickBpm: number | undefined): Heard {
  const hearing: Hearing = hear(
    withoutRetriggers(take.hits),
    stock,
    clickBpm === undefined ? {} : { click: { tempoBpm: clickBpm, from: 0 } },
  );
  if (hearing.kind === "nothing") throw new TakeError(whyNothing(take));
  return hearing;
}

function whyNothing({ hits }: TakeFile): string {
  return hits.every(({ voice }) => voice === "unknown")
    ? "The map names none of the keys that were struck; name another with --map."
    : "Too little was played to hear a groove in it.";
}

/** Rounded for output: times to a tenth of a millisecond, the rest to four places. */
export function rounded(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
