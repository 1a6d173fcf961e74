import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { KIT_MAPS } from "../../cli/maps.ts";
import { noteFor, parseKitMap, type Voice } from "../../engine/kit/index.ts";

const folder = resolve(import.meta.dirname, "../../kit-maps");
const files = readdirSync(folder).filter((name) => name.endsWith(".json") && name !== "kit-map.schema.json");

function read(name: string): unknown {
  return JSON.parse(readFileSync(join(folder, name), "utf8"));
}

test("there are maps", () => {
  expect(files).toContain("general-midi-1.json");
  expect(files).toContain("general-midi-2.json");
  expect(files).toContain("wide-nine-piece.json");
});

describe.each(files)("%s", (name) => {
  const map = parseKitMap(read(name), name);

  test("is read, is named by its id, and names the schema beside it", () => {
    expect(`${map.id}.json`).toBe(name);
    expect(map.$schema).toBe("./kit-map.schema.json");
    expect(map.source).not.toBe("");
  });

  test("says in its own words what each key is", () => {
    for (const { note, label } of map.pads) expect(label, `key ${note}`).toMatch(/\S/);
  });

  test("has a plain way to strike each voice of a groove of the stock", () => {
    const usual: readonly Voice[] = ["kick", "snare", "cross-stick", "hi-hat-closed", "hi-hat-open", "ride"];
    for (const voice of usual) expect(noteFor(map, voice), voice).toBeDefined();
  });
});

test("the command line offers every map there is", () => {
  expect(KIT_MAPS.map(({ id }) => `${id}.json`).sort()).toEqual([...files].sort());
});
