/** The grid text of a part; `part.ts` shows it. */
import type { Fill } from "./fill.ts";
import { GridError } from "./gridError.ts";
import { needed, readHeads, readId } from "./gridHeads.ts";
import { parseFill, parseGrid } from "./gridText.ts";
import type { Groove } from "./groove.ts";
import { MOST_BARS_IN_A_PART, type Part, type Passage, passageFault, type Section } from "./part.ts";
import { printFill, printGrid } from "./printGrid.ts";

const BLOCK = /^\s*(part|section|groove|fill)\s*:/;
const PLAY = /^([a-z0-9/-]+)\s*,\s*(\d{1,4}) bars?(?:\s*,\s*ending ([a-z0-9/-]+))?$/;

/** A block of the text, its lines where they stand in the whole. */
interface Block {
  readonly kind: string;
  readonly from: number;
  readonly lines: readonly string[];
}

/**
 * Reads one part.
 *
 * @throws GridError saying line, column, what is wrong there and what is expected.
 */
export function parsePart(text: string): Part {
  const lines = text.split(/\r?\n/);
  const blocks = blocksOf(lines);
  const [head, ...rest] = blocks;
  if (head?.kind !== "part") throw new GridError(1, 1, `a part begins with "part:" and its id.`);
  const heads = readHeads(inPlace(head), ["part", "name"]);
  const grooves = new Map<string, Groove>();
  const fills = new Map<string, Fill>();
  for (const block of rest) {
    if (block.kind === "groove") keep(grooves, parseGrid(inPlace(block).join("\n")), block);
    if (block.kind === "fill") keep(fills, parseFill(inPlace(block).join("\n")), block);
    if (block.kind === "part") throw new GridError(block.from + 1, 1, "a second part begins here.");
  }
  const sections = rest
    .filter(({ kind }) => kind === "section")
    .map((block) => readSection(block, grooves, fills));
  if (sections.length === 0) throw new GridError(lines.length, 1, "a part needs a section.");
  const bars = sections.reduce((sum, section) => sum + barsIn(section), 0);
  if (bars > MOST_BARS_IN_A_PART) {
    throw new GridError(
      lines.length,
      1,
      `the part has ${bars} bars; at most ${MOST_BARS_IN_A_PART} can be read.`,
    );
  }
  return {
    id: readId(needed(heads, "part", lines.length)),
    name: needed(heads, "name", lines.length).value,
    sections,
  };
}

function barsIn({ times, passages }: Section): number {
  return times * passages.reduce((sum, { bars }) => sum + bars, 0);
}

function blocksOf(lines: readonly string[]): readonly Block[] {
  const starts = lines.flatMap((line, index) => {
    const kind = BLOCK.exec(line)?.[1];
    return kind === undefined ? [] : [{ kind, from: index }];
  });
  return starts.map(({ kind, from }, index) => ({
    kind,
    from,
    lines: lines.slice(from, starts[index + 1]?.from),
  }));
}

/** The lines of a block with empty ones before them, so that what is wrong is told by its line in the whole text. */
function inPlace({ from, lines }: Block): readonly string[] {
  return [...new Array<string>(from).fill(""), ...lines];
}

function keep<T extends { readonly id: string }>(known: Map<string, T>, one: T, block: Block): void {
  if (known.has(one.id)) throw new GridError(block.from + 1, 1, `"${one.id}" is written twice.`);
  known.set(one.id, one);
}

function readSection(
  block: Block,
  grooves: ReadonlyMap<string, Groove>,
  fills: ReadonlyMap<string, Fill>,
): Section {
  const said = block.lines.map((line) => /^\s*([a-z]+)\s*:\s*(.*?)\s*$/.exec(line));
  const passages: Passage[] = [];
  const values = new Map<string, string>();
  said.forEach((found, index) => {
    const line = block.from + index + 1;
    const text = block.lines[index]?.trim() ?? "";
    if (!found) {
      if (text === "" || text.startsWith("#")) return;
      throw new GridError(line, 1, `"${text}" is not understood in a section.`);
    }
    const [, key = "", value = ""] = found;
    if (key === "play") passages.push(readPassage(value, line, grooves, fills));
    else if (!["section", "tempo", "times"].includes(key))
      throw new GridError(line, 1, `"${key}" is not a heading of a section; say tempo, times or play.`);
    else if (values.has(key)) throw new GridError(line, 1, `"${key}" is said twice.`);
    else values.set(key, value);
  });
  const name = values.get("section") ?? "";
  if (name === "") throw new GridError(block.from + 1, 1, "a section needs a name.");
  if (passages.length === 0) throw new GridError(block.from + 1, 1, `the section ${name} plays nothing.`);
  return {
    name,
    tempoBpm: numberFrom(values.get("tempo") ?? "", 20, 400, block, "tempo"),
    times: numberFrom(values.get("times") ?? "1", 1, 99, block, "times"),
    passages,
  };
}

function numberFrom(value: string, low: number, high: number, block: Block, key: string): number {
  const number = Number(value);
  if (
    /^\d+(\.\d+)?$/.test(value) &&
    number >= low &&
    number <= high &&
    (key === "tempo" || Number.isInteger(number))
  )
    return number;
  throw new GridError(
    block.from + 1,
    1,
    `"${key}:" must be a number from ${low} to ${high} in this section.`,
  );
}

function readPassage(
  value: string,
  line: number,
  grooves: ReadonlyMap<string, Groove>,
  fills: ReadonlyMap<string, Fill>,
): Passage {
  const [, id = "", count = "", ending] = PLAY.exec(value) ?? [];
  const bars = Number(count);
  if (bars < 1)
    throw new GridError(line, 1, `"${value}" is not understood; say, for example, "rock-eighths, 8 bars".`);
  const groove = grooves.get(id);
  if (!groove) throw new GridError(line, 1, `the groove "${id}" is not written below.`);
  if (ending === undefined) return { groove, bars };
  const fill = fills.get(ending);
  if (!fill) throw new GridError(line, 1, `the fill "${ending}" is not written below.`);
  const fault = passageFault({ groove, bars, fill });
  if (fault) throw new GridError(line, 1, fault);
  return { groove, bars, fill };
}

/** Writes a part so that {@link parsePart} gives it back exactly. Grooves and fills are told apart by their ids. */
export function printPart(part: Part): string {
  const passages = part.sections.flatMap((section) => section.passages);
  const grooves = new Map(passages.map(({ groove }) => [groove.id, groove]));
  const fills = new Map(passages.flatMap(({ fill }) => (fill ? [[fill.id, fill] as const] : [])));
  return [
    `part: ${part.id}`,
    `name: ${part.name}`,
    "",
    ...part.sections.flatMap((section) => [...printSection(section), ""]),
    ...[...grooves.values()].map(printGrid),
    ...[...fills.values()].map(printFill),
  ].join("\n");
}

function printSection({ name, tempoBpm, times, passages }: Section): readonly string[] {
  return [
    `section: ${name}`,
    `tempo: ${tempoBpm}`,
    ...(times === 1 ? [] : [`times: ${times}`]),
    ...passages.map(({ groove, bars, fill }) =>
      [
        `play: ${groove.id}`,
        bars === 1 ? "1 bar" : `${bars} bars`,
        ...(fill ? [`ending ${fill.id}`] : []),
      ].join(", "),
    ),
  ];
}
