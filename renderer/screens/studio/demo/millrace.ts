/** Millrace Studio, a made-up teaching room above a bicycle workshop: who comes there, and how they play. All invented. */
import type { Student } from "../../../../engine/records/index.ts";
import type { ItemId } from "../../../../engine/session/index.ts";
import type { Milliseconds } from "../../../../engine/units/index.ts";

/** An invented student, with what the simulation needs to know of them. */
export interface InventedStudent {
  readonly student: Omit<Student, "addedAt" | "lessonDay">;
  /** Time of the day: "16:00". */
  readonly from: string;
  readonly minutes: number;
  /** Styles by id, in the order they are taken up. */
  readonly styles: readonly string[];
  /** What else is asked, in the order it is taken up. */
  readonly items: readonly ItemId[];
  /** Spread at the first lesson and after half a year. */
  readonly spreadMs: { readonly first: Milliseconds; readonly last: Milliseconds };
  readonly leanMs: Milliseconds;
  /** Share of strokes left out at the first lesson; it falls to a quarter. */
  readonly leftOut: number;
  /** The usual tempo as a share of the style's own: a beginner plays slower. */
  readonly tempo: number;
}

const invented = { version: 1, archived: false, invented: true } as const;

export const INVENTED_STUDENTS: readonly InventedStudent[] = [
  {
    student: {
      ...invented,
      id: "millrace-ottilie",
      nickname: "Ottilie",
      level: "first-year",
      hand: "right",
      notes: "Nine. Answers best when she has struck the sound herself first.",
      consent: { by: "her mother", on: "2026-01-12" },
    },
    from: "16:00",
    minutes: 30,
    styles: ["rock-eighths", "disco", "shuffle"],
    items: ["sound:floor-tom", "symbol:dotted-quarter-rest", "syllable:boom", "rudiment:single-stroke-roll"],
    spreadMs: { first: 48, last: 33 },
    leanMs: 12,
    leftOut: 0.12,
    tempo: 0.85,
  },
  {
    student: {
      ...invented,
      id: "millrace-bram",
      nickname: "Bram",
      level: "second-year",
      hand: "left",
      notes: "Fourteen. Rushes into the one when he knows the fill.",
      consent: { by: "his father", on: "2026-01-12" },
    },
    from: "16:30",
    minutes: 30,
    styles: ["rock-eighths", "funk-sixteenths", "half-time-shuffle", "samba"],
    items: ["rudiment:flam-tap", "sticking:flam-tap", "symbol:quintuplet", "sound:crash-left"],
    spreadMs: { first: 36, last: 24 },
    leanMs: -14,
    leftOut: 0.08,
    tempo: 1.05,
  },
  {
    student: {
      ...invented,
      id: "millrace-noor",
      nickname: "Noor",
      level: "steady",
      hand: "right",
      notes: "Thirty-one, back after ten years. Likes to know why.",
      consent: { by: "herself", on: "2026-01-14" },
    },
    from: "17:00",
    minutes: 45,
    styles: ["shuffle", "swing", "bossa-nova", "samba"],
    items: ["rudiment:paradiddle-diddle", "order:flam-accent", "symbol:coda", "sound:ride-bell"],
    spreadMs: { first: 28, last: 17 },
    leanMs: 6,
    leftOut: 0.05,
    tempo: 1,
  },
  {
    student: {
      ...invented,
      id: "millrace-casimir",
      nickname: "Casimir",
      level: "steady",
      hand: "right",
      notes: "Sixty-six. Ten minutes at a time, then a pause for the wrists.",
      consent: { by: "himself", on: "2026-01-14" },
    },
    from: "18:00",
    minutes: 30,
    styles: ["swing", "bossa-nova", "cha-cha"],
    items: ["rudiment:long-roll", "symbol:repeat-of-two-bars", "sound:mid-tom", "syllable:chick"],
    spreadMs: { first: 34, last: 27 },
    leanMs: 16,
    leftOut: 0.06,
    tempo: 0.9,
  },
];
