import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request, type Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { contentSecurityPolicy } from "../../electron/contentSecurityPolicy.mjs";
import { portFrom, serve } from "../../scripts/serve.mjs";

const root = resolve(import.meta.dirname, "../..");
let folder = "";
let server: Server;
let address = "";

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "throneside-serve-"));
  mkdirSync(join(folder, "pages", "assets"), { recursive: true });
  writeFileSync(join(folder, "secret.txt"), "outside");
  writeFileSync(join(folder, "pages", "index.html"), "<p>first page</p>");
  writeFileSync(join(folder, "pages", "assets", "font.woff2"), "font");
  ({ server, address } = await serve(join(folder, "pages"), 0));
});
afterAll(() => {
  server.close();
  server.closeAllConnections();
  rmSync(folder, { recursive: true });
});

/** Asks for `path` as it is: `fetch` would take the dots out of it before it is sent. */
async function ask(path: string, method = "GET") {
  const asked = request({ host: "127.0.0.1", port: portOf(server), path, method });
  asked.end();
  const [response] = await once(asked, "response");
  let text = "";
  for await (const piece of response.setEncoding("utf8")) text += piece;
  return { status: response.statusCode, headers: response.headers, text };
}

function portOf(listening: Server): number {
  return (listening.address() as AddressInfo).port;
}

describe("the server of the pages", () => {
  test.each([
    ["/", "<p>first page</p>", "text/html; charset=utf-8"],
    ["/index.html?a=b", "<p>first page</p>", "text/html; charset=utf-8"],
    ["/assets/font.woff2", "font", "font/woff2"],
  ])("gives out %s", async (path, text, type) => {
    const answer = await ask(path);
    expect([answer.status, answer.text]).toEqual([200, text]);
    expect(answer.headers).toMatchObject({
      "content-type": type,
      "content-length": String(text.length),
      "content-security-policy": contentSecurityPolicy,
      "x-content-type-options": "nosniff",
    });
  });

  test("gives the headers alone to HEAD", async () => {
    const answer = await ask("/", "HEAD");
    expect([answer.status, answer.text, answer.headers["content-length"]]).toEqual([200, "", "17"]);
  });

  test.each([
    "/none",
    "/assets",
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/assets/..%2f..%2fsecret.txt",
    "/%00",
    "/%",
  ])("refuses %s", async (path) => {
    const answer = await ask(path);
    expect(answer.status).toBe(404);
    expect(answer.text).not.toContain("outside");
  });

  test("refuses to be written to", async () => {
    const answer = await ask("/", "PUT");
    expect([answer.status, answer.headers.allow]).toEqual([405, "GET, HEAD"]);
  });

  test("listens on the loopback address only", () => {
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(server.address()).toMatchObject({ address: "127.0.0.1" });
  });

  test("says so if the chosen port is taken", async () => {
    await expect(serve(folder, portOf(server))).rejects.toThrow(`Port ${portOf(server)} is in use`);
  });
});

describe("--port", () => {
  test.each([
    [[], undefined],
    [["--port", "5000"], 5000],
    [["--port=5000"], 5000],
    [["--port", "0"], 0],
  ])("%j is %s", (args, port) => {
    expect(portFrom(args)).toBe(port);
  });

  test.each([[["--port"]], [["--port", "eighty"]], [["--port", "65536"]], [["--port", "-1"]], [["--port="]]])(
    "%j is refused in a sentence",
    (args) => {
      expect(() => portFrom(args)).toThrow("--port needs a number");
    },
  );
});

test.each(["SIGINT", "SIGTERM"] as const)(
  "ends cleanly on %s, with a browser still connected",
  async (signal) => {
    const child = spawn(process.execPath, ["scripts/serve.mjs", "--port", "0"], { cwd: root });
    const [line] = await once(child.stdout.setEncoding("utf8"), "data");
    const browser = connect(Number(/:(\d+)\/$/m.exec(line)?.[1]), "127.0.0.1");
    await once(browser, "connect");
    browser.on("error", () => browser.destroy());
    child.kill(signal);
    expect(await once(child, "exit")).toEqual([0, null]);
    browser.destroy();
  },
);
