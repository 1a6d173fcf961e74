/**
 * Rhythm and sound told apart on answers with known changes: tempo within 15 %, begun anywhere, 12 ms of scatter.
 * Every seed is fixed. `THRONESIDE_BENCH=full` draws ten times as many.
 */
import { expect, test } from "vitest";
import { compareAnswer } from "../../../engine/trading/index.ts";
import { seededChance, wilson } from "../../../engine/units/index.ts";
import { CHANGES, type Change, drawAnswer, drawCall } from "../../engine/trading/tradedPhrases.ts";

const ANSWERS = process.env.THRONESIDE_BENCH === "full" ? 3000 : 300;
const TARGET = 0.98;

interface Tally {
  asked: number;
  right: number;
  exact: number;
}

test(`rhythm and sound of ${ANSWERS} answers with known changes`, () => {
  const tallies = new Map<Change, Tally>(CHANGES.map((change) => [change, { asked: 0, right: 0, exact: 0 }]));
  const wrong: string[] = [];
  let drawn = 0;
  for (let seed = 0; drawn < ANSWERS; seed += 1) {
    const chance = seededChance(7000 + seed);
    const call = drawCall(chance, 4);
    const change = CHANGES[drawn % CHANGES.length] ?? "none";
    const stretch = Math.exp((chance() * 2 - 1) * Math.log(1.15));
    const known = drawAnswer(call, change, { chance, stretch, spreadMs: 12, start: chance() * 8 });
    if (!known) continue;
    drawn += 1;
    const said = compareAnswer(call.phrase.call, known.answer, {
      level: "steady",
      tempoBpm: call.phrase.tempoBpm,
    });
    const right = said.rhythm.holds === known.truth.rhythm && said.sound.holds === known.truth.sound;
    const exact =
      right &&
      String(said.sound.moved.map(({ index }) => index).sort((a, b) => a - b)) ===
        String(known.truth.moved) &&
      said.missed.filter(({ grace }) => !grace).length === known.truth.missed.length &&
      said.added.filter(({ grace }) => !grace).length === known.truth.added;
    const tally = tallies.get(change);
    if (!tally) throw new Error(`There is no tally of ${change}.`);
    tally.asked += 1;
    tally.right += right ? 1 : 0;
    tally.exact += exact ? 1 : 0;
    if (!exact) wrong.push(`${seed} (${change}${right ? ", verdict right" : ""})`);
  }
  const all = [...tallies.values()];
  const right = all.reduce((sum, tally) => sum + tally.right, 0);
  const exact = all.reduce((sum, tally) => sum + tally.exact, 0);
  const interval = wilson(right, drawn);
  console.info(
    [
      `rhythm and sound right: ${(right / drawn).toFixed(3)} [${interval.low.toFixed(3)}, ${interval.high.toFixed(3)}] of ${drawn}; which strokes as well: ${(exact / drawn).toFixed(3)}`,
      ...[...tallies].map(
        ([change, tally]) => `  ${change}: ${tally.right}, ${tally.exact} of ${tally.asked}`,
      ),
      `  not exact: ${wrong.join("; ") || "none"}`,
    ].join("\n"),
  );
  expect(right / drawn).toBeGreaterThanOrEqual(TARGET);
});
