/**
 * The microphone, for measuring a set-up and for hearing syllables: the last seconds of what it heard, in memory only, never
 * kept or sent.
 */
import type { Seconds } from "../../engine/units/index.ts";
import type { Heard } from "./clickOnset.ts";

/** Enough for the slowest wireless headphones; older sound is let go. */
const KEPT_SECONDS: Seconds = 4;

interface Block {
  readonly time: Seconds;
  readonly samples: Float32Array;
}

/** Thrown when there is no microphone to be had; the message says why and what to do. */
export class MicrophoneError extends Error {
  override readonly name = "MicrophoneError";
}

export class Microphone {
  readonly #context: AudioContext;
  readonly #stream: MediaStream;
  readonly #nodes: readonly AudioNode[];
  readonly #keptSeconds: Seconds;
  #blocks: Block[] = [];

  private constructor(context: AudioContext, stream: MediaStream, keptSeconds: Seconds) {
    this.#keptSeconds = keptSeconds;
    this.#context = context;
    this.#stream = stream;
    const source = context.createMediaStreamSource(stream);
    const blocks = new AudioWorkletNode(context, "microphone-blocks", {
      channelCount: 1,
      channelCountMode: "explicit",
    });
    // A node that leads nowhere is not run; this way leads to silence.
    const silence = new GainNode(context, { gain: 0 });
    blocks.port.onmessage = ({ data }: MessageEvent<Block>) => this.#take(data);
    source.connect(blocks).connect(silence).connect(context.destination);
    this.#nodes = [source, blocks, silence];
  }

  /**
   * Asks for the microphone: call it from the user's own action.
   *
   * @param keptSeconds older sound is let go.
   * @throws MicrophoneError when it is refused, or there is none.
   */
  static async open(context: AudioContext, keptSeconds = KEPT_SECONDS): Promise<Microphone> {
    if (!navigator.mediaDevices) throw new MicrophoneError("This browser gives no microphone to this page.");
    let stream: MediaStream;
    try {
      // What makes speech clear would move or remove a click.
      const audio = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
      stream = await navigator.mediaDevices.getUserMedia({ audio });
    } catch (error) {
      throw new MicrophoneError(
        `The microphone could not be had (${error instanceof Error ? error.message : String(error)}). Allow it for this page, and see that one is plugged in.`,
      );
    }
    await context.audioWorklet.addModule(new URL("microphone.worklet.js", document.baseURI));
    return new Microphone(context, stream, keptSeconds);
  }

  /** How far what was heard reaches, on the audio clock. */
  get heardUntil(): Seconds {
    const last = this.#blocks.at(-1);
    return last ? last.time + last.samples.length / this.#context.sampleRate : 0;
  }

  /** What was heard from one audio time to another; the part of it that is there. */
  between(from: Seconds, to: Seconds): Heard {
    const { sampleRate } = this.#context;
    const blocks = this.#blocks.filter(
      ({ time, samples }) => time < to && time + samples.length / sampleRate > from,
    );
    const begins = blocks[0]?.time ?? from;
    const samples = new Float32Array(blocks.reduce((sum, block) => sum + block.samples.length, 0));
    for (const { time, samples: part } of blocks) {
      const at = Math.round((time - begins) * sampleRate);
      // A block that was lost leaves a hole of silence, and moves nothing.
      if (at + part.length <= samples.length) samples.set(part, at);
    }
    return { from: begins, samples, sampleRate };
  }

  close(): void {
    for (const track of this.#stream.getTracks()) track.stop();
    for (const node of this.#nodes) node.disconnect();
    this.#blocks = [];
  }

  #take(block: Block): void {
    this.#blocks.push(block);
    if ((this.#blocks[0]?.time ?? 0) < block.time - 2 * this.#keptSeconds)
      this.#blocks = this.#blocks.filter(({ time }) => time > block.time - this.#keptSeconds);
  }
}
