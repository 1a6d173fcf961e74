import { randomUUID } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { isPartName, partName, WholeFile } from "../../../electron/files/wholeFile.ts";
import { Writings } from "../../../electron/files/writings.ts";
import { freshFolder } from "../tempFolder.ts";

const folder = freshFolder();
const bytes = (text: string) => new TextEncoder().encode(text);
const place = () => join(folder.path, "table.csv");

describe("a file that appears whole or not at all", () => {
  test("stands in its place only at the end", async () => {
    const file = await WholeFile.begin(place(), randomUUID());
    await file.add(bytes("voice,"));
    await file.add(bytes("lean"));
    expect(readdirSync(folder.path).filter((name) => !isPartName(name))).toEqual([]);
    await file.end(10);
    expect(readdirSync(folder.path)).toEqual(["table.csv"]);
    expect(readFileSync(place(), "utf8")).toBe("voice,lean");
  });

  test("pieces that come at the same time stay in order", async () => {
    const file = await WholeFile.begin(place(), randomUUID());
    const pieces = Array.from({ length: 50 }, (_, index) => `${index};`);
    await Promise.all(pieces.map((piece) => file.add(bytes(piece))));
    await file.end(bytes(pieces.join("")).length);
    expect(readFileSync(place(), "utf8")).toBe(pieces.join(""));
  });

  test("takes the place of an older one in one step", async () => {
    writeFileSync(place(), "older");
    const file = await WholeFile.begin(place(), randomUUID());
    await file.add(bytes("newer"));
    expect(readFileSync(place(), "utf8")).toBe("older");
    await file.end(5);
    expect(readFileSync(place(), "utf8")).toBe("newer");
  });

  test("with fewer bytes than were announced it is not put there", async () => {
    writeFileSync(place(), "older");
    const file = await WholeFile.begin(place(), randomUUID());
    await file.add(bytes("new"));
    await expect(file.end(5)).rejects.toThrow("3 bytes have come where 5 were announced");
    expect(readdirSync(folder.path)).toEqual(["table.csv"]);
    expect(readFileSync(place(), "utf8")).toBe("older");
  });

  test("given up, it leaves what was there", async () => {
    writeFileSync(place(), "older");
    const file = await WholeFile.begin(place(), randomUUID());
    await file.add(bytes("newer"));
    await file.giveUp();
    expect(readdirSync(folder.path)).toEqual(["table.csv"]);
    expect(readFileSync(place(), "utf8")).toBe("older");
  });

  test("its name on the way is known again", () => {
    expect(isPartName(partName("table.csv", randomUUID()))).toBe(true);
    for (const name of ["table.csv", ".hidden", ".mine.part", "a.part"]) expect(isPartName(name)).toBe(false);
  });
});

describe("the files a page is writing", () => {
  async function begun(writings: Writings): Promise<string> {
    const answer = await writings.begin(place());
    if (answer.kind !== "begun") throw new Error(`It was not begun: ${JSON.stringify(answer)}`);
    return answer.id;
  }

  test("one is begun, added to and ended", async () => {
    const writings = new Writings();
    const id = await begun(writings);
    expect(await writings.add(id, bytes("one"))).toEqual({ kind: "added" });
    expect(await writings.end(id, 3)).toEqual({ kind: "saved", name: "table.csv", trouble: null });
    expect(await writings.add(id, bytes("two"))).toMatchObject({ kind: "failed" });
    expect(readFileSync(place(), "utf8")).toBe("one");
  });

  test("what follows can go wrong without the file being lost", async () => {
    const writings = new Writings();
    const answer = await writings.begin(place(), async () => "An old one stays.");
    if (answer.kind !== "begun") throw new Error("It was not begun.");
    expect(await writings.end(answer.id, 0)).toMatchObject({ kind: "saved", trouble: "An old one stays." });
  });

  test("the same place twice at a time is refused", async () => {
    const writings = new Writings();
    await begun(writings);
    expect(await writings.begin(place())).toEqual({
      kind: "failed",
      reason: "table.csv is being written just now.",
    });
    await writings.giveUpAll();
  });

  test("when the page is gone nothing half is left", async () => {
    const writings = new Writings();
    await writings.add(await begun(writings), bytes("half"));
    await writings.giveUpAll();
    expect(readdirSync(folder.path)).toEqual([]);
  });

  test("a folder that is gone is told in words", async () => {
    expect(await new Writings().begin(join(folder.path, "gone", "table.csv"))).toEqual({
      kind: "failed",
      reason: expect.stringMatching(/^table\.csv was not saved: it is not there any more\./),
    });
  });

  test("a folder where a file should be is told, and is left as it was", async () => {
    mkdirSync(place());
    writeFileSync(join(place(), "inside"), "");
    const writings = new Writings();
    const id = await begun(writings);
    expect(await writings.end(id, 0)).toMatchObject({ kind: "failed" });
    expect(readdirSync(folder.path)).toEqual(["table.csv"]);
  });
});
