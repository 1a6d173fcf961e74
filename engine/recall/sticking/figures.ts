/** The figures of a sticking: evenness, accents, graces, doubles, tempo. */
import { hearableMs, placeOfGaps } from "../../grading/index.ts";
import type { Hand } from "../../score/index.ts";
import { median, robustSpread } from "../../units/index.ts";
import type { BeatLengths } from "./beatLengths.ts";
import type { Contact, Contacts } from "./contacts.ts";
import type { PlayedStroke } from "./playedStroke.ts";
import type { Accents, Evenness, GraceGaps, SecondStrokes, TempoCourse } from "./stickingReport.ts";

/** A strike with the stroke it is. In order of place. */
export interface Matched extends PlayedStroke {
  /** Its place among all strikes. */
  readonly strike: number;
  readonly place: number;
  readonly contact: Contact;
}

/** Fewer of a kind say nothing. Our choice. */
const FEWEST = 3;
/** An accent is heard when it is this much stronger than the other strokes around it. Our choice. */
const ACCENT_RATIO = 1.15;
/** Other main strokes on each side to which an accent is compared. */
const AROUND = 6;
/** A change of tempo by less is held. Our choice: a player who means to go faster does so by more. */
const HELD_WITHIN = 1.15;
/** The share of a performance at each end over which its tempo there is taken. */
const END_SHARE = 0.08;

interface Interval {
  readonly from: Matched;
  readonly to: Matched;
  /** How much longer it was than the tempo around it has it. */
  readonly laterMs: number;
  readonly writtenMs: number;
}

/** From each main stroke to the next that is written after it, where both were struck. */
function intervals(matched: readonly Matched[], lengths: BeatLengths | undefined): readonly Interval[] {
  if (!lengths) return [];
  const mains = matched.filter(({ contact }) => contact.role === "main");
  return mains.flatMap((to, at) => {
    const from = mains[at - 1];
    if (!from || to.place - from.place > 1 + gracesBetween(matched, from, to)) return [];
    const writtenMs = (to.contact.beat - from.contact.beat) * lengths.at(to.strike) * 1000;
    return [{ from, to, laterMs: (to.time - from.time) * 1000 - writtenMs, writtenMs }];
  });
}

function gracesBetween(matched: readonly Matched[], from: Matched, to: Matched): number {
  return matched.filter(
    ({ place, contact }) => place > from.place && place < to.place && contact.role === "grace",
  ).length;
}

export function evennessOf(matched: readonly Matched[], lengths: BeatLengths | undefined): Evenness {
  const all = intervals(matched, lengths);
  if (all.length < FEWEST) return { spreadMs: null, share: null, leftLaterMs: null, leftIsHeard: false };
  const spreadMs = robustSpread(all.map(({ laterMs }) => laterMs)).sd;
  const into = (hand: Hand) =>
    all.filter(({ from, to }) => to.hand === hand && from.hand !== hand).map(({ laterMs }) => laterMs);
  const [left, right] = [into("L"), into("R")];
  const enough = left.length >= FEWEST && right.length >= FEWEST;
  const intervalMs = median(all.map(({ writtenMs }) => writtenMs));
  // A left hand that is late by x makes the interval into it longer by x and the one after it shorter.
  const leftLaterMs = enough ? (median(left) - median(right)) / 2 : null;
  return {
    spreadMs,
    share: spreadMs / intervalMs,
    leftLaterMs,
    leftIsHeard: leftLaterMs !== null && Math.abs(leftLaterMs) > hearableMs(intervalMs),
  };
}

export function accentFigures(matched: readonly Matched[]): Accents | null {
  const mains = matched.filter(({ contact }) => contact.role === "main");
  const strength = (accent: boolean) =>
    mains.filter(({ contact }) => contact.accent === accent).map(({ velocity }) => velocity);
  const [accents, others] = [strength(true), strength(false)];
  if (accents.length < FEWEST || others.length < FEWEST) return null;
  const isLoud = (at: number) => {
    const around = mains
      .slice(Math.max(0, at - AROUND), at + AROUND + 1)
      .filter((other) => !other.contact.accent && other !== mains[at]);
    const usual = median(around.length > 0 ? around.map(({ velocity }) => velocity) : others);
    return (mains[at]?.velocity ?? 0) >= usual * ACCENT_RATIO;
  };
  const usualAccent = median(accents);
  return {
    written: accents.length,
    heard: mains.filter(({ contact }, at) => contact.accent && isLoud(at)).length,
    elsewhere: mains.filter(
      ({ contact, velocity }, at) => !contact.accent && isLoud(at) && velocity >= usualAccent,
    ).length,
    ratio: usualAccent / median(others),
  };
}

