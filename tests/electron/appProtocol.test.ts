import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { answerFrom, appScheme } from "../../electron/appProtocol.ts";
import { contentSecurityPolicy } from "../../electron/contentSecurityPolicy.mjs";

let folder = "";
let answer: (request: Request) => Promise<Response>;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "throneside-pages-"));
  mkdirSync(join(folder, "pages", "assets"), { recursive: true });
  writeFileSync(join(folder, "secret.txt"), "outside");
  writeFileSync(join(folder, "pages", "index.html"), "<p>first page</p>");
  writeFileSync(join(folder, "pages", "assets", "a b.js"), "export {};");
  answer = answerFrom(join(folder, "pages"));
});
afterAll(() => rmSync(folder, { recursive: true }));

test("the scheme has what Web MIDI, storage and workers need", () => {
  expect(appScheme.scheme).toBe("app");
  expect(appScheme.privileges).toMatchObject({ standard: true, secure: true, supportFetchAPI: true });
  expect(appScheme.privileges).not.toHaveProperty("bypassCSP");
});

describe("what is given out", () => {
  test.each([
    ["app://throneside/", "<p>first page</p>", "text/html; charset=utf-8"],
    ["app://throneside/index.html?look=dark#replay", "<p>first page</p>", "text/html; charset=utf-8"],
    ["app://throneside/assets/a%20b.js", "export {};", "text/javascript; charset=utf-8"],
  ])("%s", async (address, text, type) => {
    const response = await answer(new Request(address));
    expect(response.status).toBe(200);
    expect(await response.text()).toBe(text);
    expect(response.headers.get("Content-Type")).toBe(type);
    expect(response.headers.get("Content-Security-Policy")).toBe(contentSecurityPolicy);
    expect(response.headers.get("X-Content-Type-Options")).toBe("nosniff");
  });

  test("HEAD gives the headers alone", async () => {
    const response = await answer(new Request("app://throneside/", { method: "HEAD" }));
    expect([response.status, await response.text()]).toEqual([200, ""]);
  });
});

describe("what is refused", () => {
  test.each([
    ["app://throneside/none.html", 404],
    ["app://throneside/assets", 404],
    ["app://throneside/index.html/more", 404],
    ["app://throneside/%2e%2e/secret.txt", 404],
    ["app://throneside/..%2fsecret.txt", 404],
    ["app://throneside/assets/..%2f..%2fsecret.txt", 404],
    ["app://throneside/..%5csecret.txt", 404],
    ["app://throneside/index.html%00.txt", 404],
    ["app://throneside/%", 404],
    ["app://elsewhere/index.html", 404],
  ])("%s: %i", async (address, status) => {
    const response = await answer(new Request(address));
    expect(response.status).toBe(status);
    expect(await response.text()).not.toContain("outside");
  });

  test("anything but reading", async () => {
    const response = await answer(new Request("app://throneside/", { method: "POST", body: "x" }));
    expect(response.status).toBe(405);
  });
});
