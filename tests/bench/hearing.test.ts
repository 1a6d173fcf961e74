/**
 * How well grooves are named, how true the chances are and how long it takes, on hard cases made from the catalogue (invented data):
 * tempo ±25 %, lean ±20 ms, spread 15 ms, 5 % left out, 5 % added.
 */
import { describe, expect, test } from "vitest";
import { STYLES } from "../../engine/catalogue/index.ts";
import { catalogueStock, type Hearing, hear, type Stock } from "../../engine/listening/index.ts";
import { type Groove, usualTempo } from "../../engine/score/index.ts";
import { type Chance, seededChance } from "../../engine/units/index.ts";
import { played } from "../engine/listening/played.ts";

const stock = catalogueStock(STYLES);

function hardCase(groove: Groove, bars: number, chance: Chance) {
  return played(groove, {
    tempoBpm: usualTempo(groove) * (0.75 + 0.5 * chance()),
    bars,
    leanMs: (chance() - 0.5) * 40,
    spreadMs: 15,
    leftOut: 0.05,
    added: 0.05,
    chance,
  });
}

function eachCase(
  bars: number,
  chance: Chance,
  work: (hearing: Hearing, styleId: string) => void,
  among: (styleId: string) => Stock = () => stock,
): void {
  for (const style of STYLES) {
    for (const groove of style.variants) {
      for (let time = 0; time < 5; time += 1)
        work(hear(hardCase(groove, bars, chance), among(style.id)), style.id);
    }
  }
}

describe("the styles of the catalogue", () => {
  test("are named at eight bars in at least 99 of 100 hard cases", () => {
    for (const bars of [2, 4, 8]) {
      let cases = 0;
      let right = 0;
      eachCase(bars, seededChance(1312 + bars), (hearing, styleId) => {
        cases += 1;
        if (hearing.kind === "heard" && hearing.candidates[0]?.id === styleId) right += 1;
      });
      console.log(
        `Hard cases of ${bars} bars: ${right} of ${cases} named rightly (${((100 * right) / cases).toFixed(1)} %).`,
      );
      expect(cases).toBeGreaterThan(100);
      if (bars === 8) expect(right / cases).toBeGreaterThanOrEqual(0.99);
    }
  }, 240_000);
});

describe("chances", () => {
  test("come true: expected calibration error, three takes known to one unknown", () => {
    const told: { readonly chance: number; readonly right: boolean }[] = [];
    const tell = (hearing: Hearing, truth: string | undefined): void => {
      if (hearing.kind !== "heard") return;
      const best = hearing.candidates[0];
      const bestChance = best?.confidence ?? 0;
      told.push(
        hearing.known
          ? { chance: bestChance, right: best?.id === truth }
          : { chance: hearing.noneConfidence, right: truth === undefined },
      );
    };
    for (const bars of [2, 4, 8]) {
      eachCase(bars, seededChance(33 + bars), (hearing, styleId) => tell(hearing, styleId));
      const chance = seededChance(44 + bars);
      let turn = 0;
      eachCase(
        bars,
        chance,
        (hearing) => {
          turn += 1;
          if (turn % 3 === 0) tell(hearing, undefined);
        },
        (styleId) => ({ ...stock, grooves: stock.grooves.filter(({ id }) => id !== styleId) }),
      );
    }
    const bins = Array.from({ length: 10 }, (_, index) =>
      told.filter(({ chance }) => Math.min(9, Math.floor(chance * 10)) === index),
    );
    const meanOf = (values: readonly number[]): number =>
      values.reduce((sum, value) => sum + value, 0) / values.length;
    let error = 0;
    for (const bin of bins.filter(({ length }) => length > 0)) {
      const said = meanOf(bin.map(({ chance }) => chance));
      const came = meanOf(bin.map(({ right }) => Number(right)));
      error += (Math.abs(said - came) * bin.length) / told.length;
      console.log(`said ${said.toFixed(2)}, came true ${came.toFixed(2)} (${bin.length} takes)`);
    }
    console.log(`Expected calibration error ${error.toFixed(3)} over ${told.length} takes.`);
    expect(told.length).toBeGreaterThan(400);
    expect(error).toBeLessThanOrEqual(0.05);
  }, 240_000);
});

test("the time of a hearing grows no faster than the take", () => {
  const chance = seededChance(77);
  const takesOf = (bars: number) =>
    STYLES.flatMap(({ variants }) => variants.map((groove) => hardCase(groove, bars, chance)));
  // The best of several runs: another program's work is none of ours.
  const meanMs = (takes: readonly ReturnType<typeof hardCase>[]): number => {
    const best = takes.map((take) =>
      Math.min(
        ...Array.from({ length: 3 }, () => {
          const from = performance.now();
          expect(hear(take, stock).kind).toBe("heard");
          return performance.now() - from;
        }),
      ),
    );
    return best.reduce((sum, time) => sum + time, 0) / best.length;
  };
  const short = meanMs(takesOf(8));
  const long = meanMs(takesOf(32));
  const longer = meanMs(takesOf(128));
  const [eight, thirtyTwo, many] = [short, long, longer].map((mean) => `${mean.toFixed(1)} ms`);
  console.log(
    `Hearing against the catalogue, mean: 8 bars ${eight}, 32 bars ${thirtyTwo}, 128 bars ${many}.`,
  );
  // A long take is weighed in six stretches at most, and folded bars do not grow with it.
  expect(longer / long).toBeLessThan(4);
});
