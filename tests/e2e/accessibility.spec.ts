import { expect, type Page } from "@playwright/test";
import { SCREENS } from "../../renderer/app/route.ts";
import { expectClean } from "./clean.ts";
import { dropFile, grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";
import { turnTo } from "./turnTo.ts";
import { KIT, openConnected, plugIn, pullOut, send, stroke } from "./virtualKit.ts";

/** The program has drawn a page, and it is not one that is still being fetched: before that there is nothing to look at yet. */
async function isDrawn(page: Page): Promise<void> {
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await expect(page.getByText("One moment: this page is being fetched.")).toHaveCount(0);
}

/** Opens the program, or turns it to another page. */
async function open(page: Page, screen: string): Promise<void> {
  if (page.url() === "about:blank") await page.goto(`./#/${screen}`);
  else await turnTo(page, `#/${screen}`);
  await isDrawn(page);
}

async function expectDrawnAndClean(page: Page): Promise<void> {
  await isDrawn(page);
  await expectClean(page);
}

test.use({ reducedMotion: "reduce" });

const EVERY_PAGE = [...SCREENS.map(({ id }) => id), "roster/new", "kit/room", "desk/kits"];

test("Kit: before, connected and struck, learning, several inputs, unplugged", async ({ page }) => {
  await openConnected(page);
  await expectDrawnAndClean(page);
  await send(page, [[0xb9, 4, 64], stroke(38), stroke(96), stroke(49), [0xa9, 49, 127]]);
  await expect(page.getByText("choked")).toBeVisible();
  await expectDrawnAndClean(page);
  await page.getByRole("button", { name: "Learn this kit" }).click();
  await expectDrawnAndClean(page);
  await page.getByRole("button", { name: /Kit map/ }).click();
  await expect(page.getByRole("option").first()).toBeVisible();
  await expectDrawnAndClean(page);
  await page.keyboard.press("Escape");
  await pullOut(page);
  await expect(page.getByText("The kit is unplugged.")).toBeVisible();
  await expectDrawnAndClean(page);
});

test("Kit: not connected, refused, several inputs", async ({ page }) => {
  await plugIn(page, KIT, "Practice pad");
  await page.addInitScript(() => {
    window.WMT.midi = false;
  });
  await page.goto("./#/kit");
  await expectDrawnAndClean(page);
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await expect(page.getByText("MIDI was refused")).toBeVisible();
  await expectDrawnAndClean(page);
  await page.evaluate(() => {
    window.WMT.midi = true;
  });
  await page.getByRole("button", { name: "Connect again" }).click();
  await expect(page.getByText("More than one MIDI input")).toBeVisible();
  await expectDrawnAndClean(page);
});

test("Call a Style: before, waiting, playing, report, empty take, broken file", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await expectDrawnAndClean(page);
  await page.getByRole("searchbox", { name: "Find a style" }).fill("nova");
  await expect(page.getByRole("option")).toHaveText(["Bossa nova"]);
  await expectDrawnAndClean(page);
  await page.getByRole("searchbox", { name: "Find a style" }).fill("nothing of the kind");
  await expect(page.getByText("No style is called that.")).toBeVisible();
  await expectDrawnAndClean(page);
  await page.getByRole("button", { name: "Empty this line" }).click();
  await page.getByRole("option", { name: "Bossa nova", exact: true }).click();
  await page.getByText("Click", { exact: true }).click();
  await dropFile(page, "letter.mid", Buffer.from("Dear drummer"));
  await expect(page.getByRole("alert")).toBeVisible();
  await expectDrawnAndClean(page);
  await page.getByText("Click", { exact: true }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await expectDrawnAndClean(page);
  await dropFile(page, "bossa.mid", grooveFile("bossa-nova", { bars: 8, tempoBpm: 130 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/^Bossa nova\. I am /)).toBeVisible();
  await expectDrawnAndClean(page);
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Voices" })).toBeVisible();
  await expectDrawnAndClean(page);
  await page.getByRole("button", { name: "Again" }).click();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Nothing was played" })).toBeVisible();
  await expectDrawnAndClean(page);
});

test("the wall view: waiting, before, playing, report", async ({ page, context }) => {
  await page.goto("./#/wall");
  await expect(page.getByText("Waiting for the book window.")).toBeVisible();
  await expectDrawnAndClean(page);
  const book = await context.newPage();
  await book.goto("./#/call-a-style");
  await book.getByRole("option", { name: "Samba", exact: true }).click();
  await expect(page.getByRole("heading", { name: "Samba" })).toBeVisible();
  await expectDrawnAndClean(page);
  await book.getByRole("button", { name: "Start listening" }).click();
  await dropFile(book, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await book.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/^Samba\. I am /)).toBeVisible();
  await expectDrawnAndClean(page);
  await book.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Samba, as called" })).toBeVisible();
  await expectDrawnAndClean(page);
});

test("at 200 % zoom the page is one column and nothing is cut off at the side", async ({ page }) => {
  test.slow();
  // Zoom halves the width in CSS pixels.
  await page.setViewportSize({ width: 640, height: 360 });
  for (const screen of EVERY_PAGE) {
    await open(page, screen);
    // Charts and staves take the width that is there a moment after it.
    await expect
      .poll(() =>
        page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
      )
      .toBe(0);
    await expectDrawnAndClean(page);
  }
});

test("every control is at least 44 by 44 pixels, or a link inside a sentence", async ({ page }) => {
  for (const screen of EVERY_PAGE) {
    await open(page, screen);
    if (screen === "call-a-style") await page.getByRole("searchbox", { name: "Find a style" }).fill("a");
    const small = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          "button, nav a, input[type=search], input[type=text], textarea, [role=option], label:has([role=switch])",
        ),
      ]
        .filter((control) => control.closest("[aria-hidden=true], [hidden]") === null)
        .map((control) => ({ name: control.textContent, box: control.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 1 && (box.width < 43.9 || box.height < 43.9))
        .map(({ name, box }) => `${name} ${box.width} × ${box.height}`),
    );
    expect(small).toEqual([]);
  }
});

test("where not all names of the spine are in sight, that of the page is, and not under the foot", async ({
  page,
}) => {
  await page.setViewportSize({ width: 1280, height: 520 });
  await page.goto("./#/desk");
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await turnTo(page, "#/studio");
  const current = page.getByRole("link", { name: "Studio", exact: true });
  await expect(current).toHaveAttribute("aria-current", "page");
  await expect
    .poll(() =>
      current.evaluate((link) => {
        const { left, top, width, height } = link.getBoundingClientRect();
        return document.elementFromPoint(left + width / 2, top + height / 2) === link;
      }),
    )
    .toBe(true);
});
