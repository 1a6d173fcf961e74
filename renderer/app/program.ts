/**
 * The parts of the running program, put together once: the kit at once, the studio and the rest of the
 * lesson when they are loaded.
 */
import { SoundDesk } from "../audio/soundDesk.ts";
import { soundAsStruck, soundKitFromFirstAction, soundStrikes } from "../audio/soundStrikes.ts";
import { TomPitches } from "../audio/tomPitches.ts";
import { DemonstrationDesk } from "../players/demonstrationDesk.ts";
import { listenToKeys } from "../players/keyboardPlayer.ts";
import type { RoomDesk } from "../room/roomDesk.ts";
import { CardSettings } from "../session/cardSettings.ts";
import { HandPads } from "../session/handPads.ts";
import type { KeepingPlace } from "../session/kitMapChoice.ts";
import { Session } from "../session/session.ts";
import { SyllableNames } from "../session/syllableNames.ts";
import type { KitProgram } from "./kitProgram.ts";
import type { Lesson } from "./lesson.ts";
import type { Studio } from "./studio.ts";
import { ToCome } from "./toCome.ts";

export interface Program extends KitProgram {
  readonly studio: ToCome<Studio>;
  readonly lesson: ToCome<Lesson>;
  /** Trading in two places, and the kit lab. */
  readonly room: ToCome<RoomDesk>;
}

/** Puts the program together and lets it hear the keys of this window. */
export function startProgram(place: KeepingPlace): Program {
  const session = new Session(place);
  const sound = new SoundDesk(place);
  const toms = new TomPitches(place);
  const cards = new CardSettings(place);
  const hands = new HandPads(place);
  const syllables = new SyllableNames(place);
  const demonstration = new DemonstrationDesk(session);
  listenToKeys(
    () => session.kitMap.get().map,
    (timed) => session.receive([timed], "keyboard"),
  );
  soundStrikes(session, sound);
  soundAsStruck(session.kits[1], sound);
  soundKitFromFirstAction(window, sound);
  sound.subscribe(() => {
    const { heardBy } = sound.get();
    if (heardBy) session.setUps.hearBy(heardBy);
  });
  void sound.prepare();
  void session.connection.connectIfAllowed();
  const kit = { session, sound, toms, cards, hands, syllables, demonstration };
  const studio = new ToCome(async () => (await import("./studio.ts")).openStudio());
  const lesson = new ToCome(async () => {
    const [{ startLesson }, opened] = await Promise.all([import("./lesson.ts"), studio.load()]);
    return startLesson(kit, opened);
  });
  const room = new ToCome(async () =>
    (await import("./room.ts")).startRoom(kit, place, () => lesson.get()?.round.get().at),
  );
  return { ...kit, studio, lesson, room };
}
