import type { JudgedHit, Report } from "../engine/grading/index.ts";
import { rounded } from "./heard.ts";

/** A report as the contract of `grade --json` has it. */
export function reportJson(report: Report): object {
  const orNull = (value: number | null): number | null => (value === null ? null : rounded(value));
  return {
    hits: report.hits.map(hitJson),
    missed: report.missed.map((note) => ({ ...note, time: rounded(note.time) })),
    leanMs: orNull(report.leanMs),
    spreadMs: orNull(report.spreadMs),
    tempoBpm: orNull(report.tempoBpm),
    driftPercent: orNull(report.driftPercent),
    swingRatio: orNull(report.swingRatio),
    perBeat: report.perBeat.map(({ beat, count, leanMs, spreadMs }) => ({
      beat,
      count,
      leanMs: orNull(leanMs),
      spreadMs: orNull(spreadMs),
    })),
    voiceAccuracy: orNull(report.voiceAccuracy),
    voices: report.voices.map((voice) => ({
      ...voice,
      leanMs: orNull(voice.leanMs),
      spreadMs: orNull(voice.spreadMs),
    })),
    flams: { ...report.flams, gapMs: orNull(report.flams.gapMs) },
    start: { time: rounded(report.start.time), stretch: report.start.stretch },
    ...roundedAll({
      wander: report.wander,
      swingByLimb: report.swingByLimb,
      unisons: report.unisons,
      ornaments: report.ornaments,
      hiHat: report.hiHat,
      dynamics: report.dynamics,
      form: report.form,
      band: report.band,
    }),
    workOn: report.workOn,
    workOnPlace: report.workOnPlace,
  };
}

/** The same with every number in it rounded. */
function roundedAll(figures: object): object {
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, roundedValue(value)]));
}

function roundedValue(value: unknown): unknown {
  if (typeof value === "number") return rounded(value);
  if (Array.isArray(value)) return value.map(roundedValue);
  return typeof value === "object" && value !== null ? roundedAll(value) : value;
}

function hitJson(judged: JudgedHit): object {
  const { time, voice, velocity, pad } = judged.hit;
  const common = { time: rounded(time), voice, velocity: rounded(velocity), note: pad };
  switch (judged.state) {
    case "matched":
      return {
        ...common,
        state: "matched",
        targetIndex: judged.targetIndex,
        targetTime: rounded(judged.targetTime),
        targetVoice: judged.targetVoice,
        offsetMs: rounded(judged.offsetMs),
        ...(judged.slippedMs === undefined ? {} : { slippedMs: rounded(judged.slippedMs) }),
      };
    // A grace stroke belongs to a written flam or drag: it answers no note of its own.
    case "grace":
      return { ...common, state: "extra", graceOf: judged.targetIndex };
    case "extra":
      return { ...common, state: "extra", ...(judged.surplus ? { surplus: true } : {}) };
    case "retrigger":
      return { ...common, state: "retrigger" };
  }
}
