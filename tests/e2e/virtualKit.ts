/**
 * A kit made of nothing: Web MIDI is replaced, before the page's own scripts, by one whose inputs the test
 * plugs in, strikes and pulls out.
 */
import { createRequire } from "node:module";
import type { Page } from "@playwright/test";

interface VirtualInput {
  readonly connect: () => void;
  readonly disconnect: () => void;
  readonly emit: (bytes: readonly number[]) => void;
}

declare global {
  interface Window {
    /** Put there by web-midi-test. */
    WMT: {
      midi: boolean;
      readonly MidiSrc: new (name: string) => VirtualInput;
      readonly requestMIDIAccess: Navigator["requestMIDIAccess"];
    };
    virtualInputs: Record<string, VirtualInput>;
  }
}

const webMidiTest = createRequire(import.meta.url).resolve("web-midi-test");

/** The usual name of the kit in these tests. */
export const KIT = "Nine-piece module";

/** Replaces Web MIDI for the pages opened from now on, with these inputs plugged in. */
export async function plugIn(page: Page, ...names: readonly string[]): Promise<void> {
  await page.addInitScript({ path: webMidiTest });
  await page.addInitScript((plugged) => {
    navigator.requestMIDIAccess = window.WMT.requestMIDIAccess;
    window.virtualInputs = {};
    for (const name of plugged) {
      const input = new window.WMT.MidiSrc(name);
      input.connect();
      window.virtualInputs[name] = input;
    }
  }, names);
}

/** Sends messages from an input, each as its bytes. */
export async function send(page: Page, messages: readonly (readonly number[])[], name = KIT): Promise<void> {
  await page.evaluate(
    ([input, all]) => {
      for (const bytes of all) window.virtualInputs[input]?.emit(bytes);
    },
    [name, messages] as const,
  );
}

/** A stroke on a key, on the drum channel. */
export function stroke(key: number, velocity = 90): readonly number[] {
  return [0x99, key, velocity];
}

export async function pullOut(page: Page, name = KIT): Promise<void> {
  await page.evaluate((input) => window.virtualInputs[input]?.disconnect(), name);
}

export async function putBack(page: Page, name = KIT): Promise<void> {
  await page.evaluate((input) => window.virtualInputs[input]?.connect(), name);
}

/** Opens the Kit screen with a kit plugged in, and connects it. */
export async function openConnected(page: Page): Promise<void> {
  await plugIn(page, KIT);
  await page.goto("./#/kit");
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
}
