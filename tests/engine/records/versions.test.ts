/**
 * Rows of every version there was are read. A schema that changes without a new version fails here: give it the next
 * version, a step in `ROW_STEPS`, and keep the snapshot and rows of the version before as they are.
 */
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import {
  hitChunkSchema,
  ROW_STEPS,
  type RowKind,
  readRow,
  type Step,
  stepsOf,
  unpackHits,
} from "../../../engine/records/index.ts";
import { sessionEventSchema } from "../../../engine/session/index.ts";
import { ROW_SCHEMAS, rowsFile, shapeFile, versionOf } from "./rowKinds.ts";

const KINDS = Object.keys(ROW_STEPS) as readonly RowKind[];
const EVERY_VERSION = KINDS.flatMap((kind) =>
  Array.from({ length: versionOf(kind) }, (_, index) => [kind, index + 1] as const),
);

const rowsSchema = z.array(z.looseObject({ version: z.int() })).min(1);

/** Bytes are numbers in a file. */
function keptRows(kind: RowKind, version: number): readonly Readonly<Record<string, unknown>>[] {
  const rows = rowsSchema.parse(JSON.parse(readFileSync(rowsFile(kind, version), "utf8")));
  return rows.map((row) =>
    kind === "hits" ? { ...row, bytes: Uint8Array.from(row.bytes as number[]) } : row,
  );
}

describe("the shape of a row changes with its version only", () => {
  test.each(KINDS)("%s", async (kind) => {
    const file = shapeFile(kind, versionOf(kind));
    const wasThere = existsSync(file);
    const shape = z.toJSONSchema(ROW_SCHEMAS[kind], { io: "input", unrepresentable: "any" });
    await expect(`${JSON.stringify(shape, null, 1)}\n`).toMatchFileSnapshot(file);
    expect(wasThere, `${file} was missing and is written now: look at it and keep it with the change.`).toBe(
      true,
    );
  });
});

describe("rows of every version are read", () => {
  test.each(EVERY_VERSION)("%s of version %i", (kind, version) => {
    for (const row of keptRows(kind, version)) {
      expect(row.version).toBe(version);
      const reading = readRow(ROW_SCHEMAS[kind], row, stepsOf(kind));
      expect(reading, JSON.stringify(row)).toMatchObject({
        kind: "read",
        value: { version: versionOf(kind) },
      });
      // Nothing of a row that is written now is lost on the way.
      if (version === versionOf(kind)) expect(reading).toEqual({ kind: "read", value: row });
    }
  });

  test.each(KINDS)("%s of the next version are left alone", (kind) => {
    const [row] = keptRows(kind, versionOf(kind));
    const version = versionOf(kind) + 1;
    expect(readRow(ROW_SCHEMAS[kind], { ...row, version }, stepsOf(kind))).toEqual({
      kind: "newer",
      version,
    });
  });

  test("every kind of event is among them", () => {
    const kept = keptRows("events", versionOf("events")).map(({ event }) => (event as { kind: string }).kind);
    const kinds = sessionEventSchema.options.flatMap((each) => [...each.unwrap().shape.kind.values]);
    expect(new Set(kept)).toEqual(new Set(kinds.filter((kind) => kind !== "hit")));
  });

  test.each([
    ["takes", (row: unknown) => row],
    ["events", (row: unknown) => (row as { event: { summary?: unknown } }).event.summary],
  ] as const)(
    "what version 1 of %s kept of a take says that its level is not known, and all it said before",
    (kind, summaryOf) => {
      const before = keptRows(kind, 1)
        .map(summaryOf)
        .filter((summary) => summary !== undefined);
      const after = keptRows(kind, 1).flatMap((row) => {
        const reading = readRow(ROW_SCHEMAS[kind], row, stepsOf(kind));
        const summary = reading.kind === "read" ? summaryOf(reading.value) : undefined;
        return summary === undefined ? [] : [summary];
      });
      expect(before.length).toBeGreaterThan(0);
      expect(after).toMatchObject(
        before.map((summary) => ({
          ...(summary as object),
          ...(kind === "takes" ? { version: 2 } : {}),
          level: null,
        })),
      );
    },
  );

  test("the strikes in the bytes of a chunk are what they were", () => {
    const chunks = keptRows("hits", 1).flatMap((row) => {
      const reading = readRow(hitChunkSchema, row, stepsOf("hits"));
      return reading.kind === "read" ? [unpackHits(reading.value)] : [];
    });
    const hat = { voice: "hi-hat-open", zone: "edge", openness: 1, pad: 46 };
    expect(chunks).toEqual([
      [
        {
          kind: "hit",
          seq: 6,
          time: 12.25,
          lane: 0,
          hit: { time: 12.25, voice: "snare", zone: "head", velocity: 100 / 127, pad: 38 },
        },
        { kind: "hit", seq: 9, time: 12.5, lane: 1, hit: { time: 12.5, velocity: 64 / 127, ...hat } },
      ],
      [
        {
          kind: "hit",
          seq: 11,
          time: 13,
          lane: 1,
          hit: { time: 13, velocity: 0.123, ...hat, openness: 0.456 },
        },
      ],
    ]);
  });
});

/** A kind of row that has changed twice: no row of the program has yet. */
describe("steps", () => {
  const now = z.object({
    version: z.literal(3),
    id: z.string(),
    names: z.array(z.string()),
    isAway: z.boolean(),
  });
  const steps: readonly Step[] = [
    ({ nickname, ...row }) => {
      if (typeof nickname !== "string") throw new Error("it has no nickname");
      return { ...row, version: 2, names: [nickname] };
    },
    (row) => ({ ...row, version: 3, isAway: false }),
  ];
  const bram = { id: "bram", names: ["Bram"], isAway: false };

  test.each([
    ["the first version, by both steps", { version: 1, id: "bram", nickname: "Bram" }, bram],
    ["the second, by the last", { version: 2, id: "bram", names: ["Bram"] }, bram],
    ["this one, by none", { version: 3, ...bram, isAway: true }, { ...bram, isAway: true }],
  ])("a row of %s", (_, row, value) => {
    const before = structuredClone(row);
    expect(readRow(now, row, steps)).toEqual({ kind: "read", value: { version: 3, ...value } });
    expect(row).toEqual(before);
  });

  test("a row that no step can bring up is broken, with the reason; one of a later version is left alone", () => {
    expect(readRow(now, { version: 1, id: "bram" }, steps)).toEqual({
      kind: "broken",
      why: "It cannot be brought up from version 1: it has no nickname",
    });
    expect(readRow(now, { version: 4, ...bram }, steps)).toEqual({ kind: "newer", version: 4 });
  });
});
