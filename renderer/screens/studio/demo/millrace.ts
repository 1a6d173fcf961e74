/** Millrace Studio, a made-up teaching room above a bicycle workshop: who comes there, and how they play. All invented. */
import type { Student } from "../../../../engine/records/index.ts";
import type { ChartTask } from "../../../../engine/rounds/index.ts";
import type { ItemId } from "../../../../engine/session/index.ts";
import type { Milliseconds } from "../../../../engine/units/index.ts";

/** The rounds in which one student is asked. */
export type AskedRound = "back-turned" | "card-table" | "spotting" | "wall-chart";

/** An invented student, with what the simulation needs to know of them. */
export interface InventedStudent {
  readonly student: Omit<Student, "addedAt" | "lessonDay">;
  /** Time of the day: "16:00". */
  readonly from: string;
  readonly minutes: number;
  /** Styles by id, in the order they are taken up. */
  readonly styles: readonly string[];
  /** Styles heard in Spotting besides these, by id. */
  readonly spotted: readonly string[];
  /** The other rounds, each with how often it is played beside the others: what this student likes. */
  readonly rounds: Readonly<Record<AskedRound, number>>;
  /** How hard a question of Back Turned is at the first lesson and after half a year: rungs of `engine/ear`. */
  readonly rungs: { readonly first: number; readonly last: number };
  /** What of the chart of rudiments is asked, and what for in the second quarter. */
  readonly chart: {
    readonly part: { readonly from: number; readonly to: number };
    readonly first: ChartTask;
    readonly later: ChartTask;
  };
  /** What holds less than the rest. */
  readonly hard: readonly ItemId[];
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
    spotted: ["rock-quarters", "march", "polka"],
    rounds: { "back-turned": 5, "card-table": 3, spotting: 1, "wall-chart": 1 },
    rungs: { first: 1, last: 5 },
    chart: { part: { from: 1, to: 10 }, first: "families", later: "names" },
    hard: ["sound:mid-tom", "symbol:dotted-quarter-rest"],
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
    spotted: ["disco", "shuffle", "reggaeton"],
    rounds: { "back-turned": 1, "card-table": 1, spotting: 2, "wall-chart": 4 },
    rungs: { first: 4, last: 11 },
    chart: { part: { from: 16, to: 25 }, first: "names", later: "said" },
    hard: ["rudiment:flam-tap", "sticking:flam-tap", "sound:crash-left"],
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
    spotted: ["tango", "mambo", "ska", "cha-cha"],
    rounds: { "back-turned": 2, "card-table": 1, spotting: 5, "wall-chart": 2 },
    rungs: { first: 6, last: 14 },
    chart: { part: { from: 1, to: 20 }, first: "names", later: "order" },
    hard: ["style-name:samba", "sound:bell"],
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
    spotted: ["beguine", "bolero", "tango", "rumba"],
    rounds: { "back-turned": 2, "card-table": 4, spotting: 3, "wall-chart": 1 },
    rungs: { first: 2, last: 6 },
    chart: { part: { from: 1, to: 10 }, first: "names", later: "said" },
    hard: ["sound:mid-tom", "symbol:coda"],
    spreadMs: { first: 34, last: 27 },
    leanMs: 16,
    leftOut: 0.06,
    tempo: 0.9,
  },
];
