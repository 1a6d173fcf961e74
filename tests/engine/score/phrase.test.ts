import * as fc from "fast-check";
import { expect, test } from "vitest";
import { GridError, parseGrid, parsePhrase, printPhrase } from "../../../engine/score/index.ts";
import { writtenGroove } from "./writtenGrooves.ts";

const TEXT = `phrase: two-bars
name: Two bars
role: call
metre: 4/4
feel: swung 2 eighths
tempo: 70-120

snare | x... x.f. | X..g |
hands | R... L.R. | .... |`;

test("a phrase has a role, bars and strokes", () => {
  const phrase = parsePhrase(TEXT);
  expect(phrase).toMatchObject({ id: "two-bars", name: "Two bars", role: "call", bars: 2 });
  expect(
    phrase.notes.map(({ position: { num, den }, dynamic, ornament, hand }) => [
      num / den,
      dynamic,
      ornament,
      hand,
    ]),
  ).toEqual([
    [0, "plain", undefined, "R"],
    [2, "plain", undefined, "L"],
    [3, "plain", "flam", "R"],
    [4, "accent", undefined, undefined],
    [7, "ghost", undefined, undefined],
  ]);
});

test("any phrase is printed and read back exactly", () => {
  fc.assert(
    fc.property(writtenGroove, fc.constantFrom("call" as const, "answer" as const), ({ text }, role) => {
      const phrase = { ...parseGrid(text), role };
      expect(parsePhrase(printPhrase(phrase))).toEqual(phrase);
    }),
  );
});

test.each([
  { fault: "no role", text: TEXT.replace("role: call\n", ""), says: '"role:" is missing' },
  {
    fault: "another role",
    text: TEXT.replace("role: call", "role: solo"),
    says: 'Line 3, column 7: "solo" is not a role; a phrase is a call or an answer.',
  },
  {
    fault: "a groove's heading",
    text: TEXT.replace("phrase:", "groove:"),
    says: '"groove" is not a heading',
  },
])("$fault is said", ({ text, says }) => {
  expect(() => parsePhrase(text)).toThrow(GridError);
  expect(() => parsePhrase(text)).toThrow(says);
});
