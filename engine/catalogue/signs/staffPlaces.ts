import type { Voice } from "../../kit/index.ts";
import { type HeadShape, type Level, staffPlace, stepsAboveBottomLine } from "../../score/index.ts";
import type { Sign } from "./sign.ts";

interface VoiceSign {
  readonly voice: Voice;
  readonly us: string;
  readonly uk?: string;
  readonly level: Level;
  readonly otherNames: readonly string[];
}

/**
 * The voices of a drum set that have a place on the staff which all books share, and two that most do. Places are those of
 * `engine/score/staff` (Weinberg 1994). Names: common practice, no source.
 */
const VOICE_SIGNS: readonly VoiceSign[] = [
  { voice: "kick", us: "bass drum", level: "first-year", otherNames: ["kick", "kick drum"] },
  { voice: "snare", us: "snare drum", level: "first-year", otherNames: ["snare"] },
  {
    voice: "hi-hat-closed",
    us: "closed hi-hat",
    level: "first-year",
    otherNames: ["hi-hat", "hihat", "hat", "hi-hat closed"],
  },
  {
    voice: "hi-hat-open",
    us: "open hi-hat",
    level: "first-year",
    otherNames: ["hi-hat open", "open hihat", "open hat"],
  },
  {
    voice: "hi-hat-pedal",
    us: "hi-hat pedal",
    uk: "foot hi-hat",
    level: "second-year",
    otherNames: ["hi-hat with the foot", "pedal hi-hat", "hi-hat foot"],
  },
  {
    voice: "high-tom",
    us: "high tom",
    level: "first-year",
    otherNames: ["small tom", "tom one", "first tom", "rack tom"],
  },
  {
    voice: "mid-tom",
    us: "mid tom",
    uk: "middle tom",
    level: "second-year",
    otherNames: ["medium tom", "tom two", "second tom", "low rack tom"],
  },
  { voice: "floor-tom", us: "floor tom", level: "first-year", otherNames: ["low tom", "large tom"] },
  { voice: "ride", us: "ride cymbal", level: "first-year", otherNames: ["ride"] },
  { voice: "bell", us: "ride bell", level: "steady", otherNames: ["bell of the ride", "bell", "ride cup"] },
  { voice: "crash-left", us: "crash cymbal", level: "first-year", otherNames: ["crash"] },
  {
    voice: "cross-stick",
    us: "cross-stick",
    level: "second-year",
    otherNames: ["side stick", "rim click", "cross stick snare"],
  },
  { voice: "splash", us: "splash cymbal", level: "working", otherNames: ["splash"] },
  { voice: "china", us: "china cymbal", level: "working", otherNames: ["china"] },
];

const LINES = ["bottom line", "second line", "middle line", "fourth line", "top line"];
const SPACES = ["first space", "second space", "third space", "fourth space"];
const HEADS: Readonly<Record<HeadShape, string>> = {
  normal: "round head",
  x: "cross",
  "circle-x": "cross in a circle",
  diamond: "diamond",
  "triangle-up": "triangle",
  "triangle-down": "triangle on its tip",
  slash: "slash",
  square: "square",
};

export const STAFF_PLACE_SIGNS: readonly Sign[] = VOICE_SIGNS.map(
  ({ voice, us, uk = us, level, otherNames }): Sign => ({
    id: `place-${voice}`,
    family: "place",
    level,
    names: { us, uk },
    otherNames,
    glyph: null,
    drawn: { kind: "place", voice },
    seen: `${HEADS[staffPlace(voice).head]} ${placeWords(voice)}${staffPlace(voice).open ? ", a small circle over it" : ""}`,
  }),
);

/** Where on the staff, in words. */
function placeWords(voice: Voice): string {
  const steps = stepsAboveBottomLine(staffPlace(voice));
  if (steps === -1) return "under the staff";
  if (steps === 9) return "in the space over the staff";
  if (steps > 9) return "on a line of its own over the staff";
  return steps % 2 === 0 ? `on the ${LINES[steps / 2]}` : `in the ${SPACES[(steps - 1) / 2]}`;
}
