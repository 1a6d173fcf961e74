import type { Report } from "../../../engine/grading/index.ts";
import type { Fill, Groove, Part, Phrase } from "../../../engine/score/index.ts";
import type { PlaceMean } from "../../charts/BarRing.tsx";
import type { LessonReport } from "./lessonReport.ts";

/** A page to print. */
export type Sheet =
  | {
      readonly kind: "groove";
      readonly groove: Groove;
      /** What makes the style itself, where it is known. */
      readonly itself?: string;
    }
  | { readonly kind: "fill"; readonly fill: Fill }
  | { readonly kind: "phrase"; readonly phrase: Phrase }
  | { readonly kind: "part"; readonly part: Part }
  | {
      readonly kind: "practice";
      readonly groove: Groove;
      readonly report: Report;
      /** Where the strokes were played on the whole, shown on the ring. */
      readonly means: readonly PlaceMean[];
      /** The day of the take. */
      readonly day: Date;
    }
  | { readonly kind: "lesson"; readonly lesson: LessonReport }
  /** What a student takes home of the Next Time list. */
  | {
      readonly kind: "next-time";
      readonly nickname: string;
      /** The day of the lesson, in words. */
      readonly lessonDay: string;
      readonly refresh: readonly ListLine[];
      readonly fresh: readonly ListLine[];
    }
  /** What a round showed, or a student over all lessons. */
  | {
      readonly kind: "tally";
      /** The round, or the student. */
      readonly of: string;
      readonly nickname: string;
      /** In words. */
      readonly day: string;
      /** The line under the title. */
      readonly under: string;
      readonly parts: readonly TallyPart[];
    };

/** Lines, or a table of words. */
export type TallyPart =
  | { readonly kind: "lines"; readonly heading: string; readonly lines: readonly ListLine[] }
  | {
      readonly kind: "table";
      readonly heading: string;
      readonly columns: readonly string[];
      /** The first cell of each row names it. */
      readonly rows: readonly (readonly string[])[];
    };

/** A line of a list to tick off. */
export interface ListLine {
  readonly key: string;
  readonly name: string;
  /** What is said of it, in small letters; empty where nothing is. */
  readonly remark: string;
}

/** Whose page it is; what is left empty is a line to write on. */
export interface SheetHead {
  readonly name: string;
  readonly day: string;
}

export type SheetKind = Sheet["kind"];

/** How a page is called, on its button and over its preview. */
export const SHEET_NAMES: Readonly<Record<SheetKind, string>> = {
  groove: "Groove sheet",
  fill: "Fill sheet",
  phrase: "Phrase sheet",
  part: "Drum part",
  practice: "Practice page",
  lesson: "Lesson report",
  "next-time": "Next Time",
  tally: "Tally",
};

/** What it is of. */
export function sheetOf(sheet: Sheet): string {
  switch (sheet.kind) {
    case "groove":
    case "practice":
      return sheet.groove.name;
    case "fill":
      return sheet.fill.name;
    case "phrase":
      return sheet.phrase.name;
    case "part":
      return sheet.part.name;
    case "lesson":
      return `${sheet.lesson.who}, ${sheet.lesson.day}`;
    case "next-time":
      return sheet.lessonDay;
    case "tally":
      return sheet.of;
  }
}
