/** A student as it stands on the form, before it is kept. */
import type { Student } from "../../../engine/records/index.ts";
import type { Level } from "../../../engine/score/index.ts";
import type { StudentFields } from "./roster.ts";

export interface StudentDraft {
  readonly nickname: string;
  readonly level: Level;
  readonly hand: Student["hand"];
  readonly notes: string;
  /** "0": no fixed day; else ISO 8601, Monday is 1. */
  readonly weekday: string;
  readonly from: string;
  readonly minutes: number;
  readonly consentBy: string;
  readonly consentOn: string;
}

/** Half an hour is what most lessons take. Our choice. */
export const BLANK: StudentDraft = {
  nickname: "",
  level: "first-year",
  hand: "right",
  notes: "",
  weekday: "0",
  from: "15:00",
  minutes: 30,
  consentBy: "",
  consentOn: "",
};

export function draftOf(student: Student): StudentDraft {
  const { nickname, level, hand, notes, lessonDay, consent } = student;
  return {
    nickname,
    level,
    hand,
    notes,
    weekday: String(lessonDay?.weekday ?? 0),
    from: lessonDay?.from ?? BLANK.from,
    minutes: lessonDay?.minutes ?? BLANK.minutes,
    consentBy: consent?.by ?? "",
    consentOn: consent?.on ?? "",
  };
}

/** Whether nothing was changed. */
export function isSameDraft(one: StudentDraft, other: StudentDraft): boolean {
  const fields = Object.keys(BLANK) as (keyof StudentDraft)[];
  return fields.every((field) => one[field] === other[field]);
}

/** What is kept of the form. */
export function fieldsOf(draft: StudentDraft): StudentFields {
  const { nickname, level, hand, notes, weekday, from, minutes, consentBy, consentOn } = draft;
  return {
    nickname: nickname.trim(),
    level,
    hand,
    notes: notes.trim(),
    ...(weekday === "0" ? {} : { lessonDay: { weekday: Number(weekday), from, minutes } }),
    ...(consentBy.trim() === "" && consentOn === ""
      ? {}
      : { consent: { by: consentBy.trim(), on: consentOn } }),
  };
}

/** Why the form cannot be kept as it stands; `null` when it can. */
export function whatIsMissing(draft: StudentDraft): string | null {
  if (draft.nickname.trim() === "") return "A nickname is needed.";
  if (draft.weekday !== "0" && !/^\d\d:\d\d$/.test(draft.from)) return "The lesson day needs a time.";
  const halfConsent = (draft.consentBy.trim() === "") !== (draft.consentOn === "");
  return halfConsent ? "The consent note needs both: who agreed, and the day." : null;
}

/** Whether two of the same nickname would be on the Roster. */
export function isSameName(nickname: string, others: readonly Student[], id?: string): boolean {
  const wanted = nickname.trim().toLocaleLowerCase();
  return others.some((each) => each.id !== id && each.nickname.toLocaleLowerCase() === wanted);
}
