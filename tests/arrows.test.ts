import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { parseSync } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";

const root = resolve(import.meta.dirname, "..");
const folders = ["engine", "engraving", "renderer", "electron", "broker", "cli", "scripts"];

/** An import as written; dependency-cruiser keeps the "node:" of built-in modules apart. */
const written = z
  .object({ protocol: z.string().default(""), module: z.string() })
  .transform(({ protocol, module }) => protocol + module);

const cruiseResult = z.object({
  modules: z.array(z.object({ source: z.string(), dependencies: z.array(written) })),
  summary: z.object({
    violations: z.array(z.object({ from: z.string(), to: z.string(), rule: z.object({ name: z.string() }) })),
  }),
});

/** Runs dependency-cruiser with the project's rules on the project that lies in `folder`. */
function cruise(folder: string, targets: readonly string[]) {
  const program = join(root, "node_modules", "dependency-cruiser", "bin", "dependency-cruise.mjs");
  const config = join(root, ".dependency-cruiser.cjs");
  const args = [program, "--config", config, "--output-type", "json", ...targets];
  const child = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8", maxBuffer: 2 ** 26 });
  return cruiseResult.parse(JSON.parse(child.stdout));
}

/** A small project in which each file but the index files breaks one rule, and `engine/kit/good.ts` breaks none. */
const fixture: Readonly<Record<string, string>> = {
  "package.json": JSON.stringify({ dependencies: { zod: "1.0.0", react: "1.0.0" } }),
  "node_modules/zod/package.json": JSON.stringify({ name: "zod", version: "1.0.0", main: "index.js" }),
  "node_modules/zod/index.js": "export const z = 1;",
  "node_modules/react/package.json": JSON.stringify({ name: "react", version: "1.0.0", main: "index.js" }),
  "node_modules/react/index.js": "export const useState = 1;",
  "engine/units/index.ts": "export type Beats = number;",
  "engine/units/upward.ts": 'import type { Voice } from "../kit/index.ts";\nexport type Sounds = Voice[];',
  "engine/kit/index.ts": 'export * from "./voice.ts";',
  "engine/kit/voice.ts": 'export type Voice = "snare";',
  "engine/kit/map.json": "{}",
  "engine/kit/good.ts":
    'import { z } from "zod";\nimport type { Beats } from "../units/index.ts";\nexport const good: Beats = z;',
  "engine/kit/user.ts": 'import type { Props } from "../../renderer/Page.tsx";\nexport type Shown = Props;',
  "engine/kit/built-in.ts": 'import { readFileSync } from "node:fs";\nexport const read = readFileSync;',
  "engine/kit/package.ts": 'import { useState } from "react";\nexport const state = useState;',
  "engine/kit/nowhere.ts": 'export { nothing } from "./nothing.ts";',
  "engine/score/deep.ts": 'import type { Voice } from "../kit/voice.ts";\nexport type Written = Voice;',
  "engine/score/data.ts": 'import map from "../kit/map.json";\nexport const data = map;',
  "engine/score/chicken.ts": 'import type { Egg } from "./egg.ts";\nexport type Chicken = { egg?: Egg };',
  "engine/score/egg.ts":
    'import type { Chicken } from "./chicken.ts";\nexport type Egg = { chicken?: Chicken };',
  "engine/misc/stray.ts": "export const stray = 1;",
  "engine/formats/stray.ts": 'export { stray } from "../misc/stray.ts";',
  "engraving/index.ts": 'export * from "./staff.ts";',
  "engraving/staff.ts": "export const staff = 1;",
  "engraving/page.ts": 'import type { Props } from "../renderer/Page.tsx";\nexport type Shown = Props;',
  "engraving/file.ts": 'import { readFileSync } from "node:fs";\nexport const read = readFileSync;',
  "engine/score/engraved.ts": 'export { staff } from "../../engraving/index.ts";',
  "cli/deep.ts": 'export { staff } from "../engraving/staff.ts";',
  "renderer/Page.tsx":
    'import type { Voice } from "../engine/kit/voice.ts";\nexport type Props = { voice: Voice };\n' +
    "export const Page = (props: Props) => <p>{props.voice}</p>;",
  "renderer/shell.ts": 'export const shell = () => import("../electron/main.ts");',
  "electron/main.ts": "export const main = 1;",
  "electron/page.ts": 'import type { Props } from "../renderer/Page.tsx";\nexport type Shown = Props;',
  "broker/page.ts": 'import type { Props } from "../renderer/Page.tsx";\nexport type Shown = Props;',
  "cli/page.ts":
    'type Shown = import("../renderer/Page.tsx").Props;\nexport type { Shown };\nexport * from "../renderer/Page.tsx";',
};

