import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import {
  ArchiveError,
  type ArchivePiece,
  type ArchiveRow,
  archivedHits,
  archiveLineSchema,
  chunkOf,
  readArchive,
  writeArchive,
} from "../../../../engine/formats/index.ts";
import { type HitEvent, packHits } from "../../../../engine/records/index.ts";
import { anyLesson } from "../../session/lessons.ts";
import { ABOUT, collected, digest, inPieces, lessonRows, STUDIO_ROWS } from "./studio.ts";

async function written(rows: readonly ArchiveRow[]): Promise<Uint8Array<ArrayBuffer>> {
  return collected(writeArchive(ABOUT, rows, digest));
}

async function piecesOf(bytes: Uint8Array, size?: number): Promise<readonly ArchivePiece[]> {
  const pieces: ArchivePiece[] = [];
  for await (const piece of readArchive(inPieces(bytes, size), digest)) pieces.push(piece);
  return pieces;
}

function rowsIn(pieces: readonly ArchivePiece[]): readonly ArchiveRow[] {
  return pieces.flatMap((piece) => (piece.kind === "rows" ? piece.rows : []));
}

function linesIn(bytes: Uint8Array): readonly string[] {
  return new TextDecoder().decode(bytes).trimEnd().split("\n");
}

const lesson =
  fc.sample(anyLesson, { seed: 7, numRuns: 12 }).toSorted((a, b) => b.length - a.length)[0] ?? [];
const WHOLE = [...STUDIO_ROWS, ...lessonRows(lesson)];

describe("there and back", () => {
  test("what was written is read, in pieces of any size", async () => {
    await fc.assert(
      fc.asyncProperty(anyLesson, fc.integer({ min: 1, max: 70_000 }), async (events, size) => {
        const rows = [...STUDIO_ROWS, ...lessonRows(events)];
        const pieces = await piecesOf(await written(rows), size);
        expect(rowsIn(pieces)).toEqual(rows);
        expect(pieces[0]).toEqual({ kind: "head", head: { throneside: "archive", version: 1, ...ABOUT } });
        expect(pieces.at(-1)).toMatchObject({ kind: "end", rows: rows.length });
      }),
      { numRuns: 15 },
    );
  });

  test("an archive without rows is one", async () => {
    expect((await piecesOf(await written([]))).map(({ kind }) => kind)).toEqual(["head", "rows", "end"]);
  });

  test("a large one comes in blocks, each with its check", async () => {
    const rows = Array.from({ length: 60 }, () => WHOLE).flat();
    const pieces = await piecesOf(await written(rows), 65_536);
    expect(pieces.filter(({ kind }) => kind === "rows").length).toBeGreaterThan(2);
    expect(rowsIn(pieces)).toHaveLength(rows.length);
  });

  test("strikes come back as the chunk they were", () => {
    fc.assert(
      fc.property(anyLesson, (events) => {
        const strikes = events.filter((event): event is HitEvent => event.kind === "hit");
        if (strikes.length === 0) return;
        const chunk = packHits("lesson1", strikes);
        expect(chunkOf(archivedHits(chunk))).toEqual(chunk);
      }),
    );
  });
});

