/** Kits of a lab without a page: each a program of its own at the room's broker, as somebody plays at it. */
import { demonstrate, styleById } from "../../engine/catalogue/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import type { HeardSummary, Person } from "../../engine/rooms/index.ts";
import { judgeTake } from "../../engine/rounds/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { summaryOf } from "../../renderer/room/labKit.ts";
import { type Joined, joined } from "../broker/joined.ts";

const TEMPO_BPM = 96;
/** A kit's own computer tells the desk as often. */
const TELL_MS = 4000;
/** Different things to play, so that rows differ. */
const PLAYED = ["rock-eighths", "blues-shuffle", "bossa-nova", "rock-sixteenths"] as const;

/** What the program at a kit would tell of eight bars of a style, played to its click so far ahead or behind. */
export function heardOf(styleId: string, leanMs: number, seed: number): HeardSummary {
  const groove = styleById(styleId)?.variants[0];
  if (!groove) throw new Error(`There is no ${styleId}.`);
  const strokes = demonstrate(groove, {
    bars: 8,
    tempoBpm: TEMPO_BPM,
    chance: seededChance(seed),
    leanMs,
    spreadMs: 9,
    leftOut: 0.02,
    added: 0,
  });
  const hits: readonly Hit[] = strokes.map((stroke) => ({ ...stroke, zone: "whole", pad: 38 }));
  return summaryOf(judgeTake({ hits, styleId, click: { tempoBpm: TEMPO_BPM, from: 0 } }));
}

export interface LabPlayer {
  readonly name: string;
  readonly joined: Joined;
  /** What was told last. */
  readonly told: () => HeardSummary | null;
  readonly strikes: () => number;
}

/** Kits that strike so often a second each, until they are told to stop. */
export class LabPlayers {
  readonly all: readonly LabPlayer[];
  readonly #state: {
    readonly one: Joined;
    readonly lean: number;
    heard: HeardSummary;
    told: HeardSummary | null;
    strikes: number;
    readNews: number;
    nextMs: number;
    tellMs: number;
  }[];
  readonly #gapMs: number;
  #timer: ReturnType<typeof setInterval> | undefined;

  private constructor(kits: readonly Joined[], hitsPerSecond: number) {
    this.#gapMs = 1000 / hitsPerSecond;
    const heard = kits.map((_, index) =>
      heardOf(PLAYED[index % PLAYED.length] ?? PLAYED[0], 2 * index - 31, index),
    );
    this.#state = kits.map((one, index) => ({
      one,
      lean: 2 * index - 31,
      heard: heard[index] ?? heardOf(PLAYED[0], 0, 0),
      told: null,
      strikes: 0,
      readNews: 0,
      nextMs: 0,
      tellMs: 0,
    }));
    this.all = this.#state.map((state) => ({
      name: state.one.connection.member.me.name,
      joined: state.one,
      told: () => state.told,
      strikes: () => state.strikes,
    }));
  }

  /** Joins them one after the other. */
  static async join(
    address: string,
    {
      room,
      code,
      count,
      hitsPerSecond,
    }: {
      readonly room: string;
      readonly code: string;
      readonly count: number;
      readonly hitsPerSecond: number;
    },
  ): Promise<LabPlayers> {
    const kits: Joined[] = [];
    for (let index = 1; index <= count; index += 1)
      kits.push(
        await joined(
          { address, room, code },
          { id: `lab-kit-${String(index).padStart(3, "0")}`, name: `Kit ${index}`, role: "kit" },
        ),
      );
    return new LabPlayers(kits, hitsPerSecond);
  }

  play(): void {
    const from = performance.now();
    for (const [index, state] of this.#state.entries()) {
      // Not all at one moment.
      state.nextMs = from + (this.#gapMs * index) / this.#state.length;
      state.tellMs = from + (TELL_MS * index) / this.#state.length;
    }
    this.#timer = setInterval(() => this.#go(), 5);
  }

  rest(): void {
    clearInterval(this.#timer);
  }

  async leave(): Promise<void> {
    this.rest();
    await Promise.all(this.#state.map(({ one }) => one.connection.leave()));
  }

  #go(): void {
    for (const [index, state] of this.#state.entries()) {
      const nowMs = performance.now();
      for (; state.nextMs <= nowMs; state.nextMs += this.#gapMs) {
        state.one.connection.play([strokeOf(state.strikes, nowMs / 1000)]);
        state.strikes += 1;
      }
      for (const news of state.one.news.slice(state.readNews))
        if (news.kind === "call" && news.styleId !== null)
          state.heard = heardOf(news.styleId, state.lean, index);
      state.readNews = state.one.news.length;
      if (nowMs < state.tellMs) continue;
      state.tellMs += TELL_MS;
      state.told = state.heard;
      state.one.connection.sayHeard(state.heard);
    }
  }
}

const VOICES = ["hi-hat-closed", "kick", "hi-hat-closed", "snare"] as const;

function strokeOf(count: number, time: number): Hit {
  const voice = VOICES[count % VOICES.length] ?? "snare";
  return {
    time: Math.round(time * 1e6) / 1e6,
    voice,
    zone: "head",
    velocity: 0.4 + (count % 5) / 10,
    pad: 38,
  };
}

/** A kit as the desk knows it, for the words of its row. */
export function asPerson({ told, strikes }: LabPlayer): Pick<Person, "heard" | "strikes"> {
  return { heard: told(), strikes: strikes() };
}
