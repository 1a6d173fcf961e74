import { describe, expect, test } from "vitest";
import {
  bodyOf,
  EntryError,
  inARow,
  inBars,
  LONGEST_NAME,
  musicOf,
  onStaff,
  readBody,
  readWritten,
  shelfEntry,
  shelfEntrySchema,
  stockEntries,
} from "../../../../engine/catalogue/index.ts";
import { GridError } from "../../../../engine/score/index.ts";

const PULSE = "metre: 4/4\ntempo: 60-90\n\nkick | x... |";
const about = { id: "own/1", name: "Mill wheel", from: { kind: "written" }, madeAtMs: 5 } as const;
const pulse = readBody("groove", PULSE, about);

describe("an entry", () => {
  test("holds what is written, and is told in the columns it is found by", () => {
    const entry = shelfEntry(pulse, {
      ...about,
      alsoNamed: ["the one from lesson three", " "],
      level: "steady",
    });
    expect(entry).toMatchObject({
      version: 1,
      kind: "groove",
      name: "Mill wheel",
      alsoNamed: ["the one from lesson three"],
      metre: { numerator: 4, denominator: 4 },
      tempoBpm: { low: 60, high: 90 },
      level: "steady",
      bars: 1,
      changedAtMs: 5,
    });
    expect(shelfEntrySchema.parse(structuredClone(entry))).toEqual(entry);
    expect(musicOf(entry)).toEqual({
      kind: "groove",
      music: { ...pulse.music, id: "own/1", name: "Mill wheel" },
    });
  });

  test("of a fill takes its level from the grid text", () => {
    const fill = readBody("fill", "level: working\nmetre: 4/4\ntempo: 60-90\nsnare | ...x |", about);
    expect(shelfEntry(fill, { ...about, level: "steady" }).level).toBe("working");
  });

  test.each([
    ["", "It has no name yet."],
    ["   ", "It has no name yet."],
    ["x".repeat(10_000), `at most ${LONGEST_NAME} characters; this one has 10000`],
    ["two\nlines", "one line of letters"],
  ])("refuses the name %j in a sentence", (name, sentence) => {
    expect(() => shelfEntry(pulse, { ...about, name })).toThrow(EntryError);
    expect(() => shelfEntry(pulse, { ...about, name })).toThrow(sentence);
    if (name.trim() !== "")
      expect(() => shelfEntry(pulse, { ...about, alsoNamed: [name] })).toThrow(sentence);
  });

  test("refuses more other names than anyone reads", () => {
    const alsoNamed = Array.from({ length: 13 }, (_, index) => `name ${index}`);
    expect(() => shelfEntry(pulse, { ...about, alsoNamed })).toThrow("At most 12 other names");
  });

  test.each([
    { version: 2 },
    { id: "Not an id" },
    { kind: "song" },
    { name: "" },
    { grid: "" },
    { from: { kind: "imported", file: "a.mid", bar: 0 } },
  ])("that was kept with %j is no entry", (broken) => {
    expect(shelfEntrySchema.safeParse({ ...shelfEntry(pulse, about), ...broken }).success).toBe(false);
  });
});

describe("the text that is edited", () => {
  test.each(stockEntries().map((entry) => [entry.id, entry] as const))(
    "%s comes back from it",
    (_, entry) => {
      const written = musicOf(entry);
      const body = bodyOf(written);
      expect(body).not.toMatch(/^(groove|fill|name):/m);
      expect(readBody(entry.kind, body, written.music)).toEqual(written);
    },
  );

  test("is complained of by its own lines", () => {
    const wrong = () => readBody("groove", "metre: 4/4\ntempo: 60-90\nkick | x.?. |", about);
    expect(wrong).toThrow(GridError);
    expect(wrong).toThrow('Line 3, column 10: "?" is not a mark');
    expect(() => readBody("groove", "metre: 4/4\nkick | x... |", about)).toThrow(
      'Line 2, column 1: "tempo:" is missing.',
    );
    expect(() => readBody("groove", `groove: other\n${PULSE}`, about)).toThrow('"groove" is said twice');
  });
});

const PART = `section: Verse
tempo: 92
play: one, 3 bars
play: one, 1 bar, ending turn

section: Waltz
tempo: 104.5
times: 2
play: three, 2 bars

groove: one
name: One
metre: 4/4
tempo: 60-90
kick | x... |

groove: three
name: Three
metre: 3/4
tempo: 60-90
snare | x.. |

fill: turn
name: Turn
level: steady
metre: 4/4
tempo: 60-90
snare | ...x |`;

test("a drum part is told by the metre it begins in, its tempos and all of its bars; its ring is its first groove", () => {
  const part = readBody("part", PART, about);
  const entry = shelfEntry(part, about);
  expect(entry).toMatchObject({ kind: "part", bars: 8, tempoBpm: { low: 92, high: 104.5 } });
  expect(musicOf(shelfEntrySchema.parse(structuredClone(entry)))).toEqual(part);
  expect(readBody("part", bodyOf(part), about)).toEqual(part);
  const { id, voices, bars } = inBars(part);
  expect({ id, voices, bars }).toEqual({ id: about.id, voices: ["kick"], bars: 1 });
});

test("a drum part in a row has every bar of every section, in its own metre and tempo", () => {
  const part = readBody("part", PART, about);
  expect(inARow(part, 60).map(({ metre, bars, tempoBpm }) => [metre.numerator, bars, tempoBpm])).toEqual([
    [4, 3, 92],
    [4, 1, 92],
    [3, 2, 104.5],
    [3, 2, 104.5],
  ]);
});

test.each([
  ["groove", "metre: 4/4\ntempo: 60-90\nkick | x... |", true],
  ["fill", "level: steady\nmetre: 4/4\ntempo: 60-90\nsnare | ...x |", false],
  ["phrase", "role: call\nmetre: 4/4\ntempo: 60-90\nkick | x... |", false],
] as const)("a %s stands between repeat signs where it goes round", (kind, body, repeated) => {
  const written = readBody(kind, body, about);
  expect(onStaff(written).map(({ score }) => score.repeated)).toEqual([repeated]);
  expect(inARow(written).map(({ tempoBpm }) => tempoBpm)).toEqual([73]);
  expect(inARow(written, 60).map(({ tempoBpm }) => tempoBpm)).toEqual([60]);
});

test("what is wrong in a part is told by the line of its text", () => {
  expect(() => readBody("part", PART.replace("play: one, 3 bars", "play: two, 3 bars"), about)).toThrow(
    'Line 3, column 1: the groove "two" is not written below.',
  );
  expect(() => readBody("part", PART.replace("ending turn", "ending nowhere"), about)).toThrow(
    "Line 4, column 1:",
  );
  expect(() => readBody("part", "", about)).toThrow("Line 1, column 1: a part needs a section.");
});

test("a phrase says whether it calls or answers", () => {
  const phrase = readBody("phrase", `role: answer\n${PULSE}`, about);
  expect(phrase.kind === "phrase" && phrase.music.role).toBe("answer");
  expect(bodyOf(phrase)).toMatch(/^role: answer\nmetre: 4\/4\n/);
  expect(() => readBody("phrase", PULSE, about)).toThrow('"role:" is missing.');
});

test("a fill is drawn in whole bars", () => {
  const fill = readWritten(
    "fill",
    "fill: a\nname: A\nlevel: steady\nmetre: 4/4\ntempo: 60-90\nsnare | ...x |",
  );
  expect(inBars(fill).bars).toBe(1);
  expect(inBars(fill).notes[0]?.position).toEqual({ num: 3, den: 1 });
});
