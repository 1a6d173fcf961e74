/** Two students on two kits in Replay: a line for each, walked between by keys, heard together or one alone. */
import { expect } from "@playwright/test";
import { lessonState } from "../../engine/session/index.ts";
import { LEAD_IN, takesOf } from "../../renderer/screens/replay/takesOfLesson.ts";
import { AT, playedOnTwoKits } from "../renderer/screens/replay/playedLesson.ts";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { BRAM, keepLessons, linkTo } from "./replayed.ts";
import { turnTo } from "./turnTo.ts";

const TWO = playedOnTwoKits(
  AT,
  { studentId: "bram", takes: [{ styleId: "rock-eighths", seed: 1 }] },
  {
    studentId: "noor",
    takes: [
      { styleId: "shuffle", seed: 2, bars: 4 },
      { styleId: "shuffle", seed: 3, bars: 4 },
    ],
    remarks: [{ about: 8, text: "Even left hand." }],
  },
);
const NOORS = takesOf(lessonState(TWO)).filter(({ lane }) => lane === 1);
test("each kit has its line, its takes and its name; keys walk between them", async ({ page }) => {
  await keepLessons(page, [TWO], [BRAM, { ...BRAM, id: "noor", nickname: "Noor" }]);
  await turnTo(page, linkTo(TWO, 9));
  await expect(page.getByRole("heading", { name: "Bram and Noor, 2 March 2026, 16:30" })).toBeVisible();
  const kit = page.getByRole("button", { name: /Kit$/ });
  await expect(kit).toContainText("kit 1, Bram");
  await expect(page.getByRole("heading", { name: /^Take \d, Bram: Rock eighths/ })).toBeVisible();

  await page.keyboard.press("Shift+ArrowDown");
  await expect(kit).toContainText("kit 2, Noor");
  await expect(page.getByText("At kit 2, Noor.")).toBeVisible();
  await expect(page.getByRole("heading", { name: /^Take \d, Noor: Shuffle/ })).toBeVisible();
  // Takes and strikes are those of the kit one is at.
  await page.keyboard.press("PageDown");
  await expect(page.getByRole("slider", { name: "Moment of the lesson" })).toHaveAttribute(
    "aria-valuenow",
    String(Math.round((NOORS[1]?.from ?? 0) - LEAD_IN)),
  );
  await page.keyboard.press("Shift+ArrowRight");
  await expect(page.getByText(/^(Ride|Kick|Snare|Hi-hat)\b.*strength \d+ of 127/i).first()).toBeVisible();
  await page.keyboard.press("Shift+ArrowUp");
  await expect(kit).toContainText("kit 1, Bram");
  // There is none above the first.
  await page.keyboard.press("Shift+ArrowUp");
  await expect(kit).toContainText("kit 1, Bram");

  // A pointer put down on a kit's line goes there.
  const slider = page.getByRole("slider", { name: "Moment of the lesson" });
  const box = await slider.boundingBox();
  if (!box) throw new Error("The line is not on the page.");
  await page.mouse.click(box.x + box.width / 2, box.y + (3 * box.height) / 4);
  await expect(kit).toContainText("kit 2, Noor");
  await expect(page.getByLabel("Margin").getByText("hear this kit alone, or all")).toBeVisible();
  await expectClean(page);
});

test("both kits sound, or the one that is chosen", async ({ page }) => {
  await page.addInitScript(() => {
    // Every stroke is rung by one source; how many have been handed over is written where the test can read it.
    const { start } = AudioBufferSourceNode.prototype;
    AudioBufferSourceNode.prototype.start = function (...how: Parameters<typeof start>): void {
      const { dataset } = document.documentElement;
      dataset.strokes = String(Number(dataset.strokes ?? 0) + 1);
      start.apply(this, how);
    };
  });
  await keepLessons(page, [TWO], [BRAM, { ...BRAM, id: "noor", nickname: "Noor" }]);
  await page.reload();
  // Bram's only take is over here, Noor's second one goes on.
  const later = (NOORS[1]?.from ?? 0) + 5;
  expect(TWO.some((event) => event.kind === "hit" && event.lane === 0 && event.time > later)).toBe(false);
  const strokes = () => page.evaluate(() => Number(document.documentElement.dataset.strokes ?? 0));
  const kit = page.getByRole("button", { name: /Kit$/ });
  await turnTo(page, linkTo(TWO, later));
  await expect(kit).toContainText("kit 2, Noor");
  await page.keyboard.press("Shift+ArrowUp");
  await expect(kit).toContainText("kit 1, Bram");
  await page.keyboard.press("n");
  await expect(page.getByText("Only kit 1, Bram is heard.")).toBeVisible();
  await expect(page.getByRole("switch", { name: "Hear it alone" })).toBeChecked();
  await page.keyboard.press("Space");
  const slider = page.getByRole("slider", { name: "Moment of the lesson" });
  const moment = async () => Number(await slider.getAttribute("aria-valuenow"));
  await expect.poll(moment, { timeout: 20_000 }).toBeGreaterThan(later + 1);
  expect(await strokes()).toBe(0);
  await page.keyboard.press("n");
  await expect(page.getByText("All kits are heard.")).toBeVisible();
  await expect.poll(strokes).toBeGreaterThan(4);
  await page.keyboard.press("Space");
  await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("n");
  const before = await strokes();
  await page.keyboard.press("Space");
  await expect.poll(strokes).toBeGreaterThan(before);
});
