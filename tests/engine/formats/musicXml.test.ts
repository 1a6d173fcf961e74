import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import { NoKeyError, writeMusicXml } from "../../../engine/formats/index.ts";
import { noteFor, parseKitMap, VOICES } from "../../../engine/kit/index.ts";
import { type Groove, inWholeBars, parseGrid, writeStaff } from "../../../engine/score/index.ts";
import generalMidi from "../../../kit-maps/general-midi-1.json" with { type: "json" };
import wideNinePiece from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };
import { writtenGroove } from "../score/writtenGrooves.ts";
import { schemaFaults } from "./musicXmlSchema.ts";

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");
const GENERAL_MIDI = parseKitMap(generalMidi, "general-midi-1.json");
/** Keys for every voice, so that any groove can be written. */
const EVERY_VOICE = {
  ...GENERAL_MIDI,
  pads: VOICES.map((voice, index) => ({ note: 27 + index, voice, zone: "whole" as const })),
};
const grooves = STYLES.flatMap(({ variants }) => variants);

function grid(lines: string, heads = "") {
  return parseGrid(`groove: g\nname: Made up\nmetre: 4/4\ntempo: 90-90\n${heads}${lines}`);
}

function written(groove: Groove, map = WIDE): string {
  return writeMusicXml([writeStaff(groove, { repeated: true })], { map });
}

/** The notes of a document, each as the text of its element. */
function notesOf(xml: string): readonly string[] {
  return [...xml.matchAll(/<note[\s>][\s\S]*?<\/note>/g)].map(([note]) => note);
}

function valueIn(name: string, xml: string): string | undefined {
  return new RegExp(`<${name}(?: [^>]*)?>([^<]*)</${name}>`).exec(xml)?.[1];
}

/** Struck notes, and small notes: one for a flam, two for a drag. */
function strokesIn({ notes }: Pick<Groove, "notes">): { heads: number; graces: number } {
  const graces = notes.reduce(
    (sum, { ornament }) => sum + (ornament ? { flam: 1, drag: 2 }[ornament] : 0),
    0,
  );
  return { heads: notes.length, graces };
}

function countIn(xml: string): { heads: number; graces: number } {
  const struck = notesOf(xml).filter((note) => note.includes("<unpitched>"));
  const graces = struck.filter((note) => note.includes("<grace"));
  return { heads: struck.length - graces.length, graces: graces.length };
}

describe("the schema of MusicXML", () => {
  test("takes every groove of the stock", async () => {
    const documents = new Map(grooves.map((groove) => [groove.id, written(groove)]));
    expect(documents.size).toBeGreaterThan(100);
    expect(await schemaFaults(documents)).toEqual([]);
  }, 120_000);

  test("takes every fill of the stock", async () => {
    const documents = new Map(
      FILLS.map((fill) => [fill.id, writeMusicXml([writeStaff(inWholeBars(fill))], { map: WIDE })]),
    );
    expect(documents.size).toBeGreaterThan(30);
    expect(await schemaFaults(documents)).toEqual([]);
  }, 120_000);

  test("takes any groove, and scores in a row", async () => {
    const samples = fc.sample(writtenGroove, { numRuns: 60, seed: 11 }).map(({ text }) => parseGrid(text));
    const documents = new Map(samples.map((groove, index) => [`any-${index}`, written(groove, EVERY_VOICE)]));
    documents.set(
      "row",
      writeMusicXml(
        grooves.slice(0, 12).map((groove) => writeStaff(groove)),
        { map: WIDE },
      ),
    );
    expect(await schemaFaults(documents)).toEqual([]);
  }, 120_000);

  test("refuses elements in another order, and a key that is none", async () => {
    const whole = written(grid("snare | x |"));
    const moved = whole.replace(/(<voice>1<\/voice>)(\s*)(<type>\w+<\/type>)/, "$3$2$1");
    const keyless = whole.replace("<midi-unpitched>39<", "<midi-unpitched>129<");
    expect(moved).not.toBe(whole);
    expect(keyless).not.toBe(whole);
    expect((await schemaFaults(new Map([["moved", moved]]))).join()).toMatch(/voice|type/);
    expect((await schemaFaults(new Map([["keyless", keyless]]))).join()).toMatch(/midi-unpitched/);
  });
});

