import { grooveById } from "../../engine/catalogue/index.ts";
import {
  driftWords,
  dynamicsWords,
  formWords,
  gradeTake,
  HEARD_APART_MS,
  hiHatWords,
  leanWords,
  ornamentWords,
  type Report,
  unisonWords,
  wanderWords,
  workOnWords,
} from "../../engine/grading/index.ts";
import type { KitMap } from "../../engine/kit/index.ts";
import { pulseOfGroove } from "../../engine/listening/index.ts";
import { besideGroove } from "../../engine/rounds/index.ts";
import type { Groove, Level } from "../../engine/score/index.ts";
import { readLevel } from "../level.ts";
import { readMap } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { reportJson } from "../reportJson.ts";
import { forEachTake, readTake, TakeError, type TakeFile, withoutRetriggers } from "../takes.ts";
import { fileTarget } from "../target.ts";
import { needTakes, readArguments, readTempo } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `grade`: each take against a file or a groove. */
export async function gradeCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    target: { type: "string" },
    groove: { type: "string" },
    click: { type: "string" },
    "free-start": { type: "boolean", default: false },
    level: { type: "string", default: "steady" },
    map: { type: "string" },
    json: { type: "boolean", default: false },
  });
  const takes = needTakes(positionals);
  const level = readLevel(values.level);
  const map = readMap(values.map);
  const clickBpm = readTempo("--click", values.click);
  const start = values["free-start"] ? "free" : "shared";
  const grade = await chosen(values, { map, clickBpm, start, level });
  return forEachTake(takes, { map, json: values.json, outlet }, (take) => {
    const report = grade(take);
    return { json: reportJson(report), text: asText(report) };
  });
}

interface How {
  readonly map: KitMap;
  readonly clickBpm: number | undefined;
  readonly start: "shared" | "free";
  readonly level: Level;
}

async function chosen(
  values: { readonly target?: string | undefined; readonly groove?: string | undefined },
  how: How,
): Promise<(take: TakeFile) => Report> {
  if ((values.target === undefined) === (values.groove === undefined)) {
    throw new UsageError("Say either --target FILE.mid or --groove ID.");
  }
  if (values.groove !== undefined) {
    const groove = grooveById(values.groove);
    if (!groove) throw new UsageError(`--groove ${values.groove}: the catalogue has no such groove.`);
    return (take) => againstGroove(groove, take, how);
  }
  const path = values.target ?? "";
  try {
    const target = fileTarget(path, await readTake(path, how.map), how.clickBpm);
    return (take) => gradeTake(take.hits, target, { start: how.start, level: how.level });
  } catch (error) {
    if (error instanceof TakeError)
      throw new UsageError(`--target ${path}: ${error.message}`, { cause: error });
    throw error;
  }
}

/** With a click the groove begins at time 0 at its tempo; without one, tempo and start are found by listening. */
function againstGroove(groove: Groove, take: TakeFile, { clickBpm, start, level }: How): Report {
  const tempoBpm = clickBpm ?? heardTempo(groove, take);
  const click = clickBpm !== undefined && start === "shared" ? { tempoBpm, from: 0 } : null;
  return besideGroove(take.hits, groove, { tempoBpm, click, level });
}

function heardTempo(groove: Groove, take: TakeFile): number {
  const pulse = pulseOfGroove(withoutRetriggers(take.hits), groove);
  if (!pulse) throw new TakeError("Too little was played to hear a tempo in it; say it with --click BPM.");
  return pulse.tempoBpm;
}

function asText(report: Report): string {
  const figures = [
    report.leanMs === null ? undefined : `lean ${report.leanMs.toFixed(1)} ms`,
    report.spreadMs === null ? undefined : `spread ${report.spreadMs.toFixed(1)} ms`,
    report.voiceAccuracy === null
      ? undefined
      : `${Math.round(report.voiceAccuracy * 100)} in 100 on the voice written`,
  ].filter((figure) => figure !== undefined);
  const beats = report.perBeat.map(
    ({ beat, count, leanMs, spreadMs }) =>
      `    beat ${beat}: ${count} strokes, lean ${leanMs?.toFixed(1) ?? "-"} ms, spread ${spreadMs?.toFixed(1) ?? "-"} ms`,
  );
  return [
    `  ${figures.join(", ") || "nothing matched"}.`,
    ...beats,
    ...[leanWords(report), driftWords(report), ...figuresWords(report), workOnLine(report)].map(
      (said) => `  ${said}`,
    ),
  ].join("\n");
}

/** A line for each figure that has something to say. */
function figuresWords(report: Report): readonly string[] {
  return [
    ...report.form.slips.map(formWords),
    ...report.unisons.filter(isToldOfUnison).map(unisonWords),
    ...report.ornaments.map(ornamentWords),
    ...report.dynamics.map(dynamicsWords),
    report.hiHat && hiHatWords(report.hiHat),
    wanderWords(report.wander),
  ].flatMap((said) => said ?? []);
}

/** The pair of limbs that meets most, and others only when they are heard apart. */
function isToldOfUnison({ gapMs }: Report["unisons"][number], at: number): boolean {
  return at === 0 || Math.abs(gapMs) > HEARD_APART_MS;
}

function workOnLine({ workOn, workOnPlace }: Report): string {
  const words = workOnWords(workOn);
  if (!workOnPlace || workOn.kind === "form") return words;
  return `${words} (It shows best in bar ${workOnPlace.bar}, beat ${workOnPlace.beat}.)`;
}
