import { describe, expect, test } from "vitest";
import {
  type KitMap,
  KitMapError,
  type Learning,
  learntMap,
  NEW_LEARNING,
  padFor,
  parseKitMap,
  skipped,
  struck,
  VOICES_TO_LEARN,
  voiceAsked,
} from "../../../engine/kit/index.ts";
import wideNinePiece from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");

test("every voice is asked for once, in order, and each strike answers the one asked", () => {
  let learning: Learning = NEW_LEARNING;
  VOICES_TO_LEARN.forEach((voice, index) => {
    expect(voiceAsked(learning)).toBe(voice);
    learning = struck(learning, 60 + index);
  });
  expect(voiceAsked(learning)).toBeUndefined();
  const map = learntMap(learning, "Our kit", WIDE);
  VOICES_TO_LEARN.forEach((voice, index) => {
    expect(padFor(map, 60 + index)).toEqual({ note: 60 + index, voice, zone: "whole" });
  });
  expect(new Set(VOICES_TO_LEARN).size).toBe(VOICES_TO_LEARN.length);
});

test("a strike after the last voice changes nothing", () => {
  const done = VOICES_TO_LEARN.reduce((learning) => skipped(learning), NEW_LEARNING);
  expect(voiceAsked(done)).toBeUndefined();
  expect(struck(done, 38)).toBe(done);
});

describe("a pad that already has a voice", () => {
  const twice = struck(struck(NEW_LEARNING, 38), 38);

  test("is refused, with the voice it has, and the same voice is asked again", () => {
    expect(twice.refused).toEqual({ note: 38, voice: "snare" });
    expect(voiceAsked(twice)).toBe("cross-stick");
    expect(twice.learnt).toEqual([{ note: 38, voice: "snare" }]);
  });

  test("is forgotten with the next good strike, or when the voice is skipped", () => {
    expect(struck(twice, 37)).not.toHaveProperty("refused");
    expect(skipped(twice)).not.toHaveProperty("refused");
  });
});

describe("the map learnt", () => {
  test("keeps what the map beneath names and no strike has claimed", () => {
    // This kit's snare head sends the key that is the kick's elsewhere.
    const map = learntMap(struck(NEW_LEARNING, 36), "Our kit", WIDE);
    expect(padFor(map, 36)?.voice).toBe("snare");
    expect(padFor(map, 40)).toEqual(padFor(WIDE, 40));
    expect(map.hiHat).toEqual(WIDE.hiHat);
    expect(map.pads.length).toBe(WIDE.pads.length);
  });

  test("a voice the kit does not have is skipped and not in it", () => {
    const bare: KitMap = { ...WIDE, pads: [] };
    const learning = struck(skipped(struck(NEW_LEARNING, 38)), 42);
    expect(learntMap(learning, "Our kit", bare).pads).toEqual([
      { note: 38, voice: "snare", zone: "whole" },
      { note: 42, voice: "hi-hat-closed", zone: "whole" },
    ]);
  });

  test("of nothing over nothing is refused", () => {
    expect(() => learntMap(NEW_LEARNING, "Our kit", { ...WIDE, pads: [] })).toThrow(KitMapError);
  });
});
