import { describe, expect, test } from "vitest";
import { KitMapError, noteFor, padFor, parseKitMap } from "../../../engine/kit/index.ts";

const sound = {
  id: "small",
  name: "Small kit",
  source: "made for this test",
  hiHat: { controller: 4, shutAt: 127, openAt: 0 },
  pads: [
    { note: 38, voice: "snare", zone: "head" },
    { note: 40, voice: "snare", zone: "rim", label: "rim" },
    { note: 36, voice: "kick" },
  ],
};

test("a sound map is read; a zone that is not said is the whole pad", () => {
  const map = parseKitMap(sound, "small.json");
  expect(map.pads[2]).toEqual({ note: 36, voice: "kick", zone: "whole" });
  expect(padFor(map, 40)).toEqual({ note: 40, voice: "snare", zone: "rim", label: "rim" });
  expect(padFor(map, 41)).toBeUndefined();
});

test("the first key of a voice is the plain way to strike it", () => {
  const map = parseKitMap(sound, "small.json");
  expect(noteFor(map, "snare")).toBe(38);
  expect(noteFor(map, "china")).toBeUndefined();
});

describe("a map that is wrong is refused, with the file, the place and the fault", () => {
  test.each([
    { fault: "no object", data: 3, where: "the file:" },
    { fault: "id missing", data: { ...sound, id: undefined }, where: "id:" },
    { fault: "id with capitals", data: { ...sound, id: "Small Kit" }, where: "id: lower-case letters" },
    { fault: "no name", data: { ...sound, name: "" }, where: "name:" },
    { fault: "no pads", data: { ...sound, pads: [] }, where: "pads:" },
    { fault: "a word too many", data: { ...sound, colour: "red" }, where: '"colour"' },
    {
      fault: "key above 127",
      data: { ...sound, pads: [{ note: 128, voice: "kick" }] },
      where: "pads.0.note:",
    },
    {
      fault: "key not whole",
      data: { ...sound, pads: [{ note: 36.5, voice: "kick" }] },
      where: "pads.0.note:",
    },
    {
      fault: "no such voice",
      data: { ...sound, pads: [...sound.pads, { note: 1, voice: "gong" }] },
      where: "pads.3.voice:",
    },
    {
      fault: "no such zone",
      data: { ...sound, pads: [{ note: 1, voice: "kick", zone: "top" }] },
      where: "pads.0.zone:",
    },
    {
      fault: "a key named twice",
      data: { ...sound, pads: [...sound.pads, { note: 38, voice: "clap" }] },
      where: "pads.3.note: key 38 is named twice",
    },
    {
      fault: "controller above 127",
      data: { ...sound, hiHat: { ...sound.hiHat, controller: 200 } },
      where: "hiHat.controller:",
    },
  ])("$fault", ({ data, where }) => {
    const read = () => parseKitMap(data, "small.json");
    expect(read).toThrow(KitMapError);
    expect(read).toThrow("The kit map small.json cannot be used. ");
    expect(read).toThrow(where);
  });

  test("all faults are said at once", () => {
    const read = () =>
      parseKitMap({ ...sound, id: "No", pads: [{ note: 300, voice: "gong" }] }, "small.json");
    expect(read).toThrow(/id: .*pads\.0\.note: .*pads\.0\.voice: /);
  });
});
