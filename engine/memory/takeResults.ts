/**
 * Question: what does a take show of what the student knows?
 *
 * Two things: whether the groove is known, which goes into the tally of the round; and how the skills went that every take
 * exercises, which is derived from the take's summary whenever it is wanted and kept nowhere.
 */
import { bandMs, isSteady } from "../grading/index.ts";
import type { Level } from "../score/index.ts";
import type { ItemResult, NamedGroove, Outcome, TakeSummary } from "../session/index.ts";
import type { Day } from "./day.ts";
import { type SkillId, skillItem } from "./item.ts";
import type { Result } from "./result.ts";

/** A groove holds when it was heard as itself and this share of its written strokes came as written. Our choice: one in five may slip. */
const HELD_SHARE = 0.8;
/** Of the strokes that were played in time, the share on the right sound from which the sounds hold. Our choice. */
const RIGHT_SOUND_SHARE = 0.9;
/** From this chance on, a groove that was not called counts as the one heard. Our choice: one in ten may be wrong. */
const SURE = 0.9;
/** The smallest change of tempo that is heard: Drake & Botte, Perception & Psychophysics 54 (1993) 277–286 (from memory). */
const HEARD_DRIFT_PERCENT = 1.5;
/** Fewer strokes show no habit of time or sound. Our choice: two bars of eighths. */
const FEWEST_STROKES = 16;

/** Kinds of {@link TakeSummary.workOn} by the skill they speak of, where nothing else in the summary measures it. */
const NAMED_SKILLS: Readonly<Record<string, SkillId>> = {
  touch: "touch",
  accents: "touch",
  "hi-hat": "touch",
  ornament: "touch",
  form: "form",
};

/**
 * What a take says of the groove that was called, or surely heard; `null` when it says nothing: nobody's take, nothing
 * played, or a free choice of nothing known. A groove not called and not held says nothing either: nobody asked for it.
 *
 * @param wasMet whether the student has met this groove before: any earlier result of it.
 */
export function resultOfTake(
  take: TakeSummary,
  wasMet: (item: ItemResult["item"]) => boolean,
): ItemResult | null {
  const asked = take.called ?? surelyHeard(take);
  if (take.studentId === null || asked === null || take.hitCount === 0) return null;
  const item = `style:${asked.id}` as const;
  const held = take.heard?.id === asked.id && shareAsWritten(take) >= HELD_SHARE;
  if (!held && take.called === null) return null;
  const outcome: Outcome = held ? "known" : wasMet(item) ? "slipped" : "new";
  const { takeId, roundId, studentId, at } = take;
  return { item, outcome, studentId, at, evidence: { words: grooveWords(take, held), roundId, takeId } };
}

function surelyHeard({ heard }: TakeSummary): NamedGroove | null {
  return heard && heard.confidence >= SURE ? heard : null;
}

/** 0 where nothing was written or compared. */
function shareAsWritten({ voices }: TakeSummary): number {
  const written = voices.reduce((sum, each) => sum + each.written, 0);
  return voices.reduce((sum, each) => sum + each.asWritten, 0) / Math.max(1, written);
}

function grooveWords(take: TakeSummary, held: boolean): string {
  const at = take.tempoBpm === null ? "" : ` at ${Math.round(take.tempoBpm)} a minute`;
  if (held) return `Held${at}.${take.workOn ? ` ${take.workOn.words}` : ""}`;
  if (take.heard && take.heard.id !== take.called?.id) return `${take.heard.name} was heard${at}.`;
  if (!take.heard) return "None of the known grooves was heard.";
  const share = Math.round(100 * shareAsWritten(take));
  return `${share} in 100 strokes as written${at}.${take.workOn ? ` ${take.workOn.words}` : ""}`;
}

/**
 * What a take says of the skills it exercises, in the student's own band; nothing where nothing was compared or too little
 * was played. Skills that the summary measures are known or slipped; touch and form only slip, when the one thing to work
 * on is of them, since a summary does not say that they held.
 *
 * @param level the student's now: the band is of the level then, where the take kept it.
 */
export function skillResults(
  take: TakeSummary,
  { level, day }: { readonly level: Level; readonly day: Day },
): readonly Result[] {
  const { studentId, at, roundId, takeId } = take;
  const played = take.voices.reduce((sum, { asWritten, otherSound }) => sum + asWritten + otherSound, 0);
  if (studentId === null || take.groove === null || played < FEWEST_STROKES) return [];
  const named = NAMED_SKILLS[take.workOn?.kind ?? ""];
  const shown: readonly (readonly [SkillId, boolean | null, string])[] = [
    ["time", steady(take, take.level ?? level), spreadWords(take)],
    ["tempo", tempoHeld(take), driftWords(take)],
    [
      "voices",
      take.voiceAccuracy === null ? null : take.voiceAccuracy >= RIGHT_SOUND_SHARE,
      soundWords(take),
    ],
    ["touch", named === "touch" ? false : null, take.workOn?.words ?? ""],
    ["form", named === "form" ? false : null, take.workOn?.words ?? ""],
  ];
  return shown.flatMap(([skill, held, words]) =>
    held === null
      ? []
      : [
          {
            item: skillItem(skill),
            outcome: held ? "known" : "slipped",
            studentId,
            at,
            day,
            evidence: { words, roundId, takeId },
          },
        ],
  );
}

function steady({ spreadMs, tempoBpm }: TakeSummary, level: Level): boolean | null {
  return spreadMs === null || tempoBpm === null ? null : isSteady(spreadMs, bandMs(level, tempoBpm));
}

function tempoHeld({ driftPercent }: TakeSummary): boolean | null {
  return driftPercent === null ? null : Math.abs(driftPercent) < HEARD_DRIFT_PERCENT;
}

function spreadWords({ spreadMs, groove }: TakeSummary): string {
  return `Spread ${Math.round(spreadMs ?? 0)} ms in ${groove?.name ?? "a groove"}.`;
}

function driftWords({ driftPercent, groove }: TakeSummary): string {
  const drift = driftPercent ?? 0;
  const moved = Math.abs(drift).toFixed(1);
  const where = `in ${groove?.name ?? "a groove"}`;
  if (Math.abs(drift) < HEARD_DRIFT_PERCENT) return `The tempo held ${where}.`;
  return `${drift > 0 ? "Gained" : "Lost"} ${moved} in 100 ${where}.`;
}

function soundWords({ voiceAccuracy, groove }: TakeSummary): string {
  return `${Math.round(100 * (voiceAccuracy ?? 0))} in 100 strokes on the right sound in ${groove?.name ?? "a groove"}.`;
}
