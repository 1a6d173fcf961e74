/**
 * The development part of the Groove MIDI Dataset v1.0.0 (Gillick, Roberts, Engel, Eck & Bamman, ICML 2019; CC BY
 * 4.0), which lies beside the project where it is tested at length and is not needed to build it.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readSmf, strikesOf } from "../../engine/formats/index.ts";
import { type Hit, parseKitMap } from "../../engine/kit/index.ts";
import wideNinePiece from "../../kit-maps/wide-nine-piece.json" with { type: "json" };

const FOLDER = join(import.meta.dirname, "../../../shared/data/groove-midi");

/** Whether the large data set is there; tests that need it say so when it is not. */
export const DEVELOPMENT_TAKES_ARE_HERE = existsSync(join(FOLDER, "info.csv"));
if (!DEVELOPMENT_TAKES_ARE_HERE) {
  console.log("The large data set is not beside the project: the tests that need it are skipped.");
}

export interface DevelopmentTake {
  readonly id: string;
  readonly style: string;
  readonly bpm: number;
  readonly beatsInBar: number;
  readonly path: string;
}

/** Grooves in 4/4 and 3/4 whose click starts at time 0 and can be relied on. */
export function developmentGrooves(): readonly DevelopmentTake[] {
  return takesOfType("beat");
}

/** Fills in 4/4 and 3/4, under the same conditions. */
export function developmentFills(): readonly DevelopmentTake[] {
  return takesOfType("fill");
}

function takesOfType(type: "beat" | "fill"): readonly DevelopmentTake[] {
  const [head = "", ...lines] = readFileSync(join(FOLDER, "info.csv"), "utf8").trim().split(/\r?\n/);
  const columns = head.split(",");
  return lines.flatMap((line) => {
    const cells = line.split(",");
    const cell = (column: string): string => cells[columns.indexOf(column)] ?? "";
    const metre = cell("time_signature");
    const wanted = cell("beat_type") === type && (metre === "4-4" || metre === "3-4");
    if (!wanted || isUnreliable(cell("id"))) return [];
    const path = join(FOLDER, cell("midi_filename"));
    return [
      {
        id: cell("id"),
        style: cell("style"),
        bpm: Number(cell("bpm")),
        beatsInBar: metre === "3-4" ? 3 : 4,
        path,
      },
    ];
  });
}

/** Takes whose timing the data set's own notes call unreliable. */
function isUnreliable(id: string): boolean {
  return /^(drummer2\/session2\/|drummer2\/session1\/1$|drummer1\/session2\/(2|3[3-7])$)/.test(id);
}

const map = parseKitMap(wideNinePiece, "wide-nine-piece.json");

export function strikesOfTake(take: DevelopmentTake): readonly Hit[] {
  return strikesOf(readSmf(readFileSync(take.path)), map);
}

/** The strikes of a stretch, in seconds from its beginning, at `slower` times the seconds. */
export function stretchOf(hits: readonly Hit[], from: number, to: number, slower = 1): readonly Hit[] {
  return hits
    .filter(({ time }) => time >= from && time < to)
    .map((hit) => ({ ...hit, time: (hit.time - from) * slower }));
}
