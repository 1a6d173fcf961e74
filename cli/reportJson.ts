import type { JudgedHit, Report } from "../engine/grading/index.ts";
import { rounded } from "./heard.ts";

/** A report as the contract of `grade --json` has it. */
export function reportJson(report: Report): object {
  const orNull = (value: number | null): number | null => (value === null ? null : rounded(value));
  return {
    hits: report.hits.map(hitJson),
    missed: report.missed.map(({ targetIndex, time, voice }) => ({
      targetIndex,
      time: rounded(time),
      voice,
    })),
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
    workOn: report.workOn,
  };
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
      };
    // A grace stroke belongs to a written flam or drag: it answers no note of its own.
    case "grace":
      return { ...common, state: "extra", graceOf: judged.targetIndex };
    case "extra":
    case "retrigger":
      return { ...common, state: judged.state };
  }
}
