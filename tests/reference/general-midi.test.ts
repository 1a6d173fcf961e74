/**
 * The percussion keys of General MIDI.
 * Sources: General MIDI System Level 1 (MIDI Manufacturers Association, RP-003), keys 35 to 81, names as in the
 * standard; General MIDI 2 (RP-024), standard set, the keys it adds. Which voice of ours a key is, is our choice.
 */
import { describe, expect, test } from "vitest";
import { noteFor, padFor, parseKitMap, type Voice } from "../../engine/kit/index.ts";
import generalMidi1 from "../../kit-maps/general-midi-1.json" with { type: "json" };
import generalMidi2 from "../../kit-maps/general-midi-2.json" with { type: "json" };
import wideNinePiece from "../../kit-maps/wide-nine-piece.json" with { type: "json" };

const LEVEL_1 = parseKitMap(generalMidi1, "general-midi-1.json");
const LEVEL_2 = parseKitMap(generalMidi2, "general-midi-2.json");
const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");

type Key = readonly [note: number, name: string, voice: Voice];

const RP_003: readonly Key[] = [
  [35, "Acoustic Bass Drum", "kick"],
  [36, "Bass Drum 1", "kick"],
  [37, "Side Stick", "cross-stick"],
  [38, "Acoustic Snare", "snare"],
  [39, "Hand Clap", "clap"],
  [40, "Electric Snare", "snare"],
  [41, "Low Floor Tom", "floor-tom"],
  [42, "Closed Hi-Hat", "hi-hat-closed"],
  [43, "High Floor Tom", "floor-tom"],
  [44, "Pedal Hi-Hat", "hi-hat-pedal"],
  [45, "Low Tom", "mid-tom"],
  [46, "Open Hi-Hat", "hi-hat-open"],
  [47, "Low-Mid Tom", "mid-tom"],
  [48, "Hi-Mid Tom", "high-tom"],
  [49, "Crash Cymbal 1", "crash-left"],
  [50, "High Tom", "high-tom"],
  [51, "Ride Cymbal 1", "ride"],
  [52, "Chinese Cymbal", "china"],
  [53, "Ride Bell", "bell"],
  [54, "Tambourine", "tambourine"],
  [55, "Splash Cymbal", "splash"],
  [56, "Cowbell", "cowbell"],
  [57, "Crash Cymbal 2", "crash-right"],
  [58, "Vibraslap", "effect"],
  [59, "Ride Cymbal 2", "ride"],
  [60, "Hi Bongo", "bongo"],
  [61, "Low Bongo", "bongo"],
  [62, "Mute Hi Conga", "conga"],
  [63, "Open Hi Conga", "conga"],
  [64, "Low Conga", "conga"],
  [65, "High Timbale", "timbale"],
  [66, "Low Timbale", "timbale"],
  [67, "High Agogo", "agogo"],
  [68, "Low Agogo", "agogo"],
  [69, "Cabasa", "shaker"],
  [70, "Maracas", "shaker"],
  [71, "Short Whistle", "whistle"],
  [72, "Long Whistle", "whistle"],
  [73, "Short Guiro", "guiro"],
  [74, "Long Guiro", "guiro"],
  [75, "Claves", "clave"],
  [76, "Hi Wood Block", "wood-block"],
  [77, "Low Wood Block", "wood-block"],
  [78, "Mute Cuica", "cuica"],
  [79, "Open Cuica", "cuica"],
  [80, "Mute Triangle", "triangle"],
  [81, "Open Triangle", "triangle"],
];

const ADDED_BY_RP_024: readonly Key[] = [
  [27, "High Q", "effect"],
  [28, "Slap", "effect"],
  [29, "Scratch Push", "effect"],
  [30, "Scratch Pull", "effect"],
  [31, "Sticks", "sticks"],
  [32, "Square Click", "effect"],
  [33, "Metronome Click", "effect"],
  [34, "Metronome Bell", "effect"],
  [82, "Shaker", "shaker"],
  [83, "Jingle Bell", "shaker"],
  [84, "Belltree", "effect"],
  [85, "Castanets", "wood-block"],
  [86, "Mute Surdo", "surdo"],
  [87, "Open Surdo", "surdo"],
];

