import { readFile } from "node:fs/promises";
import { type Download, expect, type Locator, type Page } from "@playwright/test";
import { grooveById } from "../../engine/catalogue/index.ts";
import { readSmf } from "../../engine/formats/index.ts";
import { expectClean } from "./clean.ts";
import { withoutEverySecondKick } from "./faultyTake.ts";
import { grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";
import { openReport, withoutPlaces } from "./reportOpened.ts";

const SHUFFLE = { id: "shuffle", name: "Shuffle" } as const;
const HOW = { bars: 12, tempoBpm: 120 } as const;
const MARKS = ["circle", "line", "path", "rect", "text"] as const;

async function bytesOf(download: Download): Promise<Buffer> {
  return readFile(await download.path());
}

/** The file that doing this hands over to the downloads. */
async function downloadBy(page: Page, act: () => Promise<void>): Promise<Download> {
  const [download] = await Promise.all([page.waitForEvent("download"), act()]);
  return download;
}

async function keep(page: Page, control: Locator, kind: "SVG" | "PNG"): Promise<Download> {
  return downloadBy(page, async () => {
    await control.click();
    await page.getByRole("menuitem", { name: kind }).click();
  });
}

/** How many of each mark the drawings of a figure show, its controls left out. */
async function marksOnPage(figure: Locator): Promise<Record<string, number>> {
  return figure.evaluate((element, names) => {
    const drawings = [...element.querySelectorAll("svg")].filter((svg) => !svg.closest("button, details"));
    const count = (name: string) =>
      drawings.reduce((sum, drawing) => sum + drawing.querySelectorAll(name).length, 0);
    return Object.fromEntries(names.map((name) => [name, count(name)]));
  }, MARKS);
}

/** The colours of what is drawn in a figure, as #rrggbb. */
async function coloursOnPage(figure: Locator): Promise<readonly string[]> {
  const colours = await figure.evaluate((element) =>
    [...element.querySelectorAll("svg :is(circle, line, path, rect, text)")]
      .filter((mark) => !mark.closest("button, details, defs"))
      .flatMap((mark) => [getComputedStyle(mark).fill, getComputedStyle(mark).stroke]),
  );
  const parts = colours.map((colour) => /^rgb\((\d+), (\d+), (\d+)\)$/.exec(colour)?.slice(1));
  const hex = parts.flatMap((rgb) =>
    rgb ? [`#${rgb.map((part) => Number(part).toString(16).padStart(2, "0")).join("")}`] : [],
  );
  // Black is what SVG paints where nothing is said.
  const said = [...new Set(hex)].filter((colour) => colour !== "#000000");
  expect(said.length).toBeGreaterThan(0);
  return said;
}

/** A picture read as the XML it is. */
async function readPicture(page: Page, svg: string) {
  return page.evaluate(
    ([text, names]) => {
      const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
      const root = parsed.documentElement;
      const nested = [...root.querySelectorAll("svg")];
      const count = (name: string) =>
        nested.reduce((sum, drawing) => sum + drawing.querySelectorAll(name).length, 0);
      const used = new Set([...text.matchAll(/(?:href="#|url\(#)([^")]+)/g)].map(([, id]) => id ?? ""));
      return {
        error: parsed.querySelector("parsererror")?.textContent ?? null,
        root: root.localName,
        width: Number(root.getAttribute("width")),
        height: Number(root.getAttribute("height")),
        marks: Object.fromEntries(names.map((name) => [name, count(name)])),
        lost: [...used].filter((id) => parsed.getElementById(id) === null),
        colours: ["fill", "stroke"].flatMap((name) =>
          [...root.querySelectorAll(`[${name}]`)].map((part) => part.getAttribute(name)),
        ),
        words: [...root.querySelectorAll("text")].map(({ textContent }) => textContent).join(" "),
        faces: root.querySelector("style")?.textContent?.match(/@font-face\{/g)?.length ?? 0,
      };
    },
    [svg, MARKS] as const,
  );
}

