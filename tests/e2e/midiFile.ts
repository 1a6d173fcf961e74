/** MIDI files for the tests, and handing them to the page. */
import { readFileSync } from "node:fs";
import type { Page } from "@playwright/test";
import { grooveById } from "../../engine/catalogue/index.ts";
import { writeGrooveSmf } from "../../engine/formats/index.ts";
import { parseKitMap } from "../../engine/kit/index.ts";

const mapFile = new URL("../../kit-maps/general-midi-1.json", import.meta.url);
const generalMidi1 = parseKitMap(JSON.parse(readFileSync(mapFile, "utf8")), "general-midi-1.json");

/** A groove of the catalogue as a Standard MIDI File for General MIDI 1. */
export function grooveFile(
  grooveId: string,
  how: { readonly bars: number; readonly tempoBpm: number },
): Buffer {
  const groove = grooveById(grooveId);
  if (!groove) throw new Error(`The catalogue has no groove called ${grooveId}.`);
  return Buffer.from(writeGrooveSmf(groove, { ...how, map: generalMidi1 }));
}

/** Drops a file on the window. */
export async function dropFile(page: Page, name: string, bytes: Buffer): Promise<void> {
  const dropped = await page.evaluateHandle(
    ([fileName, numbers]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([new Uint8Array(numbers)], fileName, { type: "audio/midi" }));
      return transfer;
    },
    [name, [...bytes]] as const,
  );
  await page.dispatchEvent("main", "drop", { dataTransfer: dropped });
}
