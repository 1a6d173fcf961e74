/**
 * Hears the click of a page twice over: the moments it was scheduled for, and the samples that came out of the audio
 * graph. Put it before the page's own scripts.
 */
import type { Page } from "@playwright/test";

declare global {
  interface Window {
    /**
     * For each sound that was scheduled: its audio time, and when it is heard on the session clock, in seconds. A sound
     * is where it reaches a tenth of its peak.
     */
    scheduled: { readonly at: number; readonly heardAt: number }[];
    /** Begins to keep what leaves the audio graph of the latest context. */
    hearOutput: () => Promise<void>;
    /** Beginnings of sounds in what left it, on the audio clock in seconds. */
    onsetsHeard: () => number[];
  }
}

export async function hearClick(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.scheduled = [];
    const contexts: AudioContext[] = [];
    const leading: AudioNode[] = [];
    let ear: AudioWorkletNode | undefined;
    const blocks: { readonly time: number; readonly samples: Float32Array }[] = [];

    const rises = new WeakMap<AudioBuffer, number>();
    const riseOf = (buffer: AudioBuffer): number => {
      const known = rises.get(buffer);
      if (known !== undefined) return known;
      const sizes = buffer.getChannelData(0).map(Math.abs);
      const peak = sizes.reduce((most, size) => Math.max(most, size), 0);
      const rise = sizes.findIndex((size) => size >= peak / 10) / buffer.sampleRate;
      rises.set(buffer, rise);
      return rise;
    };
    const start = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
      const { contextTime = 0, performanceTime = 0 } = (this.context as AudioContext).getOutputTimestamp();
      const at = when + (this.buffer ? riseOf(this.buffer) / this.playbackRate.value : 0);
      window.scheduled.push({ at, heardAt: at - contextTime + performanceTime / 1000 });
      return start.call(this, when, ...rest);
    };

    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode) => AudioNode;
    // Two forms of one method: only the one that leads to a node is listened to.
    AudioNode.prototype.connect = function (this: AudioNode, ...to: unknown[]) {
      const [target] = to;
      if (target instanceof AudioDestinationNode && !(this instanceof AudioWorkletNode)) {
        leading.push(this);
        contexts.push(this.context as AudioContext);
        if (ear) connect.call(this, ear);
      }
      return Reflect.apply(connect, this, to as [AudioNode]);
    } as typeof AudioNode.prototype.connect;

    window.hearOutput = async () => {
      while (!contexts.at(-1)) await new Promise(requestAnimationFrame);
      const context = contexts.at(-1);
      if (!context) throw new Error("The page has opened no sound.");
      await context.audioWorklet.addModule(new URL("microphone.worklet.js", document.baseURI));
      ear = new AudioWorkletNode(context, "microphone-blocks", {
        channelCount: 1,
        channelCountMode: "explicit",
      });
      ear.port.onmessage = ({ data }) => blocks.push(data);
      for (const node of leading) if (node.context === context) connect.call(node, ear);
      const silence = new GainNode(context, { gain: 0 });
      connect.call(ear, silence);
      connect.call(silence, context.destination);
    };

    window.onsetsHeard = () => {
      const rate = contexts.at(-1)?.sampleRate ?? Number.NaN;
      const heard = blocks.flatMap(({ time, samples }) =>
        Array.from(samples, (sample, index) => ({ at: time + index / rate, size: Math.abs(sample) })),
      );
      const onsets: number[] = [];
      let quietSince = Number.NEGATIVE_INFINITY;
      heard.forEach(({ at, size }, index) => {
        if (size < 1e-3) return;
        // A sound begins at a tenth of its own peak: accents and soft strokes are placed alike.
        if (at - quietSince > 0.06) {
          const around = heard.slice(Math.max(0, index - 0.005 * rate), index + 0.02 * rate);
          const peak = Math.max(...around.map((sample) => sample.size));
          onsets.push(around.find((sample) => sample.size >= peak / 10)?.at ?? at);
        }
        quietSince = at;
      });
      return onsets;
    };
  });
}

/**
 * When the first click is heard, on the session clock in seconds: by the middle of the first four, since the first pair of
 * clocks that a device gives can be off by one of its buffers.
 */
export async function firstClick(page: Page, stepSeconds: number): Promise<number> {
  await page.waitForFunction(() => window.scheduled.length >= 4);
  const firsts = (await page.evaluate(() => window.scheduled.slice(0, 4)))
    .map(({ heardAt }, click) => heardAt - click * stepSeconds)
    .sort((a, b) => a - b);
  return ((firsts[1] ?? Number.NaN) + (firsts[2] ?? Number.NaN)) / 2;
}

export interface Unevenness {
  /** Largest error of a step from one click to the next, where the device's own clock ran on. */
  readonly worstStepMs: number;
  /** Steps in which the click followed a device that had lost a buffer: a jump of the audio clock, not of the click. */
  readonly jumps: number;
  /** How often the device's clock is seen to jump against the session clock. */
  readonly deviceJumps: number;
  readonly lost: number;
}

/** More is no jitter: a device loses whole buffers. */
const JUMP_MS = 1;

/** How even a click was scheduled. */
export function unevenness(scheduled: readonly Window["scheduled"][number][], step: number): Unevenness {
  const first = scheduled[0]?.at ?? Number.NaN;
  const places = scheduled.map(({ at }) => Math.round((at - first) / step));
  const offsetsMs = scheduled.map(({ at }, click) => (at - first - (places[click] ?? 0) * step) * 1000);
  const stepsMs = stepsOf(offsetsMs);
  const deviceMs = stepsOf(scheduled.map(({ at, heardAt }) => (at - heardAt) * 1000));
  return {
    worstStepMs: Math.max(...stepsMs.filter((error) => error <= JUMP_MS)),
    jumps: stepsMs.filter((error) => error > JUMP_MS).length,
    deviceJumps: deviceMs.filter((error) => error > JUMP_MS).length,
    lost: (places.at(-1) ?? 0) + 1 - new Set(places).size,
  };
}

function stepsOf(values: readonly number[]): readonly number[] {
  return values.slice(1).map((value, at) => Math.abs(value - (values[at] ?? 0)));
}

/** How far the sounds that came out lie from where they were scheduled, after what all of them have in common. */
export function worstFromSchedule(heard: readonly number[], scheduled: Window["scheduled"]): number {
  const offsetsMs = heard.map((at, click) => (at - (scheduled[click]?.at ?? Number.NaN)) * 1000);
  const common = [...offsetsMs].sort((a, b) => a - b)[offsetsMs.length >> 1] ?? Number.NaN;
  return Math.max(...offsetsMs.map((offset) => Math.abs(offset - common)));
}
