/**
 * What a command line can export, in every format: a groove or a fill of the catalogue, or a take written down.
 */

import { fillById, grooveById } from "../engine/catalogue/index.ts";
import {
  hitsCsv,
  notesCsv,
  placeOf,
  type WrittenHit,
  type WrittenScore,
  writeMusicXml,
  writeSmf,
} from "../engine/formats/index.ts";
import { asGroove, type Quantised, quantise, type Stock } from "../engine/listening/index.ts";
import {
  beatsPerBar,
  type Groove,
  inWholeBars,
  repeated,
  type StaffScore,
  usualTempo,
  writeStaff,
} from "../engine/score/index.ts";
import { compare, fraction } from "../engine/units/index.ts";
import { staffSvg } from "../engraving/index.ts";
import { hearTake } from "./heard.ts";
import { GENERAL_MIDI } from "./maps.ts";
import { TakeError, type TakeFile, withoutRetriggers } from "./takes.ts";
import { UsageError } from "./usageError.ts";

export const EXPORT_FORMATS = ["mid", "musicxml", "csv", "svg"] as const;
export type ExportFormat = (typeof EXPORT_FORMATS)[number];

/** Something to be written to a file, and what is said of it. */
export interface Export {
  readonly name: string;
  readonly bars: number;
  readonly tempoBpm: number;
  readonly content: (format: ExportFormat) => Uint8Array | string;
  /** Said beside it, such as what was left out. */
  readonly remarks: readonly string[];
}

interface Asked {
  readonly bars: number | undefined;
  readonly bpm: number | undefined;
}

/** @throws UsageError when the catalogue has no such groove or fill, or a fill is to be repeated. */
export function grooveExport(id: string, asked: Asked): Export {
  const fill = fillById(id);
  const groove = fill ? inWholeBars(fill) : grooveById(id);
  if (!groove) throw new UsageError(`--groove ${id}: the catalogue has no such groove or fill.`);
  if (fill && asked.bars !== undefined)
    throw new UsageError(`--bars ${asked.bars}: a fill is written once; leave --bars out.`);
  const bars = asked.bars ?? groove.bars;
  const tempoBpm = asked.bpm ?? usualTempo(groove);
  const whole: Groove = { ...groove, bars, notes: repeated(groove, bars) };
  // A groove as it stands in the catalogue repeats; so many bars of it are played once.
  const staff = writeStaff(whole, {
    repeated: !fill && asked.bars === undefined,
    ...(asked.bpm === undefined ? {} : { tempoBpm }),
  });
  const score = { name: groove.name, stretches: [{ ...whole, tempoBpm }] };
  return {
    name: groove.name,
    bars,
    tempoBpm,
    content: (format) => (format === "csv" ? notesCsv(whole) : scoreContent(format, score, staff)),
    remarks: [],
  };
}

function scoreContent(
  format: Exclude<ExportFormat, "csv">,
  score: WrittenScore,
  staff: StaffScore,
): Uint8Array | string {
  switch (format) {
    case "mid":
      return writeSmf(score, { map: GENERAL_MIDI });
    case "musicxml":
      return writeMusicXml([staff], { map: GENERAL_MIDI });
    case "svg":
      return staffSvg([{ score: staff }]);
  }
}

/**
 * A take, written down as it is heard; as a table, every hit of it as it was played.
 *
 * @throws TakeError when too little was played to be written down.
 */
export function takeExport(
  take: TakeFile,
  how: Asked & { readonly name: string; readonly stock: Stock; readonly format: ExportFormat },
): Export {
  const named = withoutRetriggers(take.hits).filter(({ voice }) => voice !== "unknown");
  if (how.format === "csv") return hitsExport(take, named, how);
  const written = quantise(named, hearTake({ ...take, hits: named }, how.stock, undefined));
  const bars = Math.min(how.bars ?? written.bars, written.bars);
  const end = fraction(bars * beatsPerBar(written.metre));
  const notes = written.notes.filter(({ position }) => compare(position, end) < 0);
  const tempoBpm = how.bpm ?? written.tempoBpm;
  const groove = asGroove({ ...written, tempoBpm, bars, notes }, { id: "take", name: how.name });
  const score = { name: how.name, stretches: [{ ...groove, tempoBpm, ...tempoMap(written, bars, how.bpm) }] };
  const staff = writeStaff(groove, { tempoBpm: Math.round(tempoBpm) });
  const unnamed = take.hits.filter(({ voice }) => voice === "unknown").length;
  const format = how.format;
  return {
    name: how.name,
    bars,
    tempoBpm,
    content: () => scoreContent(format, score, staff),
    remarks: [
      ...(unnamed > 0
        ? [`${unnamed} strikes on keys that the map does not name are left out; name another map with --map.`]
        : []),
      ...(written.unsure.length > 0 ? [`${written.unsure.length} places could be written otherwise.`] : []),
    ],
  };
}

/** The tempo of each bar as it was played, unless another was asked for. */
function tempoMap({ metre, barTimes }: Quantised, bars: number, bpm: number | undefined) {
  if (bpm !== undefined) return {};
  const beats = beatsPerBar(metre);
  const tempos = Array.from({ length: bars }, (_, bar) => {
    const seconds = (barTimes[bar + 1] ?? 0) - (barTimes[bar] ?? 0);
    return { position: fraction(bar * beats), tempoBpm: (60 * beats) / seconds };
  });
  const [first, ...changes] = tempos;
  return first ? { tempoBpm: first.tempoBpm, tempoChanges: changes } : {};
}

function hitsExport(
  take: TakeFile,
  named: TakeFile["hits"],
  how: Asked & { readonly name: string; readonly stock: Stock },
): Export {
  if (how.bars !== undefined || how.bpm !== undefined)
    throw new UsageError("The hits of a take are told as they were played: leave out --bars and --bpm.");
  const written = writtenOrNone({ ...take, hits: named }, how.stock);
  const places = new Map(
    written?.notes.map((note, index): [TakeFile["hits"][number] | undefined, WrittenHit] => [
      named[written.hitOf[index] ?? -1],
      { ...placeOf(written, note), dynamic: note.dynamic },
    ]),
  );
  return {
    name: how.name,
    bars: written?.bars ?? 0,
    tempoBpm: written?.tempoBpm ?? 0,
    content: () =>
      hitsCsv(
        take.hits,
        take.hits.map((hit) => places.get(hit)),
      ),
    remarks: written ? [] : [withoutBars(take, named)],
  };
}

function withoutBars(take: TakeFile, named: TakeFile["hits"]): string {
  const why =
    take.hits.length > 0 && named.length === 0
      ? "The map names none of the keys that were struck; name another with --map"
      : "Too little was played to hear bars in it";
  return `${why}: bar, beat and touch are empty.`;
}

function writtenOrNone(take: TakeFile, stock: Stock): Quantised | undefined {
  try {
    return quantise(take.hits, hearTake(take, stock, undefined));
  } catch (error) {
    if (error instanceof TakeError) return undefined;
    throw error;
  }
}
