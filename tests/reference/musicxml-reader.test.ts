/**
 * MusicXML read by somebody else's program: LilyPond's converter reads it, LilyPond engraves it, and says how many notes it
 * has and where they stand. Any message on its standard error is a failure. Skipped where it is not installed.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../engine/catalogue/index.ts";
import { writeMusicXml } from "../../engine/formats/index.ts";
import { parseKitMap } from "../../engine/kit/index.ts";
import {
  type Groove,
  inWholeBars,
  parseGrid,
  staffPartOf,
  staffPlace,
  writeStaff,
} from "../../engine/score/index.ts";
import wideNinePiece from "../../kit-maps/wide-nine-piece.json" with { type: "json" };

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");
const isHere = ["musicxml2ly", "lilypond"].every(
  (program) => spawnSync(program, ["--version"], { encoding: "utf8" }).status === 0,
);
if (!isHere) {
  console.info("LilyPond is not installed (Debian package lilypond): MusicXML is not read back by it.");
}

const marked = parseGrid(`groove: marks
name: Every mark
metre: 4/4
tempo: 60-120
hi-hat-open   | x... .... X... .... | xxx xxx xxx xxx |
crash-left    | X... .... .... .... | .... |
snare         | ..fF ..dD g.gh ..e. | x.x.x |
hands         | ..RL ..RL R.LR ..L. | R.L.R |
hi-hat-pedal  | .... x... .... x... | x.x. |
kick          | x..x ..x. x.x. .... | xxxxxxxx |
`);

/** One of each metre, feel and length of the stock, all with ornaments, and one with every mark. */
const kinds = new Map(
  STYLES.flatMap(({ variants }) => variants).map((groove) => {
    const { numerator, denominator } = groove.metre;
    const ornate = groove.notes.some(({ ornament }) => ornament);
    return [`${numerator}/${denominator} ${groove.feel.kind} ${groove.bars} ${ornate}`, groove];
  }),
);
const scores: readonly { readonly name: string; readonly groove: Groove; readonly repeated: boolean }[] = [
  { name: "marks", groove: marked, repeated: true },
  ...[...kinds.values()].map((groove) => ({ name: groove.id, groove, repeated: true })),
  ...FILLS.filter(({ notes }) => notes.some(({ ornament }) => ornament))
    .slice(0, 4)
    .map((fill) => ({ name: `fill-${fill.id}`, groove: inWholeBars(fill), repeated: false })),
];

/** In LilyPond a note is a number from C, its octave counted from the one below middle C. */
const STEPS = "CDEFGAB";

/** The places of all notes of a groove, small notes too, as LilyPond counts them. */
function placesOf({ notes }: Groove): readonly string[] {
  return notes
    .flatMap(({ voice, ornament }) => {
      const { step, octave } = staffPlace(voice);
      const times = 1 + (ornament ? { flam: 1, drag: 2 }[ornament] : 0);
      return new Array<string>(times).fill(`${octave - 4} ${STEPS.indexOf(step)}`);
    })
    .sort();
}

/** Writes every note of the voices that a converted file defines to standard output. */
const COUNTING = `
#(define (strokes music)
   (append
     (if (eq? (ly:music-property music 'name) 'NoteEvent) (list music) '())
     (let ((element (ly:music-property music 'element))) (if (ly:music? element) (strokes element) '()))
     (append-map strokes (ly:music-property music 'elements))))
#(define (tell music)
   (for-each
     (lambda (note)
       (let ((pitch (ly:music-property note 'pitch)))
         (format #t "~a ~a\\n" (ly:pitch-octave pitch) (ly:pitch-notename pitch))))
     (strokes music)))
`;

/** Runs a program to its end, with whatever it says. */
function run(folder: string, program: string, ...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(program, args, {
    cwd: folder,
    encoding: "utf8",
    timeout: 240_000,
  });
  return { status, stdout, stderr };
}

/** The names of a groove's parts in a converted file. */
function partsOf(groove: Groove): readonly string[] {
  const parts = new Set(groove.notes.map(({ voice }) => staffPartOf(voice)));
  return [
    ...(parts.has("hands") ? ["PartPOneVoiceOne"] : []),
    ...(parts.has("feet") ? ["PartPOneVoiceTwo"] : []),
  ];
}

describe.skipIf(!isHere)("LilyPond", () => {
  const folder = mkdtempSync(join(tmpdir(), "throneside-musicxml-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  /** What each score was converted with, and what was told of all of them in one run. */
  const converted = new Map<string, ReturnType<typeof run>>();
  let told: ReturnType<typeof run> = { status: null, stdout: "", stderr: "not run" };

  beforeAll(() => {
    for (const { name, groove, repeated } of scores) {
      const xml = writeMusicXml([writeStaff(groove, { repeated })], { map: WIDE });
      writeFileSync(join(folder, `${name}.musicxml`), xml);
      converted.set(
        name,
        run(folder, "musicxml2ly", "--loglevel=WARN", `${name}.musicxml`, "-o", `${name}.ly`),
      );
    }
    const all = scores.map(({ name, groove }) => {
      const tell = partsOf(groove).map((part) => `(tell ${part})`);
      return `\\include "${name}.ly"\n#(begin (format #t "= ${name}\\n") ${tell.join(" ")})\n`;
    });
    writeFileSync(join(folder, "told.ly"), `\\version "2.24.1"\n${COUNTING}\n${all.join("")}`);
    told = run(folder, "lilypond", "--loglevel=WARN", "-o", "told", "told.ly");
  }, 300_000);

  test("scores of every kind are tried", () => {
    expect(scores.length).toBeGreaterThan(12);
  });

  test.each(scores)("$name is converted without a message", ({ name }) => {
    expect(converted.get(name)).toEqual({ status: 0, stdout: "", stderr: "" });
  });

  test("all are engraved without a message", () => {
    expect({ status: told.status, stderr: told.stderr }).toEqual({ status: 0, stderr: "" });
  });

  test.each(scores)("of $name every note is there, in its place", ({ name, groove }) => {
    const section = told.stdout.split("= ").find((text) => text.startsWith(`${name}\n`));
    expect(section?.trim().split("\n").slice(1).sort()).toEqual(placesOf(groove));
  });
});
