/**
 * The whole way, once: a kit that is not there plays a real drummer's take at true speed; the page hears it,
 * names it and reports it with the very figures the command line gives for the file.
 * Take: Groove MIDI Dataset v1.0.0, drummer4/session1/9 (Gillick et al., ICML 2019; CC BY 4.0), unchanged.
 */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "@playwright/test";
import { readSmf, strikesOf } from "../../engine/formats/index.ts";
import { type MidiMessage, parseKitMap } from "../../engine/kit/index.ts";
import { judgeTake } from "../../engine/rounds/index.ts";
import { formatLean, formatSpread } from "../../renderer/charts/figures.ts";
import { test } from "./quietTest.ts";
import { openConnected, sendInTime } from "./virtualKit.ts";

const project = new URL("../../", import.meta.url);
const inProject = (path: string): string => fileURLToPath(new URL(path, project));
const takePath = inProject("tests/fixtures/groove-midi/9_latin-merengue_158_beat_4-4.mid");
const take = readSmf(readFileSync(takePath));
const wideMap = parseKitMap(
  JSON.parse(readFileSync(inProject("kit-maps/wide-nine-piece.json"), "utf8")),
  "wide-nine-piece.json",
);

/** The bytes a kit sends for a message; a note-off as the usual note-on of velocity 0. */
function bytesOf(message: MidiMessage): readonly number[] {
  switch (message.kind) {
    case "note-on":
      return [0x99, message.note, message.velocity];
    case "note-off":
      return [0x99, message.note, 0];
    case "key-pressure":
      return [0xa9, message.note, message.pressure];
    case "control":
      return [0xb9, message.controller, message.value];
    case "other":
      return [];
  }
}

interface GradeLine {
  readonly perBeat: readonly { readonly beat: number; readonly leanMs: number; readonly spreadMs: number }[];
  readonly hits: readonly { readonly state: string }[];
  readonly spreadMs: number;
}

function gradedOnTheCommandLine(grooveId: string): GradeLine {
  const program = inProject("dist/cli/throneside.js");
  const line = execFileSync(process.execPath, [program, "grade", "--groove", grooveId, "--json", takePath]);
  return JSON.parse(line.toString());
}

test("a real drummer's take at true speed: heard while it is played, reported with the command line's figures", async ({
  page,
}) => {
  await openConnected(page);
  await page.getByRole("button", { name: /Kit map/ }).click();
  await page.getByRole("option", { name: "Wide nine-piece kit" }).click();
  await page.getByRole("link", { name: "Call a Style" }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  const messages = take.events.map(({ time, message }) => ({ ms: time * 1000, bytes: bytesOf(message) }));
  const played = sendInTime(page, messages);
  await expect(page.getByText(/^Merengue\. I am (sure|nearly sure|fairly sure)\.$/)).toBeVisible({
    timeout: 20_000,
  });
  await expect(page.getByText(/15[0-9] a minute · 4\/4/)).toBeVisible();
  await played;
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Merengue" })).toBeVisible();

  const laidBeside = judgeTake({ hits: strikesOf(take, wideMap), styleId: null, click: null }).compared;
  expect(laidBeside?.groove.id).toMatch(/^merengue/);
  const graded = gradedOnTheCommandLine(laidBeside?.groove.id ?? "");
  expect(graded.perBeat.map(({ beat }) => beat)).toEqual([1, 2, 3, 4]);

  await page.getByText("Figures by beat").click();
  const rows = page.getByRole("table", { name: "Figures by beat" }).getByRole("row");
  for (const { beat, leanMs, spreadMs } of graded.perBeat) {
    const row = rows.filter({ has: page.getByRole("rowheader", { name: `beat ${beat}`, exact: true }) });
    await expect(row).toContainText(formatLean(leanMs));
    await expect(row).toContainText(formatSpread(spreadMs));
  }
  await expect(page.getByRole("complementary", { name: "Margin" })).toContainText(
    `${Math.round(graded.spreadMs)} ms`,
  );
  await expect(page.locator(".recharts-surface").first()).toBeVisible();

  await page.getByText("Figures by beat").click();
  if (process.env.THRONESIDE_PICTURES)
    await page.screenshot({ path: inProject("pictures/call-a-style.png") });
});
