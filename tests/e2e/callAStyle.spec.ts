import { expect, type Page } from "@playwright/test";
import { STYLES } from "../../engine/catalogue/index.ts";
import { expectClean } from "./clean.ts";
import { IN_REAL_TIME, MEASURED, WAITING } from "./measured.ts";
import { dropFile, grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";
import { noteTexts, shownOf } from "./textsShown.ts";
import { openConnected, pullOut, putBack, send, stroke } from "./virtualKit.ts";

test.use({ serviceWorkers: "allow" });

async function call(page: Page, name: string): Promise<void> {
  await page
    .getByRole("listbox", { name: "What is called" })
    .getByRole("option", { name, exact: true })
    .click();
}

async function demonstrate(page: Page, style: string, tempoBpm: number, bars: number): Promise<void> {
  await page.getByRole("button", { name: /Style to play/ }).click();
  await page.getByRole("listbox").getByRole("option", { name: style, exact: true }).last().click();
  await page.getByRole("textbox", { name: "Tempo" }).fill(String(tempoBpm));
  await page.getByRole("textbox", { name: "Bars" }).fill(String(bars));
  await page.getByRole("textbox", { name: "Bars" }).press("Tab");
  await page.getByRole("button", { name: "Play", exact: true }).click();
}

declare global {
  interface Window {
    /** Hands the worker what was held back. */
    thinkOn: () => void;
  }
}

/** Takes are handed to the worker that thinks them over only when the test says so; after that, at once. */
async function holdThinking(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const post = Worker.prototype.postMessage;
    const held: (() => void)[] = [];
    let isHeld = true;
    Worker.prototype.postMessage = function (this: Worker, message: { readonly kind?: string }) {
      const on = (): void => post.call(this, message);
      if (isHeld && message.kind === "judge") held.push(on);
      else on();
    };
    window.thinkOn = () => {
      isHeld = false;
      for (const on of held) on();
    };
  });
}

/** The style that stands before another in the list. */
function styleBefore(name: string): string {
  const before = STYLES[STYLES.findIndex((style) => style.name === name) - 1];
  if (!before) throw new Error(`The catalogue has no style before ${name}.`);
  return before.name;
}

test("a called style, played by the demonstration: heard while it plays, reported after", async ({
  page,
}) => {
  await page.goto("./#/call-a-style");
  await call(page, "Shuffle");
  await page.getByRole("button", { name: "Start listening" }).click();
  await expect(page.getByText("Play when you are ready.")).toBeVisible();
  await demonstrate(page, "Shuffle", 132, 6);
  await expect(page.getByText(/^Shuffle\. I am (sure|nearly sure|fairly sure)\.$/)).toBeVisible({
    timeout: 15_000,
  });
  await expect(page.getByText(/13[123] a minute · 4\/4/)).toBeVisible();
  await expect(page.getByText("Shuffle was played:")).toBeVisible({ timeout: 20_000 });
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Shuffle, as called" })).toBeVisible();
  for (const name of ["Voices", "Touch", "Along the take", "More about this take"]) {
    await expect(page.getByRole("heading", { name, exact: true })).toBeVisible();
  }
  await expect(page.getByRole("complementary", { name: "Margin" })).toContainText("Why shuffle");
  await expect(page.getByRole("complementary", { name: "Margin" })).toContainText("Spread");
});

test("what is heard is spoken when it changes, and not bar by bar", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("button", { name: "Start listening" }).click();
  const spoken = page.getByRole("main").getByRole("status");
  await dropFile(page, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(spoken).toHaveText(/^Samba\. I am /);
  await expect(page.getByText(/100 a minute · 2\/4 · eight bars/)).toBeVisible();
  await expect(spoken).not.toContainText("bars");
});

test("a free choice from a MIDI file, all at once, is named", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("button", { name: "Start listening" }).click();
  await dropFile(page, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Samba" })).toBeVisible();
});

