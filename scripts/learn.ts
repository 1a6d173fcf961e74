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
import { readBackground, type Tree } from "../engine/listening/learning.ts";
import { seededChance } from "../engine/units/index.ts";
import { type LearntBar, learnBars } from "./learn/bars.ts";
import { type Boosting, learnTrees } from "./learn/boosting.ts";
import { catalogueTakes } from "./learn/catalogueTakes.ts";
import { FREE_IN_NAMING, namingQuestions } from "./learn/naming.ts";
import { readingQuestions } from "./learn/reading.ts";
import { type Learning, learnWeights } from "./learn/regression.ts";
import { type Take, takesOf } from "./learn/takes.ts";

const NONE_YET = { asWritten: [], byTakes: [] };

/** What is learnt before the naming. */
interface Learnt {
  readonly components: readonly LearntBar[];
  readonly reading: readonly Tree[];
}

const CATALOGUE_SEED = 11;
const TREES_SEED = 5;
/** Tuned on drummers 1 to 6, left out in lots. */
const READING: Boosting = {
  trees: 300,
  ends: 15,
  fewest: 70,
  step: 0.05,
  ridge: 10,
  features: 0.5,
  questions: 0.4,
};
/** Tuned on drummers left out: players differ more than the features show. */
const NAMING_AS_WRITTEN: Learning = { ridge: 0.02, apart: 2.5 };
const NAMING_BY_TAKES: Learning = { ridge: 0.001, apart: 4 };

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
const isLearntFrom = ({ drummer }: Take): boolean => !without.has(drummer);
const takes = takesOf(dataset).filter(isLearntFrom);
const fills = takesOf(dataset, "fill").filter(isLearntFrom);
const drummers = [...new Set(takes.map(({ drummer }) => drummer))].sort();
const { components, reading } = values.from === undefined ? learnReading() : keptFrom(values.from);

const asked = groupsOf(takes).map((group, index) => {
  const general = readBackground({
    components: learnBars(takes.filter((take) => !group.includes(take))),
    reading,
    naming: NONE_YET,
  });
  const questions = namingQuestions(group, fills, general, seededChance(100 + index));
  console.log(
    `Group ${index + 1}, ${group.length} takes: of naming ${questions.asWritten.length} questions as written, ${questions.byTakes.length} by takes.`,
  );
  return questions;
});
const naming = {
  asWritten: learnWeights(
    asked.flatMap(({ asWritten }) => asWritten),
    FREE_IN_NAMING,
    NAMING_AS_WRITTEN,
  ),
  byTakes: learnWeights(
    asked.flatMap(({ byTakes }) => byTakes),
    FREE_IN_NAMING,
    NAMING_BY_TAKES,
  ),
};
writeFileSync(values.out, `${JSON.stringify({ components, reading, naming })}\n`);
console.log(`The weights of naming are learnt; written to ${values.out}.`);

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
    const general = readBackground({ components: others, reading: [], naming: NONE_YET });
    const asked = readingQuestions(
      takes.filter((take) => take.drummer === drummer),
      general,
      index,
    );
    console.log(`${drummer}: ${asked.length} stretches.`);
    return asked;
  });
  const ofTheCatalogue = readingQuestions(
    catalogueTakes(seededChance(CATALOGUE_SEED)),
    readBackground({ components: bars, reading: [], naming: NONE_YET }),
    CATALOGUE_SEED,
  );
  const questions = [...stretches, ...ofTheCatalogue];
  const trees = learnTrees(questions, READING, seededChance(TREES_SEED));
  console.log(
    `${trees.length} trees of reading learnt from ${stretches.length} stretches people played and ${ofTheCatalogue.length} of the catalogue.`,
  );
  return { components: bars, reading: trees };
}

function keptFrom(path: string): Learnt {
  const kept = JSON.parse(readFileSync(path, "utf8"));
  readBackground(kept);
  return kept;
}
