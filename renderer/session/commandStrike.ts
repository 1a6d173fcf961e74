/**
 * Commands with the sticks in hand: a strike that is never music. Two rims struck together and alone, or a pad that is
 * used for nothing else. What turns out to be a command is no strike of the take; all else is handed on as it came.
 */
import { z } from "zod";
import { type Hit, type KitMap, padFor, VOICES_TO_LEARN, type Voice } from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";

/** As the log of a lesson has them, in the order they are shown. */
export const COMMANDS = ["flag", "again", "next", "stop", "turn-round"] as const;
export type Command = (typeof COMMANDS)[number];

const padNumber = z.int().min(0).max(127);

export const commandStrikeSchema = z.discriminatedUnion("kind", [
  z
    .strictObject({ kind: z.literal("two-rims"), pads: z.tuple([padNumber, padNumber]).readonly() })
    .readonly(),
  z.strictObject({ kind: z.literal("own-pad"), pad: padNumber }).readonly(),
]);
export type CommandStrike = z.infer<typeof commandStrikeSchema>;

/** How each command is struck; a command that is missing has no strike. */
export type CommandStrikes = Partial<Readonly<Record<Command, CommandStrike>>>;

/** Two hands that mean one moment are closer than this. Our choice: twice what is heard as two strikes (20 ms). */
export const TOGETHER_SECONDS: Seconds = 0.04;
/**
 * So long before and after it nothing else is struck. Our choice: in 948 takes by people (Groove MIDI Dataset v1.0.0, Gillick
 * et al., ICML 2019) the rims of two toms fall together five times, and never with this much silence around them.
 */
export const ALONE_SECONDS: Seconds = 0.4;

/** What a strike, or a silence, has come to: strikes to hand on, and commands, each in order. */
export interface Sorted {
  readonly strikes: readonly Hit[];
  readonly commands: readonly Command[];
}

const NOTHING: Sorted = { strikes: [], commands: [] };

export class CommandEar {
  readonly #strikes: CommandStrikes;
  /** Strikes that may be a command: none, one rim, or both. */
  #held: readonly Hit[] = [];
  #last: Seconds = Number.NEGATIVE_INFINITY;

  constructor(strikes: CommandStrikes) {
    this.#strikes = strikes;
  }

  /** When the silence after what is held decides what it was; `undefined` while nothing is held. Session clock. */
  get decidesAt(): Seconds | undefined {
    const last = this.#held.at(-1);
    return last && last.time + (this.#held.length === 1 ? TOGETHER_SECONDS : ALONE_SECONDS);
  }

  /** One more strike. */
  hear(hit: Hit): Sorted {
    const before = this.silentUntil(hit.time);
    const own = this.#ofOwnPad(hit.pad);
    if (own !== undefined) {
      const { strikes, commands } = this.#letGo(before, []);
      return { strikes, commands: [...commands, own] };
    }
    const [first, second] = this.#held;
    if (!first && this.#isRim(hit.pad) && hit.time - this.#last >= ALONE_SECONDS) {
      this.#held = [hit];
      return before;
    }
    if (first && !second && this.#ofRims(first.pad, hit.pad) !== undefined) {
      this.#held = [first, hit];
      return before;
    }
    return this.#letGo(before, [hit]);
  }

  /** Nothing was struck until this moment of the session clock. */
  silentUntil(time: Seconds): Sorted {
    const decidesAt = this.decidesAt;
    if (decidesAt === undefined || time <= decidesAt) return NOTHING;
    const [first, second] = this.#held;
    const command = first && second && this.#ofRims(first.pad, second.pad);
    if (!second || command === undefined) return this.#letGo(NOTHING, []);
    this.#held = [];
    this.#last = second.time;
    return { strikes: [], commands: [command] };
  }

  #letGo(before: Sorted, more: readonly Hit[]): Sorted {
    const strikes = [...before.strikes, ...this.#held, ...more];
    this.#held = [];
    this.#last = strikes.at(-1)?.time ?? this.#last;
    return { strikes, commands: before.commands };
  }

  #isRim(pad: number): boolean {
    return this.#find((strike) => strike.kind === "two-rims" && strike.pads.includes(pad)) !== undefined;
  }

  #ofRims(one: number, other: number): Command | undefined {
    return this.#find((strike) => isSameStrike(strike, { kind: "two-rims", pads: [one, other] }));
  }

  #ofOwnPad(pad: number): Command | undefined {
    return this.#find((strike) => strike.kind === "own-pad" && strike.pad === pad);
  }

  #find(wanted: (strike: CommandStrike) => boolean): Command | undefined {
    return COMMANDS.find((command) => {
      const strike = this.#strikes[command];
      return strike !== undefined && wanted(strike);
    });
  }
}

/** Whichever hand comes first. */
export function isSameStrike(a: CommandStrike, b: CommandStrike): boolean {
  if (a.kind === "own-pad" || b.kind === "own-pad")
    return a.kind === "own-pad" && b.kind === "own-pad" && a.pad === b.pad;
  return a.pads[0] !== a.pads[1] && a.pads.every((pad) => b.pads.includes(pad));
}

const TOMS: ReadonlySet<Voice> = new Set(["high-tom", "mid-tom", "floor-tom"]);

function isTomRim(map: KitMap, pad: number): boolean {
  const known = padFor(map, pad);
  return known?.zone === "rim" && TOMS.has(known.voice);
}

/** What is struck where nothing was learnt: to flag, the rims of the high and the floor tom, on a map that knows them. */
export function firstCommandStrikes(map: KitMap): CommandStrikes {
  const rimOf = (voice: Voice) =>
    map.pads.find((pad) => pad.voice === voice && isTomRim(map, pad.note))?.note;
  const high = rimOf("high-tom");
  const floor = rimOf("floor-tom");
  return high === undefined || floor === undefined ? {} : { flag: { kind: "two-rims", pads: [high, floor] } };
}

/** A strike that was offered for a command: taken, or why not. */
export type Offered =
  | { readonly kind: "taken"; readonly strike: CommandStrike }
  | { readonly kind: "refused"; readonly why: "music" | "not-tom-rims" | "not-together" };

/**
 * Question: can these strikes, which came with silence around them, be a command? Two tom rims together can; one pad can
 * where the map gives it no drum or cymbal of the kit.
 */
export function offered(strikes: readonly Hit[], map: KitMap): Offered {
  const [first, second, ...more] = strikes;
  if (!first || more.length > 0) return { kind: "refused", why: "not-together" };
  if (!second) {
    const voice = padFor(map, first.pad)?.voice ?? "unknown";
    return VOICES_TO_LEARN.includes(voice)
      ? { kind: "refused", why: "music" }
      : { kind: "taken", strike: { kind: "own-pad", pad: first.pad } };
  }
  if (second.time - first.time > TOGETHER_SECONDS) return { kind: "refused", why: "not-together" };
  const areRims = first.pad !== second.pad && isTomRim(map, first.pad) && isTomRim(map, second.pad);
  return areRims
    ? { kind: "taken", strike: { kind: "two-rims", pads: [first.pad, second.pad] } }
    : { kind: "refused", why: "not-tom-rims" };
}