test("again while a take is thought over is said, and begins the next take as soon as it is", async ({
  page,
}) => {
  await holdThinking(page);
  await page.goto("./#/call-a-style");
  await call(page, "Samba");
  await page.getByRole("button", { name: "Start listening" }).click();
  await dropFile(page, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Thinking it over" })).toBeVisible();
  await expect(page.getByRole("button", { name: "Again" })).toBeEnabled();
  await page.keyboard.press("r");
  await expect(
    page.getByText("Again: the next take begins as soon as this one is thought over."),
  ).toBeVisible();
  await expect(page.getByRole("button", { name: "Again" })).toBeDisabled();
  await expectClean(page);
  await page.evaluate(() => window.thinkOn());
  await expect(page.getByText("Play when you are ready.")).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Nothing was played" })).toBeVisible();
});

test("a MIDI file plays at true speed, and can be stopped", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await dropFile(page, "bolero.mid", grooveFile("bolero", { bars: 40, tempoBpm: 100 }));
  await page.getByRole("button", { name: "Start listening" }).click();
  await page.getByRole("button", { name: "Play it" }).click();
  await expect(page.getByText("Playing bolero.mid, ")).toBeVisible();
  await expect(page.getByText("I hear you.")).toBeVisible();
  await page.getByRole("button", { name: "Stop playing" }).click();
  await expect(page.getByRole("button", { name: "Play it" })).toBeVisible();
});

test("a MIDI file can be chosen, too", async ({ page }) => {
  await page.goto("./#/call-a-style");
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    page.getByRole("button", { name: "MIDI file" }).click(),
  ]);
  const buffer = grooveFile("swing", { bars: 2, tempoBpm: 140 });
  await chooser.setFiles({ name: "swing.mid", mimeType: "audio/midi", buffer });
  await expect(page.getByText("swing.mid")).toBeVisible();
  await expect(page.getByRole("button", { name: "Play it" })).toBeVisible();
});

test("the same seed plays the same strokes again", async ({ page }) => {
  await page.goto("./#/kit");
  const strengths = async (): Promise<readonly string[]> => {
    await page.getByRole("button", { name: "Play", exact: true }).click();
    await expect(page.getByText(/was played: \d+ strokes/)).toBeVisible({ timeout: 15_000 });
    return page.getByRole("row").locator("td:nth-child(3)").allTextContents();
  };
  await page.getByRole("textbox", { name: "Tempo" }).fill("300");
  await page.getByRole("textbox", { name: "Bars" }).fill("2");
  await page.getByRole("textbox", { name: "Seed" }).fill("11");
  await page.getByRole("textbox", { name: "Seed" }).press("Tab");
  const first = await strengths();
  expect(first.length).toBe(12);
  expect(await strengths()).toEqual(first);
  await page.getByRole("textbox", { name: "Seed" }).fill("12");
  await page.getByRole("textbox", { name: "Seed" }).press("Tab");
  expect(await strengths()).not.toEqual(first);
});

test("a file that is none is refused in a clear sentence", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await dropFile(page, "letter.mid", Buffer.from("Dear drummer"));
  await expect(page.getByRole("alert")).toContainText("letter.mid cannot be played.");
  await expect(page.getByRole("alert")).toContainText("Choose another file");
});

