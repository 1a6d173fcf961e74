/**
 * The human takes that are learnt from: a folder laid out as the Groove MIDI Dataset v1.0.0 (info.csv and its takes, played
 * to a click that starts at time 0).
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readSmf, strikesOf } from "../../engine/formats/index.ts";
import { type Hit, parseKitMap } from "../../engine/kit/index.ts";
import wideMap from "../../kit-maps/wide-nine-piece.json" with { type: "json" };

/** In 4/4 or 3/4. */
export interface Take {
  readonly id: string;
  readonly drummer: string;
  readonly style: string;
  readonly tempoBpm: number;
  readonly beatsInBar: number;
  readonly hits: readonly Hit[];
}

const BEATS_IN_BAR: Readonly<Record<string, number>> = { "4-4": 4, "3-4": 3 };

/** The grooves whose time can be relied on, or the fills. */
export function takesOf(dataset: string, type: "beat" | "fill" = "beat"): readonly Take[] {
  const map = parseKitMap(wideMap, "wide-nine-piece.json");
  const lines = readFileSync(join(dataset, "info.csv"), "utf8").trim().split(/\r?\n/);
  const columns = (lines[0] ?? "").split(",");
  return lines.slice(1).flatMap((line): readonly Take[] => {
    const cells = line.split(",");
    const cell = (column: string): string => cells[columns.indexOf(column)] ?? "";
    const beatsInBar = BEATS_IN_BAR[cell("time_signature")];
    const id = cell("id");
    if (cell("beat_type") !== type || beatsInBar === undefined || isUnreliable(id)) return [];
    const hits = strikesOf(readSmf(readFileSync(join(dataset, cell("midi_filename")))), map);
    return [
      { id, drummer: cell("drummer"), style: cell("style"), tempoBpm: Number(cell("bpm")), beatsInBar, hits },
    ];
  });
}

/** Takes the dataset's own notes call unreliable in time. */
function isUnreliable(id: string): boolean {
  return /^(drummer2\/session2\/|drummer2\/session1\/1$|drummer1\/session2\/(2|3[3-7])$)/.test(id);
}
