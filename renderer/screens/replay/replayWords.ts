/** Replay in words: moments, rounds, takes, strikes, days. */
import { type Hit, voiceName } from "../../../engine/kit/index.ts";
import type { LessonRecord, Student } from "../../../engine/records/index.ts";
import {
  type EventOf,
  localDay,
  localTime,
  type RoundKind,
  type TakeState,
} from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { formatMs } from "../../charts/figures.ts";
import { dayInWords } from "../../out/print/dayWords.ts";
import type { TakeAgain } from "./takeAgain.ts";

/**
 * A moment of the lesson, from its beginning.
 *
 * @param places of the seconds behind the point.
 * @example
 * momentWords(754.25, 1) // => "12:34.2"
 */
export function momentWords(time: Seconds, places = 0): string {
  const factor = 10 ** places;
  // Cut, not rounded: a clock never shows a second that has not come.
  const units = Math.floor(Math.max(0, time) * factor + 1e-6);
  const whole = Math.floor(units / factor);
  const minutes = Math.floor(whole / 60);
  const seconds = String(whole % 60).padStart(2, "0");
  const part = places === 0 ? "" : `.${String(units % factor).padStart(places, "0")}`;
  return `${minutes}:${seconds}${part}`;
}

/** The same, to be spoken: "12 minutes 34.2 seconds". */
export function momentSpoken(time: Seconds): string {
  const minutes = Math.floor(time / 60);
  const seconds = `${(Math.floor((time % 60) * 10) / 10).toFixed(1)} seconds`;
  return minutes === 0 ? seconds : `${counted(minutes, "minute")} ${seconds}`;
}

/** "38 minutes", "40 seconds". */
export function lengthWords(seconds: Seconds): string {
  if (seconds < 90) return counted(Math.round(seconds), "second");
  return counted(Math.round(seconds / 60), "minute");
}

/** "one take" is as long as "1 take" and harder to find: figures. */
export function counted(count: number, what: string): string {
  return `${count.toLocaleString("en-GB")} ${what}${count === 1 ? "" : "s"}`;
}

const ROUND_NAMES: Readonly<Record<RoundKind, string>> = {
  "call-a-style": "Call a Style",
  spotting: "Spotting",
  "say-and-strike": "Say & Strike",
  "back-turned": "Back Turned",
  "wall-chart": "Wall Chart",
  "card-table": "Card Table",
  trading: "Trading",
};

export function roundName(round: RoundKind): string {
  return ROUND_NAMES[round];
}

/** What a take was of: what it was compared with, else what was called, else what was heard. */
export function takeShort({ judgement, called }: Pick<TakeState, "judgement" | "called">): string {
  const { groove, heard } = judgement?.summary ?? { groove: null, heard: null };
  return (called ?? groove ?? heard)?.name ?? "free playing";
}

/** What happened to a strike, in a clause: "written snare, 12 ms behind". */
export function strikeWords(hit: Hit, take: TakeAgain | undefined): string {
  const judged = take?.judgedOf(hit);
  const report = take?.judgement.compared?.report;
  if (!judged || !report) return "nothing written to compare with";
  switch (judged.state) {
    case "matched": {
      const place = formatMs(judged.offsetMs, report.band.hearableMs);
      return judged.targetVoice === hit.voice
        ? `as written, ${place}`
        : `other sound: ${voiceName(judged.targetVoice)} is written, ${place}`;
    }
    case "grace":
      return "the soft stroke of an ornament that is written";
    case "retrigger":
      return "the pad reported one stroke twice";
    case "extra":
      return judged.surplus ? "part of a slip of the form" : "added: nothing is written here";
  }
}

/** MIDI 1.0: strength as the kit sent it. */
const LOUDEST = 127;

/** "84 of 127" */
export function strengthWords({ velocity }: Pick<Hit, "velocity">): string {
  return `${Math.round(velocity * LOUDEST)} of ${LOUDEST}`;
}

/** When a lesson began, in its own zone: "2 March 2026, 16:30". */
export function whenWords({ at, zone }: Pick<EventOf<"lesson-began">, "at" | "zone">): string {
  return `${dayInWords(localDay(at, zone))}, ${localTime(at, zone)}`;
}

/** Who had the lesson: "Ottilie and Bram", "nobody in particular". */
export function whoWords(students: readonly Pick<Student, "nickname">[]): string {
  const names = students.map(({ nickname }) => nickname);
  if (names.length === 0) return "nobody in particular";
  return names.length === 1 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** A lesson in a list: "38 minutes, 4 rounds, 11 takes". */
export function lessonInShort({ seconds, rounds, takes, flags }: LessonRecord): string {
  return [
    lengthWords(seconds),
    counted(rounds, "round"),
    counted(takes, "take"),
    ...(flags > 0 ? [counted(flags, "flag")] : []),
  ].join(", ");
}
