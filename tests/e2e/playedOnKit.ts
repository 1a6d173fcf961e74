/** Plays on the kit that is not there, stroke by stroke at the moments they are meant for. */
import { readFileSync } from "node:fs";
import type { Page } from "@playwright/test";
import {
  type DemonstratedStroke,
  demonstrate,
  grooveById,
  type PlacedFill,
} from "../../engine/catalogue/index.ts";
import { noteFor, parseKitMap } from "../../engine/kit/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { sendInTime, type Timed } from "./virtualKit.ts";

const mapFile = new URL("../../kit-maps/general-midi-1.json", import.meta.url);
const generalMidi1 = parseKitMap(JSON.parse(readFileSync(mapFile, "utf8")), "general-midi-1.json");
const DRUMS = 0x99;

/** As the demonstration player has it; ends with the last stroke. */
export async function playOnKit(
  page: Page,
  grooveId: string,
  how: { readonly bars: number; readonly tempoBpm: number; readonly fills?: readonly PlacedFill[] },
): Promise<void> {
  const groove = grooveById(grooveId);
  if (!groove) throw new Error(`The catalogue has no groove called ${grooveId}.`);
  const hand = { leanMs: 4, spreadMs: 9, leftOut: 0, added: 0, chance: seededChance(7) };
  await playStrokesOnKit(page, demonstrate(groove, { ...hand, ...how }));
}

/** Strokes from time 0, each at its moment. */
export async function playStrokesOnKit(page: Page, strokes: readonly DemonstratedStroke[]): Promise<void> {
  await sendInTime(page, timedStrokes(strokes));
}

/** As the kit sends them: each a message at its moment. */
export function timedStrokes(strokes: readonly DemonstratedStroke[]): readonly Timed[] {
  return strokes.flatMap(({ time, voice, velocity }) => {
    const note = noteFor(generalMidi1, voice);
    return note === undefined ? [] : [{ ms: time * 1000, bytes: [DRUMS, note, Math.round(velocity * 127)] }];
  });
}
