import { resolve, sep } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pageFile, pageHeaders } from "../../electron/pageFile.mjs";

const folder = resolve("pages");

describe("the file that an address means", () => {
  test.each([
    ["/", "index.html"],
    ["/index.html", "index.html"],
    ["/assets/", "assets/index.html"],
    ["/assets/a%20b.css", "assets/a b.css"],
    ["/assets/../index.html", "index.html"],
    ["//host/share", "host/share"],
  ])("%s", (urlPath, file) => {
    expect(pageFile(folder, urlPath)).toBe(resolve(folder, ...file.split("/")));
  });

  test.each(["/..", "/../pages2/a", "/%2e%2e/a", "/..%2fa", "/..%5ca", "/a%00.js", "/%", "/%ff"])(
    "%s: none",
    (urlPath) => {
      expect(pageFile(folder, urlPath)).toBeUndefined();
    },
  );

  test("whatever the address, it never lies outside the folder", () => {
    const piece = fc.oneof(fc.constantFrom("..", ".", "%2e%2e", "%2f", "\\", "%5c", "", "a"), fc.string());
    fc.assert(
      fc.property(fc.array(piece), (pieces) => {
        const path = pageFile(folder, `/${pieces.join("/")}`);
        expect(path === undefined || path.startsWith(folder + sep)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});

test("a file of an unknown kind is bytes, not something to guess at", () => {
  expect(pageHeaders("odd.xyz")["Content-Type"]).toBe("application/octet-stream");
});

test.each([
  ["/pages/assets/Kit-4f2a_Q9x.js", true],
  ["C:\\pages\\assets\\start-12S60B6r.css", true],
  ["/pages/index.html", false],
  ["/pages/service-worker.js", false],
  ["/pages/assets/kit.json", false],
  ["/pages/icons/throneside-maskable.svg", false],
])("%s is kept by the browser for good: %s", (path, isKept) => {
  expect(pageHeaders(path)["Cache-Control"]?.includes("immutable")).toBe(isKept);
});
