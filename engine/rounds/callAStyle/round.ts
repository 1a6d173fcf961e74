/**
 * One round of Call a Style: what was asked, how far it has come, what was said of it.
 */
import { type Draft, produce } from "immer";
import { grooveById } from "../../catalogue/index.ts";
import type { Hit } from "../../kit/index.ts";
import type { Hearing } from "../../listening/index.ts";
import { type Groove, usualTempo } from "../../score/index.ts";
import type { Bpm, Seconds } from "../../units/index.ts";
import type { Judgement, TakeClick } from "./judgement.ts";

/** What the teacher set before the take. */
export interface Asked {
  /** The style that is called; `null` leaves the choice to the player. */
  readonly styleId: string | null;
  /** The groove of the studio's Shelf that is called, when it is one; `styleId` is then its id. */
  readonly shelfGroove?: Groove;
  readonly click: boolean;
  readonly countIn: boolean;
  /** Of the click; not used without one. */
  readonly tempoBpm: Bpm;
}

export type RoundStage =
  | { readonly stage: "before" }
  | {
      readonly stage: "playing";
      readonly click: TakeClick | null;
      /** The latest of what is heard while playing; `null` until there is something to think over. */
      readonly hearing: Hearing | null;
      /** Why listening stopped, while the take goes on. */
      readonly trouble: string | null;
    }
  | {
      readonly stage: "judging";
      readonly hits: readonly Hit[];
      /** Whether the next take of the same is to begin as soon as this one is thought over. */
      readonly isAgainAsked: boolean;
    }
  | { readonly stage: "after"; readonly hits: readonly Hit[]; readonly judgement: Judgement }
  | { readonly stage: "failed"; readonly reason: string };

/** A take of this sitting, kept so that a later one can be laid beside it, and known by it. */
export interface JudgedTake {
  /** From 1, in the order played. */
  readonly number: number;
  /** The style that was called; `null` for a free choice. */
  readonly styleId: string | null;
  readonly hits: readonly Hit[];
  readonly judgement: Judgement;
}

/** Which take is laid beside the one just played: the one before it, none, or one by its number. */
export type Beside = "before" | "none" | number;

export interface Round {
  readonly asked: Asked;
  readonly at: RoundStage;
}

/** A round with the takes that were played in it so far. */
export interface Sitting extends Round {
  /** Takes in which something was played, in order; the latest {@link MOST_TAKES}. */
  readonly takes: readonly JudgedTake[];
  readonly beside: Beside;
}

/** More are not looked back on in a lesson, and a long take is a megabyte. Our choice. */
export const MOST_TAKES = 24;

export type RoundEvent =
  | { readonly kind: "called"; readonly styleId: string | null; readonly shelfGroove?: Groove }
  | { readonly kind: "set"; readonly to: Partial<Pick<Asked, "click" | "countIn" | "tempoBpm">> }
  | { readonly kind: "started"; readonly click: TakeClick | null }
  | { readonly kind: "heard"; readonly hearing: Hearing }
  | { readonly kind: "listening-stopped"; readonly reason: string }
  | { readonly kind: "stopped"; readonly hits: readonly Hit[] }
  | { readonly kind: "again-asked" }
  | { readonly kind: "judged"; readonly judgement: Judgement }
  | { readonly kind: "failed"; readonly reason: string }
  | { readonly kind: "another-style" }
  /** Another player sits down: what the one before played is no longer beside it. */
  | { readonly kind: "another-player" }
  | { readonly kind: "laid-beside"; readonly beside: Beside };

export const NEW_ROUND: Sitting = {
  asked: { styleId: null, click: false, countIn: false, tempoBpm: 100 },
  at: { stage: "before" },
  takes: [],
  beside: "before",
};

/** Events that come too late (a hearing after the stop, say) change nothing. */
export const roundAfter: (round: Sitting, event: RoundEvent) => Sitting = produce(
  (round: Draft<Sitting>, event: RoundEvent) => {
    const { at } = round;
    switch (event.kind) {
      case "called":
        if (at.stage === "before") callStyle(round.asked, event.styleId, event.shelfGroove);
        return;
      case "set":
        if (at.stage === "before") Object.assign(round.asked, event.to);
        return;
      case "started":
        if (at.stage === "playing" || at.stage === "judging") return;
        round.at = {
          stage: "playing",
          click: event.click as Draft<TakeClick> | null,
          hearing: null,
          trouble: null,
        };
        return;
      case "heard":
        if (at.stage === "playing") at.hearing = event.hearing as Draft<Hearing>;
        return;
      case "listening-stopped":
        if (at.stage === "playing") at.trouble = event.reason;
        return;
      case "stopped":
        if (at.stage === "playing")
          round.at = { stage: "judging", hits: [...event.hits], isAgainAsked: false };
        return;
      case "again-asked":
        if (at.stage === "judging") at.isAgainAsked = true;
        return;
      case "judged":
        if (at.stage === "judging") {
          const { hits } = at;
          round.at = { stage: "after", hits, judgement: event.judgement as Draft<Judgement> };
          keepTake(round, hits, event.judgement);
        }
        return;
      case "failed":
        if (at.stage === "judging") round.at = { stage: "failed", reason: event.reason };
        return;
      case "another-style":
        if (at.stage === "after" || at.stage === "failed") round.at = { stage: "before" };
        return;
      case "another-player":
        round.takes = [];
        round.beside = "before";
        round.at = { stage: "before" };
        return;
      case "laid-beside":
        if (at.stage === "after") round.beside = event.beside;
        return;
    }
  },
);

/** A new take is laid beside the one before it until another is chosen. */
function keepTake(round: Draft<Sitting>, hits: Draft<readonly Hit[]>, judgement: Judgement): void {
  if (judgement.hitCount === 0) return;
  const number = (round.takes.at(-1)?.number ?? 0) + 1;
  const { styleId } = round.asked;
  round.takes.push({ number, styleId, hits, judgement: judgement as Draft<Judgement> });
  round.takes.splice(0, round.takes.length - MOST_TAKES);
  round.beside = "before";
}

/** Another style brings its own usual tempo for the click. */
function callStyle(asked: Draft<Asked>, styleId: string | null, shelfGroove: Groove | undefined): void {
  const groove = shelfGroove ?? (styleId === null ? undefined : grooveById(styleId));
  asked.styleId = styleId;
  if (shelfGroove) asked.shelfGroove = shelfGroove as Draft<Groove>;
  else delete asked.shelfGroove;
  if (groove) asked.tempoBpm = usualTempo(groove);
}

/** Seconds of air between Start and the first click. Our choice: long enough to lift the sticks. */
export const BREATH_SECONDS: Seconds = 0.8;
