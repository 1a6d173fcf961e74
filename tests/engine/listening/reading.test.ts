import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { type Background, shippedBackground } from "../../../engine/listening/background.ts";
import { PLACES_PER_BEAT } from "../../../engine/listening/barModel.ts";
import { barHypotheses, pulseHypotheses } from "../../../engine/listening/pulse.ts";
import { likelyBars, likelyPulses, readBars } from "../../../engine/listening/reading.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { laidOut } from "../../../engine/listening/trees.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { median, seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const general = shippedBackground();

function take(id: string, seed = 3): readonly Hit[] {
  const groove = writtenGrooveOf(id);
  return played(groove, { tempoBpm: usualTempo(groove), bars: 6, spreadMs: 10, chance: seededChance(seed) });
}

function barsOf(hits: readonly Hit[], under: Background = general) {
  return likelyBars(likelyPulses(pulseHypotheses(strokesOfHits(hits), under), under), under);
}

const SOME = STYLES.filter((_, index) => index % 5 === 0).map(({ id }) => id);

describe("the bars that could be", () => {
  test.each(SOME)("%s: their chances sum to one, likeliest first", (id) => {
    const read = readBars(barsOf(take(id)), general);
    const chances = read.map(({ chance }) => chance);
    expect(chances.length).toBeGreaterThan(1);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
    expect([...chances].sort((a, b) => b - a)).toEqual(chances);
    expect(Math.min(...chances)).toBeGreaterThanOrEqual(0);
  });

  test("are the ones that were asked about, each once", () => {
    const bars = barsOf(take("bossa-nova"));
    const key = ({ pulse, beatsInBar, turn }: (typeof bars)[number]) =>
      `${pulse.beatSeconds} ${beatsInBar} ${turn}`;
    expect(readBars(bars, general).map(key).sort()).toEqual(bars.map(key).sort());
    expect(new Set(bars.map(key)).size).toBe(bars.length);
  });

  test("beginning on the first stroke makes a bar likelier, by as much as is said, and no other", () => {
    const bars = barsOf(take("rock-eighths"));
    const without = bars.map((bar) => ({ ...bar, begins: 0, logChance: bar.logChance - bar.begins }));
    const chances = (asked: typeof bars) =>
      new Map(
        readBars(asked, general).map(({ pulse, beatsInBar, turn, chance }) => [
          `${pulse.beatSeconds} ${beatsInBar} ${turn}`,
          chance,
        ]),
      );
    const [withPrior, none] = [chances(bars), chances(without)];
    const begun = bars.filter(({ begins }) => begins > 0);
    expect(begun.length).toBeGreaterThan(0);
    expect(begun.length).toBeLessThan(bars.length);
    const raised = bars.map(({ pulse, beatsInBar, turn, begins }) => {
      const key = `${pulse.beatSeconds} ${beatsInBar} ${turn}`;
      return { begins, log: Math.log((withPrior.get(key) ?? 0) / (none.get(key) ?? 0)) };
    });
    const others = raised.filter(({ begins }) => begins === 0).map(({ log }) => log);
    for (const log of others) expect(log).toBeCloseTo(others[0] ?? Number.NaN, 6);
    for (const { begins, log } of raised) expect(log - (others[0] ?? 0)).toBeCloseTo(begins, 6);
  });

  test("are as likely as the trees make them", () => {
    const bars = barsOf(take("samba")).map((bar) => ({ ...bar, begins: 0 }));
    const middle = median(bars.map(({ logChance }) => logChance));
    const tree = { asked: [0], limits: [middle], below: [-1], above: [-2], ends: [-1, 1.5] };
    const read = readBars(bars, { ...general, reading: laidOut([tree]) });
    const [first, last] = [read[0], read.at(-1)];
    expect(first?.logChance ?? 0).toBeGreaterThan(middle);
    expect(last?.logChance ?? 0).toBeLessThanOrEqual(middle);
    expect(Math.log((first?.chance ?? 0) / (last?.chance ?? 1))).toBeCloseTo(2.5, 9);
  });

  test("do not depend on when the take began", () => {
    const hits = take("half-time");
    const later = hits.map((hit) => ({ ...hit, time: hit.time + 1024 }));
    const chances = (asked: readonly Hit[]) => readBars(barsOf(asked), general).map(({ chance }) => chance);
    const now = chances(hits);
    expect(now.length).toBeGreaterThan(1);
    chances(later).forEach((chance, index) => {
      expect(chance).toBeCloseTo(now[index] ?? Number.NaN, 6);
    });
  });

  test("are none where there is no pulse", () => {
    expect(readBars([], general)).toEqual([]);
    expect(barsOf(take("samba").slice(0, 3))).toEqual([]);
  });
});

describe("pulses worth a closer look", () => {
  const pulses = pulseHypotheses(strokesOfHits(take("shuffle")), general);
  const likely = likelyPulses(pulses, general);

  test("are few; those that may be read are the first of them", () => {
    expect(likely.all.length).toBeLessThanOrEqual(8);
    expect(likely.readable.length).toBeGreaterThan(0);
    expect(likely.all.slice(0, likely.readable.length)).toEqual(likely.readable);
    for (const pulse of likely.all) expect(pulses).toContain(pulse);
  });

  test("at most five bars are read under each, those that grooves in general make most of", () => {
    const bars = likelyBars(likely, general);
    const chances = bars.map(({ logChance }) => logChance);
    expect([...chances].sort((a, b) => b - a)).toEqual(chances);
    for (const pulse of likely.readable) {
      const read = bars.filter((bar) => bar.pulse === pulse);
      expect(read.length).toBe(5);
      const all = barHypotheses(pulse, general).map(({ logChance }) => logChance);
      const best = all.sort((a, b) => b - a).slice(0, 5);
      expect(read.map(({ logChance }) => logChance)).toEqual(best);
    }
  });

  test("the one that was played is mostly among them", () => {
    const missed = STYLES.filter(({ id }) => {
      const groove = writtenGrooveOf(id);
      const felt = usualTempo(groove) / (groove.metre.numerator === 7 ? 2 : 1);
      const { all } = likelyPulses(pulseHypotheses(strokesOfHits(take(id)), general), general);
      return !all.some(({ beatSeconds }) => Math.abs(Math.log((beatSeconds * felt) / 60)) < 0.01);
    });
    expect(missed.length / STYLES.length, missed.map(({ id }) => id).join(", ")).toBeLessThanOrEqual(0.04);
  });
});

describe("with the trees that ship", () => {
  test("a plain back-beat is read as it is felt: its tempo, four beats, the kick on one", () => {
    const groove = writtenGrooveOf("rock-eighths");
    const [best] = readBars(barsOf(take("rock-eighths")), general);
    if (!best) throw new Error("No bar was read.");
    expect(best.beatsInBar).toBe(4);
    expect((best.pulse.beatSeconds * usualTempo(groove)) / 60).toBeCloseTo(1, 2);
    const first = (best.pulse.strokes.beats[0] ?? 0) * PLACES_PER_BEAT - best.turn;
    // One and three are alike in a plain back-beat, to all that is written there; two and four are not one.
    const inHalves = first / (2 * PLACES_PER_BEAT);
    expect(Math.abs(inHalves - Math.round(inHalves)) * 2 * PLACES_PER_BEAT).toBeLessThan(1);
  });
});
