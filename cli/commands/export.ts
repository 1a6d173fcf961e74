import { basename } from "node:path";
import { STYLES } from "../../engine/catalogue/index.ts";
import { NoKeyError } from "../../engine/formats/index.ts";
import { catalogueStock } from "../../engine/listening/index.ts";
import { EXPORT_FORMATS, type Export, type ExportFormat, grooveExport, takeExport } from "../exports.ts";
import { readMap } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { readTake, TakeError } from "../takes.ts";
import { readArguments, readBars, readTempo } from "../usage.ts";
import { UsageError } from "../usageError.ts";
import { WriteError, writeWhole } from "../wholeFile.ts";

/** `export`: a groove or a fill as written, or a take written down, as a file of its own. */
export async function exportCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    groove: { type: "string" },
    take: { type: "string" },
    map: { type: "string" },
    bars: { type: "string" },
    bpm: { type: "string" },
    to: { type: "string" },
    out: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals[0] !== undefined) throw new UsageError(`"${positionals[0]}" is not understood here.`);
  if ((values.groove === undefined) === (values.take === undefined))
    throw new UsageError("Name what to export: either --groove ID or --take FILE.mid.");
  if (values.groove !== undefined && values.map !== undefined)
    throw new UsageError("--map says how a take's notes are named: leave it out with --groove.");
  const format = readFormat(values.to);
  const { out } = values;
  if (out === undefined) throw new UsageError("Name the file to write: --out FILE.");
  const asked = { bars: readBars("--bars", values.bars), bpm: readTempo("--bpm", values.bpm) };

  const source = values.take ?? values.groove ?? "";
  try {
    const exported =
      values.take === undefined
        ? grooveExport(source, asked)
        : takeExport(await readTake(source, readMap(values.map)), {
            ...asked,
            name: basename(source).replace(/\.midi?$/i, ""),
            stock: catalogueStock(STYLES),
            format,
          });
    await writeWhole(out, exported.content(format));
    for (const remark of exported.remarks) outlet.complain(`${source}: ${remark}`);
    const what = values.take === undefined ? "groove" : "take";
    await outlet.line(
      values.json
        ? JSON.stringify({ [what]: source, bars: exported.bars, tempo: rounded(exported.tempoBpm), out })
        : `${said(exported)}, written to ${out}.`,
    );
    return true;
  } catch (error) {
    if (error instanceof WriteError) outlet.complain(`${out}: ${error.message}`);
    else if (error instanceof TakeError || error instanceof NoKeyError)
      outlet.complain(`${source}: ${error.message}`);
    else throw error;
    return false;
  }
}

function readFormat(value: string | undefined): ExportFormat {
  const format = EXPORT_FORMATS.find((known) => known === value);
  if (format) return format;
  if (value === undefined) throw new UsageError(`Say what to write: --to ${EXPORT_FORMATS.join(", ")}.`);
  throw new UsageError(`--to ${value}: say one of ${EXPORT_FORMATS.join(", ")}.`);
}

function rounded(tempoBpm: number): number {
  return Math.round(tempoBpm * 100) / 100;
}

function said({ name, bars, tempoBpm }: Export): string {
  if (bars === 0) return name;
  return `${name}: ${bars === 1 ? "1 bar" : `${bars} bars`} at ${rounded(tempoBpm)} a minute`;
}
