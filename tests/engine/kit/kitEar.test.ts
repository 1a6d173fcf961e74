import { describe, expect, test } from "vitest";
import { KitEar, type KitEvent, type KitMap, parseKitMap, readMidiBytes } from "../../../engine/kit/index.ts";
import wideNinePiece from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");

/** What the kit's bytes come to, each message a tenth of a second after the one before. */
function heard(bytes: readonly number[], map: KitMap = WIDE): readonly (KitEvent | undefined)[] {
  const ear = new KitEar(map);
  return readMidiBytes(bytes).map((message, index) => ear.hear(message, index / 10));
}

function hits(bytes: readonly number[], map?: KitMap) {
  return heard(bytes, map).flatMap((event) => (event?.kind === "hit" ? [event.hit] : []));
}

test("a strike has its voice, zone, strength, pad and moment", () => {
  expect(heard([0x99, 36, 127, 0x99, 40, 64])).toEqual([
    { kind: "hit", hit: { time: 0, voice: "kick", zone: "head", velocity: 1, pad: 36 } },
    { kind: "hit", hit: { time: 0.1, voice: "snare", zone: "rim", velocity: 64 / 127, pad: 40 } },
  ]);
});

test("releases and messages of other kinds come to nothing", () => {
  expect(heard([0x99, 38, 0, 0x89, 38, 64, 0xb9, 7, 100, 0xc9, 3, 0xe9, 0, 64])).toEqual(
    new Array(5).fill(undefined),
  );
});

test("a strike on a pad the map does not name is kept, as unknown", () => {
  const events = heard([0x99, 3, 90, 0x99, 127, 1]);
  expect(events).toEqual([
    { kind: "hit", hit: { time: 0, voice: "unknown", zone: "whole", velocity: 90 / 127, pad: 3 } },
    { kind: "hit", hit: { time: 0.1, voice: "unknown", zone: "whole", velocity: 1 / 127, pad: 127 } },
  ]);
});

test("every key of 128 gives a hit, on any channel", () => {
  for (let channel = 0; channel < 16; channel += 1) {
    const bytes = Array.from({ length: 128 }, (_, note) => [0x90 | channel, note, 100]).flat();
    expect(hits(bytes).map(({ pad }) => pad)).toEqual(Array.from({ length: 128 }, (_, note) => note));
  }
});

describe("how far the hi-hat is open", () => {
  test.each([
    { value: 127, openness: 0 },
    { value: 0, openness: 1 },
    { value: 64, openness: 63 / 127 },
  ])("controller 4 at $value, on a kit that sends 127 when shut", ({ value, openness }) => {
    const [moved, closed, open, pedal, snare] = heard([
      ...[0xb9, 4, value],
      ...[0x99, 42, 100],
      ...[0x99, 46, 100],
      ...[0x99, 44, 100],
      ...[0x99, 38, 100],
    ]);
    expect(moved).toEqual({ kind: "hi-hat", time: 0, openness: expect.closeTo(openness, 12) });
    for (const event of [closed, open, pedal]) {
      expect(event).toMatchObject({ kind: "hit", hit: { openness: expect.closeTo(openness, 12) } });
    }
    expect(snare).toMatchObject({ kind: "hit", hit: { voice: "snare" } });
    expect(snare?.kind === "hit" && "openness" in snare.hit).toBe(false);
  });

  test("the other way about, and only part of the way, as the map says", () => {
    const other: KitMap = { ...WIDE, hiHat: { controller: 1, shutAt: 10, openAt: 90 } };
    const openness = [0, 10, 50, 90, 127].map((value) => heard([0xb9, 1, value], other)[0]);
    expect(openness).toEqual([0, 0, 0.5, 1, 1].map((open) => ({ kind: "hi-hat", time: 0, openness: open })));
    expect(heard([0xb9, 4, 50], other)).toEqual([undefined]);
  });

  test("before the pedal has moved nothing is claimed", () => {
    expect(hits([0x99, 42, 100])[0]).not.toHaveProperty("openness");
  });

  test("the last place of the pedal counts", () => {
    const struck = hits([0xb9, 4, 127, 0xb9, 4, 0, 0x99, 46, 90, 0xb9, 4, 127, 0x99, 42, 90]);
    expect(struck.map(({ openness }) => openness)).toEqual([1, 0]);
  });
});

describe("a cymbal that is grabbed", () => {
  test.each([
    { pressure: 127, held: true },
    { pressure: 64, held: true },
    { pressure: 63, held: false },
    { pressure: 0, held: false },
  ])("key pressure $pressure", ({ pressure, held }) => {
    expect(heard([0xa9, 49, pressure])).toEqual([
      { kind: "choke", time: 0, voice: "crash-left", pad: 49, held },
    ]);
  });

  test("on a pad the map does not name it is still said", () => {
    expect(heard([0xa9, 3, 127])).toEqual([{ kind: "choke", time: 0, voice: "unknown", pad: 3, held: true }]);
  });
});
