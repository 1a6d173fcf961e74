/**
 * Paints the PNG icons of renderer/public/icons from the drawings (SVG) beside them: `node scripts/icons.mjs`. Needed
 * only after a drawing was changed; the result is kept.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "@playwright/test";
import { findChromium } from "./chromium.mjs";
import { root, runAsProgram, say } from "./command.mjs";

const folder = join(root, "renderer", "public", "icons");
const icons = [
  { drawing: "throneside.svg", pixels: 192, icon: "throneside-192.png" },
  { drawing: "throneside.svg", pixels: 512, icon: "throneside-512.png" },
  { drawing: "throneside-maskable.svg", pixels: 512, icon: "throneside-maskable-512.png" },
];

await runAsProgram(async () => {
  const executablePath = findChromium();
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
  const page = await browser.newPage();
  for (const { drawing, pixels, icon } of icons) {
    await page.setViewportSize({ width: pixels, height: pixels });
    const svg = readFileSync(join(folder, drawing), "utf8");
    await page.setContent(`<style>*{margin:0}svg{display:block;width:100vw}</style>${svg}`);
    await page.screenshot({ path: join(folder, icon), omitBackground: true });
    say(`${icon}: ${pixels} pixels.`);
  }
  await browser.close();
  return 0;
});