describe("the rules, on a project that breaks each of them", () => {
  let folder = "";
  let broken: readonly string[] = [];

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "throneside-arrows-"));
    for (const [path, text] of Object.entries(fixture)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    const { violations } = cruise(folder, [
      "engine",
      "engraving",
      "renderer",
      "electron",
      "broker",
      "cli",
    ]).summary;
    broken = violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  test.each([
    "engine-order-units: engine/units/upward.ts -> engine/kit/index.ts",
    "engine-knows-no-user: engine/kit/user.ts -> renderer/Page.tsx",
    "engine-without-node: engine/kit/built-in.ts -> fs",
    "engine-packages: engine/kit/package.ts -> node_modules/react/index.js",
    "engine-by-its-doors-from-inside: engine/score/deep.ts -> engine/kit/voice.ts",
    "engine-by-its-doors-from-outside: renderer/Page.tsx -> engine/kit/voice.ts",
    "engine-folder-unknown: engine/formats/stray.ts -> engine/misc/stray.ts",
    "nothing-unresolved: engine/kit/nowhere.ts -> ./nothing.ts",
    "engine-knows-no-user: engine/score/engraved.ts -> engraving/index.ts",
    "engraving-arrows: engraving/page.ts -> renderer/Page.tsx",
    "engraving-without-page: engraving/file.ts -> fs",
    "engraving-by-its-door: cli/deep.ts -> engraving/staff.ts",
    "renderer-arrows: renderer/shell.ts -> electron/main.ts",
    "electron-arrows: electron/page.ts -> renderer/Page.tsx",
    "broker-arrows: broker/page.ts -> renderer/Page.tsx",
    "cli-arrows: cli/page.ts -> renderer/Page.tsx",
  ])("%s", (violation) => {
    expect(broken).toContain(violation);
  });

  test("a cycle of types is a cycle", () => {
    expect(broken.filter((each) => each.startsWith("no-cycles"))).not.toHaveLength(0);
  });

  test.each(["engine/kit/good.ts", "engine/score/data.ts"])("%s breaks none", (path) => {
    expect(broken.filter((each) => each.includes(`: ${path} ->`))).toEqual([]);
  });
});

describe("this project", () => {
  const { modules, summary } = cruise(root, folders);

  test("breaks no rule", () => {
    expect(summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
  });

  test("is read whole: a second parser finds no import that the rules have not seen", () => {
    const seen = new Map(modules.map(({ source, dependencies }) => [source, dependencies]));
    const files = folders.flatMap(typeScriptIn);
    const unseen = files.flatMap((file) =>
      importsOf(file)
        .filter((each) => !seen.get(file)?.includes(each))
        .map((each) => `${file}: ${each}`),
    );
    expect(files.length).toBeGreaterThan(20);
    expect(unseen).toEqual([]);
  });
});

/** The TypeScript files at or below a folder of the project, declarations left out, with "/" between folders. */
function typeScriptIn(folder: string): readonly string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .map((path) => `${folder}/${path.replaceAll("\\", "/")}`)
    .filter((path) => /(?<!\.d)\.tsx?$/.test(path));
}

/** What the file at `path` imports or exports on, types included, as Vite's own parser reads it. */
function importsOf(path: string): readonly string[] {
  const { module } = parseSync(path, readFileSync(join(root, path), "utf8"));
  return [
    ...module.staticImports.map((each) => each.moduleRequest.value),
    ...module.staticExports.flatMap((each) =>
      each.entries.flatMap((entry) => entry.moduleRequest?.value ?? []),
    ),
  ];
}
