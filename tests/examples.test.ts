/**
 * The examples in the docstrings of the engine are run: what they say comes out must come out.
 *
 * An example is a few lines of code under `@example`. A line ending in `// => value`, or followed by a line
 * `// => value`, is an expectation; other lines are run for what they set up. It sees all that the engine's folders
 * export, all its own file exports, and the names given in `given` below.
 */
import { describe, expect, test } from "vitest";
import { grooveById, STYLES } from "../engine/catalogue/index.ts";
import { gradeTake, grooveTarget, type VoiceFigures } from "../engine/grading/index.ts";
import { parseKitMap } from "../engine/kit/index.ts";
import { catalogueStock } from "../engine/listening/index.ts";
import wideNinePiece from "../kit-maps/wide-nine-piece.json" with { type: "json" };
import { played } from "./engine/grading/takes.ts";

const sources = import.meta.glob<string>("../engine/**/*.ts", {
  query: "?raw",
  import: "default",
  eager: true,
});
const modules = import.meta.glob<Readonly<Record<string, unknown>>>("../engine/**/*.ts", { eager: true });

/** What examples may speak of without making it: a groove played four bars long, steadily, 4.2 ms behind. */
function given(): Readonly<Record<string, unknown>> {
  const groove = grooveById("rock-eighths");
  if (!groove) throw new Error("The stock has no rock-eighths.");
  const target = grooveTarget(groove, { tempoBpm: 100, bars: 4 });
  const hits = played(target, ({ time }) => time + 0.0042);
  const behind = played(target, ({ time }) => time + 0.02);
  const figures: Partial<VoiceFigures> = {
    asWritten: 6,
    otherSound: [{ voice: "mid-tom", count: 1 }],
    leftOut: 1,
    added: 0,
  };
  return {
    groove,
    target,
    hits,
    hit: hits[0],
    notes: target.notes,
    figures,
    report: gradeTake(behind, target, { start: "shared" }),
    map: parseKitMap(wideNinePiece, "wide-nine-piece.json"),
    stock: catalogueStock(STYLES),
  };
}

interface Example {
  /** File and line of the `@example`. */
  readonly where: string;
  readonly path: string;
  readonly lines: readonly string[];
}

function examplesOf(path: string, source: string): readonly Example[] {
  const lines = source.split("\n");
  return lines.flatMap((line, index) => {
    if (!/^\s*\* @example/.test(line)) return [];
    const rest = lines.slice(index + 1);
    const end = rest.findIndex((each) => /^\s*\*\/|^\s*\* @/.test(each));
    const body = rest.slice(0, end).map((each) => each.replace(/^\s*\* ?/, ""));
    return [{ where: `${path.replace("../", "")}:${index + 1}`, path, lines: body }];
  });
}

interface Step {
  readonly code: string;
  /** The text of the value that is to come out, where the line says one. */
  readonly expected?: string;
}

function stepsOf(lines: readonly string[]): readonly Step[] {
  const steps: Step[] = [];
  for (const line of lines) {
    const [before = "", expected] = line.split("// =>");
    const code = before.trim();
    if (code === "" && expected !== undefined) {
      const last = steps.pop();
      if (last) steps.push({ ...last, expected: expected.trim() });
    } else if (code !== "") {
      steps.push(expected === undefined ? { code } : { code, expected: expected.trim() });
    }
  }
  return steps;
}

/** Runs the steps in one scope; gives each expectation's value with the value said. */
function outcomes(
  example: Example,
): readonly { readonly code: string; readonly said: unknown; readonly came: unknown }[] {
  const indexes = Object.entries(modules).filter(([path]) => path.endsWith("/index.ts"));
  const scope: Readonly<Record<string, unknown>> = {
    ...Object.assign({}, ...indexes.map(([, exported]) => exported)),
    ...modules[example.path],
    ...given(),
  };
  const body = stepsOf(example.lines).map(({ code, expected }) =>
    expected === undefined
      ? code
      : `outcomes.push({ code: ${JSON.stringify(code)}, came: (${code.replace(/;$/, "")}), said: (${expected}) });`,
  );
  const found: { code: string; said: unknown; came: unknown }[] = [];
  const run = new Function("outcomes", ...Object.keys(scope), body.join("\n"));
  run(found, ...Object.values(scope));
  return found;
}

/** The value with its numbers rounded to nine places: 4.2 milliseconds are 4.2, whatever the last bit says. */
function rounded(value: unknown): unknown {
  if (typeof value === "number") return Number(value.toFixed(9));
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, rounded(part)]));
}

const examples = Object.entries(sources).flatMap(([path, source]) => examplesOf(path, source));

test("there are examples, in most folders of the engine", () => {
  expect(examples.length).toBeGreaterThanOrEqual(30);
  const folders = new Set(examples.map(({ path }) => path.split("/")[2]));
  for (const folder of ["units", "kit", "score", "catalogue", "grading", "listening"]) {
    expect([...folders]).toContain(folder);
  }
});

describe("what an example says comes out", () => {
  test.each(examples)("$where", (example) => {
    const found = outcomes(example);
    expect(found.length, "An example must say what comes out: `expression // => value`.").toBeGreaterThan(0);
    for (const { code, said, came } of found) expect(rounded(came), code).toEqual(rounded(said));
  });
});

describe("the reader of examples", () => {
  const example = (...lines: string[]): Example => ({
    where: "here",
    path: "../engine/units/time.ts",
    lines,
  });

  test("finds them in a docstring, up to the next tag or its end", () => {
    const source = [
      "/**",
      " * @example",
      " * a() // => 1",
      " * @throws never",
      " */",
      "/**",
      " * @example",
      " * b(",
      " * ) // => 2",
      " */",
    ];
    expect(examplesOf("../engine/x.ts", source.join("\n")).map(({ where, lines }) => [where, lines])).toEqual(
      [
        ["engine/x.ts:2", ["a() // => 1"]],
        ["engine/x.ts:7", ["b(", ") // => 2"]],
      ],
    );
  });

  test("a value that is not the one said does not pass", () => {
    const [found] = outcomes(example("beatSeconds(120) // => 0.6"));
    expect(found).toMatchObject({ said: 0.6, came: 0.5 });
  });

  test("a name that does not exist is an error", () => {
    expect(() => outcomes(example("noSuchName(1) // => 1"))).toThrow(ReferenceError);
  });

  test("set-up lines, and the value on a line of its own", () => {
    const lines = ["const bpm = 60;", "beatSeconds(bpm);", "// => 1", "toMs(beatSeconds(bpm)) // => 1000"];
    expect(outcomes(example(...lines)).map(({ said, came }) => [said, came])).toEqual([
      [1, 1],
      [1000, 1000],
    ]);
  });
});
