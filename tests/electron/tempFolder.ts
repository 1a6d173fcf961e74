import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach } from "vitest";

/** A folder of its own for each test of the file that calls this. */
export function freshFolder(): { readonly path: string } {
  const folder = { path: "" };
  beforeEach(() => {
    folder.path = mkdtempSync(join(tmpdir(), "throneside-shell-"));
  });
  afterEach(() => rmSync(folder.path, { recursive: true, force: true }));
  return folder;
}
