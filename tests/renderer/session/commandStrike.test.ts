import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hit } from "../../../engine/kit/index.ts";
import {
  ALONE_SECONDS,
  CommandEar,
  type CommandStrikes,
  firstCommandStrikes,
  offered,
} from "../../../renderer/session/commandStrike.ts";
import { SHIPPED_MAPS } from "../../../renderer/session/kitMapChoice.ts";

const [plain, , wide] = SHIPPED_MAPS;
if (!plain || !wide) throw new Error("Three maps come with the program.");

const SNARE = 38;
const HIGH_RIM = 50;
const MID_RIM = 47;
const FLOOR_RIM = 58;
const OWN = 90;
const STRIKES: CommandStrikes = {
  flag: { kind: "two-rims", pads: [HIGH_RIM, FLOOR_RIM] },
  stop: { kind: "two-rims", pads: [MID_RIM, FLOOR_RIM] },
  next: { kind: "own-pad", pad: OWN },
};

function hit(pad: number, time: number): Hit {
  return { time, pad, voice: "snare", zone: "whole", velocity: 0.5 };
}

/** What comes of these strikes, each a pad and its moment in milliseconds, and of the silence after them. */
function heard(...struck: readonly (readonly [pad: number, ms: number])[]) {
  const ear = new CommandEar(STRIKES);
  const all = [
    ...struck.map(([pad, ms]) => ear.hear(hit(pad, ms / 1000))),
    ear.silentUntil(Number.POSITIVE_INFINITY),
  ];
  return {
    commands: all.flatMap(({ commands }) => commands),
    strikes: all.flatMap(({ strikes }) => strikes.map(({ pad, time }) => [pad, Math.round(time * 1000)])),
  };
}

test.each([
  [
    "two rims together and alone",
    [
      [HIGH_RIM, 0],
      [FLOOR_RIM, 30],
    ],
    ["flag"],
    [],
  ],
  [
    "the other hand first",
    [
      [FLOOR_RIM, 0],
      [HIGH_RIM, 30],
    ],
    ["flag"],
    [],
  ],
  [
    "two other rims",
    [
      [MID_RIM, 0],
      [FLOOR_RIM, 5],
    ],
    ["stop"],
    [],
  ],
  ["one rim alone", [[HIGH_RIM, 0]], [], [[HIGH_RIM, 0]]],
  [
    "one rim twice",
    [
      [HIGH_RIM, 0],
      [HIGH_RIM, 30],
    ],
    [],
    [
      [HIGH_RIM, 0],
      [HIGH_RIM, 30],
    ],
  ],
  [
    "two rims that mean nothing together",
    [
      [HIGH_RIM, 0],
      [MID_RIM, 5],
    ],
    [],
    [
      [HIGH_RIM, 0],
      [MID_RIM, 5],
    ],
  ],
  [
    "one after the other",
    [
      [HIGH_RIM, 0],
      [FLOOR_RIM, 50],
    ],
    [],
    [
      [HIGH_RIM, 0],
      [FLOOR_RIM, 50],
    ],
  ],
  [
    "a strike just before",
    [
      [SNARE, 0],
      [HIGH_RIM, 300],
      [FLOOR_RIM, 310],
    ],
    [],
    [
      [SNARE, 0],
      [HIGH_RIM, 300],
      [FLOOR_RIM, 310],
    ],
  ],
  [
    "a strike just after",
    [
      [HIGH_RIM, 0],
      [FLOOR_RIM, 10],
      [SNARE, 300],
    ],
    [],
    [
      [HIGH_RIM, 0],
      [FLOOR_RIM, 10],
      [SNARE, 300],
    ],
  ],
  [
    "strikes long before and after",
    [
      [SNARE, 0],
      [HIGH_RIM, 500],
      [FLOOR_RIM, 510],
      [SNARE, 1000],
    ],
    ["flag"],
    [
      [SNARE, 0],
      [SNARE, 1000],
    ],
  ],
  [
    "a pad of its own amid playing",
    [
      [SNARE, 0],
      [OWN, 10],
      [SNARE, 20],
    ],
    ["next"],
    [
      [SNARE, 0],
      [SNARE, 20],
    ],
  ],
] as const)("%s", (_, struck, commands, strikes) => {
  expect(heard(...struck)).toEqual({ commands, strikes });
});

test("every strike is handed on once, in order, or is part of a command", () => {
  const pads = fc.constantFrom(SNARE, HIGH_RIM, MID_RIM, FLOOR_RIM, OWN);
  const struck = fc.array(fc.tuple(pads, fc.integer({ min: 1, max: 900 })), { maxLength: 60 });
  fc.assert(
    fc.property(struck, (steps) => {
      let ms = 0;
      const played = steps.map(([pad, after]) => {
        ms += after;
        return [pad, ms] as const;
      });
      const { commands, strikes } = heard(...played);
      const usedUp = commands.reduce((sum, command) => sum + (command === "next" ? 1 : 2), 0);
      expect(strikes).toHaveLength(played.length - usedUp);
      const left = new Set(strikes.map(String));
      expect(strikes).toEqual(played.filter((each) => left.has(String(each))));
    }),
  );
});

test("without commands nothing is held back", () => {
  const ear = new CommandEar({});
  expect(ear.hear(hit(HIGH_RIM, 1)).strikes).toHaveLength(1);
  expect(ear.decidesAt).toBeUndefined();
});

test("at first a flag is the rims of the high and the floor tom, where the map knows rims", () => {
  expect(firstCommandStrikes(wide)).toEqual({ flag: { kind: "two-rims", pads: [HIGH_RIM, FLOOR_RIM] } });
  expect(firstCommandStrikes(plain)).toEqual({});
});

test.each([
  [
    "two tom rims together",
    [hit(HIGH_RIM, 0), hit(MID_RIM, 0.02)],
    { kind: "taken", strike: { kind: "two-rims", pads: [HIGH_RIM, MID_RIM] } },
  ],
  ["a pad on no voice", [hit(OWN, 0)], { kind: "taken", strike: { kind: "own-pad", pad: OWN } }],
  ["the snare", [hit(SNARE, 0)], { kind: "refused", why: "music" }],
  ["a tom rim alone", [hit(HIGH_RIM, 0)], { kind: "refused", why: "music" }],
  ["a rim and the snare", [hit(HIGH_RIM, 0), hit(SNARE, 0.01)], { kind: "refused", why: "not-tom-rims" }],
  ["two rims apart", [hit(HIGH_RIM, 0), hit(MID_RIM, 0.2)], { kind: "refused", why: "not-together" }],
  [
    "three pads",
    [hit(HIGH_RIM, 0), hit(MID_RIM, 0.01), hit(SNARE, 0.02)],
    { kind: "refused", why: "not-together" },
  ],
] as const)("%s, offered for a command", (_, strikes, answer) => {
  expect(offered(strikes, wide)).toEqual(answer);
});

test("what may be a command is decided by silence, not sooner", () => {
  const ear = new CommandEar(STRIKES);
  ear.hear(hit(HIGH_RIM, 1));
  ear.hear(hit(FLOOR_RIM, 1.01));
  expect(ear.silentUntil(1.01 + ALONE_SECONDS - 0.01)).toEqual({ strikes: [], commands: [] });
  expect(ear.silentUntil(1.01 + ALONE_SECONDS + 0.01)).toEqual({ strikes: [], commands: ["flag"] });
});
