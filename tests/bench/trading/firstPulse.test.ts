/**
 * The first player's own pulse after seven beats: styles of the catalogue, tempo within a quarter, lean and spread as people have
 * them, begun on the one and with a beat before it. What is told as sure must be right; what is not is said to be unsure.
 */
import { expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { catalogueStock, hear } from "../../../engine/listening/index.ts";
import { beatsPerBar, metreName } from "../../../engine/score/index.ts";
import { firstPulse } from "../../../engine/trading/index.ts";
import { beatSeconds, wilson } from "../../../engine/units/index.ts";
import { catalogueCases } from "../listening/catalogueCases.ts";

const CASES = process.env.THRONESIDE_BENCH === "full" ? 600 : 60;
const BEATS = 7;
const stock = catalogueStock(STYLES);

test.each([
  ["as it is heard", false],
  ["the metre said", true],
] as const)("%s", (name, isSaid) => {
  let tempos = 0;
  let metres = 0;
  let sure = 0;
  let sureRight = 0;
  let ones = 0;
  let asked = 0;
  let sureOne = 0;
  let sureOneRight = 0;
  for (const [index, one] of catalogueCases(CASES, 4, 311).entries()) {
    const { metre } = one.groove;
    const beat = beatSeconds(one.tempoBpm);
    const hasUpbeat = index % 2 === 1;
    const line = one.downbeats[1] ?? 0;
    const begins = line - (hasUpbeat ? 1.1 : 0.1) * beat;
    const hits = one.hits.filter(({ time }) => time >= begins && time < begins + BEATS * beat);
    const first = hits[0]?.time ?? 0;
    const hearing = hear(hits, stock);
    if (hearing.kind !== "heard") continue;
    asked += 1;
    const told = firstPulse(hearing, first, { aboutBpm: one.tempoBpm * 1.05, metre: isSaid ? metre : null });
    const tempoRight = Math.abs(Math.log(told.pulse.tempoBpm / one.tempoBpm)) < 0.05;
    const metreRight = metreName(told.pulse.metre) === metreName(metre);
    const bar = beatsPerBar(metre) * beat;
    const off = (told.pulse.from - line) / bar;
    const oneRight = tempoRight && metreRight && Math.abs(off - Math.round(off)) * bar < 0.12;
    tempos += Number(tempoRight);
    metres += Number(metreRight);
    ones += Number(oneRight);
    sure += Number(told.isMetreSure);
    sureRight += Number(told.isMetreSure && metreRight);
    sureOne += Number(told.isOneSure);
    sureOneRight += Number(told.isOneSure && oneRight);
  }
  const share = (right: number, of: number): string => {
    const { low, high } = wilson(right, of);
    return `${right} of ${of} [${low.toFixed(3)}, ${high.toFixed(3)}]`;
  };
  console.log(
    `${name}: tempo ${share(tempos, asked)}, metre ${share(metres, asked)}, the one ${share(ones, asked)}; ` +
      `of metres told as sure right ${share(sureRight, sure)}, of ones ${share(sureOneRight, sureOne)}`,
  );
  expect(asked).toBe(CASES);
  expect(tempos / asked).toBeGreaterThan(0.95);
  expect(sure).toBeGreaterThan(asked / 4);
  expect(sureOne).toBeGreaterThan(asked / 4);
  expect(sureRight / sure).toBeGreaterThan(0.95);
  expect(sureOneRight / sureOne).toBeGreaterThan(0.9);
});
