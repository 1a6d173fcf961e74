import { z } from "zod";
import { RUDIMENTS, type Rudiment, rudimentById } from "../../engine/catalogue/index.ts";
import type { KitMap } from "../../engine/kit/index.ts";
import { checkSticking, StickingError, type StickingReport } from "../../engine/recall/index.ts";
import type { NoteNumber } from "../../engine/units/index.ts";
import type { Outlet } from "../outlet.ts";
import { forEachTake, TakeError, withoutRetriggers } from "../takes.ts";
import { needTakes, readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `sticking`: each take, played on two surfaces, against a rudiment. */
export async function stickingCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    rudiment: { type: "string" },
    left: { type: "string" },
    right: { type: "string" },
    json: { type: "boolean", default: false },
  });
  const takes = needTakes(positionals);
  const rudiment = readRudiment(values.rudiment);
  const left = readNote("--left", values.left);
  const right = readNote("--right", values.right);
  if (left === right)
    throw new UsageError(
      "--left and --right are one note: on one surface it cannot be told which hand struck. Give each hand its own.",
    );
  return forEachTake(takes, { map: twoSurfaces(left, right), json: values.json, outlet }, ({ hits }) => {
    const struck = withoutRetriggers(hits.filter(({ pad }) => pad === left || pad === right));
    if (struck.length === 0) throw new TakeError(`The file holds no strike of note ${left} or ${right}.`);
    const played = struck.map(({ time, pad, velocity }) => ({
      time,
      hand: pad === left ? ("L" as const) : ("R" as const),
      velocity,
    }));
    const report = checked(rudiment, played);
    const json = { ...report, rudiment: rudiment.id, rudimentId: undefined };
    return { json, text: asText(rudiment, report) };
  });
}

/** @throws TakeError where nothing can be said of it. */
function checked(rudiment: Rudiment, played: Parameters<typeof checkSticking>[1]): StickingReport {
  try {
    return checkSticking(rudiment, played);
  } catch (cause) {
    if (cause instanceof StickingError) throw new TakeError(cause.message, { cause });
    throw cause;
  }
}

function readRudiment(id: string | undefined): Rudiment {
  if (id === undefined) throw new UsageError("Name a rudiment with --rudiment, as in --rudiment flam-tap.");
  const rudiment = rudimentById(id) ?? RUDIMENTS.find(({ number }) => String(number) === id);
  if (!rudiment)
    throw new UsageError(
      `--rudiment ${id}: there is no such rudiment; catalogue --kind rudiment lists them.`,
    );
  return rudiment;
}

const note = z.coerce.number().int().min(0).max(127);

function readNote(option: string, value: string | undefined): NoteNumber {
  if (value === undefined) throw new UsageError(`${option} is missing: say which note that hand strikes.`);
  const read = note.safeParse(value.trim() === "" ? Number.NaN : value);
  if (!read.success) throw new UsageError(`${option} ${value}: this must be a MIDI note from 0 to 127.`);
  return read.data;
}

/** A kit of nothing but the two surfaces: whatever else the file holds is not heard. */
function twoSurfaces(left: NoteNumber, right: NoteNumber): KitMap {
  return {
    id: "two-surfaces",
    name: "Two surfaces",
    source: "the command line",
    hiHat: { controller: 4, shutAt: 127, openAt: 0 },
    pads: [left, right].map((note) => ({ note, voice: "snare" as const, zone: "whole" as const })),
  };
}

function asText(rudiment: Rudiment, report: StickingReport): string {
  const { strokes, evenness, accents, graces, secondStrokes, tempo } = report;
  const count = (state: StickingReport["strokes"][number]["state"]) =>
    strokes.filter((stroke) => stroke.state === state).length;
  const written = strokes.filter(({ expectedHand }) => expectedHand !== null).length;
  const slips = strokes
    .filter(({ state }) => state !== "as written" && state !== "bounce")
    .map(
      ({ time, hand, expectedHand, state, cycle }) =>
        `    ${time.toFixed(3)} s${cycle === null ? "" : `, time ${cycle} through`}: ${state}${
          state === "other hand" ? ` (${hand} for ${expectedHand})` : ` (${hand ?? expectedHand})`
        }`,
    );
  return [
    `  ${rudiment.name}${report.mirrored ? ", begun with the other hand" : ""}: ${count("as written")} of ${written} strokes by the hand written, ${count("other hand")} by the other, ${count("left out")} left out, ${count("added")} added.`,
    ...slips,
    ...(evenness.spreadMs === null
      ? []
      : [`  Intervals: spread ${evenness.spreadMs.toFixed(1)} ms.${leftWords(evenness)}`]),
    ...(accents
      ? [`  Accents: ${accents.heard} of ${accents.written} heard, ${accents.elsewhere} elsewhere.`]
      : []),
    ...(graces
      ? [
          `  Grace strokes: gap ${graces.gapMs?.toFixed(1) ?? "-"} ms; ${graces.asWritten} of ${graces.count} ${graces.ornament}s as written, ${graces.tooTight} too tight, ${graces.tooOpen} too open, ${graces.missing} without.`,
        ]
      : []),
    ...(secondStrokes
      ? [
          `  Second strokes of doubles: ${(["R", "L"] as const)
            .flatMap((hand) => {
              const strength = secondStrokes.strength[hand];
              return strength === null ? [] : [`${hand} ${Math.round(strength * 100)} in 100 of the first`];
            })
            .join(", ")}.`,
        ]
      : []),
    ...(tempo
      ? [
          `  Tempo: ${tempo.shape}, ${Math.round(tempo.startBpm)}, ${Math.round(tempo.fastestBpm)} at its fastest, ${Math.round(tempo.endBpm)} at the end.`,
        ]
      : []),
  ].join("\n");
}

function leftWords({ leftLaterMs, leftIsHeard }: StickingReport["evenness"]): string {
  if (leftLaterMs === null || !leftIsHeard) return "";
  const later = leftLaterMs > 0;
  return ` The left hand comes ${Math.abs(leftLaterMs).toFixed(1)} ms ${later ? "later" : "sooner"} than the right.`;
}
