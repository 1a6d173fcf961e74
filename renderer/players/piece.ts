/**
 * What the demonstration player can play: a groove as a person might play it, or a MIDI file.
 */
import { demonstrate, grooveById } from "../../engine/catalogue/index.ts";
import { readSmf, SmfError } from "../../engine/formats/index.ts";
import { type KitMap, noteFor } from "../../engine/kit/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import type { TimedMessage } from "../midi/timedMessage.ts";

/** Messages from time 0, in order. */
export interface Piece {
  readonly title: string;
  readonly messages: readonly TimedMessage[];
}

/** Thrown when a piece cannot be played; the message says what, why and what to do. */
export class PieceError extends Error {
  override readonly name = "PieceError";
}

/** What to demonstrate. The same seed plays the same strokes. */
export interface DemonstrationAsked {
  readonly styleId: string;
  readonly tempoBpm: number;
  readonly bars: number;
  readonly seed: number;
}

/** A steady player a little behind: figures of the spread are those of trained drummers, lean is our choice. */
const HUMAN = { leanMs: 4, spreadMs: 9, leftOut: 0, added: 0 };
const DRUM_CHANNEL = 9;

/**
 * A humanised performance as the messages a kit with this map would send.
 *
 * @throws PieceError when there is no such style.
 */
export function grooveMessages(asked: DemonstrationAsked, map: KitMap): Piece {
  const groove = grooveById(asked.styleId);
  if (!groove) throw new PieceError(`There is no style called ${asked.styleId}. Choose one of the list.`);
  const strokes = demonstrate(groove, { ...HUMAN, ...asked, chance: seededChance(asked.seed) });
  const messages = strokes.flatMap(({ time, voice, velocity }): readonly TimedMessage[] => {
    const note = noteFor(map, voice);
    if (note === undefined) return [];
    const strength = Math.min(127, Math.max(1, Math.round(velocity * 127)));
    return [{ time, message: { kind: "note-on", channel: DRUM_CHANNEL, note, velocity: strength } }];
  });
  if (messages.length === 0) {
    throw new PieceError(
      `The kit map ${map.name} has none of the voices of ${groove.name}. Choose another map in Kit.`,
    );
  }
  return { title: groove.name, messages };
}

/**
 * The drum channel of a Standard MIDI File; all channels when the tenth is empty.
 *
 * @throws PieceError when the file is broken, or holds no strokes.
 */
export function fileMessages(name: string, bytes: Uint8Array): Piece {
  const events = readEvents(name, bytes);
  const onDrums = events.filter(({ message }) => "channel" in message && message.channel === DRUM_CHANNEL);
  const isStroke = ({ message }: TimedMessage): boolean => message.kind === "note-on";
  const messages = onDrums.some(isStroke) ? onDrums : events;
  if (!messages.some(isStroke)) {
    throw new PieceError(`${name} holds no strokes. Choose a MIDI file with a drum part.`);
  }
  return { title: name, messages };
}

function readEvents(name: string, bytes: Uint8Array): readonly TimedMessage[] {
  try {
    return readSmf(bytes).events;
  } catch (error) {
    if (!(error instanceof SmfError)) throw error;
    throw new PieceError(
      `${name} cannot be played. ${error.message} Choose another file, or export it again.`,
    );
  }
}
