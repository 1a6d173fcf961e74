import type { SoundDesk } from "../audio/soundDesk.ts";
import type { TomPitches } from "../audio/tomPitches.ts";
import type { DemonstrationDesk } from "../players/demonstrationDesk.ts";
import type { CardSettings } from "../session/cardSettings.ts";
import type { HandPads } from "../session/handPads.ts";
import type { Session } from "../session/session.ts";
import type { SyllableNames } from "../session/syllableNames.ts";

/** What runs from the first moment on: the kit is heard, and sounds. */
export interface KitProgram {
  readonly session: Session;
  readonly sound: SoundDesk;
  /** The pitches of the studio's own toms. */
  readonly toms: TomPitches;
  /** How cards are laid, and which names are used. */
  readonly cards: CardSettings;
  /** Which pad each hand has when a sticking is played. */
  readonly hands: HandPads;
  /** The syllables drums are said with. */
  readonly syllables: SyllableNames;
  readonly demonstration: DemonstrationDesk;
}
