/**
 * An item: one thing a student can know, small enough to be asked in a minute.
 */
import { z } from "zod";
import {
  fillById,
  type Naming,
  RHYTHMS,
  rhythmById,
  rhythmName,
  rudimentById,
  SIGNS,
  signById,
  signName,
  styleById,
} from "../catalogue/index.ts";
import { soundName } from "../ear/index.ts";
import { VOICES, type Voice, voiceName } from "../kit/index.ts";
import type { ITEM_KINDS, RoundKind } from "../session/index.ts";
import { AIM_NAMES, AIMS, type Aim } from "../trading/index.ts";

/** The rounds by the names of their pages. */
export const ROUND_NAMES: Readonly<Record<RoundKind, string>> = {
  "call-a-style": "Call a Style",
  spotting: "Spotting",
  "say-and-strike": "Say & Strike",
  "back-turned": "Back Turned",
  "wall-chart": "Wall Chart",
  "card-table": "Card Table",
  trading: "Trading",
};

/** What items are gathered under when a student is looked at over months. */
export const SKILLS = {
  grooves: "playing grooves",
  fills: "playing fills",
  naming: "naming by ear",
  rudiments: "rudiments",
  reading: "reading",
  sounds: "telling sounds",
  speaking: "drum syllables",
  trading: "trading phrases",
  time: "steady time",
  tempo: "holding the tempo",
  voices: "the right sounds",
  touch: "touch",
  form: "form",
} as const;
export type SkillId = keyof typeof SKILLS;

interface KindOfItem {
  readonly skill: SkillId | "of-itself";
  /** The round it is asked in; `null` where none can. */
  readonly round: RoundKind | null;
  /** Said after its name, to tell it from other items of the same name. */
  readonly aspect: string;
  /** How long one of them takes within its round. Our choice, with an answer and a word about it. */
  readonly minutes: number;
}

/** Kinds of which no round writes a result of its own: derived from takes, or the teacher's. */
type DerivedKind = "skill" | "own";
export type ItemKind = (typeof ITEM_KINDS)[number] | DerivedKind;

const KINDS: Readonly<Record<ItemKind, KindOfItem>> = {
  style: { skill: "grooves", round: "call-a-style", aspect: "played", minutes: 2 },
  "style-name": { skill: "naming", round: "spotting", aspect: "by name", minutes: 1 },
  /** No fill is called by itself: it is sounded in Spotting, and played back. */
  fill: { skill: "fills", round: "spotting", aspect: "played", minutes: 2 },
  "fill-name": { skill: "naming", round: "spotting", aspect: "by name", minutes: 1 },
  rudiment: { skill: "rudiments", round: "wall-chart", aspect: "by name", minutes: 0.5 },
  order: { skill: "rudiments", round: "wall-chart", aspect: "its place in the chart", minutes: 0.5 },
  sticking: { skill: "rudiments", round: "wall-chart", aspect: "the hands", minutes: 1 },
  symbol: { skill: "reading", round: "card-table", aspect: "read", minutes: 0.5 },
  sound: { skill: "sounds", round: "back-turned", aspect: "by ear", minutes: 0.5 },
  syllable: { skill: "speaking", round: "say-and-strike", aspect: "said and struck", minutes: 0.5 },
  trade: { skill: "trading", round: "trading", aspect: "traded", minutes: 2 },
  skill: { skill: "of-itself", round: "call-a-style", aspect: "while playing", minutes: 2 },
  /** The teacher's own words: nothing the program can ask. */
  own: { skill: "of-itself", round: null, aspect: "", minutes: 0 },
};
const KIND_NAMES = Object.keys(KINDS).filter(isKind);

/** A kind, a colon, and which one: `style:bossa-nova`, `sticking:flam-tap`, `style:own/3`. */
export const memoryItemSchema = z.templateLiteral([z.enum(KIND_NAMES), ":", z.string().min(1).max(120)]);
export type ItemId = `${ItemKind}:${string}`;

/** Thrown when a text names no item. */
export class ItemError extends Error {
  override readonly name = "ItemError";
}

