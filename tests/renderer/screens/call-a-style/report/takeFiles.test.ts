import { describe, expect, test } from "vitest";
import { demonstrate, grooveById, STYLES } from "../../../../../engine/catalogue/index.ts";
import { readSmf } from "../../../../../engine/formats/index.ts";
import { gradeTake, grooveTarget } from "../../../../../engine/grading/index.ts";
import type { Hit } from "../../../../../engine/kit/index.ts";
import { catalogueStock, hear } from "../../../../../engine/listening/index.ts";
import { seededChance } from "../../../../../engine/units/index.ts";
import type { OutFile } from "../../../../../renderer/out/saveFile.ts";
import {
  reportCsv,
  strikesCsv,
  takeMidi,
  takeMusicXml,
} from "../../../../../renderer/screens/call-a-style/report/takeFiles.ts";

const HOW = { tempoBpm: 104, bars: 8 } as const;
const ORIGIN = { of: "Shuffle", day: new Date(2026, 10, 26), tempoBpm: 104 } as const;

const groove = grooveById("shuffle");
if (!groove) throw new Error("The catalogue has no shuffle.");
const HUMAN = { leanMs: 8, spreadMs: 6, leftOut: 0, added: 0, chance: seededChance(3) } as const;
const hits: readonly Hit[] = demonstrate(groove, { ...HOW, ...HUMAN }).map(({ time, voice, velocity }) => ({
  time: time + 100,
  voice,
  velocity,
  zone: "whole",
  pad: 38,
}));
const hearing = hear(hits, catalogueStock(STYLES));
if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
const heard = hearing;
const NOTHING = { kind: "nothing", reason: "too-few-hits" } as const;

/** The lines of a table without quotes in it. */
function tableOf({ content }: OutFile): readonly (readonly string[])[] {
  if (typeof content !== "string") throw new Error("A table is text.");
  expect(content.endsWith("\r\n")).toBe(true);
  return content
    .slice(0, -2)
    .split("\r\n")
    .map((line) => line.split(","));
}

describe("files of a take", () => {
  test("MIDI: all strikes, with what lies between them", () => {
    const file = takeMidi(hits, heard, ORIGIN);
    expect(file.name).toBe("Shuffle, take, 2026-11-26, 104 a minute.mid");
    if (!(file.content instanceof Uint8Array)) throw new Error("A MIDI file is bytes.");
    const times = readSmf(file.content).events.flatMap(({ time, message }) =>
      message.kind === "note-on" && message.velocity > 0 ? [time] : [],
    );
    expect(times).toHaveLength(hits.length);
    const shift = (times[0] ?? 0) - (hits[0]?.time ?? 0);
    const off = times.map((time, at) => Math.abs(time - shift - (hits[at]?.time ?? 0)));
    expect(Math.max(...off)).toBeLessThan(0.001);
  });

  test("strikes: a line each, from the first one on, with bar and beat where a pulse was heard", () => {
    const [head, ...lines] = tableOf(strikesCsv(hits, heard, ORIGIN));
    expect(head).toEqual("seconds,voice,zone,velocity,openness,key,bar,beat,touch".split(","));
    expect(lines).toHaveLength(hits.length);
    expect(lines[0]?.slice(0, 2)).toEqual(["0", expect.any(String)]);
    expect(lines[0]?.slice(6, 8)).toEqual(["1", "1"]);
    const placed = lines.filter(([, , , , , , bar]) => bar !== "");
    expect(placed.length).toBeGreaterThan(0.95 * hits.length);
    const untold = tableOf(strikesCsv(hits, NOTHING, ORIGIN)).slice(1);
    expect(untold.every(([, , , , , , bar, beat]) => bar === "" && beat === "")).toBe(true);
  });

  test("the report as a table, under its own name", () => {
    const report = gradeTake(hits, grooveTarget(groove, HOW), { start: "free" });
    const file = reportCsv(report, ORIGIN);
    expect(file.name).toBe("Shuffle, report, 2026-11-26, 104 a minute.csv");
    expect(tableOf(file).length).toBeGreaterThan(report.perBeat.length + report.voices.length);
  });

  test("MusicXML: every stroke that was written down is a note", () => {
    const { content } = takeMusicXml(hits, heard, ORIGIN);
    if (typeof content !== "string") throw new Error("MusicXML is text.");
    const notes = content.match(/<unpitched>/g) ?? [];
    expect(notes.length).toBeGreaterThan(0.95 * hits.length);
    expect(content).toContain("<work-title>Shuffle, as played</work-title>");
  });
});
