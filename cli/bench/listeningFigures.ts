import { STYLES } from "../../engine/catalogue/index.ts";
import { catalogueStock, hear, Listener, type Stock } from "../../engine/listening/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { BENCH_GROOVES, studentTake } from "./benchTakes.ts";
import { type Share, shareOf } from "./share.ts";
import { type Costs, costsOf, timed, untilTimeIsUp } from "./stopwatch.ts";

/** What listening costs on this machine, against the whole catalogue, and how often it is right. */
export interface ListeningFigures {
  /** Taking one hit in while playing. */
  readonly addP99Ms: Milliseconds;
  /** Thinking again once a beat, while playing. */
  readonly rethink: Costs;
  readonly hear8Bars: Costs;
  readonly hear32Bars: Costs;
  /** Styles named rightly, of those that were asked before the time was up. */
  readonly named8Bars: Share;
  readonly named4Bars: Share;
}

const MOST_MS: Milliseconds = 4000;

export function listeningFigures(): ListeningFigures {
  const stock = catalogueStock(STYLES);
  // The first hearings also warm the machine up.
  heardIn(stock, 8, [0], 12);
  const eight = heardIn(stock, 8, [1]);
  const four = heardIn(stock, 4, [2]);
  const long = heardIn(stock, 32, [3], 20);
  return {
    ...livingCosts(stock),
    hear8Bars: costsOf(eight.costs),
    hear32Bars: costsOf(long.costs),
    named8Bars: shareOf(eight.named, eight.costs.length),
    named4Bars: shareOf(four.named, four.costs.length),
  };
}

/** One take of every style for each seed, until the time is up. */
function heardIn(
  stock: Stock,
  bars: number,
  seeds: readonly number[],
  most = BENCH_GROOVES.length,
): { readonly costs: readonly Milliseconds[]; readonly named: number } {
  const costs: Milliseconds[] = [];
  let named = 0;
  const asked = seeds.flatMap((seed) =>
    spread(most).map((one, index) => ({ ...one, seed: 1000 * seed + index })),
  );
  untilTimeIsUp(asked, MOST_MS, ({ id, groove, seed }) => {
    const hits = studentTake(groove, bars, seed);
    costs.push(
      timed(() => {
        const hearing = hear(hits, stock);
        if (hearing.kind === "heard" && hearing.known && hearing.candidates[0]?.id === id) named += 1;
      }),
    );
  });
  return { costs, named };
}

/** So many of the grooves, evenly from the first to the last. */
function spread(most: number): typeof BENCH_GROOVES {
  const step = Math.max(1, BENCH_GROOVES.length / most);
  return BENCH_GROOVES.filter((_, index) => Math.floor(index / step) !== Math.floor((index - 1) / step));
}

const LIVE_STYLES = 8;
const LIVE_BARS = 24;

/** A listener that thinks again once a beat, through takes of several styles. */
function livingCosts(stock: Stock): Pick<ListeningFigures, "addP99Ms" | "rethink"> {
  const adds: Milliseconds[] = [];
  const thoughts: Milliseconds[] = [];
  untilTimeIsUp(spread(LIVE_STYLES), MOST_MS, ({ groove }) => {
    const listener = new Listener(stock);
    let due = 0;
    for (const hit of studentTake(groove, LIVE_BARS, 7)) {
      adds.push(timed(() => listener.add(hit)));
      if (hit.time < due) continue;
      due = hit.time + BETWEEN_THOUGHTS;
      thoughts.push(timed(() => listener.hearing()));
    }
  });
  return { addP99Ms: costsOf(adds).p99Ms, rethink: costsOf(thoughts) };
}

/** A beat at 100 a minute, in seconds. */
const BETWEEN_THOUGHTS = 0.6;
