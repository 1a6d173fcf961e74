/**
 * Question: why this groove and not its neighbour, or why none that is known, in the words of a teacher?
 * Method: what tells two grooves apart most in this take (`tellingPlaces.ts`), first among the strokes that make the styles
 * themselves. Only what was heard is told, or a silence where the other groove has strokes.
 */
import { type Voice, voiceName } from "../kit/index.ts";
import { beatsPerBar, isCompound } from "../score/index.ts";
import type { Background } from "./background.ts";
import { listed, placesWords } from "./countedPlaces.ts";
import type { Heard, Why } from "./hearing.ts";
import type { KnownGroove } from "./knownGroove.ts";
import type { PulseHypothesis } from "./pulse.ts";
import {
  type CountedBar,
  countedBar,
  dividedPulse,
  expectedBy,
  type Laid,
  ownPlaces,
  type PartAtPlace,
  partsAtPlaces,
  voiceAt,
} from "./tellingPlaces.ts";
import { placeGrooves } from "./weighing.ts";

/** Of the candidates, so many are compared with one another. */
const NEAREST = 3;

/**
 * For the first three candidates, in their order: why it rather than each of the other two, and what is not its own. The
 * others are laid on its own pulse: on another, at half the tempo say, the same strokes would be counted otherwise.
 *
 * @param pulse that of the hearing, in whose beats it is told what is not a candidate's own.
 */
export function explained(
  candidates: readonly Candidate[],
  pulse: PulseHypothesis,
  general: Background,
): readonly Why[] {
  const nearest = candidates.slice(0, NEAREST);
  return nearest.map((one, rank) => {
    const others = rank === 0 || one.confidence >= COULD_BE ? nearest.filter((other) => other !== one) : [];
    const laid = onFeltBeats(one, general);
    const bar = countedBar(laid);
    return {
      rather: others.map(({ known }) => ({ than: known.id, because: ratherThan(known, laid, bar, general) })),
      but: butOn(pulse, one, general),
    };
  });
}

/** A candidate as it was laid. */
type Candidate = Laid & { readonly confidence: number };

/** One with a smaller chance is not heard first even when it was called (see `rounds/callAStyle/asCalled.ts`). */
const COULD_BE = 0.004;

/**
 * A groove that was laid on a pulse of every other felt beat, laid on its felt beats: there others can be laid that are
 * counted by the same.
 */
function onFeltBeats(laid: Laid, general: Background): Laid {
  const { feltPerPulse } = laid.model;
  const models = laid.known.models.filter((model) => model.feltPerPulse === 1);
  if (feltPerPulse === 1 || models.length === 0) return laid;
  const felt = dividedPulse(laid.placing.pulse, feltPerPulse);
  const [relaid] = placeGrooves({ grooves: [{ ...laid.known, models }], general }, [felt], 0);
  return relaid ?? laid;
}

/** What is not its own, in the beats of the hearing. */
function butOn(pulse: PulseHypothesis, one: Laid, general: Background): string {
  const [laid = one] =
    one.placing.pulse === pulse ? [one] : placeGrooves({ grooves: [one.known], general }, [pulse], 0);
  return but(laid, countedBar(laid));
}

function ratherThan(known: KnownGroove, laid: Laid, bar: CountedBar, general: Background): string {
  const [other] = placeGrooves({ grooves: [known], general }, [laid.placing.pulse], 0);
  return other ? because(laid, other, bar) : tempoWords(laid, known);
}

/** Neighbours told, at most. */
const MOST_TOLD = 2;

/**
 * Whole sentences: why the best candidate rather than the two next, or why none, with the nearest two. Of a shuffle, say,
 * "Shuffle rather than swing: the snare holds two and four."
 */
export function whyWords({ candidates, known }: Heard): readonly string[] {
  const [best, next] = candidates;
  if (!best?.why) return [];
  if (known) {
    return best.why.rather.slice(0, MOST_TOLD).flatMap(({ than, because: reason }) => {
      const other = candidates.find(({ id }) => id === than);
      return other ? [`${best.name} rather than ${candidateName(other)}: ${reason}.`] : [];
    });
  }
  return [
    `None I know; nearest is ${candidateName(best)}, but ${best.why.but}.`,
    ...(next ? norWords(next) : []),
  ];
}

/** Why it is not this candidate either: one sentence, or none where nothing is known of it. */
export function norWords(candidate: Heard["candidates"][number]): readonly string[] {
  return candidate.why ? [`Nor is it ${candidateName(candidate)}: ${candidate.why.but}.`] : [];
}

/** A style inside a sentence; a groove of a shelf has the name its owner gave it. */
function candidateName({ name, variant }: Heard["candidates"][number]): string {
  return variant === undefined ? name : inSentence(name);
}

/**
 * A name as it stands inside a sentence; one with further capitals keeps them all.
 *
 * @example
 * inSentence("Bossa nova") // => "bossa nova"
 */
