import {
  FILLS,
  RUDIMENT_FAMILY_NAMES,
  RUDIMENTS,
  type Rudiment,
  STYLES,
  type Style,
  stickingOf,
} from "../../engine/catalogue/index.ts";
import { type Fill, levelName, metreName, startsOnBeat } from "../../engine/score/index.ts";
import { toNumber } from "../../engine/units/index.ts";
import type { Outlet } from "../outlet.ts";
import { readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

const KINDS = ["style", "fill", "rudiment"] as const;
type Kind = (typeof KINDS)[number];

/** One line of the list: its words, and what `--json` says beside id and kind. */
interface Entry {
  readonly id: string;
  readonly kind: Kind;
  /** The heading it stands under. */
  readonly group: string;
  readonly words: string;
  readonly json: Readonly<Record<string, unknown>>;
}

/**
 * `catalogue`: the studio's stock, one line an entry, of all kinds or of one, the styles and the rudiments by family.
 */
export async function catalogueCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    kind: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals[0] !== undefined) throw new UsageError(`"${positionals[0]}" is not understood here.`);
  const asked = readKind(values.kind);
  const entries = [
    ...STYLES.map(styleEntry),
    ...FILLS.map(fillEntry),
    ...RUDIMENTS.map(rudimentEntry),
  ].filter(({ kind }) => asked === undefined || kind === asked);
  for (const line of values.json ? jsonLines(entries) : wordLines(entries)) await outlet.line(line);
  return true;
}

function jsonLines(entries: readonly Entry[]): readonly string[] {
  return entries.map(({ id, kind, json }) => JSON.stringify({ id, kind, ...json }));
}

/** Under the heading of each group, its entries, set in; an empty line between groups. */
function wordLines(entries: readonly Entry[]): readonly string[] {
  const width = Math.max(...entries.map(({ id }) => id.length));
  return entries.flatMap(({ id, group, words }, index) => {
    const before = entries[index - 1]?.group;
    const heading = group === before ? [] : [...(before === undefined ? [] : [""]), group];
    return [...heading, `  ${id.padEnd(width)}  ${words}`];
  });
}

function readKind(value: string | undefined): Kind | undefined {
  const kind = KINDS.find((known) => known === value);
  if (value !== undefined && kind === undefined) {
    throw new UsageError(`--kind ${value}: the kinds are ${KINDS.join(", ")}.`);
  }
  return kind;
}

function styleEntry({ id, name, family, itself, source, variants }: Style): Entry {
  const { metre, feel, tempoBpm } = variants[0] ?? {};
  return {
    id,
    kind: "style",
    group: family,
    words: `${name}. ${itself}`,
    json: {
      name,
      family,
      metre: metre && metreName(metre),
      feel: feel?.kind,
      tempo: tempoBpm,
      variants: variants.map((variant) => variant.id),
      itself,
      source,
    },
  };
}

function fillEntry(fill: Fill): Entry {
  const { id, name, level, beats, metre, feel, tempoBpm, voices } = fill;
  const length = beats === 1 ? "1 beat" : `${beats} beats`;
  const swung = feel.kind === "swung" ? ", swung" : "";
  return {
    id,
    kind: "fill",
    group: "Fills",
    words: `${name}. ${length} of ${metreName(metre)}${swung}, from beat ${startsOnBeat(fill)}; ${levelName(level)}.`,
    json: {
      name,
      level,
      beats,
      startsOnBeat: startsOnBeat(fill),
      metre: metreName(metre),
      feel: feel.kind,
      tempo: tempoBpm,
      voices,
    },
  };
}

function rudimentEntry(rudiment: Rudiment): Entry {
  const { id, number, name, otherNames, family, metre, tempoBpm, strokes } = rudiment;
  const sticking = stickingOf(rudiment);
  return {
    id,
    kind: "rudiment",
    group: RUDIMENT_FAMILY_NAMES[family],
    words: `${number}. ${name}. ${sticking}`,
    json: {
      number,
      name,
      otherNames,
      family,
      sticking,
      metre: metreName(metre),
      tempo: tempoBpm,
      strokes: strokes.map(({ position, length, hand, graces, accent, bounced }) => ({
        beat: toNumber(position),
        beats: toNumber(length),
        hand,
        graces,
        accent,
        bounced,
      })),
    },
  };
}