test("any groove: every stroke is a note, with its small notes, and each part fills its bars", () => {
  fc.assert(
    fc.property(writtenGroove, ({ text }) => {
      const groove = parseGrid(text);
      const xml = written(groove, EVERY_VOICE);
      expect(countIn(xml)).toEqual(strokesIn(groove));
      const listed = [...xml.matchAll(/<score-instrument id="([^"]+)"/g)].map(([, id]) => id);
      const used = [...xml.matchAll(/<instrument id="([^"]+)"/g)].map(([, id]) => id);
      expect(used.every((id) => listed.includes(id))).toBe(true);
      const divisions = Number(valueIn("divisions", xml));
      const bar = (divisions * 4 * groove.metre.numerator) / groove.metre.denominator;
      for (const [measure] of xml.matchAll(/<measure[\s\S]*?<\/measure>/g)) {
        const sums = new Map<string, number>();
        for (const note of notesOf(measure)) {
          if (note.includes("<grace") || note.includes("<chord/>")) continue;
          const voice = valueIn("voice", note) ?? "";
          sums.set(voice, (sums.get(voice) ?? 0) + Number(valueIn("duration", note)));
        }
        expect(new Set(sums.values())).toEqual(new Set([bar]));
      }
    }),
    { numRuns: 200 },
  );
});

// MusicXML 4.0 percussion: midi-unpitched is the key + 1. Places: Weinberg 1994, as the reference table has them.
test.each([
  { voice: "kick", place: "F4", midi: 37, head: undefined },
  { voice: "snare", place: "C5", midi: 39, head: undefined },
  { voice: "cross-stick", place: "C5", midi: 38, head: "x" },
  { voice: "hi-hat-closed", place: "G5", midi: 43, head: "x" },
  { voice: "hi-hat-open", place: "G5", midi: 47, head: "x" },
  { voice: "hi-hat-pedal", place: "D4", midi: 45, head: "x" },
  { voice: "floor-tom", place: "A4", midi: 44, head: undefined },
  { voice: "ride", place: "F5", midi: 52, head: "x" },
  { voice: "bell", place: "F5", midi: 54, head: "diamond" },
  { voice: "crash-left", place: "A5", midi: 50, head: "x" },
])("the $voice stands on $place, its key is written as $midi", ({ voice, place, midi, head }) => {
  const xml = written(grid(`${voice} | x |`), GENERAL_MIDI);
  const [note = ""] = notesOf(xml);
  expect(`${valueIn("display-step", note)}${valueIn("display-octave", note)}`).toBe(place);
  expect(valueIn("notehead", note)).toBe(head);
  expect(Number(valueIn("midi-unpitched", xml))).toBe(midi);
  expect(valueIn("midi-channel", xml)).toBe("10");
  expect(noteFor(GENERAL_MIDI, VOICES.find((known) => known === voice) ?? "unknown")).toBe(midi - 1);
});

describe("what is written at a note", () => {
  test("ghosts in parentheses, accents once a stem, hands, an open hi-hat's circle", () => {
    const xml = written(grid("hi-hat-open | X... |\nsnare | X.g. |\nhands | R.L. |\nkick | xxxx |"));
    const notes = notesOf(xml).filter((note) => note.includes("<unpitched>"));
    const of = (id: string) => notes.filter((note) => note.includes(`"P1-${id}"`));
    expect(of("snare").map((note) => [valueIn("text", note), note.includes('parentheses="yes"')])).toEqual([
      ["R", false],
      ["L", true],
    ]);
    expect(notes.filter((note) => note.includes("<accent/>")).length).toBe(1);
    expect(of("hi-hat-open")[0]).toContain("<open-string/>");
    expect(of("kick").map((note) => [valueIn("voice", note), valueIn("stem", note)])).toEqual(
      new Array(4).fill(["2", "down"]),
    );
    // 25, 63 and 90 parts of a hundred of 127, in hundredths of 90.
    expect(of("snare").map((note) => /dynamics="(\d+)"/.exec(note)?.[1])).toEqual(["127", "35"]);
  });

  test("a flam has one small note with a stroke, a drag two under a beam, without duration", () => {
    const notes = notesOf(written(grid("snare | f.d. |"))).filter((note) => note.includes("<grace"));
    expect(notes.map((note) => note.includes('<grace slash="yes"/>'))).toEqual([true, false, false]);
    expect(notes.every((note) => !note.includes("<duration>"))).toBe(true);
    expect(
      notes.slice(1).map((note) => [...note.matchAll(/<beam number="\d">(\w+)/g)].map(([, word]) => word)),
    ).toEqual([
      ["begin", "begin"],
      ["end", "end"],
    ]);
  });

  test("triplets: three in the time of two, each a third", () => {
    const xml = written(grid("snare | xxx xxx xxx xxx |"));
    const notes = notesOf(xml);
    expect(notes.length).toBe(12);
    expect(
      notes.every((note) => valueIn("actual-notes", note) === "3" && valueIn("normal-notes", note) === "2"),
    ).toBe(true);
    expect(notes.map((note) => /<tuplet type="(\w+)"/.exec(note)?.[1])).toEqual(
      Array.from({ length: 4 }, () => ["start", undefined, "stop"]).flat(),
    );
    expect(Number(valueIn("duration", notes[0] ?? "")) * 3).toBe(Number(valueIn("divisions", xml)));
  });

  test("sixteenths under an eighth's beam: begin, hooks and ends", () => {
    const beams = notesOf(written(grid("snare | x.xx xx.x xxxx .x.x |"))).map((note) =>
      [...note.matchAll(/<beam number="\d">([\w ]+)/g)].map(([, word]) => word).join(","),
    );
    expect(beams.filter((said) => said !== "").slice(0, 3)).toEqual(["begin", "continue,begin", "end,end"]);
  });

  test("two parts: the second goes back by a bar", () => {
    const xml = written(grid("snare | xxxx |\nkick | x... |"));
    expect(valueIn("duration", /<backup>[\s\S]*?<\/backup>/.exec(xml)?.[0] ?? "")).toBe(
      String(4 * Number(valueIn("divisions", xml))),
    );
  });
});