test("General MIDI 1 has 47 keys, 35 to 81, and the map names those and no other", () => {
  expect(RP_003.length).toBe(47);
  expect(LEVEL_1.pads.map(({ note }) => note).sort((a, b) => a - b)).toEqual(
    Array.from({ length: 47 }, (_, index) => 35 + index),
  );
});

test("General MIDI 2 adds 14 keys, 27 to 34 and 82 to 87, and the map names those and no other", () => {
  expect(ADDED_BY_RP_024.length).toBe(14);
  expect(LEVEL_2.pads.map(({ note }) => note).sort((a, b) => a - b)).toEqual(
    Array.from({ length: 61 }, (_, index) => 27 + index),
  );
});

test.each(RP_003)("key %i, %s", (note, label, voice) => {
  for (const map of [LEVEL_1, LEVEL_2]) expect(padFor(map, note)).toMatchObject({ note, label, voice });
});

test.each(ADDED_BY_RP_024)("General MIDI 2, key %i, %s", (note, label, voice) => {
  expect(padFor(LEVEL_2, note)).toMatchObject({ note, label, voice });
  expect(padFor(LEVEL_1, note)).toBeUndefined();
});

test("a groove is exported with the usual key of each voice", () => {
  const keys = (["kick", "snare", "floor-tom", "mid-tom", "high-tom", "ride"] as const).map((voice) =>
    noteFor(LEVEL_1, voice),
  );
  expect(keys).toEqual([36, 38, 43, 47, 50, 51]);
});

/**
 * The reduction published with the Groove MIDI Dataset (Gillick et al., ICML 2019): 22 keys, nine voices. Beside
 * each: the voices of ours that it folds together. Cross-stick, pedal and bell stay apart with us.
 */
const NINE: readonly {
  readonly nine: string;
  readonly keys: readonly number[];
  readonly voices: readonly Voice[];
}[] = [
  { nine: "kick", keys: [36], voices: ["kick"] },
  { nine: "snare", keys: [38, 37, 40], voices: ["snare", "cross-stick"] },
  { nine: "closed hi-hat", keys: [42, 22, 44], voices: ["hi-hat-closed", "hi-hat-pedal"] },
  { nine: "open hi-hat", keys: [46, 26], voices: ["hi-hat-open"] },
  { nine: "high floor tom", keys: [43, 58], voices: ["floor-tom"] },
  { nine: "low-mid tom", keys: [47, 45], voices: ["mid-tom"] },
  { nine: "high tom", keys: [50, 48], voices: ["high-tom"] },
  { nine: "crash", keys: [49, 52, 55, 57], voices: ["crash-left", "crash-right"] },
  { nine: "ride", keys: [51, 53, 59], voices: ["ride", "bell"] },
];

describe("the wide map against the published reduction of 22 keys to nine voices", () => {
  test("22 keys, each in one of the nine", () => {
    const keys = NINE.flatMap((group) => group.keys);
    expect(keys.length).toBe(22);
    expect(new Set(keys).size).toBe(22);
  });

  test.each(NINE)("$nine: keys $keys", ({ keys, voices }) => {
    const found = new Set(keys.map((key) => padFor(WIDE, key)?.voice));
    expect(found).toEqual(new Set(voices));
  });

  test("no voice of ours stands in two of the nine", () => {
    const voices = NINE.flatMap((group) => group.voices);
    expect(new Set(voices).size).toBe(voices.length);
  });

  test("every other key is as in General MIDI 1", () => {
    const ofTheKit = new Set(NINE.flatMap((group) => group.keys));
    for (const { note, label, voice } of LEVEL_1.pads) {
      if (!ofTheKit.has(note)) expect(padFor(WIDE, note)).toMatchObject({ label, voice });
    }
    expect(WIDE.pads.length).toBe(22 + LEVEL_1.pads.filter(({ note }) => !ofTheKit.has(note)).length);
  });
});
