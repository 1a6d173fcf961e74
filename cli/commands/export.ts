import { writeFile } from "node:fs/promises";
import { fillById, grooveById } from "../../engine/catalogue/index.ts";
import { writeGrooveSmf } from "../../engine/formats/index.ts";
import { inWholeBars, usualTempo } from "../../engine/score/index.ts";
import { GENERAL_MIDI } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { readArguments, readBars, readTempo } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `export`: a groove as written, or a fill once in its bars, as a MIDI file. */
export async function exportCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    groove: { type: "string" },
    bars: { type: "string" },
    bpm: { type: "string" },
    to: { type: "string" },
    out: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals[0] !== undefined) throw new UsageError(`"${positionals[0]}" is not understood here.`);
  if (values.groove === undefined) throw new UsageError("Name the groove: --groove ID.");
  if (values.to !== "mid") throw new UsageError(`--to ${values.to ?? ""}: a groove can be exported to mid.`);
  if (values.out === undefined) throw new UsageError("Name the file to write: --out FILE.");
  const fill = fillById(values.groove);
  const groove = fill ? inWholeBars(fill) : grooveById(values.groove);
  if (!groove) throw new UsageError(`--groove ${values.groove}: the catalogue has no such groove or fill.`);
  if (fill && values.bars !== undefined) {
    throw new UsageError(`--bars ${values.bars}: a fill is written once; leave --bars out.`);
  }

  const bars = readBars("--bars", values.bars) ?? groove.bars;
  const tempoBpm = readTempo("--bpm", values.bpm) ?? usualTempo(groove);
  const bytes = writeGrooveSmf(groove, { bars, tempoBpm, map: GENERAL_MIDI });
  try {
    await writeFile(values.out, bytes);
  } catch (cause) {
    outlet.complain(
      `${values.out}: the file cannot be written (${cause instanceof Error ? cause.message : cause}).`,
    );
    return false;
  }
  const done = { groove: groove.id, bars, tempo: tempoBpm, out: values.out };
  await outlet.line(
    values.json
      ? JSON.stringify(done)
      : `${groove.name}: ${bars === 1 ? "1 bar" : `${bars} bars`} at ${tempoBpm} a minute, written to ${values.out}.`,
  );
  return true;
}
