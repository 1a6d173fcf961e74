import { FILLS, STYLES, type Style } from "../../engine/catalogue/index.ts";
import { type Fill, levelName, metreName, startsOnBeat } from "../../engine/score/index.ts";
import type { Outlet } from "../outlet.ts";
import { readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

const KINDS = ["style", "fill", "rudiment"] as const;
type Kind = (typeof KINDS)[number];

/** One line of the list: its words, and what `--json` says beside id and kind. */
interface Entry {
  readonly id: string;
  readonly kind: Kind;
  readonly words: string;
  readonly json: Readonly<Record<string, unknown>>;
}

/** `catalogue`: the studio's stock, one line an entry, of all kinds or of one. Kinds appear as they are built. */
export async function catalogueCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    kind: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals[0] !== undefined) throw new UsageError(`"${positionals[0]}" is not understood here.`);
  const asked = readKind(values.kind);
  const entries = [...STYLES.map(styleEntry), ...FILLS.map(fillEntry)].filter(
    ({ kind }) => asked === undefined || kind === asked,
  );
  if (entries.length === 0) outlet.complain(`The catalogue holds no ${asked} yet.`);
  const width = Math.max(...entries.map(({ id }) => id.length));
  for (const { id, kind, words, json } of entries) {
    await outlet.line(values.json ? JSON.stringify({ id, kind, ...json }) : `${id.padEnd(width)}  ${words}`);
  }
  return true;
}

function readKind(value: string | undefined): Kind | undefined {
  const kind = KINDS.find((known) => known === value);
  if (value !== undefined && kind === undefined) {
    throw new UsageError(`--kind ${value}: the kinds are ${KINDS.join(", ")}.`);
  }
  return kind;
}

function styleEntry({ id, name, itself, source, variants }: Style): Entry {
  const { metre, feel, tempoBpm } = variants[0] ?? {};
  return {
    id,
    kind: "style",
    words: `${name}. ${itself}`,
    json: {
      name,
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
