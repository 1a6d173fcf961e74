import { rudimentById } from "../../engine/catalogue/index.ts";
import { type NameMatch, type NameMatcher, rudimentMatcher } from "../../engine/recall/index.ts";
import { standardLines } from "../inlet.ts";
import type { Outlet } from "../outlet.ts";
import { readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

const LISTS: Readonly<Record<string, () => NameMatcher>> = { rudiments: rudimentMatcher };

/**
 * `recall`: one name a line on standard input, as spoken or typed; a line out for each says which of the list it is, whether
 * it came before, or that it is none. An empty line is no name and gets no answer.
 */
export async function recallCommand(
  args: readonly string[],
  outlet: Outlet,
  lines: AsyncIterable<string> = standardLines(),
): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    list: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals[0] !== undefined)
    throw new UsageError(`"${positionals[0]}" is not understood here; names are read from standard input.`);
  const matcher = readList(values.list);
  const named = new Set<string>();
  for await (const line of lines) {
    const given = line.trim();
    if (given === "") continue;
    const answer = answerTo(given, matcher.match(given), named);
    await outlet.line(values.json ? JSON.stringify(answer) : inWords(answer));
  }
  return true;
}

function readList(name: string | undefined): NameMatcher {
  const list = name === undefined ? undefined : LISTS[name];
  if (!list) {
    const asked = name === undefined ? "Name a list with --list" : `--list ${name}`;
    throw new UsageError(`${asked}: the lists are ${Object.keys(LISTS).join(", ")}.`);
  }
  return list();
}

interface Answer {
  readonly given: string;
  readonly match: string | null;
  readonly number: number | null;
  readonly state: "named" | "repeated" | "not one of them";
  /** Which it may be, where that cannot be told. */
  readonly perhaps?: readonly string[];
}

function answerTo(given: string, match: NameMatch, named: Set<string>): Answer {
  if (match.kind !== "named") {
    const perhaps = match.kind === "ask" ? { perhaps: match.ids } : {};
    return { given, match: null, number: null, state: "not one of them", ...perhaps };
  }
  const state = named.has(match.id) ? "repeated" : "named";
  named.add(match.id);
  return { given, match: match.id, number: rudimentById(match.id)?.number ?? null, state };
}

function inWords({ given, match, number, state, perhaps }: Answer): string {
  if (match !== null) return `${given}: ${number}, ${match}${state === "repeated" ? " (again)" : ""}`;
  return `${given}: ${perhaps ? `which? ${perhaps.join(", ")}` : state}`;
}