describe("what is written above and around", () => {
  test("swing as whole numbers of MusicXML 4.0", () => {
    const swung = (feel: string) => {
      const xml = written(grid("ride | xxxxxxxx |", `feel: ${feel}\n`));
      return [valueIn("first", xml), valueIn("second", xml), valueIn("swing-type", xml)];
    };
    expect(swung("swung 2 eighths")).toEqual(["2", "1", "eighth"]);
    expect(swung("swung 1.3 sixteenths")).toEqual(["13", "10", "16th"]);
    expect(swung("straight")).toEqual([undefined, undefined, undefined]);
  });

  test("the tempo counts the felt beat, and sounds in quarters", () => {
    const xml = written({ ...grid("kick | x... |"), metre: { numerator: 12, denominator: 8 } });
    expect(xml).toMatch(/<beat-unit>quarter<\/beat-unit>\s*<beat-unit-dot\/>\s*<per-minute>90</);
    expect(xml).toContain('<sound tempo="135"/>');
    expect([valueIn("beats", xml), valueIn("beat-type", xml)]).toEqual(["12", "8"]);
  });

  test("a groove stands between repeat signs, a fill does not", () => {
    expect(written(grid("kick | x |")).match(/<repeat direction="(\w+)"/g)?.length).toBe(2);
    const [fill] = FILLS;
    if (!fill) throw new Error("There is no fill.");
    expect(writeMusicXml([writeStaff(inWholeBars(fill))], { map: WIDE })).not.toContain("<repeat");
  });

  test("scores in a row are one part, with a new metre where it changes", () => {
    const bar = (metre: string) =>
      writeStaff(parseGrid(`groove: g\nname: G\nmetre: ${metre}\ntempo: 60-90\nkick | x |`));
    const xml = writeMusicXml([bar("4/4"), bar("4/4"), bar("3/4")], { map: WIDE, title: "Row" });
    expect([...xml.matchAll(/<measure number="(\d)"/g)].map(([, number]) => number)).toEqual(["1", "2", "3"]);
    expect([...xml.matchAll(/<beats>(\d)/g)].map(([, beats]) => beats)).toEqual(["4", "3"]);
    expect(valueIn("work-title", xml)).toBe("Row");
  });
});

test("a name of 10,000 characters, marks and characters that XML cannot hold", async () => {
  const name = `${"<&>\"'".repeat(2000)}\u0000\u0007\uD800 ok`;
  const xml = writeMusicXml([writeStaff(grid("kick | x |"))], { map: WIDE, title: name });
  expect(await schemaFaults(new Map([["name", xml]]))).toEqual([]);
  expect(xml).toContain("&lt;&amp;&gt;&quot;'");
  expect(xml).toContain("\uFFFD ok");
});

test("a voice the map has no key for is named, with the map", () => {
  const kickOnly = { ...GENERAL_MIDI, pads: GENERAL_MIDI.pads.filter(({ voice }) => voice === "kick") };
  const write = () => written(grid("hi-hat-open | x |"), kickOnly);
  expect(write).toThrow(NoKeyError);
  expect(write).toThrow("The map General MIDI 1 has no key for the open hi-hat.");
});
