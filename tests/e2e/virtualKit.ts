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
    /** Sends messages from an input with this moment as their time stamp (session clock, seconds), however late the page is. */
    sendStamped: (input: string, messages: readonly (readonly number[])[], at: number) => void;
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
    window.sendStamped = (input, messages, at) => {
      const { now } = performance;
      performance.now = () => at * 1000;
      for (const bytes of messages) window.virtualInputs[input]?.emit(bytes);
      performance.now = now;
    };
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

/** Messages of an input, in order of time. */
export interface Timed {
  readonly ms: number;
  readonly bytes: readonly number[];
}

/**
 * Sends messages in time, as a driver does: each is stamped with the moment it is meant for, and handed over a little
 * later, whenever the page gets round to it. Settles when the last was sent.
 *
 * @param from when 0 ms is, by the page's clock in milliseconds; a moment from now when not said.
 */
export async function sendInTime(
  page: Page,
  messages: readonly Timed[],
  { name = KIT, from }: { readonly name?: string; readonly from?: number } = {},
): Promise<void> {
  await page.evaluate(
    async ([input, all, begins]) => {
      const begun = begins ?? performance.now() + 100;
      for (const { ms, bytes } of all) {
        while (performance.now() < begun + ms)
          await new Promise((done) => setTimeout(done, begun + ms - performance.now()));
        window.sendStamped(input, [bytes], (begun + ms) / 1000);
      }
    },
    [name, messages, from] as const,
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