test.describe("in real time", IN_REAL_TIME, () => {
  test.describe.configure(MEASURED);
  test("Enter on a style of the list begins, and the ring shows the latest strokes while they are painted in time", async ({
    page,
  }) => {
    await page.goto("./#/call-a-style");
    await page.getByRole("option", { name: styleBefore("Half-time shuffle"), exact: true }).click();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { level: 1, name: "Half-time shuffle" })).toBeVisible();
    await page.evaluate(() => {
      const durations: number[] = [];
      new PerformanceObserver((list) => {
        for (const { duration } of list.getEntriesByName("strike-painted")) durations.push(duration);
        document.documentElement.dataset.paintedMs = JSON.stringify(durations);
      }).observe({ type: "measure" });
    });
    await demonstrate(page, "Half-time shuffle", 160, 8);
    await expect(page.getByText("Half-time shuffle was played:")).toBeVisible({ timeout: 20_000 });
    const painted: readonly number[] = JSON.parse(
      (await page.locator("html").getAttribute("data-painted-ms")) ?? "[]",
    );
    const sorted = [...painted].sort((a, b) => a - b);
    expect(sorted.length).toBeGreaterThan(50);
    const median = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
    test.info().annotations.push({
      type: "strike to paint while listening",
      description: `median ${median.toFixed(1)} ms`,
    });
    expect(median).toBeLessThanOrEqual(2 * (1000 / 60));
  });
});

test("an empty take is told without shame, and can be begun again", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await expect(page.getByRole("listbox", { name: "What is called" })).toBeVisible();
  await page.keyboard.press("Space");
  await expect(page.getByText("Play when you are ready.")).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Nothing was played" })).toBeVisible();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Nothing was played" })).toBeVisible();
  await page.getByRole("button", { name: "Again" }).click();
  await expect(page.getByText("Play when you are ready.")).toBeVisible();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Nothing was played" })).toBeVisible();
  await page.keyboard.press("KeyR");
  await expect(page.getByText("Play when you are ready.")).toBeVisible();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Nothing was played" })).toBeVisible();
  await page.keyboard.press("KeyN");
  await expect(page.getByRole("heading", { level: 1, name: "Call a Style" })).toBeVisible();
});

test("too few strokes are said to be too few", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("button", { name: "Start listening" }).click();
  for (const key of ["KeyJ", "KeyF", "KeyJ"]) await page.keyboard.press(key);
  await expect(page.getByText("I hear you.")).toBeVisible();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Too little to tell" })).toBeVisible();
  await page.getByRole("button", { name: "Another style" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Call a Style" })).toBeVisible();
});

test("a kit unplugged in the middle keeps the take, and goes on when it is back", async ({ page }) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Call a Style" }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await send(page, [stroke(36), stroke(42)]);
  await pullOut(page);
  await expect(page.getByRole("alert")).toContainText(
    "The kit is unplugged. What you played so far is kept.",
  );
  await putBack(page);
  await expect(page.getByRole("alert")).toHaveCount(0);
  await send(page, [stroke(38)]);
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Too little to tell" })).toBeVisible();
});

test.describe("in real time", WAITING, () => {
  test.describe.configure(MEASURED);
  test("with a click and a count-in, the count is shown and the lean is measured against the click", async ({
    page,
  }) => {
    await page.goto("./#/call-a-style");
    await call(page, "Rock eighths");
    await page.getByText("Click", { exact: true }).click();
    await page.getByText("Count in, one bar").click();
    await page.getByRole("textbox", { name: "Click" }).fill("240");
    await page.getByRole("textbox", { name: "Click" }).press("Tab");
    await noteTexts(page, "main p");
    await page.getByRole("button", { name: "Start listening" }).click();
    const counts = ["one", "two", "three", "four"];
    await expect.poll(() => shownOf(page, counts)).toEqual(counts);
    await expect(page.getByText("four", { exact: true })).toBeHidden();
    await demonstrate(page, "Rock eighths", 240, 6);
    await expect(page.getByText("Rock eighths was played:")).toBeVisible({ timeout: 15_000 });
    await page.keyboard.press("Escape");
    await expect(page.getByText("with the click")).toBeVisible();
    await expect(page.getByRole("complementary", { name: "Margin" })).toContainText(/Lean/);
  });
});

test("the take goes on while another screen is looked at", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("button", { name: "Start listening" }).click();
  await page.keyboard.press("KeyF");
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.keyboard.press("KeyJ");
  await page.getByRole("link", { name: "Call a Style" }).click();
  await expect(page.getByText("I hear you.")).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Too little to tell" })).toBeVisible();
});