describe("what is refused, and why", () => {
  test("any byte that is changed is noticed", async () => {
    const bytes = await written(WHOLE);
    await fc.assert(
      fc.asyncProperty(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), async (at, by) => {
        const changed = bytes.slice();
        changed[at] = (changed[at] ?? 0) ^ by;
        await expect(piecesOf(changed)).rejects.toThrow(ArchiveError);
      }),
      // The last newline, made a tab: white space that a reader of JSON does not mind.
      { numRuns: 300, examples: [[bytes.length - 1, 3]] },
    );
  });

  test("nothing of a changed block is handed over", async () => {
    const lines = linesIn(await written(WHOLE));
    const changed = lines.map((line) => line.replace("Bram", "Bruno")).join("\n");
    const pieces: ArchivePiece[] = [];
    const reading = (async () => {
      for await (const piece of readArchive(inPieces(new TextEncoder().encode(`${changed}\n`)), digest))
        pieces.push(piece);
    })();
    await expect(reading).rejects.toThrow("was changed after it was saved");
    expect(rowsIn(pieces)).toEqual([]);
  });

  test("a file that is cut off anywhere is noticed", async () => {
    const bytes = await written(WHOLE);
    await fc.assert(
      fc.asyncProperty(fc.nat(bytes.length - 2), async (length) => {
        await expect(piecesOf(bytes.slice(0, length))).rejects.toThrow(ArchiveError);
      }),
      { numRuns: 100 },
    );
  });

  test.each([
    ["", "The file is empty"],
    ["not an archive\n", "no archive of the studio"],
    ['{"throneside":"archive"}\n', "no archive of the studio"],
    [
      '{"throneside":"archive","version":2,"program":"3.1.0"}\n',
      "of version 2, written by version 3.1.0 of the program; this one reads version 1. Bring the program up to date",
    ],
    ["\u0000\u0001\u0002", "no archive of the studio"],
  ])("%j: %s", async (text, sentence) => {
    await expect(piecesOf(new TextEncoder().encode(text))).rejects.toThrow(sentence);
  });

  test("lines after the end are refused", async () => {
    const text = `${new TextDecoder().decode(await written(WHOLE))}{}\n`;
    await expect(piecesOf(new TextEncoder().encode(text))).rejects.toThrow("after the end");
  });

  test("a row that cannot be read, in a file as it was saved, is told apart and the rest is read", async () => {
    const [student] = STUDIO_ROWS;
    const odd = [
      { table: "students", row: { ...student?.row, level: "grand master" } },
      { table: "students", row: { version: 2, id: "of tomorrow" } },
    ] as unknown as readonly ArchiveRow[];
    const pieces = await piecesOf(await written([...odd, ...WHOLE]));
    expect(rowsIn(pieces)).toEqual(WHOLE);
    const broken = pieces.flatMap((piece) => (piece.kind === "rows" ? piece.broken : []));
    expect(broken.map(({ why }) => why)).toEqual([expect.stringContaining("level"), "It is of version 2."]);
  });
});

describe("JSON Schema", () => {
  const schema = z.toJSONSchema(archiveLineSchema, { io: "input" });
  const ajv = new Ajv2020({ strict: false });
  addFormats.default(ajv);
  const isLine = ajv.compile(schema);

  test("the file that is published is the one that is used", async () => {
    await expect(`${JSON.stringify(schema, null, 1)}\n`).toMatchFileSnapshot(
      "../../../../engine/formats/archive/archive.schema.json",
    );
  });

  test("every line of an archive fits it, by an independent validator", async () => {
    for (const line of linesIn(await written(WHOLE)))
      expect(isLine(JSON.parse(line)), `${line.slice(0, 200)}: ${ajv.errorsText(isLine.errors)}`).toBe(true);
  });

  test.each([
    ["a student of an unknown level", "students", { level: "grand master" }],
    ["a student without a name", "students", { nickname: "" }],
    ["a lesson day that is none", "students", { lessonDay: { weekday: 8, from: "15:30", minutes: 30 } }],
    ["a lesson that began at no instant", "lessons", { at: "yesterday" }],
    ["a strike harder than the hardest", "hits", { velocity: [1.5] }],
    ["a sound that is none", "hits", { voice: ["gong bath"] }],
    ["an event of no kind", "events", { event: { kind: "applause", seq: 1, time: 0, lane: 0 } }],
  ])("%s does not", (_, table, change) => {
    const line = WHOLE.find((row) => row.table === table);
    expect(isLine(JSON.parse(JSON.stringify(line)))).toBe(true);
    expect(isLine(JSON.parse(JSON.stringify({ ...line, row: { ...line?.row, ...change } })))).toBe(false);
  });
});
