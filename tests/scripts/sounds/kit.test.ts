import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { parseKitManifest } from "../../../renderer/audio/kitManifest.ts";
import { bankBytes, renderKey } from "../../../scripts/sounds/bank.ts";
import { decodeFlac } from "../../../scripts/sounds/flac.ts";
import { KEY_SOUNDS } from "../../../scripts/sounds/generalMidiKit.ts";
import { fromDecibels, shaped, sixteenBit } from "../../../scripts/sounds/shape.ts";

const folder = resolve(import.meta.dirname, "../../../renderer/audio/kit");
const manifest = parseKitManifest(JSON.parse(readFileSync(join(folder, "kit.json"), "utf8")));
const bytesOf = (file: string) => new Uint8Array(readFileSync(join(folder, file)));

test("the recordings are the 25 keys 35 to 59, and no other file lies beside them", () => {
  expect(manifest.sounds.map(({ key }) => key)).toEqual(Array.from({ length: 25 }, (_, index) => 35 + index));
  expect(readdirSync(folder).sort()).toEqual(
    [...manifest.sounds.map(({ file }) => file), "kit.json", "licence.md"].sort(),
  );
});

test("the licence of the bank goes with them, with its notice", () => {
  const licence = readFileSync(join(folder, "licence.md"), "utf8");
  expect(licence).toContain("Permission is hereby granted, free of charge");
  expect(licence).toContain("Copyright (c) 2000-2002, 2008 Frank Wen");
  expect(licence).toContain("Michael Cowgill");
});

test.each(manifest.sounds)("$file is the file that was made", ({ file, sha256 }) => {
  expect(createHash("sha256").update(bytesOf(file)).digest("hex")).toBe(sha256);
});

/** Last bits may differ where another machine rounds a sine another way; anything more is another sound. */
const MOST_APART = 2;

let bank: ArrayBuffer;
beforeAll(() => {
  bank = bankBytes();
});

test.each(KEY_SOUNDS)("key $key, $name, comes out of the bank again as it is kept", async ({ key }) => {
  const sound = manifest.sounds.find((each) => each.key === key);
  const kept = decodeFlac(bytesOf(sound?.file ?? ""));
  const anew = sixteenBit(shaped(await renderKey(bank, key)));
  expect(anew.length).toBe(kept.length);
  const apart = anew.reduce((most, sample, at) => Math.max(most, Math.abs(sample - (kept[at] ?? 0))), 0);
  expect(apart).toBeLessThanOrEqual(MOST_APART);
});

test.each(manifest.sounds)("$file is at −1 dB of full scale, with no silence at either end", ({ file }) => {
  const samples = decodeFlac(bytesOf(file));
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0) / 32_767;
  expect(20 * Math.log10(peak)).toBeCloseTo(-1, 2);
  const heard = 32_767 * fromDecibels(-60) - 1;
  expect(Math.abs(samples[0] ?? 0)).toBeGreaterThan(heard);
  expect(Math.abs(samples.at(-1) ?? 0)).toBeGreaterThan(heard);
});
