import { describe, expect, test } from "vitest";
import { readBody } from "../../../engine/catalogue/index.ts";
import { readSmf } from "../../../engine/formats/index.ts";
import { unfolded } from "../../../engine/score/index.ts";
import { staffPicture, writtenMidi, writtenMusicXml } from "../../../renderer/out/writtenFiles.ts";
import { schemaFaults } from "../../engine/formats/musicXmlSchema.ts";

const HEADS = { id: "own/1", name: "River road" };
const ORIGIN = { of: "River road", day: new Date(2026, 10, 26), tempoBpm: null };

const PART = readBody(
  "part",
  `section: Verse & bridge
tempo: 92
play: eighths, 3 bars
play: eighths, 1 bar, ending toms

section: Chorus
tempo: 104
times: 2
play: waltz, 2 bars

groove: eighths
name: Eighths
metre: 4/4
tempo: 80-140
kick | x... x... |

groove: waltz
name: Waltz
metre: 3/4
tempo: 80-140
snare | xxx |

fill: toms
name: Toms
level: steady
metre: 4/4
tempo: 60-110
high-tom | .... .... xxxx xxxx |`,
  HEADS,
);

describe("a drum part taken along", () => {
  if (PART.kind !== "part") throw new Error("It is no part.");
  const strokes = unfolded(PART.music).flatMap(({ notes }) => notes);

  test("as a MIDI file has every stroke of every section, with its tempos and metres", () => {
    const { content } = writtenMidi(PART, ORIGIN);
    if (!(content instanceof Uint8Array)) throw new Error("A MIDI file is bytes.");
    const { events, tempos, metres } = readSmf(content);
    expect(events.filter(({ message }) => message.kind === "note-on")).toHaveLength(strokes.length);
    const verse = (4 * 4 * 60) / 92;
    const moments = metres.map(({ time, metre }) => [Math.round(time * 1000), metre.numerator]);
    expect(moments).toEqual([
      [0, 4],
      [Math.round(verse * 1000), 3],
    ]);
    expect([...new Set(tempos.map(({ tempoBpm }) => Math.round(tempoBpm)))]).toEqual([92, 104]);
  });

  test("as MusicXML has every bar and note, and the names of its sections; the schema takes it", async () => {
    const { content } = writtenMusicXml(PART, ORIGIN);
    if (typeof content !== "string") throw new Error("MusicXML is text.");
    expect(content.match(/<measure /g)).toHaveLength(8);
    expect(content.match(/<unpitched>/g)).toHaveLength(strokes.length);
    expect(content.match(/<rehearsal>[^<]*/g)).toEqual([
      "<rehearsal>Verse &amp; bridge",
      "<rehearsal>Chorus",
      "<rehearsal>Chorus",
    ]);
    expect(content).not.toContain("<repeat");
    expect(await schemaFaults(new Map([["river-road", content]]))).toEqual([]);
  }, 180_000);

  test("as a picture has its sections under one another", async () => {
    const { content } = await staffPicture(PART, ORIGIN, "svg");
    if (typeof content !== "string") throw new Error("SVG is text.");
    const tops = [...content.matchAll(/<svg x="16" y="(\d+)"/g)].map(([, y]) => Number(y));
    expect(tops).toHaveLength(2);
    expect(tops).toEqual([...tops].sort((a, b) => a - b));
  });
});

test("a phrase is written once, without repeat signs", () => {
  const call = readBody("phrase", "role: call\nmetre: 4/4\ntempo: 60-90\nkick | x.x. |", HEADS);
  const { content } = writtenMidi(call, ORIGIN);
  if (!(content instanceof Uint8Array)) throw new Error("A MIDI file is bytes.");
  expect(readSmf(content).events.filter(({ message }) => message.kind === "note-on")).toHaveLength(2);
  expect(String(writtenMusicXml(call, ORIGIN).content)).not.toContain("<repeat");
});
