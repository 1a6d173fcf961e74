import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { PLACES_PER_BEAT } from "../../../engine/listening/barModel.ts";
import { catalogueStock } from "../../../engine/listening/index.ts";
import type { GrooveModel } from "../../../engine/listening/knownGroove.ts";
import { ROLE_COUNT } from "../../../engine/listening/roles.ts";
import { shelfStock } from "../../../engine/listening/stock.ts";
import { grooveBeats, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { knownGrooveOf } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);
const known = stock.grooves.map((groove) => ({ id: groove.id, groove }));

/** Models of one variant, one swing and one number of felt beats on a pulse: they differ in their blur alone. */
function inOneWay(models: readonly GrooveModel[]): readonly (readonly GrooveModel[])[] {
  const ways: GrooveModel[][] = [];
  for (const model of models) {
    const last = ways.at(-1);
    if (model.forBeatSeconds?.from === 0 || !last) ways.push([model]);
    else last.push(model);
  }
  return ways;
}

describe("a style of the catalogue as listening knows it", () => {
  test("the stock holds every style, in its order", () => {
    expect(stock.grooves.map(({ id }) => id)).toEqual(STYLES.map(({ id }) => id));
    expect(stock.grooves.map(({ own }) => own)).toEqual(STYLES.map(({ own }) => own));
  });

  test.each(known)("$id: every variant has models, for pulses of any tempo once", ({ id, groove }) => {
    const style = STYLES.find((each) => each.id === id);
    const written = new Set(groove.models.map((model) => model.written?.id));
    expect([...written]).toEqual(style?.variants.map((variant) => variant.id));
    for (const way of inOneWay(groove.models)) {
      expect(new Set(way.map(({ feltPerPulse }) => feltPerPulse)).size).toBe(1);
      for (const beatSeconds of [0.2, 0.3599, 0.36, 0.5, 0.56, 1, 3]) {
        const meant = way.filter(({ forBeatSeconds: meantFor }) => {
          return meantFor && beatSeconds >= meantFor.from && beatSeconds < meantFor.below;
        });
        expect(meant.length, `${beatSeconds} s`).toBe(1);
      }
    }
  });

  test.each(known)(
    "$id: its models come round after whole pulse beats, with whole repeats of it",
    ({ groove }) => {
      for (const { beats, places, rates, feltPerPulse, written } of groove.models) {
        if (!written) throw new Error("A model of the catalogue was not written.");
        expect(Number.isInteger(beats)).toBe(true);
        expect(places).toBe(beats * PLACES_PER_BEAT);
        expect(rates.length).toBe(ROLE_COUNT * places);
        expect((beats * feltPerPulse) % grooveBeats(written)).toBe(0);
      }
    },
  );

  test("two felt beats go on a pulse in seven eight always, and also where the felt beat is fast", () => {
    for (const { models } of stock.grooves) {
      for (const written of new Set(models.map((model) => model.written))) {
        if (!written) throw new Error("A model of the catalogue was not written.");
        const felt = models.filter((model) => model.written === written).map((model) => model.feltPerPulse);
        const expected = written.metre.numerator === 7 ? [2] : written.tempoBpm.high > 185 ? [1, 2] : [1];
        expect([...new Set(felt)].sort(), written.id).toEqual(expected);
      }
    }
  });

  test("a swung groove is expected at several ratios, a straight one as written", () => {
    expect(inOneWay(knownGrooveOf("rock-eighths").models).length).toBe(1);
    expect(inOneWay(knownGrooveOf("shuffle").models).length).toBe(3);
  });

  test("blur moves no stroke and loses none: models for slow and fast pulses expect as much", () => {
    for (const { models } of stock.grooves) {
      for (const way of inOneWay(models)) {
        for (const { total } of way) expect(total).toBeCloseTo(way[0]?.total ?? Number.NaN, 6);
      }
    }
  });
});

describe("a groove of a shelf", () => {
  const groove = writtenGrooveOf("bossa-nova");
  const take = (seed: number) =>
    played(groove, { tempoBpm: usualTempo(groove), bars: 6, spreadMs: 8, chance: seededChance(seed) });
  const [shelved] = shelfStock(
    [{ id: "a", name: "A", takes: [take(1), take(2)] }],
    shippedBackground(),
  ).grooves;

  test("is at home about the tempo of its takes, and comes round after one bar or two", () => {
    if (!shelved) throw new Error("It was left out.");
    expect(shelved.tempoBpm.low).toBeLessThan(usualTempo(groove));
    expect(shelved.tempoBpm.high).toBeGreaterThan(usualTempo(groove));
    const bar = shelved.metre.numerator;
    expect(shelved.models.map(({ beats }) => beats)).toEqual([bar, 2 * bar]);
  });

  test("was not written, has no strokes of its own, and suits pulses of any tempo", () => {
    expect(shelved?.own).toBeUndefined();
    for (const model of shelved?.models ?? []) {
      expect(model.written).toBeUndefined();
      expect(model.forBeatSeconds).toBeUndefined();
      expect(model.feltPerPulse).toBe(1);
    }
    expect(shelved?.models.length).toBe(2);
  });
});
