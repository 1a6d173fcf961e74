import { expect, test } from "vitest";
import { RUNGS, SURFACES } from "../../../../engine/ear/index.ts";
import { backTurnedRules, type Dealt, freshPlay } from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import type { HeardBefore } from "../../../../renderer/app/heardEarlier.ts";
import { Listener } from "../../../../renderer/screens/back-turned/listener.ts";

const NOTHING: HeardBefore = { answers: [], heard: [] };
const PRACTISED: HeardBefore = {
  answers: Array.from({ length: 30 }, (_, at) => ({ rung: 8 + (at % 4), right: at % 4 < 2 })),
  heard: [{ sounded: "kick", named: "floor-tom" }],
};

function listener(earlier: HeardBefore, dealt: Dealt | null = null): Listener {
  return new Listener({ ...freshPlay(backTurnedRules), dealt }, "noor", earlier);
}

test("who was heard in earlier lessons is asked more than who was not, and what they took for what is known", () => {
  expect(listener(NOTHING).nextRung()).toBeLessThanOrEqual(2);
  expect(listener(PRACTISED).nextRung()).toBeGreaterThan(4);
  expect(listener(PRACTISED).heard()).toEqual(PRACTISED.heard);
});

test("heard before the first question is what the next rungs ask, in the order of the kit", () => {
  const [few, more] = [listener(NOTHING).refresher(), listener(PRACTISED).refresher()];
  expect(few.length).toBeLessThan(more.length);
  for (const surfaces of [few, more])
    expect(surfaces).toEqual(SURFACES.filter((each) => surfaces.includes(each)));
  expect(more).toEqual(
    expect.arrayContaining([...(RUNGS[listener(PRACTISED).nextRung() - 1]?.pool ?? ["none"])]),
  );
});

test("what was dealt is asked first; without it a question of the next rung", () => {
  const dealt: Dealt = { items: ["sound:floor-tom"], nothingElse: false };
  const { moments } = listener(NOTHING, dealt).question(seededChance(1));
  expect(moments.flat().map(({ surface }) => surface)).toContain("floor-tom");
  expect(listener(NOTHING, dealt).refresher()).toContain("floor-tom");
  const plain = listener(PRACTISED);
  expect(plain.question(seededChance(1)).rung).toBe(plain.nextRung());
  expect(plain.questionAt(1, seededChance(1)).rung).toBe(1);
});
