/** Files made from a take: as it was played, as it was understood, and what was said of it. */
import {
  hitsCsv,
  placeOf,
  reportCsv as reportTable,
  type WrittenHit,
  writeMusicXml,
  writePlayedSmf,
} from "../../../../engine/formats/index.ts";
import type { Report } from "../../../../engine/grading/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import { type Heard, type Hearing, type Quantised, quantise } from "../../../../engine/listening/index.ts";
import { writeStaff } from "../../../../engine/score/index.ts";
import { fileName } from "../../../out/fileName.ts";
import { GENERAL_MIDI } from "../../../out/generalMidi.ts";
import { FILE_KINDS, type FileKind, type OutFile } from "../../../out/saveFile.ts";
import type { Origin } from "../../../out/TakenFrom.ts";

/** Every strike as it was played. */
export function takeMidi(hits: readonly Hit[], hearing: Hearing, origin: Origin): OutFile {
  const played = written(hits, hearing) ?? null;
  const content = writePlayedSmf(`${origin.of}, as played`, hits, { played, map: GENERAL_MIDI });
  return named(origin, "take", FILE_KINDS.mid, Uint8Array.from(content));
}

/** The take written down by the pulse that was heard in it. @throws NoKeyError when a voice has no key. */
export function takeMusicXml(hits: readonly Hit[], heard: Heard, origin: Origin): OutFile {
  const { tempoBpm, ...music } = quantise(hits, heard);
  const score = writeStaff({ ...music, name: `${origin.of}, as played` }, { tempoBpm: Math.round(tempoBpm) });
  return named(origin, "take", FILE_KINDS.musicxml, writeMusicXml([score], { map: GENERAL_MIDI }));
}

/** One line a strike, seconds from the first one; with its place where a pulse was heard. */
export function strikesCsv(hits: readonly Hit[], hearing: Hearing, origin: Origin): OutFile {
  const from = hits[0]?.time ?? 0;
  const taken = written(hits, hearing);
  const fromFirst = hits.map((hit) => ({ ...hit, time: hit.time - from }));
  return named(origin, "strikes", FILE_KINDS.csv, hitsCsv(fromFirst, taken ? placesOf(hits, taken) : []));
}

/** What was said of the take, as a table. */
export function reportCsv(report: Report, origin: Origin): OutFile {
  return named(origin, "report", FILE_KINDS.csv, reportTable(report));
}

function written(hits: readonly Hit[], hearing: Hearing): Quantised | undefined {
  return hearing.kind === "heard" ? quantise(hits, hearing) : undefined;
}

/** Where each strike is written; a grace stroke has no place of its own. */
function placesOf(
  hits: readonly Hit[],
  { notes, hitOf, metre }: Quantised,
): readonly (WrittenHit | undefined)[] {
  const places = new Map<number, WrittenHit>();
  notes.forEach(({ position, dynamic }, index) => {
    const hit = hitOf[index];
    if (hit !== undefined) places.set(hit, { ...placeOf({ metre }, { position }), dynamic });
  });
  return hits.map((_, index) => places.get(index));
}

function named(origin: Origin, what: string, kind: FileKind, content: OutFile["content"]): OutFile {
  return { name: fileName({ ...origin, what, ending: kind.ending }), kind, content };
}