/** An item taken apart. */
export interface Item {
  readonly kind: ItemKind;
  /** Which one of its kind. */
  readonly subject: string;
}

/**
 * @throws ItemError when the id names no item.
 * @example
 * itemOf("sticking:flam-tap") // => { kind: "sticking", subject: "flam-tap" }
 */
export function itemOf(id: ItemId): Item {
  const colon = id.indexOf(":");
  const kind = id.slice(0, colon);
  const subject = id.slice(colon + 1);
  if (colon < 0 || !isKind(kind) || subject === "")
    throw new ItemError(`"${id}" names no item. Write a kind and a name, as in style:bossa-nova.`);
  return { kind, subject };
}

function isKind(kind: string): kind is ItemKind {
  return Object.hasOwn(KINDS, kind);
}

/** The item of a skill. */
export function skillItem(skill: SkillId): ItemId {
  return `skill:${skill}`;
}

/** The round an item is asked in; `null` where none can ask it. */
export function roundOf(id: ItemId): RoundKind | null {
  return KINDS[itemOf(id).kind].round;
}

/** How long it takes to ask it once, in minutes. */
export function minutesOf(id: ItemId): number {
  return KINDS[itemOf(id).kind].minutes;
}

/** What it is gathered under; `null` for the teacher's own words. */
export function skillOf(id: ItemId): SkillId | null {
  const { kind, subject } = itemOf(id);
  const { skill } = KINDS[kind];
  if (skill !== "of-itself") return skill;
  return isSkill(subject) ? subject : null;
}

function isSkill(subject: string): subject is SkillId {
  return Object.hasOwn(SKILLS, subject);
}

/** Names of what is not of the stock (the studio's own grooves, the teacher's own words), by item. */
export type OwnNames = ReadonlyMap<ItemId, string>;

/**
 * What it is called, and which side of it is meant.
 *
 * @example
 * itemName("style-name:bossa-nova") // => { name: "Bossa nova", aspect: "by name" }
 */
export function itemName(
  id: ItemId,
  ownNames: OwnNames = new Map(),
): { readonly name: string; readonly aspect: string } {
  const { kind, subject } = itemOf(id);
  const name = ownNames.get(id) ?? stockName(kind, subject) ?? inWords(subject);
  return { name, aspect: KINDS[kind].aspect };
}

function stockName(kind: ItemKind, subject: string): string | undefined {
  switch (kind) {
    case "style":
    case "style-name":
      return styleById(subject)?.name;
    case "fill":
    case "fill-name":
      return fillById(subject)?.name;
    case "rudiment":
    case "order":
    case "sticking":
      return rudimentById(subject)?.name;
    case "sound":
      return soundName(subject);
    case "symbol":
      return symbolName(subject);
    case "trade":
      return AIMS.includes(subject as Aim) ? AIM_NAMES[subject as Aim] : undefined;
    case "syllable":
      return VOICES.some((voice) => voice === subject)
        ? sentenceCase(voiceName(subject as Voice))
        : undefined;
    case "skill":
      return isSkill(subject) ? sentenceCase(SKILLS[subject]) : undefined;
    default:
      return undefined;
  }
}

/** In US usage: where a studio says the other, it gives its names as its own. */
function symbolName(subject: string): string | undefined {
  const sign = signById(subject);
  return sign ? signName(sign, "us") : rhythmById(subject)?.name;
}

/** What signs and rhythms are called in this usage, to be given to {@link itemName}. */
export function signNames(naming: Naming): OwnNames {
  return new Map<ItemId, string>([
    ...SIGNS.map((sign) => [`symbol:${sign.id}`, signName(sign, naming)] as const),
    ...RHYTHMS.map((rhythm) => [`symbol:${rhythm.id}`, rhythmName(rhythm, naming)] as const),
  ]);
}

/** The last part of a name that the stock does not have: "own/the-last-one" is "The last one". */
function inWords(subject: string): string {
  return sentenceCase((subject.split("/").at(-1) ?? subject).replaceAll("-", " "));
}

function sentenceCase(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
