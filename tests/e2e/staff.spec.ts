import { expect } from "@playwright/test";
import { dropFile, grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";

test("the staff stands under the ring, and comes with the first style that is called", async ({ page }) => {
  // The engraver is held back until the page stands: it is not waited for.
  let heldBack = 0;
  let letGo = (): void => {};
  const standing = new Promise<void>((done) => {
    letGo = done;
  });
  await page.route(/engrav/i, async (route) => {
    heldBack += 1;
    await standing;
    await route.continue();
  });
  await page.goto("./#/call-a-style");
  await expect(page.getByRole("heading", { level: 1, name: "Call a Style" })).toBeVisible();
  letGo();
  await page.getByRole("option", { name: "Seven-eight", exact: true }).click();
  const staff = page.getByRole("img", { name: /^Seven-eight on the staff/ });
  await expect(staff).toBeVisible();
  await expect(staff).toHaveAccessibleName(
    /1 bar of 7\/8\. hi-hat on 1, 2, 3, 4, 5, 6, 7; snare on 3, 7; kick on 1, 5\./,
  );
  expect(heldBack).toBeGreaterThan(0);
  const [drawn, sheet] = await Promise.all([staff.boundingBox(), page.getByRole("main").boundingBox()]);
  expect((drawn?.x ?? 0) + (drawn?.width ?? 0)).toBeLessThanOrEqual((sheet?.x ?? 0) + (sheet?.width ?? 0));
});

test("while it is played to a click, the bar that is played is marked, and only that", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name: "Bossa nova", exact: true }).click();
  await page.getByText("Click", { exact: true }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  const current = page.locator("[data-current-bar]");
  await expect(current).toHaveAttribute("data-current-bar", "0");
  await expect(current).toHaveAttribute("data-current-bar", "1");
  await expect(current).toHaveAttribute("data-current-bar", "0");
  await expect(current).toHaveCount(1);
});

test("after the take, what was heard stands under what is written, bar by bar", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name: "Samba", exact: true }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await dropFile(page, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/^Samba\. I am /)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Written over heard" })).toBeVisible();
  await expect(
    page.getByRole("img", { name: /^Bars 1 to 2, written over heard: nothing differs/ }),
  ).toBeVisible();
  await page.getByRole("button", { name: "The bars after" }).click();
  await expect(page.getByRole("img", { name: /^Bars 3 to 4, written over heard/ })).toBeVisible();
  await expect(page.getByText("As written, every stroke.")).toBeVisible();
});

test("the wall shows the staff, large and within its page", async ({ page, context }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name: "Shuffle", exact: true }).click();
  const [wall] = await Promise.all([
    context.waitForEvent("page"),
    page.getByRole("button", { name: "Wall view" }).click(),
  ]);
  await wall.setViewportSize({ width: 1280, height: 720 });
  const staff = wall.getByRole("img", { name: /^Shuffle on the staff/ });
  await expect(staff).toBeVisible();
  // The staff takes the new width of the window a moment after the window has it.
  await expect(async () => {
    const box = await staff.boundingBox();
    expect(box?.width ?? 0).toBeGreaterThan(300);
    expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(1280);
  }).toPass({ timeout: 10_000 });
});

test("a take of another style than was called is written down as it was heard", async ({ page }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name: "Waltz", exact: true }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await dropFile(page, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/^Samba\. I am /)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "As it was heard" })).toBeVisible();
  await expect(page.getByRole("img", { name: /^Bars 1 to 4 as heard/ })).toBeVisible();
});
