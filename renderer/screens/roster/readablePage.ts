/** A student's record as a page that any browser shows: plain HTML, nothing fetched, nothing run. */
import type { LessonRecord, StoredTake, Student } from "../../../engine/records/index.ts";
import { levelName } from "../../../engine/score/index.ts";
import { localTime } from "../../../engine/session/index.ts";
import { lessonDayWords } from "./lessonTimes.ts";

export interface Readable {
  readonly student: Student;
  readonly lessons: readonly LessonRecord[];
  readonly takes: readonly StoredTake[];
  readonly known: readonly { readonly what: string; readonly how: string }[];
  /** A day: "2026-03-02". */
  readonly madeOn: string;
}

export function readablePage({ student, lessons, takes, known, madeOn }: Readable): string {
  const { nickname, level, hand, lessonDay, notes, consent, invented } = student;
  const facts = [
    ["level", levelName(level)],
    ["hand", hand],
    ["lesson", lessonDayWords(lessonDay)],
    ["consent", consent ? `${consent.by}, ${consent.on}` : "not noted"],
    ["notes", notes],
  ];
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(nickname)}: record of lessons</title>
<style>body{font:17px/1.45 sans-serif;max-width:56rem;margin:2rem auto;padding:0 1rem;color:#1e1b18;background:#fbf8f1}h1,h2{font-family:serif}table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;border-bottom:1px solid #d8cfbd}</style>
<main>
<h1>${escaped(nickname)}${invented ? " (invented)" : ""}</h1>
<p>Record of lessons, written on ${escaped(madeOn)}.</p>
${table([], facts)}
<h2>Lessons</h2>
${table(
  ["day", "from", "minutes", "takes", "strikes"],
  lessons.map(({ day, at, zone, seconds, takes: count, hits }) => [
    day,
    localTime(at, zone),
    String(Math.round(seconds / 60)),
    String(count),
    String(hits),
  ]),
)}
<h2>Takes</h2>
${table(
  ["day", "what", "a minute", "lean", "spread", "to work on"],
  takes.map(({ day, groove, called, tempoBpm, leanMs, spreadMs, workOn }) => [
    day,
    groove?.name ?? called?.name ?? "free choice",
    tempoBpm === null ? "" : String(Math.round(tempoBpm)),
    ms(leanMs),
    ms(spreadMs),
    workOn?.words ?? "",
  ]),
)}
<p>Lean: below nought is ahead of the beat, above it behind.</p>
<h2>Known</h2>
${table(
  ["what", "how it went"],
  known.map(({ what, how }) => [what, how]),
)}
</main>
</html>
`;
}

function ms(value: number | null): string {
  return value === null ? "" : `${Math.round(value)} ms`;
}

function table(head: readonly string[], lines: readonly (readonly string[])[]): string {
  if (lines.length === 0) return "<p>Nothing yet.</p>";
  const heads =
    head.length > 0 ? `<tr>${head.map((cell) => `<th scope="col">${escaped(cell)}</th>`).join("")}</tr>` : "";
  const rows = lines.map(
    ([first = "", ...rest]) =>
      `<tr><th scope="row">${escaped(first)}</th>${rest.map((cell) => `<td>${escaped(cell)}</td>`).join("")}</tr>`,
  );
  return `<table>${heads}${rows.join("\n")}</table>`;
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
