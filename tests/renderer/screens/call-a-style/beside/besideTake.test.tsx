import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { roundAfter, type Sitting } from "../../../../../engine/rounds/index.ts";
import { BesideTake, takesBeside } from "../../../../../renderer/screens/call-a-style/beside/index.ts";
import { sittingOf } from "./sitting.ts";

const shuffle = { styleId: "shuffle", grooveId: "shuffle" };
const sitting = sittingOf(
  { ...shuffle, spreadMs: 22, leftOut: 0.1 },
  { ...shuffle, spreadMs: 15, seed: 2 },
  { ...shuffle, spreadMs: 8, seed: 3 },
);

function textOf(from: Sitting): string {
  const takes = takesBeside(from);
  if (!takes) throw new Error("There is nothing to lay beside the take.");
  return renderToStaticMarkup(<BesideTake takes={takes} onChoose={() => undefined} />)
    .replace(/<[^>]*>/g, " ")
    .replace(/\s+/g, " ");
}

test("the take before is laid beside this one: words, beats and voices of both", () => {
  const text = textOf(sitting);
  expect(text).toContain("Beside the take before");
  expect(text).toMatch(/Spread went from 1\d ms to \d ms\./);
  expect(text).toContain("lean, take 2");
  expect(text).toMatch(/snare 16 as written 16 as written/);
});

test("an earlier one is named by its number", () => {
  const text = textOf(roundAfter(sitting, { kind: "laid-beside", beside: 1 }));
  expect(text).toContain("Beside take 1");
  expect(text).toMatch(/Spread went from 2\d ms to \d ms\./);
  expect(text).toMatch(/ride \d+ as written, \d+ left out/);
});

test("with none chosen only the choice is there", () => {
  const text = textOf(roundAfter(sitting, { kind: "laid-beside", beside: "none" }));
  expect(text).toContain("Beside another take");
  expect(text).not.toContain("Spread");
});
