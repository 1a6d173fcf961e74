import { type ParseArgsConfig, parseArgs } from "node:util";
import { z } from "zod";
import { KIT_MAPS } from "./maps.ts";
import { UsageError } from "./usageError.ts";

export const USAGE = `Throneside on the command line

  identify  [--shelf DIR] [--own DIR] [--click BPM] [--map ID] [--json] TAKE.mid ...
            which groove each take is: of the catalogue, or of the shelf in DIR, where each
            MIDI file is a groove and each folder is a groove with several reference takes;
            --own names a folder of the player's earlier takes, laid out as a shelf: a file or
            folder named as a style of the catalogue or a groove of the shelf (rock-eighths.mid)
            joins it, so that it is also known as this player has it; others are grooves of
            their own; of each the last three takes count, by their names
  identify  --stream [--shelf DIR] [--own DIR] [--map ID]
            what is being played, while it is played: hits come in on standard input, one JSON
            object a line, {"time": 1.25, "note": 38, "velocity": 96} or with "voice": "snare" in
            place of the note; time in seconds, velocity from 1 to 127. A hearing goes out a beat,
            and a last one with "final": true
  listen    [--click BPM] [--map ID] [--json] TAKE.mid ...
            tempo, metre, beats and downbeats of each take, without a click
  grade     (--target FILE.mid | --groove ID) [--click BPM] [--free-start] [--level LEVEL]
            [--map ID] [--json] TAKE.mid ...
            each take against what is written, both from their time 0, or with --free-start from
            where the take begins; --groove without --click finds tempo and start by listening
  catalogue [--kind style|fill|rudiment] [--json]
            the studio's stock of styles, fills and rudiments, or of one kind
  export    (--groove ID | --take FILE.mid [--map ID]) [--bars N] [--bpm T]
            --to mid|musicxml|csv|svg --out FILE
            a groove as written, or a fill, once in its bars; or a take, written down as it is
            heard: a MIDI file with General MIDI notes, MusicXML 4.0 for notation programs, a
            staff as a picture, or a table: one line a written stroke, of a take one line a hit
  recall    --list rudiments [--json]
            one name a line on standard input, as spoken or typed: which of the forty it is, or
            that it came before, or that it is not one of them
  sticking  --rudiment ID --left NOTE --right NOTE [--json] TAKE.mid ...
            each take, a rudiment played on two surfaces, hand by hand: strokes by the other hand,
            left out and added, evenness, accents, grace strokes, second strokes of doubles, tempo
  compare   --call CALL.mid --answer ANSWER.mid --aim echo|move-one|finish|answer [--click BPM]
            [--level LEVEL] [--map ID] [--json]
            an answer beside its call, wherever it begins and at whatever tempo: whether the rhythm
            holds and whether the sound does, what was moved, missed and added, and distances of
            the literature; strokes are counted from 0 in each file
  syllables --enrol DIR [--json] FILE.wav ...
            which syllables are said in each recording, and when; DIR holds one folder a syllable,
            named as it, with WAV files of it, some five each by the same voice; noise, clipping,
            music and silence are told with exit code 1, not guessed through
  bench     [--json]
            what the engine costs on this machine, and how often it names a style; half a minute

  --click BPM  a click at this tempo sounded from time 0 of the take
  --level L    whose band: first-year, second-year, steady (unless said) or working
  --map ID     how the take's notes are named:
               ${KIT_MAPS.map(({ id }) => id).join(", ")}
  --json       JSON Lines: one object a take, in order
  --help       this text

  Times are seconds from the start of the file.
  Offsets are milliseconds: positive is behind, negative ahead.
  Exit code 1 when a take or a line could not be read (the others are still done),
  2 when the command was not understood.
`;

/** Reads a command's arguments. @throws UsageError naming the argument that is not understood. */
export function readArguments<const O extends NonNullable<ParseArgsConfig["options"]>>(
  args: readonly string[],
  options: O,
): ReturnType<typeof parseArgs<{ options: O; allowPositionals: true }>> {
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true });
  } catch (cause) {
    throw new UsageError(reasonOf(cause), { cause });
  }
}

/** One line of what Node's own reader of arguments says in several. */
function reasonOf(cause: unknown): string {
  const message = cause instanceof Error ? cause.message : String(cause);
  const option = /^Option '(?:-\w, )?(--[\w-]+).*' argument is ambiguous/.exec(message)?.[1];
  if (option) return `${option}: its value is missing (one that begins with a dash is written ${option}=-1).`;
  return `${(message.split(/\. |\n/)[0] ?? "").replace(/\.$/, "")}.`;
}

const tempo = z.coerce.number().min(20).max(400);
const bars = z.coerce.number().int().min(1).max(10_000);

/** A tempo option. @throws UsageError when it is not a tempo from 20 to 400. */
export function readTempo(option: string, value: string | undefined): number | undefined {
  return readNumber(option, value, tempo, "a tempo from 20 to 400 beats a minute");
}

/** A number of bars. @throws UsageError when it is not a whole number from 1 to 10000. */
export function readBars(option: string, value: string | undefined): number | undefined {
  return readNumber(option, value, bars, "a whole number of bars from 1 to 10000");
}

function readNumber(
  option: string,
  value: string | undefined,
  schema: z.ZodType<number>,
  expected: string,
): number | undefined {
  if (value === undefined) return undefined;
  const result = schema.safeParse(value.trim() === "" ? Number.NaN : value);
  if (!result.success) throw new UsageError(`${option} ${value}: this must be ${expected}.`);
  return result.data;
}

/** At least one take. @throws UsageError when there is none. */
export function needTakes(positionals: readonly string[]): readonly string[] {
  if (positionals.length === 0) throw new UsageError("Name at least one take, a MIDI file.");
  return positionals;
}
