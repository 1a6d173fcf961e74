import { describe, expect, test } from "vitest";
import { contentSecurityPolicy } from "../../electron/contentSecurityPolicy.mjs";

const directives = new Map(
  contentSecurityPolicy.split("; ").map((directive): [string, readonly string[]] => {
    const [name = "", ...values] = directive.split(" ");
    return [name, values];
  }),
);

describe("the content security policy", () => {
  test("lets nothing in that is not named", () => {
    expect(directives.get("default-src")).toEqual(["'none'"]);
  });

  test("runs the program's own scripts only", () => {
    expect(directives.get("script-src")).toEqual(["'self'"]);
  });

  test("speaks with the program's own origin only", () => {
    // A room is where its address says; the shell lets only that one through (network.test.ts).
    expect(directives.get("connect-src")).toEqual(["'self'", "ws:", "wss:"]);
  });

  test.each(["worker-src", "manifest-src"])("%s, which working offline needs, is its own origin", (name) => {
    expect(directives.get(name)).toEqual(["'self'"]);
  });

  test("has nothing for what no page uses", () => {
    for (const name of ["media-src", "frame-src", "child-src"]) expect(directives.has(name)).toBe(false);
  });

  test("names no place elsewhere, but a room's, which is where its address says", () => {
    const sources = new Set([...directives.values()].flat());
    expect(sources).toEqual(new Set(["'none'", "'self'", "'unsafe-inline'", "data:", "ws:", "wss:"]));
  });

  test.each(["base-uri", "form-action", "frame-ancestors", "object-src"])("%s is shut", (name) => {
    expect(directives.get(name)).toEqual(["'none'"]);
  });
});
