import type { Hit } from "../../engine/kit/index.ts";
import { beatsPerBar, FOUR_FOUR } from "../../engine/score/index.ts";
import {
  AIMS,
  type Aim,
  type Comparison,
  compareAnswer,
  type Finish,
  type FreeAnswer,
  type LoneStroke,
  type PhraseDistances,
  phraseDistances,
  type TurnSpan,
  verdictOn,
} from "../../engine/trading/index.ts";
import { beatSeconds } from "../../engine/units/index.ts";
import { rounded } from "../heard.ts";
import { readLevel } from "../level.ts";
import { readMap } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { readTake, TakeError, type TakeFile } from "../takes.ts";
import { fileTarget } from "../target.ts";
import { readArguments, readTempo } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `compare`: an answer beside its call. */
export async function compareCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    call: { type: "string" },
    answer: { type: "string" },
    aim: { type: "string" },
    click: { type: "string" },
    level: { type: "string", default: "steady" },
    map: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals.length > 0)
    throw new UsageError(`"${positionals[0]}" is not understood here: name files with --call and --answer.`);
  const callPath = needFile("--call", values.call);
  const answerPath = needFile("--answer", values.answer);
  const aim = readAim(values.aim);
  const level = readLevel(values.level);
  const map = readMap(values.map);
  const clickBpm = readTempo("--click", values.click);
  const said = { call: callPath, answer: answerPath, aim };
  const failed = async (path: string, error: unknown): Promise<boolean> => {
    if (!(error instanceof TakeError)) throw error;
    outlet.complain(`${path}: ${error.message}`);
    if (values.json) await outlet.line(JSON.stringify({ ...said, error: `${path}: ${error.message}` }));
    return false;
  };
  let call: TakeFile;
  let answer: TakeFile;
  try {
    call = await readTake(callPath, map);
  } catch (error) {
    return failed(callPath, error);
  }
  try {
    answer = await readTake(answerPath, map);
  } catch (error) {
    return failed(answerPath, error);
  }
  const turn = turnOf(callPath, call, clickBpm);
  const comparison = compareAnswer(call.hits, answer.hits, { level, tempoBpm: turn.tempoBpm });
  const distances = phraseDistances(call.hits, answer.hits, comparison.transposition, turn.tempoBpm);
  const verdict = verdictOn(aim, comparison, {
    call: { hits: call.hits, turn },
    answer: { hits: answer.hits, turn: { ...turnOf(answerPath, answer, clickBpm), bars: turn.bars } },
    level,
  });
  await outlet.line(
    values.json
      ? JSON.stringify({
          ...said,
          holds: verdict.met,
          ...comparisonJson(comparison, call.hits, answer.hits),
          distances: distancesJson(distances),
          answered: verdict.answered && freeJson(verdict.answered),
          ...(verdict.finish ? { finish: finishJson(verdict.finish) } : {}),
          words: verdict.says.join(" "),
        })
      : [answerPath, ...verdict.says, distanceWords(distances)].join("\n  "),
  );
  return true;
}

function needFile(option: string, path: string | undefined): string {
  if (path === undefined) throw new UsageError(`${option} is missing: name a MIDI file.`);
  return path;
}

function readAim(text: string | undefined): Aim {
  const aim = AIMS.find((known) => known === text);
  if (!aim)
    throw new UsageError(
      text === undefined
        ? `--aim is missing: say one of ${AIMS.join(", ")}.`
        : `--aim ${text}: say one of ${AIMS.join(", ")}.`,
    );
  return aim;
}

/** The turn a file holds: from its time 0, in its own tempo and metre, as many whole bars as it has strokes in. */
function turnOf(name: string, take: TakeFile, clickBpm: number | undefined): TurnSpan {
  const { tempoBpm, metre } = fileTarget(name, take, clickBpm);
  const bar = beatsPerBar(metre ?? FOUR_FOUR) * beatSeconds(tempoBpm);
  const last = take.hits.at(-1)?.time ?? 0;
  // A stroke on the one after the last bar lands; it is not another bar.
  const bars = Math.max(1, Math.ceil(last / bar - 1 / 16));
  return { from: 0, bars, tempoBpm, metre };
}

function comparisonJson(comparison: Comparison, call: readonly Hit[], answer: readonly Hit[]): object {
  const { rhythm, sound, touch, missed, added, pairs, transposition, spreadMs } = comparison;
  const lone = (hits: readonly Hit[]) => (stroke: LoneStroke) => ({
    ...stroke,
    time: rounded(stroke.time),
    note: hits[stroke.index]?.pad,
  });
  return {
    rhythm: {
      holds: rhythm.holds,
      offsetsMs: rhythm.offsetsMs.map(rounded),
      moved: rhythm.moved.map(({ index, offsetMs }) => ({ index, offsetMs: rounded(offsetMs) })),
    },
    sound,
    touch,
    missed: missed.map(lone(call)),
    added: added.map(lone(answer)),
    pairs: pairs.map((pair) => ({ ...pair, offsetMs: rounded(pair.offsetMs) })),
    tempo: transposition
      ? { start: rounded(transposition.start), stretch: rounded(transposition.stretch) }
      : null,
    spreadMs: spreadMs === null ? null : rounded(spreadMs),
  };
}

function distancesJson(distances: PhraseDistances): object {
  return Object.fromEntries(
    Object.entries(distances).map(([name, value]: [string, number | null]) => [
      name,
      value === null ? null : rounded(value),
    ]),
  );
}

function freeJson(free: FreeAnswer): object {
  return {
    ...free,
    landingMs: free.landingMs === null ? null : rounded(free.landingMs),
    spaceLeft: rounded(free.spaceLeft),
    density: rounded(free.density),
    materialShared: rounded(free.materialShared),
  };
}

function finishJson({ leftOpenBeats, takenUpBeats, takenUp }: Finish): object {
  const beats = (value: number | null): number | null => (value === null ? null : rounded(value));
  return { leftOpenBeats: beats(leftOpenBeats), takenUpBeats: beats(takenUpBeats), takenUp };
}

function distanceWords({ pulses, hamming, edit, swap, chronotonic }: PhraseDistances): string {
  return `On ${pulses} pulses: Hamming ${hamming}, edit ${edit}, swap ${swap ?? "-"}, chronotonic ${chronotonic ?? "-"}.`;
}
