import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";

const read = (name: string) => readFileSync(resolve(import.meta.dirname, "../..", name), "utf8");

const lockFile = z.object({
  packages: z.record(
    z.string(),
    z.object({
      license: z.string().optional(),
      dev: z.boolean().optional(),
      devOptional: z.boolean().optional(),
    }),
  ),
});

/** What is installed to run, not to develop; packages of types alone leave nothing in a bundle. */
const shipped = Object.entries(lockFile.parse(JSON.parse(read("package-lock.json"))).packages)
  .filter(([path, { dev, devOptional }]) => path !== "" && !dev && !devOptional)
  .map(([path, { license }]) => ({ name: path.replace(/^.*node_modules\//, ""), license: license ?? "none" }))
  .filter(({ name }) => !name.startsWith("@types/"));

/** The packages that NOTICE names under each licence: an unindented line, then the names indented. */
const noticed = new Map(
  read("NOTICE")
    .split("PACKAGES")[1]
    ?.split("\n\n")
    .map((block) => block.trim().split(/\n\s*/))
    .map(([licence = "", ...names]): [string, readonly string[]] => [licence, names]),
);

test.each(shipped.filter(({ license }) => license !== "OFL-1.1"))(
  "NOTICE names $name under $license",
  (each) => {
    expect(noticed.get(each.license)).toContain(each.name);
  },
);

test.each(shipped.filter(({ license }) => license === "OFL-1.1"))(
  "NOTICE names the font $name",
  ({ name }) => {
    expect(read("NOTICE")).toContain(`(${name})`);
  },
);