export function inSentence(name: string): string {
  const rest = name.slice(1);
  const isInitial = /^[^\p{L}]/u.test(rest);
  return !isInitial && rest === rest.toLowerCase() ? name.charAt(0).toLowerCase() + rest : name;
}

/** A stroke that comes at least so often a round is played there; one that comes less often than the other is not. */
const PLAYED = 0.5;
const SILENT = 0.15;
/** A groove has a stroke where it expects so many a round; ghost strokes count half. */
const WRITTEN = 0.35;
/** Less says next to nothing, in natural-log units. */
const LEAST_TOLD = 1;
/** A stroke that was heard is told rather than a silence that says as much. */
const SILENCE_COUNTS = 0.4;
/** More places than this are a list and no reason. */
const MOST_PLACES = { played: 8, silent: 5, foreign: 3, missing: 3 };
/** A second clause is said where it speaks at least so much as this share of the first. */
const SECOND_CLAUSE = 0.5;
// All of them: our choice.

/** What one voice says at some places. */
interface Clause {
  readonly kind: "played" | "silent" | "foreign" | "missing";
  readonly voice: Voice;
  readonly part: number;
  readonly places: readonly PartAtPlace[];
  readonly weight: number;
}

function because(laid: Laid, other: Laid, bar: CountedBar): string {
  const otherwise = expectedBy(other, bar);
  const own = ownPlaces(laid, bar);
  const othersOwn = ownPlaces(other, bar);
  const all = partsAtPlaces(bar, otherwise);
  const telling = all.filter(({ weight }) => weight >= LEAST_TOLD / 4);
  const played = telling.filter((one) => one.heard >= PLAYED && one.expected >= WRITTEN);
  const silent = telling.filter(
    (one) => one.heard <= SILENT && one.otherwise >= WRITTEN && one.expected < WRITTEN,
  );
  const isOwn = (places: ReadonlySet<number>) => (one: PartAtPlace) =>
    places.has(one.part * bar.places.length + one.place);
  const clausesOf = (heard: readonly PartAtPlace[], unheard: readonly PartAtPlace[]) =>
    strongest([
      ...byVoice("played", heard, ({ part, place }) => voiceAt(bar.heard, bar, part, place)),
      ...byVoice("silent", unheard, ({ part, place }) => voiceAt(otherwise, bar, part, place)),
    ]);
  const ofOwn = clausesOf(played.filter(isOwn(own)), silent.filter(isOwn(othersOwn)));
  const clauses = ofOwn.length > 0 ? ofOwn : clausesOf(played, silent);
  return clauses.length > 0 ? told(clauses, bar, all) : tempoWords(laid, other.known);
}

/** Nothing that was struck tells the two apart: then the tempo does, or nothing. */
function tempoWords({ model, placing }: Laid, other: KnownGroove): string {
  const tempoBpm = (60 * model.feltPerPulse) / placing.pulse.beatSeconds;
  const isOutside = tempoBpm < other.tempoBpm.low || tempoBpm > other.tempoBpm.high;
  return isOutside ? `${Math.round(tempoBpm)} a minute suits it better` : "hardly a stroke tells them apart";
}

/** What the groove itself does not explain of the take, and what of it was not heard. */
function but(laid: Laid, bar: CountedBar): string {
  const own = ownPlaces(laid, bar);
  const all = partsAtPlaces(bar, bar.heard).map((one) => ({ ...one, weight: -one.weight }));
  const foreign = all.filter((one) => one.heard >= PLAYED && one.expected < one.heard / 2);
  const missing = all.filter(
    (one) =>
      one.heard <= SILENT && one.expected >= WRITTEN && own.has(one.part * bar.places.length + one.place),
  );
  const clauses = strongest([
    ...byVoice("missing", missing, ({ part, place }) => voiceAt(bar.expected, bar, part, place)),
    ...byVoice("foreign", foreign, ({ part, place }) => voiceAt(bar.heard, bar, part, place)),
  ]);
  return clauses.length > 0 ? told(clauses, bar, all) : "too little speaks for it";
}

function told(clauses: readonly Clause[], bar: CountedBar, all: readonly PartAtPlace[]): string {
  return listed([...new Set(clauses.map((clause) => words(clause, bar, all)))]);
}

/** The strokes of each voice together. */
function byVoice(
  kind: Clause["kind"],
  places: readonly PartAtPlace[],
  voiceOf: (one: PartAtPlace) => Voice,
): readonly Clause[] {
  const voices = new Map<Voice, PartAtPlace[]>();
  for (const one of places) {
    const voice = voiceOf(one);
    voices.set(voice, [...(voices.get(voice) ?? []), one]);
  }
  return [...voices].map(([voice, those]) => ({
    kind,
    voice,
    part: those[0]?.part ?? 0,
    places: those,
    weight: those.reduce((sum, { weight }) => sum + weight, 0) * (kind === "silent" ? SILENCE_COUNTS : 1),
  }));
}

