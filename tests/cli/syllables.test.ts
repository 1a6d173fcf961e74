import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import type { Sound } from "../../engine/speech/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { asSaidOnce, inNoise, phraseByChance, recorded, SPEAKERS } from "../engine/speech/saidTakes.ts";
import { wavBytes } from "../engine/speech/wavBytes.ts";
import { run, runJson, temporaryFolder } from "./program.ts";

const folder = temporaryFolder();
const SYLLABLES = ["doo", "ka", "tss"];
const chance = seededChance(3);
const speaker = SPEAKERS[1] ?? { pitchHz: 130, tract: 1, pace: 1, breath: 0.1 };

function write(path: string, sound: Sound): string {
  const whole = join(folder, path);
  mkdirSync(dirname(whole), { recursive: true });
  writeFileSync(whole, wavBytes(sound));
  return whole;
}

const enrol = join(folder, "enrol");
for (const text of SYLLABLES)
  for (let each = 0; each < 5; each += 1)
    write(`enrol/${text}/${each}.wav`, recorded([{ time: 0.25, text }], asSaidOnce(speaker, chance), chance));
const words = phraseByChance(SYLLABLES, chance);
const phrase = write("phrase.wav", inNoise(recorded(words, speaker, chance), 20, "white", chance));
const noisy = write("noisy.wav", inNoise(recorded(words, speaker, chance), 8, "white", chance));

test("each syllable with its time and confidence", () => {
  const { code, stderr, objects } = runJson(["syllables", "--enrol", enrol, phrase]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual([
    words.map(({ text }) => ({
      time: expect.any(Number),
      syllable: text,
      confidence: expect.any(Number),
    })),
  ]);
});

test("in words", () => {
  const { code, lines } = run(["syllables", "--enrol", enrol, phrase]);
  expect(code).toBe(0);
  expect(lines[0]).toBe(phrase);
  expect(lines[1]).toMatch(/^ {2}0\.\d{3} s {2}(doo|ka|tss) {2}\(\d+ in 100\)$/);
  expect(lines.length).toBe(words.length + 1);
});

test("what cannot be heard is told with its reason, and the others are still done", () => {
  const broken = join(folder, "broken.wav");
  writeFileSync(broken, "RIFF");
  const { code, objects, stderr } = runJson([
    "syllables",
    "--enrol",
    enrol,
    noisy,
    broken,
    join(folder, "none.wav"),
    phrase,
  ]);
  expect(code).toBe(1);
  expect(objects).toMatchObject([
    { take: noisy, refused: "noisy", error: expect.stringContaining("15 dB are needed") },
    { take: broken, error: "This is not a WAV file: it does not begin with RIFF and WAVE." },
    { error: "There is no such file." },
    expect.any(Array),
  ]);
  expect(stderr).toContain(`${noisy}: It is too noisy`);
});

test("an example that cannot be used is left out and said", () => {
  write("with-noise/ka/0.wav", recorded([{ time: 0.25, text: "ka" }], speaker, chance));
  const bad = write("with-noise/ka/1.wav", {
    samples: Float32Array.from({ length: 8000 }, () => (chance() - 0.5) * 0.1),
    sampleRate: 16_000,
  });
  const { stderr } = run(["syllables", "--enrol", join(folder, "with-noise"), phrase]);
  expect(stderr).toContain(`${bad}: Nothing was said that stands out from the room.`);
  expect(stderr).toContain("This example is left out.");
});

mkdirSync(join(folder, "empty"));
mkdirSync(join(folder, "without/ka"), { recursive: true });

test.each([
  [
    [phrase],
    "Name the folder of examples with --enrol: in it one folder a syllable, with WAV files. See --help.\n",
  ],
  [["--enrol", enrol], "Name at least one recording, a WAV file. See --help.\n"],
  [
    ["--enrol", join(folder, "nowhere"), phrase],
    `--enrol ${join(folder, "nowhere")}: there is no such folder that can be read. See --help.\n`,
  ],
  [
    ["--enrol", join(folder, "empty"), phrase],
    `--enrol ${join(folder, "empty")}: it holds no folder; make one for each syllable, with WAV files in it. See --help.\n`,
  ],
  [
    ["--enrol", join(folder, "without"), phrase],
    `--enrol ${join(folder, "without")}: "ka" has no WAV file that can be used as an example. See --help.\n`,
  ],
])("%j is not understood", (args, stderr) => {
  expect(run(["syllables", ...args])).toMatchObject({ code: 2, stdout: "", stderr });
});
