import { expect, test } from "vitest";
import { demonstrate, grooveById, STYLES } from "../../../../engine/catalogue/index.ts";
import { type Hit, VOICES } from "../../../../engine/kit/index.ts";
import { judgeTake } from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";

function take(
  grooveId: string,
  how: { tempoBpm: number; bars: number; leanMs?: number; from?: number },
): readonly Hit[] {
  const groove = grooveById(grooveId);
  if (!groove) throw new Error(`There is no groove called ${grooveId}.`);
  const strokes = demonstrate(groove, {
    leanMs: 0,
    spreadMs: 6,
    leftOut: 0,
    added: 0,
    chance: seededChance(11),
    ...how,
  });
  return strokes.map(({ time, voice, velocity }) => ({
    time: time + (how.from ?? 50),
    voice,
    velocity,
    zone: "whole",
    pad: VOICES.indexOf(voice),
  }));
}

test("nothing played is heard as nothing and compared with nothing", () => {
  const judged = judgeTake({ hits: [], styleId: "shuffle", click: null });
  expect(judged).toMatchObject({
    hearing: { kind: "nothing", reason: "no-hits" },
    compared: null,
    hitCount: 0,
  });
});

test.each(
  STYLES.flatMap(({ id, variants }) => variants.map((variant) => [variant.id, id, variant] as const)),
)("%s, when its style is called, is compared with that very variant", (grooveId, styleId, variant) => {
  const tempoBpm = Math.round((variant.tempoBpm.low + variant.tempoBpm.high) / 2);
  const { hearing, compared } = judgeTake({
    hits: take(grooveId, { tempoBpm, bars: 8 }),
    styleId,
    click: null,
  });
  expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe(styleId);
  expect(hearing.kind === "heard" && hearing.pulse.tempoBpm).toBeCloseTo(tempoBpm, 0);
  expect(compared?.groove.id).toBe(grooveId);
  expect(compared?.report.voiceAccuracy).toBeGreaterThan(0.9);
});

test("a free choice is compared with what was heard", () => {
  const { hearing, compared } = judgeTake({
    hits: take("shuffle", { tempoBpm: 112, bars: 8 }),
    styleId: null,
    click: null,
  });
  expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe("shuffle");
  expect(compared?.groove.name).toBe("Shuffle");
});

test("with a click the lean is measured against the click", () => {
  const hits = take("rock-eighths", { tempoBpm: 100, bars: 8, leanMs: 18 });
  const { compared, click } = judgeTake({
    hits,
    styleId: "rock-eighths",
    click: { tempoBpm: 100, from: 50 },
  });
  expect(click).toEqual({ tempoBpm: 100, from: 50 });
  // How it went is not known: of silences nothing can be told.
  expect(compared?.gapDrifts).toEqual([]);
  expect(compared?.report.leanMs).toBeGreaterThan(15);
  expect(compared?.report.leanMs).toBeLessThan(21);
  expect(compared?.report.start.time).toBe(0);
});

test("another style than the called one is still heard as what it is, and compared with what was called", () => {
  const hits = take("bossa-nova", { tempoBpm: 128, bars: 8 });
  const { hearing, compared } = judgeTake({ hits, styleId: "shuffle", click: null });
  expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe("bossa-nova");
  expect(compared?.groove.name).toBe("Shuffle");
});

test.each([0.98, 1.02])("a player who leaves the click, at %f of its beat, is still heard", (share) => {
  const hits = take("rock-eighths", { tempoBpm: 132, bars: 8, from: 0 });
  const away = hits.map((hit) => ({ ...hit, time: 50 + hit.time * share }));
  const { hearing, compared } = judgeTake({
    hits: away,
    styleId: "rock-eighths",
    click: { tempoBpm: 132, from: 50 },
  });
  expect(hearing.kind === "heard" && hearing.known && hearing.candidates[0]?.id).toBe("rock-eighths");
  // The figures are still those against the click.
  expect(compared?.report.driftPercent).toBeCloseTo(100 / share - 100, 0);
});

test("the band is the student's: wider for a beginner, steady where nothing is said", () => {
  const hits = take("samba", { tempoBpm: 100, bars: 8 });
  const bandOf = (level?: "first-year" | "working") =>
    judgeTake({ hits, styleId: "samba", click: null, ...(level ? { level } : {}) }).compared?.report.band;
  expect(bandOf()?.level).toBe("steady");
  expect(bandOf("first-year")?.level).toBe("first-year");
  expect(bandOf("first-year")?.halfBandMs).toBeGreaterThan(bandOf("working")?.halfBandMs ?? Infinity);
});
