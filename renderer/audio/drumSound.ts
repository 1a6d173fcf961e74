/**
 * Plain synthesised sounds that stand for the kit until sampled ones are built: a pitched, falling body for
 * drums and filtered noise for metal and wires. Frequencies and lengths are our choice, by ear.
 */
import { familyOf, type Voice } from "../../engine/kit/index.ts";
import type { Seconds, Velocity } from "../../engine/units/index.ts";

interface Body {
  readonly fromHz: number;
  readonly toHz: number;
  readonly seconds: Seconds;
  readonly level: number;
}
interface Noise {
  readonly aboveHz: number;
  readonly seconds: Seconds;
  readonly level: number;
}
interface Timbre {
  readonly body?: Body;
  readonly noise?: Noise;
}

const TIMBRES: Partial<Readonly<Record<Voice, Timbre>>> = {
  "hi-hat-open": { noise: { aboveHz: 7000, seconds: 0.35, level: 0.5 } },
  "cross-stick": { body: { fromHz: 1700, toHz: 1500, seconds: 0.03, level: 0.6 } },
  "high-tom": { body: { fromHz: 240, toHz: 180, seconds: 0.22, level: 0.9 } },
  "mid-tom": { body: { fromHz: 180, toHz: 130, seconds: 0.26, level: 0.9 } },
  "floor-tom": { body: { fromHz: 120, toHz: 85, seconds: 0.34, level: 0.9 } },
  ride: { noise: { aboveHz: 5000, seconds: 0.4, level: 0.3 } },
  bell: {
    body: { fromHz: 820, toHz: 815, seconds: 0.4, level: 0.35 },
    noise: { aboveHz: 6000, seconds: 0.2, level: 0.15 },
  },
};

const FAMILY_TIMBRES: Readonly<Record<ReturnType<typeof familyOf>, Timbre>> = {
  kick: { body: { fromHz: 120, toHz: 45, seconds: 0.18, level: 1 } },
  snare: {
    body: { fromHz: 220, toHz: 180, seconds: 0.08, level: 0.5 },
    noise: { aboveHz: 1500, seconds: 0.14, level: 0.6 },
  },
  hats: { noise: { aboveHz: 8000, seconds: 0.05, level: 0.5 } },
  pedal: { noise: { aboveHz: 5000, seconds: 0.04, level: 0.3 } },
  toms: { body: { fromHz: 180, toHz: 130, seconds: 0.26, level: 0.9 } },
  cymbals: { noise: { aboveHz: 3500, seconds: 0.9, level: 0.5 } },
  percussion: { body: { fromHz: 900, toHz: 700, seconds: 0.06, level: 0.5 } },
};

/** Sounds one stroke at an audio time. */
export function soundStroke(
  context: AudioContext,
  out: AudioNode,
  voice: Voice,
  velocity: Velocity,
  at: Seconds,
): void {
  const timbre = TIMBRES[voice] ?? FAMILY_TIMBRES[familyOf(voice)];
  if (timbre.body) soundBody(context, out, timbre.body, velocity, at);
  if (timbre.noise) soundNoise(context, out, timbre.noise, velocity, at);
}

/** The click: a short, soft wood sound, higher on the downbeat. */
export function soundClick(context: AudioContext, out: AudioNode, isDownbeat: boolean, at: Seconds): void {
  const fromHz = isDownbeat ? 1500 : 1000;
  soundBody(context, out, { fromHz, toHz: fromHz, seconds: 0.03, level: 0.7 }, 0.8, at);
}

function fading(
  context: AudioContext,
  out: AudioNode,
  peak: number,
  at: Seconds,
  seconds: Seconds,
): GainNode {
  const gain = context.createGain();
  gain.gain.setValueAtTime(peak, at);
  gain.gain.exponentialRampToValueAtTime(0.001, at + seconds);
  gain.connect(out);
  return gain;
}

function soundBody(context: AudioContext, out: AudioNode, body: Body, velocity: Velocity, at: Seconds): void {
  const oscillator = context.createOscillator();
  oscillator.frequency.setValueAtTime(body.fromHz, at);
  oscillator.frequency.exponentialRampToValueAtTime(body.toHz, at + body.seconds);
  oscillator.connect(fading(context, out, body.level * velocity, at, body.seconds));
  oscillator.start(at);
  oscillator.stop(at + body.seconds);
}

const noiseBuffers = new WeakMap<BaseAudioContext, AudioBuffer>();

/** One second of noise, made once for each context. */
function noiseOf(context: BaseAudioContext): AudioBuffer {
  const made = noiseBuffers.get(context);
  if (made) return made;
  const buffer = context.createBuffer(1, context.sampleRate, context.sampleRate);
  const samples = buffer.getChannelData(0);
  for (let index = 0; index < samples.length; index += 1) samples[index] = Math.random() * 2 - 1;
  noiseBuffers.set(context, buffer);
  return buffer;
}

function soundNoise(
  context: AudioContext,
  out: AudioNode,
  noise: Noise,
  velocity: Velocity,
  at: Seconds,
): void {
  const source = context.createBufferSource();
  source.buffer = noiseOf(context);
  const filter = context.createBiquadFilter();
  filter.type = "highpass";
  filter.frequency.value = noise.aboveHz;
  source.connect(filter).connect(fading(context, out, noise.level * velocity, at, noise.seconds));
  source.start(at);
  source.stop(at + noise.seconds);
}
