/**
 * People play; nobody means a command. The Groove MIDI Dataset v1.0.0 (Gillick, Roberts, Engel, Eck & Bamman, ICML 2019;
 * CC BY 4.0), all 948 takes of its development part, on the map of the kit they were played on.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readSmf } from "../../engine/formats/index.ts";
import { type Hit, KitEar, parseKitMap } from "../../engine/kit/index.ts";
import wideNinePiece from "../../kit-maps/wide-nine-piece.json" with { type: "json" };
import {
  CommandEar,
  type CommandStrikes,
  offered,
  TOGETHER_SECONDS,
} from "../../renderer/session/commandStrike.ts";
import { DEVELOPMENT_TAKES_ARE_HERE } from "./developmentTakes.ts";

const FOLDER = join(import.meta.dirname, "../../../shared/data/groove-midi");
const MAP = parseKitMap(wideNinePiece, "wide-nine-piece.json");

/** Rims of the high, the mid and the floor tom. */
const HIGH = 50;
const MID = 47;
const FLOOR = 58;
/** Every pair of rims that can be learnt, each as a command. */
const EVERY_PAIR: CommandStrikes = {
  flag: { kind: "two-rims", pads: [HIGH, FLOOR] },
  stop: { kind: "two-rims", pads: [MID, FLOOR] },
  again: { kind: "two-rims", pads: [HIGH, MID] },
};

function hitsOf(path: string): readonly Hit[] {
  const ear = new KitEar(MAP);
  return readSmf(readFileSync(path)).events.flatMap(({ message, time }) => {
    const event = ear.hear(message, time);
    return event?.kind === "hit" ? [event.hit] : [];
  });
}

test.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)(
  "no pair of rims that can be learnt is struck in ordinary playing",
  () => {
    const paths = readdirSync(FOLDER, { recursive: true })
      .map(String)
      .filter((name) => name.endsWith(".mid"));
    let strikes = 0;
    let together = 0;
    const falseOnes: string[] = [];
    for (const path of paths) {
      const ear = new CommandEar(EVERY_PAIR);
      const hits = hitsOf(join(FOLDER, path));
      strikes += hits.length;
      together += hits.filter((hit, index) => isRimPair(hit, hits[index - 1])).length;
      for (const { commands } of [
        ...hits.map((hit) => ear.hear(hit)),
        ear.silentUntil(Number.POSITIVE_INFINITY),
      ])
        falseOnes.push(...commands.map((command) => `${path}: ${command}`));
    }
    console.log(
      `Commands struck by chance: ${falseOnes.length} in ${paths.length} takes, ${strikes} strikes; two tom rims in one moment: ${together}.`,
    );
    expect(paths).toHaveLength(948);
    // The rule is put to the test: rims do fall together in music.
    expect(together).toBeGreaterThan(0);
    expect(falseOnes).toEqual([]);
  },
);

test.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)(
  "no pad that people play can be learnt as a pad for commands only",
  () => {
    const played = new Set<number>();
    for (const path of readdirSync(FOLDER, { recursive: true }).map(String))
      if (path.endsWith(".mid")) for (const { pad } of hitsOf(join(FOLDER, path))) played.add(pad);
    const learnable = [...played].filter(
      (pad) =>
        offered([{ time: 0, pad, voice: "unknown", zone: "whole", velocity: 1 }], MAP).kind === "taken",
    );
    expect(played.size).toBeGreaterThan(15);
    expect(learnable).toEqual([]);
  },
);

function isRimPair(one: Hit, other: Hit | undefined): boolean {
  const rims = [HIGH, MID, FLOOR];
  return (
    other !== undefined &&
    one.pad !== other.pad &&
    rims.includes(one.pad) &&
    rims.includes(other.pad) &&
    one.time - other.time <= TOGETHER_SECONDS
  );
}
