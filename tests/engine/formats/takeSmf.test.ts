import { expect, test } from "vitest";
import { readSmf, strikesOf } from "../../../engine/formats/index.ts";
import { parseKitMap } from "../../../engine/kit/index.ts";
import wideNinePiece from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };
import { file, header, strike, track } from "./smfBytes.ts";

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");

function hits(...events: number[][]) {
  return strikesOf(readSmf(file(header(0, 1, 480), track(...events))), WIDE);
}

test("strikes come with the openness of the moment; releases and the pedal's way are no strikes", () => {
  const found = hits(
    strike(0, 42, 90),
    [0, 0xb9, 4, 127],
    strike(240, 42, 127),
    [0, 0x99, 42, 0],
    [0, 0xb9, 4, 0],
    strike(240, 46, 64),
    [0, 0xa9, 49, 127],
    strike(0, 38, 64),
  );
  expect(found).toEqual([
    { time: 0, voice: "hi-hat-closed", zone: "bow", velocity: 90 / 127, pad: 42 },
    { time: 0.25, voice: "hi-hat-closed", zone: "bow", velocity: 1, openness: 0, pad: 42 },
    { time: 0.5, voice: "hi-hat-open", zone: "bow", velocity: 64 / 127, openness: 1, pad: 46 },
    { time: 0.5, voice: "snare", zone: "head", velocity: 64 / 127, pad: 38 },
  ]);
});

test("retriggers are in it, for the reader to decide", () => {
  // 8 ticks are 8.3 ms.
  expect(
    hits(strike(0, 38, 120), strike(8, 38, 20)).map(({ velocity }) => Math.round(velocity * 127)),
  ).toEqual([120, 20]);
});

test("unknown keys are in it, as unknown", () => {
  expect(hits(strike(0, 5), strike(0, 100)).map(({ voice, pad }) => [voice, pad])).toEqual([
    ["unknown", 5],
    ["unknown", 100],
  ]);
});