/** What is in a PNG: its size as the header has it, how many colours, and the share of the commonest one. */
async function readDots(page: Page, png: Buffer) {
  expect(png.subarray(0, 8).toString("latin1")).toBe("\x89PNG\r\n\x1a\n");
  const seen = await page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (each) => each.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const brush = canvas.getContext("2d");
    if (!brush) throw new Error("no canvas");
    brush.drawImage(image, 0, 0);
    const { data } = brush.getImageData(0, 0, image.width, image.height);
    // There are millions of dots: each is one number, and words are made of what they come to.
    const counts = new Map<number, number>();
    for (let at = 0; at < data.length; at += 4) {
      const colour = ((data[at] ?? 0) << 16) | ((data[at + 1] ?? 0) << 8) | (data[at + 2] ?? 0);
      counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
    const share = Math.max(...counts.values()) / (image.width * image.height);
    const colours = [...counts.keys()].map((one) => `${one >> 16} ${(one >> 8) & 255} ${one & 255}`);
    return { colours, share };
  }, png.toString("base64"));
  return { width: png.readUInt32BE(16), height: png.readUInt32BE(20), ...seen };
}

test("every chart is kept as a picture that stands by itself, as SVG and as PNG", async ({ page }) => {
  test.slow();
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, HOW);
  // With a second take there is the chart of both as well.
  await page.getByRole("button", { name: "Again" }).click();
  await page.getByRole("button", { name: "all at once" }).click();
  await page.keyboard.press("Escape");
  await expect(
    page.getByRole("figure", { name: "Lean and spread by beat, take 1 and this take" }),
  ).toBeVisible();
  const controls = page.getByRole("main").getByRole("button", { name: "Keep this picture" });
  const figures = page
    .getByRole("main")
    .locator("figure")
    .filter({ has: page.locator("svg") });
  // The staff comes a moment after the charts.
  await expect(page.getByRole("img", { name: /written over heard/ })).toBeVisible();
  await expect
    .poll(async () => (await controls.count()) >= 4 && (await controls.count()) === (await figures.count()))
    .toBe(true);
  for (let at = 0; at < (await controls.count()); at += 1) {
    const control = controls.nth(at);
    const figure = control.locator("xpath=ancestor::figure");
    const onPage = await marksOnPage(figure);
    const download = await keep(page, control, "SVG");
    expect(download.suggestedFilename()).toMatch(
      /^Shuffle, [a-z0-9, ]+, \d{4}-\d\d-\d\d, 120 a minute\.svg$/,
    );
    const svg = (await bytesOf(download)).toString("utf8");
    const picture = await readPicture(page, svg);
    expect(picture.error).toBeNull();
    expect(picture.root).toBe("svg");
    expect(picture.marks).toEqual(onPage);
    expect(picture.lost).toEqual([]);
    for (const colour of await coloursOnPage(figure)) expect(picture.colours).toContain(colour);
    expect(picture.words).toContain("Shuffle, ");
    expect(picture.faces).toBe(2);
    for (const notAlone of ["var(", "class=", "style=", "currentColor", "NaN", "undefined"])
      expect(svg).not.toContain(notAlone);
    // Namespaces are names; nothing else leads elsewhere.
    expect(svg.replace(/xmlns(:\w+)?="[^"]*"/g, "")).not.toMatch(/https?:/);

    const dots = await readDots(page, await bytesOf(await keep(page, control, "PNG")));
    expect([dots.width, dots.height]).toEqual([picture.width * 2, picture.height * 2]);
    // Ink: words are in every picture.
    expect(dots.colours).toContain("30 27 24");
    expect(dots.colours.length).toBeGreaterThan(20);
    expect(dots.share).toBeLessThan(0.97);
  }
});

test("words under a figure are in its picture, its controls are not", async ({ page }) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, HOW);
  const ring = page.locator("figure").filter({ hasText: "Circle: written." }).first();
  const control = ring.getByRole("button", { name: "Keep this picture" });
  const { words } = await readPicture(
    page,
    (await bytesOf(await keep(page, control, "SVG"))).toString("utf8"),
  );
  const caption = "Circle: written. Across it the played mean, along the ring one spread either way.";
  expect(words.replace(/\s+/g, " ")).toContain(caption);
  expect(words).not.toContain("Keep this picture");
  await expect(page.getByText("Handed over to the downloads: Shuffle, bar ring, ")).toBeVisible();
});

test("by keys alone: I goes to a picture, Enter and the arrows keep it; O opens what can be taken along", async ({
  page,
}) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, HOW);
  const controls = page.getByRole("main").getByRole("button", { name: "Keep this picture" });
  await page.keyboard.press("i");
  await expect(controls.nth(0)).toBeFocused();
  await page.keyboard.press("i");
  await expect(controls.nth(1)).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("menuitem", { name: "SVG" })).toBeFocused();
  await page.keyboard.press("ArrowDown");
  const picture = await downloadBy(page, () => page.keyboard.press("Enter"));
  expect(picture.suggestedFilename()).toMatch(/\.png$/);
  await expect(controls.nth(1)).toBeFocused();
  await page.keyboard.press("o");
  await expect(page.getByRole("menu", { name: "Take it along" })).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("menu")).toHaveCount(0);
});

