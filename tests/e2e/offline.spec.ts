/**
 * The program with the network off, and with a new version on the way: its pages are served from a folder of this
 * test's own, by a server that can be taken away.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, type Page } from "@playwright/test";
import { pagesFolder, serve } from "../../scripts/serve.mjs";
import { test } from "./quietTest.ts";

test.use({ serviceWorkers: "allow" });

let folder: string;
let server: Server;
let address: string;

test.beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "throneside-offline-"));
  cpSync(pagesFolder, folder, { recursive: true });
  ({ server, address } = await serve(folder, 0));
});

test.afterEach(() => {
  takeNetworkAway();
  rmSync(folder, { recursive: true, force: true });
});

function takeNetworkAway(): void {
  server.close();
  server.closeAllConnections();
}

/** Opens Kit, and waits until every file is kept. */
async function openKept(page: Page): Promise<void> {
  await page.goto(`${address}#/kit`);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    // The worker that was ready first answers for this page, too, once it has claimed it.
    if (!navigator.serviceWorker.controller)
      await new Promise((settle) =>
        navigator.serviceWorker.addEventListener("controllerchange", settle, { once: true }),
      );
  });
}

test("with the network off the page opens, hears the keys, and sounds a groove", async ({ page }) => {
  await openKept(page);
  takeNetworkAway();
  await page.reload();
  await page.keyboard.press("KeyF");
  await expect(page.locator("tbody tr").first()).toContainText("snare");
  await page.evaluate(() => {
    const counted = window as unknown as { sources: number };
    counted.sources = 0;
    const start = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (this: AudioBufferSourceNode, ...at: [number?]) {
      counted.sources += 1;
      start.apply(this, at);
    };
  });
  await page.getByText("Drum sounds, for keys and demonstration").click();
  await page.getByRole("button", { name: "Play", exact: true }).click();
  await expect
    .poll(() => page.evaluate(() => (window as unknown as { sources: number }).sources), { timeout: 10_000 })
    .toBeGreaterThan(8);
  await page.getByRole("button", { name: "Stop playing" }).click();
  await page.getByRole("link", { name: "Call a Style" }).click();
  await expect(page.getByRole("main")).toContainText("Call a Style");
});

test("the licence of the sounds goes where they go", async ({ page }) => {
  const licence = await page.request.get(`${address}sounds.licence.md`);
  expect(await licence.text()).toContain("Permission is hereby granted, free of charge");
});

test("every built file is kept, the sounds among them", async ({ page }) => {
  await openKept(page);
  const kept = await page.evaluate(async () => {
    const [name = ""] = await caches.keys();
    const cache = await caches.open(name);
    return (await cache.keys()).map(({ url }) => new URL(url).pathname);
  });
  expect(kept.filter((path) => path.endsWith(".flac"))).toHaveLength(25);
  expect(kept).toContain("/");
  expect(kept).toContain("/manifest.webmanifest");
  const built = () =>
    page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .map(({ name }) => new URL(name).pathname)
        .filter((path) => path.startsWith("/assets/")),
    );
  // The later pages are fetched one after the other.
  await expect.poll(async () => (await built()).length).toBeGreaterThan(20);
  expect((await built()).filter((path) => !kept.includes(path))).toEqual([]);
});

/** Puts a changed build where the old one was, as an update does. */
function putNewVersion(): void {
  const page = join(folder, "index.html");
  writeFileSync(
    page,
    readFileSync(page, "utf8").replace('<div id="root">', '<div id="root" data-build="new">'),
  );
  const worker = join(folder, "service-worker.js");
  const text = readFileSync(worker, "utf8");
  expect(text).toMatch(/"version":"[0-9a-f]{16}"/);
  writeFileSync(worker, text.replace(/"version":"[0-9a-f]{16}"/, '"version":"0123456789abcdef"'));
}

async function askForNewVersion(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });
}

test("a new version is told, not forced; loading it shows it", async ({ page }) => {
  await openKept(page);
  putNewVersion();
  await expect(page.getByText("A new version is here.")).toHaveCount(0);
  await askForNewVersion(page);
  await expect(page.getByText("A new version is here.")).toBeVisible();
  await expect(page.locator('[data-build="new"]')).toHaveCount(0);
  await page.getByRole("button", { name: "Load it" }).click();
  await expect(page.locator('[data-build="new"]')).toHaveCount(1);
  await expect(page.getByText("A new version is here.")).toHaveCount(0);
});

test("another window is told, too, and goes on as it was until its user loads it", async ({
  page,
  context,
}) => {
  await openKept(page);
  const second = await context.newPage();
  await openKept(second);
  putNewVersion();
  await askForNewVersion(second);
  await second.getByRole("button", { name: "Load it" }).click();
  await expect(second.locator('[data-build="new"]')).toHaveCount(1);
  await expect(page.getByText("A new version is here.")).toBeVisible();
  await expect(page.locator('[data-build="new"]')).toHaveCount(0);
  await page.keyboard.press("KeyJ");
  await expect(page.locator("tbody tr").first()).toContainText("kick");
  await page.getByRole("button", { name: "Load it" }).click();
  await expect(page.locator('[data-build="new"]')).toHaveCount(1);
});

test("a build of which a file is missing is not taken up; the old one stays", async ({ page }) => {
  await openKept(page);
  putNewVersion();
  rmSync(join(folder, "manifest.webmanifest"));
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const coming = new Promise<void>((settle) => {
      registration.addEventListener("updatefound", () => {
        const worker = registration.installing;
        worker?.addEventListener("statechange", () => {
          if (worker.state === "redundant") settle();
        });
      });
    });
    await registration.update();
    await coming;
  });
  await expect(page.getByText("A new version is here.")).toHaveCount(0);
  takeNetworkAway();
  await page.reload();
  await page.keyboard.press("KeyF");
  await expect(page.locator("tbody tr").first()).toContainText("snare");
});

test("the program can be installed: a manifest, its icons at their sizes, and no policy broken", async ({
  page,
}) => {
  await page.goto(address);
  const href = await page.locator('link[rel="manifest"]').getAttribute("href");
  const manifestAddress = new URL(href ?? "", address);
  const manifest = await (await page.request.get(manifestAddress.href)).json();
  expect(manifest).toMatchObject({ name: "Throneside", display: "standalone", start_url: "./", scope: "./" });
  for (const { src, sizes, type } of manifest.icons) {
    const icon = await page.request.get(new URL(src, manifestAddress).href);
    expect(icon.headers()["content-type"]).toContain(type);
    if (type !== "image/png") continue;
    // PNG (ISO 15948): width and height are the first two 32-bit numbers of the first chunk.
    const bytes = await icon.body();
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(sizes);
  }
  expect(manifest.icons.some(({ purpose }: { purpose?: string }) => purpose === "maskable")).toBe(true);
  // Chromium's own word on the matter.
  const session = await page.context().newCDPSession(page);
  const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
  expect(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito")).toEqual([]);
});
