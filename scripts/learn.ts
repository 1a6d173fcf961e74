/**
 * Learns what listening knows of grooves in general (engine/listening/bar-templates.json) from human takes: their bars, and
 * how to read which bar is played.
 *
 *     npx vite build --mode learn && node dist/scripts/learn.js DATASET [--without drummer7,drummer9] [--from FILE] [--out FILE]
 *
 * With --from the bars and the reading learnt before are kept, and only the naming is learnt anew.
 * DATASET is a folder laid out as the Groove MIDI Dataset v1.0.0. A player's own takes are read with bars learnt from all
 * the others, as they will be when somebody new plays.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { readBackground } from "../engine/listening/learning.ts";
import { seededChance } from "../engine/units/index.ts";
import { type LearntBar, learnBars } from "./learn/bars.ts";
import { FREE_IN_NAMING, namingQuestions } from "./learn/naming.ts";
import { readingQuestions } from "./learn/reading.ts";
import { learnWeights } from "./learn/regression.ts";
import { type Take, takesOf } from "./learn/takes.ts";

/** What is learnt before the naming. */
interface Learnt {
  readonly components: readonly LearntBar[];
  readonly reading: readonly number[];
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    without: { type: "string", default: "" },
    from: { type: "string" },
    out: { type: "string", default: "engine/listening/bar-templates.json" },
  },
});
const dataset = positionals[0];
if (!dataset) throw new Error("Say where the dataset is: node dist/scripts/learn.js DATASET");

const without = new Set(values.without.split(","));
const takes = takesOf(dataset).filter(({ drummer }) => !without.has(drummer));
const drummers = [...new Set(takes.map(({ drummer }) => drummer))].sort();
const { components, reading } = values.from === undefined ? learnReading() : keptFrom(values.from);

const namings = groupsOf(takes).flatMap((group, index) => {
  const general = readBackground({
    components: learnBars(takes.filter((take) => !group.includes(take))),
    reading,
    naming: [],
  });
  const asked = namingQuestions(group, general, seededChance(100 + index));
  console.log(`Group ${index + 1}, ${group.length} takes: ${asked.length} questions of naming.`);
  return asked;
});
const naming = learnWeights(namings, FREE_IN_NAMING);
writeFileSync(values.out, `${JSON.stringify({ components, reading, naming })}\n`);
console.log(
  `${naming.length} weights of naming learnt from ${namings.length} questions; written to ${values.out}.`,
);

/** Players with enough takes to fill a shelf by themselves, and all others together. */
function groupsOf(all: readonly Take[]): readonly (readonly Take[])[] {
  const enough = 25;
  const byDrummer = drummers.map((drummer) => all.filter((take) => take.drummer === drummer));
  const others = byDrummer.filter(({ length }) => length < enough).flat();
  return [...byDrummer.filter(({ length }) => length >= enough), others].filter(({ length }) => length > 0);
}

function learnReading(): Learnt {
  const bars = learnBars(takes);
  console.log(`${bars.length} bars learnt from ${takes.length} takes.`);
  const stretches = drummers.flatMap((drummer, index) => {
    const others = learnBars(takes.filter((take) => take.drummer !== drummer));
    const general = readBackground({ components: others, reading: [], naming: [] });
    const asked = readingQuestions(
      takes.filter((take) => take.drummer === drummer),
      general,
      index,
    );
    console.log(`${drummer}: ${asked.length} stretches.`);
    return asked;
  });
  const weights = learnWeights(stretches, [0]);
  console.log(`${weights.length} weights of reading learnt from ${stretches.length} stretches.`);
  return { components: bars, reading: weights };
}

function keptFrom(path: string): Learnt {
  const kept = JSON.parse(readFileSync(path, "utf8"));
  readBackground(kept);
  return kept;
}
