import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { demonstrate, grooveById } from "../../../engine/catalogue/index.ts";
import { readSmf, strikesOf } from "../../../engine/formats/index.ts";
import { parseKitMap } from "../../../engine/kit/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import wideMap from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };
import type { Take } from "../../../scripts/learn/takes.ts";

const FOLDER = resolve(import.meta.dirname, "../../fixtures/groove-midi");

/** The committed human takes (Groove MIDI Dataset, Gillick et al., ICML 2019; CC BY 4.0), all in 4/4 and to a click. */
export function fixtureTakes(): readonly Take[] {
  const map = parseKitMap(wideMap, "wide-nine-piece.json");
  return readdirSync(FOLDER)
    .filter((name) => name.endsWith(".mid"))
    .sort()
    .map((name) => {
      // Number, style, tempo, kind, metre: "77_jazz-mediumfast_180_beat_4-4.mid".
      const [, style = "", tempo] = name.split("_");
      const hits = strikesOf(readSmf(readFileSync(resolve(FOLDER, name))), map);
      return {
        id: name,
        drummer: "fixture",
        style: style.replace("-", "/"),
        tempoBpm: Number(tempo),
        beatsInBar: 4,
        hits,
      };
    });
}

/** A groove of the catalogue as a take to a click that starts at time 0. */
export function madeTake(grooveId: string, tempoBpm: number, bars: number, seed: number): Take {
  const groove = grooveById(grooveId);
  if (!groove) throw new Error(`The catalogue has no ${grooveId}.`);
  const chance = seededChance(seed);
  const how = { tempoBpm, bars, leanMs: 0, spreadMs: 8, leftOut: 0.02, added: 0.02, chance };
  return {
    id: `${grooveId} ${seed}`,
    style: "rock",
    drummer: `made ${seed}`,
    tempoBpm,
    beatsInBar: beatsPerBar(groove.metre),
    hits: demonstrate(groove, how).map((stroke) => ({ ...stroke, zone: "whole", pad: 0 })),
  };
}