/** The clause that says most, and a second of another voice where it says nearly as much. */
function strongest(clauses: readonly Clause[]): readonly Clause[] {
  const ordered = clauses.filter(({ weight }) => weight >= LEAST_TOLD).sort((a, b) => b.weight - a.weight);
  const [first, second] = ordered;
  if (!first) return [];
  return second && second.weight >= SECOND_CLAUSE * first.weight && second.voice !== first.voice
    ? [first, second]
    : [first];
}

function words(clause: Clause, bar: CountedBar, all: readonly PartAtPlace[]): string {
  const voice = voiceName(clause.voice).replace("crash left", "crash");
  const at = atWords(strongestPlaces(clause), bar);
  switch (clause.kind) {
    case "played":
      return rowWords(clause, bar, all) ?? playedWords(voice, clause, bar, all);
    case "silent":
      return rowWords(clause, bar, all) ?? onlyWords(clause, bar, all) ?? `there is no ${voice} ${at}`;
    case "foreign":
      return `the ${voice} ${at} is not its own`;
    case "missing":
      return `its ${voice} ${at} is not there`;
  }
}

function atWords(places: readonly PartAtPlace[], bar: CountedBar): string {
  return placesWords(
    places.map(({ place }) => bar.places[place] ?? 0),
    bar,
  );
}

function strongestPlaces({ kind, places }: Clause): readonly PartAtPlace[] {
  return [...places].sort((a, b) => b.weight - a.weight).slice(0, MOST_PLACES[kind]);
}

/** What tells, or the whole figure of the voice where that is said as shortly: "on every beat" for "on one and three". */
function playedWords(voice: string, clause: Clause, bar: CountedBar, all: readonly PartAtPlace[]): string {
  const figure = all.filter(
    ({ part, place, heard, expected }) =>
      part === clause.part &&
      heard >= PLAYED &&
      expected >= WRITTEN &&
      voiceAt(bar.heard, bar, part, place) === clause.voice,
  );
  const [telling, whole] = [atWords(strongestPlaces(clause), bar), atWords(figure, bar)];
  const at = whole.length <= telling.length ? whole : telling;
  const isBackBeat = clause.part === BACK_BEAT && beatsPerBar(bar.metre) === 4 && !isCompound(bar.metre);
  return isBackBeat && at === "on two and four"
    ? `the ${voice} holds two and four`
    : `the ${voice} comes ${at}`;
}

/** "The snare comes only on three": where a part is played in few places, they tell its silences shortest. */
function onlyWords(clause: Clause, bar: CountedBar, all: readonly PartAtPlace[]): string | undefined {
  const heard = all.filter(({ part, heard }) => part === clause.part && heard > SILENT);
  const voices = new Set(heard.map(({ part, place }) => voiceAt(bar.heard, bar, part, place)));
  const [voice] = voices;
  const isPlain = heard.length <= FEW_PLACES * bar.bars && heard.every((one) => one.heard >= PLAYED);
  if (voice === undefined || voices.size > 1 || !isPlain) return undefined;
  return `the ${voiceName(voice)} comes only ${atWords(heard, bar)}`;
}
const FEW_PLACES = 3;

const BACK_BEAT = 1;
const TIME_KEEPER = 2;

/** "The hi-hat plays eighths": an even row of one voice, which what tells is part of. */
function rowWords(clause: Clause, bar: CountedBar, all: readonly PartAtPlace[]): string | undefined {
  if (clause.part !== TIME_KEEPER) return undefined;
  const heard = all.filter(({ part, heard }) => part === clause.part && heard >= PLAYED);
  const [first] = heard;
  const voices = new Set(heard.map(({ part, place }) => voiceAt(bar.heard, bar, part, place)));
  if (!first || voices.size > 1) return undefined;
  const beats = bar.bars * beatsPerBar(bar.metre);
  const row = isCompound(bar.metre) ? COMPOUND_ROWS : ROWS;
  const places = heard.map(({ place }) => bar.places[place] ?? 0);
  const even = row.find(
    ({ perBeat }) =>
      places.length === perBeat * beats &&
      places.every((place) => Math.abs(place * perBeat - Math.round(place * perBeat)) < 1e-6),
  );
  return even && `the ${voiceName(voiceAt(bar.heard, bar, first.part, first.place))} plays ${even.name}`;
}

const ROWS = [
  { perBeat: 1, name: "quarters" },
  { perBeat: 2, name: "eighths" },
  { perBeat: 3, name: "triplets" },
  { perBeat: 4, name: "sixteenths" },
];
const COMPOUND_ROWS = [
  { perBeat: 1, name: "dotted quarters" },
  { perBeat: 3, name: "eighths" },
];
