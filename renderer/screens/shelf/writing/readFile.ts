/** From the bytes of a MIDI file to the groove that comes round in it, or the reason why there is none. */
import { readSmf, SmfError, type SmfFile, strikesOf } from "../../../../engine/formats/index.ts";
import { type Hit, type KitMap, RetriggerFilter } from "../../../../engine/kit/index.ts";
import {
  asGroove,
  headingOfFile,
  pulseOfFile,
  quantise,
  type RepeatingGroove,
  repeatingGroove,
} from "../../../../engine/listening/index.ts";
import type { FileRead } from "../import/shelfImport.ts";

const DRUM_CHANNEL = 9;
/** A file in which no map knows this share of the strikes is not one of drums. Our choice. */
const LEAST_NAMED = 0.5;

const NO_GROOVE: Readonly<Record<(RepeatingGroove & { readonly kind: "none" })["reason"], string>> = {
  "too-few-hits": "Too little is played in it to hear a pulse.",
  "too-few-bars":
    "It is too short for anything to come round in it, and has no bars of its own to be a phrase.",
  "nothing-repeats": "No bar of it comes round often enough to be its groove.",
};

/**
 * @param maps kit maps, the one in use first; the one that knows most of the strikes names them.
 */
export function readFile(bytes: Uint8Array, maps: readonly KitMap[]): FileRead {
  let file: SmfFile;
  try {
    file = readSmf(bytes);
  } catch (error) {
    if (!(error instanceof SmfError)) throw error;
    return { kind: "failed", reason: error.message };
  }
  const hits = drumHits(file, maps);
  if (hits === "silent") return { kind: "failed", reason: "There is no stroke in it." };
  if (hits === "no drums")
    return {
      kind: "failed",
      reason:
        "Its notes are not those of a drum kit, by any of the kit maps. Choose or learn the right map in Kit.",
    };
  const found = repeatingGroove(hits, file);
  if (found.kind === "found")
    return { kind: "found", as: "groove", music: asGroove(found.groove, HEADS), bar: found.firstBar };
  const phrase = found.reason === "nothing-repeats" ? undefined : shortPhrase(hits, file);
  return phrase ?? { kind: "failed", reason: NO_GROOVE[found.reason] };
}

const HEADS = { id: "found", name: "found" };
/** Longer, something should have come round. Our choice. */
const MOST_BARS_OF_A_PHRASE = 4;

/** What is too short to come round is a phrase, on the file's own bars. */
function shortPhrase(hits: readonly Hit[], file: SmfFile): FileRead | undefined {
  const pulse = pulseOfFile(hits, file);
  const heading = headingOfFile(hits, file) ?? (pulse && { pulse, swing: null });
  const phrase = heading && asGroove(quantise(hits, heading), HEADS);
  if (!phrase || phrase.bars > MOST_BARS_OF_A_PHRASE) return undefined;
  return { kind: "found", as: "phrase", music: phrase, bar: 1 };
}

/** The true strikes of the drum channel, or of all where it is empty. */
function drumHits(file: SmfFile, maps: readonly KitMap[]): readonly Hit[] | "silent" | "no drums" {
  const onDrums = file.events.filter(
    ({ message }) => "channel" in message && message.channel === DRUM_CHANNEL,
  );
  const isStroke = ({ message }: SmfFile["events"][number]): boolean => message.kind === "note-on";
  const events = onDrums.some(isStroke) ? onDrums : file.events;
  const readings = maps.map((map) => {
    const hits = strikesOf({ ...file, events }, map);
    return { hits, named: hits.filter(({ voice }) => voice !== "unknown").length };
  });
  const best = readings.reduce<(typeof readings)[number] | undefined>(
    (most, one) => (most && most.named >= one.named ? most : one),
    undefined,
  );
  if (!best || best.hits.length === 0) return "silent";
  if (best.named < LEAST_NAMED * best.hits.length) return "no drums";
  const filter = new RetriggerFilter();
  return best.hits.filter((hit) => !filter.isRetrigger(hit));
}
