/**
 * What is told apart by ear: a surface of the kit with the way it is struck. Finer than a voice where the ear can be (a
 * half-open hi-hat, a rim shot), and no finer.
 */
import type { Hit, Voice, Zone } from "../kit/index.ts";

export const SURFACES = [
  "kick",
  "snare",
  "rim-shot",
  "cross-stick",
  "hi-hat-closed",
  "hi-hat-half",
  "hi-hat-open",
  "hi-hat-pedal",
  "high-tom",
  "mid-tom",
  "floor-tom",
  "ride",
  "bell",
  "crash-left",
  "crash-right",
] as const;
export type Surface = (typeof SURFACES)[number];

interface About {
  /** As it is said. */
  readonly name: string;
  /** Other ways to say or type it, in small letters. Common practice, no source. */
  readonly also: readonly string[];
  readonly voice: Voice;
  readonly zone?: Zone;
}

const ABOUT: Readonly<Record<Surface, About>> = {
  kick: { name: "kick", also: ["bass drum", "bass", "kick drum"], voice: "kick" },
  snare: { name: "snare", also: ["snare drum", "snare head", "head"], voice: "snare", zone: "head" },
  "rim-shot": { name: "rim shot", also: ["rimshot", "snare rim", "rim"], voice: "snare", zone: "rim" },
  "cross-stick": { name: "cross-stick", also: ["side stick", "rim click"], voice: "cross-stick" },
  "hi-hat-closed": {
    name: "closed hi-hat",
    also: ["hi-hat", "hat", "closed", "closed hat", "hi-hat closed"],
    voice: "hi-hat-closed",
  },
  "hi-hat-half": {
    name: "half-open hi-hat",
    also: ["half open", "half", "half hat", "hi-hat half", "half hi-hat"],
    voice: "hi-hat-open",
  },
  "hi-hat-open": { name: "open hi-hat", also: ["open", "open hat", "hi-hat open"], voice: "hi-hat-open" },
  "hi-hat-pedal": {
    name: "hi-hat pedal",
    also: ["pedal", "foot", "hi-hat foot", "pedal hat", "foot hi-hat"],
    voice: "hi-hat-pedal",
  },
  "high-tom": { name: "high tom", also: ["tom 1", "first tom", "small tom", "high"], voice: "high-tom" },
  "mid-tom": {
    name: "mid tom",
    also: ["tom 2", "second tom", "middle tom", "mid", "low tom"],
    voice: "mid-tom",
  },
  "floor-tom": { name: "floor tom", also: ["tom 3", "third tom", "floor"], voice: "floor-tom" },
  ride: { name: "ride", also: ["bow", "ride bow", "ride cymbal"], voice: "ride", zone: "bow" },
  bell: { name: "ride bell", also: ["bell", "cup"], voice: "bell" },
  "crash-left": { name: "crash left", also: ["left crash", "crash 1", "left"], voice: "crash-left" },
  "crash-right": { name: "crash right", also: ["right crash", "crash 2", "right"], voice: "crash-right" },
};

/** As it is said: "half-open hi-hat". */
export function surfaceName(surface: Surface): string {
  return ABOUT[surface].name;
}

/** What is struck to sound it. */
export function strokeOf(surface: Surface): { readonly voice: Voice; readonly zone?: Zone } {
  const { voice, zone } = ABOUT[surface];
  return zone === undefined ? { voice } : { voice, zone };
}

/** Between these the hi-hat counts as half open. Our choice: the middle half of the pedal's way. */
const HALF_FROM = 0.25;
const HALF_TO = 0.75;

/** The surface a strike sounded; `null` for one that is none of them. */
export function surfaceOf({
  voice,
  zone,
  openness,
}: Pick<Hit, "voice" | "zone" | "openness">): Surface | null {
  switch (voice) {
    case "snare":
      return zone === "rim" ? "rim-shot" : "snare";
    case "hi-hat-open":
    case "hi-hat-closed":
      if (openness === undefined) return voice;
      if (openness < HALF_FROM) return "hi-hat-closed";
      return openness <= HALF_TO ? "hi-hat-half" : "hi-hat-open";
    case "ride":
      return zone === "bell" ? "bell" : "ride";
    default:
      return isSurface(voice) ? voice : null;
  }
}

function isSurface(text: string): text is Surface {
  return (SURFACES as readonly string[]).includes(text);
}

/** Letters only, so that "Rim-shot", "rim shot" and "rimshot" are one. */
function plain(text: string): string {
  return text.toLowerCase().replace(/[^a-z0-9]/g, "");
}

const BY_NAME: ReadonlyMap<string, Surface> = new Map(
  SURFACES.flatMap((surface) =>
    [ABOUT[surface].name, ...ABOUT[surface].also].map((name) => [plain(name), surface] as const),
  ),
);

/**
 * The surface a name means, however it is spaced; `null` for a name of none.
 *
 * @example
 * surfaceCalled("Rimshot") // => "rim-shot"
 */
export function surfaceCalled(text: string): Surface | null {
  return BY_NAME.get(plain(text)) ?? null;
}

const ROWS = ["two", "three", "four", "five", "six", "seven", "eight"] as const;

/**
 * The name of what a result is about: a surface, a row, two at once, or a touch; `undefined` for another text.
 *
 * @example
 * soundName("sequence-3") // => "Three in a row"
 */
export function soundName(sound: string): string | undefined {
  const plainName = isSurface(sound) ? surfaceName(sound) : OTHER_SOUNDS[sound];
  return plainName && plainName.charAt(0).toUpperCase() + plainName.slice(1);
}

const OTHER_SOUNDS: Readonly<Record<string, string>> = {
  "two-at-once": "two at once",
  "loud-stroke": "a loud stroke",
  "soft-stroke": "a soft stroke",
  ...Object.fromEntries(ROWS.map((number, place) => [`sequence-${place + 2}`, `${number} in a row`])),
};
