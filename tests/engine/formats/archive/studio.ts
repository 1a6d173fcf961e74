/** A small studio as rows of an archive, with one of each table. */
import { readBody, shelfEntry } from "../../../../engine/catalogue/index.ts";
import { type ArchiveRow, archivedHits, type Digest } from "../../../../engine/formats/index.ts";
import { lessonRecord, rowsOf } from "../../../../engine/records/index.ts";
import { lessonState, type SessionEvent } from "../../../../engine/session/index.ts";

export const digest: Digest = async (bytes) => new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));

export const ABOUT = {
  madeAt: "2026-03-05T08:00:00.000Z",
  program: "0.1.0",
  of: { kind: "studio" },
} as const;

/** The rows of a lesson, as an archive holds them. */
export function lessonRows(events: readonly SessionEvent[]): readonly ArchiveRow[] {
  const record = lessonRecord(lessonState(events));
  if (!record) throw new Error("The lesson has not begun.");
  const rows = rowsOf(record.id, record.day, events);
  return [
    { table: "lessons", row: record },
    ...rows.events.map((row): ArchiveRow => ({ table: "events", row })),
    ...rows.hits.map((chunk): ArchiveRow => ({ table: "hits", row: archivedHits(chunk) })),
    ...rows.takes.map((row): ArchiveRow => ({ table: "takes", row })),
    ...rows.results.map((row): ArchiveRow => ({ table: "results", row })),
  ];
}

export const STUDIO_ROWS: readonly ArchiveRow[] = [
  {
    table: "students",
    row: {
      version: 1,
      id: "student1",
      nickname: "Bram",
      level: "second-year",
      hand: "left",
      notes: "counts aloud; „Mühlrad“ 🥁",
      lessonDay: { weekday: 1, from: "15:30", minutes: 30 },
      consent: { by: "his mother", on: "2026-01-12" },
      archived: false,
      addedAt: "2026-01-12T15:00:00.000Z",
      invented: true,
    },
  },
  { table: "groups", row: { version: 1, id: "group1", name: "Mondays", studentIds: ["student1"] } },
  {
    table: "entries",
    row: shelfEntry(readBody("groove", "metre: 4/4\ntempo: 60-90\nkick | x... |", { id: "a", name: "A" }), {
      id: "own/1",
      name: "Mill wheel",
      from: { kind: "written" },
      madeAtMs: 1,
    }),
  },
  {
    table: "listChanges",
    row: {
      version: 1,
      id: "change1",
      studentId: "student1",
      at: "2026-03-02T16:00:00.000Z",
      day: "2026-03-02",
      kind: "crossed-off",
      item: "style:shuffle",
    },
  },
  { table: "setAside", row: { table: "events", row: { gnawed: [1, null, "by mice"] }, why: "broken" } },
];

export async function collected(pieces: AsyncIterable<Uint8Array>): Promise<Uint8Array<ArrayBuffer>> {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for await (const piece of pieces) parts.push(new Uint8Array(piece));
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}

/** Bytes in pieces of so many. */
export async function* inPieces(bytes: Uint8Array, size = 1000): AsyncGenerator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += size) yield bytes.slice(from, from + size);
}
