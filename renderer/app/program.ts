/**
 * The parts of the running program, put together once.
 */
import { SoundDesk } from "../audio/soundDesk.ts";
import { Judge } from "../judging/judge.ts";
import { DemonstrationDesk } from "../players/demonstrationDesk.ts";
import { listenToKeys } from "../players/keyboardPlayer.ts";
import { StyleRound } from "../screens/call-a-style/styleRound.ts";
import type { KeepingPlace } from "../session/kitMapChoice.ts";
import { Session } from "../session/session.ts";

export interface Program {
  readonly session: Session;
  readonly sound: SoundDesk;
  readonly round: StyleRound;
  readonly demonstration: DemonstrationDesk;
}

/** Puts the program together and lets it hear the keys of this window. */
export function startProgram(place: KeepingPlace): Program {
  const session = new Session(place);
  const sound = new SoundDesk();
  const round = new StyleRound(session.log, new Judge(), sound);
  const demonstration = new DemonstrationDesk(session);
  listenToKeys(
    () => session.kitMap.get().map,
    (timed) => session.receive([timed], "keyboard"),
  );
  session.log.subscribe(() => {
    const latest = session.log.entries.at(-1);
    // A kit has a module of its own; what has none is sounded here.
    if (latest?.live && latest.source !== "kit" && latest.event.kind === "hit") sound.sound(latest.event.hit);
  });
  void session.connection.connectIfAllowed();
  return { session, sound, round, demonstration };
}
