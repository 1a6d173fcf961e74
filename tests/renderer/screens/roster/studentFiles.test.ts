import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { strFromU8, unzipSync } from "fflate";
import { expect, test } from "vitest";
import archiveSchema from "../../../../engine/formats/archive/archive.schema.json" with { type: "json" };
import { readArchive, readSmf } from "../../../../engine/formats/index.ts";
import { studentFiles, zipOf } from "../../../../renderer/screens/roster/studentFiles.ts";
import { SHIPPED_MAPS } from "../../../../renderer/session/kitMapChoice.ts";
import { keepStudent, previewArchive, sha256 } from "../../../../renderer/store/index.ts";
import { readCsv } from "../../../reference/rfc4180.ts";
import { BRAM, keptStudio, OTTILIE } from "./keptStudio.ts";

const [map] = SHIPPED_MAPS;
if (!map) throw new Error("There is no map.");
const HOW = { madeAt: "2026-03-10T10:00:00.000Z", zone: "Europe/Vienna", program: "test", map };

async function zipped() {
  const database = await keptStudio();
  const zip = await zipOf(studentFiles(database, OTTILIE, HOW), HOW.madeAt);
  return unzipSync(new Uint8Array(await zip.arrayBuffer()));
}

test("the zip holds a page, tables, every take as MIDI, the strikes and the archive", async () => {
  expect(Object.keys(await zipped())).toEqual([
    "read me.html",
    "lessons.csv",
    "takes.csv",
    "results.csv",
    "Ottilie.throneside.jsonl",
    "strikes/2026-03-04 00Z~both.csv",
    "takes/2026-03-04 00Z~both 1, Shuffle.mid",
    "strikes/2026-03-02 0Z~alone.csv",
    "takes/2026-03-02 0Z~alone 1, Shuffle.mid",
  ]);
});

test("every table is one by RFC 4180, every MIDI file has strikes, every line of the archive fits its schema", async () => {
  const database = await keptStudio();
  // What a table has to stand between quotes for, and what a file's name cannot hold.
  const odd = { ...OTTILIE, nickname: 'Otto, "the\r\nloud" / =1+1' };
  await keepStudent(database, odd);
  const zip = await zipOf(studentFiles(database, odd, HOW), HOW.madeAt);
  const files = Object.entries(unzipSync(new Uint8Array(await zip.arrayBuffer())));
  const opened = { csv: 0, mid: 0, jsonl: 0, html: 0 };
  const ajv = new Ajv2020({ strict: false });
  addFormats.default(ajv);
  const isLine = ajv.compile(archiveSchema);
  for (const [path, content] of files) {
    if (path.endsWith(".csv")) {
      opened.csv += 1;
      const [head = [], ...lines] = readCsv(strFromU8(content));
      expect([path, lines.length]).not.toEqual([path, 0]);
      for (const line of lines) expect([path, line.length]).toEqual([path, head.length]);
    } else if (path.endsWith(".mid")) {
      opened.mid += 1;
      expect(readSmf(content).events.filter(({ message }) => message.kind === "note-on")).toHaveLength(8);
    } else if (path.endsWith(".jsonl")) {
      opened.jsonl += 1;
      const lines = strFromU8(content).trimEnd().split("\n");
      expect(lines.length).toBeGreaterThan(5);
      for (const line of lines)
        expect(isLine(JSON.parse(line)), `${line.slice(0, 200)}: ${ajv.errorsText(isLine.errors)}`).toBe(
          true,
        );
    } else if (path.endsWith(".html")) opened.html += 1;
  }
  expect(opened).toEqual({ csv: 5, mid: 2, jsonl: 1, html: 1 });
  expect(Object.values(opened).reduce((sum, count) => sum + count)).toBe(files.length);
});

test("nothing of the other student is in it", async () => {
  for (const [path, content] of Object.entries(await zipped())) {
    const text = strFromU8(content);
    expect([path, text.includes(BRAM.id), text.includes("Louder than")]).toEqual([path, false, false]);
  }
});

test("the takes are read back with their strikes", async () => {
  const files = await zipped();
  const take = files["takes/2026-03-02 0Z~alone 1, Shuffle.mid"];
  if (!take) throw new Error("The take is missing.");
  const { events } = readSmf(take);
  expect(events.filter(({ message }) => message.kind === "note-on")).toHaveLength(8);
  expect(strFromU8(files["takes.csv"] ?? new Uint8Array())).toContain(
    "Ottilie's groove,Shuffle,Shuffle,first-year,104",
  );
});

test("the archive is whole, and of this student", async () => {
  const files = await zipped();
  const archive = files["Ottilie.throneside.jsonl"];
  if (!archive) throw new Error("The archive is missing.");
  async function* bytes() {
    yield archive as Uint8Array;
  }
  const { head, nicknames, tables, broken } = await previewArchive(bytes());
  expect(head.of).toEqual({ kind: "students", studentIds: [OTTILIE.id] });
  expect(nicknames).toEqual(["Ottilie"]);
  expect([tables.lessons, tables.takes, tables.results, tables.listChanges, broken]).toEqual([2, 2, 2, 1, 0]);
  const kinds = new Set<string>();
  for await (const piece of readArchive(bytes(), sha256)) kinds.add(piece.kind);
  expect([...kinds]).toEqual(["head", "rows", "end"]);
});

test("what is written on the page is text, whatever the nickname", async () => {
  const database = await keptStudio();
  const odd = { ...OTTILIE, nickname: '<b>"Otto" & co</b>' };
  for await (const { path, content } of studentFiles(database, odd, HOW)) {
    if (path !== "read me.html") continue;
    expect(strFromU8(content)).toContain("<h1>&lt;b&gt;&quot;Otto&quot; &amp; co&lt;/b&gt;</h1>");
    return;
  }
  throw new Error("There is no page.");
});
