/**
 * The packer itself, run on a small project and on an Electron that is none: its file has the fuses of a real binary,
 * in a real binary's form, and nothing else. What is read back is read by this test, not by the packer.
 */
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { build, Platform } from "electron-builder";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { fuses } from "../../electron/packaging/fuses.mjs";
import { packed } from "../../electron/packaging/packed.mjs";

const root = resolve(import.meta.dirname, "../..");
let folder = "";
const inProject = (path: string) => join(folder, "project", ...path.split("/"));
const inPacked = (path: string, system = "linux") =>
  join(folder, "packed", `${system}-unpacked`, ...path.split("/"));

function put(path: string, content: string | Uint8Array): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, content);
}

/** Before the fuses in every binary of Electron (its documentation, "Electron Fuses", "The hard way"). */
const SENTINEL = "dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX";
/** The order of the fuses behind it, version 1 of their schema. */
const ORDER = [
  "runAsNode",
  "enableCookieEncryption",
  "enableNodeOptionsEnvironmentVariable",
  "enableNodeCliInspectArguments",
  "enableEmbeddedAsarIntegrityValidation",
  "onlyLoadAppFromAsar",
  "loadBrowserProcessSpecificV8Snapshot",
  "grantFileProtocolExtraPrivileges",
];
/** As Electron ships them, but for the snapshot, which is on here so that it is seen to be turned off. */
const SHIPPED = "10110011";

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "throneside-packed-"));
  const { name, version, description, main } = z
    .object({ name: z.string(), version: z.string(), description: z.string(), main: z.string() })
    .parse(JSON.parse(readFileSync(join(root, "package.json"), "utf8")));
  const dependencies = { "left-behind": "1.0.0" };
  put(inProject("package.json"), JSON.stringify({ name, version, description, main, dependencies }));
  put(inProject("node_modules/left-behind/package.json"), '{"name":"left-behind","version":"1.0.0"}');
  put(inProject("node_modules/left-behind/index.js"), "");
  put(inProject("dist/electron/main.js"), "export {};");
  put(inProject("dist/electron/preload.cjs"), "");
  put(inProject("dist/renderer/index.html"), "<p>first page</p>");
  for (const path of ["dist/cli/throneside.js", "tests/secret.ts", "engine/index.ts"])
    put(inProject(path), "");
  for (const path of ["LICENSE", "NOTICE", "renderer/public/icons", "electron/packaging"])
    cpSync(join(root, path), inProject(path), { recursive: true });

  await pack(Platform.LINUX, "electron", Buffer.from("before"));
  // A Windows program that is at hand, so that there are resources to write the archive's sum into.
  const program = createRequire(import.meta.url).resolve("electron-winstaller/vendor/7z-x64.exe");
  await pack(Platform.WINDOWS, "electron.exe", readFileSync(program));
});

/** Packs the project for `platform` with an Electron whose binary is `before` and, behind it, the fuses. */
async function pack(platform: Platform, binary: string, before: Buffer): Promise<void> {
  const electronDist = join(folder, platform.name);
  const wire = Buffer.concat([Buffer.from(SENTINEL), Buffer.from([1, SHIPPED.length]), Buffer.from(SHIPPED)]);
  put(join(electronDist, binary), Buffer.concat([before, wire]));
  for (const name of ["LICENSE", "version", "chrome-sandbox"]) put(join(electronDist, name), "");
  for (const name of ["resources", "locales"]) mkdirSync(join(electronDist, name));
  await build({
    projectDir: inProject(""),
    targets: platform.createTarget("dir"),
    publish: "never",
    // The packer checks all of the configuration against its own schema (and changes what it is given, so it gets a
    // copy). Changed are the places, and that no icon is put into the Windows program, for which a tool would be
    // fetched.
    config: {
      ...structuredClone(packed),
      win: { ...packed.win, signAndEditExecutable: false },
      electronDist,
      electronVersion: "45.5.0",
      directories: { ...packed.directories, output: join(folder, "packed") },
    },
  });
}
afterAll(() => rmSync(folder, { recursive: true }));

type Entry = {
  files?: Record<string, Entry> | undefined;
  integrity?: { algorithm: string; hash: string } | undefined;
};
const entry: z.ZodType<Entry> = z.lazy(() =>
  z.object({
    files: z.record(z.string(), entry).optional(),
    integrity: z.object({ algorithm: z.string(), hash: z.string() }).optional(),
  }),
);

/** The header of the program's archive: JSON, with its length in the fourth of four integers before it. */
function headerOfArchive(system: string): string {
  const archive = readFileSync(inPacked("resources/app.asar", system));
  return archive.toString("utf8", 16, 16 + archive.readUInt32LE(12));
}

/** The files of the program's archive by path. */
function filesOfArchive(system: string): ReadonlyMap<string, Entry> {
  const top = entry.parse(JSON.parse(headerOfArchive(system)));
  const found = new Map<string, Entry>();
  const walk = ({ files }: Entry, path: string): void => {
    for (const [name, below] of Object.entries(files ?? {})) {
      if (below.files) walk(below, `${path}${name}/`);
      else found.set(path + name, below);
    }
  };
  walk(top, "");
  return found;
}

function sha256(text: string): string {
  return createHash("sha256").update(text).digest("hex");
}

describe.each([
  ["linux", "throneside"],
  ["win", "Throneside.exe"],
])("the packed program for %s", (system, program) => {
  test("has the fuses set in its binary", () => {
    const binary = readFileSync(inPacked(program, system), "latin1");
    const at = binary.indexOf(SENTINEL) + SENTINEL.length + 2;
    const found = ORDER.map((name, index) => [name, binary[at + index] === "1"]);
    expect(Object.fromEntries(found)).toEqual(fuses);
  });

  test("holds the bundles and nothing else: no package, no source, no test", () => {
    expect([...filesOfArchive(system).keys()].sort()).toEqual([
      "dist/electron/main.js",
      "dist/electron/preload.cjs",
      "dist/renderer/index.html",
      "package.json",
    ]);
  });

  test("has each file's sum in its header, which is what the integrity fuse checks", () => {
    const page = filesOfArchive(system).get("dist/renderer/index.html");
    expect(page?.integrity).toEqual({
      algorithm: "SHA256",
      hash: sha256("<p>first page</p>"),
    });
  });

  test("brings its licences along, and no address to look at for a newer one", () => {
    const resources = readdirSync(inPacked("resources", system));
    for (const name of ["LICENSE", "NOTICE"]) expect(resources).toContain(name);
    expect(resources.filter((name) => name.includes("update"))).toEqual([]);
  });
});

test("the Windows program carries the sum of its archive's header, which the integrity fuse compares", () => {
  const program = readFileSync(inPacked("Throneside.exe", "win"), "utf8");
  expect(program).toContain(`"alg":"SHA256","value":"${sha256(headerOfArchive("win"))}"`);
});

describe("the configuration", () => {
  test.each([
    ["runAsNode", false],
    ["enableNodeOptionsEnvironmentVariable", false],
    ["enableNodeCliInspectArguments", false],
    ["enableCookieEncryption", true],
    ["enableEmbeddedAsarIntegrityValidation", true],
    ["onlyLoadAppFromAsar", true],
    ["grantFileProtocolExtraPrivileges", false],
  ])("fuse %s is %s", (name, on) => {
    expect(fuses[name]).toBe(on);
  });

  test("is published nowhere, and never without its sandbox", () => {
    expect(packed.publish).toBeNull();
    expect(JSON.stringify(packed)).not.toContain("no-sandbox");
    expect(packed.linux?.target).not.toContain("AppImage");
  });
});