/** Takes a file from the list of what can be taken along. */
async function takeAlong(page: Page, section: string, item: string): Promise<Download> {
  await page.keyboard.press("o");
  const group = page.getByRole("group", { name: section });
  const download = await downloadBy(page, () =>
    group.getByRole("menuitem", { name: item, exact: false }).click(),
  );
  // While the menu stands, letters are its own.
  await expect(page.getByRole("menu")).toHaveCount(0);
  return download;
}

function strokesIn(file: Buffer): readonly number[] {
  return readSmf(file).events.flatMap(({ time, message }) =>
    message.kind === "note-on" && message.velocity > 0 ? [time] : [],
  );
}

test("the groove is taken along as MIDI file, MusicXML and staff", async ({ page }) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, HOW);
  const notes = grooveById("shuffle")?.notes.length ?? 0;
  const midi = await takeAlong(page, "The groove", "MIDI file");
  expect(midi.suggestedFilename()).toMatch(/^Shuffle, \d{4}-\d\d-\d\d, 120 a minute\.mid$/);
  const bytes = await bytesOf(midi);
  expect(strokesIn(bytes)).toHaveLength(4 * notes);
  expect(readSmf(bytes).tempos[0]?.tempoBpm).toBeCloseTo(120, 3);

  const musicXml = (await bytesOf(await takeAlong(page, "The groove", "MusicXML"))).toString("utf8");
  expect(musicXml.match(/<unpitched>/g)).toHaveLength(notes);

  const svg = (await bytesOf(await takeAlong(page, "The groove", "Staff, SVG"))).toString("utf8");
  const staff = await readPicture(page, svg);
  expect([staff.error, staff.root]).toEqual([null, "svg"]);
  expect(staff.marks.path).toBeGreaterThan(0);
  expect(svg).not.toMatch(/var\(|class=|currentColor|NaN/);
  const dots = await readDots(page, await bytesOf(await takeAlong(page, "The groove", "Staff, PNG")));
  expect([dots.width, dots.height]).toEqual([staff.width * 2, staff.height * 2]);
  expect(dots.share).toBeLessThan(0.97);
});

test("the take is taken along as it was played: MIDI file, a line a strike, MusicXML, and the report", async ({
  page,
}) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, HOW, withoutEverySecondKick);
  const played = strokesIn(withoutEverySecondKick(grooveFile("shuffle", HOW)));
  const midi = strokesIn(await bytesOf(await takeAlong(page, "This take", "MIDI file")));
  expect(midi).toHaveLength(played.length);
  const shift = (midi[0] ?? 0) - (played[0] ?? 0);
  for (const [at, time] of midi.entries())
    expect(Math.abs(time - shift - (played[at] ?? 0))).toBeLessThan(0.001);

  const strikes = await takeAlong(page, "This take", "Strikes, CSV");
  expect(strikes.suggestedFilename()).toMatch(/^Shuffle, strikes, .*\.csv$/);
  const lines = (await bytesOf(strikes)).toString("utf8").trimEnd().split("\r\n");
  expect(lines[0]).toMatch(/^seconds,voice,/);
  expect(lines).toHaveLength(1 + played.length);

  const report = (await bytesOf(await takeAlong(page, "This take", "Report, CSV"))).toString("utf8");
  expect(report).toContain("\r\n");
  expect(report).toContain("kick");
  const musicXml = (await bytesOf(await takeAlong(page, "This take", "MusicXML"))).toString("utf8");
  expect(musicXml.match(/<unpitched>/g)).toHaveLength(played.length);
});