export function graceFigures(matched: readonly Matched[], contacts: Contacts): GraceGaps | null {
  const byPlace = new Map(matched.map((each) => [each.place, each]));
  const mains = matched.flatMap((main) => {
    if (main.contact.role !== "main") return [];
    let written = 0;
    while (main.place - written - 1 >= 0 && contacts.isGrace(main.place - written - 1)) written += 1;
    if (written === 0) return [];
    const graces = Array.from({ length: written }, (_, at) => byPlace.get(main.place - written + at));
    return [{ main, graces: graces.filter((grace) => grace !== undefined), written }];
  });
  if (mains.length === 0) return null;
  const ornament = mains[0]?.written === 2 ? "drag" : "flam";
  const whole = mains.filter(({ graces, written }) => graces.length === written);
  const each = whole.map(({ main, graces }) => {
    const gapsMs = graces.map(({ time }, at) => ((graces[at + 1] ?? main).time - time) * 1000);
    return { main, gapsMs, placed: placeOfGaps(ornament, gapsMs) };
  });
  const usual = (hand?: Hand) => {
    const gaps = each.flatMap(({ main, gapsMs }) =>
      hand === undefined || main.contact.hand === hand ? gapsMs : [],
    );
    return gaps.length === 0 ? null : median(gaps);
  };
  const count = (placed: ReturnType<typeof placeOfGaps>) =>
    each.filter((one) => one.placed === placed).length;
  return {
    ornament,
    count: whole.length,
    asWritten: count("as-written"),
    tooTight: count("too-tight"),
    tooOpen: count("too-open"),
    missing: mains.length - whole.length,
    gapMs: usual(),
    byHandMs: { R: usual("R"), L: usual("L") },
    notSofter: mains.reduce(
      (sum, { main, graces }) => sum + graces.filter(({ velocity }) => velocity >= main.velocity).length,
      0,
    ),
  };
}

export function secondStrokeFigures(
  matched: readonly Matched[],
  lengths: BeatLengths | undefined,
): SecondStrokes | null {
  const doubles = intervals(matched, lengths).filter(
    ({ from, to }) =>
      to.contact.secondOfDouble && from.contact.accent === to.contact.accent && from.hand === to.hand,
  );
  if (doubles.length < FEWEST) return null;
  const usual = (hand: Hand, figure: (double: Interval) => number) => {
    const ofHand = doubles.filter(({ to }) => to.hand === hand).map(figure);
    return ofHand.length < FEWEST ? null : median(ofHand);
  };
  const strength = ({ from, to }: Interval) => to.velocity / from.velocity;
  const later = ({ laterMs }: Interval) => laterMs;
  return {
    count: doubles.length,
    strength: { R: usual("R", strength), L: usual("L", strength) },
    laterMs: { R: usual("R", later), L: usual("L", later) },
  };
}

export function tempoCourse(
  matched: readonly Matched[],
  lengths: BeatLengths | undefined,
): TempoCourse | null {
  const tempos = matched.flatMap(({ strike, contact }) => {
    const bpm = lengths ? 60 / lengths.at(strike) : Number.NaN;
    return contact.role === "main" && Number.isFinite(bpm) && bpm > 0 ? [bpm] : [];
  });
  if (tempos.length < FEWEST * 3) return null;
  const atEnd = Math.max(FEWEST, Math.round(tempos.length * END_SHARE));
  const startBpm = median(tempos.slice(0, atEnd));
  const endBpm = median(tempos.slice(-atEnd));
  const fastestBpm = Math.max(
    ...tempos.map((_, at) => median(tempos.slice(Math.max(0, at - (atEnd >> 1)), at + (atEnd >> 1) + 1))),
  );
  const rises = fastestBpm >= startBpm * HELD_WITHIN;
  const falls = fastestBpm >= endBpm * HELD_WITHIN;
  const shape = rises && falls ? "open-closed-open" : rises ? "open-closed" : falls ? "closed-open" : "held";
  return { shape, startBpm, fastestBpm, endBpm };
}
