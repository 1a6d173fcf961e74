import { expect, test } from "vitest";
import type { Deal, DealtRound } from "../../../../engine/memory/index.ts";
import type { FiveLeftState } from "../../../../renderer/screens/desk/fiveLeft.ts";
import { nextStyle } from "../../../../renderer/screens/desk/nextStyle.ts";

const STYLES: DealtRound = {
  round: "call-a-style",
  minutes: 3,
  items: [
    { item: "style:samba", why: "It fades." },
    { item: "style:bossa-nova", why: "It fades." },
  ],
};
const SOUNDS: DealtRound = { round: "back-turned", minutes: 2, items: [{ item: "sound:snare", why: "" }] };
const DEAL: Deal = { of: "due", minutes: 5, rounds: [STYLES, SOUNDS] };

function dealt(at: number | null) {
  const state: FiveLeftState =
    at === null
      ? { stage: "none" }
      : { stage: "on", deal: DEAL, names: new Map(), at, roundEnds: 180, ends: 300 };
  const done: string[] = [];
  const fiveLeft = { get: () => state, next: () => void done.push("next round") };
  return {
    done,
    next: (calledId: string | null) => nextStyle(fiveLeft, calledId, (item) => void done.push(item)),
  };
}

test.each([
  [null, "Next: Samba", "style:samba"],
  ["samba", "Next: Bossa nova", "style:bossa-nova"],
  ["bossa-nova", "Next round", "next round"],
  ["waltz", "Next: Samba", "style:samba"],
])("where %s is called: %s", (calledId, words, does) => {
  const { done, next } = dealt(0);
  const found = next(calledId);
  expect(found?.words).toBe(words);
  found?.act();
  expect(done).toEqual([does]);
});

test.each([[null], [1]])("nothing where no styles are dealt (%s)", (at) => {
  expect(dealt(at).next("samba")).toBeUndefined();
});