test("an entry of the Shelf is taken along, too; P shows its page", async ({ page }) => {
  await withoutPlaces(page);
  await page.goto("./#/shelf");
  await expect(page.getByRole("listbox", { name: "On the Shelf" }).getByRole("option").first()).toBeVisible();
  await page.getByRole("searchbox", { name: "Find on the Shelf" }).fill("bossa nova");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Bossa nova" })).toBeVisible();
  const musicXml = await takeAlong(page, "As a file", "MusicXML");
  expect(musicXml.suggestedFilename()).toMatch(/^Bossa nova, .*\.musicxml$/);
  const notes = grooveById("bossa-nova")?.notes.length;
  expect((await bytesOf(musicXml)).toString("utf8").match(/<unpitched>/g)).toHaveLength(notes ?? 0);
  const ring = await keep(
    page,
    page.getByRole("main").getByRole("button", { name: "Keep this picture" }),
    "SVG",
  );
  expect((await readPicture(page, (await bytesOf(ring)).toString("utf8"))).marks.circle).toBeGreaterThan(
    notes ?? 0,
  );
  await page.keyboard.press("p");
  await expect(page.getByRole("dialog", { name: "Groove sheet: Bossa nova" })).toBeVisible();
  await page.keyboard.press("Escape");
  // The page is put away; the entry under it stays open.
  await expect(page.getByRole("dialog")).toHaveCount(0);
  await expect(page.getByRole("heading", { level: 1, name: "Bossa nova" })).toBeVisible();
});

test.describe("with the files kept", () => {
  test.use({ serviceWorkers: "allow" });

  test("with the network off pictures, files and pages are made all the same", async ({ page, context }) => {
    await withoutPlaces(page);
    await page.goto("./#/kit");
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      if (navigator.serviceWorker.controller) return;
      await new Promise((settle) =>
        navigator.serviceWorker.addEventListener("controllerchange", settle, { once: true }),
      );
    });
    await context.setOffline(true);
    await openReport(page, SHUFFLE, HOW);
    const control = page.getByRole("main").getByRole("button", { name: "Keep this picture" }).first();
    const dots = await readDots(page, await bytesOf(await keep(page, control, "PNG")));
    expect(dots.colours).toContain("13 102 102");
    const musicXml = (await bytesOf(await takeAlong(page, "The groove", "MusicXML"))).toString("utf8");
    expect(musicXml).toContain("<score-partwise");
    await page.keyboard.press("p");
    await expect(page.getByRole("img", { name: "Shuffle on the staff" })).toBeVisible();
  });
});

test("where a place can be chosen the file is written there, and a full disk is told in words", async ({
  page,
}) => {
  await page.addInitScript(() => {
    const written: string[] = [];
    Reflect.set(window, "writtenFiles", written);
    Reflect.set(window, "showSaveFilePicker", async ({ suggestedName }: { suggestedName: string }) => ({
      name: suggestedName,
      getFile: async () => ({ size: 1 }),
      createWritable: async () => ({
        write: async (content: Blob) => {
          if (suggestedName.endsWith(".png")) throw new DOMException("No room.", "QuotaExceededError");
          written.push(await content.text());
        },
        close: async () => undefined,
        abort: async () => undefined,
      }),
    }));
  });
  await openReport(page, SHUFFLE, HOW);
  const control = page.getByRole("main").getByRole("button", { name: "Keep this picture" }).first();
  await control.click();
  await page.getByRole("menuitem", { name: "SVG" }).click();
  await expect(page.getByText("Saved: Shuffle, bar ring, ")).toBeVisible();
  const written = await page.evaluate(() => Reflect.get(window, "writtenFiles") as readonly string[]);
  expect(written).toHaveLength(1);
  expect(written[0]).toMatch(/^<svg .*<\/svg>$/s);
  await control.click();
  await page.getByRole("menuitem", { name: "PNG" }).click();
  await expect(page.getByRole("alert")).toContainText(
    "there is no room left. Make room, or choose another place.",
  );
});

test("menus and what they tell hold no barrier", async ({ page }) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, HOW);
  await page.keyboard.press("o");
  await expect(page.getByRole("menu")).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("Escape");
  const control = page.getByRole("main").getByRole("button", { name: "Keep this picture" }).first();
  await control.click();
  await expect(page.getByRole("menu")).toBeVisible();
  await expectClean(page);
  await page.getByRole("menuitem", { name: "SVG" }).click();
  await expect(page.getByText("Handed over to the downloads")).toBeVisible();
  await expectClean(page);
  const small = await page
    .getByRole("main")
    .getByRole("button")
    .evaluateAll((buttons) =>
      buttons
        .map((button) => ({ name: button.textContent, box: button.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 1 && (box.width < 43.9 || box.height < 43.9))
        .map(({ name, box }) => `${name} ${box.width} × ${box.height}`),
    );
  expect(small).toEqual([]);
});
