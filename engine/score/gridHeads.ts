/** The headings of the grid text: `key: value` lines above the voices. */
import type { Bpm } from "../units/index.ts";
import { type Feel, STRAIGHT } from "./feel.ts";
import { GridError, type Placed } from "./gridError.ts";
import { LEVELS, type Level } from "./level.ts";
import type { Metre } from "./metre.ts";

const HEADING = /^\s*([a-z]+)\s*:\s*(.*?)\s*$/;

/** Whether a line of the text is a heading. */
export function isHeading(line: string): boolean {
  return HEADING.test(line);
}

/** The headings that are said, each once. @throws GridError on one that is none of `known`, or is said twice. */
export function readHeads<Head extends string>(
  lines: readonly string[],
  known: readonly Head[],
): ReadonlyMap<Head, Placed<string>> {
  const heads = new Map<Head, Placed<string>>();
  lines.forEach((line, index) => {
    const found = HEADING.exec(line);
    if (!found) return;
    const key = known.find((head) => head === found[1]);
    if (!key) {
      throw new GridError(
        index + 1,
        1,
        `"${found[1]}" is not a heading; the headings are ${known.join(", ")}.`,
      );
    }
    if (heads.has(key)) throw new GridError(index + 1, 1, `"${key}" is said twice.`);
    const value = found[2] ?? "";
    heads.set(key, { value, line: index + 1, column: line.trimEnd().length - value.length + 1 });
  });
  return heads;
}

/** A heading that must be said. @throws GridError when it is not, or says nothing. */
export function needed<Head extends string>(
  heads: ReadonlyMap<Head, Placed<string>>,
  key: Head,
  lastLine: number,
): Placed<string> {
  const found = heads.get(key);
  if (!found || found.value === "") throw new GridError(found?.line ?? lastLine, 1, `"${key}:" is missing.`);
  return found;
}

export function readId(head: Placed<string>): string {
  if (/^[a-z0-9]+([-/][a-z0-9]+)*$/.test(head.value)) return head.value;
  throw new GridError(
    head.line,
    head.column,
    `"${head.value}" is not an id: use lower-case letters, digits and hyphens.`,
  );
}

export function readMetre(head: Placed<string>): Metre {
  const found = /^(\d{1,2})\/(1|2|4|8|16)$/.exec(head.value);
  const numerator = Number(found?.[1]);
  if (!found || numerator < 1) {
    throw new GridError(head.line, head.column, `"${head.value}" is not a metre such as 4/4 or 12/8.`);
  }
  return { numerator, denominator: Number(found[2]) };
}

export function readFeel(head: Placed<string> | undefined): Feel {
  if (!head || head.value === "straight") return STRAIGHT;
  const found = /^swung (\d+(?:\.\d+)?) (eighths|triplets|sixteenths)$/.exec(head.value);
  const ratio = Number(found?.[1]);
  const written = found?.[2];
  if (written !== "eighths" && written !== "triplets" && written !== "sixteenths") {
    throw new GridError(
      head.line,
      head.column,
      `"${head.value}" is not a feel: say "straight" or, say, "swung 2 eighths".`,
    );
  }
  if (ratio < 1 || ratio > 4) {
    throw new GridError(head.line, head.column, `a swing ratio of ${ratio} is outside 1 (straight) to 4.`);
  }
  return { kind: "swung", ratio, written };
}

export function readTempo(head: Placed<string>): { readonly low: Bpm; readonly high: Bpm } {
  const found = /^(\d{2,3})-(\d{2,3})$/.exec(head.value);
  const low = Number(found?.[1]);
  const high = Number(found?.[2]);
  if (!found || low > high || low < 20 || high > 400) {
    throw new GridError(head.line, head.column, `"${head.value}" is not a range of tempos such as 80-140.`);
  }
  return { low, high };
}

export function readLevel(head: Placed<string>): Level {
  const level = LEVELS.find((known) => known === head.value);
  if (level) return level;
  throw new GridError(
    head.line,
    head.column,
    `"${head.value}" is not a level; the levels are ${LEVELS.join(", ")}.`,
  );
}
