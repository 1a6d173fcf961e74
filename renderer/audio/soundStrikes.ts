/**
 * Lets strikes that no module sounds be heard: those of the keys, and the kit's own where it is said to be silent, as
 * they come in; those of the demonstration, which are known beforehand, ahead of time. Those of a far kit are sounded ahead of
 * time where they come from (`renderer/room`).
 */
import { KitEar, type KitMap } from "../../engine/kit/index.ts";
import type { Piece } from "../players/piece.ts";
import type { LogEntry } from "../session/kitLog.ts";
import type { Session } from "../session/session.ts";
import type { SoundDesk } from "./soundDesk.ts";
import type { Planned, Playing } from "./strokePlayer.ts";

/** Listens to a session and sounds what is struck in it. */
export function soundStrikes(
  session: Pick<Session, "log" | "demonstration" | "kitMap">,
  sound: SoundDesk,
): void {
  soundAsStruck(session, sound);
  soundDemonstration(session, sound);
}

/**
 * A kit that was said to be silent the last time is sounded again from the user's first action in the window on: before
 * that, browsers start no sound.
 */
export function soundKitFromFirstAction(window: Pick<Window, "addEventListener">, sound: SoundDesk): void {
  if (!sound.get().kitIsSilent) return;
  const turnOn = (): void => {
    if (sound.get().kitIsSilent) void sound.turnDrums(true);
  };
  // A mouse may start sound when it is pressed, a finger only when it is lifted: what comes too early waits for the next.
  for (const action of ["pointerdown", "pointerup", "keydown"] as const)
    window.addEventListener(action, turnOn, { once: true });
}

/** Lets what a kit without a module sends be heard, and what the keys play. */
export function soundAsStruck({ log }: Pick<Session, "log">, sound: SoundDesk): void {
  let heard = log.get();
  log.subscribe(() => {
    const fresh = log.entries.slice(heard);
    heard = log.get();
    for (const entry of fresh) soundEntry(entry, sound);
  });
}

function soundEntry({ live, source, event }: LogEntry, sound: SoundDesk): void {
  if (!live || source === "demonstration" || source === "far") return;
  if (source === "kit" && !sound.get().kitIsSilent) return;
  if (event.kind === "hit") sound.sound(event.hit);
  if (event.kind === "choke" && event.held) sound.choke(event.voice);
}

/** A demonstration sounds while drum sounds are on, from where it is when they are turned on. */
function soundDemonstration(
  { demonstration, kitMap }: Pick<Session, "demonstration" | "kitMap">,
  sound: SoundDesk,
): void {
  let sounding: { readonly piece: Piece; readonly from: number; readonly playing: Playing } | undefined;
  const follow = (): void => {
    const player = demonstration.get();
    const wanted = player.state === "playing" && sound.get().drumsOn ? player : undefined;
    // It ends by itself when the last message is handed over: what rings then rings on.
    if (player.state === "played") sounding = undefined;
    if (wanted?.piece === sounding?.piece && wanted?.from === sounding?.from) return;
    sounding?.playing.stop();
    sounding = wanted && {
      piece: wanted.piece,
      from: wanted.from,
      playing: sound.playStrokes(plannedOf(wanted.piece, kitMap.get().map), { from: wanted.from }),
    };
  };
  demonstration.subscribe(follow);
  sound.subscribe(follow);
}

/** What a piece sounds like through a kit map: its strikes, and hands on cymbals. */
export function plannedOf({ messages }: Piece, map: KitMap): readonly Planned[] {
  const ear = new KitEar(map);
  return messages.flatMap(({ message, time }): readonly Planned[] => {
    const event = ear.hear(message, time);
    if (event?.kind === "hit") {
      const { voice, zone, velocity } = event.hit;
      return [{ time, voice, zone, velocity }];
    }
    return event?.kind === "choke" && event.held ? [{ time, voice: event.voice, isChoke: true }] : [];
  });
}
